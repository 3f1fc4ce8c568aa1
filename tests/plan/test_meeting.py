"""Which items of two lists belong together, against every possible meeting."""

from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from bindoff.plan.differences.matching import aligned

Items = tuple[tuple[str, str], ...]
items = st.lists(st.tuples(st.sampled_from("ab"), st.sampled_from("xy")), max_size=7).map(tuple)


@cache
def most_met(old: Items, new: Items) -> tuple[int, int]:
    """How many equal items, then how many others of one kind can meet in order: all ways tried."""
    if not old or not new:
        return 0, 0
    without = max(most_met(old[1:], new), most_met(old, new[1:]))
    equal, alike = most_met(old[1:], new[1:])
    if old[0] == new[0]:
        return max(without, (equal + 1, alike))
    return max(without, (equal, alike + 1)) if old[0][0] == new[0][0] else without


@given(items, items)
def test_as_many_items_meet_as_can(old: Items, new: Items) -> None:
    pairs = aligned(old, new)
    assert [was for was, _ in pairs if was is not None] == list(range(len(old)))
    assert [now for _, now in pairs if now is not None] == list(range(len(new)))
    met = [(old[was], new[now]) for was, now in pairs if was is not None and now is not None]
    equal = sum(was == now for was, now in met)
    assert all(was[0] == now[0] for was, now in met)
    assert (equal, len(met) - equal) == most_met(old, new)


@given(items, items)
def test_the_way_back_meets_the_same(old: Items, new: Items) -> None:
    back = {(was, now) for now, was in aligned(new, old)}
    assert set(aligned(old, new)) == back
