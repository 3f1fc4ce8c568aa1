"""Sentences that put stitches on the needles: cast on, picked up, taken from holders; and yarns.

Sayings of the trade: common practice, no source.
"""

from bindoff import regex as re
from bindoff.draft.figures import LIST, counts
from bindoff.draft.labels import label_of
from bindoff.draft.sayings import STITCHES, CastOn, Held, PickUp, Saying, TakeUp

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


def cast_on(text: str, sizes: int) -> Saying | None:
    """Stitches cast on, as a sentence says it for so many sizes."""
    found = _CAST_ON.search(text)
    values = counts(found["n"], sizes) if found else None
    if found is None or values is None or _NO_CAST_ON.search(text):
        return None
    if STITCHES.search(text[: found.start()]) or _ROW_BEFORE.search(text[: found.start()]):
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


_PICK_UP = re.compile(r"^(?P<first>.*?)\bpick up(?: and (?:knit|k))? (?P<rest>\d.*)", re.IGNORECASE)


_ONE_EDGE = re.compile(
    rf"(?P<n>{LIST}) (?:sts|stitches|st) (?P<where>(?:up|along|around|from|across|over|evenly|in|"
    rf"at|down|up|on|round|"
    r"through|into)\b[^,;.(]{3,70}?)(?=,? and \d|, (?:then )?(?:and )?\d|[.(—–;]|$)",
    re.IGNORECASE,
)


_TOTAL = re.compile(
    rf"^[ .,;:(\[—–-]*(?:total (?:of )?)?(?P<n>{LIST}) (?:sts|stitches)(?: in all| total|"
    rf" in total)?[)\]]?\.?$",
    re.I,
)


_DOES_MORE = re.compile(
    r"\b(?:knit|purl|k\d|p\d|work|turn|cast|bind)\b|\bfor every\b|\bevery\b", re.IGNORECASE
)


def pick_up(text: str, sizes: int) -> Saying | None:
    """Stitches picked up along edges."""
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


def held(text: str, sizes: int) -> Saying | None:
    """Held stitches put back on needles."""
    found = _HELD.match(text.rstrip("."))
    values = counts(found["n"], sizes) if found and found["n"] else None
    return Held(values) if values else None


_TAKE_UP = re.compile(
    r"(?:change|switch|go back|return) (?:back )?to (?:yarn |"
    r"colou?r )?[A-Za-z0-9]{1,20}(?: yarn)?\.?$|"
    r"(?:join|join in|using|with) (?:yarn |colou?r )?(?:[A-F]|MC|CC\d?)\.?$",
    re.IGNORECASE,
)


def take_up(text: str, _: int) -> Saying | None:
    """A yarn taken in hand."""
    return TakeUp(text) if _TAKE_UP.match(text) else None
