"""What of a page is new since it was shown: of what a key changes, only the elements travel.

A page has an element a line, as ``render.pdf.svgwriter`` draws it.
"""

from itertools import takewhile
from typing import Any

from bindoff.desk.proofs import Proof
from bindoff.records import Record

MOST = 20_000
"""The longest patch that an answer carries; a page that differs more is fetched in its turn."""


class Patch(Record):
    """``lines`` stand where a page of ``whole`` elements had those from ``start`` to ``end``."""

    whole: int
    start: int
    end: int
    lines: tuple[str, ...]


def patch(before: str, after: str) -> Patch | None:
    """What makes one page of another; ``None`` if another size of paper does, too.

    >>> patch("<svg>\\n<a/>\\n<b/>\\n</svg>", "<svg>\\n<a/>\\n<c/>\\n<b/>\\n</svg>").lines
    ('<c/>',)
    """
    (head, *old, _), (other, *new, _) = before.split("\n"), after.split("\n")
    if head != other:
        return None
    start = _alike(old, new)
    left = min(len(old), len(new)) - start
    same = min(_alike(old[::-1], new[::-1]), left)
    return Patch(len(old), start, len(old) - same, tuple(new[start : len(new) - same]))


def _alike(one: list[str], other: list[str]) -> int:
    """How many lines two pages begin with alike."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False)))


def patches(before: Proof, after: Proof) -> dict[str, dict[str, Any]]:
    """By the digest of each page that differs little from the one that stood in its place: that
    one's digest, and what is new."""
    found: dict[str, dict[str, Any]] = {}
    for old, new in zip(before.order, after.order, strict=False):
        if old == new:
            continue
        made = patch(before.pages[old], after.pages[new])
        if made is None or sum(map(len, made.lines)) > MOST:
            continue
        found[new] = {
            "of": old,
            "whole": made.whole,
            "start": made.start,
            "end": made.end,
            "svg": "".join(made.lines),
        }
    return found
