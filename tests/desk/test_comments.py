"""Comments find their place again, are kept whole, and leave as a list and as notes in the PDF.

The notes are read back with another library than the one that writes them; what they must hold is
in ISO 32000-1, 12.5.6.2 to 12.5.6.4 (replies by ``IRT``, review states, text annotations).
"""

import io
import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from bindoff.commands.shared import named
from bindoff.desk.comments import (
    Comment,
    Reply,
    answered,
    closed,
    commented,
    find,
    placed,
    read_comments,
)
from bindoff.desk.proofnotes import as_list
from bindoff.desk.server import Running
from bindoff.desk.workplace import COMMENTS
from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan, make_plan
from bindoff.source.read import read_source
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, go_to, settled, source, written
from tests.desk.running import ask, send
from tests.small_patterns import CAP, WAVES

SOURCE = "pattern.yaml"


def planned(text: str) -> tuple[Plan, MemoryFiles]:
    files = MemoryFiles({SOURCE: text, "waves.grid": WAVES})
    return make_plan(read_source(files, SOURCE, "cap")), files


def line_of(text: str, words: str) -> int:
    return text[: text.index(words)].count("\n") + 1


@pytest.mark.parametrize(
    ("words", "at"),
    [
        ("cast_on: stitches", "Measure cast_on"),
        ("Circumference: width", "Finished measurement Circumference"),
        ("- cast on: cast_on", "Step 1 of Cap"),
        ("rounds: 8", "Step 2 of Cap"),
        ("  foam:", "Line 12 of pattern.yaml"),
    ],
)
def test_a_comment_stands_at_a_number_a_step_or_a_line(words: str, at: str) -> None:
    plan, files = planned(CAP)
    comment = placed(plan, files, SOURCE, line_of(CAP, words))
    found = find(comment, plan, files)

    assert comment.at == at
    assert found is not None
    assert found.same
    assert found.span.line == line_of(CAP, words.replace("rounds: 8", '- work: "*k2'))
    assert placed(plan, files, SOURCE, line_of(CAP, words), "M").at == f"{at}, size M"


def moved(before: str, *changes: tuple[str, str]) -> tuple[str, bool] | None:
    """The line that a comment on ``before`` stands at after changes; whether it says the same."""
    plan, files = planned(CAP)
    comment = placed(plan, files, SOURCE, line_of(CAP, before))
    text = CAP
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    plan, files = planned(text)
    found = find(comment, plan, files)
    return (text.split("\n")[found.span.line - 1].strip(), found.same) if found else None


def test_a_comment_follows_its_step_and_its_line() -> None:
    one = "      - cast on: cast_on\n"
    more = one + "      - say: Join.\n      - say: Breathe.\n"

    assert moved("- crown: 8", (one, more)) == ("- crown: 8", True)
    assert moved(
        "- gather: all", ("      - work: k all\n        rounds: rounds(depth) - 30\n", "")
    ) == (
        "- gather: all",
        True,
    )
    assert moved("  foam:", ("wearer:", "skill: Easy.\nwearer:")) == (
        'foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}',
        True,
    )
    assert moved("around: head", ("measures:\n", "measures:\n  half: head / 2\n")) == (
        "around: head * 95 %",
        True,
    )


def test_a_place_that_reads_differently_is_said_to_have_changed() -> None:
    assert moved("- cast on: cast_on", ("cast on: cast_on", "cast on: 96")) == (
        "- cast on: 96",
        False,
    )
    assert moved("around: head", ("head * 95 %", "head * 90 %")) == ("around: head * 90 %", False)
    assert (
        moved("  depth: [", ("  depth: [20 cm, 21 cm]\n", ""), ("rounds(depth) - 30", "20")) is None
    )


def test_comments_are_kept_and_read_again(tmp_path: Path) -> None:
    (tmp_path / SOURCE).write_text(CAP, encoding="utf-8")
    pattern = named(str(tmp_path))
    words = 'Why 96?\n"Eight": {a} # – 🧶'
    commented(pattern, Comment(0, "Step 1 of Cap", words, by="Ada", date="2026-11-29"))
    commented(pattern, Comment(0, "Measure around", "no", measure="around", size="M"))
    answered(pattern, 1, Reply("yes: no", "on"))
    closed(pattern, 2, True)
    known = read_comments(named(str(tmp_path)).files)

    assert [each.id for each in known] == [1, 2]
    assert known[0].text == words
    assert known[0].answers == (Reply("yes: no", "on"),)
    assert (known[1].text, known[1].closed, known[1].size) == ("no", True, "M")
    assert closed(pattern, 2, False)[1].closed is False
    with pytest.raises(KeyError):
        answered(pattern, 7, Reply("x"))
    assert [each.name for each in tmp_path.iterdir()] != []
    assert sorted(each.name for each in tmp_path.iterdir()) == [SOURCE, COMMENTS]


@pytest.mark.parametrize(
    "text",
    [
        "comments: 3\n",
        "comments: [{id: 1}]\n",
        "comments: [{id: 1, at: a, text: b}, {id: 1, at: a, text: c}]\n",
        "comments: [{id: x, at: a, text: b}]\n",
        "a: &a [*a]\n",
        "[]\n",
    ],
)
def test_a_file_that_holds_something_else_is_left_alone(tmp_path: Path, text: str) -> None:
    (tmp_path / SOURCE).write_text(CAP, encoding="utf-8")
    (tmp_path / COMMENTS).write_text(text, encoding="utf-8")
    with pytest.raises(PatternError):
        commented(named(str(tmp_path)), Comment(0, "a", "b"))
    assert (tmp_path / COMMENTS).read_text(encoding="utf-8") == text


def test_the_list_tells_the_open_ones_first() -> None:
    one = Comment(1, "Step 1 of Cap", "Done.", by="Ada", closed=True)
    two = Comment(
        2, "Step 2 of Cap", "Why\nso?", said="- a", answers=(Reply("So.", "Bo", "2026-11-30"),)
    )
    assert as_list("Cap", "2", (one, two)).split("\n") == [
        "Comments on Cap, version 2",
        "",
        "Open: 1",
        "",
        "2. Step 2 of Cap",
        "   > - a",
        "   Why",
        "   so?",
        "   - So. (Bo, 2026-11-30)",
        "",
        "Closed: 1",
        "",
        "1. Step 1 of Cap",
        "   Done. (Ada)",
        "",
    ]


def say(desk: Running, **wishes: object) -> tuple[int, dict[str, object]]:
    return ask(desk, "comments", client="a", pattern=DEMO, **wishes)


def test_comments_leave_as_a_list_and_as_notes(desk: Running, folder: Path) -> None:
    ask(desk, "build", client="a", version=1, pattern=DEMO, texts={})
    text = (folder / DEMO / SOURCE).read_text(encoding="utf-8")
    new = {"do": "add", "file": SOURCE, "size": "M", "by": "Ada", "date": "2026-11-29"}
    say(desk, **new, line=line_of(text, "- cast on: cast_on"), text="Is it so?")
    say(desk, **{**new, "size": ""}, line=line_of(text, "  hemp:"), text="Which?")
    say(desk, do="answer", id=1, text="It is.", by="Bo", date="2026-11-30")
    status, answer = say(desk, do="close", id=1)
    list_status, headers, listed = send(desk, path=f"notes/{DEMO}/list")
    pdf_status, _, copy = send(desk, path=f"notes/{DEMO}/a4")
    plain = send(desk, path=f"pdf/{DEMO}/a4")[2]

    assert (status, list_status, pdf_status) == (200, 200, 200)
    assert headers["content-type"] == "text/plain; charset=utf-8"
    assert "Step 2 of Hat, size M" in listed.decode()
    reader = PdfReader(io.BytesIO(copy))
    assert len(reader.pages) == len(PdfReader(io.BytesIO(plain)).pages)
    notes = [
        (number, note.get_object())
        for number, page in enumerate(reader.pages)
        for note in page.get("/Annots", [])
        if note.get_object()["/Subtype"] == "/Text"
    ]
    said = {str(note["/NM"]).split("-")[1]: note for _, note in notes if "/IRT" not in note}
    assert said["1"]["/Contents"] == "1. Step 2 of Hat, size M\nIs it so?"
    assert said["1"]["/T"] == "Ada"
    assert "Which?" in said["2"]["/Contents"]
    page = next(number for number, note in notes if note["/NM"] == said["1"]["/NM"])
    assert "cast on" in reader.pages[page].extract_text().lower()
    box = [float(side) for side in said["1"]["/Rect"]]
    assert 0 < box[0] < box[2] < 595.3
    assert 0 < box[1] < box[3] < 841.9
    replies = [note for _, note in notes if "/IRT" in note]
    assert [each["/Contents"] for each in replies] == ["It is.", "Closed"]
    assert replies[1]["/State"] == "Completed"
    assert b"pdfuaid:part" not in copy
    assert send(desk, path=f"notes/{DEMO}/a4")[2] == copy
    assert COMMENTS not in json.dumps(ask(desk, "files", pattern=DEMO)[1])
    assert isinstance(answer["comments"], list)


@pytest.mark.parametrize(
    "wishes",
    [
        {"do": "add", "text": ""},
        {"do": "add", "text": "x" * 4001},
        {"do": "add", "text": "\x1b[31m"},
        {"do": "add", "by": "x" * 81},
        {"do": "add", "date": "today"},
        {"do": "add", "size": "Giant"},
        {"do": "add", "line": "1"},
        {"do": "add", "file": "../secret"},
        {"do": "add", "file": "nothing.yaml"},
        {"do": "answer", "id": 9},
        {"do": "close"},
        {"do": "burn", "id": 1},
        {"do": 3},
    ],
)
def test_a_comment_that_is_none_is_refused(
    desk: Running, folder: Path, wishes: dict[str, object]
) -> None:
    ask(desk, "build", client="a", version=1, pattern=DEMO, texts={})
    whole = {"file": SOURCE, "line": 1, "size": "", "by": "", "date": "", "text": "x"}
    assert say(desk, **{**whole, **wishes})[0] in (400, 404)
    assert not (folder / DEMO / COMMENTS).exists()


def test_comments_on_a_pattern_that_was_not_built_are_shown_and_answered(
    desk: Running, folder: Path
) -> None:
    (folder / DEMO / COMMENTS).write_text(
        "comments: [{id: 4, at: Line 1, text: Hello, file: pattern.yaml, line: 1}]\n",
        encoding="utf-8",
    )
    asked = {"client": "new", "pattern": DEMO}
    status, told = ask(desk, "comments", **asked)
    assert status == 200
    assert [(each["text"], each["file"], each["gone"]) for each in told["comments"]] == [
        ("Hello", "", False)
    ]
    status, told = ask(desk, "comments", **asked, do="answer", id=4, text="Hi", by="", date="")
    assert (status, told["comments"][0]["answers"][0]["text"]) == (200, "Hi")
    status, _ = ask(desk, "comments", **asked, do="add", file="pattern.yaml", line=1)
    assert status == 409


def test_for_reading_only_comments_are_shown_and_none_is_written(
    reading: Running, folder: Path
) -> None:
    commented(named(str(folder / DEMO)), Comment(0, "Line 1", "Read me.", file=SOURCE, line=1))
    before = (folder / DEMO / COMMENTS).read_bytes()
    ask(reading, "build", client="a", version=1, pattern=DEMO, texts={})
    assert "Read me." in json.dumps(say(reading)[1])
    for do in ("add", "answer", "close", "open"):
        assert say(reading, do=do, id=1, text="x")[0] == 403
    assert (folder / DEMO / COMMENTS).read_bytes() == before


@needs_chromium
def test_by_keyboard_a_comment_is_written_answered_and_closed(
    desk: Running, opened: Opened, folder: Path
) -> None:
    page = opened(desk)
    go_to(page, "- cast on: cast_on")
    page.wait_for_function(
        "() => document.querySelector('#comment-at').textContent === 'Step 2 of Hat'"
    )
    page.keyboard.press("F4")
    page.keyboard.type("Is 96 right? It is many.")
    page.keyboard.press("Tab")
    page.keyboard.type("Ada")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector(".comment")
    assert "Is 96 right? It is many." in page.inner_text(".comment")
    assert page.locator(".flag").count() == 1
    page.keyboard.press("Shift+Tab")
    page.focus(".comment .answer input")
    page.keyboard.type("It is.")
    page.evaluate("() => window.desk.build()")
    settled(page)
    page.keyboard.press("Enter")
    page.wait_for_selector(".reply")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector(".comment", state="detached")

    (kept,) = read_comments(named(str(folder / DEMO)).files)
    assert (kept.closed, kept.by, kept.at) == (True, "Ada", "Step 2 of Hat")
    assert [each.text for each in kept.answers] == ["It is."]
    assert page.locator(".flag").count() == 0


@needs_chromium
def test_by_mouse_a_comment_leads_to_its_place_and_follows_it(
    desk: Running, opened: Opened
) -> None:
    one, other = opened(desk), opened(desk)
    step = one.locator(".paper text", has_text="Decrease by the table").first
    step.scroll_into_view_if_needed()
    box = step.bounding_box()
    assert box is not None
    one.mouse.click(box["x"] + 5, box["y"] + 5)
    one.wait_for_function(
        "() => document.querySelector('#comment-at').textContent.includes('Step')"
    )
    one.fill("#comment-text", "Which table?")
    one.select_option("#comment-size", "M")
    one.click("text=Add the comment")
    other.wait_for_selector(".comment")
    assert ", size M" in other.inner_text(".comment")

    go_to(other, "- section: Brim")
    written(other, "- say: Breathe.", lambda: other.keyboard.insert_text("\n      - say: Breathe."))
    other.wait_for_function(
        "() => document.querySelector('#text').textContent.includes('Breathe.')"
    )
    settled(other)
    other.click(".comment button.finding")
    line = other.evaluate("() => window.desk.editor.cursor.at[0]")
    assert source(other).split("\n")[line - 1].strip() == "- crown: 8"
    assert "changed" not in other.inner_text(".comment")


@needs_chromium
def test_a_file_of_comments_that_is_broken_is_said(
    desk: Running, opened: Opened, folder: Path
) -> None:
    page = opened(desk)
    (folder / DEMO / COMMENTS).write_text("comments: 3\n", encoding="utf-8")
    page.wait_for_selector("#banner:not([hidden])")
    assert "comments can't be read" in page.inner_text("#banner")
    (folder / DEMO / COMMENTS).write_text(
        "comments: [{id: 4, at: Line 1, text: Hello, file: pattern.yaml, line: 1}]\n",
        encoding="utf-8",
    )
    page.wait_for_selector(".comment")


@needs_chromium
def test_a_desk_for_reading_shows_comments(reading: Running, opened: Opened, folder: Path) -> None:
    commented(named(str(folder / DEMO)), Comment(0, "Line 1", "Read me.", file=SOURCE, line=1))
    page = opened(reading)
    page.wait_for_selector(".comment")
    assert page.locator(".comment .answer").count() == 0
    assert page.is_hidden("#comment")
    assert page.is_hidden("#gauge-write")
