"""Faults that a plan proves against its texts: charts and their yarns, lists for the sizes, seams,
thumbs, tubes, needles. Sound wordings of the same things are left alone."""

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import checked
from tests.faults.sets import files_of, sound

HAT, MITTS, VEST = "sprat-lane-hat", "winch-mitts", "mudlark-vest"
TUBE, BLANKET = "fogbell-hat", "moorhen-blanket"
SOCKS, CARDIGAN = "cockle-socks", "gannet-cardigan"


def _new(pattern: str, before: str, after: str, file: str = "pattern.yaml") -> set[str]:
    """The ids of what is said of a sound pattern with a change, and not without."""
    among = "seventh" if pattern in (SOCKS, CARDIGAN) else "eighth"
    files = dict(files_of(among, pattern))
    assert before in files[file]
    files[file] = files[file].replace(before, after, 1)
    known = {(each.id, each.message) for each in sound(among, pattern)}
    return {e.id for e in checked(MemoryFiles(files)) if (e.id, e.message) not in known}


READ = "The chart is read from right to left in every round,"
DIRECTIONS = """Read its odd rows from
  right to left and its even rows, which are wrong side rows, from left to right;"""
MOST = "No round of the\n  chart uses more than two yarns."
JOINED = "Join Pitch again in round 1 and Copper in round 8 of the chart."
CUT = "Cut Copper after round 10 and Pitch after round 15."
HANDS = """The right mitt has its thumb at the beginning
  of the palm, the left mitt at the end of it."""
SHOULDERS = "Sew both shoulder seams, 11 (12, 12, 12, 13) stitches each."
SIDES = "Sew the side seams from the hem to the armholes."


@pytest.mark.parametrize(
    ("pattern", "before", "after"),
    [
        # how a chart is read
        (HAT, READ, "The chart is read from right to left in odd and in even rounds,"),
        (HAT, READ, "The chart is never read from left to right, not in even rounds either,"),
        (BLANKET, DIRECTIONS, "Its even rows run from left to right, its odd ones from right;"),
        (BLANKET, "which are wrong side rows,", "which are those of the wrong side,"),
        (BLANKET, "is blank in the chart is purled", "is blank in the chart is worked as a purl"),
        (BLANKET, "and 1 stitch after it", "and a stitch after it"),
        # what is drawn in it
        (HAT, MOST, "No round of the chart has more than three yarns."),
        (HAT, MOST, "There are never more than two colors in one round."),
        (HAT, JOINED, "Have Pitch at hand in round 1 and Copper by round 7 of the chart."),
        (HAT, JOINED, "Join Pitch again in round 10 of the chart, if you have cut it."),
        (HAT, CUT, "Cut Copper after round 11 and Pitch after round 15."),
        (MITTS, "cross to the right between", "cross to the right, over and over, between"),
        (MITTS, "It is crossed in\n  round 3 of its chart", "It is crossed in the third round"),
        (TUBE, "with a dark red clapper below it", "with a dark red clapper under its rim"),
        (TUBE, "with a dark red clapper below it", "and a clapper beneath it"),
        # the yarn of what follows
        (HAT, "The rest of the hat is worked in\n          Shingle alone.", "The rest is plain."),
        (HAT, "Shingle alone.", "Shingle, without Copper."),
        (VEST, "how: very loosely in rib", "how: very loosely in rib, in Tide"),
        (VEST, "how: very loosely in rib", "how: loosely, not in Mud"),
        # lists for the sizes
        (MITTS, "There are 14 (16, 18, 18) stitches", "You have 14 (16, 18, 18) stitches"),
        (MITTS, "There are 14 (16, 18, 18) stitches", "There are 7 (8, 9, 9) stitches on a half"),
        (VEST, "46 (50, 52, 54, 56) stitches remain.", "That is 8 (8, 8, 10, 10) fewer."),
        # seams, thumbs and shoulders
        (VEST, SHOULDERS, "Graft the shoulders, 11 (12, 12, 12, 13) stitches each."),
        (VEST, SHOULDERS, "Join the shoulders with mattress stitch."),
        (VEST, SIDES, "Close the sides from the hem to the armholes."),
        (VEST, SIDES, "Sew back to front from the hem to the armholes."),
        (VEST, "begin at the right shoulder with", "begin at the back of the neck with"),
        (MITTS, HANDS, "The thumb of the right mitt comes first in the palm."),
        (MITTS, HANDS, "The left mitt has its thumb at the end of the round."),
        (MITTS, "mitt stands 2 stitches before the end", "mitt stands two stitches from the end"),
        # tubes and sizes
        (TUBE, "of both layers", "of the two layers"),
        (TUBE, "of both layers", "of all four layers at the brim"),
        (TUBE, "closed at both ends", "drawn up at both ends"),
        (TUBE, "with the bell\n  in the middle of the front", "with the bell on top"),
        (TUBE, "with the bell\n  in the middle of the front", "its ends in the middle of the back"),
        (TUBE, "at a looser tension than size", "more loosely than size"),
        # ease, needles and holders
        (VEST, "has 6.5 to 8.5 cm (2 1/2 to 3 1/4 in) of ease", "has 6 to 9 cm (2 1/2 to 3 1/2 in)"
         " of ease"),
        (VEST, "has 6.5 to 8.5 cm (2 1/2 to 3 1/4 in) of ease", "has between 6.5 and 8.5 cm (2 1/2"
         " to 3 1/4 in) of positive ease"),
        (VEST, "- 3 stitch holders", "- 4 stitch holders"),
        (VEST, "- 3 stitch holders", "- 2 stitch holders, or 1 m (1 yd) of waste yarn"),
        (HAT, "{name: \"3 mm circular needle, 40 cm (16 in) long\", use: brim}",
         "{name: \"3 mm circular needle, 40 cm (16 in) long\", use: ribbing}"),
        # edges and abbreviations
        (BLANKET, "with 3 stitches in each of the 4 corners", "with 3 stitches in every corner"),
        (BLANKET, "2 stitches for every 3\n          rows", "2 stitches for each 3 rows"),
        (BLANKET, "in seed stitch. The chart", "in seed stitch (SdSt). The chart"),
        (BLANKET, "in seed stitch. The chart", "in McKay stitch. The chart"),
    ],
)  # fmt: skip
def test_a_sound_wording_is_left_alone(pattern: str, before: str, after: str) -> None:
    assert _new(pattern, before, after) == set()


@pytest.mark.parametrize(
    ("pattern", "before", "after", "check"),
    [
        (HAT, READ, "Read the chart from left to right in even rounds,", "prose.chart"),
        (BLANKET, DIRECTIONS, "Even rows are read from right to left;", "prose.chart"),
        (BLANKET, "rows, which are wrong side rows,", "rows, that are right side rows,",
         "prose.chart"),
        (BLANKET, "is blank in the chart is purled", "is empty in the chart is worked as knit",
         "prose.chart"),
        (BLANKET, "and 1 stitch after it", "and 3 stitches before it", "prose.chart"),
        (HAT, MOST, "There is at most one color in any round.", "prose.chart"),
        (HAT, JOINED, "Join Pitch again in round 1 and Copper in round 7.", "prose.chart"),
        (HAT, CUT, "Cut Copper after round 8 and Pitch after round 15.", "prose.chart"),
        (HAT, CUT, "Cut Copper after round 10 and Pitch after round 18.", "prose.chart"),
        (MITTS, "cross to the left between", "twist to the right between", "prose.chart"),
        (MITTS, "round 3 of its chart", "round 5 of its chart", "prose.chart"),
        (TUBE, "with a dark red clapper below it", "with a clapper on top of it", "prose.chart"),
        (HAT, "Shingle alone.", "Pitch alone.", "prose.yarn"),
        (VEST, "how: very loosely in rib", "how: very loosely with Mud", "prose.yarn"),
        (MITTS, "There are 14 (16, 18, 18) stitches", "There are 14 (17, 18, 18) stitches",
         "prose.count"),
        (MITTS, "half of the round, 20 (22, 24, 26)", "half of the round, 22 (20, 24, 26)",
         "prose.count"),
        (MITTS, "now 11 (13, 15, 15) stitches", "now 11 (13, 15, 17) stitches", "prose.count"),
        (VEST, SHOULDERS, "Sew the shoulder seams, 14 (15, 15, 15, 16) stitches each.",
         "prose.made-up"),
        (VEST, SHOULDERS + " ", "", "prose.made-up"),
        (VEST, SIDES + " ", "", "prose.made-up"),
        (VEST, "begin at the right shoulder with", "start from the left shoulder with",
         "prose.hands"),
        (MITTS, HANDS, "The left mitt has its thumb at the start of the palm.", "prose.hands"),
        (MITTS, "mitt stands 2 stitches before the end", "mitt lies 5 stitches from the end",
         "prose.hands"),
        (MITTS, "k6 (7, 8, 9), chart rope_left, k to last 2", "k6 (7, 8, 9), chart rope, k to last "
         "2", "piece.mirror"),
        (TUBE, "of both layers", "of all three layers", "prose.claim"),
        (TUBE, "closed at both ends", "left open at its ends", "prose.claim"),
        (TUBE, "{chart: bell, at: front,", "{chart: bell, at: back,", "prose.claim"),
        (TUBE, "with the bell\n  in the middle of the front", "with the bell at the back",
         "prose.claim"),
        (TUBE, "with 40 needles at a looser", "with 46 needles at a looser", "prose.claim"),
        (TUBE, "at a looser tension than size", "at a firmer tension than size", "prose.claim"),
        (VEST, "has 6.5 to 8.5 cm (2 1/2 to 3 1/4 in) of ease", "has 10 to 12 cm (4 to 4 3/4 in) of"
         " ease", "prose.ease"),
        (VEST, "- 3 stitch holders", "- 1 stitch holder", "notion.count"),
        (VEST, "{name: 4 mm needles, use: hems}", "{name: 5 mm needles, use: hems}", "tool.fit"),
        (HAT, "\"3.5 mm circular needle, 40 cm (16 in) long\"", "\"3.5 mm circular needle, 80 cm "
         "(32 in) long\"", "tool.fit"),
        (BLANKET, "with 3 stitches in each of the 4 corners", "with 4 sc in every corner",
         "prose.claim"),
        (BLANKET, "2 stitches for every 3\n          rows along", "3 stitches for every 2 rows "
         "along", "prose.claim"),
        (BLANKET, "in seed stitch. The chart", "in SdSt. The chart", "abbreviation.undefined"),
        (VEST, "with the 4 mm needles and Tide.", "with the 4 mm needles and CC2.",
         "abbreviation.undefined"),
    ],
)  # fmt: skip
def test_a_slip_in_other_words_is_heard(pattern: str, before: str, after: str, check: str) -> None:
    assert check in _new(pattern, before, after)
