"""The sentences of instructions: what each says, in one of a few kinds, or that it is prose.

Sayings of the trade: common practice, no source. A sentence that fits no kind wholly is prose.
"""

from collections.abc import Callable, Iterator

from bindoff import regex as re
from bindoff.draft.figures import LIST, UNIT, counts, lengths
from bindoff.records import Record

# ---------------------------------------------------------------- what sentences say


class UntilLong(Record):
    """Until so much is knitted: a length for all sizes or one each, from the start or from here."""

    values: tuple[str, ...]
    from_start: bool


class RowsInAll(Record):
    """So many rows or rounds; one figure, or one for each size."""

    values: tuple[int, ...]


class MoreOften(Record):
    """So many times more than they were worked."""

    values: tuple[int, ...]


Goal = UntilLong | RowsInAll | MoreOften


class CastOn(Record):
    """So many stitches cast on, and how, in a word that the source knows, and in the rest."""

    values: tuple[int, ...]
    method: str
    rest: str


class NumberedRow(Record):
    """A row under its label: its numbers, none where it has none; what is worked; its side."""

    first: int | None
    last: int | None
    row: str
    side: str = ""
    fills: bool = False  # stands for every second row from here on


class LikeRow(Record):
    """A row under its label that is worked as an earlier one."""

    number: int
    like: int


class Again(Record):
    """Rows worked again: ``many`` last ones, or those numbered ``first`` to ``last``, or all."""

    many: int | None
    first: int | None
    last: int | None
    goal: Goal


class Plain(Record):
    """Rows of a fabric with a name, so many or so long."""

    fabric: str
    goal: Goal


class Evenly(Record):
    """Stitches added or taken evenly over a row, to so many."""

    way: str
    values: tuple[int, ...]


class BindOff(Record):
    """All stitches bound off, and how."""

    how: str


class Gather(Record):
    """The yarn drawn through all stitches."""


class Prose(Record):
    """A sentence in its own words; ``works`` where it seems to work stitches, ``names_stitches``
    where it could be a row without a label."""

    text: str
    works: bool
    names_stitches: bool


Saying = CastOn | NumberedRow | LikeRow | Again | Plain | Evenly | BindOff | Gather | Prose

# ---------------------------------------------------------------- cutting

_END = re.compile(r"(?<=[.!?])\)? +(?=[A-Z*])")


def sentences(text: str) -> Iterator[tuple[int, str]]:
    """Each sentence of a paragraph with the character at which it begins."""
    at = 0
    for end in _END.finditer(text):
        yield at, text[at : end.start()]
        at = end.end()
    yield at, text[at:]


# ---------------------------------------------------------------- goals

_ROWS = r"(?:rows?|rounds?|rnds?)"
_MEASURES = re.compile(
    rf"(?:un)?til (?:the )?(?:(?P<what>[a-z ]{{2,20}}?) )?measures? (?:approx\w*\.? |about )?"
    rf"(?P<long>{LIST} ?-?{UNIT}.{{0,40}}?)"
    r"(?P<from> from (?:the )?(?:cast[ -]?on|beg|start|beginning|bottom)[a-z. -]*)?\.?$",
    re.IGNORECASE,
)
_FOR_LONG = re.compile(
    rf"(?:for )?(?P<long>{LIST} ?-?{UNIT}.{{0,40}}?)(?: more)?\.?$", re.IGNORECASE
)
_SO_MANY_ROWS = re.compile(rf"(?:for )?({LIST}) (?:more )?{_ROWS}\.?$", re.IGNORECASE)
_TIMES = re.compile(
    rf"({LIST}) (?:more )?times(?: more)?\.?$|(?:once|one) more(?: time)?\.?$", re.I
)
_WHOLE_PIECE = frozenset(("", "piece", "work", "it", "hat", "cowl", "scarf", "whole piece"))


def goal_said(text: str, sizes: int) -> Goal | None:
    """The goal that the end of a sentence says, ``None`` where it isn't wholly understood."""
    text = text.strip()
    if found := _MEASURES.match(text):
        said = _only_length(found["long"], sizes)
        whole = (found["what"] or "").strip().lower() in _WHOLE_PIECE
        return UntilLong(said, True) if said and (whole or found["from"]) else None
    if found := _TIMES.match(text):
        more = counts(found[1], sizes) if found[1] else (1,)
        return MoreOften(more) if more else None
    if found := _SO_MANY_ROWS.match(text):
        rows = counts(found[1], sizes)
        return RowsInAll(rows) if rows else None
    if found := _FOR_LONG.match(text):
        said = _only_length(found["long"], sizes)
        return UntilLong(said, False) if said else None
    return None


def _only_length(text: str, sizes: int) -> tuple[str, ...]:
    said = next(lengths(text, sizes), None)
    return said.values if said and said.start == 0 and not text[said.end :].strip() else ()


# ---------------------------------------------------------------- kinds of sentences

_CAST_ON = re.compile(rf"\b(?:cast on|co) (?P<n>{LIST})(?: (?:sts|stitches|st))?\b", re.IGNORECASE)
_METHODS = {
    "long-tail": "long-tail", "long tail": "long-tail", "cable": "cable", "knitted": "knitted",
    "backward": "backward-loop", "tubular": "tubular",
    "turkish": "turkish", "german twisted": "german twisted", "crochet": "crochet",
}  # fmt: skip
_METHOD_WORDS = re.compile(
    rf",? ?\b(?:using|with|by) (?:the |a )?(?P<method>{'|'.join(_METHODS)})(?: loop| ?cast[ -]?on"
    r"| method)*",
    re.IGNORECASE,
)


def _cast_on(text: str, sizes: int) -> Saying | None:
    found = _CAST_ON.search(text)
    values = counts(found["n"], sizes) if found else None
    if found is None or values is None:
        return None
    rest = text[: found.start()] + text[found.end() :]
    method = _METHOD_WORDS.search(rest)
    if method:
        rest = rest[: method.start()] + rest[method.end() :]
    rest = re.sub(r"\s+", " ", rest).strip(" ,.;")
    return CastOn(values, _METHODS[method["method"].lower()] if method else "", rest)


_LABEL = re.compile(
    rf"(?P<kind>(?:next|last|dec|inc|decrease|increase|set-?up|foundation|ws|rs)\.? )?{_ROWS}"
    r" ?(?P<first>\d{1,3})?(?: ?(?:-|–|to|and|&) ?(?P<last>\d{1,3}))?"
    r"(?P<fills> and (?:all|every) (?:other |even |even-numbered |alternate |alt |ws |following )*"
    rf"{_ROWS})?(?: ?\(?(?P<side>rs|ws|right side|wrong side)\)?)?(?: ?\([a-z ]{{2,20}}\))?"
    r" ?[:.–] ?(?P<row>.+)",
    re.IGNORECASE,
)
_LIKE = re.compile(
    rf"(?:work )?(?:as|same as|rep|repeat|like)(?: for)? {_ROWS} ?(\d{{1,3}})\.?$", re.IGNORECASE
)


def _numbered(text: str, sizes: int) -> Saying | None:
    found = _LABEL.match(text)
    if found is None:
        return None
    first = int(found["first"]) if found["first"] else None
    last = int(found["last"]) if found["last"] else first
    like = _LIKE.match(found["row"])
    if like and first is not None and first == last:
        return LikeRow(first, int(like[1]))
    side = (found["side"] or "").lower()[:1]
    return NumberedRow(
        first, last, found["row"], {"r": "RS", "w": "WS"}.get(side, ""), bool(found["fills"])
    )


_REPEAT = r"(?:rep|repeat|work)\.?"
_AGAIN = re.compile(
    rf"{_REPEAT} (?:(?:these|the last|the|last|this)\b ?)?(?P<many>\d{{1,2}}|two|three|four)? ?"
    rf"{_ROWS} (?P<goal>.+)",
    re.IGNORECASE,
)
_AGAIN_NUMBERED = re.compile(
    rf"{_REPEAT} (?:from )?{_ROWS} (?P<first>\d{{1,3}})(?: ?(?:-|–|to|and|&) ?(?P<last>\d{{1,3}}))?"
    r" (?P<goal>.+)",
    re.IGNORECASE,
)
_MORE_OF_SAME = re.compile(
    rf"(?:work|rep|repeat|knit) (?P<n>{LIST}) more {_ROWS}(?: (?:the same|in the same way|like this"
    r"|as set|in patt(?:ern)?|in rib(?:bing)?))?\.?$",
    re.IGNORECASE,
)
_WORDS_FOR = {"two": 2, "three": 3, "four": 4}


def _again(text: str, sizes: int) -> Saying | None:
    if found := _MORE_OF_SAME.match(text):
        more = counts(found["n"], sizes)
        return Again(1, None, None, MoreOften(more)) if more else None
    for words in (_AGAIN_NUMBERED, _AGAIN):
        found = words.match(text)
        goal = goal_said(found["goal"], sizes) if found else None
        if found is None or goal is None or isinstance(goal, RowsInAll):
            continue
        said = found.groupdict()
        many, first = said.get("many"), said.get("first")
        return Again(
            (_WORDS_FOR.get(many.lower()) or int(many)) if many else None,
            int(first) if first else None,
            int(said.get("last") or first) if first else None,
            goal,
        )
    return None


FABRICS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "knit": (("k all",), ("k all",)),
    "purl": (("p all",), ("p all",)),
    "stockinette": (("k all",), ("k all", "p all")),
    "garter": (("k all", "p all"), ("k all",)),
    "k1, p1": (("*k1, p1; repeat from * to end",),) * 2,
    "k2, p2": (("*k2, p2; repeat from * to end",),) * 2,
}
"""The rows of a fabric with a name, in the round and flat."""

_NAMED_FABRIC = (
    (re.compile(r"(?:stockinette|stocking)(?: stitch| st)?|st\.? ?st|stst", re.I), "stockinette"),
    (re.compile(r"garter(?: stitch| st)?|g\.? ?st", re.I), "garter"),
    (re.compile(r"k1,? ?p1(?: rib(?:bing)?)?|1 ?[x×/] ?1 rib(?:bing)?", re.I), "k1, p1"),
    (re.compile(r"k2,? ?p2(?: rib(?:bing)?)?|2 ?[x×/] ?2 rib(?:bing)?", re.I), "k2, p2"),
)
_IN_FABRIC = re.compile(
    r"(?:work|continue|cont|knit)(?: even)?(?: in)? (?P<rest>.+)", re.IGNORECASE
)
_EVERY = re.compile(
    rf"(?:continue to |cont to )?(?P<way>knit|purl|k|p)(?: (?:every|each|all) {_ROWS})? "
    r"(?P<goal>.+)",
    re.IGNORECASE,
)


def _plain(text: str, sizes: int) -> Saying | None:
    if (found := _EVERY.match(text)) and (goal := goal_said(found["goal"], sizes)):
        fabric = "knit" if found["way"].lower().startswith("k") else "purl"
        return None if isinstance(goal, MoreOften) else Plain(fabric, goal)
    found = _IN_FABRIC.match(text)
    if found is None:
        return None
    many = re.match(rf"({LIST}) {_ROWS} (?:in |of )?", found["rest"], re.IGNORECASE)
    rest = found["rest"][many.end() :] if many else found["rest"]
    for words, fabric in _NAMED_FABRIC:
        if said := words.match(rest):
            said_goal = rest[said.end() :].strip(" ,.")
            goal = goal_said(said_goal or (many[0].strip() if many else ""), sizes)
            if many and not said_goal:
                rows = counts(many[1], sizes)
                goal = RowsInAll(rows) if rows else None
            return Plain(fabric, goal) if goal and not isinstance(goal, MoreOften) else None
    return None


_EVENLY = re.compile(
    rf"(?:(?:knit|work) (?:1|one) {_ROWS},? ?)?(?P<way>inc|dec)(?:reas(?:e|ing))?\.? "
    rf"(?:{LIST} )?(?:sts |stitches )?evenly[a-z ]{{0,40}}?[ ,;:(\[.–=-]*(?:to )?"
    rf"(?P<n>{LIST}) (?:sts|stitches)(?: rem(?:ain)?)?[)\]]?\.?$",
    re.IGNORECASE,
)


def _evenly(text: str, sizes: int) -> Saying | None:
    found = _EVENLY.match(text)
    values = counts(found["n"], sizes) if found else None
    if found is None or values is None:
        return None
    return Evenly("increase" if found["way"].lower() == "inc" else "decrease", values)


_BIND_OFF = re.compile(
    r"(?:bind off|cast off|bo)(?: all)?(?: (?:remaining|rem))?(?: (?:sts|stitches))?"
    r"(?P<how>(?: (?:loosely|in (?:rib|pattern|patt|knit|purl)(?:bing)?|knitwise|purlwise|"
    r"very|and))*)\.?$",
    re.IGNORECASE,
)
_GATHER = re.compile(
    rf"\b(?:thread|draw|run|pull|pass)\b[a-z ,\d]{{0,40}}\bthrough (?:the )?"
    rf"(?:all |live |rem\w* |last )*(?:{LIST} )?(?:loops|sts|stitches)\b",
    re.IGNORECASE,
)


def _bind_off(text: str, _: int) -> Saying | None:
    found = _BIND_OFF.match(text)
    return BindOff(found["how"].strip()) if found else None


def _gather(text: str, _: int) -> Saying | None:
    return Gather() if _GATHER.search(text) else None


_KINDS: tuple[Callable[[str, int], Saying | None], ...] = (
    _numbered, _cast_on, _evenly, _again, _plain, _bind_off, _gather,
)  # fmt: skip

_WORKS = re.compile(
    rf"\b(?:[kp]\d+|[kp] (?:every|each|all|to)|knit|purl|k2tog|ssk|yo|m1[lr]?|rep|repeat|"
    rf"(?:every|each|next|last|other|\d+) {_ROWS}|increas\w+|decreas\w+|inc|dec|pick up|graft|"
    r"bind off|cast off|cast on|work (?:even|in)|st st|garter|stockinette|rib for|until|"
    r"\d+ (?:sts|stitches))\b",
    re.IGNORECASE,
)
_STITCHES = re.compile(r"\*|\b(?:[kp]\d|k2tog|p2tog|ssk|yo|sc in|dc in)", re.IGNORECASE)


def saying(text: str, sizes: int) -> Saying:
    """What a sentence says for so many sizes."""
    said = next((each for kind in _KINDS if (each := kind(text, sizes))), None)
    return said or Prose(text, bool(_WORKS.search(text)), bool(_STITCHES.search(text)))
