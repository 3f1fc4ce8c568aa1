"""YAML with places."""

import json
import time
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError, Span
from bindoff.source import yamlvalues
from bindoff.source.yamltree import Path, YamlTree, read_yaml

PARSERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if yaml.__with_libyaml__ else [])]

PLAIN_READER = yaml.CBaseLoader if yaml.__with_libyaml__ else yaml.BaseLoader

HAT = """\
title: Breakwater Hat
version: 1.0
yarns:
  slate: {name: Slate, colour: "#3d4a57"}
sizes:
  - S
  - {head: 53 cm}
note: >-
  Fold at
  {brim} now.
"""


@pytest.fixture(params=PARSERS, ids=lambda parser: parser.__name__)
def each_parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both of PyYAML's parsers, which word their complaints differently."""
    monkeypatch.setattr(yamlvalues, "_PARSER", request.param)


def read(text: str) -> Any:
    return read_yaml(text, "hat.yaml").data


def source_at(tree: YamlTree, span: Span) -> str:
    """What stands in the source at a place, over lines too."""
    lines = tree.lines.text.split("\n")[span.line - 1 : span.end_line]
    lines[-1] = lines[-1][: span.end_column - 1]
    lines[0] = lines[0][span.column - 1 :]
    return "\n".join(lines)


def faults(text: str) -> list[tuple[str, str]]:
    with pytest.raises(PatternError) as caught:
        read_yaml(text, "f")
    return [(found.id, str(found.span)) for found in caught.value.findings]


def advice(text: str) -> str:
    with pytest.raises(PatternError) as caught:
        read_yaml(text, "f")
    return caught.value.findings[0].help


# Values


def test_a_pattern_is_plain_data_in_its_order(each_parser: None) -> None:
    data = read(HAT)
    assert data == {
        "title": "Breakwater Hat",
        "version": 1.0,
        "yarns": {"slate": {"name": "Slate", "colour": "#3d4a57"}},
        "sizes": ["S", {"head": "53 cm"}],
        "note": "Fold at {brim} now.",
    }
    assert list(data) == ["title", "version", "yarns", "sizes", "note"]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("true", True),
        ("False", False),
        ("null", None),
        ("~", None),
        ("", None),
        ("46", 46),
        ("-3", -3),
        ("0", 0),
        ("9.50", 9.5),
        ("-.5", -0.5),
    ],
)
def test_plain_words_and_numbers(each_parser: None, text: str, value: object) -> None:
    """The plain values of the core schema (YAML 1.2.2, section 10.3.2) that a pattern needs."""
    assert read(f"a: {text}") == {"a": value}
    assert type(read(f"a: {text}")["a"]) is type(value)


@pytest.mark.parametrize(
    "text",
    ["on", "off", "yes", "No", "y", "n", "1:30", "12:30:45", "2024-05-01", "007", "0x1F", "0o7",
     "1_000", "1e5", ".inf", ".nan", "5.", "1234567890123456", "=", "1.2.3", "8¼", "+", "-"],
)  # fmt: skip
def test_what_other_readers_turn_into_something_else_stays_text(
    each_parser: None, text: str
) -> None:
    """YAML 1.1 types such as ``on``, ``1:30`` and dates would change what a designer wrote."""
    if text == "-":
        text = "-x"
    assert read(f"a: {text}") == {"a": text}


def test_text_in_quotes_is_text(each_parser: None) -> None:
    assert read("a: '1'\nb: \"true\"\nc: !!str 1.0\nd: |\n  2\n") == {
        "a": "1",
        "b": "true",
        "c": "1.0",
        "d": "2\n",
    }


def test_keys_are_text_as_typed(each_parser: None) -> None:
    tree = read_yaml("sizes: {36: a, 1.0: b, true: c, '': d, ~: e}\n".replace("'': d, ", ""), "f")
    assert list(tree.data["sizes"]) == ["36", "1.0", "true", "~"]
    assert tree.text(("sizes", "36")) == "a"


def test_the_text_of_a_number_is_what_was_typed(each_parser: None) -> None:
    tree = read_yaml("version: 1.0\nsize: [46, 9.50]\n", "f")
    assert tree.text(("version",)) == "1.0"
    assert tree.text(("size", 1)) == "9.50"
    assert tree.text(("size",)) == "[46, 9.50]"
    with pytest.raises(KeyError):
        tree.text(("nowhere",))


def test_a_byte_order_mark_and_line_ends_of_other_systems_are_accepted(each_parser: None) -> None:
    tree = read_yaml("\ufeffa: 1\r\nb: x\r\n", "f")
    assert tree.data == {"a": 1, "b": "x"}
    assert tree.span(("b",)) == Span("f", 2, 4, 2, 5)


def test_a_repeated_value_is_that_value_and_keeps_its_place(each_parser: None) -> None:
    tree = read_yaml("a: &size {head: 53 cm}\nb: *size\n", "f")
    assert tree.data["b"] == {"head": "53 cm"}
    assert tree.span(("b", "head")) == tree.span(("a", "head"))


# Places


@pytest.mark.parametrize(
    ("path", "value", "key"),
    [
        (("title",), "Breakwater Hat", "title"),
        (("yarns",), 'slate: {name: Slate, colour: "#3d4a57"}', "yarns"),
        (("yarns", "slate"), '{name: Slate, colour: "#3d4a57"}', "slate"),
        (("yarns", "slate", "colour"), '"#3d4a57"', "colour"),
        (("sizes",), "- S\n  - {head: 53 cm}", "sizes"),
        (("sizes", 1), "{head: 53 cm}", "{head: 53 cm}"),
        (("sizes", 1, "head"), "53 cm", "head"),
        (("note",), ">-\n  Fold at\n  {brim} now.", "note"),
    ],
)
def test_each_value_and_key_knows_its_place(
    each_parser: None, path: Path, value: str, key: str
) -> None:
    tree = read_yaml(HAT, "hat.yaml")
    assert source_at(tree, tree.span(path)) == value
    assert source_at(tree, tree.key_span(path)) == key


def test_a_path_that_leads_nowhere_gives_the_nearest_ancestor(each_parser: None) -> None:
    tree = read_yaml(HAT, "hat.yaml")
    assert tree.span(("yarns", "foam", "name")) == tree.span(("yarns",))
    assert tree.key_span(("yarns", "slate", "weight")) == tree.key_span(("yarns", "slate"))
    assert tree.span(("sizes", 9)) == tree.span(("sizes",))
    assert tree.span(("nowhere",)) == tree.span(())


def test_a_value_that_is_not_there_has_the_place_of_its_key(each_parser: None) -> None:
    tree = read_yaml("a:\nb: 1\n", "f")
    assert tree.span(("a",)) == tree.key_span(("a",)) == Span("f", 1, 1, 1, 2)


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("brim + 5 cm", "5 cm"),
        ("'brim + 5 cm'", "5 cm"),
        ('"brim + 5 cm"', "5 cm"),
        ("&x brim + 5 cm", "5 cm"),
        ("'it''s + 5 cm'", "5 cm"),
        ('"\\"brim\\" + 5 cm"', "5 cm"),
        ("|\n   brim +\n    5 cm\n", "5 cm"),
        (">  # why\n   brim +\n   5 cm\n", "5 cm"),
        ("brim +\n   5 cm", "5 cm"),
        ('"\\x41 + 5 cm"', '"\\x41 + 5 cm"'),
    ],
)
def test_a_part_of_a_text_has_its_place(each_parser: None, written: str, shown: str) -> None:
    tree = read_yaml(f"🧶 depth: {written}\nend: 1\n", "f")
    text = tree.text(("🧶 depth",))
    start = text.index("5 cm")
    assert source_at(tree, tree.at(("🧶 depth",)).part(start, start + 4)) == shown


def test_the_place_of_a_text_leaves_its_quotes_out(each_parser: None) -> None:
    tree = read_yaml("a: '5 cm'\nb: 5 cm\nc: 'it''s'\nd: ''\n", "f")
    assert source_at(tree, tree.at(("a",)).text_span) == "5 cm"
    assert source_at(tree, tree.at(("b",)).text_span) == "5 cm"
    assert tree.at(("c",)).text_span == tree.span(("c",))
    assert tree.at(("d",)).text_span == tree.span(("d",))


# Faults


@pytest.mark.parametrize(
    ("text", "id", "place"),
    [
        ("", "yaml.empty", "f:1:1"),
        ("# only a remark\n", "yaml.empty", "f:1:1"),
        ("- a\n- b\n", "yaml.top-level", "f:1:1"),
        ("hello\n", "yaml.top-level", "f:1:1"),
        ("title:Hat\n", "yaml.top-level", "f:1:1"),
        ("title:Hat\nversion: 1\n", "yaml.missing-colon", "f:1:1"),
        ("a: 1\ntitle Hat\nversion: 1\n", "yaml.missing-colon", "f:2:1"),
        ("a: 1\n\nb:2\nc: 3\n", "yaml.missing-colon", "f:3:1"),
        ("title Hat\nversion: 1\n", "yaml.missing-colon", "f:1:1"),
        ("a: {x:1, y:2}\n", "yaml.missing-colon", "f:1:5"),
        (": 1\n", "yaml.no-name", "f:1:1"),
        ("a: {'': 1}\n", "yaml.no-name", "f:1:5"),
        ("a: {needles}\n", "yaml.no-value", "f:1:5"),
        ("a: ]\n", "yaml.no-value", "f:1:4"),
        ("a: 1\n   b: 2\n", "yaml.indentation", "f:2:4"),
        ("a:\n    b: 1\n  c: 2\n", "yaml.indentation", "f:3:3"),
        ("a:\n  - b\n - c\n", "yaml.indentation", "f:3:2"),
        ("a: 1\n- b\n", "yaml.indentation", "f:2:1"),
        ("- b\na: 1\n", "yaml.indentation", "f:2:1"),
        ("a:\n\u00a0 b: 1\n", "yaml.no-break-space", "f:2:1"),
        ("a:\n\tb: 1\n", "yaml.tab", "f:2:1"),
        ("a:\n  b: 1\n\tc: 2\n", "yaml.tab", "f:3:1"),
        ("a: 'open\nb: 1\n", "yaml.open-quote", "f:1:4"),
        ('a: "open\nb: 1\n', "yaml.open-quote", "f:1:4"),
        ("a: 'open\nb: it's\n", "yaml.open-quote", "f:1:4"),
        ('a: "Hat" is nice\n', "yaml.after-quote", "f:1:10"),
        ('a: "x\\q"\n', "yaml.backslash", "f:1:6"),
        ("a: see: there\n", "yaml.second-colon", "f:1:7"),
        ("a: [1, 2\nb: 3\n", "yaml.open-bracket", "f:1:4"),
        ("a: {x: 1\nb: 3\n", "yaml.open-bracket", "f:1:4"),
        ("a: {colour: #fff, weight: 4}\nb: 1\n", "yaml.open-bracket", "f:1:4"),
        ('a: ["x" y]\n', "yaml.missing-comma", "f:1:9"),
        ("a: - b\n", "yaml.list-place", "f:1:4"),
        ("a: x\n  - y\n", "yaml.dash", "f:2:3"),
        ("a:\n  -x\n  -y\n", "yaml.dash", "f:2:3"),
        ("a: > text\n  more\n", "yaml.block-text", "f:1:6"),
        ("a: #3d4a57\n", "yaml.comment", "f:1:4"),
        ("a: size #2 needle\n", "yaml.comment", "f:1:9"),
        ("- *k6, k2tog; repeat from * to end\n", "yaml.needs-quotes", "f:1:3"),
        ("a: *k6\n", "yaml.needs-quotes", "f:1:4"),
        ("- [k1, p1] 4 times\n", "yaml.needs-quotes", "f:1:3"),
        ("- {needles} stitches\n", "yaml.needs-quotes", "f:1:3"),
        ("a: @home\n", "yaml.needs-quotes", "f:1:4"),
        ("a: `code`\n", "yaml.needs-quotes", "f:1:4"),
        ("a: 5\nb: %\n", "yaml.needs-quotes", "f:2:4"),
        ("[a, b]: 1\n", "yaml.needs-quotes", "f:1:1"),
        ("a: !!python/object/apply:os.system [ls]\n", "yaml.needs-quotes", "f:1:4"),
        ("a: !!int 3\n", "yaml.needs-quotes", "f:1:4"),
        ("a: !mine {b: 1}\n", "yaml.needs-quotes", "f:1:4"),
        ("a: 1\na: 2\n", "yaml.twice", "f:2:1"),
        ("a: {36: 1, '36': 2}\n", "yaml.twice", "f:1:12"),
        ("a: &a [*a]\n", "yaml.loop", "f:1:8"),
        ("a: &a {x: 1}\nb:\n  <<: *a\n", "yaml.merge", "f:3:3"),
        ("a: 1\n---\nb: 2\n", "yaml.second-document", "f:2:1"),
        ("a: 1\n...\nb: 2\n", "yaml.second-document", "f:3:1"),
        ("%YAML 2.0\n---\na: 1\n", "yaml.directive", "f:1:1"),
        ("a: b\x07c\n", "yaml.character", "f:1:5"),
        ("a: b\u2028c\n", "yaml.character", "f:1:5"),
        ("a: \ud800\n", "yaml.character", "f:1:4"),
        ("a: " + "[" * 80, "yaml.limit", "f:1:64"),
    ],
)
def test_a_fault_has_an_id_and_its_place(each_parser: None, text: str, id: str, place: str) -> None:
    assert faults(text)[0] == (id, place)


def test_every_fault_of_values_is_found_at_once(each_parser: None) -> None:
    assert faults("a: 1\na: 2\nb: *x\nc: {d}\n") == [
        ("yaml.twice", "f:2:1"),
        ("yaml.needs-quotes", "f:3:4"),
        ("yaml.no-value", "f:4:5"),
    ]


def test_one_cause_is_reported_once(each_parser: None) -> None:
    """The alias and the text behind it are the same missing quotes."""
    assert faults("a: 1\na: 2\nb: *k6, k2tog\n") == [
        ("yaml.twice", "f:2:1"),
        ("yaml.needs-quotes", "f:3:4"),
    ]


def test_a_name_given_twice_names_both_places() -> None:
    with pytest.raises(PatternError) as caught:
        read_yaml("title: a\ntitle: b\n", "hat.yaml")
    assert caught.value.findings[0].message == "`title` is given twice: here and at hat.yaml:1:1"


def test_the_advice_shows_the_text_in_quotes_that_suit_it(each_parser: None) -> None:
    assert advice("- *k6, k2tog*\n").endswith('`"*k6, k2tog*"`')
    assert advice('a: "Hat" is\n').endswith("`'\"Hat\" is'`")
    assert advice("note: see: here\n").endswith('`"see: here"`')
    assert advice("- [k1]" + " p1" * 40 + "\n") == "Put the whole text in quotes"


def test_a_remark_with_a_space_behind_its_sign_is_a_remark(each_parser: None) -> None:
    assert read("a: 21 cm  # 2 more\nb: # later\n") == {"a": "21 cm", "b": None}


def test_text_that_grows_by_repetition_is_stopped(each_parser: None) -> None:
    """Ten levels of ten references would be ten thousand million values."""
    bomb = "a0: &a0 [x]\n" + "".join(
        f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]\n" for n in range(1, 11)
    )
    start = time.process_time()
    assert faults(bomb)[0][0] == "yaml.limit"
    assert time.process_time() - start < 1


def test_a_long_file_that_is_wrong_is_told_so_at_once(each_parser: None) -> None:
    """None of the explanations looks at a long text again and again."""
    start = time.process_time()
    for text in (
        "a" + "\n" * 50_000 + "b: c",
        "a: -x" + "\n " * 50_000 + "b",
        "a: " + "[" * 50_000,
    ):
        with suppress(PatternError):
            read_yaml(text, "f")
    assert time.process_time() - start < 2


def test_depth_by_repetition_is_stopped(each_parser: None) -> None:
    chain = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}]\n" for n in range(1, 80))
    assert faults(chain)[0][0] == "yaml.limit"


def test_the_number_of_values_and_of_repetitions_is_bounded() -> None:
    assert faults("a: [" + "x," * 50_000 + "]")[0][0] == "yaml.limit"
    assert faults("a: &a 1\nb: [" + "*a ," * 201 + "]")[0][0] == "yaml.limit"


def test_the_number_of_findings_is_bounded() -> None:
    assert len(faults("a: 1\n" * 500)) == 50


# Against other readers

plain_text = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=12)
numbers = st.integers(-(10**14), 10**14) | st.decimals(
    -(10**6), 10**6, places=3, allow_nan=False
).map(float).filter(lambda x: "e" not in repr(x))
json_values = st.recursive(
    st.none() | st.booleans() | numbers | plain_text,
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(plain_text.filter(lambda key: key.strip() != ""), inner, max_size=4)
    ),
    max_leaves=12,
)


def scalars(value: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    inner: Any = ()
    if isinstance(value, dict):
        inner = value.items()
    elif isinstance(value, list):
        inner = enumerate(value)
    else:
        yield path, value
    for key, each in inner:
        yield from scalars(each, (*path, key))


@given(json_values)
def test_json_reads_as_the_json_reader_reads_it_with_every_place_right(value: Any) -> None:
    """JSON is a subset of YAML (YAML 1.2.2, section 1.2): Python's ``json`` is the measure."""
    text = json.dumps({"a": value}, ensure_ascii=False, indent=1)
    if any(character in text for character in "\x7f\x85\u2028\u2029\ufeff"):
        return
    tree = read_yaml(text, "f")
    assert tree.data == {"a": value}
    for path, scalar in scalars(tree.data):
        assert source_at(tree, tree.span(path)) == json.dumps(scalar, ensure_ascii=False)


def as_text(tree: YamlTree, value: Any, path: Path = ()) -> Any:
    """The data with every scalar as typed, the way PyYAML's reader of plain texts gives it."""
    if isinstance(value, dict):
        return {key: as_text(tree, each, (*path, key)) for key, each in value.items()}
    if isinstance(value, list):
        return [as_text(tree, each, (*path, index)) for index, each in enumerate(value)]
    return tree.text(path)


@given(st.data())
def test_a_damaged_pattern_reads_as_pyyaml_reads_it_or_is_an_error(data: st.DataObject) -> None:
    text = HAT
    for _ in range(data.draw(st.integers(1, 3))):
        start = data.draw(st.integers(0, len(text)))
        end = data.draw(st.integers(start, min(len(text), start + 6)))
        text = (
            text[:start] + data.draw(st.text("\n\t -:#'\"{}[],&*!|>%@x1é", max_size=4)) + text[end:]
        )
    with suppress(PatternError):
        tree = read_yaml(text, "f")
        assert as_text(tree, tree.data) == yaml.load(text, Loader=PLAIN_READER)
        for path, _ in scalars(tree.data):
            for span in (tree.span(path), tree.key_span(path), tree.at(path).text_span):
                assert source_at(tree, span) in text


@given(st.text() | st.text("\n -:#'\"{}[],&*!|>%a1\t"))
@example("\ufeff\ufeff")
@example("a: \ufeff")
@example("? [")
@example("'")
@example("a: '\n\n")
@example("\\")
@example("a: {? b}")
def test_any_text_is_data_or_an_error_with_a_place(text: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        for parser in PARSERS:
            patch.setattr(yamlvalues, "_PARSER", parser)
            try:
                read_yaml(text, "f")
            except PatternError as error:
                places = [finding.span for finding in error.findings]
            else:
                places = []
            lines = (
                text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
            )
            for place in places:
                assert place is not None
                assert place.line <= len(lines)
                assert place.column <= len(lines[place.line - 1]) + 1
