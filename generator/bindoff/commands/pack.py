"""``bindoff pack``: the shop folder of a pattern, and copies for one reader."""

from pathlib import Path
from typing import Any

import click

from bindoff.commands.shared import Named, Result, for_each, named
from bindoff.editions import file_part

LONGEST = 40
"""Characters of a reader's name: the foot of a page in large print has room for so many."""


def _reader(_: click.Context, __: click.Parameter, value: str | None) -> str:
    """The reader's name on one line; what can't be printed or named after is said as click does."""
    reader = " ".join((value or "").split())
    if value is None:
        return ""
    if not file_part(reader):
        raise click.BadParameter("Name the reader or the order with a letter or digit of ASCII.")
    if len(reader) > LONGEST or not reader.isprintable():
        raise click.BadParameter(f"Name the reader or the order in at most {LONGEST} characters.")
    return reader


@click.command(name="pack")
@click.argument("patterns", nargs=-1, required=True, metavar="PATTERN...")
@click.option("--out", default="pack", show_default=True, help="Folder for the shop folders.")
@click.option(
    "--for",
    "reader",
    callback=_reader,
    metavar="READER",
    help="Make one reader's copy: this name or order number in the foot of every page.",
)
@click.option(
    "--changes",
    type=click.Path(exists=True),
    metavar="OLD",
    help="Tell what differs from this earlier version, which buyers may have.",
)
@click.option("--json", "as_json", is_flag=True, help="Say what was packed or found as JSON.")
def command(
    patterns: tuple[str, ...], out: str, reader: str, changes: str | None, as_json: bool
) -> None:
    """Pack every PATTERN (a folder or its pattern.yaml) for a shop.

    A folder of its name holds the editions that the source chooses (`editions:`), loose and in a
    zip, cover pictures, a sheet of the pages, the text of the listing, and what is new for earlier
    buyers. Nothing of it is locked: a reader's copy is told by a line of text alone.
    """
    if changes and len(patterns) > 1:
        raise click.UsageError("--changes is for one PATTERN: pack them one at a time.")

    def work(pattern: Named) -> Result:
        from bindoff.packing import pack_pattern
        from bindoff.pipeline import plan_pattern
        from bindoff.render.output import publish

        old = named(changes) if changes else None
        earlier = plan_pattern(old.files, old.source, old.called) if old else None
        packed = pack_pattern(pattern.files, pattern.source, pattern.called, earlier, reader)
        part = f"-for-{file_part(reader)}" if reader else ""
        folder = Path(out) / f"{pattern.called}{part}"
        publish(packed.files, folder)
        paths: list[Any] = [str(folder / name) for name in sorted(packed.files)]
        return Result(packed.findings, tuple(f"  {path}" for path in paths), paths)

    for_each(patterns, work, as_json, "packed")
