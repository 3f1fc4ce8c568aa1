"""The trade's precautions for children, and how a sentence undoes one.

``words/precautions.txt`` has a row for each precaution: acts that it asks for, and states that it
forbids. ``words/undoing.txt`` has the ways in which a sentence undoes it, whatever the precaution:

    waive     no need to test the seams; the seams need not be tested; never test; without testing
    weaken    test the seams only now and then, on one side only, if you like
    put off   test the seams later, once the child has played with it
    permit    the seams may gape; always let them gape; so that the child can open them
    belittle  it does not matter if a seam gapes; a seam that gapes is no danger
    neglect   a seam that gapes can wait; leave it; play on even when it gapes

A denial undoes the undoing: the seams may never gape. The first three are of acts, the others of
states. A state that is only told to happen (``befall``) takes one of the last two; where it may
happen, and no word says what is then done or why not, that permits it less plainly.

Sentences are read as ``classed.py`` codes them, and no way goes beyond a clause but the last two.
"""

from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache

from bindoff import regex as re
from bindoff.checks.classed import STOP, Classed, classed, lines_of
from bindoff.checks.hazardtable import Line, Place, asked, chain, line
from bindoff.records import Record

_STATES = ("may", "aim", "befall", "flat")
_DENYING = {"no", "not", "never", "nothing", "without"}.union(
    ("cannot", "can't", "don't", "doesn't", "won't")
)
# How many words may stand between two things that belong together: common practice, no source.
_NEAR = 6  # an act and its thing
_CLOSE = 2  # what waives an act, and the act
_GAP = 3  # what permits a state, and the state
_TAIL = 12  # an act, and what waives, weakens or puts it off after it


class State(Record):
    """How something is, and what else its sentence has; ``way`` is one of ``_STATES``.

    ``denies``: its own words have a denial.
    """

    way: str
    said: Line
    denies: bool


class Precaution(Record):
    """A row of the table: what the caution says, and what it asks for and forbids.

    An act is a line of what is done, the thing near it if any, and what else its sentence has.
    Where a sentence has anything ``safe``, it is sound.
    """

    name: str
    caution: str
    acts: tuple[Line, ...]
    states: tuple[State, ...]
    safe: tuple[Line, ...]


class Undone(Record):
    """A precaution that a sentence undoes, and where; ``permits``: it plainly allows what is
    forbidden."""

    precaution: Precaution
    place: Place
    permits: bool


@cache
def table() -> tuple[Precaution, ...]:
    """The rows of ``words/precautions.txt``."""
    return tuple(map(_row, _parts("precautions.txt")))


@cache
def _ways() -> Mapping[str, "re.Pattern[str]"]:
    """The ways of ``words/undoing.txt`` and what speaks against them, by name."""
    return {name: _any(*chains) for name, *chains in map(str.splitlines, _parts("undoing.txt"))}


def _parts(name: str) -> list[str]:
    return "\n".join(lines_of(name)).split("== ")[1:]


def _any(*chains: str) -> "re.Pattern[str]":
    return re.compile("|".join(f"(?:{chain(each)})" for each in chains))


def _row(text: str) -> Precaution:
    head, *lines = text.splitlines()
    name, caution = head.split(" | ")
    told = [each.split(" ", 1) for each in lines]
    safe = [word for kind, rest in told if kind == "-" for word in rest.split()]
    safe += [rest for kind, rest in told if kind == "--"]
    return Precaution(
        name,
        caution,
        tuple(line(rest.replace(" > ", " & ")) for kind, rest in told if kind == "ask"),
        tuple(_state(kind, rest) for kind, rest in told if kind in _STATES),
        tuple(map(line, safe)),
    )


def _state(way: str, text: str) -> State:
    denies = not _DENYING.isdisjoint(re.split(r"[ |?]", text))
    return State(way, line(text), denies)


Span = tuple[int, int]
"""The first word of something, and the one after its last."""


class _Read:
    """A coded sentence by the numbers of its words."""

    def __init__(self, sentence: Classed) -> None:
        self.sentence = sentence
        self._places = sentence.places
        self._at = {start: index for index, start in enumerate(sentence.starts)}
        self._at[len(sentence.coded)] = len(sentence.starts)
        stops = [i for i, at in enumerate(sentence.starts) if sentence.coded.startswith(STOP, at)]
        self._stops = [-1, *stops, len(sentence.starts)]
        self._found: dict[re.Pattern[str], tuple[Span, ...]] = {}

    def all_of(self, chains: Iterable["re.Pattern[str]"]) -> bool:
        """Whether each is said anywhere."""
        return all(each.search(self.sentence.coded) for each in chains)

    def spans(self, said: "re.Pattern[str]") -> tuple[Span, ...]:
        """Wherever it is said."""
        if said not in self._found:
            found = (each.span() for each in said.finditer(self.sentence.coded))
            self._found[said] = tuple((self._at[begin], self._at[end]) for begin, end in found)
        return self._found[said]

    def ways(self, name: str) -> tuple[Span, ...]:
        """Wherever it is said in this way."""
        return self.spans(_ways()[name])

    def has(self, name: str, begin: int, end: int) -> bool:
        """Whether it is said in this way between two words."""
        return any(begin <= each[0] < end for each in self.ways(name))

    def clause(self, span: Span) -> Span:
        """The clause around the first word of something."""
        after = next(stop for stop in self._stops if stop > span[0])
        return self._stops[self._stops.index(after) - 1] + 1, after

    def denied(self, begin: int, end: int, *but: Span) -> bool:
        """Whether words deny something, but for some of them."""
        return any(
            begin <= each[0] < end and not any(a <= each[0] < b for a, b in but)
            for each in self.ways("denial")
        )

    def acts(self, act: Line) -> Iterator[tuple[Span, Span]]:
        """What is done and its thing near each other, in either order, in one clause."""
        first, *others = act.chains
        for done in self.spans(first):
            if not others:
                yield done, done
                continue
            begin, end = self.clause(done)
            for thing in self.spans(others[0]):
                apart = max(done[0] - thing[1], thing[0] - done[1])
                if begin <= thing[0] and thing[1] <= end and done != thing and apart <= _NEAR:
                    yield done, thing

    def place(self, span: Span) -> Place:
        """Where words stand in the sentence."""
        return self._places[span[0]][0], self._places[span[1] - 1][1]


@lru_cache(maxsize=1 << 10)  # an edit leaves most sentences what they were
def undone(words: str, names: frozenset[str] = frozenset()) -> tuple[Undone, ...]:
    """Every precaution that a sentence undoes, once; ``names`` are the pattern's own."""
    sentence = _Read(classed(words.replace("’", "'"), names))
    found = (next(_of_row(row, sentence), None) for row in table())
    return tuple(each for each in found if each and not _safe(each.precaution, sentence))


def _safe(row: Precaution, sentence: _Read) -> bool:
    return any(sentence.all_of(each.chains) for each in asked(row.safe, sentence.sentence))


def _of_row(row: Precaution, sentence: _Read) -> Iterator[Undone]:
    for state in row.states:
        for said in asked((state.said,), sentence.sentence):
            for at in sentence.spans(said.chains[0]) if sentence.all_of(said.chains) else ():
                if span := _permitted(state, at, sentence):
                    yield Undone(row, sentence.place(span), permits=True)
                elif state.way == "befall" and _may_happen(at, sentence):
                    yield Undone(row, sentence.place(at), permits=False)
    for act in asked(row.acts, sentence.sentence):
        for done, thing in sentence.acts(act) if sentence.all_of(act.chains[2:]) else ():
            if span := _waived(done, thing, sentence):
                yield Undone(row, sentence.place(span), permits=False)


def _waived(done: Span, thing: Span, sentence: _Read) -> Span | None:
    """An act with what waives, weakens or puts it off, if anything does."""
    begin, end = sentence.clause(done)
    first, last = min(done[0], thing[0]), max(done[1], thing[1])
    before = next(_before(done, last, sentence), None)
    if before:
        return min(before[0], first), last
    denied = sentence.denied(begin, last)
    ways = {"waived after": last, "weakened": done[0] - _CLOSE, "put off": last - 1}
    if denied or sentence.has("before", begin, end):
        del ways["put off"]
    if denied:
        del ways["weakened"]
    for way, least in ways.items():
        for each in sentence.ways(way):
            near = max(begin, least) <= each[0] < min(end, last + _TAIL)
            if near and not sentence.denied(begin, each[0]):
                return min(first, each[0]), max(last, each[1])
    return None


def _before(done: Span, last: int, sentence: _Read) -> Iterator[Span]:
    """What waives an act before it, or says that it is left undone."""
    begin, end = sentence.clause(done)
    too_soon = sentence.has("before", last, end) and not sentence.has("given", last, end)
    for way, gap in (("waived", _CLOSE), ("never", 0), ("without", 1)):
        if way == "never" and too_soon:
            continue
        for each in sentence.ways(way):
            until = end if way == "without" else each[0]
            near = begin <= each[0] and 0 <= done[0] - each[1] <= gap
            if near and not sentence.denied(begin, until, each):
                yield each


def _permitted(state: State, at: Span, sentence: _Read) -> Span | None:
    """A state with what permits it or makes nothing of it, if anything does."""
    begin, end = sentence.clause(at)
    own = (at,) if state.denies else ()
    denied = sentence.denied(begin, at[1], *own)
    if state.way == "flat":
        return None if denied else at
    ways = [*sentence.ways("belittled")]
    if state.way == "befall":
        ways += sentence.ways("neglected")
    elif sentence.ways("restricted") or sentence.ways("heeded"):
        return None
    elif not denied:
        near = sentence.ways("let") + (sentence.ways("permitted") if state.way == "may" else ())
        ways += (each for each in near if begin <= each[0] and 0 <= at[0] - each[1] <= _GAP)
    for each in ways:
        clauses = ((begin, end), sentence.clause(each))
        if not any(sentence.denied(*clause, each, *own) for clause in clauses):
            return min(each[0], at[0]), max(each[1], at[1])
    return None


def _may_happen(at: Span, sentence: _Read) -> bool:
    """Whether a state may come about, with no word of the harm or of what is then done."""
    allowed = sentence.has("may", *at) and not sentence.ways("harm")
    return allowed and not sentence.denied(*sentence.clause(at))
