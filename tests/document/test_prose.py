"""Markdown with names in it becomes tree nodes; values are never read as markup."""

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.document.prose import blocks, inlines, literal
from bindoff.document.tree import (
    Emphasis,
    Heading,
    Inlines,
    ItemList,
    LineBreak,
    Link,
    ListItem,
    Paragraph,
    SizeValues,
    Strong,
    Text,
    dump,
    plain,
)

STITCHES = SizeValues(("80", "88", "96"))
VALUES: Mapping[str, object] = {
    "stitches": STITCHES,
    "needles": 46,
    "ratio": 1.25,
    "whole": 12.0,
    "name": "Slate *soft* [a](b) <b> `x` {{ y }}",
    "two_lines": "Harbour\n  Street",
    "row": (Text("k6, "), SizeValues(("k2tog", "ssk", "k2"))),
    "lined": True,
    "nothing": None,
    "site": "https://ebbstow.example/hat",
    "yarns": [
        {"name": "Slate", "items": SizeValues(("2", "3", "3"))},
        {"name": "Foam", "items": 1},
    ],
    "terms": {"bind_off": "bind off"},
    "empty": [],
}
LINE = Span("hat/pattern.yaml", 7, 12, 7, 200)


def finding(markdown: str, span: Span | None = LINE) -> Diagnostic:
    """The single complaint about ``markdown``."""
    with pytest.raises(PatternError) as caught:
        blocks(markdown, VALUES, span)
    (only,) = caught.value.findings
    assert only.message[0].islower() or only.message.startswith("HTML")
    assert not only.message.endswith(".")
    assert only.help
    return only


# ---------------------------------------------------------------- values


def test_a_value_per_size_stays_one_through_markdown() -> None:
    assert inlines("Cast on **{{ stitches }}** stitches.", VALUES) == (
        Text("Cast on "),
        Strong((STITCHES,)),
        Text(" stitches."),
    )


@pytest.mark.parametrize(
    ("markdown", "expected"),
    [
        ("{{ name }}", "Slate *soft* [a](b) <b> `x` {{ y }}"),
        ("{{ needles }} needles", "46 needles"),
        ("{{ ratio }} and {{ whole }}", "1.25 and 12"),
        ("{{ two_lines }}", "Harbour Street"),
        ("{{ terms.bind_off | sentence }}.", "Bind off."),
        ("{{ yarns[1].name | upper }}", "FOAM"),
        ("{{ yarns | length }}", "2"),
        ("{{ stitches ~ ' stitches' }}", "80 (88, 96) stitches"),
        ("{{ other | default('none') }}", "none"),
        ("{{ '*' }}", "*"),
        ("a{{ empty }}b", "ab"),
        ("{{ yarns[0]['name'] }}", "Slate"),
    ],
)
def test_values_print_as_they_are(markdown: str, expected: str) -> None:
    assert plain(inlines(markdown, VALUES)) == expected


def test_values_that_look_alike_are_not_taken_for_each_other() -> None:
    """What was filled in before is remembered by all its values."""
    same = SizeValues(("5", "6"))
    for n, other, expected in (
        (1, "1", "1 and 1"),
        (1.0, "1", "1 and 1"),
        (1, "2", "1 and 2"),
        (2, (Text("1"),), "2 and 1"),
        (1, (Text("1"),), "1 and 1"),
        (1, same, "1 and 5 (6)"),
    ):
        (told,) = blocks("{{ n }} and {{ other }}", {"n": n, "other": other})
        assert isinstance(told, Paragraph)
        assert plain(told.children) == expected
    with pytest.raises(PatternError):
        blocks("{{ n }} and {{ other }}", {"n": True, "other": "1"})


def test_tree_nodes_can_be_values() -> None:
    assert inlines("*{{ row }}* once", VALUES) == (
        Emphasis((Text("k6, "), SizeValues(("k2tog", "ssk", "k2")))),
        Text(" once"),
    )


def test_a_part_of_a_value_may_have_any_name() -> None:
    """``items`` is a part here, never the method that a mapping has under that name."""
    assert inlines("{{ yarns[0].items }}", VALUES) == (SizeValues(("2", "3", "3")),)


def test_loops_and_conditions_write_lists() -> None:
    markdown = """\
{% if lined %}
Lined.
{% endif %}
{% if whale is defined %}
Never.
{% endif %}

{% for yarn in yarns %}
- {{ yarn.name }}: {{ yarn.items }}{{ "," if not loop.last else "." }}
{% endfor %}
"""
    assert blocks(markdown, VALUES) == (
        Paragraph((Text("Lined."),)),
        ItemList(
            (
                ListItem((Paragraph((Text("Slate: "), SizeValues(("2", "3", "3")), Text(","))),)),
                ListItem((Paragraph((Text("Foam: 1."),)),)),
            )
        ),
    )


def test_a_value_can_be_the_target_of_a_link() -> None:
    assert inlines("[the *pattern* page]({{ site }}?a=b)", VALUES) == (
        Link(
            (Text("the "), Emphasis((Text("pattern"),)), Text(" page")),
            "https://ebbstow.example/hat?a=b",
        ),
    )


@given(
    st.text(st.characters(exclude_categories=["Cs", "Co", "Cc", "Zs", "Zl", "Zp"]), min_size=1),
    st.sampled_from(["{{ it }}", "**{{ it }}**", "- {{ it }}\n", "# {{ it }}", "a\n{{ it }}\nb"]),
)
def test_no_value_is_ever_read_as_markup(value: str, markdown: str) -> None:
    with_a_word = dump(blocks(markdown.replace("{{ it }}", "WORD"), {}))

    assert dump(blocks(markdown, {"it": value})) == _replaced(with_a_word, value)


def _replaced(data: Any, value: str) -> Any:
    """``data`` with ``value`` in the place of ``WORD``."""
    match data:
        case dict():
            return {key: _replaced(each, value) for key, each in data.items()}
        case list():
            return [_replaced(each, value) for each in data]
        case str():
            return data.replace("WORD", value)
    return data


# ---------------------------------------------------------------- Markdown


def test_paragraphs_headings_and_line_breaks() -> None:
    assert blocks("# Crown\nWork *even*  \nto the\nend.\n\n## Close\n", {}, heading_level=3) == (
        Heading(3, (Text("Crown"),)),
        Paragraph((Text("Work "), Emphasis((Text("even"),)), LineBreak(), Text("to the end."))),
        Heading(4, (Text("Close"),)),
    )


def lines(markdown: str, values: Mapping[str, object] | None = None) -> list[str]:
    """The lines of a text that is one paragraph."""
    (paragraph,) = blocks(markdown, values or {})
    assert isinstance(paragraph, Paragraph)
    whole = "".join("\n" if isinstance(each, LineBreak) else plain((each,)) for each in
                    paragraph.children)  # fmt: skip
    return whole.split("\n")


@pytest.mark.parametrize(
    "markdown",
    [
        "Stitches, front and back: 88\nRepeats across: 21, of 4 stitches each\nRows: 160",
        "a. Stitches: 48, 56, 64 (all multiples of 8).\nb. Rounds in the cuff: 12, 12, 12.",
        "Band 1, Sand, growing: rows 56 / 74, stitches 59 / 77\nAll rows: 336 / 444",
        "**Rows:** 160\n**Ridges**: 80",
    ],
)
def test_lines_of_names_and_figures_stay_lines(markdown: str) -> None:
    assert lines(markdown) == markdown.replace("*", "").split("\n")


def test_a_figure_of_a_list_may_be_printed_from_a_measure() -> None:
    assert lines("Rows: {{ n }}\nSides: {{ m }} each", {"n": 80, "m": 4}) == [
        "Rows: 80",
        "Sides: 4 each",
    ]


@pytest.mark.parametrize(
    "markdown",
    [
        "Work in rounds: 12 of them are\nplain, and 4 are shaped.",
        "How the mosaic works: a line of the chart stands for two rows, 80\nin all. Two yarns: 40",
        "Rows: 160\nKnit them all.",
        "Two yarns: sea and sand\nTwo needles: a short and a long one",
        "Rows: 160",
        "Cast on 20 stitches. Then work: 4 rows\nAfter these you have worked, in all: 4",
    ],
)
def test_lines_of_prose_run_on(markdown: str) -> None:
    assert lines(markdown) == [markdown.replace("\n", " ")]


def test_lists_nest_and_numbers_run_on_from_their_start() -> None:
    def entry(text: str, *more: ItemList) -> ListItem:
        return ListItem((Paragraph((Text(text),)), *more))

    assert blocks("4. knit\n5. purl\n   - loosely\n   - evenly\n", {}) == (
        ItemList(
            (entry("knit"), entry("purl", ItemList((entry("loosely"), entry("evenly"))))),
            ordered=True,
            start=4,
        ),
    )


@pytest.mark.parametrize(
    ("markdown", "words"),
    [
        ("an ![a](b.png)", "an image"),
        ("`k2`", "code in backticks"),
        ("```\nk2\n```", "a code block"),
        ("a <b>word</b>", "HTML"),
        ("<div>\na\n</div>", "HTML"),
        ("> said", "a quotation"),
        ("a\n\n---\n", "a rule"),
        ("| a | b |\n|---|---|\n| 1 | 2 |\n", "a table"),
    ],
)
def test_what_the_tree_has_no_node_for_is_refused_by_name(markdown: str, words: str) -> None:
    assert finding(markdown).message.startswith(words)


def test_less_than_a_number_is_no_markup() -> None:
    assert plain(inlines("stitches < 40 and <3 & 5 > 4", {})) == "stitches < 40 and <3 & 5 > 4"


def test_a_line_that_is_indented_is_no_code() -> None:
    assert blocks("      Work on.", {}) == (Paragraph((Text("Work on."),)),)


@pytest.mark.parametrize("target", ["javascript:a()", "file:///x", "notes.txt", "{{ stitches }}"])
def test_links_lead_to_the_web_to_mail_or_into_the_document(target: str) -> None:
    assert finding(f"a [link](<{target}>)").id == "prose.link"


@pytest.mark.parametrize("markdown", ["a [](https://ebbstow.example)", "#", "- a\n-\n"])
def test_what_has_no_words_is_refused(markdown: str) -> None:
    assert finding(markdown).id == "prose.empty"


def test_a_heading_deeper_than_the_document_has_is_refused() -> None:
    assert finding("### Deep").help == "Use at most 2"


def test_running_text_is_one_paragraph_and_its_start_is_no_list() -> None:
    assert inlines("* k6, k2tog; repeat from * to end", {}) == (
        Text("* k6, k2tog; repeat from * to end"),
    )
    assert inlines("1. knit\n# of rounds", {}) == (Text("1. knit # of rounds"),)
    assert inlines("", {}) == ()
    with pytest.raises(PatternError, match="one paragraph"):
        inlines("one\n\ntwo", {})


@given(st.text(st.characters(exclude_categories=["Cs", "Co", "Cc", "Zs", "Zl", "Zp"]), min_size=1))
def test_literal_text_prints_as_it_is(text: str) -> None:
    assert inlines(literal(text), {}) == (Text(text),)
    assert blocks(literal(text), {}) == (Paragraph((Text(text),)),)


def test_a_row_in_asterisks_prints_with_them_when_literal() -> None:
    row = "*k6, k2tog* to {{ end }}\n  {% no %}"
    assert inlines(literal(row), {}) == (Text("*k6, k2tog* to {{ end }} {% no %}"),)


# ---------------------------------------------------------------- complaints


def test_an_unknown_name_is_marked_with_the_nearest_and_all_that_exist() -> None:
    text = "The nedles, all {{ nedles }} of them."
    error = finding(text)

    assert error.id == "prose.name"
    assert error.message == "there is no value named `nedles`"
    assert error.help.startswith("Write `needles`; the names here are `empty`, `lined`, ")
    assert error.span == LINE.inside(text.index("{{ ") + 3, text.index(" }}"))


def test_an_unknown_part_is_marked_with_the_parts_there_are() -> None:
    error = finding("{{ yarns[0].nam }}")

    assert error.message == "this value has no part named `nam`"
    assert error.help == "Write `name`; the names here are `items`, `name`"


def test_a_part_of_an_unknown_value_names_the_value() -> None:
    assert finding("{{ trms.gauge }}").help.startswith("Write `terms`; ")
    assert finding("{{ trms['gauge'].x }}").message == "there is no value named `trms`"


def test_a_complaint_in_a_longer_text_points_at_its_line_and_column() -> None:
    text = "Cast on.\n\n{% if lined %}\nWork {{ stiches }} rounds.\n{% endif %}\n\nA <b>word</b>."
    block = Span("hat/pattern.yaml", 20, 5, 26, 20)

    assert finding(text, block).span == Span("hat/pattern.yaml", 23, 13, 23, 20)
    assert finding(text.replace("stiches", "stitches"), block).span == Span(
        "hat/pattern.yaml", 26, 7, 26, 10
    )


def test_text_that_was_folded_into_one_line_keeps_the_span_it_was_given() -> None:
    folded = Span("hat/pattern.yaml", 7, 12, 7, 30)
    assert finding("A {{ whale }} that is longer than the span", folded).span == Span(
        "hat/pattern.yaml", 7, 17, 7, 22
    )
    assert finding("A long way away from where it began, a {{ whale }}", folded).span == folded
    assert finding("{{ whale }}", None).span is None


@pytest.mark.parametrize(
    "expression",
    [
        "needles + 1",
        "needles ** 9 ** 9",
        "'ab' * 1000000000",
        "-needles",
        "range(9)",
        "name.upper()",
        "name.__class__",
        "''.__class__.__mro__",
        "yarns.append",
        "terms.items",
        "self",
        "loop",
        "needles | pprint",
        "yarns | map(attribute='name') | join",
        "'%0999999d' | format(1)",
        "yarns is sameas 1",
        "yarns[0:1]",
        "{'a': 1}",
        "yarns",
        "terms",
        "lined",
        "nothing",
        "needles > 'a'",
        "'\\ud800'",
        "'unfinished",
        "(" * 3000 + "1" + ")" * 3000,
        "9" * 6000,
    ],
)
def test_braces_print_values_and_do_nothing_else(expression: str) -> None:
    assert finding("{{ " + expression + " }}").id in ("prose.braces", "prose.name")


@pytest.mark.parametrize(
    "markdown",
    [
        "{% set a = 1 %}",
        "{% macro a() %}{% endmacro %}",
        "{% include 'a' %}",
        "{% extends 'a' %}",
        "{% import 'a' as a %}",
        "{% block a %}{% endblock %}",
        "{% filter upper %}a{% endfilter %}",
        "{% raw %}a",
        "{% for a in yarns recursive %}{{ loop(a) }}{% endfor %}",
        "{% for a in yarns %}{% for b in yarns %}{% for c in yarns %}{% endfor %}{% endfor %}"
        "{% endfor %}",
        "{% for a in needles %}{% endfor %}",
        "{% for a in yarns %}",
        "{% if %}{% endif %}",
        "{% whatever %}",
        "a {{ needles",
        "{# never closed",
    ],
)
def test_only_loops_and_conditions_can_be_written(markdown: str) -> None:
    assert finding(markdown).id == "prose.braces"


def test_a_text_cannot_grow_without_bound() -> None:
    many = {"rows": list(range(600))}
    with pytest.raises(PatternError, match="grows beyond 20,000 characters"):
        blocks("{% for a in rows %}{% for b in rows %}word{% endfor %}{% endfor %}", many)


@pytest.mark.parametrize(
    "text", ["a \U000f0000 b", "a \ud800", "a &#983040; b", "{{ 1 }}&#983099;"]
)
def test_characters_that_stand_for_nothing_are_refused(text: str) -> None:
    assert finding(text).id == "prose.character"


def test_a_value_of_a_kind_that_cannot_be_text_is_a_fault_of_the_program() -> None:
    with pytest.raises(TypeError, match="no use for a value of type object"):
        inlines("{{ it }}", {"it": object()})


@given(st.text("{}%# _abn|()[]'*-.<>`!\n0", max_size=24))
def test_any_text_gives_a_tree_or_a_complaint(markdown: str) -> None:
    def result() -> Inlines | str | tuple[object, ...]:
        try:
            return blocks(markdown, {"a": STITCHES, "b": "x", "n": [1]}, LINE)
        except PatternError as error:
            return str(error)

    assert result() == result()


def test_plain_text_costs_no_import_of_the_text_engines() -> None:
    code = (
        "import sys, bindoff.document.prose as prose\n"
        "assert not {'jinja2', 'markdown_it'} & set(sys.modules)\n"
        "prose.inlines('Plain words.', {})\n"
        "assert 'jinja2' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_what_was_filled_in_before_costs_no_import_either(tmp_path: Path) -> None:
    code = (
        "import sys\n"
        "from bindoff.document.prose import inlines\n"
        "from bindoff.document.tree import plain\n"
        "from bindoff.kept import keep_all\n"
        "print(plain(inlines('{{ n }} {{ n }} rounds', {'n': int(sys.argv[1])})))\n"
        "print('jinja2' in sys.modules)\n"
        "keep_all()"
    )
    unset = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    environment = {**unset, "PYTHONPYCACHEPREFIX": str(tmp_path)}

    def said(n: int) -> list[str]:
        command = [sys.executable, "-c", code, str(n)]
        done = subprocess.run(command, check=True, capture_output=True, text=True, env=environment)
        return done.stdout.splitlines()

    assert said(5) == ["5 5 rounds", "True"]
    assert said(5) == ["5 5 rounds", "False"]
    assert said(6) == ["6 6 rounds", "True"]
