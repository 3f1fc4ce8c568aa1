"""Tools in the list of materials: the size that is on them."""

import pytest

from bindoff.document.toolwords import named
from bindoff.source.head import Tool


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        (
            "3 mm circular needle, 40 cm (16 in) long",
            "3 mm circular needle (US 2½), 40 cm (16 in) long",
        ),
        ("set of 3.5 mm double-pointed needles", "set of 3.5 mm double-pointed needles (US 4)"),
        ("5 mm crochet hook", "5 mm crochet hook (US H-8)"),
        ("5 mm needles", "5 mm needles (US 8)"),
    ],
)
def test_needles_and_hooks_have_their_us_size_too(name: str, printed: str) -> None:
    """3 mm as US 2½ is common practice, no source; 3.5 mm as US 4, 5 mm as US 8 and as hook H-8 are
    those of the Craft Yarn Council's tables, from memory."""
    assert named(Tool(name=name), "US") == printed
    assert named(Tool(name=name), "UK") == name


@pytest.mark.parametrize(
    "name",
    [
        "US 4 (3.5 mm) needles",
        "3.5 mm (US 4) needles",
        "3.5 mm needles, US 4",
        "circular knitting machine with 48 needles",
        "blunt tapestry needle",
        "3.33 mm needles",
        "7 mm needles",
        "2.5 mm crochet hook",
    ],
)
def test_a_name_that_tells_it_or_a_size_without_one_stays_as_it_is(name: str) -> None:
    """Lists disagree on 7 mm needles; no letter is given to a hook of 2.5 mm."""
    assert named(Tool(name=name), "US") == name
