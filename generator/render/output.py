"""A set of files is put into a folder as a whole, or not at all."""

from collections.abc import Mapping
from pathlib import Path


def publish(files: Mapping[str, bytes], folder: Path) -> None:
    """Make ``folder`` hold exactly ``files`` (relative path with ``/`` -> bytes).

    Raises ``PatternError`` and leaves the folder as it was when that cannot be done.
    """
    raise NotImplementedError
