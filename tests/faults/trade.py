"""Slips from the trade, written without a look at the checks: an independent trial of them.

They were gathered by kind from what a technical editor finds in drafts, before anything was run, and
none was taken out because it is missed: ``missed`` says why nobody finds it today.
"""

# ruff: noqa: E501 - a line of a pattern stays whole, as it is looked up

from tests.faults.drawn import DRAWN
from tests.faults.seeding import Fault, Swap, trade
from tests.faults.worn import WORN

# ---------------------------------------------------------------- counts in prose

COUNTS = (
    trade(
        "count",
        "the notes tell a stitch count that no size has",
        "sock",
        "prose.count",
        Swap(
            "The heel stitches wait", "The cuff is worked over 62 stitches. The heel stitches wait"
        ),
    ),
    trade(
        "count",
        "the notes tell a round count that is not worked",
        "striped",
        "prose.count",
        Swap("Tuck all ends", "Each broad stripe has 12 rounds. Tuck all ends"),
    ),
    trade(
        "count",
        "the count at the end of the shawl is two off",
        "shawl",
        "prose.count",
        Swap(
            "Slip the first stitch of every row",
            "You start the border from 189 stitches. Slip the first stitch of every row",
        ),
    ),
    trade(
        "count",
        "a count in words is wrong",
        "cloth",
        "prose.count",
        Swap("Sew in the ends.", "At the widest you have forty-six stitches. Sew in the ends."),
    ),
    trade(
        "count",
        "a small count in the notes is not that of the row",
        "wristers",
        "prose.count",
        Swap("cast 6 on again", "cast 5 on again"),
    ),
    trade(
        "count",
        "the summary tells more sizes than there are",
        "pullover",
        "prose.count",
        Swap("wide neck, knitted", "wide neck in 5 sizes, knitted"),
    ),
    trade(
        "count",
        "the summary tells more pieces than there are",
        "pullover",
        "prose.claim",
        Swap("in four flat pieces", "in five flat pieces"),
    ),
    trade(
        "count",
        "the finishing sews on a button more than is listed",
        "cushion",
        "notion.count",
        Swap("Sew the 4 buttons", "Sew the 5 buttons"),
    ),
    trade(
        "count",
        "the finishing sews on a button more than is listed, in words",
        "collar",
        "notion.count",
        Swap("Sew the three buttons", "Sew the four buttons"),
    ),
    trade(
        "count",
        "a note counts the rounds of a stripe wrongly",
        "legwarmers",
        "prose.count",
        Swap("The last 4 rounds are in B again", "The last 6 rounds are in B again"),
    ),
    trade(
        "count",
        "the alternative text tells another width than the chart has",
        "shawl",
        "prose.small-count",
        Swap("that is ten stitches wide", "that is twelve stitches wide"),
    ),
    trade(
        "count",
        "a note tells a decrease count that is wrong",
        "toy",
        "prose.count",
        Swap(
            "Fill the nose and the belly firmly.",
            "There are 50 stitches now. Fill the nose and the belly firmly.",
        ),
    ),
    trade(
        "count",
        "a yarn amount in the notes is not the computed one",
        "legwarmers",
        "prose.count",
        Swap("Weave in the ends.", "Weave in the ends; you need 11 balls of A."),
    ),
    trade(
        "count",
        "a typed number of repeats is not that of the step",
        "bookmark",
        "prose.count",
        Swap(
            "Weave in the ends and",
            "After 20 repeats of the lace it is long enough. Weave in the ends and",
        ),
    ),
)

# ---------------------------------------------------------------- typed lists

LISTS = (
    trade(
        "list",
        "a typed list has a figure too few",
        "sock",
        "prose.sizes",
        Swap("Pick up {{ half }} stitches", "Pick up 30 (32) stitches"),
    ),
    trade(
        "list",
        "a typed list has a figure too many",
        "bonnet",
        "prose.sizes",
        Swap("Fold the", "The face edge is 28 (32, 34, 36) cm wide. Fold the"),
    ),
    trade(
        "list",
        "a typed list has a slip in its last figure",
        "sock",
        "prose.count",
        Swap("The held stitches are those of the heel.", "The leg has 60 (64, 72) stitches."),
    ),
    trade(
        "list",
        "two figures of a list changed places",
        "pullover",
        "measure.steps",
        Swap("[60, 64, 68, 72]", "[60, 68, 64, 72]"),
    ),
    trade(
        "list",
        "two digits of a figure changed places",
        "pullover",
        "measure.steps",
        Swap("[34, 36, 38, 40]", "[34, 36, 83, 40]"),
    ),
    trade(
        "list",
        "a length of a list was typed with a wrong first digit",
        "pullover",
        "measure.steps",
        Swap("[38 cm, 42 cm, 46 cm, 50 cm]", "[38 cm, 42 cm, 64 cm, 50 cm]"),
    ),
    trade(
        "list",
        "a list has a figure too few for the sizes",
        "pullover",
        "amount.sizes",
        Swap("[26 cm, 30 cm, 33 cm, 36 cm]", "[26 cm, 30 cm, 33 cm]"),
    ),
    trade(
        "list",
        "a decimal point is lost in a list",
        "bonnet",
        "measure.steps",
        Swap("side: [9 cm, 10 cm, 11 cm]", "side: [9 cm, 10 cm, 115 cm]"),
    ),
    trade(
        "list",
        "the last size repeats the figure of the one before",
        "pullover",
        "measure.steps",
        Swap("[60, 64, 68, 72]", "[60, 64, 72, 72]"),
    ),
    trade(
        "list",
        "a list in the text runs downward",
        "bonnet",
        "prose.sizes",
        Swap("Fold the", "The sides are 11 (10, 9) cm deep. Fold the"),
    ),
)

# ---------------------------------------------------------------- left and right

SIDES = (
    trade(
        "left-right",
        "both ends of the toe lean the same way",
        "sock",
        "shaping.lean",
        Swap(
            'k to last 3, k2tog, k1"\n        to: 12\n        over: toe_rounds',
            'k to last 3, ssk, k1"\n        to: 12\n        over: toe_rounds',
        ),
    ),
    trade(
        "left-right",
        "the sleeve leans its increases the same way",
        "pullover",
        "shaping.lean",
        Swap("k2, m1l, k to last 2, m1r, k2", "k2, m1l, k to last 2, m1l, k2"),
    ),
    trade(
        "left-right",
        "the mirrored row of a lace strip leans outward",
        "bookmark",
        "row.mirror",
        Swap("k3, yo, ssk, k1, k2tog, yo, k3", "k3, yo, k2tog, k1, k2tog, yo, k3"),
    ),
    trade(
        "left-right",
        "the right front has its armhole at the edge of the left",
        "vest",
        "piece.mirror",
        Swap(
            '["k all", "bind off {underarm}, p to end"]', '["bind off {underarm}, k to end", p all]'
        ),
    ),
    trade(
        "left-right",
        "the right front is shaped like the left",
        "wrap",
        "piece.mirror",
        Swap("k1, ssk, k to end", "k to last 3, k2tog, k1"),
    ),
    trade(
        "left-right",
        "the buttons go to a front that no button closes",
        "vest",
        "prose.made-up",
        Swap("Sew the 5 buttons to the left front", "Sew the 5 buttons to the left back"),
    ),
    trade(
        "left-right",
        "pieces that are alike are told to be left and right",
        "wristers",
        "prose.hands",
        Swap(
            "Make 2 the same; there is no left or right.",
            "Make one for the left hand and one, mirrored, for the right.",
        ),
    ),
    trade(
        "left-right",
        "the flaps lean their decreases the same way",
        "ears",
        "shaping.lean",
        Swap("k1, ssk, k to last 3, k2tog, k1", "k1, ssk, k to last 3, ssk, k1"),
    ),
    trade(
        "left-right",
        "one leaning stitch of the shawl border was turned about",
        "shawl",
        "chart.legend-unused",
        Swap("/o......o\\", "\\o......o\\", "wave.grid"),
        astray="the legend alone shows it, as the stitch no longer occurs",
    ),
    trade(
        "left-right",
        "the purl side is named as the right side",
        "cosy",
        "prose.side",
        Swap(
            "Starts with a purl row on the wrong side", "Starts with a purl row on the right side"
        ),
    ),
)

# ---------------------------------------------------------------- references

REFERENCES = (
    trade(
        "reference",
        "a section that is not there is referred to",
        "sock",
        "prose.reference",
        Swap(
            "The held stitches are those of the heel.",
            "The held stitches are those of the heel. See the section Gusset.",
        ),
    ),
    trade(
        "reference",
        "a piece that is not there is referred to",
        "pullover",
        "prose.reference",
        Swap("Sew the side\n  seams", "Sew the collar to the neck edge. Sew the side\n  seams"),
    ),
    trade(
        "reference",
        "a chart is referred to where there is none",
        "sock",
        "prose.reference",
        Swap("The held stitches are those of the heel.", "Begin the chart on the next round."),
    ),
    trade(
        "reference",
        "a chart row beyond the last is referred to",
        "blanket",
        "prose.chart",
        Swap("Read the rows of", "The sail ends in row 16 of the chart. Read the rows of"),
    ),
    trade(
        "reference",
        "a chart of another name is referred to",
        "shawl",
        "prose.reference",
        Swap(
            "Slip the first stitch of every row",
            "Work Chart B next. Slip the first stitch of every row",
        ),
    ),
    trade(
        "reference",
        "a yarn that is not there is named",
        "sock",
        "prose.reference",
        Swap("Change to Sand.", "Change to Driftwood."),
    ),
    trade(
        "reference",
        "the yarn of the step is not the one it says",
        "sock",
        "prose.yarn",
        Swap("Change to Sand.", "Change to Kelp."),
    ),
    trade(
        "reference",
        "a yarn letter is not in the list",
        "legwarmers",
        "prose.reference",
        Swap("Don't cut B", "Don't cut C"),
    ),
    trade(
        "reference",
        "a yarn name is misspelt",
        "toy",
        "prose.reference",
        Swap("a\n  nose in Coal", "a\n  nose in Cole"),
    ),
    trade(
        "reference",
        "a size that is not there is named",
        "sock",
        "prose.reference",
        Swap("The toe of size L", "The toe of size XL"),
    ),
    trade(
        "reference",
        "a size range of the notes is not that of the pattern",
        "pullover",
        "prose.reference",
        Swap("The ribs are worked", "For sizes 4 to 12 years. The ribs are worked"),
    ),
    trade(
        "reference",
        "the larger needles are named where there is one size",
        "sock",
        "tool.missing",
        Swap("Change to Sand.", "Change to the larger needles and to Sand."),
    ),
    trade(
        "reference",
        "a needle size is named that is not listed",
        "bonnet",
        "tool.unlisted",
        Swap(
            "Weave in the ends.",
            "Weave in the ends. Work the rib again with 2.75 mm needles if it is loose.",
        ),
    ),
    trade(
        "reference",
        "a page is named that will be another",
        "sock",
        "prose.reference",
        Swap(
            "The held stitches are those of the heel.",
            "The held stitches are those of the heel (see page 7).",
        ),
    ),
    trade(
        "reference",
        "a step number is named that is not there",
        "striped",
        "prose.claim",
        Swap("Tuck all ends inside", "Repeat step 25. Tuck all ends inside"),
    ),
    trade(
        "reference",
        "a technique is promised below and is not there",
        "striped",
        "prose.reference",
        Swap("Wash the cowl", "Join as explained in the section Special techniques. Wash the cowl"),
    ),
    trade(
        "reference",
        "the ribs and the rest have changed their yarns in the notes",
        "pullover",
        "prose.yarn",
        Swap(
            "smaller needles in Chalk, all else with the larger needles in Navy",
            "smaller needles in Navy, all else with the larger needles in Chalk",
        ),
    ),
)

# ---------------------------------------------------------------- what is needed

MATERIALS = (
    trade(
        "material",
        "the waste yarn for the heel is forgotten",
        "sock",
        "tool.missing",
        Swap("  - 50 cm (20 in) of smooth waste yarn to hold the heel stitches\n", ""),
        at=("notions:", "hold {half}", "tools:"),
    ),
    trade(
        "material",
        "the cable needle is forgotten",
        "cushion",
        "tool.missing",
        Swap("  - {name: cable needle, use: front}\n", ""),
        at=("tools:", "3/3 RC"),
    ),
    trade(
        "material",
        "the buttons are forgotten",
        "cushion",
        "notion.count",
        Swap("  - 4 wooden buttons of 25 mm\n", ""),
        at=("notions:", "Sew the 4 buttons"),
    ),
    trade(
        "material",
        "the button is forgotten, and no number is told",
        "cosy",
        "notion.count",
        Swap("notions: [1 large button]\n", ""),
        at=("tools:", "sew the button to", "Crochet a chain"),
    ),
    trade(
        "material",
        "the cushion pad is forgotten",
        "cushion",
        "notion.count",
        Swap("  - 1 cushion pad\n", ""),
        at=("notions:", "Put in the cushion pad"),
    ),
    trade(
        "material",
        "the filling is forgotten",
        "toy",
        "notion.count",
        Swap("  - 60 g (2 oz) of washable toy filling\n", ""),
        at=("notions:", "Fill the nose", "filling"),
    ),
    trade(
        "material",
        "the hook for a chain in the finishing is forgotten",
        "cosy",
        "tool.missing",
        Swap("{name: 4 mm crochet hook, use: loop}, ", ""),
        at=("tools:", "Crochet a chain"),
    ),
    trade(
        "material",
        "the marker is forgotten",
        "toy",
        "marker.count",
        Swap("  - 1 marker for the start of the round\n", ""),
        at=("notions:", "mark the start"),
    ),
    trade(
        "material",
        "a third needle for the shoulders is forgotten",
        "pullover",
        "",
        Swap("  - {name: third 4 mm needle, use: joining the shoulders}\n", ""),
        at=("tools:", "three-needle"),
        missed="a needle of another size serves to join with",
    ),
    trade(
        "material",
        "the needle to sew with is forgotten",
        "blanket",
        "tool.missing",
        Swap("  - {name: blunt tapestry needle, use: ends}\n", ""),
        at=("tools:", "Weave in the ends"),
    ),
    trade(
        "material",
        "the waste yarn of the machine is forgotten",
        "striped",
        "tool.missing",
        Swap("notions:\n  - Smooth waste yarn in a contrasting color, about 30 m (33 yd)\n", ""),
        at=("tools:", "method: waste yarn", "cast on: needles"),
    ),
    trade(
        "material",
        "double-pointed needles for the crown are forgotten",
        "beanie",
        "tool.missing",
        Swap(', {name: "US 8 (5 mm) double-pointed needles"}', ""),
        at=("double-pointed", "tools:", "crown: 8"),
    ),
    trade(
        "material",
        "the machine of the list has other needles",
        "striped",
        "prose.count",
        Swap("machine with 46 needles", "machine with 48 needles"),
    ),
    trade(
        "material",
        "a bead is sewn on that nobody listed",
        "bookmark",
        "notion.count",
        Swap(
            "Weave in the ends and press",
            "Sew 2 beads to the lower corners. Weave in the ends and press",
        ),
    ),
    trade(
        "material",
        "sewing thread is used that is not listed",
        "cushion",
        "notion.count",
        Swap(
            "Put in the cushion pad.",
            "Sew in the zipper with sewing thread. Put in the cushion pad.",
        ),
    ),
)

# ---------------------------------------------------------------- gauge

GAUGES = (
    trade(
        "gauge",
        "stitches and rows changed places",
        "pullover",
        "gauge.swapped",
        Swap("  stitches: 20\n  rounds: 28", "  stitches: 28\n  rounds: 20"),
        at=("gauge:",),
    ),
    trade(
        "gauge",
        "a gauge over 4 in is stated over 10 in",
        "beanie",
        "gauge.over",
        Swap("over: 4 in", "over: 10 in"),
    ),
    trade(
        "gauge",
        "a gauge over 10 cm is stated over 10 in",
        "pullover",
        "gauge.over",
        Swap("  over: 10 cm", "  over: 10 in"),
    ),
    trade(
        "gauge",
        "a gauge over 10 cm is stated over 4 cm",
        "blanket",
        "gauge.over",
        Swap("  over: 10 cm", "  over: 4 cm"),
    ),
    trade(
        "gauge",
        "a gauge over 10 cm is stated over 20 cm",
        "sock",
        "gauge.over",
        Swap("  over: 10 cm", "  over: 20 cm"),
    ),
    trade(
        "gauge",
        "a swatch over 6 in is stated over 6 cm",
        "seed-cowl",
        "gauge.short",
        Swap("width: 6 in, rounds: 40, height: 6 in", "width: 6 cm, rounds: 40, height: 6 cm"),
    ),
    trade(
        "gauge",
        "the gauge needle is not the one of the list",
        "shawl",
        "tool.gauge",
        Swap("  tool: 4.5 mm needles", "  tool: 5.5 mm needles"),
    ),
    trade(
        "gauge",
        "the gauge forgets its stitch",
        "headband",
        "gauge.words",
        Swap("worked: garter stitch, tool: 4.5 mm needles", "tool: 4.5 mm needles"),
    ),
    trade(
        "gauge",
        "a digit of the gauge was doubled",
        "toy",
        "gauge.swapped",
        Swap("  stitches: 22\n", "  stitches: 222\n"),
    ),
    trade(
        "gauge",
        "the weight category is that of another yarn",
        "sock",
        "yarn.weight-gauge",
        Swap(
            'kelp: {name: Kelp, colour: "#5c6b3c", weight: 1',
            'kelp: {name: Kelp, colour: "#5c6b3c", weight: 5',
        ),
        also=("yarn.ball-length",),
    ),
    trade(
        "gauge",
        "the gauge of a piece is not named, so that the main one is taken",
        "cushion",
        "stated.height",
        Swap("    gauge: rope\n", ""),
        at=("title: Front", "front: rope_stitches", "  rope:"),
        also=("seam.width",),
        astray="the finished height disagrees, and the piece does not say that it lacks a gauge",
    ),
)

# ---------------------------------------------------------------- sizes

SIZES = (
    trade(
        "size",
        "a size is out of order",
        "pullover",
        "size.order",
        Swap("8 years: {chest: 67 cm}", "8 years: {chest: 76 cm}"),
        at=("10 years:",),
    ),
    trade(
        "size",
        "a baby size is smaller than the one before",
        "bonnet",
        "size.order",
        Swap("3 months: {head: 40 cm}", "3 months: {head: 34 cm}"),
    ),
    trade(
        "size",
        "two sizes are in the wrong order",
        "blanket",
        "finished.order",
        Swap("repeats: [10, 14]", "repeats: [14, 10]"),
        at=("Width: width(blanket)",),
    ),
    trade(
        "size",
        "inches were typed as centimetres",
        "bonnet",
        "size.order",
        Swap("{head: 43 cm}", "{head: 17 cm}"),
    ),
    trade(
        "size",
        "centimetres were typed as inches",
        "beanie",
        "size.order",
        Swap("M: {head: 23 in}", "M: {head: 58 in}"),
    ),
    trade(
        "size",
        "children's sizes are said to be for adults",
        "pullover",
        "wearer.sizes",
        Swap("wearer: [child]", "wearer: [adult]"),
        at=("4 years:", "6 years:", "8 years:", "10 years:"),
    ),
    trade(
        "size",
        "a baby's bonnet is said to be for a child",
        "bonnet",
        "wearer.sizes",
        Swap("wearer: [infant]", "wearer: [child]"),
        at=("Newborn:",),
    ),
    trade(
        "size",
        "a size has the chest of another",
        "pullover",
        "measure.steps",
        Swap("8 years: {chest: 67 cm}", "8 years: {chest: 63.5 cm}"),
    ),
    trade(
        "size",
        "the chest is that of half the piece",
        "pullover",
        "fit.ease",
        Swap("Chest: width(body * 2)", "Chest: width(body)"),
    ),
    trade(
        "size",
        "the ease has the wrong sign",
        "pullover",
        "fit.ease",
        Swap("ease: 10 cm", "ease: 0 cm - 10 cm"),
        at=("Chest: width(body * 2)", "body: stitches"),
    ),
)

# ---------------------------------------------------------------- units

UNITS = (
    trade(
        "units",
        "inches stand in a metric pattern",
        "pullover",
        "prose.units",
        Swap("its middle at the end", "for 9 inches on either side, its middle at the end"),
    ),
    trade(
        "units",
        "centimetres stand in an imperial pattern",
        "beanie",
        "prose.units",
        Swap("Pull tight,", "Leave a tail of 20 cm. Pull tight,"),
    ),
    trade(
        "units",
        "an inch figure is not that of its centimetres",
        "sock",
        "prose.inches",
        Swap("50 cm (20 in) of smooth", "50 cm (28 in) of smooth"),
    ),
    trade(
        "units",
        "an inch figure is not that of its centimetres, with a fraction",
        "vest",
        "prose.inches",
        Swap("by 3 cm (1¼ in)", "by 3 cm (2¼ in)"),
    ),
    trade(
        "units",
        "grams and ounces disagree",
        "toy",
        "prose.inches",
        Swap("60 g (2 oz)", "60 g (4 oz)"),
    ),
    trade(
        "units",
        "yards and metres changed places",
        "striped",
        "prose.inches",
        Swap("about 30 m (33 yd)", "about 33 m (30 yd)"),
    ),
    trade(
        "units",
        "centimetres were written for inches in the tools",
        "shawl",
        "prose.inches",
        Swap("80 cm (32 in) long", "80 in (32 cm) long"),
    ),
    trade(
        "units",
        "a millimetre size has the number of another",
        "beanie",
        "tool.size",
        Swap("US 8 (5 mm) 16 in", "US 8 (4.5 mm) 16 in"),
    ),
    trade(
        "units",
        "a UK number is not that of the millimetres",
        "bonnet",
        "tool.size",
        Swap("3.25 mm (UK 10)", "3.25 mm (UK 9)"),
    ),
    trade(
        "units",
        "a needle has a size that nobody makes",
        "toy",
        "tool.size",
        Swap("set of 3.5 mm double", "set of 3.4 mm double"),
        also=("tool.gauge",),
    ),
    trade(
        "units",
        "millimetres were written for centimetres",
        "cushion",
        "prose.length",
        Swap("Sew the front to", "The flap is 3 mm deep. Sew the front to"),
    ),
)

# ---------------------------------------------------------------- terms

TERMS = (
    trade(
        "terms",
        "a US word stands in a UK pattern",
        "bonnet",
        "prose.spelling",
        Swap("Fold the cast-off edge", "Fold the bound-off edge"),
    ),
    trade(
        "terms",
        "a US word for the fabric stands in a UK pattern",
        "pullover",
        "prose.spelling",
        Swap("  worked: stocking stitch, flat", "  worked: stockinette, flat"),
    ),
    trade(
        "terms",
        "a UK word stands in a US pattern",
        "blanket",
        "prose.spelling",
        Swap("Weave in the ends along", "Cast off, then weave in the ends along"),
    ),
    trade(
        "terms",
        "UK spelling stands in a US pattern",
        "striped",
        "prose.spelling",
        Swap("in a contrasting color", "in a contrasting colour"),
    ),
    trade(
        "terms",
        "a UK crochet word stands in a US pattern",
        "blanket",
        "tool.missing",
        Swap(
            "Weave in the ends along",
            "Work a round of treble crochet if you like. Weave in the ends along",
        ),
    ),
    trade(
        "terms",
        "a US crochet word stands in a UK pattern",
        "cushion",
        "prose.spelling",
        Swap("work a loop for", "work single crochet along it and a loop for"),
        also=("tool.missing",),
    ),
    trade(
        "terms",
        "tension and gauge are mixed",
        "collar",
        "wording.gauge",
        Swap("Works with any smooth yarn.", "Works with any yarn that gives the gauge."),
    ),
    trade(
        "terms",
        "the old UK name of a yarn weight stands in a US pattern",
        "striped",
        "prose.spelling",
        Swap("Tuck all ends", "Any double knitting yarn does as well. Tuck all ends"),
    ),
    trade(
        "terms",
        "moss stitch is said in a US pattern",
        "seed-cowl",
        "prose.spelling",
        Swap("Seed stitch in the round, for", "Moss stitch in the round, for"),
    ),
)

# ---------------------------------------------------------------- safety

SAFETY = (
    trade(
        "safety",
        "ribbons tie a baby's bonnet under the chin",
        "bonnet",
        "wearer.safety",
        Swap(
            "Weave in the ends.",
            "Weave in the ends. Sew on two ribbons of 30 cm (12 in) to tie under the chin.",
        ),
    ),
    trade(
        "safety",
        "a baby's bonnet has a tie for a piece",
        "bonnet",
        "wearer.safety",
        Swap(
            "pieces:\n",
            "pieces:\n  tie:\n    title: Tie\n    make: 2\n    worked: flat\n    steps:\n      - cast on: 4\n      - work: k all\n        rounds: 100\n      - bind off: all\n",
        ),
    ),
    trade(
        "safety",
        "a pompom tops a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap("Weave in the ends.", "Weave in the ends. Top it with a pompom."),
    ),
    trade(
        "safety",
        "a pom-pom tops a baby's cap",
        "ears",
        "wearer.safety",
        Swap("at the back.", "at the back. Sew a pom-pom to the top."),
    ),
    trade(
        "safety",
        "a strap with a button closes a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap(
            "Weave in the ends.",
            "Weave in the ends. Work a strap for the chin and fasten it with a button.",
        ),
    ),
    trade(
        "safety",
        "beads are listed for a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap("sizes:\n", "notions:\n  - 6 glass beads\n\nsizes:\n"),
    ),
    trade(
        "safety",
        "a hazard is declared for an infant and done all the same",
        "bonnet",
        "wearer.safety",
        Swap("units: both\n", "units: both\nhazards: [pompom]\n"),
    ),
    trade(
        "safety",
        "a ribbon is threaded through eyelets for a baby",
        "bonnet",
        "wearer.safety",
        Swap(
            "Weave in the ends.",
            "Weave in the ends. Thread a satin ribbon through the rib and tie a bow.",
        ),
    ),
    trade(
        "safety",
        "a toggle closes a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap("Weave in the ends.", "Weave in the ends. Sew a wooden toggle to one corner."),
    ),
    trade(
        "safety",
        "press studs are sewn to a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap("Weave in the ends.", "Weave in the ends. Sew on a press stud at each corner."),
    ),
    trade(
        "safety",
        "sequins are sewn to a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap("Weave in the ends.", "Weave in the ends. Scatter sequins over the back."),
    ),
    trade(
        "safety",
        "chains of crochet hold a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap(
            "Weave in the ends.",
            "Weave in the ends. Crochet a chain of 25 cm (10 in) at each corner to hold it on.",
        ),
        also=("tool.missing",),
    ),
    trade(
        "safety",
        "plaits hang from a baby's cap",
        "ears",
        "wearer.safety",
        Swap("at the back.", "at the back. Hang a braid of three strands from each flap."),
    ),
    trade(
        "safety",
        "cords hang from a child's cap",
        "ears",
        "wearer.safety",
        Swap(
            "at the back.",
            "at the back. Make two twisted cords of 40 cm (16 in) and sew one to each flap.",
        ),
    ),
    trade(
        "safety",
        "an i-cord ties a child's pullover at the neck",
        "pullover",
        "wearer.safety",
        Swap(
            "Sew the side\n  seams",
            "Thread an i-cord through the neck edge and tie it. Sew the side\n  seams",
        ),
    ),
    trade(
        "safety",
        "a drawstring runs through the hem of a child's pullover",
        "pullover",
        "wearer.safety",
        Swap(
            "Sew the side\n  seams",
            "Run a drawstring through the lower rib, with ends of 20 cm. Sew the side\n  seams",
        ),
    ),
    trade(
        "safety",
        "buttons at the shoulder of a child's pullover go undeclared",
        "pullover",
        "wearer.hazards",
        Swap("  - 1 stitch holder", "  - 1 stitch holder\n  - 6 buttons"),
        at=("wearer:",),
    ),
    trade(
        "safety",
        "cords of mittens run around a child's neck",
        "mitts",
        "wearer.safety",
        Swap(
            "Close the gap at the thumb",
            "Join both mitts with a crocheted string that runs behind the neck. Close the gap at the thumb",
        ),
    ),
    trade(
        "safety",
        "a toy has buttons for eyes",
        "toy",
        "wearer.hazards",
        Swap(
            "Embroider two eyes and a\n  nose in Coal.",
            "Sew on two buttons for eyes, and embroider a nose in Coal.",
        ),
        at=("wearer:",),
        also=("notion.count",),
    ),
    trade(
        "safety",
        "a toy has safety eyes in its list",
        "toy",
        "wearer.hazards",
        Swap("  - 1 marker for", "  - 2 safety eyes of 9 mm\n  - 1 marker for"),
        at=("wearer:",),
    ),
    trade(
        "safety",
        "a toy is filled with rice",
        "toy",
        "wearer.hazards",
        Swap(
            "Fill the nose and the belly firmly.",
            "Fill the nose and the belly firmly, and put dried rice into the tail.",
        ),
    ),
    trade(
        "safety",
        "a toy wears a ribbon around its neck",
        "toy",
        "wearer.safety",
        Swap(
            "Weave the ends through the filling.",
            "Weave the ends through the filling. Tie a ribbon of 50 cm (20 in) around the neck.",
        ),
    ),
    trade(
        "safety",
        "a toy holds a magnet in its nose",
        "toy",
        "wearer.safety",
        Swap(
            "Fill the nose and the belly firmly.",
            "Put a magnet into the nose. Fill the nose and the belly firmly.",
        ),
        at=("wearer:",),
    ),
    trade(
        "safety",
        "a toy rattles",
        "toy",
        "wearer.hazards",
        Swap(
            "Fill the nose and the belly firmly.",
            "Put a small bell inside. Fill the nose and the belly firmly.",
        ),
        at=("wearer:",),
    ),
    trade(
        "safety",
        "a bell is stitched to a baby's blanket",
        "blanket",
        "wearer.safety",
        Swap("and wash the blanket", "stitch a jingle bell to a corner, and wash the blanket"),
    ),
    trade(
        "safety",
        "tails are left to tie a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap(
            "Weave in the ends.", "Weave in the ends. Leave two long tails to knot under the chin."
        ),
    ),
    trade(
        "safety",
        "a bag of lentils weights a toy",
        "toy",
        "wearer.hazards",
        Swap("Fill the nose and", "Weight the tail with a bag of lentils. Fill the nose and"),
    ),
    trade(
        "safety",
        "a baby's blanket is to keep it warm at night",
        "blanket",
        "wearer.safety",
        Swap("A pram blanket", "A cot blanket to keep a baby warm all night"),
    ),
    trade(
        "safety",
        "a baby's bonnet is trimmed with a bow and a pearl",
        "bonnet",
        "wearer.safety",
        Swap("Weave in the ends.", "Weave in the ends. Decorate it with a felt bow and a pearl."),
    ),
    trade(
        "safety",
        "a fringe edges a baby's blanket",
        "blanket",
        "wearer.safety",
        Swap(
            "and wash the blanket",
            "knot a fringe of 10 cm (4 in) into both short ends, and wash the blanket",
        ),
    ),
    trade(
        "safety",
        "tassels hang from the corners of a baby's blanket",
        "blanket",
        "wearer.safety",
        Swap("and wash the blanket", "sew a tassel to each corner, and wash the blanket"),
    ),
    trade(
        "safety",
        "a blanket is said to be for sleep",
        "blanket",
        "wearer.safety",
        Swap(
            "Easy. You knit and purl and read a chart.",
            "Easy. You knit and purl and read a chart. Lay it over the sleeping baby.",
        ),
    ),
    trade(
        "safety",
        "a pin holds the trim of a baby's bonnet",
        "bonnet",
        "wearer.safety",
        Swap(
            "Weave in the ends.", "Weave in the ends. Fix a flower to the side with a safety pin."
        ),
    ),
    trade(
        "safety",
        "a cord ties a child's mitt at the wrist",
        "mitts",
        "wearer.safety",
        Swap(
            "Weave in the ends, wash",
            "Tie each mitt at the wrist with a cord of 30 cm (12 in). Weave in the ends, wash",
        ),
    ),
    trade(
        "safety",
        "elastic thread goes into a baby's cap",
        "ears",
        "wearer.hazards",
        Swap("at the back.", "at the back. Sew an elastic band across from flap to flap."),
        at=("wearer:",),
        also=("notion.count",),
    ),
)

# ---------------------------------------------------------------- stated lengths

STATED = (
    trade(
        "stated",
        "the text tells another depth than the rounds give",
        "sock",
        "prose.length",
        Swap("Try the sock on", "The cuff is 6 cm (2¼ in) deep. Try the sock on"),
    ),
    trade(
        "stated",
        "the text tells another finished width",
        "blanket",
        "prose.length",
        Swap(
            "Weave in the ends along",
            "The pram size is 75 cm (29½ in) wide. Weave in the ends along",
        ),
    ),
    trade(
        "stated",
        "the finished width was typed and never followed the count",
        "blanket",
        "stated.width",
        Swap("Width: width(blanket)", "Width: [66 cm, 84 cm]"),
    ),
    trade(
        "stated",
        "the length forgets one of two borders",
        "blanket",
        "stated.height",
        Swap(
            "  Length: height(boat_rows + border_rows * 2)",
            "  Length: height(boat_rows + border_rows + 48)",
        ),
    ),
    trade(
        "stated",
        "the sleeve length forgets the cuff",
        "pullover",
        "stated.height",
        Swap("Sleeve length: height(rib_rows + sleeve_rows)", "Sleeve length: height(sleeve_rows)"),
    ),
    trade(
        "stated",
        "the width of the back is told at the gauge of the front",
        "cushion",
        "stated.width",
        Swap("Width of the back: width(back)", "Width of the back: rope_width(back)"),
    ),
    trade(
        "stated",
        "a width is taken from rows",
        "bookmark",
        "stated.width",
        Swap("Width: width(sts)", "Width: height(sts)"),
    ),
    trade(
        "stated",
        "a height is taken from stitches",
        "toy",
        "measure.direction",
        Swap(
            "Length without the tail: height(belly_rounds + 16)",
            "Length without the tail: width(belly_rounds + 16)",
        ),
    ),
    trade(
        "stated",
        "the schematic of the sleeve has the width of the body",
        "pullover",
        "stated.width",
        Swap("upper edge: width(sleeve_top)", "upper edge: width(body)"),
    ),
    trade(
        "stated",
        "the finished length of the ring leaves out a stripe",
        "striped",
        "stated.width",
        Swap("height((broad * 2 + narrow) * 3)", "height((broad * 2 + narrow) * 2)"),
    ),
    trade(
        "stated",
        "the around of the cowl is half of it",
        "seed-cowl",
        "stated.width",
        Swap("Around: width(sts)", "Around: width(sts) / 2"),
    ),
    trade(
        "stated",
        "the back of the cushion is smaller than its front",
        "cushion",
        "seam.width",
        Swap("back: stitches(side, multiple = 4)", "back: stitches(side - 10 cm, multiple = 4)"),
        at=("Width of the back",),
    ),
)

# ---------------------------------------------------------------- charts and rows

CHARTS = (
    trade(
        "chart",
        "a stray cell stands in the ground",
        "blanket",
        "chart.stray",
        Swap("..--------..\n...------...", "..--------..\n.-.------...", "boats.grid"),
    ),
    trade(
        "chart",
        "a row of the chart is drawn twice",
        "blanket",
        "chart.odd",
        Swap("..--------..\n", "..--------..\n..--------..\n", "boats.grid"),
        at=("chart: boats", "rounds: boat_rows"),
    ),
    trade(
        "chart",
        "a yarn over is missing",
        "shawl",
        "chart.width",
        Swap("/o......o\\", "/.......o\\", "wave.grid"),
    ),
    trade(
        "chart",
        "a decrease is missing",
        "shawl",
        "chart.width",
        Swap("/o......o\\", ".o......o\\", "wave.grid"),
        also=("chart.legend-unused",),
    ),
    trade(
        "chart",
        "a double decrease was drawn as a single one",
        "shawl",
        "chart.count",
        Swap(".o..^..o.", ".o../..o.", "wave.grid"),
        also=("chart.legend-unused",),
    ),
    trade(
        "chart",
        "the chart stops in the middle of the boats",
        "blanket",
        "chart.part-repeat",
        Swap("boat_rows: [168, 224]", "boat_rows: [168, 220]"),
        at=("rounds: boat_rows",),
    ),
    trade(
        "chart",
        "the repeat of the cast-on is not that of the chart",
        "blanket",
        "chart.width",
        Swap("blanket: repeats * 12", "blanket: repeats * 10"),
        at=("chart: boats",),
    ),
    trade(
        "chart",
        "the legend has knit and purl changed",
        "blanket",
        "prose.chart",
        Swap('legend: {".": k, "-": p}', 'legend: {".": p, "-": k}'),
        at=("on a knit ground",),
    ),
    trade(
        "chart",
        "a row of lace lacks its yarn over",
        "bookmark",
        "row.too-many",
        Swap("- k2, yo, ssk, k3, k2tog, yo, k2", "- k2, ssk, k3, k2tog, yo, k2"),
    ),
    trade(
        "chart",
        "a row of lace has a stitch too many",
        "bookmark",
        "row.too-many",
        Swap("k3, yo, ssk, k1, k2tog", "k3, yo, ssk, k2, k2tog"),
    ),
    trade(
        "chart",
        "the second row of the rib does not match the first",
        "rib-scarf",
        "gauge.fabric",
        Swap(
            '["*K2, P2; rep from * to last 2 sts, K2", "*P2, K2; rep from * to last 2 sts, P2"]',
            '["*K2, P2; rep from * to last 2 sts, K2", "*K2, P2; rep from * to last 2 sts, K2"]',
        ),
    ),
    trade(
        "chart",
        "the seed stitch becomes a rib",
        "seed-cowl",
        "gauge.fabric",
        Swap('"p1, *k1, p1; rep from * to end"]', '"k1, *p1, k1; rep from * to end"]'),
    ),
    trade(
        "chart",
        "a cable row purls where the rope stands",
        "cushion",
        "cable.purled",
        Swap(
            '"p2, *3/3 RC, p2; repeat from * to end"\n          - "k2, *p6, k2; repeat from * to end"',
            '"p2, *3/3 RC, p2; repeat from * to end"\n          - "k2, *p5, k3; repeat from * to end"',
        ),
    ),
    trade(
        "chart",
        "a repeat lost its plus stitches",
        "cushion",
        "row.left-over",
        Swap("multiple = 8, plus = 2", "multiple = 8"),
        at=("p2, *k6, p2",),
    ),
    trade(
        "chart",
        "the rope stops in the middle of its crossing",
        "cushion",
        "cable.part",
        Swap(
            "front_rows: rope_rows(side, multiple = 6)", "front_rows: rope_rows(side, multiple = 4)"
        ),
        at=("rounds: front_rows",),
    ),
    trade(
        "chart",
        "the cowl has an even number for an odd repeat",
        "seed-cowl",
        "row.left-over",
        Swap(", multiple = 2, plus = 1)", ", multiple = 2)"),
        at=("k1, *p1, k1",),
    ),
    trade(
        "chart",
        "the taper misses its yarn over",
        "cloth",
        "taper.change",
        Swap("k2, yo, k to end", "k2, k to end"),
    ),
    trade(
        "chart",
        "the gap for the thumb closes with a stitch too few",
        "wristers",
        "row.left-over",
        Swap("k1, cast on 6, k to end", "k1, cast on 5, k to end"),
        at=("bind off 6",),
        astray="rows are held against the stitches before them, so the first repeat after it is told",
    ),
)

# ---------------------------------------------------------------- edges

EDGES = (
    trade(
        "edge",
        "the front has two stitches more than the back it joins",
        "pullover",
        "piece.join-count",
        Swap(
            "title: Front\n    worked: flat\n    yarn: navy\n    steps:\n      - section: Rib\n      - cast on: body",
            "title: Front\n    worked: flat\n    yarn: navy\n    steps:\n      - section: Rib\n      - cast on: body + 2",
        ),
        at=("join: back",),
    ),
    trade(
        "edge",
        "the back is four rows shorter than the front it is sewn to",
        "pullover",
        "seam.rows",
        Swap(
            "rounds: body_rows\n      - leave: live", "rounds: body_rows - 4\n      - leave: live"
        ),
    ),
    trade(
        "edge",
        "one sleeve is told for two",
        "pullover",
        "piece.pair",
        Swap("title: Sleeve\n    make: 2", "title: Sleeve"),
        at=("upper edge of each sleeve",),
        also=("prose.claim",),
    ),
    trade(
        "edge",
        "one sock is told for two",
        "sock",
        "piece.pair",
        Swap("title: Sock\n    make: 2", "title: Sock"),
    ),
    trade(
        "edge",
        "one flipper is told for two",
        "toy",
        "prose.claim",
        Swap("title: Flipper\n    make: 2", "title: Flipper"),
        at=("Sew a flipper to each side",),
    ),
    trade(
        "edge",
        "the last piece is never bound off",
        "toy",
        "piece.unfinished",
        Swap(
            "        plain: [k all, k all]\n      - bind off: all", "        plain: [k all, k all]"
        ),
        at=("  flipper:", "title: Flipper"),
    ),
    trade(
        "edge",
        "the heel takes up fewer stitches than were held",
        "sock",
        "piece.held",
        Swap("- held: half", "- held: half - 2"),
        at=("hold {half}",),
    ),
    trade(
        "edge",
        "the ring is grafted to a start that is not open",
        "striped",
        "piece.join",
        Swap("        method: waste yarn\n", ""),
        at=("join: start", "cast on: needles"),
    ),
    trade(
        "edge",
        "a ribbed edge is bound off without a word on how",
        "legwarmers",
        "edge.stretch",
        Swap("        how: loosely, in rib\n", ""),
        at=("bind off: all",),
    ),
    trade(
        "edge",
        "nothing says that the ring stays open",
        "striped",
        "piece.open-ring",
        Swap("      - {close: top, by: left open}\n", ""),
        at=("join: start",),
    ),
    trade(
        "edge",
        "nobody says to join the round",
        "seed-cowl",
        "edge.join",
        Swap(
            "Join, being careful not to twist; place the marker for the beginning of the round.",
            "Place the marker for the beginning of the round.",
        ),
        at=("cast on: sts",),
    ),
    trade(
        "edge",
        "a flat piece is joined in the round",
        "rib-scarf",
        "prose.claim",
        Swap(
            "Join new yarn at the edge, never mid-row.", "Join new yarn at the start of the round."
        ),
    ),
)

# ---------------------------------------------------------------- yarns

YARNS = (
    trade(
        "yarn",
        "a yarn is listed and never used",
        "blanket",
        "yarn.unused",
        Swap(
            "\ntools:",
            '  plum: {name: Plum, colour: "#5a2a4a", weight: 4, fibre: 100 % cotton, ball: 50 g = 85 m}\n\ntools:',
        ),
    ),
    trade(
        "yarn",
        "the yarn of the last stripe is forgotten",
        "striped",
        "yarn.unsaid",
        Swap("        yarn: buoy\n      - section: Closing", "      - section: Closing"),
    ),
    trade(
        "yarn",
        "a yarn is used that is not listed",
        "pullover",
        "source.unknown-yarn",
        Swap("  - cast on: cuff\n        yarn: chalk", "  - cast on: cuff\n        yarn: chalck"),
    ),
    trade(
        "yarn",
        "two yarns have one name",
        "legwarmers",
        "yarn.same-name",
        Swap("Stripe (B)", "Main (A)"),
        also=("prose.reference",),
    ),
    trade(
        "yarn",
        "the ball lost a digit of its length",
        "shawl",
        "yarn.ball-length",
        Swap("100 g = 250 m", "100 g = 25 m"),
    ),
    trade(
        "yarn",
        "the ball has its figures changed",
        "bonnet",
        "yarn.ball-length",
        Swap("50 g = 160 m", "160 g = 50 m"),
    ),
    trade(
        "yarn",
        "the fibres come to more than the whole",
        "shawl",
        "yarn.fibre",
        Swap("70 % wool, 30 % silk", "70 % wool, 40 % silk"),
    ),
    trade(
        "yarn",
        "the fibre is forgotten",
        "toy",
        "yarn.fibre",
        Swap(
            'coal: {name: Coal, colour: "#25282b", weight: 4, fibre: 100 % acrylic, ',
            'coal: {name: Coal, colour: "#25282b", weight: 4, ',
        ),
    ),
    trade(
        "yarn",
        "the summary tells another fibre than the list",
        "pullover",
        "prose.claim",
        Swap("A child's square pullover", "A child's square woollen pullover"),
    ),
    trade(
        "yarn",
        "the step works in the yarn of the one before",
        "shawlette",
        "yarn.unused",
        Swap(
            "        rounds: 10\n        yarn: reed\n      - bind off: all\n        yarn: reed",
            "        rounds: 10\n        yarn: mud\n      - bind off: all\n        yarn: mud",
        ),
        at=("reed: {name",),
    ),
    trade(
        "yarn",
        "two yarns of the stripes look alike",
        "striped",
        "colour.alike",
        Swap('"#d9542b"', '"#445160"'),
    ),
)

# ---------------------------------------------------------------- the head

HEAD = (
    trade(
        "head",
        "the year of the copyright is an old one",
        "sock",
        "head.copyright",
        Swap(
            "wearer: [adult]\n",
            "licence: © 2019 The Ebbstow Knitting Room. For your own use.\nwearer: [adult]\n",
        ),
    ),
    trade(
        "head",
        "the version was not raised with its change",
        "sock",
        "version.changes",
        Swap('{version: "1.1", date: 2026-10-12, note', '{version: "1.2", date: 2026-10-12, note'),
        at=('version: "1.1"',),
    ),
    trade(
        "head",
        "a change is later than the version it belongs to",
        "cushion",
        "version.date",
        Swap('{version: "2.0", date: 2026-11-02, note', '{version: "2.0", date: 2026-12-02, note'),
    ),
    trade(
        "head",
        "the year of the date is mistyped",
        "sock",
        "version.date",
        Swap('version: "1.1"\ndate: 2026-10-12', 'version: "1.1"\ndate: 2206-10-12'),
        at=("  - {version:",),
    ),
    trade(
        "head",
        "a day of the date is none",
        "sock",
        "source.value",
        Swap('version: "1.1"\ndate: 2026-10-12', 'version: "1.1"\ndate: 2026-10-42'),
    ),
    trade(
        "head",
        "the version in the notes is an old one",
        "cushion",
        "prose.claim",
        Swap("Sew the front to", "This is version 1.0. Sew the front to"),
    ),
    trade(
        "head",
        "the title of another pattern was left in",
        "striped",
        "prose.claim",
        Swap("Wash the cowl and dry it flat.", "Wash the hat and dry it flat."),
    ),
    trade(
        "head",
        "the contact is none",
        "cushion",
        "head.contact",
        Swap("contact: patterns@ebbstow.example\n", "contact: patterns at ebbstow\n"),
    ),
    trade(
        "head",
        "the skill is forgotten",
        "striped",
        "head.skill",
        Swap("skill: Easy. You know your machine, and graft.\n", ""),
        at=("title:",),
    ),
)

# ---------------------------------------------------------------- drafts

DRAFTS = (
    trade(
        "draft",
        "a note to oneself was left in",
        "sock",
        "prose.unfinished",
        Swap("Try the sock on", "XXX check this with the tester. Try the sock on"),
    ),
    trade(
        "draft",
        "a gap in the text was never filled",
        "bonnet",
        "prose.unfinished",
        Swap("Fold the", "The face edge is ___ cm wide. Fold the"),
    ),
    trade(
        "draft",
        "filler text was left in",
        "pullover",
        "prose.unfinished",
        Swap("The ribs are worked", "Lorem ipsum dolor sit amet. The ribs are worked"),
    ),
    trade(
        "draft",
        "a placeholder in angle brackets was left in",
        "toy",
        "prose.markdown",
        Swap("Weave the ends through", "Add <number> whiskers. Weave the ends through"),
        astray="the finding stands at the first line of the text",
    ),
    trade(
        "draft",
        "the tester's question was left in",
        "cushion",
        "prose.unfinished",
        Swap("Put in the cushion pad.", "Put in the cushion pad. (Is this right??)"),
    ),
    trade(
        "draft",
        "a mark for a missing figure was left in",
        "shawl",
        "prose.unfinished",
        Swap("Weave in the ends,", "It takes TK g of yarn. Weave in the ends,"),
    ),
    trade(
        "draft",
        "a fix to come was left in",
        "ears",
        "prose.unfinished",
        Swap("Sew the flaps", "FIXME where exactly. Sew the flaps"),
    ),
    trade(
        "draft",
        "a sentence breaks off",
        "striped",
        "prose.ended",
        Swap("Wash the cowl and dry it flat.", "Wash the cowl and dry it"),
    ),
    trade(
        "draft",
        "a word stands twice",
        "bonnet",
        "prose.doubled",
        Swap("in half and sew it", "in half and and sew it"),
    ),
    trade(
        "draft",
        "a bracket is never closed",
        "sock",
        "prose.brackets",
        Swap("the foot should stretch a little.", "the foot should stretch a little (about 10 %."),
    ),
    trade(
        "draft",
        "a heading has no steps",
        "toy",
        "section.empty",
        Swap("      - section: Tail\n", "      - section: Face\n      - section: Tail\n"),
    ),
    trade(
        "draft",
        "a heading comes twice",
        "striped",
        "title.twice",
        Swap("section: Third stripes", "section: Second stripes"),
    ),
    trade(
        "draft",
        "a measure was left over",
        "sock",
        "measure.unused",
        Swap("  leg_rounds: rounds(14 cm)\n", "  leg_rounds: rounds(14 cm)\n  heel_depth: 6 cm\n"),
    ),
    trade(
        "draft",
        "an abbreviation stands nowhere explained",
        "cushion",
        "abbreviation.undefined",
        Swap("Sew the front to", "With RS facing, sew the front to"),
    ),
)

TRADE: tuple[Fault, ...] = (
    *COUNTS, *LISTS, *SIDES, *REFERENCES, *MATERIALS, *GAUGES, *SIZES, *UNITS, *TERMS, *SAFETY,
    *STATED, *CHARTS, *DRAWN, *EDGES, *YARNS, *HEAD, *DRAFTS, *WORN,
)  # fmt: skip
