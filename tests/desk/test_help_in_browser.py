"""What the desk offers beside the text: fixes, silences with a reason, words on a place."""

import pytest

from bindoff.desk.server import Running
from tests.browser import needs_chromium
from tests.desk.driving import Opened, go_to, settled, source, told, written
from tests.desk.running import ask

pytestmark = needs_chromium


def test_a_fix_is_one_click(desk: Running, opened: Opened) -> None:
    page = opened(desk, reduced_motion="reduce")  # its clock stays stopped
    # However soon it comes after what is typed, it is undone by itself.
    page.clock.set_fixed_time("2026-11-30")
    before = source(page)
    go_to(page, "title: Ropewalk Hat")
    written(page, "Hat: long", lambda: page.keyboard.type(": long"))
    page.click("text=Put quotes around it")
    page.wait_for_selector("#stale", state="hidden")

    assert source(page) == before.replace("Ropewalk Hat\n", '"Ropewalk Hat: long"\n', 1)
    assert page.evaluate("() => document.activeElement.classList.contains('cm-content')")
    page.keyboard.press("Control+z")
    page.wait_for_selector("#stale:not([hidden])")
    assert "Hat: long" in source(page)


def test_a_fix_by_keyboard(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    before = source(page)
    go_to(page, "- cast on: cast_on")
    written(page, "cast_onn", lambda: page.keyboard.type("n"))
    page.wait_for_selector(".fix")
    page.keyboard.press("F6")
    page.keyboard.press("F6")
    for _ in range(4):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.className") == "fix":
            break
    page.keyboard.press("Enter")
    page.wait_for_selector("#stale", state="hidden")
    assert source(page) == before


def test_a_silence_asks_why(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "stitches: 24")
    page.keyboard.press("Backspace")
    written(page, "stitches: 20", lambda: page.keyboard.type("0"))
    page.wait_for_selector("text=floats behind")
    assert page.locator(".where strong", has_text="new").count() >= 1
    floats = page.locator(".group", has_text="floats behind")
    floats.locator("text=It is meant so").first.click()
    floats.locator("button", has_text="Write the reason down").click()
    assert "silence:" not in source(page)
    page.keyboard.type("caught in round 4")
    page.keyboard.press("Enter")
    page.wait_for_selector("text=The reason given is")

    assert source(page).endswith(
        'silence:\n  - {check: float.long, because: "caught in round 4"}\n'
    )
    page.keyboard.press("Control+s")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")
    go_to(page, "title: Ropewalk")
    written(page, "Ropewalks", lambda: page.keyboard.type("s"))
    page.wait_for_function("() => ![...document.querySelectorAll('.where strong')].length")


@pytest.mark.parametrize("asked", [{}, {"check": "x.y", "because": "z"}, {"check": "float.long"}])
def test_a_silence_without_a_check_or_reason_is_refused(
    desk: Running, asked: dict[str, str]
) -> None:
    ask(desk, "build", client="a", version=1, pattern="ropewalk-hat", texts={})
    assert ask(desk, "silence", client="a", **asked)[0] == 400
    assert ask(desk, "silence", client="a", check="float.long", because="  ")[0] == 400
    assert ask(desk, "silence", client="b", check="float.long", because="so")[0] == 404


def test_a_reason_is_kept_while_findings_are_renewed(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "stitches: 24")
    page.keyboard.press("Backspace")
    written(page, "stitches: 20", lambda: page.keyboard.type("0"))
    floats = page.locator(".group", has_text="floats behind")
    floats.locator("text=It is meant so").first.click()
    field = floats.locator("input")
    field.click()
    page.keyboard.type("it is ca")
    page.evaluate("() => window.desk.build()")
    settled(page)
    page.keyboard.type("ught")
    assert page.locator("[data-check='float.long']").input_value() == "it is caught"


@pytest.mark.parametrize(
    ("words", "back", "title", "said"),
    [
        ("yarn: tar", 1, "Yarn Tar", "Needed: Baby"),
        ("*k2, p2", 1, "p: purl", "Uses 1 stitch and makes 1."),
        ("- chart: rope", 2, "Chart Ropes and knots", "8 stitches, 19 lines."),
        ("- cast on: cast_on", 2, "Measure cast_on", "Baby 96, Toddler 104"),
        ("    to: 8\n        pace", 2, "pace", "In which rounds the decreases are worked."),
    ],
)
def test_what_stands_at_a_place_is_told(
    desk: Running, words: str, back: int, title: str, said: str
) -> None:
    files = ask(desk, "files", pattern="ropewalk-hat")[1]["files"]
    text = next(each["text"] for each in files if each["name"] == "pattern.yaml")
    before = text[: text.index(words) + len(words) - back].split("\n")
    ask(desk, "build", client="a", version=1, pattern="ropewalk-hat", texts={})
    asked = {"client": "a", "file": "pattern.yaml", "text": text}
    told = ask(desk, "about", **asked, line=len(before), column=len(before[-1]) + 1)[1]

    assert told["title"] == title
    assert said in " ".join(told["lines"])


def test_a_key_says_what_stands_at_the_cursor(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    told(page, "Nothing was found.")  # said a second after the build
    go_to(page, "yarn: tar")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Control+i")
    page.wait_for_selector(".about")

    assert page.inner_text(".about .title") == "Yarn Tar"
    told(page, "Needed: Baby")
    page.keyboard.press("Escape")
    page.wait_for_selector(".about", state="detached")


def test_the_mouse_over_a_word_says_what_it_is(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.click("[role=tab][data-name='rope.grid']")
    page.click("[data-way=text]")
    box = page.locator(".cm-line").first.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 12, box["y"] + 8)
    page.mouse.move(box["x"] + 14, box["y"] + 8)
    page.wait_for_selector(".about")
    assert page.inner_text(".about .title").startswith("Line 19 of Ropes and knots, stitch ")
    assert page.inner_text(".about p:not(.title)") == "`#`: Tar."


def test_a_character_of_a_grid_says_its_yarn(desk: Running) -> None:
    """The top line of the file is the last round; stitches count from the right."""
    files = ask(desk, "files", pattern="ropewalk-hat")[1]["files"]
    text = next(each["text"] for each in files if each["name"] == "rope.grid")
    ask(desk, "build", client="a", version=1, pattern="ropewalk-hat", texts={})
    asked = {"client": "a", "file": "rope.grid", "text": text}
    told = ask(desk, "about", **asked, line=1, column=1)[1]

    assert told["title"] == "Line 19 of Ropes and knots, stitch 8 from the right"
    assert told["lines"] == ["`#`: Tar."]
    assert ask(desk, "about", **asked, line=90, column=90)[1] == {}
    assert ask(desk, "about", **{**asked, "text": "["}, line=-1, column=0)[1] == {}
