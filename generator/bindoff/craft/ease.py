"""Ease: how much larger (or smaller) than the body a finished piece is meant to be."""

import math

from bindoff.records import Record

CYC = (
    "Craft Yarn Council, Standards & Guidelines, edition of 2018 and later (ease at bust or chest)"
)
COMMON = "common practice, no source"


class EaseRule(Record):
    """Ease from ``low`` to ``high``, in mm or, where ``percent`` is true, in % of the body.

    ``None`` is an open end.
    """

    name: str
    low: float | None
    high: float | None
    percent: bool
    source: str

    def finished_range(self, body_mm: float) -> tuple[float, float]:
        """The finished measures, in mm, the rule allows; 0 and infinity stand for open ends."""
        if not math.isfinite(body_mm) or body_mm <= 0:
            raise ValueError(f"a body measure must be above 0, not {body_mm:g}")
        unit = body_mm / 100 if self.percent else 1.0
        low = 0.0 if self.low is None else body_mm + self.low * unit
        high = math.inf if self.high is None else body_mm + self.high * unit
        return low, high

    def holds(self, body_mm: float, finished_mm: float) -> bool:
        """Whether a finished measure has this ease on that body (to a hundredth of a mm)."""
        low, high = self.finished_range(body_mm)
        return low - 0.01 <= finished_mm <= high + 0.01


# The newer edition: close-fitting is no ease, very close-fitting a negative one, and from there to
# 5 cm it has no word; the older called +2.5 to +5 cm close-fitting, and classic standard. The words
# are as read, the centimetres from memory; half a centimetre to either side is taken as no ease.
EASE_WORDS = (
    EaseRule("very close-fitting", None, -5, False, CYC),
    EaseRule("close-fitting", -5, 5, False, CYC),
    EaseRule("classic", 50, 100, False, CYC),
    EaseRule("loose-fitting", 100, 150, False, CYC),
    EaseRule("oversized", 150, None, False, CYC),
)

SNUG_HAT = EaseRule("snug hat", -10, -5, True, COMMON)


# Least and most ease that pieces for a part of the body usually have, in % of the body: common
# practice, no source. A head from the tightest ribbed hat to a loose one; a foot from the ribbed
# sock that a published handbook of socks lets be a quarter smaller.
_USUAL = {
    "head": (-20.0, 5.0),
    "hand": (-15.0, 20.0),
    "hand length": (-10.0, 20.0),
    "chest": (-12.0, 45.0),
    "hip": (-15.0, 55.0),
    "upper arm": (-10.0, 70.0),
    "foot": (-25.0, 5.0),
    "foot length": (-20.0, 5.0),
    "neck": (-15.0, 100.0),
    "wrist": (-30.0, 40.0),
    "ankle": (-30.0, 30.0),
}
_USUAL_ELSEWHERE = (-15.0, 60.0)


def usual_ease(dimension: str) -> tuple[float, float]:
    """Least and most ease that pieces for a part of the body usually have, in % of the body."""
    return _USUAL.get(dimension, _USUAL_ELSEWHERE)


def tube_ease(dimension: str) -> EaseRule:
    """The ease of a plain tube around a part of the body: a snug hat's, or what is usual there."""
    if dimension == "head":
        return SNUG_HAT
    return EaseRule(f"piece for the {dimension}", *usual_ease(dimension), True, COMMON)


def words_for(ease_mm: float) -> tuple[EaseRule, ...]:
    """The garment words an ease may go by; between two ranges, both neighbours."""
    fitting = tuple(rule for rule in EASE_WORDS if _within(rule, ease_mm))
    if fitting:
        return fitting
    below = [rule for rule in EASE_WORDS if rule.high is not None and rule.high < ease_mm]
    above = [rule for rule in EASE_WORDS if rule.low is not None and rule.low > ease_mm]
    return (below[-1], above[0])


def _within(rule: EaseRule, ease_mm: float) -> bool:
    low = -math.inf if rule.low is None else rule.low
    high = math.inf if rule.high is None else rule.high
    return low <= ease_mm <= high
