"""The zones of a tube in yarn: the yarn of every round, and the stripes that are wanted in it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from types import MappingProxyType

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.english import how_many
from bindoff.plan.gauge import Gauge
from bindoff.plan.measures import Measures
from bindoff.plan.persize import together
from bindoff.plan.tube import TubePart, TubeRounds
from bindoff.records import Record
from bindoff.source.amount import Amount
from bindoff.source.formula import Kind, parse_formula
from bindoff.source.tube import Tube, WantedStripe
from bindoff.source.yamltree import Place

ZONES: Mapping[TubePart, str] = MappingProxyType(
    {
        TubePart.LINING_GATHER: "gather",
        TubePart.LINING: "lining",
        TubePart.LINING_BRIM: "brim_outside",  # seen when it is turned up
        TubePart.OUTER_BRIM: "brim_inside",
        TubePart.OUTER: "body",
        TubePart.OUTER_GATHER: "gather",
    }
)
"""The zone that a part of a tube belongs to, by the name of its yarn's key."""

UNSEEN = (TubePart.LINING_GATHER, TubePart.LINING, TubePart.OUTER_BRIM, TubePart.OUTER_GATHER)
"""Parts that nobody sees when the piece is worn, its brim turned up."""

_PLACE = re.compile(r" (?:(above) (?:the )?(?:rim|start)|below (?:the )?(?:top|end))\Z")
_ROUNDS = re.compile(r"\brounds?\Z")


class Wanted(Record):
    """A stripe on one size's tube, from round ``first`` to ``last``, as it was ``written``."""

    first: int
    last: int
    written: WantedStripe

    @property
    def rounds(self) -> range:
        """Its rounds."""
        return range(self.first, self.last + 1)


def zone_yarns(tube: TubeRounds, written: Tube, main: str) -> tuple[str, ...]:
    """The yarn of every round without stripes and pictures: its zone's own, else ``main``."""
    return tuple(
        written.yarns.of(ZONES[segment.part]) or main
        for segment in tube.segments
        for _ in range(segment.first, segment.last + 1)
    )


def own_yarn_rounds(tube: TubeRounds, written: Tube) -> Iterator[int]:
    """The rounds of zones that have a yarn of their own, and those that nobody sees."""
    for segment in tube.segments:
        if segment.part in UNSEEN or written.yarns.of(ZONES[segment.part]):
            yield from range(segment.first, segment.last + 1)


def wanted_stripes(
    measures: Measures, written: Tube, tubes: Sequence[TubeRounds], gauges: Sequence[Gauge]
) -> tuple[tuple[Wanted, ...], ...]:
    """The wanted stripes of every size, in the order of their rounds.

    Raises:
        PatternError: ``tube.stripe-place`` for words that name no place, ``tube.stripe-outside``
            where a stripe does not lie on its zone, ``tube.stripes-meet`` for two in one round.
    """
    findings: list[Diagnostic] = []
    found: list[list[Wanted]] = [[] for _ in tubes]
    for stripe in written.stripes:
        try:
            placed = _placed(measures, stripe, tubes, gauges)
        except PatternError as error:
            findings.extend(error.findings)
            continue
        for stripes, one in zip(found, placed, strict=True):
            stripes.append(one)
    if findings:
        raise PatternError(findings)
    ordered = [sorted(stripes, key=lambda each: each.first) for stripes in found]
    _refuse(
        ((size, each) for size, stripes in enumerate(ordered) for each in _meeting(stripes)),
        measures,
    )
    return tuple(tuple(stripes) for stripes in ordered)


def _placed(
    measures: Measures, stripe: WantedStripe, tubes: Sequence[TubeRounds], gauges: Sequence[Gauge]
) -> list[Wanted]:
    place = stripe.place.of("from")
    words = " ".join(stripe.from_.split())
    match = _PLACE.search(words)
    if match is None:
        raise fail(
            "tube.stripe-place",
            f"`{stripe.from_}` does not say where the stripe lies",
            "Write how far from which edge, as in `3 cm above rim` or `4 rounds below top`",
            place.span,
        )
    away = rounds_away(measures, words[: match.start()], "from", place, gauges)
    high = _high(measures, stripe.rounds, gauges)
    part = TubePart.OUTER if stripe.on == "body" else TubePart.LINING_BRIM
    placed: list[Wanted] = []
    outside: list[tuple[int, Diagnostic]] = []
    for size, (tube, off, rounds) in enumerate(zip(tubes, away, high, strict=True)):
        segment = tube.segment(part)
        room = 0 if segment is None else segment.last - segment.first + 1
        if segment is None or off + rounds > room:
            outside.append((size, _outside(stripe, off, rounds, room)))
        elif match[1]:
            placed.append(Wanted(segment.first + off, segment.first + off + rounds - 1, stripe))
        else:
            placed.append(Wanted(segment.last - off - rounds + 1, segment.last - off, stripe))
    _refuse(outside, measures)
    return placed


def rounds_away(
    measures: Measures,
    words: str,
    key: str,
    place: Place,
    gauges: Sequence[Gauge],
    bare: bool = False,
) -> tuple[int, ...]:
    """How many rounds a distance has in every size: ``4 rounds`` or ``3 cm``; ``bare`` takes a
    number without its unit, such as ``rounds(brim)``, for rounds too."""
    counted = _ROUNDS.search(words)
    formula = parse_formula(_ROUNDS.sub("", words).rstrip(), place.text_span)
    distance = Amount(words, key, place, (formula,))
    if counted or (bare and measures.amount(distance).kind is not Kind.LENGTH):
        return measures.counts(distance)
    lengths = measures.lengths(distance, zero=True)
    return tuple(
        round(gauge.rounds_for(mm).rounded) if mm else 0
        for gauge, mm in zip(gauges, lengths, strict=True)
    )


def _high(measures: Measures, amount: Amount, gauges: Sequence[Gauge]) -> tuple[int, ...]:
    """The rounds of a stripe: counted, or from a length."""
    if measures.amount(amount).kind is not Kind.LENGTH:
        return measures.counts(amount, least=1)
    return tuple(
        max(1, round(gauge.rounds_for(mm).rounded))
        for gauge, mm in zip(gauges, measures.lengths(amount), strict=True)
    )


def _outside(stripe: WantedStripe, off: int, rounds: int, room: int) -> Diagnostic:
    if not room:
        return Diagnostic(
            "tube.stripe-outside",
            "the stripe lies on the brim, and the tube has no brim",
            "Say in `tube:` how deep the brim is, or take `on: brim` out",
            stripe.place.of("on").span,
        )
    where = "what is seen of the tube" if stripe.on == "body" else "the brim"
    return Diagnostic(
        "tube.stripe-outside",
        f"the stripe takes {how_many(rounds, 'round')} after {off}, and {where} has "
        f"{how_many(room, 'round')}",
        "Move it nearer to the edge, make it lower, or make the tube longer",
        stripe.place.of("from").span,
    )


def _meeting(stripes: Sequence[Wanted]) -> Iterator[Diagnostic]:
    """Two stripes, in the order of their rounds, that lie in the same round."""
    for below, above in pairwise(stripes):
        if above.first <= below.last:
            first, second = sorted(
                (below.written.place.of("from").span, above.written.place.of("from").span)
            )
            yield Diagnostic(
                "tube.stripes-meet",
                f"the stripe lies in round {above.first} of the tube, where the stripe of line "
                f"{first.line} is too",
                "Move one of them, or make one lower",
                second,
            )


def _refuse(found: Iterable[tuple[int, Diagnostic]], measures: Measures) -> None:
    names = measures.source.sizes
    findings = together(((names[size], each) for size, each in found), names)
    if findings:
        raise PatternError(findings)
