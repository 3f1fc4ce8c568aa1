"""Sentences by which rows, or numbered steps, are worked again.

Sayings of the trade: common practice, no source.
"""

from bindoff import regex as re
from bindoff.draft.figures import LIST, counts
from bindoff.draft.goals import ROWS, MoreOften, RowsInAll, TimesInAll, goal_said, in_digits
from bindoff.draft.labels import numbers_of
from bindoff.draft.sayings import Again, Saying, StepsAgain

_REPEAT = r"(?:then )?(?:rep|repeat|work)(?:\.|ing)?"


_N_OF_ROWS = (
    r"\d{1,3}(?:\s?(?:-|–|—|to|through|and|&|,)\s?(?:(?:rows?|rnds?|rounds?|r)\s?)?\d{1,3})*"
)


_AGAIN = re.compile(
    rf"{_REPEAT} (?:(?:them|it|this|these) (?=for|until|til|once|twice|\d+ (?:more )?times)|"
    rf"(?:(?:these|the last|the|last|this|the previous|above|the above)\b ?)?"
    rf"(?P<many>\d{{1,2}})? ?{ROWS}(?: above)?,? )(?P<goal>.+)",
    re.IGNORECASE,
)


_AGAIN_NUMBERED = re.compile(
    rf"{_REPEAT} (?:from )?(?:{ROWS} ?|r)(?P<numbers>{_N_OF_ROWS})"
    rf"(?: (?:of|in|from) (?:the )?(?P<of>[a-z][a-z' ’-]{{2,40}}?))?,? (?P<goal>(?:for|until|til|"
    rf"\d|once|twice|a |again).*)",
    re.IGNORECASE,
)


_AGAIN_NAMED = re.compile(
    rf"{_REPEAT} (?:the )?(?P<named>dec(?:rease)?|inc(?:rease)?)\.? {ROWS} (?:on )?every "
    rf"(?:(?:following |foll )?(?P<every>\d{{1,2}})(?:st|nd|rd|th) ?{ROWS}?|(?P<other>other|"
    rf"alt(?:ernate)?) {ROWS}) "
    r"(?P<goal>.+)",
    re.IGNORECASE,
)


_MORE_OF_SAME = re.compile(
    rf"(?:(?:work|rep|repeat)|knit(?=.*(?:same|like|as set|"
    rf"in ))) (?P<n>{LIST}) more {ROWS}(?: (?:the same|in the same way|like this"
    r"|as set|in patt(?:ern)?|in rib(?:bing)?))?\.?$",
    re.IGNORECASE,
)


_STEPS_AGAIN = re.compile(
    r"(?:rep|repeat) steps? (?P<first>\d{1,2}) ?(?:to|-|–|"
    r"through) ?(?P<last>\d{1,2}),? (?P<goal>.+)",
    re.I,
)


def again(text: str, sizes: int) -> Saying | None:
    """Rows or steps worked again."""
    text = in_digits(text)
    if found := _STEPS_AGAIN.match(text):
        steps_goal = goal_said(found["goal"], sizes)
        if isinstance(steps_goal, MoreOften) and len(steps_goal.values) == 1:
            return StepsAgain(int(found["first"]), int(found["last"]), steps_goal.values[0])
        return None
    if found := _MORE_OF_SAME.match(text):
        more = counts(found["n"], sizes)
        return Again(1, (), MoreOften(more)) if more else None
    if found := _AGAIN_NAMED.match(text):
        goal = goal_said(found["goal"], sizes)
        every = 2 if found["other"] else int(found["every"])
        named = found["named"].lower()[:3]
        return Again(1, (), goal, named=named, every=every) if isinstance(goal, MoreOften) else None
    for words in (_AGAIN_NUMBERED, _AGAIN):
        found = words.match(text)
        goal = goal_said(found["goal"], sizes) if found else None
        if found is None or goal is None or isinstance(goal, RowsInAll):
            continue
        if isinstance(goal, TimesInAll) and text[:3].lower() == "rep":
            goal = MoreOften(goal.values)
        said = found.groupdict()
        many, numbers = said.get("many"), _numbers(said.get("numbers") or "")
        if numbers is None:
            return None
        return Again(int(many) if many else None, numbers, goal, (said.get("of") or "").strip())
    return None


def _numbers(said: str) -> tuple[int, ...] | None:
    bare = re.sub(r"(?i)\s*(?:rows?|rnds?|rounds?|r)\s?(?=\d)", " ", said)
    return numbers_of(bare) if said else ()
