"""Lengths and ball sizes as written."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.lib import units

from bindoff.diagnostics import PatternError, Span
from bindoff.source.lengths import parse_ball, parse_figure, parse_length

SPAN = Span("hat/pattern.yaml", 3, 8, 3, 13)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("21 cm", 210),
        ("35 mm", 35),
        ("1.5 m", 1500),
        ("8.25 in", 209.55),
        ("8¼ in", 209.55),
        ("8 ¼ in", 209.55),
        ('8 1/4"', 209.55),
        ("8 1⁄4 inches", 209.55),
        ("3/4 in", 19.05),
        ("⅜in", 9.525),
        ("-5 cm", -50),
        ("−5 cm", -50),
        (" 2 YDS ", 1828.8),
    ],
)
def test_a_length_is_read_in_each_way_people_write_it(text: str, mm: float) -> None:
    """Inch and yard as in NIST Special Publication 811 (2008), B.8: 2.54 cm and 0.9144 m exactly.

    Figures from memory of the publication; the products worked out by hand.
    """
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    ("unit", "points"), [("in", units.inch), ("cm", units.cm), ("mm", units.mm)]
)
def test_units_agree_with_those_of_the_drawing_library(unit: str, points: float) -> None:
    assert parse_length(f"10 {unit}") == pytest.approx(10 * points / units.mm)


@pytest.mark.parametrize(
    ("text", "id", "help"),
    [
        ("21", "length.without-unit", "`21 cm`"),
        ("8¼", "length.without-unit", "`8¼ in`"),
        ("5 furlongs", "length.unknown-unit", "mm, cm, m, in or yd"),
        ("8,5 cm", "length.malformed", "`8.5 cm`"),
        ("", "length.malformed", "`21 cm`"),
        ("cm", "length.malformed", "`21 cm`"),
        ("nan cm", "length.malformed", "`21 cm`"),
        ("1e5 cm", "length.malformed", "`21 cm`"),
        ("1/0 in", "length.malformed", "`21 cm`"),
        ("8.5¼ in", "length.malformed", "`21 cm`"),
        ("٣ cm", "length.malformed", "`21 cm`"),
        ("9" * 400 + " cm", "length.malformed", "`21 cm`"),
        ("99999999999 m", "length.too-large", "Shorten"),
    ],
)
def test_what_is_no_length_says_so_at_its_place(text: str, id: str, help: str) -> None:
    with pytest.raises(PatternError) as caught:
        parse_length(text, SPAN)
    (finding,) = caught.value.findings
    assert (finding.id, finding.span) == (id, SPAN)
    assert help in finding.help
    assert len(finding.message) < 200


@pytest.mark.parametrize(
    ("text", "grams", "metres"),
    [
        ("100 g = 180 m", 100, 180),
        ("180m=100g", 100, 180),
        ("50 g = 120 yd", 50, 109.728),
        ("1 oz = 100 yards", 28.349523125, 91.44),
        ("3½ oz = 200 metres", 99.2233309375, 200),
    ],
)
def test_a_ball_is_grams_and_metres(text: str, grams: float, metres: float) -> None:
    """The avoirdupois ounce is 28.349523125 g (NIST SP 811, B.8 gives 28.34952 g; from memory)."""
    assert parse_ball(text) == pytest.approx((grams, metres), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "id"),
    [
        ("100 g", "ball.malformed"),
        ("100 g = 100 g", "ball.malformed"),
        ("100 g = 180 m = 3 m", "ball.malformed"),
        ("a ball", "ball.malformed"),
        ("100 = 180 m", "ball.unknown-unit"),
        ("100 g = 180 cm", "ball.unknown-unit"),
        ("100 g = 0 m", "ball.out-of-range"),
        ("-100 g = 180 m", "ball.out-of-range"),
    ],
)
def test_what_is_no_ball_says_so(text: str, id: str) -> None:
    with pytest.raises(PatternError) as caught:
        parse_ball(text, SPAN)
    assert [(finding.id, finding.span) for finding in caught.value.findings] == [(id, SPAN)]


@given(st.integers(0, 999), st.integers(0, 99), st.sampled_from(["mm", "cm", "m", "in", "yd"]))
def test_a_decimal_figure_is_the_sum_of_its_parts(whole: int, hundredths: int, unit: str) -> None:
    one = parse_length(f"1 {unit}")
    expected = (whole + hundredths / 100) * one
    assert parse_length(f"{whole}.{hundredths:02} {unit}") == pytest.approx(expected)


@given(st.integers(0, 99), st.integers(0, 99), st.integers(1, 99))
def test_a_mixed_number_is_the_sum_of_its_parts(whole: int, over: int, under: int) -> None:
    assert parse_figure(f"{whole} {over}/{under}") == pytest.approx(whole + over / under)


@given(st.text() | st.from_regex(r"[-−]?[0-9 ./¼⅔]{0,6} ?[a-z\"″=]{0,4}"))
def test_any_text_is_a_length_or_an_error(text: str) -> None:
    for parse in (parse_length, parse_ball):
        with suppress(PatternError):
            parse(text)
