"""What a pattern puts on a piece that could harm a child, heard in its texts.

The words are those of the table of hazards (``hazardtable.py``): things that are hazards wherever
they stand (a pompom, a drawstring), unless the sentence only pictures something by them (beads of
rain), and things that mean something else too, where they are listed as notions or put on, hung,
threaded or closed with. The chains of the table add what is no word alone, and hundreds of things
that no knitting has; ``foreignparts.py`` what no list can know. These two are likely, and not sure.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.foreignparts import COUNT, SCENE, SEW, foreign
from bindoff.checks.hazardtable import Hazard, hazards, table
from bindoff.checks.prose import Prose
from bindoff.checks.walk import tied_tops
from bindoff.diagnostics import Span
from bindoff.records import Record
from bindoff.source.denials import left_off, left_off_next
from bindoff.source.model import TextUse
from bindoff.source.steps.buttonholes import ButtonholesStep
from bindoff.source.steps.cord import CordStep
from bindoff.source.steps.work import WorkStep


class Told(Record):
    """A word for a hazard, with its sentence. ``sure``: the word means nothing else here."""

    hazard: str
    word: str
    sentence: str
    place: Span
    sure: bool = True


_NOT_A_THING = (
    r"(?![-–](?:free|less|shaped)\b)(?![- ](?:shaped|curve|sleeves?|cuffs?|bottom|rib|stitch(?:es)?"
    r"|cast|bind|edg\w+|border|trim|hem|yarn|pattern|hats?|cables?|panels?|space|loops?)\b)"
    # a ribbon of waves, a string of boats: a picture
    r"(?! of (?!satin|velvet|silk|ribbon|cord|leather|wood|elastic|yarn|beads|tassels|chain|\d))"
    r"(?!\w)"
)

# A thing that something is only likened to.
_LIKENED = re.compile(
    r"\b(?:like|as \w+ as) (?:an?|the|some|so many|two|tiny|little)? ?(?:[\w'’-]+ ){0,2}$",
    re.I,
)
# Springy yarn and edges, and names of colors: put on, and yet no hazard.
_DOUBTFUL = re.compile(
    r"elastics?|sand|straw|corn|wheat|barley|rice|seeds|grains?|pebbles|gravel", re.I
)
_COLOURS = re.compile(r"\b(?:colou?rs?|shades?|hues?)\b", re.IGNORECASE)
_AS_THEY_DO = re.compile(r" do(?:es)?\b")
_IN_CHART = re.compile(
    r"[^.;:!?]{0,40}? (?:in|on|of) (?:the )?(?:charts?|motif|picture|photograph|pattern"
    r"|colou?rwork|grid)\b",
    re.IGNORECASE,
)
_SHOWN = re.compile(
    r"\b(?:charts?|pictures?|photographs?|drawings?|grids?) (?:\w+ )?(?:shows?|has|have|holds?)\b"
    r"[^.;:!?]*$",
    re.IGNORECASE,
)
_SEEMING = re.compile(r"\b(?:like|as if|as though|looks?|looked|seem\w*|remind\w*|called)\b", re.I)
_PUT = (
    rf"(?:{SEW}|hang|dangle|add|put|insert|slip|push|hide|thread|pull|run|pass|weave|lace|draw"
    rf"|trim"
    r"|decorate|finish|close|secure|hold|top|join|set|slide|cut|make|give|braid|crochet|leave|let"
    r"|loop|wind|wrap|buckle|plait|twist)"
)
_CLAUSE = r"(?:if|when|so|that|which|who|until|where|because|than|while)"
_PUT_ON = re.compile(
    rf"\b{_PUT}(?:s|es|ed|n|ing)?\b(?:(?!\b{_CLAUSE}\b)[^.;:!?]){{0,45}}$", re.IGNORECASE
)
_WITH_ONE = re.compile(
    rf"\b(?:with|by|(?:tail|mane|hair|whiskers|made|wig) of) {COUNT}(?:[\w'’-]+ ){{0,2}}$",
    re.IGNORECASE,
)
_IN_USE = re.compile(
    r"(?: of (?:[\w'’-]+ ){0,3}[\w'’-]+)? (?:goes|go|runs?|pass(?:es)?|hangs?|holds?|closes?"
    r"|keeps?|fits?|sits?|is|are)"
    r" (?:round|around|through|under|behind|inside|it|them|the|sewn|tied|knotted|glued|fixed"
    r"|attached)\b",
    re.IGNORECASE,
)
_AS_VERB = re.compile(r"(?:\b(?:to|you|we|they|will|can|may|must|rounds|rows)|^\W*)\s$", re.I)

# A tool, or something done at a machine, with yarn or while drying.
_TOOL = re.compile(
    r"\bneedles?\b(?! (?:felted))|\b(?:holds?(?! (?:about )?\d)|holding|held)\b"
    r"(?=[^.;:!?]*\b(?:stitch(?:es)?|sts|loops?|shape|width|place|rows?|rounds?)\b)"
    r"|\b(?:stitch(?:es)?|sts|loops?|yarns?)\b[^.;:!?]*\b(?:holds?|holding|held)\b"
    r"|\bholders?\b|\blifelines?\b"
    r"|\bwaste\b|\bprovisional\b|\bmarkers?\b|\bflexible\b|\bmachine\b|\btable\b",
    re.IGNORECASE,
)

_A_SHADE = re.compile(
    r" (?:gr[ae]y|green|blue|white|brown|red|yellow|black|pink|cream|tan|beige|purple|orange"
    r"|mushrooms?)\b(?! (?:buttons?|beads?|ribbons?|cords?|eyes?))",
    re.IGNORECASE,
)
"""What makes a name of a color of a word: `magnet grey`."""
_OF_DEVICE = re.compile(
    r" (?:of|on) (?:the|your|an?) (?:[\w-]+ )?(?:counter|scales?|camera|phone|timer|machine|motor"
    r"|iron|lamp|website|computer|app|tablet|screen)\b",
    re.IGNORECASE,
)
"""What belongs to a thing of the workplace."""

# A magnet that keeps a chart or a tool, and the batteries of a scale.
_AT_WORK: Mapping[str, "re.Pattern[str]"] = {
    "magnets": re.compile(r"\b(?:charts?|boards?|fridge door|needles|pins|scissors)\b", re.I),
    "button cells": re.compile(r"\bscales?\b", re.I),
}

# What is a cord only where it hangs, or holds the piece on: elsewhere a cable, a seam or a loop.
_WORN = re.compile(
    r"\b(?:(?:hang|dangl)\w*|(?:under|behind|around|round) (?:the|its|your) (?:chin|neck)"
    r"|(?:hold|keep|tie)\w* (?:it|them|the (?:hat|cap|bonnet|mitts|mittens)) on)\b",
    re.IGNORECASE,
)
_LOOSE = re.compile(
    r"(?<![\w-])(?:braids?|plaits?|chains?|strings?)(?! (?:cables?|stitch|patterns?|panels?|edg))"
    r"(?![-–\w])",
    re.IGNORECASE,
)
_LENGTHS = re.compile(
    r"\b(?:lengths?|chains?) of (?:chain|ribbon|cord|\d+ ?(?:cm|in|mm|m)\b)"
    r"|(?<!turning )(?<!starting )(?<!foundation )\bchains? of \d+\b"
    r"(?=[^.;!?]*\b(?:through|tie[ds]?|knot\w*|bow|each|hang\w*)\b)"
    r"|\b(?:cords?|bands?|ties|braids?|straps?|ropes?|strings?|ribbons?|plaits?|laces?"
    r"|tapes?) of (?:about )?\d+ ?(?:cm|inch(?:es)?|in|m)\b"
    r"|\b(?:cords?|ties|straps?|braids?|strings?|laces?) \d+ ?(?:cm|in)"
    r" long|\bchain stitch, \d",
    re.IGNORECASE,
)

# Only for those who are old enough.
_OLDER = re.compile(
    r"\b(?:adults?|grown[- ]?ups?|women|men|older (?:children|wearers))\b[^.;!?]*\bonly\b"
    r"|\bonly\b[^.;!?]*\b(?:adults?|grown[- ]?ups?|women|men|older (?:children|wearers))\b"
    r"|\bover (?:three|3)(?: years)?\b|\bfrom (?:three|3) years\b",
    re.IGNORECASE,
)
_SPRINGY = re.compile(r"\b(?:yarn|rib\w*|edge|fabric|knit\w*|is|are|very)\b[^.;]{0,20}$", re.I)
_NAMED = re.compile(
    r"(?:fringes?|zips?|straps?|ribbons?|elastic|bells?|clasps?|toggles?|snaps?)", re.IGNORECASE
)
_HEADINGS = re.compile(
    r"(?:(?<![\w-])[\w-]+ )?(?:ties?|cords?|strings|chin straps?)", re.IGNORECASE
)
_STITCHES_ON = re.compile(
    r"\b(?:stitches|sts|loops)\b[^.;:!?]{0,25} (?:on|onto|to) (?:an?|the) (?:[\w-]+ )?$",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"[^.;!?]+(?:\.(?=\d)[^.;!?]*)*[.;!?]?")
_BEADS = re.compile(r"\b(?:pb|slb|place bead)\b")


def _compiled(words: str, after: str) -> "re.Pattern[str]":
    return re.compile(rf"(?<![\w-])(?:{words}){after}", re.IGNORECASE)


_Words = tuple[tuple[str, "re.Pattern[str]"], ...]


def _of_rows(words: Callable[[Hazard], str], after: str) -> _Words:
    """The hazard and the words of every row that has any."""
    return tuple((each.kind, _compiled(words(each), after)) for each in table() if words(each))


@cache
def _sure() -> _Words:
    return _of_rows(lambda each: each.things, r"(?![-–](?:free|less)\b)(?!\w)")


@cache
def _likely() -> _Words:
    return _of_rows(lambda each: each.perhaps, _NOT_A_THING)


@cache
def _bought() -> _Words:
    return tuple(
        (
            each.kind,
            re.compile(rf"\b(?:{each.bought})\b(?! (?:stitch|chart|pattern))", re.IGNORECASE),
        )
        for each in table()
        if each.bought
    )


def told(context: Context) -> Iterator[Told]:
    """Every hazard that the source tells of: in its steps, then in its texts in their order."""
    for title, by, place in tied_tops(context):
        yield Told("cords", by, f"{title}: top closed by a {by}", place)
    yield from _worked(context)
    parts = own_words(context)
    for prose in context.prose:
        if prose.kind in (TextUse.ALT, TextUse.GAUGE) or prose.path[:1] == ("tools",):
            continue
        if prose.kind is TextUse.TITLE:
            yield from _in_title(prose)
            continue
        for sentence in _SENTENCE.finditer(prose.text):
            if not left_off_next(prose.text, sentence.end()) and not _OLDER.search(sentence[0]):
                yield from _in_sentence(prose, sentence, parts)


def own_words(context: Context) -> frozenset[str]:
    """The words that a pattern has for its pieces, sizes and yarns."""
    pattern = context.pattern
    pieces = (piece.title for piece in pattern.pieces.values())
    yarns = (yarn.name for yarn in pattern.yarns.values())
    named = (*pieces, *pattern.sizes, *yarns)
    return frozenset(word.lower() for each in named for word in re.findall(r"[\w'’-]+", each))


def _worked(context: Context) -> Iterator[Told]:
    """Buttonholes call for buttons, and beads are placed by rows, without a word for either."""
    for piece in context.pattern.pieces.values():
        for step in piece.steps:
            if isinstance(step, ButtonholesStep):
                place = step.place.of("buttonholes").span
                yield Told("small parts", "buttonholes", "buttonholes", place)
            if isinstance(step, CordStep):
                yield Told("cords", "i-cord", "an i-cord", step.place.of("cord").span)
            rows = step.work if isinstance(step, WorkStep) else ()
            written = (rows,) if isinstance(rows, str) else rows
            if any(_BEADS.search(row) for row in written) and "pb" not in context.pattern.stitches:
                yield Told("small parts", "pb", "beads", step.place.of("work").span)


def _in_title(prose: Prose) -> Iterator[Told]:
    """Sections and pieces that are called by a hazard; the name of the pattern is only a name."""
    if prose.path == ("title",):
        return
    if _HEADINGS.fullmatch(prose.text.strip()):
        yield Told("cords", prose.text.strip(), prose.text, prose.span)
        return
    alone = _NAMED.fullmatch(prose.text.strip()) is not None
    for hazard, pattern in (*_sure(), *(_likely() if alone else ())):
        for found in pattern.finditer(prose.text):
            if not left_off(prose.text[: found.start()], prose.text[found.end() :]):
                yield Told(hazard, found[0], prose.text, prose.place(*found.span()))


def _in_sentence(prose: Prose, sentence: "re.Match[str]", parts: frozenset[str]) -> Iterator[Told]:
    words, start = sentence[0], sentence.start()
    for each in _heard(words, prose.path[:1] == ("notions",), parts):
        place = prose.place(start + each.begin, start + each.end)
        yield Told(each.hazard, words[each.begin : each.end], words, place, each.sure)


class _Heard(NamedTuple):
    """A hazard in a sentence, and which of its characters name it."""

    hazard: str
    begin: int
    end: int
    sure: bool = True


@lru_cache(maxsize=1 << 10)  # an edit leaves most sentences what they were
def _heard(words: str, listed: bool, parts: frozenset[str]) -> tuple[_Heard, ...]:
    """Every hazard in a sentence; ``listed`` among the notions."""
    return tuple(_hazards(words, listed, parts))


def _hazards(words: str, listed: bool, parts: frozenset[str]) -> Iterator[_Heard]:
    tool = _TOOL.search(words) is not None
    for hazard, pattern in _sure():
        for found in pattern.finditer(words):
            pictured = not listed and _pictured(words, *found.span(), parts)
            if not pictured and not _harmless(words, *found.span(), hazard, tool):
                yield _Heard(hazard, *found.span())
    for hazard, pattern in _likely():
        for found in pattern.finditer(words):
            put = _is_put(words[: found.start()]) or _IN_USE.match(words, found.end())
            worn = listed or (put and not _pictured(words, *found.span(), parts))
            if worn and not _harmless(words, *found.span(), hazard, tool):
                yield _Heard(hazard, *found.span(), sure=not _DOUBTFUL.fullmatch(found[0]))
    for row, span in hazards(words, parts):
        if (
            row.put_on
            and not (" " not in words[slice(*span)] and _AS_VERB.search(words[: span[0]]))
            and not _pictured(words, *span, parts)
            and not _harmless(words, *span, row.kind, tool)
        ):
            yield _Heard(row.kind, *span, sure=False)
    for hazard, pattern in _bought() if listed else ():
        for found in pattern.finditer(words):
            yield _Heard(hazard, *found.span())
    lengths = None if tool else _LENGTHS.search(words)
    lengths = lengths or (_LOOSE.search(words) if _WORN.search(words) else None)
    if lengths and not left_off(words[: lengths.start()], ""):
        yield _Heard("cords", *lengths.span())
    if not listed:
        for hazard, found in foreign(words, parts):
            if hazard in _AT_WORK and _AT_WORK[hazard].search(words):
                continue
            if not tool and not left_off(words[: found.start("noun")], words[found.end("noun") :]):
                yield _Heard(hazard, found.start("noun"), found.end("noun"), sure=False)


def _harmless(words: str, begin: int, end: int, hazard: str, tool: bool) -> bool:
    before, word = words[:begin], words[begin:end].lower()
    at_work = hazard in _AT_WORK and _AT_WORK[hazard].search(words)
    if at_work or _OF_DEVICE.match(words, end) or _A_SHADE.match(words, end):
        return True
    if _DOUBTFUL.fullmatch(word) and _COLOURS.search(words):
        return True
    if "elastic" in word and _SPRINGY.search(before):
        return True
    if hazard == "cords" and _STITCHES_ON.search(before):
        return True
    if tool and (hazard == "cords" or "pin" in word or hazard == "button cells"):
        return True
    return left_off(before, words[end:])


def _pictured(words: str, begin: int, end: int, parts: frozenset[str]) -> bool:
    """Whether a sentence only likens something to a thing, or names it where it tells of a place.

    Of a place: where it names what is seen there, none of it a piece of this pattern, and nothing
    is put on.
    """
    before = words[:begin]
    if _SHOWN.search(before):
        return True
    if _IN_CHART.match(words, end) and not _is_put(before):
        return True
    if _LIKENED.search(before) or _AS_THEY_DO.match(words, end):
        return True
    scene = {word.lower() for word in SCENE.findall(words)} - parts
    return bool(scene) and (not _is_put(words[:end]) or _SEEMING.search(before) is not None)


def _is_put(before: str) -> bool:
    """Whether what follows ``before`` is a thing that is put on, or with which something is."""
    if _AS_VERB.search(before):
        return False
    return bool(_PUT_ON.search(before) or _WITH_ONE.search(before))
