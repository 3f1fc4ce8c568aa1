"""Rows that are said to be like others, and from which side a chart is read."""

from collections.abc import Iterator, Sequence

from bindoff.checks.queries.sentence import Doubt, Told, steps_near
from bindoff.checks.texts.told.truths import all_steps, phrase
from bindoff.checks.walk import told_in_words
from bindoff.plan.worked import StepPlan

_LIKE = phrase(
    r"\b(?:row|round|rnd) (\d+)\b[^.;]{0,40}?\b(?:like|as(?: for)?|the same as|repeat) (?:the )?"
    r"(?:row|round|rnd) (\d+)\b"
)
_FROM = phrase(r"\bfrom (?:the )?(right|left) to (?:the )?(?:left|right)\b([^.;]*)")
_WHICH = phrase(
    r"\b(?:(odd|even)(?:[- ]numbered)?|(right|wrong)[- ]side) (?:rows?|rounds?)\b"
    r"|\b(every|each|all) (?:rows?|rounds?)\b"
)
ODD_SIDED = phrase(
    r"\b(?:right|wrong)[- ]sides?\b[^.;]{0,40}?\b(odd|even)(?:[- ]numbered)? (?:rows|rounds)\b"
    r"|\b(odd|even)(?:[- ]numbered)? (?:rows|rounds)\b[^.;]{0,40}?\b(?:right|wrong)[- ]sides?\b"
)


def likeness_doubted(told: Told) -> Iterator[Doubt]:
    """Each row that is said to be like another, and is none that near steps work alike."""
    for found in _LIKE.finditer(told.words):
        one, other = int(found[1]), int(found[2])
        if not told.is_proved(*found.span()) and not _are_alike(told, one, other):
            yield Doubt(*found.span(), f"nothing says that row {one} is like row {other}")


def _are_alike(told: Told, one: int, other: int) -> bool:
    if told.scene.prose.piece in told_in_words(told.context):
        return other == one - 1
    steps = steps_near(told)
    charts = [chart.grid for step in _charted(told, steps) for chart in step.charts]
    lists = [step.rows for step in steps if len(step.rows) >= max(one, other)]
    return any(rows[one - 1].parts == rows[other - 1].parts for rows in lists) or any(
        grid.rounds[one - 1] == grid.rounds[other - 1]
        for grid in charts
        if min(one, other) > 0 and max(one, other) <= len(grid.rounds)
    )


def readings_doubted(told: Told) -> Iterator[Doubt]:
    """Each direction in which rows are read that is not that of charts worked so: to the left on
    the right side and in rounds, to the right on the wrong side. Common practice, no source."""
    if "read" not in told.words.lower():
        return
    flat = {step.flat for step in _charted(told, steps_near(told))}
    for found in _FROM.finditer(told.words):
        if len(flat) == 1 and not _is_read(found[1].lower(), found[2], *flat):
            yield Doubt(*found.span(), "charts are not read so here")


def _is_read(start: str, which: str, flat: bool) -> bool:
    rows = _WHICH.search(which)
    right = start == "right"
    if rows is None or not flat:
        return right or (flat and rows is None)
    if rows[3]:
        return False
    return right is ((rows[1] or "").lower() == "odd" or (rows[2] or "").lower() == "right")


def odd_rows_doubted(told: Told) -> Iterator[Doubt]:
    """Odd or even rows of a side, where the rows near do not begin so."""
    if told.scene.prose.piece in told_in_words(told.context):
        return
    for found in ODD_SIDED.finditer(told.words):
        right = "right" in found[0].lower()
        odd = (found[1] or found[2]).lower() == "odd"
        starts = {
            before.rounds % 2 for step in steps_near(told) if step.flat for before in step.before
        }
        if not told.is_proved(*found.span()) and (right is not odd or 0 not in starts):
            yield Doubt(*found.span(), "the rows here are counted otherwise")


def _charted(told: Told, steps: Sequence[StepPlan]) -> Sequence[StepPlan]:
    """The steps with charts: those near, or all."""
    return [each for each in steps if each.charts] or [
        each for each in all_steps(told.context) if each.charts
    ]
