"""Two texts line by line, the old words on the left and the new ones on the right."""

import textwrap
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from itertools import zip_longest

from bindoff import regex as re
from bindoff.records import Record

WIDTH = 100
_BETWEEN = " | "
_HEADING = re.compile(r"Section [\d.]+: ")


class Words(Record):
    """Lines that differ, the ``old`` and the ``new``, and the ``heading`` they stand under."""

    heading: str
    old: tuple[str, ...]
    new: tuple[str, ...]


def words_that_differ(old: Sequence[str], new: Sequence[str]) -> tuple[Words, ...]:
    """Where two texts part, in the order of the new one; empty lines don't count."""
    before, after = [line for line in old if line], [line for line in new if line]
    found = []
    for kind, a, b, c, d in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if kind != "equal":
            above = [line for line in after[:c] if _HEADING.match(line) and line[-1] != "."]
            found.append(Words(above[-1] if above else "", tuple(before[a:b]), tuple(after[c:d])))
    return tuple(found)


def side_by_side(found: Sequence[Words], width: int = WIDTH) -> Iterator[str]:
    """The words that differ in two columns, under their headings."""
    room = (width - len(_BETWEEN)) // 2
    yield f"{'Old':<{room}}{_BETWEEN}New"
    heading = None
    for each in found:
        if each.heading != heading:
            heading = each.heading
            yield from ("", *textwrap.wrap(heading or "Opening", width))
        yield f"{'-' * room}{_BETWEEN}{'-' * room}"
        for one, other in _paired(each):
            columns = zip_longest(_wrapped(one, room), _wrapped(other, room), fillvalue="")
            yield from (f"{left:<{room}}{_BETWEEN}{right}".rstrip() for left, right in columns)


def _paired(words: Words) -> Iterator[tuple[str, str]]:
    """Each old line beside the new line that is most like it, where there is one."""
    rest = list(words.old)
    for line in words.new:
        like = [SequenceMatcher(None, each, line).ratio() for each in rest]
        best = max(range(len(like)), key=like.__getitem__, default=-1)
        if best < 0 or like[best] < _ALIKE:
            yield "", line
            continue
        for gone in rest[:best]:
            yield gone, ""
        yield rest[best], line
        del rest[: best + 1]
    for gone in rest:
        yield gone, ""


_ALIKE = 0.5
"""How much of two lines must be the same for one to be the other in new words."""


def _wrapped(line: str, room: int) -> list[str]:
    return textwrap.wrap(line, room) or [""]
