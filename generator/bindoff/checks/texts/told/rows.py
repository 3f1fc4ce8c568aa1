"""Numbers of rows, rounds, ridges and times in sentences, resolved to the steps they speak of."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.claimed import near
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import (
    NUMBER,
    ORDINAL,
    TIMES,
    number_of,
    ordinal_of,
    times_of,
)
from bindoff.checks.texts.told.scene import Scene, parts_named
from bindoff.checks.texts.told.truths import Figures, Truth, known, phrase
from bindoff.plan.worked import StepPlan

_ROWS = phrase(
    rf"(?<![\w.,/–-])({NUMBER})((?:[- ](?:more|garter|plain|pattern|knit|purl|rib|ribbed"
    rf"|stockinette"
    r"|stocking|further|last|first|such|pattern|short|right-side|wrong-side))*)"
    r"[- ](rows?|rounds?|rnds?|ridges?)\b"
)
_ELSEWHERE = phrase(
    r"^ (?:over|to 10|per|in 10|= |apart|ago|later|before|after|from|below|above|away|or|more|less"
    r"|fewer|longer|shorter|deeper|higher|lower|wide|of (?:the|each) (?!rib|garter|stock|pattern)"
    r"|of (?:the|this|each) (?:[\w'’-]+ )?chart|in (?:the|this) chart|and [\w-]+ st)"
)
_EVERY = phrase(r"\b(?:every|each) $")
_FOR_EVERY = phrase(r"\bfor (?:every|each) $")
_AFTER_WORDS = phrase(
    r"\b(?:after|before|about|some|around|or|to|and|least|than|for the first|for the last|within"
    r"|last|first|previous|until|between|other|another|chart has|repeat (?:is|of|over)|over|add"
    r"|skip|omit|leave) $"
)
_TO_COME = phrase(r"\b(?:follow|follows|next|now work|to come)\b")
_SQUARE = phrase(r"\b(?:stitches|sts) and $")
_LIST = phrase(r"\b(?:repeat|rep|repeating|these|those) (?:the |these |those |last )?$")
_SUBJECT = phrase(
    r"\b(?<!of\s)(?:the|each|every|both|all) ([a-z]+(?: [a-z]+)?) (?:is|are|has|have|takes?"
    r"|measures?|is "
    r"worked for"
    r"|are worked for|is worked over) (?:now |all |each |only |just )?$"
)
_MAKE = phrase(
    rf"\b({NUMBER}) rows (?:of garter stitch )?(?:make|are|give|form|come to|=|is) ({NUMBER})(?: "
    rf"garter)? ridges\b"
)


def rows_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every number of rows, rounds and ridges in a sentence."""
    text, at = sentence.words, sentence.start
    for found in _MAKE.finditer(text):
        rows, ridges = number_of(found[1]), number_of(found[2])
        if ridges not in (rows // 2, -(-rows // 2)):
            other_words = f"{rows} rows make {rows // 2} ridges"
            yield Statement(at + found.start(), at + found.end(), 0, None, other_words)
    for found in _ROWS.finditer(text):
        left, right = text[: found.start()], text[found.end() :]
        truth = _rows(context, scene, sentence, left, found[3].lower(), right)
        number = number_of(found[1])
        yield Statement(at + found.start(), at + found.end(), number, truth)


def _rows(
    context: Context, scene: Scene, sentence: Sentence, left: str, noun: str, right: str
) -> Truth | None:
    """What the rows are that stand between two parts of a sentence."""
    if _FOR_EVERY.search(left) or truths.WASTE.search(sentence.words):
        return None
    if _EVERY.search(left):
        return known("it is shaped again after", _intervals(context, scene, sentence))
    if _ELSEWHERE.search(right):
        return None
    if found := _SUBJECT.search(left):
        return _of_part(context, scene, found[1].split()[-1], noun)
    if scene.plan is None and _SQUARE.search(left) and noun.startswith("row"):
        return known("rows there are", _heights(context))
    if scene.plan is None or _AFTER_WORDS.search(left):
        return None
    if re.search(r"(?i)\bcharts?\b", left + right) and not any(s.charts for s in scene.section):
        return None
    if scene.own is not None:
        steps = (*scene.behind, scene.own)
        if not any(scene.own.rounds):
            return None
        if noun.startswith("ridge"):
            figures = [*truths.ridges_of(context, [scene.own]), *truths.ridges_of(context, steps)]
            return known("ridges there are", figures)
        figures = [*truths.rounds_of([scene.own]), *truths.rounds_of(steps)]
        figures.append(truths.plain([each.rounds for each in scene.own.after]))
        figures += truths.intervals_of(scene.own)
        figures += [truths.plain(each) for each in truths.shapings(scene.own)]
        figures += truths.rows_of_a_sort(context, [scene.own], sentence.words, right)
        return known("rows there are", [each for each in figures if any(each)])
    if _LIST.search(left):
        lists = [s for s in scene.coming if s.answers.in_turn and len(s.rows) > 1]
        rows = [truths.plain([len(s.rows)] * len(s.rounds)) for s in (*lists, *scene.behind)]
        rows += [f for s in scene.coming if s.charts for f in truths.rounds_of([s])]
        return known("rows there are", [*rows, *truths.rounds_of(scene.coming)])
    if noun.startswith("ridge"):
        return known("ridges there are", truths.ridges_of(context, scene.coming))
    figures = [*truths.rounds_of(scene.ahead), *truths.rounds_of(scene.coming)]
    for start in range(1, len(scene.coming)):
        figures += truths.rounds_of(scene.coming[start:])
    if not _TO_COME.search(left + right):
        figures += [*truths.rounds_of(scene.behind), *truths.rounds_of(scene.section)]
    for step in scene.coming:
        figures += truths.intervals_of(step)
        figures += map(truths.plain, truths.shapings(step))
    figures += truths.rows_of_a_sort(context, scene.coming, sentence.words, right)
    return known("rows there are", [each for each in figures if any(each)])


def _heights(context: Context) -> Iterator[Figures]:
    """The rows of each piece, of each chart and of each stitch pattern."""
    for plan in context.plan.pieces:
        yield truths.plain(plan.rounds)
        for step in plan.steps:
            for each in step.patterns.stitch:
                yield truths.plain([len(each.rows.rows)] * len(step.rounds))
    for grids in context.source.grids.values():
        yield truths.plain([grid.rows for grid in grids])
        yield truths.plain([grid.height for grid in grids])


def _of_part(context: Context, scene: Scene, noun: str, what: str) -> Truth | None:
    """The rows of a piece or a section that a sentence names, or of the steps that work it."""
    parts = parts_named(context, noun, scene.plan.key if scene.plan else None)
    figures: list[Figures] = []
    for part in parts:
        if what.startswith("ridge"):
            figures += truths.ridges_of(context, part.steps)
        else:
            figures += truths.rounds_of(part.steps)
    return known(f"the {noun} has", [each for each in figures if any(each)])


# ---------------------------------------------------------------- times and intervals

_TIMES = phrase(rf"(?<![\w.,/–-])({TIMES})\b")
_WORKED = phrase(
    r"\b(?:work|works|working|worked|repeat|repeats|repeated|repeating|rep|do|knit"
    r"|knitted)\b[^.;]*$"
)
_WHAT = phrase(
    r"\b(?:rows?|rounds?|rnds?|charts?|these|this|them|it|decreases?|increases?|shaping|last"
    r"|pattern|sequence)\b"
)
_THROUGH = phrase(r"^ (?:through|over)\b[^.;]*\b(?:rows|rounds|chart|pattern|repeat)\b")
_SHAPED = phrase(r"\b(?:in|de)creas(?:e|es|ed|ing)\b[^.;,]{0,60}$")
_ACROSS = phrase(
    r"^ (?:across|around|side by side|in (?:each|every|the) (?:row|round)|to the (?:row|round)|in "
    r"a (?:row|round))\b"
)
_IN_ALL = phrase(r"^,? (?:in all|in total|altogether|all told)\b")
_EVERY_NTH = phrase(
    rf"\b(?:every|each) ({ORDINAL})(?: (?:right-side|knit|RS|following))? (rows?|rounds?|rnds?)\b"
)
_EVERY_ONE = phrase(
    r"(?<=stitches\sin\s)(?:every|each)(?: (right-side|right side|RS))? (?:row|round|rnd)\b"
)


def times_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """How often something is worked, and after how many rows again."""
    text, at = sentence.words, sentence.start
    for found in _TIMES.finditer(text):
        left, right = text[: found.start()], text[found.end() :]
        yield Statement(
            at + found.start(),
            at + found.end(),
            times_of(found[1]),
            _times(context, scene, left, found[1].lower(), right),
        )
    for found in _EVERY_NTH.finditer(text):
        truth = known("it is shaped again after", _intervals(context, scene, sentence))
        yield Statement(at + found.start(), at + found.end(), ordinal_of(found[1]), truth)
    for found in _EVERY_ONE.finditer(text):
        truth = known("it is shaped again after", _intervals(context, scene, sentence))
        rows = 2 if found[1] else 1
        yield Statement(at + found.start(), at + found.end(), rows, truth)


def _times(context: Context, scene: Scene, left: str, said: str, right: str) -> Truth | None:
    if _ACROSS.search(right):
        beside = scene.section or (scene.plan.steps if scene.plan else truths.all_steps(context))
        figures = [each for step in beside for each in truths.across_of(step)]
        return known("times across it is worked", figures)
    shaped = _SHAPED.search(left) is not None
    through = scene.own is not None and _THROUGH.search(right)
    if not shaped and not through and (not _WORKED.search(left) or not _WHAT.search(left)):
        return None
    if scene.plan is None:
        steps: tuple[StepPlan, ...] = truths.all_steps(context)
        if re.search(r"(?i)\bchart\b", left):
            steps = tuple(step for step in steps if step.charts)
        elif not re.search(r"(?i)\b\d+ (?:rows|rounds|rnds)\b", left):
            return None
    elif scene.own is not None:
        steps = (scene.own,)
    else:
        back = re.search(r"(?i)\b(?:last|above|previous|repeat|rep)\b", left) is not None
        steps = (*scene.coming, *(scene.behind if back else ()))
    figures = [each for step in steps for each in truths.times_of_step(step)]
    if shaped:
        figures = [truths.plain(each) for step in steps for each in truths.shapings(step)]
        if scene.own is not None:
            figures += map(truths.plain, truths.shapings_since(scene.behind, scene.own))
    if "more" in said:
        return known("times more it is worked", truths.less_one(figures))
    if re.search(r"(?i)\brep(?:eat\w*)?\b", left) and not _IN_ALL.search(right):
        figures += tuple(truths.less_one(figures))
    return known("times it is worked", figures)


def _intervals(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Figures]:
    steps = near(context, scene, sentence)
    crossed = re.search(r"(?i)\bcross", sentence.words) is not None
    for step in steps:
        yield from (
            truths.crossing_intervals(context, step) if crossed else truths.intervals_of(step)
        )
