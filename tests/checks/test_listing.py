"""``bindoff check --list`` and the findings of ``bindoff check`` on the command line."""

import json
from pathlib import Path

from click.testing import CliRunner

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.proofs import PROOFS
from bindoff.cli import main

HAT = Path(__file__).parents[1] / "faults" / "bases" / "hat"


def test_the_list_names_every_check_and_proof() -> None:
    result = CliRunner().invoke(main, ["check", "--list"])

    assert result.exit_code == 0
    assert all(f"\n{each.id} (" in result.output for each in CHECKS)
    assert all(f"\n{proof.id}: " in result.output for proof in PROOFS)


def test_the_list_is_there_for_machines_too() -> None:
    result = CliRunner().invoke(main, ["check", "--list", "--json"])

    listed = json.loads(result.output)
    assert [entry["id"] for entry in listed["checks"]] == [each.id for each in CHECKS]
    assert len(listed["always on"]) == len(PROOFS)


def test_without_a_pattern_the_command_line_is_wrong() -> None:
    assert (
        CliRunner()
        .invoke(
            main,
            [
                "check",
            ],
        )
        .exit_code
        == 2
    )


def test_a_warning_does_not_fail_the_check(tmp_path: Path) -> None:
    for file in HAT.iterdir():
        text = file.read_text(encoding="utf-8").replace("two colors", "two colours")
        (tmp_path / file.name).write_text(text, encoding="utf-8")

    result = CliRunner().invoke(main, ["check", str(tmp_path), "--json"])

    (record,) = json.loads(result.output)
    assert result.exit_code == 0
    assert [finding["id"] for finding in record["findings"]] == ["prose.spelling"]


def test_an_error_fails_the_check(tmp_path: Path) -> None:
    for file in HAT.iterdir():
        text = file.read_text(encoding="utf-8").replace("cast on: cast_on", "cast on: cast_on + 1")
        (tmp_path / file.name).write_text(text, encoding="utf-8")

    assert CliRunner().invoke(main, ["check", str(tmp_path)]).exit_code == 1
