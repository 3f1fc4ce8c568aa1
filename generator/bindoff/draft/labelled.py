"""Rows under their labels, worked as an earlier one, or until so much is knitted.

Sayings of the trade: common practice, no source.
"""

from bindoff import regex as re
from bindoff.draft.figures import LIST, UNIT
from bindoff.draft.goals import ROWS, goal_said
from bindoff.draft.labels import label_of
from bindoff.draft.sayings import STITCHES, LikeRow, NumberedRow, RowUntil, Saying

_LIKE = re.compile(
    rf"(?:work(?:ed)? )?(?:as|same as|rep|repeat|like)(?: for| in)? (?:{ROWS} |r)(\d{{1,3}})"
    r"(?P<count>[ ,.;:—–(\[-]*[^*]{0,60}?(?:sts|stitches)\b[^*]{0,30})?\.?$",
    re.IGNORECASE,
)


def numbered(text: str, sizes: int) -> Saying | None:
    """A row under its label."""
    label = label_of(text)
    if label is None:
        return None
    row = text[label.end :]
    like = _LIKE.match(row)
    if like and label.numbers and not label.fills:
        return LikeRow(
            label.numbers, int(like[1]), (like["count"] or "").strip(" .,"), label.written
        )
    return NumberedRow(label.numbers, row, label.side, label.fills, label.written, label.named)


_UNTIL = re.compile(
    rf",? (?=(?:until|till?|for) )(?P<goal>(?:until|till?|for (?:another )?{LIST} ?(?:{UNIT}|"
    rf"{ROWS}))\b.*)$",
    re.IGNORECASE,
)


def row_until(text: str, sizes: int) -> Saying | None:
    """A row, with a label or without, that says itself how long it is worked."""
    label = label_of(text)
    bare = text[label.end :] if label else text
    found = _UNTIL.search(bare)
    goal = goal_said(found["goal"], sizes) if found else None
    row = bare[: found.start()] if found else ""
    if goal is None or not STITCHES.search(row) or (label and len(label.numbers) > 1):
        return None
    return RowUntil(
        re.sub(r"(?i)^(?:work|rep(?:eat)?) (?=[*(\[])", "", row),
        goal,
        label.written if label else "",
    )
