"""Makes the page pictures of the README from the demo patterns.

    python tests/pictures/make.py

Needs poppler's ``pdftoppm``. The pictures are small: 256 colours, 72 dots an inch.
"""

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
DOTS_PER_INCH = 72

# picture -> (pattern, page with this text on it)
PAGES: dict[str, tuple[str, int | str]] = {
    "cover": ("harbour-light-hat", 1),
    "chart": ("harbour-light-hat", "what to embroider"),
    "steps": ("ropewalk-hat", "Stitches after each"),
    "sizes": ("netmender-mittens", "schematic, not to scale"),
}


def main() -> None:
    """Build the demos, then save each page as a PNG beside this script."""
    with tempfile.TemporaryDirectory() as out:
        patterns = sorted({str(ROOT / "patterns" / pattern) for pattern, _ in PAGES.values()})
        command = [sys.executable, "-m", "bindoff", "build", *patterns, "--out", out]
        subprocess.run(command, check=True, cwd=ROOT)
        for name, (pattern, page) in PAGES.items():
            pdf = Path(out) / pattern / f"{pattern}.pdf"
            number = page if isinstance(page, int) else page_with(pdf, page)
            save(pdf, number, HERE / f"{name}.png")


def page_with(pdf: Path, text: str) -> int:
    """The first page, from 1, that has ``text`` on it."""
    from pypdf import PdfReader

    for number, page in enumerate(PdfReader(pdf).pages, start=1):
        if text in page.extract_text().replace("\n", " "):
            return number
    raise SystemExit(f"{pdf.name} has no page with {text!r}")


def save(pdf: Path, page: int, picture: Path) -> None:
    """One page as a small PNG with a hairline around it."""
    stem = pdf.with_suffix("")
    subprocess.run(
        [
            "pdftoppm",
            "-png",
            "-singlefile",
            "-r",
            str(DOTS_PER_INCH),
            "-f",
            str(page),
            "-l",
            str(page),
            str(pdf),
            str(stem),
        ],
        check=True,
    )
    with Image.open(stem.with_suffix(".png")) as image:
        framed = Image.new("RGB", (image.width + 2, image.height + 2), "#b8b8b8")
        framed.paste(image, (1, 1))
        framed.quantize(256).save(picture, optimize=True)


if __name__ == "__main__":
    main()
