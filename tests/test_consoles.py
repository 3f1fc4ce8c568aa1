"""Whatever console a command speaks to, it says what it has to, or says that it can't."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from bindoff.cli import main
from bindoff.diagnostics import PatternError
from bindoff.render.output import publish
from tests.small_patterns import CAP, WAVES, changed

ROOT = Path(__file__).parents[1]
MORE = (
    "build cap --html --epub --test-sheets",
    "pack cap",
    "compare cap cap --words",
)
"""Slow commands, which speak to the poorest console alone."""

CONSOLES = ("cp1252", "cp437", "ascii")


def shell(line: str, folder: Path, encoding: str = "utf-8") -> "subprocess.CompletedProcess[bytes]":
    """A line of a shell in which ``bindoff`` is the command."""
    command = f'bindoff() {{ "{sys.executable}" -m bindoff "$@"; }}; {line}'
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "generator")}
    return subprocess.run(
        ["bash", "-c", command],
        cwd=folder,
        env={**environment, "PYTHONIOENCODING": encoding},
        capture_output=True,
        check=False,
    )


def write(folder: Path, text: str = CAP) -> None:
    folder.mkdir()
    (folder / "pattern.yaml").write_text(text, "utf-8")
    (folder / "waves.grid").write_text(WAVES, "utf-8")


@pytest.mark.parametrize("encoding", CONSOLES)
def test_every_command_survives_every_console(encoding: str, tmp_path: Path) -> None:
    write(tmp_path / "cap", changed(CAP, ("title: Quay Cap", "title: Ωmega – 2 × 3 … ‘Ł’")))
    slow = MORE if encoding == "ascii" else ()
    quick = ("check --list", "new Ωmega", "plan cap", "check cap Ω", "schema")
    for line in (*quick, *slow):
        done = shell(f"bindoff {line}", tmp_path, encoding)
        said = (done.stdout + done.stderr).decode(encoding)
        assert "Traceback" not in said, line
        assert done.returncode == (1 if line == "check cap Ω" else 0), (line, said)
        assert said


def test_what_a_console_lacks_is_said_in_plain_letters(tmp_path: Path) -> None:
    write(tmp_path / "cap", changed(CAP, ("title: Quay Cap", "title: 2 × 3 … ‘x’ – y")))

    assert b"2 x 3 ... 'x' - y, version" in shell("bindoff plan cap", tmp_path, "ascii").stdout


@pytest.mark.parametrize("line", ["check --list", "build cap", "plan cap --json", "--help"])
@pytest.mark.parametrize("where", [">&-", "> /dev/full", "2>&1 >&- | cat >&2"])
def test_an_output_that_takes_nothing_is_told(line: str, where: str, tmp_path: Path) -> None:
    if "/dev/full" in where and not Path("/dev/full").exists():
        pytest.skip("no such device here")
    write(tmp_path / "cap")
    done = shell(f"set -o pipefail; bindoff {line} {where}", tmp_path)

    assert done.returncode == 1
    assert b"error: the output can't be printed" in done.stderr
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr


def test_a_reader_that_ends_early_is_told(tmp_path: Path) -> None:
    done = shell("set -o pipefail; bindoff check --list --json | true", tmp_path)

    assert done.returncode in (0, 1)  # 0 where all was written before the reader ended
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such names")
def test_names_of_folders_forge_no_line_and_turn_no_terminal(tmp_path: Path) -> None:
    for name in ("a\nerror: fake", "b\x1b[31m", "c\u202egpj"):
        write(tmp_path / name)
        result = CliRunner().invoke(main, ["check", str(tmp_path / name), str(tmp_path / "none")])
        assert not [line for line in result.output.splitlines() if line.startswith("error: fake")]
        assert "\x1b" not in result.output
        assert "\u202e" not in result.output


@pytest.mark.parametrize("name", ["con", "NUL", "aux", "com1", "Lpt9"])
def test_names_that_windows_keeps_for_devices_are_refused(name: str, tmp_path: Path) -> None:
    started = CliRunner().invoke(main, ["new", name, "--in", str(tmp_path)])
    assert started.exit_code == 2
    assert f"{name}-hat" in started.output
    assert not list(tmp_path.iterdir())

    with pytest.raises(PatternError, match="keeps it for a device"):
        publish({f"{name}.pdf": b""}, tmp_path / name)
