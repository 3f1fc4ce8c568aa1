"""Findings of several sizes: those of one id at one place become one that names its sizes."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff.diagnostics import Diagnostic, Span
from bindoff.records import replace

_FEWEST_AS_RANGE = 3


def together(found: Iterable[tuple[str, Diagnostic]], sizes: Sequence[str]) -> list[Diagnostic]:
    """``found`` pairs the name of a size with what is wrong in it.

    Findings with one id and one place have one cause. They are merged, in the order they were
    found. The message says which of ``sizes`` it is for, unless it is for all of them; where the
    figures differ it has those of the first.
    """
    alike: dict[tuple[str, Span | None], list[tuple[str, Diagnostic]]] = {}
    for size, finding in found:
        alike.setdefault((finding.id, finding.span), []).append((size, finding))
    return [_merged(each, sizes) for each in alike.values()]


def _merged(found: list[tuple[str, Diagnostic]], sizes: Sequence[str]) -> Diagnostic:
    first_size, first = found[0]
    names = tuple(dict.fromkeys(size for size, _ in found))
    about = names if len(names) < len(sizes) else ()
    where = f"{named(about, sizes)}: " if about else ""
    differ = any(each.message != first.message for _, each in found)
    message = f"{where}{first.message}"
    if differ:
        message += f" (the figures of size {first_size})"
    help = first.help
    if any(each.help != help for _, each in found):
        help += "; likewise in the other sizes, each with its own figures"
    return replace(first, message=message, help=help, sizes=about)


def named(sizes: Sequence[str], of: Sequence[str] = ()) -> str:
    """``size M``, ``sizes S and M``, ``sizes S, M and L``; ``sizes S to L`` if they stand so in
    ``of``, which lists all."""
    if len(sizes) == 1:
        return f"size {sizes[0]}"
    said = list(_ranges(sizes, of))
    if len(said) == 1:
        return f"sizes {said[0]}"
    return f"sizes {', '.join(said[:-1])} and {said[-1]}"


def _ranges(sizes: Sequence[str], of: Sequence[str]) -> Iterator[str]:
    """Sizes in turn, neighbours of three and more as ``S to L``."""
    rest = list(sizes)
    while rest:
        run = 1
        if rest[0] in of:
            at = list(of).index(rest[0])
            while run < len(rest) and rest[run : run + 1] == list(of[at + run : at + run + 1]):
                run += 1
        if run < _FEWEST_AS_RANGE:
            run = 1
        yield f"{rest[0]} to {rest[run - 1]}" if run > 1 else rest[0]
        del rest[:run]
