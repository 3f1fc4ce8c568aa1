"""Watching for long: what is saved is built, what is faulty is told, the last good output stays."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bindoff.catalogue import Job, Request
from bindoff.commands.watch import PATIENCE, PAUSE, watch
from bindoff.files import packaged_template
from tests.small_patterns import CAP, WAVES, changed

ROOT = Path(__file__).parents[1]
WAITING = "waiting for a change (Ctrl-C ends)"
BROKEN = changed(CAP, ("designer:", "desinger:"))
SMOOTH = changed(CAP, ("title: Quay Cap", "title: Smooth Cap"))

IDLE, SOON = "when nothing is left to do", "in the middle of it"


@pytest.fixture(autouse=True)
def _work_in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


class EndedError(Exception):
    """The user went home."""


class Watched:
    """A watch of some patterns by a user who acts in its pauses.

    ``user`` yields when to go on: as soon as the watch waits at all, or once it is idle.
    """

    def __init__(self, user: Iterator[str], capsys: pytest.CaptureFixture[str]) -> None:
        self.user = user
        self.moment = next(user)
        self.capsys = capsys
        self.told: list[list[str]] = []
        self.errors: list[str] = []

    def wait(self, seconds: float) -> None:
        idle = seconds >= PAUSE and seconds != PATIENCE
        if idle:
            said = self.capsys.readouterr()
            if said.out or said.err:
                self.told.append(said.out.splitlines())
                self.errors.append(said.err)
        if idle or self.moment == SOON:
            try:
                self.moment = next(self.user)
            except StopIteration:
                raise EndedError from None


def watching(
    user: Iterator[str], capsys: pytest.CaptureFixture[str], *names: str, changes: str = ""
) -> Watched:
    """What was told in each turn, one turn a build or more."""
    held = Watched(user, capsys)
    jobs = [Job(name, "out", Request(changes=changes), "1") for name in names or ("cap",)]
    with pytest.raises(EndedError):
        watch(jobs, held.wait)
    return held


def write(text: str = CAP, grid: str | None = WAVES, name: str = "cap") -> None:
    Path(name).mkdir(exist_ok=True)
    Path(name, "pattern.yaml").write_text(text, "utf-8")
    if grid is not None:
        Path(name, "waves.grid").write_text(grid, "utf-8")


def edition() -> str:
    return Path("out/cap/cap.txt").read_text("utf-8")


def is_built(turn: list[str]) -> bool:
    return turn[0].startswith("cap: built with ") and turn[1:] == [WAITING]


def test_a_save_is_built(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        write(SMOOTH)
        yield IDLE

    write()
    first, second = watching(user(), capsys).told

    assert is_built(first)
    assert is_built(second)
    assert second[0].endswith(" s: out/cap")
    assert edition().startswith("Smooth Cap\n")


def test_nothing_is_built_while_nothing_is_saved(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        for _ in range(20):
            yield IDLE

    write()

    assert len(watching(user(), capsys).told) == 1


def own_template() -> None:
    text = packaged_template("notes/gauge.md")
    assert text is not None
    Path("cap/templates/notes").mkdir(parents=True)
    Path("cap/templates/notes/gauge.md").write_text(text + "\nOur own words.\n", "utf-8")


@pytest.mark.parametrize(
    "save",
    [
        lambda: Path("cap/waves.grid").write_text("........\n" + WAVES),
        lambda: Path("cap/left-over.grid").write_text(WAVES),
        own_template,
    ],
    ids=["a grid", "a grid that no chart names", "a template of its own that was not there"],
)
def test_every_file_that_counts_is_watched(
    save: object, capsys: pytest.CaptureFixture[str]
) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        assert callable(save)
        save()
        yield IDLE

    write()
    told = watching(user(), capsys).told

    assert [is_built(turn) for turn in told] == [True, True]


def test_a_fault_is_told_in_full_and_the_last_good_output_stays(
    capsys: pytest.CaptureFixture[str],
) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        good = edition()
        write(BROKEN)
        yield IDLE
        assert edition() == good
        write(SMOOTH)
        yield IDLE

    write()
    held = watching(user(), capsys)

    assert held.told[1] == ["cap: 1 error; `out/cap` keeps the last good output", WAITING]
    assert "cap/pattern.yaml:2:1" in held.errors[1]
    assert "\nhelp: Write `designer` if that is what you mean\n" in held.errors[1]
    assert is_built(held.told[2])


def test_it_starts_with_a_faulty_source(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        assert not Path("out/cap").exists()
        write()
        yield IDLE

    write(BROKEN)
    first, second = watching(user(), capsys).told

    assert first == ["cap: 1 error; nothing is built yet", WAITING]
    assert is_built(second)


def test_a_grid_that_was_missing_is_waited_for(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        Path("cap/waves.grid").write_text(WAVES)
        yield IDLE

    write(grid=None)
    first, second = watching(user(), capsys).told

    assert first[0].startswith("cap: 1 error")
    assert is_built(second)


def test_a_pattern_that_is_not_there_is_waited_for(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        write()
        yield IDLE

    first, second = watching(user(), capsys).told

    assert first[0].startswith("cap: 1 error")
    assert is_built(second)


def test_a_save_by_renaming_is_one_build(capsys: pytest.CaptureFixture[str]) -> None:
    """As editors do that keep a copy: the file is away for a moment."""

    def user() -> Iterator[str]:
        yield IDLE
        Path("cap/.pattern.yaml.swp").write_text("swap")
        Path("cap/pattern.yaml").rename("cap/pattern.yaml~")
        yield SOON
        Path("cap/new").write_text(SMOOTH, "utf-8")
        yield SOON
        Path("cap/new").rename("cap/pattern.yaml")
        yield SOON
        Path("cap/.pattern.yaml.swp").unlink()
        yield IDLE
        yield IDLE

    write()
    told = watching(user(), capsys).told

    assert [is_built(turn) for turn in told] == [True, True]
    assert edition().startswith("Smooth Cap\n")


def test_a_save_in_two_writes_is_one_build(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        half = len(SMOOTH) // 2
        with Path("cap/pattern.yaml").open("w", encoding="utf-8") as file:
            yield SOON
            file.write(SMOOTH[:half])
            file.flush()
            yield SOON
            file.write(SMOOTH[half:])
        yield IDLE
        yield IDLE

    write()
    told = watching(user(), capsys).told

    assert [is_built(turn) for turn in told] == [True, True]
    assert edition().startswith("Smooth Cap\n")


def test_a_fault_of_half_a_file_is_not_told_if_the_rest_comes_soon(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The file rests long enough to be built, and is whole before the fault would be told."""

    def user() -> Iterator[str]:
        yield IDLE
        write("title: [Smooth\n")
        yield SOON  # the settling
        yield SOON  # the patience
        write(SMOOTH)
        yield IDLE

    write()
    told = watching(user(), capsys).told

    assert [is_built(turn) for turn in told] == [True, True]


def test_a_save_during_a_build_is_built_too(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from bindoff import pipeline
    from bindoff.document.build import build_document as real

    def slow(*arguments: Any) -> Any:
        monkeypatch.setattr(pipeline, "build_document", real)
        write(SMOOTH)
        return real(*arguments)

    def user() -> Iterator[str]:
        yield IDLE
        yield IDLE

    write()
    monkeypatch.setattr(pipeline, "build_document", slow)
    held = watching(user(), capsys)

    assert sum(line.startswith("cap: built") for turn in held.told for line in turn) == 2
    assert edition().startswith("Smooth Cap\n")


def test_only_the_pattern_that_changed_is_built(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        write(SMOOTH, name="hood")
        yield IDLE

    write()
    write(name="hood")
    first, second = watching(user(), capsys, "cap", "hood").told

    assert [line.split(":")[0] for line in first] == ["cap", "hood", WAITING]
    assert [line.split(":")[0] for line in second] == ["hood", WAITING]


def test_a_save_that_changes_nothing_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        os.utime("cap/pattern.yaml", (5, 5))
        yield IDLE

    write()
    _, second = watching(user(), capsys).told

    assert second[0].startswith("cap: unchanged with ")


def test_an_earlier_version_is_watched_too(capsys: pytest.CaptureFixture[str]) -> None:
    def user() -> Iterator[str]:
        yield IDLE
        write(BROKEN, name="old")
        yield IDLE
        write(SMOOTH, name="old")
        yield IDLE

    write()
    write(name="old")
    first, second, third = watching(user(), capsys, changes="old").told

    assert is_built(first)
    assert second[0].startswith("cap: 1 error")
    assert is_built(third)


@pytest.mark.parametrize("text", [CAP, BROKEN], ids=["sound", "faulty"])
def test_the_command_builds_on_a_save_and_ends_with_0(text: str) -> None:
    """In a process of its own, with the clock's own pauses."""
    write(text)
    command = [sys.executable, "-u", "-m", "bindoff", "watch", "cap", "--out", "out"]
    with subprocess.Popen(
        command,
        env={**os.environ, "PYTHONPATH": str(ROOT / "generator")},
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as process:
        assert process.stdout is not None
        while process.stdout.readline().strip() != WAITING:
            assert process.poll() is None
        write(SMOOTH)
        said = process.stdout.readline()
        assert process.stdout.readline().strip() == WAITING
        time.sleep(PAUSE)
        process.send_signal(signal.SIGINT)
        try:
            rest, _ = process.communicate(timeout=20)
        finally:
            process.kill()

    assert said.startswith("cap: built with ")
    assert edition().startswith("Smooth Cap\n")
    assert (process.returncode, rest.split()) == (0, ["stopped"])
