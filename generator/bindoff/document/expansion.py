"""Abbreviations with what they stand for where a section first uses them: ``k2 (knit 2)``."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest
from operator import is_
from typing import Any

from bindoff import regex as re
from bindoff.document.tree import (
    NO_NODES,
    Block,
    Blocks,
    Column,
    Definition,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inline,
    Inlines,
    Link,
    Paragraph,
    SizeValues,
    Strong,
    Text,
)
from bindoff.records import Record, names_of, replace

ABBREVIATIONS = "abbreviations"
"""The id of the heading over the list of abbreviations."""

_NUMBER = "{n}"


def expanded(document: Document, names: Mapping[str, str]) -> Document:
    """``document`` with the full name in parentheses after the first use of each abbreviation
    in each section.

    ``names`` has the full name of each; where its number is written onto it, ``{n}`` stands in
    both: ``k{n}`` is ``knit {n}``. Whole words count, also with a capital where a sentence starts.
    A single letter may be anything, so it counts before a number or ``to`` only. Headings, terms,
    links, pictures, what is for print only and the list of abbreviations stay as they are.
    """
    return replace(document, blocks=tuple(_Expansion(names).blocks(document.blocks)))


class _Expansion:
    """What is still to be explained on the way through a document."""

    def __init__(self, names: Mapping[str, str]) -> None:
        self._names = names
        self._left = dict(names)
        words = sorted((re.escape(name.removesuffix(_NUMBER)) for name in names), key=len)
        either = "|".join(f"(?i:{word[0]}){word[1:]}" for word in reversed(words))
        self._use = re.compile(rf"(?<![\w-])({either})(\d*)(?![\w-])" if words else r"(?!)")
        self._last = re.compile(rf"(?<![\w-])({either})$" if words else r"(?!)")

    def blocks(self, blocks: Blocks) -> Iterator[Block]:
        """``blocks``, but as they are where they list the abbreviations."""
        listed = False
        for block in blocks:
            if isinstance(block, Heading):
                listed = block.id == ABBREVIATIONS or (listed and block.level > 2)
                if block.level == 2:
                    self._left = dict(self._names)
            yield block if listed else self._node(block)

    def _node(self, node: Any) -> Any:
        """Any part of the tree."""
        if type(node) in NO_NODES:
            return node
        match node:
            case Heading() | Figure() | Column():
                return node
            case Paragraph(print_only=True) | Definition(print_only=True):
                return node  # nobody hears it, and the next use is the first
            case Definition():
                return replace(node, meaning=self._running(node.meaning))
            case tuple() if all(isinstance(each, Inline) for each in node):
                return self._running(node)
            case tuple():
                return _same_or(node, [self._node(each) for each in node])
            case Record():
                parts = ((name, getattr(node, name)) for name in names_of(node))
                told = {name: (part, self._node(part)) for name, part in parts}
                changed = {name: new for name, (part, new) in told.items() if new is not part}
                return replace(node, **changed) if changed else node
            case _:
                return node

    def _running(self, inlines: Inlines) -> Inlines:
        found: list[Inline] = []
        after: Inlines = ()  # what comes after the figure for each size that follows
        for node, following in zip_longest(inlines, inlines[1:]):
            match node:
                case Text(words):
                    told = self._use.sub(self._explained, words)
                    found.append(node if told == words else replace(node, text=told))
                    if isinstance(following, SizeValues) and (last := self._last.search(words)):
                        after = self._counted(last[1], following)
                case Strong(children) | Emphasis(children):
                    found.append(replace(node, children=self._running(children)))
                case Link():
                    found.append(node)
                case _:
                    found += (node, *after)
                    after = ()
        return _same_or(inlines, found)

    def _explained(self, use: re.Match[str]) -> str:
        word, number = use[1], use[2]
        rest = use.string[use.end() :]
        if len(word) == 1 and not number and not re.match(r"\sto\b", rest):
            return use[0]
        written = self._written(word)
        if written is None or (number and not written.endswith(_NUMBER)):
            return use[0]
        name = self._left.pop(written).replace(_NUMBER, number).strip()
        return f"{use[0]} ({name})"

    def _counted(self, word: str, figures: SizeValues) -> Inlines:
        """What explains ``k`` with figures, such as `` (knit 8)``."""
        written = self._written(word)
        if written is None or not written.endswith(_NUMBER):
            return ()
        before, _, rest = self._left.pop(written).partition(_NUMBER)
        return (Text(f" ({before}"), figures, Text(f"{rest})"))

    def _written(self, word: str) -> str | None:
        """How ``names`` write ``word``, if it is still to be explained."""
        starts = (word, word[0].lower() + word[1:], word[0].upper() + word[1:])
        forms = (start + end for start in starts for end in ("", _NUMBER))
        return next((form for form in forms if form in self._left), None)


def _same_or(nodes: tuple[Any, ...], told: Sequence[Any]) -> tuple[Any, ...]:
    """``told`` as a tuple, or ``nodes`` itself where both hold the very same."""
    same = len(told) == len(nodes) and all(map(is_, told, nodes))
    return nodes if same else tuple(told)
