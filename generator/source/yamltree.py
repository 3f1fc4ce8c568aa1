"""YAML text as plain data in which every value knows its place in the file."""

from collections.abc import Mapping
from dataclasses import dataclass

from generator.diagnostics import Span

Data = dict[str, "Data"] | list["Data"] | str | int | float | bool | None
Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Located:
    """One value: plain ``data``, its place, and for a scalar the ``text`` as written."""

    data: Data
    span: Span
    text: str | None
    children: Mapping[str | int, "Located"]
    key_spans: Mapping[str, Span]


@dataclass(frozen=True, slots=True)
class YamlTree:
    """A source file's data and places."""

    file: str
    source: str
    root: Located

    @property
    def data(self) -> Data:
        """Plain data; mapping order kept, mapping keys are text."""
        return self.root.data

    def span(self, path: Path, key: bool = False) -> Span:
        """Place of the value (or its key) at ``path``, or of the nearest ancestor that exists."""
        raise NotImplementedError

    def key_span(self, path: Path) -> Span:
        """Place of the key that names the value at ``path``."""
        return self.span(path, key=True)

    def text(self, path: Path) -> str:
        """A scalar's text as written (``1.0`` stays ``1.0``); raises ``KeyError`` otherwise."""
        raise NotImplementedError

    def text_span(self, path: Path) -> Span:
        """Place of a scalar's text without its quotes, to point inside it with ``Span.inside``."""
        raise NotImplementedError

    def place(self, path: Path, start: int, end: int) -> Span:
        """Place of the characters ``start`` to ``end`` of a scalar's text, over lines too."""
        raise NotImplementedError


def read_yaml(text: str, file: str) -> YamlTree:
    """Read one YAML document whose top level is a mapping; raises ``PatternError``."""
    raise NotImplementedError
