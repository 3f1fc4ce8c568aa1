"""Parts of garments that have to meet: cap and armhole, shoulders, heel and foot."""

import math
from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import (
    At,
    gauges_of,
    length_said,
    millimetres,
    section_of,
    sizes_said,
    steps_of,
)
from bindoff.checks.work.edgework import Shaped, shaped
from bindoff.diagnostics import Severity, Span
from bindoff.english import how_many
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import piece_gauges
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.plan.worked import PiecePlan
from bindoff.source.rowlang.syntax import Work


@check(
    id="heel.return",
    title="After heel and gusset the foot has as many stitches as the leg",
    looks_at="pieces with a section called heel: the stitches before it, and those after the "
    "gusset, or after the heel where there is none",
    why="a decrease too few or too many shows only at the toe, when the sock is nearly done",
    severity=Severity.WARNING,
    remedy="Check how often the gusset is decreased, or what the heel leaves; silence it where the "
    "foot is meant to be wider or narrower",
)
def heel_returns(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for plan in context.plan.pieces:
        steps = [at for at in steps_of(context) if at.plan.key == plan.key]
        heel = [at for at in steps if re.search(r"\bheel\b", section_of(at), re.IGNORECASE)]
        if not heel:
            continue
        gusset = [at for at in steps if re.search(r"\bgusset\b", section_of(at), re.IGNORECASE)]
        last = [at for at in gusset if at.index > heel[-1].index] or heel
        before = [progress.stitches for progress in heel[0].step.before]
        after = [progress.stitches for progress in last[-1].step.after]
        unlike = [size for size, (a, b) in enumerate(zip(before, after, strict=True)) if a != b]
        if unlike and all(before) and all(after):
            size = unlike[0]
            yield Finding(
                f"the leg has {how_many(before[size], 'stitch')} before the heel and the foot "
                f"{after[size]} after it in {sizes_said(context, unlike)}",
                last[-1].step.span,
                sizes=tuple(context.source.sizes[each] for each in unlike),
            )


_EASE_IN, _LONGER, _LONGER_MM = 0.97, 1.10, 25.4
"""A cap edge against its armhole: knitting gives a few per cent, and a cap may be an inch or a
tenth longer (published lessons on set-in sleeves)."""


@check(
    id="cap.armhole",
    title="The edge of a sleeve cap is as long as its armhole",
    looks_at="flat pieces called sleeve and back that bind off at the underarm: the edge from "
    "there on, along its slope; the front counts as long as the back",
    why="a cap that is too short puckers the shoulder, one that is too long stands up in a fold",
    severity=Severity.WARNING,
    remedy="Work the cap over more or fewer rows, or end it with more or fewer stitches",
)
def cap_meets_armhole(context: Context) -> Iterator[Finding]:
    """One finding for each sleeve."""
    back = _called(context, "back")
    sleeve = _called(context, "sleeve")
    if back is None or sleeve is None:
        return
    unlike: list[tuple[int, float, float]] = []
    for size in range(len(context.source.sizes)):
        armhole = _edge_length(context, back, size, to_the_end=False)
        cap = _edge_length(context, sleeve, size, to_the_end=True)
        if not armhole or not cap:
            return
        most = max(2 * armhole * _LONGER, 2 * armhole + _LONGER_MM)
        if not 2 * armhole * _EASE_IN <= cap <= most:
            unlike.append((size, cap, 2 * armhole))
    if unlike:
        size, cap, armhole = unlike[0]
        sizes = [each for each, *_ in unlike]
        yield Finding(
            f"the edge of the cap is {length_said(context, cap)} and that of the armhole "
            f"{length_said(context, armhole)} in size {context.source.sizes[size]}"
            + (f", and they differ in {sizes_said(context, sizes)}" if len(sizes) > 1 else ""),
            _cap_starts(context, sleeve),
            "Work the cap over fewer rows, or end it with fewer stitches"
            if cap > armhole
            else "Work the cap over more rows, or end it with more stitches",
            sizes=tuple(context.source.sizes[each] for each in sizes),
        )


def _cap_starts(context: Context, sleeve: PiecePlan) -> Span:
    """The step in which the cap begins: the first that binds off."""
    edges = shaped(context, sleeve, 0) or ()
    bound = [each.row for each in edges if each.how == "binds off"]
    return next(
        (step.span for step in sleeve.steps if bound and step.after[0].rounds >= bound[0]),
        context.pattern.pieces[sleeve.key].place.key_span,
    )


def _called(context: Context, name: str) -> PiecePlan | None:
    """The only flat piece of that title, or titles that end in it."""
    found = [
        plan
        for plan in context.plan.pieces
        if context.pattern.pieces[plan.key].worked == "flat"
        and re.search(rf"\b{name}s?$", context.pattern.pieces[plan.key].title, re.IGNORECASE)
    ]
    return found[0] if len(found) == 1 else None


def _edge_length(context: Context, plan: PiecePlan, size: int, *, to_the_end: bool) -> float:
    """The length (mm) of what a symmetrical piece shapes after its first binding off; 0 where it
    binds off nowhere or can't be told. ``to_the_end``: both edges and the last stitches, as of a
    cap; else one edge, up to the shoulder."""
    edges, widths = shaped(context, plan, size), _widths(plan, size)
    bound = [each.row for each in edges or () if each.how == "binds off"]
    if not bound or not widths:
        return 0.0
    gauge = context.plan.measures.sizes[size].gauges[context.pattern.pieces[plan.key].gauge or ""]
    first = bound[0]
    last = len(widths) - 1 if to_the_end else _shoulder_row(bound, len(widths)) - 1
    side = _slope(widths[first - 1 : last + 1], gauge)
    if not to_the_end:
        return side
    return 2 * side + gauge.width_of(widths[-1])


def _widths(plan: PiecePlan, size: int) -> list[int]:
    """The stitches before the first row and after each; none where rows are short or slip."""
    found = [0]
    for step in plan.steps:
        begun = step.begins
        if begun is not None:
            if len(found) > 1:
                return []
            found = [sum(part[size] for part in begun.parts)]
        slipped = any(
            isinstance(part, Work) and part.stitch.startswith("sl")
            for row in step.rows
            for part in row.parts
        )
        if slipped or step.after[size].height < step.after[size].rounds:
            return []
        found += [sum(count for _, count in loops) for loops in step.worked[size]]
    while len(found) > 1 and not found[-1]:  # a row that holds them all works none
        found.pop()
    return found if found[0] else []


_BETWEEN = 8
"""Rows without binding off that part the underarm from the shoulder, at least."""


def _shoulder_row(bound: Sequence[int], rows: int) -> int:
    """The row in which the shoulder begins; ``rows`` where it is not stepped."""
    row = rows
    for each in reversed(bound):
        if row - each > _BETWEEN:
            return row
        row = each
    return row


def _slope(widths: Sequence[int], gauge: Gauge) -> float:
    """The length of one edge of a symmetrical piece, in pairs of rows: one row shapes each edge."""
    found = 0.0
    for index in range(0, len(widths) - 1, 2):
        end = min(index + 2, len(widths) - 1)
        across = gauge.width_of(abs(widths[index] - widths[end]) / 2)
        found += math.hypot(across, gauge.height_of(end - index))
    return found


@check(
    id="shoulder.meet",
    title="Front and back have the same shoulders",
    looks_at="flat pieces called back and left or right front: the stitches that the back binds "
    "off in steps at its end, at either edge, against all that the front ends with; not fewer "
    "where the back closes the neck in the same row as what is left of the shoulders",
    why="shoulders that differ are eased in or gape when they are sewn",
    severity=Severity.WARNING,
    remedy="Bind off as many on both, or hold them and join them with three needles",
)
def shoulders_meet(context: Context) -> Iterator[Finding]:
    """One finding for each front that is not the mirror image of another."""
    back = _called(context, "back")
    if back is None:
        return
    for side, edge in (("left", "right"), ("right", "left")):
        front = _called(context, f"{side} front")
        if front is None or context.pattern.pieces[front.key].mirror_of:
            continue
        for size in range(len(context.source.sizes)):
            steps, mine = shaped(context, back, size), shaped(context, front, size)
            if steps is None or mine is None:
                break
            bound = _stepped(steps, edge, back.rounds[size])
            theirs = sum(each.stitches for each in bound)
            stepped = _stepped(mine, edge, front.rounds[size])
            own = sum(each.stitches for each in stepped) + _closed(front, size)
            fewer = 0 < theirs < own and not _closed(back, size)
            if _closed(front, size) and (theirs > own or fewer):
                yield Finding(
                    f"the back binds off {how_many(theirs, 'stitch')} for a shoulder in size "
                    f"{context.source.sizes[size]}, and `{front.key}` ends with {own}",
                    bound[0].span or context.pattern.pieces[back.key].place.key_span,
                )
                break


def _stepped(edges: Sequence[Shaped], edge: str, rows: int) -> Sequence[Shaped]:
    """What is bound off in steps at an edge where the piece ends."""
    bound = [each for each in edges if each.how == "binds off" and each.edge == edge]
    start = _shoulder_row([each.row for each in bound], rows + 1)
    return [each for each in bound if each.row >= start]


def _closed(plan: PiecePlan, size: int) -> int:
    """The last stitches of a piece that are bound off."""
    last = next((step for step in reversed(plan.steps) if step.closes), None)
    closed = last.closes if last else None
    return closed.stitches[size] if closed and closed.by is not None and closed.to is None else 0


_OF_DESIGN = 0.1
"""Pieces that differ by more are meant to (our own judgement, no source)."""


@check(
    id="seam.rows",
    title="Front and back are as long as each other",
    looks_at="flat pieces of one gauge called back and front that shape nothing at their edges: "
    f"their rows, where they differ by less than {_OF_DESIGN:.0%}",
    why="side seams of unlike length pucker, and a stripe does not meet",
    severity=Severity.NOTE,
    remedy="Work as many rows in both, or say in a note that one is longer",
)
def panels_as_long(context: Context) -> Iterator[Finding]:
    """One finding for a pattern, at the last rows of the shorter piece."""
    back, front = _called(context, "back"), _called(context, "front")
    if back is None or front is None:
        return
    one_gauge = len({context.pattern.pieces[each.key].gauge for each in (back, front)}) == 1
    if not one_gauge or any(_shapes(context, each) for each in (back, front)):
        return
    unlike = [
        size
        for size, (a, b) in enumerate(zip(back.rounds, front.rounds, strict=True))
        if 0 < abs(a - b) < _OF_DESIGN * max(a, b)
    ]
    if unlike:
        size = unlike[0]
        shorter = min(back, front, key=lambda plan: plan.rounds[size])
        last = [step for step in shorter.steps if step.rounds[size]][-1]
        yield Finding(
            f"the back has {how_many(back.rounds[size], 'row')} and the front "
            f"{front.rounds[size]} in {sizes_said(context, unlike)}",
            last.step.place.of("rounds").span,
        )


_WIDER = 0.12
"""Panels that are sewn edge to edge differ by less, and are eased in (our judgement, no source)."""
_SEWN = re.compile(
    r"\b(?:sew|join|seam|stitch|crochet)\b[^.;]{0,60}\b(?:front\b[^.;]{0,40}\bback"
    r"|back\b[^.;]{0,40}\bfront)\b",
    re.IGNORECASE,
)


@check(
    id="seam.width",
    title="Front and back that are sewn together are as wide as each other",
    looks_at="the only flat pieces called front and back, where they shape nothing at their edges "
    "and a text sews the one to the other: their widths at their gauges",
    why="a cushion or a bag whose panels are of two sizes can't be sewn flat",
    severity=Severity.WARNING,
    remedy="Make both of one measure",
)
def panels_as_wide(context: Context) -> Iterator[Finding]:
    """One finding for a pattern, at what makes the width of the narrower."""
    pieces = context.pattern.pieces
    panels = [
        plan
        for plan in context.plan.pieces
        if pieces[plan.key].worked == "flat" and pieces[plan.key].title.lower() in ("front", "back")
    ]
    sewn = any(True for prose in context.prose for _ in prose.found(_SEWN))
    if len(panels) != 2 or not sewn or any(_shapes(context, each) for each in panels):
        return
    for size, name in enumerate(context.source.sizes):
        wide = [_cast_on_width(context, each, size) for each in panels]
        if min(wide) and max(wide) > min(wide) * (1 + _WIDER):
            narrow = panels[wide.index(min(wide))]
            other = panels[wide.index(max(wide))]
            yield Finding(
                f"`{narrow.key}` is {length_said(context, min(wide))} wide and `{other.key}`, "
                f"which is sewn to it, {length_said(context, max(wide))} in size {name}",
                _width_place(context, narrow),
            )
            return


def _cast_on_width(context: Context, plan: PiecePlan, size: int) -> float:
    gauge = context.plan.measures.sizes[size].gauges[context.pattern.pieces[plan.key].gauge or ""]
    return gauge.width_of(next((n for s in plan.steps if (n := s.after[size].stitches)), 0))


def _width_place(context: Context, plan: PiecePlan) -> Span:
    """Where the stitches of a piece are given: at the measure that its cast-on names, or there."""
    step = next(each for each in plan.steps if each.begins is not None)
    written = step.step.place.of("cast on")
    measure = context.pattern.measures.get(written.text.strip())
    found: Span = written.span if measure is None else measure.place.span
    return found


def _shapes(context: Context, plan: PiecePlan) -> bool:
    """Whether a piece shapes anything before its last row, or can't be told."""
    edges = shaped(context, plan, 0)
    return edges is None or any(each.row <= plan.rounds[0] for each in edges)


_OFF_RATIO = 0.10


@check(
    id="pickup.ratio",
    title="As many stitches are picked up along rows as the gauge asks for",
    looks_at="edges along rows: the stitches picked up against rows times the ratio of the gauge, "
    f"where they differ by over {_OFF_RATIO:.0%}",
    why="too few pull the edge together, too many make it wave",
    severity=Severity.WARNING,
    remedy="Leave out `pick up:`, or change `to:`; pick up more and decrease in the next row",
)
def picked_up_by_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each edge."""
    for at in steps_of(context):
        if not isinstance(at.step.detail, PickedUp):
            continue
        for part in at.step.detail.parts:
            off = [
                size
                for size, (each, ratio) in enumerate(zip(part.skips, part.ratio, strict=False))
                if each.rows
                and not (_SLOPE.search(part.edge) and _longer(each.stitches, each.rows * ratio))
                and all(
                    abs(each.stitches / (each.rows * one) - 1) > _OFF_RATIO
                    for one in (ratio, *_ratios(context, size))
                )
            ]
            if off:
                size = off[0]
                each, ratio = part.skips[size], part.ratio[size]
                yield Finding(
                    f"along {part.edge} {how_many(each.stitches, 'stitch')} "
                    f"are picked up in {how_many(each.rows, 'row')} in {sizes_said(context, off)}, "
                    f"and the gauge asks for {each.rows * ratio:.0f}",
                    at.step.span,
                    sizes=tuple(context.source.sizes[each] for each in off),
                )


_SLOPE = re.compile(
    r"\b(?:slop\w*|slant\w*|shaped|diagonal|curve[sd]?|neck|v-neck|armhole)\b", re.IGNORECASE
)
_STEEPEST = 1.42  # an edge that leans by as much as it rises


def _longer(stitches: int, by_rows: float) -> bool:
    """Whether an edge that leans may give so many stitches: it is longer than its rows are high,
    and no longer than one that leans by half a right angle."""
    return by_rows <= stitches <= _STEEPEST * by_rows


def _ratios(context: Context, size: int) -> Iterator[float]:
    """Stitches to a row in the fabric of each piece: those picked up on other needles than they
    are worked with begin as wide as the edge."""
    for plan in context.plan.pieces:
        gauge = piece_gauges(context.plan.measures, context.pattern.pieces[plan.key])[size]
        yield gauge.round_mm / gauge.stitch_mm


_LISTED = re.compile(
    r"(?<!\d)(\d+) \((\d+(?:, ?\d+)*)\) (?:[\w-]+ ){0,3}?buttons?\b", re.IGNORECASE
)
_ACROSS = re.compile(
    r"\bbuttons?\b[^;]{0,25}?(?<![\d.])(\d+(?:\.\d+)?) ?(mm|cm)\b"
    r"|(?<![\d.])(\d+(?:\.\d+)?)[ -]?(mm|cm) (?:\w+ ){0,2}?buttons?\b",
    re.IGNORECASE,
)
_PASSES = 2.5
"""A hole stretches, and lets a button through that is so many times as wide as its stitches are;
common practice, no source."""


def _sized_buttons(
    context: Context, holed: Sequence[At], needed: Sequence[int]
) -> Iterator[Finding]:
    """A list of buttons for the sizes that is another, and buttons too large for every hole."""
    widest = max(
        holes.over * gauge.stitch_mm
        for at in holed
        for holes, gauge in zip(at.step.detail.holes, gauges_of(context, at), strict=True)
    )
    for index, notion in enumerate(context.pattern.notions):
        place = context.pattern.place.of("notions").of(index).span
        for found in _LISTED.finditer(notion):
            listed = [int(found[1]), *map(int, found[2].split(","))]
            if len(listed) == len(needed) and listed != [*needed] and set(listed) & set(needed):
                off = [size for size, n in enumerate(listed) if n != needed[size]]
                yield Finding(
                    f"`{found[0]}` are listed, and in {sizes_said(context, off)} there are "
                    f"{how_many(needed[off[0]], 'buttonhole')}",
                    place,
                )
        for found in _ACROSS.finditer(notion):
            mm = millimetres(float(found[1] or found[3]), found[2] or found[4])
            if widest and mm > _PASSES * widest:
                yield Finding(
                    f"buttons of {mm:g} mm do not go through holes that are {widest:.0f} mm wide",
                    place,
                    "Take smaller buttons, or make the holes over more stitches",
                )


_BUTTONS = re.compile(r"\b(\d+) (?:[\w-]+ )?buttons?\b", re.IGNORECASE)


@check(
    id="button.holes",
    title="There is a button for every buttonhole",
    looks_at="numbers of buttons in the notions against the buttonholes of all pieces",
    why="a button too few is found out when the piece is finished and the shop has no more",
    severity=Severity.WARNING,
    remedy="Correct the number under `notions:`, with those of all sizes if they differ",
)
def buttons_for_holes(context: Context) -> Iterator[Finding]:
    """One finding for a pattern."""
    holed = [at for at in steps_of(context) if isinstance(at.step.detail, Buttonholes)]
    listed = [int(n) for notion in context.pattern.notions for n in _BUTTONS.findall(notion)]
    if not holed:
        return
    each = zip(*(at.step.detail.holes for at in holed), strict=True)
    needed = [sum(holes.number for holes in size) for size in each]
    yield from _sized_buttons(context, holed, needed)
    if listed and not set(needed) & set(listed):
        yield Finding(
            f"{how_many(sum(listed), 'button')} are listed, and there are "
            f"{how_many(needed[0], 'buttonhole')}",
            holed[-1].step.span,
        )
    elif not any("button" in notion.lower() for notion in context.pattern.notions):
        yield Finding("there are buttonholes, and no buttons are listed", holed[-1].step.span)


CHECKS = (
    heel_returns,
    cap_meets_armhole,
    shoulders_meet,
    panels_as_long,
    panels_as_wide,
    picked_up_by_gauge,
    buttons_for_holes,
)
