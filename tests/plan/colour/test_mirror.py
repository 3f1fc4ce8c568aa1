"""Mirror images and repeats around the tube."""

from hypothesis import given
from hypothesis import strategies as st

from generator.plan.colour.embroidery import ThreadRule, plan_embroidery
from generator.plan.colour.grid import ColourGrid
from generator.plan.colour.mirror import Mirror, mirror_pairs, mirrors, repeats_around

rows = st.lists(st.sampled_from("ab"), min_size=1, max_size=7)


def grid(*lines: str, wraps: bool = True) -> ColourGrid:
    return ColourGrid(tuple(tuple(line) for line in reversed(lines)), wraps)


def test_a_motif_at_the_front_mirrors_at_its_middle_and_at_the_back() -> None:
    found = mirrors(grid("....b.....", "...bbb....", "..b.b.b..."))

    assert found == (Mirror(axis=1.0, opposite=6.0),)


def test_an_axis_between_two_stitches() -> None:
    assert mirrors(grid("...bb...", "..b..b..")) == (Mirror(axis=4.5, opposite=8.5),)


def test_stripes_mirror_everywhere_and_a_slant_nowhere() -> None:
    assert len(mirrors(grid("aaaaa", "bbbbb"))) == 5
    assert mirrors(grid("a.....", ".a....", "..a...")) == ()


def test_a_flat_piece_mirrors_at_its_middle_only() -> None:
    assert mirrors(grid(".b.b.", wraps=False)) == (Mirror(axis=3.0, opposite=None),)
    assert mirrors(grid("b.b..", wraps=False)) == ()


@given(rows, st.integers(0, 13), st.booleans())
def test_a_picture_made_by_mirroring_is_found_wherever_the_round_starts(
    half: list[str], turn: int, through: bool
) -> None:
    """Mirror a half, turn the tube, and look for the axis where the middle went."""
    whole = [*half, *half[::-1][through:]]
    width = len(whole)
    turn %= width
    turned = [*whole[turn:], *whole[:turn]]

    found = mirrors(ColourGrid((tuple(turned),)))

    # stitch numbers run right to left; the middle lies before the second half
    middle = (width - len(half) + (1 if through else 0.5) + turn) % width
    axes = [axis % width for mirror in found for axis in (mirror.axis, mirror.opposite or 0)]
    assert middle in axes
    assert all((mirror.opposite or 0) - mirror.axis == width / 2 for mirror in found)


def test_mirrored_areas_are_paired() -> None:
    shown = [[None if each == "." else each for each in "bb..a.bb"]]
    embroidery = plan_embroidery(shown, ("a", "b"), ThreadRule(16.0, 5.0), wraps=False)

    assert [area.cells for area in embroidery.areas] == [
        ((1, 4),),
        ((1, 1), (1, 2)),
        ((1, 7), (1, 8)),
    ]
    assert mirror_pairs(embroidery, 8, Mirror(4.5, None)) == ((1, 2),)
    assert mirror_pairs(embroidery, 8, Mirror(4.0, None)) == ()


def test_repeats_around_the_tube() -> None:
    assert repeats_around(grid("ab.ab.", "b..b..")) == 2
    assert repeats_around(grid("ab.ab.", "b..bb.")) == 1
    assert repeats_around(grid("aaaa", "bbbb")) == 4
    assert repeats_around(grid("abab", wraps=False)) == 1


@given(rows, st.integers(1, 5))
def test_a_repeated_picture_repeats_at_least_that_often(row: list[str], times: int) -> None:
    found = repeats_around(ColourGrid((tuple(row * times),)))

    assert found % times == 0
    part = len(row) * times // found
    assert (row * times)[:part] * found == row * times
