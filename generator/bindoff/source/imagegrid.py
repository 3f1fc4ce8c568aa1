"""A picture file made into a grid: one stitch for each small rectangle of the picture.

A chart that was saved as a picture is read by its lines. A drawn picture gives each stitch the yarn
of the colour that fills most of it. A photograph is averaged over each stitch in linear light. A
colour becomes the yarn that differs least from it (CIEDE2000, ISO/CIE 11664-6). Stitches have their
true proportions.
"""

import warnings
from array import array
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cache
from io import BytesIO
from math import ceil
from typing import TYPE_CHECKING, TypeVar

from bindoff.diagnostics import PatternError, fail
from bindoff.english import how_many
from bindoff.light import channel_of, light_of, lights
from bindoff.records import Record
from bindoff.source.flatcolours import commonest, drawn_colours, shares
from bindoff.source.grid import MAX_SIDE, MAX_STITCHES

if TYPE_CHECKING:
    from PIL.Image import Image, Transpose

IMAGE_LIMIT = 50_000_000
"""Largest picture file, in bytes."""

PIXEL_LIMIT = 100_000_000
"""Most pixels of a picture."""

YARN_LIMIT = 60
"""Most yarns of a grid: each needs a character that can be told from the others."""

Cell = TypeVar("Cell")

Rounds = tuple[tuple[str, ...], ...]
"""Yarn ids or colours ``#rrggbb`` by round, bottom round first, each from left to right."""

_FORMATS = ("PNG", "JPEG", "WEBP", "GIF", "TIFF", "BMP")
_MODES = ("1", "L", "LA", "P", "PA", "RGB", "RGBA", "I;16", "I;16L", "I;16B")
_SAVE = "Save it as an ordinary PNG, in RGB colours"
_BAND_PIXELS = 2_000_000
_SAMPLES = 16  # a stitch takes in at least so many samples each way where it cuts pixels
_ORIENTATION = 0x0112  # Exif 2.3, tag 274
_SIGNS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789x+*#=~^"


class Wish(Record):
    """How a picture becomes a grid.

    ``stitches``: width of the grid, ``rounds``: its height; one that is ``None`` follows from the
    other by the proportions of the picture, both from the lines of a chart. ``aspect``: width of a
    stitch divided by its height. ``yarns``: colour ``#rrggbb`` of every yarn by its id, in the
    order that decides between equals. ``background``: the yarn seen through transparent parts.
    ``mirror``: left for right. ``clean``: no stitch is left alone in its yarn. ``lines``: whether
    lines of a chart are looked for; else they belong to what is drawn.
    """

    stitches: int | None
    aspect: float
    yarns: Mapping[str, str]
    background: str | None = None
    mirror: bool = False
    clean: bool = False
    rounds: int | None = None
    lines: bool = True


def grid_from_image(data: bytes, name: str, wish: Wish) -> Rounds:
    """The yarns of a picture; ``data`` are the bytes of its file, ``name`` is for messages.

    Raises:
        PatternError: ids ``image.…``: a width or a picture out of bounds, a file that is broken,
            no picture, animated, or in colours that need a profile, transparent parts without a
            background, yarns that don't fit, and lines of a chart that part no whole cells or
            cells that hold more than a colour.
    """
    if wish.background is not None and wish.background not in wish.yarns:
        raise fail(
            "image.background",
            f"the background `{wish.background}` is not one of the yarns",
            f"Choose one of them: {', '.join(wish.yarns)}",
        )
    if not 1 <= len(wish.yarns) <= YARN_LIMIT:
        raise fail(
            "image.yarns",
            f"a grid can't be made of {len(wish.yarns)} yarns",
            f"Choose from 1 to {YARN_LIMIT} yarns, so that each has a character of its own",
        )
    _check_counts(wish)
    picture = _read(data, name)
    yarn_of = nearest_yarn(wish.yarns)
    rounds = _between_lines(picture, name, wish, yarn_of) or _sampled(picture, name, wish, yarn_of)
    return without_strays(rounds, tuple(wish.yarns)) if wish.clean else rounds


def _sampled(picture: "_Picture", name: str, wish: Wish, yarn_of: Callable[[str], str]) -> Rounds:
    """The yarn of each equal part of a picture without lines."""
    size = _measured(picture, name, wish)
    averages = _averages(picture, size, name, wish)
    drawn = _drawn(picture, size, wish, yarn_of)
    return tuple(
        tuple(most or yarn_of(colour) for most, colour in zip(cells, colours, strict=True))
        for cells, colours in zip(drawn, averages, strict=True)
    )


def rounds_for(stitches: int, width: float, height: float, aspect: float) -> int:
    """Rounds that give ``stitches`` the proportions ``width`` to ``height``; at least 1."""
    return max(1, int(stitches * aspect * height / width + 0.5))


def stitches_for(rounds: int, width: float, height: float, aspect: float) -> int:
    """Stitches that give ``rounds`` the proportions ``width`` to ``height``; at least 1."""
    return max(1, int(rounds * width / height / aspect + 0.5))


# ---------------------------------------------------------------- yarns


def nearest_yarn(yarns: Mapping[str, str]) -> Callable[[str], str]:
    """Which yarn differs least (CIEDE2000) from a colour; the earliest of equals."""
    # Imported here because only this command needs it.
    from coloraide import Color

    known = {yarn: Color(colour).convert("lab-d65") for yarn, colour in yarns.items()}

    @cache
    def yarn_of(colour: str) -> str:
        seen = Color(colour).convert("lab-d65")
        return min(known, key=lambda yarn: seen.delta_e(known[yarn], method="2000"))

    return yarn_of


def colour_distance(one: str, other: str) -> float:
    """How far two colours ``#rrggbb`` lie apart (CIEDE2000): about 2 is hardly seen."""
    from coloraide import Color

    return float(Color(one).delta_e(Color(other), method="2000"))


def without_strays(rounds: Rounds, yarns: Sequence[str]) -> Rounds:
    """``rounds`` with every stitch that touches none of its own yarn given to its neighbours.

    Stitches touch by a side or a corner. A stray takes the yarn that most of its neighbours have,
    sides counted twice; of equals the earliest of ``yarns``. Strays are taken bottom round first,
    right to left, each after those before it: none is then left, and no other stitch changes.
    """
    cells = [list(line) for line in rounds]
    order = {yarn: place for place, yarn in enumerate(yarns)}
    for number, line in enumerate(cells):
        for place in range(len(line) - 1, -1, -1):
            weights = _neighbours(cells, number, place)
            if weights and line[place] not in weights:
                line[place] = min(weights, key=lambda yarn: (-weights[yarn], order[yarn]))
    return tuple(tuple(line) for line in cells)


def _neighbours(cells: Sequence[Sequence[str]], number: int, place: int) -> Counter[str]:
    """The yarns around a stitch: 2 for each at a side, 1 for each at a corner."""
    found: Counter[str] = Counter()
    for near in range(max(0, number - 1), min(len(cells), number + 2)):
        line = cells[near]
        for beside in range(max(0, place - 1), min(len(line), place + 2)):
            if (near, beside) != (number, place):
                found[line[beside]] += 1 + (near == number or beside == place)
    return found


# ---------------------------------------------------------------- the grid file


def yarn_characters(yarns: Sequence[str], given: Mapping[str, str]) -> Mapping[str, str]:
    """A character of its own for every yarn; ``given`` holds those a pattern uses already.

    The first yarn gets a full stop, the others a letter of their name.

    Raises:
        PatternError: id ``image.yarns``: more yarns than there are characters.
    """
    found = {yarn: given[yarn] for yarn in yarns if yarn in given}
    for place, yarn in enumerate(yarns):
        if yarn not in found:
            letters = [letter for letter in yarn if letter in _SIGNS]
            wishes = [*("." * (place == 0)), *letters, *(x.swapcase() for x in letters), *_SIGNS]
            taken = {*found.values(), *given.values()}
            sign = next((each for each in wishes if each not in taken), None)
            if sign is None:
                raise fail(
                    "image.yarns",
                    f"there is no character left for the yarn `{yarn}`",
                    f"Choose at most {YARN_LIMIT} yarns, so that each has a character of its own",
                )
            found[yarn] = sign
    return {yarn: found[yarn] for yarn in yarns}


def grid_text(rounds: Rounds, characters: Mapping[str, str]) -> str:
    """A grid file: one character for each stitch, the last round on top."""
    return "".join(f"{''.join(characters[yarn] for yarn in line)}\n" for line in reversed(rounds))


# ---------------------------------------------------------------- colours of the stitches


def stitch_colours(data: bytes, name: str, wish: Wish) -> Rounds:
    """The average colour of each stitch of a picture, whatever lines it has.

    Raises:
        PatternError: as ``grid_from_image``.
    """
    _check_counts(wish)
    picture = _read(data, name)
    return _averages(picture, _measured(picture, name, wish), name, wish)


def _check_counts(wish: Wish) -> None:
    for id, count, what in (
        ("image.stitches", wish.stitches, "stitches wide"),
        ("image.rounds", wish.rounds, "rounds high"),
    ):
        if count is not None and not 1 <= count <= MAX_SIDE:
            raise fail(
                id,
                f"a grid can't be {count} {what}",
                f"Choose from 1 to {MAX_SIDE:,} {what.split()[0]}",
            )


_Size = tuple[int, int]
"""Stitches and rounds of a grid."""


def _measured(picture: "_Picture", name: str, wish: Wish) -> _Size:
    """The size of the grid of a picture without lines."""
    shape = picture.width, picture.height, wish.aspect
    if wish.stitches is not None:
        size = wish.stitches, wish.rounds or rounds_for(wish.stitches, *shape)
    elif wish.rounds is not None:
        size = stitches_for(wish.rounds, *shape), wish.rounds
    else:
        raise fail(
            "image.stitches",
            f"it is not said how many stitches wide `{name}` is, and no lines of a chart are found "
            "in it",
            "Say it with `--stitches`, or how many rounds high it is with `--rounds`",
        )
    _refuse_large(size, name)
    return size


def _refuse_large(size: _Size, name: str) -> None:
    stitches, rounds = size
    if max(size) > MAX_SIDE or rounds * stitches > MAX_STITCHES:
        raise fail(
            "image.rounds",
            f"at {how_many(stitches, 'stitch')} `{name}` is {how_many(rounds, 'round')} high",
            f"Cut the picture smaller or give the grid fewer stitches: a grid has {MAX_SIDE:,} "
            f"stitches and rounds and {MAX_STITCHES:,} cells at most",
        )


def _averages(picture: "_Picture", size: _Size, name: str, wish: Wish) -> Rounds:
    red, green, blue, cover = picture.averaged(*size)
    if wish.background is None and min(cover) < _OPAQUE:
        raise _transparent(name, wish)
    behind = lights(wish.yarns[wish.background]) if wish.background else (0.0, 0.0, 0.0)
    colours = [
        "#"
        + "".join(_hex(part + (1 - a) * under) for part, under in zip(parts, behind, strict=True))
        for *parts, a in zip(red, green, blue, cover, strict=True)
    ]
    return _in_rounds(colours, size[0], wish)


def _transparent(name: str, wish: Wish) -> PatternError:
    return fail(
        "image.transparent",
        f"parts of `{name}` are transparent",
        f"Say which yarn is seen through them, such as `--background {next(iter(wish.yarns))}`",
    )


def _drawn(
    picture: "_Picture", size: _Size, wish: Wish, yarn_of: Callable[[str], str]
) -> tuple[tuple[str | None, ...], ...]:
    """The yarn that fills most of each stitch of a drawn picture; ``None`` throughout else."""
    flat = picture.on(wish.yarns[wish.background] if wish.background else None)
    colours = drawn_colours(flat)
    if not colours:
        return ((None,) * size[0],) * size[1]
    parts = shares(flat, {colour: yarn_of(colour) for colour in colours})
    cells = {yarn: picture.squeezed(parts[yarn], *size) for yarn in wish.yarns if yarn in parts}
    return _in_rounds(commonest(cells), size[0], wish)


def _in_rounds(cells: Sequence[Cell], stitches: int, wish: Wish) -> tuple[tuple[Cell, ...], ...]:
    """Cells from the top left, line by line, as rounds from the bottom."""
    lines = [cells[start : start + stitches] for start in range(0, len(cells), stitches)]
    return tuple(tuple(line[:: -1 if wish.mirror else 1]) for line in reversed(lines))


# ---------------------------------------------------------------- a chart with its lines

_AS_DRAWN = "if its lines belong to what is drawn, say `--lines none`, and how many stitches it has"


def _between_lines(
    picture: "_Picture", name: str, wish: Wish, yarn_of: Callable[[str], str]
) -> Rounds | None:
    """The yarn that fills most of each cell between the lines of a chart; ``None`` without lines.

    There have to be as many cells as were asked for, if any number was.
    """
    if not wish.lines:
        return None
    from bindoff.source.ruledpicture import UnevenError, colours_between, ruling

    flat = picture.upright(picture.on(wish.yarns[wish.background] if wish.background else None))
    try:
        found = ruling(flat)
    except UnevenError as error:
        raise fail(
            "image.lines",
            f"`{name}` has lines like a chart, but {error}",
            f"Cut the picture exactly along the outer lines of the chart; or, {_AS_DRAWN}",
        ) from None
    if found is None:
        return None
    size = found.across.cells, found.down.cells
    for asked, count, what in zip(
        (wish.stitches, wish.rounds), size, ("stitches", "rounds"), strict=True
    ):
        if asked is not None and asked != count:
            raise fail(
                "image.lines",
                f"the lines of `{name}` part it into {how_many(size[0], 'stitch')} by "
                f"{how_many(size[1], 'round')}, and "
                f"`--{what}` says {asked}",
                f"Leave out `--{what}`, or correct it; or, {_AS_DRAWN}",
            )
    _refuse_large(size, name)
    if wish.background is None and not picture.opaque:
        raise _transparent(name, wish)
    cells = colours_between(flat, found, yarn_of)
    mixed = [number for number, (_, share) in enumerate(cells) if share < _PURE]
    if len(mixed) > _MIXED * len(cells):
        line, column = divmod(mixed[-1], size[0])
        raise fail(
            "image.lines",
            f"`{name}` has {len(cells)} cells, and {len(mixed)} of them hold more than one colour, "
            f"the first is stitch {size[0] - column} of round {size[1] - line}",
            "A picture is read by colour, and symbols can't be: type these into a grid, one "
            f"character for each cell; or, {_AS_DRAWN}",
        )
    return _in_rounds([yarn for yarn, _ in cells], size[0], wish)


_PURE, _MIXED = 0.96, 0.05  # of a cell one colour, and of all cells those that are not

_OPAQUE = 1 - 0.5 / 255


def _hex(light: float) -> str:
    """An sRGB channel as two digits, from its light."""
    return f"{max(0, min(255, int(channel_of(light) * 255 + 0.5))):02x}"


# ---------------------------------------------------------------- the picture


class _Picture(Record):
    """A decoded picture and how it is turned to stand upright."""

    image: "Image"
    turn: "Transpose | None"

    @property
    def width(self) -> int:
        """Pixels across, upright."""
        return self.image.size[self._sideways]

    @property
    def height(self) -> int:
        """Pixels down, upright."""
        return self.image.size[1 - self._sideways]

    @property
    def _sideways(self) -> bool:
        return self.turn is not None and self.turn.name in _SIDEWAYS

    def averaged(self, columns: int, lines: int) -> tuple["array[float]", ...]:
        """Light of red, green and blue as far as they cover, and cover, all 0 to 1.

        The averages of ``columns`` by ``lines`` equal rectangles, line by line from the top left.
        """
        size = (lines, columns) if self._sideways else (columns, lines)
        return tuple(self._upright(channel) for channel in _averaged(self.image, *size))

    @property
    def opaque(self) -> bool:
        """Whether nothing shows through it."""
        if not self.image.has_transparency_data:
            return True
        least, _ = _in_bytes(self.image).convert("RGBA").getchannel("A").getextrema()
        return least == 255

    def upright(self, image: "Image") -> "Image":
        """A picture that lies as this one in its file, turned to stand upright."""
        return image if self.turn is None else image.transpose(self.turn)

    def on(self, background: str | None) -> "Image":
        """The picture in RGB as it lies in its file, over ``#rrggbb`` where it is clear."""
        from PIL import Image

        seen = _in_bytes(self.image)
        if background is None or not seen.has_transparency_data:
            return seen.convert("RGB")
        under = Image.new("RGBA", seen.size, background)
        return Image.alpha_composite(under, seen.convert("RGBA")).convert("RGB")

    def squeezed(self, channel: "Image", columns: int, lines: int) -> "array[float]":
        """A channel of floats of this picture's size averaged as ``averaged`` does."""
        from PIL import Image

        size = (lines, columns) if self._sideways else (columns, lines)
        turned = _squeezed(channel, size[0]).transpose(Image.Transpose.TRANSPOSE)
        return self._upright(_squeezed(turned, size[1]).transpose(Image.Transpose.TRANSPOSE))

    def _upright(self, channel: "Image") -> "array[float]":
        turned = channel if self.turn is None else channel.transpose(self.turn)
        return array("f", turned.tobytes())


_TURNS = {
    2: "FLIP_LEFT_RIGHT",
    3: "ROTATE_180",
    4: "FLIP_TOP_BOTTOM",
    5: "TRANSPOSE",
    6: "ROTATE_270",
    7: "TRANSVERSE",
    8: "ROTATE_90",
}
"""What puts a picture upright, by its Exif orientation (Exif 2.3, tag 274)."""

_SIDEWAYS = ("TRANSPOSE", "ROTATE_270", "TRANSVERSE", "ROTATE_90")


def _read(data: bytes, name: str) -> _Picture:
    with _decoding(name):
        from PIL import Image

        image = Image.open(BytesIO(data), formats=_FORMATS)
        if image.width * image.height > PIXEL_LIMIT:
            raise _too_many_pixels(name)
        if image.mode not in _MODES:
            raise fail(
                "image.colours",
                f"`{name}` has its colours as {image.mode}, which look different on every device",
                _SAVE,
            )
        # A camera may keep a second view behind its picture.
        if getattr(image, "is_animated", False) and image.format != "MPO":
            raise fail(
                "image.animated",
                f"`{name}` holds more than one picture",
                "Save the one you mean on its own",
            )
        image.load()
        turn = _TURNS.get(image.getexif().get(_ORIENTATION, 1))
        return _Picture(image, Image.Transpose[turn] if turn else None)


@contextmanager
def _decoding(name: str) -> Iterator[None]:
    """Turns what a decoder raises into findings."""
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            # Odd metadata and many pixels are only warned of; the pixels are counted here.
            warnings.simplefilter("ignore")
            yield
    except (PatternError, MemoryError):
        raise
    except UnidentifiedImageError:
        raise fail(
            "image.unknown",
            f"`{name}` is not a picture that can be read",
            "Give a PNG, JPEG, WebP, GIF, TIFF or BMP file",
        ) from None
    except Image.DecompressionBombError:
        raise _too_many_pixels(name) from None
    except Exception:  # decoders raise nearly anything for a damaged file
        raise fail(
            "image.broken",
            f"`{name}` is damaged or incomplete",
            "Open it in a picture editor and save it anew, as PNG",
        ) from None


def _too_many_pixels(name: str) -> PatternError:
    return fail(
        "image.too-large",
        f"`{name}` has more than {PIXEL_LIMIT // 1_000_000} million pixels",
        "Make the picture smaller: a few pixels for each stitch are enough",
    )


# ---------------------------------------------------------------- averaging


def _averaged(image: "Image", columns: int, lines: int) -> list["Image"]:
    """Red, green, blue (as far as they cover) and cover of an image, averaged in both directions.

    Done in bands of lines, because the light of all pixels would not fit into memory.
    """
    from PIL import Image

    narrow = [Image.new("F", (columns, image.height)) for _ in range(4)]
    high = max(1, _BAND_PIXELS // (image.width * _copies(image.width, columns)))
    for top in range(0, image.height, high):
        band = image.crop((0, top, image.width, min(image.height, top + high)))
        for whole, channel in zip(narrow, _light(band), strict=True):
            whole.paste(_squeezed(channel, columns), (0, top))
    turned = (channel.transpose(Image.Transpose.TRANSPOSE) for channel in narrow)
    return [_squeezed(c, lines).transpose(Image.Transpose.TRANSPOSE) for c in turned]


def _light(band: "Image") -> list["Image"]:
    """Linear light of red, green and blue times cover, and cover, each as floats."""
    from PIL import Image, ImageMath

    band = _in_bytes(band)
    to_light = [light_of(step / 255) for step in range(256)]
    to_share = [step / 255 for step in range(256)]
    if not band.has_transparency_data:
        solid = Image.new("F", band.size, 1.0)
        return [*(c.point(to_light, "F") for c in band.convert("RGB").split()), solid]
    *colours, alpha = band.convert("RGBA").split()
    cover = alpha.point(to_share, "F")
    seen = [
        ImageMath.lambda_eval(lambda of: of["light"] * of["cover"], light=light, cover=cover)
        for light in (colour.point(to_light, "F") for colour in colours)
    ]
    return [*seen, cover]


def _in_bytes(image: "Image") -> "Image":
    """The picture with 8 bits a channel."""
    if not image.mode.startswith("I;16"):
        return image
    return image.convert("F").point(lambda grey: grey * (1 / 257)).convert("L")


def _squeezed(channel: "Image", columns: int) -> "Image":
    """A channel of floats averaged to ``columns``, its lines kept.

    Pillow gives a pixel as a whole to the column that holds its middle; copies of each pixel make
    the parts small where a column's edge cuts through one.
    """
    from PIL import Image

    width, height = channel.size
    copies = _copies(width, columns)
    if copies > 1:
        channel = channel.resize((width * copies, height), Image.Resampling.NEAREST)
    return channel.resize((columns, height), Image.Resampling.BOX)


def _copies(width: int, columns: int) -> int:
    """How often to repeat each pixel: not at all where columns take in whole pixels."""
    return 1 if width % columns == 0 else ceil(_SAMPLES * columns / width)
