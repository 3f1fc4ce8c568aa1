"""The helpers of formulas: counts for lengths, lengths for counts, rounding, what they refuse."""

import pytest

from bindoff.diagnostics import PatternError, Span
from bindoff.plan.gauge import Gauge
from bindoff.plan.helpers import COUNTING, count_for, helpers
from bindoff.source.formula import Kind, Quantity, evaluate, parse_formula

GAUGES = {"": Gauge.over(22, 30), "rib": Gauge.over(28, 34)}
NAMES = {"around": Quantity(455, Kind.LENGTH), "cast_on": Quantity(100, Kind.STITCHES)}


def value(text: str) -> Quantity:
    formula = parse_formula(text, Span("pattern.yaml", 1, 1, 1, len(text) + 1))
    return evaluate(formula, NAMES, helpers(GAUGES))


@pytest.mark.parametrize(
    ("text", "figure", "kind"),
    [
        ("stitches(10 cm)", 22, Kind.STITCHES),
        ("stitches(45.5 cm)", 100, Kind.STITCHES),  # 100.1
        ("stitches(45.5 cm, multiple = 8)", 104, Kind.STITCHES),  # 12.5 times, a half goes up
        ("stitches(45.5 cm, multiple = 8, plus = 2)", 98, Kind.STITCHES),  # 12.26 times
        ("stitches_up(45.6 cm)", 101, Kind.STITCHES),
        ("stitches_down(45.4 cm)", 99, Kind.STITCHES),
        ("rounds(5 cm)", 15, Kind.ROUNDS),
        ("rows(5 cm, 2)", 16, Kind.ROUNDS),
        ("rounds_down(5.5 cm)", 16, Kind.ROUNDS),
        ("rounds_up(5.5 cm)", 17, Kind.ROUNDS),
        ("width(44)", 200.0, Kind.LENGTH),
        ("height(15)", 50.0, Kind.LENGTH),
        ("rib_stitches(10 cm)", 28, Kind.STITCHES),
        ("stitches(1 mm)", 1, Kind.STITCHES),
        ("nearest(4.3, 0.5)", 4.5, Kind.NUMBER),
        ("rib_height(17)", 50.0, Kind.LENGTH),
        ("nearest(49.4, 6)", 48, Kind.NUMBER),
        ("nearest(51, 6)", 54, Kind.NUMBER),  # halfway goes up
        ("nearest(cast_on, 8, plus = 2)", 98, Kind.STITCHES),
        ("up(49.4, 6)", 54, Kind.NUMBER),
        ("down(49.4, 6)", 48, Kind.NUMBER),
        ("nearest(456 mm, 5 mm)", 455, Kind.LENGTH),
        ("count(cast_on)", 100, Kind.NUMBER),
        ("min(3, 2, 5)", 2, Kind.NUMBER),
        ("max(around, 50 cm)", 500, Kind.LENGTH),
        ("slant(3 cm, 40 mm)", 50, Kind.LENGTH),
    ],
)
def test_worked_examples(text: str, figure: float, kind: Kind) -> None:
    found = value(text)

    assert found.value == pytest.approx(figure)
    assert found.kind is kind


def test_published_counts_for_inches() -> None:
    """9 in at 5.5 stitches an inch are 49.5, so 50; 13 in are 71.5, so 72: a cuff and the top of
    its sleeve (S88 in the list of trade figures); 14 in at 6 rounds an inch are 84 rounds (S89)."""
    gauge = Gauge.over(5.5, 6, 25.4)

    def counted(helper: str, inches: float) -> float:
        return count_for(helper, gauge, Quantity(inches * 25.4, Kind.LENGTH)).rounded

    assert counted("stitches", 9) == 50
    assert counted("stitches", 13) == 72
    assert counted("rounds", 14) == 84


@pytest.mark.parametrize("helper", COUNTING)
def test_a_counting_helper_needs_a_length(helper: str) -> None:
    with pytest.raises(PatternError) as caught:
        value(f"{helper}(20)")
    (fault,) = caught.value.findings

    assert fault.message == f"`{helper}` needs a length, and 20 has no unit of length"
    assert "`20 cm`" in fault.help


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("stitches(around - 50 cm)", "needs a length above 0, and this one comes to -4.5 cm"),
        ("stitches(around - 45.5 cm)", "needs a length above 0, and this one comes to 0 cm"),
        ("stitches(around, multiple = 0)", "`multiple` must be a whole number, 1 or more"),
        ("stitches(around, multiple = 2.5)", "`multiple` must be a whole number"),
        ("stitches(around, multiple = 4 cm)", "`multiple` must be a whole number"),
        ("stitches(around, plus = -1)", "`plus` must be a whole number, 0 or more"),
        ("width(around)", "a number of stitches, not a length"),
        ("height(around)", "a number of rounds, not a length"),
        ("nearest(cast_on, 0)", "a multiple must be above 0"),
        ("nearest(cast_on, 5 mm)", "a count to one of a count"),
        ("nearest(around, 5)", "a multiple of a length"),
        ("min(around, 5)", "lengths and counts can't be compared"),
    ],
)
def test_what_makes_no_sense_is_refused_with_its_place(text: str, says: str) -> None:
    with pytest.raises(PatternError) as caught:
        value(text)
    (fault,) = caught.value.findings

    assert says in fault.message
    assert fault.span == Span("pattern.yaml", 1, 1, 1, len(text) + 1)


@pytest.mark.parametrize(
    ("text", "id", "message", "help"),
    [
        (
            "width(around)",
            "formula.count",
            "this needs a number of stitches, not a length",
            "Give it a count",
        ),
        (
            "nearest(cast_on, 0)",
            "formula.multiple",
            "a multiple must be above 0",
            "Give a multiple such as 4",
        ),
        (
            "min(around, 5)",
            "formula.kind",
            "lengths and counts can't be compared",
            "Compare like with like",
        ),
        (
            "stitches(around, plus = -1)",
            "formula.multiple",
            "`plus` must be a whole number, 0 or more",
            "Write a number such as `plus = 4`",
        ),
    ],
)
def test_a_refusal_says_what_to_do(text: str, id: str, message: str, help: str) -> None:
    with pytest.raises(PatternError) as caught:
        value(text)
    (fault,) = caught.value.findings

    assert (fault.id, fault.message, fault.help) == (id, message, help)
