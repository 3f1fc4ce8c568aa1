"""Every kind of step that may be written, by the key that begins one."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any, Union

from bindoff.source.model import OneOf, Tag
from bindoff.source.steps.bind_off import BindOffStep
from bindoff.source.steps.buttonholes import ButtonholesStep
from bindoff.source.steps.cast_on import CastOnStep
from bindoff.source.steps.chart import ChartStep
from bindoff.source.steps.close import CloseStep
from bindoff.source.steps.cord import CordStep
from bindoff.source.steps.crown import CrownStep
from bindoff.source.steps.edging import EdgingStep
from bindoff.source.steps.embroider import EmbroiderStep
from bindoff.source.steps.even import EvenStep
from bindoff.source.steps.gather import GatherStep
from bindoff.source.steps.join import JoinStep
from bindoff.source.steps.leave import LeaveStep
from bindoff.source.steps.pick_up import PickUpStep
from bindoff.source.steps.pick_up_along import PickUpAlongStep
from bindoff.source.steps.say import SayStep
from bindoff.source.steps.section import SectionStep
from bindoff.source.steps.step import Step
from bindoff.source.steps.stripes import StripesStep
from bindoff.source.steps.taper import TaperStep
from bindoff.source.steps.together import TogetherStep
from bindoff.source.steps.work import WorkStep


def _verb_of(model: type[Step]) -> str:
    """The key that begins a step of that kind: the first of its own."""
    return next(str(f.alias) for n, f in model.model_fields.items() if n not in Step.model_fields)


STEPS: Mapping[str, type[Step]] = MappingProxyType(
    {
        _verb_of(model): model
        for model in (
            SectionStep,
            SayStep,
            CastOnStep,
            WorkStep,
            ChartStep,
            EvenStep,
            TaperStep,
            TogetherStep,
            CrownStep,
            CordStep,
            ButtonholesStep,
            BindOffStep,
            GatherStep,
            LeaveStep,
            JoinStep,
            CloseStep,
            PickUpStep,
            PickUpAlongStep,
            StripesStep,
            EmbroiderStep,
            EdgingStep,
        )
    }
)


def _verb(step: Any) -> str | None:
    """Which kind of step a mapping is: the first of its keys that names one."""
    return next((key for key in step if key in STEPS), None) if isinstance(step, dict) else None


if TYPE_CHECKING:
    AnyStep = Step
else:
    _TAGGED = tuple(Annotated[model, Tag(verb)] for verb, model in STEPS.items())
    AnyStep = Annotated[Union[_TAGGED], OneOf(_verb)]  # noqa: UP007 (`|` takes two at a time)
