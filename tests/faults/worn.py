"""Slips of the trade in whole garments and in what their parts share: necks, heels, caps, shoulders,
edges, buttons; and in stitch patterns, charts and stripes that are set up for nothing."""

# ruff: noqa: E501 - a line of a pattern stays whole, as it is looked up

from tests.faults.seeding import Swap, trade

CARDIGAN = "lockkeepers-cardigan"

# The back's shoulders bound off in two steps, and each front's at its end: as many patterns have it.
STEPPED = """\
      - work:
          - "bind off {first}, k to end"
          - "bind off {first}, p to end"
          - "bind off {second}, k to end"
          - "bind off {second}, p to end"
      - work: hold {back_held} stitches for back neck
"""
HELD = """\
      - work: >-
          hold {shoulder} stitches for right shoulder, hold {back_neck} stitches for back neck,
          hold {shoulder} stitches for left shoulder
"""


def _stepped(second: str, held: str = "back_neck") -> tuple[Swap, ...]:
    """A back of stepped shoulders, whose second step is ``second``."""
    return (
        Swap(HELD, STEPPED),
        Swap(
            "  shoulder: count((yoke - back_neck) / 2)\n",
            f"  shoulder: count((yoke - back_neck) / 2)\n  first: nearest(shoulder / 2, 1)\n  second: {second}\n  back_held: {held}\n",
        ),
        Swap(
            "      - join: left shoulder\n        by: three-needle bind-off\n",
            "      - bind off: all\n",
        ),
    )


WORN = (
    trade(
        "garment",
        "the neck of the yoke was typed as counted over half of it",
        "lantern-yoke",
        "neck.head",
        Swap("neck: [88, 92, 96]", "neck: [62, 66, 72]"),
        at=("to: neck", "bind off: all"),
    ),
    trade(
        "garment",
        "the neckband takes up a stitch for every two of the neck",
        "mooring-line-pullover",
        "neck.head",
        Swap("stitches: neck, of: body", "stitches: neck / 2, of: body"),
        at=("bind off: all",),
    ),
    trade(
        "garment",
        "the gusset is not taken back to the stitches of the leg",
        "slipway-socks",
        "heel.return",
        Swap(
            "to: cast_on\n        over: 2 * gusset_times",
            "to: cast_on + 2\n        over: 2 * gusset_times - 2",
        ),
        Swap("- 1.2 cm) - foot_before - toe_rounds", "- 1.2 cm) - foot_before - toe_rounds + 2"),
        Swap("to: toe_end\n        over: toe_rounds", "to: toe_end + 2\n        over: toe_rounds"),
        at=("- taper: >-",),
    ),
    trade(
        "garment",
        "one pair of decreases too many in the gusset",
        "slipway-socks",
        "heel.return",
        Swap(
            "to: cast_on\n        over: 2 * gusset_times",
            "to: cast_on - 2\n        over: 2 * gusset_times + 2",
        ),
        Swap("to: toe_end\n        over: toe_rounds", "to: toe_end - 2\n        over: toe_rounds"),
        at=("- taper: >-",),
    ),
    trade(
        "garment",
        "the cap of the sleeve has half the rows of the armhole and more",
        CARDIGAN,
        "cap.armhole",
        Swap("armhole_rows * 36 / 100", "armhole_rows * 63 / 100"),
        at=("over: cap_rows", "bind off {underarm}, k to end"),
    ),
    trade(
        "garment",
        "the armholes were made deeper and the cap was forgotten",
        CARDIGAN,
        "cap.armhole",
        Swap(
            "armhole_depth: [19 cm, 20 cm, 21 cm, 22 cm, 23 cm]",
            "armhole_depth: [25 cm, 26 cm, 27 cm, 28 cm, 29 cm]",
        ),
        Swap("2 * nearest(armhole_rows * 36 / 100, 1)", "[40, 44, 46, 48, 50]"),
        at=("over: cap_rows", "bind off {underarm}, k to end"),
    ),
    trade(
        "garment",
        "the second step of the back's shoulder is a stitch short",
        CARDIGAN,
        "shoulder.meet",
        *_stepped("shoulder - first - 1", "back_neck + 2"),
    ),
    trade(
        "garment",
        "the front was made wider at the neck, and its shoulder narrower than the back's",
        CARDIGAN,
        "shoulder.meet",
        *_stepped("shoulder - first"),
        Swap(
            "neck_times: front_stitches - reduction - shoulder",
            "neck_times: front_stitches - reduction - shoulder + 2",
        ),
        at=("bind off {first}",),
    ),
    trade(
        "garment",
        "the band forgets one of the two fronts",
        CARDIGAN,
        "pickup.rows",
        Swap(
            "band: stitches(2 * height(front_rows) + width(back_neck)",
            "band: stitches(height(front_rows) + width(back_neck)",
        ),
        at=("to: band", "pick up along"),
    ),
    trade(
        "garment",
        "a stitch is picked up in every row of the fronts",
        CARDIGAN,
        "pickup.ratio",
        Swap(
            "band: stitches(2 * height(front_rows) + width(back_neck), multiple = 2)",
            "band: 2 * count(front_rows) + back_neck",
        ),
        at=("to: band", "pick up along"),
    ),
    trade(
        "garment",
        "a button fewer is listed and sewn on than there are buttonholes",
        CARDIGAN,
        "button.holes",
        Swap("6 buttons of 1.8 cm", "5 buttons of 1.8 cm"),
        Swap("Sew the 6 buttons", "Sew the 5 buttons"),
        at=("buttonholes: 6",),
    ),
    trade(
        "garment",
        "a buttonhole was added and no button",
        CARDIGAN,
        "button.holes",
        Swap("buttonholes: 6", "buttonholes: 7"),
        at=("6 buttons of",),
    ),
    trade(
        "chart",
        "the rows between are told for a chart that draws them all",
        "kerchief",
        "chart.other-rows",
        Swap("    rows: right side\n", ""),
        at=("other rows:",),
        also=("stated.width",),
    ),
    trade(
        "chart",
        "the border was changed to another stitch pattern, and the first one left",
        "seed-cowl",
        "pattern.unused",
        Swap(
            "measures: {around",
            'stitch patterns:\n  seed: {title: Seed stitch, rows: ["*k1, p1; repeat from * to end", "*p1, k1; repeat from * to end"]}\n  rib: {title: Rib, rows: ["*k1, p1; repeat from * to end"]}\nmeasures: {around',
        ),
        Swap("plus = 1)", "plus = 0)"),
        Swap('["k1, *p1, k1; rep from * to end", "p1, *k1, p1; rep from * to end"]', "in rib"),
        also=("gauge.fabric",),
    ),
    trade(
        "stripe",
        "two wanted stripes leave less between them than the shortest stripe",
        "tube",
        "stripe.short",
        Swap(
            "gather: 2 cm}",
            "gather: 2 cm, stripes: [{from: 20 rounds above rim, rounds: 2, yarn: sea}, {from: 23 rounds above rim, rounds: 2, yarn: sea}]}",
        ),
        at=("shortest stripe",),
    ),
)
