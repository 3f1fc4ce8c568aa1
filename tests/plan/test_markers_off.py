"""A step that takes all markers off: its rows are worked across where they hung."""

import pytest

from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, WAVES, changed, faults_of, flap, plan_of

OFF = "Take the markers off as you come to them."
LACE = "*yo, k2tog; repeat from * to end"


def cap(*steps: str) -> str:
    """The cap with two more steps before its chart: one that hangs markers, one across them."""
    lines = "".join(f"      - {step}\n" for step in steps)
    return changed(CAP, ("      - chart: waves\n", f"{lines}      - chart: waves\n"))


PLACED = '{work: "k5, pm, k5, pm, k to end"}'
TAKEN_OFF = cap(PLACED, f'{{work: "{LACE}", rounds: 2, remove markers: true}}')


def words(text: str) -> str:
    return "\n".join(texts(build_document(plan_of(text), MemoryFiles({"waves.grid": WAVES}))[0]))


def ids(text: str) -> list[str]:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    return [each.id for each in check_pattern(files, "pattern.yaml", "own")]


def test_repeated_rows_are_worked_across_where_markers_hung() -> None:
    (found, *_) = faults_of(cap(PLACED, f'{{work: "{LACE}", rounds: 2}}'))
    steps = plan_of(TAKEN_OFF).pieces[0].steps
    (lace,) = (step for step in steps if step.step.remove_markers)

    assert found.id == "row.across-marker"
    assert "write `remove markers: true` on this step" in found.help
    assert [progress.markers for progress in (*lace.before, *lace.after)] == [0, 0, 0, 0]
    assert words(TAKEN_OFF).count(OFF) == 1


def test_a_chart_or_a_crown_may_take_them_off_too() -> None:
    chart = changed(
        cap(PLACED), ("- chart: waves\n", "- chart: waves\n        remove markers: true\n")
    )

    assert faults_of(cap(PLACED))[0].id == "row.across-marker"
    assert faults_of(chart) == ()
    assert words(chart).count(OFF) == 1


def test_the_designers_own_words_for_it_are_not_said_again() -> None:
    text = changed(
        TAKEN_OFF,
        ("remove markers: true", "remove markers: true, first: Slip the markers off on the way."),
    )

    assert OFF not in words(text)


@pytest.mark.parametrize(
    "steps",
    [
        (f'{{work: "{LACE}", remove markers: true}}',),
        (PLACED, "{work: k all, remove markers: true}", "{work: k all, remove markers: true}"),
    ],
)
def test_markers_that_are_not_there_do_not_come_off(steps: tuple[str, ...]) -> None:
    (found,) = faults_of(cap(*steps))

    assert (found.id, found.message) == (
        "piece.no-markers",
        "no marker is on the needles here that could come off",
    )


def test_markers_taken_off_count_as_used_and_may_be_hung_again() -> None:
    begun, ended = "cast on: 20", "bind off: all"
    off = f'{{work: "{LACE}", remove markers: true}}'
    unused = flap(begun, PLACED, ended)
    again = flap(begun, PLACED, off, PLACED, "{work: k all, remove markers: true}", ended)
    listed = changed(again, ("pieces:\n", "notions: [2 markers]\npieces:\n"))

    assert "marker.unused" in ids(unused)
    assert "marker.count" in ids(again)
    assert not {"marker.unused", "marker.count"} & set(ids(listed))
