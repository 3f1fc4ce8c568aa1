"""The needles in hand, as the texts of the steps tell it, against those that are listed."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.lists.tools import knits
from bindoff.checks.sentencesof import quoted
from bindoff.checks.texts.told.scene import Scene, scene_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.craft.fabric import Fabric
from bindoff.diagnostics import Severity, Span
from bindoff.plan.fabrics import fabric_of
from bindoff.records import Record
from bindoff.source.steps.step import STEP_TEXTS

_WHICH = (
    r"((?:(?:the|your|a|set of|pair of|same|shorter|longer|larger|smaller|circular|straight"
    r"|double-pointed"
    r"|(?:\d+(?:\.\d+)? ?mm)|dpns?) )*"
    r"(?:needles?|dpns?|circular|(?:\d+(?:\.\d+)? ?mm)(?! \w*(?:hook|crochet|deep|wide|long"
    r"|button))))\b"
)
_TAKEN = phrase(rf"(?:^|(?<=\.\s)|\b(?:with|using|use|on|onto|take) ){_WHICH}")
_CHANGED = phrase(rf"\b(?:change|switch|go)(?: back| down| up)*(?: again)? to {_WHICH}")
_MM = re.compile(r"(?<!\d)(\d{1,4}(?:\.\d{1,3})?) ?mm")
_DPNS = re.compile(r"double[- ]pointed|\bdpn", re.I)
_CIRCULAR = re.compile(r"\bcirc", re.I)
_ASIDE = re.compile(
    r"\b(?:if|or|try|instead|perhaps|maybe|might|may|could|prefer|spare|third|second|other"
    r"|cable)\b",
    re.I,
)
_REST = re.compile(r"\b(?:else|rest|body|main|stockinette|stocking)\b")
_FOR_RIBS = re.compile(r"\b(?:ribs?|ribbing|bands?|borders?|brim|cuffs?|welts?)\b")
_RIBS = (Fabric.RIB, Fabric.RIB_1, Fabric.RIB_2)


class _Tool(Record):
    """A needle to knit with: its size, whether it is circular or double-pointed, and its use."""

    mm: float
    dpns: bool
    circular: bool
    use: str


_Hand = frozenset[_Tool]


@check(
    id="prose.needles",
    title="Needles are changed to others than those in hand",
    looks_at="needles that the texts of the steps begin with or change to, followed through each "
    "piece, and what each is listed for as its `use:`",
    why="a knitter who is told to change to the needles in hand has missed a change before, or "
    "made a rib on the wrong ones",
    severity=Severity.WARNING,
    remedy="Name the needles that these rows are worked on",
)
def needles_in_hand(context: Context) -> Iterator[Finding]:
    """One finding for each text."""
    tools = frozenset(_tools(context))
    if len(tools) < 2 or not context.in_english:
        return
    for plan in context.plan.pieces:
        hand: _Hand = frozenset()
        since: tuple[Span, ...] = ()  # where these needles were taken
        for prose in context.prose:
            if prose.piece != plan.key or prose.path[-1] not in STEP_TEXTS:
                continue
            scene = scene_of(context, prose)
            for found, changed in _named(prose.text):
                sentence = prose.text[
                    prose.text.rfind(".", 0, found.start()) + 1 : found.end() + 30
                ]
                taken = _meant(found[1], tools)
                if not taken or _ASIDE.search(sentence):
                    continue
                place = prose.place(*found.span())
                said = quoted(found)
                other = _meant_for(context, scene, taken, tools) or (
                    _for_the_rest(context, scene, taken, tools) if changed and not hand else None
                )
                if other is not None:
                    yield Finding(
                        f"`{said}` stands here, and the needles listed for "
                        f"{next(iter(other)).use} are of {_sizes(other)}",
                        place,
                    )
                    taken = other
                elif changed and hand and hand <= taken:
                    yield Finding(
                        f"`{said}` stands here, and the needles in hand are of {_sizes(hand)}",
                        place,
                        beside=since,
                    )
                hand = taken & hand or taken if changed else taken
                since = (place,)


def _named(text: str) -> Iterator[tuple["re.Match[str]", bool]]:
    """The needles that a text takes up or changes to, in its order."""
    found = [(each, False) for each in _TAKEN.finditer(text)]
    found += [(each, True) for each in _CHANGED.finditer(text)]
    yield from sorted(found, key=lambda each: each[0].start())


def _tools(context: Context) -> Iterator[_Tool]:
    for tool in context.pattern.tools:
        size = _MM.search(tool.name)
        if size and knits(tool.name):
            name, use = tool.name, (tool.use or "").lower()
            yield _Tool(float(size[1]), bool(_DPNS.search(name)), bool(_CIRCULAR.search(name)), use)


def _meant(words: str, tools: _Hand) -> _Hand:
    """The needles that words may mean; none where that is open."""
    words = words.lower()
    found = tools
    if size := _MM.search(words):
        found = frozenset(each for each in found if each.mm == float(size[1]))
    if _DPNS.search(words):
        found = frozenset(each for each in found if each.dpns)
    elif "circular" in words:
        found = frozenset(each for each in found if each.circular)
    elif "straight" in words:
        found = frozenset(each for each in found if not each.circular and not each.dpns)
    sizes = sorted({each.mm for each in tools})
    if "smaller" in words or "larger" in words:
        if len(sizes) != 2:
            return frozenset()
        wanted = sizes[0] if "smaller" in words else sizes[1]
        found = frozenset(each for each in found if each.mm == wanted)
    return frozenset() if found == tools else found


def _for(word: str, tools: _Hand) -> _Hand:
    """The needles that alone are listed for something."""
    named = re.compile(rf"\b{re.escape(word.lower().rstrip('s'))}(?:s|bing)?\b")
    found = frozenset(each for each in tools if named.search(each.use))
    return found if len({each.mm for each in found}) == 1 else frozenset()


def _meant_for(context: Context, scene: Scene, taken: _Hand, tools: _Hand) -> _Hand | None:
    """The needles of another size that are listed for what is worked next, if there are any."""
    sizes = {each.mm for each in taken}
    if scene.plan is None or len(sizes) != 1:
        return None
    for word in _words(context, scene):
        use = _for(word, tools)
        if use and not sizes & {each.mm for each in use}:
            return use
        if use:
            return None
    return None


def _for_the_rest(context: Context, scene: Scene, taken: _Hand, tools: _Hand) -> _Hand | None:
    """The needles that are listed for all else, where a text changes to those for ribs before rows
    that are none."""
    if scene.plan is None:
        return None
    rest = frozenset(each for each in tools if _REST.search(each.use))
    ribs = frozenset(each for each in tools if _FOR_RIBS.search(each.use))
    worked = [step for step in scene.here if any(step.rounds)]
    plain = worked and fabric_of(scene.plan, worked[0], context.source) is Fabric.PLAIN
    if plain and len({each.mm for each in rest}) == 1 and taken <= ribs and not taken & rest:
        return rest
    return None


def _words(context: Context, scene: Scene) -> Iterator[str]:
    """What the next steps are called: by their fabric, their heading, or their piece."""
    assert scene.plan is not None
    worked = [step for step in (*scene.here, *scene.coming) if any(step.rounds) and step.rows]
    first = next(iter(worked), None)
    if first is not None and first.before[0].stitches:
        fabric = fabric_of(scene.plan, first, context.source)
        if fabric in _RIBS:
            yield "rib"
            return  # an edge: the needles of the piece are others
        if fabric is Fabric.GARTER:
            yield "garter"
    steps = scene.plan.steps
    index = int(scene.prose.path[3])
    headings: Sequence[str] = [step.heading for step in steps[: index + 1] if step.heading]
    if headings:
        yield from headings[-1].lower().split()[-1:]
    yield context.pattern.pieces[scene.plan.key].title.lower()


def _sizes(tools: _Hand) -> str:
    return " or ".join(f"{mm:g} mm" for mm in sorted({each.mm for each in tools}))


CHECKS = (needles_in_hand,)
