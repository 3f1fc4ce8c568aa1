"""Shaping at an even pace in words: one pace, or a table of paces."""

from collections.abc import Sequence
from typing import Literal

from bindoff.document.fullrows import in_pattern_throughout, stitch_throughout
from bindoff.document.phrases import (
    NOT_WORKED,
    counted,
    figures,
    join,
    merged,
    often,
    paragraph,
    running,
    text,
)
from bindoff.document.sizetables import sizes_joined
from bindoff.document.stepphrases import (
    count_after,
    headed,
    in_yarn,
    named_side,
    stripped,
    unit_in,
    with_yarn,
)
from bindoff.document.steps.words import Track, Words
from bindoff.document.stitchpatterns import begun
from bindoff.document.tree import Blocks, Column, Inlines, Table
from bindoff.document.voice import Voice
from bindoff.english import capital, how_many, plural, times
from bindoff.plan.spacing import EvenRun, collapse
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.taper import Taper
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.taper import TaperStep

_Step = WorkedStep[TaperStep, Tapered]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    unit = unit_in(step)
    detail = step.detail
    if not any(plan.changes for plan in detail.tapers):
        return _unshaped(voice, step, unit, new_yarn)
    amount = abs(detail.change)
    change = f"{amount} {'stitch' if amount == 1 else 'stitches'}"
    opening = running(
        in_yarn(voice, step, new_yarn),
        begun(voice, step),
        headed(f"shaping {unit}{_shaping_side(step, unit)}"),
        voice.row(detail.shaping),
        f"It adds {change}." if detail.change > 0 else f"It takes away {change}.",
    )
    paces = [pace_words(plan, unit) for plan in detail.tapers]
    between = _plain_between(voice, detail, unit)
    shared = _shared_pace(detail, paces, unit)
    if shared is not None:
        how = join("Work it on ", shared, ".")
        return (paragraph(opening), paragraph(running(how, between, count_after(step))))
    table = Table(
        text("Pace of the shaping"),
        (
            Column(text("Size")),
            Column(text(f"Work the shaping {unit} on"), weight=3.0),
            Column(text(f"{capital(plural(unit))} in all"), align="right"),
            Column(text("Stitches after"), align="right"),
        ),
        sizes_joined(
            voice.sizes,
            [
                (text(pace), figures([plan.rounds]), text(str(progress.stitches)))
                for pace, plan, progress in zip(paces, detail.tapers, step.after, strict=True)
            ],
        ),
    )
    how = text("Work it as the table says for your size.")
    return (paragraph(opening), paragraph(running(how, between)), table)


def _shared_pace(detail: Tapered, paces: Sequence[str], unit: str) -> Inlines | None:
    """One pace for all sizes, if they differ in nothing but numbers."""
    if all(set(plan.intervals) == {1} and not plan.plain_after for plan in detail.tapers):
        return join(f"every {unit} ", often([plan.changes for plan in detail.tapers]))
    if not all(plan.changes for plan in detail.tapers):
        return None
    return merged([text(pace) for pace in paces])


def _tracks(step: _Step) -> tuple[Track, ...]:
    """Where each size shapes; in the round an interval ends with its shaping."""
    unit, detail = unit_in(step), step.detail
    shape_on: Literal["first", "last"] = "last" if unit == "round" else "first"
    return tuple(
        Track(
            unit,
            plan.rounds,
            tuple(
                (row, before.stitches + detail.change * number)
                for number, row in enumerate(plan.shaping_rounds(shape_on), start=1)
            ),
        )
        for plan, before in zip(detail.tapers, step.before, strict=True)
    )


def _unshaped(voice: Voice, step: _Step, unit: str, new_yarn: bool) -> Blocks:
    """A taper that no size needs: its rounds are plain."""
    detail = step.detail
    rounds = [plan.rounds for plan in detail.tapers]
    if not any(rounds):
        return (paragraph("No shaping is needed here."),)
    words = join("work ", counted(rounds, unit), " plain.")
    if 1 in rounds:
        words = join("work plain for ", counted(rounds, unit), ".")
    return (
        paragraph(
            running(with_yarn(voice, step, new_yarn, words), _plain_between(voice, detail, unit))
        ),
    )


def pace_words(plan: Taper, unit: str) -> str:
    """``every 8th round 4 times, then every 9th round twice, then 2 rounds plain``.

    In the round an interval ends with its shaping; flat it begins with it, so that the first row
    of the step is shaped and the last interval leaves plain rows behind.
    """
    if not plan.changes:
        return f"no {unit}; {how_many(plan.rounds, unit)} plain" if plan.rounds else NOT_WORKED
    if unit == "round":
        runs, rest = plan.runs, plan.plain_after
        shaped_first = len(runs) > 1 and runs[0] == EvenRun(1, 1)
        runs = runs[1:] if shaped_first else runs
    else:
        runs, rest = collapse(plan.intervals[:-1]), plan.intervals[-1] - 1 + plan.plain_after
        shaped_first = True
    parts = [f"the first {unit}"] if shaped_first else []
    parts += [f"{_every(run.group, unit)} {times(run.times)}" for run in runs]
    if rest:
        parts.append(f"{how_many(rest, unit)} plain")
    return ", then ".join(parts)


def _every(interval: int, unit: str) -> str:
    match interval:
        case 1:
            return f"every {unit}"
        case 2:
            return f"every other {unit}"
        case _:
            return f"every {_ordinal(interval)} {unit}"


def _ordinal(number: int) -> str:
    endings = {1: "st", 2: "nd", 3: "rd"}
    ending = "th" if number % 100 in (11, 12, 13) else endings.get(number % 10, "th")
    return f"{number}{ending}"


def _plain_between(voice: Voice, detail: Tapered, unit: str) -> Inlines:
    """How the plain rounds are worked, and that they come first where they do."""
    if not _has_plain(detail):
        return ()
    told = [stitch_throughout(row) for row in detail.plain]
    words = [stripped(voice.row(row)) for row in detail.plain]
    many = plural(unit)
    if in_pattern_throughout(detail.plain[0]):
        how: Inlines = text(f"Work the plain {many} in pattern.")
    elif len(detail.plain) == 1:
        how = join(f"Work the plain {many} as ", words[0], ".")
        if told[0]:
            how = text(f"{capital(told[0])} the plain {many}.")
    elif len(detail.plain) == 2 and unit == "row":
        sides = [
            text(f"{verb} the {side}") if verb else join(f"work the {side} as ", said)
            for verb, said, side in zip(told, words, ("right side", "wrong side"), strict=True)
        ]
        how = join("In the plain rows, ", sides[0], " and ", sides[1], ".")
    else:
        count = len(detail.plain)
        how = join(f"The plain {many} follow a turn of {count}, counted from {unit} 1 of this step")
        for number, said in enumerate(words, start=1):
            how = join(how, ": " if number == 1 else "; ", f"{unit} {number}, ", said)
        how = join(how, f". A shaping {unit} takes the place of the one whose turn it is.")
    shaped_late = unit == "round" and any(
        interval > 1 for plan in detail.tapers for interval in plan.intervals
    )
    return running(how, f"The plain {many} come first each time." if shaped_late else "")


def _shaping_side(step: _Step, unit: str) -> str:
    if unit != "row":
        return ""
    return named_side(
        {
            (progress.rounds + number) % 2
            for progress, plan in zip(step.before, step.detail.tapers, strict=True)
            for number in plan.shaping_rounds("first")
        }
    )


def _has_plain(detail: Tapered) -> bool:
    """Whether any size works a round of the taper without shaping."""
    return any(plan.rounds > plan.changes for plan in detail.tapers)


def _in_full(step: _Step, row: Row) -> bool:
    if row == step.detail.shaping:
        return False
    return not _has_plain(step.detail) or bool(stitch_throughout(row))


WORDS = Words(TaperStep, tell=_tell, in_full=_in_full, leads={}, tells_rounds=True, tracks=_tracks)
