"""Sentences that undo a precaution for a child: what it forbids is permitted, what it asks for is
waived."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.hazardwords import own_words
from bindoff.checks.precautions import Undone, undone
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.diagnostics import Severity

_OF_CHILD = re.compile(
    r"\b(?:child(?:ren)?|bab(?:y|ies)|infants?|newborns?|toddlers?|kids?"
    r"|(?:little|small) (?:ones?|hands|fingers))\b",
    re.IGNORECASE,
)


@check(
    id="wearer.permitted",
    title="No text permits what the cautions for a child forbid",
    looks_at="sentences of patterns for a child or an infant that allow, belittle or leave as it "
    "is what the cautions forbid: parts and seams that come open, cords that hang or are worn at "
    "play, anything loose where a baby sleeps or over a face, a child alone with it, smooth soles "
    "on stairs, pins that stay in, needles and small things within reach, small parts under three, "
    "loose threads inside, flames",
    why="a caution that the next sentence takes back protects nobody",
    severity=Severity.ERROR,
    remedy="Say what the caution says; silence this with the reason where the words mean something "
    "harmless",
    needs=Needs.SOURCE,
)
def cautions_stand(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    if _for_child(context):
        for sentence, found in _undone(context):
            first = next((each for each in found if each.permits), None)
            if first:
                yield _finding(sentence, first)


@check(
    id="wearer.waived",
    title="No text waives a precaution for a child",
    looks_at="sentences of patterns for a child or an infant, and those about children in any "
    "pattern, in which a precaution is not needed, never taken, taken only now and then, on one "
    "side or too late: pulling at what is sewn on, mending, shortening cords, taking off for sleep "
    "and play, watching, non-slip soles, counting pins, keeping out of reach, telling of small "
    "parts, weaving in; and in a pattern for adults alone what is permitted to children",
    why="each is taken so that a child does not choke, strangle, fall or burn",
    severity=Severity.WARNING,
    remedy="Ask for it plainly, or leave the sentence out",
    needs=Needs.SOURCE,
)
def precautions_taken(context: Context) -> Iterator[Finding]:
    """One finding for each sentence in which nothing is permitted as well."""
    for sentence, found in _undone(context):
        permits = _for_child(context) and any(each.permits for each in found)
        if not permits:
            yield _finding(sentence, found[0])


def _for_child(context: Context) -> bool:
    return not {"child", "infant"}.isdisjoint(context.pattern.wearer)


def _undone(context: Context) -> Iterator[tuple[Sentence, tuple[Undone, ...]]]:
    """Sentences that undo a precaution: of a pattern for a child, or about one."""
    own, for_child = own_words(context), _for_child(context)
    for sentence in sentences(context):
        if for_child or _OF_CHILD.search(sentence.words):
            found = undone(sentence.words, own)
            if found:
                yield sentence, found


def _finding(sentence: Sentence, found: Undone) -> Finding:
    begin, end = found.place
    return Finding(
        f"`{sentence.words[begin:end]}` undoes a precaution: {found.precaution.caution}",
        sentence.part(begin, end),
    )


CHECKS = (cautions_stand, precautions_taken)
