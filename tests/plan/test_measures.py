"""Measures of every size: worked examples, published percentages, order, kinds, standard bodies."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.plan.measures import MOST, Measures, measure_pattern
from bindoff.plan.persize import named, together
from bindoff.plan.values import Kind
from bindoff.source.rowlang.syntax import SIZE
from tests.small_patterns import CAP, TUBE, changed, faults_of, source_of


def measures_of(text: str = CAP, *changes: tuple[str, str]) -> Measures:
    return measure_pattern(source_of(changed(text, *changes)))


def figures(lines: str, sizes: str = "  S: {head: 52 cm}\n  M: {head: 56 cm}\n") -> Measures:
    """The measures in ``lines``, which stand for those of the cap."""
    head, rest = CAP.split("sizes:\n")
    tail = rest.split("finished:\n")[1]
    measures = "".join(f"  {line.strip()}\n" for line in lines.split("\n"))
    text = f"{head}sizes:\n{sizes}measures:\n{measures}finished:\n{tail}"
    return measure_pattern(source_of(changed(text, ("width(cast_on)", "50 cm"))))


# ---------------------------------------------------------------- worked examples


def test_a_count_keeps_its_exact_figure_and_the_error_of_rounding() -> None:
    """95 % of 52 cm are 49.4 cm, at 2 stitches a cm 98.8; 96 are 2.8 stitches, 14 mm, less."""
    count = measures_of().named["cast_on"].values[0]

    assert count.exact == pytest.approx(98.8)
    assert count.rounded == 96
    assert count.error_mm == pytest.approx(-14.0)
    assert dict(count.inputs) == pytest.approx({"around": 494.0})
    assert count.formula == "stitches(around, multiple = 8)"


def test_a_count_of_figures_that_are_reckoned_in_place() -> None:
    """At 2 stitches a cm 52 cm are 104 stitches and 56 cm 112; multiples of 4 and 3 more are 103
    and 111, a stitch of 5 mm less."""
    found = figures(
        "step: 2\nwide: stitches(max(head, 50 cm), multiple = up(3, 4), plus = step + 1)"
    )
    values = found.named["wide"].values

    assert [value.rounded for value in values] == [103, 111]
    assert [value.exact for value in values] == pytest.approx([104, 112])
    assert [value.error_mm for value in values] == pytest.approx([-5.0, -5.0])


def test_a_count_in_a_further_gauge_keeps_the_error_of_rounding() -> None:
    """At 3 stitches a cm 10.1 cm are 30.3; 30 are 0.3 stitches, 1 mm, less."""
    found = measures_of(
        CAP,
        ("yarns:\n", "gauges:\n  rib: {stitches: 30, rounds: 40}\nyarns:\n"),
        ("  depth:", "  band: rib_stitches(10.1 cm)\n  depth:"),
    )
    value = found.named["band"].values[0]

    assert value.rounded == 30
    assert value.exact == pytest.approx(30.3)
    assert value.error_mm == pytest.approx(-1.0)


def test_published_percentages_of_a_sweater() -> None:
    """Zimmermann, Knitting Without Tears, 1971: of the body's stitches 20 % are the wrist, 33 % the
    sleeve, 8 % the underarm, 40 % the neck; worked for 200 stitches in the list of trade figures:
    40, 66, 16, 80, and a yoke of 200 + 2 x 66 - 4 x 16 = 268."""
    found = figures(
        """body: 200
        cuff: body * 20 %
        sleeve: body * 33 %
        underarm: body * 8 %
        neck: body * 40 %
        yoke: body + 2 * sleeve - 4 * underarm"""
    )

    assert {name: measure.counts for name, measure in found.named.items()} == {
        "body": (200, 200),
        "cuff": (40, 40),
        "sleeve": (66, 66),
        "underarm": (16, 16),
        "neck": (80, 80),
        "yoke": (268, 268),
    }


def test_a_published_depth_of_a_hat() -> None:
    """A crown is as high as the circumference over 6.28 (S92 in the list of trade figures): 100
    stitches at 22 on 10 cm are 45.45 cm around, so 7.2 cm, 21.7 rounds at 30 on 10 cm."""
    found = measures_of(
        CAP,
        ("stitches: 20", "stitches: 22"),
        ("rounds: 28", "rounds: 30"),
        ("  depth:", "  crown: width(100) / 6.2832\n  crown_rounds: rounds(crown)\n  depth:"),
    )

    assert found.named["crown"].rounded[0] == pytest.approx(72.3, abs=0.1)
    assert found.named["crown_rounds"].values[0].exact == pytest.approx(21.7, abs=0.05)
    assert found.named["crown_rounds"].counts == (22, 22)


def test_a_swatch_gives_the_gauge() -> None:
    """27 stitches over 12 cm and 35 rounds over 12.5 cm are 22.5 and 28 over 10 cm."""
    swatch = "gauge: {swatch: {stitches: 27, width: 12 cm, rounds: 35, height: 12.5 cm}}\n"
    found = measures_of(CAP, ("gauge:\n  stitches: 20\n  rounds: 28\n", swatch))
    gauge = found.sizes[0].gauges[""]

    assert gauge.stitches_per() == pytest.approx(22.5)
    assert gauge.rounds_per() == pytest.approx(28.0)


def test_a_gauge_in_inches_is_the_same_gauge() -> None:
    """The inch is 25.4 mm by definition, so 20 stitches on 4 in are 19.685 on 10 cm."""
    found = measures_of(CAP, ("  rounds: 28\n", "  rounds: 28\n  over: 4 in\n"))

    assert found.sizes[0].gauges[""].stitches_per() == pytest.approx(20 / 101.6 * 100)


def test_a_further_gauge_and_that_of_a_size_may_be_counted_over_inches() -> None:
    """18 stitches over 4 in, each of 25.4 mm, are 101.6 / 18 mm wide; 9 over 2 in as well."""
    found = measures_of(
        TUBE,
        ("  M: {head: 26 cm}", "  M: {head: 26 cm, gauge: {stitches: 9, rounds: 12, over: 2 in}}"),
        ("yarns:\n", "gauges:\n  rib: {stitches: 18, rounds: 24, over: 4 in}\nyarns:\n"),
        ("  visible:", "  band: rib_width(18)\n  visible:"),
    )

    assert found.named["band"].rounded == pytest.approx((101.6, 101.6))
    assert found.finished["Circumference"].rounded == pytest.approx((240.0, 24 * 50.8 / 9))


def test_a_gauge_may_be_as_fine_and_as_coarse_as_the_limits() -> None:
    """A stitch 100 mm / 500 = 0.2 mm wide and 100 mm / 0.5 = 200 mm high."""
    found = measures_of(CAP, ("  stitches: 20\n  rounds: 28\n", "  stitches: 500\n  rounds: 0.5\n"))

    assert found.sizes[0].gauges[""].stitch_mm == 0.2
    assert found.sizes[0].gauges[""].round_mm == 200.0


def test_a_size_with_a_gauge_of_its_own_is_counted_by_it() -> None:
    found = measures_of(
        TUBE,
        ("  M: {head: 26 cm}", "  M: {head: 26 cm, gauge: {stitches: 9.5, rounds: 13}}"),
    )

    assert found.finished["Circumference"].rounded == pytest.approx((240.0, 24 / 9.5 * 100))


def test_the_helpers_of_a_further_gauge_bear_its_name() -> None:
    found = measures_of(
        CAP,
        ("yarns:\n", "gauges:\n  rib: {stitches: 30, rounds: 40}\nyarns:\n"),
        ("  depth:", "  band: rib_stitches(10 cm)\n  high: rib_height(8)\n  depth:"),
    )

    assert found.named["band"].counts == (30, 30)
    assert found.named["high"].rounded == (20.0, 20.0)


# ---------------------------------------------------------------- bodies and names


def test_a_size_like_a_standard_body_has_its_measurements() -> None:
    """ANSUR II (NATICK/TR-15/007): head circumference of women, mean 561 mm, to 0.5 cm 56 cm."""
    found = figures("around: head", "  W: {like: woman M}\n  own: {like: woman M, head: 58 cm}\n")

    assert found.named["around"].rounded == (560.0, 580.0)


def test_a_measurement_of_several_words_is_named_with_an_underscore() -> None:
    found = figures(
        "palm: hand_length / 2", "  M: {hand length: 18 cm}\n  L: {hand length: 20 cm}\n"
    )

    assert found.named["palm"].rounded == (90.0, 100.0)


def test_a_measurement_may_be_as_short_as_can_be_written() -> None:
    assert figures("wide: neck", "  S: {neck: 1 mm}\n").named["wide"].rounded == (1.0,)


def test_a_measure_of_hand_knitting_may_be_called_needles() -> None:
    """Only on a machine is that the name of something else."""
    assert figures("needles: 40\nhalf: needles / 2").named["half"].counts == (20, 20)


def test_sizes_may_reckon_in_ways_of_their_own() -> None:
    """Each size by its own formula, even where the sizes need each other's names crosswise."""
    found = figures("first: [second + 1, 3]\nsecond: [4, first * 2]")

    assert found.named["first"].counts == (5, 3)
    assert found.named["second"].counts == (4, 6)


def test_a_fault_of_one_size_is_placed_at_its_own_figure() -> None:
    with pytest.raises(PatternError) as caught:
        figures("depth: [20 cm, 21 cm]\nlow: [4 cm, dept]")
    (fault,) = caught.value.findings

    assert fault.message == "size M: there is no name `dept`"
    assert fault.span is not None
    assert fault.span.end_column - fault.span.column == len("dept")


def test_measures_are_given_in_the_order_they_are_written() -> None:
    assert list(figures("b: a + 1\na: 2").named) == ["b", "a"]


def test_a_count_in_one_size_and_a_number_in_another_are_counts() -> None:
    assert figures("wide: [stitches(head), 100]").named["wide"].kind is Kind.STITCHES


def test_whole_numbers_may_stand_in_rows_and_nothing_else() -> None:
    found = figures("third: [5, 5.5]\nlong: 3 cm\nrib: rounds(4 cm)")

    assert found.numbers(0) == {SIZE: 0, "third": 5, "rib": 11}
    assert found.numbers(1) == {SIZE: 1, "rib": 11}


def test_the_most_that_can_be_worked_is_still_allowed() -> None:
    assert not [
        fault
        for fault in faults_of(changed(CAP, ("        rounds: 8", f"        rounds: {MOST}")))
        if fault.id == "amount.large"
    ]


# ---------------------------------------------------------------- any order, any kind


@given(st.permutations(["a: head / 2", "b: a + 1 cm", "c: b * 2 - a", "d: stitches(c)"]))
def test_any_order_of_lines_gives_the_same_figures(lines: list[str]) -> None:
    """52 cm: a 26, b 27, c 28 cm and so d 56 stitches; 56 cm: 28, 29, 30 cm, 60 stitches."""
    found = figures("\n".join(lines))

    assert found.named["c"].rounded == (280.0, 300.0)
    assert found.named["d"].counts == (56, 60)


@given(
    st.integers(1, 2000),
    st.sampled_from([1, 2, 4, 6, 8, 12]),
    st.integers(0, 5),
    st.integers(8, 40),
)
def test_a_count_is_the_nearest_of_its_multiples(
    mm: int, multiple: int, plus: int, gauge: int
) -> None:
    """By trying every count up to well above the length."""
    call = f"stitches({mm} mm, multiple = {multiple}, plus = {plus})"
    found = measures_of(
        CAP, ("stitches: 20", f"stitches: {gauge}"), ("  depth:", f"  wide: {call}\n  depth:")
    )
    exact = mm * gauge / 100
    fitting = [multiple * times + plus for times in range(1, 900)]
    nearest = min(abs(count - exact) for count in fitting)

    assert found.named["wide"].counts[0] in fitting
    assert abs(found.named["wide"].counts[0] - exact) == pytest.approx(nearest)


# ---------------------------------------------------------------- findings of several sizes


def test_findings_that_are_alike_are_said_once() -> None:
    one = Diagnostic("a.b", "too few", "add some")
    other = Diagnostic("a.b", "too many", "take some")
    found = together([("S", one), ("M", other), ("L", one)], ("S", "M", "L"))

    assert [finding.message for finding in found] == ["too few (the figures of size S)"]
    assert found[0].sizes == ()
    (some,) = together([("M", other), ("L", one)], ("S", "M", "L"))
    assert some.message == "sizes M and L: too many (the figures of size M)"
    assert some.help == "take some; likewise in the other sizes, each with its own figures"
    assert some.sizes == ("M", "L")
    assert together([("S", one), ("M", one)], ("S", "M")) == [one]


def test_sizes_are_named_as_they_are_said() -> None:
    assert named(["S"]) == "size S"
    assert named(["S", "M"]) == "sizes S and M"
    assert named(["S", "M", "L"]) == "sizes S, M and L"


@pytest.mark.parametrize(("told", "state"), [("", "unwashed"), (", state: washed", "washed")])
def test_a_size_measures_its_gauge_in_the_state_of_the_pattern(told: str, state: str) -> None:
    """A size that says nothing of washing was measured as the pattern's own swatch was."""
    own = f"  S: {{head: 52 cm, gauge: {{stitches: 21, rounds: 29{told}}}}}\n"
    found = measures_of(CAP, ("  S: {head: 52 cm}\n", own), ("  rounds: 28\n", UNWASHED))

    assert found.sizes[0].gauges[""].state == state
    assert found.sizes[1].gauges[""].state == "unwashed"


def test_a_swatch_may_be_unwashed() -> None:
    swatch = "{stitches: 27, width: 12 cm, rounds: 35, height: 12.5 cm}"
    text = f"gauge:\n  state: unwashed\n  swatch: {swatch}\n"
    found = measures_of(CAP, ("gauge:\n  stitches: 20\n  rounds: 28\n", text))

    assert found.sizes[0].gauges[""].state == "unwashed"


UNWASHED = "  rounds: 28\n  state: unwashed\n"
