"""Two small patterns from the machine: a tube of one layer in wanted stripes, and a flat strip."""

from tests.small_patterns import HEAD

_MACHINE = (
    HEAD
    + """\
made: {by: machine, needles: 22}
gauge: {stitches: 10, rounds: 14}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}
tools:
  - {name: circular knitting machine with 22 needles}
  - {name: blunt tapestry needle, use: ends}
  - {name: 5 mm crochet hook, use: joining}
notions: [Smooth waste yarn]
sizes:
  S: {neck: 36 cm}
  M: {neck: 40 cm}
finished:
  Length around: long
measures:
  long: [60 cm, 70 cm]
pieces:
"""
)

COWL = (
    _MACHINE
    + """\
  cowl:
    title: Cowl
    tube:
      length: long
      stripes:
        - {from: 3 cm above rim, rounds: 2, yarn: foam}
        - {from: 7 rounds above rim, rounds: 1, yarn: foam}
        - {from: 4 rounds below top, rounds: 2 cm, yarn: foam}
    steps:
      - stripes: from plan
      - {join: start, by: slip stitch, yarn: foam}
      - {close: top, by: left open}
"""
)

STRIP = (
    _MACHINE
    + """\
  strip:
    title: Strip
    made: machine
    worked: flat
    yarn: slate
    steps:
      - cast on: 14
      - work: k all
        rounds: 20
      - work: k all
        rounds: 4
        yarn: foam
      - work: k all
        rounds: [20, 24]
      - bind off: all
"""
)
