"""Two edges joined, in words."""

from bindoff.document.fullrows import named_in_full
from bindoff.document.machinesteps import cranked_off
from bindoff.document.phrases import counted, join, paragraph, running, text
from bindoff.document.stepphrases import unit_of
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.stripewords import closing_tail
from bindoff.document.tree import Blocks, Inlines, Link
from bindoff.document.voice import Voice
from bindoff.english import capital
from bindoff.plan.differences.said import What
from bindoff.plan.steps.join import Joined
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.plan.yarnends import Supply, hangs_on_waste, supply_of
from bindoff.source.steps.join import JoinStep

_Step = WorkedStep[JoinStep, Joined]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail = step.detail
    supply = supply_of(piece, step)
    named = supply is Supply.JOINED or (new_yarn and not piece.from_machine)
    off = cranked_off(voice, piece, step)
    cut = "" if off or named else _cut(voice, piece, step)
    if detail.at_start:
        return _start_halves(voice, piece, step, supply)
    if detail.halved:
        return _halves(voice, step, off, cut, named)
    unit = unit_of(voice, piece)
    edge, as_you_go = text(f"the open loops of the first {unit}"), _WASTE
    if detail.to:
        title = voice.plan.source.pattern.pieces[detail.to].title
        link = (Link(text(title), f"#piece-{detail.to}"),)
        edge, as_you_go = join("the live stitches of the piece ", link), ""
    if detail.group:
        edge, as_you_go = text(f"the stitches held for the {detail.group}"), ""
    opening, how = _manner(voice, step, named)
    words = join(
        f"{opening} all stitches, one to one, to ",
        edge,
        _after(how, as_you_go),
        ". Each edge has ",
        counted(detail.stitches, "stitch"),
        ".",
    )
    return (paragraph(running(off or cut, words)),)


def _cut(voice: Voice, piece: PiecePlan, step: _Step) -> str:
    """The tail that a needle joins with by hand; empty for other ways, and where a tube has it."""
    of_tube = hangs_on_waste(piece, step) or (step.closes is not None and step.closes.start)
    if of_tube and any(each.tubes for each in piece.steps):
        return ""
    tail = closing_tail(piece, step, voice.units, flat=True)
    return f"Cut the yarn, leaving {tail}." if tail else ""


_WASTE = "take the waste yarn out as you go"


def _after(*ways: str) -> str:
    """What is to be done besides, after a colon."""
    told = ", and ".join(filter(None, ways))
    return f": {told}" if told else ""


def _manner(voice: Voice, step: _Step, new_yarn: bool = False) -> tuple[str, str]:
    """The verb that begins the sentence, and how it is done; ``new_yarn`` says that no tail does
    it."""
    bind_off = voice.term["bind_off"].lower().replace(" ", "-")
    yarn = voice.yarn_names[step.yarn]
    by_yarn, yarn_and = (f"With {yarn}, ", f"{yarn} and ") if new_yarn else ("", "")
    return {
        "grafting": (capital(f"{by_yarn}graft"), ""),
        "sewing": (capital(f"{by_yarn}sew"), "pass the blunt needle through both loops each time"),
        "three-needle bind-off": (f"With {yarn_and}a three-needle {bind_off}, join", ""),
        "slip stitch": (
            f"With {yarn} and the crochet hook, join",
            "work slip stitches, the hook through both loops each time",
        ),
    }[step.detail.by]


def _halves(voice: Voice, step: _Step, off: str, cut: str, named: bool) -> Blocks:
    """Half of the stitches to the other half, once they are ``off`` the machine; ``cut`` is how the
    yarn is cut."""
    laid = "Put the first half of the stitches on one needle and the second half on another."
    return (paragraph(running(off, laid, cut, _together(voice, step, named))),)


def _start_halves(voice: Voice, piece: PiecePlan, step: _Step, supply: Supply | None) -> Blocks:
    """Half of the open loops that the piece starts with to the other half, by the tail that a tube
    has left there, else with a yarn of its own."""
    laid = (
        f"Put the first half of the open loops of the first {unit_of(voice, piece)} on one needle "
        f"and the second half on another, and {_WASTE}."
    )
    return (paragraph(running(laid, _together(voice, step, supply is Supply.JOINED))),)


def _together(voice: Voice, step: _Step, new_yarn: bool) -> Inlines:
    opening, how = _manner(voice, step, new_yarn)
    return join(
        f"{opening} the two together, one to one{_after(how)}. Each needle has ",
        counted(step.detail.stitches, "stitch"),
        ".",
    )


WORDS = Words(
    JoinStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.CLOSED: "join "},
    tells_rounds=True,
    tracks=no_tracks,
)
