"""Gauges of the command line, and a source that takes them instead of its own."""

import math
import re
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError, Severity
from bindoff.plan.sizing import sizings
from bindoff.source.regauge import regauge
from bindoff.source.statedgauge import StatedGauge, parse_gauge, parse_gauges
from tests.small_patterns import CAP, FLAP, TUBE, changed, source_of

MM_PER_INCH = 25.4  # exactly: NIST Special Publication 811, appendix B

figures = st.decimals(min_value=2, max_value=99, places=2)


@pytest.mark.parametrize(
    ("text", "stitches", "rounds", "of"),
    [
        ("22 x 30 / 10 cm", 22, 30, ""),
        ("22x30/10cm", 22, 30, ""),
        ("22 × 30 / 10 cm", 22, 30, ""),
        ("22 X 30 / 10 cm", 22, 30, ""),
        (" 9.6 x 13.25 / 10 cm ", 9.6, 13.25, ""),
        ("9½ x 13 / 10 cm", 9.5, 13, ""),
        ("44 x 60 / 20 cm", 22, 30, ""),
        ("11 x 15 / 50 mm", 22, 30, ""),
        ("S = 22 x 30 / 10 cm", 22, 30, "S"),
        ("Child S=22 x 30 / 10 cm", 22, 30, "Child S"),
        ("1 = 22 x 30 / 10 cm", 22, 30, "1"),
    ],
)
def test_a_gauge_is_read_however_it_is_spaced(
    text: str, stitches: float, rounds: float, of: str
) -> None:
    assert parse_gauge(text) == StatedGauge(stitches, rounds, of)


@given(figures, figures)
def test_a_gauge_over_inches_is_the_same_over_10_cm(stitches: object, rounds: object) -> None:
    stated = parse_gauge(f"{stitches} x {rounds} / 4 in")

    assert math.isclose(stated.stitches, float(str(stitches)) * 100 / (4 * MM_PER_INCH))
    assert math.isclose(stated.rounds, float(str(rounds)) * 100 / (4 * MM_PER_INCH))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "is not a gauge"),
        ("22", "is not a gauge"),
        ("22 x 30", "is not a gauge"),
        ("22 / 10 cm", "is not a gauge"),
        ("22 x 30 x 4 / 10 cm", "is not a gauge"),
        ("22, 30 / 10 cm", "is not a gauge"),
        ("22 x thirty / 10 cm", "`thirty` is not a number"),
        ("22 x / 10 cm", "is not a gauge"),
        ("-22 x 30 / 10 cm", "`-22` is not a number"),
        ("22,5 x 30 / 10 cm", "`22,5` is not a number"),
        ("1e9 x 30 / 10 cm", "`1e9` is not a number"),
        ("nan x 30 / 10 cm", "`nan` is not a number"),
        ("0 x 30 / 10 cm", "nobody knits 0 stitches"),
        ("22 x 9999999 / 10 cm", "nobody knits 9999999 stitches or rounds"),
        ("22 x 30 / 10", "`10` has no unit"),
        ("22 x 30 / ten cm", "is not a length"),
        ("22 x 30 / 0 cm", "over a length above 0"),
        ("22 x 30 / -10 cm", "over a length above 0"),
        ("= 22 x 30 / 10 cm", "names no size"),
    ],
)
def test_what_is_no_gauge_is_refused_with_the_reason(text: str, message: str) -> None:
    with pytest.raises(ValueError, match=re.escape(message)) as caught:
        parse_gauge(text)

    assert "\n" not in str(caught.value)


@given(st.text(max_size=40))
def test_any_text_is_a_gauge_or_refused(text: str) -> None:
    with suppress(ValueError):
        stated = parse_gauge(text)
        assert stated.stitches > 0
        assert stated.rounds > 0


def test_two_gauges_of_the_same_are_refused() -> None:
    assert len(parse_gauges(["22 x 30 / 10 cm", "S = 23 x 31 / 10 cm"])) == 2
    with pytest.raises(ValueError, match="two gauges are given for the whole pattern"):
        parse_gauges(["22 x 30 / 10 cm", "23 x 30 / 10 cm"])
    with pytest.raises(ValueError, match="two gauges are given for `S`"):
        parse_gauges(["S = 22 x 30 / 10 cm", "S=22 x 30 / 10 cm"])


# ---------------------------------------------------------------- in the source

OWN = changed(TUBE, ("S: {head: 24 cm}", "S: {head: 24 cm, gauge: {stitches: 11, rounds: 15}}"))
NAMED = changed(
    FLAP,
    ("yarns:", "gauges:\n  lace: {stitches: 16, rounds: 20}\nyarns:"),
    ("worked: flat", "worked: flat\n    gauge: lace"),
)


def gauges_of(text: str, *stated: str, name: str = "") -> list[tuple[float, float]]:
    """Stitches and rounds over 10 cm in every size."""
    source, _ = regauge(source_of(text), parse_gauges(stated))
    found = [size.gauges[name] for size in sizings(source)]
    return [(round(g.stitches_per(), 6), round(g.rounds_per(), 6)) for g in found]


def notes_of(text: str, *stated: str) -> list[tuple[str, str]]:
    _, notes = regauge(source_of(text), parse_gauges(stated))
    assert all(note.severity is Severity.NOTE for note in notes)
    assert all(note.span for note in notes)
    return [(note.id, note.message) for note in notes]


def test_the_main_gauge_stands_for_every_size_that_has_none_of_its_own() -> None:
    assert gauges_of(CAP, "22 x 30 / 10 cm") == [(22, 30), (22, 30)]
    assert gauges_of(OWN, "9 x 12 / 10 cm") == [(11, 15), (9, 12)]


def test_a_gauge_can_be_given_to_one_size() -> None:
    assert gauges_of(CAP, "S = 22 x 30 / 10 cm") == [(22, 30), (20, 28)]
    assert gauges_of(OWN, "9 x 12 / 10 cm", "S = 10 x 13 / 10 cm") == [(10, 13), (9, 12)]


def test_a_named_gauge_can_be_given() -> None:
    assert gauges_of(NAMED, "18 x 22 / 10 cm", name="lace") == [(16, 20), (16, 20)]
    assert gauges_of(NAMED, "lace = 18 x 22 / 10 cm", name="lace") == [(18, 22), (18, 22)]
    assert gauges_of(NAMED, "lace = 18 x 22 / 10 cm") == [(20, 28), (20, 28)]


def test_a_measured_swatch_gives_way_to_a_stated_gauge() -> None:
    swatch = "swatch: {stitches: 42, width: 21 cm, rounds: 50, height: 20 cm}"
    text = changed(CAP, ("stitches: 20\n  rounds: 28", swatch))

    assert gauges_of(text) == [(20, 25), (20, 25)]
    assert gauges_of(text, "22 x 30 / 10 cm") == [(22, 30), (22, 30)]


def test_a_length_written_with_the_gauge_does_not_hold_for_a_stated_one() -> None:
    text = changed(CAP, ("rounds: 28\n", "rounds: 28\n  over: 5 cm\n"))

    assert gauges_of(text) == [(40, 56), (40, 56)]
    assert gauges_of(text, "22 x 30 / 10 cm") == [(22, 30), (22, 30)]


def test_state_fabric_and_tool_stay_as_written() -> None:
    text = changed(
        CAP, ("rounds: 28\n", "rounds: 28\n  state: unwashed\n  worked: rib\n  tool: 4 mm\n")
    )
    source, _ = regauge(source_of(text), parse_gauges(["22 x 30 / 10 cm"]))

    gauge = source.pattern.gauge
    assert (gauge.state, gauge.worked, gauge.tool) == ("unwashed", "rib", "4 mm")


def test_what_keeps_its_gauge_is_named() -> None:
    kept = ("regauge.kept", "the size `S` keeps the gauge that is written for it")
    assert notes_of(OWN, "9 x 12 / 10 cm") == [kept]
    assert notes_of(OWN, "9 x 12 / 10 cm", "S = 10 x 13 / 10 cm") == []
    assert notes_of(OWN, "M = 9 x 12 / 10 cm") == []
    lace = ("regauge.kept", "the gauge `lace` keeps the gauge that is written for it")
    assert notes_of(NAMED, "9 x 12 / 10 cm") == [lace]
    assert notes_of(CAP, "9 x 12 / 10 cm") == []


def test_a_tool_that_belongs_to_the_written_gauge_is_named() -> None:
    text = changed(CAP, ("rounds: 28\n", "rounds: 28\n  tool: 4 mm needle\n"))

    ((id, message),) = notes_of(text, "22 x 30 / 10 cm")
    assert id == "regauge.tool"
    assert "`4 mm needle`" in message


def test_a_size_that_is_not_there_is_an_error_at_the_sizes() -> None:
    source = source_of(CAP)
    with pytest.raises(PatternError) as caught:
        regauge(source, parse_gauges(["XL = 22 x 30 / 10 cm", "L = 22 x 30 / 10 cm"]))

    assert [finding.id for finding in caught.value.findings] == ["regauge.unknown"] * 2
    assert "`S`, `M`" in caught.value.findings[0].help
    assert caught.value.findings[0].span == source.pattern.place.of("sizes").key_span


@settings(max_examples=25)
@given(figures, figures)
def test_a_stated_gauge_is_the_same_as_one_written_in_the_source(
    stitches: object, rounds: object
) -> None:
    written = changed(
        CAP, ("stitches: 20", f"stitches: {stitches}"), ("rounds: 28", f"rounds: {rounds}")
    )

    assert gauges_of(CAP, f"{stitches} x {rounds} / 10 cm") == gauges_of(written)
