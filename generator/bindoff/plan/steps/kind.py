"""What makes a kind of step: the model it is written as, how it is worked, and its answers."""

from collections.abc import Callable
from typing import Generic

from bindoff.plan.bench import Bench, Outcome, States
from bindoff.plan.worked import Answers, Detail, Written
from bindoff.records import Record


class Kind(Record, Generic[Written, Detail]):
    """A kind of step.

    ``work`` gets the bench, the number of the step in its piece from 0, the step as written, its
    yarn, and where every size stands; it raises a ``PatternError`` where the step can't be worked.
    """

    model: type[Written]
    work: Callable[[Bench, int, Written, str, States], Outcome[Detail]]
    answers: Answers[Written, Detail]
