"""What one run works out and the next would work out again, kept as Python keeps compiled modules.

A shelf is a file among the compiled modules. Each thing on it stands under all that it was made of,
and the file begins with a digest of its contents and of who made them: this Python, the source of
the module, its libraries. What another one made, or a damaged file, is as good as nothing. Where
Python may write no compiled modules, no shelf is begun; things only take longer then.
"""

import marshal
import os
import sys
from collections.abc import Callable, Hashable, Sequence
from contextlib import suppress
from hashlib import sha256
from importlib.util import cache_from_source
from pathlib import Path
from typing import Generic, TypeVar

from bindoff.installed import version_of

Thing = TypeVar("Thing")

_DIGEST = sha256().digest_size


class Shelf(Generic[Thing]):
    """Things that ``marshal`` writes, by all that they were made of.

    It is the ``SHELF`` of the module ``file``, which makes them with ``libraries``, if with any,
    and with ``sources``: modules and folders of modules of this package, by their place in it.
    Once there are more than ``most``, only those that this run has asked for are kept, and no more
    of them.
    """

    def __init__(
        self, file: str, most: int, libraries: Sequence[str] = (), sources: Sequence[str] = ()
    ) -> None:
        self._file, self._most = Path(file), most
        self._libraries, self._sources = libraries, sources
        self._read: dict[Hashable, Thing] | None = None
        self._asked: dict[Hashable, Thing] = {}
        self._grown = False

    def get(self, key: Hashable, make: Callable[[], Thing]) -> Thing:
        """What stands under ``key``; where nothing does, what ``make`` makes."""
        if self._read is None:
            self._read = self._taken()
        found = self._asked.get(key, self._read.get(key))
        new = found is None
        if found is None:
            found = make()
        if len(self._asked) < self._most:
            self._asked[key] = found
            self._grown = self._grown or new
        return found

    def keep(self) -> None:
        """Write what has come to it, if anything has and it can be written."""
        if not self._grown or sys.dont_write_bytecode:
            return
        things = {**(self._read or {}), **self._asked}
        data = marshal.dumps(self._asked if len(things) > self._most else things)
        with suppress(OSError, NotImplementedError, ImportError):
            path = self._path()
            path.parent.mkdir(parents=True, exist_ok=True)
            beside = path.with_name(f"{path.name}.{os.getpid()}")
            try:
                beside.write_bytes(self._digest(data) + data)
                beside.replace(path)
            except OSError:  # such as a full disk
                beside.unlink(missing_ok=True)
        self._grown = False

    def _taken(self) -> dict[Hashable, Thing]:
        with suppress(OSError, NotImplementedError, ImportError, ValueError, EOFError, TypeError):
            data = memoryview(self._path().read_bytes())
            if data[:_DIGEST] == self._digest(data[_DIGEST:]):
                things: dict[Hashable, Thing] = marshal.loads(data[_DIGEST:])
                return things
        return {}

    def _digest(self, data: bytes | memoryview) -> bytes:
        digest = sha256(sys.version.encode())
        for name in self._libraries:
            digest.update(f"{name} {version_of(name)}".encode())
        package = Path(__file__).parent
        for source in (self._file, *(package / each for each in self._sources)):
            for module in sorted(source.glob("*.py")) if source.is_dir() else [source]:
                digest.update(module.read_bytes())
        digest.update(data)
        return digest.digest()

    def _path(self) -> Path:
        return Path(cache_from_source(str(self._file))).with_suffix(".kept")


def keep_all() -> None:
    """Write all shelves to which something has come."""
    for name, module in tuple(sys.modules.items()):
        shelf = vars(module).get("SHELF") if name.startswith("bindoff.") else None
        if isinstance(shelf, Shelf):
            shelf.keep()
