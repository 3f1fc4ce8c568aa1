"""The sentences of instructions: where each ends, and what it says.

Sayings of the trade: common practice, no source. A sentence that fits no kind wholly is prose.
"""

from collections.abc import Callable, Iterator

from bindoff import regex as re
from bindoff.draft.beginnings import cast_on, held, pick_up, take_up
from bindoff.draft.endings import bind_off, gather, leave
from bindoff.draft.fabrics import cord, each_row, even, evenly, plain
from bindoff.draft.figures import LIST
from bindoff.draft.goals import ROWS
from bindoff.draft.labelled import numbered, row_until
from bindoff.draft.labels import label_of
from bindoff.draft.repeats import again
from bindoff.draft.sayings import STITCHES, Prose, Saying

_END = re.compile(
    r"(?:(?<=[.!?])|(?<=[.!?][)\]])|(?<=sts[)\]])|(?<=stitches[)\]])|(?<=\.\.\.)|"
    r"(?<=…)) +(?=[A-Z*“\"']|\d[.)] )"
)


_NO_END = re.compile(
    r"\b(?:approx|rep|cont|beg|inc|dec|foll|alt|patt|rem|tog|st|sts|no|nos|meas|ea|incl|e\.g|"
    r"i\.e)\.$",
    re.I,
)


_GOES_ON_ROW = re.compile(
    rf"(?:\(|\[|turn\b|(?:you (?:now )?have )?{LIST} (?:sts|stitches)\b|repeat from \*|"
    rf"rep from \*)",
    re.I,
)


def sentences(text: str) -> Iterator[tuple[int, str]]:
    """Each sentence of a paragraph with the character at which it begins; a row with its label."""
    label = label_of(text)
    at, search = 0, label.end if label else 0
    while end := _END.search(text, search):
        search = end.end()
        before = text[at : end.start()]
        if _NO_END.search(before) and text[search : search + 1] != "*" and not _is_count(before):
            continue
        if at == 0 and label and _GOES_ON_ROW.match(text[search:]):
            continue
        yield at, text[at : end.start()]
        at = end.end()
        label = label_of(text[at:])
        search = at + (label.end if label else 0)
        if label:
            yield from ((at + start, each) for start, each in sentences(text[at:]))
            return
    yield at, text[at:]


def _is_count(text: str) -> bool:
    """Whether a sentence ends with a word for stitches, and not in the middle of one."""
    return bool(re.search(r"\b(?:sts|st|rem|tog|patt|alt|inc|dec)\.$", text, re.IGNORECASE))


_KINDS: tuple[Callable[[str, int], Saying | None], ...] = (
    evenly, row_until, numbered, cord, pick_up, cast_on, again, each_row, plain, even,
    held, leave, take_up,
    bind_off, gather,
)  # fmt: skip


_WORKS = re.compile(
    rf"\b(?:[kp]\d+|[kp] (?:every|each|all|to|across)|knit|purl|k2tog|ssk|yo|m1[lr]?|rep|repeat|"
    rf"(?:every|each|next|last|other|\d+) {ROWS}|increas\w+|decreas\w+|inc|dec|pick up|graft|"
    r"bind off|cast off|cast on|work (?:even|straight|\d|in(?! the r))|st st|garter|stockinette|"
    r"rib for|crank|"
    r"until\b.*\b(?:measures?|remain|rem|left|(?:cm|in|inches)|sts|stitches)|\d+ (?:sts|"
    r"stitches))\b",
    re.IGNORECASE,
)


_FORMS = re.compile(
    rf"(?:these|the last|last|this|the) (?:\w+ )?{ROWS} (?:form|forms|set|sets|make|makes|are|"
    rf"is)\b[^*\d]*$",
    re.I,
)


_ROW_ALONE = re.compile(r"(?:knit|purl|k|p)\b(?! \d)", re.IGNORECASE)


_CLAUSE = re.compile(
    r"(?:,? and then|,? then|,? and|;|,) (?=(?:knit|purl|work|crank|bind|cast|continue|cont|rep|"
    r"repeat|"
    r"pick|break|cut|draw|thread)\b)",
    re.IGNORECASE,
)


_LONGEST = 1500
"""Characters of a sentence that is read; rows of the largest size in words have half of them."""


def saying(text: str, sizes: int) -> Saying:
    """What a sentence says for so many sizes; one that is too long for any says itself."""
    if len(text) > _LONGEST:
        return Prose(text, works=True, names_stitches=False)
    said = next((each for kind in _KINDS if (each := kind(text, sizes))), None)
    if said:
        return said
    names = STITCHES.search(text) or _ROW_ALONE.match(text)
    works = _WORKS.search(text) and not _FORMS.match(text)
    return Prose(text, bool(works), bool(names))


def clauses(text: str, sizes: int) -> Iterator[tuple[int, str]]:
    """A sentence as the clauses that are understood on their own, else whole: *join, and knit 10
    rounds*. What stands before must be understood as well, or work no stitch."""
    short = len(text) <= _LONGEST and label_of(text) is None
    if short and isinstance(saying(text, sizes), Prose):
        for at in _CLAUSE.finditer(text):
            before, after = text[: at.start()], text[at.end() :]
            said = saying(before, sizes)
            idle = isinstance(said, Prose) and not said.works and not said.names_stitches
            if isinstance(saying(after, sizes), Prose) or (isinstance(said, Prose) and not idle):
                continue
            yield 0, f"{before}{at[0].rstrip()}" if idle else before
            yield at.end(), after
            return
    yield 0, text
