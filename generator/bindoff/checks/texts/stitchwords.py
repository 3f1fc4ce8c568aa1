"""Stitches and fabrics that a text names, against the rows it speaks of."""

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import quoted, sentences_of
from bindoff.checks.texts.named.judges import WORKED, judged
from bindoff.checks.texts.told.scene import Scene, parts_named, step_scenes
from bindoff.checks.texts.told.truths import all_rows, flat, phrase
from bindoff.craft.fabric import Fabric
from bindoff.diagnostics import Severity
from bindoff.plan.fabrics import fabric_of, seen_rows
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Fill, IntoOne, Part, Work

_EDGE = 2  # stitches at each side of a row that may be worked otherwise
_RIBS = frozenset({Fabric.RIB, Fabric.RIB_1, Fabric.RIB_2})
_KNOWN = _RIBS | {Fabric.PLAIN, Fabric.GARTER, Fabric.TEXTURE}
_FABRICS = {
    "garter": frozenset({Fabric.GARTER}),
    "stockinette": frozenset({Fabric.PLAIN}),
    "stocking": frozenset({Fabric.PLAIN}),
    "rib": _RIBS,
    "ribbing": _RIBS,
    "moss": frozenset({Fabric.TEXTURE}),
    "seed": frozenset({Fabric.TEXTURE}),
    "lace": frozenset({Fabric.LACE}),
    "cable": frozenset({Fabric.CABLES}),
    "brioche": frozenset({Fabric.BRIOCHE}),
}
_RIB_OF = r"k ?(\d),? ?p ?(\d)|(\d) ?[x×] ?(\d)"
_IN_FABRIC = phrase(
    r"\b(?:work(?:ed|ing)?|knit|continue|carry on|go on|rows?|rounds?|rnds?|now|begin|on|change to"
    r"|switch to)"
    r"(?: \w+){0,6}? (?:in|of|to) (?:the )?(reverse )?(?:(?:\w+-)?(single|double|"
    + _RIB_OF
    + r") )?(garter|stockinette|stocking|moss|seed|rib|ribbing)\b(?: stitch)?(?![- ](?:stitch "
    r")?(?:edge|border|band|block|panel|pattern|st\b))"
)
_PART_OF_IT = phrase(
    r"\b(?:stitch(?:es)?|sts?) (?:in|of)\b|\b(?:edges?|borders?|bands?|each side|both sides"
    r"|between|except|first|last|selvedge|markers?|centre|center)\b"
)
_SHAPED_WITH = phrase(
    r"\b(?:(?:in|de)creas(?:e|es|ed|ing|ings)|shap(?:e|ed|ing))(?: \w+){0,6}? (?:with|by|using|as"
    r"|are worked as) (?:an? )?([a-z0-9]+)(?:(?: and|,| or) (?:an? )?([a-z0-9]+))?"
)
_MAIN = (
    r"moss|seed|basket|garter|stockinette|stocking|rib|cable|lace|brioche|waffle|fisherman"
    r"|herringbone|"
    r"trinity|bobble|mosaic|slip[- ]stitch|linen"
)
_OF_ALL = phrase(
    rf"\b(?:in|of) (?:a |an |soft |plain |simple |easy |warm |thick )*({_MAIN})(?:[- ](?:stitch"
    rf"|weave|pattern))?\b(?! (?:edges?|borders?|bands?|blocks?))"
)
_NAMES = phrase(rf"\b({_MAIN})\b")


@check(
    id="prose.stitch",
    title="The text names the stitch that is worked",
    looks_at="`in garter stitch`, `in rib` and `decreasing with ssk` in the texts of steps against "
    "the rows of the steps they speak of, and the stitch pattern of the summary against that of "
    "the gauge",
    why="the knitter who trusts the words works another fabric than the one who trusts the rows",
    severity=Severity.WARNING,
    remedy="Correct the word, or the rows",
)
def stitches_hold(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    for scene in step_scenes(context):
        yield from _fabrics(context, scene)
        yield from _shapings(context, scene)
    yield from judged(context, WORKED)
    for prose in context.prose if context.in_english else ():
        if prose.path == ("summary",):
            yield from _of_all(context, prose)
        if prose.path in (("summary",), ("notes",)):
            yield from _of_parts(context, prose)


def _fabrics(context: Context, scene: Scene) -> Iterator[Finding]:
    """Fabrics that no step has of those that a text speaks of."""
    assert scene.plan is not None
    steps = [step for step in scene.here if any(step.rounds)]
    if not steps or any(step.tubes for step in steps):
        return
    made = {fabric_of(scene.plan, step, context.source) for step in steps}
    if not made <= _KNOWN:
        return
    for sentence in sentences_of(scene.prose):
        for found in _IN_FABRIC.finditer(sentence.words):
            if _PART_OF_IT.search(sentence.words) or re.search(r"\bas (?:for|on|the)\b", found[0]):
                continue
            word = found[7].lower()
            asked = _FABRICS[word]
            if word.startswith("rib") and (wide := _rib(found)):
                asked = frozenset({wide, Fabric.RIB})
            if not _is_made(word, made, asked):
                start = sentence.start + found.start()
                names = " or ".join(sorted(_said(each) for each in made))
                yield Finding(
                    f"`{quoted(found)}` stands here, and these rows make {names}",
                    scene.prose.place(start, start + len(found[0])),
                )


def _is_made(word: str, made: Collection[Fabric], asked: Collection[Fabric]) -> bool:
    """Whether one of the fabrics ``asked`` is among those that are ``made``; k1, p1 makes moss
    stitch or rib, as the number of stitches is."""
    return not set(made).isdisjoint(asked) or (word in ("moss", "seed") and Fabric.RIB_1 in made)


def _rib(found: "re.Match[str]") -> Fabric | None:
    """The rib that a text names by its columns."""
    columns = [each for each in (found[3], found[4], found[5], found[6]) if each]
    word = (found[2] or "").lower()
    if word == "single" or columns == ["1", "1"]:
        return Fabric.RIB_1
    if word == "double" or columns == ["2", "2"]:
        return Fabric.RIB_2
    return None


def _said(fabric: Fabric) -> str:
    match fabric:
        case Fabric.GARTER:
            return "garter stitch"
        case Fabric.PLAIN:
            return "stockinette"
        case Fabric.RIB_1:
            return "single rib"
        case Fabric.RIB_2:
            return "double rib"
        case Fabric.RIB:
            return "rib"
        case _:
            return "knits and purls"


def _shapings(context: Context, scene: Scene) -> Iterator[Finding]:
    """Increases and decreases that a text names, and other ones in the rows."""
    steps: Sequence[StepPlan] = (scene.own,) if scene.own is not None else scene.coming
    book, terms = context.plan.book, Terms(context.pattern.terms)
    worked = {
        part.stitch
        for step in steps
        for row in all_rows(step)
        for part in _stitches(row.parts)
        if book[part.stitch].consumes != book[part.stitch].produces
    }
    if not worked or any(step.charts for step in steps):
        return
    for found in _SHAPED_WITH.finditer(scene.prose.text):
        for group in (1, 2):
            stitch = book.find((found[group] or "").lower())
            if stitch is None or stitch.consumes == stitch.produces:
                continue
            shrinks = stitch.produces < stitch.consumes
            alike = {w for w in worked if (book[w].produces < book[w].consumes) is shrinks}
            if alike and stitch.id not in worked:
                rows = " and ".join(
                    sorted(book[each].wording(terms).abbreviation for each in alike)
                )
                yield Finding(
                    f"`{found[group]}` stands here, and the rows have {rows}",
                    scene.prose.place(*found.span(group)),
                )


def _stitches(parts: Sequence[Part]) -> Iterator[Work | Fill]:
    for part in flat(parts):
        if isinstance(part, Work | Fill):
            yield part
        elif isinstance(part, IntoOne):
            yield from part.parts


_OF_A_PART = phrase(
    r"\b(garter|moss|seed|rib|ribbed|stockinette|stocking)(?:[- ]stitch)? "
    r"(border|edging|band|cuff|brim|hem|collar|neckband|welt|heel|toe)s?\b"
)


def _of_parts(context: Context, prose: Prose) -> Iterator[Finding]:
    """A fabric of a part that its steps do not make."""
    for found, place in prose.found(_OF_A_PART):
        word = found[1].lower().removesuffix("bed")
        made = {
            fabric_of(plan, step, context.source)
            for part in parts_named(context, found[2])
            for plan in context.plan.pieces
            for step in part.steps
            if any(step.rounds) and not step.tubes and step in plan.steps
        }
        if made and made <= _KNOWN and not _is_made(word, made, _FABRICS[word]):
            names = " and ".join(sorted(_said(each) for each in made))
            yield Finding(f"`{quoted(found)}` stands here, and its rows make {names}", place)


def _of_all(context: Context, prose: Prose) -> Iterator[Finding]:
    """The stitch pattern of the summary that no step makes, where all gauges and texts name
    another one alone."""
    gauges = [context.pattern.gauge, *context.pattern.gauges.values()]
    measured = {word.lower() for each in gauges for word in _NAMES.findall(each.worked or "")}
    told = " ".join(
        p.text for p in context.prose if p.path != ("summary",) and p.path[:1] != ("gauge",)
    )
    made = {
        fabric_of(plan, step, context.source)
        for plan in context.plan.pieces
        for step in plan.steps
        if any(step.rounds) and not _is_other_texture(context, plan, step)
    }
    for found, place in prose.found(_OF_ALL):
        word = found[1].lower()
        other = measured - {word}
        known = word in measured or re.search(rf"(?i)\b{re.escape(word)}", told) is not None
        same = {"moss", "seed"} <= measured | {word} or {"stockinette", "stocking"} <= measured | {
            word
        }
        own = any(word in f"{key}" for key in context.pattern.stitch_patterns)
        if (
            other
            and not known
            and not _is_made(word, made, _FABRICS.get(word, ()))
            and not same
            and not own
            and not any(re.search(rf"(?i)\b{re.escape(each)}", prose.text) for each in other)
        ):
            yield Finding(
                f"`{quoted(found)}` stands here, and the gauge is that of "
                f"{' and '.join(sorted(other))}",
                place,
            )


def _is_other_texture(context: Context, plan: PiecePlan, step: StepPlan) -> bool:
    """Whether a step works knits and purls that don't take turns one by one, as in moss stitch."""
    if fabric_of(plan, step, context.source) is not Fabric.TEXTURE:
        return False
    rows = [row[_EDGE:-_EDGE] for row in seen_rows(plan, step, context.source)]
    return any(one[0] == other[0] for row in rows for one, other in pairwise(row))


CHECKS = (stitches_hold,)
