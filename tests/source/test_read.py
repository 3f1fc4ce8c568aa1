"""A pattern folder as read: its parts, their places, and parts that don't meet."""

import pytest

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.files import MemoryFiles
from bindoff.source.read import read_source
from tests.small_patterns import CAP, TUBE, WAVES, changed, source_of

JPEG = b"\xff\xd8\xff\xe0 not really, but it begins like one"


def faults_of(text: str, grid: str = WAVES, **files: bytes) -> list[Diagnostic]:
    with pytest.raises(PatternError) as caught:
        read_source(MemoryFiles({"pattern.yaml": text, "waves.grid": grid, **files}))
    return list(caught.value.findings)


def test_a_source_holds_the_pattern_its_grids_and_its_sizes() -> None:
    source = source_of(CAP)

    assert source.pattern.title == "Quay Cap"
    assert source.sizes == ("S", "M")
    assert source.grids["waves"][0].rounds[0] == "#....##."
    assert source.photos == ()


def test_every_value_has_its_place() -> None:
    depth = source_of(CAP).pattern.measures["depth"]
    line = next(n for n, text in enumerate(CAP.split("\n"), start=1) if "depth: [" in text)

    assert depth.place.key_span == Span("pattern/pattern.yaml", line, 3, line, 8)
    assert depth.place.of(1).span == Span("pattern/pattern.yaml", line, 18, line, 23)


def test_photographs_are_read_in_order() -> None:
    text = changed(
        CAP,
        (
            "wearer: [adult]\n",
            "wearer: [adult]\nphotos: [{file: a.jpg, alt: A cap.}, {file: b.jpg, alt: A cap.}]\n",
        ),
    )
    files = MemoryFiles(
        {"pattern.yaml": text, "waves.grid": WAVES, "a.jpg": JPEG + b"a", "b.jpg": JPEG + b"b"}
    )

    assert read_source(files).photos == (JPEG + b"a", JPEG + b"b")


def test_another_source_in_the_folder_may_be_named() -> None:
    files = MemoryFiles({"summer.yaml": CAP, "waves.grid": WAVES})

    assert read_source(files, "summer.yaml", "cap").name == "cap"


def test_every_name_that_nobody_declared_is_told() -> None:
    faults = faults_of(
        changed(CAP, ("    yarn: slate\n", "    yarn: slat\n"), ("- chart: waves", "- chart: wavs"))
    )

    assert [fault.id for fault in faults] == ["source.unknown-yarn", "source.unknown-chart"]


def test_a_legend_may_name_a_stitch_of_the_designers_own() -> None:
    own = "stitches:\n  knot: {uses: 1, makes: 1, name: knot, how: tie it}\npieces:\n"

    assert source_of(changed(CAP, ('"#": foam', '"#": knot'), ("pieces:\n", own)))


def test_each_character_without_meaning_is_told_once_at_its_first_place() -> None:
    faults = faults_of(CAP, changed(WAVES, ("..##....", "zz##..yy")))

    assert [fault.message[:3] for fault in faults] == ["`z`", "`y`"]
    assert [fault.span for fault in faults] == [
        Span("pattern/waves.grid", 2, 1, 2, 2),
        Span("pattern/waves.grid", 2, 7, 2, 8),
    ]


def test_a_tube_without_a_picture_is_told_at_the_step_that_needs_it() -> None:
    """Its stripes can be knitted; there is nothing to embroider."""
    faults = faults_of(
        changed(TUBE, ("    picture: {chart: waves, start: 1, ground: slate}\n", ""))
    )

    assert [fault.id for fault in faults] == ["source.no-picture"]
    assert "has no `picture:`" in faults[0].message


def test_faults_of_the_models_come_before_missing_grids() -> None:
    with pytest.raises(PatternError) as caught:
        read_source(MemoryFiles({"pattern.yaml": changed(CAP, ("title:", "titel:"))}))

    assert [fault.id for fault in caught.value.findings] == ["source.unknown-key"]


def test_more_chart_stitches_than_a_build_does_in_time_are_refused() -> None:
    """Two charts of 200 by 200 are 80,000 stitches, as many as there may be."""
    grid = ("." * 200 + "\n") * 200
    chart = "{title: Two, grid: two.grid, legend: {'.': slate}, alt: Plain.}"
    source = changed(CAP, ("charts:\n", f"charts:\n  two: {chart}\n  one: {chart}\n"))
    files = {"pattern.yaml": source, "waves.grid": "........\n", "two.grid": grid}

    with pytest.raises(PatternError) as caught:
        read_source(MemoryFiles(files))
    (found,) = caught.value.findings
    assert found.id == "grid.too-large"
    assert "80,000 stitches" in found.help
