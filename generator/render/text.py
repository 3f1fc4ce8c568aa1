"""The text edition: plain UTF-8 that a screen reader or a braille display reads line by line."""

from generator.document.tree import Document


def render_text(document: Document, width: int = 0) -> str:
    """``document`` as plain text; lines are wrapped at ``width`` characters, or not at 0."""
    raise NotImplementedError
