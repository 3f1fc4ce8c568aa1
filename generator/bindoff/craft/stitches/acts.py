"""Ways to work a stitch, and what is done between stitches."""

from bindoff.craft.entry import Act, Wording


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


ACTS = (
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
        "below",
        "one row below",
        "Put the needle into the stitch one row below the next one.",
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
        "pick up and purl",
        "pick up and purl",
        "From the wrong side, draw new stitches through the edge of the fabric to the back with "
        "the working yarn.",
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
