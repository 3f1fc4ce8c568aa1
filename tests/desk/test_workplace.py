"""Opening and saving: nothing is lost, nothing is half written, nothing else is touched."""

import os
import stat
from pathlib import Path

import pytest

from bindoff.commands import wholefile
from bindoff.commands.shared import Named, named
from bindoff.desk.workplace import (
    ChangedError,
    Overlay,
    Workplace,
    digests,
    folder_name,
    open_files,
    save,
)
from bindoff.diagnostics import PatternError
from tests.desk.running import copied


@pytest.fixture
def hat(tmp_path: Path) -> Named:
    return named(str(copied(tmp_path, "ropewalk-hat") / "ropewalk-hat"))


def digest(pattern: Named, name: str) -> str:
    return digests(pattern)[name]


def test_the_source_comes_first_and_what_is_hidden_never(hat: Named) -> None:
    folder = hat.files.folder
    (folder / "a.grid").write_text(".#\n", encoding="utf-8")
    (folder / ".secret.yaml").write_text("a: b\n", encoding="utf-8")
    (folder / "a.grid~").write_text("..\n", encoding="utf-8")
    (folder / "templates" / "notes").mkdir(parents=True)
    (folder / "templates" / "notes" / "care.md").write_text("# Care\n", encoding="utf-8")

    found = [each.name for each in open_files(hat)]
    assert found == ["pattern.yaml", "a.grid", "rope.grid", "templates/notes/care.md"]


def test_a_file_is_saved_whole_with_its_rights(hat: Named) -> None:
    path = hat.files.folder / "rope.grid"
    path.chmod(0o640)
    now = save(hat, "rope.grid", "..##\n", digest(hat, "rope.grid"))

    assert path.read_text(encoding="utf-8") == "..##\n"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert digest(hat, "rope.grid") == now
    assert sorted(os.listdir(hat.files.folder)) == ["pattern.yaml", "rope.grid"]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (b"a: 1\r\nb: 2\r\n", b"a: 1\r\nc: 3\r\n"),
        (b"\xef\xbb\xbfa: 1\n", b"\xef\xbb\xbfa: 1\nc: 3\n"),
        (b"a: 1\r\nb: 2\n", b"a: 1\nc: 3\n"),  # mixed: what we write is plain
        (b"a: 1", b"a: 1\nc: 3\n"),
    ],
)
def test_line_ends_and_byte_order_mark_stay(hat: Named, before: bytes, after: bytes) -> None:
    (hat.files.folder / "other.yaml").write_bytes(before)
    (opened,) = (each for each in open_files(hat) if each.name == "other.yaml")
    assert "\r" not in opened.text
    assert "\ufeff" not in opened.text
    save(hat, "other.yaml", "a: 1\nc: 3\n", opened.digest)

    assert (hat.files.folder / "other.yaml").read_bytes() == after


def test_a_file_that_changed_meanwhile_is_not_overwritten(hat: Named) -> None:
    opened = digest(hat, "rope.grid")
    path = hat.files.folder / "rope.grid"
    path.write_text("####\n", encoding="utf-8")

    with pytest.raises(ChangedError) as caught:
        save(hat, "rope.grid", "..##\n", opened)
    assert caught.value.now is not None
    assert caught.value.now.text == "####\n"
    assert path.read_text(encoding="utf-8") == "####\n"


def test_a_save_that_fails_leaves_the_old_file_and_no_remains(
    hat: Named, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = (hat.files.folder / "rope.grid").read_bytes()
    monkeypatch.setattr(wholefile, "_replace", fails)
    with pytest.raises(OSError, match="full"):
        save(hat, "rope.grid", "..##\n", digest(hat, "rope.grid"))

    assert (hat.files.folder / "rope.grid").read_bytes() == before
    assert sorted(os.listdir(hat.files.folder)) == ["pattern.yaml", "rope.grid"]


def fails(*_: object) -> None:
    raise OSError("the disk is full")


def test_a_link_inside_the_folder_is_saved_to_its_target(hat: Named) -> None:
    folder = hat.files.folder
    (folder / "same.grid").symlink_to(folder / "rope.grid")
    save(hat, "same.grid", "..##\n", digest(hat, "same.grid"))

    assert (folder / "same.grid").is_symlink()
    assert (folder / "rope.grid").read_text(encoding="utf-8") == "..##\n"


def test_open_texts_lie_over_the_folder(hat: Named) -> None:
    before = (hat.files.folder / "rope.grid").read_bytes()
    files = Overlay(str(hat.files.folder), {"rope.grid": "..\n", "new.grid": "#\n"})

    assert files.read_text("rope.grid") == "..\n"
    assert files.list_dir() == ("new.grid", "pattern.yaml", "rope.grid")
    assert files.exists("new.grid")
    assert (hat.files.folder / "rope.grid").read_bytes() == before
    assert not (hat.files.folder / "new.grid").exists()


# ---------------------------------------------------------------- the folder of patterns


def test_patterns_are_those_of_the_folder_and_of_its_patterns(tmp_path: Path) -> None:
    copied(tmp_path / "patterns", "ropewalk-hat")
    copied(tmp_path, "netmender-mittens")
    (tmp_path / "empty").mkdir()

    assert list(Workplace(str(tmp_path)).patterns) == ["netmender-mittens", "ropewalk-hat"]
    one = Workplace(str(tmp_path / "netmender-mittens"))
    assert one.alone
    assert list(one.patterns) == ["netmender-mittens"]


def test_a_pattern_is_begun_in_a_folder_named_after_its_title(tmp_path: Path) -> None:
    place = Workplace(str(tmp_path))
    assert place.begin("Größe 5½, Hat!", {"pattern.yaml": "title: a\n"}) == "grosse-5-1-2-hat"
    assert (tmp_path / "grosse-5-1-2-hat" / "pattern.yaml").read_text() == "title: a\n"

    with pytest.raises(PatternError) as caught:
        place.begin("grosse 5 1 2 HAT", {"pattern.yaml": "title: b\n"})
    assert caught.value.findings[0].id == "file.exists"
    assert (tmp_path / "grosse-5-1-2-hat" / "pattern.yaml").read_text() == "title: a\n"


@pytest.mark.parametrize("title", ["", "///", "..", "CON", "海"])
def test_a_title_that_gives_no_name_is_refused(tmp_path: Path, title: str) -> None:
    with pytest.raises(PatternError):
        Workplace(str(tmp_path)).begin(title, {"pattern.yaml": ""})
    assert not list(tmp_path.iterdir())


def test_names_of_folders_are_plain() -> None:
    assert folder_name("Ropewalk Hat") == "ropewalk-hat"
    assert folder_name("../etc/passwd") == "etc-passwd"
    assert len(folder_name("hat " * 99)) <= 60
