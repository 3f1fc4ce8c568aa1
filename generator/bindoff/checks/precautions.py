"""The trade's precautions for children, and how a sentence undoes one.

``words/precautions.txt`` has a row for each precaution: acts that it asks for, and states that it
forbids. A sentence undoes it in one of these ways, whatever the precaution:

    waive     no need to test the seams; the seams need not be tested; never test; without testing
    weaken    test the seams only now and then, on one side only, if you like
    postpone  test the seams later, once the child has played with it
    permit    the seams may gape; let them gape; always leave them open; so that the child can …
    belittle  it does not matter if a seam gapes; a seam that gapes is no danger
    neglect   a seam that gapes can wait; leave it; play on even when it gapes

A denial undoes the undoing: never skip the test; the seams may never gape. The first three are of
acts, the others of states. Where ``it may gape`` only tells what happens (``befall``), it takes one
of the last two to make nothing of it.

Sentences are read as ``classed.py`` codes them. No way goes beyond a clause but what belittles.
"""

from collections.abc import Iterator, Sequence
from functools import cache, lru_cache

from bindoff import regex as re
from bindoff.checks.classed import STOP, Classed, classed, lines_of
from bindoff.checks.hazardtable import Place, chain
from bindoff.records import Record

_NEAR = 6  # words between an act and its thing, or between an act and what undoes it after it
_CLOSE = 2  # words between what undoes and the act or state that it stands before
_GAP = 3  # words between what permits a state and the state
_TAIL = 12  # words after an act in which it may be weakened or put off


class Act(Record):
    """What is done, the thing near it, and what else its sentence has."""

    done: "re.Pattern[str]"
    thing: "re.Pattern[str]"
    more: "re.Pattern[str] | None"


class State(Record):
    """How something is, with what else its sentence has; ``way`` is may, befall or flat."""

    way: str
    said: "re.Pattern[str]"
    more: "re.Pattern[str] | None"


class Precaution(Record):
    """A row of the table: what the caution says, and what it asks for and forbids."""

    name: str
    caution: str
    acts: tuple[Act, ...]
    states: tuple[State, ...]
    safe: "re.Pattern[str] | None"


class Undone(Record):
    """A precaution that a sentence undoes, and where; ``permits``: it allows what is forbidden."""

    precaution: Precaution
    place: Place
    permits: bool


def _any(*chains: str) -> "re.Pattern[str]":
    return re.compile("|".join(f"(?:{chain(each)})" for each in chains))


_DENIAL = _any("<never>", "nobody|rarely|seldom|hardly|scarcely|doesn't|aren't|wasn't|wouldn't")
_WAIVED = _any(
    "no|little|never|any|hardly ~1 need|reason|point|call|cause|use|necessity|sense ~1 to|for|of|in",
    "needn't",
    "need|needs not",
    "don't|doesn't|not need|have|needs|has ~1 to?",
    "nobody|nothing|none has|have|need|needs to?",
    "no one has|needs|need to?",
    "not|hardly|never necessary|needed|required|worth|essential|important ~1 to|for?",
    "unnecessary|needless|superfluous|pointless|useless|optional ~1 to|for",
    "don't|not|never bother|trouble|worry|fuss ~1 to|with|about|over|for|by?",
    "<save> yourself|yourselves ~3 of?",
    "can|may|could|might safely? skip|omit|spare|forgo|forget|dispense|leave ~1 out|with?",
    "can|may|could do without",
    "<never> mind",
    "without",
    "stop|cease|quit",
    "instead of",
    "too much trouble to",
)
_NEVER = _any("never|don't", "do not")
_WAIVED_AFTER = _any(
    "not|hardly|scarcely|never|isn't|aren't ~1 necessary|needed|required|worth|essential|called",
    "unnecessary|needless|superfluous|pointless|optional",
    "waste of",
    "can|may|could ~1 be ~1 skipped|omitted|spared|forgotten|dropped|left out?",
    "need|needs no|not",
    "<makes> no difference",
    "no use|need|point|sense",
    "can|may wait",
)
_WEAKENED = _any(
    "only|just ~1 now|occasionally|seldom|rarely|sometimes|once",
    "now and then|again",
    "from time to time",
    "once in ~1 while",
    "<seldom>",
    "if|as|when you like|wish|want|feel|care|please|remember|fancy|find|have ~1 time?",
    "one ~1 side|end|sole|foot|half ~1 only|alone",
    "only|just ~2 one|half|some|few",
    "some of",
    "loosely|lightly|barely|carelessly|roughly|sparingly|half-heartedly",
    "every ~1 few|two|three|five|ten|other? years|months|year",
    "in|after ~1 year or|and? two?",
)
_PUT_OFF = _any(
    "later",
    "when|once|after ~3 <child> ~2 <to-wear|to-use|woken|awake>",
    "when|once|after|until ~4 worn|used|given|lost|swallowed|wakes|woken",
    "only after|when|once ~4 <loose-state>",
)
_PERMITTED = _any(
    "may|can|could",
    "allowed|free|welcome|safe|fine|right|okay|able ~1 to|for",
    "let|lets|allow|allows ~3",
    "enough ~1 to|for|that",
    "always",
    "meant|made|intended to|for",
    "likes|like|loves|love to",
    "so that ~2 <child> ~1 can|may|could",
    "so ~2 <child> ~1 can|may|could",
    "for ~2 <child> to",
)
_BELITTLED = _any(
    "doesn't|not|don't|never matter|mind",
    "no matter",
    "no|little|any|nothing ~1 harm|danger|risk|cause|importance|consequence|concern|difference",
    "no|little reason to|for ~1 worry|stop|alarm|fear",
    "<never> mind",
    "nothing|not|don't|needn't to? worry|fear|fret",
    "is|are|seems <harmless>",
    "is|are|seems quite|perfectly|very|all|also|just|still <harmless>",
    "all ~1 right",
    "sleep|sleeps ~1 best with",
    "will|would do",
    "all the same",
)
_NEGLECTED = _any(
    "can|may|could wait|stay|remain",
    "need|needs not|no|never",
    "needn't",
    "leave|let it|them|this ~1 be|as|alone|on|like|go",
    "as it|they is|are",
    "no reason to",
    "let ~2 <child> ~2 go|play|keep|have|wear",
    "give|hand ~2 back",
    "<to-use> ~6 even|although|though ~1 if|when|after|where|while",
    "can|may ~2 be ~1 left",
)
_BEFORE = _any("before|until|unless|again")
_RESTRICTED = _any("only|unless|watched|watch|supervised|awake|until|beside|adults")
_WARNED = _any("<firm>", "swallow|swallowed|choke|strangle|strangles|chokes|catch|catches|trap|winds")


@cache
def table() -> tuple[Precaution, ...]:
    """The rows of ``words/precautions.txt``."""
    return tuple(_rows("\n".join(lines_of("precautions.txt")).split("== ")[1:]))


def _rows(texts: Sequence[str]) -> Iterator[Precaution]:
    for text in texts:
        head, *lines = text.splitlines()
        name, caution = head.split(" | ")
        told = [line.split(" ", 1) for line in lines]
        safe = [word for kind, rest in told if kind == "-" for word in rest.split()]
        safe += [rest for kind, rest in told if kind == "--"]
        yield Precaution(
            name,
            caution,
            tuple(_act(rest) for kind, rest in told if kind == "ask"),
            tuple(_state(kind, rest) for kind, rest in told if kind in ("may", "befall", "flat")),
            _any(*safe) if safe else None,
        )


def _act(text: str) -> Act:
    done, thing, *more = map(_any, text.split(" > "))
    return Act(done, thing, more[0] if more else None)


def _state(way: str, text: str) -> State:
    said, *more = map(_any, text.split(" & "))
    return State(way, said, more[0] if more else None)


@lru_cache(maxsize=1 << 10)  # an edit leaves most sentences what they were
def undone(words: str, names: frozenset[str] = frozenset()) -> tuple[Undone, ...]:
    """Every precaution that a sentence undoes, once; ``names`` are the pattern's own."""
    sentence = _Read(classed(words.replace("’", "'"), names))
    found = (next(_of_row(row, sentence), None) for row in table())
    return tuple(each for each in found if each)


def _of_row(row: Precaution, sentence: "_Read") -> Iterator[Undone]:
    if row.safe and row.safe.search(sentence.coded):
        return
    for state in row.states:
        if state.more is None or state.more.search(sentence.coded):
            for at in sentence.spans(state.said):
                if span := _permitted(state.way, at, sentence):
                    yield Undone(row, sentence.place(span), permits=True)
    for act in row.acts:
        if act.more is None or act.more.search(sentence.coded):
            for at in sentence.pairs(act.done, act.thing):
                if span := _waived(at, sentence):
                    yield Undone(row, sentence.place(span), permits=False)


Span = tuple[int, int]
"""The first word of something, and the one after its last."""


class _Read:
    """A coded sentence by the numbers of its words."""

    def __init__(self, sentence: Classed) -> None:
        self.coded = sentence.coded
        self._sentence = sentence
        self._at = {start: index for index, start in enumerate(sentence.starts)}
        self._at[len(self.coded)] = len(sentence.starts)
        stops = [i for i, at in enumerate(sentence.starts) if self.coded.startswith(STOP, at)]
        self._stops = [-1, *stops, len(sentence.starts)]
        self._found: dict[re.Pattern[str], tuple[Span, ...]] = {}

    def spans(self, said: "re.Pattern[str]") -> tuple[Span, ...]:
        """Wherever it is said."""
        if said not in self._found:
            found = (each.span() for each in said.finditer(self.coded))
            self._found[said] = tuple((self._at[begin], self._at[end]) for begin, end in found)
        return self._found[said]

    def pairs(self, one: "re.Pattern[str]", other: "re.Pattern[str]") -> Iterator[tuple[Span, Span]]:
        """Both near each other, in either order, in one clause."""
        for a in self.spans(one):
            begin, end = self.clause(a)
            for b in self.spans(other):
                apart = max(a[0] - b[1], b[0] - a[1])
                if begin <= b[0] and b[1] <= end and 0 <= apart <= _NEAR:
                    yield a, b

    def clause(self, span: Span) -> Span:
        """The clause around the first word of something."""
        after = next(stop for stop in self._stops if stop > span[0])
        return self._stops[self._stops.index(after) - 1] + 1, after

    def denied(self, begin: int, end: int, *but: Span) -> bool:
        """Whether words deny something, but for those of what undoes it."""
        return any(
            begin <= each[0] < end and not any(a <= each[0] < b for a, b in but)
            for each in self.spans(_DENIAL)
        )

    def place(self, span: Span) -> Place:
        """Where words stand in the sentence."""
        places = self._sentence.places
        return places[span[0]][0], places[span[1] - 1][1]


def _waived(act: tuple[Span, Span], sentence: _Read) -> Span | None:
    """An act with what waives, weakens or postpones it, if anything does."""
    done, thing = act
    begin, end = sentence.clause(done)
    first, last = min(done[0], thing[0]), max(done[1], thing[1])
    for each in sentence.spans(_WAIVED):
        if begin <= each[0] and 0 <= done[0] - each[1] <= _CLOSE:
            if not sentence.denied(begin, each[0]):
                return min(each[0], first), last
    for each in sentence.spans(_NEVER):
        if begin <= each[0] and 0 <= done[0] - each[1] <= 1:
            if not any(last <= at[0] < end for at in sentence.spans(_BEFORE)):
                return each[0], last
    for each in sentence.spans(_WAIVED_AFTER):
        if last <= each[0] < min(end, last + _NEAR) and not sentence.denied(begin, each[0]):
            return first, each[1]
    if sentence.denied(begin, last):
        return None
    for each in sentence.spans(_WEAKENED):
        if done[0] - 2 <= each[0] < min(end, last + _TAIL) and not sentence.denied(begin, each[0]):
            return min(first, each[0]), max(last, each[1])
    for each in sentence.spans(_PUT_OFF):
        again = any(begin <= at[0] < end for at in sentence.spans(_BEFORE))
        if last <= each[0] < min(end, last + _TAIL) and not again:
            return first, each[1]
    return None


def _permitted(way: str, state: Span, sentence: _Read) -> Span | None:
    """A state with what permits it or makes nothing of it, if anything does."""
    if sentence.spans(_RESTRICTED) and way != "flat":
        return None
    begin, end = sentence.clause(state)
    if way == "flat":
        return None if sentence.denied(begin, state[1]) else state
    ways = [*sentence.spans(_BELITTLED)]
    if way == "may":
        near = sentence.spans(_PERMITTED)
        ways += (each for each in near if begin <= each[0] and 0 <= state[0] - each[1] <= _GAP)
    else:
        ways += sentence.spans(_NEGLECTED)
    for each in ways:
        if not sentence.denied(begin, end, each) and not sentence.denied(
            *sentence.clause(each), each
        ):
            return min(each[0], state[0]), max(each[1], state[1])
    return None
