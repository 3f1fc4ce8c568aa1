"""What is kept of a typeface is what another reader, fontTools, finds in its file."""

import io

import pytest
from fontTools.ttLib import TTFont

from bindoff.render.fontfiles import SANS, SERIF, font_bytes
from bindoff.render.pdf.typefiles import font, program

FILES = [(SANS, "Lato-Regular.ttf"), (SERIF, "IBMPlexSerif-SemiBold.ttf")]


@pytest.mark.parametrize(("package", "file"), FILES)
def test_measures_are_those_of_the_file(package: str, file: str) -> None:
    read, found = TTFont(io.BytesIO(font_bytes(package, file))), font(package, file)
    scale = 1000 / read["head"].unitsPerEm
    advances = {point: read["hmtx"][name][0] for point, name in read.getBestCmap().items()}
    assert set(advances) - set(found.widths) == set()
    for point in map(ord, "Aaz09 .,;é½×–"):
        assert found.width(point) == pytest.approx(advances[point] * scale, abs=1)
    assert found.ascent == pytest.approx(read["hhea"].ascent * scale, abs=1)
    assert found.cap_height == pytest.approx(read["OS/2"].sCapHeight * scale, abs=1)
    assert found.name == read["name"].getDebugName(6)


@pytest.mark.parametrize(("package", "file"), FILES)
def test_a_program_has_the_outlines_of_its_characters(package: str, file: str) -> None:
    whole, text = TTFont(io.BytesIO(font_bytes(package, file))), "Kp2"
    part = TTFont(io.BytesIO(program(font(package, file), tuple(map(ord, text)))))
    outlines = part["glyf"]
    drawn = [outlines[name].getCoordinates(outlines)[0] for name in part.getGlyphOrder()[1:]]
    own = [whole["glyf"][whole.getBestCmap()[ord(character)]] for character in text]
    assert drawn == [glyph.getCoordinates(whole["glyf"])[0] for glyph in own]
