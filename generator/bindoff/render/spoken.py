"""Signs become words, and running text becomes sentences, for a reader who listens.

Numbers are never changed, but for vulgar fractions, which many voices and braille tables drop.
"""

from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from types import MappingProxyType

from bindoff import regex as re

_FRACTIONS: Mapping[str, str] = MappingProxyType(
    {
        "½": "one half",
        "⅓": "one third",
        "⅔": "two thirds",
        "¼": "one quarter",
        "¾": "three quarters",
        "⅛": "one eighth",
        "⅜": "three eighths",
        "⅝": "five eighths",
        "⅞": "seven eighths",
    }
)
_FRACTION = f"[{''.join(_FRACTIONS)}]"

_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)

# A number as patterns print it: 80, 1,250, 2.5, 2½, ½, 1/2, 2 1/2.
_IN_A_NUMBER = re.compile(rf"\d|{_FRACTION}")
_NUMBER = rf"(?<!\d)(?:\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+){{0,9}}(?: ?{_FRACTION})?|{_FRACTION})"

# sign: (one, several); {re} is "er" in US and "re" elsewhere
_UNITS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "mm": ("millimet{re}", "millimet{re}s"),
        "cm": ("centimet{re}", "centimet{re}s"),
        "m": ("met{re}", "met{re}s"),
        "g": ("gram", "grams"),
        "kg": ("kilogram", "kilograms"),
        "yd": ("yard", "yards"),
        "yds": ("yard", "yards"),
        "oz": ("ounce", "ounces"),
        "ft": ("foot", "feet"),
        "in": ("inch", "inches"),
        "″": ("inch", "inches"),
        "′": ("foot", "feet"),
        "st": ("stitch", "stitches"),
        "sts": ("stitch", "stitches"),
        "rnd": ("round", "rounds"),
        "rnds": ("round", "rounds"),
    }
)

# "46 in slate" is no measure: the sign counts as inches only where no noun can follow.
_INCHES = r"in(?=\s*(?:[),;:/.–]|in\b|by\b|to\b|wide\b|long\b|deep\b|high\b|tall\b|across\b|$))"
_UNIT = rf"(?:{'|'.join(unit for unit in _UNITS if unit.isalpha() and unit != 'in')})(?![\w²³'’])"

_MEASURE = "\N{STRAIGHT RULER}"
_MEASURED = re.compile(rf"[\d{''.join(_FRACTIONS)}] ?(?:{_UNIT}|in\b)")
"""In rows of numbers this is sought in a fifth of the time of a number and its unit."""

# "5 mm needles": the unit goes with a thing and stays singular.
_THINGS = r"(?= (?:(?:circular|crochet|double-pointed) )*(?:needles?|hooks?|buttons?|squares?)\b)"

_Words = str | Callable[[re.Match[str]], str]

_ABBREVIATIONS = frozenset(
    ("approx", "ca", "cf", "dr", "e.g", "i.e", "incl", "mr", "mrs", "ms", "prof", "vs")
)
_BEFORE_NUMBERS = frozenset(("fig", "figs", "max", "min", "no", "nos", "p", "pp", "vol"))


@lru_cache(maxsize=4096)
def spelled(text: str, language: str = "en") -> str:
    """``text`` with signs, fractions and the units of numbers in words, spaces made plain.

    ``language`` is a BCP 47 tag; ``en-GB`` and its like write metres, ``en`` and ``en-US`` meters.
    Remembered, because every row of a table says the headings of its columns.
    """
    there = _signs(text)
    for signs, pattern, words in _rules(_ending(language)):
        if not signs or not signs.isdisjoint(there):
            before, text = text, pattern.sub(words, text)
            there = there if text == before else _signs(text)
    return text.strip()


def _signs(text: str) -> set[str]:
    """The characters of ``text``, a nought where it has any number, and ``_MEASURE`` where a unit
    follows one."""
    there = set(text)
    if _IN_A_NUMBER.search(text):
        there.add("0")
        if _MEASURED.search(text):
            there.add(_MEASURE)
    return there


def unit_at_end(heading: str) -> tuple[str, str]:
    """A heading such as ``Thread, m``, ``Length (cm)`` or ``in``, parted into words and unit.

    A single letter in parentheses is the letter of a drawing.
    """
    unit = "|".join(_UNITS)
    found = re.fullmatch(rf"(?:(.*?), )?({unit})|(.*?) \((?!.\))({unit})\)", heading)
    if found is None:
        return heading, ""
    return (found[1] or found[3] or "", found[2] or found[4])


def sentences(text: str, figure: str = "") -> list[str]:
    """The sentences of ``text``. ``figure`` matches characters that stand for a number.

    A full stop ends a sentence when a space and a capital or a figure follow, unless it belongs to
    a known abbreviation. A space that binds, as after an initial, ends none; a line end always one.
    """
    opening = rf"(?=[\"“‘(\[]*(?:[^\W_a-z]{'|' + figure if figure else ''}))"
    found: list[str] = []
    for line in text.split("\n"):
        start = 0
        for stop in re.finditer(rf"[.!?][\"”’)\]]*(?![\xa0\u202f])\s+{opening}", line):
            if not _abbreviated(line[: stop.start()], line[stop.end() :], figure):
                found.append(line[start : stop.end()])
                start = stop.end()
        found.append(line[start:])
    return [sentence.strip() for sentence in found if sentence.strip()]


def _abbreviated(before: str, after: str, figure: str) -> bool:
    word = before.rsplit(None, 1)[-1].lstrip("(“\"'").casefold() if before.strip() else ""
    number_follows = re.match(rf"\d{'|' + figure if figure else ''}", after) is not None
    return word in _ABBREVIATIONS or (word in _BEFORE_NUMBERS and number_follows)


def _ending(language: str) -> str:
    return "er" if language.casefold() in ("en", "en-us") else "re"


@cache
def _rules(ending: str) -> tuple[tuple[frozenset[str], re.Pattern[str], _Words], ...]:
    """What is replaced, in order: spaces, signs between numbers, units, fractions, other signs.

    Before each pattern stand the signs it looks for, as most texts have none of them; a nought
    stands for any number.
    """

    def unit(found: re.Match[str]) -> str:
        number, sign = found[1], found[2]
        one = number == "1" or re.fullmatch(rf"{_FRACTION}|\d/\d+", number)
        return f"{number} {_UNITS[sign][0 if one else 1].format(re=ending)}"

    def unit_of_a_thing(found: re.Match[str]) -> str:
        return f"{found[1]} {_UNITS[found[2]][0].format(re=ending)}"

    def date(found: re.Match[str]) -> str:
        month = int(found[2])
        known = 1 <= month <= len(_MONTHS)
        return f"{int(found[3])} {_MONTHS[month - 1]} {found[1]}" if known else found[0]

    def fraction(found: re.Match[str]) -> str:
        words = _FRACTIONS[found[2]]
        return f"{found[1]} and {words}" if found[1] else words

    after_measure = rf"({_NUMBER}(?: ?(?:{'|'.join(_UNITS)}))?)"
    listed: tuple[tuple[str, str, _Words], ...] = (
        ("", "[\u00ad\u200b-\u200d\u2060\ufeff]", ""),
        ("", r"[^\S ]\s*| \s+", " "),
        ("-", r"(?<![\w-])(\d{4})-(\d\d)-(\d\d)(?![\w-])", date),
        ("/", rf"({_NUMBER} ?(?:mm|cm|m)) / ({_NUMBER}) in\b", r"\1 or \2″"),
        ("/", rf"({_NUMBER} ?{_UNIT}) / (?={_NUMBER})", r"\1 or "),
        ("–", rf"{after_measure} ?– ?(?={_NUMBER})", r"\1 to "),
        ("×x", rf"{after_measure} ?(?:×|(?<= )x(?= )) ?(?={_NUMBER})", r"\1 by "),
        ("×", r"(?<=stitches) × (?=\d)|(?<=sts) × (?=\d)", " by "),
        ("×", rf"({_NUMBER}) ?×", r"\1 times"),
        ("×", r"× ?(?=\d)", "times "),
        ("×", "×", "times"),
        ("″′", rf"({_NUMBER}) ?([″′])", unit),
        (_MEASURE, rf"({_NUMBER}) ({_INCHES})", unit),
        (_MEASURE, rf"({_NUMBER}) ?({_UNIT}){_THINGS}", unit_of_a_thing),
        (_MEASURE, rf"({_NUMBER}) ?({_UNIT})", unit),
        ("".join(_FRACTIONS), rf"(?:(?<!\d)(\d+) ?)?({_FRACTION})", fraction),
        ("→", r" ?→ ?", " to "),
        ("–·", r" [–·] ", ", "),
        ("=", " = ", " equals "),
        ("−", r"−(?=\d)", "minus "),
        ("≈", r"≈ ?", "about "),
        ("+", r" \+ (?=\d)", " plus "),
        ("±", r" ?± ?", " plus or minus "),
        ("≤", r"≤ ?", "at most "),
        ("≥", r"≥ ?", "at least "),
        ("°", r"°C\b", " degrees Celsius"),
        ("°", r"°F\b", " degrees Fahrenheit"),
        ("°", r"°", " degrees"),
        ("©", r"©", "Copyright"),
        ("0", r"\b[Nn]o\. ?(?=\d)", "number "),
        ("", r"[•\u2500-\u25ff]", ""),  # bullets, frames and shapes
        ("", r" {2,}", " "),
    )
    return tuple((frozenset(signs), re.compile(pattern), words) for signs, pattern, words in listed)
