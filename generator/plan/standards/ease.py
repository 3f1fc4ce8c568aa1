"""Ease: how much larger (or smaller) than the body a finished piece is meant to be."""

import math
from dataclasses import dataclass

CYC = "Craft Yarn Council, Standards & Guidelines (ease at bust or chest)"
COMMON = "common practice, no source"


@dataclass(frozen=True, slots=True)
class EaseRule:
    """Ease from ``low`` to ``high``, in mm or, where ``percent`` is true, in % of the body.

    ``None`` is an open end. ``convention`` is true where no published standard stands behind it.
    """

    name: str
    low: float | None
    high: float | None
    percent: bool
    source: str
    convention: bool

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


# Centimetre figures as printed beside the inches (1 in taken as 2.5 cm); facts of the standard.
EASE_WORDS = (
    EaseRule("very close-fitting", None, 0, False, CYC, False),
    EaseRule("close-fitting", 25, 50, False, CYC, False),
    EaseRule("standard", 50, 100, False, CYC, False),
    EaseRule("loose-fitting", 100, 150, False, CYC, False),
    EaseRule("oversized", 150, None, False, CYC, False),
)

# A snug cap is 5 to 10 % smaller than the head; ribbing stretches further, up to 20 %.
HAT_EASE = (
    EaseRule("snug hat", -10, -5, True, COMMON, True),
    EaseRule("ribbed hat", -20, -5, True, COMMON, True),
)


def ease_rule(name: str) -> EaseRule:
    """The rule of that name, garments and hats. Raises ``ValueError`` that lists the names."""
    rules = {rule.name: rule for rule in (*EASE_WORDS, *HAT_EASE)}
    if name not in rules:
        raise ValueError(f"no ease is called {name!r}; there are {', '.join(rules)}")
    return rules[name]


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
