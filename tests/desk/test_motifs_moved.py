"""Motifs moved on the map of their tube, by mouse and by keyboard: only their place is written."""

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bindoff.desk.placing import drawn, motif_data, moving
from bindoff.desk.proofs import Look, Proof, make_proof
from bindoff.desk.server import Running
from bindoff.desk.workplace import Overlay
from bindoff.plan.motifs import Cells
from tests.browser import needs_chromium
from tests.desk.driving import Opened, settled, source
from tests.desk.running import PATTERNS, copied

if TYPE_CHECKING:
    from playwright.sync_api import Page

HAT = "fairway-hat"
BOAT = "      - {chart: boat, at: front, above rim: 7 rounds}"


TITLES = ("Boat", "Gull", "Spray")
GULL = "      - {chart: gull, at: sides, above rim: 14 rounds, mirror: true}\n"


def text_of() -> str:
    """The demo without its gulls, so that its boat has room."""
    text = (PATTERNS / HAT / "pattern.yaml").read_text(encoding="utf-8")
    start = text.index("  gull:\n")
    chart = text[start : text.index("  spray:\n")]
    return text.replace(GULL, "").replace(chart, "")


def proof(text: str) -> Proof:
    files = Overlay(str(PATTERNS / HAT), {"pattern.yaml": text})
    return make_proof(files, "pattern.yaml", HAT, Look())


def moved(text: str, index: int, rounds: int | None, at: str | int | None) -> str:
    """The text after the change."""
    edits = list(moving(proof(text).source.pattern.pieces["hat"].motifs[index], rounds, at))
    lines = text.split("\n")
    for edit in reversed(edits):
        line, span = lines[edit.span.line - 1], edit.span
        lines[span.line - 1] = line[: span.column - 1] + edit.text + line[span.end_column - 1 :]
    return "\n".join(lines)


def test_a_move_writes_the_place_and_the_plan_follows() -> None:
    text = moved(text_of(), 0, 5, "back")
    assert text == text_of().replace(BOAT, "      - {chart: boat, at: back, above rim: 5 rounds}")
    before = next(each for each in motif_data(proof(text_of())) if each["title"] == "Boat")
    after = next(each for each in motif_data(proof(text)) if each["title"] == "Boat")
    assert (before["place"], before["rounds"]) == ("front", 7)
    assert (after["place"], after["rounds"]) == ("back", 5)
    assert after["box"][1] - before["box"][1] == pytest.approx(2 * before["h"], abs=0.01)


def test_a_height_that_was_not_written_is_added() -> None:
    flow = text_of().replace(BOAT, "      - {chart: boat, at: front}")
    assert "- {chart: boat, at: front, above rim: 1 round}" in moved(flow, 0, 1, None)
    block = text_of().replace(BOAT, "      - chart: boat\n        at: front")
    assert "- chart: boat\n        at: front\n        above rim: 3 rounds\n" in moved(
        block, 0, 3, None
    )


def test_a_stitch_stays_a_stitch_and_a_place_a_place() -> None:
    text = text_of().replace(BOAT, "      - {chart: boat, at: 14, above rim: 7 rounds}")
    assert "at: 12, above rim: 7 rounds" in moved(text, 0, None, 12)
    for at in ("back", "nowhere"):
        with pytest.raises(ValueError, match="no other place"):
            moved(text, 0, None, at)
    with pytest.raises(ValueError, match="no other place"):
        moved(text_of(), 1, None, "back")  # goes all around
    with pytest.raises(ValueError, match="lower"):
        moved(text_of(), 0, -1, None)


def test_every_stitch_of_a_motif_is_one_of_its_grid() -> None:
    """What goes all around is worked in copies side by side. Mirror images are told by their cells:
    a flag that flies to the left of its pole is the grid, one that flies to the right is not."""
    grid = (".#", "o#", ".#")
    flag: Cells = ((None, "tar"), ("madder", "tar"), (None, "tar"))
    pair: Cells = tuple((*row, *reversed(row)) for row in flag)
    assert drawn(flag, grid) == [2, 1]
    assert drawn(pair, grid) == [2, 1, 1, 2]
    made = motif_data(make_proof(Overlay(str(PATTERNS / HAT), {}), "pattern.yaml", HAT, Look()))
    known = {title: [each for each in made if each["title"] == title] for title in TITLES}
    wide = {
        title: len((PATTERNS / HAT / f"{title.lower()}.grid").read_text("utf-8").split()[0])
        for title in TITLES
    }
    assert [each["drawn"] for each in known["Boat"]] == [list(range(wide["Boat"], 0, -1))]
    (spray,) = known["Spray"]
    copies = spray["needles"] // wide["Spray"]
    assert len(spray["drawn"]) == spray["needles"]
    assert spray["drawn"] == list(range(wide["Spray"], 0, -1)) * copies
    assert {each["grid"] for each in made} == {"boat.grid", "gull.grid", "spray.grid"}


# ---------------------------------------------------------------- in a browser


def boat(page: "Page") -> tuple[float, float, float, float]:
    """The middle of the boat on the screen, and the size of a stitch there."""
    found = page.evaluate(
        """() => {
          const { pages } = window.desk
          const region = pages.regions.find(each => each.motif?.title === 'Boat')
          const sheet = pages.list[region.page]
          sheet.scrollIntoView({ block: 'center' })
          const frame = sheet.firstChild.getBoundingClientRect()
          const scale = frame.width / pages.wide(region.page)
          const [left, top, right, bottom] = region.box
          return [frame.left + (left + right) / 2 * scale, frame.top + (top + bottom) / 2 * scale,
                  region.motif.w * scale, region.motif.h * scale]
        }"""
    )
    x, y, w, h = map(float, found)
    return x, y, w, h


@needs_chromium
def test_a_finger_on_a_motif_is_asked_where_it_goes(
    desk: Running, folder: Path, opened: Opened
) -> None:
    """A finger that drags moves the page."""
    copied(folder, HAT)
    page = opened(desk, HAT, has_touch=True)
    x, y, _, _ = boat(page)
    page.touchscreen.tap(x, y)
    page.wait_for_selector("dialog[open] select")
    assert page.inner_text("#dialog-title") == "Place of Boat"


@needs_chromium
@pytest.mark.parametrize("way", ["mouse", "keys"])
def test_a_motif_is_moved_on_the_map(desk: Running, folder: Path, opened: Opened, way: str) -> None:
    file = copied(folder, HAT) / HAT / "pattern.yaml"
    file.write_text(text_of(), encoding="utf-8")
    (file.parent / "gull.grid").unlink()
    page = opened(desk, HAT)
    old = page.evaluate("() => Number(document.body.dataset.painted)")
    if way == "mouse":
        x, y, w, h = boat(page)
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x - w, y - h, steps=2)
        page.mouse.move(x - 9 * w, y - 2 * h, steps=4)
        assert page.inner_text(".ghost") == "at right, 9 rounds above rim"
        page.mouse.up()
    else:
        index = page.evaluate(
            "() => window.desk.pages.regions.findIndex(each => each.motif?.title === 'Boat')"
        )
        page.evaluate("index => window.desk.pages.walk(index)", index)
        assert "motif Boat, front" in str(page.get_attribute(".walker", "aria-label"))
        page.keyboard.press("Enter")
        page.wait_for_selector("dialog[open] select")
        page.keyboard.press("r")
        page.keyboard.press("Tab")
        page.keyboard.press("ArrowUp")
        page.keyboard.press("ArrowUp")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
    page.wait_for_function("() => window.desk.editor.allUnsaved.length")
    expected = "      - {chart: boat, at: right, above rim: 9 rounds}"
    assert source(page) == text_of().replace(BOAT, expected)
    page.wait_for_function("old => Number(document.body.dataset.building) > old", arg=old)
    settled(page)
    page.evaluate("() => window.desk.editor.view.focus()")
    page.keyboard.press("Control+z")
    assert source(page) == text_of()
    settled(page)


@needs_chromium
def test_a_motif_leads_to_the_cell_of_its_grid_and_back(
    desk: Running, folder: Path, opened: Opened
) -> None:
    copied(folder, HAT)
    page = opened(desk, HAT)
    x, y, w, h = boat(page)
    page.keyboard.down("Control")
    page.mouse.click(x, y)
    page.keyboard.up("Control")
    page.click("dialog >> text=Paint its chart")
    cell = "#painter [role=gridcell][tabindex='0']"
    page.wait_for_selector(f"{cell}:focus")
    before = page.inner_text(cell)
    page.mouse.click(x + w, y - h)
    stitch, round_ = (int(part.split()[-1]) for part in before.split(", ")[-2:])
    page.wait_for_function(
        "([cell, words]) => document.querySelector(cell).textContent.includes(words)",
        arg=[cell, f"stitch {stitch - 1}, round {round_ + 1}"],
    )
    page.focus(cell)
    page.keyboard.press("ArrowUp")
    page.wait_for_selector(".mark")
