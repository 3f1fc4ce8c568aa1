"""How long many patterns and long sessions take. Run by hand on a quiet machine; not a test.

    python -m tests.bench.catalogue [--patterns 200] [--saves 10] [--kills 0]

Prints the time and the largest process for a catalogue of generated patterns (one job and two,
cold and unchanged), the time from a save to the new PDF against that of a new command, and, with
``--kills``, what is found after a command was killed at so many random moments.
"""

import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from statistics import median
from time import perf_counter, sleep

from bindoff.render.output import STATE

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "patterns").iterdir())
COMMAND = [sys.executable, "-m", "bindoff"]
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT / "generator")}
WAITING = "waiting for a change"


def generate(folder: Path, number: int) -> list[str]:
    """So many patterns, the demos and the starting pattern in turn, each with a title of its own
    and the starting pattern also with a gauge of its own."""
    names = []
    for at in range(number):
        kinds = [*DEMOS, ROOT / "templates" / "start" / "cowl"]
        kind = kinds[at % len(kinds)]
        shutil.copytree(kind, folder / f"{kind.name}-{at:03}")
        source = folder / f"{kind.name}-{at:03}" / "pattern.yaml"
        lines = source.read_text("utf-8").splitlines(keepends=True)
        titled = [f"title: Number {at}\n" if line[:6] == "title:" else line for line in lines]
        text = "".join(titled)
        if kind not in DEMOS:
            text = text.replace("stitches: 20\n", f"stitches: {16 + at % 12}\n")
        source.write_text(text, "utf-8")
        names.append(source.parent.name)
    return names


def command(folder: Path, *arguments: str) -> tuple[float, float]:
    """Seconds that ``bindoff`` takes in a folder, and megabytes of its largest process."""
    with (folder / "log").open("w") as log:
        started = perf_counter()
        process = subprocess.Popen(
            [*COMMAND, *arguments], cwd=folder, env=ENVIRONMENT, stdout=log, stderr=log
        )
        _, status, used = os.wait4(process.pid, 0)
        seconds = perf_counter() - started
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit((folder / "log").read_text())
    return seconds, used.ru_maxrss / (1024**2 if sys.platform == "darwin" else 1024)


def many(folder: Path, number: int) -> None:
    """The table of a catalogue."""
    names = generate(folder, number)
    few = names[: max(len(names) // 10, 1)]
    one = command(folder, "build", *names, "--out", "one", "--jobs", "1")
    two = command(folder, "build", *names, "--out", "two", "--jobs", "2")
    same_1 = command(folder, "build", *names, "--out", "two", "--jobs", "1")
    same_2 = command(folder, "build", *names, "--out", "two", "--jobs", "2")
    with (folder / names[0] / "pattern.yaml").open("a") as file:
        file.write("\n# changed\n")
    changed = command(folder, "build", *names, "--out", "two")
    some = command(folder, "build", *few, "--out", "few", "--jobs", "1")
    print(f"{number} patterns{'seconds':>26}{'largest process':>18}{'times as fast':>16}")
    for what, (seconds, megabytes) in {
        "one job": one,
        "two jobs": two,
        "unchanged, one job": same_1,
        "unchanged, two jobs": same_2,
        "one of them changed": changed,
        f"{len(few)} of them, one job": some,
    }.items():
        faster = f"{one[0] / seconds:.2f}" if "of them, " not in what else ""
        print(f"  {what:<24}{seconds:>10.2f}{megabytes:>15.0f} MB{faster:>16}")


def saves(folder: Path, number: int) -> None:
    """From a save to the new PDF in a watch, against a new command, for each demo."""
    print(f"\nmedian of {number}{'new command':>20}{'save to PDF':>14}{'ratio':>8}")
    for demo in DEMOS:
        shutil.copytree(demo, folder / demo.name)
        pairs = list(_pairs(folder, demo.name, number))
        cold, warm = (median(each) for each in zip(*pairs, strict=True))
        ratio = median(warm / cold for cold, warm in pairs)
        print(f"  {demo.name:<20}{cold:>8.3f} s{warm:>12.3f} s{ratio:>8.2f}")


def _pairs(folder: Path, name: str, number: int) -> Iterator[tuple[float, float]]:
    """Seconds of a new command and, right after it, of a save; so both meet the same noise."""
    source, pdf = folder / name / "pattern.yaml", folder / "out" / name / f"{name}.pdf"
    text, chance = source.read_text("utf-8"), random.Random(1)
    with subprocess.Popen(
        [*COMMAND[:1], "-u", *COMMAND[1:], "watch", name, "--out", "out"],
        cwd=folder,
        env=ENVIRONMENT,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as process:
        assert process.stdout is not None
        for at in range(number):
            while WAITING not in process.stdout.readline():
                assert process.poll() is None
            cold, _ = command(folder, "build", name, "--out", "cold", "--force")
            sleep(chance.uniform(0, 0.1))  # so that a save falls anywhere between two looks
            before = pdf.stat().st_mtime_ns
            source.write_text(f"{text}\n# save {at}\n", "utf-8")
            started = perf_counter()
            while _written(pdf) in (None, before):
                sleep(0.001)
            yield cold, perf_counter() - started
        process.send_signal(signal.SIGINT)


def _written(path: Path) -> int | None:
    try:
        return path.stat().st_mtime_ns
    except FileNotFoundError:  # the instant of the exchange
        return None


def kills(folder: Path, number: int) -> None:
    """Kill a command that builds two patterns at a time, and look at what stands after it."""
    names = generate(folder, 4)[2:]
    out = folder / "out"
    arguments = ("build", *names, "--out", "out", "--jobs", "2", "--force")
    whole: dict[str, list[Mapping[str, bytes]]] = {name: [] for name in names}
    seconds = 0.0
    for edition in (0, 1):
        _edit(folder, names, edition)
        seconds, _ = command(folder, *arguments)
        for name in names:
            whole[name].append(_contents(out / name))
    found, chance = Counter[str](), random.Random(2)
    for at in range(number):
        _edit(folder, names, at % 2)
        process = subprocess.Popen(
            [*COMMAND, *arguments],
            cwd=folder,
            env=ENVIRONMENT,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        sleep(chance.uniform(0.3, 1.1) * seconds)
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        for name in names:
            standing = _contents(out / name) or _contents(out / STATE / f"{name}.old")
            kind = ("the old one", "the new one")
            if standing not in whole[name]:
                found["BROKEN"] += 1
            else:
                found[kind[standing == whole[name][at % 2]]] += 1
            left = [out / STATE / f"{name}.{role}" for role in ("new", "old")]
            found["left something for the next run to clear"] += any(map(Path.exists, left))
    command(folder, *arguments)
    print(f"\n{number} commands killed, {len(names)} outputs looked at after each")
    for what, count in sorted(found.items()):
        print(f"  {what}: {count}")


def _edit(folder: Path, names: Sequence[str], edition: int) -> None:
    for name in names:
        source = folder / name / "pattern.yaml"
        lines = source.read_text("utf-8").splitlines(keepends=True)
        titled = [f"title: Edition {edition}\n" if line[:6] == "title:" else line for line in lines]
        source.write_text("".join(titled), "utf-8")


def _contents(folder: Path) -> Mapping[str, bytes]:
    paths = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


def in_a_folder(work: Callable[[Path, int], None], number: int) -> None:
    """Run one part, in a folder of its own, unless its number is 0."""
    if number:
        with tempfile.TemporaryDirectory() as folder:
            work(Path(folder), number)


if __name__ == "__main__":
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--patterns", type=int, default=200)
    parser.add_argument("--saves", type=int, default=10)
    parser.add_argument("--kills", type=int, default=0)
    asked = parser.parse_args()
    in_a_folder(many, asked.patterns)
    in_a_folder(saves, asked.saves)
    in_a_folder(kills, asked.kills)
