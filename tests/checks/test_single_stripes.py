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
