"""Ways to cast on and bind off: what they leave open, and what they say."""

import pytest

from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan
from tests.small_patterns import faults_of, flap, plan_of


def words(plan: Plan) -> str:
    document, _ = build_document(plan, MemoryFiles({}))
    return "\n".join(texts(document))


@pytest.mark.parametrize(
    "method", ["long-tail", "cable", "knitted", "backward-loop", "tubular", "provisional"]
)
def test_a_cast_on_says_its_method_and_explains_it(method: str) -> None:
    told = words(plan_of(flap(f"{{cast on: 40, method: {method}}}", "bind off: all")))

    assert f"With Slate and the {method} method, cast on" in told
    assert f"{method.capitalize()} cast on" in told


@pytest.mark.parametrize(
    ("method", "called"),
    [
        ("turkish", "Turkish"),
        ("german twisted", "German twisted"),
        ("crochet", "crochet"),
    ],
)
def test_a_cast_on_called_after_a_people_has_its_capital(method: str, called: str) -> None:
    text = flap(f"{{cast on: 40, method: {method}}}", "bind off: all")
    told = words(plan_of(text.replace("    worked: flat\n", "")))

    assert f"With Slate and the {called} method, cast on" in told
    assert f"{called[0].upper()}{called[1:]} cast on" in told


def test_a_cast_on_that_makes_a_ring_begins_no_flat_piece() -> None:
    """Its stitches lie around two needles, as for a toe (common practice, no source)."""
    text = flap("{cast on: 40, method: turkish}", "bind off: all")
    (found,) = faults_of(text)

    assert found.id == "piece.ring"
    assert found.message == "the method `turkish` makes a ring, and the piece is worked flat"
    assert "`method: provisional`" in found.help
    assert found.span is not None
    assert text.splitlines()[found.span.line - 1][found.span.column - 1 :].startswith("turkish")
    assert faults_of(text.replace("    worked: flat\n", "")) == ()


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ("loosely", " loosely with a sewn edge."),
        ("in rib", " in rib with a sewn edge."),
        (
            "so that the cuff passes over the heel",
            " with a sewn edge so that the cuff passes over the heel.",
        ),
    ],
)
def test_what_a_bind_off_is_for_is_told_after_how_it_is_made(how: str, said: str) -> None:
    plan = plan_of(flap("cast on: 40", f"{{bind off: all, by: sewn, how: {how}}}"))

    assert said in words(plan)


@pytest.mark.parametrize("by", ["sewn", "i-cord", "picot", "tubular"])
def test_a_bind_off_says_its_method_and_explains_it(by: str) -> None:
    told = words(plan_of(flap("cast on: 40", f"{{bind off: all, by: {by}}}")))

    assert f" with {'an' if by == 'i-cord' else 'a'} {by} edge." in told
    assert f"{by.capitalize()} edge" in told


def test_the_loops_of_a_provisional_cast_on_are_taken_up_by_name() -> None:
    plan = plan_of(
        flap(
            "{cast on: 40, method: provisional, for: lower edge}",
            "bind off: all",
            "held: lower edge",
            "bind off: all",
        )
    )

    assert [step.after[0].stitches for step in plan.pieces[0].steps] == [40, 0, 40, 0]
    assert "Its open loops are taken up later as the lower edge." in words(plan)


@pytest.mark.parametrize(
    ("steps", "id"),
    [
        (("{cast on: 40, for: lower edge}", "bind off: all"), "piece.open-loops"),
        (
            ("{cast on: 40, method: provisional, for: lower edge}", "bind off: all"),
            "piece.group-left",
        ),
        (("{cast on: 40, method: wound}", "bind off: all"), "machine.cast-on"),
    ],
)
def test_open_loops_are_open_and_taken_up_once(steps: tuple[str, ...], id: str) -> None:
    (found,) = faults_of(flap(*steps))

    assert found.id == id
