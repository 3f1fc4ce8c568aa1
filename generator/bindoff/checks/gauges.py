"""Whether a stated gauge can be trusted and repeated."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.diagnostics import Severity
from bindoff.plan.gauge import Gauge as Worked
from bindoff.source.lengths import parse_length
from bindoff.source.models import Gauge
from bindoff.source.yamltree import Path

_LEAST_MM = 95.0
_LEAST_ASPECT, _MOST_ASPECT = 1.0, 2.2


def _gauges(context: Context) -> Iterator[tuple[str, Path, Gauge, Worked]]:
    """Every gauge with a name for the reader, its path, as written and as worked."""
    measures, pattern = context.plan.measures, context.pattern
    plain = [i for i, size in enumerate(pattern.sizes.values()) if size.gauge is None]
    if plain:
        yield "the gauge", ("gauge",), pattern.gauge, measures.sizes[plain[0]].gauges[""]
    for key, gauge in pattern.gauges.items():
        yield f"the gauge `{key}`", ("gauges", key), gauge, measures.sizes[0].gauges[key]
    for sizing, (name, size) in zip(measures.sizes, pattern.sizes.items(), strict=True):
        if size.gauge:
            path: Path = ("sizes", name, "gauge")
            yield f"the gauge of size {name}", path, size.gauge, sizing.gauges[""]


@check(
    id="gauge.short",
    title="Gauge is measured over 10 cm or more",
    looks_at="the length of every gauge, and width and height of every swatch",
    why="over a few centimetres a half stitch is lost or won, and the piece comes out a size off",
    severity=Severity.WARNING,
    remedy="Count over 10 cm (4 in) or more, and state that",
)
def short_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each length."""
    for name, path, written, _ in _gauges(context):
        if written.swatch:
            places: list[Path] = [(*path, "swatch", "width"), (*path, "swatch", "height")]
        else:
            places = [(*path, "over")] if "over" in written.model_fields_set else []
        for place in places:
            mm = parse_length(context.source.tree.text(place), context.source.span(*place))
            if mm < _LEAST_MM:
                yield Finding(
                    f"{name} is measured over {mm / 10:g} cm only", context.source.span(*place)
                )


@check(
    id="gauge.words",
    title="Gauge says in which stitch and with which tool",
    looks_at="`worked:` and `tool:` of the pattern's gauges",
    why="a swatch in another stitch or with another needle tells nothing about this piece",
    severity=Severity.WARNING,
    remedy="Add `worked:` (such as stockinette in the round) and `tool:` (needle or tension)",
)
def gauge_words(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    for name, path, written, _ in _gauges(context):
        missing = [key for key in ("worked", "tool") if not getattr(written, key).strip()]
        if missing and path[0] != "sizes":
            yield Finding(
                f"{name} does not say {' and '.join(f'`{key}`' for key in missing)}",
                context.source.span(*path, key=True),
            )


@check(
    id="gauge.swapped",
    title="A stitch is wider than high",
    looks_at="stitches against rounds of every gauge; a stitch 1 to 2.2 times as wide as high is "
    "accepted",
    why="stitches and rounds that changed places turn every measure of the piece",
    severity=Severity.WARNING,
    remedy="Check which figure is stitches and which rounds; silence it for an unusual fabric",
)
def swapped_gauge(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    for name, path, _, worked in _gauges(context):
        if not _LEAST_ASPECT <= worked.aspect <= _MOST_ASPECT:
            yield Finding(
                f"{name} has {worked.stitches_per():.3g} stitches and {worked.rounds_per():.3g} "
                "rounds over 10 cm",
                context.source.span(*path),
            )


CHECKS = (short_gauge, gauge_words, swapped_gauge)
