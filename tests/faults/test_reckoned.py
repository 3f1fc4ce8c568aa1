"""Sums, products and lengths that a text reckons itself: those that come out, and others."""

import pytest

from bindoff.checks.prose import Prose
from bindoff.checks.texts.told.reckoned import reckoned_in
from bindoff.checks.texts.told.scene import Scene
from bindoff.diagnostics import Span
from bindoff.source.model import TextUse
from tests.faults.said import said
from tests.faults.test_prose_checks import context

LENGTH = "prose.length"


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Spread the 120 stitches over three needles, in groups of 40, 40 and 40.", False),
        ("Spread the 120 stitches over three needles, in groups of 40, 44 and 40.", True),
        ("The 120 stitches lie in two rows of 60.", False),
        ("The 120 stitches lie in two rows of 66.", True),
        ("Work 4 rows of Rope, 4 rows of Tar and 2 rows of Rope. These 10 rows are a band.", False),
        ("Work 4 rows of Rope, 6 rows of Tar and 2 rows of Rope. These 10 rows are a band.", True),
        ("Work the 12 rows of the three stripes 5 times. You have 60 rows.", False),
        ("Work the 12 rows of the three stripes 5 times. You have 72 rows.", True),
        (
            "Ch 100. Dc in the 4th ch from the hook counts as 1: 97 stitches.",
            True,
        ),
        (
            "Ch 100. Dc in the 4th ch from the hook; the 3 ch count as 1: 98 stitches.",
            False,
        ),
        ("Ch 41. Single crochet in the 2nd ch from the hook and in each ch: 40 stitches.", False),
        ("Ch 41. Single crochet in the 2nd ch from the hook and in each ch: 41 stitches.", True),
        ("Ch 30 for the tie, and 12 more for the loop.", False),
        ("There are 30 stitches at the neck and 12 more under the arm: 42 stitches.", False),
        ("There are 30 stitches at the neck and 14 more under the arm: 42 stitches.", True),
        ("Work 2 sc in the end of each row, whatever their number.", False),
        ("Repeat these 4 rows twice, or until the yarn is used up.", False),
    ],
)
def test_sums_of_a_text_come_out(text: str, heard: bool) -> None:
    prose = Prose(
        TextUse.TEXT,
        text,
        text,
        None,
        ("finishing",),
        lambda start, end: Span("here", 1, start + 1, 1, end + 1),
    )
    wrong = [*reckoned_in(context("blanket"), Scene(prose))]

    assert bool(wrong) is heard


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("It is 60 cm around, which is 30 cm when it lies flat.", False),
        ("It is 60 cm around, which is 40 cm when it lies flat.", True),
        ("A head of 56 cm around wants a hat that lies 24 cm flat with its lining.", False),
        ("Dry it flat.", False),
        ("Add 10 rounds for a taller head.", False),
    ],
)
def test_half_of_a_way_around_lies_flat(text: str, heard: bool) -> None:
    assert (LENGTH in said(text, "hat", {LENGTH}, ("finishing",), TextUse.TEXT)) is heard
