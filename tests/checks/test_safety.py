"""What is forbidden for those who wear it is heard in any words; sound sentences are left alone.

Small parts: 16 CFR 1501. Cords at neck and hood, and 75 mm that may hang: 16 CFR 1120. No ties,
buttons or pompoms on things for babies: common practice, no source.
"""

import pytest

from bindoff.checks.allchecks import CHECKS
from bindoff.diagnostics import PatternError, Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern
from tests.small_machine import COWL
from tests.small_patterns import CAP, WAVES, changed

CHECK = next(each for each in CHECKS if each.id == "wearer.safety")


def files(
    wearer: str, *, say: str = "", notion: str = "", section: str = "", more: str = ""
) -> MemoryFiles:
    text = changed(
        CAP,
        ("wearer: [adult]", f"wearer: [{wearer}]"),
        ("      - chart: waves\n", f"{_step('section', section)}      - chart: waves\n"),
        ("      - gather: all\n", f"      - gather: all\n{_step('say', say)}"),
        ("sizes:\n", f"notions: ['{notion}']\nsizes:\n" if notion else "sizes:\n"),
    )
    return MemoryFiles({"pattern.yaml": text + more, "waves.grid": WAVES})


def _step(kind: str, words: str) -> str:
    return f"      - {kind}: >-\n          {words}\n" if words else ""


def said(wearer: str, **words: str) -> list[str]:
    found = check_pattern(files(wearer, **words), "pattern.yaml", "cap")
    return [each.message for each in found if each.id == "wearer.safety"]


@pytest.mark.parametrize(
    "say",
    [
        "Measure the chin to crown length and cast on fewer stitches.",
        "There are no buttons, so nothing comes off.",
        "A strap-free cap that stays on by its rib.",
        "A button-free opening at the neck.",
        "Tie off the yarn and tie the two tails together.",
        "Tie the ends in a square knot and weave them in.",
        "This ties the two colors together.",
        "Leave off ties, cords and pompoms on anything for a baby.",
        "Use embroidery instead of safety eyes.",
        "Never sew beads to this cap.",
        "Buttons are left off for a reason.",
        "A pompom should not be sewn on.",
        "Put the stitches on a smooth cord to hold them.",
        "Work the i-cord bind-off loosely.",
        "Finish with an i-cord edging.",
        "Slip the stitches to the cord of the circular needle.",
        "Work in lace over all stitches.",
        "The corded rib pulls in.",
        "Work the bead stitch as shown.",
        "Bobbles are knitted in, not sewn on.",
        "A bell-shaped crown with a bow knitted in.",
        "The neck edge is 30 cm (12 in) around.",
        "Draw the tail through the stitches and close the top.",
        "Buttons belong on the adult sizes only.",
        "Sew on beads only for a child of over three years.",
        "The string of waves runs around the cap.",
        "Do not add a drawstring.",
        "Snap the needle tips to the cable.",
        "Tie a knot.",
        "Neither ribbons nor pompoms.",
        "It holds without ribbons, cords or a button.",
        "Never let the baby sleep in it.",
        "Take it off before naps and at bedtime.",
    ],
)
def test_a_sound_sentence_is_left_alone(say: str) -> None:
    assert said("infant", say=say) == []
    assert said("child", say=say) == []


@pytest.mark.parametrize(
    ("say", "word"),
    [
        ("Sew two buttons to the band.", "buttons"),
        ("Work a buttonhole in the middle of the band.", "buttonhole"),
        ("Fasten it with wooden toggles.", "toggles"),
        ("Add a pompom to the top.", "pompom"),
        ("Sew a pom-pom to the top.", "pom-pom"),
        ("Finish each corner with a tassel.", "tassel"),
        ("Sew on safety eyes.", "safety eyes"),
        ("Thread a bead onto each end.", "bead"),
        ("Make two ties of 30 cm (12 in) each.", "two ties"),
        ("Make an i-cord from the 3 stitches left.", "i-cord"),
        ("Thread a drawstring through the eyelets.", "drawstring"),
        ("Pull a ribbon through the eyelets.", "ribbon"),
        ("Sew a chin strap to the flap.", "chin strap"),
        ("A strap under the chin keeps it on.", "strap under the chin"),
        ("Crochet bonnet strings from the corners.", "bonnet strings"),
        ("Without haste, make the cap. Then sew on a button.", "button"),
        ("Do not cut the yarn but sew on a button.", "button"),
        ("Sew a pompon to the top.", "pompon"),
        ("Let the baby sleep in it on cold nights.", "baby sleep"),
        ("So warm that he sleeps well in it.", "sleeps well in it"),
        ("Soft enough for naps.", "for naps"),
    ],
)
def test_what_no_baby_may_wear_is_an_error(say: str, word: str) -> None:
    found = said("infant", say=say)

    assert [message.split("`")[1] for message in found] == [word]
    assert said("adult", say=say) == []


@pytest.mark.parametrize(
    "words",
    [
        {"notion": "2 flat buttons"},
        {"notion": "1 m of ribbon"},
        {"section": "Ties"},
        {"section": "Ear flap cords"},
        {"section": "Pompom"},
        {"more": "hazards: [small parts]\n"},
        {"more": "finishing: Sew a tassel to the top.\n"},
        {"more": "notes: The cap ends in a little i-cord.\n"},
    ],
)
def test_it_is_found_wherever_it_is_written(words: dict[str, str]) -> None:
    assert len(said("infant", **words)) == 1


@pytest.mark.parametrize(
    ("say", "what"),
    [
        ("Thread a drawstring through the hood.", "at the neck, chin or hood"),
        ("Make two ties at the ear flaps.", "at the neck, chin or hood"),
        ("Sew a chin strap to the flap.", "at the neck, chin or hood"),
        ("Pull a cord through the waist, with ends that hang 20 cm (8 in).", "`20 cm` to hang"),
        ("Make two ties of 12 in each for the waist.", "`12 in` to hang"),
    ],
)
def test_what_strangles_a_child_is_an_error(say: str, what: str) -> None:
    (message,) = said("child, adult", say=say)

    assert what in message


@pytest.mark.parametrize(
    "say",
    [
        "Sew two buttons to the band.",
        "Add a pompom to the top.",
        "Pull a cord through the waist, with ends that hang 7 cm (2¾ in).",
        "Pull a cord of 90 cm (35 in) through the waist and sew it down.",
        "Sew a crocheted cord between both mitts.",
    ],
)
def test_what_a_child_may_wear_is_left_to_the_cautions(say: str) -> None:
    assert said("child", say=say) == []


def test_it_stops_a_build_and_only_a_reason_silences_it() -> None:
    loud = files("infant", say="Add a pompom to the top.")
    with pytest.raises(PatternError) as raised:
        build_pattern(loud, "pattern.yaml", "cap")
    (found,) = [each for each in raised.value.findings if each.id == "wearer.safety"]
    assert found.severity is Severity.ERROR

    quiet = files(
        "infant",
        say="Add a pompom to the top.",
        more="silence:\n  - {check: wearer.safety, because: the pompom is knitted flat}\n",
    )
    assert build_pattern(quiet, "pattern.yaml", "cap").files


@pytest.mark.parametrize(
    ("by", "heard"), [("tie", True), ("drawstring", True), ("gathering", False)]
)
def test_a_top_closed_by_a_tie_is_heard_without_a_word(by: str, heard: bool) -> None:
    """An infant may wear none; a child's is to be declared, so that its caution is printed."""
    text = changed(COWL, ("by: left open", f"by: {by}"))

    def ids(wearer: str) -> set[str]:
        worn = changed(text, ("wearer: [adult]", f"wearer: [{wearer}]"))
        found = check_pattern(MemoryFiles({"pattern.yaml": worn}), "pattern.yaml", "cowl")
        return {each.id for each in found} & {"wearer.safety", "wearer.hazards"}

    assert ("wearer.safety" in ids("infant")) is heard
    assert ("wearer.hazards" in ids("child")) is heard
    assert not ids("adult")
