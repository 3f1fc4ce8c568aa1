"""A folded tube as it is worn: from the front and cut through the middle, beside its map and at the
same scale, drawn from the same zones with the same letters."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import groupby
from math import sqrt
from string import ascii_uppercase

from bindoff.document.discs import disc, half_width
from bindoff.document.drawing import Label, Lines, Path, Rect, Shape
from bindoff.plan.picture import PicturePlan
from bindoff.plan.tube import Segment, TubePart
from bindoff.records import Record

_PAPER, _INK = "#ffffff", "#000000"
_OUTLINE, _LEADER = 0.45, 0.2
_WALL, _INSIDE = 1.3, 0.8  # mm, a layer of fabric in section, and the white in it
_APART = 2.15  # mm between the middles of two layers
_HALF = 11.0  # mm from the middle to the outer layer
_OVERHANG = 1.2  # mm that a turned-up brim stands out on each side
_EDGE = 1.2  # mm that the joined edges of a tuft rise above where its layers end
_CROWN, _ROUND = 9.0, 2.4  # mm of a gathered top that round off, and how full their curve is
_FOLDS = 4.2  # mm between two folds of a gathered top, where they end,
_FOLDS_SHARE = 0.26  # ... or so much of half the width where that is less
_NECK = 0.12  # of the width: where a tie draws the top together
_FLARE = 0.34  # ... and the width of the tuft above it
_TIE = 1.6  # mm, the strip that ties it
_KAPPA = 0.5523  # of a quarter circle's radius, to its control points

Command = tuple[str | float, ...]
Share = Callable[[float], float]
"""How wide the piece is at a height on paper, from 0 to 1."""


class Folded(Record):
    """Where the views lie: their left edge and room across, the top, mm; and the size of a stitch
    and a round on paper."""

    left: float
    width: float
    top: float
    stitch: float
    round_: float
    letters: float

    @property
    def middle(self) -> float:
        """The middle of both views."""
        return self.left + self.width / 2


def letters_of(plan: PicturePlan) -> Mapping[TubePart, str]:
    """The letter of every zone, from the cast-on."""
    return {
        segment.part: letter
        for letter, segment in zip(ascii_uppercase, plan.tube.segments, strict=False)
    }


def motif_letters(plan: PicturePlan) -> Mapping[str, str]:
    """The letter of each motif by its chart, after those of the zones; a tube of one zone has none
    for that."""
    zones = len(plan.tube.segments) if len(plan.tube.segments) > 1 else 0
    charts = dict.fromkeys(each.chart for each in plan.motifs)
    return dict(zip(charts, ascii_uppercase[zones:], strict=False))


def is_folded(plan: PicturePlan) -> bool:
    """Whether there is anything to show: a tube of one layer is seen on its map."""
    return plan.tube.fold_after is not None


def width_of(plan: PicturePlan, stitch: float, letters: float) -> float:
    """The room that the views need across."""
    section = 2 * (_HALF + 2 * _APART) + 6.4 * letters
    return max(plan.tube.needles / 2 * stitch + 2 * _OVERHANG + 1.0, section)


def heights(
    plan: PicturePlan, round_: float, letters: float, tied: bool = False
) -> tuple[float, float]:
    """The room down that the view from the front and the section need, with their names."""
    shown = _rounds(plan, TubePart.OUTER) * round_ + _tuft(plan, round_, tied)
    return shown + 4.6 * letters, shown + 5.0 * letters


def from_the_front(
    plan: PicturePlan, place: Folded, yarns: Mapping[str, str], colour: bool, tied: bool = False
) -> Iterator[Shape]:
    """The front half as worn, the brim turned up; ``yarns`` are colours. One that is ``tied`` has
    its ends above the tie, as a tuft."""
    letters, middle = letters_of(plan), place.middle
    outer = plan.tube.segment(TubePart.OUTER)
    brim = plan.tube.segment(TubePart.LINING_BRIM)
    assert outer is not None
    turned_up = _rounds(plan, TubePart.LINING_BRIM)
    tuft = _tuft(plan, place.round_, tied)
    rim = place.top + 2.4 * place.letters + _rounds(plan, TubePart.OUTER) * place.round_ + tuft
    top = rim - _rounds(plan, TubePart.OUTER) * place.round_
    gathered = plan.tube.segment(TubePart.OUTER_GATHER) is not None

    def share(y: float) -> float:
        """How wide the piece is at a height: whole, then gathered to the middle."""
        over = (top + _CROWN - y) / _CROWN
        if not gathered or over <= 0:
            return 1.0
        return max(_NECK if tuft else 0.0, sqrt(1 - min(over, 1.0) ** _ROUND))

    seen = range(outer.first + turned_up, outer.last + 1)
    if colour:
        yield from _rows(plan, seen, rim - turned_up * place.round_, place, yarns, share)
    else:
        yield from _edges(plan, seen, rim - turned_up * place.round_, place, share)
    yield _outline(plan, place, rim - turned_up * place.round_, top, share)
    half = plan.tube.needles / 4 * place.stitch
    if gathered:
        apart = min(_FOLDS, half * _FOLDS_SHARE)
        folds = ((k * apart / 3, k * apart, 5.0 - abs(k) * 0.3) for k in (-3, -2, -1, 0, 1, 2, 3))
        yield Lines(
            tuple((middle + a, top + 0.7, middle + b, top + down) for a, b, down in folds),
            _INK,
            _LEADER,
        )
        named = letters[TubePart.OUTER_GATHER]
        end = plan.tube.segment(TubePart.OUTER_GATHER)
        at = (middle, top - place.letters * 1.1)
        if tuft and end is not None:
            fill = yarns[plan.stripes.bases[end.first - 1]] if colour else None
            yield from _tied(middle, top, half, tuft, fill)
            at = (middle + half * _FLARE + place.letters * 1.2, top - tuft / 2)
        yield from disc(*at, named, place.letters)
    if brim is not None:
        high = turned_up * place.round_
        wide = 2 * (half + _OVERHANG)
        left = middle - half - _OVERHANG
        if colour:
            yield from _rows(plan, range(brim.first, brim.last + 1), rim, place, yarns)
            for x in (left, left + wide - _OVERHANG):
                for number in range(brim.first, brim.last + 1):
                    y = rim - (number - brim.first + 1) * place.round_
                    base = yarns[plan.stripes.bases[number - 1]]
                    yield Rect(x, y, _OVERHANG, place.round_, base)
        yield Rect(left, rim - high, wide, high, None, _INK, _OUTLINE)
        named = letters[TubePart.LINING_BRIM]
        yield from disc(left + wide - place.letters, rim - high / 2, named, place.letters)
    body = (rim - turned_up * place.round_ + top + _CROWN) / 2
    named = letters[TubePart.OUTER]
    yield from disc(middle + half - place.letters, body, named, place.letters)
    yield Label(middle, rim + 1.6 * place.letters, "from the front", place.letters, "middle")


def _tuft(plan: PicturePlan, round_: float, tied: bool) -> float:
    """How high the ends stand above a tie, on paper."""
    return _rounds(plan, TubePart.OUTER_GATHER) * round_ if tied else 0.0


def _tied(middle: float, top: float, half: float, tuft: float, fill: str | None) -> Iterator[Shape]:
    """The tuft above the tie, and the strip with its knot and its two ends."""
    neck, flare = half * _NECK, half * _FLARE
    up = top - tuft
    outline: list[Command] = [("M", middle - neck, top)]
    outline += [("C", middle - neck, top - tuft / 2, middle - flare, up + tuft / 3)]
    outline[-1] = (*outline[-1], middle - flare, up)
    waves = 6
    for at in range(waves):
        from_ = middle - flare + 2 * flare * at / waves
        to = from_ + 2 * flare / waves
        outline.append(("C", from_, up - 0.8, to, up - 0.8, to, up))
    outline.append(
        ("C", middle + flare, up + tuft / 3, middle + neck, top - tuft / 2, middle + neck, top)
    )
    yield Path((*outline, ("Z",)), fill, _INK, _OUTLINE)
    folds = ((k * neck / 3, k * flare / 3) for k in (-2, -1, 0, 1, 2))
    yield Lines(
        tuple((middle + a, top - 0.6, middle + b, up + tuft * 0.35) for a, b in folds),
        _INK,
        _LEADER,
    )
    for side in (-1, 1):
        x = middle + side * neck * 0.4
        yield _strip((x, top), (x + side * 2.6, top + 5.5), 1.2)
    yield Rect(middle - neck - 0.7, top - _TIE / 2, 2 * neck + 1.4, _TIE, _PAPER, _INK, _LEADER)
    yield Rect(middle - 1.0, top - 1.2, 2.0, 2.4, _PAPER, _INK, _LEADER)


def _strip(from_: tuple[float, float], to: tuple[float, float], wide: float) -> Path:
    """An end of the strip that ties, hanging down."""
    (x, y), (a, b) = from_, to
    return Path(
        (
            ("M", x - wide / 2, y),
            ("L", a - wide / 2, b),
            ("L", a + wide / 2, b),
            ("L", x + wide / 2, y),
            ("Z",),
        ),
        _PAPER,
        _INK,
        _LEADER,
    )


def in_section(plan: PicturePlan, place: Folded, tied: bool = False) -> Iterator[Shape]:
    """The piece cut through from side to side: where each zone lies when it is worn."""
    letters, middle, size = letters_of(plan), place.middle, place.letters
    shown = _rounds(plan, TubePart.OUTER) * place.round_
    tuft = _tuft(plan, place.round_, tied)
    top = place.top + 2.4 * size + tuft
    rim = top + shown
    brim = _rounds(plan, TubePart.LINING_BRIM) * place.round_
    gathered = TubePart.OUTER_GATHER in letters
    for side in (-1, 1):
        for layer in _layers(top, rim, brim, gathered):
            commands = tuple(_turned(command, middle, side) for command in layer)
            yield Path(commands, None, _INK, _WALL)
            yield Path(commands, None, _PAPER, _INSIDE)
    if gathered:
        both = f"{letters[TubePart.LINING_GATHER]} {letters[TubePart.OUTER_GATHER]}"
        if tuft:
            yield from _tuft_in_section(middle, top, tuft)
        else:
            yield Lines(((middle, top - 1.6, middle, top + _APART + 1.6),), _INK, 0.9)
        base = top - (tuft + _EDGE if tuft else 1.6) - 0.4 * size
        yield Label(middle, base, both, size, "middle", bold=True)
    inside = middle - _HALF + _APART + size * 1.3
    yield from disc(inside, (top + rim) / 2, letters[TubePart.LINING], size)
    reach = _HALF + (2 * _APART if brim else 0.0) + size * 1.3
    y = rim - brim - max(size, (shown - brim) / 4)
    yield from _pointed(middle + _HALF, middle + reach, y, letters[TubePart.OUTER], size)
    if brim:
        y = rim - brim / 2
        outside = _HALF + 2 * _APART
        named = letters[TubePart.LINING_BRIM]
        yield from _pointed(middle + outside, middle + reach, y, named, size)
        named = letters[TubePart.OUTER_BRIM]
        yield from _pointed(middle - _HALF - _APART, middle - reach, y, named, size)
    below = 1.6 + (1.6 if brim else 0.0)
    yield Label(middle, rim + below + 1.4 * size, "folded, in section", size, "middle")


def _tuft_in_section(middle: float, top: float, tuft: float) -> Iterator[Shape]:
    """Both layers on each side, joined at their edges and spread above the tie, and the strip
    around them."""
    for side in (-1, 1):
        foot = middle + side * 0.6
        inner, outer = (middle + side * out * 1.6 for out in (1.6, 1.6 + 1.6 * _WALL))
        low, high, edge = top - tuft / 3, top - tuft, top - tuft - _EDGE
        commands: tuple[Command, ...] = (
            ("M", foot, top + _APART),
            ("C", foot, low, inner, low, inner, high),
            ("C", inner, edge, outer, edge, outer, high),
            ("C", outer, low, foot, low, foot, top + _APART),
        )
        yield Path(commands, None, _INK, _WALL)
        yield Path(commands, None, _PAPER, _INSIDE)
    for side in (-1, 1):
        x = middle + side * 1.5 - 0.8
        yield Rect(x, top - _TIE / 2, _TIE, _TIE, _INK)


def _pointed(at: float, to: float, y: float, letter: str, size: float) -> Iterator[Shape]:
    yield Lines(((at, y, to, y),), _INK, _LEADER)
    yield from disc(to, y, letter, size)


def _rounds(plan: PicturePlan, part: TubePart) -> int:
    segment: Segment | None = plan.tube.segment(part)
    return 0 if segment is None else segment.last - segment.first + 1


def _rows(
    plan: PicturePlan,
    rounds: Sequence[int],
    bottom: float,
    place: Folded,
    yarns: Mapping[str, str],
    share: Share | None = None,
) -> Iterator[Shape]:
    """Rounds of the front half from ``bottom`` up, runs of one yarn, drawn together by colour."""
    tube = plan.tube
    half = tube.needles // 2
    stitches = [(tube.front - 1 + at) % tube.needles + 1 for at in reversed(range(half))]
    found: dict[str, list[Command]] = {}
    for number, round_ in enumerate(rounds):
        low, high = bottom - number * place.round_, bottom - (number + 1) * place.round_
        narrow = (share(low), share(high)) if share else (1.0, 1.0)
        row = plan.colours.rounds[round_ - 1]
        at = 0
        for yarn, run in groupby(row[tube.needles - stitch] for stitch in stitches):
            count = len(list(run))
            ends = [(each - half / 2) * place.stitch for each in (at, at + count)]
            found.setdefault(yarn, []).extend(
                (
                    ("M", place.middle + ends[0] * narrow[0], low),
                    ("L", place.middle + ends[1] * narrow[0], low),
                    ("L", place.middle + ends[1] * narrow[1], high),
                    ("L", place.middle + ends[0] * narrow[1], high),
                    ("Z",),
                )
            )
            at += count
    for yarn, commands in found.items():
        yield Path(tuple(commands), fill=yarns[yarn])


def _edges(
    plan: PicturePlan, rounds: range, bottom: float, place: Folded, share: Share
) -> Iterator[Shape]:
    """Lines where stripes meet, and frames of the motifs on the front, without colours."""
    half = plan.tube.needles / 4 * place.stitch
    lines = []
    for change in plan.stripes.changes:
        if change.counter in rounds[:-1]:
            y = bottom - (change.counter - rounds[0] + 1) * place.round_
            lines.append((place.middle - half * share(y), y, place.middle + half * share(y), y))
    if lines:
        yield Lines(tuple(lines), _INK, _LEADER)
    for motif in plan.motifs:
        if motif.first in rounds and motif.place in ("front", "all around"):
            y = bottom - (motif.last - rounds[0] + 1) * place.round_
            wide = min(motif.width * place.stitch, 2 * half * share(y))
            high = len(motif.cells) * place.round_
            yield Rect(place.middle - wide / 2, y, wide, high, None, _INK, _LEADER)
            letter = motif_letters(plan).get(motif.chart)
            if letter and high > 2 * half_width(letter, place.letters):
                yield from disc(place.middle, y + high / 2, letter, place.letters)


def _outline(plan: PicturePlan, place: Folded, bottom: float, top: float, share: Share) -> Path:
    half = plan.tube.needles / 4 * place.stitch
    steps = [bottom + (top - bottom) * index / 40 for index in range(41)]
    right = [(place.middle + half * share(y), y) for y in steps]
    left = [(place.middle - half * share(y), y) for y in reversed(steps)]
    (first, *rest) = [*right, *left]
    lines: list[Command] = [("M", *first), *(("L", *point) for point in rest), ("Z",)]
    return Path(tuple(lines), None, _INK, _OUTLINE)


def _layers(top: float, rim: float, brim: float, gathered: bool) -> Iterator[tuple[Command, ...]]:
    """The layers on one side, x from the middle: the lining down, round the rim, up the outside."""
    outer, inner = _HALF, _HALF - _APART
    arc = min(12.0, (rim - top - brim) * 0.5)

    def up(x: float, y: float) -> list[Command]:
        if not gathered:
            return [("L", x, y)]
        return [("L", x, y + arc), ("C", x, y + arc * 0.35, x * 0.55, y, 0.6, y)]

    def turn(from_: float, to: float, y: float, down: int) -> list[Command]:
        """Half a circle from one layer to the next, below ``y`` or above it."""
        middle, radius = (from_ + to) / 2, abs(to - from_) / 2
        bend = (to - from_) / 2 * _KAPPA
        end = y + radius * down
        return [
            ("C", from_, y + radius * _KAPPA * down, middle - bend, end, middle, end),
            ("C", middle + bend, end, to, y + radius * _KAPPA * down, to, y),
        ]

    below = top + _APART
    start: list[Command] = [("M", inner, below)]
    if gathered:
        start = [
            ("M", 0.6, below),
            ("C", inner * 0.55, below, inner, below + arc * 0.35, inner, below + arc),
        ]
    if not brim:
        hem = [("L", inner, rim - 1.0), *turn(inner, outer, rim - 1.0, 1)]
        yield (*start, *hem, *up(outer, top))
        return
    one, two = outer + _APART, outer + 2 * _APART
    yield (
        *start,
        ("L", inner, rim - 1.0),
        *turn(inner, two, rim - 1.0, 1),
        ("L", two, rim - brim + 1.0),
        *turn(two, one, rim - brim + 1.0, -1),
        ("L", one, rim - 1.4),
        *turn(one, outer, rim - 1.4, 1),
        *up(outer, top),
    )


def _turned(command: Command, middle: float, side: int) -> Command:
    name, *numbers = command
    placed = (
        float(each) if at % 2 else middle + side * float(each) for at, each in enumerate(numbers)
    )
    return (name, *placed)
