"""Collects a line for every key of a source from patterns that build.

``python -m tests.guide.examples`` writes ``templates/guide/examples.yaml``, which the guide prints;
a test holds that the file is what this would write, so that no example is ever out of date.
"""

import json
import textwrap
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

from bindoff.files import DiskFiles
from bindoff.guide.keys import all_models
from bindoff.source.model import Model
from bindoff.source.read import read_source
from bindoff.source.yamltree import NOWHERE

ROOT = Path(__file__).parents[2]
FILE = ROOT / "templates" / "guide" / "examples.yaml"
FOLDERS = (
    *sorted((ROOT / "tests" / "guide" / "sources").glob("*/")),
    *sorted((ROOT / "templates" / "start").glob("*/")),
    *sorted((ROOT / "patterns").glob("*/")),
    *sorted((ROOT / "tests" / "patterns").glob("*/pattern.yaml")),
)
MOST_LINES = 4
WIDEST = 76

Key = tuple[str, str]
"""The name of a group of keys, and the key as it is written."""


def _models_in(value: object) -> Iterator[Model]:
    match value:
        case Model():
            yield value
            for name in type(value).model_fields:
                yield from _models_in(getattr(value, name))
        case Mapping():
            for each in value.values():
                yield from _models_in(each)
        case tuple():
            for each in value:
                yield from _models_in(each)
        case _:
            return


def _lines_of(model: Model, key: str) -> str:
    """The source of a key and its value, its margin taken off."""
    place = model.place.of(key)
    lines = place.lines.text.splitlines()
    first, last = place.key_span.line, place.span.end_line
    if place.span.end_column == 1:
        last -= 1
    text = lines[first - 1][place.key_span.column - 1 :]
    below = lines[first:last]
    margin = " " * (place.key_span.column - 1)
    if any(line.strip() and not line.startswith(margin) for line in below):
        return ""
    if not below:
        text = text[: max(place.span.end_column - place.key_span.column, 0)]
    cut = [line[len(margin) :].rstrip() for line in below if not line.lstrip().startswith("#")]
    return "\n".join([_without_remark(text), *(each for each in cut if each)])


def _without_remark(line: str) -> str:
    return line.split(" #")[0].rstrip() if '"' not in line and "'" not in line else line.rstrip()


def _cost(text: str) -> tuple[bool, int, int]:
    lines = text.split("\n")
    return any(len(line) > WIDEST for line in lines), len(lines), len(text)


@cache
def collected() -> dict[Key, str]:
    """The shortest example of each key that some pattern writes."""
    found: dict[Key, str] = {}
    for folder in FOLDERS:
        at = folder.parent if folder.is_file() else folder
        if not (at / "pattern.yaml").exists():
            continue
        for model in _models_in(read_source(DiskFiles(str(at))).pattern):
            if model.place is NOWHERE:
                continue
            for name in model.model_fields_set & set(type(model).model_fields):
                alias = type(model).model_fields[name].alias or name
                text = _lines_of(model, alias)
                key = type(model).__name__, alias
                if (
                    text.startswith(alias)
                    and "@TITLE@" not in text
                    and (key not in found or _cost(text) < _cost(found[key]))
                ):
                    found[key] = text
    return found


def written() -> str:
    """The file of examples."""
    lines = [
        "# A line for every key, from patterns that build. Written by tests/guide/examples.py."
    ]
    for group in sorted(all_models()):
        entries = {key: text for (owner, key), text in collected().items() if owner == group}
        if entries:
            lines.append(f"{group}:")
        for key, text in sorted(entries.items()):
            lines.append(f"  {json.dumps(key) if ' ' in key else key}: |")
            lines.append(textwrap.indent("\n".join(text.split("\n")[:MOST_LINES]), "    "))
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    FILE.parent.mkdir(exist_ok=True)
    FILE.write_text(written(), encoding="utf-8")
