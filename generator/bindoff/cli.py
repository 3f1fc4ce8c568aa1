"""The ``bindoff`` command: a table of its commands, each loaded only when it is called."""

import gc
import os
import sys
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Any

import click

from bindoff.console import on_console
from bindoff.installed import version_of

# name -> what it does; the module of that name in bindoff.commands has a function ``command``.
COMMANDS: dict[str, str] = {
    "desk": "Write, see and check a pattern on a page in your browser.",
    "new": "Start a pattern: a folder with a small source that builds.",
    "read": "Make a draft of pattern.yaml from the text of a finished pattern.",
    "check": "Read and prove patterns without writing anything.",
    "build": "Build the PDF, text, charts and numbers of patterns.",
    "pack": "Make the shop folder: editions, zip, cover pictures, listing, what is new.",
    "compare": "Say what differs between two versions, or at another gauge.",
    "watch": "Build patterns again whenever one of their files is saved.",
    "plan": "Show how the sizes fit, how colours are best worked, and where the yarn goes.",
    "grid": "Make a chart grid from a picture or a spreadsheet, or see it as knitted fabric.",
    "words": "List and explain the words that rows know: stitches, symbols, both sides.",
    "help": "Explain what may be written, topic by topic or key by key.",
    "guide": "Write the whole guide as a PDF and as text.",
    "schema": "Print the JSON Schema of pattern.yaml.",
    "completion": "Print what a shell needs to complete commands as you type.",
}


class _Commands(click.Group):
    """Lists all commands without importing any."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"bindoff.commands.{cmd_name}").command
        assert isinstance(command, click.Command)
        return command

    def main(self, *args: Any, **kwargs: Any) -> Any:
        """Runs the command on a console that takes whatever is said."""
        return on_console(lambda: super(_Commands, self).main(*args, **kwargs))

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Alone, the command says where to begin."""
        self.epilog = None if args else _way_to_the_desk()
        return super().parse_args(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


def _way_to_the_desk() -> str | None:
    """What to type in a folder with patterns; ``None`` where there are none."""
    places = ("", "*/", "patterns/*/")
    if any(next(Path().glob(f"{place}pattern.yaml"), None) for place in places):
        return "This folder has patterns: `bindoff desk` opens them on a page in your browser."
    return None


def _say_version(context: click.Context, _: click.Parameter, asked: bool) -> None:
    """The version that is installed; none where the program runs from its own source."""
    if asked and not context.resilient_parsing:
        found = version_of("bindoff")
        version = f"version {found}" if found else "not installed: run from its source"
        click.echo(f"bindoff, {version}")
        context.exit()


@click.command(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_say_version,
    help="Show the version and exit.",
)
def main() -> None:
    """Write a knitting pattern once; get its PDF, text, charts and proved numbers."""


# More objects than one pattern leaves, so that its build looks for no cycles; a long session does.
_OBJECTS_BETWEEN_COLLECTIONS = 1_000_000


def run() -> None:
    """``main`` as a process of its own, which loads much and soon ends.

    Garbage is sought late, and what was loaded is not taken apart at the end: the system takes it
    back at once. All that was said has been written by then; where it can't be, Python's own end
    says so. The reader of models doesn't look through all packages of the system for plugins of
    its own: that takes longer the more there are, and none should change what a pattern means.
    """
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    gc.set_threshold(_OBJECTS_BETWEEN_COLLECTIONS)
    try:
        main(prog_name="bindoff")
    except SystemExit as end:
        if "bindoff.kept" in sys.modules:
            sys.modules["bindoff.kept"].keep_all()
        if end.code is None or isinstance(end.code, int):
            with suppress(OSError, ValueError):
                for stream in filter(None, (sys.stdout, sys.stderr)):
                    stream.flush()
                os._exit(end.code or 0)
        raise
