"""Values as they are compared: by the name of the size, rounded above binary dust."""

from collections.abc import Iterable

from bindoff import regex as re
from bindoff.plan.differences.said import Said, SaidProse
from bindoff.plan.measures import Measures


def per_size(measures: Measures, values: Iterable[Said | None]) -> dict[str, Said]:
    """Values of all sizes by the name of the size; none where there is none."""
    return {
        size: value
        for size, value in zip(measures.source.sizes, values, strict=True)
        if value is not None
    }


def fine(number: float) -> float:
    """``number`` rounded to the millionth, above binary dust."""
    return round(number, 6)


_IN_BRACES = re.compile(r"\{[{%]([^{}]*?)[%}]\}")


def prose_of(measures: Measures, text: str | None) -> dict[str, Said]:
    """Prose in every size: the same unless it prints a figure."""
    if not text:
        return {}
    words = re.findall(r"\w+", " ".join(_IN_BRACES.findall(text)))
    yarns = measures.source.pattern.yarns
    named = tuple((word, yarns[word].name) for word in words if word in yarns)
    return {
        sizing.name: SaidProse(
            text,
            tuple((w, fine(sizing.names[w].value)) for w in words if w in sizing.names) + named,
        )
        for sizing in measures.sizes
    }
