"""What texts say of the whole, of charts in words and of order: wrong in several wordings, and
sound ones beside them that are left alone. Common practice, no source."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.source.model import TextUse
from tests.faults.said import said
from tests.faults.seeding import base, checked


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Place a marker for SOR.", True),
        ("FO inside.", True),
        ("READ ME FIRST: the sizes are below.", False),
        ("The toy was tested to EN 71 in the UK.", False),
        ("Do NOT twist.", False),
        ("With RS facing (RS means right side), begin.", False),
    ],
)
def test_letters_that_nobody_explains_are_heard(text: str, heard: bool) -> None:
    path = ("pieces", "hat", "steps", 1, "say")
    found = said(text, "hat", {"abbreviation.undefined"}, path, TextUse.STEP)
    assert (found == {"abbreviation.undefined"}) is heard


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("You now have 14 (XX, 18, 20) stitches.", True),
        ("You now have XX (16, 18, 20) stitches.", True),
        ("You now have 14 (16, ?, 20) stitches.", True),
        ("You now have 14 (–, 18, 20) stitches.", False),
        ("It fits sizes S (M, XXL).", False),
        ("Do you have 14 (16, 18, 20) stitches?", False),
    ],
)
def test_a_figure_left_out_of_a_list_is_heard(text: str, heard: bool) -> None:
    assert (said(text, "hat", {"prose.unfinished"}) == {"prose.unfinished"}) is heard


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Weave in the ends on the inside after you have closed it.", True),
        ("Weave in all ends on the inside once it is grafted.", True),
        ("Weave in the ends on the inside before you close it.", False),
        ("Close it almost, weave in the ends on the inside through the gap.", False),
        ("Weave in the last end once the top is closed.", False),
        ("Pull out the waste yarn before the ends are grafted.", True),
        ("Remove the waste yarn before you sew the ends.", True),
        ("Pull out the waste yarn once the ends are grafted.", False),
        ("Remove the waste yarn and put the loops on a needle before grafting.", False),
        ("Knit in waste yarn before you begin.", False),
    ],
)
def test_what_is_closed_or_open_is_reached_and_held(text: str, heard: bool) -> None:
    assert (said(text, "hat", {"prose.order"}) == {"prose.order"}) is heard


@pytest.mark.parametrize(
    ("text", "pattern", "heard"),
    [
        (
            "A tenth of it is enough; a quarter of a ball is enough for every size.",
            "pullover",
            True,
        ),
        ("Half a ball is enough for any size.", "pullover", True),
        ("About half a ball is left over.", "pullover", False),
        ("If half a ball is enough for you, knit it shorter.", "pullover", False),
        ("Half a ball more is needed for a longer one.", "pullover", False),
        ("Knitted in one piece from the top down.", "pullover", True),
        ("The body is knitted in one piece.", "pullover", False),
        ("It could be worked in one piece.", "pullover", False),
        ("The yoke is worked in one piece.", "pullover", False),
    ],
)
def test_what_is_said_of_the_whole_is_held(text: str, pattern: str, heard: bool) -> None:
    found = said(text, pattern, {"prose.claim"}, ("summary",), TextUse.HEAD, beside=True)
    assert (found == {"prose.claim"}) is heard


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Right-side rows are read from left to right.", True),
        ("Read wrong-side rows of the chart from right to left.", True),
        ("Wrong-side rows are read from right to left.", True),
        ("Wrong-side rows are read from left to right.", False),
        ("Right-side rows are read from right to left.", False),
        ("RS rows run from the right to the left.", False),
    ],
)
def test_charts_are_read_from_the_side_where_the_row_begins(text: str, heard: bool) -> None:
    assert (said(text, "blanket", {"prose.chart"}) == {"prose.chart"}) is heard


def test_a_width_in_words_is_quoted_whole() -> None:
    files = dict(base("blanket"))
    files["pattern.yaml"] = files["pattern.yaml"].replace(
        "twelve stitches wide", "seven stitches wide"
    )

    found = [each.message for each in checked(MemoryFiles(files)) if each.id == "prose.chart"]

    assert [message.split(" stands")[0] for message in found] == ["`seven stitches wide`"]
