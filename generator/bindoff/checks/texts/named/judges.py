"""The judges of names in sentences, by the check that tells what they find."""

from collections.abc import Callable, Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.named.order import first_and_last, from_end_to_end
from bindoff.checks.texts.named.parts import parts_named
from bindoff.checks.texts.named.places import held_named, listed_twice, seams_named
from bindoff.checks.texts.named.work import (
    closed_in,
    crochet_named,
    methods_named,
    methods_summed_up,
    sides_in,
    ways_named,
    yarn_held,
)
from bindoff.checks.texts.named.world import World, world_of
from bindoff.checks.texts.named.yarnrest import closed_in_yarn, rest_in_yarn
from bindoff.checks.texts.named.yarns import yarns_at_steps, yarns_named, yarns_of_parts
from bindoff.checks.texts.named.yarnturns import yarns_cut, yarns_told_twice

Judge = Callable[[World, Sentence], Iterator[Finding]]

EXISTS: tuple[Judge, ...] = (
    parts_named,
    yarns_named,
    held_named,
    seams_named,
    listed_twice,
    methods_named,
    methods_summed_up,
)
"""Whether what is named is there at all."""

IN_YARN: tuple[Judge, ...] = (
    yarns_of_parts,
    yarns_at_steps,
    yarns_told_twice,
    yarns_cut,
    rest_in_yarn,
    closed_in_yarn,
)
"""Whether it is in that yarn."""

WORKED: tuple[Judge, ...] = (yarn_held, closed_in, sides_in, crochet_named, ways_named)
"""Whether it is worked like that."""

IN_TURN: tuple[Judge, ...] = (first_and_last,)
"""Whether it is worked in that order."""

FROM_END: tuple[Judge, ...] = (from_end_to_end,)
"""Whether it is worked from that end."""


def judged(context: Context, judges: tuple[Judge, ...]) -> Iterator[Finding]:
    """What some judges find in every sentence."""
    world = world_of(context)
    for sentence in sentences(context):
        for judge in judges:
            yield from judge(world, sentence)
