"""Ends of a tube joined and closed: what it takes, and what must be said."""

import pytest

from bindoff.checks.context import Context
from bindoff.checks.engine import found_by
from bindoff.checks.work.edges import CHECKS
from bindoff.craft.fabric import EDGE_TIMES
from bindoff.document.build import build_document
from bindoff.document.stripewords import closing_tails
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan
from bindoff.plan.yarnends import loose_ends
from tests.small_machine import COWL
from tests.small_patterns import CAP, TUBE, WAVES, changed, faults_of, plan_of

JOIN = "      - {join: start, by: slip stitch, yarn: foam}\n"
SEWN = "      - {join: start, by: sewing}\n"
CLOSE = "      - {close: top, by: left open}\n"


def edges(text: str, yarn: str, size: int = 0) -> float:
    """Metres of a yarn for edges: cast on, bound off, joined and closed."""
    plan: Plan = plan_of(text)
    (total,) = [each for each in plan.yarn if each.yarn == yarn]
    return sum(p.metres for p in total.needs[size].parts if p.name.value == "bind-off")


def test_a_slip_stitched_join_takes_a_row_of_slip_stitches() -> None:
    """22 stitches are 22 cm; a row of slip stitches takes so many times its length."""
    assert edges(COWL, "foam") == pytest.approx(0.22 * EDGE_TIMES["sl st"])


def test_both_ends_of_a_tube_are_gathered_with_the_tails_that_are_told() -> None:
    """24 stitches are 24 cm around: two tails of twice around, as the words tell to leave."""
    assert edges(TUBE, "slate") == pytest.approx(2 * 2 * 0.24)


def test_a_sewn_join_takes_three_times_its_length() -> None:
    """22 stitches are 22 cm, sewn with the tail that the words tell to leave."""
    assert edges(changed(COWL, (JOIN, SEWN)), "slate") == pytest.approx(3 * 0.22)


@pytest.mark.parametrize(("yarn", "ends"), [("slate", 0), ("foam", 2)])
@pytest.mark.parametrize("by", ["sewing", "grafting"])
def test_a_tail_joins_where_it_is_of_the_yarn_that_joins(by: str, yarn: str, ends: int) -> None:
    """The last round is in slate: a join in foam is made with a length of its own."""
    join = f"      - {{join: start, by: {by}, yarn: {yarn}}}\n"
    plan = plan_of(changed(COWL, (JOIN, join)))
    (piece,) = plan.pieces

    assert loose_ends(plan.source, piece, 0) == ends
    assert bool(closing_tails(piece, "metric")[1]) == (ends == 0)


def test_a_tail_that_grafts_is_longer_than_its_row_of_loops() -> None:
    """A plain row holds 3.8 times its width dry, 4.1 times wet (Munden 1959, Kw): a tail of three
    widths ends before the row does, one of four and 15 cm more reaches around every hat."""
    (piece,) = plan_of(changed(COWL, (JOIN, "      - {join: start, by: grafting}\n"))).pieces

    assert closing_tails(piece, "metric") == (
        "",
        "a tail of about four times the way around the tube and 15 cm more",
    )
    for around in (22.0, 40.0, 64.0):
        assert 3 * around < 3.8 * around < 4.1 * around < 4 * around + 15


def test_three_needles_are_listed_where_a_tube_is_closed_with_them() -> None:
    """What comes from the machine lies on no needles until someone has them."""
    (piece,) = plan_of(changed(COWL, ("slip stitch", "three-needle bind-off"))).pieces

    assert "knitting needles" in piece.steps[1].tools


@pytest.mark.parametrize(
    ("by", "times"),
    [("gathering", 2), ("flat seam", 1.5), ("tie", 0), ("drawstring", 0), ("left open", 0)],
)
def test_a_ring_is_closed_along_its_rounds(by: str, times: float) -> None:
    """S has 84 rounds at 14 to 10 cm, 60 cm: the ring is as far around as the tube is long."""
    assert edges(changed(COWL, ("left open", by)), "slate") == pytest.approx(times * 0.60)


def test_what_is_no_ring_has_no_top_to_close() -> None:
    (fault,) = faults_of(changed(COWL, (JOIN + CLOSE, CLOSE + JOIN)))

    assert fault.id == "piece.no-ring"


def found(text: str) -> list[str]:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    plan = plan_of(text)
    document, charts = build_document(plan, files)
    return [each.id for each in found_by(CHECKS, Context(plan, document, charts, (), ()))]


def test_a_ring_is_closed_or_said_to_be_open() -> None:
    assert "piece.open-ring" not in found(COWL)
    assert "piece.open-ring" in found(changed(COWL, (CLOSE, "")))


def test_a_tube_worked_by_hand_may_be_what_it_likes() -> None:
    text = changed(
        CAP,
        ("cast on: cast_on", "cast on: cast_on\n        method: waste yarn"),
        ("      - crown: 8\n        to: 8\n      - gather: all\n", "      - join: start\n"),
    )

    assert "piece.open-ring" not in found(text)
