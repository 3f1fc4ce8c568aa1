"""Small builders of the document tree that the sections share."""

import re
from collections.abc import Iterable, Sequence

from generator.document.tree import Heading, Inline, Inlines, Paragraph, SizeValues, Text, plain


def text(words: str) -> Inlines:
    """Plain words as inlines."""
    return (Text(words),)


def join(*parts: Inlines | str) -> Inlines:
    """Words and inlines one after the other; neighbouring plain text becomes one node."""
    found: list[Inline] = []
    for part in parts:
        for node in text(part) if isinstance(part, str) else part:
            if isinstance(node, Text) and found and isinstance(found[-1], Text):
                found[-1] = Text(found[-1].text + node.text)
            elif node != Text(""):
                found.append(node)
    return tuple(found)


def joined(parts: Iterable[Inlines], between: str = ", ") -> Inlines:
    """``parts`` with ``between`` between them."""
    found: Inlines = ()
    for index, part in enumerate(parts):
        found = join(found, between, part) if index else join(part)
    return found


def heading(level: int, words: str, id: str = "") -> Heading:
    """A heading of plain words."""
    assert level in (1, 2, 3, 4)
    return Heading(level, text(words), id)  # type: ignore[arg-type]


def paragraph(*parts: Inlines | str) -> Paragraph:
    """Running text."""
    return Paragraph(join(*parts))


def merged(versions: Sequence[Inlines]) -> Inlines | None:
    """One sentence for all sizes, where the versions differ in nothing but whole numbers.

    ``Knit 8.`` and ``Knit 9.`` become ``Knit 8 (9).``; ``None`` if words differ too.
    """
    if any(not isinstance(node, Text) for version in versions for node in version):
        return versions[0] if len(set(versions)) == 1 else None
    parts = [
        re.split(r"(\d+)(?![a-z\d])", "".join(plain((node,)) for node in version))
        for version in versions
    ]
    if len({len(each) for each in parts}) != 1:
        return None
    found: Inlines = ()
    for index, column in enumerate(zip(*parts, strict=True)):
        if len(set(column)) == 1:
            found = join(found, column[0])
        elif index % 2:
            found = (*found, SizeValues(column))
        else:
            return None
    return found


def listed(words: Iterable[str], last: str = "and") -> str:
    """``a, b and c``."""
    found = list(words)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} {last} {found[-1]}"


def times(count: int) -> str:
    """``once``, ``twice``, ``3 times``."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
