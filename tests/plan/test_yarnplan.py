"""Yarn of a whole pattern, reckoned a second time from the rounds and the published rules."""

from math import ceil, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.craft.fabric import Fabric
from bindoff.plan.plan import Plan, make_plan
from bindoff.plan.steps.embroider import Embroidered
from bindoff.plan.steps.stripes import Striped
from bindoff.plan.yarn import YarnNeed
from bindoff.plan.yarnends import loose_ends
from bindoff.source.regauge import regauge
from bindoff.source.statedgauge import parse_gauges
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed, plan_of, source_of

KS = 21.6
"""Plain wool, wet-relaxed: Munden 1959, loop length l = sqrt(Ks / stitches per cm²)."""

TAIL = 150.0
"""mm of one end: common practice, no source."""

STRANDED = 1.08
"""A loop of a round in two yarns over a plain one: with the strands behind, one weighed cowl."""

SIDE_CM = 15
"""The swatch that the notes ask for, in each direction."""

PLAIN_RESERVE, STRANDED_RESERVE = 0.11, 0.52
"""Limits of published amounts (tests/bench/yarn_reserve.py). Ribbing has 9 % at a gauge of its own,
and at one of plain knitting no less than that."""


def need(plan: Plan, yarn: str, size: int = 0) -> YarnNeed:
    return next(total for total in plan.yarn if total.yarn == yarn).needs[size]


def parts(found: YarnNeed) -> dict[str, float]:
    """Millimetres of each part."""
    return {part.name.value: 1000 * part.metres for part in found.parts}


def loop(stitches: float, rounds: float, ks: float = KS) -> float:
    """mm of yarn in a stitch at so many stitches and rounds on 10 cm."""
    return 10 * sqrt(ks / (stitches * rounds / 100))


def swatch(stitches: float, rounds: float, share: float = 1.0) -> float:
    """mm of yarn in a swatch, of which a yarn knits its share."""
    return share * (SIDE_CM / 10) ** 2 * stitches * rounds * loop(stitches, rounds)


# ---------------------------------------------------------------- a cap, part by part


def test_the_yarn_of_a_cap_part_by_part() -> None:
    """Size S by hand: 96 stitches, 8 rounds of rib, a chart of 4 rounds with 96 stitches of foam,
    26 rounds; the crown's rounds have 88, 88, 80, 80 … stitches (8 pairs and 24, 16, 8).

    The tail of a long-tail cast-on is three times the width, a gathered end takes one and a half
    times it (from memory). Slate is cast on and not cut: 2 ends. It is carried behind foam.
    """
    found = need(plan_of(CAP), "slate")
    crown = sum(2 * count for count in range(88, 24, -8)) + 24 + 16 + 8
    stranded, plain = 3 * 96 - 96, 96 * 8 + 96 + 96 * 26 + crown
    per_stitch = loop(20, 28)
    expected = {
        "knitting": (plain + STRANDED * stranded) * per_stitch,
        "floats": 96 * 5.0,
        "cast-on": 3 * 96 * 5.0 + 96 * per_stitch,
        "bind-off": 1.5 * 8 * 5.0,
        "joins and tails": 2 * TAIL,
    }
    in_stranded = STRANDED * stranded * per_stitch
    reserve = PLAIN_RESERVE * (sum(expected.values()) - in_stranded)
    reserve += STRANDED_RESERVE * in_stranded
    # Foam has not half as many stitches, so slate alone knits the swatch.
    expected |= {"gauge swatch": swatch(20, 28), "reserve": reserve}

    assert parts(found) == pytest.approx(expected)
    assert found.metres == pytest.approx(sum(expected.values()) / 1000)
    assert found.grams == pytest.approx(found.metres / 2)
    assert found.balls == 1


def test_the_second_colour_is_its_stitches_floats_and_ends() -> None:
    """96 stitches of foam in three rounds of 96, so 3 x 96 - 96 stitches passed behind."""
    found = parts(need(plan_of(CAP), "foam"))

    assert found["knitting"] == pytest.approx(96 * STRANDED * loop(20, 28))
    assert found["floats"] == pytest.approx((3 * 96 - 96) * 5.0)
    assert found["joins and tails"] == pytest.approx(2 * TAIL)
    assert "cast-on" not in found


def test_an_unwashed_gauge_has_the_loops_of_dry_fabric() -> None:
    """Ks 19.0 dry-relaxed (Munden 1959)."""
    plan = plan_of(changed(CAP, ("  rounds: 28\n", "  rounds: 28\n  state: unwashed\n")))

    assert parts(need(plan, "foam"))["knitting"] == pytest.approx(
        96 * STRANDED * loop(20, 28, 19.0)
    )


@pytest.mark.parametrize("state", ["blocked", "washed and blocked"])
def test_a_blocked_gauge_has_the_loops_of_a_washed_one(state: str) -> None:
    plan = plan_of(changed(CAP, ("  rounds: 28\n", f"  rounds: 28\n  state: {state}\n")))

    assert parts(need(plan, "foam")) == parts(need(plan_of(CAP), "foam"))
    assert {each.gauges[""].state for each in plan.measures.sizes} == {state}


def test_a_weighed_swatch_wins_over_the_gauge() -> None:
    """900 stitches of 6 g, 2 m a gram, are 13.33 mm a stitch; the reserve is then 5 % and half a
    gram in six."""
    plan = plan_of(
        changed(
            CAP, ("ball: 100 g = 200 m}", "ball: 100 g = 200 m, swatch: {stitches: 900, grams: 6}}")
        )
    )
    found = need(plan, "slate")
    crown = sum(2 * count for count in range(88, 24, -8)) + 24 + 16 + 8

    plain, stranded = 96 * 35 + crown, 192
    assert parts(found)["knitting"] == pytest.approx((plain + STRANDED * stranded) * 12000 / 900)
    doubts = {each.loop.fabric.value: each.loop.uncertainty for each in found.knitted}
    assert doubts["plain knitting"] == pytest.approx(0.05 + 0.5 / 6)
    assert doubts["stranded knitting"] == STRANDED_RESERVE


def test_one_swatch_gives_each_size_of_a_tube_its_own_loop() -> None:
    """Munden: loops as 1 / root of the stitches in a cm². The swatch is at the main gauge, 10 x 14;
    a size of 9.5 x 13.3 has loops 1/0.95 as long, and stitches of thread with it."""
    weighed = ("200 m}", "200 m, swatch: {stitches: 900, grams: 6}}")
    looser = ("  M: {head: 26 cm}", "  M: {head: 26 cm, gauge: {stitches: 9.5, rounds: 13.3}}")
    detail = plan_of(changed(TUBE, weighed, looser)).piece("cap").steps[0].detail

    assert isinstance(detail, Striped)
    loops = [plan.embroidery.rule.loop_mm for plan in detail.plans]
    assert loops == pytest.approx([12000 / 900, 12000 / 900 / 0.95])


def test_a_swatch_may_name_the_gauge_it_has_and_the_step_of_its_scale() -> None:
    """A swatch of 24 x 32 is worth a loop root(24 x 32 / 20 / 28) as long at 20 x 28."""
    swatch = "swatch: {stitches: 900, grams: 6, gauge: fine, scale: 0.1 g}}"
    text = changed(
        CAP,
        ("ball: 100 g = 200 m}", f"ball: 100 g = 200 m, {swatch}"),
        ("yarns:\n", "gauges:\n  fine: {stitches: 24, rounds: 32}\nyarns:\n"),
    )
    found = need(plan_of(text), "slate")
    crown = sum(2 * count for count in range(88, 24, -8)) + 24 + 16 + 8

    longer = sqrt(24 * 32 / 20 / 28)
    stitches = 96 * 35 + crown + STRANDED * 192
    assert parts(found)["knitting"] == pytest.approx(stitches * 12000 / 900 * longer)
    doubts = {each.loop.fabric.value: each.loop.uncertainty for each in found.knitted}
    assert doubts["plain knitting"] == pytest.approx(0.05 + 0.05 / 6)


def test_a_swatch_keeps_its_gauge_where_the_pattern_is_worked_at_another() -> None:
    """Weighed at 20 x 28 and 13.33 mm; at 22 x 30 a loop is root(20 x 28 / 22 / 30) of that."""
    weighed = ("200 m}", "200 m, swatch: {stitches: 900, grams: 6}}")
    again, _ = regauge(source_of(changed(CAP, weighed)), parse_gauges(["22 x 30 / 10 cm"]))
    once_more, _ = regauge(again, parse_gauges(["21 x 29 / 10 cm"]))

    for source, density in ((again, 22 * 30), (once_more, 21 * 29)):
        loops = {k.loop.fabric: k.loop.mm for k in need(make_plan(source), "slate").knitted}
        assert loops[Fabric.PLAIN] == pytest.approx(12000 / 900 * sqrt(20 * 28 / density))


def test_a_weighed_swatch_of_the_ground_gives_the_thread_that_covers_it() -> None:
    """Loops of 12000 / 900 mm; a stitch of thread takes 1.5 of them (handbook rule, from memory),
    and its strand two tails of 150 mm."""
    weighed = ("200 m}", "200 m, swatch: {stitches: 900, grams: 6}}")
    detail = plan_of(changed(TUBE, weighed), "#" + 23 * "." + "\n").piece("cap").steps[1].detail

    assert isinstance(detail, Embroidered)
    for plan in detail.plans:
        (foam,) = [thread for thread in plan.embroidery.threads if thread.yarn == "foam"]
        assert foam.thread_mm == pytest.approx(1.5 * 12000 / 900 + 2 * 150)


def test_two_of_a_piece_take_twice_the_yarn() -> None:
    once = plan_of(CAP)
    twice = plan_of(changed(CAP, ("    title: Cap\n", "    title: Cap\n    make: 2\n")))

    for size in (0, 1):
        for yarn in ("slate", "foam"):
            one, two = (parts(need(plan, yarn, size)) for plan in (once, twice))
            assert one.pop("gauge swatch", None) == two.pop("gauge swatch", None)
            assert two == pytest.approx({name: 2 * mm for name, mm in one.items()})


def test_balls_are_counted_for_all_pieces_together() -> None:
    """Two halves of a ball are one ball, not two."""
    plan = plan_of(changed(FLAP, ("    title: Flap\n", "    title: Flap\n    make: 2\n")))
    found = need(plan, "slate")

    assert found.balls == ceil(found.grams / 100) == 1


def test_a_flap_is_bound_off_with_four_times_its_width() -> None:
    """Handbook rule for the cautious; size S is bound off over 10 stitches of 5 mm."""
    found = parts(need(plan_of(FLAP), "slate"))
    stitches = 4 * (18 + 16 + 14 + 12 + 10)

    assert found["bind-off"] == pytest.approx(4 * 10 * 5.0)
    assert found["knitting"] == pytest.approx(stitches * loop(20, 28))


def test_what_rows_bind_off_and_cast_on_is_counted_as_an_edge() -> None:
    """Four times the width of what is bound off, two loops for each stitch cast on, in each yarn
    that works the row; a repeat does it over and over."""
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n      - cast on: 40\n"
    tail = "      - bind off: all\n"

    def more(rows: str, yarn: str) -> tuple[float, float]:
        plain, found = (
            parts(need(plan_of(head + work + tail), yarn))
            for work in (
                f"      - {{work: [k all, k all], yarn: {yarn}}}\n",
                f"      - {{work: [{rows}], yarn: {yarn}}}\n",
            )
        )
        return tuple(found[name] - plain[name] for name in ("cast-on", "bind-off"))  # type: ignore

    per_stitch = loop(20, 28)
    # Four stitches fewer are left for the last edge, which is 20 mm narrower.
    assert more("'bind off 4, k to end', k all", "slate") == pytest.approx((0, 80 - 80))
    assert more("'*k8, bind off 2, cast on 2; repeat from * to end', k all", "slate") == (
        pytest.approx((2 * 8 * per_stitch, 4 * 40))
    )


def test_stitches_picked_up_beside_held_ones_are_loops_of_yarn() -> None:
    """A loop for each: two picked up at the gap of a thumb."""
    rows = "      - {work: ['k10, hold 6 stitches, k4'], rounds: 1}\n      - bind off: all\n"
    back = "      - {pick up: 2, held: 6}\n      - bind off: all\n"
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n      - cast on: 20\n"
    without, found = (
        parts(need(plan_of(head + rows + each), "slate"))
        for each in (back.replace("pick up: 2", "pick up: 0"), back)
    )

    assert found["cast-on"] - without["cast-on"] == pytest.approx(2 * loop(20, 28))


def test_an_edging_counts_its_rows_along_its_length() -> None:
    """5.7 times the length for each row of single crochet (measured at 5.5 to 5.8)."""
    text = changed(
        FLAP,
        (
            "      - bind off: all\n",
            "      - bind off: all\n      - edging: [sc in each stitch, sc in each stitch]\n"
            "        along: 30 cm\n",
        ),
    )

    assert parts(need(plan_of(text), "slate"))["edging"] == pytest.approx(2 * 5.7 * 300)


def test_the_parts_of_several_pieces_are_added_up_in_one_order() -> None:
    """Only the second piece has an edging, which still comes before the reserve and is worked with
    a length of yarn that is joined for it: two ends of each of the three."""
    second = (
        "      - bind off: all\n  band:\n    title: Band\n    steps:\n      - cast on: 30\n"
        "      - work: k all\n      - bind off: all\n      - edging: sc in each stitch\n"
        "        along: 30 cm\n"
    )
    flap = parts(need(plan_of(FLAP), "slate"))
    found = parts(need(plan_of(changed(FLAP, ("      - bind off: all\n", second))), "slate"))
    per_stitch = loop(20, 28)
    expected = {
        "knitting": flap["knitting"] + 30 * per_stitch,
        "cast-on": flap["cast-on"] + 3 * 30 * 5.0 + 30 * per_stitch,
        "bind-off": flap["bind-off"] + 4 * 30 * 5.0,
        "joins and tails": 6 * TAIL,
        "edging": 5.7 * 300.0,
    }
    reserve = PLAIN_RESERVE * sum(expected.values())
    expected |= {"gauge swatch": swatch(20, 28), "reserve": reserve}

    assert found == pytest.approx(expected)
    assert list(found) == list(expected)


def test_a_size_that_does_not_use_a_yarn_needs_none_of_it() -> None:
    steps = (
        "      - cast on: 20\n      - {work: k all, rounds: [4, 0], yarn: foam}\n"
        "      - work: k all\n      - bind off: all\n"
    )
    found = need(plan_of(CAP.partition("    steps:\n")[0] + "    steps:\n" + steps), "foam", 1)

    assert (found.parts, found.metres, found.grams, found.balls) == ((), 0, 0, 0)


def test_what_is_bound_off_is_joined_or_closed_each_by_its_own_rule() -> None:
    """Handbook rules: 4 times the width bound off, with three needles too; a row of loops grafted.

    A gathered end takes once and a half the width (from memory). 40 stitches are 20 cm wide.
    """
    head = FLAP.partition("    steps:\n")[0] + "    steps:\n      - {cast on: 40, "
    head += "method: waste yarn}\n      - work: k all\n      - "

    def last(step: str) -> float:
        return parts(need(plan_of(f"{head}{step}\n"), "slate"))["bind-off"]

    assert last("bind off: all") == pytest.approx(4 * 200)
    assert last("gather: all") == pytest.approx(1.5 * 200)
    assert last("join: start") == pytest.approx(40 * loop(20, 28))
    assert last("{join: start, by: three-needle bind-off}") == pytest.approx(4 * 200)


def test_a_yarn_that_rests_long_is_cut_and_joined_again() -> None:
    """Up to 4 rounds it is carried up the inside (common practice, no source)."""
    steps = (
        "      - cast on: 20\n      - work: k all\n        rounds: {}\n        yarn: foam\n"
        "      - work: k all\n      - bind off: all\n"
    )
    head = CAP.partition("    steps:\n")[0] + "    steps:\n"

    carried = parts(need(plan_of(head + f"{_rows(1)}" + steps.format(4)), "slate"))
    cut = parts(need(plan_of(head + f"{_rows(1)}" + steps.format(5)), "slate"))

    assert cut["joins and tails"] - carried["joins and tails"] == pytest.approx(2 * TAIL)


@pytest.mark.parametrize(
    ("last", "ends"),
    [
        ("bind off: all", 2),
        ("{bind off: all, yarn: foam}", 2),
        ("join: start", 2),
        ("{join: start, by: three-needle bind-off}", 2),
        ("{join: itself, edge: start}\n      - bind off: all", 4),
        ("gather: all", 2),
        ("bind off: all\n      - {edging: sc in each stitch, along: 30 cm}", 4),
        ("bind off: all\n      - {edging: sc in each stitch, along: 30 cm, yarn: foam}", 2),
    ],
)
def test_a_length_that_joins_or_edges_has_two_ends(last: str, ends: int) -> None:
    """Ends of 15 cm (common practice, no source). What grafts or gathers is a tail that the piece
    has anyway, and what closes live stitches goes on with the yarn in hand; open loops at the start
    have neither."""
    head = (CAP if "foam" in last else FLAP).partition("    steps:\n")[0]
    head += "    steps:\n      - {cast on: 40, method: "
    plan = plan_of(f"{head}waste yarn}}\n      - {{work: k all, rounds: 30}}\n      - {last}\n")
    found = parts(need(plan, "slate"))

    assert found["joins and tails"] == pytest.approx(ends * TAIL)
    if "foam" in last:
        assert parts(need(plan, "foam"))["joins and tails"] == pytest.approx(2 * TAIL)
    assert loose_ends(plan.source, plan.pieces[0], 0) == ends + (2 if "foam" in last else 0)


def test_an_edge_cast_on_in_another_yarn_is_joined_too() -> None:
    """Foam is cast on and cut: two ends; or it comes again after 3 rounds, carried, or after 6."""
    head = CAP.partition("    steps:\n")[0] + "    steps:\n      - {cast on: 40, yarn: foam}\n"
    again = "      - {work: k all, rounds: 4, yarn: foam}\n"
    for rounds, then, ends in ((6, "", 2), (3, again, 2), (6, again, 4)):
        steps = (
            f"      - {{work: k all, rounds: {rounds}}}\n{then}      - {{work: k all, rounds: 9}}"
        )
        found = plan_of(f"{head}{steps}\n      - bind off: all\n")
        assert parts(need(found, "foam"))["joins and tails"] == pytest.approx(ends * TAIL)
        assert parts(need(found, "slate"))["joins and tails"] == pytest.approx(2 * TAIL)


def _rows(count: int) -> str:
    """A strip worked first, so that slate has been joined before it rests."""
    return (
        f"      - cast on: 8\n      - work: k all\n        rounds: {count}\n      - bind off: all\n"
    )


# ---------------------------------------------------------------- tubes


def test_the_stripes_of_a_tube_and_its_embroidery() -> None:
    plan = plan_of(TUBE)
    striped = plan.piece("cap").steps[0].detail
    assert isinstance(striped, Striped)
    picture = striped.plans[0]
    sewn = sum(yarn == "foam" for line in picture.overlay for yarn in line)
    per_stitch = loop(10, 14)

    assert set(picture.stripes.bases) == {"slate"}
    assert parts(need(plan, "slate"))["knitting"] == pytest.approx(24 * 38 * per_stitch)
    thread = parts(need(plan, "foam"))["embroidery"]
    # Thread of a duplicate stitch is up to half as long again as the loop it covers (from memory);
    # tails and ways between areas come on top.
    assert sewn == 24
    assert 1.5 * sewn * per_stitch < thread < 1.5 * sewn * per_stitch + 24 * 2 * 75 + 24 * 100


# ---------------------------------------------------------------- any cap


@settings(max_examples=30, deadline=None)
@given(
    st.integers(14, 34),
    st.integers(18, 46),
    st.integers(0, 30),
    st.lists(st.text("#.", min_size=8, max_size=8), min_size=1, max_size=6).filter(
        lambda rows: "#" in "".join(rows) and "." in "".join(rows)
    ),
    st.integers(1, 3),
)
def test_all_metres_together_are_all_loops_edges_and_ends(
    stitches: int, rounds: int, more: int, grid: list[str], make: int
) -> None:
    """A second sum: every stitch of every round by its colour, edges and ends by their rules."""
    text = changed(
        CAP,
        ("stitches: 20", f"stitches: {stitches}"),
        ("rounds: 28", f"rounds: {rounds}"),
        ("rounds(depth) - 30", str(more)),
        ("    title: Cap\n", f"    title: Cap\n    make: {make}\n"),
    )
    plan = plan_of(text, "\n".join(grid) + "\n")
    per_stitch, wide = loop(stitches, rounds), 100 / stitches
    for size in (0, 1):
        cast_on = plan.piece("cap").steps[0].after[size].stitches
        times = cast_on // 8
        foam = times * "".join(grid).count("#")
        mixed = [line for line in grid if 0 < line.count("#") < 8]
        behind_foam = times * sum(line.count("#") for line in mixed)
        behind_slate = times * sum(line.count(".") for line in mixed)
        crown = sum(count for row in plan.piece("cap").steps[4].worked[size] for _, count in row)
        slate = cast_on * (8 + more) + times * "".join(grid).count(".") + crown
        edges = 3 * cast_on * wide + cast_on * per_stitch + 1.5 * 8 * wide
        plain_foam = times * sum(8 for line in grid if line == 8 * "#")
        for yarn, count, with_other, passed, ends in (
            ("slate", slate, behind_slate, behind_foam, ([1] * 8, [1] * (more + 1))),
            ("foam", foam, foam - plain_foam, behind_slate, ([], [])),
        ):
            two_yarns = STRANDED * with_other * per_stitch
            colour = "." if yarn == "slate" else "#"
            joined, carried = _ends(grid[::-1], colour, *ends)
            tails, up = TAIL * joined, carried * 100 / rounds
            rest = (count - with_other) * per_stitch + passed * wide + tails + up
            rest += edges if yarn == "slate" else 0.0
            expected = make * ((1 + STRANDED_RESERVE) * two_yarns + (1 + PLAIN_RESERVE) * rest)
            most = [each for each in (slate, foam) if each >= max(slate, foam) / 2]
            if count in most:
                expected += swatch(stitches, rounds, count / sum(most))
            assert need(plan, yarn, size).metres == pytest.approx(expected / 1000)


def _ends(rows: list[str], colour: str, before: list[int], after: list[int]) -> tuple[int, int]:
    """Two ends for each time the colour is taken up after more than 4 rounds without it, and the
    rounds past which it is carried up after fewer."""
    worked = [bool(each) for each in before] + [colour in row for row in rows]
    worked += [bool(each) for each in after]
    taken_up, carried, rest = 0, 0, 99
    for here in worked:
        if here:
            taken_up += rest > 4
            carried += rest if rest <= 4 else 0
            rest = 0
        else:
            rest += 1
    return 2 * taken_up, carried


def test_the_waves_have_as_much_foam_as_the_sums_above_say() -> None:
    assert WAVES.count("#") == 8
