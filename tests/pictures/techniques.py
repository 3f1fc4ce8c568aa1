"""Every drawing of a technique at print size, in colour and in grey, on one sheet.

``python tests/pictures/techniques.py SHEET.png``: 150 dots an inch. Look for strands that seem to
run into each other, and for what can't be told in grey.
"""

import sys
from io import BytesIO

from PIL import Image, ImageDraw

from bindoff.document.drawing import Drawing
from bindoff.document.drawn import USUALLY
from bindoff.document.techniques.pictures import PICTURES, picture
from bindoff.render.raster import render_png

DOTS = 150 / 25.4  # in a millimetre
COLUMNS, WIDE, GAP = 2, round(82.5 * DOTS), 24


def printed(name: str) -> Image.Image:
    """The drawing as large as a page shows it."""
    figure = picture(PICTURES[name].technique or name, USUALLY, [PICTURES[name].needs])
    assert figure is not None
    assert isinstance(figure.picture, Drawing)
    data = render_png(figure.picture, round(figure.picture.width * DOTS))
    return Image.open(BytesIO(data))


def sheet() -> Image.Image:
    """A row for each: its name, in colour, in grey."""
    found = {name: printed(name) for name in PICTURES}
    high = sum(each.height + 2 * GAP for each in found.values())
    image = Image.new("RGB", (COLUMNS * WIDE + GAP, high), "#ffffff")
    draw = ImageDraw.Draw(image)
    y = 0
    for name, each in found.items():
        draw.text((4, y), name, fill="#000000", font_size=16)
        image.paste(each, (4, y + GAP))
        image.paste(each.convert("L"), (WIDE + GAP, y + GAP))
        y += each.height + 2 * GAP
    return image


if __name__ == "__main__":
    sheet().quantize(64).save(sys.argv[1], optimize=True)
