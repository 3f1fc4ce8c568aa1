"""How a piece begins and ends: joined, and wide enough to get into."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import At, note_of, steps_of, told_in
from bindoff.diagnostics import Severity
from bindoff.english import how_many
from bindoff.plan.steps.cast_on import RINGS
from bindoff.plan.steps.close import ClosedTop
from bindoff.plan.steps.cord import Cord
from bindoff.plan.yarn import BindOffKind as Method

_STRETCHY = re.compile(
    r"\b(?:loose\w*|stretch\w*|elastic\w*|sewn|tubular|larger needles?|i-cord|picot"
    r"|firm\w*|in rib\w*|not (?:too )?tight\w*)\b",
    re.IGNORECASE,
)
_JOIN = re.compile(
    r"\bjoin\w*\b|\bin (?:the round|rounds)\b[^.;]{0,30}\bfrom (?:here|now|this)\b"
    r"|\bfrom (?:here|now)(?: on)?\b[^.;]{0,30}\bin (?:the round|rounds)\b"
    r"|\b(?:nothing|not|never) (?:\w+ ){0,2}twisted\b"
    r"|\b(?:bring|put|lay|pull)\b[^.;]{0,30}\bends?\b[^.;]{0,15}\btogether\b",
    re.IGNORECASE,
)


_FEW_ROUNDS = 2
"""So many rows may be worked before an edge is joined."""


@check(
    id="edge.join",
    title="A tube that is cast on by hand is joined",
    looks_at="the texts of each piece worked in the round from a cast-on edge, before its second "
    "row",
    why="without a word on joining, some knit a strip, and some join with a twist",
    severity=Severity.WARNING,
    remedy="Add a step such as `say: Join to work in the round without twisting`",
)
def joined(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for plan in context.plan.pieces:
        steps = [at for at in steps_of(context) if at.plan.key == plan.key]
        start = next((at for at in steps if _cast_on(at)), None)
        if start is not None and start.flat:
            yield from _joined_flat(context, start, steps)
        if start is None or start.flat or start.piece.made == "machine":
            continue
        if getattr(start.step.detail, "method", None) in RINGS:
            continue
        worked = [at for at in steps if at.index > start.index and any(at.step.rounds)]
        if worked and isinstance(worked[0].step.detail, Cord):
            continue
        end = worked[1].index if len(worked) > 1 else len(steps)
        if worked and max(worked[0].step.rounds) > _FEW_ROUNDS:
            end = worked[0].index  # what comes later comes too late
        said = " ".join(
            prose.text
            for prose in told_in(context, plan.key)
            if prose.path[2:3] == ("steps",) and int(prose.path[3]) <= end
        )
        if not _JOIN.search(said):
            yield Finding(f"nothing says to join `{plan.key}` in the round", start.step.span)


_JOINS = re.compile(
    r"(?:^|[.;]\s+)(?:Being careful not to twist, )?[Jj]oin\b[^.;]{0,40}?\bin (?:the round|rounds"
    r"|a (?:round|ring))\b|\b[Jj]oin\b[^.;]{0,30}\b(?:twist|circle|ring)"
)


def _joined_flat(context: Context, start: At, steps: Sequence[At]) -> Iterator[Finding]:
    """A cast-on edge that is said to be joined, where the first rows are turned."""
    worked = [at for at in steps if at.index > start.index and any(at.step.rounds)]
    if not worked or not worked[0].flat or max(worked[0].step.rounds) <= _FEW_ROUNDS:
        return
    texts = [
        prose
        for prose in context.prose
        if prose.piece == start.plan.key and prose.path[2:3] == ("steps",)
    ]
    for prose in texts:
        before = start.index <= int(prose.path[3]) < worked[0].index
        for found, place in prose.found(_JOINS) if before and "not join" not in prose.text else ():
            said = found[0].lstrip(".; ")
            yield Finding(f"`{said}` stands here, and the rows after it are turned", place)


@check(
    id="piece.open-ring",
    title="A tube joined end to end is closed, or said to be open",
    looks_at="pieces whose stitches are joined to their own start, and the steps after it",
    why="a tube joined to a ring has two open edges; who makes a hat and reads no more has a cowl",
    severity=Severity.ERROR,
    remedy="Add `- {close: top, by: gathering}` or another closing after the join, or "
    "`by: left open`",
)
def open_ring(context: Context) -> Iterator[Finding]:
    """One finding for each piece from the machine; what a tube by hand becomes is the designer's
    to say."""
    for plan in context.plan.pieces:
        steps = [at for at in steps_of(context) if at.plan.key == plan.key]
        ring = [at for at in steps if at.step.closes and at.step.closes.to == ""]
        cranked = any(at.step.tubes or at.piece.made == "machine" for at in steps)
        if ring and cranked and not any(isinstance(at.step.detail, ClosedTop) for at in steps):
            yield Finding(
                f"after the join `{plan.key}` is a ring, and no step closes it or says that it "
                "stays open",
                ring[-1].step.span,
            )


@check(
    id="piece.open-start",
    title="Loops that are cast on open are taken up",
    looks_at="pieces cast on with waste yarn, or provisionally, and their steps after that",
    why="open loops run as soon as the waste yarn is out, from the first round to the last",
    severity=Severity.ERROR,
    remedy="Add `- bind off: start` where they are made safe, or `- join: start` where the last "
    "round is joined to them, or name them with `for:` and take them up by that name; silence this "
    "where your own words say it",
)
def open_start(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for plan in context.plan.pieces:
        begun = plan.open_start
        if begun is not None and plan.takes_up_start is None:
            loops = how_many(max(each.open_start for each in begun.after), "open loop")
            yield Finding(f"no step takes up the {loops} that `{plan.key}` begins with", begun.span)


def _ends_cord(context: Context, at: At) -> bool:
    """Whether the step closes what was worked as a cord: that is no opening."""
    before = [each for each in steps_of(context) if each.plan.key == at.plan.key]
    worked = [each for each in before if each.index < at.index and any(each.step.rounds)]
    return bool(worked) and isinstance(worked[-1].step.detail, Cord)


def _cast_on(at: At) -> bool:
    begun = at.step.begins
    return begun is not None and begun.by is not None


@check(
    id="edge.stretch",
    title="An opening is bound off so that it stretches",
    looks_at="the last bind-off of each piece worked in the round, its `how:` and its note",
    why="a tight edge does not pass over the head, the hand or the heel",
    severity=Severity.NOTE,
    remedy="Say it in `how:`, such as loosely in the pattern of the rib",
)
def stretchy_end(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for at in steps_of(context):
        closed = at.step.closes
        opens = closed and closed.to is None and not closed.halved
        if closed and opens and closed.by is Method.ORDINARY and not at.flat:
            ends = not any(progress.stitches for progress in at.step.after)
            said = f"{closed.how} {note_of(at)}"
            if ends and not _STRETCHY.search(said) and not _ends_cord(context, at):
                yield Finding("the opening is bound off without a word on stretch", at.step.span)


CHECKS = (joined, open_ring, open_start, stretchy_end)
