"""Every seeded fault is found by its check and by no other, and sound patterns are left alone.

The faults are those that printed guides to technical editing name (edit before test-knitting,
arithmetic first); what is sound is judged by the sources named in the checks' own modules.
"""

import pytest

from bindoff.checks.allchecks import CHECKS
from bindoff.diagnostics import Severity
from bindoff.files import Files
from tests.faults.faults import FAULTS
from tests.faults.seeding import Fault, checked, faulty, outcome, sound
from tests.faults.trade import TRADE


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.slip)
def test_a_seeded_fault_is_found_by_its_check_and_by_no_other(fault: Fault) -> None:
    """And each of its findings has a place in a file of the pattern, and says what to do."""
    seen = outcome(fault)

    assert seen.found
    assert seen.false_alarms == ()
    files = faulty(fault)
    for finding in seen.findings:
        assert finding.help
        assert finding.span is not None
        lines = files[finding.span.file.removeprefix("pattern/")].split("\n")
        assert finding.span.line <= len(lines)


@pytest.mark.parametrize(("name", "files"), sound().items(), ids=lambda value: str(value)[:30])
def test_a_sound_pattern_has_neither_errors_nor_warnings(name: str, files: Files) -> None:
    loud = [f"{f.id}: {f.message}" for f in checked(files) if f.severity is not Severity.NOTE]

    assert loud == []


@pytest.mark.parametrize("fault", TRADE, ids=lambda fault: fault.slip)
def test_a_slip_of_the_trade_is_told_as_the_list_says(fault: Fault) -> None:
    """A miss that is found by now, or told at its place, has to be taken off the list of misses."""
    seen = outcome(fault)

    assert seen.found is not bool(fault.missed)
    assert seen.misleading is bool(fault.astray)
    assert seen.false_alarms == ()
    assert bool(fault.finds) is not bool(fault.missed)


def test_every_check_has_a_seeded_fault() -> None:
    seeded = {fault.finds for fault in (*FAULTS, *TRADE)}

    assert [check.id for check in CHECKS if check.id not in seeded] == []


def test_the_lists_of_faults_are_long_and_have_no_slip_twice() -> None:
    for faults, least in ((FAULTS, 60), (TRADE, 80)):
        assert len(faults) >= least
        assert len({fault.slip for fault in faults}) == len(faults)
