"""The map of a tube: everything where the counter says, nothing over anything else."""

import re
from itertools import pairwise
from pathlib import Path as FilePath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.drawing import Drawing, Label, Path, Rect, reach
from bindoff.document.drawn import Drawn
from bindoff.document.piecepages import piece_blocks
from bindoff.document.tree import Figure, plain
from bindoff.document.voice import voice_of
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import drawn_for, plan_pattern
from bindoff.plan.tube import TubePart
from bindoff.records import replace
from tests.plan.test_motifs import with_motifs
from tests.small_machine import COWL
from tests.small_patterns import TUBE, changed, plan_of

DEMOS = FilePath(__file__).parents[2] / "patterns"
USUALLY, LARGE, UNFILLED = drawn_for("calm"), drawn_for("large-print"), drawn_for("print-saver")


def figure(text: str, drawn: Drawn = USUALLY) -> Figure:
    plan = plan_of(text)
    blocks = piece_blocks(voice_of(plan), plan.pieces[0], drawn)
    found = blocks[1]  # the first thing under the heading
    assert isinstance(found, Figure)
    return found


def drawing(text: str, drawn: Drawn = USUALLY) -> Drawing:
    made = figure(text, drawn).picture
    assert isinstance(made, Drawing)
    return made


def flags(made: Drawing) -> list[Label]:
    return [
        each
        for each in made.shapes
        if isinstance(each, Label) and each.bold and each.text.isdigit()
    ]


def test_every_stop_of_the_counter_has_its_flag() -> None:
    assert [each.text for each in flags(drawing(COWL))] == [
        *("0", "4", "6", "7", "8", "77", "80", "84"),
    ]


def test_a_folded_tube_has_its_zones_fold_and_half_round() -> None:
    made = figure(TUBE)
    words = [each.text for each in drawing(TUBE).shapes if isinstance(each, Label)]

    assert made.alt == (
        "Map of the tube of Cap, 24 stitches by 38 rounds. From the cast-on: gathered end of the "
        "lining, round 1; lining, rounds 2 to 15; brim, turned out, rounds 16 to 19; brim, turned "
        "in, rounds 20 to 23; body, rounds 24 to 37; gathered end, round 38. It is folded after "
        "round 19. With it the folded piece from the front and in section, with the same "
        "letters. The picture is in rounds 25 to 28. The stops are in the counter table."
    )
    assert {"fold", "brim starts", "brim ends", "end", "A", "F"} <= set(words)
    assert "A gathered end of the lining; B lining" in plain(made.caption)


def test_what_no_letter_explains_is_told_below_the_map() -> None:
    """Nothing is hatched without colours, and of one layer nothing is hidden."""
    assert "Hatched: hidden when worn; triangle: the half round" in plain(figure(TUBE).caption)
    assert "Triangle: the half round" in plain(figure(TUBE, UNFILLED).caption)
    assert "atched" not in plain(figure(COWL).caption)


def test_a_tube_of_one_layer_has_no_fold_and_no_letters() -> None:
    words = [each.text for each in drawing(COWL).shapes if isinstance(each, Label)]

    assert not {"fold", "A", "brim ends"} & set(words)
    assert "fold" not in figure(COWL).alt


def test_stripes_are_to_scale() -> None:
    """84 rounds in S: the second stripe, rounds 5 and 6, is 2 of 84 high, and 4 above the rim."""
    bands = [each for each in drawing(COWL).shapes if isinstance(each, Rect) and each.w > 20]
    frame = bands[-1]
    slate, foam = bands[0], bands[1]

    assert frame.h == pytest.approx(sum(each.h for each in bands[:-1]))
    assert foam.h / frame.h == pytest.approx(2 / 84)
    assert slate.h / frame.h == pytest.approx(4 / 84)
    assert frame.w / frame.h == pytest.approx((22 * 100 / 10) / (84 * 100 / 14))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.integers(1, 3), min_size=1, max_size=12),
    st.sampled_from([USUALLY, LARGE, UNFILLED]),
)
def test_no_flag_lies_on_another_and_all_lie_on_the_drawing(
    heights: list[int], drawn: Drawn
) -> None:
    at, written = 0, []
    for height in heights:
        written.append(f"{{from: {at} rounds above rim, rounds: {height}, yarn: foam}}")
        at += height + 1
    stripes = "      stripes: [" + ", ".join(written) + "]\n    steps:\n"
    text = changed(
        COWL, (COWL[COWL.index("      stripes:") : COWL.index("    steps:\n") + 11], stripes)
    )
    made = drawing(text, drawn)
    places = [each.y for each in flags(made)]

    assert all(below - above >= drawn.numbers for below, above in pairwise(places))
    for each in made.shapes:
        if isinstance(each, Label):
            assert each.y - each.size * 0.72 >= 0
            assert each.y <= made.height
            assert 0 <= each.x <= made.width
    assert made.width <= drawn.width + 0.01


def test_flags_of_many_stripes_lie_beside_their_rounds_in_large_type() -> None:
    """The map is as high as its flags need, so that none is led far away from its round."""
    text = (DEMOS / "breakwater-cowl" / "pattern.yaml").read_text("utf-8")
    made = drawing(text, LARGE)
    found = flags(made)
    (tube, *_) = sorted(
        (each for each in made.shapes if isinstance(each, Rect) and each.fill is None),
        key=lambda each: -each.w * each.h,
    )
    rounds = int(found[-1].text)
    away = [abs(each.y - (tube.y + tube.h * (1 - int(each.text) / rounds))) for each in found]
    assert len(found) == 16
    assert max(away) <= 0.2 * tube.h


@pytest.mark.parametrize("room", range(90, 170, 4))
def test_names_of_the_sides_lie_on_no_other(room: int) -> None:
    """However narrow the map is; rounds start at a side, whose name ends at the map's edge."""
    folder = DEMOS / "harbour-light-hat"
    plan = plan_pattern(DiskFiles(str(folder)), SOURCE_NAME, folder.name)
    blocks = piece_blocks(voice_of(plan), plan.pieces[0], replace(USUALLY, map=float(room)))
    (made,) = [
        each.picture for each in blocks if isinstance(each, Figure) and each.id[:4] == "map-"
    ]
    assert isinstance(made, Drawing)
    named = [each for each in made.shapes if isinstance(each, Label) and each.text.endswith("side")]
    (_, _, end, _), (start, *_) = sorted(reach((each,)) for each in named)
    assert end < start


def test_without_colour_only_black_and_white_are_filled() -> None:
    fills = {each.fill for each in drawing(TUBE, UNFILLED).shapes if isinstance(each, Rect | Path)}

    assert fills <= {None, "#ffffff", "#000000"}


def test_without_colour_a_letter_in_each_frame_names_its_motif() -> None:
    """As its stitches are not drawn there; with colours they are, and no letter lies on them."""
    text = with_motifs(
        *(f"chart: waves, at: {place}, above rim: 3 rounds" for place in ("front", "back"))
    )
    made, seen = figure(text, UNFILLED), drawing(text, UNFILLED).shapes
    (after,) = re.findall(r"([A-Z]) Waves", plain(made.caption))
    frames = [each for each in seen if isinstance(each, Rect) and each.fill and each.w > 10]
    named = [each for each in seen if isinstance(each, Label) and each.text == after]

    assert "Waves" not in plain(figure(text).caption)
    assert len(named) == len(frames) == 2
    for label, frame in zip(named, frames, strict=True):
        assert label.x == pytest.approx(frame.x + frame.w / 2)
        assert frame.y < label.y < frame.y + frame.h


def test_the_folded_views_have_the_letters_of_the_map() -> None:
    """Lining, brim and body are named on the map and in one view at least, and the gathered ends
    together at the top."""
    words = [each.text for each in drawing(TUBE).shapes if isinstance(each, Label)]

    assert {"from the front", "folded, in section", "A F"} <= set(words)
    assert [words.count(letter) for letter in "ABCDEF"] == [1, 2, 3, 2, 3, 2]
    assert not {"from the front", "folded, in section"} & {
        each.text for each in drawing(COWL).shapes if isinstance(each, Label)
    }


@pytest.mark.parametrize(("layer", "seen"), [("outside", True), ("inside", False)])
def test_each_layer_of_the_brim_is_told_and_the_one_that_is_turned_out_is_seen(
    layer: str, seen: bool
) -> None:
    """The small size: the brim turned out is knitted in rounds 16 to 19, the one it hides after
    the fold in rounds 20 to 23. Right of the map lies the piece as worn."""
    text = changed(
        TUBE,
        ("gather: 1 cm}", f"gather: 1 cm, yarns: {{brim {layer}: foam}}}}"),
        ("    picture: {chart: waves, start: 1, ground: slate}\n", ""),
        ("      - embroider: from plan\n", ""),
    )
    first, last = (16, 19) if seen else (20, 23)
    told = figure(text)
    rects = [each for each in drawing(text).shapes if isinstance(each, Rect)]
    frame = next(each for each in rects if each.width == 0.45)
    worn = {each.fill for each in rects if each.x > frame.x + frame.w}

    stripes = f"Slate, rounds 1 to {first - 1}; Foam, rounds {first} to {last}; Slate, rounds "
    assert f"Stripes: {stripes}{last + 1} to 38" in told.alt
    assert ("#e9eef0" in worn) is seen


def test_the_front_view_shows_the_front_half_at_the_scale_of_the_map() -> None:
    """The outline is as wide as half of the needles, and as high as what is seen above the brim."""
    made = drawing(TUBE)
    plan = plan_of(TUBE).pieces[0].steps[0].tubes[0]
    frame = next(each for each in made.shapes if isinstance(each, Rect) and each.width == 0.45)
    outline = next(
        each
        for each in made.shapes
        if isinstance(each, Path) and each.width == 0.45 and each.fill is None
    )
    across = [float(command[1]) for command in outline.commands if len(command) == 3]
    up = [float(command[2]) for command in outline.commands if len(command) == 3]
    brim = plan.tube.segment(TubePart.LINING_BRIM)
    outer = plan.tube.segment(TubePart.OUTER)
    assert brim
    assert outer
    rounds = outer.last - outer.first - (brim.last - brim.first)

    assert max(across) - min(across) == pytest.approx(frame.w / 2)
    assert max(up) - min(up) == pytest.approx(frame.h / plan.tube.total_rounds * rounds)
    assert made.width <= USUALLY.width


def test_a_tied_tube_is_told_and_drawn_with_its_edges_joined_above_the_tie() -> None:
    """Both layers of a side are one line in section, up around their joined edges and down."""
    ends = "      - {join: start, by: slip stitch}\n      - {close: top, by: tie}\n"
    tied = changed(TUBE, ("      - gather: all\n", ends))
    above = "above the tie both layers, joined at their edges, stand up as a tuft"

    assert above in figure(tied).alt
    assert above not in figure(TUBE).alt
    tufts = [
        each.commands
        for each in drawing(tied).shapes
        if isinstance(each, Path) and each.width == 1.3 and len(each.commands) == 4
    ]
    assert len(tufts) == 2
    assert all(commands[0][1:] == commands[-1][-2:] for commands in tufts)
