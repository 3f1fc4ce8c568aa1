"""What the painter is told: cells are where a PDF renderer shows them, floats are those that one
counts by hand, cells of a spreadsheet are read whole or refused."""

import io
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from bindoff.desk.painting import floats, paintable, painted, pasted
from bindoff.desk.proofs import Look, Proof, make_proof
from bindoff.desk.server import Running
from bindoff.desk.workplace import Overlay
from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern
from tests.desk.running import PATTERNS, ask, copied, running
from tests.small_patterns import CAP, changed

HAT = "ropewalk-hat"
DPI = 288


def proof(name: str = HAT, **texts: str) -> Proof:
    files = Overlay(str(PATTERNS / name), {f"{key}": text for key, text in texts.items()})
    return make_proof(files, "pattern.yaml", name, Look())


def written(name: str) -> str:
    return (PATTERNS / name / "pattern.yaml").read_text(encoding="utf-8")


# ---------------------------------------------------------------- where cells are


def pixels(text: str, name: str, pages: set[int]) -> dict[int, Image.Image]:
    """Those pages of the PDF as poppler shows them."""
    files = Overlay(str(PATTERNS / name), {"pattern.yaml": text})
    made = build_pattern(files, "pattern.yaml", name).files[f"{name}.pdf"]
    found = {}
    for page in pages:
        number = ("-f", str(page + 1), "-l", str(page + 1))
        command = ["pdftoppm", "-r", str(DPI), "-png", *number, "-"]
        shown = subprocess.run(command, input=made, capture_output=True, check=True).stdout
        found[page] = Image.open(io.BytesIO(shown)).convert("RGB")
    return found


def cells(place: dict[str, Any]) -> Iterator[tuple[int, int, float, float]]:
    """Line and stitch of each cell that is shown, and a point near its top left corner."""
    for row in range(place["rows"]):
        for column in range(place["columns"]):
            stitch = (place["stitch"] + place["columns"] - 2 - column) % place["repeat"] + 1
            x = place["left"] + (column + 0.2) * place["w"]
            y = place["top"] + (row + 0.17) * place["h"]
            yield place["line"] + place["rows"] - 1 - row, stitch, x, y


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="needs poppler")
@pytest.mark.parametrize(
    ("name", "grid", "large"),
    [
        (HAT, "rope.grid", False),
        ("harbour-light-hat", "light.grid", False),
        ("harbour-light-hat", "light.grid", True),  # on several pages
    ],
)
def test_every_cell_has_its_colour_where_it_is_said_to_be(
    name: str, grid: str, large: bool
) -> None:
    text = written(name)
    if large:
        text = text.replace("    grid: light.grid", "    grid: light.grid\n    cell: 14 mm")
    data = painted(proof(name, **{"pattern.yaml": text}))
    places = [each for each in data["cells"] if each["file"] == grid]
    pages = pixels(text, name, {each["page"] for each in places})
    assert len(pages) > 1 if large else len(pages) == 1
    (known,) = (each for each in data["grids"] if each["file"] == grid)
    colours = {each["sign"]: each["colour"] for each in known["legend"]}
    lines = (PATTERNS / name / grid).read_text(encoding="utf-8").split()
    met = set()
    for place in places:
        for line, stitch, x, y in cells(place):
            sign = lines[len(lines) - line][-stitch]
            wanted = tuple(int(colours[sign][at : at + 2], 16) for at in (1, 3, 5))
            seen = pages[place["page"]].getpixel((int(x * DPI / 72), int(y * DPI / 72)))
            assert isinstance(seen, tuple)
            pale = tuple(round(c + (255 - c) * 0.6) for c in wanted)  # of a neighbouring piece
            assert min(distance(seen, wanted), distance(seen, pale)) <= 4, (line, stitch)
            met.add((line, stitch))
    assert met == {(y + 1, x + 1) for y in range(len(lines)) for x in range(len(lines[0]))}


def distance(one: tuple[int, ...], other: tuple[int, ...]) -> int:
    return max(abs(a - b) for a, b in zip(one, other, strict=True))


def test_a_grid_that_no_chart_shows_cell_for_cell_has_no_cells() -> None:
    """Motifs lie among the stripes of their tube."""
    data = painted(proof("fairway-hat"))
    assert data["cells"] == []
    assert [each["file"] for each in data["grids"]] == ["boat.grid", "gull.grid", "spray.grid"]
    assert [each["repeats"] for each in data["grids"]] == [False, False, True]


def test_signs_are_told_in_words_with_their_look() -> None:
    (scales, foam) = painted(proof("herring-quay-shawl"))["grids"]
    told = {each["sign"]: each for each in foam["legend"]}
    assert [told[sign]["name"] for sign in ".-o/x"] == [
        *("knit", "purl", "yarn over", "knit 2 together", "no stitch")
    ]
    assert (told["/"]["mirror"], told["\\"]["mirror"], told["^"]["mirror"]) == ("\\", "/", "^")
    assert not told["x"]["worked"]
    assert told["x"]["shade"]
    assert scales["unit"] == foam["unit"] == "row"
    assert scales["cell"] == [5.556, 3.571]  # 18 stitches and 28 rows to 10 cm


def test_a_stitch_whose_mirror_is_not_in_the_legend_says_so() -> None:
    (plait, crown) = painted(proof("hawser-hat"))["grids"]
    assert {each["sign"]: each["mirror"] for each in plait["legend"]}["R"] == "L"
    told = {each["sign"]: each["mirror"] for each in crown["legend"]}
    assert (told["r"], told["/"], told["R"]) == (None, None, "L")


# ---------------------------------------------------------------- floats


def found(rows: list[str], name: str = HAT, grid: str = "rope.grid", **texts: str) -> list[Any]:
    return [
        (each["line"], each["yarn"], each["length"], sorted(each["stitches"]))
        for each in floats(proof(name, **texts), grid, rows)
    ]


def test_floats_are_counted_around_the_seam_and_marked_from_the_right() -> None:
    """At 24 stitches to 10 cm an inch is 6.1 stitches: behind 6 a yarn may pass."""
    assert found(["........", "#......."]) == [(1, "Tar", 7, [1, 2, 3, 4, 5, 6, 7])]
    assert found(["...#...."]) == [(1, "Tar", 7, [1, 2, 3, 4, 6, 7, 8])]
    assert found(["#......#"]) == []
    assert found(["##.....", "#######"]) == []
    assert found(["#.......", "........"]) == [(2, "Tar", 7, [1, 2, 3, 4, 5, 6, 7])]


def test_floats_of_what_is_no_rectangle_or_not_stranded_are_none() -> None:
    assert found(["#.......", "."]) == []
    assert found([]) == []
    assert found(["#" + "." * 40], "herring-quay-shawl", "foam.grid") == []
    assert found(["#......."], grid="no.grid") == []


FLAT = changed(
    CAP,
    ("    yarn: slate\n", "    yarn: slate\n    worked: flat\n"),
    (CAP[CAP.index("      - work: ") :], "      - chart: waves\n      - bind off: all\n"),
    ("multiple = 8", "multiple = 2, plus = 8"),
)


def test_worked_flat_nothing_floats_beyond_the_outermost_stitches() -> None:
    """One stitch at the left edge, a repeat of 2 and 7 at the right: foam goes nowhere. With one at
    the right end too it passes 6 of the edge and, as the repeat is worked more than once, 4."""
    texts = {"pattern.yaml": FLAT.encode(), "waves.grid": b".|##|.......\n.|..|.......\n"}
    made = make_proof(MemoryFiles(texts), "pattern.yaml", "cap", Look())
    (known,) = painted(made)["grids"]
    assert (known["limit"], known["unit"]) == (5, "row")  # 20 stitches to 10 cm: 5.08 to the inch
    assert floats(made, "waves.grid", ["#........."]) == []
    (one,) = floats(made, "waves.grid", ["#........#"])
    assert (one["length"], sorted(one["stitches"])) == (10, [2, 3, 4, 5, 6, 7, 8, 8, 9, 9])


# ---------------------------------------------------------------- spreadsheets


def values(*rows: str) -> list[list[tuple[str, str]]]:
    return [[(value, "") for value in row.split("|")] for row in rows]


def test_values_are_yarns_stitches_and_characters() -> None:
    hat, shawl = proof(), proof("herring-quay-shawl")
    assert pasted(hat, "rope.grid", values("Tar|hemp|Madder", "#|.|o"), ".") == ["#.o", "#.o"]
    assert pasted(shawl, "foam.grid", values("yo|k2tog|ssk|k|p"), ".") == ["o/\\.-"]
    assert pasted(shawl, "foam.grid", values("yo||", "|cdd|"), "-") == ["o--", "-^-"]


def test_colours_are_the_nearest_yarns() -> None:
    colours = [[("", "#22282f"), ("", "#a93a2c"), ("", "")]]
    assert pasted(proof(), "rope.grid", colours, ".") == ["#o."]


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        (values("Tar|Pitch"), "B1 of `what was pasted` holds `Pitch`"),
        (values("k2tog|Tar"), "`k2tog`, which the legend of `rope` does not have"),
        ([], "0 rows"),
        ([[("#", "")] * 1001], "1001 cells"),
        ([[("", "red")]], None),  # no colour that is known: an empty cell
    ],
)
def test_nothing_is_pasted_by_halves(cells: list[list[tuple[str, str]]], words: str | None) -> None:
    if words is None:
        assert pasted(proof(), "rope.grid", cells, ".") == ["."]
        return
    with pytest.raises(PatternError) as error:
        pasted(proof(), "rope.grid", cells, ".")
    assert words in error.value.findings[0].message


# ---------------------------------------------------------------- asked by the page


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Running]:
    with running(copied(tmp_path, HAT)) as desk:
        yield desk


def build(desk: Running, texts: dict[str, str]) -> dict[str, Any]:
    asked = {"client": "a", "version": 1, "pattern": HAT, "texts": texts}
    return ask(desk, "build", **asked)[1]


def test_the_page_asks_for_floats_and_cells(desk: Running) -> None:
    assert build(desk, {})["grids"][0]["limit"] == 6
    _, told = ask(desk, "floats", client="a", file="rope.grid", rows=["#......."])
    assert [each["length"] for each in told["floats"]] == [7]
    cells = [[{"value": "Tar", "fill": ""}]]
    asked = {"client": "a", "file": "rope.grid", "empty": "."}
    assert ask(desk, "paste", rows=cells, **asked)[1] == {"rows": ["#"]}
    _, told = ask(desk, "paste", rows=[[{"value": "Pitch"}]], **asked)
    assert "Pitch" in told["faults"][0]


@pytest.mark.parametrize("rows", [None, "#", [1], [None], [""] * 1001])
def test_rows_that_are_none_are_refused(desk: Running, rows: Any) -> None:
    build(desk, {})
    assert ask(desk, "floats", client="a", file="rope.grid", rows=rows)[0] == 400
    if rows != [""] * 1001:
        asked = {"client": "a", "file": "rope.grid", "empty": "."}
        assert ask(desk, "paste", rows=rows, **asked)[0] == 400
    assert ask(desk, "floats", client="b", file="rope.grid", rows=[])[0] == 404


def test_a_pattern_that_can_not_be_built_still_says_how_to_paint(desk: Running) -> None:
    told = build(desk, {"rope.grid": "#.o\n"})
    assert told["stale"]
    assert [each["name"] for each in told["grids"][0]["legend"]] == ["Tar", "Hemp", "Madder"]
    assert paintable(MemoryFiles({"pattern.yaml": b"title: ["}), "pattern.yaml", "x") == {}
