"""What a worked step holds: the plan of one step of a piece, for every size.

``StepPlan.detail`` is one of the small classes below; the document puts each into words.
"""

from dataclasses import dataclass

from bindoff.diagnostics import Span
from bindoff.plan.crown import AlignedCrown
from bindoff.plan.picture import PicturePlan
from bindoff.plan.taper import Taper
from bindoff.source.models import AnyStep
from bindoff.source.rowlang.syntax import Row

Loops = tuple[tuple[str, int], ...]
"""The stitches made of each yarn in one round."""


@dataclass(frozen=True, slots=True)
class Progress:
    """Where a size stands after a step: rounds or rows worked in the piece, live stitches."""

    rounds: int
    stitches: int


@dataclass(frozen=True, slots=True)
class CastOn:
    """Stitches cast on per size."""

    stitches: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PickUp:
    """Held stitches put back on the needles and stitches picked up beside them, per size."""

    held: tuple[int, ...]
    picked_up: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows in the row language, worked in turn for ``rounds`` rounds per size."""

    rows: tuple[Row, ...]
    rounds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ChartRows:
    """A chart worked for ``rounds`` rounds, its width ``across`` times in each, per size."""

    chart: str
    rounds: tuple[int, ...]
    across: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Even:
    """One round of evenly spread shaping per size; ``None`` where a size needs none."""

    rows: tuple[Row | None, ...]


@dataclass(frozen=True, slots=True)
class Tapered:
    """A shaping row at an even pace per size, and the plain rows between.

    ``change`` is what one shaping row adds (negative: takes away).
    """

    shaping: Row
    plain: tuple[Row, ...]
    tapers: tuple[Taper, ...]
    change: int


@dataclass(frozen=True, slots=True)
class Crowned:
    """A crown in wedges, all sizes as one list; ``rows`` are its decrease rounds."""

    crown: AlignedCrown
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class BindOff:
    """Stitches bound off per size."""

    stitches: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Gather:
    """Live stitches drawn together per size."""

    stitches: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Left:
    """Stitches left live for a join, per size."""

    stitches: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Joined:
    """Stitches joined to another piece's, or to the piece's own start (``to`` is empty)."""

    stitches: tuple[int, ...]
    to: str
    by: str


@dataclass(frozen=True, slots=True)
class Striped:
    """The tube knitted by its stripe plan, per size."""

    plans: tuple[PicturePlan, ...]


@dataclass(frozen=True, slots=True)
class Embroidered:
    """What is embroidered on the tube, per size."""

    plans: tuple[PicturePlan, ...]


@dataclass(frozen=True, slots=True)
class Edged:
    """A crocheted edge: its rows and the length along it, in mm, per size.

    ``sides`` has the stitches of each side per size and ``counts`` the stitches after each row per
    size; both are empty where the sides are not given.
    """

    rows: tuple[Row, ...]
    along: tuple[float, ...]
    sides: tuple[tuple[int, ...], ...] = ()
    counts: tuple[tuple[int, ...], ...] = ()


Detail = (
    CastOn
    | PickUp
    | Rows
    | ChartRows
    | Even
    | Tapered
    | Crowned
    | BindOff
    | Gather
    | Left
    | Joined
    | Striped
    | Embroidered
    | Edged
)


@dataclass(frozen=True, slots=True)
class StepPlan:
    """One step for all sizes.

    ``detail`` is ``None`` for a section heading or prose. ``before`` and ``after`` have a
    ``Progress`` per size; ``worked`` holds, per size, the stitches of each yarn in every round the
    step takes. ``yarn`` is what it is worked in unless its rows say otherwise.
    """

    step: AnyStep
    span: Span
    yarn: str
    detail: Detail | None
    before: tuple[Progress, ...]
    after: tuple[Progress, ...]
    worked: tuple[tuple[Loops, ...], ...]

    @property
    def rounds(self) -> tuple[int, ...]:
        """The rounds or rows the step takes, per size."""
        return tuple(len(rounds) for rounds in self.worked)


@dataclass(frozen=True, slots=True)
class PiecePlan:
    """A piece: its steps in working order."""

    key: str
    steps: tuple[StepPlan, ...]

    @property
    def left(self) -> tuple[int, ...]:
        """The stitches left live for a join, per size; none if the piece leaves none."""
        details = (step.detail for step in self.steps)
        return next((detail.stitches for detail in details if isinstance(detail, Left)), ())

    @property
    def rounds_so_far(self) -> tuple[tuple[int, ...], ...]:
        """Rounds or rows worked up to the end of each step, per size.

        Held stitches that are picked up again start a new count, as a thumb does.
        """
        found, started = [], (0,) * len(self.steps[0].after)
        for step in self.steps:
            if isinstance(step.detail, PickUp):
                started = tuple(progress.rounds for progress in step.before)
            ends = (progress.rounds for progress in step.after)
            found.append(tuple(end - start for end, start in zip(ends, started, strict=True)))
        return tuple(found)

    @property
    def rounds(self) -> tuple[int, ...]:
        """All rounds or rows of the piece, per size."""
        return tuple(progress.rounds for progress in self.steps[-1].after)
