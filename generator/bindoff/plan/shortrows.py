"""How many rows each part of the live stitches misses: short rows add height only where worked."""

from collections.abc import Iterable

from bindoff.plan.rowcount import Counted, LiveStitches
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Way

Parts = tuple[tuple[int, int, int], ...]
"""Neighbouring stitches as (how many, the fewest rows that one of them missed, the most)."""

MOST_PARTS = 200
"""Parts that are told apart; more are put together in pairs, whose fewest and most stay true."""


class Missed(Record):
    """Rows of the piece that were not worked over some of its stitches.

    ``left`` and ``right`` lie as in ``LiveStitches``; both are empty while no stitch has missed a
    row.
    ``fewest`` and ``most`` are over all stitches, and stay when these leave the needle.
    """

    left: Parts = ()
    right: Parts = ()
    fewest: int = 0
    most: int = 0


NONE_MISSED = Missed()


def missed_at(missed: Missed, stitch: str, *, turned: bool) -> int:
    """The rows that one stitch of the right side missed: the ``start``, ``middle`` or ``end``.

    ``turned`` says that the wrong side faces, so that the row to come begins at the end.
    """
    around = (*reversed(missed.right), *missed.left)
    if not around:
        return missed.most
    around = around[::-1] if turned else around
    place = {"start": 0, "middle": _width(around) // 2, "end": _width(around) - 1}[stitch]
    ((_, fewest, _),) = _cut(around, place, place + 1)
    return fewest


def missed_after(missed: Missed, needle: LiveStitches, counted: Counted, *, flat: bool) -> Missed:
    """What is missed after a row worked from ``needle``; raises nothing.

    Stitches that a row makes of others missed what those did.
    """
    short = counted.unworked or needle.right
    if not short and not missed.most:
        return missed
    left, right = missed.left, missed.right
    if (_width(left), _width(right)) != (needle.left, needle.right):  # begun anew since
        left = ((needle.left, missed.fewest, missed.most),)
        right = ((needle.right, missed.fewest, missed.most),)
    if counted.crossed is not None:
        return _past_the_start(Missed(left, right, missed.fewest, missed.most), counted)
    worked = _remade(_cut(left, 0, counted.consumed), counted)
    if not worked and counted.produced:
        worked = ((counted.produced, missed.fewest, missed.most),)
    ahead = _more(_cut(left, counted.consumed, counted.consumed + counted.unworked))
    behind = _more(right)
    if counted.way is Way.NEW_START:
        left, right = _joined((*ahead, *reversed(behind), *worked)), ()
    elif counted.turns_flat(flat):
        left, right = _joined((*reversed(worked), *behind)), _joined(ahead)
    else:
        left, right = _joined((*reversed(behind), *worked)), ()
    return _summed(left, right, missed)


def _past_the_start(missed: Missed, counted: Counted) -> Missed:
    """What is missed after a row that turned past the start of the round."""
    around = (*missed.left, *reversed(missed.right))
    used, made, before = counted.consumed, counted.produced, counted.crossed or 0
    worked = _remade(_cut(around, 0, used), counted)
    ahead = _more(_cut(around, used, used + counted.unworked))
    left = _joined(reversed(_cut(worked, before, made)))
    return _summed(left, _joined((*ahead, *_cut(worked, 0, before))), missed)


def _summed(left: Parts, right: Parts, before: Missed) -> Missed:
    every = left + right
    if not every:
        return Missed((), (), before.fewest, before.most)
    fewest, most = min(part[1] for part in every), max(part[2] for part in every)
    return Missed(left, right, fewest, most)


def _width(parts: Parts) -> int:
    return sum(count for count, _, _ in parts)


def _cut(parts: Parts, start: int, end: int) -> Parts:
    """The stitches from place ``start`` to ``end``."""
    found, place = [], 0
    for count, fewest, most in parts:
        inside = min(place + count, end) - max(place, start)
        if inside > 0:
            found.append((inside, fewest, most))
        place += count
    return tuple(found)


def _remade(parts: Parts, counted: Counted) -> Parts:
    """What a row makes of the ``parts`` that it works over."""
    found, place, done = [], 0, 0
    for count, fewest, most in parts:
        place += count
        end = _made_of(place, counted)
        found.append((end - done, fewest, most))
        done = end
    return tuple(part for part in found if part[0] > 0)


def _made_of(place: int, counted: Counted) -> int:
    """How many stitches a row makes of the first ``place`` that it works over: as many more as it
    adds in them, or evenly where it does not tell where."""
    if place == counted.consumed:
        return counted.produced
    if not counted.shifts_told:
        return place * counted.produced // counted.consumed
    return place + sum(made - used for at, used, made in counted.shifts if at < place)


def _more(parts: Parts) -> Parts:
    return tuple((count, fewest + 1, most + 1) for count, fewest, most in parts)


def _joined(parts: Iterable[tuple[int, int, int]]) -> Parts:
    """Parts of some stitches each, neighbours that missed the same put together."""
    found: list[tuple[int, int, int]] = []
    for count, fewest, most in parts:
        if found and found[-1][1:] == (fewest, most):
            found[-1] = (found[-1][0] + count, fewest, most)
        elif count:
            found.append((count, fewest, most))
    if len(found) <= MOST_PARTS:
        return tuple(found)
    pairs = (found[place : place + 2] for place in range(0, len(found), 2))
    return tuple(
        (sum(p[0] for p in pair), min(p[1] for p in pair), max(p[2] for p in pair))
        for pair in pairs
    )
