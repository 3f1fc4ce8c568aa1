"""The steps of a draft: keys with their values, and the words of the text they come from."""

from collections.abc import Iterable

from bindoff.draft.goals import Goal, MoreOften, RowsInAll, TimesInAll, UntilLong
from bindoff.draft.lines import Origin
from bindoff.draft.sayings import Saying
from bindoff.records import Record, replace

Figures = tuple[int, ...] | tuple[str, ...]
"""One figure for all sizes, or one for each."""


class Words(Record):
    """Prose of the text, for the source."""

    text: str


class Edges(Record):
    """Edges along which stitches are picked up, each with how many."""

    edges: tuple[tuple[tuple[int, ...], str], ...]


class Row(Record):
    """A row for the source, and its label in the text."""

    text: str
    label: str = ""


Value = str | Words | Figures | Edges | tuple[Row, ...]


Entries = tuple[tuple[str, Value], ...]
"""The keys of a step, each with its value."""


class Step(Record):
    """A step of the draft: its keys with their values, and the sentences of the text it is from.

    ``kept``: it seems to work stitches, and stands in its own words because it wasn't understood.
    ``number`` is that of the text's numbered step.
    """

    entries: Entries
    origins: tuple[Origin, ...]
    kept: bool = False
    number: int | None = None

    @property
    def line(self) -> int:
        """The line of the text on which it begins."""
        return self.origins[0].line if self.origins else 1

    @property
    def is_prose(self) -> bool:
        """Whether it is words alone."""
        return self.entries[0][0] == "say"

    @property
    def works(self) -> bool:
        """Whether it works rows."""
        return self.entries[0][0] in ("work", "even", "cord")


class Sentence(Record):
    """A sentence with what it says, its place, the yarn in hand where the text named one, whether
    it is worked in the round, and the number of the text's step it stands in."""

    said: Saying
    origin: Origin
    yarn: str = ""
    in_round: bool = True
    number: int | None = None
    joins: bool = False
    text: str = ""


def with_yarn(entries: Entries, yarn: str) -> Entries:
    """Keys of a step with that of the yarn in hand."""
    return (
        entries if any(key in ("yarn", "say") for key, _ in entries) else (*entries, *in_yarn(yarn))
    )


def in_yarn(yarn: str) -> Entries:
    """The key of the yarn in hand, nothing where the text names none."""
    return (("yarn", yarn),) if yarn else ()


def with_goal(step: Step, goal: Goal) -> Step:
    """A step with its length measured from where ``goal`` says."""
    if not isinstance(goal, UntilLong) or not any(key == "until" for key, _ in step.entries):
        return step
    kept = tuple(entry for entry in step.entries if entry[0] not in ("until", "from"))
    at = 1
    return replace(step, entries=(*kept[:at], *goal_entries(goal), *kept[at:]))


def goal_entries(goal: Goal, times_key: str = "times") -> Entries:
    """The keys that say how far a step is worked."""
    match goal:
        case UntilLong(values, from_start):
            here: Entries = () if from_start else (("from", "here"),)
            note = f"{goal.aside[:1].upper()}{goal.aside[1:]}."
            or_else: Entries = (("note", Words(note)),) if goal.aside else ()
            return (("until", values), *here, *or_else)
        case RowsInAll(values):
            return (("rounds", values),)
        case MoreOften(values):
            return ((times_key, tuple(value + 1 for value in values)),)
        case TimesInAll(values):
            return ((times_key, values),) if values != (1,) else ()


def in_words(each: Sentence, kept: bool = True) -> Step:
    """A sentence as a step in its own words."""
    words = each.text or each.origin.text
    return Step((("say", Words(words)),), (each.origin,), kept, each.number)


def joined(steps: Iterable[Step]) -> Iterable[Step]:
    """Steps with neighbouring prose in one paragraph, as the text has it."""
    held: Step | None = None
    for step in steps:
        if held is not None:
            if held.is_prose and step.is_prose and not (held.kept or step.kept):
                words = Words(f"{_said(held)} {_said(step)}")
                held = Step((("say", words),), (*held.origins, *step.origins))
                continue
            yield held
        held = step
    if held is not None:
        yield held


def _said(step: Step) -> str:
    value = step.entries[0][1]
    assert isinstance(value, Words)
    return value.text
