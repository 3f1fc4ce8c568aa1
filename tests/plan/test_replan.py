"""What stands against another gauge: pictures out of proportion, what can't be made, what could."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError, Severity, Span
from bindoff.plan.plan import Plan
from bindoff.plan.replan import replan
from bindoff.source.statedgauge import parse_gauges
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed, source_of

INCH = 25.4  # mm exactly: NIST Special Publication 811, appendix B

TWICE = changed(CAP, ("      - work: k all\n", "      - chart: waves\n      - work: k all\n"))

CHART_ON_TUBE = changed(TUBE, ("      - gather", "      - chart: waves\n      - gather"))

# A tube that is seen for so long, in both sizes the same, and needs 5 rounds for its picture.
SHORT = changed(TUBE, ("visible: [10 cm, 11 cm]", "visible: 11 cm"))

# A band that goes around a circumference in blocks of 8 stitches.
BLOCKS = (
    changed(
        FLAP[: FLAP.index("measures:")],
        ("{neck: 34 cm}", "{neck: 34 cm, gauge: {stitches: 20, rounds: 28}}"),
    )
    + """\
measures:
  around: stitches(40 cm)
finished:
  Width: width(around)
pieces:
  band:
    title: Band
    steps:
      - cast on: around
      - work: "*k7, p1; repeat from * to end"
        rounds: 4
      - bind off: all
"""
)


def replanned(text: str, *gauges: str, grid: str = WAVES) -> tuple[Plan, list[Diagnostic]]:
    """The plan at other gauges, and the warnings."""
    plan, findings = replan(source_of(text, grid), parse_gauges(gauges))
    warnings = [each for each in findings if each.severity is Severity.WARNING]
    assert all(each.id == "regauge.proportions" for each in warnings)
    return plan, warnings


def the_warning(text: str, *gauges: str, grid: str = WAVES) -> Diagnostic:
    _, (warning,) = replanned(text, *gauges, grid=grid)
    return warning


def refused(text: str, *gauges: str) -> tuple[Diagnostic, ...]:
    """What is said of gauges at which the pattern can't be made."""
    with pytest.raises(PatternError) as caught:
        replan(source_of(text), parse_gauges(gauges))
    return caught.value.findings


def offered(text: str, *gauges: str) -> Diagnostic:
    """The gauge that is offered in the place of one that can't be made."""
    *_, last = refused(text, *gauges)
    assert last.id == "regauge.nearest"
    return last


def line_and_words(span: Span | None, text: str) -> tuple[str, str]:
    """The line of a place, and the words of the source there."""
    assert span is not None
    line = text.splitlines()[span.line - 1]
    return line.strip(), line[span.column - 1 : span.end_column - 1]


# ---------------------------------------------------------------- proportions


@pytest.mark.parametrize(
    ("gauge", "warned"),
    [
        ("20 x 28 / 10 cm", False),
        ("22 x 30 / 10 cm", False),  # stitches as wide for their height to 3 %
        ("20 x 29.3 / 10 cm", False),  # 4.6 %
        ("20 x 29.5 / 10 cm", True),  # 5.4 %
        ("30 x 42 / 10 cm", False),
        ("21 x 28 / 10 cm", False),  # 5 % exactly
        ("21.008 x 28 / 10 cm", False),  # 5.04 %
        ("19 x 28 / 10 cm", False),
        ("21.2 x 28 / 10 cm", True),  # 6 %
        ("18.8 x 28 / 10 cm", True),
    ],
)
def test_proportions_are_warned_of_beyond_a_twentieth(gauge: str, warned: bool) -> None:
    _, warnings = replanned(CAP, gauge)

    assert bool(warnings) is warned


def test_a_picture_that_comes_out_taller_says_what_would_keep_it() -> None:
    # stitches half as wide for their height: twice as tall for its width
    warning = the_warning(CAP, "40 x 28 / 10 cm")

    assert warning.message == (
        "`waves` comes out 100 % taller for its width than at the gauge it was drawn for"
    )
    assert warning.help == (
        "With 40 stitches, 56 rounds over 10 cm keep its proportions; "
        "or draw it 2 rounds high instead of 4"
    )


def test_a_picture_that_comes_out_lower_says_what_would_keep_it() -> None:
    warning = the_warning(CAP, "20 x 56 / 10 cm")

    assert warning.message.startswith("`waves` comes out 50 % lower for its width")
    assert warning.help == (
        "With 20 stitches, 28 rounds over 10 cm keep its proportions; "
        "or draw it 8 rounds high instead of 4"
    )


@pytest.mark.parametrize(
    ("grid", "gauge", "redraw"),
    [
        ("#.......\n.######.\n", "40 x 28 / 10 cm", "; or draw it 1 round high instead of 2"),
        # five times as tall: 2 rounds would be 0.4
        ("#.......\n.######.\n", "100 x 28 / 10 cm", "; or draw it 1 round high instead of 2"),
        ("#.......\n", "40 x 28 / 10 cm", ""),
        # 8 % taller: 4 rounds would be 3.7
        (WAVES, "21.6 x 28 / 10 cm", ""),
    ],
)
def test_a_chart_is_not_to_be_drawn_as_high_as_it_is(grid: str, gauge: str, redraw: str) -> None:
    warning = the_warning(CAP, gauge, grid=grid)

    assert warning.help.partition(" keep its proportions")[2] == redraw


def test_a_size_with_its_own_gauge_keeps_the_proportions() -> None:
    text = changed(CAP, ("S: {head: 52 cm}", "S: {head: 52 cm, gauge: {stitches: 20, rounds: 28}}"))
    warning = the_warning(text, "24 x 28 / 10 cm")

    assert warning.message.startswith("size M: `waves` comes out 20 % taller")
    assert warning.help.endswith("it stays as it was in size S")


@pytest.mark.parametrize(
    ("text", "gauge", "line"),
    [
        (CAP, "40 x 28 / 10 cm", "- chart: waves"),
        (TUBE, "20 x 14 / 10 cm", "picture: {chart: waves, start: 1, ground: slate}"),
        (CHART_ON_TUBE, "20 x 14 / 10 cm", "picture: {chart: waves, start: 1, ground: slate}"),
        (TWICE, "40 x 28 / 10 cm", "- chart: waves"),
    ],
    ids=["chart", "picture", "picture worked as a chart too", "chart worked twice"],
)
def test_one_warning_stands_where_a_piece_first_names_a_chart(
    text: str, gauge: str, line: str
) -> None:
    span = the_warning(text, gauge).span

    assert line_and_words(span, text) == (line, "waves")
    assert span is not None
    assert span.line == 1 + next(n for n, at in enumerate(text.splitlines()) if at.strip() == line)


# ---------------------------------------------------------------- pictures that do not fit


def test_a_picture_that_does_not_fit_names_the_sizes_and_a_gauge_nearby() -> None:
    text = changed(TUBE, ("visible: [10 cm, 11 cm]", "visible: [4 cm, 11 cm]"))
    high, nearest = refused(text, "10 x 11 / 10 cm")

    assert high.id == "picture.height"
    assert high.severity is Severity.ERROR
    assert "size S" in high.message
    assert high.help.endswith("; at this gauge it fits in size M")
    assert line_and_words(high.span, text)[1] == "waves"
    assert nearest.id == "regauge.nearest"
    # 4 cm hold the 5 rounds of the picture and below it from 4.5 rounds on, 11.25 over 10 cm
    assert nearest.message == (
        "a gauge near it that can be made has other rounds: `--gauge '10 x 11.3 / 10 cm'`"
    )
    plan, _ = replanned(text, "10 x 11.3 / 10 cm")
    assert plan.pieces


def test_a_picture_at_the_lower_edge_needs_no_more_than_its_own_rounds() -> None:
    """3.2 cm are 3.5 rounds at 11 over 10 cm, 4 as one knits them, and 3.2 at 10."""
    text = changed(TUBE, (" start: 1,", ""), ("[10 cm, 11 cm]", "[3.2 cm, 3.5 cm]"))
    high = refused(text, "10 x 10 / 10 cm")[0]

    assert replanned(text, "10 x 11 / 10 cm")[0].pieces
    assert high.help.endswith("; at this gauge it fits in size M")


def test_only_the_picture_that_does_not_fit_is_looked_at() -> None:
    piece = SHORT[SHORT.index("  cap:\n") :]
    two = SHORT + changed(piece, ("cap:", "cuff:"), ("visible: visible", "visible: 2 cm"))
    high = refused(two, "10 x 11 / 10 cm")[0]

    assert high.id == "picture.height"
    assert high.help.endswith("; it fits in no size at this gauge")


# ---------------------------------------------------------------- a gauge nearby


@pytest.mark.parametrize(
    ("visible", "gauge", "nearby"),
    [
        # the picture needs 4.5 rounds at the least: 4 cm have them at 11.25 over 10 cm
        ("4 cm", "10 x 11.2 / 10 cm", "10 x 11.3 / 10 cm"),  # 1 % more
        # 4.1 cm: 10.98; a hundredth more than 10.97 is 11.08
        ("4.1 cm", "10 x 10.97 / 10 cm", "10 x 11.1 / 10 cm"),
        # 9.01 mm: 49.95, which is 25 % more but for a little
        ("9.01 mm", "10 x 40 / 10 cm", "10 x 50 / 10 cm"),
        ("8.95 mm", "10 x 40 / 10 cm", ""),  # 50.3
    ],
)
def test_rounds_are_changed_by_hundredths_up_to_a_quarter(
    visible: str, gauge: str, nearby: str
) -> None:
    found = refused(changed(SHORT, ("visible: 11 cm", f"visible: {visible}")), gauge)

    assert [each.id for each in found] == ["picture.height", "regauge.nearest"][: 1 + bool(nearby)]
    assert not nearby or found[-1].message.endswith(f" has other rounds: `--gauge '{nearby}'`")


def test_fewer_rounds_are_tried_as_well() -> None:
    """55 cm are 165 rounds at 30 over 10 cm, and 166 from 30.1 on."""
    text = changed(BLOCKS, ("rounds: 4", "rounds: 166 - rounds(55 cm)"))

    assert offered(text, "20 x 40 / 10 cm").message.endswith("`--gauge '20 x 30 / 10 cm'`")


def test_other_stitches_are_looked_for_where_other_rounds_do_not_help() -> None:
    """40 cm are 80 stitches at 20 over 10 cm, 85 at 21.3, and 88 from 21.875 on."""
    nearest = offered(BLOCKS, "S = 21.3 x 28 / 10 cm")

    assert nearest.message == (
        "a gauge near it that can be made has other stitches: `--gauge 'S = 21.9 x 28 / 10 cm'`"
    )
    assert nearest.help == "Try it, or change what does not fit"
    assert nearest.severity is Severity.NOTE


def test_all_gauges_that_are_stated_change_together() -> None:
    nearest = offered(BLOCKS, "21.3 x 28 / 10 cm", "S = 21.3 x 26 / 10 cm")

    assert nearest.message.endswith(
        " other stitches: `--gauge '21.9 x 28 / 10 cm'` `--gauge 'S = 21.9 x 26 / 10 cm'`"
    )


@pytest.mark.parametrize(
    ("count", "nearby"),
    [("around", ""), ("around + 1", "21.65 x 30.1 / 10 cm")],
    ids=["216 or 215", "217 or 216"],
)
def test_a_gauge_over_inches_is_tried_as_it_would_be_written(count: str, nearby: str) -> None:
    """99.53 cm are 216 stitches at 55 over 10 in, but 215 at what that is to a hundredth over
    10 cm; the ribbing needs an even number. The rounds must come down from 90 over 10 in."""
    per_10_cm = 55 / (10 * INCH) * 100
    assert round(per_10_cm, 2) == 21.65
    assert round(995.3 / 100 * per_10_cm) == 216
    assert round(995.3 / 100 * 21.65) == 215
    text = changed(
        BLOCKS,
        (", gauge: {stitches: 20, rounds: 28}", ""),
        ("stitches(40 cm)", "stitches(99.53 cm)"),
        ("cast on: around", f"cast on: {count}"),
        ("*k7, p1;", "*k1, p1;"),
        ("      - bind off", "      - {work: k all, rounds: 30 - rounds(10 cm)}\n      - bind off"),
    )
    found = refused(text, "55 x 90 / 10 in")

    offers = [each for each in found if each.id == "regauge.nearest"]
    assert len(offers) == bool(nearby)
    assert all(each.message.endswith(f" other rounds: `--gauge '{nearby}'`") for each in offers)
    assert not nearby or replanned(text, nearby)[0].pieces


def test_rounds_over_inches_are_offered_to_a_hundredth() -> None:
    """90 over 10 in are 35.43 over 10 cm; 40 cm are 88 stitches from 21.875 over 10 cm on."""
    assert offered(BLOCKS, "55 x 90 / 10 in").message.endswith("`--gauge '21.9 x 35.43 / 10 cm'`")


@settings(max_examples=10, deadline=None)
@given(st.integers(50, 60), st.sampled_from(["10 cm", "6 in", "7 cm"]))
def test_a_gauge_that_is_offered_can_be_made(stitches: int, over: str) -> None:
    try:
        replanned(BLOCKS, f"M = {stitches / 3:.2f} x 21 / {over}")
    except PatternError as error:
        said = error.findings[-1].message
        assert replanned(BLOCKS, said.split("'")[1])[0].pieces


def test_the_place_of_an_offer_is_the_gauge_that_was_written() -> None:
    named = changed(
        BLOCKS,
        ("yarns:", "gauges:\n  ribbing: {stitches: 20, rounds: 28}\nyarns:"),
        ("stitches(40 cm)", "ribbing_stitches(40 cm)"),
    )
    rib = offered(named, "ribbing = 21.3 x 28 / 10 cm")
    size = offered(BLOCKS, "S = 21.3 x 28 / 10 cm")
    main = offered(BLOCKS, "21.3 x 28 / 10 cm")

    assert line_and_words(main.span, BLOCKS) == ("gauge: {stitches: 20, rounds: 28}", "gauge")
    assert line_and_words(size.span, BLOCKS) == (
        "S: {neck: 34 cm, gauge: {stitches: 20, rounds: 28}}",
        "gauge",
    )
    assert line_and_words(rib.span, named) == ("ribbing: {stitches: 20, rounds: 28}", "ribbing")


def test_a_gauge_far_from_all_that_fits_has_no_neighbour() -> None:
    text = changed(TUBE, ("visible: [10 cm, 11 cm]", "visible: [2 cm, 2 cm]"), ("14}", "28}"))
    found = refused(text, "10 x 10 / 10 cm")

    assert {finding.id for finding in found} == {"picture.height"}
    assert found[0].help.endswith("; it fits in no size at this gauge")
