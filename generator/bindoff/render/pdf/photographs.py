"""How large each photograph is printed: asked of the pages, as nothing else knows all that decides
it, such as the words above a cover's picture and the columns that a section is set in."""

from collections.abc import Iterator

from bindoff.document.tree import Block, Blocks, Cover, Document, Figure
from bindoff.records import Record, replace
from bindoff.render.pdf.drawing import photo_size
from bindoff.render.pdf.pages import Options, lay_out
from bindoff.render.pdf.tagging import Tag
from bindoff.render.pdf.theme import MM


class PrintedPhoto(Record):
    """A photograph: its pixels across and down, and how wide it is printed, in mm. What runs off
    the paper or is cropped counts."""

    pixels: tuple[int, int]
    width: float

    @property
    def height(self) -> float:
        """How high it is printed, in mm."""
        return self.width * self.pixels[1] / self.pixels[0]

    @property
    def ppi(self) -> float:
        """Pixels to the inch."""
        return self.pixels[0] / self.width * 25.4


def printed_photos(document: Document, options: Options) -> tuple[PrintedPhoto, ...]:
    """The photographs of ``document`` in their order.

    Raises ``PatternError`` as ``render_pdf`` does.
    """
    kept = tuple(_around_photographs(document.blocks))
    root = lay_out(replace(document, blocks=kept), options).root
    photographs = (found for block in kept if (found := _photograph(block)))
    return tuple(
        PrintedPhoto(photo_size(data), points / MM)
        for data, points in zip(photographs, _widths(root), strict=True)
    )


def _around_photographs(blocks: Blocks) -> Iterator[Block]:
    """The cover, the photographs and the heading above them."""
    for block, following in zip(blocks, (*blocks[1:], None), strict=True):
        if isinstance(block, Cover) or _photograph(block) or _photograph(following):
            yield block


def _photograph(block: Block | None) -> bytes | None:
    """The photograph that a block shows, if it shows one."""
    shown = block.art if isinstance(block, Cover) else block
    if isinstance(shown, Figure) and isinstance(shown.picture, bytes):
        return shown.picture
    return None


def _widths(tag: Tag) -> Iterator[float]:
    if tag.photo_width:
        yield tag.photo_width
    for kid in tag.kids:
        if isinstance(kid, Tag):
            yield from _widths(kid)
