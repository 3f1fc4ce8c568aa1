"""A piece as runs of rows, each from stitches put on empty needles to those taken off them."""

from collections.abc import Collection, Iterator, Sequence

from bindoff.craft.fabric import Fabric
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.gauge import Gauge
from bindoff.plan.levels import Level
from bindoff.plan.measures import Measures
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.steps.pick_up import PickUp
from bindoff.plan.steps.work import Division, Rows
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.source.steps.gather import GatherStep
from bindoff.source.steps.pick_up_along import PickUpAlongStep

_RIBS = (Fabric.RIB_1, Fabric.RIB_2, Fabric.RIB)


class Stage(Record):
    """The rows of one step in one size, with the heading they stand under."""

    title: str
    levels: tuple[Level, ...]
    ribbed: bool = False
    crown: bool = False
    divisions: tuple[Division, ...] = ()


class Run(Record):
    """Rows from ``begun`` stitches on, in one size.

    ``groups`` are the held stitches it begins with, by name (one for each time that the piece is
    made, where there are several) and how many; ``held`` says that it
    begins with some, named or not. ``along`` are the pieces along whose edges it is picked up.
    ``base`` is how many rows lie below it. ``closed`` stitches are
    bound off or joined at its end, and ``gathered`` ones drawn together.
    """

    piece: str
    gauge: Gauge
    begun: int
    flat: bool
    stages: tuple[Stage, ...]
    groups: tuple[tuple[tuple[str, ...], int], ...] = ()
    held: bool = False
    along: tuple[str, ...] = ()
    base: int = 0
    closed: int = 0
    gathered: bool = False

    @property
    def levels(self) -> tuple[Level, ...]:
        """All its levels in order."""
        return tuple(level for stage in self.stages for level in stage.levels)

    def wide(self, stitches: float) -> float:
        """The width of stitches, in mm."""
        return stitches * self.gauge.stitch_mm

    def high(self, rows: float) -> float:
        """The height of rows, in mm."""
        return rows * self.gauge.round_mm

    def above(self, level: Level) -> float:
        """How high a level lies above the start, in mm, along the stitches with the fewest rows."""
        return self.high(level.fewest - self.base)


def runs_of(measures: Measures, plan: PiecePlan) -> tuple[tuple[Run, ...], ...]:
    """The runs of a piece in every size, those without rows left out."""
    source = measures.source
    gauges = piece_gauges(measures, source.pattern.pieces[plan.key])
    titled = [list(zip(_titles(run, plan.steps), run, strict=True)) for run in _runs(plan.steps)]
    middle = len(gauges) // 2
    ribs = {
        id(step)
        for step in plan.steps
        if step.levels[middle] and fabric_of(plan, step, source, middle) in _RIBS
    }
    return tuple(
        tuple(
            _run(plan.key, steps, ribs, gauge, size)
            for steps in titled
            if any(step.levels[size] for _, step in steps)
        )
        for size, gauge in enumerate(gauges)
    )


def _run(
    key: str, steps: Sequence[tuple[str, StepPlan]], ribs: Collection[int], gauge: Gauge, size: int
) -> Run:
    first = steps[0][1]
    last = [step for _, step in steps if step.closes][-1:]
    back = first.detail if isinstance(first.detail, PickUp) else None
    parts = [part for part in back.parts if part.names] if back else []
    stages = tuple(
        Stage(
            title,
            step.levels[size],
            id(step) in ribs,
            isinstance(step.detail, Crowned),
            step.detail.divided if isinstance(step.detail, Rows) else (),
        )
        for title, step in steps
    )
    return Run(
        key,
        gauge,
        first.after[size].stitches,
        first.after[size].flat,
        stages,
        groups=tuple((part.names, part.stitches[size]) for part in parts),
        held=back is not None and back.held[size] > 0,
        along=tuple(each.of for each in first.step.pick_up_along if each.of)
        if isinstance(first.step, PickUpAlongStep)
        else (),
        base=first.before[size].height,
        closed=sum(each.closes.stitches[size] for each in last if each.closes),
        gathered=any(isinstance(each.step, GatherStep) for each in last),
    )


def _runs(steps: Sequence[StepPlan]) -> Iterator[list[StepPlan]]:
    """The steps from each that begins to the one before the next."""
    run: list[StepPlan] = []
    for step in steps:
        if step.begins is not None:
            if run:
                yield run
            run = [step]
        elif run:
            run.append(step)
    if run:
        yield run


def _titles(run: Sequence[StepPlan], steps: Sequence[StepPlan]) -> list[str]:
    """The heading above each step of a run."""
    heading, found = "", []
    inside = {id(step) for step in run}
    for step in steps:
        heading = step.heading or heading
        if id(step) in inside:
            found.append(heading)
    return found
