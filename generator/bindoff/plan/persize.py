"""Findings of several sizes: those that say the same become one that names its sizes."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bindoff.diagnostics import Diagnostic


def together(found: Iterable[tuple[str, Diagnostic]], sizes: Sequence[str]) -> list[Diagnostic]:
    """``found`` pairs the name of a size with what is wrong in it.

    Equal findings are merged, in the order they were found. The message says which of ``sizes`` it
    is for, unless it is for all of them.
    """
    by_finding: dict[Diagnostic, list[str]] = {}
    for size, finding in found:
        names = by_finding.setdefault(finding, [])
        if size not in names:
            names.append(size)
    return [
        finding
        if len(names) == len(sizes)
        else replace(finding, message=f"{named(names)}: {finding.message}")
        for finding, names in by_finding.items()
    ]


def named(sizes: Sequence[str]) -> str:
    """``size M``, ``sizes S and M``, ``sizes S, M and L``."""
    if len(sizes) == 1:
        return f"size {sizes[0]}"
    return f"sizes {', '.join(sizes[:-1])} and {sizes[-1]}"
