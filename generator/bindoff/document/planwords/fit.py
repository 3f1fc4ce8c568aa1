"""How the sizes fit: their ease, what a fixed number of needles serves, and how a crown lies."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import ceil, floor

from bindoff.craft.bodies import Dimension
from bindoff.craft.ease import words_for
from bindoff.document.planwords.bodies import body_measures, table_sources
from bindoff.document.planwords.listing import Listing, Section, sized_listing
from bindoff.document.units import length
from bindoff.document.voice import Voice, number
from bindoff.english import capital, listed
from bindoff.plan.crown import flat_crown_rounds, flat_disc_decreases
from bindoff.plan.fit import Fitted, fitted
from bindoff.plan.needlefit import CrownFigures, TubeOnNeedles
from bindoff.plan.tube import Fit


def fit_section(voice: Voice) -> Section | None:
    """The ease of every finished measure that sits on a body; ``None`` where none does."""
    found = [*fitted(voice.plan.measures.finished, body_measures(voice.plan))]
    if not found:
        return None
    listings = tuple(_ease_listing(voice, each) for each in found)
    dimensions = dict.fromkeys(each.dimension for each in found)
    return Section(
        "Fit",
        (
            "Ease is the finished measurement less the body's.",
            *listings,
            *table_sources(voice.plan, tuple(dimensions)),
        ),
    )


def _ease_listing(voice: Voice, fit: Fitted) -> Listing:
    rows: list[tuple[str, Iterable[object]]] = [
        (capital(fit.dimension), [length(mm, voice.units) for mm in fit.body]),
        ("Finished", [length(mm, voice.units) for mm in fit.measure.rounded]),
        ("Ease", [length(mm, voice.units) for mm in fit.mm]),
        ("Ease in %", [_percent(each) for each in fit.percent]),
    ]
    if fit.dimension == Dimension.CHEST:
        words = [" or ".join(rule.name for rule in words_for(mm)) for mm in fit.mm]
        rows.append(("In the standard's words", words))
    return sized_listing(voice, fit.label, rows)


# ---------------------------------------------------------------- a fixed number of needles


def needle_section(voice: Voice, tube: TubeOnNeedles) -> Section:
    """Which sizes each gauge serves on the machine's needles, and which gauge each size needs."""
    rule = tube.rule
    assert rule.low is not None
    assert rule.high is not None
    ease = f"{_percent(rule.low)} to {_percent(rule.high)} % ease"
    return Section(
        f"Sizes on {_each(tube.needles)} needles",
        (
            f"The needles are fixed, so the {voice.term['gauge']} makes the size. A size is served "
            f"where the tube has the ease of a {rule.name}, {ease} ({rule.source}).",
            _needed_listing(voice, tube),
            _served_listing(voice, tube),
        ),
    )


def _each(needles: Sequence[int]) -> str:
    """``48``, or ``44 and 48`` where sizes differ."""
    return listed(map(str, dict.fromkeys(needles)))


def _needed_listing(voice: Voice, tube: TubeOnNeedles) -> Listing:
    rows: list[tuple[str, Iterable[object]]] = [
        (capital(tube.dimension), [length(fit.body_mm, voice.units) for fit in tube.own]),
        ("Stitches over 10 cm", [_stitches(gauge.stitches_per()) for gauge in tube.gauges]),
        ("Finished", [length(fit.circumference.exact, voice.units) for fit in tube.own]),
        ("Ease in %", [_percent(fit.ease_percent) for fit in tube.own]),
        ("Served", ["yes" if fit.served else "no" for fit in tube.own]),
        ("Fewest stitches that serve", [_stitches(each.loosest, ceil) for each in tube.ranges]),
        ("Most stitches that serve", [_stitches(each.tightest, floor) for each in tube.ranges]),
        ("Stitches for the middle", [_stitches(each.rounded) for each in tube.middles]),
    ]
    return sized_listing(voice, "Stitches over 10 cm that each size needs", rows)


def _served_listing(voice: Voice, tube: TubeOnNeedles) -> Listing:
    rows = [
        (
            _stitches(gauge.stitches_per()),
            length(fits[0].circumference.exact, voice.units),
            *(_served(fit) for fit in fits),
        )
        for gauge, fits in tube.served
    ]
    return Listing(
        f"What each {voice.term['gauge']} gives: ease in %, in brackets where it does not serve",
        ("Stitches over 10 cm", "Finished", *voice.sizes),
        "<" + ">" * (1 + len(voice.sizes)),
        tuple(rows),
    )


def _served(fit: Fit) -> str:
    return _percent(fit.ease_percent) if fit.served else f"({_percent(fit.ease_percent)})"


# ---------------------------------------------------------------- crowns


def crown_sections(voice: Voice, crowns: Iterable[CrownFigures]) -> Iterator[Section]:
    """Every crown beside a flat one over as many stitches."""
    for crown in crowns:
        yield Section(
            f"{voice.plan.source.pattern.pieces[crown.piece].title}: crown",
            (
                "A flat crown is a disc as wide around as the hat. More rounds than it has give a "
                "longer, pointed crown, fewer a tight or wavy one.",
                _crown_listing(voice, crown),
            ),
        )


def _crown_listing(voice: Voice, crown: CrownFigures) -> Listing:
    flat = [
        flat_crown_rounds(count, gauge)
        for count, gauge in zip(crown.before, crown.gauges, strict=True)
    ]
    lost = [
        (before - after) / rounds if rounds else 0.0
        for before, after, rounds in zip(crown.before, crown.after, crown.rounds, strict=True)
    ]
    heights = [
        gauge.height_of(rounds) for gauge, rounds in zip(crown.gauges, crown.rounds, strict=True)
    ]
    rows: list[tuple[str, Iterable[object]]] = [
        ("Stitches before it", crown.before),
        ("Stitches left to gather", crown.after),
        ("Rounds", crown.rounds),
        ("Rounds of a flat crown", [round(each.rounded) for each in flat]),
        ("Height", [length(mm, voice.units) for mm in heights]),
        ("Decreases a round, on average", _tenths(lost)),
        ("The same in a flat crown", _tenths(map(flat_disc_decreases, crown.gauges))),
    ]
    return sized_listing(voice, "The crown in each size", rows)


# ---------------------------------------------------------------- figures


def _percent(figure: float) -> str:
    return number(round(figure, 1))


def _stitches(figure: float, whole: Callable[[float], int] = round) -> str:
    """Stitches to a tenth, the last digit found by ``whole``."""
    return number(whole(round(figure * 10, 6)) / 10)


def _tenths(figures: Iterable[float]) -> Sequence[str]:
    return [f"{each:.1f}" for each in figures]
