"""Sentences of rows that have no words of their own: fabrics by name, shaping, cords.

Sayings of the trade: common practice, no source.
"""

from bindoff import regex as re
from bindoff.draft.figures import LIST, UNIT, counts, lengths
from bindoff.draft.goals import (
    ROWS,
    MoreOften,
    RowsInAll,
    TimesInAll,
    UntilLong,
    goal_said,
    in_digits,
    without_count,
)
from bindoff.draft.labels import label_of
from bindoff.draft.sayings import Cord, EachRow, Evenly, Plain, Saying

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


_EVERY_COUNTED = re.compile(
    rf"(?:then )?(?P<way>{_WAYS}) (?P<n>{LIST}) (?:more |plain )?{ROWS}(?: even| plain| straight|"
    r" more)*(?: for (?:the )?[a-z ]{3,20})?\.?$",
    re.I,
)


_LONG_FIRST = re.compile(rf"{LIST} ?-?{UNIT},? ?(?:in |of )?", re.IGNORECASE)


def plain(text: str, sizes: int) -> Saying | None:
    """Rows of a fabric with a name."""
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


AS_SET = "as set"


_EVEN = re.compile(
    r"(?:then )?(?:work|continue|cont|knit)\.?(?: working)? (?:even|straight|(?:even |"
    r"straight )?(?:in|as) (?:patt(?:ern)?|set|est(?:ablished)?))"
    r"(?: in (?:patt(?:ern)?|st st|rib))?(?: without shaping)?,? (?P<goal>.+)",
    re.IGNORECASE,
)


def even(text: str, sizes: int) -> Saying | None:
    """Rows of the fabric that is worked."""
    found = _EVEN.match(in_digits(text))
    goal = goal_said(found["goal"], sizes) if found else None
    return Plain(AS_SET, goal) if isinstance(goal, UntilLong | RowsInAll) else None


_EACH_ROW = re.compile(
    rf"(?:then )?(?:bind off|cast off|bo) (?P<n>{LIST})(?: (?:sts|stitches|"
    rf"st))? at (?:the )?(?:beg|"
    rf"beginning|start)"
    rf"(?:\.|inning)? of (?:the )?(?:next|foll(?:owing)?) (?P<rows>\d{{1,2}}) {ROWS}$",
    re.IGNORECASE,
)


def each_row(text: str, sizes: int) -> Saying | None:
    """Stitches bound off where rows begin."""
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


def evenly(text: str, sizes: int) -> Saying | None:
    """Stitches added or taken evenly over a row."""
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


def cord(text: str, sizes: int) -> Saying | None:
    """All stitches worked as a cord."""
    found = _CORD.match(text.rstrip(". "))
    long = _CORD_LONG.match(found["goal"]) if found else None
    said = next(lengths(long["long"], sizes), None) if long else None
    if said is None or long is None or said.start or long["long"][said.end :].strip():
        return None
    return Cord(said.values)
