"""``bindoff schema``: the JSON Schema of the source, for editors that complete and check it."""

import json
from pathlib import Path

import click

from bindoff.commands.shared import stop


@click.command(name="schema")
@click.option("--out", type=click.Path(dir_okay=False), help="Write to this file.")
def command(out: str | None) -> None:
    """Print the JSON Schema of pattern.yaml, for editors that complete and check it."""
    text = schema()
    if out is None:
        click.echo(text, nl=False)
        return
    try:
        Path(out).write_text(text, encoding="utf-8")
    except OSError as error:
        stop(
            f"`{out}` can't be written: {error.strerror}",
            "Choose a file in a folder that is there",
        )


def schema() -> str:
    """The JSON Schema of a source."""
    from bindoff.source.library import json_schema
    from bindoff.source.pattern import Pattern

    head = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    return json.dumps(head | json_schema(Pattern), indent=2) + "\n"
