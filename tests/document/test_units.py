"""Printed lengths, weights and yarn lengths, against published conversions and exact arithmetic."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.tree import SizeValues, Text
from bindoff.document.units import (
    cm,
    inches,
    length,
    lengths,
    per_size,
    round_length,
    up,
    up_to_tenths,
    weight,
    yarn_length,
)
from tests.document.patterns import for_size, printed

# Tenths of a millimetre: what a source can say, and every rounding case.
tenths_of_mm = st.integers(-20_000, 20_000).map(lambda tenths: Decimal(tenths) / 10)

GLYPHS = {"": 0, "⅛": 1, "¼": 2, "⅜": 3, "½": 4, "⅝": 5, "¾": 6, "⅞": 7}


def value_of(figure: str) -> Fraction:
    """A printed number of inches as a fraction."""
    digits = figure.removeprefix("−")
    whole = digits.rstrip("".join(GLYPHS))
    eighths = int(whole or 0) * 8 + GLYPHS[digits[len(whole) :]]
    return Fraction(-eighths if figure.startswith("−") else eighths, 8)


# ---------------------------------------------------------------- centimetres


@given(tenths_of_mm)
def test_centimetres_are_rounded_half_up_to_the_half_or_tenth(mm: Decimal) -> None:
    step = Decimal("0.5") if abs(mm) >= 50 else Decimal("0.1")
    steps = (abs(mm) / 10 / step).quantize(Decimal(1), ROUND_HALF_UP)
    figure = cm(float(mm))

    if steps == 0 and mm:
        assert figure == "less than 0.1"
    else:
        assert Decimal(figure.replace("−", "")) == steps * step
        assert figure.startswith("−") == (mm < 0)


@pytest.mark.parametrize(
    ("mm", "figure"),
    [(530, "53"), (85, "8.5"), (92.5, "9.5"), (92.4, "9"), (29, "2.9"), (49.96, "5"), (0, "0")],
)
def test_centimetres_drop_a_decimal_that_says_nothing(mm: float, figure: str) -> None:
    assert cm(mm) == figure


# ---------------------------------------------------------------- inches


@given(tenths_of_mm)
def test_inches_are_the_nearest_quarter_or_below_one_inch_eighth(mm: Decimal) -> None:
    """1 in = 25.4 mm exactly (NIST Special Publication 811, appendix B.8)."""
    exact = Fraction(str(mm)) / Fraction("25.4")
    step = Fraction(1, 8) if abs(exact) < 1 else Fraction(1, 4)
    figure = inches(float(mm))

    if figure == "less than ⅛":
        assert 0 < abs(exact) < step / 2
    else:
        assert abs(value_of(figure) - exact) <= step / 2
        assert value_of(figure) % step == 0


@pytest.mark.parametrize(
    ("mm", "figure"),
    [
        (25.4, "1"),
        (254, "10"),
        (6.35, "¼"),
        (3.175, "⅛"),
        (22.225, "⅞"),
        (317.5, "12½"),
        (0, "0"),
        (-50.8, "−2"),
    ],
)
def test_inches_of_known_lengths(mm: float, figure: str) -> None:
    assert inches(mm) == figure


@given(st.floats(0.001, 30))
def test_a_small_length_never_prints_as_nothing(mm: float) -> None:
    assert cm(mm) != "0"
    assert inches(mm) != "0"


@pytest.mark.parametrize("face", ["Lato-Regular.ttf", "Lato-Bold.ttf"])
def test_the_printed_fractions_are_in_the_typeface(face: str) -> None:
    font = TTFont(str(files("fontpkg_lato").joinpath("files", face)))

    assert set("⅛¼⅜½⅝¾⅞−–") <= set(map(chr, font.getBestCmap()))


# ---------------------------------------------------------------- both


def test_inches_come_from_the_exact_length_and_not_from_rounded_centimetres() -> None:
    """92.3 mm is 3.634 in, nearest 3¾; the 9 cm it rounds to would be 3.543 in, nearest 3½."""
    assert length(92.3, "both") == "9 cm / 3¾ in"
    assert length(90.0, "both") == "9 cm / 3½ in"


def test_units_print_as_asked() -> None:
    assert length(210, "metric") == "21 cm"
    assert length(210, "imperial") == "8¼ in"
    assert length(210, "both") == "21 cm / 8¼ in"


def test_negative_ease_has_a_minus_sign_in_both_units() -> None:
    assert length(-50, "both") == "−5 cm / −2 in"


@given(st.lists(st.floats(1, 2000), min_size=1, max_size=8))
def test_a_list_of_sizes_says_each_length_as_it_would_stand_alone(mm: list[float]) -> None:
    words = lengths(mm, "both")

    assert [for_size(words, size) for size in range(len(mm))] == [length(x, "both") for x in mm]


def test_a_list_of_sizes_keeps_each_unit_together() -> None:
    assert printed(lengths([210, 220, 230], "both")) == "21 (22, 23) cm / 8¼ (8¾, 9) in"


def test_what_all_sizes_share_is_said_once() -> None:
    assert per_size([8, 8]) == (Text("8"),)
    assert per_size([8, 9]) == (SizeValues(("8", "9")),)


# ---------------------------------------------------------------- yarn


@pytest.mark.parametrize(("metres", "yards"), [(100, 109), (120, 131), (150, 164), (190, 208)])
def test_a_ball_label_is_converted_to_the_nearest_yard(metres: int, yards: int) -> None:
    """1 yd = 0.9144 m exactly (NIST Special Publication 811, appendix B.8)."""
    assert yards - Fraction(1, 2) <= Fraction(metres) / Fraction("0.9144") <= yards + Fraction(1, 2)
    assert yarn_length(metres, "both") == f"{metres} m / {yards} yd"
    assert yarn_length(metres, "imperial") == f"{yards} yd"


@pytest.mark.parametrize(("grams", "ounces"), [(50, "1.8 oz"), (100, "3.5 oz"), (28.3495, "1 oz")])
def test_a_ball_weighs_ounces_where_only_those_are_printed(grams: float, ounces: str) -> None:
    """1 oz = 28.349523125 g exactly (NIST Special Publication 811, appendix B.8)."""
    assert weight(grams, "imperial") == ounces
    assert weight(grams, "both") == f"{grams:g} g"


@given(st.floats(0, 10_000))
def test_an_amount_is_never_rounded_below_the_need(amount: float) -> None:
    assert amount - 1e-6 <= up(amount) < amount + 1
    assert amount - 1e-6 <= float(up_to_tenths(amount)) < amount + 0.1 + 1e-6


def test_binary_dust_buys_no_further_metre() -> None:
    assert up(0.1 + 0.2 + 0.7) == 1
    assert up(57.00000000000001) == 57


# ---------------------------------------------------------------- lengths of advice


@pytest.mark.parametrize(
    ("mm", "words"),
    [
        (600, "60 cm / 24 in"),  # a strand of Swiss darning in the handbooks; a circular needle
        (450, "45 cm / 18 in"),  # a strand in canvas work
        (150, "15 cm / 6 in"),  # a tail
        (75, "7.5 cm / 3 in"),  # a cord's end in ASTM F1816
        (25, "2.5 cm / 1 in"),  # the longest float
        (100, "10 cm / 4 in"),  # a gauge
        (400, "40 cm / 16 in"),
        (800, "80 cm / 32 in"),
        (1000, "100 cm / 40 in"),
        (30, "3 cm / 1¼ in"),
    ],
)
def test_advice_is_rounded_as_the_trade_pairs_it(mm: float, words: str) -> None:
    """Handbooks and rules that give both units; needles as sold (common practice, no source)."""
    assert round_length(mm, "both") == words
    assert round_length(mm, "metric") == words.split(" / ")[0]
    assert round_length(mm, "imperial") == words.split(" / ")[1]
