"""How long a saved change takes in a process that keeps running, over a typesetter's compile.

    python -m tests.bench.warm

For three demos, the CPU of the whole work after one letter more of the summary (reading, planning,
setting, checking, PDF, text and charts), and that of a typesetter's compile of the same document in
a process of its own, its start left out. The two run in turn, so that both meet the same noise; the
ratio is that of the medians. The extra ``bench`` of the project installs the typesetter.
"""

import subprocess
import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path
from statistics import median
from time import process_time

from bindoff.desk.quiet import Quiet
from bindoff.desk.workplace import Overlay
from bindoff.pipeline import build_pattern
from tests.bench.documents import RIVALS, prepare, verdict
from tests.desk.running import PATTERNS

NAMES = ("harbour-light-hat", "ropewalk-hat", "netmender-mittens")
RUNS, FIRST = 9, 3  # what is loaded late is loaded in the first runs
LIMIT = 1.0

_COMPILED = """
import sys
from pathlib import Path
from time import process_time
import typst
from tests.bench.once import typesetter
start = process_time()
typesetter(Path(sys.argv[1]))
print(process_time() - start)
"""


def compiled(folder: Path) -> float:
    """Seconds of the processor that the typesetter takes, in a process that has loaded it."""
    command = [sys.executable, "-c", _COMPILED, str(folder)]
    return float(subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout)


def saved(name: str, letters: int, quiet: Quiet) -> float:
    """Seconds of the processor to build a demo with so many letters more, as ``watch`` does."""
    folder = PATTERNS / name
    text = (folder / "pattern.yaml").read_text(encoding="utf-8")
    head, summary, rest = text.partition("summary: >-\n  ")
    files = Overlay(str(folder), {"pattern.yaml": f"{head}{summary}{'x' * letters} {rest}"})
    with quiet.building():
        start = process_time()
        build_pattern(files, "pattern.yaml", name)
        return process_time() - start


def main() -> None:
    """Print the figures."""
    if find_spec(RIVALS["typesetter"]) is None:
        sys.exit("no typesetter: pip install -e '.[bench]' compares with it")
    quiet = Quiet()
    for name in NAMES:
        with tempfile.TemporaryDirectory() as folder:
            prepare(Path(folder) / name, "demo", PATTERNS / name)
            pairs = [
                (saved(name, run + 1, quiet), compiled(Path(folder) / name)) for run in range(RUNS)
            ]
        own, other = (median(each) * 1000 for each in zip(*pairs[FIRST:], strict=True))
        ratio = own / other
        print(
            f"{name}: {own:.0f} ms after a change, {ratio:.2f} x the typesetter's {other:.0f} ms "
            f"(at most {LIMIT:.1f}: {verdict(ratio <= LIMIT)})"
        )


if __name__ == "__main__":
    main()
