"""From PyYAML's events to plain values that know their place, within bounds.

The events are turned into data here and not by PyYAML's loaders, because a pattern is text first:
``on``, ``yes``, ``1:30`` and ``2024-05-01`` stay what was typed, and nothing a file says makes the
program run code or grow without bound.
"""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

import yaml
from yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    CollectionStartEvent,
    DocumentStartEvent,
    Event,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
)

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, Fix, PatternError, Span, fail
from bindoff.records import Record, field, replace
from bindoff.source.places import Lines
from bindoff.source.yamlwords import explain, needs_quotes, second_document

Data = dict[str, "Data"] | list["Data"] | str | int | float | bool | None

MAX_DEPTH = 60
MAX_VALUES = 50_000
MAX_ALIASES = 200
_MAX_FINDINGS = 50

_PARSER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_TEXT_TAG = "tag:yaml.org,2002:str"
_WORDS: Mapping[str, bool | None] = MappingProxyType(
    {
        **dict.fromkeys(("true", "True", "TRUE"), True),
        **dict.fromkeys(("false", "False", "FALSE"), False),
        **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
    }
)
_INTEGER = re.compile(r"[-+]?(?:0|[1-9][0-9]{0,14})")
_DECIMAL = re.compile(r"[-+]?(?:0|[1-9][0-9]{0,14})?\.[0-9]{1,15}")
_PROPERTIES = re.compile(r"(?:[&!]\S*\s+)*")
_LOST_COLOUR = re.compile(r"[ \t]+(#[0-9A-Fa-f]{3,8}\b.*)")
_LOST_NUMBER = re.compile(r"[ \t]+(#[0-9].*)")
_SWALLOWED_ENTRY = re.compile(r"\n[ \t]*(-(?:[ \t].*|$))", re.MULTILINE)
_DASH_WITHOUT_SPACE = re.compile(r"\s*(-\S.*)\n\s*-")


class Located(Record):
    """One value: plain ``data``, its place, and all that is inside it.

    ``text`` is what a scalar says before it is taken for a number (``None`` for a collection).
    ``start`` and ``end`` are offsets in the source, quotes included. ``size`` counts the values,
    this one and all inside it; ``height`` the levels below it.
    """

    data: Data
    span: Span
    start: int
    end: int
    text: str | None = None
    children: Mapping[str | int, "Located"] = field(default_factory=dict)
    key_spans: Mapping[str | int, Span] = field(default_factory=dict)
    size: int = 1
    height: int = 0


SAME_KEY = MappingProxyType({"cast off": "bind off"})
"""The trade's other word for a key, and the one it is read as."""


def read_values(lines: Lines) -> Located | None:
    """The root of the one document in a text; ``None`` when there is none.

    Raises:
        PatternError: the first fault of syntax, or every duplicate name, tag and other thing that
            a pattern can't hold (ids ``yaml.…``).
    """
    return _Reader(lines).document()


class _Reader:
    """Builds the tree of one document; gathers what is wrong with its values on the way."""

    def __init__(self, lines: Lines) -> None:
        self.lines = lines
        self.events = self._parse()
        self.findings: list[Diagnostic] = []
        self.anchors: dict[str, Located | None] = {}
        self.size = 0
        self.aliases = 0

    def document(self) -> Located | None:
        """The root; ``None`` when the file has no document."""
        root: Located | None = None
        for event in self.events:
            if not isinstance(event, DocumentStartEvent):
                continue
            if root is not None:
                self.findings.append(second_document(self.lines, _start(event)))
                break
            root = self._node(next(self.events), 0, None)
        if self.findings:
            raise PatternError(self.findings)
        return root

    def _parse(self) -> Iterator[Event]:
        """The parser's events; its errors reworded."""
        quoted: tuple[int, int] | None = None
        try:
            for event in yaml.parse(self.lines.text, Loader=_PARSER):
                if isinstance(event, ScalarEvent) and event.style in ("'", '"'):
                    start, end = _start(event), _end(event)
                    quoted = (start, end) if "\n" in self.lines.text[start:end] else quoted
                yield event
        except yaml.MarkedYAMLError as error:
            fault = explain(error, self.lines, quoted)
            line = fault.span.line if fault.span else 0
            earlier = [f for f in self.findings if f.span and f.span.line < line]
            raise PatternError([*earlier, fault]) from None
        except yaml.YAMLError as error:
            raise fail(
                "yaml.syntax",
                f"this can't be read as YAML ({error})",
                "Save the file as plain text in UTF-8",
                self.lines.span(0, 0),
            ) from None

    def _found(
        self, id: str, message: str, help: str, span: Span, fixes: tuple[Fix, ...] = ()
    ) -> None:
        self._add(Diagnostic(id, message, help, span, fixes=fixes))

    def _add(self, finding: Diagnostic) -> None:
        self.findings.append(finding)
        if len(self.findings) >= _MAX_FINDINGS:
            raise PatternError(self.findings)

    def _node(self, event: Event, depth: int, key: Span | None) -> Located:
        """The value that ``event`` starts; ``key`` is the place of its name."""
        start = _start(event)
        if isinstance(event, AliasEvent):
            node = self._alias(event, start)
        else:
            self._count(1, depth, start)
            if isinstance(event, NodeEvent) and event.anchor:
                self.anchors[event.anchor] = None
            if isinstance(event, MappingStartEvent):
                node = self._mapping(event, depth)
            elif isinstance(event, CollectionStartEvent):
                node = self._list(event, depth)
            else:
                assert isinstance(event, ScalarEvent)
                node = self._scalar(event, key)
            if isinstance(event, NodeEvent) and event.anchor:
                self.anchors[event.anchor] = node
            return node
        self._count(node.size, depth + node.height, start)
        return node

    def _count(self, values: int, depth: int, at: int) -> None:
        self.size += values
        if depth > MAX_DEPTH:
            what, help = f"nested more than {MAX_DEPTH} levels deep", "Use fewer levels"
        elif self.size > MAX_VALUES:
            what, help = f"larger than {MAX_VALUES:,} values", "Split the pattern"
        else:
            return
        place = self.lines.span(at, at + 1)
        raise PatternError(
            [*self.findings, Diagnostic("yaml.limit", f"this is {what}", help, place)]
        )

    def _alias(self, event: AliasEvent, start: int) -> Located:
        place = self.lines.span(start, _end(event))
        nothing = Located(None, place, start, _end(event), "")
        self.aliases += 1
        if self.aliases > MAX_ALIASES:
            raise fail(
                "yaml.limit",
                f"more than {MAX_ALIASES} values repeat another one with `*`",
                "Write the values out",
                place,
            )
        if event.anchor not in self.anchors:
            self._add(needs_quotes(self.lines, start))
            return nothing
        node = self.anchors[event.anchor]
        if node is None:
            self._found(
                "yaml.loop",
                f"`*{event.anchor}` stands inside the value that it repeats",
                "Write the value out",
                place,
            )
            return nothing
        return node

    def _check_tag(self, event: CollectionStartEvent | ScalarEvent) -> None:
        allowed = (None, _TEXT_TAG) if isinstance(event, ScalarEvent) else (None,)
        if event.tag not in allowed:
            source, start = self.lines.text, _start(event)
            self._add(needs_quotes(self.lines, source.find("!", start) if event.anchor else start))

    def _list(self, event: CollectionStartEvent, depth: int) -> Located:
        self._check_tag(event)
        children: list[Located] = []
        end: Event = event
        for end in self.events:
            if isinstance(end, CollectionEndEvent):
                break
            children.append(_counting_rows(self._node(end, depth + 1, None), "work", "chart"))
        data: list[Data] = [child.data for child in children]
        return self._collection(event, end, data, dict(enumerate(children)), {})

    def _mapping(self, event: MappingStartEvent, depth: int) -> Located:
        self._check_tag(event)
        children: dict[str | int, Located] = {}
        keys: dict[str | int, Span] = {}
        data: dict[str, Data] = {}
        end: Event = event
        for end in self.events:
            if isinstance(end, CollectionEndEvent):
                break
            name, place = self._name(end, depth)
            value = self._node(next(self.events), depth + 1, place)
            if name is None:
                continue
            name = SAME_KEY.get(name, name)
            if name in keys:
                self._found(
                    "yaml.twice",
                    f"`{name}` is given twice: here and at {keys[name]}",
                    "Remove one of the two, or give it another name",
                    place,
                )
                continue
            if event.flow_style:
                self._check_flow_value(name, place, _end(end), value)
            if name in ("gauge", "swatch"):
                value = _counting_rows(value, "stitches")
            if name == "gauges" and isinstance(value.data, dict):
                value = _with(
                    value, {n: _counting_rows(c, "stitches") for n, c in value.children.items()}
                )
            data[name], children[name], keys[name] = value.data, value, place
        return self._collection(event, end, data, children, keys)

    def _name(self, event: Event, depth: int) -> tuple[str | None, Span]:
        """A mapping key; ``None`` after a finding when it is not a plain text."""
        start = _start(event)
        if not isinstance(event, ScalarEvent):
            node = self._node(event, depth + 1, None)
            if not isinstance(event, AliasEvent) or node.text != "":
                self._add(needs_quotes(self.lines, start))
            return None, node.span
        self._count(1, depth, start)
        self._check_tag(event)
        place = self.lines.span(start, _end(event))
        if event.value == "<<" and not event.style:
            self._found(
                "yaml.merge",
                "`<<` can't merge values in a pattern",
                "Write the values out",
                place,
            )
            return None, place
        if not event.value.strip():
            self._found(
                "yaml.no-name",
                "no name stands before this colon",
                "Write a name before the colon, or put the text in quotes",
                place,
            )
            return None, place
        if event.value[0].isspace() and not event.style:
            self._found(
                "yaml.no-break-space",
                "this line starts with a no-break space, which doesn't count as indentation",
                "Delete the spaces at its start and type plain ones",
                place,
            )
            return None, place
        return event.value, place

    def _check_flow_value(self, name: str, place: Span, end: int, value: Located) -> None:
        """``{x:1}`` and ``{needles}`` are YAML for names without a value: never what is meant."""
        if value.text != "" or value.start != value.end:
            return
        if ":" in self.lines.text[end : value.start]:
            return
        if ":" in name:
            self._found(
                "yaml.missing-colon",
                f"a space is missing after the colon in `{name}`",
                "Write a name, a colon, a space and the value",
                place,
            )
        else:
            self._found(
                "yaml.no-value",
                f"`{name}` stands between braces without a value",
                "Write a colon, a space and the value behind it; or, if the braces belong to a "
                "text, put the whole text in quotes",
                place,
                self._decimal_comma(place),
            )

    def _decimal_comma(self, place: Span) -> tuple[Fix, ...]:
        """The fix for ``{head: 56,5 cm}``, in which the comma parts two entries."""
        before = self.lines.line(place.line - 1)[: place.column - 1]
        after = self.lines.line(place.line - 1)[place.column - 1 :][:1]
        if not (before[-1:] == "," and before[-2:-1].isdigit() and after.isdigit()):
            return ()
        comma = Span(place.file, place.line, place.column - 1, place.line, place.column)
        return (Fix("Write a point for the comma", ".", comma),)

    def _collection(
        self,
        event: CollectionStartEvent,
        end: Event,
        data: Data,
        children: Mapping[str | int, Located],
        keys: Mapping[str | int, Span],
    ) -> Located:
        """A block collection's last event lies lines below it: it ends with its last value."""
        start, stop = _start(event), _end(end)
        if not event.flow_style:
            stop = start + len(self.lines.text[start : _start(end)].rstrip())
        return Located(
            data,
            self.lines.span(start, stop),
            start,
            stop,
            None,
            MappingProxyType(dict(children)),
            MappingProxyType(dict(keys)),
            1 + sum(child.size for child in children.values()),
            1 + max((child.height for child in children.values()), default=0),
        )

    def _scalar(self, event: ScalarEvent, key: Span | None) -> Located:
        self._check_tag(event)
        source, end = self.lines.text, _end(event)
        start = _start(event)
        if event.anchor or event.tag:
            properties = _PROPERTIES.match(source, start, end)
            start = properties.end() if properties else start
        end = start + len(source[start:end].rstrip())
        place = self.lines.span(start, end) if end > start or key is None else key
        plain = not event.style and event.tag is None
        if plain:
            self._check_plain(start, end)
        data = _typed(event.value) if plain else event.value
        return Located(data, place, start, end, event.value)

    def _check_plain(self, start: int, end: int) -> None:
        """Text that YAML takes for a comment, and list entries that it takes for text."""
        source = self.lines.text
        pattern = _LOST_NUMBER if end > start else _LOST_COLOUR
        if lost := pattern.match(source, end):
            self._found(
                "yaml.comment",
                f"`{lost[1].rstrip()}` is left out: ` #` makes the rest of the line a comment",
                "Put the whole text in quotes; or, if it is a comment, write a space after `#`",
                self.lines.span(*lost.span(1)),
            )
        if entry := _DASH_WITHOUT_SPACE.match(source, start, end):
            self._found(
                "yaml.dash",
                "a space is missing after this dash",
                "Start each entry of a list with a dash and a space",
                self.lines.span(*entry.span(1)),
            )
        elif entry := _SWALLOWED_ENTRY.search(source, start, end):
            self._found(
                "yaml.dash",
                "this dash belongs to the text above it and starts no list",
                "Take the text above away if a list is meant, or put the whole text in quotes",
                self.lines.span(*entry.span(1)),
            )


def _typed(text: str) -> str | int | float | bool | None:
    """A plain scalar's value; only ``true`` and ``false`` are truth values."""
    if text in _WORDS:
        return _WORDS[text]
    if _INTEGER.fullmatch(text):
        return int(text)
    if _DECIMAL.fullmatch(text):
        return float(text)
    return text


def _start(event: Event) -> int:
    """The offset at which an event begins; events from a text always have one."""
    return event.start_mark.index if event.start_mark else 0


def _end(event: Event) -> int:
    return event.end_mark.index if event.end_mark else 0


def _counting_rows(value: Located, *beside: str) -> Located:
    """A gauge, or a step, that says under ``rows`` how many there are: read as ``rounds``, if it
    has a key that such a group has ``beside``."""
    data = value.data
    if not isinstance(data, dict) or "rows" not in data or "rounds" in data:
        return value
    if data.keys().isdisjoint(beside):
        return value
    spans = {("rounds" if n == "rows" else n): span for n, span in value.key_spans.items()}
    children = {("rounds" if n == "rows" else n): each for n, each in value.children.items()}
    return replace(_with(value, children), key_spans=MappingProxyType(spans))


def _with(value: Located, children: Mapping[str | int, Located]) -> Located:
    """A mapping with other values in it."""
    data: Data = {str(name): child.data for name, child in children.items()}
    return replace(value, data=data, children=MappingProxyType(dict(children)))
