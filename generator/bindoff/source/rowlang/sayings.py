"""The row language's own words: what holds stitches together, each saying with its meaning."""

from bindoff.records import Record


class Saying(Record):
    """``example`` is how it is written, ``meaning`` what it does in a phrase.

    ``words`` are the words that are kept for it: no stitch or yarn may be called so.
    """

    example: str
    meaning: str
    words: tuple[str, ...]


SAYINGS = (
    Saying(
        "k to end, k to end of row, k around, k across, k all",
        "the stitch over and over to the last stitch; a sequence such as `k1, p1 around` is "
        "repeated as a whole",
        ("to", "end", "of", "the", "row", "round", "rnd", "around", "across", "all"),
    ),
    Saying("k to last 3 stitches", "until so many stitches are left", ("last",)),
    Saying(
        "k to marker, k to 2 stitches before marker",
        "up to the next marker, or short of it",
        ("marker", "m", "mk", "next", "before"),
    ),
    Saying(
        "*k2, p2; repeat from * to end",
        "what stands after the star, over and over as far as said",
        ("repeat", "rep", "from"),
    ),
    Saying(
        "*k2, p2; repeat from * 3 more times",
        "so many times after the first; also `once more`, `twice more`",
        ("more", "once", "twice"),
    ),
    Saying(
        "[k1, p1] 4 times, [k1, p1] to end",
        "what stands in brackets, so often or as far as said; round brackets do as well",
        ("time", "times"),
    ),
    Saying(
        "(k1, yo, k1) in next stitch",
        "all of it into a single stitch",
        ("in", "into", "one", "same", "st", "stitch", "stitches", "sts"),
    ),
    Saying(
        "in seed to last 3 stitches, in pattern to marker, in seed over 12 stitches",
        "the next row of a stitch pattern, which is named where it begins; `in pattern` goes on "
        "with what is established there",
        ("pattern", "over"),
    ),
    Saying(
        "chart fern to last 2 stitches, chart fern",
        "the next row of a chart as often as it fits; without a goal, once",
        ("chart",),
    ),
    Saying("with slate: k2, p2; k2 in slate", "the yarn of a row, or of a stitch", ("with",)),
    Saying(
        "sc in each stitch to corner, 3 sc in corner, sl st in first stitch",
        "where crochet is worked: stitches, row ends, chains, corners",
        ("each", "first", "corner", "corners", "chain", "chains", "ends"),
    ),
    Saying(
        "2 dc in each chain space, (2 dc, ch 1, 2 dc) in next stitch, sc in same stitch",
        "into the gap under a chain; several into one place; into the place of the stitch before",
        ("space", "spaces"),
    ),
    Saying(
        "ch 3 as dc, dc in each stitch to end",
        "a turning chain that counts as a stitch and stands over the first one; other chains never "
        "count",
        ("as",),
    ),
    Saying("pm, place marker", "hangs a marker on the needle", ("pm", "place")),
    Saying("sm, slm, slip marker", "moves a marker along", ("sm", "slm")),
    Saying("rm, remove marker", "takes a marker off", ("rm", "remove")),
    Saying("cast on 4, co 4", "new stitches on the needle", ("cast", "on", "co")),
    Saying(
        "pick up and knit 12, pick up and purl 12",
        "stitches out of an edge",
        ("pick", "up", "and"),
    ),
    Saying(
        "bind off 4, bo 4, cast off 4, bind off all, bind off 4 in rib, bind off 4 purlwise",
        "stitches off the needle for good",
        ("bind", "off", "bo", "rib", "ribbing"),
    ),
    Saying("hold 8 stitches", "stitches off the needle that wait", ("hold",)),
    Saying(
        "hold 50 stitches for left sleeve",
        "stitches that wait under a name, by which a later step or piece takes them up",
        ("for",),
    ),
    Saying("fasten off", "the end of the crochet", ("fasten",)),
    Saying(
        "k10, new start of round",
        "moves the start of the round to here",
        ("new", "start", "beginning"),
    ),
    Saying(
        "k to end, join in the round; k to end, turn to work flat",
        "goes on in rounds after a row, or in rows after a round",
        ("join", "work", "flat"),
    ),
    Saying("turn, w&t, wrap and turn", "ends a short row", ("turn", "w&t", "wrap")),
    Saying(
        "k to 1 before gap, k to last turn, k to wrapped stitch",
        "up to the gap that the turn of an earlier row has left, or short of it",
        ("gap", "wrapped"),
    ),
    Saying("k to 5 past last turn", "so many stitches beyond that gap", ("past", "beyond")),
    Saying(
        "k to last 5, turn, ds; k to last 5, ds; ds, p to end",
        "a double stitch made at the turn, so that the next row goes on behind it, or by the next "
        "row as its first stitch",
        ("ds", "double"),
    ),
    Saying(
        "sl1 purlwise wyif, k1 tbl, k1 below",
        "how a stitch is worked, after it",
        ("purlwise", "pwise", "knitwise", "kwise", "wyib", "wyif", "tbl", "below"),
    ),
)

RESERVED = frozenset(word for saying in SAYINGS for word in saying.words)
"""Words that no stitch or yarn may be called."""
