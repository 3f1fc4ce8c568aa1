"""Which yarns are cut where: those that a knitter has in hand and does not need again soon."""

from collections.abc import Mapping, Sequence

from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.plan.yarnends import supply_of
from bindoff.remembered import once_each
from bindoff.source.steps.work import WorkStep

Used = Sequence[tuple[str, ...]]
"""The yarns of each step of a piece, in the order in which they are first worked."""


@once_each  # every step of the piece asks
def yarns_to_cut(plan: PiecePlan, carried: int) -> Mapping[int, tuple[str, ...]]:
    """The yarns to cut before a step, by its place in the piece.

    A yarn is cut where another one goes on and it is not worked for more than ``carried`` rounds,
    or never again. A tube's changes stand in its counter table, and what closes all stitches ends
    with its yarn cut.
    """
    if any(step.tubes for step in plan.steps):
        return {}
    of_steps = [_used(plan, step) for step in plan.steps]
    found: dict[int, tuple[str, ...]] = {}
    uncut: dict[str, int] = {}  # the step that each yarn was last used in
    for at, (step, used) in enumerate(zip(plan.steps, of_steps, strict=True)):
        if not used:
            continue
        done = tuple(
            yarn
            for yarn, last in uncut.items()
            if (yarn not in used or _striped(step))
            and _rests(plan, of_steps, yarn, last, at) > carried
        )
        if done:
            found[at] = done
        uncut = {yarn: last for yarn, last in uncut.items() if yarn not in done}
        within = cut_within(step, carried) if _striped(step) else ()
        uncut |= {yarn: at for yarn in used if yarn not in within or yarn in ending_yarns(step)}
        if step.closes is not None and not any(progress.stitches for progress in step.after):
            uncut = {}
    return found


def _striped(step: StepPlan) -> bool:
    """Whether a step is worked in stripes, so that a yarn of it may rest at its start."""
    return isinstance(step.step, WorkStep) and bool(step.step.in_stripes)


def ending_yarns(step: StepPlan) -> set[str]:
    """The yarns of the last round of a step, in any size."""
    return {yarn for rounds in step.worked for loops in rounds[-1:] for yarn, _ in loops}


def cut_within(step: StepPlan, carried: int) -> tuple[str, ...]:
    """The yarns that a step cuts and joins again: in every size that comes back to them, they rest
    for more than ``carried`` rounds."""
    rests: dict[str, list[int]] = {}
    for rounds in step.worked:
        last: dict[str, int] = {}
        for at, loops in enumerate(rounds):
            for yarn, _ in loops:
                if at - last.get(yarn, at) > 1:
                    rests.setdefault(yarn, []).append(at - last[yarn] - 1)
                last[yarn] = at
    return tuple(yarn for yarn, each in rests.items() if min(each) > carried)


def _used(plan: PiecePlan, step: StepPlan) -> tuple[str, ...]:
    """The yarns of a step that works, begins or closes something."""
    each = dict.fromkeys(step.worked)
    worked = dict.fromkeys(yarn for rounds in each for loops in rounds for yarn, _ in loops)
    takes = step.begins is not None or supply_of(plan, step) is not None
    return tuple(worked | {step.yarn: None} if takes else worked)


def _rests(plan: PiecePlan, used: Used, yarn: str, last: int, at: int) -> float:
    """For how many rounds a yarn rests that was last used in the step ``last`` and not since, up to
    ``at``; the fewest of all sizes, endless where it never returns."""
    sizes = range(len(plan.steps[0].worked))
    return min(_rests_in(plan, used, yarn, last, at, size) for size in sizes)


def _rests_in(plan: PiecePlan, used: Used, yarn: str, last: int, at: int, size: int) -> float:
    rest = 0
    for loops in reversed(plan.steps[last].worked[size]):
        if yarn in dict(loops):
            break
        rest += 1
    for index in range(last + 1, len(plan.steps)):
        step = plan.steps[index]
        for loops in step.worked[size]:
            if yarn in dict(loops):
                return rest
            rest += 1
        if index >= at and yarn in used[index]:
            return rest
    return float("inf")
