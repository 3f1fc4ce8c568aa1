"""Prints how many of the seeded faults are found, missed, and joined by false alarms."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))  # it may be run by its path

from bindoff.diagnostics import Severity
from tests.faults.faults import FAULTS
from tests.faults.seeding import checked, outcome, sound


def main() -> int:
    """Seed every fault, check every sound pattern, print the figures; 1 unless all is well."""
    found = 0
    alarms = 0
    for fault in FAULTS:
        seen = outcome(fault)
        found += seen.found
        alarms += len(seen.false_alarms)
        if not seen.found:
            print(f"missed: {fault.slip} ({fault.base}: {fault.finds})")
        for alarm in seen.false_alarms:
            print(f"false alarm: {fault.slip} ({fault.base}: {alarm} beside {fault.finds})")
    loud = 0
    for name, files in sound().items():
        for finding in checked(files):
            if finding.severity is not Severity.NOTE:
                loud += 1
                print(f"false alarm on {name}: {finding.id}: {finding.message}")
    missed = len(FAULTS) - found
    print(
        f"{len(FAULTS)} faults seeded: {found} found, {missed} missed, {alarms} false alarms "
        f"beside them; {len(sound())} sound patterns: {loud} false alarms"
    )
    return 1 if missed or alarms or loud else 0


if __name__ == "__main__":
    sys.exit(main())
