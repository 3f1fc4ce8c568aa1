"""What stands before the first stitch: cover, sizes, materials, gauge, abbreviations."""

import math
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.front import (
    abbreviation_section,
    cover,
    gauge_section,
    material_section,
    photo_section,
    size_section,
)
from bindoff.document.tree import DefinitionList, Figure, Heading
from tests.document.patterns import (
    BOAT,
    CHARTED,
    SLATE,
    TWO_YARNS,
    Data,
    built,
    cells,
    data,
    example,
    flat,
    plan_of,
    printed,
    said,
    section,
    tables,
    tube,
    voice,
)

PNG = (Path(__file__).parents[1] / "pictures" / "chart.png").read_bytes()
STEPS: list[dict[str, Any]] = [
    {"cast on": "n"},
    {"work": "k all", "rounds": 40},
    {"bind off": "all"},
]


def facts(source: Data) -> dict[str, str]:
    """The facts on the cover."""
    return {printed(e.term): printed(e.meaning) for e in cover(voice(source)).facts.entries}


def entries(blocks: Any) -> dict[str, str]:
    """All terms and their meanings."""
    return {
        printed(entry.term): printed(entry.meaning)
        for block in blocks
        if isinstance(block, DefinitionList)
        for entry in block.entries
    }


# ---------------------------------------------------------------- cover


def test_the_cover_tells_sizes_fit_yarn_and_gauge() -> None:
    assert facts(data(STEPS, skill="Easy.")) == {
        "Sizes": "A, B",
        "To fit head": "50 (53) cm / 19¾ (20¾) in",
        "Finished circumference": "20 (24) cm / 7¾ (9½) in",
        "Yarn": "Medium (4), 1 color",
        "Gauge": "20 stitches and 28 rounds over 10 cm / 4 in, washed",
        "Skill": "Easy.",
    }


def test_the_cover_speaks_british_where_asked() -> None:
    """Tension, colour: common practice, no source."""
    found = facts(data(STEPS, terms="UK"))

    assert found["Tension"].startswith("20 stitches")
    assert found["Yarn"] == "Medium (4), 1 colour"


def test_the_cover_names_the_machine() -> None:
    source, files = tube(BOAT, {".": "slate", "#": "foam", "o": "rust"})

    assert entries([cover(voice(source, files)).facts])["Made"] == (
        "On a circular machine with 24 needles"
    )


def test_the_cover_shows_a_photograph_before_anything_drawn() -> None:
    photo = {"file": "cap.png", "alt": "A cap on a quay wall.", "caption": "In size B"}
    art = cover(voice(data(STEPS, 2, photos=[photo]), {"cap.png": PNG})).art

    assert art is not None
    assert isinstance(art.picture, bytes)
    assert (art.alt, printed(art.caption)) == ("A cap on a quay wall.", "In size B")


def test_further_photographs_have_a_section_of_their_own() -> None:
    files = {"cap.png": PNG, "crown.png": PNG}
    first = {"file": "cap.png", "alt": "A cap on a quay wall."}
    second = {"file": "crown.png", "alt": "Its crown from above.", "caption": "The crown"}

    assert photo_section(voice(data(STEPS, 2, photos=[first]), files)) == ()
    title, picture = photo_section(voice(data(STEPS, 2, photos=[first, second]), files))
    assert isinstance(title, Heading)
    assert isinstance(picture, Figure)
    assert (picture.alt, printed(picture.caption)) == ("Its crown from above.", "The crown")


def test_without_photograph_the_cover_shows_the_chart_as_fabric() -> None:
    source = data([STEPS[0], {"chart": "waves"}, STEPS[2]], **CHARTED)
    art = cover(voice(source)).art

    assert art is not None
    assert art.alt == "Knitted fabric. Low light waves on a dark ground."
    plain = cover(voice(data(STEPS))).art
    assert plain is not None
    assert plain.alt == "Plain knitted fabric in one yarn, Slate."


def test_the_cover_shows_the_stripes_of_the_main_part() -> None:
    stripes = [{"yarn": "foam", "rounds": 3}, {"yarn": "slate", "rounds": 5}]
    work = {"work": "k all", "in stripes": stripes, "times": 5}
    art = cover(voice(data([STEPS[0], work, STEPS[2]], **TWO_YARNS))).art

    assert art is not None
    assert art.alt == "Plain knitted fabric in stripes of Foam and Slate."


# ---------------------------------------------------------------- sizes


def test_the_size_table_has_body_and_finished_figures_in_both_units() -> None:
    (table,) = tables(size_section(voice(data(STEPS))), "Body and finished measurements")

    assert cells(table) == [
        ["To fit head", "50", "53", "19¾", "20¾"],
        ["Circumference", "20", "24", "7¾", "9½"],
    ]


def test_without_body_measurements_only_finished_ones_are_told() -> None:
    source = data(STEPS, sizes={"S": {}, "M": {}})

    assert tables(size_section(voice(source)), "Finished measurements")
    assert not tables(size_section(voice(source)), "Body")


# ---------------------------------------------------------------- yarn


def _amounts(source: Data) -> list[list[str]]:
    (table,) = tables(material_section(voice(source)), "Yarn needed")
    return cells(table)


def test_amounts_are_those_of_the_plan_rounded_up() -> None:
    source = data(STEPS)
    (total,) = plan_of(source).yarn
    (row,) = _amounts(source)

    assert row == [
        "Slate",
        *(str(math.ceil(need.grams)) for need in total.needs),
        *(str(math.ceil(need.metres)) for need in total.needs),
        *(
            str(math.ceil(math.ceil(need.metres) / Fraction("0.9144"))) for need in total.needs
        ),  # as many as the meters beside them, or more
    ]


def test_amounts_are_in_ounces_and_yards_where_only_those_are_printed() -> None:
    """1 oz = 28.349523125 g, 1 yd = 0.9144 m (NIST Special Publication 811, appendix B.8)."""
    source = data(STEPS, 2, units="imperial")
    (total,) = plan_of(source).yarn
    ((_, ounces, _, yards, _),) = _amounts(source)

    assert 0 <= float(ounces) - total.needs[0].grams / 28.349523125 <= 0.1
    assert 0 <= float(yards) - total.needs[0].metres / 0.9144 < 1


@pytest.mark.parametrize(
    ("rounds", "said_"),
    [
        ([34, 34], "Buy 1 ball."),
        ([34, 150], "Balls to buy: 1 (3)."),
        ([150, 260], "Buy 3 (5) balls."),
    ],
)
def test_balls(rounds: list[int], said_: str) -> None:
    steps = [STEPS[0], {"work": "k all", "rounds": rounds}, STEPS[2]]
    source = data(steps, measures={"n": 80})
    balls = [need.balls for need in plan_of(source).yarn[0].needs]

    assert list(map(int, re.findall(r"\d+", said_))) == list(dict.fromkeys(balls))
    assert entries(material_section(voice(source)))["Slate"] == (
        f"Medium (4), 50 g = 100 m / 109 yd per ball. {said_}"
    )


@settings(max_examples=10)
@given(st.integers(1, 300), st.integers(20, 200))
def test_the_balls_to_buy_hold_the_yarn_needed(rounds: int, grams: int) -> None:
    yarn = SLATE | {"ball": f"{grams} g = {2 * grams} m"}
    steps = [STEPS[0], {"work": "k all", "rounds": rounds}, STEPS[2]]
    source = data(steps, 1, yarns={"slate": yarn}, units="metric")
    words = entries(material_section(voice(source)))["Slate"]
    needed = re.search(r"You need \d+ g \((\d+) m\), reserve included\. Buy (\d+) ball", words)
    assert needed
    metres, balls = int(needed[1]), int(needed[2])

    assert (balls - 1) * 2 * grams < metres + 1
    assert balls * 2 * grams >= metres - 1


def test_one_size_is_told_its_amounts_with_the_yarn_and_no_table() -> None:
    source = data(STEPS, 1)
    (need,) = plan_of(source).yarn[0].needs
    section = material_section(voice(source))

    assert tables(section, "Yarn") == []
    grams, metres = math.ceil(need.grams), math.ceil(need.metres)
    yards = math.ceil(metres / Fraction("0.9144"))
    assert f"You need {grams} g ({metres} m / {yards} yd), reserve included." in said(section)


def test_a_size_that_needs_none_of_a_yarn_has_a_dash() -> None:
    steps = [STEPS[0], {"work": "k all", "rounds": [0, 8], "yarn": "foam"}, STEPS[2]]
    rows = {row[0]: row for row in _amounts(data(steps, **TWO_YARNS))}
    words = entries(material_section(voice(data(steps, **TWO_YARNS))))

    assert rows["Foam"][1::2] == ["–", "–", "–"]
    assert words["Foam"].endswith("Balls to buy: – (1).")


def test_tools_and_notions_are_listed_as_written() -> None:
    tools = [{"name": "set of 4 mm needles", "use": "throughout"}, {"name": "hook"}]
    source = data(STEPS, tools=tools, notions=["2 markers"], terms="UK")
    words = said(material_section(voice(source)))

    assert "Set of 4 mm needles – throughout\nHook\n" in words
    assert words.endswith("Notions\n2 markers")


def test_every_yarn_has_the_swatch_it_has_in_the_charts() -> None:
    speaker = voice(data([STEPS[0], {"chart": "waves"}, STEPS[2]], **CHARTED))
    (list_,) = (b for b in material_section(speaker) if isinstance(b, DefinitionList))

    assert all(entry.mark is not None for entry in list_.entries)
    assert len({repr(entry.mark) for entry in list_.entries}) == 2


# ---------------------------------------------------------------- gauge


def gauge_words(source: Data) -> str:
    return said(gauge_section(voice(source)))


@pytest.mark.parametrize(
    ("units", "over", "words"),
    [
        ("metric", "10 cm", "20 stitches and 28 rounds over 10 cm"),
        ("both", "10 cm", "20 stitches and 28 rounds over 10 cm / 4 in"),
        ("both", "4 in", "20 stitches and 28 rounds over 10 cm / 4 in"),
        ("imperial", "4 in", "20 stitches and 28 rounds over 4 in"),
        ("imperial", "10 cm", "20.3 stitches and 28.4 rounds over 4 in"),
        ("metric", "4 in", "19.7 stitches and 27.6 rounds over 10 cm"),
        ("metric", "5 cm", "40 stitches and 56 rounds over 10 cm"),
    ],
)
def test_the_gauge_is_exact_for_the_length_it_was_measured_over(
    units: str, over: str, words: str
) -> None:
    """4 in are 101.6 mm, so 20 stitches over 10 cm are 20.32 over 4 in."""
    gauge = {"stitches": 20, "rounds": 28, "over": over}

    assert f"{words}, washed." in gauge_words(data(STEPS, gauge=gauge, units=units))


def test_a_gauge_names_its_fabric_its_state_and_its_tool() -> None:
    gauge = {
        "stitches": 9.6,
        "rounds": 13.2,
        "state": "unwashed",
        "worked": "plain",
        "tool": "4 mm",
    }

    assert gauge_words(data(STEPS, gauge=gauge)) == (
        "Gauge\n9.6 stitches and 13.2 rounds over 10 cm / 4 in, plain, unwashed, 4 mm."
    )


def test_the_gauge_of_a_flat_piece_counts_rows() -> None:
    assert "28 rows over" in gauge_words(flat(data(STEPS)))


def test_sizes_with_a_gauge_of_their_own_have_a_table_and_stand_on_the_cover() -> None:
    tighter = {"stitches": 22, "rounds": 30, "tool": "3.5 mm"}
    sizes = {"A": {"head": "50 cm", "gauge": tighter}, "B": {"head": "56 cm"}}
    source = data(STEPS, sizes=sizes)
    (table,) = tables(gauge_section(voice(source)), "Over 10 cm / 4 in, washed")

    assert [printed(column.heading) for column in table.columns] == [
        "Size", "Stitches", "Rounds", "Tool",
    ]  # fmt: skip
    assert cells(table) == [["A", "22", "30", "3.5 mm"], ["B", "20", "28", "–"]]
    assert facts(source)["Gauge"] == "22 (20) stitches and 30 (28) rounds over 10 cm / 4 in, washed"


def test_a_table_of_gauges_has_no_column_of_tools_where_none_is_named() -> None:
    sizes = {
        "A": {"head": "50 cm", "gauge": {"stitches": 22, "rounds": 30}},
        "B": {"head": "56 cm"},
    }
    (table,) = tables(gauge_section(voice(data(STEPS, sizes=sizes))), "Over 10 cm")

    assert len(table.columns) == 3


def test_a_further_gauge_is_told_with_its_pieces() -> None:
    source = flat(data(STEPS), gauge="edge")
    source["gauges"] = {"edge": {"stitches": 16, "rounds": 32, "worked": "garter stitch"}}

    assert "Cap: 16 stitches and 32 rows over 10 cm / 4 in, garter stitch, washed." in (
        gauge_words(source)
    )


# ---------------------------------------------------------------- abbreviations


def abbreviations(step: dict[str, Any], **changes: Any) -> list[str]:
    """The abbreviations listed by the document of a pattern with this step."""
    document, _ = built(data([STEPS[0], step, {"gather": "all"}], 2, **changes))
    return list(entries(section(document, "abbreviations")))


@pytest.mark.parametrize(
    ("step", "listed"),
    [
        ({"work": "k all", "rounds": 3}, []),
        ({"work": "*k2, p2; repeat from * to end"}, ["k", "p"]),
        ({"work": "k1, pm, k to end"}, ["k", "pm"]),
        ({"work": "k1, yo, k2tog, k to end"}, ["k", "k2tog", "yo"]),
        ({"taper": "ssk, k to end", "to": "n - 2", "over": 4}, ["k", "ssk"]),
        ({"even": "increase", "to": "n + 4"}, ["k", "M1"]),
        ({"crown": 8, "to": 8}, ["k", "k2tog"]),
        ({"work": "k{few}, sl{none} wyif, k to end"}, ["k"]),
    ],
)
def test_the_abbreviations_are_exactly_those_that_rows_print(
    step: dict[str, Any], listed: list[str]
) -> None:
    measures = {"n": [40, 48], "few": 8, "none": 0}

    assert abbreviations(step, measures=measures) == listed


def test_what_a_row_says_in_full_is_no_abbreviation() -> None:
    speaker = voice(data(STEPS))
    used = ("k", "remove marker", "hold", "turn", "w&t")
    listed = entries(abbreviation_section(speaker, used, {}))

    assert list(listed) == ["k", "w&t"]
    assert abbreviation_section(speaker, ("hold",), {}) == ()
    assert entries(abbreviation_section(speaker, (), {"sts": "stitches"})) == {"sts": "stitches"}


def test_british_abbreviations_stand_in_the_list() -> None:
    """US sc, dc are UK dc, tr (Craft Yarn Council's chart, from memory)."""
    speaker = voice(data(STEPS, terms="UK"))

    assert list(entries(abbreviation_section(speaker, ("sc", "dc"), {}))) == ["dc", "tr"]


def test_a_stitch_of_the_designers_own_is_explained_in_their_words() -> None:
    knot = {"uses": 1, "makes": 1, "name": "harbor knot", "how": "Work as the notes say."}
    source = data([STEPS[0], {"work": "k1, hk, k to end"}, STEPS[2]], 2, stitches={"hk": knot})

    assert entries(abbreviation_section(voice(source), ("hk",), {})) == {
        "hk": "harbor knot: Work as the notes say."
    }


def test_stitches_that_only_a_chart_names_are_listed_too() -> None:
    legend = {".": "k", "/": "k2tog", "-": "yo"}
    chart = {"title": "Lace", "grid": "lace.grid", "legend": legend, "alt": "Slanting holes."}
    steps = [STEPS[0], {"chart": "lace"}, STEPS[2]]
    document, _ = built(data(steps, charts={"lace": chart}), {"lace.grid": "./-.\n"})

    assert list(entries(section(document, "abbreviations"))) == ["k2tog", "yo"]


def test_a_flat_chart_lists_what_its_wrong_side_rows_work() -> None:
    """From the wrong side k2tog is worked as p2tog (common practice, no source)."""
    legend = {".": "k", "/": "k2tog", "-": "yo"}
    chart = {"title": "Lace", "grid": "lace.grid", "legend": legend, "alt": "Slanting holes."}
    steps = [STEPS[0], {"chart": "lace"}, STEPS[2]]
    source = flat(data(steps, charts={"lace": chart}))
    upper, _ = built(source, {"lace.grid": "/-..\n....\n"})
    both, _ = built(source, {"lace.grid": "/-..\n..-/\n"})

    assert list(entries(section(upper, "abbreviations"))) == ["p2tog", "yo"]
    assert list(entries(section(both, "abbreviations"))) == ["k2tog", "p2tog", "yo"]


def test_the_examples_list_no_abbreviation_twice() -> None:
    for name in ("cap", "flap", "mitten"):
        _, document, _ = example(name)
        terms = [
            printed(entry.term)
            for block in document.blocks
            if isinstance(block, DefinitionList) and block.columns == 2
            for entry in block.entries
        ]
        assert len(terms) == len(set(terms))
