"""Notions: as many in the text as are listed, and enough waste yarn."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.lists.heldatonce import held_at_once
from bindoff.checks.texts.named.things import lists_add_up, things_used
from bindoff.checks.texts.named.world import world_of
from bindoff.checks.walk import gauges_of, parts_of, steps_of
from bindoff.diagnostics import Severity
from bindoff.document.stripewords import MOST_WASTE_ROUNDS
from bindoff.document.units import METRES_PER_YARD, up
from bindoff.plan.yarnplan import balls_of, loop_of
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, CountChange

_SMALL = {
    word: number
    for number, word in enumerate(
        ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"], start=2
    )
}
_COUNTED = re.compile(rf"\b(\d+|{'|'.join(_SMALL)}) (?:[\w-]+ )?([a-z]{{3,}}s)\b", re.IGNORECASE)
_ALL = re.compile(r"\b(?:the|all|these) $", re.IGNORECASE)
_LONGEST_ALL = len(" these ")
_OTHERS = ("markers", "needles", "sizes", "stitches", "rows", "rounds")


@check(
    id="notion.count",
    title="As many notions are listed as are sewn on",
    looks_at="numbers of buttons and other things in the notions against the same words in the "
    "steps and texts, and what those sew on or put in against the lists; markers have a check of "
    "their own",
    why="a button too few is found out when the piece is finished and the shop has no more",
    severity=Severity.WARNING,
    remedy="Correct the number in the text, or list it under `notions:`",
)
def notion_count(context: Context) -> Iterator[Finding]:
    """One finding for each number that is larger, or of all there are and not the same."""
    listed: dict[str, int] = {}
    for notion in context.pattern.notions:
        for number, thing in _COUNTED.findall(notion):
            if thing.lower() not in _OTHERS:
                listed[thing.lower()] = listed.get(thing.lower(), 0) + _number(number)
    yield from things_used(world_of(context))
    yield from lists_add_up(world_of(context))
    yield from _holders(context)
    for prose in context.prose:
        if prose.kind not in (TextUse.STEP, TextUse.TEXT, TextUse.HEAD):
            continue
        for found, place in prose.found(_COUNTED):
            there, number = listed.get(found[2].lower()), _number(found[1])
            start = found.start()
            whole = _ALL.search(prose.text, max(0, start - _LONGEST_ALL), start) is not None
            if there is not None and (number > there or (whole and number != there)):
                yield Finding(
                    f"{number} {found[2]} stand here, and the notions list {there}", place
                )


def _number(written: str) -> int:
    """``5`` or ``five`` as a number."""
    return _SMALL.get(written.lower()) or int(written)


_HOLDERS = re.compile(rf"\b(\d+|an?|one|{'|'.join(_SMALL)}) (?:\w+ )?holders?\b", re.IGNORECASE)


def _holders(context: Context) -> Iterator[Finding]:
    """Fewer stitch holders than the groups that a piece holds, where nothing else is listed."""
    if re.search(r"(?i)\b(?:waste|scrap) yarn|spare|pins?\b|thread", " ".join(_lists(context))):
        return
    held = max(len(_groups(context, plan.key)) for plan in context.plan.pieces)
    held = max(held, held_at_once(context))
    for index, notion in enumerate(context.pattern.notions):
        found = _HOLDERS.search(notion)
        if found is None:
            continue
        listed = 1 if found[1].lower() in ("a", "an", "one") else _number(found[1])
        if listed < held:
            yield Finding(
                f"{listed} stand here, and {held} groups of stitches are held at once",
                context.pattern.place.of("notions").of(index).span,
            )


def _lists(context: Context) -> tuple[str, ...]:
    return (*context.pattern.notions, *(tool.name for tool in context.pattern.tools))


def _groups(context: Context, key: str) -> set[str]:
    """The names under which one row of a piece holds stitches; the most of any row."""
    rows = [row for at in steps_of(context) if at.plan.key == key for row in at.step.all_rows]
    groups = [
        {p.group for p in parts_of(row) if isinstance(p, Alter) and p.change is CountChange.HOLD}
        for row in rows
    ]
    return max(groups, key=len, default=set())


_WASTE = re.compile(r"\b(?:waste|scrap) yarn\b", re.IGNORECASE)
_LENGTH = re.compile(r"(?<!\d)(\d+(?:\.\d+)?) ?(m|met(?:re|er)s|yd|yards)\b", re.IGNORECASE)


@check(
    id="notion.waste-yarn",
    title="The waste yarn listed reaches for both ends of the tube",
    looks_at=f"a length of waste yarn in the notions against {MOST_WASTE_ROUNDS} rounds before "
    f"and {MOST_WASTE_ROUNDS} after a tube from the machine, the most that its steps name",
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
                f"{up(needed / unit)} {stated[2]}",
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
                yield 2 * MOST_WASTE_ROUNDS * plan.tube.needles * loop.mm / 1000


CHECKS = (notion_count, waste_yarn)
