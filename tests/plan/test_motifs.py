"""Motifs placed on a tube: knitted by a maker needle by needle, folded, put on and looked at."""

from collections.abc import Iterator, Sequence
from math import cos, pi, sin
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic
from bindoff.files import DiskFiles, MemoryFiles
from bindoff.plan.picture import PicturePlan
from bindoff.plan.plan import make_plan
from bindoff.plan.tube import TubePart
from bindoff.source.read import read_source
from tests.small_patterns import HEAD, TUBE, changed, faults_of, plan_of

PICTURE = "    picture: {chart: waves, start: 1, ground: slate}\n"


def with_motifs(*motifs: str, tube: str = "{visible: visible, brim: 3 cm, gather: 1 cm}") -> str:
    lines = "".join(f"      - {{{motif}}}\n" for motif in motifs)
    return changed(
        TUBE,
        (PICTURE, f"    yarn: slate\n    motifs:\n{lines}"),
        ("{visible: visible, brim: 3 cm, gather: 1 cm}", tube),
    )


def tubes(text: str) -> tuple[PicturePlan, ...]:
    return plan_of(text).pieces[0].steps[0].tubes


def one_fault(text: str) -> Diagnostic:
    (fault,) = faults_of(text)
    return fault


# ---------------------------------------------------------------- a maker and a mirror

Fabric = dict[tuple[int, int], str]
"""The yarn that is seen of every stitch, by round and stitch of the round."""


def made(plan: PicturePlan) -> Fabric:
    """The tube cranked needle by needle, the yarn changed where the counter says, embroidered."""
    stops = {change.counter: change for change in plan.stripes.changes}
    yarn = plan.stripes.bases[0]
    fabric: Fabric = {}
    for counter in range(plan.tube.total_rounds):
        if counter in stops:
            (yarn,) = stops[counter].take_up + stops[counter].resume
        for needle in range(1, plan.tube.needles + 1):
            fabric[counter + 1, needle] = yarn
    for area in plan.embroidery.areas:
        for place in area.cells:
            assert fabric[place] != area.yarn
            fabric[place] = area.yarn
    return fabric


VIEWERS = {"front": (0, 1), "back": (0, -1), "left": (-1, 0), "right": (1, 0)}
"""Where the viewer stands. The wearer looks along +y, so that their right hand is at +x."""


def seen_from(plan: PicturePlan, where: str) -> list[list[str]]:
    """What somebody sees who looks at the wearer: rows from the rim up, each from left to right.

    The front half of the stitches lies from the wearer's left over the front to their right. The
    tube is folded at the fold line; a brim turned up shows the lining's side of the fold, with the
    fold at its top, and hides as many rounds of the outside as it has.
    """
    fabric, tube = made(plan), plan.tube
    brim, outer = tube.segment(TubePart.LINING_BRIM), tube.segment(TubePart.OUTER)
    assert outer is not None
    turned_up = list(range(brim.first, brim.last + 1)) if brim else []
    rounds = turned_up + list(range(outer.first + len(turned_up), outer.last + 1))
    toward = VIEWERS[where]
    right = (-toward[1], toward[0])
    shown = []
    for stitch in range(1, tube.needles + 1):
        angle = pi - 2 * pi * ((stitch - tube.front) % tube.needles + 0.5) / tube.needles
        x, y = cos(angle), sin(angle)
        if x * toward[0] + y * toward[1] > 1e-9:
            shown.append((x * right[0] + y * right[1], stitch))
    columns = [stitch for _, stitch in sorted(shown)]
    return [[fabric[round_, stitch] for stitch in columns] for round_ in rounds]


def found(view: list[list[str]], grid: Sequence[str]) -> Iterator[tuple[int, float]]:
    """Where a grid of ``#`` (foam) and ``.`` (anything else) is seen: rows above the rim, and how
    many stitches its middle is right of the middle of the view."""
    rows, wide = grid[::-1], len(grid[0])
    for up in range(len(view) - len(rows) + 1):
        for across in range(len(view[0]) - wide + 1):
            if all(
                (view[up + i][across + j] == "foam") == (cell == "#")
                for i, row in enumerate(rows)
                for j, cell in enumerate(row)
            ):
                yield up, across + wide / 2 - len(view[0]) / 2


@st.composite
def grids(draw: st.DrawFn) -> list[str]:
    """A motif with stitches on all its edges, so that it is seen at one place only."""
    wide, high = draw(st.integers(2, 6)), draw(st.integers(1, 4))
    rows = [draw(st.text("#.", min_size=wide, max_size=wide)) for _ in range(high)]
    rows[0] = "#" + rows[0][1:]
    rows[-1] = rows[-1][:-1] + "#"
    return [row[:-1] + "#" if not index else row for index, row in enumerate(rows)] + ["#" * wide]


def worn(grid: Sequence[str], needles: int, brim: int, motif: str, start: str = "") -> PicturePlan:
    text = (
        HEAD
        + f"""\
made: {{by: machine, needles: {needles}}}
gauge: {{stitches: 10, rounds: 10}}
yarns:
  slate: {{name: Slate, colour: "#46566b", weight: 4, ball: 100 g = 200 m}}
  foam: {{name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}}
sizes:
  S: {{head: 24 cm}}
finished:
  Circumference: width(needles)
charts:
  sign:
    title: Sign
    grid: sign.grid
    legend: {{".": slate, "#": foam}}
    alt: A sign.
pieces:
  cap:
    title: Cap
    yarn: slate
    tube: {{visible: 24 cm, brim: {brim} cm, gather: 1 cm{start}}}
    motifs: [{{chart: sign, {motif}}}]
    steps:
      - stripes: from plan
      - embroider: from plan
      - gather: all
"""
    )
    files = {"pattern.yaml": text.encode(), "sign.grid": ("\n".join(grid) + "\n").encode()}
    plan = make_plan(read_source(MemoryFiles(files), "pattern.yaml", "pattern"))
    (tube,) = plan.pieces[0].steps[0].tubes
    return tube


@settings(deadline=None, max_examples=60)
@given(
    grids(),
    st.integers(20, 51),
    st.integers(0, 3),
    st.sampled_from(["front", "back", "left", "right"]),
    st.integers(3, 8),
    st.booleans(),
)
def test_a_motif_is_seen_upright_at_its_height_and_place(
    grid: list[str], needles: int, brim: int, where: str, high: int, mirror: bool
) -> None:
    """To half a stitch where the middle of the needles is none of the motif's, and to another half
    where a quarter of the needles is no whole number."""
    plan = worn(grid, needles, brim, f"at: {where}, above rim: {high}, mirror: {mirror}".lower())

    shown = [row[::-1] for row in grid] if mirror else grid
    places = list(found(seen_from(plan, where), shown))

    assert any(up == high and abs(middle) <= 1 for up, middle in places)


@settings(deadline=None, max_examples=30)
@given(grids(), st.integers(28, 50), st.integers(1, 6))
def test_two_motifs_face_each_other_at_the_sides(grid: list[str], needles: int, low: int) -> None:
    """As drawn on the wearer's left, mirrored on their right; below the top."""
    plan = worn(grid, needles, 0, f"at: sides, below top: {low} rounds, mirror: true")
    up = 24 - low - len(grid)

    for where, shown in (("left", grid), ("right", [row[::-1] for row in grid])):
        places = list(found(seen_from(plan, where), shown))
        assert any(at == up and abs(middle) <= 1 for at, middle in places)


@settings(deadline=None, max_examples=30)
@given(grids(), st.integers(6, 12))
def test_a_motif_on_the_brim_stands_upright_when_the_brim_is_turned_up(
    grid: list[str], quarter: int
) -> None:
    plan = worn(grid, 4 * quarter, 8, "at: front, above rim: 1, on: brim")

    assert any(up == 1 and abs(middle) <= 1 for up, middle in found(seen_from(plan, "front"), grid))


@settings(deadline=None, max_examples=40)
@given(grids(), st.integers(20, 51), st.sampled_from(["sides", "front and back", "back"]))
def test_no_motif_is_split(grid: list[str], needles: int, where: str) -> None:
    plan = worn(grid, needles, 0, f"at: {where}")

    for motif in plan.motifs:
        assert 1 <= motif.stitch <= motif.last_stitch <= needles


def test_every_motif_of_the_demo_is_where_it_should_be_in_every_size() -> None:
    """The boat stands in the middle of the front, a gull at each side looks at it, and the spray
    goes all around below the tie, on 40 needles and on 46."""
    demo = Path(__file__).parents[2] / "patterns" / "fairway-hat"
    plan = make_plan(read_source(DiskFiles(str(demo)), "pattern.yaml", "fairway-hat"))
    plans = next(piece for piece in plan.pieces if piece.key == "hat").steps[1].tubes
    grids = {name: (demo / f"{name}.grid").read_text().split() for name in ("boat", "gull")}
    ground = ("night", "sea")  # a boat is foam, brick and mast

    assert [each.tube.needles for each in plans] == [40, 46]
    for size in plans:
        outer = size.tube.segment(TubePart.OUTER)
        assert outer is not None
        for chart, where, up, turned in (
            ("boat", "front", 7, False),
            ("gull", "left", 14, False),
            ("gull", "right", 14, True),
        ):
            shown = [row[::-1] if turned else row for row in grids[chart]]
            view = [
                ["" if yarn in ground else yarn[0] for yarn in row]
                for row in seen_from(size, where)
            ]
            wanted = [["" if cell == "." else cell for cell in row] for row in shown]
            middle = [
                across + len(shown[0]) / 2 - len(view[0]) / 2
                for across in range(len(view[0]) - len(shown[0]) + 1)
                if [row[across : across + len(shown[0])] for row in view[up : up + len(shown)]]
                == [[cell.replace("r", "b") for cell in row] for row in wanted[::-1]]
            ]
            assert any(abs(each) <= 1 for each in middle), (chart, where)
        spray = [motif for motif in size.motifs if motif.chart == "spray"]
        assert [motif.last for motif in spray] == [outer.last - 2]


# ---------------------------------------------------------------- by hand


def test_a_motif_of_eight_on_the_front_of_twenty_four() -> None:
    """The front is stitches 1 to 12, so 8 of them begin at stitch 3. The lower edge ends with round
    23, so 5 rounds above it are 24 to 28, and the motif has rounds 29 to 32."""
    small = tubes(with_motifs("chart: waves, at: front, above rim: 5 rounds"))[0]

    (motif,) = small.motifs
    assert (motif.place, motif.stitch, motif.last_stitch) == ("front", 3, 10)
    assert (motif.first, motif.last) == (29, 32)
    assert (small.tube.start, small.tube.markers, small.tube.front) == (0, (1, 13), 1)
    assert small.embroidery.areas[0].yarn == "foam"


def test_the_start_of_the_round_goes_to_the_back_for_motifs_at_the_sides() -> None:
    """24 needles: from the middle of the back it is 6 stitches to the wearer's left side."""
    small = tubes(with_motifs("chart: waves, at: sides, above rim: 5"))[0]

    assert [(each.place, each.stitch) for each in small.motifs] == [
        ("left side", 3),
        ("right side", 15),
    ]
    assert (small.tube.start, small.tube.markers, small.tube.front) == (18, (7, 19), 7)


def test_a_stripe_goes_on_behind_a_motif() -> None:
    """A stripe of a third yarn in the motif's second round is knitted, and the motif lies on it."""
    text = changed(
        with_motifs(
            "chart: waves, at: front, above rim: 5",
            tube="{visible: visible, stripes: [{from: 6 rounds above rim, rounds: 1, yarn: red}]}",
        ),
        (
            "sizes:\n",
            '  red: {name: Red, colour: "#b3472f", weight: 4, ball: 100 g = 200 m}\nsizes:\n',
        ),
    )
    small = tubes(text)[0]

    line = next(n for n, base in enumerate(small.stripes.bases, start=1) if base == "red")
    assert line == small.motifs[0].first + 1
    row = "".join(yarn[0] for yarn in small.colours.rounds[line - 1])
    assert row == "r" * 15 + "frrfrrf" + "rr"


@pytest.mark.parametrize("far", ["4", "4 rounds", "3 cm", "rounds(3 cm)"])
def test_a_height_is_rounds_or_a_length(far: str) -> None:
    """3 cm at 14 rounds to 10 cm are 4.2 rounds, and so 4."""
    small = tubes(with_motifs(f"chart: waves, at: front, above rim: {far}"))[0]

    assert small.motifs[0].first == 24 + 4


def test_a_place_that_is_none_is_told_with_those_there_are() -> None:
    fault = one_fault(with_motifs("chart: waves, at: nose"))

    assert fault.message == "`nose` is no place on a tube"
    assert "sides, front and back, or the number of a stitch" in (fault.help or "")


def test_a_motif_of_some_sizes() -> None:
    small, medium = tubes(
        with_motifs("chart: waves, at: front, sizes: [M]", "chart: waves, at: back, sizes: [S]")
    )

    assert [each.place for each in small.motifs] == ["back"]
    assert [each.place for each in medium.motifs] == ["front"]


def test_every_second_one_of_a_row_is_mirrored() -> None:
    text = with_motifs("chart: waves, around: true, mirror: true").replace(
        "needles: 24", "needles: 32"
    )
    small = tubes(text)[0]
    row = "".join("#" if yarn == "foam" else "." for yarn in small.colours.rounds[small.first - 1])

    assert row == (".##....#" + "#....##.") * 2


@pytest.mark.parametrize(
    ("motifs", "id", "words"),
    [
        (("chart: waves, at: front, above rim: 11",), "motif.height", "4 rounds after 11"),
        (("chart: waves, at: 25",), "motif.stitch", "no stitch 25 in a round of 24"),
        (("chart: waves, at: 20",), "motif.split", "past the end of the round"),
        (("chart: waves, around: true, mirror: true",), "motif.around", "16 stitches wide"),
        (
            ("chart: waves, at: front", "chart: waves, at: 5"),
            "motif.overlap",
            "`waves` of line 31, at the front,",
        ),
    ],
)
def test_motifs_that_can_not_be(motifs: tuple[str, ...], id: str, words: str) -> None:
    fault = one_fault(with_motifs(*motifs))

    assert fault.id == id
    assert words in fault.message
    assert fault.help


def test_a_motif_wider_than_the_tube() -> None:
    text = with_motifs("chart: waves, at: front").replace("needles: 24", "needles: 6")

    assert one_fault(text).id == "motif.width"


def test_a_start_of_the_round_that_splits_a_motif() -> None:
    text = with_motifs("chart: waves, at: back", tube="{visible: visible, start of round: back}")

    assert one_fault(text).id == "motif.split"


def test_a_picture_and_motifs() -> None:
    text = with_motifs("chart: waves, at: front").replace("    yarn: slate\n", PICTURE)

    assert one_fault(text).id == "source.picture-and-motifs"


def test_rounds_start_where_the_tube_says() -> None:
    """A picture all around may start at the back; a mirrored one has its front first."""
    back = changed(TUBE, ("gather: 1 cm}", "gather: 1 cm, start of round: back}"))
    mirrored = changed(back, ("start: 1,", "start: 1, mirror: true,")).replace(
        "needles: 24", "needles: 32"
    )

    assert [each.tube.front for each in tubes(back)] == [7, 7]
    fault = one_fault(mirrored)
    assert fault.id == "picture.round-start"
    assert "not at the back" in fault.message
