"""Yarns that a sentence names, where the work near it is not in them alone."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.named.yarns import yarn_names
from bindoff.checks.texts.told.scene import parts_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import told_in_words, yarns_worked
from bindoff.plan.worked import StepPlan
from bindoff.source.steps.say import SayStep

_CUT = phrase(
    r"\b(?:cut|break|fasten|drop|leave|end)(?: off)?(?: the yarn)?(?: [A-Z][\w’']* and)? $"
)
_SEWN = phrase(r"\b(?:embroider\w*|duplicate|sew\w*|crochet\w*|edging|join|face|eyes?)\b")
"""What a yarn that no row is worked in is for."""
_EMBROIDERED = phrase(r"\b(?:embroider\w*|duplicate)\b")
_MAIN = phrase(
    r"\b(?:main colou?r|rest|(?:everything|all) (?:else|between|the rest)|most of (?:it|the))\b"
)
_AMOUNT = phrase(r"\b(?:balls?|skeins?|hanks?|cones?|grams|g|met(?:er|re)s|m) of $")
_CHANGE = phrase(r"\b(?:change|switch|go) (?:back )?to $")
_STRIPES = phrase(r"\b(?:stripes?|bands?|rings?|lines?)\b")
_TOLD_AFTER = phrase(r"^(?:that makes|there are|you have|the last|you now)\b")
_CLAUSE = re.compile(r"[,;:(]|\s(?:and|but|while|with|then|to)\s")


def yarns_doubted(told: Told) -> Iterator[Doubt]:
    """Each yarn that is named at a step or of a part that is not in this yarn, or not in it
    alone."""
    named = yarn_names(told.context)
    if len(named.keys) < 2:
        return
    words_alone = told_in_words(told.context)
    idle = set(named.keys.values()) - {
        yarn for plan in told.context.plan.pieces for yarn in yarns_worked(*plan.steps)
    }
    for found, clause in _clauses(told.words, list(named.one.finditer(told.words))):
        key = named.keys[found[1]]
        left = told.words[: found.start()]
        there = _cut_there(told) if _CUT.search(left) else _there(told, clause)
        some = told.scene.plan is None
        if told.scene.prose.piece in words_alone:
            if _CUT.search(left) and _named_before(told, found.start()) not in ("", found[1]):
                yield Doubt(*found.span(), "another yarn is named before")
            continue
        tube = told.scene.plan and told.context.pattern.pieces[told.scene.plan.key].tube
        if tube and _CHANGE.search(left) and _main(told) == {key}:
            continue
        if _AMOUNT.search(left) or (key in idle and _SEWN.search(told.words)):
            continue
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
        if _TOLD_AFTER.search(told.words) and scene.behind:
            return [{yarn} for yarn in yarns_worked(*scene.behind)]
        worked_next = [step for step in scene.coming if any(step.rounds)][:1]
        of_piece = _main(told)
        return [yarns_worked(*worked_next) or {each.yarn for each in scene.ahead[:1]} or of_piece]
    if _MAIN.search(clause):
        return [_main(told)]
    if _STRIPES.search(clause) and not re.search(r"(?i)\brib", clause):
        return [{yarn} for yarn in _striped(told)]
    return [yarns_worked(*steps) for steps in _named(told, clause)]


def _named_before(told: Told, start: int) -> str:
    """The yarn that a text names last before a part of a sentence of it."""
    at = told.sentence.start + start
    named = [
        each[1] for each in yarn_names(told.context).one.finditer(told.scene.prose.text, 0, at)
    ]
    return named[-1] if named else ""


def _striped(told: Told) -> set[str]:
    """The yarns that are worked beside that of their piece."""
    context = told.context
    return {
        yarn
        for plan in context.plan.pieces
        for yarn in yarns_worked(*plan.steps) - {context.pattern.pieces[plan.key].yarn}
    }


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
            if named or _EMBROIDERED.search(told.words):
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
    index = int(scene.prose.path[3]) + (scene.own is not None)
    before = [step for step in scene.plan.steps[:index] if any(step.rounds)]
    after = yarns_worked(*[step for step in scene.coming if any(step.rounds)][:1])
    return [{each} for each in yarns_worked(*before[-1:]) - after]
