"""How the figures at a place of the source were reckoned: for every size value, formula, inputs."""

from collections.abc import Iterator
from typing import Any

from bindoff.craft.fabric import FABRIC_YARN
from bindoff.diagnostics import PatternError, Span
from bindoff.document.units import up
from bindoff.plan.measures import Measures
from bindoff.plan.plan import Plan
from bindoff.plan.values import Kind, Measure, Value
from bindoff.plan.worked import StepPlan
from bindoff.plan.yarn import Loop
from bindoff.plan.yarnplan import YarnTotal
from bindoff.source.amount import Amount

_MOST = 12  # amounts of one step


def reckoned(plan: Plan, file: str, line: int) -> dict[str, Any]:
    """What stands at a line: its title, and the figures of a measure, of a yarn, or of the step
    that it is in.

    A figure has its name and a row for each size; sizes that share all of it share a row.
    """
    for title, measures in (
        ("Measure", plan.measures.named),
        ("Finished measurement", plan.measures.finished),
    ):
        for name, measure in measures.items():
            if measure.span and holds(measure.span, file, line):
                return _answer(f"{title} {name}", [figures_of(name, measure, plan)], plan)
    for total in plan.yarn:
        yarn = plan.source.pattern.yarns[total.yarn]
        if holds(yarn.place.span, file, line):
            return _answer(f"Yarn {yarn.name}", [_needed(total, plan)], plan)
    for piece in plan.pieces:
        number = 0
        for step in piece.steps:
            number += not step.heading
            if not step.heading and holds(step.span, file, line):
                figures = [figures_of(*each, plan) for each in _amounts(step, plan.measures)]
                return _answer(
                    f"Step {number} of {plan.source.pattern.pieces[piece.key].title}",
                    [*_counts(step, plan), *figures],
                    plan,
                )
    return {}


def holds(span: Span, file: str, line: int) -> bool:
    """Whether a line of a file is one of those of a place."""
    end = span.end_line - (span.end_column == 1 and span.end_line > span.line)
    return span.file == file and span.line <= line <= end


def _answer(title: str, figures: list[dict[str, Any]], plan: Plan) -> dict[str, Any]:
    """With the line at which each named measure that the figures use is written."""
    used = {name for figure in figures for row in figure["rows"] for name, _ in row["inputs"]}
    lines = {
        name: measure.span.line
        for name, measure in plan.measures.named.items()
        if name in used and measure.span
    }
    return {"title": title, "figures": figures, "lines": lines}


def _amounts(step: StepPlan, measures: Measures) -> Iterator[tuple[str, Measure]]:
    """Every amount that the designer wrote into a step, under the key that it has there."""
    found = 0
    for attribute, field in type(step.step).model_fields.items():
        written = getattr(step.step, attribute)
        for amount in written if isinstance(written, tuple) else (written,):
            if isinstance(amount, Amount) and attribute in step.step.model_fields_set:
                try:
                    yield str(field.alias or attribute), measures.amount(amount)
                except PatternError:
                    continue
                found += 1
                if found == _MOST:
                    return


def _counts(step: StepPlan, plan: Plan) -> Iterator[dict[str, Any]]:
    """Stitches before and after, where it changes them, and its rounds."""
    before = [each.stitches for each in step.before]
    after = [each.stitches for each in step.after]
    if before != after:
        rows = [f"{one} before, {other} after" for one, other in zip(before, after, strict=True)]
        yield {"name": "stitches", "rows": _plain(rows, plan)}
    elif any(after):
        yield {"name": "stitches", "rows": _plain([str(each) for each in after], plan)}
    if any(step.rounds):
        yield {"name": "rounds", "rows": _plain([str(each) for each in step.rounds], plan)}


def _needed(total: YarnTotal, plan: Plan) -> dict[str, Any]:
    """What a yarn needs: the parts that add up to it, the loop of each fabric with what its factor
    rests on, and the reserve."""
    rows = []
    for need in total.needs:
        parts = [f"{part.name.value} {part.metres:.1f}" for part in need.parts]
        loops = [each.loop for each in need.knitted]
        rows.append(
            {
                "value": f"{up(need.metres)} m, {up(need.grams)} g",
                "formula": " + ".join(parts),
                "inputs": [[f"loop of {loop.fabric.value}", _loop_said(loop)] for loop in loops],
                "note": f"{need.uncertainty:.0%} in reserve",
            }
        )
    return {"name": "needed", "rows": _merged(rows, plan)}


def _loop_said(loop: Loop) -> str:
    rule = FABRIC_YARN[loop.fabric]
    where = f"from {loop.origin.value}, factor {loop.factor:.2f}, reserve {loop.uncertainty:.0%}"
    return f"{loop.mm:.1f} mm ({where}; {rule.evidence.value}: {rule.source})"


def _plain(words: list[str], plan: Plan) -> list[dict[str, Any]]:
    return _merged(
        [{"value": each, "formula": "", "inputs": [], "note": ""} for each in words], plan
    )


def figures_of(name: str, measure: Measure, plan: Plan) -> dict[str, Any]:
    """A measure with its name, and a row for each size; sizes that share all of it share a row."""
    rows = [_row(value, measure.kind, plan) for value in measure.values]
    return {"name": name, "rows": _merged(rows, plan)}


def _merged(rows: list[dict[str, Any]], plan: Plan) -> list[dict[str, Any]]:
    """Rows with the sizes that each is for; neighbours that say the same as one."""
    found: list[dict[str, Any]] = []
    for size, row in zip(plan.source.sizes, rows, strict=True):
        if found and all(found[-1][key] == row[key] for key in row):
            found[-1]["sizes"].append(size)
        else:
            found.append({"sizes": [size], **row})
    return found


def _row(value: Value, kind: Kind, plan: Plan) -> dict[str, Any]:
    """One size: lengths in cm, counts as they are, and what rounding did."""
    length = kind is Kind.LENGTH
    exact, rounded = _said(value.exact, length), _said(value.rounded, length)
    notes = []
    if exact != rounded:
        notes.append(f"exact {exact}")
        off = value.rounded - value.exact
        if not length:
            notes.append(f"rounded {off:+.2g}")
        if value.error_mm is not None and abs(value.error_mm) >= 0.05:
            notes.append(f"{value.error_mm:+.1f} mm")
    inputs = [[name, _said(figure, _is_length(name, plan))] for name, figure in value.inputs]
    formula = "" if value.formula == rounded else value.formula
    return {"value": rounded, "formula": formula, "inputs": inputs, "note": ", ".join(notes)}


def _said(number: float, length: bool) -> str:
    return f"{number / 10:.4g} cm" if length else f"{number:.6g}"


def _is_length(name: str, plan: Plan) -> bool:
    """Whether what a formula names is a length: a measure that is one, or part of a body."""
    measure = plan.measures.named.get(name)
    if measure is not None:
        return measure.kind is Kind.LENGTH
    return any(name in sizing.body for sizing in plan.measures.sizes)
