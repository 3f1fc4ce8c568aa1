"""A text that is rewritten piece by piece and still knows where each of its characters is from."""

from collections.abc import Callable, Iterable

from bindoff import regex as re
from bindoff.records import Record

_GROUP = re.compile(r"\\(\d)")

Template = str | Callable[[re.Match[str]], str | None]
"""What a match becomes: a text with ``\\1`` for its groups, or a function that makes one, or
``None`` where the match stays as it is."""


class Written(Record):
    """``text``, and for each of its characters the start and end of what it was written as."""

    text: str
    places: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, text: str, plain: str) -> "Written":
        """``plain``, which has as many characters as the ``text`` it is made from."""
        assert len(text) == len(plain)
        return cls(plain, tuple((i, i + 1) for i in range(len(text))))

    def origin(self, start: int, end: int) -> tuple[int, int]:
        """Where the characters from ``start`` to ``end`` come from; the end is exclusive."""
        own = self.places[start:end]
        if own:
            return min(first for first, _ in own), max(last for _, last in own)
        if start < len(self.places):
            return (self.places[start][0],) * 2
        return (self.places[-1][1] if self.places else 0,) * 2

    def part(self, start: int, end: int | None = None) -> "Written":
        """The characters from ``start`` to ``end``."""
        return Written(self.text[start:end], self.places[start:end])

    def sub(self, pattern: re.Pattern[str], template: Template) -> "Written":
        """Every match of ``pattern`` rewritten; what a group holds keeps its place."""
        pieces, at = list[Written](), 0
        for match in pattern.finditer(self.text):
            made = template if isinstance(template, str) else template(match)
            if made is None:
                continue
            pieces += [self.part(at, match.start()), *self._filled(match, made)]
            at = match.end()
        return _joined([*pieces, self.part(at)]) if pieces else self

    def edited(self, edits: Iterable[tuple[int, int, str]]) -> "Written":
        """Each edit's characters from its start to its end replaced by its text."""
        pieces, at = list[Written](), 0
        for start, end, text in sorted(edits):
            pieces += [self.part(at, start), self._literal(text, start, end)]
            at = end
        return _joined([*pieces, self.part(at)])

    def _filled(self, match: re.Match[str], template: str) -> Iterable["Written"]:
        for i, piece in enumerate(_GROUP.split(template)):
            if i % 2 == 0:
                yield self._literal(piece, match.start(), match.end())
            elif match[int(piece)] is not None:
                yield self.part(*match.span(int(piece)))

    def _literal(self, text: str, start: int, end: int) -> "Written":
        return Written(text, (self.origin(start, end),) * len(text))


def _joined(pieces: Iterable[Written]) -> Written:
    pieces = tuple(pieces)
    return Written(
        "".join(piece.text for piece in pieces),
        tuple(place for piece in pieces for place in piece.places),
    )
