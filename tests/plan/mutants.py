"""What a mutation run left: figures by module, and the survivors nobody has explained.

Run it where ``mutmut run`` ran: ``python -m tests.plan.mutants``. ``survivors.md`` beside this file
holds the mutants that change nothing a reader could notice, with the reason, in this form:

    ## generator.plan.module.function
    Reason, in a line or more.
    ```diff
    -line before
    +line after
    ```

A ``zip`` that is no longer strict needs no entry: that is a guard against our own slips, which no
input can reach.
"""

import json
import re
import sys
from collections import Counter
from pathlib import Path

from mutmut.mutation.diff_apply import get_diff_for_mutant

KILLED, SURVIVED, UNTESTED, UNCHECKED = "killed", "survived", "no test", "not run"
OUTCOMES = {None: UNCHECKED, 0: SURVIVED, 33: UNTESTED}  # all others killed the mutant

Change = tuple[str, tuple[str, ...]]  # a function and the lines its mutant takes and gives


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


def function_of(key: str) -> str:
    """``generator.plan.spacing.Spacing.decrease_row`` for the tool's mangled key."""
    module, _, mangled = key.rpartition(".")
    name = re.sub(r"__mutmut_\d+$", "", mangled)
    return f"{module}.{name.removeprefix('x').removeprefix('_').strip('ǁ').replace('ǁ', '.')}"


def changed_lines(diff: str) -> tuple[str, ...]:
    """The lines of a diff that differ, with their sign and without indentation."""
    lines = [line for line in diff.splitlines() if re.match(r"[-+](?![-+]{2})", line)]
    return tuple(line[0] + line[1:].strip() for line in lines)


def only_less_strict(lines: tuple[str, ...]) -> bool:
    """Whether the lines differ in nothing but how strict a ``zip`` is, and not more so."""
    bare = [re.sub(r",\s*(strict=(True|False|None))?\)", ")", line[1:]) for line in lines]
    return len(bare) == 2 and bare[0] == bare[1] and "strict=True" not in lines[1]


def read_explained(text: str) -> set[Change]:
    """The changes that ``survivors.md`` explains."""
    found: set[Change] = set()
    for section in re.split(r"^## ", text, flags=re.MULTILINE)[1:]:
        function = section.splitlines()[0].strip()
        for block in re.findall(r"^```diff\n(.*?)^```", section, re.DOTALL | re.MULTILINE):
            found.add((function, changed_lines(block)))
    return found


if __name__ == "__main__":
    sys.exit(main())
