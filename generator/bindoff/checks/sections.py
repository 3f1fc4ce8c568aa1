"""Headings and steps that hold nothing, and headings that come twice."""

from collections import Counter
from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import place_of, steps_of
from bindoff.diagnostics import Severity
from bindoff.plan.steps import ChartRows, Rows, Tapered
from bindoff.source.models import SectionStep


@check(
    id="section.empty",
    title="Every section has steps",
    looks_at="headings in the steps that another heading or the end of the piece follows",
    why="the knitter looks for steps that are not there, or that slipped to another place",
    severity=Severity.WARNING,
    remedy="Put the steps below their heading, or take it out",
)
def empty_section(context: Context) -> Iterator[Finding]:
    """One finding for each heading."""
    for at in steps_of(context):
        after = at.piece.steps[at.index + 1 : at.index + 2]
        if isinstance(at.step.step, SectionStep) and (
            not after or isinstance(after[0], SectionStep)
        ):
            yield Finding(
                f"the section `{at.step.step.section}` has no steps", place_of(context, at)
            )


@check(
    id="title.twice",
    title="No heading comes twice",
    looks_at="the titles of charts and of pieces, and the sections of each piece",
    why="go back to the chart or section of that name: which one?",
    severity=Severity.WARNING,
    remedy="Give one of them another name",
)
def title_twice(context: Context) -> Iterator[Finding]:
    """One finding for each repeated title."""
    for group, titles in (
        ("charts", {key: chart.title for key, chart in context.pattern.charts.items()}),
        ("pieces", {key: piece.title for key, piece in context.pattern.pieces.items()}),
    ):
        counts = Counter(title.lower() for title in titles.values())
        for title in (title for title, count in counts.items() if count > 1):
            last = [key for key, each in titles.items() if each.lower() == title][-1]
            yield Finding(
                f"two {group} are called `{titles[last]}`",
                context.source.span(group, last, "title"),
            )
    seen: set[tuple[str, str]] = set()
    for at in steps_of(context):
        if isinstance(at.step.step, SectionStep):
            name = (at.plan.key, at.step.step.section.lower())
            if name in seen:
                yield Finding(
                    f"two sections of `{at.plan.key}` are called `{at.step.step.section}`",
                    place_of(context, at),
                )
            seen.add(name)


@check(
    id="step.nothing",
    title="Every step does something",
    looks_at="rows, charts and tapers that are worked for no rounds in any size",
    why="a step of 0 rounds puzzles the knitter; a formula came out too small",
    severity=Severity.WARNING,
    remedy="Check the measure its rounds come from, or take the step out",
)
def idle_step(context: Context) -> Iterator[Finding]:
    """One finding for each step."""
    for at in steps_of(context):
        if isinstance(at.step.detail, Rows | ChartRows | Tapered) and not any(at.step.rounds):
            yield Finding("this step works no rounds in any size", place_of(context, at))


CHECKS = (empty_section, title_twice, idle_step)
