"""The figures for machines: everything printed is in them, with its derivation."""

import json
import re
from typing import Any

import pytest

from bindoff.document.front import size_section
from bindoff.document.numbers import figures
from bindoff.document.tree import Table
from bindoff.document.units import length_in
from bindoff.plan.yarn import Purpose
from tests.document.patterns import (
    CHARTED,
    EXAMPLES,
    cells,
    data,
    example,
    printed,
    tables,
    voice,
    walk,
)
from tests.small_patterns import CAP, changed, plan_of

names = pytest.mark.parametrize("name", EXAMPLES)


@names
def test_the_figures_are_plain_data_that_reads_back_the_same(name: str) -> None:
    found = figures(example(name)[0])

    assert json.loads(json.dumps(found)) == found


@names
def test_every_count_to_check_is_in_the_figures_under_the_printed_number_of_its_step(
    name: str,
) -> None:
    plan, document, _ = example(name)
    (piece,) = figures(plan)["pieces"].values()
    steps = {step["step"]: step for step in piece}
    seen = 0
    for table in walk(document.blocks):
        if isinstance(table, Table) and printed(table.columns[0].heading) == "After":
            caption = printed(table.caption)
            for row in cells(table):
                number = int(re.findall(r"Step (\d+)", row[0])[0])
                rounds = list(steps[number]["rounds_so_far"].values())
                stitches = list(steps[number]["stitches"].values())
                both = [str(count) for count in (*rounds, *stitches)]
                one = stitches if "stitches" in caption else rounds
                assert row[1:] == (both if "counts" in caption else [str(c) for c in one])
                seen += 1
    assert seen or name in ("tube", "flap")


@names
def test_every_measure_has_its_formula_and_what_went_into_it(name: str) -> None:
    found = figures(example(name)[0])

    for group in ("measures", "finished"):
        for measure in found[group].values():
            assert list(measure["sizes"]) == found["sizes"]
            for value in measure["sizes"].values():
                assert value["formula"]
                assert isinstance(value["exact"], float | int)


def test_a_derivation_can_be_followed_by_hand() -> None:
    """40 stitches at 20 over 10 cm are 200 mm wide."""
    found = figures(voice(data([{"cast on": "n"}, {"bind off": "all"}])).plan)
    value = found["finished"]["Circumference"]["sizes"]["A"]

    assert value == {
        "exact": 200.0,
        "rounded": 200.0,
        "formula": "width(n)",
        "inputs": {"n": 40},
        "error_mm": value["error_mm"],
    }
    assert found["gauge"]["A"]["main"] == {"stitch_mm": 5.0, "round_mm": round(100 / 28, 6)}
    assert found["body_mm"] == {"A": {"head": 500.0}, "B": {"head": 530.0}}


def test_the_size_table_prints_the_figures_rounded() -> None:
    plan, *_ = example("cap")
    found = figures(plan)
    (table,) = tables(size_section(voice(*EXAMPLES["cap"])), "Body and finished")
    row = next(row for row in cells(table) if row[0] == "Circumference")
    lengths = [value["rounded"] for value in found["finished"]["Circumference"]["sizes"].values()]

    assert row[1:] == [length_in(mm, scale) for scale in ("cm", "in") for mm in lengths]


@names
def test_yarn_parts_add_up_to_the_metres(name: str) -> None:
    found: dict[str, Any] = figures(example(name)[0])["yarn"]

    for sizes in found.values():
        for need in sizes.values():
            assert sum(need["parts"].values()) == pytest.approx(need["metres"], abs=1e-4)


def test_the_thread_of_a_tube_can_be_followed_by_hand() -> None:
    """All stitches times thread, the way behind them, and two tails a strand: nothing is passed
    in a block without gaps, so what is left over is no more than three stitches a jump."""
    plan, _, _ = example("tube")
    (tube,) = figures(plan)["tubes"].values()

    for size, each in zip(plan.source.sizes, tube.values(), strict=True):
        given = each["thread"]["inputs"]
        assert given["tail_mm"] == 150
        rounds = [stripe["last"] - stripe["first"] + 1 for stripe in each["stripes"]]
        assert sum(rounds) == each["rounds"], size
        assert sum(yarn["stitches"] for yarn in each["embroidery"]) == each["embroidered"]
        for yarn in each["embroidery"]:
            covered = yarn["stitches"] * given["loop_mm"] * given["thread_per_loop"]
            least = covered + yarn["strands"] * 2 * given["tail_mm"]
            assert least - 0.01 <= yarn["thread_mm"] <= yarn["strands"] * given["strand_mm"]


@names
def test_the_yarn_of_every_stitch_says_how_it_was_reckoned(name: str) -> None:
    """The knitting is its stitches times their loops; each loop has model, factor and source."""
    found: dict[str, Any] = figures(example(name)[0])["yarn"]

    for need in (need for sizes in found.values() for need in sizes.values()):
        knitting = sum(each["stitches"] * each["loop_mm"]["exact"] for each in need["knitted"])
        assert knitting / 1000 == pytest.approx(need["parts"].get("knitting", 0.0), abs=1e-4)
        for each in need["knitted"]:
            low, high = each["factor_range"]
            assert low <= each["factor"] <= high
            assert each["reserve_from"] == "fabric"  # no yarn of the demos has a weighed swatch
            assert each["source"]
            assert each["evidence"] in ("good", "fair", "weak", "none")
            assert each["model"] in ("loop from stitch density", "loop from swatch")
            assert 0 < each["reserve"] < 1
            assert each["loop_mm"]["formula"]


def test_a_weighed_swatch_is_named_as_what_loop_and_reserve_rest_on() -> None:
    """Plain knitting by its swatch; ribs keep the doubt of fabrics, which is larger: that of the
    gauge's plain knitting, 11 %, and their range about the factor in use."""
    weighed = "ball: 100 g = 200 m, swatch: {stitches: 2000, grams: 19.6}}"
    plan = plan_of(changed(CAP, ("ball: 100 g = 200 m}", weighed)))
    knitted = figures(plan)["yarn"]["slate"]["S"]["knitted"]
    found = {each["fabric"]: each for each in knitted}

    plain, rib = found["plain knitting"], found["k2, p2 rib"]
    assert (plain["reserve_from"], rib["reserve_from"]) == ("weighed swatch", "fabric")
    assert plain["reserve"] == pytest.approx(0.05 + 0.5 / 19.6, abs=1e-6)
    assert rib["reserve"] == 0.11
    assert all(each["source"].startswith("weighed swatch; ") for each in knitted)
    assert rib["factor_range"] == pytest.approx([1.2 / 1.3, 1.4 / 1.3])


def test_a_stranded_round_is_reckoned_apart_from_plain_ones() -> None:
    steps: list[dict[str, Any]] = [
        {"cast on": "n"},
        {"work": "k all", "rounds": 3},
        {"chart": "waves"},
        {"bind off": "all"},
    ]
    need = next(iter(figures(voice(data(steps, **CHARTED)).plan)["yarn"]["slate"].values()))

    assert {each["fabric"]: each["factor"] for each in need["knitted"]} == {
        "plain knitting": 1.0,
        "stranded knitting": 1.08,
    }


@names
def test_every_part_of_a_yarns_need_says_how_it_is_reckoned(name: str) -> None:
    found = figures(example(name)[0])
    rules = found["yarn_parts"]
    needs = [need for sizes in found["yarn"].values() for need in sizes.values()]

    assert set(rules) == {each.value for each in Purpose}
    assert all(rule["model"] and rule["source"] for rule in rules.values())
    assert {part for need in needs for part in need["parts"]} <= set(rules)
