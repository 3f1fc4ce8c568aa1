"""Cover pictures for a shop: what fills them and what is shown whole."""

from io import BytesIO
from warnings import catch_warnings, simplefilter

import pytest
from PIL import Image

from bindoff.document.drawing import Drawing, Rect
from bindoff.render.pdf import drawing
from bindoff.render.shoppictures import cover_picture, photo_width

SIZE = (200, 250)
BAND = 0.18


def shown(*shapes: Rect) -> Image.Image:
    art = Drawing(80.0, 40.0, shapes)
    return Image.open(BytesIO(cover_picture(art, "Cap", "by us", SIZE))).convert("RGB")


def test_a_piece_on_a_ground_is_shown_whole_and_the_ground_goes_on() -> None:
    ground, piece = Rect(0, 0, 80, 40, "#e0e8f0"), Rect(2, 10, 76, 20, "#803020")
    picture = shown(ground, piece)
    room = round(SIZE[1] * (1 - BAND))

    assert picture.size == SIZE
    assert picture.getpixel((100, 2)) == (0xE0, 0xE8, 0xF0)
    assert picture.getpixel((100, room // 2)) == (0x80, 0x30, 0x20)
    assert picture.getpixel((2, room // 2)) == (0xE0, 0xE8, 0xF0), "beside the piece"
    assert picture.getpixel((20, room // 2)) == (0x80, 0x30, 0x20), "its edge is not cut off"


def test_fabric_fills_its_room() -> None:
    picture = shown(Rect(0, 0, 40, 40, "#803020"), Rect(40, 0, 40, 40, "#803020"))

    assert picture.getpixel((100, 2)) == (0x80, 0x30, 0x20)
    assert picture.getpixel((2, 100)) == (0x80, 0x30, 0x20)


def _jpeg(size: tuple[int, int], exif: bytes) -> bytes:
    out = BytesIO()
    Image.new("RGB", size, "#336699").save(out, "JPEG", exif=exif)
    return out.getvalue()


def test_a_photograph_is_as_wide_as_it_is_held() -> None:
    """Orientation 6 of EXIF: the camera was turned by a quarter."""
    turned = Image.Exif()
    turned[0x0112] = 6

    assert photo_width(_jpeg((400, 300), turned.tobytes())) == 300


def test_damaged_metadata_of_a_photograph_are_no_matter_for_the_terminal() -> None:
    damaged = b"Exif\0\0MM\0*\0\0\0\x08\xff\xff" + b"\x01\x12\0\x03\xff\xff\xff\xff" * 40
    photo = _jpeg((400, 300), damaged)
    with catch_warnings():
        simplefilter("error")
        assert photo_width(photo) == 400
        assert cover_picture(photo, "Cap", "Somebody", (200, 250)).startswith(b"\x89PNG")


@pytest.mark.parametrize("mode", ["RGBA", "RGB", "L", "P", "1"])
def test_a_large_picture_is_made_smaller_as_the_whole_of_it_is(
    mode: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Strip by strip it comes to what the library makes of it at once; what is clear stays so."""
    whole = Image.effect_noise((500, 700), 90).convert(mode)
    if mode == "RGBA":
        whole.putalpha(Image.effect_noise(whole.size, 90))
    out = BytesIO()
    whole.save(out, "PNG")
    monkeypatch.setattr(drawing, "_LARGE", 1000)
    small = drawing.upright(out.getvalue(), 160)
    wanted = whole.convert({"1": "L", "P": "RGBA"}.get(mode, mode)).reduce(3)

    assert small.size == (167, 234)
    assert small.tobytes() == wanted.tobytes()
