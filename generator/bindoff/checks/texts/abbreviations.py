"""Abbreviations in prose against the document's list of them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import matches
from bindoff.checks.texts.misspelt import listed as listed_word
from bindoff.checks.texts.writing import UNFINISHED
from bindoff.diagnostics import Severity
from bindoff.document.tree import DefinitionList, Heading, plain
from bindoff.remembered import once_each
from bindoff.source.model import TextUse
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.vocabulary import Vocabulary

_WORD = re.compile(r"(?<![\w&/-])[A-Za-z][A-Za-z0-9]*(?:&[a-z])?(?![\w-])")

# An abbreviation beside its words: right side (RS), MC (main color), pm means place marker.
_EXPLAINED = re.compile(
    r"[a-z] \(([a-z][a-z0-9]{0,5})\)"
    r"|\b(([a-z])[a-z0-9]{0,5}) \((?=\3(?!ee\b|o\b|ame\b|uch\b))"
    r"|\b([a-z][a-z0-9]{0,5}) ?(?:=|means|stands for|is short for|is (?:the|an?)) ?[a-z]",
    re.IGNORECASE,
)

_BESIDE_WORDS = re.compile(r"[a-z] \(([A-Z][A-Za-z0-9]{1,5})\)")

# Usual abbreviations that no row is written with, so no list explains them (Craft Yarn Council's
# list, from memory). Those in capitals are ordinary words otherwise.
# fmt: off
_GENERAL = frozenset(
    {
        "st", "sts", "rnd", "rnds", "dpn", "dpns", "beg", "rem", "rep", "tog", "dec", "foll",
        "patt", "RS", "WS", "MC", "CC", "LH", "RH", "BO", "CO", "EOR",
    }
)
# fmt: on


@check(
    id="abbreviation.undefined",
    title="Every abbreviation is explained",
    looks_at="abbreviations of stitches and of the trade in every text of the designer's, against "
    "the document's list, which holds those of the rows",
    why="a beginner can't go on, and a voice reads letters that mean nothing",
    severity=Severity.WARNING,
    remedy="Write it out in words; rows explain their abbreviations by themselves",
)
def undefined_abbreviations(context: Context) -> Iterator[Finding]:
    """One finding for each abbreviation in each text."""
    listed = _listed(context)
    yarns = {word for key, yarn in context.pattern.yarns.items() for word in (key, yarn.name)}
    terms = Terms(context.pattern.terms)
    vocabulary = Vocabulary(standard_book(terms), {})
    meanings: dict[str, str | None] = {}
    explained = {
        (found[1] or found[2] or found[4]).lower()
        for prose in context.prose
        for found in _EXPLAINED.finditer(prose.text)
    }
    explained |= {f[1].lower() for p in context.prose for f in _BESIDE_WORDS.finditer(p.text)}
    for prose in context.prose:
        if prose.kind in (TextUse.TITLE, TextUse.ALT, TextUse.MATERIAL):
            continue
        told = set()
        for found in matches(_WORD, prose.text):
            word = found[0]
            if word not in meanings:
                meanings[word] = _stands_for(word, vocabulary)
            short = meanings[word]
            if word in yarns or word.lower() in explained:
                continue
            strange = short
            if strange is None and not _LOUD.search(prose.text[max(found.start() - 12, 0) :][:30]):
                strange = _in_capitals(context, word)
            if strange and strange.lower() not in listed and strange not in told:
                told.add(strange)
                yield Finding(f"`{word}` is nowhere explained", prose.place(*found.span()))


# Letters that everybody reads, or that name a body, a size, a paper or a law.
# fmt: off
_READ_BY_ALL = frozenset(
    {
        "A", "I", "US", "UK", "EU", "USA", "OK", "PDF", "TV", "CD", "DVD", "NB", "PS", "DK", "WPI",
        "AM", "PM", "ISO", "EN", "BS", "CE", "UKCA", "CPSC", "ASTM", "UV", "DIY", "FAQ", "QR", "ID",
        "RSVP", "SOS", "WIP", "AA", "AB", "ABC", "AC", "BC", "ABA", "BA", "XS", "XL", "XXL", "XXXL",
        "XXS", "SM", "LG", "MD", "CM", "MM", "IN", "YD", "OZ", "HTML", "EPUB", "SVG", "YES", "NO",
        "NOT", "DO", "AND", "OR", "ALL", "BOTH", "ONLY", "TO", "IS", "IT", "THE", "AT", "ON", "OF",
        "BUT", "EACH", "END", "FROM", "NOW", "ONE", "TWO", "SAME", "THIS", "THAT", "MUST", "NEVER",
    }
)
# fmt: on
_CAPITALS = re.compile(
    r"[A-Z]{2,5}|(?!CO2|MP[34])[A-Z]{2,3}\d|(?!Mc|De|La|Le|WiFi|HiFi)[A-Z][a-z]{1,2}[A-Z][a-z]{1,2}"
)
"""Capitals alone, before a digit, and of several words in one, as in CC, CC2 and StSt."""
_LOUD = re.compile(r"\b[A-Z]{2,}[ ,!]+[A-Z]{2,}\b")  # shouted, not shortened
_ROMAN = re.compile(r"[IVX]+")


def _in_capitals(context: Context, word: str) -> str | None:
    """A word in capitals that must stand for others; none where a name of the pattern has it, where
    all know it, or where it marks what is to be written yet."""
    if not _CAPITALS.fullmatch(word) or word in _READ_BY_ALL or _ROMAN.fullmatch(word):
        return None
    if UNFINISHED.fullmatch(word):
        return None
    if listed_word(word.lower()) or word in _named_in_capitals(context):
        return None
    return word


@once_each
def _named_in_capitals(context: Context) -> frozenset[str]:
    """The capitals that titles, names, sizes, charts and lists have, and texts with no others."""
    pattern = context.pattern
    names = [pattern.title, pattern.designer, *pattern.sizes, *pattern.charts, *pattern.yarns]
    names += [*pattern.pieces, *pattern.notions, *(tool.name for tool in pattern.tools)]
    names += [*pattern.measures, *pattern.finished, *pattern.stitch_patterns]
    names += [chart.title for chart in pattern.charts.values()]
    names += [piece.title for piece in pattern.pieces.values()]
    names += [yarn.name for yarn in pattern.yarns.values()]
    loud = [each.raw for each in context.prose if each.raw.isupper()]
    return frozenset(re.findall(r"\w{2,6}", " ".join((*names, *loud))))


# What an abbreviation is said to stand for: `MC is the main color`, `CC (contrast color)`,
# `main color (MC)`, and once more in the same breath: `and MC the main chart`.
_MEANING = r"((?:[a-z][a-z'’-]*)(?: (?!and\b|or\b|is\b|are\b|means\b|stands\b)[a-z][a-z'’-]*){0,3})"
_SHORT = r"([A-Z]{1,4}\d?|[a-z]{1,4}\d?[a-z]{0,3})"
_STANDS_FOR = re.compile(
    rf"(?<![\w/-]){_SHORT} (?:is|=|means|stands for|is short for|for) ?(?:the |an? )?{_MEANING}"
)
_IN_BRACKETS = re.compile(rf"(?<![\w/-]){_SHORT} \((?:the |an? )?{_MEANING}\)")
_AFTER_WORDS = re.compile(r"(?<![a-z])((?:[a-z][a-z'’-]{1,30} ){1,3})\(([A-Z]{2,4})\)")
_AND_THE = re.compile(rf"\band {_SHORT} (?:the|an?) {_MEANING}")


@check(
    id="abbreviation.two",
    title="One thing has one abbreviation, and one abbreviation one meaning",
    looks_at="abbreviations of stitches in every text of the designer's against the one under "
    "which rows and the document's list have the same stitch, and what texts say that an "
    "abbreviation stands for",
    why="a knitter who meets two abbreviations takes them for two stitches, and finds one of them "
    "in no list; one with two meanings is worked as the wrong one",
    severity=Severity.WARNING,
    remedy="Use one abbreviation for one thing throughout",
)
def two_abbreviations(context: Context) -> Iterator[Finding]:
    """One finding for each abbreviation."""
    listed = _listed(context)
    vocabulary = Vocabulary(standard_book(Terms(context.pattern.terms)), {})
    told = set(listed)
    for prose in context.prose:
        if prose.kind in (TextUse.TITLE, TextUse.ALT, TextUse.MATERIAL):
            continue
        for found in matches(_WORD, prose.text):
            word = found[0].lower()
            if word in told:
                continue
            told.add(word)
            other = _stands_for(found[0], vocabulary) if _short(word) else None
            if other and other.lower() in listed and word.rstrip("0123456789") != other.lower():
                place = prose.place(*found.span())
                yield Finding(f"`{found[0]}` is printed as `{other}` elsewhere", place)
    yield from _two_meanings(context)


def _two_meanings(context: Context) -> Iterator[Finding]:
    """Abbreviations that a text explains in two ways, or otherwise than the document's list."""
    meanings = _definitions(context)
    for prose in context.prose:
        if prose.kind in (TextUse.TITLE, TextUse.ALT, TextUse.MATERIAL):
            continue
        for short, words, (start, end) in sorted(_explanations(prose.text), key=lambda e: e[2]):
            if not _abbreviates(short):
                continue
            known = meanings.setdefault(short, words)
            if not _same_meaning(known, words):
                yield Finding(
                    f"`{short}` stands for `{words}` here, and for `{known}` elsewhere",
                    prose.place(start, end),
                    "Use two abbreviations for two things",
                )


def _explanations(text: str) -> Iterator[tuple[str, str, tuple[int, int]]]:
    """What a text says that abbreviations stand for: each with its words and its place."""
    said = set()
    for found in (*_STANDS_FOR.finditer(text), *_IN_BRACKETS.finditer(text)):
        said.add(found[1])
        yield found[1], found[2], found.span()
    for found in _AFTER_WORDS.finditer(text):
        if [word[0] for word in found[1].split()][-len(found[2]) :] == [*found[2].lower()]:
            said.add(found[2])
            yield found[2], found[1].strip(), found.span()
    for found in _AND_THE.finditer(text):
        if found[1] in said:
            yield found[1], found[2], found.span()


_UNITS = ("cm", "mm", "in", "yd", "oz")


def _abbreviates(word: str) -> bool:
    """Whether it can be no word of a sentence, and no unit."""
    if word in _UNITS:
        return False
    return (word.isupper() and word not in ("A", "I")) or (_short(word) and len(word) > 1)


def _same_meaning(one: str, other: str) -> bool:
    """Whether two explanations say the same: a word of one begins as one of the other."""
    stems = [{word[:4] for word in re.findall(r"[a-z]{3,}", each.lower())} for each in (one, other)]
    return not all(stems) or stems[0] <= stems[1] or stems[1] <= stems[0]


def _definitions(context: Context) -> dict[str, str]:
    """What the document's list says of each of its abbreviations."""
    found: dict[str, str] = {}
    inside = False
    for block in context.document.blocks:
        if isinstance(block, Heading) and block.level <= 2:
            inside = block.id == "abbreviations"
        elif inside and isinstance(block, DefinitionList):
            for entry in block.entries:
                found[plain(entry.term)] = plain(entry.meaning)
    return found


def _short(word: str) -> bool:
    """Whether it looks like an abbreviation: a number in it, or no vowel between its letters."""
    return any(c.isdigit() for c in word) or not any(c in "aeiou" for c in word[:-1])


def _listed(context: Context) -> set[str]:
    """The terms in the document's abbreviations, in lower case."""
    found: set[str] = set()
    inside = False
    for block in context.document.blocks:
        if isinstance(block, Heading) and block.level <= 2:
            inside = block.id == "abbreviations"
        elif inside and isinstance(block, DefinitionList):
            found |= {plain(entry.term).lower() for entry in block.entries}
    return found


def _stands_for(word: str, vocabulary: Vocabulary) -> str | None:
    """The abbreviation that a word is, as a list would show it; ``None`` for other words."""
    if word in _GENERAL:
        return word
    act = vocabulary.book.act(word)
    if act and not _is_word(word):
        words = act.wording(vocabulary.book.terms)
        return words.abbreviation if words.abbreviation != words.name else None
    said = vocabulary.stitch(word.lower())
    if said is None or len(word) < 2 or _is_word(word):
        return None
    return said.stitch.wording(vocabulary.book.terms).abbreviation


def _is_word(word: str) -> bool:
    """Whether it is an English word that is also the name of a stitch."""
    return word.lower() in ("knit", "purl", "slip", "skip", "yon", "sk", "below", "picot")


CHECKS = (undefined_abbreviations, two_abbreviations)
