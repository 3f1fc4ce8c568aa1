"""The differences and how both versions speak."""

from bindoff.document.stepphrases import unit_of
from bindoff.document.steps.registry import words_of
from bindoff.document.voice import Voice, voice_of
from bindoff.plan.differences.change import Change, ChangedPart, Differences, Place, StepAt
from bindoff.plan.worked import StepPlan
from bindoff.records import Record


class Telling(Record):
    """The differences and how both versions speak."""

    found: Differences
    old: Voice
    new: Voice

    def yarn(self, key: str) -> str:
        """The name of a yarn, in the new version if it has it."""
        return self.new.yarn_names.get(key) or self.old.yarn_names.get(key, key)

    def chart(self, key: str) -> str:
        """The title of a chart, in the new version if it has it."""
        charts = {**self.old.plan.source.pattern.charts, **self.new.plan.source.pattern.charts}
        return charts[key].title if key in charts else key

    def step(self, place: Place, at: StepAt | None) -> StepPlan:
        """The plan of a step in the version that ``at`` is of."""
        assert at is not None
        plan, key = (
            (self.found.new, place.new) if at is place.new_step else (self.found.old, place.old)
        )
        assert key is not None
        return plan.piece(key).steps[at.index]

    def lead(self, change: Change) -> str | None:
        """The words that a kind of step has of its own before what has changed, if it has some."""
        place = change.place
        if place.part is not ChangedPart.STEP:
            return None
        step = self.step(place, place.new_step or place.old_step)
        said = words_of(step.step).leads.get(change.what)
        return said and said.format_map(self.new.term)

    def unit(self, place: Place) -> str:
        """``round`` or ``row``."""
        if place.new is not None:
            return unit_of(self.new, self.found.new.piece(place.new))
        assert place.old is not None
        return unit_of(self.old, self.found.old.piece(place.old))


def telling_of(found: Differences) -> Telling:
    """The differences with the voices of both versions."""
    return Telling(found, voice_of(found.old), voice_of(found.new))


def piece_title(telling: Telling, old: str | None, new: str | None) -> str:
    """The title of a piece by its keys, the new one if there is one."""
    if new is not None:
        return telling.found.new.source.pattern.pieces[new].title
    assert old is not None
    return telling.found.old.source.pattern.pieces[old].title
