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
from bindoff.files import MemoryFiles
from bindoff.plan.established import Knitter, Zone
from bindoff.plan.rowcount import LiveStitches, RowMismatch, count_row
from bindoff.plan.stitchpatterns import Patterns
from bindoff.source.read import read_source
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.read import Words, read_row
from bindoff.source.rowlang.syntax import SIZE
from bindoff.source.rowlang.vocabulary import NO_NAMES
from tests.small_patterns import CAP, WAVES

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


RIB = Patterns(
    read_source(
        MemoryFiles(
            {
                "pattern.yaml": CAP.replace(
                    "pieces:",
                    'stitch patterns: {rib: {rows: ["*k1, p1; repeat from * to end"]}}\npieces:',
                ),
                "waves.grid": WAVES,
            }
        )
    ),
    standard_book(Terms.US),
)
"""What the rows of the class ``pattern`` are worked in: ribbing over all stitches."""


def _in_rib(live: int) -> Knitter:
    rows = RIB.rows("rib", chart=False, flat=False)
    return Knitter(RIB, (Zone(rows, 0, live),), LiveStitches(live), False, False)


Outcome = tuple[str, str]
"""Right, wrong or refused, and why where it is not right."""


def outcome(printed: Printed, *, strictly: bool) -> Outcome:
    """Whether the row is read as counted by hand: by the strict grammar alone, or by all."""
    place = Span("rows.tsv", 1, 1, 1, 1 + len(printed.row))
    book = standard_book(Terms(printed.terms))
    words = Words.OLD if printed.style == "old" else Words.MODERN
    try:
        if strictly:
            row = parse_row(printed.row, place, book)
        else:
            sizes = len(printed.before)
            names = RIB.names if printed.kind == "pattern" else NO_NAMES
            row = read_row(printed.row, place, book, sizes=sizes, words=words, patterns=names)
        left = tuple(
            count_row(row, live, {SIZE: size}, printed.markers, book, layer=_in_rib(live)).live
            for size, live in enumerate(printed.before)
        )
    except PatternError as error:
        return REFUSED, f"{error.findings[0].id}: {error.findings[0].message}"
    except RowMismatch as error:
        return REFUSED, str(error)
    if not any(printed.before) and not any(left):
        return REFUSED, "no stitches are live"  # as a plan says
    for stated in row.reading.stated if row.reading else ():
        said = stated.counts * (len(left) if len(stated.counts) == 1 else 1)
        change = zip(printed.before, left, strict=True)
        counted = tuple((b - a) * stated.sign for a, b in change) if stated.sign else left
        if said != counted:
            return REFUSED, f"the row says {said}, and it is {counted}"
    read_as = row.reading.text if row.reading else ""
    right = left == printed.after
    return (RIGHT, read_as) if right else (WRONG, f"{left}, not {printed.after}: {read_as}")


def main() -> None:
    """Print the shares by style and by kind, with the strict grammar alone beside them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", nargs="?", type=Path, default=ROWS)
    parser.add_argument("--show", choices=(RIGHT, WRONG, REFUSED))
    options = parser.parse_args()
    rows = list(printed_rows(options.file))
    strict = [outcome(printed, strictly=True)[0] for printed in rows]
    found = [outcome(printed, strictly=False) for printed in rows]
    for printed, (what, why) in zip(rows, found, strict=True):
        if what == options.show:
            print(f"{printed.kind}: {printed.row}\n    {why}")
    for name in ("style", "kind"):
        print(f"\n{'':20}strictly               as knitters write")
        print(f"{name:14} rows  right  wrong  refused  right  wrong  refused")
        groups = Counter(getattr(printed, name) for printed in rows)
        for group, number in groups.items():
            places = [i for i, each in enumerate(rows) if getattr(each, name) == group]
            got = [Counter(strict[i] for i in places), Counter(found[i][0] for i in places)]
            shares = "    ".join(
                "  ".join(f"{each[what] / number:5.0%}" for what in (RIGHT, WRONG, REFUSED))
                for each in got
            )
            print(f"{group:14} {number:4}  {shares}")


if __name__ == "__main__":
    main()
