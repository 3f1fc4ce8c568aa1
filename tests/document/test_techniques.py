"""Drawings of techniques: what lies where, and that they can be read and heard."""

import re
from itertools import pairwise
from pathlib import Path as FilePath

import pytest

from bindoff.craft.entry import Loop
from bindoff.document.back import TECHNIQUES, step_notes, technique_section
from bindoff.document.drawing import Drawing, Label, Lines, Path
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.techniques.drawers import DRAWERS
from bindoff.document.techniques.paper import LETTERS, Inks
from bindoff.document.techniques.pictures import PICTURES, picture
from bindoff.document.techniques.threads import _bow
from bindoff.document.techniques.wrongside import ROUNDS, one_yarn
from bindoff.document.tree import Figure, Heading, ItemList, Paragraph, plain
from bindoff.document.voice import voice_of
from bindoff.document.yarn.knitting import Cell, Fabric, Row
from bindoff.document.yarn.weave import crossings
from bindoff.files import DiskFiles
from bindoff.pipeline import drawn_for, plan_pattern
from bindoff.render.pdf.drawing import least_label
from bindoff.render.pdf.figures import natural
from bindoff.render.pdf.theme import PAPERS, theme
from bindoff.render.svg import render_svg
from tests.document.drawing_checks import clipped, hidden_labels, labels

ROOT = FilePath(__file__).parents[2]
POINT = 25.4 / 72
COLUMN = (170 - 5) / 2  # mm, of two on a page
COLOURS = re.compile(r"\b(orange|white|grey|gray|black|colou?r(ed)?|light|dark)\b", re.I)
each_picture = pytest.mark.parametrize("name", PICTURES)


def drawing(name: str, drawn: Drawn = USUALLY) -> Drawing:
    found = picture(PICTURES[name].technique or name, drawn, [PICTURES[name].needs])
    assert found is not None
    assert isinstance(found.picture, Drawing)
    return found.picture


@each_picture
def test_a_drawing_belongs_to_a_technique_that_there_is(name: str) -> None:
    assert (PICTURES[name].technique or name) in TECHNIQUES


@each_picture
def test_a_drawing_keeps_to_its_sheet_and_fits_a_column(name: str) -> None:
    made = drawing(name)

    assert clipped(made) == []
    assert made.width <= COLUMN
    assert made.height <= 60


@each_picture
def test_no_label_covers_another_and_all_are_as_large_as_a_caption(name: str) -> None:
    made = drawing(name)

    assert hidden_labels(made) == []
    assert {label.size for label in labels(made)} <= {9 * POINT, LETTERS}
    assert all(label.size >= 9 * POINT * 0.99 for label in labels(made))


@each_picture
def test_no_line_is_finer_than_a_printer_can_show(name: str) -> None:
    for shape in drawing(name).shapes:
        if isinstance(shape, Lines) or (isinstance(shape, Path) and shape.stroke):
            assert shape.width >= 0.4 * POINT


@each_picture
def test_a_drawing_is_the_same_each_time_and_small(name: str) -> None:
    one, other = (DRAWERS[name](Inks()) for _ in range(2))

    assert one == other
    assert len(render_svg(one, name, PICTURES[name].alt)) < 80_000


@each_picture
def test_the_words_for_a_drawing_name_no_colours(name: str) -> None:
    found = PICTURES[name]

    for words in (found.alt, *([found.key] if found.key else [])):
        assert not COLOURS.search(words)
        assert words.endswith(".")


@each_picture
def test_figures_and_letters_in_a_drawing_are_explained_to_all_readers(name: str) -> None:
    """In its caption; those of duplicate stitch are the numbers of its steps."""
    signs = {each.text for each in labels(drawing(name)) if re.fullmatch(r"[0-9A-Z–]", each.text)}
    told = set()
    for one, last in re.findall(
        r"(?:^|(?<= ))([0-9A-Z–])(?: (?:to|and) ([0-9A-Z]))?:", PICTURES[name].key
    ):
        told |= {chr(n) for n in range(ord(one), ord(last or one) + 1)}
    if name == "duplicate-stitch":
        steps = (ROOT / "templates" / "techniques" / f"{name}.md").read_text("utf-8")
        told = set(re.findall(r"^(\d)\. ", steps, re.M))

    assert signs == told


@each_picture
def test_a_theme_sets_the_colours_and_the_size(name: str) -> None:
    usual, saved, large = (
        drawing(name, drawn_for(theme)) for theme in ("calm", "print-saver", "large-print")
    )
    assert "#e8794a" in _colours(usual)
    assert "#e8794a" not in _colours(saved)
    assert large.width / usual.width == pytest.approx(6.35 / 3.2)


def _colours(made: Drawing) -> set[str | None]:
    paths = [shape for shape in made.shapes if isinstance(shape, Path)]
    return {each.fill for each in paths} | {each.stroke for each in paths}


def test_each_picture_is_drawn() -> None:
    assert PICTURES.keys() == DRAWERS.keys()


def test_a_technique_without_a_drawing_is_words_alone() -> None:
    assert picture("tubular-cast-on", USUALLY) is None


def test_the_drawing_stands_between_the_title_and_the_words() -> None:
    files = DiskFiles(str(ROOT / "patterns" / "harbour-light-hat"))
    plan = plan_pattern(files, "pattern.yaml", "harbour-light-hat")
    blocks = technique_section(voice_of(plan), files)
    figures = [at for at, block in enumerate(blocks) if isinstance(block, Figure)]

    assert figures
    for at in figures:
        assert isinstance(blocks[at - 1], Heading)
        assert not isinstance(blocks[at + 1], Heading | Figure)


def test_a_stitch_is_shown_only_where_it_is_used() -> None:
    assert picture("short-rows", USUALLY, ["k", "sl"]) is None
    assert picture("short-rows", USUALLY, ["k", "ds"])


def test_a_label_is_no_sentence() -> None:
    for name in PICTURES:
        for shape in drawing(name).shapes:
            if isinstance(shape, Label):
                assert len(shape.text.split()) <= 2


def test_a_square_knot_is_no_granny() -> None:
    """Six crossings; both legs of each yarn pass the other's bow on the same side, and both tails
    hang on one side (Ashley, *The Ashley Book of Knots*, 1944, on the reef knot; from memory)."""
    old, new = _bow(-1.0, 0.0, "yarn"), _bow(1.0, 1.0, "thread")
    found = sorted(crossings([old, new]), key=lambda each: each.at if not each.over else each.there)
    over = [each.over == 0 for each in found]

    assert over == [True, False, True, True, False, True]
    assert old.knots[-1].y < 0
    assert new.knots[-1].y < 0


@each_picture
def test_a_drawing_keeps_to_an_upright_page_of_large_print(name: str) -> None:
    """Its letters are as large as all of large print, and it is no wider than the page's frame."""
    look, (wide, _) = theme("large-print"), PAPERS["a4"]
    found = drawing(name, drawn_for("large-print"))
    letters = least_label(found)

    assert natural(found).width <= wide - look.left - look.right
    assert letters == 0.0 or letters >= look.least_label


# ---------------------------------------------------------------- what fits the pattern


def explained(folder: str) -> dict[str, tuple[str, str]]:
    """The techniques of a pattern by title, wherever they stand: their words, and those of the
    drawing."""
    files = DiskFiles(str(ROOT / folder))
    voice = voice_of(plan_pattern(files, "pattern.yaml", folder.rsplit("/", 1)[-1]))
    found: dict[str, tuple[str, str]] = {}
    title = ""
    among_steps = step_notes(voice, files, USUALLY, (), ()).values()
    for block in (*technique_section(voice, files), *(b for notes in among_steps for b in notes)):
        if isinstance(block, Heading):
            title = plain(block.children)
            found[title] = ("", "")
        elif isinstance(block, Figure):
            found[title] = (found[title][0], block.alt)
        else:
            found[title] = (f"{found[title][0]} {told(block)}", found[title][1])
    return found


def told(node: object) -> str:
    """The words of a block and all that lies in it."""
    match node:
        case Paragraph(children=children):
            return plain(children)
        case ItemList(items=items):
            return " ".join(told(block) for item in items for block in item.blocks)
        case _:
            return ""


PICKED = "Picking up stitches along an edge"
BLOCKED = "Washing and blocking"


def test_stitches_picked_up_around_a_neck_go_into_its_stitches() -> None:
    """A neckband along a cast-on edge has no rows to skip and no right end to begin at."""
    words, alt = explained("patterns/mooring-line-pullover")[PICKED]

    assert "into the middle of each stitch of the edge" in words
    assert "begin where the pattern says" in words
    assert not re.search(r"row ends|skipped|quarters|right end", words)
    assert alt.startswith("A cast-on edge lies on top.")


def test_stitches_picked_up_along_fronts_go_into_the_gaps_of_their_rows() -> None:
    words, alt = explained("tests/patterns/lockkeepers-cardigan")[PICKED]

    assert "Along row ends" in words
    assert "at the right end of the edge" in words
    assert alt.startswith("A side edge lies on top.")


@pytest.mark.parametrize(
    ("folder", "pins", "ribs"),
    [
        ("patterns/herring-quay-shawl", True, ""),
        ("patterns/ropewalk-hat", False, "Don't stretch ribbing."),
        ("patterns/breakwater-cowl", False, ""),
        ("tests/patterns/lockkeepers-cardigan", True, "leave ribbing unpinned"),
    ],
)
def test_flat_pieces_are_pinned_and_ribbing_is_named_where_there_is_any(
    folder: str, pins: bool, ribs: str
) -> None:
    words, alt = explained(folder)[BLOCKED]

    assert ("pins" in words) is bool(alt) is pins
    assert ribs in words
    assert ("ribbing" in words) is bool(ribs)


def test_a_technique_names_no_piece_that_the_pattern_has_not() -> None:
    """Floats of a hat catch no fingers but those of an infant, and in no mitten."""
    for folder in ("patterns/ropewalk-hat", "patterns/hawser-hat", "patterns/herring-quay-shawl"):
        words = " ".join(each for pair in explained(folder).values() for each in pair)
        assert not re.search(r"\b(mitten|thumb|sock|sleeve|two layers|tube)", words), folder
    floats, alt = explained("patterns/ropewalk-hat")["Knitting with two yarns in a round"]

    assert "small fingers catch in them" in floats
    assert alt.startswith("The wrong side of two rounds in two yarns")


def test_a_hole_by_a_yarn_over_lies_to_the_right_of_its_decrease() -> None:
    """The yarn over comes first, so that the next two stitches, to its left, close it."""
    shapes = drawing("small-buttonholes").shapes
    top, meant = (
        [
            float(n)
            for s in shapes
            if isinstance(s, Path) and s.stroke == ink
            for c in s.commands
            for n in c[1::2]
        ]
        for ink in (Inks().shade, Inks().thread)
    )

    assert max(top) < max(meant)
    assert min(meant) < max(top)


def test_floats_of_one_yarn_lie_above_those_of_the_other() -> None:
    """And each spans just the stitches of the other yarn: seen from inside."""
    cells = (Cell(Loop.PURL),) * len(ROUNDS[1])
    fabric = Fabric(5.8, tuple(Row(cells, float(at)) for at in range(len(ROUNDS))), 1.1, 5.4)
    for at, stitches in list(enumerate(ROUNDS))[1:-1]:
        spans = {}
        for which in "AB":
            knots = one_yarn(fabric, at, stitches, which).knots
            level = [a for a, b in pairwise(knots) if a.y == b.y and b.x - a.x > 2]
            spans[which] = {round(each.y, 3) for each in level}
        assert min(spans["A"]) > max(spans["B"])


def test_a_hole_over_two_rows_has_as_many_loops_cast_on_as_bound_off() -> None:
    """And each bound-off stitch lies over the next on its left."""
    meant = [
        shape
        for shape in drawing("buttonholes").shapes
        if isinstance(shape, Path) and shape.stroke == Inks().thread
    ]
    heights = [float(n) for shape in meant for c in shape.commands for n in c[2::2]]
    middle = (min(heights) + max(heights)) / 2

    assert min(heights) < middle - 3 < middle + 3 < max(heights)
    assert "three stitches are bound off" in PICTURES["buttonholes"].key
    assert "three loops are cast on" in PICTURES["buttonholes"].key
