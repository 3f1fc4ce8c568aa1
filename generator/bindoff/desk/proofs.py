"""What is open, built and never written: pages, findings and the text edition.

It runs the stages as a build does, over the open texts. Pages come first, because they are what a
writer waits for; the checks and the text follow from the same plan.
"""

import hashlib
from collections.abc import Iterator
from functools import cache, lru_cache
from typing import Any

from bindoff import regex as re
from bindoff.checks.engine import SILENCED
from bindoff.desk.gauges import gauge_data
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.document.build import abbreviation_names, build_document
from bindoff.document.chartpages import ChartPage
from bindoff.document.expansion import expanded
from bindoff.document.spokenrows import signs_in_words
from bindoff.document.tree import Document, Origin
from bindoff.editions import Edition
from bindoff.files import Files, MemoryFiles
from bindoff.pipeline import Whole, drawn_for, edition_document, size_plan
from bindoff.plan.plan import Plan
from bindoff.plan.replan import replan
from bindoff.printable import unprintable
from bindoff.records import Record
from bindoff.render.pdf import PdfOptions
from bindoff.render.pdf.screen import Screen, draw_pages
from bindoff.render.pdf.svgwriter import photo_file
from bindoff.render.pdf.tagging import Photo
from bindoff.report import to_json
from bindoff.source.bundle import Source
from bindoff.source.read import read_source
from bindoff.source.statedgauge import StatedGauge

_SECTION = re.compile(r"Section ([\d.]+): (.*)")


class Look(Record):
    """Which edition is looked at; all sizes, or one; at other gauges than the source has."""

    pdf: PdfOptions = PdfOptions()
    size: str = ""
    gauges: tuple[StatedGauge, ...] = ()


class Picture(Record):
    """A file that a page shows: its media type and its bytes."""

    kind: str
    data: bytes


class Proof(Record, eq=False):
    """A pattern as it was built. ``name`` is that of its source, ``look`` how it is looked at;
    ``pages`` and ``photos`` are by their digests, ``order`` names the pages in theirs; ``regauged``
    is what was found at another gauge."""

    files: Files
    name: str
    look: Look
    source: Source
    plan: Plan
    document: Document
    charts: tuple[ChartPage, ...]
    told: Document
    screen: Screen
    order: tuple[str, ...]
    pages: dict[str, str]
    photos: dict[str, Picture]
    regauged: tuple[Diagnostic, ...] = ()


def make_proof(files: Files, source_name: str, called: str, look: Look) -> Proof:
    """Read, plan, set and draw a pattern; raises ``PatternError`` where a stage can't go on."""
    source = read_source(files, source_name, called)
    try:
        plan, regauged = replan(source, look.gauges)
    except PatternError as error:
        if look.gauges:
            raise
        from bindoff.checks.early import with_causes

        raise PatternError(with_causes(source, files, error.findings)) from None
    document, charts = build_document(plan, files, drawn=drawn_for("calm"))
    whole = Whole(source, plan, document, look.gauges)
    size = look.size if look.size in source.sizes else ""
    edition = Edition("", look.pdf, size)
    own = size_plan(whole, edition) if size else plan
    printed, told = edition_document(whole, files, edition, own)
    photos: dict[str, Picture] = {}

    def address(photo: Photo) -> str:
        kind, data = photo_file(photo)
        digest = _digest(data)
        photos[digest] = Picture(kind, data)
        return f"photo/{digest}"

    screen = draw_pages(printed, look.pdf, address)
    order = tuple(_digest(page.encode()) for page in screen.pages)
    pages = dict(zip(order, screen.pages, strict=True))
    return Proof(
        files,
        source_name,
        look,
        source,
        plan,
        document,
        charts,
        told,
        screen,
        order,
        pages,
        photos,
        regauged,
    )


@lru_cache(maxsize=2)
def found_in(proof: Proof) -> tuple[Diagnostic, ...]:
    """What the checks find in it, errors among them."""
    from bindoff.checks.allchecks import findings

    return (
        *proof.regauged,
        *findings(proof.plan, proof.document, proof.charts, proof.files),
        *unprintable(proof.source, proof.document, proof.files),
    )


@cache
def silenceable() -> frozenset[str]:
    """The ids of the checks that a pattern may silence with a reason."""
    from bindoff.checks.allchecks import CHECKS

    return frozenset(check.id for check in CHECKS)


@lru_cache(maxsize=2)
def text_sections(proof: Proof) -> tuple[dict[str, Any], ...]:
    """The text edition in sections: a number (empty before the first), a heading, its lines, and
    for each of these the file, line and column that it comes from, or nothing."""
    return tuple(_sections(proof))


def _sections(proof: Proof) -> Iterator[dict[str, Any]]:
    from bindoff.render.text import told_lines

    number, title, lines, sources = "", "", list[str](), list[list[str | int] | None]()
    before, prefix = "", proof.files.display("")
    explained = expanded(proof.told, abbreviation_names(proof.plan))
    for line, origin in told_lines(explained, signs_in_words):
        # The lines of the contents are like headings, and have no empty line before them.
        if not before and (match := _SECTION.fullmatch(line)):
            yield {"number": number, "title": title, "lines": lines, "sources": sources}
            number, title, lines, sources = match[1], match[2], [], []
        elif line:
            lines.append(line)
            sources.append(_place(origin, prefix))
        before = line
    yield {"number": number, "title": title, "lines": lines, "sources": sources}


def _place(origin: Origin | None, prefix: str) -> list[str | int] | None:
    """File, line and column of what stands in one of the pattern's own files."""
    if origin is None or not _own(origin.span.file, prefix):
        return None
    return [origin.span.file.removeprefix(prefix), origin.span.line, origin.span.column]


def page_data(proof: Proof) -> dict[str, Any]:
    """What a page needs to show a proof: digests, sizes of paper, and regions of its files."""
    prefix = proof.files.display("")
    return {
        "title": proof.source.pattern.title,
        "of version": proof.source.pattern.version,
        "sizes": list(proof.source.sizes),
        "gauges": gauge_data(proof.source),
        "pages": [
            {"digest": digest, "width": width, "height": height}
            for digest, (width, height) in zip(proof.order, proof.screen.sizes, strict=True)
        ],
        "regions": [
            {
                "page": each.page,
                "box": [round(side, 1) for side in (each.left, each.top, each.right, each.bottom)],
                "file": each.span.file.removeprefix(prefix),
                "from": [each.span.line, each.span.column],
                "to": [each.span.end_line, each.span.end_column],
            }
            for each in proof.screen.regions
            if _own(each.span.file, prefix)
        ],
    }


def finding_data(
    findings: tuple[Diagnostic, ...], files: Files, checks: frozenset[str] = frozenset()
) -> list[dict[str, Any]]:
    """Findings as plain data, their files as the folder names them; those of ``checks`` may be
    silenced with a reason."""
    prefix = files.display("")

    def local(record: dict[str, Any]) -> dict[str, Any]:
        file = record["file"]
        own = file is not None and _own(file, prefix)
        return {
            **record,
            "file": file.removeprefix(prefix) if own else None,
            "can be silenced": record["id"] in checks
            and not record["message"].startswith(SILENCED),
            "follows": [local(each) for each in record["follows"]],
            "beside": [
                {**each, "file": each["file"].removeprefix(prefix)}
                for each in record["beside"]
                if _own(each["file"], prefix)
            ],
        }

    return [local(record) for record in to_json(findings)]


def _own(file: str, prefix: str) -> bool:
    """Whether a file is one of the pattern's folder, and no template of the program."""
    return file.startswith(prefix) and not file.startswith("packaged ")


@cache
def warm_up() -> None:
    """Load all that a proof needs by making one of the pattern that beginners get; once."""
    from bindoff.commands.new import SOURCE, STARTERS, texts

    proof = make_proof(MemoryFiles(texts("start", next(iter(STARTERS)))), SOURCE, "start", Look())
    found_in(proof)
    text_sections(proof)


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:32]
