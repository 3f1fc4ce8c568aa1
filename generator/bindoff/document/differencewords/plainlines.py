"""Changes as lines of plain text that can be pasted anywhere."""

from collections.abc import Iterator

from bindoff.document.tree import Block, Blocks, Heading, ItemList, Paragraph, Table, plain


def plain_lines(blocks: Blocks, indent: str = "") -> Iterator[str]:
    """The lines of blocks, an empty one before each heading; lists are indented."""
    for block in blocks:
        yield from _block(block, indent)


def _block(block: Block, indent: str) -> Iterator[str]:
    match block:
        case Heading(_, children):
            yield from ("", plain(children))
        case Paragraph(children):
            yield f"{indent}{plain(children)}"
        case ItemList(items, ordered, start):
            for number, item in enumerate(items, start):
                mark = f"{number}. " if ordered else "- "
                first, *rest = plain_lines(item.blocks, indent + " " * len(mark))
                yield f"{indent}{mark}{first.lstrip()}"
                yield from rest
        case Table(caption, columns, rows):
            yield f"{indent}{plain(caption)}"
            for row in rows:
                cells = zip(columns, row.cells, strict=True)
                said = [f"{plain(each.heading)} {plain(cell)}".strip() for each, cell in cells]
                yield f"{indent}- {', '.join(said)}"
        case _:
            pass
