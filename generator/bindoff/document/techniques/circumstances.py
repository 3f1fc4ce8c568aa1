"""What of a pattern decides which words and drawings of a technique fit it."""

from collections.abc import Iterator

from bindoff.craft.fabric import Fabric
from bindoff.document.techniques.pictures import Shown
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.plan import Plan
from bindoff.plan.steps.pick_up_along import Along, PickedUp
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record
from bindoff.remembered import once_each

_RIBS = (Fabric.RIB_1, Fabric.RIB_2, Fabric.RIB)
_NARROW = 12  # stitches: what is no wider is a cord or a tie, which nobody pins

_LOW = 4  # rows: fewer between other rows are no ribbing that draws in


class Circumstances(Record):
    """``flat`` says that a piece is worked flat and wide enough to be pinned, ``ribbed`` that a
    piece has ribbing, and ``flat_rib`` that a flat one has. Stitches are picked up along
    ``row_ends``, of which some are ``skipped``, along the ``edge_stitches`` of a cast-on or
    bound-off edge, and around an ``opening``."""

    flat: bool
    ribbed: bool
    flat_rib: bool
    row_ends: bool
    skipped: bool
    edge_stitches: bool
    opening: bool

    @property
    def shown(self) -> frozenset[Shown]:
        """What drawings may show."""
        found = {
            Shown.FLAT_PIECE: self.flat,
            Shown.ROW_ENDS: self.row_ends,
            Shown.EDGE_STITCHES: self.edge_stitches,
        }
        return frozenset(each for each, is_so in found.items() if is_so)


@once_each
def circumstances(plan: Plan) -> Circumstances:
    """Those of a whole pattern, in all its sizes."""
    flat = [piece for piece in plan.pieces if _is_flat(piece)]
    picked = [(part, around) for piece in plan.pieces for part, around in _picked_up(piece)]
    along = [part for part, _ in picked]
    return Circumstances(
        flat=bool(flat),
        ribbed=any(_has_rib(plan, piece) for piece in plan.pieces),
        flat_rib=any(_has_rib(plan, piece) for piece in flat),
        row_ends=any(part.skips for part in along),
        skipped=any(each.stitches < each.rows for part in along for each in part.skips),
        edge_stitches=any(not part.skips for part in along),
        opening=any(around for _, around in picked),
    )


def _is_flat(piece: PiecePlan) -> bool:
    """Whether a piece begins in rows, and is ever wide."""
    first = next((step for step in piece.steps if step.begins is not None), None)
    if first is None or not first.after[0].flat:
        return False
    return any(state.stitches > _NARROW for step in piece.steps for state in step.after)


def _has_rib(plan: Plan, piece: PiecePlan) -> bool:
    """Whether a step of it is worked in ribbing."""
    return any(
        step.rounds[0] >= _LOW and fabric_of(piece, step, plan.source) in _RIBS
        for step in piece.steps
    )


def _picked_up(piece: PiecePlan) -> Iterator[tuple[Along, bool]]:
    """The edges that stitches are picked up along, and whether they go around an opening."""
    for step in piece.steps:
        if isinstance(step.detail, PickedUp):
            for part in step.detail.parts:
                if not part.new and not part.names:
                    yield part, not step.after[0].flat
