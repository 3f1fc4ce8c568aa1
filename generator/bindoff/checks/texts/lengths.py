"""Lengths typed into prose: both units, and the two in agreement."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Severity, Span
from bindoff.source.lengths import MM_PER_UNIT, parse_length
from bindoff.source.model import TextUse

_NUMBER = r"(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?(?: ?[¼½¾⅛⅜⅝⅞])?|[¼½¾⅛⅜⅝⅞]"
_METRIC = r"cm|m\b|met(?:er|re)s?|centimet(?:er|re)s?"
_ENGLISH = r"inch(?:es)?|in\b|yd\b|yards?|[\"”″]"
_ONE = rf"(?<![\w./])({_NUMBER})[ -]?({_METRIC}|{_ENGLISH})(?![\w²])"
_LENGTH = re.compile(_ONE)
_PAIR = re.compile(rf"{_ONE}\s*(?:/|\(|\[|,? or )\s*(?:about )?{_ONE}")
# Two ends of a range or two sides of a rectangle, with the same in the other unit beside them.
_BOTH = (
    rf"(?<![\w./])({_NUMBER})(?:[ -]?(?:{_METRIC}|mm|{_ENGLISH}))?\s*(?:to|by|and|or|[x×–-])\s*"
    rf"({_NUMBER})[ -]?(mm|{_METRIC}|{_ENGLISH})(?![\w²])"
)
_PAIRS = re.compile(rf"{_BOTH}(?: \w+)?\s*(?:/|\(|\[|,? or )\s*(?:about )?{_BOTH}")
_NUMBERS = rf"(?:{_NUMBER})(?:, ?(?:{_NUMBER}))*"
_LISTS = re.compile(
    rf"(?<![\w./])({_NUMBER}) \(({_NUMBERS})\) ?({_METRIC}|{_ENGLISH})\s*[/(]\s*(?:about )?"
    rf"({_NUMBERS}|(?:{_NUMBER}) \((?:{_NUMBERS})\)) ?({_METRIC}|{_ENGLISH})(?![\w²])"
)
"""A length for each size, and the same in the other unit: 5 (6, 7) cm (2, 2¼, 2¾ in)."""
_MILLIMETRES = re.compile(
    rf"(?<![\w./])({_NUMBER})[ -]?mm\s*(?:/|\(|\[|,? or )\s*(?:about )?({_NUMBER})[ -]?({_ENGLISH})"
    r"(?![\w²])"
)
_ENGLISH_UNITS = ("in", "yd")
_WEIGHTS = re.compile(
    rf"(?<![\w./])({_NUMBER}) ?g\s*[/(]\s*(?:about )?({_NUMBER}) ?(?:oz|ounces?)\b"
)
_GRAMS_PER_OUNCE = 28.35  # 28.349523125 g: NIST Handbook 44, appendix C, from memory
_SLACK_OUNCES = 0.26  # ounces are given in halves or quarters

# Advice is rounded by custom: 60 cm and 24 in, 5 cm and 2 in.
_SLACK_MM, _SLACK_PART = 4.0, 0.03


@check(
    id="prose.inches",
    title="Inches agree with their centimetres",
    looks_at="pairs such as 15 cm (6 in), 10 m / 11 yd or 100 g (3½ oz) in every text of the "
    "designer's, within 4 mm, a quarter of an ounce or 3 %",
    why="one half of the readers follow the wrong one of the two",
    severity=Severity.WARNING,
    remedy="Correct one of the two",
    needs=Needs.SOURCE,
)
def pairs_agree(context: Context) -> Iterator[Finding]:
    """One finding for each pair."""
    for prose in context.prose:
        for found, place in prose.found(_PAIR):
            one, other = _mm(found[1], found[2]), _mm(found[3], found[4])
            if not _agree(one, other) and not _whole_yards(found):
                unit = _unit(found[4])
                right = one / float(MM_PER_UNIT[unit])
                yield Finding(f"{found[1]} {found[2]} is {right:.3g} {unit}, not {found[3]}", place)
        for found, place in prose.found(_PAIRS):
            for first, second in ((1, 4), (2, 5)):
                one, other = _mm(found[first], found[3]), _mm(found[second], found[6])
                if not _agree(one, other):
                    unit = _unit(found[6])
                    right = one / float(MM_PER_UNIT[unit])
                    yield Finding(
                        f"{found[first]} {found[3]} is {right:.3g} {unit}, not {found[second]}",
                        place,
                    )
        for found, place in prose.found(_LISTS):
            yield from _lists_agree(found, place)
        for found, place in prose.found(_MILLIMETRES):
            if abs(_plain(found[1]) - _mm(found[2], found[3])) > _SLACK_MM:
                right = _plain(found[1]) / float(MM_PER_UNIT["in"])
                yield Finding(f"{found[1]} mm is {right:.2g} in, not {found[2]}", place)
        for found, place in prose.found(_WEIGHTS):
            ounces, said = _plain(found[1]) / _GRAMS_PER_OUNCE, _plain(found[2])
            if abs(ounces - said) > max(_SLACK_OUNCES, 0.05 * ounces):
                yield Finding(f"{found[1]} g is {ounces:.2g} oz, not {found[2]}", place)


def _lists_agree(found: "re.Match[str]", place: Span) -> Iterator[Finding]:
    """Two lists of lengths for the sizes, in two units: the first size where they disagree."""
    ones = re.findall(_NUMBER, f"{found[1]}, {found[2]}")
    others = re.findall(_NUMBER, found[4])
    for one, other in zip(ones, others, strict=True) if len(ones) == len(others) else ():
        mm = _mm(one, found[3])
        if not _agree(mm, _mm(other, found[5])):
            unit = _unit(found[5])
            right = mm / float(MM_PER_UNIT[unit])
            yield Finding(f"{one} {found[3]} is {right:.3g} {unit}, not {other}", place)
            return


@check(
    id="prose.units",
    title="Lengths in the text are in the pattern's units",
    looks_at="lengths in every text of the designer's against `units:`; millimetres of needles "
    "left aside",
    why="a knitter with a tape in inches can't use 40 cm, and the other way about",
    severity=Severity.WARNING,
    remedy="Give both, as in 40 cm (16 in), or the unit that the pattern is printed in",
    needs=Needs.SOURCE,
)
def units_given(context: Context) -> Iterator[Finding]:
    """One finding for each length that some readers can't use."""
    wanted = {"metric": {"metric"}, "imperial": {"imperial"}}.get(
        context.pattern.units, {"metric", "imperial"}
    )
    for prose in context.prose:
        if prose.kind is TextUse.GAUGE:
            continue
        pairs = (_PAIR, _PAIRS, _LISTS, _MILLIMETRES)
        paired = [match.span() for pair in pairs for match, _ in prose.found(pair)]
        for found, place in _alone(prose, paired):
            system = "imperial" if _unit(found[2]) in _ENGLISH_UNITS else "metric"
            lacking = wanted - {system}
            if lacking:
                other = "inches or yards" if lacking == {"imperial"} else "centimetres or metres"
                yield Finding(f"`{found[0]}` is not given in {other}", place)


def _alone(prose: Prose, paired: list[tuple[int, int]]) -> Iterator[tuple["re.Match[str]", Span]]:
    for found, place in prose.found(_LENGTH):
        inside = any(start <= found.start() < end for start, end in paired)
        doubtful = found[2] == "in" and not _stands_alone(prose.text[found.end() :])
        in_words = _IN_WORDS.search(prose.text, max(0, found.start() - _NEAR), found.start())
        if not inside and not doubtful and not in_words:
            yield found, place


_IN_WORDS = re.compile(
    r"\b(?:inch(?:es)?|yards?|centimet(?:er|re)s?|met(?:er|re)s?)\s*\((?:about )?\Z", re.IGNORECASE
)
"""A length in words, before the same in figures: `about an inch (2.5 cm)`."""
_NEAR = 25  # characters


def _stands_alone(after: str) -> bool:
    """Whether ``in`` is the unit: ``46 in slate`` is none."""
    return (
        re.match(r"\s*(?:[),;.\]/]|$|wide|long|deep|high|across|from|of\b|and\b|or\b|to\b)", after)
        is not None
    )


def _agree(one: float, other: float) -> bool:
    return abs(one - other) <= max(_SLACK_MM, _SLACK_PART * max(one, other))


def _whole_yards(found: "re.Match[str]") -> bool:
    """Whether a few metres stand beside the nearest whole number of yards, as 1 m (1 yd)."""
    units = {_unit(found[2]), _unit(found[4])}
    if units != {"m", "yd"} or not found[3].isdigit() or not found[1].isdigit():
        return False
    one, other = _mm(found[1], found[2]), _mm(found[3], found[4])
    return abs(one - other) <= float(MM_PER_UNIT["yd"]) / 2 and int(found[3]) <= _FEW_YARDS


_FEW_YARDS = 5


def _mm(number: str, unit: str) -> float:
    return parse_length(f"{number} {_unit(unit)}")


def _plain(number: str) -> float:
    return parse_length(f"{number} mm")


def _unit(word: str) -> str:
    if word == "mm":
        return word
    if word.startswith("c"):
        return "cm"
    if word.startswith("m"):
        return "m"
    return "yd" if word.startswith("y") else "in"


CHECKS = (pairs_agree, units_given)
