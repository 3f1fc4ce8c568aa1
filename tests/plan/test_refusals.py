"""Wrong sources that only the plan can find out: what is said, and where."""

import pytest
from small_patterns import CAP, FLAP, TUBE, changed, faults_of, source_of

from generator.diagnostics import Diagnostic, PatternError, Span
from generator.plan.persize import named, together
from generator.plan.replan import replan
from generator.source.regauge import parse_gauges


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


def test_a_strand_too_short_for_any_stitch() -> None:
    text = changed(TUBE, ("    steps:\n", "    colour plan: {strand: 1 mm}\n    steps:\n"))
    fault = the_fault(text)

    assert fault.id == "strand.short"
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
        *((size, finding("no end")) for size in sizes),
    ]

    assert [each.message for each in together(found, sizes)] == [
        "sizes S and L: too few",
        "size M: too many",
        "no end",
    ]


def test_sizes_are_named_as_in_a_sentence() -> None:
    assert named(("S",)) == "size S"
    assert named(("S", "M")) == "sizes S and M"
    assert named(("S", "M", "L")) == "sizes S, M and L"
