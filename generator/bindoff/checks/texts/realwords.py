"""Slips of the pen that make another word: one that a dictionary has, and that is not meant.

A word is asked about only where it stands in a text, and told only where its neighbours leave no
doubt: ``worked form`` is a slip, and ``to form a ring`` is none. Two tables know them:
words/slips.txt has words that are taken for another, words/slots.txt places in phrases of the trade
which few words fill (``with the right side …``).
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import quoted
from bindoff.diagnostics import Severity
from bindoff.records import Record
from bindoff.source.model import TextUse

# Lists that the places in words/slips.txt name.
_LISTS: Mapping[str, str] = {
    "article": (r"(?:the|an?|each|every|both|this|that|these|those|your|its|their|all)"),
    "plurals": (
        r"(?:colou?rs|yarns|balls|skeins|needles|stitches|sts|rows|rounds|ridges|sleeves|"
        r"fronts|socks|mittens|mitts|halves|sides|edges|ends|pieces|squares|strips|"
        r"markers|buttons|buttonholes|sizes|points|parts|seams|layers|ears|arms|legs|"
        r"wings|straps|pockets|bands|repeats|times)"
    ),
    "done": (
        r"(?:work(?:ed|ing)?|knit(?:ted|ting)?|made|taken|picked up|measur(?:ed|ing)|cut|"
        r"hung|start(?:ed|ing|s)?|beg[iau]n(?:s|ning)?|read(?:ing)?|repeat(?:ed|ing)?|"
        r"grow[ns]?|grew|seen|away|far|down|up|out|off|apart|different|inwards?|outwards?|"
        r"back|made|wound|hang(?:s|ing)?|remov(?:e|ed|ing)|slip(?:ped)?|transfer(?:red)?|"
        r"cm|inch(?:es)?)"
    ),
    "more": (
        r"(?:more|less|fewer|larger|smaller|longer|shorter|wider|narrower|rather|tighter|"
        r"looser|deeper|higher|lower|thicker|thinner|heavier|lighter|better|later|sooner|"
        r"bigger)"
    ),
    "nouns": (
        r"(?:needles?|yarns?|gauge|tension|stitches|hands?|hook|fingers|measurements|own|"
        r"size|work|swatch)"
    ),
}


class _Slip(Record):
    """What is meant where a word stands, and where it is a slip, as a regular expression."""

    meant: str
    where: str


class _Slot(Record):
    """A phrase with a place that few words fill: those, and others that may stand there too."""

    phrase: str
    meant: tuple[str, ...]
    fine: frozenset[str]


def _lines(name: str) -> Iterator[list[str]]:
    """The columns of each line of a table."""
    text = (Path(__file__).parents[1] / "words" / name).read_text(encoding="utf-8")
    yield from (line.split("\t") for line in text.splitlines() if not line.startswith("#"))


@cache
def _slips() -> Mapping[str, tuple[_Slip, ...]]:
    """The slips of words/slips.txt, by each of their words."""
    found: dict[str, tuple[_Slip, ...]] = {}
    for words, meant, where in _lines("slips.txt"):
        slip = _Slip(meant, where)
        for word in words.split(","):
            found[word] = (*found.get(word, ()), slip)
    return found


@cache
def _slots() -> Mapping[str, tuple[_Slot, ...]]:
    """The slots of words/slots.txt, by each of the words that stand in them."""
    found: dict[str, tuple[_Slot, ...]] = {}
    for words, phrase, meant, fine in _lines("slots.txt"):
        slot = _Slot(phrase, tuple(meant.split()), frozenset(fine.split()))
        for word in words.split():
            found[word] = (*found.get(word, ()), slot)
    return found


@cache
def _ready(phrase: str) -> "re.Pattern[str]":
    """A phrase of the tables, made ready when one of its words first stands in a text."""
    where = re.sub(r"<([a-z]+)>", lambda name: _LISTS[name[1]], phrase)
    return re.compile(where.replace(" ", r"\s+"), re.IGNORECASE)


@check(
    id="prose.word",
    title="Words are the ones that are meant",
    looks_at="words that a dictionary has and that stand where another is meant, as in `worked "
    "form the top` and `garden stitch`; verbs beside nouns of the other number; an article or a "
    "preposition with nothing after it",
    why="a voice reads the wrong word aloud, and a knitter reads the row twice",
    severity=Severity.WARNING,
    remedy="Correct the word",
    needs=Needs.SOURCE,
)
def words_meant(context: Context) -> Iterator[Finding]:
    """One finding for each word."""
    if not context.in_english:
        return
    names = {
        word
        for yarn in context.pattern.yarns.values()
        for word in re.findall(r"[a-z]+", yarn.name.lower())
    }
    for prose in context.prose:
        if prose.kind in _READ:
            yield from _meant_otherwise(prose, names)
            yield from _numbers(prose)
            yield from _lacking(prose)


_READ = (TextUse.HEAD, TextUse.STEP, TextUse.TEXT, TextUse.ALT)
_WORDS = re.compile(r"[a-z]+(?:['’][a-z]+)?")


def _meant_otherwise(prose: Prose, names: set[str]) -> Iterator[Finding]:
    """Words that the tables know as slips where they stand, but for those of ``names``."""
    told = {word.replace("’", "'") for word in _WORDS.findall(prose.text.lower())}
    heard: set[int] = set()
    for group, found, meant in (*_taken(prose, told - names), *_in_slots(prose, told)):
        if found.start(group) not in heard and found[group].lower() not in names:
            heard.add(found.start(group))
            yield Finding(
                f"`{found[group]}` stands in `{quoted(found).strip(' .,;:')}`",
                prose.place(*found.span(group)),
                f"Write `{meant}` if that is meant",
            )


_Heard = tuple[int, "re.Match[str]", str]


def _taken(prose: Prose, told: set[str]) -> Iterator[_Heard]:
    """Words taken for another, as the words beside them tell."""
    for slip in dict.fromkeys(slip for word in sorted(told) for slip in _slips().get(word, ())):
        for found in _ready(slip.where).finditer(prose.text):
            yield found.lastindex or 0, found, slip.meant


def _in_slots(prose: Prose, told: set[str]) -> Iterator[_Heard]:
    """Words that only look like those which fill their place in a phrase."""
    if " " not in prose.text:
        return
    for slot in dict.fromkeys(slot for word in sorted(told) for slot in _slots().get(word, ())):
        for found in _ready(slot.phrase).finditer(prose.text):
            word = found[1].lower()
            meant = _meant(word, slot.meant)
            if meant and word not in slot.fine:
                yield 1, found, meant


_LONG = 5  # a shorter word differs in one letter at most


def _meant(word: str, meant: Sequence[str]) -> str:
    """The word that looks like ``word``; empty where that is one of them or a form of it, or none
    looks like it."""
    if any(word.startswith(each) or each.startswith(word) for each in meant if len(each) > 3):
        return ""
    if word in meant:
        return ""
    for each in meant:
        most = 2 if min(len(word), len(each)) >= _LONG and word[0] == each[0] else 1
        if _letters_off(word, each) <= most:
            return each
    return ""


def _letters_off(one: str, other: str) -> int:
    """How many letters are exchanged, left out, added, or changed about from one to the other."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, a in enumerate(one, 1):
        last, row = row, [i]
        for j, b in enumerate(other, 1):
            best = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a != b))
            if i > 1 and j > 1 and a == other[j - 2] and one[i - 2] == b:
                best = min(best, before[j - 2] + 1)
            row.append(best)
        before = last
    return row[-1]


# ---------------------------------------------------------------- one and many

_MANY = (
    r"(?:two|three|four|five|six|seven|eight|nine|ten|both|these|those|all(?: the)?|small|little"
    r"|[2-9]|\d\d+)"
)
_SINGULAR_S = (
    r"(?:\w+(?:ss|us|is|ous)|always|perhaps|sometimes|lens|bias|canvas|gas|news|yes|series|means"
    r"|afterwards|towards|upwards|downwards|besides|inches|centimet(?:er|re)s|met(?:er|re)s|yards"
    r"|grams|minutes|hours|days|weeks|years|months|stitches|sts|rows|rounds|rnds|skeins|balls)"
)
_IS = r"(?:is|was|has|gets|goes|comes|makes|lies|stands|sits|meets|needs|does)"
_ARE = r"(?:are|were|have|go|come|meet|lie|stand|sit|get|measure)"
_THINGS = (
    r"(?:stitch|row|round|sleeve|front|back|body|yoke|cuff|collar|sock|mitten|mitt|hat|cowl|scarf"
    r"|shawl|blanket|square|band|border|edge|edging|seam|needle|marker|chart|thumb|heel|toe|foot"
    r"|leg|brim|crown|piece|strip|panel|button|buttonhole|repeat|ridge|strap|pocket|hood|neck"
    r"|neckband|hem|rib|increase|decrease|yarn over|ear|wing|fin|flipper|tail)"
)
_AGREES = (
    re.compile(
        rf"(?:^|[.;:,] |\band |\bbut |\bso |\bthat )({_MANY}(?: [a-z]+)? "
        rf"(?!{_SINGULAR_S} )[a-z]{{2,}}s {_IS})\b",
        re.IGNORECASE,
    ),
    re.compile(
        rf"(?:^|[.;:] )((?:the |your )?(?:[a-z]+ )?{_THINGS}s {_IS})\b(?! (?:to|what|where)\b)",
        re.IGNORECASE,
    ),
    re.compile(
        r"(?:^|[.;:] )((?:the )?(right|left|front|back) and (?:the )?(left|right|back|front) is)\b",
        re.IGNORECASE,
    ),
    re.compile(
        r"(?<!\bat )(?<!\bon )(?<!\bin )(?<!\bof )(?<!\bfrom )(?<!\balong )(?<!\bfor )"
        rf"\b((?:each|every|this|one) (?:[a-z]+ )?{_THINGS} {_ARE})\b",
        re.IGNORECASE,
    ),
)


def _numbers(prose: Prose) -> Iterator[Finding]:
    """A verb or a noun of one beside a word for many, or the other way about."""
    told: set[int] = set()
    for pattern in _AGREES:
        for found, _ in prose.found(pattern):
            if found.start(1) in told:
                continue
            told.add(found.start(1))
            words = " ".join(found[1].split())
            yield Finding(
                f"`{words}`: one of these words is for one and the other for many",
                prose.place(*found.span(1)),
                "Make both of one number",
            )


_LACKING = re.compile(
    r"\b((?:should|will|must|can|may|would)(?= (?:been|worked|has|is|are|was|measures|knitted)\b)"
    r"|the (?:of|to|and|is|are|in|on|at|from|with|for|by|until|then|or|an?|it|be)"
    r"|an? (?:of|the|is|are|from|with|until|then|it)"
    r"|(?:until|the|an|and) ?(?=[.;]))(?![\w-])"
)


def _lacking(prose: Prose) -> Iterator[Finding]:
    """An article with no noun after it, or a sentence that ends in a preposition."""
    for found, place in prose.found(_LACKING):
        yield Finding(f"a word is missing after `{found[0].split()[0]}`", place, "Write the word")


CHECKS = (words_meant,)
