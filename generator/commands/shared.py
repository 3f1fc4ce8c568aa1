"""What commands over several patterns share: run each, report each, choose the exit code."""

import json
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from generator.diagnostics import Diagnostic, PatternError, Severity
from generator.files import DiskFiles, split_pattern_path
from generator.report import full, summary, to_json


@dataclass(frozen=True, slots=True)
class Named:
    """A PATTERN of the command line: its files, its source's name, what its outputs are called."""

    argument: str
    files: DiskFiles
    source: str
    called: str


@dataclass(frozen=True, slots=True)
class Result:
    """What came of a pattern: findings, and anything a command wants to say or give as JSON."""

    findings: tuple[Diagnostic, ...] = ()
    lines: tuple[str, ...] = ()
    data: Any = None

    @property
    def failed(self) -> bool:
        """Whether any finding is an error."""
        return any(finding.severity is Severity.ERROR for finding in self.findings)


def named(argument: str) -> Named:
    """The pattern a path names: a folder, or its source file."""
    folder, source = split_pattern_path(argument)
    return Named(argument, DiskFiles(folder), source, Path(folder).resolve().name)


def for_each(
    patterns: Sequence[str], work: Callable[[Named], Result], as_json: bool, done: str
) -> None:
    """Run ``work`` on every pattern and report; exit with 1 if any has an error."""
    records: list[dict[str, Any]] = []
    failed = False
    for argument in patterns:
        pattern = named(argument)
        result = _attempt(pattern, work)
        failed = failed or result.failed
        if as_json:
            records.append(
                {
                    "pattern": argument,
                    "findings": to_json(result.findings),
                    "result": result.data,
                }
            )
        else:
            _tell(pattern, result, done)
    if as_json:
        click.echo(json.dumps(records, ensure_ascii=False, indent=1))
    sys.exit(1 if failed else 0)


def _attempt(pattern: Named, work: Callable[[Named], Result]) -> Result:
    try:
        return work(pattern)
    except PatternError as error:
        return Result(error.findings)


def _tell(pattern: Named, result: Result, done: str) -> None:
    if result.findings:
        click.echo(full(result.findings, pattern.files.lines), err=True)
        click.echo(f"{pattern.argument}: {summary(result.findings)}", err=True)
    if not result.failed:
        click.echo(f"{pattern.argument}: {done}")
        for line in result.lines:
            click.echo(line)
