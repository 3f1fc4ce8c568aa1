"""Loops that hang open at the foot of a piece: who takes them up, and what is said of them."""

import pytest

from bindoff.craft.fabric import EDGE_TIMES
from bindoff.document.build import build_document
from bindoff.document.tree import texts
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from bindoff.plan.yarnends import loose_ends
from tests.small_machine import COWL, STRIP
from tests.small_patterns import TUBE, WAVES, changed, faults_of, flap, plan_of

OPEN = changed(STRIP, ("cast on: 14", "cast on: 14\n        method: waste yarn"))
END = "      - bind off: all\n"
BOUND = changed(OPEN, (END, f"{END}      - bind off: start\n"))
JOINED = changed(OPEN, (END, "      - join: start\n"))


def words(text: str) -> str:
    files = MemoryFiles({"waves.grid": WAVES})
    return "\n".join(texts(build_document(plan_of(text), files)[0]))


def found(text: str) -> list[tuple[str, int]]:
    """What `check` says of open starts, and the line where it says it."""
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    every = check_pattern(files, "pattern.yaml", "own")
    return [
        (each.message, each.span.line)
        for each in every
        if each.id == "piece.open-start" and each.span
    ]


def test_loops_that_nothing_takes_up_are_an_error_and_the_words_leave_the_waste_yarn_in() -> None:
    line = OPEN[: OPEN.index("cast on: 14")].count("\n") + 1

    assert found(OPEN) == [("no step takes up the 14 open loops that `strip` begins with", line)]
    assert "leave it in until they are secured or joined" in words(OPEN)
    assert "Securing open stitches with slip stitches" in words(OPEN)


@pytest.mark.parametrize("text", [BOUND, JOINED])
def test_loops_are_held_until_the_step_that_takes_them_up(text: str) -> None:
    """The strip is cast on, cranked in three steps, and ended in the fifth."""
    last = 6 if text is BOUND else 5

    assert found(text) == []
    assert f"holds the open loops of the first row until step {last}." in words(text)


def test_open_loops_are_bound_off_with_a_hook_each_in_a_slip_stitch() -> None:
    (step,) = plan_of(BOUND).pieces[0].steps[-1:]

    assert step.detail.stitches == (14, 14)
    assert "crochet hook" in step.tools
    assert "bind off the open loops of the first row in " in words(BOUND)
    assert "14 slip stitches" in words(BOUND)
    assert "Securing open stitches with slip stitches" in words(BOUND)


def test_the_slip_stitches_take_yarn_of_their_own() -> None:
    """14 stitches at 10 to 10 cm are 14 cm; an edge of slip stitches takes so many times that."""

    def edges(text: str) -> float:
        (total,) = [each for each in plan_of(text).yarn if each.yarn == "slate"]
        return sum(each.metres for each in total.needs[0].parts if each.name.value == "bind-off")

    assert edges(BOUND) - edges(OPEN) == pytest.approx(0.14 * EDGE_TIMES["sl st"])
    plans = plan_of(BOUND), plan_of(OPEN)
    bound, still_open = (loose_ends(each.source, each.pieces[0], 0) for each in plans)
    assert bound == still_open + 2


@pytest.mark.parametrize(
    ("steps", "message"),
    [
        (("cast on: 8", "bind off: start"), "the piece's start has no open loops to bind off"),
        (
            ("{cast on: 8, method: waste yarn, for: hem}", "bind off: start"),
            "the piece's start has no open loops to bind off",
        ),
        (
            ("{cast on: 8, method: waste yarn}", "bind off: start", "bind off: start"),
            "the piece's start has no open loops to bind off",
        ),
        (
            ("{cast on: 8, method: provisional}", "{bind off: start, by: sewn}"),
            "`by: sewn` is not for open loops, which are bound off with a hook",
        ),
    ],
)
def test_what_is_not_open_is_not_bound_off(steps: tuple[str, ...], message: str) -> None:
    faults = faults_of(flap(*steps, "bind off: all"))

    assert ("piece.open-loops", message) in [(each.id, each.message) for each in faults]


def test_a_start_under_a_name_is_joined_by_the_name_or_as_the_start() -> None:
    cast_on = "{cast on: 8, method: provisional, for: start of the band}"
    plans = [
        plan_of(flap(cast_on, "work: k all", f"{{join: {to}, by: three-needle bind-off}}"))
        for to in ("start", "start of the band")
    ]
    plain = plan_of(flap("{cast on: 8, method: provisional}", "work: k all", "join: start"))

    for plan in plans:
        assert plan.pieces[0].steps[2].detail.stitches == (8, 8)
        assert plan.pieces[0].steps[2].detail.group == "start of the band"
    assert plain.pieces[0].steps[2].detail.stitches == (8, 8)


@pytest.mark.parametrize(
    ("step", "instead"),
    [("bind off: start", ", or take this step out"), ("{join: itself, edge: start}", "")],
)
def test_loops_that_wait_under_a_name_are_told_by_it_where_the_start_is_meant(
    step: str, instead: str
) -> None:
    faults = faults_of(flap("{cast on: 8, method: provisional, for: hem}", step, "bind off: all"))

    assert faults[0].help == (
        "Its loops wait under a name, for a step such as `held: hem`: take `for:` out of the "
        f"cast-on{instead}"
    )


def test_a_start_that_was_taken_up_under_its_name_is_not_joined_again() -> None:
    steps = ("{cast on: 8, method: provisional, for: hem}", "bind off: all", "held: hem")
    (fault, *_) = faults_of(flap(*steps, "join: start"))

    assert fault.message == "the piece's start has no open loops to join to"


def test_a_measure_of_that_name_is_still_a_number() -> None:
    text = changed(
        flap("cast on: 8", "bind off: start", "bind off: all"),
        ("measures:\n", "measures:\n  start: 3\n"),
    )

    assert [step.after[0].stitches for step in plan_of(text).pieces[0].steps] == [8, 5, 0]


def test_stitches_joined_elsewhere_leave_the_loops_at_the_foot_open() -> None:
    text = flap("{cast on: 8, method: waste yarn}", "join: itself")

    assert [each for each, _ in found(text)] == [
        "no step takes up the 8 open loops that `flap` begins with"
    ]


def test_loops_that_wait_under_a_name_are_told_by_it_on_the_machine_too() -> None:
    named = changed(
        OPEN,
        ("method: waste yarn", "method: waste yarn\n        for: hem"),
        (END, f"{END}      - held: hem\n{END}"),
    )

    assert "Its open loops are taken up later as the hem." in words(named)
    assert found(named) == []


@pytest.mark.parametrize("text", [TUBE, COWL])
def test_a_tube_that_is_gathered_or_joined_has_no_open_start(text: str) -> None:
    assert found(text) == []
    assert "holds the open loops of the first round until step" in words(text)


def test_a_tube_bound_off_at_its_end_alone_stays_open_at_its_start() -> None:
    text = changed(TUBE, ("      - gather: all\n", "      - bind off: all\n"))

    assert len(found(text)) == 1
    assert (
        found(
            changed(
                text,
                ("      - bind off: all\n", "      - bind off: all\n      - bind off: start\n"),
            )
        )
        == []
    )


@pytest.mark.parametrize(
    ("by", "opening", "tails"),
    [
        ("grafting", "Graft the two", 2),
        ("three-needle bind-off", "With Slate and a three-needle bind-off, join the two", 0),
        ("slip stitch", "With Slate and the crochet hook, join the two", 0),
    ],
)
def test_a_tube_closed_flat_at_both_ends(by: str, opening: str, tails: int) -> None:
    """As a scarf is: grafting takes the tail of the round at each end."""
    ends = f"      - {{join: itself, edge: start, by: {by}}}\n      - {{join: itself, by: {by}}}\n"
    text = changed(TUBE, ("      - gather: all\n", ends))

    assert found(text) == []
    assert "Put the first half of the open loops of the first round on one needle" in words(text)
    assert words(text).count(f"{opening} together, one to one") == 2
    assert words(text).count("leaving a long tail") == tails


@pytest.mark.parametrize("end", ["leave: live", "join: itself"])
def test_open_stitches_leave_the_machine_on_waste_yarn(end: str) -> None:
    other = (
        "  other:\n    title: Other\n    worked: flat\n    steps:\n      - cast on: 14\n"
        "      - join: strip\n"
    )
    said = words(changed(STRIP, (END, f"      - {end}\n{other if end == 'leave: live' else ''}")))

    assert "Crank 6 to 8 rows with waste yarn and take the piece off the machine." in said
    assert "Taking the stitches off the machine" in said


def test_a_cranked_tube_is_gathered_from_its_needles() -> None:
    text = changed(
        STRIP,
        ("    worked: flat\n", ""),
        ("cast on: 14", "cast on: needles"),
        (END, "      - gather: all\n"),
    )

    assert "From the first needle on, pass it through each stitch and lift the stitch off: " in (
        words(text)
    )


@pytest.mark.parametrize("by", ["slip stitch", "sewing"])
def test_a_flat_end_is_not_told_as_a_ring(by: str) -> None:
    flat = changed(TUBE, ("- gather: all", f"- {{join: itself, by: {by}}}"))
    ring = changed(TUBE, ("- gather: all", f"- {{join: start, by: {by}}}"))

    assert "the beginnings of the rounds together" in words(ring)
    assert "the beginnings of the rounds together" not in words(flat)
    assert "the same number of stitches on each" in words(flat)
