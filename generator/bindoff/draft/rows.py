"""Rows of a text as the row language reads them: as written, or in its words for the same."""

from collections.abc import Callable, Iterator

from bindoff import regex as re
from bindoff.craft.entry import Terms
from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import PatternError, Span
from bindoff.draft.figures import LIST
from bindoff.draft.goals import without_count
from bindoff.records import Record
from bindoff.source.rowlang.read import read_row

Readable = Callable[[str], bool]
"""Whether a row can be read."""

_LONGEST = 1000


class RowRead(Record):
    """A row that can be read, and the remark that stood behind it."""

    text: str
    remark: str = ""


def readable_for(sizes: int, british: bool, yarns: tuple[str, ...]) -> Readable:
    """Asks the reader of rows whether it can read one."""
    book = standard_book(Terms("UK" if british else "US"))

    def can_read(row: str) -> bool:
        if len(row) > _LONGEST:
            return False
        try:
            read_row(row, Span("", 1, 1, 1, 1 + len(row)), book, yarns, sizes=sizes)
        except PatternError:
            return False
        return True

    return can_read


_N = rf"(?P<n>{LIST})"
_SAME: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"\b(?:first|1st|second|2nd|next) (?:m|marker)\b", re.I), "marker"),
    (re.compile(r"\b(?:beg(?:inning)?-of-(?:rnd|round) marker)\b", re.I), "end"),
    (
        re.compile(
            rf"\b(?:slip|place|put) (?:the )?(?:next )?{_N} (?:sts|stitches) (?:on(?:to)?|"
            rf"to) (?:a |some )?"
            r"(?:waste yarn|(?:stitch )?holder|scrap yarn|"
            r"thread)(?: for (?:the )?(?P<name>[a-z]+(?: [a-z]+)?))?",
            re.I,
        ),
        r"hold \g<n> stitches",
    ),
    (
        re.compile(
            rf"\b(?:co|cast on) {_N} (?:sts?|stitch(?:es)?)(?: (?:over (?:the )?gap|under the arm|"
            r"at (?:the )?underarm|using [a-z -]+|for (?:the )?underarm))?",
            re.I,
        ),
        r"cast on \g<n>",
    ),
    (
        re.compile(
            r"^(?:join (?:the )?yarn(?: and|,)? ?)?(?:then )?knit across "
            r"(?:them|these sts|held sts)",
            re.I,
        ),
        "k to end",
    ),
    (
        re.compile(rf",? (?:and )?then pick up and knit {_N} sts [a-z ]{{3,40}}(?=[.(]|$)", re.I),
        r", pick up and knit \g<n>",
    ),
    (
        re.compile(
            rf"\b(?:bind|cast) off (?:next )?{_N} sts for (?:the )?(?:right |left )?"
            r"(?:under)?arm(?:hole)?",
            re.I,
        ),
        r"bind off \g<n>",
    ),
    (re.compile(r"\bto (?:the )?end of (?:needle|rnd|round|row)\b", re.I), "to end"),
    (re.compile(r"^(?:then|now|and) ", re.I), ""),
    (
        re.compile(r"(?<=[\w)])(?<!pick up) (?:and|then) (?=(?:k|p|sl|knit|purl|turn)\b)", re.I),
        ", ",
    ),
)  # fmt: skip
"""Sayings that the reader of rows doesn't know, each with its words for the same."""

_BEHIND = re.compile(
    r"(?:[.;!?…—–]\)?|(?=\s[(\[]))\s*(?P<remark>[(\[]?[^*.;]{3,140}[.)\]!?]*)$", re.IGNORECASE
)
_STITCHED = re.compile(
    r"\*|\b(?:[kp]\d+|m1[lr]?|k2tog|p2tog|ssk|yo|pm|sm|w&t|rep(?:eat)?|knit|purl|turn|hold|cast|"
    r"bind)\b|"
    r"^[(\[]?\d[\d ,]*[)\]]?,",
    re.IGNORECASE,
)


def row_read(text: str, readable: Readable) -> RowRead | None:
    """``text`` as a row that can be read, ``None`` where it can't be."""
    for row, remark in _with_remarks(text.strip()):
        for said in dict.fromkeys((row, _in_our_words(row))):
            if said and readable(said):
                return RowRead(said, remark)
    return None


def _in_our_words(row: str) -> str:
    for words, ours in _SAME:
        row = words.sub(ours, row)
    return row


def _with_remarks(text: str) -> Iterator[tuple[str, str]]:
    """``text`` whole, and without up to two remarks behind it that work no stitch."""
    yield text, ""
    row, remark = text, ""
    for _ in range(2):
        found = _BEHIND.search(row)
        if found is None or _STITCHED.search(found["remark"]):
            return
        row, remark = row[: found.start()].rstrip(" ;"), f"{found['remark']} {remark}".strip()
        if row:
            yield row, remark


def uncounted(row: str) -> str:
    """A row without the count behind it, which holds where it is worked first and not again."""
    return without_count(row).rstrip()
