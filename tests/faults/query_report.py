"""How many slips of a set stand among the queries, and how long the list is for sound patterns.

    python -m tests.faults.query_report third|fourth|fifth|sixth|seventh|eighth|ninth [PATTERN …]

A slip that `check` misses, or tells elsewhere only, counts as asked if a sentence that it changed
is among the queries; it is asked `anew` if a claim of that sentence is not among those of the sound
pattern. One that shows nowhere but in a new query of another sentence is `elsewhere`. Prints a line
for each slip that is in none of these, the length of each sound pattern's list, and the shares. It
takes some minutes, and so is no test.
"""

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from bindoff.checks.queries.listed import Queries, Query
from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_and_ask
from tests.faults.sets import SETS, Outcome, Slip, files_of, outcome, slips

Claim = tuple[tuple[object, ...], str, str]
"""Where a text stands, why a claim of it is doubted, and the claim."""


class Asked(StrEnum):
    """Where a slip that no check finds shows among the queries."""

    ANEW = "anew"
    ANYWAY = "anyway"
    ELSEWHERE = "elsewhere"
    NOWHERE = "nowhere"


@dataclass(frozen=True, slots=True)
class Length:
    """How many sentences of a pattern are asked about, of all."""

    pattern: str
    asked: int
    read: int


def main(arguments: Sequence[str]) -> int:
    """Print the figures of all patterns of a set, or of those named; 2 if there is no such set."""
    among, wanted = (arguments[0], arguments[1:]) if arguments else ("", ())
    if among not in SETS:
        print(f"Name a set: {' or '.join(SETS)}", file=sys.stderr)
        return 2
    chosen = [each for each in slips(among) if not wanted or each.pattern in wanted]
    ends = [(each, outcome(each)) for each in chosen]
    missed = [each for each, end in ends if end is not Outcome.FOUND]
    places = [(each, asked_of(each)) for each in missed]
    for slip, place in places:
        if place is Asked.NOWHERE:
            changed = " -> ".join(f"`{' '.join(t.split())}`" for t in (slip.before, slip.after))
            print(f"{place}: {slip.pattern}, {slip.kind}: {slip.slip}: {changed}")
    lengths = [length(among, each) for each in sorted({each.pattern for each in chosen})]
    for each in lengths:
        print(f"{each.pattern:<24}{each.asked:>4} of {each.read}")
    _tell_shares(len(chosen), Counter(place for _, place in places), lengths)
    return 0


def _tell_shares(slips: int, places: Counter[Asked], lengths: Sequence[Length]) -> None:
    missed, asked, read = places.total(), *(sum(n) for n in zip(*_both(lengths), strict=True))
    there = places[Asked.ANEW] + places[Asked.ANYWAY]
    print(f"{slips} slips: {slips - missed} found by a check, {missed} not")
    for place in Asked:
        print(f"  {place:<12}{places[place]:>4}  {places[place] / max(missed, 1):.2f}")
    print(f"found or asked at their sentence: {(slips - missed + there) / slips:.3f}")
    print(f"sound patterns: {asked} of {read} sentences are asked about: {asked / read:.3f}")
    over = sum(each.asked > each.read / 5 for each in lengths)
    print(f"  more than a fifth in {over} of {len(lengths)} patterns")


def _both(lengths: Sequence[Length]) -> Iterator[tuple[int, int]]:
    return ((each.asked, each.read) for each in lengths)


def length(among: str, pattern: str) -> Length:
    """The length of a sound pattern's list."""
    queries = sound_queries(among, pattern)
    return Length(pattern, len(queries.asked), queries.read)


@cache
def sound_queries(among: str, pattern: str) -> Queries:
    """What is asked of a sound pattern."""
    return check_and_ask(MemoryFiles(files_of(among, pattern)), "pattern.yaml", "pattern")[1]


def asked_of(slip: Slip) -> Asked:
    """Where a slip shows among the queries of its pattern."""
    try:
        queries = check_and_ask(MemoryFiles(slip.files()), "pattern.yaml", "pattern")[1]
    except PatternError:
        return Asked.NOWHERE
    known = {c for each in sound_queries(slip.among, slip.pattern).asked for c in _claims(each)}
    first, last = _changed(slip)
    here = [each for each in queries.asked if _overlaps(each, first, last)]
    if here:
        fresh = any(claim not in known for each in here for claim in _claims(each))
        return Asked.ANEW if fresh else Asked.ANYWAY
    fresh = any(claim not in known for each in queries.asked for claim in _claims(each))
    return Asked.ELSEWHERE if fresh else Asked.NOWHERE


def _claims(query: Query) -> Iterator[Claim]:
    for doubt in query.doubts:
        said = query.prose.text[query.start + doubt.start : query.start + doubt.end]
        yield tuple(query.prose.path), doubt.why, said


def _overlaps(query: Query, first: tuple[int, int], last: tuple[int, int]) -> bool:
    """Whether a sentence holds a character of what a slip changed."""
    span = query.span
    starts, ends = (span.line, span.column), (span.end_line, span.end_column)
    return starts < last and first <= ends


def _changed(slip: Slip) -> tuple[tuple[int, int], tuple[int, int]]:
    """The lines and columns between which the changed file differs from the sound one."""
    text = slip.files()[slip.file]
    at = files_of(slip.among, slip.pattern)[slip.file].index(slip.before)
    pairs = list(zip(slip.before, slip.after, strict=False))
    same = next((i for i, (a, b) in enumerate(pairs) if a != b), len(pairs))
    back = list(zip(slip.before[same:][::-1], slip.after[same:][::-1], strict=False))
    tail = next((i for i, (a, b) in enumerate(back) if a != b), len(back))
    end = max(len(slip.after) - tail, same + 1)
    return _position(text, at + same), _position(text, at + end)


def _position(text: str, offset: int) -> tuple[int, int]:
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
