"""The same source gives the same bytes, whatever the hash seed, time zone, language or folder."""

import os
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


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)
def test_a_pattern_does_not_depend_on_what_is_built_beside_it(pattern: Path) -> None:
    """Nothing is kept from one pattern to the next within a process."""
    others = [path for path in PATTERNS if path != pattern]

    def build(path: Path) -> Mapping[str, bytes]:
        return build_pattern(DiskFiles(str(path)), "pattern.yaml", path.name).files

    first = build(pattern)
    build(others[0])

    assert build(pattern) == first
