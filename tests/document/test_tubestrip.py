"""The strip beside the counter table: to scale, each stop where the counter has it, none hidden."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.drawing import Drawing, Label, Rect
from bindoff.document.drawn import Drawn
from bindoff.document.piecepages import piece_blocks
from bindoff.document.spread import spread
from bindoff.document.tree import Beside, Blocks, Figure, ItemList, Paragraph, Table, plain
from bindoff.document.voice import voice_of
from bindoff.pipeline import drawn_for
from tests.small_machine import COWL
from tests.small_patterns import TUBE, changed, plan_of

USUALLY, UNFILLED = drawn_for("calm"), drawn_for("print-saver")


def blocks(text: str, drawn: Drawn = USUALLY) -> Blocks:
    plan = plan_of(text)
    return piece_blocks(voice_of(plan), plan.pieces[0], drawn)


def counter(text: str, drawn: Drawn = USUALLY) -> tuple[Table, Beside, Drawing]:
    """The counter table of the first step, what stands beside it, and its drawing."""
    steps = next(block for block in blocks(text, drawn) if isinstance(block, ItemList))
    table = next(each for each in steps.items[0].blocks if isinstance(each, Table) and each.tick)
    assert table.beside is not None
    picture = table.beside.figure.picture
    assert isinstance(picture, Drawing)
    return table, table.beside, picture


def numbers(made: Drawing) -> list[str]:
    return [each.text for each in made.shapes if isinstance(each, Label) and each.text.isdigit()]


@pytest.mark.parametrize("text", [TUBE, COWL])
def test_a_line_leads_to_every_row_from_its_round(text: str) -> None:
    table, beside, made = counter(text)
    counts = [int(plain(row.cells[1])) for row in table.rows]
    frame = next(each for each in made.shapes if isinstance(each, Rect) and each.stroke)

    assert len(beside.leads) == len(table.rows)
    for count, lead in zip(counts, beside.leads, strict=True):
        assert lead == pytest.approx(frame.y + frame.h * count / counts[-1])


@pytest.mark.parametrize("text", [TUBE, COWL])
def test_every_stop_is_numbered_and_no_number_lies_on_another(text: str) -> None:
    table, _, made = counter(text)
    counts = {int(plain(row.cells[1])) for row in table.rows}

    assert numbers(made) == [str(each) for each in sorted({0, *counts})]
    shown = [each for each in made.shapes if isinstance(each, Label) and each.text.isdigit()]
    assert all(b.y - a.y >= a.size * 0.99 for a, b in pairwise(shown))
    assert all(each.y - each.size / 2 >= 0 and each.y <= made.height for each in shown)


def test_the_strip_has_the_letters_of_the_map_and_its_stripes_to_scale() -> None:
    _, beside, made = counter(TUBE)
    letters = [each.text for each in made.shapes if isinstance(each, Label) and each.text.isalpha()]
    frame = next(each for each in made.shapes if isinstance(each, Rect) and each.stroke)
    stripes = [
        each for each in made.shapes if isinstance(each, Rect) and each.fill and each.w == 13
    ]
    plan = next(step.tubes[0] for step in plan_of(TUBE).pieces[0].steps if step.tubes)

    assert letters == list("ABCDEF")
    assert [round(each.h / frame.h * 38, 6) for each in stripes] == [
        each.rounds for each in plan.stripes.stripes
    ]
    assert "A gathered end of the lining, round 1; B lining, rounds 2 to 15" in beside.figure.alt


def test_a_tube_of_one_zone_has_no_letters() -> None:
    _, beside, made = counter(COWL)

    assert [e.text for e in made.shapes if isinstance(e, Label) and e.text.isalpha()] == []
    assert "Zones" not in beside.figure.alt
    assert plain(beside.figure.caption).startswith("The tube in size S,")


def test_without_colour_only_black_and_white_are_filled() -> None:
    _, _, made = counter(TUBE, UNFILLED)

    fills = {each.fill for each in made.shapes if isinstance(each, Rect)}
    assert fills <= {None, "#ffffff", "#000000"}


def test_a_table_that_a_page_would_cut_has_no_strip() -> None:
    lines = "\n".join(
        f"        - {{from: {4 * n} rounds above rim, rounds: 2, yarn: foam}}" for n in range(1, 12)
    )
    start = COWL.index("        - {from: 3 cm")
    text = COWL[:start] + lines + COWL[COWL.index("\n    steps:") :]
    steps = next(block for block in blocks(text) if isinstance(block, ItemList))
    table = next(each for each in steps.items[0].blocks if isinstance(each, Table) and each.tick)

    assert len(table.rows) > 20
    assert table.beside is None


def test_the_map_stays_where_the_strip_is() -> None:
    assert isinstance(blocks(TUBE)[1], Figure)


@given(st.lists(st.floats(0, 100), min_size=1, max_size=20).map(sorted), st.floats(0.5, 5))
def test_places_are_apart_in_order_and_on_the_strip(wanted: list[float], gap: float) -> None:
    places = spread(wanted, gap, 100.0)

    assert all(b - a >= gap - 1e-6 for a, b in pairwise(places))
    assert places[0] >= 0
    assert places[-1] <= 100 + 1e-6
    if all(b - a >= gap for a, b in pairwise(wanted)):
        assert places == pytest.approx(wanted)


def ways(plan_text: str) -> list[str]:
    """What the steps of the first piece say, paragraph by paragraph."""
    steps = [block for block in blocks(plan_text) if isinstance(block, ItemList)]
    return [
        plain(each.children)
        for block in steps
        for item in block.items
        for each in item.blocks
        if isinstance(each, Paragraph)
    ]


def counter_table(plan_text: str) -> list[str]:
    """What the counter table of the first piece says to do, row by row."""
    table, _, _ = counter(plan_text)
    return [plain(row.cells[0]) for row in table.rows]


def test_markers_hang_in_the_fabric_where_layers_are_lined_up() -> None:
    """Needles stay behind in the machine; a folded tube has marked rounds between its ends."""
    for text, between in ((TUBE, ["Lining ends", "Fold line", "Brim ends"]), (COWL, [])):
        (said,) = [each for each in ways(text) if "hang a loop of waste yarn" in each]
        marked = [row for row in counter_table(text) if "mark" in row.lower()]
        assert "After each round that the table says to mark" in said
        assert [row.split(",")[0].split(";")[0] for row in marked] == [
            *("Mark this round", *between, "Mark this round"),
        ]


def test_ends_are_those_of_stripes_and_of_the_yarn_that_joins() -> None:
    """Three stripes in the ground make seven lengths of yarn, 14 ends; the joining yarn has two."""
    (told,) = [each for each in ways(COWL) if each.startswith("Ends to weave in")]

    assert told == "Ends to weave in: 16. Of these the stripes have 14 and joining and closing 2."


def test_the_ends_of_a_tied_tube_are_a_tuft() -> None:
    text = changed(
        TUBE,
        (
            "      - gather: all",
            "      - {join: start, by: slip stitch}\n      - {close: top, by: tie}",
        ),
    )
    _, beside, _ = counter(text)

    assert "F tuft above the tie, round 38" in beside.figure.alt
    assert "gathered end" not in beside.figure.alt


def test_a_yarn_that_rests_is_said_to_spare_its_ends_and_for_how_long() -> None:
    """Wanted lines of one and three rounds: slate rests for so long, and foam for five."""
    text = changed(
        COWL,
        ("{from: 3 cm above rim, rounds: 2", "{from: 8 rounds above rim, rounds: 3"),
        ("{from: 7 rounds above rim", "{from: 16 rounds above rim"),
        ("    steps:", "    colour plan: {carry: 5}\n    steps:"),
    )
    (said,) = [each for each in ways(text) if "resting" in each]

    assert "is not cut, which spares two ends" in said
    assert "let it hang inside the tube, here for 1 to 5 rounds." in said
