"""Chart grids."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError, Span
from bindoff.source.grid import Grid, read_grid

BOAT = """\
..x..
.xx..
#####
.###.
"""


def findings_of(text: str) -> list[tuple[str, int, int]]:
    with pytest.raises(PatternError) as caught:
        read_grid(text, "hat/boat.grid")
    return [(f.id, f.span.line, f.span.column) for f in caught.value.findings if f.span]


def message_of(text: str) -> str:
    with pytest.raises(PatternError) as caught:
        read_grid(text, "hat/boat.grid")
    return caught.value.findings[0].message


def test_the_bottom_line_is_round_1() -> None:
    grid = read_grid(BOAT, "hat/boat.grid")
    assert grid == Grid("boat", (".###.", "#####", ".xx..", "..x.."), "hat/boat.grid", 1)
    assert (grid.width, grid.height) == (5, 4)


def test_stitch_1_is_at_the_right() -> None:
    grid = read_grid("abc\ndef\n", "g")
    assert "".join(grid.at(1, stitch) for stitch in (1, 2, 3)) == "fed"
    assert grid.at(2, 3) == "a"


def test_a_stitch_knows_its_place_in_the_file() -> None:
    grid = read_grid("\n\nabc\ndef\n", "g.grid")
    assert grid.span(1, 1) == Span("g.grid", 4, 3, 4, 4)
    assert grid.span(2, 3) == Span("g.grid", 3, 1, 3, 2)


@pytest.mark.parametrize(("round_", "stitch"), [(0, 1), (1, 0), (3, 1), (1, 4), (-1, 1), (1, -1)])
def test_there_is_nothing_outside_the_grid(round_: int, stitch: int) -> None:
    grid = read_grid("abc\ndef\n", "g")
    with pytest.raises(IndexError):
        grid.at(round_, stitch)
    with pytest.raises(IndexError):
        grid.span(round_, stitch)


def test_line_ends_of_other_systems_and_a_byte_order_mark_are_accepted() -> None:
    assert read_grid("\ufeffab\r\ncd\r\n", "g") == read_grid("ab\ncd", "g")


def test_spaces_inside_a_round_are_stitches() -> None:
    assert read_grid("x x\nxxx", "g").at(2, 2) == " "


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", ("grid.empty", 1, 1)),
        ("\n\n", ("grid.empty", 1, 1)),
        ("...\n..\n...\n", ("grid.ragged", 2, 1)),
        ("...\n....\n...\n", ("grid.ragged", 2, 1)),
        ("...\n\n...\n", ("grid.blank-line", 2, 1)),
        ("...\n.\t.\n", ("grid.tab", 2, 2)),
        ("...\n..  \n...\n", ("grid.trailing-space", 2, 3)),
        ("...\n.\x07.\n", ("grid.invisible-character", 2, 2)),
        ("...\n.\u00a0.\n", ("grid.invisible-character", 2, 2)),
        ("...\n\u200b..\n", ("grid.invisible-character", 2, 1)),
        ("...\n.e\u0301.\n", ("grid.combined-character", 2, 2)),
        ("...\n.\u2764\ufe0f.\n", ("grid.combined-character", 2, 2)),
        ("x" * 1001, ("grid.too-large", 1, 1)),
        ("x\n" * 1001, ("grid.too-large", 1, 1)),
    ],
)
def test_a_faulty_grid_has_one_finding_where_the_fault_is(
    text: str, expected: tuple[str, int, int]
) -> None:
    assert findings_of(text) == [expected]


def test_a_ragged_line_names_its_round_and_both_widths() -> None:
    message = message_of(".....\n....\n.....\n.....\n")
    assert message == "round 3 has 4 stitches, but most rounds have 5"


def test_marks_of_a_repeat_are_no_stitches_of_a_ragged_line() -> None:
    with pytest.raises(PatternError) as raised:
        read_grid(".|...|.\n.|..|.\n.|...|.\n", "g", marked=True)

    assert [each.message for each in raised.value.findings] == [
        "round 2 has 4 stitches, but most rounds have 5"
    ]


def test_every_ragged_line_is_found_up_to_a_limit() -> None:
    assert [line for _, line, _ in findings_of("...\n..\n...\n.\n...\n")] == [2, 4]
    assert len(findings_of("..\n" * 100 + "...\n" * 90)) == 20


def test_a_grid_of_the_largest_size_is_read() -> None:
    for width, height in ((1000, 100), (100, 1000)):
        grid = read_grid(("x" * width + "\n") * height, "g")
        assert (grid.width, grid.height) == (width, height)


def test_a_grid_of_too_many_stitches_is_refused() -> None:
    with pytest.raises(PatternError) as raised:
        read_grid(("x" * 1000 + "\n") * 101, "g")
    assert [each.id for each in raised.value.findings] == ["grid.too-large"]


@given(
    st.integers(1, 8).flatmap(
        lambda n: st.lists(
            st.text(st.sampled_from(".#xoäß縫🧶"), min_size=n, max_size=n), min_size=1, max_size=8
        )
    )
)
def test_every_stitch_is_the_character_at_its_place(rows: list[str]) -> None:
    grid = read_grid("\n".join(rows), "g")
    for round_ in range(1, grid.height + 1):
        for stitch in range(1, grid.width + 1):
            span = grid.span(round_, stitch)
            assert grid.at(round_, stitch) == rows[span.line - 1][span.column - 1]


@given(st.text() | st.text(st.sampled_from(".x \n\t\r\u0301\u00a0")))
def test_any_text_is_a_grid_or_an_error(text: str) -> None:
    with suppress(PatternError):
        grid = read_grid(text, "g")
        assert {len(line) for line in grid.rounds} == {grid.width}
