"""Expressions compiled late: each of them compiles, and answers as ``re`` does."""

import gc
import pkgutil
import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

import bindoff
from bindoff import regex


def test_every_expression_of_the_program_compiles() -> None:
    for module in pkgutil.walk_packages(bindoff.__path__, "bindoff."):
        if not module.name.endswith("__main__"):
            import_module(module.name)

    late = [each for each in gc.get_objects() if type(each) is regex.Late]

    assert len(late) > 400
    for each in late:
        flags = each.flags & ~re.UNICODE
        for _ in ("as made", "as kept"):
            regex.compiled.cache_clear()
            assert regex.compiled(each.pattern, flags) == re.compile(each.pattern, flags)


@pytest.mark.parametrize("flags", [0, regex.IGNORECASE])
def test_it_answers_as_the_expression_does(flags: int) -> None:
    ours, theirs = regex.compile(r"(?P<word>a+)(b)?", flags), re.compile(r"(?P<word>a+)(b)?", flags)
    text = "aab A ab"

    assert [each.span() for each in ours.finditer(text)] == [
        each.span() for each in theirs.finditer(text)
    ]
    assert ours.findall(text) == theirs.findall(text)
    assert ours.sub("x", text) == theirs.sub("x", text)
    assert ours.split(text) == theirs.split(text)
    assert (ours.pattern, ours.flags, ours.groups) == (theirs.pattern, theirs.flags, theirs.groups)
    assert dict(ours.groupindex) == dict(theirs.groupindex)
    assert ours.fullmatch("aab") is not None
    assert ours.match("b") is None


def test_equal_expressions_are_equal() -> None:
    assert regex.compile("a") == regex.compile("a")
    assert regex.compile("a") == re.compile("a")
    assert regex.compile("a") != re.compile("b")
    assert len({regex.compile("a"), regex.compile("a"), regex.compile("a", re.I)}) == 2


def test_nothing_is_compiled_before_it_is_asked() -> None:
    script = (
        "import re\n"
        "from bindoff.checks import hazardwords\n"
        "made = re.compile\n"
        "re.compile = lambda *each: print('compiled') or made(*each)\n"
        "from bindoff.checks.texts import care, claims\n"
        "re.compile = made\n"
    )

    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )

    assert done.stdout == ""


@pytest.mark.parametrize("pattern", ["(?P<word>a+)(b)?", regex.compile("(?P<word>a+)(b)?")])
@pytest.mark.parametrize("flags", [0, re.IGNORECASE])
def test_functions_answer_as_those_of_re(pattern: Any, flags: int) -> None:
    flags = flags if isinstance(pattern, str) else 0
    made, text = re.compile("(?P<word>a+)(b)?", flags), "aab A ab"

    for name in ("match", "search", "fullmatch"):
        ours, theirs = getattr(regex, name)(pattern, text, flags), getattr(made, name)(text)
        assert (ours and ours.span()) == (theirs and theirs.span())
    for name in ("findall", "split"):
        assert getattr(regex, name)(pattern, text, flags=flags) == getattr(made, name)(text)
    found = [each.span() for each in regex.finditer(pattern, text, flags)]
    assert found == [each.span() for each in made.finditer(text)]
    assert regex.split(pattern, text, 1, flags) == made.split(text, 1)
    assert regex.sub(pattern, r"<\1>", text, flags=flags) == made.sub(r"<\1>", text)
    assert regex.sub(pattern, "x", text, 1, flags) == made.sub("x", text, 1)
    assert regex.subn(pattern, "x", text, 1, flags) == made.subn("x", text, 1)


def test_a_wrong_expression_is_told_as_by_re() -> None:
    with pytest.raises(re.error):
        regex.search("(", "text")


def test_all_modules_ask_for_expressions_here() -> None:
    """``from bindoff import regex as re`` stands in each that has any."""
    package = Path(bindoff.__file__).parent
    others = [
        path.name
        for path in sorted(package.rglob("*.py"))
        if re.search("^(import|from) re\\b", path.read_text("utf-8"), re.MULTILINE)
    ]

    assert others == ["regex.py"]


def test_bytes_are_asked_as_by_re() -> None:
    assert regex.fullmatch(rb"[0-9]{1,12}", b"12") is not None
    assert regex.fullmatch(rb"[0-9]{1,12}", b"x") is None
    assert regex.sub(rb"a", b"b", b"cat") == b"cbt"
