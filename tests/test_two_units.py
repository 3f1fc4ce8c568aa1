"""Lengths in centimeters and inches: each unit is rounded from the same exact length, and where two
inch figures stand for one centimeter figure, they are of two lengths.

Pages are composed with the exact length behind each figure, and read as a person reads them.
"""

import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from bindoff.document import units
from bindoff.document.build import build_document
from bindoff.document.sizetables import Figures, unit_table
from bindoff.document.tree import Cover, Document, Inlines, SizeValues, Table, plain
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import plan_pattern, told_in_size
from tests.document.patterns import for_size, inlines_of, walk

ROOT = Path(__file__).parents[1]
PATTERNS = [
    path.parent
    for folder in (ROOT / "patterns", ROOT / "tests" / "patterns")
    for path in sorted(folder.glob("*/pattern.yaml"))
    if "\nunits: both\n" in path.read_text("utf-8")
]
SAID = "each unit is rounded from the exact length"
ON_A_TAPE = 1.0  # mm: lengths nearer to each other are one to who measures them

FIGURE = r"(?:[−\d][\d,.]*)?[\d¼½¾⅛⅜⅝⅞]"
EXACT = r"(?:⟨[\d.e+-]+⟩)?"
BOTH = re.compile(
    rf"((?:{FIGURE}{EXACT}–)?{FIGURE}{EXACT}) cm / ((?:{FIGURE}{EXACT}–)?{FIGURE}{EXACT}) in\b"
)

Length = tuple[str, float | None]
"""A figure as it is printed, and the exact length in mm where the program rounded it so."""


@cache
def with_exact_lengths(pattern: Path, alone: bool) -> Document:
    """A pattern in all sizes, or in its last one ``alone``; behind each figure its exact length."""
    files = DiskFiles(str(pattern))
    plan = plan_pattern(files, SOURCE_NAME, pattern.name)
    rounded = {"cm": units.cm, "inches": units.inches}
    with pytest.MonkeyPatch.context() as patched:
        for name, figure in rounded.items():
            patched.setattr(units, name, lambda mm, figure=figure: f"{figure(mm)}⟨{mm!r}⟩")
        if alone:
            return told_in_size(plan, files, plan.source.sizes[-1])
        return build_document(plan, files)[0]


each_pattern = pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)
in_all_sizes_and_in_one = pytest.mark.parametrize("alone", [False, True], ids=["all", "one"])


def pairs(document: Document) -> Iterator[tuple[Length, Length]]:
    """The figures in centimeters and the figures in inches beside them."""
    for inlines in inlines_of(document.blocks):
        for size in range(sizes_in(inlines)):
            for cm, inches in BOTH.findall(for_size(inlines, size)):
                yield from zip(lengths(cm), lengths(inches), strict=True)
    for block in walk(document.blocks):
        if isinstance(block, Table):
            for _, *units_of_row in in_two_units(block):
                for cm, inches in zip(*units_of_row, strict=True):
                    yield from zip(lengths(cm), lengths(inches), strict=True)


def lengths(figures: str) -> Iterator[Length]:
    """A figure, or the two of a range."""
    for figure, exact in re.findall(rf"({FIGURE})(?:⟨([^⟩]+)⟩)?", figures):
        yield figure, float(exact) if exact else None


def in_two_units(table: Table) -> Iterator[tuple[str, list[str], list[str]]]:
    """The rows that stand in both units: their names, centimeters and inches."""
    rows = [[plain(cell) for cell in row.cells] for row in table.rows]
    heads = [plain(each) for each, _ in table.groups] or [plain(c.heading) for c in table.columns]
    if heads[1:] == ["cm", "in"]:
        half = len(rows[0]) // 2
        for name, *figures in rows:
            yield bare(name), figures[:half], figures[half:]
    for (name, *cm), (other, *inches) in pairwise(rows):
        if name.endswith(", cm") and other.endswith(", in"):
            yield bare(name.removesuffix(", cm")), cm, inches


def bare(name: str) -> str:
    """The name of a row without its letters in a drawing."""
    return re.sub(r" \([a-z, ]+\)$", "", name).casefold()


@in_all_sizes_and_in_one
@each_pattern
def test_both_units_are_rounded_from_one_length(pattern: Path, alone: bool) -> None:
    """Only lengths of advice, such as a tail, are whole inches as things are sold."""
    found = list(pairs(with_exact_lengths(pattern, alone)))
    reckoned = [(cm, inches) for cm, inches in found if inches[1] is not None]

    assert len(reckoned) > 5
    assert [(cm, inches) for cm, inches in reckoned if cm[1] != inches[1]] == []


@in_all_sizes_and_in_one
@each_pattern
def test_two_inch_figures_for_one_centimeter_figure_are_of_two_lengths(
    pattern: Path, alone: bool
) -> None:
    by_figures: dict[str, dict[str, list[float]]] = {}
    for (cm, mm), (inches, exact) in pairs(with_exact_lengths(pattern, alone)):
        if mm is not None and exact is not None:
            by_figures.setdefault(cm, {}).setdefault(inches, []).append(mm)

    for cm, by_inches in by_figures.items():
        shortest_first = sorted(by_inches.values())
        for shorter, longer in pairwise(shortest_first):
            assert min(longer) - max(shorter) >= ON_A_TAPE - 1e-6, f"{cm} cm: {by_inches}"


@in_all_sizes_and_in_one
@each_pattern
def test_what_the_cover_tells_is_the_length_of_the_table(pattern: Path, alone: bool) -> None:
    document = with_exact_lengths(pattern, alone)
    told, rows = dict(cover_facts(document)), dict(table_rows(document))

    assert told
    assert told.items() <= rows.items()


def cover_facts(document: Document) -> Iterator[tuple[str, frozenset[Length]]]:
    """The measures among the facts: each name with its lengths in centimeters."""
    (cover,) = [block for block in document.blocks if isinstance(block, Cover)]
    for entry in cover.facts.entries:
        name = plain(entry.term)
        found = frozenset(
            length
            for size in range(sizes_in(entry.meaning))
            for cm, _ in BOTH.findall(for_size(entry.meaning, size))
            for length in lengths(cm)
        )
        if name.startswith(("To fit ", "Finished ")):
            yield name.removeprefix("Finished ").casefold(), found


def table_rows(document: Document) -> Iterator[tuple[str, frozenset[Length]]]:
    """The rows of all tables in two units: each name with its lengths in centimeters."""
    for block in walk(document.blocks):
        if isinstance(block, Table):
            for name, cm, _ in in_two_units(block):
                yield name, frozenset(length for figure in cm for length in lengths(figure))


def sizes_in(inlines: Inlines) -> int:
    """How many sizes some words tell apart, or one."""
    many = {len(each.values) for each in inlines if isinstance(each, SizeValues)}
    return max(many, default=1)


@each_pattern
def test_a_table_in_two_units_says_that_neither_is_made_of_the_other(pattern: Path) -> None:
    """A reader who adds or converts figures finds that they do not always meet."""
    found = [
        each for each in walk(with_exact_lengths(pattern, False).blocks) if isinstance(each, Table)
    ]

    assert any(list(in_two_units(table)) for table in found)
    for table in found:
        assert (SAID in plain(table.caption)) == bool(list(in_two_units(table)))


@pytest.mark.parametrize("more", [0, 4])
@pytest.mark.parametrize(("of", "said"), [(("cm", "in"), True), (("g", "m"), False)])
def test_only_lengths_are_said_to_be_rounded_apart(
    of: tuple[str, str], said: bool, more: int
) -> None:
    sizes = ("A", "B", *map(str, range(more)))
    rest = tuple(str(number) for number in range(20, 20 + more))
    row = Figures("edge to crown", (("10.5", "10.5", *rest), ("4", "4¼", *rest)))
    table = unit_table(sizes, "Hat", "Measure", of, [row])

    assert (SAID in plain(table.caption)) == said
