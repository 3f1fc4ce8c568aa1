"""What follows the last stitch: cautions, techniques, care, changes and rights."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.back import (
    TECHNIQUES,
    care_section,
    closing_section,
    notes_section,
    safety_section,
    step_notes,
    technique_section,
)
from bindoff.document.drawn import USUALLY
from bindoff.document.tree import Blocks, Callout, Heading, ItemList, Paragraph, Strong
from bindoff.render.text import render_text
from tests.document.patterns import (
    BOAT,
    CHARTED,
    FOAM,
    SLATE,
    TWO_YARNS,
    Data,
    built,
    data,
    files_of,
    flat,
    printed,
    said,
    section,
    tube,
    voice,
)

STEPS: list[dict[str, Any]] = [
    {"cast on": "n"},
    {"work": "k all", "rounds": 3},
    {"bind off": "all"},
]
TEMPLATES = Path(__file__).parents[2] / "templates"


def headings(blocks: Blocks) -> list[str]:
    """The headings in words, the first one left out."""
    return [printed(b.children) for b in blocks if isinstance(b, Heading)][1:]


def title_of(technique: str) -> str:
    """The heading of a packaged technique, US."""
    lines = (TEMPLATES / "techniques" / f"{technique}.md").read_text("utf-8").split("\n")
    title = next(line.removeprefix("# ") for line in lines if line.startswith("# "))
    return "Duplicate stitch" if "duplicate_stitch" in title else title


def techniques(source: Data, files: Mapping[str, str] | None = None) -> list[str]:
    """The techniques that the document explains, as headings."""
    return headings(explained(source, files))


def explained(source: Data, files: Mapping[str, str] | None = None) -> Blocks:
    """The section of techniques, and after its heading those that stand at their steps."""
    told, folder = voice(source, files), files_of(source, files)
    title, *others = technique_section(told, folder)
    notes = step_notes(told, folder, USUALLY, (), ())
    return (title, *(block for each in notes.values() for block in each), *others)


ALWAYS = ["weaving-in-ends", "blocking"]


@pytest.mark.parametrize(
    ("steps", "names"),
    [
        (STEPS, ["long-tail-cast-on"]),
        ([STEPS[0] | {"method": "waste yarn"}, *STEPS[1:]], ["live-edges"]),
        ([STEPS[0] | {"method": "waste yarn"}, *STEPS[1:], {"bind off": "start"}], ["live-edges"]),
        ([STEPS[0], {"chart": "waves"}, {"gather": "all"}],
         ["long-tail-cast-on", "joining-a-new-yarn", "chart-in-the-round", "stranded-knitting",
          "gathered-closing"]),
        ([STEPS[0], STEPS[1], STEPS[1] | {"yarn": "foam"}, STEPS[2]],
         ["long-tail-cast-on", "joining-a-new-yarn"]),
        ([*STEPS, {"edging": "sc in each stitch", "along": "9 cm"}],
         ["long-tail-cast-on", "crochet-edging"]),
        ([*STEPS, {"edging": "sl st in each stitch", "along": "9 cm"}],
         ["long-tail-cast-on", "slip-stitch-edging"]),
        ([STEPS[0], {"work": "hold 4 stitches, k to end"}, STEPS[2], {"held": 4}, STEPS[2]],
         ["long-tail-cast-on", "held-thumb"]),
        ([STEPS[0], {"work": "k to end, pick up and knit 4"}, {"bind off": "all"}],
         ["long-tail-cast-on", "picking-up"]),
    ],
)  # fmt: skip
def test_exactly_the_techniques_of_the_steps_are_explained_in_working_order(
    steps: list[dict[str, Any]], names: list[str]
) -> None:
    yarns = TWO_YARNS if "foam" in str(steps) else {}
    source = data(steps, 2, **(CHARTED if "waves" in str(steps) else yarns))

    assert techniques(source) == [title_of(name) for name in (*names, *ALWAYS)]


TURNS = {
    "slipped": (
        {"work": ["k5, turn", "sl1, p3, turn", "k to 1 before gap, ssk, k to end"]},
        "don't tighten it",
    ),
    "double": (
        {"work": ["k5, turn", "ds, p3, turn", "ds, k to 2 past last turn, turn", "ds, p to end"]},
        "both its legs",
    ),
}


@pytest.mark.parametrize("kind", TURNS)
def test_only_the_turns_of_the_pattern_are_explained(kind: str) -> None:
    steps = [STEPS[0], TURNS[kind][0], STEPS[2]]
    source = flat(data(steps, 1))
    told = said(explained(source))

    assert [key for key, (_, words) in TURNS.items() if words in told] == [kind]
    assert ("before gap" in told) is (kind == "slipped")
    assert ("past last turn" in told.lower()) is (kind == "double")
    assert "wrap" not in told


RIBBED = {"work": "*k2, p2; repeat from * to end", "rounds": 5}


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ([STEPS[0], STEPS[1], RIBBED | {"yarn": "foam"}, STEPS[2]], True),
        ([STEPS[0], RIBBED, RIBBED | {"yarn": "foam"}, STEPS[2]], True),
        ([STEPS[0], RIBBED, STEPS[1] | {"yarn": "foam"}, STEPS[2]], False),
        ([STEPS[0] | {"yarn": "foam"}, RIBBED, STEPS[1] | {"yarn": "foam"}, STEPS[2]], False),
    ],
)
def test_a_new_color_in_ribbing_shows_the_old_one(steps: list[dict[str, Any]], told: bool) -> None:
    """A purl stitch lays the loop it is drawn through to the front: geometry, no source."""
    source = data(steps, 2, **TWO_YARNS)
    words = said(explained(source))

    assert ("shows a bump of the old color" in words) is told


def test_who_listens_hears_what_a_chart_in_the_round_does_and_not_how_to_look_at_it() -> None:
    source = data([STEPS[0], {"chart": "waves"}, {"gather": "all"}], **CHARTED)
    document, _ = built(source)
    heard = render_text(document)

    assert "Reading a chart in the round" in heard
    assert "the picture steps up by one round" in heard
    assert "A ruler laid above your line" in said(document.blocks)
    assert "A ruler laid above your line" not in heard


def test_a_flat_chart_has_the_flat_explanations() -> None:
    steps = [STEPS[0], {"chart": "waves"}, STEPS[2]]
    names = ("long-tail-cast-on", "joining-at-an-edge", "chart-flat", "stranded-knitting")

    assert techniques(flat(data(steps, **CHARTED))) == [
        title_of(name) for name in (*names, *ALWAYS)
    ]


@pytest.mark.parametrize(
    ("skill", "told"),
    [
        ("", True),
        ("Easy. You knit and purl.", True),
        ("Beginner", True),
        ("Intermediate. You knit in the round.", False),
        ("Complex", False),
    ],
)
def test_a_practised_knitter_is_not_told_how_to_cast_on(skill: str, told: bool) -> None:
    """Craft Yarn Council project levels: basic, easy, intermediate, complex."""
    cast_on = title_of("long-tail-cast-on")

    assert (cast_on in techniques(data(STEPS, skill=skill))) == told
    assert cast_on in techniques(data(STEPS, skill=skill, techniques=["long-tail-cast-on"]))


@pytest.mark.parametrize(("stitches", "told"), [(12, False), (13, True)])
def test_gathering_few_stitches_needs_no_more_than_the_step_says(stitches: int, told: bool) -> None:
    steps = [{"cast on": str(stitches)}, STEPS[1], {"gather": "all"}]

    assert (title_of("gathered-closing") in techniques(data(steps))) == told


def test_a_tube_from_the_machine() -> None:
    names = ["cast-on-circular-machine", "off-the-machine", "chart-in-the-round"]
    names += ["duplicate-stitch", "gathered-closing", *ALWAYS]

    assert techniques(*tube(BOAT, {".": "slate", "#": "foam", "o": "rust"})) == [
        title_of(name) for name in names
    ]


LEFT = [STEPS[0], STEPS[1], {"leave": "live"}]


@pytest.mark.parametrize(
    ("join", "technique"),
    [
        ({"join": "front"}, "grafting"),
        ({"join": "front", "by": "three-needle bind-off"}, "three-needle-closing"),
        ({"join": "front", "by": "sewing"}, "sewing-open-edges"),
    ],
)
def test_a_join_has_the_explanation_of_its_manner(join: dict[str, Any], technique: str) -> None:
    front = {"title": "Front", "steps": LEFT}
    back = {"title": "Back", "steps": [*STEPS[:2], join]}
    found = techniques(data([], 2, pieces={"front": front, "back": back}))

    assert found[:2] == [title_of("long-tail-cast-on"), title_of(technique)]


def test_a_tube_joined_to_its_start_has_the_explanation_of_that() -> None:
    steps = [{"stripes": "from plan"}, {"embroider": "from plan"}, {"join": "start"}]
    found = techniques(
        *tube(BOAT, {".": "slate", "#": "foam", "o": "rust"}, piece={"steps": steps})
    )

    assert title_of("join-folded-tube") in found


def test_the_strands_of_the_explanation_are_as_long_as_those_of_the_plan() -> None:
    plan = {"colour plan": {"strand": "45 cm", "tail": "10 cm"}}
    source, files = tube(BOAT, {".": "slate", "#": "foam", "o": "rust"}, piece=plan, units="metric")

    blocks = explained(source, files)
    assert "strands no longer than 45 cm, with a tail of 10 cm at each end." in said(blocks)


def test_a_technique_stands_below_the_steps_of_the_section_that_first_needs_it() -> None:
    steps = [STEPS[0], STEPS[1], {"section": "Top"}, STEPS[1] | {"yarn": "foam"}, STEPS[2]]
    document, _ = built(data(steps, 2, **TWO_YARNS))
    titles = [printed(b.children) for b in document.blocks if isinstance(b, Heading)]
    at = titles.index(title_of("joining-a-new-yarn"))

    assert titles[at - 1] == "Top"
    assert titles[at - 2] == title_of("long-tail-cast-on")
    heading = next(
        at
        for at, b in enumerate(document.blocks)
        if getattr(b, "id", "") == "technique-joining-a-new-yarn"
    )
    assert isinstance(document.blocks[heading - 1], ItemList)
    assert said(document.blocks[heading + 1 : heading + 2]) == "For step 3."
    assert all(titles.count(title) == 1 for title in titles[at - 2 : at + 1])


def test_techniques_that_are_asked_for_come_once() -> None:
    source = data(STEPS, 2, techniques=["live-edges", "blocking"])

    assert techniques(source) == [
        title_of(name) for name in ("long-tail-cast-on", *ALWAYS, "live-edges")
    ]


def test_all_packaged_techniques_are_known_by_name() -> None:
    assert sorted(TECHNIQUES) == sorted(p.stem for p in (TEMPLATES / "techniques").glob("*.md"))


@pytest.mark.parametrize("name", ["dupplicate-stitch", "../notes/care", "entrelac"])
def test_an_unknown_technique_is_an_error_at_its_place_that_says_what_there_is(name: str) -> None:
    source = data(STEPS, 2, techniques=["blocking", name])

    with pytest.raises(PatternError) as caught:
        techniques(source)
    (finding,) = caught.value.findings
    assert finding.message == f"there is no technique called `{name}`"
    assert "`live-edges`" in finding.help
    assert ("Write `duplicate-stitch`" in finding.help) == name.startswith("dup")
    assert finding.span is not None
    line = files_of(source).read_text("pattern.yaml").split("\n")[finding.span.line - 1]
    assert name in line


def test_a_patterns_own_template_takes_the_place_of_the_packaged_one() -> None:
    source = data(STEPS)
    own = {
        "templates/techniques/blocking.md": "# Pinning\n\nPin {{ n }} stitches out.\n",
        "templates/notes/care.md": "# Looking after it\n\nBrush it.\n",
    }
    folder = files_of(source, own)

    assert techniques(source, own)[-1] == "Pinning"
    assert said(technique_section(voice(source), folder)).endswith("Pin 40 (48) stitches out.")
    assert said(care_section(voice(source), folder)) == "Looking after it\nBrush it."


@pytest.mark.parametrize("text", ["Brush it.\n", "", "## Looking after it\n\nBrush it.\n"])
def test_an_own_template_without_its_heading_is_an_error_that_names_the_file(text: str) -> None:
    name = "templates/safety/adult.md"

    with pytest.raises(PatternError) as caught:
        safety_section(voice(data(STEPS)), files_of(data(STEPS), {name: text}))
    (finding,) = caught.value.findings
    assert finding.id == "prose.heading"
    assert name in finding.message


def test_an_own_caution_may_begin_with_a_list_or_have_no_words() -> None:
    for text, words in (
        ("# Beware\n\n- of hooks\n", "Beware.\nof hooks"),
        ("# Beware\n", "Beware."),
    ):
        folder = files_of(data(STEPS), {"templates/safety/adult.md": text})
        worn, _ = (b for b in safety_section(voice(data(STEPS)), folder) if isinstance(b, Callout))
        assert said(worn.blocks) == words


def test_a_fabric_known_from_one_design_is_told_beside_the_reserve() -> None:
    """What k2, p2 ribbing takes is published for one design alone (tests/plan/data): a customer is
    told to buy a ball over where the balls hold less than a quarter more."""
    ribbed: list[dict[str, Any]] = [
        {"cast on": "n"},
        {"work": "*k2, p2; repeat from * to end", "rounds": 9},
        {"bind off": "all"},
    ]
    small = {"slate": SLATE | {"ball": "10 g = 20 m"}}
    about, tight, plain = (
        said(closing_section(voice(source), files_of(source)))
        for source in (data(ribbed), data(ribbed, yarns=small), data(STEPS))
    )

    one = "How much double rib takes could be checked against one other pattern only, and may be"
    assert f"{one} more: the balls hold enough for that." in about
    assert f"{one} more: if your amount of Slate nearly uses up its balls, buy one over" in tight
    assert "one other pattern" not in plain


def test_what_is_told_of_children_is_not_told_again_of_adults() -> None:
    """A pattern for both has one sentence on loose ends, pins and knots."""
    for wearer, times in ((["adult"], 1), (["child", "adult"], 1), (["child"], 1)):
        source = data(STEPS, wearer=wearer)
        notes = safety_section(voice(source), files_of(source))
        worn = " ".join(said(each.blocks) for each in notes if isinstance(each, Callout))
        assert worn.count("loose ends, pins and knots") == times


# ---------------------------------------------------------------- cautions


def cautions(**changes: Any) -> tuple[list[str], list[str]]:
    """The titles of the cautions for the wearer and for the maker."""
    source = data(STEPS, 2, **changes)
    _, worn, made = safety_section(voice(source), files_of(source))
    assert isinstance(worn, Callout)
    assert isinstance(made, Callout)
    return _leads(worn), _leads(made)


def _leads(callout: Callout) -> list[str]:
    return [
        printed(block.children[0].children)
        for block in callout.blocks
        if isinstance(block, Paragraph) and isinstance(block.children[0], Strong)
    ]


YOUNG = ("Nightwear.", "In a car.")
BABY = ("For a baby.", "Sleep.", "For a child under three.")
POMPOMS = "Pompoms, tassels and fringes."
WOOL = {"slate": SLATE | {"fibre": "80 % Merino, 20 % nylon"}}


@pytest.mark.parametrize(
    ("changes", "worn"),
    [
        ({"wearer": ["adult"]}, ["For the person who wears it."]),
        ({"wearer": ["adult"], "worn": False}, ["For the person who uses it."]),
        ({"wearer": ["child"], "worn": False}, ["For a child."]),
        ({"wearer": ["child"]}, ["For a child.", *YOUNG]),
        ({"wearer": ["infant"]}, [*BABY, *YOUNG]),
        (
            {
                "wearer": ["adult", "infant", "child"],
                "sizes": {"Baby": {"head": "43 cm"}, "S": {"head": "53 cm"}},
            },
            [*BABY, "For a child.", *YOUNG, "For the person who wears it."],
        ),
        (
            {"wearer": ["child"], "hazards": ["small parts", "cords", "pompom"]},
            ["For a child.", *YOUNG, "Small parts.", "Cords and ties.", POMPOMS],
        ),
        (
            {"wearer": ["adult"], "hazards": ["magnets", "button cells"]},
            ["For the person who wears it.", "Magnets.", "Button cells."],
        ),
        ({"yarns": WOOL}, ["For the person who wears it.", "Wool and sensitive skin."]),
        (
            {"yarns": {"slate": SLATE | {"fibre": "100 % cotton"}}},
            ["For the person who wears it."],
        ),
        (
            {"yarns": {"slate": SLATE | {"fibre": "40 % cotton, 60 % acrylic"}}},
            ["For the person who wears it.", "Heat."],
        ),
        (
            {"wearer": ["infant"], "yarns": {"slate": SLATE | {"fibre": "70 % mohair, 30 % silk"}}},
            [*BABY, *YOUNG, "Hair that sheds.", "Wool and sensitive skin."],
        ),
        (
            {"wearer": ["child"], "yarns": {"slate": SLATE | {"fibre": "100 % angora"}}},
            ["For a child.", *YOUNG, "Wool and sensitive skin."],
        ),
    ],
)
def test_the_cautions_fit_the_wearer_the_parts_and_the_yarn(
    changes: dict[str, Any], worn: list[str]
) -> None:
    assert cautions(**changes)[0] == worn


@pytest.mark.parametrize(
    ("wearer", "sizes"),
    [
        (["infant"], {"A": {"head": "40 cm"}, "B": {"head": "43 cm"}}),
        (["child"], {"S": {"head": "52 cm"}, "M": {"head": "53 cm"}}),
        (["infant", "child"], {"Baby": {"head": "43 cm"}, "M": {"head": "53 cm"}}),
    ],
)
def test_whatever_a_child_wears_defers_to_the_rules_where_it_is_sold(
    wearer: list[str], sizes: dict[str, Any]
) -> None:
    """Once, to whichever age; so too what is looked for before it is worn, and the flame."""
    source = data(STEPS, 2, wearer=wearer, sizes=sizes)
    _, worn, _ = safety_section(voice(source), files_of(source))
    words = said((worn,))

    for once in ("rules for children's clothing where you live", "away from open flame"):
        assert words.replace("’", "'").count(once) == 1


def test_what_is_said_of_children_is_left_out_for_adults() -> None:
    hazards = ["small parts", "cords", "pompom", "magnets"]
    sizes = {"M": {"head": "57 cm"}, "L": {"head": "60 cm"}}
    source = data(STEPS, 2, hazards=hazards, wearer=["infant", "child", "adult"], sizes=sizes)
    _, worn, _ = safety_section(voice(source), files_of(source))
    assert isinstance(worn, Callout)

    assert _leads(worn) == ["For the person who wears it.", POMPOMS, "Magnets."]
    assert "three years" not in said(worn.blocks)


@pytest.mark.parametrize(
    ("title", "on_it"),
    [
        ("Quay Socks", ["For a child.", "Nightwear.", "On smooth floors."]),
        ("Quay Cardigan", ["For a child.", "Nightwear.", "In a car."]),
        ("Quay Mittens", ["For a child.", "Nightwear."]),
        ("Quay Blanket", ["For a child."]),
    ],
)
def test_the_cautions_fit_the_kind_of_garment(title: str, on_it: list[str]) -> None:
    """Where no measure says it, by the title: hats go off in a car, socks slip on floors."""
    sizes: dict[str, Any] = {"A": {}, "B": {}}
    steps = {"pieces": {"it": {"title": "One", "steps": list(STEPS)}}}
    changes = {"title": title, "wearer": ["child"], "sizes": sizes} | steps
    source = data(STEPS, 2, **changes)
    _, worn, _ = safety_section(voice(source), files_of(source))
    assert isinstance(worn, Callout)

    assert _leads(worn) == on_it
    assert "hats" not in said(worn.blocks)


def test_strands_inside_are_warned_of_on_a_childs_piece_that_has_them() -> None:
    plain = data(STEPS, 2, wearer=["child"])
    stranded = data([STEPS[0], {"chart": "waves"}, STEPS[2]], **CHARTED, wearer=["child"])

    for source, told in ((plain, False), (stranded, True)):
        words = said(safety_section(voice(source), files_of(source)))
        assert ("strands on the inside" in words) == told


def test_the_machine_has_a_caution_of_its_own() -> None:
    assert cautions()[1] == ["Needles, hooks and scissors.", "Your hands and back."]
    assert cautions(made={"by": "machine", "needles": 40})[1][0] == "At the knitting machine."


def test_the_designers_own_care_text_is_printed_instead_of_the_general_one() -> None:
    source = data(STEPS, 2, care="Wash {{ n }} times.")

    assert said(care_section(voice(source), files_of(source))) == "Care\nWash 40 (48) times."


# ---------------------------------------------------------------- notes and rights


def test_one_size_needs_no_explanation_of_sizes() -> None:
    one, two = (notes_section(voice(data(STEPS, n)), files_of(data(STEPS, n))) for n in (1, 2))

    assert "How to read the sizes" not in headings(one)
    assert headings(two)[0] == "How to read the sizes"


def test_the_designers_notes_come_first() -> None:
    source = data(STEPS, 2, notes="Both hands are alike.")
    words = said(notes_section(voice(source), files_of(source)))

    assert words.startswith("Notes\nBoth hands are alike.\nHow to read")


def test_changes_are_listed_as_sentences() -> None:
    changes = [
        {"version": "1.0", "date": "2026-11-02", "note": "First version."},
        {"version": "1.1", "date": "2026-12-01", "note": "Crown of size B corrected"},
    ]
    source = data(STEPS, 2, changes=changes, version="1.1")
    blocks = closing_section(voice(source), files_of(source))

    assert "Changes.\n1.0, 2026-11-02: First version.\n1.1, 2026-12-01: Crown of size B" in said(
        blocks
    )
    assert "corrected." in said(blocks)
    assert "Changes" not in said(closing_section(voice(data(STEPS)), files_of(data(STEPS))))


@pytest.mark.parametrize(("terms", "title"), [("US", "License"), ("UK", "Licence")])
def test_the_designers_licence_takes_the_place_of_the_usual_rights(terms: str, title: str) -> None:
    usual = closing_section(voice(data(STEPS)), files_of(data(STEPS)))
    source = data(STEPS, 2, licence="Share it as you like.", terms=terms)
    own = closing_section(voice(source), files_of(source))

    assert "Rights. © 2026 The Ebbstow Knitting Room" in said(usual)
    assert said(own).endswith(f"{title}. Share it as you like.")
    assert "©" not in said(own)


def test_the_contact_is_printed_where_there_is_one() -> None:
    source = data(STEPS, 2, contact="patterns@ebbstow.example")

    assert "patterns@ebbstow.example" in said(closing_section(voice(source), files_of(source)))
    assert "write to" not in said(closing_section(voice(data(STEPS)), files_of(data(STEPS))))


def test_the_printed_reserve_is_that_of_each_yarn() -> None:
    """A weighed swatch of 5 g on a scale of 1 g has 5 % and half a gram in five; without one plain
    knitting has 11 %, with which published amounts stay (tests/bench/yarn_reserve.py)."""
    weighed = {"slate": SLATE | {"swatch": {"stitches": 400, "grams": 5}}}
    for yarns, words in ((None, "11 % in reserve"), (weighed, "15 % in reserve")):
        source = data(STEPS, 2, **({"yarns": yarns} if yarns else {}))
        assert words in said(closing_section(voice(source), files_of(source)))
    source = data([], 2, **TWO_YARNS_USED) | {"yarns": weighed | {"foam": FOAM}}
    assert "15 % in reserve for Slate and 11 % for Foam" in said(
        closing_section(voice(source), files_of(source))
    )


def test_the_reserve_of_one_size_lies_in_that_of_all() -> None:
    """Sizes have more or less of the rib, which needs a larger reserve than plain knitting."""
    rib: dict[str, Any] = {"work": "*k1, p1; repeat from * to end", "rounds": [2, 80]}
    steps = [STEPS[0], rib, {"work": "k all", "rounds": 40}, STEPS[2]]
    both = data(steps, 2)
    found = re.search(
        r"and (\d+) to (\d+) % in reserve", said(closing_section(voice(both), files_of(both)))
    )

    assert found
    assert found[1] < found[2]
    for size, percent in zip((0, 1), found.groups(), strict=True):
        one = data([STEPS[0], rib | {"rounds": rib["rounds"][size]}, *steps[2:]], 1)
        told = said(closing_section(voice(one), files_of(one)))
        (alone,) = re.findall(r"and (\d+) % in reserve", told)
        assert abs(int(alone) - int(percent)) <= 1


def test_a_fabric_that_nobody_measured_asks_for_a_swatch() -> None:
    own = {"stitches": {"knot": {"uses": 1, "makes": 1, "name": "knot", "how": "Knot it."}}}
    steps = [STEPS[0], {"work": "*knot, k1; repeat from * to end", "rounds": 3}, STEPS[2]]
    weighed = {"slate": SLATE | {"swatch": {"stitches": 400, "grams": 5}}}

    # Of tall crochet stitches we have no figure that is proved, and its gauge rests on one.
    tall = {"gauge": {"stitches": 13, "rounds": 7, "worked": "double crochet"}}

    for changes, rows, asked in (
        (own, steps, True),
        (own | {"yarns": weighed}, steps, False),
        (tall, STEPS, True),
        ({}, STEPS, False),
    ):
        source = data(rows, 2, **changes)
        words = said(closing_section(voice(source), files_of(source)))
        sentence = "How much the stitch pattern of Slate takes is a guess: knit and weigh a swatch"
        assert (sentence in words) == asked


def test_finishing_stands_between_charts_and_techniques() -> None:
    document, _ = built(data(STEPS, 2, finishing="Weave in **all** ends.", **TWO_YARNS_USED))

    assert said(section(document, "finishing")) == "Weave in all ends."


TWO_YARNS_USED: dict[str, Any] = {
    **TWO_YARNS,
    "pieces": {
        "cap": {"title": "Cap", "steps": [*STEPS[:2], STEPS[1] | {"yarn": "foam"}, STEPS[2]]}
    },
}


def test_a_designer_with_an_initial_is_named_in_one_sentence() -> None:
    """In the byline and where the rights are told."""
    document, _ = built(
        data([{"cast on": 24}, {"bind off": "all"}], 1) | {"designer": "A. Stranger"}
    )
    text = render_text(document)

    assert "Designed by A. Stranger, version" in text
    assert re.search(r"Copyright \d+ A\. Stranger\.\n", text)
