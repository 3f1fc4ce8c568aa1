"""What the stripes left over, embroidered on the tube."""

from collections.abc import Mapping

from bindoff.diagnostics import fail
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, Listing, Said, Subject, What
from bindoff.plan.differences.values import fine, per_size
from bindoff.plan.measures import Measures
from bindoff.plan.picture import PicturePlan
from bindoff.plan.steps import nothing
from bindoff.plan.steps.kind import Kind
from bindoff.plan.values import Kind as Unit
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.plan.yarn import Purpose
from bindoff.records import Record
from bindoff.source.formula import Quantity
from bindoff.source.steps.embroider import EmbroiderStep
from bindoff.source.steps.stripes import StripesStep


class Embroidered(Record):
    """What is embroidered on the tube, per size."""

    plans: tuple[PicturePlan, ...]


_Embroider = WorkedStep[EmbroiderStep, Embroidered]


def _work(
    bench: Bench, index: int, step: EmbroiderStep, yarn: str, states: States
) -> Outcome[Embroidered]:
    before = bench.piece.steps[:index]
    if any(isinstance(each, EmbroiderStep) for each in before):
        raise fail(
            "piece.embroider-twice",
            "what the stripes leave over is embroidered already",
            "Take out this step: the first one embroiders all of it",
            bench.span(index),
        )
    if not any(isinstance(each, StripesStep) for each in before):
        raise fail(
            "piece.embroider-first",
            "the tube is embroidered before it is knitted",
            "Put this step after `- stripes: from plan`",
            bench.span(index),
        )
    return Embroidered(bench.tubes), states, no_rounds(states)


def _pictures(step: _Embroider) -> tuple[PicturePlan, ...]:
    return step.detail.plans


def _thread(step: _Embroider, yarn: str, size: int) -> Mapping[Purpose, float]:
    threads = step.detail.plans[size].embroidery.threads
    return {Purpose.EMBROIDERY: sum(each.thread_mm for each in threads if each.yarn == yarn)}


def _techniques(step: _Embroider, flat: bool) -> tuple[str, ...]:
    if any(any(row) for plan in step.detail.plans for row in plan.overlay):
        return ("chart-in-the-round", "duplicate-stitch")
    return ()


def _facts(measures: Measures, step: _Embroider, keys: Keys) -> Facts:
    """Stitches, areas, strands and thread of each yarn, and the areas in working order."""
    plans = step.detail.plans
    facts: dict[Subject, Mapping[str, Said]] = {
        (What.PICTURE_START, ""): per_size(measures, [_chart_start(each) for each in plans]),
        (What.MOTIFS, ""): per_size(measures, [_motifs(each) for each in plans]),
        (What.WORKING_ORDER, ""): per_size(measures, [_order(each, keys) for each in plans]),
    }
    for key in measures.source.pattern.yarns:
        of = keys.yarn(key)
        threads = [
            next((t for t in each.embroidery.threads if t.yarn == key and t.stitches), None)
            for each in plans
        ]
        mm = [Quantity(fine(t.thread_mm), Unit.LENGTH) if t else None for t in threads]
        facts |= {
            (What.EMBROIDERED, of): per_size(
                measures, [t.stitches if t else None for t in threads]
            ),
            (What.AREAS, of): per_size(measures, [t.areas if t else None for t in threads]),
            (What.STRANDS, of): per_size(measures, [t.strands if t else None for t in threads]),
            (What.THREAD, of): per_size(measures, mm),
        }
    return facts


def _chart_start(plan: PicturePlan) -> int:
    """The tube's round that is round 1 of the embroidery chart, which shows the picture and what
    stripes hide of the tube beside it."""
    rounds = (number for number, line in enumerate(plan.overlay, start=1) if any(line))
    return min(plan.first, next(rounds, plan.first))


def _motifs(plan: PicturePlan) -> Listing | None:
    """Where each motif lies: chart, place, rounds of the tube and stitches; none for a picture."""
    found = (
        (each.chart, each.place, each.first, each.last, each.stitch, each.last_stitch)
        for each in plan.motifs
    )
    return tuple(found) or None


def _order(plan: PicturePlan, keys: Keys) -> Listing:
    """The areas as worked: yarn, rounds of the chart, where it starts, its stitches."""
    below = _chart_start(plan) - 1
    return tuple(
        (
            keys.yarn(area.yarn),
            area.first_round - below,
            area.last_round - below,
            area.cells[0][0] - below,
            area.cells[0][1],
            area.stitches,
        )
        for area in plan.embroidery.areas
    )


KIND = Kind(
    EmbroiderStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=_pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=_thread,
        tools=nothing.tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.ANY,
    ),
)
