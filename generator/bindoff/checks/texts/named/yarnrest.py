"""The yarn of all that follows, and the yarn in which stitches are closed, as texts name them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.texts.named.world import World
from bindoff.checks.texts.named.yarns import called, yarn_names
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import yarns_worked
from bindoff.plan.worked import StepPlan
from bindoff.source.model import TextUse

_REST = phrase(
    r"\b(?:the rest|all the rest|everything else|all that follows)(?: of the [a-z]+(?: [a-z]+)?)?"
    r" (?:is|are) (?:all |then )?(?:(?:worked|knitted|knit|made|done) )?in (?:the )?$"
)
_CLOSED_IN = phrase(r"\b(?:in|with)(?: (?:the )?(?:yarn|colou?r))? $")


def rest_in_yarn(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A yarn said of all that follows a step, which no later step of its piece works."""
    if sentence.prose.kind is not TextUse.STEP or sentence.supposes:
        return
    if not re.search(r"\b(?:rest|else|follows)\b", sentence.words):
        return
    later = _later(world.context, sentence)
    there = yarns_worked(*later)
    named = yarn_names(world.context)
    for found in sentence.said(named.one) if there else ():
        if _REST.search(sentence.words, 0, found.start()) and named.keys[found[1]] not in there:
            yield Finding(
                f"`{quoted(found)}` stands here, and what follows is worked in "
                f"{called(world, there)}",
                sentence.place(found),
            )


def _later(context: Context, sentence: Sentence) -> tuple[StepPlan, ...]:
    """The steps of a piece after that of a sentence."""
    path = sentence.prose.path
    if sentence.prose.piece is None or path[2:3] != ("steps",):
        return ()
    return context.plan.piece(sentence.prose.piece).steps[int(path[3]) + 1 :]


def closed_in_yarn(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A yarn in which stitches are said to be closed, where the step closes them in another."""
    path = sentence.prose.path
    if path[-1:] != ("how",) or sentence.prose.piece is None or sentence.supposes:
        return
    step = world.context.plan.piece(sentence.prose.piece).steps[int(path[3])]
    if step.closes is None or step.closes.by is None or not step.yarn:
        return
    named = yarn_names(world.context)
    told = [
        found
        for found in sentence.said(named.one)
        if _CLOSED_IN.search(sentence.words, 0, found.start())
    ]
    if told and step.yarn not in {named.keys[found[1]] for found in told}:
        yield Finding(
            f"`{quoted(told[0])}` stands here, and the step is worked in "
            f"{called(world, {step.yarn})}",
            sentence.place(told[0]),
        )
