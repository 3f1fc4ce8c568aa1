"""The words of every kind of step, by the model it is written as."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from bindoff.document.steps import (
    bind_off,
    buttonholes,
    cast_on,
    chart,
    close,
    cord,
    crown,
    edging,
    embroider,
    even,
    gather,
    join,
    leave,
    pick_up,
    pick_up_along,
    say,
    section,
    stripes,
    taper,
    together,
    work,
)
from bindoff.document.steps.words import Words
from bindoff.source.steps.step import Step

WORDS: Mapping[type[Step], Words[Any, Any]] = MappingProxyType(
    {
        each.WORDS.model: each.WORDS
        for each in (
            section,
            say,
            cast_on,
            pick_up,
            pick_up_along,
            work,
            chart,
            even,
            taper,
            together,
            crown,
            cord,
            buttonholes,
            bind_off,
            gather,
            leave,
            join,
            close,
            stripes,
            embroider,
            edging,
        )
    }
)


def words_of(step: Step) -> Words[Any, Any]:
    """The words of a step's kind."""
    return WORDS[type(step)]
