"""Markdown with ``{{ name }}`` in it becomes nodes of the document tree.

Text may have paragraphs, headings, bulleted and numbered lists, links, hard line breaks, **strong**
and *emphasised* words. All else that Markdown knows is refused rather than dropped. Lines that are
each a name and its figures, as ``Rows: 88``, stay lines.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Literal, cast

from bindoff import regex as re
from bindoff.diagnostics import PatternError, Span, fail
from bindoff.document.filling import fill
from bindoff.document.markdown import Node, blocks_of, link, words_of
from bindoff.document.standins import STAND_IN, number_of, place, refuse_odd_characters
from bindoff.document.tree import (
    Block,
    Blocks,
    Emphasis,
    Heading,
    Inline,
    Inlines,
    ItemList,
    LineBreak,
    Link,
    ListItem,
    Paragraph,
    Strong,
    Text,
    from_source,
)
from bindoff.records import Record, replace

DEEPEST_HEADING = 4
MOST_CHARACTERS = 20_000
_EMPTY_LINE = re.compile(r"\n[ \t]*\n")
_LINE_END = re.compile(r"(?<!\s)\s*[\r\n]\s*")
_MARK = re.compile(r"([!-/:-@\[-`{-~])")
_TO_FILL = re.compile(r"\{[{%#]|[^\x00-\ud7ff\ue000-\uffff]")  # braces, and what are stand-ins
_TARGETS = ("https://", "http://", "mailto:", "#")

_REFUSED = {
    "image": ("an image", "Give the picture to the pattern's photos or charts, with its words"),
    "code_inline": ("code in backticks", "Use **strong** or *emphasised* words"),
    "fence": ("a code block", "Write it as a paragraph or a list"),
    "html_inline": ("HTML", "Use Markdown, or a backslash before `<`"),
    "html_block": ("HTML", "Use Markdown, or a backslash before `<`"),
    "blockquote": ("a quotation", "Write it as a paragraph, or a backslash before `>`"),
    "hr": ("a rule across the page", "Use a heading to part the text"),
    "table": ("a table", "Give the figures to the pattern's measures, or write a list"),
}


def blocks(
    markdown: str,
    values: Mapping[str, object],
    span: Span | None = None,
    heading_level: int = 3,
    language: str = "",
) -> Blocks:
    """The paragraphs, lists and headings of ``markdown``; ``#`` is a heading of ``heading_level``.

    A value in ``values`` is text, a number, a tree node such as ``SizeValues``, a tuple of nodes,
    or a list or mapping of these; it is printed as it is, never read as Markdown. ``span`` is the
    place of ``markdown`` in its file, beginning with its first line; ``language`` that of its words
    if it is not the document's. Raises ``PatternError`` on a
    name that is not there and on anything the tree has no node for.
    """
    return _set(_source(markdown, values, span), heading_level, language)


@lru_cache(maxsize=256)  # standing texts are the same in every pattern, or nearly so
def _set(source: "_Source", heading_level: int, language: str) -> Blocks:
    return tuple(
        placed
        for node in blocks_of(source.text)
        for placed in from_source(
            (spoken(_block(node, source, heading_level), language),), source.lines_of(node)
        )
    )


def spoken(block: Block, language: str) -> Block:
    """``block`` marked as words of ``language``; an empty one is the document's."""
    match block:
        case Paragraph() | Heading() if language:
            return replace(block, language=language)
        case ItemList(items) if language:
            entries = (tuple(spoken(each, language) for each in item.blocks) for item in items)
            return replace(block, items=tuple(map(ListItem, entries)))
        case _:
            return block


def inlines(markdown: str, values: Mapping[str, object], span: Span | None = None) -> Inlines:
    """The running text of ``markdown``, which must be a single paragraph.

    A list mark or ``#`` at its start is plain text. Takes and raises what ``blocks`` does.
    """
    source = _source(markdown, values, span)
    text = source.text.strip()
    if _EMPTY_LINE.search(text):
        raise fail(
            "prose.paragraphs",
            "there is room for one paragraph here, and the text has more",
            "Remove the empty lines",
            span,
        )
    return next((_children(node, source) for node in words_of(text)), ())


def literal(text: str) -> str:
    """``text`` with every mark of Markdown and of ``{{ }}`` escaped, so it prints as it is.

    Line ends become spaces. For text that is put into Markdown: a row such as ``*k6, k2tog*``.
    """
    return _MARK.sub(r"\\\1", _LINE_END.sub(" ", text))


class _Source(Record):
    """The text that Markdown sees, what its stand-ins stand for, and where it came from."""

    text: str
    slots: tuple[Inlines, ...]
    markdown: str
    span: Span | None

    def refuse(self, node: Node, id: str, message: str, help: str) -> PatternError:
        """An error at the line of ``node``, as far as it can be told."""
        content = node.content.split("\n")[0]
        if content and self.markdown.count(content) == 1:
            before = self.markdown[: self.markdown.index(content)]
            row, start = before.count("\n") + 1, len(before) - before.rfind("\n") - 1
            where = place(self.markdown, self.span, row, start, start + len(content))
            return fail(id, message, help, where)
        line = self.text.split("\n")[node.lines[0]].strip() if node.lines else ""
        written = self.markdown.split("\n")
        rows = [row for row, each in enumerate(written, 1) if each.strip() == line]
        row = rows[0] if rows else int(len(written) == 1)
        return fail(id, message, help, place(self.markdown, self.span, row))

    def lines_of(self, node: Node) -> Span | None:
        """The lines of ``node`` in the file; the whole text where filling in moved lines."""
        if not node.lines or self.text.count("\n") != self.markdown.count("\n"):
            return self.span
        first = place(self.markdown, self.span, node.lines[0] + 1)
        last = place(self.markdown, self.span, node.lines[1])
        if first is None or last is None:
            return self.span
        return replace(first, end_line=last.end_line, end_column=last.end_column)


def _source(markdown: str, values: Mapping[str, object], span: Span | None) -> _Source:
    """``markdown`` with its names filled in."""
    if len(markdown) > MOST_CHARACTERS:
        raise fail(
            "prose.long",
            f"a text has at most {MOST_CHARACTERS:,} characters, and this one has "
            f"{len(markdown):,}",
            "Say it in fewer words, or part it into several texts",
            span,
        )
    if not _TO_FILL.search(markdown):
        return _Source(markdown, (), markdown, span)
    filled = fill(markdown, values, span)
    return _Source(filled.text, filled.slots, markdown, span)


def _block(node: Node, source: _Source, heading_level: int) -> Block:
    match node.kind:
        case "paragraph":
            return Paragraph(_children(_lines_kept(node.children[0]), source))
        case "heading":
            level = heading_level + int(node.tag[1:]) - 1
            if level > DEEPEST_HEADING:
                raise source.refuse(
                    node,
                    "prose.heading",
                    f"a heading with {node.tag[1:]} marks is too deep here",
                    f"Use at most {max(DEEPEST_HEADING - heading_level + 1, 0)}",
                )
            words = _children(node.children[0], source)
            if not words:
                raise _empty("a heading", node, source)
            return Heading(cast(Literal[1, 2, 3, 4], level), words)
        case "bullet_list" | "ordered_list":
            items = tuple(_item(each, source, heading_level) for each in node.children)
            start = node.start
            return ItemList(items, node.kind == "ordered_list", start)
        case kind:
            raise _unsupported(kind, node, source)


_NAME = re.compile(r"[*_]{0,3}(?:\w{1,2}[.)] )?\w[^.:;!?]{0,60}:[*_]{0,3} ")
_FIGURE = re.compile(rf"\d|{STAND_IN.pattern}")


def _lines_kept(words: Node) -> Node:
    """A paragraph in which each line is a name and its figures, as a list of them: ``Rows: 88``.

    Its lines are printed one by one; all others run on where one ends.
    """
    lines = words.content.split("\n")
    if len(lines) == 1 or not all(map(_names_figures, lines)):
        return words
    kept = (replace(c, kind="hardbreak") if c.kind == "softbreak" else c for c in words.children)
    return replace(words, children=tuple(kept))


def _names_figures(line: str) -> bool:
    """Whether a line is a name and its figures."""
    name = _NAME.match(line)
    return name is not None and _FIGURE.search(line, name.end()) is not None


def _item(node: Node, source: _Source, heading_level: int) -> ListItem:
    if not node.children:
        raise _empty("a list entry", node, source)
    return ListItem(tuple(_block(each, source, heading_level) for each in node.children))


def _children(node: Node, source: _Source) -> Inlines:
    """The running text in ``node``, neighbouring characters as one ``Text``."""
    merged: list[Inline] = []
    for each in node.children:
        for inline in _inline(each, source):
            if isinstance(inline, Text) and merged and isinstance(merged[-1], Text):
                merged[-1] = Text(merged[-1].text + inline.text)
            else:
                merged.append(inline)
    return tuple(merged)


def _inline(node: Node, source: _Source) -> Inlines:
    match node.kind:
        case "text":
            return _slotted(node.content, source)
        case "softbreak":
            return (Text(" "),)
        case "hardbreak":
            return (LineBreak(),)
        case "strong":
            return (Strong(_children(node, source)),)
        case "em":
            return (Emphasis(_children(node, source)),)
        case "link":
            words = _children(node, source)
            if not words:
                raise _empty("a link", node, source)
            return (Link(words, _target(node, source)),)
        case kind:
            raise _unsupported(kind, node, source)


def _slotted(text: str, source: _Source) -> Inlines:
    """``text`` with the values in the place of their stand-ins."""
    if text.isascii():
        return (Text(text),) if text else ()
    found: list[Inline] = []
    for part in re.compiled(f"({STAND_IN.pattern})", 0).split(text):
        if not STAND_IN.match(part):
            found += [Text(part)] if part else []
        elif (at := number_of(part)) < len(source.slots):
            found += source.slots[at]
        else:  # written as a character reference
            refuse_odd_characters(part, source.markdown, source.span)
    return tuple(found)


def _target(node: Node, source: _Source) -> str:
    """Where a link goes; only the web, mail, and places in this document are taken."""
    parts = _slotted(node.href, source)
    target = "".join(part.text for part in parts if isinstance(part, Text))
    if len(parts) != sum(isinstance(part, Text) for part in parts) or not target.startswith(
        _TARGETS
    ):
        raise source.refuse(
            node,
            "prose.link",
            f"a link cannot lead to `{target}`",
            "Start the target with `https://`, `mailto:` or `#`",
        )
    return link(target)


def _empty(name: str, node: Node, source: _Source) -> PatternError:
    return source.refuse(node, "prose.empty", f"{name} has no words", "Write them, or remove it")


def _unsupported(kind: str, node: Node, source: _Source) -> PatternError:
    name, help = _REFUSED.get(kind, (f"a {kind}", "Write it as a paragraph"))
    return source.refuse(node, "prose.markdown", f"{name} cannot stand in a pattern's text", help)
