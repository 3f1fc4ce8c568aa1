"""What a row is said to hold: crossings, eyelets, shaping, or nothing but plain stitches."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import ORDINAL, ordinal_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import all_rows, all_steps, flat, phrase
from bindoff.plan.worked import ChartRows, StepPlan
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Fill, Work

_FEATURE = (
    r"(double decreases?|central decreases?|crossings?|cables?|(?:ropes|cables) cross|twists?"
    r"|eyelets?|holes|yarn ?overs?|decreases?|increases?|bobbles?)"
)
_AT = rf"(?:(?:row|round|rnd)s? (\d+)(?:(?:,| and|, and) (\d+))*|the ({ORDINAL}) (?:row|round|rnd))"
_STANDS = phrase(
    rf"\b{_FEATURE} (?:(?:are|is|stands?|comes?|falls?|lies?|sits?|worked|made|each|all|turned"
    rf"|cross(?:es)?) )*(?:in|on) {_AT}(?! of (?:the (?:rib|body|hem|cuff|heel|toe|crown)))\b"
)
_ROW_OF = phrase(
    rf"\b(?:row|round|rnd) (\d+) (?:is|has|holds|makes) (?:the |a |its |all the )?(?:row of |round "
    rf"of )?{_FEATURE}\b"
)
_IN_ROWS = phrase(
    rf"\bin {_AT},? (?:the|a|each|every) {_FEATURE} (?:stands?|comes?|takes?|is|are|lies?|falls?)\b"
)
_COMES_FIRST = phrase(
    rf"\b(?:at the (?:start|beginning) of|in|on) {_AT},? where (?:the|a) {_FEATURE} comes first\b"
)
_PLAIN = phrase(
    r"\b(odd|even)(?:-numbered)? (?:rows|rounds|rnds) are (?:all )?(?:worked )?"
    r"(?:knitted plain|knit plain|knitted|knit|plain|purled|purl)\b"
)
_OF_SIDE = phrase(
    r"\b(right|wrong)[- ]side rows? (?:is|are) (?:all )?(?:worked )?(plain knit|plain|knitted plain"
    r"|knitted|knit|purled|purl)\b"
    r"|\b(knit|purl) (?:all|every|each)(?: the)? (right|wrong)[- ]side rows?\b"
)


class _Line(Record):
    """A row that may be meant: its number in its chart or list, and the ids of its stitches as they
    are worked."""

    number: int
    stitches: tuple[str, ...]


def features_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every row that is said to hold something."""
    text, at = sentence.words, sentence.start
    for pattern in (_STANDS, _ROW_OF, _IN_ROWS, _COMES_FIRST):
        for found in pattern.finditer(text):
            feature = next(
                g
                for g in found.groups()
                if g and re.match("[a-z]{4}", g, re.I) and not re.fullmatch(ORDINAL, g, re.I)
            )
            numbers = _numbers(found[0])
            wrong = _elsewhere(context, scene, feature, numbers, first=pattern is _COMES_FIRST)
            if wrong:
                yield Statement(at + found.start(), at + found.end(), 0, None, wrong)
    for found in _PLAIN.finditer(text):
        yield from _plain(context, scene, sentence, found)
    for found in _OF_SIDE.finditer(text):
        yield from _of_side(context, scene, sentence, found)


def _numbers(words: str) -> list[int]:
    """The rows that words name, by their number or their place."""
    named = [int(each) for each in re.findall(r"\d+(?!\w)", words)]
    return named or [
        ordinal_of(each) for each in re.findall(rf"(?i)\b{ORDINAL}(?=\s+r)", words)[:1]
    ]


def _elsewhere(
    context: Context, scene: Scene, feature: str, numbers: Sequence[int], *, first: bool
) -> str:
    """Where a feature stands, if it stands in some rows and in none of these; empty else."""
    known: set[int] = set()
    for lines in _lists(context, scene):
        there = {
            line.number
            for line in lines
            if any(_has(context, feature, each) for each in line.stitches[: 1 if first else None])
        }
        if all(number in there for number in numbers):
            return ""
        if there and max(numbers) <= max(line.number for line in lines) and len(there) < len(lines):
            known |= there
    if not known or len(known) > _FEW:
        return ""
    rows = ", ".join(map(str, sorted(known)))
    return f"that stands in row{'s' if len(known) > 1 else ''} {rows}"


_FEW = 8


def _has(context: Context, feature: str, stitch: str) -> bool:
    """Whether a stitch is what a word means."""
    word = feature.lower()
    known = context.plan.book.find(stitch)
    change = 0 if known is None else known.produces - known.consumes
    if word.startswith(("double", "central")):
        return change == -_DOUBLE
    if word.startswith("decrease"):
        return change < 0
    if word.startswith("increase"):
        return change > 0
    if word.startswith(("eyelet", "hole", "yarn")):
        return stitch.startswith("yo")
    if word.startswith("bobble"):
        return "bobble" in stitch or stitch == "mb"
    return "/" in stitch


_DOUBLE = 2


def _steps(context: Context, scene: Scene) -> Sequence[StepPlan]:
    if scene.plan is None:
        return all_steps(context)
    return scene.here or scene.section or scene.plan.steps


def _lists(context: Context, scene: Scene) -> Iterator[tuple[_Line, ...]]:
    """The charts and the lists of rows that a text may speak of."""
    for step in _steps(context, scene):
        for chart in step.charts:
            yield tuple(_of_chart(context, chart))
        if step.answers.in_turn and len(step.rows) > 1:
            yield tuple(
                _Line(
                    number,
                    tuple(p.stitch for p in flat(row.parts) if isinstance(p, Work | Fill)),
                )
                for number, row in enumerate(step.rows, 1)
            )


def _of_chart(context: Context, worked: ChartRows) -> Iterator[_Line]:
    """The rows that a chart draws, in the order in which their cells are worked."""
    chart, grid = context.pattern.charts[worked.chart], worked.grid
    legend: Mapping[str, object] = chart.legend
    for line, cells in enumerate(grid.rounds, 1):
        names = [legend.get(cell) for cell in reversed(cells)]
        found = [context.plan.book.find(name) for name in names if isinstance(name, str)]
        yield _Line(grid.number(line), tuple(each.id for each in found if each is not None))


def _plain(
    context: Context, scene: Scene, sentence: Sentence, found: "re.Match[str]"
) -> Iterator[Statement]:
    """Odd or even rows that are said to be plain, and are not, where the others are."""
    odd = found[1].lower() == "odd"
    purled = "purl" in found[0].lower()
    told: list[bool] = []
    for lines in _lists(context, scene):
        if len(lines) < _DOUBLE or len({line.number % 2 for line in lines}) < _DOUBLE:
            continue
        kinds = {True: set[str](), False: set[str]()}
        for line in lines:
            kinds[line.number % 2 == 1] |= set(line.stitches)
        fits = kinds[odd] <= ({"p"} if purled else {"k"})
        if not fits and kinds[not odd] <= {"k", "p"}:
            told.append(False)
        elif fits:
            told.append(True)
    if told and not any(told):
        other = "even" if odd else "odd"
        at = sentence.start
        words = f"the plain ones are the {other} ones"
        yield Statement(at + found.start(), at + found.end(), 0, None, words)


def _of_side(
    context: Context, scene: Scene, sentence: Sentence, found: "re.Match[str]"
) -> Iterator[Statement]:
    """Rows of a side that are said to be purled and are knitted, or the other way about."""
    purled = "purl" in (found[2] or found[3]).lower()
    wrong = (found[1] or found[4]).lower() == "wrong"
    kinds: set[str] = set()
    for step in _steps(context, scene):
        if not step.flat or not step.answers.in_turn or step.charts or not any(step.rounds):
            continue
        for index, row in enumerate(all_rows(step)):
            side_wrong = (step.before[0].rounds + index) % 2 == 1
            if side_wrong is wrong or len(step.rows) % 2:
                stitches = {p.stitch for p in flat(row.parts) if isinstance(p, Work | Fill)}
                if stitches in ({"k"}, {"p"}):
                    kinds |= stitches
    said, other = ("p", "knitted") if purled else ("k", "purled")
    if kinds and said not in kinds:
        at = sentence.start
        words = f"the rows of that side are {other}"
        yield Statement(at + found.start(), at + found.end(), 0, None, words)
