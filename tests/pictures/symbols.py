"""Every chart symbol with its name and how it is told in words, on one sheet.

``python tests/pictures/symbols.py SHEET.png``: cells of 4 mm, the smallest in print,
twice: sharp, and as a blurred copy in grey. Look for symbols that could be taken for each other.
"""

import sys
from io import BytesIO

from PIL import Image, ImageDraw, ImageFilter

from bindoff.craft.cables import cross_symbol
from bindoff.document.charts.legend import swatch
from bindoff.document.charts.spec import ChartKey
from bindoff.document.charts.symbols import COLOUR_SYMBOLS, SYMBOLS, symbol_of
from bindoff.render.raster import render_png

CELL_MM, RATIO, DOTS = 4.0, 0.75, 12  # dots in a millimetre: 305 to the inch
COLUMNS, ROW, WIDE = 4, 64, 640
BLUR_MM = 0.15  # about what a home printer spreads
CROSSES = (
    "cable 1/1 right",
    "cable 1/1 left",
    "purl cable 1/1 right",
    "purl cable 1/1 left",
    "cable 2/1 right",
    "cable 1/2 right",
    "purl cable 2/1 right",
    "purl cable 2/1 left",
    "cable 2/2 right",
    "cable 2/2 left",
    "cable 2/1/2 right",
    "purl cable 2/1/2 right",
    "purl cable 2/1/2 left",
)


def picture(name: str) -> Image.Image:
    """The symbol on its cells in print size, in grey."""
    symbol = symbol_of(name)
    drawing = swatch(ChartKey("x", name, name, span=symbol.wide), CELL_MM, RATIO)
    return Image.open(BytesIO(render_png(drawing, round(drawing.width * DOTS)))).convert("L")


def blurred(image: Image.Image) -> Image.Image:
    """The same as a poor copy shows it."""
    return image.filter(ImageFilter.GaussianBlur(BLUR_MM * DOTS))


def names() -> list[str]:
    """Marks of yarns, then stitches, then some crosses, then the small marks of grounds."""
    marks = list(COLOUR_SYMBOLS)
    grounds = [name for name in SYMBOLS if name.endswith(", ground")]
    stitches = [name for name in SYMBOLS if name not in {*marks, *grounds}]
    crosses = [name for name in CROSSES if cross_symbol(name) and name not in stitches]
    return marks + stitches + crosses + grounds


def sheet() -> Image.Image:
    """All symbols in columns."""
    found = names()
    rows = -(-len(found) // COLUMNS)
    image = Image.new("L", (COLUMNS * WIDE, rows * ROW + 16), 255)
    draw = ImageDraw.Draw(image)
    for index, name in enumerate(found):
        x, y = index // rows * WIDE + 12, index % rows * ROW + 12
        sharp = picture(name)
        image.paste(sharp, (x, y))
        left = x + sharp.width + 8
        if symbol_of(name).wide < 3:
            image.paste(blurred(sharp), (left, y))
            left += sharp.width + 8
        draw.text((left, y), name, fill=0, font_size=17)
        draw.text((left, y + 20), symbol_of(name).picture, fill=70, font_size=14)
    return image


if __name__ == "__main__":
    sheet().quantize(16).save(sys.argv[1], optimize=True)
