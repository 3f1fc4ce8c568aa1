"""Prints a text whose names, conditions and loops were read (``braces.py``) with the values of its
names. There is nothing here that could calculate, call or define anything."""

from collections.abc import Callable, Iterator, Mapping
from operator import eq, ge, gt, le, lt, ne
from typing import Any, NoReturn

from bindoff.english import capital
from bindoff.records import Changing, Record

Part = tuple[Any, ...]
"""What a part is, its line in the text, and what it is made of."""


class UnknownError(Exception):
    """A name, or a part of a value, that does not exist; ``owner`` is that value."""

    def __init__(self, name: str, owner: object, line: int) -> None:
        super().__init__(name)
        self.name, self.owner, self.line = name, owner, line


class RefusedError(Exception):
    """Braces that ask for what text cannot do; ``line`` is 0 where it is not known yet."""

    def __init__(self, message: str, help: str, line: int = 0, excerpt: str = "{") -> None:
        super().__init__(message)
        self.message, self.help, self.line, self.excerpt = message, help, line, excerpt


class Missing:
    """An unknown name: it may be asked about with ``is defined``; any other use raises."""

    def __init__(self, name: str, owner: object, line: int) -> None:
        self._error = name, owner, line

    def _raise(self, *_: object) -> NoReturn:
        raise UnknownError(*self._error)

    __bool__ = __str__ = __len__ = __iter__ = __reversed__ = __contains__ = __getitem__ = _raise
    __eq__ = __ne__ = __lt__ = __le__ = __gt__ = __ge__ = __hash__ = _raise


class _Nothing(str):
    """What ``a if b`` is where ``b`` does not hold: it prints nothing, and is not defined."""


_UNDEFINED = (Missing, _Nothing)


class _Loop(Record):
    """What a loop says of itself."""

    index: int
    length: int

    @property
    def first(self) -> bool:
        return self.index == 1

    @property
    def last(self) -> bool:
        return self.index == self.length


_LOOP_FACTS = ("index", "first", "last", "length")
_COMPARED: Mapping[str, Callable[[Any, Any], Any]] = {
    "eq": eq,
    "ne": ne,
    "lt": lt,
    "lteq": le,
    "gt": gt,
    "gteq": ge,
    "in": lambda one, other: one in other,
    "notin": lambda one, other: one not in other,
}


class Printing(Changing):
    """One printing. ``show`` gives the text of a value; ``line`` is the one that is printed."""

    show: Callable[[Any], str]
    line: int = 1

    def parts(self, parts: tuple[Part, ...], values: Mapping[str, Any]) -> Iterator[str]:
        """The text, bit by bit. Raises ``UnknownError``, ``RefusedError`` and ``TypeError``."""
        for kind, line, *made_of in parts:
            self.line = line
            match kind, made_of:
                case "text", [said]:
                    yield said
                case "print", [each]:
                    yield self.show(self._value(each, values))
                case "if", [branches, otherwise]:
                    yield from self.parts(
                        next(
                            (body for test, body in branches if self._value(test, values)),
                            otherwise,
                        ),
                        values,
                    )
                case "for", [name, over, test, body, otherwise]:
                    yield from self._loop(name, over, test, body, otherwise, values)

    def _loop(
        self,
        name: str,
        over: Part,
        test: Part | None,
        body: tuple[Part, ...],
        otherwise: tuple[Part, ...],
        values: Mapping[str, Any],
    ) -> Iterator[str]:
        items = list(self._value(over, values))
        if test is not None:
            items = [each for each in items if self._value(test, {**values, name: each})]
        for index, each in enumerate(items, start=1):
            inside = {**values, name: each, "loop": _Loop(index, len(items))}
            yield from self.parts(body, inside)
        if not items:
            yield from self.parts(otherwise, values)

    def _value(self, part: Part, values: Mapping[str, Any]) -> Any:
        kind, line, *made_of = part
        self.line = line
        match kind, made_of:
            case "name", [name]:
                return values[name] if name in values else Missing(name, None, line)
            case "const", [value]:
                return value
            case "attribute", [owner, name]:
                return self._attribute(self._value(owner, values), name)
            case "item", [owner, key]:
                return self._item(self._value(owner, values), self._value(key, values))
            case "filter", [name, value, given]:
                return self._filtered(
                    name, self._value(value, values), *(self._value(each, values) for each in given)
                )
            case "defined", [value]:
                return not isinstance(self._value(value, values), _UNDEFINED)
            case "compare", [first, others]:
                return self._compared(first, others, values)
            case "concat", [each]:
                return "".join(str(self._value(one, values)) for one in each)
            case "and", [one, other]:
                return self._value(one, values) and self._value(other, values)
            case "or", [one, other]:
                return self._value(one, values) or self._value(other, values)
            case "not", [value]:
                return not self._value(value, values)
            case "choice", [test, one, other]:
                chosen = one if self._value(test, values) else other
                return self._value(chosen, values) if chosen else _Nothing()
            case _:
                raise AssertionError(kind)

    def _none(self) -> Missing:
        return Missing("None", None, self.line)

    def _attribute(self, owner: Any, name: str) -> Any:
        """Reaches keys of mappings, and no attribute of any object."""
        if isinstance(owner, dict) and name in owner:
            return owner[name]
        if isinstance(owner, _Loop) and name in _LOOP_FACTS:
            return getattr(owner, name)
        return owner if isinstance(owner, _UNDEFINED) else Missing(name, owner, self.line)

    def _item(self, owner: Any, key: Any) -> Any:
        if isinstance(owner, dict | Missing | _Nothing):
            return self._attribute(owner, str(key))
        if isinstance(owner, list) and isinstance(key, int) and -len(owner) <= key < len(owner):
            return owner[key]
        return Missing(str(key), owner, self.line)

    def _compared(
        self, first: Part, others: tuple[tuple[str, Part], ...], values: Mapping[str, Any]
    ) -> Any:
        one, found = self._value(first, values), True
        for sign, part in others:
            other = self._value(part, values)
            found = _COMPARED[sign](one, other)
            if not found:
                break
            one = other
        return found

    def _filtered(self, name: str, value: Any, *given: Any) -> Any:
        match name, given:
            case "default", ():
                return "" if isinstance(value, _UNDEFINED) else value
            case "default", (instead,):
                return instead if isinstance(value, _UNDEFINED) else value
            case "default", (instead, empty):
                return instead if isinstance(value, _UNDEFINED) or (empty and not value) else value
            case "first", ():
                return next(iter(value), self._none())
            case "last", ():
                return next(iter(reversed(value)), self._none())
            case "join", ():
                return "".join(map(str, value))
            case "join", (between,):
                return str(between).join(map(str, value))
            case "join", (between, key):
                return str(between).join(str(self._item(each, key)) for each in value)
            case "length", ():
                return len(value)
            case "lower", ():
                return str(value).lower()
            case "upper", ():
                return str(value).upper()
            case "sentence", ():
                return capital(value)
            case _:
                raise TypeError(f"the filter `{name}` takes fewer values")
