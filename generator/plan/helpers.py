"""The helpers a formula may call: counts for a length, lengths for a count, rounding.

With a gauge of its own name (``hand``), the first four exist again as ``hand_stitches`` and so on.
"""

from collections.abc import Mapping

from generator.diagnostics import fail
from generator.plan.gauge import Gauge, Rounding, round_to
from generator.plan.values import Value
from generator.source.formula import Function, Kind, Quantity

ONE = Quantity(1)
NONE = Quantity(0)

# helper -> how it rounds; these are the helpers whose result is a count for a length
COUNTING: Mapping[str, tuple[Kind, Rounding]] = {
    "stitches": (Kind.STITCHES, "nearest"),
    "stitches_up": (Kind.STITCHES, "up"),
    "stitches_down": (Kind.STITCHES, "down"),
    "rounds": (Kind.ROUNDS, "nearest"),
    "rounds_up": (Kind.ROUNDS, "up"),
    "rounds_down": (Kind.ROUNDS, "down"),
    "rows": (Kind.ROUNDS, "nearest"),
    "rows_up": (Kind.ROUNDS, "up"),
    "rows_down": (Kind.ROUNDS, "down"),
}


def helpers(gauges: Mapping[str, Gauge]) -> Mapping[str, Function]:
    """All helpers for one size; the gauge named ``""`` is the pattern's main one."""
    found: dict[str, Function] = {
        "nearest": _to_multiple("nearest"),
        "up": _to_multiple("up"),
        "down": _to_multiple("down"),
        "count": _count,
        "min": _extreme(smallest=True),
        "max": _extreme(smallest=False),
    }
    for name, gauge in gauges.items():
        prefix = f"{name}_" if name else ""
        for helper in COUNTING:
            found[prefix + helper] = _counting(helper, gauge)
        found[prefix + "width"] = _measuring(gauge.stitch_mm, "stitches")
        found[prefix + "height"] = _measuring(gauge.round_mm, "rounds")
    return found


def count_for(
    helper: str, gauge: Gauge, length: Quantity, multiple: Quantity = ONE, plus: Quantity = NONE
) -> Value:
    """The count for a length, with its derivation.

    Raises:
        PatternError: without a span, if the length or the multiple can't give a count.
    """
    kind, rounding = COUNTING[helper]
    if length.kind is not Kind.LENGTH:
        raise fail(
            "formula.length",
            f"`{helper}` needs a length, and {length.value:g} is not one",
            "Give it a length, such as 21 cm or the name of a measure that is a length",
        )
    how_many = gauge.stitches_for if kind is Kind.STITCHES else gauge.rounds_for
    try:
        return how_many(length.value, _whole(multiple), _whole(plus), rounding)
    except ValueError as error:
        raise fail("formula.count", str(error), "Check the lengths this count comes from") from None


def _whole(quantity: Quantity) -> int:
    if quantity.kind is Kind.LENGTH or quantity.value != round(quantity.value):
        raise ValueError("multiple and plus must be whole numbers")
    return round(quantity.value)


def _counting(helper: str, gauge: Gauge) -> Function:
    def count(length: Quantity, multiple: Quantity = ONE, plus: Quantity = NONE) -> Quantity:
        value = count_for(helper, gauge, length, multiple, plus)
        return Quantity(value.rounded, COUNTING[helper][0])

    return count


def _measuring(each_mm: float, what: str) -> Function:
    def measure(count: Quantity) -> Quantity:
        if count.kind is Kind.LENGTH:
            raise fail(
                "formula.count", f"this needs a number of {what}, not a length", "Give it a count"
            )
        return Quantity(count.value * each_mm, Kind.LENGTH)

    return measure


def _to_multiple(rounding: Rounding) -> Function:
    def to_multiple(number: Quantity, multiple: Quantity = ONE, plus: Quantity = NONE) -> Quantity:
        if multiple.value <= 0:
            raise fail(
                "formula.multiple", "a multiple must be above 0", "Give a multiple such as 4"
            )
        times = round_to((number.value - plus.value) / multiple.value, rounding)
        return Quantity(times * multiple.value + plus.value, number.kind)

    return to_multiple


def _count(number: Quantity) -> Quantity:
    return Quantity(number.value)


def _extreme(*, smallest: bool) -> Function:
    def extreme(*numbers: Quantity) -> Quantity:
        if len({number.kind is Kind.LENGTH for number in numbers}) != 1:
            raise fail(
                "formula.kind", "lengths and counts can't be compared", "Compare like with like"
            )
        pick = min if smallest else max
        return pick(numbers, key=lambda number: number.value)

    return extreme
