"""Every computed figure with its derivation, as plain data for ``numbers.json``."""

from collections.abc import Mapping
from typing import Any

from bindoff.craft.fabric import FABRIC_YARN
from bindoff.plan.gauge import Gauge
from bindoff.plan.motifs import Placed
from bindoff.plan.picture import PicturePlan, piece_gauges
from bindoff.plan.plan import Plan
from bindoff.plan.values import Measure, Value
from bindoff.plan.worked import PiecePlan
from bindoff.plan.yarn import Knitted, LoopOrigin, Purpose, YarnNeed
from bindoff.plan.yarnends import loose_ends
from bindoff.source.tube import ColourPlan

FORMAT = 1

_HANDBOOK = "handbook rule for the cautious"
_COMMON = "common practice, no source"
_PARTS: Mapping[Purpose, tuple[str, str]] = {
    Purpose.KNITTING: ("stitches x loop of their fabric", "see `knitted` of each need"),
    Purpose.FLOATS: (
        "stitch width for each stitch passed behind, round height for each round carried up",
        "geometry, no source",
    ),
    Purpose.CAST_ON: (
        "long-tail: 3 x width + a loop a stitch; wound, backward loops and stitches picked up "
        "beside held ones: a loop; cable, knitted and inside a row: 2 loops; tubular: 1.5 loops; "
        "waste yarn and provisional: nothing",
        f"{_HANDBOOK} for the long tail; geometry, no source, for the others",
    ),
    Purpose.BIND_OFF: (
        "ordinary and inside a row: 4 x width; sewn: 5 x width; grafted and tubular: a loop a "
        "stitch; i-cord: 3 loops a stitch; picot: 8 x width + 2 loops a stitch; gathered: 1.5 x "
        "width, at both ends of a tube 2 x 2; slip-stitched: 3.5 x width",
        f"{_HANDBOOK}; gathered from memory; slip stitches measured on one swatch",
    ),
    Purpose.TAILS: (
        "2 tails for each time the yarn is joined, an edging or a join worked with it among them",
        _COMMON,
    ),
    Purpose.EMBROIDERY: ("see `thread` of the tubes", "thread per loop from memory, no source"),
    Purpose.EDGING: (
        "length of the edge x that of its tallest stitch, a row each",
        "measured in worsted yarn with a 5 mm hook; taller than dc " + _COMMON,
    ),
    Purpose.SEAMS: (
        "where a text sews: 3 x half the outline of each flat piece, or of the edges of those in "
        "the round where none is flat, and 2 tails",
        f"{_COMMON}; the most there can be, as open edges are counted",
    ),
    Purpose.SWATCH: ("a square of 15 cm at each gauge, shared by stitches", _COMMON),
    Purpose.RESERVE: (
        "each part but the swatch x the reserve of its fabric, at the gauge of another no less "
        "than that of plain knitting, or of its weighed swatch",
        "a quarter above the published amount that is expected of the next design, "
        "tests/bench/yarn_reserve.py; of a swatch by its grams and the step of the scale",
    ),
}
"""How each part of a yarn's need is reckoned, and on what that rests."""


def figures(plan: Plan) -> dict[str, Any]:
    """Measures, pieces and yarn of a plan; lengths in millimetres, per size by name."""
    sizes = plan.source.sizes
    return {
        "format": FORMAT,
        "title": plan.source.pattern.title,
        "version": plan.source.pattern.version,
        "sizes": list(sizes),
        "gauge": {
            sizing.name: {name or "main": _gauge(gauge) for name, gauge in sizing.gauges.items()}
            for sizing in plan.measures.sizes
        },
        "body_mm": {
            sizing.name: {name: _rounded(mm) for name, mm in sizing.body.items()}
            for sizing in plan.measures.sizes
        },
        "measures": _measures(plan.measures.named, sizes),
        "finished": _measures(plan.measures.finished, sizes),
        "pieces": {piece.key: _piece(piece, sizes) for piece in plan.pieces},
        "tubes": {
            piece.key: {
                size: _tube(
                    each,
                    plan.source.pattern.pieces[piece.key].colour_plan,
                    gauge,
                    loose_ends(plan.source, piece, index),
                )
                for index, (size, each, gauge) in enumerate(
                    zip(
                        sizes,
                        step.tubes,
                        piece_gauges(plan.measures, plan.source.pattern.pieces[piece.key]),
                        strict=True,
                    )
                )
            }
            for piece in plan.pieces
            for step in piece.steps
            if step.tubes
        },
        "yarn_parts": {
            purpose.value: {"model": model, "source": source}
            for purpose, (model, source) in _PARTS.items()
        },
        "yarn": {
            total.yarn: {size: _need(need) for size, need in zip(sizes, total.needs, strict=True)}
            for total in plan.yarn
        },
    }


def _gauge(gauge: Gauge) -> dict[str, float]:
    return {"stitch_mm": _rounded(gauge.stitch_mm), "round_mm": _rounded(gauge.round_mm)}


def _measures(measures: Mapping[str, Measure], sizes: tuple[str, ...]) -> dict[str, Any]:
    return {
        name: {
            "kind": measure.kind.value,
            "sizes": {
                size: _value(value) for size, value in zip(sizes, measure.values, strict=True)
            },
        }
        for name, measure in measures.items()
    }


def _value(value: Value) -> dict[str, Any]:
    return {
        "exact": _rounded(value.exact),
        "rounded": _rounded(value.rounded),
        "formula": value.formula,
        "inputs": {name: _rounded(figure) for name, figure in value.inputs},
        "error_mm": None if value.error_mm is None else _rounded(value.error_mm),
    }


def _piece(piece: PiecePlan, sizes: tuple[str, ...]) -> list[dict[str, Any]]:
    """The worked steps: rounds and stitches after each, per size.

    ``step`` is the number that the document prints before the step.
    """
    printed = [
        (step, so_far)
        for step, so_far in zip(piece.steps, piece.rounds_so_far, strict=True)
        if not step.heading
    ]
    return [
        {
            "step": number,
            "rounds": dict(zip(sizes, step.rounds, strict=True)),
            "rounds_so_far": dict(zip(sizes, so_far, strict=True)),
            "stitches": {s: p.stitches for s, p in zip(sizes, step.after, strict=True)},
        }
        for number, (step, so_far) in enumerate(printed, start=1)
        if step.detail is not None
    ]


def _tube(plan: PicturePlan, weights: ColourPlan, gauge: Gauge, joining: int) -> dict[str, Any]:
    """One size's tube: its stripes, what is left to embroider, and the thread for that."""
    stripes, rule = plan.stripes, plan.embroidery.rule
    return {
        "rounds": plan.tube.total_rounds,
        "fold_after": plan.tube.fold_after,
        "picture": {"first": plan.first, "last": plan.last} if plan.has_picture else None,
        "front": plan.tube.front,
        "markers": list(plan.tube.markers),
        "motifs": [_motif(each, gauge) for each in plan.motifs],
        "stripes": [
            {"yarn": stripe.yarn, "first": stripe.first, "last": stripe.last}
            for stripe in stripes.stripes
        ],
        "changes": stripes.change_count,
        "carried": {
            "times": stripes.resumed,
            "rounds": dict(stripes.carried),
        },
        "ends": {
            "formula": "2 x yarns joined + 2 x strands + 2 x yarns that join, close and edge",
            "stripes": stripes.ends,
            "strands": 2 * plan.strands,
            "joining": joining,
        },
        "embroidered": stripes.embroidered_total,
        "minutes": _rounded(stripes.minutes),
        "time": {
            "formula": "stitches x minutes per stitch + yarns joined after the cast-on x minutes "
            "per change + yarns carried up x (minutes per change - 2 x minutes per end) + strands "
            "x 2 x minutes per end",
            "inputs": {
                "minutes_per_stitch": weights.minutes_per_stitch,
                "minutes_per_change": weights.minutes_per_change,
                "minutes_per_end": weights.minutes_per_end,
            },
            "least_possible": _rounded(stripes.least_minutes),
        },
        "single_base": {
            "yarn": stripes.single.yarn,
            "embroidered": stripes.single.embroidered,
            "minutes": _rounded(stripes.single.minutes),
        },
        "thread": {
            "formula": "stitches x loop x thread per loop + passed behind + strands x 2 tails",
            "inputs": {
                "loop_mm": _rounded(rule.loop_mm),
                "thread_per_loop": rule.thread_per_loop,
                "tail_mm": _rounded(rule.tail_mm),
                "strand_mm": _rounded(rule.strand_mm),
            },
            "evidence": "thread per loop is from memory, without a source",
        },
        "embroidery": [
            {
                "yarn": thread.yarn,
                "areas": thread.areas,
                "stitches": thread.stitches,
                "strands": thread.strands,
                "thread_mm": _rounded(thread.thread_mm),
                "strands_mm": [_rounded(mm) for mm in thread.lengths],
            }
            for thread in plan.embroidery.threads
            if thread.stitches
        ],
    }


def _motif(motif: Placed, gauge: Gauge) -> dict[str, Any]:
    """Where a motif lies and how large it is."""
    wide, high = motif.width, len(motif.cells)
    return {
        "chart": motif.chart,
        "place": motif.place,
        "stitches": [motif.stitch, motif.last_stitch],
        "rounds": [motif.first, motif.last],
        "width_mm": {
            "formula": "stitches x stitch width",
            "inputs": {"stitches": wide, "stitch width": _rounded(gauge.stitch_mm)},
            "exact": _rounded(gauge.width_of(wide)),
        },
        "height_mm": {
            "formula": "rounds x round height",
            "inputs": {"rounds": high, "round height": _rounded(gauge.round_mm)},
            "exact": _rounded(gauge.height_of(high)),
        },
    }


def _need(need: YarnNeed) -> dict[str, Any]:
    return {
        "metres": _rounded(need.metres),
        "grams": _rounded(need.grams),
        "balls": need.balls,
        "uncertainty": _rounded(need.uncertainty),
        "parts": {part.name.value: _rounded(part.metres) for part in need.parts},
        "knitted": [_knitted(each) for each in need.knitted],
    }


def _knitted(knitted: Knitted) -> dict[str, Any]:
    """How the yarn of some stitches was reckoned, and how far it is to be trusted.

    The range is that of the fabric at its own gauge, carried to the factor in use; the evidence
    that of the fabric or of the gauge's, whichever is weaker.
    """
    loop = knitted.loop
    rule, founded = FABRIC_YARN[loop.fabric], FABRIC_YARN[loop.founded]
    weighed = loop.origin is LoopOrigin.SWATCH
    of_swatch = weighed and loop.uncertainty != FABRIC_YARN[loop.doubted].reserve
    return {
        "fabric": loop.fabric.value,
        "stitches": _rounded(knitted.stitches),
        "loop_mm": _value(loop.value),
        "model": f"loop from {loop.origin.value}",
        "factor": _rounded(loop.factor),
        "factor_range": [_rounded(each / rule.own * loop.factor) for each in (rule.low, rule.high)],
        "evidence": founded.evidence.value,
        "designs": founded.designs,
        "reserve": _rounded(loop.uncertainty),
        "reserve_from": "weighed swatch" if of_swatch else "fabric",
        "source": f"weighed swatch; {founded.source}" if weighed else founded.source,
    }


def _rounded(number: float) -> float:
    """Six decimals: below any printed figure, above binary dust."""
    return round(number, 6)
