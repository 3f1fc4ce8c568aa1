"""What a text says of the whole that the pieces, their rows or their charts say otherwise."""

import colorsys
from collections import Counter
from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.told.numbers import number_of
from bindoff.checks.walk import charts_worked, steps_of
from bindoff.checks.work.floats import longest_float
from bindoff.diagnostics import Severity
from bindoff.english import an
from bindoff.source.model import TextUse
from bindoff.source.steps.edging import EdgingStep

_NECKS: Mapping[str, str] = {
    "V": r"V",
    "round": r"round|crew|scoop",
    "boat": r"boat|bateau",
    "square": r"square",
    "high": r"polo|turtle|roll|funnel",
}
_NECK = re.compile(
    rf"\b({'|'.join(_NECKS.values())})[- ]?neck(?:ed|s|line|lines)?\b(?! with)", re.IGNORECASE
)
_ALIKE = re.compile(
    r"\b(?:the |both |two )+(?:([a-z]+?)s|other) (?:are|is) (?:worked |made |knitted )?(?:both "
    r"|all |quite "
    r"|exactly )?(?:alike|identical|the same)\b(?! (?:but|except|way as)|, (?:but|except))",
    re.IGNORECASE,
)
_TIGHT = re.compile(
    r"(?<!not )(?<!not too )(?<!too )(?<!never )\btightly\b|\b(?:on|with) (?:a |the )?smaller "
    r"needles?\b",
    re.IGNORECASE,
)
_BIND_TIGHTLY = re.compile(
    r"\b(?:bind|cast) off(?: \w+){0,3}? (?:very |quite )?tightly\b", re.IGNORECASE
)
_NEEDLESS = re.compile(
    r"\b(?:no|without(?: any)?) (crochet(?:ing)?|sewing|seaming|seams|purling|cabling|picking up"
    r"|colou?rwork)\b"
    r"(?: (?:is|are) (?:needed|necessary|required|involved))?",
    re.IGNORECASE,
)
_FELTED = re.compile(
    r"\b(?:until|till) (?:it|they)(?: is| are| has| have)? (?:well |fully )?felt(?:s|ed)?\b"
    r"|\bfelt (?:it|them|the \w+) in\b",
    re.IGNORECASE,
)
_ANY_FELT = re.compile(r"\bfelt(?:s|ed|ing)?\b", re.IGNORECASE)
_FLOATS = re.compile(
    r"\b(?:no float (?:is|runs|passes|goes)(?: \w+)? (?:longer|more|over|further) than|longest "
    r"floats? (?:is|are|pass\w*|run\w*)"
    r"(?: behind| over)?|floats? (?:of|over) at most) (\d+|two|three|four|five|six|seven|eight"
    r"|nine|ten) (?:stitches|sts)\b",
    re.IGNORECASE,
)


@check(
    id="prose.fact",
    title="What the text says of the whole agrees with the pieces",
    looks_at="the shape of the neck, pieces called alike that mirror each other, edges closed "
    "tightly, crochet said to be needless, how far floats go, and felting told once alone",
    why="a reader who finds one sentence untrue trusts none of the others",
    severity=Severity.WARNING,
    remedy="Correct the sentence, or the steps",
)
def facts_hold(context: Context) -> Iterator[Finding]:
    """One finding for each statement."""
    for sentence in sentences(context):
        for find in (_necks, _alike, _needless, _floats, _felted):
            yield from find(context, sentence)
        for found in sentence.said(_BIND_TIGHTLY):
            yield Finding(
                f"`{found[0]}`: an edge that is bound off tightly draws in",
                sentence.place(found),
                "Bind off loosely, or as the edge stretches",
            )
        if sentence.prose.path[-1:] == ("how",):
            for found in sentence.said(_TIGHT):
                yield Finding(
                    f"`{found[0]}` makes an edge that draws in",
                    sentence.place(found),
                    "Work it loosely, on a larger needle if need be",
                )


def _necks(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A neck of another shape than the sections tell."""
    if sentence.prose.kind not in (TextUse.HEAD, TextUse.TEXT):
        return
    for found in sentence.said(_NECK):
        headed = {
            _neck(each[1]) for at in steps_of(context) for each in _NECK.finditer(at.step.heading)
        }
        if headed and _neck(found[1]) not in headed:
            yield Finding(
                f"`{found[0]}` stands here, and the pieces have "
                f"{' and '.join(an(each) for each in sorted(headed))} neck",
                sentence.place(found),
            )


def _neck(word: str) -> str:
    return next(k for k, words in _NECKS.items() if re.fullmatch(words, word, re.IGNORECASE))


def _alike(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Pieces called alike of which one mirrors the other."""
    for found in sentence.said(_ALIKE):
        pieces = [
            piece
            for piece in context.pattern.pieces.values()
            if piece.mirror_of and found[1] and re.search(rf"\b{found[1]}s?\b", piece.title, re.I)
        ]
        if pieces and not sentence.supposes:
            other = context.pattern.pieces[pieces[0].mirror_of or ""].title.lower()
            yield Finding(
                f"`{found[0]}` stands here, and the {pieces[0].title.lower()} is the mirror image "
                f"of the {other}",
                sentence.place(found),
            )


def _needless(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Work that is said to be needless, and that a step does."""
    for found in _NEEDLESS.finditer(sentence.words):
        if not found[1].lower().startswith("crochet") or sentence.supposes:
            continue
        if any(isinstance(at.step.step, EdgingStep) for at in steps_of(context)):
            yield Finding(
                f"`{found[0]}` stands here, and an edging is crocheted", sentence.place(found)
            )


def _floats(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """How far floats go."""
    for found in sentence.said(_FLOATS):
        longest = _longest_float(context)
        if longest > _number(found[1]):
            yield Finding(
                f"`{found[0]}` stands here, and the longest float passes {longest}",
                sentence.place(found),
            )


def _number(written: str) -> int:
    return int(written) if written.isdigit() else number_of(written)


def _longest_float(context: Context) -> int:
    """The stitches that the longest float of the charts passes behind."""
    return max((longest_float(context, at, each) for at, each in charts_worked(context)), default=0)


def _felted(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Felting that no other text knows of."""
    for found in sentence.said(_FELTED):
        told = sum(len(_ANY_FELT.findall(each.raw)) for each in context.prose)
        if told == 1 and "felt" not in context.pattern.gauge.state:
            yield Finding(
                f"`{found[0]}` stands here, and nothing else tells that it is felted",
                sentence.place(found),
            )


# ---------------------------------------------------------------- colours in words

_HUES: Mapping[str, tuple[float, float]] = {
    "red": (340, 25),
    "orange": (10, 50),
    "yellow": (35, 75),
    "gold": (30, 65),
    "green": (65, 180),
    "turquoise": (155, 205),
    "teal": (160, 210),
    "blue": (185, 265),
    "purple": (250, 330),
    "violet": (245, 320),
}
_COLOUR = "|".join(_HUES)
_ON_A_GROUND = re.compile(
    rf"\b({_COLOUR}|dark|light|pale|white|black)\b(?:,? \w+)?? (?:\w+) on (?:an? |the )"
    rf"({_COLOUR}|dark|light|pale|white|black) (?:ground|background)\b",
    re.IGNORECASE,
)
_GREYISH, _HALF = 0.25, 0.5


@check(
    id="prose.colour",
    title="Colors in words are those of the yarns",
    looks_at="`a red anchor` for a chart of that name, `dark diamonds on a yellow ground` in every "
    "text and alternative text, and where a motif is said to be, against the colors of the legend "
    "and the place of the motif",
    why="who can't see the chart works from the words, and exchanges the two yarns",
    severity=Severity.WARNING,
    remedy="Name the colors that the yarns have",
)
def colours_told(context: Context) -> Iterator[Finding]:
    """One finding for each statement."""
    if not context.in_english:
        return
    titles = {chart.title.lower(): key for key, chart in context.pattern.charts.items()}
    if not titles:
        return
    named = "|".join(re.escape(each) for each in titles)
    adjective = re.compile(rf"\b({_COLOUR}) ({named})s?\b", re.IGNORECASE)
    placed = re.compile(
        rf"\b({named})\b(?: \w+){{0,3}}? (?:at|on|in) the (?:\w+ )?(front|back)\b", re.IGNORECASE
    )
    for sentence in sentences(context, TextUse.HEAD, TextUse.STEP, TextUse.TEXT, TextUse.ALT):
        for found in sentence.said(adjective):
            motif, ground = _yarns(context, titles[found[2].lower()])
            word, all_of_it = found[1].lower(), (*motif, ground)
            if motif and not any(may_be_called(word, each) for each in all_of_it):
                nearest = min(all_of_it, key=lambda each: _hue_apart(word, each))
                yield Finding(
                    f"`{found[0]}` stands here, and the nearest of its yarns is "
                    f"{_called(context, (nearest,))}",
                    sentence.place(found),
                )
        for found in sentence.said(placed):
            places = {
                str(motif.at_)
                for piece in context.pattern.pieces.values()
                for motif in piece.motifs
                if motif.chart == titles[found[1].lower()]
            }
            if len(places) == 1 and places < {"front", "back"} and found[2].lower() not in places:
                yield Finding(
                    f"`{found[0]}` stands here, and the motif is at the {places.pop()}",
                    sentence.place(found),
                )
        if sentence.prose.path[:1] != ("charts",):
            continue
        for found in sentence.said(_ON_A_GROUND):
            motif, ground = _yarns(context, str(sentence.prose.path[1]))
            if len(motif) != 1 or not ground:
                continue
            one, other = found[1].lower(), found[2].lower()
            if not (may_be_called(one, motif[0]) and may_be_called(other, ground)) and (
                may_be_called(one, ground) and may_be_called(other, motif[0])
            ):
                yield Finding(
                    f"`{found[0]}` stands here, and the ground is {_called(context, (ground,))}",
                    sentence.place(found),
                )


def _yarns(context: Context, chart: str) -> tuple[tuple[str, ...], str]:
    """The colors of a chart besides its ground, and its ground: what most of its cells have."""
    legend = context.pattern.charts[chart].legend
    counts = Counter[str]()
    for grid, sizes in Counter(context.source.grids.get(chart, ())).items():
        for cell, number in Counter("".join(grid.rounds)).items():
            counts[str(legend.get(cell))] += sizes * number
    known = context.pattern.yarns
    colours = [known[each].colour for each, _ in counts.most_common() if each in known]
    if len(colours) < 2:
        return (), ""
    return tuple(colours[1:]), colours[0]


def _called(context: Context, colours: tuple[str, ...]) -> str:
    yarns = context.pattern.yarns.values()
    return " and ".join(yarn.name for yarn in yarns if yarn.colour in colours)


def may_be_called(word: str, colour: str) -> bool:
    """Whether a color, such as ``#3d4a57``, may be called so; greys and browns may be called much,
    so all but clear contradictions pass."""
    _, light, full = _hue_light_full(colour)
    if word in ("gray", "grey"):
        return full < _GREYISH
    if word in ("dark", "black"):
        return light < _HALF
    if word in ("light", "pale", "white"):
        return light >= _HALF
    return word in _HUES and _hue_apart(word, colour) == 0


_NO_HUE = 360.0


def _hue_apart(word: str, colour: str) -> float:
    """How many degrees a colour's hue lies beside those that are called so; a grey has none."""
    hue, light, full = _hue_light_full(colour)
    if full < _GREYISH or not 0.12 < light < 0.93:
        return _NO_HUE
    low, high = _HUES[word]
    wide, above = (high - low) % 360, (hue - low) % 360
    return 0.0 if above <= wide else min(above - wide, 360 - above)


def _hue_light_full(colour: str) -> tuple[float, float, float]:
    """Hue in degrees, lightness and saturation from 0 to 1."""
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    hue, light, full = colorsys.rgb_to_hls(red, green, blue)
    return 360 * hue, light, full


CHECKS = (facts_hold, colours_told)
