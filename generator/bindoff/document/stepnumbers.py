"""The numbers of a piece's steps, and the sections they stand in, as the reader sees them."""

from collections.abc import Iterator

from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record


class Numbered(Record):
    """A step with its number, its section's title, and the id of the heading it stands under."""

    number: int
    section: str
    place: str
    step: StepPlan


def piece_id(plan: PiecePlan) -> str:
    """The id of a piece's heading."""
    return f"piece-{plan.key}"


def section_id(plan: PiecePlan, before: int) -> str:
    """The id of the heading of a section that ``before`` others precede in its piece."""
    return f"{piece_id(plan)}-section-{before + 1}"


def numbered(plan: PiecePlan) -> Iterator[Numbered]:
    """The steps of a piece in order."""
    number, sections, section, place = 0, 0, "", piece_id(plan)
    for step in plan.steps:
        if step.heading:
            section, place = step.heading, section_id(plan, sections)
            sections += 1
        else:
            number += 1
            yield Numbered(number, section, place, step)
