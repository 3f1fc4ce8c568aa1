"""Rows worked in stripes: the yarn of each round, what is told of it, and what is refused."""

from collections.abc import Mapping

import pytest
import yaml

from bindoff.plan.plan import Plan
from tests.document.patterns import step_words
from tests.small_machine import STRIP
from tests.small_patterns import CAP, changed, faults_of, plan_of

KNIT = "      - work: k all\n        rounds: rounds(depth) - 30\n"
HIGH = "rounds: [3, 6]"
PAIR = f"[{{yarn: foam, {HIGH}}}, {{yarn: slate, rounds: 2}}]"


def cap(step: str) -> str:
    """The cap with another step in place of its plain rounds."""
    return changed(CAP, (KNIT, f"      - {step}\n"))


def striped(more: str = "times: 2", work: str = "k all", stripes: str = PAIR) -> str:
    return cap(f"{{work: {work}, in stripes: {stripes}, {more}}}")


def yarns(plan: Plan, step: int = 3) -> list[str]:
    """The yarns of the rounds of a step by their first letters, per size."""
    worked = plan.pieces[0].steps[step].worked
    return ["".join("+".join(y[0] for y, _ in loops) for loops in rounds) for rounds in worked]


def words(text: str) -> str:
    return step_words(yaml.safe_load(text), 3)


@pytest.mark.parametrize(
    ("more", "worked"),
    [
        ("times: 2", ["fffssfffss", "ffffffssffffffss"]),
        ("rounds: 7", ["fffssff", "ffffffs"]),
        ("times: [1, 2]", ["fffss", "ffffffssffffffss"]),
        ("note: Once.", ["fffss", "ffffffss"]),
    ],
)
def test_each_round_has_the_yarn_of_its_stripe(more: str, worked: list[str]) -> None:
    assert yarns(plan_of(striped(more))) == worked


def test_stripes_go_on_whatever_row_is_due() -> None:
    """Three rows in turn beside stripes of two rounds: each yarn comes to each row."""
    text = striped("times: 3", '["k all", "p all", "*k1, p1; repeat from * to end"]',
                   "[{yarn: slate, rounds: 1}, {yarn: foam, rounds: 1}]")  # fmt: skip

    assert yarns(plan_of(text)) == ["sfsfsf"] * 2


def test_a_stripe_may_be_missing_in_a_size() -> None:
    plan = plan_of(striped(stripes="[{yarn: foam, rounds: [0, 2]}, {yarn: slate, rounds: 1}]"))

    assert yarns(plan) == ["ss", "ffsffs"]


def metres(plan: Plan) -> Mapping[str, list[float]]:
    return {each.yarn: [need.metres for need in each.needs] for each in plan.yarn}


def test_yarn_and_ends_are_those_of_a_step_for_each_stripe() -> None:
    each = "{work: '*k2, p2; repeat from * to end', yarn: %s, rounds: %s}"
    pair = [each % ("foam", "[3, 6]"), each % ("slate", "7")]
    apart = cap("\n      - ".join(pair * 3))
    together = striped(
        "times: 3",
        "'*k2, p2; repeat from * to end'",
        PAIR.replace("rounds: 2", "rounds: 7"),
    )

    assert metres(plan_of(together)) == metres(plan_of(apart))


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (
            "times: 5",
            "Knit 25 (40) rounds. The rounds are worked in stripes of so many: 3 (6) in Foam, "
            "2 in Slate. Repeat these stripes 4 times more.",
        ),
        ("times: 2", "2 in Slate. Repeat these stripes once more."),
        ("times: [2, 3]", "2 in Slate. Work these stripes 2 (3) times."),
        ("rounds: 12", "2 in Slate. Repeat these stripes until all are worked."),
    ],
)
def test_stripes_are_told_once_with_how_often(more: str, told: str) -> None:
    assert told in words(striped(more))


def test_stripes_worked_once_are_not_repeated() -> None:
    assert "2 in Slate." in words(striped("note: Once."))
    assert "these stripes" not in words(striped("note: Once."))


def test_a_yarn_that_rests_for_long_is_cut_and_one_that_rests_for_less_is_not() -> None:
    """Slate rests for 7 rounds, Foam for 2: a yarn is carried over 4 at the most."""
    high = PAIR.replace(HIGH, "rounds: 7")
    said = words(striped(stripes=high))

    assert "Cut Slate at the end of each of its stripes." in said
    assert "Cut Slate. Knit" in said
    assert "at the end of each" not in words(striped(stripes=PAIR.replace(HIGH, "rounds: 3")))
    assert "at the end of each" not in words(
        striped("times: 2, note: Carry both yarns up.", stripes=high)
    )


def test_rows_of_a_list_and_of_a_pattern_are_told_in_stripes_too() -> None:
    rows = words(striped("rounds: 20", '["k all", "p all"]'))
    rib = words(striped("times: 2", '"*k1, p1; repeat from * to end"'))

    assert "Work these 2 rounds 10 times." in rows
    assert "Repeat these stripes until all are worked." in rows
    assert "Work 10 (16) rounds. The rounds are worked in stripes of so many:" in rib


@pytest.mark.parametrize(
    ("text", "id", "message"),
    [
        (
            striped("yarn: foam"),
            "step.stripes",
            "the stripes name the yarns of this step, and so does `yarn:`",
        ),
        (
            striped(work='"k all in foam"'),
            "step.stripes",
            "the stripes name the yarns of this step, and so does a row of it",
        ),
        (
            striped(stripes="[{yarn: foam, rounds: [1, 0]}]"),
            "step.stripes",
            "the stripes have no rounds",
        ),
    ],
)
def test_stripes_that_can_not_be_told_are_refused(text: str, id: str, message: str) -> None:
    (found,) = faults_of(text)

    assert (found.id, found.message.removeprefix("size M: ")) == (id, message)


def test_rows_from_the_machine_are_not_told_in_stripes() -> None:
    row = "      - work: k all\n"
    text = changed(STRIP, (row, f"{row}        in stripes: [{{yarn: slate, rounds: 2}}]\n"))
    found = faults_of(text)

    assert (found[0].id, found[0].message) == (
        "step.stripes",
        "rows of a piece from the machine are not told in stripes",
    )


def test_a_yarn_that_nobody_declared_is_told_at_its_stripe() -> None:
    (found,) = faults_of(striped(stripes="[{yarn: fom, rounds: 3}]"))

    assert (found.id, "foam" in found.help) == ("source.unknown-yarn", True)


def test_the_yarn_of_the_last_stripe_goes_on() -> None:
    """Both yarns are cut at each stripe but the last: its yarn is in hand, and nothing is cut."""
    high = "[{yarn: foam, rounds: 7}, {yarn: slate, rounds: 7}]"
    text = yaml.safe_load(striped(stripes=high))
    text["pieces"]["cap"]["steps"].insert(4, {"work": "p all", "yarn": "slate"})

    assert "Cut the yarn at the end of each stripe but the last." in step_words(text, 3)
    assert step_words(text, 4) == "Purl 1 round."
