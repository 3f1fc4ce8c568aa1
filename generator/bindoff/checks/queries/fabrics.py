"""Fabrics and doings that the rows near a sentence do not have."""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from bindoff.checks.queries.sentence import Doubt, Told, steps_near
from bindoff.checks.texts.told.scene import works
from bindoff.checks.texts.told.truths import all_rows, flat, phrase
from bindoff.craft.fabric import Fabric
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.worked import StepPlan

_RIBS = frozenset({Fabric.RIB, Fabric.RIB_1, Fabric.RIB_2})
_FABRICS: Mapping[str, frozenset[Fabric]] = {
    r"single rib(?:bing)?": frozenset({Fabric.RIB_1}),
    r"double rib(?:bing)?|two[- ]by[- ]two rib(?:bing)?": frozenset({Fabric.RIB_2}),
    r"rib(?:s|bed|bing)?": _RIBS | {Fabric.BRIOCHE},
    r"garter(?: stitch)?|ridges?": frozenset({Fabric.GARTER}),
    r"stockinette|stocking stitch": frozenset({Fabric.PLAIN}),
    r"moss stitch|seed stitch|basket weave": frozenset({Fabric.TEXTURE}),
    r"lace|eyelets?": frozenset({Fabric.LACE}),
    r"cables?": frozenset({Fabric.CABLES}),
    r"brioche": frozenset({Fabric.BRIOCHE}),
}
_MIXED = frozenset({Fabric.TEXTURE, Fabric.CABLES, Fabric.LACE, Fabric.SLIPPED, Fabric.BRIOCHE})
_WORDS = {phrase(rf"\b(?:{words})\b(?! needle)"): some for words, some in _FABRICS.items()}
_TURNED = phrase(r"\b(increas|decreas|grow|narrow|widen|shrink|taper)(?:e|es|ed|ing|s|n|ing)?\b")
_WITHOUT = phrase(r"\b(?:without|no|with an?|each|double|between the)(?: \w+)? $")
_MORE = ("increas", "grow", "widen")


def fabrics_doubted(told: Told) -> Iterator[Doubt]:
    """Each fabric that no step near makes."""
    steps = _near(told)
    if not steps:
        return
    there = {fabric for step in steps for fabric in _of(told, step)}
    for pattern, some in _WORDS.items():
        for found in pattern.finditer(told.words):
            if not there & (some | _MIXED) and not _names_yarn(told, found[0]):
                yield Doubt(*found.span(), f"nothing here is worked in {found[0].lower()}")


def turns_doubted(told: Told) -> Iterator[Doubt]:
    """Increases and decreases, where no step near has any."""
    steps = _near(told) if told.scene.plan is not None else []
    signs = {sign for step in steps if any(step.rounds) for sign in _signs(step)}
    for found in _TURNED.finditer(told.words) if steps else ():
        more = found[1].lower() in _MORE
        if more not in signs and not _WITHOUT.search(told.words[: found.start()]):
            yield Doubt(*found.span(), f"nothing here is {'in' if more else 'de'}creased")


def stitches_doubted(told: Told) -> Iterator[Doubt]:
    """Knit and purl stitches, where the rows near have none of them."""
    scene = told.scene
    steps = [step for step in (scene.here or scene.behind[-1:]) if any(step.rounds)]
    if scene.plan is None or not steps or _MAYBE.search(told.words):
        return
    kinds = {kind for step in steps for kind in _kinds(told, step)}
    if "?" in kinds:
        return
    for found in _STITCH.finditer(told.words):
        if not told.is_proved(*found.span()) and found[1].lower()[0] not in kinds:
            yield Doubt(*found.span(), f"no row here has {found[1].lower()[:4]} stitches")


_STITCH = phrase(r"\b(knit(?:ted|s)?|purl(?:ed|s)?)\b(?!wise)")
_MAYBE = phrase(r"\b(?:as if|as the|like|next|before|picture)\b")


def _kinds(told: Told, step: StepPlan) -> Iterator[str]:
    """Which of knit and purl the rows of a step have."""
    if step.charts or step.patterns.stitch or not step.answers.in_turn:
        yield "?"
        return
    for row in all_rows(step):
        for part in flat(row.parts):
            name = getattr(part, "stitch", "")
            if name.startswith(("k", "brk", "ss", "m1", "cdd", "skp", "sk2p")):
                yield "k"
            elif name.startswith(("p", "brp")):
                yield "p"
            elif "/" in name:
                yield "?"


def _near(told: Told) -> list[StepPlan]:
    scene = told.scene
    if scene.plan is None:
        return [step for plan in told.context.plan.pieces for step in plan.steps if works(step)]
    return list(filter(works, (*steps_near(told), *scene.coming[:2])))


def _names_yarn(told: Told, word: str) -> bool:
    return any(word in yarn.name for yarn in told.context.pattern.yarns.values())


def _of(told: Told, step: StepPlan) -> Iterator[Fabric]:
    for plan in told.context.plan.pieces:
        if any(each is step for each in plan.steps) and any(step.rounds):
            yield fabric_of(plan, step, told.context.source)


def _signs(step: StepPlan) -> Iterator[bool]:
    """Whether the rows of a step make more stitches, or fewer: casting on and binding off are
    neither."""
    for size, before in enumerate(step.before):
        levels = step.levels[size] if step.levels else ()
        begun = () if step.begins is not None else (before.stitches,)
        closed = () if step.closes is not None else (step.after[size].stitches,)
        counts = [*begun, *(level.stitches for level in levels), *closed]
        for one, other in pairwise(counts):
            if one != other:
                yield other > one
