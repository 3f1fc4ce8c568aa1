"""Care told against the fibres, each way in many words; sound care is left alone.

Temperatures and dots are those of the symbols of ISO 3758, from memory; which fibre bears what is
common practice, no source.
"""

import pytest

from tests.faults.said import said

CARE = ("care.fibre", "care.twice", "care.hung")
WOOL, SOCK, SILK, COTTON, ACRYLIC = "hat", "sock", "shawl", "pullover", "toy"


@pytest.mark.parametrize(
    ("text", "pattern"),
    [
        ("Machine wash at 60 °C.", WOOL),
        ("Wash at 90 degrees with the sheets.", WOOL),
        ("They may go in the machine at 95 °C in a net.", SOCK),
        ("Wash in the machine at 140 °F.", WOOL),
        ("Boil it for ten minutes to freshen it.", WOOL),
        ("Soak it in hot water with a little wool wash.", WOOL),
        ("Wash hot, with the towels.", SOCK),
        ("Give it a hot wash now and then.", SILK),
        ("Tumble dry on low.", WOOL),
        ("Dry it in the dryer until fluffy.", SOCK),
        ("Put them into the tumble dryer.", SOCK),
        ("Bleach it when it has gone grey.", WOOL),
        ("Machine wash.", WOOL),
        ("Wash it in the washing machine with your jeans.", WOOL),
        ("Machine wash at 40 °C, with like colors.", SOCK),
        ("Iron with three dots.", SILK),
        ("Press with a hot iron to set the stitches.", ACRYLIC),
        ("Iron it hot on the wrong side.", ACRYLIC),
        ("Steam iron the strips flat.", ACRYLIC),
        ("Iron at two dots.", ACRYLIC),
    ],
)
def test_what_spoils_a_fibre_is_heard(text: str, pattern: str) -> None:
    assert said(text, pattern, CARE) == {"care.fibre"}


@pytest.mark.parametrize(
    ("text", "pattern"),
    [
        ("Hand wash in cool water. Do not tumble dry.", WOOL),
        ("Wash by hand at 30 °C, never in hot water.", WOOL),
        ("Machine wash at 30 °C on the wool setting.", SOCK),
        ("They may go in the machine at 30 °C in a net, but not in the dryer.", SOCK),
        ("Keep it out of the dryer and away from bleach.", WOOL),
        ("Hot water felts it.", WOOL),
        ("If you boil it, it will shrink to fit a doll.", WOOL),
        ("Press the water out in a towel.", WOOL),
        ("Press lightly under a damp cloth with a warm iron.", SILK),
        ("Hold the steam iron above the piece and let the steam do the work.", ACRYLIC),
        ("No iron: the yarn melts.", ACRYLIC),
        ("Iron with one dot at most.", ACRYLIC),
        ("Machine wash at 40 °C and tumble dry on low.", ACRYLIC),
        ("Machine wash at 60 °C, and iron hot if you like.", COTTON),
        ("Boil the dishcloth when it smells.", COTTON),
        ("Soak it in hand-hot water for ten minutes.", WOOL),
        ("The knitting machine should be oiled before you crank the wool.", WOOL),
        ("Turn the strip by 90 degrees and sew the next one to it.", WOOL),
        ("Wash by hand, not in the machine.", WOOL),
        ("Wash the hat in lukewarm water; a hot bath makes it small enough for an egg.", WOOL),
        ("Store it away from the boiler.", WOOL),
        ("Do not iron, bleach or tumble dry.", WOOL),
        ("Neither the dryer nor a hot iron does it any good.", ACRYLIC),
    ],
)
def test_sound_care_is_left_alone(text: str, pattern: str) -> None:
    assert said(text, pattern, CARE) == set()


@pytest.mark.parametrize(
    ("text", "pattern", "ids"),
    [
        ("Let it dry on a hanger.", "vest", {"care.hung"}),
        ("Then hang it up wet by the shoulders.", "vest", {"care.hung"}),
        ("Dry it on the washing line.", "shawl", {"care.hung"}),
        ("Hang the shawl to dry.", "shawl", {"care.hung"}),
        ("Do not hang it up wet.", "vest", set()),
        ("Dry flat; never let it dry on a hanger.", "vest", set()),
        ("Hang the dry vest on a broad hanger.", "vest", set()),
        ("Hang the bag up to dry.", "bag", set()),
        ("Hang a marker into each corner.", "shawl", set()),
    ],
)
def test_what_would_stretch_is_dried_flat(text: str, pattern: str, ids: set[str]) -> None:
    assert said(text, pattern, CARE) == ids


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("Wash it in the machine at 30 °C, on the wool cycle.", {"care.twice"}),
        ("Wash by hand before the first wearing.", set()),
        ("Soak it in cool water for a quarter of an hour.", set()),
        ("A machine wash would felt it.", set()),
    ],
)
def test_care_told_twice_is_told_alike(text: str, ids: set[str]) -> None:
    """The vest's ``care:`` has it washed by hand in cool water."""
    assert said(text, "vest", CARE, beside=True) == ids
