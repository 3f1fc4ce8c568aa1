"""Which findings only follow from which others, so that a cause is told once and first.

A head of 64 inches, a gauge over the wrong length or sizes out of order spoil every figure after
them; what the plan then says at an innocent step is laid beneath the slip itself.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from bindoff.diagnostics import Diagnostic, Severity
from bindoff.plan.carryon import of_stitches

# What makes figures wrong, the likelier cause first.
_OF_FIGURES = ("gauge.over", "gauge.swapped", "body.range", "size.order", "measure.steps")
_SPOILT = frozenset(
    {
        "amount.small", "amount.large", "amount.whole", "formula.length", "formula.too-large",
        "picture.height", "picture.width", "schematic.size", "tube.large",
    }
)  # fmt: skip

# Findings of checks that say again what another check says better.
_SAID_AGAIN: Mapping[str, frozenset[str]] = {
    "wearer.safety": frozenset({"wearer.hazards"}),
    "gauge.over": frozenset({"yarn.weight-gauge", "crown.shape"}),
    "gauge.swapped": frozenset({"yarn.weight-gauge", "crown.shape"}),
    "body.range": frozenset({"wearer.sizes", "fit.ease", "fit.even"}),
}


def causes_first(
    found: Sequence[Diagnostic], sizes: Sequence[str], failed: Sequence[Diagnostic] = ()
) -> tuple[Diagnostic, ...]:
    """``found`` by checks and ``failed`` proofs, with what follows laid beneath its cause.

    A cause takes what it explains in its own sizes. Beneath an error's cause lies an error, so the
    cause is one too. What the pattern silences causes nothing.
    """
    beneath: dict[int, list[Diagnostic]] = {}
    placed: set[int] = set()
    everything = [*found, *failed]
    for place, finding in enumerate(everything):
        cause = _cause(finding, found, sizes)
        if cause is not None and cause != place:
            beneath.setdefault(cause, []).append(finding)
            placed.add(place)
    return tuple(
        _with(finding, beneath.get(place, []))
        for place, finding in enumerate(everything)
        if place not in placed
    )


def _cause(finding: Diagnostic, found: Sequence[Diagnostic], sizes: Sequence[str]) -> int | None:
    """The place in ``found`` of what ``finding`` follows from."""
    spoilt = of_stitches(finding) or finding.id in _SPOILT
    for place in sorted(range(len(found)), key=lambda each: _rank(found[each])):
        cause = found[place]
        if cause.severity is Severity.NOTE or finding.severity is Severity.NOTE:
            continue
        again = finding.id in _SAID_AGAIN.get(cause.id, ())
        if again or (spoilt and cause.id in _OF_FIGURES):
            its = set(finding.sizes or sizes)
            if its <= set(cause.sizes or sizes):
                return place
    return None


def _rank(finding: Diagnostic) -> int:
    return _OF_FIGURES.index(finding.id) if finding.id in _OF_FIGURES else len(_OF_FIGURES)


def _with(cause: Diagnostic, followers: Sequence[Diagnostic]) -> Diagnostic:
    if not followers:
        return cause
    each = tuple(part for one in followers for part in (replace(one, follows=()), *one.follows))
    wrong = any(one.severity is Severity.ERROR for one in followers)
    severity = Severity.ERROR if wrong else cause.severity
    return replace(cause, severity=severity, follows=(*cause.follows, *each))
