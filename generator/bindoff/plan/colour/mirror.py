"""Mirror images in a picture, so that one half need be described only once."""

from bindoff.plan.colour.embroidery import Embroidery


def mirror_pairs(embroidery: Embroidery, width: int, axis: float) -> tuple[tuple[int, int], ...]:
    """Areas that mirror each other, as pairs of places in ``embroidery.areas``, lower first.

    On a tube of ``width`` stitches; an ``axis`` of 23.0 is through stitch 23, of 23.5 between it
    and the next. An area that is its own image makes no pair.
    """
    total = round(2 * axis)
    areas = [(area.yarn, frozenset(area.cells)) for area in embroidery.areas]
    places = {area: index for index, area in enumerate(areas)}
    pairs = []
    for index, (yarn, cells) in enumerate(areas):
        image = frozenset((round_, (total - stitch - 1) % width + 1) for round_, stitch in cells)
        partner = places.get((yarn, image), index)
        if partner > index:
            pairs.append((index, partner))
    return tuple(pairs)
