"""Amounts as written: one formula a size, each with its place."""

import pytest
from bindoff.diagnostics import PatternError
from bindoff.source.amounts import formulas_at
from small_patterns import CAP, changed, source_of


def formulas(written: str) -> list[tuple[str, int]]:
    """Text and column of the formula of each size."""
    source = source_of(changed(CAP, ("[20 cm, 21 cm]", written)))
    return [(each.text, each.span.column) for each in formulas_at(source, ("measures", "depth"))]


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
