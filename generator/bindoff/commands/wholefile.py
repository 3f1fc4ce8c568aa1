"""A file is written as a whole, or stays as it was."""

import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path
from time import sleep

_TRIES = 5  # Windows holds a file back while another program reads it
_USUAL_RIGHTS = 0o644


def write_whole(path: Path, data: bytes) -> None:
    """Write a file, all of it or nothing; its rights stay as they were. Raises ``OSError``."""
    handle, draft = tempfile.mkstemp(prefix=".", suffix="~", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(draft, stat.S_IMODE(path.stat().st_mode) if path.exists() else _USUAL_RIGHTS)
        _replace(draft, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(draft)
        raise


def _replace(draft: str, path: Path) -> None:
    for _ in range(_TRIES):
        try:
            os.replace(draft, path)
            return
        except PermissionError:
            sleep(0.05)
    os.replace(draft, path)
