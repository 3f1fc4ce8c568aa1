"""The order in which a piece is finished, and whether what is joined or sewn on holds."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.named.places import layers_laid
from bindoff.checks.texts.named.world import world_of
from bindoff.checks.walk import At, steps_of
from bindoff.diagnostics import Severity, Span
from bindoff.plan.steps.pick_up_along import PickedUp
from bindoff.source.model import TextUse

_JOINS = (
    r"(?:sew(?:n|ing)?|seam(?:ed|ing)|join(?:ed|ing)?|graft(?:ed|ing)?|attach(?:ed)?"
    r"|mattress|whip(?:ped)?|three-needle|bind off together|cast off together|stitch(?:ed)?"
    r"|close[ds]?|lace[ds]?|crochet(?:ed)?|knit(?:ted)? together)"
)
_SHOULDERS = re.compile(
    rf"\b{_JOINS}\b[^.;]*\bshoulders?\b|\bshoulders?\b[^.;]*\b{_JOINS}\b", re.IGNORECASE
)
_SIDES_FIRST = re.compile(
    r"\b(?:sew|close|join|seam)(?: up)? (?:the )?(?:side|underarm|sleeve)\b[^.;]*?\bseams?\b[^.;]*?"
    r",? (?:and )?then (?:sew |set |join )?(?:in )?(?:the )?(?:tops? of the )?sleeves?(?: tops?)?\b"
    r"[^.;]*\b(?:flat|between (?:the|these|those) markers)\b",
    re.IGNORECASE,
)
_PUSHED_IN = re.compile(
    r"\b(?:push|pull|slip|tuck|fold|slide)\b[^.;]{0,20}\b(?:lining|inner (?:layer|half)|one half"
    r"|half of it)\b[^.;]*\b(?:in|into|inside)\b",
    re.IGNORECASE,
)
_ENDS_INSIDE = re.compile(
    r"\b(?:weave in|darn in|run in|fasten|sew in) (?:all |all the |the )?(?:loose )?ends (?:on|to"
    r"|at) the (?:wrong side|inside)\b",
    re.IGNORECASE,
)
_RIGHT_SIDES = re.compile(r"\bright sides? (?:together|facing each other|to right side)\b", re.I)
_PINNED = re.compile(
    r"\bpins?\b[^.;]*\b(?:out|to (?:shape|size|measure)|first|straight|until|edge|tips?)\b|\bpin "
    r"(?:it|them|the)\b",
    re.I,
)
_WET = re.compile(r"\b(?:soak|wet|damp|block|wash|steam|dry)", re.IGNORECASE)
_PINS = re.compile(r"\bpins?\b", re.IGNORECASE)
_OTHER_PINS = re.compile(
    r"\bpins? for (basting|quilting|tacking|marking|hems?)\b|\b(safety) pins?\b", re.I
)
_MARKING = re.compile(
    r"\bmark\w*\b[^.;]{0,60}\bpins?\b|\bpins?\b[^.;]{0,40}\bmark\w*\b"
    r"|\btake out (?:the|each) pins?\b",
    re.IGNORECASE,
)
_BLOCKING = re.compile(r"rust|block|\bT-?pins?\b|stainless|steel", re.IGNORECASE)
_WEAKLY = re.compile(
    r"\bwith (?:an? )?(?:single|one|thin)(?: loose| fine)? (?:strand|thread|stitch)\b"
    r"|\bloose(?:ly)?\b(?! ends?)"
    r"|\bso that (?:they|it) can (?:easily )?be (?:easily )?(?:changed|removed|taken off|pulled "
    r"off|replaced|moved)\b"
    r"|\b(?:changed|removed|taken off|pulled off) easily\b|\bwith (?:a drop of |hot |fabric "
    r"|textile )?glue\b",
    re.IGNORECASE,
)
_SEWN_ON = re.compile(r"\b(?:sew|sewn|attach\w*|fix\w*|fasten\w*|stitch|glue\w*|put on)\b", re.I)
_SMALL = re.compile(
    r"\b(?:buttons?|snaps?|toggles?|beads?|bells?|eyes|poppers?|press studs?|zips?|labels?)\b", re.I
)


@check(
    id="finish.order",
    title="Finishing can be done as it is told, in that order",
    looks_at="shoulders that are joined before stitches are picked up across them, sleeves set in "
    "flat before side seams, ends woven in before a lining hides them, layers laid wrong sides "
    "together, and pins for wet work",
    why="the knitter unpicks a seam to do what comes first, or rust ruins the piece",
    severity=Severity.WARNING,
    remedy="Tell the work in the order in which it can be done",
)
def made_up(context: Context) -> Iterator[Finding]:
    """One finding for each place."""
    if not context.in_english:
        return
    yield from _shoulders(context)
    yield from layers_laid(world_of(context))
    pins = _pins_listed(context)
    for sentence in sentences(context, TextUse.STEP, TextUse.TEXT):
        for found in sentence.said(_SIDES_FIRST):
            yield Finding(
                f"`{found[0]}`: a sleeve lies flat in its armhole only while the sides are open",
                sentence.place(found),
                "Sew in the sleeves first, then close sides and sleeves in one seam",
            )
        yield from _hidden(sentence)
        if _PUSHED_IN.search(sentence.words):
            for found in sentence.said(_RIGHT_SIDES):
                yield Finding(
                    f"`{found[0]}` stands here, and a lining lies wrong sides together with what "
                    "it lines",
                    sentence.place(found),
                )
        if pins and _PINNED.search(sentence.words) and sentence.prose.has(_WET):
            yield Finding(
                f"`{pins[0]}` are listed, and the piece is pinned out wet",
                pins[1],
                "List rustproof pins",
            )
            pins = None


def _shoulders(context: Context) -> Iterator[Finding]:
    """Stitches picked up across front and back of which nothing joins the shoulders."""
    pieces = context.pattern.pieces.values()
    titles = " ".join(piece.title.lower() for piece in pieces if piece.worked == "flat")
    if "back" not in titles or "front" not in titles:
        return
    if any(_SHOULDERS.search(prose.text) for prose in context.prose):
        return
    if any(at.step.closes and at.step.closes.to is not None for at in steps_of(context)):
        return
    for at in steps_of(context):
        detail = at.step.detail
        if isinstance(detail, PickedUp):
            edges = {part.edge.lower() for part in detail.parts}
            if any("front" in each for each in edges) and any("back" in each for each in edges):
                yield Finding(
                    "stitches are picked up across the fronts and the back here, and nothing says "
                    "to join the shoulders",
                    _told_before(context, at),
                    "Say to sew the shoulder seams first",
                )
                return


def _told_before(context: Context, at: At) -> Span:
    """The text right before a step, or the step."""
    path = ("pieces", at.plan.key, "steps", at.index - 1)
    return next((each.span for each in context.prose if each.path[:4] == path), at.step.span)


def _hidden(sentence: Sentence) -> Iterator[Finding]:
    """Ends to be woven in on a side that has been closed in before."""
    for found in sentence.said(_ENDS_INSIDE):
        if sentence.prose.has(_PUSHED_IN) and _PUSHED_IN.search(
            sentence.prose.text, 0, sentence.start + found.start()
        ):
            yield Finding(
                f"`{found[0]}` comes after the lining has been pushed inside, and nobody gets "
                f"there "
                "any more",
                sentence.place(found),
                "Weave in the ends first",
            )


def _pins_listed(context: Context) -> tuple[str, Span] | None:
    """Pins of another kind, where no list has pins that do not rust."""
    lists = [*context.pattern.notions, *(tool.name for tool in context.pattern.tools)]
    if any(_PINS.search(each) and _BLOCKING.search(each) for each in lists):
        return None
    at_work = any(_MARKING.search(prose.text) for prose in context.prose)
    for index, notion in enumerate(context.pattern.notions):
        found = _OTHER_PINS.search(notion)
        if found and not (found[2] and at_work):  # safety pins mark a place while it is worked
            return notion, context.pattern.place.of("notions").of(index).span
    return None


@check(
    id="wearer.loose",
    title="Nothing comes loose from what a child wears",
    looks_at="buttons and other small parts for a child or an infant that are sewn on weakly or to "
    "be taken off",
    why="what comes off is swallowed",
    severity=Severity.WARNING,
    remedy="Sew small parts on firmly with doubled thread and pull at each",
    needs=Needs.SOURCE,
)
def nothing_loose(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    if not {"child", "infant"} & set(context.pattern.wearer):
        return
    for sentence in sentences(context, TextUse.STEP, TextUse.TEXT):
        words = sentence.words
        if _SMALL.search(words) and _SEWN_ON.search(words):
            for found in sentence.said(_WEAKLY):
                yield Finding(
                    f"`{found[0]}`: a small part that is sewn on weakly comes off in a child's "
                    "mouth",
                    sentence.place(found),
                )
                break


CHECKS = (made_up, nothing_loose)
