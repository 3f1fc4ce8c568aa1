"""The seeded faults: slips that designers make, each with the check that must see it."""

from tests.faults.editing import EDITED
from tests.faults.restatements import RESTATED
from tests.faults.seeding import Fault, Swap, fault

WAVES, SAILS = "waves.grid", "sails.grid"

# ---------------------------------------------------------------- longer pieces of source

RIB_GAUGE = """\
  rib:
    stitches: 20
    rounds: 26
    over: 10 cm
    worked: rib, flat
    tool: 5 mm needles
"""

KELP = """
  kelp: {name: Kelp, colour: "#a08a3e", weight: 4, fibre: 100 % wool, ball: 50 g = 100 m}"""

LOOP = """\
  loop:
    uses: 1
    makes: 1
    name: long loop
    how: Knit one and wrap the yarn twice around the needle.
"""

MANY_LETTERS = "abcdefghijklmnopqrstuvwx"

MANY = "".join(
    f"  loop_{letter}: {{uses: 1, makes: 1, name: loop {letter}, "
    f"how: Knit one and wrap the yarn around it {turns} times.}}\n"
    for turns, letter in enumerate(MANY_LETTERS, start=2)
)

MANY_CHART = f"""\
charts:
  loops:
    title: Loops
    grid: loops.grid
    legend: {{{", ".join(f"{letter}: loop_{letter}" for letter in MANY_LETTERS)}}}
    alt: Loops that grow longer from stitch to stitch.
"""

HOLES = """\
      - section: Second edge
      - work: k all
        rounds: 3
      - work: "k2, *bind off 1, cast on 2, k2; repeat from * to end"
"""

LACE_AFTER_3 = """\
      - work: k all
        rounds: 3
      - section: Lace"""

ROPE_CHART = """\
  rope:
    title: Rope
    grid: rope.grid
    legend: {"/": foam, ".": night}
    alt: White strokes that slant over a dark ground.
"""

# ---------------------------------------------------------------- the file and its values

SOURCE = (
    fault(
        "a quotation mark is not closed",
        "hat",
        "yaml.open-quote",
        Swap("title: Slipway Hat", 'title: "Slipway Hat'),
    ),
    fault(
        "a size is listed twice",
        "hat",
        "yaml.twice",
        Swap("  L: {head: 61 cm}", "  M: {head: 61 cm}"),
    ),
    fault(
        "a text with a colon lacks its quotation marks",
        "wrap",
        "yaml.second-colon",
        Swap("use: edge}", "use: edge}\n  - name: hook: 5 mm"),
    ),
    fault("a colour lacks a digit", "hat", "source.format", Swap('"#39434f"', '"#39434"')),
    fault(
        "a word for the terms is made up", "hat", "source.choice", Swap("terms: US", "terms: USA")
    ),
    fault("the title is forgotten", "mitts", "source.missing", Swap("title: Bollard Mitts\n", "")),
    fault(
        "a key is misspelt",
        "mitts",
        "source.unknown-key",
        Swap("        pick up: 3", "        pickup: 3"),
    ),
    fault(
        "a length lacks its unit", "hat", "length.without-unit", Swap("{head: 52 cm}", "{head: 52}")
    ),
    fault("a ball lacks its length", "mitts", "ball.malformed", Swap("50 g = 120 m", "50 g")),
    fault(
        "a size lacks its measurement",
        "hat",
        "source.size-measurement",
        Swap("L: {head: 61 cm}\n  XL: {head: 64.5 cm}", "L: {head: 61 cm}\n  XL: {}"),
    ),
    fault(
        "a step names a yarn that is not there",
        "wrap",
        "source.unknown-yarn",
        Swap("- cast on: band", "- cast on: band\n        yarn: tied"),
    ),
    fault(
        "a step names a chart that is not there",
        "hat",
        "source.unknown-chart",
        Swap("- chart: waves", "- chart: wave"),
    ),
    fault(
        "a grid file is misspelt",
        "hat",
        "file.missing",
        Swap("grid: waves.grid", "grid: wave.grid"),
    ),
    fault("a line of the grid is short", "hat", "grid.ragged", Swap("..##", "..#", WAVES)),
    fault(
        "a line of the grid ends in a space",
        "hat",
        "grid.trailing-space",
        Swap("#..#\n", "#..# \n", WAVES),
    ),
    fault(
        "a character of the grid has no meaning",
        "hat",
        "source.grid-character",
        Swap("#..#", "#x.#", WAVES),
    ),
)

# ---------------------------------------------------------------- stitches and rounds

COUNTS = (
    fault(
        "the cast-on is one stitch off",
        "hat",
        "row.left-over",
        Swap("cast on: cast_on", "cast on: cast_on + 1"),
    ),
    fault(
        "the multiple forgets the rib",
        "hat",
        "row.left-over",
        Swap("multiple = 8)", "multiple = 2)"),
    ),
    fault(
        "the crown has the wrong number of wedges",
        "hat",
        "crown.wedges",
        Swap("- crown: 8\n        to: 8", "- crown: 7\n        to: 7"),
    ),
    fault(
        "the chart is wider than what repeats",
        "hat",
        "chart.width",
        Swap(
            "....\n##..\n.##.\n..##\n#..#\n....",
            ".....\n##...\n.##..\n..##.\n#..##\n.....",
            WAVES,
        ),
    ),
    fault(
        "the picture does not go around the tube",
        "tube",
        "picture.width",
        Swap(
            "....w...\n...ww...\n...www..\n..wwww..\n~~~~~~~~\n~w~~~w~~\nwww~www~\n~~~~~~~~",
            "....w..\n...ww..\n...www.\n..wwww.\n~~~~~~~\n~w~~~w~\nwww~www\n~~~~~~~",
            SAILS,
        ),
    ),
    fault(
        "the picture is higher than what is seen of the tube",
        "tube",
        "picture.height",
        Swap("visible: [22 cm, 23 cm]", "visible: [6 cm, 6.5 cm]"),
    ),
    fault(
        "the picture begins at the lower edge, where the brim is turned up over it",
        "tube",
        "picture.covered",
        Swap("start: rounds(brim), ", "start: 1, "),
    ),
    fault(
        "a list of figures lacks a size",
        "hat",
        "amount.sizes",
        Swap("[10, 11, 12, 13]", "[10, 11, 12]"),
    ),
    fault(
        "a formula names a measure that is not there",
        "hat",
        "formula.unknown-name",
        Swap("rounds(rib)", "rounds(ribs)"),
    ),
    fault(
        "two measures need each other",
        "hat",
        "formula.loop",
        Swap("rib: [4 cm, 4 cm, 4.5 cm, 5 cm]", "rib: height(rib_rounds)"),
    ),
    fault(
        "a length is added to a count",
        "hat",
        "formula.kinds",
        Swap("rib_rounds + plain + plain + 6\n\nfin", "rib + plain + plain + 6\n\nfin"),
    ),
    fault(
        "the gusset can't grow to its count",
        "mitts",
        "taper.count",
        Swap("[11, 13, 15]", "[12, 14, 16]"),
    ),
    fault(
        "a row uses more stitches than are live",
        "mitts",
        "row.too-many",
        Swap('"k{half}, pm, m1l', '"k{half}, k{half}, k2, pm, m1l'),
    ),
    fault(
        "a row forgets its last stitches",
        "mitts",
        "row.too-few",
        Swap("m1l, pm, k to end", "m1l, pm"),
    ),
    fault(
        "a row works to a marker that was never placed",
        "mitts",
        "row.no-marker",
        Swap('"k{half}, pm, m1l, pm, k to end"', '"k{half}, m1l, k to end"'),
    ),
    fault("a stitch is misspelt", "wrap", "row.unknown-stitch", Swap("k2tog, k1", "k2tg, k1")),
    fault(
        "a repeat does not say how far it goes",
        "hat",
        "row.read-as",
        Swap("*k2, p2; repeat from * to end", "*k2, p2; repeat from *"),
    ),
    fault(
        "a row is worked in a manner that no row has a place for",
        "wrap",
        "row.manner",
        Swap("k1, ssk", "k1 loosely, ssk"),
    ),
    fault(
        "a row says another count than it leaves",
        "mitts",
        "row.stated",
        Swap('"k{half}, pm, m1l, pm, k to end"', '"k{half}, pm, m1l, pm, k to end. 7 sts"'),
    ),
    fault(
        "a repeat is not ended",
        "hat",
        "row.unreadable",
        Swap("*k2, p2; repeat from * to end", "*k2, p2"),
    ),
    fault(
        "the shaping has too few rows",
        "wrap",
        "taper.room",
        Swap("rows(36 cm, multiple = 2)", "rows(12 cm, multiple = 2)"),
    ),
    fault(
        "a decrease is called an increase",
        "mitts",
        "even.direction",
        Swap("even: decrease", "even: increase"),
    ),
    fault(
        "fewer stitches come back than were held",
        "mitts",
        "piece.held",
        Swap("- held: gusset", "- held: gusset - 1"),
    ),
    fault(
        "a piece is not bound off",
        "wrap",
        "piece.unfinished",
        Swap("      - bind off: all\n      - section: Edge", "      - section: Edge"),
    ),
    fault(
        "one panel has a stitch more than the one it is joined to",
        "bag",
        "piece.join-count",
        Swap(
            """    title: Right panel
    worked: flat
    steps:
      - cast on: panel
""",
            """    title: Right panel
    worked: flat
    steps:
      - cast on: panel + 1
""",
        ),
    ),
    fault(
        "a ring is to be grafted to a start that is closed",
        "bag",
        "piece.join",
        Swap("        method: waste yarn\n", ""),
    ),
    fault(
        "a panel is left live and the other is bound off",
        "bag",
        "piece.never-joined",
        Swap(
            "      - join: left\n        by: three-needle bind-off\n",
            "      - bind off: all\n",
        ),
    ),
    fault(
        "an edging turns a corner that is not there",
        "bag",
        "row.no-marker",
        Swap("        sides: [side, panel, side]", "        sides: [side, panel]"),
    ),
    fault(
        "a marker is placed anew in every round",
        "mitts",
        "piece.markers",
        Swap(
            "      - section: Hand\n",
            "      - work: pm, k to end\n        rounds: 600\n      - section: Hand\n",
        ),
    ),
    fault(
        "a row increases in every stitch of every round",
        "mitts",
        "piece.stitches",
        Swap(
            "      - section: Hand\n",
            "      - work: kfb to end\n        rounds: 60\n      - section: Hand\n",
        ),
    ),
    fault(
        "a summary has a sign that no typeface has",
        "hat",
        "font.glyph",
        Swap("summary: A snug hat", "summary: A snug 🧢 hat"),
    ),
    fault(
        "a new piece starts while stitches are live",
        "mitts",
        "piece.still-live",
        Swap("      - gather: all\n      - section: Thumb", "      - section: Thumb"),
    ),
    fault(
        "a text prints a measure that is not there",
        "hat",
        "prose.name",
        Swap("{{ cast_on }}", "{{ caston }}"),
    ),
    fault(
        "a yarn is listed and never used",
        "tube",
        "yarn.unused",
        Swap(
            "  foam: {name",
            '  brick: {name: Brick, colour: "#b3472f", weight: 4, fibre: 100 % acrylic, '
            "ball: 50 g = 95 m}\n  foam: {name",
        ),
    ),
)

# ---------------------------------------------------------------- gauge and yarn

MATERIALS = (
    fault(
        "stitches and rounds changed places",
        "hat",
        "gauge.swapped",
        Swap("stitches: 20\n  rounds: 28", "stitches: 20\n  rounds: 18"),
    ),
    fault(
        "the gauge is counted over 5 cm",
        "wrap",
        "gauge.short",
        Swap(
            "stitches: 18\n  rounds: 25\n  over: 10 cm", "stitches: 9\n  rounds: 12.5\n  over: 5 cm"
        ),
    ),
    fault(
        "the gauge does not name its needle",
        "hat",
        "gauge.words",
        Swap("  tool: 4.5 mm needle\n", ""),
    ),
    fault(
        "the gauge does not name its stitch",
        "mitts",
        "gauge.words",
        Swap("  worked: stockinette in the round\n", ""),
    ),
    fault(
        "a gauge is left over",
        "wrap",
        "gauge.unused",
        Swap(
            "yarns:\n",
            RIB_GAUGE + "\nyarns:\n",
        ),
    ),
    fault(
        "the category is another yarn's",
        "mitts",
        "yarn.weight-gauge",
        Swap("weight: 3", "weight: 1"),
        Swap("50 g = 120 m", "50 g = 170 m"),
    ),
    fault(
        "the ball's length lost a digit",
        "mitts",
        "yarn.ball-length",
        Swap("50 g = 120 m", "50 g = 12 m"),
    ),
    fault("two yarns have one name", "hat", "yarn.same-name", Swap("name: Foam", "name: Slate")),
    fault("the fibre is left out", "mitts", "yarn.fibre", Swap("fibre: 100 % wool, ", "")),
    fault(
        "the fibres come to more than all",
        "scarf",
        "yarn.fibre",
        Swap("70 % alpaca, 30 % silk", "70 % alpaca, 40 % silk"),
    ),
    fault(
        "a button too few is listed",
        "vest",
        "notion.count",
        Swap("- 5 buttons", "- 4 buttons"),
    ),
    fault(
        "the waste yarn is too short",
        "tube",
        "notion.waste-yarn",
        Swap("- Smooth waste yarn in another color", "- Smooth waste yarn, 20 m (22 yd)"),
    ),
    fault(
        "a button too many is listed",
        "vest",
        "notion.count",
        Swap("- 5 buttons", "- 6 buttons"),
    ),
    fault(
        "two digits of an adult's neck changed places",
        "cowl",
        "body.range",
        Swap("Adult: {neck: 14 in}", "Adult: {neck: 41 in}"),
    ),
    fault(
        "the hook is not listed",
        "wrap",
        "tool.missing",
        Swap("  - {name: 4 mm crochet hook, use: edge}\n", ""),
    ),
    fault(
        "the blunt needle is not listed",
        "hat",
        "tool.missing",
        Swap("  - {name: blunt tapestry needle, use: ends}\n", ""),
    ),
    fault(
        "the waste yarn for the thumb is not listed",
        "mitts",
        "tool.missing",
        Swap("  - 30 cm (12 in) of smooth waste yarn\n", ""),
    ),
    fault(
        "a cable needle is listed and no cable worked",
        "hat",
        "tool.unused",
        Swap("notions:\n", "  - {name: cable needle, use: body}\nnotions:\n"),
    ),
    fault(
        "the swatch has another needle than the tools",
        "mitts",
        "tool.gauge",
        Swap("  tool: 4 mm needle", "  tool: 3.75 mm needle"),
    ),
    fault(
        "a needle size that nobody makes",
        "hat",
        "tool.size",
        Swap('"4 mm circular', '"4.1 mm circular'),
    ),
    fault(
        "a US number that is another size",
        "hat",
        "tool.size",
        Swap("set of 4.5 mm", "set of 4.5 mm (US 8)"),
    ),
    fault(
        "a UK number that is another size",
        "hat",
        "tool.size",
        Swap("set of 4.5 mm", "set of 4.5 mm (UK 8)"),
    ),
    fault(
        "inches that no needle is sold as",
        "hat",
        "tool.size",
        Swap("4 mm circular needle, 40 cm (16 in)", "4 mm circular needle, 40 cm (15½ in)"),
    ),
    fault(
        "one marker too few is listed", "mitts", "marker.count", Swap("- 3 markers", "- 2 markers")
    ),
    fault(
        "markers are listed that nothing needs",
        "hat",
        "marker.count",
        Swap("- 1 marker for the start of the round", "- 4 markers for the start of the round"),
    ),
    fault(
        "no marker is listed",
        "tube",
        "marker.count",
        Swap("  - 2 markers for the half rounds\n", ""),
    ),
)

# ---------------------------------------------------------------- sizes and fit

SIZES = (
    fault(
        "two digits of a size changed places",
        "hat",
        "size.order",
        Swap("M: {head: 56.5 cm}", "M: {head: 51.5 cm}"),
    ),
    fault(
        "a size is a copy of its neighbour",
        "mitts",
        "size.same",
        Swap("Man: {hand: 21.5 cm}", "Man: {hand: 18.5 cm}"),
    ),
    fault(
        "a figure of a list is mistyped",
        "hat",
        "measure.steps",
        Swap("[4 cm, 4 cm, 4.5 cm, 5 cm]", "[4 cm, 6 cm, 4.5 cm, 5 cm]"),
    ),
    fault(
        "the last figure of a list leaps",
        "hat",
        "measure.steps",
        Swap("[10, 11, 12, 13]", "[10, 11, 12, 22]"),
    ),
    fault(
        "a formula takes away where it should add",
        "mitts",
        "finished.order",
        Swap("cuff_rounds: rounds(6 cm)", "cuff_rounds: rounds(14 cm - hand / 2)"),
    ),
    fault(
        "inches were typed as centimetres",
        "wrap",
        "body.range",
        Swap("chest: 86 cm", "chest: 34 cm"),
        Swap("chest: 96 cm", "chest: 38 cm"),
        Swap("chest: 106 cm", "chest: 42 cm"),
    ),
    fault(
        "a hat for babies names adults only",
        "hat",
        "wearer.sizes",
        Swap(
            "S: {head: 52 cm}\n  M: {head: 56.5 cm}\n  L: {head: 61 cm}\n  XL: {head: 64.5 cm}",
            "S: {head: 43.5 cm}\n  M: {head: 48 cm}\n  L: {head: 52 cm}\n  XL: {head: 56.5 cm}",
        ),
    ),
    fault(
        "ease is added where it should be taken away",
        "hat",
        "fit.ease",
        Swap("head * 92 %", "head * 108 %"),
    ),
    fault(
        "a coarse multiple moves a size",
        "mitts",
        "measure.rounding",
        Swap("hand + 1 cm, multiple = 4", "hand + 1 cm, multiple = 8"),
    ),
    fault(
        "one size alone has other ease",
        "mitts",
        "fit.even",
        Swap("stitches(hand + 1 cm, multiple = 4)", "[36, 44, 56]"),
    ),
    fault(
        "the finished width is typed and was never changed",
        "hat",
        "stated.width",
        Swap("Circumference: width(cast_on)", "Circumference: [50 cm, 54 cm, 58 cm, 62 cm]"),
    ),
    fault(
        "the schematic has another width than the piece",
        "mitts",
        "stated.width",
        Swap("around: width(hand_stitches)\n      cuff", "around: hand + 3 cm\n      cuff"),
    ),
    fault(
        "the finished depth is typed and was never changed",
        "hat",
        "stated.height",
        Swap(
            "Depth to the crown: height(side_rounds)",
            "Depth to the crown: [16 cm, 17 cm, 18 cm, 20 cm]",
        ),
        Swap("  side_rounds: rib_rounds + plain + plain + 6\n", ""),
    ),
    fault(
        "a measure is left over",
        "hat",
        "measure.unused",
        Swap("  plain: [", "  brim: 5 cm\n  plain: ["),
    ),
)

# ---------------------------------------------------------------- charts, colours, floats

CHARTS = (
    fault(
        "a run in the chart is too long to float",
        "hat",
        "float.long",
        Swap(
            "....\n##..\n.##.\n..##\n#..#\n....",
            "........\n#.......\n##......\n.##.....\n..##....\n........",
            WAVES,
        ),
    ),
    fault(
        "a run is longer than 2.5 cm by less than half a stitch",
        "hat",
        "float.edge",
        Swap("  stitches: 20\n", "  stitches: 22\n"),
        Swap(
            "....\n##..\n.##.\n..##\n#..#\n....",
            "........\n##......\n.##.....\n..##....\n...##...\n........",
            WAVES,
        ),
    ),
    fault(
        "a run is too long across the start of the round only",
        "hat",
        "float.long",
        Swap(
            "....\n##..\n.##.\n..##\n#..#\n....",
            "........\n..##....\n..##....\n...##...\n...##...\n........",
            WAVES,
        ),
    ),
    fault(
        "a row in words floats too far",
        "hat",
        "float.long",
        Swap(
            "      - work: k all\n        rounds: plain\n      - chart: waves",
            '      - work: "*k2 foam, k6 slate; repeat from * to end"\n        rounds: plain\n'
            "      - chart: waves",
        ),
    ),
    fault(
        "a round takes up a third yarn",
        "hat",
        "chart.three-yarns",
        Swap('"#": foam}', '"#": foam, "o": kelp}'),
        Swap("\n\ntools:", KELP + "\n\ntools:"),
        Swap("#..#", "#.o#", WAVES),
    ),
    fault(
        "two yarns are one in grey print",
        "hat",
        "colour.alike",
        Swap('"#39434f"', '"#4f7a2e"'),
        Swap('"#e9eef0"', '"#c2562f"'),
    ),
    fault(
        "two yarns of the picture look the same",
        "tube",
        "colour.alike",
        Swap('"#7fb0ba"', '"#2b3a52"'),
    ),
    fault(
        "a legend has an entry that the grid has not",
        "hat",
        "chart.legend-unused",
        Swap('"#": foam}', '"#": foam, "o": {yarn: foam, stitch: p}}'),
    ),
    fault(
        "a baby's bonnet may stay on in the cot",
        "bonnet",
        "wearer.permitted",
        Swap("seam. Weave in", "seam. The bonnet may stay on in the cot. Weave in"),
    ),
    fault(
        "a baby's bonnet need not be taken off before the baby sleeps",
        "bonnet",
        "wearer.waived",
        Swap(
            "seam. Weave in",
            "seam. You need not take it off before the baby sleeps. Weave in",
        ),
    ),
    fault(
        "two letters of a legend are changed about",
        "hat",
        "chart.legend-letters",
        Swap('{".": slate, "#": foam}', "{f: slate, s: foam}"),
        Swap("....\n##..\n.##.\n..##\n#..#\n....", "ffff\nssff\nfssf\nffss\nsffs\nffff", WAVES),
    ),
    fault(
        "two characters of a legend mean one yarn",
        "hat",
        "chart.legend-twice",
        Swap('"#": foam}', '"#": foam, "o": foam}'),
        Swap("#..#", "o..#", WAVES),
    ),
    fault(
        "a chart has more stitches of the designer's own than there are symbols",
        "wrap",
        "chart.one-symbol",
        Swap("pieces:\n", MANY_CHART + "\npieces:\n"),
        Swap("stitches:\n", "stitches:\n" + MANY),
        Swap("        times: 3\n", "        times: 3\n      - chart: loops\n"),
        Swap("", f"{MANY_LETTERS}\n{MANY_LETTERS}\n", "loops.grid"),
    ),
    fault(
        "a chart is drawn and never worked",
        "tube",
        "chart.unused",
        Swap("pieces:\n", ROPE_CHART + "\npieces:\n"),
        Swap("", "./\n/.\n", "rope.grid"),
    ),
    fault(
        "the chart stops in its middle",
        "hat",
        "chart.part-repeat",
        Swap("- chart: waves", "- chart: waves\n        rounds: 9"),
        Swap("plain + plain + 6\n\n", "plain + plain + 9\n\n"),
        Swap("height(plain + plain + 6)", "height(plain + plain + 9)"),
    ),
    fault(
        "an older grid is left in the folder",
        "hat",
        "grid.unused",
        Swap("", "....\n####\n", "waves-old.grid"),
    ),
    fault(
        "the alternative text is a file name",
        "hat",
        "alt.words",
        Swap(
            "alt: Low light waves on a dark ground, each four stitches long and six rounds high.",
            "alt: waves.grid",
        ),
    ),
    fault(
        "the alternative text says only chart",
        "tube",
        "alt.words",
        Swap(
            "alt: Two white sails side by side above light blue water with white crests.",
            "alt: Chart of the sails.",
        ),
    ),
    fault(
        "stripes of a single round",
        "tube",
        "stripe.single",
        Swap(
            "    colour plan: {shortest stripe: 2}\n",
            "    colour plan: {minutes per change: 0.5}\n",
        ),
    ),
)

# ---------------------------------------------------------------- pieces and shaping

PIECES = (
    fault(
        "the right front is a copy of the left",
        "wrap",
        "piece.mirror",
        Swap("k1, ssk, k to end", "k to last 3, k2tog, k1"),
    ),
    fault(
        "the right front has another length",
        "wrap",
        "piece.mirror",
        Swap(
            'k1, ssk, k to end"\n        to: upper\n        over: front_rows',
            'k1, ssk, k to end"\n        to: upper\n        over: front_rows + 2',
        ),
    ),
    fault(
        "both increases lean the same way",
        "mitts",
        "shaping.lean",
        Swap("sm, m1r, k to marker, m1l, sm", "sm, m1l, k to marker, m1l, sm"),
    ),
    fault(
        "a marker is placed and forgotten",
        "mitts",
        "marker.unused",
        Swap(
            "      - even: decrease",
            '      - work: "k{half}, pm, k to end"\n      - even: decrease',
        ),
    ),
    fault(
        "nothing says to join the round",
        "mitts",
        "edge.join",
        Swap("Join to work in the round without twisting, and mark", "Mark"),
    ),
    fault(
        "an opening is bound off without a word on stretch",
        "mitts",
        "edge.stretch",
        Swap(
            '      - work: "*k2tog; repeat from * to end"\n      - gather: all\n\nfin',
            "      - bind off: all\n\nfin",
        ),
    ),
    fault(
        "a tube is told to turn",
        "hat",
        "wording.rows-in-tube",
        Swap(
            "twisting the stitches, and place",
            "twisting the stitches, knit to the end and turn, and place",
        ),
    ),
    fault(
        "a tube speaks of rows",
        "mitts",
        "wording.rows-in-tube",
        Swap(
            "note: The stitch between the markers is the first",
            "note: On the next row the stitch between the markers is the first",
        ),
    ),
    fault(
        "a flat piece is joined in the round",
        "wrap",
        "wording.rounds-in-panel",
        Swap(
            "note: Keep the knots loose", "note: Join to work in the round and keep the knots loose"
        ),
    ),
    fault(
        "a section lost its steps",
        "wrap",
        "section.empty",
        Swap("      - section: Edge\n", "      - section: Edge\n      - section: Border\n"),
    ),
    fault(
        "two sections have one name",
        "hat",
        "title.twice",
        Swap("- section: Crown", "- section: Body"),
    ),
    fault(
        "a formula comes out at no rounds",
        "mitts",
        "step.nothing",
        Swap(
            "      - section: Thumb gusset",
            "      - work: k all\n        rounds: cuff_rounds - 18\n      - section: Thumb gusset",
        ),
    ),
    fault(
        "the crown decreases too slowly",
        "hat",
        "crown.shape",
        Swap(
            "- crown: 8\n        to: 8\n        pace: every other, then every",
            "- crown: 4\n        to: 4\n        pace: every other",
        ),
    ),
    fault(
        "a stitch of the designer's own is not worked",
        "wrap",
        "stitch.unused",
        Swap(
            "stitches:\n",
            "stitches:\n" + LOOP,
        ),
    ),
    fault(
        "a stitch of the designer's own is not explained",
        "wrap",
        "stitch.how",
        Swap(
            'how: "Purl two together, leave them on the needle, knit them together, and let them '
            'go."',
            "how: see video",
        ),
    ),
)

# ---------------------------------------------------------------- the designer's words

WORDS = (
    fault(
        "a count in the text is from an older version",
        "hat",
        "prose.count",
        Swap("worked on {{ cast_on }} stitches", "worked on 88 stitches"),
    ),
    fault(
        "a count in the text is right for one size only",
        "hat",
        "prose.count",
        Swap("worked on {{ cast_on }} stitches", "worked on 104 stitches"),
    ),
    fault(
        "the text counts the sizes wrongly",
        "hat",
        "prose.count",
        Swap("for windy days", "in 5 sizes, for windy days"),
    ),
    fault(
        "the machine has other needles in the tools",
        "tube",
        "prose.count",
        Swap("machine with 48 needles", "machine with 46 needles"),
    ),
    fault(
        "a list of figures in the text lacks a size",
        "hat",
        "prose.sizes",
        Swap("worked on {{ cast_on }} stitches", "worked on 96 (104, 112) stitches"),
    ),
    fault(
        "a list of figures in the text is an older one",
        "hat",
        "prose.count",
        Swap("worked on {{ cast_on }} stitches", "worked on 92 (100, 108, 116) stitches"),
    ),
    fault(
        "the inches are those of another length",
        "mitts",
        "prose.inches",
        Swap("30 cm (12 in)", "30 cm (10 in)"),
    ),
    fault("a length has no inches", "mitts", "prose.units", Swap("30 cm (12 in)", "30 cm")),
    fault(
        "a UK word in US terms",
        "hat",
        "prose.spelling",
        Swap("carry two colors", "carry two colours"),
    ),
    fault(
        "a US word in UK terms",
        "wrap",
        "prose.spelling",
        Swap("stocking stitch, flat", "stockinette, flat"),
    ),
    fault(
        "UK casting off in US terms",
        "mitts",
        "prose.spelling",
        Swap("Close the gap", "Cast off loosely. Close the gap"),
    ),
    fault(
        "a note to oneself is left in the text",
        "hat",
        "prose.unfinished",
        Swap("can be folded up once", "can be folded up TODO check once"),
    ),
    fault(
        "a word stands twice",
        "hat",
        "prose.doubled",
        Swap("can be folded up once", "can be be folded up once"),
    ),
    fault(
        "a bracket is not closed",
        "hat",
        "prose.brackets",
        Swap("can be folded up once", "can be folded up (once or twice"),
    ),
    fault(
        "an abbreviation is used that nothing explains",
        "mitts",
        "abbreviation.undefined",
        Swap("Close the gap at the thumb", "Close the gap at the thumb with an ssk"),
    ),
    fault(
        "a trade abbreviation is not explained",
        "wrap",
        "abbreviation.undefined",
        Swap("Sew the band to", "With RS out, sew the band to"),
    ),
    fault(
        "a button on a child's mitten",
        "mitts",
        "wearer.hazards",
        Swap("  - 3 markers", "  - 3 markers\n  - two flat buttons for the cuffs"),
    ),
    fault(
        "a cord between a child's mittens",
        "mitts",
        "wearer.hazards",
        Swap("Close the gap", "Sew a crocheted cord between both mitts. Close the gap"),
    ),
    fault(
        "a pompom on a child's mitten",
        "mitts",
        "wearer.hazards",
        Swap("wash the mitts", "sew on a pompom, wash the mitts"),
    ),
    fault(
        "the version is not among the changes",
        "hat",
        "version.changes",
        Swap('version: "1.1"\ndate', 'version: "1.2"\ndate'),
    ),
    fault(
        "a later version says nothing of its changes",
        "wrap",
        "version.changes",
        Swap('version: "1.0"', 'version: "2.0"'),
    ),
    fault(
        "the change is dated after the pattern",
        "hat",
        "version.date",
        Swap('{version: "1.1", date: 2026-10-05', '{version: "1.1", date: 2027-10-05'),
    ),
    fault(
        "a day that no calendar has",
        "mitts",
        "source.value",
        Swap("date: 2026-12-01", "date: 2026-11-31"),
    ),
    fault(
        "no contact is given",
        "wrap",
        "head.contact",
        Swap("contact: patterns@ebbstow.example\n", ""),
    ),
    fault(
        "no skill is stated",
        "wrap",
        "head.skill",
        Swap("skill: Easy. You knit flat, decrease at one end and crochet an edge.\n", ""),
    ),
    fault(
        "a check is silenced that is not there",
        "hat",
        "silence.unknown",
        Swap("", "\nsilence:\n  - {check: float.lng, because: felted afterwards}\n"),
    ),
    fault(
        "a proof is silenced",
        "hat",
        "silence.proof",
        Swap("", "\nsilence:\n  - {check: row.too-few, because: it is meant so}\n"),
    ),
)

# ---------------------------------------------------------------- other kinds of pieces

OTHERS = (
    fault(
        "the neck is bound off in the middle, and both shoulders are worked as one",
        "vest",
        "piece.parts",
        Swap(
            "        rounds: armhole_rows - 2\n      - bind off: all\n  left front:",
            "        rounds: armhole_rows - 4\n"
            '      - work: ["k12, bind off 10, k to end", p all]\n'
            "      - bind off: all\n  left front:",
        ),
    ),
    fault(
        "the body has one row too few, and the rest is worked inside out",
        "vest",
        "row.purl-side-out",
        Swap(
            "        rounds: body_rows\n"
            '      - work: ["k all", "bind off {underarm}, p to end"]\n'
            "      - work: [k all, p all]\n        rounds: armhole_rows - 2\n",
            "        rounds: body_rows\n"
            '      - work: ["k all", "bind off {underarm}, p to end", "k all"]\n'
            "      - work: [k all, p all]\n        rounds: armhole_rows - 3\n",
        ),
    ),
    fault(
        "a row of holes can be counted in two ways",
        "scarf",
        "row.bind-off-reading",
        Swap("      - section: Second edge\n      - work: k all\n        rounds: 4\n", HOLES),
    ),
    fault(
        "a lace row loses a yarn over",
        "scarf",
        "chart.count",
        Swap(".\\o....o/.", ".\\.....o/.", "spray.grid"),
    ),
    fault(
        "the lace begins on a wrong-side row",
        "scarf",
        "chart.side",
        Swap("      - work: k all\n        rounds: 4\n      - section: Lace", LACE_AFTER_3),
    ),
    fault(
        "the lace is a row short, so that its second pass falls on the wrong side",
        "scarf",
        "chart.odd",
        Swap("..........\n...\\oo/...\n", "...\\oo/...\n", "spray.grid"),
    ),
    fault(
        "the repeats of the lace are half forgotten",
        "scarf",
        "stated.height",
        Swap("  Length: height(8 + repeats * 4)", "  Length: height(8 + repeats * 2)"),
    ),
    fault(
        "a US word in a lace scarf in UK terms",
        "scarf",
        "prose.spelling",
        Swap("A light lace scarf", "A light lace scarf of one color"),
    ),
    fault(
        "the stretched length of the finishing is in one unit",
        "scarf",
        "prose.units",
        Swap("stretch it to 25 cm (10 in)", "stretch it to 10 in"),
    ),
    fault(
        "a standard body that is not in the tables",
        "vest",
        "size.unknown-body",
        Swap("like: woman L", "like: woman XL"),
    ),
    fault(
        "a row names a number that is not there",
        "vest",
        "row.unknown-number",
        Swap(
            '"bind off {underarm}, k to end", p all',
            '"bind off {armhole_stitches}, k to end", p all',
        ),
        Swap('"bind off {underarm}, k to end", "bind off {underarm}, p to end"', "k all, p all"),
    ),
    fault(
        "the swatch is small",
        "vest",
        "gauge.short",
        Swap("stitches: 27, width: 15 cm", "stitches: 9, width: 5 cm"),
    ),
    fault(
        "the text names the sizes of an older version",
        "vest",
        "prose.count",
        Swap("in 3 sizes", "in 5 sizes"),
    ),
    fault(
        "the fraction of an inch is wrong",
        "vest",
        "prose.inches",
        Swap("7 cm (2¾ in)", "7 cm (3¾ in)"),
    ),
    fault(
        "the right front ends two rows sooner than the left",
        "vest",
        "piece.mirror",
        Swap(
            '"bind off {underarm}, p to end"]\n      - work: [k all, p all]\n'
            "        rounds: armhole_rows - 2\n      - bind off: all\n\nfin",
            '"bind off {underarm}, p to end"]\n      - work: [k all, p all]\n'
            "        rounds: armhole_rows - 4\n      - bind off: all\n\nfin",
        ),
    ),
    fault(
        "the finished chest forgets a front",
        "vest",
        "fit.ease",
        Swap("width(back_stitches + front_stitches * 2)", "width(back_stitches + front_stitches)"),
    ),
    fault(
        "a size's armhole is typed from another column",
        "vest",
        "measure.steps",
        Swap("[20 cm, 21.5 cm, 23 cm]", "[20 cm, 21.5 cm, 20 cm]"),
    ),
    fault(
        "the cable crosses one stitch too few",
        "cowl",
        "row.left-over",
        Swap("3/3 RC", "3/2 RC"),
    ),
    fault(
        "the cable needle is not listed",
        "cowl",
        "tool.missing",
        Swap("  - {name: cable needle, use: cables}\n", ""),
    ),
    fault(
        "centimetres in a pattern in inches",
        "cowl",
        "prose.units",
        Swap("and wash the cowl", "and block the cowl to a depth of 20 cm"),
    ),
    fault(
        "the US number of the needle is one off",
        "cowl",
        "tool.size",
        Swap("5.5 mm (US 9)", "5.5 mm (US 8)"),
    ),
    fault(
        "a round of the cable is forgotten in the finished depth",
        "cowl",
        "stated.height",
        Swap("height(edge + crosses * 6 + edge)", "height(edge + crosses * 5 + edge)"),
    ),
    fault(
        "another machine",
        "tube",
        "picture.width",
        Swap("needles: 48}", "needles: 46}"),
    ),
    fault(
        "centimetres typed for inches in a body",
        "cowl",
        "fit.ease",
        Swap("Child: {neck: 11 in}", "Child: {neck: 11 cm}"),
    ),
)

TOLD = (
    fault(
        "the sleeve changes to the needles that its cuff was worked on",
        "pullover",
        "prose.needles",
        Swap(
            "      - section: Arm\n      - say: Change to the larger needles.",
            "      - section: Arm\n      - say: Change to the smaller needles.",
        ),
    ),
    fault(
        "the right front is told as the left one",
        "vest",
        "prose.side",
        Swap(
            '      - work: ["k all", "bind off {underarm}, p to end"]\n',
            "      - say: Shape the armhole of the left front.\n"
            '      - work: ["k all", "bind off {underarm}, p to end"]\n',
        ),
    ),
    fault(
        "the lace is said to begin on the wrong side",
        "scarf",
        "prose.side",
        Swap(
            "      - chart: spray\n",
            "      - say: Begin with a wrong-side row.\n      - chart: spray\n",
        ),
    ),
    fault(
        "the sock is said to be worked from the toe",
        "sock",
        "prose.direction",
        Swap(
            "  The heel stitches wait",
            "  The sock is worked from the toe to the cuff. The heel stitches wait",
        ),
    ),
    fault(
        "the chart is said to have two rows more",
        "scarf",
        "prose.chart",
        Swap(
            "      - chart: spray\n",
            "      - say: Work the 6 rows of the chart.\n      - chart: spray\n",
        ),
    ),
    fault(
        "stocking stitch is said where garter stitch is worked",
        "scarf",
        "prose.stitch",
        Swap(
            "      - section: Second edge\n",
            "      - section: Second edge\n      - say: Work in stocking stitch.\n",
        ),
    ),
    fault(
        "one abbreviation for the main yarn and for the main chart",
        "hat",
        "abbreviation.two",
        Swap(
            "stitches and can be folded up once.",
            "stitches. MC is the main color, and MC the main chart.",
        ),
    ),
    fault(
        "a letter too few in a word of the notes",
        "hat",
        "prose.misspelt",
        Swap("can be folded up once", "can be foled up once"),
    ),
    Fault(
        "a ring for the neck as long as a wrist band, which no head passes",
        "striped",
        "ring.head",
        (Swap("  broad: 10", "  broad: 5"),),
        at=("      - join: start",),
    ),
    Fault(
        "a tube on waste yarn is gathered at its top, and its start left to run",
        "striped",
        "piece.open-start",
        (Swap("      - join: start\n      - {close: top, by: left open}", "      - gather: all"),),
        at=("      - cast on: needles",),
        also=("stated.width",),
    ),
    Fault(
        "the piece no longer says that the machine makes it",
        "striped",
        "piece.made",
        (Swap("    made: machine\n", ""),),
        at=("    title: Ring", "  ring:"),
        also=("edge.join", "tool.missing"),
    ),
    Fault(
        "a swatch weighed with the rest of its ball",
        "vest",
        "yarn.swatch",
        (
            Swap(
                "ball: 100 g = 180 m}",
                "ball: 100 g = 180 m, swatch: {stitches: 972, grams: 25, scale: 0.1 g}}",
            ),
        ),
    ),
)

FAULTS: tuple[Fault, ...] = (
    SOURCE
    + COUNTS
    + MATERIALS
    + SIZES
    + CHARTS
    + PIECES
    + WORDS
    + OTHERS
    + TOLD
    + RESTATED
    + EDITED
)
