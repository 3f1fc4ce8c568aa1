"""What the embroidery charts of a tube show, and its areas as they and the tables number them.

A chart shows a band of rounds: a picture is one band, and motifs far from each other along the tube
are bands of their own, so that nobody prints the plain rounds between. Rounds and areas are counted
anew on each chart. What is parted in one size is parted in all, so that a motif has the same charts
in each.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, pairwise

from bindoff.plan.colour.embroidery import Area
from bindoff.plan.colour.mirror import mirror_pairs
from bindoff.plan.picture import PicturePlan
from bindoff.records import Record
from bindoff.remembered import once_each


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


class Band(Record):
    """The rounds of a tube that one chart shows, and the numbers of their stitches that it does."""

    first: int
    last: int
    stitches: range


_PLAIN = 12  # so many rounds without embroidery part two bands: a heading and a key take as much
_BESIDE = 2  # plain stitches that a chart shows on both sides of its motifs


_Motif = tuple[int, str]  # which of the source, and where on the wearer


class _Gap(Record):
    """Plain rounds between two with embroidery, and the motifs below and above them."""

    low: int
    high: int
    below: frozenset[_Motif]
    above: frozenset[_Motif]

    @property
    def wide(self) -> bool:
        """Whether it parts two bands by itself."""
        return self.high - self.low > _PLAIN

    def is_as(self, other: "_Gap") -> bool:
        """Whether it lies between the same motifs as one of another size, of those both have."""
        both = (self.below | self.above) & (other.below | other.above)
        below, above = self.below & both, self.above & both
        return bool(below and above) and (below, above) == (other.below & both, other.above & both)


def bands(plans: Sequence[PicturePlan]) -> tuple[tuple[Band, ...], ...]:
    """The bands of a tube in each size, lowest first: its picture or motifs, and what stripes hide
    of the tube beside them; none of a tube in stripes alone."""
    gaps = [tuple(_gaps(plan)) for plan in plans]
    wide = [gap for each in gaps for gap in each if gap.wide]
    return tuple(
        _bands(plan, [gap for gap in each if gap.wide or any(map(gap.is_as, wide))])
        for plan, each in zip(plans, gaps, strict=True)
    )


def _bands(plan: PicturePlan, parted: Sequence[_Gap]) -> tuple[Band, ...]:
    rounds = _shown(plan)
    if not rounds:
        return ()
    firsts = [rounds[0], *(gap.high for gap in parted)]
    lasts = [*(gap.low for gap in parted), rounds[-1]]
    return tuple(
        Band(first, last, _stitches(plan, first, last))
        for first, last in zip(firsts, lasts, strict=True)
    )


def _shown(plan: PicturePlan) -> Sequence[int]:
    """The rounds that a chart has to show, in order."""
    ends = {plan.first, plan.last} if plan.has_picture else set()
    return sorted({*ends, *_busy(plan)})


def _gaps(plan: PicturePlan) -> Iterator[_Gap]:
    """The plain rounds between those that a chart has to show."""
    motifs = {(id(each.written), each.place): each for each in plan.motifs}
    for low, high in pairwise(_shown(plan)):
        if high - low > 1:
            below = frozenset(key for key, each in motifs.items() if each.last <= low)
            yield _Gap(low, high, below, frozenset(motifs) - below)


def _busy(plan: PicturePlan) -> Iterator[int]:
    """The rounds with a motif, with embroidery or in two yarns."""
    for motif in plan.motifs:
        yield from range(motif.first, motif.last + 1)
    for number, row in enumerate(plan.overlay, start=1):
        if any(row):
            yield number
    for number, second in enumerate(plan.stripes.seconds, start=1):
        if second:
            yield number


def _stitches(plan: PicturePlan, first: int, last: int) -> range:
    """The stitches that the chart of those rounds shows: the front half where the back mirrors it,
    the motifs where they take less than half of the round, else all."""
    needles = plan.tube.needles
    if plan.mirrored:
        return range(1, needles // 2 + 1)
    rounds = slice(first - 1, last)
    taken = {needles - at for row in plan.overlay[rounds] for at, yarn in enumerate(row) if yarn}
    for motif in plan.motifs:
        if first <= motif.first <= last:
            taken |= {motif.stitch, motif.last_stitch}
    if any(plan.stripes.seconds[rounds]) or not taken:
        return range(1, needles + 1)
    low, high = max(1, min(taken) - _BESIDE), min(needles, max(taken) + _BESIDE)
    return range(low, high + 1) if 2 * (high - low + 1) <= needles else range(1, needles + 1)


def numbered_areas(plan: PicturePlan, band: Band) -> tuple[NumberedArea, ...]:
    """The areas of a band in working order; of two that mirror each other, only the first."""
    areas, images = plan.embroidery.areas, _images(plan)
    second = set(images.values())
    shown = [
        index
        for index, area in enumerate(areas)
        if index not in second and band.first <= area.first_round <= band.last
    ]
    return tuple(
        _numbered(number, areas[index], plan, band, index in images)
        for number, index in enumerate(shown, start=1)
    )


@once_each
def _images(plan: PicturePlan) -> Mapping[int, int]:
    """Of areas that mirror each other, by the first which is the second."""
    if not plan.mirrored:
        return {}
    needles = plan.tube.needles
    return dict(mirror_pairs(plan.embroidery, needles, (needles + 1) / 2))


def alike(areas: Sequence[NumberedArea]) -> Iterator[tuple[NumberedArea, ...]]:
    """The areas that follow each other and differ in nothing but the stitch where they start."""
    for _, run in groupby(areas, key=_shape):
        yield tuple(run)


def _shape(area: NumberedArea) -> tuple[object, ...]:
    return area.yarn, area.first, area.last, area.stitches, area.again is None


def _numbered(
    number: int, area: Area, plan: PicturePlan, band: Band, has_image: bool
) -> NumberedArea:
    below = band.first - 1
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
