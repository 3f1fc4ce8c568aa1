"""The HTML file: it says what the text edition says, needs nothing else, and serves its maker."""

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from bindoff.document.machinecard import card_document, has_card
from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, MemoryFiles
from bindoff.pipeline import build_pattern
from bindoff.render.web.page import render_page
from tests.accessibility import builds
from tests.accessibility.test_equal_text import all_differences
from tests.axe import broken, violations
from tests.browser import needs_chromium
from tests.render.web.read import parsed, tree
from tests.small_patterns import CAP, WAVES

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

GOLDEN = Path(__file__).parents[2] / "golden" / "cap.html"


@cache
def page_of(demo: str) -> bytes:
    """The file of a demo, as ``bindoff build --html`` writes it."""
    files = builds.files(demo)
    return build_pattern(files, SOURCE_NAME, demo, wanted=Wanted(forms=("html",))).files[
        f"{demo}.html"
    ]


@cache
def cap() -> bytes:
    """The file of a small pattern with a chart and two sizes."""
    files = MemoryFiles({SOURCE_NAME: CAP, "waves.grid": WAVES})
    return build_pattern(files, SOURCE_NAME, "cap", wanted=Wanted(forms=("html",))).files[
        "cap.html"
    ]


@pytest.mark.parametrize("demo", builds.DEMOS)
def test_it_says_to_every_size_what_the_text_edition_says(demo: str) -> None:
    document = builds.document(demo)
    (main,) = parsed(render_page(document, demo)).find("main")
    assert all_differences(builds.text(demo), tree(main), document) == []


def test_the_same_bytes_and_those_of_a_small_pattern(request: pytest.FixtureRequest) -> None:
    """All but style and script, which are files of their own, and the shapes of drawings."""
    root = parsed(cap())
    page = cap().decode()
    for tag in ("style", "script"):
        (part,) = root.find(tag)
        page = page.replace("".join(map(str, part.kids)), "…")
    (rule,) = [m for m in root.find("meta") if m.attributes.get("http-equiv")]
    page = page.replace(rule.attributes["content"], "…").replace("><", ">\n<")
    page = re.sub(r"<svg [^>]*?( aria-[^>]*?)? font-[^>]*>.*?</svg>", r"<svg\1/>", page, flags=re.S)
    page = re.sub(r'data-rows="[^"]*"', 'data-rows="…"', page)
    if request.config.getoption("--update"):
        GOLDEN.write_text(page, "utf-8")
    assert page == GOLDEN.read_text("utf-8")


# ---------------------------------------------------------------- in a browser


def opened(browser: "Browser", path: Path, page: bytes, **settings: Any) -> "Page":
    """A page of a file, which may ask nobody for anything."""
    path.write_bytes(page)
    tab = browser.new_context(**settings).new_page()
    asked: list[str] = []
    tab.on("request", lambda request: asked.append(request.url))
    tab.on("console", lambda message: asked.append(message.text))
    tab.on("pageerror", lambda error: asked.append(str(error)))
    tab.goto(path.as_uri())
    assert asked == [path.as_uri()]
    return tab


@needs_chromium
@pytest.mark.parametrize("demo", ["harbour-light-hat", "mooring-line-pullover"])
def test_no_rule_is_broken(browser: "Browser", tmp_path: Path, demo: str) -> None:
    tab = opened(browser, tmp_path / "a.html", page_of(demo))
    assert broken(tab) == []
    tab.select_option("#ui-size", "0")
    tab.locator(".step input").first.check()
    assert violations(tab) == []
    tab.context.close()


PHONE: dict[str, Any] = {"viewport": {"width": 390, "height": 844}}
WIDER = """() => [...document.querySelectorAll(".view.wide")]
    .filter(each => each.checkVisibility() && each.scrollWidth > each.clientWidth + 1)
    .map(each => [each.querySelector("caption").innerText, each.tabIndex, each.getAttribute("role"),
                  getComputedStyle(each).overflowX])"""


@needs_chromium
@pytest.mark.parametrize("demo", ["harbour-light-hat", "fairway-hat", "mooring-line-pullover"])
def test_tables_stay_on_a_phone(browser: "Browser", tmp_path: Path, demo: str) -> None:
    """WCAG 2.2, 1.4.10 (Reflow): nothing but a table of sizes is wider than the screen, and that
    scrolls by itself, by keyboard too; of one size all tables are as narrow as the screen."""
    tab = opened(browser, tmp_path / "a.html", page_of(demo), **PHONE)
    assert tab.evaluate("() => document.documentElement.scrollWidth <= innerWidth")
    for caption, reached, role, overflow in tab.evaluate(WIDER):
        assert demo == "mooring-line-pullover", f"nine sizes are wide, three are not: {caption}"
        assert (reached, role, overflow) == (0, "region", "auto")
    tab.select_option("#ui-size", "1")
    assert tab.evaluate(WIDER) == []
    tab.context.close()


CLOSE = """() => [...document.querySelectorAll("tr")].flatMap(row => {
    const inks = [...row.cells].filter(cell => cell.checkVisibility() && cell.textContent.trim())
      .map(cell => { const range = document.createRange(); range.selectNodeContents(cell)
                     return [cell.textContent, range.getBoundingClientRect()] })
    return inks.slice(1)
      .filter(([, box], at) => box.left - inks[at][1].right < 4).map(([said]) => said)
})"""


@needs_chromium
@pytest.mark.parametrize("demo", ["harbour-light-hat", "mooring-line-pullover"])
def test_on_a_phone_figures_stand_apart_and_nothing_is_cut(
    browser: "Browser", tmp_path: Path, demo: str
) -> None:
    """Charts open where their rows begin, at the right, without a script too."""
    tab = opened(browser, tmp_path / "a.html", page_of(demo), **PHONE)
    assert tab.evaluate(CLOSE) == []
    captions = "() => Math.max(...[...document.querySelectorAll('caption > span')].map("
    assert tab.evaluate(captions + "each => each.getBoundingClientRect().right))") <= 390
    schematic = tab.locator("figure[id^=schematic-] .view").first
    assert schematic.evaluate("each => each.scrollWidth <= each.clientWidth")
    plain = browser.new_context(
        java_script_enabled=False, viewport={"width": 390, "height": 844}
    ).new_page()
    for one in (tab, plain):
        one.goto((tmp_path / "a.html").as_uri())
        for chart in one.locator("[data-rows] svg").all():
            box = chart.bounding_box()
            assert box
            assert box["x"] < 30
            assert box["x"] + box["width"] == pytest.approx(370, abs=6)
        one.context.close()


@needs_chromium
def test_rules_are_judged_at_all(browser: "Browser", tmp_path: Path) -> None:
    tab = opened(browser, tmp_path / "a.html", cap())
    tab.evaluate("() => document.querySelector('main').append(document.createElement('input'))")
    assert violations(tab) != []
    tab.context.close()


def heard(text: str) -> str:
    """Text with the names of sizes, which are there for who listens, on one line."""
    return re.sub(r"(?<=\() ", "", " ".join(text.split()))


@needs_chromium
def test_a_size_shows_its_figures_and_no_others(browser: "Browser", tmp_path: Path) -> None:
    """What is seen then is what the edition of that size says of its step."""
    tab = opened(browser, tmp_path / "a.html", cap())
    step = tab.locator(".step").first
    assert "cast on S: 96 (M: 104) stitches" in heard(step.inner_text())
    tab.select_option("#ui-size", "1")
    assert "cast on 104 stitches" in heard(step.inner_text())
    heads = tab.locator("table").first.locator("thead th:visible").all_inner_texts()
    assert "M" in " ".join(heads)
    assert not any(part.split()[:1] == ["S"] for part in heads)
    tab.reload()
    assert "cast on 104 stitches" in step.inner_text(), "the choice is kept"
    tab.select_option("#ui-size", "")
    assert "cast on S: 96 (M: 104) stitches" in heard(step.inner_text())
    tab.context.close()


@needs_chromium
def test_charts_of_other_sizes_are_not_shown(browser: "Browser", tmp_path: Path) -> None:
    """The boat of the Fairway Hat stands on 40 needles in one size and on 46 in the other."""
    tab = opened(browser, tmp_path / "a.html", page_of("fairway-hat"))
    charts = tab.locator("[data-sizes] h3")
    assert {each.split(", ")[-1] for each in charts.all_inner_texts()} == {"size S", "size M"}
    tab.select_option("#ui-size", "1")
    shown = [each for each in charts.all() if each.is_visible()]
    assert shown
    assert all(each.inner_text().endswith("size M") for each in shown)
    tab.context.close()


@needs_chromium
def test_ticks_stay_in_the_browser(browser: "Browser", tmp_path: Path) -> None:
    tab = opened(browser, tmp_path / "a.html", cap())
    boxes = tab.locator(".step input")
    assert boxes.first.get_attribute("aria-label") == "Step 1 done"
    boxes.first.check()
    tab.reload()
    assert boxes.first.is_checked()
    assert not boxes.nth(1).is_checked()
    assert tab.inner_text("#ui-kept").startswith("1 of ")
    assert tab.inner_text("#ui-next") == "On with step 2"
    tab.on("dialog", lambda dialog: dialog.accept())
    tab.click("#ui-clear")
    assert not boxes.first.is_checked()
    tab.context.close()


@needs_chromium
def test_the_ruler_says_the_row_it_lies_on(browser: "Browser", tmp_path: Path) -> None:
    """The words are those of the written rows; where it lies is read from the picture."""
    tab = opened(browser, tmp_path / "a.html", cap())
    figure = tab.locator("figure[data-rows]")
    words = figure.locator(".told")
    written = tab.locator("li[id^=row-]").all_inner_texts()
    assert words.inner_text() == written[0]
    lying = figure.locator("svg rect").last
    first = float(lying.get_attribute("y") or 0)
    figure.get_by_role("button", name="Next round").click()
    assert words.inner_text() in written[:2]
    assert float(lying.get_attribute("y") or 0) < first, "rounds go upwards"
    for _ in range(2):
        figure.get_by_role("button", name="Next round").click()
    assert figure.get_by_role("button", name="Next round").is_disabled()
    assert words.inner_text() == written[-1]
    tab.wait_for_timeout(200)  # what is kept goes to another process of the browser
    tab.reload()
    assert words.inner_text() == written[-1]
    box = figure.locator("svg").bounding_box()
    assert box
    number = figure.locator("svg text", has_text="1").last.bounding_box()
    assert number
    tab.mouse.click(box["x"] + box["width"] / 3, number["y"] + number["height"] / 2)
    tab.context.close()


@needs_chromium
def test_the_counter_knows_the_next_stop(browser: "Browser", tmp_path: Path) -> None:
    """Against the lines of the card, which are proved elsewhere."""
    tab = opened(browser, tmp_path / "a.html", page_of("harbour-light-hat"))
    tab.select_option("#ui-size", "1")
    assert tab.locator(".counter:visible").count() == 1
    counter = tab.locator(".counter:visible")
    lines = tab.locator(".card:visible [data-stop]")
    stops = [int(lines.nth(at).get_attribute("data-stop") or 0) for at in range(lines.count())]
    second = next(stop for stop in stops if stop > 3)
    for _ in range(3):
        counter.get_by_role("button", name="+ 1").click()
    assert counter.locator(".shown").inner_text() == "3"
    assert f"{second - 3} to go until the stop at {second}" in counter.locator(".told").inner_text()
    counter.get_by_role("button", name="To the next stop").click()
    what = (lines.nth(stops.index(second)).locator("dd").text_content() or "").strip()
    assert counter.locator(".told").inner_text().startswith(f"Now, at {second}: {what}")
    tab.reload()
    assert counter.locator(".shown").inner_text() == str(second)
    tab.context.close()


@needs_chromium
def test_without_a_script_it_is_the_whole_text(browser: "Browser", tmp_path: Path) -> None:
    tab = opened(browser, tmp_path / "a.html", cap(), java_script_enabled=False)
    assert tab.locator("#ui-bar").is_hidden()
    assert "cast on S: 96 (M: 104) stitches" in heard(tab.inner_text("main"))
    assert tab.locator("main input, main button").count() == 0
    tab.context.close()


@needs_chromium
def test_the_policy_lets_nothing_else_in(browser: "Browser", tmp_path: Path) -> None:
    """CSP: no request, no script and no style but those whose hashes it names."""
    path = tmp_path / "a.html"
    stranger = b"<script>document.title = 'taken'</script><img src='https://example.org/a.png'>"
    path.write_bytes(cap().replace(b"</main>", stranger + b"</main>"))
    tab = browser.new_context().new_page()
    refused: list[str] = []
    tab.on("console", lambda message: refused.append(message.text))
    tab.goto(path.as_uri())
    assert tab.title() == "Quay Cap"
    assert sum("Content Security Policy" in each for each in refused) == 2
    tab.context.close()


@pytest.mark.parametrize("demo", ["harbour-light-hat", "ropewalk-hat"])
def test_no_two_things_have_the_same_name_and_each_named_is_there(demo: str) -> None:
    """Ids and what refers to them; a stitch of a drawing may stand in another drawing."""
    parts = list(parsed(page_of(demo)).walk())
    ids = [part.attributes["id"] for part in parts if "id" in part.attributes]
    assert len(set(ids)) == len(ids)
    aims = [part.attributes[name] for part in parts for name in AIMS if name in part.attributes]
    assert len(aims) > 100
    assert {aim[1:] for aim in aims if aim.startswith("#")} <= set(ids)


AIMS = ("href", "xlink:href")


@pytest.mark.parametrize("demo", ["harbour-light-hat", "ropewalk-hat"])
def test_there_is_a_counter_for_every_size_of_what_the_machine_makes(demo: str) -> None:
    plan = builds._plan(demo)
    cards = [part for part in parsed(page_of(demo)).walk() if "card" in part.classes]
    assert len(cards) == (len(plan.source.sizes) if has_card(plan) else 0)
    for size, card in zip(plan.source.sizes, cards, strict=False):
        assert card.find("h3")[0].text() in str(card_document(plan, (size,)).blocks)


@needs_chromium
def test_no_word_of_a_table_is_broken(browser: "Browser", tmp_path: Path) -> None:
    """A table that is too wide is scrolled; its words stay whole, on a phone and on paper."""
    size = {"width": 320, "height": 640}
    tab = opened(browser, tmp_path / "a.html", page_of("harbour-light-hat"), viewport=size)
    tab.emulate_media(media="print")
    broken = tab.evaluate(
        """() => [...document.querySelectorAll('th, td')].filter(cell => {
          const text = cell.firstChild
          if (text?.nodeType !== Node.TEXT_NODE || !/^[A-Za-z]+$/.test(text.data)) return false
          const range = document.createRange()
          range.selectNodeContents(text)
          return range.getClientRects().length > 1
        }).map(cell => cell.textContent)"""
    )
    assert broken == []
    tab.context.close()
