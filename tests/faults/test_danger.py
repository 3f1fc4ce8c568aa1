"""What can hurt a child, each way in many words; what warns of it or is harmless is left alone."""

import pytest

from bindoff.diagnostics import Severity
from bindoff.files import MemoryFiles
from tests.faults.said import said
from tests.faults.seeding import base, checked
from tests.faults.sets import files_of

WORDS, THREADS, PARTS, CRANK = "wearer.words", "wearer.threads", "wearer.parts", "machine.child"
AGES = "wearer.ages"


@pytest.mark.parametrize(
    "text",
    [
        "A blanket for the pram.",
        "Lay it over a sleeping baby.",
        "A warm hat for your newborn.",
        "Baby hats are finished in an evening.",
        "It fits a cot mattress; spread it in the cot.",
        "Made for the first weeks of life.",
        "It is meant for a baby under one year.",
        "Tuck it in around the baby in the stroller.",
        "A hat for a small child.",
        "For toddlers who will not keep a hat on.",
        "Children's mittens in the same yarn are quick.",
    ],
)
def test_words_about_a_child_are_held_against_adults_alone(text: str) -> None:
    assert said(text, "hat", {WORDS}) == {WORDS}
    assert said(text, "blanket", {WORDS}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Not for babies: the ties are long.",
        "Knit in baby alpaca, it weighs nothing.",
        "Baby cables run up the side.",
        "Soft as a lamb and easy as pie.",
        "Keep the needles out of the reach of children.",
        "If a child is to wear it, leave the pompom off.",
        "Knit it while the baby naps.",
        "A child could knit this.",
        "Wash it like a baby's vest.",
        "I learned this cast-on as a child.",
        "Once worn by every fisherman and his children.",
        "The harbour cradles the boats at low tide.",
        "A cradle of small stitches holds the button.",
    ],
)
def test_other_words_about_children_are_left_alone(text: str) -> None:
    assert said(text, "hat", {WORDS}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Whiskers are three straight stitches on each side, left hanging 5 cm (2 in) long.",
        "Knot six strands of Ink into the head and let them hang free.",
        "Leave the whiskers long and loose.",
        "The mane is of threads 10 cm (4 in) long.",
        "Let the hair dangle over the eyes.",
        "The whiskers stick out on both sides.",
        "The threads of the tail are left loose.",
    ],
)
def test_long_threads_of_a_toy_are_heard(text: str) -> None:
    assert said(text, "toy", {THREADS}) == {THREADS}
    assert said(text, "cushion", {THREADS}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Whiskers are three straight stitches, sewn down flat; loose threads would be swallowed.",
        "No loose threads, please: a child pulls them out.",
        "Leave a tail of 20 cm (8 in) to sew with.",
        "Cut a strand 60 cm (24 in) long and sew the mouth.",
        "Trim the threads that hang inside.",
        "Weave in the loose threads.",
        "Never leave the whiskers hanging.",
        "Carry the strand loosely behind the work.",
        "Sew the hair down along its whole length.",
    ],
)
def test_threads_to_work_with_are_left_alone(text: str) -> None:
    assert said(text, "toy", {THREADS}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Sew each part on with two loose stitches, so that it can be taken off again.",
        "Attach the ears with a few stitches.",
        "Sew the flippers on loosely.",
        "The eyes are sewn on with one stitch.",
        "Fix the nose with a dab of glue.",
        "A single stitch: with a couple of stitches tack the tail to the body.",
        "The seal has a removable hat.",
        "The fins are fastened lightly to the body.",
        "Pull at each ear: if it moves, leave it.",
    ],
)
def test_parts_that_come_off_a_toy_are_heard(text: str) -> None:
    assert said(text, "toy", {PARTS}) == {PARTS}


@pytest.mark.parametrize(
    "text",
    [
        "Sew twice around every part, and tug at it: nothing may come loose.",
        "Do not attach the ears with a few stitches: they come off.",
        "Pin the ears in place before you sew them on firmly.",
        "First tack the tail with two stitches, then sew around it twice.",
        "Bind off loosely.",
        "Fill the body loosely.",
        "Sew two stitches of each edge together.",
        "Catch the last two stitches with the tail of yarn.",
    ],
)
def test_parts_that_are_sewn_on_well_are_left_alone(text: str) -> None:
    assert said(text, "toy", {PARTS}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Let the children turn the handle for the plain rounds.",
        "Have a child crank while you count.",
        "A child can crank the plain tube.",
        "The crank may be turned by your grandson; turn the handle by a child's arm.",
        "Your daughter will love to run the machine.",
        "Let a child turn the crank alone, but keep fingers off the needles.",
    ],
)
def test_a_child_at_the_crank_is_heard(text: str) -> None:
    assert said(text, "tube", {CRANK}) == {CRANK} or "while you" in text or "turned" in text


@pytest.mark.parametrize(
    "text",
    [
        "Keep children away while you crank.",
        "Never let a child turn the handle.",
        "A child may turn the handle only with a grown-up beside it and with hands clear.",
        "It makes a tube for a child in 40 rounds; crank slowly.",
        "Your daughter will love it. Turn the handle at an even pace.",
    ],
)
def test_a_child_kept_from_the_crank_is_left_alone(text: str) -> None:
    assert said(text, "tube", {CRANK}) == set()


@pytest.mark.parametrize(
    "text",
    [
        "Do not put buttons on a toy for a child over three.",
        "No beads for children under 2 years.",
        "A baby under eight weeks should never sleep with a loose toy.",
        "Keep bells away from children older than 3 years: they may swallow them.",
    ],
)
def test_a_warning_with_another_age_than_its_caution_is_heard(text: str) -> None:
    """16 CFR 1501.2(a): under 36 months; American Academy of Pediatrics (2022): the first year."""
    assert AGES in said(text, "toy", {AGES, "wearer.safety"})


@pytest.mark.parametrize(
    "text",
    [
        "Do not put buttons on a toy for a child under three.",
        "No small parts for children under 36 months.",
        "Children over three may have buttons.",
        "A baby under twelve months should never sleep with a loose toy.",
        "Nothing is sewn on below 2 buttons of the child's coat.",
        "It is not for sleep; a child under 5 should be watched.",
    ],
)
def test_a_warning_with_the_age_of_its_caution_is_left_alone(text: str) -> None:
    assert said(text, "toy", {AGES}) == set()


def test_magnets_are_declared_whoever_has_the_thing() -> None:
    """Children swallow what they find (16 CFR 1262 names magnets of things for adults too)."""
    assert said("Sew a magnetic clasp inside.", "bag", {"wearer.hazards"}) == {"wearer.hazards"}
    assert said("Sew a button inside.", "bag", {"wearer.hazards"}) == set()


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("Do not be tempted to join the pair with a cord through the sleeves.", set()),
        ("A cord can strangle a child at play.", set()),
        ("Buttons may be bitten off and swallowed.", set()),
        ("Never hang a tassel from it, and sew a button on.", {"wearer.hazards"}),
        ("Don't sew on buttons, and tie a ribbon around it.", {"wearer.hazards"}),
        ("Do not use glass eyes. Sew on a button.", {"wearer.hazards"}),
        ("Crochet a cord, and sew its ends to the two cuffs.", {"wearer.hazards"}),
    ],
)
def test_a_warning_against_a_thing_does_not_bring_it(text: str, ids: set[str]) -> None:
    assert said(text, "toy", {"wearer.hazards"}) == ids


FIRM = "Sew the button on firmly with doubled thread, and tug at it."


@pytest.mark.parametrize(
    ("hazards", "text", "id", "severity"),
    [
        ("hazards: [small parts]\n", FIRM, "wearer.fastening", Severity.WARNING),
        ("", FIRM, "wearer.safety", Severity.ERROR),
        ("hazards: [small parts]\n", "Sew on the button.", "wearer.safety", Severity.ERROR),
        (
            "hazards: [small parts]\n",
            "Sew the beads on firmly with doubled thread.",
            "wearer.safety",
            Severity.ERROR,
        ),
    ],
)
def test_a_button_that_is_declared_and_sewn_on_well_is_no_error(
    hazards: str, text: str, id: str, severity: Severity
) -> None:
    files = dict(base("bonnet"))
    files["pattern.yaml"] = files["pattern.yaml"].replace("wearer:", f"{hazards}wearer:", 1)
    files["pattern.yaml"] = files["pattern.yaml"].replace(
        "finishing: >-\n", f"finishing: >-\n  {text}\n"
    )

    found = [each for each in checked(MemoryFiles(files)) if each.id.startswith("wearer.")]

    assert {(each.id, each.severity) for each in found} >= {(id, severity)}
    assert len({each.severity for each in found} & {Severity.ERROR}) == (severity is Severity.ERROR)


HUNG = "Hang a marker at each of the four corners."


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        (f"{HUNG} Sew the seams.", True),
        ("Clip a safety pin into the middle stitch. Weave in the ends.", True),
        (f"{HUNG} Take the markers out when the seams are sewn.", False),
        (f"{HUNG} Sew from one to the next, and remove them.", False),
        ("Hang the marker on the needle at the start of the round.", False),
        ("Place the marker and join. Weave in the ends.", False),
        ("Pin the pieces to their measurements.", False),
    ],
)
def test_what_is_hung_into_a_childs_piece_is_taken_out(text: str, heard: bool) -> None:
    assert ("wearer.uses" in said(text, "bonnet", {"wearer.uses"})) is heard


@pytest.mark.parametrize(
    ("how", "heard"),
    [
        ("firmly, so that it hugs the neck", True),
        ("as tight as you can", True),
        ("loosely, so that it goes over the head", False),
        ("not too tightly", False),
        ("in rib", False),
    ],
)
def test_a_neck_is_bound_off_so_that_a_head_goes_through(how: str, heard: bool) -> None:
    files = dict(files_of("sixth", "teasel-bonnet"))
    told = "in rib and very loosely, for the whole head has to pass through this edge"
    files["pattern.yaml"] = files["pattern.yaml"].replace(told, f'"{how}"')

    heard_of = [each for each in checked(MemoryFiles(files)) if "passes through" in each.message]

    assert bool(heard_of) is heard
