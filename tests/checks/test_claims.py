"""Sentences that agree with the pattern, or may mean something else, are left alone."""

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import Swap, checked, fault, faulty

IDS = {"prose.claim", "prose.length", "prose.small-count"}


def said(base: str, before: str, sentence: str) -> list[str]:
    seeded = fault("a sentence", base, "", Swap(before, f"{sentence} {before}"))
    return [each.id for each in checked(MemoryFiles(faulty(seeded))) if each.id in IDS]


QUIET = (
    ("sock", "Try the sock on", "The cuff is 4 cm (1½ in) deep."),
    ("sock", "Try the sock on", "The cuff is 9 cm (3½ in) wide."),
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


def test_a_caution_is_not_for_a_picture_of_the_night() -> None:
    """An error is kept for what covers a baby at night, and never told of a motif."""
    swaps = Swap("A pram blanket", "The harbour at night: a pram blanket")
    found = checked(MemoryFiles(faulty(fault("night", "blanket", "", swaps))))

    assert "wearer.safety" not in {each.id for each in found}
