"""Bodies against the standard tables, and against who is said to wear the piece."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.keys.sizes import bodies, out_of_order, uneven
from bindoff.checks.walk import body_said
from bindoff.craft.bodies import BODIES, Dimension
from bindoff.diagnostics import Severity
from bindoff.english import an, listed

WEARERS = ("infant", "child", "adult")
_INFANTS = ("newborn", "3 months", "6 months", "12 months", "18 months")

# The tables have means and medians of children, and of adults one standard deviation to either
# side; people lie beyond: the WHO's 3rd percentile of heads is 6 to 7 % below its median. Where the
# tables end at L, what grows with a body's girth may be as much larger as a 5X chest is (Craft Yarn
# Council: half as large again), or a fourth for what grows less (common practice, no source).
_BELOW: Mapping[str, float] = {"infant": 0.9, "child": 0.9, "adult": 0.95}
_ABOVE = 1.1
_BELOW_S: Mapping[str, float] = {"foot": 0.9}  # small feet; common practice, no source
_ABOVE_L: Mapping[str, float] = {"waist": 1.6, "neck": 1.25, "forearm": 1.25, "ankle": 1.25}


def people(dimension: str, wearers: Sequence[str] = WEARERS) -> tuple[float, float] | None:
    """Least and most of a body measurement, in mm, that a person among ``wearers`` may have.

    Gaps between the groups are filled. The least is 0 where the tables lack one of the groups;
    ``None`` where they lack all.
    """
    found: dict[str, list[float]] = {}
    for person in BODIES:
        figure = person.figure(Dimension(dimension))
        if figure:
            found.setdefault(_wearer(person.name, person.who), []).append(figure.mm)
    known = [who for who in wearers if who in found]
    if not known:
        return None
    least = {**_BELOW, "adult": _BELOW_S.get(dimension, _BELOW["adult"])}
    low = min(min(found[who]) * least[who] for who in known) if len(known) == len(wearers) else 0.0
    above = _ABOVE_L.get(dimension, _ABOVE)
    return low, max(max(found[who]) * (above if who == "adult" else _ABOVE) for who in known)


def _wearer(name: str, who: str) -> str:
    return "infant" if name in _INFANTS else "adult" if who.startswith("adult") else "child"


def _figures(context: Context) -> Iterator[tuple[str, int, float]]:
    """Body measurements that the tables know: dimension, index of the size, mm."""
    known = {dimension.value for dimension in Dimension}
    doubtful = {key for key, _ in out_of_order(context)} | {key for key, *_ in uneven(context)}
    for key, figures in bodies(context):
        if key in known - doubtful:
            yield from ((key, index, mm) for index, mm in enumerate(figures))


@check(
    id="body.range",
    title="Body measurements are those of a person",
    looks_at="body measurements against the smallest and largest body of the built-in tables "
    "(ANSUR II, WHO, UK 1990, Craft Yarn Council), a little beyond either",
    why="inches typed as centimetres, or a finished measure typed as a body, make a piece for "
    "nobody",
    severity=Severity.WARNING,
    remedy="Check the figure and its unit; give the body, not the finished piece",
    needs=Needs.SIZES,
)
def body_range(context: Context) -> Iterator[Finding]:
    """One finding for each figure."""
    for key, index, mm, (low, high) in _nobodys(context):
        size = context.source.sizes[index]
        yield Finding(
            f"`{key}` of size {size} is {body_said(context, index, key, mm)}; people have "
            f"{low / 10:.0f} to {high / 10:.0f} cm",
            context.pattern.sizes[size].place.of(key).span,
            sizes=(size,),
        )


def _nobodys(context: Context) -> Iterator[tuple[str, int, float, tuple[float, float]]]:
    """Figures that no body of the tables has, and the range of those that there are."""
    for key, index, mm in _figures(context):
        range_ = people(key, WEARERS)
        if range_ and not range_[0] <= mm <= range_[1]:
            yield key, index, mm, range_


@check(
    id="wearer.sizes",
    title="The sizes fit those who are said to wear it",
    looks_at="body measurements against the bodies of infants, children and adults named as "
    "`wearer:`",
    why="the cautions follow from the wearer: a piece that fits a baby needs those for babies",
    severity=Severity.WARNING,
    remedy="Add the wearer, or correct the measurement",
    needs=Needs.SIZES,
)
def wearer_sizes(context: Context) -> Iterator[Finding]:
    """One finding for each size that fits none of the wearers named."""
    nobodys = {key for key, *_ in _nobodys(context)}
    told = set()
    for key, index, mm in _figures(context):
        range_ = people(key, context.pattern.wearer)
        if key in nobodys or index in told or range_ is None:
            continue
        if not range_[0] <= mm <= range_[1]:
            told.add(index)
            size = context.source.sizes[index]
            yield Finding(
                f"`{key}` of size {size}, {body_said(context, index, key, mm)}, fits "
                f"{_someone(key, mm)}, but the "
                f"pattern names {listed(context.pattern.wearer)} as wearer",
                context.pattern.sizes[size].place_of(key).span,
                sizes=(size,),
                beside=(context.pattern.place.of("wearer").span,),
            )


def _someone(key: str, mm: float) -> str:
    ranges = {who: people(key, (who,)) for who in WEARERS}
    fits = [who for who, range_ in ranges.items() if range_ and range_[0] <= mm <= range_[1]]
    return " or ".join(an(who) for who in fits) or "somebody between them"


CHECKS = (body_range, wearer_sizes)
