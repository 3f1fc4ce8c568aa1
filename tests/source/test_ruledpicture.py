"""A chart that was saved as a picture is read by its lines, or refused with what to say.

The pictures are drawn here by Pillow's own drawing commands, not by the program.
"""

import random
from io import BytesIO

import pytest
from PIL import Image, ImageDraw

from bindoff.diagnostics import PatternError
from bindoff.source.imagegrid import Rounds, Wish, grid_from_image
from bindoff.source.ruledpicture import ruling

YARNS = {"wool": "#ffffff", "tar": "#2c3540", "madder": "#a3402f"}
RESAMPLED = Image.Resampling.LANCZOS


def chart(
    columns: int = 24,
    rows: int = 18,
    cell: tuple[int, int] = (16, 12),
    line: int = 1,
    colour: str = "#999999",
    heavy: int = 0,
    margin: int = 0,
    seed: int = 1,
) -> tuple[Image.Image, Rounds]:
    """A picture of a chart, every fifth line ``heavy`` pixels thicker, and what it shows."""
    dice = random.Random(seed)
    wide, high = cell
    cells = [[dice.choice(list(YARNS)) for _ in range(columns)] for _ in range(rows)]
    size = (columns * wide + line + 2 * margin, rows * high + line + 2 * margin)
    image = Image.new("RGB", size, "#ffffff")
    pen = ImageDraw.Draw(image)
    left, top = margin, margin
    for y, row in enumerate(cells):
        for x, yarn in enumerate(row):
            corner = (left + x * wide, top + y * high)
            pen.rectangle((*corner, corner[0] + wide, corner[1] + high), fill=YARNS[yarn])
    for x in range(columns + 1):
        thick = line + (heavy if x % 5 == 0 else 0)
        place = left + x * wide
        pen.rectangle((place, top, place + thick - 1, top + rows * high), fill=colour)
    for y in range(rows + 1):
        thick = line + (heavy if y % 5 == 0 else 0)
        place = top + y * high
        pen.rectangle((left, place, left + columns * wide, place + thick - 1), fill=colour)
    return image, tuple(map(tuple, reversed(cells)))


def read(image: Image.Image, /, kind: str = "PNG", **wish: object) -> Rounds:
    data = BytesIO()
    image.save(data, kind, **({"quality": 70} if kind == "JPEG" else {}))
    wished = Wish(**{"stitches": None, "aspect": 1.0, "yarns": YARNS, **wish})  # type: ignore[arg-type]
    return grid_from_image(data.getvalue(), "shot.png", wished)


def refused(image: Image.Image, **wish: object) -> tuple[str, str]:
    with pytest.raises(PatternError) as caught:
        read(image, "PNG", **wish)
    (finding,) = caught.value.findings
    assert finding.id == "image.lines"
    return finding.message, finding.help


@pytest.mark.parametrize(
    "look",
    [
        {},
        {"colour": "#000000"},
        {"colour": "#dddddd", "cell": (40, 30), "columns": 10, "rows": 8},
        {"cell": (20, 20), "line": 2, "heavy": 2},
        {"cell": (20, 16), "heavy": 1, "margin": 40},
        {"cell": (8, 6), "columns": 60, "rows": 80},
    ],
    ids=["grey", "black", "light", "thick", "with a margin", "small"],
)
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_lines_say_how_many_cells_there_are_and_each_has_its_colour(
    look: dict[str, object], seed: int
) -> None:
    image, rounds = chart(seed=seed, **look)  # type: ignore[arg-type]

    assert read(image) == rounds
    assert read(image, "JPEG") == rounds


@pytest.mark.parametrize("scale", [0.8, 0.9, 1.37])
def test_a_picture_made_smaller_or_larger_is_read_alike(scale: float) -> None:
    image, rounds = chart()
    size = (round(image.width * scale), round(image.height * scale))

    assert read(image.resize(size, RESAMPLED)) == rounds


def test_numbers_beside_the_chart_are_left_aside() -> None:
    image, rounds = chart(margin=30)
    pen = ImageDraw.Draw(image)
    for y in range(18):
        pen.text((image.width - 25, 30 + y * 12), str(18 - y), fill="#000000")
    for x in range(24):
        pen.text((32 + x * 16, image.height - 24), str(24 - x), fill="#000000")

    assert read(image) == rounds


def test_a_picture_that_was_cut_beside_its_outer_lines_keeps_all_cells() -> None:
    image, rounds = chart(colour="#000000")

    assert read(image.crop((2, 2, image.width - 2, image.height - 2))) == rounds


def test_a_picture_that_was_cut_through_its_cells_is_refused() -> None:
    image, _ = chart()
    message, help = refused(image.crop((8, 0, image.width, image.height)))

    assert message == "`shot.png` has lines like a chart, but its edge cuts through cells"
    assert "Cut the picture exactly along the outer lines of the chart" in help


def test_counts_that_disagree_with_the_lines_are_refused() -> None:
    image, rounds = chart()

    assert read(image, stitches=24, rounds=18) == rounds
    assert refused(image, stitches=30)[0] == (
        "the lines of `shot.png` part it into 24 stitches by 18 rounds, and `--stitches` says 30"
    )
    message, help = refused(image, rounds=20)
    assert "`--rounds` says 20" in message
    assert "say `--lines none`" in help


def test_a_chart_of_symbols_is_refused_and_the_first_cell_named() -> None:
    image = Image.new("RGB", (12 * 20 + 1, 8 * 20 + 1), "#ffffff")
    pen = ImageDraw.Draw(image)
    for x in range(13):
        pen.line((x * 20, 0, x * 20, 160), fill="#999999")
    for y in range(9):
        pen.line((0, y * 20, 240, y * 20), fill="#999999")
    for x, y in [(11, 7), (3, 2), (4, 2), (5, 2), (6, 3), (7, 4)]:
        pen.line((x * 20 + 6, y * 20 + 14, x * 20 + 14, y * 20 + 6), fill="#000000", width=3)
    message, help = refused(image)

    assert message.endswith(
        "96 cells, and 6 of them hold more than one colour, the first is stitch 1 of round 1"
    )
    assert "type these into a grid" in help


def test_lines_that_belong_to_what_is_drawn_are_drawn() -> None:
    """A windowpane check of 1 stitch in 6, with 3 pixels to a stitch."""
    cloth = Image.new("RGB", (36, 36), YARNS["wool"])
    pen = ImageDraw.Draw(cloth)
    for place in range(0, 36, 6):
        pen.line((place, 0, place, 35), fill=YARNS["tar"])
        pen.line((0, place, 35, place), fill=YARNS["tar"])
    image = cloth.resize((108, 108), Image.Resampling.NEAREST)

    assert refused(image, stitches=36)[0].startswith("the lines of `shot.png` part it into 6")
    rounds = read(image, stitches=36, lines=False)
    assert len(rounds) == 36
    assert rounds[35] == ("tar",) * 36
    assert rounds[34] == ("tar", *("wool",) * 5) * 6


@pytest.mark.parametrize("pixels", [1, 2, 3, 6, 12])
@pytest.mark.parametrize("size", [(24, 18), (60, 44)])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_artwork_without_lines_has_none(size: tuple[int, int], pixels: int, seed: int) -> None:
    dice = random.Random(seed)
    image = Image.new("RGB", size)
    for x in range(size[0]):
        for y in range(size[1]):
            image.putpixel((x, y), dice.choice([(255, 255, 255), (20, 30, 40), (160, 60, 50)]))
    larger = (size[0] * pixels, size[1] * pixels)

    assert ruling(image.resize(larger, Image.Resampling.NEAREST)) is None


def test_a_picture_of_a_known_number_of_rounds_has_as_many() -> None:
    """With both counts the proportions are those of the grid, whatever the picture's."""
    image = Image.new("RGB", (90, 60), YARNS["tar"])

    assert len(read(image, rounds=20)) == 20
    assert len(read(image, rounds=20)[0]) == 30
    assert (len(read(image, stitches=7, rounds=5)), len(read(image, stitches=7, rounds=5)[0])) == (
        5,
        7,
    )


def test_without_lines_and_without_a_count_the_message_says_what_to_give() -> None:
    with pytest.raises(PatternError) as caught:
        read(Image.new("RGB", (90, 60), YARNS["tar"]))

    assert caught.value.findings[0].id == "image.stitches"
    assert "`--stitches`" in caught.value.findings[0].help
