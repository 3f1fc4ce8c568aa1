"""Markers: placed ones are used, and as many are listed as are on the needles at once."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.lists.tools import whole_list
from bindoff.checks.texts.told.numbers import IN_WORDS, number_of
from bindoff.checks.walk import At, parts_of, steps_of, told_in
from bindoff.diagnostics import Severity, Span
from bindoff.english import are, how_many
from bindoff.source.rowlang.syntax import (
    Fill,
    Group,
    Marker,
    MarkerAct,
    Part,
    Repeat,
    Row,
    ToMarker,
)
from bindoff.source.steps.step import STEP_TEXTS

_LISTED = re.compile(
    rf"(?<![\w\s-])(\d++|an?|{IN_WORDS})?\s*(?:[\w-]+ ){{0,3}}(markers?)\b",
    re.I,
)
_AND_MORE = re.compile(
    rf"\b(?:and|plus) (\d+|an?|{IN_WORDS}) (?:more )?"
    r"(?:(?:of|in) (?:an)?other |(?:of|in) (?:a|some) (?:different|second|contrasting) |odd "
    r"|different )",
    re.I,
)
_EACH = re.compile(
    r"\bmark(?:er)?s?\b[^.;]*\b(?:each|every|both|all|the (?:two|three|four|six|eight))\b"
    r"|\b(?:each|every|both|all)\b[^.;]*\bmark(?:er)?s?\b",
    re.I,
)
_START = re.compile(
    r"\b(mark(?:er)?s?|pm)\b[^.]*\b(?:start|beginning)\b[^.]*\b(?:round|row)\b", re.IGNORECASE
)
_PLACED = re.compile(
    r"\bjoin\b[^.]*\b(?:place|put|hang|slip on) (?:a|the|one|your) (?:stitch )?marker\b"
    r"|\bplace (?:a|the|one|your) (?:stitch )?marker\b(?= and join|\.$)",
    re.IGNORECASE,
)
_MARK = re.compile(r"\b(?:mark(?:er)?s?|pm)\b", re.IGNORECASE)


@check(
    id="marker.unused",
    title="Every marker that is placed is used",
    looks_at="markers placed in rows against later rows that slip, reach or remove one",
    why="a marker that nothing comes back to is left in the piece, or the row that needed it lost "
    "its words",
    severity=Severity.WARNING,
    remedy="Work to the marker or remove it in a later row, or don't place it",
)
def unused_marker(context: Context) -> Iterator[Finding]:
    """One finding for each piece, at the first marker after which none is named again."""
    for plan in context.plan.pieces:
        steps = [at for at in steps_of(context) if at.plan.key == plan.key]
        said = [
            _START.sub("", prose.text)
            for prose in told_in(context, plan.key)
            if prose.path[-1] == "say"
        ]
        rows = [(at, row) for at in steps for row in at.step.rows]
        for index, (at, row) in enumerate(rows):
            placed = [part for part in parts_of(row) if _acts(part, MarkerAct.PLACE)]
            later = [row, *(other for _, other in rows[index + 1 :])]
            off = any(s.step.step.remove_markers for s in steps if s.index > at.index)
            used = off or any(map(_names_marker, later)) or any(map(_MARK.search, said))
            if placed and not used:
                yield Finding(
                    f"no row of `{plan.key}` slips, reaches or removes this marker",
                    getattr(placed[0], "span", None) or at.step.span,
                )
                break


def _acts(part: Part, *acts: MarkerAct) -> bool:
    return isinstance(part, Marker) and part.act in acts


def _names_marker(row: Row) -> bool:
    return any(
        _acts(part, MarkerAct.SLIP, MarkerAct.REMOVE)
        or (isinstance(part, Fill) and isinstance(part.to, ToMarker))
        or (isinstance(part, Repeat) and isinstance(part.until, ToMarker))
        for part in parts_of(row)
    )


@check(
    id="marker.count",
    title="As many markers are listed as are needed",
    looks_at="markers on the needles at one time, those for the start of the round named in words "
    "and those of a machine's half rounds, against the notions",
    why="a knitter who runs out of markers in the middle of a round loses the place",
    severity=Severity.WARNING,
    remedy="List under `notions:` as many as are on the needles at once",
)
def marker_count(context: Context) -> Iterator[Finding]:
    """One finding at most: all pieces may share their markers."""
    counts = [_needs(context, plan.key) for plan in context.plan.pieces]
    least, most = max(low for low, _ in counts), max(high for _, high in counts)
    listed = 0
    for index, notion in enumerate(context.pattern.notions):
        found = _LISTED.search(notion)
        if not found:
            continue
        number = (found[1] or "").lower()
        if not number and found[2].lower() == "markers":
            return
        listed += number_of(number) or 1
        for more in _AND_MORE.finditer(notion, found.end()):
            listed += number_of(more[1]) or 1
        place = context.pattern.place.of("notions").of(index).span
    if listed < least:
        yield Finding(
            f"{are(least, 'marker')} on the needles at once, and {are(listed, 'marker')} listed"
            if listed
            else f"{are(least, 'marker')} on the needles at once, and none is listed",
            place if listed else _lists(context),
            f"List {how_many(least, 'marker')} under `notions:`, or look for a marker that a row "
            "places and should not",
        )
    elif not listed and not least:
        yield from _hung(context)
    elif listed > max(most, least) and not _at_each(context):
        at_once = are(most, "marker") if most else "none is"
        yield Finding(
            f"{are(listed, 'marker')} listed, and {at_once} on the needles at once",
            place,
            "Look for a row that has lost its `pm`, or a text that should mention the marker; "
            "else list fewer",
        )


def _at_each(context: Context) -> bool:
    """Whether a text hangs a marker at each of several places, which are not counted."""
    steps = (prose for prose in context.prose if prose.path and prose.path[-1] in STEP_TEXTS)
    return any(_EACH.search(prose.text) for prose in steps)


def _lists(context: Context) -> Span:
    """Where notions are listed, or should be: after the tools, or the head."""
    key = next(key for key in ("notions", "tools", "title") if getattr(context.pattern, key))
    return whole_list(context, key)


_HUNG = re.compile(
    r"\b(?:clip|hang|put|attach|fasten|pin|place|slip)(?: on| in)? (?:the|a|an|your|one) "
    r"(?:[a-z-]+ ){0,2}?marker\b",
    re.IGNORECASE,
)
_MAY_MARK = re.compile(r"\bmark|\bpins?\b|scrap|waste|contrast|\bring|thread", re.IGNORECASE)


def _hung(context: Context) -> Iterator[Finding]:
    """A marker that a step takes, where no list has anything to mark with."""
    listed = (*context.pattern.notions, *(tool.name for tool in context.pattern.tools))
    if any(map(_MAY_MARK.search, listed)):
        return
    for prose in context.prose:
        if prose.path[-1:] in (("say",), ("note",)):
            for found, place in prose.found(_HUNG):
                yield Finding(
                    f"`{found[0]}` stands here, and no list has a marker",
                    place,
                    "Add it under `notions:`",
                )
                return


def _needs(context: Context, key: str) -> tuple[int, int]:
    """The least and the most markers that a piece may need at one time."""
    on_needles = most = tube = middle = 0
    for at in steps_of(context):
        if at.plan.key == key:
            middle = max(middle, _beside_the_middle(at))
            if at.step.step.remove_markers:
                on_needles = 0
            for row in _worked_rows(at):
                on_needles += _placed(row)
                most = max(most, on_needles)
            if at.step.closes and not any(progress.stitches for progress in at.step.after):
                on_needles = 0  # what is closed or left lets go of its markers
            if at.step.tubes:
                tube = max(len(plan.tube.markers) for plan in at.step.tubes)
    said = [p.text for p in told_in(context, key) if p.path[-1] in STEP_TEXTS]
    start = 1 if any(_START.search(text) or _PLACED.search(text) for text in said) else 0
    mentions = sum(len(_MARK.findall(text)) for text in said)
    kept = most + tube + middle
    return kept + start, kept + max(start, mentions)


def _beside_the_middle(at: At) -> int:
    """The markers that written rows ask for where a chart has two repeats: one at each side of what
    lies between them."""
    return 2 if any(each.grid.twin for each in at.step.charts) else 0


def _worked_rows(at: At) -> Iterator[Row]:
    """The rows of a step as often as its first size works them, as far as markers come and go."""
    rows = at.step.rows
    if at.step.answers.in_turn:
        count = max(at.step.rounds)
        yield from (rows[index % len(rows)] for index in range(min(count, 2 * len(rows))))
    else:
        yield from rows


def _placed(row: Row) -> int:
    """Markers placed less markers removed by a row; one in a bracket counts as often as that."""
    return _balance(row.parts)


def _balance(parts: tuple[Part, ...]) -> int:
    total = 0
    for part in parts:
        if _acts(part, MarkerAct.PLACE):
            total += 1
        elif _acts(part, MarkerAct.REMOVE):
            total -= 1
        elif isinstance(part, Group) and isinstance(part.times, int):
            total += _balance(part.parts) * part.times
    return total


CHECKS = (unused_marker, marker_count)
