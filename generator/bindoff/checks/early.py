"""What the checks can tell of a pattern whose plan fails: they read as far as it has come."""

from collections.abc import Iterator

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.causes import causes_first
from bindoff.checks.context import Context, context_of
from bindoff.checks.engine import Needs, found_by
from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.document.tree import Document
from bindoff.files import Files
from bindoff.plan.measures import Measures, measure_pattern
from bindoff.plan.plan import Plan
from bindoff.plan.sizing import sizings
from bindoff.source.bundle import Source
from bindoff.source.rowlang.stitches import standard_book


def with_causes(
    source: Source, files: Files, failed: tuple[Diagnostic, ...]
) -> tuple[Diagnostic, ...]:
    """What the checks of the source find, and why its plan ``failed``, causes before followers."""
    return causes_first(tuple(_early(source, files)), source, failed)


def _early(source: Source, files: Files) -> Iterator[Diagnostic]:
    reached, measures = _measured(source)
    try:
        context = _context(source, measures, files)
    except PatternError:  # a template that can't be read is told once the plan holds
        return
    for each in CHECKS:
        if each.needs <= reached:
            try:
                # Notes wait: they matter to a pattern that can be worked.
                found = found_by((each,), context)
                yield from (one for one in found if one.severity is not Severity.NOTE)
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
