"""The nouns of the trade that name a part of a piece or a thing that is added to it.

Nouns that mean something else as often (back, front, side, tail, point) are not here: a text that
says them says nothing certain.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

from bindoff import regex as re
from bindoff.records import Record

# The words by which a title or a summary tells what is made; common practice, no source.
_KINDS: Mapping[str, str] = {
    "hat": r"hat|cap|beanie|bonnet|toque|tam|beret|helmet|headband|balaclava|hood",
    "sock": r"sock|stocking|slipper|bootee|bootie|legwarmer|leg[- ]?warmer|anklet",
    "mitten": r"mitten|mitt|glove|wrister|wrist ?warmer|warmer|gauntlet|armwarmer",
    "top": r"pullover|sweater|jumper|gansey|cardigan|jacket|coat|tunic|dress|tee|shirt|poncho"
    r"|bolero|romper|cape",
    "vest": r"vest|waistcoat|slipover",
    "shawl": r"shawl|shawlette|kerchief|wrap|stole|scarf|cowl|snood|collar|ruff|neckwarmer"
    r"|bandana",
    "flat": r"blanket|afghan|throw|cloth|rug|mat|placemat|runner|potholder|coaster|bookmark"
    r"|bunting|cosy|curtain|square|strip|flannel|washcloth",
    "cushion": r"cushion|pillow|pouffe",
    "bag": r"bag|pouch|purse|tote|satchel|sack|case",
    "toy": r"toy|doll|seal|gull|bear|rabbit|whale|fish|animal|ball|rattle|puppet|softie|cat|dog"
    r"|mouse|pup",
}


class Noun(Record):
    """A noun in any of its forms, and the kinds of pieces that have it as a matter of course.

    ``added`` says that it is put on a piece, and counts with or without an article.
    """

    word: str
    forms: "re.Pattern[str]"
    kinds: frozenset[str]
    added: bool


def noun_of(said: str) -> Noun:
    """The noun that words of a text are, as ``any_noun`` finds them."""
    return _nouns()[_bare(said)]


@cache
def any_noun() -> "re.Pattern[str]":
    """Any noun of the list, in one number or the other; its group is the noun for one."""
    words = sorted((word for noun in _lines() for word in noun[0]), key=len, reverse=True)
    return re.compile(rf"(?<![\w-])({'|'.join(map(_spelled, words))})(?:s|es)?(?![\w-])", re.I)


@cache
def _nouns() -> Mapping[str, Noun]:
    """Every noun, by each of its words without spaces."""
    found: dict[str, Noun] = {}
    for words, kinds, added in _lines():
        forms = "|".join(f"{_spelled(each)}(?:s|es)?" for each in words)
        noun = Noun(words[0], re.compile(rf"(?<![\w-])(?:{forms})(?!\w)", re.I), kinds, added)
        found |= {_bare(word): noun for word in words}
    return found


@cache
def _lines() -> tuple[tuple[tuple[str, ...], frozenset[str], bool], ...]:
    """The lines of words/nouns.txt: words for one thing, the kinds that have it, and whether it is
    added."""
    text = (Path(__file__).parents[2] / "words" / "nouns.txt").read_text(encoding="utf-8")
    found = []
    for line in text.splitlines():
        if not line.startswith("#"):
            words, _, kinds = line.partition("\t")
            names = tuple(words.lstrip("+").split(","))
            found.append((names, frozenset(kinds.split()), words.startswith("+")))
    return tuple(found)


def _bare(word: str) -> str:
    return re.sub(r"[- ]", "", word.lower())


def _spelled(word: str) -> str:
    return re.escape(word).replace(r"\ ", r"[- ]?")


def kinds_of(words: str) -> Iterator[str]:
    """The kinds of pieces that words name."""
    for found in _any_kind().finditer(words):
        yield found.lastgroup or ""


@cache
def _any_kind() -> "re.Pattern[str]":
    kinds = "|".join(f"(?P<{kind}>{named})" for kind, named in _KINDS.items())
    return re.compile(rf"\b(?:{kinds})(?:s|es)?\b", re.IGNORECASE)
