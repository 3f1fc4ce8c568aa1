"""Words that no dictionary has and that are a letter away from one that it has.

A word that is close to none is a name or a coinage, and left alone; so are words with a capital
inside a sentence, words of the pattern's own names, compounds of known words, and what is said
three times, unless a word of the trade lies beside it. The dictionary of US English is the
library's; UK spellings follow from it by rule (``craft.spellings``).
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache, lru_cache
from pathlib import Path
from string import ascii_lowercase

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.prose import Prose
from bindoff.craft.spellings import us_forms
from bindoff.diagnostics import Severity
from bindoff.kept import Shelf
from bindoff.source.model import TextUse
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.vocabulary import Vocabulary

SHELF: Shelf[bool] = Shelf(__file__, 5000, ("chunspell",))
"""Words, and whether the dictionary has them."""

_WORD = re.compile(r"(?<![\w'’&/@.#-])[A-Za-z]?[a-z]{2,}(?:['’](?:s|t|re|ll|ve|d))?(?![\w'’&/@-])")
_SENTENCES = (("summary",), ("skill",))
"""What the head has in sentences; all else there are names."""
_LEAST, _OFTEN, _MANY = 3, 3, 4
_LONG = 5  # a shorter word has so many neighbours that only
# two letters changed about, or one left out of an everyday word, tell
_TRADE_NEAR = frozenset(
    {
        "stitch", "stitches", "knit", "knits", "knitted", "knitting", "purl", "purls", "purled",
        "purling", "needle", "needles", "yarn", "yarns", "gauge", "tension", "sleeve", "sleeves",
        "shoulder", "shoulders", "marker", "markers", "round", "rounds", "repeat", "repeats",
        "decrease", "decreases", "decreased", "decreasing", "increase", "increases", "increased",
        "increasing", "stockinette", "garter", "ribbing", "cable", "cables", "crochet", "chain",
        "mitten", "mittens", "pullover", "cardigan", "blanket", "sweater", "pattern", "patterns",
        "swatch", "circular", "measure", "measurements", "circumference", "edging", "edge",
        "border", "stripe", "stripes", "stranded", "brioche", "length", "width", "finished",
        "finishing", "weave",
    }
)  # fmt: skip


@check(
    id="prose.misspelt",
    title="Words are spelled as a dictionary has them",
    looks_at="words of every text that neither the dictionary nor the trade has, in US or UK "
    "spelling, and that are one letter away from one of theirs; names are left alone",
    why="a slip of the pen in a paid pattern makes a reader doubt its figures",
    severity=Severity.WARNING,
    remedy="Correct the word; silence this where it is meant so",
    needs=Needs.SOURCE,
)
def misspelt(context: Context) -> Iterator[Finding]:
    """One finding for each word, where it stands first."""
    if not context.in_english:
        return
    knows = _knowing(context.pattern.terms)
    odd: dict[str, bool] = {}
    for word, (prose, start, end) in first_words(context).items():
        if knows(word):
            continue
        if odd.setdefault(prose.raw, _foreign(prose, knows)):
            continue
        near = _nearest(word)
        if near and (near in _TRADE_NEAR or _times(context)[word] < _OFTEN):
            written = prose.raw[start:end]
            yield Finding(
                f"`{written}` is in no dictionary, and `{near}` is close to it",
                prose.place(start, end),
                f"Write `{near}` if that is meant; silence this where the word is right",
            )


def _foreign(prose: Prose, knows: Callable[[str], bool]) -> bool:
    """Whether a text is in another language: a fourth of its words is known to nobody."""
    words = {_plainly(found[0]) for found in _words(prose)}
    unknown = sum(not knows(word) for word in words)
    return unknown >= _MANY and unknown * 4 >= len(words)


def first_words(context: Context) -> Mapping[str, tuple[Prose, int, int]]:
    """Every word that is no name, in small letters, with where it stands first: the text, its first
    and its last character."""
    own = set(_own_words(context))
    first: dict[str, tuple[Prose, int, int]] = {}
    for prose in context.prose:
        for found in _words(prose):
            if (word := _plainly(found[0])) not in own:
                first.setdefault(word, (prose, *found.span()))
    return first


def _times(context: Context) -> Counter[str]:
    return Counter(_plainly(found[0]) for prose in context.prose for found in _words(prose))


def _plainly(word: str) -> str:
    return word.lower().replace("’", "'").removesuffix("'s")


def _words(prose: Prose) -> Iterator["re.Match[str]"]:
    """Words that are no names: with a capital only where a sentence begins."""
    if prose.kind is TextUse.STITCH or (
        prose.kind is TextUse.HEAD and prose.path not in _SENTENCES
    ):
        return
    for found in _WORD.finditer(prose.text):
        word = found[0]
        if len(word) >= _LEAST and (word[0].islower() or _begins(prose.text, found.start())):
            yield found


def _begins(text: str, at: int) -> bool:
    """Whether a sentence or a line begins there."""
    before = text[max(at - 40, 0) : at].rstrip(" -*")
    return before.rstrip("'”\")")[-1:] in ("", ".", "!", "?", ":", "\n")


def _own_words(context: Context) -> Iterator[str]:
    """Words of the names that the pattern gives to things."""
    pattern = context.pattern
    names: list[str] = [pattern.designer, pattern.title, *pattern.sizes, *pattern.measures]
    names += [name for key, yarn in pattern.yarns.items() for name in (key, yarn.name, yarn.fibre)]
    names += [*pattern.pieces, *pattern.charts, *pattern.stitches, *pattern.stitch_patterns]
    for name in names:
        yield from re.findall(r"[a-z]+", name.lower())


# ---------------------------------------------------------------- the dictionary


@cache
def _knowing(terms: str) -> Callable[[str], bool]:
    """Whether a word is known, to a pattern in those terms or in the other country's."""
    vocabulary = Vocabulary(standard_book(Terms(terms)), {})

    @lru_cache(maxsize=1 << 13)
    def knows(word: str) -> bool:
        return (
            listed(word)
            or vocabulary.stitch(word) is not None
            or vocabulary.book.act(word) is not None
            or in_dictionary(word)
            or in_dictionary(f"{word}s")
            or (word.endswith("s") and word[:-1] in _listed("trade.txt"))
            or any(map(in_dictionary, us_forms(word)))
            or (_compound(word) and not _one_letter_off(word))
        )

    return knows


def listed(word: str) -> bool:
    """Whether it is a word of the trade, or an ordinary one that needs no dictionary."""
    return word in _listed("plain.txt") or word in _listed("trade.txt")


@cache
def _listed(file: str) -> frozenset[str]:
    """The words of a file beside this module; a line that starts with ``#`` is a remark."""
    text = (Path(__file__).parents[1] / "words" / file).read_text(encoding="utf-8")
    lines = (line for line in text.split("\n") if not line.startswith("#"))
    return frozenset(word for line in lines for word in line.split())


@cache
def _dictionary() -> Callable[[str], bool]:
    """The library's dictionary, loaded when a word first asks for it (50 ms)."""
    import hunspell

    spell: Callable[[str], bool] = hunspell.Hunspell("en_US").spell
    return spell


def _spelled(word: str) -> bool:
    """Whether the dictionary has it as it is; it was asked for most words in an earlier run."""
    return SHELF.get(word, lambda: _dictionary()(word))


def in_dictionary(word: str) -> bool:
    """Whether the dictionary has it, as it is or as a name."""
    return any(map(_spelled, (word, word.capitalize())))


def _compound(word: str) -> bool:
    """Whether it is two known words written as one, as ``jogless`` is."""
    return any(
        in_dictionary(word[:at]) and in_dictionary(word[at:]) for at in range(3, len(word) - 3)
    )


def _one_letter_off(word: str) -> bool:
    """Whether a long word becomes one of the dictionary by a letter more, as ``suprising`` does,
    which might else pass for two words."""
    return len(word) >= _SPELLED and any(map(_spelled, _with_one_more(word)))


_SPELLED = 8


# ---------------------------------------------------------------- what is close to it


@lru_cache(maxsize=1 << 10)
def _nearest(word: str) -> str:
    """A known word that one letter makes of it: two changed about, one too many, one left out, or
    another one, in that order; a word of the trade before others. Empty for none."""
    kinds = (
        (_swapped, _without, _with_one_more, _with_another)
        if len(word) >= _LONG
        else (_swapped, _with_one_more)
        if len(word) == _LONG - 1
        else (_swapped,)
    )
    candidates = [each for kind in kinds for each in kind(word)]
    if len(word) < _LONG:
        candidates = [each for each in candidates if listed(each)]
    of_the_trade = (each for each in candidates if each in _TRADE_NEAR)
    return next(of_the_trade, "") or next((each for each in candidates if _plain(each)), "")


def _plain(word: str) -> bool:
    if len(word) < _LEAST:
        return False
    # The dictionary is slow to say no, and has no word without a vowel.
    return listed(word) or (not _VOWELS.isdisjoint(word) and _spelled(word))


_VOWELS = frozenset("aeiouy")


def _swapped(word: str) -> Iterable[str]:
    return (f"{word[:i]}{word[i + 1]}{word[i]}{word[i + 2 :]}" for i in range(len(word) - 1))


def _without(word: str) -> Iterable[str]:
    return (word[:i] + word[i + 1 :] for i in range(len(word)))


def _with_one_more(word: str) -> Iterable[str]:
    return (word[:i] + c + word[i:] for i in range(len(word) + 1) for c in ascii_lowercase)


def _with_another(word: str) -> Iterable[str]:
    return (word[:i] + c + word[i + 1 :] for i in range(len(word)) for c in ascii_lowercase)


CHECKS = (misspelt,)
