"""``bindoff build``: all outputs of every pattern, each folder replaced as a whole."""

from pathlib import Path
from typing import Literal

import click

from generator.commands.shared import Named, Result, for_each


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
        return Result(lines=tuple(f"  {path}" for path in paths), data=paths)

    for_each(patterns, build, as_json, "built")
