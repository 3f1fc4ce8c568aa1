"""Messages and helps read as sentences in every case, and give no figure of their own making."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import bindoff
from bindoff.english import an, are, how_many, verb

_NOUNS = "stitches|rounds|rows|markers|wedges|sizes|needles|charts|figures|balls|yarns"
_PLURAL = re.compile(rf"`? (?:[\w-]+ )?(?:{_NOUNS})\b")
_ARTICLE = re.compile(r"\b[Aa]n? `?$")
_FIGURE = re.compile(r"(?<![\w.:#-])\d{2,}(?![\w.:-])")
_MAKERS = ("Diagnostic", "fail", "Finding", "Fault", "problem")

# What is not 1 where it is told: limits, sums that are larger, widths that need a second stitch.
_NEVER_ONE = {
    "_FEWEST_WORDS", "MAX_SIDE", "MAX_STITCHES", "MOST", "MOST_LIVE", "MOST_MARKERS",
    "MOST_STITCHES", "MOST_CHARTS", "YARN_LIMIT", "MOST_CHARACTERS",
    "len(used)",  # over two yarns
    "there", "len(more)",  # more than another number, more than one
    "found[1].lower()", "rows.lower()",  # odd or even
    "near * int(found[2])", "found[2]",  # of a ratio
    "right",  # the needles of a machine
    "len(figures)",  # a list has two or more
    "written",  # a name, as a row writes it
    "other",  # larger or smaller
    "run.length",  # longer than a float may be
    "len(others)",  # more than there are symbols
    "found.wide",  # a symbol over several stitches
    "2 * height", "' or '.join((str(width) for width in near))", "fitting", "near",
    "written.stitches",  # over 10 cm
   
    "spec.width", "spec.height", "grid.height", "needles", "tube.needles", "wedges",
    "worked.stitches_per()", "worked.rounds_per()", "stitches", "now.stitches_per()", "rounds",
    "tube.total_rounds", "wanted.minimum_rounds", "options.minimum_rounds",
    "options.float_limit", "drawn.wide", "keys[character].span", "len(rows[0])",
    "len(rows)", "len(chart)", "width", "wish.stitches", "len(wish.yarns)", "len(grids)",
    "rows", "near * rows",  # more than 1; to a tenth
}  # fmt: skip


def _texts() -> Iterator[tuple[str, ast.JoinedStr | ast.Constant]]:
    """Every text inside a call that makes a finding, with the place of the call."""
    root = Path(bindoff.__file__).parent
    for path in sorted(root.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            name = getattr(node, "func", None)
            called = getattr(name, "id", None) or getattr(name, "attr", None)
            if isinstance(node, ast.Call) and called in _MAKERS:
                for text in (inner for arg in node.args for inner in ast.walk(arg)):
                    if isinstance(text, ast.JoinedStr) or (
                        isinstance(text, ast.Constant) and isinstance(text.value, str)
                    ):
                        yield f"{path.relative_to(root)}:{text.lineno}", text


def _neighbours(text: ast.JoinedStr) -> Iterator[tuple[ast.expr, ast.expr]]:
    yield from zip(text.values, text.values[1:], strict=False)


def test_no_text_says_1_stitches() -> None:
    """A count that may be 1 goes through ``how_many``."""
    wrong = [
        f"{place}: {ast.unparse(count.value)}"
        for place, text in _texts()
        if isinstance(text, ast.JoinedStr)
        for count, after in _neighbours(text)
        if isinstance(count, ast.FormattedValue)
        and isinstance(after, ast.Constant)
        and isinstance(after.value, str)
        and _PLURAL.match(after.value)
        and ast.unparse(count.value) not in _NEVER_ONE
    ]

    assert wrong == []


def test_no_text_says_a_infant() -> None:
    """A name that may begin with a vowel goes through ``an``; what is quoted has no article."""
    wrong = [
        place
        for place, text in _texts()
        if isinstance(text, ast.JoinedStr)
        for before, value in _neighbours(text)
        if isinstance(value, ast.FormattedValue)
        and isinstance(before, ast.Constant)
        and isinstance(before.value, str)
        and _ARTICLE.search(before.value)
        and ast.unparse(value.value) not in ("band.what", "side")  # a table, a line; right or wrong
    ]

    assert wrong == []


def test_no_text_gives_a_pattern_figures_that_are_not_its_own() -> None:
    """Written figures are limits of the program or the form of a value, never a count to knit."""
    about_form = (
        "cm",
        "UTF-",
        "CFR",
        "2026-",
        "100 g",
        "1,",
        "[k1",
        "colour",
        "gauge",
        "decimals",
        "pixels",
    )
    wrong = [
        f"{place}: {text.value}"
        for place, text in _texts()
        if isinstance(text, ast.Constant)
        and isinstance(text.value, str)
        and _FIGURE.search(text.value)
        and not any(form in text.value for form in about_form)
    ]

    assert wrong == []


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (are(1, "marker"), "1 marker is"),
        (are(2, "marker"), "2 markers are"),
        (how_many(1, "stitch"), "1 stitch"),
        (how_many(3, "live stitch"), "3 live stitches"),
        (verb(1, "does", "do"), "does"),
        (verb(0, "does", "do"), "do"),
        (an("infant"), "an infant"),
        (an("adult"), "an adult"),
        (an("child"), "a child"),
        (an("crochet hook"), "a crochet hook"),
    ],
)
def test_counts_and_articles_agree(said: str, words: str) -> None:
    assert said == words
