"""The demo patterns and every edition of them, each built once however many tests ask for it."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path

from generator.document.build import build_document
from generator.document.tree import Document, SizeValues
from generator.files import SOURCE_NAME, DiskFiles
from generator.pipeline import plan_pattern
from generator.render.pdf import PdfOptions, render_pdf
from generator.render.text import render_text

PATTERNS = Path(__file__).parents[2] / "patterns"
DEMOS = tuple(sorted(source.parent.name for source in PATTERNS.glob(f"*/{SOURCE_NAME}")))
OPTIONS = {
    "a4": PdfOptions(),
    "letter": PdfOptions(paper="letter"),
    "large": PdfOptions(theme="large-print"),
    "grey": PdfOptions(grey=True),
}
EDITIONS = tuple((demo, edition) for demo in DEMOS for edition in OPTIONS)


@cache
def document(demo: str) -> Document:
    """The neutral document of a demo."""
    files = DiskFiles(str(PATTERNS / demo))
    return build_document(plan_pattern(files, SOURCE_NAME, demo), files)[0]


@cache
def pdf(demo: str, edition: str = "a4") -> bytes:
    """The bytes of an edition."""
    return render_pdf(document(demo), OPTIONS[edition])


@cache
def text(demo: str) -> str:
    """The text edition."""
    return render_text(document(demo))


def figures(node: object) -> frozenset[tuple[str, ...]]:
    """The lists of figures under ``node`` that differ from size to size, in the sizes' order."""
    return frozenset(values for values in _figures(node) if len(set(values)) > 1)


def _figures(node: object) -> Iterator[tuple[str, ...]]:
    if isinstance(node, SizeValues):
        yield node.values
    elif isinstance(node, tuple):
        for one in node:
            yield from _figures(one)
    elif is_dataclass(node):
        for part in fields(node):
            yield from _figures(getattr(node, part.name))
