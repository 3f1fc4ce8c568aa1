"""Rows and numbered counts as they are compared."""

from collections.abc import Sequence

from bindoff.plan.differences.said import Facts, Instruction, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.source.rowlang.syntax import Row, value_of
from bindoff.source.rowlang.uses import numbers_used


def instruction(measures: Measures, row: Row, size: int) -> Instruction:
    """A row as the size of that number works it."""
    numbers = measures.numbers(size)
    used = {each.name: value_of(each, numbers) for each in numbers_used(row)}
    known = ((name, value) for name, value in used.items() if value is not None)
    return Instruction(row, tuple(known))


def row_facts(measures: Measures, what: What, rows: Sequence[Row]) -> Facts:
    """Rows by their number."""
    return {
        (what, str(number)): per_size(
            measures, [instruction(measures, row, size) for size in range(len(measures.sizes))]
        )
        for number, row in enumerate(rows, start=1)
    }


def count_facts(measures: Measures, what: What, counts: Sequence[Sequence[int]]) -> Facts:
    """Counts per size of the first, the second ... of a kind."""
    return {
        (what, str(number)): per_size(measures, each) for number, each in enumerate(counts, start=1)
    }
