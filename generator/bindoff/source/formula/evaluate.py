"""A formula's figure for one size."""

import operator
from collections.abc import Callable, Collection, Mapping
from functools import lru_cache
from inspect import Parameter, signature
from math import isfinite
from types import MappingProxyType

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.records import Record
from bindoff.source.formula.nodes import (
    LARGEST,
    Binary,
    Call,
    Choice,
    Formula,
    FormulaFaultError,
    Kind,
    Literal,
    Name,
    Negative,
    Node,
    Quantity,
)
from bindoff.source.formula.suggest import instead, instead_fix

Function = Callable[..., Quantity]

_COMPARE: Mapping[str, Callable[[float, float], bool]] = MappingProxyType(
    {
        "<": operator.lt,
        "<=": operator.le,
        ">": operator.gt,
        ">=": operator.ge,
        "=": operator.eq,
        "!=": operator.ne,
    }
)
_COUNTS = (Kind.STITCHES, Kind.ROUNDS)
_SAID = MappingProxyType(
    {
        Kind.LENGTH: "a length",
        Kind.STITCHES: "a number of stitches",
        Kind.ROUNDS: "a number of rounds",
        Kind.NUMBER: "a plain number",
    }
)


def evaluate(
    formula: Formula, names: Mapping[str, Quantity], functions: Mapping[str, Function]
) -> Quantity:
    """The formula's figure for one size.

    A function gets quantities. It may raise a ``PatternError`` whose findings have no span: the
    place of the call is added. Only the branch that a choice takes is evaluated.

    Raises:
        PatternError: ids ``formula.…``, with the place inside the formula.
    """
    try:
        return _Evaluation(formula, names, functions).value(formula.root)
    except FormulaFaultError as fault:
        raise fault.at(formula.text, formula.span) from None


class _Evaluation(Record):
    formula: Formula
    names: Mapping[str, Quantity]
    functions: Mapping[str, Function]

    def value(self, node: Node) -> Quantity:
        match node:
            case Literal():
                return node.value
            case Name():
                return self._named(node)
            case Negative():
                operand = self.value(node.operand)
                return Quantity(-operand.value, operand.kind)
            case Binary():
                return self._binary(node)
            case Choice():
                return self._choice(node)
            case Call():
                return _bounded(self._call(node), node)

    def _named(self, node: Name) -> Quantity:
        if node.name not in self.names:
            raise unknown(node, "name", node.name, self.names)
        return self.names[node.name]

    def _binary(self, node: Binary) -> Quantity:
        left, right = self.value(node.left), self.value(node.right)
        kind = self._kind(node, left.kind, right.kind)
        match node.sign:
            case "+":
                result = left.value + right.value
            case "-":
                result = left.value - right.value
            case "*":
                result = left.value * right.value
            case _:
                if right.value == 0:
                    raise _fault(
                        node.right,
                        "zero",
                        "this is zero, and nothing can be divided by zero",
                        "Change the value, or divide only if it is above zero: "
                        "`a / b if b > 0 else 0`",
                    )
                result = left.value / right.value
        return _bounded(Quantity(result, kind), node)

    def _kind(self, node: Binary, left: Kind, right: Kind) -> Kind:
        """The kind of the result; a plain number goes with any count, and scales any kind."""
        match node.sign:
            case "+" | "-":
                if left == right:
                    return left
                if Kind.NUMBER in (left, right) and Kind.LENGTH not in (left, right):
                    return left if right == Kind.NUMBER else right
            case "*":
                if Kind.NUMBER in (left, right):
                    return left if right == Kind.NUMBER else right
            case _:
                if right == Kind.NUMBER:
                    return left
                if left == right:
                    return Kind.NUMBER
        raise self._mismatch(node, left, right)

    def _mismatch(self, node: Binary, left: Kind, right: Kind) -> FormulaFaultError:
        done = {"+": "added", "-": "subtracted", "*": "multiplied", "/": "divided"}[node.sign]
        message = (
            f"{self._said(node.left)} is {_SAID[left]} and {self._said(node.right)} is "
            f"{_SAID[right]}: they can't be {done}"
        )
        addend = node.right if isinstance(node.right, Literal) and node.sign in "+-" else None
        if addend and addend.written.endswith("%"):
            change = 100 * addend.value.value
            rest = f"{100 + change if node.sign == '+' else 100 - change:g} %"
            help = f"Multiply instead: `{self._text(node.left)} * {rest}`"
        elif node.sign in "*/":
            help = "Multiply or divide by a plain number, or divide a length by a length"
        elif Kind.LENGTH in (left, right) and Kind.NUMBER in (left, right):
            help = "Give the number its unit, as in `4 cm`, `4 in`, `4 stitches` or `4 rounds`"
        elif Kind.LENGTH in (left, right):
            help = "Turn the length into stitches or rounds first, with the helper for that"
        else:
            help = "Add stitches to stitches and rounds to rounds"
        return _fault(node, "kinds", message, help)

    def _choice(self, node: Choice) -> Quantity:
        left, right = self.value(node.left), self.value(node.right)
        if left.kind != right.kind and (
            Kind.LENGTH in (left.kind, right.kind) or Kind.NUMBER not in (left.kind, right.kind)
        ):
            raise FormulaFaultError(
                "kinds",
                f"{self._said(node.left)} is {_SAID[left.kind]} and {self._said(node.right)} is "
                f"{_SAID[right.kind]}: they can't be compared",
                "Compare lengths with lengths and counts with counts",
                node.left.start,
                node.right.end,
            )
        taken = _COMPARE[node.sign](left.value, right.value)
        return self.value(node.chosen if taken else node.otherwise)

    def _call(self, node: Call) -> Quantity:
        if node.function not in self.functions:
            raise unknown(node, "helper", node.function, self.functions)
        function = self.functions[node.function]
        arguments = [self.value(argument) for argument in node.arguments]
        named = {name: self.value(argument) for name, argument in node.named}
        _check_arguments(node, function)
        try:
            return function(*arguments, **named)
        except PatternError as error:
            place = self.formula.place(node)
            raise PatternError(
                Diagnostic(found.id, found.message, found.help, found.span or place, found.severity)
                for found in error.findings
            ) from None

    def _text(self, node: Node) -> str:
        text = self.formula.text[node.start : node.end]
        return text if len(text) <= 40 else text[:40] + "…"

    def _said(self, node: Node) -> str:
        return f"`{self._text(node)}`"


def unknown(node: Node, what: str, name: str, known: Collection[str]) -> FormulaFaultError:
    """The fault for a name or helper that doesn't exist."""
    return FormulaFaultError(
        f"unknown-{what}",
        f"there is no {what} `{name}`",
        instead(name, known),
        node.start,
        node.end,
        instead_fix(name, known) if isinstance(node, Name) else (),
    )


def _fault(node: Node, id: str, message: str, help: str) -> FormulaFaultError:
    return FormulaFaultError(id, message, help, node.start, node.end)


def _bounded(quantity: Quantity, node: Node) -> Quantity:
    if isfinite(quantity.value) and abs(quantity.value) <= LARGEST:
        return quantity
    raise _fault(node, "too-large", "the result is too large", "Check the figures in this part")


@lru_cache(maxsize=64)
def _parameters(function: Function) -> tuple[Parameter, ...]:
    return tuple(signature(function).parameters.values())


def _check_arguments(node: Call, function: Function) -> None:
    """Raises when the call doesn't fit the function's parameters."""
    parameters = _parameters(function)
    by_place = [p for p in parameters if p.kind is Parameter.POSITIONAL_OR_KEYWORD]
    takes = {p.name: p for p in parameters if p.kind is not Parameter.VAR_POSITIONAL}
    any_number = any(p.kind is Parameter.VAR_POSITIONAL for p in parameters)
    listed = ", ".join(f"`{name}`" for name in takes) or ("any values" if any_number else "nothing")
    help = f"`{node.function}` takes {listed}"
    if len(node.arguments) > len(by_place) and not any_number:
        raise _fault(node.arguments[len(by_place)], "arguments", "this value is one too many", help)
    given = {p.name for p in by_place[: len(node.arguments)]}
    for name, argument in node.named:
        if name not in takes:
            raise _fault(
                argument, "arguments", f"`{node.function}` has no value called `{name}`", help
            )
        if name in given:
            raise _fault(argument, "arguments", f"`{name}` is given twice", help)
    given |= {name for name, _ in node.named}
    missing = [n for n, p in takes.items() if p.default is Parameter.empty and n not in given]
    if missing:
        raise _fault(node, "arguments", f"`{node.function}` needs `{missing[0]}` too", help)
