"""Reads what stands in the braces of a text, by the grammar of the library for templates: loaded
for a text that is new."""

from collections.abc import Iterable, Iterator
from functools import cache

import jinja2
from jinja2 import meta, nodes

from bindoff.document.printing import Part, RefusedError

LOOP_DEPTH = 2

_FILTERS = ("default", "first", "join", "last", "length", "lower", "sentence", "upper")
_TESTS = ("defined", "undefined")
_ALLOWED = (
    nodes.Template,
    nodes.Output,
    nodes.TemplateData,
    nodes.Name,
    nodes.Getattr,
    nodes.Getitem,
    nodes.Const,
    nodes.Filter,
    nodes.Test,
    nodes.Compare,
    nodes.Concat,
    nodes.Operand,
    nodes.And,
    nodes.Or,
    nodes.Not,
    nodes.If,
    nodes.CondExpr,
    nodes.For,
)


@cache
def _environment() -> jinja2.Environment:
    """The environment; it holds no text and no values, so one serves all."""
    environment = jinja2.Environment(
        trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True
    )
    environment.filters["sentence"] = str
    return environment


def read(markdown: str) -> tuple[tuple[Part, ...], tuple[str, ...]]:
    """The parts of a text, and the names it asks for; raises ``RefusedError``."""
    environment = _environment()
    try:
        tree = environment.parse(markdown)
        for complaint in _complaints(tree, 0):
            raise complaint
        environment.compile(tree)  # finds what else the library doesn't take
        return _body(tree.body), tuple(sorted(meta.find_undeclared_variables(tree)))
    except jinja2.TemplateSyntaxError as error:
        reason = (error.message or "").rstrip(".")
        raise RefusedError(
            f"the braces cannot be understood: {reason[:1].lower()}{reason[1:]}",
            "Write a name as `{{ name }}`; put a backslash before a brace that is to be printed",
            error.lineno,
        ) from None
    # Brackets without end, a number without end, more conditions in one another than Python takes.
    except (RecursionError, ValueError, SyntaxError, MemoryError):
        raise RefusedError(
            "the braces hold more than can be understood", "Print names only", 1
        ) from None


# ---------------------------------------------------------------- parts


def _body(body: Iterable[nodes.Node]) -> tuple[Part, ...]:
    return tuple(part for node in body for part in _parts(node))


def _parts(node: nodes.Node) -> Iterator[Part]:
    match node:
        case nodes.Output():
            for each in node.nodes:
                if isinstance(each, nodes.TemplateData):
                    yield "text", each.lineno, each.data
                else:
                    yield "print", each.lineno, _value(each)
        case nodes.If():
            branches = tuple((_value(each.test), _body(each.body)) for each in (node, *node.elif_))
            yield "if", node.lineno, branches, _body(node.else_)
        case nodes.For(target=nodes.Name(name=name)):
            test = None if node.test is None else _value(node.test)
            over, body, otherwise = _value(node.iter), _body(node.body), _body(node.else_)
            yield "for", node.lineno, name, over, test, body, otherwise
        case _:
            raise AssertionError(node)


def _value(node: nodes.Node) -> Part:
    line = node.lineno
    match node:
        case nodes.Name(name=name):
            return "name", line, name
        case nodes.Const(value=value):
            return "const", line, value
        case nodes.Getattr(node=owner, attr=name):
            return "attribute", line, _value(owner), name
        case nodes.Getitem(node=owner, arg=key):
            return "item", line, _value(owner), _value(key)
        case nodes.Filter(node=nodes.Node() as value, name=name):
            return "filter", line, name, _value(value), tuple(map(_value, node.args))
        case nodes.Test(node=value, name=name):
            defined = "defined", line, _value(value)
            return defined if name == "defined" else ("not", line, defined)
        case nodes.Compare(expr=first):
            others = tuple((each.op, _value(each.expr)) for each in node.ops)
            return "compare", line, _value(first), others
        case nodes.Concat():
            return "concat", line, tuple(map(_value, node.nodes))
        case nodes.And(left=one, right=other):
            return "and", line, _value(one), _value(other)
        case nodes.Or(left=one, right=other):
            return "or", line, _value(one), _value(other)
        case nodes.Not(node=value):
            return "not", line, _value(value)
        case nodes.CondExpr(test=test, expr1=one, expr2=other):
            last = None if other is None else _value(other)
            return "choice", line, _value(test), _value(one), last
        case _:
            raise AssertionError(node)


# ---------------------------------------------------------------- what a text may not


def _complaints(node: nodes.Node, depth: int) -> Iterator[RefusedError]:
    """What ``node`` and the nodes in it have that a text may not."""
    complaint = _complaint(node, depth)
    if complaint:
        message, help, excerpt = complaint
        yield RefusedError(message, help, node.lineno, excerpt)
    inner = depth + isinstance(node, nodes.For)
    for child in node.iter_child_nodes():
        yield from _complaints(child, inner)


def _complaint(node: nodes.Node, depth: int) -> tuple[str, str, str] | None:
    """Message, help and what to mark in the line, if ``node`` may not stand in a text."""
    match node:
        case nodes.Filter(name=name) if name not in _FILTERS:
            listed = ", ".join(f"`{each}`" for each in _FILTERS)
            return f"there is no filter `{name}`", f"The filters are {listed}", name
        case nodes.Test(name=name) if name not in _TESTS:
            help = "Use `is defined`, or compare with `==`"
            return f"there is no test `is {name}`", help, name
        case nodes.For(recursive=True):
            return "a loop cannot call itself", "Write the loops one in another", "{"
        case nodes.For() if depth >= LOOP_DEPTH:
            help = "Use fewer loops in one another"
            return f"loops are nested more than {LOOP_DEPTH} deep", help, "{"
        case _ if isinstance(node, _ALLOWED):
            return None
        case nodes.Call():
            return "text cannot call a function", "Print names only", "("
        case nodes.BinExpr() | nodes.UnaryExpr():
            help = "Give the result a name among the measures and print that name"
            return "text cannot calculate", help, node.operator or "{"
        case _:
            help = "Use `{{ name }}`, `{% if name %}` or `{% for each in list %}`"
            return "only names, conditions and loops can stand in braces", help, "{"
