"""What the checks can tell of a pattern whose plan fails: they read as far as it has come."""

from collections.abc import Iterable, Iterator
from contextlib import suppress

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.causes import causes_first
from bindoff.checks.context import Context, context_of
from bindoff.checks.engine import Needs, found_by
from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.document.build import build_document
from bindoff.document.drawn import USUALLY
from bindoff.document.tree import Document
from bindoff.files import Files
from bindoff.plan.measures import Measures, measure_pattern
from bindoff.plan.plan import LEFTOVERS, Plan, make_plan
from bindoff.plan.sizing import sizings
from bindoff.records import replace
from bindoff.source.bundle import Source
from bindoff.source.rowlang.stitches import standard_book


def with_causes(
    source: Source, files: Files, failed: tuple[Diagnostic, ...]
) -> tuple[Diagnostic, ...]:
    """What the checks find, and why the plan of a source ``failed``, causes before followers.

    Where something is left over at the end alone, all checks read the pattern; else those that
    read no further than it has come.
    """
    if {each.id for each in failed} <= LEFTOVERS:
        with suppress(PatternError):  # something else fails when they are let be
            return causes_first(_despite_leftovers(source, files), source, failed)
    return causes_first(tuple(_early(source, files)), source, failed)


def _despite_leftovers(source: Source, files: Files) -> tuple[Diagnostic, ...]:
    """What all checks find in a pattern that has leftovers; raises ``PatternError``."""
    plan = make_plan(source, leftovers=True)
    document, charts = build_document(plan, files, drawn=replace(USUALLY, painted=False))
    return _heard(found_by(CHECKS, context_of(plan, document, charts, files)))


def _heard(found: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Without notes, which wait: they matter to a pattern that can be worked."""
    return tuple(one for one in found if one.severity is not Severity.NOTE)


def _early(source: Source, files: Files) -> Iterator[Diagnostic]:
    reached, measures = _measured(source)
    try:
        context = _context(source, measures, files)
    except PatternError:  # a template that can't be read is told once the plan holds
        return
    for each in CHECKS:
        if each.needs <= reached:
            try:
                yield from _heard(found_by((each,), context))
            except PatternError:  # a figure that can't be read is among what failed
                continue


def _measured(source: Source) -> tuple[Needs, Measures]:
    """How far the figures of a source can be had, and these."""
    try:
        return Needs.MEASURES, measure_pattern(source)
    except PatternError:
        pass
    try:
        return Needs.SIZES, Measures(source, sizings(source), {}, {})
    except PatternError:
        return Needs.SOURCE, Measures(source, (), {}, {})


def _context(source: Source, measures: Measures, files: Files) -> Context:
    """Without pieces, yarn and document, which no early check asks for."""
    plan = Plan(source, measures, standard_book(), (), ())
    nothing = Document("", "", "", "", "", "", source.sizes, ())
    return context_of(plan, nothing, (), files)
