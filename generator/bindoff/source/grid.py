"""Chart grids: one character a stitch, one line a round."""

import unicodedata
from collections import Counter
from itertools import accumulate, pairwise
from pathlib import PurePath
from typing import Any, TypeVar

from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.records import Record

_Cells = TypeVar("_Cells", str, tuple[Any, ...])

MAX_SIDE = 1000
MAX_STITCHES = 100_000
_MAX_FINDINGS = 20


class Grid(Record):
    """A chart as typed, seen from the right side.

    ``rounds[0]`` is round 1 (the bottom line of the file). Each string runs left to right, so
    stitch 1 is its last character. ``first_line`` is the file line of the top (last) round.
    ``before`` and ``after`` are the cells beside the repeat, at the right and at the left edge,
    where a right-side row begins and ends. ``twin`` are the cells of a second repeat, at the left
    of the first, and ``centre`` those between the two: both are worked equally often. ``marks`` are
    the places of the marks between them in each line of the file, from 0. Round 1 of the grid is
    row ``first`` of the knitting, and each line stands for ``every`` rows of it: 2 where the rows
    between are not drawn.
    """

    name: str
    rounds: tuple[str, ...]
    file: str
    first_line: int = 1
    before: int = 0
    after: int = 0
    marks: tuple[int, ...] = ()
    first: int = 1
    every: int = 1
    centre: int = 0
    twin: int = 0

    @property
    def width(self) -> int:
        """Stitches in a round."""
        return len(self.rounds[0])

    @property
    def height(self) -> int:
        """Rounds."""
        return len(self.rounds)

    @property
    def rows(self) -> int:
        """Rows of knitting from the first to the last, those between the drawn ones too."""
        return self.height * self.every

    def number(self, line: int) -> int:
        """The row of knitting that a line draws; both count from 1."""
        return self.first + (line - 1) * self.every

    def lines(self, rows: int) -> int:
        """How many lines the first ``rows`` rows of knitting work."""
        return min(self.height, max(0, (rows - self.first) // self.every + 1))

    @property
    def repeat(self) -> int:
        """Cells of a round that are repeated: of the first repeat where there are two."""
        return self.width - self.before - self.after - self.centre - self.twin

    @property
    def edged(self) -> bool:
        """Whether cells stand beside the repeat."""
        return bool(self.before or self.after or self.twin)

    def laid(self, line: str, across: int) -> str:
        """A line with its repeat ``across`` times, left to right."""
        before, repeat, centre, twin, after = self.parted(line)
        return after + twin * across + centre + repeat * across + before

    def parted(self, line: _Cells) -> tuple[_Cells, _Cells, _Cells, _Cells, _Cells]:
        """The cells before and in the repeat, between it and a second one, in that and after it,
        each from left to right."""
        ends = list(accumulate((0, self.after, self.twin, self.centre, self.repeat, self.before)))
        after, twin, centre, repeat, before = (line[a:b] for a, b in pairwise(ends))
        return before, repeat, centre, twin, after

    def at(self, round_: int, stitch: int) -> str:
        """The character of a stitch; both count from 1.

        Raises:
            IndexError: the grid has no such round or stitch.
        """
        self._check(round_, stitch)
        return self.rounds[round_ - 1][self.width - stitch]

    def span(self, round_: int, stitch: int) -> Span:
        """The place of a stitch in the grid file.

        Raises:
            IndexError: the grid has no such round or stitch.
        """
        self._check(round_, stitch)
        line, place = self.first_line + self.height - round_, self.width - stitch
        for mark in self.marks:
            place += mark <= place
        return Span(self.file, line, place + 1, line, place + 2)

    def _check(self, round_: int, stitch: int) -> None:
        if not (1 <= round_ <= self.height and 1 <= stitch <= self.width):
            raise IndexError(f"no stitch {stitch} in round {round_} of {self.name}")


MARK = "|"
"""What stands at both sides of a repeat in every line of a grid that has edge stitches."""
_MARKS_OF_TWO = 4  # at both sides of two repeats


def read_grid(text: str, file: str, *, marked: bool = False) -> Grid:
    """Read a grid file. Empty lines above and below the chart are left out.

    Where a grid may be ``marked``, two ``MARK`` in every line stand at the sides of the repeat, or
    four at those of two.

    Raises:
        PatternError: ids ``grid.…``, with every faulty line (the first 20).
    """
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    filled = [number for number, line in enumerate(lines) if line]
    if not filled:
        raise fail(
            "grid.empty",
            "the grid is empty",
            "Draw the chart: one character for each stitch, one line for each round, last round on "
            "top",
            Span(file, 1, 1, 1, 1),
        )
    first = filled[0]
    chart = lines[first : filled[-1] + 1]
    _check_size(chart, file, first + 1)
    apart = MARK if marked else ""
    width = Counter(_width(line, apart) for line in chart if line).most_common(1)[0][0]
    drawn = (
        _Line(line, file, first + 1 + index, len(chart) - index) for index, line in enumerate(chart)
    )
    findings = [fault for line in drawn if (fault := _fault(line, width, apart))]
    if findings:
        raise PatternError(findings[:_MAX_FINDINGS])
    marks = _marks(chart, file, first + 1) if marked else ()
    rounds = tuple("".join(c for i, c in enumerate(line) if i not in marks) for line in chart)
    before = after = centre = twin = 0
    if marks:
        after, before = marks[0], len(chart[0]) - 1 - marks[-1]
    if len(marks) == _MARKS_OF_TWO:
        twin, centre = marks[1] - marks[0] - 1, marks[2] - marks[1] - 1
    return Grid(
        PurePath(file).stem,
        tuple(reversed(rounds)),
        file,
        first + 1,
        before,
        after,
        marks,
        centre=centre,
        twin=twin,
    )


def _marks(chart: list[str], file: str, first_line: int) -> tuple[int, ...]:
    """The places of the two or four marks, the same in every line; none where no line has any."""
    found = [tuple(i for i, c in enumerate(line) if c == MARK) for line in chart]
    usual = Counter(each for each in found if each).most_common(1)
    if not usual:
        return ()
    places = usual[0][0]
    for number, each in enumerate(found):
        line = _Line(chart[number], file, first_line + number, len(chart) - number)
        whole = line.span(0, len(line.text))
        if each != places:
            raise fail(
                "grid.marks",
                f"the marks `{MARK}` of round {line.round} do not stand below those of the other "
                "rounds",
                f"Put `{MARK}` at the same places of every line: at both sides of the repeat",
                whole,
            )
        none_between = any(b == a + 1 for a, b in pairwise(each))
        if len(each) not in (2, _MARKS_OF_TWO) or none_between:
            raise fail(
                "grid.marks",
                f"round {line.round} has {len(each)} of the marks `{MARK}` and no repeat between "
                "two of them",
                f"Put one `{MARK}` at each side of the repeat, as in `..{MARK}....{MARK}.`, or of "
                f"both, as in `.{MARK}..{MARK}.{MARK}..{MARK}.`; or explain `{MARK}` in the legend "
                "if it is a stitch",
                whole,
            )
    return places


class _Line(Record):
    """A line of a grid file: its number in the file and the round it draws."""

    text: str
    file: str
    number: int
    round: int

    def span(self, start: int, end: int) -> Span:
        return Span(self.file, self.number, start + 1, self.number, end + 1)


def _check_size(chart: list[str], file: str, first_line: int) -> None:
    width = max(len(line) for line in chart)
    if len(chart) > MAX_SIDE or width > MAX_SIDE:
        raise fail(
            "grid.too-large",
            f"the grid has {width} stitches by {len(chart)} rounds",
            f"Keep a chart within {MAX_SIDE:,} stitches and {MAX_SIDE:,} rounds; "
            "repeat a smaller one",
            Span(file, first_line, 1, first_line, len(chart[0]) + 1),
        )
    if (stitches := sum(map(len, chart))) > MAX_STITCHES:
        raise fail(
            "grid.too-large",
            f"the grid has {stitches:,} stitches",
            f"Keep a chart within {MAX_STITCHES:,} stitches; repeat a smaller one",
            Span(file, first_line, 1, first_line, len(chart[0]) + 1),
        )


def _width(line: str, apart: str) -> int:
    """How many stitches a line has; the mark ``apart``, if there is one, is none."""
    return len(line) - (line.count(apart) if apart else 0)


def _fault(line: _Line, width: int, apart: str) -> Diagnostic | None:
    """The first thing that is wrong with a line, so that one cause gives one finding."""
    if not line.text:
        return Diagnostic(
            "grid.blank-line",
            f"an empty line stands inside the grid, where round {line.round} should be",
            "Remove the line, or fill it with the characters of the round",
            line.span(0, 0),
        )
    for index, character in enumerate(line.text):
        fault = _character_fault(line.text, index, character)
        if fault:
            id, message, help, start = fault
            return Diagnostic(
                id, f"{message} in round {line.round}", help, line.span(start, index + 1)
            )
    seen = line.text.rstrip()
    if seen != line.text:
        return Diagnostic(
            "grid.trailing-space",
            f"round {line.round} ends in spaces, which nobody can see",
            "Remove them; or, if they are stitches, use a visible character such as `.`",
            line.span(len(seen), len(line.text)),
        )
    if (stitches := _width(line.text, apart)) != width:
        if sheet := _separator(line.text):
            return Diagnostic(
                "grid.sheet",
                f"this line looks like one of a spreadsheet, its cells parted by `{sheet}`",
                "Make a grid of it with `bindoff grid from-sheet` and the CSV file's name",
                line.span(0, len(line.text)),
            )
        return Diagnostic(
            "grid.ragged",
            f"round {line.round} has {_stitches(stitches)}, but most rounds have {width}",
            f"{'Add' if stitches < width else 'Remove'} {_stitches(abs(stitches - width))} in this "
            "line",
            line.span(0, len(line.text)),
        )
    return None


def _separator(line: str) -> str:
    """What stands between single cells of a line all along it, as in a CSV file; else nothing."""
    between = {line[at] for at in range(1, len(line), 2)}
    return between.pop() if len(line) > 2 and len(between) == 1 and between <= {",", ";"} else ""


def _character_fault(text: str, index: int, character: str) -> tuple[str, str, str, int] | None:
    """Id, message, help and start of a character that can't be a stitch."""
    category = unicodedata.category(character)
    if character == "\t":
        return "grid.tab", "a tab stands", "Use one visible character for each stitch", index
    if category.startswith("M") or (category == "Cf" and index):
        start = max(index - 1, 0)
        return (
            "grid.combined-character",
            f"`{text[start : index + 1]}` looks like one character but is made of several",
            "Use a simple letter, digit or sign for the stitch",
            start,
        )
    if category[0] == "C" or (category[0] == "Z" and character != " "):
        return (
            "grid.invisible-character",
            f"an invisible character (U+{ord(character):04X}) stands",
            "Delete it, or use a visible character for the stitch",
            index,
        )
    return None


def _stitches(count: int) -> str:
    return "1 stitch" if count == 1 else f"{count} stitches"
