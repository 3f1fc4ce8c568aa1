"""A picture of the knitted fabric: every knit stitch a V in its yarn, every purl stitch a bump.

Yarn overs are holes, decreases lean, crosses pass one group of stitches over another, and where
there is no stitch there is nothing.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, lru_cache

from bindoff.document.drawing import Drawing, Path, Rect, Shape, Stamps
from bindoff.document.faces import Crossing, Face, Look
from bindoff.document.yarn.cloth import bumps, hole, legs
from bindoff.records import replace

_UNDER = 0.08  # of a cell: how far a ground reaches under its neighbours
_SHADE = 0.64  # the hollow between the two legs of a stitch, darker than the yarn
_EDGE = 0.74  # the line between two stitches
_FINE = 0.05  # its weight, of the width of a stitch
DEPTH = 0.35  # the shade of what is seen through a hole
_SLANT = 0.6  # of a cell, from the foot of a decrease to its head
_ABOVE, _BELOW = 0.42, 0.15  # of a cell, to both sides: a stitch at its head and at its foot
_FOOT = 1.18  # of a cell, from its top: as far as the middle of what is seen lies in its own
_HEAD = 0.36  # of a cell: how far a stitch reaches into the row above

_Legs = list[tuple[str | float, ...]]
Point = tuple[float, float]


def fabric(
    rounds: Sequence[Sequence[str]],
    colours: Mapping[str, str],
    aspect: float,
    width_mm: float,
    height_mm: float,
    faces: Mapping[tuple[int, int], Face] | None = None,
) -> Drawing:
    """``rounds`` (bottom first, each left to right) of yarn ids as large as the box allows.

    ``aspect`` is the width of a stitch divided by its height. ``faces`` are the stitches that do
    not look like knit ones, as (round, place from the left), both from 0.
    """
    across, high = len(rounds[0]), len(rounds)
    cell_h = min(height_mm / high, width_mm / across / aspect)
    cell_w = cell_h * aspect
    shapes: list[Shape] = []
    knit: dict[str, list[Point]] = {}
    purl: dict[str, list[Point]] = {}
    heads: dict[str, list[Point]] = {}
    over: list[dict[Path, list[Point]]] = []  # what lies upon the stitches around it, by rounds
    seen = faces or {}

    @cache
    def upon(face: Face, yarn: str) -> list[Path]:
        return _upon(face, cell_w, cell_h, colours[yarn])

    bare = {at for at, face in seen.items() if face is Look.NOTHING}
    grounds = [
        _runs(["" if (number, place) in bare else yarn for place, yarn in enumerate(stitches)])
        for number, stitches in enumerate(rounds)
    ]
    beneath = _beneath(grounds)
    if beneath:
        fill = darker(colours[beneath], _SHADE)
        shapes.append(Rect(0.0, 0.0, across * cell_w, high * cell_h, fill))
    for number, runs in reversed(list(enumerate(grounds))):
        y = (high - 1 - number) * cell_h
        # Grounds reach under what is painted after them, below and on the right: where they only
        # met, the paper would show through as a light seam.
        down = 0.0 if number == 0 or beneath else _UNDER * cell_h
        over.append({})
        for first, last, yarn in runs:
            if not yarn:
                continue
            if yarn != beneath:
                across_under = 0.0 if last == across or beneath else _UNDER * cell_w
                box = ((last - first) * cell_w + across_under, cell_h + down)
                shapes.append(Rect(first * cell_w, y, *box, darker(colours[yarn], _SHADE)))
            for stitch in range(first, last):
                face = seen.get((number, stitch))
                if face is None:
                    knit.setdefault(yarn, []).append(((stitch + 0.5) * cell_w, y + _FOOT * cell_h))
                    below = rounds[number - 1][stitch] if number else yarn
                    if below and below != yarn:
                        heads.setdefault(below, []).append(((stitch + 0.5) * cell_w, y))
                elif face is Look.PURL:
                    purl.setdefault(yarn, []).append(((stitch + 0.5) * cell_w, y + _FOOT * cell_h))
                else:
                    for path in upon(face, yarn):
                        over[-1].setdefault(path, []).append((stitch * cell_w, y))
    beside = _heads(cell_w, cell_h)
    shapes += [
        Stamps(Path(beside, fill=darker(colours[yarn], _SHADE)), tuple(places))
        for yarn, places in heads.items()
    ]
    size = across * cell_w, high * cell_h
    for places, outline in ((purl, bumps(cell_w, cell_h)), (knit, legs(cell_w, cell_h))):
        looks = {yarn: stitch_look(outline, colours[yarn], cell_w) for yarn in places}
        shapes += (
            each for yarn, some in places.items() for each in _stamped(some, looks[yarn], size)
        )
    shapes += (
        each for row in over for path, some in row.items() for each in _stamped(some, path, size)
    )
    return Drawing(*size, tuple(shapes))


def _beneath(grounds: Sequence[Sequence[tuple[int, int, str]]]) -> str:
    """The yarn of the most runs, which can lie beneath all others where nothing is left bare."""
    runs = Counter(yarn for row in grounds for _, _, yarn in row)
    return "" if "" in runs else max(sorted(runs), key=lambda yarn: runs[yarn])


def _upon(face: Face, w: float, h: float, colour: str) -> list[Path]:
    """What lies upon the stitches around it, where the first cell of ``face`` begins at (0, 0)."""
    if isinstance(face, Crossing):
        return crossing(face, 0.0, 0.0, w, h, colour)
    if face is Look.HOLE:
        return [Path(tuple(_hole(0.0, 0.0, w, h)), fill=darker(colour, DEPTH))]
    if face in (Look.LEFT, Look.RIGHT):
        slant = _SLANT * w * (1 if face is Look.RIGHT else -1)
        leaning = _leaning(_stitch(0.0, 0.0, w, h), 0.0, h, -slant / 2, slant)
        return [stitch_look(tuple(leaning), colour, w)]
    return []  # it is covered, or there is nothing


def _stamped(places: Sequence[Point], look: Path, size: Point) -> Iterator[Shape]:
    """A stitch at every place, the lowest first, cut off at the edges of the picture."""
    xs = [float(n) for _, *numbers in look.commands for n in numbers[::2]]
    ys = [float(n) for _, *numbers in look.commands for n in numbers[1::2]]
    (left, right), (top, low) = (-min(xs), size[0] - max(xs)), (-min(ys), size[1] - max(ys))
    inside, edge = list[Point](), list[Point]()
    for x, y in sorted(places, key=lambda place: -place[1]):
        whole = left <= x <= right and top <= y <= low
        (inside if whole else edge).append((x, y))
    for path in Stamps(look, tuple(edge)).moved():
        yield _within(path, *size)
    if inside:
        yield Stamps(look, tuple(inside))


def stitch_look(outline: tuple[tuple[str | float, ...], ...], colour: str, wide: float) -> Path:
    """A stitch ``wide`` in its yarn, with a fine dark edge that parts it from its neighbours."""
    return Path(outline, colour, darker(colour, _EDGE), _FINE * wide)


def _heads(w: float, h: float) -> tuple[tuple[str | float, ...], ...]:
    """What of the stitch below shows beside the foot of one whose cell has the middle of its upper
    edge at (0, 0)."""
    foot, head = _FOOT * h, (_FOOT - _HEAD) * h
    return tuple(
        command
        for side in (-1, 1)
        for command in (
            ("M", side * w / 2, foot),
            ("L", side * w * _BELOW, foot),
            ("L", side * w * _ABOVE, head),
            ("L", side * w / 2, head),
            ("Z",),
        )
    )


def _runs(stitches: Sequence[str]) -> list[tuple[int, int, str]]:
    runs: list[tuple[int, int, str]] = []
    for index, yarn in enumerate(stitches):
        if runs and runs[-1][2] == yarn:
            runs[-1] = (runs[-1][0], index + 1, yarn)
        else:
            runs.append((index, index + 1, yarn))
    return runs


def _stitch(x: float, y: float, w: float, h: float) -> _Legs:
    """The two legs of one stitch in its cell."""
    (path,) = Stamps(Path(legs(w, h)), ((x + w / 2, y + _FOOT * h),)).moved()
    return list(path.commands)


def _leaning(legs: _Legs, y: float, h: float, foot: float, slant: float) -> _Legs:
    """``legs`` moved by ``foot`` where they begin below, and by ``slant`` more at their head."""

    def moved(numbers: Sequence[float]) -> list[float]:
        found = list(numbers)
        for place in range(0, len(found), 2):
            found[place] += foot + slant * (1 - (found[place + 1] - y) / h)
        return found

    return [(str(name), *moved([float(number) for number in numbers])) for name, *numbers in legs]


def _within(path: Path, width: float, height: float) -> Path:
    """A path that keeps to the picture: a stitch at its edge leans no further than that."""
    ends = (width, height)
    commands = tuple(
        (name, *(min(max(float(n), 0.0), ends[at % 2]) for at, n in enumerate(numbers)))
        for name, *numbers in path.commands
    )
    return replace(path, commands=commands)


def _hole(x: float, y: float, w: float, h: float) -> _Legs:
    """The hole of a yarn over."""
    (path,) = Stamps(Path(hole(w, h)), ((x + w / 2, y + h),)).moved()
    return list(path.commands)


def crossing(face: Crossing, x: float, y: float, w: float, h: float, colour: str) -> list[Path]:
    """A cross over its cells: the stitches behind, the hollow beside those in front, these.

    ``y`` is the head of its lowest round.
    """
    found: list[Path] = []
    groups = ((face.behind, not face.right, face.front), (face.front, face.right, face.behind))
    for count, right, past in groups:
        start = x if right else x + (face.wide - count) * w
        slant = past * w * (1 if right else -1)
        top = y - (face.high - 1) * h
        edge = [
            ("M", start, y + h),
            ("L", start + count * w, y + h),
            ("L", start + count * w + slant, top),
            ("L", start + slant, top),
            ("Z",),
        ]
        found.append(Path(tuple(edge), fill=darker(colour, _SHADE)))
        lean: _Legs = []
        step = slant / face.high
        for round_ in reversed(range(face.high)):
            foot, head = start + round_ * step, y - round_ * h
            for place in range(count):
                lean += _leaning(_stitch(foot + place * w, head, w, h), head, h, 0.0, step)
        found.append(stitch_look(tuple(lean), colour, w))
    return found


@lru_cache(maxsize=256)
def darker(colour: str, shade: float) -> str:
    """The colour with so much of its light."""
    parts = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(part * shade):02x}" for part in parts)
