"""Wrong sources that only the plan can find out: what is said, and where."""

import pytest

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.plan.persize import named, together
from bindoff.plan.plan import crown_starts
from bindoff.plan.replan import replan
from bindoff.plan.steps.bind_off import BindOff
from bindoff.plan.steps.pick_up import PickUp
from bindoff.source.statedgauge import parse_gauges
from tests.small_patterns import CAP, FLAP, TUBE, changed, faults_of, plan_of, source_of


def the_fault(text: str) -> Diagnostic:
    (fault,) = faults_of(text)
    return fault


def at(fault: Diagnostic, text: str) -> str:
    """The words of the source that a fault points at."""
    assert fault.span is not None
    line = text.splitlines()[fault.span.line - 1]
    return line[fault.span.column - 1 : fault.span.end_column - 1]


def test_a_folded_tube_without_a_number_of_needles() -> None:
    text = changed(
        TUBE,
        ("made: {by: machine, needles: 24}\n", ""),
        ("Circumference: width(needles)", "Circumference: width(24)"),
    )
    fault = the_fault(text)

    assert fault.id == "tube.needles"
    assert "`made: {by: machine, needles: …}`" in fault.help
    assert at(fault, text) == "tube"


@pytest.mark.parametrize("part", ["visible", "lining"])
def test_what_a_tube_is_made_of_is_longer_than_nothing(part: str) -> None:
    """A brim or a gathered end may be missing; the outside and the lining may not."""
    whole = {"visible": "10 cm", "lining": "10 cm", "brim": "0 cm", "gather": "0 cm"}

    def tube(lengths: dict[str, str]) -> str:
        written = ", ".join(f"{name}: {length}" for name, length in lengths.items())
        return changed(TUBE, ("{visible: visible, brim: 3 cm, gather: 1 cm}", "{" + written + "}"))

    fault = the_fault(tube({**whole, part: "0 cm"}))

    assert faults_of(tube(whole)) == ()
    assert fault.id == "amount.small"
    assert fault.message == f"`{part}` comes to 0 cm, and must be above 0"


def test_a_strand_as_long_as_nobody_can_say() -> None:
    text = changed(TUBE, ("    steps:", "    colour plan: {strand: 60 quarts}\n    steps:"))
    fault = the_fault(text)

    assert (fault.id, at(fault, text)) == ("length.unknown-unit", "60 quarts")


def test_a_tube_of_as_many_stitches_as_can_be() -> None:
    """At 10 rounds over 10 cm 125 cm are 125 rounds, twice with the lining: 400 needles by 250."""

    def tube(visible: int) -> str:
        return changed(
            TUBE,
            ("needles: 24", "needles: 400"),
            ("rounds: 14", "rounds: 10"),
            ("{visible: visible, brim: 3 cm, gather: 1 cm}", f"{{visible: {visible} cm}}"),
        )

    assert faults_of(tube(125)) == ()
    assert the_fault(tube(126)).id == "tube.large"
    assert the_fault(tube(126)).message == (
        "the tube comes to 252 rounds of 400 stitches, more than the 100,000 stitches that can be "
        "planned"
    )


@pytest.mark.parametrize(
    ("needles", "mirror", "message", "widths"),
    [
        (
            20,
            "mirror: true, ",
            "the grid and its mirror image are 16 stitches wide, and do not fill 20 needles evenly",
            "2 or 5 or 10",  # of 1, 2, 5, 10 the three nearest to 8
        ),
        (23, "", "the grid is 8 stitches wide, and does not fill 23 needles evenly", "1 or 23"),
    ],
)
def test_a_grid_that_does_not_fill_the_needles(
    needles: int, mirror: str, message: str, widths: str
) -> None:
    text = changed(
        TUBE, ("needles: 24", f"needles: {needles}"), ("start: 1, ", f"start: 1, {mirror}")
    )
    fault = the_fault(text)

    assert (fault.id, fault.message) == ("picture.width", message)
    assert fault.help == f"Make every line of the grid {widths} stitches wide"
    assert fault.span is not None
    assert (fault.span.line, fault.span.end_line) == (4, 4)  # round 1 is the last line
    assert (fault.span.column, fault.span.end_column) == (1, 9)


def test_a_flat_chart_of_an_odd_number_of_rows_is_not_worked_twice() -> None:
    """Its second pass would begin on a wrong-side row."""
    three = "........\n..##....\n.#..#..#\n"
    flat = changed(
        CAP,
        ("    yarn: slate\n", "    yarn: slate\n    worked: flat\n"),
        ("      - crown: 8\n        to: 8\n", ""),
        ("      - chart: waves\n", "      - chart: waves\n        rounds: 6\n"),
    )
    (fault,) = faults_of(flat, three)

    assert fault.id == "chart.odd"
    assert fault.message == (
        "the chart has 3 rows, so repeated flat its second pass would begin on a wrong-side row"
    )
    assert fault.help == "Draw it twice over in the grid, 6 rows high"
    assert at(fault, flat) == "waves"
    for rounds in (1, 3):
        assert faults_of(changed(flat, ("rounds: 6", f"rounds: {rounds}")), three) == ()
    assert faults_of(changed(flat, ("    worked: flat\n", "")), three) == ()
    assert faults_of(flat, three + "......##\n") == ()


CHART = CAP.partition("    steps:\n")[0] + "    steps:\n"


@pytest.mark.parametrize(
    ("steps", "id", "message", "help", "words"),
    [
        (
            ["chart: waves"],
            "piece.none-live",
            "there are no live stitches to work",
            "Cast on before this step, or take it out",
            "chart: waves",
        ),
        (
            ["cast on: 97", "chart: waves"],
            "chart.width",
            "the chart is 8 stitches wide and does not fit 97 live stitches evenly",
            "It fits 96 or 104 stitches: use `stitches(…, multiple = 8)` where the count is made",
            "waves",
        ),
        (
            ["cast on: 1", "chart: waves"],
            "chart.width",
            "the chart is 8 stitches wide and does not fit 1 live stitch evenly",
            "It fits 8 stitches: use `stitches(…, multiple = 8)` where the count is made",
            "waves",
        ),
        (
            ["cast on: 8", "{work: k all, rounds: 9997}", "chart: waves"],
            "piece.rounds",
            "the piece comes to 10,001 rounds, more than the 10,000 that can be worked",
            "Check the number of rounds or times, and the measures it is made from",
            "chart: waves",
        ),
    ],
)
def test_a_chart_that_can_not_be_worked(
    steps: list[str], id: str, message: str, help: str, words: str
) -> None:
    text = CHART + "".join(f"      - {step}\n" for step in [*steps, "gather: all"])
    fault = the_fault(text)

    assert (fault.id, fault.message, fault.help) == (id, message, help)
    assert at(fault, text) == words


def test_a_chart_that_does_not_keep_its_count_is_told_at_its_line() -> None:
    """Round 1 has three k2tog in 8: they and 5 others use 11 stitches; 99 are nine times 11.

    Round 2 has three too, and finds the 8 that round 1 makes of 11.
    """
    legend = '{".": k, "#": k2tog}'
    steps = "".join(f"      - {step}\n" for step in ("cast on: 99", "chart: waves", "gather: all"))
    fault = the_fault(changed(CHART, ('{".": slate, "#": foam}', legend)) + steps)

    assert fault.message == (
        "round 2 of the chart has 0 increases and 3 decreases: it uses 11 stitches and makes 8 in "
        "each repeat, but round 1 makes 8"
    )
    assert fault.span is not None
    assert (fault.span.file, fault.span.line) == ("pattern/waves.grid", 3)


def test_a_crown_begins_with_the_smallest_size() -> None:
    """96 stitches in S, 104 in M, where the fifth step is the crown."""
    assert crown_starts(plan_of(CAP)) == {("cap", 4): 96}
    assert crown_starts(plan_of(FLAP)) == {}


@pytest.mark.parametrize(
    ("visible", "start", "message", "draw"),
    [
        # 14 rounds over 10 cm: 2 cm are 2.8, so 3; 5 mm are 0.7, so 1
        ("2 cm", 0, "4 rounds high, and the outside has 3 rounds", ", or draw 3 rounds at most"),
        (
            "2 cm",
            1,
            "4 rounds high and starts 1 round above the lower edge, and the outside has 3 rounds",
            ", or draw 2 rounds at most",
        ),
        (
            "2 cm",
            3,
            "4 rounds high and starts 3 rounds above the lower edge, and the outside has 3 rounds",
            "",
        ),
        ("5 mm", 0, "4 rounds high, and the outside has 1 round", ", or draw 1 round at most"),
    ],
)
def test_a_picture_that_is_too_high(visible: str, start: int, message: str, draw: str) -> None:
    text = changed(TUBE, ("[10 cm, 11 cm]", visible), ("start: 1,", f"start: {start},"))
    fault = the_fault(text)

    assert (fault.id, fault.message) == ("picture.height", f"the picture is {message}")
    assert fault.help == f"Make `visible:` longer or the gauge tighter{draw}"


def test_a_strand_too_short_for_any_stitch() -> None:
    text = changed(TUBE, ("    steps:\n", "    colour plan: {strand: 1 mm}\n    steps:\n"))
    fault = the_fault(text)

    assert fault.id == "strand.short"
    assert fault.message == (
        "a strand of 1 mm does not hold two tails of 150 mm and one duplicate stitch"
    )
    assert fault.help == "Take a longer strand, or shorter tails"
    assert at(fault, text) == "1 mm"


def test_shaping_where_no_stitches_are_left() -> None:
    text = changed(
        FLAP,
        (
            "      - bind off: all\n",
            "      - bind off: all\n      - even: increase\n        to: 4\n",
        ),
    )
    fault = the_fault(text)

    assert fault.id == "even.nothing"
    assert fault.message == "there are no live stitches to shape"
    assert fault.span is not None
    assert "even: increase" in text.splitlines()[fault.span.line - 1]


STEPS = FLAP.partition("    steps:\n")[0] + "    steps:\n"


@pytest.mark.parametrize(
    ("steps", "id", "message", "help", "line"),
    [
        (
            ["cast on: 1", "cast on: 8", "bind off: all"],
            "piece.still-live",
            "1 stitch is still live where new ones are begun",
            "Bind off, gather or hold the stitches first",
            1,
        ),
        (
            ["cast on: 4", "bind off: 5", "work: k all"],
            "piece.bind-off",
            "5 stitches are to be bound off, but only 4 stitches are live",
            "Write `all`, or a smaller number",
            1,
        ),
        (
            ["cast on: 4", "bind off: 4", "bind off: 1"],
            "piece.none-live",
            "there are no live stitches to close",
            "Take this step out, or put it where stitches are on the needles",
            2,
        ),
        (
            ["cast on: 4", "bind off: 4", "leave: live"],
            "piece.none-live",
            "there are no live stitches to close",
            "Take this step out, or put it where stitches are on the needles",
            2,
        ),
        (
            ["cast on: 4", "bind off: 4", "gather: all"],
            "piece.none-live",
            "there are no live stitches to close",
            "Take this step out, or put it where stitches are on the needles",
            2,
        ),
        (
            ["cast on: 4", "work: k all", "join: start"],
            "piece.join",
            "the piece's start has no open loops to join to",
            "Cast on with `method: provisional` or `method: waste yarn`, which leave them open",
            2,
        ),
        (
            ["cast on: 4", "work: k all", "join: flap"],
            "piece.join",
            "the piece `flap` leaves no stitches live before this one",
            "End it with the step `- leave: live`, and put it before this piece",
            2,
        ),
        (
            ["{cast on: 4, method: waste yarn}", 'work: "k2tog, k2"', "join: start"],
            "piece.join-count",
            "3 stitches are to be joined to the 4 of the piece's start",
            "Make both edges the same: change one to 4, or the other to 3",
            2,
        ),
        (
            ["cast on: 4", "bind off: 4", "join: start"],
            "piece.none-live",
            "there are no live stitches to close",
            "Take this step out, or put it where stitches are on the needles",
            2,
        ),
        (
            [
                *("{cast on: 8, method: waste yarn}", 'work: ["k8, cast on 8", "p8, hold 8"]'),
                *("join: start", "held: 8", "join: start"),
            ],
            "piece.join",
            "the piece's start has no open loops to join to",  # they are joined already
            "Cast on with `method: provisional` or `method: waste yarn`, which leave them open",
            4,
        ),
        (
            ["cast on: 4", "bind off: 4", "work: k all", "bind off: all"],
            "piece.none-live",
            "there are no live stitches to work",
            "Cast on before this step, or take it out",
            2,
        ),
        (
            ["cast on: 1", "held: 1", "bind off: all"],
            "piece.still-live",
            "1 stitch is still live where new ones are begun",
            "Bind off, gather or hold the stitches first",
            1,
        ),
        (
            ["cast on: 4", 'work: "hold 3, k1"', "bind off: all", "held: 2", "bind off: all"],
            "piece.held",
            "2 held stitches are put back, but 3 are held",
            "Make the number the same as in the row that holds them",
            3,
        ),
        (
            ["cast on: 4", "bind off: all", "held: 0", "bind off: all"],
            "piece.held",
            "no stitches are held here to be put back",
            "Hold them in a row before, as in `hold … stitches`",
            2,
        ),
        (
            ["work: k all", "bind off: all"],
            "piece.none-live",
            "there are no live stitches to work",
            "Cast on before this step, or take it out",
            0,
        ),
        (
            [
                "cast on: 4",
                'work: "*pm, k1; repeat from * to end"',
                "{work: k all, rounds: 10000}",
            ],
            "piece.rounds",
            "the piece comes to 10,001 rows, more than the 10,000 that can be worked",
            "Check the number of rounds or times, and the measures it is made from",
            2,
        ),
        (
            ["cast on: 501", 'work: "*pm, k1; repeat from * to end"', "bind off: all"],
            "piece.markers",
            "there come to be more than 500 markers on the needles",
            "Place markers in a step of its own, worked once, or remove them in the same row",
            1,
        ),
        (
            [
                "cast on: 400",
                'work: "*pm, k1; repeat from * to end"',
                'work: "p200, [pm, p1] 101 times, turn"',  # 99 of the 501 lie behind the turn
                "bind off: all",
            ],
            "piece.markers",
            "there come to be more than 500 markers on the needles",
            "Place markers in a step of its own, worked once, or remove them in the same row",
            2,
        ),
        (
            [
                "cast on: 6250",
                '{work: "*kfb; repeat from * to end", rounds: 4}',  # 12,500, 25,000 to 100,000
                'work: "m1, k9999, turn"',
                "bind off: all",
            ],
            "piece.stitches",
            "there come to be more than 100,000 live stitches",
            "Check whether the row or chart increases in every round, and how often it is worked",
            2,
        ),
        (
            ["cast on: 4", 'work: "k2, hold 2"', "bind off: all"],
            "piece.unfinished",
            "at the end of the piece 2 stitches are still held",
            "Add a step `- held: …` that puts as many back, and close them then",
            None,
        ),
        (
            ["cast on: 4", "work: k all"],
            "piece.unfinished",
            "at the end of the piece 4 stitches are still live",
            "End it with a step that closes them, such as `- bind off: all`",
            None,
        ),
    ],
)
def test_a_step_that_can_not_be_worked(
    steps: list[str], id: str, message: str, help: str, line: int | None
) -> None:
    """``line`` is the step it points at; ``None`` is the piece."""
    fault = the_fault(STEPS + "".join(f"      - {step}\n" for step in steps))

    assert (fault.id, fault.message, fault.help) == (id, message, help)
    assert fault.span is not None
    first = STEPS.count("\n") + 1
    piece = STEPS[: STEPS.index("  flap:")].count("\n") + 1
    assert fault.span.line == (piece if line is None else first + line)


def test_stitches_still_live_where_a_tube_begins() -> None:
    text = changed(TUBE, ("      - stripes:", "      - cast on: 1\n      - stripes:"))
    fault = the_fault(text)

    assert fault.message == "1 stitch is still live where new ones are begun"
    assert fault.span is not None
    assert "stripes" in text.splitlines()[fault.span.line - 1]


def test_a_tube_is_not_embroidered_before_it_is_knitted() -> None:
    text = changed(
        TUBE,
        (
            "      - stripes: from plan\n      - embroider: from plan\n",
            "      - section: Brim\n      - embroider: from plan\n      - stripes: from plan\n",
        ),
    )
    fault = the_fault(text)

    assert fault.id == "piece.embroider-first"
    assert fault.span is not None
    assert "embroider" in text.splitlines()[fault.span.line - 1]


def test_held_stitches_are_put_back_with_or_without_more() -> None:
    steps = [
        *("cast on: 5", 'work: "k4, hold 1"', "bind off: all", "held: 1", "bind off: all"),
        *("cast on: 6", 'work: "k4, hold 2"', "bind off: all", "{held: 2, pick up: 3}"),
        "bind off: all",
    ]
    plan = plan_of(STEPS + "".join(f"      - {step}\n" for step in steps))
    details = [step.detail for step in plan.piece("flap").steps]

    assert details[3:5] == [PickUp((1, 1), (0, 0)), BindOff((1, 1))]
    assert details[8:] == [PickUp((2, 2), (3, 3)), BindOff((5, 5))]


@pytest.mark.parametrize(
    "steps",
    [
        ["cast on: 4", "{work: k all, rounds: 10000}", "bind off: all"],
        ["cast on: 500", 'work: "*pm, k1; repeat from * to end"', "bind off: all"],
        [
            "cast on: 400",
            'work: "*pm, k1; repeat from * to end"',
            'work: "p200, [pm, p1] 100 times, turn"',
            "bind off: all",
        ],
        ["cast on: 6250", '{work: "*kfb; repeat from * to end", rounds: 4}', "bind off: all"],
    ],
)
def test_as_many_rounds_markers_and_stitches_as_can_be_are_worked(steps: list[str]) -> None:
    assert faults_of(STEPS + "".join(f"      - {step}\n" for step in steps)) == ()


def test_as_many_rounds_in_all_as_can_be_are_worked() -> None:
    """5,000 rounds in each of ten sizes of two pieces are 100,000."""
    sizes = "".join(f"  size {number}: {{neck: 34 cm}}\n" for number in range(10))
    text = changed(
        STEPS.partition("pieces:\n")[0],
        ("  S: {neck: 34 cm}\n  M: {neck: 38 cm}\n", sizes),
        ("[20, 24]", "20"),
        ("[10, 12]", "10"),
    )
    text += "pieces:\n"
    for key in ("first", "second"):
        text += f"  {key}:\n    title: Strip\n    steps:\n      - cast on: 1\n"
        text += "      - {work: k all, rounds: 5000}\n      - bind off: all\n"
    one_more = changed(text, ("second", "last"), ("rounds: 5000", "rounds: 5001"))
    fault = the_fault(one_more)

    assert faults_of(text) == ()
    assert (fault.id, fault.message, fault.help) == (
        "piece.rounds",
        "all pieces in all sizes come to more than 100,000 rounds",
        "Check the number of rounds or times, and the measures it is made from",
    )
    assert fault.span is not None
    assert "rounds: 5000" in one_more.splitlines()[fault.span.line - 1]


def test_a_row_in_the_steps_of_a_size_is_told_with_its_number() -> None:
    text = STEPS + "".join(
        f"      - {step}\n"
        for step in ("cast on: narrow", "{work: k all, rounds: 3}", "work: k10", "bind off: all")
    )
    fault = the_fault(text)

    assert fault.message == (
        "size M: in row 4 the row works 10 of 12 live stitches and leaves 2 unworked"
    )
    assert at(fault, text) == "k10"


def test_a_measure_that_is_no_count_can_not_stand_in_a_row() -> None:
    steps = ["cast on: 20", 'work: "k{deep}, k to end"', "bind off: all"]
    text = changed(
        STEPS + "".join(f"      - {step}\n" for step in steps),
        ("measures:\n", "measures:\n  deep: 21 cm\n"),
    )

    assert the_fault(text).message == "`deep` is a length, and a row needs a whole number"
    assert at(the_fault(text), text) == "k{deep}"
    below = the_fault(changed(text, ("deep: 21 cm", "deep: 2 - 5")))
    assert (below.id, below.message) == ("row.negative-number", "`deep` is below 0")


def test_a_body_nobody_measured() -> None:
    near = changed(CAP, ("S: {head: 52 cm}", "S: {like: womann S}"))
    far = changed(CAP, ("S: {head: 52 cm}", "S: {like: zebra}"))
    fault, other = the_fault(near), the_fault(far)

    assert (fault.id, fault.message) == (
        "size.unknown-body",
        "there is no standard body called `womann S`",
    )
    assert fault.help.startswith("Write `woman S` if that is what you mean; there are `newborn`, `")
    assert fault.help.endswith("`")
    assert at(fault, near) == "womann S"
    assert other.help.startswith("Choose another; there are `newborn`, ")


def test_a_join_to_a_piece_that_is_not_there() -> None:
    text = changed(FLAP, ("      - bind off: all\n", "      - join: collar\n"))
    fault = the_fault(text)

    assert fault.id == "piece.join"
    assert fault.message == "there is no piece called `collar`"
    assert at(fault, text) == "collar"


def test_a_gauge_as_written_changes_nothing() -> None:
    source = source_of(CAP)
    plan, notes = replan(source, ())

    assert plan.source is source
    assert notes == ()


def test_a_picture_too_high_is_told_with_the_sizes_it_fits() -> None:
    """At 3 rounds over 10 cm size S shows 3 rounds of 10 cm and M 3.3, so 3; a picture of 4 rounds
    from round 1 fits neither. At 4.6, M shows 5.06 and S 4.6, both 5."""
    source = source_of(TUBE)
    with pytest.raises(PatternError) as none:
        replan(source, parse_gauges(("10 x 3 / 10 cm",)))
    with pytest.raises(PatternError) as one:
        replan(source, parse_gauges(("10 x 4.2 / 10 cm",)))

    assert none.value.findings[0].id == "picture.height"
    assert none.value.findings[0].help.endswith("; it fits in no size at this gauge")
    assert one.value.findings[0].help.endswith("; at this gauge it fits in size M")


def finding(message: str, column: int = 1) -> Diagnostic:
    return Diagnostic("a.fault", message, "Mend it", Span("pattern.yaml", 1, column, 1, column + 1))


def test_findings_of_several_sizes_that_say_the_same_become_one() -> None:
    sizes = ("S", "M", "L")
    found = [
        ("S", finding("too few")),
        ("S", finding("too few")),
        ("M", finding("too many")),
        ("L", finding("too few")),
        *((size, finding("no end", 5)) for size in sizes),
    ]

    assert [each.message for each in together(found, sizes)] == [
        "too few (the figures of size S)",
        "no end",
    ]


def test_sizes_are_named_as_in_a_sentence() -> None:
    assert named(("S",)) == "size S"
    assert named(("S", "M")) == "sizes S and M"
    assert named(("S", "M", "L")) == "sizes S, M and L"
    order = ("S", "M", "L", "XL", "2XL", "3XL")
    assert named(order[1:], order) == "sizes M to 3XL"
    assert named(("S", "L", "XL", "2XL"), order) == "sizes S and L to 2XL"
    assert named(("S", "M", "XL"), order) == "sizes S, M and XL"
