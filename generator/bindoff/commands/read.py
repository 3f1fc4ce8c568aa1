"""``bindoff read``: a draft of a source from the text of a finished pattern."""

import sys
from datetime import UTC, datetime
from pathlib import Path

import click

from bindoff.commands.new import SCHEMA, SOURCE, refuse_odd_name, write_folder
from bindoff.commands.shared import say, stop


@click.command(name="read")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--name", help="What to call the pattern; else as the file is called.")
@click.option("--in", "parent", default="patterns", show_default=True, help="Folder to put it in.")
def command(file: Path, name: str | None, parent: str) -> None:
    """Make a draft of pattern.yaml from FILE, the plain text or Markdown of a finished pattern.

    Sizes, gauge, yarns, materials, cast-ons and rows become keys and steps; what isn't understood
    stays where it stands in its own words, and is listed. No number is guessed, no word lost.
    """
    from bindoff.commands.schema import schema
    from bindoff.diagnostics import PatternError
    from bindoff.draft.compose import read_text
    from bindoff.draft.lines import raw_lines
    from bindoff.draft.passages import refuse_other_kinds
    from bindoff.draft.write import draft
    from bindoff.report import full

    try:
        data = file.read_bytes()
        dated = datetime.fromtimestamp(file.stat().st_mtime, UTC).date().isoformat()
    except OSError as error:
        stop(f"`{file}` can't be read: {error.strerror}", "Name a text file that is there")
    try:
        text = refuse_other_kinds(data, file.name)
    except PatternError as error:
        say(full(error.findings, lambda _: ()), err=True)
        sys.exit(1)
    called = name or _name_from(file)
    refuse_odd_name(called)
    made = draft(read_text(text), file.as_posix(), dated, called.replace("-", " ").title())
    folder = Path(parent) / called
    write_folder(folder, {SOURCE: made.source, SCHEMA: schema()})
    if made.findings:
        lines = raw_lines(text)
        say(full(made.findings, lambda _: tuple(lines)), err=True)
    say(
        f"{folder}: drafted. Sentences understood: {made.understood}; left in their own words: "
        f"{made.kept}. Now: bindoff check {folder}"
    )


def _name_from(file: Path) -> str:
    """The file's name as that of a folder: letters, digits and dashes."""
    kept = "".join(mark if mark.isalnum() else "-" for mark in file.stem)
    return "-".join(part for part in kept.split("-") if part).lower() or "draft"
