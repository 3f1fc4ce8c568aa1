"""The areas of an embroidery as its table and its charts number them, rounds counted as on the
chart."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from bindoff.plan.colour.embroidery import Area
from bindoff.plan.colour.mirror import mirror_pairs
from bindoff.plan.picture import PicturePlan
from bindoff.records import Record


class NumberedArea(Record):
    """An area: its number, its yarn, its rounds, the stitch of the first where it starts, and how
    many stitches it has.

    ``again`` is the stitch at which its mirror image starts, ``None`` where it is its own image or
    the picture has none.
    """

    number: int
    yarn: str
    first: int
    last: int
    stitch: int
    stitches: int
    again: int | None


def embroidered_rounds(plan: PicturePlan) -> tuple[int, int]:
    """The first and last round of the embroidery chart: the picture, and what stripes hide of the
    tube beside it."""
    rounds = [number for number, row in enumerate(plan.overlay, start=1) if any(row)]
    return min([plan.first, *rounds]), max([plan.last, *rounds])


def numbered_areas(plan: PicturePlan) -> tuple[NumberedArea, ...]:
    """The areas of a plan in working order; of two that mirror each other, only the first."""
    areas = plan.embroidery.areas
    images: dict[int, int] = {}
    if plan.mirrored:
        needles = plan.tube.needles
        images = dict(mirror_pairs(plan.embroidery, needles, (needles + 1) / 2))
    second = set(images.values())
    shown = [index for index in range(len(areas)) if index not in second]
    return tuple(
        _numbered(number, areas[index], plan, index in images)
        for number, index in enumerate(shown, start=1)
    )


def alike(areas: Sequence[NumberedArea]) -> Iterator[tuple[NumberedArea, ...]]:
    """The areas that follow each other and differ in nothing but the stitch where they start."""
    for _, run in groupby(areas, key=_shape):
        yield tuple(run)


def _shape(area: NumberedArea) -> tuple[object, ...]:
    return area.yarn, area.first, area.last, area.stitches, area.again is None


def _numbered(number: int, area: Area, plan: PicturePlan, has_image: bool) -> NumberedArea:
    below = embroidered_rounds(plan)[0] - 1
    _, stitch = area.cells[0]
    return NumberedArea(
        number,
        area.yarn,
        area.first_round - below,
        area.last_round - below,
        stitch,
        area.stitches,
        plan.tube.needles + 1 - stitch if has_image else None,
    )
