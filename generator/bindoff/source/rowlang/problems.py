"""Puts a row that cannot be read into a knitter's words."""

from collections.abc import Callable, Collection, Iterator
from difflib import get_close_matches
from typing import TYPE_CHECKING

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.source.rowlang.vocabulary import Vocabulary

if TYPE_CHECKING:  # else only a row that can't be read loads the parser here
    from lark import Token
    from lark.exceptions import UnexpectedInput

Place = Callable[[int, int], Span]
"""From character offsets of the row's text, the second exclusive, to a place in its file."""

_CLOSERS = (
    ("SEPARATOR", "a comma"),
    ("RSQB", "a closing ]"),
    ("RPAR", "a closing )"),
    ("REPEAT", "`repeat from *`"),
    ("DOT", "the end of the row"),
)
_OPENERS = (("NAME", "a stitch such as k2 or k2tog"), ("STAR", "a repeat"))
_HOW_OFTEN = (("INT", "how often or how far, such as `4 times` or `to end`"),)
_SITUATIONS: tuple[tuple[frozenset[str], tuple[tuple[str, str], ...]], ...] = (
    (frozenset({"SEPARATOR"}), _CLOSERS),
    (frozenset({"LSQB"}), _OPENERS),
    (frozenset({"EACH"}), (("EACH", "a place such as `each stitch`"), ("NAME", "a yarn"))),
    (frozenset({"END"}), (("END", "how far, such as `end`, `last 2 stitches` or `marker`"),)),
    (frozenset({"MORE"}), (("MORE", "`more times`"),)),
    (frozenset({"BEFORE"}), (("BEFORE", "`stitches before marker`"),)),
    (frozenset({"INT", "ONCE"}), _HOW_OFTEN),
    (frozenset({"INT", "ALL"}), (("INT", "a number"), ("ALL", "`all`"))),
    (frozenset({"INT"}), (("INT", "a number"),)),
    (frozenset({"ROW_END", "STITCHES"}), (("STITCHES", "a place such as `next stitch`"),)),
    (frozenset({"INTO"}), (("IN", "a place such as `in each stitch`"),)),
    (frozenset({"CABLE"}), (("CABLE", "a crochet stitch such as sc"),)),
    (frozenset({"NAME"}), (("NAME", "a yarn"),)),
)
"""What may follow in a situation, which is the first whose terminals may all come next."""
_FIGURES = re.compile(r"(?<=[a-z])\d+(?=[a-z])")
_WORDS = {"COLON": "a colon", "STAR": "`*`", "DOT": "the end of the row"}


_NUMBER_ALONE = re.compile(r"\d{1,6}(?: (?:rows?|rounds?|rnds?|sts|stitches))?", re.IGNORECASE)


class UnreadError(Exception):
    """A row has no reading; ``cause`` is what the parser says."""

    def __init__(self, cause: "UnexpectedInput") -> None:
        super().__init__("unread")
        self.cause = cause


def _unreadable_character(text: str, at: int, place: Place) -> PatternError:
    """A character that no row is written with."""
    if text[at] == "{":
        help = "Close the number's name with }, as in `k{edge}`"
    else:
        help = "Take it out, or write in words what it stands for"
    return fail("row.character", f"`{text[at]}` can't be read in a row", help, place(at, at + 1))


def unreadable(
    text: str, plain: str, unread: UnreadError, vocabulary: Vocabulary, place: Place
) -> PatternError:
    """A row whose words do not fit together, in lower case ``plain``.

    A word that means nothing comes first: it is the likelier cause, even before the place where
    the row broke.
    """
    from lark.exceptions import UnexpectedCharacters, UnexpectedToken

    from bindoff.source.rowlang.grammar import lexed

    error = unread.cause
    if isinstance(error, UnexpectedCharacters):
        return _unreadable_character(text, error.pos_in_stream or 0, place)
    if alone := _NUMBER_ALONE.fullmatch(text.strip()):
        return fail(
            "row.unreadable",
            f"`{alone[0]}` says how many, and a row says which stitches are worked",
            "Write the row, such as `k all` or `k8`; how many rows or rounds are worked stands "
            "under `rounds:`, beside `work:`",
            place(0, len(text)),
        )
    if not isinstance(error, UnexpectedToken):
        return fail("row.unreadable", "the row can't be read", "Write it anew", place(0, len(text)))
    found = error.token
    at_end = found.type == "$END"
    start = len(text.rstrip()) if at_end else found.start_pos or 0
    unknown = _unknown_words(text, lexed(plain), start, vocabulary, place)
    if unknown:
        return PatternError(unknown)
    here = "the end of the row" if at_end else f"`{text[start : found.end_pos]}`"
    wanted = _list(expected(error.accepts))
    where = place(max(start - 1, 0), start) if at_end else place(start, found.end_pos or start + 1)
    return fail(
        "row.unreadable",
        f"expected {wanted}, found {here}",
        _help(found, error.accepts, vocabulary),
        where,
    )


def expected(accepts: Collection[str]) -> tuple[str, ...]:
    """What the terminals in ``accepts`` are to a knitter."""
    for situation, phrases in _SITUATIONS:
        if situation <= set(accepts):
            return tuple(phrase for terminal, phrase in phrases if terminal in accepts)
    return tuple(_WORDS.get(name, f"`{name.lower()}`") for name in sorted(accepts))


def unknown_word(word: str, vocabulary: Vocabulary, span: Span) -> Diagnostic:
    """A word that is no stitch, as it was written.

    What it should be is said only where that is beyond doubt: the words near it are told with what
    each does, for one letter can change the fabric.
    """
    plain = word.lower()
    if caution := vocabulary.book.caution(_FIGURES.sub("1", plain)):
        return Diagnostic("row.unclear-word", caution.why, caution.help, span)
    declare = f"declare `{word}` under `stitches:`"
    if same := vocabulary.exactly(plain):
        help = f"Write `{same}`, or {declare}"
    elif near := vocabulary.near(plain):
        help = f"Write the stitch you mean, or {declare}; near it {_are(near)}"
    else:
        help = f"Correct it, or {declare}"
    return Diagnostic("row.unknown-stitch", f"`{word}` is not a stitch", help, span)


def _are(near: tuple[str, ...]) -> str:
    if len(near) == 1:
        return f"is {near[0]}"
    return f"are {', '.join(near[:-1])} and {near[-1]}"


def no_patterns(said: str, span: Span | None) -> Diagnostic:
    """A row that is worked in pattern where nothing says which stitches these are."""
    return Diagnostic(
        "row.in-pattern",
        f"`{said}` does not say which stitches are worked",
        "Give the rows a name, as in `stitch patterns: {seed: {rows: […]}}`, and write `in seed to "
        "last 3 stitches`; or write the stitches themselves",
        span,
    )


def unknown_pattern(
    word: str, vocabulary: Vocabulary, span: Span | None, *, chart: bool
) -> Diagnostic:
    """A word that names no stitch pattern, or no ``chart``."""
    names = vocabulary.patterns
    if not names and not chart:
        return no_patterns(f"in {word}", span)
    known = names.chart if chart else {**names.chart, **names.stitch}
    close = get_close_matches(word, known, n=1)
    listed = ", ".join(f"`{name}`" for name in dict.fromkeys(known.values()))
    help = f"Write `{close[0]}`, or name" if close else "Name"
    key = "charts" if chart else "stitch patterns"
    help = f"{help} one that stands under `{key}:`" + (f": {listed}" if listed else "")
    what = "chart" if chart else "stitch pattern"
    return Diagnostic("row.unknown-pattern", f"`{word}` is no {what} of this pattern", help, span)


def unknown_yarn(word: str, vocabulary: Vocabulary, span: Span) -> Diagnostic:
    """A word where a yarn should stand, that is none."""
    if vocabulary.stitch(word.lower()):
        return Diagnostic(
            "row.comma", f"`{word}` follows without a comma", "Put a comma before it", span
        )
    yarns = ", ".join(f"`{yarn}`" for yarn in vocabulary.yarns.values())
    help = f"Name one of the pattern's yarns: {yarns}" if yarns else "Take it out"
    return Diagnostic("row.unknown-yarn", f"`{word}` is not a yarn of this pattern", help, span)


def _unknown_words(
    text: str, tokens: "Iterator[Token]", before: int, vocabulary: Vocabulary, place: Place
) -> list[Diagnostic]:
    from lark.exceptions import UnexpectedCharacters

    found = []
    try:
        for token in tokens:
            start, end = token.start_pos or 0, token.end_pos or 0
            if start > before:
                break
            if token.type == "NAME" and not vocabulary.knows(token.value):
                found.append(unknown_word(text[start:end], vocabulary, place(start, end)))
    except UnexpectedCharacters:
        pass  # it stands further on than the place where the row broke
    return found


def _help(found: "Token", accepts: Collection[str], vocabulary: Vocabulary) -> str:
    starts_part = found.type in {"NAME", "CABLE", "SL_ST", "LSQB", "STAR", "CAST_ON", "BIND_OFF"}
    if "SEPARATOR" in accepts and starts_part:
        return "Put a comma between the two"
    if found.type == "REPEAT":
        return "Put * where the repeat starts: `*k2, p2; repeat from * to end`"
    if "REPEAT" in accepts:
        return "End the repeat: `*k2, p2; repeat from * to end`"
    if "RSQB" in accepts or "RPAR" in accepts:
        return "Close the bracket and say how often: `[k1, p1] 4 times`"
    if ("CABLE" in accepts and "LSQB" not in accepts) or set(accepts) == {"IN", "INTO"}:
        return "Put the number after a knitting stitch: `k2`"
    return "Write that here, or see whether a comma or a bracket is missing before it"


def _list(phrases: tuple[str, ...]) -> str:
    if len(phrases) == 1:
        return phrases[0]
    comma = "," if len(phrases) > 2 or " or " in phrases[0] else ""
    return f"{', '.join(phrases[:-1])}{comma} or {phrases[-1]}"
