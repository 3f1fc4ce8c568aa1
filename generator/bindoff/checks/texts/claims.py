"""What the texts say of the pattern itself: its pieces, lengths, version and kind.

Only what can be said in one way is held against the pattern; a sentence that may mean something
else is left alone.
"""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import Prose
from bindoff.checks.texts.atodds import at_odds
from bindoff.checks.texts.edgingsaid import edgings_told
from bindoff.checks.texts.fibres import WOOL, spun
from bindoff.checks.texts.pickups import picked_up
from bindoff.checks.texts.striped import rows_of_yarns
from bindoff.checks.texts.told.lengthsof import lengths_told
from bindoff.checks.texts.told.numbers import IN_WORDS, number_of
from bindoff.checks.texts.tubetold import sizes_told, tubes_told
from bindoff.checks.texts.wholes import of_the_whole
from bindoff.checks.walk import length_said, millimetres, steps_of
from bindoff.diagnostics import Severity, Span
from bindoff.plan.values import Kind
from bindoff.records import Record
from bindoff.source.model import TextUse

_READ = (TextUse.HEAD, TextUse.STEP, TextUse.TEXT)
_NUMBER = rf"(?:\d+|{IN_WORDS})"
_PIECES = re.compile(
    r"\b(?:(?:knit|knitted|worked|made|crocheted)(?: flat)? (?:in|as)|there are)"
    rf" ({_NUMBER}) (?:flat |separate )?(?:pieces|tubes)\b"
    rf"|\bis (one|two|three) (?:long )?tubes?\b",
    re.IGNORECASE,
)
_THE_SECOND = re.compile(
    r"\b(?:make|knit|work|cast on(?: for)?)(?: now)? (?:the|a) (?:second|other) ([a-z]+)\b",
    re.IGNORECASE,
)
_VERSION = re.compile(r"\bthis is version (\d+(?:\.\d+)*)", re.IGNORECASE)
_ROUND = re.compile(r"\b(?:start|beginning|end) of (?:the|each|every) (?:round|rnd)s?\b", re.I)
_OTHER_WORK = re.compile(r"\b(?:crochet\w*|edging|pick(?:ed)? up|i-cord)\b", re.IGNORECASE)
_EACH_SIDE = re.compile(
    r"\b(?:an?|one) ([a-z]+) (?:to|at|on) (?:each|either) (?:side|end)\b", re.IGNORECASE
)
_STEP = re.compile(r"\b(?:repeat|see|from|as in|go back to) steps? (\d+)\b", re.IGNORECASE)
_CARED_FOR = re.compile(r"\b(?:wash|block|soak|dry|steam) the ([a-z]+)\b", re.IGNORECASE)
_KINDS = (
    "hat cap beanie bonnet toque",
    "cowl snood neckwarmer ring",
    "scarf stole",
    "shawl shawlette kerchief wrap",
    "sock",
    "mitten mitt wrister glove",
    "pullover sweater jumper gansey",
    "cardigan jacket",
    "vest waistcoat slipover",
    "blanket afghan throw",
    "cushion pillow",
    "headband",
    "legwarmer",
    "bookmark",
)
_THE_KIND = re.compile(
    r"(?<!\bas )(?<!\blike )(?<!\bthan )"
    r"\b(?:the|this|your|each|every|both)(?: (?:second|first|other|finished|damp|whole|two))? "
    rf"((?!(?:cap|ring|wrap)s?\b)(?:{'|'.join(' '.join(_KINDS).split())}))s?\b"
    r"(?! (?:size|needle|yarn|wool|length|weight|pattern|stitch|collar)|-)",
    re.IGNORECASE,
)
"""What is made, by its kind, and no other thing of that kind."""
_FIBRES = re.compile(r"\b(woollen|woolen|mohair|cashmere|alpaca|silk|cotton|linen)\b(?! stitch|-)")
# Felt is made of wool that is not treated for the machine; common practice, no source.
_FELTS = re.compile(r"(?:^|[.;] )(?:Felt|Full) (?:the|it|them|each|both)\b")
_TREATED = re.compile(r"superwash|machine[- ]washable", re.IGNORECASE)
_LENGTH = r"(\d+(?:\.\d+)?) ?(mm|cm|in|inches|inch)\b"
_DIRECTION = (
    r"(?: \([^()]*\))? (deep|wide|long|high|tall|around)\b"
    r"(?! (?:at|from|to|before|after|when|in)\b)"
)
_ACROSS = re.compile(r"\b(?:wide|width|around|circumference|chest|edge)\b")
_PARTS = (
    r"flap|cuff|brim|hem|band|ribbing|rib|border|collar|strap|edging|tab|gusset|thumb|toe|heel|leg|foot"
    r"|sleeve|yoke|body|crown|neckband"
)
_SIZE_LENGTH = rf"(?: size)? (?:is|are|measures) (?:about )?{_LENGTH}{_DIRECTION}"
_THIN = re.compile(rf"\b(?:{_PARTS})s? (?:is|are) {_LENGTH}{_DIRECTION}")
# What is bought or left, and the least of it that serves, in mm; common practice, no source.
_LEAST_OF = (
    (re.compile(rf"\b(?:tails?|ends?) (?:of|that is|about) (?:about )?{_LENGTH}", re.I), 60.0),
    (re.compile(rf"(?<![\d.]){_LENGTH} (?:long )?(?:tails?\b|ends? (?:to|for))", re.I), 60.0),
    (re.compile(rf"(?<![\d.]){_LENGTH} of (?:\w+ ){{0,2}}(?:waste|scrap) yarn", re.I), 100.0),
    (
        re.compile(
            rf"\bweave\b[^.;]{{0,60}}\bends?\b[^.;]{{0,60}}\bfor (?:at least |about )?{_LENGTH}",
            re.I,
        ),
        15.0,
    ),
    (
        re.compile(
            rf"\b(?:leave|leaving|cut|break)\b[^.;]{{0,40}}\b(?:tail|end)s?\b[^.;\d]{{0,12}}{_LENGTH}",
            re.I,
        ),
        60.0,
    ),
)
_KILOGRAMS = re.compile(r"(?<![\d.])(\d+(?:\.\d+)?) ?kg\b", re.IGNORECASE)
_MOST_KG = 3.0  # stuffing and yarn are bought by the gram; common practice, no source
_ANY_LENGTH = re.compile(r"[\d)¼½¾]\s?(?:mm|cm|in)")
_OFF, _OFF_MM = 0.03, 5.0
"""A length in prose is told to the nearest half a centimetre or quarter of an inch."""


@check(
    id="prose.claim",
    title="What the text says of the pattern is so",
    looks_at="sentences on how many pieces and colors it has, its version, what it is, its fibre "
    "and thickness, the start of the round in a pattern without "
    "rounds, a piece for each side that is made once, steps by number, pieces to sew on, "
    "a title, a heading and sizes by "
    "their names, one piece, a part of a ball, a set of needles, blocked sizes, washing, stitches "
    "picked up for so many rows, and rows of a yarn",
    why="a text stays as it was when the pattern changes, or comes from another pattern",
    severity=Severity.WARNING,
    remedy="Correct the sentence, or what it speaks of",
)
def claims_hold(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    if not context.in_english:
        return
    for prose in context.prose:
        if prose.kind in _READ:
            yield from _made(context, prose)
            yield from _worked(context, prose)
            yield from _called(context, prose)
            yield from spun(context, prose)
    yield from at_odds(context)
    yield from of_the_whole(context)
    yield from picked_up(context)
    yield from rows_of_yarns(context)
    yield from edgings_told(context)
    yield from tubes_told(context)
    yield from sizes_told(context)


def _made(context: Context, prose: Prose) -> Iterator[Finding]:
    """How many pieces there are, and how they differ."""
    pieces = context.pattern.pieces.values()
    made = sum(piece.make for piece in pieces)
    for found, place in prose.found(_PIECES):
        number = number_of(found[1] or found[2])
        if number not in (len(pieces), made, _cast_on(context)):
            yield Finding(f"`{found[0]}` stands here, and {made} are made", place)
    for found, place in prose.found(_THE_SECOND):
        same = [p for p in pieces if re.search(rf"\b{found[1]}\b", p.title, re.IGNORECASE)]
        if len(same) == 1 and same[0].make == 1:
            yield Finding(
                f"`{found[0]}` stands here, and `{same[0].title}` is made once",
                place,
                "Write `make: 2` on that piece",
            )
    for found, place in prose.found(_EACH_SIDE):
        named = [piece for piece in pieces if piece.title.lower() == found[1].lower()]
        if named and named[0].make == 1:
            yield Finding(
                f"`{found[0]}` takes two, and `{named[0].title}` is made once",
                place,
                "Write `make: 2` on that piece",
            )


def _cast_on(context: Context) -> int:
    """How many pieces begin with a cast-on; others go on from their stitches or edges."""
    keys = {
        at.plan.key for at in steps_of(context) if at.step.begins is not None and at.step.begins.by
    }
    return sum(context.pattern.pieces[key].make for key in keys)


def _worked(context: Context, prose: Prose) -> Iterator[Finding]:
    """Rounds, sides and steps."""
    for found, place in prose.found(_ROUND):
        flat = all(at.flat for at in steps_of(context) if any(at.step.rounds))
        if flat and not _OTHER_WORK.search(prose.text):
            yield Finding(f"`{found[0]}` stands here, and every piece is worked in rows", place)
    for found, place in prose.found(_STEP):
        longest = max((len(plan.steps) for plan in context.plan.pieces), default=0)
        if int(found[1]) > longest:
            yield Finding(f"there is no step {found[1]}; the longest piece has {longest}", place)


def _called(context: Context, prose: Prose) -> Iterator[Finding]:
    """What it is called, which version it is, and what it is made of."""
    for found, place in prose.found(_VERSION):
        if found[1] != context.pattern.version:
            yield Finding(f"this is version {context.pattern.version}", place)
    for found, place in (*prose.found(_CARED_FOR), *prose.found(_THE_KIND)):
        named, word = _named(context), found[1].lower()
        own = {kind for kind in _KINDS if {*kind.split()} & {*re.findall(r"\b\w+?(?=s?\b)", named)}}
        kind = next((k for k in _KINDS if word in k.split() or word[:-1] in k.split()), None)
        if kind and own and kind not in own and word not in named and _once(context, word):
            yield Finding(f"`{word}` stands here, and the pattern is of something else", place)
            return
    for found, _ in prose.found(_FELTS):
        for yarn in context.pattern.yarns.values():
            if yarn.fibre and (not WOOL.search(yarn.fibre) or _TREATED.search(yarn.fibre)):
                yield Finding(
                    f"`{found[0].lstrip('.; ')}` stands in the text, and this does not felt: "
                    f"{yarn.fibre}",
                    yarn.place.of("fibre").span,
                    "Name a yarn of untreated wool",
                )
    for found, place in prose.found(_FIBRES) if prose.path == ("summary",) else ():
        fibres = ", ".join({y.fibre: "" for y in context.pattern.yarns.values() if y.fibre})
        known = WOOL if found[1].startswith("wool") else re.compile(found[1], re.IGNORECASE)
        if fibres and not known.search(fibres):
            yarns = [*context.pattern.yarns.values()]
            if len(yarns) == 1 and yarns[0].fibre and not _once(context, found[1]):
                words = f"the texts speak of {found[1]}, and the yarn is of {fibres}"
                yield Finding(words, yarns[0].place.of("fibre").span)
                continue
            yield Finding(f"`{found[1]}` stands here, and the yarns are of {fibres}", place)


def _once(context: Context, word: str) -> bool:
    """Whether only one text has a word: what is worn or made beside it is told again."""
    stem = word.removesuffix("s")
    told = (prose for prose in context.prose if prose.kind in _READ)
    return sum(stem in prose.text.lower() for prose in told) <= 1


def _named(context: Context) -> str:
    """All that names the pattern and its pieces, in lower case."""
    pieces = context.pattern.pieces.items()
    names = " ".join(f"{key} {piece.title}" for key, piece in pieces)
    return f"{context.pattern.title} {context.pattern.summary} {names}".lower()


class _Told(Record):
    """A length that the pattern states, in mm per size, its words, and sentences that give it."""

    words: str
    mm: Sequence[float]
    said: "re.Pattern[str]"

    @property
    def across(self) -> bool:
        """Whether it is a width."""
        return bool(_ACROSS.search(self.words))


@check(
    id="prose.length",
    title="Lengths in the text are those of the pieces",
    looks_at="sentences such as ‘the cuff is 6 cm deep’ and ‘the small size is 75 cm wide’ against "
    "the finished measurements of that name or size, ‘until it measures 20 cm’ against the rows "
    "worked by then, within 5 mm or 3 %, and parts said to be less than a row high",
    why="a length typed by hand stays as it was when the pattern changes",
    severity=Severity.WARNING,
    remedy="Print the length from its measure, as {{ name }} in double braces, or correct it",
)
def lengths_hold(context: Context) -> Iterator[Finding]:
    """One finding for each length."""
    finished = [
        _Told(words=label.lower(), mm=measure.rounded, said=_said(label))
        for label, measure in context.plan.measures.finished.items()
        if measure.kind is Kind.LENGTH
    ]
    sizes = [(index, size, _said(size)) for index, size in enumerate(context.source.sizes)]
    for index, notion in enumerate(context.pattern.notions):
        span = context.pattern.place.of("notions").of(index).span
        for found in _KILOGRAMS.finditer(notion):
            if float(found[1]) > _MOST_KG:
                yield Finding(f"`{found[0]}` is more than anybody knits", span, "Check the unit")
        for pattern, shortest in _LEAST_OF:
            if length := pattern.search(notion):
                yield from _too_short(length, shortest, span)
    least = min(g.round_mm for size in context.plan.measures.sizes for g in size.gauges.values())
    for prose in context.prose:
        if prose.kind not in _READ or not _ANY_LENGTH.search(prose.text):
            continue
        for each in finished:
            for found, place in prose.found(each.said):
                same_way = each.across is bool(_ACROSS.search(found[3].lower()))
                if same_way and not any(_alike(_mm(found[1], found[2]), mm) for mm in each.mm):
                    most = dict.fromkeys((min(each.mm), max(each.mm)))
                    is_ = " to ".join(length_said(context, mm) for mm in most)
                    yield Finding(f"`{found[0]}` stands here, and it is {is_}", place)
        for index, size, said in sizes:
            for found, place in prose.found(said):
                if not any(_alike(_mm(found[1], found[2]), each.mm[index]) for each in finished):
                    yield Finding(
                        f"no finished measurement of size {size} is {found[1]} {found[2]}", place
                    )
        for told in lengths_told(context, prose):
            words = " ".join(prose.text[told.start : told.end].split())
            yield Finding(
                f"`{words}` stands here, and the nearest length there is, is "
                f"{length_said(context, told.nearest)}",
                prose.place(told.start, told.end),
            )
        ends: set[int] = set()
        for pattern, shortest in _LEAST_OF:
            for found, place in prose.found(pattern):
                if found.end(2) not in ends and not _FOR_NOW.match(prose.text, found.end()):
                    yield from _too_short(found, shortest, place)
                ends.add(found.end(2))
        for found, place in prose.found(_THIN):
            if _mm(found[1], found[2]) < least:
                yield Finding(
                    f"`{found[1]} {found[2]}` is less than a row, which is {least:.1f} mm high",
                    place,
                    "Check the unit",
                )


_FOR_NOW = re.compile(r"[^.;]{0,25}\buntil\b")
"""Behind the length of an end that is cut again, or woven in, later."""


def _too_short(found: "re.Match[str]", shortest: float, place: Span) -> Iterator[Finding]:
    if _mm(found[1], found[2]) < shortest:
        yield Finding(f"`{found[1]} {found[2]}` is too short to be of use", place, "Check the unit")


def _said(name: str) -> "re.Pattern[str]":
    """A sentence that gives a length to what is called ``name``."""
    return re.compile(rf"\bthe {re.escape(name)}{_SIZE_LENGTH}", re.IGNORECASE)


def _mm(figure: str, unit: str) -> float:
    return millimetres(float(figure), unit)


def _alike(one: float, other: float) -> bool:
    return abs(one - other) <= max(_OFF_MM, _OFF * other)


CHECKS = (claims_hold, lengths_hold)
