"""What the document asks of each kind of step."""

from collections.abc import Callable, Mapping
from typing import Generic

from bindoff.document.tree import Blocks
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.worked import Detail, PiecePlan, StepPlan, WorkedStep, Written
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Row


class Track(Record):
    """The ``rows`` of a shaping in one size, called ``unit``: those that shape with the stitches
    after each of them."""

    unit: str
    rows: int
    shaped: tuple[tuple[int, int], ...]


def no_tracks(_: StepPlan) -> tuple[Track, ...]:
    """Of a step that shapes at no pace."""
    return ()


class Words(Record, Generic[Written, Detail]):
    """The words of a kind of step.

    ``tell`` gives the blocks of a step in its piece; the flag says that the reader has to be told
    its yarn. ``in_full`` says whether a row of the step is printed without abbreviations.

    Of a step that has changed, ``leads`` are the words before what is new, and ``tells_rounds``
    says that its rounds are worth a line: those of others follow from what else is told.
    ``tracks`` are what a maker may tick of a shaping, size by size.
    ``{bind_off}`` in a lead is filled in the pattern's terms.
    """

    model: type[Written]
    tell: Callable[[Voice, PiecePlan, WorkedStep[Written, Detail], bool], Blocks]
    in_full: Callable[[WorkedStep[Written, Detail], Row], bool]
    leads: Mapping[What, str]
    tells_rounds: bool
    tracks: Callable[[WorkedStep[Written, Detail]], tuple[Track, ...]]
