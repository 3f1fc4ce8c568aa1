"""Ease that a text tells as a span, from so much to so much, against that of the sizes."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.walk import length_said, millimetres
from bindoff.plan.fit import Fitted
from bindoff.source.lengths import parse_length

_NUMBER = r"((?:\d+ )?\d+/\d+|\d+(?:\.\d+)?(?: ?[¼½¾])?)"
_SPAN = re.compile(
    rf"(?<![\w./])(?:(?:between|from)\s)?{_NUMBER}(?:\s?(?:cm|in|inch(?:es)?))?\s(?:to|and|or)\s"
    rf"{_NUMBER}\s?(cm|in|inch(?:es)?)\b(?:\s\([^()]{{1,40}}\))?\s(?:of\s)?"
    r"(?:(positive|negative)\s)?ease\b",
    re.IGNORECASE,
)
_SLACK_MM = 16.0
"""Ease is told to the nearest centimetre or half an inch."""


def spans_of_ease(
    context: Context, sentence: Sentence, fits: Sequence[Fitted]
) -> Iterator[Finding]:
    """A span that lies beside the ease of every size, for the part that the sentence names."""
    if "ease" not in sentence.words or sentence.supposes:
        return
    for found in sentence.said(_SPAN):
        named = [fit for fit in fits if re.search(rf"\b{fit.dimension}\b", sentence.words)] or fits
        sign = -1 if (found[4] or "").lower() == "negative" else 1
        ends = sorted(
            sign * millimetres(parse_length(f"{found[at]} mm"), found[3]) for at in (1, 2)
        )
        told = (ends,) if found[4] else (ends, [-ends[1], -ends[0]])
        if not any(_meets(each, fit) for each in told for fit in named):
            least, most = min(named[0].mm), max(named[0].mm)
            yield Finding(
                f"`{quoted(found)}` stands here, and the ease of `{named[0].label}` is "
                f"{length_said(context, least)} to {length_said(context, most)}",
                sentence.place(found),
            )


def _meets(told: Sequence[float], fit: Fitted) -> bool:
    """Whether a span has the ease of the sizes in it, but for rounding, and is not much wider."""
    least, most = min(fit.mm), max(fit.mm)
    return abs(told[0] - least) <= _SLACK_MM and abs(told[1] - most) <= _SLACK_MM
