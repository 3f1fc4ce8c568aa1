"""Small builders of running text."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.phrases import (
    counted,
    figures,
    join,
    joined,
    merged,
    of_size,
    often,
    paragraph,
    running,
    text,
)
from bindoff.document.tree import SizeValues, Strong, Text
from bindoff.english import ended, listed, plural, times
from tests.document.patterns import for_size, printed

counts = st.lists(st.integers(0, 30), min_size=1, max_size=6)


def test_neighbouring_text_becomes_one_node() -> None:
    assert join("Knit ", "8", " ", text("rounds"), "") == (Text("Knit 8 rounds"),)


def test_a_value_per_size_keeps_its_place() -> None:
    value = SizeValues(("8", "9"))

    assert join("Knit ", (value,), " rounds") == (Text("Knit "), value, Text(" rounds"))


def test_sentences_are_set_one_space_apart_without_empty_ones() -> None:
    assert paragraph(running("Knit.", "", (), text("Turn."))).children == (Text("Knit. Turn."),)


def test_what_stands_between_parts_is_not_doubled() -> None:
    assert joined((text("a"), (Strong(text("b")),), text("c")), " or ") == (
        Text("a or "),
        Strong((Text("b"),)),
        Text(" or c"),
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [((), ""), (("a",), "a"), (("a", "b"), "a and b"), (("a", "b", "c"), "a, b and c")],
)
def test_a_list_of_words(words: tuple[str, ...], said: str) -> None:
    assert listed(words) == said


@pytest.mark.parametrize(
    ("words", "said"),
    [("It is", "It is."), ("It is.", "It is."), ("Is it?", "Is it?"), ("(It is.)", "(It is.)")],
)
def test_a_sentence_gets_the_full_stop_it_lacks(words: str, said: str) -> None:
    assert ended(words) == said


# ---------------------------------------------------------------- counts


@given(counts, st.sampled_from(["round", "row", "stitch", "ball"]))
def test_no_size_reads_a_noun_in_the_wrong_number(values: list[int], noun: str) -> None:
    words = counted(values, noun)
    for size, value in enumerate(values):
        said = for_size(words, size)

        assert said in (
            f"{value or '–'} {noun if value == 1 else plural(noun)}",
            f"this many {plural(noun)}: {value or '–'}",
        )


@given(counts)
def test_no_size_is_told_to_do_something_one_times(values: list[int]) -> None:
    words = often(values)
    for size in range(len(values)):
        assert not re.search(r"\b[01] times\b", for_size(words, size))


def test_counts_of_one_size_are_said_plainly() -> None:
    assert printed(counted([1], "stitch")) == "1 stitch"
    assert printed(counted([7, 7], "round")) == "7 rounds"
    assert printed(often([1, 1])) == "once"
    assert printed(often([2])) == "twice"
    assert times(3) == "3 times"


def test_a_size_with_none_has_a_dash() -> None:
    assert printed(counted([0, 4], "round")) == "– (4) rounds"
    assert figures([0, 4]) == (SizeValues(("–", "4")),)


# ---------------------------------------------------------------- one sentence for all sizes


@given(st.lists(st.tuples(st.integers(2, 99), st.integers(2, 99)), min_size=1, max_size=6))
def test_a_merged_sentence_says_to_each_size_what_its_own_said(
    pairs: list[tuple[int, int]],
) -> None:
    versions = [text(f"*K{k}, M1; repeat {n} times.") for k, n in pairs]
    shared = merged(versions)

    assert shared is not None
    assert [for_size(shared, size) for size in range(len(pairs))] == [
        printed(version) for version in versions
    ]


def test_sentences_that_differ_in_words_are_not_merged() -> None:
    assert merged([text("Knit 2 rounds."), text("Knit 1 round.")]) is None
    assert merged([text("Work it once."), text("Work it 3 times.")]) is None


def test_ordinals_and_stitch_names_are_not_taken_apart() -> None:
    """``k2tog`` and ``k3tog`` are two stitches, ``8th`` and ``9th`` two words."""
    assert merged([text("K2tog."), text("K3tog.")]) is None
    assert merged([text("Every 8th round."), text("Every 9th round.")]) is None


def test_a_title_in_one_size() -> None:
    assert of_size("Quay Cap", "M") == "Quay Cap, size M"
    assert of_size("Quay Cap", "One size") == "Quay Cap, One size"
