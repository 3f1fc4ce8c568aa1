"""How many slips of a third technical editor are found, and at their place.

    python -m tests.faults.third_report [PATTERN …]

Prints a line a kind: found, told at another place, missed; then what is missed, and the alarms of
the sound patterns. It takes two minutes, and so is no test; ``test_third.py`` holds the list valid.
"""

import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import cache
from pathlib import Path

import yaml

from bindoff.diagnostics import Diagnostic
from bindoff.files import MemoryFiles
from tests.faults.seeding import checked

HERE = Path(__file__).parent / "third"


@dataclass(frozen=True, slots=True)
class Slip:
    """A text changed in one file of a pattern; ``at`` are texts of other lines where it shows."""

    slip: str
    kind: str
    pattern: str
    before: str
    after: str
    at: tuple[str, ...] = ()
    file: str = "pattern.yaml"


def slips() -> tuple[Slip, ...]:
    """All of them, as written."""
    listed = yaml.safe_load((HERE / "slips.yaml").read_text(encoding="utf-8"))
    return tuple(Slip(**{**each, "at": tuple(each.get("at", ()))}) for each in listed)


def files_of(pattern: str) -> dict[str, str]:
    """The sound pattern's files."""
    folder = HERE / pattern
    return {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.iterdir())}


@cache
def sound(pattern: str) -> tuple[Diagnostic, ...]:
    """What is said of the sound pattern."""
    return checked(MemoryFiles(files_of(pattern)))


def outcome(slip: Slip) -> str:
    """``found``, ``misleading`` or ``missed``, by what is new in what is said of the pattern."""
    old = files_of(slip.pattern)
    new = {**old, slip.file: old[slip.file].replace(slip.before, slip.after, 1)}
    known = Counter((each.id, each.message) for each in sound(slip.pattern))
    said = list[Diagnostic]()
    for each in checked(MemoryFiles(new)):
        known[each.id, each.message] -= 1
        if known[each.id, each.message] < 0:
            said.append(each)
    if not said:
        return "missed"
    places = set(_places(slip, old, new))
    return "found" if any(_lines(each) & places for each in said) else "misleading"


def _lines(finding: Diagnostic) -> set[tuple[str, int]]:
    span = finding.span
    if span is None:
        return set()
    return {(Path(span.file).name, line) for line in range(span.line, span.end_line + 1)}


def _places(
    slip: Slip, old: Mapping[str, str], new: Mapping[str, str]
) -> Iterator[tuple[str, int]]:
    """Lines where an editor's finger may lie: those changed, one on either side, and ``at``."""
    before, after = old[slip.file].split("\n"), new[slip.file].split("\n")
    for tag, _, _, start, end in SequenceMatcher(None, before, after, False).get_opcodes():
        if tag != "equal":
            yield from ((slip.file, line) for line in range(start, end + 2))
    for name, text in new.items():
        for number, line in enumerate(text.split("\n"), 1):
            if any(each in f"{line}\n" for each in slip.at):
                yield name, number


def main(wanted: Sequence[str]) -> None:
    """Print the figures of all patterns, or of those named."""
    found: dict[str, Counter[str]] = {}
    chosen = [each for each in slips() if not wanted or each.pattern in wanted]
    ends = [(each, outcome(each)) for each in chosen]
    for each, end in ends:
        found.setdefault(each.kind, Counter())[end] += 1
    found["all"] = Counter(end for _, end in ends)
    print(f"{'':<24}{'found':>8}{'misleading':>12}{'missed':>8}")
    for kind, counts in found.items():
        print(f"{kind:<24}{counts['found']:>8}{counts['misleading']:>12}{counts['missed']:>8}")
    for each, end in ends:
        if end != "found":
            print(f"{end}: {each.pattern}, {each.kind}: {each.slip}")
    for pattern in sorted({each.pattern for each in chosen}):
        for alarm in sound(pattern):
            print(f"sound: {pattern}: {alarm.id}: {alarm.message}")


if __name__ == "__main__":
    main(sys.argv[1:])
