"""Lengths in sentences, of parts that have a name and of what has been worked, against the rows."""

from collections.abc import Iterator, Sequence

from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import sentences_of
from bindoff.checks.told.scene import Part, Scene, parts_named, scene_of
from bindoff.checks.told.truths import phrase
from bindoff.checks.walk import millimetres
from bindoff.plan.picture import piece_gauges
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record

_LENGTH = r"(\d+(?:\.\d+)?) ?(mm|cm|in|inches|inch)\b"
_DEEP = phrase(
    rf"\b(?:the|each|every|both) ([a-z]+)s? (?:is|are|measures?) (?:now |about )?{_LENGTH}"
    r"(?: \([^()]*\))? (?:deep|high|long|tall)\b(?! (?:at|from|to|before|after|when|in)\b)"
)
_UNTIL = phrase(
    rf"\b(?:until|till|when)(?: \w+){{0,4}}? (?:measures?|is) (?:about )?{_LENGTH}"
    r"(?: \([^()]*\))?(?! (?:wide|across|around|less|short|before|more))"
)
_OFF, _OFF_MM = 0.03, 5.0
"""A length in prose is told to the nearest half a centimetre or quarter of an inch."""


class Height(Record):
    """A length that a text gives, from ``start`` to ``end``, and those in mm that the rows come to
    in the size where they are furthest from it."""

    start: int
    end: int
    rows: tuple[float, ...]


def heights_told(context: Context, prose: Prose) -> Iterator[Height]:
    """Every length of a text that no rows come to."""
    labels = {label.lower() for label in context.plan.measures.finished}
    for sentence in sentences_of(prose):
        if sentence.supposes:
            continue
        for found in _DEEP.finditer(sentence.words):
            if found[1].lower() not in labels:
                parts = parts_named(context, found[1], prose.piece)
                real = [_of_part(context, part) for part in parts]
                yield from _wrong(sentence.start, found.span(), _mm(found[2], found[3]), real)
        for found in _UNTIL.finditer(sentence.words):
            real = [_so_far(context, scene_of(context, prose))]
            yield from _wrong(sentence.start, found.span(), _mm(found[1], found[2]), real)


_PerSize = Sequence[Sequence[float]]


def _wrong(
    start: int, span: tuple[int, int], mm: float, real: Sequence[_PerSize]
) -> Iterator[Height]:
    """A finding where some size has no such length, though rows are known in all."""
    sizes = len(real[0]) if real else 0
    for size in range(sizes):
        every = tuple(each for some in real for each in some[size])
        if every and not any(abs(mm - each) <= max(_OFF_MM, _OFF * each) for each in every):
            yield Height(start + span[0], start + span[1], every)
            return


def _of_part(context: Context, part: Part) -> _PerSize:
    """The lengths of the steps of a part, and of runs of them from the first on, per size."""
    plan = next(plan for plan in context.plan.pieces if part.steps[0] in plan.steps)
    return _runs(context, plan, part.steps)


def _so_far(context: Context, scene: Scene) -> _PerSize:
    """What may have been worked where a text stands: of the section, and of the piece."""
    if scene.plan is None:
        return ()
    runs = _runs(context, scene.plan, scene.section)
    steps = scene.here or scene.behind
    gauges = piece_gauges(context.plan.measures, context.pattern.pieces[scene.plan.key])
    whole = [
        [gauge.height_of(step.after[size].height) for step in (*steps, *scene.coming)]
        for size, gauge in enumerate(gauges)
    ]
    return [[*one, *other] for one, other in zip(runs, whole, strict=True)]


def _runs(context: Context, plan: PiecePlan, steps: Sequence[StepPlan]) -> _PerSize:
    gauges = piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])
    found: list[list[float]] = []
    for size, gauge in enumerate(gauges):
        rows = [step.rounds[size] for step in steps if step.rounds[size]]
        sums = [sum(rows[a:b]) for a in range(len(rows)) for b in range(a + 1, len(rows) + 1)]
        found.append([gauge.height_of(each) for each in sums])
    return found


def _mm(figure: str, unit: str) -> float:
    return millimetres(float(figure), unit)
