"""A source narrowed to one size, as if its designer had written that size alone.

Every value keeps its place in the file, so what is found in it still points at the line.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any, get_args

from bindoff.diagnostics import Span, fail
from bindoff.source.bundle import Source
from bindoff.source.models import Amount, Model, Piece
from bindoff.source.validation import validate
from bindoff.source.yamltree import Path, YamlTree
from bindoff.source.yamlvalues import Located

_WRITTEN_AMOUNT = get_args(Amount)[0]


def one_size(
    source: Source, size: str, crown_starts: Mapping[tuple[str, int], int] = MappingProxyType({})
) -> Source:
    """``source`` with nothing but ``size``: lists and mappings of amounts become its own value.

    ``crown_starts`` are those of the whole pattern, as ``Source`` has them.

    Raises:
        PatternError: ``command.no-size`` when the pattern has no such size.
    """
    if size not in source.sizes:
        raise fail(
            "command.no-size",
            f"the pattern has no size `{size}`",
            "Choose one of these: " + ", ".join(f"`{each}`" for each in source.sizes),
            source.span("sizes", key=True),
        )
    root = _changed(source.tree.root, ("sizes",), lambda sizes: _only(sizes, size))
    index = source.sizes.index(size)
    for path in amount_paths(source):
        root = _changed(root, path, lambda amount: _of_size(amount, size, index))
    tree = YamlTree(source.tree.lines, root)
    return replace(source, pattern=validate(tree), tree=tree, crown_starts=crown_starts)


def amount_paths(source: Source) -> Iterator[Path]:
    """Where the pattern may say something for each size."""
    pattern = source.pattern
    yield from (("measures", name) for name in pattern.measures)
    yield from (("finished", label) for label in pattern.finished)
    for key, piece in pattern.pieces.items():
        for path, part in _parts(piece):
            yield from (("pieces", key, *path, *rest) for rest in _amounts(part))


def _parts(piece: Piece) -> Iterator[tuple[Path, Model]]:
    """The parts of a piece that hold amounts, as written."""
    for name in ("tube", "picture", "schematic"):
        part = getattr(piece, name)
        if part is not None:
            yield (name,), part
    yield from ((("steps", index), step) for index, step in enumerate(piece.steps))


def _amounts(part: Model) -> Iterator[Path]:
    """Paths inside ``part`` of the amounts that are written; each of a list of amounts."""
    for name, field in type(part).model_fields.items():
        if name not in part.model_fields_set:
            continue
        key = str(field.alias or name)
        kinds = (field.annotation, *get_args(field.annotation))
        if Amount in kinds or _WRITTEN_AMOUNT in kinds:
            if field.annotation == tuple[Amount, ...]:
                yield from ((key, index) for index in range(len(getattr(part, name))))
            else:
                yield (key,)


def _of_size(amount: Located, size: str, index: int) -> Located:
    """The value of one size, or ``amount`` itself where it holds for all."""
    if isinstance(amount.data, list):
        return amount.children.get(index, amount)
    if isinstance(amount.data, dict):
        return amount.children.get(size, amount)
    return amount


def _only(sizes: Located, size: str) -> Located:
    kept: dict[str | int, Located] = {size: sizes.children[size]}
    places: dict[str | int, Span] = {size: sizes.key_spans[size]}
    data: Any = {size: kept[size].data}
    return replace(sizes, data=data, children=kept, key_spans=places)


def _changed(node: Located, path: Path, change: Callable[[Located], Located]) -> Located:
    """``node`` with the value at ``path`` changed; what is above it is copied, never touched."""
    if not path:
        return change(node)
    first = path[0]
    child = _changed(node.children[first], path[1:], change)
    children = {**node.children, first: child}
    data: Any
    if isinstance(node.data, list):
        data = [child.data if at == first else each for at, each in enumerate(node.data)]
    else:
        assert isinstance(node.data, dict)
        data = {**node.data, str(first): child.data}
    return replace(node, data=data, children=children)
