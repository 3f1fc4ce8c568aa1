"""Puts a row as a knitter wrote it into our one form, and has the strict grammar read that."""

from collections.abc import Callable, Collection

from bindoff import regex as re
from bindoff.craft.book import Craft, StitchBook
from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.records import Record, replace
from bindoff.source.rowlang.grammar import lexed
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.problems import Place, no_patterns
from bindoff.source.rowlang.reader.frames import Label, Said, labelled, stated
from bindoff.source.rowlang.reader.hooks import in_places
from bindoff.source.rowlang.reader.joints import OpenRepeat, unglued, with_commas, with_repeats
from bindoff.source.rowlang.reader.tables import (
    CLEANING,
    GOALS,
    JOINTS,
    NUMBER_WORDS,
    OLD,
    REMARKS,
    SIGNS,
    STITCHES,
    TENS,
    TIDYING,
    TIMES,
    Table,
    pattern,
)
from bindoff.source.rowlang.reader.written import Written
from bindoff.source.rowlang.syntax import Labelled, Reading, Row, Stated
from bindoff.source.rowlang.uses import fixed_uses
from bindoff.source.rowlang.vocabulary import NO_NAMES, PatternNames, Vocabulary


class Reader(Record):
    """Rewrites the rows of one pattern; ``old`` where they are in old words.

    ``place`` is where the characters of the row stand in its file.
    """

    book: StitchBook
    yarns: Collection[str]
    place: Place
    sizes: int | None
    old: bool
    patterns: PatternNames = NO_NAMES
    spelled: bool = False

    @property
    def vocabulary(self) -> Vocabulary:
        """The words that the rows may use."""
        return Vocabulary(self.book, {yarn.lower(): yarn for yarn in self.yarns}, self.patterns)

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
        written = _by(written, TIDYING)
        words = self.words_of(text, written) if self.spelled else None
        try:
            row = parse_row(
                written.text, self.placed(written), self.book, self.yarns, self.patterns, words
            )
        except PatternError as error:
            told = strictly is not None and _same(written.text, plain)
            raise (strictly if strictly is not None and told else error) from None
        return replace(row, reading=self.reading(written.text, label, counts, guessed=guessed))

    def worded(self, written: Written) -> Written:
        """The words of ``written`` in our spelling; what holds them together is left."""
        written = _by(written, REMARKS)
        written = _by(written, JOINTS)
        written = self.in_patterns(written)
        written = written.sub(_NTH_MARKER, _next_marker)
        written = unglued(written, self.vocabulary)
        written = written.sub(_LISTED, _listed)
        if self.old:
            written = _by(written, OLD)
        written = _by(written, STITCHES)
        written = _by(written, TIMES)
        written = _by(written, GOALS)
        written = in_places(written, self.book)
        written = written.sub(_RIBBED, r"[\1] ")
        return written.sub(_IN_EACH, self.in_each)

    def in_patterns(self, written: Written) -> Written:
        """What is worked in a stitch pattern, where the pattern has any, in our words."""
        if not self.patterns:
            return written
        names = "|".join(map(re.escape, sorted(self.patterns.stitch, key=len, reverse=True)))
        if names:
            rule = rf"(?<!in )(?<![\w{{-])(?:work (?:in )?)?({names})(?= (?:to|over|around)\b|\W*$)"
            written = written.sub(re.compile(rule), r"in \1")
            written = written.sub(re.compile(rf"\bwork(?:ing)? (?=in (?:{names})\b)"), "")
        return _by(written, _GOES_ON)

    def in_each(self, match: re.Match[str]) -> str | None:
        """``kfb in each stitch`` is ``kfb to end``; crochet keeps its places."""
        said = self.vocabulary.stitch(match["stitch"])
        if said is None or said.stitch.craft is Craft.CROCHET or said.number not in (None, 1):
            return None
        stitch = match["stitch"].removesuffix("1") if said.number == 1 else match["stitch"]
        place = match["place"]
        if place.startswith(("each", "every")):
            return (
                stitch
                if re.match(r"[ ,]*(?:to|around)\b", match.string[match.end() :])
                else (f"{stitch} to end")
            )
        at_start = not match.string[: match.start()].strip(" ,;*[(")
        at_end = not match.string[match.end() :].strip(" ,;.") and re.search(
            r"to last stitch(?:es)?[ ,;]*$|to last 1 stitches[ ,;]*$", match.string[: match.start()]
        )
        fits = (
            place.startswith("next")
            or (place.startswith("first") and at_start)
            or (place.startswith("last") and at_end)
        )
        return match["stitch"] if fits else None

    def uses(self, written: Written) -> int | None:
        """How many stitches the words use, if they are a fixed number of stitches."""
        written = with_commas(_by(written, CLEANING), self.vocabulary, lexed)
        try:
            row = parse_row(
                written.text, self.placed(written), self.book, self.yarns, self.patterns
            )
        except PatternError:
            return None
        return fixed_uses(row.parts, self.book)

    def placed(self, written: Written) -> Place:
        """The place of characters of ``written``."""
        return lambda start, end: self.place(*written.origin(start, end))

    def words_of(self, text: str, written: Written) -> Callable[[int, int], str]:
        """The words of ``text`` that stand where characters of ``written`` come from."""
        return lambda start, end: text[slice(*written.origin(start, end))]

    def reading(
        self, text: str, label: Label | None, counts: tuple[Said, ...], *, guessed: bool
    ) -> Reading:
        """What the row was read as."""
        said = tuple(
            Stated(each.counts, each.sign, self.place(each.start, each.end)) for each in counts
        )
        several = label.text if label and label.several else ""
        side = None
        if label and label.wrong_side is not None:
            place = self.place(label.start, label.end)
            side = Labelled(label.wrong_side, label.text, place)
        return Reading(text, said, several, guessed, side)

    def refuse(self, written: Written) -> None:
        """Raises a ``PatternError`` for what the trade writes and no reader can know."""
        if not self.patterns and (found := _IN_PATTERN.search(written.text)):
            place = self.place(*written.origin(*found.span()))
            raise PatternError([no_patterns(found[0].strip(), place)])
        for rule, finding in _REFUSED:
            if found := rule.search(written.text):
                message = finding.message.format(found[0].strip())
                place = self.place(*written.origin(*found.span()))
                raise PatternError([replace(finding, message=message, span=place)])

    def open_repeat(self, written: Written, error: OpenRepeat) -> PatternError:
        """The finding for a repeat that does not say how far it goes."""
        return fail(
            "row.open-repeat",
            "the repeat does not say how far it goes",
            "Write `repeat from * to end`, `to last 3 stitches` or `4 more times`",
            self.place(*written.origin(error.start, error.end)),
        )


_ESTABLISHED = r"(?: as (?:est(?:ablished)?|set))?"
_IN_PATTERN = pattern(
    r"\bin (?:est(?:ablished)? )?(?:patt(?:ern)?|rib(?:bing)?|garter|stockinette|st st|"
    rf"seed st(?:itch)?|moss st(?:itch)?)<W>{_ESTABLISHED}|"
    r"\bpatt(?:ern)?(?= to\b|\W*$)|\b(?:rib|moss)(?= (?:to|around)\b)|"
    r"\bwork (?:even|across|straight)\b|\bwork(?= to\b)|\bas (?:est(?:ablished)?|set)\b"
)
_GOES_ON = (
    (
        pattern(
            r"\b(?:keeping|maintaining|work(?:ing)?|continu(?:e|ing)|cont)? ?(?:even |straight |"
            r"across )?(?:in |keep )?(?:the )?(?:est(?:ablished)? )?(?:patt(?:ern)?)<W>"
            rf"{_ESTABLISHED}(?: correct)?"
        ),
        "in pattern",
    ),
    (
        pattern(
            r"\b(?:work(?:ing)?|continu(?:e|ing)|cont) (?:even |straight |across )?"
            r"as (?:est(?:ablished)?|set)\b"
        ),
        "in pattern",
    ),
    (pattern(r"\bas (?:est(?:ablished)?|set)\b"), "in pattern"),
    (pattern(r"\bwork (?:even|straight)<W>(?! (?:in|for|until)\b)"), "in pattern"),
    (pattern(r"\bwork(?= to (?:the )?(?:last|marker|\d|within|end)\b)"), "in pattern"),
    (pattern(r"\bin pattern over (?:the )?next\b"), "in pattern over"),
    (pattern(r"\b(?:work|patt(?:ern)?) <N> <S> in pattern\b"), r"in pattern over \1 stitches"),
)
"""What goes on in a stitch pattern, where a pattern has some."""
_REFUSED = (
    (
        pattern(r"\b(?:removing|dropping) (?:all |the )*markers?<W>(?: as you \w+(?: to them)?)?"),
        Diagnostic(
            "row.removing",
            "`{}` does not say where markers are",
            "Write `remove marker` where each is, as in `k to marker, remove marker, k to end`",
        ),
    ),
    (
        pattern(r"\b(?:loosely|tightly|firmly|evenly)\b"),
        Diagnostic(
            "row.manner",
            "`{}` is a remark that no row has a place for",
            "Take it out, and say it in a step `say:` before the row",
        ),
    ),
    (
        pattern(r"\bcounts? as (?:a |1 |the first )?(?:st|stitch|sc|dc|hdc|htr|tr|dtr)\b"),
        Diagnostic(
            "row.turning-chain",
            "a chain that counts as a stitch can't be counted",
            "Write the stitch it stands for, and say in a step `say:` that it may be a chain",
        ),
    ),
)
_RIBBED = pattern(r"((?:[kp] ?\d+[ ,]*){2,})rib(?= to\b| around\b)")
_LISTED = pattern(
    r"(?<![\w/{])([a-z]*?)(\d+) ?((?:[(\[] ?\d+(?: ?[,:;] ?\d+)* ?[)\]] ?)+)(?![\w%])"
)
_IN_EACH = pattern(
    r"\b(?P<stitch>[a-z][a-z0-9]*)(?: (?:in|into))? (?:the )?(?P<place>each|every|next|first|last) "
    r"<S>"
)


_NTH_MARKER = pattern(r"\b(?:the )?(?:(first)|(\d)(?:st|nd|rd|th|d)) <M>")
_PASSED = pattern(
    r"\b(?:sm|slm|rm)\b|"
    r"\b(?:slip|sl|pass|remove) (?:the )?(?:(?:next|first|\d(?:st|nd|rd|th)) )?<M>"
)


def _next_marker(match: re.Match[str]) -> str | None:
    """``2nd marker`` as ``next marker``, where one was passed before it in the row."""
    nth = 1 if match[1] else int(match[2])
    passed = len(_PASSED.findall(match.string[: match.start()]))
    return "next marker" if nth == passed + 1 else None


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
    rest = match.string[match.end() - 1 :]
    gap = " " if rest[:1] == " " or rest[1:2].isalpha() else ""
    return f"{match[1]}{{{', '.join(figures)}}}{gap}"


def _same(made: str, plain: str) -> bool:
    """Whether nothing but signs and spaces was changed."""
    return "".join(made.split()).strip(".,;") == "".join(plain.split()).strip(".,;")
