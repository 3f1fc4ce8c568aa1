"""Fixes are offered where they mend, and silences are written where the pattern has its own."""

import pytest

from bindoff.desk.edits import Edit
from bindoff.desk.mending import changed, silencing, with_sound_fixes
from bindoff.diagnostics import Diagnostic, Fix, PatternError, Span
from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from bindoff.source.read import read_source
from tests.small_patterns import CAP, WAVES

SOURCE = "pattern.yaml"


def findings(text: str) -> tuple[Diagnostic, ...]:
    files = MemoryFiles({SOURCE: text, "waves.grid": WAVES})
    try:
        found = check_pattern(files, SOURCE, "cap")
    except PatternError as error:
        found = error.findings
    return with_sound_fixes(found, files, SOURCE, "cap")


@pytest.mark.parametrize(
    ("before", "slip", "words", "mended"),
    [
        ("title: Cap", "title: Cap: blue", "Put quotes around it", 'title: "Cap: blue"'),
        ("title: Cap", "title: @Cap", "Put quotes around it", 'title: "@Cap"'),
        ("title: Cap", 'title: "Cap" blue', "Put quotes around it", "title: '\"Cap\" blue'"),
        ("title: Cap", "title: 'Cap", "Add ' at the end of the line", "title: 'Cap'"),
        ("title: Cap", "title:Cap", "Put a space after the colon", "title: Cap"),
        ("head: 56 cm", "head: 56,5 cm", "Write a point for the comma", "head: 56.5 cm"),
        ("head * 95 %", "6,5 cm", "Write `.`", "6.5 cm"),
        (
            "  M: {head: 56 cm}",
            "  M:\n    head: 56,5 cm",
            "Write `56.5 cm`",
            "  M:\n    head: 56.5 cm",
        ),
        ("head: 56 cm", "head: 56", "Write `56 cm`", "head: 56 cm"),
        ("stitches: 20", "stitches: 20,5", "Write `20.5`", "stitches: 20.5"),
        ("rounds(depth) - 30", "rounds(depth) - 30,0", "Write `.`", "rounds(depth) - 30.0"),
        ("around: head", "around: hed", "Write `head`", "around: head"),
        ("yarn: slate", "yarn: slat", "Write `slate`", "yarn: slate"),
        ("chart: waves", "chart: wave", "Write `waves`", "chart: waves"),
        ("wearer: [adult]", "wearer: [adlt]", "Write `adult`", "wearer: [adult]"),
        ("    yarn: slate", "    yarm: slate", "Write `yarn`", "    yarn: slate"),
        ("- gather: all", "- gathr: all", "Write `gather`", "- gather: all"),
        ("- cast on: cast_on", "- cast on cast_on", "Write `cast on: cast_on`", None),
        ('".": slate', '".": slat', "Write `slate`", '".": slate'),
    ],
)
def test_a_fix_mends_its_line(before: str, slip: str, words: str, mended: str | None) -> None:
    sound = CAP.replace("Quay Cap", "Cap")
    assert sound.count(before) >= 1
    text = sound.replace(before, slip, 1)
    fixes = [(each, fix) for each in findings(text) for fix in each.fixes if fix.words == words]
    assert fixes, findings(text)
    finding, fix = fixes[0]
    span = fix.span or finding.span
    assert span is not None
    again = changed(text, [Edit(span, fix.text)])

    assert again == sound.replace(before, mended or before, 1)
    assert not [each for each in findings(again) if each.id == finding.id]


def test_advice_that_does_not_mend_is_not_offered() -> None:
    """In braces, quotes to the end of the line would take the brace with them."""
    text = CAP.replace("{name: Slate,", "{name: @Slate,")
    found = findings(text)

    assert found[0].id == "yaml.needs-quotes"
    assert found[0].fixes == ()
    place = Span(f"pattern/{SOURCE}", 1, 1, 1, 6)
    bad = Diagnostic("a.b", "x", "y", place, fixes=(Fix("Worse", "tilte"), Fix("Same", "title")))
    files = MemoryFiles({SOURCE: CAP, "waves.grid": WAVES})
    (kept,) = with_sound_fixes([bad], files, SOURCE, "cap")
    assert [each.words for each in kept.fixes] == ["Same"]


@pytest.mark.parametrize(
    ("there", "after"),
    [
        ("", 'silence:\n  - {check: float.long, because: "It is \\"caught\\""}\n'),
        (
            "silence:\n  - {check: yarn.alike, because: So.} # kept\n",
            "silence:\n  - {check: yarn.alike, because: So.} # kept\n"
            '  - {check: float.long, because: "It is \\"caught\\""}\n',
        ),
        (
            "silence:\n- check: yarn.alike\n  because: >-\n    So it\n    is.\ntools: []\n",
            "silence:\n- check: yarn.alike\n  because: >-\n    So it\n    is.\n"
            '- {check: float.long, because: "It is \\"caught\\""}\ntools: []\n',
        ),
        (
            "silence: [{check: yarn.alike, because: So.}]\n",
            "silence: [{check: yarn.alike, because: So.}, "
            '{check: float.long, because: "It is \\"caught\\""}]\n',
        ),
    ],
)
def test_a_silence_is_written_behind_those_there_are(there: str, after: str) -> None:
    head = CAP.replace("tools:\n  - {name: 4.5 mm circular needle, use: throughout}\n", "")
    text = head + there
    source = read_source(MemoryFiles({SOURCE: text, "waves.grid": WAVES}), SOURCE, "cap")
    again = changed(text, silencing(source, "float.long", 'It is "caught"'))

    assert again == head + after
    read = read_source(MemoryFiles({SOURCE: again, "waves.grid": WAVES}), SOURCE, "cap")
    assert read.pattern.silence[-1].because == 'It is "caught"'


def test_a_silence_without_a_line_end_before_it() -> None:
    source = read_source(MemoryFiles({SOURCE: CAP[:-1], "waves.grid": WAVES}), SOURCE, "cap")
    again = changed(CAP[:-1], silencing(source, "float.long", "so"))
    assert again == CAP + 'silence:\n  - {check: float.long, because: "so"}\n'


def test_every_place_of_a_text_is_found() -> None:
    text = "one\n\ntwo"
    assert changed(text, [Edit(Span("f", 3, 4, 3, 4), "!"), Edit(Span("f", 1, 1, 2, 1), "")]) == (
        "\ntwo!"
    )
