"""The working order against its description, followed group by group by other means."""

from itertools import pairwise

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.colour.areas import CellRun, find_areas
from bindoff.plan.colour.working_order import Fabric, Place, working_order


def test_distance_is_what_the_thread_passes() -> None:
    flat, tube = Fabric(20, False, 3), Fabric(20, True, 3)

    assert [flat.passed((1, 1), there) for there in ((1, 1), (1, 2), (2, 2), (1, 5), (6, 3))] == [
        *(0, 0, 0, 3, 4)
    ]
    assert (flat.passed((1, 1), (1, 20)), tube.passed((1, 1), (1, 20))) == (18, 0)
    assert [flat.reaches((1, 1), (1, stitch)) for stitch in (5, 6)] == [True, False]
    assert [flat.reaches((1, 1), (round_, 1)) for round_ in (5, 6)] == [True, False]


def groups_of(places: set[Place], fabric: Fabric) -> list[set[Place]]:
    """Stitches of a round that can be reached one from another: components of networkx."""
    near = nx.Graph()
    near.add_nodes_from(places)
    near.add_edges_from(
        (here, there)
        for here in places
        for there in places
        if here[0] == there[0] and here < there and fabric.reaches(here, there)
    )
    return [set(part) for part in nx.connected_components(near)]


def walks(group: set[Place], fabric: Fabric) -> list[list[Place]]:
    """The ways to work a group in one go: from either end, or once around the tube."""
    row = sorted(group)
    around = [[*row[at:], *row[:at]] for at in range(len(row))]
    if not fabric.wraps:
        return [row, row[::-1]]
    # A group that does not ring the tube has one gap too wide to pass, and begins after it.
    ends = [
        walk for walk in around if (walk[0][1] - walk[-1][1] - 1) % fabric.width > fabric.jump_limit
    ]
    return [ends[0], ends[0][::-1]] if ends else around


def rings(group: set[Place], fabric: Fabric) -> bool:
    """Whether the thread can go around the tube and on."""
    row = [stitch for _, stitch in sorted(group)]
    gaps = [(after - before - 1) % fabric.width for before, after in pairwise([*row, row[0]])]
    return fabric.wraps and max(gaps) <= fabric.jump_limit


@st.composite
def drawn(draw: st.DrawFn) -> tuple[list[list[str | None]], Fabric, Place | None]:
    width = draw(st.integers(1, 16))
    row = st.lists(st.sampled_from(["a", "a", None]), min_size=width, max_size=width)
    rows = draw(st.lists(row, min_size=1, max_size=6))
    fabric = Fabric(width, draw(st.booleans()), draw(st.integers(0, 4)))
    at = st.tuples(st.integers(1, 6), st.integers(1, width))
    return rows, fabric, draw(st.none() | at)


@given(drawn())
def test_every_group_is_worked_in_one_go_and_entered_at_its_nearest_end(
    case: tuple[list[list[str | None]], Fabric, Place | None],
) -> None:
    rows, fabric, start = case
    for runs in find_areas(rows, fabric.wraps):
        left = groups_of(
            {(run.round_, stitch) for run in runs for stitch in run.stitches(fabric.width)}, fabric
        )
        at, order = start, working_order(runs, fabric, start).places
        first = True
        while order:
            group = next(each for each in left if order[0] in each)
            walk, order = order[: len(group)], order[len(group) :]
            # in one go
            assert walk in walks(group, fabric)
            # the nearest of the next round within reach, else the lowest and right-most left
            above = [] if first or at is None else [g for g in left if min(g)[0] == at[0] + 1]
            reachable = [
                fabric.nearness(at, way[0])
                for other in above
                for way in walks(other, fabric)
                if at is not None and fabric.reaches(at, way[0])
            ]
            if reachable:
                assert at is not None
                assert fabric.nearness(at, walk[0]) == min(reachable)
            else:
                rounds = {min(other)[0]: other for other in left}
                lowest = [other for other in left if min(other)[0] == min(rounds)]
                begins = {walks(other, fabric)[0][0]: other for other in lowest}
                assert group in lowest
                if rings(group, fabric):
                    assert len(lowest) == 1  # a ring is the whole of its round
                else:
                    assert group == begins[min(begins)]
            # from its nearest end, or right to left where none is within reach
            ways = walks(group, fabric)
            if at is not None and any(fabric.reaches(at, way[0]) for way in ways):
                assert fabric.nearness(at, walk[0]) == min(
                    fabric.nearness(at, way[0]) for way in ways
                )
            elif not rings(group, fabric):
                assert walk == ways[0]
            left.remove(group)
            at, first = walk[-1], False
        assert not left


def stitches(places: list[Place], round_: int) -> list[int]:
    return [stitch for at, stitch in places if at == round_]


def test_of_two_groups_the_one_with_the_nearer_end_is_next() -> None:
    """From stitch 6 both are a step away: stitch 5 ends the first, 7 begins the second."""
    runs = [CellRun("a", 1, 3, 4), CellRun("a", 2, 1, 5), CellRun("a", 2, 7, 3)]
    order = working_order(runs, Fabric(12, False, 0), None).places

    assert stitches(order, 1) == [3, 4, 5, 6]
    assert stitches(order, 2) == [5, 4, 3, 2, 1, 7, 8, 9]


def test_where_no_group_above_is_within_reach_the_lowest_is_next() -> None:
    runs = [CellRun("a", 1, 1, 2), CellRun("a", 1, 9, 2), CellRun("a", 2, 6, 5)]
    order = working_order(runs, Fabric(12, False, 0), None).places

    assert order == [(1, 1), (1, 2), (1, 9), (1, 10), (2, 10), (2, 9), (2, 8), (2, 7), (2, 6)]


def test_a_ring_is_entered_above_the_thread_and_worked_around() -> None:
    order = working_order(
        [CellRun("a", 1, 3, 1), CellRun("a", 2, 1, 6)], Fabric(6, True, 0), None
    ).places

    assert order == [(1, 3), (2, 3), (2, 4), (2, 5), (2, 6), (2, 1), (2, 2)]
