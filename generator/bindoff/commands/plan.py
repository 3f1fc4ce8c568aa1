"""``bindoff plan``: how the sizes fit, how colours are best worked, where the yarn goes."""

import textwrap
import unicodedata
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import click

from bindoff.commands.gaugeoption import gauge_option
from bindoff.commands.shared import Named, Result, for_each
from bindoff.records import Record

if TYPE_CHECKING:
    from bindoff.document.planwords.listing import Listing, Section
    from bindoff.source.statedgauge import StatedGauge

WIDTH = 100
_GAP = "  "
_NARROWEST = 12  # of a column of words whose text is broken


@click.command(name="plan")
@click.argument("patterns", nargs=-1, required=True, type=click.Path(), metavar="PATTERN...")
@gauge_option
@click.option("--json", "as_json", is_flag=True, help="Print every figure as JSON.")
def command(patterns: tuple[str, ...], gauges: tuple["StatedGauge", ...], as_json: bool) -> None:
    """Show the fit, colours and yarn of every PATTERN (a folder or its pattern.yaml).

    The ease of every size, the sizes that a machine's needles serve, the shape of a crown, base
    stripes, techniques side by side, floats against their limit, and the parts of the yarn. With
    --gauge all of it at another gauge.
    """

    def show(pattern: Named) -> Result:
        from bindoff.document.planwords.data import plan_data
        from bindoff.document.planwords.sections import plan_sections
        from bindoff.document.verdictwords import TITLE, verdict_data, verdict_lines
        from bindoff.plan.plan import make_plan
        from bindoff.plan.replan import replan
        from bindoff.plan.verdict import judge
        from bindoff.source.read import read_source

        source = read_source(pattern.files, pattern.source, pattern.called)
        plan, notes = replan(source, gauges)
        verdict = judge(plan)
        if as_json:
            return Result(notes, data=plan_data(plan) | {"verdict": verdict_data(verdict)})
        head = plan.source.pattern
        title = _heading(f"{head.title}, version {head.version}", "=")
        end = list(verdict_lines(verdict, judge(make_plan(source)))) if gauges else []
        judged = ("", *_heading(TITLE, "-"), "", *end) if end else ()
        return Result(notes, ("", *title, *_lines(plan_sections(plan)), *judged, ""))

    for_each(patterns, show, as_json, "planned")


def _lines(sections: Sequence["Section"]) -> Iterator[str]:
    for section in sections:
        yield from ("", *_heading(section.title, "-"))
        for part in section.parts:
            yield ""
            yield from textwrap.wrap(part, WIDTH) if isinstance(part, str) else _table(part)


def _heading(title: str, under: str) -> list[str]:
    lines = textwrap.wrap(title, WIDTH)
    return [*lines, under * max(_wide(line) for line in lines)]


# ---------------------------------------------------------------- tables


def _table(listing: "Listing") -> Iterator[str]:
    """A table at most ``WIDTH`` wide: a few sizes at a time, or words broken over lines."""
    yield from textwrap.wrap(listing.caption, WIDTH)
    columns = [
        _Column(heading, tuple(row[at] for row in listing.rows), side)
        for at, (heading, side) in enumerate(zip(listing.columns, listing.align, strict=True))
    ]
    for part in _parts(columns) if listing.sized else [columns]:
        widths = _narrowed(part)
        sides = [column.side for column in part]
        yield from _row([column.heading for column in part], widths, sides)
        yield _GAP.join("-" * width for width in widths)
        for cells in zip(*(column.cells for column in part), strict=True):
            yield from _row(cells, widths, sides)


class _Column(Record):
    """A column of a table: its heading, its cells, ``<`` for words or ``>`` for figures."""

    heading: str
    cells: tuple[str, ...]
    side: str

    @property
    def width(self) -> int:
        """Wide enough for all on one line."""
        return max(_wide(self.heading), self.width_broken)

    @property
    def width_broken(self) -> int:
        """Wide enough for the cells, the heading broken between words."""
        return max(map(_wide, (*self.cells, *self.heading.split())), default=0)


def _parts(columns: Sequence[_Column]) -> Iterator[list[_Column]]:
    """The columns side by side: the first, and as many of the others as fit."""
    part = [columns[0]]
    for column in columns[1:]:
        if len(part) > 1 and _sum([each.width for each in (*part, column)]) > WIDTH:
            yield part
            part = [columns[0]]
        part.append(column)
    yield part


def _narrowed(columns: Sequence[_Column]) -> list[int]:
    """Widths that fit: headings are broken first, then words, and figures only at last."""
    found = [column.width for column in columns]
    least = [column.width_broken for column in columns]
    wordy = [
        min(width, _NARROWEST) if column.side == "<" else width
        for column, width in zip(columns, least, strict=True)
    ]
    for floors in (least, wordy, [min(width, _NARROWEST) for width in least]):
        while _sum(found) > WIDTH:
            slack = [width - floor for width, floor in zip(found, floors, strict=True)]
            widest = max(range(len(found)), key=lambda at: (slack[at] > 0, found[at]))
            if slack[widest] <= 0:
                break
            found[widest] -= 1
    return found


def _row(cells: Sequence[str], widths: Sequence[int], align: Sequence[str]) -> Iterator[str]:
    """A row as one line, or as more where a cell is broken."""
    broken = [textwrap.wrap(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    for number in range(max(len(lines) for lines in broken)):
        shown = [lines[number] if number < len(lines) else "" for lines in broken]
        padded = (_padded(*each) for each in zip(shown, widths, align, strict=True))
        yield _GAP.join(padded).rstrip()


def _padded(text: str, width: int, side: str) -> str:
    blank = " " * max(0, width - _wide(text))
    return blank + text if side == ">" else text + blank


def _sum(widths: Sequence[int]) -> int:
    return sum(widths) + len(_GAP) * (len(widths) - 1)


def _wide(text: str) -> int:
    """Columns of a terminal (Unicode Standard Annex 11): wide and fullwidth characters take 2."""
    return sum(
        0
        if unicodedata.combining(character)
        else 1 + (unicodedata.east_asian_width(character) in ("W", "F"))
        for character in text
    )
