"""Held stitches put back on the needles, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, figures, join, joined, paragraph, running, text
from bindoff.document.stepphrases import capital_first, count_after, unit_in
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Inlines
from bindoff.document.voice import Voice
from bindoff.english import capital, listed, ordinal
from bindoff.plan.steps.pick_up import Back, PickUp
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.rowlang.syntax import CountChange
from bindoff.source.steps.pick_up import PickUpStep

_Step = WorkedStep[PickUpStep, PickUp]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    unit = unit_in(step)
    detail = step.detail
    if detail.parts:
        return _from_groups(voice, piece, step)
    yarn = voice.yarn_names[step.yarn]
    one = set(detail.held) == {1}
    held: Inlines = text("Put the held stitch back on the needles.")
    if not one and 1 in detail.held:
        held = join("Put the held stitches back on the needles: ", figures(detail.held), ".")
    elif not one:
        held = join("Put the ", figures(detail.held), " held stitches back on the needles.")
    more: Inlines = text(f"Join {yarn}.")
    if any(detail.picked_up):
        gap = _beside(step, "it" if one else "them")
        picked_up = counted(detail.picked_up, "stitch")
        more = join(f"Join {yarn}, and {gap} pick up and knit ", picked_up, ".")
    on = "Go on in the round from there." if unit == "round" and any(detail.picked_up) else ""
    return (paragraph(running(held, more, on, count_after(step))),)


def _beside(step: _Step, them: str) -> str:
    along = step.step.along
    return f"along {along}" if along else f"in the gap beside {them}"


def _from_groups(voice: Voice, piece: PiecePlan, step: _Step) -> Blocks:
    """Named groups in their order, with what is new between them."""
    detail = step.detail
    yarn = f"Join {voice.yarn_names[step.yarn]}."
    if len(detail.parts) == 1:
        (part,) = detail.parts
        held = join("Put the held stitches of ", groups_told(part.names), " back on the needles")
        back: Inlines = join(held, ": ", figures(part.stitches), ".")
        order: Inlines = text(yarn)
    else:
        back = text(f"{yarn} Put these on the needles, in this order.")
        each = (_part(part) for part in detail.parts)
        order = capital_first(join(joined(each, "; "), "."))
    more: Inlines = ()
    if any(detail.picked_up):
        picked_up = counted(detail.picked_up, "stitch")
        more = join(f"{capital(_beside(step, 'them'))} pick up and knit ", picked_up, ".")
    on = "Go on in the round from there." if unit_in(step) == "round" and more else ""
    return (paragraph(running(back, order, more, on, count_after(step))),)


def _part(part: Back) -> Inlines:
    if part.new is not None:
        does = "cast on" if part.new is CountChange.CAST_ON else "pick up and knit"
        return join(f"{does} ", figures(part.stitches))
    return join("the ", figures(part.stitches), " held for ", groups_told(part.names))


def groups_told(names: tuple[str, ...]) -> Inlines:
    """``the left sleeve``; with those of the second, third … time that the piece is made."""
    first, *others = (f"the {name}" for name in names)
    turns = [f"{name} the {ordinal(turn)} time" for turn, name in enumerate(others, start=2)]
    return text(f"{first} ({listed(turns)})" if turns else first)


WORDS = Words(
    PickUpStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
