"""Where words of a language may be parted at a line's end."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache

Hyphens = Callable[[str], Sequence[int]]
"""The places inside a word at which it may be parted."""

_SHORT = 7  # letters: shorter words stay whole
_LEFT, _RIGHT = 3, 3  # letters that stay on either line
_NO_FIGURES = str.maketrans("", "", "0123456789")


@cache
def hyphens(language: str) -> Hyphens:
    """The rule of ``language``, a tag such as ``en-US``; a language without one parts no words.

    Its patterns are loaded with the first word that is asked for.
    """

    @cache
    def places(word: str) -> Sequence[int]:
        if not partable(word):
            return ()
        last = len(word) - _RIGHT
        return tuple(at for at in _parted(word.lower(), _patterns(language)) if _LEFT <= at <= last)

    return places


def partable(word: str) -> bool:
    """Whether a word may be parted at all; an abbreviation or the name of a stitch stays whole."""
    return len(word) >= _SHORT and word.isalpha() and word[1:].islower()


def _parted(word: str, patterns: Mapping[str, str]) -> Iterator[int]:
    """The places that the patterns allow: where the highest figure of all that fit is odd.

    The way of F. M. Liang, Word Hy-phen-a-tion by Com-put-er, Stanford 1983.
    """
    shown = f".{word}."
    highest = [0] * (len(shown) + 1)
    for start in range(len(shown)):
        for stop in range(start + 1, len(shown) + 1):
            at = start
            for sign in patterns.get(shown[start:stop], ""):
                if sign.isdecimal():
                    highest[at] = max(highest[at], int(sign))
                else:
                    at += 1
    return (at - 1 for at, figure in enumerate(highest) if figure % 2)


@cache
def _patterns(language: str) -> Mapping[str, str]:
    """The patterns of a language by their letters; none where it has none.

    Each stays a text until a word meets it: to read ten thousand takes as long as to set a page.
    """
    import pyphen

    name = pyphen.language_fallback(language.replace("-", "_"))
    if not name:
        return {}
    encoding, _, data = pyphen.LANGUAGES[name].read_bytes().partition(b"\n")
    text = data.decode(encoding.decode().strip())
    if "=" in text:  # how a word is spelled where it is parted: not what we ask
        text = re.sub("/.*=.*", "", text)
    written = [line.strip() for line in text.split("\n")]
    letters = "\n".join(written).translate(_NO_FIGURES).split("\n")
    return dict(zip(letters, written, strict=True))
