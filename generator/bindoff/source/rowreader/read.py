"""Reads a row as a knitter wrote it: by the strict grammar, or put into our one form first."""

import re
from collections.abc import Callable, Collection
from dataclasses import dataclass, replace
from enum import StrEnum

from bindoff.craft.book import Craft, StitchBook
from bindoff.diagnostics import PatternError, Span, fail
from bindoff.source.rowlang.parse import lexed, parse_row, within
from bindoff.source.rowlang.problems import Place
from bindoff.source.rowlang.syntax import (
    Group,
    Hooked,
    InNext,
    IntoOne,
    Marker,
    Part,
    Reading,
    Row,
    Stated,
    Turn,
    Work,
)
from bindoff.source.rowlang.uses import numbers_used
from bindoff.source.rowlang.vocabulary import Vocabulary
from bindoff.source.rowreader.frames import Label, Said, labelled, stated
from bindoff.source.rowreader.hooks import chain_over_skipped, in_places
from bindoff.source.rowreader.joints import OpenRepeat, unglued, with_commas, with_repeats
from bindoff.source.rowreader.tables import (
    CLEANING,
    GOALS,
    JOINTS,
    NUMBER_WORDS,
    OLD,
    REMARKS,
    SIGNS,
    STITCHES,
    TENS,
    TIMES,
    Table,
    pattern,
)
from bindoff.source.rowreader.written import Written


class Words(StrEnum):
    """Whose words a pattern's rows are written in."""

    MODERN = "modern"
    OLD = "old"


def read_row(
    text: str,
    span: Span | Callable[[int, int], Span],
    book: StitchBook,
    yarns: Collection[str] = (),
    *,
    sizes: int | None = None,
    words: Words = Words.MODERN,
) -> Row:
    """The row that ``text`` says.

    ``span``, ``book`` and ``yarns`` as for ``parse_row``; ``sizes`` is how many sizes the pattern
    has. What the strict grammar reads is read by it, and never rewritten, unless the pattern has
    old words, where some mean another stitch. Raises ``PatternError``.
    """
    if words is Words.MODERN:
        try:
            row = parse_row(text, span, book, yarns)
            refuse_other_sizes(row, sizes)
            return row
        except PatternError as error:
            if error.findings[0].id in _FINAL:
                raise
            strictly = error
    else:
        strictly = None
    reader = _Reader(book, yarns, within(span) if isinstance(span, Span) else span, sizes, words)
    row = reader.row(text, strictly)
    refuse_other_sizes(row, sizes)
    return row


_FINAL = frozenset({"row.empty", "row.long", "row.sizes"})


def refuse_other_sizes(row: Row, sizes: int | None) -> None:
    """Raises a ``PatternError`` where ``row`` lists figures for other than ``sizes`` sizes."""
    lists = [(len(each.values), each.span) for each in numbers_used(row) if each.values]
    if row.reading is not None:
        said = row.reading.stated
        lists += [(len(each.counts), each.span) for each in said if len(each.counts) > 1]
    for count, span in lists:
        if sizes is not None and count != sizes:
            raise fail(
                "row.sizes",
                f"{count} figures are listed here, and the pattern has "
                f"{sizes} size{'' if sizes == 1 else 's'}",
                "List a figure for each size, as in `k10 (11, 12)` for three",
                span,
            )


@dataclass(frozen=True, slots=True)
class _Reader:
    book: StitchBook
    yarns: Collection[str]
    place: Place
    sizes: int | None
    words: Words

    @property
    def vocabulary(self) -> Vocabulary:
        return Vocabulary(self.book, {yarn.lower(): yarn for yarn in self.yarns})

    def row(self, text: str, strictly: PatternError | None) -> Row:
        """The row, or the error of whichever reading came further."""
        plain = text.lower()
        if len(plain) != len(text):
            plain = "".join(c.lower() if len(c.lower()) == 1 else c for c in text)
        start = Written.of(text, plain)
        written = _by(start, SIGNS)
        written = _in_figures(written)
        written, label = labelled(written)
        written, counts = stated(written, self.sizes)
        written = self.worded(written)
        self.refuse(written)
        try:
            written, guessed = with_repeats(written, self.uses)
        except OpenRepeat as error:
            raise self.open_repeat(written, error) from None
        written = with_commas(_by(written, CLEANING), self.vocabulary, lexed)
        if strictly is not None and _same(written.text, plain):
            raise strictly
        try:
            row = parse_row(written.text, self.placed(written), self.book, self.yarns)
        except PatternError as error:
            raise (strictly if strictly and _early(error) else error) from None
        return replace(row, reading=self.reading(written.text, label, counts, guessed=guessed))

    def worded(self, written: Written) -> Written:
        """The words of ``written`` in our spelling; what holds them together is left."""
        written = _by(written, REMARKS)
        written = _by(written, JOINTS)
        written = unglued(written, self.vocabulary)
        written = written.sub(_LISTED, _listed)
        if self.words is Words.OLD:
            written = _by(written, OLD)
        written = _by(written, STITCHES)
        written = _by(written, TIMES)
        written = _by(written, GOALS)
        written = in_places(written, self.book)
        written = written.sub(_RIBBED, r"[\1] ")
        return written.sub(_IN_EACH, self.in_each)

    def in_each(self, match: re.Match[str]) -> str | None:
        """``kfb in each stitch`` is ``kfb to end``; crochet keeps its places."""
        said = self.vocabulary.stitch(match["stitch"])
        if said is None or said.stitch.craft is Craft.CROCHET or said.number not in (None, 1):
            return None
        stitch = match["stitch"].removesuffix("1") if said.number == 1 else match["stitch"]
        place = match["place"]
        if place.startswith(("each", "every")):
            return stitch if re.match(r"[ ,]*(?:to|around)\b", match.string[match.end() :]) else (
                f"{stitch} to end"
            )
        at_start = not match.string[: match.start()].strip(" ,;*[(")
        at_end = not match.string[match.end() :].strip(" ,;.") and re.search(
            r"to last stitch(?:es)?[ ,;]*$|to last 1 stitches[ ,;]*$", match.string[: match.start()]
        )
        fits = place.startswith("next") or (place.startswith("first") and at_start) or (
            place.startswith("last") and at_end
        )
        return match["stitch"] if fits else None

    def uses(self, written: Written) -> int | None:
        """How many stitches the words use, if they are a fixed number of stitches."""
        written = with_commas(_by(written, CLEANING), self.vocabulary, lexed)
        try:
            row = parse_row(written.text, self.placed(written), self.book, self.yarns)
        except PatternError:
            return None
        return _used(row.parts, self.book)

    def placed(self, written: Written) -> Place:
        """The place of characters of ``written``."""
        return lambda start, end: self.place(*written.origin(start, end))

    def reading(
        self, text: str, label: Label | None, counts: tuple[Said, ...], *, guessed: bool
    ) -> Reading:
        """What the row was read as."""
        said = tuple(
            Stated(each.counts, each.sign, self.place(each.start, each.end)) for each in counts
        )
        several = label.text if label and label.several else ""
        return Reading(text, said, several, guessed)

    def refuse(self, written: Written) -> None:
        """Raises a ``PatternError`` for what the trade writes and no reader can know."""
        for rule, id, message, help in _REFUSED:
            if found := rule.search(written.text):
                place = self.place(*written.origin(*found.span()))
                raise fail(f"row.{id}", message.format(found[0].strip()), help, place)
        if found := chain_over_skipped(written.text):
            raise fail(
                "row.chain-count",
                "chains stand over skipped stitches, and may count as stitches or not",
                "Declare the two as a stitch of your own under `stitches:`, with what it uses and "
                "makes",
                self.place(*written.origin(*found.span())),
            )

    def open_repeat(self, written: Written, error: OpenRepeat) -> PatternError:
        """The finding for a repeat that does not say how far it goes."""
        return fail(
            "row.open-repeat",
            "the repeat does not say how far it goes",
            "Write `repeat from * to end`, `to last 3 stitches` or `4 more times`",
            self.place(*written.origin(error.start, error.end)),
        )


_REFUSED = tuple(
    (pattern(text), id, message, help)
    for text, id, message, help in (
        (
            r"\bin (?:est(?:ablished)? )?(?:patt(?:ern)?|rib(?:bing)?|garter|stockinette|st st|"
            r"seed st(?:itch)?|moss st(?:itch)?)<W>(?: as (?:est(?:ablished)?|set))?|"
            r"\bpatt(?:ern)?(?= to\b|\W*$)|\b(?:rib|moss)(?= (?:to|around)\b)|"
            r"\bwork (?:even|across|straight)\b|\bwork(?= to\b)|\bas (?:est(?:ablished)?|set)\b",
            "in-pattern",
            "`{}` does not say which stitches are worked",
            "Write them, as in `*k2, p2; repeat from * to last 3 stitches`; a bind-off has its own "
            "step",
        ),
        (
            r"\b(?:removing|dropping) (?:all |the )*markers?<W>(?: as you \w+(?: to them)?)?",
            "removing",
            "`{}` does not say where markers are",
            "Write `remove marker` where each is, as in `k to marker, remove marker, k to end`",
        ),
        (
            r"\b(?:loosely|tightly|firmly|evenly)\b",
            "manner",
            "`{}` is a remark that no row has a place for",
            "Take it out, and say it in a step `say:` before the row",
        ),
        (
            r"\bcounts? as (?:a |1 |the first )?(?:st|stitch|sc|dc|hdc|htr|tr|dtr)\b",
            "turning-chain",
            "a chain that counts as a stitch can't be counted",
            "Write the stitch it stands for, and say in a step `say:` that it may be a chain",
        ),
    )
)
_RIBBED = pattern(r"((?:[kp] ?\d+[ ,]*){2,})rib(?= to\b| around\b)")
_LISTED = pattern(
    r"(?<![\w/{])([a-z]*?)(\d+) ?((?:[(\[] ?\d+(?: ?[,:;] ?\d+)* ?[)\]] ?)+)(?![\w%])"
)
_IN_EACH = pattern(
    r"\b(?P<stitch>[a-z][a-z0-9]*)(?: (?:in|into))? (?:the )?(?P<place>each|every|next|first|last) "
    r"<S>"
)


def _by(written: Written, table: Table) -> Written:
    for rule, made in table:
        written = written.sub(rule, made)
    return written


def _in_figures(written: Written) -> Written:
    """Numbers in words as figures: ``thirty-six`` is 36."""

    def ten(match: re.Match[str]) -> str:
        return str(TENS[match[1]] + (NUMBER_WORDS[match[2]] if match[2] else 0))

    written = written.sub(_TENS, ten)
    return written.sub(_NUMBERS, lambda match: str(NUMBER_WORDS[match[0]]))


_TENS = re.compile(rf"\b({'|'.join(TENS)})(?:[ -]({'|'.join(list(NUMBER_WORDS)[:9])}))?\b")
_NUMBERS = re.compile(rf"\b(?:{'|'.join(NUMBER_WORDS)})\b(?! at a time)")


def _listed(match: re.Match[str]) -> str:
    """``k10 (11, 12)`` as ``k{10, 11, 12}``."""
    figures = re.findall(r"\d+", match[2] + " " + match[3])
    return f"{match[1]}{{{', '.join(figures)}}} "


def _used(parts: tuple[Part, ...], book: StitchBook) -> int | None:
    """Live stitches that ``parts`` use; ``None`` where that hangs on the place or the size."""
    total = 0
    for part in parts:
        match part:
            case Work(stitch, int(times)):
                total += book[stitch].consumes * times
            case Group(inner, int(times)):
                once = _used(inner, book)
                if once is None:
                    return None
                total += once * times
            case IntoOne():
                total += 1
            case Hooked(_, InNext(int(count))):
                total += count
            case Marker() | Turn():
                pass
            case _:
                return None
    return total


def _same(made: str, plain: str) -> bool:
    """Whether nothing but signs and spaces was changed."""
    return "".join(made.split()).strip(".,;") == "".join(plain.split()).strip(".,;")


def _early(error: PatternError) -> bool:
    """Whether an error of the rewritten row tells less than that of the row as written."""
    return error.findings[0].id == "row.empty"
