"""Yarns that take turns: one is cut and another joined, one is first and another last."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.named.world import World
from bindoff.checks.texts.named.yarns import called, yarn_names
from bindoff.checks.texts.told.scene import Scene, scene_of
from bindoff.checks.walk import yarns_worked
from bindoff.plan.worked import StepPlan
from bindoff.source.model import TextUse

_CUT = re.compile(r"\b(?:cut|break)(?: off)?(?: the)? $", re.IGNORECASE)
_LATER = re.compile(r"\b(?:after|before|when|until|once|later|then)\b", re.IGNORECASE)
_BETWEEN_TWO = re.compile(
    r"^,? and (?:then )?(?:join|change to|go on (?:in|with)) $"
    r"|^,? and (?:those|the other|the rest|all the rest|[a-z]+|\d+) (?:in|with|of|for) $"
    r"|^,?(?: and| or) $"
    r"|^[^.;]{0,30}; (?:everything else|the rest|all else|all the rest)(?: \w+){0,3} (?:in|with) $",
    re.IGNORECASE,
)


def yarns_told_twice(world: World, sentence: Sentence) -> Iterator[Finding]:
    """One yarn where two are told apart: `cut Tide and join Tide`, `three in Rope and three in
    Rope`."""
    named = yarn_names(world.context)
    mentions = list(named.one.finditer(sentence.words)) if len(named.keys) > 1 else []
    for one, other in pairwise(mentions):
        between = re.sub(r"\s+", " ", sentence.words[one.end() : other.start()])
        if one[1] == other[1] and _BETWEEN_TWO.search(between):
            yield Finding(
                f"`{one[1]}` stands on both sides here, where two yarns are told apart",
                sentence.prose.place(sentence.start + one.start(), sentence.start + other.end()),
            )


def yarns_cut(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A yarn that is cut and was not in work."""
    named = yarn_names(world.context)
    if len(named.keys) < 2 or sentence.prose.kind is not TextUse.STEP or sentence.supposes:
        return
    if _LATER.search(sentence.words):
        return
    for found in sentence.said(named.one):
        if not _CUT.search(sentence.words[: found.start()]):
            continue
        scene = scene_of(world.context, sentence.prose)
        before = yarns_worked(*_up_to(scene))
        if before and named.keys[found[1]] not in before:
            yield Finding(
                f"`{found[1]}` is cut here, and so far the piece is in {called(world, before)}",
                sentence.place(found),
            )


def _up_to(scene: Scene) -> Sequence[StepPlan]:
    """The steps of a piece up to a text, its own with them."""
    if scene.plan is None:
        return ()
    return scene.plan.steps[: int(scene.prose.path[3]) + 1]
