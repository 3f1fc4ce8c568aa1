"""What could harm a child is heard by its class, whatever it is called; its look-alikes are not.

16 CFR 1501 (small parts, yarn not counted), 16 CFR 1120 and EN 14682 (cords), 16 CFR 1262 and 1263
(magnets, button cells); the wordings are invented.
"""

from dataclasses import replace
from functools import cache

import pytest

from bindoff.checks.context import Context
from bindoff.checks.hazardwords import Told, told
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Severity, Span
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from bindoff.source.model import TextUse
from bindoff.source.yamltree import Path
from tests.checks.hazard_wordings import HARMLESS, HAZARDS
from tests.checks.test_safety import files
from tests.faults.test_prose_checks import context
from tests.small_patterns import CAP, WAVES, changed

_PATHS: dict[TextUse, Path] = {
    TextUse.MATERIAL: ("notions", 0),
    TextUse.TITLE: ("pieces", "cap", "steps", 0, "section"),
}


@cache
def _somewhere() -> Context:
    return context("mitts")


def heard(use: str, words: str) -> list[Told]:
    kind = TextUse[use]
    path = _PATHS.get(kind, ("finishing",))
    prose = Prose(kind, words, words, None, path, lambda a, b: Span("x", 1, 1, 1, 2))
    return [*told(replace(_somewhere(), prose=(prose,)))]


@pytest.mark.parametrize(("use", "words"), HAZARDS)
def test_a_hazard_is_heard_in_any_words(use: str, words: str) -> None:
    assert heard(use, words) != []


@pytest.mark.parametrize(("use", "words"), HARMLESS)
def test_what_looks_alike_is_left_alone(use: str, words: str) -> None:
    assert heard(use, words) == []


def test_many_wordings_are_tried_once() -> None:
    assert len(set(HAZARDS)) == len(HAZARDS) == 296
    assert len(set(HARMLESS)) == len(HARMLESS) == 289


@pytest.mark.parametrize(
    ("words", "hazard"),
    [
        ("Sew the squeaker into the ear.", "small parts"),
        ("Stuff the horn with cotton pods.", "small parts"),
        ("Thread a leather thong through the edge.", "cords"),
        ("Braid the tails of both flaps.", "cords"),
        ("Sew a furry bobble to the top.", "pompom"),
        ("Slip a neodymium disc inside each cuff.", "magnets"),
        ("Hide a tiny LED lamp behind the star.", "button cells"),
    ],
)
def test_it_is_heard_as_the_hazard_that_it_is(words: str, hazard: str) -> None:
    assert hazard in {each.hazard for each in heard("TEXT", words)}


@pytest.mark.parametrize(
    ("words", "sure"),
    [
        ("Sew two buttons to the cuff.", True),
        ("Sew a bell to the cuff.", True),
        ("Sew the curiosity to the cuff.", False),
        ("Fold the casing over and thread elastic through it.", False),
    ],
)
def test_what_is_only_likely_never_stops_a_build(words: str, sure: bool) -> None:
    """A pattern for infants: an error where the word is sure, else a warning."""
    found = check_pattern(files("infant", say=words), "pattern.yaml", "cap")
    severe = {each.severity for each in found if each.id in ("wearer.safety", "wearer.hazards")}

    assert severe == {Severity.ERROR if sure else Severity.WARNING}


def test_a_piece_is_known_by_its_title() -> None:
    """`Sew the cap to …` sews a piece of the pattern, not a thing."""
    titled = changed(CAP, ("wearer: [adult]", "wearer: [child]"), ("title: Cap", "title: Squid"))
    text = f"{titled}finishing: Sew the squid to the mast.\n"
    found = check_pattern(
        MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES}), "pattern.yaml", "cap"
    )

    assert not [each for each in found if each.id == "wearer.hazards"]
    assert heard("TEXT", "Sew the squid to the mast.")


@pytest.mark.parametrize(("wearer", "error"), [("infant", True), ("child", True), ("adult", False)])
def test_no_magnet_for_any_child(wearer: str, error: bool) -> None:
    found = check_pattern(files(wearer, say="Sew a magnet into each cuff."), "pattern.yaml", "cap")

    assert any(each.id == "wearer.safety" for each in found) is error


@pytest.mark.parametrize(
    ("step", "word"),
    [
        ("      - work: '*k7, pb; repeat from * to end'\n        rounds: 1\n", "pb"),
        ("      - work: '*k7, p1; repeat from * to end'\n        rounds: 1\n", ""),
    ],
)
def test_beads_that_rows_place_are_heard_without_a_word(step: str, word: str) -> None:
    text = changed(
        CAP,
        ("wearer: [adult]", "wearer: [child]"),
        ("      - chart: waves\n", f"{step}      - chart: waves\n"),
    )
    found = check_pattern(
        MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES}), "pattern.yaml", "cap"
    )
    said = [each.message for each in found if each.id == "wearer.hazards"]

    assert bool(said) is bool(word)
    assert all(f"`{word}`" in each for each in said)
