"""Prints how many of the seeded faults are found, told at another place, missed, and joined by
false alarms; those of the trade also by kind."""

import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))  # it may be run by its path

from bindoff.diagnostics import Severity
from bindoff.files import MemoryFiles
from tests.faults.faults import FAULTS
from tests.faults.second_editor import EDITOR_FAULTS, SOUND_VARIATIONS, variation
from tests.faults.seeding import Fault, checked, outcome, sound
from tests.faults.trade import TRADE
from tests.faults.wordings import made, odd, outcome_of

COLUMNS = ("found", "misleading", "missed")


def main() -> int:
    """Seed every fault, check every sound pattern, print the figures.

    Returns 1 unless all is as the lists of faults say.
    """
    surprises = _told("our own", FAULTS) + _told("of the trade", TRADE)
    surprises += _told("of a second editor", EDITOR_FAULTS) + _worded()
    surprises += _spoken()
    loud = 0
    for name, files in sound().items():
        for finding in checked(files):
            if finding.severity is not Severity.NOTE:
                loud += 1
                print(f"false alarm on {name}: {finding.id}: {finding.message}")
    print(f"{len(sound())} sound patterns: {loud} false alarms")
    return 1 if surprises or loud else 0


def _worded() -> int:
    """Prints what sound wordings set off; how many set off something else than their list says."""
    surprises = loud = 0
    for each in SOUND_VARIATIONS:
        said = checked(MemoryFiles(variation(each)))
        alarms = {found.id for found in said if found.severity is not Severity.NOTE}
        surprises += alarms != set(each.alarms)
        loud += bool(alarms)
        for alarm in sorted(alarms):
            print(f"false alarm: {each.wording} ({each.base}): {alarm}")
    print(f"{len(SOUND_VARIATIONS)} sound wordings, of a second editor: {loud} set off an alarm")
    return surprises


def _spoken() -> int:
    """Prints what becomes of the sentences made by tables; how many are not as they should be."""
    counts: dict[str, Counter[str]] = {}
    for said in (*made(), *odd()):
        heard = outcome_of(said)
        row = counts.setdefault(said.kind, Counter())
        row["right" if said.right else "wrong"] += 1
        row["alarms"] += said.right and bool(heard.alarms)
        row["found"] += not said.right and heard.in_place
        if said.right and heard.alarms:
            print(f"false alarm: {said.sentence} ({said.base}): {', '.join(heard.alarms)}")
        elif not said.right and not heard.in_place:
            print(f"missed: {said.sentence} ({said.base})")
    counts["all sentences"] = sum(counts.values(), Counter())
    for kind, row in counts.items():
        print(
            f"  {kind:<22} {row['found']:>4} of {row['wrong']:>3} wrong ones found, "
            f"{row['alarms']} of {row['right']:>3} right ones set off an alarm"
        )
    total = counts["all sentences"]
    return total["wrong"] - total["found"] + total["alarms"]


def _told(whose: str, faults: Sequence[Fault]) -> int:
    """Prints the figures of one list; how many of its faults are not as it says."""
    counts: dict[str, Counter[str]] = {}
    alarms = surprises = 0
    for fault in faults:
        seen = outcome(fault)
        astray = seen.misleading or fault.astray
        column = "missed" if not seen.found else "misleading" if astray else "found"
        counts.setdefault(fault.kind, Counter())[column] += 1
        known = "missed" if fault.missed else "misleading" if fault.astray else "found"
        # Of our own faults, the place is not part of what the list says.
        surprises += column != known if fault.kind else not seen.found
        alarms += len(seen.false_alarms)
        place = f"{fault.slip} ({fault.base}: {fault.finds or 'no check'})"
        if column == "missed" or (column == "misleading" and fault.kind):
            print(f"{column}: {place}: {fault.missed or fault.astray or 'not listed as such'}")
        for alarm in seen.false_alarms:
            print(f"false alarm: {place}: {alarm}")
    if len(counts) > 1:
        for kind, row in counts.items():
            print(f"  {kind:<12}" + "".join(f" {row[name]:>4} {name}" for name in COLUMNS))
    total = sum(counts.values(), Counter())
    said = ", ".join(f"{total[name]} {name}" for name in COLUMNS)
    print(f"{len(faults)} faults, {whose}: {said}, {alarms} false alarms beside them")
    return surprises + alarms


if __name__ == "__main__":
    sys.exit(main())
