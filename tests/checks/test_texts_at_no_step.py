"""Texts of every key are read, also those that stand at no step, and strips sewn to a ring."""

from collections.abc import Mapping

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import checked
from tests.small_patterns import changed

BAND = """\
title: Band
designer: A
version: "1.0"
date: 2026-11-30
summary: A strip, sewn to a ring.
skill: Easy.
contact: a@example.org
wearer: [adult]
terms: US
units: metric
gauge:
  {stitches: 18, rounds: 36, over: 10 cm, state: washed, worked: garter stitch, tool: 4 mm needle}
yarns:
  slate: {name: Slate, colour: "#3d4f63", weight: 4, fibre: 100 % wool, ball: 100 g = 180 m}
tools: [{name: 4 mm needles, use: band}, {name: blunt tapestry needle, use: seam}]
sizes: {S: {head: 53 cm}, M: {head: 56 cm}}
measures:
  band_rows: rounds(head * 88 %, multiple = 2)
finished: {Around the head: height(band_rows)}
pieces:
  band:
    title: Band
    yarn: slate
    worked: flat
    schematic: {shape: ring, length: height(band_rows), width: width(18)}
    steps: [{cast on: 18}, {work: [k all], rounds: band_rows}, {bind off: all}]
finishing: Sew the cast-on edge to the bound-off edge.
"""


def told(text: str) -> Mapping[str, str]:
    return {found.id: found.message for found in checked(MemoryFiles({"pattern.yaml": text}))}


@pytest.mark.parametrize(
    "note",
    ["Now pick up 3 stitches for every 4 rows.", "Now pick up 3 stitches for every 0 rows."],
)
def test_a_note_on_a_version_stands_at_no_step(note: str) -> None:
    changes = f'changes:\n  - {{version: "1.0", date: 2026-11-30, note: "{note}"}}\ngauge:'

    assert told(changed(BAND, ("gauge:", changes))) == {}


def test_a_strip_drawn_as_a_ring_is_as_far_around_as_it_is_long() -> None:
    assert told(BAND) == {}
    other = changed(BAND, ("head: height(band_rows)", "head: height(band_rows) * 120 %"))
    assert "stated.width" in told(other)
