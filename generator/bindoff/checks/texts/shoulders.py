"""At which shoulder a round around the neck begins, against the order of what is picked up."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import quoted, sentences_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import steps_of
from bindoff.plan.steps.pick_up_along import PickedUp

_BEGINS = phrase(
    r"\b(?:begin|start)(?:ning|ing)?(?: at| from| with)(?: the)? (left|right) (?:back )?shoulder"
    r"(?: seam)?\b"
)
_BACK = re.compile(r"\bback\b.*\bneck\b|\bneck\b.*\bback\b", re.IGNORECASE)
_LEFT_FRONT = re.compile(
    r"\bleft\b(?=.{0,150}\b(?:front|neck)\b)(?!.{0,150}\bback\b)", re.IGNORECASE
)


def shoulders_told(context: Context) -> Iterator[Finding]:
    """A round that is said to begin at the one shoulder, and whose edges begin at the other.

    With the right side facing stitches are picked up to the knitter's left: from the right shoulder
    as worn over the back of the neck, from the left one down the left front.
    """
    for at in steps_of(context):
        if not isinstance(at.step.detail, PickedUp) or at.step.after[0].flat:
            continue
        parts = [" ".join((part.edge, *part.names)) for part in at.step.detail.parts]
        side = _side(parts)
        for prose in context.prose if side else ():
            own = prose.piece == at.plan.key and prose.path[2:3] == ("steps",)
            if not own or at.index - 1 > int(prose.path[3]) or int(prose.path[3]) > at.index:
                continue
            for sentence in sentences_of(prose):
                for found in sentence.said(_BEGINS) if not sentence.supposes else ():
                    if found[1].lower() != side and "wrong side" not in sentence.words:
                        yield Finding(
                            f"`{quoted(found)}` stands here, and `{parts[0].strip()}`, which "
                            f"comes first, is picked up from the {side} shoulder",
                            sentence.place(found),
                            beside=(at.step.span,),
                        )


def _side(parts: list[str]) -> str:
    """The shoulder at which a round around the whole neck begins; empty where that is open."""
    if len(parts) < 2 or not any("front" in part for part in parts):
        return ""
    if _BACK.search(parts[0]) and _LEFT_FRONT.search(parts[1]):
        return "right"
    return "left" if _LEFT_FRONT.search(parts[0]) and _BACK.search(parts[-1]) else ""
