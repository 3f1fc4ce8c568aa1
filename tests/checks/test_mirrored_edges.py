"""A mirrored flat piece shapes its other edge, on rows of the other parity where it binds off.

Stitches are bound off where a row begins, so the two fronts of a jacket do it a row apart: common
practice, no source.
"""

import pytest

from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import HEAD

FRONTS = (
    HEAD
    + """\
gauge: {stitches: 20, rounds: 28}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes:
  S: {chest: 90 cm}
  M: {chest: 100 cm}
measures:
  wide: [46, 50]
  under: [5, 6]
finished:
  Chest: width(2 * wide)
pieces:
  left front:
    title: Left front
    worked: flat
    steps:
LEFT
  right front:
    title: Right front
    worked: flat
    steps:
RIGHT
"""
)


def said(left: list[str], right: list[str]) -> list[str]:
    def steps(rows: list[str]) -> str:
        all_steps = ["cast on: wide", *rows, "bind off: all"]
        return "\n".join(f"      - {each}" for each in all_steps)

    text = FRONTS.replace("LEFT", steps(left)).replace("RIGHT", steps(right))
    try:
        found = check_pattern(MemoryFiles({"pattern.yaml": text}), "pattern.yaml", "fronts")
    except PatternError as error:
        found = error.findings
    assert [each.message for each in found if each.severity == "error"] == []
    return [each.message for each in found if each.id == "piece.mirror"]


def plain(rows: int) -> str:
    return f"{{work: [k all, p all], rounds: {rows}}}"


OFF_RIGHT_SIDE = 'work: ["bind off {under}, k to end", p all]'
OFF_WRONG_SIDE = 'work: ["bind off {under}, p to end"]'


@pytest.mark.parametrize(
    ("left", "right"),
    [
        # one row later, and a row fewer after it
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [plain(41), OFF_WRONG_SIDE, "work: k all", plain(19)],
        ),
        # one row later, and so a row longer
        ([plain(40), OFF_RIGHT_SIDE, plain(20)], [plain(41), OFF_WRONG_SIDE, plain(21)]),
        # one row sooner
        ([plain(40), OFF_RIGHT_SIDE, plain(20)], [plain(39), OFF_WRONG_SIDE, plain(22)]),
        # decreases at the other end of the same rows, leaning the other way
        (
            [plain(40), '{work: ["k1, ssk, k to end", p all], times: 4}'],
            [plain(40), '{work: ["k to last 3, k2tog, k1", p all], times: 4}'],
        ),
        # the same words on the other side: garter stitch
        (
            [plain(40), '{work: ["k1, k2tog, k to end", k all], times: 4}'],
            [plain(40), '{work: [k all, "k1, k2tog, k to end"], times: 4}'],
        ),
        # a buttonhole in one front only
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [
                plain(20),
                'work: ["k3, yo, k2tog, k to end", p all]',
                plain(19),
                OFF_WRONG_SIDE,
                plain(21),
            ],
        ),
        (
            [plain(64)],
            [
                plain(20),
                'work: ["k3, bind off 2, k to end", "p to last 3, cast on 2, p3"]',
                plain(42),
            ],
        ),
        # bound off by a step
        (
            [plain(40), "bind off: under", plain(20)],
            [plain(41), "bind off: under", plain(20)],
        ),
        # a gusset cast on at the other edge
        (
            [plain(40), 'work: ["cast on 5, k to end"]', plain(21)],
            [plain(41), 'work: ["cast on 5, p to end"]', plain(20)],
        ),
    ],
)  # fmt: skip
def test_a_mirrored_front_is_left_alone(left: list[str], right: list[str]) -> None:
    assert said(left, right) == []
    assert said(right, left) == []


@pytest.mark.parametrize(
    ("left", "right", "what"),
    [
        # a copy of the left front
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            "in size S `left front` binds off 5 at its right edge in row 41, and `right front` "
            "binds off 5 at its right edge in row 41",
        ),
        # two rows later, so at the same edge again
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [plain(42), OFF_RIGHT_SIDE, plain(18)],
            "binds off 5 at its right edge in row 43",
        ),
        # three rows later, at the right edge but too high up
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [plain(43), OFF_WRONG_SIDE, plain(18)],
            "binds off 5 at its left edge in row 44",
        ),
        # fewer stitches
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [plain(41), 'work: ["bind off 4, p to end"]', plain(20)],
            "binds off 4 at its left edge in row 42",
        ),
        # the decrease leans the same way
        (
            [plain(40), '{work: ["k1, ssk, k to end", p all], times: 4}'],
            [plain(40), '{work: ["k to last 3, ssk, k1", p all], times: 4}'],
            "decreases 1 at its left edge in row 41",
        ),
        # nothing answers
        (
            [plain(40), OFF_RIGHT_SIDE, plain(20)],
            [plain(62)],
            "`right front` shapes nothing at its edges",
        ),
        # one row too few would do; three do not
        ([plain(40)], [plain(43)], "do not end with the same stitches and rows"),
    ],
)
def test_a_front_that_is_no_mirror_is_told(left: list[str], right: list[str], what: str) -> None:
    (message,) = said(left, right)

    assert what in message
    assert said(right, left)


def test_short_rows_leave_the_edges_open() -> None:
    turned = [plain(40), 'work: ["k20, turn", "p to end"]', plain(10)]

    assert said(turned, turned) == []
