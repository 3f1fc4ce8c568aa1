"""The words of a row as its grammar orders them, before anything is made of them."""

from collections.abc import Iterable, Iterator

from bindoff.records import Record

Part = tuple[str, str | int, int, int]
"""A word, or a part made of so many of those before it: what the grammar calls it, the word or how
many, and its offsets."""


class Word(Record):
    """A word; ``type`` is what the grammar calls its kind, ``start`` and ``end`` are offsets."""

    type: str
    value: str
    start: int
    end: int


class Node(Record):
    """A part of a row; ``data`` is what the grammar calls it."""

    data: str
    children: "tuple[Node | Word, ...]"
    start: int
    end: int

    @property
    def nodes(self) -> "list[Node]":
        """The parts directly inside it."""
        return [child for child in self.children if isinstance(child, Node)]

    @property
    def words(self) -> list[Word]:
        """The words directly inside it."""
        return [child for child in self.children if isinstance(child, Word)]

    def word(self, kind: str) -> Word:
        """The first word of a kind directly inside it."""
        return next(word for word in self.words if word.type == kind)

    def find(self, data: str) -> "Iterator[Node]":
        """The parts of a kind wherever they stand in it, the innermost first."""
        found = [self]
        for node in found:
            found += reversed(node.nodes)
        return (node for node in reversed(found) if node.data == data)


def tree_of(parts: Iterable[Part]) -> Node:
    """The tree of all parts, of which the last is made of the others."""
    done: list[Node | Word] = []
    for kind, inside, start, end in parts:
        if isinstance(inside, str):
            done.append(Word(kind, inside, start, end))
        else:
            at = len(done) - inside
            done[at:] = [Node(kind, tuple(done[at:]), start, end)]
    (whole,) = done
    assert isinstance(whole, Node)
    return whole
