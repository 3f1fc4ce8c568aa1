"""The entries of the standard stitch book.

Names and stitch changes: the Craft Yarn Council's master list of abbreviations, from memory;
US and UK crochet names: common practice. The how-to sentences are our own.
"""

from functools import cache

from bindoff.craft.book import Act, Craft, Lean, Stitch, StitchBook, Wording

LEFT, RIGHT, CENTRED = Lean.LEFT, Lean.RIGHT, Lean.CENTRED


@cache
def standard_book() -> StitchBook:
    """The book every pattern starts from."""
    return StitchBook.of(_knitting() + _crochet(), _acts())


def _knit(
    id: str,
    change: tuple[int, int],
    name: str,
    how_to: str,
    *,
    lean: Lean | None = None,
    takes: tuple[str, ...] = (),
    aliases: tuple[str, ...] = (),
    loops: int = 1,
    spoken: str = "",
    abbreviation: str = "",
    counted: bool = False,
    uk_name: str = "",
) -> Stitch:
    """A knitting stitch, abbreviated the same in US and UK terms."""
    short = abbreviation or id
    written = short + "{n}" if counted else short
    us, uk = (Wording(short, full, written, spoken or full) for full in (name, uk_name or name))
    return Stitch(
        id,
        change[0],
        change[1],
        us,
        uk,
        how_to,
        lean=lean,
        takes=takes,
        aliases=aliases,
        loops=loops,
    )


def _knitting() -> tuple[Stitch, ...]:
    tbl = ("tbl",)
    return (
        _knit(
            "k",
            (1, 1),
            "knit",
            "With the yarn at the back, bring a new loop to the front through the stitch.",
            takes=tbl,
            aliases=("knit",),
            spoken="knit {n}",
            counted=True,
        ),
        _knit(
            "p",
            (1, 1),
            "purl",
            "With the yarn at the front, push a new loop to the back through the stitch.",
            takes=tbl,
            aliases=("purl",),
            spoken="purl {n}",
            counted=True,
        ),
        _knit(
            "sl",
            (1, 1),
            "slip",
            "Move the stitch to the right needle unworked; unless told otherwise purlwise, with "
            "the yarn at the back.",
            takes=("purlwise", "knitwise", "wyib", "wyif"),
            aliases=("slip",),
            spoken="slip {n}",
            loops=0,
            counted=True,
        ),
        _knit(
            "k2tog",
            (2, 1),
            "knit 2 together",
            "Knit the next two stitches as if they were one.",
            lean=RIGHT,
            takes=tbl,
        ),
        _knit(
            "k3tog",
            (3, 1),
            "knit 3 together",
            "Knit the next three stitches as if they were one.",
            lean=RIGHT,
            takes=tbl,
        ),
        _knit(
            "p2tog",
            (2, 1),
            "purl 2 together",
            "Purl the next two stitches as if they were one.",
            lean=RIGHT,
            takes=tbl,
        ),
        _knit(
            "p3tog",
            (3, 1),
            "purl 3 together",
            "Purl the next three stitches as if they were one.",
            lean=RIGHT,
            takes=tbl,
        ),
        _knit(
            "ssk",
            (2, 1),
            "slip, slip, knit",
            "Slip two stitches knitwise one after the other, then knit both together through the "
            "back of their loops.",
            lean=LEFT,
            spoken="slip 2 one at a time and knit them together",
        ),
        _knit(
            "ssp",
            (2, 1),
            "slip, slip, purl",
            "Slip two stitches knitwise one after the other, move them back, and purl both "
            "together through the back of their loops.",
            lean=LEFT,
            spoken="slip 2 one at a time and purl them together",
        ),
        _knit(
            "sssk",
            (3, 1),
            "slip, slip, slip, knit",
            "Slip three stitches knitwise one after the other, then knit them together through "
            "the back of their loops.",
            lean=LEFT,
            spoken="slip 3 one at a time and knit them together",
        ),
        _knit(
            "skp",
            (2, 1),
            "slip 1, knit 1, pass slipped stitch over",
            "Slip one stitch knitwise, knit the next, and lift the slipped stitch over it.",
            lean=LEFT,
            aliases=("skpo",),
            spoken="slip 1 and pass it over knit 1",
        ),
        _knit(
            "sk2p",
            (3, 1),
            "slip 1, knit 2 together, pass slipped stitch over",
            "Slip one stitch knitwise, knit two together, and lift the slipped stitch over.",
            lean=LEFT,
            spoken="slip 1 and pass it over knit 2 together",
        ),
        _knit(
            "s2kp",
            (3, 1),
            "slip 2 together, knit 1, pass slipped stitches over",
            "Slip two stitches knitwise at once, knit the next, and lift both slipped stitches "
            "over it.",
            lean=CENTRED,
            aliases=("s2kp2",),
            spoken="slip 2 at once and pass them over knit 1",
        ),
        _knit(
            "cdd",
            (3, 1),
            "centered double decrease",
            "Slip two stitches knitwise at once, knit the next, and lift both slipped stitches "
            "over it; the middle stitch ends on top.",
            lean=CENTRED,
            uk_name="centred double decrease",
        ),
        _knit(
            "psso",
            (0, -1),
            "pass slipped stitch over",
            "Lift the stitch slipped before over the one just worked and off the needle.",
            loops=0,
        ),
        _knit(
            "p2sso",
            (0, -2),
            "pass 2 slipped stitches over",
            "Lift the two stitches slipped before over the one just worked and off the needle.",
            loops=0,
        ),
        _knit(
            "yo",
            (0, 1),
            "yarn over",
            "Lay the yarn over the right needle from front to back, which leaves a hole.",
            aliases=("yfwd", "yrn", "yon"),
        ),
        _knit(
            "byo",
            (0, 1),
            "backward yarn over",
            "Lay the yarn over the right needle from back to front, which leaves a hole.",
        ),
        _knit(
            "m1",
            (0, 1),
            "make 1",
            "Lift the strand before the next stitch onto the left needle and knit it twisted.",
            abbreviation="M1",
        ),
        _knit(
            "m1l",
            (0, 1),
            "make 1 left",
            "Lift the strand before the next stitch from front to back and knit through its back.",
            lean=LEFT,
            abbreviation="M1L",
        ),
        _knit(
            "m1r",
            (0, 1),
            "make 1 right",
            "Lift the strand before the next stitch from back to front and knit through its front.",
            lean=RIGHT,
            abbreviation="M1R",
        ),
        _knit(
            "m1p",
            (0, 1),
            "make 1 purlwise",
            "Lift the strand before the next stitch onto the left needle and purl it twisted.",
            abbreviation="M1P",
        ),
        _knit(
            "kfb",
            (1, 2),
            "knit front and back",
            "Knit the stitch, keep it on the left needle, and knit it again through its back.",
            spoken="knit into the front and back",
            loops=2,
        ),
        _knit(
            "pfb",
            (1, 2),
            "purl front and back",
            "Purl the stitch, keep it on the left needle, and purl it again through its back.",
            spoken="purl into the front and back",
            loops=2,
        ),
        _knit(
            "mb",
            (1, 1),
            "make bobble",
            "Work the bobble as the notes say, ending with the single stitch you began with.",
            abbreviation="MB",
            loops=5,
        ),
    )


def _hook(
    id: str,
    uk: str,
    change: tuple[int, int],
    us_name: str,
    uk_name: str,
    how_to: str,
    *,
    aliases: tuple[str, ...] = (),
    loops: int = 1,
    counted: bool = False,
) -> Stitch:
    """A crochet stitch; ``id`` is its US abbreviation, ``uk`` the British one."""

    def wording(short: str, name: str) -> Wording:
        number = " {n}" if counted else ""
        return Wording(short, name, short + number, name + number)

    return Stitch(
        id.lower(),
        change[0],
        change[1],
        wording(id, us_name),
        wording(uk, uk_name),
        how_to,
        craft=Craft.CROCHET,
        aliases=aliases,
        loops=loops,
    )


def _crochet() -> tuple[Stitch, ...]:
    pull = "Put the hook in and draw up a loop"
    wrap = "Catch the yarn {}, put the hook in and draw up a loop, then draw the yarn through two"
    return (
        _hook(
            "ch",
            "ch",
            (0, 0),
            "chain",
            "chain",
            "Catch the yarn and draw it through the loop on the hook.",
            counted=True,
        ),
        _hook(
            "sl st",
            "sl st",
            (1, 1),
            "slip stitch",
            "slip stitch",
            "Put the hook in, catch the yarn, and draw it through all loops on the hook.",
        ),
        _hook(
            "sc",
            "dc",
            (1, 1),
            "single crochet",
            "double crochet",
            f"{pull}, then draw the yarn through both loops.",
        ),
        _hook(
            "hdc",
            "htr",
            (1, 1),
            "half double crochet",
            "half treble crochet",
            "Catch the yarn once, put the hook in and draw up a loop, then draw the yarn through "
            "all three loops.",
        ),
        _hook(
            "dc",
            "tr",
            (1, 1),
            "double crochet",
            "treble crochet",
            wrap.format("once") + " loops twice.",
        ),
        _hook(
            "tr",
            "dtr",
            (1, 1),
            "treble crochet",
            "double treble crochet",
            wrap.format("twice") + " loops three times.",
        ),
        _hook(
            "dtr",
            "trtr",
            (1, 1),
            "double treble crochet",
            "triple treble crochet",
            wrap.format("three times") + " loops four times.",
        ),
        _hook(
            "trtr",
            "qtr",
            (1, 1),
            "triple treble crochet",
            "quadruple treble crochet",
            wrap.format("four times") + " loops five times.",
        ),
        _hook(
            "sc2tog",
            "dc2tog",
            (2, 1),
            "single crochet 2 together",
            "double crochet 2 together",
            "Draw up a loop in each of the next two stitches, then draw the yarn through all "
            "three loops.",
        ),
        _hook(
            "hdc2tog",
            "htr2tog",
            (2, 1),
            "half double crochet 2 together",
            "half treble crochet 2 together",
            "Catch the yarn and draw up a loop in each of the next two stitches, then draw the "
            "yarn through all loops.",
        ),
        _hook(
            "dc2tog",
            "tr2tog",
            (2, 1),
            "double crochet 2 together",
            "treble crochet 2 together",
            "Begin the stitch in each of the next two stitches, leaving out its last step, then "
            "draw the yarn through all loops.",
        ),
        _hook(
            "FPsc",
            "FPdc",
            (1, 1),
            "front post single crochet",
            "front post double crochet",
            "Pass the hook around the post of the stitch below from the front and finish as usual.",
        ),
        _hook(
            "FPdc",
            "FPtr",
            (1, 1),
            "front post double crochet",
            "front post treble crochet",
            "Catch the yarn, pass the hook around the post of the stitch below from the front, "
            "and finish as usual.",
        ),
        _hook(
            "BPdc",
            "BPtr",
            (1, 1),
            "back post double crochet",
            "back post treble crochet",
            "Catch the yarn, pass the hook around the post of the stitch below from the back, and "
            "finish as usual.",
        ),
        _hook(
            "sk",
            "miss",
            (1, 0),
            "skip",
            "miss",
            "Leave the stitch unworked and go on to the next.",
            aliases=("skip",),
            loops=0,
            counted=True,
        ),
        _hook(
            "fasten off",
            "fasten off",
            (0, 0),
            "fasten off",
            "fasten off",
            "Cut the yarn and draw its end through the last loop.",
            loops=0,
        ),
    )


def _act(
    id: str,
    name: str,
    how_to: str,
    *,
    spoken: str = "",
    modifier: bool = False,
    aliases: tuple[str, ...] = (),
    uk: str = "",
) -> Act:
    us = Wording(id, name, id, spoken or name)
    return Act(
        id, us, Wording(uk, uk, uk, uk) if uk else us, how_to, modifier=modifier, aliases=aliases
    )


def _acts() -> tuple[Act, ...]:
    return (
        _act(
            "purlwise",
            "purlwise",
            "Put the needle into the stitch from right to left, as if to purl.",
            modifier=True,
            aliases=("pwise",),
        ),
        _act(
            "knitwise",
            "knitwise",
            "Put the needle into the stitch from left to right, as if to knit.",
            modifier=True,
            aliases=("kwise",),
        ),
        _act(
            "wyib",
            "with yarn in back",
            "Hold the yarn at the back of the work.",
            modifier=True,
        ),
        _act(
            "wyif",
            "with yarn in front",
            "Hold the yarn at the front of the work.",
            modifier=True,
        ),
        _act(
            "tbl",
            "through back loop",
            "Put the needle into the back of the stitch, which twists it.",
            modifier=True,
        ),
        _act(
            "pm",
            "place marker",
            "Hang a marker on the right needle.",
        ),
        _act(
            "sm",
            "slip marker",
            "Move the marker from the left needle to the right.",
        ),
        _act(
            "remove marker",
            "remove marker",
            "Take the marker off the needle.",
        ),
        _act(
            "cast on",
            "cast on",
            "Make new stitches on the right needle with the working yarn.",
        ),
        _act(
            "pick up and knit",
            "pick up and knit",
            "Draw new stitches through the edge of the fabric with the working yarn.",
        ),
        _act(
            "bind off",
            "bind off",
            "Work two stitches, lift the first over the second and off the needle, and go on so.",
            uk="cast off",
        ),
        _act(
            "hold",
            "hold",
            "Slip the stitches unworked to waste yarn or a stitch holder.",
        ),
        _act(
            "turn",
            "turn",
            "Turn the work with the rest of the row unworked.",
        ),
        _act(
            "w&t",
            "wrap and turn",
            "Take the next stitch to the right needle, bring the yarn round it, put it back, and "
            "turn the work.",
        ),
    )
