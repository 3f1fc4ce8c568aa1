"""Character offsets of a text as lines and columns."""

from bisect import bisect_right

from bindoff import regex as re
from bindoff.diagnostics import Span
from bindoff.records import Record


class Lines(Record):
    """A text, whose lines end in a line feed, with the offset at which each line starts.

    Lines count from 0 here and from 1 in the spans it gives.
    """

    file: str
    text: str
    starts: tuple[int, ...]

    @classmethod
    def of(cls, text: str, file: str) -> "Lines":
        """Index ``text``."""
        return cls(file, text, (0, *(match.end() for match in re.finditer("\n", text))))

    def number(self, offset: int) -> int:
        """The line that holds ``offset``."""
        return bisect_right(self.starts, offset) - 1

    def line(self, number: int) -> str:
        """A line without its line feed."""
        start = self.starts[number]
        return self.text[start : self.end(number)]

    def end(self, number: int) -> int:
        """The offset just past a line's last character."""
        end = self.text.find("\n", self.starts[number])
        return len(self.text) if end < 0 else end

    def span(self, start: int, end: int) -> Span:
        """The place of the characters from ``start`` to ``end`` (exclusive)."""
        first, last = self.number(start), self.number(max(start, end))
        return Span(
            self.file,
            first + 1,
            start - self.starts[first] + 1,
            last + 1,
            max(start, end) - self.starts[last] + 1,
        )

    def line_span(self, number: int) -> Span:
        """The place of a line without the spaces around its text."""
        line, start = self.line(number), self.starts[number]
        return self.span(start + len(line) - len(line.lstrip()), start + len(line.rstrip()))
