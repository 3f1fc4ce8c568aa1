"""What a person would read without a frown sets off no check: common practice, no source."""

import pytest

from bindoff.files import MemoryFiles
from tests.faults.said import said
from tests.faults.seeding import base, checked


@pytest.mark.parametrize(
    ("gauge", "ids"),
    [
        ("two-color brioche in the round, every round counted", set()),
        ("slip stitch pattern", set()),
        ("stockinette in the round", {"gauge.swapped"}),
    ],
)
def test_rounds_of_every_other_stitch_are_twice_as_many(gauge: str, ids: set[str]) -> None:
    files = dict(base("cowl"))
    text = files["pattern.yaml"]
    before = text[text.index("gauge:") : text.index("yarns:")]
    after = f'gauge: {{stitches: 14, rounds: 40, over: 10 cm, worked: "{gauge}"}}\n'
    files["pattern.yaml"] = text.replace(before, after)

    found = {each.id for each in checked(MemoryFiles(files))}

    assert found & {"gauge.swapped"} == ids


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("Six stitches at each edge are knitted throughout.", set()),
        ("The stitches of each row are counted.", set()),
        ("Each edge are knitted throughout.", {"prose.word"}),
    ],
)
def test_a_verb_goes_with_its_subject_before_a_preposition(text: str, ids: set[str]) -> None:
    assert said(text, "blanket", {"prose.word"}) == ids


@pytest.mark.parametrize(
    ("how", "ids"),
    [
        ("purlwise, and not too tightly", set()),
        ("not tight", set()),
        ("purlwise", {"edge.stretch"}),
    ],
)
def test_a_bind_off_that_is_not_tight_stretches(how: str, ids: set[str]) -> None:
    files = dict(base("cowl"))
    usual = "how: loosely in pattern"
    assert usual in files["pattern.yaml"]
    files["pattern.yaml"] = files["pattern.yaml"].replace(usual, f"how: {how}")

    assert {each.id for each in checked(MemoryFiles(files))} & {"edge.stretch"} == ids
