"""Refusals of the command that need an odd machine or an odd wish."""

import errno
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bindoff.cli import main
from tests.small_patterns import CAP, WAVES, changed


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments, catch_exceptions=False)


@pytest.fixture
def cap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the cap in it, entered."""
    folder = tmp_path / "cap"
    folder.mkdir()
    (folder / "pattern.yaml").write_text(CAP, encoding="utf-8")
    (folder / "waves.grid").write_text(WAVES, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return folder


def test_a_new_pattern_is_there_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is full after the first file."""
    written: list[Path] = []
    write = Path.write_text

    def full(self: Path, *text: str, **rest: str) -> int:
        if written:
            raise OSError(errno.ENOSPC, "No space left on device")
        written.append(self)
        return write(self, *text, **rest)

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(Path, "write_text", full)
    result = run("new", "jetty-shawl")

    assert result.exit_code != 0
    assert "`patterns/jetty-shawl` can't be written: No space left on device" in result.output
    assert written
    assert list(tmp_path.rglob("*")) == [tmp_path / "patterns"]


def test_a_card_for_a_pattern_without_a_tube_is_refused(cap: Path) -> None:
    result = run("build", "cap", "--out", "out", "--card")

    assert result.exit_code == 1
    assert "command.no-card" in result.output
    assert not (cap.parent / "out").exists()


def test_among_all_editions_a_card_that_no_pattern_of_its_kind_has_is_left_out(cap: Path) -> None:
    """Whoever builds a whole collection at once has patterns with a card and without one."""
    result = run("build", "cap", "--out", "out", "--all-editions", "--card")

    assert result.exit_code == 0, result.output
    made = {path.name for path in (cap.parent / "out" / "cap").iterdir()}
    assert "cap-letter.pdf" in made
    assert not any("card" in name for name in made)


def test_a_folder_whose_name_is_too_long_is_refused(cap: Path) -> None:
    result = run("build", "cap", "--out", "o" * 300)

    assert result.exit_code == 1
    assert "is too long for this system" in result.output


def test_two_pieces_of_one_title_are_told_apart(cap: Path) -> None:
    second = "  brim:\n    title: cap\n    yarn: slate\n    steps:\n      - cast on: 20\n"
    text = CAP + second + "      - work: k all\n      - bind off: all\n"
    (cap / "pattern.yaml").write_text(text, encoding="utf-8")
    result = run("check", "cap")

    assert "two pieces are called `cap`" in result.output
    assert "title.twice" in result.output


def test_a_hazard_that_is_named_is_not_asked_for(cap: Path) -> None:
    child = changed(
        CAP, ("wearer: [adult]", "wearer: [child]"), ("A plain cap", "A cap and pompom")
    )
    for text, asked in (
        (child, True),
        (changed(child, ("wearer: [child]", "wearer: [child]\nhazards: [pompom]")), False),
    ):
        (cap / "pattern.yaml").write_text(text, encoding="utf-8")
        assert ("hazard" in run("check", "cap").output) is asked
