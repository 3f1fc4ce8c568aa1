"""What is told of a difference: the very words and figures of both versions, and where it lies."""

from typing import Any

import networkx as nx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bindoff.plan.differences.change import Change, ChangedPart, Place, StepAt
from bindoff.plan.differences.find import differences
from bindoff.plan.differences.said import Cell, SaidExtent, SaidProse, Stop, What
from bindoff.source.formula import Kind, Quantity
from tests.plan.test_differences import FULL, compared, edited, places, shifts
from tests.small_patterns import CAP, FLAP, TUBE, changed, plan_of

SLATE, FOAM = (
    line for line in CAP.splitlines(keepends=True) if line.startswith(("  slate:", "  foam:"))
)

BRIM_GAUGE = changed(
    CAP, ("yarns:\n", "gauges:\n  brim: {stitches: 24, rounds: 32, tool: 3 mm}\nyarns:\n")
)

RIPPLE = (
    "  ripple:\n    title: Ripple\n    grid: waves.grid\n"
    '    legend: {".": slate, "#": foam}\n    alt: Other waves.\n'
)

# ---------------------------------------------------------------- words and figures

TOLD: dict[str, tuple[str, tuple[str, str], tuple[What, str], dict[str, tuple[Any, Any]]]] = {
    "designer": (
        CAP,
        ("The Ebbstow Knitting Room", "Ebbstow Knits"),
        (What.TEXT, "designer"),
        {"": ("The Ebbstow Knitting Room", "Ebbstow Knits")},
    ),
    "language": (
        CAP,
        ("wearer", "language: pl\nwearer"),
        (What.TEXT, "language"),
        {"": ("en", "pl")},
    ),
    "contact": (
        CAP,
        ("wearer", "contact: post@ebbstow.example\nwearer"),
        (What.TEXT, "contact"),
        {"": (None, "post@ebbstow.example")},
    ),
    "skill": (
        CAP,
        ("wearer", "skill: Easy.\nwearer"),
        (What.TEXT, "skill"),
        {"": (None, "Easy.")},
    ),
    "wearers": (
        CAP,
        ("[adult]", "[adult, child]"),
        (What.TEXT, "wearer"),
        {"": ("adult", "adult, child")},
    ),
    "cautions": (
        CAP,
        ("wearer", "hazards: [cords, pompom]\nwearer"),
        (What.TEXT, "cautions"),
        {"": (None, "cords, pompom")},
    ),
    "techniques": (
        CAP,
        ("wearer", "techniques: [grafting, floats]\nwearer"),
        (What.TEXT, "techniques"),
        {"": (None, "grafting, floats")},
    ),
    "how it is made": (
        FLAP,
        ("gauge:", "made: {by: machine, needles: 24}\ngauge:"),
        (What.TEXT, "made"),
        {"": ("by hand", "by machine, 24 needles")},
    ),
    "colour in capitals": (
        CAP,
        ("#e9eef0", "#ABCDEF"),
        (What.COLOUR, ""),
        {"": ("#e9eef0", "#abcdef")},
    ),
    "fibre": (
        CAP,
        ("name: Foam", "name: Foam, fibre: wool"),
        (What.FIBRE, ""),
        {"": (None, "wool")},
    ),
    "fabric of the gauge": (
        CAP,
        ("rounds: 28", "rounds: 28\n  worked: plain"),
        (What.GAUGE_WORKED, ""),
        {"S": (None, "plain"), "M": (None, "plain")},
    ),
    "tool of a further gauge": (
        BRIM_GAUGE,
        ("tool: 3 mm", "tool: 3.25 mm"),
        (What.GAUGE_TOOL, "brim"),
        {"S": ("3 mm", "3.25 mm"), "M": ("3 mm", "3.25 mm")},
    ),
    "tool of the main gauge beside a further one": (
        BRIM_GAUGE,
        ("rounds: 28", "rounds: 28\n  tool: 4 mm"),
        (What.GAUGE_TOOL, ""),
        {"S": (None, "4 mm"), "M": (None, "4 mm")},
    ),
}


@pytest.mark.parametrize(("base", "edit", "subject", "expected"), TOLD.values(), ids=TOLD)
def test_both_versions_are_quoted(
    base: str,
    edit: tuple[str, str],
    subject: tuple[What, str],
    expected: dict[str, tuple[Any, Any]],
) -> None:
    changes = edited(base, edit)

    assert [(change.what, change.of) for change in changes] == [subject]
    assert shifts(changes, *subject) == expected


def test_lengths_and_gauges_are_told_to_the_millionth() -> None:
    changes = edited(CAP, ("measures:\n", "measures:\n  third: 10 cm / 3\n"))
    assert shifts(changes, What.MEASURE, "third")["S"] == (
        None,
        Quantity(33.333333, Kind.LENGTH),
    )

    swatch = "gauge: {swatch: {stitches: 22, width: 12 cm, rounds: 20, height: 7 cm}}"
    changes = edited(FLAP, ("gauge: {stitches: 20, rounds: 28}", swatch))
    # 22 over 12 cm are 18 1/3 over 10, 20 over 7 cm are 28 4/7
    assert shifts(changes, What.GAUGE)["S"] == (
        SaidExtent(20, 28),
        SaidExtent(18.333333, 28.571429),
    )


def test_a_piece_worked_flat_is_told() -> None:
    changes = edited(CAP, ("title: Cap", "title: Cap\n    worked: flat"))

    assert shifts(changes, What.WORKED) == {"": ("round", "flat")}


def test_prose_prints_the_names_of_yarns_in_the_order_of_its_words() -> None:
    text = "{{depth}}{{yarns.foam}}{{yarns.slate}}"
    changes = edited(CAP, ("pieces:\n", f"notes: '{text}'\npieces:\n"))

    named = (("foam", "Foam"), ("slate", "Slate"))
    assert shifts(changes, What.PROSE, "notes") == {
        "S": (None, SaidProse(text, (("depth", 200), *named))),
        "M": (None, SaidProse(text, (("depth", 210), *named))),
    }


def test_yarns_in_another_order_change_no_prose() -> None:
    base = changed(
        CAP, ("pieces:\n", "notes: Hold {{ yarns.slate }} and {{ yarns.foam }}.\npieces:\n")
    )

    assert edited(base, (SLATE + FOAM, FOAM + SLATE)) == ()


def test_yarn_is_told_by_weight_and_length() -> None:
    """A ball of 100 g is 200 m, then 250 m."""
    amounts = shifts(edited(CAP, (FOAM, FOAM.replace("200 m", "250 m"))), What.AMOUNT)

    assert list(amounts) == ["S", "M"]
    for before, after in amounts.values():
        assert before.metres == pytest.approx(2 * before.grams, abs=2e-6)
        assert after.metres == pytest.approx(2.5 * after.grams, abs=2e-6)


def test_both_plans_are_at_hand() -> None:
    old, new = plan_of(CAP), plan_of(FLAP)
    found = differences(old, new)

    assert found.old is old
    assert found.new is new


@pytest.mark.parametrize(
    "edits",
    [
        [("Quay Cap", "Pier Cap")],
        [("  M: {head: 56 cm}\n", ""), ("[20 cm, 21 cm]", "20 cm")],
        [
            ("  S: {head: 52 cm}\n  M: {head: 56 cm}", "  M: {head: 56 cm}\n  S: {head: 52 cm}"),
            ("[20 cm, 21 cm]", "[21 cm, 20 cm]"),
        ],
    ],
    ids=["title", "a size less", "order of sizes"],
)
def test_what_is_told_once_is_of_the_pattern(edits: list[tuple[str, str]]) -> None:
    assert [change.place for change in edited(CAP, *edits)] == [Place(ChangedPart.PATTERN)]


# ---------------------------------------------------------------- charts


def test_a_chart_may_have_another_key() -> None:
    text = changed(CAP, ("  waves:\n", "  surf:\n"), ("chart: waves", "chart: surf"))

    assert compared(plan_of(CAP), plan_of(text)) == ()


def test_a_new_chart_and_a_lost_one() -> None:
    old, new = plan_of(CAP), plan_of(changed(CAP, ("pieces:\n", RIPPLE + "pieces:\n")))
    facts = {What.NAME: "Ripple", What.ALT: "Other waves.", What.EXTENT: SaidExtent(8, 4)}

    there, back = compared(old, new), compared(new, old)
    assert places(there, ChangedPart.CHART) == {(None, "ripple")}
    assert places(back, ChangedPart.CHART) == {("ripple", None)}
    assert {c.what: (s.old, s.new) for c in there for s in c.shifts} == {
        what: (None, value) for what, value in facts.items()
    }
    assert {c.what: (s.old, s.new) for c in back for s in c.shifts} == {
        what: (value, None) for what, value in facts.items()
    }


@pytest.mark.parametrize(
    ("meaning", "cell"),
    [
        ("p", Cell("", "p")),
        ("{stitch: p}", Cell("", "p")),
        ("{stitch: P}", Cell("", "p")),
        ("foam", Cell("foam", "k")),
        ("{yarn: foam}", Cell("foam", "k")),
        ("{yarn: foam, stitch: P}", Cell("foam", "p")),
    ],
)
def test_a_cell_means_a_yarn_a_stitch_or_both(meaning: str, cell: Cell) -> None:
    """A stitch alone is in the yarn of the step, a yarn alone is knitted."""
    in_foam = ("        rounds: 8", "        rounds: 8\n        yarn: foam")
    changes = edited(
        changed(CAP, in_foam, ('"#": foam', f'"#": {meaning}')), grid=("..##....", "..###...")
    )

    cells = shifts(changes, What.CELLS, "3")
    assert list(cells) == [""]  # the same in all sizes
    old, new = cells[""]
    assert (old[3], new[3]) == (Cell("slate", "k"), cell)


STRIP = changed(
    FLAP,
    (
        "pieces:\n",
        "charts:\n  strip:\n    title: Strip\n    grid: waves.grid\n"
        '    legend: {".": slate, "#": p}\n    alt: Plain rows and ridges.\npieces:\n',
    ),
)


def test_a_new_round_amid_many_alike_is_one_change() -> None:
    changes = compared(
        plan_of(STRIP, "..\n" * 210), plan_of(STRIP, "..\n" * 110 + ".#\n" + "..\n" * 100)
    )

    assert [(change.what, change.of) for change in changes] == [
        (What.EXTENT, ""),
        (What.CELLS, "101"),
    ]


@pytest.mark.parametrize(("old", "new"), [(".#\n..", "##"), ("#.\n##", "..")])
def test_of_rounds_with_nothing_in_common_the_first_meet(old: str, new: str) -> None:
    """The last line of a grid is round 1; one version sorts before the other, and after it."""
    there = compared(plan_of(STRIP, old), plan_of(STRIP, new))
    back = compared(plan_of(STRIP, new), plan_of(STRIP, old))

    def met(changes: tuple[Change, ...]) -> list[tuple[str, bool, bool]]:
        """The rounds, and whether both versions have them."""
        cells = [c for c in changes if c.what is What.CELLS]
        return [(c.of, s.old is not None, s.new is not None) for c in cells for s in c.shifts]

    assert met(there) == [("1", True, True), ("2", True, False)]
    assert met(back) == [("1", True, True), ("2", False, True)]


def most_kept(old: str, new: str) -> int:
    """How many letters both have in the same order: by the shortest way through the graph in which
    leaving a letter out costs 1 and keeping one that both have costs nothing."""
    ways = nx.DiGraph()
    for a in range(len(old) + 1):
        for b in range(len(new) + 1):
            ways.add_edge((a, b), (a + 1, b), weight=1)
            ways.add_edge((a, b), (a, b + 1), weight=1)
            if old[a : a + 1] == new[b : b + 1]:
                ways.add_edge((a, b), (a + 1, b + 1), weight=0)
    left_out = nx.shortest_path_length(ways, (0, 0), (len(old), len(new)), weight="weight")
    return (len(old) + len(new) - int(left_out)) // 2


rows = st.text(".#", min_size=1, max_size=9)


@settings(max_examples=40)
@given(rows, rows)
def test_as_many_rounds_as_possible_stay_as_they_were(old: str, new: str) -> None:
    """Charts one stitch wide; charts of the same height are compared round by round."""
    assume(len(old) != len(new))
    changes = compared(plan_of(STRIP, "\n".join(old)), plan_of(STRIP, "\n".join(new)))

    told = [shift for c in changes if c.what is What.CELLS for shift in c.shifts]
    assert len(new) - sum(shift.new is not None for shift in told) == most_kept(old, new)
    assert len(old) - sum(shift.old is not None for shift in told) == most_kept(old, new)


# ---------------------------------------------------------------- steps


def test_a_yarn_that_is_gone_is_called_by_the_key_it_had() -> None:
    base = changed(CAP, ("        rounds: 8", "        rounds: 8\n        yarn: foam"))
    changes = edited(
        base,
        (FOAM, FOAM.replace("foam", "ice").replace("Foam", "Ice")),
        ("yarn: foam", "yarn: slate"),
        ('"#": foam', '"#": ice'),
    )

    assert shifts(changes, What.YARN) == {"": ("foam", "slate")}


def test_a_heading_and_a_step_know_where_they_stand() -> None:
    changes = edited(FULL, ("section: Body", "section: Top"), ("until it", "till it"))

    at = {c.what: (c.place.old_step, c.place.new_step) for c in changes}
    # a heading, two steps with numbers and the chart's come before
    assert at[What.SAY] == (StepAt(3, 3, "Brim"), StepAt(3, 3, "Brim"))
    assert at[What.HEADING] == (StepAt(4, None, "Body"), StepAt(4, None, "Top"))


def between(*steps: str) -> str:
    """A flap with these steps between its first and its last."""
    taper = FLAP[FLAP.index("      - taper") : FLAP.index("      - bind off")]
    return changed(FLAP, (taper, "".join(f"      - {step}\n" for step in steps)))


@pytest.mark.parametrize("extra", ["even: decrease\n        to: narrow", "work: k all"])
def test_a_changed_step_behind_a_lost_one_is_still_the_same_step(extra: str) -> None:
    changes = compared(plan_of(between(extra, "say: Turn.")), plan_of(between("say: Turn it.")))

    steps = {(c.place.old_step, c.place.new_step) for c in changes if c.what is What.SAY}
    assert steps == {(StepAt(2, 3, ""), StepAt(1, 2, ""))}
    gone = {c.place.old_step for c in changes if c.place.part is ChangedPart.STEP and c.place.gone}
    assert gone == {StepAt(1, 2, "")}


def test_a_step_that_stays_as_it_was_meets_before_a_changed_one_of_its_kind() -> None:
    old, new = between("say: Turn."), between("say: Wait.", "say: Rest.", "say: Turn.")
    changes = compared(plan_of(old), plan_of(new))

    assert [(c.what, c.place.old_step, c.place.new_step) for c in changes] == [
        (What.SAY, None, StepAt(1, 2, "")),
        (What.SAY, None, StepAt(2, 3, "")),
    ]


def test_as_many_changed_steps_as_possible_meet_one_of_their_kind() -> None:
    """A text, a row and a text against a row and a text: the last two of them."""
    old = between("say: Turn.", "work: k all", "say: Rest.")
    new = between("work: p all", "say: Stop.")
    changes = compared(plan_of(old), plan_of(new))

    steps = {
        (c.place.old_step, c.place.new_step) for c in changes if c.place.part is ChangedPart.STEP
    }
    assert steps == {
        (StepAt(1, 2, ""), None),
        (StepAt(2, 3, ""), StepAt(1, 2, "")),
        (StepAt(3, 4, ""), StepAt(2, 3, "")),
    }


def test_steps_that_changed_places_at_the_end_take_no_other_step_with_them() -> None:
    """Of a heading and a text that changed places one can meet its kind; the bind-off can too."""
    bound = "bind off: all\n        how: "
    ends = FLAP[FLAP.index("      - taper") :]
    old, new = (
        changed(FLAP, (ends, "".join(f"      - {step}\n" for step in steps)))
        for steps in (
            (f"{bound}loosely", "say: Turn.", "section: Making up"),
            ("work: k all", f"{bound}in rib", "section: Finish", "say: Turn it."),
        )
    )
    changes = compared(plan_of(old), plan_of(new))

    steps = {
        (c.place.old_step, c.place.new_step) for c in changes if c.place.part is ChangedPart.STEP
    }
    assert steps == {
        (None, StepAt(1, 2, "")),
        (StepAt(1, 2, ""), StepAt(2, 3, "")),
        (StepAt(2, 3, ""), None),
        (StepAt(3, None, "Making up"), StepAt(3, None, "Finish")),
        (None, StepAt(4, 4, "Finish")),
    }


def test_stops_of_one_kind_are_counted() -> None:
    """A tube of slate with foam in the second and the fourth round of the picture.

    An end gathers 1 round, the brim is 4 rounds on either side of the fold, and 1 round lies below
    the picture: with a lining of 15 rounds (11 cm at 14 over 10 cm) it starts in round 26.
    """
    grid = "########\n........\n########\n........\n"
    costless = changed(TUBE, ("    steps:", "    colour plan: {minutes per change: 0}\n    steps:"))
    deeper = changed(costless, ("[10 cm, 11 cm]", "[10 cm, 12 cm]"))
    changes = compared(plan_of(costless, grid), plan_of(deeper, grid))

    def ends(counter: int, part: str) -> Stop:
        return Stop(counter, part)

    def change(counter: int, cut: str, join: str) -> Stop:
        return Stop(counter, cut=(cut,), join=(join,))

    moved = {
        "lining|||1": (ends(16, "lining"), ends(18, "lining")),
        "fold|||1": (ends(20, "fold"), ends(22, "fold")),
        "brim|||1": (ends(24, "brim"), ends(26, "brim")),
        "|slate|foam|1": (change(26, "slate", "foam"), change(28, "slate", "foam")),
        "|foam|slate|1": (change(27, "foam", "slate"), change(29, "foam", "slate")),
        "|slate|foam|2": (change(28, "slate", "foam"), change(30, "slate", "foam")),
        "|foam|slate|2": (change(29, "foam", "slate"), change(31, "foam", "slate")),
        "end|||1": (ends(40, "end"), ends(44, "end")),
    }
    assert {
        c.of: (s.old, s.new) for c in changes if c.what is What.COUNTER for s in c.shifts
    } == moved
    knitted = StepAt(0, 1, "")
    assert {c.place for c in changes if c.what is What.COUNTER} == {
        Place(ChangedPart.STEP, "cap", "cap", knitted, knitted)
    }
