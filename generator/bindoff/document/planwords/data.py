"""The plan as plain data with every figure."""

from collections.abc import Iterator
from itertools import zip_longest
from typing import Any

from bindoff.document.planwords.bodies import body_measures
from bindoff.document.planwords.techniques import rule
from bindoff.plan.colour.floats import long_floats
from bindoff.plan.colour.technique import (
    TechniqueChoice,
)
from bindoff.plan.coloured import (
    ChartColours,
    SizeColours,
    TubeColours,
    charts_of,
    embroidered_on,
    longest_floats,
    nearest_limit,
    seen,
    tubes_of,
)
from bindoff.plan.crown import flat_crown_rounds, flat_disc_decreases
from bindoff.plan.fit import Fitted, fitted
from bindoff.plan.loops import Loops, by_state, loops_by_gauge
from bindoff.plan.needlefit import CrownFigures, TubeOnNeedles, crowns_of, tube_on_needles
from bindoff.plan.picture import PicturePlan
from bindoff.plan.plan import Plan
from bindoff.plan.yarn import Relaxation
from bindoff.plan.yarnplan import relaxation_of
from bindoff.remembered import once_each

FORMAT = 1


def plan_data(plan: Plan) -> dict[str, Any]:
    """Every figure of the plan; lengths in millimetres unless the key says metres."""
    tube = tube_on_needles(plan, body_measures(plan))
    return {
        "format": FORMAT,
        "title": plan.source.pattern.title,
        "version": plan.source.pattern.version,
        "sizes": list(plan.source.sizes),
        "fit": [_fit_data(plan, each) for each in _fits(plan)],
        "needles": _needle_data(plan, tube) if tube else None,
        "crowns": [_crown_data(plan, crown) for crown in crowns_of(plan)],
        "rule": rule("duplicate stitch"),
        "tubes": [_tube_data(plan, each) for each in tubes_of(plan)],
        "charts": [_chart_data(plan, chart) for chart in charts_of(plan)],
        "loops": [_loop_data(plan, loops) for loops in loops_by_gauge(plan)],
        "yarn": _yarn_data(plan),
    }


def _fits(plan: Plan) -> Iterator[Fitted]:
    return fitted(plan.measures.finished, body_measures(plan))


def _fit_data(plan: Plan, fit: Fitted) -> dict[str, Any]:
    return {
        "finished": fit.label,
        "body": fit.dimension,
        "sizes": {
            size: {
                "body_mm": _exact(body),
                "finished_mm": _exact(finished),
                "ease_mm": _exact(ease),
                "ease_percent": _exact(percent),
            }
            for size, body, finished, ease, percent in zip(
                plan.source.sizes,
                fit.body,
                fit.measure.rounded,
                fit.mm,
                fit.percent,
                strict=True,
            )
        },
    }


def _needle_data(plan: Plan, tube: TubeOnNeedles) -> dict[str, Any]:
    """Gauges in stitches over 10 cm."""
    sizes = plan.source.sizes
    return {
        "needles": tube.needles[0] if len(set(tube.needles)) == 1 else list(tube.needles),
        "body": tube.dimension,
        "ease_percent": [tube.rule.low, tube.rule.high],
        "source": tube.rule.source,
        "sizes": {
            size: {
                "body_mm": _exact(fit.body_mm),
                "gauge": _exact(gauge.stitches_per()),
                "circumference_mm": _exact(fit.circumference.exact),
                "ease_percent": _exact(fit.ease_percent),
                "served": fit.served,
                "gauge_fewest": _exact(found.loosest),
                "gauge_most": _exact(found.tightest),
                "gauge_middle": middle.rounded,
            }
            for size, gauge, fit, found, middle in zip(
                sizes, tube.gauges, tube.own, tube.ranges, tube.middles, strict=True
            )
        },
        "gauges": [
            {
                "gauge": _exact(gauge.stitches_per()),
                "serves": [size for size, fit in zip(sizes, fits, strict=True) if fit.served],
            }
            for gauge, fits in tube.served
        ],
    }


def _crown_data(plan: Plan, crown: CrownFigures) -> dict[str, Any]:
    return {
        "piece": crown.piece,
        "sizes": {
            size: {
                "before": before,
                "after": after,
                "rounds": rounds,
                "flat_rounds": _exact(flat_crown_rounds(before, gauge).exact),
                "flat_decreases": _exact(flat_disc_decreases(gauge)),
            }
            for size, before, after, rounds, gauge in zip(
                plan.source.sizes,
                crown.before,
                crown.after,
                crown.rounds,
                crown.gauges,
                strict=True,
            )
        },
    }


def _tube_data(plan: Plan, tube: TubeColours) -> dict[str, Any]:
    weights = plan.source.pattern.pieces[tube.piece].colour_plan
    return {
        "piece": tube.piece,
        "minutes_per_stitch": weights.minutes_per_stitch,
        "minutes_per_change": weights.minutes_per_change,
        "minutes_per_end": weights.minutes_per_end,
        "carry": weights.carry,
        "shortest_stripe": weights.shortest_stripe,
        "never_base": list(weights.never_base),
        "sizes": {
            size: _stripe_data(each) | (_choice_data(colours) if colours else {})
            for size, each, colours in zip_longest(plan.source.sizes, tube.plans, tube.colours)
        },
    }


def _stripe_data(plan: PicturePlan) -> dict[str, Any]:
    stripes = plan.stripes
    return {
        "rounds": plan.tube.total_rounds,
        "rounds_seen": seen(plan),
        "picture": _picture_data(plan) if plan.has_picture else None,
        "motifs": [
            {
                "chart": each.chart,
                "place": each.place,
                "stitches": [each.stitch, each.last_stitch],
                "rounds": [each.first, each.last],
            }
            for each in plan.motifs
        ],
        "stripes": [
            {
                "first": stripe.first,
                "last": stripe.last,
                "rounds": stripe.rounds,
                "yarn": stripe.yarn,
                "embroidered": embroidered_on(plan, stripe),
            }
            for stripe in stripes.stripes
        ],
        "changes": [
            {
                "counter": change.counter,
                "drop": list(change.drop),
                "take_up": list(change.take_up),
                "rest": list(change.rest),
                "resume": list(change.resume),
                "base": change.base,
            }
            for change in stripes.changes
        ],
        "change_count": stripes.change_count,
        "knitted": dict(stripes.knitted),
        "embroidered": dict(stripes.embroidered),
        "joins": dict(stripes.joins),
        "carried_rounds": dict(stripes.carried),
        "resumed": stripes.resumed,
        "ends": {"stripes": stripes.ends, "strands": 2 * plan.strands},
        "least_minutes": _exact(stripes.least_minutes),
        "minutes": _exact(stripes.minutes),
        "single_base": {
            "yarn": stripes.single.yarn,
            "embroidered": stripes.single.embroidered,
            "minutes": _exact(stripes.single.minutes),
        },
        "saved": {
            "stitches": stripes.stitches_saved,
            "minutes": _exact(stripes.minutes_saved),
        },
    }


def _picture_data(plan: PicturePlan) -> dict[str, Any]:
    return {"first": plan.first, "last": plan.last, "mirrored": plan.mirrored}


@once_each
def _choice_data(colours: SizeColours) -> dict[str, Any]:
    return {
        "float_limit": colours.rule.float_limit,
        "bands": [_one_choice(band) for band in colours.bands()],
        "areas": [
            {"yarn": area.yarn, "stitches": area.stitches} | _one_choice(choice)
            for area, choice in colours.area_choices()
        ],
    }


def _one_choice(choice: TechniqueChoice) -> dict[str, Any]:
    return {
        "first": choice.first,
        "last": choice.last,
        "yarns": list(choice.yarns),
        "techniques": {
            price.technique.value: {
                "minutes": None if price.minutes is None else _exact(price.minutes),
                "obstacles": [obstacle.value for obstacle in price.obstacles],
            }
            for price in choice.prices
        },
        "recommended": choice.recommended.value,
    }


def _chart_data(plan: Plan, chart: ChartColours) -> dict[str, Any]:
    return {
        "piece": chart.piece,
        "chart": chart.chart,
        "step": chart.step + 1,
        "sizes": {
            size: {
                "stitches": chart.colours[index].grid.width,
                "repeats": chart.across[index],
                "float_limit_nearest": nearest_limit(chart.gauges[index].stitches_per()),
                "floats": [
                    {
                        "round": each.round_,
                        "yarn": each.yarn,
                        "inside": each.inside,
                        "across_edge": each.across_edge,
                    }
                    for each in longest_floats(chart, index)
                ],
                "long_floats": _long_data(chart.colours[index]),
            }
            | _choice_data(chart.colours[index])
            for index, size in enumerate(plan.source.sizes)
        },
    }


def _long_data(colours: SizeColours) -> list[dict[str, Any]]:
    return [
        {
            "round": long.run.round_ - colours.shift,
            "yarn": long.run.yarn,
            "first": long.run.first,
            "last": long.run.last,
            "length": long.run.length,
            "catch_at": list(long.catches),
        }
        for long in long_floats(colours.grid, colours.rule.float_limit)
    ]


def _loop_data(plan: Plan, loops: Loops) -> dict[str, Any]:
    return {
        "yarn": loops.yarn,
        "gauge": loops.gauge or "main",
        "sizes": {
            size: {
                "mm": _exact(loop.mm),
                "origin": loop.origin.value,
                "uncertainty": loop.uncertainty,
                "formula": loop.value.formula,
                "inputs": {name: _exact(figure) for name, figure in loop.value.inputs},
                "state": relaxation_of(gauge).value,
                "by_state": {state.value: _exact(by_state(gauge, state)) for state in Relaxation},
            }
            for size, loop, gauge in zip(plan.source.sizes, loops.loops, loops.gauges, strict=True)
        },
    }


def _yarn_data(plan: Plan) -> dict[str, Any]:
    return {
        total.yarn: {
            "name": plan.source.pattern.yarns[total.yarn].name,
            "ball": {"grams": total.ball.grams, "metres": total.ball.metres},
            "tex": _exact(total.ball.tex),
            "sizes": {
                size: {
                    "parts_metres": {part.name.value: _exact(part.metres) for part in need.parts},
                    "metres": _exact(need.metres),
                    "grams": _exact(need.grams),
                    "balls": need.balls,
                    "uncertainty": _exact(need.uncertainty),
                }
                for size, need in zip(plan.source.sizes, total.needs, strict=True)
            },
        }
        for total in plan.yarn
    }


def _exact(number: float) -> float:
    """Six decimals: below any printed figure, above binary dust."""
    return round(number, 6)
