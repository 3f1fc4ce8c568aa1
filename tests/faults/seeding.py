"""Sound patterns, and what becomes of them when one slip is made."""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import cache
from pathlib import Path

from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.files import DiskFiles, Files, MemoryFiles
from bindoff.pipeline import check_pattern

BASES = Path(__file__).parent / "bases"
LOOSE = Path(__file__).parent / "loose"
DEMOS = Path(__file__).parents[2] / "patterns"
WHOLE = Path(__file__).parents[1] / "patterns"
EDITOR = Path(__file__).parent / "editor_patterns"


@dataclass(frozen=True, slots=True)
class Swap:
    """``before``, which stands exactly once in ``file``, becomes ``after``.

    An empty ``before`` stands for the end of the file.
    """

    before: str
    after: str
    file: str = "pattern.yaml"


@dataclass(frozen=True, slots=True)
class Fault:
    """A realistic slip in the sound pattern ``base``, and the id that must find it.

    The planted place are the lines that ``swaps`` changed, and those that hold a text of ``at``:
    the other half of what disagrees, or what lacks the thing that was taken out. ``also`` are other
    ids that rightly speak up, as the slip is theirs too. Of a fault that nobody finds today,
    ``finds`` is empty and ``missed`` says why; ``astray`` says why one is only told at another
    place.
    """

    slip: str
    base: str
    finds: str
    swaps: tuple[Swap, ...]
    kind: str = ""
    at: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    missed: str = ""
    astray: str = ""


def fault(slip: str, base: str, finds: str, *swaps: Swap) -> Fault:
    """A fault made of one swap, or of the few that the slip takes."""
    return Fault(slip, base, finds, swaps)


def trade(
    kind: str,
    slip: str,
    base: str,
    finds: str,
    *swaps: Swap,
    at: tuple[str, ...] = (),
    also: tuple[str, ...] = (),
    missed: str = "",
    astray: str = "",
) -> Fault:
    """A fault that was written without a look at the checks."""
    return Fault(slip, base, finds, swaps, kind, at, also, missed, astray)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was found of the fault itself, and the ids of what else was said to be wrong.

    ``in_place`` says that a finding stands where the fault was planted.
    """

    findings: tuple[Diagnostic, ...]
    in_place: bool
    false_alarms: tuple[str, ...]

    @property
    def found(self) -> bool:
        """Whether the check saw the fault."""
        return bool(self.findings)

    @property
    def misleading(self) -> bool:
        """Whether the fault is told, but at no place where it was planted."""
        return self.found and not self.in_place


def outcome(fault: Fault) -> Outcome:
    """What checking the faulty pattern says. Notes elsewhere are no alarms."""
    said = checked(MemoryFiles(faulty(fault)))
    findings = tuple(each for each in said if each.id == fault.finds)
    loud = {each.id for each in said if each.severity is not Severity.NOTE}
    return Outcome(
        findings,
        any(place_of(each) in planted(fault) for each in findings),
        tuple(sorted(loud - {fault.finds, *fault.also})),
    )


def planted(fault: Fault) -> frozenset[tuple[str, int]]:
    """The files and lines where the slip can be seen: changed lines, and those that ``at`` names.

    Where lines were only taken out, the line before the gap and the one after it stand for them.
    """
    places = set()
    before, after = base(fault.base), faulty(fault)
    for file, text in after.items():
        old, new = before.get(file, "").split("\n"), text.split("\n")
        for tag, _, _, start, end in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
            if tag == "delete":
                places |= {(file, start), (file, start + 1)}
            elif tag != "equal":
                places |= {(file, line + 1) for line in range(start, end)}
        places |= {
            (file, number)
            for number, line in enumerate(new, start=1)
            if any(part in line for part in fault.at)
        }
    return frozenset(places)


def place_of(finding: Diagnostic) -> tuple[str, int] | None:
    """The file and the line of a finding."""
    span = finding.span
    return (span.file.removeprefix("pattern/"), span.line) if span else None


def faulty(fault: Fault) -> Mapping[str, str]:
    """The files of the base with the slip in them."""
    files = dict(base(fault.base))
    for swap in fault.swaps:
        text = files.get(swap.file, "")
        if not swap.before:
            files[swap.file] = text + swap.after
            continue
        if text.count(swap.before) != 1:
            raise ValueError(
                f"{fault.slip}: {swap.before!r} stands {text.count(swap.before)} times"
            )
        files[swap.file] = text.replace(swap.before, swap.after)
    return files


@cache
def base(name: str) -> Mapping[str, str]:
    """The files of a sound pattern by name."""
    for home in (BASES, DEMOS, WHOLE, EDITOR):
        if (home / name).is_dir():
            return {path.name: path.read_text(encoding="utf-8") for path in (home / name).iterdir()}
    return {"pattern.yaml": (LOOSE / f"{name}.yaml").read_text(encoding="utf-8")}


def checked(files: Files) -> tuple[Diagnostic, ...]:
    """Everything that is said about a pattern, whichever stage says it."""
    try:
        return check_pattern(files, "pattern.yaml", "pattern")
    except PatternError as error:
        return error.findings


def sound() -> Mapping[str, Files]:
    """All patterns about which nothing may be said: the bases and the demos."""
    names = [path.name for home in (BASES, EDITOR) for path in sorted(home.iterdir())]
    names += [path.stem for path in sorted(LOOSE.iterdir())]
    bases = {name: MemoryFiles(base(name)) for name in names}
    return bases | {path.name: DiskFiles(str(path)) for path in sorted(DEMOS.iterdir())}
