"""Sentences with a claim that nothing near them confirms, and those in which all is confirmed."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from bindoff.checks.queries.listed import Queries
from bindoff.cli import main
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_and_ask
from tests.small_patterns import changed

SCARF = """\
title: Fairlead Scarf
designer: A
version: "1.0"
date: 2026-11-30
summary: A scarf in garter stitch.
skill: Easy.
contact: a@example.org
wearer: [adult]
terms: US
units: metric
gauge:
  {stitches: 20, rounds: 40, over: 10 cm, state: washed, worked: garter stitch, tool: 4 mm needle}
yarns:
  slate: {name: Slate, colour: "#3d4f63", weight: 4, fibre: 100 % wool, ball: 100 g = 200 m}
  foam: {name: Foam, colour: "#e9eef0", weight: 4, fibre: 100 % wool, ball: 100 g = 200 m}
tools:
  - {name: "4 mm needles", use: scarf}
  - {name: "3.5 mm needles", use: border}
  - {name: blunt tapestry needle, use: ends}
sizes: {One size: {neck: 36 cm}}
measures: {main_rows: 300}
finished: {Length: height(20 + main_rows), Width: width(40)}
pieces:
  scarf:
    title: Scarf
    yarn: slate
    worked: flat
    steps:
      - section: Border
      - cast on: 40
        yarn: foam
      - work: [k all]
        rounds: 20
        yarn: foam
        note: NOTE
      - section: Main part
      - say: SAY
      - work: ["*k2, p2; repeat from * to end", "*k2, p2; repeat from * to end"]
        rounds: main_rows
      - bind off: all
finishing: FINISHING
care: Wash by hand.
"""
SOUND = (
    ("NOTE", "There are 40 stitches."),
    ("SAY", "Work 300 rows in Slate."),
    ("FINISHING", "Dry it flat."),
)


def asked(*said: tuple[str, str], language: str = "en") -> Queries:
    """What is asked of the scarf with these texts."""
    texts = {**dict(SOUND), **dict(said)}
    text = changed(SCARF, *((key, f"|\n          {words}\n") for key, words in texts.items()))
    text = text.replace("units: metric", f"units: metric\nlanguage: {language}")
    return check_and_ask(MemoryFiles({"pattern.yaml": text}), "pattern.yaml", "pattern")[1]


def whys(queries: Queries) -> list[str]:
    """Why each claim is doubted, in the order of the document."""
    return [doubt.why for query in queries.asked for doubt in query.doubts]


def test_a_pattern_with_nothing_unproved_says_so() -> None:
    queries = asked()
    assert queries.asked == ()
    assert queries.read > 1
    assert queries.heading == (
        f"No queries: the source confirms every claim in the {queries.read} sentences of this "
        "pattern."
    )


def test_the_heading_says_what_the_list_is() -> None:
    queries = asked(("FINISHING", "Sew a button to the front edge, 17 rows from the top."))
    assert queries.heading.startswith(f"Queries: 1 sentence of {queries.read} holds a claim that ")
    assert "read each against the work" in queries.heading


def test_nothing_is_asked_in_another_language() -> None:
    queries = asked(("NOTE", "Es sind 41 Maschen."), language="de")
    assert (queries.asked, queries.read) == ((), 0)
    assert queries.heading.startswith("No queries: no sentence was read")


@pytest.mark.parametrize(
    ("where", "confirmed", "slip", "why"),
    [
        ("NOTE", "You have 40 stitches.", "You have 20 stitches.", "no count of stitches here is"),
        ("NOTE", "That makes 10 ridges.", "That makes 23 ridges.", "no number of ridges here is"),
        ("NOTE", "The border measures 5 cm.", "The border is 9 cm high.", "nothing here measures"),
        ("SAY", "Cut Foam.", "Cut Slate.", "nothing says that this is in Slate"),
        ("SAY", "With Slate, go on.", "With Foam, go on.", "nothing says that this is in Foam"),
        ("SAY", "Change to the 4 mm needles.", "Change to the 3.5 mm needles.", "no tool of that"),
        ("NOTE", "Knit without haste.", "Decrease as you go.", "nothing here is decreased"),
        ("NOTE", "All of this is garter stitch.", "All of this is brioche.", "nothing here is wo"),
        ("NOTE", "Knit every stitch.", "Purl every stitch.", "no row here has purl stitches"),
        ("FINISHING", "Weave in the ends on the wrong side.", "Mark the wrong side.", "nothing sa"),
        ("FINISHING", "Dry it flat.", "Fold the lower edge up.", "nothing says that it is `lower`"),
        ("FINISHING", "Dry it flat.", "Graft the ends.", "no step has this"),
        ("FINISHING", "Dry it flat.", "Iron it.", "nothing says that the yarn bears it"),
        ("SAY", "It takes a multiple of 4.", "It takes a multiple of 7.", "no count here is such"),
        ("SAY", "Row 2: work like row 1.", "Row 3: work like row 1.", "nothing says that row 3"),
        ("SAY", "Begin at the lower edge.", "Begin at the upper edge.", "nothing says that it is"),
        ("SAY", "Odd rows are right-side rows.", "Even rows are right-side rows.", "the rows here"),
        ("SAY", "That is 1 stitch in 2 rows.", "That is 3 stitches in 4 rows.", "no gauge here"),
        ("FINISHING", "The terms are US terms.", "The terms are UK terms.", "the pattern's terms"),
        ("FINISHING", "Take 2 balls of Slate.", "Take 9 balls of Slate.", "the yarn comes to an"),
        ("FINISHING", "Sew the seam first.", "Sew it on last, the button.", "the finishing tells"),
    ],
)
def test_a_claim_is_asked_about_unless_it_is_confirmed(
    where: str, confirmed: str, slip: str, why: str
) -> None:
    assert asked((where, confirmed)).asked == ()
    (first, *_) = whys(asked((where, slip)))
    assert first.startswith(why)


def test_rows_in_words_are_held_against_the_rows_near_them() -> None:
    row = "Row 1: *k2, p2; repeat from * to end. Row 2: *k2, p2; repeat from * to end."
    assert asked(("SAY", row)).asked == ()
    assert asked(("SAY", "Work *k2, p2; repeat from * to the end of every row.")).asked == ()
    assert "row 1 here is worked otherwise" in whys(asked(("SAY", row.replace("k2", "k3", 1))))


def test_a_row_in_words_that_fits_no_count_is_told() -> None:
    row = "Work *k5, p2; repeat from * to end."
    assert "it fits no count of stitches here" in whys(asked(("SAY", row)))


@pytest.mark.parametrize("stitches", ["98", "99"])
def test_a_row_of_crochet_has_the_stitches_that_its_chain_leaves(stitches: str) -> None:
    # 100 chains, the first two passed over: they count as a stitch or do not.
    row = "Make 100 chains, and work a double crochet in the third chain from the hook and in each "
    assert (
        whys(asked(("FINISHING", f"{row}after it: {stitches} stitches."))).count(
            f"no count of stitches here is {stitches}"
        )
        == 0
    )
    assert "no count of stitches here is 97" in whys(
        asked(("FINISHING", f"{row}after it: 97 stitches."))
    )


def test_the_stitches_of_a_chain_hold_in_the_texts_after_it() -> None:
    chain = "Make 100 chains, and work a double crochet in the third chain from the hook."
    for count, told in (("99", 0), ("97", 1)):
        found = whys(asked(("NOTE", chain), ("SAY", f"The next row has {count} stitches.")))
        assert found.count(f"no count of stitches here is {count}") == told


def test_a_count_of_a_piece_in_words_alone_is_told_twice_or_asked_about() -> None:
    piece = """\
  cord:
    title: Cord
    yarn: foam
    steps:
      - say: Make a cord of 7 stitches, and turn.
      - say: Slip stitch into each of the {} stitches.
finishing:"""
    for count, told in (("7", []), ("8", ["7", "8"])):
        text = changed(SCARF, *SOUND, ("finishing:", piece.format(count)))
        files = MemoryFiles({"pattern.yaml": text})
        found = whys(check_and_ask(files, "pattern.yaml", "pattern")[1])
        counts = [why for why in found if why.startswith("no count of stitches here is")]
        assert counts == [f"no count of stitches here is {each}" for each in told]


def test_a_number_in_the_notions_is_one_that_the_text_tells() -> None:
    with_notion = changed(SCARF, *SOUND[:2], ("FINISHING", "Sew on the 5 buttons."))
    for number, count in (("5", 0), ("6", 1)):
        text = with_notion.replace("sizes:", f"notions: ['{number} buttons for the edge']\nsizes:")
        files = MemoryFiles({"pattern.yaml": text})
        queries = check_and_ask(files, "pattern.yaml", "pattern")[1]
        assert [why for why in whys(queries) if "of these" in why] == [
            "no sentence tells of 6 of these"
        ] * count


def test_the_command_prints_the_list_with_its_places(tmp_path: Path) -> None:
    text = changed(SCARF, ("NOTE", "You have 20 stitches."), *SOUND[1:])
    (tmp_path / "pattern.yaml").write_text(text, encoding="utf-8")
    done = CliRunner().invoke(main, ["check", "--queries", str(tmp_path)])
    assert done.exit_code == 0, done.output
    line = next(n for n, each in enumerate(text.split("\n"), 1) if "20 stitches" in each)
    _, heading, listed = done.output.partition("Queries: 1 sentence")
    assert heading
    assert f"pattern.yaml:{line}:" in listed
    assert "^^" in listed
    given = CliRunner().invoke(main, ["check", "--queries", "--json", str(tmp_path)])
    (record,) = json.loads(given.stdout)
    (query,) = record["result"]["queries"]
    assert (query["id"], query["line"]) == ("query", line)
    assert record["result"]["heading"].startswith("Queries: 1 sentence")


def test_a_check_without_queries_does_not_load_them() -> None:
    """Whoever asks for no list waits for none."""
    script = (
        "import sys\n"
        "from bindoff.files import MemoryFiles\n"
        "from bindoff.pipeline import check_pattern\n"
        "check_pattern(MemoryFiles({'pattern.yaml': sys.stdin.read()}), 'pattern.yaml', 'p')\n"
        "print(sorted(name for name in sys.modules if '.queries' in name))\n"
    )
    text = changed(SCARF, *SOUND)
    done = subprocess.run(
        [sys.executable, "-c", script], input=text, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
