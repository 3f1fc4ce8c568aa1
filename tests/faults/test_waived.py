"""What a caution asks for is not waived, and what it forbids is not permitted, in many words."""

from collections.abc import Mapping

import pytest

from bindoff.diagnostics import Severity
from bindoff.files import MemoryFiles
from tests.faults.said import said
from tests.faults.seeding import base, checked, sound
from tests.faults.waived import MISSED, SLIPS, SOUND, Said

OURS = {"wearer.permitted", "wearer.waived"}
WITH_OTHERS = {
    *OURS, "machine.child", "wearer.ages", "wearer.fastening", "wearer.hazards", "wearer.loose",
    "wearer.parts", "wearer.safety", "wearer.threads", "wearer.uses", "wearer.words",
}  # fmt: skip


def _all(sentences: Mapping[str, Said]) -> list[tuple[str, str]]:
    return [each for topic in sentences.values() for each in topic]


@pytest.mark.parametrize(("pattern", "text"), _all(SLIPS))
def test_a_precaution_that_is_undone_is_heard(pattern: str, text: str) -> None:
    assert said(text, pattern, WITH_OTHERS) != set()


@pytest.mark.parametrize(("pattern", "text"), _all(SOUND))
def test_cautions_and_ordinary_sentences_are_left_alone(pattern: str, text: str) -> None:
    assert said(text, pattern, OURS) == set()


def test_most_are_heard_by_what_they_do_to_a_precaution() -> None:
    slips = _all(SLIPS)
    ours = [text for pattern, text in slips if said(text, pattern, OURS)]

    assert len(ours) >= 0.85 * len(slips)
    assert len({text for _, text in (*slips, *MISSED, *_all(SOUND))}) == len(
        [*slips, *MISSED, *_all(SOUND)]
    )


@pytest.mark.parametrize(("pattern", "text"), MISSED)
def test_those_that_nobody_hears_are_counted(pattern: str, text: str) -> None:
    assert said(text, pattern, WITH_OTHERS) == set()


@pytest.mark.parametrize(
    ("pattern", "text", "ids"),
    [
        ("bonnet", "The bonnet may stay on in the cot.", {"wearer.permitted"}),
        ("bonnet", "You need not take it off before the baby sleeps.", {"wearer.waived"}),
        ("hat", "Needles may lie about where small children play.", {"wearer.waived"}),
        ("hat", "It may be worn in the cot.", set()),
        ("toy", "The ears may come loose.", {"wearer.waived"}),
        ("toy", "The ears may come loose, so pull at them.", set()),
        ("toy", "It doesn't matter if the ears come loose.", {"wearer.permitted"}),
    ],
)
def test_it_is_an_error_where_a_child_gets_what_is_plainly_forbidden(
    pattern: str, text: str, ids: set[str]
) -> None:
    assert said(text, pattern, OURS) == ids


def test_a_finding_quotes_what_undoes_the_precaution_and_names_the_caution() -> None:
    files = dict(base("toy"))
    files["pattern.yaml"] = files["pattern.yaml"].replace(
        "finishing: >-\n", "finishing: >-\n  There is no need to pull at the ears.\n"
    )

    found = [each for each in checked(MemoryFiles(files)) if each.id in OURS]

    assert [each.severity for each in found] == [Severity.WARNING]
    assert "`no need to pull at the ears`" in found[0].message
    assert "swallowed" in found[0].message


def test_no_sound_pattern_undoes_a_precaution() -> None:
    assert not [each for files in sound().values() for each in checked(files) if each.id in OURS]


def test_one_sentence_is_told_once() -> None:
    files = dict(base("pullover"))
    files["pattern.yaml"] = files["pattern.yaml"].replace(
        "finishing: >-\n", "finishing: >-\n  The pins may stay in while the child wears it.\n"
    )

    found = [each for each in checked(MemoryFiles(files)) if each.id.startswith("wearer.")]

    assert [each.id for each in found] == ["wearer.permitted"]
    assert {each.id for each in found[0].follows} == {"wearer.uses"}
