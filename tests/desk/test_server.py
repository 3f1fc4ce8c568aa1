"""What the page asks, without a browser: it gets what a build gives, of what is written."""

import io
import threading
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pypdf
import pytest

from bindoff.desk.server import Running
from bindoff.files import DiskFiles
from bindoff.pipeline import build_pattern
from bindoff.render.pdf import PdfOptions
from tests.desk.running import ask, copied, running, send, small

NAME = "ropewalk-hat"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return copied(tmp_path, NAME)


@pytest.fixture
def desk(folder: Path) -> Iterator[Running]:
    with running(folder) as desk:
        yield desk


def build(desk: Running, version: int = 1, client: str = "a", **more: Any) -> dict[str, Any]:
    asked = {"client": client, "version": version, "pattern": NAME, "texts": {}, **more}
    status, data = ask(desk, "build", **asked)
    assert status == 200
    return data


def text_of(desk: Running, name: str = "pattern.yaml") -> tuple[str, str]:
    _, data = ask(desk, "files", pattern=NAME)
    (found,) = (each for each in data["files"] if each["name"] == name)
    return found["text"], found["digest"]


def digests(answer: dict[str, Any]) -> list[str]:
    return [page["digest"] for page in answer["pages"]]


def test_pages_of_unsaved_text_are_those_of_the_saved_one(desk: Running, folder: Path) -> None:
    text, digest = text_of(desk)
    changed = text.replace("Ropewalk Hat", "Quayside Hat")
    before = (folder / NAME / "pattern.yaml").read_bytes()
    shown = build(desk, 1, texts={"pattern.yaml": changed})

    assert shown["title"] == "Quayside Hat"
    assert (folder / NAME / "pattern.yaml").read_bytes() == before
    status, _ = ask(desk, "save", pattern=NAME, file="pattern.yaml", text=changed, digest=digest)
    assert status == 200
    assert digests(build(desk, 2)) == digests(shown)


def test_only_pages_that_differ_have_another_name(desk: Running) -> None:
    text, _ = text_of(desk)
    one = digests(build(desk, 1))
    note = text.replace("ease it to the finished measurements", "ease it gently")
    other = digests(build(desk, 2, texts={"pattern.yaml": note}))

    assert sum(a != b for a, b in zip(one, other, strict=True)) == 1
    assert digests(build(desk, 3)) == one


def test_a_page_is_served_as_the_picture_it_is(desk: Running) -> None:
    first = digests(build(desk))[0]
    status, headers, data = send(desk, path=f"page/{first}")

    assert status == 200
    assert headers["content-type"] == "image/svg+xml"
    assert b">Ropewalk <" in data


def test_an_error_keeps_the_pages_and_says_where_it_is(desk: Running) -> None:
    text, _ = text_of(desk)
    shown = digests(build(desk, 1))
    broken = build(desk, 2, texts={"pattern.yaml": text.replace("cast on: cast_on", "cast on: x")})

    assert broken["stale"] is True
    assert "pages" not in broken
    (finding, *_) = broken["findings"]
    assert finding["file"] == "pattern.yaml"
    assert text.split("\n")[finding["line"] - 1].strip() == "- cast on: cast_on"
    assert all(send(desk, path=f"page/{digest}")[0] == 200 for digest in shown)


def test_findings_and_text_are_those_of_the_command(desk: Running) -> None:
    build(desk)
    _, told = ask(desk, "tell", client="a", version=1)
    made = build_pattern(DiskFiles(f"patterns/{NAME}"), "pattern.yaml", NAME)
    lines = ["", *made.files[f"{NAME}.txt"].decode().splitlines()]
    said = [
        line
        for before, line in pairwise(lines)
        if line and (before or not line.startswith("Section "))
    ]
    shown = [line for section in told["text"] for line in section["lines"]]

    assert told["findings"] == []
    assert shown == said


def test_one_size_and_each_edition_are_shown(desk: Running) -> None:
    everyone = build(desk, 1)
    alone = build(desk, 2, size="M")
    large = build(desk, 3, edition="large-print")
    letter = build(desk, 4, edition="letter")

    assert everyone["sizes"] == alone["sizes"] == ["Baby", "Toddler", "Child", "S", "M", "L", "XL"]
    assert alone["title"] == "Ropewalk Hat"
    assert len(large["pages"]) > len(everyone["pages"])
    assert letter["pages"][0]["width"] == 612
    assert build(desk, 5, size="nobody")["stale"] is False  # a size that is gone: all of them


def test_every_step_of_the_source_has_its_place_on_a_page(desk: Running) -> None:
    text, _ = text_of(desk)
    answer = build(desk)
    shown = {each["from"][0] for each in answer["regions"] if each["file"] == "pattern.yaml"}
    for number, line in enumerate(text.split("\n"), 1):
        if line.strip().startswith(("- say:", "- work:", "- cast on:", "- chart:", "- crown:")):
            assert number in shown, line


def test_the_pdf_is_the_one_that_the_command_builds(desk: Running) -> None:
    _, headers, data = send(desk, path=f"pdf/{NAME}/letter")
    made = build_pattern(
        DiskFiles(f"patterns/{NAME}"), "pattern.yaml", NAME, PdfOptions("letter")
    ).files

    assert headers["content-type"] == "application/pdf"
    assert data == made[f"{NAME}-letter.pdf"]
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) > 5


def test_make_everything_is_the_ordinary_build_and_tells_how_far_it_is(
    desk: Running, folder: Path
) -> None:
    small(folder)
    seen: list[float] = []
    answers: list[dict[str, Any]] = []
    thread = threading.Thread(
        target=lambda: answers.append(ask(desk, "make", pattern="quay-cap", every=True)[1])
    )
    thread.start()
    while thread.is_alive():
        share = ask(desk, "progress", pattern="quay-cap")[1]["made"]
        seen += [] if share is None else [share]
    thread.join()
    (made,) = answers
    pdf = (folder / "made" / "quay-cap" / "quay-cap.pdf").read_bytes()
    alone = build_pattern(DiskFiles(str(folder / "quay-cap")), "pattern.yaml", "quay-cap")

    assert made["failed"] is False
    assert "quay-cap-large-print.pdf" in made["paths"]
    assert pdf == alone.files["quay-cap.pdf"]
    assert send(desk, path="pdf/quay-cap/a4")[2] == pdf
    assert ask(desk, "progress", pattern="quay-cap")[1]["made"] is None
    assert seen == sorted(seen)
    assert 0 <= seen[0] < 0.5
    assert len(set(seen)) > 4


def test_a_save_over_another_programs_text_is_refused(desk: Running, folder: Path) -> None:
    _, digest = text_of(desk)
    path = folder / NAME / "pattern.yaml"
    path.write_text("title: Mine\n", encoding="utf-8")
    asked = {"pattern": NAME, "file": "pattern.yaml", "text": "x", "digest": digest}
    status, answer = ask(desk, "save", **asked)

    assert status == 409
    assert answer["text"] == "title: Mine\n"
    assert path.read_text(encoding="utf-8") == "title: Mine\n"
    assert ask(desk, "save", **{**asked, "digest": answer["digest"]})[0] == 200


def test_a_change_of_the_disk_is_seen(desk: Running, folder: Path) -> None:
    _, digest = text_of(desk)
    assert ask(desk, "since", pattern=NAME)[1]["digests"]["pattern.yaml"] == digest
    (folder / NAME / "new.grid").write_text("..\n", encoding="utf-8")

    assert "new.grid" in ask(desk, "since", pattern=NAME)[1]["digests"]


def test_two_pages_are_kept_apart(desk: Running) -> None:
    text, _ = text_of(desk)
    build(desk, 1, "a", texts={"pattern.yaml": text.replace("Ropewalk Hat", "One")})
    build(desk, 1, "b")
    _, one = ask(desk, "tell", client="a", version=1)
    _, other = ask(desk, "tell", client="b", version=1)

    assert one["text"][0]["lines"][0] == "One"
    assert other["text"][0]["lines"][0] == "Ropewalk Hat"
    assert ask(desk, "tell", client="c", version=1)[0] == 404


def test_a_waiting_build_gives_way_to_a_newer_one(desk: Running) -> None:
    """Of many requests at once the last is built, and no more than one waits before it."""
    answers: dict[int, dict[str, Any]] = {}
    text, _ = text_of(desk)

    def send_one(version: int) -> None:
        texts = {"pattern.yaml": text.replace("Ropewalk Hat", f"Hat {version}")}
        answers[version] = build(desk, version, texts=texts)

    build(desk, 1)
    threads = [threading.Thread(target=send_one, args=(version,)) for version in range(2, 9)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)

    assert "pages" in answers[8]
    assert sum("pages" in each for each in answers.values()) < len(answers)


def test_a_page_that_is_opened_anew_gets_what_another_was_shown_while_the_folder_is_as_it_was(
    desk: Running, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from bindoff.desk.answers import pages

    first = digests(build(desk, 1, "a"))
    with monkeypatch.context() as patched:
        patched.setattr(pages, "make_proof", lambda *_: pytest.fail("it is built twice"))
        assert digests(build(desk, 1, "b")) == first
    file = folder / NAME / "pattern.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("Ropewalk Hat", "Rigger Hat"), encoding="utf-8")
    changed = build(desk, 1, "c")

    assert changed["title"] == "Rigger Hat"
    assert digests(build(desk, 2, "c", size="M")) != digests(changed)
    file.write_text(text, encoding="utf-8")
    assert digests(build(desk, 3, "c")) == first


def test_a_desk_for_reading_changes_nothing(folder: Path) -> None:
    before = {path: path.read_bytes() for path in folder.rglob("*.*") if path.is_file()}
    with running(folder, read_only=True) as desk:
        _, digest = text_of(desk)
        asked = {"pattern": NAME, "file": "pattern.yaml", "text": "x", "digest": digest}
        assert ask(desk, "save", **asked)[0] == 403
        assert ask(desk, "make", pattern=NAME)[0] == 403
        assert ask(desk, "begin", wishes={})[0] == 403
        assert build(desk)["stale"] is False
    assert {path: path.read_bytes() for path in folder.rglob("*.*") if path.is_file()} == before


def test_a_pattern_that_is_no_text_is_told(desk: Running, folder: Path) -> None:
    (folder / NAME / "pattern.yaml").write_bytes(b"\xff\xfe\x00t")
    status, data = ask(desk, "files", pattern=NAME)

    assert status == 200
    assert data["findings"][0]["id"] == "file.encoding"
    assert build(desk)["stale"] is True


def test_a_fault_of_the_program_is_told_and_does_not_end_the_desk(
    desk: Running, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    from bindoff.desk import proofs

    def fails(*_: object) -> None:
        raise ZeroDivisionError("seven")

    text, _ = text_of(desk)
    with monkeypatch.context() as patched:
        patched.setattr(proofs, "draw_pages", fails)
        broken = build(desk, 1, texts={"pattern.yaml": f"{text}\n"})
    assert broken["findings"][0]["id"] == "command.fault"
    assert "ZeroDivisionError" in capfd.readouterr().err
    assert build(desk, 2)["stale"] is False


def test_a_long_session_keeps_little(desk: Running) -> None:
    """Memory is that of a few versions, not of all: pages of old ones are gone."""
    text, _ = text_of(desk)
    first = digests(build(desk, 1))
    for version in range(2, 12):
        build(desk, version, texts={"pattern.yaml": text.replace("Ropewalk", "R" * version)})

    assert send(desk, path=f"page/{first[0]}")[0] == 404
    for client in "bcdefghij":
        build(desk, 1, client)
    assert ask(desk, "tell", client="a", version=11)[0] == 404


def test_the_strip_says_how_each_size_was_reckoned(desk: Running) -> None:
    """Worked by hand: 57 cm * 92 % = 52.44 cm; at 24 stitches in 10 cm 125.856, to a multiple of 8
    128; 2.144 stitches more are 8.9 mm."""
    text, _ = text_of(desk)
    build(desk)
    line = text.split("\n").index("  cast_on: stitches(around, multiple = 8)") + 1
    _, told = ask(desk, "why", client="a", file="pattern.yaml", line=line)
    (figure,) = told["figures"]
    (row,) = (each for each in figure["rows"] if "M" in each["sizes"])

    assert told["title"] == "Measure cast_on"
    assert row["value"] == "128"
    assert row["formula"] == "stitches(around, multiple = 8)"
    assert ["around", "52.44 cm"] in row["inputs"]
    assert "exact 125.856" in row["note"]
    assert "+8.9 mm" in row["note"]
    assert told["lines"]["around"] == line - 1


def test_the_strip_says_what_a_yarn_needs_and_on_what_that_rests(desk: Running) -> None:
    """The parts add up to the metres; plain knitting has Munden's loop, dry or washed."""
    text, _ = text_of(desk)
    build(desk)
    line = next(n for n, each in enumerate(text.split("\n"), 1) if each.startswith("  hemp:"))
    _, told = ask(desk, "why", client="a", file="pattern.yaml", line=line)
    (figure,) = told["figures"]
    row = figure["rows"][0]
    parts = [float(each.split()[-1]) for each in row["formula"].split(" + ")]

    assert told["title"] == "Yarn Hemp"
    # As the page prints it: upward, never below what is needed.
    assert 0 <= float(row["value"].split()[0]) - sum(parts) < 1.5
    assert dict(row["inputs"])["loop of plain knitting"].startswith("17.9 mm")
    assert "good: Munden 1959" in dict(row["inputs"])["loop of plain knitting"]
    assert "in reserve" in row["note"]


def test_the_strip_says_the_counts_of_a_step(desk: Running) -> None:
    text, _ = text_of(desk)
    build(desk)
    lines = text.split("\n")
    line = next(number for number, each in enumerate(lines, 1) if "rounds: rib_rounds" in each)
    _, told = ask(desk, "why", client="a", file="pattern.yaml", line=line)

    assert told["title"] == "Step 4 of Hat"
    assert [each["name"] for each in told["figures"]] == ["stitches", "rounds", "rounds"]
    assert ask(desk, "why", client="a", file="pattern.yaml", line=2)[1] == {}
    assert ask(desk, "why", client="a", file="../x", line=2)[1] == {}
