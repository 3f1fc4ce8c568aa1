"""What a stranger meets at the desk: which patterns there are, what is in sight in a narrow window,
what a sentence that is told looks and sounds like, and that nothing needs a keyboard."""

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bindoff.desk.server import Running
from bindoff.desk.workplace import title_of
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, go_to, settled, source, told, written
from tests.desk.running import ask, copied, emptied
from tests.desk.test_accessible import violations_at_the_desk

if TYPE_CHECKING:
    from playwright.sync_api import Page


@pytest.mark.parametrize(
    ("written_as", "title"),
    [
        ("title: Ropewalk Hat\n", "Ropewalk Hat"),
        ("version: 1\ntitle: \"Knot: a 'hat'\"  # for sale\n", "Knot: a 'hat'"),
        ("title: >-\n  Folded\n", "a-folder"),
        ("title: [broken\n", "a-folder"),
        ("title: {a: b}\n", "a-folder"),
        ("yarns:\n  title: no\n", "a-folder"),
        ("", "a-folder"),
    ],
)
def test_a_pattern_has_its_title_also_where_it_does_not_build(
    tmp_path: Path, written_as: str, title: str
) -> None:
    from bindoff.commands.shared import named

    folder = tmp_path / "a-folder"
    folder.mkdir()
    (folder / "pattern.yaml").write_text(written_as, encoding="utf-8")
    assert title_of(named(str(folder))) == title


def test_patterns_are_listed_with_their_titles(desk: Running, folder: Path) -> None:
    (folder / "broken").mkdir()
    (folder / "broken" / "pattern.yaml").write_bytes(b"\xff\xfe\x00")
    status, told_of = ask(desk, "patterns")
    assert status == 200
    assert told_of["titles"] == {"broken": "broken", DEMO: "Ropewalk Hat"}
    assert Path(told_of["home"]).samefile(folder)


@needs_chromium
def test_patterns_of_one_title_are_told_apart_by_their_folders(
    desk: Running, folder: Path, opened: Opened
) -> None:
    copied(folder, "netmender-mittens")
    (folder / DEMO).rename(folder / "second")
    copied(folder, DEMO)
    page = opened(desk, "")
    shown = page.locator("#known button").all_inner_texts()
    assert [each.split("\n") for each in shown] == [
        ["Netmender Mittens", "netmender-mittens"],
        ["Ropewalk Hat", DEMO],
        ["Ropewalk Hat", "second"],
    ]
    assert str(folder.resolve()) in page.inner_text("#begin-part")
    page.click("#known >> text=netmender-mittens")
    settled(page)
    names = [f"Ropewalk Hat ({DEMO})", "Ropewalk Hat (second)"]
    assert page.locator("#pattern option").all_inner_texts()[1:3] == names
    assert page.locator("#against option").all_inner_texts()[-2:] == names


@needs_chromium
def test_a_desk_for_reading_has_no_form_to_begin_with(
    reading: Running, folder: Path, opened: Opened
) -> None:
    page = opened(reading, "")
    assert page.is_visible("#known button")
    assert page.is_hidden("#begin-part")
    assert page.is_hidden("#nothing")
    emptied(folder)
    page.reload()
    page.wait_for_selector("#nothing:not([hidden])")


@needs_chromium
@pytest.mark.parametrize("wide", [390, 320])
def test_the_top_of_a_narrow_window_has_two_lines_and_a_menu(
    desk: Running, opened: Opened, wide: int
) -> None:
    page = opened(desk, size=(wide, 700))
    tops = {
        round(page.evaluate("each => each.getBoundingClientRect().bottom", each))
        for each in page.query_selector_all(".top button, .top select, .top a")
        if each.is_visible()
    }
    assert len(tops) == 2
    assert page.is_visible("#save")
    assert page.is_hidden("#edition")

    page.focus("#more")
    page.keyboard.press("Enter")
    assert page.is_visible("#edition")
    assert page.get_attribute("#more", "aria-expanded") == "true"
    assert violations_at_the_desk(page) == []
    page.keyboard.press("Escape")
    assert page.is_hidden("#edition")
    assert page.evaluate("() => document.activeElement.id") == "more"
    page.click("#more")
    page.select_option("#edition", "letter")
    settled(page)
    page.click(".cm-content")
    assert page.is_hidden("#edition")


@needs_chromium
def test_what_the_cursor_marked_is_in_sight_when_the_pages_come_up(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk, size=(390, 844), has_touch=True)
    go_to(page, "- crown: 8")
    page.wait_for_selector(".mark", state="attached")
    page.tap("[data-to=pages]")
    page.wait_for_function(
        """() => {
          const { top, bottom } = document.querySelector('.mark').getBoundingClientRect()
          return top > 0 && bottom > top && bottom < innerHeight
        }"""
    )


@needs_chromium
def test_no_sentence_takes_the_place_of_another(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    told(page, "Nothing was found.")
    page.click("[data-name='rope.grid']")
    page.evaluate(
        """() => {
          const { painter } = window.desk
          painter.copy()
          painter.lift()
          for (const _ of [1, 2, 3]) painter.zoom(1)
        }"""
    )
    told(page, "copied")
    told(page, "Select cells first.")
    told(page, "Cells of 48 pixels.")
    heard = page.evaluate("() => window.heard.length")
    assert heard == 0, "of cells that grow step by step only the last size is told"
    assert page.inner_text("#said") == "Select cells first."


@needs_chromium
def test_steps_are_undone_by_mouse_in_a_text_and_on_a_board(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    before = source(page)
    go_to(page, "title: Ropewalk")
    written(page, "Ropewalk Old", lambda: page.keyboard.type(" Old"))
    page.click("#undo")
    assert source(page) == before
    page.click("#redo")
    assert "Ropewalk Old" in source(page)

    page.click("[data-name='rope.grid']")
    grid = source(page)
    page.focus("[role=gridcell][tabindex='0']")
    page.keyboard.press("o")
    assert source(page) != grid
    page.click("#undo")
    assert source(page) == grid
    page.click("#undo")
    assert page.inner_text("#said") == "There is no such step."


@needs_chromium
def test_both_texts_of_a_conflict_are_in_sight(desk: Running, folder: Path, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "title: Ropewalk")
    page.keyboard.type(" Old")
    file = folder / DEMO / "pattern.yaml"
    file.write_text(file.read_text(encoding="utf-8") + "\n# outside\n", encoding="utf-8")
    page.click("text=See both")
    around = box(page, "#dialog")
    for name in ("Yours", "On the disk"):
        place = box(page, f"pre[aria-label='{name}']")
        assert place["x"] >= around["x"]
        assert place["x"] + place["width"] <= around["x"] + around["width"]


@needs_chromium
def test_a_pattern_that_does_not_build_has_its_name_and_no_empty_fields(
    desk: Running, folder: Path, opened: Opened
) -> None:
    file = folder / DEMO / "pattern.yaml"
    whole = file.read_text(encoding="utf-8")
    file.write_text(whole.replace("stitches: 24", "stitches: 24,5"), encoding="utf-8")
    page = opened(desk)
    page.wait_for_selector(".group.error")
    assert page.inner_text("#title") == "Ropewalk Hat"
    assert page.input_value("#size") == ""
    assert page.locator("#size option").all_inner_texts() == ["all"]
    assert page.is_hidden("#gauge")
    page.wait_for_selector("text=There are no comments.")

    page.click(".fix")
    page.wait_for_selector(".told h3")
    assert "24.5" in source(page)
    assert page.is_visible("#gauge")


@needs_chromium
def test_a_file_that_another_program_removes_is_written_again_or_closed(
    desk: Running, folder: Path, opened: Opened
) -> None:
    page = opened(desk)
    grid = folder / DEMO / "rope.grid"
    before = grid.read_bytes()
    grid.unlink()
    page.click("#banner >> text=Write it again")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")
    assert grid.read_bytes() == before

    grid.unlink()
    page.click("#banner >> text=Close it")
    page.wait_for_selector("#stale:not([hidden])")
    assert page.locator("#files button").all_inner_texts() == ["pattern.yaml"]
    assert "rope.grid" in page.inner_text("#findings")


@needs_chromium
@pytest.mark.parametrize("wide", [1440, 320])
def test_words_are_found_in_a_panel_that_fits(desk: Running, opened: Opened, wide: int) -> None:
    page = opened(desk, size=(wide, 700))
    page.focus(".cm-content")
    page.keyboard.press("Control+f")
    page.keyboard.type("designer")
    page.wait_for_selector(".cm-searchMatch")
    panel, close = box(page, ".cm-search"), box(page, ".cm-search [name=close]")
    assert close["width"] >= 24
    assert close["x"] + close["width"] <= panel["x"] + panel["width"]
    assert violations_at_the_desk(page) == []


def box(page: "Page", selector: str) -> dict[str, float]:
    found = page.locator(selector).bounding_box()
    assert found is not None
    return {"x": found["x"], "width": found["width"]}
