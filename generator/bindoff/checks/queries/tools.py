"""Needles and hooks that are not listed for the work at which a sentence takes them."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import millimetres
from bindoff.plan.fabrics import fabric_of
from bindoff.records import Record
from bindoff.remembered import once_each

NEEDLE = phrase(
    r"\b(?:(?:shorter|longer|larger|smaller|thicker|thinner)(?: of the)? )?(?:\d+(?:\.\d+)? ?mm )?"
    r"(?:(?:circular|double-pointed|straight|crochet|knitting) )*(?:needles?|hook|dpns)\b"
)
_MM = re.compile(r"(?<![\d.])(\d{1,2}(?:\.\d{1,2})?)\s?mm")
_LONG = re.compile(r"(?<![\d.])(\d{2,3})\s?(cm|in)")
_ORDER = re.compile(r"(?i)shorter|longer|larger|smaller|thicker|thinner")
_ALL = re.compile(r"(?i)throughout|everything|all\b|rest|else|whole")


class _Tool(Record):
    mm: float
    long: float
    name: str
    use: str


def needles_doubted(told: Told) -> Iterator[Doubt]:
    """Each needle or hook that a step takes up by its size, where several are listed."""
    tools = _tools(told.context)
    if told.scene.plan is None or len(tools) < 2:
        return
    for found in NEEDLE.finditer(told.words):
        words = told.raw(*found.span()).lower()
        meant = _meant(words, tools)
        if meant is None or told.is_proved(*found.span()):
            continue
        if not _is_for(told, meant, tools):
            yield Doubt(*found.span(), "no tool of that size is listed for this")


@once_each
def _tools(context: Context) -> tuple[_Tool, ...]:
    return tuple(
        _Tool(
            float(size[1]),
            millimetres(float(long[1]), long[2]) if (long := _LONG.search(tool.name)) else 0,
            tool.name.lower(),
            (tool.use or "").lower(),
        )
        for tool in context.pattern.tools
        if (size := _MM.search(tool.name))
    )


def _meant(words: str, tools: Sequence[_Tool]) -> Sequence[_Tool] | None:
    """The tools that words may mean; none said where they have no size."""
    order = _ORDER.search(words)
    size = _MM.search(words)
    if order is None and size is None:
        return None
    hook = "hook" in words
    found = [each for each in tools if ("hook" in each.name) is hook]
    if "double-pointed" in words or "dpn" in words:
        found = [each for each in found if "double-pointed" in each.name or "dpn" in each.name]
    if size is not None:
        found = [each for each in found if each.mm == float(size[1])]
    if order is not None and found:
        by_length = order[0] in ("shorter", "longer")
        sizes = [each.long if by_length else each.mm for each in found]
        known = sorted({*sizes} - {0})
        if len(known) > 1:
            most = known[0] if order[0] in ("shorter", "smaller", "thinner") else known[-1]
            found = [each for each, size in zip(found, sizes, strict=True) if size == most]
    return found


def _is_for(told: Told, meant: Sequence[_Tool], tools: Sequence[_Tool]) -> bool:
    """Whether one of some tools is listed for what is worked at the place of a sentence: for its
    fabric, its section or its piece, whichever the list names first."""
    for words in _places(told):
        stems = [re.compile(rf"\b{re.escape(word)}") for word in words]
        listed = [tool for tool in tools if any(stem.search(tool.use) for stem in stems)]
        if listed:
            return any(tool in meant for tool in listed)
    return any(not tool.use or _ALL.search(tool.use) for tool in meant)


def _places(told: Told) -> Iterator[list[str]]:
    """The stems of the words by which the place of a sentence goes, the narrowest first."""
    scene, pieces = told.scene, told.context.pattern.pieces
    plan = scene.plan
    assert plan is not None
    ahead = [step for step in (*scene.here, *scene.coming) if any(step.rounds)][:1]
    for step in ahead:
        fabric = fabric_of(plan, step, told.context.source)
        if "rib" in fabric.value:
            yield ["rib"]
    steps = plan.steps[: int(scene.prose.path[3]) + 2]
    heading = next((step.heading for step in reversed(steps) if step.heading), "")
    for name in (heading, pieces[plan.key].title):
        yield [word.removesuffix("s")[:6] for word in re.findall(r"[a-z]{3,}", name.lower())]
    words = re.findall(r"[a-z]{4,}", told.words.lower())
    yield [word.removesuffix("s") for word in words if not _OF_TOOLS.match(word)]


_OF_TOOLS = re.compile(
    r"needles?$|circular|stitch|double|pointed|long|size|with|hook|crochet|larger|smaller|shorter"
)
