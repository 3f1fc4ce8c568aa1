"""The slip itself is told, once and first; what the plan says because of it lies beneath."""

import pytest

from bindoff.checks.causes import causes_first
from bindoff.diagnostics import Diagnostic, PatternError, Severity, Span
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern
from bindoff.records import replace
from tests.small_patterns import CAP, TUBE, WAVES, changed, source_of

# Rounds of the plain part are 28 a 10 cm of `depth`, less the 12 of rib and chart.
DEEP = changed(
    CAP,
    ("  S: {head: 52 cm}\n  M: {head: 56 cm}\n", "  S: {head: 52 cm}\n  M: {head: 56 cm}\nMORE"),
    ("  depth: [20 cm, 21 cm]\n", "  depth: 100 cm - head\n"),
    ("rounds(depth) - 30", "rounds(depth) - 100"),
).replace("MORE", "")


def said(text: str, silence: str = "") -> tuple[Diagnostic, ...]:
    files = MemoryFiles({"pattern.yaml": text + silence, "waves.grid": WAVES})
    try:
        return check_pattern(files, "pattern.yaml", "cap")
    except PatternError as error:
        return error.findings


def errors(text: str, silence: str = "") -> list[tuple[str, str, list[str]]]:
    """Id, line of source and followers of every error."""
    lines = text.split("\n")
    return [
        (each.id, lines[each.span.line - 1].strip(), [one.id for one in each.follows])
        for each in said(text, silence)
        if each.severity is Severity.ERROR and each.span
    ]


def test_the_pattern_holds_as_it_is() -> None:
    assert errors(DEEP) == []


def test_a_head_in_inches_is_told_at_the_head() -> None:
    """64 in for 56 cm: 100 cm less the head leaves less than nothing for the depth."""
    text = changed(DEEP, ("M: {head: 56 cm}", "M: {head: 64 in}"))
    ((id, line, follows),) = errors(text)

    assert (id, line) == ("body.range", "M: {head: 64 in}")
    assert "formula.length" in follows


def test_the_first_size_out_of_order_is_told_at_itself_and_not_at_the_next() -> None:
    text = changed(
        DEEP,
        ("S: {head: 52 cm}", "S: {head: 64 in}"),
        ("  M: {head: 56 cm}\n", "  M: {head: 56 cm}\n  L: {head: 60 cm}\n"),
    )
    ((id, line, follows),) = errors(text)

    assert (id, line) == ("size.order", "S: {head: 64 in}")
    assert follows


def test_a_gauge_over_the_wrong_length_is_told_at_the_length() -> None:
    """20 stitches over 10 in are 7.9 over 10 cm, far from a medium yarn's 16 to 20 over 4 in
    (Craft Yarn Council, Standard Yarn Weight System)."""
    text = changed(DEEP, ("  rounds: 28\n", "  rounds: 28\n  over: 10 in\n"))
    ((id, line, follows),) = errors(text)

    assert (id, line) == ("gauge.over", "over: 10 in")
    assert "amount.small" in follows
    assert errors(changed(DEEP, ("  rounds: 28\n", "  rounds: 28\n  over: 4 in\n"))) == []
    assert errors(changed(DEEP, ("  rounds: 28\n", "  rounds: 28\n  over: 10 cm\n"))) == []


def test_stitches_and_rounds_that_changed_places_are_told_at_the_gauge() -> None:
    text = changed(DEEP, ("  stitches: 20\n  rounds: 28\n", "  stitches: 28\n  rounds: 20\n"))
    ((id, line, follows),) = errors(text)

    assert (id, line) == ("gauge.swapped", "stitches: 28")
    assert "amount.small" in follows


def test_a_cause_that_is_silenced_causes_nothing() -> None:
    text = changed(DEEP, ("  rounds: 28\n", "  rounds: 28\n  over: 10 in\n"))
    found = errors(text, "silence:\n  - {check: gauge.over, because: the fabric is very open}\n")

    assert [id for id, *_ in found] == ["amount.small"]


def test_what_is_wrong_beside_it_is_told_beside_it() -> None:
    text = changed(
        DEEP,
        ("M: {head: 56 cm}", "M: {head: 64 in}"),
        ("alt: Low light waves on a dark ground.", "alt: waves.png"),
    )
    ids = [each.id for each in said(text)]

    assert "alt.words" in ids
    assert "body.range" in ids


def test_a_build_says_the_same() -> None:
    text = changed(DEEP, ("M: {head: 56 cm}", "M: {head: 64 in}"))
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    with pytest.raises(PatternError) as raised:
        build_pattern(files, "pattern.yaml", "cap")

    assert "body.range" in [each.id for each in raised.value.findings]


SOURCE = source_of(CAP)


def finding(id: str, *sizes: str, severity: Severity = Severity.ERROR) -> Diagnostic:
    return Diagnostic(id, "m", "h", sizes=sizes, severity=severity)


def test_a_cause_explains_only_its_own_sizes() -> None:
    cause = finding("gauge.swapped", "M", severity=Severity.WARNING)
    of_m, of_all = finding("row.left-over", "M"), finding("chart.width")

    first, second = causes_first([cause], SOURCE, [of_m, of_all])

    assert first.follows == (of_m,)
    assert first.severity is Severity.ERROR
    assert second == of_all


def test_a_figure_explains_only_what_is_made_from_it() -> None:
    """The tube's rounds are typed: its heads, which no adult has, are no cause of their fault."""
    text = changed(TUBE, ("[10 cm, 11 cm]", "[1 cm, 11 cm]"))
    found = {each.id: each for each in said(text)}

    assert found["picture.height"].severity is Severity.ERROR
    assert found["body.range"].severity is Severity.WARNING
    assert found["body.range"].follows == ()


def test_a_typing_slip_in_a_row_follows_from_no_figure() -> None:
    cause = finding("gauge.swapped", severity=Severity.WARNING)
    slip = finding("row.unknown-stitch")

    assert causes_first([cause], SOURCE, [slip]) == (cause, slip)


def test_an_undeclared_hazard_lies_beneath_the_caution_that_forbids_it() -> None:
    safety, declared = finding("wearer.safety"), finding("wearer.hazards")

    assert [each.id for each in causes_first([declared, safety], SOURCE)] == ["wearer.safety"]


def test_what_a_closer_check_says_of_the_same_words_is_told_once() -> None:
    """And of other words in the line both are told."""
    words, apart = Span("f", 3, 5, 3, 20), Span("f", 3, 30, 3, 40)
    claim = replace(finding("prose.claim"), span=words)
    yarn = replace(finding("prose.yarn"), span=words)

    assert [each.id for each in causes_first([claim, yarn], SOURCE)] == ["prose.yarn"]
    assert causes_first([replace(claim, span=apart), yarn], SOURCE) == (
        replace(claim, span=apart),
        yarn,
    )
