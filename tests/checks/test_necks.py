"""Rings for the neck: wide enough for the head, and with the caution that a child's needs."""

import pytest

from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_machine import COWL, STRIP
from tests.small_patterns import CAP, WAVES, changed, plan_of

# UK 1990: the median head of a child of 4 years is 51.5 cm, of 10 years 54 cm.
SIZES = "  S: {neck: 36 cm}\n  M: {neck: 40 cm}\n"
HEADS = "  S: {neck: 26 cm, head: 51.5 cm}\n  M: {neck: 29 cm, head: 54 cm}\n"
NAMED = ("title: Quay Cap", "title: Quay Ring")
CHILDS = changed(COWL, NAMED, (SIZES, HEADS), ("wearer: [adult]", "wearer: [child]"))


def found(text: str) -> list[str]:
    findings = check_pattern(
        MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES}), "pattern.yaml", "own"
    )
    return [each.message for each in findings if each.id == "ring.head"]


def words(text: str) -> str:
    return "\n".join(texts(build_document(plan_of(text), MemoryFiles({"waves.grid": WAVES}))[0]))


def long(text: str, small: str, large: str) -> str:
    return changed(text, ("long: [60 cm, 70 cm]", f"long: [{small}, {large}]"))


def test_a_ring_is_as_far_around_as_its_tube_is_long() -> None:
    """14 rounds are 10 cm: 56 rounds of the small size are 40 cm, and its head has 51.5."""
    assert found(CHILDS) == []
    assert found(long(CHILDS, "40 cm", "70 cm")) == [
        "`cowl` is 40.0 cm around in size S, and the head of size S 51.5 cm: it would have to "
        "stretch to 1.3 times that"
    ]


def test_a_ring_without_a_head_has_to_pass_the_smallest_of_a_wearer() -> None:
    tight = found(long(COWL, "40 cm", "42 cm"))

    assert len(tight) == 1
    assert "the smallest head of a wearer" in tight[0]


def test_the_edges_of_a_tube_stretch_more_than_its_length() -> None:
    """22 stitches are 22 cm around; 1.6 times that are 35 cm, and the head has 51.5."""
    tube = changed(
        STRIP,
        NAMED,
        ("title: Strip", "title: Cowl"),
        ("    worked: flat\n", ""),
        ("cast on: 14", "cast on: needles"),
        (SIZES, HEADS),
    )

    assert len(found(tube)) == 1
    assert found(tube)[0].startswith("`strip` is 22.0 cm around in every size")


@pytest.mark.parametrize(
    "text",
    [
        CAP,
        STRIP,
        long(CHILDS, "40 cm", "42 cm").replace("left open", "gathering"),
        changed(long(CHILDS, "40 cm", "42 cm"), ("title: Cowl", "title: Hat")),
    ],
)
def test_what_is_no_ring_for_the_neck_is_left_alone(text: str) -> None:
    assert found(text) == []


@pytest.mark.parametrize(("wearer", "told"), [("adult", False), ("child", True)])
def test_the_caution_follows_the_wearer(wearer: str, told: bool) -> None:
    said = words(changed(COWL, ("wearer: [adult]", f"wearer: [{wearer}]")))

    assert ("can strangle when it catches" in said) is told
    assert "around the neck of a baby" not in said


def test_a_baby_wears_nothing_around_its_neck_asleep_or_alone() -> None:
    said = words(changed(COWL, ("wearer: [adult]", "wearer: [infant]")))

    assert "Put nothing around the neck of a baby who sleeps" in said
    assert "What the law asks of children’s clothing where you live comes first." in said


def test_a_hat_has_no_caution_for_the_neck() -> None:
    assert "strangle when it catches" not in words(changed(CAP, ("[adult]", "[child]")))
