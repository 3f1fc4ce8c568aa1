"""Worked examples of garments from printed handbooks, worked stitch by stitch.

Armhole: a European handbook of knitting, 62 cm at 28 x 40. Cap and neckline: published lessons on
set-in sleeves and on raglans from the top. Pi: Zimmermann's circle as printed, and two others. All
as the project's facts give them (F64, F68, F72, F74, F80 to F82).
"""

from collections import Counter

from bindoff.plan.gauge import Gauge
from bindoff.plan.taper import taper
from tests.small_patterns import changed, faults_of, flap, plan_of

INCH = 25.4


def live(*steps: str, worked: str = "round") -> list[int]:
    """The stitches after each step, in the first size."""
    text = flap(*steps)
    if worked == "round":
        text = changed(text, ("    worked: flat\n", ""))
    return [step.after[0].stitches for step in plan_of(text).pieces[0].steps]


def test_an_armhole_of_26_decreases_over_64_rows() -> None:
    """62 cm are 174 stitches; 16 cm are 64 rows: every 2nd row 14 times, every 3rd 12 times."""
    gauge = Gauge.over(28, 40)

    assert gauge.stitches_for(620).rounded == 174
    assert gauge.rounds_for(380).rounded == 152
    assert gauge.stitches_for(30).rounded == 8
    assert gauge.rounds_for(160).rounded == 64
    assert Counter(taper(64, 26, 1).intervals) == {2: 14, 3: 12}


def test_a_cap_comes_from_66_stitches_to_16_in_36_rows() -> None:
    """8.5 - 1.5 - 1.5 = 5.5 in, 36 rows at 6.5; 66 - 10 - 8 - 16 = 32, 16 on each side.

    2 rows bind off 5, 30 rows decrease at both ends, and 4 rows bind off 2: 36.
    """
    assert Gauge.over(5.5, 6.5, INCH).rounds_for(5.5 * INCH).rounded == 36
    counts = live(
        "cast on: 66",
        "work: ['bind off 5, k to end', 'bind off 5, p to end']",
        "{taper: 'k1, ssk, k to last 3, k2tog, k1', to: 24, over: 32, every: 2}",
        "{work: ['bind off 2, k to end', 'bind off 2, p to end'], times: 2}",
        "bind off: all",
        worked="flat",
    )

    assert counts == [66, 56, 24, 16, 0]


def test_a_raglan_from_the_top_has_77_stitches_and_gains_8_a_round() -> None:
    """14 in at 5.5 are 77: fronts 6 and 6, sleeves 12, back 37, and 4 seams of a stitch."""
    assert Gauge.over(5.5, 7, INCH).stitches_for(14 * INCH).rounded == 77
    divided = "k6, pm, k1, k12, pm, k1, k37, pm, k1, k12, pm, k1, k6"
    seam = "k to marker, m1r, sm, k1, m1l"
    counts = live(
        "cast on: 77",
        f"work: '{divided}'",
        f"work: '{seam}, {seam}, {seam}, {seam}, k to end'",
        "bind off: all",
    )

    assert counts == [77, 77, 85, 0]


def test_a_yoke_of_260_stitches_to_lose_does_not_go_by_eights() -> None:
    """356 - 96 = 260, and 260 / 8 = 32.5: 256 or 264 are lost, so 100 or 92 are left."""
    (found,) = faults_of(
        changed(
            flap(
                "cast on: 356",
                "{taper: '[k to 2 before marker, k2tog, sm] to end', to: 96, over: 70}",
                "bind off: all",
            ).replace(
                "[k to 2 before marker, k2tog, sm] to end",
                ", ".join(["k40, k2tog"] * 7) + ", k to last 2, k2tog",
            ),
            ("    worked: flat\n", ""),
        )
    )

    assert found.id == "taper.count"
    assert "92 or 100" in found.help


PI = [6, 12, 24, 48, 96, 192, 384, 768]


def test_a_pi_circle_doubles_as_printed() -> None:
    """6 stitches and 1 round, 12 and 2, 24 and 4 … 384 and 64, 768."""
    steps = ["cast on: 6", "{work: k all, rounds: 1}"]
    for plain in (2, 4, 8, 16, 32, 64):
        steps += ["work: '[k1, yo] to end'", f"{{work: k all, rounds: {plain}}}"]
    steps += ["work: '[k1, yo] to end'", "bind off: all"]

    assert list(dict.fromkeys(live(*steps))) == [*PI, 0]


def test_another_pi_circle_begins_with_nine() -> None:
    """9, 18, 36 and 72 stitches after 1, 3, 6 and 12 rows."""
    steps = ["cast on: 9", "{work: k all, rounds: 1}"]
    for plain in (3, 6, 12):
        steps += ["work: '[k1, yo] to end'", f"{{work: k all, rounds: {plain}}}"]

    assert list(dict.fromkeys(live(*steps, "bind off: all"))) == [9, 18, 36, 72, 0]


def test_half_a_pi_circle_doubles_within_its_edges() -> None:
    """17, 29, 53, 101, 197, 389, with 3, 7, 15, 31 and 63 plain rows: 5 edge stitches stay."""
    steps = ["cast on: 17"]
    for plain in (3, 7, 15, 31, 63):
        steps += [
            f"{{work: [k all, p all], rounds: {plain}}}",
            "work: 'k3, [yo, k1] to last 2, k2'",
        ]

    counts = live(*steps, "bind off: all", worked="flat")
    assert list(dict.fromkeys(counts)) == [17, 29, 53, 101, 197, 389, 0]
