"""The same source gives the same bytes, whatever the hash seed, time zone, language or folder."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from bindoff.files import DiskFiles
from bindoff.pipeline import build_pattern

ROOT = Path(__file__).parents[1]
PATTERNS = sorted(path.parent for path in (ROOT / "patterns").glob("*/pattern.yaml"))


def built(folder: Path, **environment: str) -> Mapping[str, bytes]:
    """Every file built from all patterns by a process started in ``folder``."""
    folder.mkdir(parents=True)
    arguments = ["--html", "--epub", "--test-sheets"]
    arguments += [os.path.relpath(pattern, folder) for pattern in PATTERNS]
    subprocess.run(
        [sys.executable, "-c", "from bindoff.cli import main; main()", "build", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT / "generator"), **environment},
        capture_output=True,
        check=True,
    )
    out = folder / "build"
    return {
        path.relative_to(out).as_posix(): path.read_bytes()
        for path in sorted(out.rglob("*"))
        if path.is_file()
    }


def test_two_builds_are_the_same_to_the_byte(tmp_path: Path) -> None:
    one = built(tmp_path / "here", PYTHONHASHSEED="0", TZ="UTC", LC_ALL="C")
    other = built(
        tmp_path / "far" / "off" / "there",
        PYTHONHASHSEED="4711",
        TZ="Pacific/Auckland",
        LC_ALL="tr_TR.UTF-8",
        LANG="tr_TR.UTF-8",
        SOURCE_DATE_EPOCH="86400",
    )

    for pattern in PATTERNS:
        name = pattern.name
        assert {f"{name}/{name}.pdf", f"{name}/{name}.txt", f"{name}/numbers.json"} <= set(one)
    assert one.keys() == other.keys()
    assert [name for name in one if one[name] != other[name]] == []


def edited(text: str) -> str:
    """A pattern with another title, and its first yarn in another shade."""
    text, titles = re.subn(r"^title: .*", "title: Told anew", text, count=1, flags=re.MULTILINE)
    text, shades = re.subn(r"(colou?r: [\"']#..)..(..)", r"\g<1>5a\2", text, count=1)
    assert (titles, shades) == (1, 1)
    return text


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)
def test_an_edit_gives_the_same_bytes_warm_and_cold(pattern: Path, tmp_path: Path) -> None:
    """Nothing is kept from one build to the next within a process that could be seen: neither from
    another pattern nor from the same one before the edit."""
    folder = tmp_path / pattern.name
    shutil.copytree(pattern, folder)
    source = folder / "pattern.yaml"

    def build() -> Mapping[str, bytes]:
        return build_pattern(DiskFiles(str(folder)), "pattern.yaml", folder.name).files

    before = build()
    source.write_text(edited(source.read_text("utf-8")), "utf-8")
    warm = build()
    command = [sys.executable, "-c", "from bindoff.cli import main; main()", "build", folder.name]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "generator")}
    subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, check=True)
    out = tmp_path / "build" / folder.name
    cold = {name: (out / name).read_bytes() for name in warm}

    assert [name for name in warm if warm[name] != cold[name]] == []
    assert warm[f"{folder.name}.pdf"] != before[f"{folder.name}.pdf"]
