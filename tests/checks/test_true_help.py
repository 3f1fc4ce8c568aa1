"""What findings advise is true of the pattern at hand."""

import pytest

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, WAVES, changed

# 20 stitches and 30 rows over 10 cm: 40 stitches are 20 cm, 90 rows are 30 cm.
BAND = """\
title: Mooring Band
designer: The Ebbstow Knitting Room
version: "1.0"
date: 2026-11-02
summary: A band for the head.
wearer: [adult]
gauge: {stitches: 20, rounds: 30, worked: "garter stitch", tool: 4.5 mm needles}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes:
  S: {head: 54 cm}
measures:
  wide: 40
  long: 90
finished:
  Width: height(long)
  Length: width(wide)
pieces:
  band:
    title: Band
    worked: flat
    steps:
      - say: The band is worked HOW.
      - cast on: wide
      - work: k all
        rounds: 30
      - work: [k all, p all]
        rounds: 60
      - bind off: all
"""


def said(text: str) -> tuple[Diagnostic, ...]:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    try:
        return check_pattern(files, "pattern.yaml", "cap")
    except PatternError as error:
        return error.findings


def of(text: str, id: str) -> list[Diagnostic]:
    return [each for each in said(text) if each.id == id]


def line(text: str, finding: Diagnostic) -> str:
    assert finding.span is not None
    return text.split("\n")[finding.span.line - 1].strip()


@pytest.mark.parametrize("how", ["sideways", "from side to side", "from one side to the other"])
def test_the_width_of_a_piece_worked_sideways_is_its_rows(how: str) -> None:
    sideways = BAND.replace("HOW", how)

    assert of(sideways, "stated.width") == []
    assert of(sideways, "stated.height") == []


def test_a_piece_that_is_not_said_to_be_sideways_has_its_stitches_as_width() -> None:
    found = of(BAND.replace("HOW", "in one go"), "stated.width")

    assert [each.message for each in found] == [
        "no count of stitches gives `Width` in size S: stated for size S is 30.0 cm, and the "
        "pieces have 20.0 cm at the nearest"
    ]


def test_the_length_of_the_whole_is_no_run_of_rows_in_its_middle() -> None:
    """Rows 11 to 40 of the cap's 58 are 30 rows: no length of a whole."""
    text = changed(
        CAP,
        (
            "  Circumference: width(cast_on)\n",
            "  Circumference: width(cast_on)\n  Length: 4 rounds\n",
        ),
    ).replace("4 rounds", "height(4)")
    (found,) = of(text, "stated.height")

    assert "stated for size S is 1.4 cm" in found.message
    assert of(text.replace("Length:", "Band length:"), "stated.height") == []


def test_a_marker_left_in_the_way_of_a_crown_is_told_where_it_is_placed() -> None:
    text = changed(
        CAP,
        ("      - chart: waves\n", '      - work: "k5, pm, k to end"\n      - chart: waves\n'),
    )
    (found, *_) = of(text, "row.across-marker")

    assert line(text, found) == '- work: "k5, pm, k to end"'
    assert "still there in line" in found.message
    assert "remove marker" in found.help


def test_a_marker_that_is_not_there_is_told_with_the_lines_that_place_and_remove_it() -> None:
    text = changed(
        CAP,
        (
            "      - chart: waves\n",
            '      - work: "k5, pm, k to end"\n'
            '      - work: "k5, remove marker, k to end"\n'
            '      - work: "k to marker, k to end"\n'
            "      - chart: waves\n",
        ),
    )
    (found,) = of(text, "row.no-marker")
    at = text.split("\n").index('      - work: "k5, pm, k to end"') + 1

    assert line(text, found) == '- work: "k to marker, k to end"'
    assert found.help.endswith(f"markers are placed in line {at} and removed in line {at + 1}")


def test_markers_that_are_not_listed_are_to_be_listed_where_notions_are() -> None:
    text = changed(
        CAP,
        (
            "      - chart: waves\n",
            '      - work: "k5, pm, k to end"\n'
            '      - work: "k5, remove marker, k to end"\n'
            "      - chart: waves\n",
        ),
    )
    (found,) = of(text, "marker.count")

    assert found.message == "1 marker is on the needles at once, and none is listed"
    assert found.help.startswith("List 1 marker under `notions:`")
    assert line(text, found) == "tools:"


def test_tools_are_named_with_the_article_they_take() -> None:
    text = changed(CAP, ("4.5 mm circular needle", "scissors"))

    assert "the steps need knitting needles, and the lists name none" in [
        each.message for each in of(text, "tool.missing")
    ]
    assert "the steps need a blunt needle, and the lists name none" in [
        each.message for each in of(text, "tool.missing")
    ]


def test_held_stitches_are_asked_for_by_the_name_that_the_step_writes() -> None:
    text = changed(
        CAP, ("      - gather: all\n", "      - gather: all\n      - held: around_thumb\n")
    )
    text = text.replace("  depth:", "  around_thumb: [8, 9]\n  depth:")
    (found,) = of(text, "piece.held")

    assert found.help == "Hold them in a row before, as in `hold {around_thumb} stitches`"


def test_a_body_is_told_in_the_unit_it_is_written_in() -> None:
    text = changed(CAP, ("  M: {head: 56 cm}", "  M: {head: 40 in}"))
    (found,) = of(text, "body.range")

    assert found.message.startswith("`head` of size M is 40 in (101.6 cm); people have")
