"""The program's table of contents: source, plan, document, renders."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.diagnostics import Diagnostic, PatternError, Severity
from generator.document.build import build_document
from generator.document.differencewords import change_section
from generator.document.numbers import figures
from generator.files import Files
from generator.plan.differences import replan
from generator.plan.plan import Plan, make_plan
from generator.source.read import read_source
from generator.source.regauge import StatedGauge

if TYPE_CHECKING:
    from generator.render.pdf import PdfOptions


@dataclass(frozen=True, slots=True)
class Outputs:
    """What one pattern builds: relative path to bytes; and the warnings and notes about it."""

    files: Mapping[str, bytes]
    findings: tuple[Diagnostic, ...] = ()


def plan_pattern(files: Files, source_name: str, called: str) -> Plan:
    """Source and plan of a pattern; raises ``PatternError``."""
    return make_plan(read_source(files, source_name, called))


def check_pattern(files: Files, source_name: str, called: str) -> tuple[Diagnostic, ...]:
    """What the checks find in a pattern; raises ``PatternError`` where a stage can't go on."""
    from generator.checks.catalogue import findings

    plan = plan_pattern(files, source_name, called)
    return findings(plan, *build_document(plan, files), files)


def build_pattern(
    files: Files,
    source_name: str,
    called: str,
    options: "PdfOptions | None" = None,
    gauges: Sequence[StatedGauge] = (),
    earlier: Plan | None = None,
) -> Outputs:
    """All outputs of a pattern; raises ``PatternError``, also when a check finds an error.

    ``gauges`` stand in for those of the source. The document tells what differs from ``earlier``.
    """
    from generator.checks.catalogue import findings

    plan, regauged = replan(read_source(files, source_name, called), gauges)
    document, charts = build_document(plan, files, change_section(earlier, plan))
    found = (*regauged, *findings(plan, document, charts, files))
    if any(finding.severity is Severity.ERROR for finding in found):
        raise PatternError(found)

    # The renders load late: a pattern with errors never needs them.
    from generator.render.pdf import PdfOptions, render_pdf
    from generator.render.svg import render_svg
    from generator.render.text import render_text

    outputs: dict[str, bytes] = {
        f"{called}.pdf": render_pdf(document, options or PdfOptions()),
        f"{called}.txt": render_text(document).encode(),
        "numbers.json": (json.dumps(figures(plan), ensure_ascii=False, indent=1) + "\n").encode(),
    }
    for page in charts:
        for tile in page.tiles:
            part = f"-{tile.number}" if len(page.tiles) > 1 else ""
            svg = render_svg(tile.drawing, page.spec.title, f"{page.alt} {tile.alt}")
            outputs[f"charts/{page.id}{part}.svg"] = svg.encode()
    return Outputs(outputs, found)
