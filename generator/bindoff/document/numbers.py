"""Every computed figure with its derivation, as plain data for ``numbers.json``."""

from collections.abc import Mapping
from typing import Any

from bindoff.plan.gauge import Gauge
from bindoff.plan.plan import Plan
from bindoff.plan.steps import PiecePlan
from bindoff.plan.values import Measure, Value
from bindoff.plan.yarn import YarnNeed
from bindoff.source.models import SectionStep

FORMAT = 1


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
        if not isinstance(step.step, SectionStep)
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


def _need(need: YarnNeed) -> dict[str, Any]:
    return {
        "metres": _rounded(need.metres),
        "grams": _rounded(need.grams),
        "balls": need.balls,
        "uncertainty": need.uncertainty,
        "parts": {part.name.value: _rounded(part.metres) for part in need.parts},
    }


def _rounded(number: float) -> float:
    """Six decimals: below any printed figure, above binary dust."""
    return round(number, 6)
