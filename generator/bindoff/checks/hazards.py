"""Parts that endanger a child, against the declared hazards."""

import re
from collections.abc import Iterator, Mapping

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import tied_tops
from bindoff.diagnostics import Severity
from bindoff.english import an
from bindoff.source.denials import left_off
from bindoff.source.model import TextUse

# 16 CFR 1501 counts no yarn, fabric or elastic as a small part (1501.4), so what is worked of the
# yarn, such as bobbles, is left out. EN 14682 and 16 CFR 1120 set limits on cords. Swallowed
# magnets and button cells: 16 CFR 1262 and 1263, from memory. Pompoms, tassels and fringes: common
# practice, no source.
_WORDS: Mapping[str, str] = {
    "small parts": r"buttons?(?!\W+(?:cells?|batter))|buttonholes?|bead(?:s|ed)?|toggles?"
    r"|snaps?|(?:press|metal)[ -]studs?|poppers?|sequins?|rivets?|rhinestones?|buckle|charms?"
    r"|bells?(?!\W+(?:shape|sleeve|cuff|bottom))|(?:zip|zipper)s?|hooks? and eyes?"
    r"|(?:dried|(?:bag|handful|cup) of) (?:rice|beans?|lentils?|peas)"
    r"|(?:plastic|poly|doll|weighting) (?:pellets|granules)"
    r"|(?:safety|plastic|hard|glass|toy|doll|animal|bought|googly) eyes?|brooch(?:es)?",
    "cords": r"(?:i-)?cords?|draw ?strings?|ribbons?|laces|straps?|mitten strings?"
    r"|(?:two|long|short|braided) ties|ear ?flap ties"
    r"|elastics?(?!\W+(?:rib|cast|bind|edge|edging|fabric|stitch|yarn|hem|enough|brim|cuff))",
    "pompom": r"pom[ -]?po[mn]s?|tassels?|fring(?:e[ds]?|ing)",
    "magnets": r"magnets?|magnetic",
    "button cells": r"(?:button|coin)[ -]cells?|batter(?:y|ies)|(?-i:LEDs?)|fairy lights",
}

# Eyes in a list of what to buy are bought ones; in a sentence they may be the wearer's.
_BOUGHT: Mapping[str, str] = {"small parts": r"eyes"}


@check(
    id="wearer.hazards",
    title="What could harm a child is declared",
    looks_at="words for buttons, beads, eyes, bells, zippers, cords, elastic, pompoms, tassels, "
    "fringes, magnets and button cells in every text, when a child or an infant is to wear the "
    "piece, against `hazards:`",
    why="small parts choke, cords strangle, magnets and button cells maim; the cautions are "
    "printed only for declared hazards",
    severity=Severity.WARNING,
    remedy="Add it to `hazards:`; silence this where the word means something harmless",
    needs=Needs.SOURCE,
)
def hazards_declared(context: Context) -> Iterator[Finding]:
    """One finding for each hazard, at the first word for it."""
    if not {"child", "infant"} & set(context.pattern.wearer):
        return
    for hazard, words in _WORDS.items():
        if hazard in context.pattern.hazards:
            continue
        who = " or ".join(an(w) for w in context.pattern.wearer if w != "adult")
        tied = next(tied_tops(context), None) if hazard == "cords" else None
        if tied:
            _, by, place = tied
            yield Finding(f"`{by}` on something for {who}: `cords` is not declared", place)
            continue
        for prose in context.prose:
            if prose.kind in (TextUse.ALT, TextUse.TITLE):
                continue
            bought = _BOUGHT.get(hazard) if prose.path[:1] == ("notions",) else None
            either = f"{words}|{bought}" if bought else words
            pattern = re.compile(rf"\b(?:{either})\b", re.IGNORECASE)
            meant = (
                each
                for each in prose.found(pattern)
                if not left_off(prose.text[: each[0].start()], prose.text[each[0].end() :])
            )
            found = next(meant, None)
            if found:
                yield Finding(
                    f"`{found[0][0]}` on something for {who}: `{hazard}` is not declared",
                    found[1],
                )
                break


CHECKS = (hazards_declared,)
