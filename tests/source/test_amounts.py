"""Amounts as written: one formula a size, each with its place."""

import pytest

from bindoff.diagnostics import PatternError
from bindoff.source.tube import Tube
from tests.small_patterns import CAP, TUBE, changed, source_of


def formulas(written: str) -> list[tuple[str, int]]:
    """Text and column of the formula of each size."""
    source = source_of(changed(CAP, ("[20 cm, 21 cm]", written)))
    depth = source.pattern.measures["depth"]
    read = [depth.formula(index) for index in range(len(source.sizes))]
    return [(each.text, each.span.column) for each in read]


def test_one_figure_holds_for_all_sizes() -> None:
    assert formulas("20 cm") == [("20 cm", 10)] * 2


def test_a_list_gives_one_a_size_in_order() -> None:
    assert formulas("[20 cm, 21 cm]") == [("20 cm", 11), ("21 cm", 18)]


def test_a_mapping_gives_one_a_size_by_name_in_any_order() -> None:
    assert formulas("{M: 21 cm, S: 20 cm}") == [("20 cm", 24), ("21 cm", 14)]


def test_a_number_is_a_formula_as_typed() -> None:
    assert formulas("[20, 2.50]") == [("20", 11), ("2.50", 15)]


def test_the_faults_of_all_sizes_are_told_at_once() -> None:
    with pytest.raises(PatternError) as caught:
        formulas('["20 +", "* 21"]')

    assert [fault.id for fault in caught.value.findings] == ["formula.syntax"] * 2


def test_a_foreign_size_and_a_missing_one_are_two_faults() -> None:
    with pytest.raises(PatternError) as caught:
        formulas("{S: 20 cm, L: 21 cm}")

    assert [fault.message for fault in caught.value.findings] == [
        "the pattern has no size `L`",
        "there is no value for M",
    ]


def tube_of(text: str) -> Tube:
    (piece,) = source_of(text).pattern.pieces.values()
    assert piece.tube is not None
    return piece.tube


def test_a_lining_that_is_the_same_is_no_amount() -> None:
    assert tube_of(changed(TUBE, ("{visible:", "{lining: same, visible:"))).lining == "same"


def test_what_is_not_written_has_a_figure_that_stands_nowhere() -> None:
    tube = tube_of(changed(TUBE, (", brim: 3 cm", "")))

    assert tube.brim.formula(1).text == "0 cm"
    assert tube.brim.span.file == ""
    assert "brim" not in tube.model_fields_set


def test_the_faults_of_all_amounts_are_told_at_once() -> None:
    with pytest.raises(PatternError) as caught:
        source_of(changed(CAP, ("[20 cm, 21 cm]", '"20 +"'), ("rounds(depth) - 30", "(3")))

    assert [fault.id for fault in caught.value.findings] == ["formula.syntax"] * 2
