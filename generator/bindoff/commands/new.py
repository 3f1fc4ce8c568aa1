"""``bindoff new``: a folder with a small pattern that builds as it is."""

import shutil
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

import click

from bindoff.commands.shared import say, stop
from bindoff.english import listed
from bindoff.render.output import is_reserved

SOURCE = "pattern.yaml"
SCHEMA = "pattern.schema.json"

STARTERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "cowl": ("waves.grid",),
        "hat": (),
        "mitten": (),
        "sock": (),
        "pullover": (),
        "shawl": (),
        "machine hat": ("boat.grid",),
        "machine cowl": (),
    }
)
"""What a pattern can begin with, the usual one first, and the charts that each has."""


@click.command(name="new")
@click.argument("name")
@click.option("--in", "parent", default="patterns", show_default=True, help="Folder to put it in.")
@click.option(
    "--from",
    "starter",
    type=click.Choice([*STARTERS, *(each.replace(" ", "-") for each in STARTERS if " " in each)]),
    default=next(iter(STARTERS)),
    show_default=True,
    metavar="KIND",
    help=f"What to begin with: {listed(STARTERS, 'or')}.",
)
def command(name: str, parent: str, starter: str) -> None:
    """Start the pattern NAME: a folder with a source to change, and its charts."""
    refuse_odd_name(name)
    folder = Path(parent) / name
    write_folder(folder, texts(name, starter.replace("-", " ")))
    say(f"{folder}: started. Change {folder / SOURCE}, then: bindoff build {folder}")


def refuse_odd_name(name: str) -> None:
    """Raises ``click.BadParameter``: the name becomes a folder, a title and names of outputs."""
    if not name or name != name.strip() or not all(c.isalnum() or c in " -_" for c in name):
        raise click.BadParameter(
            f"{name!r} can't be the name of a pattern: use letters, digits, dashes and spaces.",
            param_hint="NAME",
        )

    if is_reserved(name):
        raise click.BadParameter(
            f"{name!r} can't be the name of a pattern: Windows keeps it for a device. Add a word, "
            f"such as {name + '-hat'!r}.",
            param_hint="NAME",
        )


def texts(name: str, starter: str) -> Mapping[str, str]:
    """The files of a pattern called ``name``: its source, its charts, and the schema of the source,
    from which an editor knows every key."""
    from bindoff.commands.schema import schema
    from bindoff.files import packaged_template

    title = name.replace("-", " ").replace("_", " ").title()
    folder = starter.replace(" ", "-")
    parts = {
        part: packaged_template(f"start/{folder}/{part}") or ""
        for part in (SOURCE, *STARTERS[starter])
    }
    return {**parts, SOURCE: parts[SOURCE].replace("@TITLE@", title), SCHEMA: schema()}


def write_folder(folder: Path, texts: Mapping[str, str]) -> None:
    """A new pattern's folder with its files; ends the command where it can't be, or is there."""
    if folder.exists() or folder.is_symlink():
        stop(f"`{folder}` is there already", "Choose another name")
    try:
        _write(folder, texts)
    except OSError as error:
        stop(
            f"`{folder}` can't be written: {error.strerror}",
            "Choose another folder with `--in`, or allow writing to this one",
        )


def _write(folder: Path, texts: Mapping[str, str]) -> None:
    """All files or none: they are written beside the folder's place and moved there."""
    draft = folder.with_name(f".{folder.name}.new")
    draft.mkdir(parents=True)
    try:
        for part, text in texts.items():
            (draft / part).write_text(text, encoding="utf-8")
        draft.rename(folder)
    except OSError:
        shutil.rmtree(draft, ignore_errors=True)
        raise
