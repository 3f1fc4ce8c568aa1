"""What differs between the steps of two plans: figures and order, worked out by hand."""

import pytest

from bindoff.plan.differences.said import Instruction, Stop, What
from bindoff.source.formula import Kind, Quantity
from bindoff.source.rowlang.syntax import Row, Work
from tests.plan.test_differences import FULL, compared, edited, said, shifts, stops
from tests.small_patterns import CAP, FLAP, TUBE, changed, plan_of

TWO_CHARTS = changed(
    CAP,
    (
        "pieces:\n",
        "  ripple:\n    title: Ripple\n    grid: waves.grid\n"
        '    legend: {".": slate, "#": foam}\n    alt: Other waves.\npieces:\n',
    ),
)

# A flap with live stitches, and a piece that is joined to it.
FACED = changed(FLAP, ("bind off: all", "leave: live")) + (
    "  facing:\n    title: Facing\n    worked: flat\n    steps:\n      - cast on: narrow\n"
    "      - work: k all\n      - join: flap\n"
)

# A picture over all 24 needles: two stitches and the one over the second, and one apart.
SPOTS = """\
........................
....................#...
............#.......##..
"""

SPOT = """\
........................
........................
.......................#
"""


def test_a_method_is_told_where_there_is_one() -> None:
    changes = edited(FULL, ("bind off: all", "bind off: all\n        how: loosely"))

    assert shifts(changes, What.METHOD) == {"": (None, "loosely")}


def test_stitches_that_are_drawn_together_have_no_method() -> None:
    changes = edited(FLAP, ("bind off: all", "gather: all"))

    new = tuple(each for each in changes if each.place.added)
    assert said(new) == {("stitches", ""), ("rounds", ""), ("closed stitches", "")}


def test_another_chart_is_told_by_its_key() -> None:
    changes = edited(TWO_CHARTS, ("- chart: waves", "- chart: ripple"))

    assert said(changes) == {("chart", "")}
    assert shifts(changes, What.CHART) == {"": ("waves", "ripple")}


def test_the_piece_that_another_is_joined_to_is_told_by_its_title() -> None:
    changes = edited(FACED, ("title: Flap", "title: Tab"))

    assert said(changes) == {("name", ""), ("joined to", "")}
    assert shifts(changes, What.JOINED_TO) == {"": ("Flap", "Tab")}


def test_the_length_of_an_edge_is_a_length() -> None:
    changes = edited(FULL, ("along: 10 cm", "along: 12 cm"))

    both = (Quantity(100, Kind.LENGTH), Quantity(120, Kind.LENGTH))
    assert shifts(changes, What.ALONG) == {"S": both, "M": both}


def test_a_size_that_needs_no_round_of_a_crown_has_no_first_round() -> None:
    """The crown begins with 96 stitches in size S and 104 in size M, and loses 8 a round."""
    none, one = (changed(CAP, ("to: 8", f"to: {count}")) for count in (96, 88))
    changes = compared(plan_of(none), plan_of(one))

    assert shifts(changes, What.DECREASE_ROUNDS) == {"S": (0, 1), "M": (1, 2)}
    starts = shifts(changes, What.CROWN_START)
    # a twelfth of the 96 stitches in every wedge
    assert starts == {"S": (None, Instruction(Row((Work("k", 10), Work("k2tog")))))}


# ---------------------------------------------------------------- embroidery


def test_embroidery_is_told_in_figures_and_in_working_order() -> None:
    changes = compared(plan_of(TUBE, SPOT), plan_of(TUBE, SPOTS))

    # stitch 1 is the right-most; an area's stitches from the first round on, right to left
    old = (("foam", 1, 1, 1, 1, 1),)
    new = (("foam", 1, 2, 1, 3, 3), ("foam", 1, 1, 1, 12, 1))
    assert shifts(changes, What.WORKING_ORDER) == dict.fromkeys(("S", "M"), (old, new))
    assert shifts(changes, What.EMBROIDERED, "foam") == {"S": (1, 4), "M": (1, 4)}
    assert shifts(changes, What.AREAS, "foam") == {"S": (1, 2), "M": (1, 2)}
    # 7 stitches are passed between the areas, more than a thread may pass behind
    assert shifts(changes, What.STRANDS, "foam") == {"S": (1, 2), "M": (1, 2)}


def test_shorter_strands_take_more_thread_for_their_tails() -> None:
    """A strand has two tails of 150 mm, and nothing is passed in a solid block."""
    block = "####....................\n" * 5
    strand = "    colour plan: {strand: %s}\n    steps:"
    long, short = (changed(TUBE, ("    steps:", strand % mm)) for mm in ("100 cm", "40 cm"))
    changes = compared(plan_of(long, block), plan_of(short, block))

    strands = shifts(changes, What.STRANDS, "foam")
    threads = shifts(changes, What.THREAD, "foam")
    assert list(strands) == list(threads) == ["S", "M"]
    for size, (was, now) in threads.items():
        old, new = strands[size]
        assert new > old
        assert was.kind is now.kind is Kind.LENGTH
        assert now.value - was.value == pytest.approx((new - old) * 300)


def test_the_embroidery_begins_with_what_stripes_hide_below_the_picture() -> None:
    """Where slate is never knitted, the tube of slate is embroidered from its first round on."""
    changes = edited(TUBE, ("    steps:", "    colour plan: {never base: [slate]}\n    steps:"))

    # 10 and 11 cm are 14 and 15 rounds; gather 1, brim 4 and 4, 1 below the picture
    assert shifts(changes, What.PICTURE_START) == {"S": (25, 1), "M": (26, 1)}


# ---------------------------------------------------------------- stops of the counter


def test_two_yarns_may_trade_places() -> None:
    """A round of foam alone is a stripe of two rounds at the least, so the second of two rounds in
    both yarns is knitted on foam; nothing is cut or joined before it."""
    grid = "........\n########\n##..##..\n##..##..\n"
    text = changed(
        TUBE,
        (
            "    steps:",
            "    colour plan: {stranded: laid in by hand, shortest stripe: 2}\n    steps:",
        ),
    )
    changes = compared(plan_of(TUBE, SPOT), plan_of(text, grid))

    # the picture's first round is 25 in size S
    assert stops(changes, "S") == [
        (None, Stop(24, join=("foam",))),
        (None, Stop(25, go_on="foam")),
        (None, Stop(26, cut=("slate",))),
        (None, Stop(27, cut=("foam",), join=("slate",))),
    ]


def test_a_part_of_the_tube_ends_before_yarns_are_changed_after_the_same_round() -> None:
    """Foam all around at the lower edge is joined where the brim ends."""
    grid = "........\n########\n########\n"
    text = changed(TUBE, (" start: 1,", ""))
    deeper = changed(text, ("[10 cm, 11 cm]", "[10 cm, 12 cm]"))
    changes = compared(plan_of(text, grid), plan_of(deeper, grid))

    # 11 and 12 cm are 15 and 17 rounds; gather 1, brim 4
    assert stops(changes, "M") == [
        (Stop(16, "lining"), Stop(18, "lining")),
        (Stop(20, "fold"), Stop(22, "fold")),
        (Stop(24, "brim"), Stop(26, "brim")),
        (Stop(24, cut=("slate",), join=("foam",)), Stop(26, cut=("slate",), join=("foam",))),
        (Stop(26, cut=("foam",), join=("slate",)), Stop(28, cut=("foam",), join=("slate",))),
        (Stop(40, "end"), Stop(44, "end")),
    ]


def test_a_tube_without_a_brim_has_none_that_ends() -> None:
    text = changed(TUBE, (" brim: 3 cm,", ""))
    changes = compared(plan_of(text), plan_of(changed(text, ("[10 cm, 11 cm]", "[10 cm, 12 cm]"))))

    assert stops(changes, "M") == [
        (Stop(16, "fold"), Stop(18, "fold")),
        (Stop(32, "end"), Stop(36, "end")),
    ]
