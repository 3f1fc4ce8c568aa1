"""The desk as a person uses it, in a real browser: by mouse and by keyboard."""

import re
from pathlib import Path

import pytest

from bindoff.desk.server import Running
from bindoff.files import DiskFiles
from bindoff.pipeline import build_pattern
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, go_to, pages_text, settled, source, written
from tests.desk.running import copied, emptied, small

pytestmark = needs_chromium


def test_typing_renews_what_it_changes_on_its_page_and_nothing_else(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    page.evaluate(
        "() => document.querySelectorAll('.paper > svg > *').forEach(each => { each.old = true })"
    )
    go_to(page, "ease it to the finished measurements")
    written(page, "measurements softly", lambda: page.keyboard.type(" softly"))

    fresh = page.evaluate(
        """() => [...document.querySelectorAll('.paper > svg')].flatMap((each, index) => {
          const fresh = [...each.children].filter(child => !child.old).length
          return fresh ? [[index, fresh]] : []
        })"""
    )
    assert len(fresh) == 1
    assert fresh[0][1] < 30
    assert "softly" in pages_text(page)
    assert "not saved" in page.inner_text("#state")
    assert "softly" in page.inner_text("#text")

    # What was put in is what the server has of that page.
    look = "index => document.querySelectorAll('.paper > svg')[index].outerHTML"
    seen = page.evaluate(look, fresh[0][0])
    page.evaluate(
        """index => {
          const sheet = document.querySelectorAll('.sheet')[index]
          delete sheet.dataset.digest
          sheet.querySelector('svg').replaceChildren()
          return window.desk.build()
        }""",
        fresh[0][0],
    )
    assert page.evaluate(look, fresh[0][0]) == seen


def test_a_click_on_a_page_marks_its_source_and_ctrl_click_goes_there(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    step = page.locator(".paper text", has_text="Decrease by the table").first
    step.scroll_into_view_if_needed()
    box = step.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + 5, box["y"] + 5)
    page.wait_for_selector(".cm-line.marked")

    assert "crown: 8" in page.inner_text(".cm-line.marked >> nth=0")
    assert page.locator(".mark").count() == 1
    page.keyboard.down("Control")
    page.mouse.click(box["x"] + 5, box["y"] + 5)
    page.keyboard.up("Control")
    assert page.evaluate("() => document.activeElement.classList.contains('cm-content')")


def test_the_cursor_marks_its_place_on_the_page_and_brings_it_into_sight(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    go_to(page, "- crown: 8")
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector(".mark")
    inside = page.evaluate(
        """() => {
          const mark = document.querySelector('.mark').getBoundingClientRect()
          const frame = document.querySelector('#sheets').getBoundingClientRect()
          return mark.bottom > frame.top && mark.top < frame.bottom
        }"""
    )
    assert inside


def test_keys_are_offered_while_one_types(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "      - section: Crown")
    page.keyboard.press("Enter")
    page.evaluate(
        """() => {
          const { view } = window.desk.editor
          const line = view.state.doc.lineAt(view.state.selection.main.head)
          view.dispatch({
            changes: { from: line.from, to: line.to, insert: '      - ' },
            selection: { anchor: line.from + 8 },
          })
        }"""
    )
    page.keyboard.type("wo")
    page.wait_for_selector(".cm-tooltip-autocomplete li[aria-selected]")
    assert page.inner_text(".cm-tooltip-autocomplete li[aria-selected]") == "work"
    page.wait_for_timeout(150)  # the list takes no key so soon after it has come up
    page.keyboard.press("Enter")
    assert "\n      - work: \n" in source(page)


def test_the_strip_follows_the_cursor_and_its_names_lead_to_their_lines(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    go_to(page, "  cast_on: stitches(around")
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector("#reckoning h2")
    told = page.inner_text("#reckoning")

    assert "Measure cast_on" in told
    assert told.count("= stitches(around, multiple = 8)") == 1  # the same in every size
    assert "M 128 · around 52.44 cm" in " ".join(told.split())
    go_to(page, "stitches(around, multiple = 8")
    written(page, "multiple = 8 * 2)", lambda: page.keyboard.type(" * 2"))
    page.wait_for_selector("#reckoning >> text=multiple = 8 * 2")
    page.click("#reckoning button >> text=around >> nth=0")
    line = page.evaluate("() => window.desk.editor.cursor.at[0]")
    assert source(page).split("\n")[line - 1].startswith("  around:")


def test_by_keyboard_from_a_page_to_its_source(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.focus(".cm-content")
    page.keyboard.press("F6")
    assert page.evaluate("() => document.activeElement.id") == "sheets"
    page.keyboard.press("Enter")
    page.wait_for_selector(".walker")
    for _ in range(4):
        page.keyboard.press("ArrowDown")
    name = page.get_attribute(".walker", "aria-label") or ""
    assert name.startswith("Page ")
    page.keyboard.press("Enter")
    line = page.evaluate("() => window.desk.editor.cursor.at[0]")
    assert f"line {line} of pattern.yaml" in name
    assert page.evaluate("() => document.activeElement.classList.contains('cm-content')")
    page.keyboard.press("Control+Enter")
    page.wait_for_selector(".mark")


def test_a_link_on_a_page_leads_to_its_place(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.locator(".paper [data-href='#at-charts']").first.click()
    heading = page.locator(".paper text", has_text=re.compile(r"^Charts$")).last
    assert page.evaluate("() => document.querySelector('#sheets').scrollTop") > 0
    box = heading.bounding_box()
    assert box is not None
    assert 0 < box["y"] < 900


def test_a_slip_keeps_the_pages_and_is_gone_when_it_is_mended(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    go_to(page, "- cast on: cast_on")
    written(page, "cast_onx", lambda: page.keyboard.type("x"))
    page.wait_for_selector("#stale:not([hidden])")

    assert "stops the build" in page.inner_text("#stale")
    assert page.locator(".paper > svg").count() > 5
    assert page.locator(".group.error").count() >= 1
    assert page.locator(".cm-lintRange-error").count() >= 1
    page.focus("#sheets")
    page.keyboard.press("F8")
    assert page.evaluate("() => document.activeElement.classList.contains('cm-content')")
    go_to(page, "cast_onx")
    written(page, "cast on: cast_on\n", lambda: page.keyboard.press("Backspace"))
    page.wait_for_selector("#stale", state="hidden")
    assert page.locator(".group.error").count() == 0


def test_saving_writes_the_file_and_says_so(desk: Running, opened: Opened, folder: Path) -> None:
    page = opened(desk)
    file = folder / DEMO / "pattern.yaml"
    go_to(page, "title: Ropewalk Hat")
    written(page, "Hat II", lambda: page.keyboard.type(" II"))
    assert "Hat II" not in file.read_text(encoding="utf-8")
    page.keyboard.press("Control+s")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")

    assert file.read_text(encoding="utf-8") == source(page)
    assert page.inner_text("#title") == "Ropewalk Hat II"
    go_to(page, "title: Ropewalk Hat II")
    page.keyboard.press("Control+z")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'not saved'")


@pytest.mark.parametrize("way", ["Keep mine", "Take the one on the disk"])
def test_two_texts_of_one_file_are_never_mixed_up(
    desk: Running, opened: Opened, folder: Path, way: str
) -> None:
    page = opened(desk)
    file = folder / DEMO / "pattern.yaml"
    go_to(page, "title: Ropewalk Hat")
    written(page, "Hat II", lambda: page.keyboard.type(" II"))
    theirs = file.read_text(encoding="utf-8").replace("Ropewalk Hat", "Rigger's Hat")
    file.write_text(theirs, encoding="utf-8")
    page.wait_for_selector("#banner:not([hidden])")
    assert "Another program saved pattern.yaml" in page.inner_text("#banner")
    page.click("text=See both")
    page.wait_for_selector("dialog[open] .apart")
    page.click("dialog form button")
    mine = source(page)
    page.click(f"#banner >> text={way}")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")

    assert file.read_text(encoding="utf-8") == (mine if way == "Keep mine" else theirs)
    assert source(page) == file.read_text(encoding="utf-8")


def test_what_another_program_saves_is_shown(desk: Running, opened: Opened, folder: Path) -> None:
    page = opened(desk)
    file = folder / DEMO / "pattern.yaml"
    text = file.read_text(encoding="utf-8").replace("Ropewalk Hat", "Rigger Hat")
    file.write_text(text, encoding="utf-8")
    page.wait_for_function("() => document.querySelector('#title').textContent === 'Rigger Hat'")

    assert source(page) == text
    assert page.inner_text("#state") == "saved"


def test_what_was_written_outlives_a_reload(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "title: Ropewalk Hat")
    written(page, "Hat III", lambda: page.keyboard.type(" III"))
    page.reload()
    page.wait_for_selector("body[data-ready]")
    settled(page)

    assert "Hat III" in source(page)
    assert page.inner_text("#state") == "not saved"


def test_size_edition_and_zoom_are_chosen_and_kept(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    count = page.locator(".sheet").count()
    page.select_option("#edition", "large-print")
    page.wait_for_function("count => document.querySelectorAll('.sheet').length > count", arg=count)
    page.select_option("#edition", "a4")
    page.wait_for_function(
        "count => document.querySelectorAll('.sheet').length === count", arg=count
    )
    page.select_option("#size", "M")
    page.wait_for_function(
        "() => document.querySelector('#sheets').textContent.includes('size M')"
        " || document.querySelector('#sheets').textContent.includes('M')"
    )
    page.select_option("#zoom", "2")
    wide = page.evaluate("() => document.querySelector('.sheet').offsetWidth")
    assert wide == pytest.approx(595.28 * 96 / 72 * 2, abs=2)
    page.reload()
    page.wait_for_selector("body[data-ready]")
    settled(page)
    assert page.input_value("#size") == "M"
    assert page.input_value("#zoom") == "2"


def test_two_pages_stand_beside_one_another(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.select_option("#zoom", "two")
    tops = page.eval_on_selector_all(
        ".sheet", "all => all.map(each => Math.round(each.getBoundingClientRect().top))"
    )
    assert tops[0] == tops[1] < tops[2] == tops[3]
    page.reload()
    page.wait_for_selector("body[data-ready]")
    assert page.input_value("#zoom") == "two"


def test_a_bar_shows_how_much_is_made(desk: Running, folder: Path, opened: Opened) -> None:
    small(folder)
    page = opened(desk, "quay-cap")
    page.focus("#make")
    page.keyboard.press("Enter")
    page.wait_for_function(
        "() => { const { value } = document.querySelector('progress') ?? {}; return value > 20 }",
        polling=5,
    )
    page.wait_for_selector("dialog[open] .made", timeout=120_000)
    assert "quay-cap-large-print.pdf" in page.inner_text("dialog .made")


def test_a_grid_is_a_file_of_its_own(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.click("[role=tab][data-name='rope.grid']")
    page.click("[data-way=text]")
    assert source(page).startswith("########")
    go_to(page, "########")
    page.keyboard.press("Backspace")
    written(page, "#######o", lambda: page.keyboard.type("o"))

    assert "1 Madder" in pages_text(page).replace("\N{NO-BREAK SPACE}", " ")


def test_two_tabs_do_not_disturb_one_another(desk: Running, opened: Opened) -> None:
    one, other = opened(desk), opened(desk)
    go_to(one, "title: Ropewalk Hat")
    written(one, "Hat IV", lambda: one.keyboard.type(" IV"))
    assert one.inner_text("#title") == "Ropewalk Hat IV"
    assert other.inner_text("#title") == "Ropewalk Hat"
    one.keyboard.press("Control+s")
    other.wait_for_function(
        "() => document.querySelector('#title').textContent === 'Ropewalk Hat IV'"
    )


def test_a_first_pattern_without_a_terminal(desk: Running, folder: Path, opened: Opened) -> None:
    """From an empty folder to a built PDF that is the one the command builds."""
    emptied(folder)
    page = opened(desk, "")
    page.fill("[name=title]", "Quay Hat")
    page.click("text=Begin >> nth=-1")
    page.wait_for_selector(".field .wrong")
    assert page.inner_text(".field:has([name=designer]) .wrong").startswith("Your name is missing")
    assert page.evaluate("() => document.activeElement.name") == "designer"
    page.fill("[name=designer]", "Ada")
    page.fill("[name=contact]", "ada@ebbstow.example")
    page.press("[name=designer]", "Enter")
    page.wait_for_selector("#work:not([hidden])")
    settled(page)
    page.wait_for_selector(".sound")
    assert page.inner_text("#title") == "Quay Hat"
    assert page.evaluate("() => document.activeElement.classList.contains('cm-content')")
    page.click("#make")
    page.wait_for_selector("dialog[open] .made", timeout=120_000)
    assert "quay-hat.pdf" in page.inner_text("dialog")
    page.keyboard.press("Escape")
    href = page.get_attribute("#pdf", "href")
    shown = page.evaluate(
        "async href => [...new Uint8Array(await (await fetch(href)).arrayBuffer())]", href
    )
    made = (folder / "made" / "quay-hat" / "quay-hat.pdf").read_bytes()
    alone = build_pattern(DiskFiles(str(folder / "quay-hat")), "pattern.yaml", "quay-hat").files

    assert made == alone["quay-hat.pdf"]
    assert bytes(shown) == made


def test_a_pattern_of_the_folder_is_opened_with_a_click(
    desk: Running, folder: Path, opened: Opened
) -> None:
    copied(folder / "patterns", "netmender-mittens")
    page = opened(desk, "")
    page.click("#known >> text=netmender-mittens")
    page.wait_for_selector("#work:not([hidden])")
    settled(page)
    assert page.inner_text("#title") == "Netmender Mittens"
    page.select_option("#pattern", DEMO)
    page.wait_for_function("() => document.querySelector('#title').textContent === 'Ropewalk Hat'")


def test_a_desk_for_reading_offers_no_change(reading: Running, opened: Opened) -> None:
    page = opened(reading)
    before = source(page)
    go_to(page, "title: Ropewalk Hat")
    page.keyboard.type(" V")
    assert source(page) == before
    assert page.is_hidden("#save")
    assert page.is_hidden("#make")


def test_a_letter_outside_the_basic_plane_shifts_no_mark(desk: Running, opened: Opened) -> None:
    """Our columns count characters, the editor's count the halves of such letters too."""
    page = opened(desk)
    go_to(page, "- cast on: ")
    page.evaluate(
        """() => {
          const { view } = window.desk.editor
          const text = view.state.doc.toString()
          const at = text.indexOf('- {name: set of 3.5 mm')
          const insert = '- {name: "\U0001f9f6\U0001f9f6", usa: x}\\n  - '
          view.dispatch({ changes: { from: at, to: at + 2, insert } })
        }"""
    )
    settled(page)
    page.wait_for_selector(".cm-lintRange-error")
    assert page.inner_text(".cm-lintRange-error >> nth=0").startswith("usa")


@pytest.mark.parametrize(
    ("wide", "high", "seen"),
    [
        (1440, 900, {"source", "pages", "read"}),
        (1024, 768, {"source", "pages"}),
        (390, 844, {"source"}),
    ],
)
def test_columns_fit_the_window(
    desk: Running, opened: Opened, wide: int, high: int, seen: set[str]
) -> None:
    page = opened(desk, size=(wide, high))
    shown = {each for each in ("source", "pages", "read") if page.is_visible(f"#{each}")}

    assert shown == seen
    assert page.evaluate("() => document.documentElement.scrollWidth") <= wide
    if wide < 1200:
        page.click("[data-to=read]")
        assert page.is_visible("#read")


def test_borders_are_moved_by_keyboard(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    before = page.evaluate("() => document.querySelector('#source').offsetWidth")
    page.focus("[data-of=source]")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("() => document.querySelector('#source').offsetWidth") > before


def test_nothing_of_a_pattern_runs_as_a_script(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "title: ")
    evil = "<img src=x onerror=document.title=1><script>document.title=2</script> "
    written(page, evil, lambda: page.keyboard.insert_text(f'"{evil}"\nsummary2: '))
    page.keyboard.press("Control+z")
    settled(page)
    go_to(page, "  A close-fitting")
    written(page, evil, lambda: page.keyboard.insert_text(evil))
    assert page.title().endswith("the desk")
    assert page.locator("#sheets script, #text img, #findings img").count() == 0
