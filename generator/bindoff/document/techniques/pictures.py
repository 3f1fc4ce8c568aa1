"""Which techniques have a drawing, and the words that stand for it."""

from collections.abc import Callable
from functools import cache

from bindoff.document.drawing import Drawing
from bindoff.document.drawn import Drawn
from bindoff.document.techniques import machine, threads
from bindoff.document.techniques.paper import LETTERS, Inks, scaled
from bindoff.document.tree import Figure
from bindoff.records import Record


class Picture(Record):
    """How a technique is drawn, and what the drawing shows in words: left and right are those of
    the work, and no colours are named."""

    draw: Callable[[Inks], Drawing]
    alt: str


PICTURES = {
    "cast-on-circular-machine": Picture(
        machine.cast_on,
        "The ring of needles from above. The yarn comes from inside, passes behind needle 1, in "
        "front of needle 2, behind needle 3, and so on around, and leaves at the front.",
    ),
    "duplicate-stitch": Picture(
        threads.duplicate_stitch,
        "Duplicate stitch, in 3 stages. 1: the needle comes up at the foot of a stitch. 2: it "
        "passes from right to left behind both legs of the stitch above. 3: it goes down at the "
        "foot again. The new yarn lies over the whole V of the stitch.",
    ),
    "gathered-closing": Picture(
        threads.gathering,
        "Gathering, in 2 stages. 1: a thread on a blunt needle runs from right to left through "
        "every open stitch, behind its right leg and in front of its left one. 2: seen from above, "
        "the round of stitches is drawn together around the thread.",
    ),
    "grafting": Picture(
        threads.grafting,
        "Two edges, A above and B below, half a stitch apart. The thread makes a row between them: "
        "it comes up through a stitch of B, goes down through one of A, behind to the next of A, "
        "up through it, down through the stitch of B it came from, and behind to the next.",
    ),
}


def picture(name: str, drawn: Drawn) -> Figure | None:
    """The drawing of a technique for an edition, or nothing if it has none."""
    if name not in PICTURES:
        return None
    return Figure(_made(name, drawn.thread, drawn.shade, drawn.letters), PICTURES[name].alt)


@cache
def _made(name: str, thread: str, shade: str, letters: float) -> Drawing:
    """A drawing is made once, however many documents show it."""
    return scaled(PICTURES[name].draw(Inks(thread, shade)), letters / LETTERS)
