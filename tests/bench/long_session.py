"""What 500 edits at the desk leave in memory, and whether the last are as quick as the first.

``python -m tests.bench.long_session`` prints after every hundred edits the resident memory in MB
and the median of the processor's milliseconds a build. Edits change prose, a colour and a length,
and no text comes twice.
"""

import gc
import resource
import sys
from pathlib import Path
from random import Random
from statistics import median
from time import process_time

from bindoff.desk.answers.pages import build, tell
from bindoff.desk.state import Desk
from bindoff.desk.workplace import Workplace
from tests.desk.running import PATTERNS

NAME = "ropewalk-hat"
EDITS = 500
_STEP = 100


def resident() -> float:
    """The memory that this process has now, in MB; elsewhere than on Linux the most it had."""
    status = Path("/proc/self/status")
    if status.exists():
        lines = status.read_text(encoding="utf-8").splitlines()
        return int(next(each for each in lines if each.startswith("VmRSS")).split()[1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def edited(text: str, random: Random, number: int) -> str:
    """The pattern with an edit in its words, a colour, a length or the gauge."""
    shade = f"#{random.randrange(1 << 24):06x}"
    match number % 4:
        case 0:
            return text.replace("A close-fitting hat", f"A close hat, the {number}th")
        case 1:
            return text.replace("#d9c7a0", shade)
        case 2:
            return text.replace("head * 92 %", f"head * {random.uniform(90, 95):.2f} %")
        case _:
            return text.replace("Use the smaller needle.", f"Take needle {number}. " * 3)


def session(edits: int) -> list[tuple[float, float]]:
    """Memory in MB and the median milliseconds a build, for each part of so many edits."""
    desk = Desk(Workplace(str(PATTERNS)), "build")
    random = Random(NAME)
    text = (PATTERNS / NAME / "pattern.yaml").read_text(encoding="utf-8")
    found: list[tuple[float, float]] = []
    times: list[float] = []
    for number in range(1, edits + 1):
        asked = {"client": "a", "version": number, "pattern": NAME}
        texts = {"pattern.yaml": edited(text, random, number)}
        start = process_time()
        built = build(desk, {**asked, "texts": texts})
        times.append((process_time() - start) * 1000)
        tell(desk, {"client": "a", "version": number})
        assert not built["stale"]
        if number % _STEP == 0:
            gc.collect()
            found.append((resident(), median(times)))
            times.clear()
    return found


def main() -> None:
    """Print the figures."""
    for part, (memory, milliseconds) in enumerate(session(EDITS), 1):
        print(f"{part * _STEP} edits: {memory:.0f} MB, {milliseconds:.0f} ms a build")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
