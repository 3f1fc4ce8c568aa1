"""All packaged cautions on one page, each sentence with the source it rests on.

The source stands beside its sentence in the template, in a comment that no document prints. A
sentence has a line to itself: ``Cover points. {# Source: common practice, no source #}``, inside
``{% if ... %}`` where it holds for some patterns alone.
"""

import textwrap
from collections.abc import Iterator

from bindoff import regex as re
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.document.terms import terms
from bindoff.document.units import round_length
from bindoff.files import packaged_template
from bindoff.records import Record

CAUTIONS = (
    "infant",
    "sleep",
    "under-three",
    "child",
    "nightwear",
    "car",
    "neck",
    "adult",
    "slippery",
    "small-parts",
    "cords",
    "pompom",
    "magnets",
    "button-cells",
    "shedding",
    "wool",
    "synthetic",
    "machine",
    "tools",
    "hands",
)
"""The packaged cautions, in the order in which a document has them."""

_WHERE = {
    "for_babies": "a size is for a baby",
    "for_adults_alone": "no size is for a child",
    "for_children": "a size is for a child",
    "for_youngest_alone": "no size is for an older child",
    "garment": "it is worn on the body",
    "hat": "it is worn on the head",
    "machine": "it is made on a machine",
    "mitten": "it is worn on the hands",
    "stranded": "rows are worked in several yarns",
}
"""What the names of conditions in templates stand for."""

_LINE = re.compile(
    r"(?:\{% if (?P<where>\w+) %\})?(?P<words>[^{#][^#]*?) \{# Source: (?P<source>[^#]+?) #\}"
    r"(?P<end>\{% endif %\})?"
)
_CHOICE = re.compile(
    r"\{% if \w+ %\}(?P<one>[^{}]*)(?:\{% else %\}(?P<other>[^{}]*))?\{% endif %\}"
)
_VALUE = re.compile(r"\{\{ (\w+)\.(\w+) \}\}")
_WIDTH = 100


class Sentence(Record):
    """A sentence of a caution, and what says so; ``where`` says what must hold for it."""

    words: str
    source: str
    where: str


class Caution(Record):
    """A caution as packaged."""

    name: str
    title: str
    sentences: tuple[Sentence, ...]


def packaged_cautions() -> Iterator[Caution]:
    """Every caution, in US words. Raises ``ValueError`` at a sentence without its source."""
    for name in CAUTIONS:
        text = packaged_template(f"safety/{name}.md")
        if text is None:
            raise ValueError(f"there is no caution {name}")
        yield caution_of(name, text)


def caution_of(name: str, text: str) -> Caution:
    """The caution of a template. Raises ``ValueError`` at a sentence without its source."""
    _, heading, *lines = [line for line in text.split("\n") if line.strip()]
    title = _either(heading.removeprefix("# "))
    return Caution(name, title, tuple(map(_sentence, lines)))


def _sentence(line: str) -> Sentence:
    found = _LINE.fullmatch(line)
    if found is None or bool(found["where"]) != bool(found["end"]):
        raise ValueError(f"this line is no sentence with its source: {line}")
    return Sentence(
        _filled(found["words"]), found["source"], _WHERE[found["where"]] if found["where"] else ""
    )


def _filled(words: str) -> str:
    values = {
        "terms": terms("US"),
        "lengths": {name: round_length(mm, "both") for name, mm in CRAFT_LENGTHS.items()},
    }
    return _VALUE.sub(lambda found: values[found[1]][found[2]], _either(words))


def _either(words: str) -> str:
    """``words`` with both of what they say under a condition, or what they say under one alone."""
    return _CHOICE.sub(lambda found: " or ".join(filter(None, found.groups())), words)


def as_text() -> str:
    """All cautions to be read beside their sources, one paragraph each."""
    lines = _lines(
        "Every caution, the source of each sentence in brackets after it. A pattern prints those "
        "for its wearer, its hazards, its fibres and its machine; its own templates/safety/NAME.md "
        "comes before the one of that name."
    )
    for caution in packaged_cautions():
        said = " ".join(map(_told, caution.sentences))
        lines += ["", *_lines(f"{caution.name}. {caution.title.upper()}: {said}")]
    return "\n".join(lines)


def _lines(words: str) -> list[str]:
    return textwrap.wrap(words, _WIDTH, break_on_hyphens=False)


def _told(sentence: Sentence) -> str:
    where = f"(Where {sentence.where}:) " if sentence.where else ""
    return f"{where}{sentence.words} [{sentence.source}]"


def as_data() -> list[dict[str, str]]:
    """All sentences for ``json.dumps``."""
    return [
        {
            "caution": caution.name,
            "title": caution.title,
            "words": sentence.words,
            "where": sentence.where,
            "source": sentence.source,
        }
        for caution in packaged_cautions()
        for sentence in caution.sentences
    ]
