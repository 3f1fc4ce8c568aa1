"""Pictures become grids: exactly where they can, with the right proportions, and within bounds."""

import struct
import zlib
from fractions import Fraction
from io import BytesIO
from math import prod

import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from bindoff.diagnostics import PatternError
from bindoff.plan.colour.areas import find_areas
from bindoff.source import imagegrid
from bindoff.source.grid import read_grid
from bindoff.source.imagegrid import (
    Rounds,
    Wish,
    grid_from_image,
    grid_text,
    nearest_yarn,
    rounds_for,
    stitch_colours,
    without_strays,
    yarn_characters,
)

YARNS = {
    "slate": "#3d4a57",
    "foam": "#e8eef0",
    "brick": "#b3472f",
    "lamp": "#f0c24b",
    "sea": "#3f7f8c",
}
BLACK_WHITE = {"black": "#000000", "white": "#ffffff"}

colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


def grids(yarns: tuple[str, ...], side: int = 9) -> st.SearchStrategy[Rounds]:
    return st.integers(1, side).flatmap(
        lambda width: st.lists(
            st.tuples(*[st.sampled_from(yarns)] * width), min_size=1, max_size=side
        ).map(tuple)
    )


def rgb(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def picture(
    rounds: Rounds, colour_of: dict[str, str], across: int = 1, down: int = 1
) -> Image.Image:
    """A picture of a grid, each stitch ``across`` by ``down`` pixels of its flat colour."""
    image = Image.new("RGB", (len(rounds[0]), len(rounds)))
    image.putdata([rgb(colour_of[yarn]) for line in reversed(rounds) for yarn in line])
    return image.resize((image.width * across, image.height * down), Image.Resampling.NEAREST)


def saved(image: Image.Image, kind: str = "PNG", **options: object) -> bytes:
    file = BytesIO()
    image.save(file, kind, **options)
    return file.getvalue()


def failure(data: bytes, wish: Wish) -> str:
    with pytest.raises(PatternError) as caught:
        grid_from_image(data, "boat.png", wish)
    (finding,) = caught.value.findings
    assert "boat.png" in finding.message or "grid" in finding.message or "yarn" in finding.message
    assert finding.help
    return finding.id


def refused(data: bytes) -> set[str]:
    """Ids of what is wrong with a file; none if it is read."""
    try:
        grid_from_image(data, "boat.png", WISH)
    except PatternError as error:
        return {finding.id for finding in error.findings}
    return set()


# ---------------------------------------------------------------- there and back


@given(grids(tuple(YARNS)), st.integers(1, 5), st.integers(1, 5))
def test_a_grid_comes_back_from_its_flat_picture(rounds: Rounds, across: int, down: int) -> None:
    data = saved(picture(rounds, YARNS, across, down))

    assert grid_from_image(data, "x", Wish(len(rounds[0]), across / down, YARNS)) == rounds


@given(grids(tuple(YARNS)))
def test_a_mirrored_picture_has_every_round_turned(rounds: Rounds) -> None:
    wish = Wish(len(rounds[0]), 1.0, YARNS, mirror=True)

    mirrored = grid_from_image(saved(picture(rounds, YARNS)), "x", wish)

    assert mirrored == tuple(line[::-1] for line in rounds)


@given(grids(tuple(YARNS)))
def test_a_grid_file_reads_back_as_its_yarns(rounds: Rounds) -> None:
    characters = yarn_characters(tuple(YARNS), {})
    yarns = {sign: yarn for yarn, sign in characters.items()}

    grid = read_grid(grid_text(rounds, characters), "x.grid")

    assert tuple(tuple(yarns[c] for c in line) for line in grid.rounds) == rounds


# ---------------------------------------------------------------- drawn pictures


def test_an_edge_takes_the_colour_that_fills_most_of_its_stitch() -> None:
    """Night and white in equal parts average to a grey that is nowhere in the picture; drawn 60
    to 40, the stitch on the edge is of the colour with 60."""
    yarns = {"night": "#101820", "white": "#ffffff", "mist": "#bcbcbc"}
    image = Image.new("RGB", (30, 30), "#ffffff")
    image.paste("#101820", (0, 0, 16, 30))  # the second of three stitches: 6 of 10 pixels

    assert grid_from_image(saved(image), "x", Wish(3, 1.0, yarns)) == (
        (("night", "night", "white"),) * 3
    )


@given(st.data())
def test_no_stitch_of_a_drawing_has_a_colour_that_is_not_in_it(data: st.DataObject) -> None:
    """Against counting pixels one by one, wherever edges cut through the stitches."""
    yarns = {"night": "#101820", "white": "#ffffff", "mist": "#8a8f94", "brick": "#b3472f"}
    image = Image.new("RGB", (48, 48), "#ffffff")
    for yarn in ("night", "brick"):
        left, top = (data.draw(st.integers(0, 30)) for _ in "xy")
        image.paste(yarns[yarn], (left, top, left + data.draw(st.integers(6, 18)), top + 15))
    pixels = image.load()
    assert pixels

    rounds = grid_from_image(saved(image), "x", Wish(6, 1.0, yarns))

    for number, line in enumerate(reversed(rounds)):
        for place, yarn in enumerate(line):
            seen = [
                pixels[x, y]
                for x in range(place * 8, place * 8 + 8)
                for y in range(number * 8, number * 8 + 8)
            ]
            most = max(seen.count(colour) for colour in set(seen))
            assert seen.count(rgb(yarns[yarn])) == most


def test_soft_edges_count_for_neither_side() -> None:
    """A drawing made smaller has blended pixels along its edges."""
    yarns = {"night": "#101820", "white": "#ffffff", "mist": "#8a8f94"}
    image = Image.new("RGB", (300, 300), "#ffffff")
    image.paste("#101820", (0, 0, 130, 300))
    soft = image.resize((100, 100), Image.Resampling.LANCZOS)

    rounds = grid_from_image(saved(soft), "x", Wish(10, 1.0, yarns))

    assert {yarn for line in rounds for yarn in line} == {"night", "white"}


def test_a_photograph_is_averaged() -> None:
    """Every pixel differs from its neighbours: no patch of one colour anywhere."""
    image = Image.linear_gradient("L").rotate(30).crop((60, 60, 180, 180)).convert("RGB")

    rounds = grid_from_image(saved(image), "x", Wish(4, 1.0, BLACK_WHITE))
    averages = stitch_colours(saved(image), "x", Wish(4, 1.0, BLACK_WHITE))

    yarn_of = nearest_yarn(BLACK_WHITE)
    assert rounds == tuple(tuple(yarn_of(colour) for colour in line) for line in averages)


# ---------------------------------------------------------------- proportions


@pytest.mark.parametrize(
    ("stitches", "rounds"),
    [(20, 28), (22, 30), (30, 42)],
)
def test_a_square_picture_takes_the_stitches_and_rounds_of_a_square_of_gauge(
    stitches: int, rounds: int
) -> None:
    """Over one length a gauge counts just these; the three gauges are a handbook's examples."""
    assert rounds_for(stitches, 100, 100, rounds / stitches) == rounds


@given(st.integers(1, 300), st.integers(1, 500), st.integers(1, 500), st.floats(0.6, 1.8))
def test_the_knitted_picture_is_no_more_than_half_a_round_off_its_proportions(
    stitches: int, width: int, height: int, aspect: float
) -> None:
    rounds = rounds_for(stitches, width, height, aspect)
    true_height = stitches * aspect * height / width  # in heights of a round

    assert rounds == 1 or abs(rounds - true_height) <= 0.5 + 1e-9


# ---------------------------------------------------------------- light


def test_equal_parts_of_black_and_white_look_as_grey_as_their_light() -> None:
    """Half the light of white is grey 188 of 255 in sRGB (IEC 61966-2-1), not 128."""
    board = picture((("black", "white") * 4, ("white", "black") * 4), BLACK_WHITE)

    assert stitch_colours(saved(board), "x", Wish(1, 4.0, BLACK_WHITE)) == (("#bcbcbc",),)


@given(st.lists(colours, min_size=2, max_size=12))
def test_an_average_is_what_coloraide_mixes_in_linear_light(parts: list[str]) -> None:
    row = {str(number): colour for number, colour in enumerate(parts)}
    image = picture((tuple(row),), row)
    mixed = Color.average(parts, space="srgb-linear").convert("srgb").to_string(hex=True)

    ((average,),) = stitch_colours(saved(image), "x", Wish(1, 1.0, BLACK_WHITE))

    for one, other in zip(rgb(average), rgb(mixed), strict=True):
        assert abs(one - other) <= 1


@given(st.lists(st.booleans(), min_size=1, max_size=40), st.integers(1, 30))
def test_a_stitch_that_cuts_pixels_takes_its_share_of_each(row: list[bool], stitches: int) -> None:
    """Against exact areas; a cut may be a 32nd of a stitch off at either edge."""
    names = tuple("white" if light else "black" for light in row)
    data = saved(picture((names,), BLACK_WHITE))

    (found,) = stitch_colours(data, "x", Wish(stitches, len(row) / stitches, BLACK_WHITE))

    for number, colour in enumerate(found):
        start = Fraction(number * len(row), stitches)
        end = Fraction((number + 1) * len(row), stitches)
        share = sum(
            max(Fraction(0), min(end, Fraction(at + 1)) - max(start, Fraction(at)))
            for at, light in enumerate(row)
            if light
        ) / (end - start)
        light = Color(colour).convert("srgb-linear").coords()[0]
        assert abs(light - float(share)) <= 1 / 16 + 0.006


def test_a_large_picture_averages_in_bands_as_it_does_at_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    data = saved(Image.radial_gradient("L").resize((90, 140)).convert("RGB"))
    wish = Wish(13, 1.3, BLACK_WHITE)
    whole = stitch_colours(data, "x", wish)
    monkeypatch.setattr(imagegrid, "_BAND_PIXELS", 500)

    assert stitch_colours(data, "x", wish) == whole


# ---------------------------------------------------------------- yarns


@given(colours, st.lists(colours, min_size=1, max_size=6, unique=True))
def test_the_nearest_yarn_is_the_one_coloraide_calls_closest(colour: str, yarns: list[str]) -> None:
    """CIEDE2000 (ISO/CIE 11664-6); where two differ equally, either distance will do."""
    closest = Color(colour).closest(yarns, method="2000")
    found = nearest_yarn({yarn: yarn for yarn in yarns})(colour)

    assert Color(colour).delta_e(found, method="2000") == pytest.approx(
        Color(colour).delta_e(closest, method="2000"), abs=1e-9
    )


def test_of_equal_yarns_the_first_is_taken() -> None:
    assert nearest_yarn({"one": "#777777", "two": "#777777"})("#123456") == "one"


@given(
    st.lists(st.text("abcxyz_09é", min_size=1, max_size=5), min_size=1, max_size=60, unique=True)
)
def test_every_yarn_has_a_character_of_its_own(yarns: list[str]) -> None:
    characters = yarn_characters(yarns, {yarns[-1]: "~"})

    assert list(characters) == yarns
    assert characters[yarns[-1]] == "~"
    assert len(set(characters.values())) == len(yarns)


def test_characters_remind_of_their_yarns() -> None:
    assert yarn_characters(("slate", "foam", "sea", "fern", "f"), {}) == {
        "slate": ".",
        "foam": "f",
        "sea": "s",
        "fern": "e",
        "f": "F",
    }


# ---------------------------------------------------------------- stray stitches


def yarn_grid(*lines: str) -> Rounds:
    """Lines as in a grid file, the last round first; every character is a yarn."""
    return tuple(tuple(line) for line in reversed(lines))


def test_a_stitch_alone_goes_to_the_yarn_around_it() -> None:
    before = yarn_grid(
        "......",
        ".x..y.",
        "....y.",
        "......",
    )
    after = yarn_grid(
        "......",
        "....y.",
        "....y.",
        "......",
    )

    assert without_strays(before, (".", "x", "y")) == after


def test_sides_count_more_than_corners_and_then_the_order_of_the_yarns() -> None:
    assert without_strays(yarn_grid("xxyxx"), ("y", "x")) == yarn_grid("xxxxx")
    assert without_strays(yarn_grid("aabb", "aabb", "aXbb"), ("b", "a", "X"))[0][1] == "a"
    assert without_strays(yarn_grid("aaXbb"), ("b", "a", "X"))[0][2] == "b"


def test_a_slanting_line_is_no_row_of_strays() -> None:
    slant = yarn_grid("x...", ".x..", "..x.", "...x")

    assert without_strays(slant, (".", "x")) == slant


@given(grids(("a", "b", "c")))
def test_after_cleaning_no_area_is_a_single_stitch(rounds: Rounds) -> None:
    """Areas as the embroidery plan counts them; a grid of one stitch has no neighbours."""
    cleaned = without_strays(rounds, ("a", "b", "c"))

    sizes = [sum(run.length for run in area) for area in find_areas(cleaned, wraps=False)]
    assert 1 not in sizes or prod((len(rounds), len(rounds[0]))) == 1


@given(grids(("a", "b", "c")))
def test_cleaning_changes_strays_alone_and_nothing_the_second_time(rounds: Rounds) -> None:
    yarns = ("a", "b", "c")
    cleaned = without_strays(rounds, yarns)
    alone = {
        (area[0].round_ - 1, len(rounds[0]) - area[0].first)
        for area in find_areas(rounds, wraps=False)
        if sum(run.length for run in area) == 1
    }

    changed = {
        (number, place)
        for number, line in enumerate(rounds)
        for place, yarn in enumerate(line)
        if yarn != cleaned[number][place]
    }
    assert changed <= alone
    assert without_strays(cleaned, yarns) == cleaned


def test_a_picture_is_cleaned_when_that_is_wished() -> None:
    rounds = (("slate",) * 5, ("slate", "foam", "slate", "slate", "slate"), ("slate",) * 5)
    data = saved(picture(rounds, YARNS))

    assert grid_from_image(data, "x", Wish(5, 1.0, YARNS)) == rounds
    cleaned = grid_from_image(data, "x", Wish(5, 1.0, YARNS, clean=True))
    assert cleaned == (("slate",) * 5,) * 3


# ---------------------------------------------------------------- kinds of pictures

DOTS = (("white", "black", "black"), ("black", "white", "black"))
WISH = Wish(3, 1.0, BLACK_WHITE)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA"])
@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_every_mode_gives_the_same_grid(mode: str, kind: str) -> None:
    image = picture(DOTS, BLACK_WHITE).convert(mode)

    assert grid_from_image(saved(image, kind), "x", WISH) == DOTS


@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_sixteen_bits_of_grey_are_read_by_their_upper_half(kind: str) -> None:
    image = Image.new("I;16", (3, 1))
    for place, grey in enumerate((0, 0x8080, 0xFFFF)):
        image.putpixel((place, 0), grey)

    assert stitch_colours(saved(image, kind), "x", WISH) == (("#000000", "#808080", "#ffffff"),)


@pytest.mark.parametrize("kind", ["GIF", "BMP", "WEBP", "JPEG"])
def test_every_common_kind_of_file_is_read(kind: str) -> None:
    options = {"lossless": True} if kind == "WEBP" else {}
    image = picture(DOTS, BLACK_WHITE, 16, 16)

    assert grid_from_image(saved(image, kind, **options), "x", WISH) == DOTS


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photograph_is_put_upright(orientation: int) -> None:
    """Exif 2.3, tag 274; Pillow's own way of turning is the reference."""
    upright = picture(DOTS, BLACK_WHITE, 8, 8)
    undo = {2: 0, 3: 3, 4: 1, 5: 5, 6: 2, 7: 6, 8: 4}  # Transpose members that undo each turn
    stored = upright.transpose(Image.Transpose(undo[orientation])) if orientation > 1 else upright
    exif = Image.Exif()
    exif[274] = orientation

    assert grid_from_image(saved(stored, "PNG", exif=exif), "x", WISH) == DOTS


def test_transparent_parts_show_the_background() -> None:
    image = Image.new("RGBA", (2, 1), "#ffffff00")
    image.putpixel((1, 0), (255, 255, 255, 255))
    wish = Wish(2, 1.0, BLACK_WHITE, background="black")

    assert grid_from_image(saved(image), "x", wish) == (("black", "white"),)


def test_a_palette_with_a_transparent_colour_shows_the_background() -> None:
    image = picture(DOTS, BLACK_WHITE).convert("P")
    clear = image.getpixel((1, 0))
    wish = Wish(3, 1.0, {**BLACK_WHITE, "brick": "#b3472f"}, background="brick")

    rounds = grid_from_image(saved(image, transparency=clear), "x", wish)

    assert rounds == (("brick", "black", "black"), ("black", "brick", "black"))


def test_half_cover_mixes_light() -> None:
    """White at cover 0.5 over black gives half its light, as in coloraide's mix."""
    image = Image.new("RGBA", (4, 4), (255, 255, 255, 128))
    wish = Wish(1, 1.0, BLACK_WHITE, background="black")
    mixed = Color("black").mix("white", 128 / 255, space="srgb-linear").convert("srgb")

    assert stitch_colours(saved(image), "x", wish) == ((mixed.to_string(hex=True),),)


# ---------------------------------------------------------------- limits


def png_header(width: int, height: int) -> bytes:
    """A PNG (ISO/IEC 15948) that claims a size and has next to no pixels."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    parts = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0")) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + parts


SQUARE = saved(Image.new("RGB", (20, 20)))


def animated(kind: str) -> bytes:
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "blue", "green")]
    return saved(frames[0], kind, save_all=True, append_images=frames[1:], duration=100)


@pytest.mark.parametrize("stitches", [0, -3, 1001, 10**9])
def test_a_width_out_of_bounds_is_refused(stitches: int) -> None:
    assert failure(SQUARE, Wish(stitches, 1.0, YARNS)) == "image.stitches"


def test_too_many_rounds_are_refused() -> None:
    tall = saved(Image.new("RGB", (2, 400)))

    assert failure(tall, Wish(5, 1.01, YARNS)) == "image.rounds"


@pytest.mark.parametrize("size", [(10_001, 10_000), (13_000, 13_000), (65_000, 65_000)])
def test_more_than_a_hundred_million_pixels_are_refused_unread(size: tuple[int, int]) -> None:
    assert failure(png_header(*size), WISH) == "image.too-large"


@pytest.mark.parametrize(
    "data", [b"", b"\0" * 100, b"title: Hat\n", b"%PDF-1.7\n", b"GIF89a", b"<svg/>"]
)
def test_what_is_no_picture_is_refused(data: bytes) -> None:
    assert failure(data, WISH) in ("image.unknown", "image.broken")


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "GIF", "WEBP", "TIFF"])
@settings(max_examples=30)
@given(share=st.floats(0.05, 0.9))
def test_a_cut_off_file_is_refused_or_read(kind: str, share: float) -> None:
    """A format that can end early may still show its picture; nothing else may come of it."""
    whole = saved(Image.radial_gradient("L").resize((40, 40)).convert("RGB"), kind)

    assert refused(whole[: int(len(whole) * share)]) <= {"image.unknown", "image.broken"}


@settings(max_examples=60)
@given(st.data())
def test_a_damaged_file_is_refused_or_read(data: st.DataObject) -> None:
    whole = bytearray(saved(picture(DOTS, BLACK_WHITE, 9, 9)))
    for _ in range(4):
        whole[data.draw(st.integers(8, len(whole) - 1))] = data.draw(st.integers(0, 255))

    assert all(id.startswith("image.") for id in refused(bytes(whole)))


@pytest.mark.parametrize("kind", ["GIF", "PNG", "WEBP", "TIFF"])
def test_moving_pictures_are_refused(kind: str) -> None:
    assert failure(animated(kind), WISH) == "image.animated"


def test_printing_colours_are_refused() -> None:
    assert failure(saved(Image.new("CMYK", (8, 8)), "JPEG"), WISH) == "image.colours"


def test_transparent_parts_need_a_background() -> None:
    assert failure(saved(Image.new("RGBA", (4, 4))), WISH) == "image.transparent"


def test_a_background_is_one_of_the_yarns() -> None:
    assert failure(SQUARE, Wish(3, 1.0, YARNS, background="moss")) == "image.background"


@pytest.mark.parametrize("count", [0, 61])
def test_yarns_have_characters(count: int) -> None:
    yarns = {f"y{number}": "#000000" for number in range(count)}

    assert failure(SQUARE, Wish(3, 1.0, yarns)) == "image.yarns"


def test_more_yarns_than_characters_are_refused() -> None:
    yarns = [f"y{number}" for number in range(100)]
    with pytest.raises(PatternError) as raised:
        imagegrid.yarn_characters(yarns, {})

    assert [each.id for each in raised.value.findings] == ["image.yarns"]
