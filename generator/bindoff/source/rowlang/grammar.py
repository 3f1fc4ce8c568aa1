"""The grammar of rows, in the hands of the library that parses: loaded for a row that is new."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput

from bindoff.source.grammartables import tables_of
from bindoff.source.rowlang.problems import UnreadError
from bindoff.source.rowlang.tree import Part


def lexed(plain: str) -> Iterator[Token]:
    """The words of ``plain``, a text in lower case; raises ``UnexpectedInput`` at a strange one."""
    return grammar().lex(plain)


def parsed(plain: str) -> tuple[Part, ...]:
    """The parts of a row in lower case; raises ``UnreadError`` where it has no reading."""
    try:
        waiting: list[Tree[Token] | Token] = [grammar().parse(plain)]
    except UnexpectedInput as error:
        raise UnreadError(error) from None
    parts: list[Part] = []
    while waiting:
        match waiting.pop():
            case Tree(data, inside) as part:
                parts.append((str(data), len(inside), part.meta.start_pos, part.meta.end_pos))
                waiting += inside
            case word:
                parts.append((word.type, str(word), word.start_pos or 0, word.end_pos or 0))
    return tuple(reversed(parts))


@cache
def grammar() -> Lark:
    """The parser of rows."""
    file = Path(__file__).with_name("rows.lark")
    return Lark.open(
        str(file),
        start="row",
        parser="lalr",
        lexer="basic",
        propagate_positions=True,
        maybe_placeholders=False,
        cache=tables_of(file),
    )
