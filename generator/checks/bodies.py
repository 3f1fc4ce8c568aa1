"""Bodies against the standard tables, and against who is said to wear the piece."""

from collections.abc import Iterator, Mapping, Sequence

from generator.checks.context import Context
from generator.checks.engine import Finding, check
from generator.checks.sizes import bodies, out_of_order, uneven
from generator.diagnostics import Severity
from generator.plan.standards.bodies import BODIES, Dimension

Ranges = Mapping[str, tuple[float, float]]
"""Least and most in mm by wearer."""

_WEARERS = ("infant", "child", "adult")
_INFANTS = ("newborn", "3 months", "6 months", "12 months", "18 months")

# Real people lie beyond the tables' outer figures, which are means and medians.
_BELOW, _ABOVE = 0.95, 1.1


def _wearer(name: str, who: str) -> str:
    return "infant" if name in _INFANTS else "adult" if who.startswith("adult") else "child"


def _ranges(dimension: str) -> Ranges:
    """Least and most of a dimension, in mm, for each group of wearers that the tables know."""
    found: dict[str, list[float]] = {}
    for person in BODIES:
        figure = person.figure(Dimension(dimension))
        if figure:
            found.setdefault(_wearer(person.name, person.who), []).append(figure.mm)
    return {who: (min(mm) * _BELOW, max(mm) * _ABOVE) for who, mm in found.items()}


def _figures(context: Context) -> Iterator[tuple[str, int, float]]:
    """Body measurements that the tables know for all wearers: dimension, index of size, mm."""
    known = {dimension.value for dimension in Dimension}
    doubtful = {key for key, _ in out_of_order(context)} | {key for key, *_ in uneven(context)}
    for key, figures in bodies(context):
        if key in known - doubtful and set(context.pattern.wearer) <= set(_ranges(key)):
            yield from ((key, index, mm) for index, mm in enumerate(figures))


@check(
    id="body.range",
    title="Body measurements are those of a person",
    looks_at="body measurements against the smallest and largest body of the built-in tables "
    "(ANSUR II, WHO, Craft Yarn Council), a little beyond either, where the tables know all "
    "wearers named",
    why="inches typed as centimetres, or a finished measure typed as a body, make a piece for "
    "nobody",
    severity=Severity.WARNING,
    remedy="Check the figure and its unit; give the body, not the finished piece",
)
def body_range(context: Context) -> Iterator[Finding]:
    """One finding for each figure."""
    for key, index, mm in _nobodys(context):
        low, high = _hull(_ranges(key), _WEARERS)
        size = context.source.sizes[index]
        yield Finding(
            f"`{key}` of size {size} is {mm / 10:g} cm; people have {low / 10:.0f} to "
            f"{high / 10:.0f} cm",
            context.source.span("sizes", size, key),
        )


def _nobodys(context: Context) -> list[tuple[str, int, float]]:
    """Figures that no body of the tables has, in the form of ``_figures``."""
    return [
        (key, index, mm)
        for key, index, mm in _figures(context)
        if not _holds(_hull(_ranges(key), _WEARERS), mm)
    ]


@check(
    id="wearer.sizes",
    title="The sizes fit those who are said to wear it",
    looks_at="body measurements against the bodies of infants, children and adults named as "
    "`wearer:`",
    why="the cautions follow from the wearer: a piece that fits a baby needs those for babies",
    severity=Severity.WARNING,
    remedy="Add the wearer, or correct the measurement",
)
def wearer_sizes(context: Context) -> Iterator[Finding]:
    """One finding for each size that fits none of the wearers named."""
    nobodys = {key for key, *_ in _nobodys(context)}
    told = set()
    for key, index, mm in _figures(context):
        ranges = _ranges(key)
        if key in nobodys or index in told:
            continue
        if not _holds(_hull(ranges, context.pattern.wearer), mm):
            fits = [who for who in _WEARERS if who in ranges and _holds(ranges[who], mm)]
            told.add(index)
            size = context.source.sizes[index]
            yield Finding(
                f"`{key}` of size {size}, {mm / 10:g} cm, fits {_someone(fits)}, but the pattern "
                f"names {' and '.join(context.pattern.wearer)} as wearer",
                context.source.span("sizes", size, key),
            )


def _hull(ranges: Ranges, wearers: Sequence[str]) -> tuple[float, float]:
    """Least and most for all of ``wearers`` together, gaps between them included."""
    wanted = [ranges[who] for who in wearers if who in ranges]
    return min(low for low, _ in wanted), max(high for _, high in wanted)


def _holds(range_: tuple[float, float], mm: float) -> bool:
    return range_[0] <= mm <= range_[1]


def _someone(fits: list[str]) -> str:
    named = " or ".join(f"{'a' if who == 'child' else 'an'} {who}" for who in fits)
    return named or "somebody between them"


CHECKS = (body_range, wearer_sizes)
