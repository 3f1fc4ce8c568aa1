"""What stands before and after the words of a row: a label, and a stated count of stitches."""

from bindoff import regex as re
from bindoff.records import Record
from bindoff.source.rowlang.reader.tables import pattern
from bindoff.source.rowlang.reader.written import Written

_KINDS = (
    r"(?:(?:next|last|first|final|set-?up|foundation|dec|decrease|inc|increase|patt|pattern|rib|"
    r"ribbing|ridge|turning|fold|folding|heel|toe|cuff|decreasing|increasing|cable|lace|body|"
    r"beginning|dividing|closing|base|joining|eyelet|edging|border|this|plain|ws|rs|every|all|other|alternate|alt|even|odd|buttonhole|short|"
    r"\d+(?:st|nd|rd|th|d)|(?:\d+(?:st|nd|rd|th|d) ?(?:,|and|&) ?)+\d+(?:st|nd|rd|th|d)) )*"
)
_ROWS = r"(?:rows?|rounds?|rnds?|r(?=\d))"
_NUMBERS = r"(?: ?\d+(?: ?(?:,|and|&|to|-|\u2013|, and) ?\d+)*)?"
_OTHERS = (
    r"(?: ?[(\[]?(?:and|&|,) ?(?:all|every) (?:following |other |alternate |alt |even |odd |"
    r"even-numbered |odd-numbered |ws |rs |foll )*<R>[)\]]?)?"
)
_ASIDE = (
    r"(?: ?[(\[](?:(?:rs|ws|right side|wrong side|right-side|wrong-side|dec|decrease|inc|increase|"
    r"set-?up|buttonhole|eyelet|row|round|rnd|facing|only|short)[ ,;/]*)+[)\]]| (?:rs|ws))*"
)
_END = r" ?(?::|\.(?!\d)(?: ?\u2013)?| ?\u2013)"

_LABEL = pattern(rf"^\W*{_KINDS}{_ROWS}{_NUMBERS}{_OTHERS}{_ASIDE}{_END}\s*")
_ONLY_NUMBER = pattern(r"^\W*\d+(?:st|nd|rd|th|d)?[.:](?!\d)\s*")
_ONLY_SIDE = pattern(
    r"^\W*(?:(?:rs|ws|right side|wrong side):|\((?:rs|ws|right side|wrong side)\) ?[:,]?)\s*"
)
_RIGHT, _WRONG = (
    pattern(rf"\b(?:{short}|{long}[ -]side)\b")
    for short, long in (("rs", "right"), ("ws", "wrong"))
)
_RANGE = pattern(r"(\d+) ?(?:-|\u2013|to) ?(\d+)")
_SEVERAL = re.compile(r"\b(?:every|all)\b|\d\D+\d")
_CARDINALS = pattern(r"(?<=\d)(?:st|nd|rd|th|d)\b")


class Label(Record):
    """``Rows 5 and 7 (RS):``. ``several`` when it stands for more than one row.

    ``wrong_side`` is the side that it says, ``None`` where it says none.
    """

    text: str
    several: bool
    wrong_side: bool | None
    start: int
    end: int


def labelled(written: Written) -> tuple[Written, Label | None]:
    """``written`` without the label it begins with, and that label."""
    text = written.text
    found = _LABEL.match(text) or _ONLY_NUMBER.match(text) or _ONLY_SIDE.match(text)
    if found is None or found.end() == len(text):
        return written, None
    said = found[0].strip(" :.\u2013")
    plain = _CARDINALS.sub("", said)
    several = bool(_SEVERAL.search(plain))
    start, end = written.origin(0, len(found[0].rstrip()))
    sides = [bool(each.search(found[0])) for each in (_RIGHT, _WRONG)]
    wrong_side = sides[1] if sides[0] != sides[1] else None
    return written.part(found.end()), Label(said, several, wrong_side, start, end)


# ---------------------------------------------------------------- stated counts

_LIST = r"(\d+(?: ?(?:[(\[] ?\d+(?: ?[,:;] ?\d+)* ?[)\]] ?)+)?)"
_UNIT = r"(?:stitches|stitch|sts|st|sc|hdc|dc|htr|tr|dtr)\b"
_CHANGED = (
    r"(?P<way>dec'?d?|inc'?d?|decreased|increased|decs|incs|decreases|increases|dec sts|inc sts)\b"
    r"(?: on this <R>)?"
)
_SO_MANY = (
    r"(?:(?:are |now )?(?:remaining|remains|remain|rem|left|in total|total|altogether|live)\b)?"
    r"(?: (?:on|in) (?:the |your |each )?(?:needles?|<R>|work))?"
)
_OPEN, _CLOSE = r"[(\[]", r"[)\]]"

_ENDINGS = tuple(
    pattern(text)
    for text in (
        rf"[\s,;:.]*{_OPEN} ?{_LIST} ?{_UNIT} ?{_CHANGED} ?{_CLOSE}[\s.]*$",
        rf"[\s,;:.]*{_OPEN} ?{_LIST} ?(?:{_UNIT} ?)?{_SO_MANY} ?{_CLOSE}[\s.]*$",
        rf"\s*(?:[.;:=,\u2013]\s*)+{_LIST} ?{_UNIT} ?{_CHANGED}[\s.]*$",
        rf"\s*(?:[.:;=,\u2013]\s*)+{_LIST} ?{_UNIT} ?(?:are |now )?(?:remaining|remains|remain|rem|"
        rf"left|in total|altogether|on (?:the |your )?needles?)\b{_SO_MANY}[\s.]*$",
        rf"\s*(?:[.:=\u2013]\s*)+{_LIST} ?{_UNIT}[\s.]*$",
        rf"\s*[;,]\s*{_LIST} <S>[\s.]*$",
        rf"\s*=\s*{_LIST} ?(?:{_UNIT})?[\s.]*$",
    )
)
_FIGURE = re.compile(r"\d+")


class Said(Record):
    """A count at the end of a row, in order: one for all sizes, or one for each.

    ``sign`` is 0 for what is there after the row, 1 for stitches gained and -1 for stitches lost.
    """

    counts: tuple[int, ...]
    sign: int
    start: int
    end: int


def stated(written: Written, sizes: int | None) -> tuple[Written, tuple[Said, ...]]:
    """``written`` without the counts it ends with, and these.

    ``sizes`` is how many sizes the pattern has. A figure in brackets after another figure is the
    other size's, where there are so many sizes.
    """
    found = list[Said]()
    while match := next((m for each in _ENDINGS if (m := each.search(written.text))), None):
        listed = match[1]
        counts = tuple(int(figure) for figure in _FIGURE.findall(listed))
        bare = not re.search(r"[a-z=]", match[0])
        if bare and _is_of_sizes(written.text[: match.start()], len(counts), sizes):
            break
        if not written.text[: match.start()].strip(" ,;:."):
            break
        way = match.groupdict().get("way") or ""
        sign = 0 if not way else 1 if way.startswith("inc") else -1
        start = match.start(1)
        found.insert(0, Said(counts, sign, *written.origin(start, match.end(1))))
        written = written.part(0, match.start())
    return written, tuple(found)


def _is_of_sizes(before: str, more: int, sizes: int | None) -> bool:
    """Whether bracketed figures after ``before`` go on a list for the sizes."""
    figures = re.search(r"(\d+)(?:\s*[(\[]\s*[\d,:; ]+[)\]])*\s*$", before)
    if figures is None:
        return False
    return sizes is None or len(_FIGURE.findall(figures[0])) + more == sizes
