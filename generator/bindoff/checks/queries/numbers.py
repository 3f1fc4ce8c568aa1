"""Whole numbers, and ordinals, that no fact near them confirms."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.checks.queries.amounts import BALLS
from bindoff.checks.queries.counted import are_listed
from bindoff.checks.queries.ratios import RATE
from bindoff.checks.queries.reckoned import is_reckoned
from bindoff.checks.queries.sentence import Doubt, Told, are_among, steps_near
from bindoff.checks.queries.strictly import only_facts
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.claimed import claims_of, collected
from bindoff.checks.texts.told.numbers import ORDINAL, ordinal_of
from bindoff.checks.texts.told.truths import Figures, alike, phrase

_WHOLE = re.compile(r"(?<![\w.,/–×-])\d+(?![.,]?\d|/|½|¼|¾|\s?[×°%])")
_NTH = phrase(
    rf"(?<!\b[Aa]\s)\b(?!(?:first|second|other|alternate)\b){ORDINAL}\b(?! ?(?:of|to) [a-z]+ \d)"
)
_OF_OTHER_THINGS = phrase(
    r"(?<![\w.,/])\d+(?:[.,]\d+)?(?:[¼½¾]|[- ]\d/\d)?(?: ?\([\d., ½¼¾]+\))?[- ]?"
    r"(?:cm|mm|inch(?:es)?|in(?=[).,;:\]/]|$| [a-z])|m(?=[).,;:]|$| )|met(?:re|er)s|yards|yds?|g"
    r"|grams|oz|kg|%|°|degrees|hours?|minutes|days|weeks|months|years|pages)\b"
)
"""A number that counts nothing of the work."""
_FREE_LEFT = phrase(
    r"\b(?:(?:sizes?|ages?|category|version|under|no\.?|number|multiples? of)"
    r" (?:\d+,? (?:and|to|or) )?|(?:count|off by|or|fewer than|more than|at least|every) )$|\d to $"
)
_FREE_RIGHT = phrase(
    r"^(?: (?:(?:rounds|rows|stitches|sts) )?(?:of (?:it|waste yarn)|(?:for|in) every \d)\b"
    r"| (?:at a time|or (?:so|more|two|three)|small (?:back)?stitches|hands|people"
    r"|sizes (?:larger|smaller)|(?:fat )?fingers)\b|[- ](?:year|month|ply|strand)| to \d"
    r"| (?:and|or) \d+ more)"
)
_TWO_KNOWN = phrase(r"\b(?:the|these|both|its) $")
_ANY_KIND = ("stitches", "rows", "times", "sections", "shapings")
_CALLED: Mapping[str, str] = {
    "stitches": "count of stitches",
    "rows": "number of rows",
    "ridges": "number of ridges",
    "times": "number of times",
    "sections": "number of parts",
    "shapings": "number of decreases or increases",
    "stripes": "number of stripes",
    "ropes": "number of cables",
}
_LEAST = 2


def numbers_doubted(told: Told) -> Iterator[Doubt]:
    """Each number that counts no stitches, rows or things of the work near it."""
    others = [
        each.span()
        for words in (_OF_OTHER_THINGS, RATE, BALLS)
        for each in words.finditer(told.words)
    ]
    kinds = {each.end if each.sure else each.start: each.kind for each in claims_of(told.words)}
    for found in _WHOLE.finditer(told.words):
        start, end = found.span()
        numbers = told.figures(start, end)
        if max(numbers) < _LEAST or any(a <= start < b for a, b in others):
            continue
        kind = kinds.get(start, "")
        strictly = only_facts(told, start, end, numbers)
        known = are_among(numbers, strictly) if strictly else _is_known(told, kind, start, end)
        if not known:
            first, last = told.whole(start, end)
            written = " ".join(told.written_at(first, last).split())
            yield Doubt(first, last, f"no {_CALLED.get(kind, 'count')} here is {written}")


def ordinals_doubted(told: Told) -> Iterator[Doubt]:
    """Each ordinal from the third on that is no interval and no length of a list near it."""
    for found in _NTH.finditer(told.words):
        if not told.is_proved(*found.span()) and not _is_interval(told, ordinal_of(found[0])):
            yield Doubt(*found.span(), f"nothing here is the {found[0]}")


def _is_known(told: Told, kind: str, start: int, end: int) -> bool:
    numbers = told.figures(start, end)
    return (
        told.is_proved(start, end)
        or _is_free(told, start, end)
        or is_reckoned(told, start, end)
        or are_listed(told, numbers, end)
        or are_among(numbers, tuple(facts_near(told, kind)))
    )


def _is_free(told: Told, start: int, end: int) -> bool:
    """Whether a number is a name, a limit, or one of an ordinary phrase."""
    left, right = told.words[:start], told.words[end:]
    if int(told.words[start:end]) == _LEAST and _TWO_KNOWN.search(left):
        return True
    return _FREE_LEFT.search(left) is not None or _FREE_RIGHT.search(right) is not None


def facts_near(told: Told, kind: str) -> Iterator[Figures]:
    """What a number of a kind may be at the steps near; a number of any where no noun tells it."""
    steps = tuple(steps_near(told))
    for each in (kind,) if kind else _ANY_KIND:
        yield from collected(told.context, each, *steps)
    if kind in ("stitches", ""):
        for step in steps:
            yield from truths.leaves(step, rows=True)
            yield truths.finds(step)
    if told.scene.plan is None and kind in ("stitches", ""):
        gauge = told.context.pattern.gauge
        yield from (alike(told.context, int(n)) for n in (gauge.stitches, gauge.rounds) if n)


def _is_interval(told: Told, number: int) -> bool:
    return any(number in some for each in _intervals(told) for some in each)


def _intervals(told: Told) -> Iterator[Sequence[frozenset[int]]]:
    for step in steps_near(told):
        yield from truths.intervals_of(step)
        yield from truths.crossing_intervals(told.context, step)
        yield alike(told.context, len(step.rows))
        for chart in step.charts:
            yield alike(told.context, chart.grid.rows, chart.grid.repeat)
