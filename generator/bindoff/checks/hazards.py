"""Parts that endanger a child, against the declared hazards."""

import re
from collections.abc import Iterator, Mapping

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import Kind
from bindoff.diagnostics import Severity

# What 16 CFR 1501 tests as small parts leaves out yarn and fabric; EN 14682 and 16 CFR 1120 set
# limits on cords. Pompoms: common practice.
_WORDS: Mapping[str, str] = {
    "small parts": r"buttons?|beads?|toggles?|snaps?|sequins?|rivets?|jingle bells?|safety eyes"
    r"|charms?",
    "cords": r"(?:i-)?cords?|drawstrings?|ribbons?|laces|(?:two|long|short|braided) ties"
    r"|ear ?flap ties|chin straps?",
    "pompom": r"pom-?poms?|bobbles? of yarn|tassels?",
}

_DENIAL = re.compile(r"\b(?:no|not|never|without|avoid|instead of)\s+(?:\w+\s+)?$", re.IGNORECASE)


@check(
    id="wearer.hazards",
    title="What could harm a child is declared",
    looks_at="words for buttons, beads, cords, ties and pompoms in every text, when a child or an "
    "infant is to wear the piece, against `hazards:`",
    why="small parts choke and cords strangle; the cautions are printed only for declared hazards",
    severity=Severity.WARNING,
    remedy="Add it to `hazards:`; silence this where the word means something harmless",
)
def hazards_declared(context: Context) -> Iterator[Finding]:
    """One finding for each hazard, at the first word for it."""
    if not {"child", "infant"} & set(context.pattern.wearer):
        return
    for hazard, words in _WORDS.items():
        if hazard in context.pattern.hazards:
            continue
        pattern = re.compile(rf"\b(?:{words})\b", re.IGNORECASE)
        for prose in context.prose:
            meant = (each for each in prose.found(pattern) if not _denied(prose.text, each[0]))
            found = next(meant, None) if prose.kind not in (Kind.ALT, Kind.TITLE) else None
            if found:
                who = " or ".join(w for w in context.pattern.wearer if w != "adult")
                yield Finding(
                    f"`{found[0][0]}` on something for a {who}: `{hazard}` is not declared",
                    found[1],
                )
                break


def _denied(text: str, found: "re.Match[str]") -> bool:
    """Whether the text only says to leave it off."""
    return _DENIAL.search(text[: found.start()]) is not None


CHECKS = (hazards_declared,)
