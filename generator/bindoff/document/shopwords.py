"""What a shop asks of a pattern in words: the text of its listing, and what is new in a version."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff import regex as re
from bindoff.document.back import TECHNIQUE
from bindoff.document.tree import (
    Block,
    Column,
    Cover,
    DefinitionList,
    Document,
    Figure,
    Heading,
    Inlines,
    ItemList,
    Paragraph,
    Table,
    in_print,
    plain,
)
from bindoff.document.voice import Voice, voice_of
from bindoff.english import ended, listed
from bindoff.plan.plan import Plan

_CHAPTERS = (("sizes", "Sizes and measurements"), ("materials", "Materials"), ("gauge", "Gauge"))
"""Chapters of the pattern that a buyer asks for first, and what a listing calls them."""

_LETTER = re.compile(r" \([a-z]\)(?=[,:]|$)")
_WITH = {
    "large print": "a large-print PDF (18 pt and more)",
    "print saver": "a PDF for few sheets and little ink",
    "grey": "a PDF without {color}",
    "letter": "the PDF on US Letter paper",
    "single sizes": "a PDF of each size alone",
    "card": "a card for the machine, to tick off",
    "html": "a page for phone and tablet that works without a network",
    "epub": "an EPUB for readers of books",
}


def listing_text(plan: Plan, document: Document, editions: Sequence[str]) -> str:
    """The text of a listing: what it is, sizes, materials, gauge, skills, editions, keywords.

    ``editions`` are the names of those beside the pattern itself. Figures are in the order of
    sizes, as patterns print them.
    """
    voice = voice_of(plan)
    pattern = plan.source.pattern
    chapters = _chapters(document)
    parts: list[tuple[str, list[str]]] = [
        ("", [pattern.title, "", pattern.summary]),
        ("At a glance", list(_glance(document))),
        *((name, list(_brief(chapters.get(id, ()), voice.sizes))) for id, name in _CHAPTERS),
        ("Skills", list(_skills(pattern.skill, document.blocks))),
        ("What you get", list(_got(editions, voice))),
        ("Accessibility", list(_accessible(editions, voice))),
        ("Keywords", [", ".join(document.keywords)]),
        ("", [ended(f"Version {pattern.version}, {pattern.date}. {document.rights}")]),
    ]
    told = (
        "\n".join([*([title.upper()] if title else []), *lines]) for title, lines in parts if lines
    )
    return "\n\n".join(told) + "\n"


def changes_text(plan: Plan, since: Iterable[Block] = ()) -> str:
    """What readers of earlier versions should know; empty where there is nothing to say.

    ``since`` tells what differs from a version at hand.
    """
    pattern = plan.source.pattern
    lines = [f"{each.version}, {each.date}: {ended(each.note)}" for each in pattern.changes]
    more = list(_brief(since, plan.source.sizes))
    if not lines and not more:
        return ""
    head = f"What is new in {pattern.title}"
    return "\n".join([head, "", *lines, *([""] if lines and more else []), *more]) + "\n"


def _chapters(document: Document) -> dict[str, list[Block]]:
    found: dict[str, list[Block]] = {}
    here: list[Block] = []
    for block in document.blocks:
        if isinstance(block, Heading) and block.level == 2:
            here = found.setdefault(block.id, [])
        else:
            here.append(block)
    return found


def _glance(document: Document) -> Iterator[str]:
    cover = next((block for block in document.blocks if isinstance(block, Cover)), None)
    if cover is not None:
        yield from _brief((cover.facts,), document.sizes)


def _brief(blocks: Iterable[Block], sizes: Sequence[str]) -> Iterator[str]:
    """Blocks as lines; drawings are left out, a row of a table is a line."""
    for block in blocks:
        match block:
            case Heading(_, children):
                yield f"{plain(children)}:"
            case Paragraph(children):
                yield plain(children)
            case ItemList(items):
                for item in items:
                    yield from (f"- {line}" for line in _brief(item.blocks, sizes))
            case DefinitionList(entries):
                for entry in entries:
                    term = plain(entry.term).rstrip(":")
                    yield f"- {term}: {plain(entry.meaning)}" if entry.meaning else f"- {term}"
            case Table():
                yield f"{plain(block.caption)}:"
                yield from (f"- {line}" for line in _rows(block))
            case Figure():
                pass
            case _:
                raise TypeError(f"no chapter of a listing holds a {type(block).__name__}")


def _rows(table: Table) -> Iterator[str]:
    """Each row of a table: its name, and for every heading over sizes their figures in order."""
    over: list[Inlines] = [head for head, count in table.groups for _ in range(count)]
    groups = over or [()] * len(table.columns)
    for row in table.rows:
        name = " ".join(plain(cell) for cell in row.cells[: table.header_columns])
        figures: dict[str, list[str]] = {}
        for column, group, cell in list(zip(table.columns, groups, row.cells, strict=True))[
            table.header_columns :
        ]:
            figures.setdefault(_unit(column, group), []).append(plain(cell))
        told = (f"{in_print(tuple(each))} {unit}".strip() for unit, each in figures.items())
        yield _LETTER.sub("", f"{name}: {' / '.join(told)}")


def _unit(column: Column, group: Inlines) -> str:
    return plain(group) if column.size is not None else plain(column.heading)


def _skills(skill: str, blocks: Iterable[Block]) -> Iterator[str]:
    if skill:
        yield ended(skill)
    titles = [
        plain(each.children)
        for each in blocks
        if isinstance(each, Heading) and each.id.startswith(TECHNIQUE)
    ]
    if titles:
        yield ended(f"Explained in the pattern: {', '.join(titles)}")


def _got(editions: Sequence[str], voice: Voice) -> Iterator[str]:
    yield "- the pattern as a PDF on A4 paper, and every chart as a drawing (SVG)"
    yield "- the same as plain text"
    said = (
        words.format(color=voice.term["color"]) for name, words in _WITH.items() if name in editions
    )
    yield from (f"- {words}" for words in said)


def _accessible(editions: Sequence[str], voice: Voice) -> Iterator[str]:
    """What holds of every pattern that this program builds, and of the editions that are there."""
    yield (
        "The PDF is tagged for screen readers (PDF/UA-1), with headings, tables, links and words "
        "for every picture. The plain text says all that the pages say, for screen readers and "
        f"braille displays. Every chart that is worked from is written out {_row(voice)} by "
        f"{_row(voice)}, and symbols repeat what {voice.term['colors']} show."
    )
    more = [name for name in ("large print", "html", "epub") if name in editions]
    if more:
        yield ended(f"There is also {listed(_WITH[name] for name in more)}")


def _row(voice: Voice) -> str:
    flat = any(piece.worked == "flat" for piece in voice.plan.source.pattern.pieces.values())
    return "row" if flat else "round"
