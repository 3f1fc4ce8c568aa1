"""The program's table of contents: source, plan, document, renders."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING, TypeVar

from bindoff.diagnostics import Diagnostic, PatternError, Severity, fail
from bindoff.document.build import abbreviation_names, build_document
from bindoff.document.chartpages import ChartPage
from bindoff.document.drawn import Drawn
from bindoff.document.machinecard import card_document, has_card
from bindoff.document.numbers import figures
from bindoff.document.phrases import of_size
from bindoff.document.tree import Blocks, Document
from bindoff.document.voice import foreign
from bindoff.editions import (
    PATTERN_ALONE,
    PLAIN_TEXT,
    Edition,
    TextOptions,
    Wanted,
    editions,
)
from bindoff.files import Files
from bindoff.plan.plan import Plan, crown_starts, make_plan
from bindoff.plan.replan import replan
from bindoff.printable import unprintable
from bindoff.records import Record, replace
from bindoff.source.bundle import Source
from bindoff.source.onesize import one_size
from bindoff.source.read import read_source
from bindoff.source.regauge import regauge
from bindoff.source.statedgauge import StatedGauge

if TYPE_CHECKING:
    from bindoff.checks.queries.listed import Queries
    from bindoff.render.pdf import Paper, PdfOptions, ThemeName


T = TypeVar("T")

Made = Callable[[float], object]
"""Is told the share of a build that has been made, from 0 to 1."""


class Outputs(Record):
    """What one pattern builds: relative path to bytes; and the warnings and notes about it."""

    files: Mapping[str, bytes]
    findings: tuple[Diagnostic, ...] = ()


@cache
def drawn_for(theme: "ThemeName", paper: "Paper" = "a4") -> Drawn:
    """How drawings are made for pages of that look and paper."""
    from bindoff.render.pdf.theme import drawings

    return Drawn(**drawings(theme, paper))


def plan_pattern(files: Files, source_name: str, called: str) -> Plan:
    """Source and plan of a pattern; raises ``PatternError``."""
    return make_plan(read_source(files, source_name, called))


def check_pattern(files: Files, source_name: str, called: str) -> tuple[Diagnostic, ...]:
    """What the checks find in a pattern; raises ``PatternError`` where a stage can't go on."""
    from bindoff.checks.allchecks import findings

    plan, document, charts = _unpainted(files, source_name, called)
    return (*findings(plan, document, charts, files), *unprintable(plan.source, document, files))


def check_and_ask(
    files: Files, source_name: str, called: str
) -> "tuple[tuple[Diagnostic, ...], Queries]":
    """What the checks find, and what an editor would ask; raises ``PatternError``."""
    from bindoff.checks.allchecks import findings
    from bindoff.checks.context import context_of
    from bindoff.checks.queries.listed import queries_of

    plan, document, charts = _unpainted(files, source_name, called)
    found = findings(plan, document, charts, files)
    queries = queries_of(context_of(plan, document, charts, files))
    return (*found, *unprintable(plan.source, document, files)), queries


def _unpainted(
    files: Files, source_name: str, called: str
) -> tuple[Plan, Document, tuple[ChartPage, ...]]:
    """A pattern up to its document, whose drawings are not made; raises ``PatternError``."""
    source = read_source(files, source_name, called)
    try:
        plan = make_plan(source)
    except PatternError as error:
        raise _explained(source, files, error) from None
    drawn = replace(drawn_for("calm"), painted=False)
    document, charts = build_document(plan, files, drawn=drawn)
    return plan, document, charts


def build_pattern(
    files: Files,
    source_name: str,
    called: str,
    options: "PdfOptions | None" = None,
    gauges: Sequence[StatedGauge] = (),
    earlier: Plan | None = None,
    wanted: Wanted = PATTERN_ALONE,
    text: TextOptions = PLAIN_TEXT,
    copy_for: str = "",
    made: Made = lambda share: None,
) -> Outputs:
    """All outputs of a pattern; raises ``PatternError``, also when a check finds an error.

    ``gauges`` stand in for those of the source. The document tells what differs from ``earlier``.
    Editions that are ``wanted`` come beside the pattern itself; the checks read the pattern alone.
    All text editions are written as ``text`` says. ``copy_for`` names the one reader whose copy
    it is, in every edition. ``made`` is told how much has been made.
    """
    from bindoff.checks.allchecks import findings

    source = read_source(files, source_name, called)
    try:
        plan, regauged = replan(source, gauges)
    except PatternError as error:
        raise (error if gauges else _explained(source, files, error)) from None
    changes = _changes(earlier, plan)
    document, charts = build_document(plan, files, changes, drawn_for("calm"))
    checked = findings(plan, document, charts, files)
    found = (*regauged, *checked, *unprintable(source, document, files))
    if any(finding.severity is Severity.ERROR for finding in found):
        raise PatternError(found)

    if wanted.card and not wanted.every and not has_card(plan):
        raise _no_card(source)

    # What writes loads late: a pattern with errors never needs it.
    from bindoff.render.pdf import PdfOptions
    from bindoff.writers import WRITERS, Publication

    whole = Whole(source, plan, document, gauges, changes)
    printed = options or PdfOptions()
    steps = 2 * len(editions(wanted, printed, source.sizes, has_card(plan)))  # set, then printed
    documents = edition_documents(whole, files, wanted, printed)
    publication = Publication(
        called,
        tuple(
            (edition, replace(paper, copy_for=copy_for), replace(told, copy_for=copy_for))
            for edition, paper, told in _counting(documents, lambda _: True, made, 0, steps)
        ),
        charts,
        foreign(source.pattern.language) or document.language,
        figures(plan),
        abbreviation_names(plan) if text.explained else {},
        text,
        wanted.all_forms,
        _size_cards(plan) if "html" in wanted.all_forms else (),
        _test_sheets(plan, document) if "test sheets" in wanted.all_forms else None,
    )
    written = (file for write in WRITERS for file in write(publication))
    return Outputs(dict(_counting(written, _is_pdf, made, steps // 2, steps)), found)


def _changes(earlier: Plan | None, plan: Plan) -> Blocks:
    """What the document tells of the differences from an earlier version, if there is one."""
    if earlier is None:
        return ()
    from bindoff.document.differencewords.sections import change_section  # and a dozen modules

    return change_section(earlier, plan)


def _is_pdf(file: tuple[str, bytes]) -> bool:
    return file[0].endswith(".pdf")


def _counting(
    each: Iterable[T], counts: Callable[[T], bool], made: Made, done: int, steps: int
) -> Iterator[T]:
    """Gives each on, and tells ``made`` the share of all steps that is done."""
    for one in each:
        done += counts(one)
        made(min(done / steps, 1.0))
        yield one


def _test_sheets(plan: Plan, document: Document) -> Document:
    from bindoff.document.testsheets import test_sheets

    return test_sheets(plan, document)


def _size_cards(plan: Plan) -> tuple[Document, ...]:
    """A card for the machine for each size, where a piece is made on it."""
    if not has_card(plan):
        return ()
    return tuple(card_document(plan, (size,)) for size in plan.source.sizes)


def _explained(source: Source, files: Files, error: PatternError) -> PatternError:
    """Why planning failed, with what the checks of the source say of it."""
    from bindoff.checks.early import with_causes

    return PatternError(with_causes(source, files, error.findings))


class Whole(Record):
    """A pattern in all its sizes: its source as read, the plan with ``gauges``, the document."""

    source: Source
    plan: Plan
    document: Document
    gauges: Sequence[StatedGauge] = ()
    changes: Blocks = ()


def edition_documents(
    whole: Whole, files: Files, wanted: Wanted, options: "PdfOptions"
) -> Iterator[tuple[Edition, Document, Document]]:
    """Each edition of a pattern, its document as it is printed, and as it is told in plain text.

    Raises ``PatternError``.
    """
    source, plan = whole.source, whole.plan
    asked = editions(wanted, options, source.sizes, has_card(plan))
    carded = () if wanted.every else wanted.sizes
    # Whether there is each size that is asked for shows before the first edition is made.
    plans = [size_plan(whole, edition) if edition.size else plan for edition in asked]
    for edition, its_plan in zip(asked, plans, strict=True):
        printed, told = edition_document(whole, files, edition, its_plan, carded)
        yield edition, printed, told


def edition_document(
    whole: Whole, files: Files, edition: Edition, its_plan: Plan, sizes: tuple[str, ...] = ()
) -> tuple[Document, Document]:
    """The document of an edition as it is printed, and as it is told in plain text.

    ``its_plan`` is that of its size, or of all; ``sizes`` are those on a card, none for all.
    """
    told = whole.document
    if edition.size:
        told, _ = build_document(its_plan, files, whole.changes, drawn_for("calm"))
    if edition.what == "card":
        return card_document(whole.plan, sizes), card_document(whole.plan, sizes, boxes=False)
    if edition.pdf.theme == "calm":
        return told, told
    drawn = drawn_for(edition.pdf.theme, edition.pdf.paper)
    printed, _ = build_document(its_plan, files, whole.changes, drawn)
    return printed, told


def told_in_size(plan: Plan, files: Files, size: str = "") -> Document:
    """The pattern as its text edition tells it, in all sizes or in one.

    Raises ``PatternError``, also where there is no such size.
    """
    if size:
        document, _ = build_document(plan, files, drawn=drawn_for("calm"))
        whole = Whole(plan.source, plan, document)
        from bindoff.render.pdf import PdfOptions

        _, edition = editions(Wanted(sizes=(size,)), PdfOptions(), plan.source.sizes, False)
        plan = size_plan(whole, edition)
    document, _ = build_document(plan, files, drawn=drawn_for("calm"))
    return document


def size_plan(whole: Whole, edition: Edition) -> Plan:
    """The plan of an edition of one size; gauges stated for other sizes are left out."""
    source, size = whole.source, edition.size
    others = set(source.sizes) - {size}
    elsewhere = others - set(source.pattern.gauges)
    narrowed = one_size(source, size, crown_starts(whole.plan))
    title = of_size(source.pattern.title, size) if others else source.pattern.title
    narrowed = replace(
        narrowed,
        name=f"{source.name}{edition.words}",
        pattern=narrowed.pattern.with_values({"title": title}),
    )
    own, _ = regauge(narrowed, [each for each in whole.gauges if each.of not in elsewhere])
    return make_plan(own, leftovers=True)


def _no_card(source: Source) -> PatternError:
    return fail(
        "command.no-card",
        "there is no tube knitted by a stripe plan, and a card for the machine shows nothing else",
        "Leave `--card` out for this pattern",
        source.pattern.place.of("pieces").key_span,
    )
