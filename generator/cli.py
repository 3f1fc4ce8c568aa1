"""The ``bindoff`` command. Each command imports what it needs when it runs."""

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from generator.diagnostics import Diagnostic, PatternError

if TYPE_CHECKING:
    from generator.files import DiskFiles

Findings = tuple[Diagnostic, ...]


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="bindoff")
def main() -> None:
    """Write a knitting pattern once; get its PDF, text, charts and proved numbers."""


@main.command()
@click.argument("patterns", nargs=-1, required=True, metavar="PATTERN...")
@click.option("--out", default="build", show_default=True, help="Folder for the outputs.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@click.option("--grey", is_flag=True, help="Print in grey.")
@click.option("--json", "as_json", is_flag=True, help="Say what was built or found as JSON.")
def build(
    patterns: tuple[str, ...],
    out: str,
    paper: Literal["a4", "letter"],
    grey: bool,
    as_json: bool,
) -> None:
    """Build every PATTERN (a folder or its pattern.yaml) into a folder of its name."""
    from generator.pipeline import build_pattern
    from generator.render.output import publish
    from generator.render.pdf import PdfOptions

    def build_one(files: "DiskFiles", source: str, called: str) -> list[str]:
        outputs = build_pattern(files, source, called, PdfOptions(paper=paper, grey=grey))
        folder = Path(out) / called
        publish(outputs.files, folder)
        return [str(folder / name) for name in sorted(outputs.files)]

    _for_each(patterns, build_one, as_json, "built")


@main.command()
@click.argument("patterns", nargs=-1, required=True, metavar="PATTERN...")
@click.option("--json", "as_json", is_flag=True, help="Print findings as JSON.")
def check(patterns: tuple[str, ...], as_json: bool) -> None:
    """Read and prove every PATTERN without writing anything."""
    from generator.document.build import build_document
    from generator.pipeline import plan_pattern

    def check_one(files: "DiskFiles", source: str, called: str) -> list[str]:
        build_document(plan_pattern(files, source, called), files)
        return []

    _for_each(patterns, check_one, as_json, "sound")


@main.command()
@click.option("--out", type=click.Path(dir_okay=False), help="Write to this file.")
def schema(out: str | None) -> None:
    """Print the JSON Schema of pattern.yaml, for editors that complete and check it."""
    from generator.source.models import Pattern

    text = json.dumps(Pattern.model_json_schema(), ensure_ascii=False, indent=2) + "\n"
    if out is None:
        click.echo(text, nl=False)
    else:
        Path(out).write_text(text, encoding="utf-8")


def _for_each(patterns: tuple[str, ...], work: object, as_json: bool, done: str) -> None:
    """Run ``work`` on every pattern; report each; exit 1 if any has an error."""
    assert callable(work)
    records: list[dict[str, object]] = []
    failed = False
    for argument in patterns:
        findings, outputs = _attempt(argument, work)
        failed = failed or bool(findings)
        if as_json:
            records.append(_record(argument, findings, outputs))
        else:
            _tell(argument, findings, outputs, done)
    if as_json:
        click.echo(json.dumps(records, ensure_ascii=False, indent=1))
    sys.exit(1 if failed else 0)


def _attempt(argument: str, work: object) -> tuple[Findings, list[str]]:
    from generator.files import DiskFiles, split_pattern_path

    assert callable(work)
    folder, source = split_pattern_path(argument)
    called = Path(folder).resolve().name
    try:
        return (), work(DiskFiles(folder), source, called)
    except PatternError as error:
        return error.findings, []


def _record(argument: str, findings: Findings, outputs: list[str]) -> dict[str, object]:
    from generator.report import to_json

    return {"pattern": argument, "findings": to_json(findings), "outputs": outputs}


def _tell(argument: str, findings: Findings, outputs: list[str], done: str) -> None:
    from generator.files import DiskFiles, split_pattern_path
    from generator.report import full, summary

    if not findings:
        click.echo(f"{argument}: {done}")
        for path in outputs:
            click.echo(f"  {path}")
        return
    folder, _ = split_pattern_path(argument)
    click.echo(full(findings, DiskFiles(folder).lines), err=True)
    click.echo(f"{argument}: {summary(findings)}", err=True)
