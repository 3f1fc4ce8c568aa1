"""Tools: all that is needed is listed, all that is listed is needed, and it can be bought."""

from collections.abc import Iterator
from itertools import chain

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.sentencesof import supposing
from bindoff.checks.walk import parts_of, steps_of
from bindoff.craft.needles import SOLD_LENGTHS, Hook, Needle, hook, needle
from bindoff.diagnostics import Severity, Span
from bindoff.english import an
from bindoff.plan.steps.common import CABLE, HOOK, MACHINE, NEEDLES, WAITING
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, CountChange, Fill, Hooked, Work

_SEWING = re.compile(
    r"\b(blunt|tapestry|darning|sewing|embroidery|yarn|wool|large-eyed)\b.*\bneedle", re.I
)
_CABLE = re.compile(r"\bcable needle", re.I)
_NEEDLE = re.compile(r"\bneedles?\b|\bdpns?\b|\b(?:circulars?|circs?)\b(?! knitting)", re.I)
_HOOK = re.compile(r"\bhook\b", re.I)
_MACHINE = re.compile(r"\bmachine\b", re.I)
_WAITING = re.compile(r"\b(waste|scrap) yarn\b|\bholders?\b", re.I)
_MARKER = re.compile(r"\bmarkers?\b", re.I)
_MM = re.compile(r"(?<!\d)(\d+(?:\.\d+)?) ?mm\b")
_NUMBERED = re.compile(
    r"(?<!\d)(\d+(?:\.\d+)?) ?mm\b[^\d\n]{0,25}?\b(US|UK)(?: (?:size|no\.?))?"
    r" ?([A-Z](?:/[A-Z])?-?\d*½?|\d+(?:\.\d+|½)?)"
)
_NUMBER_FIRST = re.compile(
    r"\b(US|UK)(?: (?:size|no\.?))? ?([A-Z](?:/[A-Z])?-?\d*½?|\d+(?:\.\d+|½)?) ?[(/] ?"
    r"(\d+(?:\.\d+)?) ?mm\b"
)
_CROCHET = re.compile(
    r"(?:^|[.;:!?] +|\band )(crochet) (?:an?|the|along|around|one|two|\d+)\b", re.I
)
_CROCHETED = re.compile(
    r"\b(?:(?:half |double |triple )?treble|(?:half )?double|single|triple) crochet\b", re.I
)
_WITH_HOOK = re.compile(
    r"\b(?:with|using) (?:the|a|your) ((?:\d+(?:\.\d+)? ?mm )?(?:crochet )?hook)\b", re.I
)
_THE_NEEDLES = re.compile(
    r"\bthe ((?:larger|smaller) needles?)\b"
    r"|\b(?:the|on|with|to) (double-pointed needles|dpns)\b",
    re.I,
)
_USED = re.compile(
    r"\b(?:with|using|on|onto|to) (?:the |your |a |an |two )?(\d+(?:\.\d+)?) ?mm\b"
    r"[^\d.;:!?]{0,40}?\b(?:needles?|hook|dpns?|circular)\b",
    re.IGNORECASE,
)
# Advice on what to try, which nobody needs to buy before the start.
_ADVICE = supposing(r"tight\w*", r"loose\w* knitter")
_DPNS = re.compile(r"double[- ]pointed|\bdpns?\b|\bdpn", re.I)
_SIZED = re.compile(r"(?<!\d)(\d+(?:\.\d+)?) ?mm\b|\b(?:US|UK)(?: size)? ?(\d+(?:\.\d+|½)?)", re.I)
_SOLD = re.compile(r"\b(\d+) ?cm\s*[/(]\s*(\d+(?:\.\d+)?[¼½¾]?|\d+ \d/\d) ?(?:in\b|inch)")


_CABLE_TOLD = re.compile(
    r"\b(?:to|onto|on|from|with) (?:the|a|your) cable needle\b(?! or\b)", re.IGNORECASE
)
_TOLD = (TextUse.STEP, TextUse.TEXT)


def _listed(context: Context) -> list[str]:
    return [tool.name for tool in context.pattern.tools] + list(context.pattern.notions)


def knits(name: str) -> bool:
    """Whether a tool is a needle to knit with."""
    other = _SEWING.search(name) or _CABLE.search(name) or _MACHINE.search(name)
    return bool(_NEEDLE.search(name)) and not other


def _needed(context: Context) -> dict[str, bool]:
    """Whether the steps and what their rows hold call for each tool, by its name."""
    steps = [at.step for at in steps_of(context)]
    needed = {tool for step in steps for tool in step.tools}
    parts = [part for step in steps for row in step.all_rows for part in parts_of(row)]
    if any(isinstance(part, Alter) and part.change is CountChange.HOLD for part in parts):
        needed.add(WAITING)
    if any(isinstance(part, Hooked) for part in parts):
        needed.add(HOOK)
    charts = [context.pattern.charts[each.chart] for step in steps for each in step.charts]
    meanings = (each for chart in charts for each in chart.legend.values())
    drawn = (each if isinstance(each, str) else each.stitch or "" for each in meanings)
    worked = (part.stitch for part in parts if isinstance(part, Work | Fill))
    if any("/" in stitch for stitch in chain(worked, drawn)):
        needed.add(CABLE)
    if any(_CABLE_TOLD.search(prose.text) for prose in context.prose if prose.kind in _TOLD):
        needed.add(CABLE)
    return {tool: tool in needed for tool in (NEEDLES, MACHINE, HOOK, CABLE, WAITING)}


def _named(name: str) -> str:
    """``a crochet hook``, ``knitting needles``, ``waste yarn or a stitch holder``."""
    if name == WAITING:
        return "waste yarn or a stitch holder"
    return name if name.endswith("s") else an(name)


def _has(name: str, listed: list[str]) -> bool:
    match name:
        case "knitting needles":
            return any(knits(each) for each in listed)
        case "knitting machine":
            return any(_MACHINE.search(each) for each in listed)
        case "crochet hook":
            return any(_HOOK.search(each) for each in listed)
        case "cable needle":
            return any(_CABLE.search(each) for each in listed)
        case "blunt needle":
            return any(_SEWING.search(each) for each in listed)
        case _:
            return any(_WAITING.search(each) for each in listed)


@check(
    id="tool.missing",
    title="Every tool that is used is listed",
    looks_at="needles, machine, hook, cable needle, blunt needle and waste yarn, as the steps need "
    "them and in the size that they name, in `tools:` and `notions:`",
    why="a knitter far from a shop finds out in the middle of a row",
    severity=Severity.WARNING,
    remedy="Add it under `tools:` or `notions:`",
)
def missing_tool(context: Context) -> Iterator[Finding]:
    """One finding for each tool; ends are woven in always, so a blunt needle is always due."""
    listed = _listed(context)
    for name, needed in {**_needed(context), "blunt needle": True}.items():
        if needed and not _has(name, listed):
            yield Finding(
                f"the steps need {_named(name)}, and the lists name none",
                _tools(context, "notions", "tools", "title")
                if name == WAITING
                else _tools(context),
                "Add it under `tools:` or `notions:`, as knitters know it, with its size",
            )
    yield from _told_only(context, listed)


def _told_only(context: Context, listed: list[str]) -> Iterator[Finding]:
    """What only the texts call for: a hook for a chain or an edge, and needles of another kind."""
    for prose in context.prose:
        if prose.kind not in (TextUse.STEP, TextUse.TEXT) or _has(HOOK, listed):
            continue
        told = (each.finditer(prose.text) for each in (_CROCHET, _CROCHETED, _WITH_HOOK))
        for found in chain.from_iterable(told):
            if not _needed(context)[HOOK]:
                place = prose.place(*found.span(found.lastindex or 0))
                yield Finding("a crochet hook is used here, and the lists name none", place)
                break
    yield from _sizes_told(context, listed)
    knitting = [name for name in listed if knits(name)]
    sizes = {found[0] for name in knitting for found in [_SIZED.search(name)] if found}
    for prose in context.prose:
        if prose.kind not in (TextUse.STEP, TextUse.TEXT):
            continue
        for found, place in prose.found(_THE_NEEDLES):
            named = found[1] or found[2]
            kind = named.lower()
            there = len(sizes) > 1 if kind[0] in "ls" else any(map(_DPNS.search, knitting))
            if knitting and sizes and not there:
                yield Finding(f"`the {named}` stands here, and the tools have none", place)


def _sizes_told(context: Context, listed: list[str]) -> Iterator[Finding]:
    """Needles and hooks that a step takes in a size that no tool of the lists has."""
    sizes = {float(mm) for name in listed for mm in _MM.findall(name)}
    for prose in context.prose:
        if prose.kind is not TextUse.STEP or not sizes:
            continue
        for found, place in prose.found(_USED):
            start = prose.text.rfind(".", 0, found.start()) + 1
            sentence = prose.text[start:].split(". ")[0]
            if _ADVICE.search(sentence):
                continue
            if float(found[1]) not in sizes:
                yield Finding(f"`{found[1]} mm` is used here, and no tool has that size", place)
            elif _DPNS.search(found[0]) and not any(
                _DPNS.search(name) and float(found[1]) in map(float, _MM.findall(name))
                for name in listed
            ):
                yield Finding(f"`{found[0]}`: no tool of {found[1]} mm is double-pointed", place)


@check(
    id="tool.unused",
    title="Every tool that is listed is used",
    looks_at="machine, hook, cable needle and waste yarn in `tools:` and `notions:` against the "
    "steps and the text",
    why="a knitter buys or looks for what is never needed, or takes it that a step is missing",
    severity=Severity.WARNING,
    remedy="Take it out of the list, or name it in the step that needs it",
)
def unused_tool(context: Context) -> Iterator[Finding]:
    """One finding for each tool."""
    # What is listed with a marker, as in "a marker or a bit of waste yarn", may mark as well.
    listed = [name for name in _listed(context) if not _MARKER.search(name)]
    said = " ".join(prose.text for prose in context.prose if prose.path[:1] not in _LISTS).lower()
    words = {
        "knitting machine": ("machine",),
        "crochet hook": ("crochet", "hook"),
        "cable needle": ("cable",),
        "waste yarn or stitch holder": ("waste", "holder", "provisional", "lifeline"),
    }
    for name, needed in _used(context).items():
        mentioned = any(word in said for word in words.get(name, ()))
        if name in words and not needed and not mentioned and _has(name, listed):
            yield Finding(f"no step needs {_named(name)} that is listed", _place(context, name))


def _used(context: Context) -> dict[str, bool]:
    """What is needed, and a holder where stitches are left live: a spare needle does as well."""
    left = any(at.step.closes and at.step.closes.by is None for at in steps_of(context))
    needed = _needed(context)
    return needed | {WAITING: needed[WAITING] or left}


_LISTS = (("tools",), ("notions",))


@check(
    id="tool.gauge",
    title="The needles of each gauge are listed",
    looks_at="millimetres in the `tool:` of every hand gauge against the tools",
    why="the knitter swatches with one needle and knits with another",
    severity=Severity.WARNING,
    remedy="List the needle under `tools:`, or correct the size",
    needs=Needs.SOURCE,
)
def gauge_needles(context: Context) -> Iterator[Finding]:
    """One finding for each gauge."""
    listed = {float(mm): tool for tool in context.pattern.tools for mm in _MM.findall(tool.name)}
    for prose in context.prose:
        if prose.path[-1:] == ("tool",) and prose.path[0] in ("gauge", "gauges", "sizes"):
            for found, place in prose.found(_MM):
                if float(found[1]) not in listed:
                    near = sorted(listed, key=lambda mm: abs(mm - float(found[1])))[:1]
                    beside = tuple(listed[mm].place.of("name").span for mm in near)
                    yield Finding(f"no tool of {found[1]} mm is listed", place, beside=beside)


@check(
    id="tool.size",
    title="Needle and hook sizes exist, and their numbers agree",
    looks_at="millimetres, US and UK numbers in tools, gauges and texts against the tables of "
    "sizes, and lengths of circular and double-pointed needles in cm and inches as they are sold",
    why="nobody can buy a needle of that size, or the two names send knitters to two sizes",
    severity=Severity.WARNING,
    remedy="Correct the millimetres or the number; millimetres count",
    needs=Needs.SOURCE,
)
def tool_sizes(context: Context) -> Iterator[Finding]:
    """One finding for each size."""
    for prose in context.prose:
        if prose.path[:1] not in (("tools",), ("gauge",), ("gauges",), ("sizes",)):
            continue
        if _NEEDLE.search(prose.text) or _HOOK.search(prose.text):
            yield from _odd_sizes(prose.found(_MM), is_hook=bool(_HOOK.search(prose.text)))
    for prose in context.prose:
        is_hook = bool(_HOOK.search(prose.text))
        for found, place in prose.found(_NUMBERED):
            yield from _misnamed(found[1], found[2], found[3], place, is_hook=is_hook)
        for found, place in prose.found(_NUMBER_FIRST):
            yield from _misnamed(found[3], found[1], found[2], place, is_hook=is_hook)
    for prose in context.prose:
        if prose.path[:1] == ("tools",) and _NEEDLE.search(prose.text):
            yield from _odd_lengths(prose.found(_SOLD))


def _misnamed(mm: str, land: str, number: str, place: Span, *, is_hook: bool) -> Iterator[Finding]:
    """A finding where a size in mm does not go by the number that is given with it."""
    tool = _tool(float(mm), is_hook)
    names = _names(tool, land) if tool else ()
    if tool and number.replace(".5", "½") not in names:
        right = f"{land} {' or '.join(names)}" if names else f"no {land} number"
        yield Finding(f"{mm} mm is {right}, not {land} {number}", place)


def _odd_lengths(found: Iterator[tuple["re.Match[str]", Span]]) -> Iterator[Finding]:
    for match, place in found:
        sold = SOLD_LENGTHS.get(int(match[1]), ())
        if sold and match[2] not in map(str, sold):
            right = " or ".join(map(str, sold))
            yield Finding(f"needles of {match[1]} cm are sold as {right} in, not {match[2]}", place)


def _odd_sizes(
    found: Iterator[tuple["re.Match[str]", Span]], *, is_hook: bool
) -> Iterator[Finding]:
    for match, place in found:
        try:
            (hook if is_hook else needle)(float(match[1]))
        except ValueError as error:
            yield Finding(str(error), place)


def _tool(mm: float, is_hook: bool) -> Needle | Hook | None:
    try:
        return hook(mm) if is_hook else needle(mm)
    except ValueError:
        return None


def _names(tool: Needle | Hook, land: str) -> tuple[str, ...]:
    """The numbers a size goes by in the US or the UK."""
    if land == "UK":
        return (tool.uk,) if tool.uk else ()
    also = tool.us_also if isinstance(tool, Needle) else ()
    names = ((tool.us,) if tool.us else ()) + also
    # A hook is called by its letter, its number, or both: H-8.
    return names + tuple(part for name in names for part in name.split("-") if part != name)


def _tools(context: Context, *keys: str) -> Span:
    """The lists that lack something: tools, or else notions, or else the title; or the first there
    is of ``keys``."""
    for key in keys or ("tools", "notions", "title"):
        if getattr(context.pattern, key):
            return whole_list(context, key)
    raise AssertionError("a pattern without a title is not read")


def whole_list(context: Context, key: str) -> Span:
    """The place of a key of the pattern with all that stands in its list."""
    place = context.pattern.place.of(key)
    first, last = place.key_span, place.span
    return Span(first.file, first.line, first.column, last.end_line, last.end_column)


def _place(context: Context, name: str) -> Span:
    """Where a tool that is listed stands."""
    for tool in context.pattern.tools:
        if _has(name, [tool.name]):
            return tool.place.span
    return next(
        context.pattern.place.of("notions").of(index).span
        for index, notion in enumerate(context.pattern.notions)
        if _has(name, [notion])
    )


@check(
    id="tool.unlisted",
    title="A size of needle that a text names is listed",
    looks_at="millimetres before needles and hooks in steps and texts against the tools and gauges",
    why="a knitter who meets another size wonders which is right, or lacks it when it is needed",
    severity=Severity.NOTE,
    remedy="List it under `tools:` with what it is for, or correct the size",
    needs=Needs.SOURCE,
)
def unlisted_size(context: Context) -> Iterator[Finding]:
    """One finding for each size."""
    lists = [prose.text for prose in context.prose if prose.path[:1] not in _TEXTS]
    listed = {float(mm) for text in lists for mm in _MM.findall(text)}
    for prose in context.prose:
        if prose.kind not in (TextUse.STEP, TextUse.TEXT):
            continue
        for found, place in prose.found(_OF_NEEDLES):
            start = max(prose.text.rfind(mark, 0, found.start()) for mark in (". ", "; ")) + 1
            sentence = re.split(r"[;!?]|\.(?!\d)", prose.text[start:].lstrip("; "))[0]
            around = prose.text[max(0, start - _NEAR) : start] + sentence
            advised = _ADVICE.search(sentence) and _OF_GAUGE.search(around)
            if float(found[1]) not in listed and not advised:
                listed.add(float(found[1]))
                yield Finding(f"`{found[0]}` stands here, and no tool has that size", place)


_NEAR = 60  # characters of the sentence before, which may ask: `More than 22 stitches?`
_OF_GAUGE = re.compile(
    r"\b(?:gauge|tension|swatch\w*|stitches|sts|knitters?|loosely|tightly)\b", re.IGNORECASE
)
_OF_NEEDLES = re.compile(
    r"(?<![\d.])(\d{1,2}(?:\.\d{1,2})?) ?mm (?:[a-z-]{1,20} )?(?:needles?|hooks?)\b", re.I
)
_TEXTS = (("pieces",), ("notes",), ("finishing",), ("summary",), ("care",))

CHECKS = (missing_tool, unused_tool, gauge_needles, tool_sizes, unlisted_size)
