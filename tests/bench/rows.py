"""How many rows, as patterns print them, are read: ``python -m tests.bench.rows [FILE]``.

FILE is a table like ``tests/source/rows.tsv``, which is read without one. A row is *right* when it
is read and leaves the stitches that were counted by hand, *wrong* when it is read and leaves
others, *refused* when the reader asks for another spelling. ``--show refused`` or ``--show wrong``
lists those rows.
"""

import argparse
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from bindoff.craft.entry import Terms
from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import PatternError, Span
from bindoff.plan.rowcount import RowMismatch, count_row
from bindoff.source.rowlang.parse import parse_row

ROWS = Path(__file__).parents[1] / "source" / "rows.tsv"
RIGHT, WRONG, REFUSED = "right", "wrong", "refused"


@dataclass(frozen=True, slots=True)
class Printed:
    """A row as printed: its ``style`` and ``kind``, the pattern's terms, stitches before and after
    it in every size, and the places of markers on them."""

    style: str
    kind: str
    terms: str
    before: tuple[int, ...]
    markers: tuple[int, ...]
    after: tuple[int, ...]
    row: str


def printed_rows(path: Path) -> Iterator[Printed]:
    """The rows of a table of seven columns with a line of headings."""
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    for line in lines[1:]:
        style, kind, terms, before, markers, after, row = line.split("\t")
        counts, places, left = (
            tuple(int(each) for each in cell.replace(",", ";").split(";") if each)
            for cell in (before, markers, after)
        )
        yield Printed(style, kind, terms, counts, places, left, row)


def outcome(printed: Printed) -> tuple[str, str]:
    """Whether the row is read as counted by hand, and the reader's words where it is not."""
    place = Span("rows.tsv", 1, 1, 1, 1 + len(printed.row))
    book = standard_book(Terms(printed.terms))
    try:
        row = parse_row(printed.row, place, book)
        left = tuple(
            count_row(row, live, {}, printed.markers, book).live for live in printed.before
        )
    except PatternError as error:
        return REFUSED, error.findings[0].message
    except RowMismatch as error:
        return REFUSED, str(error)
    return (RIGHT, "") if left == printed.after else (WRONG, f"{left}, not {printed.after}")


def main() -> None:
    """Print the shares by style and by kind."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", nargs="?", type=Path, default=ROWS)
    parser.add_argument("--show", choices=(RIGHT, WRONG, REFUSED))
    options = parser.parse_args()
    rows = list(printed_rows(options.file))
    found = [(printed, *outcome(printed)) for printed in rows]
    for printed, what, why in found:
        if what == options.show:
            print(f"{printed.kind}: {printed.row}\n    {why}")
    for name in ("style", "kind"):
        print(f"\n{name:14} rows  right  wrong  refused")
        groups = Counter(getattr(printed, name) for printed in rows)
        for group, number in groups.items():
            got = Counter(what for each, what, _ in found if getattr(each, name) == group)
            shares = "  ".join(f"{got[what] / number:5.0%}" for what in (RIGHT, WRONG, REFUSED))
            print(f"{group:14} {number:4}  {shares}")


if __name__ == "__main__":
    main()
