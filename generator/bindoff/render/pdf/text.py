"""Setting text: inlines to measured words, words to lines, lines to the page.

Text is set ragged right. Line breaks are chosen for the paragraph as a whole (fewest lines, then
the least ragged ones), after the total-fit method of Knuth and Plass, "Breaking paragraphs into
lines", Software: Practice and Experience 11 (1981), without stretching. Words are parted only where
a line would be badly ragged otherwise, and never one like ``k2tog``.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from itertools import accumulate, chain, groupby, pairwise
from operator import attrgetter
from typing import Literal, NamedTuple

from bindoff import regex as re
from bindoff.document.discs import alone, half_width
from bindoff.document.tree import (
    Emphasis,
    Field,
    Inlines,
    LineBreak,
    Link,
    Ringed,
    SizeValues,
    Strong,
    Text,
    in_print,
)
from bindoff.records import Record, replace
from bindoff.render.pdf.drawing import paint_drawing
from bindoff.render.pdf.fonts import clean, covered, face, shape, styled
from bindoff.render.pdf.hyphens import Hyphens, partable
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.theme import MM, Look, TextStyle, Theme

NBSP = "\N{NO-BREAK SPACE}"
_TICK_SPACES, _FIGURE_SPACES = 6, 3  # how wide fields are: a figure is about three spaces
_LIST_GAP = f",{NBSP}"  # between the figures of a list
Align = Literal["left", "right", "centre"]

_SHORT_LIST = 26  # characters of a list of size values for which a column of a table makes room
_UNIT = re.compile(r"(?<=[0-9½¼¾⅓⅔)]) (?=(?:cm|mm|m|km|g|kg|in|yd|oz|lb|%|×|pt)(?![\w-]))")
_SIGN = re.compile(r"(?<=\S) (?=[/–—=×·](?: |$))")  # stands at a line's end, not at its start
_PIECE = re.compile(r" +|\n|\N{ZERO WIDTH SPACE}|[^ \n\N{ZERO WIDTH SPACE}]+ ?")
_INNER = re.compile(r"(?<=\w\w[-–/])(?=\w\w)|(?<=—)(?=\w)|(?<=[/.?&=_])(?=\w{3})")
_AFTER_NUMBER = 0.15  # cost of parting a number or an abbreviation from the words it goes with,
_BEFORE_NUMBER = 0.04  # and from the one that names it
_ABBREVIATION = re.compile(r"[^\W\d_aeiouyAEIOUY]+")  # such as the k of k to end: no word
_RUNT = 0.35  # cost of a last line that is nearly empty
_RAGGED = 0.22  # of the width: a line that stays this much shorter is worth parting words,
_PARTED = 0.02  # at this cost for each
_SOFT = "\N{SOFT HYPHEN}"
_MARKS = ".,;:!?)(”“’‘\"'–"
_LOOK_AND_LINK = attrgetter("look", "link")


class TextRun(NamedTuple):
    """Characters of one look; ``link`` is the tag they have to themselves: that of a link, or of
    words in another language."""

    text: str
    look: Look
    link: Tag | None = None


class _Part(NamedTuple):
    """Part of a word in one look, measured in points."""

    text: str
    look: Look
    link: Tag | None
    width: float
    kerns: tuple[int, ...] | None


class Word(NamedTuple):
    """What is not broken. ``space`` follows it within a line; ``forced`` ends the line.

    ``hyphen`` stands after it at a line's end only.
    """

    parts: tuple[_Part, ...]
    width: float
    space: _Part | None
    forced: bool = False
    cost: float = 0.0
    hyphen: _Part | None = None

    @property
    def gap(self) -> float:
        """The width of the space after it."""
        return self.space.width if self.space else 0.0

    @property
    def end(self) -> float:
        """Its width at the end of a line."""
        return self.width + self.hyphen.width if self.hyphen else self.width


class Known(tuple[Word, ...]):
    """The words of a text without links, of which there is one for each text that is equal; so what
    follows from it is found again at once. Those of a text with links are none, as every link has a
    tag of its own."""

    __slots__ = ()
    __eq__ = object.__eq__
    __hash__ = object.__hash__


class Line(Record):
    """A set line: pieces with their distance from its left end."""

    pieces: tuple[tuple[float, _Part], ...]
    width: float


# ------------------------------------------------------------ inlines to words


def runs(
    inlines: Inlines, style: TextStyle, theme: Theme, tag_of: Callable[[Link], Tag]
) -> list[TextRun]:
    """``inlines`` as runs; ``tag_of`` makes the tag of a link or refuses it."""
    if len(inlines) == 1 and isinstance(inlines[0], Text) and not inlines[0].language:
        return [TextRun(_bound(inlines[0].text, ""), style.look)]  # as in most cells of a table
    found: list[TextRun] = []

    def walk(nodes: Inlines, look: Look, link: Tag | None) -> None:
        for node in nodes:
            match node:
                case Text(text, language):
                    before = found[-1].text[-1:] if found else ""
                    own = Tag("Span", language=language, within=link) if language else link
                    found.append(TextRun(_bound(text, before), look, own))
                case Strong(children):
                    walk(children, replace(look, face=styled(look.face, True, False)), link)
                case Emphasis(children):
                    walk(children, replace(look, face=styled(look.face, *theme.emphasis)), link)
                case Link(children, _):
                    walk(children, look, tag_of(node))  # a line under it marks it
                case SizeValues(values):
                    found.append(TextRun(_size_values(values), look, link))
                case Ringed(letters):
                    for at, letter in enumerate(letters):
                        found.extend([TextRun(" ", look, link)] if at else [])
                        found.append(TextRun(letter, replace(look, ring=True), link))
                case LineBreak():
                    found.append(TextRun("\n", look, link))
                case Field(name, label, kind, width):
                    tag = Tag("Form", target=name, contents=label, ticks=kind == "tick")
                    room = NBSP * (_TICK_SPACES if tag.ticks else width * _FIGURE_SPACES)
                    found.append(TextRun(room, look, tag))

    walk(inlines, style.look, None)
    return found


@lru_cache(maxsize=4096)
def _bound(text: str, before: str) -> str:
    """``text`` clean, with units bound to their numbers and signs to what is ``before``."""
    return _SIGN.sub(NBSP, _UNIT.sub(NBSP, before + clean(text)))[len(before) :]


def _size_values(values: tuple[str, ...]) -> str:
    """``80 (88, 96)`` in one piece; ``_lines`` parts it after a comma where no line can hold it."""
    return clean(in_print(values)).replace(" ", NBSP)


def words(runs: Sequence[TextRun]) -> Sequence[Word]:
    """Measure ``runs`` and cut them where a line may end."""
    if any(run.link for run in runs):
        return _words(runs)
    return _known_words(tuple(runs))


@lru_cache(maxsize=1 << 12)
def _known_words(runs: tuple[TextRun, ...]) -> Known:
    """Remembered, because a table is measured for several widths and repeats its figures, and an
    edit leaves nearly all texts as they were."""
    return Known(_words(runs))


def _words(runs: Sequence[TextRun]) -> list[Word]:
    found: list[Word] = []
    parts: list[_Part] = []

    def end(space: _Part | None = None, forced: bool = False) -> None:
        if parts or forced:
            found.append(_word(parts, space, forced))
            parts.clear()

    for run in runs:
        for piece in _PIECE.findall(run.text):
            if piece == "\n":
                end(_space(run) if parts else None, forced=True)
            elif piece == "\N{ZERO WIDTH SPACE}":
                end()
            elif piece[0] == " ":
                if parts:
                    end(_space(run))
                elif found and found[-1].space is None and not found[-1].forced:
                    found[-1] = found[-1]._replace(space=_space(run))
            elif piece[-1] == " " and not parts and not run.link:
                found += _known_pieces(piece, run.look)
            else:
                first, *further = _bits(piece.rstrip(" "), run)
                parts.extend(first)
                for bit in further:
                    end()
                    parts.extend(bit)
                if piece[-1] == " ":
                    end(_space(run))
    end()
    for index, (one, following) in enumerate(pairwise(found)):
        if one.space and following.parts and (cost := _parting(one, following)):
            found[index] = one._replace(cost=cost)
    return found


def _word(parts: Sequence[_Part], space: _Part | None, forced: bool = False) -> Word:
    return Word(tuple(parts), sum(part.width for part in parts), space, forced)


def _space(run: TextRun) -> _Part:
    return _measured(" ", run.look, run.link)


@lru_cache(maxsize=1 << 13)
def _known_pieces(piece: str, look: Look) -> tuple[Word, ...]:
    """A whole word and the space after it, cut where a line may end; the same few words come again
    and again in rows."""
    run = TextRun(piece[:-1], look)
    *begun, last = _bits(run.text, run)
    return (*(_word(bit, None) for bit in begun), _word(last, _space(run)))


def _parting(one: Word, following: Word) -> float:
    """The cost of ending a line between two words."""
    last = one.parts[-1].text[-1]
    if last.isdigit() or last == ")" or _ABBREVIATION.fullmatch(one.parts[-1].text):
        return _AFTER_NUMBER
    if last not in ",;:." and following.parts[0].text[0].isdigit():
        return _BEFORE_NUMBER
    return 0.0


def _bits(text: str, run: TextRun) -> list[list[_Part]]:
    """What has no space in it, cut where a line may end, each in parts of one face."""
    return [list(_parts(bit, run)) for bit in _INNER.split(text)]


def _parts(text: str, run: TextRun) -> Iterable[_Part]:
    for piece, name in covered(text, run.look.face):
        look = run.look if name == run.look.face else replace(run.look, face=name)
        yield _measured(piece, look, run.link)


def _measured(text: str, look: Look, link: Tag | None) -> _Part:
    if look.ring:
        return _Part(text, look, link, 2 * half_width(text, look.size), None)
    width, kerns = shape(text, look.face)
    return _Part(text, look, link, width * look.size, kerns)


def widest(words: Sequence[Word]) -> float:
    """The width of ``words`` on as few lines as their forced breaks allow."""
    if len(words) == 1:
        return words[0].width
    return _known_widest(words) if isinstance(words, Known) else _widest(words)


def _widest(words: Sequence[Word]) -> float:
    ends = _forced_ends(words)
    return max(
        (_parts_of(words[start:end], end < len(words))[1] for start, end in pairwise((0, *ends))),
        default=0.0,
    )


_known_widest = lru_cache(maxsize=1 << 12)(_widest)


def narrowest(words: Sequence[Word]) -> float:
    """The width of the widest word, or of the widest figure of a long list."""
    return max((_least(word) for word in words), default=0.0)


def _least(word: Word) -> float:
    if sum(len(part.text) for part in word.parts) <= _SHORT_LIST:
        return word.width
    return max(piece.width for piece in _figures(word))


def _figures(word: Word) -> list[Word]:
    """A list of figures for each size as words that end at its commas; others as they are."""
    if not any(_LIST_GAP in part.text for part in word.parts):
        return [word]
    found: list[Word] = []
    parts: list[_Part] = []
    for part in word.parts:
        *ended, rest = part.text.split(_LIST_GAP)
        for text in ended:
            parts.append(_measured(f"{text},", part.look, part.link))
            width = sum(each.width for each in parts)
            found.append(Word(tuple(parts), width, _measured(NBSP, part.look, part.link)))
            parts = []
        if rest:
            parts.append(_measured(rest, part.look, part.link))
    return [*found, word._replace(parts=tuple(parts), width=sum(each.width for each in parts))]


# ------------------------------------------------------------ words to lines


def lines(
    words: Sequence[Word], width: float, balance: bool = False, hyphens: Hyphens | None = None
) -> list[Line]:
    """Break ``words`` into lines of at most ``width``; ``balance`` evens the last one too.

    A word wider than a line is cut between figures, or else characters. ``hyphens`` lets words be
    parted.
    """
    if isinstance(words, Known):
        return list(_known_lines(words, width, balance, hyphens))
    return _set_lines(words, width, balance, hyphens)


@lru_cache(maxsize=1 << 12)
def _known_lines(
    words: Known, width: float, balance: bool, hyphens: Hyphens | None
) -> tuple[Line, ...]:
    return tuple(_set_lines(words, width, balance, hyphens))


def _set_lines(
    words: Sequence[Word], width: float, balance: bool, hyphens: Hyphens | None
) -> list[Line]:
    if len(words) == 1 and words[0].width <= width:
        return [Line(tuple(_joined(words[0].parts)), words[0].width)]
    found = _lines(words, width, balance)
    if hyphens and (
        any(word.width > width and _least(word) > width for word in words)
        or any(_too_ragged(*both, width) for both in pairwise(found))
    ):
        pieces = [piece for word in words for piece in _syllables(word, hyphens)]
        if len(pieces) > len(words):
            return _lines(pieces, width, balance)
    return found


def _too_ragged(line: Line, following: Line, width: float) -> bool:
    """Whether part of the word that begins the following line would be better in this one."""
    first = following.pieces[0][1].text.split()[:1] if following.pieces else []
    return line.width < width * (1 - _RAGGED) and bool(first) and partable(first[0].strip(_MARKS))


def _lines(words: Sequence[Word], width: float, balance: bool) -> list[Line]:
    if any(word.width > width for word in words):
        words = [
            crumb
            for word in words
            for piece in (_figures(word) if word.width > width else (word,))
            for crumb in _crumbled(piece, width)
        ]
    start = 0
    ends: list[int] = []
    for stop in _forced_ends(words):
        ends += [start + end for end in _best_ends(words[start:stop], width, balance)]
        start = stop
    return _cut(words, ends)


def _forced_ends(words: Sequence[Word]) -> list[int]:
    ends = [index for index, word in enumerate(words, 1) if word.forced]
    if words and not words[-1].forced:
        ends.append(len(words))
    return ends


def _best_ends(words: Sequence[Word], width: float, balance: bool) -> list[int]:
    """Where to end lines so that there are few and they are even."""
    count = len(words)
    if sum(word.width + word.gap for word in words[:-1]) + words[-1].end <= width + 0.01:
        return [count]  # one line never costs more than two
    begins = [0.0, *accumulate(word.width + word.gap for word in words)]
    best = [0.0] + [float("inf")] * count
    came = [0] * (count + 1)
    full = width + 0.01
    fullest = 0  # where the longest line begins that ends at a word
    for end, word in enumerate(words, 1):
        least, first = float("inf"), 0
        last, loose = end == count, end < count or balance
        reach = begins[end - 1] + word.end
        while fullest < end - 1 and reach - begins[fullest] > full:
            fullest += 1
        floor = min(best[fullest:end]) + 1.0
        for start in range(fullest, end):
            filled = reach - begins[start]
            slack = (width - filled) / width if filled < width else 0.0
            cost = best[start] + 1.0
            if loose:
                if floor + slack * slack > least:
                    break  # shorter lines only cost more
                cost += slack * slack
            elif start and slack > 0.85:
                cost += _RUNT
            if cost <= least:
                least, first = cost, start
        best[end], came[end] = least if last else least + word.cost, first
    ends: list[int] = []
    at = count
    while at:
        ends.append(at)
        at = came[at]
    return ends[::-1]


def _syllables(word: Word, hyphens: Hyphens) -> list[Word]:
    """A word of one look as the pieces it may be parted in."""
    if len(word.parts) != 1 or word.parts[0].link:
        return [word]
    part = word.parts[0]
    bare = part.text.strip(_MARKS)
    before = part.text.find(bare)
    cuts = [before + place for place in hyphens(bare)] if bare else []
    if not cuts:
        return [word]
    texts = [part.text[start:stop] for start, stop in pairwise((0, *cuts, len(part.text)))]
    hyphen = _measured(_SOFT, part.look, None)
    found = []
    for text in texts:
        piece = _measured(text, part.look, None)
        found.append(Word((piece,), piece.width, None, cost=_PARTED, hyphen=hyphen))
    found[-1] = word._replace(parts=found[-1].parts, width=found[-1].width)
    return found


def _crumbled(word: Word, width: float) -> list[Word]:
    """A word that fits no line, as words of one character each; others untouched."""
    if word.width <= width:
        return [word]
    letters = [
        _measured(character, part.look, part.link) for part in word.parts for character in part.text
    ]
    return [
        Word(
            (letter,),
            letter.width,
            word.space if last else None,
            word.forced and last,
        )
        for letter, last in (
            (letter, index == len(letters)) for index, letter in enumerate(letters, 1)
        )
    ]


def _cut(words: Sequence[Word], ends: Sequence[int]) -> list[Line]:
    return [_line(words[start:end], end < len(words)) for start, end in pairwise((0, *ends))]


def _line(words: Sequence[Word], more: bool) -> Line:
    parts, width = _parts_of(words, more)
    return Line(tuple(_joined(parts)), width)


def _parts_of(words: Sequence[Word], more: bool) -> tuple[list[_Part], float]:
    """A line's parts and width. If it is not the last it keeps its final space, unseen, for the
    ear."""
    parts: list[_Part] = []
    for index, word in enumerate(words, 1):
        parts += word.parts
        if word.space and (index < len(words) or more):
            parts.append(word.space)
        if word.hyphen and more and index == len(words):
            parts.append(word.hyphen)
    width = sum(part.width for part in parts)
    if words and more and words[-1].space:
        width -= words[-1].gap
    return parts, width


def _joined(parts: Sequence[_Part]) -> Iterable[tuple[float, _Part]]:
    """Neighbouring parts of one look as one piece, with their places."""
    if len(parts) == 1:
        yield 0.0, parts[0]
        return
    x = 0.0
    for (look, link), alike in groupby(parts, key=_LOOK_AND_LINK):
        group = list(alike)
        width = sum(part.width for part in group)
        kerns = None
        if any(part.kerns for part in group):
            kerns = tuple(chain.from_iterable(p.kerns or (0,) * len(p.text) for p in group))
        yield x, _Part("".join(part.text for part in group), look, link, width, kerns)
        x += width


# ------------------------------------------------------------ lines to the page


def baseline(style: TextStyle, top: float) -> float:
    """The baseline of a line whose strip begins at ``top``: capitals stand in its middle."""
    return top - (style.leading + face(style.face).cap_height * style.size) / 2


def paint_line(
    writer: Writer,
    line: Line,
    tag: Tag | None,
    x: float,
    y: float,
    room: float = 0.0,
    align: Align = "left",
) -> None:
    """Draw ``line`` with its baseline at ``y``; without a tag it joins whatever is open."""
    if align == "right":
        x += room - line.width
    elif align == "centre":
        x += (room - line.width) / 2
    for offset, part in line.pieces:
        left = x + offset
        if part.link is not None and part.link.role == "Form":
            _paint_field(writer, part, tag, left, y)
            continue
        link = part.link and (part.link.within or part.link)
        if tag is not None:
            if link is not None and part.link is not None:
                tag.adopt(link)
                if link is not part.link:
                    link.adopt(part.link)
            writer.tag(part.link or tag)
        size = part.look.size
        if part.look.ring:
            paint_ring(writer, part.text, size, left, y)
            continue
        font = face(part.look.face).font
        writer.text(font, size, part.look.colour, (left, y), part.text, part.kerns)
        if link is not None and link.role == "Link" and tag is not None:
            seen = left + part.width - (size * 0.2 if part.text.endswith(" ") else 0.0)
            writer.line(left, y - size * 0.16, seen, y - size * 0.16, part.look.colour, 0.4)
            writer.link(link, (left, y - size * 0.28, seen, y + size * 0.85))


def paint_ring(writer: Writer, letter: str, size: float, left: float, y: float) -> None:
    """A letter in its ring, around the middle of a capital on the baseline at ``y``."""
    ring = alone(letter, size / MM)
    middle = y + face("sans-bold").cap_height * size / 2
    paint_drawing(writer, ring, left, middle + ring.height * MM / 2, 1.0)


def _paint_field(writer: Writer, part: _Part, tag: Tag | None, left: float, y: float) -> None:
    """A place to fill in, as high as a line; a square to tick."""
    assert part.link is not None
    size = part.look.size
    low, high = y - size * 0.3, y + size * 0.9
    right = left + (high - low if part.link.ticks else part.width)
    if tag is not None:
        tag.adopt(part.link)
    writer.field(part.link, (left, low, right, high))
