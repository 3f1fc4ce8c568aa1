"""What goes over the head: the neck of a garment, and a ring for the neck."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.keys.bodies import people
from bindoff.checks.walk import At, gauges_of, length_said, section_of, sizes_said, steps_of
from bindoff.craft.wearers import Worn, worn_on
from bindoff.diagnostics import Severity, Span
from bindoff.plan.gauge import Gauge
from bindoff.plan.steps.close import ClosedTop
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record

_NECK = re.compile(r"\b(neck\w*|collar)\b", re.IGNORECASE)
_GARMENT = re.compile(r"\b(body|yoke|front|back|sleeves?)\b", re.IGNORECASE)
_STRETCH = 1.6
"""A ribbed neck stretches to this much of its width, about (our own judgement, no source)."""


class _Head(Record):
    """A head in mm, and whose it is."""

    mm: float
    whose: str


def _heads(context: Context) -> Iterator[_Head]:
    """The head of every size; the smallest of any wearer where a size has none."""
    least = people("head", context.pattern.wearer)
    for size, measures in zip(context.source.sizes, context.plan.measures.sizes, strict=True):
        own = measures.body.get("head")
        if own:
            yield _Head(mm=own, whose=f"the head of size {size}")
        else:
            yield _Head(mm=least[0] if least else 0.0, whose="the smallest head of a wearer")


@check(
    id="neck.head",
    title="The neck passes over the head",
    looks_at="the neck of a garment worked in the round, where it is cast on or closed, against "
    f"the head of the size, or the smallest of a wearer: at most {_STRETCH:g} times as wide",
    why="a pullover that does not go over the head is worn by nobody",
    severity=Severity.WARNING,
    remedy="Give the neck more stitches, or an opening with a button",
)
def neck_passes_head(context: Context) -> Iterator[Finding]:
    """One finding for each edge of a neck."""
    heads = tuple(_heads(context))
    titles = " ".join(piece.title for piece in context.pattern.pieces.values())
    if not _GARMENT.search(titles):
        return
    for at in steps_of(context):
        if at.flat or not _NECK.search(f"{section_of(at)} {at.piece.title}"):
            continue
        around = _Around(_edge(context, at), _STRETCH, at.step.span)
        yield from _too_tight(context, "the neck", around, heads, "its width")


def _at_an_end(at: At) -> tuple[int, ...]:
    """The stitches that a step casts on, or all those that it binds off; none for another step."""
    begun, closed = at.step.begins, at.step.closes
    if begun is not None and begun.by is not None:
        return tuple(map(sum, zip(*begun.parts, strict=True)))
    ends = closed is not None and not any(progress.stitches for progress in at.step.after)
    open_end = closed is not None and closed.by is not None and not closed.halved
    return closed.stitches if closed is not None and open_end and ends else ()


_RING_STRETCH = 1.2
"""Rounds laid end to end stretch to this much of their length, about: less than the stitches of a
round (our own judgement, no source)."""


@check(
    id="ring.head",
    title="A ring for the neck passes over the head",
    looks_at="cowls and other rings for the neck: those joined end to end at "
    f"{_RING_STRETCH:g} times their length, and the edges of tubes at {_STRETCH:g} times their "
    "width, against the head of the size, or the smallest of a wearer",
    why="what goes over the head by force sits as tight when it has to come off",
    severity=Severity.WARNING,
    remedy="Make the ring longer, or give the tube more stitches",
)
def ring_passes_head(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    if worn_on(_measured(context), context.pattern.titles) is not Worn.NECK:
        return
    heads = tuple(_heads(context))
    for plan in context.plan.pieces:
        around = _narrowest(context, plan)
        if around is None:
            continue
        yield from _too_tight(context, f"`{plan.key}`", around, heads, "that")


class _Around(Record):
    """The way around an opening in every size, how far it stretches, and the step that makes it."""

    mm: tuple[float, ...]
    stretch: float
    place: Span


def _too_tight(
    context: Context, what: str, around: _Around, heads: tuple[_Head, ...], its: str
) -> Iterator[Finding]:
    """The finding of an opening that does not pass over the head of some size."""
    tight = [
        size
        for size, (mm, head) in enumerate(zip(around.mm, heads, strict=False))
        if mm * around.stretch < head.mm
    ]
    if tight:
        mm, head = around.mm[tight[0]], heads[tight[0]]
        yield Finding(
            f"{what} is {length_said(context, mm)} around in {sizes_said(context, tight)}, and "
            f"{head.whose} {length_said(context, head.mm)}: it would have to stretch to "
            f"{head.mm / mm:.1f} times {its}",
            around.place,
            sizes=tuple(context.source.sizes[each] for each in tight),
        )


def _measured(context: Context) -> list[str]:
    """The body measurements that the sizes give."""
    return list({name: None for size in context.plan.measures.sizes for name in size.body})


def _narrowest(context: Context, plan: PiecePlan) -> _Around | None:
    """The opening of a piece that is the tightest; ``None`` for what is no open ring."""
    steps = [at for at in steps_of(context) if at.plan.key == plan.key]
    tops = [at.step.detail for at in steps if isinstance(at.step.detail, ClosedTop)]
    if any(top.folded or top.by != "left open" for top in tops):
        return None
    ring = next((at for at in steps if at.step.closes and at.step.closes.to == ""), None)
    if ring is not None:
        joined = tuple(zip(gauges_of(context, ring), ring.step.before, strict=True))
        mm = tuple(gauge.height_of(progress.rounds) for gauge, progress in joined)
        wide = tuple(gauge.width_of(progress.stitches) for gauge, progress in joined)
        if max(mm) < min(wide) / 2:  # a band that is doubled: its own edge goes around the neck
            return _Around(wide, _STRETCH, ring.step.span)
        return _Around(mm, _RING_STRETCH, ring.step.span)
    edges = [
        _Around(mm, _STRETCH, at.step.span)
        for at in steps
        if not at.flat and not at.step.tubes and (mm := _edge(context, at))
    ]
    return min(edges, key=lambda each: each.mm, default=None)


def _edge(context: Context, at: At) -> tuple[float, ...]:
    """How wide the edge is that a step begins or ends a piece with; nothing for another step."""
    gauges: tuple[Gauge, ...] = gauges_of(context, at)
    return tuple(gauge.width_of(n) for gauge, n in zip(gauges, _at_an_end(at), strict=False))


CHECKS = (neck_passes_head, ring_passes_head)
