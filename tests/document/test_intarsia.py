"""Charts in intarsia: bobbins and areas counted with a pencil, and what is told of them."""

import pytest

from bindoff.diagnostics import PatternError
from bindoff.files import SOURCE_NAME
from bindoff.pipeline import check_pattern
from bindoff.plan.colour.bobbins import Bobbins, bobbins_of
from bindoff.plan.worked import ChartWork
from bindoff.plan.yarn import Purpose
from tests.document.patterns import (
    TWO_YARNS,
    Data,
    built,
    data,
    files_of,
    plan_of,
    said,
    step_words,
)

# A window of slate in foam: the foam round it is one area, though two lengths of it are knitted
# with at once in the middle rows; the slate is one.
WINDOW = "##########\n##......##\n##......##\n##########\n"
STRIPED = "....##....\n....##....\n"


def piece(
    grid: str, flat: bool = True, mode: str | None = "intarsia"
) -> tuple[Data, dict[str, str]]:
    chart: Data = {
        "title": "Window",
        "grid": "window.grid",
        "legend": {".": "slate", "#": "foam"},
        "alt": "A window",
    }
    if mode:
        chart["mode"] = mode
    steps: list[Data] = [{"cast on": 20}, {"chart": "window"}, {"bind off": "all"}]
    source = data(steps, charts={"window": chart}, **TWO_YARNS)
    source["pieces"]["cap"]["worked"] = "flat" if flat else "round"
    return source, {"window.grid": grid}


def test_bobbins_are_counted_row_by_row_and_areas_as_a_whole() -> None:
    assert bobbins_of([tuple(row) for row in WINDOW.split()]) == (
        Bobbins("#", 1, 2, 2),
        Bobbins(".", 1, 1, 1),
    )


@pytest.mark.parametrize(
    ("grid", "lengths"),
    [
        (WINDOW, {"#": 2, ".": 1}),  # parts around the window and meets again: one ends there
        (
            "#..#\n.##.\n#..#\n",
            {"#": 3, ".": 2},
        ),  # two come to one corner each, and one of them goes on
        ("#.#.#\n#####\n#.#.#\n", {"#": 5, ".": 4}),  # three meet in one, and part again
        ("##..\n##..\n..##\n..##\n", {"#": 1, ".": 1}),  # a yarn goes on at a corner
    ],
)
def test_lengths_are_counted_where_areas_part(grid: str, lengths: dict[str, int]) -> None:
    """Worked out with a pencil: a run in a row needs a new length unless one of its yarn that
    nobody else took ends below it or at its corner."""
    rows = [tuple(row) for row in reversed(grid.split())]

    assert {each.yarn: each.lengths for each in bobbins_of(rows)} == lengths


def test_an_area_that_parts_is_told_with_its_lengths_and_all_their_ends() -> None:
    source, files = piece(WINDOW)

    assert "There are 3 areas in all, worked with 5 lengths of yarn, each with two ends." in (
        step_words(source, 1, files)
    )


def test_side_by_side_the_areas_that_meet_are_one() -> None:
    """Twice across: slate 4, foam 2, slate 8, foam 2, slate 4."""
    source, files = piece(STRIPED)
    (step,) = (step for step in plan_of(source, files).pieces[0].steps if step.charts)
    assert isinstance(step.detail, ChartWork)

    assert {use.yarn: (use.areas, use.at_once) for use in step.detail.bobbins[0]} == {
        "slate": (3, 3),
        "foam": (2, 2),
    }
    text = step_words(source, 1, files)
    assert "Work it in intarsia: each area has a yarn of its own." in text
    assert "Bobbins in use at once, at the most: Slate 3, Foam 2." in text
    assert "There are 5 areas in all, with two ends each." in text


def test_no_floats_are_warned_of_or_counted_in_the_yarn() -> None:
    wide = "#......................................#\n" * 2
    areas, carried = (piece(wide, mode=mode) for mode in ("intarsia", None))
    for source, _ in (areas, carried):
        source["pieces"]["cap"]["steps"][0] = {"cast on": 40}

    foam = [
        next(total for total in plan_of(*made).yarn if total.yarn == "foam").needs[0].parts
        for made in (areas, carried)
    ]
    warned = [
        {each.id for each in check_pattern(files_of(*made), SOURCE_NAME, "cap")}
        for made in (areas, carried)
    ]
    used = [{part.name for part in parts} for parts in foam]
    assert "float.long" not in warned[0]
    assert "float.long" in warned[1]
    assert Purpose.FLOATS not in used[0]
    assert Purpose.FLOATS in used[1]


def test_its_own_technique_is_explained_and_that_of_floats_is_not() -> None:
    text = said(built(*piece(STRIPED))[0].blocks)

    assert "Knitting areas of color in rows" in text
    assert "Knitting with two yarns in a round" not in text


def test_in_rounds_it_is_refused() -> None:
    with pytest.raises(PatternError) as caught:
        plan_of(*piece(STRIPED, flat=False))

    assert caught.value.findings[0].id == "chart.intarsia"
