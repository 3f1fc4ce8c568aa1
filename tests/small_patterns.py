"""Three small patterns that build, for tests to change: a cap, a folded tube, a flat flap."""

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan, make_plan
from bindoff.source.read import Source, read_source

HEAD = """\
title: Quay Cap
designer: The Ebbstow Knitting Room
version: "1.0"
date: 2026-11-02
summary: A plain cap with a band of waves.
wearer: [adult]
"""

CAP = (
    HEAD
    + """\
gauge:
  stitches: 20
  rounds: 28
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}
tools:
  - {name: 4.5 mm circular needle, use: throughout}
sizes:
  S: {head: 52 cm}
  M: {head: 56 cm}
measures:
  around: head * 95 %
  cast_on: stitches(around, multiple = 8)
  depth: [20 cm, 21 cm]
finished:
  Circumference: width(cast_on)
charts:
  waves:
    title: Waves
    grid: waves.grid
    legend: {".": slate, "#": foam}
    alt: Low light waves on a dark ground.
pieces:
  cap:
    title: Cap
    yarn: slate
    steps:
      - cast on: cast_on
      - work: "*k2, p2; repeat from * to end"
        rounds: 8
      - chart: waves
      - work: k all
        rounds: rounds(depth) - 30
      - crown: 8
        to: 8
      - gather: all
"""
)

TUBE = (
    HEAD
    + """\
made: {by: machine, needles: 24}
gauge: {stitches: 10, rounds: 14}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}
sizes:
  S: {head: 24 cm}
  M: {head: 26 cm}
measures:
  visible: [10 cm, 11 cm]
finished:
  Circumference: width(needles)
charts:
  waves:
    title: Waves
    grid: waves.grid
    legend: {".": slate, "#": foam}
    alt: Low light waves on a dark ground.
pieces:
  cap:
    title: Cap
    tube: {visible: visible, brim: 3 cm, gather: 1 cm}
    picture: {chart: waves, start: 1, ground: slate}
    steps:
      - stripes: from plan
      - embroider: from plan
      - gather: all
"""
)

FLAP = (
    HEAD
    + """\
gauge: {stitches: 20, rounds: 28}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes:
  S: {neck: 34 cm}
  M: {neck: 38 cm}
measures:
  wide: [20, 24]
  narrow: [10, 12]
finished:
  Width: width(wide)
pieces:
  flap:
    title: Flap
    worked: flat
    steps:
      - cast on: wide
      - taper: "k1, k2tog, k to last 3, ssk, k1"
        to: narrow
        over: 20
        every: 2
        plain: [k all, p all]
      - bind off: all
"""
)

WAVES = """\
........
..##....
.#..#..#
#....##.
"""


def changed(text: str, *changes: tuple[str, str]) -> str:
    """``text`` with every old part, which must be there, replaced once."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def flap(*steps: str) -> str:
    """The flap with other steps, each as it is written after its dash."""
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n"
    return head + "".join(f"      - {step}\n" for step in steps)


def source_of(text: str, grid: str = WAVES) -> Source:
    """The source read from ``text``."""
    return read_source(MemoryFiles({"pattern.yaml": text, "waves.grid": grid}))


def plan_of(text: str, grid: str = WAVES) -> Plan:
    """The plan of the pattern in ``text``."""
    return make_plan(source_of(text, grid))


def faults_of(text: str, grid: str = WAVES) -> tuple[Diagnostic, ...]:
    """What stops the pattern in ``text``; nothing if it can be planned."""
    try:
        plan_of(text, grid)
    except PatternError as error:
        return error.findings
    return ()
