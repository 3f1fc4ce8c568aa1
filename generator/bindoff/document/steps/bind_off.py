"""Binding off, in words."""

from bindoff import regex as re
from bindoff.diagnostics import fail
from bindoff.document.fullrows import named_in_full
from bindoff.document.machinesteps import bound_off
from bindoff.document.phrases import counted, join, paragraph, running, text
from bindoff.document.prose import inlines
from bindoff.document.stepphrases import after_words, counts, unit_of, with_yarn
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Inlines, Strong
from bindoff.document.voice import Voice
from bindoff.plan.differences.said import What
from bindoff.plan.steps.bind_off import BindOff
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.plan.yarnends import Supply, supply_of
from bindoff.source.steps.bind_off import BindOffStep

_SINGLE_BRACES = re.compile(r"(?<!\{)\{([^{}]*)\}(?!\})")

_BY = {
    "ordinary": "",
    "sewn": " with a sewn edge",
    "i-cord": " with an i-cord edge",
    "picot": " with a picot edge",
    "tubular": " with a tubular edge",
}

# What the edge is like or is for, which is told after how it is made.
_SAYS_WHY = re.compile(
    r"(?:so|as|to|until|till|that|because|since|for|over|along)\b",
    re.IGNORECASE,
)

_WASTE_OUT = "take the waste yarn out"
_DRAWN_THROUGH = "Cut the yarn and draw it through the last stitch."

_Step = WorkedStep[BindOffStep, BindOff]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    how = _how(voice, step)
    if not how and piece.cranked:
        how = text(bound_off(step))
    by = _BY[step.step.by]
    waste = f", and {_WASTE_OUT}" if supply_of(piece, step) is Supply.JOINED else ""
    number = counts(step.detail.stitches)
    if step.detail.start_mm:
        unit, yarn = unit_of(voice, piece), voice.yarn_names[step.yarn]
        words = join(
            f"With the crochet hook and {yarn}, {voice.term['bind_off'].lower()} the open loops of "
            f"the first {unit} in ",
            (Strong(counted(step.detail.stitches, "slip stitch")),),
            f"{waste}.",
        )
        return (paragraph(running(words, _how(voice, step))),)
    if not any(progress.stitches for progress in step.after):
        if set(step.detail.stitches) == {1} and not step.step.how.strip():
            return (paragraph(_DRAWN_THROUGH),)
        how = join(" ", how) if how else ()
        ways = (text(by), how) if by and _SAYS_WHY.match(step.step.how.strip()) else (how, text(by))
        words = join(f"{voice.term['bind_off']} all ", number, *ways, f"{waste}.")
        last = _DRAWN_THROUGH if piece.cranked else ""
        return (paragraph(running(with_yarn(voice, step, new_yarn, words), last)),)
    words = join(f"{voice.term['bind_off']} ", how, " " if how else "", number, by, f"{waste}.")
    left = join(after_words(step), " left.")
    return (paragraph(running(with_yarn(voice, step, new_yarn, words), left)),)


def _how(voice: Voice, step: _Step) -> Inlines:
    """The designer's words, with the figures they name in double braces; single ones would be
    printed as they stand, and are refused."""
    written = step.step.how.strip().rstrip(".")
    if not written:
        return ()
    place = step.step.place.of("how").text_span
    if single := _SINGLE_BRACES.search(written):
        raise fail(
            "prose.braces",
            f"`{single[0]}` would be printed as it stands",
            f"Write the name of a figure in double braces, as in `{{{{ {single[1].strip()} }}}}`",
            place,
        )
    return inlines(written, voice.values, place)


WORDS = Words(
    BindOffStep,
    tell=_tell,
    in_full=named_in_full,
    leads={What.CLOSED: "{bind_off} ", What.METHOD: "{bind_off} "},
    tells_rounds=True,
    tracks=no_tracks,
)
