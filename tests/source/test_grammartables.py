"""Tables of a grammar are kept as Python keeps compiled modules, and never outlive the grammar."""

import sys
from pathlib import Path

import pytest
from lark import Lark

from bindoff.source.grammartables import tables_of

PURL, KNIT = 'start: WORD\nWORD: "purl"\n', 'start: WORD\nWORD: "knit"\n'


@pytest.fixture
def grammar(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    (tmp_path / "__pycache__").mkdir()
    monkeypatch.setattr(sys, "pycache_prefix", None)
    return tmp_path / "small.lark"


def read(grammar: Path, text: str) -> str:
    parser = Lark.open(str(grammar), parser="lalr", cache=tables_of(grammar))
    return str(parser.parse(text).children[0])


def test_a_changed_grammar_is_read_anew(grammar: Path) -> None:
    grammar.write_text(PURL)
    assert read(grammar, "purl") == read(grammar, "purl") == "purl"
    assert [each.suffix for each in (grammar.parent / "__pycache__").iterdir()] == [".lark"]

    grammar.write_text(KNIT)
    assert read(grammar, "knit") == "knit"


@pytest.mark.parametrize("left", [b"", b"half a file"])
def test_spoiled_tables_are_made_anew(grammar: Path, left: bytes) -> None:
    grammar.write_text(PURL)
    Path(str(tables_of(grammar))).write_bytes(left)

    assert read(grammar, "purl") == "purl"


def test_a_cut_file_is_made_anew(grammar: Path) -> None:
    grammar.write_text(PURL)
    read(grammar, "purl")
    kept = Path(str(tables_of(grammar)))
    kept.write_bytes(kept.read_bytes()[:-20])

    assert read(grammar, "purl") == "purl"


def test_nothing_is_written_where_python_writes_nothing(
    grammar: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    grammar.write_text(PURL)

    assert tables_of(grammar) is False
