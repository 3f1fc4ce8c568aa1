"""The demo patterns, each as it is and in some of its editions, by turns, as ``bindoff build``
writes them: every kind of edition is there of some demos.

Each is built once however many tests ask for it. An edition is named by what it adds to the name of
its files: ``letter``, ``card``, ``Child-S``; the pattern itself is ``a4``.
"""

import pickle
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from pathlib import Path

from filelock import FileLock

from bindoff.document.build import build_document
from bindoff.document.machinecard import has_card
from bindoff.document.tree import (
    Beside,
    Definition,
    Document,
    Figure,
    Heading,
    Paragraph,
    SizeValues,
    plain,
)
from bindoff.editions import Edition, TextOptions, Wanted, editions
from bindoff.files import SOURCE_NAME, DiskFiles, Files
from bindoff.pipeline import Whole, build_pattern, drawn_for, edition_documents, plan_pattern
from bindoff.plan.plan import Plan
from bindoff.render.pdf import PdfOptions
from bindoff.render.text import render_text
from tests.accessibility.spoken import tokens

PATTERNS = Path(__file__).parents[2] / "patterns"
DEMOS = tuple(sorted(source.parent.name for source in PATTERNS.glob(f"*/{SOURCE_NAME}")))


def wanted(number: int, sizes: tuple[str, ...]) -> Wanted:
    """What is built of the pattern with that number: its card, and two more editions by turns."""
    type_or_ink = ("large print", "print saver")[number % 2]
    paper = ("letter", "grey", "single sizes")[number // 3 % 3]  # cards are of those sizes alone
    alone = (sizes[-(number % 2)],) if paper == "single sizes" else ()
    return Wanted(sizes=alone, chosen=("card", type_or_ink, paper))


PLAIN = TextOptions(explained=False)
"""Texts that say what the pages say, and no explanation of abbreviations between."""


@dataclass(frozen=True, slots=True)
class Made:
    """An edition with its document as it is printed, and as a text edition tells it."""

    edition: Edition
    printed: Document
    told: Document


def files(demo: str) -> DiskFiles:
    """The folder of a demo."""
    return DiskFiles(str(PATTERNS / demo))


@cache
def _plan(demo: str) -> Plan:
    return plan_pattern(files(demo), SOURCE_NAME, demo)


@cache
def made(demo: str) -> Mapping[str, Made]:
    """The editions of a demo by their names."""
    return editions_of(_plan(demo), files(demo), _wanted(demo))


def _wanted(demo: str) -> Wanted:
    return wanted(DEMOS.index(demo), _plan(demo).source.sizes)


def editions_of(plan: Plan, files: Files, wanted: Wanted) -> Mapping[str, Made]:
    """The editions of a pattern that are wanted, by their names."""
    whole = Whole(plan.source, plan, build_document(plan, files, drawn=drawn_for("calm"))[0])
    return {
        name_of(edition): Made(edition, printed, told)
        for edition, printed, told in edition_documents(whole, files, wanted, PdfOptions())
    }


_shared: list[Path] = []


def share(folder: Path) -> None:
    """Outputs that another process of the same run has built are taken from ``folder``."""
    _shared[:] = [folder]


@cache
def _outputs(demo: str) -> Mapping[str, bytes]:
    if not _shared:
        return _built(demo)
    kept = _shared[0] / f"{demo}.outputs"
    with FileLock(f"{kept}.lock"):
        if not kept.exists():
            kept.write_bytes(pickle.dumps(_built(demo)))
    found: Mapping[str, bytes] = pickle.loads(kept.read_bytes())
    return found


def _built(demo: str) -> Mapping[str, bytes]:
    return build_pattern(files(demo), SOURCE_NAME, demo, wanted=_wanted(demo), text=PLAIN).files


def name_of(edition: Edition) -> str:
    """What tests call an edition."""
    return edition.suffix.removeprefix("-") or "a4"


def _editions() -> Iterator[tuple[str, str]]:
    for demo in DEMOS:
        plan = _plan(demo)
        for edition in editions(_wanted(demo), PdfOptions(), plan.source.sizes, has_card(plan)):
            yield demo, name_of(edition)


EDITIONS = tuple(_editions())
PATTERN_EDITIONS = tuple((demo, name) for demo, name in EDITIONS if name != "card")
"""All but cards, which have no tables, pictures and steps."""


def document(demo: str, edition: str = "a4") -> Document:
    """The neutral document that an edition prints."""
    return made(demo)[edition].printed


def pdf(demo: str, edition: str = "a4") -> bytes:
    """The bytes of an edition."""
    return _outputs(demo)[f"{demo}{made(demo)[edition].edition.suffix}.pdf"]


@cache
def text(demo: str, edition: str = "a4") -> str:
    """The text edition: the one that is written, or where there is none, what it would be."""
    one = made(demo)[edition]
    if one.edition.text:
        return _outputs(demo)[f"{demo}{one.edition.suffix}.txt"].decode()
    return render_text(one.printed)


def has_pictures(node: object) -> bool:
    """Whether anything under ``node`` is drawn or photographed and told in words."""
    if isinstance(node, Figure) and node.alt:
        return True
    if isinstance(node, tuple):
        return any(map(has_pictures, node))
    return is_dataclass(node) and any(has_pictures(getattr(node, f.name)) for f in fields(node))


def figures(node: object) -> frozenset[tuple[str, ...]]:
    """The lists of figures under ``node`` that differ from size to size, in the sizes' order."""
    return frozenset(values for values in _figures(node) if len(set(values)) > 1)


def print_only(node: object) -> frozenset[Sequence[str]]:
    """The tokens of each block and entry under ``node`` that only who sees the page is told."""
    return frozenset(_print_only(node))


def _print_only(node: object) -> Iterator[Sequence[str]]:
    match node:
        case (
            Heading(children=children, print_only=True)
            | Paragraph(children=children, print_only=True)
        ):
            yield tokens(plain(children))
        case Definition(term=term, meaning=meaning, print_only=True):
            yield (*tokens(plain(term)), *tokens(plain(meaning)))
        case Beside(figure=Figure(alt=alt, caption=caption)):  # its table says the same
            yield tokens(alt)
            yield tokens(plain(caption))
        case tuple():
            for one in node:
                yield from _print_only(one)
        case _ if is_dataclass(node):
            for part in fields(node):
                yield from _print_only(getattr(node, part.name))


def _figures(node: object) -> Iterator[tuple[str, ...]]:
    if isinstance(node, SizeValues):
        yield node.values
    elif isinstance(node, tuple):
        for one in node:
            yield from _figures(one)
    elif is_dataclass(node):
        for part in fields(node):
            yield from _figures(getattr(node, part.name))
