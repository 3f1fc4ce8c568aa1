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


def cold(folder: Path) -> Mapping[str, bytes]:
    """Every file built from ``folder`` by a process of its own."""
    command = [sys.executable, "-c", "from bindoff.cli import main; main()", "build", folder.name]
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "generator")}
    subprocess.run(command, cwd=folder.parent, env=environment, capture_output=True, check=True)
    out = folder.parent / "build" / folder.name
    return {
        path.relative_to(out).as_posix(): path.read_bytes()
        for path in out.rglob("*")
        if path.is_file()
    }


def warm(folder: Path) -> Mapping[str, bytes]:
    """Every file built from ``folder`` by this process, which has built others before."""
    return build_pattern(DiskFiles(str(folder)), "pattern.yaml", folder.name).files


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)
def test_an_edit_gives_the_same_bytes_warm_and_cold(pattern: Path, tmp_path: Path) -> None:
    """Nothing is kept from one build to the next within a process that could be seen: neither from
    another pattern nor from the same one before the edit."""
    folder = tmp_path / pattern.name
    shutil.copytree(pattern, folder)
    source = folder / "pattern.yaml"
    before = warm(folder)
    source.write_text(edited(source.read_text("utf-8")), "utf-8")

    after = warm(folder)

    assert after == cold(folder)
    assert after[f"{folder.name}.pdf"] != before[f"{folder.name}.pdf"]


EDITS = {
    "a letter of the summary": ("pattern.yaml", "with a flared cuff", "with a flaredx cuff"),
    "a step's words": ("pattern.yaml", "say: Join to work", "say: Join, ½ turned, to work"),
    "a character of another alphabet": ("pattern.yaml", "sit on Ebbstow", "sit on Θάλασσα"),
    "a colour": ("pattern.yaml", "#4b5d6b", "#6b4b5d"),
    "a gauge": ("pattern.yaml", "rounds: 30\n", "rounds: 31\n"),
    "a size's name": ("pattern.yaml", "  XL: {hand", "  Very large: {hand"),
    "a section's title": ("pattern.yaml", "section: Wrist", "section: The wrist"),
    "a chart's cell": ("net.grid", ".-..-.", ".-.--."),
    "a step more": (
        "pattern.yaml",
        "      - section: Hand",
        "      - say: Rest.\n      - section: Hand",
    ),
}


def test_each_kind_of_edit_gives_the_same_bytes_warm_and_cold(tmp_path: Path) -> None:
    """One edit upon the other in a process that keeps running, as in ``watch``."""
    folder = tmp_path / "netmender-mittens"
    shutil.copytree(ROOT / "patterns" / folder.name, folder)
    before = warm(folder)
    for kind, (name, old, new) in EDITS.items():
        file = folder / name
        text = file.read_text("utf-8")
        assert old in text, kind
        file.write_text(text.replace(old, new, 1), "utf-8")

        after = warm(folder)

        assert after == cold(folder), kind
        assert after != before, kind
        before = after
