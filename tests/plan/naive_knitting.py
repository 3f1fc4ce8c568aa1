"""A second, naive way to work a printed row: read its words, move stitches one by one.

It knows nothing of the program's grammar or arithmetic, only what a knitter reads on the page.
"""

import re

# what a stitch takes from the left needle and puts on the right one
STITCHES = {
    "k2tog": (2, 1),
    "ssk": (2, 1),
    "p2tog": (2, 1),
    "m1": (0, 1),
    "m1l": (0, 1),
    "m1r": (0, 1),
    "kfb": (1, 2),
    "yo": (0, 1),
}


class Needles:
    """Stitches still to be worked and stitches worked in this row."""

    def __init__(self, live: int) -> None:
        self.left, self.right = live, 0

    def move(self, takes: int, makes: int) -> None:
        """One stitch worked; a knitter who runs out of stitches stops with an error."""
        if takes > self.left:
            raise AssertionError(f"{takes} stitches are needed and {self.left} are left")
        self.left -= takes
        self.right += makes


def worked(sentence: str, live: int) -> int:
    """The stitches on the needles after the printed row."""
    needles = Needles(live)
    _items(needles, sentence.lower().rstrip("."))
    if needles.left:
        raise AssertionError(f"{needles.left} stitches are left over")
    return needles.right


def _items(needles: Needles, text: str) -> None:
    if repeat := re.fullmatch(r"(.*?)\*(.*); repeat from \* to end(?:, (.*))?", text):
        before, again, after = repeat.groups()
        if before:
            _items(needles, before.rstrip(", "))
        while needles.left:
            _items(needles, again)
        if after:
            _items(needles, after)
        return
    for item in _split(text):
        _item(needles, item)


def _split(text: str) -> list[str]:
    """The text cut at commas that no bracket holds."""
    items, depth = [""], 0
    for character in text:
        depth += (character == "[") - (character == "]")
        if character == "," and depth == 0:
            items.append("")
        else:
            items[-1] += character
    return [item.strip() for item in items]


def _item(needles: Needles, item: str) -> None:
    if item in ("knit", "purl", "k to end", "p to end"):
        needles.move(needles.left, needles.left)
    elif item in STITCHES:
        needles.move(*STITCHES[item])
    elif group := re.fullmatch(r"\[(.*)\] (?:(\d+) times|twice)", item):
        for _ in range(int(group[2] or 2)):
            _items(needles, group[1])
    elif plain := re.fullmatch(r"[kp](\d+)", item):
        needles.move(int(plain[1]), int(plain[1]))
    elif to_last := re.fullmatch(r"[kp] to last (?:(\d+) )?stitch(?:es)?", item):
        along = needles.left - int(to_last[1] or 1)
        needles.move(along, along)
    else:
        raise AssertionError(f"a knitter can't read {item!r}")
