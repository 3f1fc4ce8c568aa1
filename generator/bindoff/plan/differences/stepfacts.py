"""What a plan tells of a step."""

from collections.abc import Mapping, Sequence

from bindoff.plan.differences.facts import fine, per_size, prose_of
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.said import Facts, Instruction, Listing, Said, Stop, Subject, What
from bindoff.plan.picture import PicturePlan
from bindoff.plan.plan import Plan
from bindoff.plan.steps import (
    BindOff,
    CastOn,
    ChartRows,
    Crowned,
    Detail,
    Edged,
    Embroidered,
    Even,
    Gather,
    Joined,
    Left,
    PickUp,
    Rows,
    StepPlan,
    Striped,
    Tapered,
)
from bindoff.plan.tube import Part as TubePart
from bindoff.plan.values import Kind
from bindoff.source.formula import Quantity
from bindoff.source.models import AnyStep, BindOffStep, CastOnStep, JoinStep, SayStep, SectionStep
from bindoff.source.rowlang.syntax import Repeat, Row
from bindoff.source.rowlang.uses import numbers_used


def step_facts(plan: Plan, step: StepPlan, keys: Keys) -> Facts:
    """What a step tells, in every size."""
    facts: dict[Subject, Mapping[str, Said]] = {}
    if isinstance(step.step, SectionStep):
        facts[What.HEADING, ""] = {"": step.step.section}
    if isinstance(step.step, SayStep):
        facts[What.SAY, ""] = prose_of(plan, step.step.say)
    facts[What.NOTE, ""] = prose_of(plan, step.step.note)
    if step.detail is None:
        return facts
    facts[What.STITCHES, ""] = per_size(plan, [each.stitches for each in step.after])
    facts[What.ROUNDS, ""] = per_size(plan, step.rounds)
    if not isinstance(step.detail, BindOff | Gather | Left | Striped | Embroidered):
        facts[What.YARN, ""] = {"": keys.yarn(step.yarn)}
    facts |= _detail_facts(plan, step.detail, keys)
    facts |= _method(step.step)
    return facts


def _method(step: AnyStep) -> Facts:
    """How stitches are cast on, bound off or joined."""
    match step:
        case CastOnStep(method=how) | BindOffStep(how=how) | JoinStep(by=how):
            return {(What.METHOD, ""): {"": how} if how else {}}
        case _:
            return {}


def _detail_facts(plan: Plan, detail: Detail, keys: Keys) -> Facts:
    """What only a step of this kind tells."""
    match detail:
        case CastOn():
            return {}
        case PickUp(held, picked_up):
            return {
                (What.HELD, ""): per_size(plan, held),
                (What.PICKED_UP, ""): per_size(plan, picked_up),
            }
        case Rows(rows):
            return _rows(plan, What.ROW, rows)
        case ChartRows(chart, _, across):
            return {
                (What.CHART, ""): {"": keys.chart(chart)},
                (What.REPEATS, ""): per_size(plan, across),
            }
        case Even(rows):
            worked = [_instruction(plan, row, i) if row else None for i, row in enumerate(rows)]
            return {(What.ROW, "1"): per_size(plan, worked)}
        case Tapered(shaping, plain, tapers):
            return {
                **_rows(plan, What.SHAPING_ROW, (shaping,)),
                **_rows(plan, What.PLAIN_ROW, plain),
                (What.PACE, ""): per_size(plan, tapers),
            }
        case Crowned():
            return _crown_facts(plan, detail)
        case BindOff(stitches) | Gather(stitches) | Left(stitches):
            return {(What.CLOSED, ""): per_size(plan, stitches)}
        case Joined(stitches, to):
            return {
                (What.CLOSED, ""): per_size(plan, stitches),
                (What.JOINED_TO, ""): {"": plan.source.pattern.pieces[to].title} if to else {},
            }
        case Striped(plans):
            return {(What.STRANDED, ""): per_size(plan, [_stranded(each) for each in plans])}
        case Embroidered(plans):
            return _embroidery_facts(plan, plans, keys)
        case Edged(rows, along, sides, counts):
            lengths = [Quantity(fine(mm), Kind.LENGTH) for mm in along]
            return {
                **_rows(plan, What.ROW, rows),
                (What.ALONG, ""): per_size(plan, lengths),
                **_numbered_counts(plan, What.SIDE, sides),
                **_numbered_counts(plan, What.EDGED, counts),
            }


def _rows(plan: Plan, what: What, rows: Sequence[Row]) -> Facts:
    """Rows by their number."""
    return {
        (what, str(number)): per_size(
            plan, [_instruction(plan, row, size) for size in range(len(plan.source.sizes))]
        )
        for number, row in enumerate(rows, start=1)
    }


def _numbered_counts(plan: Plan, what: What, counts: Sequence[Sequence[int]]) -> Facts:
    """Counts per size of the first, the second ... of a kind."""
    return {
        (what, str(number)): per_size(plan, each) for number, each in enumerate(counts, start=1)
    }


def _instruction(plan: Plan, row: Row, size: int) -> Instruction:
    numbers = plan.measures.numbers(size)
    names = dict.fromkeys(each.name for each in numbers_used(row))
    return Instruction(row, tuple((name, numbers[name]) for name in names))


def _crown_facts(plan: Plan, detail: Crowned) -> Facts:
    sizes = range(len(plan.source.sizes))
    rounds = [
        [
            (round_, row)
            for round_, row in zip(detail.crown.rounds, detail.rows, strict=True)
            if round_.worked[size]
        ]
        for size in sizes
    ]
    lists: list[Listing] = [
        tuple((each.work, each.after[size], each.plain_after) for each, _ in rounds[size])
        for size in sizes
    ]
    plain = [sum(each.plain_after for each, _ in worked) for worked in rounds]
    starts = [
        _instruction(plan, _once(worked[0][1]), size) if worked else None
        for size, worked in enumerate(rounds)
    ]
    return {
        (What.CROWN_START, ""): per_size(plan, starts),
        (What.DECREASE_ROUNDS, ""): per_size(plan, [len(worked) for worked in rounds]),
        (What.PLAIN_ROUNDS, ""): per_size(plan, plain),
        (What.CROWN, ""): per_size(plan, lists),
    }


def _once(row: Row) -> Row:
    """What one wedge of a crown round says; the round repeats it."""
    (repeat,) = row.parts
    assert isinstance(repeat, Repeat)
    return Row(repeat.parts)


def _embroidery_facts(plan: Plan, plans: Sequence[PicturePlan], keys: Keys) -> Facts:
    """Stitches, areas, strands and thread of each yarn, and the areas in working order."""
    facts: dict[Subject, Mapping[str, Said]] = {
        (What.PICTURE_START, ""): per_size(plan, [_chart_start(each) for each in plans]),
        (What.WORKING_ORDER, ""): per_size(plan, [_order(each, keys) for each in plans]),
    }
    for key in plan.source.pattern.yarns:
        of = keys.yarn(key)
        threads = [
            next((t for t in each.embroidery.threads if t.yarn == key and t.stitches), None)
            for each in plans
        ]
        mm = [Quantity(fine(t.thread_mm), Kind.LENGTH) if t else None for t in threads]
        facts |= {
            (What.EMBROIDERED, of): per_size(plan, [t.stitches if t else None for t in threads]),
            (What.AREAS, of): per_size(plan, [t.areas if t else None for t in threads]),
            (What.STRANDS, of): per_size(plan, [t.strands if t else None for t in threads]),
            (What.THREAD, of): per_size(plan, mm),
        }
    return facts


def _chart_start(plan: PicturePlan) -> int:
    """The tube's round that is round 1 of the embroidery chart, which shows the picture and what
    stripes hide of the tube beside it."""
    rounds = (number for number, line in enumerate(plan.overlay, start=1) if any(line))
    return min(plan.first, next(rounds, plan.first))


def _stranded(plan: PicturePlan) -> Listing | None:
    """The rounds knitted in two yarns, ``None`` if there are none."""
    seconds = enumerate(plan.stripes.seconds, start=1)
    return tuple((number,) for number, second in seconds if second) or None


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


def counter_stops(plan: Plan, step: StepPlan, keys: Keys) -> Mapping[str, tuple[Stop, ...]]:
    """Where the counter stops in a striped step, per size; none for other steps."""
    if not isinstance(step.detail, Striped):
        return {}
    return {
        size: _stops_of(each, keys)
        for size, each in zip(plan.source.sizes, step.detail.plans, strict=True)
    }


def _stops_of(plan: PicturePlan, keys: Keys) -> tuple[Stop, ...]:
    def named(yarns: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(keys.yarn(yarn) for yarn in yarns)

    tube = plan.tube
    ends = [Stop(tube.fold_after, "fold"), Stop(tube.total_rounds, "end")]
    if inside := tube.segment(TubePart.LINING_BRIM):
        ends.append(Stop(inside.first - 1, "lining"))
    if outside := tube.segment(TubePart.OUTER_BRIM):
        ends.append(Stop(outside.last, "brim"))
    changes = [
        Stop(
            change.counter,
            "",
            named(change.drop),
            named(change.take_up),
            "" if change.drop or change.take_up else keys.yarn(change.base),
        )
        for change in plan.stripes.changes
    ]
    return tuple(sorted((*ends, *changes), key=lambda stop: stop.counter))
