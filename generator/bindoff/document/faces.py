"""What a stitch looks like in knitted fabric: a V, a bump, a hole, a lean, a cross, or nothing."""

from collections.abc import Sequence
from enum import StrEnum

from bindoff.craft.cables import cross_of
from bindoff.craft.entry import Lean, Stitch
from bindoff.craft.stitches.cells import BEYOND
from bindoff.records import Record, replace
from bindoff.source.chart import NO_STITCH


class Look(StrEnum):
    """How the cell of a stitch is drawn where it is no plain knit stitch."""

    PURL = "purl"
    HOLE = "hole"
    RIGHT = "right"
    LEFT = "left"
    NOTHING = "nothing"
    COVERED = "covered"


class Crossing(Record):
    """A cross, in its first cell from the left: ``front`` stitches pass over ``behind`` others,
    leaning ``right`` or else left. Its other cells are ``COVERED``.

    Knitted, a cross is drawn out over the plain rounds above it: ``high`` rounds with its own.
    """

    front: int
    behind: int
    right: bool
    high: int = 1

    @property
    def wide(self) -> int:
        """The stitches that change places."""
        return self.front + self.behind


Face = Look | Crossing
Faces = dict[tuple[int, int], Face]
"""Stitches that are no plain knit stitches, as (round, place from the left), both from 0."""


def face_of(stitch: Stitch | None) -> Face | None:
    """How a stitch is drawn, ``None`` for a plain knit stitch and for all that looks like one."""
    if stitch is None:
        return None
    cross = cross_of(stitch.symbol.name) if stitch.symbol else None
    if cross is not None:
        return Crossing(*cross)
    if stitch.id in (NO_STITCH, *BEYOND):
        return Look.NOTHING
    if stitch.id == "p":
        return Look.PURL
    if stitch.consumes == 0 and stitch.produces == 1 and stitch.id.endswith("yo"):
        return Look.HOLE
    if stitch.produces < stitch.consumes and stitch.lean in (Lean.LEFT, Lean.RIGHT):
        return Look(stitch.lean.value)
    return None


def faces_of(rows: Sequence[Sequence[Stitch | None]]) -> Faces:
    """The faces of rows of cells, bottom first, each left to right; a cross stands in all of its
    cells, and in those of the plain rounds above them."""
    found: Faces = {}
    for number, row in enumerate(rows):
        place = 0
        while place < len(row):
            face = face_of(row[place])
            if face is not None:
                found[number, place] = face
            wide = face.wide if isinstance(face, Crossing) else 1
            found.update({(number, place + step): Look.COVERED for step in range(1, wide)})
            place += wide
    crosses = [(at, face) for at, face in found.items() if isinstance(face, Crossing)]
    for (number, place), face in crosses:
        columns = range(place, place + face.wide)
        high = 1
        while (
            high < face.wide - 1
            and number + high < len(rows)
            and not any((number + high, column) in found for column in columns)
        ):
            found.update({(number + high, column): Look.COVERED for column in columns})
            high += 1
        found[number, place] = replace(face, high=high)
    return found
