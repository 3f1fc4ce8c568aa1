"""On which side of the work something is said to happen, and which way stitches lean."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.claimed import near
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import all_rows, flat, phrase
from bindoff.plan.worked import ChartRows, StepPlan
from bindoff.source.rowlang.syntax import Fill, Work

_SIDE = r"(?:(right|wrong)[- ]side|(?-i:(RS|WS)))"
_SHAPED = phrase(
    r"\b(?:(?:in|de)creas(?:e|es|ed|ing)|shap(?:e|ed|es|ing))\b[^.;:]*?"
    rf"\b(?:in|on|of|at|with) (?:every|each|all|the)(?: (?:other|second|2nd|the))? {_SIDE} rows?\b"
)
_PATTERNED = phrase(
    r"\b(lace|eyelets?|yarn ?overs?|holes|cables?|crossings?|bobbles?)\b[^.;:]*?"
    rf"\b(?:in|on)(?: (?:the|all|every|each))* {_SIDE} rows?\b"
)
_AT_REST = phrase(
    rf"\b(?:(?:every|each|all|the)(?: the)? )?{_SIDE} rows? (?:is|are) (?:an? )?(?:all )?"
    r"(?:rests?|rest rows?|(?:worked )?plain|knit(?:ted)?|purled"
    r"|without (?:a )?pattern\w*)\b"
)
_LEANS = phrase(
    r"\b(?:(?:de|in)creases?|holes|eyelets|stitch(?:es)?|lines?|ropes?|cables?|arrows?|it|they|that"
    r"|which)\b[^.;:]{0,40}?\b(?:lean|slant|slope)(?:s|ing)? (?:\w+ )?to(?:wards)? the"
    r" (left|right)\b"
)
_BOTH_WAYS = phrase(r"\A(?=[\s\S]*?\bleft\b)(?=[\s\S]*?\bright\b)|\b(?:look|seem|worn|turn)\w*\b")
_NAMES: Mapping[bool, str] = {True: "wrong-side", False: "right-side"}


def sides_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Rows of a side that are said to shape or to have a pattern, where those of the other do."""
    steps = near(context, scene, sentence)
    for found in _SHAPED.finditer(sentence.words):
        shaped = {side for step in steps for side in _shaping_sides(step)}
        yield from _other(sentence, found, shaped, "the rows that shape are")
    for found in _PATTERNED.finditer(sentence.words):
        sides = {side for step in steps for side in _patterned_sides(context, step)}
        yield from _other(sentence, found, sides, "the rows that do so are")
    for found in _AT_REST.finditer(sentence.words):
        sides = {not side for step in steps for side in _patterned_sides(context, step)}
        yield from _other(sentence, found, sides, "the plain rows are")
    for found in _LEANS.finditer(sentence.words):
        said, other = found[1].lower(), "left" if found[1].lower() == "right" else "right"
        leans = {lean for step in steps for lean in _leans(context, step)}
        if leans == {other} and not _BOTH_WAYS.search(sentence.words):
            at = sentence.start
            words = f"the stitches here lean to the {other}, and not to the {said}"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)


def _other(
    sentence: Sentence, found: "re.Match[str]", sides: set[bool], what: str
) -> Iterator[Statement]:
    """A finding where all rows are on the other side; true stands for the wrong side."""
    said = next(each for each in found.groups()[::-1] if each).lower() in ("wrong", "ws")
    if sides == {not said}:
        at = sentence.start
        words = f"{what} {_NAMES[not said]} rows"
        yield Statement(at + found.start(), at + found.end(), 0, None, words)


def _shaping_sides(step: StepPlan) -> Iterator[bool]:
    """The sides of the rows of a step worked flat that change the count."""
    if step.flat:
        for size, before in enumerate(step.before):
            for row in truths.shaped_rows(step, size):
                yield (before.rounds + row) % 2 == 1


def _patterned_sides(context: Context, step: StepPlan) -> Iterator[bool]:
    """The sides of the rows of a step worked flat that have more than knit and purl stitches,
    where those of the other side have nothing else."""
    if not step.flat:
        return
    patterned: dict[bool, bool] = {}
    for chart in step.charts:
        for side, stitches in _lines(context, chart):
            patterned[side] = patterned.get(side, False) or not stitches <= {"k", "p"}
    if step.answers.in_turn and len(step.rows) % 2 == 0 and not step.charts:
        for index, row in enumerate(all_rows(step)):
            side = (step.before[0].rounds + index) % 2 == 1
            stitches = {part.stitch for part in flat(row.parts) if isinstance(part, Work | Fill)}
            patterned[side] = patterned.get(side, False) or not stitches <= {"k", "p"}
    yield from (side for side, any_ in patterned.items() if any_)


def _lines(context: Context, worked: ChartRows) -> Iterator[tuple[bool, set[str]]]:
    """The rows that a chart draws: their side, and the stitches in them."""
    chart, grid = context.pattern.charts[worked.chart], worked.grid
    for line, cells in enumerate(grid.rounds, 1):
        odd = grid.number(line) % 2 == 1
        wrong = odd is not (chart.first_row == "right side")
        names = {str(chart.legend.get(cell)) for cell in cells}
        found = [context.plan.book.find(name) for name in names]
        yield wrong, {each.id for each in found if each is not None}


def _leans(context: Context, step: StepPlan) -> Iterator[str]:
    """The ways that decreases and increases of the rows of a step lean."""
    names: Sequence[str] = [
        part.stitch for row in all_rows(step) for part in flat(row.parts) if isinstance(part, Work)
    ]
    legends = [context.pattern.charts[chart.chart].legend.values() for chart in step.charts]
    for name in (*names, *(str(each) for legend in legends for each in legend)):
        stitch = context.plan.book.find(name)
        if stitch is not None and stitch.lean is not None:
            yield stitch.lean.value
