"""A picture of the knitted fabric: every knit stitch a V in its yarn, every purl stitch a bump.

Yarn overs are holes, decreases lean, crosses pass one group of stitches over another, and where
there is no stitch there is nothing.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from bindoff.craft.symbols import circle
from bindoff.document.drawing import Drawing, Path, Rect, Shape
from bindoff.document.faces import Crossing, Face, Look

_UNDER = 0.08  # of a cell: how far a ground reaches under its neighbours
_SHADE = 0.82  # the hollow between the two legs of a stitch, darker than the yarn
_DEPTH = 0.35  # the shade of what is seen through a hole
_SLANT = 0.6  # of a cell, from the foot of a decrease to its head

_Legs = list[tuple[str | float, ...]]


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
    legs: dict[str, _Legs] = {}
    over: list[Path] = []  # what lies upon the stitches around it
    seen = faces or {}
    for number, stitches in reversed(list(enumerate(rounds))):
        y = (high - 1 - number) * cell_h
        # Grounds reach under what is painted after them, below and on the right: where they only
        # met, the paper would show through as a light seam.
        down = 0.0 if number == 0 else _UNDER * cell_h
        ground = [
            "" if seen.get((number, place)) is Look.NOTHING else yarn
            for place, yarn in enumerate(stitches)
        ]
        for first, last, yarn in _runs(ground):
            if not yarn:
                continue
            across_under = 0.0 if last == across else _UNDER * cell_w
            box = ((last - first) * cell_w + across_under, cell_h + down)
            shapes.append(Rect(first * cell_w, y, *box, _darker(colours[yarn])))
            for stitch in range(first, last):
                cell = (stitch * cell_w, y, cell_w, cell_h)
                face = seen.get((number, stitch))
                if face is None:
                    legs.setdefault(yarn, []).extend(_stitch(*cell))
                elif face is Look.PURL:
                    legs.setdefault(yarn, []).extend(_bump(*cell))
                elif isinstance(face, Crossing):
                    over += _crossing(face, *cell, colours[yarn])
                elif face is Look.HOLE:
                    over.append(Path(tuple(_hole(*cell)), fill=_darker(colours[yarn], _DEPTH)))
                elif face in (Look.LEFT, Look.RIGHT):
                    slant = _SLANT * cell_w * (1 if face is Look.RIGHT else -1)
                    leaning = tuple(_leaning(_stitch(*cell), y, cell_h, -slant / 2, slant))
                    over.append(Path(leaning, fill=colours[yarn]))
    shapes += [Path(tuple(commands), fill=colours[yarn]) for yarn, commands in legs.items()]
    shapes += (_within(path, across * cell_w, high * cell_h) for path in over)
    return Drawing(across * cell_w, high * cell_h, tuple(shapes))


def _runs(stitches: Sequence[str]) -> list[tuple[int, int, str]]:
    runs: list[tuple[int, int, str]] = []
    for index, yarn in enumerate(stitches):
        if runs and runs[-1][2] == yarn:
            runs[-1] = (runs[-1][0], index + 1, yarn)
        else:
            runs.append((index, index + 1, yarn))
    return runs


def _stitch(x: float, y: float, w: float, h: float) -> list[tuple[str | float, ...]]:
    """The two legs of one stitch: slanting drops that meet at the foot of the cell."""
    middle, foot = x + w / 2, y + h * 1.12
    commands: list[tuple[str | float, ...]] = []
    for edge in (x + w * 0.04, x + w * 0.96):
        inner = middle + (0.03 if edge > middle else -0.03) * w
        bulge = edge + (inner - edge) * 0.62
        commands += [
            ("M", edge, y + h * 0.02),
            ("C", bulge, y - h * 0.06, inner, y + h * 0.38, inner, foot - h * 0.02),
            ("C", inner - (inner - edge) * 0.5, foot - h * 0.1, edge, y + h * 0.72, edge, y),
            ("Z",),
        ]
    return commands


def _bump(x: float, y: float, w: float, h: float) -> list[tuple[str | float, ...]]:
    """The head of a purl stitch: a flat arch across the cell and the one below it."""
    left, right = x - w * 0.06, x + w * 1.06
    found: list[tuple[str | float, ...]] = []
    for top in (y + h * 0.06, y + h * 0.56):
        foot = top + h * 0.36
        found += [
            ("M", left, foot),
            ("C", left, top - h * 0.06, right, top - h * 0.06, right, foot),
            ("C", right - w * 0.1, foot - h * 0.12, left + w * 0.1, foot - h * 0.12, left, foot),
            ("Z",),
        ]
    return found


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
    """The hole of a yarn over, as round as the cell lets it be."""
    middle, centre, radius = x + w / 2, y + h / 2, 0.38 * min(w, h)
    return list(circle(middle, centre, radius))


def _crossing(face: Crossing, x: float, y: float, w: float, h: float, colour: str) -> list[Path]:
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
        found.append(Path(tuple(edge), fill=_darker(colour, _SHADE**2)))
        legs: _Legs = []
        step = slant / face.high
        for round_ in reversed(range(face.high)):
            foot, head = start + round_ * step, y - round_ * h
            for place in range(count):
                legs += _leaning(_stitch(foot + place * w, head, w, h), head, h, 0.0, step)
        found.append(Path(tuple(legs), fill=colour))
    return found


def _darker(colour: str, shade: float = _SHADE) -> str:
    parts = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(part * shade):02x}" for part in parts)
