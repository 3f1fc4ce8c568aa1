"""Drawings as PNG: true sizes, true colours, smooth edges."""

import struct
from dataclasses import replace
from io import BytesIO
from math import atan2, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from bindoff.diagnostics import PatternError
from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps
from bindoff.document.fabric import fabric
from bindoff.render.raster import PIXEL_LIMIT, render_png

RED, BLUE, WHITE, BLACK = (192, 32, 32), (32, 32, 192), (255, 255, 255), (0, 0, 0)
BEND = 0.5523  # control points at this share of the radius draw a circle within 0.03 %


def drawn(*shapes: Shape, size: tuple[float, float] = (20, 20), width: int = 200) -> Image.Image:
    image = Image.open(BytesIO(render_png(Drawing(*size, shapes), width)))
    assert image.mode == "RGB"
    return image


def ink(image: Image.Image) -> float:
    """How many pixels black covers, from how dark a picture in black and white is."""
    histogram = image.convert("L").histogram()
    return sum(count * (255 - grey) / 255 for grey, count in enumerate(histogram))


def circle(
    x: float, y: float, r: float, clockwise: bool = True
) -> tuple[tuple[str | float, ...], ...]:
    b = BEND * r
    quarters = [
        (x + r, y + b, x + b, y + r, x, y + r),
        (x - b, y + r, x - r, y + b, x - r, y),
        (x - r, y - b, x - b, y - r, x, y - r),
        (x + b, y - r, x + r, y - b, x + r, y),
    ]
    if not clockwise:  # the same points backwards
        points = [(x + r, y), *((q[i], q[i + 1]) for q in quarters for i in (0, 2, 4))][::-1]
        quarters = [
            (*points[at], *points[at + 1], *points[at + 2]) for at in range(1, len(points), 3)
        ]
    return (("M", x + r, y), *(("C", *quarter) for quarter in quarters), ("Z",))


# ---------------------------------------------------------------- size


@given(st.floats(20, 400), st.floats(20, 400), st.integers(20, 60))
@settings(max_examples=40, deadline=None)
def test_a_picture_has_the_proportions_and_the_true_size_of_its_drawing(
    width: float, height: float, pixels: int
) -> None:
    image = drawn(size=(width, height), width=pixels)

    assert image.width == pixels
    assert abs(image.height - pixels * height / width) <= 0.5
    each_metre = image.info["dpi"][0] / 0.0254  # a PNG keeps whole pixels a metre
    assert abs(each_metre - pixels / width * 1000) <= 0.5 + 1e-6


def test_the_file_says_its_size_in_pixels_a_metre() -> None:
    """The chunk pHYs of ISO/IEC 15948: 100 pixels over 20 mm are 5000 a metre."""
    data = render_png(Drawing(20, 10, ()), 100)
    at = data.index(b"pHYs") + 4

    assert struct.unpack(">IIB", data[at : at + 9]) == (5000, 5000, 1)


@pytest.mark.parametrize(
    ("width", "size"), [(0, (10, 10)), (-5, (10, 10)), (10, (100, 1)), (6000, (10, 10))]
)
def test_a_picture_of_nothing_or_too_much_is_refused(width: int, size: tuple[float, float]) -> None:
    with pytest.raises(PatternError) as caught:
        render_png(Drawing(*size, ()), width)

    assert caught.value.findings[0].id == "png.size"


def test_the_largest_picture_is_made() -> None:
    side = int(PIXEL_LIMIT**0.5)

    image = Image.open(
        BytesIO(render_png(Drawing(10, 10, (Rect(0, 0, 5, 10, fill="#000000"),)), side))
    )

    assert image.size == (side, side)
    assert ink(image) == pytest.approx(side * side / 2, rel=1e-3)


def test_the_same_drawing_gives_the_same_bytes() -> None:
    drawing = Drawing(9, 9, (Label(1, 5, "k2tog"), Path(circle(4, 4, 3), fill="#204060")))

    assert render_png(drawing, 90) == render_png(drawing, 90)


# ---------------------------------------------------------------- shapes


def test_flat_shapes_keep_their_colours_to_the_pixel() -> None:
    image = drawn(Rect(0, 0, 10, 20, fill="#c02020"), Rect(10, 0, 10, 20, fill="#2020c0"))

    assert image.getcolors() is not None
    assert sorted(image.getcolors() or []) == [(20_000, BLUE), (20_000, RED)]
    assert image.getpixel((99, 5)) == RED
    assert image.getpixel((100, 5)) == BLUE


def test_later_shapes_lie_on_earlier_ones() -> None:
    image = drawn(Rect(0, 0, 20, 20, fill="#c02020"), Path(circle(10, 10, 5), fill="#2020c0"))

    assert image.getpixel((100, 100)) == BLUE
    assert image.getpixel((10, 10)) == RED


def test_what_is_not_painted_is_ground() -> None:
    assert drawn().getcolors() == [(40_000, WHITE)]
    grey = render_png(Drawing(20, 20, ()), 10, ground="#808080")
    assert Image.open(BytesIO(grey)).getcolors() == [(100, (128, 128, 128))]


@given(st.floats(2, 9), st.booleans())
@settings(max_examples=20)
def test_a_circle_covers_pi_r_squared(radius: float, clockwise: bool) -> None:
    image = drawn(Path(circle(10, 10, radius, clockwise), fill="#000000"))

    # Pixels on the edge count whole at a quarter of a pixel: an eighth of one all around at most.
    assert ink(image) == pytest.approx(pi * (10 * radius) ** 2, abs=2 * pi * 10 * radius / 4)


@given(st.lists(st.tuples(st.floats(1, 19), st.floats(1, 19)), min_size=3, max_size=3))
@settings(max_examples=40)
def test_a_triangle_covers_its_area(corners: list[tuple[float, float]]) -> None:
    """By the shoelace formula."""
    (x1, y1), (x2, y2), (x3, y3) = corners
    area = abs(x1 * (y2 - y3) + x2 * (y3 - y1) + x3 * (y1 - y2)) / 2
    around = sum(
        ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5
        for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True)
    )
    path = Path((("M", x1, y1), ("L", x2, y2), ("L", x3, y3), ("Z",)), fill="#000000")

    assert ink(drawn(path)) == pytest.approx(100 * area, abs=10 * around / 4 + 2)


def test_an_outline_inside_another_is_a_hole_if_it_runs_the_other_way() -> None:
    """The nonzero rule of SVG 1.1, 11.3."""
    ring = Path((*circle(10, 10, 8), *circle(10, 10, 4, clockwise=False)), fill="#c02020")
    disc = Path((*circle(10, 10, 8), *circle(10, 10, 4)), fill="#c02020")

    assert drawn(ring).getpixel((100, 100)) == WHITE
    assert drawn(ring).getpixel((100, 40)) == RED
    assert drawn(disc).getpixel((100, 100)) == RED


def test_a_stroke_is_as_wide_as_it_says_and_ends_square() -> None:
    image = drawn(Lines(((5, 10, 15, 10),), width=2))

    assert image.getpixel((100, 91)) == BLACK
    assert image.getpixel((100, 108)) == BLACK
    assert image.getpixel((100, 87)) == WHITE
    assert image.getpixel((46, 100)) == WHITE
    assert ink(image) == pytest.approx(100 * 20, rel=0.03)


def test_dashes_leave_their_gaps() -> None:
    image = drawn(Lines(((0, 10, 20, 10),), width=1, dash=(3, 2)))

    assert [image.getpixel((x, 100)) for x in (15, 40, 65, 90, 115)] == [
        BLACK,
        WHITE,
        BLACK,
        WHITE,
        BLACK,
    ]
    assert ink(image) == pytest.approx(12 * 10 * 10, rel=0.05)


def test_a_frame_has_square_corners() -> None:
    image = drawn(Rect(4, 4, 12, 12, fill="#c02020", stroke="#000000", width=2))

    assert image.getpixel((32, 32)) == BLACK
    assert image.getpixel((167, 167)) == BLACK
    assert image.getpixel((100, 100)) == RED
    assert image.getpixel((28, 100)) == WHITE


def test_the_stroke_of_a_path_has_round_ends() -> None:
    path = Path((("M", 5, 10), ("L", 15, 10)), stroke="#000000", width=4)

    assert ink(drawn(path)) == pytest.approx(100 * 40 + pi * 20**2, rel=0.02)


def test_shapes_beyond_the_edge_are_cut_off() -> None:
    far = Path(circle(500, 500, 100), fill="#000000")
    near = Path(circle(20, 10, 5), fill="#000000")

    assert drawn(far).getcolors() == [(40_000, WHITE)]
    assert ink(drawn(near)) == pytest.approx(pi * 50**2 / 2, rel=0.02)


# ---------------------------------------------------------------- text


def box(image: Image.Image) -> tuple[int, int, int, int]:
    """Left, top, right and lower edge of what is painted."""
    found = image.convert("L").point(lambda grey: 255 - grey).getbbox()
    assert found is not None
    return found


@pytest.mark.parametrize("bold", [False, True])
def test_text_stands_on_its_baseline_at_its_anchor(bold: bool) -> None:
    """Lato's capitals are 0.72 em high (its OS/2 table), so 7.2 mm at 10 mm."""
    left = box(drawn(Label(20, 30, "HH", 10, "start", bold=bold), size=(60, 40), width=600))
    middle = box(drawn(Label(30, 30, "HH", 10, "middle", bold=bold), size=(60, 40), width=600))
    right = box(drawn(Label(40, 30, "HH", 10, "end", bold=bold), size=(60, 40), width=600))

    assert all(abs(found[3] - 300) <= 1 for found in (left, middle, right))
    assert abs(left[3] - left[1] - 72) <= 2
    assert 200 <= left[0] <= 212
    assert abs((middle[0] + middle[2]) / 2 - 300) <= 2
    assert 388 <= right[2] <= 400


def test_turned_text_reads_upwards() -> None:
    level = box(drawn(Label(30, 30, "turned", 5), size=(60, 60), width=600))
    upright = box(drawn(Label(30, 30, "turned", 5, turn=90), size=(60, 60), width=600))

    assert abs((level[2] - level[0]) - (upright[3] - upright[1])) <= 3
    assert upright[3] <= 302  # it starts at its place and goes up
    assert atan2(300 - upright[1], upright[2] - 300) > 1


# ---------------------------------------------------------------- fabric


@given(
    st.integers(1, 6).flatmap(
        lambda width: st.lists(
            st.lists(st.sampled_from(["r", "b"]), min_size=width, max_size=width),
            min_size=1,
            max_size=6,
        )
    ),
    st.floats(0.7, 1.6),
)
@settings(max_examples=25)
def test_knitted_stitches_show_their_yarn_where_they_are(
    rounds: list[list[str]], aspect: float
) -> None:
    """Most of a stitch's middle is its yarn's hue; the last round is on top."""
    drawing = fabric(rounds, {"r": "#c02020", "b": "#2020c0"}, aspect, 50, 50)
    image = Image.open(BytesIO(render_png(drawing, 40 * len(rounds[0]))))
    high = image.height / len(rounds)

    for number, line in enumerate(rounds):
        for place, yarn in enumerate(line):
            top = round((len(rounds) - 1 - number) * high)
            cell = image.crop(
                (40 * place + 8, top + round(high * 0.25), 40 * place + 32, top + round(high * 0.8))
            )
            red, _, blue = cell.resize((1, 1), Image.Resampling.BOX).getpixel((0, 0))  # type: ignore[misc]
            assert (red > blue) == (yarn == "r")


def test_a_stroke_that_is_cut_ends_straight_and_is_as_wide_around_a_bend() -> None:
    level = Path((("M", 4.0, 10.0), ("L", 16.0, 10.0)), stroke="#000000", width=4.0, cut=True)
    assert box(drawn(level)) == pytest.approx((40, 80, 160, 120), abs=1)

    radius, width = 6.0, 2.0
    arc = Path(
        (("M", 10.0 - radius, 10.0), *circle(10.0, 10.0, radius)[1:3]),
        stroke="#000000",
        width=width,
        cut=True,
    )
    assert ink(drawn(arc)) == pytest.approx(ink(drawn(replace(arc, cut=False))), rel=0.1)


def test_stamps_lie_where_they_are_placed() -> None:
    square = Path((("M", -1, -1), ("L", 1, -1), ("L", 1, 1), ("L", -1, 1), ("Z",)), "#000000")
    image = drawn(Stamps(square, ((5.0, 5.0), (15.0, 12.0))))

    assert ink(image) == pytest.approx(2 * 20 * 20, rel=0.06)
    assert box(image) == pytest.approx((40, 40, 160, 130), abs=1)
