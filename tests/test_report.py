"""How findings are printed."""

import json
from dataclasses import replace

import click
from hypothesis import given
from hypothesis import strategies as st

from bindoff import report
from bindoff.diagnostics import Diagnostic, Severity, Span
from bindoff.report import full
from tests.hostile.fuzz import limited

SOURCE = {"hat/pattern.yaml": ["title: Breakwater Hat", "depth: 21", "colour: #3d4a57"]}


def lines_of(file: str) -> list[str]:
    return SOURCE.get(file, [])


def finding(
    line: int = 2,
    column: int = 8,
    end_column: int = 10,
    *,
    id: str = "length.without-unit",
    severity: Severity = Severity.ERROR,
    file: str = "hat/pattern.yaml",
) -> Diagnostic:
    span = Span(file, line, column, line, end_column)
    return Diagnostic(id, "`21` has no unit", "Add the unit, as in `21 cm`", span, severity)


def picture(line: str, column: int, end_column: int, end_line: int = 1) -> list[str]:
    """The line of source and the marker below it, as printed for a place in ``line``."""
    span = Span("f", 1, column, end_line, end_column)
    text = report.full([Diagnostic("a.b", "m", "h", span)], lambda file: [line])
    return text.splitlines()[3:5]


def test_a_finding_shows_its_line_with_a_marker_and_the_help() -> None:
    assert report.full([finding()], lines_of) == (
        "error[length.without-unit]: `21` has no unit\n"
        " --> hat/pattern.yaml:2:8\n"
        "  |\n"
        "2 | depth: 21\n"
        "  |        ^^\n"
        "help: Add the unit, as in `21 cm`\n"
    )


def test_an_empty_line_parts_two_findings() -> None:
    text = report.full([finding(), finding(3, 9, 16)], lines_of)
    assert text.count("\n\nerror[") == 1


def test_a_place_that_cannot_be_shown_is_still_named() -> None:
    for unknown in (finding(9), finding(file="gone.yaml")):
        text = report.full([unknown], lines_of)
        assert f"--> {unknown.span}\n" in text
        assert "^" not in text


def test_a_finding_without_a_place_has_its_message_and_help() -> None:
    text = report.full([Diagnostic("a.b", "nothing to build", "Name a pattern")], lines_of)
    assert text == "error[a.b]: nothing to build\nhelp: Name a pattern\n"


def test_an_empty_place_and_one_behind_the_line_get_one_mark() -> None:
    assert picture("abc", 2, 2) == ["1 | abc", "  |  ^"]
    assert picture("abc", 9, 12) == ["1 | abc", "  |    ^"]
    assert picture("", 1, 1) == ["1 |", "  | ^"]


def test_a_place_over_several_lines_is_marked_to_the_end_of_its_first() -> None:
    assert picture("say: |", 6, 3, end_line=4) == ["1 | say: |", "  |      ^"]


def test_wide_characters_take_two_columns() -> None:
    """Unicode Standard Annex 11: ideographs and most emoji are wide, combining marks take none."""
    assert picture("編む: x", 5, 6) == ["1 | 編む: x", "  |       ^"]
    assert picture("編む: x", 1, 3) == ["1 | 編む: x", "  | ^^^^"]
    assert picture("🧶 x", 3, 4) == ["1 | 🧶 x", "  |    ^"]
    assert picture("e\u0301 x", 4, 5) == ["1 | e\u0301 x", "  |   ^"]


def test_a_tab_is_shown_as_four_spaces() -> None:
    assert picture("a:\tb", 4, 5) == ["1 | a:    b", "  |       ^"]
    assert picture("\tb", 1, 2) == ["1 |     b", "  | ^^^^"]


def test_characters_that_could_change_the_terminal_are_not_printed() -> None:
    escape = Diagnostic("a.b", "`\x1b[31m` is \u202e odd", "h\x07", Span("\x1b]0;f", 1, 1, 1, 2))
    text = report.full([escape], lambda file: ["\x1b[2J\u202e"])
    assert not set(text) & set("\x1b\x07\u202e")
    assert "�[2J�" in text


def test_a_long_line_is_cut_around_the_place() -> None:
    line = "".join(f"{number:03} " for number in range(100))
    shown, marker = picture(line, 201, 204)
    assert len(shown) <= 4 + 96
    assert shown[4] == shown[-1] == "…"
    assert shown[marker.index("^") : marker.rindex("^") + 1] == "050"


def test_a_place_longer_than_the_window_is_cut_too() -> None:
    shown, marker = picture("x" * 300, 1, 301)
    assert shown == "1 | " + "x" * 95 + "…"
    assert marker == "  | " + "^" * 96


def test_gutter_fits_the_line_number() -> None:
    text = report.full([finding(10, 1, 2)], lambda file: ["x"] * 10)
    assert text.splitlines()[1:5] == ["  --> hat/pattern.yaml:10:1", "   |", "10 | x", "   | ^"]


def test_json_is_a_record_for_each_finding() -> None:
    (record,) = json.loads(json.dumps(report.to_json([finding()])))
    assert record == {
        "id": "length.without-unit",
        "severity": "error",
        "message": "`21` has no unit",
        "help": "Add the unit, as in `21 cm`",
        "file": "hat/pattern.yaml",
        "line": 2,
        "column": 8,
        "end_line": 2,
        "end_column": 10,
        "beside": [],
        "sizes": [],
        "follows": [],
        "fixes": [],
    }
    assert report.to_json([Diagnostic("a.b", "m", "h")])[0]["line"] is None


def test_a_place_that_a_finding_contradicts_is_shown_below_its_own() -> None:
    other = replace(finding(), beside=(Span("hat/pattern.yaml", 1, 1, 1, 4),))
    text = report.full([other], lambda file: ["depth: 20", "brim:  21 cm"])
    (record,) = report.to_json([other])

    assert text.splitlines()[1:9] == [
        " --> hat/pattern.yaml:2:8",
        "  |",
        "2 | brim:  21 cm",
        "  |        ^^",
        " and hat/pattern.yaml:1:1",
        "  |",
        "1 | depth: 20",
        "  | ^^^",
    ]
    assert record["beside"] == [
        {"file": "hat/pattern.yaml", "line": 1, "column": 1, "end_line": 1, "end_column": 4}
    ]


def test_findings_of_several_sizes_stay_in_the_order_of_the_sizes() -> None:
    """Size L is after S, though not in the alphabet."""
    found = [replace(finding(), message=f"size {size}: too wide") for size in ("S", "M", "L")]

    assert list(report.ordered(found)) == found


def test_findings_stand_by_file_place_severity_and_id() -> None:
    expected = [
        Diagnostic("z.z", "no place", "h"),
        finding(9, file="a.grid"),
        finding(1),
        finding(2, 1),
        finding(2, 8, id="b.a"),
        finding(2, 8, id="b.b"),
        finding(2, 8, id="a.a", severity=Severity.WARNING),
        finding(2, 8, id="a.a", severity=Severity.NOTE),
        finding(10),
    ]
    assert report.ordered([*reversed(expected), *expected]) == tuple(expected)


def test_summary_counts_each_finding_once() -> None:
    warning = finding(severity=Severity.WARNING)
    assert report.summary([finding(), finding(), finding(3), warning]) == "2 errors, 1 warning"
    assert report.summary([]) == "no findings"


def test_colour_only_if_asked_and_never_in_the_words() -> None:
    plain = report.full([finding()], lines_of)
    coloured = report.full([finding()], lines_of, colour=True)
    assert "\x1b" not in plain
    assert coloured != plain
    assert click.unstyle(coloured) == plain


@given(st.text(max_size=200), st.integers(1, 250), st.integers(1, 250), st.integers(1, 3))
def test_any_line_and_place_is_shown_on_two_lines(
    line: str, column: int, end_column: int, end_line: int
) -> None:
    span = Span("f", 1, column, end_line, end_column)
    text = report.full([Diagnostic("a.b", line, line or "-", span)], lambda file: [line])
    assert len(text.split("\n")) == 7
    assert all(character.isprintable() for character in text.replace("\n", ""))
    assert "^" in text.split("\n")[4]


def test_what_follows_from_a_finding_is_folded_beneath_it() -> None:
    followers = tuple(finding_at(line) for line in (9, 7, 5, 11))
    cause = replace(finding_at(2), follows=followers)
    text = report.full([cause], lambda file: [])

    assert text.splitlines()[-5:] == [
        "and 4 more that follow from it:",
        "  f:5:1: m [c.d]",
        "  f:7:1: m [c.d]",
        "  f:9:1: m [c.d]",
        "  and 1 other",
    ]
    assert [each["line"] for each in report.to_json([cause])[0]["follows"]] == [5, 7, 9, 11]
    one = report.full([replace(cause, follows=followers[:1])], lambda file: [])
    assert "and 1 more that follows from it:" in one


def finding_at(line: int) -> Diagnostic:
    return Diagnostic("c.d", "m", "h", Span("f", line, 1, line, 2))


def test_many_findings_in_a_line_as_long_as_a_book_are_told_soon() -> None:
    """Of a line no more is looked at than is shown."""
    line = "Knit 24 stitches. " * 1000
    findings = [
        Diagnostic("a.id", "no", "help", Span("f", 1, at, 1, at + 2)) for at in range(1, 5001)
    ]
    with limited(5.0):
        told = full(findings, lambda _: (line,))

    assert told.count("a.id") == len(findings)
    assert max(map(len, told.splitlines())) < 110
