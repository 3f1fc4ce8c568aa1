"""Sentences on what may hurt a child: all that permit, and what is not said to be firm."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.queries.sentence import Doubt, Told
from bindoff.checks.texts.told.truths import phrase

_HARM = phrase(
    r"\b(?:asleep|sleep\w*|unattended|(?:up to|over|near) the (?:chin|face|mouth|nose)"
    r"|in(?:to)? (?:the|his|her|its|their) mouths?"
    r"|(?:straps?|cords?|ties|strings?|ribbons?|loops?)\b[^.;]{0,40}?\ba?round (?:the|a) neck)\b"
)
_AGAINST = phrase(
    r"\b(?:not|never|no(?! longer)|nobody|only|nothing|without|before|take \w+ off|keep|away|out of"
    r"|remove|undo|supervis\w*|watch\w*|firmly|strong\w*|secure\w*|below|safe|may|can|could|might"
    r"|would)\b|n['’]t\b"
)
_CLAUSE = re.compile(r"[^,:;]+")
_SEWN = phrase(r"\b(?:sew|attach|fasten|fix|stitch)(?:n|ed)?\b[^.;]{0,40}?\b(on|to)\b")
_SMALL = phrase(r"\b(?:buttons?|beads?|pompoms?|toggles?|bells?|eyes)\b")
_FIRM = phrase(
    r"\b(?:firm\w*|strong\w*|secur\w*|tight\w*|several times|double\w*|thread|cannot|safe\w*)\b"
    r"|n['’]t\b"
)
_TIGHT = phrase(r"\b(?:firmly|tightly|tight)\b")
_EASY = phrase(r"\b(?:not|no|too|if|don['’]t|never)\b")


def harms_doubted(told: Told) -> Iterator[Doubt]:
    """Sleep, mouth, face and neck of a child in a clause that speaks against nothing; small
    things that are sewn on a child's piece, unless firmly."""
    of_child = {"child", "infant"} & set(told.context.pattern.wearer)
    if not of_child and "child" not in told.words.lower():
        return
    for clause in _CLAUSE.finditer(told.words):
        for found in _HARM.finditer(clause[0]) if not _AGAINST.search(clause[0]) else ():
            start, end = found.span()
            yield Doubt(clause.start() + start, clause.start() + end, "this may hurt a child")
    sewn = _SEWN.search(told.words)
    if sewn and _SMALL.search(told.words) and not _FIRM.search(told.words):
        yield Doubt(*sewn.span(), "nothing says how firmly")


def edges_doubted(told: Told) -> Iterator[Doubt]:
    """An edge that is cast on or bound off tightly: it stretches no more."""
    if told.scene.prose.path[-1] != "how" or _EASY.search(told.words):
        return
    for found in _TIGHT.finditer(told.words):
        yield Doubt(*found.span(), "a tight edge doesn't stretch")
