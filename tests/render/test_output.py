"""Output reaches its folder whole or not at all, whatever fails in between."""

import errno
import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.render import output
from bindoff.render.output import STATE, publish

OLD = {"hat.txt": b"old words", "charts/a.svg": b"old chart", "charts/gone.svg": b"dropped later"}
NEW = {"hat.txt": b"new words", "charts/a.svg": b"new chart", "numbers.json": b"{}"}


def held(folder: Path) -> dict[str, bytes]:
    """The files of ``folder``."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def neighbours(folder: Path) -> list[str]:
    """What lies beside ``folder``, but for what the program always keeps of it."""
    kept = {f"{folder.name}.{role}" for role in ("lock", "list", "json")}
    state = folder.parent / STATE
    left = {path.name for path in state.iterdir()} - kept if state.exists() else set()
    return sorted({path.name for path in folder.parent.iterdir()} - {STATE} | left)


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

    one, two = (tmp_path / STATE / f"{name}.list" for name in ("one", "two"))
    assert one.read_bytes() == two.read_bytes()


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
    if (name, at) == ("rename", 1) and isinstance(error, PermissionError):
        pytest.skip("then file after file is replaced, as the next test shows")
    publish(OLD, tmp_path / "hat")
    monkeypatch.setattr(Path, name, failing(getattr(Path, name), at, error))

    with pytest.raises(PatternError) as caught:
        publish(NEW, tmp_path / "hat")

    monkeypatch.undo()
    assert held(tmp_path / "hat") == OLD
    assert neighbours(tmp_path / "hat") == ["hat"]
    assert said in caught.value.findings[0].message
    assert caught.value.findings[0].help


@pytest.mark.parametrize("held_names", [(), ("hat.txt",), tuple(NEW)])
def test_a_file_that_a_viewer_holds_keeps_no_other_from_being_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, held_names: tuple[str, ...]
) -> None:
    """As on Windows, where neither an open file nor the folder it is in can be moved."""
    publish(OLD, tmp_path / "hat")
    denied = PermissionError(errno.EACCES, "Access is denied")
    real = os.replace

    def replace(source: Path, target: Path) -> None:
        if target.parts[-1] in held_names or "/".join(target.parts[-2:]) in held_names:
            raise denied
        real(source, target)

    monkeypatch.setattr(Path, "rename", failing(Path.rename, 1, denied))
    monkeypatch.setattr(os, "replace", replace)
    if held_names:
        with pytest.raises(PatternError) as caught:
            publish(NEW, tmp_path / "hat")
        (finding,) = caught.value.findings
        assert finding.id == "output.held"
        assert "hat.txt" in finding.message
        assert ("nothing is new" in finding.message) == (len(held_names) == len(NEW))
        assert "Close the PDF" in finding.help
    else:
        publish(NEW, tmp_path / "hat")
    monkeypatch.undo()

    now = held(tmp_path / "hat")
    assert {n: now[n] for n in NEW if n in OLD} == {
        n: OLD[n] if n in held_names else NEW[n] for n in NEW if n in OLD
    }
    assert neighbours(tmp_path / "hat") == ["hat"]
    publish(NEW, tmp_path / "hat")
    assert held(tmp_path / "hat") == NEW


def test_files_that_no_run_wrote_are_never_removed_or_written_over(tmp_path: Path) -> None:
    publish(OLD, tmp_path / "hat")
    (tmp_path / "hat" / "numbers.json").write_text("my own")

    with pytest.raises(PatternError, match="no earlier build wrote"):
        publish(NEW, tmp_path / "hat")

    assert held(tmp_path / "hat") == {**OLD, "numbers.json": b"my own"}


def test_a_folder_of_an_earlier_version_of_the_program_is_taken_over(tmp_path: Path) -> None:
    """It held the list of its files and the record itself."""
    publish({**OLD, ".built": b"{}"}, tmp_path / "hat")
    (tmp_path / "hat" / ".output-list").write_text("".join(f"{n}\n" for n in (*OLD, ".built")))
    for kept in (tmp_path / STATE).iterdir():
        kept.unlink()

    publish(NEW, tmp_path / "hat")

    assert held(tmp_path / "hat") == NEW


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
    [("write_bytes", 1, "hat"), ("rename", 1, "hat"), ("rename", 2, f"{STATE}/hat.old")],
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
    folder.rename(tmp_path / STATE / "hat.old")
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
    monkeypatch.setattr(shutil, "rmtree", lambda *args, **kwargs: None)
    publish(NEW, folder)
    monkeypatch.undo()

    assert held(folder) == NEW
    assert neighbours(folder) == ["hat", "hat.old"]

    publish(NEW, folder)
    assert neighbours(folder) == ["hat"]


def test_builds_at_once_never_mix_their_files(tmp_path: Path) -> None:
    folder = tmp_path / "hat"
    editions = [{f"{n}-{part}.txt": b"%d" % n for part in range(20)} for n in range(6)]
    publish(editions[0], folder)

    def again(files: dict[str, bytes]) -> None:
        for _ in range(5):
            publish(files, folder)

    threads = [threading.Thread(target=again, args=(files,)) for files in editions]
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
    (tmp_path / STATE).mkdir()
    with (
        FileLock(tmp_path / STATE / "hat.lock"),
        pytest.raises(PatternError, match="another build"),
    ):
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
    "name", ["", "/etc/x", "../x", "a/../x", "a//b", "./a", "a/", "a\\b", "c:x", "a\nb"]
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


# ---------------------------------------------------------------- editions that add up

GREY = {"hat-grey.txt": b"old words in grey", "charts/a-grey.svg": b"old chart in grey"}


def staying(record: str, others: frozenset[str]) -> tuple[str, frozenset[str]]:
    """As of an edition of the same source: all that is there and not written again stays."""
    return record, others


@pytest.mark.parametrize(
    "error",
    [
        PermissionError(errno.EACCES, "Access is denied"),
        OSError(errno.ENOSPC, "No space left on device"),
        KeyboardInterrupt(),
    ],
    ids=["denied", "full", "stopped"],
)
@pytest.mark.parametrize("at", [1, 2])
def test_editions_that_stay_are_all_there_or_all_as_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int, error: BaseException
) -> None:
    """Where no link can be made a file is copied, and that is refused half-way."""
    publish(OLD | GREY, tmp_path / "hat")
    linkless = OSError(errno.EPERM, "Operation not permitted")
    monkeypatch.setattr(os, "link", lambda *_: (_ for _ in ()).throw(linkless))
    monkeypatch.setattr(shutil, "copy2", failing(shutil.copy2, at, error))

    with pytest.raises((PatternError, KeyboardInterrupt)):
        publish(NEW, tmp_path / "hat", staying)

    assert held(tmp_path / "hat") == OLD | GREY
    assert neighbours(tmp_path / "hat") == ["hat"]
    monkeypatch.setattr(shutil, "copy2", shutil.copyfile)
    publish(NEW, tmp_path / "hat", staying)
    assert held(tmp_path / "hat") == OLD | GREY | NEW


@pytest.mark.parametrize(
    ("at", "now"), [(1, OLD | GREY), (2, OLD | GREY | NEW), (3, OLD | GREY | NEW)]
)
def test_a_list_or_record_that_another_program_holds_parts_no_editions(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int, now: dict[str, bytes]
) -> None:
    """As a virus scanner on Windows does; refused before the exchange or after, never between."""
    publish(OLD | GREY, tmp_path / "hat")
    denied = PermissionError(errno.EACCES, "Access is denied")
    monkeypatch.setattr(os, "replace", failing(os.replace, at, denied))

    with pytest.raises(PatternError, match="no permission"):
        publish(NEW, tmp_path / "hat", staying)

    monkeypatch.undo()
    assert held(tmp_path / "hat") == now
    assert neighbours(tmp_path / "hat") == ["hat"]
    publish(NEW, tmp_path / "hat", staying)
    assert held(tmp_path / "hat") == OLD | GREY | NEW


KILLED_LINKING = KILLED.replace("pathlib.Path, name", "os, name").replace(
    "pathlib.Path(sys.argv[1]))",
    "pathlib.Path(sys.argv[1]), lambda record, others: (record, others))",
)


@pytest.mark.parametrize(("name", "at"), [("link", 1), ("link", 3), ("replace", 1), ("replace", 2)])
def test_a_run_killed_while_editions_are_carried_over_loses_none(
    tmp_path: Path, name: str, at: int
) -> None:
    folder = tmp_path / "hat"
    publish(OLD | GREY, folder)
    command = [sys.executable, "-c", KILLED_LINKING, str(folder), name, str(at)]
    run = subprocess.run(command, check=False)

    assert run.returncode == 9
    before, after = OLD | GREY, OLD | GREY | {"hat.txt": b"half a run"}
    assert held(folder) == (after if (name, at) == ("replace", 2) else before)

    publish(NEW, folder, staying)
    assert held(folder) == OLD | GREY | NEW
    assert neighbours(folder) == ["hat"]
