"""From plain data to the models: what is taken, and how a fault is put."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.source.chart import CellMeaning
from bindoff.source.gauge import Gauge
from bindoff.source.model import Model
from bindoff.source.pattern import Pattern
from bindoff.source.piece import Piece
from bindoff.source.shape import PanelShape
from bindoff.source.steps.crown import CrownStep
from bindoff.source.validation import said, validate
from bindoff.source.yamltree import read_yaml
from bindoff.source.yarn import Yarn
from tests.small_patterns import CAP, FLAP, changed


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


def test_a_title_longer_than_a_cover_holds_is_told() -> None:
    (fault,) = faults_of(changed(CAP, ("    title: Cap", f"    title: {'Cap ' * 51}")))

    assert fault.message == "`title` of the piece `cap` is too long"
    assert fault.help == "Shorten it to 200 characters at the most"


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
    ("old", "new", "model"),
    [
        ("title:", "titel: x\ntitle:", Pattern),
        ("  stitches: 20\n", "  stitches: 20\n  tol: x\n", Gauge),
        ("slate: {", "slate: {nam: x, ", Yarn),
        ("  cap:\n", "  cap:\n    titel: x\n", Piece),
        ("      - crown: 8\n", "      - crown: 8\n        pac: x\n", CrownStep),
        ('"#": foam', '"#": {yarn: foam, stich: k}', CellMeaning),
    ],
)
def test_a_key_that_means_nothing_is_told_with_those_of_its_group(
    old: str, new: str, model: type[Model]
) -> None:
    (fault,) = faults_of(changed(CAP, (old, new)))

    assert fault.id == "source.unknown-key"
    keys = {f"`{field.alias}`" for field in model.model_fields.values()}
    told = set(re.findall("`[^`]+`", fault.help))
    assert told == keys or (told < keys and len(keys) > 20)


def test_a_key_that_means_nothing_in_an_outline_is_told_with_those_of_the_outline() -> None:
    outline = "    schematic: {shape: panel, lower edge: 4 cm, height: 4 cm, width: 4 cm}\n"
    (fault,) = faults_of(changed(FLAP, ("    worked: flat\n", f"    worked: flat\n{outline}")))

    assert fault.message == "`width` means nothing in `schematic` of the piece `flap`"
    assert all(f"`{field.alias}`" in fault.help for field in PanelShape.model_fields.values())


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
