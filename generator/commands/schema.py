"""``bindoff schema``: the JSON Schema of the source, for editors that complete and check it."""

import json
from pathlib import Path

import click


@click.command(name="schema")
@click.option("--out", type=click.Path(dir_okay=False), help="Write to this file.")
def command(out: str | None) -> None:
    """Print the JSON Schema of pattern.yaml, for editors that complete and check it."""
    from generator.source.models import Pattern

    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    schema |= Pattern.model_json_schema()
    text = json.dumps(schema, ensure_ascii=False, indent=2) + "\n"
    if out is None:
        click.echo(text, nl=False)
    else:
        Path(out).write_text(text, encoding="utf-8")
