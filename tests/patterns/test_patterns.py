"""Whole patterns that no demo shows: proved, checked clean, and told in full.

Each folder beside this file is a pattern of our own. Its counts are worked stitch by stitch in all
sizes, or it would not build.
"""

import io
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pypdf
import pytest

from bindoff.files import DiskFiles
from bindoff.pipeline import build_pattern
from bindoff.plan.plan import Plan, make_plan
from bindoff.source.read import read_source
from tests.faults.seeding import checked

HERE = Path(__file__).parent
NAMES = sorted(path.parent.name for path in HERE.glob("*/pattern.yaml"))

each_pattern = pytest.mark.parametrize("name", NAMES)


@cache
def built(name: str) -> Mapping[str, bytes]:
    return build_pattern(DiskFiles(str(HERE / name)), "pattern.yaml", name).files


@cache
def planned(name: str) -> Plan:
    return make_plan(read_source(DiskFiles(str(HERE / name))))


@each_pattern
def test_it_checks_clean(name: str) -> None:
    """Nothing is found but what the pattern itself gives a reason for."""
    loud = [f"{f.id}: {f.message}" for f in checked(DiskFiles(str(HERE / name)))]

    assert [each for each in loud if "silenced" not in each] == []


@each_pattern
def test_the_text_edition_tells_every_step_of_every_piece(name: str) -> None:
    text = built(name)[f"{name}.txt"].decode("utf-8")
    for piece in planned(name).pieces:
        title = planned(name).source.pattern.pieces[piece.key].title
        section = re.search(
            rf"^Section \d+: {re.escape(title)}(?: \(make \d+\))?\n.*?(?=^Section \d+: )",
            text,
            re.M | re.S,
        )
        assert section is not None, title
        numbered = sum(not step.heading for step in piece.steps)
        told = re.findall(rf"^Step (\d+) of {numbered}\b", section[0], re.M)
        assert [int(number) for number in told] == list(range(1, numbered + 1)), title


@each_pattern
def test_the_text_edition_tells_every_count_in_every_size(name: str) -> None:
    """Each count that a step leaves stands in its piece, as a figure."""
    text = built(name)[f"{name}.txt"].decode("utf-8")
    figures = set(map(int, re.findall(r"\d+", text)))
    for piece in planned(name).pieces:
        for step in piece.steps:
            for progress in step.after:
                assert progress.stitches in figures or not progress.stitches


def test_a_heel_that_is_put_in_last_is_counted_and_measured_with_its_foot() -> None:
    """60 stitches, of which 30 wait for the heel while 30 new ones take their place; the foot is
    its rounds, the toe's and the heel's; the round that holds them is too low to be measured."""
    text = " ".join(built("skerry-socks")["skerry-socks.txt"].decode("utf-8").split())

    assert (
        "Next round: Hold 30 stitches for heel, cast on 30 stitches, k to end. The stitches are "
        "now divided: heel 30, on the needles 30. With the new ones there are 60 stitches." in text
    )
    assert "To fit foot length: Size S: 22.5 centimetres" in text
    letters = re.search(r"Letters: (.*?)\. Caption", text)
    assert letters is not None
    assert [each.split(": ")[1] for each in letters[1].split("; ")] == [
        "Round",
        "Cuff",
        "Leg",
        "Foot",
        "Toe",
        "around the last edge",
    ]


def test_a_tube_that_lies_flat_is_closed_at_both_ends_and_embroidered_at_each() -> None:
    """46 stitches lie 23 above 23; the chart of each motif has its own stitches and rounds, and the
    rounds between them stand on none."""
    files = built("tide-gauge-scarf")
    text = " ".join(files["tide-gauge-scarf.txt"].decode("utf-8").split())

    assert text.count("Each needle has 23 stitches.") == 2
    assert "Chart Scarf: Heron, what to embroider: 10 stitches by 9 rounds" in text
    assert "Size Long: embroidery chart of Buoy (Section 6.3), its round 1 on round 195" in text
    assert len([name for name in files if re.fullmatch(r"charts/embroidery-scarf\S*", name)]) == 4


def test_a_blanket_of_squares_is_as_wide_as_those_side_by_side() -> None:
    """A square begins along two of its sides and is decreased between them: 81 stitches make two
    sides of 40, and three sides of 20 cm are 60 cm."""
    files = built("sailcloth-blanket")
    text = " ".join(files["sailcloth-blanket.txt"].decode("utf-8").split())

    assert "cast on 81 stitches" in text.lower()
    assert "Width: 60 centimetres." in text
    assert "Length: 80 centimetres." in text
    assert "Step 7 of 7: Cut the yarn and draw it through the last stitch." in text


def test_a_cover_shows_garter_stitch_where_the_pattern_is_worked_in_it() -> None:
    text = built("sailcloth-blanket")["sailcloth-blanket.txt"].decode("utf-8")

    assert "Picture: Knitted fabric in one yarn, Sail." in text


def test_a_stocking_from_the_machine_has_a_foot_by_hand_and_hangs_by_a_cord() -> None:
    """A heel over 20 of 40 stitches leaves 12, and 11 are picked up on each side of a flap of 20
    rows: 12 + 11 + 20 + 11 are 54. 9 cm at 22 rounds over 10 cm are 20 rounds."""
    files = built("net-loft-stocking")
    text = " ".join(files["net-loft-stocking.txt"].decode("utf-8").split())

    assert "pick up and knit 11 stitches. In all 54 stitches." in text
    assert "Knit the 3 stitches as an i-cord, without turning, until it measures 9" in text
    assert "(about 20 rows)" in text


def test_a_tube_that_is_worked_on_by_hand_leaves_no_tail_to_graft_with() -> None:
    """The toe is grafted with the yarn of the toe, which is cut there; the yarn of the tube is cut
    short. Of 7 yarns of stripes, 9 strands, 3 yarns by hand and a bound-off start, two ends each.
    """
    text = " ".join(built("net-loft-stocking")["net-loft-stocking.txt"].decode("utf-8").split())

    assert "Mark this round, cut Holly, join waste yarn: 70." in text
    assert "Cut the yarn, leaving a tail of about four times the width of the edge" in text
    assert "Ends to weave in: 40. Of these the stripes have 14" in text


@pytest.mark.parametrize("name", ["net-loft-stocking", "sailcloth-blanket"])
def test_measurements_without_a_schematic_stand_beside_the_contents(name: str) -> None:
    """Their table begins above the last line of the contents, right of them, and touches none."""
    page = pypdf.PdfReader(io.BytesIO(built(name)[f"{name}.pdf"])).pages[1]
    found: list[tuple[str, float, float]] = []

    def note(text: str, _: object, matrix: list[float], __: object, ___: object) -> None:
        found.append((text.strip(), matrix[4], matrix[5]))

    page.extract_text(visitor_text=note)
    places = {text: (x, y) for text, x, y in reversed(found) if text}

    contents, measures = places["Contents"], places["Measurement"]
    assert measures[0] > contents[0] + 60
    assert measures[1] > contents[1]
