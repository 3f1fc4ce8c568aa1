"""Advice on larger and smaller needles, against what it is meant to mend or to make."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.sentencesof import TOLD, Sentence, sentences_of
from bindoff.diagnostics import Severity

_TOOL = r"(?:needles?|hooks?)"
_LARGER = re.compile(
    rf"\b(?:larger|bigger|thicker)(?: \w+)? {_TOOL}\b|\b{_TOOL} (?:\w+ )?(?:\w+ )?sizes? "
    rf"(?:larger|bigger|thicker|up)\b"
    rf"|\b{_TOOL} (?:is|are) (?:larger|bigger|thicker) than\b|\bgo(?:ing)? up (?:a|one|two|half "
    rf"a) ?(?:needle )?sizes?\b",
    re.IGNORECASE,
)
_SMALLER = re.compile(
    rf"\b(?:smaller|finer|thinner)(?: \w+)? {_TOOL}\b|\b{_TOOL} (?:\w+ )?(?:\w+ )?sizes? "
    rf"(?:smaller|finer|thinner|down)\b"
    rf"|\b{_TOOL} (?:is|are) (?:smaller|finer|thinner) than\b|\bgo(?:ing)? down (?:a|one|two|half "
    rf"a) ?(?:needle )?sizes?\b",
    re.IGNORECASE,
)
_MM = re.compile(
    rf"\b(?:to|use|take|try) (?:a |the )?(\d(?:\.\d+)?) ?mm (?:\w+ )?{_TOOL}\b", re.IGNORECASE
)
_IF = r"\b(?:if|when|should|where|whenever|with)\b[^.;]*?"
_TOO_MANY = re.compile(
    rf"{_IF}\b(?:more|too many)\b(?: than \d+)?[^.;,]{{0,12}}\b(?:stitches|sts)\b|\btoo many "
    rf"stitches\b"
    rf"|{_IF}\b(?:too (?:tight(?:ly)?|small|narrow|dense|firm)|tight(?:ly)? knitter|knit (?:very "
    rf")?tightly|comes? out (?:too )?(?:small|narrow)\w*)\b"
    r"|\btight knitters?\b",
    re.IGNORECASE,
)
_TOO_FEW = re.compile(
    rf"{_IF}\b(?:fewer|less|too few|not enough)\b(?: than \d+)?[^.;,]{{0,12}}\b(?:stitches|sts)\b"
    rf"|\btoo few stitches\b"
    rf"|{_IF}\b(?:too (?:loose(?:ly)?|large|big|wide|open|floppy)|loose(?:ly)? knitter|knit "
    rf"(?:very )?loosely|comes? out (?:too )?(?:large|big|wide)\w*)\b"
    r"|\bloose knitters?\b",
    re.IGNORECASE,
)
_COMES_OUT = re.compile(
    r"\b(?:comes?|turns?|measures?|works?)(?: out)?(?: at| to)?(?: only| about)? (\d+(?:\.\d+)?) "
    r"?(cm|in)\b",
    re.IGNORECASE,
)
_IS_LONG = re.compile(
    r"\b(?:is|are|measures?|be) (?:about )?(\d+(?:\.\d+)?) ?(cm|in)\b", re.IGNORECASE
)
_LOOSE_EDGE = re.compile(
    r"\b(?:cast|bind|bound)[ -](?:on|off)\b[^.;]*\b(?:so that|so|to keep|to make|for|which)\b[^.;]*"
    r"\b(?:stretch\w*|loose\w*|elastic|give)\b",
    re.IGNORECASE,
)
_FIRM = re.compile(
    r"\b(?:so that|purpose|because|which makes|this makes|for|to (?:make|get|keep"
    r"|give))\b[^.;]*\b(?:firm|dense|tight|stiff|sturdy|solid|close)\b"
    r"(?: \w+)? (?:fabric|knitting|sole|cloth|stuff)",
    re.IGNORECASE,
)
_NOT = re.compile(r"\b(?:not|never|don['’]t|without|rather|no|instead|nor)\b", re.IGNORECASE)
_CLAUSE = re.compile(r"[^;]+")


@check(
    id="prose.swatch",
    title="Larger needles mend too many stitches, smaller ones too few",
    looks_at="advice on larger and smaller needles, or on a size in mm against that of the gauge, "
    "beside what is too many, too tight or too small, and the edge or the fabric that is to be "
    "loose or firm",
    why="the knitter who follows it is farther off than before",
    severity=Severity.WARNING,
    remedy="Exchange larger and smaller, or more and fewer",
    needs=Needs.SOURCE,
)
def needles_advised(context: Context) -> Iterator[Finding]:
    """One finding for each sentence."""
    if not context.in_english:
        return
    gauge = re.search(r"(\d+(?:\.\d+)?) ?mm", context.pattern.gauge.tool or "")
    mm = float(gauge[1]) if gauge else 0.0
    for prose in context.prose:
        if prose.kind in TOLD and re.search(_TOOL + r"|size", prose.text):
            told = tuple(sentences_of(prose))
            for index, sentence in enumerate(told):
                yield from _advice(sentence, told[: index + 2], mm)


def _advice(sentence: Sentence, told: Sequence[Sentence], mm: float) -> Iterator[Finding]:
    following = told[-1] if told[-1] is not sentence else None
    for clause in _CLAUSE.finditer(sentence.words):
        words = clause[0]
        larger = {True for _ in _LARGER.finditer(words)} | {False for _ in _SMALLER.finditer(words)}
        larger |= {float(f[1]) > mm for f in _MM.finditer(words) if mm and float(f[1]) != mm}
        if len(larger) != 1 or _NOT.search(words):
            continue
        wanted = set(_wanted(words, sentence, told))
        if following and re.match(r"\W*(?:This|It|That)\b", following.words) and not wanted:
            wanted = set(_made(following.words))
        if wanted and wanted.isdisjoint(larger):
            found = next(
                each
                for pattern in (_LARGER, _SMALLER, _MM)
                for each in pattern.finditer(sentence.words)
                if clause.start() <= each.start() < clause.end()
            )
            other = "smaller" if True in larger else "larger"
            yield Finding(
                f"`{found[0]}` stands here, and what is told needs {other} needles",
                sentence.place(found),
            )


def _wanted(words: str, sentence: Sentence, told: Sequence[Sentence]) -> Iterator[bool]:
    """Whether larger needles are wanted, for each reason that a clause gives."""
    many, few = _TOO_MANY.search(words), _TOO_FEW.search(words)
    if many:
        yield True
    if few:
        yield False
    if _LOOSE_EDGE.search(words):
        yield True
    yield from _made(words)
    out = _COMES_OUT.search(words)
    if out and not many and not few and re.search(r"\b(?:if|when|should)\b", words, re.IGNORECASE):
        before = " ".join(each.words for each in told if each.start < sentence.start)
        lengths = [float(each[1]) for each in _IS_LONG.finditer(before) if each[2] == out[2]]
        near = [each for each in lengths if 0.75 < float(out[1]) / each < 1.33]
        if len(set(near)) == 1 and near[0] != float(out[1]):
            yield float(out[1]) < near[0]


def _made(words: str) -> Iterator[bool]:
    """Whether larger needles make the fabric that a clause is after."""
    if _FIRM.search(words):
        yield False


CHECKS = (needles_advised,)
