"""``bindoff compare``: what differs between two versions of a pattern, or at another gauge."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from bindoff.commands.gaugeoption import gauge_option
from bindoff.commands.proofing import Compared, is_text, words_beside, write_marked
from bindoff.commands.shared import Named, attempt, named, say
from bindoff.diagnostics import Diagnostic
from bindoff.jsontext import as_ascii
from bindoff.records import Record
from bindoff.report import full, summary, to_json, visible
from bindoff.source.statedgauge import StatedGauge

if TYPE_CHECKING:
    from bindoff.plan.differences.change import Differences
    from bindoff.plan.plan import Plan
    from bindoff.plan.verdict import Verdict


@click.command(name="compare")
@click.argument("old", type=click.Path(), metavar="OLD")
@click.argument("new", type=click.Path(), metavar="[NEW]", required=False)
@gauge_option
@click.option(
    "--words", is_flag=True, help="Show old and new words of the text edition side by side."
)
@click.option(
    "--marked",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    help="Write a PDF of NEW with a bar beside each line that is new or has changed.",
)
@click.option("--force", is_flag=True, help="Write over FILE if it is there.")
@click.option("--json", "as_json", is_flag=True, help="Say every change as JSON.")
def command(
    old: str,
    new: str | None,
    gauges: tuple[StatedGauge, ...],
    words: bool,
    marked: Path | None,
    force: bool,
    as_json: bool,
) -> None:
    """Say what has changed from OLD to NEW (folders or pattern.yaml files), as errata.

    Or, with --gauge, what changes in one pattern at another gauge. What stays the same is left
    out. The standing texts in the templates of a pattern are not compared. Where no old source is
    left, OLD may be an old text edition, and its words are shown beside those of NEW.

    The exit code is 0 whether or not anything differs, 1 if a pattern has an error.
    """
    if (new is None) == (not gauges):
        raise click.UsageError("Name two patterns, or one and a --gauge.")
    before, after = named(old), named(new if new is not None else old)
    if words or marked or is_text(before):
        if new is None or (marked and is_text(before)):
            raise click.UsageError("Name two sources: only words are compared with a text edition.")
        found = (
            write_marked(before, after, marked, force) if marked else words_beside(before, after)
        )
    else:
        found = _compared(before, after, gauges)
    _tell(before, after, found, as_json)


def _tell(before: Named, after: Named, found: Compared, as_json: bool) -> NoReturn:
    """Say what was found, and end with 1 where something can't be compared."""
    if as_json:
        record = {
            "old": before.argument,
            "new": after.argument,
            "findings": to_json([*found.old_findings, *found.new_findings]),
            "result": found.data,
        }
        click.echo(as_ascii(record))
    else:
        _tell_findings(before, found.old_findings)
        _tell_findings(after, found.new_findings)
        for line in found.lines:
            say(line)
    sys.exit(0 if found.data is not None else 1)


# ---------------------------------------------------------------- comparing


class _Planned(Record):
    """A plan, and what was found on the way."""

    plan: "Plan"
    findings: tuple[Diagnostic, ...] = ()


def _compared(before: Named, after: Named, gauges: tuple[StatedGauge, ...]) -> Compared:
    old = attempt(before, _planned)
    if not isinstance(old, _Planned) and gauges:
        return Compared(old)  # the same source would only say the same again
    new = attempt(after, lambda pattern: _planned(pattern, gauges))
    if not isinstance(old, _Planned) or not isinstance(new, _Planned):
        return Compared(
            () if isinstance(old, _Planned) else old,
            () if isinstance(new, _Planned) else new,
            _judged_alone(after, gauges, old) if isinstance(old, _Planned) else (),
        )
    told = attempt(after, lambda _: _told(old.plan, new.plan, bool(gauges)))
    if not isinstance(told, Compared):
        return Compared((), (*new.findings, *told))
    return Compared((), new.findings, told.lines, told.data)


def _planned(pattern: Named, gauges: tuple[StatedGauge, ...] = ()) -> _Planned:
    from bindoff.plan.replan import replan
    from bindoff.source.read import read_source

    return _Planned(*replan(read_source(pattern.files, pattern.source, pattern.called), gauges))


def _told(old: "Plan", new: "Plan", regauged: bool) -> Compared:
    from bindoff.document.differencewords.data import change_data
    from bindoff.document.verdictwords import verdict_data
    from bindoff.plan.differences.find import differences
    from bindoff.plan.verdict import judge

    found = differences(old, new)
    verdict = judge(new)
    judged = _verdict(verdict, judge(old)) if found.changes or regauged else ()
    lines = (_title(found, regauged), *_text(found), *judged)
    return Compared(lines=lines, data=change_data(found) | {"verdict": verdict_data(verdict)})


def _verdict(verdict: "Verdict", before: "Verdict | None" = None) -> tuple[str, ...]:
    from bindoff.document.verdictwords import TITLE, verdict_lines

    lines = tuple(verdict_lines(verdict, before))
    return ("", TITLE, *lines) if lines else ()


def _judged_alone(
    pattern: Named, gauges: tuple[StatedGauge, ...], old: _Planned
) -> tuple[str, ...]:
    """Which sizes of a pattern that can't be made in all of them still fit; nothing where it is its
    steps that don't work."""
    from bindoff.plan.verdict import judge, judge_each
    from bindoff.source.read import read_source

    def judged(each: Named) -> tuple[str, ...]:
        source = read_source(each.files, each.source, each.called)
        verdict = judge_each(source, gauges)
        faults = {fault.what for size in verdict.sizes for fault in size.faults}
        return () if "steps" in faults else _verdict(verdict, judge(old.plan))

    lines = attempt(pattern, judged)
    return tuple(each for each in lines if isinstance(each, str))


# ---------------------------------------------------------------- telling


def _tell_findings(pattern: Named, findings: tuple[Diagnostic, ...]) -> None:
    if findings:
        say(full(findings, pattern.files.lines), err=True)
        say(f"{visible(pattern.argument)}: {summary(findings)}", err=True)


def _title(found: "Differences", regauged: bool) -> str:
    old, new = found.old.source.pattern, found.new.source.pattern
    if regauged:
        return f"{new.title}, version {new.version}: changes at another gauge"
    if old.title != new.title:
        return f"Changes from {old.title}, version {old.version}, to {new.title}, {new.version}"
    return f"{new.title}: changes from version {old.version} to version {new.version}"


def _text(found: "Differences") -> Iterator[str]:
    from bindoff.document.differencewords.plainlines import plain_lines
    from bindoff.document.differencewords.sections import MEASURES, change_blocks, measure_blocks

    yield from plain_lines(change_blocks(found, 2))
    measures = measure_blocks(found)
    if measures:
        yield from ("", MEASURES, *plain_lines(measures))
