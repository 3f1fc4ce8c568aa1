"""What is remembered from one edit to the next never shows: a warm build is a cold one's, to the
byte, whatever was written before it."""

import functools
import gc
from dataclasses import replace
from random import Random

import pytest

from bindoff.desk.proofs import Look, Proof, make_proof, page_data, text_sections
from bindoff.desk.workplace import Overlay
from bindoff.render.pdf import PdfOptions
from bindoff.source.statedgauge import StatedGauge
from tests.desk.running import PATTERNS

# name -> (file, what is written, what stands there then)
EDITS = {
    "harbour-light-hat": (
        ("pattern.yaml", "A warm double hat", "A snug double hat"),
        ("pattern.yaml", "units: both", "units: metric"),
        ("pattern.yaml", "terms: US", "terms: UK"),
        ("pattern.yaml", "title: Lighthouse and boat", "title: The light"),
        ("pattern.yaml", "minutes per stitch: 0.5", "minutes per stitch: 1"),
        ("light.grid", "w", "r"),
    ),
    "ropewalk-hat": (
        ("pattern.yaml", "A close-fitting hat", "A close hat"),
        ("pattern.yaml", "head * 92 %", "head * 90 %"),
        ("pattern.yaml", "Use the smaller needle.", "Take the smaller needle, and the tar."),
        ("pattern.yaml", 'name: Hemp, colour: "#d9c7a0"', 'name: Jute, colour: "#d9c7c0"'),
        ("rope.grid", "#", "o"),
        ("pattern.yaml", "wearer: [infant, child, adult]", "wearer: [adult]"),
        ("pattern.yaml", "*k2, p2; repeat from * to end", "*k1, p1; repeat from * to end"),
        ("pattern.yaml", "contact: patterns@ebbstow.example", "contact: desk@ebbstow.example"),
        ("pattern.yaml", "rounds(rib)", "rounds(rib) + 1"),
        ("pattern.yaml", "Weave in the ends", "Sew the sides together and weave in the ends"),
    ),
    "netmender-mittens": (
        ("pattern.yaml", "Warm mittens", 'Thick "warm" mittens'),
        ("pattern.yaml", "around: hand + 1.5 cm", "around: hand + 2 cm"),
        ("pattern.yaml", 'name: Slate, colour: "#4b5d6b"', 'name: Slate, colour: "#6b4b5d"'),
        ("pattern.yaml", "wearer: [child, adult]", "wearer: [adult]"),
        ("net.grid", "-", "."),
        ("pattern.yaml", "Weave in the", "Sew the sides together and weave in the"),
    ),
}
TRIED = ("ropewalk-hat", "netmender-mittens")  # can be made at the gauge that is looked at
LOOKS = (
    Look(),
    Look(PdfOptions(theme="large-print")),
    Look(size="M"),
    Look(gauges=(StatedGauge(23, 29),)),
)


def proof(name: str, edits: frozenset[int], look: Look) -> Proof:
    """The pattern with some of its edits."""
    texts: dict[str, str] = {}
    for number in sorted(edits):
        file, before, after = EDITS[name][number]
        text = texts.get(file) or (PATTERNS / name / file).read_text(encoding="utf-8")
        assert before in text
        texts[file] = text.replace(before, after, 1)
    if name not in TRIED:
        look = replace(look, gauges=())
    return make_proof(Overlay(str(PATTERNS / name), texts), "pattern.yaml", name, look)


def shown(made: Proof) -> tuple[object, ...]:
    """All that the desk gives out of a proof."""
    return made.screen.pages, page_data(made), tuple(map(str, text_sections(made)))


def forget() -> None:
    """Empty every cache of the process."""
    for each in gc.get_objects():
        if isinstance(each, functools._lru_cache_wrapper):
            each.cache_clear()


@pytest.mark.parametrize("name", EDITS)
def test_edits_forth_and_back_show_what_a_cold_build_shows(name: str) -> None:
    random = Random(name)
    edits: frozenset[int] = frozenset()
    warm = []
    for _ in range(8):
        edits ^= {random.randrange(len(EDITS[name]))}
        look = random.choice(LOOKS)
        warm.append((edits, look, shown(proof(name, edits, look))))
    for edits, look, before in random.sample(warm, 3):
        forget()
        assert shown(proof(name, edits, look)) == before


def test_caches_are_found_and_emptied() -> None:
    from bindoff.plan.colour.stripes import plan_stripes

    proof("harbour-light-hat", frozenset(), Look())
    assert plan_stripes.cache_info().currsize
    forget()
    assert not plan_stripes.cache_info().currsize
