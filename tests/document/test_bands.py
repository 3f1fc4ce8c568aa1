"""Motifs far from each other along a tube: a chart each, without the plain rounds between."""

from collections.abc import Iterator

from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.build import build_document
from bindoff.document.charts.spec import ChartSpec
from bindoff.document.tubecharts import stitchings, tube_charts
from bindoff.document.voice import voice_of
from bindoff.files import MemoryFiles
from bindoff.plan.picture import PicturePlan
from tests.document.patterns import said
from tests.plan.test_motifs import with_motifs
from tests.small_patterns import changed, plan_of

LOW = "chart: waves, at: front, above rim: 3 rounds"
HIGH = "chart: waves, at: front, below top: 3 rounds"
BACK = "chart: waves, at: back, below top: 3 rounds"


def scarf(*motifs: str, length: str = "100 cm") -> str:
    """A tube of 24 stitches whose ends are closed flat, 14 rounds to 10 cm, with those motifs."""
    ends = "      - {join: itself, edge: start}\n      - {join: itself}\n"
    text = with_motifs(*motifs, tube=f"{{length: {length}}}")
    return changed(text, ("      - gather: all\n", ends))


def words_of(text: str) -> str:
    document, _ = build_document(plan_of(text), MemoryFiles({}))
    return said(document.blocks)


def charts(text: str) -> list[ChartSpec]:
    plan = plan_of(text)
    piece = plan.pieces[0]
    return [each.spec for each in tube_charts(voice_of(plan), piece, piece.steps[0].tubes)]


def test_motifs_at_both_ends_have_charts_of_themselves_alone() -> None:
    """The motif is 8 stitches by 4 rounds, and a chart shows 2 stitches on both sides of it."""
    first, second = charts(scarf(LOW, BACK))

    assert (first.width, first.height) == (second.width, second.height) == (12, 4)
    assert first.first_stitch != second.first_stitch


def test_the_same_motif_in_two_places_is_one_chart() -> None:
    text = scarf(LOW, HIGH)
    (chart,) = charts(text)
    words = words_of(text)

    assert chart.title == "Cap: Waves, what to embroider"
    assert "embroidery chart of Waves, its round 1 on rounds 4 and 134 of the tube" in words


def test_charts_of_one_motif_beside_others_are_numbered() -> None:
    """Two far apart, one of them on a stripe that hides a part of it."""
    lined = changed(
        scarf(LOW, HIGH),
        (
            "{length: 100 cm}",
            "{length: 100 cm, stripes: [{from: 4 rounds above rim, rounds: 1, yarn: foam}]}",
        ),
    )
    titles = [each.title for each in charts(lined)]

    assert "Cap: Waves 1, what to embroider" in titles
    assert "Cap: Waves 2, what to embroider" in titles
    assert ": Waves 1" in words_of(lined)


def test_what_is_parted_in_one_size_is_parted_in_all() -> None:
    """8 plain rounds lie between the motifs in the shorter size, and far more in the longer one:
    each motif has one chart, for both."""
    both = charts(scarf(LOW, BACK, length="[16 cm, 60 cm]"))

    assert [each.title for each in both] == [
        "Cap: Waves 1, what to embroider",
        "Cap: Waves 2, what to embroider",
    ]
    assert [each.height for each in both] == [4, 4]
    (near,) = charts(scarf(LOW, BACK, length="16 cm"))
    assert near.height > 4


def test_charts_are_numbered_within_their_size_and_name_the_places_they_show() -> None:
    """In the shorter size no plain round lies between the motifs, which are on one chart; in the
    longer one each has its own, and the stripe hides a part of the lower one alone."""
    lined = "stripes: [{from: 4 rounds above rim, rounds: 1, yarn: foam}]"
    text = scarf(LOW, BACK, length="[9 cm, 60 cm]").replace("60 cm]}", f"60 cm], {lined}}}")
    titles = [each.title for each in charts(text)]

    assert [each for each in titles if each.endswith("what to embroider, size S")] == [
        "Cap: Waves, what to embroider, size S"
    ]
    assert "Cap: Waves 1, what to embroider, size M" in titles
    assert "Cap: Waves 2, what to embroider, size M" in titles
    plan = plan_of(text)
    seen = tube_charts(voice_of(plan), plan.pieces[0], plan.pieces[0].steps[0].tubes)
    alts = {each.spec.title: each.alt for each in seen}
    assert alts["Cap: Waves, as it will be seen, size S"].startswith("Waves, front and back:")
    assert alts["Cap: Waves, as it will be seen, size M"].startswith("Waves, front:")


def test_motifs_at_other_rounds_in_each_size_are_one_chart() -> None:
    text = scarf(LOW, BACK, length="[100 cm, 120 cm]")
    words = words_of(text)

    assert len(charts(text)) == 2
    assert "its round 1 on round 134 (162) of the tube" in words
    assert "The charts number stitches as the round does." in words
    assert words.count("Areas in working order, yarn by yarn: Waves") == 2


def test_a_chart_begins_where_the_round_does_if_its_motifs_go_around() -> None:
    (chart,) = charts(scarf("chart: waves, around: true, above rim: 3 rounds"))

    assert (chart.width, chart.first_stitch) == (24, 1)


PLACES = st.sampled_from(("front", "back", "front and back"))


@given(st.lists(st.tuples(PLACES, st.integers(0, 30)), min_size=1, max_size=4))
def test_every_stitch_to_embroider_is_on_one_chart_at_its_place(
    wanted: list[tuple[str, int]],
) -> None:
    """Charts, put back at the rounds that the words give, are the tube's embroidery."""
    motifs, low = [], 0
    for place, gap in wanted:
        low += gap
        motifs.append(f"chart: waves, at: {place}, above rim: {low} rounds")
        low += 4  # its rounds
    plan = plan_of(scarf(*motifs))
    piece = plan.pieces[0]
    specs = {
        each.id: each.spec for each in tube_charts(voice_of(plan), piece, piece.steps[0].tubes)
    }

    for size, tube in enumerate(piece.steps[0].tubes):
        shown = [
            (start + up, chart.place(across), yarn)
            for each in stitchings(piece.key, piece.steps[0].tubes)
            for chart in [specs[each.id]]
            for at, starts in zip(each.sizes, each.starts, strict=True)
            if at == size
            for start in starts
            for up, across, yarn in embroidered(chart)
        ]
        assert sorted(shown) == sorted(wished(tube))


def embroidered(chart: ChartSpec) -> Iterator[tuple[int, int, str]]:
    """Rounds above the first, stitches from the right and yarns of a chart's embroidery."""
    for up, row in enumerate(chart.rows):
        for left, key in enumerate(row):
            if key.startswith("+"):
                yield up, chart.width - left, key[1:]


def wished(tube: PicturePlan) -> Iterator[tuple[int, int, str]]:
    for number, row in enumerate(tube.overlay, start=1):
        for left, yarn in enumerate(row):
            if yarn is not None:
                yield number, tube.tube.needles - left, yarn
