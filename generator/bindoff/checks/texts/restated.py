"""What texts say again that the pattern states in figures: gauge, ease, sizes and balls."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.keys.sizes import bodies
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.easesaid import spans_of_ease
from bindoff.checks.texts.told.numbers import ONES
from bindoff.checks.walk import length_said, millimetres
from bindoff.diagnostics import Severity, Span
from bindoff.plan.fit import Fitted, fitted
from bindoff.plan.gauge import Gauge
from bindoff.plan.values import Kind
from bindoff.source.lengths import parse_ball, parse_length

_NUMBER = rf"(?:(?<!\d)\d{{1,5}}(?:\.\d{{1,3}})?(?: ?[½¼¾])?|{'|'.join(ONES)})"
_UNIT = r"(cm|centimet(?:er|re)s?|in\b|inch(?:es)?|\"|”)"
_LENGTH = rf"({_NUMBER})[ -]?{_UNIT}"
_IN_THE_OTHER = rf"(?: ?[(/] ?(?:about )?{_NUMBER} ?{_UNIT.replace('(', '(?:', 1)} ?\)?)?"
_STITCHES_TO = re.compile(
    rf"(?<![\w.,(/–-])({_NUMBER}) (?:\w+ )?(stitch(?:es)?|sts?|rounds?|rnds?|rows?)"
    r"(?: (?:and|by|x|×|/) (?:" + _NUMBER + r") (?:rounds?|rnds?|rows?))?"
    rf"(?: of [\w ]{{1,30}}?)? (?:to|over|in|per|for|make|makes|give|gives|are|is|measure"
    rf"|measures|equal|=|every)"
    rf"(?: about| exactly| every| each)? {_LENGTH}",
    re.IGNORECASE,
)
_LENGTH_IS = re.compile(
    rf"\b(?:every|each|per|for) {_LENGTH}{_IN_THE_OTHER}(?: of (?:length|width|height|depth))?,?"
    rf" (?:is|are|takes?|needs?|has|have|means?|makes?|gives?|equals?|=|add|knit|work)"
    rf"(?: about)? ({_NUMBER}) (stitch(?:es)?|sts?|rounds?|rnds?|rows?)\b",
    re.IGNORECASE,
)
_ASKED = re.compile(
    r"\b(?:fewer|less|more|over|under|instead|not|unless|too|reaches|about to|after)\b",
    re.IGNORECASE,
)
_ROUNDING = 0.6


@check(
    id="prose.gauge",
    title="A gauge in the text is the pattern's gauge",
    looks_at="`9 stitches to 5 cm`, `11 rounds make 2.5 cm` and `every 2.5 cm is 6 rounds` in "
    "every text, against all gauges",
    why="a knitter who swatches for the figure in the notes knits another size",
    severity=Severity.WARNING,
    remedy="Correct the figure: gauge times length, rounded",
    needs=Needs.MEASURES,
)
def gauge_restated(context: Context) -> Iterator[Finding]:
    """One finding for each figure."""
    gauges = {gauge for size in context.plan.measures.sizes for gauge in size.gauges.values()}
    place = context.pattern.gauge.place.span
    for sentence in sentences(context):
        for found in _STITCHES_TO.finditer(sentence.words):
            yield from _other_gauge(sentence, found, (1, 2, 3, 4), gauges, place)
        for found in _LENGTH_IS.finditer(sentence.words):
            yield from _other_gauge(sentence, found, (3, 4, 1, 2), gauges, place)


def _other_gauge(
    sentence: Sentence, found: "re.Match[str]", at: Sequence[int], gauges: set[Gauge], place: Span
) -> Iterator[Finding]:
    count, counted, length, unit = (found[each] for each in at)
    before = sentence.words[max(found.start() - 30, 0) : found.start()]
    supposed = sentence.supposes and not re.search(r"\bthan $", before, re.IGNORECASE)
    if supposed or (_ASKED.search(before) and not re.search(r"\bthan $", before, re.IGNORECASE)):
        return
    number, mm = _figure(count), millimetres(_figure(length), unit)
    across = counted.lower().startswith("st")
    right = sorted({mm / (each.stitch_mm if across else each.round_mm) for each in gauges})
    if number < 2 or mm > _LONGEST_MM or any(abs(number - each) <= _off(each) for each in right):
        return
    said = " or ".join(f"{each:.3g}" for each in right[:3])
    yield Finding(
        f"`{found[0]}` stands here, and the gauge gives {said} {counted}",
        sentence.place(found),
        beside=(place,),
    )


_LONGEST_MM = 210.0  # over more it is a width of the piece, which is rounded as such


def _off(right: float) -> float:
    return max(_ROUNDING, 0.04 * right)


def _figure(written: str) -> float:
    word = written.lower()
    if word in ONES:
        return float(ONES[word])
    return parse_length(f"{written} mm")


_EASE = re.compile(
    rf"(?:(?:{_LENGTH}{_IN_THE_OTHER}) (?:of |in )?)?(?:(positive|negative|no|zero) )?ease\b",
    re.IGNORECASE,
)
_COMPARED = re.compile(
    r"(?:\b|(?<=%))(?:is|are|be|comes? out|sits?|made|knitted|knit|worked|a little|slightly"
    r"|somewhat|much"
    r"|tenth|(?<=%)) (?:\w+ ){0,2}?"
    r"(smaller|narrower|tighter|larger|bigger|wider|looser|roomier) (?:\w+ )?than (?:the|your|a"
    r"|one's|his|her) "
    r"(head|foot|feet|hand|chest|bust|wrist|calf|leg|ankle|neck|hips?|waist|body|wearer)\b",
    re.IGNORECASE,
)
_BY_SO_MUCH = re.compile(
    r"\b(?:is|are|comes? out|made|worked|knitted|knit)\b (?:\w+ ){0,2}?(?:an? (?:tenth|fifth"
    r"|eighth|twentieth|little|bit)"
    r"|slightly|somewhat|\d+(?: ?%| per ?cent)) (smaller|narrower|tighter|larger|bigger|wider"
    r"|looser|roomier)"
    r"(?: around)?(?! sizes?| needles?)\b",
    re.IGNORECASE,
)
_PARTS = re.compile(
    r"\b(head|foot|feet|hand|chest|bust|wrist|calf|leg|ankle|neck|hips?|waist|body|wearer)\b",
    re.IGNORECASE,
)
_ROOM = ("larger", "bigger", "wider", "looser", "roomier")
_EASE_SLACK_MM = 16.0


@check(
    id="prose.ease",
    title="Ease in the text is the ease of the sizes",
    looks_at="`10 cm of positive ease`, `negative ease` and `smaller than the foot` in every text "
    "against finished minus body measurements, within 1.5 cm",
    why="the knitter chooses the size by the ease that is told",
    severity=Severity.WARNING,
    remedy="Correct the words, or the measurements",
    needs=Needs.MEASURES,
)
def ease_restated(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    fits = tuple(fitted(context.plan.measures.finished, dict(bodies(context))))
    for sentence in sentences(context):
        yield from _around_the_body(context, sentence)
        if not fits:
            continue
        yield from _roomy(context, sentence, fits)
        yield from spans_of_ease(context, sentence, fits)
        for found in sentence.said(_EASE):
            if not sentence.supposes or found[1] is None:
                yield from _other_ease(context, sentence, found, fits)
        parts = _PARTS.findall(sentence.words)
        compared = [(found, found[2]) for found in sentence.said(_COMPARED)]
        if len(set(parts)) == 1:
            compared += [(found, parts[0]) for found in sentence.said(_BY_SO_MUCH)]
        for found, part in compared:
            named = [fit for fit in fits if _is_part(fit.dimension, part.lower())]
            roomy = found[1].lower() in _ROOM
            if named and not sentence.supposes and all(_other_way(fit, roomy) for fit in named):
                yield Finding(
                    f"`{found[0]}` stands here, and {_eased(context, named[0])}",
                    sentence.place(found),
                )


_DIFFERS = re.compile(
    r"(?:(?:\bcm|\bin|\binches|%) |\b(?:is|are|be|sits?|little|slightly|somewhat|much|bit) )"
    r"(?P<way>smaller|narrower|tighter|shorter|larger|bigger|wider|looser|roomier|longer) "
    r"(?:\w+ )?than (?:the|your|a|one's|his|her) (?P<part>[a-z]+)\b(?! (?:sizes?|needles?|long\b))",
    re.IGNORECASE,
)
_MORE = (*_ROOM, "longer")


def _around_the_body(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """What is said to be larger or smaller than the only part of the body that the sizes give, of
    the measure around that the sentence names, or of the only one there is."""
    parts = dict(bodies(context))
    if len(parts) != 1 or sentence.supposes:
        return
    (part, body), *_ = parts.items()
    for found in sentence.said(_DIFFERS):
        if found["part"].lower() != part:
            continue
        around = {
            label.lower(): measure.rounded
            for label, measure in context.plan.measures.finished.items()
            if measure.kind is Kind.LENGTH
            and re.search(r"\baround\b|\bcircumference\b", label, re.I)
        }
        words = sentence.words.lower()
        named = {
            label: mm
            for label, mm in around.items()
            if (rest := re.sub(r"\b(?:around|the|circumference|finished)\b", "", label).split())
            and " ".join(rest) in words
        }
        chosen = list((named or around).values())
        if len(chosen) != 1:
            continue
        ease = [a - b for a, b in zip(chosen[0], body, strict=False)]
        more = found["way"].lower() in _MORE
        if all(mm < -2 if more else mm > 2 for mm in ease):
            said = length_said(context, abs(ease[0]))
            yield Finding(
                f"`{found[0].strip()}` stands here, and it is {said} "
                f"{'less' if more else 'more'} in size {context.source.sizes[0]}",
                sentence.place(found),
            )


_FIT = re.compile(
    r"\b(?:is|are|fits?|sits?|comes? out) (?:very |rather |quite )?(close[- ]fitting|skin[- "
    r"]tight|tight"
    r"|snug|roomy|loose|oversized|generous)\b(?!ly)",
    re.IGNORECASE,
)
_ROOMY_MM = 50.0


def _roomy(context: Context, sentence: Sentence, fits: Sequence[Fitted]) -> Iterator[Finding]:
    """A chest that is called close-fitting or roomy, against its ease."""
    chests = [fit for fit in fits if fit.dimension == "chest"]
    for found in sentence.said(_FIT) if chests and not sentence.supposes else ():
        loose = found[1].lower() in ("roomy", "loose", "oversized", "generous")
        if all(mm < 0 if loose else mm > _ROOMY_MM for fit in chests for mm in fit.mm):
            yield Finding(
                f"`{found[0]}` stands here, and {_eased(context, chests[0])}", sentence.place(found)
            )


def _is_part(dimension: str, part: str) -> bool:
    if part in ("body", "wearer"):
        return True
    return dimension == {"feet": "foot", "bust": "chest", "hips": "hip"}.get(part, part)


def _other_way(fit: Fitted, roomy: bool) -> bool:
    return all(mm < -2 if roomy else mm > 2 for mm in fit.mm)


def _eased(context: Context, fit: Fitted) -> str:
    least, most = min(fit.mm), max(fit.mm)
    said = length_said(context, least)
    if most - least > 1:
        said += f" to {length_said(context, most)}"
    return f"the ease of `{fit.label}` is {said}"


def _other_ease(
    context: Context, sentence: Sentence, found: "re.Match[str]", fits: Sequence[Fitted]
) -> Iterator[Finding]:
    named = [fit for fit in fits if re.search(rf"\b{fit.dimension}\b", sentence.words)] or fits
    sign = (found[3] or "").lower()
    said = f"`{found[0].strip()}` stands here, and {_eased(context, named[0])}"
    if sign in ("positive", "negative") and all(_other_way(f, sign == "positive") for f in named):
        yield Finding(said, sentence.place(found))
        return
    if found[1] is None or sign in ("no", "zero"):
        return
    mm = millimetres(_figure(found[1]), found[2]) * (-1 if sign == "negative" else 1)
    least = min(min(fit.mm) for fit in named)
    most = max(max(fit.mm) for fit in named)
    either = (mm,) if sign else (mm, -mm)
    if not any(least - _EASE_SLACK_MM <= each <= most + _EASE_SLACK_MM for each in either):
        yield Finding(said, sentence.place(found))


_BRACKETED = re.compile(
    r"\b(?:figures?|numbers?|instructions?|directions?|those|counts?|changes?)\b[^.;]{0,20}?\bfor "
    r"(?:the )?"
    r"(larger|bigger|smaller|largest|biggest|smallest|other|first) (?:\w+ )?(?:sizes?"
    r"|ones?)\b(?:(?!\b(?:with|others?|first|then|rest|larger|bigger|smaller)\b)[^.;]){0,40}?"
    r"\b(?:in|between|within|inside) (?:round |square )?(?:brackets|parentheses)",
    re.IGNORECASE,
)


@check(
    id="prose.size-words",
    title="Sizes in words are the sizes in their order",
    looks_at="which sizes stand in brackets, lists of sizes such as S (M, L), sizes called wide or "
    "small, in every text",
    why="a knitter who picks the wrong place in the list follows another size throughout",
    severity=Severity.WARNING,
    remedy="Name the sizes in the order of `sizes:`, of which all but the first stand in brackets",
    needs=Needs.MEASURES,
)
def sizes_in_words(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    names = tuple(context.source.sizes)
    if len(names) < 2:
        return
    rising = _rising(context)
    every = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    listed = re.compile(
        rf"(?<![\w–-])({every}) ?\(((?:{every})(?:(?:,| and|, and| or) (?:{every}))*)\)"
    )
    of_one = re.compile(
        rf"\b(?i:figures?|numbers?|instructions?|those|counts?)\b[^.;]{{0,20}}?\bfor (?:the "
        rf")?(?:size )?({every})"
        r"(?: size)?\b[^.;,]{0,15}?\b(?:in|between|within|inside) (?:round |square )?(?:brackets"
        r"|parentheses)",
    )
    alone = re.compile(
        rf"\b(?:with |and )?(?:size )?({every})(?: size)? (?:is |stands |given )?(?:in|inside)"
        r" (?:round |square )?(?:brackets|parentheses)\b"
    )
    wide = re.compile(
        rf"\b(?:(?:the )?size )?({every})(?: size)? (?:is|has|comes out|falls|sits) (?:the "
        rf")?(?:\w+ )?"
        r"(wide|wider|widest|larger|largest|biggest|bigger|roomier|roomy|narrow|narrower"
        r"|narrowest|smaller"
        r"|smallest|snug|snugger|tighter|tightest)\b"
    )
    for sentence in sentences(context):
        for found in sentence.said(listed):
            told = (found[1], *re.findall(every, found[2]))
            if set(told) == set(names) and told != names:
                right = f"{names[0]} ({', '.join(names[1:])})"
                yield Finding(f"`{found[0]}` stands here: {right}", sentence.place(found))
        for found in sentence.said(_BRACKETED) if rising else ():
            first = found[1].lower() in ("smaller", "smallest", "first")
            if first is (rising > 0) and found[1].lower() != "other":
                yield Finding(
                    f"`{found[0]}`, and the first size, {names[0]}, stands before them",
                    sentence.place(found),
                )
        for found in (*sentence.said(of_one), *sentence.said(alone)):
            if found[1] == names[0]:
                yield Finding(f"`{found[0]}`, and {names[0]} comes first", sentence.place(found))
        for found in sentence.said(wide) if rising else ():
            large = found[2][0] in "wlbr"
            smallest, largest = (names[0], names[-1])[:: 1 if rising > 0 else -1]
            if found[1] == (smallest if large else largest) and not sentence.supposes:
                other = "smallest" if large else "largest"
                yield Finding(f"`{found[0]}`, and it is the {other} size", sentence.place(found))


def _rising(context: Context) -> int:
    """1 where the sizes grow from first to last, -1 where they shrink, 0 where neither is sure."""
    measures = context.plan.measures.finished.values()
    steps = [m.rounded[-1] - m.rounded[0] for m in measures if m.kind is Kind.LENGTH]
    if steps and all(step >= 0 for step in steps) and any(steps):
        return 1
    return -1 if steps and all(step <= 0 for step in steps) and any(steps) else 0


_BALL_OF = re.compile(
    r"\b(?:skeins?|balls?|hanks?|cones?)(?: of yarn)? of (?:about )?(\d+(?:\.\d+)?) ?(g|grams?)\b"
    r"|\b(\d+(?:\.\d+)?)[ -]?(g|grams?) (?:skeins?|balls?|hanks?|cones?)\b",
    re.IGNORECASE,
)


@check(
    id="prose.ball",
    title="A ball in the text weighs what the yarn's ball weighs",
    looks_at="`a skein of 50 g` and `one 50 g ball` in every text, against `ball:` of the yarns",
    why="the knitter buys half of what is needed",
    severity=Severity.WARNING,
    remedy="Correct the weight",
    needs=Needs.SOURCE,
)
def balls_restated(context: Context) -> Iterator[Finding]:
    """One finding for each weight."""
    weights = sorted({parse_ball(yarn.ball)[0] for yarn in context.pattern.yarns.values()})
    for sentence in sentences(context):
        for found in sentence.said(_BALL_OF) if not sentence.supposes else ():
            grams = float(found[1] or found[3])
            if not any(abs(grams - each) <= max(1.0, 0.02 * each) for each in weights):
                right = " or ".join(f"{each:g}" for each in weights)
                yield Finding(f"`{found[0]}`: the yarn's have {right} g", sentence.place(found))


CHECKS = (gauge_restated, ease_restated, sizes_in_words, balls_restated)
