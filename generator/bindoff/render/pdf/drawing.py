"""Painting drawings and photographs, and the colours both may have.

Shapes go straight to PDF operators. Runs of equal rectangles (the cells of a chart) become one
path, which keeps files small and leaves no hairlines between cells.
"""

import io
import math
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from typing import TYPE_CHECKING, Literal
from warnings import catch_warnings, simplefilter

from bindoff.diagnostics import PatternError, fail
from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps
from bindoff.light import channel_of, luminance
from bindoff.records import Record
from bindoff.render.pdf.fonts import clean, covered, face, shape
from bindoff.render.pdf.tagging import Photo, Writer, number
from bindoff.render.pdf.theme import MM

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageFile import ImageFile

_PRINT_PPI = 300  # finer photographs only make the file bigger
_FEW_COLOURS = 256  # a picture of no more is kept exact: JPEG would blur its edges
_LARGE, _STRIP = 16_000_000, 64  # pixels that are made fewer at once; rows of what is left
_MOST_PIXELS = 60_000_000  # a few bytes can hold pixels without end; each takes memory


@lru_cache(maxsize=1024)
def colour_numbers(colour: str) -> tuple[float, ...]:
    """``#rrggbb`` as red, green and blue from 0 to 1; neutral colours as one grey."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return (red,) if red == green == blue else (red, green, blue)


@lru_cache(maxsize=1024)
def grey_numbers(colour: str) -> tuple[float, ...]:
    """The grey of the same luminance as ``colour`` (WCAG 2.2, relative luminance)."""
    return (channel_of(luminance(colour)),)


def least_label(drawing: Drawing) -> float:
    """The size in points of the smallest lettering in ``drawing``; 0 if it has none."""
    return min((s.size * MM for s in drawing.shapes if isinstance(s, Label)), default=0.0)


def paint_drawing(writer: Writer, drawing: Drawing, x: float, top: float, scale: float) -> None:
    """Draw with the top left corner at (x, top), points, ``scale`` times its natural size."""
    unit = MM * scale
    at = _At(x, top, unit)
    if drawing.cells is not None:
        writer.cells(drawing.cells, x, top, unit)
    for item in _merged(drawing.shapes):
        match item:
            case Rect():
                _paint_rects(writer, (item,), at, unit)
            case Lines(segments, stroke, width, dash):
                path = _strokes(segments, at)
                pattern = tuple(part * unit for part in dash or ())
                writer.shape(path, stroke=stroke, width=width * unit, dash=pattern)
            case Path(commands, fill, stroke, width):
                if fill or stroke:
                    writer.shape(_outline(commands, at), fill, stroke, width * unit)
            case Stamps(path, places):
                spots = tuple((x + px * unit, top - py * unit) for px, py in places)
                _stamp(writer, path, spots, unit)
            case Label():
                _paint_label(writer, item, x + item.x * unit, top - item.y * unit, unit)
            case _:
                _paint_rects(writer, item, at, unit)


class _At(Record):
    """Where a drawing lies: its top left corner, and the points of a millimetre."""

    x: float
    top: float
    unit: float

    def __call__(self, px: float, py: float) -> str:
        """A point of the drawing on the page."""
        return f"{number(self.x + px * self.unit)} {number(self.top - py * self.unit)}"


@lru_cache(maxsize=1 << 13)  # a drawing stays what and where it is while its pattern is written
def _outline(commands: tuple[tuple[str | float, ...], ...], at: _At) -> str:
    return " ".join(_operators(commands, at))


@lru_cache(maxsize=1 << 10)
def _strokes(segments: tuple[tuple[float, float, float, float], ...], at: _At) -> str:
    return " ".join(f"{at(a, b)} m {at(c, d)} l" for a, b, c, d in segments)


def _merged(shapes: Iterable[Shape]) -> Iterator[Shape | tuple[Rect, ...]]:
    """Neighbouring rectangles of one look as one tuple; all else as it is."""
    run: list[Rect] = []
    for item in shapes:
        if isinstance(item, Rect):
            if run and _look(run[-1]) != _look(item):
                yield tuple(run)
                run = []
            run.append(item)
            continue
        if run:
            yield tuple(run)
            run = []
        yield item
    if run:
        yield tuple(run)


def _look(rect: Rect) -> tuple[str | None, str | None, float]:
    return rect.fill, rect.stroke, rect.width if rect.stroke else 0.0


def _paint_rects(
    writer: Writer, rects: Iterable[Rect], at: Callable[[float, float], str], unit: float
) -> None:
    run = tuple(rects)
    fill, stroke, width = _look(run[0])
    if not fill and not stroke:
        return
    if not stroke:
        run = tuple(_joined_across(run))
    path = " ".join(
        f"{at(r.x, r.y + r.h)} {number(r.w * unit)} {number(r.h * unit)} re" for r in run
    )
    writer.shape(path, fill, stroke, width * unit)


def _joined_across(rects: Iterable[Rect]) -> Iterator[Rect]:
    """Rectangles that continue one another on the same line as one."""
    last: Rect | None = None
    for rect in rects:
        if (
            last is not None
            and math.isclose(rect.y, last.y, abs_tol=1e-6)
            and math.isclose(rect.h, last.h, abs_tol=1e-6)
            and math.isclose(rect.x, last.x + last.w, abs_tol=1e-6)
        ):
            last = Rect(last.x, last.y, last.w + rect.w, last.h, last.fill)
        else:
            if last is not None:
                yield last
            last = rect
    if last is not None:
        yield last


def _operators(
    commands: Iterable[tuple[str | float, ...]], at: Callable[[float, float], str]
) -> Iterator[str]:
    for kind, *numbers in commands:
        if kind == "Z":
            yield "h"
            continue
        flat = [float(value) for value in numbers]
        points = at(*flat) if len(flat) == 2 else " ".join(map(at, flat[::2], flat[1::2]))
        yield f"{points} {str(kind).lower()}"


def _stamp(writer: Writer, path: Path, spots: tuple[tuple[float, float], ...], unit: float) -> None:
    """``path``, whose coordinates are from a spot to the right and down, at every spot."""

    edge, outline = _stamped(path.commands, unit)
    reach = (edge + path.width) * unit
    writer.stamp(outline, reach, spots, path.fill, path.stroke, path.width * unit)


@lru_cache(maxsize=1 << 10)
def _stamped(commands: tuple[tuple[str | float, ...], ...], unit: float) -> tuple[float, str]:
    """How far a stamp's path goes from its spot, and its outline around (0, 0)."""

    def at(px: float, py: float) -> str:
        return f"{number(px * unit)} {number(-py * unit)}"

    edge = max((abs(float(n)) for _, *numbers in commands for n in numbers), default=0.0)
    return edge, " ".join(_operators(commands, at))


def _paint_label(writer: Writer, label: Label, x: float, y: float, unit: float) -> None:
    size = label.size * unit
    pieces = [
        (text, name, *shape(text, name))
        for text, name in covered(clean(label.text), "sans-bold" if label.bold else "sans")
    ]
    width = sum(width for _, _, width, _ in pieces) * size
    back = {"start": 0.0, "middle": width / 2, "end": width}[label.anchor]
    cos, sin = math.cos(math.radians(label.turn)), math.sin(math.radians(label.turn))
    turn = (cos, sin) if label.turn else None
    along = -back
    for text, name, ems, kerns in pieces:
        place = (x + along * cos, y + along * sin)
        writer.text(face(name).font, size, label.colour, place, text, kerns, turn)
        along += ems * size


def open_photo(data: bytes, width: float, grey: bool) -> Photo:
    """Read a PNG or JPEG to be printed ``width`` points wide, upright, in sRGB, at most 300 ppi.

    A JPEG that needs no change goes into the file as it is. What is clear shows white paper. A
    picture of few colours, as a screenshot or a drawing has, stays exact; all others become JPEGs.
    Raises ``PatternError`` (id ``pdf.photo``) for anything else.
    """
    with _decoding():
        return _photo(_opened(data), data, math.ceil(width / 72 * _PRINT_PPI), grey)


def _photo(image: "ImageFile", data: bytes, limit: int, grey: bool) -> Photo:
    """The photograph at most ``limit`` pixels wide."""
    from PIL import Image

    profile = _other_profile(image)
    untouched = (
        image.format == "JPEG"
        and image.mode in ("RGB", "L")
        and image.getexif().get(0x0112, 1) == 1
        and image.width <= limit * 1.5
        and not profile
        and not (grey and image.mode == "RGB")
    )
    if untouched:
        return Photo(image.width, image.height, 1 if image.mode == "L" else 3, data, "DCTDecode")
    kind = "L" if grey or image.mode in ("1", "L", "LA") else "RGB"
    exact = image.format == "PNG"
    held = _held_upright(image, limit)
    clear = "A" in held.getbands() or "transparency" in held.info
    whole = held.convert("RGBA") if clear else held
    alpha = whole.getchannel("A") if clear else None
    seen = _in_srgb(whole.convert("RGB") if clear else whole, profile)
    if alpha is not None:
        seen = Image.composite(seen, Image.new("RGB", seen.size, "#ffffff"), alpha)
    few = exact and seen.getcolors(_FEW_COLOURS) is not None
    if seen.width > limit:
        height = max(1, round(seen.height * limit / seen.width))
        seen = seen.resize((limit, height), Image.Resampling.LANCZOS)
    flat = seen.convert(kind)
    components: Literal[1, 3] = 1 if kind == "L" else 3
    if few:
        return Photo(flat.width, flat.height, components, flat.tobytes(), "")
    out = io.BytesIO()
    flat.save(out, "JPEG", quality=88, optimize=True)
    return Photo(flat.width, flat.height, components, out.getvalue(), "DCTDecode")


def _held_upright(image: "Image", least: int) -> "Image":
    from PIL import ImageOps

    if image.width * image.height > _LARGE:
        image = _reduced(image, min(image.size) // least)
    ImageOps.exif_transpose(image, in_place=True)
    return image


def _reduced(image: "Image", times: int) -> "Image":
    """``image`` so many times smaller, strip by strip: a large one has no room in memory twice."""
    from PIL import Image

    if times < 2:
        return image
    high = times * _STRIP
    strips = []
    for top in range(0, image.height, high):
        strip = image.crop((0, top, image.width, min(top + high, image.height)))
        if strip.mode in ("1", "P"):
            strip = strip.convert("L" if strip.mode == "1" else "RGBA")
        strips.append(strip.reduce(times))
    small = Image.new(strips[0].mode, (strips[0].width, sum(strip.height for strip in strips)))
    for row, strip in enumerate(strips):
        small.paste(strip, (0, row * _STRIP))
    small.info = {key: value for key, value in image.info.items() if key != "transparency"}
    return small


def _other_profile(image: "Image") -> bytes:
    """The colour profile of ``image`` if it has one that is not sRGB's."""
    profile: bytes = image.info.get("icc_profile") or b""
    if not profile:
        return b""
    from PIL import ImageCms

    try:
        name = ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(profile)))
    except (ImageCms.PyCMSError, OSError):
        return b""  # a profile nobody can read means what a missing one means
    return b"" if "srgb" in name.lower() else profile


def _in_srgb(image: "Image", profile: bytes) -> "Image":
    """``image`` as RGB, its colours those that ``profile`` gives them."""
    if not profile:
        return image.convert("RGB")
    from PIL import ImageCms

    try:
        converted = ImageCms.profileToProfile(
            image if image.mode in ("RGB", "CMYK", "L") else image.convert("RGB"),
            ImageCms.ImageCmsProfile(io.BytesIO(profile)),
            ImageCms.createProfile("sRGB"),
            outputMode="RGB",
        )
    except (ImageCms.PyCMSError, OSError, ValueError):
        return image.convert("RGB")  # the profile is for another kind of picture
    return image.convert("RGB") if converted is None else converted


@lru_cache(maxsize=32)
def photo_size(data: bytes) -> tuple[int, int]:
    """Width and height in pixels of a PNG or JPEG, held upright; raises as ``open_photo``."""
    with _decoding():
        image = _opened(data)
        turned = image.getexif().get(0x0112, 1) >= 5
        return (image.height, image.width) if turned else (image.width, image.height)


def upright(data: bytes, least: int) -> "Image":
    """A PNG or JPEG held upright; a large one smaller, but of ``least`` pixels each way. Raises as
    ``open_photo``."""
    with _decoding():
        return _held_upright(_opened(data), least)


def _opened(data: bytes) -> "ImageFile":
    from PIL import Image

    image = Image.open(io.BytesIO(data), formats=("PNG", "JPEG"))
    if image.width * image.height > _MOST_PIXELS:
        raise Image.DecompressionBombError
    image.load()
    return image


@contextmanager
def _decoding() -> Iterator[None]:
    """Turns what a decoder raises into findings, and keeps its warnings off the terminal."""
    from PIL import Image

    try:
        with catch_warnings():
            # Odd metadata and many pixels are only warned of; the pixels are counted here.
            simplefilter("ignore")
            yield
    except Image.DecompressionBombError:
        raise fail(
            "pdf.photo",
            f"a photograph has more than {_MOST_PIXELS:,} pixels",
            "Save the photograph smaller; 3,000 pixels on its longer side are enough for a page",
        ) from None
    except (PatternError, MemoryError):
        raise
    except Exception as error:  # decoders raise nearly anything for a damaged file
        raise fail(
            "pdf.photo",
            "a photograph is neither a readable PNG nor a readable JPEG file",
            "Save the photograph again as JPEG or PNG",
        ) from error
