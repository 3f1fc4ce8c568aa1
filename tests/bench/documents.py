"""How fast documents are made, against the least it can take and against two engines.

    python -m tests.bench.documents [--runs 7] [--only CASE ...] [--skip-growth]

Draws a demo and three invented documents (mixed: running text, 6 tables of 60 by 10, 3 charts of 46
by 150; 18 such tables; 9 such charts), each from a ready tree, page or source. Run by hand on a
quiet machine; the extra ``bench`` of the project installs the rivals. Everything is measured in one
run and said as ratios of medians:

- words: whether the rivals' files say every word of the tree, as often as it does;
- warm: PDF, text and SVG of a ready tree in a running process, over plain canvas calls that draw
  the same pages; and the whole build of a pattern, which reads, plans and proves it too, over the
  canvas calls of its own pages;
- cold: from the start of a process to files on disk, with the memory it takes;
- start-up of ``bindoff --help`` over that of ``python -c pass``;
- growth of charts and pieces as far as the program accepts them, and of tables to 5,000 rows.

Verdicts are by the CPU: the clock of a busy machine tells of its other work.

Processes find their modules compiled, as after an installation.
"""

import json
import os
import pickle
import re
import shutil
import subprocess
import sys
import tempfile
import unicodedata
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from tests.bench.once import ENGINES, PAGE, SOURCE, TREE

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "patterns" / "harbour-light-hat"
CASES = ("demo", "mixed", "tables", "charts")
PATTERN, PATTERNS = "pattern", ("demo", "charts")
"""Where the source of a pattern stands, and the cases that have one."""
RIVALS = {"html": "weasyprint", "typesetter": "typst"}
WORDS = "words.json"
RUNS = 7

WARM_LIMITS = {"demo": 2.5, "mixed": 2.5, "tables": 2.5, "charts": 0.5}
GROWTH_LIMIT = 1.3
HTML_LIMIT = 10.0
TYPESETTER_LIMITS = {"demo": 1.3, "mixed": 1.3, "tables": 1.0, "charts": 1.0}
MEMORY_LIMIT = 0.5
START_UP_SECONDS = 0.15


@dataclass(frozen=True, slots=True)
class Spent:
    """What a process took: seconds by the clock and of processors, and megabytes at most."""

    wall: float
    cpu: float
    memory: float


def run(arguments: Sequence[str], cache: Path) -> Spent:
    """Run Python in a process of its own. This process must stay small: on some systems a child
    counts the memory of its parent."""
    here = os.pathsep.join((str(ROOT), str(ROOT / "generator")))
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(cache), "PYTHONPATH": here}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    started = perf_counter()
    process = subprocess.Popen(
        [sys.executable, *arguments],
        cwd=ROOT,
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    _, status, used = os.wait4(process.pid, 0)
    wall = perf_counter() - started
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"failed: {' '.join(arguments)}")
    unit = 1024**2 if sys.platform == "darwin" else 1024
    return Spent(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / unit)


def medians(commands: Mapping[str, Sequence[str]], runs: int, cache: Path) -> Mapping[str, Spent]:
    """Run all in turn, so that they meet the same noise; the first round only warms up."""
    found: dict[str, list[Spent]] = {name: [] for name in commands}
    for _ in range(runs + 1):
        for name, arguments in commands.items():
            found[name].append(run(arguments, cache))
    return {name: _median(spent[1:]) for name, spent in found.items()}


def _median(spent: Sequence[Spent]) -> Spent:
    return Spent(
        median(each.wall for each in spent),
        median(each.cpu for each in spent),
        median(each.memory for each in spent),
    )


def told(arguments: Sequence[str]) -> dict[str, float]:
    """What a part of this script finds in a process of its own."""
    command = [sys.executable, "-m", "tests.bench.documents", *arguments]
    done = subprocess.run(command, check=True, stdout=subprocess.PIPE, cwd=ROOT)
    return dict(json.loads(done.stdout))


def verdict(met: bool) -> str:
    """One word at the end of a line."""
    return "met" if met else "MISSED"


# ---------------------------------------------------------------- parts with a process of their own


def prepare(folder: Path, case: str, demo: Path = DEMO) -> None:
    """Write one document in all forms; ``demo`` is the pattern of the case of that name."""
    from tests.bench import markup, sample

    document = document_of(case, demo)
    folder.mkdir(parents=True)
    (folder / TREE).write_bytes(pickle.dumps(document))
    markup.copy_fonts(folder)
    (folder / PAGE).write_text(markup.html(document, folder), "utf-8")
    (folder / WORDS).write_text(json.dumps(Counter(words(markup.words(document.blocks)))), "utf-8")
    (folder / SOURCE).write_text(markup.typst(document, folder), "utf-8")
    if case in PATTERNS:
        shutil.copytree(demo, folder / PATTERN) if case == "demo" else sample.write_charts(
            folder / PATTERN
        )


def document_of(case: str, demo: Path):  # type: ignore[no-untyped-def]
    """The document of a case as a tree."""
    from tests.bench import sample

    if case != "demo":
        return getattr(sample, case)()
    from bindoff.document.build import build_document
    from bindoff.files import DiskFiles
    from bindoff.pipeline import plan_pattern

    files = DiskFiles(str(demo))
    return build_document(plan_pattern(files, "pattern.yaml", demo.name), files)[0]


def warm(folder: Path, runs: int) -> dict[str, float]:
    """Processor seconds of all outputs and of the bare canvas, and the number of pages."""
    import io

    import pikepdf

    from tests.bench.bare import record, replay
    from tests.bench.once import outputs

    document = pickle.loads((folder / TREE).read_bytes())
    calls = record(document)
    ways: dict[str, Callable[[], object]] = {
        "bindoff": lambda: outputs(document),
        "pdf": lambda: outputs_of_pdf(document),
        "bare": lambda: replay(calls),
    }
    if (folder / PATTERN).exists():
        from bindoff.document.build import build_document
        from bindoff.files import DiskFiles
        from bindoff.pipeline import build_pattern, drawn_for, plan_pattern

        files = DiskFiles(str(folder / PATTERN))
        plan = plan_pattern(files, "pattern.yaml", PATTERN)
        own = record(build_document(plan, files, drawn=drawn_for("calm"))[0])
        ways["build"] = lambda: build_pattern(files, "pattern.yaml", PATTERN)
        ways["build bare"] = lambda: replay(own)
    spent: dict[str, list[float]] = {name: [] for name in ways}
    for _ in range(runs + 1):
        for name, work in ways.items():
            spent[name].append(_seconds(work))
    sizes = {"pages": 0, "bytes": len(outputs_of_pdf(document)), "bare bytes": len(replay(calls))}
    with pikepdf.open(io.BytesIO(replay(calls))) as pdf:
        sizes["pages"] = len(pdf.pages)
    return {**{name: median(each[1:]) for name, each in spent.items()}, **sizes}


def outputs_of_pdf(document) -> bytes:  # type: ignore[no-untyped-def]
    """The tagged PDF alone."""
    from bindoff.render.pdf import render_pdf

    return render_pdf(document)


def _seconds(work: Callable[[], object]) -> float:
    started = process_time()
    work()
    return process_time() - started


def growth() -> dict[str, float]:
    """Processor seconds of documents that grow: name of the thing and its size to seconds."""
    from bindoff.document.build import build_document
    from bindoff.files import MemoryFiles
    from bindoff.plan.plan import make_plan
    from bindoff.source.grid import MAX_STITCHES
    from bindoff.source.read import read_source
    from tests.bench import long_piece, sample
    from tests.bench.once import outputs

    outputs(sample.mixed())

    def piece(rows: int) -> None:
        files = MemoryFiles({"pattern.yaml": long_piece.source(rows)})
        outputs(build_document(make_plan(read_source(files)), files)[0])

    found: dict[str, float] = {}
    for stitches in (100, 200, 400):
        rounds = MAX_STITCHES // 400
        work = lambda: outputs(sample.large_chart(stitches, rounds))  # noqa: B023, E731
        found[f"chart of {stitches} x {rounds}:{stitches * rounds}"] = _least(work)
    for rows in (1250, 2500, 5000):
        found[f"table of {rows} x 10:{rows}"] = _least(lambda: outputs(sample.long_table(rows)))  # noqa: B023
    most = _most_rows()
    for rows in (most // 4, most // 2, most):
        found[f"piece of {rows} rows:{rows}"] = _least(lambda: piece(rows))  # noqa: B023
    return found


def _most_rows() -> int:
    """The rows of the longest piece that the program reads, to the next hundred below."""
    from bindoff.diagnostics import PatternError
    from bindoff.files import MemoryFiles
    from bindoff.source.read import read_source
    from tests.bench import long_piece

    fits, too_many = 0, 100
    while too_many - fits > 1:
        middle = (fits + too_many) // 2
        try:
            read_source(MemoryFiles({"pattern.yaml": long_piece.source(100 * middle)}))
            fits = middle
        except PatternError:
            too_many = middle
    return 100 * fits


def _least(work: Callable[[], object]) -> float:
    return min(_seconds(work) for _ in range(2))


# ---------------------------------------------------------------- the tables


def report_warm(case: str, folder: Path, runs: int) -> None:
    """Warm builds over the bare canvas."""
    found = told(["--warm", str(folder), "--runs", str(runs)])
    ratio, pdf = found["bindoff"] / found["bare"], found["pdf"] / found["bare"]
    limit = WARM_LIMITS[case]
    print(
        f"  warm: PDF, text and SVG {ratio:.2f} x the bare canvas of {found['pages']:.0f} pages "
        f"(at most {limit}: {verdict(ratio <= limit)}); the PDF alone {pdf:.2f} x, "
        f"{found['bytes'] / found['bare bytes']:.2f} x as large a file; "
        f"the bare canvas takes {found['bare'] * 1000:.0f} ms of CPU"
    )
    if "build" in found:
        whole = found["build"] / found["build bare"]
        print(
            f"  the whole build of a pattern {whole:.2f} x the bare canvas of its pages, "
            f"{found['build'] * 1000:.0f} ms of CPU"
        )


def report_cold(case: str, folder: Path, rivals: Sequence[str], runs: int, cache: Path) -> None:
    """Cold builds of one document."""
    commands = {
        name: ["-m", "tests.bench.once", name, str(folder)]
        for name in ENGINES
        if name == "bindoff" or name in rivals
    }
    if case in PATTERNS:
        commands["bindoff build"] = _whole(folder)
    spent = medians(commands, runs, cache)
    own = spent["bindoff"]
    print(f"  cold{'wall':>22}{'CPU':>8}{'MB':>7}{'wall ratio':>12}{'CPU':>7}{'memory':>8}")
    for name, each in spent.items():
        print(
            f"    {name:<15}{each.wall:>7.2f}{each.cpu:>8.2f}{each.memory:>7.0f}"
            f"{each.wall / own.wall:>12.2f}{each.cpu / own.cpu:>7.2f}"
            f"{each.memory / own.memory:>8.2f}"
        )
    for line in _cold_verdicts(case, spent):
        print(f"    {line}")


def _whole(folder: Path) -> list[str]:
    """The real command on a pattern: it reads, plans and proves too, which the rivals need not."""
    pattern, out = str(folder / PATTERN), str(folder / "whole")
    return ["-m", "bindoff", "build", pattern, "--force", "--out", out]


def _cold_verdicts(case: str, spent: Mapping[str, Spent]) -> Iterator[str]:
    # The build of the charts writes their rows in words too, which no rival is given.
    for name in ("bindoff", "bindoff build") if case == "demo" else ("bindoff",):
        if name in spent and "html" in spent:
            faster = spent["html"].cpu / spent[name].cpu
            yield (
                f"{name}: {faster:.1f} x faster than the HTML engine "
                f"(at least {HTML_LIMIT:.0f}: {verdict(faster >= HTML_LIMIT)})"
            )
        if name in spent and "typesetter" in spent:
            limit = TYPESETTER_LIMITS[case]
            slower = spent[name].cpu / spent["typesetter"].cpu
            memory = spent[name].memory / spent["typesetter"].memory
            yield (
                f"{name}: {slower:.2f} x the time of the typesetter (at most {limit}: "
                f"{verdict(slower <= limit)}), {memory:.2f} x its memory (under {MEMORY_LIMIT}: "
                f"{verdict(memory < MEMORY_LIMIT)})"
            )


def report_words(folder: Path, rivals: Sequence[str]) -> None:
    """Whether what the rivals made says every word that our pages say, as often; what stands on
    pages again (running feet, heads of continued tables) may be there more often."""
    if shutil.which("pdftotext") is None:
        print("  words: not compared without pdftotext of poppler")
        return
    wanted = Counter(json.loads((folder / WORDS).read_text("utf-8")))
    for name in rivals:
        lacking = wanted - _words_of(folder / f"{name}.pdf")
        print(
            f"  words: {name} says {wanted.total() - lacking.total():,} of the "
            f"{wanted.total():,} of the tree ({verdict(not lacking)})"
            + (f"; not {', '.join(sorted(lacking)[:8])}" if lacking else "")
        )


def _words_of(pdf: Path) -> Counter[str]:
    command = ["pdftotext", "-raw", str(pdf), "-"]
    told = subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout
    return Counter(words(told))


def words(text: str) -> list[str]:
    """The words and figures of a text; ligatures are letters, and words are whole where a line
    breaks them."""
    return re.findall(
        r"\w+", re.sub(r"[\u00ad\u2010-]\n?", "", unicodedata.normalize("NFKC", text))
    )


def report_start_up(runs: int, cache: Path) -> None:
    """``bindoff --help``."""
    commands = {"help": ["-m", "bindoff", "--help"], "pass": ["-c", "pass"]}
    spent = medians(commands, 2 * runs, cache)
    seconds, ratio = spent["help"].cpu, spent["help"].cpu / spent["pass"].cpu
    print(
        f"start-up: `bindoff --help` takes {ratio:.1f} x the CPU of `python -c pass`, "
        f"{seconds * 1000:.0f} ms (at most {START_UP_SECONDS * 1000:.0f}: "
        f"{verdict(seconds <= START_UP_SECONDS)})"
    )


def report_growth() -> None:
    """Time a cell or row, over that of the smallest."""
    print("growth of reading, planning, setting and writing; linear is 1.0 for each cell or row")
    first: dict[str, float] = {}
    for label, seconds in told(["--growth"]).items():
        what, _, size = label.partition(":")
        each = seconds / int(size)
        ratio = each / first.setdefault(what.split()[0], each)
        print(
            f"  {what:<22}{seconds:>8.2f} s{each * 1e6:>9.1f} µs each{ratio:>7.2f} "
            f"(at most {GROWTH_LIMIT}: {verdict(ratio <= GROWTH_LIMIT)})"
        )


def main(asked: Sequence[str], runs: int, grow: bool) -> None:
    """Print all tables."""
    rivals = [name for name, package in RIVALS.items() if find_spec(package)]
    missing = sorted(set(RIVALS.values()) - {RIVALS[name] for name in rivals})
    if missing:
        print(f"without {', '.join(missing)}: pip install -e '.[bench]' compares with them too")
    if os.getloadavg()[0] > (os.cpu_count() or 1):
        print("this machine is busy: trust the ratios of CPU more than those of the clock")
    with tempfile.TemporaryDirectory() as folder:
        cache = Path(folder) / "compiled"
        report_start_up(runs, cache)
        for case in asked:
            prepared = Path(folder) / case
            command = ["-m", "tests.bench.documents", "--prepare", case, str(prepared)]
            run(command, cache)
            print(f"\n{case}")
            report_warm(case, prepared, runs)
            report_cold(case, prepared, rivals, runs, cache)
            report_words(prepared, rivals)
    if grow:
        print()
        report_growth()


if __name__ == "__main__":
    parser = ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--runs", type=int, default=RUNS)
    parser.add_argument("--only", nargs="+", choices=CASES, default=CASES)
    parser.add_argument("--skip-growth", action="store_true")
    for part in ("--prepare", "--warm"):  # parts of the work, in processes of their own
        parser.add_argument(part, nargs=2 if part == "--prepare" else 1, help="for inner use")
    parser.add_argument("--growth", action="store_true", help="for inner use")
    options = parser.parse_args()
    if options.prepare:
        prepare(Path(options.prepare[1]), options.prepare[0])
    elif options.warm:
        print(json.dumps(warm(Path(options.warm[0]), options.runs)))
    elif options.growth:
        print(json.dumps(growth()))
    else:
        main(options.only, options.runs, not options.skip_growth)
