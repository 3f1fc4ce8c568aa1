"""Patterns with one fault each, as far as reading and planning find it: what is said, and where.

The printed form of the same faults is tested with the command.
"""

import pytest

from tests.bad_patterns import COUNTS, FIGURES, NAMES, SHAPING, TUBES, Bad
from tests.small_patterns import faults_of


@pytest.mark.parametrize("bad", [*NAMES, *FIGURES, *COUNTS, *SHAPING, *TUBES], ids=str)
def test_a_fault_is_found_at_its_place(bad: Bad) -> None:
    faults = faults_of(bad.text, bad.grid)

    assert len(faults) == bad.count
    fault = faults[0]
    assert fault.id == bad.id
    assert bad.says in fault.message
    assert bad.help in fault.help
    assert fault.span is not None
    assert fault.span.file.endswith(bad.file)
    lines = (bad.text if bad.file == "pattern.yaml" else bad.grid).splitlines()
    line = lines[fault.span.line - 1]
    one_line = fault.span.line == fault.span.end_line
    marked = line[fault.span.column - 1 : fault.span.end_column - 1 if one_line else len(line)]
    assert marked == bad.at or (not bad.at and len(marked) <= 1)
