"""How long the desk takes from a key to the page on the screen.

``python -m tests.bench.desk`` prints for three demos what a build costs the server, then the median
and the longest of 14 keys in a real browser, from the key to the painted page by the page's own
clock, each also as a multiple of a million multiplications timed in the same run. The pause that
waits for further keys is left out. Then it paints a grid of 200 stitches by 300 rounds, with cells
of the usual size and with all of them in sight.
"""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import process_time

from bindoff.desk.proofs import Look, found_in, make_proof, text_sections
from bindoff.desk.quiet import Quiet
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
    quiet = Quiet()  # as the server builds
    for index in range(KEYS + 3):
        texts = {
            "pattern.yaml": text.replace("summary: >-\n  ", f"summary: >-\n  {'x' * (index + 1)} ")
        }
        start = process_time()
        with quiet.building():
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
                  const { dataset } = document.body
                  const note = name => { dataset[name] = performance.now() }
                  document.addEventListener('keydown', () => note('keyed'), true)
                  new MutationObserver(() => note('shown')).observe(
                    document.body, { attributes: true, attributeFilter: ['data-painted'] })
                }"""
            )
            for _ in range(KEYS):
                before = page.evaluate("() => Number(document.body.dataset.building)")
                page.keyboard.type("x")
                page.wait_for_function(
                    """before => {
                      const { building, built } = document.body.dataset
                      return building === built && Number(built) > before
                    }""",
                    arg=before,
                )
                shown, keyed = page.evaluate(
                    "() => [document.body.dataset.shown, document.body.dataset.keyed].map(Number)"
                )
                yield (shown - keyed - _PAUSE) / 1000
            page.evaluate("() => window.desk.editor.open([])")


_PAINTING = """async () => {
  const { painter } = window.desk
  const { board } = painter
  const painted = () => new Promise(done => requestAnimationFrame(() => setTimeout(done)))
  const timed = async work => {
    const times = []
    for (let turn = 0; turn < 15; turn++) {
      await painted()
      const start = performance.now()
      await work(turn)
      times.push(performance.now() - start)
    }
    return times.slice(1).sort((one, other) => one - other)
  }
  const dab = async turn => {
    painter.dab([{ r: 150, c: 20 + turn }], turn % 2 ? 'o' : '#')
    board.paint()
  }
  const stroke = async () => painter.endStroke()
  const key = async turn => {
    painter.paintHere(turn % 2 ? 'o' : '#')
    board.paint()
  }
  const found = {}
  found['opened'] = await timed(async () => { painter.draw(); board.paint() })
  found['a cell of a stroke'] = await timed(dab)
  await stroke()
  found['a cell by key, written'] = await timed(key)
  found['a step'] = await timed(async turn => { board.go({ r: 150 - turn, c: 20 }); board.paint() })
  board.size = 4
  board.zoom(0)
  found['a cell of a stroke, all in sight'] = await timed(dab)
  await stroke()
  window.desk.editor.open([])
  return found
}"""


def painting() -> Iterator[tuple[str, list[float]]]:
    """Milliseconds that the page works for each thing that is done on a large grid, in order."""
    rows = ("##......" * 25, "..##oo.." * 25)
    with tempfile.TemporaryDirectory() as folder:
        copied(Path(folder), "ropewalk-hat")
        text = "".join(f"{rows[number % 2]}\n" for number in range(300))
        (Path(folder) / "ropewalk-hat" / "rope.grid").write_text(text, encoding="utf-8")
        with running(Path(folder)) as desk, chromium() as browser:
            page = browser.new_page(viewport={"width": 1440, "height": 1300})
            page.goto(f"{desk.address}#pattern=ropewalk-hat")
            page.wait_for_selector("#stale:not([hidden])", timeout=60_000)
            page.click("[data-name='rope.grid']")
            page.wait_for_selector("#painter [role=gridcell]", state="attached")
            yield from page.evaluate(_PAINTING).items()


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
    for what, times in painting():
        middle = median(times) / 1000
        print(
            f"200 x 300 cells, {what}: {middle * 1000:.1f} ms ({middle / unit:.2f} x), "
            f"longest {max(times):.1f} ms"
        )


if __name__ == "__main__":
    main()
