"""Gauge: how wide a stitch and how high a round is, and the counts that follow from a length."""

import math
from typing import Literal, get_args

from bindoff.plan.values import Value
from bindoff.records import Record

State = Literal["unwashed", "washed", "blocked", "washed and blocked"]
Rounding = Literal["nearest", "up", "down"]

# A length that is a whole number of stitches must not gain or lose one to binary fractions.
_DIGITS = 9


class Gauge(Record):
    """The size of one stitch, in millimetres, and the state of the fabric it was measured in.

    Raises ``ValueError`` when a measure is zero, negative or not finite, or the state is unknown.
    """

    stitch_mm: float
    round_mm: float
    state: State = "washed"

    def __post_init__(self) -> None:
        _positive("the width of a stitch", self.stitch_mm)
        _positive("the height of a round", self.round_mm)
        if self.state not in get_args(State):
            raise ValueError(f"a gauge is {' or '.join(get_args(State))}, not {self.state!r}")

    @classmethod
    def over(
        cls, stitches: float, rounds: float, length_mm: float = 100.0, state: State = "washed"
    ) -> "Gauge":
        """A gauge stated as stitches and rounds over one length."""
        return cls.from_swatch(stitches, length_mm, rounds, length_mm, state)

    @classmethod
    def from_swatch(
        cls,
        stitches: float,
        width_mm: float,
        rounds: float,
        height_mm: float,
        state: State = "washed",
    ) -> "Gauge":
        """A gauge derived from a swatch: stitches counted over a width, rounds over a height."""
        _positive("the number of stitches", stitches)
        _positive("the number of rounds", rounds)
        _positive("the width measured", width_mm)
        _positive("the height measured", height_mm)
        return cls(width_mm / stitches, height_mm / rounds, state)

    @property
    def aspect(self) -> float:
        """Width of a stitch divided by its height: above 1 a stitch is wider than high."""
        return self.stitch_mm / self.round_mm

    def stitches_per(self, length_mm: float = 100.0) -> float:
        """Stitches over a length (10 cm unless said otherwise)."""
        return length_mm / self.stitch_mm

    def rounds_per(self, length_mm: float = 100.0) -> float:
        """Rounds over a length (10 cm unless said otherwise)."""
        return length_mm / self.round_mm

    def width_of(self, stitches: float) -> float:
        """Width of a number of stitches, in millimetres."""
        return stitches * self.stitch_mm

    def height_of(self, rounds: float) -> float:
        """Height of a number of rounds, in millimetres."""
        return rounds * self.round_mm

    def stitches_for(
        self,
        length_mm: float,
        multiple: int = 1,
        plus: int = 0,
        rounding: Rounding = "nearest",
    ) -> Value:
        """The stitch count for a width: a multiple of ``multiple`` plus ``plus`` stitches.

        At least one multiple is always given. Raises ``ValueError`` for a length that is not
        positive and finite, a multiple below 1 or a negative ``plus``.
        """
        return _count("stitch width", self.stitch_mm, length_mm, multiple, plus, rounding)

    def rounds_for(
        self,
        length_mm: float,
        multiple: int = 1,
        plus: int = 0,
        rounding: Rounding = "nearest",
    ) -> Value:
        """The round count for a height: as ``stitches_for``, with the height of a round."""
        return _count("round height", self.round_mm, length_mm, multiple, plus, rounding)


def round_to(number: float, rounding: Rounding = "nearest") -> int:
    """A whole number; a half goes up. Binary dust in the ninth decimal is ignored."""
    clean = round(number, _DIGITS)
    match rounding:
        case "nearest":
            return math.floor(clean + 0.5)
        case "up":
            return math.ceil(clean)
        case "down":
            return math.floor(clean)
    raise ValueError(f"rounding is nearest, up or down, not {rounding!r}")


def _count(
    unit: str, unit_mm: float, length_mm: float, multiple: int, plus: int, rounding: Rounding
) -> Value:
    _positive("the length", length_mm)
    if multiple < 1:
        raise ValueError(f"a count must be a multiple of at least 1, not {multiple}")
    if plus < 0:
        raise ValueError(f"the stitches added to a multiple can not be negative ({plus})")
    exact = length_mm / unit_mm
    times = max(1, round_to((exact - plus) / multiple, rounding))
    rounded = times * multiple + plus
    formula = f"length / {unit}, {rounding}"
    inputs: tuple[tuple[str, float], ...] = (("length", length_mm), (unit, unit_mm))
    if (multiple, plus) != (1, 0):
        formula += " multiple + plus"
        inputs += (("multiple", multiple), ("plus", plus))
    return Value(exact, rounded, formula, inputs, error_mm=(rounded - exact) * unit_mm)


def _positive(what: str, number: float) -> None:
    if not math.isfinite(number) or number <= 0:
        raise ValueError(f"{what} must be a number above 0, not {number:g}")
