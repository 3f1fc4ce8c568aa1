"""Sound patterns that use every part of the source that the others leave out: one by hand, and one
of tubes from the machine with motifs, carried yarns and priced ends."""

import io
from collections.abc import Mapping

from PIL import Image

_TEXT = """\
title: Sailmaker's Sampler
designer: The Ebbstow Knitting Room
version: "2.1"
date: 2026-11-02
changes:
  - {version: "2.1", date: 2026-11-02, note: The strap is longer.}
  - {version: "2.0", date: 2026-05-02, note: "Size L is new."}
language: en
terms: UK
units: both
summary: A sampler of a hat, a strap and a panel.
skill: Easy.
contact: patterns@ebbstow.example
licence: For your own use. Ask before you sell what you made.
wearer: [adult, child]
hazards: [small parts, cords, pompom]
photos:
  - {file: p.png, alt: A grey square that stands for the sampler, caption: The *sampler*}
gauge:
  swatch: {stitches: 42, width: 20.4 cm, rounds: 56, height: 19.8 cm}
  state: unwashed
  worked: stocking stitch in the round
  tool: 4.5 mm needles
gauges:
  thick: {stitches: 14, rounds: 20, over: 4 in, tool: 6 mm needles}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, fibre: 100 % wool, ball: 3.5 oz = 220 yd}
  foam:
    name: Foam
    colour: "#e9eef0"
    weight: 4
    fibre: 100 % wool
    ball: 100 g = 200 m
    swatch: {stitches: 2400, grams: 21}
  rust: {name: Rust, colour: "#a6452a", weight: 4, fibre: 100 % wool, ball: 50 g = 95 m}
tools:
  - {name: 4.5 mm needles, use: throughout}
  - {name: 6 mm needles, use: strap}
  - {name: 5 mm crochet hook, use: edge}
  - {name: blunt sewing-up needle, use: grafting and ends}
  - {name: cable needle}
notions: [smooth waste yarn, 2 markers, "Safety pin, about 5 cm (2 in)"]
sizes:
  Child: {like: child 8-10}
  M: {like: man M}
  L: {head: 60 cm, gauge: {stitches: 20, rounds: 27}}
measures:
  cast_on: stitches(head * 92 %, multiple = 8)
  rib: {Child: 4 cm, M: 5 cm, L: 6 cm}
  rib_rounds: rounds(rib)
  body: [10 cm, 12 cm, 13 cm]
  half: cast_on / 2
  strap: thick_stitches(5 cm, multiple = 4)
  side: 12 if half > 40 else 10
finished:
  Circumference: width(cast_on)
  Depth: height(rib_rounds) + body
charts:
  rope:
    title: Rope
    grid: rope.grid
    legend: {".": {yarn: slate, stitch: k}, "#": {yarn: foam, stitch: k}}
    alt: Slanting light strokes on a dark ground.
  lace:
    title: Lace
    grid: lace.grid
    legend: {".": k, "o": yo, "/": k2tog, "-": p}
    alt: A hole beside a decrease, one above the other.
    repeats: false
stitches:
  knot: {uses: 1, makes: 1, name: knot, how: Knit into the stitch below.}
notes: |
  # Before you start

  Read *all* of it. With {{ cast_on }} stitches you need:

  - a long needle,
  - patience.

  See [the town](https://ebbstow.example).
techniques: [stranded-knitting, joining-a-new-yarn]
pieces:
  hat:
    title: Hat
    yarn: slate
    schematic:
      shape: hat
      around: width(cast_on)
      brim: rib
      body: height(rib_rounds) + body
      crown: 8 cm
    steps:
      - section: Brim
      - cast on: cast_on
      - say: Join in the round, and place a marker.
      - work: "*k2, p2; repeat from * to end"
        rounds: rib_rounds
        note: Loosely.
      - section: Body
      - chart: rope
      - work: [k all, "k1, knot, k to end"]
        times: 3
      - work: k all
        rounds: rounds(body) - 10
      - section: Crown
      - crown: 8
        with: ssk
        pace: every other
        to: 8
      - gather: all
  strap:
    title: Strap
    worked: flat
    gauge: thick
    yarn: rust
    make: 2
    steps:
      - cast on: strap
        method: waste yarn
      - chart: lace
        rounds: 2
      - even: increase
        to: strap + 4
        with: kfb
      - work: [k all, p all]
        rounds: 20
      - even: decrease
        to: strap
      - leave: live
  end:
    title: End
    worked: flat
    gauge: thick
    yarn: rust
    steps:
      - cast on: strap
      - work: [k all, p all]
        rounds: 4
      - join: strap
        by: three-needle bind-off
      - edging: "dc in each stitch to corner, 3 dc in corner, dc in each stitch"
        along: 40 cm
        sides: [side, strap]
finishing: Weave in the ends.
care: Wash by hand.
silence:
  - {check: measure.rounding, because: It is a sampler.}
"""


def _photograph() -> str:
    out = io.BytesIO()
    Image.new("L", (60, 40), 120).save(out, "PNG")
    return out.getvalue().decode("latin-1")


_TUBES = """\
title: Sailmaker's Bolsters
designer: The Ebbstow Knitting Room
version: "1.0"
date: 2026-11-02
summary: Tubes from the machine with everything that may lie on them.
wearer: [adult]
terms: US
units: both
made: {by: machine, needles: 48}
gauge: {stitches: 10, rounds: 14, over: 10 cm}
gauges:
  tight: {stitches: 12, rounds: 17, over: 10 cm}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, fibre: 100 % wool, ball: 100 g = 200 m}
  foam: {name: Foam, colour: "#e9eef0", weight: 4, fibre: 100 % wool, ball: 100 g = 200 m}
  rust: {name: Rust, colour: "#a6452a", weight: 4, fibre: 100 % wool, ball: 50 g = 95 m}
  gold: {name: Gold, colour: "#e0b13c", weight: 4, fibre: 100 % wool, ball: 50 g = 95 m}
tools:
  - {name: circular knitting machine with 48 needles}
  - {name: 5 mm crochet hook, use: joining}
  - {name: blunt tapestry needle, use: "embroidery, grafting and ends"}
notions: [Smooth waste yarn, 2 markers]
sizes:
  S: {head: 50 cm, needles: 40}
  M: {head: 54 cm, needles: 44}
  L: {head: 57 cm, gauge: {stitches: 9.6, rounds: 13, over: 10 cm}}
measures:
  deep: [20 cm, 21 cm, 22 cm]
  tuft: 4 cm
finished:
  Circumference: width(needles)
  Depth: deep
charts:
  buoy:
    title: Buoy
    grid: buoy.grid
    legend: {".": slate, "r": rust, "f": foam}
    alt: A red buoy with a light band.
  drops:
    title: Drops
    grid: drops.grid
    legend: {".": foam, "g": gold}
    alt: Drops in every second stitch.
pieces:
  cord:
    title: Cord
    made: machine
    worked: flat
    gauge: tight
    yarn: gold
    steps:
      - cast on: 4
      - work: k all
        rounds: rounds(40 cm)
      - bind off: all
  bolster:
    title: Bolster
    yarn: slate
    tube:
      visible: deep
      lining: [18 cm, 19 cm, 20 cm]
      brim: 4 cm
      gather: tuft
      yarns: {lining: foam, brim: foam, body: slate, gather: rust}
      start of round: right
      stripes:
        - {from: 6 rounds above rim, rounds: 2, yarn: foam}
        - {from: 1 cm above rim, rounds: 1, yarn: rust, on: brim}
        - {from: 4 rounds below top, rounds: 1 cm, yarn: foam}
    motifs:
      - {chart: buoy, at: front, above rim: 10 rounds}
      - {chart: buoy, at: back, above rim: 4 cm, mirror: true, sizes: [S, M]}
      - {chart: drops, around: true, above rim: 3 rounds, on: brim}
    colour plan:
      minutes per stitch: 0.5
      minutes per change: 5
      minutes per end: 2
      carry: 6
      tail: 12 cm
      strand: 70 cm
      shortest stripe: 2
      never base: [gold]
      stranded: laid in by hand
    steps:
      - section: Knitting
      - stripes: from plan
      - embroider: from plan
      - {join: start, by: sewing}
      - {close: top, by: tie}
  ring:
    title: Ring
    gauge: tight
    yarn: slate
    tube:
      length: 60 cm
      gather: 2 cm
      stripes:
        - {from: 3 cm above start, rounds: 3, yarn: foam}
        - {from: 5 cm below end, rounds: 2 cm, yarn: rust}
    motifs:
      - {chart: buoy, at: front and back, below top: 6 cm, mirror: true}
      - {chart: buoy, at: 20, above rim: 12 cm}
    colour plan: {minutes per end: 1, carry: 3}
    steps:
      - stripes: from plan
      - embroider: from plan
      - {join: start, by: slip stitch, yarn: foam}
      - {close: top, by: drawstring}
finishing: Weave in the ends.
"""


ALL_SORTS: Mapping[str, str] = {
    "pattern.yaml": _TEXT,
    "rope.grid": "#..##..#\n..##..##\n.##..##.\n##..##..\n",
    "lace.grid": "....\n.o/.\n",
    "templates/notes/care.md": "# Looking after it\n\nWash it by hand.\n",
    "p.png": _photograph(),
}

TUBES: Mapping[str, str] = {
    "pattern.yaml": _TUBES,
    "buoy.grid": "..r..\n.rrr.\n.fff.\n.rrr.\n",
    "drops.grid": ".g\ng.\n",
}
