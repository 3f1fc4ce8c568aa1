"""How far something is worked: until so long, so many rows, so many times more.

Sayings of the trade: common practice, no source. A goal that isn't wholly understood is none.
"""

from bindoff import regex as re
from bindoff.draft.figures import LIST, UNIT, counts, lengths
from bindoff.draft.headings import NUMBERS
from bindoff.records import Record, replace


class UntilLong(Record):
    """Until so much is knitted: a length for all sizes or one each, from the start or from here.

    ``measured``: the part that is measured, where it is another than the whole piece; ``beyond``:
    what it is measured from, where that is no cast-on. ``ends`` is the side of the last row, or
    its place among the rows worked again, where the text says it; ``aside`` another way to know.
    """

    values: tuple[str, ...]
    from_start: bool
    measured: str = ""
    beyond: str = ""
    ends: str = ""
    aside: str = ""


class RowsInAll(Record):
    """So many rows or rounds; one figure, or one for each size."""

    values: tuple[int, ...]


class MoreOften(Record):
    """So many times more than they were worked."""

    values: tuple[int, ...]


class TimesInAll(Record):
    """So many times, where the rows were not worked just before."""

    values: tuple[int, ...]


Goal = UntilLong | RowsInAll | MoreOften | TimesInAll

ROWS = r"(?:rows?|rounds?|rnds?|rds?)"
_N = rf"(?P<n>{LIST})"
_ENDS = re.compile(
    rf",? (?:and )?end(?:ing)? (?:with|after|on) (?:a |the |an? )?(?P<side>rs|ws|right[ -]side|"
    rf"wrong[ -]side|second|last|purl|even|\d{{1,2}}(?:st|nd|rd|th)|"
    rf"{ROWS} \d{{1,2}})(?:[ -](?:facing )?{ROWS})?$",
    re.IGNORECASE,
)
_FACING = re.compile(
    r",? ?with (?:the )?(?P<side>rs|right side) facing(?: for (?:the )?next row)?$", re.I
)
_MEASURES = re.compile(
    rf"(?:un)?til (?:the |your )?(?:(?P<what>[a-z ]{{2,20}}?) ?)?\b(?:measures?|is|are|[’']s) ?"
    rf"(?:approx\w*\.? |about )?(?P<long>{LIST} ?-?{UNIT}.{{0,40}}?)(?: long| deep| tall| high|"
    rf" wide| in length)?"
    r"(?P<from>,? ?(?:from|above|below|past|after) (?:the )?[a-z. -]{3,40})?$",
    re.IGNORECASE,
)
_THERE_ARE = re.compile(
    rf"(?:un)?til (?P<long>{LIST} ?-?{UNIT}) (?:have been|has been|are|is) (?:worked|knit\w*|"
    rf"done)$",
    re.I,
)
_OR_ELSE = re.compile(
    r",? \(?(?P<aside>or (?:to|until|as|for|when|the|your|desired|longer|less|"
    r"more)\b[^()]{3,80})\)?$",
    re.IGNORECASE,
)
_CAST_ON_EDGE = re.compile(r"cast[ -]?on|beg|start|bottom|lower edge|commencement", re.I)
_FOR_LONG = re.compile(
    rf"(?:for )?(?:another |about )?(?P<long>{LIST} ?-?{UNIT}.{{0,40}}?)(?: more)?$", re.IGNORECASE
)
_SO_MANY_ROWS = re.compile(rf"(?:for )?{_N} (?:more )?{ROWS}(?: more)?$", re.IGNORECASE)
_TIMES = re.compile(
    rf"(?:for )?(?:a further |"
    rf"(?P<total>(?:for )?a total of ))?{_N} (?P<more>more )?times(?P<after> more)?$|"
    r"(?P<once>once|one|twice|thrice)(?: more(?: time)?| again)$|(?P<again>again)$|"
    r"(?P<in_all>once|twice|thrice)$",
    re.I,
)
_SO_OFTEN = {"once": 1, "one": 1, "twice": 2, "thrice": 3}
_WHOLE_PIECE = frozenset(
    (
        "",
        "piece",
        "work",
        "it",
        "hat",
        "cowl",
        "scarf",
        "whole piece",
        "knitting",
        "strip",
        "fabric",
    )
)
_COUNT_AFTER = re.compile(
    rf"(?<!\s)\s*+(?:[.,;:–—(\[-] ?){{1,60}}+(?:(?:you )?(?:now )?have )?(?:= ?)?"
    rf"(?:{LIST}) ?(?:sts|stitches|st)\b[^.,;]{{0,45}}?[)\]]?\.?$",
    re.IGNORECASE,
)
_IN_BRACKETS = re.compile(r"(?<!\s)\s*+[(\[][^()\[\]]{3,60}[)\]]\.?$")
_NUMBER_WORD = re.compile(rf"\b(?:{'|'.join(NUMBERS)})\b", re.IGNORECASE)


def in_digits(text: str) -> str:
    """``text`` with its small numbers in digits."""
    return _NUMBER_WORD.sub(lambda found: str(NUMBERS[found[0].lower()]), text)


def without_count(text: str) -> str:
    """``text`` without the count of stitches that stands behind it."""
    return _COUNT_AFTER.sub("", text)


def goal_said(text: str, sizes: int) -> Goal | None:
    """The goal that the end of a sentence says, ``None`` where it isn't wholly understood."""
    text = in_digits(text.strip().rstrip(".").strip())
    text = without_count(text)
    if _COUNT_AFTER.search(text) is None and _IN_BRACKETS.search(text) and "times" in text:
        text = without_count(_IN_BRACKETS.sub("", text))
    if aside := _OR_ELSE.search(text):
        goal = goal_said(text[: aside.start()], sizes)
        return replace(goal, aside=aside["aside"]) if isinstance(goal, UntilLong) else None
    ends = _ENDS.search(text) or _FACING.search(text)
    side = ""
    if ends:
        text, side = text[: ends.start()], _side(ends)
    if found := _MEASURES.match(text) or _THERE_ARE.match(text):
        return _until(found, side, sizes)
    if ends:
        long = _FOR_LONG.match(text)
        said = _only_length(long["long"], sizes) if long else ()
        return UntilLong(said, False, ends=side) if said else None
    if found := _TIMES.match(text):
        return _times(found, sizes)
    if found := _SO_MANY_ROWS.match(text):
        rows = counts(found["n"], sizes)
        return RowsInAll(rows) if rows else None
    if found := _FOR_LONG.match(text):
        said = _only_length(found["long"], sizes)
        return UntilLong(said, False) if said else None
    return None


def _side(found: re.Match[str]) -> str:
    said = found["side"].lower()
    if "facing" in found[0] and not found[0].lower().startswith((", end", " end", "end")):
        return "WS"  # the next is a right-side row
    if number := re.search(r"\d+", said):
        return number[0]
    return {"r": "RS", "w": "WS", "p": "WS", "e": "2", "s": "2", "l": "last"}[said[0]]


def _until(found: re.Match[str], side: str, sizes: int) -> Goal | None:
    said = _only_length(found["long"], sizes)
    if not said:
        return None
    words = found.groupdict()
    if "what" not in words:
        return UntilLong(said, False, ends=side)
    what = (words["what"] or "").strip().lower()
    start = (words["from"] or "").strip(" ,").lower()
    if _CAST_ON_EDGE.search(start):
        return UntilLong(said, True, ends=side)
    if not start and what in _WHOLE_PIECE:
        return UntilLong(said, True, ends=side)
    return UntilLong(said, False, what, start, side)


def _times(found: re.Match[str], sizes: int) -> Goal | None:
    if found["again"]:
        return MoreOften((1,))
    if found["once"]:
        return MoreOften((_SO_OFTEN[found["once"].lower()],))
    if found["in_all"]:
        return TimesInAll((_SO_OFTEN[found["in_all"].lower()],))
    values = counts(found["n"], sizes)
    if values is None:
        return None
    if found["total"]:
        return MoreOften(tuple(value - 1 for value in values)) if min(values) > 1 else None
    more = found["more"] or found["after"] or "further" in found[0]
    return MoreOften(values) if more else TimesInAll(values)


def _only_length(text: str, sizes: int) -> tuple[str, ...]:
    said = next(lengths(text, sizes), None)
    return said.values if said and said.start == 0 and not text[said.end :].strip() else ()
