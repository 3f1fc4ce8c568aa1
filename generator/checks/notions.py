"""Buttons and the like: as many in the text as are listed."""

import re
from collections.abc import Iterator

from generator.checks.context import Context
from generator.checks.engine import Finding, check
from generator.checks.prose import Kind
from generator.diagnostics import Severity

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
)
def notion_count(context: Context) -> Iterator[Finding]:
    """One finding for each number that is larger, or of all there are and not the same."""
    listed: dict[str, int] = {}
    for notion in context.pattern.notions:
        for number, thing in _COUNTED.findall(notion):
            if thing.lower() not in _OTHERS:
                listed[thing.lower()] = listed.get(thing.lower(), 0) + int(number)
    for prose in context.prose:
        if prose.kind not in (Kind.STEP, Kind.TEXT, Kind.HEAD):
            continue
        for found, place in prose.found(_COUNTED):
            there, number = listed.get(found[2].lower()), int(found[1])
            whole = _ALL.search(prose.text[: found.start()]) is not None
            if there is not None and (number > there or (whole and number != there)):
                yield Finding(f"{number} {found[2]} stand here, and {there} are listed", place)


CHECKS = (notion_count,)
