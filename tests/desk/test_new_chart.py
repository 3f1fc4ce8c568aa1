"""A chart begun at the desk: its grid and the lines that name it, built and saved as if typed."""

from typing import Any

import pytest

from bindoff.desk.mending import changed
from bindoff.desk.newchart import chart_choices, new_chart
from bindoff.desk.proofs import Look, Proof, make_proof
from bindoff.desk.server import Running
from bindoff.diagnostics import PatternError
from bindoff.files import MemoryFiles
from tests.browser import needs_chromium
from tests.desk.driving import Opened, settled, source
from tests.desk.running import ask, small
from tests.small_patterns import CAP, WAVES

WISHES = {
    "title": "Herring",
    "alt": "A herring in its net.",
    "stitches": "6",
    "rounds": 4,
    "legend": ["slate", "foam"],
}
FLOW = (
    'charts: {waves: {title: Waves, grid: waves.grid, legend: {".": slate, "#": foam}, alt: "A"}}\n'
)
CHARTS = CAP[CAP.index("charts:\n") : CAP.index("pieces:\n")]
FOAM = "      - work: k all\n        yarn: foam\n        rounds: 6\n"
NO_CHART = CAP.replace(CHARTS, "").replace("      - chart: waves\n", FOAM)


def proof(text: str, **grids: str) -> Proof:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES, **grids})
    return make_proof(files, "pattern.yaml", "cap", Look())


@pytest.mark.parametrize(
    "text",
    [CAP, CAP.replace(CHARTS, FLOW), NO_CHART, CAP.replace(CHARTS, "# drawn\n" + CHARTS + "\n")],
    ids=["behind the last", "in braces", "the first", "before an empty line"],
)
def test_the_source_names_the_new_chart_and_builds(text: str) -> None:
    before = proof(text)
    made = new_chart(before, WISHES)
    after = proof(changed(text, made.edits), **{made.file: made.text})
    chart = after.source.pattern.charts["herring"]

    assert (made.file, made.text) == ("herring.grid", f"{'.' * 6}\n" * 4)
    assert (chart.title, chart.alt, chart.grid) == ("Herring", "A herring in its net.", made.file)
    assert list(chart.legend.values()) == ["slate", "foam"]
    assert list(after.source.pattern.charts)[:-1] == list(before.source.pattern.charts)
    assert after.order == before.order  # no step works it yet


def test_stitches_have_the_characters_that_charts_write_for_them() -> None:
    """And yarns those that this pattern has for them already."""
    wishes = {**WISHES, "legend": ["k", "yo", "k2tog", "ssk", "2/2 LC", "no stitch", "foam"]}
    made = new_chart(proof(CAP), wishes)
    (edit,) = made.edits

    assert '"x": no stitch' in edit.text
    assert '"#": foam' in edit.text
    assert 'k2tog, "\\\\": ssk' in edit.text
    assert '"2/2 LC"' in edit.text
    assert set(made.text) == {"k", "\n"} or set(made.text) <= {".", "k", "\n"}


def test_what_is_offered_are_the_yarns_and_usual_stitches_in_the_patterns_words() -> None:
    offered = chart_choices(proof(CAP))
    assert [each["name"] for each in offered["yarns"]] == ["Slate", "Foam"]
    names = {each["key"]: each["name"] for each in offered["stitches"]}
    assert names["k2tog"] == "knit 2 together"
    assert names["no stitch"] == "no stitch"


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"title": " "}, "title is missing"),
        ({"title": "Waves"}, "a chart or a grid `waves` already"),
        ({"title": "5"}, "no file can be named"),
        ({"alt": ""}, "what the chart shows is missing"),
        ({"stitches": "0"}, "number of stitches is none"),
        ({"rounds": "many"}, "number of rounds is none"),
        ({"stitches": "1000", "rounds": "1000"}, "more than"),
        ({"legend": []}, "nothing to paint with"),
        ({"legend": ["tar"]}, "`tar` is neither"),
        ({"legend": 3}, "nothing to paint with"),
    ],
)
def test_an_answer_that_can_not_be_used_is_named(more: dict[str, Any], said: str) -> None:
    with pytest.raises(PatternError) as caught:
        new_chart(proof(CAP), {**WISHES, **more})
    (finding,) = caught.value.findings
    assert said in finding.message


def test_a_new_grid_is_saved_once_and_under_no_other_name(desk: Running, folder: Any) -> None:
    small(folder)
    asked = {"pattern": "quay-cap", "text": "..\n", "digest": ""}
    for name in ("../x.grid", "X.grid", ".x.grid", "a/b.grid", "x.yaml", "con.grid", "x.grid\n"):
        assert ask(desk, "save", file=name, **asked)[0] == 404
    assert ask(desk, "save", file="net.grid", **asked)[0] == 200
    assert (folder / "quay-cap" / "net.grid").read_text(encoding="utf-8") == "..\n"
    status, now = ask(desk, "save", file="net.grid", **{**asked, "text": "##\n"})
    assert (status, now["text"]) == (409, "..\n")

    (folder / "quay-cap" / "out.grid").symlink_to(folder / "outside.grid")
    assert ask(desk, "save", file="out.grid", **asked)[0] == 409
    assert not (folder / "outside.grid").exists()


@needs_chromium
def test_by_keyboard_a_chart_is_begun_painted_and_saved(
    desk: Running, folder: Any, opened: Opened
) -> None:
    small(folder)
    page = opened(desk, "quay-cap")
    before = source(page)
    page.focus("#new-chart")
    page.keyboard.press("Enter")
    page.wait_for_selector("dialog[open] [name=title]")
    page.keyboard.press("Enter")
    page.wait_for_selector("dialog .paste-fault li")
    page.keyboard.type("Herring")
    page.keyboard.press("Tab")
    page.keyboard.type("A herring.")
    for _ in range(3):  # past the two numbers
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    page.wait_for_selector("#painter [role=gridcell]:focus")
    page.wait_for_function("() => window.desk.painter.signs.includes('#')")
    page.keyboard.press("#")
    settled(page)
    assert source(page).split("\n")[23] == "." * 23 + "#"
    page.reload()  # what was begun outlives it, saved or not
    page.wait_for_selector("body[data-ready]")
    settled(page)
    page.keyboard.press("Control+s")
    page.wait_for_function("() => document.querySelector('#state').textContent === 'saved'")
    saved = (folder / "quay-cap" / "pattern.yaml").read_text(encoding="utf-8")
    assert 'legend: {".": slate, "#": foam}\n    alt: "A herring."\npieces:' in saved
    assert (folder / "quay-cap" / "herring.grid").read_text(encoding="utf-8").endswith("#\n")
    assert saved.replace(saved[saved.index("  herring:") : saved.index("pieces:")], "") == before
