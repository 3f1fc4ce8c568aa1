"""The embroidery of a tube in words: where motifs lie, yarn by yarn, area by area."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff.document.areas import NumberedArea, alike
from bindoff.document.phrases import (
    NOT_WORKED,
    figures,
    join,
    paragraph,
    running,
    text,
)
from bindoff.document.tree import (
    Block,
    Blocks,
    Column,
    Inlines,
    ItemList,
    ListItem,
    Paragraph,
    Table,
    TableRow,
)
from bindoff.document.tubecharts import (
    Stitching,
    chart_link,
    chart_links,
    of_motifs,
    one_a_size,
    stitchings,
)
from bindoff.document.units import lengths, per_size, round_length, up_to_tenths
from bindoff.document.voice import Voice
from bindoff.english import listed
from bindoff.plan.colour.embroidery import YarnThread
from bindoff.plan.gauge import Gauge
from bindoff.plan.persize import named
from bindoff.plan.picture import PicturePlan, piece_gauges


def embroidery_blocks(voice: Voice, piece: str, plans: Sequence[PicturePlan]) -> Blocks:
    """What is embroidered, by yarn and by area, and where the picture lies on the tube."""
    charts = stitchings(piece, plans)
    table = _motif_blocks(voice, piece, plans)
    if not charts:
        return (
            paragraph("The stripes show the whole picture: there is nothing to embroider."),
            *table,
        )
    return (
        *_from_charts(voice, plans, charts),
        *table,
        _thread_table(voice, plans),
        paragraph(_thread_note(voice, plans)),
        *_area_blocks(voice, charts),
    )


def _from_charts(voice: Voice, plans: Sequence[PicturePlan], charts: Sequence[Stitching]) -> Blocks:
    """Which charts to embroider from, and where each lies on the tube."""
    what = "motifs" if any(plan.motifs for plan in plans) else "picture"
    wash, work = "Wash and dry the piece.", f"Work the {what} in {voice.term['duplicate_stitch']}"
    single = one_a_size(charts) and all(len(at) == 1 for each in charts for at in each.starts)
    if single and len({size for each in charts for size in each.sizes}) == len(plans):
        starts = {
            size: at[0] for each in charts for size, at in zip(each.sizes, each.starts, strict=True)
        }
        first = per_size([starts[size] for size in range(len(plans))])
        return (
            paragraph(
                running(
                    wash,
                    join(f"{work} from the ", chart_links(voice, charts, "embroidery chart"), "."),
                    join("Round 1 of the chart is round ", first, " of the tube."),
                    _stitch_numbers(charts),
                    _mirror(plans),
                )
            ),
        )
    items = (
        ListItem(
            (
                paragraph(
                    chart_link(voice, each, "embroidery chart"),
                    ", its round 1 on ",
                    "rounds " if any(len(at) > 1 for at in each.starts) else "round ",
                    _starts(voice, each),
                    " of the tube",
                ),
            )
        )
        for each in charts
    )
    return (
        paragraph(wash, f" {work} from these charts:"),
        ItemList(tuple(items)),
        paragraph(running(_stitch_numbers(charts), _mirror(plans))),
    )


def _starts(voice: Voice, chart: Stitching) -> Inlines:
    """The rounds of the tube that are round 1 of a chart, per size that has it."""
    rounds = [listed(map(str, each)) for each in chart.starts]
    if len(rounds) == len(voice.sizes):
        return per_size(rounds)
    if len(set(rounds)) == 1:
        return text(rounds[0])
    sizes = (voice.sizes[size] for size in chart.sizes)
    return text(listed(f"{at} in size {size}" for at, size in zip(rounds, sizes, strict=True)))


def _stitch_numbers(charts: Sequence[Stitching]) -> str:
    if all(each.whole for each in charts):
        return "Stitch 1 of the chart is stitch 1 of the round."
    if len(charts) > 1:
        return "The charts number stitches as the round does."
    return "The chart numbers stitches as the round does."


def _motif_blocks(voice: Voice, piece: str, plans: Sequence[PicturePlan]) -> Blocks:
    """Where each motif lies and how large it is: one list where all sizes have the same ones."""
    if not any(plan.motifs for plan in plans):
        return ()
    gauges = piece_gauges(voice.plan.measures, voice.plan.source.pattern.pieces[piece])
    named = [[(each.chart, each.place) for each in plan.motifs] for plan in plans]
    if all(each == named[0] for each in named):
        return (
            paragraph("The motifs, their stitches and their rounds on the tube:"),
            _motif_list(voice, gauges, plans),
        )
    return tuple(
        block
        for size, gauge, plan in zip(voice.sizes, gauges, plans, strict=True)
        if plan.motifs
        for block in (
            paragraph(f"The motifs of size {size}, their stitches and their rounds on the tube:"),
            _motif_list(voice, (gauge,), (plan,)),
        )
    )


def _motif_list(voice: Voice, gauges: Sequence[Gauge], plans: Sequence[PicturePlan]) -> ItemList:
    """The motifs of sizes that have the same ones; ``gauges`` are theirs."""
    charts = voice.plan.source.pattern.charts
    items = []
    for motifs in zip(*(plan.motifs for plan in plans), strict=True):
        sized = list(zip(gauges, motifs, strict=True))
        place = "all around" if motifs[0].repeats > 1 else f"at the {motifs[0].place}"
        if isinstance(motifs[0].written.at_, int):
            place = f"from stitch {motifs[0].written.at_} on"
        items.append(
            ListItem(
                (
                    paragraph(
                        f"{charts[motifs[0].chart].title}, {place}: stitches ",
                        per_size([f"{each.stitch} to {each.last_stitch}" for each in motifs]),
                        ", rounds ",
                        per_size([f"{each.first} to {each.last}" for each in motifs]),
                        "; ",
                        lengths([gauge.width_of(each.width) for gauge, each in sized], voice.units),
                        " wide and ",
                        lengths(
                            [gauge.height_of(len(each.cells)) for gauge, each in sized],
                            voice.units,
                        ),
                        " high.",
                    ),
                )
            )
        )
    return ItemList(tuple(items))


def _mirror(plans: Sequence[PicturePlan]) -> Inlines:
    """How the front half is worked again on the back, with its first and last stitch."""
    if not plans[0].mirrored:
        return ()
    needles = [plan.tube.needles for plan in plans]
    return join(
        "The chart shows the front half. The back mirrors it, and the chart after it shows that: "
        "stitch 1 comes again at stitch ",
        per_size(needles),
        ", and stitch ",
        per_size([each // 2 for each in needles]),
        " at stitch ",
        per_size([each // 2 + 1 for each in needles]),
        ".",
    )


def _thread_table(voice: Voice, plans: Sequence[PicturePlan]) -> Table:
    """Areas, stitches, strands and thread of every yarn, per size where they differ."""
    each_mm, unit = (914.4, "yd") if voice.units == "imperial" else (1000.0, "m")
    rows = []
    for yarn, name in voice.yarn_names.items():
        threads = [_thread(plan, yarn) for plan in plans]
        if any(thread.stitches for thread in threads):
            cells = (
                figures([thread.areas for thread in threads]),
                figures([thread.stitches for thread in threads]),
                figures([thread.strands for thread in threads]),
                per_size([_thread_length(thread, each_mm) for thread in threads]),
            )
            rows.append(TableRow((text(name), *cells)))
    return Table(
        text("Embroidery by yarn"),
        (
            Column(text("Yarn"), weight=2.0),
            Column(text("Areas"), align="right"),
            Column(text("Stitches"), align="right"),
            Column(text("Strands"), align="right"),
            Column(text(f"Thread, {unit}"), align="right"),
        ),
        tuple(rows),
    )


def _thread_note(voice: Voice, plans: Sequence[PicturePlan]) -> Inlines:
    """How the thread is reckoned; its factor is from memory, no source."""
    rule = plans[0].embroidery.rule
    longest = round_length(rule.strand_mm, voice.units)
    tail = round_length(rule.tail_mm, voice.units)
    return text(
        f"Thread is counted at {rule.thread_per_loop:g} times the yarn of a knitted stitch for "
        "each embroidered one. Hands differ: see how far your first strand goes. Strands are "
        f"{longest} long at the most, with a tail of {tail} at each end."
    )


def _thread(plan: PicturePlan, yarn: str) -> YarnThread:
    nothing = YarnThread(yarn, 0, 0, 0, 0, 0.0)
    return next((t for t in plan.embroidery.threads if t.yarn == yarn), nothing)


def _thread_length(thread: YarnThread, each_mm: float) -> str:
    return up_to_tenths(thread.thread_mm / each_mm) if thread.stitches else NOT_WORKED


def _area_blocks(voice: Voice, charts: Sequence[Stitching]) -> Iterator[Block]:
    """The areas in working order, a table for each chart whose areas differ, as rounds of it."""
    mirrored = charts[0].plan.mirrored
    start = "An area starts in the lowest of its rounds."
    on_line = (
        " An area “on the line” lies on both sides of a mirror line and is its own mirror image; "
        "its stitches are counted on both sides."
    )
    alone = mirrored and any(area.again is None for each in charts for area in each.areas)
    yield paragraph(f"{start}{on_line if alone else ''}")
    yield Paragraph(
        text(
            "The chart has its number at the lower right corner of its first stitch, or a line "
            "from the number to that corner."
        ),
        print_only=True,
    )
    several = not one_a_size(charts)
    tables: dict[tuple[str, tuple[NumberedArea, ...]], list[int]] = {}
    for each in charts:
        of = f": {of_motifs(voice, each)}" if several else ""
        tables.setdefault((of, each.areas), []).extend(each.sizes)
    for (of, areas), sizes in tables.items():
        some = f", {named([voice.sizes[size] for size in sizes])}"
        for_ = some if len(sizes) < len(voice.sizes) else ""
        yield _area_table(voice, areas, f"Areas in working order, yarn by yarn{of}{for_}", mirrored)


def _area_table(voice: Voice, areas: Sequence[NumberedArea], caption: str, mirrored: bool) -> Table:
    """A row for each area, or for several that differ in nothing but where they start."""
    rows = []
    for run in alike(areas):
        area, last = run[0], run[-1]
        several = len(run) > 1
        cells = [
            _span(area.number, last.number),
            voice.yarn_names[area.yarn],
            _span(area.first, area.last),
            _stitches(each.stitch for each in run),
            f"{area.stitches} each" if several else str(area.stitches),
        ]
        if mirrored:
            again = [each.again for each in run if each.again is not None]
            cells.append(_stitches(again) if again else "on the line")
        rows.append(TableRow(tuple(text(cell) for cell in cells)))
    columns = [
        Column(text("Area"), align="right"),
        Column(text("Yarn")),
        Column(text("Rounds")),
        Column(text("First stitch")),
        Column(text("Stitches")),
    ]
    if mirrored:
        columns.append(Column(text("Mirrored at stitch")))
    return Table(text(caption), tuple(columns), tuple(rows), tick=True)


def _span(first: int, last: int) -> str:
    return f"{first}–{last}" if first < last else str(first)


def _stitches(numbers: Iterable[int]) -> str:
    return listed([str(number) for number in numbers])
