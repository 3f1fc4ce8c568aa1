"""A tube whose sizes are cranked on machines of unlike numbers of needles, each with its grid."""

from bindoff.document.build import build_document
from bindoff.files import MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.render.text import render_text
from tests.small_patterns import TUBE, changed

HALF = {"half-24.grid": "....#...o...\n" * 2, "half-28.grid": "....#...o.....\n" * 2}


def test_every_size_has_its_own_grid_and_the_words_its_own_stitches() -> None:
    """Machines of 24 and 28 needles, half of each drawn: the back mirrors it from needle 13, 15."""
    text = changed(
        TUBE,
        ("S: {head: 24 cm}", "S: {head: 24 cm, needles: 24}"),
        ("M: {head: 26 cm}", "M: {head: 26 cm, needles: 28}"),
        ("grid: waves.grid", "grid: [half-24.grid, half-28.grid]"),
        ('"#": foam}', '"#": foam, "o": slate}'),
        ("start: 1, ground", "start: 1, mirror: true, ground"),
    )
    files = MemoryFiles({"pattern.yaml": text, **HALF})
    document, _ = build_document(plan_pattern(files, "pattern.yaml", "cap"), files)
    told = render_text(document)

    for size, needles in (("S", 24), ("M", 28)):
        assert (
            f"Size {size}: The back mirrors it, and the chart after it shows that: stitch 1 comes "
            f"again at stitch {needles}, and stitch {needles // 2} at stitch {needles // 2 + 1}."
        ) in told
        assert f"Mark needle 1, where every round starts, and needle {needles // 2 + 1}" in told
        assert f"Size {size}: Cast on all {needles} needles" in told
