"""Slips in what a pattern says again: care, wearer, gauge, sizes, order, hands.

One for each check of them. Common practice, no source.
"""

from tests.faults.seeding import Fault, Swap


def _slip(slip: str, base: str, finds: str, before: str, after: str, *also: str) -> Fault:
    return Fault(slip, base, finds, (Swap(before, after),), also=also)


RESTATED = (
    _slip(
        "a wool hat is washed hot",
        "hat",
        "care.fibre",
        "  Weave in the ends on the inside. Wash the hat and",
        "  Weave in the ends on the inside. Wash the hat at 60 °C and",
    ),
    _slip(
        "the finishing washes warmer than the care",
        "pullover",
        "care.twice",
        "Weave in the ends on the wrong side.",
        "Weave in the ends on the wrong side. Machine wash at 60 °C.",
    ),
    _slip(
        "a cotton pullover is hung up to dry",
        "pullover",
        "care.hung",
        "care: Wash in the machine at 30 degrees, and dry flat.",
        "care: Wash in the machine at 30 degrees, and hang it up to dry.",
    ),
    _slip(
        "a hat for grown-ups is said to be for a baby",
        "hat",
        "wearer.words",
        "for windy days at the slipway.",
        "for a baby in its pram.",
    ),
    _slip(
        "the whiskers of a toy are left long",
        "toy",
        "wearer.threads",
        "Embroider two eyes and a\n  nose in Coal.",
        "Embroider two eyes and a\n  nose in Coal. Leave the whiskers hanging 6 cm (2½ in) long.",
        "wearer.hazards",
    ),
    _slip(
        "the flippers of a toy are sewn on with two stitches",
        "toy",
        "wearer.parts",
        "Sew a flipper to each side of the belly.",
        "Sew a flipper to each side of the belly with two loose stitches.",
    ),
    _slip(
        "pins are kept between the lips",
        "hat",
        "maker.hands",
        "can be folded up once.",
        "can be folded up once. Keep the spare pins between your lips while you work.",
    ),
    _slip(
        "a child turns the machine",
        "striped",
        "machine.child",
        "finishing: Wash the cowl and dry it flat.",
        "finishing: Wash the cowl and dry it flat. Let a small child turn the crank.",
    ),
    _slip(
        "a warning of buttons begins where it should end",
        "toy",
        "wearer.ages",
        "Embroider two eyes and a\n  nose in Coal.",
        "Embroider two eyes and a\n  nose in Coal. No hard eyes for a child over three.",
    ),
    _slip(
        "half the gauge is not half of it",
        "hat",
        "prose.gauge",
        "can be folded up once.",
        "can be folded up once. 12 stitches make 5 cm (2 in).",
    ),
    _slip(
        "more ease is told than the pullover has",
        "pullover",
        "prose.ease",
        "all else with the larger needles in Navy.",
        "all else with the larger needles in Navy. It is worn with 20 cm of positive ease.",
    ),
    _slip(
        "brackets are said to hold a size that is the first",
        "hat",
        "prose.size-words",
        "can be folded up once.",
        "can be folded up once. Sizes are given as M (S, L, XL).",
    ),
    _slip(
        "balls of another weight are bought",
        "hat",
        "prose.ball",
        "can be folded up once.",
        "can be folded up once. A ball of 100 g is enough for the stripes.",
    ),
    _slip(
        "the crown of a hat from the brim is said to come first",
        "hat",
        "prose.order",
        "can be folded up once.",
        "can be folded up once. The crown is worked first.",
        "prose.direction",
    ),
    _slip(
        "the advice for a tight knitter makes it tighter",
        "hat",
        "prose.swatch",
        "can be folded up once.",
        "can be folded up once. If your swatch has too many stitches, use a smaller needle.",
    ),
    _slip(
        "sleeves that are made alike are said to be mirrored",
        "pullover",
        "prose.hands",
        "all else with the larger needles in Navy.",
        "all else with the larger needles in Navy. The second sleeve is the mirror image of the "
        "first.",
    ),
    _slip(
        "the ribs are said to be in the other yarn",
        "pullover",
        "prose.yarn",
        "with the smaller needles in Chalk, all else with the larger needles in Navy.",
        "in Navy.",
    ),
    _slip(
        "two figures of two sizes that nothing in the pattern has",
        "cowl",
        "prose.count",
        "finishing: Weave in the ends and wash the cowl.",
        "finishing: Weave in the ends and wash the cowl. You have 71 (93) stitches at the end.",
    ),
    Fault(
        "the face is embroidered in a yarn that no amount is told of",
        "toy",
        "yarn.uncounted",
        (
            Swap(
                "  coal: {name: Coal,",
                '  pink: {name: Pink, colour: "#d98aa0", weight: 4, fibre: 100 % acrylic, '
                "ball: 50 g = 95 m}\n  coal: {name: Coal,",
            ),
            Swap(
                "      - say: Fill the nose and the belly firmly.",
                "      - say: Embroider two cheeks in Pink. Fill the nose and the belly firmly.\n"
                "        yarn: pink",
            ),
        ),
    ),
    Fault(
        "buttons on a bonnet that is declared to have small parts",
        "bonnet",
        "wearer.fastening",
        (
            Swap("wearer: [infant]\n", "wearer: [infant]\nhazards: [small parts]\n"),
            Swap(
                "  Fold the cast-off edge",
                "  Sew the 2 buttons on firmly with doubled thread, and pull at each. Fold the "
                "cast-off edge",
            ),
        ),
        also=("notion.count", "wearer.safety"),
    ),
    _slip(
        "a hat in two colors is said to carry three",
        "hat",
        "prose.count",
        "can be folded up once.",
        "can be folded up once. You carry three colors.",
    ),
    _slip(
        "an edge that has to stretch is bound off tightly",
        "hat",
        "prose.fact",
        "can be folded up once.",
        "can be folded up once. Bind off tightly.",
    ),
    _slip(
        "the waves are told in the color of their ground",
        "hat",
        "prose.colour",
        "alt: Low light waves on a dark ground",
        "alt: Low dark waves on a light ground",
    ),
    _slip(
        "a circular needle that is longer than the hat is wide",
        "hat",
        "tool.fit",
        '"4 mm circular needle, 40 cm (16 in) long"',
        '"4 mm circular needle, 80 cm (32 in) long"',
    ),
    _slip(
        "the sides are sewn before the sleeves are set in flat",
        "pullover",
        "finish.order",
        "Sew the side\n  seams and the seams of the sleeves.",
        "Sew the side\n  seams, then the sleeves flat between the markers.",
    ),
    _slip(
        "a sentence of its own tells one size too many",
        "pullover",
        "prose.count",
        "Weave in the ends on the wrong side.",
        "Weave in the ends on the wrong side. Seven sizes, from small to large.",
    ),
    _slip(
        "the label of a child's pullover hangs by a stitch",
        "pullover",
        "wearer.loose",
        "Weave in the ends on the wrong side.",
        "Weave in the ends on the wrong side, and attach each label with one stitch.",
    ),
    _slip(
        "ends are left to hang in a child's pullover",
        "pullover",
        "wearer.uses",
        "Weave in the ends on the wrong side.",
        "Leave the ends hanging on the wrong side.",
    ),
    _slip(
        "the ends of a child's pullover are left long on its outside",
        "pullover",
        "wearer.uses",
        "Weave in the ends on the wrong side.",
        "Leave all tails long on the outside.",
    ),
    _slip(
        "a child's pullover comes up over the mouth",
        "pullover",
        "wearer.uses",
        "Weave in the ends on the wrong side.",
        "Weave in the ends on the wrong side. The neckband reaches up over the mouth.",
    ),
    _slip(
        "the dictionary knows the word that is not meant",
        "pullover",
        "prose.word",
        "Weave in the ends on the wrong side.",
        "Break of the yarn. Weave in the ends on the wrong side.",
    ),
    Fault(
        "a cell of a drawing whose halves are alike slips to the side",
        "netmender-mittens",
        "chart.symmetry",
        (
            Swap(
                "--..--\n.-..-.\n..--..\n..--..",
                "--..--\n.-.-..\n..--..\n..--..",
                "net.grid",
            ),
        ),
    ),
    Fault(
        "the left front is shaped for the neck at its side seam",
        "pilot-jacket",
        "piece.centre",
        (
            Swap(
                '["k all", "bind off {neck_bind}, p to end"]',
                '["bind off {neck_bind}, k to end", "p all"]',
            ),
            Swap('["k to last 3, k2tog, k1", p all]', '["k1, ssk, k to end", p all]'),
        ),
    ),
    _slip(
        "a sleeve length with a nought too many, in every size",
        "pullover",
        "measure.body",
        "sleeve_length: [26 cm, 30 cm, 33 cm, 36 cm]",
        "sleeve_length: [260 cm, 300 cm, 330 cm, 360 cm]",
    ),
)
