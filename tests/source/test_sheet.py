"""The cells of a spreadsheet become a chart whole, or each that can't be read is named.

Workbooks are written by openpyxl, CSV files by the csv module: neither is the program's own.
"""

import csv
import io
import zipfile
from collections.abc import Callable, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook
from openpyxl.styles import GradientFill, PatternFill
from openpyxl.styles.colors import Color

from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.source.imagegrid import colour_distance, nearest_yarn
from bindoff.source.sheet import Area, cell_name, parse_area, read_sheet
from bindoff.source.sheetgrid import Known, SheetChart, by_fill, by_value, way_of

YARNS = {"hemp": "#d9c7a0", "tar": "#2c3540", "madder": "#a3402f"}
PLACES = {"A1": (1, 1), "Z1": (26, 1), "AA10": (27, 10), "ZZ3": (702, 3), "AAA1": (703, 1)}


def stitch_of(value: str) -> tuple[str, int] | None:
    found = standard_book().find(value.lower())
    return (value, found.cells) if found else None


KNOWN = Known({"hemp": "hemp", "Tar": "tar", "tar": "tar"}, stitch_of, {"tar": "#"})


def workbook(
    rows: Sequence[Sequence[object]],
    fill: Callable[[int, int], object] | None = None,
    corner: tuple[int, int] = (1, 1),
) -> bytes:
    """A workbook of one sheet, its first cell at ``corner`` (column, row)."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for y, row in enumerate(rows):
        for x, value in enumerate(row):
            cell = sheet.cell(corner[1] + y, corner[0] + x)
            cell.value = value  # type: ignore[assignment]
            colour = fill(x, y) if fill else None
            if isinstance(colour, str):
                cell.fill = PatternFill("solid", fgColor=Color(rgb=f"FF{colour[1:].upper()}"))
            elif isinstance(colour, (PatternFill, GradientFill)):
                cell.fill = colour
    return saved(book)


def saved(book: Workbook) -> bytes:
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def separated(rows: Sequence[Sequence[str]], mark: str = ",") -> bytes:
    text = io.StringIO()
    csv.writer(text, delimiter=mark).writerows(rows)
    return text.getvalue().encode()


def values(data: bytes, empty: str | None = None, **where: object) -> SheetChart:
    return by_value(read_sheet(data, "rope.xlsx", **where), "rope.xlsx", KNOWN, empty)  # type: ignore[arg-type]


def fills(data: bytes, empty: str | None = None) -> SheetChart:
    sheet = read_sheet(data, "rope.xlsx")
    known = Known({key: key for key in YARNS}, stitch_of, {})
    return by_fill(sheet, "rope.xlsx", nearest_yarn(YARNS), colour_distance, known, empty)


def faults(made: Callable[[], object]) -> list[Diagnostic]:
    with pytest.raises(PatternError) as caught:
        made()
    return list(caught.value.findings)


@pytest.mark.parametrize(("name", "place"), PLACES.items())
def test_cells_are_named_as_spreadsheets_name_them(name: str, place: tuple[int, int]) -> None:
    assert cell_name(*place) == name
    assert parse_area(f"{name}:{name}") == Area(*place, *place)


def test_an_area_may_be_written_from_any_corner() -> None:
    assert parse_area("m19:B2") == parse_area("B2:M19") == Area(2, 2, 13, 19)
    for wrong in ("B2", "B2-M19", "2B:M19", "B0:M1", "B2:M19:", ""):
        with pytest.raises(ValueError, match="is not like"):
            parse_area(wrong)


# ---------------------------------------------------------------- by value


@given(
    st.integers(1, 9).flatmap(
        lambda wide: st.lists(st.text("ab#.", min_size=wide, max_size=wide), min_size=1, max_size=9)
    )
)
def test_characters_come_as_they_are(lines: list[str]) -> None:
    for data in (separated([list(line) for line in lines]), workbook([list(x) for x in lines])):
        assert values(data).lines == tuple(lines)


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_csv_file_may_be_parted_and_encoded_as_spreadsheets_do(mark: str, encoding: str) -> None:
    data = separated([["é", "a"], ["a", "é"]], mark).decode().encode(encoding)

    assert values(data).lines == ("éa", "aé")


def test_stitches_and_yarns_get_characters_and_a_legend() -> None:
    chart = values(workbook([["k", "yo", "k2tog", "Tar"], ["k", "P", "no stitch", "hemp"]]))

    assert chart.lines == (".o/#", ".Pxh")
    assert chart.legend == {
        ".": "k", "o": "yo", "/": "k2tog", "#": "tar", "P": "P", "x": "no stitch", "h": "hemp",
    }  # fmt: skip


def test_a_character_of_the_designers_own_keeps_its_place_and_is_left_to_explain() -> None:
    chart = values(separated([[".", "k"], ["u", "."]]))

    assert chart.lines == (".k", "u.")
    assert chart.legend == {".": "", "k": "k", "u": ""}


def test_whole_numbers_are_characters_whatever_their_format() -> None:
    assert values(workbook([[1, 0.0], [0, 1]])).lines == ("10", "01")


def test_a_cross_stands_in_all_its_cells_or_in_the_first_of_merged_ones() -> None:
    written = values(workbook([["k", *["2/2 RC"] * 4, "k"]]))
    merged = values(workbook([["k", "2/2 RC", None, None, None, "k"]]), empty=None)

    assert len(set(written.lines[0][1:5])) == 1
    assert merged == written


def test_the_area_is_what_is_filled_or_what_is_said() -> None:
    data = workbook([["a", "b", 1], ["b", "a", 2]], corner=(3, 5))

    assert read_sheet(data, "x").area == Area(3, 5, 5, 6)
    assert values(data, area=parse_area("C5:D6")).lines == ("ab", "ba")


def test_every_cell_that_cannot_be_read_is_named() -> None:
    rows: list[list[object]] = [["k", "k2togg", None], ["=A1", "|", True], ["k", "k", 12]]
    found = faults(lambda: values(workbook(rows, corner=(2, 4))))

    assert {each.id for each in found} == {"sheet.cell"}
    assert [each.message.split(" of ")[0] for each in found] == [
        "C4", "D4", "B5", "C5", "D5", "D6",
    ]  # fmt: skip
    assert found[0].message == (
        "C4 of `rope.xlsx` holds `k2togg`, which is no yarn, stitch or character"
    )
    assert found[1].message == "D4 of `rope.xlsx` is empty"
    assert "--empty k" in found[1].help
    assert found[2].message == "B5 of `rope.xlsx` holds a formula: `=A1`"
    assert found[4].message == "D5 of `rope.xlsx` holds a date or a logical value: `True`"
    assert "--range" in found[5].help


def test_empty_cells_are_what_is_said_of_them() -> None:
    chart = values(separated([["x", "", "x"], ["x"]]), empty="k")

    assert chart.lines == ("x.x", "x..")


def test_at_most_twenty_cells_are_named() -> None:
    assert len(faults(lambda: values(separated([["k2togg"] * 9] * 9)))) == 20


# ---------------------------------------------------------------- by colour


def test_colours_become_the_nearest_yarns() -> None:
    colours = [["#d9c7a0", "#2c3540"], ["#a84030", "#d9c7a0"]]
    chart = fills(workbook([[None] * 2] * 2, lambda x, y: colours[y][x]))

    assert chart.lines == ("ht", "mh")
    assert chart.legend == {"h": "hemp", "t": "tar", "m": "madder"}


def test_a_theme_colour_is_lightened_as_its_tint_says() -> None:
    """Office's theme since 2013 has #4472C4 as its first accent; the swatches that its colour
    picker calls 40 % lighter and 50 % darker are #8EA9DB and #203764 (as shown there, from
    memory); a step of a channel is left to rounding."""
    for tint, shown in ((0.3999755851924192, "#8ea9db"), (-0.499984740745262, "#203764")):
        fill = PatternFill("solid", fgColor=Color(theme=4, tint=tint))
        book = Workbook()
        assert book.active is not None
        book.active["A1"].fill = fill
        book.loaded_theme = THEME
        (_, cell), *_ = read_sheet(saved(book), "x").cells()
        assert cell.fill is not None
        for place in (1, 3, 5):
            assert (
                abs(int(cell.fill[place : place + 2], 16) - int(shown[place : place + 2], 16)) < 3
            )


THEME = (
    b'<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" name="t">'
    b'<a:themeElements><a:clrScheme name="c">'
    b'<a:dk1><a:sysClr val="windowText" lastClr="000000"/></a:dk1>'
    b'<a:lt1><a:sysClr val="window" lastClr="FFFFFF"/></a:lt1>'
    b'<a:dk2><a:srgbClr val="44546A"/></a:dk2><a:lt2><a:srgbClr val="E7E6E6"/></a:lt2>'
    b'<a:accent1><a:srgbClr val="4472C4"/></a:accent1>'
    b"</a:clrScheme></a:themeElements></a:theme>"
)


def test_cells_without_a_readable_colour_are_named() -> None:
    odd = {
        (1, 0): PatternFill("darkGrid", fgColor="FF000000"),
        (2, 0): GradientFill(stop=("FF000000", "FFFFFFFF")),
    }
    look = workbook([[None] * 4], lambda x, y: odd.get((x, y), "#2c3540" if x in (0, 3) else None))
    data = workbook(
        [[None] * 3] * 2, lambda x, y: odd.get((x, y)) or (None if (x, y) == (0, 1) else "#2c3540")
    )

    assert [each.message for each in faults(lambda: fills(data))] == [
        "B1 of `rope.xlsx` is filled with a pattern of two colours",
        "C1 of `rope.xlsx` is filled with a pattern of two colours",
        "A2 of `rope.xlsx` has no colour",
    ]
    assert len(faults(lambda: fills(data, empty="hemp"))) == 2
    assert len(faults(lambda: fills(look))) == 2


def test_two_colours_that_would_be_one_yarn_are_named() -> None:
    colours = ["#2c3540", "#2d3641", "#5a2a50"]
    (found,) = faults(lambda: fills(workbook([[None] * 3], lambda x, y: colours[x])))

    assert found.id == "sheet.fill"
    assert found.message.startswith("A1 of `rope.xlsx` is #2c3540 and C1 is #5a2a50, and both")


def test_a_sheet_is_read_by_its_values_or_else_by_its_colours() -> None:
    written = read_sheet(workbook([["a", "b"]], lambda x, y: "#2c3540"), "x")
    coloured = read_sheet(workbook([[None, None]], lambda x, y: "#2c3540"), "x")
    both = read_sheet(workbook([["a", None]], lambda x, y: "#2c3540"), "x")

    assert (way_of(written, "x"), way_of(coloured, "x")) == ("value", "fill")
    (found,) = faults(lambda: way_of(both, "x"))
    assert (found.id, "--by fill" in found.help, "B1" in found.message) == ("sheet.way", True, True)


# ---------------------------------------------------------------- files that are none


def id_of(made: Callable[[], object]) -> str:
    (found,) = faults(made)
    assert found.help
    return found.id


def test_a_workbook_of_several_sheets_is_asked_for_one() -> None:
    book = Workbook()
    book.create_sheet("Crown")["A1"] = "a"
    data = saved(book)

    assert id_of(lambda: read_sheet(data, "x")) == "sheet.title"
    assert id_of(lambda: read_sheet(data, "x", title="Brim")) == "sheet.title"
    assert read_sheet(data, "x", title="Crown").title == "Crown"
    assert id_of(lambda: read_sheet(b"a,b", "x", title="Crown")) == "sheet.title"


def test_nothing_is_refused_as_nothing() -> None:
    assert id_of(lambda: read_sheet(saved(Workbook()), "x")) == "sheet.empty"
    for data in (b"", b",,\n,,\n", b"\xef\xbb\xbf"):
        assert id_of(lambda data=data: read_sheet(data, "x")) == "sheet.empty"  # type: ignore[misc]


@pytest.mark.parametrize(
    "data",
    [
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600),
        b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
        b"a,b\0c",
        b"\xff\xfe\x00",
    ],
)
def test_other_files_are_refused(data: bytes) -> None:
    assert id_of(lambda: read_sheet(data, "x")) == "sheet.unknown"


def test_a_packed_file_that_is_no_workbook_is_refused() -> None:
    assert id_of(lambda: read_sheet(packed({"mimetype": b"application/epub+zip"}), "x")) == (
        "sheet.unknown"
    )


def test_a_quote_that_never_ends_is_named_by_its_row() -> None:
    (found,) = faults(lambda: read_sheet(b'a,b\n"a,b\n', "x"))

    assert found.id == "sheet.broken"
    assert found.message.startswith("row 2 of `x`")


def packed(parts: dict[str, bytes]) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as file:
        for name, part in parts.items():
            file.writestr(name, part)
    return data.getvalue()


def changed_part(data: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as file:
        parts = {info.filename: file.read(info) for info in file.infolist()}
    parts[name] = change(parts[name])
    return packed(parts)


SOUND = workbook([["a", "b"]])
SHEET = "xl/worksheets/sheet1.xml"
ENTITIES = b'<!DOCTYPE w [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'


def put(found: bytes, other: bytes) -> Callable[[bytes], bytes]:
    def change(part: bytes) -> bytes:
        assert found in part
        return part.replace(found, other, 1)

    return change


HOSTILE = {
    "a part that unpacks to more than a chart": (
        packed({"xl/workbook.xml": b"<w/>", "xl/media/a.bin": bytes(50_000_000)}),
        "sheet.too-large",
    ),
    "more parts than a workbook has": (
        packed({"xl/workbook.xml": b"<w/>", **{f"x{n}": b"" for n in range(1_100)}}),
        "sheet.too-large",
    ),
    "styles by the million": (
        changed_part(SOUND, "xl/styles.xml", lambda part: part + b" " * 5_000_000),
        "sheet.too-large",
    ),
    "entities that grow": (
        changed_part(SOUND, "xl/workbook.xml", lambda part: ENTITIES + part),
        "sheet.broken",
    ),
    "XML in another encoding, where entities hide": (
        changed_part(SOUND, SHEET, lambda part: part.decode().encode("utf-16")),
        "sheet.broken",
    ),
    "a cell in the last row": (
        changed_part(SOUND, SHEET, put(b'<row r="1"', b'<row r="1048576"')),
        "sheet.too-large",
    ),
    "a cell in the last column": (
        changed_part(SOUND, SHEET, put(b'r="B1"', b'r="XFD1"')),
        "sheet.too-large",
    ),
    "a cell at no place": (changed_part(SOUND, SHEET, put(b'r="B1"', b'r="B"')), "sheet.broken"),
    "a style that is not there": (
        changed_part(SOUND, SHEET, put(b'r="B1"', b'r="B1" s="99999"')),
        "sheet.broken",
    ),
    "a sheet that ends in its middle": (
        changed_part(SOUND, SHEET, lambda part: part[: len(part) // 2]),
        "sheet.broken",
    ),
    "a file that ends in its middle": (SOUND[: len(SOUND) // 2], "sheet.broken"),
}


@pytest.mark.parametrize(("data", "id"), HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_workbook_is_refused(data: bytes, id: str) -> None:
    assert id_of(lambda: list(read_sheet(data, "x").cells())) == id


def test_what_a_sheet_says_of_its_size_is_not_believed() -> None:
    data = changed_part(SOUND, SHEET, put(b'ref="A1:B1"', b'ref="A1:XFD1048576"'))

    assert read_sheet(data, "x").area == Area(1, 1, 2, 1)


@pytest.mark.parametrize(
    "data",
    [b"," * 6_000, b"\n" * 6_000 + b"a", b"a," * 2_000, b"a,b\n" * 3_000, b",".join([b"a"] * 999)],
    ids=["far away", "far down", "wide", "high", "many cells"],
)
def test_a_csv_file_beyond_all_charts_is_refused(data: bytes) -> None:
    many = data if len(data) > 2_000 else (data + b"\n") * 900

    assert id_of(lambda: read_sheet(many, "x")) == "sheet.too-large"
