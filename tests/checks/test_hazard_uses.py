"""Hazards are heard by what is done, harmless sentences in the same words are left alone.

Sleep, loose and weighted things: American Academy of Pediatrics, 2022. Cords and what catches at
play: 16 CFR 1120 and the U.S. Consumer Product Safety Commission. Small parts: 16 CFR 1501. The
rest: common practice, no source. The wordings are invented.
"""

import pytest

from tests.checks.hazard_hearing import heard
from tests.checks.hazard_sentences import SENTENCES

_LINES = [line for line in SENTENCES.splitlines() if line]


@pytest.mark.parametrize("words", [line[2:] for line in _LINES if line[0] == "!"])
def test_a_hazard_is_heard(words: str) -> None:
    assert heard(words) != set()


@pytest.mark.parametrize("words", [line[2:] for line in _LINES if line[0] == "."])
def test_what_is_harmless_is_left_alone(words: str) -> None:
    assert heard(words) == set()


def test_no_sentence_is_kept_twice_and_the_missed_ones_are_counted() -> None:
    assert len(set(_LINES)) == len(_LINES) == 834
    assert sum(line[0] == "?" for line in _LINES) == 32


@pytest.mark.parametrize(
    ("words", "ids"),
    [
        ("Draw the collar over the mouth on windy days.", {"wearer.uses"}),
        ("It is thick enough to wear in the booster seat.", {"wearer.uses"}),
        ("A scarf for the climbing frame.", {"wearer.uses"}),
        ("Warm the bear in the microwave.", {"wearer.uses"}),
        ("Leave a few pins in until the child has tried it on.", {"wearer.uses"}),
        ("The inside has long floats.", {"wearer.uses"}),
        ("The flowers lift off.", {"wearer.uses"}),
        ("Let her sew the mouth.", {"wearer.uses"}),
        (
            "Leave long floats, never mind; the brim covers the nose.",
            {"wearer.uses", "wearer.permitted"},
        ),
    ],
)
def test_a_use_is_heard_as_one(words: str, ids: set[str]) -> None:
    assert heard(words, "Quay Cap") == ids


@pytest.mark.parametrize(
    "words",
    [
        "Never draw the collar over the mouth.",
        "Take it off in the car seat.",
        "No scarf belongs on a climbing frame.",
        "Keep it away from the stove.",
        "Remove all pins before the child tries it on.",
        "Long floats are caught at every third stitch.",
        "Knit it while the baby naps.",
    ],
)
def test_a_warning_is_no_use(words: str) -> None:
    assert heard(words) == set()


def test_a_toys_own_face_may_be_covered() -> None:
    assert heard("The hat comes down over the eyes.", "Quay Seal") == set()
    assert heard("The hat comes down over the eyes.", "Quay Cap") == {"wearer.uses"}
