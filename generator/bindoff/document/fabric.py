"""A picture of the knitted fabric: every knit stitch a V in its yarn, every purl stitch a bump."""

from collections.abc import Collection, Mapping, Sequence

from bindoff.document.drawing import Drawing, Path, Rect, Shape

_UNDER = 0.08  # of a cell: how far a ground reaches under its neighbours
_SHADE = 0.82  # the hollow between the two legs of a stitch, darker than the yarn


def fabric(
    rounds: Sequence[Sequence[str]],
    colours: Mapping[str, str],
    aspect: float,
    width_mm: float,
    height_mm: float,
    purls: Collection[tuple[int, int]] = (),
) -> Drawing:
    """``rounds`` (bottom first, each left to right) of yarn ids as large as the box allows.

    ``aspect`` is the width of a stitch divided by its height. ``purls`` are the stitches whose
    purl side is seen, as (round, place from the left), both from 0.
    """
    across, high = len(rounds[0]), len(rounds)
    cell_h = min(height_mm / high, width_mm / across / aspect)
    cell_w = cell_h * aspect
    shapes: list[Shape] = []
    legs: dict[str, list[tuple[str | float, ...]]] = {}
    for number, stitches in reversed(list(enumerate(rounds))):
        y = (high - 1 - number) * cell_h
        # Grounds reach under what is painted after them, below and on the right: where they only
        # met, the paper would show through as a light seam.
        down = 0.0 if number == 0 else _UNDER * cell_h
        for first, last, yarn in _runs(stitches):
            across_under = 0.0 if last == across else _UNDER * cell_w
            box = ((last - first) * cell_w + across_under, cell_h + down)
            shapes.append(Rect(first * cell_w, y, *box, _darker(colours[yarn])))
            for stitch in range(first, last):
                draw = _bump if (number, stitch) in purls else _stitch
                legs.setdefault(yarn, []).extend(draw(stitch * cell_w, y, cell_w, cell_h))
    shapes += [Path(tuple(commands), fill=colours[yarn]) for yarn, commands in legs.items()]
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


def _darker(colour: str) -> str:
    parts = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(part * _SHADE):02x}" for part in parts)
