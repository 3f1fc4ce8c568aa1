"""What checks say of one text put into a sound pattern."""

from collections.abc import Collection
from dataclasses import replace
from functools import cache

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.prose import Prose
from bindoff.diagnostics import Span
from bindoff.source.model import TextUse
from bindoff.source.yamltree import Path
from tests.faults.test_prose_checks import context

HERE = "the text itself"
_context = cache(context)


def said(
    text: str,
    pattern: str,
    ids: Collection[str],
    path: Path = ("finishing",),
    kind: TextUse = TextUse.TEXT,
    *,
    beside: bool = False,
) -> set[str]:
    """Those of ``ids`` that find something in ``text``, which stands at ``path`` of ``pattern``:
    alone, or ``beside`` all other texts."""
    prose = Prose(
        kind,
        text,
        text,
        str(path[1]) if path[0] == "pieces" else None,
        path,
        lambda start, end: Span(HERE, 1, start + 1, 1, end + 1),
    )
    there = _context(pattern)
    others = tuple(each for each in there.prose if each.path != path) if beside else ()
    changed = replace(there, prose=(*others, prose))
    return {
        found.id
        for check in CHECKS
        if check.id in ids
        for found in check.diagnostics(changed)
        if found.span and found.span.file == HERE
    }
