"""What the checks cost beside the rest of ``bindoff check``: ``python -m tests.bench.checks``.

Prints, for a demo in one process, the CPU time of all checks and of those that read prose as a
share of the whole, then the price of a first word that is not ordinary, for which the dictionary is
loaded. Shares are of one run, so that a busy machine changes both sides alike.
"""

import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from bindoff.checks.context import Context
from bindoff.checks.engine import Check
from bindoff.checks.texts.misspelt import in_dictionary
from bindoff.diagnostics import Diagnostic
from bindoff.files import DiskFiles
from bindoff.pipeline import check_pattern

DEMO = Path(__file__).parents[2] / "patterns" / "ropewalk-hat"


def timed(spent: dict[str, float]) -> None:
    """From here on every check adds the seconds that it takes to ``spent``, by its id."""
    finds = Check.diagnostics

    def clocked(self: Check, context: Context) -> Iterator[Diagnostic]:
        start = time.process_time()
        found = [*finds(self, context)]
        spent[self.id] += time.process_time() - start
        return iter(found)

    Check.diagnostics = clocked  # type: ignore[method-assign]


def main() -> None:
    """Check the demo once, then ask the dictionary for a word."""
    spent: dict[str, float] = defaultdict(float)
    timed(spent)
    start = time.process_time()
    check_pattern(DiskFiles(str(DEMO)), "pattern.yaml", DEMO.name)
    whole = time.process_time() - start
    print(f"all checks: {sum(spent.values()) / whole:.1%} of the check of {DEMO.name}")
    for id, seconds in sorted(spent.items(), key=lambda each: -each[1])[:8]:
        print(f"  {id:<24}{seconds / whole:>7.2%}")
    print(f"  {'prose.misspelt':<24}{spent['prose.misspelt'] / whole:>7.2%}")
    start = time.process_time()
    in_dictionary("stretchily")
    print(f"loading the dictionary: {(time.process_time() - start) / whole:.1%}, once")


if __name__ == "__main__":
    main()
