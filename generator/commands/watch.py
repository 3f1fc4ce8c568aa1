"""``bindoff watch``: build, then build again whenever a file of the pattern is saved.

The files are looked at some times a second: that works on every disk, also one of another machine,
costs next to nothing for the few files of a pattern, and needs no library. Whatever a build loads
stays loaded, so a save is built in a fraction of the time that a new command needs.
"""

import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from time import perf_counter, sleep
from typing import Any

import click

from generator.catalogue import Built, Job, Request, State, build, still
from generator.commands.build import output_options, request, to_build
from generator.commands.shared import named, say
from generator.files import DiskFiles, MemoryFiles, Seen, packaged_template
from generator.report import full, summary

PAUSE = 0.05
"""Seconds between looks; more where a look takes long, so that nine tenths of the time are free."""

SETTLE = 0.03
"""Seconds in which no file may change before it counts as saved: some editors write in parts."""

PATIENCE = 0.2
"""Seconds in which no file may change before an error is told: others take a file away first."""

_LONGEST_SETTLE = 100  # looks; then a file that never rests is built as it is

Looks = tuple[object, ...]


@dataclass(slots=True)
class _Watched:
    """A job, what its last build looked at, and how that looked when it had been built."""

    job: Job
    looked_at: Mapping[str, Seen] = field(default_factory=dict)
    looks: Looks | None = None  # None: to be built


@click.command(name="watch")
@click.argument("patterns", nargs=-1, required=True, metavar="PATTERN...")
@click.option("--out", default="build", show_default=True, help="Folder for the outputs.")
@output_options
def command(patterns: tuple[str, ...], out: str, **options: Any) -> None:
    """Build every PATTERN (a folder or its pattern.yaml), and again on every save.

    Errors are shown, and the last good output is kept until they are put right. Ctrl-C ends it.
    """
    try:
        watch(to_build(patterns, out, request(**options), force=False), sleep)
    except KeyboardInterrupt:
        say("\nstopped")
    sys.exit(0)


def watch(jobs: Sequence[Job], wait: Callable[[float], None]) -> None:
    """Build all, then whatever changes, until ``wait`` (seconds) or the user interrupts it."""
    watched = [_Watched(job) for job in jobs]
    states = [_build(each, wait) for each in watched]
    _say_waiting()
    if State.BUILT not in states:
        _warm_up(jobs[0].request)
    while True:
        started = perf_counter()
        changed = [each for each in watched if each.looks is None or _looks(each) != each.looks]
        if not changed:
            wait(max(PAUSE, 9 * (perf_counter() - started)))
            continue
        for each in changed:
            _settle(each, wait)
        told = [_build(each, wait) for each in changed]
        if any(told):
            _say_waiting()


def _build(watched: _Watched, wait: Callable[[float], None]) -> State | None:
    """Build and tell what came of it; tell nothing of a fault in files that are still changing."""
    started = perf_counter()
    built = build(watched.job)
    seconds = perf_counter() - started
    watched.looked_at = built.looked_at
    watched.looks = _looks(watched)
    if built.state is State.FAILED:
        wait(PATIENCE)
    if _looks(watched) != watched.looks or not still(built.looked_at):
        watched.looks = None
        if built.state is State.FAILED:
            return None
    _tell(watched.job, built, seconds)
    return built.state


def _tell(job: Job, built: Built, seconds: float) -> None:
    pattern = named(job.argument)
    if built.findings:
        say(full(built.findings, pattern.files.lines), err=True)
    found = summary(built.findings)
    folder = Path(job.out) / pattern.called
    if built.state is not State.FAILED:
        extra = f" with {found}" if built.findings else ""
        say(f"{job.argument}: {built.state}{extra} in {seconds:.2f} s: {folder}")
    elif folder.is_dir():
        say(f"{job.argument}: {found}; `{folder}` keeps the last good output")
    else:
        say(f"{job.argument}: {found}; nothing is built yet")


def _say_waiting() -> None:
    say("waiting for a change (Ctrl-C ends)")


def _settle(watched: _Watched, wait: Callable[[float], None]) -> None:
    """Wait until the files rest."""
    before = _looks(watched)
    for _ in range(_LONGEST_SETTLE):
        wait(SETTLE)
        now = _looks(watched)
        if now == before:
            return
        before = now


def _looks(watched: _Watched) -> Looks:
    """How all that the last build looked at looks from outside, without reading it."""
    return tuple(_look(watched.looked_at))


def _look(looked_at: Mapping[str, Seen]) -> Iterator[object]:
    for folder, seen in looked_at.items():
        for name in dict.fromkeys((*seen.read, *seen.there)):
            yield _outside(os.path.join(folder, name))
        files = DiskFiles(folder)
        for name in seen.listed:
            yield files.list_dir(name)


def _outside(path: str) -> tuple[int, int, int] | None:
    """When a file was written, its size and its number on the disk; ``None`` if it isn't there."""
    try:
        there = os.stat(path)
    except (OSError, ValueError):  # the latter: a name that no file can have
        return None
    return there.st_mtime_ns, there.st_size, there.st_ino


def _warm_up(asked: Request) -> None:
    """Load what a build needs while nobody waits for it, by building the starting pattern."""
    from generator.pipeline import build_pattern

    parts = {part: packaged_template(f"start/{part}") for part in ("pattern.yaml", "waves.grid")}
    files = MemoryFiles({part: text for part, text in parts.items() if text is not None})
    build_pattern(files, "pattern.yaml", "start", asked.pdf)
