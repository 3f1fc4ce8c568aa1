"""A chart of many pieces: each sheet can be worked from alone, and its files stand alone."""

import io
import re
import xml.etree.ElementTree as ET
from functools import cache

import pypdf
import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.build import build_document
from bindoff.document.chartpages import ChartPage, chart_blocks
from bindoff.document.charts.sheets import key_drawing, sheet
from bindoff.document.drawing import Label, Rect
from bindoff.document.tree import Document, Figure
from bindoff.editions import Edition, TextOptions
from bindoff.pipeline import drawn_for
from bindoff.records import replace
from bindoff.render.pdf import PdfOptions
from bindoff.writers import WRITERS, Publication
from tests.document.patterns import SLATE, Data, Steps, data, files_of, plan_of

SHEET = "charts/sea-sheet.pdf"
SVG = "{http://www.w3.org/2000/svg}"
YARNS = {f"y{n}": SLATE | {"name": f"Yarn {n}", "colour": f"#{n * 25:02x}80a0"} for n in range(10)}
A4_MM = (170.0, 232.0)
"""The frame of a page that A4 and US Letter share, less a caption."""


def big() -> ChartPage:
    """A picture of 150 by 220 in ten colours, at 20 stitches and 28 rows."""
    return made()[1]


@cache
def made(**more: str) -> tuple[Document, ChartPage]:
    """The document with that picture, its chart printed as ``more`` says, and the chart's page."""
    rows = [
        "".join(str(((x // 11) * 3 + (y // 17) * 7 + (x * y) // 997) % 10) for x in range(150))
        for y in range(220)
    ]
    chart = {
        "title": "The Sea",
        "grid": "sea.grid",
        "legend": {str(n): f"y{n}" for n in range(10)},
        "alt": "Waves.",
        "mode": "intarsia",
    } | more
    steps: Steps = [{"cast on": 150}, {"chart": "sea"}, {"bind off": "all"}]
    source: Data = data(steps, 1, charts={"sea": chart}, yarns=YARNS, measures={"n": [150]})
    source["pieces"]["cap"]["worked"] = "flat"
    files = {"sea.grid": "\n".join(rows) + "\n"}
    plan, drawn = plan_of(source, files), drawn_for("calm")
    document, (page,) = build_document(plan, files_of(source, files), drawn=drawn)
    return document, page


def test_a_picture_of_150_by_220_takes_at_most_20_sheets_at_4_mm() -> None:
    figures = [block for block in chart_blocks(big()) if isinstance(block, Figure)]

    assert 1 < len(big().tiles) <= 20
    assert len(figures) == 1 + len(big().tiles)  # the map, and the sheets
    for figure in figures[1:]:
        assert not isinstance(figure.picture, bytes)
        assert figure.picture.width <= A4_MM[0]
        assert figure.picture.height <= A4_MM[1]


def test_each_sheet_has_its_title_its_place_and_its_own_key() -> None:
    page = big()
    for tile in page.tiles[::7]:
        drawn = sheet(page.spec, tile, page.tiles, 165.0)
        words = [shape.text for shape in drawn.shapes if isinstance(shape, Label)]
        core = tile.core
        rows = page.spec.rows[core.first_row - 1 : core.last_row]
        width = page.spec.width
        here = {row[width - core.last_stitch : width - core.first_stitch + 1] for row in rows}
        shown = {f"Yarn {character}" for row in here for character in row}

        assert f"The Sea, {tile.number} of {tile.count}" in words
        assert {word for word in words if word.startswith("Yarn")} == shown
        boxes = [s for s in drawn.shapes if isinstance(s, Rect) and s.fill == "#404040"]
        assert len(boxes) == 1  # its place in the plan


def test_the_first_row_of_its_own_has_the_arrow() -> None:
    """Two faded rows of the piece below stand under it."""
    page = big()
    tile = next(tile for tile in page.tiles if tile.core.first_row > 1)
    label = next(
        shape
        for shape in tile.drawing.shapes
        if isinstance(shape, Label) and shape.text == str(tile.core.first_row)
    )
    arrows = [
        shape
        for shape in tile.drawing.shapes
        if getattr(shape, "fill", None) == "#000000" and len(getattr(shape, "commands", ())) == 4
    ]
    heights = [float(shape.commands[0][2]) for shape in arrows if hasattr(shape, "commands")]

    assert min(abs(height - label.y) for height in heights) < 2.0


def files() -> dict[str, str]:
    """The SVG files of the chart."""
    of = Publication("sea", (), (big(),), "en", {}, {}, TextOptions())
    found = {name: content.decode() for writer in WRITERS for name, content in writer(of)}
    return {name: content for name, content in found.items() if name.endswith(".svg")}


def test_files_are_the_pieces_in_order_the_whole_the_map_and_the_key() -> None:
    names = list(files())
    pieces = [name for name in names if re.search(r"-\d+\.svg$", name)]

    assert pieces == sorted(pieces)
    assert len(pieces) == len(big().tiles)
    assert set(names) - set(pieces) == {
        f"charts/sea-{what}.svg" for what in ("whole", "map", "key")
    }


def test_files_have_ids_of_their_own_and_layers_by_yarn() -> None:
    ids: list[str] = []
    for name, content in files().items():
        root = ET.fromstring(content)
        ids += [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
        title, told = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
        assert title is not None
        assert told is not None
        assert title.text
        assert told.text
        if name.endswith("-whole.svg"):
            layers = {g.attrib["id"].partition("-whole-")[2] for g in root.iter(f"{SVG}g")}
            assert {f"cells-of-yarn-{n}" for n in range(10)} <= layers
            assert {f"symbols-of-yarn-{n}" for n in range(1, 10)} <= layers
        if re.search(r"-\d+\.svg$", name):
            assert told.text.startswith("Part ")
            assert title.text.split(", ")[1].capitalize() in told.text
    assert len(set(ids)) == len(ids)


def test_a_key_of_its_own_holds_every_entry() -> None:
    words = [shape.text for shape in key_drawing(big().spec).shapes if isinstance(shape, Label)]

    assert sorted(words) == [f"Yarn {n}" for n in range(10)]


def test_columns_of_a_key_are_as_wide_as_their_own_words() -> None:
    """One long name does not take the room of a column from short ones: two columns of its width
    have no room."""
    spec = big().spec
    keys = [
        replace(key, label="Yarn that has a far longer name" if not at else key.label)
        for at, key in enumerate(spec.keys)
    ]
    long = key_drawing(replace(spec, keys=tuple(keys)), width=95.0)
    lefts = {shape.x for shape in long.shapes if isinstance(shape, Label)}
    assert long.width <= 95.0
    assert len(lefts) == 2


def test_landscape_sheets_lie_on_their_side_and_fit_it() -> None:
    _, page = made(sheet="landscape")
    figures = [block for block in chart_blocks(page) if isinstance(block, Figure)][1:]
    widest = max(tile.core.columns for tile in page.tiles)

    assert widest >= 40  # upright pages have room for 30
    assert len(figures) == len(page.tiles)
    for figure in figures:
        assert figure.landscape
        assert not isinstance(figure.picture, bytes)
        assert figure.picture.width <= 233.5  # US Letter on its side, less its margins
        assert figure.picture.height <= 160


def test_cells_are_as_large_as_the_chart_says() -> None:
    """The longer side of a cell, across, for 20 stitches are wider than 28 rows are high."""
    _, page = made(cell="5 mm")
    tile = page.tiles[0]
    lines = [shape for shape in tile.drawing.shapes if isinstance(shape, Rect) and shape.fill]
    across = tile.core.columns + 2  # two of the next piece

    assert page.drawn.least == page.drawn.largest == 5.0
    assert max(s.x + s.w for s in lines) - min(s.x for s in lines) == pytest.approx(5 * across)


@pytest.mark.parametrize("cell", ["1 mm", "3 cm", "large", "0 mm"])
def test_no_chart_is_printed_with_cells_that_nobody_can_use(cell: str) -> None:
    with pytest.raises(PatternError) as caught:
        made(cell=cell)
    (found,) = caught.value.findings

    assert f"no chart is printed with cells of {cell}" in found.message
    assert "from 2 to 20 mm" in found.help


def test_one_large_sheet_is_a_tagged_pdf_of_one_page_with_the_whole_chart() -> None:
    document, page = made(sheet="one")
    edition = Edition("", PdfOptions())
    of = Publication("sea", ((edition, document, document),), (page,), "en", {}, {}, TextOptions())
    (content,) = (c for writer in WRITERS for name, c in writer(of) if name == SHEET)
    reader = pypdf.PdfReader(io.BytesIO(content))
    (sheet_page,) = reader.pages
    text = sheet_page.extract_text()

    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]  # type: ignore[index]
    assert float(sheet_page.mediabox.width) / 72 * 25.4 > 150 * 4
    assert float(sheet_page.mediabox.height) / 72 * 25.4 > 220 * 4 * 20 / 28
    assert "The Sea" in text
    for number in range(10):
        assert f"Yarn {number}" in text
    assert "220" in text
    assert page.tiles[0].count > 1  # the pattern itself has it in parts still
