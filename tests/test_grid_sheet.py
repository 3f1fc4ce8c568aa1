"""``bindoff grid from-sheet``: from a spreadsheet to a chart that builds."""

from io import BytesIO
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from openpyxl import Workbook
from openpyxl.styles import PatternFill

from bindoff.cli import main
from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern
from bindoff.source.read import read_source
from tests.small_patterns import CAP, WAVES, changed

YARNS = "slate=#46566b,foam=#e9eef0"


def run(*words: object) -> Result:
    result = CliRunner().invoke(main, ["grid", "from-sheet", *map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def coloured(lines: list[str], colours: dict[str, str]) -> bytes:
    book = Workbook()
    assert book.active is not None
    for y, line in enumerate(lines, start=2):
        for x, character in enumerate(line, start=2):
            fill = PatternFill("solid", fgColor=f"FF{colours[character][1:]}")
            book.active.cell(y, x).fill = fill
    data = BytesIO()
    book.save(data)
    return data.getvalue()


@pytest.fixture
def cap(tmp_path: Path) -> Path:
    folder = tmp_path / "cap"
    folder.mkdir()
    (folder / "pattern.yaml").write_text(CAP)
    (folder / "waves.grid").write_text(WAVES)
    return folder


def test_a_coloured_sheet_becomes_the_grid_that_it_was(cap: Path) -> None:
    """The chart of a pattern, coloured in a workbook, comes back as the same file."""
    lines = WAVES.split()
    sheet = cap / "again.xlsx"
    sheet.write_bytes(coloured(lines, {"#": "#46566B", ".": "#E9EEF0"}))
    result = run(sheet, "--pattern", cap)

    assert result.exit_code == 0, result.output
    made = (cap / "again.grid").read_text()
    entry = yaml.safe_load(result.stdout)["charts"]["again"]
    yarns = [[entry["legend"][c] for c in line] for line in made.split()]
    was = {"#": "slate", ".": "foam"}
    assert yarns == [[was[c] for c in line] for line in lines]
    assert (
        f"# {cap / 'again.grid'}: {len(lines[0])} stitches by {len(lines)} rounds" in result.stdout
    )
    assert "of again.xlsx" in result.stdout


def test_what_is_printed_builds_once_the_alternative_is_written(cap: Path) -> None:
    sheet = cap / "net.csv"
    sheet.write_text("k,p\np,k\n")
    result = run(sheet, "--pattern", cap)
    entry = yaml.safe_load(result.stdout)["charts"]["net"]
    chart = {**entry, "alt": "A small check of knits and purls."}
    text = changed(
        CAP,
        (
            "charts:\n",
            f"charts:\n  net: {yaml.safe_dump(chart, width=9999, default_flow_style=True)}",
        ),
    ).replace("- chart: waves", "- chart: net\n      - chart: waves")
    files = {"pattern.yaml": text, "waves.grid": WAVES, "net.grid": (cap / "net.grid").read_text()}

    assert build_pattern(MemoryFiles(files), "pattern.yaml", "cap").files


def test_without_a_pattern_values_need_nothing_and_colours_need_yarns(tmp_path: Path) -> None:
    written, filled = tmp_path / "a.csv", tmp_path / "b.xlsx"
    written.write_text("x,.\n.,x\n")
    filled.write_bytes(coloured(["#."], {"#": "#46566B", ".": "#E9EEF0"}))

    result = run(written)
    assert (tmp_path / "a.grid").read_text() == "x.\n.x\n"
    assert "# say for x and . which yarn or stitch it is" in result.stdout
    assert yaml.safe_load(result.stdout)["charts"]["a"]["legend"] == {"x": "", ".": ""}
    assert run(filled).exit_code == 2
    assert run(filled, "--yarns", YARNS).exit_code == 0
    assert (tmp_path / "b.grid").read_text() == "sf\n"


def test_a_cell_that_cannot_be_read_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    sheet = tmp_path / "rope.csv"
    sheet.write_text("k,k,k\nk,k2togg,k\n")
    result = run(sheet)

    assert result.exit_code == 1
    assert "error[sheet.cell]: B2 of `rope.csv` holds `k2togg`" in result.stderr
    assert not (tmp_path / "rope.grid").exists()


def test_a_range_and_what_empty_cells_are_may_be_said(tmp_path: Path) -> None:
    sheet = tmp_path / "rope.csv"
    sheet.write_text(",1,2,3\n1,x,,x\n2,,x,\n")

    assert run(sheet, "--range", "B2:D3", "--empty", ".").exit_code == 0
    assert (tmp_path / "rope.grid").read_text() == "x.x\n.x.\n"
    assert run(sheet, "--range", "B2-D3").exit_code == 2
    assert run(sheet, "--range", "B2:D3", "--empty", ".").exit_code == 1, "it is there already"
    assert run(sheet, "--range", "B2:D3", "--empty", ".", "--force").exit_code == 0


def test_empty_cells_of_a_coloured_sheet_are_one_of_the_yarns(tmp_path: Path) -> None:
    sheet = tmp_path / "b.xlsx"
    book = Workbook()
    assert book.active is not None
    for place in ("A1", "C1"):
        book.active[place].fill = PatternFill("solid", fgColor="FF46566B")
    book.save(sheet)

    assert "B1 of `b.xlsx` has no colour" in run(sheet, "--yarns", YARNS).stderr
    assert "not one of the yarns" in run(sheet, "--yarns", YARNS, "--empty", "moss").stderr
    assert run(sheet, "--yarns", YARNS, "--empty", "foam").exit_code == 0


@pytest.mark.parametrize(
    ("name", "command", "what"),
    [
        ("waves.csv", "from-sheet", "a spreadsheet"),
        ("waves.XLSX", "from-sheet", "a spreadsheet"),
        ("waves.png", "from-image", "a picture"),
    ],
)
def test_a_spreadsheet_in_place_of_a_grid_is_told_with_the_command_that_converts_it(
    name: str, command: str, what: str
) -> None:
    files = MemoryFiles({"pattern.yaml": changed(CAP, ("grid: waves.grid", f"grid: {name}"))})
    with pytest.raises(PatternError) as caught:
        read_source(files)
    (found,) = caught.value.findings

    assert found.id == "grid.kind"
    assert found.message.startswith(f"`{name}` is {what}")
    assert f"`bindoff grid {command} pattern/{name} --pattern pattern`" in found.help
    assert "`grid: waves.grid`" in found.help
