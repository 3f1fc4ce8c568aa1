"""Sentences that end a piece: stitches bound off, gathered, or left waiting.

Sayings of the trade: common practice, no source.
"""

from bindoff import regex as re
from bindoff.draft.figures import LIST
from bindoff.draft.sayings import BindOff, Gather, Leave, Saying

_LEAVE = re.compile(
    rf"(?:leave|place|put|slip) (?:(?:all|the|these) )*(?:rem\w*\.? )?(?P<n>{LIST} )?"
    r"(?:live )?(?:sts|stitches) (?:on(?:to)?|to) (?:a |an |the )?(?:stitch )?"
    r"(?:(?:st(?:itch)?[ -])?holder|waste yarn|(?:spare|scrap) (?:needle|"
    r"yarn))(?: for [a-z ]{3,30})?$",
    re.IGNORECASE,
)


def leave(text: str, _: int) -> Saying | None:
    """All stitches left on a holder and the like."""
    found = _LEAVE.match(text.rstrip("."))
    if found is None or (found["n"] and "rem" not in text.lower()):
        return None  # so many may be some of them
    return Leave()


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


def bind_off(text: str, _: int) -> Saying | None:
    """All stitches bound off."""
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


_GATHER = re.compile(
    rf"\b(?:thread|draw|run|pull|pass)\b[a-z ,\d]{{0,40}}\bthrough (?:the |these |those )?"
    rf"(?:all |live |rem\w* |last )*(?:{LIST} )?(?:rem\w* |live )?(?:loops|sts|stitches)\b",
    re.IGNORECASE,
)


def gather(text: str, _: int) -> Saying | None:
    """The yarn drawn through all stitches."""
    return Gather() if _GATHER.search(text) else None
