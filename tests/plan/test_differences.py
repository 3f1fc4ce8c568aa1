"""What differs between two plans: every kind of change, and nothing but what changed."""

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.numbers import figures
from bindoff.plan.differences.change import Change, ChangedPart
from bindoff.plan.differences.find import differences
from bindoff.plan.differences.said import (
    Cell,
    Instruction,
    SaidAmount,
    SaidExtent,
    SaidProse,
    Stop,
    What,
)
from bindoff.plan.plan import Plan
from bindoff.plan.replan import replan
from bindoff.source.formula import Kind, Quantity
from bindoff.source.statedgauge import parse_gauges
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed, plan_of, source_of

Edit = tuple[str, str]

PROSE = {What.SAY, What.NOTE, What.PROSE, What.TEXT, What.ALT, What.HEADING}

# A cap with all that a cap can have, and a mitten's thumb.
FULL = changed(
    CAP,
    (
        "  depth: [20 cm, 21 cm]\n",
        "  depth: [20 cm, 21 cm]\n  gusset: 9\n  more: cast_on + 8\n",
    ),
    ("      - cast on: cast_on\n", "      - section: Brim\n      - cast on: cast_on\n"),
    (
        "        rounds: 8\n",
        "        rounds: 8\n"
        "      - say: Work until it measures {{ depth }}.\n"
        "      - section: Body\n"
        "      - even: increase\n        to: more\n        note: Use {{ yarns.foam }} here.\n"
        "      - work: 'hold {gusset} stitches, k to end'\n        rounds: 1\n"
        "      - work: ['k all', 'p all']\n        times: 2\n"
        "      - even: increase\n        to: more\n"
        "      - even: decrease\n        to: cast_on\n",
    ),
    (
        "      - gather: all\n",
        "      - gather: all\n      - section: Thumb\n      - held: gusset\n        pick up: 3\n"
        "      - work: k all\n        rounds: 5\n      - bind off: all\n"
        "      - edging: sc in each stitch\n        along: 10 cm\n",
    ),
)


JOINED = (
    CAP[: CAP.index("pieces:")]
    + """\
pieces:
  ring:
    title: Ring
    yarn: slate
    steps:
      - cast on: 24
        method: waste yarn
      - work: k all
        rounds: 40
      - join: start
        by: grafting
  band:
    title: Band
    yarn: slate
    steps:
      - cast on: 8
      - chart: waves
      - bind off: all
"""
)


def compared(old: Plan, new: Plan) -> tuple[Change, ...]:
    return differences(old, new).changes


def said(changes: tuple[Change, ...]) -> set[tuple[str, str]]:
    """What changed and of which."""
    return {(change.what.value, change.of) for change in changes}


def shifts(changes: tuple[Change, ...], what: What, of: str = "") -> dict[str, tuple[Any, Any]]:
    """What was and is told of the only subject of this kind, by size."""
    (change,) = (each for each in changes if each.what is what and each.of == of)
    return {shift.size: (shift.old, shift.new) for shift in change.shifts}


def edited(base: str, *edits: Edit, grid: Edit = ("", "")) -> tuple[Change, ...]:
    """The changes that edits of the source and of its grid make."""
    return compared(plan_of(base), plan_of(changed(base, *edits), WAVES.replace(*grid, 1)))


@pytest.mark.parametrize("text", [CAP, TUBE, FLAP, FULL], ids=["cap", "tube", "flap", "full"])
def test_a_plan_does_not_differ_from_itself(text: str) -> None:
    assert compared(plan_of(text), plan_of(text)) == ()


# ---------------------------------------------------------------- each kind of change

KINDS: Mapping[str, tuple[str, tuple[Edit, ...], set[tuple[str, str]]]] = {
    "title": (CAP, (("Quay Cap", "Pier Cap"),), {("text", "title")}),
    "summary": (CAP, (("band of waves", "wave"),), {("text", "summary")}),
    "terms": (CAP, (("wearer", "terms: UK\nwearer"),), {("text", "terms")}),
    "units": (CAP, (("wearer", "units: metric\nwearer"),), {("text", "units")}),
    "wearer": (CAP, (("[adult]", "[adult, child]"),), {("text", "wearer")}),
    "cautions": (CAP, (("wearer", "hazards: [cords]\nwearer"),), {("text", "cautions")}),
    "notes": (CAP, (("pieces:\n", "notes: Swatch first.\npieces:\n"),), {("prose", "notes")}),
    "tool": (
        CAP,
        (("4.5 mm circular", "5 mm circular"),),
        {("tool", "4.5 mm circular needle"), ("tool", "5 mm circular needle")},
    ),
    "use of a tool": (CAP, (("throughout", "body"),), {("tool", "4.5 mm circular needle")}),
    "notion": (CAP, (("sizes:", "notions: [1 marker]\nsizes:"),), {("notion", "1 marker")}),
    "own stitch": (
        CAP,
        (("pieces:", "stitches:\n  kk: {uses: 1, makes: 1, name: knot, how: Knot it.}\npieces:"),),
        {("stitch of its own", "kk")},
    ),
    "state of the gauge": (
        CAP,
        (("rounds: 28", "rounds: 28\n  state: unwashed"),),
        {("state of the gauge", ""), ("amount", "")},
    ),
    "tool for the gauge": (
        CAP,
        (("rounds: 28", "rounds: 28\n  tool: 4 mm"),),
        {("tool for the gauge", "")},
    ),
    "fabric of the gauge": (
        CAP,
        (("rounds: 28", "rounds: 28\n  worked: rib"),),
        # Ribbing takes more yarn than stockinette of as many stitches.
        {("fabric of the gauge", ""), ("amount", "")},
    ),
    "finished label": (
        CAP,
        (("Circumference:", "Around:"),),
        {("finished measurement", "Circumference"), ("finished measurement", "Around")},
    ),
    "measure nothing reads": (
        CAP,
        (("measures:\n", "measures:\n  spare: 4\n"),),
        {("measure", "spare")},
    ),
    "yarn's name": (CAP, (("name: Foam", "name: Spray"),), {("name", "")}),
    "yarn's colour": (CAP, (("#e9eef0", "#ffffff"),), {("colour", "")}),
    "yarn's weight": (CAP, (('#e9eef0", weight: 4', '#e9eef0", weight: 5'),), {("weight", "")}),
    "yarn's fibre": (CAP, (("name: Foam", "name: Foam, fibre: wool"),), {("fibre", "")}),
    "yarn's ball": (
        CAP,
        (('#e9eef0", weight: 4, ball: 100 g', '#e9eef0", weight: 4, ball: 110 g'),),
        {("ball", ""), ("amount", "")},
    ),
    "chart's title": (CAP, (("title: Waves", "title: Surf"),), {("name", "")}),
    "chart's description": (CAP, (("Low light", "High light"),), {("description", "")}),
    "piece's title": (CAP, (("title: Cap", "title: Hat"),), {("name", "")}),
    "how often it is made": (
        CAP,
        (("title: Cap", "title: Cap\n    make: 2"),),
        {("how often it is made", ""), ("amount", ""), ("balls", "")},
    ),
    "schematic": (
        FLAP,
        (
            (
                "    steps:",
                "    schematic: {shape: panel, lower edge: 10 cm, height: 7 cm}\n    steps:",
            ),
        ),
        {("schematic", "lower edge"), ("schematic", "height")},
    ),
    "heading": (FULL, (("section: Body", "section: Top"),), {("heading", "")}),
    "words of a step": (FULL, (("until it measures", "till it is"),), {("words", "")}),
    "note": (FULL, (("Use {{", "Take {{"),), {("note", "")}),
    "method": (
        CAP,
        (("cast on: cast_on", "cast on: cast_on\n        method: waste yarn"),),
        {("method", ""), ("amount", "")},
    ),
    "how to bind off": (FULL, (("off: all", "off: all\n        how: loosely"),), {("method", "")}),
    "row": (CAP, (("*k2, p2;", "*p2, k2;"),), {("row", "1")}),
    "row more": (
        FULL,
        (("['k all', 'p all']", "['k all', 'p all', 'k all', 'p all']"), ("times: 2", "times: 1")),
        {("row", "3"), ("row", "4")},
    ),
    "rounds": (
        CAP,
        (("rounds: 8", "rounds: 9"),),
        {("rounds", ""), ("rounds in all", ""), ("amount", "")},
    ),
    "picked up": (
        FULL,
        (("pick up: 3", "pick up: 5"),),
        {("picked up", ""), ("stitches", ""), ("amount", ""), ("closed stitches", "")},
    ),
    "yarn of a step": (
        CAP,
        (("        rounds: 8", "        rounds: 8\n        yarn: foam"),),
        {("yarn", ""), ("amount", "")},
    ),
    "shaping row": (FLAP, (("k1, k2tog,", "k1, ssk,"),), {("shaping row", "1")}),
    "plain row": (
        FLAP,
        (("[k all, p all]", "[k all, k all]"),),
        {("plain row", "2"), ("amount", "")},  # garter stitch has a reserve of its own
    ),
    "rounds of a taper": (
        FLAP,
        (("over: 20", "over: 22"),),
        {("rounds", ""), ("rounds in all", ""), ("pace", ""), ("amount", "")},
    ),
    "kind of decrease": (
        CAP,
        (("crown: 8", "crown: 8\n        with: ssk"),),
        {("first crown round", "")},
    ),
    "pace of a crown": (
        CAP,
        (("crown: 8", "crown: 8\n        pace: every"),),
        {
            ("rounds", ""),
            ("rounds in all", ""),
            ("plain rounds", ""),
            ("crown rounds", ""),
            ("amount", ""),
        },
    ),
    "edging": (FULL, (("sc in each", "dc in each"),), {("row", "1"), ("amount", "")}),
    "sides of an edge": (
        FULL,
        (("along: 10 cm", "along: 10 cm\n        sides: [20, 30]"),),
        {
            ("side of the edge", "1"),
            ("side of the edge", "2"),
            ("stitches of the edging", "1"),
        },
    ),
    "how it is joined": (
        JOINED,
        (("by: grafting", "by: three-needle bind-off"),),
        {("method", ""), ("amount", "")},
    ),
    "stitches of a join": (
        JOINED,
        (("cast on: 24", "cast on: 26"),),
        {("stitches", ""), ("closed stitches", ""), ("amount", "")},
    ),
    "length of an edge": (
        FULL,
        (("along: 10 cm", "along: 12 cm"),),
        {("length of the edge", ""), ("amount", "")},
    ),
}


@pytest.mark.parametrize(("base", "edits", "expected"), KINDS.values(), ids=KINDS)
def test_a_change_is_told_and_nothing_else(
    base: str, edits: tuple[Edit, ...], expected: set[tuple[str, str]]
) -> None:
    assert said(edited(base, *edits)) == expected


def test_a_body_that_changes_in_one_size_changes_that_size_alone() -> None:
    changes = edited(CAP, ("M: {head: 56 cm}", "M: {head: 60 cm}"))

    assert {size for change in changes for size in shifts_of(change)} == {"M"}
    # 95 % of 56 cm and of 60 cm at 2 stitches a cm, to the nearest multiple of 8
    assert shifts(changes, What.MEASURE, "cast_on") == {"M": (Quantity(104), Quantity(112))}
    length = [Quantity(mm, Kind.LENGTH) for mm in (520, 560, 560, 600)]
    assert shifts(changes, What.FINISHED, "Circumference") == {"M": (length[0], length[1])}
    assert shifts(changes, What.BODY, "head") == {"M": (length[2], length[3])}
    assert shifts(changes, What.REPEATS) == {"M": (13, 14)}
    # the crown decreases from 112 to 8 stitches in 8 wedges
    assert shifts(changes, What.DECREASE_ROUNDS) == {"M": (12, 13)}


def shifts_of(change: Change) -> list[str]:
    return [shift.size for shift in change.shifts]


def test_a_gauge_is_told_over_10_cm() -> None:
    changes = edited(CAP, ("stitches: 20", "stitches: 24"))

    assert shifts(changes, What.GAUGE) == {
        size: (SaidExtent(20, 28), SaidExtent(24, 28)) for size in ("S", "M")
    }


def test_numbers_in_a_row_are_those_of_each_size() -> None:
    changes = edited(FULL, ("gusset: 9", "gusset: [9, 10]"))

    rows = [s for c in changes if c.what is What.ROW for s in c.shifts if s.size == "M"]
    (old, new) = next((s.old, s.new) for s in rows if "gusset" in repr(s))
    assert isinstance(old, Instruction)
    assert isinstance(new, Instruction)
    assert (old.numbers, new.numbers) == ((("gusset", 9),), (("gusset", 10),))
    assert shifts(changes, What.HELD) == {"M": (9, 10)}


def test_prose_that_prints_a_changed_figure_has_changed() -> None:
    changes = edited(FULL, ("depth: [20 cm, 21 cm]", "depth: [20 cm, 22 cm]"))

    text = "Work until it measures {{ depth }}."
    assert shifts(changes, What.SAY) == {
        "M": (SaidProse(text, (("depth", 210),)), SaidProse(text, (("depth", 220),)))
    }


def test_prose_that_prints_the_name_of_a_renamed_yarn_has_changed() -> None:
    changes = edited(FULL, ("name: Foam", "name: Spray"))

    assert said(changes) == {("name", ""), ("note", "")}


def test_a_size_that_no_longer_needs_an_even_row_has_none() -> None:
    text = changed(
        CAP,
        ("      - chart", "      - even: increase\n        to: most\n      - chart"),
        ("measures:\n", "measures:\n  most: cast_on + 8\n"),
    )
    changes = compared(plan_of(text), plan_of(changed(text, ("cast_on + 8", "max(cast_on, 104)"))))

    row = shifts(changes, What.ROW, "1")
    assert all(isinstance(old, Instruction) for old, _ in row.values())
    assert {size: new is None for size, (_, new) in row.items()} == {"M": True}


# ---------------------------------------------------------------- what is new or gone


def places(changes: tuple[Change, ...], part: ChangedPart) -> set[tuple[str | None, str | None]]:
    return {(c.place.old, c.place.new) for c in changes if c.place.part is part}


def test_sizes_meet_by_name_and_others_are_told_once() -> None:
    changes = edited(
        CAP,
        ("  M: {head: 56 cm}\n", "  M: {head: 56 cm}\n  L: {head: 60 cm}\n"),
        ("[20 cm, 21 cm]", "[20 cm, 21 cm, 22 cm]"),
    )

    assert [(c.what, c.of) for c in changes] == [(What.SIZE, "L")]
    assert shifts(changes, What.SIZE, "L") == {"": (None, "L")}


def test_another_order_of_sizes_is_told_since_all_figures_follow_it() -> None:
    changes = edited(
        CAP,
        ("  S: {head: 52 cm}\n  M: {head: 56 cm}", "  M: {head: 56 cm}\n  S: {head: 52 cm}"),
        ("[20 cm, 21 cm]", "[21 cm, 20 cm]"),
    )

    assert said(changes) == {("order of sizes", "")}
    assert shifts(changes, What.SIZE_ORDER) == {"": ("S, M", "M, S")}


def test_a_yarn_may_have_another_key() -> None:
    text = CAP.replace("foam", "spray")

    assert compared(plan_of(CAP), plan_of(text)) == ()


def test_a_new_yarn_and_a_lost_one() -> None:
    changes = edited(CAP, ("  foam: {name: Foam", "  ice: {name: Ice"), ("foam}", "ice}"))

    assert places(changes, ChangedPart.YARN) == {(None, "ice"), ("foam", None)}
    new = [c for c in changes if c.place.new == "ice" and c.place.part is ChangedPart.YARN]
    assert all(shift.old is None for change in new for shift in change.shifts)
    assert {c.what for c in new} >= {What.NAME, What.WEIGHT, What.AMOUNT, What.BALLS}
    assert all(
        isinstance(s.new, SaidAmount) for c in new if c.what is What.AMOUNT for s in c.shifts
    )


def test_a_new_piece_and_a_lost_one() -> None:
    flap = FLAP[FLAP.index("  flap:\n") :].replace("wide", "20").replace("narrow", "10")
    old, new = plan_of(CAP), plan_of(CAP + flap)

    assert places(compared(old, new), ChangedPart.PIECE) == {(None, "flap")}
    assert places(compared(new, old), ChangedPart.PIECE) == {("flap", None)}
    assert places(compared(old, new), ChangedPart.STEP) == set()


def steps(changes: tuple[Change, ...]) -> set[tuple[int | None, int | None]]:
    """The numbers of the steps that changed, in both versions; ``None`` where there is none."""
    return {
        (
            c.place.old_step.number if c.place.old_step else None,
            c.place.new_step.number if c.place.new_step else None,
        )
        for c in changes
        if c.place.part is ChangedPart.STEP
    }


def test_a_new_step_does_not_make_later_ones_look_changed() -> None:
    new = ("      - chart", "      - say: Change the needle.\n      - chart")

    assert steps(edited(CAP, new)) == {(None, 3)}
    later = edited(CAP, new, ("crown: 8", "crown: 8\n        pace: every"))
    assert steps(later) == {(None, 3), (5, 6)}


def test_a_lost_step_does_not_either() -> None:
    lost = ("      - work: k all\n        rounds: rounds(depth) - 30\n", "")

    assert steps(edited(CAP, lost)) == {(4, None)}


def test_a_step_of_another_kind_is_a_lost_one_and_a_new_one() -> None:
    assert steps(
        edited(CAP, ("work: k all\n        rounds: rounds(depth) - 30", "say: Rest."))
    ) == {
        (4, None),
        (None, 4),
    }


def test_a_section_knows_no_number() -> None:
    changes = edited(FULL, ("section: Body", "section: Top"))

    assert steps(changes) == {(None, None)}
    assert shifts(changes, What.HEADING) == {"": ("Body", "Top")}
    assert not any(change.place.added or change.place.gone for change in changes)


# ---------------------------------------------------------------- charts


def test_a_changed_cell_is_told_by_round_and_by_what_it_means() -> None:
    changes = edited(CAP, grid=("..##....", "..###..."))

    assert said(changes) == {("cells", "3"), ("amount", "")}
    ((old, new),) = shifts(changes, What.CELLS, "3").values()
    # stitch 1 is the right-most: the new light stitch is the fourth from there
    assert [i for i, (a, b) in enumerate(zip(old, new, strict=True), start=1) if a != b] == [4]
    assert (old[3], new[3]) == (Cell("slate", "k"), Cell("foam", "k"))


def test_other_characters_for_the_same_yarns_are_no_change() -> None:
    text = changed(CAP, ('{".": slate, "#": foam}', '{"-": slate, "x": {yarn: foam, stitch: k}}'))

    grid = WAVES.replace(".", "-").replace("#", "x")
    assert compared(plan_of(CAP), plan_of(text, grid)) == ()


def test_a_new_round_of_a_chart_does_not_make_those_above_look_changed() -> None:
    changes = edited(CAP, grid=(".#..#..#\n", ".#..#..#\n.#..#.#.\n"))

    higher = (SaidExtent(8, 4), SaidExtent(8, 5))
    assert shifts(changes, What.EXTENT) == {"S": higher, "M": higher}
    cells = [change for change in changes if change.what is What.CELLS]
    assert [(c.of, c.shifts[0].old is None) for c in cells] == [("2", True)]


def test_charts_of_different_widths_are_not_compared_stitch_by_stitch() -> None:
    changes = compared(plan_of(CAP), plan_of(CAP, "....\n.##.\n#..#\n...."))

    narrower = (SaidExtent(8, 4), SaidExtent(4, 4))
    assert shifts(changes, What.EXTENT) == {"S": narrower, "M": narrower}
    assert What.CELLS not in {change.what for change in changes}


# ---------------------------------------------------------------- tubes


def stops(changes: tuple[Change, ...], size: str) -> list[tuple[Stop | None, Stop | None]]:
    """The moved, new and lost stops of a size."""
    return [
        (shift.old, shift.new)  # type: ignore[misc]
        for change in changes
        if change.what is What.COUNTER
        for shift in change.shifts
        if shift.size == size
    ]


def test_a_deeper_tube_moves_the_stops_of_its_size_alone() -> None:
    changes = edited(TUBE, ("[10 cm, 11 cm]", "[10 cm, 12 cm]"))

    assert stops(changes, "S") == []
    # 11 and 12 cm are 15 and 17 rounds at 14 a decimetre; gather 1, brim 4
    assert (Stop(16, "lining"), Stop(18, "lining")) in stops(changes, "M")
    assert (Stop(20, "fold"), Stop(22, "fold")) in stops(changes, "M")
    assert (Stop(24, "brim"), Stop(26, "brim")) in stops(changes, "M")
    assert (Stop(40, "end"), Stop(44, "end")) in stops(changes, "M")
    assert shifts(changes, What.TOTAL_ROUNDS) == {"M": (40, 44)}
    assert shifts(changes, What.PICTURE_START) == {"M": (26, 28)}


def test_dearer_changes_of_yarn_leave_out_stops_and_embroider_more() -> None:
    """A whole round of foam in a tube of slate is a stripe where changes cost nothing."""
    grid = WAVES.replace("..##....", "########")
    plan = "    colour plan: {minutes per change: %s}\n    steps:"
    cheap, dear = (changed(TUBE, ("    steps:", plan % cost)) for cost in (0, 100))
    changes = compared(plan_of(cheap, grid), plan_of(dear, grid))

    for size in ("S", "M"):
        lost = [(old.cut, old.join) for old, new in stops(changes, size) if old and not new]
        assert (("slate",), ("foam",)) in lost
        assert (("foam",), ("slate",)) in lost
        assert not any(old is None for old, _ in stops(changes, size))
    old, new = shifts(changes, What.EMBROIDERED, "foam")["S"]
    assert new - old >= 24


def test_rounds_in_two_yarns_are_told_by_their_numbers() -> None:
    """Two stitches of each yarn by turns: floats short enough to strand."""
    grid = "........\n##..##..\n........\n........\n"
    stranded = changed(
        TUBE, ("    steps:", "    colour plan: {stranded: laid in by hand}\n    steps:")
    )
    changes = compared(plan_of(TUBE, grid), plan_of(stranded, grid))

    # gather 1, lining 14 and brim 4 rounds, the brim again, 1 below the picture; its third round
    assert shifts(changes, What.STRANDED)["S"] == (None, ((27,),))
    assert shifts(changes, What.EMBROIDERED, "foam")["S"][1] is None


def test_embroidery_is_told_by_yarn() -> None:
    changes = edited(TUBE, grid=("..##....", "..###..."))

    # three repeats of the chart go around 24 needles, each with one stitch more
    old, new = shifts(changes, What.EMBROIDERED, "foam")["S"]
    assert new - old == 3
    assert What.WORKING_ORDER in {change.what for change in changes}
    assert (What.EMBROIDERED, "slate") not in {(c.what, c.of) for c in changes}


# ---------------------------------------------------------------- what always holds

EDITS: tuple[Edit, ...] = (
    ("stitches: 20", "stitches: 22"),
    ("rounds: 28", "rounds: 30"),
    ("S: {head: 52 cm}", "S: {head: 54 cm}"),
    ("M: {head: 56 cm}", "XL: {head: 56 cm}"),
    ("depth: [20 cm, 21 cm]", "depth: [21 cm, 21 cm]"),
    ("name: Foam", "name: Spray"),
    ("Low light", "High light"),
    ("*k2, p2;", "*k1, p1;"),
    ("      - chart", "      - say: Change the needle.\n      - chart"),
    ("section: Brim", "section: Edge"),
    ("      - bind off: all\n", "      - work: k all\n        rounds: 2\n      - bind off: all\n"),
    ("pick up: 3", "pick up: 4"),
    ("gusset: 9", "gusset: 11"),
    ("Use {{", "Take {{"),
    ("times: 2", "times: 3"),
)
some = st.lists(st.sampled_from(EDITS), unique=True, max_size=6)


def as_set(changes: tuple[Change, ...], *, back: bool) -> set[tuple[Any, ...]]:
    """All shifts as text, turned around if they lead ``back``."""
    return {
        (c.what, c.of, s.size, *map(repr, (s.new, s.old) if back else (s.old, s.new)))
        for c in changes
        for s in c.shifts
        if c.what is not What.CELLS
    }


@settings(max_examples=20, deadline=None)
@given(some, some)
def test_the_way_back_has_the_same_changes(one: list[Edit], other: list[Edit]) -> None:
    old, new = (plan_of(changed(FULL, *edits)) for edits in (one, other))

    there, back = compared(old, new), compared(new, old)
    assert len(there) == len(back)
    assert as_set(there, back=False) == as_set(back, back=True)


@settings(max_examples=20, deadline=None)
@given(st.sets(st.sampled_from(["Use {{", "until it", "Low", "A plain"]), min_size=1))
def test_words_change_no_number(words: set[str]) -> None:
    changes = edited(FULL, *((word, f"Now {word}") for word in sorted(words)))

    assert changes
    assert {change.what for change in changes} <= PROSE


@pytest.mark.parametrize("edit", [*EDITS[:5], *EDITS[11:13]], ids=lambda edit: edit[1])
def test_counts_are_those_in_which_the_published_numbers_differ(edit: Edit) -> None:
    """The numbers are published per step for other programs; here two such files are compared."""
    old, new = plan_of(FULL), plan_of(changed(FULL, edit))
    found = compared(old, new)

    expected = set()
    sizes = [size for size in new.source.sizes if size in old.source.sizes]
    before, after = (figures(plan)["pieces"]["cap"] for plan in (old, new))
    for was, now in zip(before, after, strict=True):
        for what in ("stitches", "rounds"):
            for size in sizes:
                if was[what][size] != now[what][size]:
                    expected.add((now["step"], what, size, was[what][size], now[what][size]))
    assert expected == {
        (c.place.new_step.number, c.what.value, s.size, s.old, s.new)
        for c in found
        if c.what in (What.STITCHES, What.ROUNDS) and c.place.new_step
        for s in c.shifts
    }


# ---------------------------------------------------------------- another gauge


def replanned(text: str, *gauges: str) -> Plan:
    """The plan at other gauges."""
    return replan(source_of(text), parse_gauges(gauges))[0]


@pytest.mark.parametrize("text", [CAP, TUBE, FLAP, FULL], ids=["cap", "tube", "flap", "full"])
def test_nothing_differs_at_the_same_gauge(text: str) -> None:
    same = "10 x 14 / 10 cm" if text == TUBE else "20 x 28 / 10 cm"

    assert compared(plan_of(text), replanned(text, same)) == ()
    assert compared(plan_of(text), replanned(text)) == ()


@settings(max_examples=15, deadline=None)
@given(
    st.decimals(min_value=16, max_value=26, places=1),
    st.decimals(min_value=24, max_value=34, places=1),
)
def test_another_gauge_is_the_same_as_one_written_in_the_source(
    stitches: object, rounds: object
) -> None:
    written = changed(
        CAP, ("stitches: 20", f"stitches: {stitches}"), ("rounds: 28", f"rounds: {rounds}")
    )
    stated = replanned(CAP, f"{stitches} x {rounds} / 10 cm")

    assert compared(plan_of(written), stated) == ()


def test_counts_follow_the_gauge() -> None:
    changes = compared(plan_of(CAP), replanned(CAP, "22 x 30 / 10 cm"))

    # 95 % of 52 and 56 cm at 2.2 stitches a cm are 108.7 and 117.0: multiples of 8
    assert shifts(changes, What.MEASURE, "cast_on") == {
        "S": (Quantity(96), Quantity(112)),
        "M": (Quantity(104), Quantity(120)),
    }
