"""Sentences in words and the classes of them that ``words/things.txt`` has.

A word is read in each of its forms, and a name of several words with spaces, hyphens or neither. A
name that only gives a stitch, a colour or a shape its own (bell sleeve, rice stitch) is of none of
its classes.
"""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence, Set
from functools import cache
from itertools import accumulate, pairwise
from pathlib import Path
from typing import NamedTuple

from bindoff import regex as re
from bindoff.records import Record

STOP = "<.|>"
"""The code of what ends a clause."""

_TOKEN = re.compile(r"\d+(?:\.\d+)?|[^\W\d_]+(?:['’][^\W\d_]+)?|[.;:!?,()½]")
_JOINTS = ("", " ", "-")
_MOST_WORDS = 4  # of a name
_STOPS = frozenset(".;:!?")
_ARTICLES = ("the", "a", "an", "each", "every", "both", "all", "next", "one")
_NUMBERS: Sequence[str] = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen", "twenty",
)  # fmt: skip
_CM = {"cm": 1.0, "mm": 0.1, "m": 100.0, "in": 2.54, "inch": 2.54, "inches": 2.54}
# Classes of numbers and lengths: common practice, no source.
_FEW = 3  # stitches that hold nothing
_MANY = 8  # stitches of a float that a finger catches in
_MID_CM = 4.0  # a loop that a finger or toe goes through
_LONG_CM = 20.0  # a loop or end that goes around a small neck


class Classed(Record):
    """A sentence whose words are coded as ``<word|class|class|>``; ``has`` all words and, with a
    ``<`` before them, all classes in it."""

    coded: str
    starts: tuple[int, ...]
    places: tuple[tuple[int, int], ...]
    has: frozenset[str]

    def span(self, found: "re.Match[str]") -> tuple[int, int]:
        """Where in the sentence something is that was found in its code."""
        first = bisect_right(self.starts, found.start()) - 1
        last = bisect_right(self.starts, found.end() - 1) - 1
        return self.places[first][0], self.places[last][1]


def classed(words: str, names: Set[str] = frozenset()) -> Classed:
    """A sentence with the classes of its words; ``names`` of the pattern's own have none."""
    tokens = _tokens(words)
    coded: list[str] = []
    places: list[tuple[int, int]] = []
    has: set[str] = set()
    at = 0
    while at < len(tokens):
        word, kinds, size = _word(tokens, at, names)
        has.add(word)
        has.update(f"<{kind}" for kind in kinds)
        coded.append(STOP if word in _STOPS else f"<{'|'.join((word, *sorted(kinds)))}|>")
        places.append((tokens[at].begin, tokens[at + size - 1].end))
        at += size
    starts = (0, *accumulate(map(len, coded)))
    return Classed("".join(coded), starts[:-1], tuple(places), frozenset(has))


class _Token(NamedTuple):
    """A word in small letters, where it stands, whether it is written large, and whether no more
    than a space or a hyphen parts it from the next."""

    word: str
    begin: int
    end: int
    large: bool
    joined: bool


def _tokens(words: str) -> list[_Token]:
    found = [*_TOKEN.finditer(words)]
    joined = (words[a.end() : b.start()] in _JOINTS for a, b in pairwise(found))
    return [
        _Token(each[0].lower(), *each.span(), each[0].istitle(), near)
        for each, near in zip(found, (*joined, False), strict=False)
    ]


def _word(tokens: Sequence[_Token], at: int, names: Set[str]) -> tuple[str, frozenset[str], int]:
    """The longest known name at a place, its classes, and of how many words it is."""
    known = _lexicon()
    word, size, named = tokens[at].word, 1, ""
    for so_many, token in enumerate(tokens[at : at + _MOST_WORDS], 1):
        named += token.word
        if named in known.classes:
            word, size = named, so_many
        if not token.joined:
            break
    kinds = known.classes.get(word, frozenset())
    of_place = tokens[at].large and at > 0 and tokens[at - 1].word not in _STOPS
    last, after = at + size - 1, at + size
    follows = _head(tokens, after) if tokens[last].joined else ""
    if word in names or of_place or "stitchy" in known.classes.get(follows, ()):
        kinds &= known.kept
    if size == 1 and (value := _value(word)) is not None:
        unit, beyond = (tokens[at + n].word if at + n < len(tokens) else "" for n in (1, 2))
        if unit in _CM and not (unit == "in" and beyond in _ARTICLES):
            return word, kinds | {*_of_length(value * _CM[unit])}, 2
        return word, kinds | {*_of_number(value)}, 1
    return word, kinds, size


def _head(tokens: Sequence[_Token], at: int) -> str:
    """The word that makes a name of the one before; none where it is what that one does."""
    word, then = (tokens[at + n].word if at + n < len(tokens) else "" for n in (0, 1))
    return "" if then in _ARTICLES else word


def _value(word: str) -> float | None:
    if word in _NUMBERS:
        return float(_NUMBERS.index(word))
    return float(word) if word[0].isdigit() else None


def _of_length(cm: float) -> Iterator[str]:
    yield "length"
    yield from (
        name for name, least in (("mid-length", _MID_CM), ("long-length", _LONG_CM)) if cm >= least
    )


def _of_number(value: float) -> Iterator[str]:
    yield "number"
    if value <= _FEW:
        yield "few"
    if value >= _MANY:
        yield "many"


class _Lexicon(Record):
    """The classes of every form of every word; names of several words are written as one. What
    gives a stitch its name keeps those ``kept``: how and what is done."""

    classes: Mapping[str, frozenset[str]]
    kept: frozenset[str]


@cache
def _lexicon() -> _Lexicon:
    found: dict[str, set[str]] = {}
    kept: set[str] = set()
    for line in lines_of("things.txt"):
        head, _, words = line.partition(":")
        kinds = head.strip("*").split()
        done = kinds[0].startswith("to-")
        if done or head.startswith("*"):
            kept.update(kinds)
        for word in words.split():
            for form in _verbs(word) if done else _nouns(word):
                found.setdefault(form, set()).update(kinds)
    classes = {word: frozenset(kinds) for word, kinds in found.items()}
    return _Lexicon(classes, frozenset(kept))


def lines_of(name: str) -> Iterator[str]:
    """The lines of a list in ``words/``, without its comments."""
    text = (Path(__file__).parent / "words" / name).read_text(encoding="utf-8")
    return (line for line in text.splitlines() if line.strip() and not line.startswith("#"))


def _nouns(word: str) -> Iterator[str]:
    """A noun and its plural; after ``=`` as it is."""
    joined = word.replace("-", "")
    if joined.startswith("="):
        yield joined[1:]
        return
    yield from (joined, joined + "s", joined + "es")
    if _turns(joined):
        yield joined[:-1] + "ies"
    if joined.endswith("f"):
        yield joined[:-1] + "ves"


def _verbs(word: str) -> Iterator[str]:
    """A verb in its forms; those that are irregular follow after slashes."""
    base, *others = word.replace("-", "").split("/")
    yield from (base, base + "s", base + "es", *others)
    if base.endswith("e"):
        yield from (base + "d", base[:-1] + "ing")
    elif _turns(base):
        yield from (base[:-1] + "ies", base[:-1] + "ied", base + "ing")
    else:
        twice = base + base[-1]
        yield from (base + "ed", base + "ing", twice + "ed", twice + "ing")


def _turns(word: str) -> bool:
    """Whether its y turns into ie."""
    return word.endswith("y") and word[-2:-1] not in "aeiou"
