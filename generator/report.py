"""The one place that turns diagnostics into text or JSON."""

from collections.abc import Callable, Iterable, Sequence

from generator.diagnostics import Diagnostic

SourceLines = Callable[[str], Sequence[str]]


def ordered(findings: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Findings by file, place, severity (worst first) and id, without duplicates."""
    raise NotImplementedError


def full(findings: Iterable[Diagnostic], source_lines: SourceLines, *, colour: bool = False) -> str:
    """Each finding with its line of source, a marker under the place, and the help."""
    raise NotImplementedError


def concise(findings: Iterable[Diagnostic]) -> str:
    """One line for each finding."""
    raise NotImplementedError


def to_json(findings: Iterable[Diagnostic]) -> list[dict[str, str | int | None]]:
    """Plain data for ``json.dumps``: one flat record for each finding."""
    raise NotImplementedError


def summary(findings: Iterable[Diagnostic]) -> str:
    """How many errors, warnings and notes there are, as words."""
    raise NotImplementedError
