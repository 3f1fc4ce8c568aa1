"""Output reaches its folder whole or not at all, whatever fails in between."""

import errno
import os
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from bindoff.diagnostics import PatternError
from bindoff.render import output
from bindoff.render.output import LIST_NAME, publish
from hypothesis import given
from hypothesis import strategies as st

OLD = {"hat.txt": b"old words", "charts/a.svg": b"old chart", "charts/gone.svg": b"dropped later"}
NEW = {"hat.txt": b"new words", "charts/a.svg": b"new chart", "numbers.json": b"{}"}


def held(folder: Path) -> dict[str, bytes]:
    """The files of ``folder``, without the list that goes with them."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != LIST_NAME
    }


def neighbours(folder: Path) -> list[str]:
    """What lies beside ``folder``, but for the lock."""
    return sorted(path.name for path in folder.parent.iterdir() if not path.name.endswith(".lock"))


def test_files_arrive_in_a_folder_made_with_its_parents(tmp_path: Path) -> None:
    publish(NEW, tmp_path / "build" / "hat")

    assert held(tmp_path / "build" / "hat") == NEW
    assert neighbours(tmp_path / "build" / "hat") == ["hat"]


def test_a_second_run_replaces_all_files_of_the_first(tmp_path: Path) -> None:
    publish(OLD, tmp_path / "hat")
    publish(NEW, tmp_path / "hat")

    assert held(tmp_path / "hat") == NEW
    assert neighbours(tmp_path / "hat") == ["hat"]


def test_the_same_files_give_the_same_folder(tmp_path: Path) -> None:
    publish(NEW, tmp_path / "one")
    publish(dict(reversed(NEW.items())), tmp_path / "two")

    assert (tmp_path / "one" / LIST_NAME).read_bytes() == (
        tmp_path / "two" / LIST_NAME
    ).read_bytes()


def failing(real: Callable[..., object], at: int, error: BaseException) -> Callable[..., object]:
    """``real``, but its call number ``at`` (from 1) raises ``error``."""
    calls = iter(range(1, 1000))

    def call(*args: object, **kwargs: object) -> object:
        if next(calls) == at:
            raise error
        return real(*args, **kwargs)

    return call


FAULTS = [
    pytest.param(name, at, id=f"{name}-{at}")
    for name, last in (("mkdir", 2), ("write_bytes", 3), ("write_text", 1), ("rename", 2))
    for at in range(1, last + 1)
]


@pytest.mark.parametrize(("name", "at"), FAULTS)
@pytest.mark.parametrize(
    ("error", "said"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), "disk is full"),
        (PermissionError(errno.EACCES, "Permission denied"), "no permission"),
        (OSError(errno.EIO, "Input/output error"), "Input/output error"),
    ],
    ids=["full", "denied", "broken"],
)
def test_a_refusal_at_any_step_leaves_the_last_output_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, at: int, error: OSError, said: str
) -> None:
    publish(OLD, tmp_path / "hat")
    monkeypatch.setattr(Path, name, failing(getattr(Path, name), at, error))

    with pytest.raises(PatternError) as caught:
        publish(NEW, tmp_path / "hat")

    monkeypatch.undo()
    assert held(tmp_path / "hat") == OLD
    assert neighbours(tmp_path / "hat") == ["hat"]
    assert said in caught.value.findings[0].message
    assert caught.value.findings[0].help


@pytest.mark.parametrize(("name", "at"), FAULTS)
def test_an_interrupt_at_any_step_leaves_the_last_output_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, at: int
) -> None:
    publish(OLD, tmp_path / "hat")
    monkeypatch.setattr(Path, name, failing(getattr(Path, name), at, KeyboardInterrupt()))

    with pytest.raises(KeyboardInterrupt):
        publish(NEW, tmp_path / "hat")

    monkeypatch.undo()
    assert held(tmp_path / "hat") == OLD
    assert neighbours(tmp_path / "hat") == ["hat"]


KILLED = """
import os, pathlib, sys
from bindoff.render.output import publish
name, at = sys.argv[2], int(sys.argv[3])
real, calls = getattr(pathlib.Path, name), iter(range(1, 1000))
def call(*args, **kwargs):
    if next(calls) == at:
        os._exit(9)
    return real(*args, **kwargs)
setattr(pathlib.Path, name, call)
publish({"hat.txt": b"half a run"}, pathlib.Path(sys.argv[1]))
"""


@pytest.mark.parametrize(
    ("name", "at", "standing"),
    [("write_bytes", 1, "hat"), ("rename", 1, "hat"), ("rename", 2, ".hat.old")],
    ids=["while writing", "before the swap", "between the two renames"],
)
def test_a_killed_run_loses_nothing_and_the_next_one_cleans_up(
    tmp_path: Path, name: str, at: int, standing: str
) -> None:
    folder = tmp_path / "hat"
    publish(OLD, folder)
    run = subprocess.run([sys.executable, "-c", KILLED, str(folder), name, str(at)], check=False)

    assert run.returncode == 9
    assert held(tmp_path / standing) == OLD

    publish(NEW, folder)
    assert held(folder) == NEW
    assert neighbours(folder) == ["hat"]


def test_a_failed_run_after_a_kill_between_the_renames_still_restores(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "hat"
    publish(OLD, folder)
    folder.rename(tmp_path / ".hat.old")
    full = OSError(errno.ENOSPC, "No space left on device")
    monkeypatch.setattr(Path, "write_bytes", failing(Path.write_bytes, 1, full))

    with pytest.raises(PatternError):
        publish(NEW, folder)

    assert held(folder) == OLD


def test_an_old_folder_that_cannot_be_removed_waits_for_the_next_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "hat"
    publish(OLD, folder)
    monkeypatch.setattr(output.shutil, "rmtree", lambda *args, **kwargs: None)
    publish(NEW, folder)
    monkeypatch.undo()

    assert held(folder) == NEW
    assert neighbours(folder) == [".hat.old", "hat"]

    publish(NEW, folder)
    assert neighbours(folder) == ["hat"]


def test_builds_at_once_never_mix_their_files(tmp_path: Path) -> None:
    folder = tmp_path / "hat"
    editions = [{f"{n}-{part}.txt": b"%d" % n for part in range(20)} for n in range(6)]
    publish(editions[0], folder)
    threads = [
        threading.Thread(target=lambda files=files: [publish(files, folder) for _ in range(5)])
        for files in editions
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert held(folder) in editions
    assert neighbours(folder) == ["hat"]


def test_a_build_that_waits_too_long_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from filelock import FileLock

    monkeypatch.setattr(output, "LOCK_SECONDS", 0.05)
    with FileLock(tmp_path / ".hat.lock"), pytest.raises(PatternError, match="another build"):
        publish(NEW, tmp_path / "hat")


def test_a_file_where_the_folder_should_be_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "hat").write_text("a letter")

    with pytest.raises(PatternError, match="a file of that name is in the way"):
        publish(NEW, tmp_path / "hat")
    with pytest.raises(PatternError, match="a file of that name is in the way"):
        publish(NEW, tmp_path / "hat" / "below")

    assert (tmp_path / "hat").read_text() == "a letter"


def test_a_folder_with_someone_elses_files_is_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "hat").mkdir()
    (tmp_path / "hat" / "pattern.yaml").write_text("title: Hat")

    with pytest.raises(PatternError, match=r"no earlier build wrote: `pattern\.yaml`$"):
        publish(NEW, tmp_path / "hat")

    assert held(tmp_path / "hat") == {"pattern.yaml": b"title: Hat"}


def test_a_note_dropped_into_the_output_stops_the_next_build(tmp_path: Path) -> None:
    publish(OLD, tmp_path / "hat")
    (tmp_path / "hat" / "charts" / "my notes.txt").write_text("longer brim")

    with pytest.raises(PatternError, match=r"charts/my notes\.txt"):
        publish(NEW, tmp_path / "hat")

    assert held(tmp_path / "hat")["hat.txt"] == OLD["hat.txt"]


def test_an_empty_folder_and_the_traces_of_file_managers_are_no_hindrance(tmp_path: Path) -> None:
    (tmp_path / "hat").mkdir()
    publish(OLD, tmp_path / "hat")
    (tmp_path / "hat" / ".DS_Store").write_bytes(b"\0")
    publish(NEW, tmp_path / "hat")

    assert held(tmp_path / "hat") == NEW


def test_a_link_to_a_folder_is_followed_and_kept(tmp_path: Path) -> None:
    publish(OLD, tmp_path / "disk" / "hat")
    (tmp_path / "hat").symlink_to(tmp_path / "disk" / "hat")
    publish(NEW, tmp_path / "hat")

    assert (tmp_path / "hat").is_symlink()
    assert held(tmp_path / "disk" / "hat") == NEW


@pytest.mark.parametrize(
    "name", ["", "/etc/x", "../x", "a/../x", "a//b", "./a", "a/", "a\\b", "c:x", "a\nb", LIST_NAME]
)
def test_only_plain_relative_names_are_taken(tmp_path: Path, name: str) -> None:
    with pytest.raises(PatternError, match="cannot be the name of a file"):
        publish({name: b""}, tmp_path / "hat")

    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("names", [("a", "A"), ("a", "a/b"), ("a/b", "a")])
def test_names_that_would_collide_are_refused(tmp_path: Path, names: tuple[str, ...]) -> None:
    with pytest.raises(PatternError, match="would both be called"):
        publish(dict.fromkeys(names, b""), tmp_path / "hat")


def test_the_root_of_the_disk_is_refused() -> None:
    with pytest.raises(PatternError, match="root of a disk"):
        publish(NEW, Path(os.sep))


PART = st.text("abcxyz-019", min_size=1, max_size=3)


@given(st.dictionaries(st.lists(PART, min_size=1, max_size=3).map("/".join), st.binary()))
def test_whatever_is_published_is_what_the_folder_holds(
    tmp_path_factory: pytest.TempPathFactory, files: dict[str, bytes]
) -> None:
    folder = tmp_path_factory.mktemp("out") / "hat"
    if any(other.startswith(f"{name}/") for name in files for other in files):
        with pytest.raises(PatternError, match="would both be called"):
            publish(files, folder)
    else:
        publish(files, folder)
        assert held(folder) == files
