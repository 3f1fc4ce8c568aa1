"""Chart symbols are told apart on paper: measured on the drawing, at the smallest print size.

Each symbol is drawn on its cell at 4 mm and 300 dots an inch, blurred as a home printer and a worn
copy blur, and compared dot by dot. The measure is the ink (mm²) that one has and the other has not;
the bounds are our own judgement of the plate of all symbols, no source.
"""

from itertools import combinations

import pytest
from PIL import Image, ImageChops, ImageStat

from bindoff.craft.marks import OWN_MARKS
from bindoff.document.charts.symbols import COLOUR_SYMBOLS, SYMBOLS, marked, symbol_of
from tests.pictures.symbols import DOTS, blurred, names, picture

LEAST, LEAST_OF_SMALL = 0.2, 0.1

# Marks of yarns that look like a stitch: where a chart names stitches, yarns leave them out, or the
# blank cell is knitted in that yarn.
ALIKE = {
    frozenset(("blank", "knit")),
    frozenset(("dot", "purl")),
    frozenset(("ring", "yarn over")),
    frozenset(("slash", "k2tog")),
    frozenset(("backslash", "ssk")),
}


def apart(one: Image.Image, other: Image.Image) -> float:
    """The ink (mm²) that lies in one picture and not in the other."""
    difference = ImageStat.Stat(ImageChops.difference(one, other))
    return float(difference.sum[0]) / 255 / DOTS**2


@pytest.fixture(scope="module")
def pictures() -> dict[str, Image.Image]:
    """Every symbol, blurred."""
    return {name: blurred(picture(name)) for name in names()}


def test_every_two_symbols_differ_on_paper(pictures: dict[str, Image.Image]) -> None:
    near = {
        (one, other): round(distance, 3)
        for one, other in combinations(pictures, 2)
        if pictures[one].size == pictures[other].size and frozenset((one, other)) not in ALIKE
        if (distance := apart(pictures[one], pictures[other])) < least(one, other)
    }

    assert near == {}


def least(one: str, other: str) -> float:
    """Small marks in the corner need less, as their cell has the colour of their yarn too."""
    small = one.endswith(", ground") and other.endswith(", ground")
    return LEAST_OF_SMALL if small else LEAST


def test_nothing_looks_like_a_purl_dot_but_a_purl(pictures: dict[str, Image.Image]) -> None:
    others = set(pictures) - {"purl", "dot"}
    near = [
        name
        for name in others
        if pictures[name].size == pictures["purl"].size
        and not name.endswith(", ground")
        and apart(pictures["purl"], pictures[name]) < 2 * LEAST
    ]

    assert near == []


def test_no_two_symbols_have_the_same_words() -> None:
    told = [symbol_of(name).picture for name in SYMBOLS if name not in ("blank", "dot")]

    assert len(set(told)) == len(told)


def test_the_measure_sees_what_an_eye_sees(pictures: dict[str, Image.Image]) -> None:
    """A symbol is not apart from itself, and a leaning stroke is far from its mirror image."""
    assert apart(pictures["ssk"], pictures["ssk"]) == 0
    assert apart(pictures["ssk"], pictures["k2tog"]) > 3 * LEAST
    assert len(COLOUR_SYMBOLS) == 16


@pytest.mark.parametrize("stitch", ["purl", "k2tog", "ssk", "yarn over", "bobble", "p2tog-pnso"])
def test_one_stitch_in_several_yarns_is_told_apart_by_small_marks(stitch: str) -> None:
    drawn = [stitch, *(marked(stitch, mark) for mark in OWN_MARKS)]
    found = [blurred(picture(name)) for name in drawn]

    assert min(apart(one, other) for one, other in combinations(found, 2)) >= LEAST_OF_SMALL
    assert len({symbol_of(name).picture for name in drawn}) == len(drawn)
