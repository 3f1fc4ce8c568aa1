"""What is written of a pattern: a function for each kind of file, and the list of them all.

A new kind of file is one more function, here or in a module of its own, and a line in ``WRITERS``.
"""

import json
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from bindoff.document.chartpages import ChartPage
from bindoff.document.charts.tiles import Tile
from bindoff.document.expansion import expanded
from bindoff.document.spokenrows import signs_in_words
from bindoff.document.tree import Document
from bindoff.editions import Edition, TextOptions
from bindoff.records import Record


class Publication(Record):
    """A pattern ready to be written.

    ``called`` is what its files are called. Each edition has its document as it is printed and as
    it is told in plain text. ``language`` is that of the charts. ``abbreviations``: what each
    stands for, where the texts explain them. ``figures``: plain data.
    """

    called: str
    editions: tuple[tuple[Edition, Document, Document], ...]
    charts: tuple[ChartPage, ...]
    language: str
    figures: Mapping[str, Any]
    abbreviations: Mapping[str, str]
    text: TextOptions


Files = Iterator[tuple[str, bytes]]
"""Names of files, by their path in the pattern's output folder, and what they hold."""


def _figures(of: Publication) -> Files:
    yield "numbers.json", f"{json.dumps(of.figures, ensure_ascii=False, indent=1)}\n".encode()


def _pages(of: Publication) -> Files:
    from bindoff.render.pdf import render_pdf

    for edition, printed, _ in of.editions:
        yield f"{of.called}{edition.suffix}.pdf", render_pdf(printed, edition.pdf)


def _texts(of: Publication) -> Files:
    from bindoff.render.text import render_text

    for edition, _, told in of.editions:
        if edition.text:
            explained = expanded(told, of.abbreviations) if of.text.explained else told
            said = render_text(explained, of.text.width, signs_in_words)
            yield f"{of.called}{edition.words}.txt", said.encode()


def _charts(of: Publication) -> Files:
    from bindoff.render.svg import id_of, render_svg

    for page in of.charts:
        for tile in page.tiles:
            name, title, seen = _chart_file(page, tile)
            svg = render_svg(tile.drawing, title, seen, id_of(f"{of.called}-{name}"), of.language)
            yield f"charts/{name}.svg", svg.encode()


def _chart_file(page: ChartPage, tile: Tile) -> tuple[str, str, str]:
    """The file name of a chart or of a piece of one, its title, and what it shows."""
    title, whole = page.spec.title, f"{page.alt} {tile.chart}"
    if tile.count == 1:
        return page.id, title, whole
    number = str(tile.number).zfill(len(str(tile.count)))  # names in their order
    return f"{page.id}-{number}", f"{title}, {tile.label}", f"The whole chart: {whole}"


WRITERS: tuple[Callable[[Publication], Files], ...] = (_figures, _pages, _texts, _charts)
"""Every kind of file that is written."""
