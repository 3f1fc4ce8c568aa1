"""Stitch arithmetic of a row: what it uses, what it leaves on the needle, and whether it fits."""

import sys
from collections.abc import Mapping
from enum import StrEnum
from typing import NoReturn, Protocol

from bindoff.diagnostics import Span
from bindoff.records import Record, replace
from bindoff.source.rowlang.bindoffs import read_as, reads_twice
from bindoff.source.rowlang.build import DOUBLE
from bindoff.source.rowlang.stitches import Stitch, StitchBook
from bindoff.source.rowlang.syntax import (
    Alter,
    Count,
    CountChange,
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
    Kept,
    Marker,
    MarkerAct,
    MoreTimes,
    Onward,
    Part,
    Repeat,
    Row,
    Target,
    ToEnd,
    ToGap,
    ToLast,
    ToMarker,
    Turn,
    Way,
    Work,
    value_of,
)
from bindoff.source.rowlang.uses import patterns_used

MOST_CHANGES = 64
"""Changes of the stitch count of one row that are told apart; a row with more tells none."""

Shift = tuple[int, int, int]
"""The stitch of a row at which its count changes, how many are used there and how many made."""


class Cuts(Record):
    """Where a row breaks its line of stitches, and where it makes or leaves out some.

    ``cuts`` are places on the stitches made where some were bound off and none cast on instead;
    ``bridges`` are places on the stitches used where others were cast on, and ``off`` the stretches
    of these that were bound off or held.
    """

    cuts: tuple[int, ...] = ()
    bridges: tuple[int, ...] = ()
    off: tuple[tuple[int, int], ...] = ()

    @property
    def told(self) -> bool:
        """Whether all of them are told."""
        return max(len(self.cuts), len(self.bridges), len(self.off)) <= MOST_CHANGES


NO_CUTS = Cuts()


class Stretch(Record):
    """What a row worked in pattern: the live stitches it used, and those it made there, as places
    from the start of the row; ends are exclusive."""

    part: InPattern
    used: tuple[int, int]
    made: tuple[int, int]


class Break(Record):
    """Where a part of a row begins and ends: on the stitches used and on those made.

    ``plain`` says that it uses and makes them one by one.
    """

    used: tuple[int, int]
    made: tuple[int, int]
    plain: bool


class Layer(Protocol):
    """Says what is worked where a row is worked in pattern."""

    def width(self, part: InPattern, first: int) -> int:
        """The stitches of a chart worked once from the row's stitch ``first`` on."""

    def parts(self, part: InPattern, first: int, count: int) -> tuple[Part, ...]:
        """What is worked over ``count`` live stitches from the row's stitch ``first`` on.

        Raises ``RowMismatch`` where that can't be said.
        """


class Taken(Record):
    """Stitches that a row takes off the needle under a name, from the stitch ``start`` on."""

    group: str
    start: int
    stitches: int
    span: Span | None = None


class Counted(Record):
    """A row worked over the live stitches of one size.

    ``consumed`` live stitches were used, ``produced`` made. ``live`` is what is on the needles
    after the row: ``produced`` and the ``unworked`` stitches of a short row. ``markers`` are places
    on those live stitches counted from the start of this row, of which the first ``passed`` lie in
    the worked part. ``repeats`` says how often each repeat of the row, in order, was worked; those
    inside others are not counted. ``loops`` counts the loops of each yarn ("" where neither the
    part nor the row names one), without the ``cast_on`` and ``bound_off`` ones. ``cuts`` says where
    stitches were bound off, held and cast on; ``held`` are those without a name, ``groups`` those
    with one.
    ``turns`` are gaps ahead that earlier turns have left, counted as ``markers``. ``double`` says
    that the first stitch of the next row is made already. ``crossed`` is how many of the
    ``produced`` lie before the start of the round, where the row went on past it; ``unworked`` are
    then all others. ``way`` is how the work goes on. ``stretches`` are what was worked in pattern,
    and ``breaks`` the parts of the row, where stitch patterns are established or worked. ``shifts``
    are stitches that use and make other numbers, bound off, held and cast on ones too, in order.
    """

    consumed: int
    produced: int
    live: int
    markers: tuple[int, ...] = ()
    passed: int = 0
    unworked: int = 0
    turned: bool = False
    held: int = 0
    picked_up: int = 0
    cast_on: int = 0
    bound_off: int = 0
    repeats: tuple[int, ...] = ()
    loops: tuple[tuple[str, int], ...] = ()
    cuts: Cuts = NO_CUTS
    groups: tuple[Taken, ...] = ()
    turns: tuple[int, ...] = ()
    double: bool = False
    crossed: int | None = None
    way: Way | None = None
    stretches: tuple[Stretch, ...] = ()
    breaks: tuple[Break, ...] = ()
    shifts: tuple[Shift, ...] = ()

    @property
    def shifts_told(self) -> bool:
        """Whether ``shifts`` are all that there are."""
        change = sum(made - used for _, used, made in self.shifts)
        return len(self.shifts) <= MOST_CHANGES and change == self.produced - self.consumed

    def turns_flat(self, flat: bool) -> bool:
        """Whether the work is turned after it: at the end of every row of ``flat`` work."""
        return self.turned or self.way is Way.FLAT or (flat and self.way is not Way.JOIN)

    def flat_after(self, flat: bool) -> bool:
        """Whether the next row is worked flat, if this one was or was not."""
        return {Way.JOIN: False, Way.FLAT: True}.get(self.way, flat) if self.way else flat


class Trouble(StrEnum):
    """Why a row does not fit the stitches it is worked over."""

    LEFT_OVER = "left over"  # a repeat does not divide the stitches it has
    NO_ROOM = "no room"  # a repeat has no stitches to be worked over even once
    TOO_MANY = "too many"  # the row uses more stitches than are live
    TOO_FEW = "too few"  # live stitches remain at the end of the row
    NO_MARKER = "no marker"  # a marker is named and none lies ahead, or not here
    PAST_MARKER = "past marker"  # the marker is nearer than the row supposes
    ACROSS_MARKER = "across marker"  # a stitch would be worked over both sides of a marker
    NO_GAP = "no gap"  # the gap of a turn is named and none lies ahead
    PAST_GAP = "past gap"  # the gap is nearer than the row supposes
    TWICE_DOUBLE = "twice double"  # a double stitch is made at the turn and by the next row
    NOT_ESTABLISHED = "not established"  # no pattern is known where a row is worked in pattern
    PATTERN_CUT = "pattern cut"  # a stitch pattern would begin or end inside a stitch
    PATTERN_FIT = "pattern fit"  # the rows of a stitch pattern do not fit the stitches
    PATTERN_SIDE = "pattern side"  # the next row of a stitch pattern is one of the other side
    ENDLESS = "endless"  # what is repeated uses no stitches
    UNKNOWN_NUMBER = "unknown number"  # no value for a computed number
    NEGATIVE_NUMBER = "negative number"  # a computed number below nought


class Mismatch(Record):
    """The figures of a row that does not fit.

    ``used`` is how many stitches the row uses (whole repeats only), ``unit`` what one repeat uses,
    ``left_over`` the stitches that remain for it, ``nearest`` the closest live counts below and
    above at which the row fits. ``part`` is what cannot be worked; ``number`` names a bad number.
    ``told`` is what is wrong with a stitch pattern and what to do.
    """

    trouble: Trouble
    live: int
    used: int
    part: Part | None = None
    unit: int = 0
    left_over: int = 0
    nearest: tuple[int, ...] = ()
    number: str = ""
    told: tuple[str, str] = ("", "")


class RowMismatch(Exception):  # noqa: N818 - a finding about the knitting, not a program error
    """A row that does not fit; ``figures`` says how, for the caller to put into words."""

    def __init__(self, figures: Mismatch) -> None:
        self.figures = figures
        super().__init__(f"{figures.trouble}: {figures.used} of {figures.live} stitches")


def count_row(
    row: Row,
    live: int,
    numbers: Mapping[str, int],
    markers: tuple[int, ...],
    book: StitchBook,
    known: "Known | None" = None,
    *,
    turns: tuple[int, ...] = (),
    begun: int = 0,
    beyond: int = 0,
    layer: Layer | None = None,
) -> Counted:
    """``row`` worked over ``live`` stitches with ``markers`` at those places, for one size.

    A marker at 3 lies after the third stitch. A marker that is passed without being named is
    slipped, and so is the one at the end of the row that the last time of a repeat names, which
    nobody has to place. Corners of a crocheted edging are markers. ``known``
    remembers from one call to the next what repeats do, for as long as the same rows are counted.
    ``turns`` are the places of gaps left by turns, ``begun`` stitches are made already. ``beyond``
    are those past the start of the round, which a row that turns may work too. ``layer`` says what
    is worked in pattern. Raises ``RowMismatch``.
    """
    yarn, known = row.yarn or "", {} if known is None else known
    places = tuple(sorted(markers))
    task = _Task(live, numbers, places, book, yarn, known, turns, begun, live + beyond, layer=layer)
    try:
        return _count(row, task)
    except RowMismatch as error:
        if error.figures.trouble not in _FITTABLE or patterns_used(row):
            raise
        nearest = _nearest(row, task, error.figures)
        raise RowMismatch(replace(error.figures, nearest=nearest)) from None


# ---------------------------------------------------------------- where the needles stand


class LiveStitches(Record):
    """The stitches before a row: ``left`` to be worked, ``right`` behind the turning point.

    Marker places count away from the gap between the needles: ``left_markers`` in the direction of
    work, ``right_markers`` against it. ``left_turns`` and ``right_turns`` count alike, and are the
    gaps where short rows were turned and that no row has been worked across since. ``begun`` is 1
    where the first stitch ahead is made already, a double stitch.
    """

    left: int
    right: int = 0
    left_markers: tuple[int, ...] = ()
    right_markers: tuple[int, ...] = ()
    left_turns: tuple[int, ...] = ()
    right_turns: tuple[int, ...] = ()
    begun: int = 0


MOST_TURNS = 200
"""Gaps that are remembered in either direction, the nearest ones."""


def count_on(
    row: Row,
    needle: LiveStitches,
    numbers: Mapping[str, int],
    book: StitchBook,
    known: "Known | None" = None,
    *,
    flat: bool,
    layer: Layer | None = None,
) -> Counted:
    """``row`` worked from where the needles stand, as ``count_row`` does; raises ``RowMismatch``.

    In the round a row that turns may go on past the start of the round, into the stitches behind
    the turning point.
    """
    live, markers, turns, begun = needle.left, needle.left_markers, needle.left_turns, needle.begun
    try:
        return count_row(
            row, live, numbers, markers, book, known, turns=turns, begun=begun, layer=layer
        )
    except RowMismatch as error:
        turned = bool(row.parts) and isinstance(row.parts[-1], Turn)
        if flat or not turned or not needle.right or error.figures.trouble not in _MAY_CROSS:
            raise
        around = needle.left + needle.right
        markers += tuple(around - place for place in reversed(needle.right_markers))
        turns += tuple(around - place for place in reversed(needle.right_turns) if place)
        beyond = needle.right
        try:
            return count_row(
                row,
                live,
                numbers,
                markers,
                book,
                known,
                turns=turns,
                begun=begun,
                beyond=beyond,
                layer=layer,
            )
        except RowMismatch as further:
            if further.figures.trouble in _MAY_CROSS:
                raise error from None
            raise


def after_row(needle: LiveStitches, counted: Counted, *, flat: bool) -> LiveStitches:
    """The needle before the next row: turned round where work is ``flat`` or the row turned."""
    if counted.crossed is not None:
        return _after_crossing(counted, counted.crossed)
    if counted.way is Way.NEW_START:
        return _from_new_start(needle, counted)
    worked = needle.right + counted.produced
    passed = tuple(needle.right + place for place in counted.markers[: counted.passed])
    behind = tuple(needle.right - place for place in reversed(needle.right_markers))
    ahead = tuple(place - counted.produced for place in counted.markers[counted.passed :])
    if counted.turns_flat(flat):
        turned = tuple(worked - place for place in reversed(behind + passed))
        gaps = tuple(counted.produced + place for place in needle.right_turns)
        here = (0, *_ahead(counted)) if counted.unworked else ()
        begun = int(counted.double)
        return LiveStitches(worked, counted.unworked, turned, ahead, gaps, here[:MOST_TURNS], begun)
    gaps = tuple(needle.right - place for place in reversed(needle.right_turns))
    return LiveStitches(worked, 0, behind + passed, (), tuple(place for place in gaps if place))


def _from_new_start(needle: LiveStitches, counted: Counted) -> LiveStitches:
    """The needle where the round begins anew: what lies ahead comes first, then what lay behind the
    row, and at the end what it worked."""
    ahead = counted.unworked
    around = ahead + needle.right
    markers = tuple(place - counted.produced for place in counted.markers[counted.passed :])
    markers += tuple(around - place for place in reversed(needle.right_markers))
    markers += tuple(around + place for place in counted.markers[: counted.passed])
    turns = tuple(place for place in _ahead(counted) if place)
    turns += tuple(around - place for place in reversed(needle.right_turns))
    return LiveStitches(around + counted.produced, 0, markers, (), turns)


def _ahead(counted: Counted) -> tuple[int, ...]:
    """The gaps ahead, counted from where the row turned."""
    return tuple(place - counted.produced for place in counted.turns)


def _after_crossing(counted: Counted, before: int) -> LiveStitches:
    """The needle after a row that turned past the start of the round.

    ``before`` of the stitches made lie between the turning point it came from and that start: they
    are the farthest of those behind the new turning point.
    """
    worked, unworked = counted.produced, counted.unworked
    passed, ahead = counted.markers[: counted.passed], counted.markers[counted.passed :]
    left = tuple(worked - place for place in reversed(passed) if place >= before)
    right = tuple(place - worked for place in ahead)
    right += tuple(unworked + place for place in passed if place < before)
    gaps = (0, *_ahead(counted), unworked) if unworked else ()
    double = int(counted.double)
    return LiveStitches(
        worked - before, unworked + before, left, right, (), gaps[:MOST_TURNS], double
    )


# ---------------------------------------------------------------- working a row

_FITTABLE = frozenset({Trouble.LEFT_OVER, Trouble.NO_ROOM, Trouble.TOO_MANY, Trouble.TOO_FEW})
_MAY_CROSS = frozenset({Trouble.TOO_MANY, Trouble.NO_GAP, Trouble.NO_MARKER})
_LEAST_REACH = 48
"""How far from the live count a fitting one is looked for, in stitches, at least."""
_FARTHEST = 1_000
"""How far at the most."""
_MOST_TRIED = 100_000
"""Parts of a row worked at the most in the search, on either side: a long row reaches less far."""


class _Task(Record):
    """What a row is worked over."""

    live: int
    numbers: Mapping[str, int]
    markers: tuple[int, ...]
    book: StitchBook
    yarn: str
    known: "Known"
    turns: tuple[int, ...]
    begun: int
    reach: int  # the live stitches, and those past the start of the round
    again: bool = False  # inside a repeat or a bracket, worked more than once
    layer: Layer | None = None


_Loops = tuple[tuple[str, int], ...]


class _Worked(Record):
    """How far the row has come. ``met`` markers lie behind, ``markers`` are their new places."""

    consumed: int = 0
    produced: int = 0
    met: int = 0
    markers: tuple[int, ...] = ()
    held: int = 0
    picked_up: int = 0
    cast_on: int = 0
    bound_off: int = 0
    loops: _Loops = ()
    cuts: Cuts = NO_CUTS
    groups: tuple[Taken, ...] = ()
    crossed: int | None = None
    shifts: tuple[Shift, ...] = ()


Known = dict[tuple[int, str], _Worked]
"""What repeated parts do wherever they are worked and in every size, by the identity of their
tuple and the yarn of the row: a chart's round is added up once, not once for every size and
repeat."""


def _count(row: Row, task: _Task) -> Counted:
    worked, repeats, turned, double = _begin(row, task), list[int](), False, False
    way: Way | None = None
    over: Part | None = None  # the first part that runs beyond the live stitches
    stretches, breaks = list[Stretch](), list[Break]()
    for part in row.parts:
        before = worked
        if isinstance(part, Repeat):
            worked, times = _repeat(task, worked, part)
            repeats.append(times)
        elif isinstance(part, Turn):
            turned, double = True, part.double
        elif isinstance(part, Onward):
            way = part.way
        elif isinstance(part, InPattern):
            worked = _in_pattern(task, worked, part)
            stretches.append(Stretch(part, *_way_gone(before, worked)))
        else:
            worked = _step(task, worked, part)
        if task.layer is not None:
            breaks.append(Break(*_way_gone(before, worked), _one_by_one(part, task.book)))
        if over is None and worked.consumed > task.reach:
            over = part
    end = task.live if worked.crossed is None else task.reach
    unworked = end - worked.consumed
    if unworked < 0:
        _misfit(task, worked, Trouble.TOO_MANY, over)
    apart = turned or way is Way.NEW_START
    if unworked and not apart:
        _misfit(task, worked, Trouble.TOO_FEW, None, left_over=unworked)
    ahead = tuple(worked.produced + place - worked.consumed for place in task.markers[worked.met :])
    turns = tuple(
        worked.produced + place - worked.consumed for place in task.turns if place > worked.consumed
    )
    passed = len(worked.markers) if apart else len(worked.markers) + len(ahead)
    return Counted(
        consumed=worked.consumed,
        produced=worked.produced,
        live=worked.produced + unworked,
        markers=worked.markers + ahead,
        passed=passed,
        unworked=unworked,
        turned=turned,
        held=worked.held,
        picked_up=worked.picked_up,
        cast_on=worked.cast_on,
        bound_off=worked.bound_off,
        repeats=tuple(repeats),
        loops=worked.loops,
        cuts=worked.cuts,
        groups=worked.groups,
        turns=turns,
        double=double,
        crossed=worked.crossed,
        way=way,
        stretches=tuple(stretches),
        breaks=tuple(breaks),
        shifts=worked.shifts,
    )


def _way_gone(before: _Worked, after: _Worked) -> tuple[tuple[int, int], tuple[int, int]]:
    """From where to where a part goes, on the stitches used and on those made."""
    return (before.consumed, after.consumed), (before.produced, after.produced)


def _one_by_one(part: Part, book: StitchBook) -> bool:
    """Whether a part uses and makes its stitches one by one."""
    match part:
        case Work() | Fill():
            return book[part.stitch].consumes == book[part.stitch].produces == 1
        case Group() | Repeat():
            return all(_one_by_one(inner, book) for inner in part.parts)
        case _:
            return False


def _in_pattern(task: _Task, worked: _Worked, part: InPattern) -> _Worked:
    """The stitches of a pattern as far as the part goes."""
    if task.layer is None:
        _misfit(task, worked, Trouble.NOT_ESTABLISHED, part)
    if part.to is None:
        room = task.layer.width(part, worked.consumed)
    elif isinstance(part.to, Target):
        room = _room(task, worked, part.to, part)
    else:
        room = _number(task, worked, part.to, part)
    if worked.consumed + room > task.live:
        _misfit(task, replace(worked, consumed=worked.consumed + room), Trouble.TOO_MANY, part)
    if room == 0:
        return worked
    try:
        parts = task.layer.parts(part, worked.consumed, room)
    except RowMismatch as error:
        figures = replace(error.figures, live=task.live, used=worked.consumed, part=part)
        raise RowMismatch(figures) from None
    return _run(task, worked, parts)


def _begin(row: Row, task: _Task) -> _Worked:
    """Where the row begins: behind a double stitch that is made already."""
    if not task.begun:
        return _Worked()
    first = row.parts[0]
    if isinstance(first, Work) and first.stitch == DOUBLE:
        _misfit(task, _Worked(), Trouble.TWICE_DOUBLE, first)
    return _over(task, _Worked(), first, 1, 1, task.begun, ())


def _run(task: _Task, worked: _Worked, parts: tuple[Part, ...]) -> _Worked:
    for part in parts:
        worked = _step(task, worked, part)
    return worked


def _step(task: _Task, worked: _Worked, part: Part) -> _Worked:
    match part:
        case Work():
            stitch = task.book[part.stitch]
            times = _number(task, worked, part.times, part)
            return _stitches(task, worked, part, stitch, times)
        case Fill():
            stitch = task.book[part.stitch]
            room = _room(task, worked, part.to, part)
            if stitch.consumes == 0:
                _misfit(task, worked, Trouble.ENDLESS, part)
            times, over = divmod(room, stitch.consumes)
            if over:
                _left_over(task, part, stitch.consumes, over)
            return _stitches(task, worked, part, stitch, times)
        case Group():
            times = _number(task, worked, part.times, part)
            return _times(task, worked, part.parts, times)
        case Repeat():
            return _repeat(task, worked, part)[0]
        case IntoOne():
            return _into_one(task, worked, part)
        case Marker():
            return _marker(task, worked, part)
        case Alter():
            return _alter(task, worked, part)
        case Hooked():
            return _hooked(task, worked, part)
        case Turn() | Onward() | InPattern():
            raise ValueError("it stands only at the end or the top level of a row")


# ---------------------------------------------------------------- stitches


def _stitches(
    task: _Task, worked: _Worked, part: Work | Fill, stitch: Stitch, times: int
) -> _Worked:
    loops = _looped(worked.loops, part.yarn or task.yarn, stitch.loops * times)
    return _over(task, worked, part, stitch.consumes, stitch.produces, times, loops)


def _into_one(task: _Task, worked: _Worked, part: IntoOne) -> _Worked:
    made, loops = 0, worked.loops
    for work in part.parts:
        stitch, times = task.book[work.stitch], _number(task, worked, work.times, part)
        made += stitch.produces * times
        loops = _looped(loops, work.yarn or task.yarn, stitch.loops * times)
    return _over(task, worked, part, 1, made, 1, loops)


def _over(
    task: _Task,
    worked: _Worked,
    part: Part,
    uses: int,
    makes: int,
    times: int,
    loops: _Loops,
) -> _Worked:
    """``times`` over ``uses`` live stitches, each time leaving ``makes``.

    Markers between two times are slipped; one inside a time cannot be.
    """
    consumed = worked.consumed + uses * times
    slipped, met = list[int](), worked.met
    while met < len(task.markers) and task.markers[met] < consumed:
        before, inside = divmod(task.markers[met] - worked.consumed, uses)
        if inside:
            _misfit(task, worked, Trouble.ACROSS_MARKER, part)
        slipped.append(worked.produced + before * makes)
        met += 1
    crossed = worked.crossed
    if crossed is None and worked.consumed <= task.live < consumed <= task.reach:
        before, inside = divmod(task.live - worked.consumed, uses)
        if inside:
            _misfit(task, worked, Trouble.ACROSS_MARKER, part)
        crossed = worked.produced + before * makes
    shifts = worked.shifts
    if uses != makes and times and len(shifts) <= MOST_CHANGES:
        each = range(min(times, MOST_CHANGES + 1))
        shifts = (*shifts, *((worked.consumed + uses * at, uses, makes) for at in each))
    return _Worked(
        consumed,
        worked.produced + makes * times,
        met,
        (*worked.markers, *slipped),
        worked.held,
        worked.picked_up,
        worked.cast_on,
        worked.bound_off,
        loops,
        worked.cuts,
        worked.groups,
        crossed,
        shifts,
    )


def _looped(loops: _Loops, yarn: str, count: int) -> _Loops:
    if count == 0:
        return loops
    if len(loops) == 1 and loops[0][0] == yarn:  # most rows are of one yarn
        return ((yarn, loops[0][1] + count),)
    total = dict(loops)
    total[yarn] = total.get(yarn, 0) + count
    return tuple(total.items())


# ---------------------------------------------------------------- repeats


def _repeat(task: _Task, worked: _Worked, part: Repeat) -> tuple[_Worked, int]:
    """The repeat worked out, and how many times."""
    if isinstance(part.until, MoreTimes):
        times = _number(task, worked, part.until.count, part) + 1
        return _times(task, worked, part.parts, times), times
    room = _room(task, worked, part.until, part)
    once = _once(task, part.parts)
    if room == 0:
        _misfit(task, worked, Trouble.NO_ROOM, part, unit=once.consumed if once else 0)
    if once is not None:
        if once.consumed == 0:
            _misfit(task, worked, Trouble.ENDLESS, part)
        times, over = divmod(room, once.consumed)
        if over:
            _left_over(task, part, once.consumed, over)
        return _times(task, worked, part.parts, times), times
    return _repeat_to(task, worked, part, worked.consumed + room)


def _repeat_to(task: _Task, worked: _Worked, part: Repeat, goal: int) -> tuple[_Worked, int]:
    """A repeat whose extent hangs on the place, worked time by time up to the stitch ``goal``."""
    times, task = 0, replace(task, again=True)
    while worked.consumed < goal:
        after = _run(task, worked, part.parts)
        if (after.consumed, after.met) == (worked.consumed, worked.met):
            _misfit(task, worked, Trouble.ENDLESS, part)
        if after.consumed > goal:
            unit, over = after.consumed - worked.consumed, goal - worked.consumed
            _left_over(task, part, unit, over)
        worked, times = after, times + 1
    return worked, times


def _times(task: _Task, worked: _Worked, parts: tuple[Part, ...], times: int) -> _Worked:
    """``parts`` over and over: in one stride to the next marker, and singly where that is met."""
    once = _once(task, parts)
    task = replace(task, again=True)
    while times and worked.consumed <= task.reach:
        stride = min(times, _clear(task, worked, once)) if once is not None else 0
        before = worked
        worked = _plus(worked, once, stride) if once and stride else _run(task, worked, parts)
        if worked.consumed == before.consumed and worked == before:
            break  # nor would it do anything the next time
        times -= stride or 1
    return worked


def _clear(task: _Task, worked: _Worked, once: _Worked) -> int:
    """How many times ``once`` can be worked before a marker is met."""
    if once.consumed == 0:
        return sys.maxsize
    clear = sys.maxsize
    if worked.met < len(task.markers):
        clear = (task.markers[worked.met] - worked.consumed) // once.consumed
    if task.live < task.reach and worked.consumed <= task.live:  # to the start of the round
        clear = min(clear, (task.live - worked.consumed) // once.consumed)
    return clear


def _once(task: _Task, parts: tuple[Part, ...]) -> _Worked | None:
    """What ``parts`` do wherever they are worked; ``None`` if that hangs on the place."""
    if (known := task.known.get((id(parts), task.yarn))) is not None:
        return known
    if not all(_placeless(part) for part in parts):
        return None
    alone = replace(task, live=sys.maxsize, reach=sys.maxsize, markers=(), turns=())
    try:
        once = _run(replace(alone, numbers={}), _Worked(), parts)
    except RowMismatch:  # it takes the numbers of this size
        return _run(alone, _Worked(), parts)
    task.known[id(parts), task.yarn] = once
    return once


def _placeless(part: Part) -> bool:
    match part:
        case Work() | IntoOne():
            return True
        case Group():
            return all(_placeless(inner) for inner in part.parts)
        case Repeat():
            return isinstance(part.until, MoreTimes) and all(map(_placeless, part.parts))
        case Alter():
            return not isinstance(part.amount, Target)
        case Hooked():
            return isinstance(part.where, InNext)
        case Fill() | Marker() | Turn() | Onward() | InPattern():
            return False


def _plus(worked: _Worked, once: _Worked, times: int) -> _Worked:
    """``worked``, then ``once`` over and over."""
    loops = worked.loops
    for yarn, count in once.loops:
        loops = _looped(loops, yarn, count * times)
    return _Worked(
        worked.consumed + once.consumed * times,
        worked.produced + once.produced * times,
        worked.met,
        worked.markers,
        worked.held + once.held * times,
        worked.picked_up + once.picked_up * times,
        worked.cast_on + once.cast_on * times,
        worked.bound_off + once.bound_off * times,
        loops,
        worked.cuts if once.cuts is NO_CUTS else _cut_again(worked, once, times),
        (*worked.groups, *once.groups[:1] * min(times, 2)),
        worked.crossed,
        _shifted(worked, once, times) if once.shifts else worked.shifts,
    )


def _shifted(worked: _Worked, once: _Worked, times: int) -> tuple[Shift, ...]:
    """The shifts of ``worked``, and those of ``once`` over and over after it."""
    found = list(worked.shifts)
    for number in range(min(times, MOST_CHANGES + 1)):
        start = worked.consumed + once.consumed * number
        found += ((start + place, used, made) for place, used, made in once.shifts)
    return tuple(found[: MOST_CHANGES + 1])


def _cut_again(worked: _Worked, once: _Worked, times: int) -> Cuts:
    """The cuts of ``worked``, and those of ``once`` over and over after it."""
    cuts, bridges, off = list(worked.cuts.cuts), list(worked.cuts.bridges), list(worked.cuts.off)
    for time in range(min(times, MOST_CHANGES + 1)):
        used = worked.consumed + once.consumed * time
        made = worked.produced + once.produced * time
        cuts += [made + place for place in once.cuts.cuts]
        bridges += [used + place for place in once.cuts.bridges]
        off += [(used + start, used + end) for start, end in once.cuts.off]
    most = MOST_CHANGES + 1
    return Cuts(tuple(cuts[:most]), tuple(bridges[:most]), tuple(off[:most]))


# ---------------------------------------------------------------- markers, edges, crochet


def _marker(task: _Task, worked: _Worked, part: Marker) -> _Worked:
    if part.act is MarkerAct.PLACE:
        return replace(worked, markers=(*worked.markers, worked.produced))
    if not _at_marker(task, worked):
        if task.again and part.act is MarkerAct.SLIP and worked.consumed == task.live:
            return worked  # the last time, at the marker where the round or row begins
        _misfit(task, worked, Trouble.NO_MARKER, part)
    if part.act is MarkerAct.REMOVE:
        return replace(worked, met=worked.met + 1)
    return replace(worked, met=worked.met + 1, markers=(*worked.markers, worked.produced))


def _at_marker(task: _Task, worked: _Worked) -> bool:
    return worked.met < len(task.markers) and task.markers[worked.met] == worked.consumed


def _alter(task: _Task, worked: _Worked, part: Alter) -> _Worked:
    if isinstance(part.amount, Target):
        count = _room(task, worked, part.amount, part)
    else:
        count = _number(task, worked, part.amount, part)
    match part.change:
        case CountChange.CAST_ON:
            return replace(_new(worked, count), cast_on=worked.cast_on + count)
        case CountChange.PICK_UP | CountChange.PICK_UP_PURL:
            return replace(
                _new(worked, count),
                picked_up=worked.picked_up + count,
                loops=_looped(worked.loops, task.yarn, count),
            )
        case CountChange.BIND_OFF:
            off = _taken_off(task, worked, count)
            if count:
                off = replace(off, cuts=_cut(off), bound_off=worked.bound_off + count)
            if part.kept is not Kept.BESIDE or count == 0:
                return off
            return _over(task, off, part, 1, 1, 1, _looped(off.loops, task.yarn, 1))
        case CountChange.HOLD:
            off = _taken_off(task, worked, count)
            if part.group:
                taken = Taken(part.group, worked.consumed, count, part.span)
                return replace(off, groups=(*worked.groups, taken))
            return replace(off, held=worked.held + count)


def _taken_off(task: _Task, worked: _Worked, count: int) -> _Worked:
    """``count`` live stitches off the needle, and with them the markers between them."""
    first, end = worked.consumed, worked.consumed + count
    markers, met = worked.markers, worked.met
    while met < len(task.markers) and task.markers[met] < end:
        if task.markers[met] == first:
            markers = (*markers, worked.produced)
        met += 1
    cuts = worked.cuts
    if count and len(cuts.off) <= MOST_CHANGES:
        cuts = replace(cuts, off=(*cuts.off, (first, end)))
    crossed = worked.crossed
    if crossed is None and first <= task.live < end <= task.reach:
        crossed = worked.produced
    shifts = _and_shift(worked, (first, count, 0))
    return replace(
        worked,
        consumed=end,
        markers=markers,
        met=met,
        cuts=cuts,
        crossed=crossed,
        shifts=shifts,
    )


def _new(worked: _Worked, count: int) -> _Worked:
    """``count`` stitches cast on or picked up where the row stands."""
    return replace(
        worked,
        produced=worked.produced + count,
        cuts=_bridged(worked, count),
        shifts=_and_shift(worked, (worked.consumed, 0, count)),
    )


def _and_shift(worked: _Worked, shift: Shift) -> tuple[Shift, ...]:
    """The shifts of ``worked`` and one more, if that changes a count."""
    full = len(worked.shifts) > MOST_CHANGES or shift[1] == shift[2]
    return worked.shifts if full else (*worked.shifts, shift)


def _cut(worked: _Worked) -> Cuts:
    """A cut where the row stands."""
    cuts = worked.cuts
    if worked.produced in cuts.cuts or len(cuts.cuts) > MOST_CHANGES:
        return cuts
    return replace(cuts, cuts=(*cuts.cuts, worked.produced))


def _bridged(worked: _Worked, count: int) -> Cuts:
    """Stitches cast on where the row stands: no cut is left here, nor one stitch before.

    That stitch is the one which binding off leaves on the right needle.
    """
    cuts = worked.cuts
    if not count or len(cuts.bridges) > MOST_CHANGES:
        return cuts
    here = (worked.produced, worked.produced - 1)
    return replace(
        cuts,
        cuts=tuple(place for place in cuts.cuts if place not in here),
        bridges=(*cuts.bridges, worked.consumed),
    )


def _hooked(task: _Task, worked: _Worked, part: Hooked) -> _Worked:
    stitch, times = task.book[part.stitch], _number(task, worked, part.times, part)
    makes = stitch.produces * times
    match part.where:
        case InEach():
            places = _room(task, worked, part.where.to, part)
            moved = _over(task, worked, part, 1, makes, places, worked.loops)
        case InNext():
            places = _number(task, worked, part.where.count, part)
            moved = _over(task, worked, part, 1, makes, places, worked.loops)
        case InFirst():
            places, moved = 1, worked
            if worked.consumed == 0 and task.live and stitch.id != "sl st":
                moved = _over(task, worked, part, 1, makes, 1, worked.loops)
        case InSame():
            places, moved = 1, worked
            if worked.consumed == 0:
                moved = _over(task, worked, part, 1, makes, 1, worked.loops)
            elif stitch.id != "sl st":
                moved = replace(worked, produced=worked.produced + makes)
        case InCorner():
            moved = _corners(task, worked, part, makes)
            places = moved.met - worked.met if not part.where.each else moved.met
    loops = _looped(moved.loops, part.yarn or task.yarn, stitch.loops * times * places)
    return replace(moved, loops=loops)


def _corners(task: _Task, worked: _Worked, part: Hooked, makes: int) -> _Worked:
    """``makes`` stitches into the corner here, or into each corner met so far and the one here.

    A corner then lies in the middle of its stitches.
    """
    here = _at_marker(task, worked)
    corners = (*worked.markers, worked.produced) if here else worked.markers
    each = isinstance(part.where, InCorner) and part.where.each
    if not (corners if each else here):
        _misfit(task, worked, Trouble.NO_MARKER, part)
    first = 0 if each else len(corners) - 1
    moved = tuple(
        place if i < first else place + (i - first) * makes + makes // 2
        for i, place in enumerate(corners)
    )
    return replace(
        worked,
        produced=worked.produced + makes * (len(corners) - first),
        met=worked.met + here,
        markers=moved,
    )


# ---------------------------------------------------------------- numbers and misfits


def _number(task: _Task, worked: _Worked, count: Count, part: Part) -> int:
    if isinstance(count, int):
        return count
    value = value_of(count, task.numbers)
    if value is None:
        _misfit(task, worked, Trouble.UNKNOWN_NUMBER, part, number=count.name)
    if value < 0:
        _misfit(task, worked, Trouble.NEGATIVE_NUMBER, part, number=count.name)
    return value


def _room(task: _Task, worked: _Worked, target: Target, part: Part) -> int:
    """Live stitches from here as far as ``target``."""
    end = task.live if worked.crossed is None else task.reach
    match target:
        case ToEnd():
            goal, rest = end, 0
        case ToLast():
            rest = _number(task, worked, target.count, part)
            goal = end - rest
        case ToGap():
            return _to_gap(task, worked, target, part)
        case _:
            if worked.met == len(task.markers):
                _misfit(task, worked, Trouble.NO_MARKER, part)
            short = target.before if isinstance(target, ToMarker) else 0
            which = -1 if isinstance(target, ToMarker) and target.last else worked.met
            goal = task.markers[which] - _number(task, worked, short, part)
            if goal < worked.consumed:
                _misfit(task, worked, Trouble.PAST_MARKER, part)
            return goal - worked.consumed
    if goal < worked.consumed:
        ahead = replace(worked, consumed=worked.consumed + rest)
        _misfit(task, ahead, Trouble.TOO_MANY, part)
    return goal - worked.consumed


def _to_gap(task: _Task, worked: _Worked, target: ToGap, part: Part) -> int:
    """Live stitches from here as far as the next gap of a turn, short of it or past it."""
    gap = next((place for place in task.turns if place >= worked.consumed), None)
    if gap is None:
        _misfit(task, worked, Trouble.NO_GAP, part)
    past = _number(task, worked, target.past, part)
    goal = gap + past - _number(task, worked, target.before, part)
    if goal < worked.consumed:
        _misfit(task, worked, Trouble.PAST_GAP, part)
    return goal - worked.consumed


def _left_over(task: _Task, part: Part, unit: int, over: int) -> NoReturn:
    """A repeat of ``unit`` stitches that leaves ``over`` of its room; the row uses the others."""
    used = _Worked(task.live - over)
    _misfit(task, used, Trouble.LEFT_OVER, part, unit=unit, left_over=over)


def _misfit(
    task: _Task,
    worked: _Worked,
    trouble: Trouble,
    part: Part | None,
    *,
    unit: int = 0,
    left_over: int = 0,
    number: str = "",
) -> NoReturn:
    raise RowMismatch(
        Mismatch(trouble, task.live, worked.consumed, part, unit, left_over, number=number)
    )


def _nearest(row: Row, task: _Task, figures: Mismatch) -> tuple[int, ...]:
    """The closest live counts below and above at which ``row`` fits, found by working it.

    Where binding off can be read in two ways, either will do.
    """
    rows = [read_as(row, kept) for kept in Kept] if reads_twice(row) else [row]
    reach = max(_LEAST_REACH, abs(figures.used - figures.live)) + _largest_repeat(row, task)
    reach = min(reach, _FARTHEST, _MOST_TRIED // (len(row.parts) * len(rows)))
    below = range(task.live - 1, max(task.live - reach, 1) - 1, -1)
    above = range(task.live + 1, task.live + reach + 1)
    found = (
        next((n for n in side if any(_fits(each, task, n) for each in rows)), None)
        for side in (below, above)
    )
    return tuple(count for count in found if count is not None)


def _largest_repeat(row: Row, task: _Task) -> int:
    """The most stitches that one time of a repeat of ``row`` uses, as far as that is fixed."""
    bodies = (part.parts for part in row.parts if isinstance(part, Repeat))
    try:
        return max((once.consumed for body in bodies if (once := _once(task, body))), default=0)
    except RowMismatch:  # a bad number, which is not what is being reported
        return 0


def _fits(row: Row, task: _Task, live: int) -> bool:
    try:
        _count(row, replace(task, live=live, reach=live))
    except RowMismatch:
        return False
    return True
