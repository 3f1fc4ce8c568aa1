"""What of a pattern decides which words and drawings of a technique fit it."""

from collections.abc import Iterator

from bindoff.craft.fabric import Fabric
from bindoff.craft.stitches.cells import WRAPPED
from bindoff.document.techniques.pictures import Shown
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.picture import cell_meaning
from bindoff.plan.plan import Plan
from bindoff.plan.steps.pick_up_along import Along, PickedUp
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.rowlang.syntax import Part, Row, ToGap, Turn, Work
from bindoff.source.rowlang.uses import every_part, ids_used

_RIBS = (Fabric.RIB_1, Fabric.RIB_2, Fabric.RIB)
_NARROW = 12  # stitches: what is no wider is a cord or a tie, which nobody pins

_LOW = 4  # rows: fewer between other rows are no ribbing that draws in


class Circumstances(Record):
    """``flat`` says that a piece is worked flat and wide enough to be pinned, ``ribbed`` that a
    piece has ribbing, and ``flat_rib`` that a flat one has. Stitches are picked up along
    ``row_ends``, of which some are ``skipped``, along the ``edge_stitches`` of a cast-on or
    bound-off edge, and around an ``opening``.

    Short rows stop ``at_gap`` or go ``past_turn``; at their turns is a ``slipped_turn``, a
    ``double_turn`` or a ``wrapped_turn``. ``into_rib`` says that a new yarn begins in ribbing."""

    flat: bool
    ribbed: bool
    flat_rib: bool
    row_ends: bool
    skipped: bool
    edge_stitches: bool
    opening: bool
    at_gap: bool
    past_turn: bool
    slipped_turn: bool
    double_turn: bool
    wrapped_turn: bool
    into_rib: bool

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
    parts = [part for row in _rows(plan) for part in every_part(row)]
    gaps = [goal for goal in map(_goal, parts) if isinstance(goal, ToGap)]
    turns = [part for part in parts if isinstance(part, Turn)]
    used = ids_used(_rows(plan)) | _charted(plan)
    return Circumstances(
        flat=bool(flat),
        ribbed=any(_has_rib(plan, piece) for piece in plan.pieces),
        flat_rib=any(_has_rib(plan, piece) for piece in flat),
        row_ends=any(part.skips for part in along),
        skipped=any(each.stitches < each.rows for part in along for each in part.skips),
        edge_stitches=any(not part.skips for part in along),
        opening=any(around for _, around in picked),
        at_gap=any(goal.past == 0 for goal in gaps),
        past_turn=any(goal.past != 0 for goal in gaps),
        slipped_turn=bool(turns) and any(map(_slips_first, _rows(plan))),
        double_turn=any(turn.double for turn in turns) or _DOUBLE in used,
        wrapped_turn=any(turn.wrap for turn in turns) or WRAPPED in used,
        into_rib=any(_changes_into_rib(plan, piece) for piece in plan.pieces),
    )


_DOUBLE = "ds"


def _rows(plan: Plan) -> Iterator[Row]:
    """Every row in the row language."""
    for piece in plan.pieces:
        for step in piece.steps:
            yield from step.all_rows


def _goal(part: Part) -> object:
    """How far a part of a row goes, if it has a goal."""
    return getattr(part, "to", None) or getattr(part, "until", None)


def _slips_first(row: Row) -> bool:
    """Whether a row slips its first stitch, as the one after a turn may."""
    first = row.parts[0] if row.parts else None
    return isinstance(first, Work) and first.stitch == "sl"


def _charted(plan: Plan) -> frozenset[str]:
    """The stitches of charts."""
    found = set()
    for piece in plan.pieces:
        for chart in (chart for step in piece.steps for chart in step.charts):
            legend = plan.source.pattern.charts[chart.chart].legend
            for meaning in legend.values():
                name = cell_meaning(meaning, plan.source.pattern.yarns)[1]
                if name:
                    found.add(plan.book.named(name).id)
    return frozenset(found)


def _changes_into_rib(plan: Plan, piece: PiecePlan) -> bool:
    """Whether a step in ribbing begins in another yarn than the row before it."""
    last: frozenset[str] = frozenset()
    for step in piece.steps:
        loops = [frozenset(yarn for yarn, _ in each) for each in step.worked[0]]
        if not loops:
            continue
        ribbed = not step.charts and fabric_of(piece, step, plan.source) in _RIBS
        if ribbed and last and not loops[0] & last:
            return True
        last = loops[-1]
    return False


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
