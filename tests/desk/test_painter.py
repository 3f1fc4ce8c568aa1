"""Grids painted on the board, each thing by mouse and again by keyboard: the same file results."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bindoff.desk.server import Running
from tests.axe import violations
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, settled, source, told
from tests.desk.running import copied
from tests.desk.test_accessible import broken_at_the_desk

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = needs_chromium

WIDE, HIGH = 8, 19  # stitches and rounds of the demo's grid
CELL = "#painter [role=gridcell][tabindex='0']"


@pytest.fixture
def page(desk: Running, opened: Opened) -> "Page":
    page = opened(desk)
    board(page, "rope.grid")
    return page


def board(page: "Page", name: str) -> None:
    """Open a grid on the board, with the keyboard on it."""
    page.click(f"[role=tab][data-name='{name}']")
    page.wait_for_selector(CELL, state="attached")
    page.focus(CELL)


def at(page: "Page", stitch: int, round_: int) -> tuple[float, float]:
    """The middle of a cell on the screen, scrolled into sight."""
    x, y = page.evaluate(
        """([stitch, round]) => {
          const { board } = window.desk.painter
          const cell = { r: board.height - round, c: board.width - stitch }
          board.reveal(cell)
          board.paint()
          const { left, top } = board.canvas.getBoundingClientRect()
          const [x, y] = [board.x + (cell.c + 0.5) * board.w, board.y + (cell.r + 0.5) * board.h]
          return [left + x, top + y]
        }""",
        [stitch, round_],
    )
    return float(x), float(y)


def go(page: "Page", stitch: int, round_: int) -> None:
    """Walk to a cell with the keys."""
    page.focus(CELL)
    page.keyboard.press("Control+End")  # stitch 1 of round 1
    for _ in range(stitch - 1):
        page.keyboard.press("ArrowLeft")
    for _ in range(round_ - 1):
        page.keyboard.press("ArrowUp")
    heard = page.inner_text(CELL)
    assert f"stitch {stitch}, round {round_}" in heard


def drag(page: "Page", start: tuple[int, int], end: tuple[int, int]) -> None:
    page.mouse.move(*at(page, *start))
    page.mouse.down()
    page.mouse.move(*at(page, *end), steps=4)
    page.mouse.up()


def press(page: "Page", key: str, times: int) -> None:
    for _ in range(times):
        page.keyboard.press(key)


def lines(page: "Page") -> list[str]:
    return source(page).split("\n")


def panel(page: "Page", name: str, button: str) -> None:
    if page.get_attribute(f"[data-panel={name}]", "aria-expanded") == "false":
        page.click(f"[data-panel={name}]")
    page.click(f"#panel-{name} >> text='{button}'")


def brush(page: "Page", sign: str) -> None:
    page.locator(f".brushes .chip:has(input[value='{sign}'])").click()


def tool(page: "Page", name: str) -> None:
    page.locator(f".tool .chip:has(input[value={name}])").click()


# ---------------------------------------------------------------- painting


def paint_by_mouse(page: "Page") -> None:
    brush(page, "o")
    drag(page, (2, 12), (5, 12))


def paint_by_keys(page: "Page") -> None:
    go(page, 2, 12)
    page.keyboard.press("o")
    page.keyboard.down("Shift")
    press(page, "ArrowLeft", 3)
    page.keyboard.up("Shift")


WAYS = pytest.mark.parametrize("way", ["mouse", "keys"])


def by(
    way: str, mouse: Callable[["Page"], None], keys: Callable[["Page"], None], page: "Page"
) -> None:
    (mouse if way == "mouse" else keys)(page)


@WAYS
def test_a_stroke_changes_its_line_and_no_other(page: "Page", folder: Path, way: str) -> None:
    file = folder / DEMO / "rope.grid"
    before = file.read_text(encoding="utf-8").split("\n")
    by(way, paint_by_mouse, paint_by_keys, page)
    after = lines(page)

    assert after[HIGH - 12] == "...oooo."
    assert [each for each in after if each not in before] == ["...oooo."]
    assert file.read_text(encoding="utf-8").split("\n") == before  # built, never written
    settled(page)
    page.keyboard.press("Control+s")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")
    assert file.read_text(encoding="utf-8").split("\n") == after


@WAYS
def test_undo_takes_back_a_whole_stroke_in_the_text_too(page: "Page", way: str) -> None:
    before = source(page)
    by(way, paint_by_mouse, paint_by_keys, page)
    painted = source(page)
    page.keyboard.press("Control+z")
    if way == "keys":  # the first of its cells was painted by itself
        page.keyboard.press("Control+z")
    assert source(page) == before
    page.keyboard.press("Control+y")
    if way == "keys":
        page.keyboard.press("Control+y")
    assert source(page) == painted

    page.click("[data-way=text]")
    press(page, "Control+z", 1 if way == "mouse" else 2)
    assert source(page) == before
    page.keyboard.press("Control+Home")
    page.keyboard.press("Delete")
    page.keyboard.type("o")
    page.click("[data-way=paint]")
    assert page.inner_text("#painter .fault") == ""
    press(page, "Control+z", 2)
    assert source(page) == before


def test_what_is_painted_is_built_and_shown_on_its_page(page: "Page") -> None:
    old = page.evaluate("() => document.body.dataset.painted")
    go(page, 1, 7)
    page.keyboard.press("o")
    page.wait_for_function("old => document.body.dataset.painted > old", arg=old)
    assert page.inner_text("#state") == "not saved"


@WAYS
def test_flood_paints_what_hangs_together(page: "Page", way: str) -> None:
    tool(page, "flood")
    if way == "mouse":
        brush(page, "o")
        page.mouse.click(*at(page, 1, 19))
    else:
        page.focus(CELL)
        go(page, 1, 19)
        page.keyboard.press("o")
    assert lines(page)[:2] == ["oooooooo", "oo..oo.."]


def test_the_brush_is_taken_from_a_cell(page: "Page") -> None:
    page.keyboard.down("Alt")
    page.mouse.click(*at(page, 4, 12))
    page.keyboard.up("Alt")
    told(page, "Brush: Madder")
    page.mouse.click(*at(page, 1, 1))
    assert lines(page)[HIGH - 1] == "#######o"


def test_a_second_finger_moves_the_board_and_paints_nothing(desk: Running, opened: Opened) -> None:
    page = opened(desk, has_touch=True)
    board(page, "rope.grid")
    before = source(page)
    page.touchscreen.tap(*at(page, 1, 1))
    assert source(page) == before  # the brush is what lies there
    brush(page, "o")
    page.touchscreen.tap(*at(page, 1, 1))
    assert lines(page)[HIGH - 1] == "#######o"
    x, y = at(page, 4, 10)
    session = page.context.new_cdp_session(page)
    for kind, fingers in (
        ("touchStart", [(x, y)]),
        ("touchStart", [(x, y), (x + 40, y)]),
        ("touchMove", [(x, y - 60), (x + 40, y - 60)]),
        ("touchEnd", []),
    ):
        points = [{"x": a, "y": b, "id": n} for n, (a, b) in enumerate(fingers)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    assert lines(page)[HIGH - 10] == ".o....o."


# ---------------------------------------------------------------- selecting


def select_by_mouse(page: "Page") -> None:
    tool(page, "select")
    drag(page, (3, 12), (6, 8))


def select_by_keys(page: "Page") -> None:
    go(page, 3, 12)
    page.keyboard.down("Control")
    page.keyboard.down("Shift")
    press(page, "ArrowLeft", 3)
    press(page, "ArrowDown", 4)
    page.keyboard.up("Shift")
    page.keyboard.up("Control")


DIAMOND = ["...oo...", "..o..o..", ".o....o.", "..o..o..", "...oo..."]


@WAYS
def test_a_selection_is_moved_and_leaves_the_ground(page: "Page", way: str) -> None:
    assert lines(page)[7:12] == DIAMOND
    by(way, select_by_mouse, select_by_keys, page)
    told(page, "4 stitches by 5 rounds selected")
    if way == "mouse":
        drag(page, (4, 10), (2, 10))
    else:
        panel(page, "part", "Move")
        press(page, "ArrowRight", 2)
        page.keyboard.press("Enter")
    assert lines(page)[7:12] == [".....oo.", "....o..o", ".o......", "....o..o", ".....oo."]
    page.keyboard.press("Control+z")
    assert lines(page)[7:12] == DIAMOND


@WAYS
def test_a_selection_is_copied_and_laid_elsewhere(page: "Page", way: str) -> None:
    by(way, select_by_mouse, select_by_keys, page)
    if way == "mouse":
        panel(page, "part", "Copy")
        panel(page, "part", "Paste")
        drag(page, (4, 10), (4, 15))
        page.mouse.click(*at(page, 1, 1))
    else:
        page.keyboard.press("Control+c")
        page.keyboard.press("Control+v")
        page.wait_for_function("() => window.desk.painter.hand")
        press(page, "ArrowUp", 5)
        page.keyboard.press("Enter")
    assert lines(page)[7:12] == DIAMOND
    before = [".##..##.", "..##..##", "#..##..#", "########", "........"]
    laid = [old[:2] + new[2:6] + old[6:] for old, new in zip(before, DIAMOND, strict=True)]
    assert lines(page)[2:7] == laid


@WAYS
def test_what_is_in_hand_is_let_go(page: "Page", way: str) -> None:
    before = source(page)
    by(way, select_by_mouse, select_by_keys, page)
    panel(page, "part", "Move")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Escape")
    told(page, "Let go")
    assert source(page) == before


@pytest.mark.parametrize(
    ("button", "top"),
    [("Left for right", "..##..##"), ("Upside down", "########")],
)
@WAYS
def test_a_part_is_turned_over(page: "Page", button: str, top: str, way: str) -> None:
    """The top two rounds of rope: mirrored as pencil and paper have it."""
    assert lines(page)[:2] == ["########", "##..##.."]
    if way == "mouse":
        tool(page, "select")
        drag(page, (1, 19), (8, 18))
        panel(page, "part", button)
    else:
        go(page, 1, 19)
        page.keyboard.press("Control+Shift+ArrowDown")
        press(page, "Control+Shift+ArrowLeft", 7)
        page.focus("[data-panel=part]")
        page.keyboard.press("Enter")
        page.focus(f"#panel-part >> text='{button}'")
        page.keyboard.press("Enter")
    expected = ["########", "..##..##"] if button == "Left for right" else ["##..##..", "########"]
    assert lines(page)[:2] == expected


def test_a_quarter_turn_goes_clockwise(page: "Page") -> None:
    tool(page, "select")
    drag(page, (8, 18), (6, 16))
    assert [each[:3] for each in lines(page)[1:4]] == ["##.", ".##", "..#"]
    panel(page, "part", "Quarter turn")
    assert [each[:3] for each in lines(page)[1:4]] == ["..#", ".##", "##."]


def test_stitches_that_lean_change_with_their_mirror(
    desk: Running, folder: Path, opened: Opened
) -> None:
    copied(folder, "herring-quay-shawl")
    page = opened(desk, "herring-quay-shawl")
    board(page, "scales.grid")
    before = source(page)
    page.keyboard.press("Control+a")
    panel(page, "part", "Left for right")
    told(page, "That changes nothing")  # its two halves are mirror images
    page.focus(CELL)
    page.keyboard.press("Escape")
    page.keyboard.press("Control+Home")
    press(page, "ArrowDown", 3)
    press(page, "ArrowRight", 12)
    press(page, "Control+Shift+ArrowRight", 2)
    panel(page, "part", "Left for right")
    assert lines(page)[3] == "xxxx..o.o....o/|..o/.\\o.|..o/...o.o..xxxx"
    page.focus(CELL)
    page.keyboard.press("Control+z")
    assert source(page) == before


# ---------------------------------------------------------------- rows and stitches


def test_rows_and_stitches_come_and_go(page: "Page") -> None:
    before = source(page)
    go(page, 3, 2)
    panel(page, "rounds", "Row above")
    told(page, "8 stitches by 20 rounds")
    assert lines(page)[HIGH - 2] == "........"
    assert len([each for each in lines(page) if each]) == HIGH + 1
    page.keyboard.press("Control+z")
    page.focus(CELL)
    page.keyboard.press("Control+z")
    assert source(page) == before
    panel(page, "rounds", "Stitch on the left")
    assert lines(page)[0] == "#####.###"
    panel(page, "rounds", "Remove stitch")
    panel(page, "rounds", "Remove row")
    assert all(len(each) == WIDE for each in lines(page) if each)
    assert len([each for each in lines(page) if each]) == HIGH - 1


def test_marks_of_the_repeat_stay_between_the_same_stitches(
    desk: Running, folder: Path, opened: Opened
) -> None:
    copied(folder, "herring-quay-shawl")
    page = opened(desk, "herring-quay-shawl")
    board(page, "foam.grid")
    top = lines(page)[0]
    assert top == "--o------------|--------|-------------o--"
    page.keyboard.press("Control+Home")
    panel(page, "rounds", "Stitch on the left")
    edge, repeat, other = lines(page)[0].split("|")
    assert (len(edge), len(repeat), len(other)) == (16, 8, 16)


# ---------------------------------------------------------------- the file


def test_what_stands_around_the_chart_stays(folder: Path, desk: Running, opened: Opened) -> None:
    """Empty lines, line ends and a byte order mark are as they were."""
    file = folder / DEMO / "rope.grid"
    drawn = file.read_text(encoding="utf-8").rstrip("\n").split("\n")
    text = "\ufeff\r\n\r\n" + "\r\n".join(drawn) + "\r\n\r\n"
    file.write_bytes(text.encode())
    page = opened(desk)
    board(page, "rope.grid")
    page.keyboard.press("Control+End")
    page.keyboard.press("o")
    settled(page)
    page.keyboard.press("Control+s")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")
    assert file.read_bytes().decode() == text.replace("########\r\n\r\n", "#######o\r\n\r\n")


def test_a_grid_that_another_program_changed_is_not_written_over(
    page: "Page", folder: Path
) -> None:
    file = folder / DEMO / "rope.grid"
    page.keyboard.press("Control+End")
    page.keyboard.press("o")
    theirs = file.read_text(encoding="utf-8").replace("...oo...", "..oooo..")
    file.write_text(theirs, encoding="utf-8")
    page.wait_for_selector("#banner:not([hidden])")
    page.keyboard.press("Control+s")
    page.wait_for_timeout(200)
    assert file.read_text(encoding="utf-8") == theirs
    page.click("#banner >> text=Take the one on the disk")
    assert source(page) == theirs
    page.focus(CELL)
    assert page.inner_text("#state") == "saved"


def test_a_grid_that_is_no_rectangle_is_told(page: "Page") -> None:
    page.click("[data-way=text]")
    page.keyboard.press("Control+Home")
    page.keyboard.press("Delete")
    page.click("[data-way=paint]")
    assert "Line 2 of the file has 8 cells where line 1 has 7" in page.inner_text("#painter .fault")
    page.click("[data-way=text]")
    page.keyboard.press("Control+z")
    page.click("[data-way=paint]")
    assert page.is_visible("#painter .board")


def test_a_desk_for_reading_paints_nothing(reading: Running, opened: Opened) -> None:
    page = opened(reading)
    board(page, "rope.grid")
    before = source(page)
    page.keyboard.press("o")
    told(page, "for reading only")
    drag(page, (1, 1), (4, 4))
    page.keyboard.press("Control+z")
    assert source(page) == before


# ---------------------------------------------------------------- floats


def test_floats_that_are_too_long_are_marked_while_one_paints(page: "Page") -> None:
    """A single stitch of tar in a round of 8 floats behind the 7 others; at 24 stitches to 10 cm
    2.54 cm are 6 stitches."""
    assert "no long float" in page.inner_text(".size-told")
    go(page, 1, 13)
    page.keyboard.press("#")
    page.wait_for_function(
        "() => document.querySelector('.size-told').textContent.includes('1 long float')"
    )
    page.keyboard.press("ArrowLeft")
    assert "behind it Tar floats over 7" in page.inner_text(CELL)
    told(page, "1 long float")
    page.keyboard.press("Control+z")
    page.wait_for_function(
        "() => document.querySelector('.size-told').textContent.includes('no long float')"
    )


# ---------------------------------------------------------------- spreadsheets


def paste(page: "Page", text: str, html: str = "") -> None:
    page.focus(CELL)
    page.evaluate(
        """([text, html]) => {
          const data = new DataTransfer()
          data.setData('text/plain', text)
          if (html) data.setData('text/html', html)
          const how = { clipboardData: data, bubbles: true, cancelable: true }
          document.activeElement.dispatchEvent(new ClipboardEvent('paste', how))
        }""",
        [text, html],
    )


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("Madder\tTar\nTar\tMadder\n", ""),
        ("o\t#\n#\to\n", ""),
        ("o#\n#o", ""),
        (
            "\t\n\t\n",
            "<style>.a {background:#A8342B; mso-pattern:black none} .b{background-color:#1f2933}"
            "</style><table><tr><td class=a></td><td class=b></td></tr>"
            "<tr><td bgcolor='#1F2933'></td><td style='background-color: rgb(168, 52, 43)'></td>"
            "</tr></table>",
        ),
    ],
    ids=["yarns", "signs", "lines", "colours"],
)
def test_cells_of_a_spreadsheet_are_pasted(page: "Page", text: str, html: str) -> None:
    go(page, 2, 13)
    paste(page, text, html)
    page.wait_for_function("() => window.desk.painter.hand")
    page.keyboard.press("Enter")
    assert [each[-2:] for each in lines(page)[6:8]] == ["o#", "#o"]


def test_a_cell_that_means_nothing_is_named_and_nothing_is_pasted(page: "Page") -> None:
    before = source(page)
    paste(page, "Tar\tPitch\n")
    page.wait_for_selector("dialog[open] .paste-fault li")
    assert "Pitch" in page.inner_text(".paste-fault")
    assert source(page) == before
    page.fill("#paste-here", "Tar\tHemp\n")
    page.click("dialog >> text=Make them the grid")
    page.wait_for_selector("dialog:not([open])", state="attached")
    assert source(page).strip() == "#."


# ---------------------------------------------------------------- a picture beneath


def test_a_picture_lies_beneath_the_cells_and_is_never_sent(page: "Page", tmp_path: Path) -> None:
    from PIL import Image

    picture = tmp_path / "red.png"
    Image.new("RGB", (80, 160), "#ff0000").save(picture)
    sent: list[str] = []
    page.on("request", lambda request: sent.append(request.url))
    page.click("[data-panel=under]")
    page.set_input_files("#panel-under input[type=file]", str(picture))
    told(page, "The picture lies beneath")
    page.locator("#panel-under input[type=range]").fill("100")
    at(page, 4, 10)
    colour = page.evaluate(
        """() => {
          const { board } = window.desk.painter
          board.paint()
          const dots = devicePixelRatio
          const [x, y] = [board.x + 3.15 * board.w, board.y + 9.2 * board.h]
          return [...board.context.getImageData(x * dots, y * dots, 1, 1).data].slice(0, 3)
        }"""
    )
    assert colour == [255, 0, 0]
    assert not any("red" in each for each in sent)
    page.click("#panel-under >> text=Take it away")
    assert page.is_hidden("#panel-under input[type=range]")


# ---------------------------------------------------------------- pages and board


def test_a_cell_on_a_page_leads_to_the_board_and_back(page: "Page") -> None:
    page.click("[role=tab][data-name='pattern.yaml']")
    settled(page)
    place = page.evaluate(
        """() => {
          const { pages } = window.desk
          const chart = pages.charts.find(each => each.file === 'rope.grid')
          const sheet = pages.sheets.children[chart.page]
          sheet.scrollIntoView({ block: 'center' })
          const frame = sheet.firstChild.getBoundingClientRect()
          const scale = frame.width / Number(sheet.style.getPropertyValue('--wide'))
          const stitch = 5, round = 12
          const r = chart.line + chart.rows - 1 - round
          const c = chart.stitch + chart.columns - 1 - stitch
          return [frame.left + (chart.left + (c + 0.5) * chart.w) * scale,
                  frame.top + (chart.top + (r + 0.5) * chart.h) * scale]
        }"""
    )
    page.mouse.click(*place)
    page.wait_for_selector(CELL, state="attached")
    assert page.inner_text(CELL).startswith("Madder (o), stitch 5, round 12")
    assert page.evaluate("() => document.activeElement.role") != "gridcell"
    assert page.locator(".mark").count() == 1
    page.keyboard.down("Control")
    page.mouse.click(*place)
    page.keyboard.up("Control")
    assert page.evaluate("() => document.activeElement.getAttribute('role')") == "gridcell"
    page.keyboard.press("ArrowDown")
    page.wait_for_function(
        """before => {
          const mark = document.querySelector('.mark')?.getBoundingClientRect()
          return mark && mark.top > before
        }""",
        arg=place[1],
    )


def test_a_walk_over_the_pages_comes_by_the_chart(page: "Page") -> None:
    settled(page)
    index = page.evaluate(
        "() => window.desk.pages.regions.findIndex(each => each.file === 'rope.grid')"
    )
    page.evaluate("index => window.desk.pages.walk(index)", index)
    name = page.evaluate("() => document.activeElement.getAttribute('aria-label')")
    assert "chart of rope.grid" in name  # a screen reader says it of what has the focus
    assert f"{index + 1} of " in name
    page.keyboard.press("Enter")
    assert page.inner_text(CELL).endswith("stitch 1, round 1")
    assert page.evaluate("() => document.activeElement.getAttribute('role')") == "gridcell"


# ---------------------------------------------------------------- large, and for everyone


@pytest.fixture
def large(folder: Path) -> Path:
    """The demo with a grid of 200 stitches by 300 rounds."""
    row = ("##......" * 25, "..##oo.." * 25)
    text = "".join(f"{row[number % 2]}\n" for number in range(300))
    (folder / DEMO / "rope.grid").write_text(text, encoding="utf-8")
    return folder


def test_a_grid_of_200_by_300_stays_one_row_of_elements(
    large: Path, desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    board(page, "rope.grid")
    assert page.locator("#painter [role=gridcell]").count() == 200
    assert page.get_attribute("#painter [role=grid]", "aria-rowcount") == "300"
    assert page.get_attribute("#painter [role=grid]", "aria-colcount") == "200"
    go(page, 1, 1)
    press(page, "PageUp", 3)
    page.keyboard.press("#")
    assert lines(page)[300 - 31][-1] == "#"
    assert page.get_attribute("#painter [role=row]", "aria-rowindex") == "270"
    brush(page, "o")
    drag(page, (1, 31), (9, 31))
    assert lines(page)[300 - 31].endswith("ooooooooo")


def test_no_rule_is_broken_on_the_board(page: "Page") -> None:
    go(page, 3, 3)
    page.keyboard.press("Control+Shift+ArrowUp")
    page.evaluate(
        "() => { for (const each of document.querySelectorAll('.panel')) each.hidden = false }"
    )
    assert broken_at_the_desk(page, ("source",)) == []
    page.evaluate("() => window.desk.painter.pasting.askForCells(['B2 says `Pitch`.'])")
    assert violations(page) == []


def test_every_cell_is_told_by_yarn_stitch_and_round(page: "Page") -> None:
    go(page, 4, 12)
    assert page.inner_text(CELL) == "Madder (o), stitch 4, round 12"
    cells = page.locator("#painter [role=gridcell]")
    assert cells.count() == WIDE
    assert re.fullmatch(r"Hemp \(\.\), stitch 8, round 12", cells.nth(0).inner_text())
    assert page.get_attribute("#painter [role=row]", "aria-rowindex") == str(HIGH - 11)


def test_the_board_is_one_stop_of_the_tab_key(page: "Page") -> None:
    page.focus("[data-panel=look]")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.getAttribute('role')") == "gridcell"
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.dataset.of") == "source"
