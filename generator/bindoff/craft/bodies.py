"""Body measures by name: measured people where there are data, marked conventions where not.

These are bodies, never finished pieces: ease turns the one into the other. (Craft charts that
give a woman's head as 50.5 cm list a finished hat; measured women have 56 cm, NATICK/TR-15/007.)
"""

import math
from collections.abc import Iterator, Mapping
from enum import StrEnum

from bindoff.records import Record

ANSUR = (
    "ANSUR II, report NATICK/TR-15/007, 2014: mean and standard deviation of measured soldiers"
    " (fitter and younger than the public), rounded to 0.5 cm"
)
WHO = "WHO Child Growth Standards, median head circumference of girls and boys, rounded to 0.5 cm"
UK_1990 = (
    "UK 1990 growth reference, median head circumference of girls and boys, rounded to 0.5 cm"
    " (2 cm above the WHO's at the same age, which sizes under 4 years follow)"
)
WHO_ARM = (
    "WHO Child Growth Standards, median arm circumference of girls and boys, rounded to 0.5 cm"
)
HEIGHT_SHARE = (
    "no measured table found: the WHO's median height of the age times the share that measured"
    " adults have (ANSUR II, from memory of its heights), rounded to 0.5 cm"
)
HAND_SHARE = (
    "no measured table found: the hand's length times 1.07 as in measured adults (ANSUR II), times"
    " 1.2 at birth and evenly less up to 7 years (from memory), rounded to 0.5 cm"
)
CYC = "Craft Yarn Council body sizes, from memory; ages between listed ones halfway"


class Dimension(StrEnum):
    """What is measured; every figure is in millimetres. Circumferences unless called a length."""

    HEAD = "head"
    NECK = "neck"
    CHEST = "chest"
    WAIST = "waist"
    NATURAL_WAIST = "natural waist"
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


class BodyFigure(Record):
    """One measure of a body, in mm, and who measured it, or that nobody has.

    ``taken`` says where or how, for those that people take in more than one way.
    """

    dimension: Dimension
    mm: float
    source: str
    taken: str = ""


class Body(Record):
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


# How ANSUR II takes what people take in more than one way. Its waist lies at the navel: women with
# a bust of 94 cm have 86 cm there, and 74 cm at the narrowest by the Craft Yarn Council's table.
_TAKEN: Mapping[Dimension, str] = {
    Dimension.WAIST: "at the navel",
    Dimension.UPPER_ARM: "flexed",
    Dimension.FOREARM: "flexed",
    Dimension.HAND: "without the thumb",
    Dimension.FOOT: "at the ball",
    Dimension.HEEL: "around heel and ankle",
}

# Mean and standard deviation in mm, (women), (men).
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


def _to_5_mm(mm: float) -> float:
    return 5.0 * math.floor(mm / 5 + 0.5)


def _inches(dimension: Dimension, inches: float | None, taken: str = "") -> Iterator[BodyFigure]:
    """A figure of the Craft Yarn Council, if it has one."""
    if inches is not None:
        yield BodyFigure(dimension, _to_5_mm(inches * 25.4), CYC, taken)


# ---------------------------------------------------------------- adults

# Craft Yarn Council, middle of each range, in inches: chest, narrowest waist, hip, upper arm.
_LISTED: Mapping[str, tuple[float, float, float, float]] = {
    "woman XS": (29, 23.5, 33.5, 9.75),
    "woman S": (33, 25.75, 35.5, 10.25),
    "woman M": (37, 29, 39, 11),
    "woman L": (41, 33, 43, 12),
    "woman 1X": (45, 37, 47, 13.5),
    "woman 2X": (49, 41, 52.5, 15.5),
    "woman 3X": (53, 44.5, 54.5, 17),
    "woman 4X": (57, 46.5, 56.5, 18.5),
    "woman 5X": (61, 49.5, 61.5, 19.5),
    "man S": (35, 29, 36, 12),
    "man M": (39, 33, 40, 13),
    "man L": (43, 37, 44, 15),
    "man XL": (47, 43, 48, 16),
    "man 2X": (51, 47, 51.5, 17),
}


def _measured_adult(group: str, plural: str, column: int) -> Iterator[Body]:
    """S, M and L as measured; the narrowest waist, which nobody measured there, as listed."""
    for letter, deviations, place in _LETTERS:
        name = f"{group} {letter}"
        measured = (
            _measured(dimension, *sexes[column], deviations)
            for dimension, sexes in _MEASURED.items()
        )
        waist = _inches(Dimension.NATURAL_WAIST, _LISTED[name][1], _NARROWEST)
        yield Body(name, f"adult, {place} of measured {plural}", (*measured, *waist))


def _measured(dimension: Dimension, mean: float, deviation: float, deviations: int) -> BodyFigure:
    mm = _to_5_mm(mean + deviations * deviation)
    return BodyFigure(dimension, mm, ANSUR, _TAKEN.get(dimension, ""))


_NARROWEST = "at its narrowest"
_UNSAID = "the table does not say whether flexed"


def _listed_adult(name: str) -> Body:
    chest, waist, hip, arm = _LISTED[name]
    figures = (
        *_inches(Dimension.CHEST, chest),
        *_inches(Dimension.NATURAL_WAIST, waist, _NARROWEST),
        *_inches(Dimension.HIP, hip),
        *_inches(Dimension.UPPER_ARM, arm, _UNSAID),
    )
    return Body(name, "adult, as the trade lists the size", figures)


# ---------------------------------------------------------------- children


_WHO_AGES = ("newborn", "3 months", "6 months", "12 months", "18 months", "2 years", "3 years")

Row = tuple[str, str, float, float | None, float | None, *tuple[float | None, ...]]

# Name, who, head; chest and waist in inches, as the trade lists them; upper arm; around the hand,
# along it, along the foot. Chest and waist of 2 years are both of the children's table, size 2: the
# babies' has a chest of 20 in at 24 months, less than that waist. A two-year name stands for the
# middle of its years. The hand's length is 11.07 % of the height, the foot's 15.3 %: the mean of
# measured men (1756 mm) and women (1629 mm).
_CHILDREN: tuple[Row, ...] = (
    ("newborn", "at birth", 340, None, None, None, None, None, None),
    ("3 months", "at 3 months", 400, 16, None, 135, 80, 65, 95),
    ("6 months", "at 6 months", 430, 17, None, 140, 90, 75, 100),
    ("12 months", "at 12 months", 455, 18, None, 145, 100, 85, 115),
    ("18 months", "at 18 months", 470, 19, None, 145, 105, 90, 125),
    ("2 years", "at 2 years", 475, 21, 21, 150, 110, 95, 135),
    ("3 years", "at 3 years", 490, 22, 21.25, 155, 120, 105, 145),
    ("4 years", "at 4 years", 515, 23, 21.5, 160, 130, 115, 160),
    ("5 years", "at 5 years", 520, 24, 22, 165, 135, 120, 170),
    ("child 6-8", "about 7 years", 530, 25.75, 23, None, 145, 135, 185),
    ("child 8-10", "about 9 years", 540, 27.25, 24, None, 155, 145, 205),
    ("child 10-12", "about 11 years", 545, 29, 24.75, None, 170, 160, 220),
    ("teen 12-14", "about 13 years", 550, 30.75, 25.75, None, 185, 175, 240),
    ("teen 14-16", "about 15 years", 555, 32, 27, None, 195, 185, 255),
)

# The columns after the waist, with their sources and where they are taken.
_SHARES = (
    (Dimension.UPPER_ARM, WHO_ARM, "hanging, at its middle"),
    (Dimension.HAND, HAND_SHARE, "without the thumb"),
    (Dimension.HAND_LENGTH, HEIGHT_SHARE, ""),
    (Dimension.FOOT_LENGTH, HEIGHT_SHARE, ""),
)


def _child(row: Row) -> Body:
    name, who, head, chest, waist, *others = row
    figures = (
        BodyFigure(Dimension.HEAD, head, WHO if name in _WHO_AGES else UK_1990),
        *_inches(Dimension.CHEST, chest),
        *_inches(Dimension.NATURAL_WAIST, waist, _NARROWEST),
        *(
            BodyFigure(dimension, mm, source, taken)
            for (dimension, source, taken), mm in zip(_SHARES, others, strict=True)
            if mm is not None
        ),
    )
    return Body(name, who, figures)


BODIES = (
    *map(_child, _CHILDREN),
    _listed_adult("woman XS"),
    *_measured_adult("woman", "women", 0),
    *map(_listed_adult, ("woman 1X", "woman 2X", "woman 3X", "woman 4X", "woman 5X")),
    *_measured_adult("man", "men", 1),
    *map(_listed_adult, ("man XL", "man 2X")),
)
