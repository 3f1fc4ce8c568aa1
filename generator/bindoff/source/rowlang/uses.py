"""What a row mentions: stitches to explain, numbers to compute, yarns to buy."""

from collections.abc import Iterable, Iterator

from bindoff.craft.book import StitchBook
from bindoff.source.rowlang.syntax import (
    Alter,
    Base,
    Count,
    Fill,
    Group,
    Hooked,
    InCorner,
    InEach,
    InFirst,
    InNext,
    InPattern,
    InSame,
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
    used = ids_used(rows)
    listed = [stitch.id for stitch in book.stitches if stitch.id in used]
    acts = [act.id for act in book.acts if act.id in used]
    cables = sorted(used.difference(listed, acts))
    return (*listed, *cables, *acts)


def ids_used(rows: Iterable[Row]) -> frozenset[str]:
    """Ids of the stitches, modifiers and acts in ``rows``."""
    return frozenset(id for row in rows for part in every_part(row) for id in _ids(part))


def patterns_used(row: Row) -> tuple[InPattern, ...]:
    """What ``row`` works of stitch patterns and charts, in reading order."""
    return tuple(part for part in row.parts if isinstance(part, InPattern))


def bases_of(parts: Iterable[Part]) -> frozenset[Base]:
    """What the crochet of ``parts`` is worked into, joins to the first stitch left out."""
    found = set[Base]()
    for part in _outside(tuple(parts)):
        match part:
            case Hooked(_, InEach(base) | InNext(_, base) | InSame(base)):
                found.add(base)
            case IntoOne():
                found.add(part.base)
            case Work("sk") | Work("ch"):
                pass
            case Work() | Fill():
                found.add(Base.STITCH)
            case _:
                pass
    return frozenset(found)


def _outside(parts: tuple[Part, ...]) -> Iterator[Part]:
    """``parts`` and those inside repeats and brackets, but for what is worked into one place."""
    for part in parts:
        yield part
        if isinstance(part, Group | Repeat):
            yield from _outside(part.parts)


def fixed_uses(parts: Iterable[Part], book: StitchBook) -> int | None:
    """Live stitches that ``parts`` use; ``None`` where that hangs on the place or the size."""
    total = 0
    for part in parts:
        match part:
            case Work(stitch, int(times)):
                total += book[stitch].consumes * times
            case Group(inner, int(times)):
                once = fixed_uses(inner, book)
                if once is None:
                    return None
                total += once * times
            case IntoOne():
                total += 1
            case Hooked(_, InNext(int(count))):
                total += count
            case Marker() | Turn():
                pass
            case _:
                return None
    return total


def numbers_used(row: Row) -> tuple[NamedNumber, ...]:
    """The computed numbers in ``row``, in reading order, each with its place."""
    return tuple(
        count for part in row.parts for count in _counts(part) if isinstance(count, NamedNumber)
    )


def every_part(row: Row) -> Iterator[Part]:
    """All parts of a row, those inside others too, in reading order."""
    return _parts(row.parts)


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
        case InPattern():
            if isinstance(part.to, int | NamedNumber):
                yield part.to
            elif part.to is not None:
                yield from _target_counts(part.to)
        case Marker() | Turn() | Onward():
            pass


def _inner_counts(parts: tuple[Part, ...]) -> Iterator[Count]:
    for part in parts:
        yield from _counts(part)


def _target_counts(target: Target) -> Iterator[Count]:
    match target:
        case ToLast(count):
            yield count
        case ToMarker(before, _):
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
        case InFirst() | InSame() | InCorner():
            pass
