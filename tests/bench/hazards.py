"""How many hazards the checks hear, and how many harmless sentences they leave alone.

``python -m tests.bench.hazards [LIST ...]``: each list is a text file, a sentence a line, those
with a hazard beginning with ``!`` and harmless ones with ``.``. Without a list, the sentences kept
in ``tests/checks/hazard_sentences.py``, where ``?`` begins a hazard that is known to be missed.
Prints both rates, then each hazard missed and each false alarm. Lists that say most are those
written by somebody who has not seen the checks, and used once.
"""

import sys
from pathlib import Path

from tests.checks.hazard_hearing import heard
from tests.checks.hazard_sentences import SENTENCES


def main(lists: list[str]) -> None:
    """Prints the rates of each list."""
    texts = {each: Path(each).read_text(encoding="utf-8") for each in lists}
    for name, text in (texts or {"sentences kept": SENTENCES}).items():
        lines = [line.strip() for line in text.splitlines() if line.strip()]
        hazards = [line[1:].strip() for line in lines if line[0] in "!?"]
        harmless = [line[1:].strip() for line in lines if line[0] == "."]
        missed = [each for each in hazards if not heard(each)]
        alarms = {each: ids for each in harmless if (ids := heard(each))}
        print(
            f"{name}: heard {len(hazards) - len(missed)}/{len(hazards)}, "
            f"left alone {len(harmless) - len(alarms)}/{len(harmless)}"
        )
        for each in missed:
            print(f"  missed: {each}")
        for each, ids in alarms.items():
            print(f"  alarm ({', '.join(sorted(ids))}): {each}")


if __name__ == "__main__":
    main(sys.argv[1:])
