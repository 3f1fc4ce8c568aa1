"""What a designer reads when a row does not fit its stitches, and where it points."""

import pytest

from bindoff.diagnostics import Span
from bindoff.plan.mismatch import mismatch, not_whole
from bindoff.plan.rowcount import RowMismatch, count_row
from bindoff.source.formula import Kind, Quantity
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import standard_book

BOOK = standard_book()
STEP = Span("pattern.yaml", 40, 1, 40, 20)


def caught(text: str, live: int, markers: tuple[int, ...] = (), **numbers: int) -> RowMismatch:
    row = parse_row(text, Span("pattern.yaml", 7, 1, 7, len(text) + 1), BOOK, ())
    with pytest.raises(RowMismatch) as raised:
        count_row(row, live, numbers, markers, BOOK)
    return raised.value


@pytest.mark.parametrize(
    ("text", "live", "markers", "id", "message", "help"),
    [
        (
            "*k3, k2tog; repeat from * to end",
            17,
            (),
            "row.left-over",
            "in round 12 the row works 15 of 17 live stitches, and 2 are left over, which do not "
            "fill a repeat of 5",
            "It fits 15 or 20 stitches: change the count before it, or the row",
        ),
        (
            "*k3, k2tog; repeat from * to end",
            16,
            (),
            "row.left-over",
            "in round 12 the row works 15 of 16 live stitches, and 1 is left over, which does not "
            "fill a repeat of 5",
            "It fits 15 or 20 stitches: change the count before it, or the row",
        ),
        (
            "k1, *k2; repeat from * to end",
            1,
            (),
            "row.no-room",
            "in round 12 none of 1 live stitch is left for the repeat",
            "It fits 3 stitches: change the count before it, or the row",
        ),
        (
            "k12",
            10,
            (),
            "row.too-many",
            "in round 12 the row needs 12 stitches, and there are 10 live stitches",
            "It fits 12 stitches: change the count before it, or the row",
        ),
        (
            "k to last 2, k3",
            10,
            (),
            "row.too-many",
            "in round 12 the row needs 11 stitches, and there are 10 live stitches",
            "Check the counts of this row against the rows before it",
        ),
        (
            "k8",
            10,
            (),
            "row.too-few",
            "in round 12 the row works 8 of 10 live stitches and leaves 2 unworked",
            "It fits 8 stitches: change the count before it, or the row",
        ),
        (
            "k3, sm, k to end",
            10,
            (),
            "row.no-marker",
            "in round 12 a marker is named, but there is none at or ahead of this place",
            "Place the marker with `pm` in an earlier row, or take it out of this one",
        ),
        (
            "k3, k to 2 stitches before marker, k to end",
            10,
            (4,),
            "row.past-marker",
            "in round 12 the marker is nearer than the row supposes",
            "Check how far the row goes before the marker, and the row that places it",
        ),
        (
            "k3, k2tog, k to end",
            10,
            (4,),
            "row.across-marker",
            "in round 12 a stitch would be worked over both sides of a marker",
            "Remove the marker in an earlier row, write `remove markers: true` on this step, "
            "or end the stitch before it",
        ),
        (
            "*yo; repeat from * to end",
            10,
            (),
            "row.endless",
            "what is repeated uses no stitches, so it would never end",
            "Put a stitch that is worked into the repeat",
        ),
        (
            "k{edge}, k to end",
            10,
            (),
            "row.unknown-number",
            "there is no measure called `edge`",
            "Add `edge:` under `measures:`, a count and not a length",
        ),
    ],
)
def test_a_misfit_is_told_with_its_figures(
    text: str, live: int, markers: tuple[int, ...], id: str, message: str, help: str
) -> None:
    found = mismatch(caught(text, live, markers).figures, "round 12", STEP)

    assert (found.id, found.message, found.help) == (id, message, help)


def test_a_number_below_nought_is_named() -> None:
    found = mismatch(caught("k{edge}, k to end", 10, edge=-1).figures, "row 3", STEP)

    assert (found.id, found.message) == ("row.negative-number", "`edge` is below 0")
    assert found.help == "Check the measure this number comes from"
    assert found.span == Span("pattern.yaml", 7, 1, 7, 8)


def test_it_points_at_the_part_or_at_the_step_where_no_part_is_at_fault() -> None:
    of_part = mismatch(caught("k4, k8", 10).figures, "row 3", STEP)
    of_row = mismatch(caught("k8", 10).figures, "row 3", STEP)

    assert of_part.span == Span("pattern.yaml", 7, 5, 7, 7)
    assert of_row.span == STEP


@pytest.mark.parametrize(
    ("found", "message", "helper"),
    [
        (Quantity(21.5), "`edge` comes to 21.5, and", "`nearest(edge)`"),
        (Quantity(215, Kind.LENGTH), "`edge` is a length, and", "`stitches(edge)`"),
    ],
)
def test_a_number_that_is_none_is_told_apart(found: Quantity, message: str, helper: str) -> None:
    finding = not_whole(caught("k1, k{edge}, k to end", 10).figures, found)

    assert finding.id == "row.not-whole"
    assert finding.message == f"{message} a row needs a whole number"
    assert finding.help == f"Make a count of it under `measures:`, as in {helper}, and name that"
    assert finding.span == Span("pattern.yaml", 7, 5, 7, 12)


def test_a_row_after_an_early_turn_is_told_what_lies_ahead_of_it() -> None:
    found = mismatch(caught("k12", 10).figures, "row 3", STEP, turned=True)

    assert found.message.endswith(
        "in row 3 the row needs 12 stitches, and there are 10 stitches ahead of the turn"
    )
