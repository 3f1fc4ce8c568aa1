"""The lines of a text, tidied, and those that are no part of the pattern set aside."""

import unicodedata
from collections.abc import Iterator

from bindoff import regex as re
from bindoff.records import Record


class Line(Record):
    """A line: its ``number`` in the file, its ``text``, how far it is moved in, and whether it is
    underlined, with the sign that does it. A ``text`` that is empty parts what it stands between.
    """

    number: int
    text: str
    indent: int = 0
    under: str = ""


class Origin(Record):
    """Words of the text, and the line they begin on."""

    line: int
    text: str


class Leaving(Record):
    """A line that is left out of the draft, and ``kind``, what such lines are."""

    kind: str
    number: int
    text: str


PAGES, MENUS, SHORT_FORMS = (
    "page numbers and repeated headers",
    "menus of a web page",
    "abbreviations, which the program explains itself",
)

_PAGE = re.compile(
    r"(?:.{0,60}[\s|,–—-])?(?:page|pg\.?) ?\d{1,3}(?: ?(?:of|/) ?\d{1,3})?|p\. ?\d{1,3}|"
    r"[-–—] ?\d{1,3} ?[-–—]|\d{1,3} ?/ ?\d{1,3}|\d{1,3} of \d{1,3}",
    re.IGNORECASE,
)
_ROW_OF_SIGNS = re.compile(r"([=~_*#.+•-])(?: ?\1){2,}|[–—]{3,}|_{3,}")
_LABELLED = re.compile(r"(?:rows?|rnds?|rounds?|r)\b", re.IGNORECASE)
_RIGHTS = re.compile(r"©|\(c\)|copyright|all rights reserved", re.IGNORECASE)
_WEB = re.compile(
    r"(?:home|shop|about(?: (?:me|us))?|contact(?: us)?|blog|patterns|free patterns|cart.{0,6}|"
    r"log ?in|sign ?(?:in|up)|search|menu|subscribe.{0,30}|newsletter|archives?|faq|gallery|"
    r"skip to .{0,20}content|back to top|print(?: this)?(?: page| pattern)?|share(?: this)?:?|"
    r"(?:re)?pin it|tweet|email this|e-?mail|previous(?: post)?|next(?: post)?|older posts?|"
    r"newer posts?|leave a (?:comment|reply)|\d{0,6} ?comments?(?: \(\d{1,6}\))?|"
    r"privacy(?: policy)?|"
    r"read more|download(?: pdf)?|tutorials|yarns?|my account|posted (?:on|by|in)\b.{0,60}|"
    r"filed under.{0,60}|tags?:.{0,80}|categories:?.{0,80}|links|news|events|free)",
    re.IGNORECASE,
)
_MENU_SIGN = re.compile(r"\s*[|»›>•·/]\s*|\s{3,}")


def tidy(raw: str) -> str:
    """A line without the marks of Markdown for bold, its white space single, lists' bullets kept.

    A line of a table becomes a name with a list of figures for the sizes.
    """
    text = "".join(
        mark if mark == "\t" or not unicodedata.category(mark).startswith(("C", "Z")) else " "
        for mark in raw
    )
    text = text.replace("\\*", "*").replace("**", "").replace("__", "")
    return re.sub(r"\s+", " ", _untabled(text.rstrip())).strip()


_CELL = re.compile(
    r"[\d½¼¾⅓⅔⅛⅜⅝⅞][\d½¼¾⅓⅔⅛⅜⅝⅞ ./-]*(?: ?(?:cm|mm|in|inches|[\"”″]|yrs?|years|mths|months))?|"
    r"(?:\d?X*[SML]|[1-9]X|small|medium|large|one size)(?:[/-]\d?X*[SML])?",
    re.IGNORECASE,
)
_UNIT_AT_END = re.compile(r"^(.*?) ?(cm|mm|in|inches|[\"”″])", re.IGNORECASE)
_UNIT_IN_HEAD = re.compile(r"^(.*?),? ?[(\[]?\b(?:in )?(cm|mm|in|inches)\b[)\]]?", re.IGNORECASE)
_SENTENCE_SIGNS = re.compile(r"[.:;,]$")


def _untabled(text: str) -> str:
    """``Chest⇥90⇥100 cm`` as ``Chest: 90 (100) cm``."""
    by_tab = [cell.strip() for cell in text.split("\t") if cell.strip()]
    cells = by_tab if len(by_tab) > 1 else re.split(r"\s{2,}|\s*\|\s*", text.strip(" |"))
    if len(cells) > 2 and all(_CELL.fullmatch(cell) for cell in cells[1:]):
        name, values, unit = cells[0], cells[1:], ""
        if in_head := _UNIT_IN_HEAD.fullmatch(name):
            name, unit = in_head[1], in_head[2]
        united = [_UNIT_AT_END.fullmatch(value) for value in values]
        if all(united):
            unit = united[0][2] if united[0] else ""
            values = [each[1] for each in united if each]
        elif united[-1] and not any(united[:-1]):
            unit, values = united[-1][2], [*values[:-1], united[-1][1]]
        return f"{name.rstrip(':')}: {values[0]} ({', '.join(values[1:])}) {unit}"
    if len(by_tab) == 2:
        between = " " if _SENTENCE_SIGNS.search(by_tab[0]) or by_tab[0].endswith(")") else ": "
        return f"{by_tab[0]}{between}{by_tab[1]}"
    return text


def raw_lines(text: str) -> list[str]:
    """The lines of ``text`` as editors number them: a page's end is no line's end."""
    return re.split(r"\r\n?|\n", text)


def lines_of(text: str) -> tuple[tuple[Line, ...], tuple[Leaving, ...]]:
    """The lines of ``text``, and those left out: the furniture of pages and of the web."""
    raw = raw_lines(text)
    tidied = [tidy(line) for line in raw]
    pages = _pages(raw, tidied)
    lines: list[Line] = []
    left: list[Leaving] = []
    for at, (line, words) in enumerate(zip(raw, tidied, strict=True)):
        kind = PAGES if at in pages else MENUS if _is_menu(line) else ""
        sign = _ROW_OF_SIGNS.fullmatch(words) if words else None
        if kind:
            left.append(Leaving(kind, at + 1, words))
            lines.append(Line(at + 1, ""))
        elif sign:
            if lines and lines[-1].text and len(lines[-1].text.split()) <= 9:
                above = lines.pop()
                lines.append(Line(above.number, above.text, above.indent, words[0]))
            lines.append(Line(at + 1, ""))
        else:
            indent = len(line) - len(line.lstrip())
            lines += [Line(at + 1, tidy(part), indent) for part in _BESIDE.split(line)]
    return tuple(lines), tuple(left)


def _is_menu(raw: str) -> bool:
    items = [each for each in _MENU_SIGN.split(raw.strip()) if each]
    if len(items) == 1:
        return bool(_ALONE.fullmatch(items[0]))
    named = sum(bool(_WEB.fullmatch(each)) for each in items)
    trail = items[:1] == ["Home"]  # the way to a page, at whose end stands its own name
    return len(items) > 1 and named > 1 and (trail or named * 2 > len(items))


_BESIDE = re.compile(r"(?<=\S)\s{4,}(?=[A-Z][A-Za-z ]{2,20}:)")
"""Between two facts that stand beside each other in a line."""

_ALONE = re.compile(
    r"skip to .{0,20}content|back to top|print this(?: page| pattern)?|share this:?|pin it|"
    r"leave a (?:comment|reply)|\d{0,6} ?comments? ?\(?\d{0,6}\)?|"
    r"(?:older|newer|previous|next) posts?|"
    r"posted (?:on|by|in)\b.{0,60}|filed under.{0,60}|subscribe.{0,30}|log ?in|[←→«»] ?.{0,40}",
    re.IGNORECASE,
)


def _pages(raw: list[str], tidied: list[str]) -> frozenset[int]:
    """Which lines are page numbers, or headers that stand again on each page."""
    feeds = {at for at, line in enumerate(raw) if "\f" in line}
    numbers = {
        at for at, words in enumerate(tidied) if len(words.split()) <= 10 and _PAGE.fullmatch(words)
    }
    numbers -= {at for at in numbers if not any(tidied[:at]) and len(tidied[at].split()) > 3}
    first = next((words for words in tidied if words), "")
    beside = [at for at in _beside(numbers, feeds, tidied) if at not in numbers]
    counted = [tidied[at].casefold() for at in beside]
    headers = {
        at
        for at in beside
        if len(tidied[at].split()) <= 12
        and not _LABELLED.match(tidied[at])
        and tidied[at] != first
        and (
            _RIGHTS.search(tidied[at])
            or tidied[at].casefold().startswith(first.casefold())
            or counted.count(tidied[at].casefold()) > 1
        )
    }
    again = {at for at in beside if at > 0 and tidied[at] == first and any(tidied[:at])}
    return frozenset(numbers | headers | again)


def _beside(numbers: set[int], feeds: set[int], tidied: list[str]) -> Iterator[int]:
    """The lines next to a page's end: the last written one before it, the first one after it."""
    written = [at for at, words in enumerate(tidied) if words]
    for at in sorted(numbers):
        yield from written[max(0, written.index(at) - 1) : written.index(at) + 2]
    for feed in sorted(feeds):
        yield from [at for at in written if at < feed][-1:]
        yield from [at for at in written if at >= feed][:1]
