"""Several shapings over the same rows, proved row by row.

Published figures: a magazine's armhole, bound off 4, 3, 2, 1 at the start of each pair of rows (a
European handbook); a magazine of 2017, whose armhole and neck overlap by 2 in. The others are
common practice, no source.
"""

import pytest

from bindoff.plan.steps.together import Together
from tests.small_patterns import FLAP, faults_of, plan_of


def flap(together: str, over: str = "8", cast_on: str = "60", more: str = "") -> str:
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n"
    return (
        f"{head}      - cast on: {cast_on}\n      - together:\n{together}"
        f"        over: {over}\n{more}      - bind off: all\n"
    )


def shaping(**keys: str) -> str:
    lines = [f"{key.rstrip('_')}: {value}" for key, value in keys.items()]
    return "          - " + "\n            ".join(lines) + "\n"


def detail(text: str) -> Together:
    found = plan_of(text).pieces[0].steps[1].detail
    assert isinstance(found, Together)
    return found


ARMHOLE = "[bind off 4, bind off 3, bind off 2, bind off 1]"


def test_a_stepped_armhole_takes_10_stitches_from_each_side() -> None:
    """4, 3, 2, 1 at the start of each pair of rows: 10 a side."""
    right = shaping(title="right armhole", at="start", work=ARMHOLE, from_="1")
    left = shaping(title="left armhole", at="start", work=ARMHOLE, from_="2")

    assert detail(flap(right + left)).stitches[0] == (56, 52, 49, 46, 44, 42, 41, 40)


def test_a_neck_begins_before_the_armhole_is_done() -> None:
    """An armhole from 15 in over 4 in and a neck from 17 in over 3 1/4 in overlap by 2 in: at 7
    rows to the inch rows 1 to 28 and 15 to 37, both in rows 15 to 28."""
    armhole = shaping(
        title="armhole", at="start", work='"k1, ssk"', from_="1", every="2", times="14"
    )
    neck = shaping(title="neck", at="end", work='"k2tog, k1"', from_="15", every="2", times="12")
    worked = detail(flap(armhole + neck, over="38"))

    both = [n for n in range(1, 39) if all(each.in_row(0, n) for each in worked.shapings)]
    assert both == [15, 17, 19, 21, 23, 25, 27]
    assert worked.stitches[0][27] == 60 - 14 - 7
    assert worked.stitches[0][-1] == 60 - 14 - 12


def test_two_paces_one_after_the_other_fill_their_rows() -> None:
    """A published armhole: 26 stitches over 64 rows, every 2nd row 14 times, every 3rd 12 times."""
    first = shaping(
        title="first pace", at="start", work='"k1, ssk"', from_="1", every="2", times="14"
    )
    then = shaping(
        title="second pace", at="start", work='"k1, ssk"', from_="29", every="3", times="12"
    )
    worked = detail(flap(first + then, over="64", cast_on="80"))

    assert worked.stitches[0][-1] == 80 - 26
    assert worked.shapings[1].rows[0][-1] == 29 + 33


def test_each_size_has_its_own_start_and_pace() -> None:
    """`wide` is 20 and 24."""
    edge = shaping(title="edge", at="start", work='"k1, ssk"', from_="1", times="wide / 4")
    neck = shaping(
        title="neck", at="end", work='"k2tog, k1"', from_="[3, 5]", every="[2, 4]", times="2"
    )
    worked = detail(flap(edge + neck, over="wide / 2", cast_on="wide + 20"))

    assert worked.shapings[0].rows == ((1, 3, 5, 7, 9), (1, 3, 5, 7, 9, 11))
    assert worked.shapings[1].rows == ((3, 5), (5, 9))
    assert [each[-1] for each in worked.stitches] == [40 - 7, 44 - 8]


def test_shaping_at_a_marker_goes_with_that_of_an_edge() -> None:
    """A dart on both sides of a marker while the edge is bound off."""
    marker = '      - work: "k30, pm, k to end"\n'
    dart = shaping(
        title="dart, right", at="before marker", work="k2tog", from_="2", every="2", times="2"
    )
    other = shaping(
        title="dart, left", at="after marker", work="ssk", from_="2", every="2", times="2"
    )
    edge = shaping(title="edge", at="start", work="bind off {narrow}", from_="3", times="1")
    text = flap(dart + other + edge, over="4").replace(
        "      - together", marker + "      - together"
    )
    steps = plan_of(text).pieces[0].steps

    assert steps[2].detail.stitches == ((60, 58, 48, 46), (60, 58, 46, 44))


@pytest.mark.parametrize(
    ("change", "id"),
    [
        ({"times": "5"}, "together.long"),
        ({"work": '"k to 3 before marker, k2tog"'}, "together.work"),
        ({"work": "bind off all"}, "together.work"),
        ({"work": "bind off 70"}, "row.too-many"),
        ({"at": "before marker"}, "row.no-marker"),
    ],
)
def test_a_slip_is_refused(change: dict[str, str], id: str) -> None:
    edge = {"title": "edge", "at": "start", "work": '"k1, ssk"', "from_": "1", "times": "2"}
    neck = shaping(title="neck", at="end", work="k2tog", from_="1", times="2")

    assert [each.id for each in faults_of(flap(shaping(**{**edge, **change}) + neck))] == [id]


def test_plain_rows_of_a_pattern_are_refused() -> None:
    edge = shaping(title="edge", at="start", work="ssk", from_="1", times="2")
    plain = '        plain: "*k2, p2; repeat from * to end"\n'

    assert [each.id for each in faults_of(flap(edge + edge, more=plain))] == ["together.plain"]
