"""Mirror images and repeats of a picture, so that one half need be described only once."""

from collections.abc import Sequence
from dataclasses import dataclass

from generator.plan.colour.embroidery import Embroidery
from generator.plan.colour.grid import ColourGrid


@dataclass(frozen=True, slots=True)
class Mirror:
    """Axis of a mirror image: 23.0 is through stitch 23, 23.5 between stitches 23 and 24.

    ``opposite`` is where the same axis meets the other side of a tube of N stitches (N + 0.5 is
    between stitch N and stitch 1), ``None`` in a flat piece.
    """

    axis: float
    opposite: float | None


def mirrors(grid: ColourGrid) -> tuple[Mirror, ...]:
    """The axes about which the picture is its own mirror image, by stitch number.

    Plain stripes have as many as there are stitches.
    """
    columns = _columns(grid)
    width = grid.width
    if not grid.wraps:
        same = columns == columns[::-1]
        return (Mirror((width + 1) / 2, None),) if same else ()
    # Stitch s and its image add up to ``total``, counted around the tube.
    axes = [
        _mirror(total, width)
        for total in range(width)
        if all(columns[s] == columns[(total - s - 2) % width] for s in range(width))
    ]
    return tuple(sorted(axes, key=lambda mirror: mirror.axis))


def mirror_pairs(embroidery: Embroidery, width: int, mirror: Mirror) -> tuple[tuple[int, int], ...]:
    """Areas that mirror each other, as pairs of places in ``embroidery.areas``, lower first.

    An area that is its own image makes no pair.
    """
    total = round(2 * mirror.axis)
    areas = [(area.yarn, frozenset(area.cells)) for area in embroidery.areas]
    places = {area: index for index, area in enumerate(areas)}
    pairs = []
    for index, (yarn, cells) in enumerate(areas):
        image = frozenset((round_, (total - stitch - 1) % width + 1) for round_, stitch in cells)
        partner = places.get((yarn, image), index)
        if partner > index:
            pairs.append((index, partner))
    return tuple(pairs)


def repeats_around(grid: ColourGrid) -> int:
    """How often the picture repeats exactly around a tube: 2 where the back equals the front.

    1 for a flat piece.
    """
    if not grid.wraps:
        return 1
    columns = _columns(grid)
    return next(
        repeats
        for repeats in range(grid.width, 0, -1)
        if grid.width % repeats == 0 and columns[: grid.width // repeats] * repeats == columns
    )


def _columns(grid: ColourGrid) -> list[int]:
    """A number for the column of each stitch, stitch 1 first; equal columns, equal numbers."""
    columns: Sequence[tuple[str, ...]] = list(zip(*grid.rounds, strict=True))[::-1]
    numbers = {column: number for number, column in enumerate(dict.fromkeys(columns))}
    return [numbers[column] for column in columns]


def _mirror(total: int, width: int) -> Mirror:
    """The axis of a tube whose stitches and their images add up to ``total``."""
    ends = [end if end >= 1 else end + width for end in (total / 2, (total + width) / 2)]
    return Mirror(min(ends), max(ends))
