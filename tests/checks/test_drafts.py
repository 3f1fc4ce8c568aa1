"""What ``bindoff new`` writes is a finding until the designer has replaced it, and still builds."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from bindoff.checks.texts.writing import DRAFTS
from bindoff.cli import main
from bindoff.diagnostics import Severity
from bindoff.files import DiskFiles, MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern


@pytest.fixture(scope="module")
def started(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    folder = tmp_path_factory.mktemp("patterns")
    result = CliRunner().invoke(main, ["new", "slip cowl", "--in", str(folder)])
    assert result.exit_code == 0
    return {p.name: p.read_text(encoding="utf-8") for p in Path(folder / "slip cowl").iterdir()}


def loud(files: dict[str, str]) -> list[tuple[str, str]]:
    found = check_pattern(MemoryFiles(files), "pattern.yaml", "slip cowl")
    lines = files["pattern.yaml"].split("\n")
    return [
        (each.id, lines[each.span.line - 1][each.span.column - 1 : each.span.end_column - 1])
        for each in found
        if each.severity is not Severity.NOTE and each.span
    ]


def test_each_text_to_replace_is_a_warning_at_its_place(started: dict[str, str]) -> None:
    assert sorted(loud(started)) == sorted(("prose.unfinished", text) for text in DRAFTS.values())


def test_a_text_that_is_replaced_is_silent(started: dict[str, str]) -> None:
    own = started["pattern.yaml"]
    for key, text in DRAFTS.items():
        own = own.replace(text, "knit@ebbstow.example" if key == "contact" else "Knit it")

    assert loud(started | {"pattern.yaml": own}) == []


def test_a_begun_pattern_under_another_kind_of_title_is_told_once_and_at_the_title(
    started: dict[str, str],
) -> None:
    hat = started["pattern.yaml"].replace('"Slip Cowl"', '"Slip Hat"')

    found = loud(started | {"pattern.yaml": hat})
    assert [each for each in found if each[0] != "prose.unfinished"] == [
        ("prose.claim", '"Slip Hat"')
    ]


def test_a_pattern_just_begun_builds(started: dict[str, str]) -> None:
    made = build_pattern(MemoryFiles(started), "pattern.yaml", "slip cowl")

    assert "slip cowl.pdf" in made.files
    assert all(each.severity is not Severity.ERROR for each in made.findings)


def test_a_summary_on_several_lines_is_found_too(started: dict[str, str]) -> None:
    folded = started["pattern.yaml"].replace(
        "summary: A cowl with a band of waves. Say",
        "summary: >-\n  A cowl with a band of waves.\n  Say",
    )
    assert ("prose.unfinished", DRAFTS["summary"]) in loud(started | {"pattern.yaml": folded})


def test_the_demos_are_nobodys_drafts() -> None:
    for folder in sorted((Path(__file__).parents[2] / "patterns").iterdir()):
        found = check_pattern(DiskFiles(str(folder)), "pattern.yaml", folder.name)
        assert "prose.unfinished" not in [each.id for each in found]
