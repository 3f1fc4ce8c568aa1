"""Who draws each technique; loaded only where a drawing is not kept."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from bindoff.document.drawing import Drawing, scaled
from bindoff.document.techniques import board, cord, edges, machine, shaping, threads, wrongside
from bindoff.document.techniques.paper import LETTERS, Inks

DRAWERS: Mapping[str, Callable[[Inks], Drawing]] = MappingProxyType(
    {
        "blocking": board.pinned,
        "buttonholes": shaping.two_row_hole,
        "cast-on-circular-machine": machine.cast_on,
        "crochet-edging": edges.crochet_edge,
        "crossing-stitches": shaping.cross,
        "duplicate-stitch": threads.duplicate_stitch,
        "gathered-closing": threads.gathering,
        "grafting": threads.grafting,
        "i-cord": cord.i_cord,
        "join-folded-tube": machine.folding,
        "joining-a-new-yarn": threads.square_knot,
        "leaning-decreases": shaping.decreases,
        "leaning-increases": shaping.increases,
        "long-tail-cast-on": edges.long_tail,
        "picking-up": edges.picking_up,
        "picking-up-stitches": edges.picking_up_stitches,
        "short-rows": shaping.turn,
        "slip-stitch-join": edges.slip_stitch_join,
        "small-buttonholes": shaping.eyelet,
        "stranded-knitting": wrongside.floats,
        "weaving-in-ends": threads.weaving_in,
    }
)
"""By the names in ``pictures.PICTURES``."""


def drawn(name: str, colours: tuple[str, str, str], letters: float) -> Drawing:
    """The drawing of that name in three colours (``Inks``), with ``letters`` (mm) of that size."""
    return scaled(DRAWERS[name](Inks(*colours)), letters / LETTERS)
