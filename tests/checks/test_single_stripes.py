"""Stripes of a single round: chosen by the plan, or drawn as a line."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import TUBE, changed


@pytest.mark.parametrize(("round_", "told"), [("########", False), ("#######.", True)])
def test_a_line_that_is_drawn_is_no_stripe_to_scold(round_: str, told: bool) -> None:
    """A round of foam alone is drawn so; a round that the plan chose is told."""
    text = changed(TUBE, ("    steps:", "    colour plan: {minutes per change: 0}\n    steps:"))
    grid = f"........\n{round_}\n........\n........\n"
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": grid})

    ids = [each.id for each in check_pattern(files, "pattern.yaml", "cap")]

    assert ("stripe.single" in ids) is told


@pytest.mark.parametrize(("apart", "told"), [(9, True), (11, False)])
def test_a_stripe_lower_than_asked_between_wanted_ones_is_told(apart: int, told: bool) -> None:
    """Rounds 8 and 10 above the rim leave one round between them, 8 and 12 three, as asked."""
    stripes = ", ".join(
        f"{{from: {at} rounds above rim, rounds: 1, yarn: foam}}" for at in (7, apart)
    )
    text = changed(
        TUBE,
        ("gather: 1 cm}", f"gather: 1 cm, stripes: [{stripes}]}}"),
        ("    steps:", "    colour plan: {shortest stripe: 3}\n    steps:"),
    )
    grid = "........\n........\n........\n........\n"
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": grid})

    found = [e for e in check_pattern(files, "pattern.yaml", "cap") if e.id == "stripe.short"]

    assert bool(found) is told
    if told:
        assert "a stripe is 1 round high in every size" in found[0].message
