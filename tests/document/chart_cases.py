"""Charts of every kind for property tests, and a yarn-colour key to build small ones by hand."""

from collections.abc import Iterable

from hypothesis import strategies as st

from bindoff.document.charts.spec import ChartKey, ChartSpec, Marker, RepeatBox
from bindoff.document.charts.symbols import COLOUR_SYMBOLS
from bindoff.document.charts.written import WrittenRow

TAR = ChartKey("t", "cross", "Tar", "#12181f", word="tar")
FOAM = ChartKey("f", "blank", "Foam", "#e8eef0", word="foam")
RUST = ChartKey("r", "dot", "Rust", "#a8482c", word="rust")
YARNS = (TAR, FOAM, RUST)

KNIT = ChartKey("k", "knit", "knit", word="knit {n}", wrong_side_word="purl {n}")
PURL = ChartKey("p", "purl", "purl", word="purl {n}", wrong_side_word="knit {n}")
YARN_OVER = ChartKey("o", "yarn over", "yarn over", word="yo")
RIGHT_DECREASE = ChartKey("/", "k2tog", "knit 2 together", word="k2tog", wrong_side_word="p2tog")
LEFT_DECREASE = ChartKey("\\", "ssk", "slip, slip, knit", word="ssk", wrong_side_word="ssp")
NO_STITCH = ChartKey("n", "no stitch", "no stitch", worked=False)
CABLE = ChartKey("c", "cable 2/2 right", "2 over 2 to the right", word="2/2 right cross", span=4)
STITCHES = (KNIT, PURL, YARN_OVER, RIGHT_DECREASE, LEFT_DECREASE, NO_STITCH, CABLE)


def chart(*lines: str, keys: tuple[ChartKey, ...] = YARNS, **more: object) -> ChartSpec:
    """A chart from its lines, the last round first, as a person writes a grid."""
    rows = tuple(tuple(line) for line in reversed(lines))
    return ChartSpec("Test", rows, keys, **more)  # type: ignore[arg-type]


def expanded(rows: Iterable[WrittenRow]) -> tuple[tuple[str, ...], ...]:
    """The grid back from its written rows: left to right as seen, bottom row first."""
    found = []
    for row in rows:
        runs = (run for part in row.parts for run in part.runs * part.times)
        worked = tuple(key for run in runs for key in [run.key] * run.count)
        seen = worked[::-1] if row.direction == "right to left" else worked
        found += [seen] * (row.last - row.first + 1)
    return tuple(found)


colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")
labels = st.sampled_from(["centre front", "half round", "side", "a", "start of the round"])


@st.composite
def specs(draw: st.DrawFn, most: int = 24) -> ChartSpec:
    """Charts of colours or stitches, round or flat, with boxes, markers and a base band."""
    width, height = draw(st.integers(1, most)), draw(st.integers(1, most))
    if draw(st.booleans()):
        keys = tuple(
            ChartKey(chr(97 + number), symbol, symbol, draw(colours), word=f"yarn{number}")
            for number, symbol in enumerate(COLOUR_SYMBOLS[: draw(st.integers(1, 6))])
        )
    else:
        keys = STITCHES
    cells = [key.key * key.span for key in keys if key.span <= width]
    filler = next(cell for cell in cells if len(cell) == 1)

    def row() -> tuple[str, ...]:
        if draw(st.booleans()):
            part = "".join(draw(st.lists(st.sampled_from(cells), min_size=1, max_size=3)))
            line = part * (width // len(part))
        else:
            line = "".join(draw(st.lists(st.sampled_from(cells), max_size=width)))
            while len(line) > width:
                line = line[: -len(cells[-1])] if line[-1] == cells[-1][-1] else line[:-1]
        return tuple(line + filler * (width - len(line)))

    rows: list[tuple[str, ...]] = []
    while len(rows) < height:
        rows += [row()] * min(draw(st.integers(1, 4)), height - len(rows))
    stitches = sorted(draw(st.lists(st.integers(1, width), min_size=2, max_size=2)))
    lines = sorted(draw(st.lists(st.integers(1, height), min_size=2, max_size=2)))
    box = RepeatBox(stitches[0], stitches[1], lines[0], lines[1], "8-stitch repeat")
    whole = all(key.span == 1 for key in keys)
    return ChartSpec(
        "Test",
        tuple(rows),
        keys,
        worked=draw(st.sampled_from(["round", "flat"])),
        first_right_side=draw(st.booleans()),
        first_row=draw(st.integers(1, 120)),
        cell_width_mm=draw(st.floats(2.0, 12.0)),
        cell_height_mm=draw(st.floats(2.0, 12.0)),
        repeats=(box,) if whole and draw(st.booleans()) else (),
        markers=tuple(
            Marker(after / 2, label)
            for after, label in draw(
                st.lists(
                    st.tuples(st.integers(0, 2 * width), labels),
                    max_size=5,
                    unique_by=lambda marker: marker[0],
                )
            )
        ),
        base=tuple(draw(st.sampled_from(keys[:3])).key for _ in rows)
        if draw(st.booleans())
        else (),
    )
