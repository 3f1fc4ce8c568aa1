"""Where only something is left over at the end, all checks are heard beside the error."""

import pytest

from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern
from tests.small_patterns import CAP, FLAP, WAVES, changed

TOLD = ("wearer:", "notes: There are 300 stitches.\nwearer:")
SPARE = (
    "yarns:\n",
    'yarns:\n  lamp: {name: Lamp, colour: "#e3b04b", weight: 4, ball: 100 g = 200 m}\n',
)
LIVE = ("- bind off: all", "- leave: live")
HELD = (
    "      - bind off: all",
    '      - work: "k2, hold 2 stitches for tab, k to end"\n      - bind off: all',
)


def raised(text: str) -> tuple[Diagnostic, ...]:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    with pytest.raises(PatternError) as error:
        check_pattern(files, "pattern.yaml", "own")
    with pytest.raises(PatternError) as again:
        build_pattern(files, "pattern.yaml", "own")
    assert again.value.findings == error.value.findings
    return error.value.findings


@pytest.mark.parametrize(
    ("text", "id"),
    [
        (changed(CAP, SPARE), "yarn.unused"),
        (changed(FLAP, LIVE), "piece.never-joined"),
        (changed(FLAP, HELD), "piece.group-left"),
    ],
)
def test_what_is_left_over_hides_no_other_finding(text: str, id: str) -> None:
    found = raised(changed(text, TOLD))
    ids = [each.id for each in found]

    assert ids.count(id) == 1
    assert "prose.count" in ids
    assert {each.severity for each in found} == {Severity.ERROR, Severity.WARNING}
    assert "prose.count" not in [each.id for each in raised(text)]


def test_where_a_row_fails_too_the_checks_of_the_source_alone_are_heard() -> None:
    """What the words tell of the stitches can't be judged where these are unknown."""
    ids = [
        each.id for each in raised(changed(CAP, SPARE, TOLD, ("*k2, p2; repeat", "*k7; repeat")))
    ]

    assert "row.left-over" in ids
    assert "prose.count" not in ids
