"""The form for a first pattern gives a source that builds, whatever is written into it."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.commands.new import texts
from bindoff.desk.begin import choices, first_pattern
from bindoff.diagnostics import PatternError, Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern
from bindoff.source.read import read_source
from bindoff.source.yamltree import read_yaml

KINDS = {kind["id"]: kind for kind in choices()["kinds"]}


def wishes(kind: str = "hat", **more: Any) -> dict[str, Any]:
    """The answers of a form on which only what must be is filled in."""
    chosen = KINDS.get(kind, KINDS["hat"])
    return {
        "title": "Quay Piece",
        "designer": "Ada of Ebbstow",
        "contact": "ada@ebbstow.example",
        "kind": kind,
        "wearer": "adult",
        "terms": "US",
        "units": "both",
        "date": "2026-11-29",
        "summary": "What the quay wears.",
        "needles": chosen["needles"],
        "sizes": [{"measures": size["measures"]} for size in chosen["sizes"]],
        "yarns": chosen["yarns"],
        **chosen["gauge"],
        **more,
    }


def files(told: dict[str, Any]) -> MemoryFiles:
    return MemoryFiles(first_pattern(told)[1])


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_choice_gives_a_pattern_without_a_finding(kind: str, terms: str) -> None:
    assert check_pattern(files(wishes(kind, terms=terms)), "pattern.yaml", "first") == ()


@pytest.mark.parametrize("kind", KINDS)
def test_a_form_that_is_left_as_it_is_changes_no_figure(kind: str) -> None:
    """What the starter has stands in the form, and comes back to its place."""
    before = read_yaml(texts("Quay Piece", kind)["pattern.yaml"], "a").data
    after = read_yaml(first_pattern(wishes(kind))[1]["pattern.yaml"], "a").data
    own = ("designer", "contact", "date", "summary", "wearer")

    assert {k: v for k, v in after.items() if k not in own} == {
        k: v for k, v in before.items() if k not in own
    }


def test_remarks_of_the_starter_stay() -> None:
    source = first_pattern(wishes(stitches="21,5"))[1]["pattern.yaml"]

    assert "# adult, child, infant: decides which cautions are printed" in source
    assert "  stitches: 21.5\n" in source


def test_it_builds_every_file() -> None:
    made = build_pattern(files(wishes("cowl")), "pattern.yaml", "first").files

    assert {"first.pdf", "first.txt", "numbers.json", "charts/waves.svg"} <= set(made)


LINE = st.text(st.characters(codec="latin-1", categories=["L", "N", "P", "S", "Zs"]), min_size=1)


@settings(max_examples=20)
@given(title=LINE.filter(str.strip), name=LINE.filter(str.strip), fibre=LINE)
def test_what_is_written_is_read_back_as_written(title: str, name: str, fibre: str) -> None:
    told = wishes(title=title, yarns=[{**KINDS["hat"]["yarns"][0], "name": name, "fibre": fibre}])
    try:
        made = first_pattern(told)
    except PatternError:
        return  # too long, or not to be printed
    pattern = read_source(MemoryFiles(made[1]), "pattern.yaml", "first").pattern
    assert pattern.title == " ".join(title.split())
    assert pattern.yarns["main"].name == " ".join(name.split())


@settings(max_examples=5)
@given(
    stitches=st.integers(16, 28),
    taller=st.floats(1.25, 1.5),
    heads=st.lists(st.integers(50, 62), min_size=3, max_size=3, unique=True),
)
def test_any_usual_gauge_and_heads_build(stitches: int, taller: float, heads: list[int]) -> None:
    """Stockinette has a quarter to a half more rounds than stitches in 10 cm (common practice, no
    source)."""
    sizes = [{"measures": {"head": str(cm)}} for cm in sorted(heads)]
    told = wishes(stitches=str(stitches), rounds=str(round(stitches * taller)), sizes=sizes)
    found = check_pattern(files(told), "pattern.yaml", "first")

    assert [each for each in found if each.severity is Severity.ERROR] == []


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"title": " "}, "the title"),
        ({"designer": ""}, "your name"),
        ({"wearer": "dog"}, "for whom"),
        ({"stitches": "many"}, "stitches"),
        ({"stitches": "0"}, "stitches"),
        ({"rounds": "1e9"}, "rounds"),
        ({"kind": "tent"}, "begin with"),
        ({"sizes": []}, "head of size S"),
        ({"sizes": [{"measures": {"head": "0.5"}}]}, "head of size S"),
        ({"sizes": "S"}, "head of size M"),
        ({"yarns": []}, "name of the yarn main"),
        ({"yarns": [{"name": "Tar", "colour": "blue"}]}, "color of Tar"),
        ({"date": "soon"}, "date"),
        ({"date": "2026-11-29\ntitle: x"}, "date"),
    ],
)
def test_an_answer_that_can_not_be_used_is_named(more: dict[str, Any], said: str) -> None:
    with pytest.raises(PatternError) as caught:
        first_pattern(wishes(**more))
    assert any(said in each.message for each in caught.value.findings)
