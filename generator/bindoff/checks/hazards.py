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
    "infant is to wear the piece, against `hazards:`; magnets and batteries whoever wears it",
    why="small parts choke, cords strangle, magnets and button cells maim; the cautions are "
    "printed only for declared hazards",
    severity=Severity.WARNING,
    remedy="Add it to `hazards:`; silence this where the word means something harmless",
    needs=Needs.SOURCE,
)
def hazards_declared(context: Context) -> Iterator[Finding]:
    """One finding for each hazard, at the first word for it; at a sure one if there is any."""
    young = [each for each in context.pattern.wearer if each != "adult"]
    whose = f" on something for {' or '.join(map(an, young))}" if young else ""
    found = sorted(told(context), key=lambda each: not each.sure)
    first = {each.hazard: each for each in reversed(found)}
    for hazard, each in sorted(first.items()):
        if hazard not in context.pattern.hazards and (young or (hazard in _ANYWHERE and each.sure)):
            yield Finding(f"`{each.word}`{whose}: `{hazard}` is not declared", each.place)


_ANYWHERE = ("magnets", "button cells")
"""What children find and swallow on the things of adults too."""


CHECKS = (hazards_declared,)
