"""What a reader needs before the first stitch: cover, sizes, materials, gauge, abbreviations."""

from collections.abc import Collection, Iterator, Sequence

from generator.document.chartpages import yarn_symbols
from generator.document.charts.legend import swatch
from generator.document.charts.spec import ChartKey
from generator.document.drawing import Drawing
from generator.document.fabric import fabric
from generator.document.phrases import heading, join, paragraph, text
from generator.document.schematics import schematic_blocks
from generator.document.sizetables import Figures, length_figures, measure_figures, unit_table
from generator.document.tree import (
    Block,
    Blocks,
    Column,
    Cover,
    Definition,
    DefinitionList,
    Figure,
    Inlines,
    ItemList,
    ListItem,
    Paragraph,
    Strong,
    Table,
    TableRow,
)
from generator.document.units import (
    METRES_PER_YARD,
    lengths,
    per_size,
    scales,
    up,
    yarn_length,
)
from generator.document.voice import Voice, body_rows
from generator.plan.gauge import Gauge
from generator.plan.picture import PicturePlan, chart_yarns
from generator.plan.standards.yarn_weights import yarn_weight
from generator.plan.steps import ChartRows, Embroidered
from generator.plan.yarnplan import YarnTotal
from generator.source.models import CellMeaning, Chart, Pattern
from generator.source.models import Gauge as WrittenGauge

ART_WIDTH_MM = 80.0
ART_HEIGHT_MM = 70.0
ART_STITCHES = 24  # about so many stitches across, so that each can be seen
SIZE_HEADING = "Sizes and finished measurements"


def cover(voice: Voice) -> Cover:
    """Title, byline, summary, the facts of a buyer's first glance, and the fabric as art."""
    pattern = voice.plan.source.pattern
    byline = f"Designed by {pattern.designer} · version {pattern.version} · {pattern.date}"
    facts = tuple(
        Definition((Strong(text(term)),), meaning) for term, meaning in _facts(voice, pattern)
    )
    return Cover(
        pattern.title, text(byline), text(pattern.summary), DefinitionList(facts), _art(voice)
    )


def _facts(voice: Voice, pattern: Pattern) -> Iterator[tuple[str, Inlines]]:
    yield "Sizes", text(", ".join(voice.sizes))
    for name, mm in body_rows(voice.plan)[:1]:
        yield f"To fit {name}", lengths(mm, voice.units)
    label, measure = next(iter(voice.plan.measures.finished.items()))
    yield f"Finished {label.lower()}", voice.measure(measure)
    weights = sorted({yarn.weight for yarn in pattern.yarns.values()})
    names = ", ".join(f"{yarn_weight(number).name} ({number})" for number in weights)
    count = len(pattern.yarns)
    yield "Yarn", text(f"{names}, {count} {'color' if count == 1 else voice.term['colors']}")
    yield voice.term["gauge"].capitalize(), text(_gauge_line(voice, pattern.gauge, ""))
    if pattern.made.by == "machine":
        yield "Made", text(f"on a circular machine with {pattern.made.needles} needles")
    if pattern.skill:
        yield "Skill", text(pattern.skill)


def _art(voice: Voice) -> Figure | None:
    """A photograph, else the pattern's first picture or chart as knitted fabric."""
    source = voice.plan.source
    if source.photos:
        photo = source.pattern.photos[0]
        return Figure(source.photos[0], photo.alt, text(photo.caption) if photo.caption else ())
    for piece in voice.plan.pieces:
        for step in piece.steps:
            match step.detail:
                case Embroidered(plans):
                    return _tube_art(voice, plans[0])
                case ChartRows(chart):
                    return _chart_art(voice, chart, step.yarn)
                case _:
                    pass
    return None


def _tube_art(voice: Voice, plan: PicturePlan) -> Figure:
    window = plan.tube.needles // 2 if plan.mirrored else plan.tube.needles
    rows = [row[-window:] for row in plan.colours.rounds[plan.first - 1 : plan.last]]
    picture = _fabric(voice, rows, ())
    return Figure(picture, "The finished picture as knitted fabric; the chart pages describe it.")


def _chart_art(voice: Voice, key: str, yarn: str) -> Figure:
    """A chart's fabric, repeated until it fills the box."""
    chart, grid = voice.plan.source.pattern.charts[key], voice.plan.source.grids[key]
    aspect = _main_gauge(voice).aspect
    high = max(1, round(ART_STITCHES * aspect / ART_WIDTH_MM * ART_HEIGHT_MM / grid.height))
    across = max(1, round(ART_WIDTH_MM / ART_HEIGHT_MM * grid.height * high / aspect / grid.width))
    lines = [line * across for line in grid.rounds] * high
    yarns = chart_yarns(chart)
    rows = [[_yarn_or(voice, yarns[c], yarn) for c in line] for line in lines]
    purls = {
        (number, place)
        for number, line in enumerate(lines)
        for place, character in enumerate(line)
        if _stitch_of(chart, character) == "p"
    }
    return Figure(_fabric(voice, rows, purls), f"Knitted fabric. {chart.alt}")


def _yarn_or(voice: Voice, yarn: str | None, main: str) -> str:
    return yarn if yarn is not None and yarn in voice.yarn_names else main


def _stitch_of(chart: Chart, character: str) -> str | None:
    meaning = chart.legend[character]
    return meaning.stitch if isinstance(meaning, CellMeaning) else meaning


def _fabric(
    voice: Voice, rows: Sequence[Sequence[str]], purls: Collection[tuple[int, int]]
) -> Drawing:
    colours = {key: yarn.colour for key, yarn in voice.plan.source.pattern.yarns.items()}
    aspect = _main_gauge(voice).aspect
    return fabric(rows, colours, aspect, ART_WIDTH_MM, ART_HEIGHT_MM, purls)


def _main_gauge(voice: Voice) -> Gauge:
    return voice.plan.measures.sizes[0].gauges[""]


# ---------------------------------------------------------------- sizes


def size_section(voice: Voice) -> Blocks:
    """The table of bodies and finished measures, then the schematic drawings."""
    rows = [length_figures(voice, f"To fit {name}", mm) for name, mm in body_rows(voice.plan)]
    rows += [
        measure_figures(voice, label, measure)
        for label, measure in voice.plan.measures.finished.items()
    ]
    caption = "Body and finished measurements"
    table = unit_table(voice.sizes, caption, "Measurement", scales(voice.units), rows)
    return (heading(2, SIZE_HEADING, "sizes"), table, *schematic_blocks(voice))


# ---------------------------------------------------------------- materials


def material_section(voice: Voice) -> Blocks:
    """Yarns with their swatches, the amounts per size, tools and notions."""
    pattern = voice.plan.source.pattern
    found: list[Block] = [
        heading(2, "Materials", "materials"),
        heading(3, "Yarn"),
        DefinitionList(tuple(_yarn_entry(voice, total) for total in voice.plan.yarn)),
        _amounts(voice),
    ]
    if pattern.tools:
        found += [heading(3, "Tools"), _tools(pattern)]
    if pattern.notions:
        items = tuple(ListItem((paragraph(each),)) for each in pattern.notions)
        found += [heading(3, "Notions"), ItemList(items)]
    return tuple(found)


def _yarn_entry(voice: Voice, total: YarnTotal) -> Definition:
    yarn = voice.plan.source.pattern.yarns[total.yarn]
    key = ChartKey(total.yarn, yarn_symbols(voice)[total.yarn], yarn.name, yarn.colour)
    weight = yarn_weight(yarn.weight)
    ball = f"{total.ball.grams:g} g = {yarn_length(total.ball.metres, voice.units)}"
    balls = [need.balls for need in total.needs]
    meaning = join(
        f"{weight.name} ({weight.number})",
        f", {yarn.fibre}" if yarn.fibre else "",
        f", {ball} per ball. Buy ",
        (Strong(join(per_size(balls), " ball" if set(balls) == {1} else " balls")),),
        ".",
    )
    return Definition((Strong(text(yarn.name)),), meaning, swatch(key, 4.5))


def _amounts(voice: Voice) -> Table:
    """Grams and lengths per yarn and size, rounded up."""
    metres_each = {"metric": (1.0,), "imperial": (METRES_PER_YARD,), "both": (1.0, METRES_PER_YARD)}
    names = {"metric": ("m",), "imperial": ("yd",), "both": ("m", "yd")}[voice.units]
    rows = []
    for total in voice.plan.yarn:
        grams = tuple(str(up(need.grams)) for need in total.needs)
        lengths_ = tuple(
            tuple(str(up(need.metres / each)) for need in total.needs)
            for each in metres_each[voice.units]
        )
        rows.append(Figures(voice.yarn_names[total.yarn], (grams, *lengths_)))
    return unit_table(voice.sizes, "Yarn needed, reserve included", "Yarn", ("g", *names), rows)


def _tools(pattern: Pattern) -> ItemList:
    return ItemList(
        tuple(
            ListItem((paragraph(f"{_capital(tool.name)}{f' – {tool.use}' if tool.use else ''}"),))
            for tool in pattern.tools
        )
    )


# ---------------------------------------------------------------- gauge


def gauge_section(voice: Voice) -> Blocks:
    """Every gauge; a table where the sizes differ."""
    pattern = voice.plan.source.pattern
    title = voice.term["gauge"].capitalize()
    found: list[Block] = [heading(2, title, "gauge")]
    if any(size.gauge for size in pattern.sizes.values()):
        found.append(_gauge_table(voice, pattern))
    else:
        found.append(Paragraph(text(_gauge_line(voice, pattern.gauge, "") + ".")))
    for key, gauge in pattern.gauges.items():
        pieces = [piece.title for piece in pattern.pieces.values() if piece.gauge == key]
        what = f"{', '.join(pieces)}: " if pieces else ""
        found.append(paragraph(what, _gauge_line(voice, gauge, key), "."))
    return tuple(found)


def _over(voice: Voice) -> str:
    return {"metric": "10 cm", "imperial": "4 in", "both": "10 cm / 4 in"}[voice.units]


def _gauge_line(voice: Voice, written: WrittenGauge, key: str) -> str:
    gauge = voice.plan.measures.sizes[0].gauges[key] if key else _pattern_gauge(voice)
    unit = "rows" if "flat" in written.worked else "rounds"
    words = (
        f"{gauge.stitches_per():.3g} stitches and {gauge.rounds_per():.3g} {unit} over "
        f"{_over(voice)}"
    )
    details = [part for part in (written.worked, written.state, written.tool) if part]
    return f"{words}, {', '.join(details)}" if details else words


def _pattern_gauge(voice: Voice) -> Gauge:
    """The gauge of a size that has none of its own, else of the first size."""
    sizes = voice.plan.source.pattern.sizes
    plain = [index for index, size in enumerate(sizes.values()) if size.gauge is None]
    return voice.plan.measures.sizes[plain[0] if plain else 0].gauges[""]


def _gauge_table(voice: Voice, pattern: Pattern) -> Table:
    rows = []
    for sizing, size in zip(voice.plan.measures.sizes, pattern.sizes.values(), strict=True):
        gauge = sizing.gauges[""]
        written = size.gauge or pattern.gauge
        rows.append(
            TableRow(
                (
                    text(sizing.name),
                    text(f"{gauge.stitches_per():.3g}"),
                    text(f"{gauge.rounds_per():.3g}"),
                    text(written.tool),
                )
            )
        )
    where = f"{pattern.gauge.worked}, {pattern.gauge.state}".strip(", ")
    return Table(
        text(f"Over {_over(voice)}, {where}"),
        (
            Column(text("Size")),
            Column(text("Stitches"), align="right"),
            Column(text("Rounds"), align="right"),
            Column(text("Tension" if pattern.made.by == "machine" else "Tool"), weight=2.0),
        ),
        tuple(rows),
    )


# ---------------------------------------------------------------- abbreviations


def abbreviation_section(voice: Voice, used: Sequence[str]) -> Blocks:
    """The abbreviations that the rows use, each with what to do."""
    if not used:
        return ()
    entries = tuple(
        Definition((Strong(text(abbreviation)),), text(f"{name}: {how}" if how else name))
        for abbreviation, name, how in (voice.abbreviation(id) for id in used)
    )
    return (
        heading(2, "Abbreviations", "abbreviations"),
        DefinitionList(entries, columns=2),
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
