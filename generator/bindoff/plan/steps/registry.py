"""Every kind of step of the plan, by the model it is written as."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from bindoff.plan.steps import (
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
from bindoff.plan.steps.kind import Kind
from bindoff.source.steps.step import Step

KINDS: Mapping[type[Step], Kind[Any, Any]] = MappingProxyType(
    {
        each.KIND.model: each.KIND
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


def kind_of(step: Step) -> Kind[Any, Any]:
    """The kind of a step as written."""
    return KINDS[type(step)]
