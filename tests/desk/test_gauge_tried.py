"""Another gauge is tried at the desk: all answers, and the source stays until one writes it there.

That what would change is what ``bindoff compare --gauge`` says is held against the command itself.
"""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from bindoff.cli import main
from bindoff.desk.gauges import gauge_data, written_in
from bindoff.desk.server import Running
from bindoff.source.bundle import Source
from bindoff.source.statedgauge import parse_gauges
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, go_to, pages_text, settled, source, written
from tests.desk.running import ask, copied
from tests.small_patterns import CAP, source_of

MACHINE = "harbour-light-hat"


def small(gauge: str) -> Source:
    return source_of(CAP.replace("gauge:\n  stitches: 20\n  rounds: 28\n", f"{gauge}\n"))


def rewritten(source: Source, *gauges: str) -> str:
    """The text of the pattern with those gauges written into it."""
    lines = source.pattern.gauge.place.lines
    text = lines.text
    for edit in reversed(list(written_in(source, parse_gauges(gauges)))):
        span = edit.span
        start = lines.starts[span.line - 1] + span.column - 1
        end = lines.starts[span.end_line - 1] + span.end_column - 1
        text = text[:start] + edit.text + text[end:]
    return text


@pytest.mark.parametrize(
    ("before", "gauge", "after"),
    [
        (
            "gauge: {stitches: 20, rounds: 28}",
            "21 x 28 / 10 cm",
            "gauge: {stitches: 21, rounds: 28}",
        ),
        (
            "gauge:\n  stitches: 20 # counted twice\n  rounds: 28\n  over: 4 in",
            "20.5 x 29 / 4 in",
            "gauge:\n  stitches: 20.5 # counted twice\n  rounds: 29\n  over: 4 in",
        ),
        (
            "gauge:\n  swatch: {stitches: 24, width: 12 cm, rounds: 30, height: 12 cm}\n"
            "  tool: 4 mm",
            "21 x 26 / 10 cm",
            "gauge:\n  stitches: 21\n  rounds: 26\n  tool: 4 mm",
        ),
        (
            "gauge: {swatch: {stitches: 24, width: 12 cm, rounds: 30, height: 12 cm}, tool: 4 mm}",
            "21 x 26 / 10 cm",
            "gauge: {stitches: 21, rounds: 26, tool: 4 mm}",
        ),
        (
            "gauge:\n  tool: 4 mm\n  swatch:\n    stitches: 24\n    width: 12 cm\n    rounds: 30\n"
            "    height: 12 cm",
            "21 x 26 / 10 cm",
            "gauge:\n  tool: 4 mm\n  stitches: 21\n  rounds: 26",
        ),
    ],
)
def test_a_gauge_is_written_where_the_pattern_has_its_own(
    before: str, gauge: str, after: str
) -> None:
    made = rewritten(small(before), gauge)

    assert f"\n{after}\nyarns:" in made


def test_a_swatch_is_shown_over_ten_centimetres() -> None:
    """24 stitches over 12 cm are 20 over 10."""
    swatch = "gauge: {swatch: {stitches: 24, width: 12 cm, rounds: 30, height: 12 cm}}"
    assert gauge_data(small(swatch)) == [
        {"of": "", "stitches": "20", "rounds": "25", "over": "10 cm"}
    ]


def test_what_would_change_is_what_the_command_says(desk: Running, folder: Path) -> None:
    gauge = "S = 10.4 x 13.8 / 10 cm"
    copied(folder, MACHINE)
    asked = {"client": "a", "pattern": MACHINE, "texts": {}, "gauges": [gauge]}
    built = ask(desk, "build", version=1, **asked)[1]
    told = ask(desk, "compare", **asked)[1]
    own = ask(desk, "gauge", **asked)[1]["edits"]
    command = (
        CliRunner()
        .invoke(main, ["compare", str(folder / MACHINE), "--gauge", gauge])
        .stdout.splitlines()
    )
    lines = [line.strip().removeprefix("- ") for line in command if line]

    assert [each["of"] for each in built["gauges"]] == ["", "hand", "S", "L"]
    assert len(told["changes"]) > 3
    for section in told["changes"]:
        assert section["title"] in lines
        assert set(section["lines"]) <= set(lines)
    assert [each["insert"] for each in own] == ["10.4"]


@pytest.mark.parametrize(
    ("gauge", "said"),
    [("24 x 0 / 10 cm", "nobody knits"), ("x", "is not a gauge"), ("24 x 28 / 10 miles", "miles")],
)
def test_a_gauge_that_is_none_is_said_beside_its_field(
    desk: Running, gauge: str, said: str
) -> None:
    asked = {"client": "a", "version": 1, "pattern": DEMO, "texts": {}, "gauges": [gauge]}
    status, answer = ask(desk, "build", **asked)

    assert status == 200
    assert said in answer["no gauge"]
    assert ask(desk, "build", **{**asked, "gauges": "24"})[0] == 400
    assert ask(desk, "build", **{**asked, "gauges": [24]})[0] == 400


@needs_chromium
def test_by_keyboard_a_gauge_is_tried_and_written(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    before = source(page)
    page.focus("#gauge-stitches")
    page.keyboard.press("Control+a")
    page.keyboard.type("23,5")
    page.wait_for_selector("#changed li")
    settled(page)

    assert "23.5 stitches" in pages_text(page).replace("\N{NO-BREAK SPACE}", " ")
    assert "was 24 stitches" in page.inner_text("#changed")
    assert "still named as the tool" in page.inner_text("#findings")
    assert source(page) == before
    assert page.inner_text("#state") == "saved"
    page.keyboard.press("Enter")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'not saved'")
    page.wait_for_selector("#gauge[data-trying=false]")
    settled(page)
    assert source(page) == before.replace("stitches: 24\n", "stitches: 23.5\n")
    assert page.input_value("#gauge-stitches") == "23.5"
    page.focus(".cm-content")
    page.keyboard.press("Control+z")
    page.wait_for_function("() => document.querySelector('#gauge-stitches').value === '24'")
    assert source(page) == before


@needs_chromium
def test_by_mouse_a_gauge_is_tried_and_given_up(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    before = page.locator(".sheet").count()
    page.fill("#gauge-rounds", "31")
    page.wait_for_selector("#changed li")
    page.wait_for_selector("#stale.tried:not([hidden])")
    page.check("#beside")
    page.wait_for_selector(".sheet.old svg")
    assert page.locator(".sheet.other").count() > 2
    assert page.locator(".sheet.old").count() == before
    page.click("#gauge-back")
    page.wait_for_selector(".sheet.old", state="detached")
    settled(page)

    assert page.input_value("#gauge-rounds") == "28"
    assert page.locator("#changed li").count() == 0
    assert page.is_hidden("#stale")
    assert "31 rounds" not in pages_text(page).replace("\N{NO-BREAK SPACE}", " ")


@needs_chromium
def test_a_gauge_that_can_not_be_made_keeps_the_pages(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.fill("#gauge-stitches", "1000")
    page.wait_for_selector("#gauge-stitches[aria-invalid=true]")
    assert "nobody knits" in page.inner_text("#gauge-said")
    page.fill("#gauge-stitches", "24")
    page.fill("#gauge-rounds", "3")
    page.wait_for_selector("#stale:not(.tried):not([hidden])")
    assert "can’t be made at this gauge" in page.inner_text("#stale")
    assert page.locator(".paper > svg").count() > 5
    page.keyboard.press("Escape")
    page.wait_for_selector("#stale", state="hidden")


@needs_chromium
def test_a_gauge_of_one_size_is_tried(desk: Running, folder: Path, opened: Opened) -> None:
    copied(folder, MACHINE)
    page = opened(desk, MACHINE)
    page.select_option("#gauge-of", "L")
    assert page.input_value("#gauge-stitches") == "9.2"
    page.fill("#gauge-stitches", "9")
    page.wait_for_selector("#changed li")
    assert "size L: 9 stitches" in page.inner_text("#changed")


@needs_chromium
def test_what_has_changed_since_is_told(desk: Running, folder: Path, opened: Opened) -> None:
    """Since it was saved, since it was opened, and from another pattern."""
    copied(folder, "hawser-hat")
    page = opened(desk)
    go_to(page, "stitches: 24")
    page.keyboard.press("Backspace")
    written(page, "stitches: 25", lambda: page.keyboard.type("5"))

    def changed_from(against: str) -> str:
        page.focus("#against")
        page.select_option("#against", against)
        page.wait_for_selector("#changed li")
        settled(page)
        said = page.inner_text("#changed")
        page.select_option("#against", "")
        page.wait_for_selector("#changed li", state="detached")
        settled(page)
        return said

    saved, other = changed_from("saved"), changed_from("pattern hawser-hat")
    page.keyboard.press("Control+s")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")
    since = changed_from("opened")
    for said in (saved, since):
        assert "25 stitches" in said
        assert "was 24 stitches" in said
    assert "25 stitches" not in other
    assert all("look different" in said or "Every page" in said for said in (saved, other, since))


def test_what_can_not_be_built_can_not_be_compared(desk: Running, folder: Path) -> None:
    asked = {"client": "a", "version": 1, "pattern": DEMO, "texts": {}}
    assert ask(desk, "compare", **{**asked, "client": "nobody"})[0] == 404
    ask(desk, "build", **asked)
    other = {"pattern.yaml": "title: [\n"}
    status, told = ask(desk, "compare", **{**asked, "texts": other})

    assert status == 200
    assert "changes" not in told
    assert json.dumps(told["findings"])
