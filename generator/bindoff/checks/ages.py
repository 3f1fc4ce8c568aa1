"""Ages in a pattern's own warnings, against those that the cautions print."""

from collections.abc import Iterator
from functools import cache

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.hazardtable import things_of
from bindoff.checks.sentencesof import sentences
from bindoff.checks.texts.told.numbers import IN_WORDS, number_of
from bindoff.diagnostics import Severity
from bindoff.records import Record


class _Danger(Record):
    """What is dangerous up to an age, in months, and words for it."""

    words: "re.Pattern[str]"
    what: str
    months: int


# Small parts: 16 CFR 1501.2(a), children under 36 months. Loose bedding: American Academy of
# Pediatrics, Sleep-Related Infant Deaths (2022), the first year.
@cache
def _dangers() -> tuple[_Danger, ...]:
    return (
        _Danger(
            re.compile(
                r"\b(?:sleep\w*|asleep|naps?|napping|doz(?:es?|ing)|cots?|cribs?|cradles?|bassinets?)\b",
                re.IGNORECASE,
            ),
            "something loose where a baby sleeps",
            12,
        ),
        _Danger(
            re.compile(
                rf"\b(?:{things_of('small parts', 'pompom', 'magnets', 'button cells')}|bells?"
                r"|small parts?|chok(?:e\w*|ing)|swallow\w*)\b",
                re.IGNORECASE,
            ),
            "small parts",
            36,
        ),
    )


_MONTHS = {"day": 1 / 30, "week": 12 / 52, "month": 1, "year": 12}
_AGE = re.compile(
    r"\b(?P<side>under|below|younger than|up to|before|over|above|older than)"
    rf"(?: the age of| age)? (?P<age>\d+(?!\d| ?(?:cm|in|mm|g)\b)|{IN_WORDS})"
    r"(?: (?P<unit>day|week|month|year)s?\b"
    r"|(?=[.,;:!?)]|$| (?:must|should|may|can|could|cannot)\b))",
    re.IGNORECASE,
)
_YOUNG = re.compile(
    r"\b(?:bab(?:y|ies)|infants?|child(?:ren)?|toddlers?|newborns?)\b", re.IGNORECASE
)


@check(
    id="wearer.ages",
    title="A warning names the age that its caution does",
    looks_at="ages in sentences that warn of small parts, or of something loose where a baby "
    "sleeps: under three years (16 CFR 1501), in the first year (American Academy of Pediatrics)",
    why="a warning with the wrong age tells a parent that the danger is past",
    severity=Severity.ERROR,
    remedy="Correct the age; silence this where a local rule names another one",
    needs=Needs.SOURCE,
)
def ages_of_warnings(context: Context) -> Iterator[Finding]:
    """One finding for each sentence, at its age."""
    for sentence in sentences(context):
        words = sentence.words
        if not (sentence.warns and _YOUNG.search(words)):
            continue
        found = _AGE.search(words)
        danger = next((each for each in _dangers() if each.words.search(words)), None)
        if not (found and danger):
            continue
        if found["side"].lower() in ("over", "above", "older than"):
            yield Finding(
                f"`{found[0]}` warns of {danger.what} from an age on: the danger is before it",
                sentence.place(found),
            )
        elif _months(found) < danger.months:
            yield Finding(
                f"`{found[0]}` warns of {danger.what} for too short a time: the caution is for the "
                f"first {danger.months} months",
                sentence.place(found),
            )


def _months(found: "re.Match[str]") -> float:
    """The age; a number alone counts years, as in ``under three``."""
    return number_of(found["age"]) * _MONTHS[(found["unit"] or "year").lower()]


CHECKS = (ages_of_warnings,)
