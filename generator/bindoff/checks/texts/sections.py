"""Headings and steps that hold nothing, and headings that come twice."""

from collections import Counter
from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import steps_of
from bindoff.diagnostics import Severity
from bindoff.source.chart import Chart
from bindoff.source.piece import Piece


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
        after = at.plan.steps[at.index + 1 : at.index + 2]
        if at.step.heading and (not after or after[0].heading):
            yield Finding(f"the section `{at.step.heading}` has no steps", at.step.span)


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
    groups: tuple[tuple[str, list[Chart | Piece]], ...] = (
        ("charts", [*context.pattern.charts.values()]),
        ("pieces", [*context.pattern.pieces.values()]),
    )
    for group, titled in groups:
        counts = Counter(each.title.lower() for each in titled)
        for title in (title for title, count in counts.items() if count > 1):
            last = [each for each in titled if each.title.lower() == title][-1]
            place = last.place.of("title")
            yield Finding(f"two {group} are called `{last.title}`", place.span)
    seen: set[tuple[str, str]] = set()
    for at in steps_of(context):
        if at.step.heading:
            name = (at.plan.key, at.step.heading.lower())
            if name in seen:
                yield Finding(
                    f"two sections of `{at.plan.key}` are called `{at.step.heading}`",
                    at.step.span,
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
        if not at.step.answers.idle and not any(at.step.rounds):
            yield Finding("this step works no rounds in any size", at.step.span)


CHECKS = (empty_section, title_twice, idle_step)
