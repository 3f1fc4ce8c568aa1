"""Binding off inside a row, whose last stitch on the right needle can be counted in two ways."""

from bindoff.records import replace
from bindoff.source.rowlang.syntax import (
    Alter,
    CountChange,
    Fill,
    Group,
    IntoOne,
    Kept,
    Part,
    Repeat,
    Row,
    Target,
    Work,
)


def reads_twice(row: Row) -> bool:
    """Whether ``row`` binds off a number of stitches and goes on with a number of others."""
    return read_as(row, Kept.BESIDE) != row


def next_is_plain(row: Row) -> bool:
    """Whether what follows each such binding off begins with a stitch made of one.

    A stitch that lies worked on the right needle can't be the first of a k2tog.
    """
    return all(_plain(part) for part in _nexts(row.parts))


def read_as(row: Row, kept: Kept) -> Row:
    """``row`` with that reading wherever there are two."""
    return replace(row, parts=_read(row.parts, kept))


def _read(parts: tuple[Part, ...], kept: Kept) -> tuple[Part, ...]:
    read: list[Part] = []
    for place, part in enumerate(parts):
        match part:
            case Alter() if _next(parts, place) is not None:
                read.append(replace(part, kept=kept))
            case Group() | Repeat():
                read.append(replace(part, parts=_read(part.parts, kept)))
            case _:
                read.append(part)
    return tuple(read)


def _nexts(parts: tuple[Part, ...]) -> list[Part]:
    found: list[Part] = []
    for place, part in enumerate(parts):
        after = _next(parts, place)
        found += [] if after is None else [after]
        found += _nexts(part.parts) if isinstance(part, Group | Repeat) else []
    return found


def _next(parts: tuple[Part, ...], place: int) -> Part | None:
    """What is worked after a counted binding off at ``place``, where its reading matters.

    It does not where stitches are worked as far as a place: there it is one more or less of them.
    """
    part = parts[place]
    if not isinstance(part, Alter) or part.change is not CountChange.BIND_OFF:
        return None
    if isinstance(part.amount, Target):
        return None
    for after in parts[place + 1 :]:
        if isinstance(after, Work | Group | Repeat | IntoOne):
            return after
        if isinstance(after, Fill):
            return None
    return None


def _plain(part: Part) -> bool:
    match part:
        case Work(stitch):
            return stitch in ("k", "p", "sl")
        case Group() | Repeat():
            return _plain(part.parts[0])
        case _:
            return False
