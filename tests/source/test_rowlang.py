"""The row language: what is read, how the same row may be written, and what is refused."""

import logging
import re
import subprocess
import sys
from dataclasses import replace
from functools import cache
from importlib.resources import files

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lark import Lark

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.plan.rowcount import count_row
from bindoff.source.rowlang.grammar import grammar, parsed
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.sayings import RESERVED
from bindoff.source.rowlang.stitches import Terms, declare, standard_book
from bindoff.source.rowlang.syntax import (
    Alter,
    Base,
    CountChange,
    Fill,
    Group,
    Hooked,
    InCorner,
    InEach,
    InFirst,
    InNext,
    IntoOne,
    Marker,
    MarkerAct,
    MoreTimes,
    NamedNumber,
    Repeat,
    Row,
    ToCorner,
    ToEnd,
    ToLast,
    ToMarker,
    Turn,
    Work,
)
from bindoff.source.rowlang.tree import tree_of
from bindoff.source.rowlang.vocabulary import PHRASES

BOOK = standard_book()
YARNS = ("slate", "Foam")


def place(text: str) -> Span:
    return Span("pattern.yaml", 7, 11, 7, 11 + len(text))


def parse(text: str) -> Row:
    return parse_row(text, place(text), BOOK, YARNS)


def problems(text: str) -> tuple[Diagnostic, ...]:
    with pytest.raises(PatternError) as caught:
        parse(text)
    return caught.value.findings


def row_or_problems(text: str) -> Row | tuple[Diagnostic, ...]:
    try:
        return parse(text)
    except PatternError as error:
        return error.findings


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("k2, p2", (Work("k", 2), Work("p", 2))),
        ("k2tog, ssk, yo", (Work("k2tog"), Work("ssk"), Work("yo"))),
        ("m1l, m1r, kfb", (Work("m1l"), Work("m1r"), Work("kfb"))),
        ("sl1", (Work("sl", 1),)),
        ("sl2 knitwise wyif", (Work("sl", 2, ("knitwise", "wyif")),)),
        ("k{edge}, p3", (Work("k", NamedNumber("edge")), Work("p", 3))),
        ("yo twice, k2tog 3 times", (Work("yo", 2), Work("k2tog", 3))),
        (
            "*k6, k2tog; repeat from * to end",
            (Repeat((Work("k", 6), Work("k2tog")), ToEnd()),),
        ),
        (
            "*k1; repeat from * 3 more times, p1",
            (Repeat((Work("k", 1),), MoreTimes(3)), Work("p", 1)),
        ),
        (
            "k1, *k2, p2; repeat from * to last 3 stitches, k3",
            (Work("k", 1), Repeat((Work("k", 2), Work("p", 2)), ToLast(3)), Work("k", 3)),
        ),
        ("[k1, p1] 4 times", (Group((Work("k", 1), Work("p", 1)), 4),)),
        (
            "[[k1, yo] {n} times, p1] twice",
            (Group((Group((Work("k", 1), Work("yo")), NamedNumber("n")), Work("p", 1)), 2),),
        ),
        ("[k1, p1] to end", (Repeat((Work("k", 1), Work("p", 1)), ToEnd()),)),
        ("k to end", (Fill("k", ToEnd()),)),
        ("k to last 2", (Fill("k", ToLast(2)),)),
        ("p to last stitch", (Fill("p", ToLast(1)),)),
        (
            "k to 2 stitches before marker, k2tog, sm",
            (Fill("k", ToMarker(2)), Work("k2tog"), Marker(MarkerAct.SLIP)),
        ),
        (
            "k to marker, remove marker, pm",
            (Fill("k", ToMarker()), Marker(MarkerAct.REMOVE), Marker(MarkerAct.PLACE)),
        ),
        ("cast on 4, k all", (Alter(CountChange.CAST_ON, 4), Fill("k", ToEnd()))),
        ("bind off 4, k to end", (Alter(CountChange.BIND_OFF, 4), Fill("k", ToEnd()))),
        ("bind off all", (Alter(CountChange.BIND_OFF, ToEnd()),)),
        (
            "hold {sleeve} stitches, hold to marker",
            (Alter(CountChange.HOLD, NamedNumber("sleeve")), Alter(CountChange.HOLD, ToMarker())),
        ),
        ("pick up and knit 12", (Alter(CountChange.PICK_UP, 12),)),
        ("k5, w&t", (Work("k", 5), Turn(wrap=True))),
        ("p to last 3, turn", (Fill("p", ToLast(3)), Turn())),
        ("2/2 RC, 2/1 lpc", (Work("2/2 RC"), Work("2/1 LPC"))),
        ("c4f, C6B", (Work("2/2 LC"), Work("3/3 RC"))),
        (
            "(k1, yo, k1) in next stitch",
            (IntoOne((Work("k", 1), Work("yo"), Work("k", 1))),),
        ),
        ("ch 3, sc in each stitch", (Work("ch", 3), Hooked("sc", InEach()))),
        (
            "*sc in each row end to corner, 2 sc in corner; repeat from * to end",
            (
                Repeat(
                    (
                        Hooked("sc", InEach(Base.ROW_END, ToCorner())),
                        Hooked("sc", InCorner(), 2),
                    ),
                    ToEnd(),
                ),
            ),
        ),
        ("3 hdc in each corner", (Hooked("hdc", InCorner(each=True), 3),)),
        (
            "dc in next 2 chains, sk 1, sl st in first stitch, fasten off",
            (
                Hooked("dc", InNext(2, Base.CHAIN)),
                Work("sk", 1),
                Hooked("sl st", InFirst()),
                Work("fasten off"),
            ),
        ),
        ("k2 slate, p2 in foam", (Work("k", 2, (), "slate"), Work("p", 2, (), "Foam"))),
    ],
)
def test_trade_notation_is_read(text: str, parts: tuple[object, ...]) -> None:
    assert parse(text).parts == parts


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("K2, P2.", "k2, p2"),
        ("  k 2 ,\tp 2\n", "k2, p2"),
        ("knit 2, purl 2", "k2, p2"),
        ("k2 sts; p2 stitches", "k2, p2"),
        ("knit", "k all"),
        ("purl in slate", "p to end in slate"),
        ("k around", "k to end of round"),
        ("(k9, k2tog) 8 times", "[k9, k2tog] 8 times"),
        ("k2 twice", "[k2] 2 times"),
        ("*k1, p1, rep from * across", "*k1, p1; repeat from * to end"),
        ("*k1; repeat from * twice more", "*k1; repeat from * 2 more times"),
        ("k1tbl, ktbl, p2 tbl", "k1 tbl, k1 tbl, p2 tbl"),
        ("sl1 wyib pwise", "sl1 purlwise wyib"),
        ("cast off 3, BO 2, CO 1", "bind off 3, bind off 2, cast on 1"),
        ("skpo, s2kp2, slip 1", "skp, s2kp, sl1"),
        ("place marker, slip marker, slm, rm", "pm, sm, sm, remove marker"),
        ("wrap and turn", "w&t"),
        ("k{ edge }", "k{edge}"),
        ("k to the end", "k to end"),
        ("k to 2 sts before the next marker", "k to 2 stitches before marker"),
        ("(k1, p1) into the same stitch", "(k1, p1) in next stitch"),
        ("(k1, p1) in 1 st", "(k1, p1) in next stitch"),
    ],
)
def test_one_row_may_be_written_in_several_ways(text: str, same: str) -> None:
    assert parse(text) == parse(same)


def test_a_whole_row_takes_its_yarn_from_the_prefix() -> None:
    row = parse("with foam: k2, p2 in slate")

    assert (row.yarn, row.parts) == ("Foam", (Work("k", 2), Work("p", 2, (), "slate")))


@pytest.mark.parametrize(
    ("text", "id", "marked", "message", "help"),
    [
        ("k2 p2", "row.comma", "p2", "without a comma", "Put a comma"),
        ("k2, [p1] 2 times k3", "row.unreadable", "k3", "expected a comma", "Put a comma"),
        ("k2tgo, p2", "row.unknown-stitch", "k2tgo", "not a stitch", "`k2tog`"),
        ("k2, reapeat from *", "row.unknown-stitch", "reapeat", "not a stitch", "`repeat`"),
        ("bind of 3", "row.unknown-stitch", "bind", "not a stitch", "`bind off`"),
        ("yo2", "row.unknown-stitch", "yo2", "not a stitch", "`yo 2 times`"),
        ("k2, zzzz", "row.unknown-stitch", "zzzz", "not a stitch", "Correct it"),
        ("k2 foan", "row.unknown-yarn", "foan", "not a yarn", "`Foam`"),
        ("with sand: k2", "row.unknown-yarn", "sand", "not a yarn", "`slate`"),
        ("slate k2", "row.yarn-place", "slate", "is a yarn", "after the stitch"),
        ("k2, *p1; repeat from *", "row.unreadable", "*", "`to end`", "Write that"),
        ("k2, repeat from * to end", "row.unreadable", "repeat", "a repeat", "Put *"),
        ("*k2, p2", "row.unreadable", "2", "`repeat from *`", "End the repeat"),
        ("[k1, p1", "row.unreadable", "1", "a closing ]", "Close the bracket"),
        ("k1, p1]", "row.unreadable", "]", "the end of the row", "Write that"),
        ("[k1, p1]", "row.unreadable", "]", "`4 times`", "Write that"),
        ("8", "row.unreadable", "8", "says how many", "Write the row"),
        ("k2,", "row.unreadable", ",", "a stitch such as k2 or k2tog", "Write that"),
        ("k to", "row.unreadable", "o", "how far", "Write that"),
        ("2 k", "row.unreadable", "k", "a place", "after a knitting stitch"),
        ("*k1; repeat from * 3 times", "row.times", "3 times", "3 times in all", "more times"),
        ("k, p1", "row.no-number", "k", "no number", "`k1`"),
        ("k0", "row.nought", "k0", "nought", "Leave this out"),
        ("[k1] 10000 times", "row.large", "10000", "over 9999", "smaller"),
        (
            "k1, [[k1] 99 times] 999 times",
            "row.large",
            "[[k1] 99 times] 999 times",
            "9999",
            "small",
        ),
        ("k2tog 3", "row.number", "k2tog 3", "not take a number", "`k2tog 3 times`"),
        ("k2 {n}", "row.number", "k2 {n}", "two numbers", "Keep one"),
        ("k3 to end", "row.number", "k3", "a place to go to", "leave out the number"),
        ("k{a+1}", "row.name", "{a+1}", "not the name of a number", "under `measures:`"),
        (
            "k{a / 2 - 6}, p1",
            "row.name",
            "{a / 2 - 6}",
            "`{a / 2 - 6}` is not the name",
            "under `measures:`",
        ),
        ("k{edge", "row.character", "{", "can't be read", "with }"),
        ("k2 ¶", "row.character", "¶", "can't be read", "Take it out"),
        ("k1 wyif", "row.how", "k1 wyif", "can't be worked", "Take out"),
        ("sl1 wyif wyib", "row.how", "sl1 wyif wyib", "exclude each other", "Keep one"),
        ("k2 in corner", "row.not-crochet", "k2", "in a place", "sc"),
        ("(k2tog) in next stitch", "row.into-one", "(k2tog) in next stitch", "single", "yo"),
        ("(k1) in 2 sts", "row.into-one", "(k1) in 2 sts", "one stitch at a time", "repeat it"),
        ("turn, k2", "row.after-turn", "turn", "before the row's end", "next row"),
        ("[k1, turn] 2 times", "row.after-turn", "turn", "before the row's end", "next row"),
        (
            "[*k1; repeat from * to end] twice",
            "row.star-inside",
            "*k1; repeat from * to end",
            "inside another",
            "brackets",
        ),
        ("  ", "row.empty", "  ", "says nothing", "`k all`"),
    ],
)
def test_a_row_that_cannot_be_read_is_marked_and_explained(
    text: str, id: str, marked: str, message: str, help: str
) -> None:
    (found,) = problems(text)

    assert found.id == id
    assert message in found.message
    assert help in found.help
    assert not found.help[0].islower()
    assert found.span is not None
    start, end = found.span.column - 11, found.span.end_column - 11
    assert text[start:end] == marked


SEQUENCES = [
    # What the trade means by a sequence with a goal: common practice, no source.
    ("k1, p1 around", "*k1, p1; repeat from * to end"),
    ("k1, p1 to end", "*k1, p1; repeat from * to end"),
    ("k1, p 1 across", "*k1, p1; repeat from * to end"),
    ("k2, p2 around", "*k2, p2; repeat from * to end"),
    ("k2, p2tog around", "*k2, p2tog; repeat from * to end"),
    ("yo, k2tog to end", "*yo, k2tog; repeat from * to end"),
    ("k1, kfb around", "*k1, kfb; repeat from * to end"),
    ("[k1, p1] twice, k2tog around", "*[k1, p1] twice, k2tog; repeat from * to end"),
    ("sm, k1, p1 tbl around", "sm, *k1, p1 tbl; repeat from * to end"),
    ("k2, 2/2 rc around", "*k2, 2/2 rc; repeat from * to end"),
    # A bare stitch goes on by itself, and so does the stitch before it.
    ("k1, p to end", "k1, [p1] to end"),
    ("k2, k1 to end", "k2, [k1] to end"),
    ("k1 to end", "[k1] to end"),
    ("cast on 4, k1 to end", "cast on 4, [k1] to end"),
    ("ch 3, sc to end", "ch 3, [sc] to end"),
]


@pytest.mark.parametrize(("text", "same"), SEQUENCES)
@pytest.mark.parametrize("live", [12, 24])
def test_a_sequence_with_a_goal_is_repeated_as_a_whole(text: str, same: str, live: int) -> None:
    markers = (0,) if "sm" in text else ()
    one, other = (count_row(parse(row), live, {}, markers, BOOK) for row in (text, same))

    assert replace(one, repeats=()) == replace(other, repeats=())


def test_a_decrease_round_of_120_stitches_leaves_90() -> None:
    """120 stitches in groups of 4, each losing one."""
    assert count_row(parse("k2, p2tog around"), 120, {}, (), BOOK).live == 90


@pytest.mark.parametrize(
    ("text", "whole", "last"),
    [
        ("k2, p2 to end", "*k2, p2; repeat from * to end", "k2, p to end"),
        ("k1, p1 to last 2, k2", "*k1, p1; repeat from * to last 2, k2", "k1, p to last 2, k2"),
        (
            "k to last 9, k2tog, k1 to end",
            "k to last 9, [k2tog, k1] to end",
            "k to last 9, k2tog, k to end",
        ),
        (
            "k1, ssk to last 3, k3",
            "*k1, ssk; repeat from * to last 3, k3",
            "k1, [ssk] to last 3, k3",
        ),
        (
            "ch 1, sc2tog around",
            "*ch 1, sc2tog; repeat from * to end",
            "ch 1, [sc2tog] to end",
        ),
        (
            "k1, p2 tbl to end in foam",
            "*k1, p2 tbl in foam; repeat from * to end",
            "k1, p tbl to end in foam",
        ),
        ("[k1, p2 to end] twice", "[k1, p2] to end", "k1, p to end"),
    ],
)
def test_a_row_of_two_readings_is_refused_and_both_are_offered(
    text: str, whole: str, last: str
) -> None:
    (found,) = problems(text)

    assert found.id == "row.two-readings"
    assert re.findall("`(.*?)`", found.help) == [whole, last]
    assert parse(whole) != parse(last)


@pytest.mark.parametrize(("text", "bare"), [("k3 to end", "k to end"), ("p{n} to end", "p to end")])
def test_a_number_with_a_goal_is_refused_with_rows_that_can_be_read(text: str, bare: str) -> None:
    (found,) = problems(text)
    offers = re.findall("`(.*?)`", found.help)

    assert (found.id, offers[1]) == ("row.number", bare)
    assert all(parse(offer).parts for offer in offers)


def _readings(text: str) -> int:
    """How many trees the grammar has for a row, by a parser that looks for all of them."""
    tree = _every_reading().parse(text.lower())
    return 1 + sum(1 for _ in tree.find_data("_ambig"))


@cache
def _every_reading() -> Lark:
    text = files("bindoff.source.rowlang").joinpath("rows.lark").read_text(encoding="utf-8")
    return Lark(text, start="row", parser="earley", lexer="basic", ambiguity="explicit")


@pytest.mark.parametrize(
    "text",
    [text for pair in SEQUENCES for text in pair]
    + ["k 2 sts tbl to end in foam", "2 sc in each stitch to corner foam"],
)
def test_a_row_has_one_tree(text: str) -> None:
    assert _readings(text) == 1


# Words of the trade for which another stitch used to be offered; what they mean: common practice,
# no source.
@pytest.mark.parametrize(
    ("word", "id", "said"),
    [
        ("BOR", "row.unclear-word", "beginning of the round"),
        ("dec", "row.unclear-word", "which decrease"),
        ("inc", "row.unclear-word", "which increase"),
        ("k1b", "row.unclear-word", "`k1 below`"),
        ("k2b", "row.unclear-word", "`k1 tbl`"),
        ("wf", "row.unclear-word", "`wyif`"),
        ("yarn", "row.unclear-word", "`yo`"),
        ("nupp", "row.unclear-word", "nupp5 and p5tog"),
        ("and", "row.unclear-word", "a comma"),
        ("two", "row.unclear-word", "in figures"),
        ("k6tog", "row.unknown-stitch", "uses 5 stitches and makes 1"),
        ("ssssk", "row.unknown-stitch", "uses 3 stitches and makes 1"),
    ],
)
def test_no_word_is_taken_for_a_stitch_of_another_count_or_fabric(
    word: str, id: str, said: str
) -> None:
    (found,) = problems(f"k2, {word}")

    assert found.id == id
    assert said in f"{found.message}. {found.help}"
    assert not re.match(r"Write `\w+` if", found.help)


@pytest.mark.parametrize(
    ("word", "stitch", "how"),
    [
        ("sk2po", "sk2p", ()),
        ("s2kpo", "s2kp", ()),
        ("m1lp", "m1lp", ()),
        ("M1RP", "m1rp", ()),
        ("RT", "rt", ()),
        ("p2togtbl", "p2tog", ("tbl",)),
        ("k2togtbl", "k2tog", ("tbl",)),
        ("kbl", "k", ("tbl",)),
        ("k1 below", "k", ("below",)),
        ("k4tog", "k4tog", ()),
        ("sssp", "sssp", ()),
        ("kyok", "kyok", ()),
        ("2/2 LPCW", "2/2 LPCW", ()),
    ],
)
def test_spellings_of_the_trade_are_read(word: str, stitch: str, how: tuple[str, ...]) -> None:
    """Common practice, no source."""
    assert parse(f"k2, {word}").parts[1] == Work(stitch, 1, how)


def test_all_faults_of_a_row_are_reported_at_once() -> None:
    assert [found.id for found in problems("k2tgo, k0, [p, sl1 tbl] 2 times")] == [
        "row.unknown-stitch",
        "row.nought",
        "row.no-number",
        "row.how",
    ]


def test_brackets_too_deep_are_refused_without_exhausting_the_reader() -> None:
    deep = "[" * 500 + "k1" + "] 2 times" * 500

    assert [found.id for found in problems(deep)] == ["row.nested"]


def test_places_come_from_a_function_where_the_text_runs_over_lines() -> None:
    def folded(start: int, end: int) -> Span:
        return Span("pattern.yaml", 3 + start // 4, 1 + start % 4, 3 + end // 4, 1 + end % 4)

    row = parse_row("k2, p2", folded, BOOK)

    assert [part.span for part in row.parts] == [folded(0, 2), folded(4, 6)]


def test_a_row_written_over_several_lines_is_marked_as_a_whole() -> None:
    span = Span("pattern.yaml", 3, 5, 4, 9)

    with pytest.raises(PatternError) as caught:
        parse_row("k2, q2", span, BOOK)

    assert caught.value.findings[0].span == span


def test_a_designers_own_stitch_is_read_like_any_other() -> None:
    own = declare(BOOK, "Wrap3", 3, 3, "wrap three", "Wrap the yarn round the next three.")
    book = BOOK.extended([own])

    row = parse_row("k1, wrap3, wrap3 twice", place("…"), book)

    assert row.parts == (Work("k", 1), Work("wrap3"), Work("wrap3", 2))


@pytest.mark.parametrize(
    ("terms", "text", "stitches"),
    [
        # US sc, hdc, dc, tr are UK dc, htr, tr, dtr: the Craft Yarn Council's chart, from memory.
        (Terms.US, "dc in each stitch", ("dc",)),
        (Terms.UK, "dc in each stitch", ("sc",)),
        (Terms.UK, "htr in next 2 stitches, dc in corner, miss 1", ("hdc", "sc", "sk")),
        (Terms.UK, "tr2tog, dc2tog, qtr, FPtr", ("dc2tog", "sc2tog", "trtr", "fpdc")),
        (Terms.UK, "k2tog, 2/2 RC, sl st in corner", ("k2tog", "2/2 RC", "sl st")),
        # A word that only one side of the sea has can mean but one stitch.
        (Terms.UK, "sc in each stitch", ("sc",)),
        (Terms.US, "htr in each stitch", ("hdc",)),
    ],
)
def test_crochet_is_read_in_the_patterns_terms(
    terms: Terms, text: str, stitches: tuple[str, ...]
) -> None:
    row = parse_row(text, place(text), standard_book(terms))

    assert tuple(part.stitch for part in row.parts) == stitches  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("terms", "text", "right"),
    [
        (Terms.UK, "sc in next 2 stitches, dc in corner", "Write `dc` for `sc`"),
        (Terms.US, "htr in next 2 stitches, dc in corner", "Write `hdc` for `htr`"),
    ],
)
def test_a_row_in_the_words_of_both_sides_is_refused(terms: Terms, text: str, right: str) -> None:
    with pytest.raises(PatternError) as caught:
        parse_row(text, place(text), standard_book(terms))
    (found,) = caught.value.findings

    assert found.id == "row.mixed-terms"
    assert found.message.startswith("`dc` is another stitch")
    assert found.help.startswith(right)


@pytest.mark.parametrize("id", ["m1lp", "sk2po", "kb", "RT", "cddp"])
def test_a_designers_stitch_may_have_a_name_the_trade_is_not_agreed_on(id: str) -> None:
    book = BOOK.extended([declare(BOOK, id, 1, 1, "my own", "How.")])

    assert parse_row(f"k2, {id}", place("…"), book).parts[1] == Work(id.lower())
    assert book[id.lower()].us.name == "my own"
    assert book.find(id) is book[id.lower()]


@pytest.mark.parametrize(
    ("id", "problem"),
    [
        ("k2tog", "row.stitch-taken"),
        ("skpo", "row.stitch-taken"),
        ("C4F", "row.stitch-taken"),
        ("twice", "row.stitch-name"),
        ("my stitch", "row.stitch-name"),
        ("2tog", "row.stitch-name"),
    ],
)
def test_a_designers_stitch_needs_a_name_of_its_own(id: str, problem: str) -> None:
    with pytest.raises(PatternError) as caught:
        declare(BOOK, id, 1, 1, "name", "How.")

    assert caught.value.findings[0].id == problem


def test_a_designers_stitch_must_do_something() -> None:
    with pytest.raises(PatternError, match="uses no stitch"):
        declare(BOOK, "nothing", 0, 0, "nothing", "How.")


@pytest.mark.parametrize(
    "text",
    ["*[k2, (k1, yo) into next st] twice, p2; repeat from * to end", "[k1, [p1] 2 times] 3 times"],
)
def test_parts_are_found_in_the_order_in_which_the_parser_finds_them(text: str) -> None:
    tree, ours = grammar().parse(text), tree_of(parsed(text))
    for data in ("stitch", "work", "group"):
        found = [(node.meta.start_pos, node.meta.end_pos) for node in tree.find_data(data)]
        assert [(node.start, node.end) for node in ours.find(data)] == found


def test_brackets_however_deep_are_a_finding() -> None:
    with pytest.raises(PatternError):
        parse("[" * 500 + "k1" + "] 2 times" * 500)


def test_every_word_of_the_grammar_is_kept_from_stitches() -> None:
    shapes = [
        re.sub(r"\\.|\?", " ", terminal.pattern.value)
        for terminal in grammar().terminals
        if terminal.priority > 0 and terminal.name not in {"NAMED", "CABLE"}
    ]
    words = {word for shape in shapes for word in re.findall(r"[a-z&]+", shape)}

    assert len(words) > 50
    assert words - RESERVED - set(BOOK.by_name) == set()
    assert set(PHRASES) <= RESERVED


def test_the_grammar_never_has_two_readings(caplog: pytest.LogCaptureFixture) -> None:
    text = files("bindoff.source.rowlang").joinpath("rows.lark").read_text(encoding="utf-8")

    with caplog.at_level(logging.DEBUG, logger="lark"):
        Lark(text, start="row", parser="lalr", lexer="basic", debug=True)

    assert [record.message for record in caplog.records] == []


# fmt: off
_SCRAPS = [
    "k", "p", "k2", "yo", "k2tog", "sl1", "wyif", "tbl", "sc", "ch", "slate", "foam", "in",
    "with", "to", "end", "last", "all", "marker", "corner", "each", "next", "repeat", "from",
    "more", "times", "once", "twice", "stitches", "before", "turn", "w&t", "pm", "sm", "hold",
    "bind", "off", "cast", "on", "zz9", "{n}", "{a+b}", "3", "0", "99999", "2/2", "rc", "*",
    "[", "]", "(", ")", ",", ";", ":", ".", "{", "}", "é", "¶",
]
# fmt: on


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(_SCRAPS), min_size=1, max_size=14))
def test_any_text_is_read_or_refused_with_a_place_inside_it(scraps: list[str]) -> None:
    text = " ".join(scraps)

    read = row_or_problems(text)

    if isinstance(read, Row):
        assert read.parts
        return
    assert read
    for found in read:
        assert found.span is not None
        assert 11 <= found.span.column < found.span.end_column <= 11 + len(text)
        assert found.message
        assert found.help


def test_only_the_reader_of_rows_needs_the_parser_library() -> None:
    script = (
        "import sys, bindoff.source.rowlang.stitches, bindoff.source.rowlang.uses\n"
        "sys.exit('lark' in sys.modules)"
    )

    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0
