"""The one place that turns diagnostics into text or JSON."""

import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, lru_cache
from typing import Any

import click

from bindoff.diagnostics import Diagnostic, Fix, Severity, Span

SourceLines = Callable[[str], Sequence[str]]

_TAB = "    "
_WINDOW = 96  # columns of source shown at most
_BEFORE = 48  # of them, those kept before the place when the line is cut
_NEAR = 2 * _WINDOW  # characters looked at before, at and after a place: a line may be a book
_ELLIPSIS = "…"
_LONGEST_MESSAGE = 400
_FOLLOWERS_SHOWN = 3
_UNPRINTABLE = "\N{REPLACEMENT CHARACTER}"
_JOINED = ("Mn", "Me")  # categories of characters that take no room of their own
_RANK = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}
_COLOURS = {Severity.ERROR: "red", Severity.WARNING: "yellow", Severity.NOTE: "cyan"}


def ordered(findings: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Findings by file, place, severity (worst first) and id, without duplicates.

    Those without a place come first; what agrees in all this stays as found, sizes in their order.
    """
    return tuple(sorted(dict.fromkeys(findings), key=_order))


def full(findings: Iterable[Diagnostic], source_lines: SourceLines, *, colour: bool = False) -> str:
    """Each finding with its line of source, a marker under the place, and the help.

    ``source_lines`` gives the lines of a file by the path that spans name, none if it can't.
    """
    read_once = cache(source_lines)
    return "\n".join(
        "".join(f"{line}\n" for line in _block(finding, read_once, colour))
        for finding in ordered(findings)
    )


def to_json(findings: Iterable[Diagnostic]) -> list[dict[str, Any]]:
    """Plain data for ``json.dumps``: one record for each finding, in the same order.

    ``follows`` has the records of what follows from it.
    """
    return [_record(finding) for finding in ordered(findings)]


def summary(findings: Iterable[Diagnostic]) -> str:
    """How many errors, warnings and notes there are, as words."""
    counts = Counter(finding.severity for finding in dict.fromkeys(findings))
    said = [
        f"{counts[severity]} {severity}{'' if counts[severity] == 1 else 's'}"
        for severity in Severity
        if counts[severity]
    ]
    return ", ".join(said) or "no findings"


def _order(finding: Diagnostic) -> tuple[str, int, int, int, str]:
    span = finding.span or Span("", 0, 0, 0, 0)
    return (
        span.file,
        span.line,
        span.column,
        _RANK[finding.severity],
        finding.id,
    )


def _record(finding: Diagnostic) -> dict[str, Any]:
    span = finding.span
    return {
        "id": finding.id,
        "severity": finding.severity.value,
        "message": finding.message,
        "help": finding.help,
        "file": span.file if span else None,
        **_place(span),
        "beside": [{"file": each.file, **_place(each)} for each in finding.beside],
        "sizes": list(finding.sizes),
        "follows": to_json(finding.follows),
        "fixes": [_fix(fix, fix.span or span) for fix in finding.fixes],
    }


def _fix(fix: Fix, span: Span | None) -> dict[str, Any]:
    """A change that would mend it: ``text`` takes the place from line and column to the end."""
    return {"words": fix.words, "text": fix.text, **_place(span)}


def _place(span: Span | None) -> dict[str, int | None]:
    return {
        "line": span.line if span else None,
        "column": span.column if span else None,
        "end_line": span.end_line if span else None,
        "end_column": span.end_column if span else None,
    }


def _block(finding: Diagnostic, source_lines: SourceLines, colour: bool) -> Iterator[str]:
    """The lines of one finding in full."""
    tint = _COLOURS[finding.severity] if colour else None
    head = _styled(f"{finding.severity}[{finding.id}]", tint)
    yield f"{head}: {_sentence(finding.message)}"
    if finding.span:
        yield from _shown("-->", finding.span, source_lines, tint)
    for span in finding.beside:
        yield from _shown("and", span, source_lines, tint)
    if finding.help:
        yield f"help: {_sentence(finding.help)}"
    if finding.follows:
        yield from _followers(ordered(finding.follows))


def _shown(sign: str, span: Span, source_lines: SourceLines, tint: str | None) -> Iterator[str]:
    """A place, and its line of source where that can be read."""
    lines = source_lines(span.file)
    shown = span.line <= len(lines)
    gutter = " " * len(str(span.line)) if shown else " "
    yield f"{gutter}{sign} {visible(str(span))}"
    if shown:
        source, marker = _picture(lines[span.line - 1], span)
        yield f"{gutter} |"
        yield f"{span.line} | {source}".rstrip()
        yield f"{gutter} | {marker[0]}{_styled(marker[1], tint)}"


def _followers(findings: Sequence[Diagnostic]) -> Iterator[str]:
    """What follows from a finding, each on one line; only counted where there are many."""
    follow = "follows" if len(findings) == 1 else "follow"
    yield f"and {len(findings)} more that {follow} from it:"
    for finding in findings[:_FOLLOWERS_SHOWN]:
        at = f"{visible(str(finding.span))}: " if finding.span else ""
        yield f"  {at}{_sentence(finding.message)} [{finding.id}]"
    if len(findings) > _FOLLOWERS_SHOWN:
        rest = len(findings) - _FOLLOWERS_SHOWN
        yield f"  and {rest} other{'' if rest == 1 else 's'}"


def _styled(text: str, tint: str | None) -> str:
    return click.style(text, fg=tint, bold=True) if tint else text


def _picture(line: str, span: Span) -> tuple[str, tuple[str, str]]:
    """A line as shown, cut around the place if long, and the blanks and marks to go under it."""
    start = min(span.column - 1, len(line))
    end = len(line) if span.end_line > span.line else min(span.end_column - 1, len(line))
    end = max(end, start)
    near = (line[max(0, start - _NEAR) : start], line[start:end][:_NEAR], line[end : end + _NEAR])
    before, place, after = ([_cell(character) for character in part] for part in near)
    if _width(before + place + after) > _WINDOW:
        before = _last(before, _BEFORE)
        place = _first(place, _WINDOW - _width(before))
        after = _first(after, _WINDOW - _width(before) - _width(place))
    marks = "^" * max(_width(place), 1)
    return "".join(before + place + after), (" " * _width(before), marks)


def _first(cells: list[str], room: int) -> list[str]:
    """The cells that fit from the left, the last one an ellipsis if some are left out."""
    if _width(cells) <= room:
        return cells
    kept: list[str] = []
    used = 1
    for cell in cells:
        used += _cell_width(cell)
        if used > room:
            break
        kept.append(cell)
    return [*kept, _ELLIPSIS]


def _last(cells: list[str], room: int) -> list[str]:
    return _first(cells[::-1], room)[::-1]


@lru_cache(maxsize=1024)
def _cell(character: str) -> str:
    """What is printed for a character: spaces as such, unprintable ones as a visible sign."""
    if character == "\t":
        return _TAB
    category = unicodedata.category(character)
    if category == "Zs":
        return " "
    return character if character.isprintable() or category in _JOINED else _UNPRINTABLE


def _width(cells: list[str]) -> int:
    return sum(_cell_width(cell) for cell in cells)


@lru_cache(maxsize=1024)
def _cell_width(cell: str) -> int:
    """Columns of a terminal (Unicode Standard Annex 11): wide and fullwidth characters take 2."""
    if cell == _TAB:
        return len(_TAB)
    if unicodedata.category(cell) in _JOINED:
        return 0
    return 2 if unicodedata.east_asian_width(cell) in ("W", "F") else 1


def visible(text: str) -> str:
    """Text that can't move the cursor or change the terminal."""
    return "".join(_cell(character) for character in text)


def _sentence(text: str) -> str:
    """A message or help on one line, cut when it quotes too much."""
    line = visible(" ".join(text.split()))
    return line if len(line) <= _LONGEST_MESSAGE else line[:_LONGEST_MESSAGE] + _ELLIPSIS
