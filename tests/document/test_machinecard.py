"""The card for the machine: every stop of the counter, once, with a square to tick."""

import re
from functools import cache
from pathlib import Path

from bindoff.document.drawing import Drawing, Lines, Rect
from bindoff.document.machinecard import card_document, has_card
from bindoff.document.tree import DefinitionList, Document, Heading, PageBreak, Paragraph, plain
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import plan_pattern
from bindoff.plan.plan import Plan
from bindoff.plan.steps.stripes import Striped
from bindoff.render.text import render_text
from tests.document.patterns import built, plan_of, tube

PATTERNS = Path(__file__).parents[2] / "patterns"


@cache
def plan(name: str = "harbour-light-hat") -> Plan:
    return plan_pattern(DiskFiles(str(PATTERNS / name)), SOURCE_NAME, name)


def lists(document: Document) -> list[DefinitionList]:
    return [block for block in document.blocks if isinstance(block, DefinitionList)]


def test_each_size_has_a_page() -> None:
    card = card_document(plan())
    titles = [plain(b.children) for b in card.blocks if isinstance(b, Heading) and b.level == 2]
    assert titles == ["Hat, size S", "Hat, size M", "Hat, size L"]
    assert sum(isinstance(block, PageBreak) for block in card.blocks) == 2


def test_counter_stops_are_the_changes_of_yarn_the_folds_and_the_end() -> None:
    step = next(s for p in plan().pieces for s in p.steps if isinstance(s.detail, Striped))
    assert isinstance(step.detail, Striped)
    for each, page in zip(step.detail.plans, lists(card_document(plan())), strict=True):
        stops = [int(plain(entry.term)) for entry in page.entries]
        bases = each.stripes.bases
        changes = [n for n in range(1, len(bases)) if bases[n] != bases[n - 1]]
        assert stops == sorted(stops)
        assert {*changes, each.tube.fold_after, each.tube.total_rounds} <= set(stops)


def test_every_line_has_a_square_drawn_beside_it() -> None:
    for page in lists(card_document(plan())):
        for entry in page.entries:
            assert isinstance(entry.mark, Drawing)
            (square,) = entry.mark.shapes
            assert isinstance(square, Rect)
            assert square.w == square.h >= 5
            assert square.stroke == "#000000"


def test_the_text_says_done_after_every_line() -> None:
    told = render_text(card_document(plan(), boxes=False))
    lines = sum(len(page.entries) for page in lists(card_document(plan())))
    assert told.splitlines().count("Done:") == lines


def test_each_page_begins_with_a_caution_and_names_the_version_of_the_pattern() -> None:
    said = [
        plain(block.children)
        for block in card_document(plan()).blocks
        if isinstance(block, Paragraph) and block.role == "small"
    ]
    version = plan().source.pattern.version
    assert said == [f"For version {version} of the pattern; Safety stands there."] * 3
    assert render_text(card_document(plan())).count("\n0: Read Safety first.\n") == 3


def test_rounds_in_two_yarns_are_told_where_there_are_any() -> None:
    assert "two yarns" not in repr(card_document(plan()))
    legend = {".": "slate", "#": "foam"}
    minutes = {"minutes per stitch": 0.5, "minutes per change": 1, "stranded": "laid in by hand"}
    grid = "............\n.#..#..#..#.\n............\n"
    source, files = tube(grid, legend, 24, 2, piece={"colour plan": minutes})
    told = render_text(card_document(plan_of(source, files)))
    rounds = re.findall(r"^Rounds in two yarns: (\d+)\.$", told, re.MULTILINE)
    document, _ = built(source, files)
    assert rounds
    whole = render_text(document)
    assert all(
        re.search(rf"Rounds to knit in two yarns: {each}\.$", whole, re.M) for each in rounds
    )


def test_a_card_of_chosen_sizes_has_no_others() -> None:
    card = card_document(plan(), ("L",))
    assert card.sizes == ("L",)
    assert [e.term for e in lists(card)[0].entries] == [
        e.term for e in lists(card_document(plan()))[2].entries
    ]


def test_a_hand_knitted_pattern_has_no_card() -> None:
    assert has_card(plan())
    assert not has_card(plan("ropewalk-hat"))


def test_every_line_shows_the_yarn_before_it_and_the_one_that_follows() -> None:
    """Of Breakwater Cowl: slate with lines of foam and beacon; waste yarn, dashed, at both ends."""
    cowl = plan("breakwater-cowl")
    colours = {key: yarn.colour for key, yarn in cowl.source.pattern.yarns.items()}
    bases = next(s.tubes for p in cowl.pieces for s in p.steps if s.tubes)[0].stripes.bases
    for entry in lists(card_document(cowl))[0].entries:
        assert isinstance(entry.end, Drawing)
        counter = int(plain(entry.term))
        around = [None, *(colours[base] for base in bases), None][counter : counter + 2]
        shown = [each.fill for each in entry.end.shapes if isinstance(each, Rect)]
        assert [fill for fill in shown if fill in colours.values()] == [
            each for each in dict.fromkeys(around) if each
        ]
        dashed = any(isinstance(each, Lines) and each.dash for each in entry.end.shapes)
        assert dashed == (None in around)


def test_a_stop_without_a_change_shows_one_yarn() -> None:
    entries = lists(card_document(plan()))[0].entries
    fold = next(entry for entry in entries if plain(entry.meaning).startswith("Fold line"))
    assert isinstance(fold.end, Drawing)
    assert sum(isinstance(each, Rect) for each in fold.end.shapes) == 1


def test_a_tail_is_told_with_its_length_where_it_is_cut() -> None:
    """Twice the way around the tube of the size and 15 cm, up to the next 5 cm (common practice, no
    source): so much goes through the stitches of an end and is left to hold."""
    voiced = plan()
    key = next(piece.key for piece in voiced.pieces if any(step.tubes for step in piece.steps))
    gauge = voiced.source.pattern.pieces[key].gauge or ""
    step = next(s for p in voiced.pieces for s in p.steps if s.tubes)
    told = render_text(card_document(voiced)).split("Hat, size ")[-3:]
    for page, sizing, made in zip(told, voiced.measures.sizes, step.tubes, strict=True):
        around = made.tube.needles * sizing.gauges[gauge].stitch_mm / 10
        tails = [int(cm) for cm in re.findall(r"leaving a tail of (\d+) centimeters", page)]

        assert len(tails) == 2
        assert all(cm % 5 == 0 and -0.01 < cm - 2 * around - 15 < 5 for cm in tails)
        assert "long tail" not in page
