"""Names in texts: each is told where nothing of that name is there, and sound ones are left alone.

The sentences were written with the checks; common practice of the trade, no source.
"""

import pytest

from bindoff.source.model import TextUse
from bindoff.source.yamltree import Path
from tests.faults.said import said

FINISHING: Path = ("finishing",)
SUMMARY: Path = ("summary",)
NOTES: Path = ("notes",)


def _heard(text: str, pattern: str, id: str, path: Path) -> bool:
    kind = TextUse.HEAD if path == SUMMARY else TextUse.TEXT
    return said(text, pattern, (id,), path, kind, beside=True) == {id}


@pytest.mark.parametrize(
    ("text", "pattern", "id", "path"),
    [
        ("Close the small hole beside the thumb.", "sock", "prose.reference", FINISHING),
        ("Sew on a fringe along each end.", "sock", "prose.reference", FINISHING),
        ("All but the toe is worked in Driftwood.", "sock", "prose.reference", NOTES),
        ("The stripes are in Kelp and Driftwood.", "sock", "prose.reference", NOTES),
        ("The socks are worked in intarsia.", "sock", "prose.reference", SUMMARY),
        ("They are explained in “Turning the collar”.", "sock", "prose.reference", NOTES),
        ("Sew the leg seam.", "sock", "prose.reference", FINISHING),
        ("Sew on two beads.", "sock", "notion.count", FINISHING),
        ("Draw elastic thread through the rib.", "sock", "notion.count", FINISHING),
        ("Worked flat, in 3 sizes.", "sock", "prose.stitch", SUMMARY),
        ("Worked in rounds, in one size.", "scarf", "prose.stitch", SUMMARY),
        ("It ends in a hem of moss stitch.", "kerchief", "prose.stitch", SUMMARY),
        ("It ends in a hem of stockinette.", "kerchief", "prose.stitch", SUMMARY),
    ],
)
def test_what_is_not_there_is_told(text: str, pattern: str, id: str, path: Path) -> None:
    assert _heard(text, pattern, id, path)


@pytest.mark.parametrize(
    ("text", "pattern", "id", "path"),
    [
        ("Close the small hole beside the instep.", "sock", "prose.reference", FINISHING),
        ("Graft the toe as for the thumb of a mitten.", "sock", "prose.reference", FINISHING),
        ("Add no fringe.", "sock", "prose.reference", FINISHING),
        ("All but the toe is worked in Kelp.", "sock", "prose.reference", NOTES),
        (
            "They were designed in Ebbstow and knitted in the town.",
            "sock",
            "prose.reference",
            NOTES,
        ),
        ("Sew the side seams.", "pullover", "prose.reference", FINISHING),
        ("The bind-off must be elastic.", "sock", "notion.count", FINISHING),
        ("It has no buttons.", "sock", "notion.count", FINISHING),
        ("Worked in the round, in 3 sizes.", "sock", "prose.stitch", SUMMARY),
        ("Worked back and forth, in one size.", "scarf", "prose.stitch", SUMMARY),
        ("It ends in a hem of garter stitch.", "kerchief", "prose.stitch", SUMMARY),
    ],
)
def test_what_is_there_is_left_alone(text: str, pattern: str, id: str, path: Path) -> None:
    assert not _heard(text, pattern, id, path)
