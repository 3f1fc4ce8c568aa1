"""Four techniques side by side; the times are ours, so only their arithmetic is checked."""

from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.colour.embroidery import Area, ThreadRule, plan_embroidery
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.technique import (
    Obstacle,
    Technique,
    TechniqueChoice,
    TechniquePrice,
    TechniqueRule,
    choose_for_area,
    choose_for_bands,
)

RULE = TechniqueRule(
    float_limit=3,
    minutes_per_stitch=1.0,
    minutes_per_change=10.0,
    minutes_per_stranded_stitch=0.25,
    minutes_per_crossing=0.25,
)


def grid(*lines: str, wraps: bool = True) -> ColourGrid:
    return ColourGrid(tuple(tuple(line) for line in reversed(lines)), wraps)


def price(choice: TechniqueChoice, technique: Technique) -> TechniquePrice:
    (found,) = (each for each in choice.prices if each.technique is technique)
    return found


def test_bands_are_rounds_with_the_same_yarns() -> None:
    choices = choose_for_bands(grid("bbbb", "abab", "baba", "aaaa", "aaaa"), RULE)

    assert [(each.first, each.last, each.yarns) for each in choices] == [
        (1, 2, ("a",)),
        (3, 4, ("a", "b")),
        (5, 5, ("b",)),
    ]
    assert [each.recommended for each in choices][::2] == [Technique.STRIPES] * 2


def test_each_price_of_a_flat_band() -> None:
    """8 stitches by 2 rows on a plain row: b joined once; blocks a, b, a with the left a new."""
    choice = choose_for_bands(grid("aabbbaaa", "aaabbaaa", "aaaaaaaa", wraps=False), RULE)[1]

    assert choice.prices == (
        TechniquePrice(Technique.STRIPES, None, (Obstacle.NOT_WHOLE_ROUNDS,)),
        TechniquePrice(Technique.STRANDED, 10 + 16 * 0.25, ()),
        TechniquePrice(Technique.INTARSIA, 2 * 10 + 4 * 0.25, ()),
        TechniquePrice(Technique.DUPLICATE, 5.0, ()),
    )
    assert choice.recommended is Technique.DUPLICATE


def test_the_same_band_in_a_tube_floats_too_far_and_cannot_be_intarsia() -> None:
    choice = choose_for_bands(grid("aabbbaaa", "aaabbaaa", "aaaaaaaa"), RULE)[1]

    assert price(choice, Technique.STRANDED).obstacles == (Obstacle.LONG_FLOATS,)
    assert price(choice, Technique.INTARSIA).obstacles == (Obstacle.TUBE,)


def test_small_repeats_are_stranded_and_large_blocks_are_intarsia() -> None:
    small = choose_for_bands(grid(*["ab" * 20, "ba" * 20] * 3), RULE)[0]
    large = choose_for_bands(grid(*["a" * 20 + "b" * 20] * 6, wraps=False), RULE)[0]

    assert small.recommended is Technique.STRANDED
    assert price(small, Technique.STRANDED).minutes == 10 + 240 * 0.25
    assert large.recommended is Technique.INTARSIA
    assert price(large, Technique.INTARSIA).minutes == 10 + 6 * 0.25


def test_three_colours_in_a_round_are_not_stranded() -> None:
    choice = choose_for_bands(grid("abcabc"), RULE)[0]

    assert price(choice, Technique.STRANDED).obstacles == (Obstacle.TOO_MANY_COLOURS,)


def test_a_stiff_area_gives_way_to_another_technique_if_one_is_free() -> None:
    lines = ["aabb"] * 3
    choice = choose_for_bands(grid(*lines), TechniqueRule(3, largest_area=5))[0]
    fallback = choose_for_bands(
        grid(*lines), TechniqueRule(1, largest_area=5, available=(Technique.DUPLICATE,))
    )[0]

    assert price(choice, Technique.DUPLICATE).obstacles == (Obstacle.STIFF,)
    assert choice.recommended is Technique.STRANDED
    assert price(fallback, Technique.STRANDED).obstacles == (
        Obstacle.LONG_FLOATS,
        Obstacle.NOT_AVAILABLE,
    )
    assert fallback.recommended is Technique.DUPLICATE


def test_the_commonest_yarn_of_a_band_is_knitted_and_the_other_embroidered() -> None:
    """7 of 8 stitches are b, so one stitch is embroidered on a band of b, which is joined."""
    choice = choose_for_bands(grid("bbbbabbb", "aaaaaaaa"), RULE)[1]

    assert price(choice, Technique.DUPLICATE).minutes == 1.0 + 10.0


def test_a_plain_band_costs_its_yarn_whatever_the_technique() -> None:
    """Nothing is carried, crossed or embroidered in it, and nothing is long or stiff."""
    rule = TechniqueRule(0, minutes_per_change=10.0, largest_area=0)
    band = choose_for_bands(grid("bbbb", "aaaa", wraps=False), rule)[1]

    assert band.prices == tuple(TechniquePrice(each, 10.0, ()) for each in Technique)


def test_intarsia_goes_on_at_both_edges_with_the_yarns_below() -> None:
    """Rows are not round, so the two a are two lengths of yarn, and only b is joined."""
    choice = choose_for_bands(grid("abba", "acca", wraps=False), RULE)[1]

    assert price(choice, Technique.INTARSIA).minutes == 10.0 + 2 * 0.25


def test_an_area_across_the_start_of_the_round_is_one() -> None:
    rule = TechniqueRule(3, largest_area=1)
    for wraps, obstacles in ((True, (Obstacle.STIFF,)), (False, ())):
        (choice,) = choose_for_bands(grid("baaab", wraps=wraps), rule)
        assert price(choice, Technique.DUPLICATE).obstacles == obstacles


def test_equal_times_go_to_the_technique_named_first() -> None:
    rule = TechniqueRule(
        3, minutes_per_stitch=0, minutes_per_stranded_stitch=0, minutes_per_change=0
    )

    assert choose_for_bands(grid("abab"), rule)[0].recommended is Technique.STRANDED


def test_a_lone_area_in_a_tube_is_embroidered() -> None:
    picture = grid("aaabbbaaaccc", "aaabbbaaaaaa", "aaaaaaaaaaaa")
    shown = [[None if each == "a" else each for each in row] for row in picture.rounds]
    first, _ = plan_embroidery(shown, ("b", "c"), ThreadRule(16.0, 5.0)).areas

    choice = choose_for_area(picture, first, RULE)

    assert (choice.first, choice.last, choice.yarns) == (2, 3, ("b",))
    assert price(choice, Technique.DUPLICATE).minutes == 6.0
    assert price(choice, Technique.STRANDED) == TechniquePrice(
        Technique.STRANDED, 10 + 24 * 0.25, (Obstacle.LONG_FLOATS,)
    )
    assert choice.recommended is Technique.DUPLICATE


def test_an_area_of_whole_rounds_is_a_stripe() -> None:
    picture = grid("bbbbbbbbbbbb", "bbbbbbbbbbbb", "aaaaaaaaaaaa")
    shown = [[None if each == "a" else each for each in row] for row in picture.rounds]
    (area,) = plan_embroidery(shown, ("b",), ThreadRule(16.0, 5.0)).areas

    choice = choose_for_area(picture, area, RULE)

    assert price(choice, Technique.DUPLICATE).minutes == 24.0
    assert choice.recommended is Technique.STRIPES


def area_of(picture: ColourGrid) -> Area:
    """The one area of ``b``."""
    shown = [[None if each == "a" else each for each in row] for row in picture.rounds]
    (area,) = plan_embroidery(shown, ("b",), ThreadRule(16.0, 5.0)).areas
    return area


@pytest.mark.parametrize(
    ("lines", "minutes"),
    [
        (("bbbb", "bbbb", "aaaa"), 10.0),  # joined after the ground
        (("aaaa", "bbbb", "bbbb"), 0.0),  # the cast-on yarn is free
        (("aaaa", "bbbb", "aaaa"), 10.0),  # what comes after is not the area's to pay
    ],
)
def test_a_stripe_pays_for_its_own_yarn_only(lines: tuple[str, ...], minutes: float) -> None:
    picture = grid(*lines)

    choice = choose_for_area(picture, area_of(picture), RULE)
    assert price(choice, Technique.STRIPES).minutes == minutes


def test_a_large_area_is_stiff_in_duplicate_stitch() -> None:
    picture = grid("abba", "abba", "aaaa")
    area = area_of(picture)
    for largest, obstacles in ((3, (Obstacle.STIFF,)), (4, ()), (None, ())):
        rule = TechniqueRule(3, largest_area=largest)
        assert (
            price(choose_for_area(picture, area, rule), Technique.DUPLICATE).obstacles == obstacles
        )


@given(
    st.integers(1, 8).flatmap(
        lambda width: st.lists(st.text("ab", min_size=width, max_size=width), max_size=5)
    )
)
def test_intarsia_blocks_are_the_fewest_lengths_of_yarn(lines: list[str]) -> None:
    """Reference: most runs carried up is a maximum matching of networkx between two rows."""
    picture = grid(*lines, "a" * len(lines[0]) if lines else "a", wraps=False)
    per_block = TechniqueRule(3, minutes_per_change=1, minutes_per_crossing=0)

    found = sum(
        price(choice, Technique.INTARSIA).minutes or 0
        for choice in choose_for_bands(picture, per_block)
    )

    runs = [runs_of(row) for row in picture.rounds]
    carried = 0
    for under, here in pairwise(runs):
        graph = nx.Graph()
        graph.add_nodes_from(("under", run) for run in under)
        graph.add_edges_from(
            (("under", low), ("here", high))
            for low in under
            for high in here
            if low[0] == high[0] and low[1] <= high[2] + 1 and high[1] <= low[2] + 1
        )
        top = {("under", run) for run in under}
        carried += len(nx.bipartite.maximum_matching(graph, top)) // 2
    assert found == pytest.approx(sum(len(row) for row in runs) - carried - 1)


def runs_of(row: tuple[str, ...]) -> list[tuple[str, int, int]]:
    runs: list[tuple[str, int, int]] = []
    for at, yarn in enumerate(row):
        if runs and runs[-1][0] == yarn:
            runs[-1] = (yarn, runs[-1][1], at)
        else:
            runs.append((yarn, at, at))
    return runs
