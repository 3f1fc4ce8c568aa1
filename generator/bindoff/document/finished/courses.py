"""The rows of a piece in their order, with the yarns and the looks of their stitches."""

from collections.abc import Iterator

from bindoff.craft.fabric import Fabric
from bindoff.document.faces import Crossing, Face, Look, faces_of
from bindoff.document.voice import Voice
from bindoff.plan.fabrics import Seen, fabric_of, seen_rows
from bindoff.plan.picture import PicturePlan, cell_meaning, chart_yarns
from bindoff.plan.tube import TubePart
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.records import Record

_LOOKS: dict[str, Face] = {"p": Look.PURL, "yo": Look.HOLE}
_RIBS = (Fabric.RIB_1, Fabric.RIB_2, Fabric.RIB)
_PERIOD = 12  # stitches of a repeat that is looked for in a row


class Course(Record):
    """A row as it is seen: yarns of its stitches from the left, and what is no knit stitch, both
    repeated across."""

    yarns: tuple[str, ...]
    faces: tuple[Face | None, ...] = (None,)


Looks = tuple[Face | None, ...]
Courses = tuple[Course, ...]


def courses_of(voice: Voice, piece: PiecePlan, size: int) -> tuple[Courses, ...]:
    """The rows of a piece, in runs that each begin with stitches put on empty needles."""
    runs: list[list[Course]] = []
    for step in piece.steps:
        if step.begins is not None or not runs:
            runs.append([])
        runs[-1] += _of_step(voice, piece, step, size)
    return tuple(tuple(run) for run in runs if run)


def seen_of(plan: PicturePlan) -> tuple[Courses, int]:
    """What is seen of the front of a tube as it is worn, from its lower edge, and how many of
    these rows are those of the brim that is turned up."""
    tube, rounds = plan.tube, plan.colours.rounds
    brim, outer = tube.segment(TubePart.LINING_BRIM), tube.segment(TubePart.OUTER)
    assert outer is not None
    turned_up = range(brim.first, brim.last + 1) if brim else range(0)
    half = tube.needles // 2

    def front(number: int) -> Course:
        row = rounds[number - 1]  # its first stitch is on the right
        first = len(row) - tube.front - half + 1
        return Course(tuple(row[(first + at) % len(row)] for at in range(half)))

    hidden = outer.first + len(turned_up)
    seen = [*turned_up, *range(hidden, outer.last + 1)]
    return tuple(map(front, seen)), len(turned_up)


def _of_step(voice: Voice, piece: PiecePlan, step: StepPlan, size: int) -> Iterator[Course]:
    rounds = step.worked[size]
    part = next((each for each in step.charts if each.rounds[size]), None)
    if part is not None:
        lines = list(_charted(voice, part, step.yarn))
        apart = 2 if part.between is not None else 1
        yield from (lines[at // apart % len(lines)] for at in range(len(rounds)))
        return
    seen = seen_in_turn(voice, piece, step, size) if rounds else [(None,)]
    for at, loops in enumerate(rounds):
        yarn = max(loops, key=lambda each: each[1])[0] if loops else step.yarn
        yield Course((yarn,), seen[at % len(seen)])


def seen_in_turn(voice: Voice, piece: PiecePlan, step: StepPlan, size: int) -> list[Looks]:
    """The looks of the rows of a step in turn. Those of rows that grow, but for ribs and garter
    stitch, and of plain rows worked to and fro, of which nothing says on which side they begin, are
    smooth."""
    before, after = step.before[size], step.after[size]
    fabric = fabric_of(piece, step, voice.plan.source, size)
    if fabric is Fabric.GARTER and before.flat:
        return [(None,), (Look.PURL,)]
    steady = before.stitches == after.stitches or fabric in _RIBS
    if not steady or (fabric is Fabric.PLAIN and before.flat):
        return [(None,)]
    return [_looks(row) for row in seen_rows(piece, step, voice.plan.source, size)] or [(None,)]


def _looks(row: Seen) -> Looks:
    """The looks of a row, as often as it repeats them: once, if it is the same all over."""
    looks = tuple(_LOOKS.get(stitch[:1] if stitch[:1] == "p" else stitch) for stitch in row)
    for period in range(1, min(_PERIOD, len(looks) // 2) + 1):
        if all(look is looks[at % period] for at, look in enumerate(looks)):
            return looks[:period]
    return looks or (None,)


def _is_crossed(face: Face) -> bool:
    return isinstance(face, Crossing) or face is Look.COVERED


def _charted(voice: Voice, part: ChartRows, main: str) -> Iterator[Course]:
    """The lines of a chart, bottom first."""
    source = voice.plan.source
    chart = source.pattern.charts[part.chart]
    yarns, known = chart_yarns(chart), source.pattern.yarns
    named = {c: cell_meaning(meaning, known)[1] for c, meaning in chart.legend.items()}
    book = voice.plan.book
    lines = [part.grid.parted(line)[1] or line for line in part.grid.rounds]  # the repeat
    cells = [[book.named(name) if (name := named[c]) else None for c in line] for line in lines]
    faces = faces_of(cells)
    for number, line in enumerate(lines):
        seen = [(c, faces.get((number, place))) for place, c in enumerate(line)]
        seen = [(c, face) for c, face in seen if face is not Look.NOTHING] or [(line[0], None)]
        yield Course(
            tuple(yarn if (yarn := yarns[c]) in known else main for c, _ in seen),
            tuple(face for _, face in seen),
        )
