"""``bindoff desk``: a page in the browser to write a pattern and see its pages and findings."""

import os
import sys
import tempfile
import threading
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import click

from bindoff.commands.shared import say, stop
from bindoff.report import visible


@click.command(name="desk")
@click.argument("pattern", type=click.Path(), default=".", metavar="[PATTERN OR FOLDER]")
@click.option("--out", default="build", show_default=True, help="Folder for what is made.")
@click.option("--port", type=click.IntRange(1024, 65535), help="Port [default: any that is free].")
@click.option("--no-browser", is_flag=True, help="Only say the address; open nothing.")
@click.option("--read-only", is_flag=True, help="Show, and change nothing.")
@click.option(
    "--icon",
    is_flag=True,
    help="Put an icon on your desktop that opens this desk by a double click, and end.",
)
def command(
    pattern: str, out: str, port: int | None, no_browser: bool, read_only: bool, icon: bool
) -> None:
    """Write, see and check a pattern on a page in your browser.

    Without a PATTERN it offers the patterns of this folder, or begins one. The page is served to
    this machine alone; nothing leaves it. Ctrl-C ends it.
    """
    if not Path(pattern).exists():
        stop(
            f"there is no folder or file `{visible(pattern)}`",
            "Name a pattern, a folder of patterns, or make the folder first",
        )
    if icon:
        ports = [] if port is None else ["--port", str(port)]
        _put_icon([pattern, "--out", out, *ports, *(["--read-only"] if read_only else [])])
        return
    # Loaded here, because no other command needs a server.
    from bindoff.desk.server import Running
    from bindoff.desk.state import Desk
    from bindoff.desk.workplace import Workplace

    try:
        running = Running(Desk(Workplace(pattern), out, read_only, click.launch), port or 0)
    except OSError as error:
        stop(
            f"the desk can't listen on this machine: {error.strerror or error}",
            "Another program may have that port: leave `--port` out",
        )
    with suppress(KeyboardInterrupt), _way_in(running.address) as door:
        say(f"The desk is at {running.address}\nCtrl-C ends it.")
        if not no_browser:
            # Some browsers hold on to whoever opens them.
            threading.Thread(target=webbrowser.open, args=(door,), daemon=True).start()
        running.serve()
    say("\nended")
    sys.exit(0)


def _put_icon(arguments: list[str]) -> None:
    from bindoff.desk.launcher import put_launcher

    try:
        place = put_launcher(arguments)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else None
        stop(f"no icon could be made: {why or error}", "Open the desk by `bindoff desk` instead")
    say(
        f"made {visible(str(place))}\nDouble-click it to open the desk, and close the window that "
        "comes with it to end it. If your system doesn't start it, right-click it and allow that."
    )


@contextmanager
def _way_in(address: str) -> Iterator[str]:
    """A file that only this user can read and that leads to the page.

    The browser gets its name instead of the address, because what a program is called with is seen
    by every user of the machine, and the address holds the secret.
    """
    handle, name = tempfile.mkstemp(prefix="desk-", suffix=".html")
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(
                '<!doctype html><meta charset="utf-8"><title>The desk</title>'
                f'<meta http-equiv="refresh" content="0; url={address}">'
                f'<p><a href="{address}">To the desk</a></p>\n'
            )
        yield Path(name).as_uri()
    finally:
        with suppress(OSError):
            os.unlink(name)
