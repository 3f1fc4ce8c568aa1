"""Small builders of the document tree that the sections share."""

from collections.abc import Iterable, Sequence

from bindoff import regex as re
from bindoff.document.tree import Heading, Inline, Inlines, Paragraph, SizeValues, Text, plain
from bindoff.document.units import per_size
from bindoff.english import plural, times

NOT_WORKED = "–"
"""What stands for a size that has no such step or figure."""


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


def heading(
    level: int, words: str, id: str = "", columns: bool = False, wide: bool = False
) -> Heading:
    """A heading of plain words."""
    assert level in (1, 2, 3, 4)
    return Heading(level, text(words), id, columns, wide=wide)  # type: ignore[arg-type]


def paragraph(*parts: Inlines | str) -> Paragraph:
    """Running text."""
    return Paragraph(join(*parts))


def running(*sentences: Inlines | str) -> Inlines:
    """Sentences with a space between them; empty ones are left out."""
    return joined(
        (text(each) if isinstance(each, str) else each for each in sentences if each), " "
    )


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


def figures(values: Sequence[int]) -> Inlines:
    """A count per size, with a dash for none."""
    return per_size([value or NOT_WORKED for value in values])


def counted(values: Sequence[int], noun: str) -> Inlines:
    """A count of something per size, to end a sentence with: ``1 round``, ``2 (3) rounds``.

    Where one size has a single one and another has not, no form of the noun fits both:
    ``this many rounds: 1 (2)``. A size with none has a dash.
    """
    if set(values) == {1}:
        return text(f"1 {noun}")
    if 1 in values:
        return join(f"this many {plural(noun)}: ", figures(values))
    return join(figures(values), f" {plural(noun)}")


def often(values: Sequence[int]) -> Inlines:
    """How often something is done per size, to end a sentence with: ``twice``, ``2 (3) times``."""
    if len(set(values)) == 1 and values[0]:
        return text(times(values[0]))
    return counted(values, "time")


def of_size(title: str, size: str) -> str:
    """What ``title`` is called in one size: ``Quay Cap, size M``; ``Quay Cap, One size``."""
    return f"{title}, {size}" if "size" in size.casefold() else f"{title}, size {size}"
