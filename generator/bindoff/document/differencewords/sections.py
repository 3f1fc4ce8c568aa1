"""Changes under the headings of the document."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Literal

from bindoff.document.differencewords.leads import IN_GAUGE
from bindoff.document.differencewords.lines import chart_lines, lines_of
from bindoff.document.differencewords.telling import Telling, piece_title, telling_of
from bindoff.document.phrases import (
    heading,
    text,
)
from bindoff.document.tree import (
    Blocks,
    ItemList,
    ListItem,
    Paragraph,
)
from bindoff.plan.differences.change import Change, ChangedPart, Differences
from bindoff.plan.differences.find import differences
from bindoff.plan.differences.said import What
from bindoff.plan.plan import Plan

MEASURES = "Named measures, which only the source shows"
"""The heading of ``measure_blocks``."""

SAME = "Nothing that the pattern prints has changed."


def change_blocks(found: Differences, level: Literal[1, 2, 3, 4]) -> Blocks:
    """What has changed of all that is printed, under headings of ``level``.

    Raises:
        PatternError: for prose that can't be printed.
    """
    telling = telling_of(found)
    chosen = [(title, lines) for title, lines in _sections(telling) if lines]
    if not chosen:
        return (Paragraph(text(SAME)),)
    return tuple(
        block
        for title, lines in chosen
        for block in (heading(level, title), ItemList(tuple(lines)))
    )


def change_section(earlier: Plan | None, plan: Plan) -> Blocks:
    """What differs from an earlier version, for the last pages of a document; none without one.

    Raises:
        PatternError: for prose that can't be printed.
    """
    if earlier is None:
        return ()
    title = f"Changes since version {earlier.source.pattern.version}"
    return (heading(3, title, "changes-since"), *change_blocks(differences(earlier, plan), 4))


def measure_blocks(found: Differences) -> Blocks:
    """The named measures that have changed, which only the source shows; none if none have."""
    telling = telling_of(found)
    lines = list(lines_of(telling, [c for c in found.changes if c.what is What.MEASURE]))
    return (ItemList(tuple(lines)),) if lines else ()


_IN_SIZES = (What.SIZE, What.SIZE_ORDER, What.BODY, What.FINISHED)

_IN_WORDS = (What.TEXT, What.PROSE, What.STITCH)


def _sections(telling: Telling) -> Iterator[tuple[str, list[ListItem]]]:
    """The lines of every section, in the order of the document."""
    changes = telling.found.changes
    parts: dict[ChangedPart, list[Change]] = {part: [] for part in ChangedPart}
    for change in changes:
        parts[change.place.part].append(change)
    of_pattern = parts[ChangedPart.PATTERN]

    def chosen(*whats: What) -> list[Change]:
        return [change for change in of_pattern if change.what in whats]

    yield "Sizes and finished measurements", list(lines_of(telling, chosen(*_IN_SIZES)))
    materials = [*parts[ChangedPart.YARN], *chosen(What.TOOL, What.NOTION)]
    yield "Materials", list(lines_of(telling, materials))
    yield telling.new.term["gauge"].capitalize(), list(lines_of(telling, chosen(*IN_GAUGE)))
    pieces = [
        change for change in changes if change.place.part in (ChangedPart.PIECE, ChangedPart.STEP)
    ]
    for (old, new), group in groupby(pieces, lambda each: (each.place.old, each.place.new)):
        yield piece_title(telling, old, new), list(lines_of(telling, _worth(telling, list(group))))
    yield "Charts", list(chart_lines(telling, parts[ChangedPart.CHART]))
    yield "Words", list(lines_of(telling, chosen(*_IN_WORDS)))


def _worth(telling: Telling, changes: Sequence[Change]) -> list[Change]:
    """Without dimensions of the schematic that the finished measurements tell already, and without
    the list of a crown's rounds where its figures tell what has changed."""
    told = [each.shifts for each in telling.found.changes if each.what is What.FINISHED]
    crowns = [each.place for each in changes if each.what in _CROWN]
    return [
        each
        for each in changes
        if not (each.what is What.SCHEMATIC and each.shifts in told)
        and not (each.what is What.CROWN and each.place in crowns)
    ]


_CROWN = (What.CROWN_START, What.DECREASE_ROUNDS, What.PLAIN_ROUNDS)
