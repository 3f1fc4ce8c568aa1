"""Two edges joined, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.machinesteps import cranked_off
from bindoff.document.phrases import counted, join, paragraph, running, text
from bindoff.document.stepphrases import unit_of
from bindoff.document.steps.words import Words
from bindoff.document.tree import Blocks, Inlines, Link
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.join import Joined
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.join import JoinStep

_Step = WorkedStep[JoinStep, Joined]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail = step.detail
    if detail.halved:
        return _halves(voice, piece, step)
    unit = unit_of(voice, piece)
    edge: Inlines = text(f"the open loops of the first {unit}, taking out the waste yarn as you go")
    if detail.to:
        title = voice.plan.source.pattern.pieces[detail.to].title
        link = (Link(text(title), f"#piece-{detail.to}"),)
        edge = join("the live stitches of the piece ", link)
    if detail.group:
        edge = text(f"the stitches held for the {detail.group}")
    manner = _manner(voice, step, piece.joins_in_new_yarn(step))
    words = join(
        f"Join all stitches {manner} to ",
        edge,
        ", one to one. Each edge has ",
        counted(detail.stitches, "stitch"),
        ".",
    )
    return (paragraph(running(cranked_off(voice, piece, step), words)),)


def _manner(voice: Voice, step: _Step, new_yarn: bool = False) -> str:
    """How they are joined; ``new_yarn`` says that no tail does it."""
    bind_off = voice.term["bind_off"].replace(" ", "-")
    by_yarn = f" with {voice.yarn_names[step.yarn]}" if new_yarn else ""
    return {
        "grafting": f"by grafting{by_yarn}",
        "sewing": f"by sewing{by_yarn}, the blunt needle through both loops,",
        "three-needle bind-off": f"with a three-needle {bind_off}",
        "slip stitch": f"with {voice.yarn_names[step.yarn]} and crocheted slip stitches, the hook "
        "through both loops,",
    }[step.detail.by]


def _halves(voice: Voice, piece: PiecePlan, step: _Step) -> Blocks:
    """Half of the stitches to the other half."""
    half = counted(step.detail.stitches, "stitch")
    manner = _manner(voice, step)
    words = join(
        "Put the first half of the stitches on one needle and the second half on another. Join "
        f"the two {manner}, one to one. Each needle has ",
        half,
        ".",
    )
    return (paragraph(running(cranked_off(voice, piece, step), words)),)


WORDS = Words(
    JoinStep, tell=_tell, in_full=named_in_full, leads={What.CLOSED: "join "}, tells_rounds=True
)
