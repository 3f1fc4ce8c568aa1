"""Notions: as many in the text as are listed, and enough waste yarn."""

import re
from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import gauges_of, steps_of
from bindoff.diagnostics import Severity
from bindoff.document.stripewords import LEAST_WASTE_ROUNDS
from bindoff.document.units import METRES_PER_YARD, up
from bindoff.plan.yarnplan import balls_of, loop_of
from bindoff.source.model import TextUse

_COUNTED = re.compile(r"\b(\d+) (?:[\w-]+ )?([a-z]{3,}s)\b", re.IGNORECASE)
_ALL = re.compile(r"\b(?:the|all|all the|these) $", re.IGNORECASE)
_OTHERS = ("markers", "needles")


@check(
    id="notion.count",
    title="As many notions are listed as are sewn on",
    looks_at="numbers of buttons and other things in the notions against the same words in the "
    "steps and texts; markers have a check of their own",
    why="a button too few is found out when the piece is finished and the shop has no more",
    severity=Severity.WARNING,
    remedy="Correct the number in the text, or under `notions:`",
    needs=Needs.SOURCE,
)
def notion_count(context: Context) -> Iterator[Finding]:
    """One finding for each number that is larger, or of all there are and not the same."""
    listed: dict[str, int] = {}
    for notion in context.pattern.notions:
        for number, thing in _COUNTED.findall(notion):
            if thing.lower() not in _OTHERS:
                listed[thing.lower()] = listed.get(thing.lower(), 0) + int(number)
    for prose in context.prose:
        if prose.kind not in (TextUse.STEP, TextUse.TEXT, TextUse.HEAD):
            continue
        for found, place in prose.found(_COUNTED):
            there, number = listed.get(found[2].lower()), int(found[1])
            whole = _ALL.search(prose.text[: found.start()]) is not None
            if there is not None and (number > there or (whole and number != there)):
                yield Finding(
                    f"{number} {found[2]} stand here, and the notions list {there}", place
                )


_WASTE = re.compile(r"\b(?:waste|scrap) yarn\b", re.IGNORECASE)
_LENGTH = re.compile(r"(?<!\d)(\d+(?:\.\d+)?) ?(m|met(?:re|er)s|yd|yards)\b", re.IGNORECASE)


@check(
    id="notion.waste-yarn",
    title="The waste yarn listed reaches for both ends of the tube",
    looks_at=f"a length of waste yarn in the notions against {LEAST_WASTE_ROUNDS} rounds before "
    f"and {LEAST_WASTE_ROUNDS} after a tube from the machine, the fewest that its steps name",
    why="waste yarn that ends within its rounds drops the stitches of the piece",
    severity=Severity.WARNING,
    remedy="List the longer length, or leave the length out",
)
def waste_yarn(context: Context) -> Iterator[Finding]:
    """One finding for each notion that is too short."""
    needed = max(_waste_metres(context), default=0.0)
    for index, notion in enumerate(context.pattern.notions):
        stated = _LENGTH.search(notion) if _WASTE.search(notion) else None
        if stated is None:
            continue
        unit = METRES_PER_YARD if stated[2].lower().startswith("y") else 1.0
        if float(stated[1]) * unit < needed:
            yield Finding(
                f"{stated[0]} of waste yarn {'is' if float(stated[1]) == 1 else 'are'} listed, "
                "and the two ends of the tube take "
                f"{up(needed / unit)} {stated[2]} at least",
                context.pattern.place.of("notions").of(index).span,
            )


def _waste_metres(context: Context) -> Iterator[float]:
    """Of every tube from the machine in every size."""
    balls = balls_of(context.source)
    for at in steps_of(context):
        if at.step.tubes:
            for plan, gauge in zip(at.step.tubes, gauges_of(context, at), strict=True):
                ground = plan.stripes.bases[0]
                loop = loop_of(context.source, ground, gauge, balls[ground], at.piece.gauge)
                yield 2 * LEAST_WASTE_ROUNDS * plan.tube.needles * loop.mm / 1000


CHECKS = (notion_count, waste_yarn)
