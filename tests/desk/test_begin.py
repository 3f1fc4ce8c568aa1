"""The form for a first pattern gives a source that builds, whatever is written into it."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.desk.begin import choices, first_pattern
from bindoff.diagnostics import PatternError, Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern

YARN = {"name": "Slate", "colour": "#46566b", "weight": "4", "grams": "100", "metres": "200"}
LIGHT = {**YARN, "name": "Foam", "colour": "#e9eef0"}
KINDS = {kind["id"]: kind for kind in choices()["kinds"]}


def wishes(kind: str = "hand-hat", wearer: str = "adult", **more: Any) -> dict[str, Any]:
    chosen = KINDS[kind]
    return {
        "title": "Quay Hat",
        "designer": "Ada of Ebbstow",
        "contact": "ada@ebbstow.example",
        "kind": kind,
        "wearer": wearer,
        "terms": "US",
        "units": "both",
        "date": "2026-11-29",
        "stitches": chosen["stitches"],
        "rounds": chosen["rounds"],
        "tool": chosen["tool"],
        "needles": "22",
        "sizes": chosen["sizes"].get(wearer, []),
        "yarns": [YARN, LIGHT],
        **more,
    }


def files(told: dict[str, Any]) -> MemoryFiles:
    return MemoryFiles(first_pattern(told)[1])


@pytest.mark.parametrize(
    ("kind", "wearer"), [(id, wearer) for id, kind in KINDS.items() for wearer in kind["sizes"]]
)
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_choice_gives_a_pattern_without_a_finding(kind: str, wearer: str, terms: str) -> None:
    found = check_pattern(files(wishes(kind, wearer, terms=terms)), "pattern.yaml", "first")

    assert [each for each in found if each.severity is Severity.ERROR] == []
    assert [each.message for each in found if not each.id.startswith("spelling")] == []


def test_it_builds_every_file() -> None:
    made = build_pattern(files(wishes("hand-cowl")), "pattern.yaml", "first").files

    assert {"first.pdf", "first.txt", "numbers.json", "charts/waves.svg"} <= set(made)


LINE = st.text(st.characters(codec="latin-1", categories=["L", "N", "P", "S", "Zs"]), min_size=1)


@settings(max_examples=40)
@given(title=LINE.filter(str.strip), name=LINE.filter(str.strip), fibre=LINE)
def test_what_is_written_is_read_back_as_written(title: str, name: str, fibre: str) -> None:
    told = wishes(title=title, yarns=[{**YARN, "name": name, "fibre": fibre}, LIGHT])
    from bindoff.source.read import read_source

    try:
        made = first_pattern(told)
    except PatternError:
        return  # too long, or not to be printed
    pattern = read_source(MemoryFiles(made[1]), "pattern.yaml", "first").pattern
    assert pattern.title == " ".join(title.split())
    assert pattern.yarns["main"].name == " ".join(name.split())


@settings(max_examples=25)
@given(
    stitches=st.integers(14, 40),
    rounds=st.integers(18, 56),
    heads=st.lists(st.integers(30, 70), min_size=1, max_size=6, unique=True),
)
def test_any_gauge_and_heads_of_people_build(stitches: int, rounds: int, heads: list[int]) -> None:
    sizes = [{"name": f"Size {cm}", "cm": str(cm)} for cm in sorted(heads)]
    told = wishes(stitches=str(stitches), rounds=str(rounds), sizes=sizes)
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
        ({"sizes": []}, "no size"),
        ({"sizes": [{"name": "S", "cm": "0.5"}]}, "head of size S"),
        ({"sizes": "S"}, "no size"),
        ({"yarns": []}, "main yarn"),
        ({"yarns": [{**YARN, "colour": "blue"}, LIGHT]}, "colour"),
        ({"date": "soon"}, "date"),
        ({"date": "2026-11-29\ntitle: x"}, "date"),
    ],
)
def test_an_answer_that_can_not_be_used_is_named(more: dict[str, Any], said: str) -> None:
    with pytest.raises(PatternError) as caught:
        first_pattern(wishes(**more))
    assert any(said in each.message for each in caught.value.findings)


def test_a_comma_is_read_as_a_point() -> None:
    assert "stitches: 21.5\n" in first_pattern(wishes(stitches="21,5"))[1]["pattern.yaml"]
