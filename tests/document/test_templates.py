"""Every packaged text renders with just the values its first line names, in US and UK words."""

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Literal

import jinja2
import pytest
from jinja2 import nodes

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.diagnostics import PatternError
from bindoff.document.prose import blocks
from bindoff.document.terms import terms
from bindoff.document.tree import Blocks, Heading, ItemList, Paragraph, SizeValues, plain

ROOT = Path(__file__).parents[2] / "templates"
TEMPLATES = [
    path
    for folder in ("notes", "safety", "techniques")
    for path in sorted((ROOT / folder).iterdir())
]
TECHNIQUES = [path for path in TEMPLATES if path.parent.name == "techniques"]

SAMPLES: Mapping[str, object] = {
    "hat": True,
    "garment": True,
    "mitten": True,
    "catches": "small fingers",
    "flat": True,
    "ribbed": True,
    "flat_rib": True,
    "row_ends": True,
    "skipped": True,
    "edge_stitches": True,
    "opening": True,
    "at_gap": True,
    "past_turn": True,
    "slipped_turn": True,
    "double_turn": True,
    "wrapped_turn": True,
    "into_rib": True,
    "gathers_off": True,
    "keeps_open": True,
    "for_babies": True,
    "for_children": True,
    "for_adults_alone": False,
    "for_youngest_alone": True,
    "in_rows": False,
    "worn": True,
    "carried": 4,
    "contact": "patterns@ebbstow.example",
    "date": "2026-11-02",
    "designer": "The Ebbstow Knitting Room",
    "embroidered": 412,
    "embroidered_on_one_base": SizeValues(("2,104", "2,104", "2,208")),
    "lengths": {name: f"{value / 10:g} cm" for name, value in CRAFT_LENGTHS.items()},
    "machine": True,
    "ring": True,
    "tube": True,
    "several_machines": False,
    "several_sizes": True,
    "eased": True,
    "fitted": True,
    "several_yarns": True,
    "stranded": True,
    "synthetic": True,
    "unsure": "Slate",
    "one_design": "double rib",
    "one_ball_over": "Slate",
    "washed": True,
    "blocked": False,
    "needles": 48,
    "sizes": ["S", "M", "L"],
    "text_file": "harbour-light-hat.txt",
    "version": "1.0",
    "reserves": "10 % in reserve",
    "year": "2026",
}

each_template = pytest.mark.parametrize(
    "path", TEMPLATES, ids=lambda path: path.relative_to(ROOT).as_posix()
)


def declared(path: Path) -> set[str]:
    """The names in the comment of the first line."""
    head = path.read_text("utf-8").split("\n")[0]
    listed = re.fullmatch(r"\{# Variables: (none|[a-z_.]+(?:, [a-z_.]+)*) #\}", head)
    assert listed, f"{path.name} begins with {head}"
    return set() if listed[1] == "none" else set(listed[1].split(", "))


def used(path: Path) -> set[str]:
    """The names in the braces, with the part taken of each."""
    tree = jinja2.Environment().parse(path.read_text("utf-8"))
    targets = [node.target for node in tree.find_all(nodes.For)]
    loops = {target.name for target in targets if isinstance(target, nodes.Name)}
    dotted = {
        f"{node.node.name}.{node.attr}": node.node.name
        for node in tree.find_all(nodes.Getattr)
        if isinstance(node.node, nodes.Name)
    }
    plain_names = {node.name for node in tree.find_all(nodes.Name)} - set(dotted.values())
    return {name for name in plain_names | set(dotted) if name.split(".")[0] not in loops}


def rendered(path: Path, style: Literal["US", "UK"] = "US", **changed: object) -> Blocks:
    """The blocks of the template, given nothing but what it declares."""
    every: dict[str, Any] = {**SAMPLES, "terms": terms(style), **changed}
    values: dict[str, Any] = {}
    for name in declared(path):
        root, _, part = name.partition(".")
        if part:
            values.setdefault(root, {})[part] = every[root][part]
        else:
            values[root] = every[root]
    return blocks(path.read_text("utf-8"), values)


def words(found: Blocks) -> str:
    """All that a reader sees but the headings, a block on each line."""

    def lines(found: Blocks) -> Iterator[str]:
        for block in found:
            match block:
                case Paragraph(children, _):
                    yield plain(children)
                case ItemList(items):
                    for item in items:
                        yield from lines(item.blocks)

    return "\n".join(lines(found))


@each_template
def test_the_first_line_names_the_variables_and_no_other_is_used(path: Path) -> None:
    assert declared(path) == used(path)


@each_template
@pytest.mark.parametrize("style", ["US", "UK"])
@pytest.mark.parametrize("machine", [True, False])
def test_it_renders_as_one_heading_and_the_text_under_it(
    path: Path, style: Literal["US", "UK"], machine: bool
) -> None:
    first, *rest = rendered(path, style, machine=machine)

    assert isinstance(first, Heading)
    assert first.level == 3
    assert rest
    assert not any(isinstance(block, Heading) for block in rest)


@pytest.mark.parametrize(
    "path", [path for path in TEMPLATES if declared(path)], ids=lambda path: path.stem
)
def test_a_variable_that_is_missing_is_named(path: Path) -> None:
    with pytest.raises(PatternError) as caught:
        blocks(path.read_text("utf-8"), {})

    message = caught.value.findings[0].message
    roots = {name.split(".")[0] for name in declared(path)}
    assert message in {f"there is no value named `{root}`" for root in roots}


@pytest.mark.parametrize("path", TECHNIQUES, ids=lambda path: path.stem)
def test_a_technique_is_told_in_few_words(path: Path) -> None:
    assert 40 <= len(words(rendered(path)).split()) <= 135


ONLY_US = r"\b(bind(ing)? off|gauge|stockinette|colors?|fibers?|center|gray|jewelry|neighbors?)\b"
ONLY_UK = r"\b(cast(ing)? off|stocking stitch|colours?|fibres?|centre|grey|jewellery|neighbours?)\b"


@pytest.mark.parametrize("path", TECHNIQUES, ids=lambda path: path.stem)
def test_a_technique_refers_to_its_own_list_by_numbers_alone(path: Path) -> None:
    """Steps are the pattern's own, and in speech the entries of a technique are stages."""
    assert re.findall(r"\b(?:steps?|stages?) \d[^.]*", path.read_text("utf-8")) == []


@each_template
def test_the_words_are_those_of_the_chosen_side_of_the_ocean(path: Path) -> None:
    us, uk = rendered(path, "US"), rendered(path, "UK")

    assert not re.findall(ONLY_UK, words(us), re.I)
    assert not re.findall(ONLY_US, words(uk), re.I)


@each_template
def test_the_text_is_cleanly_set(path: Path) -> None:
    text = path.read_text("utf-8")
    body = words(rendered(path))

    assert text.endswith("\n")
    assert not text.endswith("\n\n")
    assert not re.search(r"[ \t]+$|\t", text, re.M)
    assert "  " not in body
    assert "!" not in body
    assert all(line[-1] in ".:" or line.startswith("Source:") for line in body.split("\n"))


def test_every_kind_of_text_is_there() -> None:
    names = {path.relative_to(ROOT).as_posix() for path in TEMPLATES}
    assert names >= {
        *(
            f"techniques/{name}.md"
            for name in (
                "blocking",
                "cast-on-circular-machine",
                "chart-flat",
                "chart-in-the-round",
                "crochet-edging",
                "duplicate-stitch",
                "gathered-closing",
                "grafting",
                "held-thumb",
                "join-folded-tube",
                "joining-a-new-yarn",
                "joining-at-an-edge",
                "live-edges",
                "long-tail-cast-on",
                "off-the-machine",
                "second-yarn-on-a-machine",
                "sewing-open-edges",
                "slip-stitch-join",
                "stranded-knitting",
                "three-needle-closing",
                "weaving-in-ends",
            )
        ),
        *(
            f"safety/{name}.md"
            for name in (
                "adult",
                "child",
                "cords",
                "hands",
                "infant",
                "machine",
                "pompom",
                "sleep",
                "small-parts",
                "tools",
                "wool",
            )
        ),
        *(
            f"notes/{name}.md"
            for name in (
                "care",
                "corrections",
                "gauge",
                "licence",
                "machine-sizes",
                "reading-sizes",
                "sizes-and-ease",
                "text-edition",
                "yarn-amounts",
                "yarn-weight",
            )
        ),
    }


@pytest.mark.parametrize(
    ("name", "facts"),
    [
        # The Council's condition for the use of its system, CYC Standards & Guidelines 02/2018.
        ("notes/yarn-weight", ["Source: Craft Yarn Council's www.YarnStandards.com"]),
        # 16 CFR 1501.2: articles for children under 3 years of age.
        ("safety/small-parts", ["16 CFR 1501", "under three years"]),
        ("safety/under-three", ["under three years"]),
        # EN 14682:2014 and 16 CFR 1120: no drawstrings at hood and neck of children's clothing.
        ("safety/cords", ["EN 14682", "16 CFR 1120", "neck", "hood"]),
        # American Academy of Pediatrics, 2022: flat on the back, no loose items, no hats indoors.
        ("safety/sleep", ["on their backs", "American Academy of Pediatrics, 2022"]),
    ],
)
def test_safety_facts_and_source_lines_are_those_published(name: str, facts: list[str]) -> None:
    text = words(rendered(ROOT / f"{name}.md"))
    assert all(fact in text for fact in facts)


@pytest.mark.parametrize(
    "name",
    ["adult", "child", "infant", "small-parts", "cords", "sleep", "hands", "wool", "machine"],
)
def test_safety_notes_leave_the_last_word_to_rules_and_professionals(name: str) -> None:
    text = words(rendered(ROOT / "safety" / f"{name}.md"))
    assert re.search(r"licensed|where you live|nurse or doctor|maker's own instructions", text)


def test_sizes_are_chosen_only_where_there_are_several() -> None:
    note = ROOT / "notes" / "sizes-and-ease.md"

    assert "Choose your size by the body" in words(rendered(note))
    assert "Choose" not in words(rendered(note, several_sizes=False))
    machine = ROOT / "notes" / "machine-sizes.md"
    assert "size before" not in words(rendered(machine, several_sizes=False))


def test_nothing_is_said_of_washing_where_the_gauge_is_that_of_unwashed_fabric() -> None:
    for name in ("sizes-and-ease", "gauge"):
        note = ROOT / "notes" / f"{name}.md"
        assert "wash" in words(rendered(note)).lower()
        for machine in (True, False):
            assert "wash" not in words(rendered(note, washed=False, machine=machine)).lower()


@pytest.mark.parametrize(
    ("washed", "blocked", "notes"),
    [
        (True, True, ("after washing and blocking", "ash and block it as you will the piece")),
        (False, True, ("after blocking", "lock it as you will the piece")),
        (True, False, ("after washing,", "ash and dry it as you will the piece")),
    ],
)
def test_what_was_done_with_the_swatch_is_what_the_knitter_does(
    washed: bool, blocked: bool, notes: tuple[str, str]
) -> None:
    for name, said in zip(("sizes-and-ease", "gauge"), notes, strict=True):
        for machine in (True, False):
            note = ROOT / "notes" / f"{name}.md"
            told = words(rendered(note, washed=washed, blocked=blocked, machine=machine))
            assert said in told
            assert washed or "wash" not in told


def test_the_contact_is_left_out_where_there_is_none() -> None:
    text = words(rendered(ROOT / "notes" / "corrections.md", contact=""))
    assert text == ("This is version 1.0 of 2026-11-02. Look for a newer one before you begin.")


def test_both_styles_have_the_same_terms_and_the_usual_pairs() -> None:
    """The knitting and crochet pairs of the CYC list of US and UK terms."""
    us, uk = terms("US"), terms("UK")

    assert us.keys() == uk.keys()
    assert (us["bind_off"], uk["bind_off"]) == ("bind off", "cast off")
    assert (us["gauge"], uk["gauge"]) == ("gauge", "tension")
    assert (us["stockinette"], uk["stockinette"]) == ("stockinette stitch", "stocking stitch")
    assert us["double_crochet"] == uk["single_crochet"] == "double crochet"
