"""Markdown with ``{{ name }}`` in it becomes nodes of the document tree."""

from collections.abc import Mapping

from generator.diagnostics import Span
from generator.document.tree import Blocks, Inlines


def blocks(
    markdown: str, values: Mapping[str, object], span: Span | None = None, heading_level: int = 3
) -> Blocks:
    """The paragraphs, lists and headings of ``markdown``."""
    raise NotImplementedError


def inlines(markdown: str, values: Mapping[str, object], span: Span | None = None) -> Inlines:
    """The running text of ``markdown``, which must be a single paragraph."""
    raise NotImplementedError


def literal(text: str) -> str:
    """``text`` with every mark of Markdown and of ``{{ }}`` escaped, so it prints as it is."""
    raise NotImplementedError
