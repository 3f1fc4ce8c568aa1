"""Which way to work a band of rounds or an area: four techniques priced side by side."""

from dataclasses import dataclass
from enum import StrEnum

from generator.plan.colour.embroidery import Area
from generator.plan.colour.grid import ColourGrid


class Technique(StrEnum):
    """Ways to work more than one colour, in the order ties are decided."""

    STRIPES = "stripes"
    STRANDED = "stranded"
    INTARSIA = "intarsia"
    DUPLICATE = "duplicate stitch"


class Obstacle(StrEnum):
    """Why a technique does not serve."""

    NOT_WHOLE_ROUNDS = "a round has more than one colour"
    TOO_MANY_COLOURS = "a round has more colours than are stranded at once"
    LONG_FLOATS = "a float passes more stitches than the limit"
    TUBE = "the piece is worked as a tube"
    STIFF = "a covered area is larger than the limit"
    NOT_AVAILABLE = "the way the piece is made does not allow it"


@dataclass(frozen=True, slots=True)
class TechniqueRule:
    """Times (minutes; ours, common practice, no source) and limits."""

    float_limit: int
    minutes_per_stitch: float = 0.5
    minutes_per_change: float = 5.0
    minutes_per_stranded_stitch: float = 0.03
    minutes_per_crossing: float = 0.1
    colours_stranded: int = 2
    largest_area: int | None = None
    available: tuple[Technique, ...] = tuple(Technique)


@dataclass(frozen=True, slots=True)
class TechniquePrice:
    """One technique's extra time over plain knitting, and what speaks against it."""

    technique: Technique
    minutes: float
    obstacles: tuple[Obstacle, ...]


@dataclass(frozen=True, slots=True)
class TechniqueChoice:
    """Rounds ``first`` to ``last``: all four techniques side by side and the one recommended."""

    first: int
    last: int
    yarns: tuple[str, ...]
    prices: tuple[TechniquePrice, ...]
    recommended: Technique


def choose_for_bands(grid: ColourGrid, rule: TechniqueRule) -> tuple[TechniqueChoice, ...]:
    """A choice for each band of consecutive rounds that show the same set of yarns."""
    raise NotImplementedError


def choose_for_area(grid: ColourGrid, area: Area, rule: TechniqueRule) -> TechniqueChoice:
    """A choice for one area, seen as a single colour on whatever lies around it."""
    raise NotImplementedError
