"""Where in its round a mitten or a glove has its thumb, as texts tell it of the left and the right
one."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import step_told
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.remembered import once_each

_AT_END = phrase(
    r"\b(left|right)(?:[- ]hand)?(?: [a-z]+)?(?: (?:has|have|takes|gets) (?:its|the|a) (?:thumb"
    r"|gusset)(?: gusset)?(?: [a-z]+)?|'s (?:thumb|gusset) [a-z]+)? at the (beginning|start|end)"
    r" of (the palm|the round|it)\b"
)
_ENDS_OFF = phrase(
    r"\b(?:gusset|thumb|marker)s?\b[^.;\d]{0,50}? (\d+) (?:stitches|sts) (before|after|from) the "
    r"(end|beginning|start) of the round\b"
)


def thumbs_told(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Everything that a sentence says of where a thumb stands."""
    if "thumb" not in sentence.words and "gusset" not in sentence.words:
        return
    yield from _at_an_end(context, sentence)
    yield from _so_far_from_it(context, sentence)


def _at_an_end(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """The beginning or the end of the palm or the round, for a left or a right piece."""
    places = _places(context)
    if len(places) != 2 or sentence.supposes:
        return
    of = "palm" if "palm" in sentence.words else "round"
    for found in sentence.said(_AT_END):
        share = places[found[1].lower()]
        within = share * 2 % 1 if of == "palm" else share
        begins = found[2].lower() != "end"
        if begins is not (within < _MIDDLE):
            where = "beginning" if within < _MIDDLE else "end"
            yield Finding(
                f"`{quoted(found)}` stands here, and the {found[1].lower()} one has it at the "
                f"{where} of the {of}",
                sentence.place(found),
            )
            return


_MIDDLE = 0.5


@once_each
def _places(context: Context) -> Mapping[str, float]:
    """How far around its round the left and the right piece begin their thumb, where each has one
    gusset between two markers."""
    found: dict[str, float] = {}
    for plan in context.plan.pieces:
        title = context.pattern.pieces[plan.key].title.lower()
        for side in ("left", "right"):
            share = _share(plan) if re.search(rf"\b{side}\b", title) else None
            if share is not None:
                found[side] = share
    return found


def _share(plan: PiecePlan) -> float | None:
    """Which part of the round lies before the first two markers of a piece, in its first size."""
    for step in plan.steps:
        marked = _marked(step)
        if marked:
            before, _, after = marked[0]
            return before / (before + after) if before + after else None
    return None


def _marked(step: StepPlan) -> list[tuple[int, int, int]]:
    """The stitches before, between and after two markers in the last round of a step, per size."""
    last = [levels[-1] for levels in step.levels if levels]
    if not last or any(len(level.markers) != _TWO or level.flat for level in last):
        return []
    return [
        (min(at.markers), max(at.markers) - min(at.markers), at.stitches - max(at.markers))
        for at in last
    ]


_TWO = 2


def _so_far_from_it(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """How many stitches lie between a gusset and the start of the round."""
    at = step_told(context, sentence.prose)
    marked = _marked(at.step) if at is not None else []
    for found in _ENDS_OFF.finditer(in_figures(sentence.words)) if marked else ():
        ends = found[3].lower() == "end"
        if (found[2].lower() == "before" and not ends) or sentence.supposes:
            continue
        right = {after if ends else before for before, _, after in marked}
        if int(found[1]) not in right:
            said = " ".join(sentence.words[found.start() : found.end()].split())
            yield Finding(
                f"`{said}` stands here, and there {'is' if right == {1} else 'are'} "
                f"{' or '.join(map(str, sorted(right)))}",
                sentence.place(found),
            )
