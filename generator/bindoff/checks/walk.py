"""Ways through a plan that many checks share."""

from collections.abc import Collection, Iterator

from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Span
from bindoff.document.units import MM_PER_INCH
from bindoff.plan.gauge import Gauge
from bindoff.plan.persize import named
from bindoff.plan.picture import piece_gauges
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.source.piece import Piece
from bindoff.source.rowlang.syntax import Part, Row
from bindoff.source.rowlang.uses import every_part
from bindoff.source.steps.close import CloseStep


class At(Record):
    """A step with the piece it belongs to."""

    piece: Piece
    plan: PiecePlan
    index: int
    step: StepPlan

    @property
    def flat(self) -> bool:
        """Whether the step is worked in rows."""
        return self.step.flat


def steps_of(context: Context) -> Iterator[At]:
    """Every step of every piece, in order."""
    for plan in context.plan.pieces:
        piece = context.pattern.pieces[plan.key]
        for index, step in enumerate(plan.steps):
            yield At(piece, plan, index, step)


def step_told(context: Context, prose: Prose) -> At | None:
    """The step at which a text stands; none for a text that stands at no step."""
    path = prose.path
    if path[:1] != ("pieces",) or path[2:3] != ("steps",):
        return None
    here = (prose.piece, path[3])
    return next((at for at in steps_of(context) if (at.plan.key, at.index) == here), None)


def section_of(at: At) -> str:
    """The heading that a step stands under, or its own."""
    before = at.plan.steps[: at.index + 1]
    return next((step.heading for step in reversed(before) if step.heading), "")


def parts_of(row: Row) -> Iterator[Part]:
    """All parts of a row, those inside others too, in reading order."""
    return every_part(row)


def charts_worked(context: Context) -> Iterator[tuple[At, ChartRows]]:
    """Every step that works a chart."""
    for at in steps_of(context):
        yield from ((at, worked) for worked in at.step.charts)


def gauges_of(context: Context, at: At) -> tuple[Gauge, ...]:
    """The gauge of the step's piece in every size."""
    return piece_gauges(context.plan.measures, at.piece)


def sizes_said(context: Context, indexes: Collection[int]) -> str:
    """``size M``, ``sizes S and M``, ``sizes S to XL``, ``every size``."""
    names = [name for index, name in enumerate(context.source.sizes) if index in indexes]
    if len(names) == len(context.source.sizes) > 1:
        return "every size"
    return named(names, context.source.sizes)


def told_in(context: Context, key: str) -> Iterator[Prose]:
    """Every text of a piece; of the one it mirrors, where it has none of its own."""
    told = context.pattern.pieces[key].mirror_of or key
    return (prose for prose in context.prose if prose.piece in (key, told))


def millimetres(figure: float, unit: str) -> float:
    """A length in mm; ``unit`` is mm, or centimetres or inches in any of their forms."""
    if unit.lower().startswith("c"):
        return figure * 10
    return figure if unit.lower() == "mm" else figure * MM_PER_INCH


def yarns_worked(*steps: StepPlan) -> set[str]:
    """The yarns that steps work with."""
    return {yarn for step in steps for size in step.worked for loops in size for yarn, _ in loops}


def told_in_words(context: Context) -> set[str]:
    """The pieces of which no step works a row: what is done stands in the texts alone."""
    return {plan.key for plan in context.plan.pieces if not any(any(s.rounds) for s in plan.steps)}


def length_said(context: Context, mm: float) -> str:
    """A length in the unit that the pattern is printed in, first of both: ``24.1 cm``."""
    if context.pattern.units == "imperial":
        return f"{mm / MM_PER_INCH:.4g} in"
    return f"{mm / 10:.1f} cm"


def body_said(context: Context, size: int, key: str, mm: float) -> str:
    """A body measurement as it is written, and in centimetres where it is written otherwise."""
    body = context.pattern.sizes[context.source.sizes[size]]
    if key not in body.body:
        return f"{mm / 10:g} cm"
    written = " ".join(body.place_of(key).text.split())
    return written if written.endswith("cm") else f"{written} ({mm / 10:.1f} cm)"


def note_of(at: At) -> str:
    """The remarks of a step, in lower case."""
    said = (at.step.step.first, at.step.step.note)
    return " ".join(each for each in said if each).lower()


def tied_tops(context: Context) -> Iterator[tuple[str, str, Span]]:
    """The pieces whose top a tie or a drawstring closes: title, which of them, and the place."""
    for piece in context.pattern.pieces.values():
        for step in piece.steps:
            if isinstance(step, CloseStep) and step.by in ("tie", "drawstring"):
                yield piece.title, step.by, step.place.of("by").span
