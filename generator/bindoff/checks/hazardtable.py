"""The table of hazards: which words together harm whom, and why.

``words/hazards.txt`` has a row for each class of hazards, ``words/things.txt`` the classes of words
that its lines name. A line is a chain of words and classes, each step one of:

    <cord>  a word of a class     <cord|band>  of one of two     tie|bow  one of these words
    ~  up to ten words            ~3  up to three                !<cord>  any word but of a class
    ?  after a step: or without it
    &  between two chains: both are in the sentence, in any order

Lines that begin with ``*``, ``?`` or ``=`` are no chains: each is a regular expression of words
that are enough by themselves. Those after a ``*`` are things that are hazards wherever they stand;
those after a ``?`` mean something else too (a snap, a ribbon of waves), and those after a ``=`` are
hazards in a list alone.

No chain goes beyond a clause. What is denied in its clause or left off is no hazard, but where the
harm is in what is left undone.
"""

from collections.abc import Iterator
from functools import cache, lru_cache

from bindoff import regex as re
from bindoff.checks.classed import STOP, Classed, classed, lines_of
from bindoff.records import Record
from bindoff.source.denials import left_off

_FAR = 10  # words that ~ skips
_DENIED = re.compile(r"<[^<>|]*\|(?:[^<>|]*\|)*?never\|[^<>]*>")


class Line(Record):
    """Chains that all are in a sentence; ``asks``: of each set the sentence has a word or class."""

    chains: tuple["re.Pattern[str]", ...]
    asks: tuple[frozenset[str], ...]

    @property
    def undone(self) -> bool:
        """Whether the harm is that something is left undone."""
        return any("<never" in ask or "nothing" in ask for ask in self.asks)


class Hazard(Record):
    """A row of the table.

    ``kind`` is one of the ``hazards:`` of a pattern, for what is put on a piece; else ``use``,
    ``parts`` (that come off), ``sleep`` or ``hands`` (of the maker). ``whom`` is ``child``,
    ``infant``, ``worn`` (a child, but no toy with a face of its own) or ``maker``. ``things``,
    ``perhaps`` and ``bought`` are regular expressions for words that are enough by themselves; an
    empty one matches nothing of its own.
    """

    name: str
    kind: str
    whom: str
    harm: str
    said: tuple[Line, ...]
    safe: tuple[Line, ...]
    things: str = ""
    perhaps: str = ""
    bought: str = ""

    @property
    def put_on(self) -> bool:
        """Whether it is a thing on a piece, not what is done."""
        return self.kind not in ("use", "parts", "hands", "sleep")


# What makes words give something its shape, size or stitch: a button-shaped motif.
_SHAPE = r"(?![-–](?:shaped|like|style|sized?|stitch|dye\w*)\b)"
_SPACE = re.compile(r"(?<![-\[]) (?![-\]])")

Place = tuple[int, int]
"""Where something begins and ends in a sentence."""


@lru_cache(maxsize=1 << 11)  # several checks ask for each sentence
def hazards(words: str, names: frozenset[str] = frozenset()) -> tuple[tuple[Hazard, Place], ...]:
    """Every hazard of the table that a sentence tells of, with each place of its first chain;
    ``names`` are words that the pattern has for pieces and yarns of its own."""
    return tuple(_hazards(words, classed(words, names)))


def _hazards(words: str, sentence: Classed) -> Iterator[tuple[Hazard, Place]]:
    for row in table():
        for each in asked(row.said, sentence):
            for begin, end in _said(each, sentence):
                safe = (True for each in asked(row.safe, sentence) for _ in _said(each, sentence))
                if not left_off(words[:begin], words[end:]) and not any(safe):
                    yield row, (begin, end)


def asked(lines: tuple[Line, ...], sentence: Classed) -> Iterator[Line]:
    """The lines of which a sentence has every word or class that they ask for."""
    for each in lines:
        for ask in each.asks:
            if sentence.has.isdisjoint(ask):
                break
        else:
            yield each


def _said(said: Line, sentence: Classed) -> Iterator[Place]:
    """The places of its first chain, where all are in the sentence and none is denied."""
    first, *others = said.chains
    if all(chain.search(sentence.coded) for chain in others):
        for found in first.finditer(sentence.coded):
            clause = sentence.coded.rfind(STOP, 0, found.start()) + 1
            if said.undone or not _DENIED.search(sentence.coded, clause, found.end()):
                yield sentence.span(found)


@cache
def table() -> tuple[Hazard, ...]:
    """The rows of ``words/hazards.txt``."""
    rows: list[Hazard] = []
    for text in "\n".join(lines_of("hazards.txt")).split("== ")[1:]:
        head, *lines = text.splitlines()
        said = (line(each) for each in lines if each[0] not in "-*?=")
        chains = (each[3:] for each in lines if each.startswith("-- "))
        safe = (step for each in lines if each.startswith("- ") for step in each[2:].split())
        name, kind, whom, harm = head.split(" | ")
        things = _words(lines, "* ")
        rows.append(
            Hazard(
                name,
                kind,
                whom,
                harm,
                tuple(said),
                tuple(map(line, (*safe, *chains))),
                f"(?:{things}){_SHAPE}" if things else "",
                _words(lines, "? "),
                _words(lines, "= "),
            )
        )
    return tuple(rows)


def _words(lines: list[str], sign: str) -> str:
    """The expressions after a sign as one; their words may be hyphened (faux-fur)."""
    words = "|".join(each.removeprefix(sign) for each in lines if each.startswith(sign))
    return _SPACE.sub("[ -]", words)


def things_of(*kinds: str) -> str:
    """A regular expression for all things of these hazards, whatever a sentence does with them."""
    return "|".join(each.things for each in table() if each.kind in kinds and each.things)


def line(text: str) -> Line:
    """Chains with & between them."""
    steps = [chain.split() for chain in text.split(" & ")]
    chains = (re.compile(chain(each)) for each in text.split(" & "))
    asked = (each for chain in steps for each in chain if each[0] not in "~!" and each[-1] != "?")
    return Line(tuple(chains), tuple(map(_asks, asked)))


def _asks(step: str) -> frozenset[str]:
    sign = "<" if step.startswith("<") else ""
    return frozenset(sign + each for each in step.strip("<>").split("|"))


def chain(text: str) -> str:
    """A chain of steps as a regular expression for coded sentences."""
    return "".join(map(_expression, text.split()))


def _expression(step: str) -> str:
    bare = step.rstrip("?")
    if bare.startswith("~"):
        return rf"(?:<[^<>.]*>){{0,{bare[1:] or _FAR}}}?"
    inner = bare.strip("!<>")
    of_class = rf"<[^<>|]*\|(?:[^<>|]*\|)*?(?:{inner})\|[^<>]*>"
    if bare.startswith("!"):
        return rf"(?!{of_class})<[^<>.]*>"
    one = of_class if bare.startswith("<") else rf"<(?:{inner})\|[^<>]*>"
    return one if step == bare else f"(?:{one})?"
