"""What is not the same: where it lies, what it is about, and what was and is told in each size."""

from enum import StrEnum

from bindoff.plan.differences.said import Said, What
from bindoff.plan.plan import Plan
from bindoff.records import Record


class ChangedPart(StrEnum):
    """What part of a pattern is not the same."""

    PATTERN = "pattern"
    YARN = "yarn"
    CHART = "chart"
    PIECE = "piece"
    STEP = "step"


class StepAt(Record):
    """A step by its index in the piece and as the reader knows it; a heading has no number."""

    index: int
    number: int | None
    section: str


class Place(Record):
    """Where a change lies: keys in both versions, ``None`` where a version lacks it."""

    part: ChangedPart
    old: str | None = ""
    new: str | None = ""
    old_step: StepAt | None = None
    new_step: StepAt | None = None

    @property
    def added(self) -> bool:
        """Whether only the new version has it."""
        return self.old is None or (self.part is ChangedPart.STEP and self.old_step is None)

    @property
    def gone(self) -> bool:
        """Whether only the old version has it."""
        return self.new is None or (self.part is ChangedPart.STEP and self.new_step is None)


class Shift(Record):
    """What one size was told and is told now; ``None`` where a version says nothing.

    ``size`` is empty for what does not depend on size.
    """

    size: str
    old: Said | None
    new: Said | None


class Change(Record):
    """One subject of one place that is not the same, in the sizes in which it is not."""

    place: Place
    what: What
    of: str
    shifts: tuple[Shift, ...]


class Differences(Record):
    """All that is not the same in two plans, in the order of the document."""

    old: Plan
    new: Plan
    changes: tuple[Change, ...]

    @property
    def sizes(self) -> tuple[str, ...]:
        """The sizes that both have, in the new order."""
        return shared_sizes(self.old, self.new)


def shared_sizes(old: Plan, new: Plan) -> tuple[str, ...]:
    """The sizes that both plans have, in the new order."""
    return tuple(size for size in new.source.sizes if size in old.source.sizes)
