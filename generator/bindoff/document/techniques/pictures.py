"""Which techniques have a drawing, and the words that stand for it."""

from collections.abc import Container
from enum import StrEnum
from functools import cache

from bindoff.document.drawing import Drawing
from bindoff.document.drawn import Drawn
from bindoff.document.keptdrawings import Plain, drawing_of, plain
from bindoff.document.tree import Figure, Text
from bindoff.kept import Shelf
from bindoff.records import Record

SOURCES = (
    "craft",
    "craft/stitches",
    "document/drawing.py",
    "document/keptdrawings.py",
    "document/lettering.py",
    "document/techniques",
    "document/yarn",
)
SHELF: Shelf[Plain] = Shelf(__file__, 200, sources=SOURCES)
"""To draw the yarn of a pattern's techniques takes as long as all the rest of its document."""


class Shown(StrEnum):
    """What of a pattern decides whether a drawing fits it."""

    FLAT_PIECE = "a piece worked flat"
    ROW_ENDS = "stitches picked up along row ends"
    EDGE_STITCHES = "stitches picked up along a cast-on or bound-off edge"


class Picture(Record):
    """What the drawing of a technique shows in words: left and right are those of the work, and no
    colours are named. ``key`` says to all readers what its figures and letters stand for, where
    they are not those of the steps below it. ``needs`` is what it shows, if that is not in every
    pattern with the technique: the id of a stitch, or a ``Shown``. ``technique`` is the name of the
    technique, if it has another drawing besides."""

    alt: str
    key: str = ""
    needs: str = ""
    technique: str = ""


PICTURES = {
    "blocking": Picture(
        "A flat piece from above, drawn out to its width and its height, with pins through its "
        "edges that lean outwards.",
        "1: pins in the corners. 2: pins in the middle of each side. 3: pins between these, evenly "
        "spaced.",
        needs=Shown.FLAT_PIECE,
    ),
    "buttonholes": Picture(
        "A buttonhole in knitted fabric, over two rows.",
        "1: three stitches are bound off from right to left, each drawn over the next one. 2: in "
        "the next row, three loops are cast on above them.",
    ),
    "cast-on-circular-machine": Picture(
        "The ring of needles from above, numbered to the left as seen from the front. The yarn "
        "comes from inside, passes behind needle 1, in "
        "front of needle 2, behind needle 3, and so on around, and leaves at the front.",
        "1 to 4: the needles in the order of working.",
    ),
    "crochet-edging": Picture(
        "Crochet along the top edge of a piece, from right to left, around its corner and down its "
        "side.",
        "1 to 3: three stitches at the corner, which come from one place.",
    ),
    "crossing-stitches": Picture(
        "Four stitches between two purl stitches change places: the two from the left pass over "
        "the two from the right, and lean to the right.",
    ),
    "duplicate-stitch": Picture(
        "Duplicate stitch, in 3 stages. 1: the needle comes up at the foot of a stitch. 2: it "
        "passes from right to left behind both legs of the stitch above. 3: it goes down at the "
        "foot again. The new yarn lies over the whole V of the stitch.",
    ),
    "gathered-closing": Picture(
        "Open stitches at a top are gathered, in 2 stages.",
        "1: a thread on a blunt needle runs from right to left through every open stitch, behind "
        "its right leg and in front of its left one. 2: seen from above, the round of stitches is "
        "drawn together around the thread.",
    ),
    "grafting": Picture(
        "Two edges, A above and B below, half a stitch apart. The thread makes a row between them: "
        "it comes up through a stitch of B, goes down through one of A, behind to the next of A, "
        "up through it, down through the stitch of B it came from, and behind to the next.",
        "A: the edge on the back needle. B: the one on the front needle.",
    ),
    "i-cord": Picture(
        "Three stitches sit at the right tip of a double-pointed needle. The yarn comes from the "
        "last stitch, at the left, and passes behind the stitches to the first one, at the right.",
    ),
    "join-folded-tube": Picture(
        "A tube cut through lengthwise is folded and joined, in 3 stages.",
        "1: half way up is the fold. 2: the lower half is pushed up inside the other, so that both "
        "ends are at one height. 3: the ends are joined all around.",
    ),
    "joining-a-new-yarn": Picture(
        "A square knot: the old yarn comes from the left and the new one from the right. Each lies "
        "around both legs of the other, the old one over them and the new one under them. Both "
        "tails hang on the same side.",
    ),
    "leaning-decreases": Picture(
        "K2tog: one new stitch goes through two loops; the left of the two lies on top and leans "
        "to the right. Ssk: the right of the two lies on top and leans to the left.",
    ),
    "leaning-increases": Picture(
        "M1l: the strand between two stitches is a loop with crossed feet and has a new stitch in "
        "it; the foot on top leans to the left. M1r: the foot on top leans to the right.",
    ),
    "long-tail-cast-on": Picture(
        "The cast-on edge: a row of loops, each with its feet crossed, and two rows knitted "
        "through them.",
    ),
    "picking-up": Picture(
        "A side edge lies on top. From right to left, loops come up from behind between the edge "
        "stitch and the next one onto a needle: here one in each of three rows, and none in the "
        "fourth.",
        "1 to 3: a loop in each row. –: a row that is skipped.",
        needs=Shown.ROW_ENDS,
    ),
    "picking-up-stitches": Picture(
        "A cast-on edge lies on top. From right to left, a loop comes up from behind through the "
        "middle of each stitch onto a needle.",
        needs=Shown.EDGE_STITCHES,
        technique="picking-up",
    ),
    "short-rows": Picture(
        "A row that turns before its end, in 3 stages.",
        "1: the row is worked to the turn, and the stitches beyond wait. 2: the last stitch is "
        "drawn up over the needle, and both its legs lie in front. 3: the next row goes back from "
        "there.",
        needs="ds",
    ),
    "slip-stitch-join": Picture(
        "Two edges of open stitches lie edge to edge. A chain runs over them from right to left. "
        "Each of its stitches comes up from behind through a stitch of both edges and through the "
        "chain stitch before it.",
    ),
    "small-buttonholes": Picture(
        "A hole in knitted fabric, made by a yarn over. To its left, two stitches are knitted as "
        "one, the left of the two on top. In the next row the yarn over is knitted as any stitch.",
    ),
    "stranded-knitting": Picture(
        "The wrong side of two rounds in two yarns. Each yarn runs on loosely across the "
        "stitches of the other, as a float; in both rounds the floats of A lie above those of B.",
        "A and B: the two yarns, seen from the wrong side.",
    ),
    "weaving-in-ends": Picture(
        "The wrong side. An end comes up at the right edge and runs to the left along a row, "
        "behind the bump of each stitch. It turns upward, leaves out one stitch of the next row, "
        "and comes back behind the bumps of half as many stitches.",
    ),
}


def picture(name: str, drawn: Drawn, shown: Container[str] = ()) -> Figure | None:
    """The drawing of a technique for an edition, or nothing if it has none or needs what is not
    among ``shown``: ids of the stitches used, and each ``Shown`` of the pattern."""
    for key, found in PICTURES.items():
        if (found.technique or key) == name and (not found.needs or found.needs in shown):
            colours = (drawn.thread, drawn.shade, drawn.tint)
            made = _made(key, colours, drawn.letters) if drawn.painted else Drawing(0, 0, ())
            return Figure(made, found.alt, (Text(found.key),) if found.key else ())
    return None


@cache
def _made(key: str, colours: tuple[str, str, str], letters: float) -> Drawing:
    """A drawing is made once, however many documents show it, and kept."""
    return drawing_of(SHELF.get((key, colours, letters), lambda: _drawn(key, colours, letters)))


def _drawn(key: str, colours: tuple[str, str, str], letters: float) -> Plain:
    from bindoff.document.techniques.drawers import drawn  # and all that draws

    return plain(drawn(key, colours, letters))
