"""A text cut into headings and paragraphs, its wrapped lines joined, each with its line."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.diagnostics import Span, fail
from bindoff.draft.headings import Heading, heading_of
from bindoff.draft.lines import Line
from bindoff.files import SAVE_AS_TEXT, foreign_kind
from bindoff.records import Record

LONGEST_TEXT = 400_000
"""Characters; a long book of one pattern has a fifth of them."""

_WIDTHS = range(36, 121)
"""How wide lines are where a text is wrapped; one with longer lines isn't."""

_NEARLY = 0.9
"""Of the width: a line that begins small goes on even where its first word had nearly fitted."""

_MOST_WIDER = 2
"""Lines that may be wider than the others of a wrapped text, such as a footer."""

_NARROW = 60
"""Narrower lines that begin large or with a figure may be those of a list."""

_LONG_ENOUGH = 30
"""Characters of a line below which one that is moved in may go on with it."""

_SHOUTED = 0.7
"""Of all letters: where more are capitals, these mark no headings."""

_BULLET = re.compile(r"(?:[-*•–] |\d{1,2}[.)] )")
_LABEL = re.compile(
    r"(?:\d{1,3}(?:st|nd|rd|th) )?(?:next|last|dec|inc|decrease|increase|set-?up|foundation)? ?"
    r"(?:rows?|rnds?|rounds?)\b[^:]{0,60}:|[A-Z][A-Za-z’' ]{2,30}:|R\d{1,3}\b|"
    r"(?:Next |\d{1,3}(?:st|nd|rd|th) )?(?:Row|Rnd|Round)s?\b|[A-F] [a-z]",
    re.IGNORECASE,
)


class Passage(Record):
    """A heading or a paragraph. ``lines`` says at which character of ``text`` each line begins.

    ``heading`` says what kind of heading it is; ``written`` is how it stands in the text.
    """

    text: str
    lines: tuple[tuple[int, int], ...]
    heading: Heading | None = None
    written: str = ""

    @property
    def is_heading(self) -> bool:
        """Whether it is one."""
        return self.heading is not None

    def line_at(self, character: int) -> int:
        """The line of the file on which that character of ``text`` stands."""
        return max((line for start, line in self.lines if start <= character), default=1)

    @property
    def line(self) -> int:
        """The line on which it begins."""
        return self.lines[0][1]


def refuse_other_kinds(data: bytes, file: str) -> str:
    """The text of a file.

    Raises ``PatternError`` where it is no plain text (``draft.kind``, ``draft.encoding``), too
    long or empty (``draft.long``, ``draft.empty``).
    """
    if kind := foreign_kind(data):
        raise fail("draft.kind", f"`{file}` is {kind}, not plain text", SAVE_AS_TEXT)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        try:
            text = data.decode("cp1252")
        except UnicodeDecodeError:
            message = f"`{file}` is neither UTF-8 nor Windows text"
            raise fail("draft.encoding", message, SAVE_AS_TEXT) from None
    if "\0" in text:
        raise fail("draft.kind", f"`{file}` is not plain text", SAVE_AS_TEXT)
    if len(text) > LONGEST_TEXT:
        message = f"`{file}` has {len(text):,} characters, and {LONGEST_TEXT:,} are read at most"
        raise fail("draft.long", message, "Keep the text of one pattern in a file")
    if not text.strip():
        raise fail("draft.empty", f"`{file}` is empty", "Paste the text of a pattern into it")
    return text


def passages(lines: Sequence[Line]) -> Iterator[Passage]:
    """Headings and paragraphs in their order."""
    letters = [mark for line in lines for mark in line.text if mark.isalpha()]
    shouted = sum(mark.isupper() for mark in letters) > _SHOUTED * max(1, len(letters))
    longest = sorted((len(line.text) for line in lines), reverse=True)
    width = longest[min(_MOST_WIDER, len(longest) // 8)] if longest else 0
    gathered: list[Line] = []
    for at, line in enumerate(lines):
        above = lines[at - 1].text if at else ""
        below = lines[at + 1].text if at + 1 < len(lines) else ""
        heading = heading_of(line, above, below, shouted)
        if gathered and (not line.text or heading or not _goes_on(gathered, line, width)):
            yield _joined(gathered)
            gathered = []
        if heading:
            yield Passage(heading.text, ((0, line.number),), heading, line.text)
        elif line.text:
            gathered.append(line)
    if gathered:
        yield _joined(gathered)


def _goes_on(gathered: list[Line], line: Line, width: int) -> bool:
    """Whether ``line`` goes on with those above it: in a text wrapped at that width, its first
    word didn't fit there; or it is moved in, below a line that isn't; or a comma goes before it."""
    above = gathered[-1]
    if _BULLET.match(line.text) or _is_labelled(line.text):
        return False
    hangs = line.indent > gathered[0].indent and above.text[-1] not in ".:;!?"
    starts = line.text[:1].islower() or _LABEL.match(gathered[0].text)
    if hangs and (starts or len(above.text) > _LONG_ENOUGH):
        return True
    if above.text.endswith(",") and (line.text[:1].islower() or line.text[:1] in "*(["):
        return True
    if width not in _WIDTHS or (width < _NARROW and not line.text[:1].islower()):
        return False
    within = line.text[:1].islower() and above.text[-1] not in ".:;!?"
    return len(above.text) + 1 + len(line.text.split()[0]) > (_NEARLY * width if within else width)


def _is_labelled(text: str) -> bool:
    """Whether a line begins with a label; a small *row* without a number is a word like others."""
    small = text[:1].islower() and not re.match(r"[a-z]+ \d", text)
    return bool(_LABEL.match(text)) and not small


def _joined(gathered: list[Line]) -> Passage:
    text, starts = "", list[tuple[int, int]]()
    for line in gathered:
        text += " " if text else ""
        starts.append((len(text), line.number))
        text += line.text
    return Passage(text, tuple(starts))


def place(file: str, line: int, text: str) -> Span:
    """The place of a passage or sentence in its file, for a finding."""
    return Span(file, line, 1, line, 1 + max(1, len(text)))
