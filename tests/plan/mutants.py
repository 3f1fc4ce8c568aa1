"""What a mutation run left: figures by module, and the survivors nobody has explained.

Run it where ``mutmut run`` ran: ``python -m tests.plan.mutants``. See ``survivors.py`` for what
counts as explained.
"""

import json
import sys
from collections import Counter
from pathlib import Path

from mutmut.mutation.diff_apply import get_diff_for_mutant

from tests.plan.survivors import (
    Change,
    changed_lines,
    function_of,
    only_less_strict,
    read_explained,
)

KILLED, SURVIVED, UNTESTED, UNCHECKED = "killed", "survived", "no test", "not run"
OUTCOMES = {None: UNCHECKED, 0: SURVIVED, 33: UNTESTED}  # all others killed the mutant


def main() -> int:
    """Prints the table and the unexplained survivors; returns 1 if there are any."""
    explained = read_explained(Path(__file__).with_name("survivors.md").read_text("utf-8"))
    met: set[Change] = set()
    open_cases: list[str] = []
    whole = True
    for meta in sorted(Path("mutants").rglob("*.py.meta")):
        codes: dict[str, int | None] = json.loads(meta.read_text("utf-8"))["exit_code_by_key"]
        outcomes = {key: OUTCOMES.get(code, KILLED) for key, code in codes.items()}
        whole &= UNCHECKED not in outcomes.values()
        if not set(outcomes.values()) - {UNCHECKED}:
            continue
        source = meta.relative_to("mutants").with_suffix("")
        counts = Counter(outcomes.values())
        excused = 0
        for key, outcome in outcomes.items():
            if outcome in (KILLED, UNCHECKED):
                continue
            change = (function_of(key), changed_lines(get_diff_for_mutant(key, path=source)))
            if change in explained or only_less_strict(change[1]):
                met.add(change)
                excused += 1
            else:
                open_cases.append("\n".join([f"## {key}: {outcome}", *change[1]]))
        figures = ", ".join(f"{counts[name]} {name}" for name in (KILLED, SURVIVED, UNTESTED))
        waiting = f", {counts[UNCHECKED]} {UNCHECKED}" if counts[UNCHECKED] else ""
        print(f"{source}: {len(codes)} mutants, {figures} ({excused} explained){waiting}")
    for function, lines in sorted(explained - met) if whole else ():
        print(f"explained, but not met in this run: {function}: {' / '.join(lines)}")
    print("\n".join(["", *open_cases]))
    return 1 if open_cases else 0


if __name__ == "__main__":
    sys.exit(main())
