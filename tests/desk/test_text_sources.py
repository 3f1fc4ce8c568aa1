"""Lines of the text edition know where they come from, and lead there."""

import re
from itertools import takewhile
from pathlib import Path
from typing import Any

import pytest

from bindoff.desk.proofs import Look, make_proof, text_sections
from bindoff.desk.server import Running
from bindoff.document.build import abbreviation_names
from bindoff.document.expansion import expanded
from bindoff.document.spokenrows import signs_in_words
from bindoff.files import DiskFiles
from bindoff.render.text import render_text, told_lines
from tests.browser import needs_chromium
from tests.desk.driving import DEMO, Opened, settled
from tests.desk.running import PATTERNS


def sections(name: str) -> tuple[list[dict[str, Any]], list[str]]:
    """The sections of a demo's text, and the lines of its source."""
    proof = make_proof(DiskFiles(str(PATTERNS / name)), "pattern.yaml", name, Look())
    told = expanded(proof.told, abbreviation_names(proof.plan))
    plain = [line for line, _ in told_lines(told, signs_in_words)]
    assert plain == render_text(told, 0, signs_in_words).split("\n")[:-1]
    source = (PATTERNS / name / "pattern.yaml").read_text(encoding="utf-8").split("\n")
    return list(text_sections(proof)), source


@pytest.mark.parametrize("name", [DEMO, "harbour-light-hat"])
def test_every_step_leads_to_the_item_of_the_list_that_makes_it(name: str) -> None:
    found, source = sections(name)
    steps = [
        at
        for each in takewhile(lambda each: each["title"] != "Techniques", found)
        for line, at in zip(each["lines"], each["sources"], strict=True)
        if re.match(r"Step \d+ of ", line)
    ]
    assert len(steps) > 8
    assert all(file == "pattern.yaml" for file, _, _ in steps)
    assert all(source[line - 1][: column - 1].strip() == "-" for _, line, column in steps)
    assert [line for _, line, _ in steps] == sorted(line for _, line, _ in steps)


def test_rows_of_tables_and_entries_of_lists_lead_to_their_own_lines() -> None:
    found, source = sections(DEMO)
    told = {
        line: at for each in found for line, at in zip(each["lines"], each["sources"], strict=True)
    }

    def line_of(words: str) -> str:
        at = next(at for line, at in told.items() if line.startswith(words))
        assert at is not None
        return str(source[at[1] - 1].strip())

    assert line_of("Circumference, letter a").startswith("Circumference:")
    assert line_of("Madder: Fine").startswith("madder: {name: Madder")
    assert line_of("Blunt tapestry needle").startswith("- {name: blunt tapestry needle")
    assert line_of("Size XL: With Tar").startswith("- cast on: cast_on")


def test_what_stands_in_no_file_of_the_pattern_leads_nowhere() -> None:
    found, _ = sections(DEMO)
    ease = next(each for each in found if each["title"] == "Sizes and ease")
    assert ease["lines"]
    assert set(map(str, ease["sources"])) == {"None"}


# ---------------------------------------------------------------- in a browser


@needs_chromium
def test_a_line_leads_to_its_source_by_click_and_by_keys(
    desk: Running, opened: Opened, folder: Path
) -> None:
    page = opened(desk)
    settled(page)
    line = page.locator("#text [data-line]", has_text="Step 5 of 11").first
    line.scroll_into_view_if_needed()
    line.click()
    page.wait_for_selector(".cm-line.marked")
    assert "Change to the larger needle" in page.inner_text(".cm-line.marked >> nth=0")
    assert page.locator(".mark").count() > 0
    assert not page.evaluate("() => document.activeElement.classList.contains('cm-content')")

    page.focus("#read .scroll")
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowUp")
    walked = page.evaluate("() => Number(document.activeElement.dataset.line)")
    assert walked > 0
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.classList.contains('cm-content')")
    assert page.evaluate("() => window.desk.editor.cursor.at[0]") == walked
    page.focus("#read .scroll")
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    assert page.evaluate("() => document.activeElement.className") == "scroll"
