"""What a pattern tells, about what and in which size: what two versions are compared by."""

from collections.abc import Mapping
from enum import StrEnum

from bindoff.plan.taper import Taper
from bindoff.plan.yarn import Ball
from bindoff.records import Record
from bindoff.source.formula import Quantity
from bindoff.source.rowlang.syntax import Row


class What(StrEnum):
    """What a figure or a text tells; the words are those of the JSON output."""

    # the pattern
    SIZE = "size"
    SIZE_ORDER = "order of sizes"
    TEXT = "text"
    PROSE = "prose"
    TOOL = "tool"
    NOTION = "notion"
    STITCH = "stitch of its own"
    # sizes
    GAUGE = "gauge"
    GAUGE_STATE = "state of the gauge"
    GAUGE_TOOL = "tool for the gauge"
    GAUGE_WORKED = "fabric of the gauge"
    BODY = "body measurement"
    FINISHED = "finished measurement"
    MEASURE = "measure"
    # yarns
    NAME = "name"
    COLOUR = "colour"
    WEIGHT = "weight"
    FIBRE = "fibre"
    BALL = "ball"
    AMOUNT = "amount"
    BALLS = "balls"
    # charts
    ALT = "description"
    EXTENT = "extent"
    CELLS = "cells"
    # pieces
    MAKE = "how often it is made"
    WORKED = "how it is worked"
    TOTAL_ROUNDS = "rounds in all"
    SCHEMATIC = "schematic"
    # steps
    HEADING = "heading"
    SAY = "words"
    FIRST = "words before the step"
    NOTE = "note"
    MARKERS = "markers"
    YARN = "yarn"
    STITCHES = "stitches"
    ROUNDS = "rounds"
    METHOD = "method"
    HELD = "held stitches"
    GROUPS = "stitches taken up"
    PICKED_UP = "picked up"
    ROW = "row"
    SHAPING_ROW = "shaping row"
    PLAIN_ROW = "plain row"
    REPEATED = "rows repeated at the end"
    STRIPES = "stripes"
    PACE = "pace"
    CHART = "chart"
    REPEATS = "repeats of the chart"
    CROWN_START = "first crown round"
    DECREASE_ROUNDS = "decrease rounds"
    PLAIN_ROUNDS = "plain rounds"
    CROWN = "crown rounds"
    CLOSED = "closed stitches"
    JOINED_TO = "joined to"
    ALONG = "length of the edge"
    SIDE = "side of the edge"
    CORD = "length of the cord"
    EDGED = "stitches of the edging"
    COUNTER = "counter"
    STRANDED = "rounds in two yarns"
    FRONT = "first stitch of the front"
    MOTIFS = "places of motifs"
    PICTURE_START = "first round of the picture"
    EMBROIDERED = "embroidered stitches"
    AREAS = "embroidered areas"
    STRANDS = "strands"
    THREAD = "thread"
    WORKING_ORDER = "working order"


class Instruction(Record):
    """A row as one size works it: its computed numbers by name."""

    row: Row
    numbers: tuple[tuple[str, int], ...] = ()


class SaidProse(Record):
    """Prose as written, with the figures that it prints in one size and the names of yarns."""

    text: str
    figures: tuple[tuple[str, float | str], ...] = ()


class SaidAmount(Record):
    """Yarn needed, reserve included."""

    grams: float
    metres: float


class SaidExtent(Record):
    """Stitches and rounds: those of a chart, or those over 10 cm."""

    stitches: float
    rounds: float


class Cell(Record):
    """A stitch of a chart: its yarn (empty: that of the step) and how it is worked."""

    yarn: str
    stitch: str


class Stop(Record):
    """A stop of a machine's counter: where a part of the tube ends, or yarns are cut and joined.

    ``part`` is ``lining``, ``fold``, ``brim`` or ``end``, empty for yarns; ``go_on`` is the yarn of
    the next round where none is cut or joined. ``rest`` are yarns that wait to be carried up,
    ``resume`` those that are.
    """

    counter: int
    part: str = ""
    cut: tuple[str, ...] = ()
    join: tuple[str, ...] = ()
    go_on: str = ""
    rest: tuple[str, ...] = ()
    resume: tuple[str, ...] = ()

    @property
    def kind(self) -> str:
        """What happens at the stop, whatever the counter shows."""
        carried = (self.rest, self.resume) if self.rest or self.resume else ()
        yarns = (self.cut, self.join, *carried)
        return "|".join((f"{self.part}{self.go_on}", *(",".join(each) for each in yarns)))


Listing = tuple[tuple[str | int, ...], ...]

Said = (
    int
    | float
    | str
    | Quantity
    | Ball
    | Taper
    | Instruction
    | SaidProse
    | SaidAmount
    | SaidExtent
    | Stop
    | tuple[Cell, ...]
    | Listing
)
"""Lengths are millimetres. Figures are rounded to the millionth, above binary dust."""

Subject = tuple[What, str]
"""What is told, and of which: the yarn, the row, the named measure; empty where there is one."""

Facts = Mapping[Subject, Mapping[str, Said]]
"""What is told of every subject in each size; under an empty name what does not depend on size."""
