"""What a row mentions: stitches to explain, numbers to compute, yarns to buy."""

from collections.abc import Iterable, Iterator

from bindoff.craft.book import StitchBook
from bindoff.source.rowlang.syntax import (
    Alter,
    Count,
    Fill,
    Group,
    Hooked,
    InCorner,
    InEach,
    InFirst,
    InNext,
    IntoOne,
    Marker,
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
    Where,
    Work,
)


def abbreviations_used(rows: Iterable[Row], book: StitchBook) -> tuple[str, ...]:
    """Ids of the stitches, modifiers and acts in ``rows``, each once.

    Stitches come in the book's order with cables after them, then acts in the book's order.
    """
    used = {id for row in rows for part in _parts(row.parts) for id in _ids(part)}
    listed = [stitch.id for stitch in book.stitches if stitch.id in used]
    acts = [act.id for act in book.acts if act.id in used]
    cables = sorted(used.difference(listed, acts))
    return (*listed, *cables, *acts)


def numbers_used(row: Row) -> tuple[NamedNumber, ...]:
    """The computed numbers in ``row``, in reading order, each with its place."""
    return tuple(
        count for part in row.parts for count in _counts(part) if isinstance(count, NamedNumber)
    )


def _parts(parts: tuple[Part, ...]) -> Iterator[Part]:
    """``parts`` and the parts inside them, in reading order."""
    for part in parts:
        yield part
        if isinstance(part, Group | Repeat | IntoOne):
            yield from _parts(part.parts)


def _ids(part: Part) -> Iterator[str]:
    match part:
        case Work() | Fill():
            yield part.stitch
            yield from part.how
        case Hooked():
            yield part.stitch
        case Marker():
            yield part.act.value
        case Alter():
            yield part.change.value
            if part.how in ("purlwise", "knitwise"):
                yield part.how
        case Turn():
            yield "w&t" if part.wrap else "turn"
            if part.double:
                yield "ds"
        case _:
            pass


def _counts(part: Part) -> Iterator[Count]:
    match part:
        case Work():
            yield part.times
        case Fill():
            yield from _target_counts(part.to)
        case Group():
            yield from _inner_counts(part.parts)
            yield part.times
        case Repeat():
            yield from _inner_counts(part.parts)
            if isinstance(part.until, MoreTimes):
                yield part.until.count
            else:
                yield from _target_counts(part.until)
        case IntoOne():
            yield from _inner_counts(part.parts)
        case Alter():
            if isinstance(part.amount, int | NamedNumber):
                yield part.amount
            else:
                yield from _target_counts(part.amount)
        case Hooked():
            yield part.times
            yield from _where_counts(part.where)
        case Marker() | Turn() | Onward():
            pass


def _inner_counts(parts: tuple[Part, ...]) -> Iterator[Count]:
    for part in parts:
        yield from _counts(part)


def _target_counts(target: Target) -> Iterator[Count]:
    match target:
        case ToLast(count):
            yield count
        case ToMarker(before):
            yield before
        case ToGap(before, past):
            yield before
            yield past
        case ToEnd() | ToCorner():
            pass


def _where_counts(where: Where) -> Iterator[Count]:
    match where:
        case InEach():
            yield from _target_counts(where.to)
        case InNext(count):
            yield count
        case InFirst() | InCorner():
            pass
