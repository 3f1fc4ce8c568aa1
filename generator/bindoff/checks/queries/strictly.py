"""Numbers whose neighbours leave no doubt of what they count: one fact alone confirms each."""

from collections.abc import Iterator, Sequence

from bindoff.checks.queries.sentence import Told, are_among, steps_near
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.truths import Figures, alike, phrase
from bindoff.plan.worked import StepPlan

_LEFT = phrase(
    r"^(?: stitches| sts)?(?: are| is)?(?: now)? (?:left|remain\w*|on the needles?|in all"
    r"|altogether)\b(?! (?:for|of|on|at|between|un\w+))"
)
_HAVE = phrase(r"\b(?:you|there|now) (?:now )?(?:have|are) $")
_ALIVE = phrase(r"^ (?:stitches|sts)\b(?! (?:at|of|for|in|on each))")
_APART = phrase(r"\b(?:between|each|every|increased|decreased|added|worked|lost|gone)\b[^.;]*$")
_SHARED = phrase(
    r"^[^.;:,]*\b(?:each|either|both|between|rows?|rounds?|times|markers?|ridges|decreas\w+"
    r"|increas\w+)\b"
)
_TURN = phrase(r"\b(?:increas|decreas)\w* $")
_AT_ENDS = phrase(
    r"^ (?:stitch(?:es)?|sts?) (?:at|on) (?:each|both|either) (?:ends?|sides?|edges?)\b"
)
_IN_EVERY = phrase(r"^ (?:stitches|sts) (?:in|on|every|each) (?:every|each|the next|row|round)")
_THESE = phrase(r"\b(?:these|those|the) $")
_ROWS = phrase(r"^ (?:rows|rounds|rnds)\b")
_SINCE = phrase(r"^ (?:rows|rounds|rnds) (?:in all|altogether)\b")
_EACH_SIDE = phrase(r"^(?: stitches| sts)?(?: lie| stand| wait)? (?:on|at) (?:each|either) side\b")
_AT_EDGES = phrase(
    r"^(?: \w+)?(?: stitch(?:es)?| sts)?(?: in garter stitch)? (?:at|on|along|in)"
    r" (?:each|both|either|every|the) (?:sides?|edges?|ends?|corners?)\b"
)
_SHAPES = phrase(r"\b(?:increas|decreas|adds?|takes|gains|loses)\w*\b")
_AN_EDGE = 20
"""An edge that is told by its stitches is narrower."""


def only_facts(told: Told, start: int, end: int, numbers: Sequence[int]) -> tuple[Figures, ...]:
    """What alone the number at a part of a sentence may be; nothing where the words leave that
    open."""
    left, right = told.words[:start], told.words[end:]
    narrow = max(numbers) < _AN_EDGE and not _SHAPES.search(told.words)
    if narrow and _AT_EDGES.search(right):
        edges = tuple(truths.edge_counts(told.context, steps_near(told)))
        if not are_among(numbers, edges):
            return edges
    alive = _HAVE.search(left) and _ALIVE.search(right)
    if (alive or _LEFT.search(right)) and not (_SHARED.search(right) or _APART.search(left)):
        live = tuple(_live(told))
        if not are_among(numbers, live):
            return live
    return tuple(_at_step(told, left, right))


def _live(told: Told) -> Iterator[Figures]:
    """The stitches that a text between steps finds, or that the step of a text finds and leaves."""
    own = told.scene.own
    for step in told.scene.here:
        yield truths.plain([each.stitches for each in step.after])
        if step.closes is not None:
            yield truths.plain(step.closes.stitches)
        if step.begins is not None:
            yield truths.plain([sum(part) for part in zip(*step.begins.parts, strict=True)])
        if step is not own or not any(step.rounds):
            yield truths.finds(step)
        if truths.few(step) and any(step.levels):
            yield from truths.changes(step)


def _at_step(told: Told, left: str, right: str) -> Iterator[Figures]:
    """What a number may be at the step of a text, or at those ahead of it, by the words beside
    it."""
    scene, own = told.scene, told.scene.own
    if _TURN.search(left) and (_AT_ENDS.search(right) or _IN_EVERY.search(right)):
        changes = tuple(filter(any, map(truths.each_row, scene.here)))
        yield from truths.halves(changes) if _AT_ENDS.search(right) else changes
    elif own is not None and _SINCE.search(right):
        yield truths.plain([each.rounds for each in own.after])
        yield truths.plain(own.rounds)
        every = [step.rounds for step in (*scene.behind, own)]
        yield truths.plain([sum(each) for each in zip(*every, strict=True)])
    elif own is not None and _THESE.search(left) and _ROWS.search(right):
        for step in (own, *scene.behind[-1:]):
            yield truths.plain(step.rounds)
        yield alike(told.context, len(own.rows), *(chart.grid.rows for chart in own.charts))
    elif _EACH_SIDE.search(right):
        yield from map(_up_to_half, scene.here)


def _up_to_half(step: StepPlan) -> Figures:
    """As many stitches as may lie on each of two sides."""
    pairs = zip(step.before, step.after, strict=True)
    return tuple(frozenset(range(1, max(a.stitches, b.stitches) // 2 + 1)) for a, b in pairs)
