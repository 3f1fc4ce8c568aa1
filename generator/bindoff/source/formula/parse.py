"""From text to a formula."""

import pickle
from functools import lru_cache, partial

from bindoff.diagnostics import Span, fail
from bindoff.kept import Shelf
from bindoff.source.formula.nodes import (
    Call,
    Formula,
    FormulaFaultError,
    Name,
    Node,
    inner,
    walk,
)

MAX_LENGTH = 1000
MAX_DEPTH = 60

SHELF: Shelf[bytes] = Shelf(
    __file__,
    2000,
    libraries=("lark", "msgspec"),
    sources=("source/formula", "source/formula/grammar.lark", "source/lengths.py", "records.py"),
)
"""The nodes of formulas, by their text."""


def parse_formula(text: str, span: Span) -> Formula:
    """Parse one formula; ``span`` is the place of ``text``.

    Raises:
        PatternError: ids ``formula.…``, pointing at the part that can't be read if ``span`` covers
            exactly the text, else at all of it.
    """
    if len(text) > MAX_LENGTH:
        raise fail(
            "formula.too-long",
            f"a formula has at most {MAX_LENGTH} characters, and this one has {len(text)}",
            "Give parts of it names of their own",
            span,
        )
    try:
        root, names, functions = _read(text)
    except FormulaFaultError as fault:
        raise fault.at(text, span) from None
    return Formula(text, span, root, names, functions)


@lru_cache(maxsize=1 << 10)  # a pattern writes the same formula for many sizes, and keeps it
def _read(text: str) -> tuple[Node, tuple[str, ...], tuple[str, ...]]:
    """What is written, and the names and helpers in it."""
    root: Node = pickle.loads(SHELF.get(text, partial(_new, text)))
    parts = list(walk(root))
    names = tuple(dict.fromkeys(part.name for part in parts if isinstance(part, Name)))
    functions = tuple(dict.fromkeys(part.function for part in parts if isinstance(part, Call)))
    return root, names, functions


def _new(text: str) -> bytes:
    from bindoff.source.formula.grammar import parsed

    root = parsed(text)
    _check_depth(root)
    return pickle.dumps(root)


def _check_depth(root: Node) -> None:
    """Keeps the evaluation's recursion shallow."""
    level = [root]
    for _ in range(MAX_DEPTH):
        level = [part for node in level for part in inner(node)]
        if not level:
            return
    raise FormulaFaultError(
        "too-deep",
        f"this formula has more than {MAX_DEPTH} parts inside each other",
        "Give parts of it names of their own",
        root.start,
        root.end,
    )
