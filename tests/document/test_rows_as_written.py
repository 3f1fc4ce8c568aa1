"""Rows as knitters write them: whatever the form, the row is the one that was meant."""

import re
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import PatternError, Span
from bindoff.document.rowwords import settled, words
from bindoff.document.tree import plain
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.read import Words, read_row
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Row, Work
from bindoff.source.rowlang.vocabulary import NO_NAMES
from tests.bench.rows import RIB, RIGHT, ROWS, Printed, outcome, printed_rows
from tests.document.row_strategies import NAMES, YARNS, rows

BOOK = standard_book()


def read(text: str, sizes: int = 1, terms: Terms = Terms.US, style: Words = Words.MODERN) -> Row:
    span = Span("pattern.yaml", 1, 1, 1, len(text) + 1)
    return read_row(text, span, standard_book(terms), YARNS, sizes=sizes, words=style)


# ---------------------------------------------------------------- the same row in other words

LOOSER: dict[str, Callable[[str], str]] = {
    "a second star": lambda text: text.replace("; repeat from * ", "* "),
    "two stars named": lambda text: text.replace("; repeat from *", "*, rep from * to *"),
    "commas for semicolons": lambda text: text.replace("; repeat from *", ", rep from *"),
    # A turning chain is a phrase of its own, which nobody writes without a comma.
    "no commas": lambda text: re.sub(r", (?!ch \d)", " ", text),
    "full stops for commas": lambda text: text.replace(", ", ". "),
    "and for commas": lambda text: text.replace(", ", " and "),
    "times as a sign": lambda text: re.sub(r"\] (\d+) times", r"] x \1", text),
    "stitches remain": lambda text: re.sub(r"to last (\d+) stitches", r"until \1 sts remain", text),
    "before the end": lambda text: re.sub(
        r"to last (\d+) stitches", r"to \1 sts before the end of the row", text
    ),
    "the end of the round": lambda text: text.replace("to end", "to the end of the round"),
    "knitters' shorthand": lambda text: text.replace("stitches", "sts").replace("repeat", "rep"),
    "loud": str.upper,
    "a label": lambda text: f"Row 3 (RS): {text}",
    "an ordinal": lambda text: f"3rd row \N{EM DASH} {text}",
    "the last marker": lambda text: text.replace("last marker", "the last mk"),
    "the gap": lambda text: re.sub(
        r"to (\d+) stitch(es)? before gap", r"to within \1 sts of the last turning point", text
    ),
    "beyond it": lambda text: text.replace("past last turn", "beyond the next gap"),
    "yarn to the front and back": lambda text: re.sub(
        r"\b(sl\d*) wyif\b", r"yf, \1 pwise, yb", text
    ),
    "yarn to the back and front": lambda text: re.sub(
        r"\b(sl\d*) wyib\b", r"bring yarn to back, \1, bring yarn to front", text
    ),
    "more times": lambda text: re.sub(r"(\d+) more times", r"another \1 times", text),
}
"""Ways in which the trade writes what we write in one way: common practice, no source."""


@pytest.mark.parametrize("looser", LOOSER.values(), ids=LOOSER)
@settings(max_examples=40, deadline=None)
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


@pytest.mark.parametrize("looser", LOOSER.values(), ids=LOOSER)
@settings(max_examples=15, deadline=None)
@given(rows())
def test_every_part_keeps_the_place_where_it_is_written(
    looser: Callable[[str], str], row: Row
) -> None:
    """Parts stand in order, inside the text, and a stitch stands where its word is."""
    text = looser(plain(words(row, dict.fromkeys(NAMES, (2,)), Terms.US, BOOK)))
    try:
        found = read(text)
    except PatternError:
        return

    end = 0
    for part in found.parts:
        assert part.span is not None
        assert end <= part.span.column - 1 < part.span.end_column - 1 <= len(text)
        end = part.span.column - 1
        if isinstance(part, Work) and part.stitch in ("k", "p"):
            assert text[part.span.column - 1].lower() == part.stitch


CORPUS = [
    (printed, why)
    for printed in printed_rows(ROWS)
    for what, why in [outcome(printed, strictly=False)]
    if what == RIGHT and why and printed.style != "old"
]


@pytest.mark.parametrize(("printed", "made"), CORPUS, ids=lambda value: str(value)[-40:])
def test_what_is_made_of_a_printed_row_is_our_own_form(printed: Printed, made: str) -> None:
    """It is read strictly, as the same row; and so is what is printed of it."""
    terms, sizes = Terms(printed.terms), len(printed.before)
    place = Span("pattern.yaml", 1, 1, 1, 400)
    book = standard_book(terms)
    names = RIB.names if printed.kind == "pattern" else NO_NAMES

    strictly = parse_row(made, place, book, patterns=names)
    said = plain(words(strictly, {}, terms, book))

    assert read_row(printed.row, place, book, sizes=sizes, patterns=names) == strictly
    if sizes == 1:
        assert read_row(said, place, book, sizes=sizes, patterns=names) == strictly


# ---------------------------------------------------------------- what is meant by each


@pytest.mark.parametrize(
    ("text", "ours"),
    [
        ("*K2, P1; rep from * around, ending with k2", "*k2, p1; repeat from * to last 2 sts, k2"),
        ("*K4, p1; rep from *, ending k3.", "*k4, p1; repeat from * to last 3 stitches, k3"),
        ("*k2, p2; rep from * 3 times in total, k2", "[k2, p2] 3 times, k2"),
        ("K10. SSK. Knit to end.", "k10, ssk, k to end"),
        ("k5 [yo, k2tog] 5x k to end", "k5, [yo, k2tog] 5 times, k to end"),
        ("k2tog4x, p to end", "k2tog 4 times, p to end"),
        ("k1p1 rib to end", "[k1, p1] to end"),
        ("slip slip knit, K TO END", "ssk, k to end"),
        ("sl 2 tog knitwise, k1, p2sso, k to end", "s2kp, k to end"),
        ("knit thirty-six, purl two together through back loops", "k36, p2tog tbl"),
        ("knit into front and back of each stitch", "kfb to end"),
        ("Knit to first marker, sl marker, p to 2nd marker", "k to marker, sm, p to marker"),
        ("k14, slip next 12 sts onto a stitch holder, k14", "k14, hold 12 stitches, k14"),
        ("Row 3 (dec row, RS): K1, ssk, k1. 3 sts remain.", "k1, ssk, k1"),
        ("Using slate, k2 and turn", "with slate: k2, turn"),
        ("Sc in each of next 3 sts, inc, dec", "sc in next 3 stitches, 2 sc in next st, sc2tog"),
        ("1 sc in each st around; join.", "sc in each stitch, sl st in first stitch"),
        ("T3F, t2b", "2/1 lpc, 1/1 rpc"),
        ("k2, *p2, k2; work from * 3 times more", "k2, *p2, k2; repeat from * 3 more times"),
        ("Purl up to the last marker, slm, k to 1 st short of the gap, turn",
         "p to last marker, sm, k to 1 stitch before gap, turn"),
        ("*K2, p2* until 3 sts before the wrapped st, turn",
         "*k2, p2; repeat from * to 3 stitches before gap, turn"),
        ("Ch 3 (counts as 1 dc), 2 dc in same st, dc in each st around, join with sl st in top of "
         "beg ch-3", "ch 3 as dc, 2 dc in same stitch, dc in each stitch, sl st in first stitch"),
        ("3 dc in each ch-2 sp around", "3 dc in each chain space"),
        ("*(2 dc, ch 1, 2 dc) into next st, miss 3 sts; rep from * to end",
         "*(2 dc, ch 1, 2 dc) in next stitch, skip 3; repeat from * to end"),
    ],
)  # fmt: skip
def test_a_row_in_the_trades_words_is_read(text: str, ours: str) -> None:
    assert read(text) == read(ours)


@pytest.mark.parametrize(
    ("text", "id"),
    [
        ("k1, work in pattern to last st, k1", "row.in-pattern"),
        ("rib to end", "row.in-pattern"),
        ("knit, removing markers as you go", "row.removing"),
        ("*k2, p2*, k1", "row.open-repeat"),
        ("*k2, p2*, repeat last 5 stitches, k5", "row.open-repeat"),
        ("*k2, p2; rep from *, work to end", "row.in-pattern"),
        ("*k2, p2, rep from * 3 times", "row.times"),
        ("inc in each st", "row.unclear-word"),
        ("k1b, k to end", "row.unclear-word"),
        ("make 1, narrow, k to end", "row.unknown-stitch"),
        ("dc in next st (first 3 ch counts as dc)", "row.turning-chain"),
        ("*1 sc, ch 1, sk 1* around", "row.chain-count"),
        ("*sc in next stitch, ch 1, sk 1; repeat from * to end", "row.chain-count"),
        ("k10 (11, 12), p to end", "row.sizes"),
        ("k{10, 11}, p to end", "row.sizes"),
        ("k5 (edge and spine), k to end", "row.unknown-stitch"),
    ],
)
def test_what_could_be_two_fabrics_or_counts_is_refused(text: str, id: str) -> None:
    with pytest.raises(PatternError) as caught:
        read(text)

    assert caught.value.findings[0].id == id


def test_figures_for_the_sizes_are_read_and_printed_for_each() -> None:
    row = read("K10 (11: 12), pm, knit to last 2 [0, 4] sts, p2 (0) (4)", sizes=3)

    assert row == read("k{10, 11, 12}, pm, k to last {2, 0, 4} stitches, p{2, 0, 4}", sizes=3)
    said = plain(words(row, {}, Terms.US, BOOK))
    assert said == "K10 (11, 12), pm, k to last 2 (0, 4) stitches, p2 (0, 4)."
    assert read(said, sizes=3) == row


def test_old_words_mean_what_they_meant() -> None:
    old = read("Slip 1, seam 2, make 1, n, o, plain to end", style=Words.OLD)

    assert old == read("sl1, p2, yo, k2tog, yo, k to end")
    assert read("k1, make 1, k to end") == read("k1, m1, k to end")


def test_a_reading_points_at_the_designers_own_words() -> None:
    text = "Rnd 1: *K2, P2* around, knit two together too. (54 sts)"

    with pytest.raises(PatternError) as caught:
        read(text)

    span = caught.value.findings[0].span
    assert span is not None
    assert text[span.column - 1 : span.end_column - 1] == "too"
    (stated,) = read("Rnd 1: k2tog around. (54 sts)").reading.stated  # type: ignore[union-attr]
    assert (stated.counts, stated.sign) == ((54,), 0)
    assert stated.span is not None
    assert stated.span.column == 23


def test_uk_crochet_is_read_in_its_own_terms() -> None:
    ours = read("dc in each stitch, sl st in first stitch", terms=Terms.UK)

    assert read("1 dc in each st round, join with ss", terms=Terms.UK) == ours
