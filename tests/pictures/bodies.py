"""Every body measure of the built-in tables as a curve, one figure a measure, on one sheet.

``python tests/pictures/bodies.py SHEET.png``: children by age, then women and men by size. Look for
steps, falls and crossings that no body has.
"""

import re
import sys

from PIL import Image, ImageDraw

from bindoff.craft.bodies import BODIES, Body, Dimension

WIDTH, HEIGHT, MARGIN = 560, 300, 44
GROUPS = {"child": "#1b5e9e", "woman": "#a3402f", "man": "#2f6b3a"}


def group(person: Body) -> str:
    """The curve that a body belongs to."""
    first = person.name.split()[0]
    return first if first in GROUPS else "child"


def place(person: Body) -> float:
    """Where a body stands along the axis: children by age in years, adults by size after them."""
    if group(person) == "child":
        number = re.search(r"\d+", person.who)
        age = float(number[0]) if number else 0.0
        return age / 12 if "month" in person.who else age
    letters = ["XS", "S", "M", "L", "1X", "XL", "2X", "3X", "4X", "5X"]
    steps = [0, 1, 2, 3, 4, 4, 5, 6, 7, 8]
    return 17 + 1.4 * steps[letters.index(person.name.split()[1])]


def figure(draw: ImageDraw.ImageDraw, left: int, top: int, dimension: Dimension) -> None:
    """One measure: axes, its range in cm, and a curve for each group."""
    found = [(each, each.figure(dimension)) for each in BODIES]
    points = [(group(p), place(p), f.mm, p.name) for p, f in found if f is not None]
    low, high = min(mm for *_, mm, _ in points), max(mm for *_, mm, _ in points)

    def at(x: float, mm: float) -> tuple[float, float]:
        right = left + MARGIN + x / 29.0 * (WIDTH - MARGIN - 12)
        return right, top + HEIGHT - 28 - (mm - low) / (high - low) * (HEIGHT - 64)

    draw.rectangle((left, top, left + WIDTH, top + HEIGHT), outline="#cccccc")
    draw.text((left + MARGIN, top + 6), f"{dimension.value}, cm", fill="black", font_size=16)
    for mm in (low, (low + high) / 2, high):
        y = at(0, mm)[1]
        draw.line((left + MARGIN, y, left + WIDTH - 12, y), fill="#e4e4e4")
        draw.text((left + 6, y - 7), f"{mm / 10:.0f}", fill="black", font_size=12)
    for years in range(0, 17, 2):
        x = at(years, low)[0]
        draw.text((x - 4, top + HEIGHT - 20), str(years), fill="black", font_size=11)
    for size, letter in enumerate(("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X")):
        x = at(17 + 1.4 * size, low)[0]
        draw.text((x - 6, top + HEIGHT - 20), letter, fill="black", font_size=11)
    for name, colour in GROUPS.items():
        curve = sorted(at(x, mm) for who, x, mm, _ in points if who == name)
        if len(curve) > 1:
            draw.line(curve, fill=colour, width=2)
        for x, y in curve:
            draw.ellipse((x - 3, y - 3, x + 3, y + 3), fill=colour)


def main(sheet: str) -> None:
    """Draws the sheet: three figures side by side."""
    across = 3
    down = -(-len(Dimension) // across)
    picture = Image.new("RGB", (across * (WIDTH + 8), down * (HEIGHT + 8)), "white")
    draw = ImageDraw.Draw(picture)
    for index, dimension in enumerate(Dimension):
        figure(draw, index % across * (WIDTH + 8), index // across * (HEIGHT + 8), dimension)
    picture.save(sheet)


if __name__ == "__main__":
    main(sys.argv[1])
