"""The pages of a piece: headings, numbered steps, remarks, and the counts to check."""

import re

import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.piecepages import piece_blocks
from bindoff.document.tree import Blocks, Heading, ItemList
from tests.document.patterns import (
    TWO_YARNS,
    Data,
    Steps,
    cells,
    data,
    example,
    flat,
    printed,
    said,
    tables,
    voice,
)

HALVE: Data = {"work": "*k2tog; repeat from * to end"}
RIB = {"work": "*k2, p2; repeat from * to end", "rounds": [2, 3]}
STEPS: Steps = [
    {"section": "Brim"},
    {"cast on": "n"},
    RIB,
    {"section": "Body of the cap"},
    {"work": "k all", "rounds": 4},
    {"even": "decrease", "to": "n - 8"},
    {"section": "XL top"},
    {"work": "k all", "rounds": 0},
    {"say": "Take a rest."},
    {"gather": "all"},
]


def blocks_of(source: Data) -> Blocks:
    speaker = voice(source)
    return piece_blocks(speaker, speaker.plan.pieces[0])


def lists(blocks: Blocks) -> list[ItemList]:
    return [block for block in blocks if isinstance(block, ItemList)]


def test_steps_are_numbered_through_all_sections() -> None:
    found = [(each.start, len(each.items)) for each in lists(blocks_of(data(STEPS)))]

    assert found == [(1, 2), (3, 2), (5, 3)]


def test_sections_are_headings_below_the_piece() -> None:
    headings = [b for b in blocks_of(data(STEPS)) if isinstance(b, Heading)]

    assert [(h.level, printed(h.children)) for h in headings] == [
        (2, "Cap"),
        (3, "Brim"),
        (3, "Body of the cap"),
        (3, "XL top"),
    ]


def test_a_section_without_steps_makes_no_empty_list() -> None:
    steps: Steps = [{"section": "Brim"}, {"section": "Body"}, *STEPS[1:3], {"gather": "all"}]
    blocks = blocks_of(data([*steps, {"section": "After"}]))

    assert all(each.items for each in lists(blocks))


@pytest.mark.parametrize(("make", "title"), [(1, "Cap"), (2, "Cap (make 2)")])
def test_a_piece_made_more_than_once_says_so(make: int, title: str) -> None:
    source = data(STEPS)
    source["pieces"]["cap"]["make"] = make
    first = blocks_of(source)[0]

    assert isinstance(first, Heading)
    assert printed(first.children) == title


def test_a_remark_stands_in_its_step_with_its_figures() -> None:
    step = {"work": "k all", "rounds": 2, "note": "There are *still* {{ n }} stitches."}
    blocks = blocks_of(data([STEPS[1], step, {"gather": "all"}]))
    (items,) = lists(blocks)

    assert len(items.items[1].blocks) == 2
    assert said(items.items[1].blocks) == "Knit 2 rounds.\nThere are still 40 (48) stitches."


def test_prose_that_names_what_is_not_there_fails_at_its_line() -> None:
    source = data([STEPS[1], {"say": "There are {{ stitches }}."}, {"gather": "all"}])

    with pytest.raises(PatternError) as caught:
        blocks_of(source)
    assert caught.value.findings[0].id == "prose.name"
    assert caught.value.findings[0].span is not None


# ---------------------------------------------------------------- counts to check


def test_the_counts_are_those_of_a_hand_count_after_every_worked_step() -> None:
    (table,) = tables(blocks_of(data(STEPS)), "counts to check")

    assert cells(table) == [
        ["Step 2, brim", "2", "3", "40", "48"],
        ["Step 3, body of the cap", "6", "7", "40", "48"],
        ["Step 4", "7", "8", "32", "40"],
    ]
    assert [printed(words) for words, _ in table.groups] == ["", "Rounds worked so far", "Stitches"]
    assert [column.size for column in table.columns] == [None, 0, 1, 0, 1]


def test_many_sizes_have_a_table_for_rounds_and_one_for_stitches() -> None:
    steps = [STEPS[1], {"work": "k all", "rounds": 2}, *STEPS[4:6], HALVE, {"gather": "all"}]
    rounds, stitches = tables(blocks_of(data(steps, 6)), "after each step")

    assert "rounds worked so far" in printed(rounds.caption)
    assert cells(rounds)[0] == ["Step 2", *["2"] * 6]
    assert cells(stitches) == [
        ["Step 4", "32", "40", "48", "56", "64", "72"],
        ["Step 5", "16", "20", "24", "28", "32", "36"],
    ]


def test_stitches_that_change_once_need_no_table() -> None:
    steps = [STEPS[1], {"work": "k all", "rounds": 2}, *STEPS[4:6], {"gather": "all"}]
    (table,) = tables(blocks_of(data(steps, 6)), "after each step")

    assert "rounds worked so far" in printed(table.caption)


def test_a_thumb_counts_its_rounds_anew() -> None:
    """2 rounds and one that holds the thumb; 4 more; then 5 and 1 of the thumb itself."""
    hold: Data = {"work": "hold 5 stitches, k to end"}
    work: Steps = [{"work": "k all", "rounds": count} for count in (2, 4, 5)]
    thumb = [{"held": 5, "pick up": 3}, work[2], HALVE, {"gather": "all"}]
    steps = [STEPS[1], work[0], hold, work[1], {"gather": "all"}, *thumb]
    (table,) = tables(blocks_of(data(steps, 2)), "counts to check")

    assert [row[:2] for row in cells(table)] == [
        ["Step 2", "2"],
        ["Step 3", "3"],
        ["Step 4", "7"],
        ["Step 7", "5"],
        ["Step 8", "6"],
    ]


def test_many_steps_that_add_the_same_are_one_row_of_the_counts() -> None:
    single: Steps = [{"work": "k all"}, {"work": "p all"}] * 20
    steps = [STEPS[1], {"work": "k all", "rounds": 2}, *single, HALVE, {"gather": "all"}]
    (table,) = tables(blocks_of(data(steps)), "counts to check")

    assert cells(table) == [
        ["Step 2", "2", "2", "40", "48"],
        ["Steps 3 to 42: 1 round each", "42", "42", "40", "48"],
        ["Step 43", "43", "43", "20", "24"],
    ]


def test_a_run_of_equal_steps_ends_where_a_count_starts_anew() -> None:
    hold: Data = {"work": "hold 5 stitches, k to end"}
    single: Steps = [{"work": "k all"}] * 4
    thumb = [{"held": 5, "pick up": 3}, *single, HALVE, {"gather": "all"}]
    (table,) = tables(
        blocks_of(data([STEPS[1], hold, *single, {"gather": "all"}, *thumb], 2)), "counts to check"
    )

    assert [row[:2] for row in cells(table)] == [
        ["Step 2", "1"],
        ["Steps 3 to 6: 1 round each", "5"],
        ["Steps 9 to 12: 1 round each", "4"],
        ["Step 13", "5"],
    ]


def test_one_size_reads_its_counts_in_the_steps_themselves() -> None:
    """2 rounds, 3 more, and one that halves 40 stitches."""
    work: Steps = [{"work": "k all", "rounds": count} for count in (2, 3)]
    blocks = blocks_of(data([STEPS[1], *work, HALVE, {"gather": "all"}], 1))

    assert tables(blocks, "counts") == []
    told = re.findall(r"So far: (\d+) rounds?, (\d+) stitch(?:es)?\.", said(blocks))
    assert told == [("2", "40"), ("5", "40"), ("6", "20")]


def test_steps_that_add_the_same_say_so_once_to_one_size() -> None:
    single: Steps = [{"work": "k all"}, {"work": "p all"}] * 20
    steps = [STEPS[1], {"work": "k all", "rounds": 2}, *single, HALVE, {"gather": "all"}]
    words = said(blocks_of(data(steps, 1)))

    assert re.findall(r"So far: (\d+) rounds", words) == ["2", "42", "43"]


def test_a_flat_piece_counts_rows() -> None:
    source = flat(data(STEPS))

    assert "Rows worked so far" in said(tables(blocks_of(source), "counts to check"))


def test_a_short_piece_needs_no_table() -> None:
    assert tables(blocks_of(data([*STEPS[1:3], {"gather": "all"}])), "counts") == []


def test_the_counts_of_an_example_are_those_of_its_plan() -> None:
    plan, document, _ = example("cap")
    (table,) = tables(document.blocks, "counts to check")
    printed_steps = [
        step for step in plan.pieces[0].steps if "section" not in type(step.step).model_fields
    ]

    for row in cells(table):
        number = int(row[0].removeprefix("Step ").split(",")[0])
        step = printed_steps[number - 1]
        assert [int(cell) for cell in row[1:]] == [
            *(progress.rounds for progress in step.after),
            *(progress.stitches for progress in step.after),
        ]


def test_two_yarns_are_not_named_where_the_pattern_has_one() -> None:
    one = said(blocks_of(data(STEPS)))
    steps = [{**step, "yarn": "foam"} if "work" in step else step for step in STEPS]
    two = said(blocks_of(data(steps, **TWO_YARNS)))

    assert "Work with" not in one
    assert "Work with Foam." in two
