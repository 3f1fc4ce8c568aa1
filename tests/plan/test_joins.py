"""Edges joined loop for loop, and edgings whose corners are counted."""

import pytest

from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan, make_plan
from bindoff.plan.steps.edging import Edged
from bindoff.plan.steps.join import Joined
from bindoff.source.read import read_source
from tests.small_patterns import TUBE, changed
from tests.small_patterns import plan_of as small_plan

HEAD = """\
title: Trial
designer: Ebbstow
version: "1"
date: 2026-01-01
summary: Panels that are joined.
wearer: [adult]
gauge: {stitches: 20, rounds: 28, over: 10 cm}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes: {S: {chest: 80 cm}, M: {chest: 90 cm}}
measures: {on: stitches(chest / 4)}
finished: {Width: width(on)}
pieces:
"""

FRONT = """\
  front:
    title: Front
    worked: flat
    steps:
      - cast on: on
      - work: [k all, p all]
      - leave: live
"""

BACK = """\
  back:
    title: Back
    worked: flat
    steps:
      - cast on: on
      - work: [k all, p all]
      - join: front
"""


def plan_of(pieces: str) -> Plan:
    return make_plan(read_source(MemoryFiles({"pattern.yaml": HEAD + pieces})))


def place_of(pieces: str) -> str:
    """The words of the source that the first finding points at."""
    with pytest.raises(PatternError) as raised:
        plan_of(pieces)
    span = raised.value.findings[0].span
    assert span is not None
    return (HEAD + pieces).splitlines()[span.line - 1][span.column - 1 : span.end_column - 1]


def fault_of(pieces: str) -> tuple[str, str]:
    with pytest.raises(PatternError) as raised:
        plan_of(pieces)
    finding, *_ = raised.value.findings
    return finding.id, finding.message


def test_two_edges_of_one_count_are_joined_and_nothing_is_left() -> None:
    plan = plan_of(FRONT + BACK)

    assert plan.piece("front").left == (40, 45)
    assert plan.piece("back").steps[-1].detail == Joined((40, 45), "front", "grafting")
    assert [each.stitches for each in plan.piece("back").steps[-1].after] == [0, 0]


def test_a_join_of_different_counts_names_both() -> None:
    id, message = fault_of(FRONT + BACK.replace("cast on: on", "cast on: on + 2"))

    assert id == "piece.join-count"
    assert "42" in message
    assert "40" in message


def test_a_join_to_a_piece_that_comes_later_is_refused() -> None:
    assert fault_of(BACK + FRONT)[0] == "piece.join"


def test_a_join_to_a_piece_that_is_bound_off_is_refused() -> None:
    closed = FRONT.replace("leave: live", "bind off: all")

    assert fault_of(closed + BACK)[0] == "piece.join"


def test_stitches_left_live_and_never_joined_are_found() -> None:
    assert fault_of(FRONT)[0] == "piece.never-joined"


def test_a_tube_is_joined_to_its_own_open_start_only() -> None:
    ring = (
        "  ring:\n    title: Ring\n    steps:\n      - cast on: on\n        method: waste yarn\n"
        "      - work: k all\n      - join: start\n"
    )

    assert plan_of(ring).piece("ring").steps[-1].detail == Joined((40, 45), "", "grafting")
    assert fault_of(ring.replace("        method: waste yarn\n", ""))[0] == "piece.join"


def test_a_tube_from_a_stripe_plan_begins_on_waste_yarn_and_is_joined_to_its_start() -> None:
    tube = small_plan(changed(TUBE, ("- gather: all", "- join: start")))

    assert tube.piece("cap").steps[-1].detail == Joined((24, 24), "", "grafting")


def test_grafting_takes_one_more_row_of_yarn_than_binding_nothing_off() -> None:
    """A grafted row has a loop for every stitch."""
    grafted = plan_of(FRONT + BACK).yarn[0].needs[0]
    closed = plan_of(BACK.replace("join: front", "bind off: all")).yarn[0].needs[0]

    parts = {part.name.value: part.metres for part in grafted.parts}
    others = {part.name.value: part.metres for part in closed.parts}
    loop = parts["knitting"] / (2 * 2 * 40)
    assert parts["bind-off"] == pytest.approx(40 * loop)
    assert others["knitting"] == pytest.approx(parts["knitting"] / 2)


EDGED = """\
  mat:
    title: Mat
    worked: flat
    steps:
      - cast on: on
      - work: [k all, p all]
      - bind off: all
      - edging:
          - sc in each stitch, 2 sc in each corner
          - sc in each stitch
        along: 80 cm
        sides: [on, 30, on, 30]
"""


def test_an_edging_counts_its_sides_and_corners() -> None:
    """Three inner corners of two stitches each: 40 + 30 + 40 + 30 + 3 × 2 in size S."""
    detail = plan_of(EDGED).piece("mat").steps[-1].detail

    assert isinstance(detail, Edged)
    assert detail.counts == ((146, 156), (146, 156))
    assert detail.sides == ((40, 45), (30, 30), (40, 45), (30, 30))


def test_a_side_of_an_edging_has_a_stitch_at_least() -> None:
    one = plan_of(EDGED.replace("30, on, 30]", "1, on, 30]")).piece("mat").steps[-1].detail

    assert isinstance(one, Edged)
    assert one.counts[0] == (40 + 1 + 40 + 30 + 6, 45 + 1 + 45 + 30 + 6)
    assert fault_of(EDGED.replace("30, on, 30]", "0, on, 30]"))[0] == "amount.small"


def test_an_edging_along_nothing_is_refused() -> None:
    id, message = fault_of(EDGED.replace("along: 80 cm", "along: 0 cm"))

    assert (id, message) == ("amount.small", "`along` comes to 0 cm, and must be above 0")


def test_corners_of_an_edging_grow_round_by_round() -> None:
    """Two more stitches in each of three corners in every round; each side keeps its own."""
    twice = EDGED.replace(
        "          - sc in each stitch\n", "          - sc in each stitch, 2 sc in each corner\n"
    )
    detail = plan_of(twice).piece("mat").steps[-1].detail

    assert isinstance(detail, Edged)
    assert detail.counts == ((146, 156), (152, 162))


def test_a_row_of_an_edging_that_does_not_fit_is_told_for_its_size_and_place() -> None:
    slip = EDGED.replace("          - sc in each stitch\n", "          - sc in next 146 stitches\n")
    id, message = fault_of(slip)

    assert id == "row.too-few"
    assert (
        message == "size M: in row 2 the row works 146 of 156 live stitches and leaves 10 unworked"
    )
    assert place_of(slip) == "sc in next 146 stitches"


def test_a_row_of_an_edging_may_name_a_measure() -> None:
    named = EDGED.replace(
        "          - sc in each stitch\n",
        "          - sc in next {on} stitches, sc in each stitch\n",
    )
    detail = plan_of(named).piece("mat").steps[-1].detail

    assert isinstance(detail, Edged)
    assert detail.counts[1] == (146, 156)


def test_an_edging_that_does_not_fit_its_sides_is_found() -> None:
    slip = EDGED.replace("          - sc in each stitch\n", "          - sc in next 200 stitches\n")

    assert fault_of(slip)[0] == "row.too-many"
