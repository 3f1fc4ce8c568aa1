"""Lists of figures that follow from the plan, and lists for two sizes. Reckoned by hand."""

import pytest

from tests.faults.said import said

LISTS = "prose.sizes"


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("The hat has 104 (112, 120) stitches.", True),
        ("Divide them: 24 (26, 28, 30) stitches on each of four needles.", False),
        ("Divide them: 24 (26, 28, 32) stitches on each of four needles.", True),
        ("48 (52, 56, 60) on each side.", False),
        ("It is 48 (52, 56, 60) cm around.", False),
        ("It is 48 (52, 56, 70) cm around.", True),
    ],
)
def test_shares_and_lengths_follow_from_counts(text: str, heard: bool) -> None:
    """96, 104, 112 and 120 stitches at 20 to 10 cm."""
    assert said(text, "hat", {LISTS}) == ({LISTS} if heard else set())


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Cast on 97 (201) stitches.", False),
        ("Work 60 (60) rounds.", False),
        ("It is 61.5 (127.5) cm around.", False),
        ("It is 24 (50) in around.", False),
        ("Leave a tail of 10 cm (4 in).", False),
        ("Try 3 (4) times in each round.", False),
        ("It is 23 (23) cm high.", False),
        ("Cast on 97 (211) stitches.", True),
        ("Cast on 201 (97) stitches.", True),
        ("Work 60 (64) rounds.", True),
        ("It is 61.5 (137.5) cm around.", True),
        ("It is 23 (33) cm high.", True),
    ],
)
def test_lists_for_two_sizes_are_those_of_the_plan(text: str, heard: bool) -> None:
    """97 and 201 stitches at 4 to the inch, 60 rounds at 20 to 3 inches."""
    assert bool(said(text, "seed-cowl", {LISTS, "prose.count"})) is heard
