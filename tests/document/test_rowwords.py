"""How rows are said: house style, both terms, every size's numbers, and spelled out."""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import Span
from bindoff.document.rowwords import Form, settled, words
from bindoff.document.tree import SizeValues, Text, plain
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.read import read_row
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.syntax import NamedNumber, Part, Row, Work
from bindoff.source.rowlang.uses import numbers_used
from bindoff.source.rowlang.vocabulary import PatternNames
from tests.document.row_strategies import (
    CHARTS,
    NAMES,
    STITCH_PATTERNS,
    YARNS,
    rows,
    rows_in_pattern,
)

BOOK = standard_book()


def has_mesh(parts: Sequence[Part]) -> bool:
    """Whether as many chains as are skipped stand side by side: in figures such a row is refused,
    since a reader can't tell whether it counts them as stitches."""
    flat = [("", 0) if not isinstance(p, Work) else (p.stitch, p.times) for p in parts]
    beside = any(
        {one, other} == {"ch", "sk"} and many == others
        for (one, many), (other, others) in pairwise(flat)
    )
    return beside or any(has_mesh(getattr(part, "parts", ())) for part in parts)


def parse(text: str) -> Row:
    return parse_row(text, Span("pattern.yaml", 1, 1, 1, len(text) + 1), BOOK, YARNS)


def said(
    text: str, terms: Terms = Terms.US, form: Form = Form.SHORT, **numbers: tuple[int, ...]
) -> str:
    return plain(words(parse(text), numbers, terms, BOOK, form=form))


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("*k6,k2tog;rep from * to end", "*K6, k2tog; repeat from * to end."),
        ("[k1,p1] to last 2 sts, k2", "*K1, p1; repeat from * to last 2 stitches, k2."),
        ("[k1, p1] 2 times, [k2] 1 time, k1", "[K1, p1] twice, k2, k1."),
        ("[[k1] to marker, sm] 3 times", "[[K1] to marker, sm] 3 times."),
        ("*k1; repeat from * 1 more times", "*K1; repeat from * once more."),
        ("knit", "Knit."),
        ("p all", "Purl."),
        ("k all, pm", "K to end, pm."),
        ("with slate: k to end", "With slate: knit."),
        ("with slate: k2 foam, p2", "With slate: k2 in foam, p2."),
        ("k to last 1", "K to last stitch."),
        ("sl1 wyif pwise, yo 2 times", "Sl1 purlwise wyif, yo twice."),
        ("m1L, mb, 2/2rc, c6f", "M1L, MB, 2/2 RC, 3/3 LC."),
        ("bo all", "Bind off all stitches."),
        ("bo 1, k to last 4, bo all", "Bind off 1 stitch, k to last 4 stitches, bind off to end."),
        ("3/1 lpc, p2", "3/1 LPC, p2."),
        ("(k1,yo,k1) into 1 st", "(K1, yo, k1) in next stitch."),
        ("k to 1 st before m, w&t", "K to 1 stitch before marker, w&t."),
        ("ch 3, 2 dc in next 1 stitch", "Ch 3, 2 dc in next stitch."),
    ],
)
def test_rows_are_said_in_one_house_style(text: str, sentence: str) -> None:
    assert said(text) == sentence


def test_a_number_that_differs_between_sizes_keeps_every_value() -> None:
    inlines = words(
        parse("k{edge}, *k2, p2; repeat from * to last {edge} stitches, p{n}"),
        {"edge": (2, 4, 4), "n": (3, 3, 3)},
        Terms.US,
        BOOK,
    )

    assert inlines == (
        Text("K"),
        SizeValues(("2", "4", "4")),
        Text(", *k2, p2; repeat from * to last "),
        SizeValues(("2", "4", "4")),
        Text(" stitches, p3."),
    )
    assert plain(inlines) == "K2 (4, 4), *k2, p2; repeat from * to last 2 (4, 4) stitches, p3."


@pytest.mark.parametrize(
    ("text", "n", "sentence"),
    [
        ("k{n}, p2", (0, 0), "P2."),
        ("k{n}, p2", (0, 1), "K0 (1), p2."),
        ("[k1, p1] {n} times, k2", (0, 0), "K2."),
        ("[k1, p1] {n} times, k2", (1, 1), "K1, p1, k2."),
        ("[k1, p1] {n} times, k2", (1, 2), "[K1, p1] 1 (2) times, k2."),
        ("[k1, p1] {n} times, k2", (2, 2), "[K1, p1] twice, k2."),
        ("*k1, p1; repeat from * {n} more times", (0, 0), "K1, p1."),
        ("k2, p to last {n} stitches, k{n}", (0, 0), "K2, p to end."),
        ("k to {n} stitches before marker, sm", (0, 0), "K to marker, sm."),
        ("k2, cast on {n}", (0, 0), "K2."),
        ("sc in next {n} stitches, ch 2", (0, 0), "Ch 2."),
        ("k{n}", (0, 0), "K0."),
    ],
)
def test_what_no_size_works_is_not_said(text: str, n: tuple[int, ...], sentence: str) -> None:
    assert said(text, n=n) == sentence


def test_a_number_without_values_prints_as_a_dash() -> None:
    assert said("k{lost}, p1") == "K–, p1."


@pytest.mark.parametrize(
    ("text", "us", "uk"),
    [
        # US and UK words: common practice, no source.
        ("bind off 4, k all", "Bind off 4 stitches, k to end.", "Cast off 4 stitches, k to end."),
        ("cast on 4", "Cast on 4 stitches.", "Cast on 4 stitches."),
        ("sc in each stitch", "Sc in each stitch.", "Dc in each stitch."),
        ("2 hdc in corner, dc in next 2 sts", None, "2 htr in corner, tr in next 2 stitches."),
        ("tr in next chain, sk 2, sc2tog", None, "Dtr in next chain, miss 2, dc2tog."),
        ("ch 1, sl st in first stitch", None, "Ch 1, sl st in first stitch."),
    ],
)
def test_terms_change_the_words(text: str, us: str | None, uk: str) -> None:
    if us is not None:
        assert said(text, Terms.US) == us
    assert said(text, Terms.UK) == uk


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("k2tog, p2, yo", "Knit 2 together, purl 2, yarn over."),
        ("sl1 wyif", "Slip 1 with yarn in front."),
        ("k1 tbl, m1l", "Knit 1 through back loop, make 1 left."),
        (
            "*k6, k2tog; repeat from * to end",
            "Start of repeat, knit 6, knit 2 together, end of repeat, work it to the end.",
        ),
        (
            "[k1, p1] 4 times, w&t",
            "Start of repeat, knit 1, purl 1, end of repeat, work it 4 times, wrap and turn.",
        ),
        ("k to 2 stitches before marker", "Knit to 2 stitches before the marker."),
        ("2 sc in corner", "2 single crochet in the corner."),
        ("2/2 LC, pm", "2 over 2 left cross, place marker."),
    ],
)
def test_the_long_form_has_no_signs_to_stumble_over(text: str, sentence: str) -> None:
    assert said(text, form=Form.LONG) == sentence


def test_yarns_are_called_by_their_printed_names() -> None:
    row = parse("with slate: k2, p2 in foam")

    inlines = words(row, {}, Terms.US, BOOK, yarns={"slate": "Slate (A)"})

    assert plain(inlines) == "With Slate (A): k2, p2 in foam."


@settings(max_examples=100, deadline=None)
@given(rows(), st.lists(st.integers(1, 4), min_size=3, max_size=3))
def test_the_sentence_of_one_size_reads_back_with_its_numbers(row: Row, values: list[int]) -> None:
    sizes = {name: (value,) for name, value in zip(NAMES, values, strict=True)}

    sentence = plain(words(row, sizes, Terms.US, BOOK))

    fixed = settled(row, sizes)
    assume(not has_mesh(fixed.parts))
    assert parse(sentence) == fixed
    assert not numbers_used(parse(sentence))
    assert plain(words(parse(sentence), {}, Terms.US, BOOK)) == sentence


@settings(max_examples=60, deadline=None)
@given(rows_in_pattern(), st.lists(st.integers(1, 4), min_size=3, max_size=3))
def test_what_is_worked_in_pattern_reads_back(row: Row, values: list[int]) -> None:
    sizes = {name: (value,) for name, value in zip(NAMES, values, strict=True)}
    names = PatternNames(STITCH_PATTERNS, CHARTS)

    sentence = plain(words(row, sizes, Terms.US, BOOK))

    place = Span("pattern.yaml", 1, 1, 1, len(sentence) + 1)
    fixed = settled(row, sizes)
    assume(not has_mesh(fixed.parts))
    read = [
        read_row(text, place, BOOK, YARNS, patterns=names)
        for text in (sentence, f"Next row: {sentence}", sentence.replace("in pattern", "in patt"))
    ]
    assert read == [fixed] * 3


@settings(max_examples=40, deadline=None)
@given(rows())
def test_every_form_and_term_can_be_said_with_all_sizes(row: Row) -> None:
    sizes = dict.fromkeys(NAMES, (3, 5))
    differing = sum(isinstance(count, NamedNumber) for count in numbers_used(row))

    for terms in Terms:
        for form in Form:
            inlines = words(row, sizes, terms, BOOK, form=form)
            assert sum(isinstance(node, SizeValues) for node in inlines) == differing
            assert plain(inlines).endswith(".")
            if form is Form.LONG:
                assert "*" not in plain(inlines)
                assert "[" not in plain(inlines)
