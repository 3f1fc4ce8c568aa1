"""The limit: the same pages drawn by plain ReportLab canvas calls, without structure.

``record`` keeps every string, outline and picture of a build with its place and look; ``replay``
draws them on a canvas as good hand-written code would: a mark that comes again is a form made once
for the whole file, its spots are reached by steps from one to the next inside one saved state
(half the CPU of a saved state for each, and a third of one long path), and a look is set where it
changes. Nothing is set, measured, kerned or tagged again.
"""

import io
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from unittest.mock import patch

from reportlab.lib.utils import ImageReader
from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from bindoff.document.tree import Document
from bindoff.render.pdf import PdfOptions, pages
from bindoff.render.pdf.fonts import font_file
from bindoff.render.pdf.tagging import PdfWriter, Photo
from bindoff.render.pdf.typefiles import Font

Call = Callable[[Canvas], object]


@cache
def _canvas_font(font: Font) -> TTFont:
    return TTFont(font.name, io.BytesIO(font_file(font.file)))


def record(document: Document, options: PdfOptions | None = None) -> list[Call]:
    """The drawing calls of all pages of ``document``."""
    calls: list[Call] = []
    marks: dict[tuple[object, ...], str] = {}

    class Recorder(PdfWriter):
        """Writes as ever, and keeps what it is asked to draw."""

        def new_page(self, width: float, height: float) -> None:
            super().new_page(width, height)
            calls.append(_page(width, height, first=not calls))

        def text(
            self,
            font: Font,
            size: float,
            colour: str,
            at: tuple[float, float],
            text: str,
            kerns: tuple[int, ...] | None = None,
            turn: tuple[float, float] | None = None,
        ) -> None:
            super().text(font, size, colour, at, text, kerns, turn)
            registerFont(_canvas_font(font))
            calls.append(_text(font.name, size, self._shade(colour), at, text, turn))

        def shape(
            self,
            path: str,
            fill: str | None = None,
            stroke: str | None = None,
            width: float = 0.0,
            dash: tuple[float, ...] = (),
        ) -> None:
            super().shape(path, fill, stroke, width, dash)
            inside = self._shade(fill) if fill else None
            calls.append(_shape(path, inside, self._shade(stroke) if stroke else None, width, dash))

        def stamp(
            self,
            path: str,
            reach: float,
            spots: Sequence[tuple[float, float]],
            fill: str | None = None,
            stroke: str | None = None,
            width: float = 0.0,
        ) -> None:
            super().stamp(path, reach, spots, fill, stroke, width)
            inside = self._shade(fill) if fill else None
            look = (path, inside, self._shade(stroke) if stroke else None, width)
            name = marks.setdefault((*look, reach), f"mark{len(marks)}")
            calls.append(_stamp(name, _shape(*look, ()), reach, spots))

        @contextmanager
        def clipped(self, x: float, y: float, w: float, h: float) -> Iterator[None]:
            with super().clipped(x, y, w, h):
                calls.append(_clip(x, y, w, h))
                yield
                calls.append(Canvas.restoreState)

        def photo(self, photo: Photo, x: float, y: float, w: float, h: float) -> None:
            super().photo(photo, x, y, w, h)
            calls.append(_photo(photo, x, y, w, h))

    with patch.object(pages, "PdfWriter", Recorder):
        pages.render(document, options or PdfOptions())
    return calls


def replay(calls: Sequence[Call]) -> bytes:
    """The bytes of an untagged file of the same pages."""
    out = io.BytesIO()
    canvas = Canvas(out, pageCompression=1, invariant=1)
    for call in calls:
        call(canvas)
    canvas.save()
    return out.getvalue()


def _page(width: float, height: float, first: bool) -> Call:
    def call(canvas: Canvas) -> None:
        if not first:
            canvas.showPage()
        canvas.setPageSize((width, height))

    return call


def _fill(canvas: Canvas, shade: tuple[float, ...]) -> None:
    canvas.setFillColorRGB(*shade) if len(shade) == 3 else canvas.setFillGray(*shade)


def _text(
    font: str,
    size: float,
    shade: tuple[float, ...],
    at: tuple[float, float],
    text: str,
    turn: tuple[float, float] | None,
) -> Call:
    def call(canvas: Canvas) -> None:
        canvas.setFont(font, size)
        _fill(canvas, shade)
        if turn is None:
            canvas.drawString(*at, text)
            return
        canvas.saveState()
        cos, sin = turn
        canvas.transform(cos, sin, -sin, cos, *at)
        canvas.drawString(0, 0, text)
        canvas.restoreState()

    return call


def _shape(
    path: str,
    fill: tuple[float, ...] | None,
    stroke: tuple[float, ...] | None,
    width: float,
    dash: tuple[float, ...],
) -> Call:
    """A path as canvas calls: a single rectangle or line, or else an outline."""
    steps = list(_steps(path))

    def call(canvas: Canvas) -> None:
        if fill:
            _fill(canvas, fill)
        if stroke:
            canvas.setStrokeColorRGB(*stroke) if len(stroke) == 3 else canvas.setStrokeGray(*stroke)
            canvas.setLineWidth(width)
            canvas.setDash(*(list(dash), 0) if dash else ())
        match steps:
            case [("re", box)]:
                canvas.rect(*box, stroke=bool(stroke), fill=bool(fill))
            case [("m", start), ("l", end)]:
                canvas.line(*start, *end)
            case _:
                outline = canvas.beginPath()
                draw = {
                    "m": outline.moveTo,
                    "l": outline.lineTo,
                    "c": outline.curveTo,
                    "re": outline.rect,
                    "h": outline.close,
                }
                for name, numbers in steps:
                    draw[name](*numbers)
                canvas.drawPath(outline, stroke=bool(stroke), fill=bool(fill))

    return call


def _stamp(name: str, mark: Call, reach: float, spots: Sequence[tuple[float, float]]) -> Call:
    """A form made once and done at every spot."""

    def call(canvas: Canvas) -> None:
        if not canvas.hasForm(name):
            canvas.beginForm(name, -reach, -reach, reach, reach)
            mark(canvas)
            canvas.endForm()
        canvas.saveState()
        at_x = at_y = 0.0
        for x, y in spots:
            canvas.translate(x - at_x, y - at_y)
            canvas.doForm(name)
            at_x, at_y = x, y
        canvas.restoreState()

    return call


def _steps(path: str) -> Iterator[tuple[str, tuple[float, ...]]]:
    numbers: list[float] = []
    for word in path.split():
        if word.isalpha():
            yield word, tuple(numbers)
            numbers.clear()
        else:
            numbers.append(float(word))


def _clip(x: float, y: float, w: float, h: float) -> Call:
    def call(canvas: Canvas) -> None:
        canvas.saveState()
        outline = canvas.beginPath()
        outline.rect(x, y, w, h)
        canvas.clipPath(outline, stroke=0, fill=0)

    return call


def _photo(photo: Photo, x: float, y: float, w: float, h: float) -> Call:
    from PIL import Image

    mode, size = "L" if photo.components == 1 else "RGB", (photo.width, photo.height)
    stored = Image.open(io.BytesIO(photo.data)) if photo.filter else None
    reader = ImageReader(stored or Image.frombytes(mode, size, photo.data))

    def call(canvas: Canvas) -> None:
        canvas.drawImage(reader, x, y, w, h)

    return call
