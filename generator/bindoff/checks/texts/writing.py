"""Slips of writing in the designer's texts."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.diagnostics import Severity
from bindoff.source.model import TextUse

UNFINISHED = re.compile(
    r"\b(?:TODO|TBD|TBC|FIXME|XXX+|(?-i:TK+))\b|(?<!\w)_{2,}(?!\w)|\?\?+"
    r"|(?<![\w-])xx(?= (?:st|ro|rn|cm|mm|in|yd|ball|g\b|m\b))"
    r"|(?<![\w-])(?-i:XX)(?= (?:st|ro|rn|cm|mm|in\b|yd|ball|k?g\b|m\b|times|hours|days))"
    r"|(?<=\d\s\()(?:xx+|\?)(?=[,)])|(?<=,\s)(?:xx+|\?)(?=[,)])|(?<![\w-])xx+(?=\s\(\d)"
    r"|\blorem ipsum\b|\[(?:insert|add|check)\b[^\]]*\]",
    re.IGNORECASE,
)
# What `bindoff new` writes for the designer to replace (templates/start/).
DRAFTS: Mapping[str, str] = {
    "designer": "Your name",
    "contact": "you@example.com",
    "summary": "Say here in a sentence or two what it is",
}
_DOUBLED = re.compile(r"\b([A-Za-z]{2,})\s+\1\b", re.IGNORECASE)
_MAY_DOUBLE = {"that", "had"}
_STOCKINETTE = {"St st", "st st"}  # two words that are shortened alike
_LIST_MARK = re.compile(r"^[ \t]*\w{1,2}\)", re.MULTILINE)


@check(
    id="prose.unfinished",
    title="No text is unfinished",
    looks_at="marks such as TODO, TBD, TK, ___, ?? or [insert …] in every text of the "
    "designer's, and what `bindoff new` writes for the designer to replace",
    why="a note to oneself gets printed, and what it stood for is missing",
    severity=Severity.WARNING,
    remedy="Write what is missing, or take the mark out",
    needs=Needs.SOURCE,
)
def unfinished(context: Context) -> Iterator[Finding]:
    """One finding for each mark."""
    for prose in context.prose:
        for found, place in prose.found(UNFINISHED):
            yield Finding(f"`{found[0]}` is left in the text", place)
    for key, draft in DRAFTS.items():
        at = getattr(context.pattern, key).lower().find(draft.lower())
        if at >= 0:
            yield Finding(
                f"`{draft}` is what a new pattern begins with",
                context.pattern.place.of(key).part(at, at + len(draft)),
                f"Write your own `{key}:`",
            )


@check(
    id="prose.doubled",
    title="No word stands twice",
    looks_at="a word after itself in every text of the designer's",
    why="a reader stumbles, and a voice reads it twice",
    severity=Severity.WARNING,
    remedy="Take one of the two out",
    needs=Needs.SOURCE,
)
def doubled(context: Context) -> Iterator[Finding]:
    """One finding for each word."""
    for prose in context.prose:
        for found, place in prose.found(_DOUBLED):
            if found[1].lower() not in _MAY_DOUBLE and found[0] not in _STOCKINETTE:
                yield Finding(f"`{found[1]}` stands twice", place)


@check(
    id="prose.brackets",
    title="Brackets are closed",
    looks_at="round and square brackets in every text of the designer's",
    why="sizes and repeats stand in brackets: one that is not closed changes what they hold",
    severity=Severity.WARNING,
    remedy="Close the bracket, or take it out",
    needs=Needs.SOURCE,
)
def brackets_closed(context: Context) -> Iterator[Finding]:
    """One finding for each text."""
    for prose in context.prose:
        text = _LIST_MARK.sub(lambda mark: " " * len(mark[0]), prose.text)
        at = _unmatched(text)
        if at is not None:
            yield Finding(f"the bracket `{text[at]}` has no partner", prose.place(at, at + 1))
        for start, end in _unstarred(prose.text) if context.in_english else ():
            yield Finding(
                "nothing before it has an asterisk",
                prose.place(start, end),
                "Put an asterisk where the repeat begins",
            )


_FROM_STAR = re.compile(r"\b(?:repeat|rep)\.? from (?:the )?\*", re.IGNORECASE)
_ROW_BEGINS = re.compile(r"\b(?:rows?|rounds?|rnds?) \d+[^:.]{0,30}:|(?<=[.])\s", re.IGNORECASE)


def _unstarred(text: str) -> Iterator[tuple[int, int]]:
    """Where something is repeated from an asterisk that its row does not have."""
    for found in _FROM_STAR.finditer(text):
        begins = [each.end() for each in _ROW_BEGINS.finditer(text, 0, found.start())]
        if "*" not in text[begins[-1] if begins else 0 : found.start()]:
            yield found.span()


def _unmatched(text: str) -> int | None:
    partner = {")": "(", "]": "["}
    waiting: list[int] = []
    for at, character in enumerate(text):
        if character in "([":
            waiting.append(at)
        elif character in partner and (not waiting or text[waiting.pop()] != partner[character]):
            return at
    return waiting[-1] if waiting else None


_ENDED = re.compile(r"[.!?:;…)\]”\"'’*`\ufffc]\s*$")
_LISTED = re.compile(r"\n- |\n[^\n:]{1,60}: [^\n]*\d[^\n]*$")
"""A list, or figures each on a line behind its name, ends in no full stop."""
_LEAST_WORDS = 4


@check(
    id="prose.ended",
    title="Sentences are ended",
    looks_at="the last sentence of texts and steps of four words or more, where all others end in "
    "a full stop",
    why="a sentence that breaks off lost what came after",
    severity=Severity.NOTE,
    remedy="Finish the sentence, or end it with a full stop",
    needs=Needs.SOURCE,
)
def ended(context: Context) -> Iterator[Finding]:
    """One finding, where one text alone has no end and three or more have."""
    kinds = (TextUse.TEXT, TextUse.STEP, TextUse.HEAD)
    told = [
        prose
        for prose in context.prose
        if prose.kind in kinds
        and prose.path[-1:] != ("how",)
        and len(prose.raw.split()) >= _LEAST_WORDS
        and not _LISTED.search(prose.raw)
    ]
    broken = [prose for prose in told if not _ENDED.search(prose.text)]
    if len(broken) == 1 and len(told) > _LEAST_WORDS - 1:
        end = len(broken[0].text.rstrip())
        last = broken[0].text.split()[-1]
        yield Finding(f"the text breaks off after `{last}`", broken[0].place(end - len(last), end))


CHECKS = (unfinished, doubled, brackets_closed, ended)
