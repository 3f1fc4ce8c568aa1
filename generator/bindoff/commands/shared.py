"""What commands over several patterns share: run each, report each, choose the exit code."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NoReturn, TypeVar

import click

from bindoff.console import HANDLER
from bindoff.diagnostics import Diagnostic, PatternError, Severity, closest, fail
from bindoff.files import SOURCE_NAME, DiskFiles, split_pattern_path
from bindoff.jsontext import as_ascii
from bindoff.records import Record
from bindoff.report import full, summary, to_json, visible

T = TypeVar("T")


class Named(Record):
    """A PATTERN of the command line: its files, its source's name, what its outputs are called."""

    argument: str
    files: DiskFiles
    source: str
    called: str


class Result(Record):
    """What came of a pattern: findings, and anything a command wants to say or give as JSON."""

    findings: tuple[Diagnostic, ...] = ()
    lines: tuple[str, ...] = ()
    data: Any = None

    @property
    def failed(self) -> bool:
        """Whether any finding is an error."""
        return any(finding.severity is Severity.ERROR for finding in self.findings)


def named(argument: str) -> Named:
    """The pattern a path names: a folder, or its source file; it need not be there."""
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
        made = attempt(pattern, work)
        result = made if isinstance(made, Result) else Result(made)
        failed = failed or result.failed
        if as_json:
            records.append(record(argument, result))
        else:
            tell(pattern, result, done)
    if as_json:
        click.echo(as_ascii(records))
    sys.exit(1 if failed else 0)


def attempt(pattern: Named, work: Callable[[Named], T]) -> T | tuple[Diagnostic, ...]:
    """What ``work`` makes; whatever goes wrong becomes findings, so that the patterns after this
    one have their turn too."""
    try:
        _refuse_missing(pattern)
        return work(pattern)
    except PatternError as error:
        return error.findings
    except Exception as error:
        return (own_fault(error),)


# What editors and systems that hide the ends of names make of the source's name.
_MISNAMED = tuple(f"pattern{end}" for end in (".yml", ".yaml.txt", ".yml.txt", ".txt"))


def _refuse_missing(pattern: Named) -> None:
    """Raises ``PatternError`` where no pattern is at the path."""
    path = Path(pattern.argument)
    if not pattern.argument.strip():
        raise fail(
            "command.no-pattern",
            "the name of a pattern is empty",
            "Name the folder of a pattern, or begin one with `bindoff new NAME`",
        )
    if path.is_dir() and not (path / SOURCE_NAME).exists():
        inside = sorted(each.parent.name for each in path.glob(f"*/{SOURCE_NAME}"))
        listed = ", ".join(f"`{path / name}`" for name in inside)
        misnamed = next((each for each in _MISNAMED if (path / each).is_file()), None)
        if inside:
            help = f"Name one of the patterns inside it: {listed}"
        elif misnamed:
            help = f"Rename its file `{misnamed}` to `{SOURCE_NAME}`"
        else:
            help = "Name the folder of a pattern, or begin one with `bindoff new NAME`"
        raise fail(
            "command.no-pattern",
            f"the folder `{pattern.argument}` holds no `{SOURCE_NAME}`",
            help,
        )
    if not path.exists():
        neighbours = [each.name for each in path.parent.iterdir()] if path.parent.is_dir() else []
        close = closest(path.name, sorted(neighbours))
        raise fail(
            "command.no-pattern",
            f"there is no folder or file `{pattern.argument}`",
            f"Write `{path.parent / close}` if that is what you mean"
            if close
            else "Name the folder of a pattern, or begin one with `bindoff new NAME`",
        )


def own_fault(error: Exception) -> Diagnostic:
    """What no pattern may cause, as a finding: what it was, and the place in the program."""
    if isinstance(error, MemoryError):
        return Diagnostic(
            "command.memory",
            "there is not enough memory to go on",
            "Close other programs and try again; if that does not help, look for a size, a count "
            "or a picture that is far too large",
        )
    from traceback import extract_tb  # which few runs need

    frames = extract_tb(error.__traceback__)
    place = f"{Path(frames[-1].filename).name}, line {frames[-1].lineno}" if frames else "nowhere"
    return Diagnostic(
        "command.fault",
        f"the program failed with {type(error).__name__}: {error} ({place})",
        "This is a fault of the program, not of your pattern: please report it with this line",
    )


def record(argument: str, result: Result) -> dict[str, Any]:
    """A result as plain data for JSON."""
    findings = to_json(result.findings)
    return {"pattern": argument, "findings": findings, "result": result.data}


def tell(pattern: Named, result: Result, done: str) -> None:
    """Print the findings in full, then what was done with the pattern if it has no error."""
    if result.findings:
        say(full(result.findings, pattern.files.lines), err=True)
        say(f"{visible(pattern.argument)}: {summary(result.findings)}", err=True)
    if not result.failed:
        say(f"{visible(pattern.argument)}: {done}")
        for line in result.lines:
            say(visible(line))


def stop(message: str, help: str) -> NoReturn:
    """Say what a command can't do and what to do instead, and end it with exit code 1."""
    say(f"error: {message}\nhelp: {help}", err=True)
    sys.exit(1)


def say(text: str, err: bool = False) -> None:
    """Print lines, without anything in them that could move the cursor or turn the writing."""
    stream = sys.stderr if err else sys.stdout
    encoding = getattr(stream, "encoding", None) or "utf-8"
    seen = "\n".join(visible(line) for line in text.split("\n"))
    click.echo(seen.encode(encoding, HANDLER).decode(encoding), err=err)
