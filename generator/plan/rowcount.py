"""Stitch arithmetic of a row: what it uses, what it leaves on the needle, and whether it fits."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from generator.source.rowlang.stitches import StitchBook
from generator.source.rowlang.syntax import Part, Row


@dataclass(frozen=True, slots=True)
class Counted:
    """A row worked over the live stitches of one size.

    ``consumed`` live stitches were used, ``produced`` made. ``live`` is what is on the needles after
    the row: ``produced`` and the ``unworked`` stitches of a short row. ``markers`` are places on
    those live stitches counted from the start of this row, of which the first ``passed`` lie in the
    worked part. ``repeats`` says how often each repeat of the row, in order, was worked.
    ``loops`` counts the loops made of each yarn ("" where the row names none).
    """

    consumed: int
    produced: int
    live: int
    markers: tuple[int, ...] = ()
    passed: int = 0
    unworked: int = 0
    turned: bool = False
    held: int = 0
    bound_off: int = 0
    cast_on: int = 0
    picked_up: int = 0
    chains: int = 0
    repeats: tuple[int, ...] = ()
    loops: tuple[tuple[str, int], ...] = ()


class Trouble(StrEnum):
    """Why a row does not fit the stitches it is worked over."""

    LEFT_OVER = "left over"  # a repeat does not divide the stitches it has
    NO_ROOM = "no room"  # a repeat has no stitches to be worked over even once
    TOO_MANY = "too many"  # the row uses more stitches than are live
    TOO_FEW = "too few"  # live stitches remain at the end of the row
    NO_MARKER = "no marker"  # a marker is named and none lies ahead, or not here
    PAST_MARKER = "past marker"  # the marker is nearer than the row supposes
    ACROSS_MARKER = "across marker"  # a stitch would be worked over both sides of a marker
    ENDLESS = "endless"  # what is repeated uses no stitches
    UNKNOWN_NUMBER = "unknown number"  # no value for a computed number
    NEGATIVE_NUMBER = "negative number"  # a computed number below nought


@dataclass(frozen=True, slots=True)
class Mismatch:
    """The figures of a row that does not fit.

    ``used`` is how many stitches the row uses (whole repeats only), ``unit`` what one repeat uses,
    ``left_over`` the stitches that remain for it, ``nearest`` the closest live counts below and
    above at which the row fits. ``part`` is what cannot be worked; ``number`` names a bad number.
    """

    trouble: Trouble
    live: int
    used: int
    part: Part | None = None
    unit: int = 0
    left_over: int = 0
    nearest: tuple[int, ...] = ()
    number: str = ""


class RowMismatch(Exception):
    """A row that does not fit; ``figures`` says how, for the caller to put into words."""

    def __init__(self, figures: Mismatch) -> None:
        self.figures = figures
        super().__init__(f"{figures.trouble}: {figures.used} of {figures.live} stitches")


def count_row(
    row: Row,
    live: int,
    numbers: Mapping[str, int],
    markers: tuple[int, ...],
    book: StitchBook,
) -> Counted:
    """``row`` worked over ``live`` stitches with ``markers`` at those places, for one size.

    A marker at 3 lies after the third stitch. A marker that is passed without being named is
    slipped. Raises ``RowMismatch``.
    """
    raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Needle:
    """The stitches before a row: ``left`` to be worked, ``right`` behind the turning point.

    Marker places count away from the gap between the needles: ``left_markers`` in the direction of
    work, ``right_markers`` against it.
    """

    left: int
    right: int = 0
    left_markers: tuple[int, ...] = ()
    right_markers: tuple[int, ...] = ()


def after_row(needle: Needle, counted: Counted, *, flat: bool) -> Needle:
    """The needle before the next row: turned round where work is ``flat`` or the row turned."""
    raise NotImplementedError
