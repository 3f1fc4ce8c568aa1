"""Which version of a library is installed, without the library and without Python's own reader of
such facts, which loads all that reads mail."""

import os
import sys
from functools import cache

_INFO = ".dist-info"


def version_of(name: str) -> str:
    """The version of a library, empty where it is not installed."""
    found = _beside(tuple(sys.path)).get(_plain(name))
    if found is not None:
        return found
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version(name)
    except PackageNotFoundError:
        return ""


@cache
def _beside(folders: tuple[str, ...]) -> dict[str, str]:
    """Versions by plain names, from the folders of facts that stand beside installed libraries:
    they are called by name and version ("Recording installed projects", PyPA)."""
    found: dict[str, str] = {}
    for folder in folders:
        try:
            facts = [each for each in os.listdir(folder or ".") if each.endswith(_INFO)]
        except OSError:  # no folder, or a file of modules in one
            continue
        for each in facts:
            name, _, version = each.removesuffix(_INFO).partition("-")
            found.setdefault(_plain(name), version)
    return found


def _plain(name: str) -> str:
    return name.lower().replace("-", "_").replace(".", "_")
