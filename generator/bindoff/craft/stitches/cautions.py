"""Words of the trade that rows do not read: too vague, of two meanings, or no stitch at all.

Each says what to write for it, so that no other word is guessed. Meanings: common practice, no
source.
"""

from bindoff.craft.entry import Caution

_LIFT = "Say which, such as m1l, m1r, kfb or yo: they differ in the fabric"
_JOIN = "Say which, such as k2tog, ssk or p2tog: they lean differently"
_LOOPS = "Say how many loops it has, and purl as many together in the row after it: nupp5 and p5tog"
_BACK = "Write `wyib` after a slipped stitch, as in `sl1 wyib`"
_FRONT = "Write `wyif` after a slipped stitch, as in `sl1 wyif`, or `yo` to make a stitch"
_FIGURES = "Write the number in figures"

CAUTIONS = (
    Caution("inc", "`inc` does not say which increase", _LIFT),
    Caution("increase", "`increase` does not say which increase", _LIFT),
    Caution("dec", "`dec` does not say which decrease", _JOIN),
    Caution("decrease", "`decrease` does not say which decrease", _JOIN),
    Caution("tog", "`tog` does not say which stitches are worked together", _JOIN),
    Caution(
        "k1b",
        "`k1b` can mean two stitches",
        "Write `k1 below` to knit into the stitch below, or `k1 tbl` to knit through the back loop",
    ),
    Caution(
        "p1b",
        "`p1b` can mean two stitches",
        "Write `p1 below` to purl into the stitch below, or `p1 tbl` to purl through the back loop",
    ),
    Caution("wf", "`wf` brings the yarn to the front, and may make a stitch or not", _FRONT),
    Caution("yf", "`yf` brings the yarn to the front, and may make a stitch or not", _FRONT),
    Caution("wft", "`wft` brings the yarn to the front, and may make a stitch or not", _FRONT),
    Caution("wb", "`wb` takes the yarn to the back", _BACK),
    Caution("yb", "`yb` takes the yarn to the back", _BACK),
    Caution("ybk", "`ybk` takes the yarn to the back", _BACK),
    Caution(
        "yarn",
        "`yarn` alone is not a stitch",
        "Write `yo` to make a stitch, or name the yarn as in `k2 in slate`",
    ),
    Caution("nupp", "`nupp` does not say how many loops it has", _LOOPS),
    Caution(
        "bor",
        "`BOR` is the beginning of the round, not a stitch",
        "Leave it out: a row always starts there; write `sm` where its marker is slipped",
    ),
    Caution(
        "eor",
        "`EOR` can mean the end of the row or every other row",
        "Write `to end`, or give the rows in between",
    ),
    Caution("and", "`and` joins two parts of a row", "Write a comma instead of `and`"),
    Caution("then", "`then` joins two parts of a row", "Write a comma instead of `then`"),
    Caution("patt", "`patt` does not say what is worked", "Write the stitches of the pattern"),
    Caution("two", "`two` is a number in words", _FIGURES),
    Caution("three", "`three` is a number in words", _FIGURES),
    Caution("four", "`four` is a number in words", _FIGURES),
    Caution("five", "`five` is a number in words", _FIGURES),
    Caution("six", "`six` is a number in words", _FIGURES),
    Caution("seven", "`seven` is a number in words", _FIGURES),
    Caution("eight", "`eight` is a number in words", _FIGURES),
    Caution("nine", "`nine` is a number in words", _FIGURES),
    Caution("ten", "`ten` is a number in words", _FIGURES),
)
