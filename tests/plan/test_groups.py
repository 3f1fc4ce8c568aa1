"""Stitches held under a name, and taken up once by a later step or piece.

Where no source is named, the counts are common practice, no source.
"""

import pytest

from bindoff.diagnostics import Diagnostic
from tests.small_patterns import FLAP, faults_of, plan_of

HEAD = FLAP.partition("pieces:\n")[0]


def pattern(**pieces: tuple[str, ...]) -> str:
    """Pieces in the round; ``name__2`` is made twice."""
    text = HEAD + "pieces:\n"
    for key, steps in pieces.items():
        name, _, make = key.partition("__")
        text += f"  {name}:\n    title: {name.capitalize()}\n    make: {make or 1}\n    steps:\n"
        text += "".join(f"      - {step}\n" for step in steps)
    return text


def faults(**pieces: tuple[str, ...]) -> tuple[Diagnostic, ...]:
    return faults_of(pattern(**pieces))


def fault(**pieces: tuple[str, ...]) -> Diagnostic:
    (found,) = faults(**pieces)
    return found


def live(text: str) -> dict[str, list[int]]:
    """The stitches of the first size after each step, by piece."""
    return {
        piece.key: [step.after[0].stitches for step in piece.steps]
        for piece in plan_of(text).pieces
    }


DIVIDE = (
    'work: "k37, hold 50 stitches for left sleeve, cast on 8, k74, hold 50 stitches for the right '
    'sleeve, cast on 8, k37"'
)
YOKE = "cast on: 248", f"{{{DIVIDE}, parts: 'back, front, back'}}", "bind off: all"
SLEEVE = "{held: left sleeve or right sleeve, pick up: 8, along: the underarm}", "bind off: all"


# ---------------------------------------------------------------- counts


def test_a_yoke_divides_and_both_sleeves_are_one_piece_made_twice() -> None:
    """74 + 50 + 74 + 50 = 248; 8 cast on at each underarm make a body of 164."""
    text = pattern(body=YOKE, sleeve__2=SLEEVE)

    assert live(text) == {"body": [248, 164, 0], "sleeve": [58, 0]}
    (division,) = plan_of(text).pieces[0].steps[1].detail.divided
    assert [(part.name, part.stitches[0]) for part in division] == [
        ("back", 74),
        ("left sleeve", 50),
        ("front", 74),
        ("right sleeve", 50),
    ]


def test_a_mitten_holds_its_thumb() -> None:
    """A published mitten: 42 stitches and a gusset to 57, 15 held, 2 cast on over them: 44 for the
    hand; the thumb 15 and 6 picked up: 21, in the next round 19."""
    text = pattern(
        mitten=(
            "cast on: 57",
            'work: "k21, hold 15 for thumb, cast on 2, k to end"',
            'work: "*k9, k2tog; repeat from * to end"',
            "bind off: all",
            "{held: thumb, pick up: 6}",
            'work: "k2tog, k to last 2, k2tog"',
            "bind off: all",
        )
    )

    assert live(text) == {"mitten": [57, 44, 40, 0, 21, 19, 0]}


def test_fingers_of_a_glove_join_a_group_of_the_palm_and_one_of_the_back() -> None:
    """A published glove of 64 stitches above the little finger: ring finger 9 of the palm and 14
    of the back, middle finger 9 and 11, index finger 9 and 12."""
    hand = (
        "hold 9 for palm of the ring finger, hold 9 for palm of the middle finger, "
        "hold 9 for palm of the index finger, hold 12 for back of the index finger, "
        "hold 11 for back of the middle finger, hold 14 for back of the ring finger"
    )
    fingers = [
        step
        for name, new in (("index", 7), ("middle", 8), ("ring", 3))
        for step in (
            f'held: "back of the {name} finger, cast on {new}, palm of the {name} finger"',
            "bind off: all",
        )
    ]

    assert live(pattern(glove=("cast on: 64", f'work: "{hand}"', *fingers))) == {
        "glove": [64, 0, 28, 0, 28, 0, 26, 0]
    }


def test_a_raglan_yoke_begins_with_pieces_in_order() -> None:
    """A published top-down raglan: fronts 6 and 6, sleeves 12, back 37, and 4 seam stitches make
    77: the same joined from below."""
    counts = {"right front": 6, "right sleeve": 12, "back": 37, "left sleeve": 12, "left front": 6}
    made = {
        name.replace(" ", ""): (f"cast on: {count}", f'work: "hold {count} for {name}"')
        for name, count in counts.items()
    }
    order = ", cast on 1, ".join(counts)

    assert live(pattern(**made, yoke=(f'held: "{order}"', "bind off: all")))["yoke"] == [77, 0]


def test_a_single_word_may_be_a_measure_and_a_name() -> None:
    """`narrow` is 10 and 12; the name comes first, where stitches are held for it."""
    named = pattern(
        a=("cast on: 20", 'work: "hold 7 for narrow, k to end"', "bind off: all", "held: narrow",
           "bind off: all"),
    )  # fmt: skip
    counted = pattern(
        a=("cast on: 20", 'work: "hold {narrow}, k to end"', "bind off: all", "held: narrow",
           "bind off: all"),
    )  # fmt: skip

    assert live(named)["a"] == [20, 13, 0, 7, 0]
    assert live(counted)["a"] == [20, 10, 0, 10, 0]


def test_a_name_may_be_used_again_when_its_stitches_are_taken_up() -> None:
    hand = "cast on: 20", 'work: "k8, hold 4 for thumb, k8"', "bind off: all", "held: thumb"
    text = pattern(left=(*hand, "bind off: all"), right=(*hand, "bind off: all"))

    assert live(text)["right"] == [20, 16, 0, 4, 0]


# ---------------------------------------------------------------- refusals

HELD = "cast on: 20", 'work: "hold 8 for left sleeve, k to end"', "bind off: all"
TAKE = "held: left sleeve", "bind off: all"


def test_what_is_never_taken_up_is_told_where_it_is_held() -> None:
    found = fault(a=HELD)

    assert found.id == "piece.group-left"
    assert found.message == "the stitches held for `left sleeve` are never taken up"
    assert found.help == "Add a step `- held: left sleeve` after it, in this piece or a later one"
    assert faults(a=HELD, b=TAKE) == ()
    assert faults(a=(*HELD, *TAKE)) == ()


def test_what_is_taken_up_twice_names_both_places() -> None:
    text = pattern(a=(*HELD, *TAKE), b=TAKE)
    (found,) = faults_of(text)
    lines = [n for n, line in enumerate(text.splitlines(), 1) if "left sleeve" in line]

    assert found.id == "piece.group-taken"
    assert found.message == (
        f"the stitches held for `left sleeve` in line {lines[0]} are taken up in line {lines[1]} "
        "already"
    )
    assert found.span is not None
    assert found.span.line == lines[2]


@pytest.mark.parametrize(
    ("pieces", "id", "words"),
    [
        ({"a": HELD, "b": ("held: right sleeve", TAKE[1])}, "piece.group-unknown",
         "no stitches are held for `right sleeve` here"),
        ({"a": (*HELD[:2], "work: \"hold 3 for left sleeve, k to end\"", HELD[2]), "b": TAKE},
         "piece.group-held", "those of line"),
        ({"a": ("cast on: 20", '{work: "hold 2 for left sleeve, k to end", rounds: 3}', HELD[2])},
         "piece.group-held", "in more than one round of this step"),
        ({"a": ("cast on: 20", 'work: "[hold 2 for a thumb, k1] 3 times, k to end"', HELD[2])},
         "piece.group-held", "in more than one round of this step"),
        ({"a__2": HELD, "b": TAKE}, "piece.group-left", "1 group more waits"),
        ({"a": HELD, "b__2": TAKE}, "piece.group-copies", "is made twice, and for `left sleeve`"),
        ({"a": YOKE, "b__3": SLEEVE}, "piece.group-copies", "3 times, and 2 groups are named"),
        ({"a": ("cast on: 20", 'work: "hold 5 for left, hold 6 for right, k to end"', HELD[2]),
          "b__2": ("held: left or right", HELD[2])},
         "piece.group-unlike", "5 stitches wait for `left`"),
        ({"a": (HELD[0], '{work: "hold 8 for left sleeve, k12", parts: "a, b"}', HELD[2]),
          "b": TAKE},
         "step.parts", "1 part stays on the needles"),
        ({"a": (HELD[0], '{work: k all, parts: a}', HELD[2])}, "step.parts", "parts are named"),
        ({"a": HELD, "b": ('held: "left sleeve, cast on {nothing}"', HELD[2])},
         "row.unknown-number", "no count called `nothing`"),
    ],
)  # fmt: skip
def test_a_slip_with_names_is_refused(
    pieces: dict[str, tuple[str, ...]], id: str, words: str
) -> None:
    found = faults(**pieces)

    assert [each.id for each in found][:1] == [id]
    assert words in found[0].message


def test_groups_of_a_piece_that_could_not_be_worked_are_not_missed_again() -> None:
    broken = HELD[0], 'work: "hold 8 for left sleeve, k3"', "bind off: all"

    assert [each.id for each in faults(a=broken, b=TAKE)] == ["row.too-few"]
