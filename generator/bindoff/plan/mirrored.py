"""Rows of a mirrored piece: each read from its other end, leans turned.

Stitches are bound off and cast on where a row begins. What one piece does at the beginning of a
row, its mirror image does at the beginning of the row beside it (common practice, no source).
"""

from collections.abc import Callable, Mapping, Sequence

from bindoff.craft.book import StitchBook
from bindoff.plan.stitchpatterns import PatternRow, StitchRows
from bindoff.records import Record, replace
from bindoff.source.otherside import other_name
from bindoff.source.rowlang.syntax import (
    Alter,
    Count,
    CountChange,
    Fill,
    Group,
    Hooked,
    InPattern,
    IntoOne,
    Marker,
    MarkerAct,
    MoreTimes,
    NamedNumber,
    Onward,
    Part,
    Repeat,
    Row,
    Target,
    ToCorner,
    ToEnd,
    ToGap,
    ToLast,
    ToMarker,
    Turn,
    Way,
    Work,
    value_of,
)

Sizes = Sequence[Mapping[str, int]]
"""The computed numbers of every size."""

_COUNT = int | NamedNumber
_AT_THE_START = (CountChange.BIND_OFF, CountChange.CAST_ON)


class NotMirrored(Exception):  # noqa: N818 - a finding about the knitting, not a program error
    """A row that can't be turned; ``why`` and ``help`` are for the caller's finding."""

    def __init__(self, row: Row, why: str, help: str) -> None:
        self.row, self.why, self.help = row, why, help
        super().__init__(why)


class _Total(Record):
    """So many stitches, per size; ``named`` where they are a computed number and no more."""

    sizes: tuple[int, ...]
    named: NamedNumber | None = None

    def __add__(self, other: "_Total") -> "_Total":
        if not (self and other):
            return self or other
        return _Total(tuple(map(sum, zip(self.sizes, other.sizes, strict=True))))

    def times(self, other: "_Total") -> "_Total":
        if set(other.sizes) == {1} or not self:
            return self
        if set(self.sizes) == {1}:
            return other
        return _Total(tuple(a * b for a, b in zip(self.sizes, other.sizes, strict=True)))

    @property
    def count(self) -> Count:
        """As a row writes it."""
        if self.named is not None:
            return self.named
        if len(set(self.sizes)) == 1:
            return self.sizes[0]
        return NamedNumber(", ".join(map(str, self.sizes)), self.sizes)

    def __bool__(self) -> bool:
        return any(self.sizes)


Alike = Callable[[InPattern], bool]
"""Whether a stitch pattern or chart looks the same from both ends."""


def _none_alike(_: InPattern) -> bool:
    return False


class _Glass(Record):
    """What is needed to turn a row."""

    row: Row
    book: StitchBook
    sizes: Sizes
    alike: Alike

    def total(self, count: Count) -> _Total:
        if isinstance(count, int):
            return _Total((count,) * len(self.sizes))
        return _Total(tuple(value_of(count, numbers) or 0 for numbers in self.sizes), count)

    def uses(self, parts: Sequence[Part]) -> _Total | None:
        """The stitches that the parts use together; ``None`` where they go as far as a goal."""
        found = self.total(0)
        for part in parts:
            used = self._used(part)
            if used is None:
                return None
            found += used
        return found

    def _used(self, part: Part) -> _Total | None:
        match part:
            case Work():
                return self.total(part.times).times(self.total(self.book[part.stitch].consumes))
            case IntoOne():
                return self.total(1)
            case Marker() | Onward() | Turn():
                return self.total(0)
            case Group():
                inner = self.uses(part.parts)
                return inner.times(self.total(part.times)) if inner else inner
            case Repeat(until=MoreTimes(count)):
                inner = self.uses(part.parts)
                more = self.total(count) + self.total(1)
                return inner.times(more) if inner else inner
            case Alter() if isinstance(part.amount, int | NamedNumber):
                takes = part.change in (CountChange.BIND_OFF, CountChange.HOLD)
                return self.total(part.amount) if takes else self.total(0)
            case Fill() | Repeat() | Alter():
                return None
            case InPattern(to=int() | NamedNumber() as count):
                return self.total(count)
            case InPattern():
                return None
            case Hooked():
                raise self.refused()

    def refused(self) -> NotMirrored:
        """For a row that goes by something its other end does not have."""
        return NotMirrored(
            self.row,
            "this row can't be read from its other end",
            "Write the mirrored piece with steps of its own",
        )


def mirrored(row: Row, book: StitchBook, sizes: Sizes = ({},), alike: Alike = _none_alike) -> Row:
    """The row read from its other end; ``k to last 3`` stays what it is, the stretch between.

    A stitch slipped first stays first. Raises ``NotMirrored`` for a row that turns, moves the start
    of the round, or goes by a gap or a corner.
    """
    if any(isinstance(part, Hooked) for part in row.parts):
        return row
    glass = _Glass(row, book, sizes, alike)
    parts: tuple[Part, ...] = row.parts
    last: tuple[Part, ...] = ()
    if parts and isinstance(parts[-1], Onward):
        if parts[-1].way is Way.NEW_START:
            raise glass.refused()
        parts, last = parts[:-1], parts[-1:]
    if any(isinstance(part, Turn) for part in parts):
        raise glass.refused()
    slip = parts[0] if parts and _slipped_first(parts) else None
    if slip is not None:
        parts = (Work(_ground(parts[1:])), *parts[1:])
    turned = _turned(glass, parts)
    if slip is not None:
        turned = _begun_with(slip, turned)
    return replace(row, parts=(*_joined(glass, turned), *last), reading=None)


def mirrored_rows(
    rows: tuple[Row, ...], book: StitchBook, sizes: Sizes, alike: Alike, *, flat: bool
) -> tuple[Row, ...]:
    """The rows of a step; what is bound off or cast on where one begins goes to the row beside it.

    Raises:
        NotMirrored: for what has no row beside it in the step, and what ``mirrored`` raises.
    """
    if flat and any(row.parts and isinstance(row.parts[-1], Turn) for row in rows):
        return _short_rows(rows, book)
    heads = [_head(row) if flat else () for row in rows]
    turned = [
        mirrored(_without_head(row, head), book, sizes, alike)
        for row, head in zip(rows, heads, strict=True)
    ]
    if not any(heads):
        return tuple(turned)
    if len(rows) % 2:
        row = next(row for row, head in zip(rows, heads, strict=True) if head)
        raise NotMirrored(
            row,
            "the mirrored piece does this at the beginning of the row beside it, which is no row "
            "of this step",
            "Write both rows as one list, as in `[bind off 6 and k to end, p all]`",
        )
    beside = [heads[index ^ 1] for index in range(len(rows))]
    return tuple(
        replace(row, parts=(*head, *row.parts)) for row, head in zip(turned, beside, strict=True)
    )


def same_from_both_ends(rows: StitchRows, book: StitchBook) -> bool:
    """Whether every row reads the same backwards, leans turned, over any number of repeats."""
    return all(
        _stitches(row, times) == [_turned_round(each, book) for each in _stitches(row, times)[::-1]]
        for row in rows.rows
        for times in (1, 2, 3)
    )


def _stitches(row: PatternRow, times: int) -> list[Part]:
    """The row stitch by stitch."""
    found: list[Part] = []
    for atom in (*row.first, *row.repeat * times, *row.last):
        for part in atom.parts:
            if isinstance(part, Work) and isinstance(part.times, int):
                found += [replace(part, times=1)] * part.times
            else:
                found.append(part)
    return found


def _turned_round(part: Part, book: StitchBook) -> Part:
    return _leaning_the_other_way(part, book) if isinstance(part, Work) else part


def row_beside(number: int) -> int:
    """The row in which a mirrored piece does what the other does where row ``number`` begins."""
    return number + 1 if number % 2 else number - 1


def goes_on_after_change(row: Row) -> bool:
    """Whether stitches are bound off or cast on where the row begins, and others worked then."""
    return bool(_head(row))


def begins_a_row(row: Row) -> bool:
    """Whether the parts can be worked only where a row begins."""
    return goes_on_after_change(row) or _only_changes(row)


# ---------------------------------------------------------------- parts


def _turned(glass: _Glass, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    found: list[Part] = []
    for index in range(len(parts) - 1, -1, -1):
        part = _image(glass, parts, index)
        if _fills_the_gap(found, part):  # over a gap stitches are cast on when it is there
            found.insert(len(found) - 1, part)
        else:
            found.append(part)
    return tuple(found)


def _fills_the_gap(found: Sequence[Part], part: Part) -> bool:
    before = found[-1] if found else None
    return (
        isinstance(before, Alter)
        and before.change is CountChange.CAST_ON
        and isinstance(part, Alter)
        and part.change in (CountChange.BIND_OFF, CountChange.HOLD)
    )


def _image(glass: _Glass, parts: tuple[Part, ...], index: int) -> Part:
    """A part at its place in the row read from the other end."""
    part = parts[index]
    match part:
        case Work():
            return _leaning_the_other_way(part, glass.book)
        case Fill():
            return replace(part, to=_goal(glass, parts, index, part.to))
        case Group():
            return replace(part, parts=_turned(glass, part.parts))
        case Repeat(until=MoreTimes()):
            return replace(part, parts=_turned(glass, part.parts))
        case Repeat():
            assert not isinstance(part.until, MoreTimes)
            until = _goal(glass, parts, index, part.until)
            return replace(part, parts=_turned(glass, part.parts), until=until)
        case IntoOne() | Marker():
            return part
        case Alter():
            group = other_name(part.group)
            if isinstance(part.amount, int | NamedNumber):
                return replace(part, group=group, kept=None)
            amount = _goal(glass, parts, index, part.amount)
            return replace(part, group=group, amount=amount, kept=None)
        case InPattern():
            if part.name and not glass.alike(part):
                raise NotMirrored(
                    glass.row,
                    f"`{part.name}` does not look the same from both ends",
                    "Work a pattern that does, or write the mirrored piece with steps of its own",
                )
            if not isinstance(part.to, Target):
                return part
            return replace(part, to=_goal(glass, parts, index, part.to))
        case Turn() | Onward() | Hooked():
            raise glass.refused()


def _goal(glass: _Glass, parts: tuple[Part, ...], index: int, goal: Target) -> Target:
    """How far a stretch goes when it is read from its other end: as far as it began from there."""
    if isinstance(goal, ToGap | ToCorner) or (isinstance(goal, ToMarker) and goal.last):
        raise glass.refused()
    marker = next(
        (
            place
            for place in range(index - 1, -1, -1)
            if isinstance(each := parts[place], Marker) and each.act is not MarkerAct.PLACE
        ),
        None,
    )
    before = glass.uses(parts[0 if marker is None else marker + 1 : index])
    if before is None:
        raise glass.refused()
    if marker is not None:
        return ToMarker(before.count)
    return ToLast(before.count) if before else ToEnd()


def _leaning_the_other_way(part: Work, book: StitchBook) -> Work:
    stitch = book.worked(part.stitch, part.how)
    if not stitch.mirror:
        return part
    image = book.mirrored(stitch)
    return replace(part, stitch=image.base or image.id, how=image.how)


def _joined(glass: _Glass, parts: Sequence[Part]) -> tuple[Part, ...]:
    """Neighbours of one plain stitch put together: ``k to last 6, k6`` is ``k to end``."""
    found: list[Part] = []
    for part in parts:
        before = found[-1] if found else None
        if isinstance(part, Work) and isinstance(before, Work) and _alike(before, part):
            times = glass.total(before.times) + glass.total(part.times)
            part = replace(before, times=times.count)
            found.pop()
            before = found[-1] if found else None
        fill = before if isinstance(before, Fill) else None
        if isinstance(part, Work) and fill and _alike(fill, part) and fill.to == ToLast(part.times):
            found[-1] = replace(fill, to=ToEnd())
            continue
        found.append(part)
    return tuple(found)


def _alike(one: Fill | Work, other: Work) -> bool:
    plain = other.stitch in ("k", "p")
    return plain and (one.stitch, one.how, one.yarn) == (other.stitch, other.how, other.yarn)


# ---------------------------------------------------------------- how a row begins


def _slipped_first(parts: Sequence[Part]) -> bool:
    first = parts[0]
    return isinstance(first, Work) and first.stitch.startswith("sl") and first.times == 1


def _begun_with(slip: Part, parts: Sequence[Part]) -> tuple[Part, ...]:
    """The row with its first stitch slipped, where that is a plain one."""
    first, *rest = parts
    if isinstance(first, Work) and first.stitch in ("k", "p") and isinstance(first.times, int):
        left = first.times - 1
        return (slip, *((replace(first, times=left),) if left else ()), *rest)
    return (slip, *parts)


def _head(row: Row) -> tuple[Alter, ...]:
    """What is bound off or cast on where the row begins, if the row goes on after it."""
    found: list[Alter] = []
    for part in row.parts:
        changes = isinstance(part, Alter) and part.change in _AT_THE_START
        if (
            not changes
            or not isinstance(part, Alter)
            or not isinstance(part.amount, int | NamedNumber)
        ):
            return tuple(found)
        found.append(part)
    return ()


def _only_changes(row: Row) -> bool:
    return all(isinstance(part, Alter) and part.change in _AT_THE_START for part in row.parts)


def _without_head(row: Row, head: tuple[Alter, ...]) -> Row:
    """The row where the stitches that were bound off first are still there: they are worked."""
    if not head:
        return row
    rest = row.parts[len(head) :]
    off = [part for part in head if part.change is CountChange.BIND_OFF]
    ground = _ground(rest)
    kept = tuple(
        Work(ground, each.amount) for each in off if isinstance(each.amount, int | NamedNumber)
    )
    if len(head) != len(off) and not (len(rest) == 1 and isinstance(rest[0], Fill | Repeat)):
        raise NotMirrored(
            row,
            "the stitches cast on first are worked in this row, and the mirrored piece has them "
            "only in the row beside it",
            "Work such a row plain, and the others from the row after it",
        )
    return replace(row, parts=(*kept, *rest))


def _ground(parts: Sequence[Part]) -> str:
    """The plain stitch of a row: knit where it has none of either."""
    plain = (part.stitch for part in parts if isinstance(part, Fill | Work))
    return next((stitch for stitch in plain if stitch in ("k", "p")), "k")


def _short_rows(rows: tuple[Row, ...], book: StitchBook) -> tuple[Row, ...]:
    """Short rows of a flat piece are turned on the other side: the whole row after them goes before
    them, and each is worked as it was, knit for purl."""
    *short, last = rows
    whole = not isinstance(last.parts[-1], Turn) and len(last.parts) == 1
    if len(short) % 2 or not whole or not isinstance(last.parts[0], Fill):
        raise NotMirrored(
            next(row for row in rows if isinstance(row.parts[-1], Turn)),
            "the mirrored piece turns these short rows on its other side, a row later",
            "Write them as one list, in pairs, and the whole row after them as its last: "
            "`[k to last 6 and turn, p to end, k all]`",
        )
    return (last, *(replace(row, parts=_other_side(row.parts, book)) for row in short))


def _other_side(parts: tuple[Part, ...], book: StitchBook) -> tuple[Part, ...]:
    """Parts in their order, so that they look alike from the other side, leans turned."""
    found: list[Part] = []
    for part in parts:
        if isinstance(part, Work):
            turned = _leaning_the_other_way(part, book)
            found.append(replace(turned, stitch=_partner(turned.stitch, book)))
        elif isinstance(part, Fill):
            found.append(replace(part, stitch=_partner(part.stitch, book)))
        elif isinstance(part, Group | Repeat):
            found.append(replace(part, parts=_other_side(part.parts, book)))
        else:
            found.append(part)
    return tuple(found)


def _partner(stitch: str, book: StitchBook) -> str:
    entry = book[stitch]
    return entry.on_wrong_side or entry.on_right_side or stitch
