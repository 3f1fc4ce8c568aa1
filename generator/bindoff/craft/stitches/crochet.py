"""Crochet. The id is the US abbreviation; UK terms shift the names by one height."""

from bindoff.craft.entry import hook_entry

_PULL = "Put the hook in and draw up a loop"
_WRAP = "Catch the yarn {}, put the hook in and draw up a loop, then draw the yarn through two"

STITCHES = (
    hook_entry(
        "ch",
        "ch",
        (0, 0),
        "chain",
        "chain",
        "Catch the yarn and draw it through the loop on the hook.",
        counted=True,
    ),
    hook_entry(
        "sl st",
        "sl st",
        (1, 1),
        "slip stitch",
        "slip stitch",
        "Put the hook in, catch the yarn, and draw it through all loops on the hook.",
    ),
    hook_entry(
        "sc",
        "dc",
        (1, 1),
        "single crochet",
        "double crochet",
        f"{_PULL}, then draw the yarn through both loops.",
    ),
    hook_entry(
        "hdc",
        "htr",
        (1, 1),
        "half double crochet",
        "half treble crochet",
        "Catch the yarn once, put the hook in and draw up a loop, then draw the yarn through "
        "all three loops.",
    ),
    hook_entry(
        "dc",
        "tr",
        (1, 1),
        "double crochet",
        "treble crochet",
        _WRAP.format("once") + " loops twice.",
    ),
    hook_entry(
        "tr",
        "dtr",
        (1, 1),
        "treble crochet",
        "double treble crochet",
        _WRAP.format("twice") + " loops three times.",
    ),
    hook_entry(
        "dtr",
        "trtr",
        (1, 1),
        "double treble crochet",
        "triple treble crochet",
        _WRAP.format("three times") + " loops four times.",
    ),
    hook_entry(
        "trtr",
        "qtr",
        (1, 1),
        "triple treble crochet",
        "quadruple treble crochet",
        _WRAP.format("four times") + " loops five times.",
    ),
    *(
        hook_entry(
            f"ch {chains} as {us}",
            f"ch {chains} as {uk}",
            (1, 1),
            f"chain {chains}, which counts as a {us}",
            f"chain {chains}, which counts as a {uk}",
            "Make the chain above the first stitch, which is not worked into; the next row works "
            "into its top.",
        )
        for chains, us, uk in (
            (1, "sc", "dc"),
            (2, "hdc", "htr"),
            (3, "dc", "tr"),
            (4, "tr", "dtr"),
        )
    ),
    hook_entry(
        "sc2tog",
        "dc2tog",
        (2, 1),
        "single crochet 2 together",
        "double crochet 2 together",
        "Draw up a loop in each of the next two stitches, then draw the yarn through all "
        "three loops.",
    ),
    hook_entry(
        "hdc2tog",
        "htr2tog",
        (2, 1),
        "half double crochet 2 together",
        "half treble crochet 2 together",
        "Catch the yarn and draw up a loop in each of the next two stitches, then draw the "
        "yarn through all loops.",
    ),
    hook_entry(
        "dc2tog",
        "tr2tog",
        (2, 1),
        "double crochet 2 together",
        "treble crochet 2 together",
        "Begin the stitch in each of the next two stitches, leaving out its last step, then "
        "draw the yarn through all loops.",
    ),
    *(
        hook_entry(
            f"{us}3tog",
            f"{uk}3tog",
            (3, 1),
            f"{us_name} 3 together",
            f"{uk_name} 3 together",
            "Begin the stitch in each of the next three stitches, leaving out its last step, then "
            "draw the yarn through all loops.",
        )
        for us, uk, us_name, uk_name in (
            ("sc", "dc", "single crochet", "double crochet"),
            ("hdc", "htr", "half double crochet", "half treble crochet"),
            ("dc", "tr", "double crochet", "treble crochet"),
        )
    ),
    hook_entry(
        "FPsc",
        "FPdc",
        (1, 1),
        "front post single crochet",
        "front post double crochet",
        "Pass the hook around the post of the stitch below from the front and finish as usual.",
    ),
    hook_entry(
        "FPdc",
        "FPtr",
        (1, 1),
        "front post double crochet",
        "front post treble crochet",
        "Catch the yarn, pass the hook around the post of the stitch below from the front, "
        "and finish as usual.",
    ),
    hook_entry(
        "BPdc",
        "BPtr",
        (1, 1),
        "back post double crochet",
        "back post treble crochet",
        "Catch the yarn, pass the hook around the post of the stitch below from the back, and "
        "finish as usual.",
    ),
    hook_entry(
        "rsc",
        "rdc",
        (1, 1),
        "reverse single crochet",
        "reverse double crochet",
        "Work it in the next stitch to the right, backwards along the edge.",
        aliases=("crab",),
    ),
    hook_entry(
        "picot",
        "picot",
        (0, 0),
        "picot",
        "picot",
        "Chain three, and close them to a ring with a slip stitch in the first of them.",
        loops=4,
    ),
    hook_entry(
        "sk",
        "miss",
        (1, 0),
        "skip",
        "miss",
        "Leave the stitch unworked and go on to the next.",
        aliases=("skip", "sk", "miss"),
        loops=0,
        counted=True,
    ),
    hook_entry(
        "fasten off",
        "fasten off",
        (0, 0),
        "fasten off",
        "fasten off",
        "Cut the yarn and draw its end through the last loop.",
        loops=0,
    ),
)
