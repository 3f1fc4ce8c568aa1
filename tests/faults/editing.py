"""Slips that a reader of the whole pattern finds: words, yarns, rows of a chart, making up.

One or more for each check and each way of telling that the checks know. Common practice, no source.
"""

from tests.faults.seeding import Fault, Swap


def _slip(slip: str, base: str, finds: str, before: str, after: str, *also: str) -> Fault:
    return Fault(slip, base, finds, (Swap(before, after),), at=_AT.get(slip, ()), also=also)


_AT = {
    "thread for the buttons is not listed": ("with doubled thread",),
    "the marker for the right side is not listed": ("Clip the marker",),
}
"""Where what is no longer listed is used."""


EDITED = (
    _slip(
        "form for from",
        "cap",
        "prose.word",
        "Weave in the two ends",
        "Taken form the brim, weave in the two ends",
    ),
    _slip(
        "two many for too many",
        "placemat",
        "prose.word",
        "and not too tightly",
        "and not two tightly; it is to tight then",
    ),
    _slip(
        "one verb for many squares",
        "potholder",
        "prose.word",
        "Both squares have",
        "Both squares has",
    ),
    _slip(
        "an article without its noun",
        "runner",
        "prose.word",
        "Wet it, and pin it out",
        "Wet the and pin it out",
    ),
    _slip(
        "a crossing held at the other side",
        "cuff",
        "prose.cable",
        "hold it in front",
        "hold it at the back",
    ),
    _slip(
        "a crossing of other stitches",
        "cuff",
        "prose.cable",
        "knit the next 2 stitches",
        "knit the next 3 stitches",
    ),
    _slip(
        "a crossing in another round", "cuff", "prose.chart", "cross in round 3", "cross in round 4"
    ),
    _slip(
        "eyelets in another row",
        "runner",
        "prose.chart",
        "stand in rows 1 and 5",
        "stand in rows 1 and 3",
    ),
    _slip(
        "buttons sewn to the flap with the holes",
        "pouch",
        "prose.made-up",
        "buttons to the bag",
        "buttons to the flap",
    ),
    _slip(
        "ends woven in on the right side",
        "placemat",
        "prose.made-up",
        "ends on the wrong side",
        "ends on the right side",
    ),
    _slip(
        "ropes that are pressed",
        "cuff",
        "prose.made-up",
        "Do not press the ropes",
        "Press the ropes",
    ),
    _slip(
        "the other yarn is the main one",
        "placemat",
        "prose.yarn",
        "Sail is the main",
        "Tar is the main",
    ),
    _slip(
        "the front and the back have changed yarns",
        "potholder",
        "prose.yarn",
        "The front is in Ember",
        "The front is in Ash",
    ),
    _slip(
        "the note takes the other yarn",
        "potholder",
        "prose.yarn",
        "note: With Ember",
        "note: With Ash",
    ),
    _slip(
        "a share is not half of the whole",
        "bunting",
        "prose.count",
        "30 stitches, 15 for each half",
        "30 stitches, 12 for each half",
    ),
    _slip(
        "parts that add up to more",
        "bunting",
        "prose.count",
        "You need 8 flags: 3",
        "You need 8 flags: 4",
        "prose.claim",
    ),
    _slip(
        "a list of counts is of another step",
        "washmitt",
        "prose.count",
        "remaining 8 (16) stitches",
        "remaining 8 (12) stitches",
    ),
    _slip(
        "the other number of rounds for L",
        "washmitt",
        "prose.count",
        "That is 42 (48) rounds",
        "That is 42 (46) rounds",
    ),
    _slip(
        "4 stitches a round are told as 2",
        "washmitt",
        "prose.count",
        "Four stitches go in each",
        "Two stitches go in each",
    ),
    _slip(
        "a multiple with another rest",
        "runner",
        "prose.count",
        "multiple of 6 stitches and 1 more",
        "multiple of 6 stitches and 2 more",
    ),
    _slip(
        "rows that measure something else",
        "placemat",
        "prose.length",
        "40 rows, or 10 cm (4 in)",
        "40 rows, or 15 cm (6 in)",
    ),
    _slip(
        "buttonholes that there are not",
        "pouch",
        "prose.count",
        "There are 3 buttonholes",
        "There are 4 buttonholes",
    ),
    _slip(
        "the wrong side is bound off",
        "placemat",
        "prose.side",
        "how: on the right side",
        "how: on the wrong side",
    ),
    _slip(
        "the first size stands in brackets",
        "runner",
        "prose.size-words",
        "figures for Long are in",
        "figures for Short are in",
    ),
    _slip(
        "thread for the buttons is not listed",
        "pouch",
        "notion.count",
        ', "Sewing needle and thread"',
        "",
    ),
    _slip(
        "the marker for the right side is not listed",
        "poncho",
        "marker.count",
        "notions: [A locking marker]\n",
        "",
    ),
)
