"""Cover pictures for a shop: what fills them and what is shown whole."""

from io import BytesIO

from PIL import Image

from bindoff.document.drawing import Drawing, Rect
from bindoff.render.shoppictures import cover_picture

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
