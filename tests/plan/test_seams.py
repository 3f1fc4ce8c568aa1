"""Yarn to sew seams with: common practice, no source, three times the length and two ends."""

import pytest

from bindoff.plan.plan import Plan
from bindoff.plan.yarn import Purpose
from bindoff.source.seams import sews_seams
from tests.small_patterns import FLAP, changed, plan_of

SEWN = "Sew the side seams."
PANEL = """\
      - cast on: 40
      - work: [k all, p all]
        rounds: 56
      - bind off: all
"""


def panels(finishing: str, make: int = 2, flat: bool = True, steps: str = PANEL) -> Plan:
    """Panels of 20 x 20 cm at 20 x 28 stitches; tubes of that way around where not flat."""
    text = changed(
        FLAP.partition("    steps:\n")[0] + "    steps:\n" + steps,
        ("    worked: flat\n", f"    make: {make}\n" + ("    worked: flat\n" if flat else "")),
    )
    return plan_of(f"{text}finishing: {finishing}\n")


def seams(plan: Plan) -> float:
    """Millimetres."""
    parts = plan.yarn[0].needs[0].parts
    return 1000 * sum(part.metres for part in parts if part.name is Purpose.SEAMS)


def test_two_panels_sewn_all_around() -> None:
    """Four sides of 20 cm each, joined in pairs: 80 cm of seam, three times that, four ends."""
    assert seams(panels(SEWN)) == pytest.approx(3 * 800 + 4 * 150)


def test_the_reserve_is_on_top_and_what_is_not_sewn_takes_nothing() -> None:
    with_seams, without = (panels(f).yarn[0].needs[0] for f in (SEWN, "Weave in all ends."))

    assert with_seams.metres - without.metres == pytest.approx(3.0 * 1.11)


def test_slopes_are_sewn_along_their_length() -> None:
    """A stitch (5 mm) taken at either edge in every row of 3.57 mm: 6.14 mm a row."""
    steps = """\
      - cast on: 40
      - work: k1, k2tog, k to last 3, ssk, k1
        rounds: 10
      - bind off: all
"""
    across = (40 + 20) * 5
    slope = 2 * 10 * (25 + (100 / 28) ** 2) ** 0.5

    assert seams(panels(SEWN, 1, steps=steps)) == pytest.approx(3 * (across + slope) / 2 + 300)


def test_a_tube_is_sewn_at_its_edges_where_nothing_is_flat() -> None:
    """A bag in the round: cast-on and bound-off edge, each folded on itself."""
    assert seams(panels("Sew the lower edge shut.", 1, flat=False)) == pytest.approx(3 * 200 + 300)


@pytest.mark.parametrize(
    "finishing",
    [
        "Sew the caps into the armholes, then the side and sleeve seams.",
        "Join the shoulders with mattress stitch.",
        "With right sides together, backstitch the sides.",
        "Seam the sleeves.",
        "Sew all around, turn, and put in the pad.",
        "Sew the strips together with an overcast stitch.",
        "Work the side seams from the hem up.",
        "Whipstitch the squares to each other.",
        "Fold the band in half and sew it in place.",
        "Sew the buttons on. Sew up the sides.",
    ],
)
def test_texts_that_sew(finishing: str) -> None:
    assert sews_seams(panels(finishing).source.pattern)


@pytest.mark.parametrize(
    "finishing",
    [
        "Weave in the ends and wash.",
        "Sew on the 6 buttons opposite the buttonholes.",
        "Sew the pompom to the top.",
        "There are no seams to sew.",
        "It is seamless, so nothing is sewn together.",
        "Graft the toe.",
        "Sew the lining in with sewing thread, edge to edge.",
        "The seam of the round lies at the left side.",
        "Join the shoulders with three needles.",
        "Join in the round at the side.",
    ],
)
def test_texts_that_do_not(finishing: str) -> None:
    assert not sews_seams(panels(finishing).source.pattern)
