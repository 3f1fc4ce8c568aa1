"""The chart pages: what each chart shows, its symbols, its parts on paper, its rows in words."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.craft.marks import LIKE_STITCHES
from bindoff.craft.stitches.cells import BEYOND
from bindoff.diagnostics import PatternError
from bindoff.document.areas import bands
from bindoff.document.chartkeys import yarn_symbols
from bindoff.document.chartpages import (
    ChartPage,
    chart_blocks,
    chart_pages,
)
from bindoff.document.charts.symbols import marked, symbol_of
from bindoff.document.charts.written import written_rows
from bindoff.document.tree import DefinitionList, Figure, Heading, ItemList
from bindoff.document.tubecharts import stitchings
from bindoff.document.voice import voice_of
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import build_pattern, drawn_for, plan_pattern
from bindoff.plan.picture import PicturePlan
from bindoff.plan.steps.stripes import Striped
from bindoff.source.rowlang.stitches import Side, standard_book
from tests.document.chart_cases import expanded
from tests.document.patterns import (
    BOAT,
    CHARTED,
    FOAM,
    RUST,
    SLATE,
    TWO_YARNS,
    Data,
    Steps,
    built,
    data,
    example,
    files_of,
    flat,
    plan_of,
    printed,
    said,
    tube,
    voice,
    walk,
)

USUALLY = drawn_for("calm")
LEGEND = {".": "slate", "#": "foam", "o": "rust"}
TWO = {".": "slate", "#": "foam"}
START: dict[str, Any] = {"cast on": "n"}
END: dict[str, Any] = {"bind off": "all"}


def pages(source: Data, files: Mapping[str, str | bytes] | None = None) -> dict[str, ChartPage]:
    """The charts of a pattern by id."""
    return {page.id: page for page in chart_pages(voice(source, files), USUALLY)}


def charted(grid: str, legend: Mapping[str, Any], **changes: Any) -> tuple[Data, dict[str, str]]:
    """A piece that works one chart."""
    chart = {"title": "Lace", "grid": "lace.grid", "legend": dict(legend), "alt": "Lace"}
    steps: Steps = [{"cast on": 24}, {"chart": "lace"}, END]
    return data(steps, 2, charts={"lace": chart}, **changes), {"lace.grid": grid}


def plans_of(source: Data, files: Mapping[str, str]) -> tuple[PicturePlan, ...]:
    """The tubes of all sizes."""
    steps = plan_of(source, files).pieces[0].steps
    return next(step.detail.plans for step in steps if isinstance(step.detail, Striped))


# ---------------------------------------------------------------- rows in words


def read_aloud(page: ChartPage) -> tuple[tuple[str, ...], ...]:
    """The grid that a reader of the written rows would draw: words to cells, bottom row first."""
    spec = page.spec
    rows: list[tuple[str, ...]] = []
    (list_,) = (b for b in chart_blocks(page) if isinstance(b, ItemList))
    for item in list_.items:
        head, _, words = said(item.blocks).partition(": ")
        first, last = (re.findall(r"\d+", head) * 2)[:2]
        wrong = spec.worked == "flat" and int(first) % 2 == 0
        keys = {key.said(wrong_side=wrong): key.key for key in spec.keys}
        cells = _fitted(_worked(words.rstrip("."), keys), words, len(spec.rows[0]))
        seen = tuple(cells) if wrong else tuple(cells[::-1])
        rows += [seen] * (int(last) - int(first) + 1)
    return tuple(rows)


def _fitted(cells: list[str], words: str, width: int) -> list[str]:
    """The cells of a line of ``width``: what is repeated to the end is worked until it is full."""
    return cells * (width // len(cells)) if "repeat from *" in words else cells


def _worked(words: str, keys: Mapping[str, str]) -> list[str]:
    words = words.removeprefix("*").removesuffix("; repeat from * to end")
    found: list[str] = []
    for part in re.findall(r"\[.*?\] \d+ times|[^,\[\]]+", words):
        if bracket := re.fullmatch(r"\[(.*)\] (\d+) times", part):
            found += _worked(bracket[1], keys) * int(bracket[2])
        elif part.strip():
            found += _run(part.strip(), keys)
    return found


def _run(words: str, keys: Mapping[str, str]) -> list[str]:
    for pattern in (
        r"(?P<n>\d+) (?P<w>.+)",
        r"(?P<w>.+) (?P<n>\d+) times",
        r"(?P<w>.+) (?P<n>\d+)",
    ):
        found = re.fullmatch(pattern, words)
        if found and found["w"] in keys:
            return [keys[found["w"]]] * int(found["n"])
    return [keys[words]]


@pytest.mark.parametrize("name", ["cap", "tube"])
def test_the_words_of_a_chart_lead_back_to_its_grid(name: str) -> None:
    worked = [page for page in example(name)[2] if page.worked]
    assert worked
    for page in worked:
        assert read_aloud(page) == page.spec.rows


def test_a_chart_that_nobody_works_from_has_no_written_rows() -> None:
    looked_at = [page for page in example("tube")[2] if not page.worked]

    assert looked_at
    for page in looked_at:
        headings = [each for each in chart_blocks(page) if isinstance(each, Heading)]
        assert [each.level for each in headings] == [3]


@settings(max_examples=20)
@given(
    st.integers(1, 4).flatmap(
        lambda height: st.lists(
            st.text(".#o", min_size=8, max_size=8), min_size=height, max_size=height
        )
    ),
    st.booleans(),
)
def test_the_words_of_any_chart_lead_back_to_its_grid(lines: list[str], rows: bool) -> None:
    source, files = charted(
        "\n".join([*lines, ".#o....."]), LEGEND, yarns={"slate": SLATE, "foam": FOAM, "rust": RUST}
    )
    page = pages(flat(source) if rows else source, files)["lace"]

    assert read_aloud(page) == tuple(tuple(line) for line in ([*lines, ".#o....."])[::-1])
    assert expanded(written_rows(page.spec)) == page.spec.rows


# ---------------------------------------------------------------- stitches


def test_a_chart_of_stitches_has_no_colours_and_says_plain_stitches_in_full() -> None:
    page = pages(*charted("..--\n/o..\n", {".": "k", "-": "p", "/": "k2tog", "o": "yo"}))["lace"]

    assert {key.colour for key in page.spec.keys} == {None}
    assert said([b for b in chart_blocks(page) if isinstance(b, ItemList)]) == (
        "Round 1: *knit 2, yo, k2tog; repeat from * to end.\n"
        "Round 2: *purl 2, knit 2; repeat from * to end."
    )


def test_what_is_repeated_within_a_repeat_is_said_once() -> None:
    page = pages(*charted("-.-.-.-.-.-.\n", {".": "k", "-": "p"}))["lace"]

    assert said([b for b in chart_blocks(page) if isinstance(b, ItemList)]) == (
        "Round 1: *knit 1, purl 1; repeat from * to end."
    )


@pytest.mark.parametrize(("cells", "repeated"), [(24, False), (12, True)])
def test_a_chart_as_wide_as_the_piece_has_no_repeat(cells: int, repeated: bool) -> None:
    line = "-" + "." * (cells - 1)
    page = pages(*charted(f"{line}\n", {".": "k", "-": "p"}))["lace"]
    words = said([b for b in chart_blocks(page) if isinstance(b, ItemList)])

    assert bool(page.spec.repeats) == ("*" in words) == repeated
    assert f"knit {cells - 1}, purl 1" in words


def test_a_flat_chart_says_on_the_wrong_side_what_to_work_there() -> None:
    source, files = charted("..--\n....\n", {".": "k", "-": "p"})
    page = pages(flat(source), files)["lace"]
    words = said([b for b in chart_blocks(page) if isinstance(b, ItemList)])

    assert "Row 1 (right side): *knit 4; repeat" in words
    assert "Row 2 (wrong side): *purl 2, knit 2; repeat" in words
    assert "knit on the right side, purl on the wrong side" in said(chart_blocks(page))


@pytest.mark.parametrize(
    ("stitch", "wrong_side"), [("k2tog", "p2tog"), ("ssk", "ssp"), ("kfb", "pfb"), ("yo", "yo")]
)
def test_decreases_and_increases_turn_to_purls_on_the_wrong_side(
    stitch: str, wrong_side: str
) -> None:
    """Which stitch looks alike from the other side: common practice, no source."""
    source, files = charted("..\n..\n", {".": "k", "x": stitch})
    key = pages(flat(source), files)["lace"].spec.key_of["x"]

    assert (key.said(), key.said(wrong_side=True)) == (stitch, wrong_side)


@pytest.mark.parametrize(("terms", "name"), [("US", "centered"), ("UK", "centred")])
def test_the_key_spells_as_the_pattern_does(terms: str, name: str) -> None:
    page = pages(*charted("..\n", {".": "k", "x": "cdd"}, terms=terms))["lace"]

    assert page.spec.key_of["x"].label == f"{name} double decrease"


def test_stitches_of_the_designers_own_have_symbols_of_their_own() -> None:
    own = {name: {"uses": 1, "makes": 1, "name": name * 3, "how": "So."} for name in ("aa", "bb")}
    legend = {".": "k", "-": "p", "a": "aa", "b": "bb"}
    page = pages(*charted(".a\n-b\n", legend, stitches=own))["lace"]

    symbols = [key.symbol for key in page.spec.keys]
    assert len(set(symbols)) == 4
    assert len({symbol_of(symbol).picture for symbol in symbols}) == 4


def test_a_purl_in_a_yarn_names_both_and_looks_like_no_yarn() -> None:
    legend = {".": "slate", "#": "foam", "-": {"yarn": "slate", "stitch": "p"}}
    source, files = charted(".#\n-#\n", legend, **TWO_YARNS)
    page = pages(source, files)["lace"]
    keys = page.spec.key_of

    assert (keys["-"].label, keys["-"].said()) == ("purl in Slate", "purl in Slate")
    assert keys["-"].colour == keys["."].colour
    pictures = {symbol_of(key.symbol).picture for key in page.spec.keys}
    assert len(pictures) == 3
    assert keys["#"].symbol == yarn_symbols(voice(source, files))["foam"]


def test_a_stitch_has_one_symbol_whatever_its_yarn_and_a_small_mark_of_the_yarn() -> None:
    legend = {
        ".": "slate",
        "#": "foam",
        "-": {"yarn": "slate", "stitch": "p"},
        "=": {"yarn": "foam", "stitch": "p"},
        "/": {"yarn": "foam", "stitch": "k2tog"},
    }
    source, files = charted("..-=/n..\n..-=....\n", legend | {"n": "no stitch"})
    source["yarns"] = TWO_YARNS["yarns"]
    keys = pages(source, files)["lace"].spec.key_of

    assert keys["-"].symbol == "purl"
    assert keys["="].symbol == marked("purl", keys["#"].symbol)
    assert symbol_of(keys["="].symbol).fills[: len(symbol_of("purl").fills)] == (
        symbol_of("purl").fills
    )
    assert keys["/"].symbol == "k2tog"  # in one yarn alone


OWN = {
    name: {"uses": 1, "makes": 1, "name": f"{name} stitch", "how": "So."}
    for name in ("crest", "eddy", "shoal", "reef")
}


def test_a_stitch_without_a_symbol_gets_a_mark_that_no_stitch_is_known_by() -> None:
    """Neither an empty cell, nor a dot or a ring, though no purl or yarn over is on the chart; and
    the same on every chart."""
    legend = {".": "k", "d": "cdd", "s": "s2kp", "c": "crest", "e": "eddy", "h": "shoal"}
    source, files = charted("d.s.cehh\n", legend)
    source["charts"]["other"] = source["charts"]["lace"] | {"legend": {"h": "shoal", ".": "k"}}
    source["charts"]["other"]["grid"] = "other.grid"
    own = {name: OWN[name] for name in ("crest", "eddy", "shoal")}
    own["crest"] = own["crest"] | {"symbol": "star"}
    source["pieces"]["cap"]["steps"].insert(2, {"chart": "other"})
    found = pages(source | {"stitches": own}, files | {"other.grid": "h...\n"})
    symbols = {character: key.symbol for character, key in found["lace"].spec.key_of.items()}

    assert symbols["c"] == "star"
    assert len(set(symbols.values())) == len(symbols)
    assert not {*LIKE_STITCHES}.intersection(symbols.values())
    assert symbol_of(symbols["d"]).name == "centred double decrease"
    assert found["other"].spec.key_of["h"].symbol == symbols["h"]


NO_STITCHES = ("no stitch", "bound off", *BEYOND)
"""Cells that no row could work over and over; charts that turn have tests of their own."""


def one_row(name: str) -> tuple[str, dict[str, str]]:
    """A line of 24 cells with one stitch, and what makes the count come out; its legend."""
    stitch = standard_book().named(name)
    gain = stitch.produces - stitch.consumes
    line = "x" * stitch.cells + "o" * -gain + "/" * gain
    uses = stitch.consumes + 2 * max(gain, 0)
    line += "." * (24 - uses)
    return line.ljust(24, "n"), {".": "k", "o": "yo", "/": "k2tog", "n": "no stitch", "x": name}


@pytest.mark.parametrize(
    "name",
    [
        *(s.id for s in standard_book().stitches if s.symbol and s.id not in NO_STITCHES),
        *("2/2 RC", "1/3 LC", "2/1 RPC", "3/2 LPC", "12/10 RC"),
    ],
)
def test_every_stitch_is_drawn_by_its_own_symbol_on_both_sides(name: str) -> None:
    line, legend = one_row(name)
    source, files = charted(f"{line}\n{line}\n", legend)
    page = pages(flat(source), files)["lace"]
    key, entry = page.spec.key_of["x"], standard_book().named(name)
    assert entry.symbol is not None

    assert (key.symbol, key.span) == (entry.symbol.name, entry.symbol.wide)
    assert symbol_of(key.symbol) == entry.symbol
    partner = standard_book().showing(entry, Side.WRONG)
    words = said([b for b in chart_blocks(page) if isinstance(b, ItemList)])
    told = partner.us.spoken.replace("{n}", "1") if partner.counted else partner.us.abbreviation
    assert told in words.split("Row 2 ")[1]


@pytest.mark.parametrize(
    ("stitch", "sides"),
    [
        ("sssk", ("sssk", "sssp")),
        ("k3tog", ("k3tog", "p3tog")),
        ("p3tog", ("p3tog", "k3tog")),
        ("kfb", ("kfb", "pfb")),
        ("pfb", ("pfb", "kfb")),
        ("cdd", ("cdd", "cddp")),
        ("sk2p", ("sk2p", "p2tog-pnso")),
        ("m1l", ("M1L", "M1LP")),
        ("sl", ("slip with yarn in back", "slip with yarn in front")),
        ("sl wyif", ("slip with yarn in front", "slip with yarn in back")),
        ("2/2 RC", ("2/2 RC", "2/2 RCW")),
    ],
)
def test_each_side_says_what_is_worked_there(stitch: str, sides: tuple[str, str]) -> None:
    line, legend = one_row(stitch)
    source, files = charted(f"{line}\n{line}\n", legend)
    key = pages(flat(source), files)["lace"].spec.key_of["x"]

    assert (key.said(), key.said(wrong_side=True)) == sides


def test_a_run_of_slipped_stitches_says_its_number_and_where_the_yarn_is() -> None:
    source, files = charted("vvv.\nvv..\n", {".": "k", "v": "sl"})
    words = said(chart_blocks(pages(flat(source), files)["lace"]))

    assert "Row 1 (right side): *knit 2, slip 2 with yarn in back; repeat" in words
    assert "Row 2 (wrong side): *slip 3 with yarn in front, purl 1; repeat" in words


def test_a_stitch_over_several_cells_needs_all_of_them() -> None:
    source, files = charted("cccc....\nccc.....\n", {".": "k", "c": "2/2 RC"})

    with pytest.raises(PatternError) as caught:
        pages(source, files)
    (finding,) = caught.value.findings
    assert finding.id == "chart.cells"
    assert finding.span
    assert (finding.span.line, finding.span.column) == (2, 1)
    assert "`cccc`" in finding.help


def test_a_designers_stitch_has_its_symbol_and_its_partners() -> None:
    own = {
        "knot": {
            "uses": 2,
            "makes": 2,
            "name": "harbour knot",
            "how": "So.",
            "symbol": "bobble",
            "wrong side": "tonk",
        },
        "tonk": {"uses": 2, "makes": 2, "name": "harbour knot, purled", "how": "So."},
    }
    source, files = charted("x......n\nx......n\n", {".": "k", "x": "knot", "n": "no stitch"})
    key = pages(flat(source | {"stitches": own}), files)["lace"].spec.key_of["x"]

    assert key.symbol == "bobble"
    assert (key.said(), key.said(wrong_side=True)) == ("knot", "tonk")


@pytest.mark.parametrize(
    ("more", "id", "help"),
    [
        ({"symbol": "bobbel"}, "row.stitch-symbol", "`star`"),
        ({"symbol": "purl"}, "row.stitch-symbol", "`square`"),
        ({"symbol": "ring"}, "row.stitch-symbol", "`star`"),
        ({"symbol": "cable 2/2 right"}, "row.stitch-symbol", "one cell"),
        ({"wrong side": "k2tog"}, "row.stitch-partner", "as many"),
        ({"mirror": "zzz"}, "row.stitch-partner", "declared"),
    ],
)
def test_a_partner_or_symbol_that_does_not_fit_is_refused(
    more: Mapping[str, str], id: str, help: str
) -> None:
    own = {"knot": {"uses": 2, "makes": 2, "name": "harbour knot", "how": "So."} | dict(more)}

    with pytest.raises(PatternError) as caught:
        plan_of(data([START, END], 1, stitches=own))
    (finding,) = caught.value.findings
    assert (finding.id, finding.span is not None) == (id, True)
    assert help in finding.help


# ---------------------------------------------------------------- one chart worked two ways


def test_a_chart_worked_round_and_flat_has_two_pages_and_steps_lead_to_the_right_one() -> None:
    source = data([START, {"chart": "waves"}, END], 2, **CHARTED)
    panel = {"title": "Panel", "worked": "flat", "steps": source["pieces"]["cap"]["steps"]}
    source["pieces"] = {**source["pieces"], "panel": panel}
    document, charts = built(source)

    assert [(page.id, page.spec.worked) for page in charts] == [
        ("waves", "round"),
        ("waves-2", "flat"),
    ]
    assert [page.spec.title for page in charts] == ["Waves", "Waves, worked in rows"]
    dumped = repr(document.blocks)
    assert "'#chart-waves'" in dumped
    assert "'#chart-waves-2'" in dumped


def test_a_chart_worked_by_two_steps_has_one_page() -> None:
    source = data([START, {"chart": "waves"}, {"chart": "waves"}, END], 2, **CHARTED)

    assert list(pages(source)) == ["waves"]


# ---------------------------------------------------------------- pictures on a tube


def test_a_mirrored_picture_shows_the_first_half_of_the_round() -> None:
    source, files = tube(BOAT, LEGEND, mirror=True)
    (plan, *_), page = plans_of(source, files), pages(source, files)["picture-cap"]

    assert page.spec.width == 12
    assert [line[::-1] for line in page.spec.rows] == [
        line[::-1][:12] for line in plan.colours.rounds[plan.first - 1 : plan.last]
    ]
    assert ["".join(line) for line in page.spec.rows] == [
        "".join(LEGEND[c] for c in line) for line in reversed(BOAT.split())
    ]
    assert [(marker.after, marker.label) for marker in page.spec.markers] == [
        (12, "mirror line"),
        (6, "middle of the front"),
    ]
    assert page.alt == "A boat on the sea. The back half mirrors it."


def test_an_unmirrored_picture_shows_the_whole_round() -> None:
    page = pages(*tube(BOAT, LEGEND))["picture-cap"]

    assert page.spec.width == 24
    assert [(marker.after, marker.label) for marker in page.spec.markers] == [
        *((0, "side"), (12, "side")),
        *((6, "middle of the front"), (18, "middle of the back")),
    ]
    assert page.alt == "A boat on the sea."


def test_the_mirrored_back_has_a_chart_of_its_own() -> None:
    """Its right-most stitch follows the last of the front, and it is the front turned round, each
    area with the number that it has there."""
    found = pages(*tube(BOAT, LEGEND, mirror=True))
    front, back = found["embroidery-cap"].spec, found["embroidery-cap-back"].spec

    assert [row[::-1] for row in back.rows] == list(front.rows)
    assert (front.place(1), back.place(1), back.place(12)) == (1, 13, 24)
    numbers = {tag.text for tag in front.tags} | {tag.text for tag in back.tags}
    assert numbers == {str(number) for number in range(1, len(numbers) + 1)}
    for spec in (front, back):
        for tag in spec.tags:
            assert spec.rows[tag.row - 1][-tag.stitch].startswith("+")


@pytest.mark.parametrize("mirror", [True, False])
def test_the_embroidery_chart_is_the_overlay_of_the_plan(mirror: bool) -> None:
    source, files = tube(BOAT, LEGEND, mirror=mirror)
    plan, page = plans_of(source, files)[0], pages(source, files)["embroidery-cap"]
    width = page.spec.width

    for number, row in enumerate(page.spec.rows, start=plan.first):
        overlay, base = plan.overlay[number - 1], plan.stripes.bases[number - 1]
        for stitch in range(1, width + 1):
            expected = overlay[-stitch]
            assert row[-stitch] == (f"+{expected}" if expected else base)
            if mirror:
                assert overlay[-stitch] == overlay[stitch - 1], "the other half"


def test_sizes_whose_stripes_differ_have_an_embroidery_chart_each() -> None:
    more = {
        "tube": {"visible": "visible", "brim": "3 cm"},
        "picture": {"chart": "boat", "start": 1, "ground": "slate", "above": "foam"},
        "colour plan": {"minutes per stitch": 0.5, "minutes per change": 30},
    }
    source, files = tube(BOAT, LEGEND, piece=more, measures={"visible": ["5.5 cm", "14 cm"]})
    plans, found = plans_of(source, files), pages(source, files)

    assert [each.sizes for each in stitchings("cap", plans)] == [(0,), (1,)]
    assert list(found) == ["picture-cap", "embroidery-cap", "embroidery-cap-2"]
    assert found["embroidery-cap"].spec.title == "Boat, what to embroider, size A"
    assert found["embroidery-cap-2"].spec.title == "Boat, what to embroider, size B"
    (band,) = bands(plans)[0]
    assert found["embroidery-cap"].spec.height == band.last - band.first + 1
    assert band.last == plans[0].tube.total_rounds, "foam above the picture is embroidered"
    document, _ = built(source, files)
    assert "embroidery chart for size A or the embroidery chart for size B" in said(document.blocks)


def test_a_yarn_has_the_same_symbol_in_all_charts() -> None:
    """The ground's cells are empty, and so it has a symbol only where it is embroidered."""
    _, _, charts = example("tube")
    picture, embroidery = (
        {key.said(): key.symbol for key in page.spec.keys if not key.label.endswith("knitted")}
        for page in charts
        if not page.id.endswith("-back")
    )

    assert {name for name in picture if picture[name] != embroidery[name]} == {"Slate"}
    assert picture["Slate"] == "blank"
    assert len(set(embroidery.values())) == 3
    assert "blank" not in embroidery.values()


def test_more_yarns_than_symbols_are_an_error_at_the_first_that_has_none() -> None:
    yarns = {f"y{i}": SLATE | {"name": f"Y{i}"} for i in range(17)}
    steps = [START, *({"work": "k all", "yarn": yarn} for yarn in yarns), END]

    with pytest.raises(PatternError) as caught:
        built(data(steps, 2, yarns=yarns))
    (finding,) = caught.value.findings
    assert finding.id == "symbol.too-few"
    assert finding.span is not None


# ---------------------------------------------------------------- on paper


def test_a_chart_wider_than_a_page_is_cut_into_parts_that_hold_every_stitch_once() -> None:
    line = ("." * 9 + "#") * 12
    page = pages(*tube(line + "\n" + line + "\n", TWO, 120))["picture-cap"]

    assert len(page.tiles) > 1
    held = [
        (row, stitch)
        for tile in page.tiles
        for row in range(tile.core.first_row, tile.core.last_row + 1)
        for stitch in range(tile.core.first_stitch, tile.core.last_stitch + 1)
    ]
    assert sorted(held) == [(row, stitch) for row in (1, 2) for stitch in range(1, 121)]
    for tile in page.tiles:
        assert tile.drawing.width <= USUALLY.width
        assert tile.drawing.height <= USUALLY.height


def test_a_chart_in_parts_opens_with_a_map_and_says_which_part_is_which() -> None:
    line = ("." * 9 + "#") * 12 + "\n"
    page = pages(*tube(line, TWO, 120))["picture-cap"]
    figures = [b for b in walk(chart_blocks(page)) if isinstance(b, Figure)]

    assert len(figures) == len(page.tiles) + 1
    assert printed(figures[0].caption) == "How they join"
    assert printed(figures[1].caption).startswith("Part 1 of ")


def test_a_small_chart_is_one_figure_without_caption() -> None:
    (page,) = example("cap")[2]
    figures = [b for b in walk(chart_blocks(page)) if isinstance(b, Figure)]

    assert len(figures) == 1
    assert figures[0].caption == ()
    assert figures[0].alt.startswith("Low light waves on a dark ground. Chart Waves: 8 stitches")


@pytest.mark.parametrize(
    ("columns", "rows", "beside"), [(24, 26, True), (40, 26, False), (24, 2, False)]
)
def test_a_chart_leaves_room_for_its_key_where_cells_stay_large_and_it_is_as_high(
    columns: int, rows: int, beside: bool
) -> None:
    """The key stands in the fourth of four columns, 43.75 mm with its gutter."""
    grid = "\n".join(".#" * (columns // 2) for _ in range(rows)) + "\n"
    chart = {"title": "Lace", "grid": "lace.grid", "legend": TWO, "alt": "Lace"}
    steps: Steps = [{"cast on": columns}, {"chart": "lace"}, END]
    source = data(steps, 2, charts={"lace": chart}, **TWO_YARNS)
    (page,) = pages(source, {"lace.grid": grid}).values()
    (tile,) = page.tiles
    assert (tile.drawing.width <= 170 - 43.75) == beside


def test_every_chart_has_its_heading_its_key_and_its_rows() -> None:
    """But for the picture that is embroidered: it is only looked at, and has no rows in words."""
    assert [page.worked for page in example("tube")[2]] == [False, True, True]
    for page in example("tube")[2]:
        blocks = chart_blocks(page)
        headings = [(b.level, b.id) for b in blocks if isinstance(b, Heading)]
        (key,) = (b for b in blocks if isinstance(b, DefinitionList))

        assert headings == [(3, f"chart-{page.id}"), *([(4, "")] if page.worked else [])]
        (drawn,) = (b for b in blocks if isinstance(b, Figure))
        assert page.worked == ("The same in words: below." in drawn.alt)
        assert [printed(e.term) for e in key.entries] == [k.label for k in page.spec.used_keys]


def test_a_chart_that_is_not_repeated_has_no_box() -> None:
    source, files = charted("....\n", {".": "k"})
    assert len(pages(source, files)["lace"].spec.repeats) == 1
    source["charts"]["lace"]["repeats"] = False
    assert pages(source, files)["lace"].spec.repeats == ()


def test_a_pattern_without_charts_has_no_chart_section() -> None:
    document, charts = built(data([START, END]))

    assert charts == ()
    assert "charts" not in [b.id for b in document.blocks if isinstance(b, Heading)]


def test_directions_for_the_drawing_stand_before_it_and_not_with_the_words() -> None:
    _, _, charts = example("cap")
    for page in charts:
        blocks = chart_blocks(page)
        places = [n for n, b in enumerate(blocks) if isinstance(b, Figure)]
        told = [n for n, b in enumerate(blocks) if "In the drawing, start" in said([b])]

        assert told == [min(places) - 1]


def chart_files(rounds: int) -> dict[str, ElementTree.Element]:
    grid = "\n".join(["..##....", ".#..#..#"] * (rounds // 2)) + "\n"
    source = data([{"cast on": "n"}, {"chart": "waves"}, {"gather": "all"}], **CHARTED)
    outputs = build_pattern(files_of(source, {"waves.grid": grid}), "pattern.yaml", "cap").files
    return {
        name: ElementTree.fromstring(content)
        for name, content in outputs.items()
        if name.endswith(".svg")
    }


def test_chart_files_of_one_page_have_ids_titles_and_names_of_their_own() -> None:
    """Several stand on one web page: each is named by its own title, in the order of its file."""
    found = chart_files(600)
    assert len(found) > 9
    titles = [root[0].text for root in found.values()]
    assert len(set(titles)) == len(found)
    assert len({each.attrib["id"] for root in found.values() for each in root[:2]}) == 2 * len(
        found
    )
    pieces = [name for name in found if name[-5].isdigit()]
    assert sorted(pieces) == pieces
    for number, name in enumerate(pieces, start=1):
        assert f"part {number} of {len(pieces)}: rounds" in str(found[name][0].text)


@pytest.mark.parametrize("rounds", [4, 200])
def test_a_chart_file_says_nothing_of_what_is_only_in_the_document(rounds: int) -> None:
    for name, root in chart_files(rounds).items():
        words = str(root[1].text)
        assert "below" not in words
        assert "The same in words" not in words
        assert ("The whole chart: " in words) == name[-5].isdigit()


def test_every_yarn_of_an_embroidery_chart_has_a_symbol_of_its_own() -> None:
    """Knitted or embroidered, no two look alike without their colours: WCAG 2.2, 1.4.1."""
    folder = DiskFiles(str(Path(__file__).parents[2] / "patterns" / "harbour-light-hat"))
    charts = chart_pages(voice_of(plan_pattern(folder, SOURCE_NAME, "hat")))
    found = [page for page in charts if page.id.startswith("embroidery")]
    assert found
    for page in found:
        marks = [symbol_of(key.symbol) for key in page.spec.used_keys]
        assert len({(mark.strokes, mark.fills) for mark in marks}) == len(marks) > 6
        assert len({mark.picture for mark in marks}) == len(marks)


@pytest.mark.parametrize("in_words", [False, True])
def test_how_charts_are_read_and_crossed_is_told_where_they_begin(in_words: bool) -> None:
    """Crosses that a row tells in words too are explained among all techniques."""
    source, files = charted("xxxx\n", {"x": "2/2 RC"})
    if in_words:
        steps = next(iter(source["pieces"].values()))["steps"]
        steps.insert(-1, {"work": "*2/2 RC; repeat from * to end"})
    document, _ = built(source, files)
    titles = [said([b]) for b in document.blocks if isinstance(b, Heading)]

    charts, techniques = titles.index("Charts"), titles.index("Techniques")
    assert titles[charts + 1].startswith("Reading a chart")
    assert (titles.index("Crossing stitches") < techniques) is not in_words
