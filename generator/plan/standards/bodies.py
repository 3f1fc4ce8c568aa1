"""Body measures by name: measured people where there are data, marked conventions where not.

These are bodies, never finished pieces: ease turns the one into the other. (Craft charts that
give a woman's head as 50.5 cm list a finished hat; measured women have 56 cm, NATICK/TR-15/007.)
"""

from dataclasses import dataclass
from enum import StrEnum

ANSUR = (
    "ANSUR II, report NATICK/TR-15/007, 2014: mean and standard deviation of measured soldiers"
    " (fitter and younger than the public)"
)
WHO = "WHO Child Growth Standards, median head circumference of girls and boys, rounded to 0.5 cm"
BETWEEN = (
    "no measured source: a straight line from the WHO head at 5 years to the ANSUR II adult mean"
    " at 18, rounded to 0.5 cm"
)
HAND_COMMON = "common practice, no source"
CYC = "Craft Yarn Council body sizes, from memory"


class Dimension(StrEnum):
    """What is measured; every figure is in millimetres. Circumferences unless called a length."""

    HEAD = "head"
    NECK = "neck"
    CHEST = "chest"
    WAIST = "waist"
    HIP = "hip"
    UPPER_ARM = "upper arm"
    FOREARM = "forearm"
    WRIST = "wrist"
    HAND = "hand"
    HAND_LENGTH = "hand length"
    FOOT = "foot"
    FOOT_LENGTH = "foot length"
    HEEL = "heel"
    ANKLE = "ankle"


@dataclass(frozen=True, slots=True)
class BodyFigure:
    """One measure of a body, in mm. ``convention``: agreed on or interpolated, not measured."""

    dimension: Dimension
    mm: float
    source: str
    convention: bool


@dataclass(frozen=True, slots=True)
class Body:
    """A named person: ``who`` says which part of the population, ``figures`` what is known."""

    name: str
    who: str
    figures: tuple[BodyFigure, ...]

    def figure(self, dimension: Dimension) -> BodyFigure | None:
        """The figure for that dimension, or ``None`` where the tables have none."""
        return next((f for f in self.figures if f.dimension is dimension), None)


def body(name: str) -> Body:
    """The person of that name. Raises ``ValueError`` that lists the names there are."""
    raise NotImplementedError


def body_names() -> tuple[str, ...]:
    """All names, smallest first."""
    raise NotImplementedError
