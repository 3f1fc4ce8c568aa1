"""The stitch book against the trade's lists."""

import pytest

from bindoff.diagnostics import Span
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import (
    Act,
    Craft,
    Lean,
    Stitch,
    StitchBook,
    Terms,
    cable,
    standard_book,
)
from bindoff.source.rowlang.syntax import Row
from bindoff.source.rowlang.uses import abbreviations_used, numbers_used

BOOK = standard_book()

# Craft Yarn Council, master list of knitting abbreviations, from memory.
NAMES = {
    "byo": "backward yarn over",
    "cdd": "centered double decrease",
    "k": "knit",
    "k2tog": "knit 2 together",
    "kfb": "knit front and back",
    "m1l": "make 1 left",
    "m1r": "make 1 right",
    "m1p": "make 1 purlwise",
    "mb": "make bobble",
    "p": "purl",
    "p2tog": "purl 2 together",
    "pfb": "purl front and back",
    "psso": "pass slipped stitch over",
    "skp": "slip 1, knit 1, pass slipped stitch over",
    "sk2p": "slip 1, knit 2 together, pass slipped stitch over",
    "sl": "slip",
    "ssk": "slip, slip, knit",
    "ssp": "slip, slip, purl",
    "sssk": "slip, slip, slip, knit",
    "yo": "yarn over",
}

# Stitches gained by one action, the same list, from memory.
GAINS = {
    "yo": 1,
    "m1": 1,
    "m1l": 1,
    "m1r": 1,
    "m1p": 1,
    "kfb": 1,
    "pfb": 1,
    "byo": 1,
    "k2tog": -1,
    "p2tog": -1,
    "ssk": -1,
    "ssp": -1,
    "skp": -1,
    "k3tog": -2,
    "p3tog": -2,
    "sk2p": -2,
    "s2kp": -2,
    "cdd": -2,
    "sssk": -2,
    "2/2 RC": 0,
    "2/1 LPC": 0,
    "sl": 0,
    "mb": 0,
    "k": 0,
    "p": 0,
}

# Which way a decrease or increase leans: common practice, no source.
LEANS = {
    Lean.RIGHT: ("k2tog", "k3tog", "m1r", "2/2 RC"),
    Lean.LEFT: ("ssk", "skp", "sssk", "sk2p", "m1l", "2/2 LC"),
    Lean.CENTRED: ("s2kp", "cdd"),
}

# US and UK names of crochet stitches: common practice, no source.
CROCHET = {
    "ch": "ch",
    "sl st": "sl st",
    "sc": "dc",
    "hdc": "htr",
    "dc": "tr",
    "tr": "dtr",
    "dtr": "trtr",
    "trtr": "qtr",
    "sk": "miss",
    "fasten off": "fasten off",
}


@pytest.mark.parametrize(("id", "name"), NAMES.items())
def test_abbreviations_stand_for_what_the_trade_says(id: str, name: str) -> None:
    assert BOOK[id].us.name == name


@pytest.mark.parametrize(("id", "gain"), GAINS.items())
def test_a_stitch_changes_the_count_as_the_trade_says(id: str, gain: int) -> None:
    assert BOOK[id].produces - BOOK[id].consumes == gain


@pytest.mark.parametrize(("lean", "ids"), LEANS.items())
def test_shaping_leans_as_the_trade_says(lean: Lean, ids: tuple[str, ...]) -> None:
    assert {BOOK[id].lean for id in ids} == {lean}


@pytest.mark.parametrize(("us", "uk"), CROCHET.items())
def test_crochet_has_a_us_and_a_uk_name(us: str, uk: str) -> None:
    stitch = BOOK[us]

    assert stitch.wording(Terms.US).abbreviation == us
    assert stitch.wording(Terms.UK).abbreviation == uk


def test_no_two_stitches_share_an_abbreviation_in_either_terms_of_a_craft() -> None:
    for terms in Terms:
        for craft in Craft:
            used = [s.wording(terms).abbreviation for s in BOOK.stitches if s.craft is craft]
            assert len(used) == len(set(used))


def test_every_entry_is_explained_in_one_sentence() -> None:
    entries: tuple[Stitch | Act, ...] = (*BOOK.stitches, *BOOK.acts)
    for entry in entries:
        assert entry.how_to.endswith("."), entry.id
        assert entry.how_to.count(". ") == 0, entry.id
        assert entry.us.name, entry.id


def test_every_modifier_a_stitch_takes_is_in_the_book() -> None:
    for stitch in BOOK.stitches:
        assert BOOK.modifiers(stitch.takes) == stitch.takes


@pytest.mark.parametrize(
    ("name", "uses", "lean"),
    [("2/2 rc", 4, Lean.RIGHT), ("3/1lpc", 4, Lean.LEFT), ("c6f", 6, Lean.LEFT)],
)
def test_a_cable_uses_and_leaves_all_its_stitches(name: str, uses: int, lean: Lean) -> None:
    cross = cable(name)

    assert cross is not None
    assert (cross.consumes, cross.produces, cross.lean) == (uses, uses, lean)


@pytest.mark.parametrize("name", ["c5f", "0/2 rc", "rc", "2/2 c"])
def test_what_is_not_a_cable_is_not_read_as_one(name: str) -> None:
    assert cable(name) is None


def test_a_book_refuses_two_entries_of_one_name() -> None:
    with pytest.raises(ValueError, match="k2tog"):
        StitchBook.of((BOOK["k2tog"], BOOK["k2tog"]), ())


def test_a_row_tells_which_stitches_numbers_and_yarns_it_uses() -> None:
    def row(text: str) -> Row:
        return parse_row(text, Span("p", 1, 1, 1, 99), BOOK, ("slate", "foam"))

    rows = [
        row("with slate: k{edge}, [sl1 wyif, 2/2 rc in foam] {n} times, k to last {edge}"),
        row("k to marker, sm, (k1, yo, k1) in next stitch, bind off {off}, w&t"),
        row("2 sc in corner, sc in next {n} stitches"),
    ]

    assert abbreviations_used(rows, BOOK) == (
        "k",
        "sl",
        "yo",
        "sc",
        "2/2 RC",
        "wyif",
        "sm",
        "bind off",
        "w&t",
    )
    assert [number.name for number in numbers_used(rows[0])] == ["edge", "n", "edge"]
    assert [number.name for number in numbers_used(rows[1])] == ["off"]
    assert [number.name for number in numbers_used(rows[2])] == ["n"]


def test_a_brioche_pair_counts_as_one_stitch() -> None:
    """A brioche handbook's published list: the slipped stitch and its yarn over are one."""
    book = standard_book()

    for word in ("sl1yo", "brk", "brp"):
        assert (book.named(word).consumes, book.named(word).produces) == (1, 1)
    assert book.named("brkyobrk").produces == 3
    assert [book.named(word).consumes for word in ("brLsl", "brRsl")] == [3, 3]


def test_the_loops_of_a_nupp_count_until_they_are_worked_together() -> None:
    """Five, seven or nine loops of one stitch, on the needle until the next row: +4, +6, +8."""
    book = standard_book()

    for loops in (5, 7, 9):
        assert book.named(f"nupp{loops}").produces == loops
        assert book.named(f"p{loops}tog").consumes == loops
