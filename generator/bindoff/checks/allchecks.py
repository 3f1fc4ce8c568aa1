"""Every check there is, in the order in which they are listed and run."""

from bindoff.checks import ages, danger, hazards, safety, waived
from bindoff.checks.causes import causes_first
from bindoff.checks.context import context_of
from bindoff.checks.engine import Check, run, together
from bindoff.checks.keys import (
    bodies,
    fit,
    gauges,
    head,
    rounding,
    sizes,
    stated,
    unused,
    yarns,
)
from bindoff.checks.lists import (
    equipment,
    needles,
    notions,
    tools,
)
from bindoff.checks.proofs import PROOFS
from bindoff.checks.texts import (
    abbreviations,
    alts,
    care,
    claims,
    facing,
    facts,
    figures,
    finishing,
    hands,
    lengths,
    madeup,
    misspelt,
    ordered,
    realwords,
    references,
    restated,
    sections,
    spelling,
    stitchwords,
    swatched,
    wording,
    writing,
    yarnsaid,
)
from bindoff.checks.work import (
    bindoffs,
    charts,
    colours,
    crowns,
    edges,
    floats,
    garments,
    leans,
    making,
    markers,
    mirror,
    necks,
    pictures,
    purlside,
    readings,
    ropes,
    stitches,
    stripes,
)
from bindoff.diagnostics import Diagnostic
from bindoff.document.chartpages import ChartPage
from bindoff.document.tree import Document
from bindoff.files import Files
from bindoff.plan.plan import Plan

CHECKS: tuple[Check, ...] = together(
    head.CHECKS,
    gauges.CHECKS,
    yarns.CHECKS,
    sizes.CHECKS,
    bodies.CHECKS,
    fit.CHECKS,
    stated.CHECKS,
    rounding.CHECKS,
    unused.CHECKS,
    stitches.CHECKS,
    abbreviations.CHECKS,
    floats.CHECKS,
    colours.CHECKS,
    charts.CHECKS,
    stripes.CHECKS,
    pictures.CHECKS,
    crowns.CHECKS,
    making.CHECKS,
    edges.CHECKS,
    bindoffs.CHECKS,
    ropes.CHECKS,
    purlside.CHECKS,
    leans.CHECKS,
    readings.CHECKS,
    markers.CHECKS,
    mirror.CHECKS,
    necks.CHECKS,
    garments.CHECKS,
    wording.CHECKS,
    sections.CHECKS,
    tools.CHECKS,
    needles.CHECKS,
    facing.CHECKS,
    stitchwords.CHECKS,
    notions.CHECKS,
    references.CHECKS,
    figures.CHECKS,
    claims.CHECKS,
    lengths.CHECKS,
    spelling.CHECKS,
    misspelt.CHECKS,
    realwords.CHECKS,
    writing.CHECKS,
    alts.CHECKS,
    hazards.CHECKS,
    safety.CHECKS,
    care.CHECKS,
    danger.CHECKS,
    waived.CHECKS,
    ages.CHECKS,
    restated.CHECKS,
    ordered.CHECKS,
    madeup.CHECKS,
    swatched.CHECKS,
    hands.CHECKS,
    yarnsaid.CHECKS,
    facts.CHECKS,
    equipment.CHECKS,
    finishing.CHECKS,
)


def findings(
    plan: Plan, document: Document, charts: tuple[ChartPage, ...], files: Files
) -> tuple[Diagnostic, ...]:
    """What all checks find in a pattern, silenced findings as notes, followers beneath causes.

    Raises:
        PatternError: when a template of the pattern's own can't be read.
    """
    context = context_of(plan, document, charts, files)
    found = run(CHECKS, context, tuple(proof.id for proof in PROOFS))
    return causes_first(found, plan.source)
