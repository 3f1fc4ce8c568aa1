"""The guide tells every key, helper and row word, and each of its lines works.

Examples are cut out of patterns that build, so that a line in the guide is a line of a source.
"""

from pathlib import Path

import pytest
from click.testing import CliRunner

from bindoff.cli import main
from bindoff.commands import wholefile
from bindoff.craft.entry import Terms
from bindoff.craft.stitches import standard_book
from bindoff.document.tree import texts
from bindoff.files import DiskFiles
from bindoff.guide.keys import all_models, groups, named
from bindoff.guide.lines import guide_lines
from bindoff.guide.pages import guide
from bindoff.guide.topics import HELPERS, SHARED, TOPICS
from bindoff.pipeline import build_pattern
from bindoff.plan.helpers import COUNTING, helpers
from bindoff.plan.plan import make_plan
from bindoff.source.pattern import Pattern
from bindoff.source.read import read_source
from bindoff.source.rowlang.sayings import SAYINGS
from tests.guide.examples import FILE, collected, written
from tests.small_patterns import CAP, WAVES

SOURCES = sorted((Path(__file__).parent / "sources").glob("*/"))


@pytest.mark.parametrize("folder", SOURCES, ids=lambda path: path.name)
def test_the_patterns_that_examples_are_cut_from_build(folder: Path) -> None:
    assert build_pattern(DiskFiles(str(folder)), "pattern.yaml", folder.name).files


def test_the_examples_are_those_of_the_patterns() -> None:
    """`python -m tests.guide.examples` writes them anew."""
    assert FILE.read_text("utf-8") == written()


def test_each_group_of_keys_has_its_place() -> None:
    told = [name for topic in TOPICS for name in topic.groups]
    assert sorted(told) == sorted(all_models())


def test_each_key_is_told_with_a_line_that_works() -> None:
    for name, model in all_models().items():
        for field, about in model.model_fields.items():
            key = about.alias or field
            if name.endswith("Step") and key in SHARED:
                continue
            (told,) = (each for each in groups()[name].keys if each.key == key)
            assert told.says, f"{name}: {key}"
            assert (name, key) in collected(), f"no example of {name}: {key}"
            assert told.example[0].startswith((key, f'"{key}"')), told.example


def test_each_helper_is_told_and_its_line_gives_a_figure() -> None:
    told = {name for each in HELPERS for name in each.names}
    assert told == set(helpers({})) | set(COUNTING) | {"width", "height"}
    for each in HELPERS:
        source = CAP.replace("measures:\n", f"measures:\n  {each.example}\n", 1)
        assert each.example in source
        from bindoff.files import MemoryFiles

        read = read_source(MemoryFiles({"pattern.yaml": source, "waves.grid": WAVES}))
        assert make_plan(read)


def test_every_word_of_a_row_is_told() -> None:
    printed = " ".join(texts(guide()))
    listed = "\n".join(guide_lines())
    assert all(each.example in printed for each in SAYINGS)
    book = standard_book(Terms.US)
    for stitch in book.stitches:
        assert stitch.wording(Terms.US).abbreviation in printed
        assert stitch.wording(Terms.US).abbreviation in listed


def test_a_key_is_found_wherever_it_may_stand() -> None:
    assert {each.group for each in named("yarn")} >= {"Piece", "CellMeaning", "WantedStripe"}
    assert named("cast_on") == named("Cast on:")
    assert {each.key for each in groups()["Pattern"].keys} == {
        field.alias or name for name, field in Pattern.model_fields.items()
    }


def test_help_in_the_terminal() -> None:
    run = CliRunner().invoke(main, ["help"])
    assert run.exit_code == 0
    assert all(f"bindoff help {topic.name}" in run.output for topic in TOPICS)
    run = CliRunner().invoke(main, ["help", "cast", "on"])
    assert "| cast on:" in run.output
    for topic in TOPICS:
        assert CliRunner().invoke(main, ["help", topic.name]).exit_code == 0
    for word, told in (
        ("first", "every step"),
        ("in mirror", "every step"),
        ("slant", "Helpers of formulas"),
        ("ring", "schematic: ring"),
        ("hangs from", "hangs from:"),
    ):
        run = CliRunner().invoke(main, ["help", *word.split()])
        assert (run.exit_code, told in run.output) == (0, True), word
    run = CliRunner().invoke(main, ["help", "untill"])
    assert run.exit_code == 1
    assert "bindoff help until" in run.output


def test_a_guide_that_cannot_be_written_leaves_the_one_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise OSError(28, "the disk is full")

    (tmp_path / "bindoff-guide.pdf").write_bytes(b"before")
    monkeypatch.setattr(wholefile, "_replace", fails)
    run = CliRunner().invoke(main, ["guide", "--out", str(tmp_path)])
    assert run.exit_code == 1
    assert "the disk is full" in run.output
    assert [path.name for path in tmp_path.iterdir()] == ["bindoff-guide.pdf"]
    assert (tmp_path / "bindoff-guide.pdf").read_bytes() == b"before"


def test_the_guide_is_written_as_pdf_and_text(tmp_path: Path) -> None:
    for _ in range(2):
        run = CliRunner().invoke(main, ["guide", "--out", str(tmp_path)])
        assert run.exit_code == 0, run.output
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "bindoff-guide.pdf", "bindoff-guide.txt",
    ]  # fmt: skip
    assert (tmp_path / "bindoff-guide.pdf").read_bytes().startswith(b"%PDF-")
    (tmp_path / "file").write_text("", encoding="utf-8")
    run = CliRunner().invoke(main, ["guide", "--out", str(tmp_path / "file")])
    assert run.exit_code == 1
    assert "can't be written" in run.output
