"""Which colour fills most of each stitch of a drawn picture.

A picture is *drawn* where most of its pixels lie in patches of one colour, as in artwork and
screenshots. There an average would give a stitch on an edge a colour that is nowhere in it; the
colour that covers most of the stitch is what the designer drew. A photograph has no such patches.
"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_COLOURS = 64
"""Colours of a drawn picture at the most."""

_DRAWN = 0.5  # share of pixels that lie in patches, from which a picture is drawn
_LEAST_PATCH = 4  # pixels of a colour in patches, below which it is a speck
_LEAST_SHARE = 0.25  # of a stitch, below which its colour is averaged all the same
_MOST_PIXELS = 16_000_000  # a drawing needs no more; larger pictures are averaged


def drawn_colours(image: "Image") -> tuple[str, ...]:
    """The colours ``#rrggbb`` of a drawn RGB picture, the commonest first; none of a photograph."""
    from PIL import ImageChops

    pixels = image.width * image.height
    if pixels > _MOST_PIXELS or min(image.size) < 2:
        return ()
    # A pixel lies in a patch where those to its right and below are of its colour.
    inside = (0, 0, image.width - 1, image.height - 1)
    here = image.crop(inside)
    beside = image.crop((1, 0, image.width, image.height - 1))
    below = image.crop((0, 1, image.width - 1, image.height))
    patch = ImageChops.darker(_equal(here, beside), _equal(here, below))
    if patch.histogram()[255] < _DRAWN * here.width * here.height:
        return ()
    marked = here.convert("RGBA")
    marked.putalpha(patch)
    counts = cast(list[tuple[int, tuple[int, int, int, int]]], marked.getcolors(pixels))
    solid = sorted((n, rgb) for n, (*rgb, shown) in counts if shown and n >= _LEAST_PATCH)
    if len(solid) > MOST_COLOURS:
        return ()
    return tuple(f"#{bytes(rgb).hex()}" for _, rgb in reversed(solid))


def shares(image: "Image", yarn_of: Mapping[str, str]) -> Mapping[str, "Image"]:
    """For each yarn a picture of floats: 1 where a pixel has one of its colours exactly, else 0.

    ``yarn_of``: the yarn of each colour ``#rrggbb``. Pixels between two colours count for none.
    """
    from PIL import Image, ImageChops

    found: dict[str, Image.Image] = {}
    for colour, yarn in yarn_of.items():
        one = Image.new("RGB", image.size, colour)
        here = _equal(image, one)
        found[yarn] = ImageChops.lighter(found[yarn], here) if yarn in found else here
    return {
        yarn: mask.convert("F").point(lambda of: of * (1 / 255)) for yarn, mask in found.items()
    }


def commonest(cells: Mapping[str, Sequence[float]]) -> list[str | None]:
    """The yarn with the largest share of each cell, the earliest of equals; ``None`` where no yarn
    has a quarter."""
    yarns = list(cells)
    found: list[str | None] = []
    for parts in zip(*cells.values(), strict=True):
        most = max(parts)
        found.append(yarns[parts.index(most)] if most >= _LEAST_SHARE else None)
    return found


def _equal(one: "Image", other: "Image") -> "Image":
    """A grey picture: 255 where two RGB pictures have the same colour, else 0."""
    from PIL import ImageChops

    red, green, blue = ImageChops.difference(one, other).split()
    return ImageChops.lighter(ImageChops.lighter(red, green), blue).point([255] + [0] * 255)
