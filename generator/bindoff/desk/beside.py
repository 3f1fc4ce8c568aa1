"""Lists of records that the desk keeps in a file beside a pattern: comments, and what was read."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any, TypeVar

import msgspec
import yaml

from bindoff.commands.wholefile import write_whole
from bindoff.diagnostics import Span, fail
from bindoff.files import Files
from bindoff.records import Record
from bindoff.source.yamltree import read_yaml

_WIDTH = 88
_Kept = TypeVar("_Kept", bound=Record)


def read_list(
    files: Files, name: str, key: str, kind: type[_Kept], fault: str, what: str
) -> tuple[tuple[_Kept, ...], Span | None]:
    """The records of ``kind`` under ``key`` of a file, and where the file begins; none where there
    is no such file. ``what`` they are is said of a file that can't be read.

    Raises ``PatternError`` (``fault``, ``yaml.…``) for a file that holds something else.
    """
    if not files.exists(name):
        return (), None
    tree = read_yaml(files.read_text(name), files.display(name))
    try:
        found = msgspec.convert(tree.data.get(key) or (), tuple[kind, ...], strict=False)  # type: ignore[valid-type]
    except msgspec.ValidationError as error:
        raise fail(
            fault,
            f"{what} can't be read: {str(error)[:1].lower()}{str(error)[1:]}",
            f"Mend `{name}`, or move it away",
            tree.span(()),
        ) from None
    return found, tree.span(())


def write_list(folder: Path, name: str, key: str, kept: Iterable[Record], always: str) -> None:
    """Write all records under ``key``, or nothing; of each what it has, and the field ``always``.

    Raises ``OSError``.
    """
    records: list[dict[str, Any]] = [
        {
            field: value
            for field, value in msgspec.to_builtins(each).items()
            if value or field == always
        }
        for each in kept
    ]
    text = yaml.safe_dump({key: records}, sort_keys=False, allow_unicode=True, width=_WIDTH)
    write_whole(folder / name, text.encode())
