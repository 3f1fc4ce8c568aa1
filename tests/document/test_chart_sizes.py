"""Charts with a grid for each size, and those that some sizes skip."""

from typing import Any

import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.build import build_document
from bindoff.document.differencewords.sections import change_blocks
from bindoff.plan.differences.find import differences
from bindoff.plan.plan import Plan, make_plan
from bindoff.source.onesize import one_size
from bindoff.source.read import read_source
from tests.document.patterns import Data, data, files_of, plan_of, said, step_words, tube
from tests.document.test_chartpages import pages
from tests.test_compare import lines_of

LEGEND = {".": "k", "-": "p", ">": "k2tog", "x": "no stitch"}
SMALL = "x>..\n...."
"""4 stitches a repeat, 3 after row 2."""
LARGE = "xx>..\nx>..-\n....-"
"""5 stitches a repeat, 3 after row 3."""
FILES = {"small.grid": SMALL, "large.grid": LARGE}
BY_SIZE = {"A": "small.grid", "B": "small.grid", "C": "large.grid"}


def crown(
    grid: Any = BY_SIZE, rounds: Any = None, cast_on: tuple[int, ...] = (40, 48, 60)
) -> tuple[Data, dict[str, str]]:
    """A cap of three sizes that ends in a chart."""
    entry = {"title": "Star", "grid": grid, "legend": LEGEND, "alt": "A star."}
    step = {"chart": "star"} | ({} if rounds is None else {"rounds": rounds})
    source = data([{"cast on": "n"}, step, {"bind off": "all"}], 3, charts={"star": entry})
    source["measures"]["n"] = list(cast_on)
    return source, dict(FILES)


def after(plan: Plan) -> tuple[int, ...]:
    return tuple(progress.stitches for progress in plan.pieces[0].steps[1].after)


def test_every_size_works_its_own_grid() -> None:
    """40 / 4 = 10 and 48 / 4 = 12 repeats of 3 stitches after; 60 / 5 = 12 of 3."""
    source, files = crown()
    plan = plan_of(source, files)
    step = plan.pieces[0].steps[1]

    assert step.rounds == (2, 2, 3)
    assert after(plan) == (30, 36, 36)
    assert [(part.rounds, part.across) for part in step.charts] == [
        ((2, 2, 0), (10, 12, 0)),
        ((0, 0, 3), (0, 0, 12)),
    ]


def test_a_list_in_the_order_of_sizes_says_the_same() -> None:
    source, files = crown(["small.grid", "small.grid", "large.grid"])

    assert after(plan_of(source, files)) == (30, 36, 36)


def test_sizes_that_share_a_grid_share_a_page_and_titles_name_the_sizes() -> None:
    source, files = crown()
    found = pages(source, files)

    assert [page.spec.title for page in found.values()] == [
        "Star, sizes A and B",
        "Star, size C",
    ]
    assert [(page.spec.width, page.spec.height) for page in found.values()] == [(4, 2), (5, 3)]
    assert step_words(source, 1, files) == (
        "Work the chart for your size (Star chart, sizes A and B; Star chart, size C) once. That "
        "makes 2 (2, 3) rounds. In every round, work its stitches 10 (12, 12) times. 30 (36, 36) "
        "stitches."
    )


def test_one_size_has_its_own_chart_alone() -> None:
    source, files = crown()
    whole = read_source(files_of(source, files))
    plan = make_plan(one_size(whole, "C"))
    document, (page,) = build_document(plan, files_of(source, files))
    text = said(document.blocks)

    assert page.spec.title == "Star"
    assert page.spec.width == 5
    assert after(plan) == (36,)
    assert "Work rounds 1 to 3 of the Star chart. In every round, work its stitches 12" in text


@pytest.mark.parametrize("named", [BY_SIZE, "small.grid"])
def test_a_size_that_works_no_round_skips_the_step(named: Any) -> None:
    """Its stitches need not fit."""
    source, files = crown(named, {"A": 2, "B": 0, "C": 0}, (40, 49, 61))
    plan = plan_of(source, files)

    assert after(plan) == (30, 49, 61)
    assert list(pages(source, files)) == ["star"]
    words = step_words(source, 1, files)
    assert words.startswith("Sizes B and C skip this step. Work rounds 1 to 2 of the Star chart")
    assert "In every round, work its stitches 10 times." in words


def test_a_size_that_skips_a_chart_has_no_page_of_it_in_its_own_edition() -> None:
    source, files = crown("small.grid", {"A": 2, "B": 0, "C": 0}, (40, 49, 61))
    plan = make_plan(one_size(read_source(files_of(source, files)), "B"))
    document, found = build_document(plan, files_of(source, files))

    assert found == ()
    assert "There are no rounds to work here." in said(document.blocks)


@pytest.mark.parametrize(
    ("grid", "message"),
    [
        ({"A": "small.grid", "B": "small.grid"}, "there is no value for C"),
        (BY_SIZE | {"D": "large.grid"}, "the pattern has no size `D`"),
        (["small.grid", "large.grid"], "2 values for 3 sizes"),
        (BY_SIZE | {"C": "lost.grid"}, "lost.grid"),
    ],
)
def test_a_grid_for_every_size_or_the_place_of_what_is_missing(grid: Any, message: str) -> None:
    source, files = crown(grid)
    with pytest.raises(PatternError) as caught:
        plan_of(source, files)
    found = caught.value.findings[0]

    assert message in found.message
    assert found.span is not None
    assert found.span.line > 1


def test_a_fault_in_one_grid_is_told_of_its_sizes_at_its_file() -> None:
    source, files = crown()
    files["large.grid"] = LARGE.replace("xx>..", "x>>..")
    with pytest.raises(PatternError) as caught:
        plan_of(source, files)
    (found,) = caught.value.findings

    assert found.id == "chart.count"
    assert found.span is not None
    assert found.span.file.endswith("large.grid")


def test_what_changed_in_one_grid_is_told_of_its_sizes() -> None:
    source, files = crown()
    old = plan_of(source, files)
    new = plan_of(source, files | {"large.grid": LARGE.replace("....-", "...--")})

    text = "\n".join(lines_of(change_blocks(differences(old, new), 3)))
    assert "1 stitch has changed, in round 1 of size C" in text


def test_a_picture_may_be_drawn_for_each_size() -> None:
    source, files = tube("..#.\n.##.", {".": "slate", "#": "foam"})
    source["charts"]["boat"]["grid"] = {"A": "boat.grid", "B": "wide.grid"}
    files["wide.grid"] = "....##..\n...###..\n...####."
    found = pages(source, files)
    plan = plan_of(source, files)

    assert [each.last - each.first + 1 for each in plan.pieces[0].steps[0].tubes] == [2, 3]
    seen = [page for id, page in found.items() if id.startswith("picture")]
    assert [page.spec.title for page in seen] == [
        "Boat, as it will be seen, size A",
        "Boat, as it will be seen, size B",
    ]
    assert [page.spec.height for page in seen] == [2, 3]
