"""Draws the pages of a layout as SVG, one picture a page, for a screen.

It gets the same calls as the writer of the PDF, so both show the same lines in the same places.
Text stays text, set in the typefaces of the PDF, which whoever shows the pages must offer under
the names that ``fonts.web_face`` gives, with ligatures off as in the PDF. Units are points.
"""

import io
from base64 import b64encode
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from hashlib import blake2b
from html import escape
from typing import Literal

from bindoff import regex as re
from bindoff.document.drawing import Cells
from bindoff.records import Record
from bindoff.render.pdf.fonts import web_face
from bindoff.render.pdf.tagging import Colour, Photo, Tag, Writer, line_width, number
from bindoff.render.pdf.typefiles import Font

_NBSP = "\N{NO-BREAK SPACE}"
_WORD = re.compile(rf"[^ {_NBSP}]*[ {_NBSP}]*")
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", "\n": " "})

_OPERATORS = frozenset({"m", "l", "c", "h", "re"})

_MANY = 12  # spots of a stamp that are worth a name

PLACE = "at-"
"""Before the name of a place that links lead to, so that no id of a page is one of its reader's."""


class ChartPlace(Record):
    """The cells of a chart on a page, counted from 0: the left edge and the top in points from the
    page's top left corner, and the width and height of a cell."""

    page: int
    left: float
    top: float
    w: float
    h: float
    cells: Cells


class SvgWriter(Writer):
    """Draws pages; ``pages`` gives them when all are drawn.

    ``shade`` turns a colour into numbers as for the PDF: three from 0 to 1, or one for a grey.
    ``address`` gives the address under which a photograph is found; without it the picture holds
    the photograph itself.
    """

    def __init__(
        self,
        shade: Callable[[Colour], tuple[float, ...]],
        address: Callable[[Photo], str] | None = None,
    ) -> None:
        self._shade = lru_cache(maxsize=256)(lambda colour: _colour(shade(colour)))
        self._address = address or _inside
        self._done: list[str] = []
        self._charts: list[ChartPlace] = []
        self._code: list[str] = []
        self._stamped: set[str] = set()
        self._size: tuple[float, float] | None = None

    def pages(self) -> tuple[str, ...]:
        """Every page as an SVG element, without an XML declaration.

        The first line begins it and the last ends it; each between is one whole element, so that
        pages may be compared line for line.
        """
        self._end_page()
        return tuple(self._done)

    def charts(self) -> tuple[ChartPlace, ...]:
        """Where the cells of charts are, in the order of drawing."""
        return tuple(self._charts)

    def new_page(self, width: float, height: float) -> None:
        """Finish the page at hand and begin one of ``width`` by ``height`` points."""
        self._end_page()
        self._size = (width, height)

    def _end_page(self) -> None:
        if self._size is None:
            return
        width, height = map(number, self._size)
        self._done.append(
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
            'stroke-miterlimit="10" fill="none" text-rendering="geometricPrecision" '
            'xml:space="preserve">\n'
            f'<path d="M0 0H{width}V{height}H0z" fill="#ffffff"/>\n{_lines(self._code)}</svg>'
        )
        self._code.clear()
        self._stamped.clear()
        self._size = None

    def tag(self, tag: Tag) -> None:
        """Nothing: the picture of a page is for the eye; the text edition is there to be heard."""

    def artifact(self, kind: Literal["Layout", "Pagination"] = "Layout", subtype: str = "") -> None:
        """Nothing, for the same reason."""

    def outline(self, level: int, title: str, top: float) -> None:
        """Nothing: a picture has no outline."""

    # ------------------------------------------------------------ drawing

    def text(
        self,
        font: Font,
        size: float,
        colour: Colour,
        at: tuple[float, float],
        text: str,
        kerns: tuple[int, ...] | None = None,
        turn: tuple[float, float] | None = None,
    ) -> None:
        """Show ``text``, every word at its place.

        Inside a word the browser kerns by the same table of the font; beside a space it would too,
        which the layout does not.
        """
        x, y = number(at[0]), number(self._down(at[1]))
        place, start = f'x="{x}" y="{y}"', at[0]
        if turn is not None:
            c, s = turn
            place = f'transform="matrix({c:.5f} {-s:.5f} {s:.5f} {c:.5f} {x} {y})"'
            start = 0.0
        self._code.append(
            f'<text {place} font-size="{number(size)}" fill="{self._shade(colour)}" '
            f"{_look(font.name)}>{_words(font, size, start, text, kerns)}</text>"
        )

    def shape(
        self,
        path: str,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Paint ``path``, given as PDF path operators."""
        wide = line_width(width, self.lines)
        self._paint(_turned_over(path, self._down(0.0)), fill, stroke, wide, dash)

    def stamp(
        self,
        path: str,
        reach: float,
        spots: Sequence[tuple[float, float]],
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
    ) -> None:
        """Paint ``path``, whose origin is a spot, at every spot.

        Where they are many, it is on the page only once, as a marker of the spots, by a name that
        says what it is: pages that a reader sees beside each other may share it. A browser paints
        thousands of markers sooner than it makes as many elements.
        """
        if len(spots) >= _MANY:
            outline = "".join(f"M{number(x)} {number(y)}{tail}" for x, y, tail in _relative(path))
            drawn = f'd="{outline}"{self._look_of(fill, stroke, width, ())}'
            name = f"stamp-{blake2b(drawn.encode(), digest_size=8).hexdigest()}"
            if name not in self._stamped:
                self._stamped.add(name)
                self._code.append(
                    f'<defs><marker id="{name}" markerUnits="userSpaceOnUse" overflow="visible">'
                    f"<path {drawn}/></marker></defs>"
                )
            self._code.append(_marked(name, tuple(spots), self._down(0.0)))
            return
        outline = _stamped(path, tuple(spots), self._down(0.0))
        self._paint(outline, fill, stroke, width, ())

    def _paint(
        self,
        data: str,
        fill: Colour | None,
        stroke: Colour | None,
        width: float,
        dash: tuple[float, ...],
    ) -> None:
        self._code.append(f'<path d="{data}"{self._look_of(fill, stroke, width, dash)}/>')

    def _look_of(
        self,
        fill: Colour | None,
        stroke: Colour | None,
        width: float,
        dash: tuple[float, ...],
    ) -> str:
        look = f' fill="{self._shade(fill)}"' if fill is not None else ""
        if stroke is not None:
            look += f' stroke="{self._shade(stroke)}" stroke-width="{number(width)}"'
            if dash:
                look += f' stroke-dasharray="{" ".join(map(number, dash))}"'
        return look

    @contextmanager
    def clipped(self, x: float, y: float, w: float, h: float) -> Iterator[None]:
        """A picture within the picture, which shows nothing outside its frame."""
        left, top, wide, tall = map(number, (x, self._down(y + h), w, h))
        around, self._code = self._code, []
        yield
        around.append(
            f'<svg x="{left}" y="{top}" width="{wide}" height="{tall}" '
            f'viewBox="{left} {top} {wide} {tall}" preserveAspectRatio="none">'
            f"{''.join(self._code)}</svg>"
        )
        self._code = around

    def photo(self, photo: Photo, x: float, y: float, w: float, h: float) -> None:
        """Paint ``photo`` in the rectangle whose bottom left is (x, y)."""
        self._code.append(
            f'<image x="{number(x)}" y="{number(self._down(y + h))}" width="{number(w)}" '
            f'height="{number(h)}" preserveAspectRatio="none" '
            f'href="{escape(self._address(photo))}"/>'
        )

    # ------------------------------------------------------------ finding one's way

    def link(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """A rectangle to click; the links for the keyboard are those of the text edition."""
        left, bottom, right, top = box
        inside = tag.target.startswith("#")
        target = f"#{PLACE}{tag.target[1:]}" if inside else tag.target
        more = "" if inside else ' target="_blank" rel="noopener noreferrer"'
        self._code.append(
            f'<a href="{escape(target)}" tabindex="-1"{more}>'
            f'<rect x="{number(left)}" y="{number(self._down(top))}" '
            f'width="{number(right - left)}" height="{number(top - bottom)}" '
            'pointer-events="all"/></a>'
        )

    def field(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """A frame: nothing can be filled in on a picture."""
        left, bottom, right, top = box
        self.box(left, bottom, right - left, top - bottom, stroke="#595959", width=0.6)

    def place(self, name: str, top: float) -> None:
        """Let ``#name`` lead here."""
        id = escape(PLACE + name)
        self._code.append(f'<path id="{id}" d="M0 {number(self._down(top))}h0"/>')

    def cells(self, cells: Cells, x: float, top: float, unit: float) -> None:
        """Remember where the cells of a chart are."""
        left, down = x + cells.left * unit, self._down(top) + cells.top * unit
        place = ChartPlace(len(self._done), left, down, cells.w * unit, cells.h * unit, cells)
        self._charts.append(place)

    def _down(self, up: float) -> float:
        """A height above the bottom of the page as the distance from its top."""
        assert self._size is not None
        return self._size[1] - up


def photo_file(photo: Photo) -> tuple[str, bytes]:
    """The media type and the bytes of a file that holds ``photo``."""
    if photo.filter:
        return "image/jpeg", photo.data
    from PIL import Image

    mode = "L" if photo.components == 1 else "RGB"
    out = io.BytesIO()
    Image.frombytes(mode, (photo.width, photo.height), photo.data).save(out, "PNG")
    return "image/png", out.getvalue()


def _lines(elements: list[str]) -> str:
    return "".join(f"{each}\n" for each in elements)


def _inside(photo: Photo) -> str:
    kind, data = photo_file(photo)
    return f"data:{kind};base64,{b64encode(data).decode()}"


def _colour(numbers: tuple[float, ...]) -> str:
    parts = numbers * 3 if len(numbers) == 1 else numbers
    return "#" + "".join(f"{round(part * 255):02x}" for part in parts)


def _words(font: Font, size: float, x: float, text: str, kerns: tuple[int, ...] | None) -> str:
    """``text``, which begins at ``x``, with the place of every word after the first."""
    first, *rest = _parted(font, text, kerns)
    if not rest:
        return first[1]
    scale = size / 1000
    placed = [f'<tspan x="{number(x + ems * scale)}">{word}</tspan>' for ems, word in rest]
    return first[1] + "".join(placed)


@lru_cache(maxsize=1 << 13)
def _parted(font: Font, text: str, kerns: tuple[int, ...] | None) -> tuple[tuple[float, str], ...]:
    """The words of ``text``, each with the thousandths of an em before it."""
    found: list[tuple[float, str]] = []
    done, before = 0, 0.0
    for word in filter(None, _WORD.findall(text)):
        found.append((before, word.translate(_ESCAPES)))
        stop = done + len(word)
        before += sum(map(font.width, map(ord, word.replace(_NBSP, " "))))
        before += sum(kerns[done:stop]) if kerns else 0
        done = stop
    return tuple(found) or ((0.0, ""),)


@lru_cache(maxsize=256)  # charts stay what and where they are while a pattern is written
def _stamped(path: str, spots: tuple[tuple[float, float], ...], height: float) -> str:
    """``path`` at every spot of a page of that height."""
    begun = _relative(path)
    return "".join(
        f"M{number(x + right)} {number(height - y + down)}{tail}"
        for x, y in spots
        for right, down, tail in begun
    )


@lru_cache(maxsize=128)
def _marked(name: str, spots: tuple[tuple[float, float], ...], height: float) -> str:
    """A path that shows nothing but the marker of that name at every spot of a page."""
    points = " ".join(f"{number(x)} {number(height - y)}" for x, y in spots)
    marks = " ".join(f'marker-{where}="url(#{name})"' for where in ("start", "mid", "end"))
    return f'<path d="M{points}" {marks}/>'


@lru_cache(maxsize=64)
def _look(font_name: str) -> str:
    """The attributes that choose a typeface."""
    face = web_face(font_name)
    look = f'font-family="{face.family}"'
    if face.weight != 400:
        look += f' font-weight="{face.weight}"'
    return look + ' font-style="italic"' * face.italic


def _steps(path: str) -> Iterator[tuple[str, list[float]]]:
    """PDF path operators, each with the numbers that stand before it."""
    numbers: list[float] = []
    for token in path.split():
        if token in _OPERATORS:
            yield token, numbers
            numbers = []
        else:
            numbers.append(float(token))


@lru_cache(maxsize=1 << 12)
def _turned_over(path: str, down: float) -> str:
    """``path`` as SVG path data, its heights counted downwards from ``down``.

    Remembered, because a page that is drawn again has nearly the same shapes.
    """
    parts: list[str] = []
    for operator, numbers in _steps(path):
        if operator == "h":
            parts.append("z")
        elif operator == "re":
            x, y, w, h = numbers
            wide, tall, back = number(w), number(-h), number(-w)
            parts.append(f"M{number(x)} {number(down - y)}h{wide}v{tall}h{back}z")
        else:
            points = [
                number(down - each if place % 2 else each) for place, each in enumerate(numbers)
            ]
            parts.append(f"{operator.upper()}{' '.join(points)}")
    return "".join(parts)


@lru_cache(maxsize=1 << 10)
def _relative(path: str) -> tuple[tuple[float, float, str], ...]:
    """The outlines of ``path``: where each begins, to the right and down, and its further steps.

    Steps are taken between rounded points, so that none drifts.
    """
    found: list[tuple[float, float, list[str]]] = []
    x = y = 0.0
    for operator, numbers in _steps(path):
        if operator == "h":
            found[-1][2].append("z")
            x, y = found[-1][0], found[-1][1]
            continue
        points = [round(-each if place % 2 else each, 2) for place, each in enumerate(numbers)]
        if operator == "re":
            wide, tall, back = number(points[2]), number(points[3]), number(-points[2])
            found.append((points[0], points[1], [f"h{wide}v{tall}h{back}z"]))
            x, y = points[:2]
        elif operator == "m":
            x, y = points
            found.append((x, y, []))
        else:
            steps = [number(each - (y if place % 2 else x)) for place, each in enumerate(points)]
            found[-1][2].append(f"{operator}{' '.join(steps)}")
            x, y = points[-2:]
    return tuple((right, down, "".join(tail)) for right, down, tail in found)
