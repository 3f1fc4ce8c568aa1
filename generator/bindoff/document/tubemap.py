"""The tube map: the unrolled tube to scale, with its zones, folds, stripes, picture and stops.

Stitches are numbered from the right and rounds up the right edge, as a maker meets them. What is
not seen when worn is veiled by white hatching, under which its yarn stays readable.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, pairwise
from string import ascii_uppercase
from typing import Literal

from bindoff.document.charts.cellwork import symbol_stamps
from bindoff.document.charts.symbols import ink_on, symbol_of
from bindoff.document.discs import disc, half_width
from bindoff.document.drawing import Cells, Drawing, Label, Lines, Path, Rect, Shape
from bindoff.document.foldedviews import (
    Folded,
    from_the_front,
    heights,
    in_section,
    is_folded,
    motif_letters,
    width_of,
)
from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.document.spread import spread
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import PicturePlan
from bindoff.plan.tube import TubePart
from bindoff.plan.zones import UNSEEN
from bindoff.records import Record

_PAPER, _INK = "#ffffff", "#000000"
_OUTLINE, _FLAG, _MEASURE, _HATCH = 0.45, 0.25, 0.2, 0.3
_CENTRE, _CENTRE_CASING = (2.4, 1.2), 0.55
_SMALL = 1 / 6.25  # the scale of folded views that stand alone
_GAP, _BESIDE = 5.0, 4.0  # mm from the map to the folded views, and the largest type that has room
_FOLD, _FOLD_CASING, _DASH = 0.5, 1.1, (2.2, 1.1)
_VEIL_STEP = 2.3  # mm between two lines of hatching
_SIGN = 2.0  # mm, a yarn's sign at the most
_EVERY = 8  # stitches from one sign to the next
_MOST_HIGH, _PLAIN_HIGH, _LEAST_WIDE = 108.0, 74.0, 24.0  # mm on paper, a tube without a picture;
_CROWDED_HIGH = 150.0  # ... and one whose flags would lie in one bundle, as so many need more
_TICK_STITCHES, _TICK_ROUNDS = 10, 10

TUBE = "tube "
"""Before the key of a piece, where the cells of a drawing are those of its tube."""

ZONE_NAMES: Mapping[TubePart, str] = {
    TubePart.LINING_GATHER: "gathered end of the lining",
    TubePart.LINING: "lining",
    TubePart.LINING_BRIM: "brim, turned out",
    TubePart.OUTER_BRIM: "brim, turned in",
    TubePart.OUTER: "body",
    TubePart.OUTER_GATHER: "gathered end",
}
_TUFTS = {
    TubePart.LINING_GATHER: "tuft above the tie, lining",
    TubePart.OUTER_GATHER: "tuft above the tie",
}


def zone_name(part: TubePart, tied: bool) -> str:
    """What a zone is called; the ends of a tube that is ``tied`` stand above the tie."""
    return _TUFTS.get(part, ZONE_NAMES[part]) if tied else ZONE_NAMES[part]


class YarnLook(Record):
    """A yarn on the map: its name, colour and sign."""

    name: str
    colour: str
    symbol: str


class _Sheet(Record):
    """Where the tube lies on the drawing: its corner, the size of a stitch and of a round, mm."""

    left: float
    top: float
    stitch: float
    round_: float
    stitches: int
    rounds: int

    @property
    def right(self) -> float:
        return self.left + self.stitches * self.stitch

    @property
    def bottom(self) -> float:
        return self.top + self.rounds * self.round_

    def x(self, stitches: float) -> float:
        """The line after so many stitches, counted from the right."""
        return self.right - stitches * self.stitch

    def y(self, rounds: float) -> float:
        """The line above so many rounds."""
        return self.bottom - rounds * self.round_


class _Stop(Record):
    """A flag: what the counter shows, the words beside it, and the yarn of the next round."""

    counter: int
    words: str
    yarn: str | None


def tube_map(
    plan: PicturePlan,
    gauge: Gauge,
    yarns: Mapping[str, YarnLook],
    letters: float,
    page: float,
    colour: bool = True,
    tied: bool = False,
    piece: str = "",
) -> Drawing:
    """The map of one size's tube; ``letters`` is the size of its type and ``page`` the room across,
    in mm. Without ``colour`` nothing but signs tells the yarns. ``piece`` is the key of its piece.
    """
    stops = _stops(plan, yarns)
    flag = text_width("0" * len(str(plan.tube.total_rounds)), letters, bold=True) + 2.6
    words = max(text_width(stop.words, letters) for stop in stops)
    left = words + flag + letters + 8.0
    right = 2.0 + text_width(str(plan.tube.total_rounds), letters) + 4.0 + 2.4 * letters
    wide = plan.tube.needles * gauge.stitch_mm
    high = plan.tube.total_rounds * gauge.round_mm
    beside = is_folded(plan) and letters <= _BESIDE
    room = page - left - right - (_GAP if beside else 0.0)
    across = wide * 1.5 if beside else wide
    most = max(
        _MOST_HIGH if plan.has_picture else _PLAIN_HIGH,
        min(len(stops) * _apart(letters), _CROWDED_HIGH),
    )
    scale = min(max(room, _LEAST_WIDE) / across, most / high)
    if beside:
        least = width_of(plan, 0.0, letters)
        scale = min(scale, max(room - least, _LEAST_WIDE) / wide)
    top = 2 * letters + 1.4
    sheet = _Sheet(
        left,
        top,
        gauge.stitch_mm * scale,
        gauge.round_mm * scale,
        plan.tube.needles,
        plan.tube.total_rounds,
    )
    shapes = (
        *_stripes(plan, sheet, yarns, colour),
        *(_embroidered(plan, sheet, yarns) if colour else _frames(plan, sheet)),
        *(_veil(plan, sheet) if colour else ()),
        *_folds(plan, sheet),
        *_quarters(plan, sheet, letters, colour),
        *_frame(plan, sheet),
        *_numbers(sheet, letters),
        *_zones(plan, sheet, letters),
        *(() if colour else _motif_letters(plan, sheet, letters)),
        *_flags(stops, sheet, yarns, letters, flag, colour),
    )
    cells = _cells(sheet, piece) if plan.motifs else None
    lowest = max(_places(stops, sheet, letters)) + letters  # below the lowest flag
    height = max(sheet.bottom + 2.0 + 2 * letters + 2.5, lowest)
    if not beside:
        return Drawing(round(sheet.right + right, 2), round(height, 2), shapes, cells)
    x, y = sheet.right + right + _GAP, 0.0
    front, section = heights(plan, sheet.round_, letters, tied)
    views = width_of(plan, sheet.stitch, letters)
    places = ((x, y), (x, y + front))
    shapes += _folded(plan, places, sheet, yarns, letters, colour, tied)
    size = (x + views, max(height, y + front + section))
    return Drawing(round(size[0], 2), round(size[1], 2), shapes, cells)


def _cells(sheet: _Sheet, piece: str) -> Cells:
    """Every stitch of the tube."""
    size = (sheet.left, sheet.top, sheet.stitch, sheet.round_, sheet.stitches, sheet.rounds)
    return Cells(*size, 1, 1, sheet.stitches, f"{TUBE}{piece}")


def folded_views(
    plan: PicturePlan,
    gauge: Gauge,
    yarns: Mapping[str, YarnLook],
    letters: float,
    page: float,
    colour: bool = True,
    tied: bool = False,
) -> Drawing | None:
    """The folded piece from the front and in section side by side, where type is so large that they
    have no room beside the map."""
    if not is_folded(plan) or letters <= _BESIDE:
        return None
    stitch = min(page / 2 / (plan.tube.needles * gauge.stitch_mm), _SMALL) * gauge.stitch_mm
    round_ = stitch / gauge.stitch_mm * gauge.round_mm
    sheet = _Sheet(0.0, 0.0, stitch, round_, plan.tube.needles, plan.tube.total_rounds)
    views = width_of(plan, stitch, letters)
    places = ((0.0, 0.0), (views + _GAP, 0.0))
    shapes = _folded(plan, places, sheet, yarns, letters, colour, tied)
    high = max(heights(plan, round_, letters, tied))
    return Drawing(round(2 * views + _GAP, 2), round(high, 2), shapes)


def _folded(
    plan: PicturePlan,
    places: Sequence[tuple[float, float]],
    sheet: _Sheet,
    yarns: Mapping[str, YarnLook],
    letters: float,
    colour: bool,
    tied: bool,
) -> tuple[Shape, ...]:
    """The view from the front and the section at two ``places``, at the scale of a sheet."""
    views = width_of(plan, sheet.stitch, letters)
    front, section = (Folded(x, views, y, sheet.stitch, sheet.round_, letters) for x, y in places)
    colours = {key: look.colour for key, look in yarns.items()}
    return (
        *from_the_front(plan, front, colours, colour, tied),
        *in_section(plan, section, tied),
    )


_TUFT = "above the tie both layers, joined at their edges, stand up as a tuft"


def names_sides(drawing: Drawing) -> bool:
    """Whether a map says which of its sides is the left one; a narrow map has no room for it."""
    return any(isinstance(each, Label) and each.text == "left side" for each in drawing.shapes)


def views_alt(tied: bool) -> str:
    """The folded views in words, where they stand apart from the map."""
    above = f"; {_TUFT}" if tied else ""
    return f"The folded piece from the front and in section, with the letters of the map{above}."


def tube_alt(
    title: str,
    plan: PicturePlan,
    yarns: Mapping[str, YarnLook],
    titles: Mapping[str, str],
    tied: bool = False,
) -> str:
    """The map in words: size, zones from the cast-on with their rounds, stripes, and where the
    picture or each motif is; ``titles`` are those of the charts."""
    tube = plan.tube
    zones = "; ".join(
        f"{zone_name(each.part, tied)}, {span_of(each.first, each.last)}" for each in tube.segments
    )
    above = f": {_TUFT}" if tied else ""
    views = (
        f" With it the folded piece from the front and in section, with the same letters{above}."
        if is_folded(plan)
        else ""
    )
    stripes = "; ".join(
        f"{yarns[each.yarn].name}, {span_of(each.first, each.last)}"
        for each in plan.stripes.stripes
    )
    knitted = f" Stripes: {stripes}." if len(plan.stripes.stripes) > 1 else ""
    fold = f" It is folded after round {tube.fold_after}." if tube.fold_after else ""
    return (
        f"Map of the tube of {title}, {tube.needles} stitches by {tube.total_rounds} rounds. From "
        f"the cast-on: {zones}.{fold}{views}{knitted}{_picture(plan, titles)} The stops are in the "
        "counter table."
    )


def _picture(plan: PicturePlan, titles: Mapping[str, str]) -> str:
    if not plan.motifs:
        return f" The picture is in {span_of(plan.first, plan.last)}." if plan.has_picture else ""
    told = (
        f"{titles[each.chart]}, {each.place}, stitches {each.stitch} to {each.last_stitch} of "
        f"{span_of(each.first, each.last)}"
        for each in plan.motifs
    )
    return f" Motifs: {'; '.join(told)}."


def letters_key(
    plan: PicturePlan, titles: Mapping[str, str], colour: bool, tied: bool = False
) -> str:
    """``A lining; B brim, turned out``: what the letters stand for, of zones and, without
    ``colour``, of motifs by the ``titles`` of their charts; nothing where there are none."""
    told: list[str] = []
    if len(plan.tube.segments) > 1:
        zones = zip(ascii_uppercase, plan.tube.segments, strict=False)
        told += [f"{letter} {zone_name(segment.part, tied)}" for letter, segment in zones]
    if not colour:
        told += [f"{letter} {titles[chart]}" for chart, letter in motif_letters(plan).items()]
    return "; ".join(told)


def span_of(first: int, last: int) -> str:
    """``rounds 3 to 8``."""
    return f"round {first}" if first == last else f"rounds {first} to {last}"


# ---------------------------------------------------------------- the tube


def _stripes(
    plan: PicturePlan, sheet: _Sheet, yarns: Mapping[str, YarnLook], colour: bool
) -> Iterator[Shape]:
    """Every stripe in its colour, with the yarn's sign here and there."""
    for number, stripe in enumerate(plan.stripes.stripes):
        look = yarns[stripe.yarn]
        y = sheet.y(stripe.last)
        high = stripe.rounds * sheet.round_
        width = sheet.right - sheet.left
        if colour:
            yield Rect(sheet.left, y, width, high, fill=look.colour)
        else:
            line = (sheet.left, y, sheet.right, y)
            yield Lines((line,), _INK, 0.13)
        side = min(_SIGN, high)
        lanes = max(1, int(high // (4 * _SIGN)))
        places = [
            (sheet.x(stitch) - side / 2, y + high * (lane + 0.5) / lanes - side / 2)
            for lane in range(lanes)
            for stitch in range(4 + (lane + number) % 2 * _EVERY // 2, sheet.stitches, _EVERY)
        ]
        ink = ink_on(look.colour if colour else None)
        yield from symbol_stamps(symbol_of(look.symbol), ink, places, side, side)


def _embroidered(
    plan: PicturePlan, sheet: _Sheet, yarns: Mapping[str, YarnLook]
) -> Iterator[Shape]:
    """What is embroidered, or knitted in a second yarn: runs of stitches in their own colour."""
    found: dict[str, list[tuple[str | float, ...]]] = {}
    for number, (seen, base) in enumerate(
        zip(plan.colours.rounds, plan.stripes.bases, strict=True), start=1
    ):
        at = 0
        for yarn, run in groupby(seen):
            count = len(list(run))
            if yarn != base:
                x0 = sheet.left + at * sheet.stitch
                x1 = x0 + count * sheet.stitch
                y0, y1 = sheet.y(number), sheet.y(number - 1)
                found.setdefault(yarn, []).extend(
                    (("M", x0, y0), ("L", x1, y0), ("L", x1, y1), ("L", x0, y1), ("Z",))
                )
            at += count
    for yarn, commands in found.items():
        yield Path(tuple(commands), fill=yarns[yarn].colour)


def _frames(plan: PicturePlan, sheet: _Sheet) -> Iterator[Shape]:
    """Where motifs lie, on a map without colours."""
    for motif in plan.motifs:
        x, y = sheet.x(motif.last_stitch), sheet.y(motif.last)
        wide, high = motif.width * sheet.stitch, len(motif.cells) * sheet.round_
        yield Rect(x, y, wide, high, _PAPER, _INK, _FLAG)


def _motif_letters(plan: PicturePlan, sheet: _Sheet, letters: float) -> Iterator[Shape]:
    """A letter in the frame of each motif."""
    named = motif_letters(plan)
    for motif in plan.motifs:
        if letter := named.get(motif.chart):
            x = sheet.x(motif.stitch - 1 + motif.width / 2)
            y = sheet.y(motif.first - 1 + len(motif.cells) / 2)
            yield from disc(x, y, letter, letters)


def signs_key(plan: PicturePlan, colour: bool) -> str:
    """What else is drawn on a map that no letter explains; nothing where there is nothing."""
    told = ["hatched: hidden when worn"] if colour and _hidden(plan) else []
    if any(marker != 1 for marker in plan.tube.markers):
        told.append("triangle: the half round")
    return "; ".join(told)


def _hidden(plan: PicturePlan) -> list[tuple[int, int]]:
    """The rounds that are not seen: whole parts, and what a turned-up brim covers."""
    hidden = [(each.first, each.last) for each in plan.tube.segments if each.part in UNSEEN]
    brim, outer = plan.tube.segment(TubePart.LINING_BRIM), plan.tube.segment(TubePart.OUTER)
    if brim is not None and outer is not None:
        covered = outer.first + brim.last - brim.first
        hidden.append((outer.first, min(covered, outer.last)))
    return hidden


def _veil(plan: PicturePlan, sheet: _Sheet) -> Iterator[Shape]:
    """White hatching over what is not seen."""
    for first, last in _hidden(plan):
        lines = tuple(_hatching(sheet, first, last))
        if lines:
            yield Lines(lines, _PAPER, _HATCH)


def _hatching(sheet: _Sheet, from_: int, to: int) -> Iterator[tuple[float, float, float, float]]:
    """Lines at 45 degrees across some rounds, cut at their edges."""
    x, y = sheet.left, sheet.y(to)
    wide = sheet.right - sheet.left
    high = (to - from_ + 1) * sheet.round_
    at = -high + _VEIL_STEP / 2
    while at < wide:
        first, last = max(at, 0.0), min(at + high, wide)
        if last > first:
            yield (x + first, y + high - (first - at), x + last, y + high - (last - at))
        at += _VEIL_STEP


def _folds(plan: PicturePlan, sheet: _Sheet) -> Iterator[Shape]:
    if plan.tube.fold_after is not None:
        y = sheet.y(plan.tube.fold_after)
        yield Lines(((sheet.left, y, sheet.right, y),), _PAPER, _FOLD_CASING)
        yield Lines(((sheet.left - 1.5, y, sheet.right + 1.5, y),), _INK, _FOLD, _DASH)


def _quarters(plan: PicturePlan, sheet: _Sheet, letters: float, colour: bool) -> Iterator[Shape]:
    """Lines up the sides and the middles of front and back, as worn; they stop at motifs, and
    without ``colour`` at their frames. Nothing where nothing is drawn on the tube."""
    if not plan.has_picture:
        return
    needles = plan.tube.needles
    wide = text_width("right side", letters) + 1.0
    room = needles / 4 * sheet.stitch > wide
    apart = needles / 2 * sheet.stitch > 1.5 * (wide - 1.0)  # one of them may end at the edge
    names = (
        ("left side", "front", "right side", "back") if apart else ("side", "front", "side", "back")
    )
    for quarter, name in enumerate(names):
        after = (plan.tube.front - 1 + quarter * needles / 4) % needles
        x = sheet.x(after)
        row = 0.0 if room or quarter % 2 else letters * 1.1  # sides stand above, if all crowd
        yield Label(x, sheet.top - 0.9 - row, name, letters, _anchor(after, needles))
        if after == 0:
            continue
        drawn = [n for n, row in enumerate(plan.overlay, start=1) if row[_column(after, needles)]]
        framed = [
            number
            for motif in ([] if colour else plan.motifs)
            if motif.stitch - 1 <= after <= motif.last_stitch
            for number in range(motif.first, motif.last + 1)
        ]
        for first, last in _free(sorted({*drawn, *framed}), sheet.rounds):
            line = ((x, sheet.y(first - 1), x, sheet.y(last)),)
            yield Lines(line, _PAPER, _CENTRE_CASING)
            yield Lines(line, _INK, _MEASURE, _CENTRE)


def _anchor(after: float, needles: int) -> Literal["start", "middle", "end"]:
    """So that a name at an edge does not stand out."""
    if after < needles / 12:
        return "end"
    return "start" if after > needles * 11 / 12 else "middle"


def _column(after: float, needles: int) -> int:
    """The place in a round, from its left, of the stitch at a line."""
    return min(needles - 1, max(0, needles - int(after) - 1))


def _free(taken: Sequence[int], rounds: int) -> Iterator[tuple[int, int]]:
    """The runs of rounds that are not taken."""
    edges = [0, *taken, rounds + 1]
    for below, above in pairwise(edges):
        if above - below > 1:
            yield below + 1, above - 1


def _frame(plan: PicturePlan, sheet: _Sheet) -> Iterator[Shape]:
    """The outline, and a black triangle below where the second half begins."""
    wide, high = sheet.right - sheet.left, sheet.bottom - sheet.top
    yield Rect(sheet.left, sheet.top, wide, high, stroke=_INK, width=_OUTLINE)
    for marker in (each for each in plan.tube.markers if each != 1):
        x, y = sheet.x(marker - 1), sheet.bottom
        yield Path((("M", x, y), ("L", x - 1.3, y + 2.0), ("L", x + 1.3, y + 2.0), ("Z",)), _INK)


def _numbers(sheet: _Sheet, letters: float) -> Iterator[Shape]:
    """Stitches below, from the right as they are knitted; rounds up the right edge."""
    wanted = text_width(str(sheet.stitches), letters) + 1.0
    step = _TICK_STITCHES
    while step * sheet.stitch < wanted:
        step += _TICK_STITCHES
    below = sheet.bottom + 2.4
    for stitch in (1, *range(step, sheet.stitches + 1, step)):
        x = sheet.x(stitch - 0.5)
        yield Lines(((x, sheet.bottom, x, sheet.bottom + 1.2),), _INK, _MEASURE)
        yield Label(x, below + letters * CAP_HEIGHT, str(stitch), letters, "middle")
    step = _TICK_ROUNDS
    while step * sheet.round_ < letters * 1.3:
        step += _TICK_ROUNDS
    for number in range(step, sheet.rounds + 1, step):
        y = sheet.y(number)
        yield Lines(((sheet.right, y, sheet.right + 1.2, y),), _INK, _MEASURE)
        yield Label(sheet.right + 1.9, y + letters * CAP_HEIGHT / 2, str(number), letters)


def _zones(plan: PicturePlan, sheet: _Sheet, letters: float) -> Iterator[Shape]:
    """A bracket and a letter for every zone, from the cast-on; nothing for a tube of one zone."""
    if len(plan.tube.segments) == 1:
        return
    x = sheet.right + 3.4 + text_width(str(sheet.rounds), letters)
    ends = [(each.first - 1, each.last) for each in reversed(plan.tube.segments)]
    middles = [(sheet.y(first) + sheet.y(last)) / 2 - sheet.top for first, last in ends]
    places = spread(middles, letters * 1.7, sheet.bottom - sheet.top)[::-1]
    for letter, segment, place in zip(ascii_uppercase, plan.tube.segments, places, strict=False):
        low, high = sheet.y(segment.first - 1) - 0.35, sheet.y(segment.last) + 0.35
        lines = ((x - 1.4, low, x, low), (x, low, x, high), (x - 1.4, high, x, high))
        yield Lines(lines, _INK, _MEASURE)
        yield from disc(x + 1.0 + half_width(letter, letters), sheet.top + place, letter, letters)


# ---------------------------------------------------------------- the counter's stops


def _stops(plan: PicturePlan, yarns: Mapping[str, YarnLook]) -> list[_Stop]:
    """Every stop of the counter, from the cast-on up; a fold that is a change too has two flags."""
    found = [_Stop(0, yarns[plan.stripes.bases[0]].name, plan.stripes.bases[0])]
    found += [
        _Stop(each.counter, yarns[each.base].name, each.base) for each in plan.stripes.changes
    ]
    for segment in plan.tube.segments:
        if segment.part is TubePart.LINING and segment.last != plan.tube.fold_after:
            found.append(_Stop(segment.last, "brim starts", None))
        if segment.part is TubePart.OUTER_BRIM:
            found.append(_Stop(segment.last, "brim ends", None))
    if plan.tube.fold_after is not None:
        found.append(_Stop(plan.tube.fold_after, "fold", None))
    found.append(_Stop(plan.tube.total_rounds, "end", None))
    return sorted(found, key=lambda stop: (stop.counter, stop.yarn is not None))


def _apart(letters: float) -> float:
    """From one flag to the next where they crowd."""
    return letters * 1.3 + 0.5


def _places(stops: Sequence[_Stop], sheet: _Sheet, letters: float) -> list[float]:
    """Heights of the flags: each at its round, pushed apart where they crowd.

    Pairs that are too near give way by half the overlap each and are drawn back a little to their
    own rounds, again and again; a last pass upwards leaves none too near.
    """
    gap = _apart(letters)
    wanted = [sheet.y(stop.counter) for stop in stops]
    places = list(wanted)
    for _ in range(80):
        for index in range(1, len(places)):
            over = gap - (places[index - 1] - places[index])
            if over > 0:
                places[index - 1] += over / 2
                places[index] -= over / 2
        places = [at + (own - at) * 0.1 for at, own in zip(places, wanted, strict=True)]
    for index in range(1, len(places)):
        places[index] = min(places[index], places[index - 1] - gap)
    return _lowered(places, letters)


def _lowered(places: list[float], letters: float) -> list[float]:
    """All places moved down if the topmost would leave the drawing."""
    above = letters - min(places)
    return [place + above for place in places] if above > 0 else places


def _flags(
    stops: Sequence[_Stop],
    sheet: _Sheet,
    yarns: Mapping[str, YarnLook],
    letters: float,
    flag: float,
    colour: bool,
) -> Iterator[Shape]:
    """White flags where a yarn begins, with its swatch and name; black ones where a part ends."""
    half = letters * 0.62
    tip = sheet.left - 4.2
    for stop, y in zip(stops, _places(stops, sheet, letters), strict=True):
        at = sheet.y(stop.counter)
        leader = ((sheet.left, at, sheet.left - 1.4, at), (sheet.left - 1.4, at, tip, y))
        yield Lines(leader, _INK, _MEASURE)
        back = tip - flag
        outline: tuple[tuple[str | float, ...], ...] = (
            ("M", back, y - half),
            ("L", tip - 1.3, y - half),
            ("L", tip, y),
            ("L", tip - 1.3, y + half),
            ("L", back, y + half),
            ("Z",),
        )
        yield Path(outline, _PAPER if stop.yarn else _INK, _INK, _FLAG)
        base = y + letters * CAP_HEIGHT / 2
        ink = _INK if stop.yarn else _PAPER
        middle = back + (flag - 1.3) / 2
        yield Label(middle, base, str(stop.counter), letters, "middle", ink, bold=True)
        words = back - 1.0
        if stop.yarn:
            look, side = yarns[stop.yarn], 2 * half
            words -= side + 0.8
            fill = look.colour if colour else _PAPER
            yield Rect(back - 1.0 - side, y - half, side, side, fill, _INK, _MEASURE)
            corner = ((back - 1.0 - side, y - half),)
            yield from symbol_stamps(symbol_of(look.symbol), ink_on(fill), corner, side, side)
        yield Label(words, base, stop.words, letters, "end")
