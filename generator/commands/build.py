"""``bindoff build``: all outputs of every pattern, each folder replaced as a whole."""

from pathlib import Path
from typing import Literal

import click

from generator.commands.shared import Named, Result, for_each, named


@click.command(name="build")
@click.argument("patterns", nargs=-1, required=True, metavar="PATTERN...")
@click.option("--out", default="build", show_default=True, help="Folder for the outputs.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@click.option("--large-print", is_flag=True, help="Set the PDF in 18 pt and more.")
@click.option("--grey", is_flag=True, help="Set the PDF without colour.")
@click.option("--json", "as_json", is_flag=True, help="Say what was built or found as JSON.")
def command(
    patterns: tuple[str, ...],
    out: str,
    paper: Literal["a4", "letter"],
    large_print: bool,
    grey: bool,
    as_json: bool,
) -> None:
    """Build every PATTERN (a folder or its pattern.yaml) into a folder of its name."""

    def build(pattern: Named) -> Result:
        from generator.pipeline import build_pattern
        from generator.render.output import publish
        from generator.render.pdf import PdfOptions

        options = PdfOptions(paper=paper, large_print=large_print, grey=grey)
        outputs = build_pattern(pattern.files, pattern.source, pattern.called, options)
        folder = Path(out) / pattern.called
        publish(outputs.files, folder)
        paths = [str(folder / name) for name in sorted(outputs.files)]
        return Result(outputs.findings, tuple(f"  {path}" for path in paths), paths)

    _refuse_same_names(patterns)
    for_each(patterns, build, as_json, "built")


def _refuse_same_names(patterns: tuple[str, ...]) -> None:
    """One output folder can't hold two patterns."""
    folders: dict[str, Path] = {}
    for argument in patterns:
        pattern = named(argument)
        source = (Path(pattern.argument) if Path(argument).is_dir() else Path(argument)).resolve()
        if folders.setdefault(pattern.called, source) != source:
            raise click.UsageError(
                f"Two patterns would both be built into `{pattern.called}`: build them one at a "
                "time, each with its own --out."
            )
