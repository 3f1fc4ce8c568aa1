"""Curled marks, and what must stay as it was typed."""

from dataclasses import replace

import pytest

from bindoff.document.drawing import Drawing, Label
from bindoff.document.tree import (
    Cover,
    DefinitionList,
    Document,
    Figure,
    Heading,
    Link,
    Paragraph,
    SizeValues,
    Text,
)
from bindoff.document.typography import curled, set_in_type


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Ebbstow's lighthouse", "Ebbstow’s lighthouse"),
        ("the knitters' bench", "the knitters’ bench"),
        ('the "rope" round', "the “rope” round"),
        ("called 'rope' here", "called ‘rope’ here"),
        ('8" to 10" deep', '8" to 10" deep'),
        ("8½ in, k2tog", "8½ in, k2tog"),
        ("don't, can't", "don’t, can’t"),
    ],
)
def test_marks_are_curled_and_inch_marks_stay(typed: str, printed: str) -> None:
    assert curled(typed) == printed


def document(language: str) -> Document:
    drawing = Drawing(1, 1, (Label(0, 0, "a's"),))
    blocks = (
        Paragraph((Text("it's"), Link((Text("here's"),), "#it's"), SizeValues(("1'2", "2")))),
        Figure(drawing, "what's seen"),
    )
    return Document("It's", "", language, "1", "2026-01-01", "", ("S'", "M"), blocks)


def test_texts_are_set_and_addresses_and_drawings_are_not() -> None:
    found = set_in_type(document("en-US"))

    assert found.title == "It’s"
    assert found.sizes == ("S'", "M")
    assert found.blocks == (
        Paragraph((Text("it’s"), Link((Text("here’s"),), "#it's"), SizeValues(("1’2", "2")))),
        Figure(Drawing(1, 1, (Label(0, 0, "a's"),)), "what’s seen"),
    )


def test_other_languages_keep_their_own_marks() -> None:
    assert set_in_type(document("pl")) == document("pl")
    words = (Text("J'ai dit 'oui'"),)
    cover = Cover("L'été", (Text("It's"),), words, DefinitionList(()), None, "fr")
    blocks = (cover, Heading(2, words, language="fr"), Paragraph(words, language="fr"))
    found = set_in_type(replace(document("en-US"), blocks=blocks))
    assert found.blocks == (replace(cover, byline=(Text("It’s"),)), *blocks[1:])
