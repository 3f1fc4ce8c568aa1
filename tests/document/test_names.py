"""The designer's names are marked as hers where they stand in the program's sentences."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from bindoff.document.names import names_marked
from bindoff.document.tree import Blocks, Document, Figure, Heading, Paragraph, Text, plain
from tests.document.patterns import FOAM, SLATE, Steps, built, data

GERMAN: Any = {
    "language": "de",
    "yarns": {"slate": SLATE | {"name": "Schiefer"}, "foam": FOAM | {"name": "Gischt"}},
    "sizes": {"Kind": {"head": "50 cm"}, "L": {"head": "56 cm"}},
}


def document(*blocks: Any) -> Document:
    return Document("T", "A", "en-US", "1", "", "", ("S",), tuple(blocks))


def texts_of(node: Any, own: str = "") -> Iterator[tuple[str, str]]:
    """Every text with the language it is in; nothing for the document's."""
    if isinstance(node, Text):
        yield node.text, node.language or own
    elif isinstance(node, tuple):
        for each in node:
            yield from texts_of(each, own)
    elif is_dataclass(node):
        if isinstance(node, Heading | Paragraph | Figure):
            own = node.language or own
        for field in fields(node):
            yield from texts_of(getattr(node, field.name), own)


def said(blocks: Blocks) -> list[tuple[str, str]]:
    return list(texts_of(blocks))


def test_a_name_within_a_sentence_is_marked_and_no_word_is_lost() -> None:
    line = Paragraph((Text("With Gischt, knit; Gischtig is another word (Gischt)."),))
    (marked,) = names_marked(document(line), {"Gischt"}, "de").blocks

    assert said((marked,)) == [
        ("With ", ""),
        ("Gischt", "de"),
        (", knit; Gischtig is another word (", ""),
        ("Gischt", "de"),
        (").", ""),
    ]
    assert isinstance(marked, Paragraph)
    assert plain(marked.children) == plain(line.children)


def test_a_short_name_is_marked_only_where_it_stands_alone() -> None:
    blocks = (Paragraph((Text("A knitter"),)), Paragraph((Text("A"),)))
    found = names_marked(document(*blocks), {"A"}, "de").blocks

    assert said(found) == [("A knitter", ""), ("A", "de")]


def test_the_longest_of_several_names_is_taken() -> None:
    line = Paragraph((Text("Join Gischt hell."),))
    found = names_marked(document(line), {"Gischt", "Gischt hell"}, "de").blocks

    assert said(found) == [("Join ", ""), ("Gischt hell", "de"), (".", "")]


def test_what_is_marked_as_a_whole_and_an_english_pattern_stay_as_they_are() -> None:
    whole = document(Paragraph((Text("Mit Gischt stricken"),), language="de"))

    assert names_marked(whole, {"Gischt"}, "de") == whole
    plain_words = document(Paragraph((Text("With Gischt"),)))
    assert names_marked(plain_words, {"Gischt"}, "") is plain_words


def test_yarns_sizes_and_pieces_of_a_document_are_marked_wherever_they_stand() -> None:
    steps: Steps = [
        {"section": "Bündchen"},
        {"cast on": "n"},
        {"work": "k all", "rounds": 4, "yarn": "foam"},
        {"gather": "all"},
    ]
    source = data(steps, **GERMAN)
    source["pieces"]["cap"]["title"] = "Hafenmütze"
    printed, _ = built(source)
    found = list(texts_of(printed))
    words = ("Schiefer", "Gischt", "Kind", "Hafenmütze", "Bündchen")

    for word in words:
        assert any(word in text for text, _ in found), word
        assert all(language == "de" for text, language in found if word in text.split()), word
