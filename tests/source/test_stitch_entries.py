"""Entries of the stitch book: leans, partners and symbols, both sides of the fabric."""

import pytest

from bindoff.source.rowlang.stitches import Craft, Lean, Side, Stitch, cable, standard_book

BOOK = standard_book()
KNITTED = tuple(s for s in BOOK.stitches if s.craft is Craft.KNIT and s.id != "no stitch")
CROSSES = tuple(
    stitch
    for name in (
        *("2/2 rc", "2/1 lpc", "1/3 lc", "3/2 rpc", "2/2 lcw", "2/1 rpcw"),
        *("2/1/2 rc", "2/1/2 lpc", "3/2/1 rpc", "2/1/2 rpcw", "2/2/2 lcw"),
    )
    if (stitch := cable(name))
)
ENTRIES = (*KNITTED, *CROSSES)

# What a wrong-side row works so that the right side shows the stitch. k, p, k tbl, p tbl, yo,
# slips, k2tog, p2tog, p2tog tbl, skp: a magazine's published symbol list (F42 of the project's
# facts). k3tog, p3tog: a learn-to-knit book's table (F44). m1l, m1r: common practice (F50). The
# others: common practice, no source.
BOTH_SIDES = {
    "k": "p",
    "p": "k",
    "k tbl": "p tbl",
    "p tbl": "k tbl",
    "yo": "yo",
    "sl": "sl wyif",
    "sl wyib": "sl wyif",
    "sl wyif": "sl wyib",
    "k2tog": "p2tog",
    "p2tog": "k2tog",
    "p2tog tbl": "k2tog tbl",
    "k2tog tbl": "p2tog tbl",
    "k3tog": "p3tog",
    "p3tog": "k3tog",
    "ssk": "ssp",
    "skp": "ssp",
    "ssp": "ssk",
    "sssk": "sssp",
    "sssp": "sssk",
    "m1l": "m1lp",
    "m1r": "m1rp",
    "m1lp": "m1l",
    "m1rp": "m1r",
    "m1": "m1p",
    "m1p": "m1",
    "kfb": "pfb",
    "pfb": "kfb",
    "kyok": "pyop",
    "cdd": "cddp",
    "s2kp": "cddp",
    "sk2p": "p2tog-pnso",
    "2/2 RC": "2/2 RCW",
    "2/1 LPC": "2/1 LPCW",
    "2/1/2 RPC": "2/1/2 RPCW",
    "sl knitwise": "sl knitwise wyif",
    "sl knitwise wyif": "sl knitwise wyib",
    "mb": "mbw",
    "pb": "pbw",
    "slb": "slbw",
    "kw2": "pw2",
    "kw3": "pw3",
    "edge stitch": "edge stitch",
    "bound off": "bound off",
    "cast-on": "cast-on",
}

# p2tog worked on the right side leans left there and worked on the wrong side leans right, ssp the
# reverse: common practice (F51). A cross held at the back stays a right cross (F35).
LEANS = {
    "k2tog": (Lean.RIGHT, Lean.LEFT),
    "ssk": (Lean.LEFT, Lean.RIGHT),
    "p2tog": (Lean.LEFT, Lean.RIGHT),
    "ssp": (Lean.RIGHT, Lean.LEFT),
    "p3tog": (Lean.LEFT, Lean.RIGHT),
    "sssk": (Lean.LEFT, Lean.RIGHT),
    "k2tog tbl": (Lean.LEFT, Lean.RIGHT),
    "p2tog tbl": (Lean.RIGHT, Lean.LEFT),
    "cdd": (Lean.CENTRED, Lean.CENTRED),
    "2/2 RC": (Lean.RIGHT, Lean.RIGHT),
    "2/2 LC": (Lean.LEFT, Lean.LEFT),
    "k": (None, None),
}


@pytest.mark.parametrize(("id", "partner"), BOTH_SIDES.items())
def test_a_wrong_side_row_works_the_stitch_that_looks_the_same(id: str, partner: str) -> None:
    assert BOOK.showing(BOOK[id], Side.WRONG).id == partner


@pytest.mark.parametrize(("id", "leans"), LEANS.items())
def test_a_lean_depends_on_the_side_that_is_worked(
    id: str, leans: tuple[Lean | None, Lean | None]
) -> None:
    assert tuple(BOOK[id].leans(side) for side in Side) == leans


@pytest.mark.parametrize("stitch", ENTRIES, ids=lambda stitch: stitch.id)
def test_both_forms_of_a_stitch_count_alike_and_lean_alike_on_the_right_side(
    stitch: Stitch,
) -> None:
    on_right, on_wrong = (BOOK.showing(stitch, side) for side in Side)

    for form in (on_right, on_wrong):
        assert (form.consumes, form.produces) == (stitch.consumes, stitch.produces)
    assert on_right.leans(Side.RIGHT) is on_wrong.leans(Side.WRONG)


@pytest.mark.parametrize("stitch", ENTRIES, ids=lambda stitch: stitch.id)
def test_a_mirror_partner_counts_alike_and_leans_the_other_way(stitch: Stitch) -> None:
    image = BOOK.mirrored(stitch)

    assert (image.consumes, image.produces) == (stitch.consumes, stitch.produces)
    if stitch.mirror:
        assert stitch.lean is not None
        assert {stitch.lean, image.lean} == {Lean.LEFT, Lean.RIGHT}


@pytest.mark.parametrize("stitch", ENTRIES, ids=lambda stitch: stitch.id)
def test_a_stitch_that_is_worked_by_itself_has_a_symbol(stitch: Stitch) -> None:
    """Lifting a slipped stitch over another is part of a stitch and has none."""
    assert (stitch.symbol is None) == (stitch.produces < 0)


def test_one_symbol_stands_for_one_look() -> None:
    symbols = {symbol.name: symbol for symbol in BOOK.symbols()}

    assert len(symbols) == len(list(BOOK.symbols()))
    assert len({(s.strokes, s.fills, s.shade) for s in symbols.values()}) == len(symbols)
    assert len({symbol.picture for symbol in symbols.values()}) == len(symbols)
    assert all(symbols)


def test_a_stitch_with_modifiers_is_its_own_entry() -> None:
    for stitch in KNITTED:
        if stitch.base:
            base = BOOK[stitch.base]
            assert BOOK.worked(stitch.base, stitch.how) is stitch
            assert set(stitch.how) <= set(base.takes)
            assert (base.consumes, base.produces) == (stitch.consumes, stitch.produces)
