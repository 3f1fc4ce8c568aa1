"""What a plan of stripes promises: no stripe lower than asked unless it is told, no yarn changed
where nobody sees it, and seen rounds without those that the brim covers."""

from itertools import groupby

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from bindoff.plan.coloured import seen
from bindoff.plan.picture import PicturePlan
from tests.small_patterns import TUBE, changed, plan_of

grids = st.lists(st.text(".#", min_size=8, max_size=8), min_size=4, max_size=4).filter(
    lambda grid: "#" in "".join(grid)
)


def written(start: int, least: int, stripe: int | None, lining: bool) -> str:
    """The small tube: 24 needles, 4 rounds of brim and 14 that its outside has."""
    zones = "yarns: {lining: foam}, " * lining
    wanted = f"stripes: [{{from: {stripe} rounds above rim, rounds: 1, yarn: foam}}], "
    return changed(
        TUBE,
        ("{visible:", f"{{{zones}{wanted if stripe is not None else ''}visible:"),
        ("start: 1,", f"start: {start},"),
        ("    steps:", f"    colour plan: {{shortest stripe: {least}}}\n    steps:"),
    )


def files(text: str, grid: list[str]) -> MemoryFiles:
    return MemoryFiles({"pattern.yaml": text, "waves.grid": "\n".join(grid) + "\n"})


def outside(plan: PicturePlan) -> range:
    """The rounds that are seen, by the heights of the zones: gather 1, lining 14, brim 4 and 4, and
    4 of the body that it covers."""
    return range(1 + 14 + 4 + 4 + 4 + 1, 1 + 14 + 4 + 4 + 14 + 1)


@settings(max_examples=25, deadline=None)
@given(grids, st.integers(4, 9), st.integers(2, 6), st.none() | st.integers(4, 12), st.booleans())
def test_a_stripe_lower_than_asked_is_told_and_yarns_change_where_they_are_seen(
    grid: list[str], start: int, least: int, stripe: int | None, lining: bool
) -> None:
    if stripe is not None and start <= stripe < start + 4:
        stripe = None  # in a round of the picture: refused
    text = written(start, least, stripe, lining)
    plan = plan_of(text, "\n".join(grid) + "\n").pieces[0].steps[0].tubes[0]
    ids = {each.id for each in check_pattern(files(text, grid), "pattern.yaml", "cap")}

    rounds = list(enumerate(plan.stripes.bases, start=1))
    runs = [[number for number, _ in run] for _, run in groupby(rounds, key=lambda each: each[1])]
    wanted = set() if stripe is None else {24 + stripe}
    chosen = [run for run in runs if set(run) <= set(range(24, 38)) and not wanted & set(run)]
    lower = [run for run in chosen if len(run) < least and run[0] > 24 and run[-1] < 37]
    assert not lower or "stripe.short" in ids

    seen_rounds = set(outside(plan))
    for number in range(1, plan.tube.total_rounds):
        if plan.stripes.bases[number - 1] != plan.stripes.bases[number]:
            of_zone = lining and number in (1, 15)
            hidden = not {number, number + 1} & (seen_rounds | wanted)
            assert not hidden or of_zone


@pytest.mark.parametrize(("brim", "rounds"), [("3 cm", 10), ("2 cm", 11), ("6 cm", 6)])
def test_rounds_that_the_brim_covers_are_not_seen(brim: str, rounds: int) -> None:
    """10 cm are 14 rounds; of these a brim of 3 cm covers 4, one of 2 cm 3, and one of 6 cm 8."""
    text = changed(TUBE, ("brim: 3 cm", f"brim: {brim}"), ("start: 1,", "start: 10,"))
    plan = plan_of(text).pieces[0].steps[0].tubes[0]

    assert seen(plan) == rounds
