"""Tubes on a fixed number of needles, single and folded double."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.craft.ease import EASE_WORDS, SNUG_HAT, EaseRule
from bindoff.plan.gauge import Gauge
from bindoff.plan.tube import (
    TubePart,
    circumference,
    fit,
    folded_tube,
    gauge_needed,
    gauges_fitting,
    half_round_markers,
    sizes_served,
)

SNUG = SNUG_HAT
WORDS = {rule.name: rule for rule in EASE_WORDS}

gauges = st.builds(Gauge.over, stitches=st.floats(5, 20), rounds=st.floats(6, 30))
depths = st.floats(50, 400)
brims = st.floats(0, 120)


@pytest.mark.parametrize(
    ("needles", "centimetres"),
    [
        (22, (24.4, 22.0, 20.0, 18.3, 15.7)),
        (40, (44.4, 40.0, 36.4, 33.3, 28.6)),
        (44, (48.9, 44.0, 40.0, 36.7, 31.4)),
        (46, (51.1, 46.0, 41.8, 38.3, 32.9)),
        (48, (53.3, 48.0, 43.6, 40.0, 34.3)),
    ],
)
def test_circumference_from_the_needle_count(needles: int, centimetres: tuple[float, ...]) -> None:
    """Circular-machine needle counts at 9 to 14 stitches over 10 cm: N / gauge x 10.

    The textile handbooks' rule fabric width = needles / wales per unit.
    """
    found = [
        round(circumference(needles, Gauge.over(stitches, 12)).exact / 10, 1)
        for stitches in (9, 10, 11, 12, 14)
    ]

    assert tuple(found) == centimetres


def test_a_hat_against_a_mean_head() -> None:
    """46 needles at 9 stitches on the mean woman's head (561 mm, NATICK/TR-15/007)."""
    result = fit(46, Gauge.over(9, 12.5), 561.1, SNUG)

    assert result.circumference.exact == pytest.approx(511.1, abs=0.1)
    assert result.ease.exact == pytest.approx(-50.0, abs=0.1)
    assert result.ease_percent == pytest.approx(-8.9, abs=0.05)
    assert result.served


def test_which_sizes_a_gauge_serves() -> None:
    """A 511 mm hat with 5 to 10 % negative ease fits heads from 538 to 568 mm."""
    results = sizes_served(46, Gauge.over(9, 12.5), (505, 530, 540, 560, 567, 575), SNUG)

    assert [result.served for result in results] == [False, False, True, True, True, False]
    assert [result.body_mm for result in results] == [505, 530, 540, 560, 567, 575]


def test_the_gauge_a_size_needs() -> None:
    """46 needles round 504 mm (a 560 mm head less 10 %) need 9.1 stitches over 10 cm."""
    value = gauge_needed(46, 504)

    assert value.exact == pytest.approx(9.127, abs=1e-3)
    assert value.rounded == pytest.approx(9.1)
    assert value.error_mm == pytest.approx(46 / 9.1 * 100 - 504)


def test_a_gauge_never_comes_to_nothing() -> None:
    assert gauge_needed(4, 1000).rounded == pytest.approx(0.4)
    assert gauge_needed(1, 5000).rounded == pytest.approx(0.1)  # 0.02


def test_gauges_that_fit_a_mean_head() -> None:
    """5 to 10 % less than 560 mm are 504 to 532 mm, on 46 needles 9.13 to 8.65 stitches."""
    fitting = gauges_fitting(46, 560, SNUG)

    assert fitting.loosest == pytest.approx(4600 / 532)
    assert fitting.tightest == pytest.approx(4600 / 504)


@given(st.integers(10, 200), st.floats(0.1, 10))
def test_gauges_that_fit_have_no_smallest_body(needles: int, body_mm: float) -> None:
    """Half the body needs twice the gauge, down to a doll's finger."""
    of_body = gauges_fitting(needles, body_mm, SNUG)
    of_half = gauges_fitting(needles, body_mm / 2, SNUG)

    assert of_half.loosest == pytest.approx(2 * of_body.loosest)
    assert of_half.tightest == pytest.approx(2 * of_body.tightest)


@given(st.integers(10, 200), st.floats(200, 1200), st.sampled_from([SNUG, WORDS["classic"]]))
def test_fitting_gauges_are_those_that_serve(needles: int, body_mm: float, rule: EaseRule) -> None:
    fitting = gauges_fitting(needles, body_mm, rule)

    assert fitting.loosest < fitting.tightest
    for stitches, served in (
        (fitting.loosest, True),
        (fitting.tightest, True),
        ((fitting.loosest + fitting.tightest) / 2, True),
        (fitting.loosest * 0.99, False),
        (fitting.tightest * 1.01, False),
    ):
        assert fit(needles, Gauge.over(stitches, 12), body_mm, rule).served is served


def test_an_open_ease_has_a_gauge_without_limit() -> None:
    assert gauges_fitting(40, 900, WORDS["oversized"]).loosest == 0
    assert gauges_fitting(40, 900, WORDS["very close-fitting"]).tightest == math.inf


def test_a_hat_folded_double_with_a_brim() -> None:
    """By hand: 21 cm at 12.5 rounds are 26.25, 26 worked; 5 cm 6.25, 6 worked; 2 cm 2.5, 3 worked.

    A turned-up brim folds both layers, so each is 26 + 6 rounds, 70 with both gathers.
    """
    tube = folded_tube(46, Gauge.over(9, 12.5), depth_mm=210, brim_mm=50, gather_mm=20)

    assert [(s.part, s.first, s.last) for s in tube.segments] == [
        (TubePart.LINING_GATHER, 1, 3),
        (TubePart.LINING, 4, 29),
        (TubePart.LINING_BRIM, 30, 35),
        (TubePart.OUTER_BRIM, 36, 41),
        (TubePart.OUTER, 42, 67),
        (TubePart.OUTER_GATHER, 68, 70),
    ]
    assert tube.fold_after == 35
    assert (tube.needles, tube.total_rounds) == (46, 70)
    assert [f"stitch {marker}" for marker in tube.markers] == ["stitch 1", "stitch 24"]
    brim = tube.segment(TubePart.OUTER_BRIM)
    assert brim is not None
    assert brim.rounds.exact == pytest.approx(6.25)
    assert brim.rounds.error_mm == pytest.approx(-2)


def test_without_a_brim_or_gather_there_are_two_parts() -> None:
    tube = folded_tube(48, Gauge.over(10, 14), depth_mm=200)

    assert [(s.part, s.first, s.last) for s in tube.segments] == [
        (TubePart.LINING, 1, 28),
        (TubePart.OUTER, 29, 56),
    ]
    assert tube.fold_after == 28
    assert tube.segment(TubePart.LINING_BRIM) is None


def test_a_lining_of_another_depth_and_yarn() -> None:
    tube = folded_tube(
        48,
        Gauge.over(10, 14),
        depth_mm=200,
        brim_mm=50,
        lining_depth_mm=180,
        lining_gauge=Gauge.over(11, 16),
    )

    assert [(s.part, s.last - s.first + 1) for s in tube.segments] == [
        (TubePart.LINING, 29),  # 28.8
        (TubePart.LINING_BRIM, 8),
        (TubePart.OUTER_BRIM, 7),
        (TubePart.OUTER, 28),
    ]
    assert tube.fold_after == 37


def test_beginning_at_the_outer_end_turns_the_order_round() -> None:
    lining_first = folded_tube(46, Gauge.over(9, 12.5), 210, 50, 20)
    outer_first = folded_tube(46, Gauge.over(9, 12.5), 210, 50, 20, start="outer")

    assert [s.part for s in outer_first.segments] == [s.part for s in lining_first.segments][::-1]
    assert outer_first.total_rounds == lining_first.total_rounds


@given(gauges, depths, brims, brims, depths, st.sampled_from(["lining", "outer"]))
def test_segments_follow_each_other_and_the_fold_lies_between_the_layers(
    gauge: Gauge, depth: float, brim: float, gather: float, lining: float, start: str
) -> None:
    tube = folded_tube(
        44, gauge, depth, brim, gather, lining, start="outer" if start == "outer" else "lining"
    )

    expected_first = 1
    for segment in tube.segments:
        assert segment.first == expected_first
        assert segment.last - segment.first + 1 == segment.rounds.rounded
        expected_first = segment.last + 1
    assert tube.total_rounds == sum(s.rounds.rounded for s in tube.segments)
    assert tube.fold_after is not None
    before = {s.part for s in tube.segments if s.last <= tube.fold_after}
    assert all(part.value.startswith(start) for part in before)
    assert any(s.last == tube.fold_after for s in tube.segments)


@given(gauges, depths, st.floats(10, 120))
def test_a_brim_lengthens_both_layers(gauge: Gauge, depth: float, brim: float) -> None:
    plain = folded_tube(44, gauge, depth)
    turned = folded_tube(44, gauge, depth, brim)

    assert turned.total_rounds - plain.total_rounds == 2 * gauge.rounds_for(brim).rounded
    assert turned.fold_after is not None
    assert turned.fold_after * 2 == turned.total_rounds


@given(st.integers(1, 120).map(lambda half: 2 * half))
def test_half_round_markers_leave_as_many_stitches_on_either_side(needles: int) -> None:
    first, second = half_round_markers(needles)

    assert first == 1
    assert second - first == needles + 1 - second


def test_an_odd_number_of_needles_has_no_half() -> None:
    with pytest.raises(ValueError, match="45 needles do not divide into two halves"):
        half_round_markers(45)
    assert folded_tube(45, Gauge.over(9, 12.5), 210).markers == (1,)


def test_nonsense_is_refused() -> None:
    gauge = Gauge.over(9, 12.5)

    with pytest.raises(ValueError, match="at least 1 needle"):
        circumference(0, gauge)
    with pytest.raises(ValueError, match="the depth must be above 0"):
        folded_tube(46, gauge, 0)
    with pytest.raises(ValueError, match="depth of the lining must be above 0"):
        folded_tube(46, gauge, 210, lining_depth_mm=-5)
    with pytest.raises(ValueError, match="the brim must be 0 or more"):
        folded_tube(46, gauge, 210, brim_mm=-1)
    with pytest.raises(ValueError, match="gather allowance must be 0 or more"):
        folded_tube(46, gauge, 210, gather_mm=math.nan)
    with pytest.raises(ValueError, match="finished circumference must be above 0"):
        gauge_needed(46, 0)
    with pytest.raises(ValueError, match="body measure must be above 0"):
        fit(46, gauge, -560, SNUG)
