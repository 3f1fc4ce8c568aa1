"""What a sentence says is done at its place: knitting or purling, more stitches or fewer."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.told import truths
from bindoff.checks.told.counts import Statement, part_counts
from bindoff.checks.told.numbers import NUMBER
from bindoff.checks.told.scene import Scene, parts_named
from bindoff.checks.told.truths import Figures, Truth, all_rows, flat, known, phrase
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import CountChange, Fill, Work

_PLAIN_ROWS = phrase(
    rf"\b(knit|purl)(?:ted|ling|ting|ed)? (?:for )?(?:the next |another |all )?"
    rf"(?:{NUMBER}|every|each) (?:more )?(?:rows|rounds|rnds|row|round|rnd)\b(?! of (?!the)[a-z])"
)
_TURNED = phrase(r"\b(in|de)creas(?:e|es|ed|ing)\b")
_EXCEPT = phrase(
    r"\b(?:without|no|not|never|before|after|until|as|like|look|missed|each|between|above|below|from"
    r"|instead|start\w*|first|last)\b"
)
_OF_PART = phrase(
    rf"(?<![\w.,/–-])({NUMBER}) (?:stitches|sts)(?: (?:remain|left|wait|are left|are held))?"
    r" (?:of|for|on) the ([a-z]+)\b(?! (?:of|and)\b)"
)


def doings_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Everything of that kind in a sentence of a step."""
    if scene.plan is None:
        return
    at = sentence.start
    for found in _PLAIN_ROWS.finditer(sentence.words):
        kinds = {kind for step in _near(scene) for kind in _fills(step)}
        if kinds and found[1].lower()[0] not in kinds and kinds <= {"k", "p"}:
            words = f"the rows here are {'purled' if 'p' in kinds else 'knitted'}"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)
    ways = {found[1].lower() for found in _TURNED.finditer(sentence.words)}
    for found in _TURNED.finditer(sentence.words) if len(ways) == 1 else ():
        if _EXCEPT.search(sentence.words) or not _near(scene):
            continue
        signs = {sign for step in _near(scene) for sign in _signs(context, step)}
        more = found[1].lower() == "in"
        if signs == {not more}:
            words = f"the stitches here are {'decreased' if more else 'increased'}"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)
    for found in _OF_PART.finditer(sentence.words):
        truth = _of_part(context, scene, found[2])
        if truth is not None:
            yield Statement(at + found.start(), at + found.end(), int(found[1]), truth)


def _near(scene: Scene) -> Sequence[StepPlan]:
    """The step of a text, or those up to the next words."""
    return scene.here or scene.behind


def _fills(step: StepPlan) -> Iterator[str]:
    """The stitches that fill the rows of a step; a sign of doubt where a row has none."""
    if step.charts or step.patterns.stitch or not step.answers.in_turn:
        yield "?"
    elif any(step.rounds):
        for row in all_rows(step):
            kinds = {part.stitch for part in flat(row.parts) if isinstance(part, Work | Fill)}
            yield kinds.pop() if len(kinds) == 1 else "?"


def _signs(context: Context, step: StepPlan) -> Iterator[bool]:
    """Whether a step makes more stitches, and whether it makes fewer: by its rows or by the
    stitches in them."""
    if step.charts or step.patterns.stitch:
        yield from (True, False)
    for size, before in enumerate(step.before):
        counts = (
            [before.stitches, *(level.stitches for level in step.levels[size])]
            if (step.levels)
            else [before.stitches, step.after[size].stitches]
        )
        for one, other in pairwise(counts):
            if one and one != other:
                yield other > one
    for row in all_rows(step):
        for part in flat(row.parts):
            stitch = context.plan.book.find(part.stitch) if isinstance(part, Work) else None
            if stitch is not None and stitch.produces != stitch.consumes:
                yield stitch.produces > stitch.consumes


def _of_part(context: Context, scene: Scene, noun: str) -> Truth | None:
    """The stitches of a part that goes by one word; none where no part, or several do."""
    assert scene.plan is not None
    parts = [each for each in parts_named(context, noun, scene.plan.key) if each.steps]
    alone = [
        each for each in parts if each.name.lower().removesuffix("s") == noun.removesuffix("s")
    ]
    if len(alone) != 1:
        return None
    figures: list[Figures] = [*part_counts(context, alone, widest=False)]
    for step in (*alone[0].steps, *scene.here):
        figures.append(truths.finds(step))
        figures += truths.numbers_in(context, step)
        figures += truths.altered(context, [step], *CountChange)
        figures += [truths.plain(each) for each in truths.between_markers(step)]
    return known(f"the {noun} has", [each for each in figures if any(each)])
