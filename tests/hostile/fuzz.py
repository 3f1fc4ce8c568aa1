"""Builds mutated sources until one fails with anything but findings.

Run by hand: ``python -m tests.hostile.fuzz COUNT SEED [PAGES_EVERY]``; it tells how far it is from
time to time. A find is written, as small as it gets by leaving out lines, into
``tests/hostile/found/``; ``tests/hostile/test_fuzz.py`` keeps it mended.
"""

import json
import random
import resource
import signal
import sys
import time
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from bindoff.checks.allchecks import findings
from bindoff.diagnostics import PatternError
from bindoff.document.build import build_document
from bindoff.document.numbers import figures
from bindoff.files import MemoryFiles
from bindoff.plan.plan import make_plan
from bindoff.printable import unprintable
from bindoff.source.read import read_source
from tests.hostile.allsorts import ALL_SORTS, TUBES
from tests.hostile.grafts import Donors, texts_of
from tests.hostile.mutate import mutated
from tests.pace import pace
from tests.small_patterns import CAP, FLAP, TUBE, WAVES

FOUND = Path(__file__).parent / "found"
PATTERNS = Path(__file__).parents[2] / "patterns"
BASES = Path(__file__).parents[1] / "faults" / "bases"
SLOWEST = 3.0
PROMISED = 5.0
"""Seconds that no source takes; a search for slow ones stops at ``SLOWEST``."""
MEMORY = 2_000_000_000
TOLD_EVERY = 500


class SlowError(Exception):
    """A source took longer than ``SLOWEST`` seconds of processor time."""


def sources() -> tuple[Mapping[str, str], ...]:
    """What is mutated: the demonstrations, the sound patterns of the tests, those with it all."""
    small = [{"pattern.yaml": text, "waves.grid": WAVES} for text in (CAP, TUBE, FLAP)]
    folders = [*_folders(PATTERNS), *_folders(BASES)]
    whole = [
        {file.name: file.read_text(encoding="utf-8") for file in sorted(folder.iterdir())}
        for folder in folders
    ]
    return (*small, *small, *small, *whole, *(ALL_SORTS,) * 4, *(TUBES,) * 4)


def _folders(top: Path) -> list[Path]:
    return [folder for folder in sorted(top.iterdir()) if (folder / "pattern.yaml").exists()]


def bytes_of(files: Mapping[str, str]) -> dict[str, str | bytes]:
    """The files as they would lie in a folder; a picture is kept as a character for each byte."""
    return {
        name: text.encode("latin-1", "replace") if name.endswith((".png", ".jpg")) else text
        for name, text in files.items()
    }


def build(files: Mapping[str, str], pages: bool = False) -> str:
    """How far a source came: ``source``, ``plan``, ``document`` or ``all``; raises on a find."""
    memory, stage = MemoryFiles(bytes_of(files)), "source"
    try:
        source = read_source(memory)
        stage = "plan"
        plan = make_plan(source)
        stage = "document"
        document, charts = build_document(plan, memory)
        findings(plan, document, charts, memory)
        unprintable(source, document, memory)
    except PatternError:
        return stage
    from bindoff.render.text import render_text

    render_text(document).encode()
    json.dumps(figures(plan)).encode()
    if pages:
        from bindoff.render.pdf import PdfOptions, render_pdf
        from bindoff.render.svg import render_svg

        for page in charts:
            for tile in page.tiles:
                render_svg(tile.drawing, page.spec.title, tile.alt)
        try:
            render_pdf(document, PdfOptions())
        except PatternError:
            return "pages"
    return "all"


def fault(files: Mapping[str, str], pages: bool = False, slowest: float = SLOWEST) -> str:
    """The place in the program where ``files`` fail, or take more than ``slowest`` seconds of the
    processor's time; empty if they don't."""
    try:
        with limited(slowest):
            build(files, pages)
    except (Exception, RecursionError, MemoryError) as error:
        frames, trace = [], error.__traceback__
        while trace:
            frames.append((trace.tb_frame.f_code.co_filename, trace.tb_lineno))
            trace = trace.tb_next
        own = [f"{Path(file).name}:{line}" for file, line in frames if "bindoff" in file]
        where = own[-1] if own and not isinstance(error, SlowError) else ""
        if isinstance(error, SlowError | RecursionError | MemoryError):
            where = next((f for f in own if not f.startswith("pipeline")), "")
        return f"{type(error).__name__} {where}"
    return ""


@contextmanager
def limited(seconds: float = SLOWEST) -> Iterator[None]:
    """Raises ``SlowError`` after so many seconds of the processor's time, by ``pace``."""
    asked = False

    def stop(*_: object) -> None:
        nonlocal asked
        more = 0.0 if asked else seconds * (pace() - 1)
        asked = True
        if more <= 0:
            raise SlowError
        signal.setitimer(signal.ITIMER_PROF, more)

    # Time of the processor, not of the clock: a busy machine is no fault of a source.
    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def smallest(
    files: Mapping[str, str], name: str, pages: bool, seconds: float = 20
) -> dict[str, str]:
    """``files`` with as few lines as still fail in the same way."""
    best, end = dict(files), time.monotonic() + seconds
    size = 16
    while size:
        for file in best:
            at = 0
            lines = best[file].split("\n")
            while at < len(lines) and time.monotonic() < end:
                shorter = lines[:at] + lines[at + size :]
                if fault(best | {file: "\n".join(shorter)}, pages) == name:
                    lines = shorter
                    best[file] = "\n".join(lines)
                else:
                    at += size
        size //= 2
    return best


def run(
    count: int, seed: int, pages_every: int = 0, *, keep: bool = False
) -> tuple[Counter[str], dict[str, dict[str, str]]]:
    """How far ``count`` sources came, and a smallest case of each way to fail."""
    dice, bases = random.Random(seed), sources()
    donors = Donors(texts_of(bases))
    stages: Counter[str] = Counter()
    finds: dict[str, dict[str, str]] = {}
    built = 0
    for number in range(count):
        files = mutated(dice.choice(bases), dice, donors)
        try:
            with limited():
                stage = build(files)
                if stage == "all":
                    built += 1
                    if pages_every and built % pages_every == 0:
                        stage = build(files, pages=True)
                        stages["with pages"] += 1
        except (Exception, RecursionError, MemoryError):
            pages = not (name := fault(files)) and bool(pages_every)
            name = name or fault(files, pages) or "not again"
            stage = name
            if name not in finds:
                finds[name] = smallest(files, name, pages)
                print(f"{number}: {name}", flush=True)
                if keep:
                    _write(name, finds[name], seed)
        stages[stage] += 1
        if keep and (number + 1) % TOLD_EVERY == 0:
            print(f"{number + 1} sources, {time.process_time():.0f} s", dict(stages), flush=True)
    return stages, finds


def _write(name: str, files: Mapping[str, str], seed: int) -> None:
    FOUND.mkdir(exist_ok=True)
    safe = "".join(c if c.isalnum() else "-" for c in name)
    data = {"fault": name, "seed": seed, "files": files}
    (FOUND / f"{safe}-{seed}.json").write_text(json.dumps(data, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    started = time.monotonic()
    arguments = [int(each) for each in sys.argv[1:]]
    reached, found = run(arguments[0], arguments[1], *arguments[2:3], keep=True)
    print(f"seed {arguments[1]}: {sum(arguments[:1])} sources", dict(reached.most_common()))
    print(f"{len(found)} finds, {time.monotonic() - started:.0f} s")
