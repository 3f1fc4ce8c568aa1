"""Sets of slips and of harmless rewordings in sound patterns, and what becomes of each.

A set is a folder here: ``slips.yaml``, perhaps ``harmless.yaml``, and a folder for each sound
pattern. Slips and patterns were written by another hand than the checks, from the trade; no
published source.

A finding is news where the sound pattern has none of that id and message. It finds a slip if it
stands on a line that the slip changed, on one that ``at`` names, or if the slip's ``named_by``
says that it names the slip. Elsewhere it misleads, unless it only follows from another finding. An
alarm that the sound line raises as well, with another figure in it, is no news.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from bindoff.diagnostics import Diagnostic
from bindoff.files import MemoryFiles
from tests.faults.seeding import checked

HERE = Path(__file__).parent
SETS = ("third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")

Place = tuple[str, int]
"""A file of a pattern, and a line of it, counted from 1."""


class Outcome(StrEnum):
    """What becomes of a slip: told at its place, told at other places only, not told."""

    FOUND = "found"
    MISLEADING = "misleading"
    MISSED = "missed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """``before``, which stands once in a file of a set's sound pattern, becomes ``after``."""

    among: str
    pattern: str
    before: str
    after: str
    file: str = "pattern.yaml"

    def files(self) -> Mapping[str, str]:
        """The pattern's files with the change in them."""
        sound = files_of(self.among, self.pattern)
        return {**sound, self.file: sound[self.file].replace(self.before, self.after, 1)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip(Change):
    """A change that makes a pattern wrong. ``slip`` says how, ``kind`` what an editor calls it.

    ``at`` are texts of other lines where it shows. ``named_by`` and ``misled_by`` are ids that were
    judged by hand: findings that name the slip, or lead away from it, wherever they stand.
    """

    slip: str
    kind: str
    at: tuple[str, ...] = ()
    named_by: tuple[str, ...] = ()
    misled_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class News:
    """A finding that the sound pattern does not have.

    ``follows`` says that it stands beneath another, ``again`` that the sound line raises the same
    alarm in other words.
    """

    finding: Diagnostic
    follows: bool
    again: bool


@cache
def slips(among: str) -> tuple[Slip, ...]:
    """All slips of a set, as written."""
    lists = ("at", "named_by", "misled_by")
    return tuple(
        Slip(among=among, **each | {name: tuple(each.get(name, ())) for name in lists})
        for each in _listed(among, "slips.yaml")
    )


@cache
def rewordings(among: str) -> tuple[Change, ...]:
    """All harmless rewordings of a set, as written; a set may have none."""
    return tuple(Change(among=among, **each) for each in _listed(among, "harmless.yaml"))


def _listed(among: str, name: str) -> Sequence[dict[str, Any]]:
    path = HERE / among / name
    return yaml.safe_load(path.read_text(encoding="utf-8")) if path.exists() else ()


@cache
def files_of(among: str, pattern: str) -> Mapping[str, str]:
    """The sound pattern's files."""
    folder = HERE / among / pattern
    return {
        path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@cache
def sound(among: str, pattern: str) -> tuple[Diagnostic, ...]:
    """What is said of the sound pattern."""
    return checked(MemoryFiles(files_of(among, pattern)))


def outcome(slip: Slip) -> Outcome:
    """What becomes of a slip, by what is new in what is said of the pattern."""
    places = frozenset(_places(slip))
    ends = [_made_of(each, slip, places) for each in _news(slip)]
    return next((each for each in Outcome if each in ends), Outcome.MISSED)


def alarms(reworded: Change) -> tuple[Diagnostic, ...]:
    """What a harmless rewording sets off."""
    return tuple(each.finding for each in _news(reworded) if not each.again)


def _made_of(news: News, slip: Slip, places: frozenset[Place]) -> Outcome:
    if news.finding.id in slip.named_by:
        return Outcome.FOUND
    if news.finding.id in slip.misled_by:
        return Outcome.MISLEADING
    if news.again:
        return Outcome.MISSED
    if places.intersection(_lines(news.finding)):
        return Outcome.FOUND
    return Outcome.MISSED if news.follows else Outcome.MISLEADING


def _news(change: Change) -> Iterator[News]:
    """What is said of the changed pattern and not of the sound one."""
    gone = [each for each, _ in _all_of(sound(change.among, change.pattern))]
    fresh = list[tuple[Diagnostic, bool]]()
    for finding, follows in _all_of(checked(MemoryFiles(change.files()))):
        known = next(
            (each for each in gone if (each.id, each.message) == (finding.id, finding.message)),
            None,
        )
        if known is None:
            fresh.append((finding, follows))
        else:
            gone.remove(known)
    now = _lines_now(change)
    before = {(each.id, now.get(place)) for each in gone for place in _lines(each)}
    for finding, follows in fresh:
        again = any((finding.id, place) in before for place in _lines(finding))
        yield News(finding, follows, again)


def _all_of(
    findings: Sequence[Diagnostic], follows: bool = False
) -> Iterator[tuple[Diagnostic, bool]]:
    """Every finding, those beneath others too, each with whether it is one of these."""
    for each in findings:
        yield each, follows
        yield from _all_of(each.follows, True)


def _lines(finding: Diagnostic) -> Iterator[Place]:
    """The lines that a finding stands on."""
    for span in (*([finding.span] if finding.span else []), *finding.beside):
        file = span.file.removeprefix("pattern/")
        yield from ((file, line) for line in range(span.line, span.end_line + 1))


def _places(slip: Slip) -> Iterator[Place]:
    """Lines where an editor's finger may lie: those changed, and those that hold a text of ``at``.

    Where lines were only taken out, those on either side of the gap stand for them.
    """
    for tag, _, _, start, end in _compared(slip):
        if tag == "delete":
            yield from ((slip.file, start), (slip.file, start + 1))
        elif tag != "equal":
            yield from ((slip.file, line + 1) for line in range(start, end))
    for name, text in slip.files().items():
        for number, line in enumerate(text.split("\n"), 1):
            if any(each in f"{line}\n" for each in slip.at):
                yield name, number


def _lines_now(change: Change) -> Mapping[Place, Place]:
    """Where each line of the sound pattern's files stands in the changed one's."""
    now = {
        (file, line): (file, line)
        for file, text in files_of(change.among, change.pattern).items()
        for line in range(1, text.count("\n") + 2)
        if file != change.file
    }
    for _, old, old_end, new, new_end in _compared(change):
        pairs = zip(range(old, old_end), range(new, new_end), strict=False)
        now |= {(change.file, was + 1): (change.file, line + 1) for was, line in pairs}
    return now


def _compared(change: Change) -> Sequence[tuple[str, int, int, int, int]]:
    """How the lines of the changed file differ from those of the sound one, as difflib has it."""
    old = files_of(change.among, change.pattern)[change.file].split("\n")
    new = change.files()[change.file].split("\n")
    return SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
