"""What the pages of the demos show, read from the operators that paint it."""

import io
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pikepdf

from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import build_pattern
from bindoff.render.pdf import PdfOptions

DEMOS = ("harbour-light-hat", "netmender-mittens", "ropewalk-hat")
PATTERNS = Path(__file__).parents[3] / "patterns"
OPTIONS = {
    "calm": PdfOptions(),
    "grey": PdfOptions(grey=True),
    "large-print": PdfOptions(theme="large-print"),
    "print-saver": PdfOptions(theme="print-saver"),
}


@cache
def demo(name: str, edition: str) -> bytes:
    files = build_pattern(
        DiskFiles(str(PATTERNS / name)), SOURCE_NAME, name, options=OPTIONS[edition]
    ).files
    (pdf,) = (data for file, data in files.items() if file.endswith(".pdf"))
    return pdf


def fills(data: bytes) -> Iterator[tuple[bool, float, tuple[float, ...]]]:
    """Whether it is type, the type's size, and the colour, for all that is filled or shown."""
    with pikepdf.open(io.BytesIO(data)) as file:
        for page in file.pages:
            colour: tuple[float, ...] = (0.0,)
            kept: list[tuple[float, ...]] = []
            size = 0.0
            for step in pikepdf.parse_content_stream(page):
                match str(step.operator):
                    case "g" | "rg" | "k":
                        colour = tuple(map(float, step.operands))
                    case "q":
                        kept.append(colour)
                    case "Q":
                        colour = kept.pop()
                    case "Tf":
                        size = float(step.operands[1])
                    case "Tj" | "TJ":
                        yield True, size, colour
                    case "f" | "F" | "f*" | "B" | "B*" | "b" | "b*":
                        yield False, size, colour
