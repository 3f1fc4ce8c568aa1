"""Names that are declared and then not used."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import steps_of
from bindoff.diagnostics import Severity
from bindoff.source.chart import CellMeaning
from bindoff.source.rowlang.uses import abbreviations_used, numbers_used
from bindoff.source.texts import amounts

_NAME = re.compile(r"[A-Za-z_]\w*")
_BRACES = re.compile(r"\{\{[^{}]*?\}\}|\{%[^{}]*?%\}")


@check(
    id="measure.unused",
    title="Every measure is used",
    looks_at="the names under `measures:` in all formulas, rows, steps and texts",
    why="a measure that nothing uses is a slip: another name was meant somewhere, or an old one "
    "was left behind",
    severity=Severity.WARNING,
    remedy="Use it, or take it out of `measures:`",
)
def unused_measure(context: Context) -> Iterator[Finding]:
    """One finding for each measure."""
    formulas = [each for amount in amounts(context.pattern) for each in amount.formulas]
    used = {name for formula in formulas for name in formula.names}
    rows = [row for at in steps_of(context) for row in at.step.rows]
    used |= {number.name for row in rows for number in numbers_used(row)}
    used |= {
        name
        for prose in context.prose
        for braces in _BRACES.findall(prose.raw)
        for name in _NAME.findall(braces)
    }
    for name, measure in context.pattern.measures.items():
        if name not in used:
            yield Finding(f"nothing uses the measure `{name}`", measure.place.key_span)


@check(
    id="gauge.unused",
    title="Every further gauge is used",
    looks_at="the names under `gauges:` in pieces and formulas",
    why="a knitter swatches for every gauge that is printed; one that shapes nothing wastes an "
    "evening, and most often a piece took the wrong one",
    severity=Severity.WARNING,
    remedy="Name it as the `gauge:` of a piece, or take it out",
)
def unused_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    formulas = [each for amount in amounts(context.pattern) for each in amount.formulas]
    names = {name for formula in formulas for name in formula.functions}
    for key, gauge in context.pattern.gauges.items():
        by_piece = any(piece.gauge == key for piece in context.pattern.pieces.values())
        if not by_piece and not any(name.startswith(f"{key}_") for name in names):
            yield Finding(
                f"no piece and no formula uses the gauge `{key}`",
                gauge.place.key_span,
            )


@check(
    id="pattern.unused",
    title="Every stitch pattern is worked",
    looks_at="the names under `stitch patterns:` in rows and steps",
    why="its rows are not printed and not proved, and most often a row names another pattern",
    severity=Severity.WARNING,
    remedy="Work a row in it, or take it out of `stitch patterns:`",
)
def unused_pattern(context: Context) -> Iterator[Finding]:
    """One finding for each stitch pattern."""
    used = {each.rows.key for at in steps_of(context) for each in at.step.patterns.stitch}
    for key, pattern in context.pattern.stitch_patterns.items():
        if key not in used:
            yield Finding(f"no row is worked in the stitch pattern `{key}`", pattern.place.key_span)


@check(
    id="stitch.unused",
    title="Every stitch of the designer's own is worked",
    looks_at="the names under `stitches:` in rows and legends",
    why="a special stitch that is explained and never worked makes the knitter search for it",
    severity=Severity.WARNING,
    remedy="Work it in a row or chart, or take it out of `stitches:`",
)
def unused_stitch(context: Context) -> Iterator[Finding]:
    """One finding for each stitch."""
    rows = [row for at in steps_of(context) for row in at.step.all_rows]
    used = set(abbreviations_used(rows, context.plan.book))
    for chart in context.pattern.charts.values():
        for meaning in chart.legend.values():
            name = meaning.stitch if isinstance(meaning, CellMeaning) else meaning
            found = context.plan.book.find(name) if name else None
            used |= {found.id} if found else set()
    for key, stitch in context.pattern.stitches.items():
        if key.lower() not in used:
            yield Finding(
                f"no row and no chart works the stitch `{key}`",
                stitch.place.key_span,
            )


CHECKS = (unused_measure, unused_gauge, unused_pattern, unused_stitch)
