"""Changes of an open text that the page offers, and makes only when it is asked to."""

from typing import Any

from bindoff.diagnostics import Span
from bindoff.records import Record


class Edit(Record):
    """What stands at ``span`` is replaced by ``text``."""

    span: Span
    text: str


def edit_data(edit: Edit, prefix: str) -> dict[str, Any]:
    """As the page takes it; ``prefix`` is what the folder's files begin with."""
    span = edit.span
    return {
        "file": span.file.removeprefix(prefix),
        "from": [span.line, span.column],
        "to": [span.end_line, span.end_column],
        "insert": edit.text,
    }
