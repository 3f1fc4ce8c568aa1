"""The cells of a spreadsheet made into a chart grid: by what is written in them, or their colour.

Each cell is read or named: a chart is never made of half of them.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Literal

from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.records import Record
from bindoff.source.chart import NO_STITCH
from bindoff.source.grid import MARK
from bindoff.source.sheet import Sheet, SheetCell

By = Literal["value", "fill"]

_MOST_FINDINGS = 20
_SAME = 3.0  # CIEDE2000: colours that are hardly told apart
_USUAL = {
    "k": ".", "p": "-", "yo": "o", "k2tog": "/", "ssk": "\\", "cdd": "^", NO_STITCH: "x",
}  # fmt: skip
"""The characters that our charts write for stitches."""

_SPARE = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789+*#=~"


class Known(Record):
    """What a value may say: ``yarns`` by what they are called, ``stitches`` that are known with the
    cells that each covers, and ``signs``, the characters that stand for something already."""

    yarns: Mapping[str, str]
    stitch: Callable[[str], tuple[str, int] | None]
    signs: Mapping[str, str]


class SheetChart(Record):
    """A chart from a spreadsheet: its ``lines`` from the top, what each character stands for, empty
    where that is not known."""

    lines: tuple[str, ...]
    legend: Mapping[str, str]


def way_of(sheet: Sheet, name: str) -> By:
    """By what a sheet is read where nobody says: the values if it has any, else the colours.

    Raises ``PatternError`` where some cells have a value and no colour, and others the reverse.
    """
    cells = list(sheet.cells())
    if all(not cell.value for _, cell in cells):
        return "fill"
    lone = next((n for n, cell in cells if not cell.value and (cell.fill or cell.odd_fill)), None)
    if lone is not None and all(cell.fill for _, cell in cells):
        raise fail(
            "sheet.way",
            f"all cells of `{name}` are coloured, and some have a value besides; {lone} has none",
            "Say which of both counts: `--by fill`, or `--by value`",
        )
    return "value"


def by_value(sheet: Sheet, name: str, known: Known, empty: str | None) -> SheetChart:
    """The chart that the values of the cells write; ``empty`` is what a cell without one says.

    A value is a yarn, a stitch, or one character of the designer's own. One over several cells may
    stand in the first of them alone.

    Raises:
        PatternError: id ``sheet.cell``, for every cell that can't be read (the first 20).
    """
    faults: list[Diagnostic] = []
    rows: list[list[str]] = []
    for y, row in enumerate(sheet.rows):
        meant: list[str] = []
        covered = 0
        for x, cell in enumerate(row):
            if covered and not cell.value:
                meant.append(meant[-1])
                covered -= 1
                continue
            meaning, cells = _meaning(cell, known, empty)
            if not meaning:
                faults.append(_unread(sheet.name(x, y), name, cell))
            meant.append(meaning)
            covered = cells - 1 if cells > 1 and not _covered(row, x, cells) else 0
        rows.append(meant)
    if faults:
        raise PatternError(faults[:_MOST_FINDINGS])
    return _chart(rows, known)


def _covered(row: Sequence[SheetCell], x: int, cells: int) -> bool:
    """Whether the cells of a stitch over several are written out, each with it."""
    return any(cell.value for cell in row[x + 1 : x + cells])


def _meaning(cell: SheetCell, known: Known, empty: str | None) -> tuple[str, int]:
    """What a cell stands for, empty where that can't be read, and how many cells it covers."""
    value = cell.value or (empty or "")
    if cell.odd or not value:
        return "", 1
    if value in known.yarns:
        return known.yarns[value], 1
    stitch = known.stitch(value)
    if stitch is not None:
        return stitch
    return (value, 1) if len(value) == 1 and value.isprintable() and value != MARK else ("", 1)


def _unread(place: str, name: str, cell: SheetCell) -> Diagnostic:
    if cell.odd:
        what = f"{place} of `{name}` {cell.odd}: `{cell.value}`"
        help = "Paste its value alone; or say where the chart stands, as in `--range B2:M19`"
    elif not cell.value:
        what = f"{place} of `{name}` is empty"
        help = (
            "Say what an empty cell stands for, as in `--empty k`; or say where the chart stands, "
            "as in `--range B2:M19`"
        )
    else:
        what = f"{place} of `{name}` holds `{cell.value}`, which is no yarn, stitch or character"
        help = (
            "Write one character, a stitch such as k2tog, or a yarn of the pattern; leave numbers "
            "of rows and stitches out, as in `--range B2:M19`"
        )
    return Diagnostic("sheet.cell", what, help)


def by_fill(
    sheet: Sheet,
    name: str,
    yarn_of: Callable[[str], str],
    differ: Callable[[str, str], float],
    known: Known,
    empty: str | None,
) -> SheetChart:
    """The chart of the yarns nearest to the colours of the cells; ``empty`` is the yarn of a cell
    without one. ``differ`` says how far two colours lie apart.

    Raises:
        PatternError: ids ``sheet.fill``: cells without a colour that can be read, and colours that
            differ but have the same yarn (the first 20).
    """
    faults: list[Diagnostic] = []
    first: dict[str, str] = {}  # where each colour is met first
    rows: list[list[str]] = []
    for y, row in enumerate(sheet.rows):
        rows.append([])
        for x, cell in enumerate(row):
            place = sheet.name(x, y)
            if cell.fill is None and (cell.odd_fill or empty is None):
                faults.append(_uncoloured(place, name, cell))
                rows[-1].append("")
            elif cell.fill is None:
                rows[-1].append(known.yarns.get(empty or "", ""))
            else:
                first.setdefault(cell.fill, place)
                rows[-1].append(yarn_of(cell.fill))
    faults += _merged(first, name, yarn_of, differ)
    if faults:
        raise PatternError(faults[:_MOST_FINDINGS])
    return _chart(rows, known)


def _uncoloured(place: str, name: str, cell: SheetCell) -> Diagnostic:
    help = "Fill it with one colour; or say where the chart stands, as in `--range B2:M19`"
    if not cell.odd_fill:
        help = (
            "Say which yarn a cell without a colour stands for, as in `--empty slate`; or say "
            "where the chart stands, as in `--range B2:M19`"
        )
    return Diagnostic("sheet.fill", f"{place} of `{name}` {cell.odd_fill or 'has no colour'}", help)


def _merged(
    first: Mapping[str, str],
    name: str,
    yarn_of: Callable[[str], str],
    differ: Callable[[str, str], float],
) -> list[Diagnostic]:
    """Colours that would become one yarn."""
    nearest: dict[str, str] = {}
    found = []
    for colour, place in first.items():
        other = nearest.setdefault(yarn_of(colour), colour)
        if differ(other, colour) > _SAME:
            found.append(
                Diagnostic(
                    "sheet.fill",
                    f"{first[other]} of `{name}` is {other} and {place} is {colour}, and both "
                    f"would be {yarn_of(colour)}",
                    "Give a yarn for each colour, as in "
                    f"`--yarns {yarn_of(colour)}={other},other={colour}`; or fill both alike",
                )
            )
    return found


def _chart(rows: Sequence[Sequence[str]], known: Known) -> SheetChart:
    """Characters for what the cells mean, the same for the same."""
    meanings = list(dict.fromkeys(meaning for row in rows for meaning in row))
    signs = characters(meanings, known)
    lines = tuple("".join(signs[meaning] for meaning in row) for row in rows)
    told = {*known.yarns.values()}
    legend = {
        signs[meaning]: meaning if meaning in told or known.stitch(meaning) else ""
        for meaning in meanings
    }
    return SheetChart(lines, legend)


def characters(meanings: Collection[str], known: Known) -> Mapping[str, str]:
    """A character for each meaning: its own, the one the pattern uses, the usual one, or a spare.

    Raises:
        PatternError: id ``sheet.cell``: more meanings than there are characters.
    """
    found: dict[str, str] = {}
    own = {each for each in meanings if len(each) == 1 and not _named(each, known)}
    taken = own | set(known.signs.values())
    for meaning in meanings:
        wishes = [known.signs.get(meaning, "")] if meaning in known.signs else []
        wishes += [meaning] if meaning in own else []
        wishes += [each for each in (_USUAL.get(meaning, ""), *_letters(meaning)) if each]
        free = (each for each in (*wishes, *_SPARE) if _fits(each, meaning, own, known, taken))
        sign = next(free, None)
        if sign is None:
            raise fail(
                "sheet.cell",
                f"the cells hold {len(meanings)} different values, more than there are characters",
                "Part the chart into several",
            )
        found[meaning] = sign
        taken.add(sign)
    return found


def _named(meaning: str, known: Known) -> bool:
    return meaning in known.yarns.values() or known.stitch(meaning) is not None


def _letters(meaning: str) -> list[str]:
    return [each for each in meaning if each.isascii() and each.isalnum()]


def _fits(
    sign: str, meaning: str, own: Collection[str], known: Known, taken: Collection[str]
) -> bool:
    """Whether a character may stand for a meaning: nothing else has it."""
    return sign not in taken or known.signs.get(meaning) == sign or (sign == meaning in own)
