"""What DEVELOPERS.md says of files and commands is true."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "generator" / "bindoff"
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
FILE = re.compile(r"(?:[\w.*<>-]+/)*(?:[\w*-]+\.(?:py|md|toml|lark|yaml|txt)|\.[a-z]+/\w+|)")


def named(text: str) -> Iterator[tuple[int, str]]:
    """Every path that ``text`` names in backticks, with the number of its line."""
    for number, line in enumerate(text.splitlines(), start=1):
        folder = ""
        for quoted in re.findall(r"`([^`]+)`", line):
            if "<" in quoted or not quoted.strip("./*") or not FILE.fullmatch(quoted):
                continue
            if "/" in quoted:
                folder = quoted.rpartition("/")[0]
                yield number, quoted
            else:
                yield number, f"{folder}/{quoted}" if folder else quoted


def stands(path: str) -> bool:
    """Whether a file or folder of that name is in the package or at the top."""
    return any((top / path).exists() or any(top.glob(path.rstrip("/"))) for top in (PACKAGE, ROOT))


def test_paths_are_found_in_a_line() -> None:
    line = "look in `source/grid.py`, `lengths.py`, `tests/`; not `k2tog`, `source/steps/<kind>.py`"

    assert [path for _, path in named(line)] == ["source/grid.py", "source/lengths.py", "tests/"]
    assert not stands("source/nowhere.py")


@pytest.mark.parametrize(("line", "path"), sorted(named(GUIDE)))
def test_each_path_of_the_guide_stands(line: int, path: str) -> None:
    """A newcomer who follows the guide finds what it names."""
    alone = path.rpartition("/")[2]
    assert stands(path) or ("/" in path and alone and stands(alone)), f"line {line}: {path}"


@pytest.mark.parametrize("module", sorted(set(re.findall(r"python -m (tests[\w.]*)", GUIDE))))
def test_each_command_of_the_guide_has_its_module(module: str) -> None:
    assert (ROOT / f"{module.replace('.', '/')}.py").is_file()
