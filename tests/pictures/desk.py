"""Makes the README's picture of the desk.

    python -m tests.pictures.desk

Needs Chromium. A step is chosen on its page, so that its source is marked and its figures are told.
"""

import io
import tempfile
from pathlib import Path

from PIL import Image

from tests.browser import chromium
from tests.desk.running import copied, running

HERE = Path(__file__).parent
NAME = "ropewalk-hat"


def main() -> None:
    """Save the picture beside this script, with 256 colours."""
    with tempfile.TemporaryDirectory() as folder:
        copied(Path(folder), NAME)
        with running(Path(folder)) as desk, chromium() as browser:
            page = browser.new_page(viewport={"width": 1440, "height": 860})
            page.goto(f"{desk.address}#pattern={NAME}")
            page.wait_for_selector("#text section", timeout=60_000)
            step = page.locator(".paper text", has_text="Decrease by the").first
            step.scroll_into_view_if_needed()
            box = step.bounding_box()
            assert box is not None
            page.mouse.click(box["x"] + 4, box["y"] + 4)
            page.wait_for_selector("#reckoning h2")
            page.wait_for_timeout(300)
            seen = Image.open(io.BytesIO(page.screenshot()))
    few = seen.convert("RGB").quantize(256, dither=Image.Dither.NONE)
    few.save(HERE / "desk.png", optimize=True)


if __name__ == "__main__":
    main()
