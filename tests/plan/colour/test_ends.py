"""Ends and carried yarns: the cheapest stripes against every plan there is."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.plan.colour import stripe_search
from bindoff.plan.colour.areas import linked, runs_by_yarn
from bindoff.plan.colour.embroidery import ThreadRule, plan_embroidery
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripes import (
    StripeOptions,
    YarnChange,
    embroidered_cells,
    plan_stripes,
    price_stripes,
)
from tests.plan.colour.integer_program import clusters
from tests.plan.colour.test_stripes import Ways, every_plan, grids, options, picture

ENDS = st.sampled_from([0.0, 0.2, 0.5, 1.0, 2.0])


@st.composite
def with_ends(draw: st.DrawFn, height: int, stranded: bool = False) -> StripeOptions:
    """Options with prices of ends, carried yarns, and short strands so that many are needed."""
    plain = draw(options(height, stranded=stranded, wanted=draw(st.booleans())))
    end = draw(ENDS)
    thread = ThreadRule(
        loop_mm=10,
        stitch_mm=draw(st.sampled_from([2.0, 9.0])),
        jump_limit=draw(st.integers(0, 2)),
        strand_mm=draw(st.sampled_from([25.0, 60.0, 400.0])),
        tail_mm=draw(st.sampled_from([0.0, 5.0])),
    )
    return StripeOptions(
        minutes_per_stitch=plain.minutes_per_stitch,
        minutes_per_change=2 * end + draw(st.sampled_from([0.0, 0.1, 1.0])),
        minimum_rounds=plain.minimum_rounds,
        not_base=plain.not_base,
        stranded_rounds=plain.stranded_rounds,
        float_limit=plain.float_limit,
        fixed=tuple(each for each in plain.fixed if each[1] not in plain.not_base),
        minutes_per_end=end,
        carry=draw(st.integers(0, 3)),
        thread=thread if draw(st.booleans()) else None,
    )


def work_of(grid: ColourGrid, ways: Ways, chosen: StripeOptions) -> tuple[Fraction, int]:
    """Cost, and yarns taken up: knitted round by round with a pair of scissors, then embroidered.

    A yarn that leaves is cut if the rounds that follow don't have it soon enough.
    """
    stitch, change, end = (
        Fraction(str(each))
        for each in (
            chosen.minutes_per_stitch,
            chosen.minutes_per_change,
            chosen.minutes_per_end,
        )
    )
    in_rounds = [set(way) - {None} for way in ways]
    cost = -change
    taken_up = -1
    attached: set[str | None] = set()
    for index, now in enumerate(in_rounds):
        before = in_rounds[index - 1] if index else set()
        for _ in now - attached:
            cost += change
        for _ in (now & attached) - before:
            cost += change - 2 * end
        taken_up += len(now - before)
        attached |= now
        for yarn in list(attached - now):
            last = max(at for at in range(index + 1) if yarn in in_rounds[at])
            later = [at for at in range(index + 1, len(ways)) if yarn in in_rounds[at]]
            if not later or later[0] - last - 1 > chosen.carry:
                attached.remove(yarn)
    sewn = [
        [None if yarn in way else yarn for yarn in cells]
        for cells, way in zip(grid.rounds, ways, strict=True)
    ]
    cost += stitch * sum(yarn is not None for row in sewn for yarn in row)
    if chosen.thread is not None:
        plan = plan_embroidery(sewn, ("a", "b", "c"), chosen.thread, grid.wraps)
        cost += 2 * end * sum(each.strands for each in plan.threads)
    return cost, taken_up


def best_of_all(grid: ColourGrid, chosen: StripeOptions) -> Ways | None:
    def rank(ways: Ways) -> tuple[object, ...]:
        order = [("abc".index(base), "" if second is None else second) for base, second in ways]
        return (*work_of(grid, ways, chosen), order)

    return min(every_plan(grid, chosen), key=rank, default=None)


@settings(deadline=None, max_examples=300)
@given(st.data())
def test_no_plan_is_better_where_ends_have_a_price(data: st.DataObject) -> None:
    """Cost, changes and ties agree with trying all plans, and the plan knows that it is best."""
    stranded = data.draw(st.booleans())
    grid = data.draw(grids(highest=4 if stranded else 5))
    chosen = data.draw(with_ends(grid.height, stranded))

    best = best_of_all(grid, chosen)
    try:
        plan = plan_stripes(grid, ("a", "b", "c"), chosen)
    except PatternError:
        assert best is None
        return

    assert tuple(zip(plan.bases, plan.seconds, strict=True)) == best
    assert plan.minutes == pytest.approx(float(work_of(grid, best, chosen)[0]))
    assert plan.least_minutes == pytest.approx(plan.minutes)


@settings(deadline=None, max_examples=100)
@given(st.data())
def test_a_search_that_drops_states_tells_how_far_it_may_be_from_the_least(
    data: st.DataObject,
) -> None:
    grid = data.draw(grids())
    chosen = data.draw(with_ends(grid.height))
    best = best_of_all(grid, chosen)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(stripe_search, "MOST_STATES", 2)
        try:
            plan = plan_stripes(grid, ("a", "b", "c"), chosen)
        except PatternError:
            assert best is None
            return
    assert best is not None
    least = float(work_of(grid, best, chosen)[0])

    assert plan.least_minutes <= least + 1e-6
    assert plan.minutes >= least - 1e-6


@settings(deadline=None)
@given(grids(widest=8, highest=6, yarns="ab"), st.integers(0, 2), st.sampled_from([0.0, 6.0]))
def test_the_strands_of_the_embroidery_are_those_that_are_listed(
    grid: ColourGrid, jump: int, tail: float
) -> None:
    """Their lengths are the thread, none is longer than a strand, and none has tails alone; groups
    that no thread can join have one each at the least."""
    rule = ThreadRule(10, 4, jump_limit=jump, strand_mm=60, tail_mm=tail)
    cells = [[yarn if yarn == "a" else None for yarn in row] for row in grid.rounds]

    (thread,) = plan_embroidery(cells, ("a",), rule, grid.wraps).threads

    assert len(thread.lengths) == thread.strands
    assert sum(thread.lengths) == pytest.approx(thread.thread_mm)
    assert all(2 * tail + 15 <= mm <= 60 for mm in thread.lengths)
    assert thread.strands >= len(clusters(cells, grid.wraps, jump))


@settings(deadline=None)
@given(grids(widest=12, highest=6, yarns="ab"), st.integers(0, 3))
def test_runs_are_near_each_other_as_a_walk_from_stitch_to_stitch_finds(
    grid: ColourGrid, jump: int
) -> None:
    cells = [[yarn if yarn == "a" else None for yarn in row] for row in grid.rounds]

    found = linked(runs_by_yarn(cells, grid.wraps).get("a", []), grid.width, grid.wraps, jump + 1)

    places = [
        {(run.round_, stitch) for run in group for stitch in run.stitches(grid.width)}
        for group in found
    ]
    assert sorted(map(sorted, places)) == sorted(map(sorted, clusters(cells, grid.wraps, jump)))


def test_a_yarn_that_rests_for_two_rounds_is_carried_over_them() -> None:
    """Foam waits over two rounds of night, then over three, which is too long."""
    plan = price_stripes(
        picture(*"fnnnfnnf"),
        tuple("fnnfnnnf"),
        yarns=("n", "f"),
        options=StripeOptions(minutes_per_change=5, minutes_per_end=2, carry=2),
    )

    assert plan.changes == (
        YarnChange(1, (), ("n",), "n", rest=("f",)),
        YarnChange(3, (), (), "f", rest=("n",), resume=("f",)),
        YarnChange(4, ("f",), (), "n", resume=("n",)),
        YarnChange(7, ("n",), ("f",), "f"),
    )
    assert dict(plan.joins) == {"n": 1, "f": 2}
    assert plan.carried == (("n", 1), ("f", 2))
    assert plan.ends == 6
    assert plan.minutes == 2 * 5 + 2 * 1


def test_a_strand_has_its_price() -> None:
    """Four stitches to embroider take 2 minutes, two changes 3. With 45 seconds an end the strand's
    two ends tip the balance."""
    line = picture("aaaa", "bbbb", "aaaa")
    rule = ThreadRule(10, 5)

    free = plan_stripes(line, ("a", "b"), StripeOptions(minutes_per_change=1.5, thread=rule))
    priced = plan_stripes(
        line, ("a", "b"), StripeOptions(minutes_per_change=1.5, minutes_per_end=0.75, thread=rule)
    )

    assert "".join(free.bases) == "aaa"
    assert "".join(priced.bases) == "aba"
    assert priced.single.minutes == 4 * 0.5 + 2 * 0.75


def test_two_ends_can_not_take_longer_than_their_change() -> None:
    with pytest.raises(PatternError) as refused:
        plan_stripes(picture("ab"), ("a", "b"), StripeOptions(minutes_per_end=3))

    (fault,) = refused.value.findings
    assert fault.id == "stripe.time"
    assert fault.message == "a change of yarn takes 5 minutes, and its two ends alone take 6"


def test_what_is_embroidered_agrees_with_the_plan() -> None:
    grid = picture("aabb", "abab", "bbba")
    rule = ThreadRule(10, 5)
    plan = plan_stripes(grid, ("a", "b"), StripeOptions(minutes_per_end=1, thread=rule))

    sewn = embroidered_cells(grid, plan)
    strands = plan_embroidery(sewn, ("a", "b"), rule).threads
    assert plan.strands == sum(each.strands for each in strands)
