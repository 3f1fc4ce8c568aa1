"""Goes on working a piece after a step that can't be worked, so that later faults are heard too.

After a faulty step every size is taken to have the count it should have had: the one that the step
states (``to:``, what is cast on or picked up), or the one it began with. What later steps find in
stitches that are only supposed is laid beneath the first fault: it may be no fault of its own. What
is wrong in a step whatever the stitches (a word, a name, an amount) is told by itself.
"""

from collections.abc import Sequence

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.plan.bench import Bench, States
from bindoff.plan.rowcount import LiveStitches
from bindoff.records import Changing, field, replace
from bindoff.source.steps.step import Step

_OF_STITCHES = ("row.", "chart.", "piece.", "even.", "taper.", "crown.")
_OF_WORDS = frozenset(
    {
        "row.empty", "row.character", "row.unreadable", "row.comma", "row.unknown-stitch",
        "row.unknown-yarn", "row.yarn-place", "row.number", "row.no-number", "row.nought",
        "row.unknown-pattern", "row.pattern-inside", "row.pattern-goal", "row.in-pattern",
        "row.long", "row.large", "row.name", "row.how", "row.nested", "row.star-inside",
        "row.times", "row.into-one", "row.not-crochet", "row.after-turn", "row.double",
        "row.unknown-number", "row.not-whole", "row.endless", "even.with", "crown.with",
        "crown.top", "crown.sizes",
    }
)  # fmt: skip


_CLOSING = ("bind_off", "gather", "leave", "join")


def of_stitches(finding: Diagnostic) -> bool:
    """Whether a finding depends on the stitches that are live."""
    return finding.id.startswith(_OF_STITCHES) and finding.id not in _OF_WORDS


class Faults(Changing):
    """What is gathered while a piece is worked.

    ``supposed`` holds from a fault, which leaves the stitches unknown, until they are known again
    by a new cast-on. What was held before stays unknown.
    """

    causes: list[Diagnostic] = field(default_factory=list)
    followers: list[Diagnostic] = field(default_factory=list)
    supposed: bool = False

    def add(self, error: PatternError) -> None:
        """Takes the findings of a step."""
        for finding in error.findings:
            known = not self.supposed and (finding.id != "piece.held" or not self.causes)
            follows = of_stitches(finding) and not known
            (self.followers if follows else self.causes).append(finding)
        self.supposed = True

    def passed(self, step: Step) -> None:
        """After a step that could be worked: new stitches are known ones."""
        if _says(step, "cast_on") or _says(step, "pick_up_along"):
            self.supposed = False

    def refuse(self) -> None:
        """Raises a ``PatternError`` with all causes if there are any."""
        if not self.causes:
            return
        causes = list(dict.fromkeys(self.causes))
        if self.followers:
            first = next((i for i, each in enumerate(causes) if of_stitches(each)), 0)
            told = tuple(each for each in dict.fromkeys(self.followers) if each not in causes)
            causes[first] = replace(causes[first], follows=told)
        raise PatternError(causes)


def supposed(bench: Bench, index: int, step: Step, states: States) -> States:
    """Where every size stands after a step that could not be worked."""
    counts = _stated(bench, index, step, [state.live for state in states])
    rounds = _amount(bench, index, step, "over") or _amount(bench, index, step, "rounds")
    return tuple(
        replace(
            state,
            needle=state.needle if count == state.live else LiveStitches(count),
            rounds=state.rounds + (rounds[size] if rounds else 0),
            held=0 if _says(step, "held") else state.held,
        )
        for size, (state, count) in enumerate(zip(states, counts, strict=True))
    )


def _stated(bench: Bench, index: int, step: Step, live: Sequence[int]) -> Sequence[int]:
    """The stitches that the step says it ends with; those it began with where it says none."""
    if any(_says(step, closing) for closing in _CLOSING):
        return [0] * len(live)
    ends = _amount(bench, index, step, "to") or _amount(bench, index, step, "cast_on")
    if ends:
        return ends
    held = _amount(bench, index, step, "held")
    more = _amount(bench, index, step, "pick_up") or [0] * len(live)
    return [sum(parts) for parts in zip(held, more, strict=True)] if held else live


def _says(step: Step, key: str) -> bool:
    return key in step.model_fields_set


def _amount(bench: Bench, index: int, step: Step, key: str) -> Sequence[int]:
    """The counts that a step states under ``key``, per size; none where it states none."""
    amount = getattr(step, key) if _says(step, key) else None
    if amount is None or not amount.formulas:  # names of held stitches have none
        return ()
    try:
        return bench.measures.counts(amount)
    except PatternError:  # told already
        return ()
