"""Pieces cranked on the machine, needle by needle beside the plan."""

import pytest

from bindoff.craft.fabric import Fabric
from bindoff.diagnostics import Diagnostic
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.steps.common import MACHINE, NEEDLES
from tests.small_machine import STRIP
from tests.small_patterns import changed, faults_of, plan_of


def one_fault(text: str) -> Diagnostic:
    (fault,) = faults_of(text)
    return fault


def bed(needles: int, in_work: int, rounds: list[tuple[str, int]]) -> dict[str, int]:
    """A maker at the machine: one stitch a needle in work in every turn; stitches by yarn."""
    hooks = [index < in_work for index in range(needles)]
    made: dict[str, int] = {}
    for yarn, turns in rounds:
        for _ in range(turns):
            made[yarn] = made.get(yarn, 0) + sum(hooks)
    return made


def test_a_strip_is_one_stitch_on_each_needle_in_work_in_every_row() -> None:
    plan = plan_of(STRIP)
    for size, last in enumerate((20, 24)):
        counted: dict[str, int] = {}
        for step in plan.piece("strip").steps:
            for loops in step.worked[size]:
                for yarn, count in loops:
                    counted[yarn] = counted.get(yarn, 0) + count
        assert counted == bed(22, 14, [("slate", 20), ("foam", 4), ("slate", last)])


def test_a_flat_piece_from_the_machine_is_plain_knitting_and_no_garter() -> None:
    """The crank goes back and forth, and the machine knits from the same side: no purl ridge."""
    plan = plan_of(STRIP)
    by_hand = plan_of(changed(STRIP, ("    made: machine\n", "")))

    piece, other = plan.piece("strip"), by_hand.piece("strip")
    assert fabric_of(piece, piece.steps[1], plan.source) is Fabric.PLAIN
    assert fabric_of(other, other.steps[1], by_hand.source) is Fabric.GARTER


def test_a_piece_from_the_machine_needs_it_and_no_needles() -> None:
    tools = {tool for step in plan_of(STRIP).piece("strip").steps for tool in step.tools}

    assert MACHINE in tools
    assert NEEDLES not in tools


@pytest.mark.parametrize("count", [1, 14, 21])
def test_a_panel_may_have_any_needles_but_one(count: int) -> None:
    assert faults_of(changed(STRIP, ("cast on: 14", f"cast on: {count}"))) == ()


def test_a_panel_leaves_a_needle_empty_to_turn_back_at() -> None:
    """Common practice, no source: over a closed ring of stitches the yarn can't turn back."""
    fault = one_fault(changed(STRIP, ("cast on: 14", "cast on: needles")))

    assert fault.id == "machine.needles"
    assert fault.message == (
        "22 stitches to be cast on, and the machine has 22 needles: a panel on all of them has no "
        "edge to turn back at"
    )
    assert fault.help == (
        "Cast on 21 at most, so that a needle is left empty between the two edges, or take out "
        "`worked: flat` for a tube"
    )
    assert fault.span is not None
    assert fault.span.line == STRIP[: STRIP.index("cast on: 14")].count("\n") + 1


def test_a_panel_has_no_more_stitches_than_the_machine_has_needles() -> None:
    text = changed(STRIP, ("cast on: 14", "cast on: [21, 23]"))
    fault = one_fault(text)

    assert fault.id == "machine.needles"
    assert fault.message == ("size M: 23 stitches to be cast on, and the machine has 22 needles")
    assert fault.help == "Cast on 21 at most, or make two pieces"


def test_needles_of_a_size_are_its_limit() -> None:
    text = changed(
        STRIP, ("cast on: 14", "cast on: [21, 23]"), ("{neck: 40 cm}", "{neck: 40 cm, needles: 24}")
    )

    assert faults_of(text) == ()


@pytest.mark.parametrize(("count", "fine"), [(21, False), (22, True), (23, False)])
def test_a_tube_has_a_stitch_on_every_needle(count: int, fine: bool) -> None:
    text = changed(STRIP, ("    worked: flat\n", ""), ("cast on: 14", f"cast on: {count}"))
    faults = faults_of(text)

    assert [each.id for each in faults] == ([] if fine else ["machine.needles"])


@pytest.mark.parametrize("method", ["long-tail"])
def test_a_machine_is_not_cast_on_like_needles(method: str) -> None:
    fault = one_fault(changed(STRIP, ("cast on: 14", f"cast on: 14\n        method: {method}")))

    assert fault.id == "machine.cast-on"


def test_nobody_winds_yarn_around_needles_by_hand() -> None:
    fault = one_fault(
        changed(
            STRIP,
            ("    made: machine\n", ""),
            ("cast on: 14", "cast on: 14\n        method: wound"),
        )
    )

    assert fault.id == "machine.cast-on"


@pytest.mark.parametrize(
    "step",
    [
        "work: p all",
        "work: '*k1, p1; repeat from * to end'",
        "work: '*k2tog; repeat from * to end'",
    ],
)
def test_the_crank_makes_no_other_stitch(step: str) -> None:
    text = changed(STRIP, ("      - bind off: all", f"      - {step}\n      - bind off: all"))

    assert [each.id for each in faults_of(text)] == ["machine.row"]


def test_a_crown_is_no_turn_of_the_crank() -> None:
    text = changed(
        STRIP,
        ("      - bind off: all", "      - even: decrease\n        to: 7\n      - bind off: all"),
    )

    assert [each.id for each in faults_of(text)] == ["machine.row"]


def test_a_machine_without_a_number_of_needles() -> None:
    text = changed(STRIP, ("made: {by: machine, needles: 22}\n", ""))
    fault = one_fault(text)

    assert fault.id == "source.machine-needles"
