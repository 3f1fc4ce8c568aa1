"""``bindoff check``: read and prove, write nothing."""

import click

from generator.commands.shared import Named, Result, for_each


@click.command(name="check")
@click.argument("patterns", nargs=-1, required=True, metavar="PATTERN...")
@click.option("--json", "as_json", is_flag=True, help="Print findings as JSON.")
def command(patterns: tuple[str, ...], as_json: bool) -> None:
    """Read and prove every PATTERN (a folder or its pattern.yaml) without writing anything."""
    for_each(patterns, _check, as_json, "sound")


def _check(pattern: Named) -> Result:
    from generator.document.build import build_document
    from generator.pipeline import plan_pattern

    plan = plan_pattern(pattern.files, pattern.source, pattern.called)
    build_document(plan, pattern.files)
    return Result()
