"""Where stitch patterns stand on the needles, and how a row that is worked in them goes on.

Places are counted on all live stitches from the right-side edge or the start of the round, so they
do not hang on which way the work faces.
"""

from collections.abc import Iterator, Sequence
from typing import NoReturn

from bindoff.plan.rowcount import Break, Counted, LiveStitches, Mismatch, RowMismatch, Trouble
from bindoff.plan.stitchpatterns import PatternRow, Patterns, StitchRows, cells, whole
from bindoff.records import Record, replace
from bindoff.source.rowlang.syntax import InPattern, Part, Way


class Zone(Record):
    """Stitches ``start`` to ``end`` that are worked in a pattern.

    ``column`` is the column of the pattern at ``start``, ``row`` how many rows of it are worked
    since it was established, ``times`` how many repeats a pattern has that is worked whole. ``at``
    is the row of the piece in which it was worked last.
    """

    rows: StitchRows
    start: int
    end: int
    column: int = 0
    row: int = 0
    times: int = 0
    at: int = 0

    def called(self, part: InPattern) -> bool:
        """Whether ``part`` means it, by its name or without one."""
        return not part.name or (self.rows.key, self.rows.chart) == (part.name, part.chart)

    def column_at(self, place: int) -> int:
        """The column of the pattern at a place."""
        return self.column + place - self.start


class Established(Record):
    """The patterns on the needles with all ``live`` stitches."""

    zones: tuple[Zone, ...] = ()
    live: int = 0


NOTHING = Established()


class PatternUse(Record):
    """A pattern that a row was worked in: ``begun`` with its first row there; ``times`` repeats."""

    rows: StitchRows
    begun: bool
    times: int


class _Portion(Record):
    """What a row works of one zone, from place to place; ``new`` where it begins there."""

    zone: Zone
    start: int
    end: int
    new: bool


class Knitter(Record):
    """Works a row in the patterns that stand on the needles, as the ``Layer`` of its count.

    ``facing_wrong`` says which side faces the knitter, ``flat`` that rows are turned at their ends.
    """

    patterns: Patterns
    zones: tuple[Zone, ...]
    needle: LiveStitches
    facing_wrong: bool
    flat: bool

    @property
    def live(self) -> int:
        """All stitches on the needles."""
        return self.needle.left + self.needle.right

    def place(self, used: int) -> int:
        """The place of the stitch before which so many are used."""
        behind = self.needle.right + used
        return self.live - behind if self.facing_wrong else behind

    def places(self, first: int, count: int) -> tuple[int, int]:
        """From where to where ``count`` stitches from the row's stitch ``first`` on lie."""
        ends = self.place(first), self.place(first + count)
        return min(ends), max(ends)

    # ------------------------------------------------------------ what a row works

    def width(self, part: InPattern, first: int) -> int:
        """The stitches of a chart worked once, or of the zone of it that lies here."""
        here = self.place(first)
        for zone in self.zones:
            if zone.called(part) and here == (zone.end if self.facing_wrong else zone.start):
                return zone.end - zone.start
        if not part.name:
            _misfit(Trouble.NOT_ESTABLISHED)
        row = self.patterns.rows(part.name, chart=part.chart, flat=self.flat).rows[0]
        return row.edges + row.uses

    def parts(self, part: InPattern, first: int, count: int) -> tuple[Part, ...]:
        """The stitches of ``part`` over ``count`` stitches; raises ``RowMismatch``."""
        found: list[Part] = []
        for each in self.portions(part, *self.places(first, count)):
            found += self._laid(each)
        return tuple(found)

    def portions(self, part: InPattern, start: int, end: int) -> list[_Portion]:
        """The zones that a part is worked in from ``start`` to ``end``, in the order of work."""
        met = [z for z in self.zones if z.called(part) and z.start < end and z.end > start]
        if not part.name:
            self._refuse_others(met, start, end)
        if not met:
            rows = self.patterns.rows(part.name, chart=part.chart, flat=self.flat)
            return [_Portion(self._new(rows, start, end), start, end, True)]
        bounds = [start, *(zone.start for zone in met[1:]), end]
        found = [_Portion(zone, bounds[n], bounds[n + 1], False) for n, zone in enumerate(met)]
        return found[::-1] if self.facing_wrong else found

    def _refuse_others(self, met: Sequence[Zone], start: int, end: int) -> None:
        """Raises where stitches that are worked in pattern belong to none."""
        if not met:
            _misfit(
                Trouble.NOT_ESTABLISHED,
                "no stitch pattern is established on these stitches",
                "Name it, as in `in seed to end`; a step that works none of its rows in a pattern "
                "ends it",
            )
        at = start
        for zone in (*met, None):
            limit = end if zone is None else zone.start
            if limit > at:
                count = limit - at
                which = f"{count} of these stitches" if count > 1 else "1 of these stitches"
                _misfit(
                    Trouble.NOT_ESTABLISHED,
                    f"{which} belong{'s' if count == 1 else ''} to no pattern",
                    "Work them as stitches beside it, as in `k2, in pattern to last 2 stitches, "
                    "k2`, or name the pattern that takes them in: `in seed`",
                )
            at = max(at, zone.end if zone else end)

    def _new(self, rows: StitchRows, start: int, end: int) -> Zone:
        """A pattern that begins here."""
        count = end - start
        if not rows.fits(count):
            near = " or ".join(map(str, rows.nearest(count)))
            _misfit(
                Trouble.PATTERN_FIT,
                f"{rows.title} needs {rows.needs}, and begins on {count}",
                f"It fits {near}: change the count before it, or the stitches beside it",
            )
        times = 0 if rows.aligned else rows.rows[0].times(count) or 0
        return Zone(rows, start, end, times=times)

    def _row(self, zone: Zone) -> PatternRow:
        """The next row of a zone."""
        rows = zone.rows
        if not rows.chart and self.patterns.way(rows.key) is None and rows.flat != self.flat:
            _misfit(
                Trouble.PATTERN_SIDE,
                f"{rows.title} was begun in {'rows' if rows.flat else 'rounds'}, and the work goes "
                f"on in {'rows' if self.flat else 'rounds'}",
                "Say how its rows are written: `worked: flat` or `worked: round`",
            )
        if rows.chart or self.patterns.way(rows.key) is not None:
            rows = self.patterns.rows(rows.key, chart=rows.chart, flat=self.flat)
        number = zone.row % len(rows.rows)
        row = rows.rows[number]
        if self.flat and row.wrong_side is not None and row.wrong_side != self.facing_wrong:
            written, here = ("wrong", "right") if row.wrong_side else ("right", "wrong")
            _misfit(
                Trouble.PATTERN_SIDE,
                f"row {number + 1} of {rows.title} is a row of the {written} side, and this is one "
                f"of the {here} side",
                "Work one row more or less before it, or say `first row:` of the pattern",
            )
        return row

    def _laid(self, each: _Portion) -> tuple[Part, ...]:
        zone, count = each.zone, each.end - each.start
        row, rows = self._row(zone), zone.rows
        if rows.aligned:
            column = zone.column_at(each.start)
            found = cells(row, column, count, backwards=self.facing_wrong)
            if found is None:
                _misfit(
                    Trouble.PATTERN_CUT,
                    f"row {zone.row % len(rows.rows) + 1} of {rows.title} would begin or end "
                    "inside a stitch",
                    "Work some stitches more or fewer beside it, so that it begins and ends "
                    "between two of its stitches",
                )
            return found
        if (each.start, each.end) != (zone.start, zone.end) or row.times(count) != zone.times:
            _misfit(
                Trouble.PATTERN_CUT,
                f"{rows.title} is worked over {zone.end - zone.start} stitches here, and this row "
                f"works it over {count}",
                "A pattern with edges, or with rows of different counts, is worked whole: shape "
                "outside it",
            )
        return whole(row, zone.times, backwards=self.facing_wrong)

    # ------------------------------------------------------------ what a row leaves

    def uses(self, counted: Counted) -> Iterator[PatternUse]:
        """The patterns that the row was worked in."""
        for stretch in counted.stretches:
            for each in self.portions(stretch.part, *self._over(stretch.used)):
                rows = each.zone.rows
                if rows.aligned:
                    times = max(1, (each.end - each.start) // rows.multiple)
                else:
                    times = max(1, each.zone.times)
                yield PatternUse(rows, each.new, times)

    def _over(self, used: tuple[int, int]) -> tuple[int, int]:
        return self.places(used[0], used[1] - used[0])

    def after(self, counted: Counted, number: int) -> Established:
        """The patterns after the row, which is that of this ``number`` in the piece."""
        live = self.needle.right + counted.live
        if counted.crossed is not None or counted.way is Way.NEW_START:
            return Established((), live)
        worked = [zone for zone in self._worked(counted, number) if zone.end > zone.start]
        zones = [*self._unworked(counted), *worked]
        return Established(tuple(sorted(zones, key=lambda zone: zone.start)), live)

    def _unworked(self, counted: Counted) -> Iterator[Zone]:
        """The zones, or what of them the row did not reach."""
        begin, end = self._over((0, counted.consumed))
        grown = counted.produced - counted.consumed
        for zone in self.zones:
            if zone.start < begin:
                yield replace(zone, end=min(zone.end, begin))
            if zone.end > end:
                start = max(zone.start, end)
                yield replace(
                    zone,
                    start=start + grown,
                    end=zone.end + grown,
                    column=zone.column_at(start),
                )

    def _worked(self, counted: Counted, number: int) -> Iterator[Zone]:
        """The zones as the row leaves them."""
        begin, end = self._over((0, counted.consumed))
        portions = self._made(counted)
        for zone in (*self.zones, *(each.zone for each, _, _ in portions if each.new)):
            own = [(each, a, b) for each, a, b in portions if each.zone is zone]
            start, stop = max(zone.start, begin), min(zone.end, end)
            if not own and stop > start:
                yield from self._passed(replace(zone, start=start, end=stop), zone, counted)
            if not own:
                continue
            low, high = self._mapped(counted, start, stop)
            others = [(a, b) for each, a, b in portions if each.zone is not zone]
            low = max([low, *(b for _, b in others if b <= own[0][1])])
            high = min([high, *(a for a, _ in others if a >= own[-1][2])])
            found: list[Zone] = []
            for each, a, b in own:
                column = each.zone.column_at(each.start)
                made = replace(zone, start=a, end=b, column=column, row=zone.row + 1, at=number)
                last = found[-1] if found else None
                apart = last and any(last.end <= x and y <= a for x, y in others)
                steady = last and made.column - last.column == made.start - last.start
                if last is not None and steady and not apart:
                    found[-1] = replace(last, end=b)
                    continue
                if (
                    last is not None
                    and not apart
                    and (bound := self._marker_between(counted, last.end, a))
                ):
                    found[-1] = replace(last, end=bound)
                    made = _grown(made, bound, b)
                found.append(made)
            found[0] = _grown(found[0], min(low, found[0].start), found[0].end)
            found[-1] = replace(found[-1], end=max(high, found[-1].end))
            if not zone.rows.aligned:
                found = [replace(own_zone, column=0) for own_zone in found]
                if len(own) == 1:
                    (_, a, b) = own[0]
                    found = [replace(found[0], start=a, end=b)]
            yield from found

    def _passed(self, part: Zone, zone: Zone, counted: Counted) -> Iterator[Zone]:
        """A zone over which the row goes without being worked in it: it stays if every stitch of it
        is worked into one."""
        used = sorted((self._used(part.start), self._used(part.end)))
        over = [b for b in counted.breaks if b.used[0] < used[1] and b.used[1] > used[0]]
        inside = [
            b for b in counted.breaks if used[0] < b.used[0] == b.used[1] < used[1] and _adds(b)
        ]
        covered = any(
            stretch.used[0] < used[1] and stretch.used[1] > used[0] for stretch in counted.stretches
        )
        if covered or inside or not all(each.plain for each in over):
            return
        low, high = self._mapped(counted, part.start, part.end)
        if high - low == part.end - part.start:
            yield replace(
                zone, start=low, end=high, column=zone.column_at(part.start), row=zone.row + 1
            )

    def _made(self, counted: Counted) -> list[tuple[_Portion, int, int]]:
        """Each portion of the row, and from where to where its stitches lie after it; in order of
        place."""
        found: list[tuple[_Portion, int, int]] = []
        live = self.needle.right + counted.live
        for stretch in counted.stretches:
            made = self.needle.right + stretch.made[0]
            for each in self.portions(stretch.part, *self._over(stretch.used)):
                count = each.end - each.start
                if not each.zone.rows.aligned:
                    count = self._row(each.zone).makes(each.zone.times)
                ends = (made, made + count)
                if self.facing_wrong:
                    ends = (live - made - count, live - made)
                found.append((each, *ends))
                made += count
        return sorted(found, key=lambda each: each[1])

    def _used(self, place: int) -> int:
        """How many stitches of the row are used before a place."""
        behind = self.live - place if self.facing_wrong else place
        return behind - self.needle.right

    def _mapped(self, counted: Counted, start: int, end: int) -> tuple[int, int]:
        """Where the stitches between two places lie after the row, with those added at its ends."""
        first, last = sorted((self._used(start), self._used(end)))
        low, high = _low(counted.breaks, first), _high(counted.breaks, last)
        live = self.needle.right + counted.live
        a, b = self.needle.right + low, self.needle.right + high
        return (live - b, live - a) if self.facing_wrong else (a, b)

    def _marker_between(self, counted: Counted, start: int, end: int) -> int | None:
        """The place of a marker between two places after the row."""
        live = self.needle.right + counted.live
        for made in counted.markers[: counted.passed]:
            place = self.needle.right + made
            place = live - place if self.facing_wrong else place
            if start <= place <= end:
                return place
        return None


def _adds(each: Break) -> bool:
    return each.made[0] != each.made[1]


def _grown(zone: Zone, start: int, end: int) -> Zone:
    """``zone`` from ``start`` on, its columns where they are."""
    return replace(zone, start=start, end=end, column=zone.column_at(start))


def _low(breaks: Sequence[Break], used: int) -> int:
    """The first stitch made when so many are used."""
    for each in breaks:
        if each.used[0] == used:
            return each.made[0]
        if each.used[0] < used < each.used[1]:
            level = each.plain or each.used[1] - each.used[0] == each.made[1] - each.made[0]
            return each.made[0] + used - each.used[0] if level else each.made[1]
    return breaks[-1].made[1] if breaks else 0


def _high(breaks: Sequence[Break], used: int) -> int:
    """The stitches made when so many are used, with those that are added there."""
    for each in reversed(breaks):
        if each.used[1] == used:
            return each.made[1]
        if each.used[0] < used < each.used[1]:
            level = each.plain or each.used[1] - each.used[0] == each.made[1] - each.made[0]
            return each.made[0] + used - each.used[0] if level else each.made[0]
    return 0


def _misfit(trouble: Trouble, what: str = "", help: str = "") -> NoReturn:
    raise RowMismatch(Mismatch(trouble, 0, 0, told=(what, help)))
