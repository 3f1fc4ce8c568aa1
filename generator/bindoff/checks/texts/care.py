"""How a piece is washed, dried and pressed, against the fibres of its yarns.

Limits by fibre are those of common care labels (symbols and their temperatures: ISO 3758, from
memory): a tub with a figure is the highest temperature of the bath in °C, and an iron with one, two
or three dots is at most 110, 150 or 200 °C.
"""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.diagnostics import Severity
from bindoff.records import Record

_HOTTEST_WOOL = 40.0


class _Fibre(Record):
    """What a fibre bears: the bath and the iron in °C. ``felts`` says that it felts when it is
    rubbed, ``tumbled`` that a dryer spoils it, ``bleached`` that chlorine does."""

    name: str
    bath: float
    iron: float
    felts: bool = False
    tumbled: bool = False
    bleached: bool = False


# Common practice, no source; ISO 3758 gives the symbols, labels give the fibres.
_FIBRES: tuple[tuple["re.Pattern[str]", _Fibre], ...] = tuple(
    (re.compile(rf"\b(?:{words})\b", re.IGNORECASE), fibre)
    for words, fibre in (
        (
            r"mohair|angora|cashmere|alpaca|llama|camel|yak|qiviut|possum",
            _Fibre("hair", 30, 150, felts=True, tumbled=True, bleached=True),
        ),
        (
            r"wool(?:len)?|merino|lambswool|shetland|bluefaced leicester|polwarth|corriedale",
            _Fibre("wool", _HOTTEST_WOOL, 150, felts=True, tumbled=True, bleached=True),
        ),
        (r"silk", _Fibre("silk", 40, 150, tumbled=True, bleached=True)),
        (r"(?:poly)?acrylic", _Fibre("acrylic", 60, 110)),
        (r"nylon|polyamide|elastane|spandex", _Fibre("nylon", 60, 150, bleached=True)),
        (r"polyester|microfib(?:re|er)", _Fibre("polyester", 60, 150)),
        (r"viscose|rayon|bamboo|modal|lyocell", _Fibre("viscose", 60, 150)),
    )
)
_TREATED = re.compile(r"super-?wash|machine[- ]wash(?:able)?|felt[- ]?proof", re.IGNORECASE)
_FELTED = re.compile(
    r"\b(?:felt(?:s|ing|ed)?|full(?:ing|ed)|shrink(?:s|ing)?|shrunk)\b", re.IGNORECASE
)
_FLAME = r"(?:°|º|degrees?|deg\.?)"
_DEGREES = re.compile(
    rf"(?<![\d.])(?:(\d{{2,3}}) ?(?:(?:to|–|-) ?)?)?(\d{{2,3}}) ?{_FLAME} ?(C|F|Celsius"
    rf"|Fahrenheit)?\b"
    rf"|(?<![\d.])(\d{{2,3}}) ?{_FLAME}",
    re.IGNORECASE,
)
_WASHES = re.compile(
    r"\b(?:wash\w*|launder\w*|machine|laundry|soak\w*|rins\w*|bath|water|cycle|programme?|suds)\b",
    re.IGNORECASE,
)
_BOILED = re.compile(
    r"(?<!kettle )\bboil(?:s|ed|ing)?\b(?! (?:over|down|eggs?))"
    r"|(?<!-)\b(?:very |really |piping )?hot(?:test)? (?:soapy )?(?:water|bath|wash|suds|cycle"
    r"|programme?)\b"
    r"(?! (?:makes?|will|does|do|has|have|is|are|and (?:rubbing|friction|agitation))\b|[- ]bottle)"
    r"|\b(?:wash|soak|launder|rinse)(?: \w+){0,3} hot\b(?!-)"
    r"|\bwash(?:ed|es)?(?: \w+){0,3} at (?:a |the )?(?:boil|high|highest) ?(?:temperature|heat"
    r"|setting)?",
    re.IGNORECASE,
)
_TUMBLED = re.compile(
    r"\btumble[- ]?dr(?:y|ied|ies|ying|ier|yer)\b"
    r"|\b(?:in|into|through|use|using) (?:the|a|your)(?: \w+)? (?:tumble[- ]?)?dr[yi]er\b"
    r"|\bdr[yi]er[- ]safe\b",
    re.IGNORECASE,
)
_BLEACHED = re.compile(r"\b(?:chlorine )?bleach(?:ed|es|ing)?\b", re.IGNORECASE)
_MACHINE = re.compile(
    r"\bmachine[- ]?wash(?:ed|able|es|ing)?\b|\bwash(?:ed|es|able|ing)?(?: \w+){0,4} (?:in|by) "
    r"(?:the |a |your )?"
    r"(?:washing )?machine\b|\b(?:in|into) the (?:washing )?machine\b",
    re.IGNORECASE,
)
_GENTLE = re.compile(
    r"\b(?:wool(?:len)?s?|hand[- ]?wash|gentle|gently|delicates?|silk|mild|net|bag|pillowcase"
    r"|cold|cool|low)\b",
    re.IGNORECASE,
)
_KNITTING_MACHINE = re.compile(r"\bknit\w* machine|\bmachine[- ]knit|\bcrank", re.IGNORECASE)
_IRONED = re.compile(
    r"\b(?:iron(?:s|ed|ing)?|press(?:ed|es)?)\b(?! (?:out|the water|studs?|it out|gently between"
    r"|in a towel|between))",
    re.IGNORECASE,
)
_HOT_IRON = re.compile(
    r"\bhot(?:test)? (?:\w+ )?iron\b|\biron\w*(?: \w+){0,4} hot\b|\b(?:iron\w*"
    r"|press\w*)\b[^.;]*\b(?:(?:three|3) dots|cotton setting|linen setting|high(?:est)? (?:heat"
    r"|setting))"
    r"|\bsteam[- ]?iron\w*\b|\biron\w*(?: \w+){0,5} with (?:plenty of |lots of |full |hot )?steam\b"
    r"|\bpress\w*(?: \w+){0,6} with (?:a |the )?(?:hot |steam )?iron\b",
    re.IGNORECASE,
)
_COOL = re.compile(
    r"\b(?:cool|cooler|lukewarm|warm|low(?:est)?|hover\w*|hold\w*|above|away|(?:one|1) dot"
    r"|hand[- ]?hot)\b",
    re.IGNORECASE,
)
_IRON_DOTS = {"one": 110.0, "1": 110.0, "two": 150.0, "2": 150.0, "three": 200.0, "3": 200.0}
_DOTS = re.compile(r"\b(one|two|three|1|2|3) dots?\b", re.IGNORECASE)
_BY_HAND_ONLY = re.compile(
    r"\b(?:hand[- ]?wash(?:ed|able|es)?|wash(?:ed)?(?: \w+){0,3} by hand)\b", re.IGNORECASE
)
_WARNS = re.compile(
    r"\b(?:no|not|never|avoid|without|don['’]t|nothing|neither|nor|mustn['’]t|shouldn['’]t|cannot"
    r"|can['’]t|keep (?:it |them )?(?:away|out)|ruin\w*|spoil\w*|felts?|shrinks?|melts?|harms?"
    r"|kills?"
    r"|too hot|only if|cools?|cooled)\b",
    re.IGNORECASE,
)


def fibres_of(context: Context) -> tuple[_Fibre, ...]:
    """What the yarns are made of, as far as a label's words are known; wool that was treated for
    the machine neither felts nor is spoilt by a dryer."""
    found: dict[str, _Fibre] = {}
    for yarn in context.pattern.yarns.values():
        treated = _TREATED.search(yarn.fibre) is not None
        for words, fibre in _FIBRES:
            if _share(yarn.fibre, words) >= (_FELTING_SHARE if fibre.felts else 1):
                tame = treated and fibre.felts
                found[fibre.name] = (
                    _Fibre(fibre.name, _HOTTEST_WOOL, fibre.iron, bleached=True) if tame else fibre
                )
    return tuple(found.values())


def _share(label: str, words: "re.Pattern[str]") -> float:
    """The share of a fibre in percent: all of it where the label gives none, none of a blend."""
    total = 0.0
    for part in re.split(r"[,;/+]|\band\b", _AFTER_ITS_NAME.sub(r"\1 \2", label)):
        if words.search(part):
            number = re.search(r"\d+(?:\.\d+)?", part)
            total += float(number[0]) if number else 0.0 if "blend" in part.lower() else 100.0
    return total


_AFTER_ITS_NAME = re.compile(r"([a-z]),? (\d+(?:\.\d+)? ?%)", re.IGNORECASE)
_FELTING_SHARE = 30.0  # a yarn with less wool does not felt; common practice, no source


@check(
    id="care.fibre",
    title="The fibres bear the care that is told",
    looks_at="washing, boiling, bleaching, tumble drying and ironing in every text against "
    "`fibre:` of the yarns: temperatures and dots of the care symbols (ISO 3758), machine washes "
    "without a gentle cycle for wool and hair that is not superwash",
    why="wool felts in a hot bath, and acrylic melts under a hot iron: the piece is lost",
    severity=Severity.WARNING,
    remedy="Give the care that the yarn's label gives, or write in `fibre:` what the label says, "
    "such as superwash wool",
    needs=Needs.SOURCE,
)
def care_borne(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    fibres = fibres_of(context)
    texts = [each.text for each in context.prose]
    if not fibres or any(_FELTED.search(text) and _MEANT.search(text) for text in texts):
        return
    for sentence in sentences(context):
        found = next(_spoilt(sentence, fibres), None)
        if found is not None:
            yield found


_COLDEST = 10  # °C: cold water from a tap; common practice, no source
# Said of what is felted on purpose.
_MEANT = re.compile(
    r"\b(?:after|before|until|when|once) (?:it (?:is|has)|they (?:are|have))?\s*(?:felt|full)"
    r"|(?:^|[.;:] )(?:Felt|Full)\b|\bfelted\b|\bfull(?:ed|ing)\b|\bto felt\b",
)


def _spoilt(sentence: Sentence, fibres: tuple[_Fibre, ...]) -> Iterator[Finding]:
    """What a sentence does to a fibre that spoils it."""
    words = sentence.words
    bath = min(fibres, key=lambda each: each.bath)
    for found in sentence.said(_DEGREES) if _WASHES.search(words) else ():
        degrees, fahrenheit = _celsius(found)
        if fahrenheit and degrees < _COLDEST:
            words_found = f"`{found[0].strip()}` is {degrees:.0f} °C, colder than any bath"
            yield Finding(words_found, sentence.place(found), "Check the unit")
        wash = _IRONED.search(words[: found.start()]) is None
        if wash and bath.bath < degrees <= 100 and not _hedged(sentence, found):
            shown = f"{found[0].strip()}" + (f", {degrees:.0f} °C" if fahrenheit else "")
            yield Finding(
                f"`{shown}` is too hot a bath for {bath.name}: {bath.bath:g} °C at most",
                sentence.place(found),
            )
    if bath.bath <= _HOTTEST_WOOL:
        for found in sentence.said(_BOILED):
            if not _hedged(sentence, found):
                yield Finding(f"`{found[0]}` spoils {bath.name}", sentence.place(found))
    yield from _handled(sentence, fibres)
    iron = min(fibres, key=lambda each: each.iron)
    for found in sentence.said(_HOT_IRON) if iron.iron < 150 else ():
        if not _COOL.search(words) and not _hedged(sentence, found):
            yield Finding(
                f"`{found[0]}` melts {iron.name}: an iron of {iron.iron:g} °C (one dot) at most",
                sentence.place(found),
            )
    for found in sentence.said(_DOTS) if _IRONED.search(words) else ():
        if _IRON_DOTS[found[1].lower()] > iron.iron:
            yield Finding(
                f"`{found[0]}` is too hot an iron for {iron.name}: {iron.iron:g} °C at most",
                sentence.place(found),
            )


def _handled(sentence: Sentence, fibres: tuple[_Fibre, ...]) -> Iterator[Finding]:
    """Dryers, bleach, and machines that rub."""
    for pattern, hurt in ((_TUMBLED, "tumbled"), (_BLEACHED, "bleached")):
        spoilt = [each.name for each in fibres if getattr(each, hurt)]
        for found in sentence.said(pattern) if spoilt else ():
            if not _hedged(sentence, found):
                yield Finding(f"`{found[0]}` spoils {spoilt[0]}", sentence.place(found))
    felts = [each.name for each in fibres if each.felts]
    if (
        felts
        and not _GENTLE.search(sentence.words)
        and not _KNITTING_MACHINE.search(sentence.words)
    ):
        cool = [_celsius(each)[0] for each in _DEGREES.finditer(sentence.words)]
        for found in sentence.said(_MACHINE) if not cool or max(cool) > 30 else ():
            if not _hedged(sentence, found) and not _BY_HAND_ONLY.search(sentence.words):
                yield Finding(
                    f"`{found[0]}` felts {felts[0]} unless it is superwash or the cycle is for "
                    "wool",
                    sentence.place(found),
                    "Say hand wash, or the wool cycle; or write superwash in `fibre:` if the label "
                    "does",
                )


def _hedged(sentence: Sentence, found: "re.Match[str]") -> bool:
    """Whether the sentence warns of it, or supposes it."""
    before = sentence.words[max(found.start() - 60, 0) : found.start()]
    after = sentence.words[found.end() : found.end() + 40]
    near = f"{re.split('[;:]', before)[-1]} {re.split('[;:]', after)[0]}"
    supposed = sentence.supposes and not _PERMITS.search(sentence.words)
    return supposed or _WARNS.search(near) is not None


_PERMITS = re.compile(
    r"\bmay (?:also |safely )?"
    r"(?:go|be (?:\w+-)?(?:wash|machine|tumble|dr(?:y|ied)|iron|press|bleach))",
    re.IGNORECASE,
)


def _celsius(found: "re.Match[str]") -> tuple[float, bool]:
    """A temperature in °C, the higher of two; whether it is given in °F."""
    number = float(found[2] or found[4])
    fahrenheit = (found[3] or "").upper().startswith("F") or number > 100
    return ((number - 32) / 1.8, True) if fahrenheit else (number, False)


class _Said(Record):
    """A way of care that two texts may tell otherwise: what one says, and what denies it."""

    does: "re.Pattern[str]"
    denies: "re.Pattern[str]"
    other: str


_NOT_TUMBLED = re.compile(
    r"\b(?:not|never|no|don['’]t|nor)\b[^.;]{0,40}\b(?:tumble|dr[yi]er)", re.IGNORECASE
)
_NOT_MACHINE = re.compile(
    r"\b(?:not|never|no|don['’]t|nor)\b[^.;]{0,40}\bmachine"
    r"|\b(?:hand[- ]?wash(?:ed)?|wash(?:ed)?(?: \w+){0,3} by hand)\b(?! (?:cycle|programme?"
    r"|setting|or))"
    r"(?![^.;]*\bmachine)",
    re.IGNORECASE,
)
_NOT_IRONED = re.compile(r"\b(?:not|never|no|don['’]t|nor)\b[^.;]{0,25}\biron", re.IGNORECASE)
_WITH_IRON = re.compile(r"\biron(?:ed|ing)?\b", re.IGNORECASE)
_OPPOSITES = (
    _Said(does=_TUMBLED, denies=_NOT_TUMBLED, other="keeps it out of the dryer"),
    _Said(does=_MACHINE, denies=_NOT_MACHINE, other="has it washed by hand"),
    _Said(does=_WITH_IRON, denies=_NOT_IRONED, other="forbids the iron"),
)


_OF_CARE = re.compile(
    r"wash|launder|rinse|soak|iron|press|steam|tumble|dry|dried|bleach|\bspin\b", re.IGNORECASE
)


@check(
    id="care.twice",
    title="Care is the same wherever it is told",
    looks_at="`care:` against the notes, the finishing and the steps: machine or hand, dryer, "
    "iron, and the temperature of the wash",
    why="the wearer follows the one and the label of the other, and one of them spoils the piece",
    severity=Severity.WARNING,
    remedy="Say it once, in `care:`",
    needs=Needs.SOURCE,
)
def care_agrees(context: Context) -> Iterator[Finding]:
    """One finding for each way of care that is told otherwise elsewhere."""
    care = [each for each in sentences(context) if each.prose.path == ("care",)]
    elsewhere = [
        each
        for each in sentences(context)
        if each.prose.path != ("care",) and _OF_CARE.search(each.words)
    ]
    told = " ".join(each.words for each in care)
    if not told:
        return
    for way in _OPPOSITES:
        does, denies = _does(care, way), way.denies.search(told) is not None
        for sentence in elsewhere:
            found = next(sentence.said(way.does), None)
            against = way.denies.search(sentence.words)
            if denies and not does and found and not against and not _hedged(sentence, found):
                yield Finding(
                    f"`{found[0]}` stands here, and `care:` {way.other}", sentence.place(found)
                )
                break
            if does and not denies and against and not sentence.supposes:
                yield Finding(
                    f"`{against[0]}` stands here, and `care:` has it otherwise",
                    sentence.place(against),
                )
                break
    yield from _warmer(care, elsewhere)


def _does(care: list[Sentence], way: _Said) -> bool:
    return any(True for each in care for _ in each.said(way.does))


def _warmer(care: list[Sentence], elsewhere: list[Sentence]) -> Iterator[Finding]:
    """Temperatures of a wash that are others than those of ``care:``."""
    said = {_celsius(found)[0] for each in care for found in _washed_at(each)}
    if len(said) != 1:
        return
    for sentence in elsewhere:
        for found in _washed_at(sentence):
            degrees, _ = _celsius(found)
            if degrees > max(said) + 2:
                yield Finding(
                    f"`{found[0].strip()}` stands here, and `care:` has {max(said):g} °C",
                    sentence.place(found),
                )
            elif degrees < min(said) - _MUCH_WARMER:
                place = next((each, at) for each in care for at in _washed_at(each))
                yield Finding(
                    f"`{place[1][0].strip()}` stands here, and another text has {degrees:g} °C",
                    place[0].place(place[1]),
                )
                return


_MUCH_WARMER = 10  # a first wash may be cooler than those after it


def _washed_at(sentence: Sentence) -> Iterator["re.Match[str]"]:
    """The temperatures that a sentence washes at."""
    washes = re.search(r"\b(?:wash|launder|machine)", sentence.words, re.IGNORECASE)
    allowed = re.search(r"\bmay\b", sentence.words) is not None
    if washes and not _IRONED.search(sentence.words) and (allowed or not _hedged(sentence, washes)):
        yield from sentence.said(_DEGREES)


_HUNG = re.compile(
    r"\bhang(?:s|ing)?(?: it| them| the \w+)?(?: up)?(?: \w+){0,3}? (?:wet|dripping|damp|to dry"
    r"|to drip)\b"
    r"|\b(?:dry|dries|drip[- ]dry)(?: it| them| the \w+)? (?:hanging|on a hanger|on the "
    r"(?:washing |clothes ?)?line|by the shoulders)\b"
    r"|\b(?:let|leave)(?: it| them| the \w+)? (?:to )?(?:dry|drip) (?:hanging|on a hanger|on the "
    r"(?:washing |clothes ?)?line)\b",
    re.IGNORECASE,
)
_STRETCHES = re.compile(
    r"\b(?:pullovers?|sweaters?|jumpers?|cardigans?|jackets?|ganseys?|vests?|waistcoats?|slipovers?"
    r"|dress(?:es)?|shawls?|stoles?|blankets?|sleeves?)\b",
    re.IGNORECASE,
)


@check(
    id="care.hung",
    title="What a wet piece's weight would stretch is dried flat",
    looks_at="hanging to dry in the texts of garments, shawls and blankets that are not of a "
    "synthetic yarn alone",
    why="wet knitting is heavy, and hung up it grows longer and narrower for good",
    severity=Severity.WARNING,
    remedy="Say that it is dried flat; silence this where the fabric bears it",
    needs=Needs.SOURCE,
)
def dried_flat(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    pieces = " ".join(piece.title for piece in context.pattern.pieces.values())
    named = f"{context.pattern.title} {context.pattern.summary} {pieces}"
    natural = [yarn for yarn in context.pattern.yarns.values() if _NATURAL.search(yarn.fibre)]
    if not natural or not _STRETCHES.search(named):
        return
    for sentence in sentences(context):
        for found in sentence.said(_HUNG):
            if not _hedged(sentence, found):
                yield Finding(f"`{found[0]}` stretches the piece", sentence.place(found))


_NATURAL = re.compile(
    r"\b(?:wool|merino|lambswool|shetland|alpaca|llama|mohair|cashmere|angora|silk|cotton|bamboo"
    r"|viscose|rayon)\b",
    re.IGNORECASE,
)

CHECKS = (care_borne, care_agrees, dried_flat)
