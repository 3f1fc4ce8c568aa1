"""Rows as knitters write them: whatever the form, the row is the one that was meant."""

import re
from collections.abc import Callable

import pytest
from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import PatternError, Span
from bindoff.document.rowwords import settled, words
from bindoff.document.tree import plain
from bindoff.source.rowlang.read import Words, read_row
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Row
from hypothesis import given
from hypothesis import strategies as st
from row_strategies import NAMES, YARNS, rows

BOOK = standard_book()


def read(
    text: str, sizes: int = 1, terms: Terms = Terms.US, style: Words = Words.MODERN
) -> Row:
    span = Span("pattern.yaml", 1, 1, 1, len(text) + 1)
    return read_row(text, span, standard_book(terms), YARNS, sizes=sizes, words=style)


# ---------------------------------------------------------------- the same row in other words

LOOSER: dict[str, Callable[[str], str]] = {
    "a second star": lambda text: text.replace("; repeat from * ", "* "),
    "two stars named": lambda text: text.replace("; repeat from *", "*, rep from * to *"),
    "commas for semicolons": lambda text: text.replace("; repeat from *", ", rep from *"),
    "no commas": lambda text: text.replace(", ", " "),
    "full stops for commas": lambda text: text.replace(", ", ". "),
    "and for commas": lambda text: text.replace(", ", " and "),
    "times as a sign": lambda text: re.sub(r"\] (\d+) times", r"] x \1", text),
    "stitches remain": lambda text: re.sub(
        r"to last (\d+) stitches", r"until \1 sts remain", text
    ),
    "before the end": lambda text: re.sub(
        r"to last (\d+) stitches", r"to \1 sts before the end of the row", text
    ),
    "the end of the round": lambda text: text.replace("to end", "to the end of the round"),
    "knitters' shorthand": lambda text: text.replace("stitches", "sts").replace("repeat", "rep"),
    "loud": str.upper,
    "a label": lambda text: f"Row 3 (RS): {text}",
    "an ordinal": lambda text: f"3rd row \N{EM DASH} {text}",
    "more times": lambda text: re.sub(r"(\d+) more times", r"another \1 times", text),
}
"""Ways in which the trade writes what we write in one way: common practice, no source."""


@pytest.mark.parametrize("looser", LOOSER.values(), ids=LOOSER)
@given(rows(), st.lists(st.integers(1, 4), min_size=3, max_size=3))
def test_a_row_in_looser_words_is_the_same_row(
    looser: Callable[[str], str], row: Row, values: list[int]
) -> None:
    sizes = {name: (value,) for name, value in zip(NAMES, values, strict=True)}
    fixed = settled(row, sizes)
    fixed = fixed if fixed.parts else row
    sentence = plain(words(fixed, sizes, Terms.US, BOOK))

    try:
        strictly = read(sentence)
    except PatternError:
        return  # a row of nothing, or one the row language does not know either

    assert read(looser(sentence)) == strictly
