"""The grammar of formulas, in the hands of the library that parses: loaded for one that is new."""

from functools import cache
from pathlib import Path
from types import MappingProxyType

from lark import Lark, Token, Transformer, UnexpectedInput, UnexpectedToken
from lark.visitors import v_args

from bindoff import regex as re
from bindoff.diagnostics import Fix, PatternError, written_as
from bindoff.records import Record, replace
from bindoff.source.formula.nodes import (
    LARGEST,
    Binary,
    Call,
    Choice,
    FormulaFaultError,
    Kind,
    Literal,
    Name,
    Negative,
    Node,
    Quantity,
)
from bindoff.source.grammartables import tables_of
from bindoff.source.lengths import parse_figure, parse_length

_SIGNS = MappingProxyType(
    {"−": "-", "×": "*", "÷": "/", "≤": "<=", "≥": ">=", "==": "=", "≠": "!="}
)
_OPERANDS = ("LENGTH", "COUNT", "PERCENT", "NUMBER", "NAME", "OPEN")
_HELP_OPERATOR = "Put +, -, × or ÷ between the two; a name has no spaces, so join its words with _"
_BRACKETS = (
    "Use round brackets; figures for each size make a list of formulas, as in "
    "`[rounds(8 cm), rounds(9 cm)]`"
)
_CHARACTER_HELP = MappingProxyType(
    {
        "{": "Write the name without braces",
        "}": "Write the name without braces",
        "[": _BRACKETS,
        "]": _BRACKETS,
        "^": "Write the product out, as in `a * a`",
        "–": "Write the minus sign as -",
        "—": "Write the minus sign as -",
        "%": "Put a figure before it, as in `92 %`",
    }
)
_MISPLACED_HELP = MappingProxyType(
    {
        "COMPARE": "Compare only between `if` and `else`, as in `a if a > b else b`",
        "EQUAL": "Compare only between `if` and `else`; leave out the name that gets the value",
        "COMMA": "Use commas only between the values in brackets behind a helper's name",
    }
)


def parsed(text: str) -> Node:
    """What is written; raises ``FormulaFaultError``."""
    try:
        root: Node = _parser().parse(text)  # type: ignore[assignment]  # the builder makes nodes
    except UnexpectedInput as error:
        raise _misread(text, error) from None
    return root


@cache
def _parser() -> Lark:
    grammar = Path(__file__).with_name("grammar.lark")
    return Lark.open(
        str(grammar),
        parser="lalr",
        lexer="basic",
        transformer=_Builder(),
        cache=tables_of(grammar),
    )


class _Named(Record):
    name: Token
    value: Node


@v_args(inline=True)
class _Builder(Transformer[Token, Node]):
    """Turns the grammar's rules, named as its methods are, into nodes."""

    def length(self, token: Token) -> Literal:
        try:
            return _literal(token, Quantity(parse_length(str(token)), Kind.LENGTH))
        except PatternError as error:
            finding = error.findings[0]
            raise _fault("figure", finding.message, finding.help, token, token) from None

    def count(self, token: Token) -> Literal:
        figure, unit = re.split(r"\s*(?=[a-z])", str(token), maxsplit=1)
        kind = Kind.STITCHES if unit.startswith("st") else Kind.ROUNDS
        return _literal(token, Quantity(_figure(figure, token), kind))

    def percent(self, token: Token) -> Literal:
        return _literal(token, Quantity(_figure(str(token)[:-1].rstrip(), token) / 100))

    def number(self, token: Token) -> Literal:
        return _literal(token, Quantity(_figure(str(token), token)))

    def name(self, token: Token) -> Name:
        return Name(_checked_name(token), *_extent(token, token))

    def brackets(self, opened: Token, node: Node, closed: Token) -> Node:
        start, end = _extent(opened, closed)
        return replace(node, start=start, end=end)

    def negative(self, sign: Token, operand: Node) -> Negative:
        return Negative(operand, *_extent(sign, operand))

    def binary(self, left: Node, sign: Token, right: Node) -> Binary:
        if sign.type == "OVER" and isinstance(right, Literal) and _is_bare_fraction(right):
            raise _fault(
                "unclear-fraction",
                f"where the division by `{right.written}` ends is unclear",
                f"Put brackets around the fraction: `({right.written})`",
                right,
                right,
            )
        return Binary(_sign(sign), left, right, *_extent(left, right))

    def choice(
        self,
        chosen: Node,
        _if: Token,
        left: Node,
        sign: Token,
        right: Node,
        _else: Token,
        otherwise: Node,
    ) -> Choice:
        extent = _extent(chosen, otherwise)
        return Choice(chosen, _sign(sign), left, right, otherwise, *extent)

    def call(
        self, name: Token, _open: Token, arguments: list[Node | _Named] | None, close: Token
    ) -> Call:
        positional: list[Node] = []
        named: dict[str, Node] = {}
        for argument in arguments or ():
            if not isinstance(argument, _Named):
                if named:
                    raise _fault(
                        "argument-order",
                        "a value without a name stands behind values with names",
                        "Put it first, or write its name and = before it",
                        argument,
                        argument,
                    )
                positional.append(argument)
            elif str(argument.name) in named:
                raise _fault(
                    "argument-twice",
                    f"`{argument.name}` is given twice",
                    "Remove one of the two",
                    argument.name,
                    argument.value,
                )
            else:
                named[_checked_name(argument.name)] = argument.value
        return Call(
            _checked_name(name), tuple(positional), tuple(named.items()), *_extent(name, close)
        )

    def arguments(self, *items: "Node | _Named | Token") -> "list[Node | _Named]":
        return [item for item in items if not isinstance(item, Token)]

    def argument(self, first: "Node | Token", *rest: "Node | Token") -> "Node | _Named":
        if isinstance(first, Token):
            return _Named(first, rest[-1])  # type: ignore[arg-type]  # the grammar puts a node last
        return first


def _extent(first: Node | Token, last: Node | Token) -> tuple[int, int]:
    start = first.start_pos if isinstance(first, Token) else first.start
    end = last.end_pos if isinstance(last, Token) else last.end
    return start or 0, end or 0


def _fault(
    id: str, message: str, help: str, first: Node | Token, last: Node | Token
) -> FormulaFaultError:
    return FormulaFaultError(id, message, help, *_extent(first, last))


def _literal(token: Token, value: Quantity) -> Literal:
    return Literal(value, str(token), *_extent(token, token))


def _is_bare_fraction(literal: Literal) -> bool:
    """Whether it is a fraction such as ``3/4 in`` without brackets around it."""
    bare = literal.end - literal.start == len(literal.written)
    return bare and re.match("[0-9]+[/⁄]", literal.written) is not None


def _sign(token: Token) -> str:
    return _SIGNS.get(str(token), str(token))


def _figure(text: str, token: Token) -> float:
    figure = parse_figure(text)
    if figure is None or figure > LARGEST:
        shown = text if len(text) < 20 else text[:20] + "…"
        raise _fault(
            "figure",
            f"`{shown}` has too many digits",
            "Write a figure below 1,000,000,000 with at most 15 decimals",
            token,
            token,
        )
    return float(figure)


def _checked_name(token: Token) -> str:
    name = str(token)
    plain = all(letter.isalpha() or letter in "_0123456789" for letter in name)
    if not plain or name != name.lower():
        raise _fault(
            "name",
            f"`{name}` is not a name that a formula can use",
            "Use small letters, and behind the first one digits and _ too",
            token,
            token,
        )
    return name


def _misread(text: str, error: UnexpectedInput) -> FormulaFaultError:
    """A fault of the parser in plain words."""
    if not isinstance(error, UnexpectedToken):
        at = error.pos_in_stream or 0
        return FormulaFaultError(
            "character",
            f"`{text[at]}` means nothing in a formula",
            _CHARACTER_HELP.get(
                text[at], "Use figures with units, names, + - × ÷ %, brackets, if and else"
            ),
            at,
            at + 1,
        )
    token = error.token
    if token.type == "$END":
        return _cut_short(text)
    start, end = _extent(token, token)
    fixes: tuple[Fix, ...] = ()
    after_operand = "PLUS" in error.expected
    if token.type in _OPERANDS and after_operand:
        message, help = f"no sign stands before `{token}`", _HELP_OPERATOR
        if token.type == "NAME" and re.search(r"[0-9]\s*\Z", text[:start]):
            help = f"If `{token}` is meant as a unit, use mm, cm, m, in, yd, stitches or rounds"
    elif token.type == "CLOSE" and text.count("(", 0, start) <= text.count(")", 0, start):
        message, help = "this bracket closes nothing", "Remove it, or open one before it"
    elif (
        token.type == "COMMA"
        and text[start - 1 : start].isdigit()
        and text[end : end + 1].isdigit()
    ):
        message, help = "a comma can't stand inside a number", "Write the decimal with a point"
        fixes = written_as(".")
    elif after_operand:
        message, help = (
            f"`{token}` can't stand here",
            _MISPLACED_HELP.get(token.type, "Remove it, or look for a missing bracket before it"),
        )
    else:
        message = f"a figure, a name or a bracket is missing before `{token}`"
        help = "Write what is missing, or remove the sign before it"
    return FormulaFaultError("syntax", message, help, start, end, fixes)


def _cut_short(text: str) -> FormulaFaultError:
    end = len(text.rstrip())
    if not end:
        what, help = "there is no formula here", "Write one, as in `brim + 5 cm`"
    elif text.count("(") > text.count(")"):
        what, help = "a bracket is never closed", "Add `)` where it ends"
    else:
        what, help = "the formula ends too early", "Write what belongs behind its last sign"
    return FormulaFaultError("syntax", what, help, max(end - 1, 0), end)
