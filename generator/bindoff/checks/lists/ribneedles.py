"""Needles listed for ribs and edges, against those for the fabric beside them."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.lists.tools import knits
from bindoff.checks.walk import At, section_of, steps_of
from bindoff.craft.fabric import Fabric
from bindoff.plan.fabrics import fabric_of
from bindoff.source.head import Tool

_MM = re.compile(r"(?<!\d)(\d{1,2}(?:\.\d{1,2})?) ?mm\b")
_RIB = re.compile(r"\b(hem|welt|ribbing|rib|brim|cuff|band|neckband|waistband)(?:s|bing)?\b", re.I)
_REST = re.compile(
    r"\b(?:body|back|front|leg|hand|main|rest|all else|everything else|stockinette|stocking|foot"
    r"|sleeves?|hat|crown|chart)\b",
    re.IGNORECASE,
)
_ON_PURPOSE = re.compile(
    r"\b(?:larger|bigger|thicker) needles?\b|\bflar|\bfold|\bturn(?:ed|s)? (?:up|back)"
    r"|\bloose(?:r)? (?:edge|hem|brim|rib|cuff|cast|band)",
    re.IGNORECASE,
)


def ribs_on_larger(context: Context) -> Iterator[Finding]:
    """Ribs on needles larger than those of the rest, which lets an edge flare; common practice, no
    source. A text that speaks of larger needles, of a turned or a loose edge, means it."""
    tools = [each for each in context.pattern.tools if knits(each.name) and each.use]
    rest = [_mm(each) for each in tools if _REST.search(each.use) and not _RIB.search(each.use)]
    sizes = [mm for mm in rest if mm]
    if not sizes or any(_ON_PURPOSE.search(each.text) for each in context.prose):
        return
    for tool in tools:
        named = _RIB.search(tool.use)
        alone = named is not None and not _REST.search(tool.use)
        if alone and _mm(tool) > max(sizes) and named is not None and _ribbed(context, named[1]):
            yield Finding(
                f"`{tool.name}` for {tool.use} are larger than those for the rest, which are of "
                f"{max(sizes):g} mm",
                tool.place.of("name").span,
                "List smaller needles for the rib, or say in the text why they are larger",
            )


def _mm(tool: Tool) -> float:
    found = _MM.search(tool.name)
    return float(found[1]) if found else 0.0


def _ribbed(context: Context, noun: str) -> bool:
    """Whether all rows of the sections and pieces of that name are ribbed."""
    found = [
        fabric_of(at.plan, at.step, context.source)
        for at in steps_of(context)
        if any(at.step.rounds) and _is(at, noun)
    ]
    return bool(found) and all(each in (Fabric.RIB, Fabric.RIB_1, Fabric.RIB_2) for each in found)


def _is(at: At, noun: str) -> bool:
    names = f"{section_of(at)} {at.piece.title}".lower()
    return re.search(rf"\b{noun.lower()}", names) is not None
