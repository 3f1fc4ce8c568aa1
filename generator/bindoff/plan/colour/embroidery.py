"""Duplicate stitch: areas, working order, starts and thread."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.diagnostics import fail
from bindoff.plan.colour.areas import CellRun, Cells, linked, runs_by_yarn
from bindoff.plan.colour.working_order import Fabric, Passage, Place, working_order
from bindoff.records import Record

THREAD_PER_LOOP = 1.5
"""Thread of one duplicate stitch over the loop length it covers; 1.25 to 1.5 from memory."""

JUMP_LIMIT = 3
"""Stitches a thread may pass behind before it is cut (handbook rule)."""


class ThreadRule(Record):
    """Lengths of the embroidery thread, in mm; ``stitch_mm`` is the width of one stitch.

    ``tail_mm`` is what the technique tells to leave at each end of a strand, so that what a maker
    cuts is what is counted.
    """

    loop_mm: float
    stitch_mm: float
    thread_per_loop: float = THREAD_PER_LOOP
    jump_limit: int = JUMP_LIMIT
    strand_mm: float = CRAFT_LENGTHS["strand"]
    tail_mm: float = CRAFT_LENGTHS["strand_tail"]

    @property
    def working_mm(self) -> float:
        """What a strand holds besides its tails."""
        return self.strand_mm - 2 * self.tail_mm

    @property
    def stitch_thread_mm(self) -> float:
        """Thread of one duplicate stitch."""
        return self.loop_mm * self.thread_per_loop


class Start(Record):
    """Stitches worked in one go from round ``round_``, stitch ``stitch``.

    ``jump``: stitches or rounds passed, whichever is more, since the stitch worked before in this
    yarn; ``None`` for its very first. ``new`` is false where that jump is within the limit and the
    thread of the area before goes on. ``strands`` counts the strands begun here; ``thread_mm`` is
    their thread, tails included. ``lengths``: the thread used here of the strand that goes on,
    if it does, and of each begun here; without tails.
    """

    round_: int
    stitch: int
    stitches: int
    jump: int | None
    new: bool
    strands: int
    thread_mm: float
    lengths: tuple[float, ...] = ()


class Area(Record):
    """Touching stitches of one yarn. ``cells``: (round, stitch) in working order."""

    yarn: str
    first_round: int
    last_round: int
    cells: tuple[Place, ...]
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


class YarnThread(Record):
    """The embroidery of one yarn. ``starts`` counts the new ones only. ``lengths`` are those of its
    strands in mm, in working order, tails included."""

    yarn: str
    areas: int
    stitches: int
    starts: int
    strands: int
    thread_mm: float
    lengths: tuple[float, ...] = ()


class Embroidery(Record):
    """All areas in working order (yarn by yarn), the sum per yarn, and the rule of their thread."""

    areas: tuple[Area, ...]
    threads: tuple[YarnThread, ...]
    rule: ThreadRule


def plan_embroidery(
    cells: Cells, yarns: tuple[str, ...], rule: ThreadRule, wraps: bool = True
) -> Embroidery:
    """Areas, working order, starts and thread of ``cells``; ``yarns`` gives the order of yarns.

    Yarn by yarn; areas by their lowest round, then from stitch 1 on; for the order inside an area
    see ``working_order``. The thread passes behind up to ``rule.jump_limit`` stitches. Beyond that
    it is cut and a new start is made.

    Raises ``PatternError`` when a strand is too short for its tails and one stitch.
    """
    width = len(cells[0]) if cells else 0
    return embroidery_of(runs_by_yarn(cells, wraps), yarns, rule, width, wraps)


def embroidery_of(
    runs: Mapping[str, Sequence[CellRun]],
    yarns: tuple[str, ...],
    rule: ThreadRule,
    width: int,
    wraps: bool,
) -> Embroidery:
    """As ``plan_embroidery``, of the runs of each yarn, bottom to top, on ``width`` stitches."""
    refuse_short(rule)
    fabric = Fabric(width, wraps, rule.jump_limit)
    areas: list[Area] = []
    for yarn in yarns:
        at: Place | None = None
        left = 0.0
        for own in linked(runs.get(yarn, ()), width, wraps):
            order = working_order(own, fabric, at)
            starts, left = _work(order, left, rule)
            places = tuple(order.places)
            areas.append(Area(yarn, own[0].round_, own[-1].round_, places, starts))
            at = places[-1]
    return Embroidery(tuple(areas), tuple(_thread(yarn, areas, rule) for yarn in yarns), rule)


def refuse_short(rule: ThreadRule) -> None:
    """Raise ``PatternError`` when a strand is too short for its tails and one stitch."""
    if rule.working_mm < rule.stitch_thread_mm:
        raise fail(
            "strand.short",
            f"a strand of {rule.strand_mm:g} mm does not hold two tails of {rule.tail_mm:g} mm "
            "and one duplicate stitch",
            "Take a longer strand, or shorter tails",
        )


def _work(order: Passage, left: float, rule: ThreadRule) -> tuple[tuple[Start, ...], float]:
    """The starts of an area worked in ``order``, stitch by stitch.

    ``left`` mm of thread are on the needle before, without its tail; so many after it.
    """
    stitch, beyond = rule.stitch_thread_mm, rule.jump_limit
    starts: list[Start] = []
    passed = order.passed
    cuts = [at for at, gap in enumerate(passed) if at and gap is not None and gap > beyond]
    for first, after in pairwise([0, *cuts, len(passed)]):
        jump = passed[first]
        new = jump is None or jump > beyond
        left = 0.0 if new else left
        strands = 0
        parts = [] if new else [0.0]
        for gap in passed[first:after]:
            taken = stitch + gap * rule.stitch_mm if gap else stitch
            if left < taken:
                left = rule.working_mm
                strands += 1
                taken = stitch
                parts.append(0.0)
            left -= taken
            parts[-1] += taken
        used = sum(parts) + strands * 2 * rule.tail_mm
        starts.append(
            Start(*order.places[first], after - first, jump, new, strands, used, tuple(parts))
        )
    return tuple(starts), left


def _thread(yarn: str, areas: Sequence[Area], rule: ThreadRule) -> YarnThread:
    own = [area for area in areas if area.yarn == yarn]
    lengths: list[float] = []
    for start in (start for area in own for start in area.starts):
        goes_on = len(start.lengths) > start.strands
        if goes_on:
            lengths[-1] += start.lengths[0]
        lengths += [mm + 2 * rule.tail_mm for mm in start.lengths[goes_on:]]
    return YarnThread(
        yarn,
        len(own),
        sum(area.stitches for area in own),
        sum(start.new for area in own for start in area.starts),
        sum(area.strands for area in own),
        sum(area.thread_mm for area in own),
        tuple(lengths),
    )
