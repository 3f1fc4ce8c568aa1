"""The JSON Schema of the source: sound by its own standard, true of the demos, helpful on hover."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from bindoff.source.library import json_schema
from bindoff.source.pattern import Pattern
from bindoff.source.steps.registry import STEPS
from bindoff.source.yamltree import read_yaml
from tests.small_patterns import CAP, FLAP, TUBE, changed

ROOT = Path(__file__).parents[2]
SOURCES = sorted((ROOT / "patterns").glob("*/pattern.yaml"))
SOURCES += sorted((ROOT / "templates" / "start").glob("*/pattern.yaml"))
SCHEMA = json_schema(Pattern)
VALIDATOR = Draft202012Validator(SCHEMA)


def data_of(text: str) -> Any:
    return read_yaml(text, "pattern.yaml").data


def properties(schema: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Every key of every group: the group's name, the key, what the schema says of it."""
    for name, group in (("Pattern", schema), *schema["$defs"].items()):
        for key, about in group.get("properties", {}).items():
            yield name, key, about


PROPERTIES = list(properties(SCHEMA))
each_key = pytest.mark.parametrize(
    ("key", "about"),
    [(key, about) for _, key, about in PROPERTIES],
    ids=[f"{name}-{key}" for name, key, _ in PROPERTIES],
)


def test_the_schema_is_valid_by_the_standard() -> None:
    """Against the meta-schema of JSON Schema 2020-12, as the reference library carries it."""
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.parent.name)
def test_every_pattern_here_is_valid_by_the_schema(path: Path) -> None:
    data = data_of(path.read_text(encoding="utf-8"))

    assert [error.message for error in VALIDATOR.iter_errors(data)] == []


def test_a_version_without_quotation_marks_is_valid_by_the_schema() -> None:
    """YAML reads 1.0 as a number; ``check`` takes it as it is written."""
    bare = re.sub(r"(?m)^version: .*$", "version: 1.0", CAP)
    schema_data = yaml.safe_load(re.sub(r"(?m)^date: .*$", 'date: "2026-11-02"', bare))
    assert isinstance(schema_data["version"], float)
    assert VALIDATOR.is_valid(schema_data)


@pytest.mark.parametrize("text", [CAP, TUBE, FLAP], ids=["cap", "tube", "flap"])
def test_what_the_program_takes_the_schema_takes(text: str) -> None:
    assert VALIDATOR.is_valid(data_of(text))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title:", "titel:"),
        ("- gather: all", "- gathr: all"),
        ("- gather: all", "- gather: some"),
        ("wearer: [adult]", "wearer: adult"),
        ("weight: 4", "weight: 9"),
        ("stitches: 20", "stitches: twenty"),
        ('"#46566b"', '"slate"'),
        ("        rounds: 8", "        lines: 8"),
        ("        to: 8\n", ""),
    ],
    ids=lambda text: text.strip(),
)
def test_what_the_program_refuses_the_schema_refuses(old: str, new: str) -> None:
    assert not VALIDATOR.is_valid(data_of(changed(CAP, (old, new))))


@each_key
def test_a_key_is_explained_in_one_plain_sentence(key: str, about: dict[str, Any]) -> None:
    said = about.get("description", "")

    assert re.fullmatch(r"[A-Z0-9].{8,}\.", said), f"{key}: {said!r}"
    assert "``" not in said
    assert len(re.findall(r"[.!?] [A-Z]", said)) == 0


def test_keys_are_written_with_spaces() -> None:
    keys = {key for _, key, _ in PROPERTIES}

    assert {"cast on", "bind off", "pick up", "colour plan", "minutes per stitch", "with"} <= keys
    assert not [key for key in keys if "_" in key]


def test_a_step_is_known_by_one_key_that_no_other_step_has() -> None:
    keys = {
        verb: [field.alias for field in model.model_fields.values()]
        for verb, model in STEPS.items()
    }

    assert all(verb in keys[verb] for verb in STEPS)
    assert not [
        (verb, other) for verb in STEPS for other in STEPS if verb != other and verb in keys[other]
    ]
