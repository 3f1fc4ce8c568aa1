"""The picture of a finished piece: its rows where the plan has them, in an outline."""

import re
from math import cos, hypot, pi, sin
from pathlib import Path as FilePath

import pytest

from bindoff.document.drawing import Drawing, Path, Stamps, reach
from bindoff.document.fabric import darker
from bindoff.document.faces import Crossing, Face, Look
from bindoff.document.finished.bowed import bowed
from bindoff.document.finished.courses import Course, courses_of, seen_of
from bindoff.document.finished.growing import growing
from bindoff.document.finished.laidflat import Patch, filled, scale_of
from bindoff.document.finished.picture import _winged, finished
from bindoff.document.finished.socks import sock_patches
from bindoff.document.finished.stitched import FOOT
from bindoff.document.finished.strips import Strip, woven
from bindoff.document.front import cover
from bindoff.document.tree import plain
from bindoff.document.voice import Voice, voice_of
from bindoff.files import DiskFiles, MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.choose import outline_of
from bindoff.plan.outlines.shapes import Point
from bindoff.plan.picture import chart_yarns
from bindoff.plan.tube import TubePart
from tests.document.drawing_checks import clipped
from tests.small_patterns import CAP

PATTERNS = FilePath(__file__).parents[2] / "patterns"
GAUGE = Gauge(5.0, 4.0)  # mm: a stitch, a row
COLOURS = {"a": "#204060", "b": "#e0d0c0"}
BOX = ((0.0, 0.0), (100.0, 0.0), (100.0, -80.0), (0.0, -80.0))


def demo(name: str) -> Voice:
    return voice_of(plan_pattern(DiskFiles(str(PATTERNS / name)), "pattern.yaml", name))


def pattern(name: str) -> Voice:
    """One of the whole patterns that no demo shows."""
    folder = FilePath(__file__).parents[1] / "patterns" / name
    return voice_of(plan_pattern(DiskFiles(str(folder)), "pattern.yaml", name))


def stitches(patch: Patch, merged: int = 1) -> list[tuple[str, float, float]]:
    """Each stitch: its colour, and where its foot is."""
    found = []
    for shape in filled(patch, GAUGE, COLOURS, merged):
        if isinstance(shape, Stamps) and shape.path.fill:
            found += [(shape.path.fill, x, y) for x, y in shape.places]
    return found


def test_a_rectangle_holds_as_many_stitches_and_rows_as_the_gauge_says() -> None:
    found = stitches(Patch(BOX, (Course(("a",)),) * 20, around=False))

    assert len(found) == 20 * 20
    feet = {round(y - 4.0 * FOOT, 6) for _, _, y in found}
    assert feet == {-4.0 * row for row in range(20)}


def test_the_first_row_is_at_the_foot_and_of_a_piece_worked_down_at_the_head() -> None:
    courses = (*(Course(("a",)),) * 15, *(Course(("b",)),) * 5)
    up = stitches(Patch(BOX, courses, around=False))
    down = stitches(Patch(BOX, courses[::-1], around=False, down=True))

    reach = 4.0 * FOOT
    assert max(y for colour, _, y in up if colour == COLOURS["b"]) == -4.0 * 15 + reach
    assert min(y for colour, _, y in down if colour == COLOURS["a"]) == -80.0 - reach
    assert max(y for colour, _, y in down if colour == COLOURS["b"]) == -4.0 - reach


def test_the_middle_of_a_row_stands_in_the_middle() -> None:
    row = Course(("b",) * 9 + ("a",) * 2 + ("b",) * 9)
    found = stitches(Patch(BOX, (row,) * 20, around=False))

    assert {x for colour, x, _ in found if colour == COLOURS["a"]} == {47.5, 52.5}


def test_gathered_rows_keep_all_their_stitches() -> None:
    dome = ((0.0, 0.0), (100.0, 0.0), (100.0, -40.0), (60.0, -80.0), (40.0, -80.0), (0.0, -40.0))
    course = Course(("a",) * 20)
    free = stitches(Patch(dome, (course,) * 20, around=False))
    held = stitches(Patch(dome, (course,) * 20, around=False, squeezed=True))

    assert len(held) == 20 * 20
    assert len(free) < len(held)


@pytest.mark.parametrize("turn", [0.0, pi / 2, -0.5])
def test_stitches_lie_in_their_outline_whichever_way_it_is_worked(turn: float) -> None:
    found = stitches(Patch(BOX, (Course(("a",)),), turn=turn))

    assert len(found) > 300
    for _, x, y in found:
        assert -5 <= x <= 105
        assert -85 <= y <= 5


def test_a_large_piece_is_drawn_in_larger_stitches() -> None:
    wide = ((0.0, 0.0), (1000.0, 0.0), (1000.0, -800.0), (0.0, -800.0))
    patch = Patch(wide, (Course(("a",)),), around=False)
    merged = scale_of([wide], GAUGE)

    assert merged == 3
    assert len(stitches(patch, merged)) == 67 * 67


def test_the_front_of_a_tube_shows_its_chart_as_it_is_drawn() -> None:
    """The lighthouse on the front half: every row of the chart, from left to right."""
    voice = demo("harbour-light-hat")
    plan = next(s.tubes[1] for p in voice.plan.pieces for s in p.steps if s.tubes)
    picture = voice.plan.source.pattern.pieces["hat"].picture
    assert picture is not None
    yarns = chart_yarns(voice.plan.source.pattern.charts[picture.chart])
    grid = voice.plan.source.grids[picture.chart][1]
    seen, brim = seen_of(plan)
    outer = plan.tube.segment(TubePart.OUTER)
    assert outer is not None
    at = len(seen) - (outer.last - plan.first + 1)

    assert brim == 4
    for course, line in zip(seen[at : at + grid.height], grid.rounds, strict=True):
        assert course.yarns == tuple(yarns[c] for c in line)


def test_rows_of_a_piece_are_as_many_as_the_plan_works() -> None:
    voice = demo("ropewalk-hat")
    (piece,) = voice.plan.pieces
    (run,) = courses_of(voice, piece, 3)

    assert len(run) == sum(len(step.worked[3]) for step in piece.steps)
    assert {len(course.yarns) for course in run[:10]} == {1}


@pytest.mark.parametrize(
    "name",
    [
        "harbour-light-hat",
        "ropewalk-hat",
        "netmender-mittens",
        "slipway-socks",
        "mooring-line-pullover",
        "herring-quay-shawl",
    ],
)
def test_a_finished_piece_keeps_to_its_picture(name: str) -> None:
    voice = demo(name)
    found = finished(voice, 80.0, 66.0)

    assert found is not None
    assert clipped(found.drawing) == []
    assert (found.drawing.width, found.drawing.height) == (80.0, 66.0)
    left, top, right, low = reach(found.drawing.shapes[1:])
    assert min(left, top, 80 - right, 66 - low) > 3
    assert max(right - left - 68.8, low - top - 56.8) == pytest.approx(0.0, abs=0.1)
    assert finished(voice, 80.0, 66.0) == found


def test_the_last_rows_of_a_crescent_lie_along_its_outer_edge() -> None:
    """The shawl ends in foam, worked outwards from the neck."""
    voice = demo("herring-quay-shawl")
    found = finished(voice, 80.0, 58.0)
    assert found is not None
    foam = voice.plan.source.pattern.yarns["foam"].colour
    radii: dict[bool, list[float]] = {True: [], False: []}
    stamps = [s for s in found.drawing.shapes if isinstance(s, Stamps) and s.path.stroke]
    low = max(y for s in stamps for _, y in s.places)
    for each in stamps:
        radii[each.path.fill == foam] += [low - y for x, y in each.places if abs(x - 40) < 2]

    assert max(radii[True]) < min(radii[False])


def test_rows_of_a_triangle_lie_along_its_lower_sides() -> None:
    line = ((-100.0, 0.0), (100.0, 0.0), (0.0, 100.0))
    courses = (*(Course(("b",)),) * 3, *(Course(("a",)),) * 60)
    wings = list(_winged(line, courses))
    for wing in wings:
        for colour, x, y in stitches(wing):
            from_edge = (100 - abs(x) - y) / 2**0.5
            assert (colour == COLOURS["b"]) == (from_edge < 13)
    assert len(stitches(wings[0])) == pytest.approx(len(stitches(wings[1])), rel=0.02)


def test_what_is_made_twice_is_shown_as_a_pair() -> None:
    found = finished(demo("netmender-mittens"), 80.0, 66.0)
    assert found is not None
    lefts = [x for s in found.drawing.shapes if isinstance(s, Stamps) for x, _ in s.places]

    assert sum(x < 40 for x in lefts) == pytest.approx(sum(x > 40 for x in lefts), rel=0.03)


def yarn_at(name: str, size: tuple[float, float] = (80.0, 66.0)) -> dict[str, list[Point]]:
    """Where the stitches of each yarn lie in the picture of a demo, in mm."""
    voice = demo(name)
    found = finished(voice, *size)
    assert found is not None
    colours = {yarn.colour: key for key, yarn in voice.plan.source.pattern.yarns.items()}
    places: dict[str, list[Point]] = {}
    for shape in found.drawing.shapes:
        if isinstance(shape, Stamps) and shape.path.stroke and shape.path.fill in colours:
            places.setdefault(colours[shape.path.fill], []).extend(shape.places)
    return places


def test_a_row_reaches_from_edge_to_edge_of_a_slope() -> None:
    """As many stitches as fit, and none beyond the edge by more than half of one."""
    cone = ((0.0, 0.0), (100.0, 0.0), (70.0, -80.0), (30.0, -80.0))
    for fan in (False, True):
        found = stitches(Patch(cone, (Course(("a",)),) * 20, around=False, fan=fan))
        for y in {round(y, 3) for _, _, y in found}:
            xs = [x for _, x, at in found if round(at, 3) == y]
            left = 30 * (4.0 * FOOT - y) / 80
            assert min(xs) - left == pytest.approx(2.5, abs=1.0)
            assert 100 - left - max(xs) == pytest.approx(2.5, abs=1.0)


def test_stitches_of_a_crown_lean_towards_its_top() -> None:
    """Turned to the right on the left side, to the left on the right one, and upright between."""
    cone = ((0.0, 0.0), (100.0, 0.0), (70.0, -80.0), (30.0, -80.0))
    shapes = list(filled(Patch(cone, (Course(("a",)),), around=False, fan=True), GAUGE, COLOURS))
    upright, left, right = set[int](), set[int](), set[int]()
    for shape in (each for each in shapes if isinstance(each, Stamps)):
        xs = [float(n) for _, *numbers in shape.path.commands for n in numbers[::2]]
        lean = round(max(xs) + min(xs), 2)
        side = left if lean > 0 else right if lean < 0 else upright
        side.update(round(x) for x, _ in shape.places)

    assert max(left) < min(right) + 5
    assert 50 in {round(x / 5) * 5 for x in upright}


def test_a_strip_bends_with_its_edges() -> None:
    """A quarter of a ring: its rows turn by a right angle, each as wide as the ring."""
    steps = [pi / 2 * at / 20 for at in range(21)]
    inner = tuple((50 * cos(a), -50 * sin(a)) for a in steps)
    outer = tuple((90 * cos(a), -90 * sin(a)) for a in steps)
    shapes = list(woven(Strip(inner, outer, (Course(("a",)),)), GAUGE, COLOURS))
    places = [at for each in shapes if isinstance(each, Stamps) for at in each.places]

    assert len(places) == 8 * round(70 * pi / 2 / 4)
    assert {round((hypot(x, y) - 52.5) / 5) for x, y in places} == set(range(8))


def test_ribs_of_a_sock_run_over_the_instep_and_not_under_the_foot() -> None:
    voice = demo("slipway-socks")
    outline, _ = outline_of(voice.plan.measures, voice.plan.pieces, "sock")
    (piece,) = voice.plan.pieces
    gauge = voice.plan.measures.sizes[3].gauges[""]
    (run,) = courses_of(voice, piece, 3)
    patches = list(sock_patches(outline, run, gauge))
    (instep,) = [each for each in patches if isinstance(each, Strip)]
    leg, flap, sole, toe = [each for each in patches if isinstance(each, Patch)]

    assert all(Look.PURL in each.faces for each in (*leg.courses, *instep.courses))
    for smooth in (flap, sole, toe):
        assert {face for each in smooth.courses for face in each.faces} == {None}
    assert {each.yarns for each in toe.courses} == {("rust",)}


def test_a_pullover_has_its_neckband_over_the_neck() -> None:
    """In the second yarn, in the middle, above all of the body and both sleeves."""
    places = yarn_at("mooring-line-pullover")
    top = min(y for _, y in places["hawser"])
    band = [(x, y) for x, y in places["buoy"] if abs(x - 40) < 8 and y < top + 8]

    assert len(band) > 40
    assert min(y for _, y in band) < top


def test_a_tied_hat_has_its_tie_where_the_tuft_begins() -> None:
    """In the yarn of the strip, which is otherwise that of the stripes at the rim."""
    places = yarn_at("fairway-hat")
    low, high = max(y for _, y in places["sea"]), min(y for _, y in places["sea"])
    neck = [x for x, y in places["sea"] if y < high + 3]

    assert low - high > 35
    assert max(neck) - min(neck) < 16


def test_a_yoke_worked_last_lies_over_body_and_sleeves() -> None:
    """Its stars in the second yarn stand above the underarm, and ribs are at the hem."""
    voice = pattern("lantern-yoke")
    found = finished(voice, 80.0, 58.0)
    assert found is not None
    stars = voice.plan.source.pattern.yarns["wick"].colour
    stamps = [s for s in found.drawing.shapes if isinstance(s, Stamps) and s.path.stroke]
    ys = [y for s in stamps for _, y in s.places]
    middle = (min(ys) + max(ys)) / 2
    of_stars = [y for s in stamps if s.path.fill == stars for x, y in s.places if abs(x - 40) < 9]
    body = courses_of(voice, next(p for p in voice.plan.pieces if p.key == "body"), 1)[0]

    assert of_stars
    assert max(of_stars) < middle
    assert set(body[0].faces) == {None, Look.PURL}


def test_rows_that_grow_to_and_fro_are_smooth_up_to_their_border() -> None:
    """Stockinette of a triangle: nothing in its rows says where they begin; garter at its edge."""
    voice = pattern("spinnaker-shawl")
    (run,) = courses_of(voice, voice.plan.pieces[0], 0)
    last = [Look.PURL in course.faces for course in run[-6:]]

    assert not any(face for course in run[:-14] for face in course.faces)
    assert sorted(last) == [False] * 3 + [True] * 3


def test_a_chart_that_grows_has_sloping_edges() -> None:
    """Two stitches more in every second row: the edge of the fabric is a slope, without steps, and
    every stitch of the chart is in it."""
    rows = [["a"] * 60 for _ in range(20)]
    cells = [range(19 - row // 2 * 2, 41 + row // 2 * 2) for row in range(20)]
    faces: dict[tuple[int, int], Face] = {
        (row, at): Look.NOTHING for row in range(20) for at in range(60) if at not in cells[row]
    }
    made = growing(rows, faces, GAUGE, COLOURS, (80.0, 58.0))
    outline = next(s for s in made.shapes if isinstance(s, Path) and s.stroke)
    corners = [command[1:] for command in outline.commands if len(command) == 3]
    places = [at for each in made.shapes if isinstance(each, Stamps) for at in each.places]

    assert len(corners) <= 6
    assert len(places) == pytest.approx(sum(map(len, cells)), rel=0.03)
    assert clipped(made) == []


@pytest.mark.parametrize("name", ["slipway-socks", "breakwater-cowl", "herring-quay-shawl"])
def test_whatever_picture_a_cover_has_says_who_drew_it(name: str) -> None:
    art = cover(demo(name)).art
    assert art is not None
    assert plain(art.caption).startswith("Drawn from the pattern")


def test_a_cover_tells_what_it_shows_and_is_never_bare() -> None:
    art = cover(demo("slipway-socks")).art
    assert art is not None
    assert "sock" in art.alt
    start, end = CAP.index("charts:"), CAP.index("pieces:")
    source = (CAP[:start] + CAP[end:]).replace("      - chart: waves\n", "")
    source = re.sub(r"  foam: .*\n", "", source)
    bare = voice_of(plan_pattern(MemoryFiles({"pattern.yaml": source}), "pattern.yaml", "cap"))
    smooth = cover(bare).art
    assert smooth is not None
    assert isinstance(smooth.picture, Drawing)


def test_a_border_with_holes_above_each_other_is_drawn_out_to_points() -> None:
    """One for each repeat, which fill the edge from end to end; plain rows have none."""
    arc = tuple((100 * sin(a), 100 * cos(a)) for a in (step / 20 - 1.4 for step in range(57)))
    crescent = (*arc, (0.0, 30.0))
    holes: tuple[Face | None, ...] = (Look.HOLE, None, None, None, None, None, None, Look.HOLE)
    border = tuple(Course(("b",), holes if row % 2 else (None,)) for row in range(6))
    body = (Course(("a",)),) * 12

    def reach_of(courses: tuple[Course, ...]) -> list[float]:
        patch = Patch(crescent, courses, down=True, around=False)
        path = next(iter(bowed(patch, Gauge(2.0, 4.0), COLOURS, 1)))
        assert isinstance(path, Path)
        return [hypot(float(x), float(y)) for _, x, y in path.commands[:-1]]

    away = reach_of((*border, *body))[:481]
    peaks = [b for a, b, c in zip(away, away[1:], away[2:], strict=False) if a < b >= c]
    long = 2 * 1.4 * 100 / 2.0  # stitches of the edge

    assert len(peaks) == pytest.approx(long / 8, abs=1)
    assert max(reach_of(body)) == pytest.approx(100)


def test_a_shawl_on_its_cover_has_as_many_points_as_its_edge_has_repeats() -> None:
    """327 stitches of the middle size in repeats of 8: none is left out or drawn larger."""
    art = cover(demo("herring-quay-shawl")).art
    assert art is not None
    assert isinstance(art.picture, Drawing)
    outlines = [shape for shape in art.picture.shapes if isinstance(shape, Path) and shape.stroke]
    line = max(outlines, key=lambda path: len(path.commands)).commands
    edge = [(float(x), float(y)) for _, x, y in line[:481]]
    middle = (edge[0][0] + edge[480][0]) / 2
    away = [hypot(x - middle, y - edge[0][1]) for x, y in edge]
    peaks = sum(a < b >= c for a, b, c in zip(away, away[1:], away[2:], strict=False))

    assert peaks == pytest.approx(327 / 8, abs=1.5)


def test_a_cable_of_a_large_piece_is_drawn_larger() -> None:
    cross = Course(("a",), (Crossing(2, 2, True, 3), *[Look.COVERED] * 3, None, None))
    rows = (cross, *[Course(("a",))] * 7) * 20
    shapes = list(filled(Patch(BOX, rows, around=False), GAUGE, COLOURS, 2))
    plain = list(filled(Patch(BOX, rows[1:2], around=False), GAUGE, COLOURS, 2))

    assert len(shapes) > len(plain)


def test_a_crown_keeps_its_crosses_within_its_edge() -> None:
    """The chart of this crown narrows from eight stitches to one."""
    rows = courses_of(demo("hawser-hat"), demo("hawser-hat").plan.pieces[0], 2)[0]
    narrow = [row for row in rows if len(row.faces) < 8]

    assert any(isinstance(face, Crossing) for row in narrow for face in row.faces)
    picture = finished(demo("hawser-hat"), 80.0, 60.0)
    assert picture is not None
    assert clipped(picture.drawing) == []


def test_a_flap_hangs_below_the_hat_it_is_named_for() -> None:
    """Sea is below the brim, which is Night; the picture says so in words."""
    picture = finished(demo("harbour-light-hat"), 80.0, 60.0)
    assert picture is not None
    assert picture.kind.endswith("neck flap below it")
    places = yarn_at("harbour-light-hat")
    lowest = max(y for _, y in places["night"])

    assert sum(y > lowest + 1 for _, y in places["sea"]) > 100


def test_the_ends_of_a_tie_fall_to_both_sides_edged_in_their_own_yarn() -> None:
    places = yarn_at("fairway-hat")
    high = min(y for _, y in places["sea"])
    ends = [x for x, y in places["sea"] if high + 8 < y < high + 14]
    edges = [x for x, y in places["foam"] if y < high + 14]

    assert min(ends) < 34
    assert max(ends) > 46
    assert min(edges) < min(ends) + 1


def test_a_tube_joined_to_a_ring_is_shown_as_one() -> None:
    """All of its rows, half of them in front and half within, where it is darker."""
    picture = finished(demo("breakwater-cowl"), 80.0, 60.0)
    assert picture is not None
    assert picture.kind == "a ring standing on its edge"
    slate = demo("breakwater-cowl").plan.source.pattern.yarns["slate"].colour
    stamps = [s for s in picture.drawing.shapes if isinstance(s, Stamps) and s.path.stroke]
    front = [y for s in stamps if s.path.fill == slate for _, y in s.places]
    within = [y for s in stamps if s.path.fill == darker(slate, 0.7) for _, y in s.places]

    assert min(within) < min(front)
    assert max(within) < max(front)
