"""The side of the work on which something is said to be done."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.queries.likeness import ODD_SIDED
from bindoff.checks.queries.sentence import Doubt, Told, steps_near
from bindoff.checks.texts.told.truths import phrase, shaped_rows
from bindoff.plan.worked import StepPlan

_SIDES = phrase(r"\b(right|wrong)[- ]sides?\b")
# What the trade does as a matter of course; the other side is worth a question. Common practice,
# no source.
_USUAL_RIGHT = phrase(
    r"^ (?:sides? )?(?:facing|towards?|out(?:wards?)?|up)\b"
    r"|^ of the (?:work|fabric) (?:is )?facing"
)
_USUAL_WRONG = phrase(
    r"\b(?:(?:all|the|every|in) ends?|tails?|weave|darn|hide|press|steam|lining|floats?|strands?"
    r"|no wrong[- ]side|(?:columns?|channels?) of|run)\b"
)
_FIRST_ROW = phrase(r"\brow 1 (?:is (?:an? |worked on the )?|\()$")
_STOCKINETTE = phrase(
    r"\bknit\w* (?:all |every |the )?right[- ]side rows?,? and purl\w* (?:all |every |the )?"
    r"wrong[- ]side\b"
)
"""What stockinette is, and which row is the first, wherever they are told; common practice, no
source."""
_TOGETHER = phrase(r"^ together\b")
_READ = phrase(r"\bread\b")
_ENDING = phrase(
    r"\b(?:(?:end(?:s|ing|ed)?|stop|finish(?:ing)?)(?: with| on| after)?"
    r"|the last (?:row is|(?:of (?:them|these) )?(?:is )?(?:on|one is)|one))(?: an?| the)? $"
)
_BEGINS = phrase(
    r"\b(?:where|at the (?:start|beginning) of|begin(?:ning)? with|before)(?: an?| the)? $"
)
_ALWAYS = phrase(r"\b(?:always|each|every|all|times)\b[^.;]*\bon the $")
_FIRST = phrase(r"\b(?:first|row 1,? an?)\b[^.;]*$")
_CLOSES = phrase(
    r"\b(?:bind|bound|cast)[- ]off\b|^\W*(?:\w+ly,? )?on the $|^(?:knit|purl)wise on the $"
)
_PLAIN = phrase(
    r"^ rows?,?(?: (?:are|is))?(?: all)?(?: (?:worked|plain))? (?:knit|purl|plain|a rest)"
)


def sides_doubted(told: Told) -> Iterator[Doubt]:
    """Each side that neither the rows near nor the usage of the trade confirms."""
    if _READ.search(told.words) or ODD_SIDED.search(told.words):
        return
    for found in _SIDES.finditer(told.words):
        left, right = told.words[: found.start()], told.words[found.end() :]
        wrong = found[1].lower() == "wrong"
        if told.is_proved(*found.span()) or _is_usual(told, wrong, left, right):
            continue
        if not _is_so(told, wrong, left, right):
            yield Doubt(*found.span(), "nothing says which side")


def _is_usual(told: Told, wrong: bool, left: str, right: str) -> bool:
    if (not wrong and _FIRST_ROW.search(left)) or _STOCKINETTE.search(told.words):
        return True
    if wrong:
        return _USUAL_WRONG.search(told.words) is not None
    together = _TOGETHER.search(right) is not None
    return _USUAL_RIGHT.search(right) is not None or (together and "sew" in told.words)


def _is_so(told: Told, wrong: bool, left: str, right: str) -> bool:
    """Whether the rows near are of that side, in all sizes."""
    scene = told.scene
    steps = [step for step in _steps(told) if any(step.rounds)]
    if _CLOSES.search(left) or scene.prose.path[-1] == "how":
        here = scene.plan.steps[int(scene.prose.path[3])] if scene.plan is not None else None
        return here is not None and all((b.rounds % 2 == 1) == wrong for b in here.before)
    if scene.plan is None or not steps:
        return bool(steps) and _shapes(steps, wrong, right)
    if _ENDING.search(left):
        last = steps[0] if scene.own is not None else steps[-1] if scene.coming else steps[0]
        return any(all((a.rounds % 2 == 0) == wrong for a in each.after) for each in (last, *steps))
    if scene.own is not None and _BEGINS.search(left) and "row" in right[:8]:
        begun = (*steps, *scene.plan.steps[int(scene.prose.path[3]) + 1 :][:1])
        return any(all((b.rounds % 2 == 1) == wrong for b in each.before) for each in begun)
    if "row" not in right[:8]:
        shaped = _ALWAYS.search(left) is not None
        return shaped and _shapes(steps, wrong, right)
    if _FIRST.search(left) or all(sum(step.rounds) == len(step.rounds) for step in steps[:1]):
        return all((b.rounds % 2 == 1) == wrong for b in steps[0].before)
    if re.search(r"(?i)\bnext (?:row )?", left):
        after = steps[0] if scene.own is not None else None
        return after is not None and all((a.rounds % 2 == 1) == wrong for a in after.after)
    return _shapes(steps, wrong, right)


def _steps(told: Told) -> Sequence[StepPlan]:
    scene = told.scene
    if scene.own is not None:
        return (scene.own,)
    return scene.ahead or steps_near(told)


def _shapes(steps: Sequence[StepPlan], wrong: bool, right: str) -> bool:
    """Whether all rows that shape are of that side; or of the other, where those of this are
    plain."""
    sides = {
        (before.rounds + row) % 2 == 1
        for step in steps
        if step.flat
        for size, before in enumerate(step.before)
        for row in shaped_rows(step, size)
    }
    plain = _PLAIN.search(right) is not None
    return sides == {wrong is not plain}
