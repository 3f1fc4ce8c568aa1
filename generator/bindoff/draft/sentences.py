"""The sentences of instructions: what each says, in one of a few kinds, or that it is prose.

Sayings of the trade: common practice, no source. A sentence that fits no kind wholly is prose.
"""

from collections.abc import Callable, Iterator

from bindoff import regex as re
from bindoff.draft.figures import LIST, UNIT, counts, lengths
from bindoff.draft.goals import (
    ROWS,
    Goal,
    MoreOften,
    RowsInAll,
    TimesInAll,
    UntilLong,
    goal_said,
    in_digits,
    without_count,
)
from bindoff.draft.labels import label_of, numbers_of
from bindoff.records import Record

# ---------------------------------------------------------------- what sentences say


class CastOn(Record):
    """So many stitches cast on, and how, in a word that the source knows, and in the rest."""

    values: tuple[int, ...]
    method: str
    rest: str


class NumberedRow(Record):
    """A row under its label: its numbers, none where it has none; what is worked; its side.

    ``fills``: it stands for every second row, as ``Label`` says. ``label`` is as written, ``named``
    what the label calls it, such as dec.
    """

    numbers: tuple[int, ...]
    row: str
    side: str = ""
    fills: str = ""
    label: str = ""
    named: str = ""


class LikeRow(Record):
    """A row under its label that is worked as an earlier one; ``count`` is what it says after."""

    numbers: tuple[int, ...]
    like: int
    count: str = ""
    label: str = ""


class Again(Record):
    """Rows worked again: ``many`` last ones, or those ``numbers``, or all above.

    ``of`` names the part they stand in, where it is another; ``named`` the one row meant, such as
    dec; ``every`` how many rows from one to the next.
    """

    many: int | None
    numbers: tuple[int, ...]
    goal: Goal
    of: str = ""
    named: str = ""
    every: int = 1


class RowUntil(Record):
    """A row worked over and over: ``*k2, p2* around until it measures 5 cm``."""

    row: str
    goal: Goal
    label: str = ""


class StepsAgain(Record):
    """Numbered steps worked so many times more."""

    first: int
    last: int
    more: int


class Plain(Record):
    """Rows of a fabric with a name, so many or so long; ``as set``: of the one that is worked."""

    fabric: str
    goal: Goal


class EachRow(Record):
    """Stitches bound off where each of the next rows begins."""

    values: tuple[int, ...]
    rows: int


class Evenly(Record):
    """Stitches added or taken evenly over a row, to so many."""

    way: str
    values: tuple[int, ...]


class Cord(Record):
    """All stitches worked as a cord of that length."""

    values: tuple[str, ...]


class PickUp(Record):
    """Stitches picked up: so many along each edge, ``to`` in all; ``first`` is what to do before.

    ``rest`` is what stands behind.
    """

    edges: tuple[tuple[tuple[int, ...], str], ...]
    to: tuple[int, ...] = ()
    first: str = ""


class Held(Record):
    """Held stitches put back on needles, so many."""

    values: tuple[int, ...]


class Leave(Record):
    """All live stitches left waiting, on a holder and the like."""


class TakeUp(Record):
    """Another yarn is taken in hand, and nothing else is done."""

    text: str


class BindOff(Record):
    """All stitches bound off, and how; ``by`` is a method that the source knows."""

    how: str
    by: str = ""


class Gather(Record):
    """The yarn drawn through all stitches."""


class Prose(Record):
    """A sentence in its own words; ``works`` where it seems to work stitches, ``names_stitches``
    where it could be a row without a label."""

    text: str
    works: bool
    names_stitches: bool


Saying = (
    CastOn | NumberedRow | LikeRow | RowUntil | Again | StepsAgain | Plain | EachRow | Evenly | Cord
    | Leave | PickUp | Held | TakeUp | BindOff | Gather | Prose
)  # fmt: skip

# ---------------------------------------------------------------- cutting

_END = re.compile(
    r"(?:(?<=[.!?])|(?<=[.!?][)\]])|(?<=sts[)\]])|(?<=stitches[)\]])|(?<=\.\.\.)|"
    r"(?<=…)) +(?=[A-Z*“\"']|\d[.)] )"
)
_NO_END = re.compile(
    r"\b(?:approx|rep|cont|beg|inc|dec|foll|alt|patt|rem|tog|st|sts|no|nos|meas|ea|incl|e\.g|"
    r"i\.e)\.$",
    re.I,
)
_GOES_ON_ROW = re.compile(
    rf"(?:\(|\[|turn\b|(?:you (?:now )?have )?{LIST} (?:sts|stitches)\b|repeat from \*|"
    rf"rep from \*)",
    re.I,
)
_WHAT_FOLLOWS_IS_COUNT = re.compile(rf"[(\[]?(?:{LIST}) (?:sts|stitches)\b", re.IGNORECASE)


def sentences(text: str) -> Iterator[tuple[int, str]]:
    """Each sentence of a paragraph with the character at which it begins; a row with its label."""
    label = label_of(text)
    at, search = 0, label.end if label else 0
    while end := _END.search(text, search):
        search = end.end()
        before = text[at : end.start()]
        if _NO_END.search(before) and text[search : search + 1] != "*" and not _is_count(before):
            continue
        if at == 0 and label and _GOES_ON_ROW.match(text[search:]):
            continue
        yield at, text[at : end.start()]
        at = end.end()
        label = label_of(text[at:])
        search = at + (label.end if label else 0)
        if label:
            yield from ((at + start, each) for start, each in sentences(text[at:]))
            return
    yield at, text[at:]


def _is_count(text: str) -> bool:
    """Whether a sentence ends with a word for stitches, and not in the middle of one."""
    return bool(re.search(r"\b(?:sts|st|rem|tog|patt|alt|inc|dec)\.$", text, re.IGNORECASE))


# ---------------------------------------------------------------- kinds of sentences

_COUNT_OF_CAST_ON = rf"(?:all )?(?P<n>{LIST})(?: (?:sts|stitches|st|needles|loops))?\b"
_CAST_ON = re.compile(
    rf"\b(?:cast[ -]on|co|casting on:?)\b(?P<how>[^.\d(]{{0,60}}?) ?{_COUNT_OF_CAST_ON}",
    re.IGNORECASE,
)
_NO_CAST_ON = re.compile(
    r"\bat (?:the )?(?:beg|end|start)|\bover (?:the )?gap|\bnext (?:row|rnd)|\bunderarm|"
    r"\bto last|\bturn\b",
    re.I,
)
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
    if found is None or values is None or _NO_CAST_ON.search(text):
        return None
    if _STITCHES.search(text[: found.start()]) or _ROW_BEFORE.search(text[: found.start()]):
        return None
    rest = f"{text[: found.start()]}{found['how']} {text[found.end() :]}"
    method = _METHOD_WORDS.search(rest)
    if method:
        rest = rest[: method.start()] + rest[method.end() :]
    rest = re.sub(r"\s+", " ", rest).strip(" ,.;")
    rest = re.sub(r" ([,.;:])", r"\1", rest)
    return CastOn(values, _METHODS[method["method"].lower()] if method else "", rest)


_ROW_BEFORE = re.compile(
    r"\b(?:k|p|knit|purl|work)\b(?! (?:cast|up))|\bplace next\b", re.IGNORECASE
)


def casts_on(text: str) -> bool:
    """Whether a sentence casts on the stitches of a piece, for whatever sizes."""
    found = _CAST_ON.search(text)
    if found is None or _NO_CAST_ON.search(text) or label_of(text):
        return False
    return not _ROW_BEFORE.search(text[: found.start()])


_TAKES_UP = re.compile(r"\bpick(?:ing)? up (?:and (?:k|knit|purl|p)|\d)|\bpick up\b", re.IGNORECASE)
_HELD_AGAIN = re.compile(
    r"\b(?:place|put|slip|return|transfer|replace|rejoin|with)\b[^.]{0,60}?\b(?:held|(?:sts|"
    r"stitches|loops) "
    r"(?:from|on|left on) (?:the )?[a-z ]{0,24}(?:holder|waste yarn|spare needle|scrap yarn))",
    re.IGNORECASE,
)
_JOINS_PIECES = re.compile(
    r"\bjoin(?:ing)?\b(?![^.]*\bseams?\b)[^.]{0,60}\b(?:sleeves?|body|pieces|halves|legs|front|"
    r"back)\b",
    re.IGNORECASE,
)
_PICKS_UP_SO_MANY = re.compile(
    r"\bpick up (?:and (?:k|knit|purl|p) ?)?\d|\bcast on \d", re.IGNORECASE
)


def takes_stitches_up(text: str) -> bool:
    """Whether a sentence begins a piece from stitches picked up, held or joined."""
    return label_of(text) is None and any(
        words.search(text) for words in (_TAKES_UP, _HELD_AGAIN, _JOINS_PIECES)
    )


def picks_up_so_many(text: str) -> bool:
    """Whether a sentence says how many stitches are picked up or cast on."""
    return bool(_PICKS_UP_SO_MANY.search(text))


_LIKE = re.compile(
    rf"(?:work(?:ed)? )?(?:as|same as|rep|repeat|like)(?: for| in)? (?:{ROWS} |r)(\d{{1,3}})"
    r"(?P<count>[ ,.;:—–(\[-]*[^*]{0,60}?(?:sts|stitches)\b[^*]{0,30})?\.?$",
    re.IGNORECASE,
)


_UNTIL = re.compile(
    rf",? (?=(?:until|till?|for) )(?P<goal>(?:until|till?|for (?:another )?{LIST} ?(?:{UNIT}|"
    rf"{ROWS}))\b.*)$",
    re.IGNORECASE,
)


def _row_until(text: str, sizes: int) -> Saying | None:
    """A row, with a label or without, that says itself how long it is worked."""
    label = label_of(text)
    bare = text[label.end :] if label else text
    found = _UNTIL.search(bare)
    goal = goal_said(found["goal"], sizes) if found else None
    row = bare[: found.start()] if found else ""
    if goal is None or not _STITCHES.search(row) or (label and len(label.numbers) > 1):
        return None
    return RowUntil(
        re.sub(r"(?i)^(?:work|rep(?:eat)?) (?=[*(\[])", "", row),
        goal,
        label.written if label else "",
    )


def _numbered(text: str, sizes: int) -> Saying | None:
    label = label_of(text)
    if label is None:
        return None
    row = text[label.end :]
    like = _LIKE.match(row)
    if like and label.numbers and not label.fills:
        return LikeRow(
            label.numbers, int(like[1]), (like["count"] or "").strip(" .,"), label.written
        )
    return NumberedRow(label.numbers, row, label.side, label.fills, label.written, label.named)


_REPEAT = r"(?:then )?(?:rep|repeat|work)(?:\.|ing)?"
_N_OF_ROWS = (
    r"\d{1,3}(?:\s?(?:-|–|—|to|through|and|&|,)\s?(?:(?:rows?|rnds?|rounds?|r)\s?)?\d{1,3})*"
)
_AGAIN = re.compile(
    rf"{_REPEAT} (?:(?:them|it|this|these) (?=for|until|til|once|twice|\d+ (?:more )?times)|"
    rf"(?:(?:these|the last|the|last|this|the previous|above|the above)\b ?)?"
    rf"(?P<many>\d{{1,2}})? ?{ROWS}(?: above)?,? )(?P<goal>.+)",
    re.IGNORECASE,
)
_AGAIN_NUMBERED = re.compile(
    rf"{_REPEAT} (?:from )?(?:{ROWS} ?|r)(?P<numbers>{_N_OF_ROWS})"
    rf"(?: (?:of|in|from) (?:the )?(?P<of>[a-z][a-z' ’-]{{2,40}}?))?,? (?P<goal>(?:for|until|til|"
    rf"\d|once|twice|a |again).*)",
    re.IGNORECASE,
)
_AGAIN_NAMED = re.compile(
    rf"{_REPEAT} (?:the )?(?P<named>dec(?:rease)?|inc(?:rease)?)\.? {ROWS} (?:on )?every "
    rf"(?:(?:following |foll )?(?P<every>\d{{1,2}})(?:st|nd|rd|th) ?{ROWS}?|(?P<other>other|"
    rf"alt(?:ernate)?) {ROWS}) "
    r"(?P<goal>.+)",
    re.IGNORECASE,
)
_MORE_OF_SAME = re.compile(
    rf"(?:(?:work|rep|repeat)|knit(?=.*(?:same|like|as set|"
    rf"in ))) (?P<n>{LIST}) more {ROWS}(?: (?:the same|in the same way|like this"
    r"|as set|in patt(?:ern)?|in rib(?:bing)?))?\.?$",
    re.IGNORECASE,
)
_STEPS_AGAIN = re.compile(
    r"(?:rep|repeat) steps? (?P<first>\d{1,2}) ?(?:to|-|–|"
    r"through) ?(?P<last>\d{1,2}),? (?P<goal>.+)",
    re.I,
)


def _again(text: str, sizes: int) -> Saying | None:
    text = in_digits(text)
    if found := _STEPS_AGAIN.match(text):
        steps_goal = goal_said(found["goal"], sizes)
        if isinstance(steps_goal, MoreOften) and len(steps_goal.values) == 1:
            return StepsAgain(int(found["first"]), int(found["last"]), steps_goal.values[0])
        return None
    if found := _MORE_OF_SAME.match(text):
        more = counts(found["n"], sizes)
        return Again(1, (), MoreOften(more)) if more else None
    if found := _AGAIN_NAMED.match(text):
        goal = goal_said(found["goal"], sizes)
        every = 2 if found["other"] else int(found["every"])
        named = found["named"].lower()[:3]
        return Again(1, (), goal, named=named, every=every) if isinstance(goal, MoreOften) else None
    for words in (_AGAIN_NUMBERED, _AGAIN):
        found = words.match(text)
        goal = goal_said(found["goal"], sizes) if found else None
        if found is None or goal is None or isinstance(goal, RowsInAll):
            continue
        if isinstance(goal, TimesInAll) and text[:3].lower() == "rep":
            goal = MoreOften(goal.values)
        said = found.groupdict()
        many, numbers = said.get("many"), _numbers(said.get("numbers") or "")
        if numbers is None:
            return None
        return Again(int(many) if many else None, numbers, goal, (said.get("of") or "").strip())
    return None


def _numbers(said: str) -> tuple[int, ...] | None:
    bare = re.sub(r"(?i)\s*(?:rows?|rnds?|rounds?|r)\s?(?=\d)", " ", said)
    return numbers_of(bare) if said else ()


FABRICS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "knit": (("k all",), ("k all",)),
    "purl": (("p all",), ("p all",)),
    "stockinette": (("k all",), ("k all", "p all")),
    "reverse stockinette": (("p all",), ("p all", "k all")),
    "garter": (("k all", "p all"), ("k all",)),
    "k1, p1": (("*k1, p1; repeat from * to end",),) * 2,
    "k2, p2": (("*k2, p2; repeat from * to end",),) * 2,
}
"""The rows of a fabric with a name, in the round and flat."""

PLAIN = frozenset(("knit", "purl", "stockinette", "reverse stockinette", "garter"))
"""Fabrics that are gone on with where a text says so, or between rows that shape."""

_NAMED_FABRIC = (
    (
        re.compile(r"(?:stockinette|stocking)(?: stitch| st)?\b|st\.? ?st\b|stst\b", re.I),
        "stockinette",
    ),
    (
        re.compile(r"(?:rev(?:erse|\.)? (?:stockinette|stocking|st)(?: stitch| st)?)\b", re.I),
        "reverse stockinette",
    ),
    (re.compile(r"garter(?: stitch| st)?\b|g\.? ?st\b", re.I), "garter"),
    (
        re.compile(
            r"\(?k1,? ?p1\)?(?: rib(?:bing)?)?|(?:1 ?[x×/] ?1|single|k1/p1) rib(?:bing)?", re.I
        ),
        "k1, p1",
    ),
    (
        re.compile(
            r"\(?k2,? ?p2\)?(?: rib(?:bing)?)?|(?:2 ?[x×/] ?2|double|k2/p2) rib(?:bing)?", re.I
        ),
        "k2, p2",
    ),
)  # fmt: skip
_IN_FABRIC = re.compile(
    r"(?:work|continue|cont|knit|keep|beg(?:in(?:ning)?)?)\.?(?: even| straight)?"
    r"(?: with a (?:k|knit) row,?)?(?: working| knitting)?(?: in)? (?P<rest>.+)",
    re.IGNORECASE,
)
_WAYS = r"knit|purl|k|p|crank"
_EVERY = re.compile(
    rf"(?:then )?(?:(?:continue|cont\.?|go on|keep) (?:to |by )?)?(?P<way>{_WAYS})(?:ting|ing)?"
    rf"(?: (?:every|each|all) {ROWS})? (?P<goal>.+)",
    re.IGNORECASE,
)


def _plain(text: str, sizes: int) -> Saying | None:
    text = in_digits(text)
    if (found := _EVERY.match(text)) and (goal := goal_said(found["goal"], sizes)):
        fabric = "purl" if found["way"].lower().startswith("p") else "knit"
        return None if isinstance(goal, MoreOften | TimesInAll) else Plain(fabric, goal)
    if found := _EVERY_COUNTED.match(text):
        rows = counts(found["n"], sizes)
        fabric = "purl" if found["way"].lower().startswith("p") else "knit"
        return Plain(fabric, RowsInAll(rows)) if rows else None
    found = _IN_FABRIC.match(text)
    if found is None:
        return None
    many = re.match(rf"({LIST}) {ROWS},? (?:in |of )?", found["rest"], re.IGNORECASE)
    rest = found["rest"][many.end() :] if many else found["rest"]
    long = None if many else _LONG_FIRST.match(rest)
    rest = rest[long.end() :] if long else rest
    for words, fabric in _NAMED_FABRIC:
        if said := words.match(rest):
            said_goal = rest[said.end() :].strip(" ,.")
            said_goal = re.sub(r"^(?:\([^)]{3,60}\)|throughout|as set|only),? ?", "", said_goal)
            first = many[0].strip() if many else long[0].strip() if long else ""
            goal = goal_said(said_goal or re.sub(r" (?:in|of)$", "", first), sizes)
            if many and not said_goal:
                rows = counts(many[1], sizes)
                goal = RowsInAll(rows) if rows else None
            if isinstance(goal, MoreOften | TimesInAll):
                return None
            return Plain(fabric, goal) if goal else None
    return None


_EVERY_COUNTED = re.compile(
    rf"(?:then )?(?P<way>{_WAYS}) (?P<n>{LIST}) (?:more |plain )?{ROWS}(?: even| plain| straight|"
    r" more)*(?: for (?:the )?[a-z ]{3,20})?\.?$",
    re.I,
)
AS_SET = "as set"
_EVEN = re.compile(
    r"(?:then )?(?:work|continue|cont|knit)\.?(?: working)? (?:even|straight|(?:even |"
    r"straight )?(?:in|as) (?:patt(?:ern)?|set|est(?:ablished)?))"
    r"(?: in (?:patt(?:ern)?|st st|rib))?(?: without shaping)?,? (?P<goal>.+)",
    re.IGNORECASE,
)


def _even(text: str, sizes: int) -> Saying | None:
    found = _EVEN.match(in_digits(text))
    goal = goal_said(found["goal"], sizes) if found else None
    return Plain(AS_SET, goal) if isinstance(goal, UntilLong | RowsInAll) else None


_LONG_FIRST = re.compile(rf"{LIST} ?-?{UNIT},? ?(?:in |of )?", re.IGNORECASE)

_EACH_ROW = re.compile(
    rf"(?:then )?(?:bind off|cast off|bo) (?P<n>{LIST})(?: (?:sts|stitches|"
    rf"st))? at (?:the )?(?:beg|"
    rf"beginning|start)"
    rf"(?:\.|inning)? of (?:the )?(?:next|foll(?:owing)?) (?P<rows>\d{{1,2}}) {ROWS}$",
    re.IGNORECASE,
)


def _each_row(text: str, sizes: int) -> Saying | None:
    found = _EACH_ROW.match(without_count(in_digits(text).rstrip(". ")))
    values = counts(found["n"], sizes) if found else None
    return EachRow(values, int(found["rows"])) if found and values else None


_EVENLY = re.compile(
    rf"(?:(?:knit|work|purl|k|p)(?: (?:1|one|the next) {ROWS}| all| to end|"
    rf" across)?(?: and)?,? )?(?P<way>inc|dec)(?:reas(?:e|ing))?\.? "
    rf"(?:{LIST} )?(?:sts |stitches |st )?evenly[a-z ]{{0,40}}?[ ,;:(\[.–—=-]*(?:to )?"
    rf"(?P<n>{LIST}) (?:sts|stitches)(?: rem(?:ain)?)?[)\]]?\.?$",
    re.IGNORECASE,
)


def _evenly(text: str, sizes: int) -> Saying | None:
    label = label_of(text)
    bare = text[label.end :] if label and label.end < len(text) else text
    found = _EVENLY.match(bare)
    values = counts(found["n"], sizes) if found else None
    if found is None or values is None:
        return None
    return Evenly("increase" if found["way"].lower() == "inc" else "decrease", values)


_CORD = re.compile(
    r"(?:work|knit|make)(?: (?:an?|in))* (?:i-?cord|icord|knitted cord|"
    r"round cord)\b(?P<aside> ?\([^)]*\))?"
    r"(?: as follows)?,? ?(?P<goal>.*)",
    re.IGNORECASE,
)
_CORD_LONG = re.compile(
    rf"(?:for |of |(?:un)?til (?:it |the cord |cord |piece |work )?(?:measures|is) )?(?:about )?"
    rf"(?P<long>{LIST} ?-?{UNIT}[^.;]{{0,20}}?)(?: long| in length)?$",
    re.IGNORECASE,
)


def _cord(text: str, sizes: int) -> Saying | None:
    found = _CORD.match(text.rstrip(". "))
    long = _CORD_LONG.match(found["goal"]) if found else None
    said = next(lengths(long["long"], sizes), None) if long else None
    if said is None or long is None or said.start or long["long"][said.end :].strip():
        return None
    return Cord(said.values)


_PICK_UP = re.compile(r"(?P<first>.*?)\bpick up(?: and (?:knit|k))? (?P<rest>\d.*)", re.IGNORECASE)
_ONE_EDGE = re.compile(
    rf"(?P<n>{LIST}) (?:sts|stitches|st) (?P<where>(?:up|along|around|from|across|over|evenly|in|"
    rf"at|down|up|on|round|"
    r"through|into)\b[^,;.(]{3,70}?)(?=,? and \d|, (?:then )?(?:and )?\d|[.(—–;]|$)",
    re.IGNORECASE,
)
_TOTAL = re.compile(
    rf"[ .,;:(\[—–-]*(?:total (?:of )?)?(?P<n>{LIST}) (?:sts|stitches)(?: in all| total|"
    rf" in total)?[)\]]?\.?$",
    re.I,
)
_DOES_MORE = re.compile(
    r"\b(?:knit|purl|k\d|p\d|work|turn|cast|bind)\b|\bfor every\b|\bevery\b", re.IGNORECASE
)


def _pick_up(text: str, sizes: int) -> Saying | None:
    found = _PICK_UP.match(text)
    if found is None or _DOES_MORE.search(found["first"]):
        return None
    rest, edges = found["rest"], list[tuple[tuple[int, ...], str]]()
    to: tuple[int, ...] = ()
    while each := _ONE_EDGE.match(rest):
        values = counts(each["n"], sizes)
        if values is None:
            return None
        where = re.sub(
            r"(?i)^(?:evenly )?(?:along|around|from|across|over|round|evenly)? ?", "", each["where"]
        )
        edges.append((values, where.strip()))
        rest = re.sub(r"(?i)^(?:,|and|then| )+(?=\d)", "", rest[each.end() :])
    if total := _TOTAL.fullmatch(rest):
        to = counts(total["n"], sizes) or ()
        rest = ""
    if not edges or rest.strip(" ."):
        return None
    return PickUp(tuple(edges), to, found["first"].strip(" ,"))


_HELD = re.compile(
    rf"(?:slip|place|put|return|transfer)(?: the)?(?: (?P<n>{LIST}))? (?:held (?:thumb |sleeve )?"
    r"(?:sts|stitches)(?: for the [a-z ]{3,20})?|(?:held )?(?:thumb |sleeve )?(?:sts|"
    r"stitches) from "
    r"(?:the |a )?(?:stitch )?(?:holder|waste yarn|scrap yarn))(?: back)? (?:on(?:to)?|to|over) "
    r"[a-z0-9 .]{3,50}$",
    re.IGNORECASE,
)


def _held(text: str, sizes: int) -> Saying | None:
    found = _HELD.match(text.rstrip("."))
    values = counts(found["n"], sizes) if found and found["n"] else None
    return Held(values) if values else None


_TAKE_UP = re.compile(
    r"(?:change|switch|go back|return) (?:back )?to (?:yarn |"
    r"colou?r )?[A-Za-z0-9]{1,20}(?: yarn)?\.?$|"
    r"(?:join|join in|using|with) (?:yarn |colou?r )?(?:[A-F]|MC|CC\d?)\.?$",
    re.IGNORECASE,
)


_LEAVE = re.compile(
    rf"(?:leave|place|put|slip) (?:(?:all|the|these) )*(?:rem\w*\.? )?(?P<n>{LIST} )?"
    r"(?:live )?(?:sts|stitches) (?:on(?:to)?|to) (?:a |an |the )?(?:stitch )?"
    r"(?:(?:st(?:itch)?[ -])?holder|waste yarn|(?:spare|scrap) (?:needle|"
    r"yarn))(?: for [a-z ]{3,30})?$",
    re.IGNORECASE,
)


def _leave(text: str, _: int) -> Saying | None:
    found = _LEAVE.match(text.rstrip("."))
    if found is None or (found["n"] and "rem" not in text.lower()):
        return None  # so many may be some of them
    return Leave()


def _take_up(text: str, _: int) -> Saying | None:
    return TakeUp(text) if _TAKE_UP.match(text) else None


_BIND_OFF = re.compile(
    r"(?:then )?(?:bind|cast) off(?: all)?(?: (?:the )?(?:remaining|rem))?(?: (?:sts|stitches|"
    r"\d+ (?:sts|stitches)))?"
    r"(?P<how>[ ,.…]*.*)$|bo(?: all)?(?: (?:remaining|rem))?(?: (?:sts|"
    r"stitches))?(?P<short>(?: .*|\.)?)$",
    re.IGNORECASE,
)
_NOT_ALL = re.compile(
    r"^ ?(?:\d|the (?:first|next|last|cent)|first|next|cent|at |for |until|[a-z ]*\d+ (?:sts|"
    r"stitches)\b(?! rem))",
    re.I,
)
_BY = {"sewn": "sewn", "i-cord": "i-cord", "picot": "picot", "tubular": "tubular"}
_BY_WORDS = re.compile(
    rf",? ?\b(?:using|with|by|in) (?:the |an? )?(?P<by>{'|'.join(_BY)}) ?(?:bind[ -]?off|"
    rf"cast[ -]?off|method|edge)?"
    r"|^(?P<before>sewn|i-cord|picot|tubular)$",
    re.IGNORECASE,
)
_BIND_OFF_BY = re.compile(
    rf"(?:work|use) an? (?P<by>{'|'.join(_BY)}) (?:bind|cast)[ -]?off(?P<how>.*)$", re.IGNORECASE
)
_GATHER = re.compile(
    rf"\b(?:thread|draw|run|pull|pass)\b[a-z ,\d]{{0,40}}\bthrough (?:the |these |those )?"
    rf"(?:all |live |rem\w* |last )*(?:{LIST} )?(?:rem\w* |live )?(?:loops|sts|stitches)\b",
    re.IGNORECASE,
)


def _bind_off(text: str, _: int) -> Saying | None:
    if by := _BIND_OFF_BY.match(text):
        return BindOff(by["how"].strip(" ,."), _BY[by["by"].lower()])
    found = _BIND_OFF.match(text)
    if found is None:
        return None
    how = found["how"] or found["short"] or ""
    if _NOT_ALL.search(how):
        return None
    by = _BY_WORDS.search(how)
    method = (by["by"] or by["before"]).lower() if by else ""
    if by:
        how = how[: by.start()] + how[by.end() :]
    return BindOff(how.strip(" ,.…:"), _BY.get(method, ""))


def _gather(text: str, _: int) -> Saying | None:
    return Gather() if _GATHER.search(text) else None


_KINDS: tuple[Callable[[str, int], Saying | None], ...] = (
    _evenly, _row_until, _numbered, _cord, _pick_up, _cast_on, _again, _each_row, _plain, _even,
    _held, _leave, _take_up,
    _bind_off, _gather,
)  # fmt: skip

_WORKS = re.compile(
    rf"\b(?:[kp]\d+|[kp] (?:every|each|all|to|across)|knit|purl|k2tog|ssk|yo|m1[lr]?|rep|repeat|"
    rf"(?:every|each|next|last|other|\d+) {ROWS}|increas\w+|decreas\w+|inc|dec|pick up|graft|"
    r"bind off|cast off|cast on|work (?:even|straight|\d|in(?! the r))|st st|garter|stockinette|"
    r"rib for|crank|"
    r"until\b.*\b(?:measures?|remain|rem|left|(?:cm|in|inches)|sts|stitches)|\d+ (?:sts|"
    r"stitches))\b",
    re.IGNORECASE,
)
_STITCHES = re.compile(
    r"\*|\b(?:[kp]\d|k2tog|p2tog|ssk|(?:yo|kfb|pick up and (?:k|knit|purl) \d+|knit across|sc in|"
    r"dc in)\b)",
    re.IGNORECASE,
)
_FORMS = re.compile(
    rf"(?:these|the last|last|this|the) (?:\w+ )?{ROWS} (?:form|forms|set|sets|make|makes|are|"
    rf"is)\b[^*\d]*$",
    re.I,
)
_ROW_ALONE = re.compile(r"(?:knit|purl|k|p)\b(?! \d)", re.IGNORECASE)
_CLAUSE = re.compile(
    r"(?:,? and then|,? then|,? and|;|,) (?=(?:knit|purl|work|crank|bind|cast|continue|cont|rep|"
    r"repeat|"
    r"pick|break|cut|draw|thread)\b)",
    re.IGNORECASE,
)


def saying(text: str, sizes: int) -> Saying:
    """What a sentence says for so many sizes."""
    said = next((each for kind in _KINDS if (each := kind(text, sizes))), None)
    if said:
        return said
    names = _STITCHES.search(text) or _ROW_ALONE.match(text)
    works = _WORKS.search(text) and not _FORMS.match(text)
    return Prose(text, bool(works), bool(names))


def clauses(text: str, sizes: int) -> Iterator[tuple[int, str]]:
    """A sentence as the clauses that are understood on their own, else whole: *join, and knit 10
    rounds*. What stands before must be understood as well, or work no stitch."""
    if label_of(text) is None and isinstance(saying(text, sizes), Prose):
        for at in _CLAUSE.finditer(text):
            before, after = text[: at.start()], text[at.end() :]
            said = saying(before, sizes)
            idle = isinstance(said, Prose) and not said.works and not said.names_stitches
            if isinstance(saying(after, sizes), Prose) or (isinstance(said, Prose) and not idle):
                continue
            yield 0, f"{before}{at[0].rstrip()}" if idle else before
            yield at.end(), after
            return
    yield 0, text
