"""A round cord of a few stitches: its rows, what it leaves, what it refuses, and what it is called.

How one is knitted, and that it takes three to five stitches or a few more: common practice, no
source.
"""

import pytest

from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from tests.faults.seeding import checked
from tests.small_patterns import faults_of, flap, plan_of


def test_a_cord_is_as_many_rounds_as_its_length_takes_at_the_gauge() -> None:
    """28 rounds are 10 cm, so 25 cm are 70; the stitches stay as they are."""
    (piece,) = plan_of(flap("cast on: 3", "cord: 25 cm", "bind off: all")).pieces
    cord = piece.steps[1]

    assert set(cord.rounds) == {70}
    assert {each.stitches for each in cord.after} == {3}
    assert {loops for size in cord.worked for loops in size} == {(("slate", 3),)}


def test_the_rows_of_a_flat_piece_go_on_after_a_cord_on_the_right_side() -> None:
    """Of 71 rounds, an odd number, none is turned."""
    cord = plan_of(flap("cast on: 3", "cord: 25.4 cm", "bind off: all")).pieces[0].steps[1]

    assert set(cord.rounds) == {71}
    assert all(each.flat and not each.wrong_side for each in cord.after)


def test_a_cord_is_told_with_its_length_and_explained() -> None:
    document, _ = build_document(
        plan_of(flap("cast on: 3", "cord: 25 cm", "bind off: all")), MemoryFiles({})
    )
    words = "\n".join(texts(document))

    assert "as an i-cord, without turning, until it measures 25 cm" in words
    assert "(about 70 rows)" in words
    assert "Push them to the other end of the needle." in words


@pytest.mark.parametrize(
    ("steps", "id", "message"),
    [
        (
            ("cast on: 12", "cord: 25 cm"),
            "cord.stitches",
            "a cord is worked of 2 to 8 stitches, and there are 12 live stitches",
        ),
        (("cord: 25 cm",), "piece.none-live", "there are no live stitches to work"),
        (
            ("cast on: 3", "work: k all", "cord: 25 cm"),
            "cord.side",
            "a cord shows its right side all around, and here a wrong-side row is next",
        ),
        (("cast on: 3", "cord: 70"), "amount.no-length", ""),
    ],
)
def test_a_cord_that_can_t_be_worked_is_refused(
    steps: tuple[str, ...], id: str, message: str
) -> None:
    found = faults_of(flap(*steps))

    assert [each.id for each in found] == [id]
    assert message in found[0].message


def _ids(source: str) -> set[str]:
    return {each.id for each in checked(MemoryFiles({"pattern.yaml": source}))}


def test_a_cord_is_no_ring_to_join_and_no_opening() -> None:
    cord = flap("cast on: 3", "cord: 25 cm", "bind off: all").replace("    worked: flat\n", "")
    ring = cord.replace("cord: 25 cm", "{work: k all, rounds: 9}")

    assert _ids(ring) - _ids(cord) >= {"edge.join", "edge.stretch"}


@pytest.mark.parametrize(
    ("wearer", "id"), [("infant", "wearer.safety"), ("child", "wearer.hazards")]
)
def test_a_cord_on_a_piece_for_the_young_is_a_hazard_without_a_word_of_it(
    wearer: str, id: str
) -> None:
    cord = flap("cast on: 3", "cord: 25 cm", "bind off: all")

    assert id in _ids(cord.replace("wearer: [adult]", f"wearer: [{wearer}]"))
