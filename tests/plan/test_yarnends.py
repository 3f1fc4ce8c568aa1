"""Where the yarn comes from that closes an edge, and the ends it leaves, in every kind of piece."""

import pytest

from bindoff.document.piecepages import piece_blocks
from bindoff.document.voice import voice_of
from bindoff.plan.yarnends import Supply, loose_ends, supply_of
from tests.document.patterns import said
from tests.small_machine import COWL, STRIP
from tests.small_patterns import changed, plan_of

_JOINED = COWL[COWL.index("      - {join: start") :]
_CRANKED = changed(
    STRIP[: STRIP.index("      - work: k all\n        rounds: 4")],
    ("    worked: flat\n", ""),
    ('  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n', ""),
    ("cast on: 14", "cast on: needles\n        method: waste yarn"),
)
BEGUN = {
    "tube": COWL.removesuffix(_JOINED),
    "cranked": _CRANKED,
    "by hand": changed(_CRANKED, ("    made: machine\n", "")).replace("needles\n ", "22\n "),
}


@pytest.mark.parametrize(
    ("closing", "tube", "cranked", "by_hand"),
    [
        ("bind off: all", Supply.JOINED, Supply.IN_HAND, Supply.IN_HAND),
        ("{bind off: all, by: sewn}", Supply.JOINED, None, Supply.IN_HAND),
        ("{join: start, by: slip stitch}", Supply.JOINED, Supply.JOINED, Supply.IN_HAND),
        ("{join: itself, by: three-needle bind-off}", Supply.JOINED, Supply.JOINED, Supply.IN_HAND),
        ("{join: start, by: grafting}", Supply.TAIL, Supply.TAIL, Supply.TAIL),
        ("{join: itself, by: sewing}", Supply.TAIL, Supply.TAIL, Supply.TAIL),
        ("gather: all", Supply.TAIL, Supply.TAIL, Supply.TAIL),
    ],
)
def test_what_has_neither_tail_nor_yarn_in_hand_names_its_yarn_and_has_two_ends(
    closing: str, tube: Supply | None, cranked: Supply | None, by_hand: Supply | None
) -> None:
    """A tube is off the machine before it is closed; a piece that is cranked is bound off there,
    and cut off before it is joined; what is knitted by hand goes on."""
    for kind, supply in zip(BEGUN, (tube, cranked, by_hand), strict=True):
        if supply is None:
            continue
        plan = plan_of(f"{BEGUN[kind]}      - {closing}\n")
        (piece,) = plan.pieces
        words = said(piece_blocks(voice_of(plan), piece))
        own = 0 if kind == "tube" else 2  # those of its rounds, which a tube's stripes tell

        assert supply_of(piece, piece.steps[-1]) is supply, kind
        assert loose_ends(plan.source, piece, 0) == own + 2 * (supply is Supply.JOINED), kind
        named = "With Slate" in words or "With the crochet hook and Slate" in words
        assert named == (supply is Supply.JOINED or "slip stitch" in closing), kind
        begun = words.replace("leaving a tail of 15 cm", "").replace("Leaving a tail", "")
        assert ("leaving" in begun) == (supply is Supply.TAIL), kind


def test_a_tube_knitted_on_by_hand_is_bound_off_with_the_yarn_in_hand() -> None:
    plan = plan_of(BEGUN["tube"] + "      - {work: k all, rounds: 4}\n      - bind off: all\n")
    (piece,) = plan.pieces

    assert supply_of(piece, piece.steps[-1]) is Supply.IN_HAND
    assert loose_ends(plan.source, piece, 0) == 2
    assert "With Slate, knit 4 rounds." in said(piece_blocks(voice_of(plan), piece))


def test_stitches_taken_up_when_nothing_is_on_the_needles_have_a_yarn_joined() -> None:
    """As at a thumb: the yarn of the hand was cut when its top was closed."""
    head, _, _ = BEGUN["by hand"].partition("      - cast on")
    plan = plan_of(
        f"{head}      - cast on: 22\n      - work: k16, hold 6 stitches\n        rounds: 1\n"
        "      - gather: all\n      - held: 6\n        pick up: 2\n      - work: k all\n"
        "      - gather: all\n"
    )

    assert loose_ends(plan.source, plan.pieces[0], 0) == 4
    assert "Join Slate" in said(piece_blocks(voice_of(plan), plan.pieces[0]))
