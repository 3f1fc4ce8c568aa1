"""Numbers of balls, sizes and markers in sentences."""

import re
from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.told import truths
from bindoff.checks.told.counts import Statement
from bindoff.checks.told.numbers import NUMBER, number_of
from bindoff.checks.told.scene import Scene, Sentence
from bindoff.checks.told.truths import Figures, Truth, known, phrase
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Marker, MarkerAct

_BALLS = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:balls?|skeins?|hanks?)\b(?: of ([A-Z][\w'’]*))?")
_BOUGHT = phrase(r"\b(?:takes?|needs?|buy|uses?|requires?|enough|with|from)\b[^.;]*$")
_SIZES = phrase(
    rf"(?<![\w.,/–-])({NUMBER}) sizes\b(?! (?:larger|smaller|up|down|bigger|too|apart))"
)
_MADE_IN = phrase(
    r"\b(?:comes?|written|made|given|graded|available|sized|knitted|worked)\b[^.;]*\b(?:in|for)"
    r"(?: all)?(?: of)?(?: the)? $|\ball(?: the)? $"
)
_MARKERS = phrase(rf"(?<![\w.,/–-])({NUMBER}) (?:stitch |removable |coloured |colored )?markers?\b")
_PLACED = phrase(
    r"\b(?:place|placing|are|has|have|slip|slipping|move|the|use|hang|remove) (?:the |all )*$"
)


def things_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every number of balls, sizes and markers in a sentence."""
    text, at = sentence.text, sentence.start
    for found in _BALLS.finditer(text):
        truth = _balls(context, text[: found.start()], found[2])
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
    for found in _SIZES.finditer(text):
        sizes = len(context.source.sizes)
        there = Truth("sizes there are", (truths.plain([sizes] * sizes),))
        truth = there if _MADE_IN.search(text[: found.start()]) else None
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)
    for found in _MARKERS.finditer(text):
        truth = _markers(context, scene) if _PLACED.search(text[: found.start()]) else None
        yield Statement(at + found.start(), at + found.end(), number_of(found[1]), truth)


def _balls(context: Context, left: str, name: str | None) -> Truth | None:
    """The balls of the yarn that is named, or of each and of all."""
    if not _BOUGHT.search(left) or re.search(r"(?i)\b(?:another|extra|spare|more|about)\s+$", left):
        return None
    yarns = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    each = {total.yarn: truths.plain([n.balls for n in total.needs]) for total in context.plan.yarn}
    if name is not None:
        return known(f"of {name} it takes", [each[yarns[name]]]) if name in yarns else None
    counts = [[need.balls for need in total.needs] for total in context.plan.yarn]
    whole = truths.plain([sum(some) for some in zip(*counts, strict=True)])
    return known("balls it takes", [whole, *each.values()])


def _markers(context: Context, scene: Scene) -> Truth | None:
    """The markers that the rows of a section, a piece or the pattern place or have at one time."""
    steps: tuple[StepPlan, ...] = scene.section if scene.plan is not None else ()
    if not any(map(truths.has_markers, steps)):
        plans = [scene.plan] if scene.plan is not None else context.plan.pieces
        steps = tuple(step for plan in plans for step in plan.steps)
    placed = sum(
        isinstance(part, Marker) and part.act is MarkerAct.PLACE
        for step in steps
        for row in truths.all_rows(step)
        for part in truths.flat(row.parts)
    )
    if not placed:
        return None
    at_once = max(
        (len(level.markers) for step in steps for levels in step.levels for level in levels),
        default=0,
    )
    sizes = len(context.source.sizes)
    counts = {placed, placed + 1, at_once, at_once + 1 if at_once else 0}
    if any("start of the round" in notion for notion in context.pattern.notions):
        counts.add(placed + 1)
    else:
        counts.discard(placed + 1)
    figures: list[Figures] = [truths.plain([each] * sizes) for each in sorted(counts) if each]
    return known("markers there are", figures)
