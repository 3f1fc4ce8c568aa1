"""Duplicate stitch: areas, working order, starts and thread."""

from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.plan.colour.embroidery import (
    Embroidery,
    ThreadRule,
    YarnThread,
    plan_embroidery,
)

Rows = list[list[str | None]]
RULE = ThreadRule(loop_mm=16.0, stitch_mm=5.0)


@st.composite
def pictures(draw: st.DrawFn) -> tuple[Rows, bool]:
    width = draw(st.integers(1, 12))
    row = st.lists(st.sampled_from([None, None, "a", "b"]), min_size=width, max_size=width)
    return draw(st.lists(row, min_size=1, max_size=7)), draw(st.booleans())


def cells(*lines: str) -> Rows:
    """Rows from lines as they look, ``.`` for what is not embroidered."""
    return [[None if each == "." else each for each in line] for line in reversed(lines)]


def embroider(*lines: str, wraps: bool = True, rule: ThreadRule = RULE) -> Embroidery:
    return plan_embroidery(cells(*lines), ("a", "b"), rule, wraps)


def places_of(rows: Rows) -> dict[tuple[int, int], str]:
    return {
        (round_, len(row) - at): yarn
        for round_, row in enumerate(rows, start=1)
        for at, yarn in enumerate(row)
        if yarn is not None
    }


def passed(here: tuple[int, int], there: tuple[int, int], width: int, wraps: bool) -> int:
    across = abs(here[1] - there[1])
    if wraps:
        across = min(across, width - across)
    return max(across, abs(here[0] - there[0]), 1) - 1


@settings(deadline=None)
@given(pictures())
def test_areas_are_the_connected_parts_of_the_touching_graph(drawn: tuple[Rows, bool]) -> None:
    """Reference: connected components of networkx over stitches that touch by side or corner."""
    rows, wraps = drawn
    width = len(rows[0])
    places = places_of(rows)
    touching = nx.Graph()
    touching.add_nodes_from(places)
    touching.add_edges_from(
        (here, there)
        for here, yarn in places.items()
        for there in places
        if here < there and places[there] == yarn and passed(here, there, width, wraps) == 0
    )

    areas = plan_embroidery(rows, ("a", "b"), RULE, wraps).areas

    expected = {frozenset(part) for part in nx.connected_components(touching)}
    assert {frozenset(area.cells) for area in areas} == expected
    for area in areas:
        assert len(area.cells) == len(set(area.cells)) == area.stitches
        assert {places[place] for place in area.cells} == {area.yarn}
        rounds = [round_ for round_, _ in area.cells]
        assert (area.first_round, area.last_round) == (min(rounds), max(rounds))


@settings(deadline=None)
@given(pictures(), st.integers(0, 4))
def test_a_thread_is_cut_exactly_where_it_would_jump_too_far(
    drawn: tuple[Rows, bool], limit: int
) -> None:
    rows, wraps = drawn
    width = len(rows[0])
    rule = ThreadRule(16.0, 5.0, jump_limit=limit)

    plan = plan_embroidery(rows, ("a", "b"), rule, wraps)

    for thread in plan.threads:
        own = [area for area in plan.areas if area.yarn == thread.yarn]
        order = [place for area in own for place in area.cells]
        far = [
            there for here, there in pairwise(order) if passed(here, there, width, wraps) > limit
        ]
        new = [(start.round_, start.stitch) for area in own for start in area.starts if start.new]
        assert new == order[:1] + far
        assert thread.starts == len(new)
        assert thread.areas == len(own)
        assert [(area.first_round) for area in own] == sorted(area.first_round for area in own)
        for area in own:
            assert sum(start.stitches for start in area.starts) == area.stitches


@settings(deadline=None)
@given(pictures(), st.sampled_from([(600.0, 75.0), (250.0, 75.0), (180.0, 60.0)]))
def test_thread_agrees_with_sewing_it_stitch_by_stitch(
    drawn: tuple[Rows, bool], strand: tuple[float, float]
) -> None:
    """Sew the working order with a needle that knows only its strand; count what is used."""
    rows, wraps = drawn
    width = len(rows[0])
    length, tail = strand
    rule = ThreadRule(16.0, 5.0, strand_mm=length, tail_mm=tail)

    plan = plan_embroidery(rows, ("a", "b"), rule, wraps)

    for thread in plan.threads:
        left, used, strands = -1.0, 0.0, 0
        before = None
        for area in plan.areas:
            for place in area.cells if area.yarn == thread.yarn else ():
                jump: int | None = None if before is None else passed(before, place, width, wraps)
                needs = 16.0 * 1.5 + (0 if jump is None else jump * 5.0)
                if jump is None or jump > 3 or left < needs:
                    left, needs, strands, used = (
                        length - 2 * tail,
                        24.0,
                        strands + 1,
                        used + 2 * tail,
                    )
                left, used, before = left - needs, used + needs, place
        assert thread.strands == strands
        assert thread.thread_mm == pytest.approx(used)
        assert thread.thread_mm <= strands * length + 1e-6


def test_the_handbook_strand_is_60_cm() -> None:
    """24 in or 60 cm at most, tails of 3 in or more (handbook rules)."""
    assert abs(RULE.strand_mm - 24 * 25.4) < 10
    assert RULE.tail_mm >= 3 * 25.4


def test_rows_are_worked_right_to_left_then_back() -> None:
    """Bottom row right to left, the next left to right (handbook rule)."""
    (area,) = embroider(".aaa....", ".aaa....").areas

    assert area.cells == ((1, 5), (1, 6), (1, 7), (2, 7), (2, 6), (2, 5))
    (start,) = area.starts
    assert (start.round_, start.stitch, start.stitches, start.jump) == (1, 5, 6, None)


def test_an_area_crosses_the_start_of_the_round_in_a_tube_only() -> None:
    lines = ("a......a", "aa.....a")

    (area,) = embroider(*lines).areas
    assert area.cells == ((1, 7), (1, 8), (1, 1), (2, 1), (2, 8))

    assert len(embroider(*lines, wraps=False).areas) == 2


def test_a_slanting_line_is_one_area_in_one_go() -> None:
    (area,) = embroider("a.....", ".a....", "..a...").areas

    assert area.cells == ((1, 4), (2, 5), (3, 6))
    assert len(area.starts) == 1


def test_two_prongs_are_worked_one_after_the_other() -> None:
    """A jump from prong to prong in every row would be longer than three stitches."""
    (area,) = embroider("a......a......", "a......a......", "aaaaaaaa......").areas

    assert [(start.round_, start.stitch, start.stitches) for start in area.starts] == [
        (1, 7, 10),
        (2, 7, 2),
    ]
    assert area.cells[8:] == ((2, 14), (3, 14), (2, 7), (3, 7))
    assert [start.new for start in area.starts] == [True, True]


def test_every_area_begins_at_its_lowest_round_however_near_the_thread_is_above() -> None:
    """The first area ends in round 3, beside the middle of the second."""
    plan = embroider("....a..", "....a..", "....a..", "..a.a..", "..a.a..", "..a....")

    assert [area.cells[0] for area in plan.areas] == [(1, 5), (2, 3)]
    assert plan.areas[1].cells == tuple((round_, 3) for round_ in range(2, 7))


def test_an_area_is_entered_at_the_end_nearest_to_the_thread() -> None:
    """The thread is at stitch 6 of round 1, two rounds below."""
    plan = embroider("..aaaa..", "........", "..aa....", wraps=False)

    assert [area.cells for area in plan.areas] == [
        ((1, 5), (1, 6)),
        ((3, 6), (3, 5), (3, 4), (3, 3)),
    ]


def test_near_dots_share_a_thread_and_far_ones_do_not() -> None:
    """Up to three stitches may be passed behind (handbook rule)."""
    plan = embroider("..........a.....a...a")

    starts = [start for area in plan.areas for start in area.starts]
    assert [(start.stitch, start.jump, start.new) for start in starts] == [
        (1, None, True),
        (5, 3, False),
        (11, 5, True),
    ]
    assert plan.threads[0].starts == 2
    assert [start.strands for start in starts] == [1, 0, 1]
    # 24 mm a stitch, 15 mm behind three stitches, and the two tails of each strand
    assert [start.thread_mm for start in starts] == [324.0, 39.0, 324.0]


def test_a_ring_begins_at_stitch_1_and_climbs_without_a_new_start() -> None:
    (area,) = embroider("aaaaaa", "aaaaaa").areas

    assert area.cells[:6] == tuple((1, stitch) for stitch in range(1, 7))
    assert area.cells[6] == (2, 6)
    assert len(area.starts) == 1


def test_a_yarn_without_stitches_needs_no_thread() -> None:
    assert embroider("..a.").threads[1] == YarnThread("b", 0, 0, 0, 0, 0)


def test_without_a_word_the_cells_are_a_tube() -> None:
    assert len(plan_embroidery(cells("a..a"), ("a",), RULE).areas) == 1


def test_no_rounds_need_no_thread() -> None:
    assert plan_embroidery([], ("a",), RULE) == Embroidery(
        (), (YarnThread("a", 0, 0, 0, 0, 0),), RULE
    )


@pytest.mark.parametrize(
    ("line", "working_mm", "strands"),
    [
        # 24 mm a stitch; 15 mm behind three stitches
        ("a", 24, 1),
        ("aa", 24, 2),
        ("aa", 48, 1),
        ("aa", 47.9, 2),
        ("aa...a", 24 + 15 + 24 + 24, 1),
        ("aa...a", 24 + 15 + 24 + 23.9, 2),
        ("aa...a", 24 + 15 + 24, 2),
        ("aa...a", 24 + 15 + 23.9, 2),  # the second strand begins at the dot further on
    ],
)
def test_a_strand_is_used_to_its_last_millimetre(
    line: str, working_mm: float, strands: int
) -> None:
    rule = ThreadRule(16.0, 5.0, strand_mm=150 + working_mm, tail_mm=75)

    assert embroider(line, wraps=False, rule=rule).threads[0].strands == strands


def test_every_new_start_has_its_strand_however_fine_the_thread() -> None:
    plan = embroider("a.....a", wraps=False, rule=ThreadRule(0.5, 5.0))

    assert (plan.threads[0].starts, plan.threads[0].strands) == (2, 2)


def test_a_strand_shorter_than_its_tails_and_a_stitch_is_refused() -> None:
    with pytest.raises(PatternError) as raised:
        embroider("a", rule=ThreadRule(16.0, 5.0, strand_mm=170, tail_mm=75))

    assert [finding.id for finding in raised.value.findings] == ["strand.short"]
