"""Stitch arithmetic of rows: worked examples, an independent reckoning, and misfits."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import Span
from bindoff.plan.rowcount import (
    Counted,
    LiveStitches,
    Mismatch,
    RowMismatch,
    Trouble,
    after_row,
    count_row,
)
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import declare, standard_book
from bindoff.source.rowlang.syntax import (
    Fill,
    Group,
    MoreTimes,
    Part,
    Repeat,
    Row,
    ToEnd,
    ToLast,
    Turn,
    Work,
)

BOOK = standard_book()
YARNS = ("slate", "foam")


def row(text: str) -> Row:
    return parse_row(text, Span("pattern.yaml", 1, 1, 1, len(text) + 1), BOOK, YARNS)


def count(text: str, live: int, markers: tuple[int, ...] = (), **numbers: int) -> Counted:
    return count_row(row(text), live, numbers, markers, BOOK)


def misfit(text: str, live: int, markers: tuple[int, ...] = (), /, **numbers: int) -> Mismatch:
    with pytest.raises(RowMismatch) as caught:
        count(text, live, markers, **numbers)
    return caught.value.figures


# ---------------------------------------------------------------- worked examples


@pytest.mark.parametrize(
    ("text", "live", "after"),
    [
        # A published lace yoke, two increase rows: common practice, no source.
        ("k5, (M1, k1, M1, k2) to last 7, M1, k1, M1, k6", 75, 119),
        ("k5, (M1, k3, M1, k4, M1, k4) to last 15, M1, k3, M1, k4, M1, k8", 119, 149),
        # 10 increases in a round of 100 fall on every 10th stitch: common practice, no source.
        ("*k10, m1; repeat from * to end", 100, 110),
        # 11 increases in a round of 100: every 9th ten times, every 10th once.
        ("[k9, m1] 10 times, k10, m1", 100, 111),
        # 6 increases in 48 stitches, 6 groups of 8: common practice, no source.
        ("[k8, m1] 6 times", 48, 54),
        # 12 increases in a row of 48: 2, then 4 eleven times, then 2.
        ("k2, m1, [k4, m1] 11 times, k2", 48, 60),
        # 17 decreases in a row of 55: every 4th four times, every 3rd thirteen times.
        ("[k2, k2tog] 4 times, [k1, k2tog] 13 times", 55, 38),
    ],
)
def test_published_rows_come_out_at_the_published_count(text: str, live: int, after: int) -> None:
    assert count(text, live).live == after


def test_a_raglan_sleeve_narrows_from_forty_to_six() -> None:
    """2 bound off at each side, then 15 decreases at each side: common practice, no source."""
    live = 40
    for text in ["bind off 2, k to end", *["ssk, k to last 2, k2tog"] * 15]:
        live = count(text, live).live
        if text.startswith("bind"):
            live = count("bind off 2, p to end", live).live

    assert live == 6


def test_a_published_crown_closes_to_eight_stitches() -> None:
    """88 stitches, (k9, k2tog), (k8, k2tog) … (k2tog): common practice, no source."""
    live, counts = 88, []
    for plain in range(9, -1, -1):
        knit = f"k{plain}, " if plain else ""
        live = count(f"*{knit}k2tog; repeat from * to end", live).live
        counts.append(live)

    assert counts == [80, 72, 64, 56, 48, 40, 32, 24, 16, 8]


# Stitches gained by one action: Craft Yarn Council's list of abbreviations, from memory.
@pytest.mark.parametrize(
    ("text", "uses", "gain"),
    [
        ("yo", 0, 1),
        ("m1l", 0, 1),
        ("kfb", 1, 1),
        ("k2tog", 2, -1),
        ("ssp", 2, -1),
        ("k3tog", 3, -2),
        ("s2kp", 3, -2),
        ("sl1 knitwise, k2tog, psso", 3, -2),
        ("sl2 knitwise, k1, p2sso", 3, -2),
        ("sl1, k1, psso", 2, -1),
        ("2/2 RC", 4, 0),
        ("3/1 LPC", 4, 0),
        ("sl3 wyif", 3, 0),
        ("MB", 1, 0),
        ("bind off 5", 5, -5),
        ("cast on 5", 0, 5),
        ("hold 5", 5, -5),
        ("pick up and knit 5", 0, 5),
        ("(k1, yo, k1) in next stitch", 1, 2),
        ("(k1, p1) in next stitch", 1, 1),
        ("[yo, k2tog] 3 times", 6, 0),
        ("kfb 3 times", 3, 3),
        ("sk 2", 2, -2),
        ("sc2tog", 2, -1),
        ("2 sc in next stitch", 1, 1),
        ("3 dc in next 2 stitches", 2, 4),
        ("ch 3", 0, 0),
        ("sl st in first stitch", 0, 0),
        ("[2 sc in next stitch] 4 times", 4, 4),
        ("[bind off 2, k1] 3 times", 9, -6),
        ("[cast on 2, k1] 3 times", 3, 6),
        ("[hold 1, k1] 3 times", 6, -3),
        ("[pick up and knit 2, k1] 3 times", 3, 6),
    ],
)
def test_an_action_uses_and_leaves_what_the_trade_says(text: str, uses: int, gain: int) -> None:
    counted = count(text, uses)

    assert (counted.consumed, counted.live - uses) == (uses, gain)


def test_each_size_is_counted_with_its_own_numbers() -> None:
    text = "k{edge}, *k2, p2; repeat from * to last {edge} stitches, [k1] {edge} times"

    counted = [count(text, 40 + 2 * edge, edge=edge) for edge in (0, 3, 7)]

    assert [each.live for each in counted] == [40, 46, 54]
    assert [each.repeats for each in counted] == [(10,), (10,), (10,)]


def test_a_designers_stitch_counts_as_declared() -> None:
    shell = declare(BOOK, "shell", 3, 5, "shell", "Work five into three.")
    book = BOOK.extended([shell])
    text = "k1, *shell; repeat from * to last stitch, k1"
    shells = parse_row(text, Span("p", 1, 1, 1, 50), book)

    assert count_row(shells, 20, {}, (), book).live == 32


# ---------------------------------------------------------------- an independent reckoning

_SIMPLE = st.sampled_from(["k", "p", "k2tog", "ssk", "yo", "kfb", "s2kp", "m1l"])


def _works(draw: st.DrawFn) -> tuple[Part, ...]:
    ids = draw(st.lists(_SIMPLE, min_size=1, max_size=4))
    return tuple(Work(id, draw(st.integers(1, 3)) if id in "kp" else 1) for id in ids)


@st.composite
def _fixed_rows(draw: st.DrawFn) -> tuple[Part, ...]:
    parts: list[Part] = []
    for _ in range(draw(st.integers(1, 3))):
        inner = _works(draw)
        if draw(st.booleans()):
            inner = (*inner, Group(_works(draw), draw(st.integers(1, 3))))
        times = draw(st.integers(0, 3))
        parts.append(
            Group(inner, times) if draw(st.booleans()) else Repeat(inner, MoreTimes(times))
        )
    return tuple(parts)


def _one_by_one(parts: tuple[Part, ...]) -> list[str]:
    """Every stitch of ``parts``, worked one after the other."""
    done: list[str] = []
    for part in parts:
        match part:
            case Work(id, int(times)):
                done += [id] * times
            case Group(inner, int(times)):
                for _ in range(times):
                    done += _one_by_one(inner)
            case Repeat(inner, MoreTimes(int(more))):
                for _ in range(more + 1):
                    done += _one_by_one(inner)
    return done


# Stitches used and left, as above, from memory.
_CHANGE = {
    "k": (1, 1),
    "p": (1, 1),
    "k2tog": (2, 1),
    "ssk": (2, 1),
    "yo": (0, 1),
    "kfb": (1, 2),
    "s2kp": (3, 1),
    "m1l": (0, 1),
}


def _walk(ids: list[str], markers: tuple[int, ...]) -> tuple[int, int, tuple[int, ...]] | None:
    """Stitches used and left and new marker places, or ``None`` if a stitch straddles a marker."""
    used = left = 0
    waiting, moved = list(markers), []
    for id in ids:
        uses, leaves = _CHANGE[id]
        while uses and waiting and waiting[0] < used + uses:
            if waiting.pop(0) != used:
                return None
            moved.append(left)
        used, left = used + uses, left + leaves
    return used, left, (*moved, *(left for _ in waiting))


@settings(deadline=None)
@given(_fixed_rows(), st.data())
def test_a_row_counts_as_working_it_stitch_by_stitch_does(
    parts: tuple[Part, ...], data: st.DataObject
) -> None:
    ids = _one_by_one(parts)
    live = sum(_CHANGE[id][0] for id in ids)
    markers = tuple(sorted(data.draw(st.lists(st.integers(0, live), max_size=3))))
    by_hand = _walk(ids, markers)

    if by_hand is None:
        with pytest.raises(RowMismatch, match="across marker"):
            count_row(Row(parts), live, {}, markers, BOOK)
        return
    counted = count_row(Row(parts), live, {}, markers, BOOK)
    assert (counted.consumed, counted.produced, counted.markers) == by_hand


@settings(deadline=None)
@given(_fixed_rows(), st.integers(0, 5), st.integers(0, 5), st.integers(1, 90))
def test_a_repeat_to_a_place_fits_only_where_it_divides(
    parts: tuple[Part, ...], before: int, after: int, live: int
) -> None:
    unit = sum(_CHANGE[id][0] for id in _one_by_one(parts))
    edges = [Work("k", count) for count in (before, after) if count]
    first, last = ((edges[0],) if before else ()), ((edges[-1],) if after else ())
    whole = Row((*first, Repeat(parts, ToLast(after) if after else ToEnd()), *last))
    room = live - before - after

    if unit and room > 0 and room % unit == 0:
        assert count_row(whole, live, {}, (), BOOK).repeats[0] == room // unit
        return
    with pytest.raises(RowMismatch) as caught:
        count_row(whole, live, {}, (), BOOK)
    figures = caught.value.figures
    fitting = [n for n in range(1, 5000) if unit and n > before + after]
    fitting = [n for n in fitting if (n - before - after) % unit == 0]
    below, above = [n for n in fitting if n < live], [n for n in fitting if n > live]
    if figures.trouble is not Trouble.ENDLESS:
        assert figures.nearest == (*below[-1:], *above[:1])


# ---------------------------------------------------------------- rows that do not fit


@pytest.mark.parametrize(
    ("text", "live", "figures"),
    [
        (
            "*k9, k2tog; repeat from * to end",
            90,
            (Trouble.LEFT_OVER, 88, 11, 2, (88, 99)),
        ),
        (
            "k3, *k2, p2; repeat from * to last 3 stitches, k3",
            44,
            (Trouble.LEFT_OVER, 42, 4, 2, (42, 46)),
        ),
        ("k2tog to end", 7, (Trouble.LEFT_OVER, 6, 2, 1, (6, 8))),
        ("*k2, pm, k1; repeat from * to end", 10, (Trouble.LEFT_OVER, 9, 3, 1, (9, 12))),
        (
            "k4, *k2, pm, k3; repeat from * to last 2, k2",
            24,  # 18 for the repeat, 3 too many; 4 + 15 + 2 and 4 + 20 + 2 fit
            (Trouble.LEFT_OVER, 21, 5, 3, (21, 26)),
        ),
        ("k2, *k3, p1; repeat from * to last 2, k2", 4, (Trouble.NO_ROOM, 2, 4, 0, (8,))),
        ("k4, *k2, pm, k1; repeat from * to end", 4, (Trouble.NO_ROOM, 4, 0, 0, (7,))),
        ("*[k5] 4 times; repeat from * to end", 12, (Trouble.LEFT_OVER, 0, 20, 12, (20,))),
        ("k12, k to end", 10, (Trouble.TOO_MANY, 12, 0, 0, (12,))),
        ("k1", 5, (Trouble.TOO_FEW, 1, 0, 4, (1,))),
        ("yo", 5, (Trouble.TOO_FEW, 0, 0, 5, ())),  # no row is worked over nothing
        ("k12", 10, (Trouble.TOO_MANY, 12, 0, 0, (12,))),
        ("k150", 10, (Trouble.TOO_MANY, 150, 0, 0, (150,))),
        ("k8, k1", 10, (Trouble.TOO_FEW, 9, 0, 1, (9,))),
        ("k to last 2, k3", 10, (Trouble.TOO_MANY, 11, 0, 0, ())),
        ("k6, k to last 6, k6", 10, (Trouble.TOO_MANY, 12, 0, 0, (12,))),
        ("k6, bind off to last 6, k6", 10, (Trouble.TOO_MANY, 12, 0, 0, (12,))),
        ("yo to end", 5, (Trouble.ENDLESS, 0, 0, 0, ())),
        ("*m1l, yo; repeat from * to end", 5, (Trouble.ENDLESS, 0, 0, 0, ())),
    ],
)
def test_a_row_that_does_not_fit_says_by_how_much_and_what_would(
    text: str, live: int, figures: tuple[object, ...]
) -> None:
    found = misfit(text, live)

    assert (found.live, found.number) == (live, "")
    assert figures == (found.trouble, found.used, found.unit, found.left_over, found.nearest)


def test_the_part_that_runs_over_is_named() -> None:
    part = misfit("k4, p4, ssk, k1", 9).part

    assert part == Work("ssk")
    assert part.span == Span("pattern.yaml", 1, 9, 1, 12)


@pytest.mark.parametrize(
    ("text", "markers", "part"),
    [
        ("k2, [yo] to end", (), "[yo] to end"),
        ("yo to end", (), "yo to end"),
        ("k1, [k2tog] to end", (), "[k2tog] to end"),
        ("k2, *yo; repeat from * to end", (), "*yo; repeat from * to end"),
        ("k2, *pm; repeat from * to end", (), "*pm; repeat from * to end"),
        ("*k2, pm, k3; repeat from * to end", (), "*k2, pm, k3; repeat from * to end"),
        ("k12, *k1; repeat from * to end", (), "*k1; repeat from * to end"),
        ("*k5; repeat from * to end", (), "*k5; repeat from * to end"),
        ("k12, p1, k1", (), "p1"),
        ("k3, sm, k to end", (4,), "sm"),
        ("k3, k to marker, k to end", (2,), "k to marker"),
        ("k3, k to marker, k to end", (), "k to marker"),
        ("k1, k to last 13 stitches, k to end", (), "k to last 13 stitches"),
        ("k3, k2tog, k to end", (4,), "k2tog"),
        ("k2, sc in corner, k to end", (), "sc in corner"),
        ("k3, *k1, p1; repeat from * to marker, k5", (), "*k1, p1; repeat from * to marker"),
        (
            "k3, k to 2 stitches before marker, k to end",
            (4,),
            "k to 2 stitches before marker",
        ),
        ("k2, sc in each stitch to corner, k to end", (), "sc in each stitch to corner"),
        ("k2, hold to marker, k to end", (), "hold to marker"),
        ("k2, bind off to marker, k to end", (), "bind off to marker"),
    ],
)
def test_the_part_that_can_not_be_worked_is_named(
    text: str, markers: tuple[int, ...], part: str
) -> None:
    found = misfit(text, 12, markers).part

    assert found is not None
    assert found.span is not None
    assert text[found.span.column - 1 : found.span.end_column - 1] == part


@pytest.mark.parametrize(
    ("text", "markers"),
    [
        ("k{n}, k to end", ()),
        ("[k1] {n} times, k to end", ()),
        ("*k1; repeat from * {n} more times, k to end", ()),
        ("k to last {n}, k2tog", ()),
        ("k to {n} stitches before marker, k2tog, k to end", (6,)),
        ("(k{n}, yo) in next stitch, k to end", ()),
        ("{n} sc in next stitch, k to end", ()),
        ("2 sc in next {n} stitches, k to end", ()),
        ("bind off {n}, k to end", ()),
        ("hold {n}, k to end", ()),
        ("cast on {n}, k to end", ()),
        ("pick up and knit {n}, k to end", ()),
    ],
)
def test_a_computed_number_stands_wherever_a_written_one_does(
    text: str, markers: tuple[int, ...]
) -> None:
    unknown = misfit(text, 12, markers)

    assert count(text, 12, markers, n=2) == count(text.replace("{n}", "2"), 12, markers)
    assert (unknown.trouble, unknown.number) == (Trouble.UNKNOWN_NUMBER, "n")
    assert unknown.part is not None
    assert unknown.part.span is not None
    assert "{n}" in text[unknown.part.span.column - 1 : unknown.part.span.end_column - 1]


@pytest.mark.parametrize(
    ("text", "numbers", "trouble"),
    [
        ("k{edge}", {}, Trouble.UNKNOWN_NUMBER),
        ("*k2; repeat from * to last {edge}, k1", {"edge": -1}, Trouble.NEGATIVE_NUMBER),
        ("[k{edge}] 2 times", {"edge": -3}, Trouble.NEGATIVE_NUMBER),
    ],
)
def test_a_number_must_be_known_and_not_below_nought(
    text: str, numbers: dict[str, int], trouble: Trouble
) -> None:
    found = misfit(text, 20, **numbers)

    assert (found.trouble, found.number) == (trouble, "edge")


@pytest.mark.parametrize(
    ("text", "markers", "trouble"),
    [
        ("k to marker, sm, k to end", (), Trouble.NO_MARKER),
        ("k3, sm, k to end", (4,), Trouble.NO_MARKER),
        ("remove marker, k to end", (4,), Trouble.NO_MARKER),
        ("k to marker, sm, k to marker", (4,), Trouble.NO_MARKER),
        ("k3, k to 2 stitches before marker, k2tog, k to end", (4,), Trouble.PAST_MARKER),
        ("k3, k2tog, k to end", (4,), Trouble.ACROSS_MARKER),
        ("*k2, k2tog; repeat from * to end", (3,), Trouble.ACROSS_MARKER),
        ("*pm; repeat from * to end", (), Trouble.ENDLESS),
        ("2 sc in corner, sc in each stitch", (4,), Trouble.NO_MARKER),
        ("sc in each stitch, 2 sc in each corner", (), Trouble.NO_MARKER),
        (
            "sc in each stitch to corner, sc in corner, sc in next stitch, sc in corner, sc to end",
            (4,),
            Trouble.NO_MARKER,
        ),
    ],
)
def test_a_marker_must_be_where_the_row_says(
    text: str, markers: tuple[int, ...], trouble: Trouble
) -> None:
    assert misfit(text, 12, markers).trouble is trouble


def test_of_two_repeats_the_first_that_does_not_fit_is_told_before_a_number_of_the_second() -> None:
    found = misfit("*k4; repeat from * to marker, sm, *k{edge}; repeat from * to end", 12, (6,))

    assert (found.trouble, found.unit, found.left_over) == (Trouble.LEFT_OVER, 4, 2)
    assert found.nearest == ()


def test_a_turn_inside_a_group_is_no_row() -> None:
    """The grammar has none; a row built by hand might."""
    with pytest.raises(ValueError, match="only at the end"):
        count_row(Row((Group((Turn(),), 2),)), 4, {}, (), BOOK)


# ---------------------------------------------------------------- markers


def test_markers_move_with_the_stitches_before_them() -> None:
    text = (
        "*k to 3 stitches before marker, k2tog, k1, sm, k1, ssk; repeat from * twice more, k to end"
    )

    counted = count(text, 60, (20, 40, 55))

    assert (counted.live, counted.markers, counted.passed) == (54, (19, 37, 50), 3)


def test_markers_are_placed_and_removed() -> None:
    counted = count("k4, pm, k to marker, remove marker, yo, k to end, pm", 12, (8,))

    assert (counted.live, counted.markers) == (13, (4, 13))


def test_a_marker_passed_without_a_word_is_slipped() -> None:
    counted = count("*k2tog, k1; repeat from * to end", 30, (6, 15, 30))

    assert (counted.live, counted.markers) == (20, (4, 10, 20))
    assert count("kfb 6 times", 6, (2, 5)).markers == (4, 10)


def test_a_repeat_is_counted_from_where_it_begins() -> None:
    """The marker lies in the plain stitches before it, at a place inside its first decrease."""
    assert count("k3, *k1, k2tog; repeat from * to end", 12, (2,)).markers == (2,)


def test_what_is_worked_up_to_a_place_is_worked_out_each_time() -> None:
    held = count("[hold to marker, k1] 2 times, k to end", 12, (4, 9))

    assert (held.held, held.live) == (4 + 4, 4)
    assert count("[(k1, p1) to last 2, k2tog] 1 times", 12).live == 11
    assert count("k4, k to marker, sm, k to end", 12, (4,)).live == 12  # it is there already


def test_what_a_repeat_does_is_done_every_time() -> None:
    assert count("[hold 1, k1] 3 times", 6).held == 3
    assert count("[pick up and knit 2, k1] 3 times", 3).picked_up == 6


def test_the_nearest_count_of_a_very_long_row_is_looked_for_near_by() -> None:
    long = Row((Work("k"),) * 3000)
    for live, nearest in ((2990, (3000,)), (2900, ())):
        with pytest.raises(RowMismatch) as caught:
            count_row(long, live, {}, (), BOOK)
        assert caught.value.figures.nearest == nearest


def test_a_marker_at_the_end_of_a_row_lies_in_the_worked_part() -> None:
    counted = count("k to end", 20, (7, 20))

    assert (counted.markers, counted.passed) == ((7, 20), 2)
    assert after_row(LiveStitches(20), counted, flat=True).left_markers == (0, 13)


def test_a_yoke_divides_into_body_and_sleeves_at_its_markers() -> None:
    """Elizabeth Zimmermann, Knitting Without Tears (1971): of a body of 200, front and back have
    84 each, a sleeve 66 with 16 of them at the underarm, and the yoke 268."""
    side = "k to marker, remove marker, hold to marker, remove marker, cast on {underarm}"

    counted = count(f"{side}, {side}", 268, (84, 134, 218, 268), underarm=16)

    assert (counted.live, counted.held) == (200, 2 * (66 - 16))
    assert counted.markers == ()


def test_markers_among_stitches_taken_off_go_with_them() -> None:
    assert count("k4, bind off 6, k to end", 20, (4, 7, 9, 12)).markers == (4, 6)
    assert count("k4, bind off 6, k to end", 20, (7, 12)).markers == (6,)
    assert count("k4, hold 6, k to end", 20, (4, 4, 10)).markers == (4, 4, 4)


def test_an_edging_turns_every_corner() -> None:
    """A panel of 20 by 10: three stitches in each of four corners add twelve."""
    text = "*sc in each stitch to corner, 3 sc in corner; repeat from * to end"

    counted = count(text, 60, (20, 30, 50, 60))

    assert (counted.live, counted.markers, counted.repeats) == (72, (21, 34, 57, 70), (4,))
    assert counted.loops == (("", 60 + 4 * 3),)
    assert count("sc in each stitch, 3 sc in each corner", 60, (20, 30, 50, 60)) == (
        Counted(60, 72, 72, (21, 34, 57, 70), 4, loops=(("", 72),))
    )


def test_a_round_of_crochet_is_joined_with_one_loop_and_no_stitch() -> None:
    counted = count("sc in each stitch, sl st in first stitch", 12)

    assert (counted.live, counted.loops) == (12, (("", 12 + 1),))


def test_a_corner_lies_in_the_middle_of_its_two_stitches() -> None:
    """Edges of 20, 10, 20 and 10 with two stitches in each corner: one of them on either side."""
    counted = count("sc in each stitch, 2 sc in each corner", 60, (20, 30, 50, 60))

    assert counted.live == 20 + 2 + 10 + 2 + 20 + 2 + 10 + 2
    open_at_the_end = count("sc in each stitch, 2 sc in each corner", 60, (20, 30, 50))
    assert open_at_the_end.live == 60 + 3 * 2
    assert counted.markers == (20 + 1, 22 + 10 + 1, 34 + 20 + 1, 56 + 10 + 1)


# ---------------------------------------------------------------- needles and yarns


def test_a_short_row_leaves_stitches_unworked() -> None:
    counted = count("k to last 5, w&t", 20, (7, 18))

    assert (counted.consumed, counted.unworked, counted.live) == (15, 5, 20)
    assert (counted.turned, counted.markers, counted.passed) == (True, (7, 18), 1)


def test_short_rows_work_back_and_forth_and_then_to_the_end() -> None:
    needle, left = LiveStitches(20), []
    for text in ("k to last 5, w&t", "p to last 5, w&t", "k to end", "p to end"):
        left.append(needle.left)
        needle = after_row(needle, count(text, needle.left, needle.left_markers), flat=True)

    assert left == [20, 15, 15, 20]
    assert needle == LiveStitches(20)


def test_a_marker_keeps_its_stitch_through_flat_and_short_rows() -> None:
    needle, seen = LiveStitches(20, left_markers=(7, 18)), []
    for text in ("k to last 5, turn", "p to end", "k to marker, sm, k to end", "k to end"):
        needle = after_row(needle, count(text, needle.left, needle.left_markers), flat=True)
        seen.append((needle.left_markers, needle.right_markers))

    assert seen == [
        ((8,), (3,)),
        ((7, 18), ()),
        ((2, 13), ()),
        ((7, 18), ()),
    ]


def test_rounds_are_not_turned_unless_the_row_says_so() -> None:
    counted = count("k to marker, m1l, sm, k to end", 20, (8,))

    assert after_row(LiveStitches(20, left_markers=(8,)), counted, flat=False) == (
        LiveStitches(21, left_markers=(9,))
    )


def test_a_round_finished_after_a_short_row_takes_in_the_stitches_behind() -> None:
    needle = LiveStitches(40, left_markers=(10, 38))
    for text in ("k30, turn", "p20, turn", "k to end"):
        counted = count(text, needle.left, needle.left_markers)
        needle = after_row(needle, counted, flat=False)

    assert needle == LiveStitches(
        40, left_markers=(10, 38), left_turns=(10,)
    )  # the second turn's gap


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 40), st.booleans()), max_size=8), st.data())
def test_plain_short_rows_never_lose_a_stitch_or_a_marker(
    rows: list[tuple[int, bool]], data: st.DataObject
) -> None:
    needle = LiveStitches(40, left_markers=data.draw(st.sampled_from([(), (7,), (0, 19, 40)])))
    markers = len(needle.left_markers)
    for stay, flat in rows:
        worked = (Fill("k", ToLast(min(stay, needle.left))),)
        counted = count_row(
            Row((*worked, *row("turn").parts)), needle.left, {}, needle.left_markers, BOOK
        )
        needle = after_row(needle, counted, flat=flat)
        assert needle.left + needle.right == 40
        assert len(needle.left_markers) + len(needle.right_markers) == markers
        assert all(0 <= place <= needle.left for place in needle.left_markers)
        assert all(0 <= place <= needle.right for place in needle.right_markers)


def test_loops_are_counted_for_each_yarn() -> None:
    counted = count("with slate: k2, [k1 foam, sl1, yo] to last 2, k2tog foam", 12)

    assert dict(counted.loops) == {"slate": 2 + 4, "foam": 4 + 1}


def test_stitches_worked_into_one_draw_a_loop_each_of_their_own_yarn() -> None:
    counted = count("with slate: k2, (k1 foam, yo, k2) in next stitch, k3", 6)

    assert counted.live == 2 + 4 + 3
    assert dict(counted.loops) == {"slate": 2 + 3 + 3, "foam": 1}


def test_stitches_picked_up_are_loops_of_the_yarn_of_the_row() -> None:
    counted = count("with foam: pick up and knit 2, k1, pick up and knit 3, k3", 4)

    assert (counted.live, counted.picked_up) == (9, 5)
    assert counted.loops == (("foam", 9),)


def test_chains_are_loops_and_no_stitches() -> None:
    """Two doubles with two chains between, in every third stitch: 4 fans of 4 loops."""
    counted = count("[(dc, ch 2, dc) in next stitch, sk 2] 4 times", 12)

    assert (counted.live, counted.loops) == (8, (("", 16),))
    assert count("[sc in next stitch, ch 3, sk 1] 6 times", 12).loops == (("", 24),)
