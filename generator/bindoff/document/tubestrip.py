"""The tube as a strip beside its counter table: to scale, from the cast-on down as the table goes,
with the letters of the map. A line leads from each stop to its row."""

from collections.abc import Iterator, Mapping, Sequence
from string import ascii_uppercase

from bindoff.document.charts.cellwork import symbol_stamps
from bindoff.document.charts.symbols import ink_on, symbol_of
from bindoff.document.discs import disc, half_width
from bindoff.document.drawing import Drawing, Label, Lines, Rect, Shape, moved
from bindoff.document.drawn import Drawn
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.document.phrases import text
from bindoff.document.spread import spread
from bindoff.document.stripewords import tube_events
from bindoff.document.tree import Beside, Block, Blocks, Figure, Table
from bindoff.document.tubemap import YarnLook, span_of, zone_name
from bindoff.document.voice import Voice
from bindoff.plan.picture import PicturePlan
from bindoff.records import replace

_PAPER, _INK = "#ffffff", "#000000"
_OUTLINE, _MEASURE, _BETWEEN = 0.45, 0.2, 0.13
_FOLD, _DASH = 0.5, (2.2, 1.1)
_WIDE = 13.0  # mm, the tube
_SIGN = 2.0  # mm, a yarn's sign at the most
_ROW, _MANY, _CLOSE_ROW, _HEAD = 6.5, 8, 5.4, 12.0  # mm of a table: its rows, many rows, its head
_MOST_ROWS = 20  # a longer table is cut by the page, and its strip would be too
_LEAST_ROUND = 0.9  # mm a round: lines between rounds that are lower make one grey


def with_strips(
    blocks: Blocks,
    voice: Voice,
    plans: Sequence[PicturePlan],
    yarns: Mapping[str, YarnLook],
    drawn: Drawn,
    tied: bool = False,
) -> Blocks:
    """``blocks`` of the step that knits a tube, each counter table with its strip beside it: of its
    own size, or of the first one that it is for."""
    several = len(set(plans)) > 1
    left = list(zip(plans, voice.sizes, strict=True))
    found: list[Block] = []
    for block in blocks:
        if isinstance(block, Table) and block.tick:
            plan, size = left.pop(0)
            of = f" in size {size}" if several else ""
            stops = [event.counter for event in tube_events(voice, plan, "")]
            if len(stops) <= _MOST_ROWS:
                block = replace(block, beside=_beside(plan, stops, of, yarns, drawn, tied))
        found.append(block)
    return tuple(found)


def _beside(
    plan: PicturePlan,
    stops: Sequence[int],
    of: str,
    yarns: Mapping[str, YarnLook],
    drawn: Drawn,
    tied: bool,
) -> Beside:
    high = _HEAD + len(stops) * (_ROW if len(stops) < _MANY else _CLOSE_ROW)
    drawing = tube_strip(plan, stops, yarns, drawn.numbers, high, drawn.colour)
    caption = text(f"The tube{of}, from the cast-on at the top to its end")
    round_ = high / plan.tube.total_rounds
    leads = tuple(drawn.numbers / 2 + round_ * stop for stop in stops)
    return Beside(Figure(drawing, strip_alt(plan, of, yarns, tied), caption), leads)


def strip_alt(plan: PicturePlan, of: str, yarns: Mapping[str, YarnLook], tied: bool) -> str:
    """The strip in words: its zones with the letters of the map, and its stripes."""
    tube = plan.tube
    zones = "; ".join(
        f"{letter} {zone_name(each.part, tied)}, {span_of(each.first, each.last)}"
        for letter, each in zip(ascii_uppercase, tube.segments, strict=False)
    )
    stripes = "; ".join(
        f"{yarns[each.yarn].name}, {span_of(each.first, each.last)}"
        for each in plan.stripes.stripes
    )
    told = f" Zones: {zones}." if len(tube.segments) > 1 else ""
    fold = f" It is folded after round {tube.fold_after}." if tube.fold_after else ""
    return (
        f"The tube{of} as a strip to scale, from the cast-on at the top.{told} "
        f"Yarns: {stripes}.{fold} A line leads from each stop of the counter to its row."
    )


def tube_strip(
    plan: PicturePlan,
    stops: Sequence[int],
    yarns: Mapping[str, YarnLook],
    letters: float,
    high: float,
    colour: bool,
) -> Drawing:
    """The tube in its stripes, ``high`` mm, with the counter's ``stops`` and the letters of its
    zones at the left; ``letters`` is the size of the type, half of which stands above and below."""
    tube = plan.tube
    round_ = high / tube.total_rounds
    zones = 2.2 * letters if len(tube.segments) > 1 else 0.0
    left = zones + text_width(str(tube.total_rounds), letters, bold=True) + 3.4
    shapes = (
        *_stripes(plan, yarns, left, round_, colour),
        *_lines(plan, left, round_, colour),
        Rect(left, 0.0, _WIDE, high, stroke=_INK, width=_OUTLINE),
        *_numbers((0, *stops), left, round_, letters, high),
        *(_zones(plan, zones, round_, letters, high) if zones else ()),
    )
    size = (left + _WIDE + _OUTLINE / 2, high + letters)
    return Drawing(round(size[0], 2), round(size[1], 2), tuple(moved(shapes, 0.0, letters / 2)))


def _stripes(
    plan: PicturePlan, yarns: Mapping[str, YarnLook], left: float, round_: float, colour: bool
) -> Iterator[Shape]:
    """Every stripe in its colour, with the yarn's sign."""
    for stripe in plan.stripes.stripes:
        look = yarns[stripe.yarn]
        y, high = (stripe.first - 1) * round_, stripe.rounds * round_
        if colour:
            yield Rect(left, y, _WIDE, high, fill=look.colour)
        side = min(_SIGN, high)
        count = max(1, int(high // (6 * _SIGN)))
        places = [
            (left + _WIDE * across - side / 2, y + high * (at + 0.5) / count - side / 2)
            for at in range(count)
            for across in (0.25, 0.75)
        ]
        ink = ink_on(look.colour if colour else None)
        yield from symbol_stamps(symbol_of(look.symbol), ink, places, side, side)


def _lines(plan: PicturePlan, left: float, round_: float, colour: bool) -> Iterator[Shape]:
    """Rounds as fine lines, black ones where yarns and zones meet, dashes along the fold."""
    tube = plan.tube
    right = left + _WIDE
    met = {segment.last for segment in tube.segments}
    met |= {change.counter for change in plan.stripes.changes}
    if colour and round_ >= _LEAST_ROUND:
        between = (number * round_ for number in range(1, tube.total_rounds))
        yield Lines(tuple((left, y, right, y) for y in between), _PAPER, _BETWEEN)
    black = tuple((left, y, right, y) for y in (n * round_ for n in sorted(met)))
    yield Lines(black, _INK, _MEASURE)
    if tube.fold_after is not None:
        y = tube.fold_after * round_
        yield Lines(((left, y, right, y),), _PAPER, 2 * _FOLD)
        yield Lines(((left - 1.2, y, right, y),), _INK, _FOLD, _DASH)


def _numbers(
    stops: Sequence[int], left: float, round_: float, letters: float, high: float
) -> Iterator[Shape]:
    """What the counter shows at each stop, at the left."""
    shown = sorted(set(stops))
    wanted = [stop * round_ for stop in shown]
    for stop, at, y in zip(shown, wanted, spread(wanted, letters * 1.05, high), strict=True):
        yield Lines(((left, at, left - 0.8, at), (left - 0.8, at, left - 1.9, y)), _INK, _MEASURE)
        base = y + letters * CAP_HEIGHT / 2
        yield Label(left - 2.3, base, str(stop), letters, "end", bold=True)


def _zones(
    plan: PicturePlan, right: float, round_: float, letters: float, high: float
) -> Iterator[Shape]:
    """A bracket and the letter of each zone, as on the map."""
    middles = [(each.first - 1 + each.last) / 2 * round_ for each in plan.tube.segments]
    places = spread(middles, letters * 1.7, high)
    for letter, segment, middle, y in zip(
        ascii_uppercase, plan.tube.segments, middles, places, strict=False
    ):
        low, top = segment.last * round_ - 0.3, (segment.first - 1) * round_ + 0.3
        x = right - 0.2
        lines = ((x + 0.9, low, x, low), (x, low, x, top), (x + 0.9, top, x, top))
        yield Lines((*lines, (x, middle, x - 0.8, y)), _INK, _MEASURE)
        yield from disc(half_width(letter, letters) + 0.2, y, letter, letters)
