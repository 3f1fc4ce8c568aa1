"""The charts of a tube: its picture or motifs as they will be seen, and what is embroidered."""

from collections.abc import Iterator, Sequence

from bindoff.document.areas import embroidered_rounds, numbered_areas
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
    """What is embroidered on a piece in some sizes, which share one chart.

    ``sizes`` are places in the order of sizes; ``id`` is that of the chart's page.
    """

    id: str
    sizes: tuple[int, ...]
    plan: PicturePlan


def stitchings(piece: str, plans: Sequence[PicturePlan]) -> tuple[Stitching, ...]:
    """The embroidery charts of a piece: one for all sizes, or one for each that differs."""
    groups: dict[Rounds, list[int]] = {}
    for size, plan in enumerate(plans):
        if any(any(row) for row in plan.overlay):
            groups.setdefault(_window(plan), []).append(size)
    return tuple(
        Stitching(
            _numbered(f"embroidery-{piece}", number),
            tuple(sizes),
            plans[sizes[0]],
        )
        for number, sizes in enumerate(groups.values(), start=1)
    )


def chart_links(voice: Voice, charts: Sequence[Stitching]) -> Inlines:
    """The embroidery charts of a piece, by size where there are several, each with its link."""
    if len(charts) == 1:
        return (Link(text("embroidery chart"), f"#chart-{charts[0].id}"),)
    links: list[Inlines] = []
    for chart in charts:
        names = listed(voice.sizes[size] for size in chart.sizes)
        word = "size" if len(chart.sizes) == 1 else "sizes"
        links.append((Link(text(f"embroidery chart for {word} {names}"), f"#chart-{chart.id}"),))
    return joined(links, " or the ")


def _window(plan: PicturePlan, half: range | None = None) -> Rounds:
    """Those rounds as knitted and embroidered: the stitches ``half``, else the front half where the
    back mirrors it."""
    first, last = embroidered_rounds(plan)
    knitted, overlay = plan.knitted[first - 1 : last], plan.overlay[first - 1 : last]
    places = [plan.tube.needles - stitch for stitch in reversed(half or _front(plan))]
    return tuple(
        tuple(f"+{above[at]}" if above[at] else below[at] for at in places)
        for below, above in zip(knitted, overlay, strict=True)
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
    title, alt = _pictured(voice, piece, plans)
    where = " The back half mirrors it." if plans[0].mirrored else ""
    seen, embroidered = picture_charts(voice, piece.key), stitchings(piece.key, plans)
    for id, sizes in seen:
        plan = plans[sizes[0]]
        of = f", {named([voice.sizes[size] for size in sizes])}" if len(seen) > 1 else ""
        name, rows = f"{title}, as it will be seen{of}", picture_rounds(plan)
        spec = _picture_chart(voice, piece, plan, name, rows, yarn_keys(voice), _front(plan))
        spec = _as_drawn(voice, piece, spec, sizes[0])
        yield TubeChart(id, spec, alt + where, tuple(sizes), worked=not embroidered)
    for each in embroidered:
        yield from _embroidery_charts(voice, piece, each, title)


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
    yield from (id for id, _ in picture_charts(voice, piece))
    for each in stitchings(piece, plans):
        yield from (each.id, f"{each.id}-back")


def _embroidery_charts(
    voice: Voice, piece: PiecePlan, each: Stitching, title: str
) -> Iterator[TubeChart]:
    """What is embroidered, with the number of each area where it starts; of a picture whose back
    mirrors its front, the back too."""
    plan = each.plan
    halves = [("", "", _front(plan))]
    if plan.mirrored:
        back = range(len(_front(plan)) + 1, plan.tube.needles + 1)
        halves = [("", " on the front", _front(plan)), ("-back", " on the back", back)]
    for suffix, where, half in halves:
        name = f"{title}, what to embroider{where}{_for_sizes(voice, each)}"
        rows, keys = _window(plan, half), overlay_keys(voice)
        spec = _picture_chart(voice, piece, plan, name, rows, keys, half)
        yield TubeChart(
            f"{each.id}{suffix}",
            replace(spec, tags=tuple(_tags(plan, half))),
            "The stripes as knitted, with a symbol on every stitch that is embroidered.",
            each.sizes,
        )


def _tags(plan: PicturePlan, half: range) -> Iterator[Tag]:
    """The number of each area at the stitch where it starts."""
    for area in numbered_areas(plan):
        for stitch in (area.stitch, area.again):
            if stitch is not None and stitch in half:
                yield Tag(area.first, stitch - half[0] + 1, str(area.number))


def picture_charts(voice: Voice, piece: str) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """The charts of a piece's picture, one for each of its grids, or of its motifs, one for sizes
    that have the same ones: the id of the page, and the places of the sizes. Motifs that are
    embroidered as they are seen have none."""
    source = voice.plan.source
    written = source.pattern.pieces[piece]
    drawings = (
        source.drawings(written.picture.chart).values()
        if written.picture
        else _motif_drawings(tubes_of(voice, piece))
    )
    return tuple(
        (_numbered(f"picture-{piece}", number), sizes)
        for number, sizes in enumerate(drawings, start=1)
    )


def tubes_of(voice: Voice, piece: str) -> tuple[PicturePlan, ...]:
    """The tube of a piece in every size."""
    steps = (step for each in voice.plan.pieces if each.key == piece for step in each.steps)
    return next((step.tubes for step in steps if step.tubes), ())


def _motif_drawings(plans: Sequence[PicturePlan]) -> Iterator[tuple[int, ...]]:
    """The sizes whose motifs are seen alike, where stripes show a part of them."""
    groups: dict[Rounds, list[int]] = {}
    for size, plan in enumerate(plans):
        if plan.has_picture and not _all_embroidered(plan):
            groups.setdefault(picture_rounds(plan), []).append(size)
    yield from map(tuple, groups.values())


def _pictured(voice: Voice, piece: PiecePlan, plans: Sequence[PicturePlan]) -> tuple[str, str]:
    """What is on a tube, as a title and in words: its picture, or its motifs."""
    source = voice.plan.source
    written = source.pattern.pieces[piece.key]
    if written.picture is not None:
        chart = written.picture.chart
        return source.pattern.charts[chart].title, ended(source.pattern.charts[chart].alt.strip())
    charts = dict.fromkeys(chart for chart, _ in written.pictured)
    titles = [source.pattern.charts[chart].title for chart in charts]
    places: dict[str, list[str]] = {}
    for each in plans[0].motifs:
        places.setdefault(each.chart, []).append(each.place)
    told = (
        f"{chart.title}, {listed(where)}: {ended(chart.alt.strip())}"
        for chart, where in ((source.pattern.charts[id], at) for id, at in places.items())
    )
    return f"{written.title}: {listed(titles)}", " ".join(told)


def _all_embroidered(plan: PicturePlan) -> bool:
    """Whether every stitch of a tube's motifs is embroidered on what is around them."""
    return bool(plan.motifs) and all(
        plan.overlay[round_ - 1][column]
        for motif in plan.motifs
        for round_, column, _ in motif.at(plan.tube.needles)
    )


def _numbered(id: str, number: int) -> str:
    return id if number == 1 else f"{id}-{number}"


def picture_rounds(plan: PicturePlan) -> Rounds:
    """The yarns of the picture, bottom round first: the front half where the back mirrors it."""
    width = plan.tube.needles // 2 if plan.mirrored else plan.tube.needles
    return tuple(row[-width:] for row in plan.colours.rounds[plan.first - 1 : plan.last])


def _for_sizes(voice: Voice, each: Stitching) -> str:
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
            yield Marker(marker - 1, "side")
    for quarter, name in ((1, "middle of the front"), (3, "middle of the back")):
        after = (tube.front - 1 + quarter * needles / 4) % needles - before
        if 0 <= after <= len(half):
            yield Marker(after, name)
