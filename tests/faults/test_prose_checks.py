"""What the checks say about sentences: slips are heard, ordinary sentences are left alone."""

from dataclasses import replace
from functools import cache

import pytest

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.context import Context, context_of
from bindoff.checks.prose import HOLE, Prose, prose_of
from bindoff.diagnostics import Severity, Span
from bindoff.document.build import build_document
from bindoff.files import MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.source.model import TextUse
from tests.faults.seeding import base

PROSE_CHECKS = (
    "abbreviation.undefined",
    "prose.brackets",
    "prose.count",
    "prose.doubled",
    "prose.inches",
    "prose.misspelt",
    "prose.sizes",
    "prose.spelling",
    "prose.unfinished",
    "prose.units",
    "tool.size",
    "wearer.hazards",
    "wording.rounds-in-panel",
    "wording.rows-in-tube",
)


@cache
def context(name: str) -> Context:
    files = MemoryFiles(base(name))
    plan = plan_pattern(files, "pattern.yaml", name)
    return context_of(plan, *build_document(plan, files), files)


def said(text: str, pattern: str = "hat", piece: str = "hat") -> set[str]:
    """The ids of the prose checks that find something in ``text`` as a step of ``piece``."""
    place = ("pieces", piece, "steps", 2, "say")
    prose = Prose(
        TextUse.STEP, text, text, piece, place, lambda a, b: Span("x", 1, a + 1, 1, b + 1)
    )
    there = replace(context(pattern), prose=(prose,))
    checks = [each for each in CHECKS if each.id in PROSE_CHECKS]
    return {found.id for each in checks for found in each.diagnostics(there)}


@pytest.mark.parametrize(
    "text",
    [
        "Fold the brim and turn it up.",
        "Draw the outer end closed so that the layers can't turn.",
        "Work the next round as the last, then 3 rounds more.",
        "Knit 5 stitches more than before.",
        "Leave a tail of 15 cm (6 in), or 20 cm / 8 in for the crown.",
        "Sew 1 1/2 in (4 cm) of the seam.",
        "The sample is knit in 46 in slate and 12 in foam.",
        "Cast on 96 (104, 112, 120) stitches.",
        "The gauge is 20 stitches and 28 rounds over 10 cm (4 in).",
        "Color A is the ground. Center the motif, and keep the gray yarn above.",
        "It had had a pompom that that moth ate.",
        "Use a 4.5 mm (US 7) needle.",
        "K2, p2 to the end of the round (the marker).",
        "Bind off (see the notes [on page 3]).",
        "Slip the marker; knit or purl as before.",
        "One yon is no word here, and neither is sk.",
        "Twenty stitches and twenty-eight rounds fit the gauge.",
        "Go down one size, or two needle sizes, and knit nine rounds more.",
        "Work eight stitches of the twelve that are left.",
        "Knit with slate and foam held together.",
    ],
)
def test_an_ordinary_sentence_in_a_tube_is_left_alone(text: str) -> None:
    assert said(text) == set()


@pytest.mark.parametrize(
    ("text", "id"),
    [
        ("Knit to the end, turn.", "wording.rows-in-tube"),
        ("On the wrong-side rows purl.", "wording.rows-in-tube"),
        ("Work every row in rib.", "wording.rows-in-tube"),
        ("You have 97 stitches now.", "prose.count"),
        ("Ninety-seven stitches remain.", "prose.count"),
        ("Work thirty-three rounds.", "prose.count"),
        ("You have 104 stitches now.", "prose.count"),
        ("This takes 9 balls or 40 skeins of Slate.", "prose.count"),
        ("The hat comes in 7 sizes.", "prose.count"),
        ("Cast on 96 (104, 112) stitches.", "prose.sizes"),
        ("Cast on 90 (100, 110, 120) stitches.", "prose.count"),
        ("Leave a tail of 15 cm (8 in).", "prose.inches"),
        ("Leave a tail of 10 m / 11 in.", "prose.inches"),
        ("Leave a tail of 15 cm.", "prose.units"),
        ("Leave a tail of 6 inches.", "prose.units"),
        ("Carry both colours.", "prose.spelling"),
        ("Cast off all stitches.", "prose.spelling"),
        ("Use moss stitch.", "prose.spelling"),
        ("Use a 4.5 mm (US 8) needle.", "tool.size"),
        ("Work ssk at both sides.", "abbreviation.undefined"),
        ("Work to the end of the rnd.", "abbreviation.undefined"),
        ("With RS facing, sew it up.", "abbreviation.undefined"),
        ("Work the the brim.", "prose.doubled"),
        ("Work the brim (folded.", "prose.brackets"),
        ("Work the brim folded].", "prose.brackets"),
        ("Brim: TBD.", "prose.unfinished"),
        ("Wash it at ?? degrees.", "prose.unfinished"),
    ],
)
def test_a_slip_in_a_sentence_is_heard(text: str, id: str) -> None:
    assert said(text) == {id}


# Parts that toy and clothing rules name (16 CFR 1501, 1120, 1262, 1263; EN 14682; CEN/TR 16792).
@pytest.mark.parametrize(
    ("text", "hazard"),
    [
        ("2 buttons, 15 mm", "small parts"),
        ("a pair of 12 mm eyes", "small parts"),
        ("safety eyes", "small parts"),
        ("a small bell", "small parts"),
        ("a 20 cm zipper", "small parts"),
        ("zip, 10 cm", "small parts"),
        ("3 snap fasteners", "small parts"),
        ("40 glass beads", "small parts"),
        ("a toggle", "small parts"),
        ("round elastic, 30 cm", "cords"),
        ("1 m of ribbon", "cords"),
        ("a drawstring", "cords"),
        ("fringe for the edge", "pompom"),
        ("a tassel", "pompom"),
        ("a pom pom", "pompom"),
        ("2 magnets", "magnets"),
        ("a magnetic clasp", "magnets"),
        ("a light with a button cell", "button cells"),
        ("3 LEDs", "button cells"),
    ],
)
def test_what_is_bought_for_a_child_is_heard_as_the_hazard_it_is(text: str, hazard: str) -> None:
    prose = Prose(
        TextUse.MATERIAL, text, text, None, ("notions", 0), lambda a, b: Span("x", 1, 1, 1, 2)
    )
    there = replace(context("mitts"), prose=(prose,))
    (check,) = (each for each in CHECKS if each.id == "wearer.hazards")

    (found,) = check.diagnostics(there)
    assert f"`{hazard}` is not declared" in found.message


@pytest.mark.parametrize(
    "text",
    [
        "Work a bobble, then an elastic rib.",
        "Use an elastic bind-off so that the edge is not tight.",
        "The hat must not fall over the eyes.",
        "Make a bell-shaped cuff, where the yarn is led up the inside.",
        "Pull on the cuff if the edge buckles.",
    ],
)
def test_harmless_words_are_left_alone(text: str) -> None:
    assert said(text, "mitts", "mitt") == set()


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("Sew a button on the cuff.", {"wearer.hazards"}),
        ("Braid two long ties.", {"wearer.hazards"}),
        ("Add tassels or a pom-pom.", {"wearer.hazards"}),
        ("Leave it without buttons, and never sew beads on it.", set()),
        ("Tie the ends in a knot.", set()),
    ],
)
def test_what_could_harm_a_child_is_heard_unless_it_is_warned_of(text: str, ids: set[str]) -> None:
    assert said(text, "mitts", "mitt") == ids
    assert said(text, "hat", "hat") == set()


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("Join to work in the round.", {"wording.rounds-in-panel"}),
        ("At the start of the round, knit.", {"wording.rounds-in-panel"}),
        ("Turn, and work the next row in rib around the neck.", set()),
        ("Cast off in stocking stitch; the colour stays.", set()),
        ("Bind off in seed stitch.", {"prose.spelling"}),
        ("Leave 15 cm.", set()),
        ("Leave 6 in.", {"prose.units"}),
    ],
)
def test_a_flat_piece_in_uk_terms_and_metric_units(text: str, ids: set[str]) -> None:
    assert said(text, "wrap", "band") == ids


def test_a_word_that_is_a_yarns_name_is_no_slip_of_spelling() -> None:
    files = dict(base("hat"))
    files["pattern.yaml"] = files["pattern.yaml"].replace("name: Foam", "name: Harbour Grey")
    memory = MemoryFiles(files)
    plan = plan_pattern(memory, "pattern.yaml", "hat")
    there = context_of(plan, *build_document(plan, memory), memory)
    prose = replace(there.prose[0], text="Join Grey behind the grey of the sea.")
    check = next(each for each in CHECKS if each.id == "prose.spelling")

    found = list(check.diagnostics(replace(there, prose=(prose,))))

    assert [finding.message for finding in found] == ["`grey` is not a word of US terms"]


def test_figures_links_and_addresses_are_no_words_of_a_text() -> None:
    files = MemoryFiles(
        {
            **base("hat"),
            "templates/notes/care.md": "# Care\n\nSee [colour](https://a.example/colour).",
        }
    )
    plan = plan_pattern(files, "pattern.yaml", "hat")

    texts = {prose.path or prose.span.file: prose.text for prose in prose_of(plan.source, files)}

    assert texts[("notes",)].startswith("The brim is worked on " + HOLE * len("{{ cast_on }}"))
    own = next(text for key, text in texts.items() if "care.md" in str(key))
    assert own.startswith("# Care\n\nSee [colour](")
    assert "example" not in own


def test_a_finding_in_a_text_of_several_lines_points_at_its_words() -> None:
    files = dict(base("hat"))
    files["pattern.yaml"] = files["pattern.yaml"].replace("carry two colors", "carry two colours")
    memory = MemoryFiles(files)
    plan = plan_pattern(memory, "pattern.yaml", "hat")
    there = context_of(plan, *build_document(plan, memory), memory)
    check = next(each for each in CHECKS if each.id == "prose.spelling")

    (found,) = check.diagnostics(there)

    assert found.severity is Severity.WARNING
    assert found.span is not None
    line = memory.lines(found.span.file)[found.span.line - 1]
    assert line[found.span.column - 1 : found.span.end_column - 1] == "colours"
