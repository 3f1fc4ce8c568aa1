"""What a formula is made of."""

from collections.abc import Iterator
from enum import StrEnum

from bindoff.diagnostics import Fix, PatternError, Span, fail
from bindoff.records import Record

LARGEST = 1e9
"""No figure may be larger, written or worked out."""


class Kind(StrEnum):
    """What a quantity counts; the words are those the plan uses."""

    LENGTH = "length"  # mm
    STITCHES = "stitches"
    ROUNDS = "rounds"  # rounds, or rows where worked flat
    NUMBER = "number"


class Quantity(Record):
    """A figure and its kind; lengths are millimetres."""

    value: float
    kind: Kind = Kind.NUMBER


class Literal(Record):
    """A figure as written, such as ``4``, ``8 %``, ``5 cm`` or ``2 rounds``."""

    value: Quantity
    written: str
    start: int
    end: int


class Name(Record):
    """Another measure."""

    name: str
    start: int
    end: int


class Negative(Record):
    """``-operand``."""

    operand: "Node"
    start: int
    end: int


class Binary(Record):
    """``left sign right``, where the sign is one of ``+ - * /``."""

    sign: str
    left: "Node"
    right: "Node"
    start: int
    end: int


class Choice(Record):
    """``chosen if left sign right else otherwise``, with a sign of ``< <= > >= = !=``."""

    chosen: "Node"
    sign: str
    left: "Node"
    right: "Node"
    otherwise: "Node"
    start: int
    end: int


class Call(Record):
    """A trade helper and its arguments."""

    function: str
    arguments: tuple["Node", ...]
    named: tuple[tuple[str, "Node"], ...]
    start: int
    end: int


Node = Literal | Name | Negative | Binary | Choice | Call


class Formula(Record):
    """A parsed formula; ``names`` and ``functions`` are those it uses, in order, each once.

    The nodes' ``start`` and ``end`` are offsets in ``text``; ``span`` is the place of the text.
    """

    text: str
    span: Span
    root: Node
    names: tuple[str, ...]
    functions: tuple[str, ...]

    def place(self, node: Node) -> Span:
        """Where a part of the formula stands in the source."""
        return place(self.text, self.span, node.start, node.end)

    def place_of(self, name: str) -> Span:
        """Where a name is first used; the whole formula if it isn't."""
        uses = (part for part in walk(self.root) if isinstance(part, Name) and part.name == name)
        first = next(uses, None)
        return self.span if first is None else self.place(first)


class FormulaFaultError(Exception):
    """What is wrong with a part of a formula; whoever holds the formula adds the place."""

    def __init__(
        self,
        id: str,
        message: str,
        help: str,
        start: int,
        end: int,
        fixes: tuple[Fix, ...] = (),
    ) -> None:
        super().__init__(message)
        self.id, self.message, self.help = id, message, help
        self.start, self.end, self.fixes = start, end, fixes

    def at(self, text: str, span: Span) -> PatternError:
        """The error for the reader."""
        where = place(text, span, self.start, self.end)
        return fail(f"formula.{self.id}", self.message, self.help, where, self.fixes)


def place(text: str, span: Span, start: int, end: int) -> Span:
    """The part of ``span`` that holds ``text[start:end]``; all of it if it isn't just the text."""
    exact = span.line == span.end_line and span.end_column - span.column == len(text)
    return span.inside(start, end) if exact else span


def inner(node: Node) -> tuple[Node, ...]:
    """The nodes directly inside a node, left to right."""
    match node:
        case Negative():
            return (node.operand,)
        case Binary():
            return (node.left, node.right)
        case Choice():
            return (node.chosen, node.left, node.right, node.otherwise)
        case Call():
            return (*node.arguments, *(argument for _, argument in node.named))
        case _:
            return ()


def walk(root: Node) -> Iterator[Node]:
    """The node and all inside it, in the order they are written."""
    waiting = [root]
    while waiting:
        node = waiting.pop()
        yield node
        waiting.extend(reversed(inner(node)))
