"""Sentences that no check can prove are shown to be read, ticked off, and asked again when changed.

What has been read is kept beside the pattern; the source keeps its bytes.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from bindoff.desk.server import Running
from bindoff.desk.workplace import REREAD
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, go_to, source, told, written
from tests.desk.running import ask
from tests.desk.test_accessible import broken_at_the_desk

SOURCE = "pattern.yaml"
DAY = "2026-11-30"
SEWN = "Sew the hook to the left side of the brim."
KNOWN = "Weave in the ends on the inside."


@pytest.fixture
def claiming(folder: Path) -> Path:
    """The demo with a sentence that no check can prove."""
    path = folder / DEMO / SOURCE
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(KNOWN, f"{KNOWN} {SEWN}"), encoding="utf-8")
    return path


def listed(desk: Running, **wishes: object) -> dict[str, Any]:
    status, answer = ask(desk, "reread", client="a", pattern=DEMO, **wishes)
    assert status == 200
    return answer


def built(desk: Running, texts: dict[str, str] | None = None) -> None:
    ask(desk, "build", client="a", version=1, pattern=DEMO, texts=texts or {})


def the_one(answer: dict[str, Any]) -> dict[str, Any]:
    return dict(next(each for each in answer["asked"] if "hook" in str(each["parts"])))


def test_a_sentence_that_was_read_is_asked_again_when_it_changes(
    desk: Running, claiming: Path
) -> None:
    before = claiming.read_bytes()
    built(desk)
    item = the_one(listed(desk))
    assert "".join(words for words, _ in item["parts"]) == SEWN
    assert [words for words, claim in item["parts"] if claim] == ["to the left"]
    assert item["whys"] == ["nothing says that it is `to the left`"]
    place = item["claims"][1]
    line = claiming.read_text(encoding="utf-8").split("\n")[place["from"][0] - 1]
    assert line[place["from"][1] - 1 : place["to"][1] - 1] == "to the left"

    assert the_one(listed(desk, do="tick", digest=item["digest"], date=DAY))["read"]
    text = before.decode()
    built(desk, {SOURCE: text.replace("title:", "# A remark.\ntitle:", 1)})
    assert the_one(listed(desk))["read"]
    built(desk, {SOURCE: text.replace("left side", "right side")})
    changed = the_one(listed(desk))
    assert not changed["read"]
    built(desk)
    assert not the_one(listed(desk, do="untick", digest=item["digest"], date=DAY))["read"]
    assert claiming.read_bytes() == before
    assert REREAD not in json.dumps(ask(desk, "files", pattern=DEMO)[1])


def test_for_reading_only_and_where_nothing_is_asked_no_tick_is_written(
    desk: Running, reading: Running, claiming: Path
) -> None:
    for each in (desk, reading):
        built(each)
    tick = {"client": "a", "pattern": DEMO, "do": "tick", "date": DAY}
    digest = the_one(listed(reading))["digest"]
    assert ask(reading, "reread", **tick, digest=digest)[0] == 403
    assert ask(desk, "reread", **tick, digest="none")[0] == 404
    assert ask(desk, "reread", **{**tick, "date": "today"}, digest=digest)[0] == 400
    assert ask(desk, "reread", **{**tick, "do": "burn"}, digest=digest)[0] == 400
    assert not (claiming.parent / REREAD).exists()
    (claiming.parent / REREAD).write_text("read: 3\n", encoding="utf-8")
    assert "reread.yaml" in listed(desk)["fault"]


@needs_chromium
def test_by_keyboard_a_sentence_is_gone_to_ticked_off_and_asked_again(
    desk: Running, claiming: Path, opened: Opened
) -> None:
    page = opened(desk)
    page.wait_for_selector("#reread .asked", state="attached")
    assert broken_at_the_desk(page) == []
    page.focus("#reread button")
    page.keyboard.press("Enter")
    line, column = page.evaluate("() => window.desk.editor.cursor.at")
    assert source(page).split("\n")[line - 1][column - 1 :].startswith("to the left")
    page.focus("#reread button")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.wait_for_selector("#reread .asked", state="detached")
    assert page.evaluate("() => document.activeElement.id") == "reread-title"
    told(page, "All are read.")
    assert "You have read all of them." in page.inner_text("#reread-said")

    page.check("#reread-done")
    page.wait_for_selector("#reread .asked.done")
    assert broken_at_the_desk(page) == []
    go_to(page, "to the left side")
    written(page, "left sides", lambda: page.keyboard.type("s"))
    page.wait_for_selector("#reread .asked:not(.done)")
    assert SEWN.replace("side", "sides") in source(page)
