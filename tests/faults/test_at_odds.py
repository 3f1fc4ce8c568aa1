"""Sound wordings beside slips that the structure of a source proves: rows by their side, terms,
order, what is likened to itself, sizes, yarns of a part, needles, asterisks."""

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import checked
from tests.faults.sets import files_of, sound

BONNET, JACKET, BLANKET = "teasel-bonnet", "capstan-cardigan", "slate-roof-blanket"
BAG, WARMERS = "pump-street-bag", "marsh-lantern-leg-warmers"


def _new(pattern: str, before: str, after: str) -> set[str]:
    """The ids of what is said of a pattern of the sixth set with a change, and not without."""
    files = dict(files_of("sixth", pattern))
    assert before in files["pattern.yaml"]
    files["pattern.yaml"] = files["pattern.yaml"].replace(before, after, 1)
    known = {(each.id, each.message) for each in sound("sixth", pattern)}
    return {e.id for e in checked(MemoryFiles(files)) if (e.id, e.message) not in known}


@pytest.mark.parametrize(
    ("pattern", "before", "after"),
    [
        (BONNET, "Row 1 is a right-side row.", "Row 2 is a wrong-side row."),
        (BONNET, "Row 1 is a right-side row.", "The odd rows are right-side rows."),
        (BONNET, "facing you on odd-numbered rows", "facing you on every odd row"),
        (BONNET, "all, always on the right side,", "all, each time on the right side,"),
        (BONNET, "Do not cut the tail. Use it", "Never cut the tail. Use it"),
        (BONNET, "Two balls of Thistle are enough", "Two balls of Thistle will do"),
        (BONNET, "about 3 in every 4 rows", "about 3 stitches for every 4 rows"),
        (BONNET, "a multiple of 8 in every", "each a multiple of 4 in every"),
        (JACKET, "now at the end of right-side", "now at the end of the right-side"),
        (JACKET, "one row more than in the right front", "one row more than on the right front"),
        (JACKET, "Take the markers out. Sew", "Remove the markers. Sew"),
        (JACKET, "at each of the four places", "at each of these places"),
        (JACKET, "The cardigan is roomy, with", "The cardigan is comfortable, with"),
        (JACKET, "A plain cardigan for", "A jacket for"),
        (JACKET, "A plain cardigan for", "A plain thing for"),
        (BLANKET, "The pattern uses US terms", "The pattern is written in US terms"),
        (BLANKET, "Row 2: ch 3, skip", "Row 2: ch 3, turn, skip"),
        (BLANKET, "Cut Rain and fasten off", "Break off Rain and fasten off"),
        (BLANKET, "The pram size comes first", "The pram stands first"),
        (BAG, "Its two straps come", "Its straps come"),
        (BAG, "Slip each row onto a needle and pull", "Slip the loops onto two needles, then pull"),
        (WARMERS, "from the ankle to the knee", "from the bottom to the top"),
        (WARMERS, "Round 7: work like round 3", "Round 7: like round 3"),
        (WARMERS, "tighter than the calf", "narrower than the calf"),
        (WARMERS, "Flame is used for the ribbing at", "Flame is for the ribbing at"),
        (WARMERS, "Both leg warmers are alike", "The two are alike"),
    ],
)
def test_a_sound_wording_is_left_alone(pattern: str, before: str, after: str) -> None:
    assert _new(pattern, before, after) == set()


@pytest.mark.parametrize(
    ("pattern", "before", "after", "check"),
    [
        (BONNET, "Row 1 is a right-side row.", "Row 2 is a right-side row.", "prose.count"),
        (BONNET, "facing you on odd-numbered rows", "facing on even rows", "prose.count"),
        (BONNET, "Do not cut the tail. Use it", "Now cut the end, and use it", "prose.claim"),
        (JACKET, "at each of the four places", "at each of the six places", "prose.claim"),
        (JACKET, "A plain cardigan for", "A hat for", "prose.claim"),
        (BLANKET, "The pattern uses US terms", "It is written in British terms", "prose.claim"),
        (BLANKET, "Row 2: ch 3, skip", "Row 2: ch 2, skip", "prose.claim"),
        (WARMERS, "tighter than the calf", "looser than the calf", "prose.ease"),
        (WARMERS, "Round 7: work like round 3", "Round 7: as round 5", "prose.chart"),
        (WARMERS, "*p1, k3, p1, k3; repeat from *", "p1, k3; repeat from *", "prose.brackets"),
    ],
)
def test_a_slip_in_other_words_is_heard(pattern: str, before: str, after: str, check: str) -> None:
    assert check in _new(pattern, before, after)
