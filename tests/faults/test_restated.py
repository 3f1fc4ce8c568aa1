"""Gauge, ease, sizes and balls said again in words: right in many wordings, and wrong in others.

The hat has 20 stitches and 28 rounds to 10 cm, and balls of 50 g; the sock 32 and 44 with negative
ease around the foot; the pullover positive ease around the chest. Figures were reckoned by hand.
"""

import pytest

from tests.faults.said import said


@pytest.mark.parametrize(
    "text",
    [
        "You should have 10 stitches to 5 cm (2 in).",
        "20 stitches and 28 rounds over 10 cm (4 in).",
        "Remember that every 2.5 cm (1 in) is 7 rounds.",
        "7 rounds make 2.5 cm (1 in).",
        "Each 5 cm (2 in) takes 14 rounds.",
        "If you have 24 stitches to 10 cm, take a larger needle.",
        "Take a smaller needle if you have fewer than 20 stitches to 10 cm (4 in).",
        "Change needles when you count more than 20 stitches to 10 cm.",
        "A gauge of 18 stitches to 10 cm would make it too large.",
        "Pick up 3 stitches for every 4 rows.",
        "Knit 20 rounds over 96 stitches.",
        "Two stitches to the inch are lost in the seam.",
        "96 stitches are 48 cm (19 in) around.",
        "Instead of 20 stitches to 10 cm you might get 19 stitches to 10 cm.",
        "Weave in each end over 5 stitches for 3 cm.",
    ],
)
def test_a_gauge_that_is_right_or_supposed_is_left_alone(text: str) -> None:
    assert said(text, "hat", {"prose.gauge"}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "You should have 12 stitches to 5 cm (2 in).",
        "24 stitches and 28 rounds over 10 cm (4 in).",
        "Longer is easy: add rounds, and remember that every 2.5 cm (1 in) is 9 rounds.",
        "11 rounds make 2.5 cm (1 in).",
        "Each 5 cm (2 in) takes 20 rounds.",
        "Take a smaller needle if you have fewer than 22 stitches to 10 cm (4 in).",
        "Eight stitches are 5 cm.",
        "Every 10 cm (4 in) has 32 rounds.",
        "5 stitches per inch give 4 stitches per 1 inch.",
    ],
)
def test_another_gauge_is_heard(text: str) -> None:
    assert said(text, "hat", {"prose.gauge"}) == {"prose.gauge"}


@pytest.mark.parametrize(
    ("text", "pattern", "heard"),
    [
        ("A sock should be smaller than the foot that goes in it.", "sock", False),
        ("It is worn with negative ease.", "sock", False),
        ("They are about a tenth smaller around than the foot.", "sock", False),
        ("If the sock is larger than your foot, take the next size.", "sock", False),
        ("No sock is larger than the foot.", "sock", False),
        ("The leg is a little wider than the ankle of the sock before it.", "sock", False),
        ("A sock should be larger than the foot that goes in it.", "sock", True),
        ("It is worn with positive ease.", "sock", True),
        ("They are about a tenth larger around than the foot, and cling.", "sock", True),
        ("The sock comes out wider than your foot.", "sock", True),
        ("The vest is worn with some ease.", "vest", False),
        ("It has negative ease and clings.", "vest", True),
        ("Choose a size with 40 cm (16 in) of positive ease.", "vest", True),
        ("It is narrower than the chest.", "vest", True),
    ],
)
def test_ease_in_words_is_that_of_the_sizes(text: str, pattern: str, heard: bool) -> None:
    assert said(text, pattern, {"prose.ease"}) == ({"prose.ease"} if heard else set())


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Figures for the larger sizes stand in brackets.", False),
        ("Instructions are for the smallest size, with the others in parentheses.", False),
        ("Numbers for the other sizes are in parentheses.", False),
        ("Sizes are S (M, L, XL).", False),
        ("The hat comes in XL, L, M and S.", False),
        ("Size S is small enough for a narrow head.", False),
        ("Size XL is the largest.", False),
        ("If size S is wide on you, knit another.", False),
        ("Figures for the smaller sizes stand in brackets.", True),
        ("Those for the smallest size are given in parentheses.", True),
        ("Sizes are S (L, M, XL).", True),
        ("Size XL is the smallest.", True),
        ("Size S is the widest of them.", True),
        ("Figures for S are in parentheses.", True),
    ],
)
def test_sizes_in_words_stand_in_their_order(text: str, heard: bool) -> None:
    assert said(text, "hat", {"prose.size-words"}) == ({"prose.size-words"} if heard else set())


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("One skein of 50 g makes the smallest.", False),
        ("Buy two 50 g balls.", False),
        ("A ball of 100 g would do as well.", False),
        ("If you buy balls of 25 g, take two for one.", False),
        ("One skein of 25 g makes the smallest.", True),
        ("Two 100-gram balls are plenty.", True),
    ],
)
def test_a_ball_weighs_what_the_yarn_has(text: str, heard: bool) -> None:
    assert said(text, "hat", {"prose.ball"}) == ({"prose.ball"} if heard else set())
