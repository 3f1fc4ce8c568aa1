"""The charts of a tube: its picture or motifs as they will be seen, and what is embroidered."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from bindoff.document.areas import Band, NumberedArea, bands, numbered_areas
from bindoff.document.chartkeys import overlay_keys, yarn_keys
from bindoff.document.charts.spec import ChartKey, ChartSpec, Marker, Tag
from bindoff.document.phrases import joined, text
from bindoff.document.tree import Inlines, Link
from bindoff.document.voice import Voice
from bindoff.english import ended, listed
from bindoff.plan.persize import named
from bindoff.plan.picture import PicturePlan, piece_gauges
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record, replace

Rounds = tuple[tuple[str, ...], ...]
"""Keys of a chart, bottom round first, each round left to right."""


class Stitching(Record):
    """What is embroidered on some rounds of a piece in some sizes, which share one chart.

    ``sizes`` are places in the order of sizes, ``plan`` is that of the first and ``band`` its
    rounds; ``starts`` are, per size, the rounds of the tube that are round 1 of the chart. ``id``
    is that of the chart's page, ``motifs`` are the charts of those on it. ``number`` tells charts
    of the same motifs, or of one picture, apart; 0 if there is one.
    """

    id: str
    sizes: tuple[int, ...]
    plan: PicturePlan
    band: Band
    areas: tuple[NumberedArea, ...]
    starts: tuple[tuple[int, ...], ...]
    motifs: tuple[str, ...]
    number: int = 0

    @property
    def whole(self) -> bool:
        """Whether the chart counts stitches from the first of the round."""
        return self.band.stitches[0] == 1


class SeenChart(Record):
    """A picture or motifs of a tube as they will be seen: the id of the page, the places of the
    sizes, the rounds, and their stitches. Of motifs it has their charts, and the ``bands`` of the
    first size in which they lie; ``number`` is as that of a ``Stitching``."""

    id: str
    sizes: tuple[int, ...]
    rows: Rounds
    stitches: range
    motifs: tuple[str, ...] = ()
    bands: tuple[Band, ...] = ()
    number: int = 0


_Chart = TypeVar("_Chart", Stitching, SeenChart)


def stitchings(piece: str, plans: Sequence[PicturePlan]) -> tuple[Stitching, ...]:
    """The embroidery charts of a piece: one for each band of rounds that differs, in all sizes or
    in some."""
    alike: dict[_Shown, dict[int, list[Band]]] = {}
    for size, (plan, found) in enumerate(zip(plans, bands(plans), strict=True)):
        for band in found:
            if _embroidered(plan, band):
                rows, areas = _window(plan, band, band.stitches), numbered_areas(plan, band)
                shown = rows, band.stitches, areas, _motifs_in(plan, band)
                alike.setdefault(shown, {}).setdefault(size, []).append(band)
    return _told_apart(
        [
            Stitching(
                _numbered(f"embroidery-{piece}", number),
                tuple(sizes),
                plans[next(iter(sizes))],
                next(iter(sizes.values()))[0],
                areas,
                tuple(tuple(band.first for band in found) for found in sizes.values()),
                motifs,
            )
            for number, ((_, _, areas, motifs), sizes) in enumerate(alike.items(), start=1)
        ]
    )


_Shown = tuple[Rounds, range, tuple[NumberedArea, ...], tuple[str, ...]]


def _told_apart(charts: Sequence[_Chart]) -> tuple[_Chart, ...]:
    """The charts, numbered from 1 where a size has several of the same motifs or picture."""
    found: list[_Chart] = []
    for chart in charts:
        beside = [
            at
            for at, each in enumerate(charts)
            if each.motifs == chart.motifs and not set(chart.sizes).isdisjoint(each.sizes)
        ]
        before = [found[at].number for at in beside if at < len(found)]
        number = max(before, default=0) + 1 if len(beside) > 1 else 0
        found.append(replace(chart, number=number))
    return tuple(found)


def _embroidered(plan: PicturePlan, band: Band) -> bool:
    return any(any(row) for row in plan.overlay[band.first - 1 : band.last])


def _motifs_in(plan: PicturePlan, band: Band) -> tuple[str, ...]:
    """The charts of the motifs that lie in a band."""
    inside = (each for each in plan.motifs if band.first <= each.first <= band.last)
    return tuple(dict.fromkeys(each.chart for each in inside))


def chart_links(voice: Voice, charts: "Sequence[Stitching | SeenChart]", what: str) -> Inlines:
    """The charts of a piece, such as ``embroidery chart``, each with its link: by size where every
    size has one, else by motif too."""
    if one_a_size(charts):
        links = [chart_link(voice, replace(chart, motifs=()), what) for chart in charts]
        return joined(links, " or the ")
    return joined([chart_link(voice, chart, what) for chart in charts], " and the ")


def chart_link(voice: Voice, chart: "Stitching | SeenChart", what: str) -> Inlines:
    """A chart by the names of its motifs and of the sizes that it is for, where not for all."""
    told = of_motifs(voice, chart)
    of = f" of {told}" if chart.motifs else f" {told}".rstrip()
    sizes = f" for {named([voice.sizes[size] for size in chart.sizes])}"
    for_ = sizes if len(chart.sizes) < len(voice.sizes) else ""
    return (Link(text(f"{what}{of}{for_}"), f"#chart-{chart.id}"),)


def of_motifs(voice: Voice, chart: "Stitching | SeenChart") -> str:
    """The motifs of a chart, and its number if it has one; empty for the only one of a picture."""
    charts = voice.plan.source.pattern.charts
    titles = listed(charts[each].title for each in chart.motifs)
    return f"{titles} {chart.number}".strip() if chart.number else titles


def one_a_size(charts: "Sequence[Stitching | SeenChart]") -> bool:
    """Whether no size has two of the charts."""
    sizes = [size for each in charts for size in each.sizes]
    return len(sizes) == len(set(sizes))


def _window(plan: PicturePlan, band: Band, stitches: range) -> Rounds:
    """The rounds of a band as knitted and embroidered, those stitches of them."""
    rounds = slice(band.first - 1, band.last)
    places = [plan.tube.needles - stitch for stitch in reversed(stitches)]
    return tuple(
        tuple(f"+{above[at]}" if above[at] else below[at] for at in places)
        for below, above in zip(plan.knitted[rounds], plan.overlay[rounds], strict=True)
    )


def _front(plan: PicturePlan) -> range:
    """The stitches that a chart shows: all, or the front half where the back mirrors it."""
    needles = plan.tube.needles
    return range(1, (needles // 2 if plan.mirrored else needles) + 1)


class TubeChart(Record):
    """A chart of a tube: the id of its page, its spec and its words, and the places of the sizes
    that it is for; one that is not ``worked`` is only looked at."""

    id: str
    spec: ChartSpec
    alt: str
    sizes: tuple[int, ...]
    worked: bool = True


def tube_charts(
    voice: Voice, piece: PiecePlan, plans: Sequence[PicturePlan]
) -> Iterator[TubeChart]:
    """The picture as it will be seen, and what is embroidered on the knitted stripes."""
    where = " The back half mirrors it." if plans[0].mirrored else ""
    seen, embroidered = picture_charts(voice, piece.key), stitchings(piece.key, plans)
    for each in seen:
        plan = plans[each.sizes[0]]
        name = f"{_title(voice, piece, each)}, as it will be seen{_for_sizes(voice, each)}"
        keys = yarn_keys(voice)
        spec = _picture_chart(voice, piece, plan, name, each.rows, keys, each.stitches)
        spec = _as_drawn(voice, piece, spec, each.sizes[0])
        alt = _alt(voice, piece, plan, each.bands)
        yield TubeChart(each.id, spec, alt + where, each.sizes, worked=not embroidered)
    for stitching in embroidered:
        yield from _embroidery_charts(voice, piece, stitching)


def _as_drawn(voice: Voice, piece: PiecePlan, spec: ChartSpec, size: int) -> ChartSpec:
    """The chart of a picture with the grid of a size that it shows cell for cell, if it does."""
    picture = voice.plan.source.pattern.pieces[piece.key].picture
    if picture is None:
        return spec
    grid = voice.plan.source.grids[picture.chart][size]
    if picture.mirror and spec.width != grid.width:  # turned in every second place
        return spec
    return replace(spec, grid=grid.file, repeat=grid.width)


def tube_chart_ids(voice: Voice, piece: str, plans: Sequence[PicturePlan]) -> Iterator[str]:
    """The ids of the pages that show the charts of a tube."""
    yield from (each.id for each in picture_charts(voice, piece))
    for each in stitchings(piece, plans):
        yield from (each.id, f"{each.id}-back")


def _embroidery_charts(voice: Voice, piece: PiecePlan, each: Stitching) -> Iterator[TubeChart]:
    """What is embroidered, with the number of each area where it starts; of a picture whose back
    mirrors its front, the back too."""
    plan, front = each.plan, each.band.stitches
    halves = [("", "", front)]
    if plan.mirrored:
        back = range(len(front) + 1, plan.tube.needles + 1)
        halves = [("", " on the front", front), ("-back", " on the back", back)]
    title = _title(voice, piece, each)
    for suffix, where, half in halves:
        name = f"{title}, what to embroider{where}{_for_sizes(voice, each)}"
        rows, keys = _window(plan, each.band, half), overlay_keys(voice)
        spec = _picture_chart(voice, piece, plan, name, rows, keys, half)
        yield TubeChart(
            f"{each.id}{suffix}",
            replace(spec, tags=tuple(_tags(each.areas, half))),
            "The stripes as knitted, with a symbol on every stitch that is embroidered.",
            each.sizes,
        )


def _tags(areas: Sequence[NumberedArea], half: range) -> Iterator[Tag]:
    """The number of each area at the stitch where it starts."""
    for area in areas:
        for stitch in (area.stitch, area.again):
            if stitch is not None and stitch in half:
                yield Tag(area.first, stitch - half[0] + 1, str(area.number))


def picture_charts(voice: Voice, piece: str) -> tuple[SeenChart, ...]:
    """The charts of a piece's picture, one for each of its grids, or of its motifs, one for each
    band of them that differs. Motifs that are embroidered as they are seen have none."""
    source, plans = voice.plan.source, tubes_of(voice, piece)
    written = source.pattern.pieces[piece]
    if written.picture is None:
        return _motif_charts(piece, plans)
    return tuple(
        SeenChart(
            _numbered(f"picture-{piece}", number),
            tuple(sizes),
            picture_rounds(plans[sizes[0]]),
            _front(plans[sizes[0]]),
        )
        for number, sizes in enumerate(source.drawings(written.picture.chart).values(), start=1)
    )


def _motif_charts(piece: str, plans: Sequence[PicturePlan]) -> tuple[SeenChart, ...]:
    """The bands of motifs of which stripes show a part, and the sizes that have each."""
    alike: dict[tuple[Rounds, range, tuple[str, ...]], dict[int, list[Band]]] = {}
    for size, (plan, found) in enumerate(zip(plans, bands(plans), strict=True)):
        for band in found:
            motifs = _motifs_in(plan, band)
            if motifs and not _all_embroidered(plan, band):
                rows, needles = plan.colours.rounds[band.first - 1 : band.last], plan.tube.needles
                places = slice(needles - band.stitches[-1], needles - band.stitches[0] + 1)
                shown = tuple(row[places] for row in rows), band.stitches, motifs
                alike.setdefault(shown, {}).setdefault(size, []).append(band)
    return _told_apart(
        [
            SeenChart(
                _numbered(f"picture-{piece}", number),
                tuple(sizes),
                rows,
                stitches,
                motifs,
                tuple(next(iter(sizes.values()))),
            )
            for number, ((rows, stitches, motifs), sizes) in enumerate(alike.items(), start=1)
        ]
    )


def tubes_of(voice: Voice, piece: str) -> tuple[PicturePlan, ...]:
    """The tube of a piece in every size."""
    steps = (step for each in voice.plan.pieces if each.key == piece for step in each.steps)
    return next((step.tubes for step in steps if step.tubes), ())


def _title(voice: Voice, piece: PiecePlan, chart: "Stitching | SeenChart") -> str:
    """What a chart shows: its picture, or its motifs on their piece."""
    source = voice.plan.source
    written = source.pattern.pieces[piece.key]
    if written.picture is None:
        return f"{written.title}: {of_motifs(voice, chart)}"
    title = source.pattern.charts[written.picture.chart].title
    return f"{title} {of_motifs(voice, chart)}".rstrip()


def _alt(voice: Voice, piece: PiecePlan, plan: PicturePlan, shown: Sequence[Band]) -> str:
    """What is on a tube in words: its picture, or the motifs of those bands and where they are."""
    charts = voice.plan.source.pattern.charts
    picture = voice.plan.source.pattern.pieces[piece.key].picture
    if picture is not None:
        return ended(charts[picture.chart].alt.strip())
    places: dict[str, list[str]] = {}
    for each in plan.motifs:
        if any(band.first <= each.first <= band.last for band in shown):
            places.setdefault(each.chart, []).append(each.place)
    return " ".join(
        f"{charts[id].title}, {listed(dict.fromkeys(at))}: {ended(charts[id].alt.strip())}"
        for id, at in places.items()
    )


def _all_embroidered(plan: PicturePlan, band: Band) -> bool:
    """Whether every stitch of a band's motifs is embroidered on what is around them."""
    return all(
        plan.overlay[round_ - 1][column]
        for motif in plan.motifs
        for round_, column, _ in motif.at(plan.tube.needles)
        if band.first <= round_ <= band.last
    )


def _numbered(id: str, number: int) -> str:
    return id if number == 1 else f"{id}-{number}"


def picture_rounds(plan: PicturePlan) -> Rounds:
    """The yarns of the picture, bottom round first: the front half where the back mirrors it."""
    width = plan.tube.needles // 2 if plan.mirrored else plan.tube.needles
    return tuple(row[-width:] for row in plan.colours.rounds[plan.first - 1 : plan.last])


def _for_sizes(voice: Voice, each: "Stitching | SeenChart") -> str:
    if len(each.sizes) == len(voice.sizes):
        return ""
    return f", {named([voice.sizes[size] for size in each.sizes])}"


def _picture_chart(
    voice: Voice,
    piece: PiecePlan,
    plan: PicturePlan,
    title: str,
    rows: Rounds,
    keys: tuple[ChartKey, ...],
    half: range,
) -> ChartSpec:
    gauge = piece_gauges(voice.plan.measures, voice.plan.source.pattern.pieces[piece.key])[0]
    return ChartSpec(
        title,
        rows,
        keys,
        cell_width_mm=gauge.stitch_mm,
        cell_height_mm=gauge.round_mm,
        markers=tuple(_lines(plan, half)),
        first_stitch=half[0],
    )


def _lines(plan: PicturePlan, half: range) -> Iterator[Marker]:
    """The sides of a tube, the middles of its front and back, and where a picture is mirrored, as
    far as they lie on the stitches ``half``."""
    tube = plan.tube
    before, needles = half[0] - 1, tube.needles
    if plan.mirrored:
        yield Marker(len(half) if half[0] == 1 else 0, "mirror line")
    elif needles % 2 == 0:
        for marker in tube.markers:
            if 0 <= marker - 1 - before <= len(half):
                yield Marker(marker - 1 - before, "side")
    for quarter, name in ((1, "middle of the front"), (3, "middle of the back")):
        after = (tube.front - 1 + quarter * needles / 4) % needles - before
        if 0 <= after <= len(half):
            yield Marker(after, name)
