"""How long a 10-size, 400-row piece takes to read and prove, and what share parsing its rows has;
and how long a pullover in nine sizes takes, with its schematic.

    python -m tests.bench.long_piece

Prints medians of seven runs in seconds of the processor, and each stage's share of the whole. The
pullover is read and proved in half a second at the most.
"""

from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import process_time

from bindoff.files import DiskFiles, MemoryFiles
from bindoff.plan.outlines.choose import outline_of
from bindoff.plan.plan import make_plan
from bindoff.source.read import read_source
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import standard_book

RUNS = 7
SIZES = 10
ROWS = 400
PULLOVER = Path(__file__).parents[2] / "patterns" / "mooring-line-pullover"
MOST = 0.5  # seconds for the pullover

HEAD = """\
title: Long piece
designer: Ebbstow
version: "1"
date: 2026-01-01
summary: A long plain piece.
contact: a@ebbstow.example
wearer: [adult]
gauge: {stitches: 20, rounds: 28, over: 10 cm}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}
sizes:
"""


def source(number: int = ROWS) -> str:
    """A piece of ribbing with a cable, an increase row and a decrease row in turn."""
    rows = (
        "*k2, p2; repeat from * to end",
        "*2/2 RC, p4; repeat from * to end",
        "[k1, m1l] 2 times, k to last 2, [m1r, k1] 2 times",
        "k1, ssk, ssk, k to last 5, k2tog, k2tog, k1",
    )
    sizes = "".join(f"  N{n}: {{chest: {80 + 4 * n} cm}}\n" for n in range(SIZES))
    steps = "".join(f'          - "{rows[n % len(rows)]}"\n' for n in range(number))
    return (
        f"{HEAD}{sizes}"
        "measures: {on: 'stitches(chest, multiple = 8)'}\n"
        "finished: {Around: width(on)}\n"
        "pieces:\n  body:\n    title: Body\n    steps:\n      - cast on: on\n      - work:\n"
        f"{steps}        times: 1\n      - bind off: all\n"
    )


def timed(work: Callable[[], object]) -> float:
    """Median seconds of ``work``."""
    found = []
    for _ in range(RUNS):
        start = process_time()
        work()
        found.append(process_time() - start)
    return median(found)


def main() -> None:
    """Print the figures."""
    long_piece()
    pullover()


def pullover() -> None:
    """Print those of the pullover."""
    files = DiskFiles(str(PULLOVER))
    read = read_source(files)
    plan = make_plan(read)
    reading, planning = timed(lambda: read_source(files)), timed(lambda: make_plan(read))
    drawing = timed(lambda: outline_of(plan.measures, plan.pieces, "body"))
    rows = sum(sum(piece.rounds) for piece in plan.pieces)
    whole = reading + planning
    print(
        f"pullover, {len(read.sizes)} sizes, {rows} rounds: {whole:.3f} s of {MOST} s at the most"
    )
    print(f"  reading the source   {reading / whole:5.0%}")
    print(f"  working the stitches {planning / whole:5.0%}")
    print(f"  its outline besides  {drawing / whole:5.0%}")


def long_piece() -> None:
    """Print those of the long piece."""
    files = MemoryFiles({"pattern.yaml": source()})
    read = read_source(files)
    book = standard_book()
    written = read.pattern.pieces["body"].steps[1].place.of("work").entries
    texts = [(place.text, place.text_span) for place in written]
    reading = timed(lambda: read_source(files))
    planning = timed(lambda: make_plan(read))
    parsing = timed(lambda: [parse_row(text, span, book) for text, span in texts])
    whole = reading + planning
    print(f"{ROWS} rows in {SIZES} sizes: {whole:.3f} s read and proved")
    print(f"  reading the source   {reading / whole:5.0%}")
    print(f"  parsing the rows     {parsing / whole:5.0%}")
    print(f"  working the stitches {(planning - parsing) / whole:5.0%}")


if __name__ == "__main__":
    main()
