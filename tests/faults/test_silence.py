"""A pattern may silence a check with a reason, and nothing else."""

import pytest

from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern
from tests.faults.seeding import base, checked

LONG_FLOAT = "........\n#.......\n##......\n.##.....\n..##....\n........\n"


def hat(**changes: str) -> MemoryFiles:
    """The sound hat with other files, and ``silence`` added to its source."""
    files = dict(base("hat"))
    files["pattern.yaml"] += changes.pop("silence", "")
    return MemoryFiles(files | {name.replace("_", "."): text for name, text in changes.items()})


def silence(check: str, because: str = "the wool felts") -> str:
    return f"\nsilence:\n  - {{check: {check}, because: {because}}}\n"


def only(findings: tuple[Diagnostic, ...], id: str) -> Diagnostic:
    (found,) = (finding for finding in findings if finding.id == id)
    return found


def test_a_warning_is_a_warning_without_a_silence() -> None:
    found = only(checked(hat(waves_grid=LONG_FLOAT)), "float.long")

    assert found.severity is Severity.WARNING


def test_a_silenced_finding_stays_in_sight_as_a_note_with_its_reason() -> None:
    loud = only(checked(hat(waves_grid=LONG_FLOAT)), "float.long")

    found = only(checked(hat(waves_grid=LONG_FLOAT, silence=silence("float.long"))), "float.long")

    assert found.severity is Severity.NOTE
    assert found.message == f"silenced: {loud.message}"
    assert found.help.endswith("the wool felts")
    assert found.span == loud.span


def test_a_silence_without_a_reason_is_refused() -> None:
    found = only(checked(hat(silence=silence("float.long", '""'))), "source.value")

    assert "because" in found.message


def test_an_unknown_check_can_not_be_silenced_and_the_nearest_is_named() -> None:
    found = only(checked(hat(silence=silence("float.lng"))), "silence.unknown")

    assert found.severity is Severity.ERROR
    assert "`float.long`" in found.help
    assert found.span is not None


def test_what_a_stage_proves_can_not_be_silenced() -> None:
    found = only(checked(hat(silence=silence("row.too-few"))), "silence.proof")

    assert found.severity is Severity.ERROR


def test_a_silence_that_silences_nothing_is_noted() -> None:
    found = only(checked(hat(silence=silence("float.long"))), "silence.unneeded")

    assert found.severity is Severity.NOTE


def test_an_error_of_a_check_stops_a_build() -> None:
    with pytest.raises(PatternError) as raised:
        build_pattern(hat(silence=silence("float.lng")), "pattern.yaml", "hat")

    assert "silence.unknown" in [finding.id for finding in raised.value.findings]


def test_a_build_with_warnings_gives_its_outputs_and_the_warnings() -> None:
    outputs = build_pattern(hat(waves_grid=LONG_FLOAT), "pattern.yaml", "hat")

    assert "hat.pdf" in outputs.files
    assert "float.long" in [finding.id for finding in outputs.findings]
