"""``bindoff check``: read and prove, write nothing."""

import json

import click

from bindoff.commands.shared import Named, Result, for_each, say


@click.command(name="check")
@click.argument("patterns", nargs=-1, type=click.Path(), metavar="PATTERN...")
@click.option("--list", "listed", is_flag=True, help="List all checks and what they are for.")
@click.option("--cautions", is_flag=True, help="Print all cautions, each with its source.")
@click.option("--readings", is_flag=True, help="Print how rows in other words are read.")
@click.option(
    "--queries", is_flag=True, help="Print each sentence with a claim that nothing confirms."
)
@click.option("--json", "as_json", is_flag=True, help="Print findings, or the list, as JSON.")
def command(
    patterns: tuple[str, ...],
    listed: bool,
    cautions: bool,
    readings: bool,
    queries: bool,
    as_json: bool,
) -> None:
    """Read and prove every PATTERN (a folder or its pattern.yaml) without writing anything."""
    if listed:
        say(_list(as_json))
    elif cautions:
        say(_cautions(as_json))
    elif patterns:
        work = _check_and_ask if queries else _check_and_show if readings else _check
        for_each(patterns, work, as_json, "sound")
    else:
        raise click.UsageError("Name a pattern, or ask for the list of checks with --list.")


def _check(pattern: Named) -> Result:
    from bindoff.pipeline import check_pattern

    return Result(check_pattern(pattern.files, pattern.source, pattern.called))


def _check_and_show(pattern: Named) -> Result:
    from bindoff.checks.work.readings import readings
    from bindoff.pipeline import plan_pattern

    findings = _check(pattern).findings
    lines = readings(plan_pattern(pattern.files, pattern.source, pattern.called))
    return Result(findings, lines, list(lines))


def _check_and_ask(pattern: Named) -> Result:
    from bindoff.pipeline import check_and_ask
    from bindoff.report import full, to_json

    findings, queries = check_and_ask(pattern.files, pattern.source, pattern.called)
    asked = tuple(each.diagnostic for each in queries.asked)
    lines = (queries.heading, *full(asked, pattern.files.lines).split("\n"))
    data = {"heading": queries.heading, "read": queries.read, "queries": to_json(asked)}
    return Result(findings, lines if asked else lines[:1], data)


def _list(as_json: bool) -> str:
    from bindoff.checks.allchecks import CHECKS
    from bindoff.checks.listing import as_data, as_text
    from bindoff.checks.proofs import PROOFS

    if as_json:
        return json.dumps(as_data(CHECKS, PROOFS), ensure_ascii=False, indent=1)
    return as_text(CHECKS, PROOFS)


def _cautions(as_json: bool) -> str:
    from bindoff.document.cautions import as_data, as_text

    return json.dumps(as_data(), ensure_ascii=False, indent=1) if as_json else as_text()
