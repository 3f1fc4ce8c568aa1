"""The schematic of every piece: its letters, and the table that says them per size."""

from typing import Any

import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.drawing import Drawing, Label, Path
from bindoff.document.front import size_section
from bindoff.document.schematics import finished_letters, schematic_blocks, schematics
from bindoff.document.tree import Blocks, Figure, Ringed, plain
from bindoff.document.voice import Voice
from tests.document.patterns import Data, cells, data, printed, said, tables, voice

STEPS = [{"cast on": "n"}, {"bind off": "all"}]
PANEL = {"shape": "panel", "lower edge": "width(n)", "height": "10 cm", "upper edge": "12 cm"}
HAT = {"shape": "hat", "around": "width(n)", "body": "12 cm", "crown": "6 cm", "brim": "3 cm"}
TUBE = {"shape": "tube", "around": "width(n)", "depth": "20 cm"}
MITTEN = {
    "shape": "mitten",
    "around": "width(n)",
    "cuff": "6 cm",
    "to thumb": "4 cm",
    "hand": "15 cm",
    "thumb": "5 cm",
}


def source(*shapes: dict[str, Any] | None, sizes: int = 2) -> Data:
    """A pattern with a piece for each shape, and a finished measurement that is in none."""
    pieces = {
        f"piece{i}": {"title": f"Piece {i}", "steps": STEPS}
        | ({"schematic": shape} if shape else {})
        for i, shape in enumerate(shapes)
    }
    return data(STEPS, sizes, pieces=pieces, finished={"Ease": "1 cm"})


def blocks_of(data: Data) -> Blocks:
    speaker = voice(data)
    return schematic_blocks(speaker, schematics(speaker))


@pytest.mark.parametrize("shape", [PANEL, HAT, TUBE, MITTEN], ids=lambda shape: str(shape["shape"]))
def test_every_letter_of_a_drawing_is_in_its_table_and_in_its_words(shape: dict[str, Any]) -> None:
    speaker = voice(source(shape))
    (figure,) = blocks_of(source(shape))
    assert isinstance(figure, Figure)
    assert isinstance(figure.picture, Drawing)
    drawn = [s.text for s in figure.picture.shapes if isinstance(s, Label)]
    told = lettered(speaker)

    assert list(told) == [chr(97 + i) for i in range(len(shape) - 1)]
    assert sorted(drawn) == list(told)
    assert all(f"{letter}: {name.lower()}" in figure.alt for letter, name in told.items())


def lettered(speaker: Voice) -> dict[str, str]:
    """What each letter stands for in the table of measurements."""
    (table,) = tables(size_section(speaker), "Body and finished")
    return {
        letter: plain(tuple(name)).strip()
        for *name, ringed in (row.cells[0] for row in table.rows)
        if isinstance(ringed, Ringed)
        for letter in ringed.letters
    }


def test_the_table_has_the_figures_of_every_size_in_both_units() -> None:
    (table,) = tables(size_section(voice(source(PANEL))), "Body and finished")

    assert cells(table)[-3:] == [
        ["Lower edge (a)", "20", "24", "7¾", "9½"],
        ["Height (b)", "10", "10", "4", "4"],
        ["Upper edge (c)", "12", "12", "4¾", "4¾"],
    ]


def test_what_the_finished_measurements_tell_has_its_letter_there_and_no_row_of_its_own() -> None:
    finished = {"Circumference": "width(n)", "Depth": "20 cm", "Brim": "2.9 cm"}
    speaker = voice(source(PANEL, HAT, TUBE) | {"finished": finished})

    assert finished_letters(schematics(speaker)) == {
        "Circumference": ("a", "b", "c"),
        "Depth": ("d",),
    }
    (table,) = tables(size_section(speaker), "Body and finished")
    assert [row[0] for row in cells(table)] == [
        "To fit head",
        "Circumference (a, b, c)",
        "Depth (d)",
        "Brim",
        "Piece 0, height (e)",
        "Piece 0, upper edge (f)",
        "Piece 1, edge to crown (g)",
        "Piece 1, crown (h)",
        "Piece 1, brim (i)",
    ]


@pytest.mark.parametrize("label", ["Long edge", "Width", "Span"])
def test_an_edge_and_the_width_below_its_edging_are_one_measure(label: str) -> None:
    """A kerchief from its tip, 5 rows of garter stitch above its lace: 60 stitches at both ends."""
    steps: list[dict[str, Any]] = [
        {"section": "Lace"},
        {"cast on": 4},
        {"taper": "k1, yo, k to last 1, yo, k1", "to": 60, "over": 56},
        {"section": "Hem"},
        {"work": "k all", "rounds": 5},
        {"bind off": "all"},
    ]
    piece = {"title": "Kerchief", "worked": "flat", "schematic": {"shape": "from rows"}}
    source = data([], 1, pieces={"kerchief": {**piece, "steps": steps}})
    speaker = voice(source | {"finished": {label: "width(60)"}})

    assert list(lettered(speaker).values()) == [label, "Cast-on edge", "Lace", "Hem"]
    (table,) = tables(size_section(speaker), "Body and finished")
    assert [row[0] for row in cells(table) if "30" in row] == [f"{label} (a)"]


def test_a_piece_drawn_with_its_cast_on_edge_up_says_which_edge_is_which() -> None:
    taper = {"taper": "k1, k2tog, k to last 3, ssk, k1", "to": 8, "over": 20}
    steps = [{"cast on": 24}, taper, {"bind off": "all"}]
    hung = {"shape": "panel", "lower edge": "width(8)", "height": "10 cm"}
    hung |= {"upper edge": "width(24)"}
    stood = hung | {"lower edge": "width(24)", "upper edge": "width(8)"}

    def names(shape: dict[str, Any]) -> list[str]:
        piece = {"title": "Flap", "worked": "flat", "steps": steps, "schematic": shape}
        return list(lettered(voice(data([], 1, pieces={"flap": piece}))).values())

    assert names(hung) == ["Lower edge, bound off", "Height", "Upper edge, cast on"]
    assert names(stood) == ["Lower edge", "Height", "Upper edge"]


def test_who_goes_down_the_table_meets_the_letters_in_their_order() -> None:
    finished = {"Brim": "3 cm", "Crown": "6 cm", "Circumference": "width(n)"}
    speaker = voice(source(HAT, PANEL) | {"finished": finished})

    assert list(lettered(speaker)) == list("abcdefg")
    assert [letter for each in schematics(speaker) for letter, _ in each.dimensions] == [
        *"abce",
        *"dfg",
    ]


@pytest.mark.parametrize(("shape", "whole"), [(PANEL, True), (None, False)])
def test_measures_of_a_drawing_are_looked_at_together(
    shape: dict[str, Any] | None, whole: bool
) -> None:
    (table,) = tables(size_section(voice(source(shape))), "Body and finished")

    assert table.whole is whole


def test_letters_run_on_from_piece_to_piece() -> None:
    assert list(lettered(voice(source(PANEL, None, TUBE)))) == list("abcde")


def test_more_measures_than_the_alphabet_has_go_on_in_pairs() -> None:
    letters = list(lettered(voice(source(*[MITTEN] * 6))))

    assert letters[24:] == ["aa", "ab", "ac", "ad", "ae", "af"]


def test_a_piece_without_schematic_has_none() -> None:
    assert blocks_of(source(None)) == ()


def test_a_schematic_that_cannot_be_drawn_fails_at_its_place() -> None:
    shape = MITTEN | {"to thumb": "16 cm"}

    with pytest.raises(PatternError) as caught:
        blocks_of(source(shape))
    assert all(finding.span is not None for finding in caught.value.findings)


def test_the_words_say_that_the_drawing_is_one_for_all_sizes() -> None:
    (figure,) = blocks_of(source(PANEL))

    assert isinstance(figure, Figure)
    assert printed(figure.caption) == "Piece 0: schematic, not to scale between sizes"
    assert said([figure]) == printed(figure.caption)


def test_a_flap_is_drawn_below_the_piece_that_it_hangs_from_and_told() -> None:
    source_of_both = source(HAT, PANEL | {"hangs from": "piece0"})
    alone, _ = blocks_of(source(HAT, PANEL))
    hat, _ = blocks_of(source_of_both)
    assert isinstance(alone, Figure)
    assert isinstance(hat, Figure)
    assert isinstance(alone.picture, Drawing)
    assert isinstance(hat.picture, Drawing)

    def outlines(drawing: Drawing) -> int:
        return sum(isinstance(s, Path) and s.width == 0.45 for s in drawing.shapes)

    assert outlines(hat.picture) == outlines(alone.picture) + 1
    assert ", piece 1 below it. Letters" in hat.alt
    assert "below it" not in alone.alt
