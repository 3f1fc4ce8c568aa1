"""Invented documents of a known size for the benchmarks, as neutral trees.

``mixed`` is the large one: running text, 6 tables of 60 rows by 10 columns and 3 charts of 46
stitches by 150 rounds. ``tables`` and ``charts`` are its halves made heavier; ``long_table`` and
``large_chart`` show how time grows.
"""

from pathlib import Path

from bindoff.document.charts.legend import legend
from bindoff.document.charts.spec import ChartKey, ChartSpec
from bindoff.document.charts.tiles import chart_figures
from bindoff.document.tree import (
    Block,
    Blocks,
    Column,
    Document,
    Figure,
    Heading,
    ItemList,
    ListItem,
    Paragraph,
    SizeValues,
    Strong,
    Table,
    TableRow,
    Text,
)

SIZES = tuple(f"N{number}" for number in range(1, 10))
_SENTENCES = (
    "Join to work in the round and place a marker at the beginning of the round.",
    "Work even until the piece measures as long as the table says for your size.",
    "Slip the marker, knit to the next marker and turn the work.",
    "Weave in all ends on the wrong side and wash the piece before you block it.",
    "The yarn that is not in use rests on the wrong side and never floats further than five "
    "stitches.",
)
_KEYS = (
    ChartKey(".", "blank", "Sand", "#e8dcc0"),
    ChartKey("x", "cross", "Sea", "#5a96a3"),
    ChartKey("o", "ring", "Brick", "#b3472f"),
    ChartKey("d", "dot", "Night", "#27364f"),
)


def document(blocks: Blocks, title: str = "Quay Sampler") -> Document:
    """A document around ``blocks``."""
    return Document(
        title,
        "The Ebbstow Knitting Room",
        "en",
        "1.0",
        "2026-11-02",
        "A sampler of invented tables and charts.",
        SIZES,
        (Heading(1, (Text(title),)), *blocks),
    )


def mixed() -> Document:
    """The large document."""
    blocks: list[Block] = []
    for number in range(1, 7):
        blocks.append(table(number, 60))
        if number % 2:
            blocks += [*text(number), *chart(number, 46, 150)]
    return document(tuple(blocks))


def tables() -> Document:
    """Many tables and little else."""
    return document(tuple(table(number, 60) for number in range(1, 19)))


def charts() -> Document:
    """Many charts and little else."""
    return document(tuple(block for number in range(1, 10) for block in chart(number, 46, 150)))


def long_table(rows: int) -> Document:
    """One table."""
    return document((table(1, rows),))


def large_chart(stitches: int, rounds: int) -> Document:
    """One chart, in as many pieces as pages need."""
    return document(chart(1, stitches, rounds, 2.0))


def text(number: int) -> Blocks:
    """A section of headings, paragraphs and a list of steps."""
    steps = tuple(
        ListItem((Paragraph((Strong((Text(f"Round {at}: "),)), *_counted(at), Text(sentence))),))
        for at, sentence in enumerate(_SENTENCES * 2, start=1)
    )
    return (
        Heading(2, (Text(f"Part {number}"),), f"part-{number}"),
        Paragraph((Text(" ".join(_SENTENCES)),)),
        Paragraph((Text(" ".join(reversed(_SENTENCES))),)),
        ItemList(steps, ordered=True),
    )


def _counted(at: int) -> tuple[Text | SizeValues, ...]:
    return (SizeValues(tuple(f"{72 + 4 * at + 8 * n}" for n in range(9))), Text(" stitches. "))


def table(number: int, rows: int) -> Table:
    """Counts of nine sizes in so many rows: ten columns with the row's name."""
    heads = tuple(Column((Text(name),), "right", index) for index, name in enumerate(SIZES))
    body = tuple(
        TableRow(
            (
                (Text(f"Round {at}"),),
                *((Text(f"{60 + number + at * 2 + n * 8}"),) for n in range(9)),
            )
        )
        for at in range(1, rows + 1)
    )
    caption = (Text(f"Stitches after each round, part {number}"),)
    return Table(caption, (Column((Text("Round"),)), *heads), body, id=f"table-{number}")


_PATTERN = """\
title: Quay Sampler
designer: The Ebbstow Knitting Room
version: "1.0"
date: 2026-11-02
summary: A sampler of invented charts.
contact: patterns@ebbstow.example
wearer: [adult]
gauge: {{stitches: 20, rounds: 25, over: 10 cm, state: washed, worked: flat, tool: 4 mm needles}}
yarns:
{yarns}
sizes: {{One size: {{}}}}
finished: {{Width: width(46)}}
charts:
{charts}
pieces:
  sampler:
    title: Sampler
    worked: flat
    steps:
      - cast on: 46
{steps}
      - bind off: all
"""


def write_charts(folder: Path) -> None:
    """The charts of ``charts`` as the source of a pattern that works them one above the other."""
    folder.mkdir(parents=True)
    yarns, charts, steps = [], [], []
    for key in _KEYS:
        yarns.append(
            f'  {key.label.lower()}: {{name: {key.label}, colour: "{key.colour}", weight: 4, '
            "ball: 50 g = 90 m}"
        )
    legend = ", ".join(f'"{key.key}": {key.label.lower()}' for key in _KEYS)
    for number in range(1, 10):
        lines = ("".join(row) for row in reversed(_waves(number, 46, 150)))
        (folder / f"waves{number}.grid").write_text("\n".join(lines) + "\n", "utf-8")
        charts.append(
            f"  waves{number}: {{title: Waves {number}, grid: waves{number}.grid, "
            f"legend: {{{legend}}}, alt: Waves.}}"
        )
        steps.append(f"      - chart: waves{number}")
    made = (("\n".join(each)) for each in (yarns, charts, steps))
    filled = dict(zip(("yarns", "charts", "steps"), made, strict=True))
    (folder / "pattern.yaml").write_text(_PATTERN.format(**filled), "utf-8")


def _waves(number: int, stitches: int, rounds: int) -> tuple[tuple[str, ...], ...]:
    return tuple(
        tuple(
            _KEYS[(at // 3 + (round_ // 2 if at % 7 < 4 else round_ // 5)) % 4].key
            for at in range(stitches)
        )
        for round_ in range(number, rounds + number)
    )


def chart(number: int, stitches: int, rounds: int, cell_mm: float = 1.2) -> Blocks:
    """A chart of four yarns in small waves, its pieces and its key."""
    rows = _waves(number, stitches, rounds)
    spec = ChartSpec(f"Waves {number}", rows, _KEYS, cell_width_mm=5.0, cell_height_mm=4.0)
    pieces = chart_figures(spec, 165.0, 190.0, cell_mm, cell_mm * 1.25)
    return (
        Heading(2, (Text(spec.title),), f"chart-{number}"),
        *(Figure(each.drawing, f"Waves. {each.alt}", (Text(each.label),)) for each in pieces),
        legend(spec),
    )
