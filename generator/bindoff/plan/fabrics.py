"""Which fabric a step makes, by its rows or its chart: the yarn it takes follows from it."""

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from functools import lru_cache

from bindoff import regex as re
from bindoff.craft.fabric import Fabric
from bindoff.plan.picture import cell_meaning
from bindoff.plan.stitchpatterns import StitchRows
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.source.read import Source
from bindoff.source.rowlang.syntax import (
    Fill,
    Group,
    IntoOne,
    MoreTimes,
    Part,
    Repeat,
    Row,
    ToLast,
    Turn,
    Work,
)

Seen = Sequence[str]
"""A row as it is seen from the right side: an id of a stitch, or ``k`` or ``p``, a stitch."""

_WIDEST = 400  # stitches looked at; a pattern of stitches repeats long before
_LEAST = 24
_MOST_ROWS = 200
_BRIOCHE = ("brk", "brp", "sl1yo", "brsssk", "brk2tog")
_SLIPPED = ("sl", "slip")
_HOOKED = re.compile(r"(?:ch \d+ as )?(sc|hdc|dc|tr|dtr|trtr)(?:\d+tog)?|ch|sl st")
_OF_HOOK = {"sc": Fabric.SINGLE_CROCHET, "hdc": Fabric.HALF_DOUBLE}
_EDGE = 2  # stitches at each side of a row that may be worked otherwise

# From these shares of its stitches on a pattern decides how the whole step is reckoned: one purled
# column is no ribbing, two slipped edge stitches no slip-stitch pattern. Our judgement, no source.
_CABLED, _SLIPS, _OPEN, _MIXED = 0.15, 0.1, 0.05, 0.1


def fabric_of(plan: PiecePlan, step: StepPlan, source: Source, size: int = 0) -> Fabric:
    """The fabric that ``step`` makes in one yarn; rounds of several yarns are stranded besides."""
    flat = _turned_over(plan, step, source, size)
    own = frozenset(source.pattern.stitches)
    if step.charts:
        rows = [row for each in step.charts for row in _charted(source, each)]
    elif step.patterns.stitch:
        rows = [row for each in step.patterns.stitch for row in _patterned(each.rows)]
    elif step.answers.in_turn:
        rows = _worked(step, step.rows, flat, size, step.before[size].rounds)
    else:  # a row that shapes, and the plain ones between
        rows = _worked(step, step.rows[1:] or step.rows, flat, size, first=0)
    return _known_fabric(tuple(tuple(row) for row in rows), own)


def fabrics_of(plan: PiecePlan, step: StepPlan, source: Source) -> list[Fabric | None]:
    """The fabric of a step in each size that works it, found once where sizes show the same of it;
    a chart is the same fabric in all."""
    found: dict[tuple[int, ...], Fabric] = {}
    fabrics: list[Fabric | None] = []
    for size, worked in enumerate(step.worked):
        if not worked:
            fabrics.append(None)
            continue
        shown: tuple[int, ...] = ()
        if not step.charts:
            flat, before = _turned_over(plan, step, source, size), step.before[size]
            rounds = min(step.rounds[size], 2 * len(step.rows))
            shown = (flat, min(_WIDEST, before.stitches), rounds, flat and before.rounds % 2)
        if shown not in found:
            found[shown] = fabric_of(plan, step, source, size)
        fabrics.append(found[shown])
    return fabrics


def _turned_over(plan: PiecePlan, step: StepPlan, source: Source, size: int) -> bool:
    """Whether every other row is worked from the other side; a machine knits all from one."""
    return step.before[size].flat and not source.pattern.on_machine(plan.key)


@lru_cache(maxsize=512)
def _known_fabric(rows: tuple[tuple[str, ...], ...], own: frozenset[str]) -> Fabric:
    return fabric_of_rows(rows, own)


def seen_rows(plan: PiecePlan, step: StepPlan, source: Source, size: int = 0) -> list[Seen]:
    """The rows that ``step`` works in turn, as they are seen from the right side."""
    flat = _turned_over(plan, step, source, size)
    return _worked(step, step.rows, flat, size, step.before[size].rounds)


def fabric_of_rows(rows: Sequence[Seen], own: Collection[str] = ()) -> Fabric:
    """The fabric of rows as they are seen from the right side; ``own`` are stitches that a pattern
    defines for itself, of whose yarn nothing is known."""
    stitches = [stitch for row in rows for stitch in row]
    if not stitches:
        return Fabric.PLAIN
    hooked = [found for stitch in stitches if (found := _HOOKED.fullmatch(stitch))]
    if 2 * len(hooked) >= len(stitches):
        return _crochet([found[1] for found in hooked if found[1]])
    if any(stitch in _BRIOCHE for stitch in stitches):
        return Fabric.BRIOCHE
    if _share(stitches, lambda stitch: stitch in own) >= _MIXED:
        return Fabric.UNKNOWN
    crossed = max(_share(row, lambda stitch: "/" in stitch) for row in rows)
    if crossed >= _CABLED:
        return Fabric.CABLES
    if _share(stitches, lambda stitch: stitch in _SLIPPED) >= _SLIPS:
        return Fabric.SLIPPED
    if _share(stitches, lambda stitch: stitch == "yo") >= _OPEN:
        return Fabric.LACE
    return _knit_and_purl([["p" if s.startswith("p") else "k" for s in row] for row in rows])


def _crochet(stitches: Seen) -> Fabric:
    """The fabric of what is worked most; of chains and slip stitches alone nothing is known."""
    if not stitches:
        return Fabric.UNKNOWN
    most, _ = Counter(stitches).most_common(1)[0]
    return _OF_HOOK.get(most, Fabric.DOUBLE_CROCHET)


def _knit_and_purl(rows: Sequence[Seen]) -> Fabric:
    purls = _share([stitch for row in rows for stitch in row], lambda stitch: stitch == "p")
    if not _MIXED <= purls <= 1 - _MIXED:
        return Fabric.PLAIN
    rows = [row[_EDGE:-_EDGE] if len(row) > _LEAST else row for row in rows]
    if all(len(set(row)) == 1 for row in rows):
        return Fabric.GARTER if 0.2 < purls < 0.8 else Fabric.TEXTURE
    if any(list(row) != list(rows[0]) for row in rows):
        return Fabric.TEXTURE
    runs = set(_runs(rows[0])[1:-1])
    if runs <= {1}:
        return Fabric.RIB_1
    return Fabric.RIB_2 if runs == {2} else Fabric.RIB


def _runs(row: Seen) -> list[int]:
    runs: list[int] = []
    for index, stitch in enumerate(row):
        if index and stitch == row[index - 1]:
            runs[-1] += 1
        else:
            runs.append(1)
    return runs


def _share(stitches: Seen, counts: Callable[[str], bool]) -> float:
    return sum(map(counts, stitches)) / len(stitches) if stitches else 0.0


# ---------------------------------------------------------------- rows


def _worked(step: StepPlan, rows: tuple[Row, ...], flat: bool, size: int, first: int) -> list[Seen]:
    """Enough rows of the step to see both sides of each, as seen from the right side; ``first`` is
    how many rows lie below, where a flat piece begins on the right side."""
    if not rows:
        return []
    across = min(_WIDEST, max(step.before[size].stitches, 1))
    number = min(max(step.rounds[size], 1), len(rows) * (2 if flat else 1), _MOST_ROWS)
    seen: list[Seen] = []
    turned = False  # in the round, by a short row
    for index in range(number):
        parts = rows[index % len(rows)].parts
        row = list(_stitches(parts, across))
        wrong_side = (first + index) % 2 == 1 if flat else turned
        seen.append([_turned(stitch) for stitch in reversed(row)] if wrong_side else row)
        turned ^= any(isinstance(part, Turn) for part in parts)
    return seen


def _turned(stitch: str) -> str:
    """What a stitch worked on the wrong side looks like from the right side."""
    kept = stitch in _SLIPPED or stitch in _BRIOCHE or stitch == "yo" or "/" in stitch
    if kept or _HOOKED.fullmatch(stitch):
        return stitch
    return "k" if stitch.startswith("p") else "p"


def _stitches(parts: Sequence[Part], across: int) -> Iterator[str]:
    """The stitches of a row's parts in order, as if each used one stitch of ``across``."""
    done = 0
    least = [_least(part) for part in parts]
    rest = sum(least)
    for part, own in zip(parts, least, strict=True):
        left = max(across - done, 0)
        rest -= own
        made = list(_made(part, left, rest))[:_WIDEST]
        done += len(made)
        yield from made


def _made(part: Part, left: int, rest: int) -> Iterator[str]:
    match part:
        case Work(stitch, times):
            yield from [stitch] * (times if isinstance(times, int) else 1)
        case Fill(stitch, to):
            yield from [stitch] * max(left - _kept(to, rest), 0)
        case Group(inner, times):
            for _ in range(min(times if isinstance(times, int) else 1, _WIDEST)):
                yield from _stitches(inner, 0)
        case Repeat(inner, until):
            once = list(_stitches(inner, 0))
            room = max(left - _kept(until, rest), 0)
            again = max(1, room // len(once)) if once else 0
            if isinstance(until, MoreTimes):
                again = until.count + 1 if isinstance(until.count, int) else 2
            yield from once * min(again, _WIDEST)
        case IntoOne():
            yield "k"
        case _:
            return


def _kept(to: object, rest: int) -> int:
    """Stitches that a part leaves: those it names, or those that the parts after it need."""
    if isinstance(to, ToLast) and isinstance(to.count, int):
        return to.count
    return rest


def _least(part: Part) -> int:
    """The fewest stitches that a part works."""
    match part:
        case Work(_, times):
            return times if isinstance(times, int) else 1
        case Fill() | IntoOne():
            return 1
        case Group(inner) | Repeat(inner):
            return sum(map(_least, inner))
        case _:
            return 0


def _patterned(rows: StitchRows) -> Iterator[Seen]:
    """The rows of a stitch pattern, wide enough to see its columns."""
    for row in rows.rows[:_MOST_ROWS]:
        atoms = row.repeat * max(1, _LEAST // max(len(row.repeat), 1)) or row.first
        parts = [part for atom in atoms[:_WIDEST] for part in atom.parts]
        stitches = [part.stitch if isinstance(part, Work) else "k" for part in parts]
        yield [_turned(stitch) for stitch in stitches] if row.of_wrong else stitches


# ---------------------------------------------------------------- charts


def _charted(source: Source, worked: ChartRows) -> list[Seen]:
    """The cells of a chart by stitch; one that means a yarn alone is knitted."""
    if worked.slipped:
        return [["k" if each else "sl" for each in line.worked] for line in worked.slipped]
    yarns = source.pattern.yarns
    legend = source.pattern.charts[worked.chart].legend
    stitch = {character: cell_meaning(each, yarns)[1] or "k" for character, each in legend.items()}
    return [[stitch.get(c, "k") for c in row] for row in worked.grid.rounds[:_MOST_ROWS]]
