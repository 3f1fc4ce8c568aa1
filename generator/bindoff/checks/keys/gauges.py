"""Whether a stated gauge can be trusted and repeated."""

from collections import Counter
from collections.abc import Collection, Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import steps_of
from bindoff.craft.fabric import HOOKED, Fabric, fabric_named, fabric_of_gauge
from bindoff.craft.yarn_weights import category_for
from bindoff.diagnostics import Severity, Span
from bindoff.english import listed
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.gauge import Gauge as Worked
from bindoff.source.gauge import Gauge
from bindoff.source.lengths import parse_length

_LEAST_MM = 95.0
_LEAST_ASPECT, _MOST_ASPECT = 1.0, 2.2
_LEAST_OF_CROCHET = 0.4  # double crochet is twice as high as wide; common practice, no source
_EVERY_OTHER = (Fabric.BRIOCHE, Fabric.SLIPPED)
"""Each round works half of the stitches, so that there are twice as many rounds."""


def _gauges(context: Context) -> Iterator[tuple[str, Gauge, Worked]]:
    """Every gauge with a name for the reader, as written and as worked."""
    measures, pattern = context.plan.measures, context.pattern
    plain = [i for i, size in enumerate(pattern.sizes.values()) if size.gauge is None]
    if plain:
        yield "the gauge", pattern.gauge, measures.sizes[plain[0]].gauges[""]
    for key, gauge in pattern.gauges.items():
        yield f"the gauge `{key}`", gauge, measures.sizes[0].gauges[key]
    for sizing, (name, size) in zip(measures.sizes, pattern.sizes.items(), strict=True):
        if size.gauge:
            yield f"the gauge of size {name}", size.gauge, sizing.gauges[""]


@check(
    id="gauge.short",
    title="Gauge is measured over 10 cm or more",
    looks_at="the length of every gauge, and width and height of every swatch",
    why="over a few centimetres a half stitch is lost or won, and the piece comes out a size off",
    severity=Severity.WARNING,
    remedy="Count over 10 cm (4 in) or more, and state that",
    needs=Needs.SIZES,
)
def short_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each length."""
    for name, written, _ in _gauges(context):
        swatch = written.swatch
        if swatch:
            places = [swatch.place.of("width"), swatch.place.of("height")]
        else:
            places = [written.place.of("over")] if "over" in written.model_fields_set else []
        for place in places:
            mm = parse_length(place.text, place.span)
            if mm < _LEAST_MM:
                yield Finding(f"{name} is measured over {mm / 10:g} cm only", place.span)


@check(
    id="gauge.words",
    title="Gauge says in which stitch and with which tool",
    looks_at="`worked:` and `tool:` of the pattern's gauges",
    why="a swatch in another stitch or with another needle tells nothing about this piece",
    severity=Severity.WARNING,
    remedy="Add `worked:` (such as stockinette in the round) and `tool:` (needle or tension)",
    needs=Needs.SIZES,
)
def gauge_words(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    of_sizes = [size.gauge for size in context.pattern.sizes.values()]
    for name, written, _ in _gauges(context):
        missing = [key for key in ("worked", "tool") if not getattr(written, key).strip()]
        if missing and not any(written is each for each in of_sizes):
            yield Finding(
                f"{name} does not say {listed(f'`{key}`' for key in missing)}",
                written.place.key_span,
            )


@check(
    id="gauge.swapped",
    title="A stitch is wider than high",
    looks_at="stitches against rounds of every gauge; a stitch 1 to 2.2 times as wide as high is "
    "accepted, and twice as much where each round works every other stitch, as in brioche",
    why="stitches and rounds that changed places turn every measure of the piece",
    severity=Severity.WARNING,
    remedy="Check which figure is stitches and which rounds; silence it for an unusual fabric",
    needs=Needs.SIZES,
)
def swapped_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    for name, written, worked in _gauges(context):
        fabric = fabric_of_gauge(written.worked, uk=context.pattern.terms == "UK")
        most = _MOST_ASPECT * (2 if fabric in _EVERY_OTHER else 1)
        least = _LEAST_OF_CROCHET if fabric in HOOKED else _LEAST_ASPECT
        if not least <= worked.aspect <= most:
            yield Finding(
                f"{name} has {worked.stitches_per():.3g} stitches and {worked.rounds_per():.3g} "
                "rounds over 10 cm",
                written.place.span,
            )


@check(
    id="gauge.over",
    title="The gauge is counted over the length that is stated",
    looks_at="a gauge over another length than 10 cm or 4 in, against the weight categories of the "
    "yarns (Craft Yarn Council, Standard Yarn Weight System): two categories off as stated, and "
    "right over 10 cm or 4 in",
    why="one figure in a length makes every stitch of the pattern too wide or too narrow",
    severity=Severity.WARNING,
    remedy="Write the length over which the stitches were counted",
    needs=Needs.SIZES,
)
def counted_over(context: Context) -> Iterator[Finding]:
    """One finding for each gauge that is written as stitches over a length."""
    if context.pattern.made.by == "machine":
        return
    weights = {yarn.weight for yarn in context.pattern.yarns.values()}
    for name, written, worked in _gauges(context):
        if written.swatch or "over" not in written.model_fields_set or not written.stitches:
            continue
        if _off(worked.stitches_per(), weights) > 1 and _off(written.stitches, weights) <= 1:
            place = written.place.of("over")
            over = " ".join(place.text.split())
            yield Finding(
                f"{name} has {written.stitches:g} stitches over {over}, "
                f"{worked.stitches_per():.3g} over 10 cm; the yarn's weight suits "
                f"{written.stitches:g} over 10 cm",
                place.span,
                "Write `over: 10 cm` or `over: 4 in` if that is what was counted; else correct "
                "the stitches, or the yarn's `weight:`",
            )


@check(
    id="gauge.fabric",
    title="The rows make the fabric that the gauge is worked in",
    looks_at="a gauge said to be in single or double rib, garter, seed or moss stitch, against the "
    "fabric that most stitches of its pieces make, told by knits and purls",
    why="a row that is one stitch out turns seed stitch into rib, which is narrower",
    severity=Severity.WARNING,
    remedy="Correct the rows, or say under `worked:` what the swatch is knitted in",
)
def fabric_worked(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    pattern = context.pattern
    for key, gauge in (("", pattern.gauge), *pattern.gauges.items()):
        named = fabric_named(gauge.worked, uk=pattern.terms == "UK")
        if named not in _SURE or _VARIED.search(gauge.worked):
            continue
        made: Counter[Fabric] = Counter()
        places: dict[Fabric, Span] = {}
        for at in steps_of(context):
            if (at.piece.gauge or "") == key:
                stitches = sum(n for rows in at.step.worked[0] for _, n in rows)
                if at.step.rounds[0] >= _ROWS:
                    fabric = fabric_of(at.plan, at.step, context.source)
                    made[fabric] += stitches
                    places.setdefault(fabric, at.step.span)
        most = max(made, key=lambda each: made[each], default=None)
        if most in _BY_EYE and _kin(named) not in map(_kin, made):
            yield Finding(
                f"the gauge is said to be in {gauge.worked}, and the rows make {_told(most)}",
                places[most],
            )


_ROWS = 4  # fewer show no fabric
_RIBS = (Fabric.RIB_1, Fabric.RIB_2, Fabric.RIB)
_SURE = (Fabric.RIB_1, Fabric.RIB_2, Fabric.GARTER, Fabric.TEXTURE)
_VARIED = re.compile(
    r"broken|mistake|farrow|seeded|basket|textur|knit[- ]purl|half|slip|twist|lace|ridge|panel"
    r"| and | or |/",
    re.IGNORECASE,
)
_BY_EYE = (*_RIBS, Fabric.GARTER, Fabric.TEXTURE)


def _kin(fabric: Fabric | None) -> Fabric | None:
    return Fabric.RIB if fabric in _RIBS else fabric


def _told(fabric: Fabric) -> str:
    return "a rib" if fabric in _RIBS else fabric.value


def _off(stitches: float, weights: Collection[int]) -> int:
    """How many categories a gauge over 10 cm lies beside the nearest of the yarns."""
    return min(abs(w - each.number) for w in weights for each in category_for(stitches))


CHECKS = (short_gauge, gauge_words, swapped_gauge, counted_over, fabric_worked)
