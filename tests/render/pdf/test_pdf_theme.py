"""The themes: what all of them hold to, and what each is for."""

import io
from dataclasses import fields
from importlib.resources import files

import pypdf
import pytest
from coloraide import Color

from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.pdf.fonts import face
from bindoff.render.pdf.theme import TextStyle, Theme, theme
from tests.render.pdf import sample
from tests.render.pdf.painted import DEMOS, demo, fills

NAMES = sorted(
    each.name.removesuffix(".toml") for each in (files("bindoff.render.pdf") / "themes").iterdir()
)


def styles(look: Theme) -> list[TextStyle]:
    """All styles of a theme."""
    held = [getattr(look, each.name) for each in fields(look)]
    return [*look.headings, *(each for each in held if isinstance(each, TextStyle))]


def test_the_command_offers_every_theme_and_the_card_has_one_of_its_own() -> None:
    assert set(NAMES) == {"calm", "large-print", "print-saver", "card"}


@pytest.mark.parametrize("name", NAMES)
def test_text_keeps_7_to_1_against_paper_and_tints(name: str) -> None:
    """WCAG 2.2, success criterion 1.4.6, by a colour library's own reckoning."""
    look = theme(name)
    for style in styles(look):
        for paper in ("#ffffff", look.colours.tint, look.colours.warn_tint):
            assert Color(style.colour).contrast(paper, method="wcag21") >= 7.0, style
    for paper in ("#ffffff", look.colours.warn_tint):
        assert Color(look.colours.warn).contrast(paper, method="wcag21") >= 7.0


@pytest.mark.parametrize("name", NAMES)
def test_faces_exist_and_lines_do_not_touch(name: str) -> None:
    for style in styles(theme(name)):
        assert face(style.face).cap_height > 0
        assert 1.1 <= style.leading / style.size <= 1.6


def test_large_print_is_18_points_and_more_in_one_column() -> None:
    look = theme("large-print")
    assert min(style.size for style in styles(look)) >= 18
    assert look.columns == 1


@pytest.mark.parametrize("name", DEMOS)
def test_every_character_of_large_print_has_18_points(name: str) -> None:
    """Numbers of charts, letters of schematics, captions and feet too."""
    sizes = {size for is_type, size, _ in fills(demo(name, "large-print")) if is_type}
    assert min(sizes) >= 18 - 0.01


def test_print_saver_needs_fewer_pages_and_stays_legible() -> None:
    """No type below 7 pt, about the least that common style guides allow; from memory."""
    assert min(style.size for style in styles(theme("print-saver"))) >= 7
    story = sample.document(*sample.blocks())
    usual, saved = (
        len(pypdf.PdfReader(io.BytesIO(render_pdf(story, PdfOptions(theme=name)))).pages)
        for name in ("calm", "print-saver")
    )
    assert saved < usual
