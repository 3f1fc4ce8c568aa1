"""What a worked step holds for every size, and what is asked of a step, of whatever kind it is.

Each kind has a module in ``plan/steps`` with its detail, how it is worked, and its answers.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import Enum
from typing import Any, Generic, TypeVar

from bindoff.diagnostics import Span
from bindoff.plan import yarn as method
from bindoff.plan.colour.bobbins import Bobbins
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, Stop
from bindoff.plan.groups import Groups
from bindoff.plan.levels import Level
from bindoff.plan.measures import Measures
from bindoff.plan.picture import PicturePlan
from bindoff.plan.slipped import SlippedLine
from bindoff.plan.stitchpatterns import StitchRows
from bindoff.records import Record
from bindoff.source.grid import Grid
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.step import Step

Loops = tuple[tuple[str, int], ...]
"""The stitches made of each yarn in one round."""

Written = TypeVar("Written", bound=Step)
"""The model of a kind: the step as written."""
Detail = TypeVar("Detail")
"""The record of a kind: what only a step of this kind holds when it is worked."""


class Progress(Record):
    """Where a size stands after a step: rounds or rows worked in the piece, live stitches.

    Short rows are worked over some stitches only: ``height`` counts the rounds or rows along the
    column that the piece names, or else along the stitches that had the fewest of them, ``most``
    along those that had all. ``wrong_side`` says that the work has been turned and its wrong side
    faces the knitter, in the round too. ``flat`` says that it goes on in rows which are turned at
    their ends. ``open_start`` are the loops of the first round that still hang open at their foot,
    ``markers`` the markers on the needles that rows have placed.
    """

    rounds: int
    stitches: int
    height: int
    most: int
    wrong_side: bool = False
    flat: bool = False
    open_start: int = 0
    markers: int = 0


class Hand(Enum):
    """Which yarn a step leaves in the knitter's hand."""

    OWN = "its own"
    ANY = "any"
    WORKED = "the one its rounds are worked in, if it is one; without rounds the one before"


class Begun(Record):
    """Stitches that a step puts on empty needles: ``parts`` are added up, each per size.

    ``by`` is how they are cast on, ``None`` for held stitches that are put back. ``new`` are those
    of them, per size, that are picked up or cast on beside held ones.
    """

    parts: tuple[tuple[int, ...], ...]
    by: method.CastOnKind | None
    new: tuple[int, ...] = ()


class Closed(Record):
    """Stitches that a step takes off the needles, per size.

    ``by`` is how they are closed, ``None`` where they stay live for a later piece; ``how`` says it
    in the designer's words. ``to`` is the piece they are joined to, empty for the piece's own
    start, ``None`` where they are not joined. ``halved`` says that one half is joined to the other,
    so that nothing stays open; ``start``, that they are not live ones, but the loops that the piece
    starts with.
    """

    stitches: tuple[int, ...]
    by: method.BindOffKind | None
    how: str = ""
    to: str | None = None
    halved: bool = False
    start: bool = False


class ChartRows(Record):
    """A chart worked from ``grid`` for ``rounds`` rounds, its repeat ``across`` times in each, per
    size; 0 in sizes that skip it or have another grid.

    ``passes`` are the repeats in each pass through the chart, where they may change from one to
    the next: that of a chart with edges that grow. ``across`` is the first of them. ``between`` is
    the row between two that the chart draws. ``first`` and ``last`` are what is worked on both
    sides of the chart, in the order of a right-side row: on the right side and on the wrong side.
    ``once`` says that it is a panel, which is not repeated side by side. ``bobbins`` are those of a
    chart in intarsia, per size; ``slipped`` are the lines of one whose rows are worked in one yarn,
    the stitches of others being slipped. ``turns`` says that some of its rows turn early.
    """

    chart: str
    grid: Grid
    rounds: tuple[int, ...]
    across: tuple[int, ...]
    passes: tuple[tuple[int, ...], ...] = ()
    between: Row | None = None
    first: tuple[Row, ...] = ()
    last: tuple[Row, ...] = ()
    once: bool = False
    bobbins: tuple[tuple[Bobbins, ...], ...] = ()
    slipped: tuple[SlippedLine, ...] = ()
    turns: bool = False

    @property
    def stranded(self) -> bool:
        """Whether yarns are carried behind, where a row has several."""
        return not self.bobbins and not self.slipped

    @property
    def drawing(self) -> tuple[str, Grid]:
        """The chart and the grid: one chart may have several."""
        return self.chart, self.grid

    @property
    def most(self) -> tuple[int, ...]:
        """The repeats of the pass with the most of them, per size."""
        return tuple(map(max, self.passes)) if self.passes else self.across


class ChartWork(Record):
    """A chart worked by a step: one part for each grid, in the sizes that have it."""

    parts: tuple[ChartRows, ...]

    @property
    def chart(self) -> str:
        """The key of the chart."""
        return self.parts[0].chart

    @property
    def rounds(self) -> tuple[int, ...]:
        """Rounds or rows, per size."""
        return _in_all(part.rounds for part in self.parts)

    @property
    def across(self) -> tuple[int, ...]:
        """Repeats in each round of the first pass, per size."""
        return _in_all(part.across for part in self.parts)

    @property
    def passes(self) -> tuple[tuple[int, ...], ...]:
        """Repeats in each pass, per size; none where they stay the same in every size."""
        found = [part.passes or tuple((each,) for each in part.across) for part in self.parts]
        if not any(part.passes for part in self.parts):
            return ()
        return tuple(max(each, key=max) for each in zip(*found, strict=True))

    @property
    def heights(self) -> tuple[int, ...]:
        """Rows from the first to the last, per size; 0 in sizes that skip the chart."""
        return _in_all(
            [part.grid.rows if rounds else 0 for rounds in part.rounds] for part in self.parts
        )

    @property
    def bobbins(self) -> tuple[tuple[Bobbins, ...], ...]:
        """Bobbins of a chart in intarsia, per size."""
        each = zip(*(part.bobbins for part in self.parts if part.bobbins), strict=True)
        return tuple(sum(size, ()) for size in each)


def _in_all(parts: Iterable[Sequence[int]]) -> tuple[int, ...]:
    return tuple(map(sum, zip(*parts, strict=True)))


class PatternRows(Record):
    """A stitch pattern that a step is worked in: ``begun`` in it, and ``flat``, in rows that are
    turned. ``rounds`` are the rows worked in it, per size."""

    rows: StitchRows
    begun: bool
    flat: bool
    rounds: tuple[int, ...]


class InPatterns(Record):
    """The stitch patterns and the charts that the rows of a step are worked in.

    ``begun`` are the keys of the charts that are begun in it.
    """

    stitch: tuple[PatternRows, ...] = ()
    charts: tuple[ChartRows, ...] = ()
    begun: tuple[str, ...] = ()


class Answers(Record, Generic[Written, Detail]):
    """What is asked of every step; a kind answers all of it, if only with nothing.

    ``rows`` are its rows in the row language, each once, and ``in_turn`` says that they are worked
    over and over in their order. ``charts`` are the source's charts it works. ``tubes`` are what it
    knits on the machine and ``pictures`` what it embroiders, per size. ``begins`` and ``closes``
    say which stitches it puts on the needles and takes off them.

    ``thread`` is the yarn (mm) it takes of a yarn in a size besides its rounds and the stitches it
    begins and closes, by what it is for. ``tools`` are those it needs besides what its rows need,
    ``techniques`` the explanations it calls for; the flag says that the piece is worked flat.

    ``facts`` is what ``compare`` compares besides counts and the note, ``stops`` are a machine
    counter's, per size. ``heading`` is what it puts above the steps after it. ``idle`` says that
    it may work no rounds in any size without being a slip. ``hand`` is the yarn it leaves in hand.
    """

    rows: Callable[["WorkedStep[Written, Detail]"], tuple[Row, ...]]
    in_turn: bool
    charts: Callable[["WorkedStep[Written, Detail]"], tuple[ChartRows, ...]]
    tubes: Callable[["WorkedStep[Written, Detail]"], tuple[PicturePlan, ...]]
    pictures: Callable[["WorkedStep[Written, Detail]"], tuple[PicturePlan, ...]]
    begins: Callable[["WorkedStep[Written, Detail]"], Begun | None]
    closes: Callable[["WorkedStep[Written, Detail]"], Closed | None]
    thread: Callable[["WorkedStep[Written, Detail]", str, int], Mapping[method.Purpose, float]]
    tools: Callable[["WorkedStep[Written, Detail]"], tuple[str, ...]]
    techniques: Callable[["WorkedStep[Written, Detail]", bool], tuple[str, ...]]
    facts: Callable[[Measures, "WorkedStep[Written, Detail]", Keys], Facts]
    stops: Callable[["WorkedStep[Written, Detail]", Keys], tuple[tuple[Stop, ...], ...]]
    heading: Callable[["WorkedStep[Written, Detail]"], str]
    idle: bool
    hand: Hand


class WorkedStep(Record, Generic[Written, Detail]):
    """One step for all sizes.

    ``detail`` is ``None`` for a section heading, and prose that takes no yarn. ``before`` and
    ``after`` have a ``Progress`` per size; ``worked`` holds, per size, the stitches of each yarn in
    every round the step takes, and ``levels`` what the piece is after each row in the row language.
    ``yarn`` is what it is worked in unless its rows say otherwise.
    """

    step: Written
    span: Span
    yarn: str
    detail: Detail
    answers: Answers[Written, Detail]
    before: tuple[Progress, ...]
    after: tuple[Progress, ...]
    worked: tuple[tuple[Loops, ...], ...]
    patterns: InPatterns = InPatterns()
    levels: tuple[tuple[Level, ...], ...] = ()

    @property
    def rounds(self) -> tuple[int, ...]:
        """The rounds or rows the step takes, per size."""
        return tuple(len(rounds) for rounds in self.worked)

    @property
    def flat(self) -> bool:
        """Whether it begins in rows that are turned at their ends."""
        return self.before[0].flat

    @property
    def rows(self) -> tuple[Row, ...]:
        """Its rows in the row language, each once."""
        return self.answers.rows(self)

    @property
    def all_rows(self) -> tuple[Row, ...]:
        """Its rows, and those of the stitch patterns that they are worked in."""
        return (*self.rows, *(row for each in self.patterns.stitch for row in each.rows.texts))

    @property
    def charts(self) -> tuple[ChartRows, ...]:
        """The charts it works, or works rows in."""
        return (*self.answers.charts(self), *self.patterns.charts)

    @property
    def tubes(self) -> tuple[PicturePlan, ...]:
        """The tubes it knits on the machine, per size."""
        return self.answers.tubes(self)

    @property
    def pictures(self) -> tuple[PicturePlan, ...]:
        """What it embroiders, per size."""
        return self.answers.pictures(self)

    @property
    def begins(self) -> Begun | None:
        """The stitches it puts on empty needles."""
        return self.answers.begins(self)

    @property
    def closes(self) -> Closed | None:
        """The stitches it takes off the needles."""
        return self.answers.closes(self)

    @property
    def tools(self) -> tuple[str, ...]:
        """The tools it needs besides what its rows need."""
        return self.answers.tools(self)

    @property
    def heading(self) -> str:
        """The heading it is; empty for a step that is numbered."""
        return self.answers.heading(self)


StepPlan = WorkedStep[Any, Any]
"""A worked step of any kind."""


def _loops(progress: Sequence[Progress]) -> int:
    """The open loops at the foot of a piece, in all sizes."""
    return sum(each.open_start for each in progress)


class PiecePlan(Record):
    """A piece: its steps in working order.

    ``groups`` are, per size, the stitches with a name that wait when it is done, or have waited.
    ``cranked`` says that it hangs on the machine from step to step; a tube from a stripe plan is
    off it when that is knitted.
    """

    key: str
    steps: tuple[StepPlan, ...]
    groups: tuple[Groups, ...] = ()
    cranked: bool = False

    @property
    def from_machine(self) -> bool:
        """Whether it is made on the machine: a tube, or a piece whose rows are cranked."""
        return self.cranked or any(step.tubes for step in self.steps)

    @property
    def closings(self) -> tuple[Closed, ...]:
        """The stitches that its steps take off the needles, in order."""
        found = (step.closes for step in self.steps)
        return tuple(closed for closed in found if closed is not None)

    @property
    def open_start(self) -> StepPlan | None:
        """The step that leaves loops open at the foot of its first round, if one does."""
        return next((step for step in self.steps if _loops(step.after) > _loops(step.before)), None)

    @property
    def takes_up_start(self) -> StepPlan | None:
        """The step that joins or closes those loops; none where they are open to the end."""
        return next((step for step in self.steps if _loops(step.after) < _loops(step.before)), None)

    @property
    def left(self) -> tuple[int, ...]:
        """The stitches left live for a join, per size; none if the piece leaves none."""
        return next((closed.stitches for closed in self.closings if closed.by is None), ())

    @property
    def rounds_so_far(self) -> tuple[tuple[int, ...], ...]:
        """Rounds or rows up to the end of each step, per size, without those that are short.

        Held stitches that are picked up again start a new count, as a thumb does.
        """
        found, started = [], (0,) * len(self.steps[0].after)
        for step in self.steps:
            begun = step.begins
            if begun is not None and begun.by is None:
                started = tuple(progress.height for progress in step.before)
            ends = (progress.height for progress in step.after)
            found.append(tuple(end - start for end, start in zip(ends, started, strict=True)))
        return tuple(found)

    @property
    def height(self) -> tuple[int, ...]:
        """All rounds or rows of the piece, per size, without those that are short."""
        return tuple(progress.height for progress in self.steps[-1].after)

    @property
    def ways(self) -> frozenset[bool]:
        """Whether its steps begin flat: both, where it changes between flat and round."""
        return frozenset(each.flat for step in self.steps for each in step.before)

    @property
    def short_rows(self) -> bool:
        """Whether some rounds or rows were not worked over all stitches."""
        return any(each.height < each.rounds for step in self.steps for each in step.after)

    @property
    def rounds(self) -> tuple[int, ...]:
        """All rounds or rows of the piece, per size, short ones too."""
        return tuple(progress.rounds for progress in self.steps[-1].after)
