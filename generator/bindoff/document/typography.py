"""Typographer's apostrophes and quotation marks in every text of a document."""

from functools import cache, lru_cache
from operator import is_
from typing import Any, cast

from bindoff import regex as re
from bindoff.document.drawing import Drawing
from bindoff.document.tree import NO_NODES, Cover, Document, Figure, Heading, Paragraph, Text
from bindoff.records import Record, names_of, replace

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)|(?<=s)'(?=\s)")
_QUOTED = re.compile(r'(?<![\d¼½¾⅛⅜⅝⅞])"([^"\n]*)"')
_QUOTED_ONCE = re.compile(r"(?<!\w)'([^'\n]+)'(?!\w)")
_NO_WORDS = ("id", "target", "picture", "mark", "sizes", "language", "origin")
_TYPED = (*_NO_WORDS, "title", "lead", "art")  # what a cover has in the designer's words

_MARKED = (Paragraph, Heading, Figure, Text)
_UNTYPED = (type, Drawing)


@lru_cache(maxsize=1 << 13)
def curled(words: str) -> str:
    """``words`` with curled apostrophes and pairs of quotation marks; an inch mark stays."""
    words = _APOSTROPHE.sub("’", words)
    words = _QUOTED.sub("“\\1”", words)
    return _QUOTED_ONCE.sub("‘\\1’", words)


def set_in_type(document: Document) -> Document:
    """``document`` with every text curled; addresses, ids and drawings stay as they are.

    Languages other than English have marks of their own, and keep what the designer typed.
    """
    if not document.language.startswith("en"):
        return document
    in_type: Document = _walk(document)
    return in_type


def _walk(node: Any) -> Any:
    """``node`` in type; the node itself where that changes nothing in it."""
    if isinstance(node, str):
        words = curled(node)
        return node if words == node else words
    if type(node) in NO_NODES:
        return node
    if isinstance(node, tuple):
        walked = tuple([_walk(item) for item in node])
        return node if all(map(is_, walked, node)) else walked
    if isinstance(node, _MARKED) and node.language:
        return node
    changed: dict[str, Any] = {}
    kind: Any = type(node)
    for name in _worded(kind, isinstance(node, Cover) and bool(node.language)):
        value = getattr(node, name)
        walked = _walk(value)
        if walked is not value:
            changed[name] = walked
    return replace(cast("Any", node), **changed) if changed else node


@cache
def _worded(kind: type, typed: bool) -> tuple[str, ...]:
    """The fields of a kind of node that hold words of ours, or nodes that do; none where it is no
    node. ``typed`` leaves out what a cover has in the designer's words."""
    if issubclass(kind, _UNTYPED) or not issubclass(kind, Record):
        return ()
    kept = _TYPED if typed else _NO_WORDS
    return tuple(name for name in names_of(kind) if name not in kept)
