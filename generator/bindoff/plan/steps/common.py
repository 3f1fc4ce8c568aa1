"""Answers that several kinds of steps give."""

from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.measures import Measures
from bindoff.plan.worked import StepPlan

NEEDLES = "knitting needles"
MACHINE = "knitting machine"
HOOK = "crochet hook"
CABLE = "cable needle"
WAITING = "waste yarn or stitch holder"


def needles(step: StepPlan) -> tuple[str, ...]:
    """Needles to knit with, where any size works a round."""
    return (NEEDLES,) if any(step.rounds) else ()


def yarn_facts(_: Measures, step: StepPlan, keys: Keys) -> Facts:
    """The yarn it is worked in."""
    return {(What.YARN, ""): {"": keys.yarn(step.yarn)}}


def method_facts(how: str) -> Facts:
    """How stitches are cast on, bound off or joined; nothing where it is not said."""
    return {(What.METHOD, ""): {"": how} if how else {}}
