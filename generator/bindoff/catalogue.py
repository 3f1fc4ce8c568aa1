"""Many patterns: several built at a time, unchanged ones left as they are, told in their order.

With its outputs a folder gets a record of all that they were made of. The pattern is unchanged as
long as that is the same to the byte and the outputs are as they were written.
"""

import hashlib
import json
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bindoff.commands.shared import Named, attempt, named
from bindoff.diagnostics import Diagnostic, Severity, Span
from bindoff.editions import TextOptions, Wanted
from bindoff.files import DiskFiles, Seen, template_folder
from bindoff.installed import version_of
from bindoff.kept import keep_all
from bindoff.records import Record, field, replace
from bindoff.render.pdf import PdfOptions

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

    from bindoff.source.statedgauge import StatedGauge

FEW = 4
"""Up to so many patterns are built one after the other: starting helpers takes as long."""

_FORMER_RECORD = ".built"
"""What earlier versions of the program kept among the outputs."""

# What the bytes of the outputs depend on beside the program itself.
_LIBRARIES = (
    "coloraide",
    "fontpkg-ibm-plex-serif",
    "fontpkg-lato",
    "jinja2",
    "lark",
    "markdown-it-py",
    "pikepdf",
    "pillow",
    "pydantic",
    "pyphen",
    "pyyaml",
    "reportlab",
    "uharfbuzz",
)


class Request(Record):
    """All that the command line asks of the outputs of every pattern.

    ``gauges`` stand in for those of the source; ``changes`` is the path of an earlier version, or
    empty. The record keeps the text of it, so every field must show all that it means.
    """

    pdf: PdfOptions = field(default_factory=PdfOptions)
    gauges: "tuple[StatedGauge, ...]" = ()
    changes: str = ""
    editions: Wanted = field(default_factory=Wanted)
    text: TextOptions = field(default_factory=TextOptions)


class Job(Record):
    """One pattern to build below the folder ``out``.

    ``program`` is the digest of this program; ``force`` builds an unchanged pattern too; ``clean``
    removes the editions that were made of the pattern as it was earlier.
    """

    argument: str
    out: str
    request: Request
    program: str
    force: bool = False
    clean: bool = False


class BuildState(StrEnum):
    """What came of a pattern."""

    BUILT = "built"
    UNCHANGED = "unchanged"
    FAILED = "failed"


class Built(Record):
    """What came of a job: findings, the outputs' paths, and what was looked at in which folder.

    A folder is named as the user wrote it.
    """

    argument: str
    state: BuildState
    findings: tuple[Diagnostic, ...] = ()
    paths: tuple[str, ...] = ()
    looked_at: Mapping[str, Seen] = field(default_factory=dict)


def program() -> str:
    """A digest of this program, its templates, fonts and libraries.

    It says more than a version does, so a changed program never passes for the one that built.
    """
    digest = hashlib.sha256(sys.version.encode())
    for name in _LIBRARIES:
        if installed := version_of(name):
            digest.update(f"{name} {installed}\n".encode())
    for top in (package_folder(), template_folder()):
        for name, path in _contents(str(top)):
            with open(path, "rb", buffering=0) as file:
                data = file.read()
            digest.update(f"{name} {len(data)}\n".encode())
            digest.update(data)
    return digest.hexdigest()


def package_folder() -> Path:
    """Where this program is."""
    return Path(__file__).parent


def _contents(folder: str, prefix: str = "") -> Iterator[tuple[str, str]]:
    """All files below a folder that outputs depend on, in the order of their names, with paths."""
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda entry: entry.name):
            if not entry.is_dir():
                yield f"{prefix}{entry.name}", entry.path
            elif entry.name not in ("__pycache__", "desk"):  # what Python writes, what only shows
                yield from _contents(entry.path, f"{prefix}{entry.name}/")


def default_workers(patterns: int) -> int:
    """How many patterns to build at a time: one, but for more than ``FEW`` all processors."""
    if patterns <= FEW:
        return 1
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def build_all(jobs: Sequence[Job], workers: int) -> Iterator[Built]:
    """Build all, ``workers`` at a time; the results come in the order of the jobs.

    If the system ends one of the processes that build, all they had at hand is built again, one
    pattern alone for each such end, so the pattern that brings a process down is found and named.
    """
    if min(workers, len(jobs)) <= 1:
        yield from map(build, jobs)
        return
    done: dict[int, Built] = {}
    at = 0
    while at < len(jobs):
        pool = _pool(min(workers, len(jobs) - at))
        futures: dict[int, Future[Built]] = {}
        try:
            _submit(pool, jobs, futures, [i for i in range(at, len(jobs)) if i not in done])
            while at < len(jobs):
                result = done.get(at) or _result(futures.get(at))
                if result is None:
                    break
                yield result
                at += 1
        finally:
            pool.shutdown(cancel_futures=True)
        done |= {i: result for i, future in futures.items() if (result := _result(future))}
        if at < len(jobs) and at not in done:
            done[at] = _alone(jobs[at])


def _pool(workers: int) -> "ProcessPoolExecutor":
    from concurrent.futures import ProcessPoolExecutor  # 20 ms that one pattern need not pay

    return ProcessPoolExecutor(workers, initializer=_attend)


def _attend() -> None:
    """In a process that builds: leave Ctrl-C to the main process, end when that ends, and keep what
    was worked out for the next run."""
    import signal
    import threading
    from multiprocessing import parent_process
    from multiprocessing.util import Finalize

    Finalize(None, keep_all, exitpriority=0)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()

    def end_with_parent() -> None:
        if parent is not None:
            parent.join()
            os._exit(1)

    threading.Thread(target=end_with_parent, daemon=True).start()


def _submit(
    pool: "ProcessPoolExecutor",
    jobs: Sequence[Job],
    futures: "dict[int, Future[Built]]",
    wanted: Iterable[int],
) -> None:
    from concurrent.futures.process import BrokenProcessPool

    with suppress(BrokenProcessPool):
        for i in wanted:
            futures[i] = pool.submit(build, jobs[i])


def _result(future: "Future[Built] | None") -> Built | None:
    """The result; ``None`` if the pool broke before there was one."""
    from concurrent.futures.process import BrokenProcessPool

    if future is None or future.cancelled():
        return None
    try:
        return future.result()
    except BrokenProcessPool:
        return None


def _alone(job: Job) -> Built:
    """Build one pattern in a process of its own, and survive its end."""
    pool = _pool(1)
    try:
        result = _result(pool.submit(build, job))
    finally:
        pool.shutdown(cancel_futures=True)
    if result is not None:
        return result
    ended = Diagnostic(
        "build.ended",
        f"the system ended the build of `{job.argument}`, most often for want of memory",
        "Close other programs, or build it by itself",
    )
    return Built(job.argument, BuildState.FAILED, (ended,))


def build(job: Job, made: Callable[[float], object] = lambda share: None) -> Built:
    """Build one pattern, or leave it if it is unchanged; whatever goes wrong is in the result.

    ``made`` is told the share, from 0 to 1, that has been made.
    """
    pattern = named(job.argument)
    earlier = _earlier(job.request, pattern)

    for each in filter(None, (pattern, earlier)):
        each.files.exists(each.source)  # so that it is among what was looked at in any case

    def work(pattern: Named) -> Built:
        folder = Path(job.out) / pattern.called
        standing = None if job.force else _standing(job, pattern, folder)
        return standing or _anew(job, pattern, earlier, folder, made)

    done = attempt(pattern, work)
    if isinstance(done, Built):
        return done
    looked_at = _looked_at(pattern, earlier)
    return Built(job.argument, BuildState.FAILED, done, looked_at=looked_at)


def _earlier(asked: Request, pattern: Named) -> Named | None:
    """The earlier version that is asked for; what it reads in the same folder is seen as one."""
    if not asked.changes:
        return None
    earlier = named(asked.changes)
    same = earlier.files.folder == pattern.files.folder
    return replace(earlier, files=pattern.files) if same else earlier


def still(looked_at: Mapping[str, Seen]) -> bool:
    """Whether all that was looked at is the same now, to the byte."""
    return all(DiskFiles(folder).still(seen) for folder, seen in looked_at.items())


def _anew(
    job: Job,
    pattern: Named,
    earlier: Named | None,
    folder: Path,
    made: Callable[[float], object],
) -> Built:
    """Build a pattern and publish its outputs with their record."""
    from bindoff.pipeline import build_pattern, plan_pattern
    from bindoff.render.output import publish

    asked = job.request
    before = plan_pattern(earlier.files, earlier.source, earlier.called) if earlier else None
    outputs = build_pattern(
        pattern.files,
        pattern.source,
        pattern.called,
        asked.pdf,
        asked.gauges,
        before,
        asked.editions,
        asked.text,
        made=made,
    )
    looked_at = _looked_at(pattern, earlier)
    entry = {
        "asked": _asked(job, pattern),
        "looked at": {
            "" if place == str(pattern.files.folder) else place: _seen_data(seen)
            for place, seen in looked_at.items()
        },
        "outputs": {name: _digest(data) for name, data in outputs.files.items()},
        "findings": [_finding_data(finding, pattern.files) for finding in outputs.findings],
    }
    stale = set[str]()

    def merge(before: str, ours: frozenset[str]) -> tuple[str, frozenset[str]]:
        builds = {key: each for key, each in _builds(before).items() if _goes_with(each, entry)}
        builds[_key(asked)] = entry
        fresh = {name for each in builds.values() for name in each["outputs"]}
        stale.update(() if job.clean else ours - fresh - {_FORMER_RECORD})
        text = json.dumps({"builds": builds}, indent=1, sort_keys=True) + "\n"
        return text, ours & fresh if job.clean else ours - {_FORMER_RECORD}

    publish(outputs.files, folder, merge)
    paths = _paths(folder, outputs.files)
    findings = (*outputs.findings, *_stale(folder, stale))
    return Built(job.argument, BuildState.BUILT, findings, paths, looked_at)


def _standing(job: Job, pattern: Named, folder: Path) -> Built | None:
    """What stands in the folder, if a build would make the same; ``None`` if not, or in doubt."""
    from bindoff.render.output import clear_remains, listed, record_of

    with suppress(OSError, LookupError, TypeError, ValueError, AttributeError, RecursionError):
        builds = _builds(record_of(folder))
        record = builds[_key(job.request)]
        looked_at = {
            place or str(pattern.files.folder): _seen(data)
            for place, data in record["looked at"].items()
        }
        same = (
            record["asked"] == _asked(job, pattern)
            and still(looked_at)
            and all(
                _digest((folder / name).read_bytes()) == digest
                for name, digest in record["outputs"].items()
            )
        )
        fresh = {n for each in builds.values() if _goes_with(each, record) for n in each["outputs"]}
        stale = listed(folder) - fresh
        if same and not (job.clean and stale):
            clear_remains(folder)
            found = tuple(_finding(data, pattern.files) for data in record["findings"])
            paths = _paths(folder, record["outputs"])
            findings = (*found, *_stale(folder, stale))
            return Built(job.argument, BuildState.UNCHANGED, findings, paths, looked_at)
    return None


def _builds(record: str) -> dict[str, Any]:
    """What each request built, from the text of a record; nothing of one that is damaged."""
    with suppress(LookupError, TypeError, ValueError, RecursionError):
        builds = json.loads(record)["builds"]
        return {key: each for key, each in builds.items() if isinstance(each, dict)}
    return {}


def _key(asked: Request) -> str:
    return _digest(repr(asked).encode())[:16]


def _goes_with(other: Any, entry: Any) -> bool:
    """Whether two builds were made of the same files and came to the same figures."""
    with suppress(LookupError, TypeError, AttributeError):
        one, two = other["looked at"][""]["read"], entry["looked at"][""]["read"]
        same = all(one[name] == two[name] for name in one.keys() & two.keys())
        figures = "numbers.json"
        return bool(same and other["outputs"][figures] == entry["outputs"][figures])
    return False


def _stale(folder: Path, names: Iterable[str]) -> Iterator[Diagnostic]:
    """The note that some files were made of an earlier version."""
    found = sorted(names)
    if found:
        more = f" and {len(found) - FEW} more" if len(found) > FEW else ""
        yield Diagnostic(
            "output.stale",
            f"`{folder}` still holds files of an earlier version or gauge: "
            + ", ".join(f"`{name}`" for name in found[:FEW])
            + more,
            "Build these editions again, or remove them all with `--clean`",
            severity=Severity.NOTE,
        )


def _asked(job: Job, pattern: Named) -> str:
    """A digest of all that decides the outputs beside the contents of the files."""
    names = (pattern.source, pattern.called, pattern.files.name)
    return _digest(repr((job.program, job.request, names)).encode())


def _looked_at(*patterns: Named | None) -> dict[str, Seen]:
    """What was looked at in which folder."""
    return {str(each.files.folder): each.files.seen for each in patterns if each is not None}


def _seen_data(seen: Seen) -> dict[str, Any]:
    return {"read": seen.read, "there": seen.there, "listed": seen.listed}


def _seen(data: Any) -> Seen:
    listed = {name: tuple(names) for name, names in data["listed"].items()}
    return Seen(data["read"], data["there"], listed)


def _paths(folder: Path, names: Iterable[str]) -> tuple[str, ...]:
    return tuple(str(folder / name) for name in sorted(names))


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _finding_data(finding: Diagnostic, files: DiskFiles) -> dict[str, Any]:
    """A finding for the record, which holds no path of this machine."""
    place = None
    if finding.span is not None:
        span = finding.span
        name = span.file.removeprefix(files.display(""))
        own = name in files.seen.read
        numbers = [span.line, span.column, span.end_line, span.end_column]
        place = [own, name if own else span.file, *numbers]
    return {
        "id": finding.id,
        "message": finding.message,
        "help": finding.help,
        "severity": finding.severity.value,
        "place": place,
        "sizes": list(finding.sizes),
        "follows": [_finding_data(each, files) for each in finding.follows],
    }


def _finding(data: Any, files: DiskFiles) -> Diagnostic:
    span = None
    if data["place"] is not None:
        own, file, *numbers = data["place"]
        span = Span(files.display(file) if own else file, *numbers)
    severity = Severity(data["severity"])
    return Diagnostic(
        data["id"],
        data["message"],
        data["help"],
        span,
        severity,
        tuple(data["sizes"]),
        tuple(_finding(each, files) for each in data["follows"]),
    )
