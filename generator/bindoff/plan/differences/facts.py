"""What a plan tells of the pattern, its yarns, its charts and its pieces."""

from collections.abc import Mapping, Sequence

from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Cell, Facts, Said, SaidAmount, SaidExtent, Subject, What
from bindoff.plan.differences.values import fine, per_size, prose_of
from bindoff.plan.outlines.choose import outline_of
from bindoff.plan.picture import cell_meaning
from bindoff.plan.plan import Plan
from bindoff.plan.values import Kind, Measure
from bindoff.plan.worked import PiecePlan
from bindoff.plan.yarn import Ball
from bindoff.plan.yarnplan import YarnTotal
from bindoff.source.chart import CellMeaning
from bindoff.source.formula import Quantity
from bindoff.source.pattern import Pattern
from bindoff.source.shape import RowsShape


def _quantities(plan: Plan, measure: Measure) -> dict[str, Said]:
    kind = Kind.LENGTH if measure.kind is Kind.LENGTH else Kind.NUMBER
    return per_size(plan.measures, [Quantity(fine(value), kind) for value in measure.rounded])


def pattern_facts(plan: Plan) -> Facts:
    """What is told before and after the pieces."""
    pattern, measures = plan.source.pattern, plan.measures
    facts: dict[Subject, Mapping[str, Said]] = {}
    for size in measures.sizes:
        for name, mm in size.body.items():
            facts[What.BODY, name] = {
                **facts.get((What.BODY, name), {}),
                size.name: Quantity(fine(mm), Kind.LENGTH),
            }
    for what, figures in ((What.FINISHED, measures.finished), (What.MEASURE, measures.named)):
        facts |= {(what, name): _quantities(plan, measure) for name, measure in figures.items()}
    facts |= _gauge_facts(plan)
    facts |= {(What.TOOL, tool.name): {"": tool.use} for tool in pattern.tools}
    facts |= {(What.NOTION, notion): {"": notion} for notion in pattern.notions}
    facts |= {
        (What.STITCH, key): {"": f"{stitch.name}: {stitch.how}"}
        for key, stitch in pattern.stitches.items()
    }
    facts |= {(What.TEXT, name): {"": text} for name, text in _texts(pattern).items() if text}
    for name in ("notes", "finishing", "care", "licence"):
        facts[What.PROSE, name] = prose_of(plan.measures, getattr(pattern, name))
    return facts


def _gauge_facts(plan: Plan) -> Facts:
    pattern = plan.source.pattern
    facts: dict[Subject, Mapping[str, Said]] = {}
    for name in ("", *pattern.gauges):
        written = [
            pattern.gauges[name] if name else size.gauge or pattern.gauge
            for size in pattern.sizes.values()
        ]
        gauges = [size.gauges[name] for size in plan.measures.sizes]
        counts = [SaidExtent(fine(g.stitches_per()), fine(g.rounds_per())) for g in gauges]
        told: Mapping[What, Sequence[Said | None]] = {
            What.GAUGE: counts,
            What.GAUGE_STATE: [gauge.state for gauge in gauges],
            What.GAUGE_TOOL: [each.tool or None for each in written],
            What.GAUGE_WORKED: [each.worked or None for each in written],
        }
        facts |= {(what, name): per_size(plan.measures, each) for what, each in told.items()}
    return facts


def _texts(pattern: Pattern) -> Mapping[str, str]:
    """Short texts of the head by the name a reader knows them by."""
    counts = [n for size in pattern.sizes if (n := pattern.needles(size))]
    needles = f", {' or '.join(map(str, dict.fromkeys(counts)))} needles" if counts else ""
    return {
        "title": pattern.title,
        "designer": pattern.designer,
        "language": pattern.language,
        "terms": pattern.terms,
        "units": pattern.units,
        "summary": pattern.summary,
        "skill": pattern.skill,
        "contact": pattern.contact,
        "wearer": ", ".join(pattern.wearer) if pattern.worn else "nobody",
        "made": f"by {pattern.made.by}{needles}",
        "cautions": ", ".join(pattern.hazards),
        "techniques": ", ".join(pattern.techniques),
    }


def yarn_names(plan: Plan) -> Mapping[str, str]:
    """The name of every yarn by its key."""
    return {key: yarn.name for key, yarn in plan.source.pattern.yarns.items()}


def yarn_facts(plan: Plan, key: str) -> Facts:
    """What is told of a yarn."""
    yarn = plan.source.pattern.yarns[key]
    total = next(each for each in plan.yarn if each.yarn == key)
    return {
        (What.NAME, ""): {"": yarn.name},
        (What.COLOUR, ""): {"": yarn.colour.lower()},
        (What.WEIGHT, ""): {"": yarn.weight},
        (What.FIBRE, ""): {"": yarn.fibre} if yarn.fibre else {},
        (What.BALL, ""): {"": Ball(fine(total.ball.grams), fine(total.ball.metres))},
        (What.AMOUNT, ""): _amounts(plan, total),
        (What.BALLS, ""): per_size(plan.measures, [need.balls for need in total.needs]),
    }


def _amounts(plan: Plan, total: YarnTotal) -> dict[str, Said]:
    needs = [SaidAmount(fine(need.grams), fine(need.metres)) for need in total.needs]
    return per_size(plan.measures, needs)


def chart_titles(plan: Plan) -> Mapping[str, str]:
    """The title of every chart by its key."""
    return {key: chart.title for key, chart in plan.source.pattern.charts.items()}


def chart_facts(plan: Plan, key: str) -> Facts:
    """What is told of a chart but for its stitches."""
    chart, grids = plan.source.pattern.charts[key], plan.source.grids[key]
    extents = [SaidExtent(grid.width, grid.height) for grid in grids]
    return {
        (What.NAME, ""): {"": chart.title},
        (What.ALT, ""): {"": chart.alt},
        (What.EXTENT, ""): per_size(plan.measures, extents),
    }


Cells = tuple[tuple[Cell, ...], ...]
"""What each stitch of a chart means, round 1 and stitch 1 first."""


def cells_of(plan: Plan, key: str, size: str, keys: Keys) -> Cells:
    """What each stitch of a size's chart means, round 1 and stitch 1 first."""
    legend = plan.source.pattern.charts[key].legend
    cells = {character: _cell(plan, meaning, keys) for character, meaning in legend.items()}
    rounds = plan.source.grids[key][plan.source.sizes.index(size)].rounds
    return tuple(tuple(cells[character] for character in line[::-1]) for line in rounds)


def _cell(plan: Plan, meaning: str | CellMeaning, keys: Keys) -> Cell:
    yarn, stitch = cell_meaning(meaning, plan.source.pattern.yarns)
    return Cell(keys.yarn(yarn) if yarn else "", plan.book.named(stitch).id if stitch else "k")


def piece_facts(plan: Plan, piece: PiecePlan) -> Facts:
    """What is told of a piece but for its steps."""
    written = plan.source.pattern.pieces[piece.key]
    facts: dict[Subject, Mapping[str, Said]] = {
        (What.NAME, ""): {"": written.title},
        (What.MAKE, ""): {"": written.make},
        (What.WORKED, ""): {"": written.worked},
        (What.TOTAL_ROUNDS, ""): per_size(plan.measures, piece.height),
    }
    shape = written.schematic
    for label, amount in shape.dimensions.items() if shape else ():
        facts[What.SCHEMATIC, label] = _quantities(plan, plan.measures.amount(amount))
    if isinstance(shape, RowsShape):
        _, dimensions = outline_of(plan.measures, plan.pieces, piece.key)
        for each in dimensions:
            if not each.drawn.spare:
                lengths = [Quantity(fine(mm), Kind.LENGTH) for mm in each.mm]
                facts[What.SCHEMATIC, each.name] = per_size(plan.measures, lengths)
    return facts
