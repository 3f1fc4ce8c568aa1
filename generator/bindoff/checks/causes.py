"""Which findings only follow from which others, so that a cause is told once and first.

A head of 64 inches, a gauge over the wrong length or sizes out of order spoil every figure after
them; what the plan then says at an innocent step is laid beneath the slip itself.
"""

from collections.abc import Collection, Mapping, Sequence

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, Severity, Span
from bindoff.plan.carryon import of_stitches
from bindoff.records import Record, replace
from bindoff.source.bundle import Source
from bindoff.source.yamltree import Place

# What makes figures wrong, the likelier cause first.
_OF_FIGURES = ("gauge.over", "gauge.swapped", "body.range", "size.order", "measure.steps")
_SPOILT = frozenset(
    {
        "amount.small", "amount.large", "amount.whole", "formula.length", "formula.too-large",
        "picture.height", "picture.width", "schematic.size", "tube.large",
    }
)  # fmt: skip

_DANGERS = frozenset({"wearer.uses", "wearer.parts", "wearer.threads", "wearer.loose"})

# What reads any sentence, beneath what reads the same words for its one thing.
_SAID_THERE: Mapping[str, frozenset[str]] = {
    "prose.yarn": frozenset({"prose.claim"}),
    "tool.missing": frozenset({"prose.claim"}),
    "prose.gauge": frozenset({"prose.length"}),
    "prose.sizes": frozenset({"prose.length"}),
    "prose.small-count": frozenset({"prose.chart"}),
    "wearer.safety": frozenset({"wearer.permitted"}),
    "wearer.permitted": _DANGERS,
    "wearer.waived": _DANGERS,
}

_NAME = re.compile(r"[A-Za-z_]\w*")

# Findings of checks that say again what another check says better.
_SAID_AGAIN: Mapping[str, frozenset[str]] = {
    "wearer.safety": frozenset({"wearer.hazards", "notion.count"}),
    "gauge.over": frozenset(
        {
            "yarn.weight-gauge",
            "crown.shape",
            "gauge.short",
            "size.same",
            "stated.width",
            "stated.height",
        }
    ),
    "gauge.swapped": frozenset({"yarn.weight-gauge", "crown.shape"}),
    "body.range": frozenset({"wearer.sizes", "fit.ease", "fit.even"}),
}


def causes_first(
    found: Sequence[Diagnostic], source: Source, failed: Sequence[Diagnostic] = ()
) -> tuple[Diagnostic, ...]:
    """``found`` by checks and ``failed`` proofs, with what follows laid beneath its cause.

    A cause takes what it explains in its own sizes, where the figure it is about is used. Beneath
    an error's cause lies an error, so the cause is one too. What the pattern silences causes
    nothing.
    """
    beneath: dict[int, list[Diagnostic]] = {}
    placed: set[int] = set()
    everything = [*found, *failed]
    causes = _causes(found, source)
    closer = _closer(found)
    for place, finding in enumerate(everything):
        cause = _cause(finding, causes, source)
        if cause is None:
            cause = _said_there(finding, closer)
        if cause is not None and cause != place:
            beneath.setdefault(cause, []).append(finding)
            placed.add(place)
    return tuple(
        _with(finding, beneath.get(place, []))
        for place, finding in enumerate(everything)
        if place not in placed
    )


class _Cause(Record):
    """What others may follow from: its id, its ``sizes``, and the figure it is about by name.

    ``measures`` are the names of that figure and of all that is made from it; ``None`` where the
    finding is about no figure.
    """

    id: str
    sizes: frozenset[str]
    measures: frozenset[str] | None


def _causes(found: Sequence[Diagnostic], source: Source) -> Mapping[_Cause, int]:
    """The place in ``found`` of each different cause, the deepest first.

    Of causes that explain the same the first counts, so thousands of findings make few of them.
    """
    made = {name: _names_in(each.place) for name, each in source.pattern.measures.items()}
    causes: dict[_Cause, int] = {}
    for place in sorted(range(len(found)), key=lambda each: _rank(found[each])):
        cause = found[place]
        of_figure = cause.id in _OF_FIGURES
        if cause.severity is not Severity.NOTE and (of_figure or cause.id in _SAID_AGAIN):
            names = _measures_of(_figure(cause, source), made) if of_figure else None
            sizes = frozenset(cause.sizes or source.sizes)
            causes.setdefault(_Cause(cause.id, sizes, names), place)
    return causes


def _measures_of(figure: str | None, made: Mapping[str, Collection[str]]) -> frozenset[str] | None:
    """``figure`` and the measures ``made`` from it, or from these."""
    if figure is None:
        return None
    names = {figure}
    while more := {name for name, used in made.items() if not names.isdisjoint(used)} - names:
        names |= more
    return frozenset(names)


def _cause(finding: Diagnostic, causes: Mapping[_Cause, int], source: Source) -> int | None:
    """The place of what ``finding`` follows from."""
    if finding.severity is Severity.NOTE:
        return None
    spoilt = of_stitches(finding) or finding.id in _SPOILT
    sizes = set(finding.sizes or source.sizes)
    names = _names_at(finding.span, source) if spoilt and finding.span else None
    for cause, place in causes.items():
        again = finding.id in _SAID_AGAIN.get(cause.id, ())
        figures = spoilt and cause.id in _OF_FIGURES
        if sizes <= cause.sizes and (again or (figures and _reaches(cause, names))):
            return place
    return None


def _closer(found: Sequence[Diagnostic]) -> Mapping[tuple[str, int], Sequence[tuple[int, Span]]]:
    """The place in ``found``, and where it stands, of all that says one thing better, by its
    id and line."""
    closer: dict[tuple[str, int], list[tuple[int, Span]]] = {}
    for place, each in enumerate(found):
        if each.id in _SAID_THERE and each.span and each.severity is not Severity.NOTE:
            closer.setdefault((each.id, each.span.line), []).append((place, each.span))
    return closer


def _said_there(
    finding: Diagnostic, closer: Mapping[tuple[str, int], Sequence[tuple[int, Span]]]
) -> int | None:
    """The place of what says better what ``finding`` says of the same words."""
    words = finding.span
    if words is None or finding.severity is Severity.NOTE:
        return None
    for id, again in _SAID_THERE.items():
        for place, span in closer.get((id, words.line), ()) if finding.id in again else ():
            if _within(words, span) or _within(span, words):
                return place
    return None


def _within(part: Span, whole: Span) -> bool:
    """Whether one place lies in another, or is it."""
    return (
        part.file == whole.file
        and (whole.line, whole.column) <= (part.line, part.column)
        and (part.end_line, part.end_column) <= (whole.end_line, whole.end_column)
    )


def _reaches(cause: _Cause, names: Collection[str] | None) -> bool:
    """Whether a place that uses ``names`` uses the figure that ``cause`` is about.

    A gauge is in every figure. A body or a measure is used where its name stands, or that of a
    measure made from it: anywhere in the piece, as its counts follow from each other.
    """
    if cause.measures is None or names is None:
        return cause.id.startswith("gauge.")
    return not cause.measures.isdisjoint(names)


def _figure(cause: Diagnostic, source: Source) -> str | None:
    """The body measurement or the measure that a finding is about, as formulas name it."""
    for size in source.pattern.sizes.values():
        for key in size.body:
            if size.place_of(key).span == cause.span:
                return key.replace(" ", "_")
    for name, measure in source.pattern.measures.items():
        if cause.span and _inside(cause.span, measure.span):
            return name
    return None


def _names_at(place: Span, source: Source) -> set[str]:
    """All names in the piece, or in the measure, that ``place`` lies in."""
    pattern = source.pattern
    for group in (pattern.pieces, pattern.measures, pattern.finished):
        for key, written in group.items():
            if _inside(place, written.place.span):
                return _names_in(written.place) | {key}
            if written.place.key_span == place:
                return _names_in(written.place)
    return set()


def _inside(place: Span, whole: Span) -> bool:
    return place.file == whole.file and whole.line <= place.line <= whole.end_line


def _names_in(place: Place) -> set[str]:
    return set(_NAME.findall(place.text))


def _rank(finding: Diagnostic) -> int:
    return _OF_FIGURES.index(finding.id) if finding.id in _OF_FIGURES else len(_OF_FIGURES)


def _with(cause: Diagnostic, followers: Sequence[Diagnostic]) -> Diagnostic:
    if not followers:
        return cause
    each = tuple(part for one in followers for part in (replace(one, follows=()), *one.follows))
    wrong = any(one.severity is Severity.ERROR for one in followers)
    severity = Severity.ERROR if wrong else cause.severity
    return replace(cause, severity=severity, follows=(*cause.follows, *each))
