"""Rarer changes between two versions: each edit of a source, and the line that is printed."""

import pytest

from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed
from tests.test_compare import words

Edit = tuple[str, str]

TWO_CHARTS = changed(
    CAP,
    (
        "pieces:\n",
        "  ripple:\n    title: Ripple\n    grid: waves.grid\n"
        '    legend: {".": slate, "#": foam}\n    alt: Other waves.\npieces:\n',
    ),
)

BRIM = """\
  brim:
    title: Brim
    yarn: slate
    steps:
      - cast on: 20
      - work: k all
        rounds: 4
      - bind off: all
"""

JOINED = changed(FLAP, ("bind off: all", "leave: live")) + (
    "  facing:\n    title: Facing\n    worked: flat\n    steps:\n      - cast on: narrow\n"
    "      - work: k all\n      - join: flap\n"
)


@pytest.mark.parametrize(
    ("base", "edit", "lines"),
    [
        pytest.param(
            TWO_CHARTS,
            ("- chart: waves", "- chart: ripple"),
            ["Step 3: work the chart Ripple, was Waves."],
            id="another chart",
        ),
        pytest.param(CAP + BRIM, (BRIM, ""), ["Brim is gone."], id="no piece"),
        pytest.param(
            CAP,
            ("      - gather: all\n", "      - gather: all\n" + BRIM),
            ["Brim is new."],
            id="one more piece",
        ),
        pytest.param(
            CAP,
            (
                "  S: {head: 52 cm}\n  M: {head: 56 cm}\n",
                "  M: {head: 56 cm}\n  S: {head: 52 cm}\n",
            ),
            ["Sizes: the order is now M, S, was S, M."],
            id="sizes in another order",
        ),
        pytest.param(
            CAP, ("#e9eef0", "#ffeef0"), ["Foam: shown in another color."], id="another colour"
        ),
        pytest.param(
            changed(CAP, ("    yarn: slate\n", "    yarn: slate\n    worked: round\n")),
            ("worked: round", "worked: flat"),
            ["Cap: now worked flat, in rows."],
            id="flat",
        ),
        pytest.param(
            CAP,
            ("title: Waves", "title: Swell"),
            ["Swell: this is the new name of Waves."],
            id="chart",
        ),
        pytest.param(
            CAP, ("name: Foam", "name: Spray"), ["Spray: this is the new name of Foam."], id="yarn"
        ),
        pytest.param(
            CAP,
            ("      - work: k all\n", "      - work: k all\n        yarn: foam\n"),
            ["Step 4: in Foam, was Slate."],
            id="a step in another yarn",
        ),
        pytest.param(
            CAP,
            ('      - work: "*k2, p2; repeat from * to end"\n        rounds: 8\n', ""),
            ["Step 2 of the earlier version is gone."],
            id="no step",
        ),
        pytest.param(
            CAP,
            ("use: throughout", "use: for the crown"),
            ["Tools: 4.5 mm circular needle (for the crown), was (throughout)."],
            id="another use",
        ),
        pytest.param(
            CAP,
            ("tools:\n", "tools:\n  - {name: cable needle}\n"),
            ["Tools: also needed: cable needle."],
            id="one more tool",
        ),
        pytest.param(
            JOINED,
            ("narrow: [10, 12]", "narrow: [8, 10]"),
            [
                "Step 3, size S: leave live 8 stitches, was 10.",
                "Step 3, size M: leave live 10 stitches, was 12.",
                "Step 3, size S: join 8 stitches, was 10.",
                "Step 3, size M: join 10 stitches, was 12.",
            ],
            id="ends that stay live and are joined",
        ),
        pytest.param(
            TUBE,
            ("ground: slate", "ground: foam"),
            [
                "Step 1: also cut Foam and join Slate after round 24 (25); also cut Slate and join "
                "Foam after round 28 (29)."
            ],
            id="the tube in the other yarn",
        ),
    ],
)
def test_words_of_an_edit(base: str, edit: Edit, lines: list[str]) -> None:
    said = words(base, changed(base, edit))

    assert [line for line in said if line in lines] == lines


def test_a_size_left_out() -> None:
    left_out = changed(CAP, ("  M: {head: 56 cm}\n", ""), ("[20 cm, 21 cm]", "20 cm"))

    assert words(CAP, left_out)[1:] == ["Sizes: M is gone."]


def test_rounds_of_a_chart_that_are_new_or_gone() -> None:
    """The last line of a grid is round 1, so a line below it is a new round 1."""
    taller = words(CAP, CAP, grid=WAVES + "#..##..#\n")
    lower = words(CAP, CAP, grid=WAVES.partition("\n")[2])

    assert taller[-2:] == [
        "Waves: 8 stitches and 5 rounds, was 8 stitches and 4 rounds.",
        "Waves, round 1: this round is new.",
    ]
    assert lower[-2:] == [
        "Waves: 8 stitches and 3 rounds, was 8 stitches and 4 rounds.",
        "Waves, round 4: this round of the earlier chart is gone.",
    ]


def test_imperial_figures_stand_alone() -> None:
    base = changed(CAP, ("wearer: [adult]", "wearer: [adult]\nunits: imperial"))
    said = words(base, changed(base, ("stitches: 20", "stitches: 24")))

    assert "Gauge: 24 stitches and 28 rounds over 4 in, was 20 stitches and 28 rounds." in said
    assert any(line.startswith("Slate, size S: you need 78 g / 170 yd, was 66 g") for line in said)
    assert not any(" cm" in line or " m," in line for line in said)
