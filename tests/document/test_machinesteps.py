"""What a maker reads at the machine: needles, turns of the crank, stops of a striped tube."""

import re

from bindoff.document.build import build_document
from bindoff.document.machinecard import card_document, has_card
from bindoff.document.tree import DefinitionList, plain
from bindoff.files import MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.render.text import render_text
from tests.small_machine import COWL, STRIP
from tests.small_patterns import changed


def told(text: str) -> str:
    files = MemoryFiles({"pattern.yaml": text})
    return render_text(build_document(plan_pattern(files, "pattern.yaml", "own"), files)[0])


def test_a_strip_says_which_needles_are_in_work() -> None:
    said = told(STRIP)

    assert "Bring 14 needles into work, side by side." in said
    assert "Leave 8 needles empty between the two edges." in said
    assert "Leaving a tail of 15 centimeters or 6 inches, wind Slate once around each" in said
    assert "see that the last needle at the edge has the yarn in its hook" in said


def test_turns_of_the_crank_are_rows_and_the_counter_adds_them_up() -> None:
    said = told(STRIP)

    assert "With Foam, crank 4 rows.\nThe counter then shows 24." in said
    assert re.search(
        r"Size S: [^\n]*The counter then shows 44\.\nSize M: .*The counter then shows 48\.", said
    )
    assert "Bind off all 14 stitches with a crochet hook, from the edge where the yarn is" in said
    assert "Cut the yarn and draw it through the last stitch." in said


def test_open_stitches_are_gathered_or_kept_as_the_pattern_does() -> None:
    """What no step does is not explained."""
    gathers, keeps = "To gather the edge at once", "six to eight rounds in smooth waste yarn"
    gathered = changed(STRIP, ("- bind off: all", "- gather: all"))

    assert gathers not in told(STRIP)
    assert gathers in told(gathered)
    assert keeps not in told(gathered)
    assert gathers not in told(COWL)
    assert keeps in told(COWL)


def test_ends_of_a_strip_are_counted_where_those_of_a_tube_are() -> None:
    """Slate cast on and bound off, Foam between, and Slate joined again: three lengths, six
    ends; without a tube nobody counts them."""
    strip = STRIP[STRIP.index("\n  strip:") :]
    both = changed(COWL, ("\npieces:", f"\npieces:{strip.rstrip()}"))

    assert "Ends to weave in" not in told(STRIP)
    assert "Ends to weave in: 6." in told(both)


def test_a_strip_may_begin_on_waste_yarn() -> None:
    said = told(changed(STRIP, ("cast on: 14", "cast on: 14\n        method: waste yarn")))

    assert "Wind smooth waste yarn once around each needle in work by hand" in said
    assert "Crank 6 to 8 rows with the waste yarn." in said
    assert "change to Slate, leaving a tail of 15 centimeters or 6 inches" in said


def test_open_loops_begin_in_the_yarn_of_the_first_rows() -> None:
    """Nothing of the main yarn is in them: it is neither joined nor cut before the first row."""
    text = changed(
        STRIP,
        ("cast on: 14", "cast on: 14\n        method: waste yarn"),
        ("- work: k all", "- work: k all\n        yarn: foam"),
    )

    assert "change to Foam, leaving a tail of 15 centimeters or 6 inches" in told(text)
    assert "0: Read Safety first.\nBegin with Foam." in card_of(text)
    assert "Cut Slate, join Foam" not in card_of(text).partition("Begin with Foam.")[2][:60]


def test_a_panel_is_told_no_width_of_a_tube() -> None:
    said = told(STRIP)

    assert "Width and length on a machine" not in said
    assert "Sizes on a machine" not in said
    assert "count stitches and rows over" in said


def test_a_machine_tube_has_a_stitch_a_needle_and_no_edges() -> None:
    said = told(changed(STRIP, ("    worked: flat\n", ""), ("cast on: 14", "cast on: needles")))

    assert "Bring all 22 needles into work." in said
    assert "Crank 20 rounds." in said
    assert "edge" not in said[said.index("Section 5") : said.index("Section 6: ")]


def test_a_striped_tube_without_a_picture_has_stops_and_no_fold() -> None:
    said = told(COWL)

    assert "Cut Slate, join Foam: 4." in said
    assert "Fold line" not in said
    assert "embroider" not in said
    assert "Picture: Knitted fabric in stripes of Slate and Foam." in said


def test_a_striped_tube_without_a_picture_has_a_card() -> None:
    files = MemoryFiles({"pattern.yaml": COWL})
    plan = plan_pattern(files, "pattern.yaml", "own")
    lists = [each for each in card_document(plan).blocks if isinstance(each, DefinitionList)]

    assert has_card(plan)
    assert [plain(entry.term) for entry in lists[0].entries] == [
        *("0", "1", "4", "6", "7", "8", "77", "80", "84"),
    ]


def card_of(text: str) -> str:
    plan = plan_pattern(MemoryFiles({"pattern.yaml": text}), "pattern.yaml", "own")
    assert has_card(plan)
    return render_text(card_document(plan))


def test_a_cranked_piece_has_a_card_too() -> None:
    """20 rows, 4 in foam, 24 more in M: the counter adds them up."""
    said = card_of(STRIP)

    assert "14 needles in work." in said
    assert "0: Read Safety first.\nBegin with Slate.\nThen 20 rows." in said
    assert "20: Cut Slate, join Foam.\nThen 4 rows." in said
    assert "24: Cut Foam, join Slate.\nThen 24 rows." in said
    assert "48: Stop here and go on in the pattern." in said


def test_the_card_says_how_far_it_is_to_the_next_stop_and_shows_each_yarn() -> None:
    said = card_of(COWL)

    assert "4: Cut Slate, join Foam.\nThen 2 rounds." in said
    assert "Swatches of the yarns: Slate (empty cell) and Foam (dot)." in said
    assert "10 stitches and 14 rounds over 10 centimeters or 4 inches." in said


def test_a_piece_by_hand_has_no_card() -> None:
    by_hand = changed(STRIP, ("    made: machine\n", ""))

    assert not has_card(plan_pattern(MemoryFiles({"pattern.yaml": by_hand}), "pattern.yaml", "o"))


def test_needles_of_each_size_are_named() -> None:
    said = told(changed(COWL, ("M: {neck: 40 cm}", "M: {neck: 40 cm, needles: 24}")))

    assert "Cast on all 22 needles" in said
    assert "Cast on all 24 needles" in said
