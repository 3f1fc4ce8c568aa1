"""A set of files is put into a folder as a whole, or not at all.

The new files are written to a hidden folder beside the target and take its place by two renames,
so a reader finds the last good output whole at every moment (for the instant between the renames
it bears the hidden name of the old folder). A run that was killed is cleaned up by the next one.

Every folder written here holds a list of its own files. Only a folder with such a list is ever
replaced, and only while nobody has put other files into it: a mistyped path costs nothing.
"""

import errno
import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path, PurePosixPath

from bindoff.diagnostics import PatternError, fail

LIST_NAME = ".output-list"
LOCK_SECONDS = 60.0

# What file managers leave in any folder they show.
_LITTER = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})


def publish(files: Mapping[str, bytes], folder: Path) -> None:
    """Make ``folder`` hold exactly ``files`` (relative path with ``/`` -> bytes).

    Parents are made as needed. A hidden file ``LIST_NAME`` is added. Builds into the same folder
    take turns, so their files never mix. Raises ``PatternError`` and leaves the folder as it was
    when a name is not a plain relative path, the folder holds foreign files, or the system refuses.
    """
    from filelock import FileLock, Timeout  # costs 30 ms, which `check` need not pay

    _refuse_odd_names(files)
    target = Path(os.path.realpath(folder))
    if not target.name:
        raise fail(
            "output.refused",
            f"`{folder}` is the root of a disk and cannot be replaced",
            "Name a folder below it with `--out`",
        )
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with FileLock(_beside(target, "lock"), timeout=LOCK_SECONDS):
            _recover(target)
            _refuse_foreign_files(target, folder)
            _write(files, _beside(target, "new"))
            _swap(target)
    except Timeout:
        raise fail(
            "output.busy",
            f"another build has been writing to `{folder}` for over {LOCK_SECONDS:.0f} seconds",
            "Wait for it to end, or stop it, and build again",
        ) from None
    except (OSError, NotImplementedError) as error:  # the latter: a disk that knows no locks
        raise _refused(folder, error) from error


def clear_remains(folder: Path) -> None:
    """Remove what a killed run left beside ``folder``; not while another build is at work there.

    What the system refuses to remove is left for another time.
    """
    target = Path(os.path.realpath(folder))
    if not any(_beside(target, role).exists() for role in ("new", "old")):
        return
    from filelock import FileLock, Timeout

    refusals = (Timeout, OSError, NotImplementedError)
    with suppress(*refusals), FileLock(_beside(target, "lock"), timeout=0):
        _recover(target)


def _beside(target: Path, role: str) -> Path:
    """The hidden neighbour of ``target`` that plays ``role``: lock, new or old."""
    return target.with_name(f".{target.name}.{role}")


def _recover(target: Path) -> None:
    """Undo what a killed run left; the caller holds the lock, so nobody else is at work."""
    old, new = _beside(target, "old"), _beside(target, "new")
    if old.exists():
        if target.exists():
            shutil.rmtree(old)
        else:
            old.rename(target)
    if new.exists():
        shutil.rmtree(new)


def _write(files: Mapping[str, bytes], new: Path) -> None:
    """Write all files below ``new``; on any failure remove it again."""
    try:
        new.mkdir()
        for name, content in files.items():
            path = new / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        (new / LIST_NAME).write_text("".join(f"{name}\n" for name in sorted(files)), "utf-8")
    except BaseException:
        shutil.rmtree(new, ignore_errors=True)
        raise


def _swap(target: Path) -> None:
    """Put the new folder in the place of the old one; on failure put the old one back."""
    old, new = _beside(target, "old"), _beside(target, "new")
    try:
        if target.exists():
            target.rename(old)
        new.rename(target)
    except BaseException:
        if old.exists() and not target.exists():
            old.rename(target)
        shutil.rmtree(new, ignore_errors=True)
        raise
    # The new output is in place: what cannot be removed now, the next run removes.
    shutil.rmtree(old, ignore_errors=True)


def _refuse_odd_names(files: Mapping[str, bytes]) -> None:
    """Names must be plain relative paths, and differ even where case is not told apart."""
    seen: dict[str, str] = {}
    for name in files:
        parts = name.split("/")
        if name == LIST_NAME or any(
            part in ("", ".", "..") or set(part) & set('\\:*?"<>|\n\r\0') for part in parts
        ):
            raise fail(
                "output.name",
                f"`{name}` cannot be the name of a file in the output",
                "Use letters, digits, dashes and dots in the name",
            )
        for known in (name, *map(str, list(PurePosixPath(name).parents)[:-1])):
            other = seen.get(known.casefold())
            if other is not None and (known == name or other != "folder"):
                raise fail(
                    "output.name",
                    f"two files of the output would both be called `{known}`",
                    "Give one of them another name",
                )
            seen[known.casefold()] = "file" if known == name else "folder"


def _refuse_foreign_files(target: Path, folder: Path) -> None:
    """The folder may be absent, empty, or hold what an earlier run listed; nothing else."""
    if not target.exists():
        return
    if not target.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, "not a folder")
    present = {
        path.relative_to(target).as_posix()
        for path in target.rglob("*")
        if not path.is_dir() or path.is_symlink()
    }
    ours = {LIST_NAME}
    with suppress(FileNotFoundError):
        ours |= set((target / LIST_NAME).read_text("utf-8", "replace").splitlines())
    foreign = sorted(name for name in present - ours if name.split("/")[-1] not in _LITTER)
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise fail(
            "output.foreign",
            f"`{folder}` holds files that no earlier build wrote: `{foreign[0]}`{more}",
            "Choose an empty folder with `--out`, or move those files away",
        )


def _refused(folder: Path, error: OSError | NotImplementedError) -> PatternError:
    """The system's refusal in the user's words."""
    match getattr(error, "errno", None):
        case errno.EACCES | errno.EPERM | errno.EROFS:
            message = f"no permission to write to `{folder}`"
            help = "choose another folder with `--out`, or allow writing to this one"
        case errno.ENOSPC | errno.EDQUOT:
            message = f"the disk is full: nothing was written to `{folder}`"
            help = "free some space and build again; the last output is untouched"
        case errno.ENOTDIR | errno.EEXIST:
            message = f"`{folder}` cannot be a folder: a file of that name is in the way"
            help = "choose another folder with `--out`, or move the file away"
        case errno.ENAMETOOLONG:
            message = f"the path `{folder}` is too long for this system"
            help = "choose a shorter one with `--out`"
        case _:
            message = f"could not write to `{folder}`: {getattr(error, 'strerror', '') or error}"
            help = "free the folder from other programs, or choose another one with `--out`"
    return fail("output.refused", message, help)
