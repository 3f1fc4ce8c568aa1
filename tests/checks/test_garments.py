"""Parts of garments that have to meet, in sound patterns and with one figure changed."""

from pathlib import Path

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import checked
from tests.small_patterns import HEAD, changed

ROOT = Path(__file__).parents[2]
CARDIGAN = (ROOT / "tests/patterns/lockkeepers-cardigan/pattern.yaml").read_text("utf-8")
SOCK = (ROOT / "patterns/slipway-socks/pattern.yaml").read_text("utf-8")


def heard(text: str, *ids: str) -> list[str]:
    """The messages of those checks."""
    return [f.message for f in checked(MemoryFiles({"pattern.yaml": text})) if f.id in ids]


@pytest.mark.parametrize(
    ("old", "new", "id", "said"),
    [
        (
            "cap_rows: 2 * nearest(armhole_rows * 36 / 100, 1)",
            "cap_rows: 80",
            "cap.armhole",
            "edge of the cap",
        ),
        ("  - 6 buttons of", "  - 5 buttons of", "button.holes", "5 buttons are listed"),
        ("width(back_neck), mul", "width(back_neck) + 14 cm, mul", "pickup.ratio", "asks"),
    ],
)
def test_a_cardigan_with_one_figure_changed_is_heard(
    old: str, new: str, id: str, said: str
) -> None:
    found = heard(changed(CARDIGAN, (old, new)), id)

    assert found
    assert said in found[0]


def test_a_gusset_decreased_too_seldom_leaves_the_foot_wider() -> None:
    """Four stitches more than the leg's 40, all the way to a toe that takes as many in."""
    gusset = "        to: cast_on\n        over: 2 * gusset_times"
    text = changed(
        SOCK,
        (gusset, gusset.replace("cast_on", "cast_on + 4")),
        ("toe_end: half\n", "toe_end: half + 4\n"),
    )
    (found,) = heard(text, "heel.return")

    assert "40 stitches before the heel and the foot 44 after it in every size" in found


JUMPER = (
    HEAD
    + """\
gauge: {stitches: 20, rounds: 28}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes:
  S: {head: 54 cm}
  M: {head: 56 cm}
finished:
  Neck: width(neck_stitches)
measures:
  neck_stitches: [80, 84]
pieces:
  yoke:
    title: Yoke
    steps:
      - section: Neckband
      - cast on: neck_stitches
      - work: "[k2, p2] to end"
        rounds: 8
      - section: Body
      - work: k all
        rounds: 60
      - bind off: all
"""
)


def test_a_neck_that_stretches_over_the_head_is_left_alone() -> None:
    """80 stitches are 40 cm, and 54 is 1.35 times that."""
    assert heard(JUMPER, "neck.head") == []


def test_a_neck_of_sixty_stitches_does_not_pass_the_head() -> None:
    """60 stitches are 30 cm, and 54 is 1.8 times that."""
    (found,) = heard(changed(JUMPER, ("[80, 84]", "[60, 84]")), "neck.head")

    assert "30.0 cm around in size S" in found
    assert "1.8 times" in found


def test_a_cowl_may_be_any_width() -> None:
    text = changed(JUMPER, ("[80, 84]", "[60, 84]"), ("title: Yoke", "title: Cowl"))

    assert heard(text.replace("yoke:", "cowl:"), "neck.head") == []


SHOULDERS = (
    HEAD
    + """\
gauge: {stitches: 20, rounds: 28}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes:
  S: {chest: 90 cm}
finished:
  Width: width(80)
pieces:
  back:
    title: Back
    worked: flat
    steps:
      - cast on: 80
      - work: [k all, p all]
        rounds: 100
      - work: ["bind off 12, k to end", "bind off 12, p to end"]
        times: 2
      - bind off: all
  left_front:
    title: Left front
    worked: flat
    steps:
      - cast on: 40
      - work: [k all, p all]
        rounds: 80
      - taper: "k to last 3, k2tog, k1"
        to: 24
        over: 32
      - work: ["bind off 12, k to end", "p all"]
      - bind off: all
"""
)


def test_shoulders_of_two_times_twelve_stitches_meet() -> None:
    assert heard(SHOULDERS, "shoulder.meet") == []


def test_a_front_with_fewer_stitches_at_its_shoulder_is_heard() -> None:
    (found,) = heard(
        changed(SHOULDERS, ("to: 24", "to: 22"), ("over: 32", "over: 36")), "shoulder.meet"
    )

    assert "binds off 24 stitches" in found
    assert "ends with 22" in found
