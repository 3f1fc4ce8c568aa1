"""A row that does not fit what another left: the slip is told where it is likelier.

Patterns of stitches keep their count from row to row, so the one row of a list that changes it is
suspected before a later one that would fit without it (common practice of editors, no source).
"""

import pytest

from tests.small_patterns import FLAP, faults_of

HEAD = FLAP.partition("    steps:\n")[0] + "    steps:\n      - cast on: 11\n"


def told(*rows: str) -> tuple[str, str, str]:
    """What is said of the rows, what to do, and which of them it is said at."""
    listed = "".join(f"          - {row}\n" for row in rows)
    text = f"{HEAD}      - work:\n{listed}      - bind off: all\n"
    found = faults_of(text)[0]
    assert found.span is not None
    return found.message, found.help, text.split("\n")[found.span.line - 1].strip(" -")


def test_a_lace_row_without_its_yarn_over_is_told_where_it_is_lost() -> None:
    message, help, at = told("p all", "k2, ssk, k3, k2tog, yo, k2", "p all", "k2, yo, ssk, k7")

    assert at == "k2, ssk, k3, k2tog, yo, k2"
    assert message == (
        "in row 4 the row needs 11 stitches, and there are 10 live stitches; "
        "row 2 has left 10 of 11"
    )
    assert help == "Let row 2 leave 11 stitches, or change row 4"


@pytest.mark.parametrize(
    "rows",
    [
        # Both shape: the later one is a copy that was not changed.
        ("k2, ssk, k to end", "k2, ssk, k7"),
        # Two rows have changed the count.
        ("k2, ssk, k to end", "k2, ssk, k to end", "k11"),
        # The same row over again.
        ("k2, yo, ssk, ssk, k5", "k2, yo, ssk, ssk, k5"),
        # Nothing has changed it.
        ("p all", "k12"),
    ],
)
def test_a_row_that_shapes_after_others_is_told_itself(rows: tuple[str, ...]) -> None:
    message, _, at = told(*rows)

    assert at == rows[-1]
    assert "has left" not in message
