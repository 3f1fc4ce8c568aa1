"""The chart in words: rows by run lengths in the direction they are worked, nothing lost."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import groupby, repeat

from bindoff.document.charts.spec import ChartKey, ChartSpec, Direction
from bindoff.document.tree import Blocks, Inlines, ItemList, ListItem, Paragraph, Strong, Text
from bindoff.english import how_many, listed, plural
from bindoff.records import Record
from bindoff.remembered import once_each

YARN_BAND = "yarn"
"""The label of a band that shows the yarn in which each line is worked, all others slipped."""
_WIDE = 60
"""Stitches of a chart from which written rows say where each run lies in it: nobody finds a place
among more by counting."""
_BRACKET_COST = 2  # runs: brackets must save more than this to be worth reading
_LONGEST_BRACKET = 16  # runs: a reader loses the start of a longer one


class Run(Record):
    """``count`` neighbouring cells of one ``key``."""

    key: str
    count: int


class RepeatedRuns(Record):
    """Some runs, worked ``times`` times over; ``boxed`` is the number, in working order, of the
    repeat box they stand in, which the piece works as often as it fits; 0 for none."""

    runs: tuple[Run, ...]
    times: int = 1
    boxed: int = 0


class WrittenRow(Record):
    """One row, or consecutive rows ``first`` to ``last`` (printed numbers) that are worked alike.

    ``parts`` follow the ``direction`` in which the first of them is worked, on the right side or
    not; ``base`` is the key of the base band, or empty. ``to_middle`` are the live stitches from
    the first of two repeats to the middle between them.
    """

    first: int
    last: int
    direction: Direction
    right_side: bool
    parts: tuple[RepeatedRuns, ...]
    base: str = ""
    to_middle: int = 0


# ---------------------------------------------------------------- the data


@once_each
def written_rows(spec: ChartSpec) -> tuple[WrittenRow, ...]:
    """All rows of the chart, bottom first. Neighbours are written once if they look alike and
    every word of them is the same, each in its own direction."""
    numbers = range(1, spec.height + 1)
    parts = {row: _parts(spec, row) for row in numbers}
    found: list[WrittenRow] = []
    for _, group in groupby(numbers, key=lambda row: (parts[row], *_sameness(spec, row))):
        rows = tuple(group)
        found.append(
            WrittenRow(
                spec.counter(rows[0]),
                spec.counter(rows[-1]),
                spec.direction(rows[0]),
                spec.right_side(rows[0]),
                parts[rows[0]],
                spec.base[rows[0] - 1] if spec.base else "",
                _to_middle(spec, rows[0]),
            )
        )
    return tuple(found)


def _flat(part: RepeatedRuns) -> Iterator[str]:
    """The keys of a part one by one."""
    for run in part.runs * part.times:
        yield from repeat(run.key, run.count)


def _in_working_order(spec: ChartSpec, row: int) -> tuple[str, ...]:
    seen = spec.rows[row - 1]
    return seen[::-1] if spec.right_side(row) else seen


def _sameness(spec: ChartSpec, row: int) -> tuple[tuple[str, ...], ...]:
    keys, wrong_side = spec.key_of, not spec.right_side(row)
    words = (keys[key].said(wrong_side=wrong_side) for key in _in_working_order(spec, row))
    # Its neighbours are not drawn, or count their places from the other edge.
    alone = (str(row),) if spec.every > 1 or (_placed(spec) and spec.worked == "flat") else ()
    return spec.rows[row - 1], tuple(words), spec.base[row - 1 : row], alone


def _boxes_of(spec: ChartSpec, row: int) -> list[tuple[int, int]]:
    """The repeat boxes that the row runs through, in working order, as places of its cells from 0:
    where each begins, and where the cells after it do."""
    found = []
    for box in spec.repeats:
        if box.first_row <= row <= box.last_row:
            start, end = box.first_stitch - 1, box.last_stitch
            right = spec.right_side(row)
            found.append((start, end) if right else (spec.width - end, spec.width - start))
    return sorted(found)


def _parts(spec: ChartSpec, row: int) -> tuple[RepeatedRuns, ...]:
    """The row in working order, apart before, in, between and after its repeat boxes."""
    worked, done = _in_working_order(spec, row), 0
    found: list[RepeatedRuns] = []
    for number, (start, end) in enumerate(_boxes_of(spec, row), start=1):
        found += _compressed(worked[done:start], boxed=0)
        found += _compressed(worked[start:end], boxed=number)
        done = end
    return (*found, *_compressed(worked[done:], boxed=0))


def _middle(spec: ChartSpec) -> tuple[int, int] | None:
    """The columns, from the right and from 1, of the stitches between two repeats in row 1."""
    if len(spec.repeats) != 2:
        return None
    (_, start), (end, _) = _boxes_of(spec, 1)
    worked, keys = _in_working_order(spec, 1), spec.key_of
    live = [
        at for at in range(start, end) if keys[worked[at]].uses != 0 and keys[worked[at]].worked
    ]
    if not live:
        return None
    places = [at + 1 if spec.right_side(1) else spec.width - at for at in (live[0], live[-1])]
    return min(places), max(places)


def _to_middle(spec: ChartSpec, row: int) -> int:
    """The live stitches from the first of two repeats to the middle."""
    middle = _middle(spec)
    if middle is None:
        return 0
    (_, start), _ = _boxes_of(spec, row)
    end = middle[0] - 1 if spec.right_side(row) else spec.width - middle[1]
    keys = spec.key_of
    between = _runs(_in_working_order(spec, row)[start:end])
    return sum(
        run.count // keys[run.key].span * keys[run.key].over
        for run in between
        if keys[run.key].worked
    )


def _compressed(worked: Sequence[str], *, boxed: int) -> tuple[RepeatedRuns, ...]:
    """``worked`` as runs, with what is repeated in brackets where that is shorter."""
    parts = tuple(_fewest(_runs(worked)))
    period = _period(worked)
    if period < len(worked):
        body = _runs(worked[:period])
        if len(body) > 1 and len(body) + _BRACKET_COST < _cost(parts):
            parts = (RepeatedRuns(body, len(worked) // period),)
    return tuple(RepeatedRuns(part.runs, part.times, boxed) for part in parts)


def _runs(worked: Sequence[str]) -> tuple[Run, ...]:
    return tuple(Run(key, len(tuple(run))) for key, run in groupby(worked))


def _period(worked: Sequence[str]) -> int:
    """The shortest stretch that, repeated whole, makes the row; the row's length if none."""
    length = len(worked)
    return next(
        (
            period
            for period in range(1, length // 2 + 1)
            if length % period == 0 and worked[period:] == worked[:-period]
        ),
        length,
    )


def _cost(parts: Iterable[RepeatedRuns]) -> int:
    return sum(len(part.runs) + (_BRACKET_COST if part.times > 1 else 0) for part in parts)


def _fewest(runs: tuple[Run, ...]) -> Iterator[RepeatedRuns]:
    """The runs with neighbouring repeats in brackets, with as little to read as possible.

    ``best[i]`` is the cheapest way to write the runs from ``i`` on, as (cost, runs in the next
    bracket, its times), where a bracket of one run once is that run alone.
    """
    length = len(runs)
    best: list[tuple[int, int, int]] = [(0, 1, 1)] * (length + 1)
    alike = [0] * (
        _LONGEST_BRACKET + 1
    )  # alike[p]: how many runs from here equal the run p further on
    for place in range(length - 1, -1, -1):
        choice = (1 + best[place + 1][0], 1, 1)
        for period in range(2, min(_LONGEST_BRACKET, length - place - 1) + 1):
            same = runs[place] == runs[place + period]
            alike[period] = alike[period] + 1 if same else 0
            times = alike[period] // period + 1
            if times > 1:
                cost = period + _BRACKET_COST + best[place + period * times][0]
                if cost < choice[0]:
                    choice = (cost, period, times)
        best[place] = choice
    place, plain = 0, 0
    while place < length:
        _, period, times = best[place]
        if times > 1:
            if plain < place:
                yield RepeatedRuns(runs[plain:place])
            yield RepeatedRuns(runs[place : place + period], times)
            plain = place + period * times
        place += period * times
    if plain < length:
        yield RepeatedRuns(runs[plain:])


# ---------------------------------------------------------------- the words


def directions(spec: ChartSpec) -> str:
    """How to read the drawing of the chart: where to start and which way to go."""
    first = spec.counter(1)
    if spec.twice and spec.worked == "flat":
        way = (
            "Each line is two rows: work it from right to left, and the next row back over the "
            "same stitches in the same yarn."
        )
    elif spec.twice:
        way = "Each line is two rounds in the same yarn: read both from right to left."
    elif spec.every > 1 and spec.worked == "flat":
        way = "Only right-side rows are drawn: read them from right to left."
    elif spec.worked == "round":
        way = "Read every round from right to left."
        if spec.every > 1:
            way = "Only every other round is drawn: read them from right to left."
    else:
        odd = "odd" if (first % 2 == 1) == spec.first_right_side else "even"
        even = "even" if odd == "odd" else "odd"
        way = (
            f"Read right-side rows ({odd} numbers) from right to left and wrong-side rows "
            f"({even} numbers) from left to right."
        )
    start = f"In the drawing, start at the bottom with {spec.row_name} {first}."
    boxes = "".join(
        f" A bold box marks the {box.label}: work it as often as it fits." for box in spec.repeats
    )
    if len(spec.repeats) > 1:
        boxes = " Bold boxes mark the two repeats: work both as often as they fit, equally often."
    if spec.needs:
        boxes += (
            f" The stitches beside the {'box' if len(spec.repeats) == 1 else 'boxes'} are worked "
            f"once. The chart fits {spec.needs}."
        )
    band = ""
    if spec.base and spec.base_label == YARN_BAND:
        band = (
            " The band at the left shows the yarn of each line: work the stitches drawn in it, and "
            "slip all others."
        )
    turns = ""
    if spec.turns:
        turns = (
            " Hatched cells lie beyond a turn: their stitches stay on the needle, and the "
            "next row begins at the turn."
        )
    return f"{start} {way}{band}{boxes}{turns}"


def introduction(spec: ChartSpec, again: bool = False) -> str:
    """How to read the written rows: nothing in them is to be turned or mirrored; ``again`` where
    those of the chart before are read so too."""
    noun = spec.row_name
    begin = f"Begin with {noun} {spec.counter(1) if spec.every == 1 else 1}."
    if spec.first_stitch > 1:
        begin = f"Each begins at stitch {spec.first_stitch} of the {noun}. {begin}"
    if again:
        return f"Each {noun} is in working order, as those of the chart before. {begin}"
    return f"{order_of(spec)} {begin}"


def order_of(spec: ChartSpec) -> str:
    """In which order the written rows tell their stitches, and what else they mean."""
    noun = spec.row_name
    which, way = "row, on either side,", "."
    if spec.worked == "round":
        which = noun
        way = (
            ", each to the left of the one before as seen from the right side: in the other "
            "direction it comes out mirrored."
        )
    places = " The figures in parentheses are the stitches of the chart." if _placed(spec) else ""
    lead, turns = f"Each {which} is written in the order in which you work its stitches", ""
    if spec.turns:
        turns = (
            " A row that turns leaves its other stitches on the needle, and the next row begins at "
            "the turn."
        )
    if (middle := _middle(spec)) is not None:
        count = middle[1] - middle[0] + 1
        what = f"{count} stitches" if count > 1 else "stitch"
        turns += (
            f" The middle is the {what} between the two repeats of {noun} "
            f"{spec.counter(1)}: keep a marker at each side of it. Work both repeats equally often."
        )
    return f"{lead}{way}{turns}{places}"


def _placed(spec: ChartSpec) -> bool:
    """Whether written rows say where each run lies."""
    return spec.width > _WIDE


def row_words(
    row: WrittenRow, spec: ChartSpec, *, direction: bool = True, count: bool = False
) -> Inlines:
    """``Round 5 (reading right to left): 3 tar, 2 foam, 3 tar.`` as inlines.

    ``direction`` says which way to read, ``count`` adds how many stitches the row has.
    """
    keys = spec.key_of
    notes = [f"{spec.base_label} {keys[row.base].said()}"] if row.base else []
    if spec.worked == "flat" and row.first == row.last:
        notes.append("right side" if row.right_side else "wrong side")
    if direction and (spec.worked == "round" or row.first == row.last):
        notes.append(f"reading {row.direction}")
    head = span_of_numbers(spec.row_name, row.first, row.last)
    told = f" ({', '.join(notes)})" if notes else ""
    total = f" ({_stitches(row, keys)})" if count else ""
    return (
        Strong((Text(head[0].upper() + head[1:]),)),
        Text(f"{told}: {_sentence(row, spec)}{total}."),
    )


@lru_cache(maxsize=64)  # a chart stays what it is while its pattern is written
def written_blocks(
    spec: ChartSpec,
    *,
    direction: bool = False,
    count: bool = False,
    between: Inlines = (),
    id: str = "",
    again: bool = False,
) -> Blocks:
    """How to read the list, then all rows of the chart in words, and the rows ``between`` them;
    ``again`` where the list of the chart before is read so too.

    With an ``id`` of the chart every item has one that ``said_at`` gives.
    """
    rows = tuple(
        ListItem(
            (Paragraph(row_words(row, spec, direction=direction, count=count)),),
            id=_item_id(id, str(row.first)),
        )
        for row in written_rows(spec)
    )
    if between:
        parity = "Even" if spec.first_row % 2 else "Odd"
        side = " (wrong side)" if spec.worked == "flat" else ""
        head = (Strong((Text(f"{parity}-numbered {plural(spec.row_name)}"),)), Text(f"{side}: "))
        item = ListItem((Paragraph((*head, *between)),), id=_item_id(id, _BETWEEN))
        rows = (*rows, item)
    return (Paragraph((Text(introduction(spec, again)),)), ItemList(rows, close=True))


def said_at(spec: ChartSpec, id: str, between: bool = False) -> Mapping[int, tuple[str, ...]]:
    """For the printed number of every row the ids of the items that ``written_blocks`` tells it in,
    and the rows ``between`` it and the next."""
    after = (_item_id(id, _BETWEEN),) if between else ()
    return {
        number: (_item_id(id, str(row.first)), *after)
        for row in written_rows(spec)
        for number in range(row.first, row.last + 1)
    }


_BETWEEN = "between"


def _item_id(chart: str, item: str) -> str:
    return f"row-{item}-{chart}" if chart else ""


def span_of_numbers(noun: str, first: int, last: int) -> str:
    """``round 5``, or ``rounds 3–5``."""
    if first == last:
        return f"{noun} {first}"
    return f"{plural(noun)} {first}–{last}"


def _stitches(row: WrittenRow, keys: dict[str, ChartKey]) -> str:
    total = sum(
        part.times * sum(run.count for run in part.runs if keys[run.key].worked)
        for part in row.parts
    )
    return f"{total} stitch" if total == 1 else f"{total} stitches"


def _sentence(row: WrittenRow, spec: ChartSpec) -> str:
    """The parts in words; those of the repeat box after an asterisk, as the trade writes them."""
    said: list[str] = []
    keys, beyond = spec.key_of, " of the chart" if spec.inside else ""
    parts = tuple(_worked_parts(row, keys))
    # Where cells are passed over, the parts are no longer those of the drawing.
    place = _Place(spec, row.right_side, _placed(spec) and parts == row.parts)
    for boxed, group in groupby(parts, key=lambda part: part.boxed):
        inside = tuple(group)
        if boxed and len(inside) == 1 and not place.told:
            inside = (RepeatedRuns(inside[0].runs),)  # what is repeated anyway needs no brackets
        words = ", ".join(_part_words(part, keys, row.right_side, place) for part in inside)
        if boxed:
            end = f"{_how_far(row.parts, keys)}{beyond}"
            if boxed < len(spec.repeats):
                end = _before_middle(row.to_middle)
            words = f"*{words}; repeat from * to {end}"
        said.append(words)
    if _turns(row, keys):
        said.append("turn")
    return ", ".join(said) or "no stitches"


def _before_middle(stitches: int) -> str:
    """Where the first of two repeats stops."""
    return f"{how_many(stitches, 'stitch')} before the middle" if stitches else "the middle"


def _turns(row: WrittenRow, keys: dict[str, ChartKey]) -> bool:
    """Whether a row turns before its end without a stitch that is wrapped, which says so itself."""
    left = [keys[run.key] for part in row.parts for run in part.runs if keys[run.key].beyond]
    return keys[row.parts[-1].runs[-1].key].beyond and not any(key.worked for key in left)


def _how_far(parts: Sequence[RepeatedRuns], keys: dict[str, ChartKey]) -> str:
    """Where the repeat of a row stops: at its end, or before the stitches of its edge."""
    boxed = [part.boxed > 0 for part in parts]
    edge = parts[len(boxed) - boxed[::-1].index(True) :]
    left = sum(
        run.count // keys[run.key].span * keys[run.key].over * part.times
        for part in edge
        for run in part.runs
        if keys[run.key].worked or keys[run.key].beyond
    )
    return f"last {how_many(left, 'stitch')}" if left > 1 else "last stitch" if left else "end"


def _worked_parts(row: WrittenRow, keys: dict[str, ChartKey]) -> Iterator[RepeatedRuns]:
    """The parts without their empty cells, runs on both sides of these joined."""
    if all(keys[run.key].worked for part in row.parts for run in part.runs):
        yield from row.parts
        return
    for boxed, group in groupby(row.parts, key=lambda part: part.boxed):
        worked = [key for part in group for key in _flat(part) if keys[key].worked]
        yield from _compressed(worked, boxed=boxed)


class _Place:
    """Where in a row one stands, in cells of the drawing; ``told`` if it is said."""

    def __init__(self, spec: ChartSpec, right_side: bool, told: bool) -> None:
        self._spec, self._right_side, self.told = spec, right_side, told
        self._done = 0

    def of(self, cells: int) -> str:
        """`` (31 to 44)``: the next so many cells, by the numbers below the drawing."""
        ends = (self._done + 1, self._done + cells)
        self._done += cells
        if not self.told:
            return ""
        first, last = (
            self._spec.place(end if self._right_side else self._spec.width - end + 1)
            for end in ends
        )
        return f" ({first})" if first == last else f" ({first} to {last})"


def _part_words(
    part: RepeatedRuns, keys: dict[str, ChartKey], right_side: bool, place: _Place
) -> str:
    if part.times > 1:
        words = ", ".join(_run_words(run, keys[run.key], right_side) for run in part.runs)
        cells = part.times * sum(run.count for run in part.runs)
        return f"[{words}] {part.times} times{place.of(cells)}"
    return ", ".join(
        f"{_run_words(run, keys[run.key], right_side)}{place.of(run.count)}" for run in part.runs
    )


def _run_words(run: Run, key: ChartKey, right_side: bool) -> str:
    """``3 tar`` for a colour, ``knit 3`` for a plain stitch, ``yarn over`` or ``ssk 2 times``."""
    count = run.count // key.span
    if key.colour is not None:
        return f"{count} {key.said(wrong_side=not right_side)}"
    return key.times(count, wrong_side=not right_side)


def alt_text(spec: ChartSpec, where: str = "") -> str:
    """What the chart shows, its size, and where its written rows are, such as ``after the
    chart``."""
    rows = spec.row_name if spec.height == 1 else f"{spec.row_name}s"
    stitches = "stitch" if spec.width == 1 else "stitches"
    way = "in the round" if spec.worked == "round" else "flat"
    shows = [key.said() for key in spec.used_keys if key.worked]
    size = f"{spec.width} {stitches} by {spec.height} {rows}, worked {way}"
    text = f"Chart {spec.title}: {size}."
    if shows:
        text += f" It shows {listed(shows)}."
    return f"{text} The same in words: {where}." if where else text
