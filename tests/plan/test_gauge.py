"""Gauge and the counts that follow from lengths."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bindoff.plan.gauge import Gauge, Rounding, round_to

INCH = 25.4

gauges = st.builds(
    Gauge.over,
    stitches=st.integers(8, 90).map(lambda halves: halves / 2),
    rounds=st.integers(8, 120).map(lambda halves: halves / 2),
)
lengths = st.floats(5, 2000)
multiples = st.integers(1, 24)
extras = st.integers(0, 12)


def test_stitches_over_a_length_and_a_measured_swatch_give_the_same_gauge() -> None:
    stated = Gauge.over(22, 30, 100)
    measured = Gauge.from_swatch(33, 150, 45, 150)

    assert (stated.state, Gauge.over(22, 30, state="unwashed").state) == ("washed", "unwashed")
    assert stated.stitch_mm == pytest.approx(measured.stitch_mm)
    assert stated.round_mm == pytest.approx(measured.round_mm)


def test_a_swatch_may_be_counted_over_different_widths_and_heights() -> None:
    gauge = Gauge.from_swatch(stitches=27, width_mm=120, rounds=20, height_mm=80, state="unwashed")

    assert gauge.stitches_per() == pytest.approx(22.5)
    assert gauge.rounds_per() == pytest.approx(25)
    assert gauge.state == "unwashed"


def test_dry_relaxed_plain_knitting_has_the_published_loop_shape() -> None:
    """Munden, J. Textile Inst. 50 (1959) T448: Kc 5.0, Kw 3.8, loop shape factor 1.3."""
    loop_mm = 18.0

    gauge = Gauge(stitch_mm=loop_mm / 3.8, round_mm=loop_mm / 5.0)

    assert round(gauge.aspect, 1) == 1.3


@pytest.mark.parametrize(("inches", "exact", "stitches"), [(9, 49.5, 50), (13, 71.5, 72)])
def test_half_a_stitch_goes_up(inches: float, exact: float, stitches: int) -> None:
    """Worked sleeve example at 5.5 stitches an inch (common practice, no source)."""
    value = Gauge.over(5.5, 7, INCH).stitches_for(inches * INCH)

    assert value.exact == pytest.approx(exact)
    assert value.rounded == stitches


def test_rounds_for_a_sleeve() -> None:
    """14 in at 6 rounds an inch are 84 rounds (common practice, no source)."""
    value = Gauge.over(5, 6, INCH).rounds_for(14 * INCH)

    assert value.rounded == 84
    assert value.error_mm == pytest.approx(0)


def test_a_circumference_at_a_hand_gauge() -> None:
    """100 stitches at 22 over 10 cm measure 45.5 cm (by division)."""
    gauge = Gauge.over(22, 30)

    assert gauge.width_of(100) == pytest.approx(454.5, abs=0.1)
    assert gauge.stitches_for(gauge.width_of(100)).rounded == 100


def test_a_count_carries_its_derivation() -> None:
    value = Gauge.over(20, 28).stitches_for(508, multiple=8, plus=2)

    assert value.exact == pytest.approx(101.6)
    assert value.rounded == 98  # 12 x 8 + 2; the next is 106
    assert value.error_mm == pytest.approx((98 - 101.6) * 5)
    assert value.formula == "length / stitch width, nearest multiple + plus"
    assert value.inputs == (("length", 508), ("stitch width", 5.0), ("multiple", 8), ("plus", 2))

    rounds = Gauge.over(20, 25).rounds_for(508)
    assert rounds.formula == "length / round height, nearest"
    assert rounds.inputs == (("length", 508), ("round height", 4.0))


def test_the_smallest_count_is_one_multiple() -> None:
    value = Gauge.over(20, 28).stitches_for(3, multiple=8, plus=2, rounding="down")

    assert value.rounded == 10


@given(gauges, lengths, multiples, extras)
def test_every_rounding_lands_on_the_multiple_and_on_the_right_side(
    gauge: Gauge, length: float, multiple: int, plus: int
) -> None:
    modes: tuple[Rounding, ...] = ("down", "nearest", "up")
    down, nearest, up = (gauge.stitches_for(length, multiple, plus, mode) for mode in modes)

    for value in (down, nearest, up):
        assert (value.rounded - plus) % multiple == 0
        assert value.rounded >= multiple + plus
        assert value.error_mm == pytest.approx(gauge.width_of(value.rounded) - length, abs=1e-6)
    assert down.rounded <= nearest.rounded <= up.rounded
    assert up.rounded >= up.exact - 1e-6
    assume(down.exact >= multiple + plus)
    assert down.rounded <= down.exact + 1e-6
    assert abs(nearest.rounded - nearest.exact) <= multiple / 2 + 1e-6


@given(gauges, st.integers(1, 900))
def test_a_length_of_whole_rounds_gains_and_loses_none(gauge: Gauge, rounds: int) -> None:
    height = gauge.height_of(rounds)

    assert gauge.rounds_for(height, rounding="up").rounded == rounds
    assert gauge.rounds_for(height, rounding="down").rounded == rounds


@pytest.mark.parametrize("bad", [0.0, -3.0, math.nan, math.inf])
def test_measures_that_are_none_are_refused_in_plain_words(bad: float) -> None:
    gauge = Gauge.over(20, 28)

    with pytest.raises(ValueError, match="width of a stitch must be a number above 0"):
        Gauge(bad, 4)
    with pytest.raises(ValueError, match="height of a round must be a number above 0"):
        Gauge(4, bad)
    with pytest.raises(ValueError, match=r"^the number of stitches must be a number above 0"):
        Gauge.over(bad, 28)
    with pytest.raises(ValueError, match=r"^the number of rounds must be a number above 0"):
        Gauge.over(20, bad)
    with pytest.raises(ValueError, match=r"^the width measured must be a number above 0"):
        Gauge.from_swatch(20, bad, 28, 100)
    with pytest.raises(ValueError, match=r"^the height measured must be a number above 0"):
        Gauge.from_swatch(20, 100, 28, bad)
    with pytest.raises(ValueError, match="length must be a number above 0"):
        gauge.stitches_for(bad)
    with pytest.raises(ValueError, match="length must be a number above 0"):
        gauge.rounds_for(bad)


def test_impossible_multiples_and_words_are_refused() -> None:
    gauge = Gauge.over(20, 28)

    with pytest.raises(ValueError, match="multiple of at least 1"):
        gauge.stitches_for(100, multiple=0)
    with pytest.raises(ValueError, match="can not be negative"):
        gauge.stitches_for(100, multiple=4, plus=-1)
    with pytest.raises(ValueError, match="nearest, up or down"):
        round_to(2.5, "sideways")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="unwashed or washed or blocked or washed and blocked"):
        Gauge(5, 4, "boiled")  # type: ignore[arg-type]
