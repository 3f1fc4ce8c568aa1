"""Where a cold build of each demo spends its time: a process of its own a run, stage by stage.

    python -m tests.bench.cold_build

Prints medians of seven runs: the wall time from process start to the last byte, the pages, and the
share of importing, reading, planning, composing, checking, PDF, text and SVG.
"""

import json
import subprocess
import sys
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
    from generator.checks.catalogue import findings
    from generator.document.build import build_document
    from generator.files import DiskFiles
    from generator.plan.plan import make_plan
    from generator.render.pdf import PdfOptions, render_pdf
    from generator.render.svg import render_svg
    from generator.render.text import render_text
    from generator.source.read import read_source

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


def whole(folder: Path) -> float:
    """Seconds of the real command, from process start to its end."""
    start = perf_counter()
    command = [sys.executable, "-m", "generator", "build", str(folder), "--force"]
    subprocess.run(
        [*command, "--out", "build/bench"], check=True, capture_output=True, cwd=PATTERNS.parent
    )
    return perf_counter() - start


def main() -> None:
    """Print a line a demo."""
    for folder in sorted(PATTERNS.iterdir()):
        runs = []
        for _ in range(RUNS):
            command = [sys.executable, "-m", "tests.bench.cold_build", str(folder)]
            done = subprocess.run(
                command, check=True, capture_output=True, text=True, cwd=PATTERNS.parent
            )
            runs.append(json.loads(done.stdout))
        wall = median(whole(folder) for _ in range(RUNS))
        spent = {stage: median(run[stage] for run in runs) for stage in STAGES}
        total = sum(spent.values())
        shares = ", ".join(f"{stage} {each / total:.0%}" for stage, each in spent.items())
        print(f"{folder.name}: {wall:.2f} s cold, {runs[0]['pages']} pages; {shares}")


if __name__ == "__main__":
    if len(sys.argv) > 1:
        print(json.dumps(stages(sys.argv[1])))
    else:
        main()
