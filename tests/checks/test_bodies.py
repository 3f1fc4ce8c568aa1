"""Measured people are people: the tables of the checks against published percentiles."""

import pytest

from bindoff.checks.keys.bodies import people
from tests.who_heads import who_head_mm

# NATICK/TR-15/007 (ANSUR II): 5th and 95th percentile of men and women, mm.
ANSUR_5_95 = {
    "head": ((548, 601), (532, 597)),
    "hand": ((195, 230), (173, 202)),
    "hand length": ((177, 210), (165, 199)),
    "wrist": ((162, 191), (142, 168)),
    "foot length": ((250, 293), (226, 268)),
    "ankle": ((206, 254), (193, 242)),
}

# z of the 3rd and 97th percentile of the normal distribution
P97 = 1.880794


@pytest.mark.parametrize("dimension", ANSUR_5_95)
def test_the_middle_ninety_percent_of_measured_adults_are_adults(dimension: str) -> None:
    low, high = people(dimension, ("adult",)) or (0, 0)

    for least, most in ANSUR_5_95[dimension]:
        assert low <= least
        assert most <= high


@pytest.mark.parametrize("sex", ["female", "male"])
@pytest.mark.parametrize("z", [-P97, P97])
@pytest.mark.parametrize("month", [0, 3, 6, 12, 18, 24, 36, 48, 60])
def test_heads_from_the_3rd_to_the_97th_percentile_are_childrens(
    sex: str, z: float, month: int
) -> None:
    who = "infant" if month <= 18 else "child"
    low, high = people("head", (who,)) or (0, 0)

    assert low <= who_head_mm(sex, month, z) <= high


@pytest.mark.parametrize(
    ("dimension", "inches"),
    [("chest", 62), ("natural waist", 50), ("waist", 62), ("hip", 62), ("upper arm", 19.5)],
)
def test_the_largest_published_size_is_somebody(dimension: str, inches: float) -> None:
    """Craft Yarn Council, women's 5X: a bust of 60 to 62 in, and about as much around the navel."""
    low, high = people(dimension, ("adult",)) or (0, 0)

    assert low <= 25.4 * inches <= high
    assert high < 2 * 25.4 * inches


def test_a_head_typed_in_inches_is_nobodys() -> None:
    low, _ = people("head") or (0, 0)

    assert low > 220


def test_a_newborns_head_is_no_adults() -> None:
    low, _ = people("head", ("adult",)) or (0, 0)

    assert who_head_mm("male", 12, P97) < low


def test_nothing_is_known_where_the_tables_lack_a_group() -> None:
    assert people("heel", ("child",)) is None


def test_there_is_no_least_where_the_tables_lack_one_of_the_groups() -> None:
    low, high = people("neck", ("child", "adult")) or (0, 0)

    assert low == 0
    assert high == people("neck", ("adult",))[1]  # type: ignore[index]
