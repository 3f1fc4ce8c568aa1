"""Where a cold build of each demo spends its time: a process of its own a run, stage by stage.

    python -m tests.bench.cold_build [--against FOLDER]

Prints medians of seven runs: the wall time from process start to the last byte, the pages, and the
share of importing, reading, planning, composing, checking, PDF, text and SVG. Processes find their
modules compiled, as after an installation.

``--against`` sets this checkout beside another one, by the command in the ``.venv`` of each and the
demos that both have: the processor time of ``--help``, of a check and of a build into a new folder.
A ``.venv`` may be shared: each checkout reads its own modules, whatever is installed there.
The two run in turn, so that both meet the same noise; a ratio is the median of all turns.
"""

import json
import os
import subprocess
import sys
import tempfile
from argparse import ArgumentParser
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from statistics import median
from time import perf_counter

PATTERNS = Path(__file__).parents[2] / "patterns"
RUNS = 7
STAGES = ("import", "source", "plan", "document", "checks", "pdf", "text", "svg")


def stages(folder: str) -> dict[str, float]:
    """Seconds of each stage of one build in this process, and the pages."""
    marks = [perf_counter()]
    from bindoff.checks.allchecks import findings
    from bindoff.document.build import build_document
    from bindoff.files import DiskFiles
    from bindoff.plan.plan import make_plan
    from bindoff.render.pdf import PdfOptions, render_pdf
    from bindoff.render.svg import render_svg
    from bindoff.render.text import render_text
    from bindoff.source.read import read_source

    marks.append(perf_counter())
    files = DiskFiles(folder)
    source = read_source(files)
    marks.append(perf_counter())
    plan = make_plan(source)
    marks.append(perf_counter())
    document, charts = build_document(plan, files)
    marks.append(perf_counter())
    findings(plan, document, charts, files)
    marks.append(perf_counter())
    pdf = render_pdf(document, PdfOptions())
    marks.append(perf_counter())
    render_text(document)
    marks.append(perf_counter())
    for page in charts:
        for tile in page.tiles:
            render_svg(tile.drawing, page.spec.title, tile.alt)
    marks.append(perf_counter())
    spent = [after - before for before, after in pairwise(marks)]
    return dict(zip(STAGES, spent, strict=True)) | {"pages": _pages(pdf)}


def _pages(pdf: bytes) -> int:
    import io

    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(pdf)).pages)


def run(arguments: Sequence[str], cache: str) -> str:
    """What Python prints that runs so, with its compiled modules in ``cache``."""
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": cache}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [sys.executable, "-m", *arguments]
    done = subprocess.run(
        command, check=True, capture_output=True, text=True, cwd=PATTERNS.parent, env=environment
    )
    return done.stdout


def whole(folder: Path, cache: str) -> float:
    """Seconds of the real command, from process start to its end."""
    start = perf_counter()
    run(["bindoff", "build", str(folder), "--force", "--out", "build/bench"], cache)
    return perf_counter() - start


def main(cache: str) -> None:
    """Print a line a demo."""
    for folder in sorted(PATTERNS.iterdir()):
        arguments = ["tests.bench.cold_build", str(folder)]
        whole(folder, cache)  # compiles the modules
        runs = [json.loads(run(arguments, cache)) for _ in range(RUNS)]
        wall = median(whole(folder, cache) for _ in range(RUNS))
        spent = {stage: median(each[stage] for each in runs) for stage in STAGES}
        total = sum(spent.values())
        shares = ", ".join(f"{stage} {each / total:.0%}" for stage, each in spent.items())
        print(f"{folder.name}: {wall:.2f} s cold, {runs[0]['pages']} pages; {shares}")


def processor(checkout: Path, arguments: Sequence[str], out: str) -> float:
    """Processor seconds, of the user and the system, of one command of a checkout."""
    environment = {**os.environ, "PYTHONPATH": str(checkout / "generator")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [str(checkout / ".venv" / "bin" / "bindoff"), *arguments]
    if arguments[0] == "build":
        command += ["--force", "--out", out]
    with subprocess.Popen(
        command, cwd=checkout, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
    ) as process:
        assert process.stderr is not None
        said = process.stderr.read()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(said.decode())
    return used.ru_utime + used.ru_stime


def compare(other: Path, runs: int) -> None:
    """Print a line a command: seconds of the other checkout, of this one, and their ratio."""
    here = PATTERNS.parent
    demos = [f"patterns/{each.name}" for each in sorted((other / "patterns").iterdir())]
    commands = [
        ["--help"],
        *(["check", each] for each in demos),
        *(["build", each] for each in demos),
    ]
    print(f"{'processor seconds':<38}{'other':>8}{'this':>8}{'ratio':>8}")
    for command in commands:
        pairs = [_pair(other, here, command) for _ in range(runs + 1)][1:]  # the first one warms
        theirs, ours = (median(each) for each in zip(*pairs, strict=True))
        ratio = median(own / their for their, own in pairs)
        print(f"{' '.join(command):<38}{theirs:>8.3f}{ours:>8.3f}{ratio:>8.2f}")


def _pair(other: Path, here: Path, command: Sequence[str]) -> tuple[float, float]:
    """The same command of both, one right after the other."""
    with tempfile.TemporaryDirectory() as out:
        return (
            processor(other, command, f"{out}/other"),
            processor(here, command, f"{out}/this"),
        )


if __name__ == "__main__":
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("folder", nargs="?", help="print the stages of one build in this process")
    parser.add_argument("--against", type=Path, metavar="FOLDER")
    parser.add_argument("--runs", type=int, default=RUNS)
    asked = parser.parse_args()
    if asked.folder:
        print(json.dumps(stages(asked.folder)))
    elif asked.against:
        compare(asked.against.resolve(), asked.runs)
    else:
        with tempfile.TemporaryDirectory() as cache:
            main(cache)
