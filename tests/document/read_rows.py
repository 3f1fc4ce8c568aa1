"""Reads the written rows of a text edition as a knitter does, and works them.

It shares no line with the program: what each word shows on the right side, uses and makes stands in
a table of its own here, taken from a magazine's published symbol list (F42 of the project's facts),
a learn-to-knit book's table (F44) and common practice.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Known:
    """A stitch as a chart shows it: its character, the name a legend gives, the cells it covers,
    stitches used and made, and the words of a right-side and of a wrong-side row."""

    character: str
    name: str
    cells: int
    uses: int
    makes: int
    right: str
    wrong: str


KNOWN = (
    Known(".", "k", 1, 1, 1, "knit {n}", "purl {n}"),
    Known("-", "p", 1, 1, 1, "purl {n}", "knit {n}"),
    Known("t", "k tbl", 1, 1, 1, "knit {n} through back loop", "purl {n} through back loop"),
    Known("T", "p tbl", 1, 1, 1, "purl {n} through back loop", "knit {n} through back loop"),
    Known("s", "sl", 1, 1, 1, "slip {n} with yarn in back", "slip {n} with yarn in front"),
    Known("o", "yo", 1, 0, 1, "yo", "yo"),
    Known(">", "k2tog", 1, 2, 1, "k2tog", "p2tog"),
    Known("<", "ssk", 1, 2, 1, "ssk", "ssp"),
    Known("3", "k3tog", 1, 3, 1, "k3tog", "p3tog"),
    Known("^", "cdd", 1, 3, 1, "cdd", "cddp"),
    Known("f", "kfb", 1, 1, 2, "kfb", "pfb"),
    Known("l", "m1l", 1, 0, 1, "M1L", "M1LP"),
    Known("5", "nupp5", 1, 1, 5, "nupp5", "nupp5"),
    Known("7", "k5tog", 1, 5, 1, "k5tog", "p5tog"),
    Known("m", "mb", 1, 1, 1, "MB", "MBW"),
    Known("A", "2/2 RC", 4, 4, 4, "2 over 2 RC", "2 over 2 RCW"),
    Known("C", "2/1 LPC", 3, 3, 3, "2 over 1 LPC", "2 over 1 LPCW"),
    Known("B", "2/1/2 RPC", 5, 5, 5, "2 over 2 around 1 RPC", "2 over 2 around 1 RPCW"),
    Known("b", "bind off", 1, 1, 0, "bind off {n}", "bind off {n}"),
    Known("c", "cast on", 1, 0, 1, "cast on {n}", "cast on {n}"),
)
OF = {each.character: each for each in KNOWN}

_ROW = re.compile(r"(?:Round|Row)s? (\d+)(?: to (\d+))?(?: \((right|wrong) side\))?: (.*)\.")
_REPEAT = re.compile(
    r"(?:(.*?), )?star, (.*); repeat from star to (?:end|last stitch|last (\d+) stitches)"
    r"(?:, (.*))?"
)
_BRACKET = re.compile(r"\s*start of repeat, (.*?), end of repeat, work it (\d+) times|([^,]+)")
_TIMES = re.compile(r"(.*?)(?: (\d+) times)?")


@dataclass(frozen=True)
class ReadRow:
    """A row: its number, whether it is a right-side row, and the characters of its stitches in
    working order before, in and after the repeat; ``left`` are those where the repeat stops."""

    number: int
    right_side: bool
    before: str
    repeat: str
    after: str
    left: int

    @property
    def seen(self) -> tuple[str, str, str]:
        """The three parts as the right side shows them, from left to right."""
        if self.right_side:
            return self.after[::-1], self.repeat[::-1], self.before[::-1]
        return self.before, self.repeat, self.after


def rows_in(text: str) -> Iterator[ReadRow]:
    """The rows of a chart, those told together one by one."""
    for first, last, side, words in _ROW.findall(text):
        for number in range(int(first), int(last or first) + 1):
            right_side = side != "wrong"
            found = _REPEAT.fullmatch(words)
            if found is None:
                yield ReadRow(number, right_side, _stitches(words, right_side), "", "", 0)
                continue
            before, repeat, left, after = found.groups()
            stop = int(left) if left else int("to last stitch" in words)
            first_part, body, rest = (
                _stitches(part or "", right_side) for part in (before, repeat, after)
            )
            yield ReadRow(number, right_side, first_part, body, rest, stop)


def _stitches(words: str, right_side: bool) -> str:
    found = ""
    for bracket, times, alone in _BRACKET.findall(words):
        if bracket:
            found += _stitches(bracket, right_side) * int(times)
        elif alone.strip():
            found += _stitch(alone.strip(), right_side)
    return found


def _stitch(words: str, right_side: bool) -> str:
    said = _TIMES.fullmatch(words)
    assert said is not None
    for known in KNOWN:
        form = known.right if right_side else known.wrong
        counted = re.fullmatch(re.escape(form).replace(r"\{n\}", r"(\d+)"), said[1])
        if counted:
            return known.character * (int(counted[1]) if "{n}" in form else int(said[2] or 1))
    if words == "no stitches":
        return ""
    raise AssertionError(f"nobody knows how to work {words!r}")


def worked(rows: Iterable[ReadRow], live: int) -> int:
    """The stitches left when the rows are worked one after the other, as a knitter works them.

    Raises ``AssertionError`` where a row needs stitches that are not there, leaves some, or its
    repeat does not stop where it says.
    """
    for row in rows:
        rest, made = _over(row.before, live, 0)
        if row.repeat:
            rest, made = _over(row.repeat, rest, made)
            while rest > row.left:
                rest, made = _over(row.repeat, rest, made)
            assert rest == row.left, row
        rest, live = _over(row.after, rest, made)
        assert rest == 0, row
    return live


def _over(part: str, rest: int, made: int) -> tuple[int, int]:
    """Stitches left to work and stitches made when a part has been worked."""
    for character in part:
        rest -= OF[character].uses
        made += OF[character].makes
        assert rest >= 0, part
    return rest, made
