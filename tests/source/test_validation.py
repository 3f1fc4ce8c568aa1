"""From plain data to the models: what is taken, and how a fault is put."""

import pytest
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.source.modelpaths import model_at
from bindoff.source.models import (
    CellMeaning,
    CrownStep,
    Gauge,
    PanelShape,
    Pattern,
    Piece,
    Size,
    Step,
    Yarn,
)
from bindoff.source.validation import said, validate
from bindoff.source.yamltree import read_yaml
from hypothesis import given
from hypothesis import strategies as st
from small_patterns import CAP, FLAP, changed


def pattern_of(text: str) -> Pattern:
    return validate(read_yaml(text, "pattern.yaml"))


def faults_of(text: str) -> list[Diagnostic]:
    with pytest.raises(PatternError) as caught:
        pattern_of(text)
    return list(caught.value.findings)


def test_a_version_stays_as_it_was_typed() -> None:
    pattern = pattern_of(changed(CAP, ('version: "1.0"', "version: 1.10")))

    assert pattern.version == "1.10"


def test_a_number_is_taken_for_a_name() -> None:
    pattern = pattern_of(changed(CAP, ("name: Slate", "name: 007")))

    assert pattern.yarns["slate"].name == "007"


def test_the_data_read_from_the_file_are_left_alone() -> None:
    tree = read_yaml(changed(CAP, ("name: Slate", "name: 12")), "pattern.yaml")

    validate(tree)

    assert tree.data["yarns"]["slate"]["name"] == 12


def test_a_misspelt_key_is_told_once() -> None:
    """Not again as a key that is missing."""
    (fault,) = faults_of(changed(CAP, ("weight: 4", "wait: 4")))

    assert fault.id == "source.unknown-key"


def test_a_foreign_key_and_a_missing_one_are_two_faults() -> None:
    faults = faults_of(changed(CAP, ("weight: 4", "shade: 4")))

    assert [fault.id for fault in faults] == ["source.missing", "source.unknown-key"]


def test_a_list_with_faulty_entries_is_not_also_said_to_be_short() -> None:
    faults = faults_of(changed(CAP, ("wearer: [adult]", "wearer: [cat, dog]")))

    assert [fault.message for fault in faults] == [
        "entry 1 of `wearer` can't be `cat`",
        "entry 2 of `wearer` can't be `dog`",
    ]


def test_an_empty_list_is_told() -> None:
    (fault,) = faults_of(changed(CAP, ("wearer: [adult]", "wearer: []")))

    assert (fault.message, fault.help) == ("`wearer` is empty", "Give at least 1")


def test_a_missing_line_and_a_missing_entry_in_braces_are_added_differently() -> None:
    (line,) = faults_of(changed(CAP, ("    title: Cap\n", "")))
    (braces,) = faults_of(changed(CAP, ("name: Slate, ", "")))

    assert line.help == "Add `title: …` on a line of its own: the heading of the piece"
    assert braces.help == "Add `name: …` inside the braces: what the pattern calls this yarn"


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ((), "the pattern"),
        (("title",), "`title`"),
        (("gauge", "stitches"), "`stitches` of `gauge`"),
        (("yarns", "slate", "weight"), "`weight` of the yarn `slate`"),
        (("sizes", "S", "gauge", "rounds"), "`rounds` of `gauge` of the size `S`"),
        (("pieces", "hat", "steps", 2, "to"), "`to` of step 3 of the piece `hat`"),
        (("pieces", "hat", "tube", "brim"), "`brim` of `tube` of the piece `hat`"),
        (("wearer", 0), "entry 1 of `wearer`"),
        (("photos", 1, "alt"), "`alt` of photo 2"),
        (("measures", "depth", 3), "entry 4 of the measure `depth`"),
        (("charts", "net", "legend", "#"), "`#` of `legend` of the chart `net`"),
    ],
)
def test_a_place_is_said_in_words(path: tuple[str | int, ...], words: str) -> None:
    assert said(path) == words


@pytest.mark.parametrize(
    ("path", "model"),
    [
        ((), Pattern),
        (("gauge",), Gauge),
        (("yarns",), None),
        (("yarns", "slate"), Yarn),
        (("sizes", "S"), Size),
        (("pieces", "cap"), Piece),
        (("pieces", "cap", "steps"), None),
        (("pieces", "cap", "steps", 4), CrownStep),
        (("charts", "waves", "legend"), None),
        (("measures", "depth"), None),
    ],
)
def test_the_model_of_a_place(path: tuple[str | int, ...], model: type | None) -> None:
    assert model_at(path, read_yaml(CAP, "pattern.yaml").data) is model


def test_the_model_of_an_outline_and_of_a_legend_entry() -> None:
    flap = changed(
        FLAP,
        ("    worked: flat\n", "    worked: flat\n    schematic: {shape: panel, height: 4 cm}\n"),
    )
    cap = changed(CAP, ('"#": foam', '"#": {yarn: foam}'), (" - gather", " - gathr"))
    data = read_yaml(cap, "pattern.yaml").data

    assert model_at(("pieces", "flap", "schematic"), read_yaml(flap, "p").data) is PanelShape
    assert model_at(("charts", "waves", "legend", "#"), data) is CellMeaning
    assert model_at(("pieces", "cap", "steps", 5), data) is Step


@given(
    st.sampled_from(["title", "gauge", "yarns", "sizes", "pieces", "charts", "finished", "wearer"]),
    st.sampled_from(["[]", "{}", "~", "7", "word", "[[1]]", "{a: {b: c}}", "true", '""']),
)
def test_whatever_stands_there_the_answer_is_a_pattern_or_findings(key: str, junk: str) -> None:
    lines = CAP.split("\n")
    start = next(index for index, line in enumerate(lines) if line.startswith(f"{key}:"))
    end = next(
        index for index, line in enumerate(lines) if index > start and not line.startswith(" ")
    )
    text = "\n".join([*lines[:start], f"{key}: {junk}", *lines[end:]])
    faults: tuple[Diagnostic, ...] = ()
    try:
        pattern_of(text)
    except PatternError as error:
        faults = error.findings
    assert all(fault.help for fault in faults)
    assert {fault.span.line for fault in faults if fault.span} <= {start + 1}
    assert all(fault.span for fault in faults)
