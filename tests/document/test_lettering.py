"""The room kept for a label is enough for the letters of the font that prints it."""

import string
from importlib.resources import as_file, files
from math import hypot

import fontpkg_lato
import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.lettering import CAP_HEIGHT, RING, middle_of, text_width

LETTERS = "".join(map(chr, range(32, 127))) + "×½¼¾⅓–—’“”″′°é"


def _font(style: str) -> TTFont:
    with as_file(files(fontpkg_lato) / "files" / f"Lato-{style}.ttf") as path:
        return TTFont(path)


FONTS = {False: _font("Regular"), True: _font("Bold")}
WIDTHS = {
    bold: {
        letter: font["hmtx"][font.getBestCmap()[ord(letter)]][0] / font["head"].unitsPerEm
        for letter in LETTERS
    }
    for bold, font in FONTS.items()
}


@pytest.mark.parametrize("bold", [False, True])
@given(text=st.text(LETTERS, max_size=30))
def test_no_text_is_wider_than_its_room(bold: bool, text: str) -> None:
    """Against the advance widths in the font files themselves."""
    true_width = sum(WIDTHS[bold][letter] for letter in text)

    assert text_width(text, 1.0, bold) >= true_width * 1.1


@given(text=st.text(LETTERS, min_size=1, max_size=30))
def test_the_room_is_not_wasteful(text: str) -> None:
    true_width = sum(WIDTHS[False][letter] for letter in text)

    assert text_width(text, 1.0) <= true_width * 1.7


def test_figures_and_capitals_fit_their_height() -> None:
    font = FONTS[False]
    highest = font["OS/2"].sCapHeight / font["head"].unitsPerEm

    assert highest <= CAP_HEIGHT <= highest + 0.01


@pytest.mark.parametrize("letter", string.ascii_letters)
def test_a_letter_stands_in_the_middle_of_its_ring(letter: str) -> None:
    """Against the outlines in the font file itself; white is left all around."""
    font = FONTS[True]
    pen = BoundsPen(font.getGlyphSet())
    font.getGlyphSet()[font.getBestCmap()[ord(letter)]].draw(pen)
    left, low, right, top = (value / font["head"].unitsPerEm for value in pen.bounds)
    middle = middle_of(letter)

    assert (low + top) / 2 == pytest.approx(middle, abs=0.04)
    corner = hypot((right - left) / 2, max(top - middle, middle - low))
    assert corner < RING - 0.05 or letter in "MWQmw"
    assert (right - left) / 2 < RING - 0.1
