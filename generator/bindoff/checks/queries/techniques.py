"""Techniques, and parts of what is made, that no step has."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.named.world import world_of
from bindoff.checks.texts.told.truths import all_rows, flat, phrase
from bindoff.checks.walk import told_in_words
from bindoff.remembered import once_each

# What is said, and what a step has that works it: the id of a stitch, a technique, a way to begin
# or to close, or a word by which the source names a part. Common practice, no source.
_SAID = {
    r"single crochet": r"sc",
    r"half double(?: crochet)?|half treble": r"hdc",
    r"(?<!half\s)double crochet": r"dc|sc",
    r"(?<!half\s)(?:treble|triple)(?: crochet)?": r"tr|dc",
    r"chains?(?= (?:stitch|space|of)|,| and)": r"ch|slip stitch|crochet[\w -]*",
    r"yarn[- ]?overs?": r"yo|lace|sl1yo",
    r"short rows?": r"short-rows|turn|w&t",
    r"graft(?:ed|ing|s)?": r"grafting|grafted|join-folded-tube",
    r"three[- ]needle (?:bind|cast)[- ]off|with three needles": r"three-needle[\w-]*",
    r"(?:bands?|edges?|collar|borders?)[^.;,]* (?:are |is )?picked up": r"picking-up|pick[\w-]*",
    r"provisional(?:ly)?": r"provisional[\w-]*",
    r"(?:sewn|tubular|i-cord) (?:bind|cast)[- ]off": r"(?:sewn|tubular|i-cord)[\w-]*",
    r"(?:heel )?flap": r"flap|heel flap",
    r"gussets?": r"gusset",
    r"afterthought": r"waste[\w -]*|held-thumb",
    r"raglans?|raglan sleeves": r"raglan\w*",
    r"V[- ]neck(?:ed|s)?": r"v[- ]neck",
    r"(?:round|crew|boat)[- ]neck(?:ed|s)?": r"(?:round|crew|boat)[- ]neck",
    r"set-in sleeves?|drop(?:ped)? shoulders?": r"set-in|drop\w*",
    r"duplicate stitch": r"duplicate-stitch",
    r"stranded|intarsia|fair isle": r"stranded[\w-]*|intarsia",
}
_WORDS = {
    phrase(rf"\b(?:{said})\b"): re.compile(rf"(?:^|\|)(?:[\w -]* )?(?:{has})s?(?:\||$)")
    for said, has in _SAID.items()
}


def techniques_doubted(told: Told) -> Iterator[Doubt]:
    """Each technique of a text of the whole pattern that no step has."""
    if told.scene.plan is not None or _DENIED.search(told.words):
        return
    for said, has in _WORDS.items():
        for found in said.finditer(told.words):
            if not has.search(_there(told.context)) and not _is_worded(told.context, found[0]):
                yield Doubt(*found.span(), "no step has this")


_DENIED = phrase(r"\b(?:no|not|without|instead|if|never|or)\b")


def _is_worded(context: Context, words: str) -> bool:
    """Whether a text of a piece that is worked in words alone has these words."""
    alone = told_in_words(context)
    said = re.compile(rf"(?i)\b{re.escape(words)}")
    return any(prose.piece in alone and prose.has(said) for prose in context.prose)


@once_each
def _there(context: Context) -> str:
    """What the steps have: stitches, techniques, ways to begin and to close, and names of parts."""
    found: set[str] = set(world_of(context).names)
    for plan in context.plan.pieces:
        for step in plan.steps:
            found.update(step.answers.techniques(step, step.flat))
            found.update(str(each.by) for each in (step.begins, step.closes) if each is not None)
            for row in (*all_rows(step), *getattr(step.detail, "rows", ())):
                found |= {part.stitch for part in flat(row.parts) if hasattr(part, "stitch")}
    for chart in context.pattern.charts.values():
        found |= {str(each) for each in chart.legend.values()}
    return "|".join(sorted(each.lower() for each in found))
