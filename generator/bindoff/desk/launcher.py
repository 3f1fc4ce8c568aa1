"""A file to double-click that opens the desk: for those who want to type its command once only.

What may stand in it is for each system to say: Desktop Entry Specification 1.5 (freedesktop.org) on
Linux, a script for the shell on macOS, one for the command processor on Windows.
"""

import os
import shlex
import stat
import sys
from collections.abc import Sequence
from pathlib import Path

from platformdirs import user_desktop_path

from bindoff.commands.wholefile import write_whole
from bindoff.records import Record

NAME = "Knitting desk"


class Launcher(Record):
    """A file to double-click: its name and what it holds."""

    name: str
    text: str


def launcher(system: str, folder: str, command: Sequence[str]) -> Launcher:
    """What starts ``command`` in ``folder`` on a system, named as ``sys.platform`` names it.

    Raises:
        ValueError: for a folder or an argument that no such file can hold.
    """
    if not all(text.isprintable() for text in (folder, *command)):
        raise ValueError("a name with signs that can't be printed can't stand in such a file")
    if system == "win32":
        words = " ".join(f'"{each}"' for each in command).replace("%", "%%")
        inside = folder.replace("%", "%%")
        return Launcher(f"{NAME}.cmd", f'@chcp 65001 >nul\r\n@cd /d "{inside}"\r\n@{words}\r\n')
    if system == "darwin":
        words = f"cd {shlex.quote(folder)} && exec {shlex.join(command)}"
        return Launcher(f"{NAME}.command", f"#!/bin/sh\n{words}\n")
    lines = (
        "[Desktop Entry]",
        "Type=Application",
        "Version=1.5",
        f"Name={NAME}",
        "Comment=Write knitting patterns and see their pages",
        f"Path={_escaped(folder)}",
        f"Exec={_escaped(' '.join(map(_argument, command)))}",
        "Terminal=true",
        "Categories=Graphics;Publishing;",
    )
    return Launcher(f"{NAME}.desktop", "\n".join(lines) + "\n")


def _argument(word: str) -> str:
    """A word of ``Exec``: in quotes, with a backslash before what means something in them."""
    for sign in ("\\", '"', "`", "$"):
        word = word.replace(sign, f"\\{sign}")
    return f'"{word}"'.replace("%", "%%")


def _escaped(text: str) -> str:
    """A string of a desktop entry, whose backslashes are doubled."""
    return text.replace("\\", "\\\\")


def put_launcher(arguments: Sequence[str]) -> Path:
    """Put a launcher that opens the desk of this folder, with ``arguments``, on the desktop, or
    into this folder where there is none; one that stands there is replaced.

    Raises:
        OSError: if it can't be written.
        ValueError: as ``launcher``.
    """
    command = (sys.executable, "-m", "bindoff", "desk", *arguments)
    made = launcher(sys.platform, os.getcwd(), command)
    desktop = user_desktop_path()
    place = (desktop if desktop.is_dir() else Path.cwd()) / made.name
    write_whole(place, made.text.encode("utf-8"))
    place.chmod(place.stat().st_mode | stat.S_IXUSR)
    return place
