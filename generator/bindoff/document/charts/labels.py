"""Room for labels around a chart: which text goes on which line so that none hides another."""

from collections.abc import Callable, Iterator, Sequence
from typing import Literal

from bindoff.document.lettering import text_width
from bindoff.records import Record

_APART = 1.0  # mm between two labels on a line
_BESIDE = 0.8  # mm between a stem and a label that stands beside it


class Flag(Record):
    """A label at the head of a stem at ``x``: the text hangs at ``text_x`` by ``anchor``, reaches
    from ``start`` to ``end``, and is on line ``tier``, 0 nearest the chart."""

    text: str
    x: float
    text_x: float
    anchor: Literal["start", "middle", "end"]
    start: float
    end: float
    tier: int


class Bracket(Record):
    """A label under a bracket from ``left`` to ``right``, centred on ``middle``, on line ``tier``,
    0 nearest the chart."""

    text: str
    left: float
    right: float
    middle: float
    tier: int


def place_flags(stems: Sequence[tuple[float, str]], size: float, most: float) -> tuple[Flag, ...]:
    """A place for each (x, text), given from the right, no two at one x; labels keep within 0 to
    ``most`` mm where they can.

    A label that starts at its own stem hides no stem further left, so a free place always exists,
    if need be on a line of its own further up. Only the right end of a label may reach too far.
    """
    placed: list[Flag] = []
    for number, (x, text) in enumerate(stems):
        coming = [later for later, _ in stems[number + 1 :]]
        choices = [
            flag
            for tier in range(len(placed) + 1)
            for flag in _choices(text, x, size, tier)
            if flag.start >= 0 and _is_free(flag, placed, coming)
        ]
        placed.append(next((flag for flag in choices if flag.end <= most), choices[0]))
    return tuple(placed)


def _choices(text: str, x: float, size: float, tier: int) -> Iterator[Flag]:
    room, beside = text_width(text, size), text_width(text, size) + _BESIDE
    yield Flag(text, x, x, "middle", x - room / 2, x + room / 2, tier)
    yield Flag(text, x, x - _BESIDE, "end", x - beside, x, tier)
    yield Flag(text, x, x + _BESIDE, "start", x, x + beside, tier)


def _is_free(flag: Flag, placed: Sequence[Flag], coming: Sequence[float]) -> bool:
    def clear_of(other: Flag) -> bool:
        if other.tier > flag.tier:
            return not _covers(flag, other.x)
        if other.tier < flag.tier:
            return not _covers(other, flag.x)
        return flag.end + _APART <= other.start or other.end + _APART <= flag.start

    return not any(_covers(flag, x) for x in coming) and all(map(clear_of, placed))


def _covers(flag: Flag, x: float) -> bool:
    return flag.start <= x <= flag.end


def place_brackets(
    spans: Sequence[tuple[float, float, str]], size: float, most: float
) -> tuple[Bracket, ...]:
    """A line for each (left, right, text), narrow ones nearest the chart, text within ``most``."""
    placed: list[tuple[Bracket, float, float]] = []
    for left, right, text in sorted(spans, key=lambda span: (span[1] - span[0], span[0])):
        room = text_width(text, size)
        start = max(0.0, min((left + right - room) / 2, most - room))
        low, high = min(left, start) - _APART / 2, max(right, start + room) + _APART / 2
        taken = {bracket.tier for bracket, s, e in placed if s < high and low < e}
        tier = next(number for number in range(len(placed) + 1) if number not in taken)
        placed.append((Bracket(text, left, right, start + room / 2, tier), low, high))
    return tuple(bracket for bracket, _, _ in placed)


def lines_needed(labels: Sequence[Flag] | Sequence[Bracket]) -> int:
    """How many lines of labels there are."""
    return 1 + max((label.tier for label in labels), default=-1)


def thinned(
    numbers: Sequence[int], counter: Callable[[int], int], pitch: float, room: float
) -> list[int]:
    """All ``numbers`` if ``pitch`` mm from one to the next leaves each its ``room``; else the first
    and the last, then the tens and then the fives that still have it.

    ``numbers`` are evenly spaced; ``counter`` gives the number that is printed.
    """
    if pitch >= room or len(numbers) < 2:
        return list(numbers)
    step = numbers[1] - numbers[0]

    def rank(number: int) -> int:
        if number in (numbers[0], numbers[-1]):
            return 0
        return 1 if counter(number) % 10 == 0 else 2

    kept: list[int] = []
    for number in sorted(numbers, key=lambda n: (rank(n), n)):
        far = all(abs(number - other) / step * pitch >= room for other in kept)
        if far and (rank(number) < 2 or counter(number) % 5 == 0):
            kept.append(number)
    return sorted(kept)
