"""Body measures by name: measured people where there are data, marked conventions where not.

These are bodies, never finished pieces: ease turns the one into the other. (Craft charts that
give a woman's head as 50.5 cm list a finished hat; measured women have 56 cm, NATICK/TR-15/007.)
"""

import math
from dataclasses import dataclass
from enum import StrEnum

ANSUR = (
    "ANSUR II, report NATICK/TR-15/007, 2014: mean and standard deviation of measured soldiers"
    " (fitter and younger than the public), rounded to 0.5 cm"
)
WHO = "WHO Child Growth Standards, median head circumference of girls and boys, rounded to 0.5 cm"
BETWEEN = (
    "no measured source: a straight line from the WHO head at 5 years to the ANSUR II adult mean"
    " at 18 (women and men alike), rounded to 0.5 cm"
)
HAND_COMMON = "common practice, no source"
CYC = "Craft Yarn Council body sizes, from memory; ages between listed ones halfway"


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
    """One measure of a body, in mm, and who measured it, or that nobody has."""

    dimension: Dimension
    mm: float
    source: str


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
    """The person of that name, in any case. Raises ``ValueError`` that lists the names."""
    for person in BODIES:
        if person.name.casefold() == name.strip().casefold():
            return person
    raise ValueError(f"no body is called {name!r}; there are {', '.join(body_names())}")


def body_names() -> tuple[str, ...]:
    """All names, children by age, then adults."""
    return tuple(person.name for person in BODIES)


# Mean and standard deviation in mm, (women), (men). The arms are measured flexed, the foot at its
# ball, the heel round heel and ankle, the hand without the thumb.
_MEASURED: dict[Dimension, tuple[tuple[float, float], tuple[float, float]]] = {
    Dimension.HEAD: ((561.1, 19.4), (574.4, 16.0)),
    Dimension.NECK: ((329.8, 19.2), (397.6, 25.8)),
    Dimension.CHEST: ((946.9, 82.7), (1058.7, 87.4)),
    Dimension.WAIST: ((860.9, 99.9), (940.6, 111.7)),
    Dimension.HIP: ((1021.2, 75.9), (1019.5, 76.7)),
    Dimension.UPPER_ARM: ((305.6, 30.8), (358.1, 34.6)),
    Dimension.FOREARM: ((264.1, 18.5), (310.1, 22.0)),
    Dimension.WRIST: ((154.8, 7.8), (175.9, 9.0)),
    Dimension.HAND: ((186.6, 8.8), (212.3, 10.2)),
    Dimension.HAND_LENGTH: ((181.1, 10.1), (193.3, 9.9)),
    Dimension.FOOT: ((228.1, 11.8), (252.0, 12.9)),
    Dimension.FOOT_LENGTH: ((246.3, 12.4), (271.2, 13.1)),
    Dimension.HEEL: ((310.3, 15.3), (343.5, 16.6)),
    Dimension.ANKLE: ((215.7, 14.9), (229.3, 14.6)),
}

# Letter sizes stand one standard deviation apart: with the rounding, S lies near the 10th to 25th
# percentile of its group, M at the middle, L near the 75th to 90th.
_LETTERS = (
    ("S", -1, "about the 16th percentile"),
    ("M", 0, "the middle"),
    ("L", 1, "about the 84th percentile"),
)

_HEAD_AT_5 = 503.0


def _to_5_mm(mm: float) -> float:
    return 5.0 * math.floor(mm / 5 + 0.5)


def _adults(group: str, plural: str, column: int) -> tuple[Body, ...]:
    return tuple(
        Body(
            f"{group} {letter}",
            f"adult, {place} of measured {plural}",
            tuple(
                _measured(dimension, *sexes[column], deviations)
                for dimension, sexes in _MEASURED.items()
            ),
        )
        for letter, deviations, place in _LETTERS
    )


def _measured(dimension: Dimension, mean: float, deviation: float, deviations: int) -> BodyFigure:
    return BodyFigure(dimension, _to_5_mm(mean + deviations * deviation), ANSUR)


def _child(
    name: str, who: str, head: BodyFigure, chest_in: float | None, hand_in: float | None
) -> Body:
    figures = [head]
    if chest_in is not None:
        figures.append(BodyFigure(Dimension.CHEST, _to_5_mm(chest_in * 25.4), CYC))
    if hand_in is not None:
        figures.append(BodyFigure(Dimension.HAND, _to_5_mm(hand_in * 25.4), HAND_COMMON))
    return Body(name, who, tuple(figures))


def _who_head(mm: float) -> BodyFigure:
    return BodyFigure(Dimension.HEAD, mm, WHO)


def _head_between(age: float) -> BodyFigure:
    (woman, _), (man, _) = _MEASURED[Dimension.HEAD]
    adult = (woman + man) / 2
    mm = _HEAD_AT_5 + (adult - _HEAD_AT_5) * (age - 5) / (18 - 5)
    return BodyFigure(Dimension.HEAD, _to_5_mm(mm), BETWEEN)


# Chest and hand in inches, as the trade lists them; a hand is the middle of its listed range, and
# a two-year name the middle of its years.
BODIES = (
    _child("newborn", "at birth", _who_head(340), None, None),
    _child("3 months", "at 3 months", _who_head(400), 16, 3.5),
    _child("6 months", "at 6 months", _who_head(430), 17, 3.5),
    _child("12 months", "at 12 months", _who_head(455), 18, 3.5),
    _child("18 months", "at 18 months", _who_head(470), 19, 4.75),
    _child("2 years", "at 2 years", _who_head(475), 20, 4.75),
    _child("3 years", "at 3 years", _who_head(490), 22, 4.75),
    _child("4 years", "at 4 years", _who_head(500), 23, 5.5),
    _child("5 years", "at 5 years", _who_head(505), 24, 5.5),
    _child("child 6-8", "about 7 years", _head_between(7), 25.75, 5.5),
    _child("child 8-10", "about 9 years", _head_between(9), 27.25, 5.75),
    _child("child 10-12", "about 11 years", _head_between(11), 29, 6),
    _child("teen 12-14", "about 13 years", _head_between(13), 30.75, None),
    _child("teen 14-16", "about 15 years", _head_between(15), 32, None),
    *_adults("woman", "women", 0),
    *_adults("man", "men", 1),
)
