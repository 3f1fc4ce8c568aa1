"""Figures that follow from those of the plan: lengths from rounds and stitches, equal shares."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.keys.sizes import bodies
from bindoff.checks.walk import gauges_of, steps_of
from bindoff.plan.values import Kind

PerSize = tuple[float, ...]

_LENGTH = re.compile(r"\s{0,3}(cm|in\b|inch(?:es)?)", re.IGNORECASE)
_SHARED = re.compile(
    r"\s{0,3}(?:of them |stitches |sts |loops )?(?:each )?(?:on|for|from|in|at|to) (?:each|every"
    r"|either|both|the)"
    r"(?: of)?(?: the| your)?(?: first| last)?(?: (two|three|four|five|six|2|3|4|5|6))?\b",
    re.IGNORECASE,
)
_SHARES = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_SLACK_CM = 0.6  # lengths of a text are told to half a centimetre or a whole one


def follows(context: Context, figures: Sequence[float], after: str) -> bool:
    """Whether ``figures``, one for each size, follow from those of the plan: a length before its
    unit is that of some rounds or stitches; a share ``on each of four needles`` is that of a
    count."""
    unit = _LENGTH.match(after)
    if unit:
        times = 1.0 if unit[1].lower() == "cm" else 2.54
        return any(
            all(abs(a * times - b) <= _SLACK_CM * times for a, b in zip(figures, row, strict=True))
            for row in lengths(context)
        )
    shared = _SHARED.match(after)
    if shared is None:
        return False
    counts = {tuple(p.stitches for p in at.step.after) for at in steps_of(context)}
    if not shared[1]:
        return tuple(2 * each for each in figures) in counts
    parts = _SHARES.get(shared[1].lower()) or int(shared[1])
    return tuple(parts * each for each in figures) in counts


def lengths(context: Context) -> Iterator[PerSize]:
    """In centimetres per size, the finished and the body measurements, and what the steps come to:
    the rounds of a step and of the piece up to its end, and the stitches after it."""
    measures = context.plan.measures.finished.values()
    for mm in (
        *(m.rounded for m in measures if m.kind is Kind.LENGTH),
        *dict(bodies(context)).values(),
    ):
        yield tuple(each / 10 for each in mm)
    seen: set[PerSize] = set()
    for at in steps_of(context):
        gauges = gauges_of(context, at)
        rounds = (at.step.rounds, tuple(each.height for each in at.step.after))
        rows = [
            tuple(g.height_of(n) / 10 for g, n in zip(gauges, each, strict=True)) for each in rounds
        ]
        counts = [each.stitches for each in at.step.after]
        rows.append(tuple(g.width_of(n) / 10 for g, n in zip(gauges, counts, strict=True)))
        begun = [each.step for each in steps_of(context) if each.plan.key == at.plan.key]
        upto = begun[: at.index]
        total = at.step.rounds
        for step in reversed(upto):
            total = tuple(a + b for a, b in zip(total, step.rounds, strict=True))
            rows.append(tuple(g.height_of(n) / 10 for g, n in zip(gauges, total, strict=True)))
        for row in rows:
            if row not in seen and any(row):
                seen.add(row)
                yield row
