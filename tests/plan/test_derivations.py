"""The derivation a value carries gives its figure to whoever works it out with a calculator."""

import re
from math import pi, sqrt

import pytest

from bindoff.craft.ease import SNUG_HAT
from bindoff.plan.crown import flat_crown_rounds
from bindoff.plan.gauge import Gauge
from bindoff.plan.tube import circumference, fit, gauge_needed
from bindoff.plan.values import Value
from bindoff.plan.yarn import (
    Ball,
    Relaxation,
    Swatch,
    loop_from_density,
    loop_from_swatch,
)

GAUGE = Gauge.over(9, 12.5)
HAND = Gauge.over(22, 30)


def worked_out(value: Value) -> float:
    """The formula with its inputs put in, as a reader would type it."""
    text, _, _ = value.formula.partition(",")  # what comes after says how it was rounded
    for name, figure in sorted(value.inputs, key=lambda pair: -len(pair[0])):
        assert name in text
        text = text.replace(name, repr(figure))
    text = text.replace(" mm", "").replace("2 pi", "(2 * pi)")
    text = re.sub(r" [x×] ", " * ", text).replace("÷", "/").replace("√", "sqrt")
    return float(eval(text, {"pi": pi, "sqrt": sqrt}))


def test_a_derivation_gives_its_figure() -> None:
    for value, exact in (
        (circumference(46, GAUGE), 46 / 0.09),
        (fit(46, GAUGE, 561.1, SNUG_HAT).ease, 46 / 0.09 - 561.1),
        (gauge_needed(46, 504), 4600 / 504),
        (flat_crown_rounds(100, HAND), 100 / 0.22 / (2 * pi) * 0.3),
        (HAND.stitches_for(508), 508 * 0.22),
        (HAND.rounds_for(508), 508 * 0.3),
        (loop_from_density(20, 28, Relaxation.DRY).value, 10 * sqrt(19.0 / 5.6)),
        (loop_from_swatch(Swatch(9.0, 1000, Ball(100, 200))).value, 18.0),
    ):
        assert value.exact == pytest.approx(exact)
        assert worked_out(value) == pytest.approx(exact)


def test_a_length_that_follows_from_a_count_is_not_rounded() -> None:
    for value in (circumference(46, GAUGE), fit(46, GAUGE, 561.1, SNUG_HAT).ease):
        assert value.rounded == value.exact
        assert value.error_mm == 0


def test_rounding_a_crown_moves_the_fabric_by_part_of_a_round() -> None:
    """21.7 rounds of 3.33 mm worked as 22."""
    value = flat_crown_rounds(100, HAND)

    assert value.rounded == 22
    assert value.error_mm == pytest.approx(22 * 100 / 30 - 100 / 0.22 / (2 * pi))
