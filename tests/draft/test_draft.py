"""Finished texts become drafts: figures stay what they were, and what isn't understood is told.

The three texts are invented, in three loose styles that patterns are printed in; what is expected
of them was read from the texts by hand. Sayings are common practice, no source.
"""

import re
from contextlib import suppress
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.draft.compose import Said, read_text
from bindoff.draft.facts import gauge_said
from bindoff.draft.figures import for_sizes, in_prose, lengths, names_of
from bindoff.draft.goals import MoreOften, RowsInAll, TimesInAll, UntilLong
from bindoff.draft.lines import lines_of
from bindoff.draft.passages import passages, refuse_other_kinds
from bindoff.draft.pieces import PieceSaid
from bindoff.draft.sayings import (
    Again,
    BindOff,
    CastOn,
    Cord,
    EachRow,
    Evenly,
    Gather,
    Held,
    LikeRow,
    NumberedRow,
    PickUp,
    Plain,
    Prose,
    RowUntil,
    StepsAgain,
    TakeUp,
)
from bindoff.draft.sentences import saying
from bindoff.draft.steps import Row
from bindoff.draft.write import Draft, draft
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern, plan_pattern
from bindoff.source.yamltree import read_yaml

FINISHED = Path(__file__).parent / "finished"
HAT, COWL, SOCKS = (
    FINISHED / name for name in ("kettle-lane-hat.txt", "net-loft-cowl.md", "chandler-socks.txt")
)


def said(path: Path) -> Said:
    return read_text(path.read_text("utf-8"))


def drafted(path: Path) -> Draft:
    return draft(said(path), path.name, "2026-11-02", "Called")


def source(path: Path) -> dict[str, object]:
    data = read_yaml(drafted(path).source, "pattern.yaml").data
    assert isinstance(data, dict)
    return data


def steps(path: Path, piece: str) -> list[dict[str, object]]:
    pieces = source(path)["pieces"]
    assert isinstance(pieces, dict)
    found: list[dict[str, object]] = pieces[piece]["steps"]
    return found


def test_a_hat_is_sound_as_it_is_drafted() -> None:
    files = MemoryFiles({"pattern.yaml": drafted(HAT).source})
    found = check_pattern(files, "pattern.yaml", "hat")
    assert not [each for each in found if each.severity == "error"]
    plan = plan_pattern(files, "pattern.yaml", "hat")
    assert plan.source.sizes == ("S", "M", "L")
    assert drafted(HAT).kept == 0


@pytest.mark.parametrize(
    ("said", "state"),
    [
        ("20 sts and 28 rows = 10 cm, washed and blocked", "washed and blocked"),
        ("20 sts and 28 rows = 10 cm in lace, blocked", "blocked"),
        ("20 sts and 28 rows = 10 cm after it was washed", "washed"),
        ("20 sts and 28 rows = 10 cm, unblocked", "unwashed"),
        ("20 sts and 28 rows = 10 cm", ""),
    ],
)
def test_the_state_of_a_gauge(said: str, state: str) -> None:
    found = gauge_said(said)

    assert found is not None
    assert found.state == state


def test_the_facts_of_a_hat() -> None:
    data = source(HAT)
    assert data["title"] == "Kettle Lane Hat"
    assert data["designer"] == "Maren Oster"
    assert data["wearer"] == ["adult"]
    assert data["units"] == "metric"
    assert data["gauge"] == {
        "stitches": 18, "rounds": 26, "over": "10 cm", "state": "washed",
        "worked": "stockinette stitch", "tool": "4.5 mm needles",
    }  # fmt: skip
    assert data["sizes"] == {
        "S": {"head": "53 cm"}, "M": {"head": "56 cm"}, "L": {"head": "60 cm"},
    }  # fmt: skip
    assert data["finished"] == {"Circumference": ["45 cm", "49 cm", "53 cm"]}
    assert data["yarns"]["main"]["ball"] == "100 g = 180 m"  # type: ignore[index]
    assert data["finishing"] == "Weave in ends and block."


def test_the_steps_of_a_hat() -> None:
    worked = [step for step in steps(HAT, "kettle_lane_hat") if "work" in step]
    assert worked[0] == {
        "work": "*K2, p2; rep from * around.", "until": ["6 cm", "6 cm", "7 cm"],
    }  # fmt: skip
    assert worked[1] == {"work": "k all", "rounds": 1}
    assert worked[2] == {"work": "k all", "until": ["15 cm", "16 cm", "17 cm"]}
    crown = worked[3]["work"]
    assert isinstance(crown, list)
    assert len(crown) == 9
    assert crown[0] == "*K6, k2tog; rep from * to end. 70 (77, 84) sts."
    assert steps(HAT, "kettle_lane_hat")[-1] == {"gather": "all"}


def test_rows_that_are_worked_again() -> None:
    worked = [step for step in steps(COWL, "cowl") if "work" in step]
    assert worked[0]["work"] == ["RS: K.", "K."]
    rows = worked[1]["work"]
    assert isinstance(rows, list)
    assert len(rows) == 6  # rows 3 to 8
    assert worked[1]["times"] == [23, 46]  # once, and 22 (45) more times
    assert worked[2] == {"work": "k all", "rounds": 6}
    assert steps(COWL, "cowl")[-1] == {"bind off": "all", "how": "loosely"}


def test_what_a_cowl_does_not_say_is_left_to_fill_in() -> None:
    made = drafted(COWL)
    assert [each.message for each in made.findings] == [
        "the text says no wearer",
        "abbreviations, which the program explains itself are left out: lines 21, 23",
    ]
    assert source(COWL)["wearer"] is None
    assert source(COWL)["finished"] == {"Width": "24 cm", "Length": ["62 cm", "124 cm"]}


def test_what_is_not_understood_stays_in_its_place_in_its_own_words() -> None:
    made = drafted(SOCKS)
    kept = [each for each in made.findings if each.id == "draft.kept"]
    lines = SOCKS.read_text("utf-8").splitlines()
    assert [lines[each.span.line - 1] for each in kept if each.span] == [
        "K every round until the leg measures 14 (15, 16) cm.",
        "Rep last 2 rounds until 24 sts remain.",
        "Graft the toe.",
    ]
    said = [step.get("say") for step in steps(SOCKS, "chandler_s_socks")]
    assert "K every round until the leg measures {{ length_1 }}." in said
    assert source(SOCKS)["measures"] == {
        "length_1": ["14 cm", "15 cm", "16 cm"], "count_1": [28, 32, 36],
    }  # fmt: skip


def test_the_yarn_in_hand_is_that_of_the_steps() -> None:
    by_yarn = [(step.get("work"), step.get("yarn")) for step in steps(SOCKS, "chandler_s_socks")]
    assert ("(k2, p2) to end.", "cc") in by_yarn
    assert ("Sl 1, k15 (17, 19), ssk, k1, turn.", "mc") in by_yarn


@pytest.mark.parametrize("path", [HAT, COWL, SOCKS], ids=lambda path: path.stem)
def test_no_number_is_guessed(path: Path) -> None:
    """Each number of a draft stands in the text; those of repeats, one less."""
    numbers = set(re.findall(r"\d+", path.read_text("utf-8")))
    more = {str(int(number) + 1) for number in numbers}
    for line in drafted(path).source.splitlines():
        written = re.split(r'"?#', line)[0]  # remarks, and the grays of yarns
        if written.startswith(("version:", "date:")):
            continue
        bare = re.sub(r"\b(?:length|count|piece)_\d+|\{\{[^}]*\}\}", "", written)
        known = numbers | more if "times:" in line or "rounds:" in line else numbers
        assert set(re.findall(r"\d+", bare)) <= known | ALIKE, line


ALIKE = {"1", "2", "4"}  # of ribs named by words; rows counted by hand in the tests above


def test_a_text_without_sizes_gauge_or_yarn_is_a_draft_with_gaps() -> None:
    made = draft(read_text("Old scarf\n\nCast on 30 sts.\n"), "scarf.txt", "2026-11-02", "Scarf")
    missing = {each.message for each in made.findings}
    assert {"the text says no gauge", "the text says no yarn", "the text says no sizes"} <= missing
    files = MemoryFiles({"pattern.yaml": made.source})
    with pytest.raises(PatternError) as raised:
        check_pattern(files, "pattern.yaml", "scarf")
    assert {each.id for each in raised.value.findings} <= {"source.nothing", "source.value"}


@pytest.mark.parametrize(
    ("text", "sizes", "expected"),
    [
        ("With CC, CO 56 (64, 72) sts loosely.", 3, CastOn((56, 64, 72), "", "With CC, loosely")),
        ("Cast on 40 sts using the long-tail cast-on.", 1, CastOn((40,), "long-tail", "")),
        ("Rnd 1: K.", 1, NumberedRow((1,), "K.", label="Rnd 1")),
        ("Rows 3–6: Knit.", 1, NumberedRow((3, 4, 5, 6), "Knit.", label="Rows 3–6")),
        ("Rows 3 & 5: Knit.", 1, NumberedRow((3, 5), "Knit.", label="Rows 3 & 5")),
        ("1st and 3rd rows - K2.", 1, NumberedRow((1, 3), "K2.", label="1st and 3rd rows")),
        ("First row. Knit.", 1, NumberedRow((1,), "Knit.", label="First row")),
        ("R1. (RS) K3.", 1, NumberedRow((1,), "K3.", "RS", label="R1. (RS)")),
        ("Row 4 K3, p3", 1, NumberedRow((4,), "K3, p3", label="Row 4")),
        ("Next row (RS): P.", 1, NumberedRow((), "P.", "RS", "", "Next row (RS)", "next")),
        ("Row 2 (WS): P all.", 1, NumberedRow((2,), "P all.", "WS", label="Row 2 (WS)")),
        (
            "Row 2 and all even rows: Purl.",
            1,
            NumberedRow((2,), "Purl.", "", "even", "Row 2 and all even rows"),
        ),
        ("Every WS row: Purl.", 1, NumberedRow((), "Purl.", "", "WS", "Every WS row")),
        ("Row 5 (RS): As Row 1 — 149 sts", 1, LikeRow((5,), 1, "— 149 sts", "Row 5 (RS)")),
        ("Rep rows 1-4 5 (6, 7) more times.", 3, Again(None, (1, 2, 3, 4), MoreOften((5, 6, 7)))),
        ("Repeat last 2 rounds 4 times.", 1, Again(2, (), MoreOften((4,)))),
        ("Rep these 2 rows 13 (15) times more.", 2, Again(2, (), MoreOften((13, 15)))),
        ("Work 15 more rounds the same.", 1, Again(1, (), MoreOften((15,)))),
        ("Work in St st for 5 cm.", 1, Plain("stockinette", UntilLong(("5 cm",), False))),
        (
            "Work even in garter stitch until piece measures 12 (13) in from beginning.",
            2,
            Plain("garter", UntilLong(("12 in", "13 in"), True)),
        ),
        (
            "Knit every round until work measures 20 cm (8 in).",
            1,
            Plain("knit", UntilLong(("20 cm",), True)),
        ),
        ("Work 10 rows in k1, p1 rib.", 1, Plain("k1, p1", RowsInAll((10,)))),
        ("Purl 1 row.", 1, Plain("purl", RowsInAll((1,)))),
        ("Knit 1 round, increasing 8 sts evenly (72 sts).", 1, Evenly("increase", (72,))),
        ("Bind off all sts loosely in rib.", 1, BindOff("loosely in rib")),
        ("Cast off.", 1, BindOff("")),
        ("Draw yarn through remaining 8 sts and fasten off.", 1, Gather()),
        ("Break yarn.", 1, Prose("Break yarn.", False, False)),
        ("Work Rows 1–2 of Gull pattern twice.", 1,
         Again(None, (1, 2), TimesInAll((2,)), "Gull pattern")),
        ("Rep dec rnd every 6th rnd 5 (6) more times.", 2,
         Again(1, (), MoreOften((5, 6)), named="dec", every=6)),
        ("Repeat steps 3 to 5 two more times.", 1, StepsAgain(3, 5, 2)),
        ("*K2, p2* around for 5 cm.", 1, RowUntil("*K2, p2* around", UntilLong(("5 cm",), False))),
        ("Cast off 7 sts at beg of next 4 rows. 20 sts.", 1, EachRow((7,), 4)),
        ("Work i-cord (never turn) for 12 cm.", 1, Cord(("12 cm",))),
        ("Pick up and knit 20 sts along the edge and 3 sts at the corner. (23 sts)", 1,
         PickUp((((20,), "the edge"), ((3,), "at the corner")), (23,))),
        ("Slip the 13 (15) held sts to larger dpns.", 2, Held((13, 15))),
        ("Change to B.", 1, TakeUp("Change to B.")),
        ("Work a picot bind-off.", 1, BindOff("", "picot")),
        ("Crank 30 rounds.", 1, Plain("knit", RowsInAll((30,)))),
        ("Work even until piece measures 9 cm, ending with a WS row.", 1,
         Plain("as set", UntilLong(("9 cm",), True, ends="WS"))),
    ],
)  # fmt: skip
def test_what_sentences_say(text: str, sizes: int, expected: object) -> None:
    assert saying(text, sizes) == expected


@pytest.mark.parametrize(
    "text",
    [
        "Cast on 40 (44) sts.",  # figures for other than the sizes
        "Rep last 2 rounds until 24 sts remain.",
        "Bind off 4 sts at the beginning of the next row.",
        "Work in St st until piece measures 12 (13) cm, ending with a WS row.",
    ],
)
def test_what_is_not_wholly_understood_is_prose(text: str) -> None:
    said = saying(text, 3)
    assert isinstance(said, Prose)
    assert said.works


def test_rows_that_stand_for_every_second_one_come_between() -> None:
    text = (
        "Scarf\n\nGauge: 20 sts and 28 rows = 10 cm\n\nScarf\nCast on 21 sts.\n"
        "Row 1: K1, *yo, k2tog; rep from * to end.\nRow 2 and all WS rows: Purl.\n"
        "Row 3: Knit.\nRow 5: K1, *ssk, yo; rep from * to end.\nRepeat rows 1-6 4 times.\n"
    )
    made = read_text(text).pieces[0].parts[0].steps[1]
    rows = made.entries[0][1]
    assert isinstance(rows, tuple)
    assert [row.text.rstrip(".") for row in rows if isinstance(row, Row)] == [
        "K1, *yo, k2tog; rep from * to end", "Purl", "Knit", "Purl",
        "K1, *ssk, yo; rep from * to end", "Purl",
    ]  # fmt: skip
    assert ("times", (5,)) in made.entries


def test_lengths_and_their_second_units() -> None:
    text = "until it measures 12½ (13, 13½) cm [5 (5, 5¼) in] and 4 cm"
    assert [each.values for each in lengths(text, 3)] == [
        ("12½ cm", "13 cm", "13½ cm"), ("4 cm",),
    ]  # fmt: skip
    assert for_sizes("64 (72, 80)", 3) == ("64", "72", "80")
    assert for_sizes("64 (72, 80)", 2) is None
    assert for_sizes("80 (90,92.5)", 3) == ("80", "90", "92.5")  # a comma parts, a point does not


def test_prose_keeps_its_signs_and_prints_its_figures_by_size() -> None:
    text = "*Leave* 28 (32) sts and [12] {x}"
    names = names_of((text,), 2)
    assert in_prose(text, names, 2) == "\\*Leave\\* {{ count_1 }} sts and \\[12\\] (x)"
    assert names == {("28", "32"): "count_1"}


def test_wrapped_lines_are_one_paragraph_and_know_their_lines() -> None:
    found = list(passages(lines_of(HAT.read_text("utf-8"))[0]))
    joined = next(each for each in found if each.text.startswith("With smaller needles"))
    assert joined.text.endswith("being careful not to twist.")
    assert joined.line_at(len(joined.text) - 1) == joined.line + 1


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"{\\rtf1 text}", "RTF"),
        (b"PK\x03\x04rest", "DOCX"),
        (b"<!DOCTYPE html><p>", "HTML"),
        (b"%PDF-1.7", "PDF"),
        (b"a\0b", "not plain text"),
        (b"  \n", "empty"),
    ],
)
def test_other_kinds_of_files_are_named(data: bytes, kind: str) -> None:
    with pytest.raises(PatternError) as raised:
        refuse_other_kinds(data, "hat")
    assert kind in raised.value.findings[0].message
    assert raised.value.findings[0].help


def test_text_of_an_old_system_is_read() -> None:
    assert refuse_other_kinds("12½ cm".encode("cp1252"), "hat.txt") == "12½ cm"


WORDS = st.sampled_from(
    [
        "Cast on", "80 (88, 96)", "sts", ".", "\n", "\n\n", "Rnd 1:", "*K2, p2; rep from * around",
        "Repeat", "rows 1-4", "5", "times", "until piece measures", "6 (6, 7) cm", "Gauge:",
        "18 sts and 26 rounds = 10 cm", "Sizes: S (M, L)", "Yarn:", "100 g = 180 m", "# Body",
        "{{", "}}", "{%", '"', "'", "- ", ": ", "#", "&", "!", "\t", "é", "½", "\\", "`", "Brim",
    ]
)  # fmt: skip


@settings(deadline=None, max_examples=150)
@given(st.lists(WORDS, max_size=40).map(" ".join))
def test_any_text_makes_a_draft_that_can_be_read(text: str) -> None:
    """Whatever stands in a text: the draft is YAML, and its check ends in findings."""
    made = draft(read_text(text), "any.txt", "2026-11-02", "Any")
    read_yaml(made.source, "pattern.yaml")
    with suppress(PatternError):
        check_pattern(MemoryFiles({"pattern.yaml": made.source}), "pattern.yaml", "any")


def words(text: str) -> set[str]:
    return set(re.findall(r"[^\W_]+", text.casefold()))


LINES = st.sampled_from(
    [
        "SOCK (make two)", "Cuff:", "Heel\n----", "## Toe", "THUMB", "2.  FIRST BAND", "MATERIALS",
        "Gauge", "SIZES", "S (M, L)", "To fit chest 80/90/100 cm", "A  navy  70 g", "Yarn, all DK:",
        "Size\tS\tM\tL", "Around\t12\t13\t14 cm",
       
        "One pair of 4 mm needles; 2 markers", "page 1 of 2",
        "\f", "Home | Shop | About", "ABBREVIATIONS", "k = knit; p = purl", "by Ann Other", "=====",
        "With A cast on 40 (44, 48) sts and join in the round.", "1. Crank 8 rounds.",
        "Knit across.",
        "2. Change to B. Crank 4 rounds.", "3. Repeat steps 1 to 2 two more times. Count 24.",
        "Rnds 2 & 4: Knit. (Mind the gap, 3 sts.)", "Row 1 (RS): K3, yo, k to end. — 12 sts",
        "Row 2 and all WS rows: Purl.", "Row 5: As Row 1 — 20 sts", "R1.\tK2, w&t.",
        "Rep R1 twice.",
        "Repeat the last 2 rows until sock measures 9 cm [3½ in], ending with a WS row.",
        "Work Rows 1-2 of Heel twice.", "Knit every rnd until cuff measures 5 cm, or as you like.",
        "Slip the 9 held sts to a needle. Pick up and knit 3 sts along the gap. (12 sts)",
        "Work i-cord (never turn) for 12 cm. K3tog, fasten off.",
        "Cast off 3 sts at beg of next 2 rows.",
        "Ribbing: *k2, p2* around until it's 2 inches tall.", "Bind off loosely: do it well.",
        "Join, and knit 10 rounds. Rep dec rnd every 4th rnd 3 times more.", "Work even for 3 cm.",
        "Graft the toe.", "FINISHING", "Weave in ends.",
        "It took me a week … and 3 pots of tea!", "",
    ]
)  # fmt: skip


@settings(deadline=None, max_examples=200)
@given(st.lists(st.one_of(LINES, WORDS), max_size=30).map("\n".join))
def test_no_word_of_a_text_is_lost(text: str) -> None:
    """Each word stands in the draft: in a step, a fact, prose, or the remark beside it."""
    made = draft(read_text(text), "any.txt", "2026-11-02", "Any")
    assert words(text) <= words(made.source)


@settings(deadline=None, max_examples=100)
@given(st.lists(LINES, max_size=30).map("\n".join))
def test_texts_of_lines_make_drafts_that_can_be_read(text: str) -> None:
    made = draft(read_text(text), "any.txt", "2026-11-02", "Any")
    read_yaml(made.source, "pattern.yaml")
    with suppress(PatternError):
        check_pattern(MemoryFiles({"pattern.yaml": made.source}), "pattern.yaml", "any")


EXPECTED = yaml.safe_load((Path(__file__).parent / "expected.yaml").read_text("utf-8"))


@pytest.mark.parametrize("name", EXPECTED)
def test_what_texts_in_many_styles_hold(name: str) -> None:
    read = said(FINISHED / f"{name}.txt")
    gauge = read.gauge and [read.gauge.stitches, read.gauge.rounds, read.gauge.over]
    assert {
        "title": read.title,
        "designer": read.facts.designer,
        "sizes": list(read.sizes.names),
        "gauge": gauge,
        "yarns": [yarn.name for yarn in read.yarns],
        "pieces": [[piece.title, piece.make, cast_on(piece)] for piece in read.pieces],
    } == EXPECTED[name]


def cast_on(piece: PieceSaid) -> list[object]:
    """The stitches that a piece begins with, none where it begins with others."""
    entries = [step.entries[0] for part in piece.parts for step in part.steps]
    values = next((value for key, value in entries if key == "cast on"), ())
    assert isinstance(values, tuple)
    return list(values)


@pytest.mark.parametrize("path", sorted(FINISHED.iterdir()), ids=lambda path: path.stem)
def test_no_word_of_a_finished_text_is_lost(path: Path) -> None:
    made = drafted(path)
    assert words(path.read_text("utf-8")) <= words(made.source)
    with suppress(PatternError):
        check_pattern(MemoryFiles({"pattern.yaml": made.source}), "pattern.yaml", "any")


KEPT = {
    "felted-slippers": [
        "Repeat the last two rounds, always with 2 sts fewer between ssk and k2tog,"
    ],
    "mittens": [
        "Repeat Rnds 2-4 until there are 13 (15, 17) sts between markers.",
        "Continue decreasing 4 sts in this way on every rnd, with 1 st fewer between",
    ],
    "shawl": ["Rotate the strip a quarter turn, pick up and knit 3 sts along the side"],
    "quayside-beanie": ["Keep going like this until you have 9 [10] stitches left."],
    "shingle-blanket": [],
    "little-mackerel": [
        "Rounds 8-20. Knit, changing to B on round 12",
        "Rep rows 1 & 2 until there are 11 sts.",
    ],
}
"""What needs a head: a count that arithmetic tells, a change within rounds, a tab's corners."""


@pytest.mark.parametrize("name", KEPT)
def test_what_stays_in_words_is_what_needs_a_head(name: str) -> None:
    read = said(FINISHED / f"{name}.txt")
    kept = [
        step.origins[0].text
        for piece in read.pieces
        for part in piece.parts
        for step in part.steps
        if step.kept
    ]
    assert len(kept) == len(KEPT[name])
    assert all(text.startswith(begins) for text, begins in zip(kept, KEPT[name], strict=True))


def worked(name: str, piece: str) -> list[dict[str, object]]:
    return [step for step in steps(FINISHED / f"{name}.txt", piece) if "say" not in step]


def test_steps_by_numbers_are_worked_again_in_their_yarns() -> None:
    rounds = [(step["rounds"], step["yarn"]) for step in worked("cowl-machine", "the_tube")[1:]]
    once = [(30, "a"), (8, "b"), (8, "a"), (8, "b"), (30, "c"), (4, "b"), (4, "c"), (4, "b")]
    assert rounds == once * 3  # 96 rounds three times, as the counter says


def test_rows_of_other_parts_are_worked_again_without_their_counts() -> None:
    made = worked("shawl", "shawl")
    gulls = [step for step in made if "times" in step and len(step["work"]) == 8]  # type: ignore[arg-type]
    assert [step["times"] for step in gulls] == [5, 4, 3]  # five more, then of the pattern
    assert not any("45 sts" in str(step["work"]) for step in gulls)


def test_a_cord_and_stitches_picked_up_are_steps() -> None:
    collar, loop = worked("felted-slippers", "collar")[0], worked("felted-slippers", "heel_loop")[1]
    assert collar["pick up along"] == [
        {"edge": "one side of the opening", "stitches": [20, 22, 24, 25]},
        {"edge": "the other", "stitches": [20, 22, 24, 25]},
    ]
    assert collar["to"] == [40, 44, 48, 50]
    assert loop == {"cord": "12 cm"}


def test_a_part_is_measured_from_its_start_and_a_piece_from_its_cast_on() -> None:
    mitten = {
        step["until"][0]: step  # type: ignore[index]
        for step in worked("mittens", "mitten")
        if isinstance(step.get("until"), list)
    }
    assert mitten["2 1/2 in"]["from"] == "here"  # the hand, above the thumb opening
    assert "from" not in worked("mittens", "mitten")[1]  # the cuff, where the mitten begins


def test_what_is_left_out_is_listed() -> None:
    left = [
        each
        for each in drafted(FINISHED / "quayside-beanie.txt").findings
        if each.id == "draft.left-out"
    ]
    assert [each.message for each in left] == [
        "menus of a web page are left out: lines 1, 3, 7, 45, 46, 47, 49"
    ]


def test_facts_under_the_title_of_a_web_page_are_facts() -> None:
    """The way to the page is no title, and an abbreviation that picks up a bar begins no work."""
    made = read_text(
        "Home  >  Patterns  >  Children  >  Slip Jumper\n\nSlip Jumper\n\n"
        "Sizes: 1 (2, 4 yrs)\nTension: 22 sts and 28 rounds to 10 cm over stocking stitch.\n\n"
        "Abbreviations: m1 = pick up the bar before the next st and knit into the back of it.\n\n"
        "Body\nCast on 112 (124, 132) sts. Join into a round.\nKnit 10 rounds.\nCast off.\n"
    )

    assert made.title == "Slip Jumper"
    assert made.sizes.names == ("1 yr", "2 yrs", "4 yrs")
    assert made.gauge is not None
    assert [piece.title for piece in made.pieces] == ["Body"]
