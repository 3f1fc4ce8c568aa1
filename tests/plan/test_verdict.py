"""The verdict on every size: body, needles, picture."""

from pathlib import Path

from click.testing import CliRunner

from bindoff.cli import main
from bindoff.document.verdictwords import verdict_lines
from bindoff.plan.verdict import Verdict, judge, judge_each
from bindoff.source.statedgauge import parse_gauges
from tests.small_patterns import CAP, TUBE, WAVES, changed, plan_of, source_of

# 52 and 56 cm of head, the cap 95 % of it, to a multiple of 8 stitches at 2 stitches a cm.
SHORT = changed(TUBE, ("visible: [10 cm, 11 cm]", "visible: [4 cm, 11 cm]"))


def faults(verdict: Verdict) -> dict[str, list[str]]:
    return {each.size: [fault.what for fault in each.faults] for each in verdict.sizes}


def test_sizes_that_fit_are_told_by_what_they_were_judged() -> None:
    cap = judge(plan_of(CAP))

    assert faults(cap) == {"S": [], "M": []}
    assert list(verdict_lines(cap)) == ["- Every size fits its body."]


def test_a_tube_is_judged_by_its_needles_and_its_picture_too() -> None:
    assert judge(plan_of(TUBE)).by == ("body", "needles", "picture")


def test_a_size_that_outgrows_its_body_fits_no_longer() -> None:
    """104 stitches at 2 a cm are 52 cm; on a head of 40 cm that is 30 % more."""
    before = judge(plan_of(CAP))
    wide = changed(
        CAP,
        ("cast_on: stitches(around, multiple = 8)", "cast_on: [104, 104]"),
        ("S: {head: 52 cm}", "S: {head: 40 cm}"),
    )
    after = judge(plan_of(wide))

    assert faults(after) == {"S": ["body"], "M": []}
    fits, unfit = verdict_lines(after, before)
    assert fits == "- Size M fits its body."
    assert unfit.startswith(
        "- Size S no longer fits: circumference is 30 % larger than the head, and usual is "
    )
    (_, still) = verdict_lines(after, after)
    assert still.startswith("- Size S does not fit: ")


def test_where_a_picture_is_too_high_for_a_size_the_others_are_judged_alone() -> None:
    """11 rounds to 10 cm: 4 cm are 4.4 rounds and so 4, one of them below the picture of 4."""
    verdict = judge_each(source_of(SHORT), parse_gauges(("10 x 11 / 10 cm",)))

    assert faults(verdict) == {"S": ["picture"], "M": []}
    assert verdict.by == ("body", "needles", "picture")


def test_a_cast_on_of_more_stitches_than_needles_is_a_fault_of_the_needles() -> None:
    flat = changed(
        TUBE,
        (
            "pieces:\n",
            "pieces:\n  strip:\n    title: Strip\n    made: machine\n    worked: flat\n"
            "    steps:\n      - cast on: [20, 30]\n      - work: k all\n        rounds: 4\n"
            "      - bind off: all\n",
        ),
    )

    assert faults(judge_each(source_of(flat))) == {"S": [], "M": ["needles"]}


def test_compare_ends_with_the_verdict_even_where_a_size_can_not_be_made(tmp_path: Path) -> None:
    (tmp_path / "pattern.yaml").write_text(SHORT, "utf-8")
    (tmp_path / "waves.grid").write_text(WAVES, "utf-8")

    fine = CliRunner().invoke(main, ["compare", str(tmp_path), "--gauge", "10 x 14 / 10 cm"])
    failed = CliRunner().invoke(main, ["compare", str(tmp_path), "--gauge", "10 x 11 / 10 cm"])

    assert fine.exit_code == 0
    assert fine.stdout.splitlines()[-2:] == [
        "Verdict",
        "- Every size fits its body, its needles and its picture.",
    ]
    assert failed.exit_code == 1
    verdict = failed.stdout.splitlines()
    assert verdict[1:3] == ["Verdict", "- Size M fits its body, its needles and its picture."]
    assert verdict[3].startswith("- Size S no longer fits: the picture is 4 rounds high")
