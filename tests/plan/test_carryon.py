"""Faults of several steps are told in one run; what only follows from one lies beneath it."""

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.files import MemoryFiles
from bindoff.pipeline import plan_pattern
from tests.small_patterns import CAP, WAVES, changed


def faults(text: str) -> list[Diagnostic]:
    try:
        plan_pattern(MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES}), "pattern.yaml", "c")
    except PatternError as error:
        return list(error.findings)
    return []


def at(text: str, found: list[Diagnostic]) -> list[tuple[str, str]]:
    lines = text.split("\n")
    return [(each.id, lines[each.span.line - 1].strip()) for each in found if each.span]


RIB = '      - work: "*k2, p2; repeat from * to end"\n        rounds: 8\n'
TWO_TOGETHER = '      - work: "*k2tog; repeat from * to end"\n'
PLAIN = "      - work: k all\n        rounds: rounds(depth) - 30\n"


def test_three_typing_slips_are_told_in_one_run() -> None:
    text = changed(
        CAP,
        (RIB, RIB.replace("p2;", "q2;")),
        (PLAIN, PLAIN.replace("k all", "knt all").replace("depth", "dept")),
        ("      - crown: 8\n        to: 8", "      - crown: 8\n        to: 9"),
    )

    assert at(text, faults(text)) == [
        ("row.unknown-stitch", '- work: "*k2, q2; repeat from * to end"'),
        ("row.unknown-stitch", "- work: knt all"),
        ("crown.top", "to: 9"),
    ]
    assert [len(each.follows) for each in faults(text)] == [0, 0, 0]


def test_a_count_that_nothing_fits_is_one_fault_with_what_follows_beneath_it() -> None:
    text = changed(CAP, ("- cast on: cast_on", "- cast on: cast_on + 1"))
    (found,) = faults(text)

    assert at(text, [found]) == [("row.left-over", '- work: "*k2, p2; repeat from * to end"')]
    assert [each.id for each in found.follows] == ["chart.width", "crown.wedges"]


def test_a_new_cast_on_makes_the_stitches_known_again() -> None:
    second = '      - cast on: 9\n      - work: "*k2; repeat from * to end"\n      - gather: all\n'
    text = changed(CAP, ("- cast on: cast_on", "- cast on: cast_on + 1")) + second

    assert at(text, faults(text)) == [
        ("row.left-over", '- work: "*k2, p2; repeat from * to end"'),
        ("row.left-over", '- work: "*k2; repeat from * to end"'),
    ]


def test_a_step_that_says_its_count_carries_on_with_it() -> None:
    """From 96 and 104 stitches, to 8: no room in one round. Then 8 stitches fit a repeat of 2."""
    text = changed(
        CAP,
        ("      - crown: 8\n        to: 8", "      - even: decrease\n        to: 8"),
        (
            "      - gather: all",
            '      - work: "*k2tog; repeat from * to end"\n      - gather: all',
        ),
    )
    (found,) = faults(text)

    assert found.id == "even.room"
    assert found.follows == ()


def test_a_piece_joined_to_one_that_can_not_be_worked_is_no_fault_of_its_own() -> None:
    text = changed(
        CAP,
        ("- cast on: cast_on", "- cast on: cast_on + 1"),
        ("      - gather: all", "      - leave: live"),
    )
    text += (
        "  lining:\n    title: Lining\n    yarn: slate\n    steps:\n"
        "      - cast on: 8\n      - work: k all\n      - join: cap\n"
    )

    assert [each.id for each in faults(text)] == ["row.left-over"]
