"""The helpers a formula may call: counts for a length, lengths for a count, slants, rounding.

With a gauge of its own name (``hand``), the first four exist again as ``hand_stitches`` and so on.
"""

from collections.abc import Mapping
from math import hypot

from bindoff.diagnostics import fail
from bindoff.plan.gauge import Gauge, Rounding, round_to
from bindoff.plan.values import Value
from bindoff.source.formula import Function, Kind, Quantity

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
        "slant": _slant,
    }
    for name, gauge in gauges.items():
        for helper in COUNTING:
            found[helper_name(name, helper)] = _counting(helper, gauge)
        found[helper_name(name, "width")] = _measuring(gauge.stitch_mm, "stitches")
        found[helper_name(name, "height")] = _measuring(gauge.round_mm, "rounds")
    return found


def helper_name(gauge: str, helper: str) -> str:
    """What formulas call the ``helper`` of a gauge; the main gauge has the name ``""``."""
    return f"{gauge}_{helper}" if gauge else helper


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
            f"`{helper}` needs a length, and {length.value:g} has no unit of length",
            f"Where it comes from, write its unit, as in `{length.value:g} cm`; or give the name "
            "of a measure that is a length",
        )
    if length.value <= 0:
        raise fail(
            "formula.length",
            f"`{helper}` needs a length above 0, and this one comes to {length.value / 10:g} cm",
            "Check the measures this length comes from",
        )
    how_many = gauge.stitches_for if kind is Kind.STITCHES else gauge.rounds_for
    times, more = _whole("multiple", multiple, least=1), _whole("plus", plus, least=0)
    return how_many(length.value, times, more, rounding)


def _whole(name: str, quantity: Quantity, least: int) -> int:
    value = quantity.value
    if quantity.kind is Kind.LENGTH or value != round(value) or value < least:
        raise fail(
            "formula.multiple",
            f"`{name}` must be a whole number, {least} or more",
            f"Write a number such as `{name} = 4`",
        )
    return round(value)


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
        given = [each for each in (multiple, plus) if each is not ONE and each is not NONE]
        if any((each.kind is Kind.LENGTH) != (number.kind is Kind.LENGTH) for each in given):
            raise fail(
                "formula.kind",
                "a length is rounded to a multiple of a length, a count to one of a count",
                "Write the multiple as what it is, such as 5 mm or 4",
            )
        times = round_to((number.value - plus.value) / multiple.value, rounding)
        return Quantity(times * multiple.value + plus.value, number.kind)

    return to_multiple


def _count(number: Quantity) -> Quantity:
    return Quantity(number.value)


def _slant(across: Quantity, up: Quantity) -> Quantity:
    """The length of an edge that leans: the longest side of a triangle with a right angle."""
    if across.kind is not Kind.LENGTH or up.kind is not Kind.LENGTH:
        raise fail(
            "formula.length",
            "`slant` needs two lengths: how far the edge leans, and how high it is",
            "Make lengths of counts with `width` and `height`",
        )
    return Quantity(hypot(across.value, up.value), Kind.LENGTH)


def _extreme(*, smallest: bool) -> Function:
    def extreme(*numbers: Quantity) -> Quantity:
        if len({number.kind is Kind.LENGTH for number in numbers}) != 1:
            raise fail(
                "formula.kind", "lengths and counts can't be compared", "Compare like with like"
            )
        pick = min if smallest else max
        # Among rounds a bare number counts rounds, whichever of them is taken.
        kind = next((each.kind for each in numbers if each.kind is not Kind.NUMBER), Kind.NUMBER)
        return Quantity(pick(number.value for number in numbers), kind)

    return extreme
