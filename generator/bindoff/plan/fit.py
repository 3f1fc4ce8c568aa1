"""How finished measures sit on the bodies they are made for."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.craft.bodies import Dimension
from bindoff.plan.values import Kind, Measure
from bindoff.records import Record

LENGTHS = (Dimension.HAND_LENGTH.value, Dimension.FOOT_LENGTH.value)
"""Body measurements along the body; all others go around it."""

_KNOWN = tuple(dimension.value for dimension in Dimension)
_AROUND = re.compile(r"(finished )?(circumference|around)")
_SAID = {"bust": "chest", "hips": "hip"}
_OTHER_WORDS = re.compile(r"\b(bust|hips)\b")
_NOT_AROUND = re.compile(r"\b(length|depth|deep|height|high|long|cuff|brim|above|below)\b")


class Fitted(Record):
    """A finished measure and the body measurement it goes around or along, in mm per size."""

    label: str
    measure: Measure
    dimension: str
    body: tuple[float, ...]

    @property
    def mm(self) -> tuple[float, ...]:
        """Ease: finished minus body, in mm."""
        return tuple(a - b for a, b in zip(self.measure.rounded, self.body, strict=True))

    @property
    def percent(self) -> tuple[float, ...]:
        """Ease in % of the body."""
        return tuple(100 * mm / body for mm, body in zip(self.mm, self.body, strict=True))


def fitted(
    finished: Mapping[str, Measure], bodies: Mapping[str, Sequence[float]]
) -> Iterator[Fitted]:
    """The finished measures whose label names a part of the body, or just a circumference."""
    known = {key: tuple(mm) for key, mm in bodies.items() if key in _KNOWN}
    for label, measure in finished.items():
        dimension = _dimension(label.lower(), tuple(known))
        if measure.kind is Kind.LENGTH and dimension:
            yield Fitted(label, measure, dimension, known[dimension])


def around(bodies: Iterable[str]) -> str | None:
    """The body measurement that a tube goes around: the only one there is, if it is known."""
    found = [key for key in bodies if key in _KNOWN and key not in LENGTHS]
    return found[0] if len(found) == 1 else None


def _dimension(label: str, body: tuple[str, ...]) -> str | None:
    """The body measurement that a finished label speaks of, if it is clear."""
    label = _OTHER_WORDS.sub(lambda found: _SAID[found[0]], label)
    longest_first = sorted(body, key=len, reverse=True)
    named = [key for key in longest_first if re.search(rf"\b{re.escape(key)}\b", label)]
    if named and (named[0] in LENGTHS or not _NOT_AROUND.search(label)):
        return named[0]
    return around(body) if _AROUND.fullmatch(label) else None
