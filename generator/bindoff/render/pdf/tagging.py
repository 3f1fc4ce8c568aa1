"""Tagged PDF (PDF/UA-1, ISO 14289-1), for any kind of document.

What a reader who cannot see needs is a tree of ``Tag`` (ISO 32000-1, 14.7 and 14.8) made in reading
order, and a ``PdfWriter`` that wraps whatever is drawn in marked content owned by a tag, or by
nothing (an artifact). When all pages are drawn, pikepdf makes a file of them with the tree, links,
outline and metadata, and saves it with object streams, which makes it a quarter of the size.

A tag may be drawn on several pages, in several pieces; each piece becomes one marked-content
sequence. Sequences never nest and never cross a page, so the two classic faults cannot occur.
"""

import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from functools import cache, lru_cache
from typing import Any, Literal, NamedTuple, Protocol

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from bindoff.document.drawing import Cells
from bindoff.records import Changing, Record
from bindoff.records import field as default
from bindoff.render.pdf.aboutfile import Metadata, write_metadata
from bindoff.render.pdf.embedding import font_object, shown
from bindoff.render.pdf.fields import field, write_form
from bindoff.render.pdf.streams import stream
from bindoff.render.pdf.typefiles import Font


class _Mark(NamedTuple):
    """A marked-content sequence: its page and its number on that page."""

    page: int
    number: int


class _Spot(NamedTuple):
    """The clickable area of a link: page and rectangle in points."""

    page: int
    box: tuple[float, float, float, float]


class Tag(Changing):
    """A node of the structure tree. ``role`` is a standard structure type such as ``P`` or ``TH``.

    ``alt`` stands in for a picture, ``actual`` for what is shown in fewer words; ``scope`` is what
    a header cell heads; ``col_span`` counts columns; ``numbering`` is the list style (ISO 32000-1,
    table 347); ``target`` makes a ``Link``: an address, or ``#id`` of a place in this file.
    ``language`` is set where it is not the file's, ``box`` by whoever draws a figure, and
    ``photo_width``, in points, by whoever chooses how large a photograph is printed. A ``Form``
    has the name of its field as ``target``, and ``ticks`` if it is a square to tick. Words in
    another language that are part of a link have this as ``within``.
    """

    role: str
    alt: str = ""
    actual: str = ""
    scope: Literal["", "Column", "Row", "Both"] = ""
    col_span: int = 1
    numbering: Literal["", "None", "Disc", "Decimal"] = ""
    target: str = ""
    contents: str = ""
    language: str = ""
    photo_width: float = 0.0
    box: tuple[float, float, float, float] | None = None
    ticks: bool = False
    within: "Tag | None" = None
    kids: list["Tag | _Mark | _Spot"] = default(default_factory=list)

    def add(self, role: str, **more: Any) -> "Tag":
        """A new last child."""
        child = Tag(role, **more)
        self.kids.append(child)
        return child

    def adopt(self, child: "Tag") -> None:
        """Make ``child`` the last child unless it is there already."""
        if child not in self.kids:
            self.kids.append(child)


class Photo(Record):
    """A decoded or ready-compressed image for the file.

    ``filter`` is ``DCTDecode`` when ``data`` is a JPEG stream, empty for raw samples.
    """

    width: int
    height: int
    components: Literal[1, 3]
    data: bytes
    filter: str = ""


_PAINT = {(True, True): "B", (True, False): "f", (False, True): "S"}
"""The operator that fills, strokes."""


_MANY = 50
"""Spots of a stamp that are worth an object of its own; fewer repeat its operators, if there is no
such object yet, which the compression of a page makes small."""

_GROUPS = (4, 3, 2)  # spots that one object may hold, if all such groups of spots are alike,
_ALIKE = 0.03  # ... to so many points


class _Stamp(NamedTuple):
    """What a stamp paints, and how far from its spot."""

    operators: str
    reach: float


class _Sheet(NamedTuple):
    """A page that is drawn: its size in points, its operators, and the subsets it shows."""

    width: float
    height: float
    code: bytes
    fonts: set[tuple[Font, int]]


class _Entry(NamedTuple):
    level: int
    title: str
    page: int
    top: float


Colour = str
"""``#rrggbb``"""


@lru_cache(maxsize=1 << 13)
def number(value: float) -> str:
    """A number as PDF likes it: two decimals at most, no exponent, no minus zero.

    Remembered, because what is drawn stands in few columns and rows.
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


_BROAD = 1.3  # points: the broadest of all lines in drawings is 1.28,
_HAIR = 0.25  # ... and so thin a one still prints


def line_width(width: float, share: float) -> float:
    """The width (points) at which a line is drawn that has ``share`` of its own: what is broader is
    no line but a body, such as yarn, and keeps it, and no line is thinner than prints reliably."""
    return width if width > _BROAD else max(min(width, _HAIR), width * share)


class Writer(Protocol):
    """What a page is drawn on: ``PdfWriter`` here, or ``svgwriter.SvgWriter`` for the screen.

    Coordinates are points from the bottom left of the page; paths are PDF path operators
    (ISO 32000-1, 8.5.2): ``m``, ``l``, ``c``, ``h`` and ``re``. Lines and boxes are shapes on both.
    ``lines`` is the share of its width that each line has; see ``line_width``.
    """

    lines: float = 1.0

    def new_page(self, width: float, height: float) -> None:
        """Finish the page at hand and begin one of ``width`` by ``height`` points."""

    def tag(self, tag: Tag) -> None:
        """What is drawn from here on belongs to ``tag``."""

    def artifact(self, kind: Literal["Layout", "Pagination"] = "Layout", subtype: str = "") -> None:
        """What is drawn from here on is decoration: nothing to read."""

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
        """Show ``text`` in a typeface with its baseline starting ``at``.

        ``kerns`` are thousandths of ``size`` to add after each character; ``turn`` is the cosine
        and sine of a rotation.
        """

    def shape(
        self,
        path: str,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Paint ``path``, given as PDF path operators."""

    def stamp(
        self,
        path: str,
        reach: float,
        spots: Sequence[tuple[float, float]],
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
    ) -> None:
        """Paint ``path``, whose origin is a spot, at every spot; many share it as one object.

        Nothing of it lies further from a spot than ``reach``, across or up.
        """

    def line(
        self, x1: float, y1: float, x2: float, y2: float, colour: Colour, width: float
    ) -> None:
        """A straight stroke."""
        path = f"{number(x1)} {number(y1)} m {number(x2)} {number(y2)} l"
        self.shape(path, stroke=colour, width=width)

    def box(
        self,
        x: float,
        y: float,
        w: float,
        h: float,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
    ) -> None:
        """A rectangle whose bottom left is (x, y)."""
        path = f"{number(x)} {number(y)} {number(w)} {number(h)} re"
        self.shape(path, fill, stroke, width)

    def clipped(self, x: float, y: float, w: float, h: float) -> AbstractContextManager[None]:
        """What is drawn inside the ``with`` shows only in the rectangle."""

    def photo(self, photo: Photo, x: float, y: float, w: float, h: float) -> None:
        """Paint ``photo`` in the rectangle whose bottom left is (x, y)."""

    def link(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """Make ``box`` (left, bottom, right, top) on this page lead to the target of ``tag``."""

    def field(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """Make ``box`` on this page the place to fill in of ``tag``, a ``Form``."""

    def place(self, name: str, top: float) -> None:
        """Let ``#name`` lead here."""

    def outline(self, level: int, title: str, top: float) -> None:
        """Add an outline entry (bookmark) that leads here."""

    def cells(self, cells: Cells, x: float, top: float, unit: float) -> None:
        """The cells of a chart in a drawing whose top left corner is (x, top), ``unit`` points for
        each of its mm. On paper nothing leads from there."""


class PdfWriter(Writer):
    """Draws pages as ``Writer`` says and remembers who owns what was drawn.

    ``shade`` turns a colour into PDF colour numbers: three of them for red, green, blue, or one for
    a grey.
    """

    def __init__(self, shade: Callable[[Colour], tuple[float, ...]]) -> None:
        self._shade = shade
        self._numbers: dict[Colour, str] = {}
        self._pages: list[_Sheet] = []
        self._fonts: dict[tuple[Font, int], set[int]] = {}  # the codes of each subset in use
        self._code: list[str] = []
        self._owners: list[list[Tag]] = []  # per page: the owner of each marked content
        self._open: Tag | str | None = None
        self._entries: list[_Entry] = []
        self._places: dict[str, tuple[int, float]] = {}
        self._photos: list[Photo] = []
        self._photo_pages: list[tuple[int, int]] = []
        self._stamps: dict[_Stamp, int] = {}
        self._stamp_pages: list[tuple[int, int]] = []
        self._page_size: tuple[float, float] = (0.0, 0.0)
        self._forget()

    # ------------------------------------------------------------ pages and ownership

    def new_page(self, width: float, height: float) -> None:
        """Finish the page at hand and begin one of ``width`` by ``height`` points."""
        self._end_page()
        self._page_size = (width, height)
        self._owners.append([])
        self._page_fonts: set[tuple[Font, int]] = set()

    def tag(self, tag: Tag) -> None:
        """What is drawn from here on belongs to ``tag``."""
        if self._open is tag:
            return
        self._close()
        owners = self._owners[-1]
        tag.kids.append(_Mark(len(self._owners) - 1, len(owners)))
        self._code.append(f"/{tag.role} <</MCID {len(owners)}>> BDC")
        owners.append(tag)
        self._open = tag

    def artifact(self, kind: Literal["Layout", "Pagination"] = "Layout", subtype: str = "") -> None:
        """What is drawn from here on is decoration: nothing to read."""
        if self._open == kind + subtype:
            return
        self._close()
        more = f" /Subtype /{subtype}" if subtype else ""
        self._code.append(f"/Artifact <</Type /{kind}{more}>> BDC")
        self._open = kind + subtype

    def _close(self) -> None:
        if self._open is not None:
            self._code.append("EMC")
            self._open = None

    def _end_page(self) -> None:
        if self._owners:
            self._close()
            code = "\n".join(self._code).encode("ascii")
            self._pages.append(_Sheet(*self._page_size, code, self._page_fonts))
            self._code.clear()
            self._forget()

    def _forget(self) -> None:
        self._fill: Colour | None = None
        self._stroke: Colour | None = None
        self._font: tuple[str, float] | None = None

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
        """Show ``text`` in a typeface with its baseline starting ``at``.

        ``kerns`` are thousandths of ``size`` to add after each character; ``turn`` is the cosine
        and sine of a rotation.
        """
        self._use_fill(colour)
        if turn is None:
            place = f"{number(at[0])} {number(at[1])} Td"
        else:
            c, s = turn
            matrix = f"{c:.5f} {s:.5f} {-s:.5f} {c:.5f}"
            place = f"{matrix} {number(at[0])} {number(at[1])} Tm"
        parts = [f"BT {place}"]
        for subset, codes, operator in shown(font, text, kerns):
            self._fonts.setdefault((font, subset), set()).update(codes)
            self._page_fonts.add((font, subset))
            name = _font_name(font, subset)
            if self._font != (name, size):
                parts.append(f"{name} {number(size)} Tf")
                self._font = (name, size)
            parts.append(operator)
        parts.append("ET")
        self._code.append(" ".join(parts))

    def _use_fill(self, colour: Colour) -> None:
        if colour != self._fill:
            self._code.append(f"{self.numbers(colour)} {'rg' if self._rgb(colour) else 'g'}")
            self._fill = colour

    def _use_stroke(self, colour: Colour) -> None:
        if colour != self._stroke:
            self._code.append(f"{self.numbers(colour)} {'RG' if self._rgb(colour) else 'G'}")
            self._stroke = colour

    def numbers(self, colour: Colour) -> str:
        """The colour numbers of ``colour``."""
        if colour not in self._numbers:
            self._numbers[colour] = " ".join(f"{part:.4g}" for part in self._shade(colour))
        return self._numbers[colour]

    def _rgb(self, colour: Colour) -> bool:
        return len(self._shade(colour)) == 3

    def shape(
        self,
        path: str,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Paint ``path``, given as PDF path operators."""
        self._use_look(fill, stroke, line_width(width, self.lines), dash)
        self._code.append(f"{path} {_PAINT[fill is not None, stroke is not None]}")

    def stamp(
        self,
        path: str,
        reach: float,
        spots: Sequence[tuple[float, float]],
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
    ) -> None:
        """Paint ``path``, whose origin is a spot, at every spot; many share it as one object.

        Spots in groups that are alike, one after another, have one object for each group. Nothing
        lies further from a spot than ``reach``, across or up.
        """
        self._use_look(fill, stroke, width, ())
        painted = f"{path} {_PAINT[fill is not None, stroke is not None]}"
        for steps in (_steps_of_groups(tuple(spots)), ()):
            group = " ".join((painted, *(f"{step} {painted}" for step in steps_between(steps))))
            far = max((max(abs(x), abs(y)) for x, y in steps), default=0.0)
            stamp, firsts = _Stamp(group, round(reach + far, 2)), spots[:: len(steps) + 1]
            if len(firsts) >= _MANY or stamp in self._stamps:
                index = self._stamps.setdefault(stamp, len(self._stamps))
                self._stamp_pages.append((len(self._owners) - 1, index))
                painted, spots = f"/Stamp{index} Do", firsts
                break
        self._code += ["q", *(f"{step} {painted}" for step in _steps_between(tuple(spots))), "Q"]

    def _use_look(
        self, fill: Colour | None, stroke: Colour | None, width: float, dash: tuple[float, ...]
    ) -> None:
        if fill is not None:
            self._use_fill(fill)
        if stroke is not None:
            self._use_stroke(stroke)
            pattern = " ".join(number(part) for part in dash)
            self._code.append(f"{number(width)} w [{pattern}] 0 d")

    @contextmanager
    def clipped(self, x: float, y: float, w: float, h: float) -> Iterator[None]:
        """What is drawn inside the ``with`` shows only in the rectangle."""
        self._code.append(f"q {number(x)} {number(y)} {number(w)} {number(h)} re W n")
        yield
        self._code.append("Q")
        self._forget()

    def photo(self, photo: Photo, x: float, y: float, w: float, h: float) -> None:
        """Paint ``photo`` in the rectangle whose bottom left is (x, y)."""
        if photo not in self._photos:
            self._photos.append(photo)
        index = self._photos.index(photo)
        self._photo_pages.append((len(self._owners) - 1, index))
        self._code.append(
            f"q {number(w)} 0 0 {number(h)} {number(x)} {number(y)} cm /Photo{index} Do Q"
        )

    # ------------------------------------------------------------ finding one's way

    def link(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """Make ``box`` (left, bottom, right, top) on this page lead to the target of ``tag``."""
        tag.kids.append(_Spot(len(self._owners) - 1, box))

    def field(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """Make ``box`` on this page the place to fill in of ``tag``, a ``Form``."""
        tag.kids.append(_Spot(len(self._owners) - 1, box))

    def place(self, name: str, top: float) -> None:
        """Let ``#name`` lead here."""
        self._places.setdefault(name, (len(self._owners) - 1, top))

    def cells(self, cells: Cells, x: float, top: float, unit: float) -> None:
        """On paper nothing leads from the cells of a chart."""

    def outline(self, level: int, title: str, top: float) -> None:
        """Add an outline entry (bookmark) that leads here."""
        self._entries.append(_Entry(level, title, len(self._owners) - 1, top))

    # ------------------------------------------------------------ the file

    def finish(self, root: Tag, about: Metadata) -> bytes:
        """The bytes of the file with ``root`` as its document element.

        The writer cannot be used afterwards.
        """
        self._end_page()
        with pikepdf.new() as pdf:
            self._add_pages(pdf)
            photos = [_image(pdf, photo) for photo in self._photos]
            stamps = [_form(pdf, stamp) for stamp in self._stamps]
            _add_objects(pdf, "Photo", photos, self._photo_pages)
            _add_objects(pdf, "Stamp", stamps, self._stamp_pages)
            _Structure(pdf, self._places, len(self._owners)).write(root, self._owners)
            _write_outline(pdf, self._entries)
            write_metadata(pdf, about)
            out = io.BytesIO()
            pdf.save(
                out,
                min_version="1.7",
                fix_metadata_version=False,  # none is said there
                object_stream_mode=pikepdf.ObjectStreamMode.generate,
                compress_streams=True,
                deterministic_id=True,
            )
        return out.getvalue()

    def _add_pages(self, pdf: pikepdf.Pdf) -> None:
        fonts = {
            used: font_object(pdf, *used, codes, number)
            for number, (used, codes) in enumerate(self._fonts.items())
        }
        for sheet in self._pages:
            named = {_font_name(*used): font for used, font in fonts.items() if used in sheet.fonts}
            page = Dictionary(
                Type=Name.Page,
                MediaBox=Array([0, 0, round(sheet.width, 4), round(sheet.height, 4)]),
                Resources=Dictionary(Font=Dictionary(named)),
                Contents=stream(pdf, sheet.code),
            )
            pdf.pages.append(pikepdf.Page(pdf.make_indirect(page)))


def _font_name(font: Font, subset: int) -> str:
    """What a page calls a subset of a font."""
    return f"/{font.name}+{subset}"


_Spots = tuple[tuple[float, float], ...]


@lru_cache(maxsize=1 << 10)  # drawings stay where they are while a pattern is written
def _steps_of_groups(spots: _Spots) -> _Spots:
    """Where the further spots of a group are from its first one, if ``spots`` are groups that are
    alike, one after another; else nothing."""
    for size in _GROUPS:
        firsts = spots[::size]
        if len(spots) % size or len(firsts) < 2:
            continue
        steps = tuple((x - firsts[0][0], y - firsts[0][1]) for x, y in spots[1:size])
        others = zip(*(spots[at::size] for at in range(1, size)), strict=True)
        if all(
            abs(x - a - across) < _ALIKE and abs(y - b - up) < _ALIKE
            for (a, b), further in zip(firsts, others, strict=True)
            for (x, y), (across, up) in zip(further, steps, strict=True)
        ):
            return steps
    return ()


def steps_between(spots: Iterable[tuple[float, float]]) -> Iterator[str]:
    """The operators that move from each spot to the next, the first time from (0, 0).

    Spots in a row are equally far apart, so the operators are alike and pack well.
    """
    left, up = 0, 0  # in hundredths, as numbers are written: no rounding adds up
    for x, y in spots:
        across, high = round(x * 100), round(y * 100)
        yield _step(across - left, high - up)
        left, up = across, high


@lru_cache(maxsize=1 << 12)
def _step(across: int, up: int) -> str:
    """The operator that moves by so many hundredths."""
    return f"1 0 0 1 {number(across / 100)} {number(up / 100)} cm"


@lru_cache(maxsize=1 << 10)
def _steps_between(spots: _Spots) -> tuple[str, ...]:
    return tuple(steps_between(spots))


def _add_objects(
    pdf: pikepdf.Pdf, name: str, objects: Sequence[Any], uses: Iterable[tuple[int, int]]
) -> None:
    """Let every page know the ``objects`` it uses, given as (page, index)."""
    for page, index in dict.fromkeys(uses):
        resources = pdf.pages[page].obj.Resources
        if Name.XObject not in resources:
            resources.XObject = Dictionary()
        resources.XObject[f"/{name}{index}"] = objects[index]


def _form(pdf: pikepdf.Pdf, stamp: _Stamp) -> Any:
    """A form that paints in the colours and width of whoever uses it (ISO 32000-1, 8.10)."""
    reach = stamp.reach
    return stream(
        pdf,
        stamp.operators.encode(),
        Type=Name.XObject,
        Subtype=Name.Form,
        BBox=Array([-reach, -reach, reach, reach]),
        Resources=Dictionary(),
    )


def _image(pdf: pikepdf.Pdf, photo: Photo) -> Any:
    spaces = {1: Name.DeviceGray, 3: Name.DeviceRGB}
    head = {
        "/Type": Name.XObject,
        "/Subtype": Name.Image,
        "/Width": photo.width,
        "/Height": photo.height,
        "/BitsPerComponent": 8,
    }
    image = pikepdf.Stream(pdf, photo.data, Dictionary(head))
    image.ColorSpace = spaces[photo.components]
    if photo.filter:
        image.Filter = Name(f"/{photo.filter}")
    return image


class _Structure:
    """Turns ``Tag`` trees into structure elements, links and the parent tree."""

    def __init__(self, pdf: pikepdf.Pdf, places: dict[str, tuple[int, float]], pages: int) -> None:
        self._pdf = pdf
        self._pages = [page.obj for page in pdf.pages]
        self._places = places
        self._elements: dict[Tag, Any] = {}
        self._annotations: list[list[Any]] = [[] for _ in range(pages)]
        self._link_parents: list[Any] = []
        self._fields: list[Any] = []

    def write(self, root: Tag, owners: list[list[Tag]]) -> None:
        pdf = self._pdf
        tree = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        self._element(root, tree)
        tree.K = Array([self._elements[root]])
        numbers: list[Any] = []
        for index, page in enumerate(self._pages):
            page.StructParents = index
            page.Tabs = Name.S
            if self._annotations[index]:
                page.Annots = Array(self._annotations[index])
            parents = Array([self._elements[tag] for tag in owners[index]])
            numbers += [index, pdf.make_indirect(parents)]
        for index, parent in enumerate(self._link_parents, len(self._pages)):
            numbers += [index, parent]
        tree.ParentTree = pdf.make_indirect(Dictionary(Nums=Array(numbers)))
        tree.ParentTreeNextKey = len(self._pages) + len(self._link_parents)
        if self._fields:
            write_form(pdf, self._fields)
        pdf.Root.StructTreeRoot = tree
        pdf.Root.MarkInfo = Dictionary(Marked=True)

    def _element(self, tag: Tag, parent: Any) -> int | None:
        """Write ``tag`` and what is under it; the first page it is on, None if it is on none."""
        element = self._pdf.make_indirect(Dictionary(_entries(tag, parent)))
        self._elements[tag] = element
        first: int | None = None
        kids: list[Any] = []
        for kid in tag.kids:
            if isinstance(kid, Tag):
                page = self._element(kid, element)
                if page is None and kid.role not in ("TD", "TH"):
                    continue  # nothing of it was drawn
                kids.append(self._elements[kid])
            else:
                page = kid.page
                if first is None:
                    first = page
                kids.append(self._leaf(kid, tag, element, first))
            if first is None:
                first = page
        if kids:
            element.K = kids[0] if len(kids) == 1 else Array(kids)
        if first is not None:
            element.Pg = self._pages[first]
        return first

    def _leaf(self, kid: _Mark | _Spot, tag: Tag, element: Any, first: int) -> Any:
        page = self._pages[kid.page]
        if isinstance(kid, _Spot):
            return Dictionary(Type=Name.OBJR, Obj=self._annotation(kid, tag, element), Pg=page)
        if kid.page == first:
            return kid.number
        return Dictionary(Type=Name.MCR, Pg=page, MCID=kid.number)

    def _annotation(self, spot: _Spot, tag: Tag, element: Any) -> Any:
        parent = len(self._pages) + len(self._link_parents)
        if tag.role == "Form":
            annotation = field(self._pdf, tag.target, tag.contents, spot.box, ticks=tag.ticks)
            annotation.StructParent = parent
            annotation.P = self._pages[spot.page]
            self._fields.append(annotation)
        else:
            annotation = self._link(spot, tag, parent)
        self._link_parents.append(element)
        reference = self._pdf.make_indirect(annotation)
        self._annotations[spot.page].append(reference)
        return reference

    def _link(self, spot: _Spot, tag: Tag, parent: int) -> Any:
        annotation = Dictionary(
            Type=Name.Annot,
            Subtype=Name.Link,
            Rect=Array([round(part, 2) for part in spot.box]),
            Border=Array([0, 0, 0]),
            F=4,  # print
            Contents=String(tag.contents),
            StructParent=parent,
        )
        if tag.target.startswith("#"):
            page, top = self._places[tag.target[1:]]
            annotation.Dest = _destination(self._pages[page], top)
        else:
            annotation.A = Dictionary(Type=Name.Action, S=Name.URI, URI=String(tag.target))
        return annotation


_ELEMENT = Name.StructElem


@cache
def _name(name: str) -> Name:
    """A name of PDF: there are few, and each is said a thousand times."""
    return Name(f"/{name}")


def _entries(tag: Tag, parent: Any) -> dict[str, Any]:
    """What a structure element says before its kids are known, at once: there are a thousand."""
    entries = {"/Type": _ELEMENT, "/S": _name(tag.role), "/P": parent}
    if tag.alt:
        entries["/Alt"] = String(tag.alt)
    if tag.actual:
        entries["/ActualText"] = String(tag.actual)
    if tag.language:
        entries["/Lang"] = String(tag.language)
    attributes = _attributes(tag)
    if attributes:
        entries["/A"] = attributes[0] if len(attributes) == 1 else Array(attributes)
    return entries


def _attributes(tag: Tag) -> list[Any]:
    """Attribute dictionaries, one per owner (ISO 32000-1, 14.8.5)."""
    found = []
    if tag.scope or tag.col_span > 1:
        table: dict[str, Any] = {"/O": _name("Table")}
        if tag.scope:
            table["/Scope"] = _name(tag.scope)
        if tag.col_span > 1:
            table["/ColSpan"] = tag.col_span
        found.append(Dictionary(table))
    if tag.numbering:
        found.append(Dictionary(O=Name.List, ListNumbering=Name(f"/{tag.numbering}")))
    if tag.box is not None:
        box = Array([round(part, 4) for part in tag.box])
        found.append(Dictionary(O=Name.Layout, BBox=box, Placement=Name.Block))
    return found


def _destination(page: Any, top: float) -> Any:
    return Array([page, Name.XYZ, 0, round(top, 2), None])


def _write_outline(pdf: pikepdf.Pdf, entries: Iterable[_Entry]) -> None:
    with pdf.open_outline() as outline:
        branch: list[tuple[int, Any]] = []
        for entry in entries:
            item = pikepdf.OutlineItem(
                entry.title,
                _destination(pdf.pages[entry.page].obj, entry.top),
            )
            while branch and branch[-1][0] >= entry.level:
                branch.pop()
            (branch[-1][1].children if branch else outline.root).append(item)
            branch.append((entry.level, item))
