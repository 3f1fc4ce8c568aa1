"""Reading files, safely."""

import os
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.files import DiskFiles, Files, MemoryFiles, packaged_template, split_pattern_path

NAMED_AT = Span("hat/pattern.yaml", 5, 9, 5, 20)
CONTENT = {
    "pattern.yaml": b"title: Hat\n",
    "boat.grid": b"..x\nxxx\n",
    "charts/light.grid": b"xx\n",
    "templates/notes/hat.md": b"our own\n",
}


def on_disk(folder: Path) -> Files:
    for name, data in CONTENT.items():
        path = folder / "hat" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return DiskFiles(str(folder / "hat"))


def in_memory(folder: Path) -> Files:
    return MemoryFiles(CONTENT, str(folder / "hat"))


@pytest.fixture(params=[on_disk, in_memory])
def files(request: pytest.FixtureRequest, tmp_path: Path) -> Files:
    make: Callable[[Path], Files] = request.param
    return make(tmp_path)


def finding_of(read: Callable[[], object]) -> Diagnostic:
    with pytest.raises(PatternError) as caught:
        read()
    (finding,) = caught.value.findings
    return finding


def fault(data: bytes) -> tuple[str, str]:
    found = finding_of(lambda: MemoryFiles({"a": data}, "hat").read_text("a"))
    return found.id, str(found.span)


def test_both_kinds_of_files_say_the_same(files: Files, tmp_path: Path) -> None:
    assert files.name == "hat"
    assert files.read_text("charts/light.grid") == "xx\n"
    assert files.read_bytes("boat.grid") == b"..x\nxxx\n"
    assert files.list_dir() == ("boat.grid", "pattern.yaml")
    assert files.list_dir("charts") == ("light.grid",)
    assert files.list_dir("photos") == ()
    assert files.exists("charts/light.grid")
    assert not files.exists("charts")
    assert not files.exists("light.grid")
    assert files.display("boat.grid") == f"{tmp_path}/hat/boat.grid"


def test_a_path_is_shown_as_the_user_wrote_it() -> None:
    assert DiskFiles("patterns/hat/").display("a.grid") == "patterns/hat/a.grid"
    assert DiskFiles("../hat").display("a.grid") == "../hat/a.grid"
    assert DiskFiles(".").display("a.grid") == "a.grid"
    assert DiskFiles("/").display("a.grid") == "/a.grid"


@pytest.mark.parametrize(
    "name",
    [
        "../secret.grid",
        "charts/../../secret.grid",
        "/secret.grid",
        "C:/secret.grid",
        "..",
        "charts\\light.grid",
        "./boat.grid",
        "charts//light.grid",
        "charts/",
        "",
        " ",
        "boat\0.grid",
        "boat\ud800.grid",
    ],
)
def test_a_name_that_is_not_inside_the_folder_is_refused(files: Files, name: str) -> None:
    found = finding_of(lambda: files.read_bytes(name, named_at=NAMED_AT))
    assert (found.id, found.span) == ("file.name", NAMED_AT)
    assert finding_of(lambda: files.template(name)).id == "file.name"
    assert not files.exists(name)


def test_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    files = on_disk(tmp_path)
    (tmp_path / "secret.txt").write_text("secret")
    (tmp_path / "hat" / "out.grid").symlink_to(tmp_path / "secret.txt")
    (tmp_path / "hat" / "away").symlink_to(tmp_path)
    (tmp_path / "hat" / "circle.grid").symlink_to(tmp_path / "hat" / "circle.grid")
    for name in ("out.grid", "away/secret.txt", "circle.grid"):
        found = finding_of(partial(files.read_text, name, named_at=NAMED_AT))
        assert found.id == "file.unreadable"
        assert "link" in found.message
        assert not files.exists(name)
    assert files.list_dir("away") == ()


def test_a_link_inside_the_folder_is_followed(tmp_path: Path) -> None:
    files = on_disk(tmp_path)
    (tmp_path / "hat" / "same.grid").symlink_to(tmp_path / "hat" / "boat.grid")
    (tmp_path / "link").symlink_to(tmp_path / "hat")
    assert files.read_text("same.grid") == "..x\nxxx\n"
    assert DiskFiles(str(tmp_path / "link")).read_text("boat.grid") == "..x\nxxx\n"


def test_a_folder_or_pipe_is_not_read_as_a_file(tmp_path: Path) -> None:
    files = on_disk(tmp_path)
    os.mkfifo(tmp_path / "hat" / "pipe")
    for name in ("charts", "pipe"):
        assert finding_of(partial(files.read_bytes, name)).id == "file.unreadable"


def test_a_missing_file_suggests_a_close_name(files: Files) -> None:
    found = finding_of(lambda: files.read_text("charts/lihgt.grid", named_at=NAMED_AT))
    assert (found.id, found.span) == ("file.missing", NAMED_AT)
    assert "`charts/light.grid`" in found.help
    found = finding_of(lambda: files.read_text("photo.jpg", named_at=NAMED_AT))
    assert "hat/photo.jpg`" in found.help


def test_a_file_over_the_limit_is_refused(files: Files) -> None:
    assert files.read_bytes("boat.grid", limit=8) == b"..x\nxxx\n"
    assert finding_of(lambda: files.read_bytes("boat.grid", limit=7)).id == "file.too-large"


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"ab\nc\x00d", ("file.binary", "hat/a:2:2")),
        (b"ab\r\n\xc3\xa9\xffz", ("file.encoding", "hat/a:2:2")),
        (b"\xef\xbb\xbfab\xff", ("file.encoding", "hat/a:1:3")),
        (b"\xed\xa0\x80", ("file.encoding", "hat/a:1:1")),
        (b"ab\xc3", ("file.encoding", "hat/a:1:3")),
        ("ab".encode("utf-16"), ("file.encoding", "hat/a:1:1")),
    ],
)
def test_what_is_no_text_says_where(data: bytes, expected: tuple[str, str]) -> None:
    """A byte FF and a surrogate (ED A0 80) are never part of UTF-8 (RFC 3629, sections 1 and 3)."""
    assert fault(data) == expected


def test_byte_order_mark_and_line_ends_of_other_systems_are_taken_away() -> None:
    files = MemoryFiles({"a": "\ufeffé\r\nb\rc\n".encode()})
    assert files.read_text("a") == "é\nb\nc\n"


def test_lines_for_a_report_come_by_the_path_that_is_shown(files: Files) -> None:
    assert files.lines(files.display("boat.grid")) == ("..x", "xxx", "")
    assert files.lines(files.display("gone.grid")) == ()
    assert files.lines("elsewhere/boat.grid") == ()
    assert files.lines(files.display("../../secret.grid")) == ()


def test_lines_for_a_report_show_what_is_wrong_in_a_file() -> None:
    assert MemoryFiles({"a": b"ab\nc\xffd"}).lines("pattern/a") == (
        "ab",
        "c\N{REPLACEMENT CHARACTER}d",
    )


def test_a_pattern_template_comes_before_the_packaged_one(files: Files) -> None:
    template = files.template("notes/hat.md")
    assert (template.text, template.file) == ("our own\n", files.display("templates/notes/hat.md"))


def test_packaged_templates_are_found() -> None:
    folder = Path(__file__).parent.parent / "templates"
    names = [path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()]
    assert names
    for name in names:
        assert MemoryFiles({}).template(name).text == (folder / name).read_text(encoding="utf-8")
    assert packaged_template("no/such.md") is None


def test_an_unknown_template_is_an_error() -> None:
    files = MemoryFiles({}, templates={"a.md": "standing in"})
    assert files.template("a.md").text == "standing in"
    assert finding_of(lambda: files.template("b.md", named_at=NAMED_AT)).span == NAMED_AT


def test_a_pattern_on_the_command_line_is_a_folder_or_its_source(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    on_disk(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert split_pattern_path("hat") == ("hat", "pattern.yaml")
    assert split_pattern_path("hat/") == ("hat/", "pattern.yaml")
    assert split_pattern_path("hat/pattern.yaml") == ("hat", "pattern.yaml")
    assert split_pattern_path("hat/other.yaml/") == ("hat", "other.yaml")
    assert split_pattern_path("gone") == (".", "gone")
    assert split_pattern_path(str(tmp_path / "hat")) == (f"{tmp_path}/hat", "pattern.yaml")


@given(st.binary(max_size=60) | st.text(max_size=60).map(lambda text: text.encode(errors="ignore")))
def test_any_bytes_are_text_or_an_error_with_a_place_in_the_file(data: bytes) -> None:
    files = MemoryFiles({"a": data})
    try:
        text = files.read_text("a")
    except PatternError as error:
        places = [finding.span for finding in error.findings]
    else:
        places = []
        assert "\r" not in text
    lines = files.lines("pattern/a")
    assert all(p and p.line <= len(lines) and p.column <= len(lines[p.line - 1]) for p in places)


@given(st.text(max_size=40) | st.text(st.sampled_from("a/.\\ C:"), max_size=12))
def test_any_name_is_read_or_refused(name: str) -> None:
    for files in (MemoryFiles({"a/b": b""}), DiskFiles("no-such-folder")):
        with suppress(PatternError):
            assert files.read_bytes(name) == b""
            assert name == "a/b"
        assert files.exists(name) == (name == "a/b" and isinstance(files, MemoryFiles))
