"""The module ``re``, but an expression is compiled when it is first asked for, and only once.

Most modules name theirs where they begin. There are five hundred, and to compile them all takes as
long as a quarter of a check, which asks half of them. What the compiler of ``re`` makes of each,
and of those that are made up on the way, is kept for the next run, as Python keeps compiled
modules.
``tests/test_regex.py`` compiles each.
"""

import re
from array import array
from collections.abc import Callable
from functools import lru_cache, wraps
from re import *  # noqa: F403
from typing import TYPE_CHECKING, Any

from bindoff.kept import Shelf

__all__ = list(re.__all__)

_MOST_KEPT = 2000  # expressions; the program has some seven hundred, beside those made of names
_Parts = tuple[int, bytes, int, tuple[str | None, ...]]
SHELF: Shelf[_Parts] = Shelf(__file__, _MOST_KEPT)

if not TYPE_CHECKING:

    def compile(pattern: str, flags: int = 0) -> "Late":
        """An expression that is compiled with the first question it is asked."""
        return Late(pattern, flags)

    def _asked(name: str) -> Callable[..., Any]:
        """The function of ``re`` of that name, of an expression that is made or written out."""

        @wraps(getattr(re, name))
        def asked(pattern: Any, string: str, flags: int = 0) -> Any:
            return getattr(_made(pattern, flags), name)(string)

        return asked

    findall, finditer, fullmatch, match, search = map(
        _asked, ("findall", "finditer", "fullmatch", "match", "search")
    )

    @wraps(re.split)
    def split(pattern: Any, string: str, maxsplit: int = 0, flags: int = 0) -> list[Any]:
        return _made(pattern, flags).split(string, maxsplit)

    @wraps(re.sub)
    def sub(pattern: Any, repl: Any, string: str, count: int = 0, flags: int = 0) -> str:
        return _made(pattern, flags).sub(repl, string, count)

    @wraps(re.subn)
    def subn(pattern: Any, repl: Any, string: str, count: int = 0, flags: int = 0) -> Any:
        return _made(pattern, flags).subn(repl, string, count)


def _made(pattern: Any, flags: int) -> Any:
    """The expression that a text, or bytes, stands for, or that is one already."""
    if isinstance(pattern, bytes):
        return re.compile(pattern, flags)
    return compiled(pattern, int(flags)) if isinstance(pattern, str) else pattern


class Late:
    """Answers as the expression does."""

    def __init__(self, pattern: str, flags: int) -> None:
        self._asked = (pattern, int(flags))

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        made = compiled(*self._asked)
        for each in _ANSWERS:
            setattr(self, each, getattr(made, each))
        return getattr(made, name)

    def __eq__(self, other: object) -> bool:
        """The same expression, as ``found.re`` of what it found is too."""
        if not isinstance(other, Late | re.Pattern):
            return NotImplemented
        return (self.pattern, self.flags) == (other.pattern, other.flags)

    def __hash__(self) -> int:
        return hash(self.pattern)

    def __repr__(self) -> str:
        return repr(re.compile(*self._asked))


_ANSWERS = tuple(name for name in dir(re.Pattern) if not name.startswith("_"))


@lru_cache(maxsize=512)
def compiled(pattern: str, flags: int) -> Any:
    """``re.compile(pattern, flags)``, by what was kept of it in an earlier run if it was.

    There is no public way to make an expression of what the compiler made before. Where another
    Python's own way differs from that of 3.11 to 3.14, the expression is compiled anew.
    """
    try:
        import _sre  # type: ignore[import-not-found]

        all_flags, code, groups, names = SHELF.get(
            (pattern, flags), lambda: _compiled_parts(pattern, flags)
        )
        numbers = {name: number for number, name in enumerate(names) if name is not None}
        words = array("I", code).tolist()
        return _sre.compile(pattern, all_flags, words, groups, numbers, names)
    except (ImportError, AttributeError, TypeError, ValueError, RuntimeError):
        return re.compile(pattern, flags)


def _compiled_parts(pattern: str, flags: int) -> _Parts:
    """All that ``re`` makes of an expression: its flags, code, groups, and their names in turn."""
    parsed = re._parser.parse(pattern, flags)
    state = parsed.state
    names: list[str | None] = [None] * state.groups
    for name, number in state.groupdict.items():
        names[number] = name
    compiler: Any = re._compiler  # type: ignore[attr-defined]
    code = array("I", compiler._code(parsed, flags)).tobytes()
    return flags | state.flags, code, state.groups - 1, tuple(names)
