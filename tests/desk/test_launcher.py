"""The file to double-click, read by what reads such files: pyxdg, and the shell.

What stands in it follows the Desktop Entry Specification 1.5, sections "Recognized desktop entry
keys" and "The Exec key" (freedesktop.org). Nothing here runs Windows: its file is compared as text.
"""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from xdg.DesktopEntry import DesktopEntry

from bindoff.desk.launcher import NAME, launcher

ODD = ["two words", 'a "quote"', "it's", "100 %", "50%u", "$HOME", "`pwd`", "back\\slash", "-"]


def test_a_desktop_entry_is_valid_and_means_every_word_as_it_is(tmp_path: Path) -> None:
    made = launcher("linux", str(tmp_path / "my\\knits"), ["printf", "%s\\n", *ODD])
    file = tmp_path / made.name
    file.write_text(made.text, encoding="utf-8")

    entry = DesktopEntry(str(file))
    entry.validate()
    words = entry.getExec().replace("\\\\", "\\").replace("%%", "%")
    said = subprocess.run(["sh", "-c", words], capture_output=True, text=True, check=True).stdout

    assert entry.getPath().replace("\\\\", "\\") == str(tmp_path / "my\\knits")
    assert said.splitlines() == ODD


def test_a_script_of_macos_means_every_word_as_it_is(tmp_path: Path) -> None:
    folder = tmp_path / 'it\'s 100 % "mine" $HOME'
    folder.mkdir()
    made = launcher("darwin", str(folder), ["sh", "-c", 'pwd; printf "%s\\n" "$@"', "-", *ODD])
    said = subprocess.run(["sh", "-c", made.text], capture_output=True, text=True, check=True)

    assert made.name.endswith(".command")
    assert said.stdout.splitlines() == [str(folder), *ODD]


def test_a_script_of_windows_doubles_its_percent_signs() -> None:
    made = launcher("win32", r"C:\My knits 100%", [r"C:\Python\python.exe", "-m", "bindoff"])

    assert made.name.endswith(".cmd")
    assert made.text.split("\r\n") == [
        "@chcp 65001 >nul",
        r'@cd /d "C:\My knits 100%%"',
        r'@"C:\Python\python.exe" "-m" "bindoff"',
        "",
    ]


def test_a_name_with_a_line_break_is_refused() -> None:
    with pytest.raises(ValueError, match="can't stand in such a file"):
        launcher("linux", "/home/a\nExec=other", ["x"])


def run(folder: Path, home: Path, *arguments: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "bindoff", "desk", "--icon", *arguments],
        cwd=folder,
        env={**os.environ, "HOME": str(home), "XDG_CONFIG_HOME": str(home / ".config")},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.skipif(sys.platform != "linux", reason="starts what a Linux desktop starts")
def test_the_icon_opens_the_desk_of_its_folder(tmp_path: Path) -> None:
    knits = tmp_path / "my knits"
    (tmp_path / "Desktop").mkdir()
    knits.mkdir()

    first, again = run(knits, tmp_path), run(knits, tmp_path, "--read-only")
    file = tmp_path / "Desktop" / f"{NAME}.desktop"
    entry = DesktopEntry(str(file))

    assert (first.returncode, again.returncode) == (0, 0)
    assert f"made {file}" in first.stdout
    assert os.access(file, os.X_OK)
    assert entry.getExec().endswith('"--read-only"')
    assert entry.getPath() == str(knits)
    with subprocess.Popen(
        ["sh", "-c", f"exec {entry.getExec()}"],
        cwd=entry.getPath(),
        env={**os.environ, "BROWSER": "true"},
        stdout=subprocess.PIPE,
        text=True,
    ) as desk:
        assert desk.stdout is not None
        assert desk.stdout.readline().startswith("The desk is at http://127.0.0.1:")
        desk.send_signal(signal.SIGINT)
        assert desk.wait(30) == 0


@pytest.mark.skipif(sys.platform != "linux", reason="the place of the desktop is set as on Linux")
def test_without_a_desktop_the_icon_lies_in_the_folder(tmp_path: Path) -> None:
    assert run(tmp_path, tmp_path / "home").returncode == 0
    assert (tmp_path / f"{NAME}.desktop").exists()
