"""Duplicate stitch: areas, working order, starts and thread."""

from collections.abc import Sequence
from dataclasses import dataclass

from generator.plan.colour.grid import ColourGrid

Cells = Sequence[Sequence[str | None]]
"""Yarn to embroider per round and stitch, shaped and ordered like ``ColourGrid.rounds``."""

THREAD_PER_LOOP = 1.5
"""Thread of one duplicate stitch over the loop length it covers; 1.25 to 1.5 from memory."""

JUMP_LIMIT = 3
"""Stitches a thread may pass behind before it is cut (handbook rule)."""

STRAND_MM = 600.0
"""Longest strand to work with: 60 cm, 24 in (handbook rule)."""

TAIL_MM = 75.0
"""Tail at each end of a strand: 3 in or more (handbook rule)."""


@dataclass(frozen=True, slots=True)
class ThreadRule:
    """Lengths of the embroidery thread, in mm; ``stitch_mm`` is the width of one stitch."""

    loop_mm: float
    stitch_mm: float
    thread_per_loop: float = THREAD_PER_LOOP
    jump_limit: int = JUMP_LIMIT
    strand_mm: float = STRAND_MM
    tail_mm: float = TAIL_MM


@dataclass(frozen=True, slots=True)
class Start:
    """Stitches worked in one go from round ``round_``, stitch ``stitch``.

    ``jump``: stitches or rounds passed, whichever is more, since the stitch worked before in this
    yarn; ``None`` for its very first. ``new`` is false where that jump is within the limit and the
    thread of the area before goes on. ``strands`` counts the strands begun here; ``thread_mm`` is
    their thread, tails included.
    """

    round_: int
    stitch: int
    stitches: int
    jump: int | None
    new: bool
    strands: int
    thread_mm: float


@dataclass(frozen=True, slots=True)
class Area:
    """Touching stitches of one yarn. ``cells``: (round, stitch) in working order."""

    yarn: str
    first_round: int
    last_round: int
    cells: tuple[tuple[int, int], ...]
    starts: tuple[Start, ...]

    @property
    def stitches(self) -> int:
        """How many stitches the area has."""
        return len(self.cells)

    @property
    def strands(self) -> int:
        """Strands begun in the area."""
        return sum(start.strands for start in self.starts)

    @property
    def thread_mm(self) -> float:
        """Thread for the area, tails included."""
        return sum(start.thread_mm for start in self.starts)


@dataclass(frozen=True, slots=True)
class YarnThread:
    """The embroidery of one yarn. ``starts`` counts the new ones only."""

    yarn: str
    areas: int
    stitches: int
    starts: int
    strands: int
    thread_mm: float


@dataclass(frozen=True, slots=True)
class Embroidery:
    """All areas in working order (yarn by yarn) and the sum per yarn."""

    areas: tuple[Area, ...]
    threads: tuple[YarnThread, ...]


@dataclass(frozen=True, slots=True)
class Mirror:
    """Axes of a mirror image: 23.0 is through stitch 23, 23.5 between stitches 23 and 24.

    ``opposite`` is where the same axis meets the other side of a tube, ``None`` in a flat piece.
    """

    axis: float
    opposite: float | None


def plan_embroidery(
    cells: Cells, yarns: tuple[str, ...], rule: ThreadRule, wraps: bool = True
) -> Embroidery:
    """Areas, working order, starts and thread of ``cells``; ``yarns`` gives the order of yarns."""
    raise NotImplementedError


def mirrors(grid: ColourGrid) -> tuple[Mirror, ...]:
    """The axes about which the picture is its own mirror image, by stitch number."""
    raise NotImplementedError


def mirror_pairs(embroidery: Embroidery, width: int, mirror: Mirror) -> tuple[tuple[int, int], ...]:
    """Indices (area, its image) of areas that are each other's mirror image; own images left out."""
    raise NotImplementedError


def repeats_around(grid: ColourGrid) -> int:
    """How many times the picture repeats exactly around the tube: 2 where back equals front."""
    raise NotImplementedError
