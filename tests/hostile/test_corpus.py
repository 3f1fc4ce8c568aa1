"""The real command on hostile patterns: no traceback, no hang, bounded memory, a remedy."""

import json
import os
import resource
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.hostile.corpus import CASES, NAMED, PLACELESS, files_of
from tests.pace import pace
from tests.small_patterns import CAP, WAVES

ROOT = Path(__file__).parents[2]
MEMORY = 2_000_000_000
"""Of addresses; what a build may really take is ``RESIDENT``."""
RESIDENT = 500_000_000
SECONDS = 60
PROCESSOR_SECONDS = 5
"""On the machine for which limits are told; ``pace`` says how much more this one may take."""


# Runs a command and writes the most memory it took, in kB, and its seconds of CPU. A process of its
# own, since what the test itself has taken counts in whatever it starts directly.
_MEASURED = """\
import resource, subprocess, sys
code = subprocess.run(sys.argv[2:]).returncode
with open(sys.argv[1], "w") as peak:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    peak.write(f"{used.ru_maxrss} {used.ru_utime + used.ru_stime}")
sys.exit(code if code >= 0 else 128 - code)
"""


def _limit() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (4 * PROCESSOR_SECONDS, 4 * PROCESSOR_SECONDS + 1))


@pytest.fixture(scope="module")
def compiled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where compiled modules are kept: what is measured is a program that is installed."""
    return tmp_path_factory.mktemp("compiled")


def _build(
    folder: Path, out: Path, compiled: Path, limit: Callable[[], None] | None = _limit
) -> "subprocess.CompletedProcess[str]":
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(compiled)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return subprocess.run(
        [
            *(sys.executable, "-c", _MEASURED, str(_peak(out))),
            *(sys.executable, "-m", "bindoff", "build", "--json", "--out", str(out), str(folder)),
        ],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        timeout=SECONDS,
        preexec_fn=limit,
        check=False,
    )


def _peak(out: Path) -> Path:
    """Where the memory and the CPU that a build took are written."""
    return out.with_name("peak")


def _took(out: Path) -> tuple[int, float]:
    """The bytes and the seconds that a build took."""
    kilobytes, seconds = _peak(out).read_text("utf-8").split()
    return int(kilobytes) * 1024, float(seconds)


def _bytes(folder: Path) -> dict[str, bytes]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory, compiled: Path) -> Path:
    """What an earlier build of the sound pattern left."""
    top = tmp_path_factory.mktemp("earlier")
    folder, out = top / "pattern", top / "out"
    folder.mkdir()
    (folder / "pattern.yaml").write_text(CAP, encoding="utf-8")
    (folder / "waves.grid").write_text(WAVES, encoding="utf-8")
    done = _build(folder, out, compiled, limit=None)
    assert done.returncode == 0, done.stdout
    return out


@pytest.mark.parametrize("name", CASES)
def test_a_hostile_pattern_ends_in_a_message_and_keeps_what_was_built(
    name: str, tmp_path: Path, built: Path, compiled: Path
) -> None:
    case = CASES[name]
    folder, out = tmp_path / "pattern", tmp_path / "out"
    folder.mkdir()
    for file, data in files_of(case).items():
        (folder / file).write_bytes(data if isinstance(data, bytes) else data.encode())
    for link, target in case.links.items():
        (folder / link).symlink_to(target)
    shutil.copytree(built, out)
    before = _bytes(out)
    done = _build(folder, out, compiled)
    said = done.stdout + done.stderr
    assert done.returncode != 128 + signal.SIGXCPU, f"it takes over {4 * PROCESSOR_SECONDS} s"
    assert "Traceback" not in said
    memory, seconds = _took(out)
    assert memory < RESIDENT
    assert seconds < PROCESSOR_SECONDS or seconds < PROCESSOR_SECONDS * pace()
    assert done.returncode in (0, 1), said[-2000:]
    findings = [f for record in json.loads(done.stdout) for f in record["findings"]]
    errors = [each for each in findings if each["severity"] == "error"]
    ids = {each["id"] for each in errors} or {None}
    assert ids & set(case.ids), findings[:3]
    assert "command.fault" not in ids
    assert all(each["message"] and each["help"] for each in errors)
    if done.returncode:
        assert _bytes(out) == before
        assert all(each["line"] and each["column"] for each in errors) or name in PLACELESS
        assert any(NAMED[name] in _shown(each) for each in errors), errors[0]


def _shown(finding: dict[str, str]) -> str:
    """What a reader sees of a finding: the message, and the text it points to."""
    if not finding["file"]:
        return finding["message"]
    text = Path(finding["file"]).read_bytes().decode("utf-8", "replace")
    lines = text.split("\n")[int(finding["line"]) - 1 : int(finding["end_line"])]
    lines[-1] = lines[-1][: int(finding["end_column"]) - 1]
    lines[0] = lines[0][int(finding["column"]) - 1 :]
    return "\n".join((finding["message"], *lines))
