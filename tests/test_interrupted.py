"""Builds that are killed, refused or disturbed: the last good output is whole, and help is told."""

import errno
import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, nullcontext
from itertools import product
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from filelock import FileLock

from bindoff.catalogue import BuildState, Job, Request, build
from bindoff.cli import main
from bindoff.render import output
from bindoff.render.output import STATE
from tests.small_patterns import CAP, WAVES, changed

ROOT = Path(__file__).parents[1]
KILLS = 36
MANY_KILLS = 2
EDITIONS = (CAP, changed(CAP, ("title: Quay Cap", "title: Smooth Cap"), ("rounds: 8", "rounds: 9")))


@pytest.fixture(autouse=True)
def _work_in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def write(text: str = CAP, folder: str = "cap") -> str:
    Path(folder).mkdir(parents=True, exist_ok=True)
    (Path(folder) / "pattern.yaml").write_text(text, "utf-8")
    (Path(folder) / "waves.grid").write_text(WAVES, "utf-8")
    return folder


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def command(*arguments: str) -> list[str]:
    return [sys.executable, "-c", "from bindoff.cli import main; main()", *arguments]


def environment() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(ROOT / "generator")}


def contents(folder: Path) -> Mapping[str, bytes]:
    """All files below a folder; none if it is not there."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def standing(out: Path) -> Mapping[str, bytes]:
    """The output of ``cap``: in the instant of the exchange it bears the name of the old one."""
    return contents(out / "cap") or contents(out / STATE / "cap.old")


def beside(out: Path) -> set[str]:
    """What lies beside the output, but for what the program always keeps of it."""
    state = {path.name for path in (out / STATE).iterdir()} if (out / STATE).exists() else set()
    always = {"cap", STATE, "cap.lock", "cap.list", "cap.json"}
    return ({path.name for path in out.iterdir()} | state) - always


def left_over(out: Path) -> set[tuple[str, int]]:
    """What a killed build left, told apart from what others left under the same name."""
    return {(name, (out / STATE / name).stat().st_ctime_ns) for name in beside(out)}


# ---------------------------------------------------------------- killed

# Builds (the second pattern in all its editions), or only publishes, on demand in a process that
# has everything loaded: forks to be killed.
BUILDER = """
import os, sys
from pathlib import Path
import filelock  # so that no kill falls into its loading
from bindoff.catalogue import Job, Request, build
from bindoff.editions import Wanted
from bindoff.render import output
from bindoff.render.output import STATE

def tell(word):
    os.write(1, f"{word}\\n".encode())

def job(edition):
    asked = Request(editions=Wanted(every=edition == "1"))
    return Job(f"{edition}/cap", "out", asked, "1", force=True)

def publish(files, folder, merge=output.nothing_stays):
    tell("publishing")
    real(files, folder)  # the files alone, so that one whole set tells which build came through
    tell("published")

real, made = output.publish, {}
charts = {f"charts/{number}.svg": b"<svg/>" for number in range(200)}  # they take their time
for edition in "01":
    output.publish = lambda files, folder, merge: made.update({edition: files | charts})
    build(job(edition))
output.publish = publish
tell("ready")
while line := sys.stdin.readline():
    what, edition = line.split()
    pid = os.fork()
    if not pid:
        tell(os.getpid())
        build(job(edition)) if what == "build" else publish(made[edition], Path("out/cap"))
        os._exit(0)
    os.waitid(os.P_PID, pid, os.WEXITED | os.WNOWAIT)
    tell("ended")
    sys.stdin.readline()
    os.waitpid(pid, 0)  # only now may another process get its number
"""


class Builder:
    """Starts builds and kills them; it says how long one takes until and after publishing."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self.process = process
        assert self.hear() == "ready"

    def hear(self) -> str:
        assert self.process.stdout is not None
        return self.process.stdout.readline().strip()

    def say(self, word: str) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(f"{word}\n")
        self.process.stdin.flush()

    def start(self, what: str, edition: int) -> int:
        self.say(f"{what} {edition}")
        return int(self.hear())

    def time(self, what: str, edition: int) -> tuple[float, float]:
        """Seconds from the start to the publishing, and those that takes."""
        self.start(what, edition)
        started = time.perf_counter()
        assert self.hear() == "publishing"
        publishing = time.perf_counter()
        assert self.hear() == "published"
        published = time.perf_counter()
        assert self.hear() == "ended"
        self.say("bury")
        return publishing - started, published - publishing

    def kill(self, pid: int, seconds: float) -> None:
        """After so many seconds, in which it may have ended by itself."""
        until = time.perf_counter() + seconds
        while time.perf_counter() < until:
            time.sleep(0)
        os.kill(pid, signal.SIGKILL)
        while self.hear() != "ended":
            pass
        self.say("bury")


@contextmanager
def builder() -> Iterator[Builder]:
    with subprocess.Popen(
        [sys.executable, "-c", BUILDER],
        env=environment(),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as process:
        yield Builder(process)
        process.communicate(timeout=10)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the builds are forks")
def test_a_build_that_is_killed_at_any_moment_leaves_the_last_good_output_whole(
    tmp_path: Path,
) -> None:
    """A third of the kills fall anywhere in a build, the others while it writes many charts."""
    out, chance, found = tmp_path / "out", random.Random(1), Counter[str]()
    whole: dict[tuple[str, int], Mapping[str, bytes]] = {}
    span: dict[str, float] = {}
    for edition, text in enumerate(EDITIONS):
        write(text, f"{edition}/cap")
    with builder() as builds:
        for what, edition in product(("build", "publish"), (0, 1)):
            before, after = builds.time(what, edition)
            span[what] = after if what == "publish" else before + after
            whole[what, edition] = contents(out / "cap")
        assert len({tuple(files.items()) for files in whole.values()}) == len(whole)

        for number in range(KILLS):
            what, edition = "publish" if number % 3 else "build", number % 2
            remains = left_over(out)
            pid = builds.start(what, edition)
            if what == "publish":
                assert builds.hear() == "publishing"
            builds.kill(pid, chance.uniform(0, span[what]))

            assert standing(out) in whole.values(), f"kill {number}"
            found["new" if standing(out) == whole[what, edition] else "old"] += 1
            found["in the midst"] += bool(left_over(out) - remains)

    assert found["in the midst"] >= KILLS / 10
    assert build(Job("0/cap", "out", Request(), "1", force=True)).state is BuildState.BUILT
    assert beside(out) == set()


@pytest.mark.parametrize("busy", [False, True])
def test_an_unchanged_pattern_has_its_remains_cleared_unless_a_build_is_at_work(busy: bool) -> None:
    write()
    run("build", "cap", "--out", "out")
    whole = contents(Path("out/cap"))
    for role in ("new", "old"):
        (Path("out") / STATE / f"cap.{role}" / "charts").mkdir(parents=True)
        (Path("out") / STATE / f"cap.{role}" / "charts" / "half.svg").write_text("<svg")
    with FileLock(f"out/{STATE}/cap.lock") if busy else nullcontext():
        result = run("build", "cap", "--out", "out")

    assert "cap: unchanged" in result.stdout
    assert contents(Path("out/cap")) == whole
    assert beside(Path("out")) == ({"cap.new", "cap.old"} if busy else set())


def children(pid: int) -> list[int]:
    return [int(each) for each in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]


def alive(pid: int) -> bool:
    """Whether a process runs; one that waits to be buried does not."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="looks for processes in /proc")
def test_a_killed_command_leaves_no_process_behind() -> None:
    names = [write(folder=f"cap-{number}") for number in range(8)]
    with subprocess.Popen(
        command("build", *names, "--jobs", "2", "--out", "out"),
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline().startswith("cap-0: built")
        helpers = children(process.pid)
        process.kill()

    assert len(helpers) == 2
    wait_for_end(helpers)


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="looks for processes in /proc")
def test_a_killed_build_of_many_in_all_editions_leaves_each_whole_or_not_there() -> None:
    names = [write(folder=f"cap-{number}") for number in range(3)]
    order = command("build", *names, "--all-editions", "--jobs", "2", "--force", "--out")
    started = time.monotonic()
    assert subprocess.run([*order, "whole"], env=environment(), check=False).returncode == 0
    whole, chance = contents(Path("whole")), random.Random(7)
    seconds = time.monotonic() - started

    for number in range(MANY_KILLS):
        with subprocess.Popen(
            [*order, "out"],
            env=environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        ) as process:
            time.sleep(chance.uniform(seconds / 3, seconds))
            helpers = children(process.pid) if process.poll() is None else []
            process.kill()
        wait_for_end(helpers)
        for name in names:
            there = contents(Path("out") / name) or contents(Path(f"out/{STATE}/{name}.old"))
            wanted = {k.partition("/")[2]: v for k, v in whole.items() if k.startswith(f"{name}/")}
            assert there in ({}, wanted), f"kill {number}"

    assert subprocess.run([*order, "out"], env=environment(), check=False).returncode == 0
    assert contents(Path("out")) == whole
    assert not [path for path in Path("out", STATE).iterdir() if path.suffix in (".new", ".old")]


def wait_for_end(processes: list[int]) -> None:
    until = time.monotonic() + 10
    while any(map(alive, processes)) and time.monotonic() < until:
        time.sleep(0.02)
    assert not any(map(alive, processes))


def test_ctrl_c_ends_a_build_of_many_patterns_without_building_the_rest() -> None:
    names = [write(folder=f"cap-{number}") for number in range(30)]
    with subprocess.Popen(
        command("build", *names, "--jobs", "2", "--out", "out"),
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline().startswith("cap-0: built")
        os.killpg(process.pid, signal.SIGINT)
        _, said = process.communicate(timeout=20)

    assert process.returncode == 1
    assert "Traceback" not in said
    built = [path for path in Path("out").iterdir() if not path.name.startswith(".")]
    assert 1 <= len(built) < len(names)
    assert not [path for path in Path("out", STATE).iterdir() if path.suffix in (".new", ".old")]


# ---------------------------------------------------------------- refused


@contextmanager
def small_disk(folder: Path) -> Iterator[Path]:
    """A disk of one megabyte; only an administrator can have one."""
    folder.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", folder], capture_output=True, check=False
    )
    if mounted.returncode:
        pytest.skip("no disk can be made here")
    try:
        yield folder
    finally:
        subprocess.run(["umount", folder], check=True)


@pytest.mark.skipif(not Path("/proc/mounts").exists(), reason="mounts a disk as Linux does")
def test_a_full_disk_is_told_and_the_last_output_stays(tmp_path: Path) -> None:
    write()
    with small_disk(tmp_path / "disk") as disk:
        assert run("build", "cap", "--out", str(disk)).exit_code == 0
        before = contents(disk / "cap")
        with (disk / "filler").open("wb", buffering=0) as filler:
            room = os.statvfs(disk)
            filler.write(bytes((room.f_bavail - 10) * room.f_bsize))

        write(EDITIONS[1])
        result = run("build", "cap", "--out", str(disk))

        assert result.exit_code == 1
        assert "error[output.refused]: the disk is full" in result.stderr
        assert "help: free some space and build again; the last output is" in result.stderr
        assert contents(disk / "cap") == before
        assert beside(disk) == {"filler"}
        (disk / "filler").unlink()
        assert run("build", "cap", "--out", str(disk)).exit_code == 0
        assert contents(disk / "cap") != before


def test_a_full_disk_is_told_on_every_system(monkeypatch: pytest.MonkeyPatch) -> None:
    write()
    run("build", "cap", "--out", "out")
    before = contents(Path("out/cap"))
    write(EDITIONS[1])

    def full(path: Path, data: bytes) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    result = run("build", "cap", "--out", "out")

    assert result.exit_code == 1
    assert "the disk is full" in result.stderr
    assert "free some space" in result.stderr
    assert contents(Path("out/cap")) == before


@contextmanager
def no_permission(tmp_path: Path) -> Iterator[Path]:
    """A folder in which nobody may write; for an administrator, who may, a disk to be read only."""
    if os.geteuid():
        folder = tmp_path / "locked"
        folder.mkdir(mode=0o555)
        yield folder
    else:
        with small_disk(tmp_path / "locked") as folder:
            subprocess.run(["mount", "-o", "remount,ro", folder], check=True)
            yield folder


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="rights of another kind")
def test_no_permission_is_told(tmp_path: Path) -> None:
    write()
    with no_permission(tmp_path) as folder:
        result = run("build", "cap", "--out", str(folder))

    assert result.exit_code == 1
    assert "error[output.refused]: no permission to write to" in result.stderr
    assert "help: choose another folder with `--out`, or allow writing" in result.stderr


# ---------------------------------------------------------------- two at once


def test_two_builds_into_one_folder_take_turns() -> None:
    whole = []
    for number, text in enumerate(EDITIONS):
        name = write(text, f"{number}/cap")
        assert run("build", name, "--out", f"only-{number}").exit_code == 0
        whole.append({k: v for k, v in contents(Path(f"only-{number}/cap")).items() if k[0] != "."})

    both = [
        subprocess.Popen(
            command("build", f"{number}/cap", "--out", "out", "--force"),
            env=environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for number in range(2)
    ]
    assert [process.wait(timeout=30) for process in both] == [0, 0]

    assert {k: v for k, v in contents(Path("out/cap")).items() if k[0] != "."} in whole
    assert beside(Path("out")) == set()


def test_a_build_that_waits_for_another_too_long_says_what_to_do(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    write()
    monkeypatch.setattr(output, "LOCK_SECONDS", 0.1)
    Path("out", STATE).mkdir(parents=True)
    with FileLock(f"out/{STATE}/cap.lock"):
        result = run("build", "cap", "--out", "out")

    assert result.exit_code == 1
    assert "error[output.busy]: another build has been writing to `out/cap`" in result.stderr
    assert "help: Wait for it to end, or stop it, and build again" in result.stderr
    assert run("build", "cap", "--out", "out").exit_code == 0
