"""The guide as a document: chapters with a list of keys, helpers and row words."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.craft.entry import Terms
from bindoff.craft.stitches import standard_book
from bindoff.document.prose import blocks as prose_blocks
from bindoff.document.tree import (
    Block,
    Blocks,
    Column,
    Definition,
    DefinitionList,
    Document,
    Heading,
    Inline,
    Inlines,
    LineBreak,
    Paragraph,
    Strong,
    Table,
    TableRow,
    Text,
)
from bindoff.english import listed
from bindoff.files import packaged_template
from bindoff.guide.keys import Group, KeyHelp, groups
from bindoff.guide.titles import group_title
from bindoff.guide.topics import GAUGES_OF_THEIR_OWN, HELPERS, TOPICS, Topic
from bindoff.source.rowlang.sayings import SAYINGS

TITLE = "The guide to bindoff"
_SUMMARY = (
    "Every key of a pattern, every helper and every word of a row, each with lines that work."
)


def guide() -> Document:
    """All chapters."""
    chapters = (block for topic in TOPICS for block in _chapter(topic))
    return Document(TITLE, "bindoff", "en", "", "", _SUMMARY, (), (*_opening(), *chapters))


def _opening() -> Blocks:
    return Heading(1, (Text(TITLE),)), Paragraph((Text(_SUMMARY),), "lead")


def _chapter(topic: Topic) -> Iterator[Block]:
    yield Heading(2, (Text(topic.title),), f"topic-{topic.name}")
    yield from prose_blocks(packaged_template(f"guide/{topic.name}.md") or "", {})
    for name in topic.groups:
        yield from _group(groups()[name])
    if topic.name == "measures":
        yield from _helpers()
    if topic.name == "rows":
        yield from _row_words()


def _group(group: Group) -> Iterator[Block]:
    yield Heading(3, (Text(group_title(group)),), f"group-{group.name.lower()}")
    yield Paragraph(_marked(group.says))
    yield DefinitionList(tuple(_entry(key) for key in group.keys))


def _entry(key: KeyHelp) -> Definition:
    meaning: list[Inline] = list(_marked(key.says))
    if len(key.choices) > 1:
        meaning.append(Text(f" One of: {listed(key.choices, 'or')}."))
    if key.required:
        meaning.append(Text(" It must be there."))
    if any(key.example):
        for number, line in enumerate(key.example):
            meaning += [LineBreak(), Text(_indented(line) if number else f"Example: {line}")]
    return Definition((Strong((Text(f"{key.key}:"),)),), tuple(meaning))


def _indented(line: str) -> str:
    bare = line.lstrip(" ")
    return "\u00a0" * (len(line) - len(bare)) + bare


def _marked(text: str) -> Inlines:
    """Words between backticks stand out."""
    parts = re.split(r"``?", text)
    return tuple(
        Strong((Text(part),)) if number % 2 else Text(part)
        for number, part in enumerate(parts)
        if part
    )


def _helpers() -> Iterator[Block]:
    yield Heading(3, (Text("Helpers of formulas"),), "helpers")
    yield Table(
        (Text("Helpers"),),
        (Column((Text("helper"),)), Column((Text("gives"),), weight=2), Column((Text("line"),))),
        tuple(
            TableRow(((Text(", ".join(each.names)),), (Text(each.gives),), (Text(each.example),)))
            for each in HELPERS
        ),
    )
    yield Paragraph((Text(GAUGES_OF_THEIR_OWN),))


def _row_words() -> Iterator[Block]:
    book = standard_book(Terms.US)
    yield Heading(3, (Text("What holds a row together"),), "sayings")
    yield DefinitionList(
        tuple(
            Definition((Strong((Text(each.example),)),), _marked(each.meaning)) for each in SAYINGS
        )
    )
    families = dict.fromkeys(stitch.family for stitch in book.stitches)
    for family in families:
        title = f"{family[:1].upper()}{family[1:]}"
        yield Heading(3, (Text(title),), f"family-{re.sub(r'[^a-z]+', '-', family.lower())}")
        yield DefinitionList(
            tuple(
                Definition(
                    (Strong((Text(words.abbreviation),)),),
                    (Text(words.name),),
                )
                for stitch in book.stitches
                if stitch.family == family
                for words in (stitch.wording(book.terms),)
            ),
            columns=2,
        )
