"""Numbers of crochet in sentences, against the edgings that are worked and counted."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, number_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import Figures, flat, known, phrase, plain
from bindoff.plan.steps.edging import Edged
from bindoff.source.rowlang.syntax import (
    Hooked,
    InNext,
    IntoOne,
    MoreTimes,
    Part,
    Repeat,
    Work,
)

_STITCH = (
    r"(?:(?:half )?(?:single|double|treble|triple) crochets?|slip stitch(?:es)?|sc|dc|hdc|tr"
    r"|chain(?:-| )?spaces?|chains?|spaces?|shells?|fans?|scallops?|picots?|arche?s?|loops)"
)
_COUNTED = phrase(rf"(?<![\w.,/×–-])({NUMBER}) (?:of )?(?:US |UK )?{_STITCH}(?![\w-])")
_GOES_ON = phrase(
    rf"(?<![\w.,/×–-])({NUMBER})(?= (?:in all|in total|altogether|in (?:each|every)|along|on each"
    r"|at each|of the \d+ corners)\b)"
)
_CROCHET = phrase(r"\b(?:crochet\w*|hook|chain(?:s|-| spaces?)|picots?|shells?)\b")
_CORNERS = phrase(rf"\b(?:the )?({NUMBER}) corners\b")
_ASIDE = phrase(
    r"\b(?:gauge|tension|swatch|loop|cord|tie|button\w*|about|every \d+|for each \d+)\b"
)
_LEAST = 2


def crochet_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every number of crochet stitches, of spaces, repeats and corners in a sentence."""
    edgings = [
        step.detail
        for plan in ((scene.plan,) if scene.plan is not None else context.plan.pieces)
        for step in plan.steps
        if isinstance(step.detail, Edged)
    ]
    if not edgings or not _CROCHET.search(scene.prose.text) or _ASIDE.search(sentence.words):
        return
    if not all(each.counts for each in edgings):
        return
    at = sentence.start
    figures = [each for edged in edgings for each in _figures(context, edged)]
    for pattern in (_COUNTED, _GOES_ON):
        for found in pattern.finditer(sentence.words):
            number = number_of(found[1])
            if number >= _LEAST and (pattern is _COUNTED or _CROCHET.search(sentence.words)):
                truth = known("of crochet there are", figures)
                yield Statement(at + found.start(), at + found.end(), number, truth)
    corners = known("corners there are", [plain([len(e.sides)] * _sizes(e)) for e in edgings])
    for found in _CORNERS.finditer(sentence.words):
        yield Statement(at + found.start(1), at + found.end(), number_of(found[1]), corners)


def _sizes(edged: Edged) -> int:
    return len(edged.along)


def _figures(context: Context, edged: Edged) -> Iterator[Figures]:
    """The stitches of the sides and of all, those after each row, how often each row repeats, and
    how many are worked into one."""
    sizes = range(_sizes(edged))
    whole = [sum(side[size] for side in edged.sides) for size in sizes]
    yield plain(whole)
    yield from map(plain, edged.sides)
    yield from map(plain, edged.counts)
    for row, before, after in zip(edged.rows, (whole, *edged.counts), edged.counts, strict=False):
        for part in flat(row.parts):
            for each in _into_one(part):  # what is left without the corners
                yield plain([max(count - each * len(edged.sides), 0) for count in after])
            yield from (plain([each] * len(sizes)) for each in _into_one(part))
            if isinstance(part, Repeat):
                over = _taken(context, part.parts)
                if isinstance(part.until, MoreTimes) or not over:
                    continue
                yield plain([count // over for count in before])
    for one, other in pairwise((*edged.sides, *edged.sides[:1])):
        yield plain([a + b for a, b in zip(one, other, strict=True)])


def _into_one(part: Part) -> Iterator[int]:
    if isinstance(part, Hooked | Work) and isinstance(part.times, int):
        yield part.times
    elif isinstance(part, IntoOne):
        yield sum(each.times for each in part.parts if isinstance(each.times, int))


def _taken(context: Context, parts: Sequence[Part]) -> int:
    """The stitches that a repeat is worked into; 0 where that is open."""
    total = 0
    for part in parts:
        if isinstance(part, Hooked) and isinstance(part.where, InNext):
            total += part.where.count if isinstance(part.where.count, int) else 0
        elif isinstance(part, IntoOne):
            total += 1
        elif isinstance(part, Work) and isinstance(part.times, int):
            total += context.plan.book[part.stitch].consumes * part.times
        else:
            return 0
    return total
