"""The colour grid counts stitches from the right and rounds from the bottom."""

import pytest

from bindoff.plan.colour.grid import ColourGrid

GRID = ColourGrid((("a", "b", "c"), ("d", "e", "a")))


def test_stitch_1_of_round_1_is_bottom_right() -> None:
    assert [GRID.at(1, stitch) for stitch in (1, 2, 3)] == ["c", "b", "a"]
    assert [GRID.at(2, stitch) for stitch in (1, 2, 3)] == ["a", "e", "d"]


def test_size_and_yarns_in_order_of_first_use() -> None:
    assert (GRID.width, GRID.height) == (3, 2)
    assert GRID.yarns == ("c", "b", "a", "e", "d")


@pytest.mark.parametrize(("round_", "stitch"), [(0, 1), (3, 1), (1, 0), (1, 4)])
def test_places_outside_are_refused(round_: int, stitch: int) -> None:
    with pytest.raises(IndexError, match=f"stitch {stitch} in round {round_}"):
        GRID.at(round_, stitch)


@pytest.mark.parametrize("rounds", [(), ((),), (("a",), ("a", "b"))])
def test_no_stitches_or_ragged_rounds_are_refused(rounds: tuple[tuple[str, ...], ...]) -> None:
    with pytest.raises(ValueError, match="one width"):
        ColourGrid(rounds)
