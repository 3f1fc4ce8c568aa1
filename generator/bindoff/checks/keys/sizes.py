"""Figures from size to size: in order, in even steps, and each size its own."""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import body_said, length_said
from bindoff.diagnostics import Severity, Span
from bindoff.document.voice import body_rows
from bindoff.plan.persize import named
from bindoff.plan.values import Kind
from bindoff.source.lengths import parse_length

_TYPED = re.compile(r"[\d.,/¼½¾\s]++[a-z\"”″]*\s*")
_FARTHER = 3.0
_TWIN = 1.5  # common practice, no source
_TENFOLD = 8  # a decimal point lost between neighbouring sizes
_FITTED = 3  # stitches or rounds by which counts go back to suit a repeat
_ROUNDING_MM = 5.0


def bodies(context: Context) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Each body measurement that is printed, in mm per size."""
    yield from ((key, tuple(figures)) for key, figures in body_rows(context.plan))


def out_of_order(context: Context) -> Iterator[tuple[str, int]]:
    """The first size of each body measurement that is smaller than the size before it."""
    for key, figures in bodies(context):
        drop = next((i for i, (a, b) in enumerate(pairwise(figures), 1) if b < a), None)
        if drop is not None:
            yield key, drop


@check(
    id="size.order",
    title="Sizes run from small to large",
    looks_at="every body measurement from size to size",
    why="knitters pick their figures by the place in the row; one that is out of order is most "
    "often a slip of the keys, and one size gets a piece that fits nobody",
    severity=Severity.WARNING,
    remedy="Correct the measurement, or put the sizes in order",
    needs=Needs.SIZES,
)
def size_order(context: Context) -> Iterator[Finding]:
    """One finding for each body measurement, at the first size that is out of order.

    Of the two sizes that disagree it is the one without which all others are in order.
    """
    sizes = context.source.sizes
    for key, index in out_of_order(context):
        figures = dict(bodies(context))[key]
        if _in_order(figures, index - 1) and not _in_order(figures, index):
            yield Finding(
                f"`{key}` is {body_said(context, index - 1, key, figures[index - 1])} in size "
                f"{sizes[index - 1]}, more than the "
                f"{body_said(context, index, key, figures[index])} of size {sizes[index]} after it",
                context.pattern.sizes[sizes[index - 1]].place.of(key).span,
                sizes=(sizes[index - 1],),
            )
            continue
        yield Finding(
            f"`{key}` is {body_said(context, index, key, figures[index])} in size {sizes[index]}, "
            f"less than the {body_said(context, index - 1, key, figures[index - 1])} of size "
            f"{sizes[index - 1]} before it",
            context.pattern.sizes[sizes[index]].place.of(key).span,
            sizes=(sizes[index],),
        )


def _in_order(figures: Sequence[float], without: int) -> bool:
    """Whether the figures rise throughout once one is left out."""
    rest = [*figures[:without], *figures[without + 1 :]]
    return all(a <= b for a, b in pairwise(rest))


@check(
    id="size.same",
    title="No two sizes come out the same",
    looks_at="the finished measurements of neighbouring sizes",
    why="one of the two is misnamed or a copy that was never changed; its knitter gets another "
    "size than asked for",
    severity=Severity.WARNING,
    remedy="Change the body measurements, or leave one of the sizes out",
    needs=Needs.MEASURES,
)
def same_sizes(context: Context) -> Iterator[Finding]:
    """One finding for each run of neighbours, at the second of these."""
    finished = context.plan.measures.finished.values()
    names = tuple(context.source.sizes)
    for _, run in groupby(range(len(names)), lambda size: [m.rounded[size] for m in finished]):
        alike = [names[size] for size in run]
        if len(alike) > 1:
            yield Finding(
                f"{named(alike, names)} have the same finished measurements",
                context.pattern.sizes[alike[1]].place.key_span,
            )


@check(
    id="measure.steps",
    title="Typed figures grow in even steps",
    looks_at="body measurements, and measures that list a figure for each size: all up or all "
    "down (counts may go back by 3 to suit a repeat), none tenfold the one before, and from four "
    "sizes on no step over three times as large as all others, nor one half as large again beside "
    "a figure that stands twice",
    why="a figure that leaps out of its row is most often a typing slip, and one size is ruined",
    severity=Severity.WARNING,
    remedy="Check the figure against its neighbours; silence it if the row is meant so",
    needs=Needs.MEASURES,
)
def even_steps(context: Context) -> Iterator[Finding]:
    """One finding for each row of figures, at the size that leaps."""
    for name, index, place in uneven(context):
        size = context.source.sizes[index]
        yield Finding(f"`{name}` leaps at size {size}", place, sizes=(size,))


def uneven(context: Context) -> Iterator[tuple[str, int, Span]]:
    """The rows of figures that turn back or leap: name, index of the size, place."""
    disordered = {key for key, _ in out_of_order(context)}
    for key, figures in bodies(context):
        index = leap(figures) if key not in disordered else None
        if index is not None:
            size = context.pattern.sizes[context.source.sizes[index]]
            yield key, index, size.place.of(key).span
    pattern, measures = context.pattern, context.plan.measures
    for written, figured in (
        (pattern.measures, measures.named),
        (pattern.finished, measures.finished),
    ):
        for name, measure in figured.items():
            amount = written[name]
            if not amount.by_size or not all(_TYPED.fullmatch(f.text) for f in amount.formulas):
                continue
            index = turn(measure.rounded, 0 if measure.kind is Kind.LENGTH else _FITTED)
            index = leap(measure.rounded) if index is None else index
            if index is not None:
                yield name, index, amount.place_of(index, context.source.sizes[index]).span


def turn(figures: Sequence[float], slack: float) -> int | None:
    """Where a row that should rise or fall throughout turns: the figure that, left out, mends it.

    Where none mends it alone, the first that breaks the row.
    """
    if _one_way(figures, slack):
        return None
    for index in range(len(figures)):
        if _one_way([*figures[:index], *figures[index + 1 :]], slack):
            return index
    return next(i for i in range(2, len(figures)) if not _one_way(figures[: i + 1], slack))


def _one_way(figures: Sequence[float], slack: float) -> bool:
    steps = [b - a for a, b in pairwise(figures)]
    return all(step >= -slack for step in steps) or all(step <= slack for step in steps)


def leap(figures: Sequence[float]) -> int | None:
    """The figure after a step over three times as large as all others, or ten times the one before.

    From four figures on also the one that stands for its neighbour's: it repeats one of them, and
    the step to the other is half as large again as all the rest. Of three figures or fewer only the
    tenfold.
    """
    for index, (before, after) in enumerate(pairwise(figures), 1):
        if before > 0 and after >= _TENFOLD * before:
            return index
    steps = [abs(b - a) for a, b in pairwise(figures)]
    if len(steps) < 3:
        return None
    largest = max(steps)
    index = steps.index(largest)
    others = max(steps[:index] + steps[index + 1 :])
    if steps.count(0) == 1 and abs(steps.index(0) - index) == 1 and largest >= _TWIN * others:
        return max(steps.index(0), index)
    return index + 1 if others > 0 and largest > _FARTHER * others else None


@check(
    id="finished.order",
    title="Finished measurements grow with the sizes",
    looks_at="every finished length from size to size, rounding of half a centimetre left aside",
    why="a larger size with a smaller piece is a fault in a formula that no single size shows",
    severity=Severity.WARNING,
    remedy="Check the formulas it comes from in the two sizes",
    needs=Needs.MEASURES,
)
def finished_order(context: Context) -> Iterator[Finding]:
    """One finding for each finished length; none where a typed figure is the cause."""
    if any(out_of_order(context)) or any(uneven(context)):
        return
    names = context.source.sizes
    for label, measure in context.plan.measures.finished.items():
        if measure.kind is not Kind.LENGTH:
            continue
        for index, (before, after) in enumerate(pairwise(measure.rounded)):
            if after < before - _ROUNDING_MM:
                yield Finding(
                    f"`{label}` falls from {length_said(context, before)} in size {names[index]} "
                    "to "
                    f"{length_said(context, after)} in size {names[index + 1]}",
                    measure.span,
                )
                break


# The longest that parts of things to wear are, in mm; common practice, no source.
_LONGEST = (
    (re.compile(r"\bleg\b.*\b(?:above|to|length)\b|\bleg\b$", re.IGNORECASE), 800.0),
    (re.compile(r"\bsleeve length\b|\blength of (?:the )?sleeves?\b", re.IGNORECASE), 800.0),
    (re.compile(r"\bfoot(?: length|, heel)|\blength of (?:the )?foot\b", re.IGNORECASE), 400.0),
    (re.compile(r"^(?:cuff|brim|thumb)(?: (?:depth|height|length))?$", re.IGNORECASE), 300.0),
    (re.compile(r"\bhand\b.*\blength\b|\blength\b.*\bhand\b", re.IGNORECASE), 350.0),
)


@check(
    id="measure.body",
    title="No part is longer than a body",
    looks_at="finished lengths of legs, sleeves, feet, cuffs, brims, hands and thumbs of things to "
    "wear, and the typed length that makes them so",
    why="a nought too many in a length makes a sleeve for nobody, and yarn is bought for it",
    severity=Severity.WARNING,
    remedy="Check the length for a nought or a decimal point",
    needs=Needs.MEASURES,
)
def longer_than_a_body(context: Context) -> Iterator[Finding]:
    """One finding for each label, at the measure whose typed length is too long by itself."""
    if not {"infant", "child", "adult"} & set(context.pattern.wearer):
        return
    for label, measure in context.plan.measures.finished.items():
        longest = next((mm for words, mm in _LONGEST if words.search(label)), None)
        if longest is None or measure.kind is not Kind.LENGTH or max(measure.rounded) <= longest:
            continue
        names = _made_of(context, context.pattern.finished[label].place.text)
        typed = [
            amount.place.span
            for name in names
            if (amount := context.pattern.measures.get(name)) is not None
            and any(
                parse_length(f"{figure} {unit}") > longest
                for figure, unit in _TYPED_LENGTH.findall(amount.place.text)
            )
        ]
        yield Finding(
            f"`{label}` is {length_said(context, max(measure.rounded))}, longer than that of any "
            "body",
            typed[0] if typed else measure.span,
        )


def _made_of(context: Context, formula: str) -> list[str]:
    """The measures that a formula names, and those that they are made of."""
    found: list[str] = []
    waiting = re.findall(r"\w+", formula)
    while waiting:
        name = waiting.pop(0)
        if name in context.pattern.measures and name not in found:
            found.append(name)
            waiting += re.findall(r"\w+", context.pattern.measures[name].place.text)
    return found


_TYPED_LENGTH = re.compile(r"(?<![\d.])(\d+(?:\.\d+)?) ?(mm|cm|in)\b")

CHECKS = (size_order, same_sizes, even_steps, finished_order, longer_than_a_body)
