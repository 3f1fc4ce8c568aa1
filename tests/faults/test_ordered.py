"""The order of work and the yarns of parts, told in many ways: right ones are left alone."""

import pytest

from bindoff.source.model import TextUse
from tests.faults.said import said

ORDER, YARN = "prose.order", "prose.yarn"


@pytest.mark.parametrize(
    ("text", "pattern"),
    [
        ("The brim comes first, then the body, and the crown last.", "hat"),
        ("The crown is worked last.", "hat"),
        ("It is knitted from the brim to the crown.", "hat"),
        ("This hat is worked brim-up in one piece.", "hat"),
        ("Work it from the brim up.", "hat"),
        ("Measure the head from the crown to the brim.", "hat"),
        ("If the crown is worked first, the brim can be longer.", "hat"),
        ("The brim is the last word in warmth.", "hat"),
        ("The crown is first of all a row of wedges.", "hat"),
        ("The last rounds are those of the crown.", "hat"),
        ("The first row is worked in rib.", "hat"),
        ("Socks are worked from the cuff to the toe, and the heel is put in last.", "sock"),
        ("These are cuff-down socks.", "sock"),
        ("The heel is worked afterwards.", "sock"),
        ("The toe is not the last thing: the heel is.", "sock"),
        ("He is made from his nose to his tail.", "toy"),
        ("Stuff the belly before the last round.", "toy"),
        ("Fill it a little at a time as you go.", "toy"),
        ("When the seam is sewn up almost to the end, fill the body through the gap.", "toy"),
        ("Close the hole after you have stuffed it.", "toy"),
        ("Fill the nose and the belly firmly.", "toy"),
        ("Do not stuff the head after the last round: you will not get in.", "toy"),
        ("Line the bag after it is washed.", "bag"),
    ],
)
def test_the_order_of_the_steps_is_left_alone(text: str, pattern: str) -> None:
    assert said(text, pattern, {ORDER, "prose.direction"}, ("notes",)) == set()


@pytest.mark.parametrize(
    ("text", "pattern"),
    [
        ("The crown comes first, then the body.", "hat"),
        ("The brim is worked last.", "hat"),
        ("First comes the crown.", "hat"),
        ("The brim is picked up last; the body comes before it.", "hat"),
        ("It is knitted from the tip to the brim.", "hat"),
        ("It begins at the crown, and ends at the brim.", "hat"),
        ("The heel is put in first.", "sock"),
        ("They are worked in the round from the end to the cuff.", "sock"),
        ("He is knitted from his fins to his nose.", "toy"),
        ("Stuff the head after the last round.", "toy"),
        ("After the hole is closed, stuff the body.", "toy"),
        ("Fill him when all the seams are sewn up.", "toy"),
    ],
)
def test_another_order_is_heard(text: str, pattern: str) -> None:
    assert said(text, pattern, {ORDER, "prose.direction"}, ("notes",))


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("The crown is in Slate.", False),
        ("Brim and crown are worked in Slate.", False),
        ("The body is worked in Slate and Foam.", False),
        ("The brim is in Slate or Foam.", False),
        ("The brim could be in Foam.", False),
        ("The hat comes in Foam as well.", False),
        ("Wash the brim in Foam's water.", False),
        ("The brim is worked in Foam.", True),
        ("Brim and crown are worked in Foam.", True),
        ("The whole crown is in Foam.", True),
    ],
)
def test_parts_are_in_the_yarn_of_their_sections(text: str, heard: bool) -> None:
    assert said(text, "hat", {YARN}, ("notes",)) == ({YARN} if heard else set())


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("With Slate, work evenly.", False),
        ("With the smaller needles and Slate, cast on.", False),
        ("Work in Slate.", False),
        ("With Foam, work evenly.", True),
        ("With the crochet hook and Foam, work evenly.", True),
    ],
)
def test_a_note_works_with_the_yarn_of_its_step(text: str, heard: bool) -> None:
    note = ("pieces", "hat", "steps", 1, "note")

    assert said(text, "hat", {YARN}, note, TextUse.STEP) == ({YARN} if heard else set())
