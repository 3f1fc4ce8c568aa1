"""What a reader needs before the first stitch: cover, sizes, materials, gauge, abbreviations."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.craft.yarn_weights import yarn_weight
from bindoff.document.chartkeys import yarn_symbols
from bindoff.document.charts.legend import swatch
from bindoff.document.charts.spec import ChartKey
from bindoff.document.drawing import Drawing
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.fabric import fabric
from bindoff.document.faces import Face, faces_of
from bindoff.document.finished.courses import seen_in_turn
from bindoff.document.finished.growing import growing
from bindoff.document.finished.picture import finished
from bindoff.document.laid import laid
from bindoff.document.phrases import (
    NOT_WORKED,
    counted,
    figures,
    heading,
    join,
    paragraph,
    running,
    text,
)
from bindoff.document.schematics import (
    finished_letters,
    further_measures,
    schematic_blocks,
    schematics,
)
from bindoff.document.sizetables import Figures, length_figures, measure_figures, unit_table
from bindoff.document.toolwords import named
from bindoff.document.tree import (
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
    Origin,
    Strong,
    Table,
    TableRow,
)
from bindoff.document.tubecharts import picture_rounds
from bindoff.document.units import (
    GRAMS_PER_OUNCE,
    MM_PER_INCH,
    lengths,
    per_size,
    scales,
    up,
    up_to_tenths,
    yards_up,
    yarn_length,
)
from bindoff.document.units import weight as ball_weight
from bindoff.document.voice import Voice, body_label, body_rows
from bindoff.english import capital, ended, listed, name_in_one
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import PicturePlan, cell_meaning, chart_yarns
from bindoff.plan.tube import TubePart
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.plan.yarn import YarnNeed
from bindoff.plan.yarnplan import YarnTotal
from bindoff.records import replace
from bindoff.source.chart import NO_STITCH
from bindoff.source.gauge import Gauge as WrittenGauge
from bindoff.source.grid import Grid
from bindoff.source.head import Tool
from bindoff.source.lengths import parse_length
from bindoff.source.pattern import Pattern

_DRAWN = "Drawn from the pattern"
ART_WIDTH_MM = 80.0
ART_HEIGHT_MM = 66.0
PIECE_HEIGHT_MM = 58.0  # a whole piece, of which nothing should be cut off
ART_STITCHES = 24  # about so many stitches across, so that each can be seen
ART_MOST = 20_000  # stitches in all, unless the chart alone has more: the rest could not be seen
ART_GROWN = 4 * ART_STITCHES  # stitches of the widest row of a chart that grows


def cover(voice: Voice, drawn: Drawn = USUALLY) -> Cover:
    """Title, byline, summary, the facts of a buyer's first glance, and in colour the fabric as
    art."""
    pattern = voice.plan.source.pattern
    designer = name_in_one(pattern.designer)
    byline = f"Designed by {designer} · version {pattern.version} · {pattern.date}"
    facts = tuple(
        Definition((Strong(text(term)),), meaning, print_only=again)
        for term, meaning, again in _facts(voice, pattern)
    )
    return Cover(
        pattern.title,
        text(byline),
        text(pattern.summary),
        DefinitionList(facts),
        _art(voice, drawn) if drawn.colour else None,
        voice.prose_language,
    )


def _facts(voice: Voice, pattern: Pattern) -> Iterator[tuple[str, Inlines, bool]]:
    """Each fact: its name, what it is, and whether a listener is told it elsewhere in full."""
    if len(voice.sizes) > 1 or voice.sizes[0] not in pattern.title:
        yield "Sizes" if len(voice.sizes) > 1 else "Size", text(", ".join(voice.sizes)), True
    for name, mm in body_rows(voice.plan)[:1]:
        yield f"To fit {body_label(voice.plan, name)}", lengths(mm, voice.units), True
    label, measure = next(iter(voice.plan.measures.finished.items()))
    yield f"Finished {voice.amid(label)}", voice.measure(measure), True
    weights = sorted({yarn.weight for yarn in pattern.yarns.values()})
    names = ", ".join(f"{yarn_weight(number).name} ({number})" for number in weights)
    count = len(pattern.yarns)
    colors = voice.term["color" if count == 1 else "colors"]
    yield "Yarn", text(f"{names}, {count} {colors}"), False
    yield capital(voice.term["gauge"]), _main_gauge_words(voice), True
    if pattern.made.by == "machine":
        needles = per_size([pattern.needles(size) for size in voice.sizes])
        yield "Made", join("On a circular machine with ", needles, " needles"), False
    if pattern.skill:
        yield "Skill", text(pattern.skill), False


def _art(voice: Voice, drawn: Drawn) -> Figure:
    """A photograph, else the finished piece, else the pattern's first picture or chart as knitted
    fabric, or at least the fabric of its first yarn."""
    if voice.plan.source.photos:
        return _photo(voice, 0)
    return _finished_art(voice, drawn) or _captioned(_fabric_art(voice) or _plain_art(voice))


def _captioned(art: Figure) -> Figure:
    """A picture of fabric that says who has drawn it."""
    return replace(art, caption=text(_DRAWN))


def _finished_art(voice: Voice, drawn: Drawn) -> Figure | None:
    """The first piece that has an outline, in its yarns and stitches."""
    found = finished(voice, ART_WIDTH_MM, PIECE_HEIGHT_MM, drawn.painted)
    if found is None:
        return None
    piece = next(each for each in voice.plan.pieces if each.key == found.piece)
    motifs = [m.chart for step in piece.steps for tube in step.tubes[:1] for m in tube.motifs]
    worked = [chart.chart for step in piece.steps for chart in step.charts]
    pattern = voice.plan.source.pattern
    picture = pattern.pieces[found.piece].picture
    charts = dict.fromkeys((*([picture.chart] if picture else ()), *motifs, *worked))
    told = " ".join(ended(pattern.charts[each].alt) for each in charts)
    alt = f"{pattern.pieces[found.piece].title} as knitted: {found.kind}. {told}".strip()
    size = f", size {voice.sizes[found.size]}" if len(voice.sizes) > 1 else ""
    return Figure(found.drawing, alt, text(f"{_DRAWN}{size}"))


def _plain_art(voice: Voice) -> Figure:
    """The fabric of most of the pattern in its yarns, without its edges."""
    piece, step = _main_step(voice)
    looks = tuple(seen_in_turn(voice, piece, step, 0))
    count = _plain_rows(voice)
    faces = {
        (row, place): face
        for row in range(count)
        for place in range(ART_STITCHES)
        if (face := looks[row % len(looks)][place % len(looks[row % len(looks)])]) is not None
    }
    what = "Knitted" if faces else "Plain knitted"
    yarns = _row_yarns(voice, piece, step)
    rows = [(yarns[row % len(yarns)],) * ART_STITCHES for row in range(count)]
    used = list(dict.fromkeys(row[0] for row in rows))
    names = listed(voice.yarn_names[yarn] for yarn in used)
    told = f"stripes of {names}" if len(used) > 1 else f"one yarn, {names}"
    return Figure(_fabric(voice, rows, faces), f"{what} fabric in {told}.")


def _main_step(voice: Voice) -> tuple[PiecePlan, StepPlan]:
    """The step that most stitches are worked in, and its piece."""
    return max(
        ((piece, step) for piece in voice.plan.pieces for step in piece.steps),
        key=lambda each: sum(count for row in each[1].worked[0] for _, count in row),
    )


def _row_yarns(voice: Voice, piece: PiecePlan, main: StepPlan) -> list[str]:
    """The yarn of each row from where the main step begins to the end of its piece; that of most
    of the pattern alone where it has no stripes of several rows."""
    steps = piece.steps[piece.steps.index(main) :]
    rows = [loops for step in steps for loops in step.worked[0] if loops]
    if len({yarn for loops in rows for yarn, _ in loops}) > 1 and all(len(r) == 1 for r in rows):
        return [yarn for ((yarn, _),) in rows]
    return [max(voice.plan.yarn, key=lambda each: max(need.metres for need in each.needs)).yarn]


def _plain_rows(voice: Voice) -> int:
    """Rows of plain fabric that fill the box, one at the least, however high they are."""
    aspect = _main_gauge(voice).aspect
    return max(1, round(ART_STITCHES * aspect / ART_WIDTH_MM * ART_HEIGHT_MM))


def _fabric_art(voice: Voice) -> Figure | None:
    """The pattern's first picture or chart as knitted fabric."""
    for piece in voice.plan.pieces:
        for step in piece.steps:
            if step.pictures:
                return _tube_art(voice, piece.key, step.pictures[0])
            if step.tubes and not step.tubes[0].has_picture:
                return _stripe_art(voice, step.tubes[0])
            if step.charts and not step.charts[0].turns:  # its cells beyond a turn are no fabric
                return _chart_art(voice, step.charts[0], step.yarn)
    return None


def photo_section(voice: Voice) -> Blocks:
    """The photographs after the first, which is on the cover."""
    source = voice.plan.source
    if len(source.photos) < 2:
        return ()
    title = heading(2, "Photographs", "photographs", columns=True)
    return (title, *(_photo(voice, index) for index in range(1, len(source.photos))))


def _photo(voice: Voice, index: int) -> Figure:
    source = voice.plan.source
    photo = source.pattern.photos[index]
    caption = text(photo.caption) if photo.caption else ()
    return Figure(source.photos[index], photo.alt, caption, language=voice.prose_language)


def _tube_art(voice: Voice, key: str, plan: PicturePlan) -> Figure:
    picture = voice.plan.source.pattern.pieces[key].picture
    if picture is None:
        return _motif_art(voice, plan)
    alt = voice.plan.source.pattern.charts[picture.chart].alt
    return Figure(_fabric(voice, picture_rounds(plan), {}), f"Knitted fabric. {ended(alt)}")


def _motif_art(voice: Voice, plan: PicturePlan) -> Figure:
    """What is seen of a tube with motifs, unrolled with the middle of its front in the middle."""
    charts = voice.plan.source.pattern.charts
    brim, outer = plan.tube.segment(TubePart.LINING_BRIM), plan.tube.segment(TubePart.OUTER)
    assert outer is not None
    turned_up = range(brim.first, brim.last + 1) if brim else range(0)
    seen = [*turned_up, *range(outer.first + len(turned_up), outer.last + 1)]
    middle = plan.tube.front + plan.tube.needles // 4
    turn = (middle - plan.tube.needles // 2) % plan.tube.needles
    rows = []
    for number in seen:
        row = plan.colours.rounds[number - 1]
        rows.append((*row[-turn:], *row[:-turn]) if turn else row)
    told = (ended(charts[each].alt) for each in dict.fromkeys(m.chart for m in plan.motifs))
    return Figure(_fabric(voice, rows, {}), f"Knitted fabric with motifs. {' '.join(told)}")


def _stripe_art(voice: Voice, plan: PicturePlan) -> Figure | None:
    """The lowest stripes of a tube as knitted fabric; nothing for a tube of one yarn."""
    if len(plan.stripes.stripes) == 1:
        return None
    outer = plan.tube.segment(TubePart.OUTER)
    assert outer is not None
    rows = plan.colours.rounds[outer.first - 1 : outer.last][: _plain_rows(voice)]
    yarns = listed(voice.yarn_names[yarn] for yarn in dict.fromkeys(row[0] for row in rows))
    wide = [(row[0],) * ART_STITCHES for row in rows]
    return Figure(_fabric(voice, wide, {}), f"Knitted fabric in stripes of {yarns}.")


def _chart_art(voice: Voice, worked: ChartRows, yarn: str) -> Figure:
    """A chart's fabric: repeated until it fills the box, or as it grows from pass to pass."""
    key = worked.chart
    chart, grid = voice.plan.source.pattern.charts[key], worked.grid
    book, known = voice.plan.book, voice.plan.source.pattern.yarns
    named = {c: cell_meaning(meaning, known)[1] for c, meaning in chart.legend.items()}
    stitch = {c: book.named(name) if name else None for c, name in named.items()}
    nothing = next((c for c, name in named.items() if name == NO_STITCH), None)
    lines = laid(grid, _passes(voice, grid, worked, nothing), nothing)
    yarns = chart_yarns(chart)
    rows = [[_yarn_or(voice, yarns[c] if c else None, yarn) for c in line] for line in lines]
    beside = book.named(NO_STITCH)
    cells = [[stitch[c] if c else beside for c in line] for line in lines]
    alt, faces = f"Knitted fabric. {ended(chart.alt)}", faces_of(cells)
    if not worked.passes:
        return Figure(_fabric(voice, rows, faces), alt)
    colours = {each: yarn.colour for each, yarn in known.items()}
    room = (ART_WIDTH_MM, PIECE_HEIGHT_MM)
    return Figure(growing(rows, faces, _main_gauge(voice), colours, room), alt)


def _passes(voice: Voice, grid: Grid, worked: ChartRows, nothing: str | None) -> tuple[int, ...]:
    """The repeats side by side in each pass through a chart that is drawn."""
    if worked.passes:
        growing = worked.passes[0]
        seen = [n for n in growing if len(grid.laid(grid.rounds[0], n)) <= ART_GROWN]
        return tuple(seen) or growing[:1]
    aspect = _main_gauge(voice).aspect
    once = any(nothing in line for line in grid.rounds if nothing)
    high = max(1, round(ART_STITCHES * aspect / ART_WIDTH_MM * ART_HEIGHT_MM / grid.height))
    high = 1 if once else high
    across = max(1, round(ART_WIDTH_MM / ART_HEIGHT_MM * grid.height * high / aspect / grid.width))
    across = min(across, max(1, ART_MOST // (grid.width * grid.height * high)))
    return (across,) * high


def _yarn_or(voice: Voice, yarn: str | None, main: str) -> str:
    return yarn if yarn is not None and yarn in voice.yarn_names else main


def _fabric(
    voice: Voice, rows: Sequence[Sequence[str]], faces: Mapping[tuple[int, int], Face]
) -> Drawing:
    colours = {key: yarn.colour for key, yarn in voice.plan.source.pattern.yarns.items()}
    aspect = _main_gauge(voice).aspect
    return fabric(rows, colours, aspect, ART_WIDTH_MM, ART_HEIGHT_MM, faces)


def _main_gauge(voice: Voice) -> Gauge:
    return voice.plan.measures.sizes[0].gauges[""]


# ---------------------------------------------------------------- sizes


def size_section(voice: Voice, drawn: Drawn = USUALLY) -> Blocks:
    """The schematic drawings, and one table of bodies, finished measures and what the drawings
    measure beside them."""
    rows = [
        length_figures(voice, f"To fit {body_label(voice.plan, name)}", mm)
        for name, mm in body_rows(voice.plan)
    ]
    found = schematics(voice)
    letters = finished_letters(found)
    rows += [
        measure_figures(voice, label, measure, letters.get(label, ()))
        for label, measure in voice.plan.measures.finished.items()
    ]
    rows += further_measures(voice, found)
    caption = "Body and finished measurements" if body_rows(voice.plan) else "Finished measurements"
    table = unit_table(voice.sizes, caption, "Measurement", scales(voice.units), rows)
    table = replace(table, whole=bool(found))
    title = "Sizes and finished measurements" if len(voice.sizes) > 1 else "Measurements"
    return (heading(2, title, "sizes"), *schematic_blocks(voice, found, drawn), table)


# ---------------------------------------------------------------- materials


def material_section(voice: Voice, drawn: Drawn = USUALLY) -> Blocks:
    """Yarns with their swatches, the amounts per size, tools and notions.

    To one size the amounts are told with the yarns.
    """
    pattern = voice.plan.source.pattern
    found: list[Block] = [
        heading(2, "Materials", "materials"),
        heading(3, "Yarn"),
        DefinitionList(tuple(_yarn_entry(voice, total, drawn) for total in voice.plan.yarn)),
        *([_amounts(voice)] if len(voice.sizes) > 1 else ()),
    ]
    if pattern.tools:
        found += [heading(3, "Tools", columns=True), _tools(pattern)]
    if pattern.notions:
        listed_at = pattern.place.of("notions")
        items = tuple(
            ListItem((paragraph(each),), Origin(listed_at.of(index).span))
            for index, each in enumerate(pattern.notions)
        )
        found += [heading(3, "Notions", columns=True), ItemList(items)]
    return tuple(found)


def _yarn_entry(voice: Voice, total: YarnTotal, drawn: Drawn) -> Definition:
    yarn = voice.plan.source.pattern.yarns[total.yarn]
    key = ChartKey(total.yarn, yarn_symbols(voice)[total.yarn], yarn.name, yarn.colour)
    weight = yarn_weight(yarn.weight)
    ball = f"{ball_weight(total.ball.grams, voice.units)} = "
    ball += yarn_length(total.ball.metres, voice.units)
    meaning = running(
        f"{weight.name} ({weight.number}){f', {yarn.fibre}' if yarn.fibre else ''}, "
        f"{ball} per ball.",
        _needed(voice, total.needs[0]) if len(voice.sizes) == 1 else "",
        _balls([need.balls for need in total.needs]),
    )
    mark = swatch(key, 4.5, colour=drawn.colour)
    origin = Origin(yarn.place.span)
    return Definition((Strong(text(yarn.name)),), meaning, mark, origin=origin)


def _needed(voice: Voice, need: YarnNeed) -> str:
    """``You need 32 g (96 m / 105 yd), reserve included.``"""
    if not need.metres:
        return ""
    weight, *lengths_ = (f"{_amount(voice, need, unit)} {unit}" for unit in _units(voice))
    return f"You need {weight} ({' / '.join(lengths_)}), reserve included."


def _units(voice: Voice) -> tuple[str, ...]:
    """The units of a yarn's amount, its weight first."""
    return {"metric": ("g", "m"), "imperial": ("oz", "yd"), "both": ("g", "m", "yd")}[voice.units]


def _balls(balls: Sequence[int]) -> Inlines:
    """``Buy 2 (3) balls.``"""
    if 1 in balls and set(balls) != {1}:
        return join("Balls to buy: ", (Strong(figures(balls)),), ".")
    return join("Buy ", (Strong(counted(balls, "ball")),), ".")


def _amounts(voice: Voice) -> Table:
    """Weights and lengths per yarn and size, rounded up; a dash where a size needs none."""
    pattern = voice.plan.source.pattern
    units = _units(voice)
    rows = [
        Figures(
            voice.yarn_names[total.yarn],
            tuple(tuple(_amount(voice, need, unit) for need in total.needs) for unit in units),
            Origin(pattern.yarns[total.yarn].place.span),
        )
        for total in voice.plan.yarn
    ]
    return unit_table(voice.sizes, "Yarn needed, reserve included", "Yarn", units, rows)


def _amount(voice: Voice, need: YarnNeed, unit: str) -> str:
    if not need.metres:
        return NOT_WORKED
    match unit:
        case "g":
            return str(up(need.grams))
        case "oz":
            return up_to_tenths(need.grams / GRAMS_PER_OUNCE)
        case "m":
            return str(up(need.metres))
        case _:
            return str(yards_up(need.metres, voice.units))


def _tools(pattern: Pattern) -> ItemList:
    return ItemList(
        tuple(
            ListItem(
                (paragraph(f"{capital(named(tool, pattern.terms))}{_for(tool)}"),),
                Origin(tool.place.span),
            )
            for tool in pattern.tools
        )
    )


def _for(tool: Tool) -> str:
    return f" – {tool.use}" if tool.use else ""


# ---------------------------------------------------------------- gauge


def gauge_section(voice: Voice) -> Blocks:
    """Every gauge; a table where the sizes differ."""
    pattern = voice.plan.source.pattern
    found: list[Block] = [heading(2, capital(voice.term["gauge"]), "gauge")]
    if len(voice.sizes) > 1 and any(size.gauge for size in pattern.sizes.values()):
        found.append(_gauge_table(voice, pattern))
    else:
        found.append(paragraph(_main_gauge_words(voice), "."))
    for key, gauge in pattern.gauges.items():
        pieces = [piece.title for piece in pattern.pieces.values() if piece.gauge == key]
        what = f"{', '.join(pieces)}: " if pieces else ""
        words = _gauge_words(voice, [voice.plan.measures.sizes[0].gauges[key]], [gauge], key)
        found.append(paragraph(what, words, "."))
    return tuple(found)


def _main_gauge_words(voice: Voice) -> Inlines:
    """The main gauge in a line, with the figures and tools of all sizes."""
    pattern = voice.plan.source.pattern
    gauges = [size.gauges[""] for size in voice.plan.measures.sizes]
    written = [size.gauge or pattern.gauge for size in pattern.sizes.values()]
    return _gauge_words(voice, gauges, written, "")


def _gauge_words(
    voice: Voice, gauges: Sequence[Gauge], written: Sequence[WrittenGauge], key: str
) -> Inlines:
    """``9.6 stitches and 13.2 rounds over 10 cm / 4 in``, the fabric, its state and the tool."""
    pattern = voice.plan.source.pattern
    general = pattern.gauges[key] if key else pattern.gauge
    over = _over_mm(voice, general)
    tools = [each.tool for each in written]
    return join(
        per_size([_per(gauge.stitches_per(over)) for gauge in gauges]),
        " stitches and ",
        per_size([_per(gauge.rounds_per(over)) for gauge in gauges]),
        f" {_gauge_unit(pattern, key)} over {_over(voice)}",
        "".join(f", {part}" for part in (general.worked, general.state) if part),
        join(", ", per_size(tools)) if all(tools) else "",
    )


def _per(count: float) -> str:
    """Stitches or rounds over a length, to three figures."""
    return f"{count:.3g}"


def _over(voice: Voice) -> str:
    return {"metric": "10 cm", "imperial": "4 in", "both": "10 cm / 4 in"}[voice.units]


def _over_mm(voice: Voice, written: WrittenGauge) -> float:
    """The length that the printed figures are counted over.

    The trade takes 10 cm and 4 in for the same, though they are 1.6 % apart. Where both are
    printed, the figures are exact for the one that the designer measured in.
    """
    four_inches = 4 * MM_PER_INCH
    if voice.units == "both" and written.swatch is None:
        inches = parse_length(written.over) / MM_PER_INCH
        return four_inches if abs(inches - round(inches)) < 1e-6 else 100.0
    return four_inches if voice.units == "imperial" else 100.0


def _gauge_unit(pattern: Pattern, key: str) -> str:
    """``rows`` where the pieces of that gauge are worked flat."""
    ways = {piece.worked for piece in pattern.pieces.values() if (piece.gauge or "") == key}
    if not ways:
        written = pattern.gauges[key] if key else pattern.gauge
        return "rows" if "flat" in written.worked else "rounds"
    return {"flat": "rows", "round": "rounds"}[ways.pop()] if len(ways) == 1 else "rounds or rows"


def _gauge_table(voice: Voice, pattern: Pattern) -> Table:
    """A size a row; the column of tools only where one is named."""
    over = _over_mm(voice, pattern.gauge)
    written = [size.gauge or pattern.gauge for size in pattern.sizes.values()]
    tool = "Setting" if pattern.made.by == "machine" else "Tool"
    tools = any(each.tool for each in written)
    columns = [
        Column(text("Size")),
        Column(text("Stitches"), align="right"),
        Column(text(capital(_gauge_unit(pattern, ""))), align="right"),
        *([Column(text(tool), weight=2.0)] if tools else []),
    ]
    rows = []
    for sizing, each in zip(voice.plan.measures.sizes, written, strict=True):
        gauge = sizing.gauges[""]
        cells = [sizing.name, _per(gauge.stitches_per(over)), _per(gauge.rounds_per(over))]
        cells += [each.tool or NOT_WORKED] if tools else []
        rows.append(TableRow(tuple(text(cell) for cell in cells)))
    where = "".join(f", {part}" for part in (pattern.gauge.worked, pattern.gauge.state) if part)
    return Table(text(f"Over {_over(voice)}{where}"), tuple(columns), tuple(rows))


# ---------------------------------------------------------------- abbreviations


def abbreviation_section(voice: Voice, used: Sequence[str], of_words: Mapping[str, str]) -> Blocks:
    """The abbreviations among the ids ``used`` in rows, each with what to do, then those that only
    words have, each with what it is short for.

    Words that a row says in full, such as ``remove marker``, need no entry.
    """
    explained = [voice.abbreviation(id) for id in used]
    explained += [(short, name, "") for short, name in of_words.items()]
    entries = tuple(
        Definition((Strong(text(abbreviation)),), text(f"{name}: {how}" if how else name))
        for abbreviation, name, how in explained
        if abbreviation != name
    )
    if not entries:
        return ()
    return (
        heading(2, "Abbreviations", "abbreviations"),
        DefinitionList(entries, columns=2),
    )
