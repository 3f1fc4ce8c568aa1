"""A row that misfits one size points at the figure that is typed for that size, too."""

from tests.small_patterns import CAP, changed, faults_of

TYPED = changed(CAP, ("  cast_on: stitches(around, multiple = 8)\n", "  cast_on: [96, 106]\n"))


def test_the_figure_of_the_size_that_misfits_is_shown_beside_the_row() -> None:
    found = faults_of(TYPED)[0]

    assert found.id == "row.left-over"
    assert found.sizes == ("M",)
    (typed,) = found.beside
    line = TYPED.splitlines()[typed.line - 1]
    assert line[typed.column - 1 : typed.end_column - 1] == "106"


def test_of_a_row_that_fits_no_size_no_figure_is_shown() -> None:
    found = faults_of(TYPED.replace("[96, 106]", "[98, 106]"))[0]

    assert found.id == "row.left-over"
    assert found.sizes == ()
    assert found.beside == ()


def test_a_list_that_the_piece_does_not_name_is_not_shown() -> None:
    other = changed(TYPED, ("  cast_on:", "  other: [96, 106]\n  cast_on:"))
    found = faults_of(other)[0]

    assert len(found.beside) == 1
