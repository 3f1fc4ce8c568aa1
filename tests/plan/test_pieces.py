"""Pieces worked in every size: worked examples, published counts, and a second way to knit them."""

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.rowwords import words
from bindoff.document.tree import plain
from bindoff.plan.bench import Bench
from bindoff.plan.chartpass import chart_rows
from bindoff.plan.chartproof import lines_of
from bindoff.plan.plan import Plan, crown_starts, make_plan
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.steps.even import Even
from bindoff.plan.steps.pick_up import PickUp
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.steps.work import Rows
from bindoff.plan.stitchpatterns import Patterns
from bindoff.plan.worked import ChartRows, ChartWork, StepPlan
from bindoff.source.onesize import one_size
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Repeat, Row, Work
from tests.plan.naive_knitting import worked
from tests.small_patterns import CAP, FLAP, HEAD, TUBE, changed, faults_of, plan_of, source_of


def steps_of(plan: Plan, key: str = "cap") -> tuple[StepPlan, ...]:
    return tuple(step for step in plan.piece(key).steps if step.detail is not None)


def stitches(plan: Plan, size: int, key: str = "cap") -> list[int]:
    """Live stitches after each worked step of one size."""
    return [step.after[size].stitches for step in steps_of(plan, key)]


def rounds(plan: Plan, size: int, key: str = "cap") -> list[int]:
    """Rounds of each worked step of one size."""
    return [step.rounds[size] for step in steps_of(plan, key)]


def printed(plan: Plan, row: Row) -> str:
    """The row as the page has it, for a row without per-size numbers."""
    return plain(words(row, {}, Terms.US, plan.book))


def with_steps(steps: str, base: str = CAP) -> str:
    head, _, _ = base.partition("    steps:\n")
    return changed(head, ('"#": foam', '"#": slate'), FOAM) + "    steps:\n" + steps


FOAM = (
    '  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n',
    "",
)


# ---------------------------------------------------------------- worked examples by hand


def test_a_cap_by_hand() -> None:
    """20 stitches and 28 rounds on 10 cm, 95 % of the head, a multiple of 8.

    S: 49.4 cm are 98.8 stitches, so 96; 20 cm are 56 rounds. M: 53.2 cm are 106.4, so 104; 21 cm
    are 58.8, so 59. Crown: S loses 88 stitches in 11 rounds, M 96 in 12; the last third of S's, 3,
    are worked in every round, those before in every other.
    """
    plan = plan_of(CAP)

    assert stitches(plan, 0) == [96, 96, 96, 96, 8, 0]
    assert stitches(plan, 1) == [104, 104, 104, 104, 8, 0]
    assert rounds(plan, 0) == [0, 8, 4, 26, 11 + 8, 0]
    assert rounds(plan, 1) == [0, 8, 4, 29, 12 + 9, 0]
    assert plan.piece("cap").rounds == (57, 62)


def test_a_flap_by_hand() -> None:
    """20 to 10 stitches, 2 less in a row, are 5 shaping rows in 20; 24 to 12 are 6."""
    plan = plan_of(FLAP)
    taper = steps_of(plan, "flap")[1].detail

    assert isinstance(taper, Tapered)
    assert [each.intervals for each in taper.tapers] == [(4,) * 5, (2, 2, 4, 4, 4, 4)]
    assert stitches(plan, 0, "flap") == [20, 10, 0]
    assert stitches(plan, 1, "flap") == [24, 12, 0]


MITTEN = (
    HEAD
    + """\
gauge: {stitches: 22, rounds: 30}
yarns:
  slate: {name: Slate, colour: "#46566b", weight: 3, ball: 50 g = 120 m}
sizes:
  M: {hand: 20 cm, hand length: 18.5 cm}
measures:
  hand_stitches: stitches(hand + 1.5 cm, multiple = 4)
  half: hand_stitches / 2
  gusset: nearest(hand_stitches * 34 %, 2) + 1
finished:
  Around: width(hand_stitches)
pieces:
  mitten:
    title: Mitten
    make: 2
    steps:
      - cast on: hand_stitches - 4
      - work: "*k1, p1; repeat from * to end"
        rounds: rounds(5 cm)
      - even: increase
        to: hand_stitches
      - work: "k{half}, pm, m1l, pm, k to end"
      - taper: "k to marker, sm, m1r, k to marker, m1l, sm, k to end"
        to: hand_stitches + gusset
        over: rounds(hand_length * 30 %) - 1
      - work: "k to marker, remove marker, hold {gusset} stitches, remove marker, k to end"
      - work: k all
        rounds: 28
      - work: "k{half}, pm, k to end"
      - taper: "k1, ssk, k to 3 before marker, k2tog, k1, sm, k1, ssk, k to last 3, k2tog, k1"
        to: 8
        over: 10
      - gather: all
      - held: gusset
        pick up: 3
      - work: k all
        rounds: 16
      - work: "*k2tog; repeat from * to end"
      - gather: all
"""
)


def test_a_mitten_by_hand() -> None:
    """21.5 cm at 22 stitches on 10 cm are 47.3, so 48. A third of it, odd, is 17 for the thumb:
    1 and 8 times 2. 30 % of the hand are 5.55 cm, 16.65 rounds, so 17 with the first."""
    plan = plan_of(MITTEN)

    assert stitches(plan, 0, "mitten") == [
        44, 44, 48, 49, 65, 48, 48, 48, 8, 0, 20, 20, 10, 0,
    ]  # fmt: skip
    assert rounds(plan, 0, "mitten") == [0, 15, 1, 1, 16, 1, 28, 1, 10, 0, 0, 16, 1, 0]
    thumb = steps_of(plan, "mitten")[10].detail
    assert thumb == PickUp((17,), (3,))


# ---------------------------------------------------------------- published counts


def test_a_published_crown() -> None:
    """88 stitches in 8 wedges: (k9, k2tog), (k8, k2tog) … (k2tog) leave 80, 72 … 8.

    Printed so in a hat pattern that the list of trade figures quotes (S85); the counts are sums.
    """
    plan = plan_of(
        changed(
            CAP,
            ("stitches(around, multiple = 8)", "88"),
            ("to: 8\n", "to: 8\n        pace: every\n"),
        )
    )
    crown = steps_of(plan)[4]

    assert isinstance(crown.detail, Crowned)
    texts = [printed(plan, row) for row in crown.detail.rows]
    live, counts = 88, []
    for text in texts:
        live = worked(text, live)
        counts.append(live)
    assert counts == [80, 72, 64, 56, 48, 40, 32, 24, 16, 8]
    assert texts[0] == "*K9, k2tog; repeat from * to end."
    assert texts[-1] == "*K2tog; repeat from * to end."
    assert crown.rounds == (10, 10)


@pytest.mark.parametrize(
    ("before", "after", "groups"),
    [
        (100, 110, {10: 10}),  # every 10th
        (100, 111, {9: 10, 10: 1}),  # every 9th ten times, every 10th once
        (48, 54, {8: 6}),
    ],
)
def test_published_increases_in_the_round(
    before: int, after: int, groups: Mapping[int, int]
) -> None:
    """Worked answers of a teaching page on even shaping (S79, S83 in the list of figures)."""
    plan = plan_of(
        with_steps(
            f"      - cast on: {before}\n      - even: increase\n        to: {after}\n"
            "      - bind off: all\n"
        )
    )
    even = steps_of(plan)[1]

    assert isinstance(even.detail, Even)
    row = even.detail.rows[0]
    assert row is not None
    text = printed(plan, row)
    assert worked(text, before) == after
    assert _groups(text, before) == groups
    assert even.rounds == (1, 1)


def _groups(text: str, live: int) -> dict[int, int]:
    """How many stitches lie before each m1, by working the printed words."""
    flat = text.lower().rstrip(".")
    while found := re.search(r"\[([^]]*)\] (?:(\d+) times|twice)", flat):
        flat = flat.replace(found[0], ", ".join([found[1]] * int(found[2] or 2)), 1)
    if repeat := re.fullmatch(r"\*(.*); repeat from \* to end", flat):
        once = sum(int(n) for n in re.findall(r"k(\d+)", repeat[1]))
        flat = ", ".join([repeat[1]] * (live // once))
    found_groups: dict[int, int] = {}
    for count in re.findall(r"k(\d+), m1", flat):
        found_groups[int(count)] = found_groups.get(int(count), 0) + 1
    return found_groups


def test_a_published_sleeve() -> None:
    """62 to 46 stitches: 16 stitches are 8 pairs (S87); over 78 rounds every 9th twice and every
    10th 6 times, which is 78."""
    plan = plan_of(
        with_steps(
            "      - cast on: 62\n"
            '      - taper: "k1, k2tog, k to last 3, ssk, k1"\n'
            "        to: 46\n        over: 78\n"
            "      - bind off: all\n"
        )
    )
    sleeve = steps_of(plan)[1]

    assert isinstance(sleeve.detail, Tapered)
    taper = sleeve.detail.tapers[0]
    assert [(run.group, run.times) for run in taper.runs] == [(9, 2), (10, 6)]
    assert sleeve.rounds == (78, 78)
    assert sleeve.after[0].stitches == 46


# ---------------------------------------------------------------- rules of steps


def test_flat_shaping_falls_on_right_side_rows() -> None:
    """Row 1 is a right-side row, so the shaped rows are odd."""
    plan = plan_of(FLAP)
    taper = steps_of(plan, "flap")[1].detail

    assert isinstance(taper, Tapered)
    for each in taper.tapers:
        assert all(row % 2 == 1 for row in each.shaping_rounds("first"))


def test_a_flat_taper_takes_its_stitches_in_the_shaped_rows() -> None:
    """Every row of the plan, against the printed intervals: 20, 18 after rows 1, 5, 9 …"""
    plan = plan_of(FLAP)
    loops = [sum(count for _, count in row) for row in steps_of(plan, "flap")[1].worked[0]]

    assert loops == [18] * 4 + [16] * 4 + [14] * 4 + [12] * 4 + [10] * 4


def test_a_list_of_rows_is_worked_in_turn() -> None:
    rows = '      - work: ["k all", "p all"]\n        {}\n'
    begin, end = "      - cast on: 20\n", "      - bind off: all\n"

    for how, count in (("rounds: 7", 7), ("times: 3", 6), ("note: once", 2)):
        plan = plan_of(with_steps(begin + rows.format(how) + end))
        detail = steps_of(plan)[1].detail
        assert isinstance(detail, Rows)
        assert detail.rounds == (count, count)
        assert steps_of(plan)[1].rounds == (count, count)


def test_no_shaping_where_a_size_has_its_count_already() -> None:
    plan = plan_of(
        with_steps(
            "      - cast on: [20, 24]\n      - even: increase\n        to: 24\n"
            "      - bind off: all\n"
        )
    )
    even = steps_of(plan)[1]

    assert isinstance(even.detail, Even)
    assert even.detail.rows[1] is None
    assert even.rounds == (1, 0)


@pytest.mark.parametrize(
    ("direction", "stitch", "target"),
    [
        ("increase", "m1l", 26),
        ("increase", "yo", 26),
        ("increase", "kfb", 26),
        ("decrease", "ssk", 14),
        ("decrease", "p2tog", 14),
    ],
)
@pytest.mark.parametrize("how", ["round", "flat"])
def test_even_shaping_with_the_stitch_that_is_named(
    direction: str, stitch: str, target: int, how: str
) -> None:
    text = with_steps(
        f"      - cast on: 20\n      - even: {direction}\n        to: {target}\n"
        f"        with: {stitch}\n      - bind off: all\n"
    )
    plan = plan_of(changed(text, ("    title: Cap\n", f"    title: Cap\n    worked: {how}\n")))
    even = steps_of(plan)[1].detail

    assert isinstance(even, Even)
    assert even.rows[0] is not None
    said = printed(plan, even.rows[0])
    assert stitch in said.lower()
    assert worked(said, 20) == target


def test_a_chart_with_stitches_is_read_the_other_way_on_wrong_side_rows() -> None:
    """A purl on the right side is a knit on the wrong side (handbook rule)."""
    text = changed(
        CAP,
        ("    yarn: slate\n", "    yarn: slate\n    worked: flat\n"),
        ('{".": slate, "#": foam}', '{".": k, "#": {stitch: p, yarn: foam}}'),
        ("      - crown: 8\n        to: 8\n", ""),
    )
    chart = steps_of(plan_of(text))[2]

    (worked,) = chart.charts
    assert worked == ChartRows("waves", worked.grid, (4, 4), (12, 13))
    assert [str(times) for times in worked.across] == ["12", "13"]  # printed as they are
    assert [dict(row).get("foam", 0) for row in chart.worked[0]] == [36, 36, 24, 0]


def test_an_edging_is_as_long_as_it_is_said_to_be() -> None:
    text = changed(
        FLAP,
        (
            "      - bind off: all\n",
            "      - bind off: all\n      - edging: sc in each stitch\n"
            "        along: width(narrow) + 12 cm\n",
        ),
    )
    edging = steps_of(plan_of(text), "flap")[-1].detail

    assert edging is not None
    assert edging.along == (170.0, 180.0)


def test_every_piece_tells_its_first_fault() -> None:
    second = "  brim:\n    title: Brim\n    steps:\n      - gather: all\n"
    faults = faults_of(changed(CAP, ("      - gather: all\n", second)))

    assert [fault.id for fault in faults] == ["piece.unfinished", "piece.none-live"]


def test_stripes_take_all_rounds_of_the_tube() -> None:
    """10 cm at 14 rounds are 14, 3 cm are 4.2 and so 4, 1 cm is 1.4 and so 1: 2 x 19 rounds."""
    plan = plan_of(TUBE)

    assert rounds(plan, 0) == [38, 0, 0]
    assert [step.after[0].rounds for step in steps_of(plan)] == [38, 38, 38]
    assert stitches(plan, 0) == [24, 24, 0]


# ---------------------------------------------------------------- a second way to knit


@st.composite
def hats(draw: st.DrawFn) -> str:
    """Sound sources of hats: any gauge and heads, rib, shaping, chart, taper, crown."""
    heads = draw(st.lists(st.integers(400, 660), min_size=1, max_size=4, unique=True))
    wedges = draw(st.sampled_from([3, 4, 6, 8, 12]))
    chart = draw(st.booleans())
    steps = ["- cast on: base", '- work: "*k2, p2; repeat from * to end"', "  rounds: rib"]
    if draw(st.booleans()):
        steps += ["- even: increase", "  to: body"]
        if draw(st.booleans()):
            steps += [f"  with: {draw(st.sampled_from(['m1', 'kfb', 'yo']))}"]
    else:
        steps += [
            '- taper: "k1, m1, k to last 1, m1, k1"',
            "  to: base + 2 * growth",
            f"  over: growth * {draw(st.integers(1, 4))} + {draw(st.integers(0, 3))}",
            "- even: increase",
            "  to: body",
        ]
    steps += ["- chart: waves"] if chart else ["- work: k all"]
    steps += [
        f"- crown: {wedges}",
        f"  to: {wedges * draw(st.integers(1, 3))}",
        f"  pace: {draw(st.sampled_from(['every other', 'every', 'every other, then every']))}",
        "- gather: all" if draw(st.booleans()) else "- bind off: all",
    ]
    sizes = "".join(f"  size {n}: {{head: {head} mm}}\n" for n, head in enumerate(heads))
    rib = draw(st.sampled_from(["rounds(4 cm)", "0", _listed(9, heads)]))
    head, _, _ = CAP.partition("sizes:\n")
    head = changed(
        head,
        ("stitches: 20", f"stitches: {draw(st.integers(14, 34))}.5"),
        ("rounds: 28", f"rounds: {draw(st.integers(18, 46))}"),
    )
    legend = '{".": slate, "#": foam}' if chart else '{".": slate, "#": slate}'
    if not chart:
        head = changed(head, FOAM)
    return (
        head
        + f"sizes:\n{sizes}measures:\n"
        + "  base: stitches(head * 80 %, multiple = 4)\n"
        + "  body: up(base * 5 / 4 + 1, 24)\n"
        + f"  growth: {draw(st.integers(1, 3))}\n"
        + f"  rib: {rib}\n"
        + "finished:\n  Around: width(body)\n"
        + "charts:\n  waves: {title: Waves, grid: waves.grid, alt: Waves., legend: "
        + legend
        + "}\npieces:\n  cap:\n    title: Cap\n    yarn: slate\n    steps:\n"
        + "".join(f"      {line}\n" for line in steps)
    )


def _listed(figure: int, heads: Sequence[object]) -> str:
    return f"[{', '.join(str(figure) for _ in heads)}]"


def _worked_again(plan: Plan, step: StepPlan, size: int, live: int) -> tuple[int, int]:
    """Stitches and rounds of one step, from what is printed for it."""
    detail = step.detail
    if isinstance(detail, Rows):
        for _ in range(detail.rounds[size]):
            live = worked(printed(plan, detail.rows[0]), live)
        return live, detail.rounds[size]
    if isinstance(detail, ChartWork):
        assert detail.across[size] * 8 == live
        return live, detail.rounds[size]
    if isinstance(detail, Even):
        row = detail.rows[size]
        return (live, 0) if row is None else (worked(printed(plan, row), live), 1)
    if isinstance(detail, Tapered):
        count = 0
        for run in detail.tapers[size].runs:
            for _ in range(run.times):
                live = worked(printed(plan, detail.shaping), live)
                count += run.group
        return live, count + detail.tapers[size].plain_after
    assert isinstance(detail, Crowned)
    count = 0
    for round_, row in zip(detail.crown.rounds, detail.rows, strict=True):
        if round_.worked[size]:
            assert live == round_.before[size]
            live = worked(printed(plan, row), live)
            assert live == round_.after[size]
            count += 1 + round_.plain_after
    return live, count


@settings(max_examples=40, deadline=None)
@given(hats())
def test_a_knitter_who_follows_the_page_has_the_counts_of_the_plan(text: str) -> None:
    plan = plan_of(text)
    for size in range(len(plan.source.sizes)):
        first, *middle, _ = steps_of(plan)
        live = first.after[size].stitches
        so_far = 0
        for step in middle:
            live, count = _worked_again(plan, step, size, live)
            so_far += count
            assert (step.after[size].stitches, step.after[size].rounds) == (live, so_far)
            assert len(step.worked[size]) == count


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 12), st.integers(0, 30), st.integers(1, 2), st.integers(1, 9))
def test_a_flat_taper_worked_row_by_row(changes: int, spare: int, every: int, narrow: int) -> None:
    """Shaped rows lie ``every`` apart at least, and the count is reached in the last of them."""
    rows = changes * every + spare
    wide = narrow + 4 + 2 * changes
    plan = plan_of(
        changed(
            FLAP,
            ("[20, 24]", f"{wide}"),
            ("[10, 12]", f"{narrow + 4}"),
            ("over: 20", f"over: {rows}"),
            ("every: 2", f"every: {every}"),
            ("[k all, p all]", "k all"),
        )
    )
    taper = steps_of(plan, "flap")[1]
    live, shaped = wide, []
    for number, loops in enumerate(taper.worked[0], start=1):
        if sum(count for _, count in loops) != live:
            live = worked(printed(plan, taper.detail.shaping), live)
            shaped.append(number)
        assert sum(count for _, count in loops) == live
    gaps = [after - before for before, after in pairwise(shaped)]

    assert (live, len(shaped), len(taper.worked[0])) == (narrow + 4, changes, rows)
    assert all(gap >= every and gap % every == 0 for gap in gaps)
    assert max(gaps) - min(gaps) <= every


@settings(max_examples=25, deadline=None)
@given(hats(), st.randoms(use_true_random=False))
def test_the_order_of_measures_does_not_matter(text: str, random: object) -> None:
    head, rest = text.split("measures:\n")
    lines, tail = rest.split("finished:\n")
    shuffled = lines.splitlines(keepends=True)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    again = f"{head}measures:\n{''.join(shuffled)}finished:\n{tail}"

    assert _figures(plan_of(again)) == _figures(plan_of(text))


@settings(max_examples=25, deadline=None)
@given(hats().filter(lambda text: "then every" not in text))
def test_a_size_alone_is_as_it_is_among_others(text: str) -> None:
    """But for a crown that ends in every round: its last third is that of the smallest size."""
    together = plan_of(text)
    head, rest = text.split("sizes:\n")
    lines, tail = rest.split("measures:\n")
    for size, line in enumerate(lines.splitlines(keepends=True)):
        rib = tail.replace(_listed(9, lines.splitlines()), "[9]")
        alone = plan_of(f"{head}sizes:\n{line}measures:\n{rib}")
        assert _figures(alone)[0] == _figures(together)[size]


def _figures(plan: Plan) -> list[object]:
    """All that a plan says of each size."""
    return [
        (
            {name: measure.values[size].rounded for name, measure in plan.measures.named.items()},
            [(step.after[size], step.worked[size]) for step in plan.piece("cap").steps],
            [total.needs[size] for total in plan.yarn],
        )
        for size in range(len(plan.source.sizes))
    ]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_even_shaping_in_flat_rows_as_far_as_there_is_room(data: st.DataObject) -> None:
    """Knit as printed: up to one decrease for every pair of stitches."""
    live = data.draw(st.integers(2, 60))
    target = data.draw(st.integers(live - live // 2, 2 * live - 1).filter(lambda n: n != live))
    direction = "increase" if target > live else "decrease"
    text = with_steps(
        f"      - cast on: {live}\n      - even: {direction}\n        to: {target}\n"
        "      - bind off: all\n"
    )
    plan = plan_of(changed(text, ("    title: Cap\n", "    title: Cap\n    worked: flat\n")))
    even = steps_of(plan)[1].detail

    assert isinstance(even, Even)
    assert even.rows[0] is not None
    assert worked(printed(plan, even.rows[0]), live) == target


def test_a_taper_shapes_the_first_row_flat_and_the_last_round_in_the_round() -> None:
    """5 times 2 stitches over 20: flat on right-side rows 1, 5, 9, 13, 17; round on 4, 8 to 20."""

    def lengths(text: str) -> list[int]:
        taper = steps_of(plan_of(text), "flap")[1]
        assert isinstance(taper.detail, Tapered)
        return [sum(count for _, count in loops) for loops in taper.worked[0]]

    flat = lengths(FLAP)
    around = lengths(changed(FLAP, ("    worked: flat\n", "")))

    assert flat == [18] * 4 + [16] * 4 + [14] * 4 + [12] * 4 + [10] * 4
    assert around == [20] * 3 + [18] * 4 + [16] * 4 + [14] * 4 + [12] * 4 + [10]


def test_plain_rows_of_a_taper_go_on_counting_over_the_shaped_ones() -> None:
    """Rows 1, 4, 7, 10 … of three are in foam, of which 1 and 13 are shaped instead."""
    foam = '  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n'
    text = changed(
        FLAP,
        ("sizes:\n", foam + "sizes:\n"),
        ("plain: [k all, p all]", 'plain: ["with foam: k all", p all, k all]'),
    )
    plan = plan_of(text)
    taper = steps_of(plan, "flap")[1]

    assert isinstance(taper.detail, Tapered)
    assert [printed(plan, row) for row in taper.detail.plain[1:]] == ["Purl.", "Knit."]
    assert [
        number for number, loops in enumerate(taper.worked[0], start=1) if "foam" in dict(loops)
    ] == [4, 7, 10, 16, 19]
    assert all(dict(loops).keys() <= {"slate", "foam"} for loops in taper.worked[0])
    assert dict(taper.worked[0][0]) == {"slate": 18}


def test_without_a_word_the_rows_between_are_knitted_as_seen_from_the_right_side() -> None:
    """Flat, a row knitted on the wrong side makes a ridge; in the round there is no such row."""
    flat = changed(FLAP, ("        plain: [k all, p all]\n", ""))
    found = []
    for text in (flat, changed(flat, ("worked: flat", "worked: round"))):
        plan = plan_of(text)
        taper = steps_of(plan, "flap")[1]
        assert isinstance(taper.detail, Tapered)
        found.append([printed(plan, row) for row in taper.detail.plain])
        assert printed(plan, taper.detail.shaping) == "K1, k2tog, k to last 3 stitches, ssk, k1."
        assert taper.detail.change == -2

    assert found == [["Knit.", "Purl."], ["Knit."]]


@pytest.mark.parametrize("before", [0, 1, 2, 3])
def test_the_second_plain_row_of_a_taper_is_worked_on_the_wrong_side(before: int) -> None:
    """Odd rows of a flat piece are right-side rows. The yarns tell which plain row it was."""
    text = changed(
        FLAP,
        ("        plain: [k all, p all]\n", "        plain: [k all in slate, p all in foam]\n"),
        ("        every: 2\n", ""),
        ("[10, 12]", "[20, 24]" if before % 2 else "[10, 12]"),  # nothing is shaped
        (
            "      - taper",
            f"      - work: k all\n        rounds: {before}\n      - taper",
        ),
        ("yarns:\n", "yarns:\n" + FOAM[0]),
    )
    taper = steps_of(plan_of(text), "flap")[2]
    assert isinstance(taper.detail, Tapered)
    shaped = set(taper.detail.tapers[0].shaping_rounds("first"))

    for number, loops in enumerate(taper.worked[0], start=1):
        if number not in shaped:
            wrong_side = (before + number) % 2 == 0
            assert dict(loops).keys() == {"foam" if wrong_side else "slate"}


def test_a_crown_ends_with_its_count_and_is_worked_in_its_yarn() -> None:
    """96 and 104 stitches are 12 and 13 a wedge; to 2 a wedge these are 10 and 11 decrease rounds
    of 8, and a plain round between each two."""
    written = "        to: 16\n        yarn: foam\n        pace: every other\n"
    text = changed(CAP, ("        to: 8\n", written))
    crown = steps_of(plan_of(text))[4]
    small = [(("foam", count),) for count in range(88, 15, -8) for _ in range(2)][:-1]

    assert [state.stitches for state in crown.after] == [16, 16]
    assert crown.rounds == (19, 21)
    assert list(crown.worked[0]) == small
    assert list(crown.worked[1]) == [(("foam", 96),)] * 2 + small


def test_a_size_alone_ends_its_crown_as_it_does_among_others() -> None:
    """From 12 and 13 stitches a wedge to 1 these are 11 and 12 decrease rounds. A third of the
    smaller is 3: M works the last 3 without plain rounds, so 12 + 9; by itself it would be 4."""
    text = changed(
        CAP, ("        to: 8\n", "        to: 8\n        pace: every other, then every\n")
    )
    whole = plan_of(text)
    source = source_of(text)

    assert steps_of(whole)[4].rounds == (11 + 8, 12 + 9)
    assert steps_of(make_plan(one_size(source, "M", crown_starts(whole))))[4].rounds == (21,)
    assert steps_of(make_plan(one_size(source, "M")))[4].rounds == (20,)


def test_a_step_knows_what_is_written_where_and_what_it_finds() -> None:
    plan = plan_of(CAP)
    steps = steps_of(plan)
    lines = [n for n, line in enumerate(CAP.splitlines(), start=1) if line.startswith("      - ")]

    assert tuple(step.step for step in steps) == plan.source.pattern.pieces["cap"].steps
    assert [step.span.line for step in steps] == lines
    assert [(state.rounds, state.stitches) for state in steps[0].before] == [(0, 0), (0, 0)]
    assert all(step.before == last.after for last, step in pairwise(steps))


def test_a_chart_of_stitches_is_worked_in_the_yarn_of_its_step() -> None:
    text = changed(
        CAP,
        ('{".": slate, "#": foam}', '{".": k, "#": p}'),
        ("      - chart: waves\n", "      - chart: waves\n        yarn: foam\n"),
    )

    assert list(steps_of(plan_of(text))[2].worked[0]) == [(("foam", 96),)] * 4


@pytest.mark.parametrize(
    ("how", "fourth"),
    [("flat", "k p p k k k k k"), ("round", "k k k k k p p k")],
)
def test_a_chart_is_read_from_the_right_and_wrong_side_rows_from_the_left(
    how: str, fourth: str
) -> None:
    """The trade's rule; round or row 1 is the last line."""
    legend = '{".": k, "#": {stitch: p}, "/": k2tog, "o": yo}'
    text = changed(
        CAP,
        ("    yarn: slate\n", f"    yarn: slate\n    worked: {how}\n"),
        ('{".": slate, "#": foam}', legend),
        ("      - crown: 8\n        to: 8\n", ""),
        ("      - chart: waves\n", "      - chart: waves\n        yarn: foam\n"),
    )
    plan = plan_of(text, ".##.....\n#.......\n##......\n#..o/...\n")
    cap = plan.source.pattern.pieces["cap"]
    bench = Bench(
        plan.measures,
        "cap",
        cap,
        plan.book,
        (),
        Patterns(plan.source, plan.book),
        flat=how == "flat",
    )
    found = []
    source = plan.source
    chart, yarns = source.pattern.charts["waves"], source.pattern.yarns
    for row in chart_rows(bench, lines_of(source.grids["waves"][0], chart, yarns, plan.book)):
        (repeat,) = row.parts
        assert isinstance(repeat, Repeat)
        found.append(" ".join(each.stitch for each in repeat.parts if isinstance(each, Work)))

    second = "p p k k k k k k" if how == "flat" else "k k k k k k p p"
    assert found == ["k k k k2tog yo k k p", second, "k k k k k k k p", fourth]


def test_a_flat_row_meets_the_markers_of_the_row_before_from_the_other_side() -> None:
    """A marker after 2 of 20 stitches lies after 18 on the way back, and after 2 on the next."""
    rows = ["k2, pm, k to end", "p18, sm, p2", "k2, sm, k18"]
    steps = ["cast on: 20", *(f'work: "{row}"' for row in rows), "bind off: all"]
    text = FLAP.partition("    steps:\n")[0] + "    steps:\n"
    plan = plan_of(text + "".join(f"      - {step}\n" for step in steps))

    assert stitches(plan, 0, "flap") == [20, 20, 20, 20, 0]


def test_a_row_may_cast_on_the_first_stitches_and_bind_off_the_last() -> None:
    steps = ["work: cast on 4", "work: bind off 4", "cast on: 2", "bind off: all"]
    text = FLAP.partition("    steps:\n")[0] + "    steps:\n"
    plan = plan_of(text + "".join(f"      - {step}\n" for step in steps))

    assert stitches(plan, 0, "flap") == [4, 0, 2, 0]


def test_stitches_of_one_yarn_are_counted_together_whether_it_is_named_or_not() -> None:
    head = CAP.partition("    steps:\n")[0] + "    steps:\n"
    row = '      - work: "k1 in foam, k1 in slate, k to end"\n'
    plan = plan_of(f"{head}      - cast on: 20\n{row}      - bind off: all\n")

    assert [dict(loops) for loops in steps_of(plan)[1].worked[0]] == [{"foam": 1, "slate": 19}]


def test_a_stitch_of_ones_own_is_worked_and_told_as_the_designer_says() -> None:
    """Ten stitches, each two worked into one."""
    own = "stitches:\n  nub: {uses: 2, makes: 1, name: small nub, how: Knit both twice.}\npieces:"
    row = (
        "      - bind off: all\n",
        '      - work: "*nub; repeat from * to end"\n      - bind off: all\n',
    )
    plan = plan_of(changed(FLAP, ("pieces:", own), row))
    nub = plan.book.find("nub")

    assert stitches(plan, 0, "flap")[-2:] == [5, 0]
    assert nub is not None
    assert (nub.us.name, nub.how_to) == ("small nub", "Knit both twice.")
