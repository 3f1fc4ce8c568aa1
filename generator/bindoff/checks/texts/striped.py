"""How many rows of a yarn a text tells, against the stripes of that yarn."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, sentences_of
from bindoff.checks.texts.named.yarns import yarn_names
from bindoff.checks.texts.told.numbers import NUMBER, in_figures, number_of
from bindoff.checks.texts.told.truths import runs_of
from bindoff.remembered import once_each
from bindoff.source.model import TextUse

_LOOSE = re.compile(
    r"\b(?:about|every|each|last|first|next|another|more|or|least|most|than|to|some|between)\s+$",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"\b(?:between|lie|before|above|below|from)\b", re.IGNORECASE)


def rows_of_yarns(context: Context) -> Iterator[Finding]:
    """`6 rounds of Rope`, where no stripe of it, nor all of them together, has so many."""
    if not context.in_english or len(context.pattern.yarns) < 2:
        return
    names = yarn_names(context).keys
    every = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    told = re.compile(
        rf"(?<![\w.,/(–-])({NUMBER})\s+(?:rows?|rounds?|rnds?)\s+(?:of|in)\s+({every})\b"
    )
    for prose in context.prose:
        if prose.kind in (TextUse.STEP, TextUse.TEXT, TextUse.HEAD):
            for sentence in sentences_of(prose, in_figures(prose.text)):
                yield from _told(context, sentence, told)


def _told(context: Context, sentence: Sentence, told: "re.Pattern[str]") -> Iterator[Finding]:
    for found in told.finditer(sentence.words) if not sentence.supposes else ():
        right = _rows(context)[yarn_names(context).keys[found[2]]]
        before, after = sentence.words[: found.start()], sentence.words[found.end() :]
        loose = _LOOSE.search(before) or _BETWEEN.search(after)
        if right and number_of(found[1]) not in right and not loose:
            near = sorted(right, key=lambda each: (abs(each - number_of(found[1])), each))[:2]
            yield Finding(
                f"`{' '.join(found[0].split())}` stands here, and its stripes have "
                f"{' or '.join(map(str, sorted(near)))}",
                sentence.place(found),
            )


@once_each
def _rows(context: Context) -> dict[str, frozenset[int]]:
    """The rows of each yarn: of each of its stripes, of each step, and of all in a piece."""
    found: dict[str, set[int]] = {key: set() for key in context.pattern.yarns}
    for plan in context.plan.pieces:
        for size, _ in enumerate(context.source.sizes):
            totals: dict[str, int] = {}
            for steps in (plan.steps, *((step,) for step in plan.steps)):
                for yarn, rows in runs_of(steps, size):
                    found.setdefault(yarn, set()).add(rows)
                    if len(steps) == len(plan.steps):
                        totals[yarn] = totals.get(yarn, 0) + rows
            for yarn, rows in totals.items():
                found[yarn].add(rows)
    return {key: frozenset(rows) for key, rows in found.items()}
