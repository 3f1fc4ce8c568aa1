"""The tree of a row: what a knitter is told to do, free of how it was written.

Two rows are equal when they say the same; ``span`` is where a node was written and does not count.
"""

from collections.abc import Mapping
from enum import StrEnum

from bindoff.diagnostics import Span
from bindoff.records import Record, Said


class _Written(Said):
    UNSAID = frozenset(("span",))


class NamedNumber(_Written):
    """A computed number, written ``{name}``; each size has its own value.

    ``values`` are the numbers themselves where the row lists them for the sizes, ``{10, 11, 12}``;
    ``name`` then is that list.
    """

    name: str
    values: tuple[int, ...] = ()
    span: Span | None = None


SIZE = "#"
"""Where the numbers of a size hold which of the sizes it is, from 0; no measure is called so."""

Count = int | NamedNumber
"""How many: written out (1 or more), or computed."""


def value_of(count: NamedNumber, numbers: Mapping[str, int]) -> int | None:
    """The value of ``count`` in the size that ``numbers`` are of; ``None`` if it has none."""
    if not count.values:
        return numbers.get(count.name)
    size = numbers.get(SIZE)
    return None if size is None else count.values[size]


# ---------------------------------------------------------------- how far a part goes


class ToEnd(Record):
    """To the last live stitch of the row or round."""


class ToLast(Record):
    """Until ``count`` live stitches are left."""

    count: Count


class ToMarker(Record):
    """Until ``before`` stitches are left before the next marker; 0 goes up to the marker.

    ``last`` means the last marker of the row; those before it are slipped.
    """

    before: Count = 0
    last: bool = False


class ToCorner(Record):
    """Up to the next corner of the panel being edged; corners are counted as markers."""


class ToGap(Record):
    """Up to the next gap that the turn of a short row has left, short of it or past it.

    ``before`` stitches are left before the gap, or ``past`` are worked beyond it; one of them is 0.
    """

    before: Count = 0
    past: Count = 0


Target = ToEnd | ToLast | ToMarker | ToCorner | ToGap


class MoreTimes(Record):
    """``count`` times after the first, so ``count`` + 1 times in all."""

    count: Count


# ---------------------------------------------------------------- parts of a row


class Work(_Written):
    """``times`` of one stitch, each over the next live stitches: ``k2``, ``ssk``, ``2/2 RC``.

    ``stitch`` is an id of the stitch book; ``how`` holds modifier ids in the book's order
    (``purlwise``, ``wyif``, ``tbl``); ``yarn`` names the yarn when it is not the row's.
    """

    stitch: str
    times: Count = 1
    how: tuple[str, ...] = ()
    yarn: str | None = None
    span: Span | None = None


class Fill(_Written):
    """One stitch over and over as far as ``to``: ``k to end``, ``p to last 2 stitches``."""

    stitch: str
    to: Target
    how: tuple[str, ...] = ()
    yarn: str | None = None
    span: Span | None = None


class Group(_Written):
    """``[k1, p1] 4 times``: ``parts`` worked ``times`` times in all."""

    parts: "tuple[Part, ...]"
    times: Count
    span: Span | None = None


class Repeat(_Written):
    """``*k6, k2tog; repeat from * to end``: ``parts`` worked at least once, then ``until``.

    ``MoreTimes`` stands only at the top level of a row, where the star is written.
    """

    parts: "tuple[Part, ...]"
    until: Target | MoreTimes
    span: Span | None = None


class Base(StrEnum):
    """What a crochet stitch of an edging is worked into."""

    STITCH = "stitch"
    ROW_END = "row end"
    CHAIN = "chain"
    SPACE = "chain space"


class IntoOne(_Written):
    """``(k1, yo, k1) in next stitch``: all of ``parts`` worked into a single live stitch.

    ``base`` is what that is, for crochet.
    """

    parts: tuple[Work, ...]
    span: Span | None = None
    base: Base = Base.STITCH


class MarkerAct(StrEnum):
    """What is done at a marker."""

    PLACE = "pm"
    SLIP = "sm"
    REMOVE = "remove marker"


class Marker(_Written):
    """A marker placed, slipped or removed."""

    act: MarkerAct
    span: Span | None = None


class CountChange(StrEnum):
    """Ways the number of stitches on the needle changes other than by a stitch."""

    CAST_ON = "cast on"
    PICK_UP = "pick up and knit"
    PICK_UP_PURL = "pick up and purl"
    BIND_OFF = "bind off"
    HOLD = "hold"


class Kept(StrEnum):
    """How the stitch is counted that binding off leaves on the right needle, in a row that goes on.

    Patterns count it in two ways (common practice, no source): as the first of the next stitches,
    or beside them.
    """

    FIRST = "first of the next"
    BESIDE = "beside the next"


class Alter(_Written):
    """Stitches cast on, picked up, bound off or held.

    ``amount`` is a number, or for binding off and holding also how far to go
    (``bind off all`` goes ``ToEnd``). ``group`` names held stitches, in lower case; those without a
    name have none. ``kept`` is how a stitch left by binding off is counted where
    that matters, once the plan has found it out; ``None`` counts it as the first of the next.
    ``how`` is the way stitches are bound off, such as ``in rib``; empty for the usual one.
    """

    change: CountChange
    amount: Count | Target
    span: Span | None = None
    kept: Kept | None = None
    group: str = ""
    how: str = ""


class Turn(_Written):
    """The end of a short row: ``turn``, or ``w&t`` when ``wrap``. Always the last part.

    ``double`` makes the double stitch of German short rows at the turn, so that the next row goes
    on behind it; a row that begins with the stitch ``ds`` makes it itself. The fabric is the same.
    """

    wrap: bool = False
    span: Span | None = None
    double: bool = False


class Way(StrEnum):
    """How the work goes on after a row."""

    NEW_START = "new start of round"
    JOIN = "join in the round"
    FLAT = "turn to work flat"


class Onward(_Written):
    """The start of the round moved to here, or a change between flat and round. Always last."""

    way: Way
    span: Span | None = None


# ---------------------------------------------------------------- crochet places


class InEach(Record):
    """In each place of one kind, as far as ``to``."""

    base: Base = Base.STITCH
    to: Target = ToEnd()


class InNext(Record):
    """In each of the next ``count`` places of one kind."""

    count: Count = 1
    base: Base = Base.STITCH


class InFirst(Record):
    """In the first stitch of the round.

    Where nothing was worked before it, that is the next stitch; else the round is joined to it,
    and so it is by a slip stitch, and no stitch is used.
    """


class InSame(Record):
    """In the place where the stitch before it was worked; uses no stitch.

    Where nothing was worked before it, that is the first stitch.
    """

    base: Base = Base.STITCH


class InCorner(Record):
    """In the corner where two edges meet, or in ``each`` corner; uses no stitch of either."""

    each: bool = False


Where = InEach | InNext | InFirst | InSame | InCorner


class Hooked(_Written):
    """Crochet worked in a place: ``sc in each stitch``, ``2 sc in corner``.

    ``times`` is how many are worked into each single place.
    """

    stitch: str
    where: Where
    times: Count = 1
    yarn: str | None = None
    span: Span | None = None


class InPattern(_Written):
    """``in seed to last 3 stitches``: the next row of a stitch pattern, as far as said.

    ``name`` is the key of the stitch pattern, or of the ``chart``; empty for whatever is
    established there (``in pattern``). ``to`` is how far, or over how many stitches; a chart
    without it is worked once over its own width. It stands only at the top level of a row.
    """

    name: str = ""
    to: Target | Count | None = None
    chart: bool = False
    span: Span | None = None


Part = Work | Fill | Group | Repeat | IntoOne | Marker | Alter | Turn | Onward | Hooked | InPattern


class Stated(Record):
    """A count that the designer wrote after a row: one for all sizes, or one for each.

    ``sign`` is 0 for the stitches there are then, 1 for those gained, -1 for those lost.
    """

    counts: tuple[int, ...]
    sign: int
    span: Span | None = None


class Labelled(Record):
    """The side that the label of a row says, ``wrong_side`` or the right one; ``text`` is the
    label."""

    wrong_side: bool
    text: str
    span: Span | None = None


class Reading(Record):
    """How a row was read that was not written in our form: ``text`` is what it was read as.

    ``several`` is its label where that names more than one row, ``side`` where it says a side.
    ``guessed`` is whether it left out how far a repeat goes.
    """

    text: str
    stated: tuple[Stated, ...] = ()
    several: str = ""
    guessed: bool = False
    side: Labelled | None = None


class Row(_Written):
    """One row or round. ``yarn`` is the yarn of every part that names none.

    ``reading`` is how it was read where it was put into our form first. ``spelled`` are its
    stitches by their ids with the word that was written for each, where these are kept.
    """

    parts: tuple[Part, ...]
    yarn: str | None = None
    span: Span | None = None
    reading: Reading | None = None
    spelled: tuple[tuple[str, str], ...] = ()

    UNSAID = frozenset(("span", "reading", "spelled"))
