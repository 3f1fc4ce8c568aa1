"""Where a cold build of each demo spends its time: a process of its own a run, stage by stage.

    python -m tests.bench.cold_build

Prints medians of seven runs: the wall time from process start to the last byte, the pages, and the
share of importing, reading, planning, composing, checking, PDF, text and SVG. Processes find their
modules compiled, as after an installation.
"""

import json
import os
import subprocess
import sys
import tempfile
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
    from bindoff.checks.catalogue import findings
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


if __name__ == "__main__":
    if len(sys.argv) > 1:
        print(json.dumps(stages(sys.argv[1])))
    else:
        with tempfile.TemporaryDirectory() as cache:
            main(cache)
