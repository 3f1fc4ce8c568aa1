"""When stockinette is certainly worked with its purl side out, and when it may be meant.

Which side a row shows: knit on the right side and purl on the wrong side show the knit side (common
practice, no source).
"""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import FLAP

LIST = "work: [k all, p all]"


def alarms(*steps: str) -> list[str]:
    """What is said of the sides of a flat piece in sizes S and M."""
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n      - cast on: 20\n"
    text = head + "".join(f"      - {step}\n" for step in (*steps, "bind off: all"))
    found = check_pattern(MemoryFiles({"pattern.yaml": text}), "pattern.yaml", "flap")
    return [each.message for each in found if each.id == "row.purl-side-out"]


def rows(count: str, what: str = LIST, note: str = "") -> str:
    return f"{{{what}, rounds: {count}{note}}}"


@pytest.mark.parametrize(
    ("steps", "begins"),
    [
        # the same list again, after an odd number of rows
        ((rows("51"), rows("10")), "in every size this begins on row 52, on the wrong side"),
        # after one right-side row of decreases
        (
            (rows("10"), 'work: "k1, ssk, k to end"', rows("10")),
            "in every size this begins on row 12, on the wrong side",
        ),
        # odd in one size only
        (
            (rows("[5, 6]", "work: k all"), rows("10")),
            "in size S this begins on row 6, on the wrong side",
        ),
        # a garter band of five rows inside stockinette
        (
            (rows("10"), rows("5", "work: k all"), rows("10")),
            "in every size this begins on row 16, on the wrong side",
        ),
    ],
)
def test_a_list_that_begins_on_the_other_side_is_found(steps: tuple[str, ...], begins: str) -> None:
    (said,) = alarms(*steps)

    assert said == f"{begins}: the purl side is the right side from here on"


@pytest.mark.parametrize(
    "steps",
    [
        (rows("50"), rows("10")),
        # garter, of which nobody can say where it ends
        (rows("5", "work: k all"), rows("10")),
        (rows("9", "work: k all"), rows("10", "work: k all")),
        # reverse stockinette that is written as such
        (rows("50"), rows("10", "work: [p all, k all]")),
        # purled before, so that the purl side goes on
        (rows("50"), "work: p all", rows("10")),
        # ribs
        (rows("5", "work: ['*k1, p1; repeat from * to end']"), rows("10")),
        # it is said
        (rows("51"), rows("10", LIST, ", note: The purl side is out here")),
        # purl rows first, on the wrong side: stockinette goes on
        (rows("51"), rows("10", "work: [p all, k all]")),
    ],
)
def test_what_may_be_meant_is_let_be(steps: tuple[str, ...]) -> None:
    assert alarms(*steps) == []
