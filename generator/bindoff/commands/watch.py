"""``bindoff watch``: build, then build again whenever a file of the pattern is saved.

The files are looked at some times a second: that works on every disk, also one of another machine,
costs next to nothing for the few files of a pattern, and needs no library. Whatever a build loads
stays loaded, so a save is built in a fraction of the time that a new command needs.
"""

import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from time import perf_counter, sleep
from typing import Any

import click

from bindoff.catalogue import BuildState, Built, Job, Request, build, still
from bindoff.commands.build import output_options, request, to_build
from bindoff.commands.shared import named, say
from bindoff.files import DiskFiles, MemoryFiles, Seen, packaged_template
from bindoff.records import Record
from bindoff.report import full, summary, visible

PAUSE = 0.02
"""Seconds between looks; more where a look takes long, so that nine tenths of the time are free."""

SETTLE = 0.015
"""Seconds in which no file may change before it counts as saved: some editors write in parts."""

PATIENCE = 0.2
"""Seconds in which no file may change before an error is told: others take a file away first."""

_LONGEST_SETTLE = 100  # looks; then a file that never rests is built as it is

Looks = tuple[object, ...]


class _Watched(Record):
    """A job, what its last build looked at, and how that looked afterwards.

    ``looks`` is ``None`` if it changed meanwhile; ``state`` is ``None`` if nothing was told.
    """

    job: Job
    looked_at: Mapping[str, Seen]
    looks: Looks | None
    state: BuildState | None

    @property
    def changed(self) -> bool:
        """Whether it is to be built again."""
        return self.looks is None or _looks(self.looked_at) != self.looks


@click.command(name="watch")
@click.argument("patterns", nargs=-1, required=True, type=click.Path(), metavar="PATTERN...")
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
    watched = [_build(job, wait) for job in jobs]
    _say_waiting()
    if all(each.state is not BuildState.BUILT for each in watched):
        _warm_up(jobs[0].request)
    while True:
        started = perf_counter()
        changed = [at for at, each in enumerate(watched) if each.changed]
        if not changed:
            wait(max(PAUSE, 9 * (perf_counter() - started)))
            continue
        for at in changed:
            _settle(watched[at].looked_at, wait)
            watched[at] = _build(watched[at].job, wait)
        if any(watched[at].state for at in changed):
            _say_waiting()


def _build(job: Job, wait: Callable[[float], None]) -> _Watched:
    """Build and tell what came of it; tell nothing of a fault in files that are still changing."""
    started = perf_counter()
    built = build(job)
    seconds = perf_counter() - started
    looks = _looks(built.looked_at)
    failed = built.state is BuildState.FAILED
    if failed:
        wait(PATIENCE)
    rests = _looks(built.looked_at) == looks and still(built.looked_at)
    told = rests or not failed
    if told:
        _tell(job, built, seconds)
    return _Watched(job, built.looked_at, looks if rests else None, built.state if told else None)


def _tell(job: Job, built: Built, seconds: float) -> None:
    pattern = named(job.argument)
    if built.findings:
        say(full(built.findings, pattern.files.lines), err=True)
    found = summary(built.findings)
    folder = Path(job.out) / pattern.called
    if built.state is not BuildState.FAILED:
        extra = f" with {found}" if built.findings else ""
        took = f" in {seconds:.2f} s" if built.state is BuildState.BUILT else ""
        say(f"{visible(job.argument)}: {built.state}{extra}{took}: {visible(str(folder))}")
    elif folder.is_dir():
        say(
            f"{visible(job.argument)}: {found}; `{visible(str(folder))}` keeps the last good output"
        )
    else:
        say(f"{visible(job.argument)}: {found}; nothing is built yet")


def _say_waiting() -> None:
    say("waiting for a change (Ctrl-C ends)")


def _settle(looked_at: Mapping[str, Seen], wait: Callable[[float], None]) -> None:
    """Wait until the files rest."""
    before = _looks(looked_at)
    for _ in range(_LONGEST_SETTLE):
        wait(SETTLE)
        now = _looks(looked_at)
        if now == before:
            return
        before = now


def _looks(looked_at: Mapping[str, Seen]) -> Looks:
    """How all that a build looked at looks from outside, without reading it."""
    return tuple(_look(looked_at))


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
    from bindoff.pipeline import build_pattern

    names = ("pattern.yaml", "waves.grid")
    parts = {part: packaged_template(f"start/cowl/{part}") for part in names}
    files = MemoryFiles({part: text for part, text in parts.items() if text is not None})
    build_pattern(files, "pattern.yaml", "start", asked.pdf)
