"""Base stripes against every plan there is, on grids small enough to try them all."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby, product
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripes import (
    SingleBase,
    Stripe,
    StripeOptions,
    StripePlan,
    YarnChange,
    embroidered_cells,
    plan_stripes,
    price_stripes,
)

Ways = tuple[tuple[str, str | None], ...]

TIMES = st.sampled_from([0.0, 0.1, 0.3, 0.5, 1.0, 2.0, 5.0])


@st.composite
def grids(draw: st.DrawFn, widest: int = 4, highest: int = 5, yarns: str = "abc") -> ColourGrid:
    width = draw(st.integers(1, widest))
    row = st.tuples(*[st.sampled_from(yarns)] * width)
    return ColourGrid(tuple(draw(st.lists(row, min_size=1, max_size=highest))), draw(st.booleans()))


@st.composite
def options(draw: st.DrawFn, height: int, stranded: bool, wanted: bool = False) -> StripeOptions:
    yarn = st.sampled_from("abc")
    at = st.integers(1, height)
    return StripeOptions(
        minutes_per_stitch=draw(TIMES),
        minutes_per_change=draw(TIMES),
        minimum_rounds=draw(st.integers(1, min(4, height))),
        not_base=tuple(draw(st.lists(yarn, max_size=1))),
        stranded_rounds=tuple(draw(st.lists(at, unique=True))) if stranded else (),
        float_limit=draw(st.integers(1, 4)),
        first_base=draw(st.none() | yarn),
        last_base=draw(st.none() | yarn),
        fixed=tuple(draw(st.dictionaries(at, yarn, max_size=2)).items()) if wanted else (),
    )


def every_way(
    grid: ColourGrid, round_: int, chosen: StripeOptions
) -> Iterator[tuple[str, str | None]]:
    """All ways to knit a round, found by knitting it and looking at the floats."""
    for base in "abc":
        if base in chosen.not_base:
            continue
        if round_ == 1 and chosen.first_base not in (None, base):
            continue
        if round_ == grid.height and chosen.last_base not in (None, base):
            continue
        if dict(chosen.fixed).get(round_, base) != base:
            continue
        yield base, None
        if round_ not in chosen.stranded_rounds or round_ in dict(chosen.fixed):
            continue
        for second in "abc":
            knitted = [yarn if yarn == second else base for yarn in grid.rounds[round_ - 1]]
            if base == second or set(knitted) != {base, second}:
                continue
            if floats_of(knitted, base, second, grid.wraps) <= chosen.float_limit:
                yield base, second


def floats_of(knitted: list[str], base: str, second: str, wraps: bool) -> int:
    """Longest run a yarn passes behind; a flat row has none outside its outermost stitches."""
    longest = 0
    for floating, over in ((base, second), (second, base)):
        row = knitted
        if wraps:
            start = knitted.index(floating)
            row = [*knitted[start:], *knitted[:start], floating]
        places = [at for at, yarn in enumerate(row) if yarn == floating]
        inside = row[places[0] : places[-1] + 1]
        runs = [len(list(run)) for yarn, run in groupby(inside) if yarn == over]
        longest = max([longest, *runs])
    return longest


def work_of(grid: ColourGrid, ways: Ways, chosen: StripeOptions) -> tuple[Fraction, int]:
    """Cost and changes of a plan, counted stitch by stitch and yarn by yarn."""
    embroidered = sum(
        yarn not in way for cells, way in zip(grid.rounds, ways, strict=True) for yarn in cells
    )
    changes = -1
    before: set[str | None] = set()
    for way in ways:
        now = set(way) - {None}
        changes += len(now - before)
        before = now
    cost = embroidered * Fraction(str(chosen.minutes_per_stitch))
    return cost + changes * Fraction(str(chosen.minutes_per_change)), changes


def every_plan(grid: ColourGrid, chosen: StripeOptions) -> Iterator[Ways]:
    for ways in product(
        *(list(every_way(grid, round_, chosen)) for round_ in range(1, grid.height + 1))
    ):
        if all(
            len(run) >= chosen.minimum_rounds
            or any(any_height(r, grid.height, chosen) for r in run)
            for run in runs_of(ways)
        ):
            yield ways


def runs_of(ways: Ways) -> list[list[int]]:
    """The rounds of each stripe."""
    numbered = groupby(enumerate(ways, start=1), key=lambda each: each[1][0])
    return [[round_ for round_, _ in run] for _, run in numbered]


def any_height(round_: int, height: int, chosen: StripeOptions) -> bool:
    """Whether a round is wanted in its yarn, or has not room for a stripe between such rounds."""
    wanted = [at for at, _ in chosen.fixed]
    below = max((at for at in wanted if at <= round_), default=0)
    above = min((at for at in wanted if at >= round_), default=height + 1)
    return bool(wanted) and (round_ in wanted or above - below - 1 < chosen.minimum_rounds)


def rank(grid: ColourGrid, ways: Ways, chosen: StripeOptions) -> tuple[object, ...]:
    """What the plan promises: cost, then changes, then yarn order from round 1 up."""
    order = [("abc".index(base), "" if second is None else second) for base, second in ways]
    return (*work_of(grid, ways, chosen), order)


def best_of_all(grid: ColourGrid, chosen: StripeOptions) -> Ways | None:
    return min(every_plan(grid, chosen), key=lambda ways: rank(grid, ways, chosen), default=None)


def plan_or_none(grid: ColourGrid, chosen: StripeOptions) -> StripePlan | None:
    try:
        return plan_stripes(grid, ("a", "b", "c"), chosen)
    except PatternError:
        return None


@settings(deadline=None)
@given(st.data())
def test_no_plan_is_better_without_stranding(data: st.DataObject) -> None:
    """Cost, changes, bases and ties agree with trying all plans, under every option."""
    grid = data.draw(grids())
    chosen = data.draw(options(grid.height, stranded=False))

    best = best_of_all(grid, chosen)
    plan = plan_or_none(grid, chosen)

    assert (plan and tuple(zip(plan.bases, plan.seconds, strict=True))) == best


@settings(deadline=None)
@given(st.data())
def test_no_plan_is_better_around_wanted_stripes(data: st.DataObject) -> None:
    """As above with up to two rounds that are wanted in one yarn, some of them stranded ones."""
    grid = data.draw(grids(widest=3))
    chosen = data.draw(options(grid.height, stranded=data.draw(st.booleans()), wanted=True))

    best = best_of_all(grid, chosen)
    plan = plan_or_none(grid, chosen)

    assert (plan and tuple(zip(plan.bases, plan.seconds, strict=True))) == best
    assert plan is None or all(plan.bases[at - 1] == yarn for at, yarn in chosen.fixed)


def test_a_wanted_line_of_one_round_is_knitted_whatever_the_shortest_stripe() -> None:
    """Seven rounds, the fourth wanted in another yarn: three stripes, nothing embroidered."""
    grid = ColourGrid(tuple((yarn,) * 5 for yarn in "aaabaaa"))

    plan = plan_stripes(grid, ("a", "b"), StripeOptions(minimum_rounds=3, fixed=((4, "b"),)))

    assert "".join(plan.bases) == "aaabaaa"
    assert plan.embroidered_total == 0


def test_what_lies_between_two_wanted_lines_may_be_as_narrow() -> None:
    grid = ColourGrid(tuple((yarn,) * 30 for yarn in "aaabab"))

    plan = plan_stripes(
        grid, ("a", "b"), StripeOptions(minimum_rounds=3, fixed=((4, "b"), (6, "b")))
    )

    assert "".join(plan.bases) == "aaabab"


@pytest.mark.parametrize(
    ("fixed", "not_base", "found"),
    [
        (((9, "a"),), (), "stripe.fixed-round"),
        (((1, "b"),), ("b",), "stripe.fixed-base"),
        (((1, "z"),), (), "stripe.fixed-base"),
    ],
)
def test_wanted_rounds_that_can_not_be(
    fixed: tuple[tuple[int, str], ...], not_base: tuple[str, ...], found: str
) -> None:
    grid = ColourGrid((("a",), ("b",)))

    with pytest.raises(PatternError) as refused:
        plan_stripes(grid, ("a", "b"), StripeOptions(fixed=fixed, not_base=not_base))

    assert [each.id for each in refused.value.findings] == [found]


@settings(deadline=None)
@given(st.data())
def test_no_plan_is_better_with_stranded_rounds(data: st.DataObject) -> None:
    """As above with rounds that may carry a second yarn."""
    grid = data.draw(grids(highest=4))
    chosen = data.draw(options(grid.height, stranded=True))

    best = best_of_all(grid, chosen)
    plan = plan_or_none(grid, chosen)

    assert (plan and tuple(zip(plan.bases, plan.seconds, strict=True))) == best
    if plan and best:
        cost, changes = work_of(grid, best, chosen)
        assert plan.minutes == pytest.approx(float(cost))
        assert plan.change_count == changes


@settings(max_examples=60, deadline=None)
@given(grids(widest=12, highest=12, yarns="abcdef"), st.data())
def test_a_designers_own_stripes_never_cost_less(grid: ColourGrid, data: st.DataObject) -> None:
    bases = tuple(data.draw(st.sampled_from("abcdef")) for _ in grid.rounds)
    yarns = tuple("abcdef")

    plan = plan_stripes(grid, yarns)

    assert plan.minutes <= price_stripes(grid, bases, yarns=yarns).minutes
    assert plan.minutes <= plan.single.minutes
    assert price_stripes(grid, plan.bases, plan.seconds, yarns) == plan


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_knitting_and_embroidery_make_the_picture(data: st.DataObject) -> None:
    """Knit the plan, sew the rest on top: every stitch shows its colour, and the counts add up."""
    grid = data.draw(grids(widest=8, highest=6))
    chosen = StripeOptions(stranded_rounds=(1,), float_limit=3)
    plan = plan_stripes(grid, ("a", "b", "c"), chosen)

    cells = embroidered_cells(grid, plan)
    knitted = [
        [yarn if yarn == second else base for yarn in row]
        for row, base, second in zip(grid.rounds, plan.bases, plan.seconds, strict=True)
    ]

    for wanted, sewn, under in zip(grid.rounds, cells, knitted, strict=True):
        assert [over or below for over, below in zip(sewn, under, strict=True)] == list(wanted)
        assert all(over != below for over, below in zip(sewn, under, strict=True))
    flat = [yarn for row in cells for yarn in row]
    below = [yarn for row in knitted for yarn in row]
    assert dict(plan.embroidered) == {yarn: flat.count(yarn) for yarn in "abc"}
    assert dict(plan.knitted) == {yarn: below.count(yarn) for yarn in "abc"}


def picture(*lines: str) -> ColourGrid:
    """A grid from lines as they look: the top line is the last round."""
    return ColourGrid(tuple(tuple(line) for line in reversed(lines)))


def test_stripes_changes_and_saving_of_a_striped_picture() -> None:
    grid = picture("aaaaaaaa", "bbbbbabb", "bbbbbbbb", "aaaaaaaa", "aaabaaaa")

    plan = plan_stripes(grid, ("a", "b"), StripeOptions(minutes_per_change=2))

    assert plan.stripes == (Stripe(1, 2, "a"), Stripe(3, 4, "b"), Stripe(5, 5, "a"))
    assert [stripe.rounds for stripe in plan.stripes] == [2, 2, 1]
    assert plan.changes == (
        YarnChange(2, drop=("a",), take_up=("b",), base="b"),
        YarnChange(4, drop=("b",), take_up=("a",), base="a"),
    )
    assert plan.embroidered == (("a", 1), ("b", 1))
    assert plan.joins == (("a", 2), ("b", 1))
    assert plan.minutes == 2 * 0.5 + 2 * 2
    assert plan.single == SingleBase("a", embroidered=16, minutes=8.0)
    assert (plan.stitches_saved, plan.minutes_saved) == (14, 3.0)


def test_a_dear_change_leaves_one_base() -> None:
    grid = picture("aaaaaaaa", "bbbbbabb", "bbbbbbbb", "aaaaaaaa", "aaabaaaa")

    plan = plan_stripes(grid, ("a", "b"), StripeOptions(minutes_per_change=6))

    assert plan.bases == ("a",) * 5
    assert (plan.changes, plan.minutes_saved) == ((), 0.0)


@pytest.mark.parametrize(
    ("change", "bases"),
    [
        (0.2, ("a", "b", "a")),  # two changes are 0.4 minutes, one stitch 0.5
        (0.3, ("a", "a", "a")),
    ],
)
def test_times_of_different_fractions_are_weighed_as_they_are(
    change: float, bases: tuple[str, ...]
) -> None:
    grid = picture("a", "b", "a")
    chosen = StripeOptions(minutes_per_stitch=0.5, minutes_per_change=change)

    assert plan_stripes(grid, ("a", "b"), chosen).bases == bases


def test_a_free_change_never_outweighs_a_stitch() -> None:
    """Even where every round makes all the changes there can be: one round, one second yarn."""
    chosen = StripeOptions(minutes_per_change=0, stranded_rounds=(1,), float_limit=1)

    assert plan_stripes(picture("ab"), ("a", "b"), chosen).seconds == ("b",)


def test_the_single_base_to_compare_with_is_one_that_may_be_a_base() -> None:
    grid = picture("aaab", "aabb", "aacb")

    assert plan_stripes(grid, ("a", "b", "c")).single == SingleBase("a", 5, 2.5)
    barred = StripeOptions(not_base=("a",))
    assert plan_stripes(grid, ("a", "b", "c"), barred).single == SingleBase("b", 8, 4.0)
    none = StripeOptions(not_base=("a", "b", "c"))
    own = price_stripes(grid, ("c",) * 3, yarns=("a", "b", "c"), options=none)
    assert own.single == SingleBase("a", 5, 2.5)


def test_a_minimum_stripe_forbids_single_rounds() -> None:
    grid = picture("aaaa", "bbbb", "aaaa", "aaaa")

    plan = plan_stripes(grid, ("a", "b"), StripeOptions(minutes_per_change=0, minimum_rounds=2))

    assert [stripe.rounds for stripe in plan.stripes] in ([2, 2], [4])
    assert plan.embroidered_total == 4


def test_a_stranded_round_carries_its_second_yarn_only_within_the_float_limit() -> None:
    grid = picture("aaaaaaaa", "abababab", "aaaaaaaa", "aaabbaaa")
    may = StripeOptions(minutes_per_change=1, stranded_rounds=(1, 3), float_limit=5)

    plan = plan_stripes(grid, ("a", "b"), may)

    assert plan.seconds == (None, None, "b", None)
    assert plan.changes == (
        YarnChange(2, drop=(), take_up=("b",), base="a"),
        YarnChange(3, drop=("b",), take_up=(), base="a"),
    )
    assert (plan.change_count, plan.embroidered_total) == (1, 2)
    assert plan.passed == (("a", 4), ("b", 4))
    assert plan.knitted == (("a", 28), ("b", 4))


def test_a_float_across_the_start_of_the_round_counts_in_a_tube_only() -> None:
    rounds = (tuple("aabbaaaa"),)
    may = StripeOptions(minutes_per_change=0.1, stranded_rounds=(1,), float_limit=4)

    assert plan_stripes(ColourGrid(rounds), options=may).seconds == (None,)
    assert plan_stripes(ColourGrid(rounds, wraps=False), options=may).seconds == ("b",)


def test_equal_plans_go_to_fewest_changes_then_to_the_first_yarn() -> None:
    grid = picture("bbaa", "bbaa")

    assert plan_stripes(grid, ("b", "a")).bases == ("b", "b")
    assert plan_stripes(grid, ("a", "b"), StripeOptions(minutes_per_change=0)).bases == ("a", "a")


@pytest.mark.parametrize(
    ("chosen", "ids"),
    [
        (StripeOptions(minutes_per_stitch=-1), ["stripe.time"]),
        (StripeOptions(minutes_per_change=float("nan")), ["stripe.time"]),
        (StripeOptions(minutes_per_change=float("inf")), ["stripe.time"]),
        (StripeOptions(minimum_rounds=0), ["stripe.minimum"]),
        (StripeOptions(minimum_rounds=4), ["stripe.minimum"]),
        (StripeOptions(stranded_rounds=(1,)), ["stripe.float-limit"]),
        (StripeOptions(stranded_rounds=(4,), float_limit=3), ["stripe.stranded-round"]),
        (StripeOptions(not_base=("a", "b")), ["stripe.no-base"]),
        (StripeOptions(first_base="z"), ["stripe.fixed-base"]),
        (
            StripeOptions(not_base=("a",), last_base="a", minimum_rounds=0),
            ["stripe.minimum", "stripe.fixed-base"],
        ),
        (
            StripeOptions(first_base="a", last_base="b", minimum_rounds=2),
            ["stripe.impossible"],
        ),
    ],
)
def test_options_that_cannot_be_met_are_findings(chosen: StripeOptions, ids: list[str]) -> None:
    """Everything wrong is said at once."""
    with pytest.raises(PatternError) as raised:
        plan_stripes(picture("ab", "ab", "ab"), ("a", "b"), chosen)

    assert [finding.id for finding in raised.value.findings] == ids
    assert all(finding.help for finding in raised.value.findings)


@pytest.mark.parametrize(
    ("chosen", "message"),
    [
        (
            StripeOptions(minutes_per_stitch=-1),
            "-1 minutes cannot be the time of a duplicate stitch",
        ),
        (
            StripeOptions(minutes_per_change=1441),
            "1441 minutes cannot be the time of a colour change",
        ),
        (StripeOptions(first_base="z"), "the first base `z` is not a yarn that may be a base"),
        (StripeOptions(last_base="z"), "the last base `z` is not a yarn that may be a base"),
    ],
)
def test_a_wish_that_cannot_be_met_is_named(chosen: StripeOptions, message: str) -> None:
    with pytest.raises(PatternError) as raised:
        plan_stripes(picture("ab", "ab", "ab"), ("a", "b"), chosen)

    assert [finding.message for finding in raised.value.findings] == [message]


def test_times_of_a_day_are_planned_with() -> None:
    day = StripeOptions(minutes_per_stitch=1440, minutes_per_change=1440)

    assert plan_stripes(picture("ab"), ("a", "b"), day).minutes == 1440


def test_stranded_rounds_add_up() -> None:
    plan = price_stripes(picture("abab", "abbb"), ("a", "a"), ("b", "b"), ("a", "b"))

    assert plan.knitted == (("a", 3), ("b", 5))
    assert plan.passed == (("a", 5), ("b", 3))


def test_a_yarn_of_the_picture_must_be_among_the_yarns() -> None:
    with pytest.raises(PatternError) as raised:
        plan_stripes(picture("ab"), ("a",))

    assert [finding.id for finding in raised.value.findings] == ["stripe.unknown-yarn"]


def test_own_stripes_are_of_the_yarns_of_the_picture_and_their_own() -> None:
    plan = price_stripes(picture("ab", "ab"), ("c", "a"), (None, "d"))

    assert dict(plan.knitted) == {"a": 2, "b": 0, "c": 2, "d": 0}
    assert dict(plan.embroidered) == {"a": 1, "b": 2, "c": 0, "d": 0}


def test_own_stripes_need_a_base_for_every_round() -> None:
    with pytest.raises(ValueError, match="as many bases"):
        price_stripes(picture("ab", "ab"), ("a",))


def test_a_garment_of_200_by_400_in_12_colours_is_planned_within_a_second() -> None:
    yarns = tuple("abcdefghijkl")
    rounds = tuple(
        tuple(yarns[(stitch * stitch + 7 * round_) // 29 % 12] for stitch in range(400))
        for round_ in range(200)
    )
    chosen = StripeOptions(
        minimum_rounds=4, stranded_rounds=tuple(range(1, 201, 2)), float_limit=400
    )

    started = process_time()
    plan = plan_stripes(ColourGrid(rounds), yarns, chosen)

    assert process_time() - started < 1
    assert plan.minutes < plan.single.minutes
