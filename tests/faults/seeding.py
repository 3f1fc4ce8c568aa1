"""Sound patterns, and what becomes of them when one slip is made."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.files import DiskFiles, Files, MemoryFiles
from bindoff.pipeline import check_pattern

BASES = Path(__file__).parent / "bases"
DEMOS = Path(__file__).parents[2] / "patterns"


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
    """A realistic slip in the sound pattern ``base``, and the id that must find it."""

    slip: str
    base: str
    finds: str
    swaps: tuple[Swap, ...]


def fault(slip: str, base: str, finds: str, *swaps: Swap) -> Fault:
    """A fault made of one swap, or of the few that the slip takes."""
    return Fault(slip, base, finds, swaps)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was found of the fault itself, and the ids of what else was said to be wrong."""

    findings: tuple[Diagnostic, ...]
    false_alarms: tuple[str, ...]

    @property
    def found(self) -> bool:
        """Whether the check saw the fault."""
        return bool(self.findings)


def outcome(fault: Fault) -> Outcome:
    """What checking the faulty pattern says. Notes elsewhere are no alarms."""
    said = checked(MemoryFiles(faulty(fault)))
    loud = {each.id for each in said if each.severity is not Severity.NOTE}
    return Outcome(
        tuple(each for each in said if each.id == fault.finds), tuple(sorted(loud - {fault.finds}))
    )


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
    return {path.name: path.read_text(encoding="utf-8") for path in (BASES / name).iterdir()}


def checked(files: Files) -> tuple[Diagnostic, ...]:
    """Everything that is said about a pattern, whichever stage says it."""
    try:
        return check_pattern(files, "pattern.yaml", "pattern")
    except PatternError as error:
        return error.findings


def sound() -> Mapping[str, Files]:
    """All patterns about which nothing may be said: the bases and the demos."""
    bases = {path.name: MemoryFiles(base(path.name)) for path in sorted(BASES.iterdir())}
    return bases | {path.name: DiskFiles(str(path)) for path in sorted(DEMOS.iterdir())}
