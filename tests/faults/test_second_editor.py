"""What becomes of the slips and of the sound wordings that a second editor wrote down."""

import pytest

from bindoff.diagnostics import Severity
from bindoff.files import MemoryFiles
from tests.faults.second_editor import EDITOR_FAULTS, SOUND_VARIATIONS, Sound, variation
from tests.faults.seeding import Fault, checked, outcome


@pytest.mark.parametrize("fault", EDITOR_FAULTS, ids=lambda fault: fault.slip)
def test_a_slip_is_told_as_the_list_says(fault: Fault) -> None:
    """A miss that is found by now, or told rightly, has to be taken off the list of misses."""
    seen = outcome(fault)

    assert seen.found is not bool(fault.missed)
    assert seen.in_place is bool(fault.finds) or fault.astray
    assert seen.false_alarms == ()


@pytest.mark.parametrize("sound", SOUND_VARIATIONS, ids=lambda sound: sound.wording)
def test_a_sound_wording_is_left_alone_or_listed_with_what_it_sets_off(sound: Sound) -> None:
    said = checked(MemoryFiles(variation(sound)))

    assert {each.id for each in said if each.severity is not Severity.NOTE} == set(sound.alarms)


def test_the_lists_are_long_and_have_nothing_twice() -> None:
    assert len({(fault.base, fault.slip) for fault in EDITOR_FAULTS}) == len(EDITOR_FAULTS) >= 60
    assert len({sound.wording for sound in SOUND_VARIATIONS}) == len(SOUND_VARIATIONS) >= 14
