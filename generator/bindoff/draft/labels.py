"""Labels of rows: Row 1 (RS):, 1st row, R2., Rows 2 & 3, Next rnd, Row 2 and all WS rows."""

from bindoff import regex as re
from bindoff.draft.goals import ROWS
from bindoff.records import Record


class Label(Record):
    """A label as ``written``, the ``numbers`` of its rows, and how many characters it takes.

    ``side`` RS or WS, where it says one; ``fills`` where its row stands for every second one, and
    for which: even, odd, RS, WS.
    """

    written: str
    numbers: tuple[int, ...]
    end: int
    side: str = ""
    fills: str = ""
    named: str = ""


_MOST_ROWS = 200
_SIDE = r"(?:rs|ws|right[ -]side|wrong[ -]side)"
_AND = r"(?:\s?(?:,|&|and|,? and)\s?)"
_LIST_OF = rf"\d{{1,3}}(?:st|nd|rd|th)?(?:{_AND}\d{{1,3}}(?:st|nd|rd|th)?)+"
_RANGE = r"\d{1,3}(?:st|nd|rd|th)?\s?(?:-|–|—|to|through)\s?\d{1,3}(?:st|nd|rd|th)?"
_NUMBERS = rf"(?:{_LIST_OF}|{_RANGE}|\d{{1,3}}(?:st|nd|rd|th)?)"
_NAMES = (
    r"(?P<named>(?:next|last|following|dec(?:rease)?|inc(?:rease)?|set-?up|foundation|eyelet|picot|"
    r"turning|fold|joining|dividing|division|ridge|rib|buttonhole|plain|beading|purl|knit|hem)"
    r"\.?(?: (?:dec(?:rease)?|inc(?:rease)?|set-?up|eyelet|\d{1,2}))?) "
)
_ALSO = (
    r"(?P<fills>,?(?: and| &)? (?:all|every) (?:(?:other|even|odd|even-numbered|odd-numbered|"
    r"alternate|alt|"
    rf"ws|rs|wrong[ -]side|right[ -]side|following|foll)\s?)*{ROWS}?(?: (?:of|in) [a-z ]{{3,30}})?)"
)
_BRACKETS = r"(?P<brackets>(?:\s?[(\[][^()\[\]]{1,40}[)\]])*)"
_SIDE_ALONE = rf"(?:,? (?P<side>{_SIDE}))?"
_LABEL = re.compile(
    rf"^(?:(?:{_NAMES})?(?:{ROWS})\b\.?(?: ?(?:nos?\.? ?)?(?P<after>{_NUMBERS}))?|"
    rf"r ?(?P<short>{_NUMBERS})|(?P<before>{_NUMBERS}) {ROWS}\b)"
    rf"{_ALSO}?{_SIDE_ALONE}{_BRACKETS}(?P<sign>\s?[:.]|\s?[–—]|\s-)?"
    rf"(?P<behind>\s*[(\[]{_SIDE}[)\]]:?)?\s*",
    re.IGNORECASE,
)
_EVERY = re.compile(
    rf"(?P<fills>(?:all|every) (?:other )?(?P<which>even|odd|even-numbered|odd-numbered|ws|rs|"
    rf"wrong[ -]side|"
    rf"right[ -]side)(?: numbered)? {ROWS})\s?[:.–—-]\s*",
    re.IGNORECASE,
)
_ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth",
)  # fmt: skip
_ORDINAL = re.compile(
    rf"(?P<n>{'|'.join(_ORDINALS)}) {ROWS}(?P<side> ?[(\[]{_SIDE}[)\]])?\s?[:.–—-]\s*(?=\S)",
    re.IGNORECASE,
)
_A_ROW = re.compile(
    r"[*\[(]|(?:[kpyms]|with|using|bind|cast|sl|work|co|bo|rep|as|ssk|in|dc|sc|ch)\S*", re.I
)


def label_of(text: str) -> Label | None:
    """The label that ``text`` begins with, ``None`` where it begins with none."""
    if ordinal := _ORDINAL.match(text):
        number = (1 + _ORDINALS.index(ordinal["n"].lower()),)
        side = _side_in(ordinal["side"] or "")
        return Label(ordinal[0].strip(" :.–—-"), number, ordinal.end(), side)
    if every := _EVERY.match(text):
        which = every["which"].lower()
        return Label(text[: every.end()].strip(" :.–—-"), (), every.end(), fills=_parity(which))
    found = _LABEL.match(text)
    if found is None or found.end() >= len(text):
        return None
    said = found["after"] or found["short"] or found["before"] or ""
    brackets = (found["brackets"] or "") + (found["behind"] or "")
    if not (said or found["named"] or found["sign"] or _side_in(brackets)):
        return None
    if not found["sign"] and not brackets and not _A_ROW.match(text[found.end() :]):
        return None
    if found["named"] and not said and not found["sign"] and not brackets:
        return None  # “next row knit”, “last row of the cuff”
    numbers = numbers_of(said)
    if numbers is None:
        return None
    fills = (found["fills"] or "").lower()
    return Label(
        text[: found.end()].strip(" :.–—-"),
        numbers,
        found.end(),
        _side_in(found["side"] or "") or _side_in(brackets),
        _parity(fills, numbers) if fills else "",
        (found["named"] or "").lower().strip(". "),
    )


def _side_in(words: str) -> str:
    found = re.search(rf"\b{_SIDE}\b", words, re.IGNORECASE)
    return {"r": "RS", "w": "WS"}[found[0][0].lower()] if found else ""


def _parity(words: str, numbers: tuple[int, ...] = ()) -> str:
    if re.search(r"\b(?:ws|wrong)", words):
        return "WS" if not numbers else "same"
    if re.search(r"\b(?:rs|right)", words):
        return "RS" if not numbers else "same"
    if "even" in words:
        return "even"
    return "odd" if "odd" in words else "same"


def numbers_of(said: str) -> tuple[int, ...] | None:
    """The numbers of rows that a label says, one after another; ``None`` where they can't be."""
    figures = [int(each) for each in re.findall(r"\d+", said)]
    if re.search(r"-|–|—|to|through", said) and len(figures) == 2:
        first, last = figures
        if last < first or last - first > _MOST_ROWS:
            return None
        return tuple(range(first, last + 1))
    return tuple(figures) if figures == sorted(set(figures)) else None
