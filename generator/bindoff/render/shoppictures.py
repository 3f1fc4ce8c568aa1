"""Pictures for a shop: covers in the shapes that shops ask for, and a sheet of all pages.

2,000 pixels across is what shops ask for of pictures that are enlarged (common practice, no
source), square and 4:5 the shapes they show.
"""

from io import BytesIO
from typing import TYPE_CHECKING

from bindoff.document.drawing import Drawing
from bindoff.render.fontfiles import SANS, SERIF, font_bytes
from bindoff.render.pdf.drawing import photo_size, upright
from bindoff.render.raster import render_png

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageFont import FreeTypeFont

COVERS = {"cover-square": (2000, 2000), "cover-portrait": (2000, 2500)}
"""Width and height in pixels of each cover picture."""

_INK, _PAPER, _GROUND = "#111111", "#ffffff", "#d9dcdd"
_BAND_SHARE = 0.18  # of the height, for the title below a drawing
_PIECE_SHARE = 0.86  # of the room, for a piece that is shown whole
_COLUMNS, _PAGE_PX, _GAP_PX, _MOST_PAGES = 4, 480, 30, 16


def photo_width(photo: bytes) -> int:
    """How many pixels a photograph is across, held upright."""
    return photo_size(photo)[0]


def cover_picture(
    art: Drawing | bytes | None, title: str, byline: str, size: tuple[int, int]
) -> bytes:
    """A PNG of ``size`` pixels: a photograph fills it, a drawing leaves a band for the title."""
    from PIL import Image, ImageOps

    wide, high = size
    if isinstance(art, bytes):
        seen = upright(art, max(size)).convert("RGB")
        return _png(ImageOps.fit(seen, size, Image.Resampling.LANCZOS))
    band = round(high * _BAND_SHARE)
    picture = Image.new("RGB", size, _PAPER)
    if art is not None:
        room = (wide, high - band)
        drawn = max(wide, round(room[1] * art.width / art.height))
        with Image.open(BytesIO(render_png(art, drawn))) as image:
            picture.paste(_fabric_or_piece(image.convert("RGB"), room))
    _title(picture, title, byline, high - band, band)
    return _png(picture)


def _fabric_or_piece(image: "Image", room: tuple[int, int]) -> "Image":
    """Fabric fills the ``room``; a piece on a ground is shown whole, with air around it."""
    from PIL import Image, ImageChops, ImageOps

    right, low = image.width - 1, image.height - 1
    corners = {image.getpixel(at) for at in ((0, 0), (right, 0), (0, low), (right, low))}
    ground = Image.new("RGB", image.size, image.getpixel((0, 0)))
    seen = ImageChops.difference(image, ground).getbbox()
    if len(corners) > 1 or seen is None:
        return ImageOps.fit(image, room, Image.Resampling.LANCZOS)
    inner = (round(room[0] * _PIECE_SHARE), round(room[1] * _PIECE_SHARE))
    piece = ImageOps.contain(image.crop(seen), inner, Image.Resampling.LANCZOS)
    shown = Image.new("RGB", room, image.getpixel((0, 0)))
    shown.paste(piece, ((room[0] - piece.width) // 2, (room[1] - piece.height) // 2))
    return shown


def contact_sheet(pdf: bytes) -> bytes:
    """The first pages of a PDF side by side, as a PNG."""
    import pypdfium2  # 60 ms that a build need not pay
    from PIL import Image

    with pypdfium2.PdfDocument(pdf) as document:
        pages = []
        for number in range(min(len(document), _MOST_PAGES)):
            page = document[number]
            image = page.render(scale=2 * _PAGE_PX / page.get_width()).to_pil().convert("RGB")
            pages.append(image.reduce(2))
    tall = max(page.height for page in pages)
    columns = min(_COLUMNS, len(pages))
    rows = -(-len(pages) // columns)
    sheet = Image.new(
        "RGB",
        (columns * (_PAGE_PX + _GAP_PX) + _GAP_PX, rows * (tall + _GAP_PX) + _GAP_PX),
        _GROUND,
    )
    for at, page in enumerate(pages):
        x = _GAP_PX + at % columns * (_PAGE_PX + _GAP_PX)
        sheet.paste(page, (x, _GAP_PX + at // columns * (tall + _GAP_PX)))
    return _png(sheet)


def _title(picture: "Image", title: str, byline: str, top: int, band: int) -> None:
    from PIL import ImageDraw

    draw = ImageDraw.Draw(picture)
    room = picture.width * 0.9
    font = _fitting(SERIF, "IBMPlexSerif-SemiBold.ttf", title, band * 0.36, room)
    small = _fitting(SANS, "Lato-Regular.ttf", byline, band * 0.15, room)
    middle = picture.width / 2
    draw.text((middle, top + band * 0.56), title, fill=_INK, font=font, anchor="ms")
    draw.text((middle, top + band * 0.82), byline, fill=_INK, font=small, anchor="ms")


def _fitting(package: str, file: str, text: str, size: float, room: float) -> "FreeTypeFont":
    """The typeface at ``size``, or as much smaller as ``text`` needs to fit."""
    from PIL import ImageFont

    def at(size: float) -> "FreeTypeFont":
        data = BytesIO(font_bytes(package, file))
        # The basic layout is the same on every machine.
        return ImageFont.truetype(data, size, layout_engine=ImageFont.Layout.BASIC)

    font = at(size)
    width = font.getlength(text)
    return font if width <= room else at(size * room / width)


def _png(image: "Image") -> bytes:
    file = BytesIO()
    image.save(file, "PNG", optimize=True)
    return file.getvalue()
