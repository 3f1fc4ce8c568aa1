"""Where the yarn of each step comes from, and the ends it leaves: told and counted from here.

Yarn is joined for the first round, again after a rest too long to be carried, and again wherever it
was cut: when a piece leaves the machine, and when nothing is left on the needles.
"""

from collections.abc import Iterator, Sequence
from enum import Enum
from itertools import takewhile

from bindoff.plan.steps.bind_off import BindOff
from bindoff.plan.worked import Loops, PiecePlan, StepPlan
from bindoff.plan.yarn import BindOffKind, CastOnKind, Purpose
from bindoff.source.read import Source

CARRIED_ROUNDS = 4
"""By hand, a yarn not worked for more rounds than this is cut; up to this many it is carried up the
inside. Common practice, no source."""


def carried_rounds(source: Source, key: str) -> int:
    """For how many rounds at the most a yarn that rests is carried up in a piece: at the machine as
    many as its colour plan says."""
    piece = source.pattern.pieces[key]
    if piece.tube is not None or source.pattern.on_machine(key):
        return piece.colour_plan.carry
    return CARRIED_ROUNDS


class Supply(Enum):
    """Where the yarn comes from that a step closes, joins or edges with."""

    IN_HAND = "the yarn that the stitches before were worked with, or one that goes on from there"
    TAIL = "the tail that hangs at the edge"
    JOINED = "a length that is joined for it"


def supply_of(piece: PiecePlan, step: StepPlan) -> Supply | None:
    """Where a step of ``piece`` has the yarn from that it closes, joins or edges with; nothing
    where it does none of that."""
    if _is_apart(step):
        return Supply.TAIL if _has_tail(piece, step) else Supply.JOINED
    closed = step.closes
    if closed is None or closed.by in _WITHOUT_YARN:
        return None
    if closed.by is BindOffKind.GATHERED_ENDS or _has_tail(piece, step):
        return Supply.TAIL
    return Supply.JOINED if _is_cut(piece, step) else Supply.IN_HAND


def leaves_open(piece: PiecePlan, step: StepPlan) -> bool:
    """Whether a step takes stitches off the machine that are open, not bound off there."""
    closes = step.closes is not None and not isinstance(step.detail, BindOff)
    return closes and piece.cranked


def begins_anew(piece: PiecePlan, step: StepPlan) -> bool:
    """Whether a step works on in a yarn that is joined for it, as no yarn hangs at the stitches: of
    a tube that has left the machine, on its waste yarn."""
    takes = any(step.rounds) or supply_of(piece, step) is Supply.JOINED
    return takes and not step.tubes and hangs_on_waste(piece, step)


def hangs_on_waste(piece: PiecePlan, step: StepPlan) -> bool:
    """Whether nothing was worked or closed since the tube left the machine, so that a step works on
    or closes its last round."""
    for each in reversed(_before(piece, step)):
        if each.tubes:
            return True
        if any(each.rounds) or (each.closes is not None and not _is_apart(each)):
            return False
    return False


def _is_apart(step: StepPlan) -> bool:
    """Whether a step's yarn goes along an edge that the rounds have left: it edges, it closes a
    ring, it takes up the open loops of the start."""
    at_start = step.closes is not None and step.closes.start
    purposes = step.answers.thread(step, step.yarn, 0)
    return at_start or bool({Purpose.BIND_OFF, Purpose.EDGING} & set(purposes))


def _has_tail(piece: PiecePlan, step: StepPlan) -> bool:
    """Whether a blunt needle closes an edge and a yarn of its own hangs there in every size: at the
    first round only where a tube from a stripe plan has left it."""
    if step.closes is None or step.closes.by not in _BY_NEEDLE:
        return False
    tubes = [tube for each in piece.steps for tube in each.tubes]
    if step.closes.start:
        return bool(tubes) and all(tube.stripes.bases[0] == step.yarn for tube in tubes)
    return all(step.yarn == yarn for yarn in _last_yarns(piece, step))


def _last_yarns(piece: PiecePlan, step: StepPlan) -> Iterator[str]:
    """The yarn that hangs at the round before a step, per size."""
    before = _before(piece, step)
    for size in range(len(step.before)):
        worked = [each for each in before if each.worked[size]]
        if worked and worked[-1].tubes:
            yield worked[-1].tubes[size].stripes.bases[-1]
        elif worked:
            yarns = [yarn for yarn, _ in worked[-1].worked[size][-1]]
            yield step.yarn if step.yarn in yarns else yarns[-1]


def _is_cut(piece: PiecePlan, step: StepPlan) -> bool:
    """Whether the yarn was cut before a step closes live stitches: as open ones leave the machine,
    and of a tube that left it before."""
    return leaves_open(piece, step) or hangs_on_waste(piece, step)


def _before(piece: PiecePlan, step: StepPlan) -> Sequence[StepPlan]:
    return list(takewhile(lambda each: each is not step, piece.steps))


_WITHOUT_YARN = (None, BindOffKind.WASTE_YARN)
_BY_NEEDLE = (BindOffKind.GRAFTED, BindOffKind.SEWN_TOGETHER, BindOffKind.GATHERED)
_OPEN = (CastOnKind.WASTE_YARN, CastOnKind.PROVISIONAL)
"""Cast-ons that hold none of the piece's own yarn."""


# ---------------------------------------------------------------- ends


def loose_ends(source: Source, piece: PiecePlan, size: int) -> int:
    """The ends of one copy of a piece, but for those that the stripes of a tube have: two for each
    time that a yarn is joined."""
    rounds = list(_rounds(piece, size, tubes=False))
    carry = carried_rounds(source, piece.key)
    yarns = {yarn for loops in rounds for yarn, _ in loops} | set(_apart(piece))
    return 2 * sum(_times(piece, rounds, yarn, size, carry)[0] for yarn in yarns)


def joined_and_carried(source: Source, piece: PiecePlan, yarn: str, size: int) -> tuple[int, int]:
    """How often a yarn is joined in one copy of a piece, and over how many rounds it is carried up
    in all."""
    carry = carried_rounds(source, piece.key)
    return _times(piece, list(_rounds(piece, size)), yarn, size, carry)


def _times(
    piece: PiecePlan, rounds: Sequence[Loops], yarn: str, size: int, carry: int
) -> tuple[int, int]:
    joins, up, rest = 0, 0, carry + 1
    for loops in rounds:
        if loops == _CUT:
            rest = carry + 1
        elif yarn in dict(loops):
            joins += rest > carry
            up += rest if rest <= carry else 0
            rest = 0
        else:
            rest += 1
    return joins + _bobbins(piece, yarn, size) + _apart(piece).count(yarn), up


def _apart(piece: PiecePlan) -> list[str]:
    """The yarns joined along an edge that the rounds have left, one for each time."""
    return [
        step.yarn
        for step in piece.steps
        if _is_apart(step) and supply_of(piece, step) is Supply.JOINED
    ]


_CUT: Loops = ()
"""Between two rounds: all yarns were cut there."""


def _rounds(piece: PiecePlan, size: int, tubes: bool = True) -> Iterator[Loops]:
    """The rounds of one copy of a piece, and where its yarns were cut between them.

    An edge cast on in another yarn than the round above it counts as a round of its own, and so
    does one bound off in another than the round below, or in one that is joined for it.
    """
    edge = last = _CUT  # the edge: the stitches of a cast-on, until the round above tells its yarn
    for step in piece.steps:
        if step.begins is not None and step.begins.by not in (None, *_OPEN):
            edge = ((step.yarn, sum(part[size] for part in step.begins.parts)),)
        for loops in step.worked[size] if tubes or not step.tubes else ():
            if edge and edge[0][0] not in dict(loops):
                yield edge
            yield loops
            edge, last = _CUT, loops
        supply = None if _is_apart(step) else supply_of(piece, step)
        if supply is Supply.JOINED:
            yield _CUT
            last = _CUT
        own = supply in (Supply.JOINED, Supply.IN_HAND) and step.yarn not in dict(last)
        if step.closes is not None and own:
            last = ((step.yarn, step.closes.stitches[size]),)
            yield last
        if step.tubes or not step.after[size].stitches:
            yield _CUT
            last = _CUT


def _bobbins(piece: PiecePlan, yarn: str, size: int) -> int:
    """Lengths of a yarn in intarsia after its first: each is joined."""
    charts = [chart for step in piece.steps for chart in step.charts if chart.bobbins]
    each = [use.lengths for chart in charts for use in chart.bobbins[size] if use.yarn == yarn]
    return max(sum(each) - 1, 0)
