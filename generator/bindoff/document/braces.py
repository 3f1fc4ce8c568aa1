"""What stands in the braces of a text is understood and printed.

A text may print names, loop over lists and choose by conditions; it cannot calculate, call or
define anything. So a text always ends, its length is bounded, and every number in a document is
one that the plan made. Loading this and the library takes as long as printing all texts of a
pattern, so ``filling`` asks for it only when a text is not known yet.
"""

import traceback
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache, lru_cache, partial
from types import CodeType
from typing import Any

import jinja2
from jinja2 import meta, nodes
from jinja2.runtime import Context, LoopContext
from jinja2.sandbox import ImmutableSandboxedEnvironment

from bindoff import regex as re
from bindoff.diagnostics import PatternError, Span, closest, fail
from bindoff.document.standins import STAND_IN, SURROGATE, place, stand_in
from bindoff.english import capital
from bindoff.kept import Shelf

LENGTH_LIMIT = 20_000
LOOP_DEPTH = 2

# One key that no text can name, for what prints values during one filling.
_PRINTING = " printing"

_LOOP_FACTS = ("index", "first", "last", "length")
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


def names_in(markdown: str, values: Mapping[str, object], span: Span | None) -> tuple[str, ...]:
    """The names that a text asks for, in order; raises what ``printed`` does, as far as the text
    tells it."""
    with _told(markdown, values, span):
        return _compiled(markdown)[1]


def printed(
    markdown: str,
    known: Mapping[str, object],
    taken: int,
    values: Mapping[str, object],
    span: Span | None,
) -> tuple[str, tuple[str, ...]]:
    """The text with the values it prints as stand-ins, and what those after the first ``taken``
    stand for.

    ``known`` are those ``values`` that it asks for, as data without any behaviour. Raises
    ``PatternError`` on a name that is not in ``values``, on a syntax error, and on anything but
    names, conditions and loops.
    """
    with _told(markdown, values, span):
        printing = _Printing(taken)
        template, _ = _compiled(markdown)
        text = _whole(template.generate({**known, _PRINTING: printing}))
        return text, tuple(printing.texts)


@contextmanager
def _told(markdown: str, values: Mapping[str, object], span: Span | None) -> Iterator[None]:
    """What is wrong inside the ``with`` is told with its place in the text."""
    try:
        yield
    except _UnknownError as error:
        raise _unknown(error, values, markdown, span) from None
    except _RefusedError as error:
        where = _in_braces(markdown, span, error.line or _line(error), error.excerpt)
        raise fail("prose.braces", error.message, error.help, where) from None


def _whole(printing: Iterable[str]) -> str:
    """The text, part by part so that its length is bounded."""
    parts: list[str] = []
    length = 0
    try:
        for part in printing:
            parts.append(part)
            length += len(part)
            if length > LENGTH_LIMIT:
                raise _RefusedError(
                    f"the text grows beyond {LENGTH_LIMIT:,} characters", "shorten its loops"
                )
    except (jinja2.TemplateError, TypeError) as error:
        raise _RefusedError(
            f"a value is used in a way it does not allow: {error}",
            "loop over lists only, and compare values of one kind",
            _line(error),
        ) from None
    return "".join(parts)


def _in_braces(markdown: str, span: Span | None, line: int, excerpt: str) -> Span | None:
    """The place of ``excerpt`` where it stands in braces in that line, or of the whole line."""
    text = markdown.split("\n")[line - 1] if 1 <= line <= markdown.count("\n") + 1 else ""
    found = re.search(rf"(?<!\\)\{{[{{%][^{{}}]*?({re.escape(excerpt)})(?!\w)", text)
    if excerpt == "{":
        found = re.search(r"(?<!\\)(\{[{%#].*?([}%#]\}|$))", text)
    return place(markdown, span, line, *(found.span(1) if found else ()))


def suggestion(name: str, known: Iterable[str]) -> str:
    """What to write instead of ``name``: the nearest known name, and what else there is."""
    names = sorted(known)
    near = closest(name, names)
    listed = ", ".join(f"`{each}`" for each in names[:20])
    more = f" and {len(names) - 20} more" if len(names) > 20 else ""
    exist = f"the names here are {listed}{more}" if names else "there are no names here"
    return f"Write `{near}`; {exist}" if near else f"{exist[0].upper()}{exist[1:]}"


class _UnknownError(Exception):
    """A name, or a part of a value, that does not exist."""

    def __init__(self, message: str, *, name: str, owner: object) -> None:
        super().__init__(message)
        self.name = name
        self.owner = owner


class _RefusedError(Exception):
    """Braces that ask for what text cannot do; ``line`` is 0 where the traceback tells it."""

    def __init__(self, message: str, help: str, line: int = 0, excerpt: str = "{") -> None:
        super().__init__(message)
        self.message = message
        self.help = help
        self.line = line
        self.excerpt = excerpt


class _Printing:
    """Gathers what one text prints; equal values share a stand-in."""

    def __init__(self, taken: int) -> None:
        self._taken = taken
        self.texts: dict[str, int] = {}

    def _stand_in(self, text: str) -> str:
        at = self.texts.setdefault(text, len(self.texts))
        try:
            return stand_in(self._taken + at)
        except ValueError:
            raise _RefusedError(
                "the text prints too many different values", "Split the text"
            ) from None

    def printed(self, value: object) -> str:
        """The stand-ins for what ``{{ }}`` prints."""
        match value:
            case jinja2.Undefined():
                return str(value)  # raises with the name
            case bool() | None:
                word = {True: "yes", False: "no", None: "nothing"}[value]
                raise _RefusedError(
                    f"the text prints a value that is only `{word}`",
                    "ask for it in a condition: `{% if name %} … {% endif %}`",
                )
            case str() if re.search(SURROGATE, value):
                raise _RefusedError("a value holds half a character", "Write the value anew")
            case str():
                return "".join(
                    part if STAND_IN.match(part) else self._stand_in(part)
                    for part in re.split(f"({STAND_IN.pattern})", re.sub(r"\s*\n\s*", " ", value))
                    if part
                )
            case int() | float():
                return self._stand_in(format(value, ".10g"))
            case []:
                return ""
            case list():
                raise _RefusedError(
                    "the text prints a list as if it were one value",
                    "join it: `{{ name | join(', ') }}`, or loop over it",
                )
            case dict():
                raise _RefusedError(
                    "the text prints a group of values as if it were one",
                    "name one of its parts: " + ", ".join(f"`{key}`" for key in sorted(value)),
                )
            case _:
                raise _RefusedError("the text prints what is not a value", "print a name's value")


class _Missing(jinja2.StrictUndefined):
    """An unknown name: it may be asked about with ``is defined``; any other use raises."""

    __slots__ = ()

    def __init__(
        self, hint: str | None = None, obj: Any = None, name: str | None = None, exc: Any = None
    ) -> None:
        unknown: Any = partial(_UnknownError, name=str(name), owner=obj)
        super().__init__(hint, obj, name, unknown)


class _Environment(ImmutableSandboxedEnvironment):
    """Reaches keys of mappings and items of lists, and no attribute of any object."""

    def getattr(self, obj: Any, attribute: str) -> Any:
        if isinstance(obj, dict) and attribute in obj:
            return obj[attribute]
        if isinstance(obj, LoopContext) and attribute in _LOOP_FACTS:
            return getattr(obj, attribute)
        if isinstance(obj, jinja2.Undefined):
            return obj
        return self.undefined(obj=obj, name=attribute)

    def getitem(self, obj: Any, argument: Any) -> Any:
        if isinstance(obj, dict | jinja2.Undefined):
            return self.getattr(obj, str(argument))
        if isinstance(obj, list) and isinstance(argument, int) and -len(obj) <= argument < len(obj):
            return obj[argument]
        return self.undefined(obj=obj, name=str(argument))


@jinja2.pass_context
def _finalize(context: Context, value: object) -> str:
    printing: _Printing = context[_PRINTING]
    return printing.printed(value)


@cache
def _environment() -> _Environment:
    """The environment; it holds no text and no values, so one serves all."""
    environment = _Environment(
        undefined=_Missing,
        finalize=_finalize,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.globals.clear()
    environment.filters = {
        name: capital if name == "sentence" else environment.filters[name] for name in _FILTERS
    }
    environment.tests = {name: environment.tests[name] for name in _TESTS}
    return environment


SHELF: Shelf[tuple[CodeType, tuple[str, ...]]] = Shelf(__file__, 400, libraries=("jinja2",))
"""Compiled texts: the standing ones, and those of the patterns at hand."""


@lru_cache(maxsize=512)
def _compiled(markdown: str) -> tuple[jinja2.Template, tuple[str, ...]]:
    """The compiled text and the names it asks for. One text is printed for many editions."""
    environment = _environment()
    code, names = SHELF.get(markdown, lambda: _code(markdown))
    shared = environment.make_globals(None)
    return jinja2.Template.from_code(environment, code, shared), names


def _code(markdown: str) -> tuple[CodeType, tuple[str, ...]]:
    """What the text is compiled to, and the names it asks for; raises ``_RefusedError``."""
    environment = _environment()
    try:
        tree = environment.parse(markdown)
        for complaint in _complaints(tree, 0):
            raise complaint
        return environment.compile(tree), tuple(sorted(meta.find_undeclared_variables(tree)))
    except jinja2.TemplateSyntaxError as error:
        reason = (error.message or "").rstrip(".")
        raise _RefusedError(
            f"the braces cannot be understood: {reason[:1].lower()}{reason[1:]}",
            "Write a name as `{{ name }}`; put a backslash before a brace that is to be printed",
            error.lineno,
        ) from None
    # Brackets without end, a number without end, more conditions in one another than Python takes.
    except (RecursionError, ValueError, SyntaxError, MemoryError):
        raise _RefusedError(
            "the braces hold more than can be understood", "Print names only", 1
        ) from None


def _complaints(node: nodes.Node, depth: int) -> Iterator[_RefusedError]:
    """What ``node`` and the nodes in it have that a text may not."""
    complaint = _complaint(node, depth)
    if complaint:
        message, help, excerpt = complaint
        yield _RefusedError(message, help, node.lineno, excerpt)
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


def _unknown(
    error: _UnknownError, values: Mapping[str, object], markdown: str, span: Span | None
) -> PatternError:
    where = _in_braces(markdown, span, _line(error), error.name)
    if error.owner is None or error.owner is jinja2.utils.missing:
        return fail(
            "prose.name",
            f"there is no value named `{error.name}`",
            suggestion(error.name, values),
            where,
        )
    parts = error.owner if isinstance(error.owner, dict) else ()
    return fail(
        "prose.name",
        f"this value has no part named `{error.name}`",
        suggestion(error.name, parts) if parts else "Print the value by its name alone",
        where,
    )


def _line(error: BaseException) -> int:
    """The line of the text at which ``error`` arose."""
    frames = traceback.extract_tb(error.__traceback__)
    lines = [frame.lineno for frame in frames if frame.filename == "<template>"]
    return (lines[-1] if lines else None) or 1
