"""Figures that nobody knits are refused before they cost time or memory.

The limits are this program's own; no published figure stands behind them.
"""

import pytest

from tests.small_patterns import CAP, FLAP, TUBE, changed, faults_of

SIZES = "".join(f"  M{i}: {{head: {40 + i / 8} cm}}\n" for i in range(500))
STEPS = "      - work: k all\n" * 2000
PIECES = "".join(
    f"  p{i}:\n    title: P\n    steps: [{{cast on: 8}}, {{gather: all}}]\n" for i in range(500)
)
RIB = '"*k2, p2; repeat from * to end"'
CASES = (
    ("source.value", CAP, ("  M: {head: 56 cm}\n", SIZES)),
    ("source.value", CAP, ("      - crown", STEPS + "      - crown")),
    ("source.value", FLAP, ("pieces:\n", "pieces:\n" + PIECES)),
    ("amount.large", CAP, ("rounds: 8", "rounds: 1000000")),
    ("amount.large", FLAP, ("over: 20", "over: 100000")),
    ("piece.rounds", CAP, ("rounds: 8", "times: 9999\n      - work: k all\n        rounds: 9999")),
    ("piece.stitches", CAP, (f"{RIB}\n        rounds: 8", "kfb to end\n        rounds: 200")),
    ("piece.markers", CAP, (f"{RIB}\n        rounds: 8", '"pm, k to end"\n        rounds: 600')),
    ("tube.large", TUBE, ("brim: 3 cm", "brim: 100000 cm")),
    ("tube.large", TUBE, ("[10 cm, 11 cm]", "[20 m, 11 cm]")),
)


@pytest.mark.parametrize(("id", "text", "change"), CASES)
def test_a_figure_beyond_all_knitting_is_refused(
    id: str, text: str, change: tuple[str, str]
) -> None:
    found = faults_of(changed(text, change))
    assert id in {finding.id for finding in found}
    assert all(finding.span is not None and finding.help for finding in found)


def test_many_rows_many_times_are_refused_before_they_are_written_out() -> None:
    rows = "[" + ", ".join(["k all"] * 9000) + "]\n        times: 9999"
    work = f"{RIB}\n        rounds: 8"
    assert {each.id for each in faults_of(changed(CAP, (work, rows)))} == {"piece.rounds"}


def test_rounds_of_all_pieces_and_sizes_are_limited_together() -> None:
    sizes = "".join(f"  M{i}: {{head: {40 + i / 8} cm}}\n" for i in range(20))
    text = changed(
        CAP,
        ("  M: {head: 56 cm}\n", sizes),
        ("[20 cm, 21 cm]", "20 cm"),
        ("rounds: 8", "rounds: 9000"),
    )
    (found,) = faults_of(text)
    assert (found.id, "all pieces in all sizes" in found.message) == ("piece.rounds", True)
