"""What is kept from run to run is what would be made anew, or it is made anew."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from bindoff.kept import Shelf


@pytest.fixture
def module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    path = tmp_path / "maker.py"
    path.write_text("made = 1\n")
    return path


def a_run(module: Path, asked: str, library: str = "click", most: int = 10) -> str:
    """The letters of ``asked`` that a run had to make, whose shelf is then kept."""
    shelf: Shelf[str] = Shelf(str(module), most, libraries=(library,))
    made: list[str] = []

    def make(letter: str) -> Callable[[], str]:
        return lambda: made.append(letter) or letter.upper()  # type: ignore[func-returns-value]

    assert [shelf.get(letter, make(letter)) for letter in asked] == list(asked.upper())
    shelf.keep()
    return "".join(made)


def written(module: Path) -> list[Path]:
    return sorted((module.parent / "__pycache__").glob("*"))


def test_what_one_run_made_the_next_takes(module: Path) -> None:
    assert a_run(module, "abab") == "ab"
    assert a_run(module, "abc") == "c"
    assert a_run(module, "cba") == ""
    assert [path.suffix for path in written(module)] == [".kept"]


def test_another_source_or_library_makes_it_anew(module: Path) -> None:
    assert a_run(module, "a") == "a"
    assert a_run(module, "a", library="msgspec") == "a"
    assert a_run(module, "a", library="msgspec") == ""
    module.write_text("made = 2\n")
    assert a_run(module, "a", library="msgspec") == "a"


@pytest.mark.parametrize("at", [0, 16, 40, -1])
def test_a_damaged_file_is_made_anew(module: Path, at: int) -> None:
    a_run(module, "abc")
    (path,) = written(module)
    data = bytearray(path.read_bytes())
    data[at] ^= 1
    path.write_bytes(data)
    assert a_run(module, "abc") == "abc"
    path.write_bytes(path.read_bytes()[:50])
    assert a_run(module, "abc") == "abc"
    path.write_bytes(b"")
    assert a_run(module, "abc") == "abc"
    assert a_run(module, "abc") == ""


def test_no_more_is_kept_than_there_is_room_for(module: Path) -> None:
    assert a_run(module, "abcd", most=4) == "abcd"
    assert a_run(module, "ae", most=4) == "e"
    assert a_run(module, "ae", most=4) == ""
    assert a_run(module, "b", most=4) == "b", "nobody had asked for it in the last run"
    assert a_run(module, "vwxyz", most=4) == "vwxyz"
    assert a_run(module, "vwxy", most=4) == ""


def test_nothing_is_written_where_python_writes_nothing(
    module: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert a_run(module, "a") == "a"
    assert written(module) == []


def test_a_place_that_takes_no_files_costs_nothing_but_time(module: Path) -> None:
    (module.parent / "__pycache__").write_text("a file in the place of the folder")
    assert a_run(module, "a") == "a"
    assert a_run(module, "a") == "a"


@pytest.mark.parametrize("call", ["write_bytes", "replace"])
def test_a_full_or_busy_disk_keeps_nothing_and_leaves_nothing(
    module: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    assert a_run(module, "a") == "a"
    before = {path: path.read_bytes() for path in written(module)}
    real = Path.write_bytes

    def refused(path: Path, what: Path | bytes) -> None:
        if isinstance(what, bytes):
            real(path, what[:10])
        raise OSError

    with monkeypatch.context() as patched:
        patched.setattr(Path, call, refused)
        assert a_run(module, "ab") == "b"

    assert {path: path.read_bytes() for path in written(module)} == before
    assert a_run(module, "ab") == "b"


def test_the_command_keeps_what_it_made_and_takes_it_the_next_time(tmp_path: Path) -> None:
    script = (
        "import sys\n"
        "from bindoff import cli, regex\n"
        "sys.pycache_prefix, sys.dont_write_bytecode = sys.argv.pop(1), False\n"
        "print(regex.compile('a+').findall('baa'))\n"
        "print(len(regex.SHELF._read))\n"
        "cli.run()"
    )

    def run() -> list[str]:
        command = [sys.executable, "-c", script, str(tmp_path), "--version"]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        return done.stdout.splitlines()[:2]

    assert run() == ["['aa']", "0"]
    assert run() == ["['aa']", "1"]
