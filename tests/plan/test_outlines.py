"""Outlines follow from worked rows: widths and lengths against figures worked out on paper.

Where no source is named, the counts are common practice, no source.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot, radians, sin, sqrt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.files import DiskFiles
from bindoff.plan.outlines.choose import Found, outline_of
from bindoff.plan.outlines.profile import paced
from bindoff.plan.outlines.shapes import Line, inside, smoothed
from bindoff.plan.plan import Plan, make_plan
from bindoff.source.read import read_source
from tests.small_patterns import FLAP, plan_of

ROOT = Path(__file__).parents[2]
HEAD = FLAP.partition("gauge:")[0]


def pattern(gauge: tuple[int, int], *, flat: bool = False, **pieces: Sequence[str]) -> Plan:
    """One size; ``name__2`` is made twice; the first piece has its schematic."""
    text = HEAD + f"gauge: {{stitches: {gauge[0]}, rounds: {gauge[1]}}}\n"
    text += 'yarns: {slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}}\n'
    text += "sizes: {A: {}}\nfinished: {One stitch: width(1)}\npieces:\n"
    for key, steps in pieces.items():
        name, _, make = key.partition("__")
        text += f"  {name}:\n    title: {name.capitalize()}\n    make: {make or 1}\n"
        text += "    schematic: {shape: from rows}\n"
        text += f"    worked: {'flat' if flat else 'round'}\n    steps:\n"
        text += "".join(f"      - {step}\n" for step in steps)
    return plan_of(text)


def outline(plan: Plan, key: str) -> Found:
    return outline_of(plan.measures, plan.pieces, key)


def measured(found: Found, *, spare: bool = False) -> dict[str, float]:
    """The measures of the first size in cm, by name."""
    return {d.name: round(d.mm[0] / 10, 2) for d in found[1] if spare or not d.drawn.spare}


def size_of(line: Line) -> tuple[float, float]:
    """Width and height in cm."""
    xs, ys = zip(*line, strict=True)
    return round((max(xs) - min(xs)) / 10, 2), round((max(ys) - min(ys)) / 10, 2)


# ---------------------------------------------------------------- flat pieces


def test_a_blanket_is_as_wide_as_its_stitches_and_as_high_as_its_rows() -> None:
    """At 20 x 28 to 10 cm 120 stitches are 60 cm, 210 rows 75 cm."""
    plan = pattern(
        (20, 28),
        flat=True,
        blanket=("cast on: 120", "{work: [k all, p all], rounds: 210}", "bind off: all"),
    )
    found = outline(plan, "blanket")

    assert measured(found) == {"cast-on edge": 60.0, "length": 75.0}
    assert [size_of(line) for line in found[0].shapes] == [(60.0, 75.0)]


ARMHOLES = """{together: [
          {title: Right, at: start, work: "bind off 8", from: 1, times: 1},
          {title: Left, at: start, work: "bind off 8", from: 2, times: 1},
          {title: Right slope, at: start, work: "k1, ssk", from: 3, every: 2, times: 14},
          {title: Left slope, at: end, work: "k2tog, k1", from: 3, every: 2, times: 14},
          {title: Right slope above, at: start, work: "k1, ssk", from: 33, every: 4, times: 11},
          {title: Left slope above, at: end, work: "k2tog, k1", from: 33, every: 4, times: 11}],
          over: 104}"""


def test_an_armhole_narrows_a_back_from_both_sides() -> None:
    """A handbook's vest, 62 cm wide at 28 x 40 to 10 cm: 174 stitches, the armhole after 38 cm or
    152 rows; 8 stitches bound off at either side and 25 taken singly leave 108, 38.6 cm: 12 cm
    less at either side, as it says."""
    steps = (
        "section: Body",
        "cast on: 174",
        "{work: [k all, p all], rounds: 152}",
        "section: Armholes",
        ARMHOLES,
        "bind off: all",
    )
    found = outline(pattern((28, 40), flat=True, back=steps), "back")
    cm = measured(found)
    (line,) = found[0].shapes

    assert cm == {
        "cast-on edge": 62.14,
        "Body": 38.0,
        "Armholes": 26.0,
        "bound-off edge": 38.57,
    }
    at_38 = sorted({round(x / 10, 1) for x, y in line if abs(y + 380) < 3})
    assert at_38 == [-62.1, -59.3, -2.9, 0.0]
    assert (cm["cast-on edge"] - cm["bound-off edge"]) / 2 == pytest.approx(12, abs=0.3)


def test_a_front_is_shaped_at_one_edge_only() -> None:
    """Twelve stitches go from the right edge, the armhole of a left front; the left one, its centre
    front, stays upright."""
    steps = (
        "cast on: 40",
        "{work: [k all, p all], rounds: 40}",
        '{work: ["bind off 6, k to end", "p all"], times: 2}',
        "{work: [k all, p all], rounds: 20}",
        "bind off: all",
    )
    (line,) = outline(pattern((20, 28), flat=True, front=steps), "front")[0].shapes
    top = [x for x, y in line if y == min(y for _, y in line)]

    assert min(x for x, _ in line) == min(top) == -200.0
    assert max(top) == pytest.approx(-60.0)


def test_the_second_shoulder_stands_where_its_stitches_are_held() -> None:
    steps = (
        "cast on: 80",
        "{work: [k all, p all], rounds: 60}",
        'work: "k26, bind off 28, hold to end for left shoulder"',
        "{work: [p all, k all], rounds: 9}",
        "bind off: all",
        "held: left shoulder",
        "{work: [p all, k all], rounds: 9}",
        "bind off: all",
    )
    (line,) = outline(pattern((20, 28), flat=True, back=steps), "back")[0].shapes
    high = -size_of(line)[1] * 10

    assert size_of(line)[0] == 40.0
    for x, on_it in ((-350, True), (-200, False), (-50, True)):
        assert inside((x, high + 20), line) is on_it


def test_a_cap_is_set_on_a_sleeve() -> None:
    """66 stitches at the upper arm; 5 bound off at either side for the underarm leave 56 (the
    handbook's sleeve: 66 - 10)."""
    cap = (
        "section: Sleeve",
        "cast on: 46",
        '{taper: "k1, m1l, k to last 1, m1r, k1", to: 66, over: 100, plain: [k all, p all]}',
        "section: Cap",
        '{work: ["bind off 5, k to end", "bind off 5, p to end"]}',
        '{work: ["k1, ssk, k to last 3, k2tog, k1", "p all"], times: 16}',
        "bind off: all",
    )
    found = outline(pattern((20, 28), flat=True, sleeve=cap), "sleeve")

    assert measured(found) == {
        "cast-on edge": 23.0,
        "widest place": 33.0,
        "Sleeve": 35.71,
        "Cap": 12.14,
        "bound-off edge": 12.0,
    }


# ---------------------------------------------------------------- shawls


def test_a_triangle_from_the_nape_gains_four_stitches_in_two_rows() -> None:
    """Two at the edges and two at the spine (common practice): 7 + 4 x 60 = 247 stitches, half of
    them along each side."""
    steps = (
        "cast on: 7",
        'work: "k3, pm, k1, pm, k3"',
        '{work: ["k2, yo, k to marker, yo, sm, k1, sm, yo, k to last 2, yo, k2", '
        '"k2, p to last 2, k2"], times: 60}',
        "bind off: all",
    )
    found = outline(pattern((18, 28), flat=True, shawl=steps), "shawl")

    assert found[0].kind == "a triangular shawl"
    assert measured(found) == {
        "depth along the spine": round(1210 / 28, 2),
        "one side of the last edge": round(1235 / 18, 2),
        "wingspan": round(2 * sqrt((1235 / 18) ** 2 - (1210 / 28) ** 2), 2),  # Pythagoras
    }


def test_a_crescent_gains_six_in_two_rows_at_its_edges() -> None:
    """Four in right-side rows and two in wrong-side rows, as one is published: 9 + 6 x 50 = 309."""
    steps = (
        "cast on: 9",
        '{work: ["k2, yo, k1, yo, k to last 3, yo, k1, yo, k2", "k2, yo, p to last 2, yo, k2"], '
        "times: 50}",
        "bind off: all",
    )
    found = outline(pattern((20, 28), flat=True, shawl=steps), "shawl")

    assert found[0].kind == "a crescent shawl"
    told = measured(found)
    assert list(told.items())[:2] == [
        ("depth in the middle", 35.71),
        ("along the last edge", 154.5),
    ]
    for edge in (each for each in found[0].measures if each.way):
        way = sum(hypot(c - a, d - b) for (a, b), (c, d) in pairwise(edge.way))
        assert way == pytest.approx(edge.mm, rel=0.001)  # the line bends as the edge does
    # The chord of an arc is 2 r sin(angle / 2), and the neck edge is longer than that and shorter
    # than the last edge.
    bend = radians(found[0].bend)
    assert told["wingspan as drawn"] == pytest.approx(2 * 154.5 / bend * sin(bend / 2), abs=0.01)
    assert told["wingspan as drawn"] < told["neck edge as drawn"] < 154.5


# ---------------------------------------------------------------- in the round


def test_a_hat_is_half_its_stitches_wide_and_has_a_crown() -> None:
    steps = (
        "section: Brim",
        "cast on: 96",
        '{work: "*k2, p2; repeat from * to end", rounds: 14}',
        "section: Hat",
        "{work: k all, rounds: 28}",
        "{crown: 8, to: 8}",
        "gather: all",
    )
    found = outline(pattern((20, 28), hat=steps), "hat")

    assert found[0].kind == "a hat lying flat"
    assert measured(found)["around the first edge"] == 48.0
    assert size_of(found[0].shapes[0])[0] == 24.0
    assert len(found[0].bands) == 1
    assert len(found[0].lines) == 3


def demo(name: str) -> Plan:
    return make_plan(read_source(DiskFiles(str(ROOT / name))))


def test_a_sock_agrees_with_what_its_pattern_prints() -> None:
    """The demo's own figures are added up from its steps."""
    plan = demo("patterns/slipway-socks")
    found = outline(plan, "sock")
    finished = {label: each.rounded for label, each in plan.measures.finished.items()}
    by_name = {each.name: each.mm for each in found[1]}

    assert by_name["foot, heel to toe"] == pytest.approx(finished["Foot length, heel to toe"])
    assert by_name["leg above the heel"] == pytest.approx(finished["Leg above the heel flap"])
    assert by_name["around the foot"] == pytest.approx(finished["Around the foot"])


def test_a_published_sock() -> None:
    """A magazine's sock of 2007, 64 stitches: flap of 33 rows over 32 of them, a heel turned to 18,
    18 picked up at either side, 86, less 2 in every other round to 64, toe less 4 in every other
    round to 28. The last row of the heel goes on around, so the foot is 14 + 22 + 40 + 18 = 94 rows
    long."""
    toe = (
        "k to 3 before marker, k2tog, k1, sm, k1, ssk, k to 3 before marker, k2tog, k1, sm, k1, "
        "ssk, k to end"
    )
    steps = (
        "cast on: 64",
        "{work: k all, rounds: 60}",
        '{work: ["k32, turn", "p32, turn"], rounds: 33}',
        'work: "p18, p2tog, p1, turn"',
        'work: "sl1, k5, ssk, k1, turn"',
        '{work: ["sl1, p to 1 before gap, p2tog, p1, turn", "sl1, k to 1 before gap, ssk, k1, '
        'turn"], times: 5}',
        'work: "sl1, p to 1 before gap, p2tog, turn"',
        'work: "sl1, k to 1 before gap, ssk, pick up and knit 18, pm, k32, pm, pick up and '
        'knit 18"',
        'work: "k9, new start of round"',
        '{taper: "k to 3 before marker, k2tog, k1, sm, k to marker, sm, k1, ssk, k to end", '
        "to: 64, over: 22, every: 2}",
        "{work: k all, rounds: 40}",
        f'{{taper: "{toe}", to: 28, over: 18, every: 2}}',
        'work: "k to marker, new start of round"',
        "join: itself",
    )
    found = outline(pattern((30, 42), sock=steps), "sock")

    assert measured(found) == {
        "around the leg": 21.33,
        "leg above the heel": 14.29,
        "heel flap": 7.86,
        "around the foot": 21.33,
        "foot, heel to toe": 22.38,
        "toe": 4.29,
    }


def test_a_glove_has_fingers_of_the_groups_it_holds() -> None:
    """The ring finger of a published glove: 9 of the palm, 14 of the back, 3 cast on between."""
    hand = (
        "hold 9 for palm of the ring finger, hold 9 for palm of the middle finger, "
        "hold 9 for palm of the index finger, hold 12 for back of the index finger, "
        "hold 11 for back of the middle finger, hold 14 for back of the ring finger"
    )
    fingers = [
        step
        for name, new, rounds in (("ring", 3, 24), ("middle", 8, 27), ("index", 7, 25))
        for step in (
            f'held: "back of the {name} finger, cast on {new}, palm of the {name} finger"',
            f"{{work: k all, rounds: {rounds}}}",
            "gather: all",
        )
    ]
    steps = ("cast on: 64", "{work: k all, rounds: 40}", f'work: "{hand}"', *fingers)
    found = outline(pattern((28, 40), glove=steps), "glove")
    cm = measured(found, spare=True)

    assert found[0].kind == "a glove lying flat"
    assert cm["around the ring finger"] == round(260 / 28, 2)
    assert (cm["ring finger"], cm["middle finger"], cm["index finger"]) == (6.0, 6.75, 6.25)
    assert len(found[0].shapes) == 4
    palm, *others = found[0].shapes
    assert all(max(y for _, y in each) >= min(y for _, y in palm) - 0.01 for each in others)


def test_a_yoke_of_the_demo_is_as_deep_and_wide_as_printed() -> None:
    plan = demo("patterns/mooring-line-pullover")
    outline_, dimensions = outline(plan, "body")
    finished = {label: each.rounded for label, each in plan.measures.finished.items()}
    by_name = {each.name: each.mm for each in dimensions}

    for name, label in (
        ("neck edge", "Around the neck edge"),
        ("yoke at the back", "Yoke depth at the back"),
        ("around the body at the underarms", "Chest"),
        ("around the sleeve at the underarm", "Upper arm"),
        ("around the cuff", "Around the cuff"),
        ("from the back of the neck to the lower edge", "Length at the back"),
    ):
        assert by_name[name] == pytest.approx(finished[label]), name
    sleeve, *bands, front = outline_.shapes
    assert size_of(front)[0] == pytest.approx(by_name["around the body at the underarms"][4] / 20)
    assert max(x for x, _ in sleeve) > max(x for x, _ in front)
    assert len(bands) == 2  # back and front of its neckband, above the front
    assert all(min(y for _, y in band) < min(y for _, y in front) for band in bands)
    assert by_name["neckband"] == pytest.approx([10 * 9 / 2.8] * 9)  # picked up, and 8 rounds


def test_a_sleeve_is_measured_along_its_underarm() -> None:
    """Its length runs from the underarm, and so stands on the lower side of the sleeve."""
    outline_, _ = outline(demo("patterns/mooring-line-pullover"), "body")
    sleeve = outline_.shapes[0]
    (whole,) = (each for each in outline_.measures if each.name == "length" and each.start[0] > 0)
    middle = sum(y for _, y in sleeve) / len(sleeve)

    body = outline_.shapes[-1]
    assert min(whole.start[1], whole.end[1]) > middle
    assert whole.start[0] > max(x for x, _ in body) - 10  # where it leaves the body


def test_a_crown_goes_in_evenly_though_its_rounds_go_in_by_steps() -> None:
    """The plaits lose all their stitches in few rounds, with plain ones between: the hat has no
    shoulders where it does. Where a crown begins and ends it is as wide as its rounds say."""
    outline_, _ = outline(demo("patterns/hawser-hat"), "hat")
    (line,) = outline_.shapes
    edge = sorted(((-y, x) for x, y in line if x > 0), key=lambda each: each[0])
    slopes = [
        (before[1] - after[1]) / (after[0] - before[0])
        for before, after in pairwise(edge)
        if after[0] > before[0]
    ]

    assert slopes == sorted(slopes)  # ever more, never less: no notch
    assert edge[-1][1] > 0


def test_a_thumb_stands_on_the_edge_of_its_gusset() -> None:
    """No corner of it hangs below the row that parts it, or stands out over the gusset there."""
    outline_, _ = outline(demo("patterns/netmender-mittens"), "mitten")
    hand, thumb = outline_.shapes
    low = max(y for _, y in thumb)
    gusset = max(x for x, _ in hand)
    (foot,) = {(round(x, 3), round(y, 3)) for x, y in thumb if x > gusset - 0.01 and y > low - 3.5}

    assert foot[0] == pytest.approx(gusset, abs=0.001)
    assert any(y == pytest.approx(foot[1], abs=3.5) for x, y in hand if x == pytest.approx(gusset))


def test_parts_of_a_sock_fill_it() -> None:
    """Each lies in the whole, and the straight ones are as long as they are measured."""
    outline_, dimensions = outline(demo("patterns/slipway-socks"), "sock")
    parts = {part.name: part for part in outline_.parts}
    mm = {each.name: each.mm[3] for each in dimensions}
    leg = parts["leg"].one

    toe = [y for x, y in parts["toe"].one]

    assert list(parts) == ["leg", "heel flap", "sole", "instep", "toe"]
    assert toe == sorted(toe, reverse=True)  # its edge goes in without a corner at its first round
    assert leg[-1][1] - leg[0][1] == pytest.approx(mm["leg above the heel"])
    assert parts["toe"].one[-1][0] - parts["toe"].one[0][0] == pytest.approx(mm["toe"])
    for part in outline_.parts[1:]:
        middle = tuple(
            sum(each[i] for line in (part.one, part.other) for each in line)
            / (len(part.one) + len(part.other))
            for i in (0, 1)
        )
        assert inside((middle[0], middle[1]), outline_.shapes[0]), part.name


def test_a_round_yoke_from_below_lies_over_body_and_sleeves() -> None:
    plan = demo("tests/patterns/lantern-yoke")
    outline_, dimensions = outline(plan, "body")
    by_name = {each.name: each.mm for each in dimensions}

    assert outline_.kind.startswith("a garment with a yoke")
    assert by_name["neck edge"] == pytest.approx((440.0, 460.0, 480.0))
    assert by_name["around the body at the underarms"] == pytest.approx((960.0, 1080.0, 1220.0))


def test_a_piece_without_rows_has_no_outline() -> None:
    with pytest.raises(PatternError, match="has no rows from which an outline could follow"):
        outline(pattern((20, 28), patch=("cast on: 8", "bind off: all")), "patch")


# ---------------------------------------------------------------- lines


@given(st.lists(st.tuples(st.floats(-90, 90), st.floats(-90, 90)), min_size=2, max_size=30))
def test_a_smoothed_line_keeps_its_ends_and_misses_nothing_by_more(
    points: list[tuple[float, float]],
) -> None:
    kept = smoothed(tuple(points), 5.0)

    assert (kept[0], kept[-1]) == (points[0], points[-1])
    assert set(kept) <= set(points)


def test_an_edge_whose_pace_changes_has_no_level_part_there() -> None:
    """Increases in every row, then in every second one: two slopes meet in a point."""
    wide = [*range(10), *(10 + step // 2 for step in range(20))]
    edge = paced([(float(row), float(out)) for row, out in enumerate(wide)])
    slopes = [(d - b) / (c - a) for (a, b), (c, d) in pairwise(edge) if c > a]
    assert slopes[:-1] == sorted(slopes[:-1], reverse=True)
    assert set(slopes[:-1]) == {1.0, 0.5}


def test_an_edge_is_a_slope_where_it_is_shaped_at_a_pace() -> None:
    """Rows 10, 14, 18 and 22 take a stitch each; before them the edge is straight."""
    width = [100.0] * 10 + [98.0] * 4 + [96.0] * 4 + [94.0] * 4 + [92.0] * 2
    edge = [(float(row), wide) for row, wide in enumerate(width)]

    assert paced(edge) == (
        (0.0, 100.0),
        (6.0, 100.0),
        (10.0, 98.0),
        (14.0, 96.0),
        (18.0, 94.0),
        (22.0, 92.0),
        (23.0, 92.0),
    )
