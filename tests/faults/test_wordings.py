"""Sentences about the work: wrong ones are heard in every wording, sound ones are left alone.

One place and number is taken for each wording, in turn; the report has all of them.
"""

from collections.abc import Iterator, Sequence

import pytest

from bindoff.checks.texts.told.numbers import number_of, ordinal_of, times_of
from tests.faults.reread import CHANGES, fault_of
from tests.faults.wordings import SPEECHES, Said, heard_of, odd, outcome_of


def _in_turn(right: bool) -> Iterator[Said]:
    """One sentence of each wording."""
    for speech in SPEECHES:
        for turn, wording in enumerate(speech.wordings):
            said = [each for each in speech.said(wording, turn) if each.right is right]
            yield said[turn % len(said)]


@pytest.mark.parametrize("said", tuple(_in_turn(right=False)), ids=lambda said: said.sentence)
def test_a_wrong_sentence_is_heard_where_it_stands(said: Said) -> None:
    assert outcome_of(said).in_place


@pytest.mark.parametrize("said", tuple(_in_turn(right=True)), ids=lambda said: said.sentence)
def test_a_right_sentence_is_left_alone(said: Said) -> None:
    assert outcome_of(said).alarms == ()


@pytest.mark.parametrize("said", tuple(odd())[::2], ids=lambda said: said.sentence)
def test_a_sound_sentence_that_looks_odd_is_left_alone(said: Said) -> None:
    assert outcome_of(said).alarms == ()


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change[2][:60])
def test_a_sentence_that_was_changed_is_told_as_its_list_says(
    change: tuple[str, str, str, str],
) -> None:
    """A miss that is found by now has to be taken off the list of misses."""
    heard = heard_of(fault_of(change))

    assert heard.in_place is (change[3] == "found")
    assert change[3] != "sound" or heard.alarms == ()


@pytest.mark.parametrize(
    ("words", "number"),
    [("7", 7), ("seven", 7), ("Twenty-four", 24), ("ninety nine", 99), ("forty", 40)],
)
def test_numbers_are_read_in_figures_and_words(words: str, number: int) -> None:
    assert number_of(words) == number


def test_ordinals_and_times_are_read() -> None:
    assert [ordinal_of(word) for word in ("4th", "third", "other", "22nd")] == [4, 3, 2, 22]
    words: Sequence[str] = ("once", "twice", "six times", "6 more times")
    assert [times_of(word) for word in words] == [1, 2, 6, 6]
