"""Lengths, weights and temperatures that no figure near them confirms."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.told.lengthsof import lengths_near
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import millimetres
from bindoff.plan.picture import piece_gauges

_FIGURE = r"\d+(?:\.\d+)?(?:[¼½¾]|[- ]\d/\d)?"
_MEASURE = phrase(
    rf"(?<![\w.,/])({_FIGURE})(?: ?\(({_FIGURE}(?:, ?{_FIGURE})*)\))?"
    r"[- ]?(cm|mm|inch(?:es)?"
    r"|in(?=[).,;:\]/]|$| (?:wide|long|deep|high|across|around|tall|from|\()))\b"
)
_IN_BRACKETS = re.compile(r"\(\s*$")
_FREE = phrase(r"\b(?:tails?|leav\w+|swatch|at least|about an?|every|apart)\b")
_EASE = phrase(r"^[^.;]{0,20}\bease\b")
_COUNTED = phrase(r"\b(\d+) (rows|rounds|ridges|stitches|sts)\b")
_SLACK = 0.06
"""Lengths are told in halves of a centimetre."""
_QUARTERS = {"¼": 0.25, "½": 0.5, "¾": 0.75}


def measures_doubted(told: Told) -> Iterator[Doubt]:
    """Each length that nothing near comes to."""
    words = told.figures_written
    for found in _MEASURE.finditer(words):
        raw, left, right = found[0], words[: found.start()], words[found.end() :]
        if _IN_BRACKETS.search(left) or _FREE.search(words) or told.is_proved(*found.span()):
            continue
        if _EASE.search(right) and told.scene.plan is None:
            continue
        figures = [_mm(each, found[3]) for each in re.findall(_FIGURE, raw)]
        if found[3] == "mm" and _is_tool(told, figures[0]):
            continue
        if not _is_near(told, figures) and not (len(figures) == 1 and _comes_of(told, *figures)):
            yield Doubt(*found.span(), f"nothing here measures {' '.join(raw.split())}")


def _is_near(told: Told, figures: list[float]) -> bool:
    real = lengths_near(told.context, told.scene)
    sizes = len(real)
    if len(figures) not in (1, sizes):
        return False
    told_of = figures if len(figures) == sizes else figures * sizes
    return all(
        any(_close(mm, each) for each in some) for mm, some in zip(told_of, real, strict=True)
    ) or (len(figures) == 1 and any(_close(figures[0], each) for some in real for each in some))


def _comes_of(told: Told, mm: float) -> bool:
    """Whether rows or stitches that the sentence tells come to a length, at a gauge of a piece."""
    gauges = [
        gauge
        for piece in told.context.pattern.pieces.values()
        for gauge in piece_gauges(told.context.plan.measures, piece)
    ]
    for found in _COUNTED.finditer(told.words):
        number = int(found[1]) * (2 if found[2].lower() == "ridges" else 1)
        wide = found[2].lower().startswith("st")
        for gauge in gauges:
            length = gauge.width_of(number) if wide else gauge.height_of(number)
            if abs(length - mm) <= _SLACK * mm:
                return True
    return False


def _is_tool(told: Told, mm: float) -> bool:
    return any(
        re.search(rf"(?<![\d.]){mm:g}\s?mm", tool.name) for tool in told.context.pattern.tools
    )


def _close(one: float, other: float) -> bool:
    return abs(one - other) <= max(4.0, 0.03 * other)


def _mm(figure: str, unit: str) -> float:
    whole = figure.rstrip("¼½¾")
    part = _QUARTERS.get(figure[len(whole) :], 0.0)
    if fraction := re.fullmatch(r"(\d+)[- ](\d)/(\d)", whole):
        whole, part = fraction[1], int(fraction[2]) / int(fraction[3])
    return millimetres(float(whole or 0) + part, unit)
