"""Stamps are in the file once and look as if their outline had been drawn at every place."""

import io
import re
import shutil
import subprocess
from dataclasses import replace
from typing import cast

import pypdf
import pytest
from PIL import Image, ImageChops
from pypdf.generic import DictionaryObject

from bindoff.document.drawing import Drawing, Path, Rect, Stamps
from bindoff.document.tree import Document, Figure
from bindoff.render.pdf import render_pdf
from bindoff.render.pdf.tagging import steps_between
from tests.render.pdf import sample

RING = (("M", 1.0, 2.0), ("C", 1.0, 1.0, 3.0, 1.0, 3.0, 2.0), ("L", 2.0, 3.5), ("Z",))
PLACES = tuple((4.0 + 5 * column, 3.0 + 5 * row) for row in range(20) for column in range(24))


def stamps(fill: str | None, stroke: str | None) -> Stamps:
    return Stamps(Path(RING, fill, stroke, 0.4), PLACES)


def document(*drawn: Stamps, apart: bool, height: float = 110.0) -> Document:
    shapes = [path for each in drawn for path in each.moved()] if apart else drawn
    lines = [Rect(0, at * 10.0, 130, 10, stroke="#888888") for at in range(int(height / 10))]
    drawing = Drawing(130.0, height, (*lines, *shapes))
    return sample.document(Figure(drawing, "Rings."))


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="needs poppler")
@pytest.mark.parametrize("height", [110.0, 900.0])  # the latter is cut into strips
def test_stamps_look_like_outlines_drawn_one_by_one(height: float) -> None:
    looks = (stamps("#b3472f", None), stamps(None, "#27364f"))
    pages = [
        picture(render_pdf(document(*looks, apart=apart, height=height))) for apart in (False, True)
    ]
    worst = max(ImageChops.difference(*pages).convert("L").tobytes())

    assert pages[0].size == pages[1].size
    assert len(pages[0].getcolors(1 << 16) or ()) > 2
    assert worst < 64  # rounded to 1/100 pt at other places, so edges may differ by a shade


def test_a_stamp_is_in_the_file_once_and_sits_in_its_figure() -> None:
    data = render_pdf(document(stamps("#b3472f", None), stamps(None, "#27364f"), apart=False))
    page = pypdf.PdfReader(io.BytesIO(data)).pages[0]
    resources = page["/Resources"]
    content = page.get_contents()
    assert isinstance(resources, DictionaryObject)
    assert content is not None
    forms = resources["/XObject"]
    assert isinstance(forms, DictionaryObject)
    code = content.get_data().decode("latin-1")

    assert {form.get_object()["/Subtype"] for form in forms.values()} == {"/Form"}
    assert len(forms) == 2
    assert [form.get_object().get_data().count(b" cm ") for form in forms.values()] == [3, 3]
    assert code.count(" Do\n") == 2 * len(PLACES) / 4  # a row of 24 is six groups that are alike
    assert code.index("/Figure <</MCID") < code.index(" Do\n")


def test_places_that_make_no_groups_are_used_one_by_one() -> None:
    uneven = tuple((x + (at * at % 7) / 10, y) for at, (x, y) in enumerate(PLACES))
    looks = replace(stamps("#b3472f", None), places=uneven)
    page = pypdf.PdfReader(io.BytesIO(render_pdf(document(looks, apart=False)))).pages[0]
    content = page.get_contents()
    assert content is not None

    assert content.get_data().count(b" Do\n") == len(PLACES)


def test_a_stamp_of_few_places_is_no_object_of_its_own() -> None:
    """Its outline stands at each place in the page, where it is packed away."""
    few = replace(stamps("#b3472f", None), places=PLACES[:5])
    page = pypdf.PdfReader(io.BytesIO(render_pdf(document(few, apart=False)))).pages[0]
    content = page.get_contents()
    assert content is not None
    code = content.get_data().decode("latin-1")

    assert "/XObject" not in cast(DictionaryObject, page["/Resources"])
    assert len(re.findall(r"cm .* c .* h f$", code, re.MULTILINE)) == 5


def test_steps_from_place_to_place_do_not_drift() -> None:
    """Each step is rounded against where the last one ended: the last place is where it belongs."""
    thirds = tuple((10 + at / 3, 10 + at / 7) for at in range(300))
    steps = [step.split() for step in steps_between(thirds)]
    across, up = (sum(float(step[at]) for step in steps) for at in (4, 5))

    assert abs(across - thirds[-1][0]) <= 0.0051
    assert abs(up - thirds[-1][1]) <= 0.0051


def picture(data: bytes) -> Image.Image:
    command = ["pdftoppm", "-r", "60", "-png", "-f", "1", "-l", "1", "-"]
    shown = subprocess.run(command, input=data, capture_output=True, check=True).stdout
    return Image.open(io.BytesIO(shown)).convert("RGB")
