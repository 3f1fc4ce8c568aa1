"""YAML text as plain data in which every value knows its place in the file."""

from functools import lru_cache
from typing import Any, cast

from bindoff import regex as re
from bindoff.diagnostics import Span, fail
from bindoff.records import Record
from bindoff.source.places import Lines
from bindoff.source.yamlvalues import Located, read_values

Path = tuple[str | int, ...]

_BLANK = " \t\n"

# All that YAML lets stand in a file, less what no editor shows: other ends of lines, and marks that
# turn the direction of writing, which can make a reader see another text than the program does
# (Unicode Technical Standard 55, Source Code Handling).
_UNREADABLE = re.compile(
    "[^\t\n\x20-\x7e\xa0-\u2027\u202f-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
    "|[\u061c\u200e\u200f\u2066-\u2069]"
)


class Place(Record, eq=False):
    """Where one value of a source file stands, with all that is inside it.

    ``key_span`` is the place of the key that names it; of the value itself in a list. All places
    are equal: what is written is the same wherever it stands.
    """

    lines: Lines
    node: Located
    key_span: Span

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Place)

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(Place)

    @property
    def span(self) -> Span:
        """The whole value."""
        return self.node.span

    def of(self, part: str | int) -> "Place":
        """Of the value under a key or at a position from 0; this place where there is none."""
        child = self.node.children.get(part)
        if child is None:
            return self
        return Place(self.lines, child, self.node.key_spans.get(part, child.span))

    @property
    def entries(self) -> tuple["Place", ...]:
        """Each value of a list; this value alone where it is none."""
        if not isinstance(self.node.data, list):
            return (self,)
        return tuple(self.of(index) for index in range(len(self.node.data)))

    @property
    def text(self) -> str:
        """What was typed: ``1.0`` stays ``1.0``; a collection is its source text."""
        node = self.node
        return self.lines.text[node.start : node.end] if node.text is None else node.text

    @property
    def text_span(self) -> Span:
        """A scalar's text without its quotes, to point into with ``Span.inside``.

        Where the text doesn't stand in one piece on one line (escapes, several lines), the place
        of the whole value.
        """
        start, offsets = self.node.start, self._offsets()
        if not offsets or offsets[-1] - offsets[0] != len(offsets) - 1:
            return self.span
        return self.lines.span(start + offsets[0], start + offsets[-1] + 1)

    def part(self, start: int, end: int) -> Span:
        """The characters ``start`` to ``end`` (exclusive) of a scalar's text.

        Works over several lines too; the place of the whole value where escapes prevent it.
        """
        offsets = self._offsets()
        if not offsets:
            return self.span
        first = offsets[min(max(start, 0), len(offsets) - 1)]
        last = offsets[min(max(end - 1, start, 0), len(offsets) - 1)]
        return self.lines.span(self.node.start + first, self.node.start + last + 1)

    def _offsets(self) -> tuple[int, ...]:
        return _offsets(self.lines.text[self.node.start : self.node.end], self.node.text or "")


_NO_SPAN = Span("", 1, 1, 1, 1)
NOWHERE = Place(Lines.of("", ""), Located(None, _NO_SPAN, 0, 0), _NO_SPAN)
"""The place of what no file says."""


class YamlTree(Record):
    """A source file's data and places.

    A path to a value is the mapping keys and list positions (from 0) that lead to it.
    """

    lines: Lines
    root: Located

    @property
    def file(self) -> str:
        """The file's path as the user gave it."""
        return self.lines.file

    @property
    def data(self) -> dict[str, Any]:
        """Plain data; order is kept and mapping keys are text."""
        return cast("dict[str, Any]", self.root.data)

    def at(self, path: Path) -> Place:
        """The place of the value at ``path``, or of the nearest ancestor there is."""
        place = Place(self.lines, self.root, self.root.span)
        for part in path:
            if part not in place.node.children:
                break
            place = place.of(part)
        return place

    def span(self, path: Path, key: bool = False) -> Span:
        """Place of the value (or of its key) at ``path``, or of the nearest ancestor there is."""
        place = self.at(path)
        return place.key_span if key else place.span

    def key_span(self, path: Path) -> Span:
        """Place of the key that names the value at ``path``; of the value itself in a list."""
        return self.at(path).key_span

    def text(self, path: Path) -> str:
        """What was typed at ``path``: ``1.0`` stays ``1.0``; a collection is its source text.

        Raises:
            KeyError: there is nothing at ``path``.
        """
        node = self.root
        for part in path:
            node = node.children[part]
        return Place(self.lines, node, node.span).text


def read_yaml(text: str, file: str) -> YamlTree:
    """Read one YAML document whose top level is a mapping.

    Raises:
        PatternError: ids ``yaml.…``: the first fault of syntax, or every duplicate name, tag and
            other thing that a pattern can't hold.
    """
    source = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    lines = Lines.of(source, file)
    if unreadable := _UNREADABLE.search(source):
        raise fail(
            "yaml.character",
            f"an invisible character (U+{ord(unreadable[0]):04X}) stands in the text",
            "Delete it: put the cursor behind it and press backspace, or type the line anew",
            lines.span(*unreadable.span()),
        )
    root = read_values(lines)
    if root is None:
        raise fail(
            "yaml.empty",
            "the file says nothing",
            "Start with a line such as `title: Breakwater Hat`",
            lines.span(0, 0),
        )
    if not isinstance(root.data, dict):
        raise fail("yaml.top-level", *_top_level(root), lines.line_span(lines.number(root.start)))
    return YamlTree(lines, root)


def _top_level(root: Located) -> tuple[str, str]:
    if root.text is not None and re.match(r"[^\s:]+:\S", root.text):
        return "a space is missing after the colon", "Write it as in `title: Breakwater Hat`"
    return (
        "a pattern is made of lines that each name something, and this isn't such a line",
        "Start the file with a line such as `title: Breakwater Hat`",
    )


@lru_cache(maxsize=64)
def _offsets(raw: str, text: str) -> tuple[int, ...]:
    """For each character of ``text`` its offset in ``raw``, the scalar as it stands in the file.

    Empty when an escape hides the relation. A blank may stand for a line end and indentation.
    A long text with many findings asks for the same offsets again and again, so they are kept.
    """
    quote = raw[:1] if raw[:1] in ("'", '"') else ""
    at = raw.find("\n") + 1 if raw[:1] in ("|", ">") else len(quote)
    offsets: list[int] = []
    for character in text:
        if character in _BLANK:
            offsets.append(min(at, len(raw) - 1))
            at += raw[at : at + 1] == character
            continue
        while raw[at : at + 1] in (" ", "\t", "\n"):
            at += 1
        doubled = raw[at : at + 2] == "''" and quote == "'"
        escaped = quote == '"' and raw[at : at + 1] == "\\"
        at += escaped
        if raw[at : at + 1] != character or (escaped and character not in '"\\/'):
            return ()
        offsets.append(at)
        at += 1 + doubled
    return tuple(offsets)
