"""A gauge as it is stated on a command line: ``22 x 30 / 10 cm``."""

from collections.abc import Iterable

from bindoff import regex as re
from bindoff.diagnostics import PatternError
from bindoff.records import Record
from bindoff.source.lengths import parse_figure, parse_length

SMALLEST_MM = 0.2
LARGEST_MM = 200.0
"""Limits of one stitch's width and one round's height: far beyond what anybody knits."""

FORM = "STITCHES x ROUNDS / LENGTH, as in 22.5 x 30 / 10 cm"

_TIMES = re.compile(r"[x×]", re.IGNORECASE)


class StatedGauge(Record):
    """Stitches and rounds over 10 cm.

    ``of`` is the size or the gauge of ``gauges:`` that it belongs to, empty for the main gauge.
    """

    stitches: float
    rounds: float
    of: str = ""


def parse_gauge(text: str) -> StatedGauge:
    """``22 x 30 / 10 cm``, or ``S = 22 x 30 / 10 cm`` for one size or named gauge.

    Raises ``ValueError``, saying what is wrong, for anything else.
    """
    of, equals, body = text.rpartition("=")
    if equals and not of.strip():
        raise ValueError(f"`{text.strip()}` names no size before `=`")
    counts, slash, over = body.rpartition("/")
    figures = _TIMES.split(counts)
    if not slash or len(figures) != 2 or not all(figure.strip() for figure in figures):
        raise ValueError(f"`{text.strip()}` is not a gauge; write {FORM}")
    length_mm = _length(over)
    stitches, rounds = (_count(figure, length_mm) for figure in figures)
    return StatedGauge(stitches, rounds, of.strip())


def parse_gauges(texts: Iterable[str]) -> tuple[StatedGauge, ...]:
    """All of ``texts``; raises ``ValueError`` as ``parse_gauge``, and if two are of the same."""
    found: dict[str, StatedGauge] = {}
    for text in texts:
        stated = parse_gauge(text)
        if stated.of in found:
            what = f"`{stated.of}`" if stated.of else "the whole pattern"
            raise ValueError(f"two gauges are given for {what}")
        found[stated.of] = stated
    return tuple(found.values())


def _length(text: str) -> float:
    try:
        length_mm = parse_length(text)
    except PatternError as error:
        finding = error.findings[0]
        raise ValueError(f"{finding.message}; {_lowered(finding.help)}") from None
    if length_mm <= 0:
        raise ValueError(f"a gauge is counted over a length above 0, not {text.strip()}")
    return length_mm


def _count(text: str, length_mm: float) -> float:
    figure = parse_figure(text.strip())
    if figure is None:
        raise ValueError(f"`{text.strip()}` is not a number of stitches or rounds; write {FORM}")
    if figure == 0 or not SMALLEST_MM <= length_mm / float(figure) <= LARGEST_MM:
        raise ValueError(
            f"nobody knits {text.strip()} stitches or rounds over {length_mm / 10:g} cm"
        )
    return float(figure * 100) / length_mm


def _lowered(words: str) -> str:
    return words[:1].lower() + words[1:]
