"""The stitch patterns that rows are worked in: each once, as a list of its rows."""

from collections.abc import Iterator

from bindoff.document.phrases import heading, join, paragraph, text
from bindoff.document.stepphrases import headed
from bindoff.document.tree import Block, Blocks, Inlines, ItemList, Link, ListItem
from bindoff.document.voice import Voice
from bindoff.english import capital, ended
from bindoff.plan.plan import Plan
from bindoff.plan.stitchpatterns import StitchRows, as_worked
from bindoff.plan.worked import StepPlan
from bindoff.records import Record
from bindoff.source.rowlang.syntax import Row


class _Way(Record):
    """A stitch pattern as it is worked: ``flat``, in rows that are turned, or in the round."""

    key: str
    flat: bool


def pattern_id(key: str) -> str:
    """The id of the heading over the rows of a stitch pattern."""
    return f"stitch-pattern-{key}"


def stitch_pattern_section(voice: Voice) -> Blocks:
    """Every stitch pattern that some row is worked in; nothing where there are none."""
    found: list[Block] = []
    seen: set[str] = set()
    ways = dict(_ways(voice.plan))
    for way, rows in ways.items():
        both = sum(each.key == way.key for each in ways) > 1
        title = f"{rows.title}, {_how(way)}" if both else rows.title
        found.append(heading(3, title, "" if way.key in seen else pattern_id(way.key)))
        seen.add(way.key)
        found.append(paragraph(ended(capital(f"{rows.needs}, worked {_how(way)}"))))
        found.append(ItemList(tuple(_items(voice, way, rows))))
    if not found:
        return ()
    many = len(seen) > 1
    lead = (
        f"Steps name {'these patterns' if many else 'this pattern'} where "
        f"{'they begin' if many else 'it begins'}, with row 1. After that, “in pattern” means its "
        "next row: work each stitch above the one it belongs to, also where stitches at the edges "
        "have been added or taken away."
    )
    return (heading(2, "Stitch patterns", "stitch-patterns"), paragraph(lead), *found)


def _how(way: _Way) -> str:
    return "in rows" if way.flat else "in rounds"


def _items(voice: Voice, way: _Way, rows: StitchRows) -> Iterator[ListItem]:
    worked = as_worked(rows, voice.plan.book, flat=way.flat)
    starts_wrong = voice.plan.source.pattern.stitch_patterns[way.key].first_row == "wrong side"
    for number, row in enumerate(worked, start=1):
        side = ""
        if way.flat and len(worked) % 2 == 0:
            side = " (wrong side)" if (number % 2 == 0) != starts_wrong else " (right side)"
        unit = "row" if way.flat else "round"
        which = f"{unit} {number}{side}" if len(worked) > 1 else f"every {unit}"
        yield ListItem((paragraph(headed(which), " ", voice.row(row)),))


def pattern_rows(plan: Plan) -> Iterator[Row]:
    """The rows of all stitch patterns, as they are printed."""
    for way, rows in dict(_ways(plan)).items():
        yield from as_worked(rows, plan.book, flat=way.flat)


def _ways(plan: Plan) -> Iterator[tuple[_Way, StitchRows]]:
    for piece in plan.pieces:
        for step in piece.steps:
            for each in step.patterns.stitch:
                yield _Way(each.rows.key, each.flat), each.rows


def begun(voice: Voice, step: StepPlan) -> Inlines:
    """Which patterns begin with a step: ``Here the rows of Seed stitch begin, with row 1.``"""
    found: Inlines = ()
    for each in step.patterns.stitch:
        if each.begun:
            unit = "row" if each.flat else "round"
            link = (Link(text(each.rows.title), f"#{pattern_id(each.rows.key)}"),)
            found = join(found, " " if found else "", "Begin ", link, f" here, with its {unit} 1.")
    for key in step.patterns.begun:
        title = voice.plan.source.pattern.charts[key].title
        unit = "row" if step.flat else "round"
        found = join(found, " " if found else "", f"Begin chart {title} here, with its {unit} 1.")
    return found
