"""``bindoff plan``: its figures, recomputed here from the sources or by hand."""

import json
from collections import Counter
from itertools import groupby, pairwise
from math import sqrt
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from click.testing import CliRunner

from bindoff.cli import main

PATTERNS = Path(__file__).parents[1] / "patterns"
HARBOUR = PATTERNS / "harbour-light-hat"
ROPEWALK = PATTERNS / "ropewalk-hat"


def text_of(*words: object) -> str:
    result = CliRunner().invoke(main, ["plan", *map(str, words)])
    assert result.exit_code == 0, result.output
    return result.stdout


def data_of(*words: object) -> dict[str, Any]:
    result = CliRunner().invoke(main, ["plan", "--json", *map(str, words)])
    assert result.exit_code == 0, result.output
    (record,) = json.loads(result.stdout)
    assert record["findings"] == []
    found: dict[str, Any] = record["result"]
    return found


@pytest.fixture(scope="module")
def harbour() -> dict[str, Any]:
    return data_of(HARBOUR)


@pytest.fixture(scope="module")
def ropewalk() -> dict[str, Any]:
    return data_of(ROPEWALK)


def lines_of(path: Path) -> list[str]:
    """Rounds of a grid file, round 1 first."""
    return path.read_text().split()[::-1]


def harbour_rounds(size: dict[str, Any]) -> list[str]:
    """What is to be seen on the whole tube, as grid characters: `.` is the ground."""
    picture = [line[::-1] + line for line in lines_of(HARBOUR / "light.grid")]
    below = size["picture"]["first"] - 1
    return ["." * 48] * below + picture + ["." * 48] * (size["rounds"] - below - len(picture))


NAMES = {".": "night", "~": "sea", "w": "foam", "r": "brick", "y": "lamp"}


# ---------------------------------------------------------------- fit


def test_ease_is_finished_less_body(ropewalk: dict[str, Any]) -> None:
    """96 to 144 stitches at 24 over 10 cm, on heads of 43 to 64 cm."""
    (fit,) = ropewalk["fit"]

    assert (fit["finished"], fit["body"]) == ("Circumference", "head")
    heads = (430, 465, 500, 535, 570, 605, 640)
    for size, head, stitches in zip(fit["sizes"].values(), heads, range(96, 145, 8), strict=True):
        finished = stitches * 100 / 24
        assert size["body_mm"] == head
        assert size["finished_mm"] == pytest.approx(finished, abs=1e-5)
        assert size["ease_mm"] == pytest.approx(finished - head, abs=1e-5)
        assert size["ease_percent"] == pytest.approx(100 * (finished / head - 1), abs=1e-5)


def test_the_needles_serve_a_size_by_its_gauge(harbour: dict[str, Any]) -> None:
    """48 needles at 10 stitches are 48 cm, on a head of 53 cm 9.4 % less.

    A snug hat is 5 to 10 % smaller than the head (common practice, no source).
    """
    tube = harbour["needles"]

    assert (tube["needles"], tube["body"], tube["ease_percent"]) == (48, "head", [-10, -5])
    small = tube["sizes"]["S"]
    assert (small["gauge"], small["circumference_mm"]) == (10, 480)
    assert small["ease_percent"] == pytest.approx(-9.43, abs=0.01)
    for size in tube["sizes"].values():
        for gauge, percent in ((size["gauge_fewest"], -5), (size["gauge_most"], -10)):
            assert 4800 / gauge == pytest.approx(size["body_mm"] * (1 + percent / 100), abs=1e-3)
        assert size["served"] == (size["gauge_fewest"] <= size["gauge"] <= size["gauge_most"])
        assert size["gauge_middle"] == round(4800 / (size["body_mm"] * 0.925), 1)
    for row in tube["gauges"]:
        assert row["serves"] == [
            name
            for name, size in tube["sizes"].items()
            if -10 <= 100 * (4800 / row["gauge"] / size["body_mm"] - 1) <= -5
        ]


@pytest.fixture
def harbour_copy(tmp_path: Path) -> Path:
    return Path(copytree(HARBOUR, tmp_path / "hat"))


def test_a_size_that_no_gauge_serves_is_told_which_it_needs(harbour_copy: Path) -> None:
    """A head of 62 cm takes 55.8 to 58.9 cm around: 48 needles at 8.15 to 8.6 stitches."""
    source = harbour_copy / "pattern.yaml"
    source.write_text(source.read_text().replace("head: 57.5 cm", "head: 62 cm"))
    shown = text_of(harbour_copy)
    needed = {row[0]: row[1:] for row in rows(shown, "Stitches over 10 cm that each size needs")}

    assert needed["Served"] == ["yes", "yes", "no"]
    assert needed["Fewest stitches that serve"][2] == "8.2"
    assert needed["Most stitches that serve"][2] == "8.6"
    given = rows(shown, "What each gauge gives")
    assert given[0] == ["Stitches over 10 cm", "Finished", "S", "M", "L"]
    assert [row[0] for row in given[1:]] == ["10", "9.6", "9.2"]
    assert [row[4].startswith("(") for row in given[1:]] == [True, True, True]
    assert "5 to 10" not in shown
    assert "−10 to −5 % ease (common practice, no source)" in shown


def test_another_gauge_may_be_tried(harbour_copy: Path) -> None:
    """48 needles at 9 stitches are 53.3 cm: 5.9 % less than 56.7 cm, and 3 % than 55 cm."""
    result = CliRunner().invoke(
        main, ["plan", "--json", "--gauge", "9 x 13.2 / 10 cm", str(harbour_copy)]
    )
    (record,) = json.loads(result.stdout)
    sizes = record["result"]["needles"]["sizes"]

    assert result.exit_code == 0
    assert sizes["M"]["gauge"] == pytest.approx(9)
    assert sizes["M"]["circumference_mm"] == pytest.approx(4800 / 9, abs=1e-3)
    assert not sizes["M"]["served"]
    assert (sizes["S"]["gauge"], sizes["L"]["gauge"]) == (10, pytest.approx(9.2))
    assert {each["id"] for each in record["findings"]} == {
        "regauge.kept",
        "regauge.proportions",
        "regauge.tool",
    }


def test_figures_of_the_tables_are_told_with_their_source(harbour_copy: Path) -> None:
    source = harbour_copy / "pattern.yaml"
    source.write_text(source.read_text().replace("{head: 55 cm}", "{like: woman M}"))
    shown = " ".join(text_of(harbour_copy).split())

    assert "Head of size M: ANSUR II, report NATICK/TR-15/007, 2014" in shown
    assert "Head of size" not in text_of(HARBOUR)


def test_without_a_body_there_is_no_fit(tmp_path: Path) -> None:
    folder = Path(copytree(HARBOUR, tmp_path / "hat"))
    source = folder / "pattern.yaml"
    source.write_text(source.read_text().replace("head:", "crown:"))
    data = data_of(folder)

    assert (data["fit"], data["needles"]) == ([], None)
    assert "Sizes on" not in text_of(folder)


def test_a_crown_beside_a_flat_one(ropewalk: dict[str, Any]) -> None:
    """A flat crown is a disc of radius circumference / 2 pi: 40 cm around are 17.8 rounds of 28."""
    (crown,) = ropewalk["crowns"]
    baby = crown["sizes"]["Baby"]

    assert (baby["before"], baby["after"], baby["rounds"]) == (96, 8, 19)
    assert baby["flat_rounds"] == pytest.approx(400 / (2 * 3.14159) / (100 / 28), abs=1e-3)
    assert baby["flat_decreases"] == pytest.approx(2 * 3.14159 * 24 / 28, abs=1e-4)
    shown = [row[:2] for row in rows(text_of(ROPEWALK), "The crown in each size")]
    assert shown[0] == ["", "Baby"]
    assert shown[3:5] == [["Rounds", "19"], ["Rounds of a flat crown", "18"]]


# ---------------------------------------------------------------- base stripes


@pytest.mark.parametrize("name", ["S", "M", "L"])
def test_what_is_embroidered_is_what_differs_from_the_stripes(
    harbour: dict[str, Any], name: str
) -> None:
    size = harbour["tubes"][0]["sizes"][name]
    seen = harbour_rounds(size)
    bases = [stripe["yarn"] for stripe in size["stripes"] for _ in range(stripe["rounds"])]
    left: Counter[str] = Counter()
    for base, line in zip(bases, seen, strict=True):
        left.update(NAMES[c] for c in line if NAMES[c] != base)

    assert {yarn: n for yarn, n in size["embroidered"].items() if n} == dict(left)
    for stripe in size["stripes"]:
        on_it: Counter[str] = Counter()
        for line in seen[stripe["first"] - 1 : stripe["last"]]:
            on_it.update(NAMES[c] for c in line if NAMES[c] != stripe["yarn"])
        assert stripe["embroidered"] == dict(on_it)


@pytest.mark.parametrize("name", ["S", "M", "L"])
def test_minutes_and_what_is_saved_follow_from_the_weights(
    harbour: dict[str, Any], name: str
) -> None:
    """Half a minute a stitch, five a change, two an end, as the pattern says; the best base is
    night, which wants more strands, each with two ends."""
    size = harbour["tubes"][0]["sizes"][name]
    counts = Counter(NAMES[c] for line in harbour_rounds(size) for c in line)
    on_night = counts.total() - counts["night"]

    embroidered = sum(size["embroidered"].values())
    assert size["change_count"] == len(size["stripes"]) - 1 == len(size["changes"])
    stitches_and_changes = embroidered * 0.5 + size["change_count"] * 5
    assert size["minutes"] == stitches_and_changes + size["ends"]["strands"] * 2
    single = size["single_base"]
    assert (single["yarn"], single["embroidered"]) == ("night", on_night)
    ends, rest = divmod(single["minutes"] - on_night * 0.5, 2)
    assert rest == 0 == ends % 2
    assert ends > size["ends"]["strands"]
    assert max(counts, key=lambda yarn: counts[yarn]) == "night"
    assert size["saved"] == {
        "stitches": on_night - embroidered,
        "minutes": single["minutes"] - size["minutes"],
    }


def test_no_stripe_is_shorter_than_the_pattern_allows(harbour: dict[str, Any]) -> None:
    tube = harbour["tubes"][0]

    assert tube["shortest_stripe"] == 2
    assert all(
        stripe["rounds"] >= 2 for size in tube["sizes"].values() for stripe in size["stripes"]
    )


# ---------------------------------------------------------------- techniques


def choices_of(data: dict[str, Any]) -> list[dict[str, Any]]:
    return [
        choice
        for kind in ("tubes", "charts")
        for each in data[kind]
        for size in each["sizes"].values()
        for choice in (*size["bands"], *size["areas"])
    ]


@pytest.mark.parametrize("name", ["harbour", "ropewalk"])
def test_every_recommendation_follows_the_rule_that_is_printed(
    name: str, request: pytest.FixtureRequest
) -> None:
    data = request.getfixturevalue(name)

    assert choices_of(data)
    for choice in choices_of(data):
        free = [
            (price["minutes"], place, technique)
            for place, (technique, price) in enumerate(choice["techniques"].items())
            if not price["obstacles"]
        ]
        assert choice["recommended"] == (min(free)[2] if free else "duplicate stitch")
    assert "fewest minutes" in data["rule"]
    assert data["rule"].count(".") == 1


def test_bands_lie_side_by_side_over_the_whole_chart(
    harbour: dict[str, Any], ropewalk: dict[str, Any]
) -> None:
    """A band is a run of rounds with one set of colours, found here from the grid file."""
    for size in ropewalk["charts"][0]["sizes"].values():
        kinds = [
            len(list(group)) for _, group in groupby(lines_of(ROPEWALK / "rope.grid"), key=set)
        ]
        assert [band["last"] - band["first"] + 1 for band in size["bands"]] == kinds
        assert size["bands"][0]["first"] == 1
    for size in harbour["tubes"][0]["sizes"].values():
        kinds = [
            len(list(group)) for _, group in groupby(lines_of(HARBOUR / "light.grid"), key=set)
        ]
        assert [band["last"] - band["first"] + 1 for band in size["bands"]] == kinds


def test_a_machine_leaves_stripes_and_embroidery(harbour: dict[str, Any]) -> None:
    assert {choice["recommended"] for choice in choices_of(harbour)} == {
        "stripes",
        "duplicate stitch",
    }


def test_a_band_in_two_colours_costs_what_the_times_say(ropewalk: dict[str, Any]) -> None:
    """Rounds 8 to 12 of the ropes in size Baby, 96 stitches: ten of every eight by five are red."""
    band = next(b for b in ropewalk["charts"][0]["sizes"]["Baby"]["bands"] if b["first"] == 8)

    assert band["techniques"]["duplicate stitch"]["minutes"] == 12 * 10 * 0.5
    assert band["techniques"]["stranded"]["minutes"] == pytest.approx(5 + 5 * 96 * 0.03)
    assert band["techniques"]["stripes"] == {"minutes": None, "obstacles": ["not whole rounds"]}
    assert band["techniques"]["intarsia"]["obstacles"] == ["tube"]


# ---------------------------------------------------------------- floats


def floats_by_counting(line: str, yarn: str) -> tuple[int, int]:
    """Longest float of a yarn inside a repeat and across its edge, by walking around it."""
    stitches = [place for place, c in enumerate(line) if c == yarn]
    inside = max((b - a - 1 for a, b in pairwise(stitches)), default=0)
    return inside, stitches[0] + len(line) - stitches[-1] - 1


def test_floats_are_those_counted_in_the_grid(ropewalk: dict[str, Any]) -> None:
    names = {"#": "tar", ".": "hemp", "o": "madder"}
    expected = {}
    for number, line in enumerate(lines_of(ROPEWALK / "rope.grid"), start=1):
        for c in set(line) if len(set(line)) > 1 else ():
            lengths = floats_by_counting(line, c)
            if any(lengths):
                expected[number, names[c]] = lengths

    for size in ropewalk["charts"][0]["sizes"].values():
        found = {
            (each["round"], each["yarn"]): (each["inside"], each["across_edge"])
            for each in size["floats"]
        }
        assert found == expected
        assert size["float_limit"] == 6  # 24 stitches in 10 cm: a handbook's 6
        assert size["long_floats"] == []


TWO_COLOURS = """\
title: Buoy Band
designer: The Ebbstow Knitting Room
version: "1"
date: 2026-11-02
summary: A band to test with.
wearer: [adult]
terms: UK
gauge: {stitches: 16, rounds: 20, over: 10 cm, worked: stocking stitch}
yarns:
  tar:
    {name: Tar, colour: "#2c3540", weight: 4, ball: 50 g = 100 m, swatch: {stitches: 400, grams: 4}}
  foam: {name: Foam, colour: "#eef1ec", weight: 4, ball: 50 g = 100 m}
sizes:
  One: {head: 52 cm}
  Two: {head: 60 cm, gauge: {stitches: 12, rounds: 16, over: 10 cm}}
finished: {Around: width(80)}
charts:
  buoy: {title: Buoy, grid: buoy.grid, legend: {"#": tar, ".": foam}, alt: Buoys.}
pieces:
  band:
    title: Band
    yarn: tar
    worked: round
    steps:
      - {cast on: [80, 96]}
      - {work: k all, rounds: 2}
      - {chart: buoy}
      - {bind off: all}
"""


@pytest.fixture
def band(tmp_path: Path) -> Path:
    folder = tmp_path / "band"
    folder.mkdir()
    (folder / "buoy.grid").write_text("#......#\n########\n")
    (folder / "pattern.yaml").write_text(TWO_COLOURS)
    return folder


def test_long_floats_are_told_with_where_to_catch_them(band: Path) -> None:
    """At 16 stitches in 10 cm a float may pass 4, at 12 only 3; tar passes 6."""
    (chart,) = data_of(band)["charts"]

    assert [size["float_limit"] for size in chart["sizes"].values()] == [4, 3]
    for size, limit in zip(chart["sizes"].values(), (4, 3), strict=True):
        assert len(size["long_floats"]) == size["repeats"]
        for long in size["long_floats"]:
            assert (long["round"], long["yarn"], long["length"]) == (2, "tar", 6)
            ends = [long["first"] - 1, *long["catch_at"], long["last"] + 1]
            assert max(b - a - 1 for a, b in pairwise(ends)) <= limit
    assert "all sizes" in text_of(band)
    assert "a float passes more than 3 or 4 stitches" in text_of(band)


def test_a_flat_piece_has_no_float_around(band: Path) -> None:
    source = band / "pattern.yaml"
    source.write_text(source.read_text().replace("round\n    steps", "flat\n    steps"))
    (chart,) = data_of(band)["charts"]

    floats = chart["sizes"]["One"]["floats"]
    assert {(each["yarn"], each["inside"], each["across_edge"]) for each in floats} == {
        ("tar", 6, 0),
        ("foam", 0, 2),
    }
    assert all(
        "tube" not in t["obstacles"]
        for b in choices_of(data_of(band))
        for t in b["techniques"].values()
    )
    assert "around the start" not in text_of(band)


# ---------------------------------------------------------------- yarn


def test_loop_lengths_are_munden_s(harbour: dict[str, Any]) -> None:
    """l = √(Ks ÷ S), Ks 19.0 dry, 21.6 wet, 23.1 fully relaxed (Munden 1959, J. Text. Inst. 50)."""
    loops = next(each for each in harbour["loops"] if each["gauge"] == "main")
    density = 9.6 * 13.2 / 100
    medium = loops["sizes"]["M"]

    assert medium["state"] == "wet-relaxed"
    assert medium["mm"] == pytest.approx(10 * sqrt(21.6 / density), abs=1e-6)
    assert medium["by_state"] == {
        "dry-relaxed": pytest.approx(10 * sqrt(19.0 / density), abs=1e-6),
        "wet-relaxed": pytest.approx(10 * sqrt(21.6 / density), abs=1e-6),
        "fully relaxed": pytest.approx(10 * sqrt(23.1 / density), abs=1e-6),
    }


def test_a_weighed_swatch_wins_and_says_how_sure_it_is(band: Path) -> None:
    """4 g of 50 g = 100 m are 8 m; over 400 stitches that is 20 mm each. The scale shows whole
    grams, so half a gram in four is added to 5 %."""
    tar, foam = data_of(band)["loops"]

    assert (tar["yarn"], tar["sizes"]["One"]["origin"]) == ("tar", "swatch")
    assert tar["sizes"]["One"]["mm"] == 20
    assert foam["sizes"]["One"]["origin"] == "stitch density"
    assert tar["sizes"]["One"]["uncertainty"] == pytest.approx(0.05 + 0.5 / 4)
    text = " ".join(text_of(band).split())
    assert f"Tar: a weighed swatch (20.0 mm), give or take {0.05 + 0.5 / 4:.0%}" in text
    assert "Foam: stitch density, wet-relaxed, give or take 11%" in text


@pytest.mark.parametrize("name", ["harbour", "ropewalk"])
def test_the_parts_of_the_yarn_add_up(name: str, request: pytest.FixtureRequest) -> None:
    data = request.getfixturevalue(name)
    for yarn in data["yarn"].values():
        for need in yarn["sizes"].values():
            parts = dict(need["parts_metres"])
            assert sum(parts.values()) == pytest.approx(need["metres"], abs=1e-4)
            reserve = parts.pop("reserve")
            parts.pop("gauge swatch", None)
            assert reserve == pytest.approx(need["uncertainty"] * sum(parts.values()), abs=1e-4)
            ball = yarn["ball"]
            assert need["grams"] == pytest.approx(
                need["metres"] / ball["metres"] * ball["grams"], abs=1e-4
            )
            assert (need["balls"] - 1) * ball["metres"] < need["metres"]
            assert need["metres"] <= need["balls"] * ball["metres"] + 1e-6


def test_knitting_is_stitches_times_loop_length(harbour: dict[str, Any]) -> None:
    """Lamp is only embroidered; brick is knitted in its stripes alone."""
    size = harbour["tubes"][0]["sizes"]["M"]
    loop = next(e for e in harbour["loops"] if e["yarn"] == "brick" and e["gauge"] == "main")
    stitches = 48 * sum(s["rounds"] for s in size["stripes"] if s["yarn"] == "brick")
    parts = harbour["yarn"]["brick"]["sizes"]["M"]["parts_metres"]

    assert parts["knitting"] == pytest.approx(stitches * loop["sizes"]["M"]["mm"] / 1000, abs=1e-5)
    assert "knitting" not in harbour["yarn"]["lamp"]["sizes"]["M"]["parts_metres"]


def test_the_thickness_of_a_yarn(harbour: dict[str, Any]) -> None:
    """100 g = 190 m are 526 tex (grams in a kilometre, ISO 1144) and 1.9 m in a gram."""
    thickness = {row[0]: row[1:] for row in rows(text_of(HARBOUR), "Thickness of the yarns")}

    assert harbour["yarn"]["night"]["tex"] == pytest.approx(1000 * 100 / 190, abs=1e-5)
    assert thickness["Night"][:3] == ["190 m / 208 yd", "526", "1.9"]
    # Craft Yarn Council: medium (4) is worked with US 7 to 9 needles and I-9 to K-10½ hooks.
    assert thickness["Night"][4:] == ["4.5 to 5.5 (US 7 to 9)", "5.5 to 6.5 (US I-9 to K-10½)"]
    light, heavy = (float(each) for each in thickness["Night"][3].split(" to "))
    for grams, density, loop in ((heavy, 1.38, 39.56), (light, 1.1592, 43.17)):
        assert grams == pytest.approx(density * 1e4 * loop / 1000 * 100 / 190, rel=0.005)


@pytest.mark.parametrize(
    ("units", "named", "labels"),
    [
        ("metric", "Hemp, in metres", ["In all, m", "In all, g", "Balls of 50 g = 150 m"]),
        ("imperial", "Hemp, in yards", ["In all, yd", "In all, oz", "Balls of 1.8 oz = 164 yd"]),
        (
            "both",
            "Hemp, in metres",
            ["In all, m", "In all, yd", "In all, g", "Balls of 50 g = 150 m / 164 yd"],
        ),
    ],
)
def test_yarn_is_told_in_the_units_of_the_pattern(
    units: str, named: str, labels: list[str], tmp_path: Path
) -> None:
    """0.9144 m in a yard, 28.35 g in an ounce (international yard and pound, 1959)."""
    folder = Path(copytree(ROPEWALK, tmp_path / "hat"))
    source = folder / "pattern.yaml"
    source.write_text(source.read_text().replace("units: both", f"units: {units}"))
    need = data_of(folder)["yarn"]["hemp"]["sizes"]["Baby"]
    shown = text_of(folder)
    told = {row[0]: row[1] for row in rows(shown, named) if row[0]}

    assert [label for label in told if label.startswith(("In all", "Balls"))] == labels
    figures = {"m": 1.0, "yd": 0.9144, "g": 1.0, "oz": 28.349523125}
    for label in labels[:-1]:
        unit = label.removeprefix("In all, ")
        exact = need["grams" if unit in ("g", "oz") else "metres"]
        assert float(told[label]) == pytest.approx(exact / figures[unit], abs=0.051)
    assert ("Loop length in inches" in shown) == (units == "imperial")


# ---------------------------------------------------------------- on the terminal


@pytest.mark.parametrize("folder", sorted(PATTERNS.iterdir()), ids=lambda path: path.name)
def test_no_line_is_wider_than_a_hundred_columns(folder: Path) -> None:
    assert max(len(line) for line in text_of(folder).splitlines()) <= 100


def test_many_sizes_and_long_names_stand_a_few_at_a_time(band: Path) -> None:
    source = band / "pattern.yaml"
    sizes = "".join(f"  To fit the harbour master {n}: {{head: 5{n} cm}}\n" for n in range(9))
    text = source.read_text()
    start, end = text.index("  One:"), text.index("finished:")
    text = text[:start] + sizes + text[end:]
    source.write_text(text.replace("[80, 96]", "80").replace("name: Tar", f"name: {'Tar ' * 30}"))

    shown = text_of(band)

    assert max(len(line) for line in shown.splitlines()) <= 100
    assert all(f"To fit the harbour master {n}" in shown for n in range(9))


def rows(text: str, caption: str) -> list[list[str]]:
    """The cells of the table under a caption, its heading first."""
    lines = text.splitlines()
    at = next(number for number, line in enumerate(lines) if line.startswith(caption)) + 1
    table = lines[at : lines.index("", at)]
    rule = next(line for line in table if set(line) <= {"-", " "})
    starts = [i for i in range(len(rule)) if rule[i] == "-" and (i == 0 or rule[i - 1] == " ")]
    cuts = list(zip(starts, [*starts[1:], None], strict=True))
    return [[line[a:b].strip() for a, b in cuts] for line in table if line is not rule]


def test_the_tables_say_what_the_data_say(harbour: dict[str, Any]) -> None:
    shown = text_of(HARBOUR)
    work = {row[0]: row[1:] for row in rows(shown, "The work in each size")}
    sizes = list(harbour["tubes"][0]["sizes"].values())

    assert work[""] == ["S", "M", "L"]
    assert work["Embroidered in Foam"] == [str(s["embroidered"]["foam"]) for s in sizes]
    assert work["Saved: minutes"] == [f"{s['saved']['minutes']:.0f}" for s in sizes]
    stripes = rows(shown, "Stripes from the cast-on up, sizes M and L")[1:]
    assert [row[2].lower() for row in stripes] == [s["yarn"] for s in sizes[1]["stripes"]]
    assert [int(row[1]) for row in stripes] == [s["rounds"] for s in sizes[1]["stripes"]]
    foam = {row[0]: row[1:] for row in rows(shown, "Foam, in metres")}
    needs = harbour["yarn"]["foam"]["sizes"].values()
    assert foam["In all, m"] == [f"{need['metres']:.1f}" for need in needs]
    bands = rows(shown, "Bands of rounds")[1:]
    assert [row[-1] for row in bands] == [band["recommended"] for band in sizes[0]["bands"]]


def test_the_terms_are_the_pattern_s(band: Path) -> None:
    shown = text_of(band)

    assert "Swiss darning" in shown
    assert "duplicate stitch" not in shown
    assert "colour" in shown
    assert "color" not in shown


def test_a_pattern_without_colour_has_its_yarn_alone() -> None:
    data = data_of(PATTERNS / "netmender-mittens")

    assert data["tubes"] == data["charts"] == []
    assert set(data["yarn"]) == {"slate", "gull"}
    assert "Techniques" not in text_of(PATTERNS / "netmender-mittens")


def test_a_faulty_pattern_is_told_and_exits_with_1(band: Path) -> None:
    (band / "buoy.grid").write_text("#......#\n#####\n")

    result = CliRunner().invoke(main, ["plan", str(band), str(ROPEWALK)])

    assert result.exit_code == 1
    assert "error[grid.ragged]" in result.stderr
    assert "Ropewalk Hat" in result.stdout
