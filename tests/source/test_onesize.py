"""A source narrowed to one size has that size's figures, and every value its place."""

from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.document.numbers import figures
from bindoff.files import SOURCE_NAME, DiskFiles, MemoryFiles
from bindoff.plan.plan import crown_starts, make_plan
from bindoff.source.onesize import one_size
from bindoff.source.read import Source, read_source

PATTERNS = Path(__file__).parents[2] / "patterns"
DEMOS = sorted(path.parent for path in PATTERNS.glob(f"*/{SOURCE_NAME}"))


def of_size(data: Any, size: str) -> Any:
    """Figures of all sizes without those of the others."""
    if isinstance(data, dict):
        return (
            {size: data[size]} if size in data else {k: of_size(v, size) for k, v in data.items()}
        )
    return [of_size(each, size) for each in data] if isinstance(data, list) else data


def cap(amounts: dict[str, Any], steps: list[dict[str, Any]] | None = None) -> Source:
    """A cap in sizes S, M and L with measures of their own."""
    data = {
        "title": "Quay Cap",
        "designer": "The Ebbstow Knitting Room",
        "version": "1.0",
        "date": "2026-11-02",
        "summary": "A plain cap.",
        "wearer": ["adult"],
        "gauge": {"stitches": 20, "rounds": 28},
        "yarns": {
            "slate": {"name": "Slate", "colour": "#46566b", "weight": 4, "ball": "9 g = 9 m"}
        },
        "sizes": {"S": {"head": "52 cm"}, "M": {"head": "55 cm"}, "L": {"head": "58 cm"}},
        "measures": amounts,
        "finished": {"Circumference": "width(n)"},
        "pieces": {"cap": {"title": "Cap", "steps": steps or STEPS}},
    }
    return read_source(MemoryFiles({SOURCE_NAME: yaml.safe_dump(data, sort_keys=False)}))


STEPS = [{"cast on": "n"}, {"work": "k all", "rounds": "r"}, {"bind off": "all"}]


@pytest.mark.parametrize("folder", DEMOS, ids=lambda path: path.name)
def test_every_figure_is_that_of_the_size_in_the_pattern(folder: Path) -> None:
    source = read_source(DiskFiles(str(folder)))
    whole = make_plan(source)
    full = figures(whole)
    for size in source.sizes:
        narrowed = one_size(source, size, crown_starts(whole))
        alone = figures(make_plan(narrowed, leftovers=True))
        assert alone == of_size(full, size) | {"sizes": [size]}


@given(
    st.lists(st.integers(8, 200), min_size=3, max_size=3),
    st.lists(st.integers(1, 60), min_size=3, max_size=3),
    st.sampled_from("SML"),
)
def test_lists_and_mappings_give_the_value_of_the_size(
    counts: list[int], rounds: list[int], size: str
) -> None:
    source = cap({"n": counts, "r": dict(zip("SML", rounds, strict=True))})
    full = figures(make_plan(source))
    alone = figures(make_plan(one_size(source, size)))
    assert alone == of_size(full, size) | {"sizes": [size]}


def test_amounts_of_steps_are_narrowed_too() -> None:
    steps: list[dict[str, Any]] = [
        {"cast on": [40, 44, 48]},
        {"work": "k all", "rounds": [5, 6, 7]},
        {"bind off": "all"},
    ]
    plan = make_plan(one_size(cap({"n": 40, "r": 1}, steps), "L"))
    assert [step.after[0].stitches for step in plan.pieces[0].steps][:2] == [48, 48]
    assert plan.pieces[0].steps[1].rounds == (7,)


def test_a_value_keeps_its_place_in_the_file() -> None:
    source = cap({"n": [40, 44, 48], "r": 1})
    alone = one_size(source, "M")
    written = source.pattern.measures["n"]
    assert alone.pattern.measures["n"].span == written.place.of(1).span != written.span
    one, all_ = (each.pattern.sizes["M"].place.of("head") for each in (alone, source))
    assert one.span == all_.span


def test_the_source_itself_stays_as_it_was() -> None:
    source = cap({"n": [40, 44, 48], "r": 1})
    before = figures(make_plan(source))
    one_size(source, "S")
    assert source.sizes == ("S", "M", "L")
    assert figures(make_plan(source)) == before


def test_a_size_that_is_not_there_is_told_with_those_that_are() -> None:
    with pytest.raises(PatternError) as caught:
        one_size(cap({"n": 40, "r": 1}), "XL")
    finding = caught.value.findings[0]
    assert finding.id == "command.no-size"
    assert "`XL`" in finding.message
    assert "`S`, `M`, `L`" in finding.help
    assert finding.span is not None
