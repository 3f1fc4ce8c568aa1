"""The cells of a spreadsheet: a CSV file, or one sheet of an XLSX workbook.

Whatever such a file holds, reading it takes bounded time and memory: what a packed file unpacks to
is added up before anything is unpacked, and rows are read one by one.
"""

import csv
import warnings
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from io import BytesIO, StringIO
from typing import TYPE_CHECKING, Any

from bindoff import regex as re
from bindoff.diagnostics import PatternError, fail
from bindoff.english import how_many
from bindoff.records import Record
from bindoff.source.grid import MAX_SIDE, MAX_STITCHES

if TYPE_CHECKING:
    from zipfile import ZipFile

SHEET_LIMIT = 10_000_000
"""Largest file of a spreadsheet, in bytes."""

_UNPACKED = 40_000_000  # bytes of all parts of a workbook
_LARGE_PARTS = {"xl/styles.xml": 4_000_000, "xl/sharedStrings.xml": 8_000_000}
_MOST_PARTS = 1_000
_FARTHEST = 5_000  # rows or columns from the corner of the sheet
_MOST_CELLS = 2 * MAX_STITCHES
_LONGEST = 100  # characters of a value: no stitch has a longer name


class SheetCell(Record):
    """A cell: its ``value`` as text, empty where it has none, and the colour ``#rrggbb`` it is
    filled with. ``odd`` says what in it can't be read."""

    value: str = ""
    fill: str | None = None
    odd: str = ""
    odd_fill: str = ""

    @property
    def blank(self) -> bool:
        """Whether it has neither a value nor a colour."""
        return self == SheetCell()


class Area(Record):
    """Cells from one corner to the other: columns and rows, all from 1 and inclusive."""

    left: int
    top: int
    right: int
    foot: int

    def __str__(self) -> str:
        return f"{cell_name(self.left, self.top)}:{cell_name(self.right, self.foot)}"


class Sheet(Record):
    """The cells of an area, row by row from the top; ``title`` is the name of the sheet."""

    title: str
    area: Area
    rows: tuple[tuple[SheetCell, ...], ...]

    def cells(self) -> Iterator[tuple[str, SheetCell]]:
        """Every cell with its name, such as ``C7``, row by row."""
        for y, row in enumerate(self.rows):
            for x, cell in enumerate(row):
                yield self.name(x, y), cell

    def name(self, x: int, y: int) -> str:
        """The name of the cell ``x`` from the left and ``y`` from the top, from 0."""
        return cell_name(self.area.left + x, self.area.top + y)


def cell_name(column: int, row: int) -> str:
    """``C7`` for the third column of the seventh row."""
    letters = ""
    while column:
        column, letter = divmod(column - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return f"{letters}{row}"


_AREA = re.compile(r"([A-Za-z]{1,3})([1-9]\d{0,6}):([A-Za-z]{1,3})([1-9]\d{0,6})")


def parse_area(text: str) -> Area:
    """An area as spreadsheets write it: ``B2:M19``. Raises ``ValueError``."""
    found = _AREA.fullmatch(text.strip())
    if found is None:
        raise ValueError(f"{text!r} is not like B2:M19")
    left, top, right, foot = found.groups()
    columns, rows = sorted((_column(left), _column(right))), sorted((int(top), int(foot)))
    return Area(columns[0], rows[0], columns[1], rows[1])


def _column(letters: str) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def read_sheet(
    data: bytes, name: str, *, title: str | None = None, area: Area | None = None
) -> Sheet:
    """The cells of a spreadsheet within ``area``, or all from the first to the last that is filled.

    ``data`` are the bytes of the file, ``name`` is for messages; ``title`` names a sheet of it.

    Raises:
        PatternError: ids ``sheet.…``: no spreadsheet that is known, a damaged or too large one, no
            such sheet or several to choose from, nothing in it.
    """
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise fail(
            "sheet.unknown",
            f"`{name}` is a workbook of an old kind, or one locked with a password",
            "Save it as XLSX without a password, or as CSV",
        )
    packed = data.startswith(b"PK\x03\x04")
    if not packed and title is not None:
        raise fail("sheet.title", f"`{name}` is one sheet and has no other", "Leave out `--sheet`")
    found, rows = _workbook(data, name, title) if packed else ("", _text_rows(data, name))
    return _cut(rows, area, name, found)


def _cut(rows: list[list[SheetCell]], area: Area | None, name: str, title: str) -> Sheet:
    if area is None:
        filled = [
            (x, y)
            for y, row in enumerate(rows, start=1)
            for x, cell in enumerate(row, start=1)
            if not cell.blank
        ]
        if not filled:
            raise fail(
                "sheet.empty",
                f"nothing is written or coloured in `{name}`",
                "Fill a cell for each stitch; colours by rules that depend on values don't count",
            )
        xs, ys = [x for x, _ in filled], [y for _, y in filled]
        area = Area(min(xs), min(ys), max(xs), max(ys))
    wide, high = area.right - area.left + 1, area.foot - area.top + 1
    if max(wide, high) > MAX_SIDE or wide * high > MAX_STITCHES:
        raise fail(
            "sheet.too-large",
            f"{area} of `{name}` is {how_many(wide, 'stitch')} by {how_many(high, 'row')}",
            f"Keep a chart within {MAX_SIDE:,} stitches and rows and {MAX_STITCHES:,} cells; say "
            "where it stands, as in `--range B2:M19`",
        )
    blank = SheetCell()

    def at(x: int, y: int) -> SheetCell:
        row = rows[y - 1] if y <= len(rows) else []
        return row[x - 1] if x <= len(row) else blank

    columns = range(area.left, area.right + 1)
    kept = (tuple(at(x, y) for x in columns) for y in range(area.top, area.foot + 1))
    return Sheet(title, area, tuple(kept))


def _too_far(name: str) -> PatternError:
    return fail(
        "sheet.too-large",
        f"`{name}` has cells beyond row or column {_FARTHEST:,}, or more than {_MOST_CELLS:,}",
        "Copy the chart alone into a new sheet",
    )


# ---------------------------------------------------------------- CSV


def _text_rows(data: bytes, name: str) -> list[list[SheetCell]]:
    text = _decoded(data, name)
    lines = text.split("\n")
    first = next((line for line in lines if line.strip()), "")
    mark = max(",;\t", key=first.count)
    rows: list[list[SheetCell]] = []
    cells = 0
    try:
        for fields in csv.reader(StringIO(text, newline=""), delimiter=mark, strict=True):
            cells += len(fields)
            if max(len(fields), len(rows)) >= _FARTHEST or cells > _MOST_CELLS:
                raise _too_far(name)
            rows.append([_text_cell(field) for field in fields])
    except csv.Error as error:
        raise fail(
            "sheet.broken",
            f"row {len(rows) + 1} of `{name}` can't be read: {error}",
            "Save it anew as CSV, each value that holds a comma or a quote in quotes",
        ) from None
    return rows


def _text_cell(field: str) -> SheetCell:
    value = field.strip()
    if len(value) > _LONGEST or any(ord(c) < 32 or ord(c) == 0x7F for c in value):
        return SheetCell(value[:20], odd="holds a text that is no stitch")
    return SheetCell(value)


def _decoded(data: bytes, name: str) -> str:
    """The text of a CSV file, in the encodings that spreadsheets write."""
    encodings = ("utf-16",) if data[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "cp1252")
    for encoding in encodings:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text.replace("\r\n", "\n").replace("\r", "\n")
    raise fail(
        "sheet.unknown",
        f"`{name}` is no spreadsheet that can be read",
        "Give an XLSX or a CSV file; save one of another kind as XLSX",
    )


# ---------------------------------------------------------------- XLSX


def _workbook(data: bytes, name: str, title: str | None) -> tuple[str, list[list[SheetCell]]]:
    """The name of the sheet and its cells."""
    with _reading(name):
        colours = _check_parts(data, name)
        from openpyxl import load_workbook

        book = load_workbook(BytesIO(data), read_only=True, keep_links=False)
        sheets = {each.title: each for each in book.worksheets}
        if title is None and len(sheets) == 1:
            title = next(iter(sheets))
        if title is None or title not in sheets:
            named = ", ".join(f"`{each}`" for each in sheets)
            what = "has several sheets" if title is None else f"has no sheet `{title}`"
            raise fail("sheet.title", f"`{name}` {what}", f"Write `--sheet` and one of: {named}")
        sheet = sheets[title]
        sheet.reset_dimensions()  # what a file says of its size need not be so
        theme = _theme_colours(book.loaded_theme)
        rows: list[list[SheetCell]] = []
        cells = 0
        for row in sheet.rows:
            cells += len(row)
            if max(len(row), len(rows)) >= _FARTHEST or cells > _MOST_CELLS:
                raise _too_far(name)
            rows.append([_cell(each, theme, colours) for each in row])
        return title, rows


@contextmanager
def _reading(name: str) -> Iterator[None]:
    """Turns what a reader of workbooks raises into a finding."""
    try:
        with warnings.catch_warnings():
            # Parts that it knows nothing of, such as rules for colours, are only warned of.
            warnings.simplefilter("ignore")
            yield
    except (PatternError, MemoryError):
        raise
    except Exception:  # a damaged workbook raises nearly anything
        raise fail(
            "sheet.broken",
            f"`{name}` is damaged, or no workbook",
            "Open it in a spreadsheet and save it anew, as XLSX",
        ) from None


def _check_parts(data: bytes, name: str) -> bool:
    """Refuses a workbook that unpacks to more than is read; whether it has its own palette."""
    from zipfile import ZipFile

    with ZipFile(BytesIO(data)) as parts:
        infos = parts.infolist()
        sizes = {info.filename: info.file_size for info in infos}
        if (
            len(infos) > _MOST_PARTS
            or sum(info.file_size for info in infos) > _UNPACKED
            or any(sizes.get(part, 0) > most for part, most in _LARGE_PARTS.items())
        ):
            raise fail(
                "sheet.too-large",
                f"`{name}` unpacks to more than a chart can be",
                "Copy the chart alone into a new workbook, without pictures",
            )
        if "xl/workbook.xml" not in sizes:
            raise fail(
                "sheet.unknown",
                f"`{name}` is no spreadsheet that can be read",
                "Give an XLSX or a CSV file; save one of another kind as XLSX",
            )
        written = [part for part in sizes if part.endswith((".xml", ".rels"))]
        if any(_defines_entities(parts, part) for part in written):
            raise fail(
                "sheet.broken",
                f"`{name}` holds XML that defines its own entities, which no spreadsheet writes",
                "Open it in a spreadsheet and save it anew, as XLSX",
            )
        styles = parts.read("xl/styles.xml") if "xl/styles.xml" in sizes else b""
        return b"<indexedColors" in styles


def _defines_entities(parts: "ZipFile", part: str) -> bool:
    data = parts.read(part)
    return b"<!DOCTYPE" in data or b"<!ENTITY" in data or data[:2] in (b"\xff\xfe", b"\xfe\xff")


def _cell(cell: Any, theme: Sequence[str], own_palette: bool) -> SheetCell:
    value, kind = getattr(cell, "value", None), getattr(cell, "data_type", "n")
    fill, odd_fill = _fill_of(getattr(cell, "fill", None), theme, own_palette)
    text, odd = "", ""
    if kind == "f":
        text, odd = str(value)[:20], "holds a formula"
    elif kind == "e":
        text, odd = str(value)[:20], "holds an error"
    elif isinstance(value, bool) or not isinstance(value, (str, int, float, type(None))):
        text, odd = str(value)[:20], "holds a date or a logical value"
    elif isinstance(value, float) and value.is_integer() and abs(value) < 1e9:
        text = str(int(value))
    elif value is not None:
        plain = _text_cell(str(value))
        text, odd = plain.value, plain.odd
    return SheetCell(text, fill, odd, odd_fill)


def _fill_of(fill: Any, theme: Sequence[str], own_palette: bool) -> tuple[str | None, str]:
    """The colour a cell is filled with, and what is odd about it."""
    kind = fill.fill_type if fill is not None else None
    if kind is None:
        return None, ""
    if kind != "solid":
        return None, "is filled with a pattern of two colours"
    colour: Any = fill.fgColor
    source = colour.type
    if source == "rgb" and re.fullmatch(r"[0-9A-Fa-f]{8}", str(colour.rgb)):
        return f"#{str(colour.rgb)[2:].lower()}", ""
    if source == "theme":
        number = int(colour.theme)
        if number < len(theme):
            return _tinted(theme[number], float(colour.tint)), ""
    if source == "indexed" and not own_palette:
        from openpyxl.styles.colors import COLOR_INDEX

        number = int(colour.indexed)
        if number < len(COLOR_INDEX):
            return f"#{COLOR_INDEX[number][2:].lower()}", ""
    return None, "is filled with a colour that only its own program knows"


_THEME = ("lt1", "dk1", "lt2", "dk2", *(f"accent{n}" for n in range(1, 7)), "hlink", "folHlink")
"""Colours of a theme in the order that cells count them (ECMA-376, 18.8.3: light before dark)."""

_DRAWING = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_OFFICE: Mapping[str, str] = {"lt1": "ffffff", "dk1": "000000"}


def _theme_colours(theme: bytes | None) -> tuple[str, ...]:
    """The colours ``#rrggbb`` of a workbook's theme; none where it has none."""
    if not theme:
        return ()
    from xml.etree import ElementTree

    scheme = ElementTree.fromstring(theme).find(f".//{_DRAWING}clrScheme")
    found = []
    for name in _THEME:
        entry = scheme.find(f"{_DRAWING}{name}") if scheme is not None else None
        colour = entry[0] if entry is not None and len(entry) else None
        said = (colour.get("lastClr") or colour.get("val") or "") if colour is not None else ""
        said = said if re.fullmatch(r"[0-9A-Fa-f]{6}", said) else _OFFICE.get(name, "808080")
        found.append(f"#{said.lower()}")
    return tuple(found)


def _tinted(colour: str, tint: float) -> str:
    """A theme's colour made lighter or darker (ECMA-376, 18.8.19: the lightness of HLS)."""
    from colorsys import hls_to_rgb, rgb_to_hls

    red, green, blue = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    hue, light, saturation = rgb_to_hls(red, green, blue)
    light = light * (1 + tint) if tint < 0 else light * (1 - tint) + tint
    channels = hls_to_rgb(hue, min(max(light, 0.0), 1.0), saturation)
    return "#" + "".join(f"{round(channel * 255):02x}" for channel in channels)
