"""Edges, held stitches, seams and sides that texts name, where the pieces have them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.texts.named.nouns import any_noun
from bindoff.checks.texts.named.world import World
from bindoff.checks.texts.told.scene import parts_named, parts_of
from bindoff.english import an
from bindoff.plan.yarn import BindOffKind
from bindoff.source.model import TextUse

_PART_WORD = r"([a-z]+(?: [a-z]+)?)"
_WAITING = re.compile(
    rf"\b(?:the |both |these )?(?:held |waiting |live )?{_PART_WORD} (?:stitches|sts)"
    r" (?:wait|rest|stay|remain|are (?:held|left|waiting|put|kept|on) )"
    r"|\b(?:held|waiting) ([a-z]+) (?:stitches|sts)\b"
    r"|\b(?:stitches|sts) (?:held|waiting|kept|left)(?: \w+)? for (?:the |each )?([a-z]+)"
    r"|\b(?:put|return|slip|place|transfer)(?: back)? (?:the )?(?:\d+ )?(?:held )?([a-z]+)"
    r" (?:stitches|sts) (?:back )?(?:on|to|onto)\b",
    re.IGNORECASE,
)
_LIMB = re.compile(
    r"\b(?:finger|arm|leg|neck|front|back|body|ear|foot|hand|head)s?\b", re.IGNORECASE
)


def held_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """Stitches said to wait for a part that nothing in the source is called by."""
    if sentence.prose.kind is not TextUse.STEP or not world.holds:
        return
    for found in sentence.said(_WAITING):
        words = found[found.lastindex or 0]
        noun = any_noun().search(words) or _LIMB.search(words)
        stem = noun[0].lower().removesuffix("s") if noun else ""
        if stem not in world.called:
            yield Finding(
                f"`{quoted(found)}` stands here, and no stitches of {an(stem)} are held",
                sentence.place(found),
            )


# ---------------------------------------------------------------- seams

_SEAM = re.compile(
    r"\b(?:sew|seam|close|join|stitch|work)(?: up)? (?:the|each|both|all|two|four)"
    r" (?:left |right |long |short )?([a-z]+) seams?\b",
    re.IGNORECASE,
)
# What is left of these may be closed by a seam though they are worked in the round.
_CLOSED = frozenset(
    {"toe", "thumb", "crown", "top", "tail", "tip", "nose", "snout", "beak", "base"}
)
# Seams that are named by what they join or how they are sewn, and not by the part they close.
_NO_PART = re.compile(
    r"shoulder|underarm|flat|mattress|invisible|same|last|first|other|short|long|whole"
    r"|raglan|centre|center|small|little|two|remaining"
)


def seams_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A seam of a part that is worked in the round, so that it has none."""
    for found in sentence.said(_SEAM):
        word = found[1].lower()
        if not _NO_PART.fullmatch(word) and _all_round(world.context, word):
            what = "everything" if word == "side" else f"the {word}"
            yield Finding(
                f"`{found[0]}` stands here, and {what} is worked in the round",
                sentence.place(found),
            )


def _all_round(context: Context, word: str) -> bool:
    parts = parts_of(context) if word == "side" else parts_named(context, word)
    worked = [step for part in parts for step in part.steps if any(step.rounds)]
    closed = {step.closes.by for part in parts for step in part.steps if step.closes is not None}
    if word in _CLOSED and closed != {BindOffKind.GATHERED}:
        return False
    return bool(worked) and not any(step.flat or step.tubes for step in worked)


# ---------------------------------------------------------------- lists

_ITEM = r"(?:the|an?|one) ((?:[a-z-]+ )?[a-z-]+)"
_LISTED = re.compile(rf"(?:{_ITEM}(?:, and |, then |, | and )){{2,}}{_ITEM}", re.IGNORECASE)
_ITEMS = re.compile(rf"\b{_ITEM}(?=,| and|$)", re.IGNORECASE)
_SIDED = re.compile(r"(?:left|right|front|back|upper|lower|first|second) ")


def listed_twice(_: World, sentence: Sentence) -> Iterator[Finding]:
    """A list that has one part or one way of working twice, where two are told apart."""
    for found in _LISTED.finditer(sentence.words):
        items = _ITEMS.findall(found[0].lower())
        for item in dict.fromkeys(items):
            if items.count(item) > 1 and _SIDED.match(item):
                yield Finding(f"`the {item}` stands twice in one list", sentence.place(found))


# ---------------------------------------------------------------- layers

_LAID = re.compile(
    r"\b(right|wrong) sides? (?:facing )?(?:(up|uppermost|upwards?|on top)|down|downwards?"
    r"|underneath)\b",
    re.IGNORECASE,
)
_JOINED = re.compile(r"\b(?:sew|seam|stitch|backstitch|join)\b", re.IGNORECASE)
_INSIDE = re.compile(
    r"\bturn(?:ed)?\b[^.;]{0,40}\b(?:right side out|inside out|right way out|through)\b"
    r"|\bright sides? (?:together|inside|meet|touch|facing)|\bright sides (?:lie|are) (?:together"
    r"|inside)",
    re.IGNORECASE,
)


def layers_laid(world: World) -> Iterator[Finding]:
    """Pieces laid on each other to be sewn right sides together, of which two face one way: the
    first lies with its right side up, and all that is laid on it with it down."""
    for prose in world.context.prose if world.context.in_english else ():
        laid = list(_LAID.finditer(prose.text)) if "side" in prose.text else []
        if len(laid) > 1 and _JOINED.search(prose.text) and _INSIDE.search(prose.text):
            for index, found in enumerate(laid):
                up = (found[1].lower() == "right") is (found[2] is not None)
                if up is not (index == 0):
                    yield Finding(
                        f"`{found[0]}` stands here, and so the right sides do not lie together",
                        prose.place(*found.span()),
                    )
                    break
