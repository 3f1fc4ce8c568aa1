"""The key of a chart: a swatch and a meaning for every symbol it uses."""

from bindoff import regex as re
from bindoff.document.charts.cellwork import fill_of, ink_of, symbol_stamps
from bindoff.document.charts.spec import ChartKey, ChartSpec
from bindoff.document.charts.symbols import symbol_of
from bindoff.document.drawing import Drawing, Rect
from bindoff.document.tree import Definition, DefinitionList, Text

_EDGE = 0.25  # mm


def swatch(key: ChartKey, cell_mm: float = 5.0, ratio: float = 1.0, colour: bool = True) -> Drawing:
    """The symbol on its cell as the chart draws it, the longer side of a cell ``cell_mm``;
    ``ratio`` is height to width. A symbol of several cells has them all."""
    w, h = (cell_mm, cell_mm * ratio) if ratio <= 1 else (cell_mm / ratio, cell_mm)
    across = key.span * w
    place = (_EDGE / 2, _EDGE / 2)
    cell = Rect(
        _EDGE / 2,
        _EDGE / 2,
        across,
        h,
        fill=fill_of(key, colour) or "#ffffff",
        stroke="#000000",
        width=_EDGE,
    )
    stamps = symbol_stamps(symbol_of(key.symbol), ink_of(key, colour), (place,), w, h)
    return Drawing(round(across + _EDGE, 2), round(h + _EDGE, 2), (cell, *stamps))


def legend(spec: ChartSpec, cell_mm: float = 5.0, colour: bool = True) -> DefinitionList:
    """The keys the chart uses, in the order of ``spec.keys``: what each stands for, how it looks in
    words, and a swatch."""
    ratio = spec.cell_height_mm / spec.cell_width_mm
    return DefinitionList(
        tuple(
            Definition(
                term=(Text(key.label),),
                meaning=(Text(_meaning(key, spec)),),
                mark=swatch(key, cell_mm, ratio, colour),
                print_only=True,
            )
            for key in spec.used_keys
        ),
        columns=3,
    )


def _meaning(key: ChartKey, spec: ChartSpec) -> str:
    """How the cell looks, and the words of the written rows where the label has not got them.

    What is done on the wrong side is said only of what the chart works there.
    """
    said, wrong_side = key.said(), key.said(wrong_side=True)
    notes = [symbol_of(key.symbol).picture]
    sides = {spec.right_side(n) for n, row in enumerate(spec.rows, start=1) if key.key in row}
    if wrong_side != said and False in sides:
        right = f"{said} on the right side, " if True in sides else ""
        notes.append(f"{right}{wrong_side} on the wrong side")
    elif not set(_words(said)) <= set(_words(key.label)):
        notes.append(f"“{said}” in the written {spec.row_name}s")
    if key.note:
        notes.append(key.note)
    return "; ".join(notes)


def _words(text: str) -> list[str]:
    return re.findall(r"\w+", text.casefold())
