"""Sentences that agree with the pattern, or may mean something else, are left alone."""

# ruff: noqa: E501 - a sentence stays whole

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import Swap, checked, fault, faulty

IDS = {"prose.claim", "prose.count", "prose.length", "prose.small-count"}


def said(base: str, before: str, sentence: str) -> list[str]:
    seeded = fault("a sentence", base, "", Swap(before, f"{sentence} {before}"))
    return [each.id for each in checked(MemoryFiles(faulty(seeded))) if each.id in IDS]


QUIET = (
    ("sock", "Try the sock on", "The cuff is 4 cm (1½ in) deep."),
    ("sock", "Try the sock on", "The cuff is 10 cm (4 in) wide."),
    ("sock", "Try the sock on", "Repeat the last 2 rounds as often as you like."),
    ("sock", "Try the sock on", "Cast on 3 stitches for an i-cord if you want a loop."),
    ("vest", "Sew the shoulders", "Sew the tail of the yarn in."),
    ("vest", "Sew the shoulders", "Join the yarn at the start of the round and crochet an edging."),
    ("pullover", "Sew the side\n  seams", "Sew the sleeve seams."),
    ("pullover", "knitted in four flat pieces", "Made in linen stitch,"),
    ("striped", "Tuck all ends", "See step 3."),
    ("striped", "Wash the cowl", "Wash the wool before you wind it."),
    ("cushion", "Sew the front to", "This is version 2.0."),
    ("toy", "Embroider two eyes", "Sew a button to each side."),
)


@pytest.mark.parametrize(("base", "before", "sentence"), QUIET)
def test_a_sentence_that_agrees_is_left_alone(base: str, before: str, sentence: str) -> None:
    assert said(base, before, sentence) == []


EDITED = (
    ("deck-cloth", "tool.missing", "Work these rows", "With 3 mm needles, begin.", "With the 4 mm needles, begin."),
    ("deck-cloth", "tool.missing", "Work these rows", "Go on with 5 mm needles.", "If you knit tightly, go on with 5 mm needles."),
    ("capstan-warmers", "prose.reference", "Cut Spray.", "Join Foam.", "Join Pitch again."),
    ("capstan-warmers", "prose.reference", "Cut Spray.", "Cut Pitch.", "Cut Pitch, and join Pitch from a new ball."),
    ("pilot-jacket", "prose.reference", "work in stockinette, as for", "Knit as for the hood.", "Knit as for the right front."),
    ("pilot-jacket", "prose.reference", "work in stockinette, as for", "Knit as for the upper back.", "Knit as for the left sleeve."),
    ("capstan-warmers", "prose.chart", "Cut Spray.", "Work all 7 rounds of the chart.", "Work all 6 rounds of the chart."),
    ("gull-toy", "prose.count", "Embroider the eyes", "Sew on four wings.", "Sew on two wings."),
    ("pilot-jacket", "prose.made-up", "Sew the sleeves", "Sew the buttons to the right band.", "Sew the buttons to the left band."),
    ("deck-cloth", "abbreviation.undefined", "Work these rows", "Slip the MC.", "Slip the main color (MC)."),
    ("deck-cloth", "prose.unfinished", "Work these rows", "Work xx rows.", "Work until it fits."),
)  # fmt: skip


@pytest.mark.parametrize(("base", "check", "before", "wrong", "right"), EDITED)
def test_a_sentence_is_heard_where_it_is_wrong_alone(
    base: str, check: str, before: str, wrong: str, right: str
) -> None:
    def ids(sentence: str) -> set[str]:
        seeded = fault("a sentence", base, "", Swap(before, f"{sentence} {before}"))
        return {each.id for each in checked(MemoryFiles(faulty(seeded)))}

    assert check in ids(wrong)
    assert check not in ids(right)


def test_a_caution_is_not_for_a_picture_of_the_night() -> None:
    """An error is kept for what covers a baby at night, and never told of a motif."""
    swaps = Swap("A pram blanket", "The harbour at night: a pram blanket")
    found = checked(MemoryFiles(faulty(fault("night", "blanket", "", swaps))))

    assert "wearer.safety" not in {each.id for each in found}
