"""What a request asks, read from its JSON; whatever it lacks is refused."""

from collections.abc import Mapping
from typing import Any

from bindoff.desk.proofs import Look
from bindoff.render.pdf import PdfOptions
from bindoff.source.grid import MAX_SIDE
from bindoff.source.statedgauge import parse_gauges

Answer = dict[str, Any]

EDITIONS: Mapping[str, PdfOptions] = {
    "a4": PdfOptions(),
    "letter": PdfOptions("letter"),
    "large-print": PdfOptions(theme="large-print"),
    "print-saver": PdfOptions(theme="print-saver"),
    "grey": PdfOptions(grey=True),
}
"""The editions that may be looked at, by the names that requests have for them."""

_MOST_GAUGES = 60


class RefusedError(Exception):
    """A request that asks for what there isn't; ``status`` is that of its answer."""

    def __init__(self, status: int, reason: str) -> None:
        super().__init__(reason)
        self.status = status
        self.reason = reason


def text_of(asked: Answer, name: str) -> str:
    """The text under a name."""
    value = asked.get(name)
    if not isinstance(value, str):
        raise RefusedError(400, f"`{name}` is missing or no text")
    return value


def number_of(asked: Answer, name: str) -> int:
    """The whole number under a name."""
    value = asked.get(name)
    if not isinstance(value, int) or isinstance(value, bool):
        raise RefusedError(400, f"`{name}` is missing or no whole number")
    return value


def texts_of(asked: Answer) -> dict[str, str]:
    """The open texts; only of names that a folder may list."""
    texts = asked.get("texts")
    if not isinstance(texts, dict) or not all(isinstance(each, str) for each in texts.values()):
        raise RefusedError(400, "`texts` is missing or no table of texts")
    return texts


def lines_of(asked: Answer) -> list[str]:
    """The lines of a grid that is painted."""
    rows = _rows(asked)
    if not all(isinstance(row, str) for row in rows):
        raise RefusedError(400, "a line of `rows` is no text")
    return rows


def cells_of(asked: Answer) -> list[list[tuple[str, str]]]:
    """The cells that are pasted into a grid, each with its value and its colour."""
    rows = _rows(asked)
    if not all(isinstance(row, list) and all(isinstance(c, dict) for c in row) for row in rows):
        raise RefusedError(400, "a row of `rows` is no list of cells")
    return [[(str(c.get("value", "")), str(c.get("fill", ""))) for c in row] for row in rows]


def _rows(asked: Answer) -> list[Any]:
    rows = asked.get("rows")
    if not isinstance(rows, list) or len(rows) > MAX_SIDE:
        raise RefusedError(400, "`rows` is missing, no list, or too long")
    return rows


def look_of(asked: Answer) -> Look:
    """Which edition is looked at, in which size, at which gauges.

    Raises ``ValueError``, saying what is wrong, for a gauge that is none.
    """
    edition, size = asked.get("edition", "a4"), asked.get("size", "")
    if edition not in EDITIONS or not isinstance(size, str):
        raise RefusedError(400, "there is no such edition or size")
    gauges = asked.get("gauges", [])
    if not isinstance(gauges, list) or not all(isinstance(each, str) for each in gauges):
        raise RefusedError(400, "`gauges` is no list of texts")
    return Look(EDITIONS[edition], size, parse_gauges(gauges[:_MOST_GAUGES]))
