"""What is wrong, where, and what to do: one data type shared by all stages.

A diagnostic is data. The stage that finds a fault builds one; ``bindoff.report`` alone
turns it into words on a screen or JSON.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A place in a source file. Lines and columns count from 1; ``end_column`` is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def inside(self, start: int, end: int) -> "Span":
        """The part of a one-line span from character offset ``start`` to ``end`` (exclusive)."""
        return Span(
            self.file, self.line, self.column + start, self.line, self.column + max(end, start + 1)
        )

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Severity(StrEnum):
    """How much a finding matters: an error stops the build, a warning does not."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One finding: a stable ``id``, what is wrong (``message``), where, and what to do (``help``).

    House style: ``message`` starts lower case and has no full stop; ``help`` is an instruction.
    ``sizes`` names the sizes it is about, none where it is about all or about no size. ``follows``
    are findings that this one is the likely cause of: they go once it is mended, or speak up then.
    """

    id: str
    message: str
    help: str
    span: Span | None = None
    severity: Severity = Severity.ERROR
    sizes: tuple[str, ...] = ()
    follows: "tuple[Diagnostic, ...]" = ()


class PatternError(Exception):
    """Raised by a stage that cannot go on; carries every finding it gathered first."""

    def __init__(self, findings: Iterable[Diagnostic]) -> None:
        self.findings = tuple(dict.fromkeys(findings))
        super().__init__("; ".join(finding.message for finding in self.findings))


def fail(id: str, message: str, help: str, span: Span | None = None) -> PatternError:
    """A ``PatternError`` with a single error; write ``raise fail(...)``."""
    return PatternError([Diagnostic(id, message, help, span)])
