"""Completion offers what may be written: every key and name of the demos, at its own place."""

import re
from pathlib import Path

import pytest

from bindoff.desk.completing import offers
from tests.desk.running import PATTERNS

SOURCES = sorted(PATTERNS.glob("*/pattern.yaml"))
OWN = ("yarns", "sizes", "measures", "finished", "charts", "pieces", "gauges", "legend")


def words(text: str, line: int, column: int) -> list[str]:
    return [each.word for each in offers(text, line, column).words]


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.parent.name)
def test_every_key_of_a_demo_is_offered_where_it_stands(source: Path) -> None:
    """Names that the designer gives are her own, and blocks of prose have no keys."""
    lines = source.read_text(encoding="utf-8").split("\n")
    asked = 0
    deep = 0  # of the text block that goes on
    own: list[tuple[int, str]] = []
    for number, line in enumerate(lines, 1):
        found = re.match(r"( *(?:- )?)([a-z][a-z ]*):(?: |$)(.*)", line)
        indent = len(line) - len(line.lstrip())
        if deep and (indent >= deep or not line.strip()):
            continue
        deep = 0
        if not found:
            continue
        column = len(found[1])
        own = [(at, key) for at, key in own if at < column]
        if re.search(r"[>|][-+]?$", found[3].split(" #")[0].strip()):
            deep = indent + 1
        named = own and own[-1][1] in OWN
        own.append((column, found[2]))
        if named:
            continue
        text = "\n".join([*lines[: number - 1], found[1] + found[2][:1], *lines[number:]])
        asked += 1
        assert found[2] in words(text, number, column + 2), f"{number}: {line}"
    assert asked > 12


def test_a_new_step_is_offered_by_the_words_that_begin_one() -> None:
    text = "pieces:\n  hat:\n    steps:\n      - cast on: 8\n      - "
    found = offers(text, 5, 9)

    assert found.keys
    assert found.start == 9
    assert {"work", "say", "section", "chart", "bind off"} <= {each.word for each in found.words}
    assert "yarn" not in {each.word for each in found.words}
    assert all(each.meaning for each in found.words)


def test_a_step_is_gone_on_with_by_its_own_keys() -> None:
    text = "pieces:\n  hat:\n    steps:\n      - work: k all\n        "
    found = words(text, 5, 9)

    assert "rounds" in found
    assert "work" not in found
    assert "bind off" not in found


@pytest.mark.parametrize(
    ("before", "offered"),
    [
        ("terms: ", "UK"),
        ("wearer: [", "child"),
        ("pieces:\n  hat:\n    yarn: ", "tar"),
        ("pieces:\n  hat:\n    steps:\n      - chart: ", "rope"),
        ("pieces:\n  hat:\n    steps:\n      - cast on: ", "around"),
        ("finished:\n  Width: ", "around"),
    ],
)
def test_values_are_words_of_the_schema_or_names_of_the_pattern(before: str, offered: str) -> None:
    names = "yarns:\n  tar: {name: Tar}\ncharts:\n  rope: {grid: a}\nmeasures:\n  around: 50 cm\n"
    text = names + before
    lines = text.split("\n")

    assert offered in words(text, len(lines), len(lines[-1]) + 1)


@pytest.mark.parametrize("text", ["", ":", "- - - ", "\t", "a: b: c: ", "a" * 5000, "- " * 2000])
def test_nothing_that_is_written_is_too_odd(text: str) -> None:
    offers(text, 1, len(text) + 1)
    offers(text, 99, 99)
