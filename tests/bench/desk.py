"""How long the desk takes from a key to the page on the screen.

``python -m tests.bench.desk`` prints for three demos what a build costs the server, then the median
and the longest of 14 keys in a real browser, each also as a multiple of a million multiplications
timed in the same run. The pause that waits for further keys is left out.
"""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from bindoff.desk.proofs import Look, found_in, make_proof, text_sections
from bindoff.desk.workplace import Overlay
from tests.browser import CHROMIUM, chromium
from tests.desk.running import PATTERNS, copied, running

NAMES = ("harbour-light-hat", "ropewalk-hat", "netmender-mittens")
KEYS = 14
_PAUSE = 70.0  # ms, as in desk/web/src/main.js


def reference() -> float:
    """Seconds for a million multiplications."""
    start = process_time()
    for number in range(1_000_000):
        number * number
    return process_time() - start


def builds(name: str) -> Iterator[tuple[float, float]]:
    """Seconds of the processor for the pages, and for findings and text, of each edit."""
    folder = PATTERNS / name
    text = (folder / "pattern.yaml").read_text(encoding="utf-8")
    for index in range(KEYS + 3):
        texts = {
            "pattern.yaml": text.replace("summary: >-\n  ", f"summary: >-\n  {'x' * (index + 1)} ")
        }
        start = process_time()
        proof = make_proof(Overlay(str(folder), texts), "pattern.yaml", name, Look())
        shown = process_time()
        found_in(proof)
        list(text_sections(proof))
        if index >= 3:  # what is loaded late is loaded
            yield shown - start, process_time() - shown


def keys(name: str) -> Iterator[float]:
    """Seconds from each key to the painted page, without the pause."""
    with tempfile.TemporaryDirectory() as folder:
        copied(Path(folder), name)
        with running(Path(folder)) as desk, chromium() as browser:
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            page.goto(f"{desk.address}#pattern={name}")
            page.wait_for_selector("#text section", state="attached", timeout=60_000)
            page.evaluate(
                """() => {
                  const { view } = window.desk.editor
                  const text = view.state.doc.toString()
                  const at = text.indexOf('summary: >-') + 'summary: >-\\n  '.length
                  view.dispatch({ selection: { anchor: at }, scrollIntoView: true })
                  view.focus()
                }"""
            )
            for _ in range(KEYS):
                before = page.evaluate("() => Number(document.body.dataset.building)")
                start = perf_counter()
                page.keyboard.type("x")
                page.wait_for_function(
                    "before => Number(document.body.dataset.painted) > before",
                    arg=before,
                    polling=5,
                )
                yield perf_counter() - start - _PAUSE / 1000
                page.wait_for_function(
                    """() => {
                      const { building, built } = document.body.dataset
                      return building === built
                    }"""
                )
            page.evaluate("() => window.desk.editor.open([])")


def main() -> None:
    """Print the figures."""
    unit = reference()
    print(f"reference {unit * 1000:.0f} ms")
    for name in NAMES:
        pages, rest = (median(each) for each in zip(*builds(name), strict=True))
        print(
            f"{name}: pages {pages * 1000:.0f} ms ({pages / unit:.1f} x), "
            f"findings and text {rest * 1000:.0f} ms ({rest / unit:.1f} x)"
        )
    if CHROMIUM is None:
        sys.exit("no chromium, so no key is timed")
    for name in NAMES:
        times = list(keys(name))
        print(
            f"{name}: key to page {median(times) * 1000:.0f} ms ({median(times) / unit:.1f} x), "
            f"longest {max(times) * 1000:.0f} ms"
        )


if __name__ == "__main__":
    main()
