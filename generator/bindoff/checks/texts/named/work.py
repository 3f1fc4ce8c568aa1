"""Stitches, fabrics and methods as texts name them, where the rows have others."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, any_of, quoted
from bindoff.checks.texts.named.world import World
from bindoff.checks.texts.told.truths import flat
from bindoff.checks.walk import parts_of, steps_of
from bindoff.craft.fabric import Fabric
from bindoff.plan.fabrics import fabric_of
from bindoff.plan.worked import StepPlan
from bindoff.plan.yarn import BindOffKind, CastOnKind
from bindoff.source.model import TextUse
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Fill, Hooked, Work
from bindoff.source.steps.edging import EdgingStep

# ---------------------------------------------------------------- yarn in front, yarn in back

_HELD = re.compile(r"\byarn(?: held)? (?:in|at|to) (?:the )?(front|back)\b", re.IGNORECASE)
_SLIPS = re.compile(r"\bslip", re.IGNORECASE)


def yarn_held(world: World, sentence: Sentence) -> Iterator[Finding]:
    """Where the yarn is held as stitches are slipped, against all rows that slip some."""
    if sentence.supposes or not _SLIPS.search(sentence.words):
        return
    for found in sentence.said(_HELD):
        held = {
            how
            for at in steps_of(world.context)
            if sentence.prose.piece in (None, at.plan.key)
            for row in at.step.all_rows
            for part in flat(row.parts)
            if isinstance(part, Work | Fill)
            for how in part.how
            if how in ("wyif", "wyib")
        }
        said, other = ("wyif", "back") if found[1].lower() == "front" else ("wyib", "front")
        if held and said not in held:
            yield Finding(
                f"`{found[0]}` stands here, and the rows slip with the yarn in {other}",
                sentence.place(found),
            )


# ---------------------------------------------------------------- fabrics

_RIBS = frozenset({Fabric.RIB, Fabric.RIB_1, Fabric.RIB_2})
_FABRICS: Mapping[str, frozenset[Fabric]] = {
    "rib": _RIBS,
    "garter": frozenset({Fabric.GARTER}),
    "moss": frozenset({Fabric.TEXTURE, Fabric.RIB_1}),
    "seed": frozenset({Fabric.TEXTURE, Fabric.RIB_1}),
}
_HOW = re.compile(r"\bin (?:the )?(?:\w+ )?(rib|garter|moss|seed)(?:bing)?\b", re.IGNORECASE)


def closed_in(world: World, sentence: Sentence) -> Iterator[Finding]:
    """How a piece is bound off, against the stitch of the rows before."""
    prose = sentence.prose
    if prose.path[-1:] != ("how",) or prose.piece is None:
        return
    plan = world.context.plan.piece(prose.piece)
    before = [step for step in plan.steps[: int(prose.path[3])] if any(step.rounds)]
    for found in sentence.said(_HOW) if before else ():
        word = found[1].lower()
        names = " ".join(each.rows.key.lower() for each in before[-1].patterns.stitch)
        own = next((each for each in _FABRICS if re.search(rf"\b{each}", names)), "")
        fabric = fabric_of(plan, before[-1], world.context.source)
        known = fabric in {Fabric.PLAIN, *(each for some in _FABRICS.values() for each in some)}
        if own != word if own else known and fabric not in _FABRICS[word]:
            yield Finding(
                f"`{found[0]}` stands here, and the rows before are in {own or fabric.value}",
                sentence.place(found),
            )


_FABRIC = r"(rib|garter|moss|seed|stockinette)(?:bing)?"
_AT_SIDES = re.compile(
    rf"\b{_FABRIC}(?: stitch)?(?: (?:edges?|borders?|bands?))? (?:at|along|on|down)"
    r" (?:the|both|each|either) (?:\w+ )?(?:sides?|edges|selvedges?)\b"
    rf"|\b(?:at|along) (?:the|both|each|either) sides? (?:is|are|there is|of) (?:in )?{_FABRIC}\b",
    re.IGNORECASE,
)


def sides_in(world: World, sentence: Sentence) -> Iterator[Finding]:
    """The stitch at the sides of charts worked flat, against what is worked beside them."""
    for found in sentence.said(_AT_SIDES) if not sentence.supposes else ():
        sides = {each for plan in world.context.plan.pieces for each in _beside(plan.steps)}
        word = found[found.lastindex or 0].lower()
        if len(sides) == 1 and word not in sides:
            yield Finding(
                f"`{quoted(found)}` stands here, and the sides are in {sides.pop()}",
                sentence.place(found),
            )


def _beside(steps: Sequence[StepPlan]) -> Iterator[str]:
    """Garter or rib: what is worked at both sides of charts in rows that are turned."""
    for step in steps:
        for chart in step.charts if step.flat else ():
            ends = [part for row in (*chart.first, *chart.last) for part in row.parts]
            kinds = {part.stitch for part in ends if isinstance(part, Work)}
            if kinds == {"k"}:
                yield "garter"
            elif kinds == {"k", "p"} and len(ends) > 4:
                yield "rib"


# ---------------------------------------------------------------- methods

_Done = Callable[[World], bool]


def _cast_on(*kinds: CastOnKind) -> _Done:
    return lambda world: any(
        at.step.begins is not None and at.step.begins.by in kinds for at in steps_of(world.context)
    )


def _bound_off(*kinds: BindOffKind) -> _Done:
    return lambda world: any(
        at.step.closes is not None and at.step.closes.by in kinds for at in steps_of(world.context)
    )


def _short_rows(world: World) -> bool:
    charts = (each for at in steps_of(world.context) for each in at.step.charts)
    return any(plan.short_rows for plan in world.context.plan.pieces) or any(
        each.turns for each in charts
    )


def _intarsia(world: World) -> bool:
    return any(each.bobbins for at in steps_of(world.context) for each in at.step.charts)


def _gathered(world: World) -> bool:
    tops = [at.step.step for at in steps_of(world.context)]
    return _bound_off(BindOffKind.GATHERED, BindOffKind.GATHERED_ENDS)(world) or any(
        "gather" in str(getattr(step, "by", "") or "") for step in tops
    )


def _crocheted(world: World) -> bool:
    return any(isinstance(at.step.step, EdgingStep) for at in steps_of(world.context)) or any(
        isinstance(part, Hooked)
        for at in steps_of(world.context)
        for row in at.step.all_rows
        for part in parts_of(row)
    )


def _worked_in(*fabrics: Fabric) -> _Done:
    def done(world: World) -> bool:
        source = world.context.source
        return any(
            fabric_of(plan, step, source) in fabrics
            for plan in world.context.plan.pieces
            for step in plan.steps
            if any(step.rounds)
        )

    return done


_EDGE_WORD = r"(?:frames?|borders?|edges?|edgings?|bands?|brims?|cuffs?|hems?|welts?|collar)"

# What a text calls a way of working, and whether the steps do it; common practice, no source.
_METHODS: tuple[tuple[str, _Done], ...] = (
    (r"short[- ]rows?", _short_rows),
    (r"intarsia", _intarsia),
    (
        r"provisional(?:ly)? cast[- ]?on",
        _cast_on(CastOnKind.PROVISIONAL, CastOnKind.WASTE_YARN, CastOnKind.CROCHET),
    ),
    (r"tubular cast[- ]on", _cast_on(CastOnKind.TUBULAR)),
    (r"tubular (?:bind|cast)[- ]off", _bound_off(BindOffKind.TUBULAR)),
    (r"i-cord (?:bind|cast)[- ]off", _bound_off(BindOffKind.I_CORD)),
)


# What a summary, or the skill that is asked for, may say of the work; common practice, no source.
_SUMMED_UP: tuple[tuple[str, _Done], ...] = (
    (
        r"gathered(?: (?:closed|shut|up|in|together|top|crown|toe|tip))?",
        _gathered,
    ),
    (r"crochet(?:ed|ing)?", _crocheted),
    (rf"rib(?:bed|bing)? {_EDGE_WORD}", _worked_in(*_RIBS)),
    (rf"garter(?:[- ]stitch)? {_EDGE_WORD}", _worked_in(Fabric.GARTER)),
)


_ANY_METHOD = any_of(said for said, _ in _METHODS)
_ANY_SUMMED_UP = any_of(said for said, _ in _SUMMED_UP)


def methods_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A way of working that no step has and no other text tells."""
    for found in sentence.said(_ANY_METHOD) if not sentence.supposes else ():
        which = found.lastindex or 0
        told = [each for each in _ANY_METHOD.finditer(world.said) if each.lastindex == which]
        if len(told) < 2 and not _METHODS[which - 1][1](world):
            yield Finding(f"`{found[0]}` stands here, and no step works it", sentence.place(found))


def methods_summed_up(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A way of working that the summary or the skill names, and that is nowhere else."""
    if sentence.prose.path[:1] not in (("summary",), ("skill",)) or sentence.supposes:
        return
    for found in sentence.said(_ANY_SUMMED_UP):
        which = found.lastindex or 0
        told = [each for each in _ANY_SUMMED_UP.finditer(world.said) if each.lastindex == which]
        if len(told) < 2 and not _SUMMED_UP[which - 1][1](world):
            yield Finding(f"`{found[0]}` stands here, and no step works it", sentence.place(found))


_WAY = re.compile(
    r"\b(?:work(?:ed|s)?|knit(?:ted|s)?|made|crocheted)\b(?: (?!flat|in)\w+){0,3},?"
    r" (?:(in the round|in rounds|circularly)|flat|back and forth|in rows)\b"
    r"(?! (?:and|then|from|until|for|to|at|after|with|over|but|or|in)\b)",
    re.IGNORECASE,
)


def ways_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """Rounds where all is worked in rows, and rows where all is worked in rounds."""
    if sentence.supposes or sentence.prose.kind not in (TextUse.HEAD, TextUse.TEXT):
        return
    for found in sentence.said(_WAY):
        worked = [at.step for at in steps_of(world.context) if any(at.step.rounds)]
        rounds = found[1] is not None
        if worked and not any(step.tubes or step.flat is not rounds for step in worked):
            yield Finding(
                f"`{quoted(found)}` stands here, and every piece is worked in "
                f"{'rows' if rounds else 'rounds'}",
                sentence.place(found),
            )


# ---------------------------------------------------------------- crochet

_CROCHET = re.compile(r"\b((?:half )?(?:single|double|treble|triple)) crochet\b", re.IGNORECASE)


def crochet_named(world: World, sentence: Sentence) -> Iterator[Finding]:
    """A crochet stitch that the text of a step works, where the edgings or all other texts have
    one other."""
    if sentence.supposes or sentence.prose.kind not in (TextUse.HEAD, TextUse.STEP):
        return
    for found in sentence.said(_CROCHET):
        context = world.context
        others = {
            each[1].lower()
            for prose in context.prose
            if prose.path != sentence.prose.path
            for each in _CROCHET.finditer(prose.text)
        }
        terms = Terms(context.pattern.terms)
        for at in steps_of(context):
            for row in at.step.all_rows:
                for part in parts_of(row):
                    if isinstance(part, Hooked):
                        named = _CROCHET.search(context.plan.book[part.stitch].wording(terms).name)
                        others |= {named[1].lower()} if named else set()
        if len(others) == 1 and found[1].lower() not in others:
            yield Finding(
                f"`{found[0]}` stands here, and elsewhere it is {others.pop()} crochet",
                sentence.place(found),
            )


# ---------------------------------------------------------------- how parts are closed
