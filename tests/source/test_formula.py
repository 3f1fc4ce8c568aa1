"""The formula language of measures."""

from contextlib import suppress
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.source.formula import (
    Binary,
    Call,
    Formula,
    Kind,
    Literal,
    Name,
    Negative,
    Quantity,
    evaluate,
    order_of,
    parse_formula,
)
from bindoff.source.lengths import parse_length

LENGTH, STITCHES, ROUNDS = Kind.LENGTH, Kind.STITCHES, Kind.ROUNDS
ONE, NONE = Quantity(1), Quantity(0)
NAMES = {
    "brim": Quantity(50, LENGTH),
    "head": Quantity(560, LENGTH),
    "needles": Quantity(46, STITCHES),
    "depth_rounds": Quantity(30, ROUNDS),
    "nothing": Quantity(0),
    "länge": Quantity(10, LENGTH),
}


def stitches(around: Quantity, multiple: Quantity = ONE, plus: Quantity = NONE) -> Quantity:
    """Stitches for a length at 20 stitches over 10 cm, to a multiple, plus some."""
    if around.kind != LENGTH:
        raise fail("helper.kind", "this is not a length", "Give a length")
    step = multiple.value
    return Quantity(round(around.value / 5 / step) * step + plus.value, STITCHES)


def largest(first: Quantity, *others: Quantity) -> Quantity:
    return max((first, *others), key=lambda value: value.value)


def parse(text: str) -> Formula:
    return parse_formula(text, Span("hat.yaml", 4, 11, 4, 11 + len(text)))


def value(text: str) -> Quantity:
    return evaluate(parse(text), NAMES, {"stitches": stitches, "largest": largest})


def finding(text: str) -> Diagnostic:
    with pytest.raises(PatternError) as caught:
        value(text)
    (found,) = caught.value.findings
    return found


def marked(text: str) -> tuple[str, str]:
    """A fault's id and the part of the formula it points at."""
    found = finding(text)
    assert found.span
    assert (found.span.file, found.span.line) == ("hat.yaml", 4)
    return found.id, text[found.span.column - 11 : found.span.end_column - 11]


# Values


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("brim + 5 cm", Quantity(100, LENGTH)),
        ("brim - 1 in", Quantity(24.6, LENGTH)),
        ("head * 92 %", Quantity(515.2, LENGTH)),
        ("8% * head", Quantity(44.8, LENGTH)),
        ("head / 2", Quantity(280, LENGTH)),
        ("head / brim", Quantity(11.2)),
        ("-brim", Quantity(-50, LENGTH)),
        ("−brim × 2 ÷ 4", Quantity(-25, LENGTH)),
        ("(brim + 1 cm) * 2", Quantity(120, LENGTH)),
        ("needles + 2", Quantity(48, STITCHES)),
        ("2 + needles", Quantity(48, STITCHES)),
        ("needles - 4 stitches", Quantity(42, STITCHES)),
        ("12 sts + 1 st", Quantity(13, STITCHES)),
        ("depth_rounds + 2 rounds", Quantity(32, ROUNDS)),
        ("2 rows + 1 rnd", Quantity(3, ROUNDS)),
        ("needles / 2 stitches", Quantity(23)),
        ("8¼ in", Quantity(209.55, LENGTH)),
        ('8 1/4"', Quantity(209.55, LENGTH)),
        ("3/4 in + 1 in", Quantity(44.45, LENGTH)),
        ("head / (3/4 in)", Quantity(560 / 19.05)),
        ("2½ * brim", Quantity(125, LENGTH)),
        ("länge + brim", Quantity(60, LENGTH)),
        ("stitches(head)", Quantity(112, STITCHES)),
        ("stitches(head, multiple = 5, plus=2)", Quantity(112, STITCHES)),
        ("stitches(head, 5, 2) + 1", Quantity(113, STITCHES)),
        ("largest(brim, head, 1 cm)", Quantity(560, LENGTH)),
        ("brim if head > 50 cm else 3 cm", Quantity(50, LENGTH)),
        ("1 if head ≤ 50 cm else 2 if needles = 46 else 3", Quantity(2)),
        ("1 / nothing if nothing != 0 else 7", Quantity(7)),
        ("brim\n  + 5 cm", Quantity(100, LENGTH)),
    ],
)
def test_a_formula_has_a_value_and_a_kind(text: str, expected: Quantity) -> None:
    """Worked out by hand, at the inch of 25.4 mm."""
    result = value(text)
    assert result.kind == expected.kind
    assert result.value == pytest.approx(expected.value, rel=1e-12)


@pytest.mark.parametrize(
    ("sign", "left", "right", "holds"),
    [("<", 1, 2, True), ("<=", 2, 2, True), ("≤", 3, 2, False), (">", 2, 2, False),
     (">=", 2, 2, True), ("≥", 1, 2, False), ("=", 2, 2, True), ("==", 1, 2, False),
     ("!=", 1, 2, True), ("≠", 2, 2, False)],
)  # fmt: skip
def test_each_comparison(sign: str, left: int, right: int, holds: bool) -> None:
    assert value(f"1 if {left} {sign} {right} else 0").value == holds


def test_names_and_helpers_are_listed_in_order_each_once() -> None:
    formula = parse("stitches(head + brim, plus = b) + largest(head, stitches(a))")
    assert formula.names == ("head", "brim", "b", "a")
    assert formula.functions == ("stitches", "largest")


def test_the_parts_of_a_formula_are_plain_data() -> None:
    assert parse("f(2 cm, n = -a)*3").root == Binary(
        "*",
        Call(
            "f",
            (Literal(Quantity(20, LENGTH), "2 cm", 2, 6),),
            (("n", Negative(Name("a", 13, 14), 12, 14)),),
            0,
            15,
        ),
        Literal(Quantity(3), "3", 16, 17),
        0,
        17,
    )


# Faults


@pytest.mark.parametrize(
    ("text", "id", "part"),
    [
        ("brim + 4", "formula.kinds", "brim + 4"),
        ("2 * (needles - brim)", "formula.kinds", "(needles - brim)"),
        ("needles + depth_rounds", "formula.kinds", "needles + depth_rounds"),
        ("brim * head", "formula.kinds", "brim * head"),
        ("4 / brim", "formula.kinds", "4 / brim"),
        ("head - 8 %", "formula.kinds", "head - 8 %"),
        ("1 if head > 5 else 2", "formula.kinds", "head > 5"),
        ("1 cm + head / nothing", "formula.zero", "nothing"),
        ("100000 * 100000 + 1", "formula.too-large", "100000 * 100000"),
        ("1 + hed", "formula.unknown-name", "hed"),
        ("1 + stitch(head)", "formula.unknown-helper", "stitch(head)"),
        ("1 + stitches(4)", "helper.kind", "stitches(4)"),
        ("stitches()", "formula.arguments", "stitches()"),
        ("stitches(head, 1, 2, 3)", "formula.arguments", "3"),
        ("stitches(head, times = 3)", "formula.arguments", "3"),
        ("stitches(head, around = brim)", "formula.arguments", "brim"),
        ("stitches(plus = 1, head)", "formula.argument-order", "head"),
        ("stitches(head, plus = 1, plus = 2)", "formula.argument-twice", "plus = 2"),
        ("", "formula.syntax", ""),
        ("brim +", "formula.syntax", "+"),
        ("(brim", "formula.syntax", "m"),
        ("brim) + 1", "formula.syntax", ")"),
        ("* 2", "formula.syntax", "*"),
        ("brim head", "formula.syntax", "head"),
        ("5 furlongs", "formula.syntax", "furlongs"),
        ("8,5 cm", "formula.syntax", ","),
        ("2 ** 3", "formula.syntax", "*"),
        ("brim = 3", "formula.syntax", "="),
        ("brim > 3", "formula.syntax", ">"),
        ("if + 1", "formula.syntax", "if"),
        ("{brim} + 1", "formula.character", "{"),
        ("2 ^ 3", "formula.character", "^"),
        ("2 – 1", "formula.character", "–"),
        ("Brim + 1", "formula.name", "Brim"),
        ("2 * m²", "formula.name", "m²"),
        ("head / 3/4 in", "formula.unclear-fraction", "3/4 in"),
        ("2 + 9999999999", "formula.figure", "9999999999"),
        ("1/0 in + 2 cm", "formula.figure", "1/0 in"),
        ("-" * 70 + "1", "formula.too-deep", "-" * 70 + "1"),
        (" + ".join("1" * 70), "formula.too-deep", " + ".join("1" * 70)),
    ],
)
def test_a_fault_points_at_the_part_that_is_wrong(text: str, id: str, part: str) -> None:
    assert marked(text) == (id, part or text[:1])


def test_a_formula_of_many_brackets_is_no_deeper_than_one_without() -> None:
    assert value("(" * 400 + "1" + ")" * 400) == Quantity(1)
    assert finding("(" * 600 + "1" + ")" * 600).id == "formula.too-long"


def test_the_advice_says_what_to_write() -> None:
    assert finding("head - 8 %").help == "Multiply instead: `head * 92 %`"
    assert finding("head + 8 %").help == "Multiply instead: `head * 108 %`"
    assert finding("hed").help.startswith("Write `head`, or another name; these exist: `brim`")
    assert "`around`, `multiple`, `plus`" in finding("stitches()").help
    assert "decimal with a point" in finding("8,5 cm").help
    assert "has no spaces" in finding("brim depth").help
    assert "mm, cm, m, in, yd" in finding("5 furlongs").help
    assert "without braces" in finding("{brim}").help
    assert "unit" in finding("brim + 4").help
    assert "into stitches or rounds" in finding("brim + 2 rounds").help


def test_a_fault_in_a_text_with_escapes_points_at_the_whole() -> None:
    whole = Span("hat.yaml", 4, 11, 4, 40)
    with pytest.raises(PatternError) as caught:
        parse_formula("brim + ", whole)
    assert caught.value.findings[0].span == whole


# Order


def order(given: tuple[str, ...] = (), /, **formulas: str) -> tuple[str, ...]:
    parsed = {
        name: parse_formula(text, Span("hat.yaml", line, 4, line, 4 + len(text)))
        for line, (name, text) in enumerate(formulas.items(), start=1)
    }
    return order_of(parsed, given)


def order_faults(given: tuple[str, ...] = (), /, **formulas: str) -> tuple[Diagnostic, ...]:
    with pytest.raises(PatternError) as caught:
        order(given, **formulas)
    return caught.value.findings


def test_each_name_comes_after_all_it_needs() -> None:
    assert order(("head",), total="brim + depth", depth="head / 2", brim="depth") == (
        "depth",
        "brim",
        "total",
    )


def test_a_loop_is_told_as_a_whole_with_its_places() -> None:
    (found,) = order_faults(a="b + 1", b="2 * c", c="a", d="a")
    assert found.id == "formula.loop"
    assert (
        found.message == "these names need each other: `a` needs `b`, `b` needs `c`, `c` needs `a`"
    )
    assert found.span == Span("hat.yaml", 1, 4, 1, 5)
    assert "`a` at hat.yaml:1:4, `b` at hat.yaml:2:4, `c` at hat.yaml:3:4" in found.help


def test_loops_apart_from_each_other_are_all_found() -> None:
    found = order_faults(a="a", b="c", c="b", d="1")
    assert [each.message for each in found] == [
        "`a` needs itself",
        "these names need each other: `b` needs `c`, `c` needs `b`",
    ]


def test_an_unknown_name_is_found_with_its_place_and_what_exists() -> None:
    first, second = order_faults(("head",), depth="hed / 2", brim="2 * width")
    assert (first.id, str(first.span)) == ("formula.unknown-name", "hat.yaml:1:4")
    assert first.help == "Write `head`, or another name; these exist: `brim`, `head`"
    assert (second.message, str(second.span)) == ("there is no name `width`", "hat.yaml:2:8")


@given(st.data())
def test_any_loop_free_set_of_formulas_can_be_ordered(data: st.DataObject) -> None:
    """Each name needs only later letters, and is declared in any order."""
    letters = "abcdefgh"
    needs = {
        letter: data.draw(st.lists(st.sampled_from(letters[index + 1 :]), max_size=3))
        for index, letter in enumerate(letters[:-1])
    } | {"h": []}
    declared = data.draw(st.permutations(letters))
    done = order(**{name: " + ".join(["1", *needs[name]]) for name in declared})
    assert sorted(done) == list(letters)
    for name in letters:
        assert all(done.index(needed) < done.index(name) for needed in needs[name])


# Against Python

figures = st.integers(0, 999).map(str) | st.decimals(0, 99, places=2).map(str)
sums = st.recursive(
    figures | st.sampled_from(["a", "b", "c"]),
    lambda inner: (
        st.tuples(inner, st.sampled_from("+-*/"), inner).map(" ".join)
        | inner.map(lambda text: f"({text})")
        | inner.map(lambda text: f"-{text}")
        | st.tuples(
            inner, inner, st.sampled_from(["<", "<=", ">", ">=", "==", "!="]), inner, inner
        ).map(lambda t: f"({t[0]} if {t[1]} {t[2]} {t[3]} else {t[4]})")
    ),
    max_leaves=10,
)


@given(sums, st.tuples(*[st.floats(-1000, 1000)] * 3))
@example("2 - 3 - 4", (0.0, 0.0, 0.0))
@example("2 / 3 / 4 * 5", (0.0, 0.0, 0.0))
@example("-2 * -3 - -4", (0.0, 0.0, 0.0))
def test_plain_numbers_compute_as_in_python(text: str, inputs: tuple[float, float, float]) -> None:
    names = dict(zip("abc", inputs, strict=True))
    result = python = None
    with suppress(ZeroDivisionError):
        python = eval(text, {"__builtins__": {}}, {n: float(v) for n, v in names.items()})
    try:
        result = evaluate(parse(text), {n: Quantity(v) for n, v in names.items()}, {}).value
    except PatternError as error:
        (found,) = error.findings
        if found.id == "formula.too-large":
            return
        assume(found.id != "formula.too-deep")
    assert result == python


quantities = st.builds(Quantity, st.integers(-1000, 1000).map(float), st.sampled_from(list(Kind)))


@given(quantities, quantities, st.sampled_from("+-*/"))
def test_kinds_follow_the_units_of_the_parts(left: Quantity, right: Quantity, sign: str) -> None:
    """As with units: sums keep theirs, products and quotients add and subtract exponents."""
    powers = {Kind.NUMBER: (0, 0, 0), LENGTH: (1, 0, 0), STITCHES: (0, 1, 0), ROUNDS: (0, 0, 1)}
    a, b = powers[left.kind], powers[right.kind]
    assume(sign != "/" or right.value != 0)
    expected: tuple[int, ...] | None
    if sign in "*/":
        expected = tuple(x + y if sign == "*" else x - y for x, y in zip(a, b, strict=True))
    elif left.kind == right.kind:
        expected = a
    else:
        counts = LENGTH not in (left.kind, right.kind) and Kind.NUMBER in (left.kind, right.kind)
        expected = tuple(map(max, a, b)) if counts else None
    try:
        result = evaluate(parse(f"a {sign} b"), {"a": left, "b": right}, {})
    except PatternError:
        assert expected not in powers.values()
    else:
        assert powers[result.kind] == expected


@given(
    st.integers(0, 99), st.integers(1, 99), st.integers(1, 99), st.sampled_from(["in", "cm", '"'])
)
def test_a_length_in_a_formula_is_the_length_it_is_alone(
    whole: int, over: int, under: int, unit: str
) -> None:
    text = f"{whole} {over}/{under} {unit}"
    assert value(text) == Quantity(parse_length(text), LENGTH)
    mm = Fraction(254, 10) if unit != "cm" else Fraction(10)
    assert value(f"0 cm + {text}").value == float((whole + Fraction(over, under)) * mm)


PIECES = (
    *("a", "brim", "if", "else", "1", "2.5", "5cm", "3/4in", "8%", "2rounds", "¼", "f("),
    *("(", ")", ",", "=", "+", "-", "*", "/", "<", ">="),
)


def refuse(*_: Any, **__: Any) -> Quantity:
    raise fail("helper.refused", "no", "Stop")


@given(
    st.text(max_size=40)
    | st.lists(
        st.sampled_from(PIECES),
        max_size=12,
    ).map(" ".join)
)
@example("\ud800")
@example("1" * 1000)
@example("1/" * 400 + "1")
@example("f(" * 300)
def test_any_text_is_a_value_or_an_error_with_a_place_in_it(text: str) -> None:
    with suppress(PatternError):
        formula = parse(text)
        assert evaluate(formula, {n: Quantity(1) for n in formula.names}, {"f": largest})
    try:
        evaluate(parse(text), {}, {"f": refuse})
    except PatternError as error:
        places = [found.span for found in error.findings]
    else:
        places = []
    for place in places:
        assert place is not None
        assert 11 <= place.column < place.end_column <= 11 + max(len(text), 1)
