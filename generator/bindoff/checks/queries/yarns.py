"""Yarns that a sentence names, where the work near it is not in them alone."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.named.yarns import yarn_names
from bindoff.checks.texts.told.scene import parts_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import yarns_worked
from bindoff.plan.worked import StepPlan
from bindoff.source.steps.say import SayStep

_CUT = phrase(
    r"\b(?:cut|break|fasten|drop|leave|end)(?: off)?(?: the yarn)?(?: [A-Z][\w’']* and)? $"
)
_SEWN = phrase(r"\b(?:embroider\w*|duplicate)\b")
_MAIN = phrase(r"\b(?:main colou?r|rest|(?:everything|all) else|most of (?:it|the))\b")
_CLAUSE = re.compile(r"[,;:(]|\s(?:and|but|while|with|then|to)\s")


def yarns_doubted(told: Told) -> Iterator[Doubt]:
    """Each yarn that is named at a step or of a part that is not in this yarn, or not in it
    alone."""
    named = yarn_names(told.context)
    if len(named.keys) < 2:
        return
    for found, clause in _clauses(told.words, list(named.one.finditer(told.words))):
        key = named.keys[found[1]]
        left = told.words[: found.start()]
        there = _cut_there(told) if _CUT.search(left) else _there(told, clause)
        some = told.scene.plan is None
        if not there or not (all if some else any)(each == {key} for each in there):
            yield Doubt(*found.span(), f"nothing says that this is in {found[1]}")


def _clauses(
    words: str, founds: Sequence["re.Match[str]"]
) -> Iterator[tuple["re.Match[str]", str]]:
    """What was found in a sentence, each with the words of it alone."""
    cuts = [0]
    for one, other in pairwise(founds):
        mark = _CLAUSE.search(words, one.end(), other.start())
        cuts.append(mark.start() if mark else (one.end() + other.start()) // 2)
    for found, start, end in zip(founds, cuts, (*cuts[1:], len(words)), strict=False):
        yield found, words[start:end]


def _there(told: Told, clause: str) -> list[set[str]]:
    """The yarns of the step of a text, or of the next one; of a text of no step, those of each part
    that it names."""
    scene = told.scene
    if motifs := _of_pictures(told, clause):
        return [motifs]
    if scene.plan is not None:
        here = scene.plan.steps[int(scene.prose.path[3])]
        if isinstance(here.step, SayStep) and here.step.takes is not None:
            return [{here.yarn}]
    if scene.own is not None:
        return [yarns_worked(scene.own) or {scene.own.yarn}]
    if scene.plan is not None:
        worked_next = [step for step in scene.coming if any(step.rounds)][:1]
        of_piece = _main(told)
        return [yarns_worked(*worked_next) or {each.yarn for each in scene.ahead[:1]} or of_piece]
    if _MAIN.search(clause):
        return [_main(told)]
    return [yarns_worked(*steps) for steps in _named(told, clause)]


def _main(told: Told) -> set[str]:
    """The yarn of the piece of a text, or of the first one."""
    pieces = told.context.pattern.pieces
    plan = told.scene.plan
    piece = pieces[plan.key] if plan is not None else next(iter(pieces.values()))
    return {piece.yarn} if piece.yarn is not None else set()


def _of_pictures(told: Told, clause: str) -> set[str]:
    """The yarns of the stripes and of the motifs that words name."""
    pattern, found = told.context.pattern, set[str]()
    for piece in pattern.pieces.values():
        if piece.tube is not None and re.search(r"(?i)\bstripes?\b", clause):
            found |= {stripe.yarn for stripe in piece.tube.stripes}
        for motif in piece.motifs:
            chart = pattern.charts[motif.chart]
            named = re.search(rf"(?i)\b{re.escape(chart.title.split()[-1])}\b", clause)
            if named or _SEWN.search(told.words):
                found |= {str(each) for each in chart.legend.values()} & set(pattern.yarns)
                found -= {piece.yarn}
    return found


def _named(told: Told, clause: str) -> Iterator[Sequence[StepPlan]]:
    """The steps of each part that words name."""
    for part in parts_of(told.context):
        last = (part.name.split() or [""])[-1].lower().removesuffix("s")
        if len(last) > 2 and re.search(rf"(?i)\b{re.escape(last)}(?:s|es)?\b", clause):
            yield part.steps


def _cut_there(told: Told) -> list[set[str]]:
    """The yarn of the rows before a text."""
    scene = told.scene
    if scene.plan is None:
        return []
    before = [step for step in scene.plan.steps[: int(scene.prose.path[3])] if any(step.rounds)]
    after = yarns_worked(*[step for step in scene.coming if any(step.rounds)][:1])
    return [{each} for each in yarns_worked(*before[-1:]) - after]
