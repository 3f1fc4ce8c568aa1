"""The whole document: what holds for every pattern, whatever it says."""

import json
import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.build import build_document
from bindoff.document.tree import (
    Blocks,
    Cover,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inline,
    Inlines,
    ItemList,
    Link,
    Paragraph,
    SizeValues,
    Strong,
    Table,
    dump,
)
from bindoff.files import DiskFiles
from bindoff.plan.plan import make_plan
from bindoff.source.read import read_source
from tests.document.patterns import (
    CHARTED,
    EXAMPLES,
    Data,
    built,
    data,
    example,
    flat,
    for_size,
    inlines_of,
    printed,
    tube,
    walk,
)

PATTERNS = Path(__file__).parents[2] / "patterns"
SOURCES = sorted(path.parent.name for path in PATTERNS.glob("*/pattern.yaml"))


@cache
def published(name: str) -> Document:
    """The document of a pattern that comes with the program."""
    folder = DiskFiles(str(PATTERNS / name))
    return build_document(make_plan(read_source(folder)), folder)[0]


def document_of(name: str) -> Document:
    """An example of these tests, or a pattern that comes with the program."""
    return example(name)[1] if name in EXAMPLES else published(name)


every_document = pytest.mark.parametrize("name", [*EXAMPLES, *SOURCES])


# ---------------------------------------------------------------- what always holds


def nodes(document: Document) -> Iterator[Inline]:
    """Every inline node, those inside others too."""
    for words in inlines_of(document.blocks):
        yield from _inner(words)


def _inner(words: Inlines) -> Iterator[Inline]:
    for node in words:
        yield node
        if isinstance(node, Strong | Emphasis | Link):
            yield from _inner(node.children)


def faults(document: Document) -> list[str]:
    """Everything about the document that an editor would send back."""
    return [
        *_of_headings(document),
        *_of_links(document),
        *_of_figures(document),
        *_of_tables(document),
        *_of_sizes(document),
        *_of_words(document),
    ]


def _of_headings(document: Document) -> Iterator[str]:
    assert isinstance(document.blocks[0], Cover)
    level = 1
    for block in walk(document.blocks):
        if isinstance(block, Heading):
            if block.level > level + 1:
                yield f"heading {printed(block.children)} skips a level"
            level = block.level
            if not printed(block.children).strip():
                yield "an empty heading"


def _of_links(document: Document) -> Iterator[str]:
    ids = [
        block.id
        for block in walk(document.blocks)
        if isinstance(block, Heading | Figure | Table) and block.id
    ]
    yield from (f"two blocks are called {id}" for id in ids if ids.count(id) > 1)
    for node in nodes(document):
        if isinstance(node, Link) and node.target.startswith("#") and node.target[1:] not in ids:
            yield f"no block is called {node.target}"


def _of_figures(document: Document) -> Iterator[str]:
    for block in walk(document.blocks):
        if isinstance(block, Figure):
            if len(block.alt.split()) < 5:
                yield f"the alt text {block.alt!r} says too little"
            if not block.alt.startswith("Map of the chart"):
                yield from _of_sentences(block.alt)


def _of_tables(document: Document) -> Iterator[str]:
    for block in walk(document.blocks):
        if isinstance(block, Table):
            caption = printed(block.caption)
            if not caption or not block.rows:
                yield f"the table {caption!r} has no caption or no rows"
            if any(len(row.cells) != len(block.columns) for row in block.rows):
                yield f"the table {caption!r} is ragged"
            if block.groups and sum(n for _, n in block.groups) != len(block.columns):
                yield f"the groups of the table {caption!r} do not cover its columns"
            sizes = {column.size for column in block.columns if column.size is not None}
            if sizes and sizes != set(range(len(document.sizes))):
                yield f"the table {caption!r} has not a column for every size"
            for at, column in enumerate(block.columns):
                told = [printed(row.cells[at]) for row in block.rows]
                # Where a size begins its name stands, and nothing where none begins.
                marks = printed(column.heading) == "Begin here"
                if not (any(told) if marks else all(told)):
                    yield f"the table {caption!r} has an empty cell"


def _of_sizes(document: Document) -> Iterator[str]:
    for node in nodes(document):
        if isinstance(node, SizeValues):
            if len(node.values) != len(document.sizes):
                yield f"{node.values} has not one value for each size"
            if len(set(node.values)) == 1:
                yield f"{node.values} differs in no size"


def _of_words(document: Document) -> Iterator[str]:
    for block in walk(document.blocks):
        match block:
            case ItemList(items):
                if not items or not all(item.blocks for item in items):
                    yield "an empty list"
            case Paragraph(children):
                text = printed(children)
                if not text.strip() or text != text.strip():
                    yield f"a paragraph is empty or has space at its ends: {text!r}"
                if not re.match(r"[*\[(“]*[A-Z0-9©–]", text):
                    yield f"a paragraph begins with a small letter: {text!r}"
            case _:
                pass
    for words in inlines_of(document.blocks):
        yield from _of_typing(printed(words))
        for size in range(len(document.sizes)):
            yield from _of_sentences(for_size(words, size))


def _of_typing(text: str) -> Iterator[str]:
    pattern = r"  | [.,;:!?]|\.\.|,,|stitchs|\( | \)|None|\{|\}|nan\b|, ,|: \."
    if found := re.search(pattern, text):
        yield f"{found[0]!r} in {text!r}"


def _of_sentences(text: str) -> Iterator[str]:
    if re.search(r"(?<!\b[a-z])[.!?] [a-z]", text):
        yield f"a sentence begins with a small letter: {text!r}"
    if re.search(r"(?<![\d.½¼¾⅛⅜⅝⅞/])\b1 (?:rounds|rows|stitches|times|balls|inches)\b", text):
        yield f"one of something is called several: {text!r}"
    if re.search(r"\b0 (?:rounds?|rows?|stitch|stitches|times|balls?|in\b|cm\b)", text):
        yield f"nothing of something is to be worked: {text!r}"


@every_document
def test_an_editor_has_nothing_to_send_back(name: str) -> None:
    assert faults(document_of(name)) == []


@every_document
def test_the_steps_of_a_piece_are_numbered_without_gaps(name: str) -> None:
    """Techniques among the steps number their own stages, from 1."""
    following, in_steps = 1, False
    for block in document_of(name).blocks:
        if isinstance(block, Heading):
            following = 1 if block.level == 2 else following
            in_steps = block.id.startswith("piece-")
        elif isinstance(block, ItemList) and block.ordered and in_steps:
            assert block.start == following
            following += len(block.items)
        elif isinstance(block, ItemList) and block.ordered:
            assert block.start == 1


@every_document
def test_the_document_dumps_as_plain_data(name: str) -> None:
    dumped = [dump(block) for block in document_of(name).blocks]

    assert json.loads(json.dumps(dumped)) == dumped


@pytest.mark.parametrize("name", EXAMPLES)
def test_building_twice_gives_the_same_document(name: str) -> None:
    again, charts = built(*EXAMPLES[name])

    assert dump(again) == dump(example(name)[1])
    assert charts == example(name)[2]


def test_the_head_of_the_document_is_that_of_the_source() -> None:
    document = example("cap")[1]

    assert (document.title, document.author) == ("Quay Cap", "The Ebbstow Knitting Room")
    assert (document.version, document.date) == ("1.0", "2026-11-02")
    assert document.sizes == ("A", "B", "C")


@pytest.mark.parametrize(("terms", "tag"), [("US", "en-US"), ("UK", "en-GB")])
def test_the_language_follows_the_terms(terms: str, tag: str) -> None:
    """en-US, en-GB: BCP 47."""
    steps = [{"cast on": "n"}, {"bind off": "all"}]

    assert built(data(steps, terms=terms))[0].language == tag


def test_the_designers_words_are_marked_with_their_language() -> None:
    """And only those: the program's own sentences are English whatever hers are."""
    steps = [{"cast on": "n"}, {"say": "Troi'r gwaith."}, {"bind off": "all"}]
    own: Data = {"language": "cy", "care": "Golchi â llaw.", "notes": "- Gwlân\n- Dŵr"}
    document, _ = built(data(steps, **own))

    def marked(blocks: Blocks) -> Iterator[tuple[str, str]]:
        for block in blocks:
            match block:
                case Paragraph(children, _, language):
                    yield printed(children), language
                case ItemList(items):
                    for item in items:
                        yield from marked(item.blocks)

    languages = dict(marked(document.blocks))
    assert document.language == "en-US"
    assert [block.language for block in document.blocks if isinstance(block, Cover)] == ["cy"]
    for words in ("Troi'r gwaith.", "Golchi â llaw.", "Gwlân", "Dŵr"):
        assert languages.pop(words) == "cy"
    assert set(languages.values()) == {""}


def test_the_sections_come_in_the_order_of_working() -> None:
    ids = [b.id for b in example("cap")[1].blocks if isinstance(b, Heading) and b.level == 2]

    assert ids == [
        "sizes",
        "notes",
        "materials",
        "gauge",
        "abbreviations",
        "piece-cap",
        "charts",
        "techniques",
        "care",
        "safety",
        "about",
    ]


@every_document
def test_us_and_uk_words_are_not_mixed(name: str) -> None:
    """Spellings and terms of both sides: common practice, no source."""
    document = document_of(name)
    american = r"\b(?:colors?|center(?:ed)?|fibers?|gray|bind(?:ing)? off|gauge|skip)\b"
    british = r"\b(?:colours?|centred?|fibres?|grey|cast(?:ing)? off|tension)\b"
    foreign = british if document.language == "en-US" else american
    told = [printed(words) for words in inlines_of(document.blocks)]
    # A machine's tension is its setting on both sides of the sea.
    settings_ = r"(?:tighter|middle|looser|of|stated: use a|use a) tension|looser tension"
    mixed = [re.sub(settings_, "", text) for text in told]

    assert [text for text in mixed if re.search(foreign, text, re.IGNORECASE)] == []


# ---------------------------------------------------------------- any pattern

RIB = "*k2, p2; repeat from * to end"
NARROW = "k1, k2tog, k to last 3, ssk, k1"
YARNS = st.sampled_from(["slate", "foam"])


def _per_size(draw: st.DrawFn, sizes: int, least: int, most: int) -> list[int]:
    return draw(st.lists(st.integers(least, most), min_size=sizes, max_size=sizes))


@st.composite
def patterns(draw: st.DrawFn) -> Data:
    """Patterns of one piece in one to seven sizes; every count of stitches is a multiple of 8."""
    sizes = draw(st.integers(1, 7))
    rows = draw(st.booleans())
    live = [8 * n for n in _per_size(draw, sizes, 3, 9)]
    worked = [0] * sizes
    steps: list[dict[str, Any]] = [{"cast on": list(live), "yarn": draw(YARNS)}]
    for kind in draw(st.lists(st.sampled_from(_KINDS), max_size=5)):
        yarn = {"yarn": draw(YARNS)}
        if kind == "section":
            steps.append({"section": draw(st.sampled_from(["Brim", "Body", "Top"]))})
            continue
        if kind == "say":
            steps.append({"say": "There are {{ n }} stitches."})
            continue
        counts = _per_size(draw, sizes, 0, 6)
        if kind == "chart":
            if rows and any(count % 2 for count in worked):
                continue
            step: dict[str, Any] = {"chart": "waves", "rounds": counts}
        elif kind == "even":
            change = draw(st.sampled_from([0, 8]))
            live = [count + change for count in live]
            step, counts = {"even": "increase", "to": list(live)}, [min(1, change)] * sizes
        elif kind == "taper":
            live = [
                count - 2 * min(n, (count - 10) // 2) for count, n in zip(live, counts, strict=True)
            ]
            live = [count + (-count) % 8 for count in live]
            counts = [40 + n for n in counts]
            step = {"taper": NARROW, "to": list(live), "over": counts}
        else:
            step = {"work": {"knit": "k all", "rib": RIB, "two": ["k all", RIB]}[kind]}
            step |= {"rounds": counts}
        worked = [a + b for a, b in zip(worked, counts, strict=True)]
        steps.append(step | yarn)
    steps += [
        {"work": "k all", "rounds": 1, "yarn": "slate"},
        {"work": "k all", "rounds": 1, "yarn": "foam"},
        draw(st.sampled_from([{"gather": "all"}, {"bind off": "all"}])),
    ]
    more = {"terms": draw(st.sampled_from(["US", "UK"]))}
    more |= {"units": draw(st.sampled_from(["metric", "imperial", "both"]))}
    source = data(steps, sizes, **(CHARTED | more))
    return flat(source) if rows else source


_KINDS = ("section", "say", "knit", "rib", "two", "chart", "even", "taper")


@settings(max_examples=15, deadline=None)
@given(patterns())
def test_an_editor_has_nothing_to_send_back_for_any_pattern(source: Data) -> None:
    assert faults(built(source)[0]) == []


@settings(max_examples=8, deadline=None)
@given(
    st.lists(st.text(".#o", min_size=12, max_size=12), min_size=1, max_size=5),
    st.booleans(),
    st.integers(1, 3),
    st.sampled_from([2, 20]),
)
def test_an_editor_has_nothing_to_send_back_for_any_tube(
    lines: list[str], mirror: bool, sizes: int, minutes: int
) -> None:
    plan = {"minutes per stitch": 0.5, "minutes per change": minutes}
    grid = "\n".join(["#o" + "." * 10, *lines])
    legend = {".": "slate", "#": "foam", "o": "rust"}
    source, files = tube(grid, legend, 24, sizes, mirror, {"colour plan": plan})

    assert faults(built(source, files)[0]) == []


def test_the_faults_are_faults() -> None:
    """The editor of these tests is awake."""
    assert list(_of_typing("Knit  8 rounds.")) != []
    assert list(_of_typing("Knit 8 rounds .")) != []
    assert list(_of_sentences("Knit. then purl.")) != []
    assert list(_of_sentences("Knit 1 rounds.")) != []
    assert list(_of_sentences("Knit 0 rounds.")) != []
    assert list(_of_sentences("Knit 21 rounds, 10 rounds, 2.1 inches.")) == []


@pytest.mark.parametrize("name", SOURCES)
def test_charts_lead_back_to_the_steps_that_work_them(name: str) -> None:
    """Every link under a chart's heading names a step, and leads to the heading it stands under."""
    blocks = published(name).blocks
    charts = [
        following
        for block, following in pairwise(blocks)
        if isinstance(block, Heading) and block.id.startswith("chart-")
    ]
    assert bool(charts) == bool(read_source(DiskFiles(str(PATTERNS / name))).pattern.charts)
    places = {block.id: index for index, block in enumerate(blocks) if isinstance(block, Heading)}
    for lead in charts:
        assert isinstance(lead, Paragraph)
        links = [each for each in lead.children if isinstance(each, Link)]
        assert links
        for link in links:
            number = int(printed(link.children).rpartition("step ")[2])
            under = blocks[places[link.target.removeprefix("#")] + 1]
            assert isinstance(under, ItemList)
            assert under.start <= number < under.start + len(under.items)
