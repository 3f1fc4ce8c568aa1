"""A text cut into headings and paragraphs, its wrapped lines joined, each with its line."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.diagnostics import Span, fail
from bindoff.files import SAVE_AS_TEXT, foreign_kind
from bindoff.records import Record

LONGEST_TEXT = 400_000
"""Characters; a long book of one pattern has a fifth of them."""

_WIDTHS = range(50, 121)
"""How wide lines are where a text is wrapped; one with longer lines isn't."""

_NEARLY = 0.9
"""Of the width: a line that begins small goes on even where its first word had nearly fitted."""

_MOST_HEADING_WORDS = 5

KNOWN_PARTS = frozenset(
    (
        "brim", "body", "crown", "cuff", "leg", "heel", "foot", "toe", "gusset", "hand", "thumb",
        "fingers", "back", "front", "sleeve", "sleeves", "yoke", "neck", "neckband", "collar",
        "hem", "edging", "border", "hat", "cowl", "scarf", "shawl", "mitten", "mittens", "sock",
        "socks", "panel", "strip", "flap", "band", "pocket", "instructions", "directions",
    )
)  # fmt: skip

_BULLET = re.compile(r"(?:[-*•–] |\d{1,2}\) )")
_LABEL = re.compile(
    r"(?:next|last|dec|inc|decrease|increase|set-?up|foundation)? ?"
    r"(?:rows?|rnds?|rounds?)\b[^:]{0,60}:|[A-Z][A-Za-z’' ]{2,30}:",
    re.IGNORECASE,
)


class Passage(Record):
    """A heading or a paragraph. ``lines`` says at which character of ``text`` each line begins."""

    text: str
    is_heading: bool
    lines: tuple[tuple[int, int], ...]

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


def passages(text: str) -> Iterator[Passage]:
    """Headings and paragraphs of ``text`` in their order."""
    lines = [_plain(line) for line in text.splitlines()]
    width = max(map(len, lines), default=0)
    gathered: list[tuple[int, str]] = []
    for number, line in enumerate(lines, start=1):
        before = lines[number - 2] if number > 1 else ""
        after = lines[number] if number < len(lines) else ""
        heading = _heading(line, before, after)
        if gathered and (not line or heading or not _goes_on(gathered[-1][1], line, width)):
            yield _joined(gathered)
            gathered = []
        if heading:
            yield Passage(heading, True, ((0, number),))
        elif line:
            gathered.append((number, line))
    if gathered:
        yield _joined(gathered)


def _plain(line: str) -> str:
    """A line without the marks of Markdown for bold, lists' bullets kept."""
    line = line.replace("\u00a0", " ").replace("\\*", "*").replace("**", "").replace("__", "")
    return re.sub(r"\s+", " ", line).strip()


def _heading(line: str, before: str, after: str) -> str:
    """The words of the heading that a line is, nothing where it is none."""
    if line.startswith("#"):
        return line.strip("# ")
    words = line.rstrip(":").split()
    if not words or len(words) > _MOST_HEADING_WORDS or line[-1] in ".;,!?)":
        return ""
    if any(mark.isdigit() for mark in line) or _BULLET.match(line):
        return ""
    bare = " ".join(words)
    if bare.isupper() and len(bare) > 2:
        return bare.capitalize()
    begins = not before and line[:1].isupper() and bool(after)
    known = words[0].lower() in KNOWN_PARTS and line[:1].isupper() and not before
    return bare if begins or known else ""


def _goes_on(above: str, line: str, width: int) -> bool:
    """Whether ``line`` goes on with the one above it: in a text wrapped at that width, its first
    word didn't fit there."""
    if width not in _WIDTHS or _BULLET.match(line) or _LABEL.match(line):
        return False
    within = line[:1].islower() and above[-1] not in ".:;!?"
    return len(above) + 1 + len(line.split()[0]) > (_NEARLY * width if within else width)


def _joined(gathered: list[tuple[int, str]]) -> Passage:
    text, starts = "", list[tuple[int, int]]()
    for number, line in gathered:
        text += " " if text else ""
        starts.append((len(text), number))
        text += line
    return Passage(text, False, tuple(starts))


def place(file: str, line: int, text: str) -> Span:
    """The place of a passage or sentence in its file, for a finding."""
    return Span(file, line, 1, line, 1 + max(1, len(text)))
