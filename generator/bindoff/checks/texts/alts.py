"""Words that stand in for pictures."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.diagnostics import Severity
from bindoff.source.model import TextUse

_FEWEST_WORDS = 4
_FILE = re.compile(r"\.(?:png|jpe?g|svg|gif|grid)\b|\b(?:IMG|DSC)[_-]?\d+", re.IGNORECASE)
_ONLY_KIND = re.compile(
    r"(?:an?|the|my|this)?\s*(?:chart|grid|picture|photo|photograph|image|diagram|pattern)s?"
    r"(?:\s+(?:of|for|with|showing)\s+(?:the|a|an|my|this)?\s*\S+(?:\s+\S+)?)?\W*",
    re.IGNORECASE,
)


@check(
    id="alt.words",
    title="Alternative text says what is seen",
    looks_at="`alt:` of charts and photographs: no file name, no mere chart of …, no repetition of "
    "the title, at least four words",
    why="whoever can't see the picture gets nothing else",
    severity=Severity.WARNING,
    remedy="Say in a sentence what the picture shows: shapes, colours, how they lie",
    needs=Needs.SOURCE,
)
def alt_says(context: Context) -> Iterator[Finding]:
    """One finding for each text."""
    titles = {context.pattern.title.lower()}
    titles |= {chart.title.lower() for chart in context.pattern.charts.values()}
    for prose in context.prose:
        if prose.kind is TextUse.ALT:
            what = _fault(prose.raw.strip(), titles)
            if what:
                yield Finding(f"this alternative text {what}", prose.span)


def _fault(words: str, titles: set[str]) -> str:
    if _FILE.search(words):
        return "is the name of a file"
    if words.strip(". ").lower() in titles:
        return "repeats the title"
    if _ONLY_KIND.fullmatch(words):
        return "says only what kind of picture it is"
    if len(words.split()) < _FEWEST_WORDS:
        return "is too short to describe anything"
    return ""


CHECKS = (alt_says,)
