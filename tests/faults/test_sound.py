"""Sound patterns of a designer who had not read the checks: no check finds a fault in them.

Twelve kinds of pieces in twelve voices; the figures were reckoned by hand. ``NOTHING_WRONG`` are
the findings that are wrong all the same, by pattern: a new one is a false alarm. No source.
"""

# ruff: noqa: E501 - a message stays whole, as it is looked up

from collections.abc import Mapping
from pathlib import Path

import pytest

from bindoff.diagnostics import Severity
from bindoff.files import DiskFiles
from tests.faults.seeding import checked

HERE = Path(__file__).parent / "sound"
PATTERNS = sorted(folder.name for folder in HERE.iterdir())

NOTHING_WRONG: Mapping[str, set[str]] = {
    "ballast-beanie": {
        "prose.count: `15 rounds` stands here, and rows there are 12 or 13 in size Child",
        "tool.unlisted: `4.5 mm needle` stands here, and no tool has that size",
        "wearer.hazards: `pom-pom` on something for a child: `pompom` is not declared",
    },
    "cuddy-bonnet": {
        "pickup.ratio: along the left lower edge 20 stitches are picked up in 38 rows in every size, and the gauge asks for 27",
        "pickup.ratio: along the right lower edge 20 stitches are picked up in 38 rows in every size, and the gauge asks for 27",
        "prose.reference: `hood` stands here, and nothing else in the pattern knows of a hood",
    },
    "fathom-shawl": {
        "prose.count: `After ten` stands here, and times it is worked 1 or 78 in size Smaller",
        "prose.count: `eighty rows` stands here, and rows there are 10 or 78 in size Smaller",
        "prose.count: `thirty-two stitches` stands here, and here are 9 or 13 in size Smaller",
    },
    "hawsehole-headband": {
        "prose.claim: `Take out the waste yarn and put the 22 (22, 22) stitches`: the loops run as soon as nothing holds them",
    },
    "keelson-scarf": {
        "prose.count: `12 rounds` stands here, and rows there are 6 or 8 in size Short",
    },
    "lamplighter-bedsocks": {
        "prose.count: `10 rounds` stands here, and that is right for size Child only",
    },
    "shrimper-slipover": {
        "stated.width: no count of stitches gives `Width of the neck` in sizes 2 years and 4 years: stated for size 2 years is 14.5 cm, and the pieces have 13.6 cm or 15.0 cm at the nearest",
        "wearer.hazards: `strap` on something for a child: `cords` is not declared",
    },
    "tally-blanket": {
        "prose.count: `6 rows` stands here, and rows there are 1 or 56 in size Pram",
        "stated.height: no run of rounds gives `height of blanket` in every size: stated for size Pram is 60.5 cm, and the pieces have 56.0 cm or 70.0 cm at the nearest",
        "stated.width: no count of stitches gives `lower edge of blanket` in every size: stated for size Pram is 60.5 cm, and the pieces have 57.5 cm or 85.5 cm at the nearest",
    },
    "tideline-scarf": {
        "prose.count: `31 stitches` stands here, and here are 6 or 13 in size Scarf",
        "prose.count: `402 rows` stands here, and the scarf has 468 or 474 in size Stole",
        "prose.count: `seven` stands here, and here are 4 or 6 in size Stole",
    },
    "wherry-mitts": {
        "prose.count: `eighteen` stands here, and that is right for size M only",
        "prose.count: `three markers` stands here, and markers there are 2 in size S",
    },
}


@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_check_finds_a_fault_in_a_sound_pattern(pattern: str) -> None:
    found = checked(DiskFiles(str(HERE / pattern)))

    assert not [each for each in found if each.severity is Severity.ERROR]
    assert {f"{each.id}: {each.message}" for each in found} <= NOTHING_WRONG.get(pattern, set())


def test_what_is_listed_is_still_told() -> None:
    for pattern, listed in NOTHING_WRONG.items():
        found = {f"{each.id}: {each.message}" for each in checked(DiskFiles(str(HERE / pattern)))}
        assert listed <= found, pattern
