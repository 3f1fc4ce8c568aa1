"""Every kind of step in words, for one size and for many, in rounds and in rows."""

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.document.piecepages import piece_blocks
from bindoff.document.stepwords import abbreviated_rows
from bindoff.document.tree import ItemList, Link
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.taper import Taper
from tests.document.patterns import (
    CHARTED,
    TWO_YARNS,
    Data,
    Steps,
    cells,
    data,
    flat,
    for_size,
    inlines_of,
    plan_of,
    printed,
    step_words,
    tables,
    voice,
)

START: dict[str, Any] = {"cast on": "n"}
END: dict[str, Any] = {"bind off": "all"}
RIB = "*k2, p2; repeat from * to end"


def words(step: dict[str, Any], sizes: int = 2, **changes: Any) -> str:
    """What is said of ``step`` between a cast-on and a bind-off."""
    return step_words(data([START, step, END], sizes, **changes), 1)


def flat_words(step: dict[str, Any], sizes: int = 2, **changes: Any) -> str:
    """The same in a piece worked in rows."""
    return step_words(flat(data([START, step, END], sizes, **changes)), 1)


def words_of_each(source: Data, number: int) -> list[str]:
    """What the reader of each size is told by one step."""
    speaker = voice(source)
    blocks = piece_blocks(speaker, speaker.plan.pieces[0])
    items = [item for block in blocks if isinstance(block, ItemList) for item in block.items]
    return [
        " ".join(for_size(inlines, size) for inlines in inlines_of(items[number].blocks))
        for size in range(len(speaker.sizes))
    ]


# ---------------------------------------------------------------- beginnings and ends


def test_cast_on() -> None:
    source = data([START, END])

    assert step_words(source, 0) == (
        "With Slate and the long-tail method, cast on 40 (48) stitches."
    )
    assert step_words(data([START, END], 1), 0).endswith("cast on 40 stitches.")


def test_cast_on_with_waste_yarn_does_not_name_the_pattern_yarn_first() -> None:
    source = data([START | {"method": "waste yarn"}, END])

    assert step_words(source, 0).startswith(
        "With waste yarn, cast on 40 (48) stitches. Change to Slate. The waste yarn holds"
    )


@pytest.mark.parametrize(("terms", "verb"), [("US", "Bind off"), ("UK", "Cast off")])
def test_bind_off_is_cast_off_in_the_united_kingdom(terms: str, verb: str) -> None:
    """US and UK words: the Craft Yarn Council's list of terms, from memory."""
    source = data([START, END | {"how": "loosely in rib."}], terms=terms)

    assert step_words(source) == f"{verb} all 40 (48) stitches loosely in rib."


def test_a_part_bound_off_says_what_is_left() -> None:
    steps: Steps = [START, {"bind off": 6, "how": "loosely"}, {"gather": "all"}]

    assert step_words(data(steps), 1) == "Bind off loosely 6 stitches. 34 (42) stitches left."


def test_binding_off_in_another_yarn_names_it() -> None:
    steps: Steps = [START, END | {"yarn": "foam"}]

    told = "Cut Slate. With Foam, bind off all 40 (48) stitches."
    assert step_words(data(steps, **TWO_YARNS)) == told


@pytest.mark.parametrize(
    ("units", "more"), [("metric", "15 cm"), ("imperial", "6 in"), ("both", "15 cm / 6 in")]
)
def test_a_gathered_end_says_how_much_yarn_in_the_units_of_the_pattern(
    units: str, more: str
) -> None:
    said = step_words(data([START, {"gather": "all"}], units=units))

    assert f"one and a half times and {more} more." in said
    assert "through the remaining 40 (48) stitches, draw them closed" in said


@pytest.mark.parametrize(
    ("held", "picked_up", "said"),
    [
        (5, 3, "Put the 5 held stitches back on the needles. Join Slate, and in the gap beside "
               "them pick up and knit 3 stitches. Go on in the round from there. 8 stitches."),
        (1, 1, "Put the held stitch back on the needles. Join Slate, and in the gap beside it pick "
               "up and knit 1 stitch. Go on in the round from there. 2 stitches."),
        (5, 0, "Put the 5 held stitches back on the needles. Join Slate. 5 stitches."),
    ],
)  # fmt: skip
def test_held_stitches_are_taken_up_again(held: int, picked_up: int, said: str) -> None:
    hold = {"work": f"hold {held} stitches, k to end", "rounds": 1}
    steps: Steps = [START, hold, END, {"held": held, "pick up": picked_up}, {"gather": "all"}]

    assert step_words(data(steps), 3) == said


def test_a_row_that_divides_tells_all_parts() -> None:
    row = (
        "k8, hold 10 stitches for the left sleeve, cast on 2, k8, hold 6 for right sleeve, k to end"
    )
    steps = [START, {"work": row, "parts": "back, front, back"}, END]
    steps += [{"held": "left sleeve"}, END, {"held": "right sleeve"}, END]

    assert step_words(data(steps), 1) == (
        "Next round: K8, hold 10 stitches for left sleeve, cast on 2 stitches, k8, hold 6 stitches "
        "for right sleeve, k to end. The stitches are now divided: back 16 (24), left sleeve 10, "
        "front 8, right sleeve 6. 26 (34) stitches."
    )


@pytest.mark.parametrize(
    ("held", "said"),
    [
        ({"held": "left", "pick up": 2, "along": "the underarm"},
         "Put the held stitches of the left back on the needles: 5. Join Slate. Along the underarm "
         "pick up and knit 2 stitches. Go on in the round from there. 7 stitches."),
        ({"held": "right, cast on 3, left, pick up 1"},
         "Join Slate. Put these on the needles, in this order. The 4 held for the right; cast on "
         "3; the 5 held for the left; pick up and knit 1. 13 stitches."),
    ],
)  # fmt: skip
def test_groups_come_back_by_name(held: dict[str, Any], said: str) -> None:
    steps = [START, {"work": "hold 5 for left, hold 4 for right, k to end"}, END, held, END]
    rest = [{"held": "right"}, END] if "right" not in held["held"] else []

    assert step_words(data([*steps, *rest]), 3) == said


def test_a_piece_made_twice_says_whose_stitches_come_when() -> None:
    body = [START, {"work": "hold 5 for left cuff, hold 5 for right cuff, k to end"}, END]
    cuff = [{"held": "left cuff or right cuff"}, END]
    speaker = voice(data([], pieces={
        "body": {"title": "Body", "steps": body},
        "cuff": {"title": "Cuff", "make": 2, "steps": cuff},
    }))  # fmt: skip

    (items,) = (
        block
        for block in piece_blocks(speaker, speaker.plan.pieces[1])
        if isinstance(block, ItemList)
    )
    assert " ".join(printed(words) for words in inlines_of(items.items[0].blocks)) == (
        "Put the held stitches of the left cuff (the right cuff the second time) "
        "back on the needles: 5. Join Slate. 5 stitches."
    )


def test_a_heel_repeats_its_last_rows() -> None:
    rows = [
        "k14, ssk, k1, turn",
        "sl1, p5, p2tog, p1, turn",
        "sl1, k to 1 before the gap, ssk, k1, turn",
        "sl1, p to 1 before last turn, p2tog, p1, turn",
    ]
    step = {"work": rows, "rounds": 6, "repeat last": 2}

    said = step_words(data([START, step, END]), 1)

    assert said.startswith(
        "Work these 4 rows, then repeat rows 3 and 4. In all there are 6 rows. 34 (42) stitches."
    )
    assert said.endswith(
        "Row 3 (right side): Sl1, k to 1 stitch before gap, ssk, k1, turn. Row 4 (wrong side): "
        "Sl1, p to 1 stitch before gap, p2tog, p1, turn."
    )


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("k to last 5, ds", "K to last 5 stitches, turn, ds."),
        ("ds, p to 3 past last turn, turn", "Ds, p to 3 stitches past last turn, turn."),
        ("k to 2 before ds, turn", "K to 3 stitches before gap, turn."),
        ("k to wrapped stitch, k1, w&t", "K to gap, k1, w&t."),
    ],
)
def test_turns_are_told_and_read_again(row: str, said: str) -> None:
    first = {"work": ["k20, turn", "p10, turn"]}
    told = step_words(data([START, first, {"work": row}, {"work": "k all"}, END]), 2)

    assert said in told
    again = said[0].lower() + said[1:]
    assert said in step_words(data([START, first, {"work": again}, {"work": "k all"}, END]), 2)


def test_rows_are_called_rows_until_the_work_is_joined() -> None:
    steps = [START, {"work": "k to end, join in the round"}, {"work": "k2tog, k to end"}, END]
    flat = {"piece": {"title": "Piece", "worked": "flat", "steps": steps}}

    assert step_words(data(steps, pieces=flat), 1) == (
        "Next row (right side): K to end, join in the round."
    )
    assert step_words(data(steps, pieces=flat), 2).startswith("Next round: K2tog, k to end.")


def test_shapings_that_run_together_are_told_before_and_row_by_row() -> None:
    """The measure `few` is 8 and 16 stitches."""
    together = [
        {"title": "armhole", "at": "start", "work": ["bind off {few}", "bind off 2"], "from": 1},
        {"title": "neck", "at": "end", "work": "k2tog, k1", "from": 3, "times": 2},
    ]
    steps = [START, {"together": together, "over": 6}, END]
    flat = {"piece": {"title": "Piece", "worked": "flat", "steps": steps}}

    said = step_words(data(steps, pieces=flat), 1)

    assert said.startswith(
        "At the same time: Armhole and neck are shaped over the same rows. Read the table of your "
        "size to its end before you begin. Work 6 rows. Work the rows that the table does not "
        "name, and what lies beside the shaping, as knit on the right side and purl on the wrong "
        "side. 28 stitches."
    )


# ---------------------------------------------------------------- joins


def joined(join: dict[str, Any], **changes: Any) -> Data:
    """Two pieces, the second joined to the first."""
    front = {"title": "Front half", "steps": [START, {"leave": "live"}]}
    back = {"title": "Back half", "steps": [START, join]}
    return data([], pieces={"front": front, "back": back}, **changes)


def last_step(source: Data, piece: int) -> str:
    """What is said of the last step of a piece."""
    speaker = voice(source)
    blocks = piece_blocks(speaker, speaker.plan.pieces[piece])
    (items,) = (block for block in blocks if isinstance(block, ItemList))
    return " ".join(printed(words) for words in inlines_of(items.items[-1].blocks))


def test_stitches_are_left_live_and_joined_to_one_to_one() -> None:
    source = joined({"join": "front"})

    assert last_step(source, 0) == (
        "Leave all stitches live on a spare needle or on waste yarn: 40 (48) stitches."
    )
    assert last_step(source, 1) == (
        "Cut the yarn, leaving a tail of about four times the width of the edge and 15 cm / 6 in "
        "more. Graft all stitches, one to one, to the live stitches of the piece Front half. "
        "Each edge has 40 (48) stitches."
    )


def test_a_toe_is_told_half_by_half() -> None:
    assert step_words(data([START, {"join": "itself"}]), 1) == (
        "Put the first half of the stitches on one needle and the second half on another. Cut the "
        "yarn, leaving a tail of about four times the width of the edge and 15 cm / 6 in more. "
        "Graft the two together, one to one. Each needle has 20 (24) stitches."
    )


def test_a_join_in_another_yarn_names_it_and_leaves_no_tail() -> None:
    told = step_words(data([START, {"join": "itself", "yarn": "foam"}], **TWO_YARNS), 1)

    assert "With Foam, graft the two together, one to one." in told
    assert "tail" not in told


def test_how_to_bind_off_may_name_a_figure() -> None:
    """The measure `few` is 8 and 16 stitches."""
    end = {"bind off": "all", "how": "in groups of {{ few }}, loosely."}
    assert step_words(data([START, end]), 1) == (
        "Bind off all 40 (48) stitches in groups of 8 (16), loosely."
    )
    part = {"bind off": 6, "how": "in *rib*"}
    assert step_words(data([START, part, {"gather": "all"}]), 1).startswith(
        "Bind off in rib 6 stitches."
    )


@pytest.mark.parametrize(
    ("how", "id"), [("every {few}", "prose.braces"), ("every {{ fwe }}", "prose.name")]
)
def test_braces_are_never_printed_as_they_stand(how: str, id: str) -> None:
    with pytest.raises(PatternError) as error:
        step_words(data([START, {"bind off": "all", "how": how}]), 1)

    (fault,) = error.value.findings
    assert fault.id == id
    assert "{{ few }}" in fault.help or "`few`" in fault.help
    assert fault.span is not None


@pytest.mark.parametrize(("terms", "bind_off"), [("US", "bind-off"), ("UK", "cast-off")])
def test_a_join_with_three_needles_speaks_the_patterns_terms(terms: str, bind_off: str) -> None:
    """US bind off, UK cast off: the Craft Yarn Council's list of terms, from memory."""
    join = {"join": "front", "by": "three-needle bind-off"}

    told = last_step(joined(join, terms=terms), 1)

    assert told.startswith(f"With a three-needle {bind_off}, join all stitches, one to one, to the")


# ---------------------------------------------------------------- rows


def test_a_heel_is_worked_in_rows_between_rounds() -> None:
    """Right side, wrong side, in turn; the first follows a round, whose right side is out. The
    rounds over all stitches are those of leg and foot: 10 and 10 more."""
    flap = {"work": ["k20, turn", "p20, turn"], "times": 8}
    turn_ = {"work": ["k12, turn", "p4, turn", "k to end"]}
    source = data(
        [START, {"work": "k all", "rounds": 10}, flap, turn_, {"work": "k all", "rounds": 10}, END],
        1,
    )

    assert step_words(source, 2) == (
        "Work these 2 rows 8 times. That makes 16 rows. "
        "Row 1 (right side): K20, turn. Row 2 (wrong side): P20, turn."
    )
    assert step_words(source, 3) == (
        "Work these 3 rows. Row 1 (right side): K12, turn. Row 2 (wrong side): P4, turn. "
        "Row 3 (right side): Knit."
    )
    assert step_words(source, 4) == "Knit 10 rounds."
    speaker = voice(source)
    (table,) = tables(piece_blocks(speaker, speaker.plan.pieces[0]), "counts to check")
    assert printed(table.caption).endswith(
        "after each step; only rounds over all stitches are counted"
    )
    assert [row[1] for row in cells(table)] == ["10", "10", "11", "21"]


def test_a_row_turned_once_has_the_side_it_is_worked_on() -> None:
    source = data([START, {"work": "k20, turn"}, {"work": "p10, turn"}, {"work": "k all"}, END], 1)

    assert [step_words(source, number) for number in (1, 2, 3)] == [
        "Next row (right side): K20, turn.",
        "Next row (wrong side): P10, turn.",
        "Knit 1 round.",
    ]


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({"work": "k all", "rounds": [3, 4]}, "Knit 3 (4) rounds."),
        ({"work": "p all", "rounds": 1}, "Purl 1 round."),
        ({"work": "k all", "rounds": [1, 4]}, "Knit this many rounds: 1 (4)."),
        ({"work": "k all", "rounds": [0, 4]}, "Knit – (4) rounds."),
        ({"work": "k all", "rounds": 0}, "There are no rounds to work here."),
        ({"work": RIB, "rounds": 9}, "Every round: *K2, p2; repeat from * to end. Work 9 rounds."),
        ({"work": RIB, "rounds": 1}, "Next round: *K2, p2; repeat from * to end."),
        (
            {"work": RIB, "rounds": [1, 2]},
            "Every round: *K2, p2; repeat from * to end. Work this many rounds: 1 (2).",
        ),
        (
            {"work": "*k2tog; repeat from * to end", "rounds": 1},
            "Next round: *K2tog; repeat from * to end. 20 (24) stitches.",
        ),
        (
            {"work": RIB, "rounds": 2, "note": "Take care."},
            "Every round: *K2, p2; repeat from * to end. Work 2 rounds. Take care.",
        ),
        (
            {"work": ["k all", RIB], "rounds": 2},
            "Work these 2 rounds. Round 1: Knit. Round 2: *K2, p2; repeat from * to end.",
        ),
        (
            {"work": ["k all", "p all"], "times": [3, 4]},
            "Work these 2 rounds 3 (4) times. That makes 6 (8) rounds. "
            "Round 1: Knit. Round 2: Purl.",
        ),
        (
            {"work": ["k all", "p all"], "times": [1, 4]},
            "Work these 2 rounds this many times: 1 (4). That makes 2 (8) rounds. "
            "Round 1: Knit. Round 2: Purl.",
        ),
        (
            {"work": ["k all", "p all"], "rounds": [5, 0]},
            "Work these 2 rounds in turn for 5 (–) rounds. Round 1: Knit. Round 2: Purl.",
        ),
    ],
)
def test_rows(step: dict[str, Any], said: str) -> None:
    assert words(step) == said


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({"work": "k all", "rounds": 4}, "Knit 4 rows."),
        ({"work": RIB, "rounds": 1}, "Next row (right side): *K2, p2; repeat from * to end."),
        (
            {"work": [RIB, "p all"], "times": 2},
            "Work these 2 rows twice. That makes 4 rows. "
            "Row 1 (right side): *K2, p2; repeat from * to end. Row 2 (wrong side): Purl.",
        ),
        (
            {"work": ["k all", "p all", RIB], "times": 2},
            "Work these 3 rows twice. That makes 6 rows. "
            "Row 1: Knit. Row 2: Purl. Row 3: *K2, p2; repeat from * to end.",
        ),
    ],
)
def test_flat_rows_name_their_side_where_it_is_always_the_same(
    step: dict[str, Any], said: str
) -> None:
    assert flat_words(step) == said


def test_a_row_after_an_odd_number_of_rows_is_on_the_wrong_side() -> None:
    steps: Steps = [START, {"work": "k all", "rounds": 3}, {"work": RIB, "rounds": 1}, END]

    assert step_words(flat(data(steps)), 2).startswith("Next row (wrong side): ")


def test_a_row_that_falls_on_different_sides_in_different_sizes_names_none() -> None:
    steps: Steps = [START, {"work": "k all", "rounds": [2, 3]}, {"work": RIB, "rounds": 1}, END]

    assert step_words(flat(data(steps)), 2).startswith("Next row: ")


# ---------------------------------------------------------------- yarns


def test_a_step_names_its_yarn_only_where_the_yarn_changes() -> None:
    steps: Steps = [
        START,
        {"work": "k all", "rounds": 2},
        {"work": "k all", "rounds": 3, "yarn": "foam"},
        {"work": RIB, "rounds": 4, "yarn": "foam"},
        {"work": RIB, "rounds": 5},
        END,
    ]
    source = data(steps, **TWO_YARNS)

    assert step_words(source, 1) == "Knit 2 rounds."
    assert step_words(source, 2) == "Cut Slate. With Foam, knit 3 rounds."
    assert step_words(source, 3).startswith("Every round: ")
    assert step_words(source, 4).startswith("Cut Foam. Work with Slate. Every round: ")
    assert step_words(source, 5).startswith("Bind off all ")


def test_after_a_chart_of_several_yarns_the_next_step_names_its_own() -> None:
    source = data([START, {"chart": "waves"}, {"work": "k all", "rounds": 3}, END], **CHARTED)

    assert step_words(source, 1).startswith("Work rounds 1 to 4 of the Waves chart.")
    assert step_words(source, 2) == "Cut Foam. With Slate, knit 3 rounds."


def test_many_yarns_are_cut_in_the_order_in_which_they_were_worked() -> None:
    """Not in that of a set, which is another in each run."""
    names = list("gcfabed")
    yarns = TWO_YARNS["yarns"]
    more = {name: yarns["foam"] | {"name": f"Yarn {name}"} for name in names}
    row = "".join(f"k1 with {name}, " for name in names)
    steps: Steps = [
        START,
        {"work": f"*{row}k1 with slate; repeat from * to end"},
        {"work": "k all", "rounds": 9},
        END,
    ]

    told = step_words(data(steps, yarns={"slate": yarns["slate"]} | more), 2)

    assert told.startswith("Cut Yarn g, Yarn c, Yarn f, Yarn a, Yarn b, Yarn e and Yarn d. ")


def test_a_yarn_that_rests_for_few_rounds_is_not_cut() -> None:
    """Up to four rounds a yarn is carried up (common practice, no source)."""

    def told(rest: int, **more: str) -> str:
        steps: Steps = [
            START,
            {"work": "k all", "rounds": 2},
            {"work": "k all", "rounds": rest, "yarn": "foam"} | more,
            {"work": "k all", "rounds": 2},
            END,
        ]
        return step_words(data(steps, **TWO_YARNS), 2)

    assert told(4) == "With Foam, knit 4 rounds."
    assert told(5) == "Cut Slate. With Foam, knit 5 rounds."
    assert told(5, note="Cut slate now.").startswith("With Foam, knit 5 rounds.")


def test_what_is_to_be_known_first_stands_before_the_step_and_a_note_after_it() -> None:
    step = {"work": "k all", "rounds": 2, "first": "Begin at the left.", "note": "It curls."}

    assert step_words(data([START, step, END]), 1) == (
        "Begin at the left. Knit 2 rounds. It curls."
    )


def test_markers_that_rows_have_placed_come_off_where_all_is_closed() -> None:
    placed: Steps = [START, {"work": "k10, pm, k to end"}]
    taken: Steps = [*placed, {"work": "k to marker, remove marker, k to end"}]
    off = "Take the markers off as you come to them. "

    assert step_words(data([*placed, END]), 2).startswith(f"{off}Bind off all ")
    assert step_words(data([*taken, END]), 3).startswith("Bind off all ")
    said = END | {"note": "Remove the marker."}
    assert step_words(data([*placed, said]), 2).startswith("Bind off all ")


def test_a_yarn_that_one_size_never_took_up_is_named_again() -> None:
    steps: Steps = [
        START,
        {"work": "k all", "rounds": [0, 2], "yarn": "foam"},
        {"work": "k all", "rounds": 3, "yarn": "foam"},
        END,
    ]

    assert step_words(data(steps, **TWO_YARNS), 2) == "With Foam, knit 3 rounds."


# ---------------------------------------------------------------- charts


@pytest.mark.parametrize(
    ("rounds", "said"),
    [
        (None, "Work rounds 1 to 4 of the Waves chart."),
        (12, "Work the Waves chart 3 times. That makes 12 rounds."),
        ([4, 8], "Work the Waves chart this many times: 1 (2). That makes 4 (8) rounds."),
        ([6, 3], "Work the Waves chart from its round 1 for 6 (3) rounds."),
    ],
)
def test_charts(rounds: Any, said: str) -> None:
    step = {"chart": "waves"} | ({"rounds": rounds} if rounds else {})

    assert words(step, **CHARTED) == f"{said} In every round, work its stitches 5 (6) times."


def test_a_chart_that_a_size_skips() -> None:
    assert words({"chart": "waves", "rounds": [0, 8]}, **CHARTED) == (
        "Size A skips this step. Work the Waves chart twice. That makes 8 rounds. In every round, "
        "work its stitches 6 times."
    )


def test_a_chart_as_wide_as_the_piece_is_not_said_to_repeat() -> None:
    steps: Steps = [{"cast on": 8}, {"chart": "waves"}, END]

    assert step_words(data(steps, **CHARTED), 1) == "Work rounds 1 to 4 of the Waves chart."


def test_a_chart_of_one_round_is_not_rounds_1_to_1() -> None:
    source = data([START, {"chart": "waves"}, END], **CHARTED)

    assert step_words(source, 1, {"waves.grid": ".#\n"}).startswith("Work the Waves chart once. In")


def test_a_flat_chart_speaks_of_rows() -> None:
    assert flat_words({"chart": "waves", "rounds": 6}, **CHARTED) == (
        "Work the Waves chart from its row 1 for 6 rows. "
        "In every row, work its stitches 5 (6) times."
    )


def test_a_chart_links_to_its_page() -> None:
    speaker = voice(data([START, {"chart": "waves"}, END], **CHARTED))
    (items,) = (b for b in piece_blocks(speaker, speaker.plan.pieces[0]) if isinstance(b, ItemList))
    (paragraph,) = items.items[1].blocks

    links = [n for n in paragraph.children if isinstance(n, Link)]  # type: ignore[union-attr]
    assert [link.target for link in links] == ["#chart-waves"]


# ---------------------------------------------------------------- even shaping


@pytest.mark.parametrize(
    ("step", "said"),
    [
        (
            {"even": "increase", "to": "n * 1.5"},
            "Next round: *K2, M1; repeat from * to end. 60 (72) stitches.",
        ),
        (
            {"even": "decrease", "to": "n - 8"},
            "Next round: *K3 (4), k2tog; repeat from * to end. 32 (40) stitches.",
        ),
        (
            {"even": "increase", "to": "n"},
            "No shaping is needed here: there are 40 (48) stitches already.",
        ),
    ],
)
def test_even_shaping(step: dict[str, Any], said: str) -> None:
    assert words(step) == said


def test_even_shaping_that_differs_in_words_is_a_table_with_a_dash_for_a_size_without() -> None:
    source = data([START, {"even": "increase", "to": [40, 49]}, END])
    speaker = voice(source)
    (table,) = tables(piece_blocks(speaker, speaker.plan.pieces[0]), "Even increases")

    assert step_words(source, 1).startswith(
        "Next round: Increase evenly to 40 (49) stitches, as the table says."
    )
    assert cells(table)[0] == ["A", "–", "40"]
    assert cells(table)[1][2] == "49"
    assert "M1" in cells(table)[1][1]


# ---------------------------------------------------------------- tapers

NARROW = "k1, k2tog, k to last 3, ssk, k1"
# What stands below the boxes of a short pace; a space for the boxes themselves.
TICKED = "  Tick each {unit}: shaping {unit}s are bold, with the stitches after each below."


def test_a_taper_of_one_pace_is_a_sentence() -> None:
    assert words({"taper": NARROW, "to": "n - 8", "over": 12}) == (
        "Shaping round: K1, k2tog, k to last 3 stitches, ssk, k1. It takes away 2 stitches. "
        "Work it on every 3rd round 4 times. Knit the plain rounds. "
        "The plain rounds come first each time. 32 (40) stitches." + TICKED.format(unit="round")
    )


def test_a_taper_on_every_round_speaks_of_no_plain_rounds() -> None:
    said = words({"taper": "k2tog, k to end", "to": "n - few", "over": "few"})

    assert said == (
        "Shaping round: K2tog, k to end. It takes away 1 stitch. "
        "Work it on every round 8 (16) times. 32 stitches." + TICKED.format(unit="round")
    )


def test_an_increasing_taper_adds() -> None:
    said = words({"taper": "k1, m1l, k to end", "to": "n + 2", "over": 5})

    assert "It adds 1 stitch. Work it on every other round once, then every 3rd round once." in said


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({"over": 7, "every": 2}, "the first round, then every other round 3 times. Knit"),
        ({"over": 11, "every": 3}, "every other round once, then every 3rd round 3 times. Knit"),
        ({"over": 26, "every": 6}, "every 6th round 4 times, then 2 rounds plain. Knit"),
    ],
)
def test_a_taper_at_a_pace_of_its_own(step: dict[str, Any], said: str) -> None:
    assert f"Work it on {said} the plain rounds." in words({"taper": NARROW, "to": "n - 8", **step})


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({"over": 7, "every": 2}, "the first row, then every other row 3 times. In the"),
        ({"over": 24, "every": 6}, "the first row, then every 6th row 3 times, then 5 rows plain."),
        ({"over": 10, "every": 3, "plain": "k all"}, "the first row, then every 3rd row 3 times."),
    ],
)
def test_a_flat_taper_at_a_pace_of_its_own(step: dict[str, Any], said: str) -> None:
    assert f"Work it on {said}" in flat_words({"taper": NARROW, "to": "n - 8", **step})


def test_a_flat_taper_begins_with_its_shaping_row_and_says_how_to_work_both_sides() -> None:
    step = {"taper": NARROW, "to": "n - 8", "over": 16, "every": 2, "plain": ["k all", "p all"]}

    assert flat_words(step) == (
        "Shaping row (right side): K1, k2tog, k to last 3 stitches, ssk, k1. "
        "It takes away 2 stitches. "
        "Work it on the first row, then every 4th row 3 times, then 3 rows plain. "
        "In the plain rows, knit the right side and purl the wrong side. 32 (40) stitches."
        + TICKED.format(unit="row")
    )


def test_plain_rows_that_are_not_plain_are_written_out() -> None:
    step = {"taper": NARROW, "to": "n - 4", "over": 6, "plain": "*k1, p1; repeat from * to end"}

    assert "Work the plain rounds as *K1, p1; repeat from * to end. The plain" in words(step)


def test_several_plain_rounds_are_all_said() -> None:
    step = {"taper": NARROW, "to": "n - 4", "over": 6, "plain": ["k all", "p all", "k1, p to end"]}
    said = words(step)

    assert "follow a turn of 3, counted from round 1 of this step: round 1, Knit; round 2, " in said
    assert "round 3, K1, p to end. A shaping round takes the place of the one whose turn" in said


def test_tapers_of_different_pace_are_a_table() -> None:
    source = data([START, {"taper": NARROW, "to": "few", "over": [20, 36]}, END])
    speaker = voice(source)
    (table,) = tables(piece_blocks(speaker, speaker.plan.pieces[0]), "Pace of the shaping")

    assert cells(table) == [
        ["A", "every round 12 times, then every other round 4 times", "20", "8"],
        ["B", "every other round 12 times, then every 3rd round 4 times", "36", "16"],
    ]


def test_a_size_that_needs_no_shaping_works_its_rounds_plain() -> None:
    source = data([START, {"taper": NARROW, "to": [40, 40], "over": [9, 8]}, END])
    speaker = voice(source)
    (table,) = tables(piece_blocks(speaker, speaker.plan.pieces[0]), "Pace of the shaping")

    assert cells(table)[0] == ["A", "no round; 9 rounds plain", "9", "40"]


def test_a_taper_that_no_size_needs_is_plain() -> None:
    step = {"taper": NARROW, "to": "n", "over": [3, 4]}

    assert words(step) == "Work 3 (4) rounds plain. Knit the plain rounds."


@settings(max_examples=15)
@given(
    st.lists(
        st.tuples(st.integers(1, 6), st.integers(0, 30)), min_size=1, max_size=4, unique_by=str
    ),
    st.booleans(),
)
def test_the_pace_in_words_leads_to_the_shaping_rounds_of_the_plan(
    tapers: list[tuple[int, int]], rows: bool
) -> None:
    step = {
        "taper": NARROW,
        "to": [40 - 2 * changes for changes, _ in tapers],
        "over": [changes * 2 + more for changes, more in tapers],
        "every": 2 if rows else 1,
    }
    sizes = len(tapers)
    steps: Steps = [{"cast on": 40}, step, END]
    source = data(steps, sizes)
    source = flat(source) if rows else source
    detail = plan_of(source).pieces[0].steps[1].detail
    assert isinstance(detail, Tapered)

    for taper, said in zip(detail.tapers, words_of_each(source, 1), strict=True):
        table = re.search(r"as the table says", said)
        pace = _pace_of(source, taper, detail) if table else said
        assert _walked(pace, rows) == taper.shaping_rounds("first" if rows else "last")


def _pace_of(source: Data, taper: Taper, detail: Tapered) -> str:
    speaker = voice(source)
    (table,) = tables(piece_blocks(speaker, speaker.plan.pieces[0]), "Pace of the shaping")
    return cells(table)[detail.tapers.index(taper)][1]


def _walked(pace: str, rows: bool) -> tuple[int, ...]:
    """The rounds on which a knitter who follows the words works the shaping."""
    found: list[int] = []
    at = 0
    if rows:
        assert "the first row" in pace
        found, at = [1], 1
    pattern = r"every (?:(other) |(\d+)\w\w )?(?:round|row),? (?:(once)|(twice)|(\d+) times)"
    for other, ordinal, once, twice, many in re.findall(pattern, pace):
        every = 2 if other else int(ordinal or 1)
        for _ in range(1 if once else 2 if twice else int(many)):
            at += every
            found.append(at)
    return tuple(found)


# ---------------------------------------------------------------- crowns


def test_a_crown_is_one_table_that_smaller_sizes_join_later() -> None:
    source = data([START, {"crown": 8, "to": 8, "pace": "every other"}, {"gather": "all"}])
    speaker = voice(source)
    (table,) = tables(piece_blocks(speaker, speaker.plan.pieces[0]), "Stitches")

    assert step_words(source, 1).startswith(
        "Decrease by the table, from its top row down. In a decrease round, repeat the words of "
        "the row all around; then knit the plain rounds it gives. Start at the row that names "
        "your size: the rows before it are not yours."
    )
    assert cells(table) == [
        ["K4, k2tog", "B", "40", "1"],
        ["K3, k2tog", "A", "32", "1"],
        ["K2, k2tog", "", "24", "1"],
        ["K1, k2tog", "", "16", "1"],
        ["K2tog", "", "8", "0"],
    ]


def test_a_crown_without_plain_rounds_does_not_speak_of_them() -> None:
    steps: Steps = [{"cast on": 40}, {"crown": 8, "to": 8, "pace": "every"}, {"gather": "all"}]
    said = step_words(data(steps), 1)

    assert "In a decrease round, repeat the words of the row all around. Stitches" in said
    assert "dash" not in said


def test_a_crown_with_nothing_to_decrease_has_no_table() -> None:
    steps: Steps = [{"cast on": 8}, {"crown": 8, "to": 8}, {"gather": "all"}]

    assert step_words(data(steps), 1) == (
        "No shaping is needed here: there are 8 stitches already."
    )


# ---------------------------------------------------------------- edges


@pytest.mark.parametrize(("terms", "stitch"), [("US", "Sc"), ("UK", "Dc")])
def test_an_edging_has_its_length_and_is_fastened_off_once(terms: str, stitch: str) -> None:
    """US single crochet is UK double crochet (Craft Yarn Council's chart, from memory)."""
    edging = {"edging": "sc in each stitch", "along": "width(n)"}

    assert step_words(data([START, END, edging], terms=terms)) == (
        "With the crochet hook, join Slate to the edge, right side facing you. "
        "The edge is 20 (24) cm / 7¾ (9½) in long. "
        f"Edging: {stitch} in each stitch. Fasten off."
    )


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("stitch", ["dc", "tr"])
def test_crochet_prints_as_it_was_written_in_the_patterns_own_terms(
    terms: str, stitch: str
) -> None:
    edging = {"edging": f"{stitch} in each stitch", "along": "width(n)"}

    said = step_words(data([START, END, edging], terms=terms))

    assert f"Edging: {stitch.title()} in each stitch." in said


def test_an_edging_with_counted_sides_says_what_each_takes_and_what_each_row_has() -> None:
    edging: Data = {"edging": "sc in each stitch to corner, 3 sc in corner, sc in each stitch"}
    edging |= {"along": "40 cm", "sides": [10, "n"]}
    said = step_words(data([START, END, edging], units="metric"))

    assert "The edge is 40 cm long. Stitches of its sides, corner to corner: 10 + 40 (48). " in said
    assert re.search(r"Edging: Sc in each .* \d+ \(\d+\) stitches\. Fasten off\.$", said)


def test_an_edging_of_several_rows_is_a_list() -> None:
    rows = ["sc in each stitch", "sl st in each stitch, fasten off"]
    said = step_words(data([START, END, {"edging": rows, "along": "20 cm"}]))

    assert "Work these 2 rows in turn. Sc in each stitch. Sl st in each stitch, fasten off." in said
    assert said.count("asten off") == 1


# ---------------------------------------------------------------- abbreviations


@pytest.mark.parametrize(
    ("step", "rows"),
    [
        ({"work": "k all", "rounds": 3}, 0),
        ({"work": "*p1; repeat from * to end", "rounds": 3}, 0),
        ({"work": ["k all", "p all"]}, 0),
        ({"work": RIB}, 1),
        ({"taper": NARROW, "to": "n - 8", "over": 12}, 1),
        ({"taper": NARROW, "to": "n - 8", "over": 12, "plain": "k1, p to end"}, 2),
        ({"taper": "k2tog, k to end", "to": "n - 8", "over": 8, "plain": RIB}, 1),
        ({"even": "increase", "to": "n"}, 0),
    ],
)
def test_only_rows_printed_in_abbreviations_count_for_their_list(
    step: dict[str, Any], rows: int
) -> None:
    plan = plan_of(data([START, step, END]))

    assert len(abbreviated_rows(plan.pieces[0].steps[1])) == rows
