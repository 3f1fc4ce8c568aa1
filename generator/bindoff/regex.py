"""The module ``re``, but an expression is compiled when it is first asked for.

Most modules name theirs where they begin. There are five hundred, and to compile them all takes as
long as a quarter of a check, which asks half of them. ``tests/test_regex.py`` compiles each.
"""

import re
from re import *  # noqa: F403
from typing import TYPE_CHECKING, Any

__all__ = list(re.__all__)

if not TYPE_CHECKING:

    def compile(pattern: str, flags: int = 0) -> "Late":
        """An expression that is compiled with the first question it is asked."""
        return Late(pattern, flags)


class Late:
    """Answers as the expression does. Functions such as ``re.sub`` don't take it."""

    def __init__(self, pattern: str, flags: int) -> None:
        self._asked = (pattern, int(flags))

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        made = re.compile(*self._asked)
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
