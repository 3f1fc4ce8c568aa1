"""A set of files is put into a folder as a whole, or not at all.

The new files are written beside the folder's place and take it by two renames, so a reader finds
the last good output whole at every moment (for the instant between the renames it lies among the
program's own things). A run that was killed is cleaned up by the next one.

What the program keeps for itself, the list of its files, a record of what they were made of, the
lock, lies in the hidden folder ``STATE`` beside: the folder itself holds nothing but outputs, to be
zipped and uploaded as it is. What no run wrote is never removed and never written over.
"""

import errno
import os
import shutil
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from pathlib import Path, PurePosixPath

from bindoff import regex as re
from bindoff.diagnostics import PatternError, fail

STATE = ".bindoff"
LOCK_SECONDS = 60.0

# What file managers leave in any folder they show.
_LITTER = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})

_FORMER_LIST = ".output-list"
"""Where earlier versions of the program kept the list: in the folder itself."""

_DEVICES = re.compile(r"(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]) *(\..*)?", re.IGNORECASE)

Merge = Callable[[str, frozenset[str]], tuple[str, frozenset[str]]]
"""From the record of earlier runs (empty if there is none) and the names of their files beside the
new ones: the record to keep, and those of the files that stay."""


def nothing_stays(_: str, __: frozenset[str]) -> tuple[str, frozenset[str]]:
    """A ``Merge`` after which the folder holds the new files alone."""
    return "", frozenset()


def is_reserved(name: str) -> bool:
    """Whether Windows takes a file of that name for a device: ``con``, ``nul.pdf``, ``com1``.

    Source: Microsoft, "Naming Files, Paths, and Namespaces"; from memory.
    """
    return _DEVICES.fullmatch(name) is not None


def publish(files: Mapping[str, bytes], folder: Path, merge: Merge = nothing_stays) -> None:
    """Put ``files`` (relative path with ``/`` -> bytes) into ``folder``, beside those that stay.

    Parents are made as needed. Builds into the same folder take turns, so their files never mix.
    Raises ``PatternError`` and leaves the folder as it was when a name is not a plain relative
    path, the folder holds foreign files, or the system refuses; only where another program holds
    some files open the others are replaced all the same.
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
        _state(target, "lock").parent.mkdir(parents=True, exist_ok=True)
        with FileLock(_state(target, "lock"), timeout=LOCK_SECONDS):
            _recover(target)
            ours = _ours(target)
            _refuse_foreign_files(target, folder, ours, files)
            taken = {name.casefold() for name in files}
            others = frozenset(name for name in ours if name.casefold() not in taken)
            record, staying = merge(record_of(folder), others)
            new = _state(target, "new")
            _write(files, new)
            _carry(target, new, staying)
            # Until all is in place both the old and the new files count as ours.
            _note(target, "list", "".join(f"{name}\n" for name in sorted(ours | set(files))), new)
            _swap(target, folder, ours)
            _note(target, "list", "".join(f"{name}\n" for name in sorted(_ours(target))))
            _note(target, "json", record)
    except Timeout:
        raise fail(
            "output.busy",
            f"another build has been writing to `{folder}` for over {LOCK_SECONDS:.0f} seconds",
            "Wait for it to end, or stop it, and build again",
        ) from None
    except (OSError, NotImplementedError) as error:  # the latter: a disk that knows no locks
        raise _refused(folder, error) from error


def record_of(folder: Path) -> str:
    """The record of the runs that wrote the files of ``folder``; empty if it can't be read."""
    try:
        return _state(Path(os.path.realpath(folder)), "json").read_text("utf-8", "replace")
    except OSError:
        return ""


def listed(folder: Path) -> frozenset[str]:
    """The files of ``folder`` that runs of this program wrote."""
    return _ours(Path(os.path.realpath(folder)))


def clear_remains(folder: Path) -> None:
    """Remove what a killed run left beside ``folder``; not while another build is at work there.

    What the system refuses to remove is left for another time.
    """
    target = Path(os.path.realpath(folder))
    if not any(_state(target, role).exists() for role in ("new", "old")):
        return
    from filelock import FileLock, Timeout

    refusals = (Timeout, OSError, NotImplementedError)
    with suppress(*refusals), FileLock(_state(target, "lock"), timeout=0):
        _recover(target)


def _state(target: Path, role: str) -> Path:
    """What the program keeps of ``target``: its list, json, lock, and the folders new and old."""
    return target.parent / STATE / f"{target.name}.{role}"


def _recover(target: Path) -> None:
    """Undo what a killed run left; the caller holds the lock, so nobody else is at work."""
    old, new = _state(target, "old"), _state(target, "new")
    if old.exists():
        if target.exists():
            shutil.rmtree(old)
        else:
            old.rename(target)
    if new.exists():
        shutil.rmtree(new)


def _ours(target: Path) -> frozenset[str]:
    """The files that earlier runs listed, as far as they are there."""
    ours = set[str]()
    for listing in (_state(target, "list"), target / _FORMER_LIST):
        with suppress(OSError):
            ours |= set(listing.read_text("utf-8", "replace").splitlines())
    if (target / _FORMER_LIST).exists():
        ours.add(_FORMER_LIST)
    return frozenset(name for name in ours if (target / name).is_file())


def _write(files: Mapping[str, bytes], new: Path) -> None:
    """Write all files below ``new``; on any failure remove it again."""
    try:
        new.mkdir()
        for name, content in files.items():
            path = new / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
    except BaseException:
        shutil.rmtree(new, ignore_errors=True)
        raise


def _carry(target: Path, new: Path, names: Iterable[str]) -> None:
    """The files of those names into ``new`` too, without writing them anew where a link will do."""
    try:
        for name in names:
            if name != _FORMER_LIST and not (new / name).exists():
                (new / name).parent.mkdir(parents=True, exist_ok=True)
                try:
                    os.link(target / name, new / name)
                except (OSError, NotImplementedError):
                    shutil.copy2(target / name, new / name)
    except BaseException:
        shutil.rmtree(new, ignore_errors=True)
        raise


def _note(target: Path, role: str, text: str, new: Path | None = None) -> None:
    """Write a small file of the program's own whole or not at all; then ``new`` is given up."""
    place = _state(target, role)
    draft = place.with_name(f"{place.name}.draft")
    try:
        draft.write_text(text, "utf-8")
        os.replace(draft, place)
    except BaseException:
        draft.unlink(missing_ok=True)
        if new is not None:
            shutil.rmtree(new, ignore_errors=True)
        raise


def _swap(target: Path, folder: Path, ours: Iterable[str]) -> None:
    """Put the new folder in the place of the old one; on failure put the old one back."""
    old, new = _state(target, "old"), _state(target, "new")
    try:
        if target.exists():
            try:
                target.rename(old)
            except PermissionError:  # on Windows: a file of it is open in another program
                _replace_each(target, new, folder, ours)
                shutil.rmtree(new, ignore_errors=True)
                return
        new.rename(target)
    except BaseException:
        if old.exists() and not target.exists():
            old.rename(target)
        shutil.rmtree(new, ignore_errors=True)
        raise
    # The new output is in place: what cannot be removed now, the next run removes.
    shutil.rmtree(old, ignore_errors=True)


def _replace_each(target: Path, new: Path, folder: Path, ours: Iterable[str]) -> None:
    """Replace file after file; raises ``PatternError`` for those that another program holds."""
    held = []
    names = [path.relative_to(new) for path in sorted(new.rglob("*")) if path.is_file()]
    for gone in {*map(Path, ours)} - {*names}:
        with suppress(OSError):
            (target / gone).unlink()
    for name in names:
        try:
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            os.replace(new / name, target / name)
        except PermissionError:
            held.append(name.as_posix())
    if held:
        rest = "the other files are new" if len(held) < len(names) else "nothing is new"
        raise fail(
            "output.held",
            f"another program holds {', '.join(f'`{folder / name}`' for name in held)} open, so it "
            f"can't be replaced; {rest}",
            "Close the PDF, or whatever is open of it, and build again",
        )


def _refuse_odd_names(files: Mapping[str, bytes]) -> None:
    """Names must be plain relative paths, and differ even where case is not told apart."""
    seen: dict[str, str] = {}
    for name in files:
        parts = name.split("/")
        if any(part in ("", ".", "..") or set(part) & set('\\:*?"<>|\n\r\0') for part in parts):
            raise fail(
                "output.name",
                f"`{name}` cannot be the name of a file in the output",
                "Use letters, digits, dashes and dots in the name",
            )
        if any(is_reserved(part) for part in parts):
            raise fail(
                "output.name",
                f"`{name}` cannot be the name of a file: Windows keeps it for a device",
                "Give the folder of the pattern, or what the file is named after, another name",
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


def _refuse_foreign_files(
    target: Path, folder: Path, ours: frozenset[str], files: Mapping[str, bytes]
) -> None:
    """The folder may be absent, empty, or hold what an earlier run listed or would write alike."""
    if not target.exists():
        return
    if not target.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, "not a folder")
    present = {
        path.relative_to(target).as_posix()
        for path in target.rglob("*")
        if not path.is_dir() or path.is_symlink()
    }
    ours |= {
        name
        for name in present - ours
        if name in files and (target / name).read_bytes() == files[name]
    }
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
