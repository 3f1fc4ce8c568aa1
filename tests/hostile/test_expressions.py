"""Every regular expression of the program takes a time that grows as its text does."""

import pkgutil
import re
from collections import deque
from collections.abc import Iterator
from importlib import import_module
from time import process_time

import pytest

import bindoff
from bindoff.regex import Late
from bindoff.render.spoken import _rules
from bindoff.source.rowlang.read import LONGEST
from tests.hostile.fuzz import SlowError, limited

SHORT, QUICK = 4_000, 0.002
"""A sound expression reads a text of so many characters in so many seconds; what takes longer
reads the long text too."""

LENGTH = 40_000
SECONDS = 1.0
"""For a text of ``LENGTH``; an expression that begins anew at every character takes many times it,
and a sound one a hundredth."""

RUNS = (
    "1", "a", "A", " ", ".", ",", "@", "*", "_", "-", "/", "(", "[", "{", '"', "'", "{{ ", "{% ",
    "1 ", "1,", "1.", "1/", "a ", "a-", "a.", "a@", "a&", "1 a", "5 cm ", "mm", "5 mm", "](",
    "[a](b", "1 (1", "https://", "\n", "\n ", "- ", "\n-", "M1", ":", "a:", "# ", " #", "½",
    "left ", "US ", "1 (" + 40 * "1,",
)  # fmt: skip


# Never searched for in a text of any length: matched at one place, or over 80 characters at most.
AT_ONE_PLACE = frozenset(
    {
        "checks.texts.alts._ONLY_KIND",
        "source.lengths._FRACTION_CHARACTER",
        "source.lengths._UNIT_AT_END",
        "source.validation._DECIMAL_COMMA",
        "source.yamlvalues._DASH_WITHOUT_SPACE",
        "source.yamlvalues._LOST_COLOUR",
        "source.yamlvalues._LOST_NUMBER",
        "source.yamlvalues._PROPERTIES",
        "source.yamlwords._NAME_AND_COLON",
        "source.yamlwords._VALUE",
        "checks.safety._HEADINGS",
        "checks.keys.sizes._TYPED",
        "checks.texts.told.shares._MORE_SHARES",
        "checks.texts.told.shares._PLACED",
        "checks.foreignparts._WORKED",
        "checks.foreignparts._HOW",
        "checks.keys.stated._AND_A_BAND",
        "checks.keys.stated._SO_MANY",
        "checks.keys.stated._WIDTH_OF",
        "checks.keys.stated._HEIGHT_OF",
        "commands.grid._YARN",
        "document.cautions._LINE",
        "document.schematics._HELPER",
        "render.pdf.sizelanes._BETWEEN",
        "render.pdf.sizelanes._TAIL",
        "source.rowlang.build._NAME_IN_BRACES",
        "source.rowlang.reader.joints._UNTIL",
        "source.rowlang.vocabulary._GLUED",
    }
)


def expressions() -> Iterator[tuple[str, "re.Pattern[str]"]]:
    """All that modules hold, by name."""
    for module in pkgutil.walk_packages(bindoff.__path__, "bindoff."):
        if not module.name.endswith("__main__"):
            for name, value in vars(import_module(module.name)).items():
                if isinstance(value, re.Pattern | Late) and isinstance(value.pattern, str):
                    expression = re.compile(value.pattern, value.flags)
                    yield f"{module.name.removeprefix('bindoff.')}.{name}", expression
    for number, (_, value, _) in enumerate(_rules("re")):
        yield f"render.spoken {number}", value


def is_slow(name: str, expression: "re.Pattern[str]", run: str) -> bool:
    """Whether a long text of a run takes an expression longer than it may."""
    # A row is read by these only up to its own limit.
    longest = LONGEST if name.startswith("source.rowlang.reader.") else LENGTH

    def read(length: int) -> float:
        """The seconds of CPU that a text of this length takes."""
        text = (run * length)[:length] + "!"
        began = process_time()
        if name in AT_ONE_PLACE:
            expression.match(text)
            expression.fullmatch(text)
        else:
            deque(expression.finditer(text), maxlen=0)
        return process_time() - began

    try:
        with limited(SECONDS):
            if read(min(SHORT, longest)) > QUICK:
                read(longest)
    except SlowError:
        return True
    return False


@pytest.mark.parametrize(
    ("name", "expression"), tuple(expressions()), ids=lambda each: str(each)[:60]
)
def test_no_run_of_marks_makes_an_expression_slow(name: str, expression: "re.Pattern[str]") -> None:
    assert [run for run in RUNS if is_slow(name, expression, run)] == []


@pytest.mark.parametrize(
    ("expression", "run"), [(r"\s+x", " "), (r"(?:a|a )+b", "a"), (r"(?:1|a)*x", "1")]
)
def test_an_expression_that_begins_anew_at_every_character_is_noticed(
    expression: str, run: str
) -> None:
    assert is_slow("a", re.compile(expression), run)
