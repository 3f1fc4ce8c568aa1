"""The picture of a tube and the brim that is turned up over its lower end."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import TUBE, WAVES, changed


def covered(tube: str, start: str) -> list[str]:
    """What is said of the picture, 4 rounds high, on a tube of 14 rounds over 10 cm."""
    text = changed(
        TUBE,
        ("{visible: visible, brim: 3 cm, gather: 1 cm}", tube),
        ("start: 1,", f"start: {start},"),
    )
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    findings = check_pattern(files, "pattern.yaml", "cap")
    return [each.message for each in findings if each.id == "picture.covered"]


@pytest.mark.parametrize(
    ("brim", "start", "rounds"),
    [
        ("3 cm", "0", "4 rounds"),  # all of it
        ("3 cm", "1", "3 rounds"),
        ("3 cm", "3", "round"),
        ("2 cm", "1", "2 rounds"),
        ("6 cm", "1", "4 rounds"),  # no more than there are
    ],
)
def test_a_brim_covers_as_many_rounds_above_the_edge_as_it_has(
    brim: str, start: str, rounds: str
) -> None:
    """3 cm are 4 rounds, 2 cm 3, 6 cm 8; by geometry, as much is hidden as is turned up."""
    (message,) = covered(f"{{visible: visible, brim: {brim}, gather: 1 cm}}", start)

    assert message == f"the turned-up brim covers the first {rounds} of the picture in every size"


@pytest.mark.parametrize(
    ("tube", "start"),
    [
        ("{visible: visible, brim: 3 cm, gather: 1 cm}", "4"),
        ("{visible: visible, brim: 3 cm, gather: 1 cm}", "rounds(3 cm)"),
        ("{visible: visible, gather: 1 cm}", "0"),
    ],
)
def test_a_picture_above_the_brim_is_seen(tube: str, start: str) -> None:
    assert covered(tube, start) == []
