"""The picture of knitted fabric."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.drawing import Drawing, Path, Rect
from bindoff.document.fabric import fabric
from bindoff.document.faces import Crossing, Look, face_of, faces_of
from bindoff.document.yarn.cloth import legs
from bindoff.source.rowlang.stitches import standard_book
from tests.document.drawing_checks import outlines

COLOURS = {"s": "#3d4a57", "f": "#e8eef0", "r": "#a8482c"}

swatches = st.integers(1, 8).flatmap(
    lambda width: st.lists(
        st.text("sfr", min_size=width, max_size=width).map(tuple), min_size=1, max_size=8
    )
)


@given(swatches, st.floats(0.5, 2))
def test_every_stitch_has_two_legs_in_its_own_colour(
    rounds: list[tuple[str, ...]], aspect: float
) -> None:
    drawing = fabric(rounds, COLOURS, aspect, 80, 70)
    legs = Counter[str | None]()
    for path in outlines(drawing.shapes):
        if path.stroke:
            legs[path.fill] += sum(command[0] == "Z" for command in path.commands)

    stitches = Counter(yarn for row in rounds for yarn in row)
    assert legs == {COLOURS[yarn]: 2 * count for yarn, count in stitches.items()}


@given(swatches, st.floats(0.5, 2))
def test_the_fabric_fills_its_box_one_way_and_keeps_the_shape_of_a_stitch(
    rounds: list[tuple[str, ...]], aspect: float
) -> None:
    drawing = fabric(rounds, COLOURS, aspect, 80, 70)
    stitch_width = drawing.width / len(rounds[0])
    stitch_height = drawing.height / len(rounds)

    assert stitch_width / stitch_height == pytest.approx(aspect)
    assert drawing.width == pytest.approx(80) or drawing.height == pytest.approx(70)
    assert drawing.width <= 80.001
    assert drawing.height <= 70.001


def painted_last(drawing: Drawing, x: float, y: float) -> str | None:
    """The ground seen at a point: of all that have it inside them, the one painted last."""
    found = None
    for shape in drawing.shapes:
        if isinstance(shape, Rect) and 0 < x - shape.x < shape.w and 0 < y - shape.y < shape.h:
            found = shape.fill
    return found


@given(swatches)
def test_every_ground_is_its_own_and_none_only_meets_the_next(
    rounds: list[tuple[str, ...]],
) -> None:
    """Where two only meet, a program that smooths edges lets the paper through as a light seam."""
    drawing = fabric(rounds, COLOURS, 1.3, 80, 70)
    w, h = drawing.width / len(rounds[0]), drawing.height / len(rounds)
    plain = fabric([("s",), ("f",), ("r",)], COLOURS, 1.0, 10, 30)
    dark = dict(zip("srf", (painted_last(plain, 5, y) for y in (25, 5, 15)), strict=True))

    for number, stitches in enumerate(reversed(rounds)):
        for place, yarn in enumerate(stitches):
            assert painted_last(drawing, (place + 0.5) * w, (number + 0.5) * h) == dark[yarn]
            if place:
                assert painted_last(drawing, place * w, (number + 0.5) * h)
            if number:
                assert painted_last(drawing, (place + 0.5) * w, number * h)
    for shape in drawing.shapes:
        if isinstance(shape, Rect):
            assert shape.x + shape.w <= drawing.width + 1e-6
            assert shape.y + shape.h <= drawing.height + 1e-6


def test_the_first_round_lies_at_the_bottom() -> None:
    drawing = fabric([("s",), ("f",)], COLOURS, 1.0, 10, 20)
    paths = {path.fill: path for path in outlines(drawing.shapes) if path.stroke}
    lowest = {fill: max(_ys(path)) for fill, path in paths.items()}

    assert lowest[COLOURS["s"]] > lowest[COLOURS["f"]]


def test_a_purl_stitch_is_drawn_otherwise_than_a_knit_stitch() -> None:
    knit = fabric([("s", "s")], COLOURS, 1.0, 10, 10)
    purl = fabric([("s", "s")], COLOURS, 1.0, 10, 10, {(0, 1): Look.PURL})

    assert knit != purl
    assert fabric([("s", "s")], COLOURS, 1.0, 10, 10, {(1, 0): Look.PURL}) == knit, "no such round"


def _ys(path: Path) -> list[float]:
    return [float(y) for command in path.commands for y in command[2::2]]


@pytest.mark.parametrize("name", ["yo", "k2tog", "ssk", "2/2 RC", "2/1 LPC", "rt", "p"])
def test_a_stitch_with_a_face_of_its_own_is_not_drawn_as_a_v(name: str) -> None:
    stitch = standard_book().named(name)
    row = [stitch] * stitch.cells
    plain = fabric([["s"] * len(row)], COLOURS, 1.0, 40, 10)

    assert fabric([["s"] * len(row)], COLOURS, 1.0, 40, 10, faces_of([row])) != plain


def test_decreases_and_crosses_lean_the_way_their_entries_say() -> None:
    """k2tog and a right cross lean to the right; ssk and a left cross to the left."""
    book = standard_book()

    assert face_of(book.named("k2tog")) is Look.RIGHT
    assert face_of(book.named("ssk")) is Look.LEFT
    assert face_of(book.named("2/1 RC")) == Crossing(2, 1, right=True)
    assert face_of(book.named("2/1 LC")) == Crossing(2, 1, right=False)
    assert face_of(book.named("k")) is None


@pytest.mark.parametrize("name", ["k2tog", "ssk", "2/2 RC", "2/2 LC"])
def test_what_leans_keeps_to_the_picture(name: str) -> None:
    stitch = standard_book().named(name)
    row = [stitch] * stitch.cells
    drawing = fabric([["s"] * len(row)], COLOURS, 1.0, 40, 10, faces_of([row]))
    places = [numbers for shape in outlines(drawing.shapes) for _, *numbers in shape.commands]

    for numbers in places:
        assert all(0 <= float(x) <= drawing.width for x in numbers[::2])
        assert all(0 <= float(y) <= drawing.height for y in numbers[1::2])


def test_where_there_is_no_stitch_the_paper_shows() -> None:
    nothing = standard_book().named("no stitch")
    drawing = fabric([["s", "s"]], COLOURS, 1.0, 10, 10, faces_of([[nothing, nothing]]))

    assert drawing.shapes == ()


def test_a_cross_stands_in_all_of_its_cells() -> None:
    cross = standard_book().named("2/1 RC")

    assert faces_of([[None, cross, cross, cross]]) == {
        (0, 1): Crossing(2, 1, right=True),
        (0, 2): Look.COVERED,
        (0, 3): Look.COVERED,
    }


def test_a_cross_is_drawn_out_over_the_plain_rounds_above_it() -> None:
    """As far as they are plain, and less far than it is wide."""
    cross, purl = standard_book().named("2/2 RC"), standard_book().named("p")
    crossed, plain = [cross] * 4, [None] * 4

    assert faces_of([crossed, plain, plain, plain])[0, 0] == Crossing(2, 2, right=True, high=3)
    assert faces_of([crossed, plain, crossed])[0, 0] == Crossing(2, 2, right=True, high=2)
    assert faces_of([crossed, [None, None, None, purl]])[0, 0] == Crossing(2, 2, right=True)


def test_a_cross_over_three_rounds_keeps_a_v_for_each_stitch_of_each_round() -> None:
    cross = standard_book().named("2/2 RC")
    drawing = fabric([["s"] * 4] * 3, COLOURS, 1.0, 40, 30, faces_of([[cross] * 4, [None] * 4]))
    legs = sum(
        command[0] == "Z"
        for shape in outlines(drawing.shapes)
        if shape.fill == COLOURS["s"] and shape.stroke
        for command in shape.commands
    )

    assert legs == 2 * 4 * 3


@given(st.floats(0.6, 1.8))
def test_a_stitch_ends_inside_the_row_above_so_that_no_seam_shows(aspect: float) -> None:
    """Its legs are those of the loop whose formula ``document/yarn`` has."""
    wide, high = 10.0, 10.0 / aspect
    ys = [float(n) for _, *numbers in legs(wide, high) for n in numbers[1::2]]
    xs = [float(n) for _, *numbers in legs(wide, high) for n in numbers[::2]]

    assert -min(ys) > high
    assert max(ys) < 0.2 * high
    assert max(xs) == pytest.approx(-min(xs))
    assert 0.4 * wide < max(xs) < 0.65 * wide


def test_what_another_yarn_covers_shows_beside_its_foot() -> None:
    """Else the ground of a stitch would show as a box."""
    alone = fabric([("s", "s", "s"), ("s", "f", "s")], COLOURS, 1.0, 30, 20)
    ground = {each.fill for each in alone.shapes if isinstance(each, Rect)}
    corners = [each for each in outlines(alone.shapes) if not each.stroke and each.fill]

    assert len(corners) == 1
    assert corners[0].fill in ground
