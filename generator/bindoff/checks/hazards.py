"""Parts that endanger a child, against the declared hazards."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.hazardwords import told
from bindoff.diagnostics import Severity
from bindoff.english import an


@check(
    id="wearer.hazards",
    title="What could harm a child is declared",
    looks_at="closures (buttons, zippers, hook-and-loop tape), hard trims and feathers, eyes, "
    "bells and what makes a sound, wires, loose fillings, cords and elastic, pompoms, fringes and "
    "fur, magnets, batteries and lights, and whatever else is sewn on, laid in, threaded through "
    "or left to hang and is no part of the knitting, in every text and step, when a child or an "
    "infant is to wear the piece, against `hazards:`",
    why="small parts choke, cords strangle, magnets and button cells maim; the cautions are "
    "printed only for declared hazards",
    severity=Severity.WARNING,
    remedy="Add it to `hazards:`; silence this where the word means something harmless",
    needs=Needs.SOURCE,
)
def hazards_declared(context: Context) -> Iterator[Finding]:
    """One finding for each hazard, at the first word for it; at a sure one if there is any."""
    if not {"child", "infant"} & set(context.pattern.wearer):
        return
    who = " or ".join(an(each) for each in context.pattern.wearer if each != "adult")
    found = sorted(told(context), key=lambda each: not each.sure)
    first = {each.hazard: each for each in reversed(found)}
    for hazard, each in sorted(first.items()):
        if hazard not in context.pattern.hazards:
            yield Finding(
                f"`{each.word}` on something for {who}: `{hazard}` is not declared", each.place
            )


CHECKS = (hazards_declared,)
