"""The fibre and the thickness that a text gives to the yarn."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.prose import Prose

WOOL = re.compile(r"wool|merino|lambswool|alpaca|mohair|cashmere|angora", re.IGNORECASE)
"""Matches a fibre that goes by the name of wool."""

# A fibre as what the yarn is said to be: the sentence's subject, or the thing that is handled.
_FIBRE = r"cotton|wool|linen|silk|alpaca|mohair|cashmere|acrylic|bamboo|hemp|viscose|merino"
_IS_FIBRE = re.compile(
    rf"(?:^|[.;:!?]\s+)(?:(?:Pure|Fine|Soft|The)\s+)*({_FIBRE})(?:\s+yarns?)?\s+(?:shrinks"
    rf"|stretches|felts|grows|dries|gives"
    r"|does|doesn['’]t|has|is|keeps|softens|wears|needs|blooms|sheds|pills|holds|lets|takes|loses"
    r"|drapes"
    r"|will|may|can)\b"
    rf"|\b(?:in|of|the|this|your) (?:\w+ )?({_FIBRE}) yarns?\b",
    re.IGNORECASE,
)
_OTHER_FIBRE = re.compile(
    r"\b(?:or|instead|not|no|unlike|than|like|if|would|could|another|other|substitut\w*|avoid"
    r"|blend)\b",
    re.I,
)
# Names of a yarn's thickness and the Craft Yarn Council's numbers that bear them; ply numbers as
# they are used in the UK and Australia (from memory).
_WEIGHTS = {
    "2-ply": (0, 1), "3-ply": (0, 1), "4-ply": (1,), "5-ply": (2,), "6-ply": (2, 3),
    "8-ply": (3,), "10-ply": (4,), "12-ply": (5,), "14-ply": (5, 6),
    "lace-weight": (0,), "fingering": (0, 1), "sport": (2,), "sport-weight": (2,), "dk": (3,),
    "double knitting": (3,), "worsted": (3, 4), "aran": (4,), "chunky": (5,), "bulky": (5,),
    "super bulky": (6,), "super chunky": (6,),
}  # fmt: skip
_SPELLED = "|".join(
    re.escape(name).replace(r"\-", "[- ]") for name in sorted(_WEIGHTS, key=len, reverse=True)
)
_WEIGHT = re.compile(
    rf"\b({_SPELLED})(?:[- ]weight)?(?= (?:yarns?|wools?|weight|cotton|thickness))", re.IGNORECASE
)


def spun(context: Context, prose: Prose) -> Iterator[Finding]:
    """The fibre and the thickness that a text gives to the yarn."""
    yarns = context.pattern.yarns.values()
    fibres = ", ".join({yarn.fibre: "" for yarn in yarns if yarn.fibre})
    for found, place in prose.found(_IS_FIBRE) if all(yarn.fibre for yarn in yarns) else ():
        word = (found[1] or found[2]).lower()
        known = WOOL if word == "wool" else re.compile(word, re.IGNORECASE)
        sentence = prose.text[
            prose.text.rfind(".", 0, found.start(1) if found[1] else found.start()) + 1 :
        ]
        if not known.search(fibres) and not _OTHER_FIBRE.search(sentence.split(". ")[0]):
            yield Finding(f"`{word}` stands here, and the yarns are of {fibres}", place)
    for found, place in prose.found(_WEIGHT):
        named = _WEIGHTS.get(found[1].lower().replace(" ", "-")) or _WEIGHTS[found[1].lower()]
        there = {yarn.weight for yarn in yarns}
        text = prose.text[max(found.start() - 60, 0) : found.end() + 60]
        if not there & set(named) and not re.search(
            r"(?i)\b(?:or|instead|held|double|strands?|another|other|like|not)\b", text
        ):
            weights = " and ".join(map(str, sorted(there)))
            yield Finding(f"`{found[0]}` stands here, and the yarn has weight {weights}", place)
