"""What the checks hear of danger in one sentence of a pattern for babies, worn or played with."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.context import Context, context_of
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Span
from bindoff.document.build import build_document
from bindoff.files import MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.source.model import TextUse
from tests.small_patterns import CAP, WAVES, changed

_OF_PATTERN = "wearer.sizes"  # of the sizes, whatever a sentence says
_CHECKS = tuple(
    each
    for each in CHECKS
    if each.id.startswith(("wearer.", "machine.child", "maker.")) and each.id != _OF_PATTERN
)


def heard(words: str, *titles: str) -> set[str]:
    """The ids of the checks that find danger in ``words`` as the finishing of a piece called one of
    ``titles``; without any, of a cap and of a toy."""
    return {each for title in titles or ("Quay Cap", "Quay Seal") for each in _heard(words, title)}


def _heard(words: str, title: str) -> Iterator[str]:
    prose = Prose(
        TextUse.TEXT,
        words,
        words,
        None,
        ("finishing",),
        lambda start, end: Span("x", 1, start + 1, 1, end + 1),
    )
    there = replace(_context(title), prose=(prose,))
    for check in _CHECKS:
        yield from (found.id for found in check.diagnostics(there))


@cache
def _context(title: str) -> Context:
    text = changed(
        CAP, ("wearer: [adult]", "wearer: [infant]"), ("title: Quay Cap", f"title: {title}")
    )
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    plan = plan_pattern(files, "pattern.yaml", "cap")
    return context_of(plan, *build_document(plan, files), files)
