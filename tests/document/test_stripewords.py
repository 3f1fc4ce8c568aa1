"""The tube in words: its counter table, what the stripes save, and the embroidery."""

import re
from collections import Counter
from collections.abc import Mapping
from typing import Any

import pytest

from bindoff.document.areas import bands
from bindoff.document.piecepages import piece_blocks
from bindoff.document.tree import Blocks, Heading, ItemList, Link
from bindoff.document.voice import voice_of
from bindoff.plan.picture import PicturePlan
from bindoff.plan.plan import Plan
from bindoff.plan.steps.stripes import Striped
from bindoff.plan.tube import TubePart
from tests.document.patterns import (
    BOAT,
    Data,
    built,
    cells,
    for_size,
    inlines_of,
    plan_of,
    said,
    tables,
    tube,
    walk,
)

SEA = """\
............
..#.....#...
oooooooooooo
oo###ooooooo
oooooo##oooo
oooooooooooo
............
"""
"""Four rounds of rust (o) with some foam (#), on slate."""

LEGEND = {".": "slate", "#": "foam", "o": "rust"}
CHEAP = {"colour plan": {"minutes per stitch": 0.5, "minutes per change": 5}}


def sea(**changes: Any) -> tuple[Data, Mapping[str, str]]:
    """A tube of three gauges with a stripe of sea."""
    gauges = [
        {"stitches": s, "rounds": r, "over": "10 cm"} for s, r in ((11, 15), (10, 14), (9, 12))
    ]
    sizes = {f"{i}": {"head": "56 cm", "gauge": gauge} for i, gauge in enumerate(gauges, start=1)}
    return tube(SEA, LEGEND, piece=CHEAP, **({"sizes": sizes} | changes))


def pictures(plan: Plan) -> tuple[PicturePlan, ...]:
    """The tubes of all sizes."""
    return next(
        step.detail.plans for step in plan.pieces[0].steps if isinstance(step.detail, Striped)
    )


def piece(source: Data, files: Mapping[str, str]) -> tuple[tuple[PicturePlan, ...], Blocks]:
    """The plans of the only piece and its blocks."""
    plan = plan_of(source, files)
    return pictures(plan), piece_blocks(voice_of(plan), plan.pieces[0])


# ---------------------------------------------------------------- the counter table


def test_the_counter_table_stops_where_the_plan_changes_yarn_in_every_size() -> None:
    plans, blocks = piece(*sea())
    (table,) = tables(blocks, "Counter table")
    rows = cells(table)
    names = {"slate": "Slate", "foam": "Foam", "rust": "Rust"}

    assert len(plans) == 3
    for size, plan in enumerate(plans):
        stops = [(row[0], int(row[1 + size])) for row in rows]
        changes = [stop for stop in stops if stop[0].startswith("Cut") and "waste" not in stop[0]]
        bases = plan.stripes.bases
        turns = [n for n in range(1, len(bases)) if bases[n] != bases[n - 1]]
        assert changes == [(f"Cut {names[bases[n - 1]]}, join {names[bases[n]]}", n) for n in turns]
        assert len(changes) == 2
        fold = dict(stops)["Fold line; mark this round"]
        assert fold == sum(
            s.last - s.first + 1 for s in plan.tube.segments[: len(plan.tube.segments) // 2]
        )
        cut = "Mark this round, cut Slate, leaving a long tail, join waste yarn"
        assert stops[-1] == (cut, plan.tube.total_rounds)
        assert [count for _, count in stops] == sorted(count for _, count in stops)


def test_the_stripe_table_is_looked_at_as_a_whole_and_counters_are_ticked_off() -> None:
    _, blocks = piece(*sea())

    assert [table.whole for table in tables(blocks, "Stripes")] == [True]
    assert [table.tick for table in tables(blocks, "Counter table")] == [True]


def test_the_stripe_table_tells_every_round_of_every_size_once() -> None:
    plans, blocks = piece(*sea())
    (table,) = tables(blocks, "Stripes")
    names = {"slate": "Slate", "foam": "Foam", "rust": "Rust"}

    for size, plan in enumerate(plans):
        told: list[str] = []
        for row in cells(table):
            first, _, last = row[1 + size].partition("–")
            told += [row[0]] * (int(last or first) - int(first) + 1)
        assert told == [names[base] for base in plan.stripes.bases]


def test_the_marked_rounds_are_where_the_parts_of_the_tube_meet() -> None:
    plans, blocks = piece(*sea())
    (table,) = tables(blocks, "Counter table")
    stops = {row[0]: row[1:] for row in cells(table)}

    for name, part in (
        ("Lining ends, brim starts", TubePart.LINING),
        ("Brim ends, to be turned up here", TubePart.OUTER_BRIM),
    ):
        ends = [segment.last for plan in plans if (segment := plan.tube.segment(part))]
        assert stops[f"{name}; mark this round"] == [str(end) for end in ends]


def test_a_tube_without_brim_marks_its_fold_line_and_nothing_of_a_brim() -> None:
    source, files = tube(SEA, LEGEND, piece=CHEAP | {"tube": {"visible": "12 cm"}})
    plans, blocks = piece(source, files)
    (table,) = tables(blocks, "Counter table")

    assert "brim" not in said(blocks).lower()
    assert ["Fold line; mark this round", str(plans[0].tube.fold_after)] in [
        row[:2] for row in cells(table)
    ]


def test_sizes_whose_events_differ_get_a_table_each() -> None:
    """Where the ground above the picture is short, it is embroidered; where it is long, knitted."""
    changes = {"visible": "visible", "brim": "3 cm"}
    picture = {"chart": "boat", "start": 1, "ground": "slate", "above": "foam"}
    plan = {"minutes per stitch": 0.5, "minutes per change": 30}
    more = {"tube": changes, "picture": picture, "colour plan": plan}
    source, files = tube(BOAT, LEGEND, piece=more, measures={"visible": ["5.5 cm", "14 cm"]})
    plans, blocks = piece(source, files)

    assert [len(each.stripes.changes) for each in plans] == [0, 1]
    assert len(tables(blocks, "Counter table")) == 2
    assert len(tables(blocks, "Stripes, size")) == 2
    first, second = tables(blocks, "Counter table")
    assert "size A" in said([first])
    assert "Cut Slate, join Foam" in said([second])
    for each in plans:
        shown = [range(band.first, band.last + 1) for band in bands((each,))[0]]
        outside = [
            row for n, row in enumerate(each.overlay, 1) if not any(n in rounds for rounds in shown)
        ]
        assert not any(yarn for row in outside for yarn in row)


@pytest.mark.parametrize(("needles", "words"), [
    (24, "Mark needle 1, where every round starts, and needle 13, half a round on"),
    (12, "and needle 7, half a round on"),
])  # fmt: skip
def test_the_half_rounds_are_marked(needles: int, words: str) -> None:
    _, blocks = piece(*tube(BOAT, LEGEND, needles))

    assert words in said(blocks)


def test_an_odd_number_of_needles_has_one_mark() -> None:
    _, blocks = piece(*tube("." * 10 + "#o.\n", LEGEND, 13))

    assert "Mark needle 1, where every round starts." in said(blocks)
    assert "half a round on" not in said(blocks)


def test_tails_are_left_only_where_they_close_the_tube() -> None:
    source, files = tube(SEA, LEGEND, piece=CHEAP)
    steps = [{"stripes": "from plan"}, {"embroider": "from plan"}, {"bind off": "all"}]
    _, gathered = piece(source, files)
    _, open_ = piece(*tube(SEA, LEGEND, piece=CHEAP | {"steps": steps}))

    tail = "leaving a long tail, about twice the way around the tube and 15 cm / 6 in more, and set"
    assert tail in said(gathered)
    assert said(gathered).count("leaving a long tail") == 2
    assert "and the long tails that close the tube 2." in said(gathered)
    assert "the long tail" not in said(open_)
    assert "long tail" not in said(open_)


def test_a_tube_grafted_to_its_start_keeps_a_tail_at_its_end_alone() -> None:
    steps = [{"stripes": "from plan"}, {"embroider": "from plan"}, {"join": "start"}]
    _, blocks = piece(*tube(SEA, LEGEND, piece=CHEAP | {"steps": steps}))

    assert said(blocks).count("leaving a long tail") == 1
    tail = "A long tail is about four times the way around the tube and 15 cm / 6 in more."
    assert tail in said(blocks)
    assert said(blocks).index(tail) < said(blocks).index("Counter table")
    assert "open loops of the first round: take the waste yarn out as you go." in said(blocks)


def test_loops_that_mark_a_tube_are_taken_out_once() -> None:
    """In the finishing text where there is one, else in the last step, and not where the designer
    says so."""
    out = "Take out the loops of waste yarn that mark the tube."
    last = said(piece(*sea())[1]).split("\n")[-1]
    source, files = sea(finishing="Wash it.")
    document, _ = built(source, files)

    assert last == out
    assert out not in said(piece(source, files)[1])
    assert said(document.blocks).count(out) == 1
    told, files = sea(finishing="Wash it. Remove the markers.")
    assert out not in said(built(told, files)[0].blocks)


def test_the_cautions_are_named_before_the_first_step_at_the_machine() -> None:
    _, blocks = piece(*sea())
    (first, *_) = [block for block in blocks if isinstance(block, ItemList)]

    assert said(first.items[0].blocks).startswith(
        "First read the cautions for the machine under Safety."
    )


# ---------------------------------------------------------------- rounds in two yarns

DOTS = """\
............
.#..#..#..#.
............
.o..........
............
"""
STRANDED = {"minutes per stitch": 0.5, "minutes per change": 1, "stranded": "laid in by hand"}


def test_the_rounds_in_two_yarns_are_those_of_the_plan() -> None:
    plans, blocks = piece(*tube(DOTS, LEGEND, 24, 2, piece={"colour plan": STRANDED}))
    stranded = [n for n, second in enumerate(plans[0].stripes.seconds, start=1) if second]

    assert len(stranded) == 1
    assert f"Rounds to knit in two yarns: {stranded[0]}. " in said(blocks)
    assert "in the yarn that the embroidery chart shows as knitted." in said(blocks)


def test_without_embroidery_the_picture_shows_the_two_yarns() -> None:
    grid = DOTS.replace("o", ".")
    legend = {".": "slate", "#": "foam"}
    source, files = tube(grid, legend, 24, 2, piece={"colour plan": STRANDED})
    plans, blocks = piece(source, files)
    document, charts = built(source, files)

    assert not any(any(row) for row in plans[0].overlay)
    assert "in the yarn that the picture chart shows them." in said(blocks)
    assert [page.id for page in charts] == ["picture-cap"]
    assert "'#chart-picture-cap'" in repr(document.blocks)


def test_a_tube_in_single_yarns_says_nothing_of_two() -> None:
    assert "two yarns" not in said(piece(*tube(DOTS, LEGEND))[1])


# ---------------------------------------------------------------- what is saved


def test_the_saving_is_what_counting_the_picture_says() -> None:
    plans, blocks = piece(*sea())
    words = next(
        words for words in inlines_of(blocks) if "to embroider. That is" in for_size(words, 0)
    )
    for size, plan in enumerate(plans):
        text = for_size(words, size)
        found = re.search(r"leaves (\d+) stitches.* is (\d+) fewer.* than .* in (\w+) alone", text)
        assert found
        cells_ = [yarn for row in plan.colours.rounds for yarn in row]
        single = len(cells_) - Counter(cells_)[found[3].lower()]
        left = sum(
            yarn != base
            for row, base in zip(plan.colours.rounds, plan.stripes.bases, strict=True)
            for yarn in row
        )
        assert (int(found[1]), int(found[2])) == (left, single - left)


def test_a_picture_that_no_stripe_helps_claims_no_saving() -> None:
    _, blocks = piece(*tube(BOAT, LEGEND))

    assert "Knitted in these stripes, the tube leaves 38 stitches to embroider." in said(blocks)
    assert "fewer" not in said(blocks)


def test_less_stitches_for_no_less_time_are_not_called_less_work() -> None:
    plan = {"minutes per stitch": 0.5, "minutes per change": 20}
    plans, blocks = piece(*tube(SEA, LEGEND, piece={"colour plan": plan}))

    assert 0 <= plans[0].stripes.minutes_saved < 10
    assert plans[0].stripes.stitches_saved > 0
    assert "fewer than on a tube knitted in Slate alone." in said(blocks)
    assert "less work" not in said(blocks)


@pytest.mark.parametrize(
    ("plan", "words"),
    [
        (
            {"minutes per stitch": 0.5, "minutes per change": 5},
            "less work at half a minute a stitch and 5 minutes a change of yarn.",
        ),
        (
            {"minutes per stitch": 1, "minutes per change": 2.5},
            "less work at a minute a stitch and 2.5 minutes a change of yarn.",
        ),
        ({}, ""),
        ({"minutes per stitch": 0.5}, ""),
    ],
)
def test_time_is_told_at_the_pace_the_designer_set_or_not_at_all(
    plan: dict[str, float], words: str
) -> None:
    """The sea in 96 stitches, so that even at our own pace stripes would spare over 10 minutes."""
    grid = "\n".join(line * 8 for line in SEA.split()) + "\n"
    plans, blocks = piece(*tube(grid, LEGEND, needles=96, piece={"colour plan": plan}))

    assert min(each.stripes.minutes_saved for each in plans) > 10
    assert "fewer than on a tube knitted in Slate alone" in said(blocks)
    assert words in said(blocks)
    assert ("less work" in said(blocks)) == bool(words)


def test_a_picture_of_stripes_alone_leaves_nothing_to_embroider() -> None:
    grid = "............\noooooooooooo\noooooooooooo\n"
    source, files = tube(grid, {".": "slate", "o": "rust"}, piece=CHEAP)
    plans, blocks = piece(source, files)
    document, charts = built(source, files)

    assert "The stripes show the whole picture; nothing is left to embroider." in said(blocks)
    assert tables(blocks, "Embroidery") == []
    assert [page.id for page in charts] == ["picture-cap"]
    assert "duplicate" not in said(b for b in document.blocks if isinstance(b, Heading)).lower()
    assert len(plans) == 2


def test_a_tube_of_one_yarn_is_knitted_through() -> None:
    _, blocks = piece(*tube("....\n....\n", {".": "slate"}))
    (table,) = tables(blocks, "Counter table")

    assert [row[0] for row in cells(table)] == [
        "Mark this round",
        "Lining ends, brim starts; mark this round",
        "Fold line; mark this round",
        "Brim ends, to be turned up here; mark this round",
        "Mark this round, cut Slate, leaving a long tail, join waste yarn",
    ]


# ---------------------------------------------------------------- embroidery


@pytest.mark.parametrize("mirror", [True, False])
def test_the_tables_add_up_to_what_the_plan_embroiders(mirror: bool) -> None:
    plans, blocks = piece(*tube(BOAT, LEGEND, mirror=mirror))
    (by_yarn,) = tables(blocks, "Embroidery by yarn")
    (areas,) = tables(blocks, "Areas in working order")
    embroidered = Counter(yarn for row in plans[0].overlay for yarn in row if yarn)

    assert {row[0].lower(): int(row[2]) for row in cells(by_yarn)} == embroidered
    of_areas: Counter[str] = Counter()
    for row in cells(areas):
        twice = mirror and row[5] != "–"
        first, last = (row[0].split("–") * 2)[:2]
        stitches = int(row[4].removesuffix(" each")) * (int(last) - int(first) + 1)
        of_areas[row[1].lower()] += stitches * (2 if twice else 1)
    assert of_areas == embroidered


@pytest.mark.parametrize("mirror", [True, False])
def test_every_area_starts_on_a_stitch_of_its_yarn_and_so_does_its_mirror_image(
    mirror: bool,
) -> None:
    plans, blocks = piece(*tube(BOAT, LEGEND, mirror=mirror))
    (areas,) = tables(blocks, "Areas in working order")
    plan = plans[0]
    first = bands((plan,))[0][0].first

    def at(round_: int, stitch: int) -> str | None:
        """Stitch 1 is the right-most of a row."""
        return plan.overlay[first + round_ - 2][-stitch]

    for row in cells(areas):
        lowest = int(row[2].partition("–")[0])
        stitches = [int(each) for each in re.findall(r"\d+", row[3])]
        assert stitches
        assert all(at(lowest, each) == row[1].lower() for each in stitches)
        if mirror and row[5] != "–":
            images = [int(each) for each in re.findall(r"\d+", row[5])]
            for stitch, again in zip(stitches, images, strict=True):
                assert again + stitch == plan.tube.needles + 1, "as far from the mirror line"
                assert at(lowest, again) == row[1].lower()
    assert ("Mirrored at" in said([areas])) == mirror


def test_the_picture_starts_at_the_round_the_words_name() -> None:
    plans, blocks = piece(*sea())
    words = next(w for w in inlines_of(blocks) if "Round 1 of the chart" in for_size(w, 0))

    for size, plan in enumerate(plans):
        first = bands((plan,))[0][0].first
        assert f"is round {first} of the tube." in for_size(words, size)
        assert plan.colours.rounds[first - 1][0] == "slate"


def test_a_mirrored_picture_says_where_its_first_and_last_stitch_come_again() -> None:
    _, blocks = piece(*tube(BOAT, LEGEND, mirror=True))

    assert (
        "The back mirrors it, and the chart after it shows that: stitch 1 comes again at stitch "
        "24, and stitch 12 at stitch 13." in said(blocks)
    )
    _, plain = piece(*tube(BOAT, LEGEND))
    assert "mirror" not in said(plain)


def test_thread_is_in_yards_where_only_those_are_printed() -> None:
    metric = tables(piece(*tube(BOAT, LEGEND, units="metric"))[1], "Embroidery by yarn")[0]
    imperial = tables(piece(*tube(BOAT, LEGEND, units="imperial"))[1], "Embroidery by yarn")[0]

    assert "Thread, m" in said([metric])
    assert "Thread, yd" in said([imperial])
    for metres, yards in zip(cells(metric), cells(imperial), strict=True):
        assert float(metres[4]) <= float(yards[4]) <= float(metres[4]) / 0.9144 + 0.1


def test_every_embroidery_chart_named_in_a_step_is_there() -> None:
    source, files = tube(BOAT, LEGEND, mirror=True)
    document, _ = built(source, files)
    items = [b for b in walk(document.blocks) if isinstance(b, ItemList)]
    links = {
        node.target.removeprefix("#")
        for each in items
        for words in inlines_of([each])
        for node in words
        if isinstance(node, Link)
    }

    assert "chart-embroidery-cap" in links
    assert links <= {b.id for b in document.blocks if isinstance(b, Heading)}
