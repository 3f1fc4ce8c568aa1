"""The designer's names in the program's sentences: they are in her language, and marked so."""

from collections.abc import Collection, Iterator
from typing import Any

from bindoff import regex as re
from bindoff.document.drawing import Drawing
from bindoff.document.tree import Document, Figure, Heading, Paragraph, Text
from bindoff.records import Record, names_of, replace

_SHORT = 2  # letters: so short a name may be a word of ours, and is marked where it stands alone


def names_marked(document: Document, names: Collection[str], language: str) -> Document:
    """``document`` with each of ``names`` in its running text marked as ``language`` (BCP 47).

    What is marked as a whole stays as it is. Nothing is changed where ``language`` is empty.
    """
    found = {name for name in names if re.search(r"\w", name)}
    if not language or not found:
        return document
    long = sorted((name for name in found if len(name) > _SHORT), key=len, reverse=True)
    words = "|".join(map(re.escape, long)) or "(?!)"
    within = re.compile(rf"(?<!\w)({words})(?!\w)")

    def marked(node: Text) -> Iterator[Text]:
        if node.language or node.text in found:
            yield replace(node, language=node.language or language)
            return
        for index, part in enumerate(within.split(node.text)):
            if part:
                yield Text(part, language if index % 2 else "")

    def walk(node: Any) -> Any:
        if isinstance(node, tuple):
            return tuple(
                each
                for item in node
                for each in (marked(item) if isinstance(item, Text) else (walk(item),))
            )
        if isinstance(node, Paragraph | Heading | Figure) and node.language:
            return node
        if isinstance(node, Record) and not isinstance(node, Drawing):
            changed = {name: walk(getattr(node, name)) for name in names_of(node)}
            return replace(node, **changed)
        return node

    named: Document = walk(document)
    return named
