"""Stitch patterns and charts as rows that other rows are worked in: what each uses and makes.

Every row is kept in the order in which a right-side row works it, whichever side it is written for.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property

from bindoff.craft.book import Side
from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.english import how_many
from bindoff.plan.chartproof import Cells, lines_of, turning
from bindoff.records import Record, replace
from bindoff.source.bundle import Source
from bindoff.source.chart import NO_STITCH
from bindoff.source.grid import Grid
from bindoff.source.rowlang.read import Words, read_row
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import (
    Fill,
    Group,
    IntoOne,
    MoreTimes,
    Part,
    Repeat,
    Row,
    Target,
    ToEnd,
    ToLast,
    Work,
)
from bindoff.source.rowlang.vocabulary import PatternNames
from bindoff.source.stitchpattern import StitchPattern

MOST = 1000
"""Stitches of a repeat at the most, that of all rows together."""


class Atom(Record):
    """Stitches that are not parted: one, or those of which a later one is passed over others."""

    parts: tuple[Part, ...]
    uses: int
    makes: int


Atoms = tuple[Atom, ...]


class PatternRow(Record):
    """A row: what is worked at its right edge, again and again, and at its left edge.

    ``wrong_side`` is the side that it is worked on, ``None`` where that does not matter, and
    ``of_wrong`` says that its stitches are named as a wrong-side row works them. ``levels`` has,
    for each stitch used in the repeat, the number of the atom before which as many stitches are
    made as used, or -1.
    """

    first: Atoms
    repeat: Atoms
    last: Atoms
    wrong_side: bool | None
    of_wrong: bool = False
    forth: tuple[Part, ...] = ()
    back: tuple[Part, ...] = ()
    levels: tuple[int, ...] = ()

    @property
    def uses(self) -> int:
        """Live stitches that one repeat uses."""
        return _uses(self.repeat)

    @property
    def edges(self) -> int:
        """Live stitches used beside the repeats."""
        return _uses(self.first) + _uses(self.last)

    def makes(self, times: int) -> int:
        """Stitches made with so many repeats."""
        return _makes(self.first) + times * _makes(self.repeat) + _makes(self.last)

    def times(self, stitches: int) -> int | None:
        """How many repeats fit ``stitches`` exactly; ``None`` where no whole number does."""
        rest = stitches - self.edges
        if not self.repeat:
            return 0 if rest == 0 else None
        times, over = divmod(rest, self.uses)
        return times if not over and times > 0 else None


class StitchRows(Record):
    """A stitch pattern or a chart, in rows that are turned or in rounds.

    It is ``aligned`` where every stitch stands in a column of its own, so that it can begin and end
    at any of them; others have edges, or rows of different counts, and are worked whole.
    ``multiple`` and ``plus`` are the stitches it fits; ``multiple`` is 0 for a panel. ``flat`` says
    whether it was written in rows that are turned, ``texts`` are its rows as written, and ``grid``
    is that of a chart.
    """

    key: str
    title: str
    chart: bool
    rows: tuple[PatternRow, ...]
    aligned: bool
    multiple: int
    plus: int
    flat: bool
    texts: tuple[Row, ...] = ()
    grid: Grid | None = None

    def fits(self, stitches: int) -> bool:
        """Whether it can be worked over so many stitches from edge to edge."""
        if self.aligned:
            return stitches > 0 and stitches % self.multiple == self.plus % self.multiple
        return self.rows[0].times(stitches) is not None

    @property
    def needs(self) -> str:
        """``a multiple of 8 stitches plus 5``, ``12 stitches``."""
        if not self.multiple:
            return how_many(self.plus, "stitch")
        if self.multiple == 1 and not self.plus:
            return "any number of stitches"
        plus = f" plus {self.plus}" if self.plus else ""
        return f"a multiple of {how_many(self.multiple, 'stitch')}{plus}"

    def nearest(self, stitches: int) -> tuple[int, ...]:
        """The counts below and above ``stitches`` that it fits."""
        if not self.multiple:
            return (self.plus,)
        least = self.plus or self.multiple
        over = (stitches - self.plus) % self.multiple
        return tuple(
            count for count in (stitches - over, stitches - over + self.multiple) if count >= least
        )


def cells(row: PatternRow, column: int, count: int, *, backwards: bool) -> tuple[Part, ...] | None:
    """What ``row`` works over ``count`` stitches from the pattern's ``column`` on, in the order of
    work; ``None`` where it would begin or end inside a stitch."""
    width = row.uses
    start = (column - _uses(row.first)) % width
    end = (start + count) % width
    first, last = row.levels[start], row.levels[end]
    if first < 0 or last < 0:
        return None
    if start + count < width:
        return _parts(row.repeat[first:last], backwards=backwards)
    times, _ = divmod(start + count, width)
    head = row.repeat[first:] if start else ()
    whole = times - (1 if start else 0)
    middle = (Group(row.back if backwards else row.forth, whole),) if whole else ()
    ends = [
        _parts(head, backwards=backwards),
        middle,
        _parts(row.repeat[:last], backwards=backwards),
    ]
    return tuple(part for each in (ends[::-1] if backwards else ends) for part in each)


def whole(row: PatternRow, times: int, *, backwards: bool) -> tuple[Part, ...]:
    """All of ``row`` with so many repeats, in the order of work."""
    first, last = (_parts(each, backwards=backwards) for each in (row.first, row.last))
    middle = (Group(row.back if backwards else row.forth, times),) if times else ()
    return (*last, *middle, *first) if backwards else (*first, *middle, *last)


def _parts(atoms: Iterable[Atom], *, backwards: bool) -> tuple[Part, ...]:
    found = tuple(atoms)
    return tuple(part for atom in (found[::-1] if backwards else found) for part in atom.parts)


def _uses(atoms: Iterable[Atom]) -> int:
    return sum(atom.uses for atom in atoms)


def _makes(atoms: Iterable[Atom]) -> int:
    return sum(atom.makes for atom in atoms)


def as_worked(rows: StitchRows, book: StitchBook, *, flat: bool) -> tuple[Row, ...]:
    """The rows of a stitch pattern as they are worked in rows that are turned, or in rounds.

    They are as written where that is how they were written; else each stitch is the one that shows
    on the right side what was written.
    """
    if rows.flat == flat:
        return rows.texts
    number = 2 * len(rows.rows) if flat and len(rows.rows) % 2 else len(rows.rows)
    return tuple(
        _as_worked(rows.rows[each % len(rows.rows)], book, wrong=flat and each % 2 == 1)
        for each in range(number)
    )


def _as_worked(row: PatternRow, book: StitchBook, *, wrong: bool) -> Row:
    first, repeat, last = (
        _runs(_turned(part, book, row.of_wrong, wrong) for part in _parts(each, backwards=wrong))
        for each in (row.first, row.repeat, row.last)
    )
    if wrong:
        first, last = last, first
    rest = _uses(row.first if wrong else row.last)
    goal = ToLast(rest) if rest else ToEnd()
    match repeat:
        case ():
            return Row((*first, *last))
        case (Work(stitch, _, how, yarn),):
            return Row((*first, Fill(stitch, goal, how, yarn), *last))
        case _:
            return Row((*first, Repeat(repeat, goal), *last))


def _turned(part: Part, book: StitchBook, of_wrong: bool, wrong: bool) -> Part:
    """A stitch named for one side, as the other side works it."""
    if isinstance(part, IntoOne):
        inner = [_turned(each, book, of_wrong, wrong) for each in part.parts]
        return IntoOne(tuple(each for each in inner if isinstance(each, Work)))
    if not isinstance(part, Work) or of_wrong == wrong:
        return part
    side = Side.WRONG if wrong else Side.RIGHT
    shown = book.showing(book.worked(part.stitch, part.how), side)
    return Work(shown.base or shown.id, part.times, shown.how, part.yarn)


def _runs(parts: Iterable[Part]) -> tuple[Part, ...]:
    """``parts``, the same stitch several times running as one with its number."""
    found: list[Part] = []
    for part in parts:
        last = found[-1] if found else None
        alike = isinstance(part, Work) and isinstance(last, Work) and replace(last, times=1) == part
        if alike and isinstance(last, Work) and isinstance(last.times, int):
            found[-1] = replace(last, times=last.times + 1)
        else:
            found.append(part)
    return tuple(found)


# ---------------------------------------------------------------- the patterns of a source


class Patterns:
    """The stitch patterns and charts of a source, each read when it is first worked in."""

    def __init__(self, source: Source, book: StitchBook) -> None:
        self._source, self._book = source, book
        self._read: dict[tuple[str, bool, bool], StitchRows] = {}

    @cached_property
    def names(self) -> PatternNames:
        """What rows may call them."""
        pattern = self._source.pattern
        stitch = {
            name.lower(): key
            for key, each in pattern.stitch_patterns.items()
            for name in (each.title or key, key)
        }
        chart = {
            name.lower(): key for key, each in pattern.charts.items() for name in (each.title, key)
        }
        return PatternNames(stitch, chart)

    def way(self, key: str) -> bool | None:
        """Whether a stitch pattern says that it is written in rows; ``None`` if nothing is said."""
        said = self._source.pattern.stitch_patterns[key].worked
        return None if said is None else said == "flat"

    def rows(self, key: str, *, chart: bool, flat: bool) -> StitchRows:
        """The rows of a pattern where the work is ``flat`` or in the round.

        Raises ``PatternError`` where its rows do not make a pattern.
        """
        known = self._read.get((key, chart, flat))
        if known is None:
            known = self._charted(key, flat) if chart else self._written(key, flat)
            self._read[key, chart, flat] = known
        return known

    def _written(self, key: str, flat: bool) -> StitchRows:
        spec = self._source.pattern.stitch_patterns[key]
        said = self.way(key)
        written_flat = flat if said is None else said
        place = spec.place.of("rows")
        texts: list[Row] = []
        parted: list[tuple[Atoms, Atoms, Atoms]] = []
        findings: list[Diagnostic] = []
        for each in place.entries:
            try:
                row = read_row(
                    each.text,
                    each.text_span,
                    self._book,
                    tuple(self._source.pattern.yarns),
                    sizes=len(self._source.sizes),
                    words=Words(self._source.pattern.vocabulary),
                    spelled=self._source.pattern.abbreviations == "as written",
                )
                parted.append(_parted(row, self._book))
                texts.append(row)
            except PatternError as error:
                findings += error.findings
        if findings:
            raise PatternError(findings)
        if written_flat and len(texts) % 2:  # the second time each is worked on the other side
            parted *= 2
        starts_wrong = spec.first_row == "wrong side"
        sided = []
        for number, row_parts in enumerate(parted):
            wrong = written_flat and (number % 2 == 1) != starts_wrong
            first, repeat, last = row_parts
            if wrong:
                first, repeat, last = last[::-1], repeat[::-1], first[::-1]
            side = wrong if written_flat and flat else None
            made_row = _row(first, repeat, last, side, of_wrong=wrong)
            if written_flat != flat:
                place_of_row = texts[number % len(texts)].span
                _refuse_unturned(made_row, spec.title or _capital(key), place_of_row)
            sided.append(made_row)
        spans = [row.span or place.span for row in texts]
        made = _assembled(key, spec.title or _capital(key), False, sided, written_flat, spans)
        _as_said(spec, made)
        return replace(made, texts=tuple(texts))

    def _charted(self, key: str, flat: bool) -> StitchRows:
        chart, grids = self._source.pattern.charts[key], self._source.grids[key]
        grid = grids[0]
        if any(each != grid for each in grids):
            raise fail(
                "pattern.row",
                f"the chart `{key}` has a grid for each size, and rows are worked in it",
                "Work it in a step `chart:`, with what stands beside it in `at:`",
                chart.place.key_span,
            )
        lines = lines_of(grid, chart, self._source.pattern.yarns, self._book)
        if grid.twin or turning(lines):
            what = "two repeats in a row" if grid.twin else "rows that turn early"
            raise fail(
                "pattern.row",
                f"the chart `{key}` has {what}, and rows are worked in it",
                "Work it in a step `chart:`, with what stands beside it in `at:`",
                chart.place.key_span,
            )
        starts_wrong = chart.first_row == "wrong side"
        rows: list[PatternRow] = []
        between = self._between(key, flat) if grid.every > 1 else None
        for number, line in enumerate(lines):
            wrong = flat and grid.every == 1 and (number % 2 == 1) != starts_wrong
            drawn = _row(
                _of_cells(line.before),
                _of_cells(line.repeat),
                _of_cells(line.after),
                wrong if flat else None,
            )
            if between is None:
                rows.append(drawn)
            else:
                rows += [between, drawn] if starts_wrong else [drawn, between]
        place = chart.place.key_span
        return replace(_assembled(key, chart.title, True, rows, flat, [place]), grid=grid)

    def _between(self, key: str, flat: bool) -> PatternRow:
        """The row between two that a chart draws."""
        chart = self._source.pattern.charts[key]
        side = True if flat else None
        if chart.other_rows is None:
            return _row((), (Atom((Work("k"),), 1, 1),), (), side)
        place = chart.place.of("other rows")
        row = read_row(place.text, place.text_span, self._book, tuple(self._source.pattern.yarns))
        first, repeat, last = _parted(row, self._book)
        if flat:
            first, repeat, last = last[::-1], repeat[::-1], first[::-1]
        return _row(first, repeat, last, side)


def _of_cells(cells: Cells) -> Atoms:
    """The stitches of a chart's row, from right to left."""
    works = [
        (stitch, Work(stitch.id, yarn=yarn))
        for stitch, yarn in reversed(cells)
        if stitch.id != NO_STITCH
    ]
    return tuple(Atom((work,), stitch.consumes, stitch.produces) for stitch, work in works)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _as_said(spec: StitchPattern, made: StitchRows) -> None:
    """Raises a ``PatternError`` where ``multiple`` or ``plus`` are not those of the rows."""
    for name, said, found in (
        ("multiple", spec.multiple, made.multiple),
        ("plus", spec.plus, made.plus),
    ):
        alike = said is None or said == found
        if name == "plus" and said is not None and made.aligned:
            alike = said % made.multiple == found % made.multiple
        if not alike:
            raise fail(
                "pattern.multiple",
                f"`{name}: {said}` is said of a stitch pattern whose rows fit {made.needs}",
                f"Correct the rows, or write `{name}: {found}`; it may be left out",
                spec.place.of(name).span,
            )


# ---------------------------------------------------------------- rows taken apart


def _parted(row: Row, book: StitchBook) -> tuple[Atoms, Atoms, Atoms]:
    """What ``row`` works before its repeat, in it and after it, in the order of work."""
    first: list[Atom] = []
    repeat: Atoms = ()
    last: list[Atom] = []
    rest = 0
    for part in row.parts:
        goal = part.to if isinstance(part, Fill) else None
        if isinstance(part, Repeat) and isinstance(part.until, Target):
            goal = part.until
        if goal is None:
            (last if repeat else first).extend(_atoms(part, book))
            continue
        kept = goal.count if isinstance(goal, ToLast) else 0
        if repeat or not isinstance(goal, ToEnd | ToLast) or not isinstance(kept, int):
            raise _no_pattern_row(part)
        rest = kept
        body: Iterable[Part] = part.parts if isinstance(part, Repeat) else ()
        if isinstance(part, Fill):
            body = (Work(part.stitch, 1, part.how, part.yarn),)
        repeat = _joined([atom for each in body for atom in _atoms(each, book)])
        if not _uses(repeat):
            raise _no_pattern_row(part)
    ends = _joined(last)
    if repeat and _uses(ends) != rest:
        raise fail(
            "pattern.row",
            f"the repeat leaves {how_many(rest, 'stitch')}, and {_uses(ends)} are worked after it",
            "Let the repeat go to as many stitches as are worked after it",
            row.span,
        )
    return _joined(first), repeat, ends


def _atoms(part: Part, book: StitchBook) -> Iterator[Atom]:
    """The stitches of a part in a fixed number, one by one."""
    match part:
        case Work(stitch, int(times), how, yarn):
            entry = book[stitch]
            one = Atom((Work(stitch, 1, how, yarn),), entry.consumes, entry.produces)
            yield from (one,) * _few(times, part)
        case Group(inner, int(times)) | Repeat(inner, MoreTimes(int(times))):
            once = [atom for each in inner for atom in _atoms(each, book)]
            more = 1 if isinstance(part, Repeat) else 0
            _few((times + more) * len(once), part)
            yield from once * (times + more)
        case IntoOne(works):
            makes = 0
            for work in works:
                if not isinstance(work.times, int):
                    raise _no_pattern_row(part)
                makes += book[work.stitch].produces * work.times
            yield Atom((IntoOne(works),), 1, makes)
        case _:
            raise _no_pattern_row(part)


def _few(count: int, part: Part) -> int:
    if count > MOST:
        raise _no_pattern_row(part)
    return count


def _joined(atoms: Sequence[Atom]) -> Atoms:
    """``atoms``, one that is passed over others as one with these."""
    found: list[Atom] = []
    for atom in atoms:
        passed = atom.makes < 0
        while passed and atom.makes < 1 and found:
            before = found.pop()
            atom = Atom(
                (*before.parts, *atom.parts), before.uses + atom.uses, before.makes + atom.makes
            )
        found.append(atom)
    return tuple(found)


def _no_pattern_row(part: Part) -> PatternError:
    return fail(
        "pattern.row",
        "a row of a stitch pattern has stitches in a fixed number, and at most one repeat to the "
        "end or to the last stitches",
        "Write it so, as in `k2, *yo, k2tog; repeat from * to last 2 stitches, k2`",
        part.span,
    )


def _refuse_unturned(row: PatternRow, title: str, span: Span | None) -> None:
    """Raises a ``PatternError`` at stitches that nobody can name for the other side."""
    if any(len(atom.parts) > 1 for atom in (*row.first, *row.repeat, *row.last)):
        raise fail(
            "pattern.row",
            f"{title} is written for rows that are turned and worked in rounds, or the other way "
            "round, and a stitch that is passed over others has no partner on the other side",
            "Name the whole decrease, such as sk2p or ssk, or write the rows as they are worked",
            span,
        )


def _row(
    first: Atoms,
    repeat: Atoms,
    last: Atoms,
    wrong_side: bool | None,
    *,
    of_wrong: bool = False,
) -> PatternRow:
    levels = [-1] * (_uses(repeat) or 1)
    used = made = 0
    for number, atom in enumerate(repeat):
        if used == made and used < len(levels):
            levels[used] = number
        used, made = used + atom.uses, made + atom.makes
    if not repeat:
        levels = []
    return PatternRow(
        first,
        repeat,
        last,
        wrong_side,
        of_wrong,
        _parts(repeat, backwards=False),
        _parts(repeat, backwards=True),
        tuple(levels),
    )


# ---------------------------------------------------------------- rows put together


def _assembled(
    key: str, title: str, chart: bool, rows: Sequence[PatternRow], flat: bool, spans: Sequence[Span]
) -> StitchRows:
    """What ``rows`` make; raises ``PatternError`` where they don't follow each other."""
    panel = next((row for row in rows if not row.repeat), None)
    if panel is not None:
        rows = [_over(row, panel.edges) or row for row in rows]
        if any(row.repeat for row in rows):
            raise _unmet(spans, next(n for n, row in enumerate(rows) if row.repeat), panel.edges)
        _meet(rows, spans)
        return StitchRows(key, title, chart, tuple(rows), False, 0, rows[0].edges, flat)
    width = math.lcm(*(row.uses for row in rows))
    if width > MOST:
        raise fail(
            "pattern.row",
            f"the repeats of its rows meet only after {width:,} stitches",
            "Check how many stitches the repeat of each row has",
            spans[0],
        )
    if all(map(_modular, rows)):
        plus = next((n for n in range(width) if all(_fits(row, n) for row in rows)), None)
        if plus is None:
            raise fail(
                "pattern.row",
                "no number of stitches fits all rows of this pattern",
                "Check the stitches before and after the repeat of each row",
                spans[0],
            )
        return StitchRows(key, title, chart, tuple(rows), True, width, plus, flat)
    rows = _levelled(rows)
    _meet(rows, spans)
    return StitchRows(key, title, chart, tuple(rows), False, rows[0].uses, rows[0].edges, flat)


def _fits(row: PatternRow, stitches: int) -> bool:
    return (stitches - row.edges) % row.uses == 0


def _modular(row: PatternRow) -> bool:
    """Whether its edges go on with the repeat, and nothing changes the count."""
    long = row.repeat * (max(len(row.first), len(row.last)) // len(row.repeat) + 1)
    return (
        all(_uses(each) == _makes(each) for each in (row.first, row.repeat, row.last))
        and (not row.first or long[-len(row.first) :] == row.first)
        and long[: len(row.last)] == row.last
    )


def _over(row: PatternRow, stitches: int) -> PatternRow | None:
    """``row`` worked over so many stitches, as a row without a repeat."""
    if not row.repeat:
        return row
    times = row.times(stitches)
    if times is None:
        return None
    return _row(
        (*row.first, *row.repeat * times, *row.last),
        (),
        (),
        row.wrong_side,
        of_wrong=row.of_wrong,
    )


def _levelled(rows: Sequence[PatternRow]) -> list[PatternRow]:
    """``rows``, those of one stitch throughout with the edges and repeat of the row before."""
    found = list(rows)
    for turn in range(2 * len(found)):
        here, before = turn % len(found), (turn - 1) % len(found)
        row, model = found[here], found[before]
        if len(row.repeat) > 1 or row.repeat[0].uses != 1 or row.repeat[0].makes != 1:
            continue
        more = [
            _makes(edge) - _uses(own)
            for edge, own in ((model.first, row.first), (model.last, row.last))
        ]
        times = _makes(model.repeat)
        if min(more) >= 0 and 0 < times <= MOST:
            found[here] = _row(
                (*row.first, *row.repeat * more[0]),
                row.repeat * times,
                (*row.repeat * more[1], *row.last),
                row.wrong_side,
                of_wrong=row.of_wrong,
            )
    return found


def _meet(rows: Sequence[PatternRow], spans: Sequence[Span]) -> None:
    """Raises a ``PatternError`` at the first row that doesn't use what the row before it makes."""
    for number, row in enumerate(rows):
        before = rows[number - 1]
        edges = _makes(before.first) + _makes(before.last)
        if _makes(before.repeat) != row.uses or edges != row.edges:
            raise _unmet(spans, number, before.makes(1), row.uses + row.edges)


def _unmet(spans: Sequence[Span], number: int, made: int, used: int | None = None) -> PatternError:
    uses = "doesn't fit them" if used is None else f"uses {used}"
    return fail(
        "pattern.row",
        f"the row before this one makes {how_many(made, 'stitch')} in its edges and one repeat, "
        f"and this one {uses}",
        "Every row of a stitch pattern uses what the row before it makes, row 1 what the last one "
        "makes",
        spans[number % len(spans)],
    )
