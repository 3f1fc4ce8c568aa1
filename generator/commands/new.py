"""``bindoff new``: a folder with a small pattern that builds as it is."""

import sys
from pathlib import Path

import click


@click.command(name="new")
@click.argument("name")
@click.option("--in", "parent", default="patterns", show_default=True, help="Folder to put it in.")
def command(name: str, parent: str) -> None:
    """Start the pattern NAME: a folder with a source to change, and a chart."""
    from generator.files import packaged_template

    folder = Path(parent) / name
    if folder.exists():
        click.echo(f"error: `{folder}` is there already\nhelp: Choose another name", err=True)
        sys.exit(1)
    title = name.replace("-", " ").replace("_", " ").title()
    texts = {part: packaged_template(f"start/{part}") for part in ("pattern.yaml", "waves.grid")}
    try:
        folder.mkdir(parents=True)
        for part, text in texts.items():
            assert text is not None
            (folder / part).write_text(text.replace("@TITLE@", title), encoding="utf-8")
    except OSError as error:
        click.echo(f"error: `{folder}` can't be written: {error.strerror}", err=True)
        sys.exit(1)
    click.echo(f"{folder}: started. Change {folder / 'pattern.yaml'}, then: bindoff build {folder}")
