"""What a plan tells of a step."""

from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size, prose_of
from bindoff.plan.plan import Plan
from bindoff.plan.worked import StepPlan


def step_facts(plan: Plan, step: StepPlan, keys: Keys) -> Facts:
    """What a step tells, in every size."""
    off = "take the markers off" if step.step.remove_markers else None
    note: Facts = {
        (What.MARKERS, ""): per_size(plan.measures, [off] * len(plan.measures.sizes)),
        (What.FIRST, ""): prose_of(plan.measures, step.step.first),
        (What.NOTE, ""): prose_of(plan.measures, step.step.note),
    }
    own = step.answers.facts(plan.measures, step, keys)
    if step.detail is None:
        return {**own, **note}
    return {
        **note,
        (What.STITCHES, ""): per_size(plan.measures, [each.stitches for each in step.after]),
        (What.ROUNDS, ""): per_size(plan.measures, step.rounds),
        **own,
    }
