"""Stitches that wait off the needles under a name, until a later step or piece takes them up."""

from collections.abc import Iterable

from bindoff.diagnostics import Diagnostic, Span
from bindoff.english import how_many, times, verb
from bindoff.plan.rowcount import Taken
from bindoff.records import Record, replace


class Waiting(Record):
    """The stitches of one name, in one size.

    ``copies`` is how many such groups wait: a piece made twice leaves two; none once all are taken
    up. ``held`` is where they were held, ``taken`` where they were last taken up.
    """

    name: str
    stitches: int
    copies: int
    held: Span
    taken: Span | None = None


Groups = tuple[Waiting, ...]

Stretch = tuple[str, int]
"""Neighbouring stitches of a row that divides: their group, empty on the needles; how many."""


def group_of(groups: Groups, name: str) -> Waiting | None:
    """What is known of that name."""
    return next((each for each in groups if each.name == name), None)


def with_held(
    groups: Groups, held: Iterable[Taken], copies: int, place: Span
) -> tuple[Groups, Diagnostic | None]:
    """``groups`` with those that a row at ``place`` holds, and what is wrong with one of them."""
    found = {each.name: each for each in groups}
    for each in held:
        span = each.span or place
        before = found.get(each.group)
        if before is not None and before.copies:
            return groups, _held_twice(before, span)
        found[each.group] = Waiting(each.group, each.stitches, copies, span)
    return tuple(found.values()), None


def without(groups: Groups, name: str, copies: int, place: Span) -> Groups:
    """``groups`` after a step at ``place`` has taken up some of that name."""
    return tuple(
        replace(each, copies=each.copies - copies, taken=place) if each.name == name else each
        for each in groups
    )


def stretches(groups: Iterable[Taken], consumed: int) -> tuple[Stretch, ...]:
    """The parts into which ``groups`` divide a row over ``consumed`` stitches, in order."""
    found: list[Stretch] = []
    place = 0
    for each in groups:
        if each.start > place:
            found.append(("", each.start - place))
        found.append((each.group, each.stitches))
        place = each.start + each.stitches
    if consumed > place:
        found.append(("", consumed - place))
    return tuple(found)


def not_waiting(groups: Groups, name: str, place: Span) -> Diagnostic:
    """The finding for a step at ``place`` that takes up stitches which are not there."""
    known = group_of(groups, name)
    if known is not None and known.taken is not None:
        return Diagnostic(
            "piece.group-taken",
            f"the stitches held for `{name}` in line {known.held.line} are taken up in line "
            f"{known.taken.line} already",
            "Take them up once; a piece that is made twice names a group for each, as in "
            "`held: left sleeve or right sleeve`",
            place,
        )
    waiting = ", ".join(f"`{each.name}`" for each in groups if each.copies)
    return Diagnostic(
        "piece.group-unknown",
        f"no stitches are held for `{name}` here",
        f"Name one that waits: {waiting}"
        if waiting
        else f"Hold them in a row before, as in `hold … stitches for {name}`",
        place,
    )


def too_few(group: Waiting, copies: int, made: int, place: Span) -> Diagnostic:
    """The finding for a piece that is made more times than groups wait for it."""
    if copies == 1:
        return not_waiting((group,), group.name, place)
    return Diagnostic(
        "piece.group-copies",
        f"the piece is made {times(made)}, and for `{group.name}`, held in line {group.held.line}, "
        f"{how_many(group.copies, 'group')} {verb(group.copies, 'waits', 'wait')}",
        "Name a group for each time, as in `held: left sleeve or right sleeve`, or change `make`",
        place,
    )


def never_taken(group: Waiting) -> Diagnostic:
    """The finding for stitches that are still held when all pieces are made."""
    if group.taken is None:
        return Diagnostic(
            "piece.group-left",
            f"the stitches held for `{group.name}` are never taken up",
            f"Add a step `- held: {group.name}` after it, in this piece or a later one",
            group.held,
        )
    left = how_many(group.copies, "group")
    return Diagnostic(
        "piece.group-left",
        f"line {group.taken.line} takes up stitches held for `{group.name}`, and {left} more "
        f"{verb(group.copies, 'waits', 'wait')}",
        "Make the piece that takes them up as times as the one that holds them",
        group.held,
    )


def _held_twice(before: Waiting, span: Span) -> Diagnostic:
    same = before.held == span
    return Diagnostic(
        "piece.group-held",
        f"stitches are held for `{before.name}` in more than one round of this step"
        if same
        else f"stitches are held for `{before.name}` here, and those of line {before.held.line} "
        "still wait",
        "Hold them in a row that is worked once"
        if same
        else "Give one of the two another name, or take up the first ones before",
        span,
    )
