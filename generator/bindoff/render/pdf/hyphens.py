"""Where words of a language may be parted at a line's end."""

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

Hyphens = Callable[[str], Sequence[int]]
"""The places inside a word at which it may be parted."""

_SHORT = 7  # letters: shorter words stay whole
_LEFT, _RIGHT = 3, 3  # letters that stay on either line


@cache
def hyphens(language: str) -> Hyphens:
    """The rule of ``language``, a tag such as ``en-US``; a language without one parts no words.

    The rule is loaded with the first word that is asked for.
    """

    @cache
    def places(word: str) -> Sequence[int]:
        if not partable(word):
            return ()
        rule = _rule(language)
        return tuple(rule.positions(word)) if rule else ()

    return places


def partable(word: str) -> bool:
    """Whether a word may be parted at all; an abbreviation or the name of a stitch stays whole."""
    return len(word) >= _SHORT and word.isalpha() and word[1:].islower()


@cache
def _rule(language: str) -> Any:
    import pyphen

    name = pyphen.language_fallback(language.replace("-", "_"))
    return pyphen.Pyphen(lang=name, left=_LEFT, right=_RIGHT) if name else None
