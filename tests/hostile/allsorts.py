"""One sound pattern that uses every part of the source that the others leave out."""

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


ALL_SORTS: Mapping[str, str] = {
    "pattern.yaml": _TEXT,
    "rope.grid": "#..##..#\n..##..##\n.##..##.\n##..##..\n",
    "lace.grid": "....\n.o/.\n",
    "templates/notes/care.md": "# Looking after it\n\nWash it by hand.\n",
    "p.png": _photograph(),
}
