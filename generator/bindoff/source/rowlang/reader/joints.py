"""What holds a row together: where repeats begin and end, and the commas between its parts."""

from collections.abc import Callable, Iterator

from lark import Token
from lark.exceptions import UnexpectedInput

from bindoff import regex as re
from bindoff.source.rowlang.reader.tables import pattern
from bindoff.source.rowlang.reader.written import Written
from bindoff.source.rowlang.vocabulary import Vocabulary

_TARGET = (
    r"(?:to end|around|to last <N> <S>|to last <S>|to <N> <S> before (?:last )?marker|"
    r"to (?:last )?marker|to corner|to <N> <S> before gap|to <N> <S> past last turn|to gap)"
)
_MORE = r"(?:<N> more times?|once more|twice more)"
_TIMES = r"(?:<N> times?|once|twice)"
_UNTIL = pattern(
    rf"[ ,;.]*(?:(?P<target>{_TARGET})|(?P<more>{_MORE})|(?P<all>{_TIMES} in all)|"
    rf"(?P<times>{_TIMES}))<W>"
)
_BACK = pattern(r"[ ,;.]*repeat from \*")
_AGAIN = pattern(r"[ ,;.]*repeat<W>(?! ?from)")
_ENDING = pattern(r"[ ,;.]*(?:(?:ending|end) (?:with )?)?(?! ?last\b)")
_SIGN = re.compile(r"\*|\brepeat\b")
_CLOSED = pattern(rf"(?<=[\])]) ?repeat (?={_TARGET}|{_MORE}|{_TIMES})")

Uses = Callable[[Written], int | None]
"""How many live stitches some words use, or ``None`` where that is not fixed."""


class OpenRepeat(Exception):  # noqa: N818 - a finding about the row, told by the caller
    """A repeat of which the row does not say how far it goes; ``start`` and ``end`` are its place
    in the text."""

    def __init__(self, start: int, end: int) -> None:
        self.start, self.end = start, end
        super().__init__("open repeat")


def with_repeats(written: Written, uses: Uses) -> tuple[Written, bool]:
    """Every repeat as ``*…; repeat from * goal`` or ``[…] 4 times``, and whether a goal was added.

    A second star closes a repeat. A repeat without a goal goes to the end, or as far as leaves the
    stitches that the words after it use. Raises ``OpenRepeat`` where that can't be said.
    """
    written = written.sub(_CLOSED, " ")
    written = _whole_row(written)
    guessed, at = False, 0
    while (star := written.text.find("*", at)) >= 0:
        found = _SIGN.search(written.text, star + 1)
        if found is None:
            break  # the strict reader says that the repeat does not end
        end = found.end() if found[0] == "*" else found.start()
        back = _BACK.match(written.text, end) or _AGAIN.match(written.text, end)
        end = back.end() if back else end
        written, at, added = _closed(written, star, found.start(), end, uses)
        guessed = guessed or added
    return written, guessed


def _closed(
    written: Written, star: int, body_end: int, end: int, uses: Uses
) -> tuple[Written, int, bool]:
    """The repeat from ``star``, whose parts end at ``body_end`` and whose sign of return at
    ``end``, in our form; where it ends now, and whether its goal was added."""
    body_end = len(written.text[:body_end].rstrip(" ,;."))
    until = _UNTIL.match(written.text, end)
    to_end = until is not None and until["target"] in ("around", "to end")
    if until is not None and to_end and _ENDED.match(written.text, until.end()):
        end, until = until.end(), None  # `around, ending k2` leaves the stitches of the ending
    comes_back = "repeat" in written.text[body_end:end]
    if until is None:
        said = written.part(end)
        ending = _ENDING.match(said.text)
        if ending is None:
            raise OpenRepeat(star, body_end)  # `repeat last 5`, without its `to`
        rest = said.part(ending.end())
        words = rest.text.strip(" ,;.")
        if not comes_back and words:
            raise OpenRepeat(star, body_end)
        if not words:
            goal = " to end"
        else:
            used = uses(rest)
            if used is None or "*" in words:
                raise OpenRepeat(star, len(written.text))
            goal = f" to last {used} stitches, "
        skipped = len(written.text) - len(rest.text)
        tail = (end, skipped, goal)
        edits = [(body_end, end, "; repeat from *"), tail]
        made = written.edited(edits)
        return made, len(made.text), True
    target = until["target"] or until["more"]
    if target:
        written = _without_ending(written, until.end())
    if target or (until["times"] and comes_back):
        # `repeat from * 4 times` stays as it is: it can mean two things, and is refused for it
        made = written.edited(
            [(body_end, until.end(), f"; repeat from * {until[0].strip(' ,;.')}")]
        )
        grown = len(made.text) - len(written.text)
        return made, until.end() + grown, False
    often = (until["all"] or until["times"]).removesuffix("in all").strip()
    edits = [(star, star + 1, "["), (body_end, until.end(), f"] {often}")]
    made = written.edited(edits)
    return made, until.end() + len(made.text) - len(written.text), False


_ENDED = pattern(r"[ ,;.]*(?:ending|end)<W>(?: with)? ")


def _without_ending(written: Written, at: int) -> Written:
    """``written`` with a comma for the word ``ending`` that stands after a goal."""
    found = _ENDED.match(written.text, at)
    return written if found is None else written.edited([(at, found.end(), ", ")])


_ROW_REPEAT = pattern(rf"[ ,;.]*\brepeat (?=(?:{_TARGET})[ .]*$)|[ ,;.]*\brepeat[ .]*$")


def _whole_row(written: Written) -> Written:
    """``k1, p1, repeat to end`` with its star; only where nothing else is repeated in it."""
    found = _ROW_REPEAT.search(written.text)
    if found is None or re.search(r"[*\[]", written.text) or "(" in written.text:
        return written
    return written.edited([(0, 0, "*"), (found.start(), found.end(), "; repeat from * ")])


# ---------------------------------------------------------------- commas

_OPENERS = frozenset({
    "CABLE", "SL_ST", "FASTEN_OFF", "LSQB", "LPAR", "PM", "SM", "RM", "CAST_ON", "PICK_UP",
    "PICK_UP_PURL", "BIND_OFF", "HOLD", "TURN", "WRAP_TURN",
})  # fmt: skip
_UNFINISHED = frozenset({
    "SEPARATOR", "LSQB", "LPAR", "COLON", "IN", "INTO", "WITH", "TO", "FROM", "OF", "EACH",
    "NEXT", "FIRST", "LAST", "BEFORE", "REPEAT", "RSQB", "RPAR", "CAST_ON", "PICK_UP",
    "PICK_UP_PURL", "BIND_OFF", "HOLD", "SAME", "DOT",
})  # fmt: skip
_GLUED = re.compile(r"(?:(?:k|p|sl)\d+|yo|ssk|(?:k|p)\dtog)+")
_PIECE = re.compile(r"(?:k|p)\dtog|(?:k|p|sl)\d+|yo|ssk")


def with_commas(
    written: Written, vocabulary: Vocabulary, lex: Callable[[str], Iterator[Token]]
) -> Written:
    """``written`` with a comma wherever one part ends and another begins without one."""
    tokens = list[Token]()
    try:
        tokens.extend(lex(written.text))
    except UnexpectedInput:
        return written  # the strict reader points at the character
    edits = list[tuple[int, int, str]]()
    opened = False
    for at, token in enumerate(tokens):
        before = tokens[at - 1] if at else None
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if token.type == "STAR" and before is not None and before.type == "FROM":
            opened = False
            continue
        starts = _starts(token, after, before, vocabulary)
        if token.type == "STAR":
            starts, opened = not opened, not opened
        if before is None or not starts or before.type in _UNFINISHED or before.type == "STAR":
            continue
        if not _is_number_of(before, token, tokens[at - 2] if at > 1 else None, vocabulary):
            edits.append((token.start_pos or 0, token.start_pos or 0, ", "))
    return written.edited(edits)


def _starts(
    token: Token, after: Token | None, before: Token | None, vocabulary: Vocabulary
) -> bool:
    """Whether ``token`` can begin a part of a row."""
    if token.type == "NAME":
        return token.value not in vocabulary.yarns and vocabulary.stitch(token.value) is not None
    if token.type == "INT":
        number_of_one_before = before is not None and _takes_number(before, vocabulary)
        return not number_of_one_before and after is not None and _hook(after, vocabulary)
    return token.type in _OPENERS


def _is_number_of(
    before: Token, token: Token, earlier: Token | None, vocabulary: Vocabulary
) -> bool:
    """Whether ``before`` is the number of ``token``, as in ``2 sc``, and not of ``earlier``."""
    if before.type not in ("INT", "NAMED") or not _hook(token, vocabulary):
        return False
    return earlier is None or not _takes_number(earlier, vocabulary)


def _takes_number(token: Token, vocabulary: Vocabulary) -> bool:
    if token.type in (
        "CAST_ON",
        "PICK_UP",
        "PICK_UP_PURL",
        "BIND_OFF",
        "HOLD",
        "LAST",
        "NEXT",
        "TO",
    ):
        return True
    said = vocabulary.stitch(token.value) if token.type == "NAME" else None
    return said is not None and said.stitch.counted and said.number is None


def _hook(token: Token, vocabulary: Vocabulary) -> bool:
    if token.type == "SL_ST":
        return True
    said = vocabulary.stitch(token.value) if token.type == "NAME" else None
    return said is not None and said.stitch.craft.value == "crochet" and not said.stitch.counted


def unglued(written: Written, vocabulary: Vocabulary) -> Written:
    """``k1p1`` as ``k1, p1``, where the whole word is no stitch and each piece is one."""

    def parted(match: re.Match[str]) -> str | None:
        word = match[0]
        if vocabulary.stitch(word) or not _GLUED.fullmatch(word):
            return None
        return ", ".join(_PIECE.findall(word))

    return written.sub(re.compile(r"[a-z]\w*"), parted)
