"""Small patterns in memory, the documents made of them, and their words size by size."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any

import pytest
import yaml

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.document.build import build_document
from bindoff.document.chartpages import ChartPage
from bindoff.document.piecepages import piece_blocks
from bindoff.document.spokenrows import signs_in_words
from bindoff.document.tree import (
    Block,
    Callout,
    Cover,
    DefinitionList,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inlines,
    ItemList,
    Link,
    Paragraph,
    Ringed,
    SizeValues,
    Strong,
    Table,
    Text,
    plain,
)
from bindoff.document.voice import Voice, voice_of
from bindoff.files import MemoryFiles
from bindoff.plan.plan import Plan, make_plan
from bindoff.render.text import render_text
from bindoff.source.read import read_source

SLATE = {"name": "Slate", "colour": "#46566b", "weight": 4, "ball": "50 g = 100 m"}
FOAM = {"name": "Foam", "colour": "#e9eef0", "weight": 4, "ball": "50 g = 100 m"}
RUST = {"name": "Rust", "colour": "#a8482c", "weight": 4, "ball": "50 g = 100 m"}

WAVES = """\
........
..##....
.#..#..#
#....##.
"""
"""Foam (#) on slate, eight stitches by four rounds, as a person writes a grid: round 4 on top."""

Data = dict[str, Any]
Steps = list[Data]


def data(steps: Sequence[Mapping[str, Any]], count: int = 2, **changes: Any) -> Data:
    """The source of a pattern with one piece of ``steps``; ``changes`` are top-level keys.

    Its measures ``n`` and ``few`` are 40, 48, 56 … and 8, 16, 24 … stitches.
    """
    head: Data = {
        "title": "Quay Cap",
        "designer": "The Ebbstow Knitting Room",
        "version": "1.0",
        "date": "2026-11-02",
        "summary": "A plain cap with a band of waves.",
        "wearer": ["adult"],
        "gauge": {"stitches": 20, "rounds": 28, "over": "10 cm"},
        "yarns": {"slate": SLATE},
        "sizes": {chr(65 + i): {"head": f"{50 + 3 * i} cm"} for i in range(count)},
        "measures": {
            "n": [40 + 8 * i for i in range(count)],
            "few": [8 + 8 * i for i in range(count)],
        },
        "finished": {"Circumference": "width(n)"},
        "pieces": {"cap": {"title": "Cap", "steps": list(steps)}},
    }
    return head | changes


def flat(source: Data, **changes: Any) -> Data:
    """``source`` with its piece worked in rows."""
    piece = source["pieces"]["cap"] | {"worked": "flat"} | changes
    return source | {"pieces": {"cap": piece}}


TWO_YARNS: Data = {"yarns": {"slate": SLATE, "foam": FOAM}}
CHARTED: Data = TWO_YARNS | {
    "charts": {
        "waves": {
            "title": "Waves",
            "grid": "waves.grid",
            "legend": {".": "slate", "#": "foam"},
            "alt": "Low light waves on a dark ground",
        }
    }
}


def tube(
    grid: str,
    legend: Mapping[str, str],
    needles: int = 24,
    count: int = 2,
    mirror: bool = False,
    piece: Mapping[str, Any] | None = None,
    **changes: Any,
) -> tuple[Data, dict[str, str]]:
    """A folded tube with the picture ``grid``: the source and its files."""
    names = {"slate": SLATE, "foam": FOAM, "rust": RUST}
    ground = legend["."]
    cap = {
        "title": "Cap",
        "tube": {"visible": "10 cm", "brim": "3 cm", "gather": "1 cm"},
        "picture": {"chart": "boat", "start": 1, "mirror": mirror, "ground": ground},
        "steps": [{"stripes": "from plan"}, {"embroider": "from plan"}, {"gather": "all"}],
    }
    source = data(
        [],
        count,
        made={"by": "machine", "needles": needles},
        gauge={"stitches": 10, "rounds": 14, "over": "10 cm"},
        measures={},
        finished={"Circumference": "width(needles)"},
        yarns={key: names[key] for key in dict.fromkeys(legend.values())},
        charts={
            "boat": {
                "title": "Boat",
                "grid": "boat.grid",
                "legend": dict(legend),
                "alt": "A boat on the sea.",
            }
        },
        pieces={"cap": cap | dict(piece or {})},
    )
    return source | changes, {"boat.grid": grid}


def files_of(source: Data, files: Mapping[str, str | bytes] | None = None) -> MemoryFiles:
    """The pattern's folder in memory."""
    text = yaml.safe_dump(source, sort_keys=False, allow_unicode=True)
    return MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES, **(files or {})})


def plan_of(source: Data, files: Mapping[str, str | bytes] | None = None) -> Plan:
    """The plan of a source."""
    return make_plan(read_source(files_of(source, files)))


def voice(source: Data, files: Mapping[str, str | bytes] | None = None) -> Voice:
    """The voice of a source."""
    return voice_of(plan_of(source, files))


def built(
    source: Data, files: Mapping[str, str | bytes] | None = None
) -> tuple[Document, tuple[ChartPage, ...]]:
    """The document of a source and its charts."""
    folder = files_of(source, files)
    return build_document(make_plan(read_source(folder)), folder)


@cache
def example(name: str) -> tuple[Plan, Document, tuple[ChartPage, ...]]:
    """Plan, document and charts of one of ``EXAMPLES``, made once."""
    source, files = EXAMPLES[name]
    folder = files_of(source, files)
    plan = make_plan(read_source(folder))
    return plan, *build_document(plan, folder)


# ---------------------------------------------------------------- words


def step_words(
    source: Data, number: int = -1, files: Mapping[str, str | bytes] | None = None
) -> str:
    """What the document says of one step (from 0) of the only piece; tables as their cells."""
    speaker = voice(source, files)
    blocks = piece_blocks(speaker, speaker.plan.pieces[0])
    items = [item for block in blocks if isinstance(block, ItemList) for item in block.items]
    return " ".join(printed(words) for words in inlines_of(items[number].blocks))


def printed(inlines: Inlines) -> str:
    """The words as print shows them, values per size as ``a (b, c)``."""
    return "".join(_node(node, None) for node in inlines)


def for_size(inlines: Inlines, size: int) -> str:
    """The words as the reader of one size takes them."""
    return "".join(_node(node, size) for node in inlines)


def _node(node: Any, size: int | None) -> str:
    match node:
        case Text(text):
            return text
        case Strong(children) | Emphasis(children) | Link(children, _):
            return "".join(_node(each, size) for each in children)
        case SizeValues(values) if size is not None:
            return values[size]
        case SizeValues(values):
            return f"{values[0]} ({', '.join(values[1:])})"
        case Ringed():
            return plain((node,))
        case _:
            return "\n"


def walk(blocks: Iterable[Block]) -> Iterator[Block]:
    """All blocks, those inside others too, in reading order."""
    for block in blocks:
        yield block
        match block:
            case ItemList(items):
                for item in items:
                    yield from walk(item.blocks)
            case Callout(_, _, inner):
                yield from walk(inner)
            case Cover(_, _, _, facts, art):
                yield facts
                yield from [art] if art else []
            case _:
                pass


def inlines_of(blocks: Iterable[Block]) -> Iterator[Inlines]:
    """Every piece of running text: paragraphs, headings, terms, cells, captions."""
    for block in walk(blocks):
        match block:
            case Heading(_, children) | Paragraph(children):
                yield children
            case DefinitionList(entries):
                for entry in entries:
                    yield entry.term
                    yield entry.meaning
            case Table(caption, columns, rows, _, groups):
                yield caption
                yield from (column.heading for column in columns)
                yield from (words for words, _ in groups)
                yield from (cell for row in rows for cell in row.cells)
            case Figure(_, _, caption):
                yield caption
            case Callout(_, title):
                yield title
            case Cover(_, byline, lead):
                yield byline
                yield lead
            case _:
                pass


def tables(blocks: Iterable[Block], caption: str) -> list[Table]:
    """The tables whose caption holds these words."""
    return [b for b in walk(blocks) if isinstance(b, Table) and caption in printed(b.caption)]


def cells(table: Table) -> list[list[str]]:
    """The cells of a table in words."""
    return [[printed(cell) for cell in row.cells] for row in table.rows]


def section(document: Document, id: str) -> list[Block]:
    """The blocks under the heading with this id, up to the next of its level."""
    found: list[Block] = []
    inside = False
    for block in document.blocks:
        if isinstance(block, Heading) and block.level == 2:
            inside = block.id == id
        elif inside:
            found.append(block)
    return found


def said(blocks: Iterable[Block]) -> str:
    """All words of ``blocks``, a line for each piece of running text."""
    return "\n".join(printed(words) for words in inlines_of(blocks))


# ---------------------------------------------------------------- examples

BOAT = """\
............
....##......
....###.....
..o######o..
...oooooo...
............
"""

_boat, _boat_files = tube(BOAT, {".": "slate", "#": "foam", "o": "rust"}, mirror=True, count=3)

EXAMPLES: Mapping[str, tuple[Data, Mapping[str, str]]] = {
    "cap": (
        data(
            [
                {"section": "Brim"},
                {"cast on": "n"},
                {"say": "Join to work in the round."},
                {"work": "*k2, p2; repeat from * to end", "rounds": 8, "yarn": "foam"},
                {"section": "Body"},
                {"chart": "waves"},
                {"work": "k all", "rounds": [3, 4, 5], "note": "Try it on."},
                {"section": "Crown"},
                {"crown": 8, "to": 8},
                {"gather": "all"},
            ],
            3,
            **CHARTED,
        ),
        {},
    ),
    "tube": (_boat, _boat_files),
    "flap": (
        flat(
            data(
                [
                    {"cast on": "n"},
                    {"work": ["*k1, yo, k2tog, k1; repeat from * to end", "p all"], "times": 2},
                    {
                        "taper": "k1, k2tog, k to last 3, ssk, k1",
                        "to": "few",
                        "over": "n",
                        "every": 2,
                        "plain": ["k all", "p all"],
                    },
                    {"bind off": "all", "how": "loosely"},
                    {"edging": "sc in each stitch", "along": "width(n)", "yarn": "foam"},
                ],
                6,
                terms="UK",
                **TWO_YARNS,
            )
        ),
        {},
    ),
    "mitten": (
        data(
            [
                {"cast on": "n"},
                {"work": "k4, pm, m1l, pm, k to end", "rounds": 1},
                {
                    "work": "k to marker, remove marker, hold 1 stitch, remove marker, k to end",
                    "rounds": 1,
                },
                {"even": "decrease", "to": "n - 4"},
                {"bind off": "all"},
                {"held": 1, "pick up": 3},
                {"work": "k all", "rounds": [1, 5]},
                {"gather": "all"},
            ]
        ),
        {},
    ),
}


def text_of(source: Data, files: Mapping[str, str | bytes]) -> tuple[str, Plan]:
    """The text edition, its signs in words, and the plan of it."""
    made = files_of(source, files)
    plan = make_plan(read_source(made))
    return render_text(build_document(plan, made)[0], 0, signs_in_words), plan


def fault(source: Data, files: Mapping[str, str | bytes]) -> Diagnostic:
    """The first thing that keeps the pattern from being planned."""
    with pytest.raises(PatternError) as caught:
        plan_of(source, files)
    return caught.value.findings[0]
