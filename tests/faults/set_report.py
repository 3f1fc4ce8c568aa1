"""How many slips of a set are found, and at their place, and what its harmless rewordings set off.

    python -m tests.faults.set_report third|fourth|fifth|sixth|seventh|eighth|ninth [PATTERN …]

Prints a line a kind: found, told at another place, missed; then what is not found, the alarms of
the sound patterns and those of the rewordings. It takes a minute, and so is no test;
``test_sets.py`` holds the lists valid.
"""

import sys
from collections import Counter
from collections.abc import Sequence

from tests.faults.sets import SETS, Change, Outcome, Slip, alarms, outcome, rewordings, slips, sound


def main(arguments: Sequence[str]) -> int:
    """Print the figures of all patterns of a set, or of those named; 2 if there is none such."""
    among, wanted = (arguments[0], arguments[1:]) if arguments else ("", ())
    if among not in SETS:
        print(f"Name a set: {' or '.join(SETS)}", file=sys.stderr)
        return 2
    patterns = sorted({each.pattern for each in slips(among)})
    if unknown := sorted(set(wanted) - set(patterns)):
        print(f"No pattern {', '.join(unknown)}; there are {', '.join(patterns)}", file=sys.stderr)
        return 2
    chosen = [each for each in patterns if not wanted or each in wanted]
    _tell_slips([each for each in slips(among) if each.pattern in chosen])
    for pattern in chosen:
        for alarm in sound(among, pattern):
            print(f"sound: {pattern}: {alarm.id}: {alarm.message}")
    _tell_rewordings([each for each in rewordings(among) if each.pattern in chosen])
    return 0


def _tell_slips(chosen: Sequence[Slip]) -> None:
    ends = [(each, outcome(each)) for each in chosen]
    counts: dict[str, Counter[Outcome]] = {}
    for slip, end in ends:
        counts.setdefault(slip.kind, Counter())[end] += 1
    counts["all"] = Counter(end for _, end in ends)
    print(f"{'':<24}" + "".join(f"{each:>12}" for each in Outcome))
    for kind, row in counts.items():
        print(f"{kind:<24}" + "".join(f"{row[each]:>12}" for each in Outcome))
    for slip, end in ends:
        if end is not Outcome.FOUND:
            print(f"{end}: {slip.pattern}, {slip.kind}: {slip.slip}: {_changed(slip)}")


def _tell_rewordings(chosen: Sequence[Change]) -> None:
    loud = 0
    for each in chosen:
        said = alarms(each)
        loud += bool(said)
        for alarm in said:
            print(f"false alarm: {each.pattern}: {alarm.id}: {alarm.message}: {_changed(each)}")
    if chosen:
        print(f"{len(chosen)} harmless rewordings: {loud} set off an alarm")


def _changed(change: Change) -> str:
    """What became what, on one line."""
    return " -> ".join(f"`{' '.join(text.split())}`" for text in (change.before, change.after))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
