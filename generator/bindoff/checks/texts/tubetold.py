"""What texts say of a tube from the machine: its motifs, layers and ends; how sizes are knitted."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted, sentences
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import steps_of
from bindoff.source.tube import Motif


def tubes_told(context: Context) -> Iterator[Finding]:
    """Everything that some sentence says of a tube and that is not so."""
    folded = [piece for piece in context.pattern.pieces.values() if piece.tube is not None]
    yield from _motifs(context)
    if not folded:
        return
    closed = _closed(context)
    for sentence in sentences(context):
        if "layers" in sentence.words:
            yield from _layers(sentence)
        if closed and "open" in sentence.words:
            yield from _open(sentence)


# ---------------------------------------------------------------- where a motif stands

_AT = phrase(
    r"\b(?:in|on|at|to|across) (?:the (?:very )?(?:middle|centre|center) of )?the (front|back)\b"
    r"(?! of (?:the|each|every)| (?:of|needle|and|or)\b)"
)


def _motifs(context: Context) -> Iterator[Finding]:
    """A motif on the one side of a tube that texts have on the other: told at the motif where
    several texts agree, and at the text where it stands alone."""
    for piece in context.pattern.pieces.values():
        for chart in {motif.chart for motif in piece.motifs}:
            motifs = [motif for motif in piece.motifs if motif.chart == chart]
            sides = {str(motif.at_) for motif in motifs}
            if len(sides) == 1 and sides <= {"front", "back"}:
                yield from _elsewhere(context, motifs[0], sides.pop())


def _elsewhere(context: Context, motif: Motif, side: str) -> Iterator[Finding]:
    told = list(_told_of(context, motif.chart))
    wrong = [(sentence, found) for sentence, found in told if found[1].lower() != side]
    if len(wrong) == len(told) > 1:
        yield Finding(
            f"the motif stands at the {side}, and the texts have it at the "
            f"{wrong[0][1][1].lower()}",
            motif.place.of("at").span,
            beside=tuple(sentence.place(found) for sentence, found in wrong),
        )
        return
    for sentence, found in wrong:
        yield Finding(
            f"`{quoted(found)}` stands here, and the motif is at the {side}",
            sentence.place(found),
            beside=(motif.place.of("at").span,),
        )


def _told_of(context: Context, chart: str) -> Iterator[tuple[Sentence, "re.Match[str]"]]:
    """The sentences that name a motif by its title and say on which side it stands."""
    title = context.pattern.charts[chart].title
    named = re.compile(rf"\b(?:{re.escape(title)}|{re.escape(chart)})\b", re.IGNORECASE)
    for sentence in sentences(context):
        if not re.search(r"\b(?:front|back)\b", sentence.words) or sentence.supposes:
            continue
        found = list(sentence.said(_AT))
        if len(found) == 1 and named.search(sentence.words):
            yield sentence, found[0]


# ---------------------------------------------------------------- its layers and ends

_LAYERS = re.compile(r"(?<![\w.])(\d+) layers\b")
_OF_A_TUBE = (1, 2, 4)
"""A tube pushed into itself has two layers, and four where its brim is turned up."""
_LEFT_OPEN = phrase(r"\bleft open at (?:both|the|either|its)(?: \w+)? ends?\b(?! until)")


def _layers(sentence: Sentence) -> Iterator[Finding]:
    words = in_figures(sentence.words)
    for found in _LAYERS.finditer(words):
        if int(found[1]) not in _OF_A_TUBE and not sentence.supposes:
            said = sentence.words[found.start() : found.end()].strip()
            yield Finding(
                f"`{said}` stands here, and a tube pushed into itself has 2 layers, and 4 where "
                f"it is turned up",
                sentence.place(found),
            )


def _closed(context: Context) -> bool:
    """Whether the live stitches of every tube are gathered or joined."""
    steps = [at.step for at in steps_of(context) if at.plan.from_machine]
    return any(step.closes is not None and step.closes.by is not None for step in steps)


def _open(sentence: Sentence) -> Iterator[Finding]:
    for found in sentence.said(_LEFT_OPEN) if not sentence.supposes else ():
        yield Finding(
            f"`{quoted(found)}` stands here, and a later step closes the ends",
            sentence.place(found),
        )


# ---------------------------------------------------------------- how sizes are knitted


def sizes_told(context: Context) -> Iterator[Finding]:
    """Needles of the machine, and the tension, that a text gives to sizes by their names."""
    names = tuple(context.source.sizes)
    if len(names) < 2:
        return
    every = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    needled = phrase(rf"\bsize (?-i:({every}))\b(?:(?!\bsize\b)[^.;]){{0,40}}?\bwith (\d+) needles")
    tension = phrase(
        rf"\bsize (?-i:({every}))\b(?:(?!\bsize\b)[^.;]){{0,60}}?\b(looser|slacker|tighter|firmer)"
        rf"(?: (?:tension|gauge))? than (?:in )?(?:the )?(?:size )?(?-i:({every}))(?![\w-])"
    )
    for sentence in sentences(context):
        if "ize" not in sentence.words or sentence.supposes:
            continue
        for found in sentence.said(needled) if "needles" in sentence.words else ():
            right = context.pattern.needles(found[1])
            if right is not None and int(found[2]) != right:
                yield Finding(
                    f"`{quoted(found)}` stands here, and size {found[1]} has {right} needles",
                    sentence.place(found),
                )
        for found in sentence.said(tension) if "than" in sentence.words else ():
            yield from _other_tension(context, sentence, found)


def _other_tension(
    context: Context, sentence: Sentence, found: "re.Match[str]"
) -> Iterator[Finding]:
    sizes = {each.name: each for each in context.plan.measures.sizes}
    one, other = (
        [gauge.stitch_mm for gauge in sizes[name].gauges.values()] for name in (found[1], found[3])
    )
    loose = found[2].lower() in ("looser", "slacker")
    pairs = list(zip(one, other, strict=False))
    if pairs and all(a <= b if loose else a >= b for a, b in pairs):
        is_ = "the same" if one == other else "tighter" if loose else "looser"
        yield Finding(
            f"`{quoted(found)}` stands here, and the gauges of the sizes have it {is_}",
            sentence.place(found),
        )
