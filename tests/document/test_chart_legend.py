"""The key explains every symbol the chart uses, no more, in a picture and in words."""

import pytest
from hypothesis import given

from bindoff.document.charts.draw import draw_chart
from bindoff.document.charts.legend import legend, swatch
from bindoff.document.charts.spec import ChartKey, ChartSpec
from bindoff.document.drawing import Rect
from bindoff.document.tree import plain
from tests.document.chart_cases import CABLE, FOAM, KNIT, NO_STITCH, PURL, TAR, chart, specs
from tests.document.drawing_checks import clipped, fill_at, outlines


def words(spec: ChartSpec) -> list[tuple[str, str]]:
    return [(plain(e.term), plain(e.meaning)) for e in legend(spec).entries]


@given(specs(most=8))
def test_the_key_is_complete_and_has_nothing_unused(spec: ChartSpec) -> None:
    """Technical editors' checklist: key complete, no unused symbols."""
    used = {key for row in spec.rows for key in row} | set(spec.base)

    assert [term for term, _ in words(spec)] == [k.label for k in spec.keys if k.key in used]
    assert all(entry.mark is not None for entry in legend(spec).entries)


def test_yarns_say_how_their_cell_looks() -> None:
    assert words(chart("tf")) == [("Tar", "cross"), ("Foam", "empty cell")]


def test_another_word_in_the_written_rows_is_told() -> None:
    key = ChartKey("a", "dot", "Harbour blue", "#203040", word="navy")

    assert words(chart("a", keys=(key,))) == [("Harbour blue", "dot; “navy” in the written rounds")]


def test_words_that_the_label_has_are_not_told_again() -> None:
    key = ChartKey("a", "dot", "Harbour, as knitted", "#203040", word="Harbour knitted")

    assert words(chart("a", keys=(key,))) == [("Harbour, as knitted", "dot")]


def test_worked_flat_the_key_says_both_sides_of_what_is_worked_on_both() -> None:
    keys = (KNIT, PURL, NO_STITCH)

    assert words(chart("kp", "pk", keys=keys, worked="flat")) == [
        ("knit", "empty cell; knit on the right side, purl on the wrong side"),
        ("purl", "dot; purl on the right side, knit on the wrong side"),
    ]
    assert words(chart("kp", keys=(KNIT, PURL))) == [("knit", "empty cell"), ("purl", "dot")]


def test_worked_flat_the_key_says_nothing_of_a_side_that_a_stitch_is_not_on() -> None:
    keys = (KNIT, PURL, NO_STITCH)

    assert words(chart("pp", "kk", keys=keys, worked="flat")) == [
        ("knit", "empty cell"),
        ("purl", "dot; knit on the wrong side"),
    ]


def test_a_swatch_is_a_cell_as_the_chart_draws_it() -> None:
    spec = chart("t", cell_width_mm=7.0, cell_height_mm=5.0)
    (mark,) = (entry.mark for entry in legend(spec).entries)
    assert mark is not None
    drawn = [s for s in outlines(draw_chart(spec).shapes) if s.stroke]
    kept = list(outlines(mark.shapes))

    assert (mark.width - 0.25) / (mark.height - 0.25) == pytest.approx(7 / 5, abs=0.01)
    assert fill_at(mark, 1, 1) == TAR.colour
    assert [(s.stroke, s.width, len(s.commands)) for s in kept] == [
        (s.stroke, s.width, len(s.commands)) for s in drawn
    ]


@pytest.mark.parametrize("key", [TAR, FOAM, KNIT, PURL, CABLE, NO_STITCH])
@pytest.mark.parametrize("ratio", [0.7, 1.0, 1.4])
def test_a_swatch_holds_all_of_its_symbol(key: ChartKey, ratio: float) -> None:
    mark = swatch(key, 5.0, ratio)
    (cell,) = (s for s in mark.shapes if isinstance(s, Rect))

    assert clipped(mark) == []
    assert cell.h / (cell.w / key.span) == pytest.approx(ratio)
    assert max(cell.h, cell.w / key.span) == pytest.approx(5.0)


def test_a_black_and_white_swatch_has_no_colour() -> None:
    assert fill_at(swatch(TAR, colour=False), 1, 1) == "#ffffff"
