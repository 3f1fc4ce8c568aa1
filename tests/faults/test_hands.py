"""Left and right, sides of rows, and advice on needles: right ones are left alone."""

import pytest

from bindoff.source.model import TextUse
from tests.faults.said import said

HANDS, SWATCH = "prose.hands", "prose.swatch"


@pytest.mark.parametrize(
    ("text", "pattern", "heard"),
    [
        ("Right and left are the same.", "mitts", False),
        ("Both mitts are worked alike.", "mitts", False),
        ("The two are not mirrored.", "mitts", False),
        ("The decreases are mirror images.", "mitts", False),
        ("Both charts are mirrored.", "mitts", False),
        ("Right and left are mirror images.", "mitts", True),
        ("The second mitt is reversed.", "mitts", True),
        ("Both mitts are mirrored.", "mitts", True),
        ("The chart is read from right to left in every round.", "hat", False),
        ("Read it from left to right if you knit left-handed.", "hat", False),
        ("The chart is never read from left to right.", "hat", False),
        ("The strip is sewn on from left to right.", "hat", False),
        ("The chart is read from left to right in every round.", "hat", True),
        ("Each round is worked from the left to the right of the chart.", "hat", True),
        ("Wrong-side rows are read from left to right.", "scarf", False),
    ],
)
def test_left_and_right_are_those_of_the_work(text: str, pattern: str, heard: bool) -> None:
    assert said(text, pattern, {HANDS}, ("notes",)) == ({HANDS} if heard else set())


@pytest.mark.parametrize(
    "text",
    [
        "If you have more than 20 stitches to 10 cm, take larger needles.",
        "Too many stitches: go up a needle size.",
        "If you get too few stitches, use smaller needles; if too many, larger needles.",
        "Change to 4 mm needles if you have fewer than 20 stitches to 10 cm.",
        "Loose knitters may go down a size.",
        "If your swatch is too tight, try a 5.5 mm needle.",
        "Cast on with a needle two sizes larger, so that the edge can be stretched.",
        "Work the rib with smaller needles, so that it stays elastic.",
        "The needles are smaller than the yarn asks for. This is on purpose: it makes a firm "
        "fabric.",
        "Larger needles make an airy fabric. If it is too loose, you'll like it the better.",
        "Knit with smaller needles than you think, not larger ones.",
        "Don't take larger needles if you have fewer stitches.",
        "Bind off loosely.",
        "Change to the larger needles.",
        "Each is 15 cm along a side. If yours come out at 14 cm, take larger needles.",
        "Each is 15 cm along a side. If yours come out at 16 cm, take smaller needles.",
    ],
)
def test_sound_advice_on_needles_is_left_alone(text: str) -> None:
    assert said(text, "hat", {SWATCH}, ("notes",)) == set()


@pytest.mark.parametrize(
    "text",
    [
        "If you have more than 20 stitches to 10 cm, take smaller needles.",
        "Too many stitches: go down a needle size.",
        "If you get too few stitches, use larger needles.",
        "Change to 4 mm needles if you have more than 20 stitches to 10 cm.",
        "Loose knitters may go up a size.",
        "If your swatch is too tight, try a 4 mm needle.",
        "Cast on with a needle two sizes smaller, so that the edge can be stretched.",
        "The needles are larger than the yarn asks for. This is on purpose: it makes a firm "
        "fabric.",
        "Each is 15 cm along a side. If yours come out at 14 cm, take smaller needles.",
        "Each is 15 cm along a side. If yours come out at 16 cm, take larger needles.",
    ],
)
def test_advice_that_makes_it_worse_is_heard(text: str) -> None:
    """The hat's gauge is on 4.5 mm needles."""
    assert said(text, "hat", {SWATCH}, ("notes",)) == {SWATCH}


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Every right-side row decreases.", False),
        ("The decreases are worked on right-side rows.", False),
        ("No wrong-side row decreases.", False),
        ("Every wrong-side row decreases 2 stitches.", True),
        ("The decreases are worked on wrong-side rows.", True),
    ],
)
def test_shaping_is_on_the_side_that_is_told(text: str, heard: bool) -> None:
    """The flipper's taper decreases in every other row from its first, after 12 rows."""
    note = ("pieces", "flipper", "steps", 2, "note")

    assert said(text, "toy", {HANDS}, note, TextUse.STEP) == ({HANDS} if heard else set())
