"""``bindoff compare``, and ``build`` at another gauge or with changes: what a knitter reads."""

import json
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bindoff.cli import main
from bindoff.document.differencewords.data import change_data
from bindoff.document.differencewords.sections import (
    SAME,
    change_blocks,
    change_section,
    measure_blocks,
)
from bindoff.document.tree import Blocks, Heading, ItemList, Paragraph, SizeValues, plain
from bindoff.plan.differences.find import differences
from bindoff.plan.plan import Plan
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed, flap, plan_of

Edit = tuple[str, str]

HAT = Path(__file__).parents[1] / "patterns" / "ropewalk-hat"


def lines_of(blocks: Blocks) -> list[str]:
    """Headings and list items as text; what follows the first block of an item is left out."""
    found: list[str] = []
    for block in blocks:
        match block:
            case Heading(_, children):
                found.append(f"# {plain(children)}")
            case Paragraph(children):
                found.append(plain(children))
            case ItemList(items):
                for item in items:
                    first = item.blocks[0]
                    assert isinstance(first, Paragraph)
                    found.append(plain(first.children))
    return found


def words(old: str | Plan, new: str | Plan, old_grid: str = WAVES, grid: str = WAVES) -> list[str]:
    before = plan_of(old, old_grid) if isinstance(old, str) else old
    after = plan_of(new, grid) if isinstance(new, str) else new
    return lines_of(change_blocks(differences(before, after), 3))


def edited(base: str, *edits: Edit, grid: Edit = ("", "")) -> list[str]:
    """What is said of edits of the source and of its grid, without headings."""
    said = words(base, changed(base, *edits), grid=WAVES.replace(*grid, 1))
    return [line for line in said if not line.startswith("#")]


# ---------------------------------------------------------------- lines


def test_the_same_pattern_has_no_changes() -> None:
    assert words(CAP, CAP) == [SAME]
    assert measure_blocks(differences(plan_of(CAP), plan_of(CAP))) == ()
    assert change_data(differences(plan_of(CAP), plan_of(CAP)))["changes"] == []


def test_a_line_names_step_section_and_size_and_what_it_was() -> None:
    """A step by number and section, one size: the form of an entry in an errata list."""
    text = changed(CAP, ("      - cast on", "      - section: Brim\n      - cast on"))
    said = edited(text, ("M: {head: 56 cm}", "M: {head: 59 cm}"))

    assert "Step 1 (Brim), size M: cast on 112 stitches, was 104." in said


def test_sizes_with_the_same_change_share_a_line() -> None:
    base = changed(CAP, ("  M: {head: 56 cm}", "  M: {head: 56 cm}\n  L: {head: 60 cm}"))
    base = changed(base, ("[20 cm, 21 cm]", "[20 cm, 21 cm, 22 cm]"), ("rounds: 8", "rounds: ribs"))
    base = changed(base, ("measures:\n", "measures:\n  ribs: [8, 8, 10]\n"))

    assert "Step 2, sizes S and M: 9 rounds, was 8." in edited(base, ("[8, 8, 10]", "[9, 9, 10]"))
    assert "Step 2: 9 rounds, was 8." in edited(
        changed(base, ("[8, 8, 10]", "8")), ("ribs: 8", "ribs: 9")
    )
    two = edited(base, ("[8, 8, 10]", "[9, 9, 11]"))
    assert "Step 2, sizes S and M: 9 rounds, was 8." in two
    assert "Step 2, size L: 11 rounds, was 10." in two


def test_many_changes_of_one_figure_stand_side_by_side() -> None:
    base = changed(
        CAP,
        ("  M: {head: 56 cm}", "  M: {head: 56 cm}\n  L: {head: 60 cm}\n  XL: {head: 64 cm}"),
        ("[20 cm, 21 cm]", "[20 cm, 21 cm, 22 cm, 23 cm]"),
        ("rounds: 8", "rounds: ribs"),
        ("measures:\n", "measures:\n  ribs: [8, 8, 10, 12]\n"),
    )

    all_sizes = edited(base, ("[8, 8, 10, 12]", "[9, 9, 11, 14]"))
    assert "Step 2: 9 (9, 11, 14) rounds, was 8 (8, 10, 12)." in all_sizes
    # where a size stays as it was, nobody could count off which figure is whose
    some = edited(base, ("[8, 8, 10, 12]", "[9, 8, 11, 14]"))
    assert [line for line in some if line.startswith("Step 2")] == [
        "Step 2, size S: 9 rounds, was 8.",
        "Step 2, size L: 11 rounds, was 10.",
        "Step 2, size XL: 14 rounds, was 12.",
    ]


def test_figures_of_all_sizes_are_one_node_so_that_each_size_can_be_told_by_itself() -> None:
    base = changed(
        CAP,
        ("  M: {head: 56 cm}", "  M: {head: 56 cm}\n  L: {head: 60 cm}"),
        ("[20 cm, 21 cm]", "[20 cm, 21 cm, 22 cm]"),
        ("rounds: 8", "rounds: ribs"),
        ("measures:\n", "measures:\n  ribs: [8, 9, 10]\n"),
    )
    found = differences(plan_of(base), plan_of(changed(base, ("[8, 9, 10]", "[9, 10, 11]"))))
    lists = [block for block in change_blocks(found, 3) if isinstance(block, ItemList)]
    nodes = [
        node
        for each in lists
        for item in each.items
        for block in item.blocks
        if isinstance(block, Paragraph)
        for node in block.children
        if isinstance(node, SizeValues)
    ]

    assert SizeValues(("9", "10", "11")) in nodes
    assert SizeValues(("8", "9", "10")) in nodes


def test_a_count_that_a_step_only_passes_on_is_not_said_again() -> None:
    said = edited(CAP, ("multiple = 8)", "multiple = 8) + 8"))

    assert [line for line in said if "stitches" in line and line.startswith("Step")] == [
        "Step 1, size S: cast on 104 stitches, was 96.",
        "Step 1, size M: cast on 112 stitches, was 104.",
    ]


def test_what_prints_the_same_is_left_out() -> None:
    """20 stitches and 20.004 print the same, and so does all that follows from them."""
    assert edited(CAP, ("stitches: 20", "stitches: 20.004")) == [SAME]


L = ("  M: {head: 56 cm}\n", "  M: {head: 56 cm}\n  L: {head: 60 cm}\n")
L_DEPTH = ("[20 cm, 21 cm]", "[20 cm, 21 cm, 22 cm]")
M_FIRST = ("  S: {head: 52 cm}\n  M: {head: 56 cm}", "  M: {head: 56 cm}\n  S: {head: 52 cm}")
SAY = ("      - chart", "      - say: Change the needle.\n      - chart")
REST = ("work: k all\n        rounds: rounds(depth) - 30", "say: Rest.")
KNOT = "pieces:\n", "stitches:\n  kk: {uses: 1, makes: 1, name: knot, how: Tie it.}\npieces:\n"
EVEN = changed(CAP, ("      - chart", "      - even: increase\n        to: most\n      - chart"))
EVEN = changed(EVEN, ("measures:\n", "measures:\n  most: cast_on + 8\n"))

SAID: dict[str, tuple[str, list[Edit], list[str]]] = {
    "title": (CAP, [("Quay Cap", "Pier Cap")], ["Title: Pier Cap, was Quay Cap."]),
    "terms": (CAP, [("wearer", "terms: UK\nwearer")], ["Terms: UK, was US."]),
    "short text": (CAP, [("version", "skill: Easy.\nversion")], ["Skill: Easy."]),
    "long text": (
        CAP,
        [("A plain cap", f"A {'very ' * 15}plain cap")],
        [f"Summary, now reads: A {'very ' * 15}plain cap with a band of waves."],
    ),
    "prose with figures": (
        CAP,
        [("pieces:", "finishing: Wash {{ depth }}.\npieces:")],
        ["Finishing, new: Wash 20 (21) cm / 7¾ (8¼) in."],
    ),
    "own stitch": (CAP, [KNOT], ["Abbreviation kk: knot: Tie it."]),
    "another tool": (
        CAP,
        [("4.5 mm circular", "5 mm circular")],
        [
            "Tools: also needed: 5 mm circular needle (throughout); "
            "no longer needed: 4.5 mm circular needle."
        ],
    ),
    "new size": (CAP, [L, L_DEPTH], ["Sizes: L is new."]),
    "order of sizes": (
        CAP,
        [M_FIRST, ("[20 cm, 21 cm]", "[21 cm, 20 cm]")],
        ["Sizes: the order is now M, S, was S, M."],
    ),
    "finished measurement": (
        CAP,
        [("Circumference:", "Around:")],
        [
            "Around: 48 (52) cm / 19 (20½) in, which is new.",
            "Circumference: no longer given.",
        ],
    ),
    "yarn's name": (CAP, [("name: Foam", "name: Spray")], ["Spray: this is the new name of Foam."]),
    "yarn's weight": (
        CAP,
        [('#e9eef0", weight: 4', '#e9eef0", weight: 5')],
        ["Foam: Bulky (5), was Medium (4)."],
    ),
    "gauge": (
        FLAP,
        [("rounds: 28}", "rounds: 28.4, tool: 4 mm needle}")],
        [
            "Gauge: 20 stitches and 28.4 rounds over 10 cm / 4 in, was 20 stitches and 28 rounds; "
            "tool: 4 mm needle."
        ],
    ),
    "row": (
        CAP,
        [("*k2, p2;", "*p2, k2;")],
        ["Step 2: “*P2, k2; repeat from * to end”, was “*K2, p2; repeat from * to end”."],
    ),
    "yarn of a step": (
        CAP,
        [("        rounds: 8", "        rounds: 8\n        yarn: foam")],
        ["Step 2: in Foam, was Slate."],
    ),
    "new step": (CAP, [SAY], ["New step 3: Change the needle."]),
    "changes after a new step": (
        CAP,
        [SAY, ("rounds(depth) - 30", "rounds(depth) - 29")],
        [
            "In all, size S: 58 rounds, was 57.",
            "In all, size M: 63 rounds, was 62.",
            "New step 3: Change the needle.",
            "Step 4, now step 5, size S: 27 rounds, was 26.",
            "Step 4, now step 5, size M: 30 rounds, was 29.",
        ],
    ),
    "step of another kind": (
        CAP,
        [REST],
        [
            "In all, size S: 31 rounds, was 57.",
            "In all, size M: 33 rounds, was 62.",
            "New step 4: Rest.",
            "Step 4 of the earlier version is gone.",
        ],
    ),
    "even round": (
        EVEN,
        [("cast_on + 8", "[cast_on + 16, cast_on + 8]")],
        [
            "In all, size S: 61 rounds, was 59.",
            "Step 3, size S: 112 stitches, was 104; “*K6, M1; repeat from * to end”, "
            "was “*K12, M1; repeat from * to end”.",
            "Step 4, size S: the chart repeats 14 times in every round, was 13.",
            "Step 6, size S: the crown starts with “K12, k2tog”, was “K11, k2tog”; 13 decrease "
            "rounds, was 12; 9 plain rounds, was 8.",
        ],
    ),
    "pace of a taper": (
        FLAP,
        [("over: 20", "over: 22")],
        [
            "In all: 22 rows, was 20.",
            "Step 2: 22 rows, was 20.",
            "Step 2, size S: shape the first row, then every 4th row 4 times, then 5 rows plain, "
            "was the first row, then every 4th row 4 times, then 3 rows plain.",
            "Step 2, size M: shape the first row, then every other row once, then every 4th row "
            "4 times, then 3 rows plain, was the first row, then every other row twice, then "
            "every 4th row 3 times, then 3 rows plain.",
        ],
    ),
    "bind-off": (
        FLAP,
        [("bind off: all", "bind off: all\n        how: loosely"), ("wearer", "terms: UK\nwearer")],
        ["Step 3: cast off loosely.", "Terms: UK, was US."],
    ),
    "tube": (
        TUBE,
        [("[10 cm, 11 cm]", "[10 cm, 12 cm]")],
        [
            "In all, size M: 44 rounds, was 40.",
            "Step 1, size M: the lining ends after round 18, was 16; the fold line is after round "
            "22, was 20; the brim ends after round 26, was 24; the tube ends after round 44, was "
            "40.",
            "Step 2, size M: round 1 of the embroidery chart is round 28 of the tube, was 26.",
        ],
    ),
    "schematic": (
        FLAP,
        [
            (
                "    steps:",
                "    schematic: {shape: panel, lower edge: 9 cm, height: 7 cm}\n    steps:",
            )
        ],
        [
            "Schematic, lower edge: 9 cm / 3½ in, which is new.",
            "Schematic, height: 7 cm / 2¾ in, which is new.",
        ],
    ),
}


def test_other_stripes_are_a_change() -> None:
    pair = "{yarn: slate, rounds: 2}, {yarn: foam, rounds: 3}"
    work = f"- work: k all\n        in stripes: [{pair}]\n        times: 4\n"
    before = changed(CAP, ("- work: k all\n        rounds: rounds(depth) - 30\n", work))
    after = changed(before, ("foam, rounds: 3", "foam, rounds: 4"))
    said = "stripes of 2 in Slate and 4 in Foam, was stripes of 2 in Slate and 3 in Foam."

    assert f"Step 4: 24 rounds, was 20; {said}" in words(before, after)


def test_markers_that_come_off_are_a_change() -> None:
    steps = ["cast on: 20", 'work: "k5, pm, k to end"', "work: k all", "bind off: all"]
    off = changed(flap(*steps), ("work: k all", "{work: k all, remove markers: true}"))

    assert words(flap(*steps), off) == ["# Flap", "Step 3: take the markers off."]
    assert words(off, flap(*steps)) == ["# Flap", "Step 3: no longer take the markers off."]


@pytest.mark.parametrize(("base", "edits", "lines"), SAID.values(), ids=SAID)
def test_words(base: str, edits: list[Edit], lines: list[str]) -> None:
    """All lines but those on yarn amounts, which follow from nearly everything."""
    assert [line for line in edited(base, *edits) if "you need" not in line] == lines


def test_a_dimension_is_called_as_in_the_schematic(tmp_path: Path) -> None:
    """The key `body` of a hat is printed as edge to crown."""
    shape = "{{shape: hat, around: width(cast_on), body: {} cm, crown: crown_height}}"
    for folder, body in (("old", 14), ("new", 15)):
        source = Path(copytree(HAT, tmp_path / folder)) / "pattern.yaml"
        text = source.read_text().replace("{shape: from rows}", shape.format(body))
        source.write_text(text)
    result = CliRunner().invoke(main, ["compare", str(tmp_path / "old"), str(tmp_path / "new")])

    assert "Schematic, edge to crown: " in result.stdout
    assert "Schematic, body" not in result.stdout


def test_a_length_that_follows_from_rows_is_compared(tmp_path: Path) -> None:
    """Three rounds more between brim and crown, where no finished measurement tells of it."""
    depth = "  Depth, brim to top: height(rib_rounds + body_rounds + crown_rounds)\n"
    for folder, more in (("old", ""), ("new", " + 3")):
        source = Path(copytree(HAT, tmp_path / folder)) / "pattern.yaml"
        text = source.read_text().replace(depth, "")
        source.write_text(text.replace("- crown_height)", f"- crown_height){more}"))
    result = CliRunner().invoke(main, ["compare", str(tmp_path / "old"), str(tmp_path / "new")])

    assert "Schematic, Body, sizes " in result.stdout
    assert "Schematic, length" not in result.stdout


def test_a_measurement_of_the_schematic_that_is_a_finished_one_is_said_once() -> None:
    base = changed(
        FLAP,
        (
            "    steps:",
            "    schematic: {shape: panel, lower edge: width(wide), height: 7 cm}\n    steps:",
        ),
    )
    said = edited(base, ("wide: [20, 24]", "wide: [22, 26]"))

    assert "Width, size S: 11 cm / 4¼ in, was 10 cm / 4 in." in said
    assert not [line for line in said if line.startswith("Schematic")]


def test_cells_of_a_chart_are_counted_and_said_by_round_from_stitch_1() -> None:
    grid = WAVES.replace("..##....", "..####..").replace(".#..#..#", "##..#.##")

    assert [line for line in words(CAP, CAP, grid=grid) if line.startswith("Waves")] == [
        "Waves: 4 stitches have changed, in rounds 2 and 3.",
        "Waves, round 2: stitches 2 and 8: Foam, was Slate.",
        "Waves, round 3: stitches 3 and 4: Foam, was Slate.",
    ]


def test_a_chart_drawn_anew_is_counted_only() -> None:
    old = "\n".join(["........"] * 20 + ["#......."])
    new = "\n".join(["#.#....."] * 20 + ["#......."])

    assert [line for line in words(CAP, CAP, old, new) if line.startswith("Waves")] == [
        "Waves: 40 stitches have changed, in rounds 2 to 21."
    ]


def test_purl_stitches_of_a_chart_are_named() -> None:
    base = changed(CAP, ('{".": slate, "#": foam}', '{".": foam, "#": {yarn: foam, stitch: p}}'))

    said = edited(base, grid=("..##....", "..#....."))
    assert "Waves, round 3: stitch 5: Foam, was purl in Foam." in said


def test_a_new_stripe_is_told_as_one_more_stop_of_the_counter() -> None:
    grid = WAVES.replace("..##....", "########")
    plan = "    colour plan: {minutes per change: %s}\n    steps:"
    cheap, dear = (changed(TUBE, ("    steps:", plan % cost)) for cost in (0, 100))

    (there,) = (line for line in words(dear, cheap, grid, grid) if line.startswith("Step 1"))
    assert "also cut Slate and join Foam after round" in there
    (back,) = (line for line in words(cheap, dear, grid, grid) if line.startswith("Step 1"))
    assert "no longer cut Slate and join Foam after round" in back


def test_lines_stand_under_the_headings_of_the_document() -> None:
    text = changed(CAP, ("stitches: 20", "stitches: 22"), ("Low light", "High light"))
    text = changed(text, ("A plain", "A fine"))

    assert [line for line in words(CAP, text) if line.startswith("#")] == [
        "# Sizes and finished measurements",
        "# Materials",
        "# Gauge",
        "# Cap",
        "# Charts",
        "# Words",
    ]


def test_named_measures_are_kept_from_what_is_published() -> None:
    found = differences(plan_of(CAP), plan_of(changed(CAP, ("measures:\n", "measures:\n  x: 4\n"))))

    assert lines_of(change_blocks(found, 3)) == [SAME]
    assert lines_of(measure_blocks(found)) == ["x: 4, which is new."]


def test_the_section_of_a_document_names_the_version() -> None:
    old = plan_of(CAP)
    new = plan_of(changed(CAP, ('version: "1.0"', 'version: "1.1"')))

    assert lines_of(change_section(old, new)) == ["# Changes since version 1.0", SAME]
    assert change_section(None, new) == ()


EDITS = [edit for base, edits, _ in SAID.values() if base == CAP for edit in edits]


@settings(max_examples=12, deadline=None)
@given(st.lists(st.sampled_from(EDITS), unique_by=lambda edit: edit[0], max_size=5))
def test_the_words_of_any_edits_are_whole_sentences(edits: list[Edit]) -> None:
    text = CAP
    for was, now in edits:
        text = text.replace(was, now, 1)
    assume((L in edits) == (L_DEPTH in edits))  # a size needs its depth
    old, new = plan_of(CAP), plan_of(text)
    for found in (differences(old, new), differences(new, old)):
        for line in lines_of((*change_blocks(found, 3), *measure_blocks(found))):
            assert line.startswith("#") or line.endswith((".", ":")), line
            assert "None" not in line
            assert "  " not in line
            assert ".." not in line
            assert " ." not in line
            assert ": ." not in line


# ---------------------------------------------------------------- the command


def run(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(each) for each in arguments])


# The Ropewalk Hat in four of its sizes, kept here so that the demo can change.
ROPEWALK = """\
title: Ropewalk Hat
designer: The Ebbstow Knitting Room
version: "1.0"
date: 2026-11-02
summary: A close-fitting hat with two laid ropes and a band of knots between them.
wearer: [child, adult]
gauge:
  stitches: 24
  rounds: 28
  worked: stranded stockinette in the round
  tool: 3.5 mm needle
yarns:
  hemp: {name: Hemp, colour: "#d9c7a0", weight: 2, fibre: 100 % wool, ball: 50 g = 150 m}
  tar: {name: Tar, colour: "#2c3540", weight: 2, fibre: 100 % wool, ball: 50 g = 150 m}
  madder: {name: Madder, colour: "#a3402f", weight: 2, fibre: 100 % wool, ball: 50 g = 150 m}
tools:
  - {name: 3 mm circular needle, use: brim}
  - {name: 3.5 mm circular needle, use: body}
sizes:
  Child: {head: 50 cm}
  S: {head: 53.5 cm}
  M: {head: 57 cm}
  L: {head: 60.5 cm}
measures:
  cast_on: stitches(head * 92 %, multiple = 8)
  depth: [19 cm, 20 cm, 21 cm, 22 cm]
  rib: [3 cm, 3.5 cm, 4 cm, 4 cm]
  rib_rounds: rounds(rib)
  crown_rounds: count(cast_on / 4) - 5
  plain_rounds: rounds(depth - rib - height(crown_rounds)) - 20
finished:
  Circumference: width(cast_on)
  Brim: height(rib_rounds)
charts:
  rope:
    title: Ropes and knots
    grid: rope.grid
    legend: {"#": tar, ".": hemp, "o": madder}
    alt: Two bands of slanting dark strokes, and between them a row of open red diamonds.
pieces:
  hat:
    title: Hat
    yarn: hemp
    steps:
      - section: Brim
      - say: Use the smaller needle.
      - cast on: cast_on
        yarn: tar
      - say: Join in the round, and place a marker.
      - work: "*k2, p2; repeat from * to end"
        rounds: rib_rounds
        yarn: tar
      - section: Body
      - say: Change to the larger needle.
      - work: k all
        rounds: 1
      - chart: rope
      - work: k all
        rounds: plain_rounds
      - section: Crown
      - crown: 8
        to: 8
        pace: every other, then every
      - gather: all
finishing: Weave in the ends. Wash the hat, and dry it flat.
"""

ROPE = """\
########
##..##..
.##..##.
..##..##
#..##..#
########
........
...oo...
..o..o..
.o....o.
..o..o..
...oo...
........
########
#..##..#
..##..##
.##..##.
##..##..
########
"""

CORRECTED = changed(
    ROPEWALK,
    ('version: "1.0"', 'version: "1.1"'),
    ("  M: {head: 57 cm}", "  M: {head: 56 cm}"),
    ("rib: [3 cm, 3.5 cm, 4 cm, 4 cm]", "rib: [3.5 cm, 3.5 cm, 4.5 cm, 4.5 cm]"),
    ("name: Madder", "name: Rust"),
    ("{name: 3 mm circular", "{name: 3.25 mm circular"),
    ("- say: Join in the round, and", "- say: Join without twisting, and"),
    ("- say: Change to the larger needle.", "- say: Knit until {{ rib }} are done."),
    ("- work: k all\n        rounds: 1\n", "- work: [k all, p all]\n        times: 1\n"),
    ("      - gather: all", "      - say: Break the yarn.\n      - gather: all"),
)

# The knot's upper half was a stitch too narrow.
CORRECTED_ROPE = changed(ROPE, ("..o..o..", ".o....o."))

ERRATA = """\
Ropewalk Hat: changes from version 1.0 to version 1.1

Sizes and finished measurements
- To fit head, size M: 56 cm / 22 in, was 57 cm / 22½ in.
- Circumference, size M: 50 cm / 19¾ in, was 53.5 cm / 21 in.
- Brim, size Child: 3.6 cm / 1½ in, was 2.9 cm / 1 in.
- Brim, sizes M and L: 4.6 cm / 1¾ in, was 3.9 cm / 1½ in.

Materials
- Hemp, size Child: you need 28 g / 83 m / 91 yd, was 29 g / 86 m / 95 yd.
- Hemp, size S: you need 31 g / 93 m / 102 yd, was 30 g / 90 m / 99 yd.
- Hemp, size M: you need 31 g / 92 m / 101 yd, was 33 g / 97 m / 107 yd.
- Tar, size Child: you need 22 g / 64 m / 70 yd, was 20 g / 58 m / 64 yd.
- Tar, size M: you need 25 g / 75 m / 83 yd, was 25 g / 73 m / 80 yd.
- Tar, size L: you need 28 g / 83 m / 91 yd, was 26 g / 77 m / 85 yd.
- Rust: this is the new name of Madder.
- Rust, size M: you need 3 g / 7 m / 8 yd, was 3 g / 8 m / 9 yd.
- Tools: also needed: 3.25 mm circular needle (brim); no longer needed: 3 mm circular needle.

Hat
- In all: 53 (56, 59, 62) rounds, was 52 (55, 58, 60).
- Step 2 (Brim), size M: cast on 120 stitches, was 128.
- Step 3 (Brim), now reads: Join without twisting, and place a marker.
- Step 4 (Brim), size Child: 10 rounds, was 8.
- Step 4 (Brim), sizes M and L: 13 rounds, was 11.
- Step 5 (Body), now reads: Knit until 3.5 (3.5, 4.5, 4.5) cm / 1½ (1½, 1¾, 1¾) in are done.
- Step 6 (Body): 2 rounds, was 1; round 2: “Purl”, which is new.
- Step 7 (Body), size M: the chart repeats 15 times in every round, was 16.
- Step 8 (Body), size Child: 0 rounds, was 2.
- Step 8 (Body), size L: 0 rounds, was 1.
- Step 9 (Crown), size M: the crown starts with “K13, k2tog”, was “K14, k2tog”; 14 decrease \
rounds, was 15; 10 plain rounds, was 11.
- New step 10 (Crown): Break the yarn.

Charts
- Ropes and knots: 4 stitches have changed, in round 11.
- Ropes and knots, round 11: stitches 2 and 7: Rust, was Hemp; stitches 3 and 6: Hemp, was Rust.

Named measures, which only the source shows
- cast_on, size M: 120, was 128.
- rib, size Child: 3.5 cm / 1½ in, was 3 cm / 1¼ in.
- rib, sizes M and L: 4.5 cm / 1¾ in, was 4 cm / 1½ in.
- rib_rounds, size Child: 10, was 8.
- rib_rounds, sizes M and L: 13, was 11.
- crown_rounds, size M: 25, was 27.
- plain_rounds, size Child: 0, was 2.
- plain_rounds, size L: 0, was 1.

Verdict
- Every size fits its body.
"""


@pytest.fixture
def ropewalk(tmp_path: Path) -> tuple[Path, Path]:
    """A demo pattern and its corrected version."""
    folders = tmp_path / "old", tmp_path / "new"
    for folder, text, grid in zip(
        folders, (ROPEWALK, CORRECTED), (ROPE, CORRECTED_ROPE), strict=True
    ):
        folder.mkdir()
        (folder / "pattern.yaml").write_text(text, "utf-8")
        (folder / "rope.grid").write_text(grid, "utf-8")
    return folders


def test_errata_read_as_a_knitter_reads_them(ropewalk: tuple[Path, Path]) -> None:
    result = run("compare", *ropewalk)

    assert result.exit_code == 0
    assert result.stderr == ""
    assert result.stdout == ERRATA


def test_the_same_pattern_twice_says_so(ropewalk: tuple[Path, Path]) -> None:
    old, _ = ropewalk
    result = run("compare", old, old / "pattern.yaml")

    assert result.exit_code == 0
    assert result.stdout.splitlines()[1:] == [SAME]


def test_changes_as_json(ropewalk: tuple[Path, Path]) -> None:
    result = run("compare", *ropewalk, "--json")

    assert result.exit_code == 0
    record = json.loads(result.stdout)
    assert record["findings"] == []
    data = record["result"]
    assert data["old"] == {"title": "Ropewalk Hat", "version": "1.0"}
    assert data["new"] == {"title": "Ropewalk Hat", "version": "1.1"}
    assert data["sizes"] == ["Child", "S", "M", "L"]

    changes: list[dict[str, Any]] = data["changes"]

    def the(what: str, **wanted: Any) -> dict[str, Any]:
        (found,) = (
            each for each in changes if each["what"] == what and wanted.items() <= each.items()
        )
        return found

    step = {"index": 2, "number": 2, "section": "Brim"}
    cast_on = the("stitches", step={"old": step, "new": step})
    assert cast_on["sizes"] == {"M": {"old": 128, "new": 120}}
    assert cast_on["key"] == {"old": "hat", "new": "hat"}
    around = the("finished measurement", of="Circumference")
    # 120 and 128 stitches at 24 over 100 mm
    assert around["sizes"]["M"] == {"old": pytest.approx(533.333333), "new": 500}
    assert the("name", part="yarn")["new"] == "Rust"
    assert the("row", of="2")["sizes"]["S"] == {"old": None, "new": "Purl"}
    assert the("cells", of="11")["old"][2] == {"yarn": "madder", "stitch": "k"}


def test_one_pattern_at_another_gauge(ropewalk: tuple[Path, Path]) -> None:
    old, _ = ropewalk
    result = run("compare", old, "--gauge", "22 x 28 / 10 cm")

    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert lines[0] == "Ropewalk Hat, version 1.0: changes at another gauge"
    # 92 % of 50, 53.5, 57 and 60.5 cm at 2.2 stitches a cm are 101.2, 108.3, 115.4 and 122.5
    assert (
        "- Step 2 (Brim): cast on 104 (112, 112, 120) stitches, was 112 (120, 128, 136)." in lines
    )
    assert "warning[regauge.proportions]" in result.stderr
    assert "note[regauge.tool]" in result.stderr


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["OLD"], "Name two patterns, or one and a --gauge."),
        (["OLD", "NEW", "--gauge", "22 x 30 / 10 cm"], "Name two patterns, or one and a --gauge."),
        (["OLD", "--gauge", "22 x"], "`22 x` is not a gauge"),
        (["OLD", "--gauge", "22 x 30 / 10"], "`10` has no unit"),
        (["OLD", "--gauge", "2 x 3 / 1 cm", "--gauge", "2 x 3 / 1 cm"], "two gauges are given"),
        ([], "Missing argument"),
    ],
)
def test_a_command_line_that_is_wrong_exits_with_2(
    ropewalk: tuple[Path, Path], arguments: list[str], message: str
) -> None:
    places = dict(zip(("OLD", "NEW"), ropewalk, strict=True))
    result = run("compare", *(places.get(each, each) for each in arguments))

    assert result.exit_code == 2
    assert message in result.stderr
    assert result.stdout == ""


@pytest.mark.parametrize("broken", [0, 1])
def test_a_pattern_with_an_error_exits_with_1_and_is_shown(
    ropewalk: tuple[Path, Path], broken: int
) -> None:
    source = ropewalk[broken] / "pattern.yaml"
    source.write_text(changed(source.read_text("utf-8"), ("to: 8", "to: 7")), "utf-8")
    result = run("compare", *ropewalk)

    assert result.exit_code == 1
    assert result.stdout == ""
    assert f"{source}:" in result.stderr
    assert result.stderr.rstrip().endswith(f"{ropewalk[broken]}: 1 error")
    as_json = run("compare", *ropewalk, "--json")
    assert as_json.exit_code == 1
    record = json.loads(as_json.stdout)
    assert record["result"] is None
    assert [each["severity"] for each in record["findings"]] == ["error"]


def test_both_patterns_are_looked_at_even_if_the_first_has_an_error(
    ropewalk: tuple[Path, Path],
) -> None:
    for folder in ropewalk:
        source = folder / "pattern.yaml"
        source.write_text(changed(source.read_text("utf-8"), ("to: 8", "to: 7")), "utf-8")
    result = run("compare", *ropewalk)

    assert result.exit_code == 1
    assert result.stderr.count("error[crown.top]") == 2


def test_a_missing_pattern_exits_with_1(ropewalk: tuple[Path, Path], tmp_path: Path) -> None:
    result = run("compare", ropewalk[0], tmp_path / "nowhere")

    assert result.exit_code == 1
    assert "there is no folder or file" in result.stderr


def test_a_gauge_of_a_size_that_is_not_there_exits_with_1(ropewalk: tuple[Path, Path]) -> None:
    result = run("compare", ropewalk[0], "--gauge", "XXL = 22 x 30 / 10 cm")

    assert result.exit_code == 1
    assert "error[regauge.unknown]" in result.stderr


# ---------------------------------------------------------------- building


def test_a_build_at_another_gauge_prints_what_changed(
    ropewalk: tuple[Path, Path], tmp_path: Path
) -> None:
    old, _ = ropewalk
    out = tmp_path / "build"
    gauge = ("--gauge", "24 x 30 / 10 cm")
    result = run("build", old, *gauge, "--changes", old, "--out", out)

    assert result.exit_code == 0, result.output
    told = (out / "old" / "old.txt").read_text("utf-8")
    assert "24 stitches and 30 rounds over 10 centimeters" in told
    section = told[told.index("Changes since version 1.0") :]
    # 3.5 cm of rib at 30 rounds over 10 cm are 10.5 rounds, at 28 they are 9.8
    assert "Size S: Step 4 (Brim): 11 rounds, was 10." in section
    numbers = json.loads((out / "old" / "numbers.json").read_text("utf-8"))
    assert numbers["measures"]["rib_rounds"]["sizes"]["S"]["rounded"] == 11


def test_a_build_follows_the_earlier_version(ropewalk: tuple[Path, Path], tmp_path: Path) -> None:
    """An output is left alone only as long as the version it is compared with is the same."""
    old, new = ropewalk
    arguments = ("build", new, "--changes", old, "--out", tmp_path / "build")

    assert f"{new}: built" in run(*arguments).stdout
    assert f"{new}: unchanged" in run(*arguments).stdout
    source = old / "pattern.yaml"
    source.write_text(changed(source.read_text("utf-8"), ('"1.0"', '"0.9"')), "utf-8")
    assert f"{new}: built" in run(*arguments).stdout
    told = (tmp_path / "build" / "new" / "new.txt").read_text("utf-8")
    assert "Changes since version 0.9" in told


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--gauge", "22"], "`22` is not a gauge"),
        (["--changes", "nowhere"], "does not exist"),
    ],
)
def test_a_build_with_wrong_options_exits_with_2(
    ropewalk: tuple[Path, Path], tmp_path: Path, arguments: list[str], message: str
) -> None:
    result = run("build", ropewalk[0], *arguments, "--out", tmp_path / "build")

    assert result.exit_code == 2
    assert message in result.stderr
    assert not (tmp_path / "build").exists()


def test_changes_are_for_one_pattern(ropewalk: tuple[Path, Path], tmp_path: Path) -> None:
    result = run("build", *ropewalk, "--changes", ropewalk[0], "--out", tmp_path / "build")

    assert result.exit_code == 2
    assert "--changes is for one PATTERN" in result.stderr


def test_a_picture_that_does_not_fit_stops_the_build_with_advice(tmp_path: Path) -> None:
    folder = tmp_path / "tube"
    folder.mkdir()
    text = changed(TUBE, ("visible: [10 cm, 11 cm]", "visible: [4 cm, 11 cm]"))
    (folder / "pattern.yaml").write_text(text, "utf-8")
    (folder / "waves.grid").write_text(WAVES, "utf-8")
    result = run("build", folder, "--gauge", "10 x 11 / 10 cm", "--out", tmp_path / "build")

    assert result.exit_code == 1
    assert "error[picture.height]" in result.stderr
    assert "it fits in size M" in result.stderr
    assert "`--gauge '10 x 11.3 / 10 cm'`" in result.stderr
    assert not (tmp_path / "build").exists()
